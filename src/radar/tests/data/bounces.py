#!/usr/bin/env python3
"""Echoes of corners at bay distances by iterated physical optics: the currents that the sensor's wave drives on each face, those that
these drive on the other faces, and once more; then what all of them send back to the sensor. Vector fields, exact distances, both
polarisations, edges that bend the wave from face to face. It knows nothing of rays, apertures or images. numpy 2.4.6 (BSD), one
thread. Method: F. Obelleiro-Basteiro, J. L. Rodriguez, R. J. Burkholder, iterative physical optics for cavities, IEEE Trans. Antennas
Propag. 43 (1995), from memory.

Reflectors are those of quadrature.json, and others that were drawn after the bands of the crate were set.
Writes bounces.json beside this file (half an hour).

    OMP_NUM_THREADS=1 python3 src/radar/tests/data/bounces.py
"""

import json
import math
import pathlib

import numpy

SEED = 2040
LIGHT = 299_792_458.0
PER_WAVE = 2.5
HERE = pathlib.Path(__file__).parent


def cells(b, c, triangle, wave):
    """Middles of equal cells over the face between two edges from the corner, and the area of each."""
    m, n = (max(6, math.ceil(numpy.linalg.norm(e) / wave * PER_WAVE)) for e in (b, c))
    if triangle:
        m = n = max(m, n)
    i, j = (x.ravel() for x in numpy.meshgrid(range(m), range(n), indexing="ij"))
    if triangle:
        low, high = i + j < n, i + j < n - 1
        at = [(i[low] + 1 / 3, j[low] + 1 / 3), (i[high] + 2 / 3, j[high] + 2 / 3)]
        i, j = (numpy.concatenate([part[axis] for part in at]) for axis in (0, 1))
    else:
        i, j = i + 0.5, j + 0.5
    whole = numpy.linalg.norm(numpy.cross(b, c)) / (m * n)
    return i[:, None] / m * b + j[:, None] / n * c, whole / 2 if triangle else whole


def corner(faces, sensor, wave):
    """Echo area with R to the origin, for two polarisations. A face: origin, two edges, whether a triangle, normal."""
    k = 2 * math.pi / wave
    made = [cells(b, c, triangle, wave) for _, b, c, triangle, _ in faces]
    points = [at + face[0] for (at, _), face in zip(made, faces)]
    areas = [area for _, area in made]
    normals = [face[4] for face in faces]
    far = numpy.linalg.norm(sensor)
    axis = sensor / far
    first = numpy.cross(axis, [0, 0, 1.0])
    first /= numpy.linalg.norm(first)
    fields = [first, numpy.cross(axis, first)]
    everyone = range(len(faces))

    def incident(f):
        way = points[f] - sensor
        r = numpy.linalg.norm(way, axis=1)
        wave_at = numpy.exp(-1j * k * (r - far)) / r
        return [2 * numpy.cross(normals[f], numpy.cross(way / r[:, None], e) * wave_at[:, None]) for e in fields]

    def back(currents):
        total = numpy.zeros(2, complex)
        for f in everyone:
            way = sensor - points[f]
            r = numpy.linalg.norm(way, axis=1)
            u = way / r[:, None]
            weight = numpy.exp(-1j * k * (r - far)) / (4 * math.pi * r) * areas[f] * k
            for q, e in enumerate(fields):
                j = currents[f][q]
                total[q] += ((j - (j * u).sum(1)[:, None] * u) * weight[:, None]).sum(0) @ e
        return total

    def bounced(currents):
        h = [[numpy.zeros((len(points[f]), 3), complex) for _ in fields] for f in everyone]
        terms = [
            numpy.concatenate([*currents[f], *(numpy.cross(j, points[f]) for j in currents[f])], 1).astype(numpy.complex64)
            for f in everyone
        ]
        for a in everyone:
            for b in range(a + 1, len(faces)):
                xb = points[b]
                square = (xb**2).sum(1)
                sums = numpy.zeros((len(xb), 12), complex)
                for start in range(0, len(points[a]), 256):
                    part = slice(start, start + 256)
                    x = points[a][part]
                    r = numpy.sqrt((x**2).sum(1)[:, None] + square[None] - 2 * x @ xb.T)
                    phase, r = (k * r).astype(numpy.float32), r.astype(numpy.float32)
                    cos, sin, size = numpy.cos(phase), numpy.sin(phase), (1 / (4 * math.pi)) / (r * r)
                    kernel = numpy.empty(r.shape, numpy.complex64)
                    kernel.real, kernel.imag = size * (k * sin + cos / r), size * (k * cos - sin / r)
                    got = kernel @ terms[b]
                    for q in (0, 1):
                        h[a][q][part] += areas[b] * (numpy.cross(got[:, 3 * q:3 * q + 3], x) - got[:, 6 + 3 * q:9 + 3 * q])
                    sums += kernel.T @ terms[a][part]
                for q in (0, 1):
                    h[b][q] += areas[a] * (numpy.cross(sums[:, 3 * q:3 * q + 3], xb) - sums[:, 6 + 3 * q:9 + 3 * q])
        return [[2 * numpy.cross(normals[f], h[f][q]) for q in (0, 1)] for f in everyone]

    currents = [incident(f) for f in everyone]
    total = back(currents)
    for _ in range(2):
        currents = bounced(currents)
        total += back(currents)
    return [float(4 * math.pi * far**4 * abs(t) ** 2) for t in total]


