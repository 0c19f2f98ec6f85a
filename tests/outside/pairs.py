#!/usr/bin/env python3
"""Awkward pairs of plan shapes, worked by an independent geometry library (shapely, on GEOS).

Writes pairs.json beside this file: for each pair the distance, the shared area, whether the second is contained in the
first, and the shortest move of the second that ends the overlap. Circles: distance and containment follow from the
distance of the centre; shared areas from polygons of very many corners, scaled to the circle's own area.

    python3 tests/outside/pairs.py
"""

import json
import math
import pathlib
import random

import numpy
import shapely
from shapely import affinity
from shapely.geometry import MultiPoint, Point, Polygon, box
from shapely.ops import triangulate, unary_union

SEED = 4711
# Corners of the polygon that stands for a circle when an area is asked: it misses the circle's area by 1.6e-9 of it,
# and the error of a part of it is of the same order times the radius squared.
CIRCLE_CORNERS = 65536
# Corners of the polygon that stands for a circle in a Minkowski sum: it lies within 1.2e-6 of the radius.
SUM_CORNERS = 2048

random.seed(SEED)


def star(low, high, reach):
    """A polygon whose corners go round the origin once; dented if `low` is well below `high`."""
    while True:
        n = random.randint(low, high)
        turns = sorted(random.random() for _ in range(n))
        ring = [
            (r * math.cos(2 * math.pi * t), r * math.sin(2 * math.pi * t))
            for t in turns
            for r in [random.uniform(0.25, 1) * reach]
        ]
        p = Polygon(ring)
        if p.is_valid and p.area > 1e-3 * reach * reach:
            return p


def rectangle(w, h):
    return box(-w / 2, -h / 2, w / 2, h / 2)


def l_shape(w, h):
    x, y = w * random.uniform(0.2, 0.8), h * random.uniform(0.2, 0.8)
    return affinity.translate(Polygon([(0, 0), (w, 0), (w, y), (x, y), (x, h), (0, h)]), -w / 2, -h / 2)


def c_shape(w, h):
    a, b = w * random.uniform(0.2, 0.5), h * random.uniform(0.15, 0.35)
    ring = [(0, 0), (w, 0), (w, b), (a, b), (a, h - b), (w, h - b), (w, h), (0, h)]
    return affinity.translate(Polygon(ring), -w / 2, -h / 2)


def framed(w, h, holes):
    """A rectangle with one or two holes; two holes may touch at a corner."""
    outer = rectangle(w, h)
    if holes == 1:
        hole = affinity.rotate(rectangle(w * 0.5, h * 0.5), random.uniform(0, 90), origin=(0, 0))
        hole = hole if outer.contains(hole) else rectangle(w * 0.5, h * 0.5)
        return outer.difference(hole)
    first = box(-w * 0.4, -h * 0.4, 0, 0)
    second = box(0, 0, w * 0.4, h * 0.4)
    return Polygon(outer.exterior, [first.exterior, second.exterior])


def size():
    return random.uniform(300, 4000)


def shape():
    """A polygon, or (centre, radius) for a circle, about the origin."""
    kind = random.randrange(9)
    if kind == 0:
        return Polygon(rectangle(size(), size()).exterior)
    if kind == 1:
        return l_shape(size(), size())
    if kind == 2:
        return c_shape(size(), size())
    if kind == 3:
        return framed(size(), size(), 1)
    if kind == 4:
        return framed(size(), size(), 2)
    if kind == 5:
        return MultiPoint([(random.gauss(0, 800), random.gauss(0, 800)) for _ in range(12)]).convex_hull
    if kind == 6:
        return (0.0, 0.0, random.uniform(50, 1500))
    return star(5, 12, size())


def placed(s, x, y, degrees):
    if isinstance(s, tuple):
        return (s[0] + x, s[1] + y, s[2])
    return affinity.translate(affinity.rotate(s, degrees, origin=(0, 0)), x, y)


def ring_of(ring):
    return [[float(x), float(y)] for x, y in list(ring.coords)[:-1]]


def exact(s):
    """What the file will hold, so that both sides work on the same numbers."""
    if isinstance(s, tuple):
        return s
    return Polygon(ring_of(s.exterior), [ring_of(r) for r in s.interiors])


def data(s):
    if isinstance(s, tuple):
        return {"circle": [float(v) for v in s]}
    return {"rings": [ring_of(s.exterior)] + [ring_of(r) for r in s.interiors]}


