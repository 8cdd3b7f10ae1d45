#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The report page in a headless browser: what it shows against the record, and how it behaves.

usage: /usr/bin/python3 report_test.py TOP PROGRAMS [unittest's arguments]
"""

import base64
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np
from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
BARN = TOP / "scenarios/cider-barn.yaml"
PATIENCE = 60  # s, for a figure on a busy machine

# An invented rig whose every name is what a name should not be.
HOSTILE = {
    "title": "<script>window.taken = 1</script> & \"rig\" 'two'",
    "piece": "leg <img src=x onerror=window.taken=2>",
    "other": "\u202egel\u202c </script><script>window.taken=3</script>",
    "item": "limit \"'`${window.taken=4}` " + "n" * 10000,
}
HOSTILE_SHEET = """format: run-sheet 1
title: {title}
wire:
  metal: {{material: copper, gauge: No. 14}}
  layers:
    - {{material: rubber-aged-soft, thickness: 1.2 mm}}
run:
  - {{piece: cut-end, name: left, insulated: true}}
  - {{piece: open, name: {piece}, length: 0.5 m}}
  - {{piece: open, name: {other}, length: 0.5 m}}
  - {{piece: cut-end, name: right, insulated: true}}
around: {{air: 20 degC}}
supply: {{mode: current}}
staircase: [{{hold: 20 A, for: 10 min}}]
watch:
  - {{name: {item}, part: rubber, above: 30 degC, from: {title}}}
"""


def done(*command):
    outcome = subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)
    if outcome.returncode not in (0, 1, 3):
        raise AssertionError(f"{command}: exit {outcome.returncode}\n{outcome.stderr}")
    return outcome.stdout


def march(folder, sheet, arrangement=None):
    record = folder / f"{(arrangement or 'run').replace(' ', '-')}.h5"
    chosen = ["--arrangement", arrangement] if arrangement else []
    done(PROGRAMS / "ampstair", "run", sheet, *chosen, "-o", record, "--quiet")
    return record


def page(folder, records, *options, name="page.html"):
    path = folder / name
    done(PROGRAMS / "ampstair-post", "report", *records, *options, "-o", path, "--overwrite")
    return path


def browser(width=1280, height=900):
    options = webdriver.ChromeOptions()
    options.binary_location = "/usr/bin/chromium"
    for word in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                 f"--window-size={width},{height}", "--hide-scrollbars"):
        options.add_argument(word)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    service = webdriver.chrome.service.Service("/usr/bin/chromedriver")
    return webdriver.Chrome(service=service, options=options)


def wait_for(driver, condition):
    return WebDriverWait(driver, PATIENCE, 0.1).until(condition)


def drawn(driver):
    figures = driver.find_elements(By.CSS_SELECTOR, "figure[data-kind]")
    return figures and all(figure.get_attribute("data-drawn") == "yes" for figure in figures)


class Opened(unittest.TestCase):
    """Three records of the barn and their page, opened once for all cases of a class."""

    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(cls.scratch.cleanup)
        cls.folder = pathlib.Path(cls.scratch.name)
        cls.records = [march(cls.folder, BARN, name) for name in ("as built", "bay filled", "poor splice")]
        cls.page = page(cls.folder, cls.records)
        cls.driver = browser()
        cls.addClassCleanup(cls.driver.quit)
        cls.driver.get(cls.page.as_uri())
        wait_for(cls.driver, drawn)

    def text(self, selector):
        return self.driver.find_element(By.CSS_SELECTOR, selector).text


def radiance(kelvin):
    """Planck's law summed over 8 to 14 um, W/m2/sr."""
    planck, light, boltzmann = 6.62607015e-34, 299792458.0, 1.380649e-23
    wave = np.linspace(8e-6, 14e-6, 2001)
    return np.trapz(2 * planck * light**2 / wave**5 / np.expm1(planck * light / (wave * boltzmann * kelvin)), wave)


def celsius(text):
    return float(re.search(r"(-?\d+(?:\.\d+)?)(?: ± [\d.]+)? °C", text).group(1))


def usable(held):
    """Rows of the conductor's history before the model ends for it (table `validity`)."""
    flags = held["validity"]
    ends = [time for time, severity, part in zip(flags["time"][:], flags["severity"].asstr()[:],
                                                 flags["part"].asstr()[:])
            if severity != "note" and part in ("conductor", "rubber", "covering")]
    return held["time"][:] <= min(ends, default=np.inf)


class FirstScreen(Opened):
    def test_the_hottest_of_all_is_the_records(self):
        for record, line in zip(self.records, self.driver.find_elements(By.CSS_SELECTOR, "#q6 li")):
            with h5py.File(record) as held:
                hottest = np.nanmax(held["conductor_temperature"][usable(held)])
                self.assertIn(held.attrs["arrangement"], line.text)
            # Three figures are shown.
            self.assertAlmostEqual(celsius(line.text), hottest, delta=0.5 if hottest > 100 else 0.05)
        with h5py.File(self.records[0]) as held:
            self.assertAlmostEqual(celsius(self.text("#finding")), np.nanmax(held["conductor_temperature"][:]),
                                   delta=0.51)

    def test_every_step_has_its_hottest_place(self):
        lines = self.driver.find_elements(By.CSS_SELECTOR, "#q1 li")
        with h5py.File(self.records[0]) as held:
            time, step = held["time"][:], held["step"][:]
            ends = held["steps/end"][:]
            self.assertEqual(len(lines), len(ends))
            for number, (line, end) in enumerate(zip(lines, ends)):
                row = np.flatnonzero((step == number) & (np.abs(time - end) < 1e-6))[-1]
                hottest = held["conductor_temperature"][row]
                self.assertAlmostEqual(celsius(line.text), hottest.max(), delta=0.06)
                self.assertAlmostEqual(float(re.search(r"(\d+\.\d+) m \(", line.text).group(1)),
                                       held["position"][hottest.argmax()], delta=0.011)

    def test_crossings_are_the_verdicts(self):
        verdict = json.loads(done(PROGRAMS / "ampstair-post", "verdict", self.records[0], "--json"))
        lines = self.driver.find_elements(By.CSS_SELECTOR, "#q2 li")
        self.assertEqual(len(lines), len(verdict["items"]))
        for line, item in zip(lines, verdict["items"]):
            self.assertIn(item["name"], line.text)
            self.assertIn(f"{item['mark']} {item['state']}", line.text)
            if item["crossing"]:
                minute = float(re.search(r"minute (\d+(?:\.\d+)?)", line.text).group(1))
                self.assertAlmostEqual(minute, item["crossing"]["time_s"] / 60.0, delta=0.06)

    def test_the_camera_reads_what_plancks_law_gives(self):
        cells = next(row for row in ([cell.text for cell in line.find_elements(By.TAG_NAME, "td")]
                                     for line in self.driver.find_elements(By.CSS_SELECTOR, "#t7 tbody tr"))
                     if row[:3] == ["camera", "S1", "5"])
        with h5py.File(self.records[0]) as held:
            spot = list(held["camera/name"].asstr()[:]).index("S1")
            emissivity, told = held["camera/emissivity"][spot], held["camera/emissivity_set"][spot]
            around = held["camera/reflected"][spot] + 273.15
            nearest = np.abs(held["position"][:] - held["camera/position"][spot]).argmin()
            surface = held["surface_temperature"][-1, nearest]
        self.assertAlmostEqual(celsius(cells[3]), surface, delta=0.06)
        got = emissivity * radiance(surface + 273.15) + (told - emissivity) * radiance(around)
        shown = np.interp(got / told, [radiance(kelvin) for kelvin in range(250, 700)], range(250, 700)) - 273.15
        self.assertAlmostEqual(celsius(cells[4]), shown, delta=0.1)

    def test_the_heat_budget_is_the_records(self):
        rows = [[cell.text for cell in line.find_elements(By.TAG_NAME, "td")]
                for line in self.driver.find_elements(By.CSS_SELECTOR, "#t13 tbody tr:not(.remark)")]
        self.assertTrue(all(row[-1] == "100.0 %" for row in rows), rows)
        knob = next(row for row in rows if row[:2] == ["5", "K1"])
        with h5py.File(self.records[0]) as held:
            table = held["heat_budget"]
            at = np.flatnonzero((table["place"].asstr()[:] == "K1") & (table["step"][:] == 4)).item()
            for column, name, sign in ((4, "made", 1), (6, "wire_from_end", 1), (9, "convected", -1),
                                       (10, "radiated", -1), (11, "into_body", -1)):
                self.assertAlmostEqual(float(knob[column].split()[0]), sign * table[name][at], delta=0.0051)

    def test_every_table_and_figure_tells_where_its_numbers_stand_in_the_record(self):
        shown = self.driver.find_elements(By.CSS_SELECTOR, "main figure, main table")
        told = self.driver.find_elements(By.CSS_SELECTOR, "main .origin")
        self.assertEqual(len(shown), len(told))
        with h5py.File(self.records[0]) as held:
            for path in self.driver.find_elements(By.CSS_SELECTOR, "main .origin code"):
                self.assertIn(path.get_attribute("textContent"), held)

    def test_cautions_and_the_sheet_are_there(self):
        self.assertIn("not a rating", self.text(".cautions"))
        sheet = self.driver.find_element(By.CSS_SELECTOR, "#sheet pre").get_attribute("textContent")
        self.assertEqual(sheet, BARN.read_text(encoding="utf-8"))

    def test_the_same_records_give_the_same_bytes(self):
        again = page(self.folder, self.records, name="again.html")
        self.assertEqual(self.page.read_bytes(), again.read_bytes())

    def test_the_page_stays_small(self):
        self.assertLess(self.page.stat().st_size, 6_000_000)


class Beside(Opened):
    """What differs between three records and what it did, against the verb that compares."""

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.told = json.loads(done(PROGRAMS / "ampstair-post", "compare", *cls.records, "--json"))

    def rows(self, table):
        return [[cell.text for cell in line.find_elements(By.TAG_NAME, "td")]
                for line in self.driver.find_elements(By.CSS_SELECTOR, f"#{table} tbody tr")]

    def test_every_difference_has_its_row(self):
        wanted = [[found["place"], found["key"], *(value["text"] if value else "–" for value in found["values"])]
                  for found in self.told["differences"]]
        self.assertEqual(self.rows("t6d"), wanted)

    def test_steps_tell_the_same_differences(self):
        for row, step in zip(self.rows("t6"), self.told["steps"], strict=True):
            for record, (volts, kelvin) in zip(step["records"][1:], (row[7:9], row[11:13])):
                if record["warmer_K"] is None:
                    self.assertEqual(kelvin, "–")
                    continue
                self.assertAlmostEqual(float(kelvin.split(" K")[0]), record["warmer_K"], delta=0.051)
                millivolts = float(re.search(r"([+-][\d.]+) mV", volts).group(1))
                self.assertAlmostEqual(millivolts, 1e3 * record["more_V"], delta=0.051)

    def test_crossings_tell_the_same_shifts(self):
        for row, item in zip(self.rows("t6c"), self.told["items"], strict=True):
            for record, (state, later) in zip(item["records"][1:], ((row[3], row[5]), (row[6], row[8]))):
                self.assertEqual(state, f"{record['mark']} {record['state']}")
                if record["later_s"] is not None:
                    self.assertAlmostEqual(float(later.split(" min")[0]), record["later_s"] / 60.0, delta=0.051)


class Figures(Opened):
    def test_nothing_is_asked_of_a_network_and_nothing_goes_wrong(self):
        asked = []
        for entry in self.driver.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                asked.append(message["params"]["request"]["url"])
        self.assertTrue(all(url.startswith(("file:", "data:")) for url in asked), asked)
        self.assertEqual([entry for entry in self.driver.get_log("browser") if entry["level"] != "INFO"], [])
        self.assertEqual(self.driver.execute_script("return pageFaults()"), 0)

    def test_the_air_of_the_sheet_is_drawn_where_it_moves(self):
        # The sheet's air: 11 degC, still but for 0.25 m/s from minute 70 to 74.
        with h5py.File(self.records[0]) as held:
            minutes, speed = held["time"][:] / 60.0, held["ambient_speed"][:]
            np.testing.assert_allclose(speed, np.where((minutes > 70) & (minutes <= 74), 0.25, 0.0))
            np.testing.assert_allclose(held["ambient_air"][:], 11.0)
        texts = [item.text for item in self.driver.find_elements(By.CSS_SELECTOR, "#p1 svg text")]
        self.assertIn("air, m/s", texts)
        self.assertIn("air", texts)  # in the legend of curves

    def test_the_pointer_reads_a_curve(self):
        chart = self.driver.find_element(By.CSS_SELECTOR, "#p1 svg")
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", chart)
        ActionChains(self.driver).move_to_element(chart).move_by_offset(120, 40).perform()
        told = re.compile(r"conductor (\d+\.\d) °C at (\d+\.\d) min")

        def read(driver):
            texts = [item.text for item in driver.find_elements(By.CSS_SELECTOR, "#p1 svg text")]
            return next((match for match in map(told.search, texts) if match), None)
        found = wait_for(self.driver, read)
        with h5py.File(self.records[0]) as held:
            minutes = held["time"][:] / 60.0
            hottest = held["conductor_temperature"][:].max(axis=1)
            near = np.abs(minutes - float(found.group(2))) < 0.26
            self.assertTrue(np.min(np.abs(hottest[near] - float(found.group(1)))) < 0.06)

    def test_the_wheel_zooms_and_a_double_click_shows_all(self):
        chart = self.driver.find_element(By.CSS_SELECTOR, "#p1 svg")
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", chart)

        def ticks(driver):
            labels = driver.find_elements(By.CSS_SELECTOR, "#p1 svg .role-axis-label text")
            return sorted(label.text for label in labels)
        before = ticks(self.driver)
        self.driver.execute_script(
            "const box = arguments[0].getBoundingClientRect();"
            "arguments[0].dispatchEvent(new WheelEvent('wheel', {deltaY: -600, bubbles: true, cancelable: true,"
            "clientX: box.left + box.width / 2, clientY: box.top + box.height / 2}));", chart)
        wait_for(self.driver, lambda driver: ticks(driver) != before)
        ActionChains(self.driver).move_to_element(chart).double_click().perform()
        wait_for(self.driver, lambda driver: ticks(driver) == before)

    def test_bars_of_heat_are_as_long_in_as_out(self):
        bars = self.driver.execute_script("""
            return Array.from(document.querySelectorAll('#p8 svg .mark-rect.role-mark path')).map(path => {
              const box = path.getBoundingClientRect(); return [box.top, box.left, box.right]; });""")
        zero = self.driver.execute_script(
            "return document.querySelector('#p8 svg .mark-rule.role-mark line').getBoundingClientRect().left")
        places = {}
        for top, left, right in bars:
            least, most = places.get(round(top), (zero, zero))
            places[round(top)] = (min(least, left), max(most, right))
        with h5py.File(self.records[0]) as held:
            self.assertEqual(len(places), 1 + np.count_nonzero(held["pieces/end"][:] > held["pieces/begin"][:]))
        for least, most in places.values():
            self.assertGreater(most - zero, 50.0)
            self.assertAlmostEqual(most - zero, zero - least, delta=1.5)

    def test_the_slider_moves_the_section_through_time(self):
        slider = self.driver.find_element(By.CSS_SELECTOR, "#p7 input")
        picture = "return document.querySelector('#p7 canvas').toDataURL()"
        before, told = self.driver.execute_script(picture), self.text("#p7 output")
        with h5py.File(self.records[0]) as held:
            moments = held["fields/field_time"][:] / 60.0
        self.assertAlmostEqual(float(told.split()[-1]), moments[-1], delta=0.01)
        slider.send_keys(Keys.HOME)
        wait_for(self.driver, lambda driver: driver.execute_script(picture) != before)
        self.assertAlmostEqual(float(self.text("#p7 output").split()[-1]), moments[0], delta=0.01)


# Contrast of WCAG 2.1, 1.4.3 (from memory): relative luminances (L1 + 0.05) / (L2 + 0.05) >= 4.5.
CONTRASTS = """
function channel(v) { v /= 255; return v <= 0.03928 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4); }
function luminance(c) { return 0.2126 * channel(c[0]) + 0.7152 * channel(c[1]) + 0.0722 * channel(c[2]); }
function rgb(text) { const m = /rgba?\\(([^)]+)\\)/.exec(text); if (!m) return null;
  const v = m[1].split(',').map(Number); return v.length === 4 && v[3] === 0 ? null : v; }
function ground(e) { for (; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor); if (c) return c; }
  return [255, 255, 255]; }
const bad = [];
document.querySelectorAll('body *').forEach(e => {
  const own = Array.from(e.childNodes).some(n => n.nodeType === 3 && n.textContent.trim());
  if (!own || ['SCRIPT', 'STYLE'].includes(e.tagName)) return;
  const style = getComputedStyle(e);
  const ink = rgb(e instanceof SVGElement ? style.fill : style.color);
  if (!ink) return;
  const a = luminance(ink), b = luminance(ground(e));
  const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  if (contrast < 4.5) bad.push(e.tagName + ' ' + e.textContent.slice(0, 40) + ' ' + contrast.toFixed(2));
});
return bad;
"""


# Luminance as above of the strokes of a figure's curves: what a grey print keeps of them.
STROKES = """
function channel(v) { v /= 255; return v <= 0.03928 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4); }
const all = [];
document.querySelectorAll(arguments[0] + ' .mark-line path').forEach(e => {
  const style = getComputedStyle(e), c = /rgba?\\(([^)]+)\\)/.exec(style.stroke);
  if (!c || !e.getAttribute('d')) return;
  const v = c[1].split(',').map(Number);
  all.push([0.2126 * channel(v[0]) + 0.7152 * channel(v[1]) + 0.0722 * channel(v[2]),
            e.getAttribute('stroke-dasharray') || '']);
});
return all;
"""
# Colours a scale gives over the values 0 to 1 of its domain.
SHADES = """
const told = arguments[arguments.length - 1];
document.querySelector(arguments[0]).ready.then(view => {
  const scale = view.scale('shade'), domain = scale.domain(), ends = [domain[0], domain[domain.length - 1]];
  told(Array.from({length: 41}, (_, i) => scale(ends[0] + (ends[1] - ends[0]) * i / 40)));
});
"""


def luminance(colour):
    channels = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]] if "(" in colour else \
        [int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (v / 12.92 if v <= 0.03928 else ((v + 0.055) / 1.055) ** 2.4 for v in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


class Grey(Opened):
    """What a grey print keeps."""

    def strokes(self, figure):
        found = self.driver.execute_script(STROKES, figure)
        self.assertTrue(found, figure)
        return found

    def test_every_curve_stands_out_from_the_paper(self):
        # WCAG 2.1, 1.4.11 (from memory): 3 to 1 for what has to be seen of a graphic.
        for figure in ("#p1", "#p3", "#p4", "#p5"):
            for light, _ in self.strokes(figure):
                self.assertGreaterEqual(1.05 / (light + 0.05), 3.0, figure)

    def test_curves_of_parts_and_records_differ_by_their_dashes(self):
        for figure in ("#p1", "#p4"):
            group = self.driver.find_elements(By.CSS_SELECTOR, f"{figure} .role-legend-symbol path")
            dashes = [path.get_attribute("stroke-dasharray") or "" for path in group]
            self.assertGreater(len(dashes), 2, figure)
            self.assertEqual(len(set(dashes)), len(dashes), figure)

    def test_steps_along_the_wire_carry_their_numbers_and_darken(self):
        texts = [text.text for text in self.driver.find_elements(By.CSS_SELECTOR, "#p3 .mark-text text")]
        self.assertLessEqual({"1", "2", "3", "4", "5"}, set(texts))
        full = [light for light, dashes in self.strokes("#p3") if dashes in ("", "1,0")]
        self.assertEqual(len(full), 5)
        self.assertEqual(full, sorted(full, reverse=True))

    def test_warmer_is_lighter_on_the_maps(self):
        for figure in ("#p2", "#p7"):
            lights = [luminance(colour) for colour in self.driver.execute_async_script(SHADES, figure)]
            self.assertTrue(all(a < b for a, b in zip(lights, lights[1:])), figure)

    def test_crossings_against_a_device_have_their_own_shapes(self):
        shapes = [path.get_attribute("d") for path
                  in self.driver.find_elements(By.CSS_SELECTOR, "#p5 .role-legend-symbol path")]
        self.assertEqual(len(shapes), 4)
        self.assertEqual(len(set(shapes)), 4)


class Envelope(Opened):
    """P5 against the record and the verdict."""

    def held(self):
        return self.driver.execute_script(
            "return JSON.parse(document.getElementById('page-data').textContent).records[0].envelope")

    def test_paths_are_the_currents_of_the_steps(self):
        held = self.held()
        with h5py.File(self.records[0]) as record:
            rating = record["device/rating"][0]
            times, current, step = record["time"][:], record["current"][:], record["step"][:]
            begins, ends = record["steps/begin"][:], record["steps/end"][:]
            for number, (begin, end) in enumerate(zip(begins, ends)):
                full = [point for point in held["paths"] if point["step"] == number + 1 and point["kind"] == "full"]
                self.assertAlmostEqual(full[-1]["minute"], (end - begin) / 60.0, delta=1e-3)
                self.assertAlmostEqual(full[-1]["times"], current[step == number][-1] / rating, delta=1e-4)
            self.assertEqual(held["must_hold"], record["device/must_hold"][0])
            np.testing.assert_allclose([one["within"] * 60.0 for one in held["openings"]], record["openings/within"][:])
        # The first step's current is not left again: its path goes on to the end.
        higher = [point["minute"] for point in held["paths"] if point["step"] == 1 and point["kind"] == "higher"]
        self.assertAlmostEqual(max(higher), times[-1] / 60.0, delta=1e-3)

    def test_the_latest_opening_and_the_crossings_are_the_verdicts(self):
        held = self.held()
        verdict = json.loads(done(PROGRAMS / "ampstair-post", "verdict", self.records[0], "--json"))
        # 200 % within 2 min from the begin of the 42 A step at 66 min (by hand): 68.0 min.
        self.assertAlmostEqual(verdict["device"]["latest_opening_s"] / 60.0, 68.0, delta=0.001)
        self.assertEqual((held["latest"]["minute"], held["latest"]["times"]), (2.0, 2.1))
        self.assertIn("minute 68.0", held["latest"]["label"])
        told = {one["item"]: one["order"] for one in verdict["device"]["crossings"]}
        words = {"device_first": "device opens first", "not_required": "not required to have opened",
                 "cannot_say": "cannot say", "cannot_have": "no reason to open before"}
        self.assertEqual({one["item"]: one["order"] for one in held["crossings"]},
                         {item: words[order] for item, order in told.items()})
        self.assertGreater(len(told), 1)

    def test_nothing_says_that_it_opened(self):
        text = self.text("#p5")
        self.assertIn("the model does not show", text)
        self.assertNotRegex(text, r"(?i)it opened|has opened|fuse blew|did open")

    def test_without_a_device_there_is_no_figure(self):
        sheet = self.folder / "bare.yaml"
        text = "\n".join(line for line in BARN.read_text(encoding="utf-8").splitlines()
                         if not line.startswith("device:"))
        sheet.write_text(text + "\n", encoding="utf-8")
        self.driver.get(page(self.folder, [march(self.folder, sheet)], name="bare.html").as_uri())
        wait_for(self.driver, drawn)
        self.assertEqual(self.driver.find_elements(By.CSS_SELECTOR, "#p5"), [])
        self.assertIn("nothing can be said about opening", self.text("#q7"))
        self.driver.get(self.page.as_uri())
        wait_for(self.driver, drawn)


class Appearance(Opened):
    def test_text_stands_out_from_its_ground(self):
        self.assertEqual(self.driver.execute_script(CONTRASTS), [])

    def test_a_narrow_screen_needs_no_scrolling_sideways(self):
        driver = browser(width=500, height=900)
        self.addCleanup(driver.quit)
        driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                               {"width": 390, "height": 844, "deviceScaleFactor": 1, "mobile": True})
        driver.get(self.page.as_uri())
        wait_for(driver, drawn)
        self.assertLessEqual(driver.execute_script("return document.documentElement.scrollWidth"), 391)

    def test_states_are_told_without_colour(self):
        for state in self.driver.find_elements(By.CSS_SELECTOR, "#t3 .state"):
            self.assertRegex(state.text, r"^(C ○ clear|N ◐ near|X ● crossed|\? ◇ cannot say)$")


class Printed(Opened):
    def test_the_page_prints(self):
        printed = base64.b64decode(self.driver.print_page())
        self.assertTrue(printed.startswith(b"%PDF"))
        self.assertGreater(len(printed), 50_000)


class Hostile(unittest.TestCase):
    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)

    def test_names_neither_script_nor_break_the_page(self):
        quoted = {key: json.dumps(value, ensure_ascii=False) for key, value in HOSTILE.items()}
        sheet = self.folder / "hostile.yaml"
        sheet.write_text(HOSTILE_SHEET.format(**quoted), encoding="utf-8")
        record = march(self.folder, sheet)
        driver = browser()
        self.addCleanup(driver.quit)
        for options in ((), ("--for", "court"), ("--for", "class"), ("--for", "bench")):
            driver.get(page(self.folder, [record, record], *options).as_uri())
            self.assertEqual(driver.execute_script("return typeof window.taken"), "undefined", options)
            self.assertEqual(driver.find_element(By.ID, "title").text, HOSTILE["title"])
            self.assertEqual(driver.find_elements(By.CSS_SELECTOR, "main img"), [])
        driver.get(page(self.folder, [record]).as_uri())
        wait_for(driver, drawn)
        self.assertEqual(driver.execute_script("return typeof window.taken"), "undefined")
        body = driver.find_element(By.ID, "t1").text
        self.assertIn("leg <img src=x", body)
        self.assertNotIn("\u202e", driver.find_element(By.ID, "t1").get_attribute("innerHTML"))
        self.assertLessEqual(driver.execute_script("return document.documentElement.scrollWidth"), 1281)


