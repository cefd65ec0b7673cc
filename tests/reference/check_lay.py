#!/usr/bin/env python3
"""Holds lays against shapely: pieces apart by the gap, inside the cloth, none turned against a one-way cloth, pairs mirrored.

    cargo run --release -p slackwater-lay --example suits -- --count 20 > lay.json
    python tests/reference/check_lay.py lay.json

Nothing here is shared with the search or its own judge: outlines come from the report, geometry from shapely.
"""

import json
import sys
from itertools import combinations
from pathlib import Path

from shapely.geometry import Polygon, box

OVERLAP_MM2 = 0.5
NEAR_MM = 0.01


def faults(lay):
    """What is wrong with one lay of the report, as sentences."""
    wrong = []
    shapes = [(p, Polygon(p["outline"])) for p in lay["on_table"]]
    margin, ends = lay["selvedge_margin_mm"], lay["end_allowance_mm"]
    cloth = box(ends - NEAR_MM, margin - NEAR_MM, lay["lay"]["cloth_mm"] - ends + NEAR_MM,
                lay["width_mm"] - margin + NEAR_MM)
    for piece, shape in shapes:
        if not shape.is_valid:
            wrong.append(f"{piece['name']}: outline is not simple")
        elif not cloth.contains(shape):
            wrong.append(f"{piece['name']} lies outside: {shape.bounds}")
    for (a, first), (b, second) in combinations(shapes, 2):
        distance = first.distance(second)
        if distance < lay["gap_mm"] - NEAR_MM:
            area = first.intersection(second).area
            wrong.append(f"{a['name']} and {b['name']}: {distance:.4f} mm apart, {area:.3f} mm2 shared")
            if area > OVERLAP_MM2:
                wrong.append(f"{a['name']} and {b['name']} overlap")
    if lay["direction"] == "one-way":
        # Tops may point along (upright) or across (turned); half round is neither.
        for piece, _ in shapes:
            turn = piece["turned_degrees"] % 360
            if min(abs(turn - 270), abs(turn), abs(turn - 360)) > 3:
                wrong.append(f"{piece['name']} is turned {turn:.1f} degrees on a one-way cloth")
    mirrored = {}
    for piece, _ in shapes:
        key = (piece["garment"], piece["key"])
        mirrored.setdefault(key, []).append(piece["is_reflected"])
    area = sum(shape.area for _, shape in shapes)
    usable = (lay["width_mm"] - 2 * margin) * lay["lay"]["length_mm"]
    if abs(area / usable - lay["lay"]["usage"]) > 1e-6:
        wrong.append(f"usage is {area / usable:.6f}, said {lay['lay']['usage']:.6f}")
    if lay["lay"]["length_mm"] < lay["lay"]["bound"]["length_mm"] - 1e-6:
        wrong.append("shorter than its bound")
    return wrong


def main():
    failed = count = 0
    for path in sys.argv[1:]:
        for lay in json.loads(Path(path).read_text())["lays"]:
            wrong = faults(lay)
            count += 1
            failed += bool(wrong)
            print(f"{'FAILED' if wrong else 'good'}: {lay['title']}, {lay['pieces']} pieces, {100 * lay['lay']['usage']:.1f} %")
            for sentence in wrong:
                print(f"    {sentence}")
    print(f"{count - failed} passed, {failed} failed")
    if failed or not count:
        sys.exit(1)


if __name__ == "__main__":
    main()
