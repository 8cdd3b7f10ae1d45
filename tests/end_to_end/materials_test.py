#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""What `ampstair materials` prints, held against the files of the library themselves.

usage: /usr/bin/python3 materials_test.py TOP PROGRAMS [unittest's arguments]
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

import yaml

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
FOLDER = TOP / "scenarios/materials"
NAMES = sorted(path.stem for path in FOLDER.glob("*.yaml"))
UNITS = {"conductivity": "W/m/K", "density": "kg/m3", "heat_capacity": "J/kg/K", "emissivity": "",
         "resistivity": "ohm m", "melting_point": "degC", "heat_of_fusion": "kJ/kg",
         "moisture": "%"}
SCALES = {"kJ/kg": 1e3, "%": 1e-2}


def number(text, unit):
    """The number of a text as the files write it; temperatures in K."""
    words = str(text).split()
    value = float(words[0])
    if unit == "degC":
        return value + 273.15 if words[1] == "degC" else value
    assert " ".join(words[1:]) == unit, text
    return value * SCALES.get(unit, 1.0)


class Materials(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def done(self, *words, **around):
        outcome = subprocess.run([PROGRAMS / "ampstair", "materials", *words], capture_output=True,
                                 check=False, text=True, cwd=self.folder,
                                 env={**os.environ, "AMPSTAIR_MATERIALS": str(FOLDER), **around})
        return outcome.returncode, outcome.stdout, outcome.stderr

    def test_one_line_a_material(self):
        code, out, err = self.done()
        self.assertEqual((code, err), (0, ""))
        lines = out.splitlines()
        self.assertEqual([line.split()[0] for line in lines[1:lines.index("")]], NAMES)
        for name in NAMES:
            about = yaml.safe_load((FOLDER / f"{name}.yaml").read_text())["about"]
            self.assertTrue(any(line.startswith(name + " ") and line.endswith(about)
                                for line in lines), name)

    def test_a_name_tells_values_bands_sources_and_marks(self):
        code, out, err = self.done("copper-tinned")
        self.assertEqual((code, err), (0, ""))
        for words in ("part metal", "-100 to 231.9 degC", str(FOLDER / "copper-tinned.yaml"),
                      "395 W/m/K  (377 to 401)", "1.7241e-08", "(1.7155e-08 to 1.7931e-08)",
                      "no band: a defining fixed point", "[from memory", "[seen",
                      "above 231.928 degC", "tin melts"):
            self.assertIn(words, out)
        lines = [line for line in out.splitlines() if str(FOLDER) not in line]
        self.assertLessEqual(max(map(len, lines)), 100)

    def test_several_names_in_the_order_asked_for(self):
        code, out, _ = self.done("porcelain", "air")
        self.assertEqual(code, 0)
        self.assertLess(out.index("porcelain:"), out.index("air:"))

    def test_json_holds_what_the_files_hold(self):
        code, out, err = self.done("--json")
        self.assertEqual((code, err), (0, ""))
        told = json.loads(out)
        self.assertEqual(told["schema"], "ampstair materials 1")
        self.assertEqual([material["name"] for material in told["materials"]], NAMES)
        for material in told["materials"]:
            with self.subTest(material["name"]):
                self.same(material, yaml.safe_load(pathlib.Path(material["file"]).read_text()))

    def same(self, told, written):
        self.assertEqual((told["part"], told["about"]), (written["part"], written["about"]))
        marks = sorted(number(mark["above"], "degC") for mark in written.get("marks", []))
        self.assertEqual([mark["above_K"] for mark in told["marks"]], marks)
        properties = {values["property"]: values for values in told["properties"]}
        self.assertEqual(set(properties), set(UNITS) & set(written))
        for key, values in properties.items():
            held = written[key]
            points = held if isinstance(held, list) else [{"value": held}]
            self.assertEqual(len(values["points"]), len(points), key)
            for point, plain in zip(values["points"], points):
                value = plain["value"]
                best = value["best"] if isinstance(value, dict) else value
                self.assertAlmostEqual(point["value"] / number(best, UNITS[key]), 1.0, delta=1e-12)
                if isinstance(value, dict) and "low" in value:
                    self.assertAlmostEqual(point["low"] / number(value["low"], UNITS[key]), 1.0)
                    self.assertAlmostEqual(point["high"] / number(value["high"], UNITS[key]), 1.0)
                if "at" in plain:
                    self.assertAlmostEqual(point["temperature_K"], number(plain["at"], "degC"))
            stated = [source for source in written["sources"] if key in source["of"]]
            self.assertEqual([source["status"] for source in values["sources"]],
                             [source["status"] for source in stated])
            self.assertEqual(values["no_band"], stated[0].get("no_band"))

    def test_an_unknown_name_is_told_with_the_nearest(self):
        code, out, err = self.done("coper")
        self.assertEqual((code, out), (2, ""))
        self.assertIn("error E120 no material 'coper'.", err)
        self.assertIn("try: nearest: copper", err)

    def test_materials_beside_come_first_and_their_faults_are_told(self):
        own = self.folder / "materials"
        own.mkdir()
        text = (FOLDER / "air.yaml").read_text()
        (own / "air.yaml").write_text(text.replace("about: ", "about: our own, "))
        self.assertIn("air: our own, ", self.done("air")[1])
        (own / "air.yaml").write_text(text.replace("    status: from memory\n    band: 2.5 %\n", ""))
        code, out, err = self.done()
        self.assertEqual((code, out), (2, ""))
        self.assertRegex(err, r"materials/air.yaml:18:5: error E122 'status'")

    def test_an_empty_library_says_where_to_look(self):
        code, _, err = self.done("copper", AMPSTAIR_MATERIALS=str(self.folder / "nowhere"))
        self.assertEqual(code, 2)
        self.assertIn("AMPSTAIR_MATERIALS", err)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
