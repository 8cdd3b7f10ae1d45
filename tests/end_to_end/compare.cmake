# Records set on one clock, from the sheets to what differs and what it did.
add_test(NAME "end to end: Compare"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/compare_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} Compare)
set_tests_properties("end to end: Compare" PROPERTIES LABELS end_to_end TIMEOUT 120)