def reflector(a, square, out, sensor, wave):
    e = numpy.sin(out)
    normals = numpy.linalg.cholesky(numpy.array([[1, e[2], e[1]], [e[2], 1, e[0]], [e[1], e[0], 1]]))
    edges = [numpy.cross(normals[(i + 1) % 3], normals[(i + 2) % 3]) for i in range(3)]
    edges = [a * edge / numpy.linalg.norm(edge) for edge in edges]
    zero = numpy.zeros(3)
    faces = [(zero, edges[(i + 1) % 3], edges[(i + 2) % 3], not square, normals[i]) for i in range(3)]
    return corner(faces, numpy.array(sensor), wave)


def dihedral(first, second, h, open_by, sensor, wave):
    """Faces along x and along the direction that is open_by over 90 degrees from it, about the upright edge at the origin."""
    turn = math.pi / 2 + open_by
    along = [numpy.array([first, 0, 0]), second * numpy.array([math.cos(turn), math.sin(turn), 0])]
    up = numpy.array([0, 0, h])
    normals = [numpy.array([0, 1.0, 0]), numpy.array([math.sin(turn), -math.cos(turn), 0])]
    faces = [(-up / 2, e, up, False, n) for e, n in zip(along, normals)]
    return corner(faces, numpy.array(sensor), wave)


def main():
    dice = numpy.random.default_rng(SEED)
    waves = [LIGHT / f for f in (76.5e9, 77e9, 79e9)]
    out = {"reflectors": [], "dihedrals": []}
    path = HERE / "bounces.json"

    def keep():
        text = json.dumps(out, indent=0, separators=(",", ":")).replace("\n", " ").replace("}, ", "},\n")
        path.write_text(text + "\n")

    for nth in range(12):
        first, second, h = (float(x) for x in dice.uniform(0.06, 0.25, 3))
        open_by = 0.0 if nth < 8 else math.radians(dice.uniform(-0.5, 0.5))
        far = max(dice.uniform(0.6, 6), 4 * max(first, second))
        turn, up = math.radians(45 + dice.uniform(-25, 25)), float(dice.uniform(-0.2, 0.2) * h if nth % 3 else dice.uniform(-0.4, 0.4))
        sensor = [far * math.cos(turn), far * math.sin(turn), up]
        wave = waves[int(dice.integers(3))]
        row = dict(first=first, second=second, h=h, open=open_by, sensor=sensor, wave=wave)
        out["dihedrals"].append({**row, "sigma": dihedral(first, second, h, open_by, sensor, wave)})
        keep()
    # Wide ones nearby: many zones to either side.
    for first, second, h, far, turn in ((0.3, 0.3, 0.1, 1.3, 45), (0.3, 0.3, 0.1, 1.3, 38), (0.4, 0.4, 0.06, 1.2, 45), (0.4, 0.35, 0.06, 1.3, 50)):
        sensor = [far * math.cos(math.radians(turn)), far * math.sin(math.radians(turn)), 0.0]
        row = dict(first=first, second=second, h=h, open=0.0, sensor=sensor, wave=waves[1])
        out["dihedrals"].append({**row, "sigma": dihedral(first, second, h, 0.0, sensor, waves[1])})
        keep()
    drawn = []
    for nth in range(10):
        square = nth % 3 == 2
        a = float(dice.uniform(0.06, 0.16))
        far = max(dice.uniform(0.6, 6), 3.5 * a)
        axis = numpy.ones(3) / math.sqrt(3) + dice.uniform(-0.3, 0.3, 3)
        off = [float(x) for x in numpy.radians(dice.uniform(-0.6, 0.6, 3))] if nth % 2 else [0.0] * 3
        sensor = [float(x) for x in far * axis / numpy.linalg.norm(axis)]
        drawn.append(dict(a=a, square=square, out=off, sensor=sensor, wave=waves[int(dice.integers(3))]))
    stored = json.loads((HERE / "quadrature.json").read_text())["reflectors"]
    for row in drawn + stored[24:] + stored[:24]:
        row = {key: row[key] for key in ("a", "square", "out", "sensor", "wave")}
        out["reflectors"].append({**row, "sigma": reflector(**row)})
        keep()


main()
