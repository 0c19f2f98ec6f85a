#!/usr/bin/env python3
"""A million draws of the mark plan with 20 inputs of measured.rs, by vectorised numpy, one thread: the peer that the bench is
held against. Prints the best of ten runs and what it found.

    OMP_NUM_THREADS=1 python3 src/survey/benches/draws.py
"""

import math
import time

import numpy

DRAWS = 1_000_000
WHEELS = [(0.0, 780.0), (0.0, -780.0), (-2550.0, 780.0), (-2550.0, -780.0)]
LENGTH, LINE, LASER = 3600.0, 0.4, 0.2
BASE = 2550.0


def hypot(*of):
    return math.sqrt(sum(x * x for x in of))


ON = 1 + LENGTH / BASE
ASIDE = hypot(LINE * hypot(ON, 1 - ON), LASER * BASE * ON / 1000, LINE)
READ = hypot(0.5 + 0.1 * LENGTH / 1000, LINE)
HALF = hypot((0.5 + 0.1 * 1.56) / math.sqrt(2), LINE)


def run(dice):
    normal = lambda u: dice.normal(0.0, u, DRAWS)
    longer = 1 + normal(1e-4) + dice.uniform(-10 * 11.5e-6, 10 * 11.5e-6, DRAWS)
    x, y = [], []
    for (wx, wy), out in zip(WHEELS, (1, -1, 1, -1)):
        x.append(wx + normal(1.5))
        y.append(wy + normal(1.0) + out * 310.0 * normal(0.003))
    length = LENGTH * longer
    for rear, front in ((2, 0), (3, 1)):
        dx, dy = x[front] - x[rear], y[front] - y[rear]
        by = length / numpy.hypot(dx, dy)
        x.append(x[front] + dx * by + normal(READ))
        y.append(y[front] + dy * by + normal(ASIDE))
    mx = 0.5 * (x[4] + x[5]) + normal(LINE)
    my = 0.5 * (y[4] + y[5]) + normal(HALF)
    found = numpy.arctan2(my - 120.0, mx - 770.0)
    mean, u = found.mean(), found.std(ddof=1)
    found.sort()
    held = int(0.95 * DRAWS + 0.5)
    first = (DRAWS - held) // 2
    widths = found[held:] - found[:-held]
    shortest = int(widths.argmin())
    return mean, u, found[first], found[first + held], found[shortest], found[shortest + held]


def main():
    best = math.inf
    for seed in range(10):
        dice = numpy.random.default_rng(seed)
        start = time.perf_counter()
        found = run(dice)
        best = min(best, time.perf_counter() - start)
    mean, u, *ends = (math.degrees(figure) for figure in found)
    print(f"best of ten: {best * 1e3:.1f} ms; {mean:.5f} ± {u:.5f}°, {', '.join(f'{end:.5f}' for end in ends)}")


main()
