#!/usr/bin/env python3
"""The share of a target seen past things, in space, worked by an independent geometry library (shapely, on GEOS).

Writes sight.json beside this file. Every face of every prism (walls, lid, floor) is cut in space at a plane just before
the sensor, at the target's plane and at the sides of the view, projected on the target as it is, and all of them are
united: no hull and no convex pieces. Round things stand as polygons of 4096 corners, as large in area as the circle;
for them the share is given for the radius itself and for one 0.01 mm larger. Each share is checked against 160,000 rays
before it is written.

    python3 tests/outside/sight.py
"""

import json
import math
import pathlib
import random

import numpy
import shapely
from shapely import affinity
from shapely.geometry import Polygon, box

SEED = 2718
CASES = 60
CIRCLE_CORNERS = 4096
# What comes nearer to the sensor's own plane than this is not projected, mm.
NEAR = 1e-3
# The stand-in for a circle may be this much too thick, mm.
THICK = 0.01
# Grid of the unions, mm.
GRID = 1e-7
RAYS = 400

random.seed(SEED)


def tenth(value):
    return round(value, 1)


def tidy(polygon):
    """Coordinates to a tenth of a millimetre, so that the table stays small and both sides read the same."""
    return [[[tenth(x), tenth(y)] for x, y in ring.coords[:-1]] for ring in [polygon.exterior, *polygon.interiors]]


def outline(kind):
    w, h = random.uniform(60, 900), random.uniform(60, 600)
    if kind == "box":
        shape = box(-w / 2, -h / 2, w / 2, h / 2)
    elif kind == "ell":
        shape = box(0, 0, w, h).difference(box(w * 0.35, h * 0.4, 2 * w, 2 * h))
    elif kind == "gate":
        shape = box(0, 0, w, h).difference(box(w * 0.2, -h, w * 0.8, h * 0.7))
    elif kind == "frame":
        shape = box(0, 0, w, h).difference(box(w * 0.2, h * 0.2, w * 0.8, h * 0.8))
    else:
        n = random.randint(5, 9)
        shape = Polygon(
            [
                (r * math.cos(2 * math.pi * i / n), r * math.sin(2 * math.pi * i / n))
                for i in range(n)
                for r in [random.uniform(0.3, 1) * 0.6 * w]
            ]
        )
    return affinity.rotate(shape, random.uniform(0, 360), origin=(0, 0))


def thing(sensor, centre, round_share):
    """Mostly in the view, somewhere between sensor and target; some beyond, behind or beside."""
    along = random.uniform(-0.3, 1.3) if random.random() < 0.3 else random.uniform(0.1, 0.95)
    x = sensor[0] + along * (centre[0] - sensor[0]) + random.uniform(-500, 500)
    y = sensor[1] + along * (centre[1] - sensor[1]) + random.uniform(-600, 600)
    kind = random.random()
    height = sensor[2] + along * (centre[2] - sensor[2])
    if kind < 0.35:  # overhead
        bottom = tenth(height + random.uniform(-150, 300))
        top = tenth(bottom + random.uniform(50, 900))
    elif kind < 0.7:  # under the view or into it
        bottom, top = 0.0, tenth(max(40, height + random.uniform(-300, 150)))
    else:
        bottom, top = 0.0, 2500.0
    if random.random() < round_share:
        return {"circle": [tenth(x), tenth(y), tenth(random.uniform(20, 300))], "bottom": bottom, "top": top}
    shape = outline(random.choice(["box", "box", "star", "ell", "gate", "frame"]))
    return {"rings": tidy(affinity.translate(shape, x, y)), "bottom": bottom, "top": top}


def plan(thing, more=0.0):
    if "rings" in thing:
        return Polygon(thing["rings"][0], thing["rings"][1:])
    x, y, r = thing["circle"]
    n = CIRCLE_CORNERS
    # As large in area as the circle.
    r = (r + more) * math.sqrt(2 * math.pi / n / math.sin(2 * math.pi / n))
    return Polygon([(x + r * math.cos(2 * math.pi * i / n), y + r * math.sin(2 * math.pi * i / n)) for i in range(n)])


