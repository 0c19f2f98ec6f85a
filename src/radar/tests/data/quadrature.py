#!/usr/bin/env python3
"""Echoes at bay distances by brute force: the monostatic physical-optics integral with exact path lengths, summed over each surface by
Gauss-Legendre panels; corner reflectors by rays that are bounced off their three faces one by one, the last face radiating back; the
bearing of a wave behind a straight edge from the Kirchhoff integral over the open half of its plane. numpy 2.4.6, scipy 1.17.1 (both
BSD) for the nodes and the Fresnel integrals. Nothing here is an asymptotic formula.

Writes quadrature.json beside this file (some minutes).

    OMP_NUM_THREADS=1 python3 src/radar/tests/data/quadrature.py
"""

import json
import math
import pathlib

import numpy
import scipy.special

SEED = 526
LIGHT = 299_792_458.0
dice = numpy.random.default_rng(SEED)
NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(16)


def panels(start, end, turns):
    """Nodes and weights over [start, end], 16 to each two turns of the phase."""
    count = max(2, math.ceil(turns / 2))
    edges = numpy.linspace(start, end, count + 1)
    half = numpy.diff(edges) / 2
    middle = (edges[1:] + edges[:-1]) / 2
    return (middle[:, None] + half[:, None] * NODES).ravel(), (half[:, None] * WEIGHTS).ravel()


def face(w, h, p, q, d, wave):
    """Sensor over (p, q) from the middle, d in front: echo area at the distance of the nearest point."""
    k = 2 * math.pi / wave
    turns = lambda size, foot: 2 / wave * sum(
        math.hypot(d, x) - d for x in ((size / 2 - foot), (size / 2 + foot))
    )
    x, wx = panels(-w / 2, w / 2, turns(w, p))
    y, wy = panels(-h / 2, h / 2, turns(h, q))
    total = 0j
    for start in range(0, len(x), 400):
        part = slice(start, start + 400)
        r2 = (x[part, None] - p) ** 2 + (y[None, :] - q) ** 2 + d * d
        r = numpy.sqrt(r2)
        total += wx[part] @ (d / (r2 * r) * numpy.exp(-2j * k * r)) @ wy
    near = math.sqrt(
        d * d + max(0, abs(p) - w / 2) ** 2 + max(0, abs(q) - h / 2) ** 2
    )
    return 4 * math.pi / wave**2 * near**4 * abs(total) ** 2


def cylinder(a, h, far, z, wave):
    """Sensor `far` from the axis, z over the middle: the side alone, lit half."""
    k = 2 * math.pi / wave
    lit = math.acos(a / far)
    u, wu = panels(-lit, lit, 4 / wave * (math.sqrt(far**2 - a * a) - (far - a)) + 4)
    low, high = -h / 2 - z, h / 2 - z
    d = far - a
    v, wv = panels(low, high, 2 / wave * sum(math.hypot(d, e) - d for e in (low, high)) + 4)
    total = 0j
    for start in range(0, len(u), 200):
        part = slice(start, start + 200)
        flat2 = far**2 + a * a - 2 * far * a * numpy.cos(u[part])
        r = numpy.sqrt(flat2[:, None] + v[None, :] ** 2)
        facing = far * numpy.cos(u[part]) - a
        total += (wu[part] * facing * a) @ (numpy.exp(-2j * k * r) / r**3) @ wv
    near = math.hypot(d, max(0, abs(z) - h / 2))
    return 4 * math.pi / wave**2 * near**4 * abs(total) ** 2


