#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Settling, instruments, device and changed limits against the figures of an independent model.

usage: /usr/bin/python3 reference_figures_test.py TOP PROGRAMS [unittest's arguments]

The wanted figures come from a small independent model of an invented barn and of its wire far from any
support (Churchill-Chu still air, grey radiation, linear resistance, supports and sleeve as lumps):
"computed here", not measurements. Temperatures are held to 2 K or 4 % of the rise over 11 degC, the
larger, to 5 K where that model lumps a support; moments to 1 min or 1 %, the larger.
"""

import html
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
BARN = TOP / "scenarios/cider-barn.yaml"
AIR = 11.0  # degC
LUMPED = 5.0  # K
STOPPED = 3  # the march stops at 250 degC in the rubber

# The wire of that model. It does not say what heat its fill holds: 40 kg/m3 of 1600 J/kg/K bring the
# conductor to 69.2 degC after 22 min of 31 A from cold, as it says.
WIRE = """format: run-sheet 1
title: Far from any support
wire:
  metal:
    gauge: No. 12
    material: {{conductivity: 390 W/m/K, density: 8890 kg/m3, heat_capacity: 385 J/kg/K,
               resistivity: 1.7241e-8 ohm m, temperature_coefficient: 0.00393 1/K}}
  layers:
    - {{name: rubber, thickness: 1.19 mm,
       material: {{conductivity: 0.15 W/m/K, density: 1150 kg/m3, heat_capacity: 1700 J/kg/K, emissivity: 0.90}}}}
    - {{name: braid, thickness: 0.50 mm,
       material: {{conductivity: 0.07 W/m/K, density: 600 kg/m3, heat_capacity: 1350 J/kg/K, emissivity: 0.90}}}}
run:
  - {{piece: cut-end, name: left, insulated: true}}
  - {piece}
  - {{piece: cut-end, name: right, insulated: true}}
around: {{air: 11 degC}}
supply: {{mode: current}}
beyond: {{reason: compared with a small independent model that knows no end of the rubber; no wire is heated}}
staircase: [{staircase}]
{more}
output: {{every: {every}}}
"""
OPEN = "{piece: open, name: wire, length: 0.2 m}"
BURIED = ("{piece: filled, name: wire, length: 0.2 m, to: 150 mm, "
          "fill: {conductivity: 0.042 W/m/K, density: 40 kg/m3, heat_capacity: 1600 J/kg/K}}")


def done(*command):
    outcome = subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)
    assert outcome.returncode in (0, 1, STOPPED), outcome.stderr
    return outcome


def march(folder, name, sheet, arrangement=None):
    record = pathlib.Path(folder) / f"{name}.h5"
    chosen = ["--arrangement", arrangement] if arrangement else []
    done(PROGRAMS / "ampstair", "run", sheet, *chosen, "-o", record, "--quiet")
    return record


def march_text(folder, name, text):
    sheet = pathlib.Path(folder) / f"{name}.yaml"
    sheet.write_text(text, encoding="utf-8")
    return march(folder, name, sheet)


def verdict(record, *options):
    return json.loads(done(PROGRAMS / "ampstair-post", "verdict", record, "--json", *options).stdout)


def table(record, folder, name):
    """Rows of a table of the report page, as texts."""
    path = pathlib.Path(folder) / "page.html"
    done(PROGRAMS / "ampstair-post", "report", record, "-o", path, "--overwrite")
    text = path.read_text(encoding="utf-8")
    body = text[text.index(f'<table id="{name}"'):]
    body = body[:body.index("</table>")]
    rows = [[html.unescape(re.sub(r"<[^>]+>", "", cell)) for cell in re.findall(r"<td[^>]*>(.*?)</td>", row, re.DOTALL)]
            for row in re.findall(r"<tr>(.*?)</tr>", body, re.DOTALL)]
    return [row for row in rows if row]


def celsius(text):
    return float(re.match(r"(-?\d+(?:\.\d+)?)(?: ± [\d.]+)? °C", text).group(1))


class Figures(unittest.TestCase):
    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = scratch.name

    def near(self, found, wanted, allowed=0.0):
        self.assertAlmostEqual(found, wanted, delta=allowed or max(2.0, 0.04 * abs(wanted - AIR)))

    def soon(self, found, wanted):
        self.assertAlmostEqual(found, wanted, delta=max(1.0, 0.01 * wanted))


class Step:
    """The hottest conductor of one step, minutes since it began."""

    def __init__(self, record, index):
        with h5py.File(record) as held:
            here = held["step"][:] == index
            self.minutes = held["time"][here] / 60.0 - held["steps/begin"][index] / 60.0
            self.celsius = held["conductor_temperature"][:][here].max(axis=1).astype(float)

    def at(self, minutes):
        return np.interp(minutes, self.minutes, self.celsius)

    def still_to_come(self, minutes):
        return float(self.celsius[-1] - self.at(minutes))

    # The four rules as that model reads them: every half minute, over the last readings.
    def three_readings(self):
        marks = np.arange(10.0, self.minutes[-1], 0.5)
        three = np.array([self.at(marks - 10.0), self.at(marks - 5.0), self.at(marks)])
        return float(marks[np.ptp(three, axis=0) < 1.0][0])

    def rate(self, kelvin_per_hour):
        marks = np.arange(5.0, self.minutes[-1], 0.5)
        return float(marks[12.0 * (self.at(marks) - self.at(marks - 5.0)) <= kelvin_per_hour][0])

    def by_tenths(self):
        """Readings to half a kelvin, a tenth of the time apart and not less than 5 min, three alike."""
        marks = [0.0]
        while marks[-1] < self.minutes[-1]:
            marks.append(marks[-1] + max(5.0, 0.1 * marks[-1]))
        read = np.round(2.0 * self.at(np.array(marks))) / 2.0
        return next(marks[i] for i in range(2, len(marks)) if read[i] == read[i - 1] == read[i - 2])


class Settling(Figures):
    """Minutes after the step begins and K still to come, by four named rules."""

    # Three readings 5 min apart, 2 K/h, 1 K/h, by tenths.
    IN_THE_OPEN = {14: (16.5, 17.0, 19.0, 25.0), 31: (18.0, 17.5, 20.0, 25.0), 55: (20.5, 20.0, 22.0, 25.0)}
    BURIED_FROM_COLD = {14: ((38.0, 5.2), (82.0, 3.0), (140.0, 1.7), (173.0, 1.2)),
                        22: ((84.0, 9.1), (184.0, 3.5), (260.0, 1.8), (448.0, 0.3)),
                        31: ((188.0, 11.4), (317.0, 3.9), (400.0, 2.0), (721.0, 0.1))}

    def rules(self, step):
        return step.three_readings(), step.rate(2.0), step.rate(1.0), step.by_tenths()

    def test_in_the_open(self):
        levels = (14, 22, 31, 42, 55)
        staircase = ", ".join(f"{{hold: {level} A, for: 3 h}}" for level in levels)
        record = march_text(self.folder, "open", WIRE.format(piece=OPEN, staircase=staircase, more="", every="30 s"))
        told = verdict(record)["settling"]
        for level, wanted in self.IN_THE_OPEN.items():
            step = Step(record, levels.index(level))
            for found, minutes in zip(self.rules(step), wanted):
                self.soon(found, minutes)
            self.assertLess(abs(step.still_to_come(22.0)), 0.1)
            # The verdict reads every 5 min from the begin of the step: at the first mark after.
            readings = told[levels.index(level)]["rules"][2]
            self.assertEqual(readings["rule"], "settled 1 K in three readings")
            self.assertAlmostEqual(readings["after_s"] / 60.0, 5.0 * np.ceil(wanted[0] / 5.0), delta=1e-6)
            self.assertEqual(told[levels.index(level)]["state"], "settled")

    def test_buried_from_cold(self):
        for level, wanted in self.BURIED_FROM_COLD.items():
            staircase = f"{{hold: {level} A, for: 80 h}}"
            record = march_text(self.folder, f"buried-{level}",
                                WIRE.format(piece=BURIED, staircase=staircase, more="", every="60 s"))
            step = Step(record, 0)
            for found, (minutes, short) in zip(self.rules(step), wanted):
                self.soon(found, minutes)
                self.assertAlmostEqual(step.still_to_come(found), short, delta=0.1)
            readings = verdict(record)["settling"][0]["rules"][2]
            mark = 5.0 * np.ceil(wanted[0][0] / 5.0)
            self.assertAlmostEqual(readings["after_s"] / 60.0, mark, delta=1e-6)
            self.assertAlmostEqual(readings["to_come_K"], step.still_to_come(mark), delta=0.1)

    def test_the_five_minute_rule_is_not_believed_in_a_filled_bay(self):
        # 11.4 K are left when the rule holds at 188 min; the verdict of a march that ends soon after says so.
        record = march_text(self.folder, "short", WIRE.format(
            piece=BURIED, staircase="{hold: 31 A, for: 200 min}", more="", every="60 s"))
        told = verdict(record)["settling"][0]
        self.assertEqual(told["state"], "flat_but_rising")
        # One exponential through the last half misses what is slower still: 9.4 K of 10.4.
        self.assertAlmostEqual(told["rules"][2]["to_come_K"], 11.4, delta=2.0)

    def test_twenty_two_minutes_fail_a_rule_though_the_wire_is_there(self):
        levels = (14, 22, 31, 42, 55)
        staircase = ", ".join(f"{{hold: {level} A, for: 22 min}}" for level in levels)
        record = march_text(self.folder, "open", WIRE.format(piece=OPEN, staircase=staircase, more="", every="30 s"))
        for told in verdict(record)["settling"]:
            self.assertEqual(told["state"], "settled")
            self.assertLess(abs(told["to_come_K"]), 0.1)
            self.assertIsNone(told["rules"][0]["after_s"])  # less than 1 K in an hour: no hour has gone by
            self.assertIsNone(told["rules"][1]["after_s"])


class Instruments(Figures):
    def test_camera_copper_and_surface_far_from_supports(self):
        # 42 A: the camera, set to 0.95, reads 46.5 where the surface (0.90) is at 48.2 and the copper at 61.9.
        record = march_text(self.folder, "open", WIRE.format(
            piece=OPEN, staircase="{hold: 42 A, for: 2 h}", every="60 s",
            more="instruments: {camera: {aim: [wire], emissivity_set: 0.95, reflected: 11 degC}}"))
        row = table(record, self.folder, "t7")[0]
        self.near(celsius(row[3]), 48.2)
        self.near(celsius(row[4]), 46.5)
        self.assertAlmostEqual(celsius(row[3]) - celsius(row[4]), 48.2 - 46.5, delta=0.2)
        self.near(Step(record, 0).celsius[-1], 61.9)

    def test_the_hottest_copper_lies_under_the_coolest_looking_surface(self):
        # A loose sleeve of 1.2 mm, 0.5 mm off: surface 38.8, copper 68.9 (open wire 48.2 and 61.9).
        sleeve = ("{piece: sleeve, name: drop, length: 0.2 m, wall: 1.2 mm, fit: loose, gap: 0.5 mm, material: "
                  "{conductivity: 0.08 W/m/K, density: 600 kg/m3, heat_capacity: 1350 J/kg/K, emissivity: 0.90}}")
        record = march_text(self.folder, "sleeve", WIRE.format(
            piece=sleeve, staircase="{hold: 42 A, for: 3 h}", every="60 s",
            more="instruments: {camera: {aim: [drop], emissivity_set: 0.95, reflected: 11 degC}}"))
        row = table(record, self.folder, "t7")[0]
        self.near(celsius(row[3]), 38.8)
        self.near(Step(record, 0).celsius[-1], 68.9)

    def test_a_reading_at_the_ceiling_is_at_or_above(self):
        # The poor splice at 42 A: over 150 degC inside. The camera looks at its tape; a ceiling below that
        # tape's temperature is what it reads.
        sheet = pathlib.Path(self.folder) / "barn.yaml"
        text = BARN.read_text(encoding="utf-8")
        self.assertEqual(text.count("ceiling: 150 degC"), 1)
        sheet.write_text(text.replace("ceiling: 150 degC", "ceiling: 80 degC"), encoding="utf-8")
        record = march(self.folder, "splice", sheet, "poor splice")
        row = next(row for row in table(record, self.folder, "t7") if row[:3] == ["camera", "S1", "4"])
        self.assertGreater(celsius(row[3]), 85.0)
        self.assertEqual(celsius(row[4]), 80.0)
        self.assertIn("at or above", row[6])

    def test_the_mean_of_the_wire_from_the_taps(self):
        # 1.3515 V at 42 A are a mean of 60.8 degC; 0.5 % are 1.5 K.
        record = march(self.folder, "barn", BARN)
        row = next(row for row in table(record, self.folder, "t7") if row[0] == "voltmeter" and row[2] == "4")
        self.assertAlmostEqual(float(row[4].split(" V")[0]) / 1.3515, 1.0, delta=0.02)  # 5.2 m of 5.3 m
        told = re.search(r"mean of the wire (.*), ± ([\d.]+) K", row[6])
        self.near(celsius(told.group(1)), 60.8)
        self.assertAlmostEqual(float(told.group(2)), 1.5, delta=0.06)


class DeviceOpening(Figures):
    """20 A, 135 % within 60 min, 200 % within 2 min, against five steps of 22 min."""

    WATCH = "watch:\n  - {name: at 50, part: rubber, above: 50 degC}\n  - {name: at 60, part: rubber, above: 60 degC}\n"

    def told(self, arrangement):
        limits = pathlib.Path(self.folder) / "limits.yaml"
        limits.write_text(self.WATCH, encoding="utf-8")
        record = march(self.folder, arrangement.replace(" ", "-"), BARN, arrangement)
        device = verdict(record, "--watch", limits)["device"]
        return device, {one["item"]: one for one in device["crossings"]}

    def test_as_built(self):
        device, crossings = self.told("as built")
        self.assertAlmostEqual(device["latest_opening_s"] / 60.0, 68.0, delta=1e-3)
        self.assertAlmostEqual(device["earliest_opening_s"] / 60.0, 22.0, delta=1e-3)  # 110 % from the second step on
        # 60 degC at 71.4 min there, at 75.4 here (why: validation/cider-barn/case.md); the answer is the same.
        self.assertEqual(crossings["at 60"]["order"], "device_first")
        # 50 degC at 67.6 min there, 0.4 min before the latest opening, "cannot say"; here at 67.3.
        fifty = crossings["at 50"]
        self.soon(fifty["time_s"] / 60.0, 67.6)
        self.assertEqual(fifty["order"] == "cannot_say", abs(fifty["after_latest_opening_s"]) <= fifty["known_to_s"])
        self.assertNotEqual(fifty["order"], "device_first")

    def test_with_the_bay_filled(self):
        device, crossings = self.told("bay filled")
        self.assertAlmostEqual(device["latest_opening_s"] / 60.0, 68.0, delta=1e-3)
        self.assertEqual(crossings["at 60"]["order"], "not_required")
        self.assertAlmostEqual(crossings["at 60"]["after_latest_opening_s"] / 60.0, -16.8, delta=1.0)


class LimitsChanged(Figures):
    """A limit changed after the march."""

    def test_the_stored_file_is_judged_as_if_marched_with_that_limit(self):
        record = march(self.folder, "barn", BARN)
        before = record.read_bytes()
        limits = pathlib.Path(self.folder) / "limits.yaml"
        limits.write_text("watch:\n  - {name: changed, part: rubber, above: 65 degC}\n", encoding="utf-8")
        outcome = done(PROGRAMS / "ampstair-post", "verdict", record, "--json", "--watch", limits)
        self.assertEqual(outcome.returncode, 1)
        self.assertEqual(record.read_bytes(), before)
        crossing = json.loads(outcome.stdout)["items"][0]["crossing"]
        # The drop instead of the tube, as there. 76.3 min there and 78.8 here: validation/cider-barn/case.md.
        self.assertEqual(crossing["place"].split(" + ")[0], "drop")
        sheet = pathlib.Path(self.folder) / "marched.yaml"
        text = BARN.read_text(encoding="utf-8")
        self.assertEqual(text.count("above: 50 degC"), 1)
        sheet.write_text(text.replace("above: 50 degC", "above: 65 degC"), encoding="utf-8")
        marched = verdict(march(self.folder, "marched", sheet))["items"][0]["crossing"]
        # Rows 10 s apart and a straight line between: dT every^2 / (8 tau^2) of VERDICT.md over the slope is
        # below 0.1 s; the reading's single precision adds less.
        self.assertAlmostEqual(crossing["time_s"], marched["time_s"], delta=0.2)
        self.assertEqual(crossing["place"].split(" + ")[0], marched["place"].split(" + ")[0])

    def test_every_exit_code(self):
        record = march(self.folder, "barn", BARN)
        hottest = verdict(record)["hottest_conductor"]["temperature_degC"]
        for limit, code in ((hottest + 10.0, 0), (hottest - 10.0, 1), (hottest + 1.0, 3)):
            limits = pathlib.Path(self.folder) / "limits.yaml"
            limits.write_text(f"watch:\n  - {{name: changed, part: rubber, above: {limit:.2f} degC}}\n", encoding="utf-8")
            outcome = done(PROGRAMS / "ampstair-post", "verdict", record, "--watch", limits)
            self.assertEqual(outcome.returncode, code)
        limits.write_text("watch:\n  - {name: changed, part: rubber, above: 65}\n", encoding="utf-8")
        bad = subprocess.run([PROGRAMS / "ampstair-post", "verdict", record, "--watch", limits], capture_output=True,
                             check=False)
        self.assertEqual(bad.returncode, 2)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
