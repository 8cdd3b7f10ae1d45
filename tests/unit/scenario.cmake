ampstair_test(scenario
  FILES scenario_barn.test.cpp scenario_build.test.cpp scenario_rejected.test.cpp
        scenario_spot.test.cpp scenario_staircase.test.cpp scenario_surroundings.test.cpp
  ARROWS scenario materials watch sheet quantities diagnostics)
