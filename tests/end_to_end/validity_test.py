#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Where the model ends: what run, record and verdict say past it.

usage: /usr/bin/python3 validity_test.py TOP PROGRAMS [unittest's arguments]

The barn with its bay filled comes to 250 degC in the rubber at about the 94th minute by a small
independent model of the same invented barn (a reference figure, good to some minutes).
"""

import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
STOPPED = 3
REASON = "an exemplar in a hood, watched by two people"


def done(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)


class Filled(unittest.TestCase):
    """The barn with its bay filled, stopped and with a reason to go on."""

    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        folder = pathlib.Path(cls.scratch.name)
        (folder / "materials").symlink_to((TOP / "scenarios/materials").resolve())
        barn = (TOP / "scenarios/cider-barn.yaml").read_text()
        for name, more in (("stopped", ""), ("on", f'\nbeyond: {{reason: "{REASON}"}}\n')):
            (folder / f"{name}.yaml").write_text(barn + more)
        cls.folder = folder
        cls.told = {name: done(PROGRAMS / "ampstair", "run", folder / f"{name}.yaml", "-o",
                               folder / f"{name}.h5", "--arrangement", "bay filled")
                    for name in ("stopped", "on")}

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def verdict(self, name):
        return json.loads(done(PROGRAMS / "ampstair-post", "verdict", self.folder / f"{name}.h5",
                               "--json").stdout)

    def flag(self, verdict, code):
        found = [flag for flag in verdict["validity"] if flag["code"] == code]
        self.assertTrue(found, code)
        return found[0]

    def test_the_staircase_stops_at_250_degrees_in_the_rubber(self):
        told = self.told["stopped"]
        self.assertEqual(told.returncode, STOPPED, told.stderr)
        self.assertIn("V310 stop", told.stdout)
        self.assertIn("beyond: {reason:", told.stdout)
        with h5py.File(self.folder / "stopped.h5") as record:
            self.assertEqual(record.attrs["finished"], 1)
            self.assertNotIn("beyond", record.attrs)
            table = record["validity"]
            stop = list(table["code"].asstr()[:]).index("V310")
            self.assertEqual(table["severity"].asstr()[stop], "stop")
            self.assertAlmostEqual(table["time"][stop], record["time"][-1], delta=1e-6)
            self.assertAlmostEqual(table["time"][stop] / 60.0, 94.0, delta=4.0)
            self.assertAlmostEqual(table["current"][stop], record["current"][-1], delta=1e-6)
            self.assertAlmostEqual(float(np.max(record["conductor_temperature"][-1])), 250.0, delta=0.01)

    def test_nothing_is_clear_of_a_staircase_that_stopped(self):
        items = {item["name"]: item for item in self.verdict("stopped")["items"]}
        self.assertEqual(items["rubber limit"]["state"], "crossed")  # long before
        self.assertEqual(items["wood caution"]["state"], "cannot say")
        self.assertIn("stopped at", items["wood caution"]["remark"])

    def test_with_a_reason_it_goes_on_and_says_so_everywhere(self):
        told = self.told["on"]
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertIn(REASON, told.stdout)
        with h5py.File(self.folder / "on.h5") as record:
            self.assertEqual(record.attrs["beyond"], REASON)
            self.assertAlmostEqual(record["time"][-1], 6600.0, delta=1e-6)
        verdict = self.verdict("on")
        self.assertEqual(verdict["run"]["beyond"], REASON)
        self.assertTrue(any(REASON in note for note in verdict["notes"]))
        self.assertIn(REASON, done(PROGRAMS / "ampstair-post", "show", self.folder / "on.h5").stdout)

    def test_numbers_beyond_the_model_are_told_with_the_reason_or_not_at_all(self):
        verdict = self.verdict("on")
        self.assertEqual(self.flag(verdict, "V310")["severity"], "beyond")
        first = min(flag["time_s"] for flag in verdict["validity"]
                    if flag["severity"] == "beyond" and flag["part"] in ("rubber", "conductor"))
        self.assertGreater(verdict["hottest_conductor"]["time_s"], first)
        # Without the reason, a part without a stop ends at its range: the same record, unstamped.
        unstamped = self.folder / "unstamped.h5"
        unstamped.write_bytes((self.folder / "on.h5").read_bytes())
        with h5py.File(unstamped, "r+") as record:
            del record.attrs["beyond"]
        verdict = self.verdict("unstamped")
        self.assertLessEqual(verdict["hottest_conductor"]["time_s"], first)
        for step in verdict["steps"]:
            for part in step["parts"]:
                if part["part"] == "conductor":
                    self.assertLessEqual(part["greatest"]["time_s"], first)

    def test_a_crossing_beyond_the_model_says_so(self):
        watch = self.folder / "watch.yaml"
        watch.write_text("watch:\n  - {name: far too hot, part: conductor, above: 300 degC, from: invented for this test}\n"
                         "  - {name: never, part: conductor, above: 1000 degC, from: invented for this test}\n")
        items = json.loads(done(PROGRAMS / "ampstair-post", "verdict", self.folder / "on.h5", "--watch",
                                watch, "--json").stdout)["items"]
        self.assertEqual(items[0]["state"], "crossed")
        self.assertIn("beyond what the model holds for from", items[0]["remark"])
        self.assertEqual(items[1]["state"], "cannot say")

    def test_solder_is_told_where_it_would_begin_to_melt(self):
        # 183 degC, the eutectic of tin and lead (seen).
        flags = [flag for flag in self.verdict("stopped")["validity"] if "solder" in flag["text"]]
        self.assertEqual([flag["severity"] for flag in flags], ["note"])
        self.assertAlmostEqual(flags[0]["value"], 183.0, delta=0.01)
        self.assertIn("solder", done(PROGRAMS / "ampstair-post", "verdict",
                                     self.folder / "stopped.h5").stdout)


class AsBuilt(unittest.TestCase):
    def test_a_run_within_all_ranges_has_an_empty_table(self):
        with tempfile.TemporaryDirectory() as scratch:
            record_path = pathlib.Path(scratch) / "barn.h5"
            told = done(PROGRAMS / "ampstair", "run", TOP / "scenarios/cider-barn.yaml", "-o", record_path)
            self.assertEqual(told.returncode, 0, told.stderr)
            with h5py.File(record_path) as record:
                self.assertEqual(len(record["validity/code"]), 0)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]] + sys.argv[3:], verbosity=2)
