# The benchmark behind tests/bench/peer.sh: built when asked for, no part of the tests.
find_package(fmt REQUIRED)
add_executable(peer_bench EXCLUDE_FROM_ALL
  ${CMAKE_CURRENT_LIST_DIR}/peer_bench.cpp ${CMAKE_CURRENT_LIST_DIR}/contest.cpp
  ${CMAKE_CURRENT_LIST_DIR}/machine.cpp)
target_include_directories(peer_bench PRIVATE ${CMAKE_CURRENT_LIST_DIR} ${PROJECT_SOURCE_DIR}/solver)
target_link_libraries(peer_bench PRIVATE ampstair_test_peer ampstair_scenario fmt::fmt
                                         ampstair_warnings)
target_compile_definitions(peer_bench PRIVATE AMPSTAIR_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}"
  AMPSTAIR_PROGRAM="$<TARGET_FILE:ampstair>"
  AMPSTAIR_COMPILED_BY="${CMAKE_CXX_COMPILER_ID} ${CMAKE_CXX_COMPILER_VERSION}"
  AMPSTAIR_COMPILED_WITH="${CMAKE_CXX_FLAGS} ${CMAKE_CXX_FLAGS_RELEASE} -std=c++20")
add_dependencies(peer_bench ampstair)
