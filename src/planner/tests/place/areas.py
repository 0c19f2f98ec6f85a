#!/usr/bin/env python3
"""Where an awkward set-up can stand in awkward rooms, worked by an independent geometry library (shapely, on GEOS).

Writes areas.txt beside this file: bays with their rooms, things and set-ups, and for each of 72 headings, 5 degrees apart, the area of
the places of the set-up's origin in which all of it lies in the room and none of it meets a thing of its heights. What is
not allowed is the union of the sums of triangles of what stays (things, and all that is no room) and triangles of what moves,
reflected.

    python3 src/planner/tests/place/areas.py
"""

import math
import pathlib
import random
import time

import numpy
import shapely
from shapely import affinity
from shapely.geometry import MultiPoint, Point, Polygon, box
from shapely.ops import unary_union

SEED = 20261128
BAYS = 24
HEADINGS = 72
# A circle's stand-in here misses its radius by less than 2e-5 of it.
ROUND = 512

random.seed(SEED)


def within(low, high):
    return random.uniform(low, high)


def triangles(shape):
    if shape.convex_hull.area - shape.area < 1e-9 * shape.area:
        return [shape]
    return [t for t in shapely.constrained_delaunay_triangles(shape).geoms if t.area > 1e-9]


def sums(stays, moves):
    """What places of the mover's origin make it meet what stays."""
    for p in triangles(stays):
        here = numpy.asarray(p.exterior.coords)[:-1]
        for there in moves:
            yield MultiPoint((here[:, None, :] - there[None, :, :]).reshape(-1, 2)).convex_hull


def room(nth):
    length, width = within(9000, 15000), within(5500, 11000)
    whole = box(0, 0, length, width)
    if nth % 3 == 1:
        # An inner corner.
        return whole.difference(box(length * within(0.5, 0.8), width * within(0.6, 0.8), length + 1, width + 1))
    if nth % 3 == 2:
        # A pier from the wall, and a slanting wall.
        x = length * within(0.3, 0.7)
        slant = Polygon([(0, width * 0.6), (length * 0.2, width), (-1, width + 1)])
        return whole.difference(box(x, -1, x + 300, within(300, 900))).difference(slant)
    return whole


def heights():
    return random.choice([(0, 900), (0, 3000), (300, 800), (1600, 2600), (0, 120)])


def thing(length, width):
    at = (within(0, length), within(0, width))
    kind = random.randrange(4)
    if kind == 0:
        return ("round", (*at, within(60, 400)))
    if kind == 1:
        ring = [(-400, -300), (400, -300), (400, 0), (0, 0), (0, 300), (-400, 300)]
    elif kind == 2:
        ring = [(-350, -100), (300, -200), (250, 150), (-100, 260)]
    else:
        w, h = within(100, 900), within(80, 500)
        ring = [(-w, -h), (w, -h), (w, h), (-w, h)]
    turned = affinity.rotate(Polygon(ring), within(0, 360), origin=(0, 0))
    return ("ring", affinity.translate(turned, *at))


def set_up(nth):
    """Parts with their heights: solids of a car, and a zone, the first without any."""
    wide = within(800, 950)
    body = Polygon([(-3300, -wide), (700, -wide), (900, -wide * 0.6), (900, wide * 0.6), (700, wide), (-3300, wide)])
    roof = Polygon([(-2800, -wide * 0.7), (-600, -wide * 0.7), (-600, wide * 0.7), (-2800, wide * 0.7)])
    parts = [("car", 180, 1000, body), ("car", 1000, 1550, roof)]
    if nth % 4:
        far = within(2500, 4200)
        zone = Polygon([(950, -300), (far, -within(700, 1300)), (far, within(700, 1300)), (950, 300)])
        parts.append(("zone", 0, within(700, 1500), zone))
    if nth % 4 == 3:
        # A dent.
        ring = [(-3600, -1100), (-3400, -1100), (-3400, 800), (-2900, 800), (-2900, 1100), (-3600, 1100)]
        parts.append(("zone", 200, 1200, Polygon(ring)))
    return parts


def shape(kind, own):
    if kind == "ring":
        return own
    x, y, r = own
    step = 2 * math.pi / ROUND
    turns = numpy.arange(ROUND) * step
    return Polygon(numpy.column_stack([x + r * numpy.cos(turns), y + r * numpy.sin(turns)]))


def turned(ring, heading):
    c, s = math.cos(heading), math.sin(heading)
    points = numpy.asarray(ring)
    return points @ numpy.array([[c, s], [-s, c]])


def area(outside, frame, things, parts, heading):
    taken = []
    for _, low, high, own in parts:
        moves = [turned(numpy.asarray(t.exterior.coords)[:-1], heading) for t in triangles(own)]
        taken.extend(sums(outside, moves))
        for bottom, top, other in things:
            if min(top, high) > max(bottom, low):
                taken.extend(sums(other, moves))
    return frame.difference(unary_union(taken)).area


def figures(ring):
    return " ".join(f"{x!r} {y!r}" for x, y in [tuple(map(float, p)) for p in list(ring.coords)[:-1]])


def main():
    lines = [f"# shapely {shapely.__version__} / GEOS {shapely.geos_version_string}, seed {SEED}, mm and mm2; made by areas.py"]
    spent, asked = 0.0, 0
    for nth in range(BAYS):
        own = room(nth)
        bounds = own.bounds
        count = [0, 3, 8, 15][nth % 4]
        things = [(*heights(), *thing(bounds[2], bounds[3])) for _ in range(count)]
        parts = set_up(nth)
        lines.append("bay")
        lines.append("room " + figures(shapely.geometry.polygon.orient(own).exterior))
        for kind, low, high, ring in parts:
            lines.append(f"{kind} {low!r} {high!r} " + figures(ring.exterior))
        for low, high, kind, other in things:
            told = figures(other.exterior) if kind == "ring" else " ".join(repr(float(v)) for v in other)
            lines.append(f"{kind} {low!r} {high!r} {told}")
        outside = box(-9e3, -9e3, bounds[2] + 9e3, bounds[3] + 9e3).difference(own)
        shapes = [(low, high, shape(kind, other)) for low, high, kind, other in things]
        start = time.perf_counter()
        frame = box(*bounds)
        areas = [area(outside, frame, shapes, parts, 2 * math.pi * i / HEADINGS) for i in range(HEADINGS)]
        spent, asked = spent + time.perf_counter() - start, asked + HEADINGS
        lines.append("areas " + " ".join(f"{own:.3f}" for own in areas))
    path = pathlib.Path(__file__).with_name("areas.txt")
    path.write_text("\n".join(lines) + "\n")
    print(f"{asked} areas, {path.stat().st_size} bytes, {1e3 * spent / asked:.2f} ms each")


main()
