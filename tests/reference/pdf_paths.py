"""What a PDF page really draws: every painted path in page millimetres, read from its content stream.

Own reading of the content operators on top of pypdf's parser, so that nothing of the writer under test takes part. The
transformation matrix, clips, form XObjects and optional content are followed; colours, shadings and images are not.

Shapes and units: mm from the upper left corner of the page, y down.
Source: ISO 32000-1, 8.4 (graphics state), 8.5 (paths), 8.10 (forms), 8.11 (optional content).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM_PER_POINT = 25.4 / 72.0
# Chords stay this close to a curve, mm: a tenth of the finest tolerance that is checked with them.
FLATNESS_MM = 0.005

Matrix = tuple[float, float, float, float, float, float]
Point = tuple[float, float]


def multiply(first: Matrix, then: Matrix) -> Matrix:
    """The matrix that does `first` and then `then`."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def apply(matrix: Matrix, x: float, y: float) -> Point:
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e, b * x + d * y + f)


@dataclass
class Run:
    """One subpath."""

    points: list[Point]
    is_closed: bool = False

    def box(self) -> tuple[float, float, float, float]:
        xs = [p[0] for p in self.points]
        ys = [p[1] for p in self.points]
        return (min(xs), min(ys), max(xs), max(ys))


@dataclass
class Painted:
    """One painted path."""

    runs: list[Run]
    is_stroked: bool
    is_filled: bool
    width_mm: float
    dash_mm: tuple[float, ...]
    layers: frozenset[str]
    # Boxes of the clips in force, one inside the other.
    clips: tuple[tuple[float, float, float, float], ...]


@dataclass
class _State:
    matrix: Matrix
    width: float = 1.0
    dash: tuple[float, ...] = ()
    clips: tuple[tuple[float, float, float, float], ...] = ()


@dataclass
class Page:
    """A page: its size and what it draws."""

    width_mm: float
    height_mm: float
    painted: list[Painted]
    text: str
    # Words with the place of their baseline's left end and their size, all in mm.
    words: list[tuple[str, float, float, float]] = field(default_factory=list)


def read_pages(path: str) -> list[Page]:
    """All pages of a file."""
    reader = PdfReader(path)
    return [_read_page(page, reader) for page in reader.pages]


def layer_names(path: str) -> list[str]:
    """Names of the optional content groups a viewer offers to switch."""
    root = PdfReader(path).trailer["/Root"]
    if "/OCProperties" not in root:
        return []
    return [str(group.get_object()["/Name"]) for group in root["/OCProperties"]["/OCGs"]]


def print_scaling(path: str) -> str | None:
    """What the file asks of the print dialogue."""
    preferences = PdfReader(path).trailer["/Root"].get("/ViewerPreferences")
    return None if preferences is None else preferences.get_object().get("/PrintScaling")


def _read_page(page, reader) -> Page:
    box = page.mediabox
    if page.get("/Rotate", 0) or page.get("/UserUnit", 1) != 1:
        raise ValueError("a page is turned or has a user unit of its own: its size is not what it seems")
    if page.cropbox != box:
        raise ValueError("a page has a crop box that differs from its media box")
    width, height = float(box.width), float(box.height)
    to_mm: Matrix = (
        MM_PER_POINT,
        0.0,
        0.0,
        -MM_PER_POINT,
        -float(box.left) * MM_PER_POINT,
        (float(box.bottom) + height) * MM_PER_POINT,
    )
    painter = _Painter(reader)
    contents = page.get_contents()
    if contents is not None:
        painter.run(ContentStream(contents, reader), page.get("/Resources"), _State(to_mm), frozenset())
    words: list[tuple[str, float, float, float]] = []

    def visit(text, cm, tm, _font, size):
        if text.strip():
            place = multiply(tuple(tm), multiply(tuple(cm), to_mm))
            x, y = place[4], place[5]
            scale = math.hypot(place[2], place[3])
            words.append((text.strip(), x, y, size * scale))

    text = page.extract_text(visitor_text=visit)
    return Page(width * MM_PER_POINT, height * MM_PER_POINT, painter.painted, text, words)


