find_package(Threads REQUIRED)
include(${CMAKE_CURRENT_LIST_DIR}/scenarios.cmake)
ampstair_test(verification
  FILES order_in_space.test.cpp order_in_time.test.cpp exact.test.cpp resistance.test.cpp
        surfaces.test.cpp surroundings.test.cpp bay.test.cpp layers.test.cpp time_constants.test.cpp along_the_wire.test.cpp
        feedback.test.cpp series.test.cpp linear.test.cpp same_bits.test.cpp
        hard_marches.test.cpp events.test.cpp worked_examples.test.cpp ageing.test.cpp
  ARROWS marching scenario watch test_scenarios
  LIBRARIES Threads::Threads)
ampstair_test(drive
  FILES parting.test.cpp moving_levels.test.cpp supply_limits.test.cpp joints.test.cpp
  ARROWS marching scenario watch test_scenarios)
