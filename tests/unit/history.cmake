# Damaged records are made with HDF5 itself, which the folder's public headers hide.
find_package(HDF5 REQUIRED COMPONENTS C)
add_library(ampstair_history_samples STATIC ${CMAKE_CURRENT_LIST_DIR}/history_sample.cpp
                                            ${CMAKE_CURRENT_LIST_DIR}/history_damaged_records.cpp)
target_include_directories(ampstair_history_samples PUBLIC ${CMAKE_CURRENT_LIST_DIR})
target_link_libraries(ampstair_history_samples PUBLIC ampstair_history
                                               PRIVATE hdf5::hdf5 ampstair_warnings)

ampstair_test(history
  FILES history_record.test.cpp history_refusals.test.cpp history_killed.test.cpp
        history_hostile.test.cpp history_provenance.test.cpp
  ARROWS history diagnostics history_samples)
