#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Marches the run sheets of one case and compares what comes out with its published values.

usage: /usr/bin/python3 check_case.py PROGRAMS CASE [--table]

PROGRAMS is the folder of ampstair and ampstair-post, CASE a folder with published.yaml (README.md
tells its keys). Prints a row for every quantity; with --table as rows of a Markdown table. Ends with 1
if a quantity is missed, 2 if the case cannot be run.
"""

import argparse
import json
import pathlib
import subprocess
import sys
import tempfile

import h5py
import numpy as np
import yaml


class CannotRun(Exception):
    pass


def called(command, allowed):
    outcome = subprocess.run([str(word) for word in command], capture_output=True, text=True,
                             check=False)
    if outcome.returncode not in allowed:
        raise CannotRun(f"{' '.join(map(str, command))}: exit {outcome.returncode}\n{outcome.stderr}")
    return outcome.stdout


class Outcome:
    """A record of one march, and its verdict where the case asks for it."""

    def __init__(self, programs, sheet, folder):
        self.programs = programs
        self.path = folder / f"{sheet.stem}.h5"
        called([programs / "ampstair", "run", sheet, "-o", self.path, "--quiet"], [0])
        with h5py.File(self.path) as record:
            self.time = record["time"][:]
            self.series = {name: item[:] for name, item in record.items()
                           if isinstance(item, h5py.Dataset) and item.shape[:1] == self.time.shape}
            self.probes = list(record["probes/name"].asstr()[:]) if "probes" in record else []
        self.items = None

    def column(self, quantity):
        """The history a quantity is read from, one value per row."""
        if "probe" in quantity:
            return self.series["probe_temperature"][:, self.probes.index(quantity["probe"])]
        return self.series[quantity["series"]]

    def at(self, quantity, time):
        if time == "end":
            return float(self.column(quantity)[-1])
        near = int(np.argmin(np.abs(self.time - time)))
        if abs(self.time[near] - time) > 1e-6 * max(1.0, time):
            raise CannotRun(f"{quantity['name']}: no output at {time} s")
        return float(self.column(quantity)[near])

    def crossing(self, item):
        """Seconds at which the verdict says a watch item was first crossed."""
        if self.items is None:
            verdict = json.loads(called([self.programs / "ampstair-post", "verdict", self.path,
                                         "--json"], [0, 1, 3]))
            self.items = {entry["name"]: entry for entry in verdict["items"]}
        crossing = self.items[item]["crossing"]
        return crossing["time_s"] if crossing else float("nan")

    def value(self, quantity, time):
        if "crossing" in quantity:
            return self.crossing(quantity["crossing"])
        return self.at(quantity, time) * quantity.get("times", 1.0) + quantity.get("plus", 0.0)


def tolerance(quantity, published, error):
    """Absolute tolerance of a row."""
    if "part" in quantity:
        return quantity["part"] * abs(published)
    return quantity["allow"] + error


def compare(case, programs, folder):
    """Rows (march, quantity, time, published, computed, tolerance, unit, source, status)."""
    told = yaml.safe_load((case / "published.yaml").read_text())
    for march in told["marches"]:
        outcome = Outcome(programs, case / march["sheet"], folder)
        for quantity in march["quantities"]:
            for time, published, *error in quantity["rows"]:
                computed = outcome.value(quantity, time)
                yield {"march": march.get("name", ""), "name": quantity["name"], "time": time,
                       "published": published, "computed": computed,
                       "tolerance": tolerance(quantity, published, error[0] if error else 0.0),
                       "unit": quantity["unit"],
                       "source": " ".join(quantity.get("source", told["source"]).split()),
                       "status": quantity.get("status", told["status"])}


def met(row):
    return abs(row["computed"] - row["published"]) <= row["tolerance"]  # a NaN is a miss


def text(row, table):
    name = ", ".join(word for word in (row["march"], row["name"]) if word)
    if isinstance(row["time"], (int, float)) and row["time"]:
        name += f" at {row['time']:g} s"
    cells = [name, f"{row['published']:g} {row['unit']}", f"{row['computed']:.6g}",
             f"{row['computed'] - row['published']:+.2g}", f"{row['tolerance']:.3g}",
             row["source"], row["status"], "met" if met(row) else "MISSED"]
    if table:
        return "| " + " | ".join(cells) + " |"
    return f"{cells[7]:7}{cells[0]:<52}{cells[1]:>16}{cells[2]:>12}{cells[3]:>10}{cells[4]:>9}"


def main():
    parser = argparse.ArgumentParser(description="Compares one case with its published values.")
    parser.add_argument("programs", type=pathlib.Path)
    parser.add_argument("case", type=pathlib.Path)
    parser.add_argument("--table", action="store_true", help="rows of a Markdown table")
    given = parser.parse_args()
    try:
        with tempfile.TemporaryDirectory() as folder:
            rows = list(compare(given.case, given.programs, pathlib.Path(folder)))
    except (CannotRun, OSError, KeyError, ValueError) as error:
        print(f"{given.case.name}: {type(error).__name__}: {error}", file=sys.stderr)
        return 2
    if not given.table:
        print(f"{given.case.name}\n{'':7}{'quantity':<52}{'published':>16}{'computed':>12}"
              f"{'difference':>11}{'allowed':>8}")
    for row in rows:
        print(text(row, given.table))
    if not given.table:
        print(f"source: {rows[0]['source']}\nstatus: {rows[0]['status']}")
    return 0 if all(map(met, rows)) else 1


if __name__ == "__main__":
    sys.exit(main())
