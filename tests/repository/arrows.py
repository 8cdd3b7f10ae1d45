#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Holds every #include to the arrow table of DEVELOPERS.md, and the table to the link lines.

usage: /usr/bin/python3 arrows.py TOP

A folder may include itself, the folders its arrows name, and what those may include in turn. Prints
a line for each fault and ends with 1 if there is any.
"""

import pathlib
import re
import sys

# Libraries that stay behind one folder, by how their headers begin.
HIDDEN = {"yaml-cpp/": "sheet", "hdf5": "history", "H5": "history", "udunits2": "quantities"}
FOLDER = re.compile(r"ampstair_folder\(\s*(\w+)(.*?)\)", re.DOTALL)
ROW = re.compile(r"^\| `([\w/]+)` \|([^|]*)\|", re.MULTILINE)


def link_lines(top):
    """Folder -> the ARROWS of its CMakeLists.txt; postprocess/checks is named post_checks there."""
    arrows = {}
    for program in ("solver", "postprocess"):
        for listed in sorted((top / program).glob("*/CMakeLists.txt")):
            for name, body in FOLDER.findall(listed.read_text()):
                named = re.search(r"\bARROWS\b([\w\s]*?)(?:\bLIBRARIES\b|\bSOURCES\b|$)", body)
                arrows[name] = set(named.group(1).split()) if named else set()
    return arrows


def table(top):
    """Folder -> arrows as the table in DEVELOPERS.md states them."""
    text = (top / "DEVELOPERS.md").read_text()
    return {target_name(*row.split("/")[-2:]): {arrow for arrow in re.findall(r"`(\w+)`", cell)}
            for row, cell in ROW.findall(text)}


def target_name(program, folder):
    return f"post_{folder}" if program == "postprocess" else folder


def reach(arrows, folder):
    """All a folder may include: its arrows and, through them, theirs."""
    found, ahead = {folder}, [folder]
    while ahead:
        for arrow in arrows.get(ahead.pop(), ()):
            if arrow not in found:
                found.add(arrow)
                ahead.append(arrow)
    return found


def owner(top, source, included):
    """The folder a quoted include lies in, found as the compiler finds it; None if nowhere."""
    roots = [source.parent, top / "solver"]
    if source.is_relative_to(top / "postprocess"):
        roots.insert(1, top / "postprocess")
    for root in roots:
        found = (root / included).resolve()
        if found.is_file():
            return target_name(*found.relative_to(top).parts[:2])
    return None


def include_faults(top, arrows):
    faults = []
    sources = [path for program in ("solver", "postprocess")
               for path in sorted((top / program).rglob("*.[ch]pp"))]
    for source in sources:
        place = source.relative_to(top)
        # The mains hand the command line to verbs/ and see no more than that folder does.
        inside = target_name(place.parts[0], place.parts[1] if len(place.parts) > 2 else "verbs")
        allowed = reach(arrows, inside)
        for number, line in enumerate(source.read_text().splitlines(), 1):
            named = re.match(r'\s*#\s*include\s*(["<])([^">]+)[">]', line)
            if not named:
                continue
            quote, included = named.groups()
            if quote == "<":
                for begins, only in HIDDEN.items():
                    if included.startswith(begins) and inside != only:
                        faults.append(f"{place}:{number}: <{included}> belongs to {only}/ alone")
                continue
            folder = owner(top, source, included)
            if folder is None:
                faults.append(f'{place}:{number}: "{included}" is nowhere in solver or postprocess')
            elif folder not in allowed:
                faults.append(f'{place}:{number}: {inside} may not include "{included}" '
                              f"(no arrow leads from {inside} to {folder})")
    return faults


def all_faults(top):
    linked, stated = link_lines(top), table(top)
    faults = []
    for name in sorted(linked.keys() | stated.keys()):
        if linked.get(name) != stated.get(name):
            said = sorted(stated[name]) if name in stated else "no such folder"
            does = sorted(linked[name]) if name in linked else "no such folder"
            faults.append(f"{name}: DEVELOPERS.md says {said}, its CMakeLists.txt says {does}")
    return faults + include_faults(top, linked)


if __name__ == "__main__":
    found = all_faults(pathlib.Path(sys.argv[1]).resolve())
    print("\n".join(found) or "every include follows an arrow")
    sys.exit(1 if found else 0)
