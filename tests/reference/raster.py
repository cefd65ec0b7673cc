"""Measures the scale-check square on a rendered page, by a renderer that knows nothing of our writer.

A part of the page is rendered by poppler's pdftoppm at 300 dpi; the square's sides are long dark runs, and each side's place
is the grey-weighted middle of its pixels, which is good to about a tenth of a pixel (0.008 mm).

Source: 1 in = 25.4 mm; the rest is own reasoning.
"""

from __future__ import annotations

import shutil
import subprocess

import numpy as np

DPI = 300
MM_PER_PIXEL = 25.4 / DPI
# A side of either square is a dark run of about this length, mm; the squares themselves are 100 and 101.6.
SHORTEST_SIDE_MM = 90.0
LONGEST_SIDE_MM = 115.0
# Darker than this is ink (0 black, 255 white); a hairline rendered between two pixels is still darker.
INK = 200


class NoRenderer(Exception):
    """pdftoppm is not installed."""


def render(path: str, page: int, box_mm: tuple[float, float, float, float]) -> tuple[np.ndarray, float, float]:
    """A part of a page in grey, and the page millimetres of its upper left pixel's corner. Pages count from 1."""
    if shutil.which("pdftoppm") is None:
        raise NoRenderer("pdftoppm is missing: install poppler-utils")
    left = max(0, int(box_mm[0] / MM_PER_PIXEL))
    top = max(0, int(box_mm[1] / MM_PER_PIXEL))
    width = int((box_mm[2] - box_mm[0]) / MM_PER_PIXEL)
    height = int((box_mm[3] - box_mm[1]) / MM_PER_PIXEL)
    command = ["pdftoppm", "-gray", "-r", str(DPI), "-f", str(page), "-l", str(page)]
    command += ["-x", str(left), "-y", str(top), "-W", str(width), "-H", str(height), path]
    data = subprocess.run(command, check=True, capture_output=True).stdout
    return read_pgm(data), left * MM_PER_PIXEL, top * MM_PER_PIXEL


def read_pgm(data: bytes) -> np.ndarray:
    """A binary grey map (PGM, P5, one byte a pixel)."""
    fields: list[bytes] = []
    at = 0
    while len(fields) < 4:
        while data[at : at + 1].isspace():
            at += 1
        end = at
        while not data[end : end + 1].isspace():
            end += 1
        fields.append(data[at:end])
        at = end
    if fields[0] != b"P5" or fields[3] != b"255":
        raise ValueError(f"not an 8-bit grey map: {fields}")
    width, height = int(fields[1]), int(fields[2])
    return np.frombuffer(data, np.uint8, width * height, at + 1).reshape(height, width)


def long_lines(image: np.ndarray) -> list[tuple[float, float, float]]:
    """Level lines of about the square's side: (middle, first, last), in pixels."""
    shortest = SHORTEST_SIDE_MM / MM_PER_PIXEL
    longest = LONGEST_SIDE_MM / MM_PER_PIXEL
    dark = image < INK
    open_groups: list[list[tuple[int, int, int]]] = []
    groups: list[list[tuple[int, int, int]]] = []
    for row in range(image.shape[0]):
        edges = np.flatnonzero(np.diff(np.concatenate(([0], dark[row].astype(np.int8), [0]))))
        still_open = []
        for first, last in zip(edges[::2], edges[1::2]):
            if not shortest <= last - first <= longest:
                continue
            run = (row, int(first), int(last))
            for group in open_groups:
                if group[-1][0] == row - 1 and abs(group[-1][1] - first) <= 4 and abs(group[-1][2] - last) <= 4:
                    group.append(run)
                    break
            else:
                group = [run]
                groups.append(group)
            still_open.append(group)
        open_groups = still_open
    return [_middle(image, group) for group in groups]


def _middle(image: np.ndarray, group: list[tuple[int, int, int]]) -> tuple[float, float, float]:
    """Grey-weighted middle of a line's rows, with the faint row on either side."""
    first = max(r[1] for r in group)
    last = min(r[2] for r in group)
    top, foot = max(0, group[0][0] - 2), min(image.shape[0], group[-1][0] + 3)
    # The median along the line leaves out whatever crosses it.
    weight = 255.0 - np.median(image[top:foot, first:last].astype(float), axis=1)
    rows = np.arange(top, foot) + 0.5
    return float((weight * rows).sum() / weight.sum()), float(first), float(last)


def square_sides(path: str, page: int, box_mm: tuple[float, float, float, float]) -> list[tuple[float, float]]:
    """Width and height in mm of the nested squares found in a part of a page, smallest first."""
    image, _, _ = render(path, page, box_mm)
    across = _pairs(long_lines(image))
    down = _pairs(long_lines(np.ascontiguousarray(image.T)))
    # A pair of level lines gives the height, a pair of upright ones the width; nested about one middle, they sort alike.
    return [(w * MM_PER_PIXEL, h * MM_PER_PIXEL) for w, h in zip(down, across)] if len(across) == len(down) else []


def _pairs(lines: list[tuple[float, float, float]]) -> list[float]:
    """Distances of the lines that make the sides of squares: as far apart as they are long, smallest first."""
    # 4 mm: a square that is off by more is no square to this search, and then none is found and the check fails.
    slack = 4.0 / MM_PER_PIXEL
    out = []
    for i, (a, first, last) in enumerate(lines):
        for b, other_first, other_last in lines[i + 1 :]:
            is_above = abs(first - other_first) <= 3 and abs(last - other_last) <= 3
            if is_above and abs(abs(b - a) - (last - first)) <= slack:
                out.append(abs(b - a))
    return sorted(out)
