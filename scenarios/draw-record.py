#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Draws a record as the picture in README: the staircase, what it heats, and where along the run.

usage: /usr/bin/python3 scenarios/draw-record.py RECORD.h5 PICTURE.svg

Needs python3-h5py and python3-matplotlib. Lines differ by dash and shade, so a grey print loses
nothing.
"""

import sys

import h5py
import matplotlib
import numpy as np

matplotlib.use("Agg")
matplotlib.rcParams.update({"font.size": 9, "svg.fonttype": "none", "svg.hashsalt": "ampstair",
                            "font.family": "sans-serif", "axes.spines.top": False,
                            "axes.spines.right": False, "axes.linewidth": 0.7})
from matplotlib import pyplot  # noqa: E402

SERIES = [("conductor", "hottest conductor", "-", "black"),
          ("surface", "hottest surface of the wire", (0, (5, 2)), "#7a2e00"),
          ("wood", "hottest wood", (0, (1, 1.5)), "#1b5e8a")]
FILLED = {"knob": "#8f8f8f", "tube": "#8f8f8f", "sleeve": "#d9d9d9", "splice": "black",
          "filled": "#e8d9a8"}


def texts(column):
    return [text.decode() for text in column[:]]


def draw_current(axes, record):
    minutes = record["time"][:] / 60
    axes.plot(minutes, record["current"][:], color="black", lw=1.3,
              drawstyle="steps-post")
    axes.set_ylim(0, 1.25 * np.nanmax(record["current"][:]))
    axes.set_ylabel("current, A")
    steps = record["steps"]
    for begin, end in zip(steps["begin"][:] / 60, steps["end"][:] / 60):
        amperes = record["current"][np.searchsorted(minutes, end - 1e-9)]
        axes.annotate(f"{amperes:.3g} A", ((begin + end) / 2, amperes), ha="center", va="bottom",
                      xytext=(0, 2), textcoords="offset points")


def draw_temperatures(axes, record):
    minutes = record["time"][:] / 60
    for part, name, dash, colour in SERIES:
        if f"{part}_temperature" in record:
            hottest = np.nanmax(record[f"{part}_temperature"][:], axis=1)
            axes.plot(minutes, hottest, ls=dash, color=colour, lw=1.5, label=name)
    watch = record["watch"]
    for name, kind, limit in zip(texts(watch["name"]), texts(watch["kind"]), watch["limit"][:]):
        if kind == "above":
            axes.axhline(limit, color="0.45", lw=0.7)
            axes.annotate(f"{name}: {limit:.3g} °C", (0, limit), xytext=(4, 2),
                          textcoords="offset points", color="0.25")
    axes.set_ylabel("temperature, °C")
    axes.set_xlabel("time since the start, minutes")
    axes.legend(loc="upper left", bbox_to_anchor=(0.24, 1.02), handlelength=3, framealpha=1,
                edgecolor="none")


def draw_run(axes, record):
    position, minutes = record["position"][:], record["time"][:] / 60
    ends = record["steps"]["end"][:] / 60
    for number, end in enumerate(ends):
        row = np.searchsorted(minutes, end - 1e-9)
        shade = 0.65 * (1 - (number + 1) / len(ends))
        along = record["conductor_temperature"][row]
        axes.plot(position, along, color=str(shade), lw=1.1)
        label = np.searchsorted(position, 0.09 * position[-1])
        axes.annotate(f"{record['current'][row]:.3g} A", (position[label], along[label]),
                      xytext=(0, 2), textcoords="offset points")
    axes.set_ylabel("conductor, °C")
    axes.set_xlim(position[0], position[-1])
    axes.tick_params(labelbottom=False)


def draw_pieces(axes, record):
    pieces = record["pieces"]
    axes.set_ylim(0, 1)
    axes.axhline(0.75, color="black", lw=1)
    level = 0
    for name, kind, begin, end in zip(texts(pieces["name"]), texts(pieces["kind"]),
                                      pieces["begin"][:], pieces["end"][:]):
        if kind in FILLED:
            axes.axvspan(begin, end, 0.55, 0.95, facecolor=FILLED[kind], edgecolor="black", lw=0.5)
            # Names of neighbours stand on two levels.
            level = 1 - level
            axes.annotate(f"{name} ({kind})", ((begin + end) / 2, 0.5 if level else 0.27),
                          ha="center", va="top")
    axes.set_yticks([])
    axes.set_xlabel("distance along the run, m")
    axes.spines["left"].set_visible(False)


def main(record_path, picture_path):
    figure, rows = pyplot.subplots(
        4, 1, figsize=(7.6, 7.6), layout="constrained",
        gridspec_kw={"height_ratios": [1.1, 3, 2.4, 0.8]})
    with h5py.File(record_path) as record:
        rows[0].sharex(rows[1])
        rows[3].sharex(rows[2])
        draw_current(rows[0], record)
        draw_temperatures(rows[1], record)
        draw_run(rows[2], record)
        draw_pieces(rows[3], record)
        rows[1].set_xlim(0, record["time"][-1] / 60)
        rows[0].tick_params(labelbottom=False)
        rows[0].set_title(record.attrs["title"], loc="left", fontsize=10)
        rows[2].set_title("Conductor along the run at the end of each step", loc="left", fontsize=10)
    figure.savefig(picture_path, metadata={"Date": None} if picture_path.endswith("svg") else None,
                   dpi=110)


if __name__ == "__main__":
    main(*sys.argv[1:3])
