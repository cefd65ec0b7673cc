"""The pattern's geometry worked again: lengths by quadrature, polygons and allowances by shapely.

Source: length of a cubic is the integral of its speed (scipy's adaptive quadrature, QUADPACK); polygon validity and
distances by GEOS through shapely. Tolerances stand with what they bound.
"""

from __future__ import annotations

import numpy as np
from scipy.integrate import quad
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

from pattern_file import Edge, Pattern, Piece
from tally import Tally

# Coordinates in the file are rounded to 0.001 mm; a length over some cubics adds a few of those roundings.
LENGTH_LIMIT_MM = 0.01
# A cutter follows no finer, and a tape errs by 3 mm or more.
ALLOWANCE_LIMIT_MM = 0.2
# Rounded ends of neighbouring edges.
JOINT_LIMIT_MM = 0.002
# What sewn edges may differ by: 0.5 mm, or 1 mm on more than 600 mm (common practice, no single source).
WALK_LIMITS_MM = (0.5, 1.0, 600.0)


def cubic_length(cubic: np.ndarray) -> float:
    """Length of a cubic by adaptive quadrature of its speed."""
    p0, p1, p2, p3 = cubic

    def speed(t: float) -> float:
        s = 1.0 - t
        v = 3 * s * s * (p1 - p0) + 6 * s * t * (p2 - p1) + 3 * t * t * (p3 - p2)
        return float(np.hypot(v[0], v[1]))

    return quad(speed, 0.0, 1.0, epsabs=1e-9, epsrel=1e-10, limit=200)[0]


def edge_length(edge: Edge) -> float:
    return sum(cubic_length(c) for c in edge.cubics)


def check(tally: Tally, pattern: Pattern) -> None:
    tally.check(len(pattern.pieces) > 0, "the pattern has no pieces")
    tally.check(len({p.key for p in pattern.pieces}) == len(pattern.pieces), "two pieces have one key")
    tally.check(len({p.letter for p in pattern.pieces}) == len(pattern.pieces), "two pieces have one letter")
    lengths: dict[str, dict[str, list[float]]] = {}
    for piece in pattern.pieces:
        is_sound = _outlines(tally, piece)
        names = lengths.setdefault(piece.key, {})
        for edge in piece.edges:
            length = edge_length(edge)
            names.setdefault(edge.name, []).append(length)
            what = f"{piece.key}, {edge.name}"
            tally.within("length of an edge", abs(length - edge.length_mm), LENGTH_LIMIT_MM, what)
        _darts(tally, piece)
        if is_sound:
            _allowances(tally, piece)
        _notches(tally, piece)
    _seams(tally, pattern, lengths)
    _elastic(tally, pattern)


def _outlines(tally: Tally, piece: Piece) -> bool:
    """Whether both lines are simple polygons, which everything that follows needs."""
    cut, seam = piece.cut_polygon(), piece.seam_polygon()
    for name, polygon in (("cut line", cut), ("seam line", seam)):
        tally.check(polygon.is_valid, f"{piece.key}: the {name} crosses or touches itself")
        tally.check(polygon.area > 0.0, f"{piece.key}: the {name} has no area")
        tally.check(polygon.exterior.is_ccw, f"{piece.key}: the {name} does not run counter-clockwise")
    ends = zip(piece.edges, [*piece.edges[1:], piece.edges[0]])
    for edge, following in ends:
        gap = float(np.hypot(*(edge.cubics[-1][3] - following.cubics[0][0])))
        tally.within("joint of two edges", gap, JOINT_LIMIT_MM, f"{piece.key}, {edge.name} to {following.name}")
        for first, second in zip(edge.cubics, edge.cubics[1:]):
            gap = float(np.hypot(*(first[3] - second[0])))
            tally.within("joint of two cubics", gap, JOINT_LIMIT_MM, f"{piece.key}, {edge.name}")
    if not (cut.is_valid and seam.is_valid):
        return False
    outside = seam.difference(cut.buffer(JOINT_LIMIT_MM)).area
    tally.check(outside == 0.0, f"{piece.key}: {outside:.3f} mm2 of the seam line's inside lie outside the cut line")
    tally.check(cut.area > seam.area, f"{piece.key}: the cut line holds less than the seam line")
    return True


