# The programs as a user has them, on the sheets a user gets.
foreach(case ShippedScenarios GridAndTimeError)
  add_test(NAME "end to end: ${case}"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/shipped_scenarios_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case}" PROPERTIES LABELS end_to_end TIMEOUT 300)
endforeach()
