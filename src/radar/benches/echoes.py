#!/usr/bin/env python3
"""The echoes of echoes.rs by the same maths, each kind in one go over arrays: numpy 2.4.6, scipy 1.17.1 (both BSD), one thread.

    OMP_NUM_THREADS=1 python3 src/radar/benches/echoes.py
"""

import math
import time

import numpy
import scipy.special

WAVE = 299_792_458_000.0 / 77e9
K = 2 * math.pi / WAVE
TURNS = 3.0
NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(8)


class Dice:
    def __init__(self, seed):
        self.state = seed

    def roll(self, low, high):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return low + (high - low) * ((self.state >> 11) / 2**53)


def dbsm(size, near):
    return 10 * numpy.log10(4 * math.pi * (near**2 * size / (WAVE * 1000)) ** 2)


def summed(d, s, least, to):
    longer = to * to / (numpy.hypot(least, to) + least)
    panels = int(TURNS)
    ends = numpy.arange(panels + 1) / panels * longer[..., None]
    t_ends = numpy.sqrt(ends * (ends + 2 * least[..., None]))
    half = numpy.diff(t_ends) / 2
    t = t_ends[..., :-1, None] + half[..., None] * (1 + NODES)
    d, s = d[..., None, None], s[..., None, None]
    aside2 = s * s + t * t
    r2 = d * d + aside2
    x = K * aside2 / (numpy.sqrt(r2) + d)
    sin, cos = numpy.sin(x), numpy.cos(x)
    size = half[..., None] * WEIGHTS * s / (d * r2)
    ratio = d * d / aside2
    real = (size * (1 + 2 * sin * sin * ratio)).sum((-1, -2))
    imaginary = (size * 2 * sin * cos * ratio).sum((-1, -2))
    return real - numpy.arctan(to / s[..., 0, 0]) / d[..., 0, 0] + 1j * imaginary


def beyond(d, s, start):
    a, b = s * s + start * start, start * start
    r2 = d * d + a
    r = numpy.sqrt(r2)
    size = s * d / (a * r * start)
    first = -(2 * r / a + 1 / r + r / b)
    second = 4 * r2 / a**2 + 1 / r2 + 2 * r2 / b**2 - 2 / a - 1 / b + first * first
    q = 0.5 / K
    return numpy.exp(-2j * K * a / (r + d)) * (1 - second * q * q - 1j * first * q) * (1j * q * size)


def faces(w, h, d, p, q):
    sides = numpy.array([
        (w / 2 - p, -h / 2 - q, h / 2 - q), (h / 2 - q, p - w / 2, p + w / 2),
        (w / 2 + p, q - h / 2, q + h / 2), (h / 2 + q, -w / 2 - p, w / 2 - p),
    ])
    aside = sides[:, 0]
    s = abs(aside)
    d4 = numpy.broadcast_to(d, s.shape)
    least = numpy.hypot(d4, s)
    longer = TURNS * math.pi / K
    near = numpy.sqrt(longer * (longer + 2 * least))
    total, halves = numpy.zeros(s.shape, complex), numpy.zeros(s.shape)
    for at, sign in ((sides[:, 2], 1), (sides[:, 1], -1)):
        size, sign = abs(at), sign * numpy.sign(at)
        far = size > near
        total[far] -= beyond(d4[far], s[far], size[far]) * sign[far]
        total[~far] += summed(d4[~far], s[~far], least[~far], size[~far]) * sign[~far]
        halves += numpy.where(far, sign, 0)
    some = halves != 0
    total[some] += halves[some] * (summed(d4[some], s[some], least[some], near[some]) + beyond(d4[some], s[some], near[some]))
    total *= numpy.sign(aside)
    turn = (numpy.arctan(sides[:, 2] / aside) - numpy.arctan(sides[:, 1] / aside)).sum(0)
    spot = numpy.where(abs(turn) < 1e-9, 0, turn) / d
    # Both polarisations and the floor belong to the figure, as in the other.
    c = aside / numpy.hypot(aside, d4)
    soft = numpy.sqrt((1 - c) / (1 + c))
    mixed = [numpy.where(numpy.arange(4)[:, None] % 2 == parity, soft, 1 / soft) for parity in (0, 1)]
    sums = [abs(spot + total.sum(0)), *(abs(spot + (total * m).sum(0)) for m in mixed), numpy.sqrt((abs(total) ** 2).sum(0))]
    reach = numpy.sqrt(d * d + numpy.maximum(0, abs(p) - w / 2) ** 2 + numpy.maximum(0, abs(q) - h / 2) ** 2)
    return [dbsm(one / (2 * K), reach) for one in sums][0]