# Sharper than this inside an edge is a corner of it, radians; runs of short lines along an arc turn by 0.06.
KINK = 0.15


def _corners(piece: Piece) -> list[tuple[Point, float]]:
    """Ends and kinks of edges with the reach round them where corner rules hold instead of the plain allowance."""
    out = []
    for edge in piece.edges:
        for first, second in zip(edge.cubics, edge.cubics[1:]):
            a, b = first[3] - first[2], second[1] - second[0]
            turn = abs(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b))
            if turn > KINK:
                out.append((Point(first[3]), 2.5 * edge.allowance_mm + 1.0))
    for edge, following in zip(piece.edges, [*piece.edges[1:], piece.edges[0]]):
        # A mitre reaches to 2.5 times the wider allowance; where a run goes on smoothly there is no corner to speak of, but
        # its allowance may step.
        reach = 2.5 * max(edge.allowance_mm, following.allowance_mm) + 1.0
        out.append((Point(edge.cubics[-1][3]), reach))
    return out


def _allowances(tally: Tally, piece: Piece) -> None:
    """Each edge's own allowance, two ways: points set off from the seam line, and the area of the offsets together."""
    cut = piece.cut_polygon()
    corners = _corners(piece)
    # A turned hem's side allowances are mirrored in the hem line: there the plain allowance does not hold.
    hems = [e.line() for e in piece.edges if e.role == "hem"]
    hem_reach = [e.allowance_mm * 1.5 + 1.0 for e in piece.edges if e.role == "hem"]

    def is_plain(point: Point, edge: Edge) -> bool:
        if any(point.distance(corner) < reach for corner, reach in corners):
            return False
        return edge.role == "hem" or all(point.distance(h) > r for h, r in zip(hems, hem_reach))

    checked = 0
    for edge in piece.edges:
        # A fold has no allowance; a dart's legs are sewn inside the piece.
        if edge.role in ("fold", "dart"):
            continue
        line = edge.line()
        worst = 0.0
        at = np.arange(1.0, line.length, 2.0)
        for s in at:
            here = line.interpolate(s)
            if not is_plain(here, edge):
                continue
            before, after = line.interpolate(s - 0.02), line.interpolate(s + 0.02)
            tangent = np.array([after.x - before.x, after.y - before.y])
            tangent /= np.hypot(*tangent)
            # Outside is right of travel on a counter-clockwise outline.
            out = Point(here.x + edge.allowance_mm * tangent[1], here.y - edge.allowance_mm * tangent[0])
            worst = max(worst, abs(here.distance(cut.exterior) - edge.allowance_mm), out.distance(cut.exterior))
            checked += 1
        what = f"{piece.key}, {edge.name}, {edge.allowance_mm} mm"
        tally.within("allowance along an edge", worst, ALLOWANCE_LIMIT_MM, what)
    tally.check(checked > 0, f"{piece.key}: no point of any edge is far enough from the corners to be checked")
    seam = piece.seam_polygon()
    bands = [
        LineString(e.points()).buffer(e.allowance_mm, cap_style="flat", join_style="round", quad_segs=64)
        for e in piece.edges
        if e.allowance_mm > 0.0
    ]
    expected = unary_union([seam.buffer(0), *bands])
    not_judged = unary_union(
        [c.buffer(r) for c, r in corners]
        + [h.buffer(r, cap_style="square") for h, r in zip(hems, hem_reach)]
        + _dart_wedges(piece)
    )
    difference = expected.symmetric_difference(cut).difference(not_judged)
    # What is thinner than twice the limit vanishes when it is eroded by the limit.
    left = difference.buffer(-0.5 * ALLOWANCE_LIMIT_MM).area
    tally.check(left == 0.0, f"{piece.key}: {left:.2f} mm2 between the cut line and the offset of the seam line")


def _dart_wedges(piece: Piece) -> list:
    """The intake of each dart with its cap: cloth between the legs that the seam line leaves out."""
    legs = [e.line() for e in piece.edges if e.role == "dart"]
    widest = max((e.allowance_mm for e in piece.edges), default=0.0)
    wedges = []
    # Legs follow each other; on a whole piece there is a dart on either side.
    for first, second in zip(legs[::2], legs[1::2]):
        wedges.append(unary_union([first, second]).convex_hull.buffer(3.0 * widest))
    return wedges


