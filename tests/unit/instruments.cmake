ampstair_test(instruments
  FILES instruments_camera.test.cpp instruments_thermocouple.test.cpp instruments_touch.test.cpp
        instruments_voltmeter.test.cpp
  ARROWS instruments diagnostics)
