ampstair_test(heat
  FILES heat_air.test.cpp heat_exchange.test.cpp heat_enthalpy.test.cpp heat_gap.test.cpp
        heat_cable_practice.test.cpp heat_wood.test.cpp heat_criticality.test.cpp
        heat_fusing.test.cpp heat_ranges.test.cpp
  ARROWS heat)
