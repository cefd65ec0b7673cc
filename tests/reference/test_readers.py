"""The readers themselves: that they read known drawings right, and that the checks fail when something is wrong.

Run by `python -m unittest discover -s tests/reference`.
"""

from __future__ import annotations

import contextlib
import io
import math
import os
import tempfile
import unittest

import numpy as np

import check_drawings
import check_geometry
import check_pdf
import check_range
import pattern_file
import pdf_paths
import raster
from tally import Tally


def quiet(check, *arguments) -> Tally:
    """Runs a check without its words and gives its tally."""
    tally = Tally()
    with contextlib.redirect_stderr(io.StringIO()):
        check(tally, *arguments)
    return tally


def write_pdf(contents: bytes, form: bytes, width: float, height: float) -> str:
    """A one-page PDF written by hand: page contents, one form XObject /F with a matrix of its own."""
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width} {height}] /Contents 4 0 R "
        "/Resources << /XObject << /F 5 0 R >> /Properties << /L 6 0 R >> >> >>".encode(),
        b"<< /Length %d >>\nstream\n%s\nendstream" % (len(contents), contents),
        b"<< /Type /XObject /Subtype /Form /BBox [0 0 1000 1000] /Matrix [2 0 0 2 10 20] /Length %d >>\nstream\n%s\nendstream"
        % (len(form), form),
        b"<< /Type /OCG /Name (cutting lines) >>",
    ]
    out = io.BytesIO(b"%PDF-1.7\n")
    out.seek(0, io.SEEK_END)
    places = []
    for number, body in enumerate(objects, 1):
        places.append(out.tell())
        out.write(b"%d 0 obj\n%s\nendobj\n" % (number, body))
    start = out.tell()
    out.write(b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1))
    for place in places:
        out.write(b"%010d 00000 n \n" % place)
    out.write(b"trailer << /Root 1 0 R /Size %d >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, start))
    handle, path = tempfile.mkstemp(suffix=".pdf")
    with os.fdopen(handle, "wb") as file:
        file.write(out.getvalue())
    return path


def square_piece(cut: np.ndarray) -> pattern_file.Pattern:
    """A 100 mm square, 10 mm allowance all round, with the cut line given."""
    corners = np.array([(0, 0), (100, 0), (100, 100), (0, 100)], float)
    edges = []
    for i, name in enumerate(("foot", "right", "top", "left")):
        a, b = corners[i], corners[(i + 1) % 4]
        cubic = np.array([[a, a + (b - a) / 3, a + (b - a) * 2 / 3, b]])
        edges.append(pattern_file.Edge(name, "seam", 10.0, 100.0, cubic))
    piece = pattern_file.Piece("square", "Square", "A", False, cut, edges, [])
    return pattern_file.Pattern("", "", "", [piece], [], [], [], [], "whole")


TRUE_CUT = np.array([(-10, -10), (110, -10), (110, 110), (-10, 110)], float)


class Readers(unittest.TestCase):
    def test_a_cubic_of_known_length(self):
        # (0,0) (0,100) (100,100) (100,0) has length 200: exact, by its hodograph.
        cubic = np.array([(0, 0), (0, 100), (100, 100), (100, 0)], float)
        self.assertAlmostEqual(check_geometry.cubic_length(cubic), 200.0, places=7)
        points = np.array(pdf_paths.flatten_cubic([tuple(p) for p in cubic], 0.001))
        chords = np.hypot(*np.diff(points, axis=0).T).sum()
        self.assertLess(abs(chords - 200.0), 0.01)

    def test_matrices_forms_clips_and_layers_of_a_page(self):
        # The form's matrix doubles and moves by (10, 20); the page's halves first: the square of 60 points stays 60.
        page = b"q .5 0 0 .5 0 0 cm /OC /L BDC 3 w [4 2] 0 d 0 0 100 300 re W n /F Do EMC Q"
        path = write_pdf(page, b"0 0 m 60 0 l 60 60 l 0 60 l s", 200, 300)
        try:
            pages = pdf_paths.read_pages(path)
        finally:
            os.unlink(path)
        self.assertAlmostEqual(pages[0].width_mm, 200 * 25.4 / 72)
        (painted,) = pages[0].painted
        left, top, right, bottom = painted.runs[0].box()
        mm = 25.4 / 72
        self.assertAlmostEqual(right - left, 60 * mm)
        self.assertAlmostEqual(bottom - top, 60 * mm)
        self.assertAlmostEqual(left, 5 * mm)
        # y down from the upper edge: 300 - (10 + 60).
        self.assertAlmostEqual(top, 230 * mm)
        self.assertEqual(painted.layers, frozenset(["cutting lines"]))
        self.assertTrue(painted.runs[0].is_closed)
        self.assertAlmostEqual(painted.width_mm, 3 * mm)
        self.assertEqual([round(v / mm, 6) for v in painted.dash_mm], [4, 2])
        self.assertEqual([round(v / mm, 6) for v in painted.clips[0]], [0, 150, 50, 300])

    def test_a_square_that_is_too_small_is_measured_so(self):
        # 99 mm and 100.584 mm: both squares at 99 %.
        mm = 72 / 25.4
        inner, outer = 99.0 * mm, 100.584 * mm
        edge = (outer - inner) / 2
        page = f"50 50 {outer} {outer} re S {50 + edge} {50 + edge} {inner} {inner} re S".encode()
        path = write_pdf(page, b"", 500, 500)
        try:
            pages = pdf_paths.read_pages(path)
            tally = quiet(check_pdf._squares, path, pages, (1.0, 1.0), False)
        finally:
            os.unlink(path)
        ((found, _),) = check_pdf.nested_squares(pages[0])
        self.assertAlmostEqual(found.width, 99.0, places=5)
        self.assertEqual(tally.failed, 4)

    def test_a_rendered_square_is_measured_to_a_part_of_a_pixel(self):
        # Lines three pixels thick, grey at one side: middles at 20.7 and 20.7 + 1181.4.
        image = np.full((1300, 1300), 255, np.uint8)

        def line(at: float, level: bool):
            first = math.floor(at - 1.5)
            covered = [min(1.0, max(0.0, min(k + 1, at + 1.5) - max(k, at - 1.5))) for k in range(first, first + 5)]
            for k, share in zip(range(first, first + 5), covered):
                run = slice(19, 1204)
                row = image[k, run] if level else image[run, k]
                np.minimum(row, int(round(255 * (1 - share))), out=row)

        for at in (20.7, 20.7 + 1181.4):
            line(at, True)
            line(at, False)
        across = raster._pairs(raster.long_lines(np.ascontiguousarray(image.T)))
        self.assertEqual(len(across), 1)
        self.assertLess(abs(across[0] - 1181.4), 0.05)

    def test_svg_paths(self):
        ((points, closed),) = check_drawings.svg_runs("M0 0L10 0L10 10Z")
        self.assertTrue(closed)
        self.assertEqual(points.tolist(), [[0, 0], [10, 0], [10, 10]])
        ((points, _),) = check_drawings.svg_runs("M0 0C0 1 1 1 1 0")
        self.assertEqual(points[-1].tolist(), [1, 0])
        with self.assertRaises(ValueError):
            check_drawings.svg_runs("m0 0l10 0")

    def test_rows_past_z(self):
        self.assertEqual([check_pdf.row_number(r) for r in ("A", "Z", "AA", "BA")], [0, 25, 26, 52])


class ChecksCanFail(unittest.TestCase):
    def test_a_true_offset_passes(self):
        tally = quiet(check_geometry.check, square_piece(TRUE_CUT))
        self.assertEqual(tally.failed, 0)
        self.assertGreater(tally.passed, 15)

    def test_a_cut_line_half_a_millimetre_off_is_found_both_ways(self):
        off = TRUE_CUT.copy()
        off[1:3, 0] += 0.5
        tally = quiet(check_geometry.check, square_piece(off))
        self.assertEqual(tally.failed, 2)

    def test_an_outline_that_crosses_itself_is_found(self):
        crossed = TRUE_CUT[[0, 2, 1, 3]]
        self.assertGreater(quiet(check_geometry.check, square_piece(crossed)).failed, 0)

    def test_a_wrong_length_is_found(self):
        pattern = square_piece(TRUE_CUT)
        pattern.pieces[0].edges[0].length_mm = 100.02
        tally = quiet(check_geometry.check, pattern)
        self.assertEqual(tally.failed, 1)

    def test_not_a_number_fails(self):
        tally = quiet(lambda t: t.within("any", float("nan"), 1.0, "nothing found"))
        self.assertEqual((tally.passed, tally.failed), (0, 1))
        self.assertEqual(tally.closing(), "0 passed, 1 failed")


class Ranges(unittest.TestCase):
    """A nest drawn by hand: three squares, one a size."""

    @staticmethod
    def nest(folder: str, sides: list[int]) -> Tally:
        groups = "".join(
            f'<g class="size" data-size="{i}"><path d="M0 0L{a} 0L{a} {a}L0 {a}Z" stroke-width="0.3"/></g>'
            for i, a in enumerate(sides)
        )
        with open(os.path.join(folder, "nest.svg"), "w", encoding="utf-8") as file:
            file.write(f'<svg xmlns="http://www.w3.org/2000/svg">{groups}</svg>')
        with open(os.path.join(folder, "sizes.csv"), "w", encoding="utf-8") as file:
            file.write("of,measure,unit,0,1,2\n")
        return quiet(check_range.check, folder)

    def test_growing_sizes_pass_and_others_fail(self) -> None:
        with tempfile.TemporaryDirectory() as folder:
            self.assertEqual(self.nest(folder, [100, 110, 120]).failed, 0)
            # The last is smaller in area, round and across.
            self.assertEqual(self.nest(folder, [100, 120, 110]).failed, 3)


if __name__ == "__main__":
    unittest.main()
