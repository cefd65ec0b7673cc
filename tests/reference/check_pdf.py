"""Patterns on paper against the pattern as data: sizes, the scale square twice over, and tiles put together by their marks.

Nothing of the writer is used: pages are read by `pdf_paths` (content streams) and `raster` (rendered by poppler).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, MultiLineString, Point, Polygon, box
from shapely.ops import unary_union

import raster
from check_drawings import corner_shift, ring_distance
from pattern_file import Pattern, Piece
from pdf_paths import Page, Painted, layer_names, print_scaling, read_pages
from tally import Tally

# A printed 100 mm square may be off by 0.5 mm on paper; the file itself must be far better.
SQUARE_LIMIT_MM = 0.1
# Joined tiles against the outline as drafted.
JOINED_LIMIT_MM = 0.1
# PDF numbers are single floats here: 0.0005 mm at 2 m.
PAGE_LIMIT_MM = 0.01
MARK_LIMIT_MM = 0.01
LONGEST_SIDE_MM = 5080.0
PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4), "a0": (841.0, 1189.0)}
ROLL_WIDTHS_MM = (609.6, 914.4, 1066.8)
CUTTING, SEAMS, PAPER = "cutting lines", "seam lines", "page frames and rules"
TILE_CODE = re.compile(r"([A-Z]+)([0-9]+)")


@dataclass
class Square:
    """A stroked upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def middle(self) -> tuple[float, float]:
        return ((self.left + self.right) / 2, (self.top + self.bottom) / 2)


def check(tally: Tally, path: str, kind: str, pattern: Pattern, with_raster: bool) -> None:
    """`kind`: a4, letter, a0, roll."""
    pages = read_pages(path)
    if not tally.check(len(pages) > 0, "no pages"):
        return
    _sizes(tally, pages, kind)
    factors = _printer_factors(pages)
    tally.check(print_scaling(path) == "/None", "the print dialogue is not told to leave the scale alone")
    names = layer_names(path)
    for layer in (CUTTING, SEAMS):
        tally.check(layer in names, f"no layer {layer!r} to switch: {names}")
    _squares(tally, path, pages, factors, with_raster)
    pages = [_at_true_scale(tally, page, factors) for page in pages]
    _text(tally, pages, pattern)
    tiles = _tiles(tally, pages) if kind in ("a4", "letter") else []
    if kind in ("a4", "letter"):
        if tally.check(len(tiles) > 0, "no page with a tile's frame and code"):
            _joined(tally, tiles, pattern)
    else:
        _whole(tally, pages, pattern)


def _sizes(tally: Tally, pages: list[Page], kind: str) -> None:
    for number, page in enumerate(pages, 1):
        if kind == "roll":
            off = min(abs(page.width_mm - w) for w in ROLL_WIDTHS_MM)
            tally.check(page.height_mm <= LONGEST_SIDE_MM, f"page {number} is {page.height_mm:.1f} mm long")
        else:
            width, height = PAPER_MM[kind]
            off = max(abs(page.width_mm - width), abs(page.height_mm - height))
        tally.within("page size", off, PAGE_LIMIT_MM, f"page {number}: {page.width_mm:.3f} x {page.height_mm:.3f} mm")


def rectangles(page: Page) -> list[Square]:
    """Stroked closed rectangles with sides along the page."""
    out = []
    for painted in page.painted:
        if not painted.is_stroked:
            continue
        for run in painted.runs:
            points = run.points[:-1] if len(run.points) == 5 and run.points[0] == run.points[-1] else run.points
            if len(points) != 4 or not (run.is_closed or len(run.points) == 5):
                continue
            left, top, right, bottom = run.box()
            corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
            if all(min(abs(x - u) + abs(y - v) for u, v in corners) < 1e-3 for x, y in points):
                out.append(Square(left, top, right, bottom))
    return out


def nested_squares(page: Page) -> list[tuple[Square, Square]]:
    """Pairs of squares of 80 to 130 mm about one middle, inner and outer: whatever their scale, found by their shape."""
    found = [
        s
        for s in rectangles(page)
        if 80.0 < s.width < 130.0 and 80.0 < s.height < 130.0 and abs(s.width / s.height - 1.0) < 0.1
    ]
    pairs = []
    for inner in found:
        for outer in found:
            apart = abs(inner.middle[0] - outer.middle[0]) + abs(inner.middle[1] - outer.middle[1])
            if inner.width < outer.width and apart < 0.2:
                pairs.append((inner, outer))
    return pairs


