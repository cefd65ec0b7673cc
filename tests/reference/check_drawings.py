"""SVG and DXF files against the pattern: true units, and the same outlines piece by piece.

Source: SVG 1.1 (units and view box), read with Python's own XML parser; DXF read and audited by ezdxf.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import ezdxf
import numpy as np
from shapely.geometry import LineString, Point, Polygon

from pattern_file import Pattern, Piece
from pdf_paths import flatten_cubic
from tally import Tally

# Curves are flattened within 0.05 mm in DXF; outlines are points as drafted, rounded at most to 0.001 mm.
OUTLINE_LIMIT_MM = 0.05
# Flattening and the limit on top of it.
SEAM_LIMIT_MM = 0.1
SVG = "{http://www.w3.org/2000/svg}"


def ring_distance(first: np.ndarray, second: np.ndarray) -> float:
    """Greatest distance from the points of either ring to the other one."""
    a, b = Polygon(first).exterior, Polygon(second).exterior
    from_first = max(b.distance(Point(p)) for p in first)
    from_second = max(a.distance(Point(p)) for p in second)
    return max(from_first, from_second)


def line_distance(first: LineString, second) -> float:
    """Greatest distance from the points of a line, and the middles between them, to another shape."""
    points = np.array(first.coords)
    middles = (points[:-1] + points[1:]) / 2
    return max(second.distance(Point(p)) for p in np.concatenate((points, middles)))


def corner_shift(found: np.ndarray, meant: np.ndarray) -> np.ndarray:
    """The move that lays the box of one outline on that of another."""
    return meant.min(axis=0) - found.min(axis=0)


def check_svg(tally: Tally, path: str, pattern: Pattern) -> None:
    root = ElementTree.parse(path).getroot()
    tally.check(root.tag == f"{SVG}svg", f"the root is {root.tag}, not an SVG picture")
    view = [float(v) for v in root.attrib["viewBox"].split()]
    for key, extent in (("width", view[2]), ("height", view[3])):
        size = re.fullmatch(r"([0-9.]+)mm", root.attrib[key])
        is_true = size is not None and abs(float(size[1]) - extent) < 1e-9
        tally.check(is_true, f"{key} {root.attrib[key]} is not the view box's {extent} in mm")
    tally.check(not any("transform" in e.attrib for e in root.iter()), "a transform would hide the scale")
    groups = {g.attrib.get("id"): g for g in root.iter(f"{SVG}g")}
    tally.check(set(groups) == {p.key for p in pattern.pieces}, f"groups {sorted(map(str, groups))} are not the pieces")
    for piece in pattern.pieces:
        group = groups.get(piece.key)
        if group is None:
            continue
        cuts = [p for p in group.iter(f"{SVG}path") if p.attrib.get("class") == "cut"]
        if not tally.check(len(cuts) == 1, f"{piece.key}: {len(cuts)} cut lines"):
            continue
        runs = svg_runs(cuts[0].attrib["d"])
        if not tally.check(len(runs) == 1 and runs[0][1], f"{piece.key}: the cut line is not one closed run"):
            continue
        up = _turned_over(runs[0][0])
        shift = corner_shift(up, piece.cut_line)
        off = ring_distance(up + shift, piece.cut_line)
        tally.within("outline in SVG", off, OUTLINE_LIMIT_MM, piece.key)
        seam = piece.seam_polygon().exterior
        seams = [p for p in group.iter(f"{SVG}path") if p.attrib.get("class") == "seam"]
        drawn = [e for e in piece.edges if e.role != "fold"]
        tally.check(len(seams) == len(drawn), f"{piece.key}: {len(seams)} seam lines for {len(drawn)} edges")
        for line in seams:
            for points, _ in svg_runs(line.attrib["d"]):
                off = line_distance(LineString(_turned_over(points) + shift), seam)
                tally.within("seam line in SVG", off, OUTLINE_LIMIT_MM, f"{piece.key}, {line.attrib.get('data-edge')}")


def _turned_over(points: np.ndarray) -> np.ndarray:
    return points * np.array([1.0, -1.0])


def svg_runs(data: str) -> list[tuple[np.ndarray, bool]]:
    """Runs of a path of absolute M, L, C and Z, curves flattened; anything else is refused."""
    tokens = re.findall(r"[A-Za-z]|[-+]?[0-9]*\.?[0-9]+(?:[eE][-+]?[0-9]+)?", data)
    runs: list[tuple[list[tuple[float, float]], bool]] = []
    at = 0

    def pair() -> tuple[float, float]:
        nonlocal at
        at += 2
        return (float(tokens[at - 2]), float(tokens[at - 1]))

    command = ""
    while at < len(tokens):
        if tokens[at].isalpha():
            command = tokens[at]
            at += 1
        if command == "M":
            runs.append(([pair()], False))
            command = "L"
        elif command == "L":
            runs[-1][0].append(pair())
        elif command == "C":
            start = runs[-1][0][-1]
            runs[-1][0].extend(flatten_cubic([start, pair(), pair(), pair()], 0.002)[1:])
        elif command == "Z":
            runs[-1] = (runs[-1][0], True)
        else:
            raise ValueError(f"a path command this reader does not take: {command!r}")
    return [(np.array(points), closed) for points, closed in runs]


def _audit(tally: Tally, document) -> None:
    auditor = document.audit()
    faults = [e.message for e in auditor.errors]
    tally.check(not faults, f"the DXF audit found {faults[:3]}")


def check_cutter(tally: Tally, path: str, pattern: Pattern) -> None:
    document = ezdxf.readfile(path)
    _audit(tally, document)
    tally.check(document.header.get("$INSUNITS") == 4, "the unit is not millimetres ($INSUNITS 4)")
    model = document.modelspace()
    cuts = [
        np.array([(x, y) for x, y in e.get_points("xy")])
        for e in model.query('LWPOLYLINE[layer=="cut"]')
        if e.closed
    ]
    open_cuts = [e for e in model.query('*[layer=="cut"]') if e.dxftype() != "LWPOLYLINE" or not e.closed]
    tally.check(not open_cuts, f"{len(open_cuts)} things on layer cut are not closed polylines")
    if not tally.check(len(cuts) == len(pattern.pieces), f"{len(cuts)} cut lines for {len(pattern.pieces)} pieces"):
        return
    seams = [
        LineString([*e.get_points("xy"), e.get_points("xy")[0]] if e.closed else list(e.get_points("xy")))
        for e in model.query('LWPOLYLINE[layer=="seam"]')
    ]
    left = list(range(len(cuts)))
    for piece in pattern.pieces:
        fits = [(ring_distance(cuts[i] + corner_shift(cuts[i], piece.cut_line), piece.cut_line), i) for i in left]
        off, best = min(fits)
        left.remove(best)
        tally.within("outline in the cutter's DXF", off, OUTLINE_LIMIT_MM, piece.key)
        shift = corner_shift(cuts[best], piece.cut_line)
        inside = Polygon(cuts[best]).buffer(1.0)
        meant = piece.seam_polygon().exterior
        own = [s for s in seams if s.within(inside)]
        tally.check(len(own) > 0, f"{piece.key}: no seam line on layer seam")
        for seam in own:
            moved = LineString(np.array(seam.coords) + shift)
            tally.within("seam line in the cutter's DXF", line_distance(moved, meant), SEAM_LIMIT_MM, piece.key)
    for i, first in enumerate(cuts):
        for second in cuts[i + 1 :]:
            tally.check(not Polygon(first).intersects(Polygon(second)), "two pieces lie on each other")


def check_exchange(tally: Tally, path: str, pattern: Pattern) -> None:
    with open(path, "rb") as file:
        raw = file.read()
    tally.check(all(b < 128 for b in raw), "the exchange file is not 7-bit ASCII")
    document = ezdxf.readfile(path)
    _audit(tally, document)
    tally.check(document.dxfversion == "AC1009", f"the release is {document.dxfversion}, not 12 (AC1009)")
    blocks = {b.name.upper(): b for b in document.blocks if not b.name.startswith("*") and not b.name.startswith("$")}
    tally.check(len(blocks) == len(pattern.pieces), f"{len(blocks)} blocks for {len(pattern.pieces)} pieces")
    inserted = [e.dxf.name.upper() for e in document.modelspace().query("INSERT")]
    tally.check(sorted(inserted) == sorted(blocks), f"inserted {inserted} are not the blocks")
    for piece in pattern.pieces:
        block = blocks.get(piece.key.upper())
        if not tally.check(block is not None, f"{piece.key}: no block of that name"):
            continue
        boundary = [p for p in block.query('POLYLINE[layer=="1"]') if p.is_closed]
        if not tally.check(len(boundary) == 1, f"{piece.key}: {len(boundary)} closed boundaries on layer 1"):
            continue
        points = np.array([(v.dxf.location.x, v.dxf.location.y) for v in boundary[0].vertices])
        # Blocks are in the piece frame: nothing is moved before they are compared.
        off = ring_distance(points, piece.cut_line)
        tally.within("outline in the exchange DXF", off, OUTLINE_LIMIT_MM, piece.key)
        sewn = [p for p in block.query('POLYLINE[layer=="14"]')]
        tally.check(len(sewn) > 0, f"{piece.key}: no sew line on layer 14")
        seam = piece.seam_polygon().exterior
        for run in sewn:
            line = LineString([(v.dxf.location.x, v.dxf.location.y) for v in run.vertices])
            tally.within("sew line in the exchange DXF", line_distance(line, seam), SEAM_LIMIT_MM, piece.key)
        _exchange_marks(tally, block, piece)


def _exchange_marks(tally: Tally, block, piece: Piece) -> None:
    cut = piece.cut_polygon().exterior
    notches = [Point(p.dxf.location.x, p.dxf.location.y) for p in block.query('POINT[layer=="4"]')]
    wanted = sum(2 if n["double"] else 1 for n in piece.notches)
    tally.check(len(notches) == wanted, f"{piece.key}: {len(notches)} notches on layer 4, {wanted} drafted")
    for notch in piece.notches:
        near = min((Point(notch["at"]).distance(n) for n in notches), default=np.nan)
        # A double notch stands 3.25 mm either side.
        limit = 3.26 if notch["double"] else OUTLINE_LIMIT_MM
        tally.within("notch in the exchange DXF", near, limit, f"{piece.key}, {notch['key']}")
    turns = list(block.query('POINT[layer=="2"]')) + list(block.query('POINT[layer=="3"]'))
    for point in turns:
        off = cut.distance(Point(point.dxf.location.x, point.dxf.location.y))
        tally.within("turn and curve points in the exchange DXF", off, OUTLINE_LIMIT_MM, piece.key)
    grain = list(block.query('LINE[layer=="7"]'))
    tally.check(len(grain) == 1, f"{piece.key}: {len(grain)} grain lines on layer 7")
