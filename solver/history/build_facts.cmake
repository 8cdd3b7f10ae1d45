# Run at every build (cmake -P): writes build_facts.cpp, and touches it only if something changed.
# SOURCE_DIR: top of the project. A release unpacked inside somebody else's checkout must not carry
# that checkout's commit, hence the look at the top level.
set(COMMIT unknown)
find_package(Git QUIET)
if(GIT_FOUND)
  execute_process(COMMAND ${GIT_EXECUTABLE} -C ${SOURCE_DIR} rev-parse --show-prefix
                  OUTPUT_VARIABLE prefix RESULT_VARIABLE outside
                  OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
  if(outside EQUAL 0 AND prefix STREQUAL "")
    execute_process(COMMAND ${GIT_EXECUTABLE} -C ${SOURCE_DIR}
                            describe --always --dirty --abbrev=40 --exclude=*
                    OUTPUT_VARIABLE described RESULT_VARIABLE failed
                    OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
    if(failed EQUAL 0)
      set(COMMIT ${described})
    endif()
  endif()
endif()
configure_file(${CMAKE_CURRENT_LIST_DIR}/build_facts.cpp.in ${OUTPUT} @ONLY)