def _printer_factors(pages: list[Page]) -> tuple[float, float]:
    """What the drawing is stretched by for a printer that is off, as the first page says it; 1 for a true one."""
    said = re.search(r"printer that printed ([0-9.]+) across and ([0-9.]+) down", re.sub(r"\s+", " ", pages[0].text))
    return (100.0 / float(said[1]), 100.0 / float(said[2])) if said else (1.0, 1.0)


def _at_true_scale(tally: Tally, page: Page, factors: tuple[float, float]) -> Page:
    """The page as the stretching printer would print it. The stated factors are rounded, so the page's own are measured:
    by its squares, or on a tile by the rule in its margin, which must agree with what is said."""
    if factors == (1.0, 1.0):
        return page
    measured = _own_factors(page)
    if measured is None:
        return page
    for own, said, way in zip(measured, factors, ("across", "down")):
        tally.within("stretch for the printer", abs(own / said - 1.0) * 100.0, 0.06, way, "mm in 100 mm")
    sx, sy = measured

    def point(p: tuple[float, float]) -> tuple[float, float]:
        return (p[0] / sx, p[1] / sy)

    painted = [
        Painted(
            runs=[type(r)([point(p) for p in r.points], r.is_closed) for r in one.runs],
            is_stroked=one.is_stroked,
            is_filled=one.is_filled,
            width_mm=one.width_mm,
            dash_mm=one.dash_mm,
            layers=one.layers,
            clips=tuple((c[0] / sx, c[1] / sy, c[2] / sx, c[3] / sy) for c in one.clips),
        )
        for one in page.painted
    ]
    words = [(text, *point((x, y)), size) for text, x, y, size in page.words]
    return Page(page.width_mm / sx, page.height_mm / sy, painted, page.text, words)


def _own_factors(page: Page) -> tuple[float, float] | None:
    """Stretch across and down by the squares, or by a tile's two 100 mm rules; `None` on a page of words."""
    squares = nested_squares(page)
    if squares:
        inner = squares[0][0]
        return (inner.width / 100.0, inner.height / 100.0)
    across = [r.width for r in rectangles(page) if 95.0 < r.width < 105.0 and r.height < 5.0]
    down = [r.height for r in rectangles(page) if 95.0 < r.height < 105.0 and r.width < 5.0]
    return (across[0] / 100.0, down[0] / 100.0) if across and down else None


def _squares(
    tally: Tally,
    path: str,
    pages: list[Page],
    factors: tuple[float, float],
    with_raster: bool,
) -> None:
    found = [(number, pair) for number, page in enumerate(pages, 1) for pair in nested_squares(page)]
    if not tally.check(len(found) > 0, "no scale squares on any page"):
        return
    tally.check(found[0][0] == 1, f"the scale squares are first on page {found[0][0]}, not on page 1")
    for number, (inner, outer) in found:
        for square, side in ((inner, 100.0), (outer, 101.6)):
            for way, length, factor in (("across", square.width, factors[0]), ("down", square.height, factors[1])):
                what = f"page {number}, {side} mm square, {way}: {length:.4f} mm"
                tally.within("scale square in the content", abs(length - side * factor), SQUARE_LIMIT_MM, what)
        if not with_raster:
            continue
        around = (outer.left - 8.0, outer.top - 8.0, outer.right + 8.0, outer.bottom + 8.0)
        sides = raster.square_sides(path, number, around)
        if not tally.check(len(sides) == 2, f"page {number}: {len(sides)} nested squares in the rendered page, not 2"):
            continue
        for (width, height), side in zip(sides, (100.0, 101.6)):
            for way, length, factor in (("across", width, factors[0]), ("down", height, factors[1])):
                what = f"page {number}, {side} mm square, {way}: {length:.3f} mm"
                tally.within("scale square as rendered", abs(length - side * factor), SQUARE_LIMIT_MM, what)


def _plain(text: str) -> str:
    """Text without spaces and line ends, as a reader may part words anywhere."""
    return re.sub(r"\s", "", text)


def _text(tally: Tally, pages: list[Page], pattern: Pattern) -> None:
    text = _plain(" ".join(p.text for p in pages))
    wanted = [pattern.suit, pattern.wearer, pattern.version, *(p.name for p in pattern.pieces), "100 mm"]
    for words in wanted:
        tally.check(_plain(words) in text, f"{words!r} can't be found in the file's text")
    for number, page in enumerate(pages, 1):
        tally.check(len(_plain(page.text)) > 0, f"page {number} has no text")


