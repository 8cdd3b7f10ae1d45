#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Checks of the repository as a whole, each a few lines that name what they found.

usage: /usr/bin/python3 upkeep.py TOP CHECK [more]

CHECK is one of the functions below that take (top, more); ends with 1 if anything is amiss.
"""

import os
import pathlib
import re
import subprocess
import sys

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "solver", "scenarios",
             "postprocess", "tests", "validation"}
SOURCES = (".cpp", ".hpp", ".py", ".sh", ".in")
# Written in two halves, so that this file does not hold what it looks for.
MACHINE_PATH = re.compile("/" + r"(home|root|work|tmp|Users|var/tmp)(/|\b)(?!-)")
REGISTRY = re.compile("deb.debian" + r"\.org|pypi" + r"\.org|registry\." + "npmjs|crates" + r"\.io")
LICENCE = "SPDX-License-Identifier: " + "MIT"
LINK = re.compile(r"\]\(([^)\s#]+)(#[^)]*)?\)")


def files(top):
    """All files git knows or would take in; without git, all but what is built."""
    listed = subprocess.run(["git", "-C", top, "ls-files", "-z", "--cached", "--others",
                             "--exclude-standard"], capture_output=True, text=True, check=False)
    if listed.returncode == 0 and listed.stdout:
        names = [name for name in listed.stdout.split("\0") if name]
    else:
        names = [str(path.relative_to(top)) for path in top.rglob("*")
                 if not re.match(r"(\.git|build[^/]*|out)/", str(path.relative_to(top)))]
    return sorted({top / name for name in names if (top / name).is_file()})


def text_of(path):
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


def top_level(top, _):
    """Only the entries the project agreed on, and dot-files."""
    entries = {path.relative_to(top).parts[0] for path in files(top)}
    return [f"{name}: does not belong at the top level" for name in sorted(entries - TOP_LEVEL)
            if not name.startswith(".")] + \
           [f"{name}: missing at the top level" for name in sorted(TOP_LEVEL - entries)]


def licence_lines(top, _):
    """Every source says its licence in its first lines."""
    return [f"{path.relative_to(top)}: no line '{LICENCE}' at its top" for path in files(top)
            if path.suffix in SOURCES
            and LICENCE not in "\n".join(text_of(path).splitlines()[:3])]


def machine_paths(top, _):
    """No file knows the machine it was written on, nor a package registry's address."""
    faults = []
    for path in files(top):
        for number, line in enumerate(text_of(path).splitlines(), 1):
            for pattern in (MACHINE_PATH, REGISTRY):
                # After a letter, a digit, a dot or a brace it is the tail of a longer path.
                found = re.search(r"(?<![\w.})>*-])(?:" + pattern.pattern + ")", line)
                if found:
                    faults.append(f"{path.relative_to(top)}:{number}: {found.group(0)}")
    return faults


def links(top, _):
    """Every relative link of a Markdown page leads to a file."""
    faults = []
    for page in files(top):
        if page.suffix == ".md":
            faults += [f"{page.relative_to(top)}: {link} leads nowhere"
                       for link, _ in LINK.findall(text_of(page))
                       if not re.match(r"[a-z]+:", link) and not (page.parent / link).exists()]
    return faults


def two_commands(top, _):
    """README's two commands can be run, and CI runs the tests as README says."""
    readme = (top / "README.md").read_text()
    faults = [f"README.md: does not show  bash {script}" for script in
              ("scenarios/quickstart.sh", "tests/run.sh")
              if not re.search(rf"^(    )?bash {re.escape(script)}\b", readme, re.MULTILINE)]
    for script in re.findall(r"^(?:    )?bash (\S+)", readme, re.MULTILINE) + [".ci/run"]:
        if not (top / script).is_file():
            faults.append(f"{script}: missing")
        elif not os.access(top / script, os.X_OK):
            faults.append(f"{script}: not executable")
    if "tests/run.sh" not in text_of(top / ".ci/run"):
        faults.append(".ci/run: does not call tests/run.sh")
    quickstart = text_of(top / "scenarios/quickstart.sh")
    sheets = set(re.findall(r"scenarios/([\w-]+\.yaml)", quickstart))
    faults += [f"scenarios/{sheet}: missing" for sheet in sheets
               if not (top / "scenarios" / sheet).is_file()]
    if not any(f"scenarios/{sheet}" in readme for sheet in sheets):
        faults.append("README.md: does not name the run sheet that quickstart marches")
    return faults


