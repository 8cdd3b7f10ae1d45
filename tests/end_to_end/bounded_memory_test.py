#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Memory of the post-processor against the length of a record.

usage: /usr/bin/python3 bounded_memory_test.py TOP PROGRAMS BoundedMemory [unittest's arguments]

A record of the barn is made longer along time, every row followed by copies of it up to the next one's
time. Read whole, the longer one would take 48 MB more in single precision and twice that as the program
holds numbers; what may grow is the clock and the scalar histories, 8 bytes a row each, some 20 of them.
By hand: the same script makes a record of any size (--enlarge RECORD LONGER TIMES).
"""

import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

TIMES = 6
FREE = 8  # MB that may be gained
ALLOWED = 80  # MB of peak resident set: programs, libraries and the page they write


def enlarge(record, longer, times):
    """Copies a record with every row of its histories `times` times."""
    shutil.copy(record, longer)
    with h5py.File(longer, "r+") as held:
        clock = held["time"][:]
        steps = np.append(np.diff(clock), 0.0)
        histories = [name for name, one in held.items() if isinstance(one, h5py.Dataset)
                     and one.maxshape and one.maxshape[0] is None]
        for name in histories:
            values = held[name][:]
            held[name].resize(len(clock) * times, axis=0)
            if name == "time":
                held[name][:] = (clock[:, None] + steps[:, None] * np.arange(times) / times).ravel()
                continue
            for first in range(0, len(clock), 64):
                block = np.repeat(values[first:first + 64], times, axis=0)
                held[name][first * times:first * times + len(block)] = block


def peak(*command):
    """MB of the peak resident set of a command."""
    child = os.fork()
    if child == 0:
        done = subprocess.run(list(map(str, command)), stdout=subprocess.DEVNULL, check=False)
        used = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024
        os._exit(255 if done.returncode not in (0, 1, 3) else used)
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    if status == 255:
        raise AssertionError(f"{command} failed or took 255 MB or more")
    return status


class BoundedMemory(unittest.TestCase):
    def test_memory_does_not_grow_with_the_record(self):
        top, programs = map(pathlib.Path, sys.argv[1:3])
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            record, longer = folder / "barn.h5", folder / "longer.h5"
            subprocess.run([programs / "ampstair", "run", top / "scenarios/cider-barn.yaml", "-o", record,
                            "--quiet"], check=True)
            enlarge(record, longer, TIMES)
            self.assertGreater(longer.stat().st_size, record.stat().st_size + 48e6)
            for words in (["verdict"], ["budget"], ["report", "-o", folder / "page.html", "--overwrite"],
                          ["export", "--csv", folder / "csv", "--overwrite"],
                          ["export", "--json", folder / "barn.json", "--overwrite"]):
                with self.subTest(words[:2]):
                    used = [peak(programs / "ampstair-post", words[0], one, *words[1:])
                            for one in (record, longer)]
                    self.assertLess(used[1], ALLOWED, used)
                    self.assertLess(used[1] - used[0], FREE, used)


if __name__ == "__main__":
    if sys.argv[1] == "--enlarge":
        enlarge(sys.argv[2], sys.argv[3], int(sys.argv[4]))
    else:
        unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
