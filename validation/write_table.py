#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Marches every validation case and writes the table of README.md.

usage: /usr/bin/python3 write_table.py PROGRAMS [--jobs N]
       /usr/bin/python3 write_table.py --compare

Writes the table between the two marks in README.md and prints it. Ends with 0 if every value is met,
3 if some are missed and each of them has its reason, 1 if a value is missed without a reason or met
in spite of one, 2 if a case cannot be run (README.md is then left as it is).

With --compare nothing is marched: the table in README.md has to hold the rows of the cases as they
are, with the verdicts they state. Digits of what is computed may differ from machine to machine.
"""

import argparse
import concurrent.futures
import pathlib
import re
import sys

from marches import CannotRun
from rows import EXPLAINED, MISSED, STALE, compare, given_rows

HERE = pathlib.Path(__file__).resolve().parent
HEAD = ["case", "quantity", "published", "computed", "difference", "tolerance", "source", "status",
        "verdict"]
BEGIN, END = "<!-- table: begin -->", "<!-- table: end -->"
STATED = [0, 1, 2, 5, 6, 7, 8]  # columns that need no march


def line(cells):
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def cases(folder=HERE):
    return sorted(path.parent for path in folder.glob("*/published.yaml"))


def read_table(readme):
    """Cells of the rows between the marks."""
    between = readme.read_text().partition(BEGIN)[2].partition(END)[0]
    rows = [[cell.strip().replace("\\|", "|") for cell in re.split(r"(?<!\\)\|", text)[1:-1]]
            for text in between.strip().splitlines()]
    return rows[2:]  # without the head and its rule


def write_table(readme, rows):
    table = "\n".join([line(HEAD), line(["---"] * len(HEAD)), *(line(row) for row in rows)])
    before, mark, rest = readme.read_text().partition(BEGIN)
    behind = rest.partition(END)
    if not mark or not behind[1]:
        raise CannotRun(f"{readme.name}: no marks for the table")
    readme.write_text(f"{before}{BEGIN}\n{table}\n{END}{behind[2]}")
    return table


def compared(folder=HERE):
    """What differs between the committed table and the cases, in words."""
    stated = [line(row.stated()) for case in cases(folder) for *_, row in given_rows(case)]
    written = [line([row[i] for i in STATED]) for row in read_table(folder / "README.md")]
    return [f"README.md lacks {row}" for row in stated if row not in written] + \
           [f"no case says {row}" for row in written if row not in stated]


def main():
    parser = argparse.ArgumentParser(description="Marches every case and writes README.md's table.")
    parser.add_argument("programs", type=pathlib.Path, nargs="?")
    parser.add_argument("--jobs", type=int, default=2, help="cases marched at once")
    parser.add_argument("--compare", action="store_true", help="compare the table, march nothing")
    given = parser.parse_args()
    if given.compare:
        faults = compared()
        print("\n".join(faults) or "the table holds the rows of the cases")
        return 1 if faults else 0
    with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        try:
            done = list(pool.map(lambda case: compare(case, given.programs), cases()))
        except (CannotRun, OSError, KeyError, ValueError) as error:
            print(f"{type(error).__name__}: {error}", file=sys.stderr)
            return 2
    rows = [row for case in done for row in case]
    print(write_table(HERE / "README.md", [row.cells() for row in rows]))
    verdicts = [row.verdict() for row in rows]
    if MISSED in verdicts or STALE in verdicts:
        return 1
    return 3 if EXPLAINED in verdicts else 0


if __name__ == "__main__":
    sys.exit(main())