def columns(a, h, far, z):
    least = far - a

    def amplitude(way):
        return least * numpy.sqrt(a * WAVE / (2 * far)) * way**-2.5

    beside = amplitude(least) * numpy.sqrt(WAVE * least) / 2

    def up_to(to):
        way = numpy.hypot(least, to)
        u = numpy.copysign(numpy.sqrt(8 * to * to / (way + least) / WAVE), to)
        s, c = scipy.special.fresnel(u)
        there = amplitude(way) * WAVE * u * way / (4 * to)
        return (c - 1j * s) * beside + numpy.exp(-0.5j * math.pi * u * u) * 1j * (there - beside) / (math.pi * u)

    size = abs(up_to(h / 2 - z) - up_to(-h / 2 - z))
    return dbsm(size, numpy.hypot(least, numpy.maximum(0, abs(z) - h / 2)))


def overlap(ring, by):
    for a, b in zip(by, by[1:] + by[:1]):
        before, ring = ring, []
        inside = [(b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) for p in before]
        for nth, p in enumerate(before):
            other, here, there = before[(nth + 1) % len(before)], inside[nth], inside[(nth + 1) % len(before)]
            if here >= 0:
                ring.append(p)
            if here * there < 0:
                ring.append(p + (other - p) * here / (here - there))
        if not ring:
            return ring
    return ring


def corner(a, sensor):
    along, out = math.sqrt(1 / 3), math.sqrt(2 / 3)
    turns = [i * math.tau / 3 for i in range(3)]
    edges = [numpy.array([along, -out * math.sin(t), out * math.cos(t)]) for t in turns]
    if numpy.cross(edges[0], edges[1]) @ edges[2] < 0:
        edges = [edges[0], edges[2], edges[1]]
    normals = [numpy.cross(edges[(i + 1) % 3], edges[(i + 2) % 3]) for i in range(3)]
    far = numpy.linalg.norm(sensor)
    axis = sensor / far
    right = numpy.cross(axis, [0, 0, 1.0])
    right /= numpy.linalg.norm(right)
    up = numpy.cross(axis, right)
    rings = []
    for i in range(3):
        ring = [a * numpy.array([e @ right, e @ up]) for e in (numpy.zeros(3), edges[(i + 1) % 3], edges[(i + 2) % 3])]
        size = ring[1][0] * ring[2][1] - ring[1][1] * ring[2][0]
        rings.append(ring if size > 0 else ring[::-1])
    total = 0
    for first in range(3):
        for last in range(3):
            if first == last:
                continue
            image = sensor
            for i in (first, 3 - first - last, last):
                image = image - 2 * (image @ normals[i]) * normals[i]
            ring = overlap(rings[last], [-p for p in rings[first]])

            def phase(y):
                place = y[..., 0, None] * right + y[..., 1, None] * up
                return K * (numpy.linalg.norm(place - image, axis=-1) + numpy.linalg.norm(place - sensor, axis=-1) - 2 * far)

            if len(ring) < 3:
                continue
            panels = 1 + int(abs(phase(numpy.array(ring)) - phase(numpy.zeros(2))).max() / math.tau)
            x = ((numpy.arange(panels)[:, None] + 0.5 + 0.5 * NODES) / panels).ravel()
            w = numpy.tile(0.5 * WEIGHTS / panels, panels)
            for one, other in zip(ring[1:], ring[2:]):
                u, v = one - ring[0], other - ring[0]
                y = ring[0] + x[:, None, None] * (u + x[None, :, None] * (v - u))
                weight = (w * x)[:, None] * w * (u[0] * v[1] - u[1] * v[0])
                total += (weight * numpy.exp(-1j * phase(y))).sum()
    return dbsm(abs(total) / far**2, far)


def main():
    dice = Dice(7)
    face = numpy.array([
        [dice.roll(*r) for r in ((100, 1800), (100, 1800), (800, 6000), (-1500, 1500), (-900, 900))] for _ in range(1000)
    ]).T
    column = []
    for _ in range(200):
        a, h = dice.roll(20, 300), dice.roll(200, 2200)
        column.append((a, h, a + dice.roll(800, 6000), dice.roll(-1500, 1500)))
    column = numpy.array(column).T
    corners = []
    for _ in range(20):
        a = dice.roll(50, 200)
        aside = numpy.array([1, dice.roll(-0.3, 0.3), dice.roll(-0.3, 0.3)])
        corners.append((a, aside / numpy.linalg.norm(aside) * dice.roll(1200, 6000)))
    parts = [
        ("1000 faces", lambda: faces(*face).sum()),
        ("200 columns", lambda: columns(*column).sum()),
        ("20 corner reflectors", lambda: sum(corner(*one) for one in corners)),
    ]
    print("levels:", *(f"{part():.6f}" for _, part in parts))
    for name, part in parts + [("all of them", lambda: sum(part() for _, part in parts[:3]))]:
        times = []
        for _ in range(30):
            begin = time.perf_counter()
            part()
            times.append(time.perf_counter() - begin)
        print(f"{name}: {1000 * sorted(times)[len(times) // 2]:.3f} ms")


main()
