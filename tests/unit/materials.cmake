ampstair_test(materials
  FILES materials_curve.test.cpp materials_library.test.cpp materials_changing.test.cpp
        materials_copper.test.cpp materials_published.test.cpp
  ARROWS materials sheet quantities diagnostics)
