# Writes RESULT, a C++ source that carries the schemas in HERE.
# Run as: cmake -D HERE=... -D RESULT=... -P embed_schemas.cmake
set(source "// Written by embed_schemas.cmake.\n#include \"export/schemas.hpp\"\n
namespace ampstair::post::tables {\n")
foreach(name compare export verdict)
  file(READ ${HERE}/${name}.json schema)
  string(APPEND source
         "std::string_view ${name}_schema() { return R\"~kept~(${schema})~kept~\"; }\n")
endforeach()
string(APPEND source "}  // namespace ampstair::post::tables\n")
file(WRITE ${RESULT} "${source}")
