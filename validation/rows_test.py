#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Shows that rows are judged as README.md says, on cases made up here; no program is run."""

import pathlib
import tempfile
import unittest

import yaml

import write_table
from marches import CannotRun, Marches, changed
from rows import EXPLAINED, MET, MISSED, STALE, given_rows

QUANTITY = {"name": "middle", "probe": "middle", "unit": "degC", "allow": 0.5, "rows": [["end", 20]]}
CASE = {"title": "made up", "source": "a book", "status": "seen"}


def case_in(folder, quantity, **told):
    case = pathlib.Path(folder) / "case"
    case.mkdir(exist_ok=True)
    marches = [{"sheet": "sheet.yaml", "quantities": [{**QUANTITY, **quantity}]}]
    told = {key: value for key, value in {**CASE, **told, "marches": marches}.items() if value}
    (case / "published.yaml").write_text(yaml.safe_dump(told))
    return case


def row(computed, quantity=None, **told):
    """The first row of a case, with a computed value put in."""
    with tempfile.TemporaryDirectory() as folder:
        made = next(given_rows(case_in(folder, quantity or {}, **told)))[3]
    made.computed = computed
    return made


class FedMarches(Marches):
    """Stands for a wire whose rise goes with the square of the current: 40 K at 20 A."""

    def __init__(self, limit_of_melting=1e9):
        super().__init__(None, pathlib.Path("."), [{"sheet": "wire"}], None)
        self.limit, self.marched = limit_of_melting, []

    def march(self, name, **more):
        ampere = float(more["staircase.0.hold"].split()[0])
        self.marched.append(ampere)
        end = min(20.0 + 0.1 * ampere * ampere, self.limit)

        class Settled:
            def highest(self, *_):
                return end

            def settled(self, *_):
                return True

        return Settled()


class Rows(unittest.TestCase):
    def test_a_row_without_source_or_status_is_refused(self):
        for missing in ("source", "status"):
            with self.assertRaisesRegex(CannotRun, f"no {missing}"):
                row(20.0, **{missing: None})
            row(20.0, {missing: "its own"}, **{missing: None})

    def test_a_row_without_a_tolerance_is_refused(self):
        for quantity in ({"allow": None}, {"part": 0.1}):
            with tempfile.TemporaryDirectory() as folder:
                case = case_in(folder, quantity)
                told = yaml.safe_load((case / "published.yaml").read_text())
                one = told["marches"][0]["quantities"][0]
                if one["allow"] is None:
                    del one["allow"]
                (case / "published.yaml").write_text(yaml.safe_dump(told))
                with self.assertRaisesRegex(CannotRun, "'allow' and 'part'"):
                    next(given_rows(case))

    def test_near(self):
        self.assertEqual(row(20.49).verdict(), MET)
        self.assertEqual(row(19.49).verdict(), MISSED)
        self.assertEqual(row(float("nan")).verdict(), MISSED)
        self.assertEqual(row(float("inf")).verdict(), MISSED)
        self.assertAlmostEqual(row(0, {"rows": [["end", 20, 0.25]]}).tolerance, 0.75)

    def test_bounds_and_bands(self):
        for relation, published, computed, verdict in (
                ("at_least", 20, 20.1, MET), ("at_least", 20, 19.9, MISSED),
                ("at_least", 20, float("inf"), MET), ("at_least", 20, float("nan"), MISSED),
                ("at_most", 20, 19.9, MET), ("at_most", 20, 20.1, MISSED),
                ("between", [0.4, 0.6], 0.5, MET), ("between", [0.4, 0.6], 0.61, MISSED),
                ("bracket", 20, (25.0, 15.0), MET), ("bracket", 20, (25.0, 20.5), MISSED),
                ("bracket", [20, 22], (25.0, 21.0), MISSED), ("bracket", [20, 22], (19.0, 23.0), MET)):
            found = row(computed, {"is": relation, "rows": [["end", published]]})
            self.assertEqual(found.verdict(), verdict, (relation, published, computed))

    def test_a_reason_explains_a_miss_and_nothing_else(self):
        because = {"reason": "the book rounds"}
        self.assertEqual(row(22.0, because).verdict(), EXPLAINED)
        self.assertEqual(row(20.0, because).verdict(), STALE)
        self.assertIn("the book rounds", row(22.0, because).cells()[-1])

    def test_keys_of_a_sheet_are_set_and_taken_out(self):
        sheet = {"run": [{"length": "1 m"}, {"length": "2 m", "gap": "1 mm"}]}
        self.assertEqual(changed(sheet, {"run.1.length": "3 m", "run.1.gap": None}),
                         {"run": [{"length": "1 m"}, {"length": "3 m"}]})


class Currents(unittest.TestCase):
    def found(self, marches):
        return marches.value("wire", {"name": "i", "find": "current", "probe": "p", "reaches": 60.0,
                                      "between": [1, 100]}, "end")

    def test_a_current_is_bracketed_to_a_tenth_of_an_ampere(self):
        marches = FedMarches()
        self.assertAlmostEqual(self.found(marches), 20.0, places=6)
        self.assertLessEqual(min(a for a in marches.marched if a >= 20.0) -
                             max(a for a in marches.marched if a < 20.0), 0.1 + 1e-9)

    def test_a_metal_that_melts_a_little_above_costs_few_marches(self):
        marches = FedMarches(limit_of_melting=61.0)
        self.assertAlmostEqual(self.found(marches), 20.0, delta=0.1)
        self.assertLess(len(marches.marched), 30)

    def test_a_current_beyond_the_ends_is_told(self):
        with self.assertRaisesRegex(CannotRun, "not between"):
            self.found(FedMarches(limit_of_melting=50.0))


class Table(unittest.TestCase):
    def test_a_written_table_is_read_back(self):
        with tempfile.TemporaryDirectory() as folder:
            readme = pathlib.Path(folder) / "README.md"
            readme.write_text(f"before\n{write_table.BEGIN}\nold\n{write_table.END}\nbehind\n")
            cells = row(20.1).cells()
            cells[1] = "a|b"
            write_table.write_table(readme, [cells])
            self.assertEqual(write_table.read_table(readme), [cells])
            self.assertTrue(readme.read_text().startswith("before\n"))
            self.assertTrue(readme.read_text().endswith("behind\n"))

    def test_a_table_that_is_not_that_of_the_cases_is_told(self):
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            case = case_in(folder, {})
            readme = folder / "README.md"
            readme.write_text(f"{write_table.BEGIN}\n{write_table.END}\n")
            made = [found for *_, found in given_rows(case)]
            made[0].computed = 20.1
            write_table.write_table(readme, [made[0].cells()])
            self.assertEqual(write_table.compared(folder), [])
            made[0].computed = 25.0  # a verdict the case does not state
            write_table.write_table(readme, [made[0].cells()])
            self.assertEqual(len(write_table.compared(folder)), 2)
            case_in(folder, {"name": "another"})
            self.assertEqual(len(write_table.compared(folder)), 2)


if __name__ == "__main__":
    unittest.main()
