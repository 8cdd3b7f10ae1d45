#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Shows that arrows.py tells each kind of fault, on a made-up project of three folders."""

import pathlib
import tempfile
import unittest

import arrows

PROJECT = {
    "DEVELOPERS.md": "| Folder | Arrows |\n|---|---|\n| `solver/low` | |\n| `solver/high` | `low` |\n"
                     "| `solver/verbs` | `high` |\n| `postprocess/checks` | `low` |\n",
    "solver/low/CMakeLists.txt": "ampstair_folder(low SOURCES low.cpp)",
    "solver/low/low.cpp": '#include "low/low.hpp"\n',
    "solver/low/low.hpp": "#pragma once\n#include <vector>\n",
    "solver/high/CMakeLists.txt": "ampstair_folder(high\n  SOURCES high.cpp\n  ARROWS low)",
    "solver/high/high.cpp": '#include "high/high.hpp"\n\n#include "low/low.hpp"\n',
    "solver/high/high.hpp": "#pragma once\n",
    "solver/verbs/CMakeLists.txt": "ampstair_folder(verbs SOURCES run.cpp ARROWS high LIBRARIES x)",
    "solver/verbs/run.cpp": '#include "high/high.hpp"\n#include "low/low.hpp"\n',
    "solver/main.cpp": '#include "high/high.hpp"\n',
    "postprocess/checks/CMakeLists.txt": "ampstair_folder(post_checks SOURCES a.cpp ARROWS low)",
    "postprocess/checks/a.cpp": '#include "checks/a.hpp"\n#include "a.hpp"\n#include "low/low.hpp"\n',
    "postprocess/checks/a.hpp": "#pragma once\n",
}


class Arrows(unittest.TestCase):
    def faults(self, **changes):
        with tempfile.TemporaryDirectory() as folder:
            top = pathlib.Path(folder).resolve()
            for name, text in (PROJECT | changes).items():
                (top / name).parent.mkdir(parents=True, exist_ok=True)
                (top / name).write_text(text)
            return arrows.all_faults(top)

    def test_a_lawful_project_has_no_fault(self):
        self.assertEqual(self.faults(), [])

    def test_an_include_against_the_arrows_is_told(self):
        self.assertEqual(
            self.faults(**{"solver/low/low.hpp": '#pragma once\n#include "high/high.hpp"\n'}),
            ['solver/low/low.hpp:2: low may not include "high/high.hpp" '
             "(no arrow leads from low to high)"])

    def test_postprocess_is_held_too(self):
        self.assertEqual(len(self.faults(**{
            "postprocess/checks/a.cpp": '#include "high/high.hpp"\n'})), 1)

    def test_a_roundabout_path_does_not_help(self):
        self.assertEqual(len(self.faults(**{
            "solver/low/low.cpp": '# include "../high/high.hpp"\n'})), 1)

    def test_a_hidden_library_is_told(self):
        self.assertEqual(
            self.faults(**{"solver/high/high.cpp": "#include <yaml-cpp/yaml.h>\n"}),
            ["solver/high/high.cpp:1: <yaml-cpp/yaml.h> belongs to sheet/ alone"])

    def test_a_table_that_differs_from_a_link_line_is_told(self):
        self.assertEqual(len(self.faults(**{
            "solver/high/CMakeLists.txt": "ampstair_folder(high SOURCES high.cpp ARROWS low verbs)"
        })), 1)

    def test_a_folder_missing_from_the_table_is_told(self):
        self.assertEqual(len(self.faults(**{
            "solver/new/CMakeLists.txt": "ampstair_folder(new SOURCES new.cpp)"})), 1)


if __name__ == "__main__":
    unittest.main()
