ampstair_test(verbs
  FILES verbs_grid_error.test.cpp verbs_large_pages.test.cpp
  ARROWS verbs marching grid scenario)
