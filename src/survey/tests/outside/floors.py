#!/usr/bin/env python3
"""Floors and cars with what they come to, by independent libraries: uncertainties 3.2 (BSD; automatic differentiation) for how a car
stands, the height to set, ride heights and both centrelines; numpy's least squares with its covariance for fall; scipy's convex hull
(both BSD) for the straightedge.

Writes floors.json beside this file.

    python3 src/survey/tests/outside/floors.py
"""

import json
import math
import pathlib

import numpy
from scipy.spatial import ConvexHull
from uncertainties import ufloat, umath

SEED = 18_202
CASES = 24

dice = numpy.random.default_rng(SEED)


def figure(x):
    return [float(getattr(x, "nominal_value", x)), float(getattr(x, "std_dev", 0.0))]


def plane(points):
    """Normal equations of z = a + b x + c y, solved by Cramer's rule, so that uncertain levels go through."""
    n = len(points)
    mx, my = sum(p[0] for p in points) / n, sum(p[1] for p in points) / n
    mz = sum(p[2] for p in points) / n
    xx = sum((p[0] - mx) ** 2 for p in points)
    yy = sum((p[1] - my) ** 2 for p in points)
    xy = sum((p[0] - mx) * (p[1] - my) for p in points)
    xz = sum((p[0] - mx) * (p[2] - mz) for p in points)
    yz = sum((p[1] - my) * (p[2] - mz) for p in points)
    det = xx * yy - xy * xy
    b, c = (xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det
    return lambda x, y: mz + b * (x - mx) + c * (y - my), b, c


def car():
    turn = dice.uniform(-3, 3)
    base, front, rear = dice.uniform(2400, 3000), dice.uniform(1450, 1650), dice.uniform(1450, 1650)
    local = [(0, front / 2), (0, -front / 2), (-base, rear / 2), (-base, -rear / 2)]
    shift = dice.uniform(-5000, 5000, 2)
    place = lambda x, y: (
        float(shift[0] + x * math.cos(turn) - y * math.sin(turn)),
        float(shift[1] + x * math.sin(turn) + y * math.cos(turn)),
    )
    return turn, base, [place(*p) for p in local], place


def standing():
    turn, base, wheels, place = car()
    u = float(dice.uniform(0.2, 2))
    levels = dice.uniform(-15, 15, 4).round(1).tolist()
    uncertain = [ufloat(z, u) for z in levels]
    points = [(x, y, z) for (x, y), z in zip(wheels, uncertain)]
    at, b, c = plane(points)
    ahead = (math.cos(turn), math.sin(turn))
    off = [z - at(x, y) for x, y, z in points]
    pitch = -umath.atan(b * ahead[0] + c * ahead[1])
    roll = umath.atan(-b * ahead[1] + c * ahead[0])
    axle = lambda l, r: umath.atan((l[2] - r[2]) / math.hypot(l[0] - r[0], l[1] - r[1]))
    twist = axle(points[0], points[1]) - axle(points[2], points[3])
    sensor, target = place(800, 100), place(800 + dice.uniform(1500, 6000), dice.uniform(-800, 800))
    high, stand = ufloat(round(dice.uniform(300, 1300), 1), 1.5), ufloat(round(dice.uniform(-20, 20), 1), 0.7)
    more = float(dice.uniform(-50, 50))
    heights = [at(*where) + high + more - stand for where in (sensor, target)]
    return {
        "ahead": turn,
        "wheels": wheels,
        "levels": levels,
        "u": u,
        "off": [figure(x) for x in off],
        "pitch": figure(pitch),
        "roll": figure(roll),
        "twist": figure(twist),
        "sensor": sensor,
        "target": target,
        "high": figure(high),
        "stand": figure(stand),
        "more": more,
        "heights": [figure(x) for x in heights],
    }


def fall():
    n = int(dice.integers(5, 30))
    xy = dice.uniform(-6000, 6000, (n, 2)).round(0)
    z = (xy @ dice.uniform(-0.01, 0.01, 2) + dice.normal(0, 2, n)).round(1)
    a = numpy.column_stack([numpy.ones(n), xy])
    found, *_ = numpy.linalg.lstsq(a, z, rcond=None)
    covariance = numpy.linalg.inv(a.T @ a)[1:, 1:]
    slope = found[1:]
    way = slope / numpy.hypot(*slope)
    return {
        "points": [[*p, float(level)] for p, level in zip(xy.tolist(), z)],
        "share": [float(numpy.hypot(*slope)), float(math.sqrt(way @ covariance @ way))],
        "towards": math.atan2(-slope[1], -slope[0]),
    }


def straightedge():
    n = int(dice.integers(5, 25))
    x = numpy.cumsum(dice.uniform(100, 500, n)).round(0)
    z = dice.normal(0, 3, n).round(1)
    hull = ConvexHull(numpy.column_stack([x, z]))
    # Edges whose outward normal points up.
    rests = sorted({int(i) for edge, (_, up, _) in zip(hull.simplices, hull.equations) if up > 1e-12 for i in edge})
    gap = numpy.interp(x, x[rests], z[rests]) - z
    return {"profile": [[float(a), float(b)] for a, b in zip(x, z)], "gap": float(gap.max()), "at": int(gap.argmax())}


def middle(points):
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
    front, rear = ((ax + bx) / 2, (ay + by) / 2), ((cx + dx) / 2, (cy + dy) / 2)
    return front, rear


def body():
    turn, base, wheels, place = car()
    uw, ub = float(dice.uniform(0.5, 2)), float(dice.uniform(0.5, 2))
    spots = [place(x + dice.normal(0, 3), y + dice.normal(0, 3)) for x, y in ((300, 600), (300, -600), (-2000, 500), (-2000, -500))]
    unsure = lambda points, u: [(ufloat(x, u), ufloat(y, u)) for x, y in points]
    (f, r), (g, s) = middle(unsure(wheels, uw)), middle(unsure(spots, ub))
    ahead = 3600.0
    one, other = (f[0] - r[0], f[1] - r[1]), (g[0] - s[0], g[1] - s[1])
    long = umath.sqrt(one[0] ** 2 + one[1] ** 2)
    way = (one[0] / long, one[1] / long)
    at = (f[0] + way[0] * ahead, f[1] + way[1] * ahead)
    turned = umath.atan((way[0] * other[1] - way[1] * other[0]) / (way[0] * other[0] + way[1] * other[1]))
    along = ((at[0] - s[0]) * way[0] + (at[1] - s[1]) * way[1]) / (other[0] * way[0] + other[1] * way[1])
    gone = (s[0] + other[0] * along - at[0], s[1] + other[1] * along - at[1])
    aside = way[0] * gone[1] - way[1] * gone[0]
    heights, nominal = dice.uniform(600, 720, 4).round(0).tolist(), dice.uniform(650, 670, 4).round(0).tolist()
    a, b, c, d = [ufloat(h, uw) - n for h, n in zip(heights, nominal)]
    return {
        "wheels": wheels,
        "spots": spots,
        "u": [uw, ub],
        "turned": figure(turned),
        "aside": figure(aside),
        "heights": heights,
        "nominal": nominal,
        "sizes": [base, 1550.0],
        "higher": figure((a + b + c + d) / 4),
        "pitch": figure(umath.atan((c + d - a - b) / 2 / base)),
        "roll": figure(umath.atan((a + c - b - d) / 2 / 1550.0)),
    }


cases = [{"standing": standing(), "fall": fall(), "straightedge": straightedge(), "body": body()} for _ in range(CASES)]
text = "[\n" + ",\n".join(json.dumps(case, separators=(",", ":")) for case in cases) + "\n]\n"
pathlib.Path(__file__).with_name("floors.json").write_text(text)