def reflector(a, square, out, sensor, wave, fine=1600):
    """Rays from the sensor bounced off three faces; out[i] is how far the angle at edge i is over 90 degrees, radians."""
    k = 2 * math.pi / wave
    e = numpy.sin(out)
    ties = numpy.array([[1, e[2], e[1]], [e[2], 1, e[0]], [e[1], e[0], 1]])
    normals = numpy.linalg.cholesky(ties)
    edges = [numpy.cross(normals[(i + 1) % 3], normals[(i + 2) % 3]) for i in range(3)]
    edges = [a * edge / numpy.linalg.norm(edge) for edge in edges]
    far = numpy.linalg.norm(sensor)
    axis = sensor / far
    side = numpy.cross(axis, [0.3, -0.5, 0.9])
    side /= numpy.linalg.norm(side)
    other = numpy.cross(axis, side)
    reach = 1.3 * a * far / (far - 1.8 * a)
    g = (numpy.arange(fine) + 0.5) / fine * 2 * reach - reach
    step = 2 * reach / fine
    total = 0j
    for row in numpy.array_split(g, 16):
        x, y = numpy.meshgrid(row, g)
        x, y = x.ravel(), y.ravel()
        way = x[:, None] * side + y[:, None] * other - sensor
        size = numpy.linalg.norm(way, axis=1)
        way /= size[:, None]
        solid = far / size**3 * step * step
        at = numpy.tile(sensor, (len(x), 1)).astype(float)
        length = numpy.zeros(len(x))
        seen = numpy.zeros((len(x), 3), bool)
        alive = numpy.ones(len(x), bool)
        for _ in range(3):
            best = numpy.full(len(x), numpy.inf)
            which = numpy.full(len(x), -1)
            for i in range(3):
                towards = way @ normals[i]
                with numpy.errstate(divide="ignore", invalid="ignore"):
                    t = -(at @ normals[i]) / towards
                hit = at + numpy.where(numpy.isfinite(t), t, 0)[:, None] * way
                b, c = edges[(i + 1) % 3], edges[(i + 2) % 3]
                gram = numpy.linalg.inv([[b @ b, b @ c], [b @ c, c @ c]])
                share = numpy.stack([hit @ b, hit @ c], 1) @ gram
                inside = (share >= 0).all(1) & ((share <= 1).all(1) if square else (share.sum(1) <= 1))
                good = (t > 1e-9) & inside & (t < best) & (towards < 0)
                best[good], which[good] = t[good], i
            alive &= which >= 0
            keep = numpy.flatnonzero(alive)
            at[keep] += best[keep, None] * way[keep]
            length[keep] += best[keep]
            seen[keep, which[keep]] = True
            n = normals[which[keep]]
            way[keep] -= 2 * (way[keep] * n).sum(1)[:, None] * n
        good = alive & seen.all(1)
        back = numpy.linalg.norm(at[good] - sensor, axis=1)
        total += (length[good] / back * solid[good] * numpy.exp(-1j * k * (length[good] + back - 2 * far))).sum()
    return 4 * math.pi / wave**2 * far**4 * abs(total) ** 2


def bearing(h, d1, d2, wide, wave):
    """Behind an edge h over the line to a source d2 beyond it: mean direction of the wave's angular spectrum over an aperture `wide`,
    radians, positive away from what is blocked; and the direction of the strongest sum of the aperture's field."""
    k = 2 * math.pi / wave
    top = 1.2
    y, wy = panels(h, top, (math.hypot(d1, top) + math.hypot(d2, top) - d1 - d2) / wave * 1.3 + 10)
    begin = 0.35
    fade = numpy.where(y < begin, 1.0, 0.5 * (1 + numpy.cos(math.pi * (y - begin) / (top - begin))))
    x, wx = panels(-wide / 2, wide / 2, 12)
    step = 1e-6

    def field(x):
        path = numpy.hypot(d2, y)[None, :] + numpy.hypot(d1, y[None, :] - x[:, None])
        wanted = numpy.exp(-1j * k * (path - numpy.hypot(d1 + d2, x)[:, None]))
        return (wanted * (wy * fade)[None, :]).sum(1)

    u = field(x)
    slope = (field(x + step) - field(x - step)) / (2 * step)
    # A wave that comes from above (+) arrives earlier at greater x: phase grows with x.
    mean = (wx * (u.conj() * slope).imag).sum() / (wx * abs(u) ** 2).sum() / k
    angles = numpy.linspace(-0.06, 0.06, 4001)
    beam = abs((wx * u)[None, :] @ numpy.exp(-1j * k * numpy.outer(angles, x)).T).ravel()
    return mean, float(angles[beam.argmax()])


def fresnel(x):
    s, c = scipy.special.fresnel(x)
    return float(c), float(s)


