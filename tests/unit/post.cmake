# A small run of invented numbers, held in memory or written as a record.
add_library(ampstair_post_samples STATIC ${CMAKE_CURRENT_LIST_DIR}/post_sample.cpp)
target_include_directories(ampstair_post_samples PUBLIC ${CMAKE_CURRENT_LIST_DIR}
                                                        ${PROJECT_SOURCE_DIR}/solver
                                                        ${PROJECT_SOURCE_DIR}/postprocess)
target_link_libraries(ampstair_post_samples PUBLIC ampstair_post_checks
                                            PRIVATE ampstair_warnings)
find_package(nlohmann_json REQUIRED)

ampstair_test(post
  FILES post_budget.test.cpp post_judge.test.cpp post_places.test.cpp post_verdict.test.cpp
        post_export.test.cpp post_command_line.test.cpp post_device.test.cpp post_page.test.cpp
        post_readings.test.cpp post_settling.test.cpp post_compare.test.cpp
        post_validity.test.cpp
  ARROWS post_samples post_verbs post_export post_report post_checks history watch diagnostics)
target_link_libraries(test_post PRIVATE nlohmann_json::nlohmann_json)
