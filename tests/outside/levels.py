#!/usr/bin/env python3
"""Levels between surveyed points, and planes through four wheel points, worked by independent libraries: scipy's linear
interpolation over a Delaunay triangulation (Qhull) and its least squares.

Writes levels.json beside this file. Points are scattered, so that no four lie on one circle: there every triangulation
is as good as another, and ours takes none of them. Places within 3 mm of the survey's edge are left out: ours counts
2 mm outside as on it.

    python3 tests/outside/levels.py
"""

import json
import pathlib

import numpy
import scipy
import shapely
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay
from shapely.geometry import MultiPoint, Point

SEED = 2718
CASES = 30

rng = numpy.random.default_rng(SEED)


def surface(case):
    count = int(rng.integers(4, 80))
    size = [200.0, 6000.0, 12000.0, 40000.0][case % 4]
    at = numpy.round(rng.uniform(0, size, (count, 2)) * (1.0, rng.uniform(0.2, 1.0)), 3)
    level = numpy.round(rng.normal(0, 6, count) + at[:, 0] * rng.uniform(-0.02, 0.02), 3)
    places = numpy.round(rng.uniform(-0.05 * size, 1.05 * size, (25, 2)), 3)
    joined = Delaunay(at)
    edge = MultiPoint(at).convex_hull.boundary
    places = numpy.array([place for place in places if edge.distance(Point(place)) > 3])
    inside = joined.find_simplex(places) >= 0
    levels = LinearNDInterpolator(joined, level)(places)
    keep = [
        {"at": place.tolist(), "level": None if not within else round(float(value), 9)}
        for place, within, value in zip(places, inside, levels)
    ]
    return {"points": [[*a.tolist(), float(z)] for a, z in zip(at, level)], "asked": keep}


def stance():
    track, base = rng.uniform(1300, 1800), rng.uniform(2200, 3500)
    turned, at = rng.uniform(-3.1, 3.1), rng.uniform(-9000, 9000, 2)
    ahead = numpy.array([numpy.cos(turned), numpy.sin(turned)])
    left = numpy.array([-ahead[1], ahead[0]])
    # Four feet, no trapezium: each is off by up to 20 mm.
    own = numpy.array([(0, track), (0, -track), (-2 * base, track), (-2 * base, -track)]) / 2 + rng.uniform(-20, 20, (4, 2))
    flat = at + own[:, :1] * ahead + own[:, 1:] * left
    z = rng.normal(0, 8, 4)
    design = numpy.column_stack([own, numpy.ones(4)])
    (ahead_slope, left_slope, _), *_ = scipy.linalg.lstsq(design, z)
    off = z - design @ scipy.linalg.lstsq(design, z)[0]
    return {
        "wheels": [[float(v) for v in (*p, h)] for p, h in zip(flat, z)],
        "ahead": ahead.tolist(),
        "pitch": float(-numpy.arctan(ahead_slope)),
        "roll": float(numpy.arctan(left_slope)),
        "spread": float(off.max() - off.min()),
    }


def main():
    surfaces = [surface(case) for case in range(CASES)]
    stances = [stance() for _ in range(CASES)]
    library = f"scipy {scipy.__version__}, numpy {numpy.__version__}, shapely {shapely.__version__}"
    table = {"library": library, "script": "tests/outside/levels.py", "seed": SEED, "surfaces": surfaces, "stances": stances}
    text = json.dumps(table, separators=(",", ":")).replace('{"points"', '\n{"points"').replace('{"wheels"', '\n{"wheels"')
    pathlib.Path(__file__).with_suffix(".json").write_text(text + "\n")
    print(len(text), "bytes", sum(q["level"] is not None for s in surfaces for q in s["asked"]), "inside")


main()
