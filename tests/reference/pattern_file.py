"""The pattern as data (pattern.json), read into plain arrays and shapely polygons.

Shapes and units: mm in the piece frame, y up. A `Piece` is the shape that is printed: whole by default, or half.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import LineString, Polygon

from pdf_paths import flatten_cubic

# Chords of seam lines stay this close to their cubics, mm.
FLATNESS_MM = 0.002


@dataclass
class Edge:
    """One edge of the seam line."""

    name: str
    role: str
    allowance_mm: float
    length_mm: float
    # Shape (n, 4, 2).
    cubics: np.ndarray

    def points(self) -> list[tuple[float, float]]:
        """The edge as a polyline, both ends included."""
        out: list[tuple[float, float]] = [tuple(self.cubics[0][0])]
        for cubic in self.cubics:
            out.extend(flatten_cubic([tuple(p) for p in cubic], FLATNESS_MM)[1:])
        return out

    def line(self) -> LineString:
        return LineString(self.points())


@dataclass
class Piece:
    """One printed piece."""

    key: str
    name: str
    letter: str
    on_fold: bool
    cut_line: np.ndarray
    edges: list[Edge]
    notches: list[dict]
    # A left and a right are cut.
    is_pair: bool = False

    def mirrored(self) -> "Piece":
        """The other one of a pair, as outlines only; still counter-clockwise."""
        turned = np.array([-1.0, 1.0])
        edges = [
            Edge(e.name, e.role, e.allowance_mm, e.length_mm, (e.cubics * turned)[::-1, ::-1]) for e in self.edges[::-1]
        ]
        cut_line = (self.cut_line * turned)[::-1]
        return Piece(self.key + ", mirrored", self.name, self.letter, self.on_fold, cut_line, edges, [], True)

    def cut_polygon(self) -> Polygon:
        return Polygon(self.cut_line)

    def seam_points(self) -> list[tuple[float, float]]:
        """The seam line as one closed ring, first point not repeated."""
        out: list[tuple[float, float]] = []
        for edge in self.edges:
            out.extend(edge.points()[:-1])
        return out

    def seam_polygon(self) -> Polygon:
        return Polygon(self.seam_points())


@dataclass
class Pattern:
    """A pattern file."""

    suit: str
    wearer: str
    version: str
    pieces: list[Piece]
    seams: list[dict]
    open_edges: list[dict]
    elastic: list[dict]
    cut_list: list[dict]
    form: str

    def with_both_sides(self) -> "Pattern":
        """The pattern with the other one of every pair beside it: what a single layer of cloth is cut by."""
        pieces = [*self.pieces, *(p.mirrored() for p in self.pieces if p.is_pair)]
        return replace(self, pieces=pieces)

    def piece(self, key: str) -> Piece | None:
        return next((p for p in self.pieces if p.key == key), None)


def read(path: str) -> Pattern:
    """Reads a pattern file. Raises KeyError or ValueError when it is not one."""
    with open(path, encoding="utf-8") as file:
        data = json.load(file)
    if data["format"] != "slackwater-pattern/1":
        raise ValueError(f"unknown format {data['format']!r}")
    pieces = [
        Piece(
            key=p["key"],
            name=p["name"],
            letter=p["letter"],
            on_fold=p["on_fold"],
            cut_line=np.array(p["cut_line"], float),
            edges=[
                Edge(
                    e["name"],
                    e["role"],
                    e["allowance_mm"],
                    e["length_mm"],
                    np.array(e["cubics"], float).reshape(-1, 4, 2),
                )
                for e in p["edges"]
            ],
            notches=p["notches"],
            is_pair=any(c["mirrored"] for c in p["cuts"]),
        )
        for p in data["pieces"]
    ]
    return Pattern(
        suit=data["suit"],
        wearer=data["wearer"],
        version=data["version"],
        pieces=pieces,
        seams=data["seams"],
        open_edges=data["open_edges"],
        elastic=data["elastic"],
        cut_list=data["cut_list"],
        form=data["form"],
    )
