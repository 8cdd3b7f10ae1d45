#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Records on one clock: what differs in their sheets, and what it did to the answer.

usage: /usr/bin/python3 compare_test.py TOP PROGRAMS [unittest's arguments]

Reference figures: a small independent model (Churchill-Chu still air, grey radiation, linear
resistance, supports as lumps), "computed here". Held to 2 K or 4 % of the rise over 11 degC, the
larger; where that model lumps a support, to 5 K.
"""

import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
BARN = TOP / "scenarios/cider-barn.yaml"
AIR = 11.0  # degC
LUMPED = 5.0  # K
STOPPED = 3  # the march stops at 250 degC in the rubber

WIRE = """format: run-sheet 1
title: Far from any support
wire:
  metal: {material: copper-tinned, gauge: No. 12}
  layers:
    - {material: rubber-aged-soft, thickness: 1.19 mm}
    - {material: cotton-braid, thickness: 0.5 mm, emissivity: 0.90}
run:
  - {piece: cut-end, name: left, insulated: true}
  - {piece: open, name: wire, length: 0.2 m}
  - {piece: cut-end, name: right, insulated: true}
around: {air: 11 degC}
supply: {mode: current}
staircase: [{hold: 31 A, for: 2 h}]
"""


def march(folder, name, text=None, arrangement=None):
    """A record of a sheet's text, or of the barn's own sheet."""
    sheet, record = folder / f"{name}.yaml" if text else BARN, folder / f"{name}.h5"
    if text:
        sheet.write_text(text, encoding="utf-8")
    chosen = ["--arrangement", arrangement] if arrangement else []
    done = subprocess.run([PROGRAMS / "ampstair", "run", sheet, *chosen, "-o", record, "--quiet"],
                          capture_output=True, text=True, check=False)
    assert done.returncode in (0, STOPPED), done.stderr
    return record


def compared(*records, options=("--json",)):
    done = subprocess.run([PROGRAMS / "ampstair-post", "compare", *records, *options],
                          capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout) if "--json" in options else done.stdout


class Compare(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)

    def near(self, found, wanted, allowed=0.0):
        self.assertAlmostEqual(found, wanted, delta=allowed or max(2.0, 0.04 * abs(wanted - AIR)))

    def test_no_12_against_no_14(self):
        twelve = march(self.folder, "twelve", WIRE)
        fourteen = march(self.folder, "fourteen", WIRE.replace("No. 12", "No. 14"))
        told = compared(twelve, fourteen)
        paths = {found["path"]: found["values"] for found in told["differences"]}
        self.assertEqual([value["text"] for value in paths["wire/metal/gauge"]], ["No. 12", "No. 14"])
        # Diameters of the gauge: 0.005 in 92^((36 - n) / 39).
        for value, number in zip(paths["wire/metal/diameter"], (12, 14)):
            self.assertAlmostEqual(value["value"] / (0.000127 * 92.0 ** ((36 - number) / 39)), 1.0, delta=1e-6)
        self.assertEqual(set(paths) - {"settings/cells in all"},
                         {"wire/metal/gauge", "wire/metal/diameter", "record/sheet_name"})
        self.assertFalse(told["same_sheet_text"])
        first, other = told["steps"][0]["records"]
        self.near(first["hottest_conductor"]["temperature_degC"], 38.6)
        self.near(other["hottest_conductor"]["temperature_degC"], 58.8)
        self.assertAlmostEqual(other["warmer_K"], other["hottest_conductor"]["temperature_degC"]
                               - first["hottest_conductor"]["temperature_degC"], delta=1e-9)

    def test_a_filled_bay_hardly_moves_the_voltmeter(self):
        built = march(self.folder, "built")
        filled = march(self.folder, "filled", arrangement="bay filled")
        told = compared(built, filled)
        self.assertTrue(told["same_sheet_text"])
        self.assertEqual({found["place"] for found in told["differences"]},
                         {"north bay, 4.00 to 4.80 m", "materials cellulose-loose", "settings"})
        first, other = told["steps"][2]["records"]  # 31 A
        self.near(first["hottest_conductor"]["temperature_degC"], 40.8)
        self.near(other["hottest_conductor"]["temperature_degC"], 76.8, LUMPED)
        self.assertEqual(other["hottest_conductor"]["place"].split(" + ")[0], "north bay")
        self.assertAlmostEqual(other["more_V"], 0.018, delta=0.004)
        # The filled bay's march stops within the last step: no difference is given there.
        self.assertIsNone(told["steps"][4]["records"][1]["warmer_K"])
        item = next(item for item in told["items"] if item["name"] == "rubber limit")
        self.assertAlmostEqual(item["records"][0]["crossing"]["time_s"] / 60.0, 67.6, delta=1.0)
        self.assertAlmostEqual(item["records"][1]["crossing"]["time_s"] / 60.0, 46.7, delta=1.0)
        self.assertAlmostEqual(item["records"][1]["later_s"], item["records"][1]["crossing"]["time_s"]
                               - item["records"][0]["crossing"]["time_s"], delta=1e-6)

    def test_nothing_of_a_changed_sheet_is_lost(self):
        text = BARN.read_text(encoding="utf-8")
        changes = {
            "title": ("title: Cider-mill", "title: Another"),
            "wire/layers/1/material": ("material: rubber-aged-soft", "material: rubber-aged-hard"),
            "wire/layers/2/emissivity": ("low: 0.80, high: 0.95, from: assumed", "low: 0.85, high: 0.95, from: assumed"),
            "wire/layers/1/thickness": ("from: loupe on cut end", "from: calliper"),
            "run/T1/bore": ("bore: 9.5 mm", "bore: 10 mm"),
            "run/drop/fit": ("fit: loose, gap: 0.5 mm", "fit: tight"),
            "run/drop/gap": None,
            "around/air/2/at": ("{at: 70 min", "{at: 71 min"),
            "supply/voltage_limit": ("voltage_limit: 2.2 V", "voltage_limit: 2.3 V"),
            "staircase/2/for": ("{hold: 22 A, for: 22 min}", "{hold: 22 A, for: 21 min}"),
            "device/rating": ("rating: 20 A", "rating: 15 A"),
            "watch/wood caution/above": ("above: 77 degC", "above: 78 degC"),
            "instruments/thermocouples/TC1/lag": ("lag: 8 s", "lag: 9 s"),
            "study/members": ("members: 400", "members: 401"),
            "output/every": ("every: 10 s", "every: 12 s"),
        }
        other = text
        for change in filter(None, changes.values()):
            self.assertEqual(other.count(change[0]), 1, change)
            other = other.replace(*change)
        told = compared(march(self.folder, "one", text), march(self.folder, "two", other))
        found = {one["path"] for one in told["differences"]}
        of_sheet = {path for path in found if not path.startswith(("materials/", "settings/", "record/"))}
        self.assertEqual(of_sheet, set(changes))
        self.assertEqual([one["path"] for one in told["differences"] if one["source_only"]],
                         ["wire/layers/1/thickness"])
        self.assertFalse(all(step["same_drive"] for step in told["steps"]))

    def test_the_text_tells_the_same(self):
        one = march(self.folder, "a", WIRE)
        two = march(self.folder, "b", WIRE.replace("length: 0.2 m", "length: 0.3 m"))
        text = compared(one, two, options=())
        self.assertIn("length                        0.2 m", text)
        self.assertIn("0.3 m", text)
        self.assertLessEqual(max(len(line) for line in text.splitlines()[:-2]), 100)
        self.assertIn("not a rating", text)

    def test_one_record_is_not_enough(self):
        record = march(self.folder, "alone", WIRE)
        done = subprocess.run([PROGRAMS / "ampstair-post", "compare", record], capture_output=True, text=True,
                              check=False)
        self.assertEqual(done.returncode, 2)
        self.assertIn("two records", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