@dataclass
class Tile:
    """A tile's page, read by its marks."""

    page: Page
    code: str
    row: int
    column: int
    frame: Square
    # Where the frame corner of the page to the right, and of the page below, is to lie, from the frame's own corner.
    right: float | None
    below: float | None


def row_number(letters: str) -> int:
    """A is 0, Z 25, AA 26."""
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def crosses(page: Page) -> list[tuple[float, float, float]]:
    """Crosses of two equal strokes: middle and arm."""
    strokes = []
    for painted in page.painted:
        if PAPER not in painted.layers or not painted.is_stroked or painted.dash_mm:
            continue
        for run in painted.runs:
            if len(run.points) == 2 and not run.is_closed:
                (x0, y0), (x1, y1) = run.points
                strokes.append(((x0 + x1) / 2, (y0 + y1) / 2, abs(x1 - x0) / 2, abs(y1 - y0) / 2))
    out = []
    for x, y, dx, dy in strokes:
        if dy > 1e-3:
            continue
        for u, v, ex, ey in strokes:
            if ex < 1e-3 and abs(ey - dx) < 1e-3 and abs(x - u) + abs(y - v) < 1e-3:
                out.append((x, y, dx))
    return out


def dotted_lines(page: Page, frame: Square) -> tuple[list[float], list[float]]:
    """Where the next pages are laid: dotted lines from side to side of the frame, upright and level ones, from its corner."""
    upright, level = [], []
    for painted in page.painted:
        if PAPER not in painted.layers or not painted.is_stroked or not painted.dash_mm:
            continue
        for run in painted.runs:
            left, top, right, foot = run.box()
            if right - left < 1e-3 and foot - top > 0.9 * frame.height:
                upright.append(left - frame.left)
            elif foot - top < 1e-3 and right - left > 0.9 * frame.width:
                level.append(top - frame.top)
    return upright, level


def _corner_mark(tally: Tally, code: str, frame: Square, marks, right: list[float], below: list[float]) -> None:
    """A cross stands where the corner of the page diagonally below comes to lie, on the dotted lines."""
    if not right and not below:
        return
    inner = [(x - frame.left, y - frame.top) for x, y, _ in marks]
    inner = [(x, y) for x, y in inner if 1.0 < x < frame.width - 1.0 and 1.0 < y < frame.height - 1.0]
    off = min(
        (max([abs(x - r) for r in right] + [abs(y - b) for b in below]) for x, y in inner),
        default=np.nan,
    )
    tally.within("cross on the dotted lines", off, MARK_LIMIT_MM, f"tile {code}")


def _tiles(tally: Tally, pages: list[Page]) -> list[Tile]:
    tiles = []
    for number, page in enumerate(pages, 1):
        frames = [r for r in rectangles(page) if r.width > 120.0 and r.height > 120.0]
        if not frames:
            continue
        frame = max(frames, key=lambda r: r.width * r.height)
        # The page's own code stands above its frame, larger than any other.
        above = [(size, text) for text, _, y, size in page.words if y < frame.top and TILE_CODE.fullmatch(text)]
        if not above:
            continue
        code = max(above)[1]
        letters, digits = TILE_CODE.fullmatch(code).groups()
        marks = crosses(page)
        corners = [(x, y) for x in (frame.left, frame.right) for y in (frame.top, frame.bottom)]
        for x, y in corners:
            near = min((abs(x - u) + abs(y - v) for u, v, _ in marks), default=np.nan)
            tally.within("cross on a frame's corner", near, MARK_LIMIT_MM, f"page {number}, tile {code}")

        right, below = dotted_lines(page, frame)
        tally.check(len(right) < 2 and len(below) < 2, f"tile {code}: more than one dotted line a way")
        _corner_mark(tally, code, frame, marks, right, below)
        tiles.append(
            Tile(
                page=page,
                code=code,
                row=row_number(letters),
                column=int(digits) - 1,
                frame=frame,
                right=right[0] if right else None,
                below=below[0] if below else None,
            )
        )
        inside = frame.left > 0 and frame.top > 0 and frame.right < page.width_mm and frame.bottom < page.height_mm
        tally.check(inside, f"tile {code}: the frame leaves the page")
    codes = [t.code for t in tiles]
    tally.check(len(set(codes)) == len(codes), f"a code stands on two pages: {codes}")
    places = {(t.row, t.column) for t in tiles}
    for tile in tiles:
        for neighbour, mark, way in (
            ((tile.row, tile.column + 1), tile.right, "right"),
            ((tile.row + 1, tile.column), tile.below, "below"),
        ):
            has = mark is not None
            tally.check(has == (neighbour in places), f"tile {tile.code}: mark for a page {way}: {has}, page: {not has}")
    return tiles