def many_corners(s, corners):
    """A polygon of the circle's own area."""
    if not isinstance(s, tuple):
        return s
    x, y, r = s
    step = 2 * math.pi / corners
    r *= math.sqrt(math.pi / (corners / 2 * math.sin(step)))
    turns = numpy.arange(corners) * step
    return Polygon(numpy.column_stack([x + r * numpy.cos(turns), y + r * numpy.sin(turns)]))


def core(s):
    return (Point(s[0], s[1]), s[2]) if isinstance(s, tuple) else (s, 0.0)


def distance(a, b):
    (p, r), (q, t) = core(a), core(b)
    return max(0.0, p.distance(q) - r - t)


def contained(a, b):
    """Whether b lies in the polygon a."""
    if isinstance(b, tuple):
        centre = Point(b[0], b[1])
        return a.contains(centre) and a.boundary.distance(centre) >= b[2]
    return a.covers(b)


def convex_parts(s):
    """Triangles: constrained Delaunay where the library has it."""
    if hasattr(shapely, "constrained_delaunay_triangles"):
        return list(shapely.constrained_delaunay_triangles(s).geoms)
    return [t for t in triangulate(s) if s.contains(t.representative_point())]


def shortest_move(a, b):
    """Distance from the origin to the boundary of the union of the sums of convex parts of a and of -b."""
    if isinstance(a, tuple) and isinstance(b, tuple):
        return max(0.0, a[2] + b[2] - math.hypot(a[0] - b[0], a[1] - b[1]))
    a, b = many_corners(a, SUM_CORNERS), many_corners(b, SUM_CORNERS)

    def parts(s):
        return [s] if s.convex_hull.area - s.area < 1e-9 * s.area else convex_parts(s)

    sums = []
    for p in parts(a):
        for q in parts(b):
            here = numpy.asarray(p.exterior.coords)
            there = numpy.asarray(q.exterior.coords)
            sums.append(MultiPoint((here[:, None, :] - there[None, :, :]).reshape(-1, 2)).convex_hull)
    region = unary_union(sums)
    origin = Point(0, 0)
    if not region.contains(origin):
        return 0.0
    return region.boundary.distance(origin)


def overlap(a, b):
    return many_corners(a, CIRCLE_CORNERS).intersection(many_corners(b, CIRCLE_CORNERS)).area


def main():
    pairs = []
    for i in range(160):
        a, b = shape(), shape()
        reach = [300, 1500, 4000, 9000][i % 4]
        at = (random.uniform(0, 12000), random.uniform(0, 8000))
        if i % 10 == 9:
            # Far from the origin.
            at = (at[0] + 4e5, at[1] - 3e5)
        a = placed(a, *at, random.choice([0, 90, random.uniform(0, 360)]))
        off = (random.uniform(-reach, reach), random.uniform(-reach, reach))
        b = placed(b, at[0] + off[0], at[1] + off[1], random.choice([0, 45, random.uniform(0, 360)]))
        if i % 16 == 5 and not isinstance(a, tuple):
            # A small one well inside, or in a hole.
            spot = a.representative_point()
            b = placed((0.0, 0.0, 20.0) if i % 32 == 5 else rectangle(30, 20), spot.x, spot.y, 33)
        if i % 16 == 13 and not isinstance(b, tuple) and not isinstance(a, tuple):
            # A shared corner.
            x, y = a.exterior.coords[1]
            u, v = b.exterior.coords[2]
            b = affinity.translate(b, x - u, y - v)
        a, b = exact(a), exact(b)
        area = overlap(a, b)
        move = shortest_move(a, b) if area > 1 else 0.0
        case = {"a": data(a), "b": data(b), "distance": distance(a, b), "area": area, "move": move}
        case["contained"] = None if isinstance(a, tuple) else bool(contained(a, b))
        pairs.append(case)
    out = {
        "library": f"shapely {shapely.__version__} / GEOS {shapely.geos_version_string}",
        "script": "tests/outside/pairs.py",
        "seed": SEED,
        "unit": "mm",
        "pairs": pairs,
    }
    path = pathlib.Path(__file__).with_name("pairs.json")
    path.write_text(json.dumps(out, separators=(",", ":")).replace('{"a"', '\n{"a"') + "\n")
    over = sum(p["area"] > 0 for p in pairs)
    print(f"{len(pairs)} pairs, {over} overlap, {sum(p['move'] > 0 for p in pairs)} moves, {path.stat().st_size} bytes")


main()