class View:
    """Axes of the target: normal towards the sensor, left along its width, up along its height (ISO 8855 order)."""

    def __init__(self, case):
        cy, sy = math.cos(case["heading"]), math.sin(case["heading"])
        cp, sp = math.cos(case["pitch"]), math.sin(case["pitch"])
        self.normal = numpy.array([cy * cp, sy * cp, -sp])
        self.left = numpy.array([-sy, cy, 0.0])
        self.up = numpy.array([cy * sp, sy * sp, cp])
        self.sensor, self.centre = numpy.array(case["sensor"]), numpy.array(case["centre"])
        self.reach = (self.sensor - self.centre) @ self.normal
        off = self.sensor - self.centre
        self.foot = (off @ self.left, off @ self.up)
        w, h = case["width"] / 2, case["height"] / 2
        self.half = (w, h)
        self.target = box(-w, -h, w, h)
        u, v, r = *self.foot, self.reach
        planes = [((0, 0, 1), NEAR), ((0, 0, -1), -r), ((-r, 0, w - u), 0), ((r, 0, w + u), 0), ((0, -r, h - v), 0), ((0, r, h + v), 0)]
        self.planes = [(numpy.array(normal, float), offset) for normal, offset in planes]

    def own(self, points):
        off = numpy.asarray(points, float) - self.sensor
        return numpy.stack([off @ self.left, off @ self.up, -(off @ self.normal)], axis=-1)


def cut(ring, normal, offset):
    """The part of a plane ring where normal . p >= offset."""
    kept = []
    for p, q in zip(ring, numpy.roll(ring, -1, axis=0)):
        a, b = p @ normal - offset, q @ normal - offset
        if a >= 0:
            kept.append(p)
        if (a > 0 > b) or (a < 0 < b):
            kept.append(p + (q - p) * (a / (a - b)))
    return numpy.array(kept)


def project(view, ring):
    """Cut in space by the six planes about the view, so that nothing is seen far off; then projected."""
    ring = view.own(ring)
    for normal, offset in view.planes:
        ring = cut(ring, normal, offset)
        if len(ring) < 3:
            return None
    if ring[:, 2].min() >= view.reach - 1e-9:
        return None
    seen = numpy.array(view.foot) + ring[:, :2] * (view.reach / ring[:, 2])[:, None]
    shape = Polygon(seen)
    return shape if shape.area > 1e-9 else None


def surfaces(shape, bottom, top):
    for ring in [shape.exterior, *shape.interiors]:
        corners = list(ring.coords)
        for (ax, ay), (bx, by) in zip(corners, corners[1:]):
            yield [(ax, ay, bottom), (bx, by, bottom), (bx, by, top), (ax, ay, top)]
    # A lid of many corners as it is (convex), others in triangles.
    lids = [shape] if len(shape.exterior.coords) > 1000 else shapely.constrained_delaunay_triangles(shape).geoms
    for lid in lids:
        for height in (bottom, top):
            yield [(x, y, height) for x, y in list(lid.exterior.coords)[:-1]]


def shadow(view, thing, more=0.0):
    parts = [project(view, face) for face in surfaces(plan(thing, more), thing["bottom"], thing["top"])]
    parts = [shapely.make_valid(part) for part in parts if part is not None]
    return united(parts)


def united(parts):
    """On a grid: without one, GEOS was seen to lose parts of unions of faces that share edges, up to a quarter."""
    return shapely.union_all(parts, grid_size=GRID) if parts else Polygon()


