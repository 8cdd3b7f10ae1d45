# What is said past the end of the model.
foreach(case Filled AsBuilt)
  add_test(NAME "end to end: ${case} and validity"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/validity_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case} and validity" PROPERTIES LABELS end_to_end TIMEOUT 120)
endforeach()
