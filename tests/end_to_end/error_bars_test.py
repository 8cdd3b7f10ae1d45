#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Bars of error held against errors that are known otherwise.

usage: /usr/bin/python3 error_bars_test.py TOP PROGRAMS [unittest's arguments]

Three cases of validation/ have values at probes from an independent finite-element solution of the same
equations, with its own estimate of its error beside each (validation/*/published.yaml). The error of a
march is what lies between the two beyond that estimate. The bar is the record's `time_error` and the
grid error of the probe at that row.
"""

import pathlib
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np
import yaml

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
CASES = ("covered-wire", "tube-through-stud", "held-ends")
COARSE = {"grid": "10 mm", "radial_cells": 6}  # about what a sheet's check lets through
COARSE_IN_SPACE = {**COARSE, "accuracy": "0.005 K"}  # the grid's error alone is left
COVERED = 0.95  # of the rows, as a bar of two standard deviations would


def marched(sheet, folder, *options):
    record = folder / "record.h5"
    subprocess.run([PROGRAMS / "ampstair", "run", sheet, "-o", record, "--overwrite", "--quiet",
                    *options], check=True)
    return record


class Rows:
    """Error, the published value's own error, the bars of time and of the grid: K, one per row."""

    def __init__(self, case, output):
        folder = TOP / "validation" / case
        sheet = yaml.safe_load((folder / "sheet.yaml").read_text())
        sheet["output"].update(output)
        told = yaml.safe_load((folder / "published.yaml").read_text())["marches"][0]["quantities"]
        rows = []
        with tempfile.TemporaryDirectory() as scratch:
            changed = pathlib.Path(scratch) / "sheet.yaml"
            changed.write_text(yaml.safe_dump(sheet, sort_keys=False))
            with h5py.File(marched(changed, pathlib.Path(scratch), "--with-error")) as record:
                probes = list(record["probes/name"].asstr()[:])
                for quantity in (one for one in told if "probe" in one):
                    probe = probes.index(quantity["probe"])
                    for time, published, own in quantity["rows"]:
                        row = int(np.flatnonzero(np.isclose(record["time"][:], time))[0])
                        rows.append((abs(record["probe_temperature"][row, probe] - published), own,
                                     record["probe_temperature_grid_error"][row, probe]))
                self.time = float(record.attrs["time_error"])
        self.error, self.own, self.grid = np.array(rows).T
        self.bar = self.time + self.grid
        self.covered = float(np.mean(self.error - self.own <= self.bar))
        self.covered_by_time_alone = float(np.mean(self.error - self.own <= self.time))
        print(f"{case}, output {output or 'as it is'}: {100 * self.covered:.0f} % of {len(rows)} rows "
              f"covered, {100 * self.covered_by_time_alone:.0f} % by the bar of time alone; median "
              f"error {np.median(self.error):.2g} K, bar {np.median(self.bar):.2g} K (time "
              f"{self.time:.2g} K); worst error {self.error.max():.2g} K, bar {self.bar.max():.2g} K",
              flush=True)


class ErrorBars(unittest.TestCase):
    def covering(self, output):
        cases = [Rows(case, output) for case in CASES]
        for case in cases:
            self.assertGreaterEqual(case.covered, COVERED)
        return cases

    def test_bars_cover_the_error_as_the_sheets_are_and_are_not_wide(self):
        for case in self.covering({}):
            self.assertLessEqual(np.median(case.bar), 20.0 * np.median(case.error))

    def test_bars_cover_the_error_on_a_coarse_grid_and_are_not_wide(self):
        for case in self.covering(COARSE):
            self.assertLessEqual(np.median(case.bar), 20.0 * np.median(case.error))

    def test_bars_of_the_grid_cover_its_error_where_little_of_time_is_left(self):
        for case in self.covering(COARSE_IN_SPACE):
            # Else nothing is shown of the grid's bar: it is needed where an error is not of time.
            self.assertLess(case.covered_by_time_alone, COVERED)


class EveryPlace(unittest.TestCase):
    """The barn against a march on a grid four to eight times as fine (computed here), at every place that
    lies within 1.5 mm of one of its places: knobs, tubes, sleeve, wood, and beside steps of the outline."""

    def test_bars_cover_the_error_of_every_part(self):
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            (folder / "materials").symlink_to((TOP / "scenarios/materials").resolve())
            fine = self.barn(folder, "grid: 1.25 mm, radial_cells: 48, accuracy: 0.0005 K")
            coarse = self.barn(folder, "grid: 10 mm, radial_cells: 6, accuracy: 0.001 K", "--with-error")
        self.assertIn("wood_temperature", fine)
        for history, (places, temperature) in fine.items():
            at, computed = coarse[history]
            bar = coarse["time_error"] + coarse[f"{history}_grid_error"][1]
            known = np.abs(at[:, None] - places[None, :]).min(axis=1) < 1.5e-3
            error = np.abs(computed - [np.interp(at, places, row) for row in temperature])
            covered = float(np.mean((error <= bar)[:, known]))
            print(f"{history}: {100 * covered:.1f} % of {error[:, known].size} values covered", flush=True)
            self.assertGreaterEqual(covered, COVERED, history)

    def barn(self, folder, output, *options):
        """Places and values of every temperature, at whole minutes; the error in time if there are bars."""
        sheet = yaml.safe_load((TOP / "scenarios/cider-barn.yaml").read_text())
        sheet["output"] = {"every": "60 s", **yaml.safe_load(f"{{{output}}}")}
        changed = folder / "sheet.yaml"
        changed.write_text(yaml.safe_dump(sheet, sort_keys=False))
        with h5py.File(marched(changed, folder, *options)) as record:
            rows = np.flatnonzero(np.isclose(record["time"][:] % 60.0, 0.0, atol=1e-6))
            found = {name: (record[item.dims[1][0].name][:], item[:][rows])
                     for name, item in record.items()
                     if "_temperature" in name and not name.startswith("probe")}
            return {**found, "time_error": record.attrs["time_error"]} if options else found


class Records(unittest.TestCase):
    """What a record with bars has beside one without."""

    def setUp(self):
        self.scratch = tempfile.TemporaryDirectory()
        self.addCleanup(self.scratch.cleanup)
        folder = pathlib.Path(self.scratch.name)
        sheet = TOP / "scenarios/cider-barn.yaml"
        self.plain, self.barred = folder / "plain.h5", folder / "barred.h5"
        marched(sheet, folder).rename(self.plain)
        marched(sheet, folder, "--with-error").rename(self.barred)

    def test_every_temperature_has_a_bar_and_is_the_same_without(self):
        with h5py.File(self.plain) as plain, h5py.File(self.barred) as barred:
            names = [name for name in plain if name.endswith("_temperature")]
            self.assertIn("wood_temperature", names)
            self.assertEqual(set(barred) - set(plain), {f"{name}_grid_error" for name in names})
            self.assertTrue(np.array_equal(plain["time"][:], barred["time"][:]))
            largest = 0.0
            for name in names:
                self.assertTrue(np.array_equal(plain[name][:], barred[name][:]), name)
                bars = barred[f"{name}_grid_error"]
                self.assertEqual(bars.shape, barred[name].shape)
                self.assertEqual(bars.attrs["units"], "K")
                self.assertTrue(np.all(np.isfinite(bars[:])), name)
                self.assertTrue(np.all(bars[0] == 0.0), name)  # both begin at the same temperature
                self.assertTrue(np.all(bars[-1] > 0.0), name)
                largest = max(largest, float(bars[:].max()))
            self.assertAlmostEqual(barred.attrs["grid_error"], largest, places=6)
            self.assertGreater(barred.attrs["time_error"], 0.0)
            self.assertNotIn("grid_error", plain.attrs)

    def test_rows_of_events_carry_the_larger_of_the_bars_beside_them(self):
        with h5py.File(self.barred) as record:
            time, events = record["time"][:], record["events/time"][:]
            bars = record["conductor_temperature_grid_error"][:]
        kinds = np.isclose(time[:, None], events[None, :], rtol=0.0, atol=1e-9).any(axis=1)
        between = [row for row in np.flatnonzero(kinds)
                   if 0 < row < len(time) - 1 and not (kinds[row - 1] or kinds[row + 1])
                   and not np.isclose(time[row] % 10.0, 0.0)]
        self.assertGreater(len(between), 0)
        for row in between:
            self.assertTrue(np.array_equal(bars[row], np.maximum(bars[row - 1], bars[row + 1])))


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]] + sys.argv[3:], verbosity=2)