def _clipped(painted: Painted, page: Page) -> list[LineString]:
    """What of a path really shows: cut to its clips and to the page."""
    visible = box(0.0, 0.0, page.width_mm, page.height_mm)
    for left, top, right, bottom in painted.clips:
        visible = visible.intersection(box(left, top, right, bottom))
    out = []
    for run in painted.runs:
        points = [*run.points, run.points[0]] if run.is_closed else run.points
        shown = LineString(points).intersection(visible)
        out.extend(g for g in getattr(shown, "geoms", [shown]) if g.geom_type == "LineString" and not g.is_empty)
    return out


def _rings(page: Page, layer: str, by: np.ndarray) -> list[np.ndarray]:
    """Closed runs of a layer, moved, turned over to y up."""
    out = []
    for painted in page.painted:
        if layer not in painted.layers or not painted.is_stroked:
            continue
        for run in painted.runs:
            points = np.array(run.points)
            if run.is_closed or np.allclose(points[0], points[-1], atol=1e-4):
                if np.allclose(points[0], points[-1], atol=1e-4):
                    points = points[:-1]
                if len(points) > 2:
                    out.append((points + by) * np.array([1.0, -1.0]))
    return out


def _place(tally: Tally, kind: str, pattern: Pattern, rings: list[np.ndarray]) -> dict[str, np.ndarray]:
    """Where each piece lies: the move from its own frame to the drawing's, by the ring that has its shape."""
    places: dict[str, np.ndarray] = {}
    left = list(range(len(rings)))
    for piece in pattern.pieces:
        size = np.ptp(piece.cut_line, axis=0)
        alike = [i for i in left if np.abs(np.ptp(rings[i], axis=0) - size).max() < 1.0]
        if not tally.check(len(alike) > 0, f"{piece.key}: no closed cut line of its size"):
            continue
        fits = []
        for i in alike:
            shift = corner_shift(rings[i], piece.cut_line)
            fits.append((ring_distance(rings[i] + shift, piece.cut_line), i))
        off, best = min(fits)
        left.remove(best)
        places[piece.key] = -corner_shift(rings[best], piece.cut_line)
        tally.within(f"outline {kind}", off, JOINED_LIMIT_MM, piece.key)
    tally.check(not left, f"{len(left)} closed cut lines belong to no piece")
    return places


def _joined(tally: Tally, tiles: list[Tile], pattern: Pattern) -> None:
    """Lays every tile by its code and its neighbours' marks, and holds what shows against the outlines."""
    steps_x = [t.right for t in tiles if t.right is not None]
    steps_y = [t.below for t in tiles if t.below is not None]
    for steps in (steps_x, steps_y):
        if steps:
            tally.within("step from tile to tile", max(steps) - min(steps), MARK_LIMIT_MM, "marks of all tiles")
    first = tiles[0].frame
    # Where no page has a neighbour that way, every tile is in one row or column and the step is never used.
    step = np.array([np.median(steps_x) if steps_x else first.width, np.median(steps_y) if steps_y else first.height])
    shown: dict[str, list[LineString]] = {CUTTING: [], SEAMS: []}
    rings: list[np.ndarray] = []
    for tile in tiles:
        by = step * np.array([tile.column, tile.row]) - np.array([tile.frame.left, tile.frame.top])
        for painted in tile.page.painted:
            for layer, lines in shown.items():
                if layer in painted.layers and painted.is_stroked:
                    for line in _clipped(painted, tile.page):
                        lines.append(LineString((np.array(line.coords) + by) * np.array([1.0, -1.0])))
        for ring in _rings(tile.page, CUTTING, by):
            # The same piece shows on several tiles; it is one ring if it lies in one place.
            is_new = all(
                len(ring) != len(other) or np.abs(ring - other).max() > JOINED_LIMIT_MM for other in rings
            )
            if is_new:
                rings.append(ring)
    places = _place(tally, "on joined tiles", pattern, rings)
    _covers(tally, "on joined tiles", pattern, places, shown)