class _Painter:
    """Follows the operators of a content stream."""

    def __init__(self, reader):
        self.reader = reader
        self.painted: list[Painted] = []

    def run(self, stream, resources, state: _State, outer: frozenset[str], depth: int = 0) -> None:
        if depth > 8:
            raise ValueError("form XObjects are nested more than 8 deep")
        resources = {} if resources is None else resources.get_object()
        saved: list[_State] = []
        sections: list[frozenset[str]] = [outer]
        runs: list[Run] = []
        pending_clip = False
        here: Point = (0.0, 0.0)
        for operands, operator in stream.operations:
            op = operator.decode("latin-1") if isinstance(operator, bytes) else operator
            if op == "q":
                saved.append(_State(state.matrix, state.width, state.dash, state.clips))
            elif op == "Q":
                state = saved.pop()
            elif op == "cm":
                state.matrix = multiply(tuple(float(v) for v in operands), state.matrix)
            elif op == "w":
                state.width = float(operands[0])
            elif op == "d":
                state.dash = tuple(float(v) for v in operands[0])
            elif op in ("BDC", "BMC"):
                sections.append(sections[-1] | self._layers(operands, resources))
            elif op == "EMC":
                sections.pop()
            elif op == "m":
                here = (float(operands[0]), float(operands[1]))
                runs.append(Run([apply(state.matrix, *here)]))
            elif op == "l":
                here = (float(operands[0]), float(operands[1]))
                runs[-1].points.append(apply(state.matrix, *here))
            elif op in ("c", "v", "y"):
                values = [float(v) for v in operands]
                pairs = list(zip(values[::2], values[1::2]))
                if op == "v":
                    pairs = [here, *pairs]
                elif op == "y":
                    pairs = [*pairs, pairs[-1]]
                curve = [apply(state.matrix, *p) for p in (here, *pairs)]
                runs[-1].points.extend(flatten_cubic(curve, FLATNESS_MM)[1:])
                here = pairs[-1]
            elif op == "h":
                runs[-1].is_closed = True
                here_mm = runs[-1].points[0]
                runs.append(Run([here_mm]))
            elif op == "re":
                x, y, w, h = (float(v) for v in operands)
                corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
                runs.append(Run([apply(state.matrix, *p) for p in corners], True))
            elif op in ("W", "W*"):
                pending_clip = True
            elif op in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
                drawn = [r for r in runs if len(r.points) > 1]
                if op in ("s", "b", "b*"):
                    for run in drawn:
                        run.is_closed = True
                if op != "n" and drawn:
                    scale = math.sqrt(abs(state.matrix[0] * state.matrix[3] - state.matrix[1] * state.matrix[2]))
                    self.painted.append(
                        Painted(
                            runs=drawn,
                            is_stroked=op in ("S", "s", "B", "B*", "b", "b*"),
                            is_filled=op not in ("S", "s"),
                            width_mm=state.width * scale,
                            dash_mm=tuple(v * scale for v in state.dash),
                            layers=sections[-1],
                            clips=state.clips,
                        )
                    )
                if pending_clip and drawn:
                    boxes = [r.box() for r in drawn]
                    state.clips = (
                        *state.clips,
                        (
                            min(b[0] for b in boxes),
                            min(b[1] for b in boxes),
                            max(b[2] for b in boxes),
                            max(b[3] for b in boxes),
                        ),
                    )
                pending_clip = False
                runs = []
            elif op == "Do":
                form = resources["/XObject"][operands[0]].get_object()
                if form.get("/Subtype") != "/Form":
                    continue
                matrix = tuple(float(v) for v in form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                inner = _State(multiply(matrix, state.matrix), state.width, state.dash, state.clips)
                layers = sections[-1]
                if "/OC" in form:
                    layers |= _names(form["/OC"].get_object())
                own = form.get("/Resources", resources)
                self.run(ContentStream(form, self.reader), own, inner, layers, depth + 1)

    @staticmethod
    def _layers(operands, resources) -> frozenset[str]:
        if len(operands) < 2 or operands[0] != "/OC":
            return frozenset()
        return _names(resources["/Properties"][operands[1]].get_object())


def _names(content) -> frozenset[str]:
    """Names of a group, or of the groups of a membership."""
    if content.get("/Type") == "/OCMD":
        groups = content["/OCGs"]
        groups = groups if isinstance(groups, list) else [groups]
        return frozenset(str(g.get_object()["/Name"]) for g in groups)
    return frozenset([str(content["/Name"])])


def flatten_cubic(curve: list[Point], tolerance: float) -> list[Point]:
    """Points along a cubic, ends included, chords within `tolerance` of it (second-difference bound)."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = curve
    bend = max(
        math.hypot(x0 - 2 * x1 + x2, y0 - 2 * y1 + y2),
        math.hypot(x1 - 2 * x2 + x3, y1 - 2 * y2 + y3),
    )
    n = max(1, math.ceil(math.sqrt(0.75 * bend / tolerance)))
    points = []
    for i in range(n + 1):
        t = i / n
        s = 1.0 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        points.append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return points
