#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The programs on input they have to refuse, killed half-way, run twice, and their verdicts as JSON.

usage: /usr/bin/python3 programs_test.py TOP PROGRAMS [unittest's arguments]
"""

import hashlib
import json
import os
import pathlib
import random
import signal
import subprocess
import sys
import tempfile
import time
import unittest

import h5py
import numpy as np

HERE = pathlib.Path(__file__).parent
TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
SOLVER, JUDGE = PROGRAMS / "ampstair", PROGRAMS / "ampstair-post"

GOOD = """format: run-sheet 1
title: Short open run
wire:
  metal: {material: copper, gauge: No. 14}
  layers:
    - {material: rubber-aged-soft, thickness: 1.2 mm}
run:
  - {piece: cut-end, name: left, insulated: true}
  - {piece: open, name: leg, length: 1 m}
  - {piece: cut-end, name: right, insulated: true}
around: {air: 20 degC}
supply: {mode: current}
staircase: [{hold: 15 A, for: 10 min}, {hold: 30 A, for: 10 min}]
watch:
  - {name: rubber limit, part: rubber, above: 60 degC, from: invented for this test}
"""


def done(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, check=False)


class Scratch(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def sheet(self, text, name="sheet.yaml"):
        path = self.folder / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def edited(self, old, new):
        self.assertEqual(GOOD.count(old), 1, old)
        return self.sheet(GOOD.replace(old, new))


class BadInputs(Scratch):
    """Exit code 2, a message that names the file, no record made and none touched."""

    def refused(self, sheet, *words):
        kept, fresh = self.folder / "kept.h5", self.folder / "fresh.h5"
        if not kept.exists():
            good = self.sheet(GOOD, "good.yaml")
            self.assertEqual(done(SOLVER, "run", good, "-o", kept, "--quiet").returncode, 0)
        before = hashlib.sha256(kept.read_bytes()).hexdigest()
        beside = sorted(self.folder.iterdir())
        for command in (["check", sheet], ["run", sheet, "-o", fresh],
                        ["run", sheet, "-o", kept, "--overwrite", "--quiet"]):
            outcome = done(SOLVER, *command)
            message = outcome.stderr.decode()  # that it is UTF-8 is a part of the check
            self.assertEqual(outcome.returncode, 2, f"{command}: {message}")
            for word in (sheet.name, *words):
                self.assertIn(word, message)
            self.assertLess(len(message), 20000)
        self.assertEqual(hashlib.sha256(kept.read_bytes()).hexdigest(), before)
        self.assertEqual(sorted(self.folder.iterdir()), beside)

    def test_unknown_key(self):
        self.refused(self.edited("length: 1 m", "lenght: 1 m"), "lenght", "length", ":9:")

    def test_missing_unit(self):
        self.refused(self.edited("length: 1 m", "length: 1"), "unit", ":9:")

    def test_wrong_unit(self):
        self.refused(self.edited("thickness: 1.2 mm", "thickness: 1.2 A"), "thickness", "a length", ":6:")

    def test_tab(self):
        self.refused(self.edited("    - {material", "\t- {material"), "tab", ":6:1:")

    def test_duplicate_name(self):
        self.refused(self.edited("name: right", "name: leg"), "leg", ":10:")

    def test_duplicate_key(self):
        self.refused(self.edited("title: Short open run", "title: a\ntitle: b"), "title", ":3:")

    def test_empty_file(self):
        self.refused(self.sheet(""))

    def test_ten_megabytes_of_noise(self):
        noise = random.Random(20260311)
        self.refused(self.sheet(noise.randbytes(10_000_000)))
        letters = bytes(range(32, 127)) + b"\n"
        self.refused(self.sheet(bytes(noise.choices(letters, k=10_000_000))))

    def test_deep_nesting(self):
        self.refused(self.sheet("run: " + "[" * 200_000))

    def test_directory(self):
        path = self.folder / "folder.yaml"
        path.mkdir()
        self.refused(path)

    def test_no_such_file(self):
        self.refused(self.folder / "absent.yaml")

    @unittest.skipIf(os.geteuid() == 0, "nothing is unreadable to root")
    def test_unreadable_file(self):
        path = self.sheet(GOOD)
        path.chmod(0)
        self.refused(path)

    def test_not_utf_8(self):
        self.refused(self.sheet(GOOD.replace("Short", "K\u00fcrze").encode("latin-1")), "UTF-8")

    def test_a_sheet_is_no_record(self):
        sheet = self.sheet(GOOD)
        outcome = done(JUDGE, "verdict", sheet)
        self.assertEqual(outcome.returncode, 2)
        self.assertIn(b"sheet.yaml", outcome.stderr)


class Interrupted(Scratch):
    """A run that ends early leaves a record readable to its last flushed row."""

    def started(self, record, *options):
        long = self.sheet(GOOD.replace("for: 10 min}]", "for: 1000 h}]")
                          + "output: {every: 1 s}\n")
        run = subprocess.Popen([SOLVER, "run", long, "-o", record, "--quiet", *options],
                               stderr=subprocess.PIPE)
        self.addCleanup(run.stderr.close)
        self.addCleanup(run.kill)
        return run

    def wait_for(self, path, rows=1):
        """Until a record is there with so many rows (it is replaced as a whole, so opening is safe)."""
        until = time.monotonic() + 30
        while not path.exists() or self.rows(path) < rows:
            self.assertLess(time.monotonic(), until, "no record appeared")
            time.sleep(0.01)

    def rows(self, path):
        with h5py.File(path) as file:
            return len(file["time"])

    def readable_and_unfinished(self, record):
        with h5py.File(record) as file:
            self.assertEqual(file.attrs["finished"], 0)
            times = file["time"][:]
            self.assertGreater(len(times), 0)
            self.assertTrue(np.all(np.diff(times) > 0))
            self.assertTrue(np.all(np.isfinite(file["conductor_temperature"][:])))
        outcome = done(sys.executable, HERE / "open_record.py", record)
        self.assertEqual(outcome.returncode, 0, outcome.stdout.decode())
        self.assertIn(done(JUDGE, "verdict", record).returncode, (1, 3))

    def test_killed(self):
        pauses = random.Random(7)
        for number in range(3):
            record = self.folder / f"killed{number}.h5"
            run = self.started(record)
            self.wait_for(record)
            time.sleep(pauses.uniform(0.0, 0.8))
            run.send_signal(signal.SIGKILL)
            run.wait()
            self.readable_and_unfinished(record)

    def test_killed_before_the_first_row(self):
        record = self.folder / "early.h5"
        run = self.started(record)
        self.wait_for(record, rows=0)
        run.send_signal(signal.SIGKILL)
        run.wait()
        with h5py.File(record) as file:
            self.assertEqual(file.attrs["finished"], 0)
        outcome = done(JUDGE, "verdict", record)
        self.assertIn(outcome.returncode, (1, 2, 3), outcome.stderr.decode())

    def test_killed_while_replacing(self):
        record = self.folder / "kept.h5"
        self.assertEqual(
            done(SOLVER, "run", self.sheet(GOOD, "good.yaml"), "-o", record).returncode, 0)
        before = record.read_bytes()
        run = self.started(record, "--overwrite")
        self.wait_for(self.folder / "kept.h5.partial")
        run.send_signal(signal.SIGKILL)
        run.wait()
        self.assertEqual(record.read_bytes(), before)
        self.readable_and_unfinished(self.folder / "kept.h5.partial")

    def test_stopped_politely(self):
        for number, stop in enumerate((signal.SIGINT, signal.SIGTERM)):
            record = self.folder / f"stopped{number}.h5"
            run = self.started(record)
            self.wait_for(record)
            time.sleep(0.3)
            run.send_signal(stop)
            self.assertEqual(run.wait(timeout=30), 4)
            self.readable_and_unfinished(record)


class SameBits(Scratch):
    def histories(self, sheet, name):
        record = self.folder / name
        self.assertEqual(done(SOLVER, "run", sheet, "-o", record, "--quiet").returncode, 0)
        found = {}
        with h5py.File(record) as file:
            def keep(path, item):
                if isinstance(item, h5py.Dataset):
                    value = item[()]
                    found[path] = value.tolist() if value.dtype == object else value.tobytes()
            file.visititems(lambda path, item: None if path.startswith(("settings", "provenance"))
                            else keep(path, item))
        return found

    def test_two_marches_of_the_barn(self):
        sheet = TOP / "scenarios/cider-barn.yaml"
        first, second = self.histories(sheet, "a.h5"), self.histories(sheet, "b.h5")
        self.assertIn("conductor_temperature", first)
        self.assertEqual(first.keys(), second.keys())
        for path, value in first.items():
            self.assertEqual(value, second[path], path)


class Verdicts(Scratch):
    """The verdict's JSON: the exit code it says is the one it ends with, and no key ever missing."""

    KEYS = ["schema", "record", "run", "overall", "exit_code", "near_margin_K", "hottest_conductor",
            "hottest_step", "steps", "settling", "items", "device", "ledger", "validity", "notes", "cautions"]
    CODES = {"clear": 0, "crossed": 1, "near": 3, "cannot say": 3}

    def verdict(self, sheet):
        record = self.folder / (sheet.stem + ".h5")
        self.assertEqual(done(SOLVER, "run", sheet, "-o", record, "--quiet").returncode, 0)
        outcome = done(JUDGE, "verdict", record, "--json")
        return outcome.returncode, json.loads(outcome.stdout)

    def test_shipped_scenarios(self):
        for sheet in sorted((TOP / "scenarios").glob("*.yaml")):
            code, told = self.verdict(sheet)
            self.assertEqual(list(told), self.KEYS)
            self.assertEqual(told["exit_code"], code)
            self.assertEqual(self.CODES[told["overall"]], code)
            self.assertEqual(len(told["cautions"]), 2)
            self.assertLess(abs(told["ledger"]["worst_gap_part_of_made"]), 1e-6)

    def limit(self, celsius):
        text = GOOD.replace("above: 60 degC", f"above: {celsius} degC")
        return self.verdict(self.sheet(text, f"limit-{celsius}.yaml"))

    def test_clear_and_crossed(self):
        code, told = self.limit(30)
        self.assertEqual((code, told["overall"]), (1, "crossed"))
        crossing = told["items"][0]["crossing"]
        self.assertGreater(crossing["time_s"], 0)
        self.assertEqual(crossing["current_A"], 15 if crossing["step"] == 1 else 30)
        code, told = self.limit(500)
        self.assertEqual((code, told["overall"]), (0, "clear"))
        self.assertIsNone(told["items"][0]["crossing"])

    def test_the_crossing_is_where_the_history_passes_the_limit(self):
        _, told = self.limit(30)
        with h5py.File(self.folder / "limit-30.h5") as record:
            times = record["time"][:]
            hottest = record["conductor_temperature"][:].max(axis=1)
        seconds = told["items"][0]["crossing"]["time_s"]
        self.assertAlmostEqual(float(np.interp(seconds, times, hottest)), 30.0, delta=0.01)

    def test_the_crossing_is_the_march_s_however_far_the_rows_lie_apart(self):
        # Wanted: straight lines between rows 0.5 s apart, by a limit the march knew nothing of.
        watch = GOOD[GOOD.index("watch:"):].replace("60 degC", "30 degC, for: 2 min")
        plain = GOOD[:GOOD.index("watch:")]
        fine = self.sheet(plain + "output: {every: 0.5 s}\n", "fine.yaml")
        record = self.folder / "fine.h5"
        self.assertEqual(done(SOLVER, "run", fine, "-o", record, "--quiet").returncode, 0)
        items = self.sheet(watch, "items.yaml")
        outcome = done(JUDGE, "verdict", record, "--watch", items, "--json")
        wanted = json.loads(outcome.stdout)["items"][0]["crossing"]
        _, told = self.verdict(self.sheet(plain + watch + "output: {every: 5 min}\n", "far.yaml"))
        crossing = told["items"][0]["crossing"]
        self.assertAlmostEqual(crossing["rose_above_s"], wanted["rose_above_s"], delta=0.01)
        self.assertAlmostEqual(crossing["time_s"], wanted["time_s"], delta=0.01)
        with h5py.File(self.folder / "far.h5") as record:
            kinds = list(record["events/kind"].asstr()[:])
            time = record["events/time"][kinds.index("rises_above")]
        self.assertAlmostEqual(float(time), wanted["rose_above_s"], delta=0.01)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
