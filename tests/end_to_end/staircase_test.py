#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Staircases that follow a file, end by a rule or part the wire: sheet in, record and verdict out.

usage: /usr/bin/python3 staircase_test.py TOP PROGRAMS [unittest's arguments]
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
SOLVER, JUDGE = PROGRAMS / "ampstair", PROGRAMS / "ampstair-post"

SHEET = """format: run-sheet 1
title: Short open run
wire:
  metal: {{material: copper, gauge: No. 14}}
run:
  - {{piece: cut-end, name: left, insulated: true}}
  - {{piece: open, name: leg, length: 100 mm}}
  - {{piece: cut-end, name: right, insulated: true}}
around: {{air: 20 degC}}
supply: {{mode: current}}
shape: any
staircase: {staircase}
device: {{kind: plug-fuse, rating: 20 A, must_hold: 1.1, must_open: [{{times: 1.35, within: 60 min}}, {{times: 2, within: 2 min}}], from: invented for this test}}
output: {{every: 60 s}}
{more}"""


class Staircases(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def must(self, *command, codes=(0,)):
        outcome = subprocess.run([str(word) for word in command], capture_output=True, text=True,
                                 check=False)
        self.assertIn(outcome.returncode, codes, outcome.stdout + outcome.stderr)
        return outcome.stdout

    def march(self, staircase, more=""):
        sheet, record = self.folder / "sheet.yaml", self.folder / "sheet.h5"
        sheet.write_text(SHEET.format(staircase=staircase, more=more))
        return self.must(SOLVER, "run", sheet, "-o", record), record

    def test_a_covering_that_burns_away_leaves_the_conductor_bare(self):
        record = self.folder / "loft.h5"
        told = self.must(SOLVER, "run", TOP / "scenarios/net-loft.yaml", "-o", record)
        self.assertIn("The covering is gone from", told)
        with h5py.File(record) as kept:
            gone = [i for i, kind in enumerate(kept["events/kind"].asstr()[:])
                    if kind == "covering_gone"]
            first = kept["events/time"][gone[0]]
            self.assertEqual({kept["events/part"].asstr()[i] for i in gone}, {"covering"})
            for i in gone:  # at its limit: its outside, the last of it to get there
                self.assertAlmostEqual(kept["events/temperature"][i], 330.0, delta=0.01)
            time = kept["time"][:]
            self.assertEqual(np.count_nonzero(time == first), 2)  # before and after
            before, after = np.flatnonzero(time == first)
            conductor, surface = kept["conductor_temperature"], kept["surface_temperature"]
            hottest = np.argmax(conductor[before])
            self.assertGreater(conductor[before, hottest] - surface[before, hottest], 100.0)
            self.assertAlmostEqual(conductor[after, hottest], surface[after, hottest], delta=0.05)
            # What it held went with it: it is lost, and no longer stored.
            lost, stored = kept["heat_lost"], kept["heat_stored"]
            self.assertGreater(lost[after] - lost[before], 0.2 * stored[before])
            self.assertAlmostEqual(lost[after] - lost[before], stored[before] - stored[after],
                                   delta=1e-9 * stored[before])
            codes = kept["validity/code"].asstr()[:]
            self.assertEqual(list(codes).count("V330"), 3)  # one for each open piece

    def test_a_day_of_a_row_a_minute_is_marched_and_kept(self):
        ampere = [10.0 + 15.0 * (minute // 60 % 2) + 0.01 * minute for minute in range(1440)]
        rows = "\n".join(f"{minute}, {level:.2f}" for minute, level in enumerate(ampere))
        (self.folder / "day.csv").write_text("time [min], current [A]\n" + rows + "\n")
        _, record = self.march("[{load: day.csv, for: 24 h}]")
        with h5py.File(record) as kept:
            np.testing.assert_allclose(kept["legs/begin"][:], 60.0 * np.arange(1440))
            np.testing.assert_allclose(kept["legs/level"][:], ampere, atol=5e-3)
            self.assertEqual(set(kept["legs/file"].asstr()[:]), {"day.csv"})
            self.assertEqual(kept["files/text"].asstr()[:].tolist(),
                             [(self.folder / "day.csv").read_text()])
            self.assertEqual(list(kept["steps/course"].asstr()[:]), ["load"])
            self.assertEqual(kept["time"][-1], 86400.0)
            # A row at the end of a minute shows the level that has held through it.
            at = np.searchsorted(kept["time"][:], 60.0 * np.arange(1, 1441))
            np.testing.assert_allclose(kept["current"][:][at], ampere, atol=5e-3)

    def test_the_device_is_kept_as_numbers(self):
        _, record = self.march("[{hold: 25 A, for: 1 min}]")
        with h5py.File(record) as kept:
            self.assertEqual(kept["device/kind"].asstr()[:].tolist(), ["plug-fuse"])
            self.assertEqual((kept["device/rating"][0], kept["device/must_hold"][0]), (20.0, 1.1))
            np.testing.assert_allclose(kept["openings/times"][:], [1.35, 2.0])
            np.testing.assert_allclose(kept["openings/within"][:], [3600.0, 120.0])

    def test_a_step_ended_by_its_rule_is_told_with_its_true_times(self):
        _, record = self.march("[{hold: 20 A, until: settled by tenths, at_most: 3 h}, "
                               "{hold: 22 A, until: settled 1 K/h, at_most: 10 min}]")
        verdict = json.loads(self.must(JUDGE, "verdict", record, "--json", codes=(3,)))
        first, second = verdict["steps"]
        with h5py.File(record) as kept:
            step, time = kept["step"][:], kept["time"][:]
            settled = [at for at, kind in zip(kept["events/time"][:], kept["events/kind"].asstr()[:])
                       if kind == "step_settled"]
        self.assertEqual(len(settled), 1)
        self.assertEqual(first["end_s"], settled[0])
        self.assertEqual(first["end_s"], time[step == 0][-1])
        self.assertLess(first["end_s"], 3600.0)
        self.assertTrue(first["settled"] and first["complete"])
        self.assertEqual(second["begin_s"], first["end_s"])
        self.assertEqual(second["end_s"], first["end_s"] + 600.0)
        self.assertFalse(second["settled"])
        self.assertTrue(second["complete"])
        text = self.must(JUDGE, "verdict", record, codes=(3,))
        self.assertIn("settled by the rule 'by tenths', which ended it", text)
        self.assertIn("not settled by the rule '1 K/h' when its time was up", text)

    def test_a_parted_wire_is_told_and_cooled(self):
        said, record = self.march("[{hold: 400 A, for: 1 min}, {hold: 10 A, for: 30 min}]",
                                  "beyond: {reason: to see it part}\n")
        for text in (said, self.must(JUDGE, "verdict", record, codes=(3,))):
            words = " ".join(text.split())
            self.assertIn("onductor begins to melt at", words)
            self.assertIn("carries no current unless a step says that it is rejoined", words)
            self.assertRegex(words, "[Aa]rc, droplets and .* not modelled")
        with h5py.File(record) as kept:
            self.assertEqual(kept["time"][-1], 1860.0)
            self.assertEqual(kept.attrs["conductor_parted"], 1.0)
            self.assertEqual(kept["current"][-1], 0.0)
            self.assertEqual(kept["current_asked"][-1], 10.0)
            np.testing.assert_allclose(kept["conductor_temperature"][-1], 20.0, atol=1.0)
            gap = np.abs(kept["ledger_gap"][:]) / np.maximum(kept["heat_made"][:], 1.0)
            self.assertLess(gap.max(), 1e-12)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
