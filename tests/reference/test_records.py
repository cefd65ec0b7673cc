"""The recorded drafts worked again: lengths by quadrature, areas and offsets by shapely, skirts by the circle, sleeve by its armhole.

The tests of `crates/draft` hold the draft against `data/draft/*.json`; here those records are held against libraries that share
nothing with it. Control points are recorded to 0.001 mm, lengths to 0.01 mm, areas to 0.01 cm2.

Source: scipy's adaptive quadrature (QUADPACK), GEOS through shapely, closed forms of the circle.
"""

from __future__ import annotations

import json
import math
import pathlib
import unittest

import numpy as np
from shapely.geometry import Polygon

from check_geometry import cubic_length
from pdf_paths import flatten_cubic

DATA = pathlib.Path(__file__).parents[2] / "data" / "draft"
# Half of the last digit of a length, and what rounded control points leave over an edge.
LENGTH_MM = 0.015
# Half of the last digit of an area, and 0.001 mm along 2 m of outline.
AREA_CM2 = 0.03
# Chords of outlines lie so near to their cubics, mm.
FLATNESS_MM = 0.0005


def read(name: str) -> dict:
    return json.loads((DATA / name).read_text(encoding="utf-8"))


def cubics(edge: list) -> list[np.ndarray]:
    return [np.array(c, float) for c in edge]


def length(edge: list) -> float:
    return sum(cubic_length(c) for c in cubics(edge))


def polygon(piece: dict) -> Polygon:
    points: list[tuple[float, float]] = []
    for edge in piece.values():
        for cubic in cubics(edge):
            points.extend(flatten_cubic([tuple(p) for p in cubic], FLATNESS_MM)[:-1])
    return Polygon(points)


