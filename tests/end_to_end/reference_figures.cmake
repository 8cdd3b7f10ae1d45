# Settling, instruments, device and changed limits against an independent model's figures.
foreach(case Settling Instruments DeviceOpening LimitsChanged)
  add_test(NAME "end to end: ${case} of the reference"
    COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/reference_figures_test.py
            ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${case})
  set_tests_properties("end to end: ${case} of the reference" PROPERTIES LABELS end_to_end TIMEOUT 120)
endforeach()
