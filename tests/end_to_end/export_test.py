#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""What leaves a record in other formats, against the record and against the formats' own rules.

usage: /usr/bin/python3 export_test.py TOP PROGRAMS CASE [unittest's arguments]

XDMF: names, nesting and attributes are those of the XDMF model and format (xdmf.org, version 3; from
memory); the files were read once with the standard's own library (Debian's libxdmf3), whose values
agreed. JSON: the schemas are held to JSON Schema's own, draft 2020-12, by Debian's python3-jsonschema.
"""

import copy
import csv
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as etree

import h5py
import jsonschema
import numpy as np

TOP, PROGRAMS = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
REASON = "invented, to show what too much current does to wood; no wire is heated"  # scorched-stud.yaml


def post(*words):
    done = subprocess.run([PROGRAMS / "ampstair-post", *map(str, words)], capture_output=True, text=True,
                          check=False)
    if done.returncode not in (0, 1, 3):
        raise AssertionError(f"{words}: exit {done.returncode}\n{done.stderr}")
    return done.stdout


class Exports(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)

    @classmethod
    def march(cls, name):
        record = cls.folder / f"{name}.h5"
        if not record.exists():
            subprocess.run([PROGRAMS / "ampstair", "run", TOP / f"scenarios/{name}.yaml", "-o", record,
                            "--quiet"], check=False)
        return record


NUMBER_TYPES = {("Float", "8"): np.float64, ("Float", "4"): np.float32, ("Int", "4"): np.int32}


class Xdmf(Exports):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.record = cls.march("cider-barn")
        cls.file = cls.folder / "view" / "barn.xdmf"
        post("export", cls.record, "--xdmf", cls.file)
        cls.domain = etree.parse(cls.file).getroot().find("Domain")
        cls.moments = cls.domain.findall("Grid/Grid")

    def item(self, parent, path):
        """The numbers an element refers to, as its DataItem says they are."""
        item = parent.find(path + "/DataItem")
        self.assertEqual(item.get("Format"), "HDF")
        name, dataset = item.text.split(":")
        with h5py.File(self.file.parent / name) as heavy:
            values = heavy[dataset][:]
        self.assertEqual(values.shape, tuple(map(int, item.get("Dimensions").split())))
        self.assertEqual(values.dtype, NUMBER_TYPES[item.get("NumberType"), item.get("Precision")])
        return values

    def test_times_are_the_fields_of_the_record(self):
        collection = self.domain.find("Grid")
        self.assertEqual((collection.get("GridType"), collection.get("CollectionType")),
                         ("Collection", "Temporal"))
        with h5py.File(self.record) as held:
            np.testing.assert_array_equal([float(one.find("Time").get("Value")) for one in self.moments],
                                          held["fields/field_time"][:])

    def test_cells_are_rectangles_with_the_sides_of_the_record(self):
        with h5py.File(self.record) as held:
            table = {name: held["grid"][name][:] for name in ("begin", "end", "inner_radius", "outer_radius")}
        run = np.isfinite(table["inner_radius"])
        topology = self.moments[0].find("Topology")
        self.assertEqual(topology.get("TopologyType"), "Quadrilateral")
        self.assertEqual(int(topology.get("NumberOfElements")), np.count_nonzero(run))
        self.assertEqual(self.moments[0].find("Geometry").get("GeometryType"), "XY")
        corners = self.item(self.moments[0], "Geometry")[self.item(self.moments[0], "Topology")]
        self.assertEqual(corners.shape, (np.count_nonzero(run), 4, 2))
        for axis, least, most in ((0, "begin", "end"), (1, "inner_radius", "outer_radius")):
            np.testing.assert_array_equal(corners[:, :, axis].min(axis=1), table[least][run])
            np.testing.assert_array_equal(corners[:, :, axis].max(axis=1), table[most][run])
        # Counter-clockwise: a polygon's signed area (shoelace formula) is the rectangle's.
        x, y = corners[:, :, 0], corners[:, :, 1]
        area = 0.5 * np.sum(x * np.roll(y, -1, axis=1) - np.roll(x, -1, axis=1) * y, axis=1)
        np.testing.assert_allclose(area, ((table["end"] - table["begin"])
                                          * (table["outer_radius"] - table["inner_radius"]))[run], rtol=1e-9)

    def test_temperatures_and_parts_are_those_of_the_record(self):
        parts = {one.get("Name"): one.get("Value") for one in self.domain.findall("Information")}
        with h5py.File(self.record) as held:
            run = np.isfinite(held["grid/inner_radius"][:])
            names = held["grid/part"].asstr()[:][run]
            for k, one in enumerate(self.moments):
                self.assertEqual([a.get("Center") for a in one.findall("Attribute")], ["Cell", "Cell"])
                np.testing.assert_array_equal(self.item(one, "Attribute[@Name='temperature [degC]']"),
                                              held["fields/field_temperature"][k][run])
                part = self.item(one, "Attribute[@Name='part [number]']")
                self.assertTrue(all(parts[f"part {number}"] == name for number, name in zip(part, names)))

    def test_nothing_names_a_place_on_this_machine(self):
        self.assertNotIn(str(self.folder), self.file.read_text(encoding="utf-8"))

    def test_a_reason_to_go_on_is_kept(self):
        post("export", self.march("scorched-stud"), "--xdmf", self.folder / "stud.xdmf")
        domain = etree.parse(self.folder / "stud.xdmf").getroot().find("Domain")
        self.assertEqual(domain.find("Information[@Name='beyond']").get("Value"), REASON)
        self.assertIsNone(self.domain.find("Information[@Name='beyond']"))


def unknown_keys(document, schema, whole, path=""):
    """Keys of a document that its schema does not describe."""
    if "$ref" in schema:
        schema = whole["$defs"][schema["$ref"].rsplit("/", 1)[1]]
    if isinstance(document, dict):
        for key, value in document.items():
            if key not in schema.get("properties", {}):
                yield f"{path}/{key}"
            else:
                yield from unknown_keys(value, schema["properties"][key], whole, f"{path}/{key}")
    elif isinstance(document, list) and "items" in schema:
        for value in document:
            yield from unknown_keys(value, schema["items"], whole, path)


class Json(Exports):
    def schema(self, what):
        schema = json.loads(post("schema", what))
        self.assertEqual(schema["$schema"], "https://json-schema.org/draft/2020-12/schema")
        jsonschema.Draft202012Validator.check_schema(schema)
        return schema

    def held_to(self, document, schema):
        validator = jsonschema.Draft202012Validator(schema)
        self.assertEqual([error.message for error in validator.iter_errors(document)], [])
        self.assertEqual(list(unknown_keys(document, schema, schema)), [])
        for key in schema["required"]:
            less = copy.copy(document)
            del less[key]
            self.assertFalse(validator.is_valid(less), key)
        return validator

    def test_an_export_keeps_to_its_schema_and_to_the_record(self):
        schema = self.schema("export")
        for name, reason in (("closed-bay", None), ("scorched-stud", REASON)):
            record, file = self.march(name), self.folder / f"{name}.json"
            post("export", record, "--json", file)
            document = json.loads(file.read_text(encoding="utf-8"))
            validator = self.held_to(document, schema)
            self.assertEqual(document["run"]["beyond"], reason)
            self.same_as_record(document, record)
            wrong = copy.deepcopy(document)
            wrong["histories"][-1]["values"][0] = "warm"
            self.assertFalse(validator.is_valid(wrong))
            wrong = copy.deepcopy(document)
            del wrong["histories"][0]["unit"]
            self.assertFalse(validator.is_valid(wrong))

    def same_as_record(self, document, record):
        with h5py.File(record) as held:
            histories = [name for name, one in held.items() if isinstance(one, h5py.Dataset)
                         and name != "time" and one.dims[0] and one.dims[0][0].name == "/time"]
            self.assertCountEqual([one["name"] for one in document["histories"]], histories)
            np.testing.assert_array_equal(document["time"]["values"], held["time"][:])
            for one in document["histories"] + document["axes"]:
                dataset = held[one["name"]]
                self.assertEqual((one["unit"], one["meaning"]),
                                 (dataset.attrs["units"], dataset.attrs["long_name"]))
                np.testing.assert_array_equal(np.array(one["values"], dtype=dataset.dtype), dataset[:])
            tables = [name for name, one in held.items() if isinstance(one, h5py.Group) and "entry" in one]
            self.assertCountEqual([one["name"] for one in document["tables"]],
                                  [name for name in tables if name != "grid"])
            for table in document["tables"]:
                self.same_table(table, held[table["name"]])

    def same_table(self, table, group):
        self.assertEqual(table["meaning"], group.attrs["long_name"])
        self.assertCountEqual([one["name"] for one in table["columns"]],
                              [name for name in group if name != "entry"])
        for column in table["columns"]:
            dataset = group[column["name"]]
            self.assertEqual(column["unit"], dataset.attrs.get("units"))
            if column["unit"] is None:
                self.assertEqual(column["values"], list(dataset.asstr()[:]))
            else:
                np.testing.assert_array_equal(np.array(column["values"], dtype=float), dataset[:])

    def test_a_verdict_keeps_to_its_schema(self):
        schema = self.schema("verdict")
        for name in ("cider-barn", "closed-bay", "scorched-stud", "pump-duty"):
            document = json.loads(post("verdict", self.march(name), "--json"))
            validator = self.held_to(document, schema)
            document["overall"] = "fine"
            self.assertFalse(validator.is_valid(document))

    def test_a_comparison_keeps_to_its_schema(self):
        schema = self.schema("compare")
        records = [self.march(name) for name in ("closed-bay", "pump-duty", "scorched-stud")]
        document = json.loads(post("compare", *records, "--json"))
        validator = self.held_to(document, schema)
        document["differences"][0]["values"][0] = "another"
        self.assertFalse(validator.is_valid(document))

    def test_a_file_that_is_there_stays(self):
        record, file = self.march("closed-bay"), self.folder / "precious.json"
        file.write_text("precious")
        done = subprocess.run([PROGRAMS / "ampstair-post", "export", record, "--json", file],
                              capture_output=True, text=True, check=False)
        self.assertEqual((done.returncode, file.read_text()), (2, "precious"))
        self.assertIn("E730", done.stderr)


class Csv(Exports):
    def rows(self, file):
        with open(file, encoding="utf-8", newline="") as held:
            return list(csv.reader(held))

    def test_a_reason_to_go_on_stands_on_every_row(self):
        post("export", self.march("scorched-stud"), "--csv", self.folder / "stud")
        files = list((self.folder / "stud").glob("*.csv"))
        self.assertGreater(len(files), 3)
        for file in files:
            rows = self.rows(file)
            self.assertEqual({len(row) for row in rows}, {len(rows[0])})
            self.assertEqual(rows[0][-1], "beyond")
            self.assertEqual({row[-1] for row in rows[1:]}, {REASON})

    def test_a_run_without_one_has_no_such_column(self):
        post("export", self.march("closed-bay"), "--csv", self.folder / "bay")
        for file in (self.folder / "bay").glob("*.csv"):
            self.assertNotIn("beyond", self.rows(file)[0])


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
