"""Strip packing instances and lays, read and judged by shapely: nothing here is shared with the program that made the lays."""

import json
import math
from itertools import combinations
from pathlib import Path

from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.strtree import STRtree

# Overlap that the writing of coordinates as decimal text can make, as a share of the smaller piece's area.
OVERLAP_SHARE = 1e-7


class Instance:
    """A benchmark file."""

    def __init__(self, path):
        self.path = Path(path)
        data = json.loads(self.path.read_text())
        self.name = data["name"]
        self.height = data["strip_height"]
        self.items = {item["id"]: item for item in data["items"]}
        self.polygons = {key: Polygon(item["shape"]["data"]) for key, item in self.items.items()}
        self.area = sum(self.polygons[k].area * item["demand"] for k, item in self.items.items())

    def usage(self, length):
        """Per cent of the strip that is pieces."""
        return 100 * self.area / (self.height * length)


def faults(instance, placed):
    """What is wrong with a lay, as sentences, and the length it really needs. `placed`: [{id, rotation_deg, x, y}]."""
    wrong, shapes, counts = [], [], {}
    for one in placed:
        key, angle = one["id"], one["rotation_deg"]
        counts[key] = counts.get(key, 0) + 1
        allowed = instance.items[key].get("allowed_orientations")
        if allowed is not None and not any(math.isclose((angle - a) % 360, 0, abs_tol=1e-9) or
                                           math.isclose((angle - a) % 360, 360, abs_tol=1e-9) for a in allowed):
            wrong.append(f"item {key} turned {angle}, not allowed")
        turned = affinity.rotate(instance.polygons[key], angle, origin=(0, 0))
        shapes.append(affinity.translate(turned, one["x"], one["y"]))
    for key, item in instance.items.items():
        if counts.get(key, 0) != item["demand"]:
            wrong.append(f"item {key}: {counts.get(key, 0)} placed of {item['demand']}")
    length = max(s.bounds[2] for s in shapes)
    slack = 1e-6 * instance.height
    strip = box(-slack, -slack, length + slack, instance.height + slack)
    wrong += [f"piece {i} lies outside" for i, s in enumerate(shapes) if not strip.contains(s)]
    tree = STRtree(shapes)
    for i, shape in enumerate(shapes):
        for j in tree.query(shape):
            if j > i:
                area = shape.intersection(shapes[j]).area
                if area > OVERLAP_SHARE * min(shape.area, shapes[j].area):
                    wrong.append(f"pieces {i} and {j} overlap by {area:.6g}")
    return wrong, length


def least_gap(shapes):
    """The least distance between any two of them."""
    return min((a.distance(b) for a, b in combinations(shapes, 2)), default=math.inf)
