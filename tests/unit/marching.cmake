include(${CMAKE_CURRENT_LIST_DIR}/../verification/scenarios.cmake)
find_package(Eigen3 3.4 REQUIRED NO_MODULE)
ampstair_test(marching
  FILES marching_scheme.test.cpp marching_comb.test.cpp marching_march.test.cpp
        marching_budget.test.cpp marching_drive.test.cpp marching_view.test.cpp marching_validity.test.cpp
        marching_rows.test.cpp marching_gas.test.cpp marching_dense.cpp
  ARROWS marching test_scenarios
  LIBRARIES Eigen3::Eigen)
