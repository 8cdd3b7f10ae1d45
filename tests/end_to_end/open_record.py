#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Opens a record as a stranger would: with h5py and xarray, and no code of ampstair.

usage: /usr/bin/python3 open_record.py RECORD.h5

Holds the record to solver/history/RECORD_FORMAT.md, prints what it holds, and ends with 1 if
anything is amiss. Needs python3-h5py, python3-xarray and python3-h5netcdf; opens the record with
python3-netcdf4 as well if that is there.
"""

import hashlib
import importlib
import sys
import warnings

import h5py
import numpy as np
import xarray

ROOT_TEXTS = ["Conventions", "record_kind", "program", "commit", "created", "title",
              "arrangement", "sheet_name", "sheet_sha256"]
faults = []


def expect(kept, fault):
    if not kept:
        faults.append(fault)


def is_text(dataset):
    return h5py.check_string_dtype(dataset.dtype) is not None


def check_root(record):
    for name in ROOT_TEXTS:
        expect(isinstance(record.attrs.get(name), str), f"/: attribute {name} is not a text")
    expect(record.attrs.get("record_kind") == "ampstair march", "/: another record_kind")
    version = np.asarray(record.attrs.get("format_version", []))
    expect(version.shape == (2,) and version[0] == 1, f"/: format_version is {version}")
    expect(record.attrs.get("finished") in (0, 1), "/: finished is neither 0 nor 1")
    sheet = record["provenance/run_sheet_text"][()]
    expect(hashlib.sha256(sheet).hexdigest() == record.attrs["sheet_sha256"],
           "provenance/run_sheet_text: not the text that sheet_sha256 was made of")


def check_naming(path, dataset):
    expect(dataset.attrs.get("long_name"), f"{path}: no long_name")
    if is_text(dataset):
        encoding = h5py.check_string_dtype(dataset.dtype)
        expect(encoding.encoding == "utf-8" and encoding.length is None,
               f"{path}: not of variable-length UTF-8")
    else:
        expect(dataset.attrs.get("units"), f"{path}: no units")


def check_dimensions(path, dataset):
    if h5py.h5ds.is_scale(dataset.id):
        expect(dataset.ndim == 1, f"{path}: a dimension scale of {dataset.ndim} dimensions")
        return
    for k, dimension in enumerate(dataset.dims):
        expect(len(dimension) == 1, f"{path}: {len(dimension)} scales on dimension {k}")
        if len(dimension) == 1:
            expect(len(dimension[0]) == dataset.shape[k],
                   f"{path}: dimension {k} is not as long as its scale {dimension[0].name}")


def check_history(path, dataset):
    expect(dataset.maxshape[0] is None, f"{path}: does not grow")
    expect(np.isnan(dataset.fillvalue), f"{path}: the fill value is not NaN")
    fill = dataset.attrs.get("_FillValue")
    expect(fill is not None and np.isnan(fill) and np.asarray(fill).dtype == dataset.dtype,
           f"{path}: _FillValue is not a NaN of its own type")


def check_clock(path, dataset):
    times = dataset[:]
    expect(dataset.attrs.get("units") == "s", f"{path}: not in seconds")
    expect(np.all(np.isfinite(times)), f"{path}: a time is not a number")
    expect(np.all(np.diff(times) >= 0), f"{path}: time runs backwards")


def check_with_h5py(file):
    with h5py.File(file, "r") as record:
        check_root(record)
        paths = []
        record.visititems(
            lambda path, item: paths.append(path) if isinstance(item, h5py.Dataset) else None)
        for path in paths:
            dataset = record[path]
            check_naming(path, dataset)
            check_dimensions(path, dataset)
            if path in ("time", "fields/field_time"):
                check_clock(path, dataset)
            elif dataset.ndim and dataset.dims[0] and dataset.dims[0][0].name in (
                    "/time", "/fields/field_time"):
                check_history(path, dataset)
        groups = [name for name, item in record.items() if isinstance(item, h5py.Group)]
        return paths, groups


def engines():
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what its import says of numpy is not the record's
            importlib.import_module("netCDF4")
    except ImportError:
        return ["h5netcdf"]
    return ["h5netcdf", "netcdf4"]


def check_variables(where, dataset):
    for name, variable in dataset.data_vars.items():
        if where == "/":
            expect(variable.dims[:1] == ("time",), f"{name}: time is not its first dimension")
        for dimension in variable.dims:
            # The cells of a field are an axis of the root group.
            expect(dimension in dataset.coords or (where, dimension) == ("fields/", "cell"),
                   f"{where}{name}: dimension {dimension} has no coordinate")


def check_with_xarray(file, groups):
    for engine in engines():
        for group in [None] + groups:
            with warnings.catch_warnings():
                warnings.simplefilter("error")
                with xarray.open_dataset(file, engine=engine, group=group) as dataset:
                    dataset.load()
                    check_variables("/" if group is None else group + "/", dataset)
            if group is None and engine == engines()[0]:
                print_summary(dataset)


def print_summary(dataset):
    print(f"{dataset.attrs['title']}: {dataset.attrs['program']}, {dataset.attrs['created']}, "
          f"{'finished' if dataset.attrs['finished'] else 'not finished'}")
    for name, coordinate in dataset.coords.items():
        span = f"{coordinate.values[0]:g} to {coordinate.values[-1]:g}" if coordinate.size else "-"
        print(f"  axis {name}: {coordinate.size}, {span} {coordinate.attrs['units']}")
    for name, history in dataset.data_vars.items():
        known = history.values[np.isfinite(history.values)]
        span = f"{known.min():g} to {known.max():g}" if known.size else "no value"
        print(f"  {name} ({', '.join(history.dims)}): {span} {history.attrs['units']}")


def main():
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        return 2
    try:
        paths, groups = check_with_h5py(sys.argv[1])
        check_with_xarray(sys.argv[1], groups)
    except Exception as error:  # whatever stops a stranger from opening the record is a fault
        faults.append(f"{type(error).__name__}: {error}")
    else:
        print(f"  {len(paths)} datasets; groups: {', '.join(groups)}")
    for fault in faults:
        print(f"fault: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
