# SPDX-License-Identifier: MIT
"""Marches the run sheets of a case and reads numbers from their records and verdicts."""

import json
import math
import subprocess

import h5py
import numpy as np
import yaml


class CannotRun(Exception):
    """The case asks for something that cannot be had."""


def called(command, allowed):
    outcome = subprocess.run([str(word) for word in command], capture_output=True, text=True,
                             check=False)
    if outcome.returncode not in allowed:
        raise CannotRun(f"{' '.join(map(str, command))}: exit {outcome.returncode}\n{outcome.stderr}")
    return outcome.stdout


def changed(sheet, changes):
    """The sheet with some of its keys set; a dot goes one mapping or list entry (by number) down.
    A change to null takes the key out."""
    for path, value in changes.items():
        *way, last = [int(word) if word.isdigit() else word for word in path.split(".")]
        place = sheet
        for word in way:
            place = place[word]
        if value is None:
            del place[last]
        else:
            place[last] = value
    return sheet


class Outcome:
    """A record of one march, and its verdict where the case asks for it."""

    def __init__(self, programs, sheet, changes, arrangement, path):
        self.programs, self.path, self.items = programs, path, None
        if changes:
            text = yaml.safe_dump(changed(yaml.safe_load(sheet.read_text()), changes),
                                  sort_keys=False, width=4000)
            sheet = path.with_suffix(".yaml")
            sheet.write_text(text)
        called([programs / "ampstair", "run", sheet, "-o", path, "--quiet",
                *(["--arrangement", arrangement] if arrangement else [])],
               [0, 3])  # 3: it stopped where the model ends; what is asked of later is missed
        with h5py.File(path) as record:
            self.time = record["time"][:]
            self.series = {name: item[:] for name, item in record.items()
                           if isinstance(item, h5py.Dataset) and item.shape[:1] == self.time.shape}
            self.probes = list(record["probes/name"].asstr()[:]) if "probes" in record else []

    def column(self, quantity):
        """The history a quantity is read from, one value per row."""
        if "probe" not in quantity:
            return self.series[quantity["series"]]
        column = self.probe(quantity["probe"])
        return column - self.probe(quantity["less_probe"]) if "less_probe" in quantity else column

    def probe(self, name):
        """Temperatures of a probe, degC."""
        if name not in self.probes:
            raise CannotRun(f"no probe {name!r}; there are {self.probes}")
        return self.series["probe_temperature"][:, self.probes.index(name)]

    def at(self, quantity, time):
        """Value at a time [s], at the end, or the highest or lowest within [from, to]."""
        column = self.column(quantity)
        if isinstance(time, list):
            within = column[(self.time >= time[0] - 1e-6) & (self.time <= time[1] + 1e-6)]
            return float(np.min(within) if quantity.get("least") else np.max(within))
        if time == "end":
            return float(column[-1])
        near = int(np.argmin(np.abs(self.time - time)))
        if abs(self.time[near] - time) > 1e-6 * max(1.0, time):
            raise CannotRun(f"{quantity['name']}: no output at {time} s")
        return float(column[near])

    def crossing(self, item):
        """Seconds at which the verdict says a watch item was first crossed; infinite if never."""
        if self.items is None:
            verdict = json.loads(called([self.programs / "ampstair-post", "verdict", self.path,
                                         "--json"], [0, 1, 3]))
            self.items = {entry["name"]: entry for entry in verdict["items"]}
        crossing = self.items[item]["crossing"]
        return crossing["time_s"] if crossing else math.inf

    def highest(self, quantity):
        """Highest value of a quantity in the whole march."""
        return float(np.max(self.column(quantity)))

    def settled(self, quantity, within):
        """Whether the last tenth of the march moves a quantity by less than `within`."""
        late = self.column(quantity)[self.time >= 0.9 * self.time[-1]]
        return len(late) > 1 and float(np.ptp(late)) < within


class Marches:
    """The marches of a case: each is marched when first asked for, and once."""

    def __init__(self, programs, case, marches, folder):
        self.programs, self.case, self.folder = programs, case, folder
        self.told = {march.get("name", march["sheet"]): march for march in marches}
        if len(self.told) < len(marches):
            raise CannotRun("two marches have one name")
        self.outcomes, self.found, self.count = {}, {}, 0

    def march(self, name, **more):
        """The march called `name`, with `more` changes to its sheet."""
        march = self.told[name]
        self.count += 1
        return Outcome(self.programs, self.case / march["sheet"],
                       {**march.get("set", {}), **more}, march.get("arrangement"),
                       self.folder / f"{self.count}.h5")

    def value(self, name, quantity, time):
        """A quantity read from the march called `name`."""
        if quantity.get("find") == "current":
            value = self.current(name, quantity)
        else:
            if name not in self.outcomes:
                self.outcomes[name] = self.march(name)
            outcome = self.outcomes[name]
            value = outcome.crossing(quantity["crossing"]) if "crossing" in quantity \
                else outcome.at(quantity, time)
        return value * quantity.get("times", 1.0) + quantity.get("plus", 0.0)

    def current(self, name, quantity):
        """Amperes that bring a probe to a temperature once it has settled, between two marches no
        more than 0.1 A apart: the lower settles below it, the upper does not."""
        key = (name, quantity["probe"], quantity["reaches"])
        if key not in self.found:
            self.found[key] = self.bracketed(name, quantity)
        return self.found[key]

    def bracketed(self, name, quantity):
        limit = quantity["reaches"]
        known = {}

        def over(ampere):
            """Kelvins over the limit at the highest: one that melts and parts has cooled at the end."""
            if ampere not in known:
                outcome = self.march(name, **{"staircase.0.hold": f"{ampere:.4f} A"})
                known[ampere] = outcome.highest(quantity) - limit
                if known[ampere] < 0.0 and not outcome.settled(quantity, 0.05):
                    raise CannotRun(f"{quantity['name']}: {ampere} A has not settled")
            return known[ampere]

        low, high = map(float, quantity["between"])
        if not over(low) < 0.0 <= over(high):
            raise CannotRun(f"{quantity['name']}: not between {low} A and {high} A")

        def between():
            """Where a rise that goes with the square of the current meets the limit."""
            part = -known[low] / (known[high] - known[low])
            return math.sqrt(low * low + part * (high * high - low * low))

        halve = False
        while high - low > 0.1 + 1e-9:
            width = high - low
            guess = 0.5 * (low + high) if halve else between()
            guess = round(min(max(guess, low + 0.05), high - 0.05), 4)
            beside = round(guess - 0.05 if over(guess) >= 0.0 else guess + 0.05, 4)
            # One beside it as well, so that both ends of the bracket move.
            for ampere in [guess] if halve else [guess, beside]:
                if low < ampere < high:
                    low, high = (low, ampere) if over(ampere) >= 0.0 else (ampere, high)
            halve = high - low > 0.5 * width  # a march that ends where its metal melts bends the line
        return between()
