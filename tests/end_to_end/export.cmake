# What leaves a record in other formats.
foreach(case Xdmf Json Csv)
  add_test(NAME "end to end: ${case} export"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/export_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case} export" PROPERTIES LABELS end_to_end TIMEOUT 180)
endforeach()
