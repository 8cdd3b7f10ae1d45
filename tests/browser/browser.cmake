# The report page opened in a browser without a network.
foreach(case FirstScreen Beside Figures Grey Envelope Appearance Printed Hostile Readers)
  add_test(NAME "browser: ${case}"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/report_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("browser: ${case}" PROPERTIES LABELS browser TIMEOUT 300)
endforeach()
