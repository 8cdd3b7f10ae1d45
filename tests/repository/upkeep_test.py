#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Shows that the checks of upkeep.py can fail, on a made-up project."""

import pathlib
import tempfile
import unittest

import upkeep

CODE = "// " + upkeep.LICENCE + "\n#pragma once\n"


class Upkeep(unittest.TestCase):
    def faults(self, check, **changes):
        project = {"solver/a.hpp": CODE, "README.md": "[code](solver/a.hpp) [web](https://x.y)\n",
                   **{name: "" for name in ("CMakeLists.txt", "DEVELOPERS.md", "LICENSE",
                                            "scenarios/a", "postprocess/a", "tests/a",
                                            "validation/a")}}
        with tempfile.TemporaryDirectory() as folder:
            top = pathlib.Path(folder).resolve()
            for name, text in (project | changes).items():
                (top / name).parent.mkdir(parents=True, exist_ok=True)
                (top / name).write_text(text)
            return check(top, [])

    def test_a_tidy_project_has_no_fault(self):
        for check in (upkeep.top_level, upkeep.licence_lines, upkeep.machine_paths, upkeep.links):
            self.assertEqual(self.faults(check), [])

    def test_a_stray_entry(self):
        self.assertEqual(self.faults(upkeep.top_level, **{"notes.txt": ""}),
                         ["notes.txt: does not belong at the top level"])

    def test_a_source_without_licence(self):
        self.assertEqual(len(self.faults(upkeep.licence_lines, **{"solver/b.cpp": "int b;\n"})), 1)

    def test_paths_of_a_machine(self):
        for path in ("home/someone/x", "work/x.h5", "root", "tmp/out", "Users/me"):
            text = CODE + f'const char* p = "/{path}";\n'
            self.assertEqual(len(self.faults(upkeep.machine_paths, **{"solver/p.cpp": text})), 1,
                             path)

    def test_words_with_a_stroke_are_no_path(self):
        text = CODE + "// solver/home and validation/work/x, a/root, <tmp>/x, //homework\n"
        self.assertEqual(self.faults(upkeep.machine_paths, **{"solver/p.cpp": text}), [])

    def test_a_link_to_nothing(self):
        self.assertEqual(self.faults(upkeep.links, **{"tests/x.md": "[gone](gone.md#part)\n"}),
                         ["tests/x.md: gone.md leads nowhere"])

    def test_equation_pages(self):
        there = {"solver/heat/a.cpp": CODE, "solver/heat/a.md": "Files: `a.*`, `a.cpp`.\n",
                 "DEVELOPERS.md": "[a](solver/heat/a.md)\n"}
        self.assertEqual(self.faults(upkeep.equation_pages, **there), [])
        for change, fault in (
                ({"solver/heat/a.md": "`a.cpp` `b.cpp`\n"}, "names b.cpp"),
                ({"solver/heat/b.cpp": CODE}, "no page of solver/heat names it"),
                ({"DEVELOPERS.md": ""}, "does not lead to solver/heat/a.md")):
            faults = self.faults(upkeep.equation_pages, **there | change)
            self.assertEqual(len(faults), 1, faults)
            self.assertIn(fault, faults[0])


if __name__ == "__main__":
    unittest.main()
