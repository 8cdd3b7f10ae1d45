# Staircases that follow a file, end by a rule or part the wire, from the sheet to the verdict.
add_test(NAME "end to end: Staircases"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/staircase_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} Staircases)
set_tests_properties("end to end: Staircases" PROPERTIES LABELS end_to_end TIMEOUT 120)
