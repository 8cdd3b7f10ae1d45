# The programs fed with what they should refuse, killed, run twice, and asked for the barn's figures.
foreach(case BadInputs Interrupted SameBits Verdicts)
  add_test(NAME "end to end: ${case}"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/programs_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case}" PROPERTIES LABELS end_to_end TIMEOUT 120)
endforeach()
add_test(NAME "end to end: BarnFigures"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/barn_figures_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} BarnFigures)
set_tests_properties("end to end: BarnFigures" PROPERTIES LABELS end_to_end TIMEOUT 120)
# Bars of error against errors known otherwise.
foreach(case ErrorBars EveryPlace Records)
  add_test(NAME "end to end: ${case} of --with-error"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/error_bars_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case} of --with-error" PROPERTIES LABELS end_to_end TIMEOUT 120)
endforeach()
add_test(NAME "end to end: HeatBudget"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/heat_budget_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} HeatBudget)
set_tests_properties("end to end: HeatBudget" PROPERTIES LABELS end_to_end TIMEOUT 120)