def _darts(tally: Tally, piece: Piece) -> None:
    """The legs of a dart are sewn together."""
    legs = [(e.name, edge_length(e)) for e in piece.edges if e.role == "dart"]
    tally.check(len(legs) % 2 == 0, f"{piece.key}: {len(legs)} dart legs make no pairs")
    for (one, first), (other, second) in zip(legs[::2], legs[1::2]):
        tally.within("legs of a dart", abs(first - second), LENGTH_LIMIT_MM, f"{piece.key}, {one} and {other}")


def _notches(tally: Tally, piece: Piece) -> None:
    cut = piece.cut_polygon().exterior
    lines: dict[str, list[LineString]] = {}
    for edge in piece.edges:
        lines.setdefault(edge.name, []).append(edge.line())
    for notch in piece.notches:
        what = f"{piece.key}, {notch['key']} on {notch['edge']}"
        tally.within("notch on the cut line", cut.distance(Point(notch["at"])), 0.1, what)
        on_edge = min((line.distance(Point(notch["seam_at"])) for line in lines.get(notch["edge"], [])), default=np.nan)
        tally.within("notch over its seam line", on_edge, 0.1, what)


def _seams(tally: Tally, pattern: Pattern, lengths: dict[str, dict[str, list[float]]]) -> None:
    for seam in pattern.seams:
        for side in (seam["first"], seam["second"]):
            known = lengths.get(side["piece"])
            if known is None:
                # A seam to a line that is no edge: a skirt's join across front and back.
                continue
            parts = [known.get(name) for name in side["edges"]]
            what = f"seam {seam['name']}, {side['piece']} {'+'.join(side['edges'])}"
            if not tally.check(all(parts), f"{what}: the piece has no such edge"):
                continue
            # A whole symmetric piece shows each edge twice: the seam is one of them, or both where it crosses the fold.
            one, all_of_it = sum(p[0] for p in parts), sum(sum(p) for p in parts)
            round_the_suit = 2.0 * all_of_it
            off = min(abs(side["length_mm"] - v) for v in (one, all_of_it, round_the_suit))
            tally.within("length of a seam's side", off, LENGTH_LIMIT_MM, what)
        error = seam["first"]["length_mm"] - seam["sewn_ease_mm"] - seam["second"]["length_mm"]
        # One edge sewn to itself, cut twice, has no error to state.
        stated = seam["error_mm"]
        is_with_itself = all(seam["first"][part] == seam["second"][part] for part in ("piece", "edges"))
        tally.check((stated is None) == is_with_itself, f"{seam['name']}: an error is stated where two edges meet, and only there")
        if stated is not None:
            tally.within("error of a seam as stated", abs(error - stated), LENGTH_LIMIT_MM, seam["name"])
        short, long, border = WALK_LIMITS_MM
        limit = long if seam["first"]["length_mm"] > border else short
        tally.within("walk of a seam", abs(error), limit, seam["name"])


def _elastic(tally: Tally, pattern: Pattern) -> None:
    """Arcs make up their edge; elastic is arc times ratio, and the marks are running sums."""
    for edge in pattern.open_edges:
        total = sum(a["length_mm"] for a in edge["arcs"])
        tally.within("arcs of an edge", abs(total - edge["length_mm"]), LENGTH_LIMIT_MM, edge["edge"])
    for plan in pattern.elastic:
        edge_mark = elastic_mark = 0.0
        for arc in plan["arcs"]:
            what = f"{plan['edge']}, {arc['name']}"
            tally.within("mark on the edge", abs(arc["edge_mark"] - edge_mark), 1e-6, what)
            tally.within("mark on the elastic", abs(arc["elastic_mark"] - elastic_mark), 1e-6, what)
            tally.within("elastic of an arc", abs(arc["elastic"] - arc["edge"] * arc["ratio"]), 1e-6, what)
            edge_mark += arc["edge"]
            elastic_mark += arc["elastic"]
        what = plan["edge"]
        tally.within("cut length of elastic", abs(plan["cut_length"] - elastic_mark - plan["overlap"]), 1e-6, what)
