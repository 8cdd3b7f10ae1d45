# Writes RESULT, a C++ source that carries the page's style, script, figures and charting library.
# Run as: cmake -D HERE=... -D VEGA=... -D LICENCE=... -D RESULT=... -P embed.cmake

file(READ ${HERE}/page.css style)
file(READ ${HERE}/page.js script)

set(figures "{")
foreach(name timeline strip along overlay envelope section budget)
  file(READ ${HERE}/${name}.json figure)
  string(APPEND figures "\"${name}\":${figure},")
endforeach()
string(REGEX REPLACE ",$" "}" figures "${figures}")

# The library comes in modules that ask for each other; here they are kept by name in one script, in
# an order in which what is asked for is there. Modules for maps, trees and clouds are left out.
file(READ ${LICENCE} licence)
string(REPLACE "*/" "* /" licence "${licence}")
set(charts "/* Vega, from Debian's libjs-vega. Its copyright file:\n${licence}*/\n")
string(APPEND charts "(function(){var kept={};function require(name){return kept[name];}\n")
foreach(module util time format canvas loader statistics scale dataflow transforms scenegraph
               view-transforms encode runtime expression event-selector selection functions view
               parser)
  file(READ ${VEGA}/vega-${module}.min.js text)
  string(REGEX REPLACE "//# sourceMappingURL=[^\n]*" "" text "${text}")
  set(name vega-${module})
  if(module STREQUAL selection)
    set(name vega-selections)  # asked for by this name
  endif()
  string(APPEND charts "(function(exports,module){${text}\nkept['${name}']=exports;})({},{});\n")
endforeach()
string(APPEND charts "['vega-transforms','vega-view-transforms','vega-encode'].forEach(function(name){
Object.assign(kept['vega-dataflow'].transforms,kept[name]);});
window.vega={parse:kept['vega-parser'].parse,View:kept['vega-view'].View};})();\n")
# A script element ends at the first end tag, wherever it stands.
string(REPLACE "</script" "<\\/script" charts "${charts}")

set(source "// Written by embed.cmake.\n#include \"report/resources.hpp\"\n
namespace ampstair::post::report::resources {\n")
foreach(name style script figures charts)
  string(APPEND source "std::string_view ${name}() { return R\"~kept~(${${name}})~kept~\"; }\n")
endforeach()
string(APPEND source "}  // namespace ampstair::post::report::resources\n")
file(WRITE ${RESULT} "${source}")