def _covers(
    tally: Tally,
    kind: str,
    pattern: Pattern,
    places: dict[str, np.ndarray],
    shown: dict[str, list[LineString]],
) -> None:
    """Every point of every outline shows, and nothing else does."""
    outlines: dict[str, list[LineString]] = {CUTTING: [], SEAMS: []}
    for piece in pattern.pieces:
        at = places.get(piece.key)
        if at is None:
            continue
        for layer, runs in ((CUTTING, [_closed(piece.cut_line)]), (SEAMS, _seam_runs(piece))):
            for run in runs:
                line = LineString(np.array(run) + at)
                outlines[layer].append(line)
                drawn = MultiLineString(shown[layer])
                worst = max(drawn.distance(line.interpolate(s)) for s in np.arange(0.0, line.length, 2.0))
                tally.within(f"{layer} {kind}, missing", worst, JOINED_LIMIT_MM, piece.key)
    for layer, lines in shown.items():
        meant = unary_union(outlines[layer])
        worst = 0.0
        for line in lines:
            points = np.array(line.coords)
            middles = (points[:-1] + points[1:]) / 2
            worst = max([worst, *(meant.distance(Point(p)) for p in np.concatenate((points, middles)))])
        tally.within(f"{layer} {kind}, too many", worst, JOINED_LIMIT_MM, "all pages")
    laid = [Polygon(p.cut_line + places[p.key]) for p in pattern.pieces if p.key in places]
    for i, one in enumerate(laid):
        for other in laid[i + 1 :]:
            tally.check(not one.intersects(other), f"two pieces lie on each other {kind}")


def _closed(points: np.ndarray) -> np.ndarray:
    return np.concatenate((points, points[:1]))


def _seam_runs(piece: Piece) -> list[list[tuple[float, float]]]:
    return [e.points() for e in piece.edges if e.role != "fold"]


# Thinner lines can't be seen under a projector; the grid's step (common practice: `data/trade/print.toml`).
PROJECTED_LINE_MM = 1.5
GRID_MM = 50.0


def check_projector(tally: Tally, path: str, pattern: Pattern) -> None:
    """A sheet to calibrate by, then every page the whole pattern in lines that can be seen."""
    pages = read_pages(path)
    grid = [run.box() for page in pages for one in page.painted if "grid" in one.layers for run in one.runs]
    for first, last, way in ((0, 2, "upright"), (1, 3, "level")):
        at = sorted(b[first] for b in grid if b[last] - b[first] < 1e-3)
        steps = np.diff(at)
        if tally.check(len(steps) > 1, f"{len(at)} {way} lines make no grid"):
            tally.within("step of the projector's grid", float(np.abs(steps - GRID_MM).max()), MARK_LIMIT_MM, way)
    drawn = [page for page in pages if any(CUTTING in one.layers for one in page.painted)]
    tally.check(len(drawn) > 0, "no page has the pattern on it")
    for page in drawn:
        # Cloth lies single under a projector, so the left and the right of a pair are both shown.
        _whole(tally, [page], pattern.with_both_sides())
        for one in page.painted:
            if one.is_stroked and (CUTTING in one.layers or SEAMS in one.layers):
                thin = max(0.0, PROJECTED_LINE_MM - one.width_mm)
                tally.within("thin line under a projector", thin, 1e-3, f"{one.width_mm:.3f} mm")


def _whole(tally: Tally, pages: list[Page], pattern: Pattern) -> None:
    """Sheets without tiles: every piece whole on one page, with a margin."""
    rings: list[np.ndarray] = []
    shown: dict[str, list[LineString]] = {CUTTING: [], SEAMS: []}
    # Pages are laid far apart, so that one run over all of them sees every piece once.
    for number, page in enumerate(pages):
        by = np.array([number * 10_000.0, 0.0])
        for ring in _rings(page, CUTTING, np.zeros(2)):
            left, low = ring.min(axis=0)
            right, high = ring.max(axis=0)
            is_on = left > 0.0 and right < page.width_mm and -high > 0.0 and -low < page.height_mm
            tally.check(is_on, f"page {number + 1}: a cut line leaves the page")
        rings.extend(_rings(page, CUTTING, by))
        for painted in page.painted:
            for layer, lines in shown.items():
                if layer in painted.layers and painted.is_stroked:
                    for line in _clipped(painted, page):
                        lines.append(LineString((np.array(line.coords) + by) * np.array([1.0, -1.0])))
    places = _place(tally, "on a whole sheet", pattern, rings)
    _covers(tally, "on a whole sheet", pattern, places, shown)
