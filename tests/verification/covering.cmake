include(${CMAKE_CURRENT_LIST_DIR}/scenarios.cmake)
ampstair_test(covering
  FILES covering.test.cpp
  ARROWS marching scenario test_scenarios)
