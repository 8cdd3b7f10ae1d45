# What must hold of the repository as a whole. The scripts tell what they look for.
set(here ${CMAKE_CURRENT_LIST_DIR})

function(ampstair_repository_test name)
  add_test(NAME "repository: ${name}" COMMAND ${AMPSTAIR_PYTHON} -B ${ARGN})
  set_tests_properties("repository: ${name}" PROPERTIES LABELS repository TIMEOUT 120)
endfunction()

ampstair_repository_test("every include follows an arrow" ${here}/arrows.py ${PROJECT_SOURCE_DIR})
ampstair_repository_test("an include against the arrows is told" ${here}/arrows_test.py)
ampstair_repository_test("upkeep tells what is amiss" ${here}/upkeep_test.py)
foreach(check top_level licence_lines machine_paths links two_commands cautions exit_codes
        equation_pages)
  string(REPLACE _ " " named ${check})
  ampstair_repository_test("${named}" ${here}/upkeep.py ${PROJECT_SOURCE_DIR} ${check})
endforeach()

# Another release of the formatter lays code out differently: Debian 12's is the one.
find_program(CLANG_FORMAT clang-format-14)
find_program(SHELLCHECK shellcheck)
if(CLANG_FORMAT)
  ampstair_repository_test("formatting" ${here}/upkeep.py ${PROJECT_SOURCE_DIR}
                           formatting ${CLANG_FORMAT})
endif()
if(SHELLCHECK)
  ampstair_repository_test("scripts" ${here}/upkeep.py ${PROJECT_SOURCE_DIR} scripts ${SHELLCHECK})
endif()
if(NOT CLANG_FORMAT OR NOT SHELLCHECK)
  message(WARNING "clang-format-14 or shellcheck is missing: layout or scripts go unchecked")
endif()
