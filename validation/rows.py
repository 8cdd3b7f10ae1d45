# SPDX-License-Identifier: MIT
"""The rows of a case: what was published, what is computed, and whether the one meets the other."""

import dataclasses
import math
import pathlib
import tempfile

import yaml

from marches import CannotRun, Marches

RELATIONS = ("near", "at_least", "at_most", "between", "bracket")
MET, EXPLAINED, MISSED, STALE = "met", "FAILED, known", "MISSED", "STALE REASON"


@dataclasses.dataclass
class Row:
    """One published value. `computed` is two numbers where two marches bracket a reading."""

    case: str
    name: str
    published: object  # a number, or [low, high]
    unit: str
    relation: str
    tolerance: float
    source: str
    status: str
    reason: str
    computed: object = None

    def met(self):
        """Whether the computed value stands to the published one as it should; a NaN does not."""
        return abs(self.difference()) <= self.tolerance

    def difference(self):
        """Computed less published; for bounds and brackets how far outside, 0 inside."""
        low, high = pair(self.published)
        if self.relation == "bracket":
            least, most = sorted(pair(self.computed))
            return 0.0 - max(beyond(low, least, most), beyond(high, least, most), key=abs)
        if self.relation == "between":
            return beyond(self.computed, low, high)
        if self.relation == "at_least":
            return min(self.computed - low, 0.0)
        if self.relation == "at_most":
            return max(self.computed - high, 0.0)
        return self.computed - self.published

    def verdict(self):
        """One of MET, EXPLAINED (missed, and the case says why), MISSED, STALE (met, though the case
        says why it would not be)."""
        if self.met():
            return STALE if self.reason else MET
        return EXPLAINED if self.reason else MISSED

    def stated(self):
        """The cells of a row that do not depend on a march, and the verdict that is expected."""
        return [self.case, self.name, self.published_text(), self.tolerance_text(), self.source,
                self.status, f"{EXPLAINED}: {self.reason}" if self.reason else MET]

    def published_text(self):
        low, high = pair(self.published)
        text = f"{low:g} to {high:g}" if low != high else f"{low:g}"
        before = {"at_least": "at least ", "at_most": "at most "}.get(self.relation, "")
        return f"{before}{text} {self.unit}".strip()

    def computed_text(self):
        low, high = sorted(pair(self.computed))
        if math.isinf(low):
            return "never"
        return f"{low:.5g} and {high:.5g}" if low != high else f"{low:.6g}"

    def tolerance_text(self):
        return {"near": f"{self.tolerance:.3g}", "between": "inside the band",
                "bracket": "between the two"}.get(self.relation, "a bound")

    def cells(self):
        """All cells in the order of the table."""
        case, name, published, tolerance, source, status, _ = self.stated()
        verdict = self.verdict() + (f": {self.reason}" if self.reason else "")
        return [case, name, published, self.computed_text(), f"{self.difference():+.2g}", tolerance,
                source, status, verdict]


def pair(value):
    return tuple(map(float, value)) if isinstance(value, (list, tuple)) else (value, value)


def beyond(value, low, high):
    """How far a value is above high or, negative, below low."""
    return math.nan if math.isnan(value) else max(value - high, 0.0) + min(value - low, 0.0)


def one_line(text):
    return " ".join(str(text).split())


def row_name(march, quantity, time):
    words = ", ".join(word for word in (march.get("name", ""), quantity["name"]) if word)
    if isinstance(time, list):
        return f"{words}, {time[0]:g} to {time[1]:g} s"
    return f"{words} at {time:g} s" if isinstance(time, (int, float)) and time else words


def told_row(case, told, march, quantity, given):
    """A row as published.yaml tells it: source, status and a tolerance are never left out."""
    time, published, *error = given
    relation = quantity.get("is", "near")
    name = row_name(march, quantity, time)

    def words(key):
        return one_line(quantity.get(key, told.get(key, "")))

    for key in ("source", "status"):
        if not words(key):
            raise CannotRun(f"{name}: no {key}")
    if relation not in RELATIONS:
        raise CannotRun(f"{name}: 'is' is one of {', '.join(RELATIONS)}")
    if relation == "near" and ("part" in quantity) == ("allow" in quantity):
        raise CannotRun(f"{name}: one of 'allow' and 'part' is needed")
    tolerance = 0.0
    if relation == "near":
        allowed = quantity.get("allow", 0.0) + quantity.get("part", 0.0) * abs(published)
        tolerance = allowed + (error[0] if error else 0.0)
    return Row(case, name, published, quantity["unit"], relation, tolerance, words("source"),
               words("status"), one_line(quantity.get("reason", "")))


def given_rows(case):
    """(march's name, quantity, time, row) of every row of a case, nothing computed yet."""
    told = yaml.safe_load((case / "published.yaml").read_text())
    for march in told["marches"]:
        for quantity in march["quantities"]:
            for given in quantity["rows"]:
                yield (march.get("name", march["sheet"]), quantity, given[0],
                       told_row(case.name, told, march, quantity, given))


def read(marches, name, quantity, time):
    """A quantity of one march, set against another one of it or of another march if asked for."""
    value = marches.value(name, quantity, time)
    if "over_at" in quantity:
        value /= marches.value(name, quantity, quantity["over_at"])
    if "over" in quantity:
        value /= marches.value(quantity["over"], quantity, time)
    return value


def computed(marches, name, quantity, time):
    """What the marches make of a row: a number, or two for a bracket."""
    value = read(marches, name, quantity, time)
    if quantity.get("is") != "bracket":
        return value
    other = {**quantity, "probe": quantity["and_probe"]} if "and_probe" in quantity else quantity
    return (value, read(marches, quantity["and"], other, time))


def compare(case, programs):
    """The rows of a case with what the programs make of them."""
    marches = yaml.safe_load((case / "published.yaml").read_text())["marches"]
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        run = Marches(programs, case, marches, pathlib.Path(folder))
        for name, quantity, time, row in list(given_rows(case)):
            row.computed = computed(run, name, quantity, time)
            rows.append(row)
    return rows
