ampstair_test(heat
  FILES heat_air.test.cpp heat_exchange.test.cpp heat_enthalpy.test.cpp heat_gap.test.cpp
  ARROWS heat)