def cautions(top, _):
    """README carries the two lines of caution word for word as every printed verdict does."""
    header = (top / "postprocess/checks/cautions.hpp").read_text()
    body = re.search(r"cautions = \{(.*?)\};", header, re.DOTALL).group(1)
    lines = ["".join(re.findall(r'"([^"]*)"', literal))
             for literal in re.findall(r'(?:"[^"]*"\s*)+', body)]
    readme = " ".join((top / "README.md").read_text().replace("\n> ", "\n").split())
    faults = [] if len(lines) == 2 and all(lines) else ["cautions.hpp: two lines expected"]
    return faults + [f"README.md: lacks '{line}'" for line in lines if line not in readme]


def exit_codes(top, _):
    """README's table of exit codes is the enum of diagnostics/exit_code.hpp."""
    header = (top / "solver/diagnostics/exit_code.hpp").read_text()
    declared = [(int(code), name) for name, code in re.findall(r"^  (\w+) = (\d+)", header, re.M)]
    readme = (top / "README.md").read_text()
    stated = [(int(code), name.replace(" ", "_")) for code, name in
              re.findall(r"^\| (\d+) \| ([\w ]+?) \|", readme, re.MULTILINE)]
    return [] if declared and declared == stated else \
        [f"README.md states {stated}, exit_code.hpp declares {declared}"]


def equation_pages(top, _):
    """Every file that a page of solver/heat names is there, every .cpp there is named by a page, and
    DEVELOPERS.md leads to every page."""
    heat = top / "solver/heat"
    named, faults = set(), []
    developers = text_of(top / "DEVELOPERS.md")
    for page in sorted(heat.glob("*.md")):
        for name in re.findall(r"`([\w./-]+\.(?:cpp|hpp|inc|py|yaml|md|\*)|validation/[\w-]+)`",
                               text_of(page)):
            found = [path for root in (heat, top / "solver", top) for path in root.glob(name)]
            named.update(found)
            if not found:
                faults.append(f"{page.relative_to(top)}: names {name}, which is not there")
        if f"(solver/heat/{page.name})" not in developers:
            faults.append(f"DEVELOPERS.md: does not lead to {page.relative_to(top)}")
    return faults + [f"{source.relative_to(top)}: no page of solver/heat names it"
                     for source in sorted(heat.glob("*.cpp")) if source not in named]


def formatting(top, more):
    """clang-format would change nothing. more: the program."""
    sources = [str(path) for path in files(top) if path.suffix in (".cpp", ".hpp")]
    done = subprocess.run([more[0], "--dry-run", "--Werror", "--ferror-limit=1", *sources],
                          capture_output=True, text=True, check=False)
    said = [line for line in done.stderr.splitlines() if "error:" in line]
    return said or ([done.stderr or "clang-format failed"] if done.returncode else [])


def scripts(top, more):
    """shellcheck has nothing to say. more: the program."""
    shell = [str(path) for path in files(top)
             if path.suffix == ".sh" or text_of(path).startswith("#!/usr/bin/env bash")]
    done = subprocess.run([more[0], "--format=gcc", *shell], capture_output=True, text=True,
                          check=False)
    return done.stdout.splitlines() or ([done.stderr] if done.returncode else [])


if __name__ == "__main__":
    check = globals()[sys.argv[2]]
    found = check(pathlib.Path(sys.argv[1]).resolve(), sys.argv[3:])
    print("\n".join(found) or f"{sys.argv[2]}: nothing amiss")
    sys.exit(1 if found else 0)
