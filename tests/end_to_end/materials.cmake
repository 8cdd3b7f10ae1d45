# The verb that prints the materials library.
add_test(NAME "end to end: Materials"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/materials_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} Materials)
set_tests_properties("end to end: Materials" PROPERTIES LABELS end_to_end TIMEOUT 120)
