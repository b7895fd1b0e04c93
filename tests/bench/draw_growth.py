#!/usr/bin/env python3
"""Draws how inference grows, from the output of bench_diagnosis:

    build/release/tests/bench/bench_diagnosis --benchmark_repetitions=5 \\
        --benchmark_out=growth.json --benchmark_out_format=json
    tests/bench/draw_growth.py growth.json assets

Writes growth_items.svg, growth_positives.svg and growth_candidates.svg. Processor time, the least
of the repetitions. Needs nothing but Python 3.
"""

import json
import math
import sys
from html import escape

WIDTH, HEIGHT = 640, 400
LEFT, RIGHT, TOP, BOTTOM = 80, 200, 40, 50
COLOURS = ("#1b5e9e", "#b3541e", "#3a7d44")
TO_MS = {"ns": 1e-6, "us": 1e-3, "ms": 1.0, "s": 1e3}


def least_times(document):
    """{name: least processor time in ms} over single runs; aggregates are left out."""
    least = {}
    for run in document["benchmarks"]:
        if run.get("run_type") != "iteration":
            continue
        ms = run["cpu_time"] * TO_MS[run["time_unit"]]
        name = run["run_name"]
        least[name] = min(ms, least.get(name, math.inf))
    return least


def series(least, prefix, place):
    """Points (argument, ms) of one benchmark; `place` picks the argument that varies."""
    points = []
    for name, ms in least.items():
        parts = name.split("/")
        if parts[0] == prefix:
            x = place([float(part.split(":")[-1]) for part in parts[1:]])
            if x is not None:
                points.append((x, ms))
    if not points:
        sys.exit(f"no runs of {prefix} in the measurements; run the whole of bench_diagnosis")
    return sorted(points)


class Axis:
    def __init__(self, values, log, begin, end):
        self.log, self.begin, self.end = log, begin, end
        low, high = min(values), max(values)
        if log:
            self.low, self.high = math.floor(math.log10(low)), math.ceil(math.log10(high))
        else:
            self.low, self.high = 0.0, high

    def at(self, value):
        v = math.log10(value) if self.log else value
        return self.begin + (v - self.low) / (self.high - self.low) * (self.end - self.begin)

    def ticks(self):
        if self.log:
            return [10.0**k for k in range(int(self.low), int(self.high) + 1)]
        step = 4.0 if self.high <= 24 else 10.0 ** math.floor(math.log10(self.high))
        return [step * k for k in range(int(self.high / step) + 1)]


def text(x, y, words, anchor="middle", size=12):
    return (f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" '
            f'text-anchor="{anchor}">{escape(words)}</text>')


def chart(title, x_title, log_x, lines):
    x_axis = Axis([x for _, points in lines for x, _ in points], log_x, LEFT, WIDTH - RIGHT)
    y_axis = Axis([y for _, points in lines for _, y in points], True, HEIGHT - BOTTOM, TOP)
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
           f'width="{WIDTH}" height="{HEIGHT}" font-family="sans-serif">',
           f'<title>{escape(title)}</title>',
           '<rect width="100%" height="100%" fill="white"/>',
           text(LEFT, 22, title, "start", 15)]
    for tick in x_axis.ticks():
        x = x_axis.at(tick)
        out.append(f'<path d="M{x:.1f} {TOP}V{HEIGHT - BOTTOM}" stroke="#ddd"/>')
        out.append(text(x, HEIGHT - BOTTOM + 18, f"{tick:g}"))
    for tick in y_axis.ticks():
        y = y_axis.at(tick)
        out.append(f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" stroke="#ddd"/>')
        out.append(text(LEFT - 8, y + 4, f"{tick:g} ms", "end"))
    out.append(text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 10, x_title))
    for colour, (label, points) in zip(COLOURS, lines):
        places = [(x_axis.at(x), y_axis.at(y)) for x, y in points]
        path = "L".join(f"{x:.1f} {y:.1f}" for x, y in places)
        out.append(f'<path d="M{path}" fill="none" stroke="{colour}" stroke-width="2"/>')
        out += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in places]
        out.append(text(places[-1][0] + 8, places[-1][1] + 4, label, "start"))
    return "\n".join(out + ["</svg>", ""])


def first(values):
    return values[0]


def candidates_of_500_items(values):
    items, positives, candidates = values
    return candidates if (items, positives) == (500, 8) else None


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    with open(sys.argv[1], encoding="utf-8") as stream:
        least = least_times(json.load(stream))
    pictures = {
        "growth_items": chart(
            "All posteriors, 8 positive findings", "items", True,
            [("spread over the set", series(least, "InferByItems", first))]),
        "growth_positives": chart(
            "All posteriors", "positive findings", False,
            [("500 items, spread", series(least, "InferByPositives", first)),
             ("40 items, tied together", series(least, "InferByPositivesAllTiedTogether", first)),
             ("each item shows all", series(least, "InferAllLinkedToAll", first))]),
        "growth_candidates": chart(
            "Every check's outcomes, 500 items, 8 positive findings", "candidate checks", True,
            [("re-ranked", series(least, "OutlookOfAllCandidates", candidates_of_500_items))]),
    }
    for name, picture in pictures.items():
        with open(f"{sys.argv[2]}/{name}.svg", "w", encoding="utf-8") as stream:
            stream.write(picture)


main()
