#!/usr/bin/env python3
"""Holds lays against shapely: pieces apart by the gap, inside the cloth, none turned against a one-way cloth, pairs mirrored, flaws kept
clear, waists in phase with the repeat.

    slackwater --json lay SUIT.toml --passes 20 > lay.json
    slackwater --json lay SUIT.toml --fold half > folded.json
    python tests/reference/check_lay.py lay.json folded.json

Nothing here is shared with the search or its own judge: outlines come from the report, geometry from shapely. A folded cloth is opened
first: what was cut through two layers lies on both sides of the fold then, and everything is judged on the flat cloth.
"""

import json
import sys
from itertools import combinations
from math import cos, radians, sin
from pathlib import Path

from shapely.affinity import affine_transform
from shapely.geometry import LineString, Polygon, box

OVERLAP_MM2 = 0.5
NEAR_MM = 0.01


def mirrored(shape):
    """The other side of a fold at y = 0."""
    return affine_transform(shape, [1, 0, 0, -1, 0, 0])


def opened(piece, shape):
    """What is cut of it on the flat cloth, the fold at y = 0."""
    if piece["is_half"]:
        return [shape.union(mirrored(shape))]
    return [shape, mirrored(shape)] if piece["layers"] == 2 else [shape]


def own_frame(piece):
    """Its outline turned back, so that copies can be laid on each other; a reflected one mirrored back."""
    turn = -radians(piece["turned_degrees"])
    shape = affine_transform(Polygon(piece["outline"]), [cos(turn), -sin(turn), sin(turn), cos(turn), 0, 0])
    if piece["is_reflected"]:
        shape = affine_transform(shape, [-1, 0, 0, 1, 0, 0])
    x, y, _, _ = shape.bounds
    return affine_transform(shape, [1, 0, 0, 1, -x, -y])


def is_own_mirror(shape):
    """Whether a left of it is a right as well."""
    _, _, width, _ = shape.bounds
    return shape.symmetric_difference(affine_transform(shape, [-1, 0, 0, 1, width, 0])).area < 1


def copies(on_table):
    """Copies that are not alike, and pairs that are not a left and a right."""
    wrong, kinds = [], {}
    for piece in on_table:
        kinds.setdefault((piece["suit"], piece["key"], piece["is_half"]), []).append(piece)
    for pieces in kinds.values():
        name = pieces[0]["name"]
        frames = [own_frame(p) for p in pieces]
        for frame in frames[1:]:
            if frames[0].symmetric_difference(frame).area > 1:
                wrong.append(f"{name}: a copy is not the first one turned and mirrored as it says")
        if pieces[0]["is_pair"] and not pieces[0]["is_half"] and not is_own_mirror(frames[0]):
            rights = sum(2 if p["layers"] == 2 else 2 * p["is_reflected"] for p in pieces)
            wanted = sum(2 if p["layers"] == 2 else 1 for p in pieces)
            if rights != wanted:
                wrong.append(f"{name}: {rights / 2:g} right of {wanted}")
    for (_, _), pieces in by_kind(on_table).items():
        there = sum(2 if p["layers"] == 2 and not p["is_half"] and (p["is_pair"] or is_own_mirror(own_frame(p))) else 1
                    for p in pieces)
        if there < pieces[0]["count"]:
            wrong.append(f"{pieces[0]['name']}: {there} of {pieces[0]['count']} laid")
    return wrong


def by_kind(on_table):
    """Pieces by suit and key, halves and wholes of a kind together."""
    kinds = {}
    for piece in on_table:
        kinds.setdefault((piece["suit"], piece["key"]), []).append(piece)
    return kinds


