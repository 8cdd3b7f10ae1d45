ampstair_test(verbs
  FILES verbs_grid_error.test.cpp
  ARROWS verbs marching grid scenario)