class Readers(Opened):
    def test_a_class_guesses_first(self):
        self.driver.get(page(self.folder, self.records, "--for", "class", name="class.html").as_uri())
        results = self.driver.find_element(By.ID, "results")
        self.assertFalse(results.is_displayed())
        self.assertNotIn("118", self.driver.find_element(By.TAG_NAME, "main").text)
        fields = self.driver.find_elements(By.CSS_SELECTOR, "#guess input")
        self.assertEqual(len(fields), 5)
        self.driver.find_element(By.CSS_SELECTOR, "#guess button").click()
        self.assertFalse(results.is_displayed())
        for field in fields:
            field.send_keys("50")
        self.driver.find_element(By.CSS_SELECTOR, "#guess button").click()
        wait_for(self.driver, drawn)
        self.assertTrue(results.is_displayed())
        with h5py.File(self.records[0]) as held:
            time = held["time"][:]
            ends = [held["conductor_temperature"][np.flatnonzero(np.abs(time - end) < 1e-6)[0]].max()
                    for end in held["steps/end"][:5]]
        off = np.mean(np.abs(50.0 - np.array(ends)))
        told = self.driver.find_element(By.ID, "guess-told").text
        self.assertAlmostEqual(float(re.search(r"off by (\d+\.\d)", told).group(1)), off, delta=0.1)

    def test_a_court_gets_twelve_sections_and_no_cause(self):
        self.driver.get(page(self.folder, self.records, "--for", "court", name="court.html").as_uri())
        wait_for(self.driver, drawn)
        sections = self.driver.find_elements(By.CSS_SELECTOR, "main > section")
        self.assertEqual([section.get_attribute("id") for section in sections],
                         [f"s{number}" for number in range(1, 13)])
        self.assertNotIn("the cause", self.driver.find_element(By.TAG_NAME, "main").text)

    def test_a_bench_card_has_a_row_every_five_minutes(self):
        self.driver.get(page(self.folder, self.records, "--for", "bench", name="bench.html").as_uri())
        rows = self.driver.find_elements(By.CSS_SELECTOR, "#card tbody tr")
        self.assertEqual(len(rows), 22)
        with h5py.File(self.records[0]) as held:
            time = held["time"][:]
            row = np.flatnonzero(np.abs(time - 4500.0) < 1e-6)[-1]
            copper = held["conductor_temperature"][row].max()
        cells = [cell.text for cell in rows[14].find_elements(By.TAG_NAME, "td")]
        self.assertEqual(float(cells[0]), 75.0)
        self.assertAlmostEqual(float(cells[4]), copper, delta=0.06)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
