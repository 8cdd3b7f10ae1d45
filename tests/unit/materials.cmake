ampstair_test(materials
  FILES materials_curve.test.cpp materials_library.test.cpp materials_copper.test.cpp
  ARROWS materials sheet quantities diagnostics)
