# Scenarios built as structs, and their marches: what the tests of grid, marching and the
# verification share.
include_guard(GLOBAL)
add_library(ampstair_test_scenarios STATIC ${CMAKE_CURRENT_LIST_DIR}/scenarios.cpp
                                           ${CMAKE_CURRENT_LIST_DIR}/exact_solutions.cpp
                                           ${CMAKE_CURRENT_LIST_DIR}/observed_order.cpp
                                           ${CMAKE_CURRENT_LIST_DIR}/even_steps.cpp
                                           ${CMAKE_CURRENT_LIST_DIR}/kinds_of_cell.cpp
                                           ${CMAKE_CURRENT_LIST_DIR}/every_piece.cpp)
target_include_directories(ampstair_test_scenarios PUBLIC ${CMAKE_CURRENT_LIST_DIR})
target_link_libraries(ampstair_test_scenarios PUBLIC ampstair_marching PRIVATE ampstair_warnings)
