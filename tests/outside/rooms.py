#!/usr/bin/env python3
"""What an eye sees of rooms with things in them, worked by an independent geometry library (shapely, on GEOS).

Writes rooms.json beside this file. The region is the room less the shadow of every edge, each a polygon from the edge
out to beyond the room: no sweep. Each area is checked against 100,000 rays before it is written.

    python3 tests/outside/rooms.py
"""

import json
import math
import pathlib
import random

import numpy
import shapely
from shapely import affinity
from shapely.geometry import Point, Polygon, box

SEED = 3141
CASES = 40
RAYS = 100_000

random.seed(SEED)


def tidy(polygon, digits):
    return [
        [[round(x, digits), round(y, digits)] for x, y in ring.coords[:-1]]
        for ring in [polygon.exterior, *polygon.interiors]
    ]


def star(low, high, reach, dent):
    n = random.randint(low, high)
    turns = sorted(random.random() for _ in range(n))
    return Polygon(
        [
            (r * math.cos(2 * math.pi * t), r * math.sin(2 * math.pi * t))
            for t in turns
            for r in [random.uniform(dent, 1) * reach]
        ]
    )


def room():
    kind = random.random()
    if kind < 0.3:
        return box(-6000, -4000, 6000, 4000)
    if kind < 0.5:
        return box(-6000, -4000, 6000, 4000).difference(box(1000, 500, 9000, 9000))
    if kind < 0.7:  # columns as holes
        shape = box(-6000, -4000, 6000, 4000)
        for x in range(-4500, 4501, 3000):
            shape = shape.difference(affinity.rotate(box(x - 200, -700, x + 200, -300), random.uniform(0, 90)))
        return shape
    return star(8, 40, 7000, 0.4)


def thing(grid):
    if grid:  # flush, touching, in line
        x, y = random.randrange(-6000, 6001, 500), random.randrange(-4000, 4001, 500)
        return box(x, y, x + random.choice([500, 1000]), y + random.choice([500, 1500]))
    shape = star(3, 9, random.uniform(200, 1500), 0.3)
    return affinity.translate(shape, random.uniform(-6500, 6500), random.uniform(-4500, 4500))


def edges(shapes):
    for shape in shapes:
        for ring in [shape.exterior, *shape.interiors]:
            corners = list(ring.coords)
            yield from zip(corners, corners[1:])


def behind(eye, a, b, far):
    """Everything behind an edge, out to a polygon well beyond `far`."""
    first = math.atan2(a[1] - eye[1], a[0] - eye[0])
    turn = math.atan2(b[1] - eye[1], b[0] - eye[0]) - first
    turn = math.remainder(turn, 2 * math.pi)
    if abs(turn) < 1e-12:
        return None
    steps = 8
    rim = [
        (eye[0] + far * math.cos(first + turn * i / steps), eye[1] + far * math.sin(first + turn * i / steps))
        for i in range(1, steps)
    ]
    # The sides exactly through the corners.
    out = [(eye[0] + (p[0] - eye[0]) * k, eye[1] + (p[1] - eye[1]) * k) for p in (a, b) for k in [far / math.dist(eye, p)]]
    return Polygon([a, out[0], *rim, out[1], b])


def by_rays(eye, walls):
    turns = (numpy.arange(RAYS) + 0.5) * (2 * math.pi / RAYS)
    wx, wy = numpy.cos(turns), numpy.sin(turns)
    reach = numpy.full(RAYS, numpy.inf)
    with numpy.errstate(divide="ignore", invalid="ignore"):
        for (ax, ay), (bx, by) in walls:
            ex, ey, ox, oy = bx - ax, by - ay, ax - eye[0], ay - eye[1]
            turned = wx * ey - wy * ex
            t, s = (ox * ey - oy * ex) / turned, (ox * wy - oy * wx) / turned
            reach = numpy.where((s >= 0) & (s <= 1) & (t > 0) & (t < reach), t, reach)
    return 0.5 * (reach**2).sum() * (2 * math.pi / RAYS)


def main():
    cases = []
    while len(cases) < CASES:
        grid = random.random() < 0.4
        rings = tidy(room(), 1)
        hall = Polygon(rings[0], rings[1:])
        parts = [tidy(thing(grid), 1) for _ in range(random.randint(0, 10))]
        things = [Polygon(p[0], p[1:]) for p in parts]
        eye = (random.randrange(-5900, 5901, 100), random.randrange(-3900, 3901, 100))
        eye = (float(eye[0]), float(eye[1])) if grid else (eye[0] + round(random.random(), 2), float(eye[1]))
        shapes = [hall, *things]
        if not all(s.is_valid for s in shapes):
            continue
        free = hall.difference(shapely.union_all(things)) if things else hall
        if not free.contains(Point(eye)) or free.boundary.distance(Point(eye)) < 20:
            continue
        walls = list(edges(shapes))
        shadows = [behind(eye, a, b, 40_000) for a, b in walls]
        shadows = [shapely.make_valid(s) for s in shadows if s is not None]
        sees = Point(eye).buffer(39_000).difference(shapely.union_all(shadows))
        area = sees.area
        rough = by_rays(eye, walls)
        assert abs(area - rough) < 2e-3 * area, (area, rough)
        cases.append({"room": rings, "things": parts, "eye": eye, "area": round(area, 4)})
    library = f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}, numpy {numpy.__version__}"
    table = {"library": library, "script": "tests/outside/rooms.py", "seed": SEED, "cases": cases}
    text = json.dumps(table, separators=(",", ":")).replace('{"room"', '\n{"room"')
    pathlib.Path(__file__).with_suffix(".json").write_text(text + "\n")
    print(len(cases), "rooms,", len(text), "bytes")


main()
