ampstair_test(quantities
  FILES quantities_parse.test.cpp quantities_faults.test.cpp quantities_gauge.test.cpp
        quantities_format.test.cpp
  ARROWS quantities)