class Records(unittest.TestCase):
    """Key in the recorded values, piece and edges in the recorded control points."""

    def setUp(self) -> None:
        self.points = read("control-points.json")
        self.values = read("check-values.json")["values"]

    def near(self, ours: float, recorded: float, limit: float, what: str) -> None:
        self.assertLessEqual(abs(ours - recorded), limit, f"{what}: {ours:.4f}, recorded {recorded}")

    def test_lengths_by_quadrature(self) -> None:
        checked = 0
        for draft, of, rows in [
            (
                "one_piece_average_soft",
                ("average", "soft", "one_piece"),
                [
                    ("front", "side", "side_front"),
                    ("back", "side", "side_back"),
                    ("front", "fold", "cf_fold"),
                    ("back", "fold", "cb_fold"),
                    ("front", "neck", "neck_front"),
                    ("back", "neck", "neck_back"),
                    ("front", "armhole", "armhole_front"),
                    ("back", "armhole", "armhole_back"),
                    ("front", "leg", "leg_front"),
                    ("back", "leg", "leg_back"),
                ],
            ),
            (
                "one_piece_child8_firm",
                ("child8", "firm", "one_piece"),
                [
                    ("front", "side", "side_front"),
                    ("front", "neck", "neck_front"),
                    ("back", "neck", "neck_back"),
                    ("front", "armhole", "armhole_front"),
                    ("back", "armhole", "armhole_back"),
                    ("front", "leg", "leg_front"),
                    ("back", "leg", "leg_back"),
                ],
            ),
            (
                "bottoms_mid_average_soft",
                ("average", "soft", "bottoms_mid"),
                [
                    ("front", "side", "side"),
                    ("back", "side", "side"),
                    ("front", "top", "top_front"),
                    ("back", "top", "top_back"),
                    ("front", "fold", "cf"),
                    ("back", "fold", "cb"),
                ],
            ),
            (
                "bandeau_average_soft",
                ("average", "soft", "bandeau"),
                [
                    ("front", "side", "side"),
                    ("front", "top", "top_front"),
                    ("back", "top", "top_back"),
                    ("front", "bottom", "bottom_front"),
                    ("back", "bottom", "bottom_back"),
                ],
            ),
        ]:
            recorded = self.values[of[0]][of[1]][of[2]]
            for piece, edge, key in rows:
                self.near(length(self.points[draft][piece][edge]), recorded[key], LENGTH_MM, f"{draft}, {key}")
                checked += 1
        self.assertEqual(checked, 28)

    def test_areas_by_shapely(self) -> None:
        checked = 0
        for draft, of, rows in [
            ("one_piece_average_soft", "one_piece", [("front", "area_half_front_cm2"), ("back", "area_half_back_cm2")]),
            ("bottoms_mid_average_soft", "bottoms_mid", [("front", "area_half_front_cm2"), ("back", "area_half_back_cm2")]),
            ("rash_average_soft", "rash_top", [("front", "area_half_front_cm2"), ("sleeve", "sleeve_area_cm2")]),
            ("crotch_lining_average_soft", "crotch_lining", [(None, "area_half_cm2")]),
            ("triangle_average_soft", "triangle", [(None, "area_cm2")]),
            ("skirt_half_waist_average_soft", "skirt_half_waist", [(None, "area_half_panel_cm2")]),
        ]:
            recorded = self.values["average"]["soft"][of]
            for piece, key in rows:
                outline = polygon(self.points[draft] if piece is None else self.points[draft][piece])
                self.assertTrue(outline.is_valid and outline.exterior.is_ccw, draft)
                self.near(outline.area / 100.0, recorded[key], AREA_CM2, f"{draft}, {key}")
                checked += 1
        self.assertEqual(checked, 9)

    def test_offsets_by_shapely(self) -> None:
        """8 mm all round the average front and back, mitred as the draft's corners are (2.5 times the allowance)."""
        recorded = read("invariants.json")["invariants"]
        for piece in ("front", "back"):
            outline = polygon(self.points["one_piece_average_soft"][piece])
            offset = outline.buffer(8.0, join_style="mitre", mitre_limit=2.5)
            self.near(offset.area / 100.0, recorded[f"offset8_average_{piece}"]["ours_cm2"], 0.05, f"offset of {piece}")

    def test_skirts_by_the_circle(self) -> None:
        """r = G / 2 pi for a circle, G / pi for a half, G / 4 theta for a flared panel; hem and area of a ring sector."""
        checked = 0
        for body, cloths in self.values.items():
            for cloth, values in cloths.items():
                for key, theta in (
                    ("skirt_circle_waist", math.pi / 2),
                    ("skirt_half_waist", math.pi / 4),
                    ("skirt_aline_hip", 0.22),
                ):
                    if key not in values:
                        continue
                    skirt, what = values[key], f"{body}, {cloth}, {key}"
                    girth, down = skirt["seam_girth"], skirt["length"]
                    radius = girth / (4 * theta)
                    # The girth is recorded to 0.01 mm; a cubic's arc is 0.014 % too long at 90 degrees.
                    self.near(radius, skirt["radius"], 0.02, what)
                    self.near(theta * (radius + down), skirt["hem_half_panel"], 0.02 + 1.5e-4 * skirt["hem_half_panel"], what)
                    sector = theta / 2 * ((radius + down) ** 2 - radius**2) / 100.0
                    self.near(sector, skirt["area_half_panel_cm2"], 0.05 + 3e-4 * sector, what)
                    checked += 1
        self.assertGreaterEqual(checked, 12)

    def test_a_skirt_is_drawn_round_one_centre(self) -> None:
        """Join and hem of the half circle: every point at its radius from the one centre, 0.02 mm."""
        skirt, recorded = self.points["skirt_half_waist_average_soft"], self.values["average"]["soft"]["skirt_half_waist"]
        for edge, radius in (("top", recorded["radius"]), ("hem", recorded["radius"] + recorded["length"])):
            points = np.array([p for c in cubics(skirt[edge]) for p in flatten_cubic([tuple(q) for q in c], FLATNESS_MM)])
            # Least squares circle, its centre free: |p|^2 = 2 c p + k.
            system = np.column_stack([2 * points, np.ones(len(points))])
            (x, y, k), *_ = np.linalg.lstsq(system, (points**2).sum(axis=1), rcond=None)
            self.near(math.sqrt(k + x * x + y * y), radius, 0.02, f"radius of the {edge}")
            off = np.abs(np.hypot(*(points - [x, y]).T) - radius).max()
            self.near(off, 0.0, 0.02, f"roundness of the {edge}")

    def test_a_sleeve_cap_is_as_long_as_its_armhole(self) -> None:
        """No ease in a knit: cap = front + back armhole, 0.5 mm as any seam; drawn pieces and recorded lengths of every body."""
        rash = self.points["rash_average_soft"]
        armhole = length(rash["front"]["armhole"]) + length(rash["back"]["armhole"])
        self.near(length(rash["sleeve"]["cap"]), armhole, 0.5, "cap against armhole")
        self.near(armhole, self.values["average"]["soft"]["rash_top"]["armhole"], LENGTH_MM * 2, "armhole")
        checked = 0
        for cloths in self.values.values():
            for values in cloths.values():
                if "rash_top" in values:
                    self.near(values["rash_top"]["cap"], values["rash_top"]["armhole"], 0.5, "cap against armhole")
                    checked += 1
        self.assertGreaterEqual(checked, 2)


if __name__ == "__main__":
    unittest.main()
