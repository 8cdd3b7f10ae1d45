ampstair_test(watch
  FILES watch_exceedance.test.cpp watch_dose.test.cpp watch_items.test.cpp watch_settling.test.cpp
        watch_settling_rule.test.cpp
  ARROWS watch sheet diagnostics)