def rays_hidden(view, things):
    """Which of a grid of rays something stands across: by the ray's own parameter, no projection."""
    n = RAYS
    steps = (numpy.arange(n) + 0.5) / n * 2 - 1
    u, v = (grid.ravel() for grid in numpy.meshgrid(steps * view.half[0], steps * view.half[1]))
    ends = view.centre + u[:, None] * view.left + v[:, None] * view.up
    way = ends - view.sensor
    hidden = numpy.zeros(len(u), bool)
    with numpy.errstate(divide="ignore", invalid="ignore"):
        for thing in things:
            low = (thing["bottom"] - view.sensor[2]) / way[:, 2]
            high = (thing["top"] - view.sensor[2]) / way[:, 2]
            first, last = numpy.minimum(low, high).clip(0, 1), numpy.maximum(low, high).clip(0, 1)
            shape = plan(thing)
            if "circle" in thing:
                x, y, r = thing["circle"]
                off = view.sensor[:2] - numpy.array([x, y])
                a = (way[:, :2] ** 2).sum(1)
                b, c = way[:, :2] @ off, off @ off - r * r
                root = numpy.sqrt(b * b - a * c)
                hidden |= (numpy.maximum((-b - root) / a, first) < numpy.minimum((-b + root) / a, last)) & (b * b > a * c)
                continue
            # Inside where the ray comes to the thing's heights, or across an edge while it has them.
            at = view.sensor[:2] + way[:, :2] * first[:, None]
            hidden |= shapely.contains_xy(shape, at[:, 0], at[:, 1]) & (first < last)
            for ring in [shape.exterior, *shape.interiors]:
                corners = numpy.array(ring.coords)
                for p, q in zip(corners, corners[1:]):
                    along, off = q - p, p - view.sensor[:2]
                    turned = way[:, 0] * along[1] - way[:, 1] * along[0]
                    t = (off[0] * along[1] - off[1] * along[0]) / turned
                    s = (off[0] * way[:, 1] - off[1] * way[:, 0]) / turned
                    hidden |= (s > 0) & (s < 1) & (t > first) & (t < last)
    return hidden.mean()


def make():
    sensor = [tenth(random.uniform(-200, 200)), tenth(random.uniform(-400, 400)), tenth(random.uniform(350, 1500))]
    reach = random.uniform(1200, 6000)
    kind = random.random()
    if kind < 0.2:  # a mat on the floor
        centre = [tenth(sensor[0] + random.uniform(600, 2500)), tenth(random.uniform(-600, 600)), 0.0]
        heading, pitch = random.uniform(-math.pi, math.pi), -math.pi / 2
    else:
        centre = [tenth(sensor[0] + reach), tenth(random.uniform(-900, 900)), tenth(random.uniform(500, 1500))]
        towards = math.atan2(sensor[1] - centre[1], sensor[0] - centre[0])
        heading, pitch = towards + random.uniform(-0.6, 0.6), random.choice([0.0, random.uniform(-0.5, 0.5)])
    round_share = random.choice([0.0, 0.4])
    case = {
        "sensor": sensor,
        "centre": centre,
        "heading": round(heading, 6),
        "pitch": pitch if kind < 0.2 else round(pitch, 6),
        "width": tenth(random.uniform(200, 2400)),
        "height": tenth(random.uniform(150, 1600)),
        "things": [thing(sensor, centre, round_share) for _ in range(random.randint(1, 9))],
    }
    view = View(case)
    here = shapely.Point(sensor[:2])
    near = any(plan(t).distance(here) < 5 and t["bottom"] - 5 < sensor[2] < t["top"] + 5 for t in case["things"])
    return None if near or view.reach < 50 else (case, view)


def main():
    cases = []
    while len(cases) < CASES:
        made = make()
        if made is None:
            continue
        case, view = made
        shadows = [shadow(view, t) for t in case["things"]]
        whole = view.target.area
        fine = any("circle" in t for t in case["things"])
        share = 1 - united(shadows).area / whole
        if not 0.02 < share < 0.995 and random.random() < 0.9:
            continue
        by_rays = 1 - rays_hidden(view, case["things"])
        assert abs(share - by_rays) < 4e-3, (share, by_rays, case)
        case["share"] = round(share, 12)
        case["alone"] = [round(s.area / whole, 12) for s in shadows]
        if fine:
            thick = [shadow(view, t, THICK) for t in case["things"]]
            case["thick"] = round(1 - united(thick).area / whole, 12)
            assert case["thick"] <= case["share"], case
        cases.append(case)
    library = f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}, numpy {numpy.__version__}"
    table = {"library": library, "script": "tests/outside/sight.py", "seed": SEED, "cases": cases}
    text = json.dumps(table, separators=(",", ":")).replace('{"sensor"', '\n{"sensor"')
    pathlib.Path(__file__).with_suffix(".json").write_text(text + "\n")
    print(len(cases), "cases,", len(text), "bytes; round:", sum("thick" in c for c in cases))


main()
