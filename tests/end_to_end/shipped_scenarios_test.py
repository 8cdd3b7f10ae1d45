#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Run sheet in, verdict out: the two programs on the shipped scenarios, and the record in between.

usage: /usr/bin/python3 shipped_scenarios_test.py TOP PROGRAMS [unittest's arguments]
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import h5py
import jsonschema
import numpy as np
import yaml

HERE = pathlib.Path(__file__).parent
TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
SCENARIOS = sorted((TOP / "scenarios").glob("*.yaml"))


def done(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True,
                          check=False)


def cautions():
    header = (TOP / "postprocess/checks/cautions.hpp").read_text()
    body = re.search(r"cautions = \{(.*?)\};", header, re.DOTALL).group(1)
    return ["".join(re.findall(r'"([^"]*)"', literal))
            for literal in re.findall(r'(?:"[^"]*"\s*)+', body)]


class JsonLikeLoader(yaml.SafeLoader):
    """YAML as JSON knows it: a date stays a text."""


JsonLikeLoader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if not tag.endswith(":timestamp")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()}


class Scratch(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def must(self, *command, code=0):
        outcome = done(*command)
        self.assertEqual(outcome.returncode, code, f"{command}\n{outcome.stdout}{outcome.stderr}")
        return outcome.stdout

    def march(self, sheet):
        record = self.folder / (sheet.stem + ".h5")
        self.must(PROGRAMS / "ampstair", "run", sheet, "--record", record, "--quiet")
        return record

    def march_barn(self, name, output):
        """The barn with other settings; its hottest conductor at the end of every step, degC."""
        text = (TOP / "scenarios/cider-barn.yaml").read_text()
        changed, places = re.subn(r"(?m)^output:.*$", f"output: {{every: 10 s, {output}}}", text)
        self.assertEqual(places, 1)
        sheet = self.folder / f"{name}.yaml"
        sheet.write_text(changed)
        with h5py.File(self.march(sheet)) as record:
            rows = np.searchsorted(record["time"][:], record["steps/end"][:] - 1e-6)
            return np.nanmax(record["conductor_temperature"][:][rows], axis=1)


class ShippedScenarios(Scratch):
    def test_there_are_four_or_more(self):
        self.assertGreaterEqual(len(SCENARIOS), 4)

    def test_each_says_in_a_comment_what_it_teaches(self):
        for sheet in SCENARIOS:
            self.assertRegex(sheet.read_text(), r"(?im)#.*\bteaches\b", sheet.name)

    def test_check_finds_no_fault(self):
        for sheet in SCENARIOS:
            self.must(PROGRAMS / "ampstair", "check", sheet)

    def test_the_completed_sheet_is_a_sheet_again(self):
        for sheet in SCENARIOS:
            completed = self.folder / sheet.name
            completed.write_text(self.must(PROGRAMS / "ampstair", "check", sheet, "--full"))
            self.must(PROGRAMS / "ampstair", "check", completed)

    def test_the_printed_schema_takes_the_sheets_and_refuses_an_unknown_key(self):
        schema = json.loads(self.must(PROGRAMS / "ampstair", "keys", "--schema"))
        jsonschema.Draft202012Validator.check_schema(schema)
        for sheet in SCENARIOS:
            content = yaml.load(sheet.read_text(), JsonLikeLoader)
            jsonschema.validate(content, schema)
            with self.assertRaises(jsonschema.ValidationError):
                jsonschema.validate(content | {"runn": []}, schema)

    def test_energy_closes_at_every_output(self):
        for sheet in SCENARIOS:
            with h5py.File(self.march(sheet)) as record:
                made, gap = record["heat_made"][:], record["ledger_gap"][:]
                self.assertGreater(made[-1], 0, sheet.name)
                lost, stored = record["heat_lost"][:], record["heat_stored"][:]
                np.testing.assert_allclose(made - lost - stored, gap, atol=1e-9 * made[-1])
                # Until the first output something must have been made for a ratio to mean anything.
                self.assertLess(np.max(np.abs(gap[1:]) / made[1:]), 1e-12, sheet.name)

    def test_the_record_opens_without_our_code(self):
        for sheet in SCENARIOS:
            record = self.march(sheet)
            self.must(sys.executable, HERE / "open_record.py", record)
            header = self.must("h5dump", "-H", record)
            self.assertIn('DATASET "conductor_temperature"', header)

    def test_the_verdict_ends_with_both_cautions(self):
        for sheet in SCENARIOS:
            outcome = done(PROGRAMS / "ampstair-post", "verdict", self.march(sheet))
            self.assertIn(outcome.returncode, (0, 1, 3), outcome.stderr)
            tail = " ".join(" ".join(outcome.stdout.splitlines()[-8:]).split())
            self.assertTrue(tail.endswith(" ".join(cautions())), tail)

    def test_a_second_march_does_not_replace_a_record_unasked(self):
        sheet = SCENARIOS[-1]
        record = self.march(sheet)
        before = record.read_bytes()
        self.must(PROGRAMS / "ampstair", "run", sheet, "-o", record, code=2)
        self.assertEqual(record.read_bytes(), before)
        self.must(PROGRAMS / "ampstair", "run", sheet, "-o", record, "--overwrite")


class GridAndTimeError(Scratch):
    """The barn's hottest conductor hardly depends on the settings of the method."""

    def test_halving_the_grid(self):
        default = self.march_barn("default", "grid: 5 mm, radial_cells: 24")
        halved = self.march_barn("halved", "grid: 2.5 mm, radial_cells: 48")
        np.testing.assert_allclose(halved, default, rtol=0, atol=0.02)

    def test_halving_the_time_error(self):
        default = self.march_barn("default", "grid: 5 mm, radial_cells: 24, accuracy: 0.03 K")
        halved = self.march_barn("halved", "grid: 5 mm, radial_cells: 24, accuracy: 0.015 K")
        np.testing.assert_allclose(halved, default, rtol=0, atol=0.02)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
