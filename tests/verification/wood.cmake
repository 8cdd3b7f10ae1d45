include(${CMAKE_CURRENT_LIST_DIR}/scenarios.cmake)
ampstair_test(wood
  FILES wood.test.cpp facing.test.cpp
  ARROWS marching scenario test_scenarios)
