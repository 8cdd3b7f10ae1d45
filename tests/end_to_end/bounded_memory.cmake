# What reading a long record takes.
add_test(NAME "end to end: BoundedMemory"
  COMMAND ${AMPSTAIR_PYTHON} -B ${CMAKE_CURRENT_LIST_DIR}/bounded_memory_test.py
          ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} BoundedMemory)
set_tests_properties("end to end: BoundedMemory" PROPERTIES LABELS end_to_end TIMEOUT 180)
