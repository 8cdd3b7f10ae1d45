# SUNDIALS CVODE as an independent integrator of the same heat balance. Debian's own configuration of
# SUNDIALS asks for all its libraries at once, so those needed are looked up one by one.
find_path(SUNDIALS_INCLUDE cvode/cvode.h REQUIRED)
find_path(KLU_INCLUDE klu.h PATH_SUFFIXES suitesparse REQUIRED)
add_library(ampstair_test_peer STATIC ${CMAKE_CURRENT_LIST_DIR}/peer_cases.cpp
                                      ${CMAKE_CURRENT_LIST_DIR}/peer_cvode.cpp
                                      ${CMAKE_CURRENT_LIST_DIR}/peer_jacobian.cpp
                                      ${CMAKE_CURRENT_LIST_DIR}/forced_balance.cpp)
foreach(library sundials_cvode sundials_nvecserial sundials_sunmatrixsparse sundials_sunmatrixband
                sundials_sunlinsolklu sundials_sunlinsolband sundials_generic klu)
  find_library(PEER_${library} ${library} REQUIRED)
  target_link_libraries(ampstair_test_peer PRIVATE ${PEER_${library}})
endforeach()
target_include_directories(ampstair_test_peer SYSTEM PRIVATE ${SUNDIALS_INCLUDE} ${KLU_INCLUDE})
target_compile_definitions(ampstair_test_peer PRIVATE
  AMPSTAIR_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}")
include(${CMAKE_CURRENT_LIST_DIR}/scenarios.cmake)
target_link_libraries(ampstair_test_peer PUBLIC ampstair_test_scenarios ampstair_scenario
                                         PRIVATE ampstair_warnings)
ampstair_test(peer FILES peer_histories.test.cpp peer_jacobian.test.cpp manufactured.test.cpp
              ARROWS marching scenario test_peer test_scenarios)
# Not among the tests, but of the same parts.
include(${PROJECT_SOURCE_DIR}/tests/bench/peer_bench.cmake)
