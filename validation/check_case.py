#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Marches the run sheets of one case and compares what comes out with its published values.

usage: /usr/bin/python3 check_case.py PROGRAMS CASE

PROGRAMS is the folder of ampstair and ampstair-post, CASE a folder with published.yaml (README.md
tells its keys). Prints a row for every quantity. Ends with 0 if every verdict is the one the case
states: met, or failed where a reason is given; with 1 if a value is missed and nobody says why, or
met although a reason says that it fails; with 2 if the case cannot be run.
"""

import argparse
import pathlib
import sys

from marches import CannotRun
from rows import MISSED, STALE, compare


def text(row):
    return (f"{row.verdict():15}{row.name:<62}{row.published_text():>20}{row.computed_text():>20}"
            f"{row.difference():>+10.2g}  {row.tolerance_text()}")


def main():
    parser = argparse.ArgumentParser(description="Compares one case with its published values.")
    parser.add_argument("programs", type=pathlib.Path)
    parser.add_argument("case", type=pathlib.Path)
    given = parser.parse_args()
    try:
        rows = compare(given.case, given.programs)
    except (CannotRun, OSError, KeyError, ValueError) as error:
        print(f"{given.case.name}: {type(error).__name__}: {error}", file=sys.stderr)
        return 2
    print(f"{given.case.name}\n{'':15}{'quantity':<62}{'published':>20}{'computed':>20}"
          f"{'difference':>10}  tolerance")
    for row in rows:
        print(text(row))
        if row.reason:
            print(f"{'':17}{row.reason}")
    for source, status in dict.fromkeys((row.source, row.status) for row in rows):
        print(f"source: {source}\nstatus: {status}")
    return 1 if any(row.verdict() in (MISSED, STALE) for row in rows) else 0


if __name__ == "__main__":
    sys.exit(main())