def product(w, h, p, q, d, wave):
    """The product of Fresnel integrals in plane coordinates, echo area at the distance d."""
    total = math.pi * d * d / 4
    for size, foot in ((w, p), (h, q)):
        ends = [fresnel(2 * (end - foot) / math.sqrt(wave * d)) for end in (-size / 2, size / 2)]
        total *= (ends[1][0] - ends[0][0]) ** 2 + (ends[1][1] - ends[0][1]) ** 2
    return total


def main():
    waves = [LIGHT / f for f in (76.5e9, 77e9, 79e9, 24.125e9)]
    out = {"faces": [], "cylinders": [], "reflectors": [], "bearings": [], "fresnel": []}
    for nth in range(48):
        w, h = dice.uniform(0.1, 1.8), dice.uniform(0.1, 1.8)
        far = dice.uniform(0.5, 8)
        limit = (4, 15, 40, 78)[nth % 4]
        turn, tip = numpy.radians(dice.uniform(-limit, limit, 2) * (1, 0.4))
        aim = numpy.array([math.sin(turn) * math.cos(tip), math.sin(tip), math.cos(turn) * math.cos(tip)])
        p, q, d = (float(x) for x in far * aim + numpy.array([*dice.uniform(-0.3, 0.3, 2), 0]))
        wave = waves[int(dice.integers(4))]
        out["faces"].append(
            dict(w=w, h=h, p=p, q=q, d=d, wave=wave, sigma=face(w, h, p, q, d, wave),
                 product=product(w, h, p, q, d, wave))
        )
    for nth in range(24):
        a, h = dice.uniform(0.02, 0.3), dice.uniform(0.2, 2.2)
        far = a + dice.uniform(0.5, 8)
        z = float(dice.uniform(-0.6, 0.6) * h if nth % 2 else dice.uniform(-2, 2))
        wave = waves[int(dice.integers(4))]
        out["cylinders"].append(dict(a=a, h=h, far=far, z=z, wave=wave, sigma=cylinder(a, h, far, z, wave)))
    for nth in range(24):
        a = dice.uniform(0.05, 0.25)
        far = max(dice.uniform(0.5, 8), 3.5 * a)
        limit = 0 if nth < 4 else 0.28
        axis = numpy.ones(3) / math.sqrt(3) + dice.uniform(-limit, limit, 3)
        sensor = far * axis / numpy.linalg.norm(axis)
        off = numpy.radians(dice.uniform(-0.6, 0.6, 3)) if nth % 3 == 2 else numpy.zeros(3)
        wave = waves[int(dice.integers(3))]
        square = nth % 4 == 3
        out["reflectors"].append(
            dict(a=a, square=square, out=list(map(float, off)), sensor=list(map(float, sensor)), wave=wave,
                 sigma=reflector(a, square, off, sensor, wave))
        )
    for a, far in ((0.1414, 1.5), (0.1414, 2.5), (0.1414, 5.0)):
        sensor = far * numpy.ones(3) / math.sqrt(3)
        out["reflectors"].append(
            dict(a=a, square=False, out=[0.0] * 3, sensor=list(map(float, sensor)), wave=waves[1],
                 sigma=reflector(a, False, numpy.zeros(3), sensor, waves[1]))
        )
    for h, d1, d2 in ((0, 2, 2), (0.02, 2, 2), (-0.02, 2, 2), (0.05, 1, 3), (-0.05, 1, 3), (-0.03, 0.6, 1.5),
                      (0.1, 1, 2), (-0.1, 2, 3), (0.01, 0.5, 3.5), (-0.01, 3, 1)):
        for wide in (0.04, 0.08):
            mean, peak = bearing(h, d1, d2, wide, waves[1])
            out["bearings"].append(dict(h=h, d1=d1, d2=d2, wide=wide, wave=waves[1], mean=mean, peak=peak))
    for x in [*numpy.linspace(-6, 6, 121), 1.5999999, 1.6, 1.6000001, 12.3, 40.0, 333.3, 1e4]:
        out["fresnel"].append([float(x), *fresnel(x)])
    text = json.dumps(out, indent=0, separators=(",", ":")).replace("\n", " ").replace("}, ", "},\n")
    (pathlib.Path(__file__).parent / "quadrature.json").write_text(text + "\n")


main()
