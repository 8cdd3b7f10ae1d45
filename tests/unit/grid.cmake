include(${CMAKE_CURRENT_LIST_DIR}/../verification/scenarios.cmake)
ampstair_test(grid
  FILES grid_spacing.test.cpp grid_build.test.cpp grid_bodies.test.cpp grid_facing.test.cpp
  ARROWS grid test_scenarios)
