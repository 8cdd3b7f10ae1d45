include(${CMAKE_CURRENT_LIST_DIR}/scenarios.cmake)
ampstair_test(covering
  FILES bare_covering.test.cpp covering.test.cpp
  ARROWS marching scenario test_scenarios)
