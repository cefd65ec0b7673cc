#!/usr/bin/env python3
"""Reads a nested range back (`nest.svg`, `sizes.csv`) and holds its sizes against each other.

    check_range.py FOLDER...

Outlines by size are read by Python's XML parser and measured by shapely: every piece is there in every size, closed and simple, and grows in
area and in girth from size to size, smallest first; the chart names the same sizes. A range whose table does not grow at some place is
not for this check. Says what failed, and `N passed, M failed`; exits with 1 if anything failed.
"""

from __future__ import annotations

import csv
import os
import sys
from xml.etree import ElementTree

from shapely.geometry import Polygon

from check_drawings import SVG, svg_runs
from tally import Tally

# Smaller than this is a mark, not a piece, mm2.
LEAST_PIECE_MM2 = 500.0


def outlines(path: str) -> dict[str, list[Polygon]]:
    """The closed outlines of every size, in the order they are drawn."""
    root = ElementTree.parse(path).getroot()
    found: dict[str, list[Polygon]] = {}
    for group in root.iter(f"{SVG}g"):
        if group.attrib.get("class") != "size":
            continue
        polygons = found.setdefault(group.attrib["data-size"], [])
        for line in group.iter(f"{SVG}path"):
            if line.attrib.get("stroke") == "none":
                continue
            for points, is_closed in svg_runs(line.attrib["d"]):
                if is_closed and len(points) > 3 and Polygon(points).area > LEAST_PIECE_MM2:
                    polygons.append(Polygon(points))
    return found


def check(tally: Tally, folder: str) -> None:
    tally.where = os.path.join(folder, "nest.svg")
    sizes = outlines(tally.where)
    names = list(sizes)
    if not tally.check(len(names) > 1, f"{len(names)} sizes are no range"):
        return
    pieces = len(sizes[names[0]])
    tally.check(pieces > 0, "no outline is closed")
    for name, polygons in sizes.items():
        tally.check(len(polygons) == pieces, f"size {name} has {len(polygons)} outlines, {names[0]} has {pieces}")
        for i, polygon in enumerate(polygons):
            tally.check(polygon.is_valid, f"size {name}: outline {i + 1} crosses itself")
    for small, large in zip(names, names[1:]):
        for i, (a, b) in enumerate(zip(sizes[small], sizes[large])):
            what = f"outline {i + 1}, {small} to {large}"
            tally.check(b.area > a.area, f"{what}: {a.area:.0f} to {b.area:.0f} mm2 is no growth")
            tally.check(b.length > a.length, f"{what}: {a.length:.1f} to {b.length:.1f} mm round is no growth")
            x0, _, x1, _ = a.bounds
            y0, _, y1, _ = b.bounds
            tally.check(y1 - y0 > x1 - x0, f"{what}: {x1 - x0:.1f} to {y1 - y0:.1f} mm across is no growth")
    tally.where = os.path.join(folder, "sizes.csv")
    with open(tally.where, encoding="utf-8-sig", newline="") as file:
        head = next(csv.reader(file))
    tally.check(all(name in head for name in names), f"the chart's sizes are {head}, the nest's {names}")


def main() -> int:
    if len(sys.argv) < 2:
        print(__doc__)
        return 2
    tally = Tally()
    for folder in sys.argv[1:]:
        check(tally, folder)
    print(tally.closing())
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
