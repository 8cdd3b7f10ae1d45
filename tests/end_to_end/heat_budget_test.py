#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Where the heat goes in the barn: run sheet in, budgets out.

usage: /usr/bin/python3 heat_budget_test.py TOP PROGRAMS HeatBudget [unittest's arguments]

The wanted figures come from a small independent model of the same invented barn (computed by a small
independent model, as those of barn_figures_test.py): in the sleeved drop at the end of the 42 A step
about 10.9 W/m are made and all but some 3 % leave by the sleeve's surface; at a knob heat comes in along
the wire and leaves through the porcelain.
"""

import pathlib
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
STEP = 3  # row of the 42 A step
COMES = ("made", "breakdown")
ALONG = ("wire_from_start", "wire_from_end", "around_from_start", "around_from_end")
GOES = ("stored_in_wire", "stored_around", "convected", "radiated", "held", "into_body")


class Budgets:
    def __init__(self, folder, arrangement):
        path = pathlib.Path(folder) / "barn.h5"
        subprocess.run([PROGRAMS / "ampstair", "run", TOP / "scenarios/cider-barn.yaml", "-o", path,
                        "--arrangement", arrangement, "--overwrite", "--quiet"], check=False)
        with h5py.File(path) as record:
            table = record["heat_budget"]
            self.kind, self.place = (table[name].asstr()[:] for name in ("kind", "place"))
            self.flows = {name: table[name][:] for name in
                          ("step", "width", "conductor", "into_around", *COMES, *ALONG, *GOES)}
            self.body = record["body_budget/body"].asstr()[:], record["body_budget/part"].asstr()[:]
            self.body_flows = {name: column[:] for name, column in record["body_budget"].items()
                               if column.dtype.kind == "f"}
            self.body_step = record["body_budget/step"][:]
            self.hottest = record["conductor_temperature"][:].max(axis=1)
            self.row_step = record["step"][:]
            self.steps = len(record["steps/level"])

    def at(self, place, kind="piece", step=STEP):
        found = (self.kind == kind) & (self.place == place) & (self.flows["step"] == step)
        row = np.flatnonzero(found).item()
        return {name: float(column[row]) for name, column in self.flows.items()}

    def of_body(self, body, part, step=STEP):
        row = np.flatnonzero((self.body[0] == body) & (self.body[1] == part) & (self.body_step == step))
        return {name: float(column[row.item()]) for name, column in self.body_flows.items()}


class HeatBudget(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with tempfile.TemporaryDirectory() as folder:
            cls.barn = Budgets(folder, "as built")
            cls.filled = Budgets(folder, "bay filled")

    def test_every_budget_sums_to_all_that_comes_in(self):
        for barn in (self.barn, self.filled):
            parts = [barn.flows[name] for name in COMES]
            parts += [barn.flows[name] for name in ALONG] + [-barn.flows[name] for name in GOES]
            comes = sum(np.maximum(part, 0.0) for part in parts)
            goes = sum(np.maximum(-part, 0.0) for part in parts)
            self.assertTrue(np.all(comes > 0.0))
            np.testing.assert_allclose(goes / comes, 1.0, atol=0.005)

    def test_the_sleeved_drop(self):
        drop = self.barn.at("drop")
        self.assertAlmostEqual(drop["made"], 10.9, delta=0.1)
        leaves = drop["convected"] + drop["radiated"]
        self.assertAlmostEqual(leaves / drop["made"], 1.0, delta=0.03)
        self.assertLess(abs(sum(drop[name] for name in ALONG)), 0.03 * drop["made"])

    def test_a_knob(self):
        knob = self.barn.at("K1")
        self.assertGreater(knob["wire_from_start"] + knob["wire_from_end"], 0.0)
        self.assertGreater(knob["into_body"], knob["made"])
        self.assertLess(knob["convected"] + knob["radiated"], 0.1 * knob["into_body"])
        # What is warm beside open wire stays cool in its middle, so that heat goes on to all sides.
        ceramic, wood = self.barn.of_body("K1", "ceramic"), self.barn.of_body("K1", "wood")
        self.assertAlmostEqual(ceramic["passed_on"], wood["comes_in"], delta=1e-12)
        self.assertGreater(ceramic["comes_in"], ceramic["passed_on"])

    def test_a_filled_bay_goes_into_the_fill(self):
        bay = self.filled.at("north bay", step=2)  # 31 A
        self.assertEqual(bay["convected"] + bay["radiated"], 0.0)
        self.assertGreater(bay["into_around"], 0.8 * bay["made"])
        self.assertAlmostEqual(bay["into_around"],
                               bay["stored_around"] + bay["held"] - bay["around_from_start"]
                               - bay["around_from_end"], delta=1e-9)

    def test_the_hottest_place_is_the_hottest(self):
        for step in range(self.barn.steps):
            at_end = self.barn.hottest[np.flatnonzero(self.barn.row_step == step)[-1]]
            self.assertAlmostEqual(self.barn.at("conductor", "hottest", step)["conductor"], at_end,
                                   delta=1e-4)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
