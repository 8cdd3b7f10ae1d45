#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The barn's figures: run sheet in, temperatures of named pieces out.

usage: /usr/bin/python3 barn_figures_test.py TOP PROGRAMS [unittest's arguments]

The wanted figures come from a small independent model of the same invented barn (Churchill-Chu still
air, grey radiation, linear resistance, supports as lumps): reference figures, not measurements. They
are held to 2 K or 4 % of the rise over 11 degC, the larger; where that model lumps a support, to 5 K.
"""

import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
AIR = 11.0  # degC
LUMPED = 5.0  # K
STOPPED = 3  # the march stops at 250 degC in the rubber


class Barn:
    """One march of the barn; temperatures in degC at the end of a step (from 1)."""

    def __init__(self, folder, arrangement="as built"):
        path = pathlib.Path(folder) / "barn.h5"
        done = subprocess.run([PROGRAMS / "ampstair", "run", TOP / "scenarios/cider-barn.yaml", "-o", path,
                               "--arrangement", arrangement, "--overwrite", "--quiet"], check=False)
        assert done.returncode == (0 if arrangement == "as built" else STOPPED), done.returncode
        with h5py.File(path) as record:
            names = record["pieces/name"].asstr()[:]
            self.pieces = dict(zip(names, zip(record["pieces/begin"][:], record["pieces/end"][:])))
            rows = np.searchsorted(record["time"][:], record["steps/end"][:] - 1e-6)
            self.rows = np.minimum(rows, len(record["time"]) - 1)  # of a march that stopped: its last
            self.parts = {part: (record[position][:], record[f"{part}_temperature"][:])
                          for part, position in (("conductor", "position"),
                                                 ("ceramic", "ceramic_position"),
                                                 ("wood", "wood_position"))}
            cells, part = record["grid"], record["grid/part"].asstr()[:]
            self.beside = (part == "ceramic") & np.isnan(cells["inner_radius"][:])
            self.cell_at, self.field = cells["begin"][:], record["fields/field_temperature"][:]
            self.volts, self.amperes = record["voltage"][:], record["current"][:]
            self.char = record["wood_char_depth"][:]

    def within(self, part, step, piece):
        places, temperatures = self.parts[part]
        begin, end = self.pieces[piece]
        return temperatures[self.rows[step - 1]][(places >= begin) & (places <= end)]

    def mean_of_knob(self, step, piece):
        """Of all its porcelain, whose cells are even slices."""
        begin, end = self.pieces[piece]
        cells = self.beside & (self.cell_at >= begin) & (self.cell_at <= end)
        return float(np.mean(self.field[step - 1][cells]))

    def hottest(self, part, step, piece):
        return float(np.max(self.within(part, step, piece)))

    def middle(self, step, piece, offset=None):
        places, temperatures = self.parts["conductor"]
        begin, end = self.pieces[piece]
        at = begin + offset if offset is not None else 0.5 * (begin + end)
        return float(np.interp(at, places, temperatures[self.rows[step - 1]]))


class BarnFigures(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with tempfile.TemporaryDirectory() as folder:
            cls.barn = Barn(folder)
            cls.filled = Barn(folder, "bay filled")
            cls.spliced = Barn(folder, "poor splice")

    def near(self, found, wanted, allowed=0.0):
        self.assertAlmostEqual(found, wanted,
                               delta=allowed or max(2.0, 0.04 * abs(wanted - AIR)))

    def test_places(self):
        self.assertAlmostEqual(max(end for _, end in self.barn.pieces.values()), 5.30, places=9)
        np.testing.assert_allclose(self.barn.pieces["S1"], (2.86, 2.92), atol=1e-9)
        np.testing.assert_allclose(self.barn.pieces["north bay"], (4.00, 4.80), atol=1e-9)

    def test_far_from_supports(self):
        for step, wanted in ((1, 17.1), (2, 25.2), (3, 38.6), (4, 61.9), (5, 102.0)):
            self.near(self.barn.middle(step, "south leg", 0.55), wanted)

    def test_the_42_ampere_step(self):
        self.assertLessEqual(self.barn.hottest("conductor", 4, "mid leg"), 65.0 + 2.0)
        self.near(self.barn.hottest("conductor", 4, "drop"), 68.1)
        self.near(self.barn.middle(4, "K1"), 51.0, LUMPED)
        self.near(self.barn.hottest("ceramic", 4, "K1"), 19.5, LUMPED)
        self.near(self.barn.hottest("wood", 4, "T1"), 24.6, LUMPED)

    def test_the_55_ampere_step(self):
        hottest = float(np.max(self.barn.parts["conductor"][1][self.barn.rows[4]]))
        self.assertEqual(hottest, self.barn.hottest("conductor", 5, "drop"))
        self.near(hottest, 119.0)
        self.near(self.barn.middle(5, "K1"), 84.0, LUMPED)

    def test_porcelain_of_a_knob(self):
        # A lump's one temperature is the mean of what it lumps; the hottest lies up to 4 K above it.
        for step, wanted in ((2, 13.2), (3, 15.5), (4, 19.5), (5, 26.6)):
            self.near(self.barn.mean_of_knob(step, "K1"), wanted)

    def test_volts_over_the_wire(self):
        # 42 A: 1.351 V hot (the same model); a knob or splice more or less moves it by 1 %.
        self.assertAlmostEqual(self.barn.volts[self.barn.rows[3]] / 1.351, 1.0, delta=0.01)

    def test_wood_and_porcelain_stay_below_the_char_line(self):
        # The char line is the 300 degC isotherm (EN 1995-1-2 3.4.1, from memory, very sure). The
        # reference has the knob's wood at 25 degC after 55 A: no heat concern at the knobs.
        for barn in (self.barn, self.filled, self.spliced):
            for part in ("wood", "ceramic"):
                self.assertLess(float(np.nanmax(barn.parts[part][1])), 100.0)
        self.near(self.barn.hottest("wood", 5, "K1"), 25.0, LUMPED)

    def test_wood_that_has_not_been_at_300_degrees_has_no_char(self):
        # No depth from a fire test's rate times a time.
        for barn in (self.barn, self.filled, self.spliced):
            self.assertEqual(float(np.max(barn.char)), 0.0)

    def test_a_filled_bay(self):
        # 31 A 76.8 degC, 42 A 160 degC, volts up by 18 mV at 31 A.
        self.near(self.filled.hottest("conductor", 3, "north bay"), 76.8, LUMPED)
        self.near(self.filled.hottest("conductor", 4, "north bay"), 160.0)
        more = self.filled.volts[self.filled.rows[2]] - self.barn.volts[self.barn.rows[2]]
        self.assertAlmostEqual(more, 0.018, delta=0.004)

    def test_the_current_above_which_a_filled_bay_has_no_steady_state(self):
        # sqrt(G / (R20 alpha)) = 54.4 A (the same model; 1 A for the whole amperes printed).
        told = subprocess.run([PROGRAMS / "ampstair", "check", TOP / "scenarios/cider-barn.yaml",
                               "--arrangement", "bay filled"], capture_output=True, text=True,
                              check=True).stdout
        said = re.search(r"north bay: .* no steady state above about (\d+) A held", told)
        self.assertIsNotNone(said, told)
        self.assertAlmostEqual(float(said.group(1)), 54.4, delta=1.0)

    def test_a_poor_splice_is_the_hottest_place(self):
        for step in (2, 3, 4, 5):
            row = self.spliced.parts["conductor"][1][self.spliced.rows[step - 1]]
            self.assertEqual(float(np.max(row)), self.spliced.hottest("conductor", step, "S1"))


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