def faults(lay):
    """What is wrong with one lay of the report, as sentences."""
    wrong = copies(lay["on_table"])
    shapes = [(p, Polygon(p["outline"])) for p in lay["on_table"]]
    margin, ends, fold = lay["selvedge_margin_mm"], lay["end_allowance_mm"], lay["fold_at_mm"]
    cloth = box(ends - NEAR_MM, margin - fold - NEAR_MM, lay["lay"]["cloth_mm"] - ends + NEAR_MM,
                lay["width_mm"] - fold - margin + NEAR_MM)
    flat = []
    for piece, shape in shapes:
        if not shape.is_valid:
            wrong.append(f"{piece['name']}: outline is not simple")
            continue
        if piece["is_half"]:
            on_fold = shape.intersection(LineString([(-1e6, 0), (1e6, 0)])).length
            if shape.bounds[1] < -NEAR_MM or on_fold < 1:
                wrong.append(f"{piece['name']} is a half and does not lie on the fold")
        for one in opened(piece, shape):
            flat.append((piece, one))
            if one.geom_type != "Polygon":
                wrong.append(f"{piece['name']} falls apart when it is opened")
            elif not cloth.contains(one):
                wrong.append(f"{piece['name']} lies outside: {one.bounds}")
    if lay["fold"] == "partial" and any(p["layers"] == 1 and s.bounds[1] < fold - NEAR_MM for p, s in shapes):
        wrong.append("a single piece lies where the cloth is double")
    for (a, first), (b, second) in combinations(flat, 2):
        # The two halves of one cut through both layers may meet on the fold: the scissors are in one place.
        distance = first.distance(second)
        if a is not b and distance < lay["gap_mm"] - NEAR_MM:
            wrong.append(f"{a['name']} and {b['name']}: {distance:.4f} mm apart")
        area = first.intersection(second).area if distance == 0 else 0
        if area > OVERLAP_MM2:
            wrong.append(f"{a['name']} and {b['name']} overlap by {area:.3f} mm2")
    if lay["direction"] == "one-way":
        # Tops may point along (upright) or across (turned); half round is neither.
        for piece, _ in shapes:
            turn = piece["turned_degrees"] % 360
            if min(abs(turn - 270), abs(turn), abs(turn - 360)) > 3:
                wrong.append(f"{piece['name']} is turned {turn:.1f} degrees on a one-way cloth")
    for flaw in lay["flaws"]:
        spot = Polygon(flaw["outline"])
        for piece, shape in shapes:
            bears = flaw["grade"] > 0 and piece["bears_grade"] >= flaw["grade"]
            if not bears and shape.intersection(spot).area > OVERLAP_MM2:
                wrong.append(f"{piece['name']} lies on a flaw")
    wrong += phases(lay)
    # What is wanted; a second one that folded cloth gives unasked is waste.
    area = sum(
        pieces[0]["count"] * Polygon(pieces[0]["outline"]).area * (2 if pieces[0]["is_half"] else 1)
        for pieces in by_kind(lay["on_table"]).values()
    )
    # Beside a selvedge that is folded over, the layer above it is lost as well.
    usable = lay["width_mm"] - (3 if lay["fold"] == "partial" else 2) * margin
    if abs(area / (usable * lay["lay"]["length_mm"]) - lay["lay"]["usage"]) > 1e-6:
        wrong.append(f"usage is {area / (usable * lay['lay']['length_mm']):.6f}, said {lay['lay']['usage']:.6f}")
    if lay["lay"]["length_mm"] < lay["lay"]["bound"]["length_mm"] - 1e-6:
        wrong.append("shorter than its bound")
    return wrong


def phases(lay):
    """Points that are matched to the print and miss it: along, from the cut end; across, from one another."""
    wrong = []
    for axis, repeat in enumerate(lay["repeat_mm"]):
        points = [(p["name"], p["match_point"][axis]) for p in lay["on_table"] if p["match_point"]]
        if repeat is None or not points:
            continue
        origin = 0 if axis == 0 else points[0][1]
        for name, at in points:
            off = (at - origin) % repeat
            off = min(off, repeat - off)
            if off > 2 * NEAR_MM:
                wrong.append(f"{name} is {off:.3f} mm out of phase")
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
