#!/usr/bin/env python3
"""Echo widths of thin conducting strips without end by the method of moments, for waves along their edges (TM) and across (TE):
currents solved for, no optics of any kind. numpy 2.4.6, scipy 1.17.1 (both BSD) for the Hankel functions.
Pulses and point matching for TM; triangles and the mixed-potential equation for TE. Lengths in wavelengths.

Writes strips.json beside this file: width, degrees from the normal, echo widths back to the sender, TM and TE.

    python3 src/radar/tests/data/strips.py
"""

import json
import math
import pathlib

import numpy
import scipy.special

K = 2 * math.pi
NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(6)


def strip(width, angles, per=32):
    count = int(width * per)
    cell = width / count
    apart = numpy.arange(1, count) * cell
    # Of a source spread over a cell, at the middle of another; its own by the small-argument form of the Hankel function.
    own = cell / 4j * (1 - 2j / math.pi * (math.log(1.781072418 * K * cell / 4) - 1))
    others = (scipy.special.hankel2(0, K * (apart[:, None] + NODES * cell / 2)) / 4j * WEIGHTS).sum(1) * cell / 2
    row = numpy.concatenate([[own], others])
    potential = row[abs(numpy.subtract.outer(numpy.arange(count), numpy.arange(count)))]
    x = (numpy.arange(count) + 0.5) * cell - width / 2
    wave = numpy.exp(1j * K * numpy.outer(x, numpy.sin(angles)))
    along = numpy.linalg.solve(1j * K * potential, wave)
    tm = K / 4 * abs((along * wave).sum(0) * cell) ** 2
    between = (x[1:] + x[:-1]) / 2
    charge = (numpy.eye(count)[:, :-1] - numpy.eye(count, k=-1)[:, :-1]) / cell
    levels = potential @ charge * (-1 / (1j * K))
    system = 1j * K * cell * potential[:-1, :-1] + levels[1:] - levels[:-1]
    wave = numpy.exp(1j * K * numpy.outer(between, numpy.sin(angles)))
    across = numpy.linalg.solve(system, cell * numpy.cos(angles) * wave)
    te = K / 4 * numpy.cos(angles) ** 2 * abs((across * wave).sum(0) * cell) ** 2
    return tm, te


def main():
    rows = []
    for width in (10.0, 17.7, 25.3):
        degrees = numpy.arange(3, 60.5, 0.37)
        tm, te = strip(width, numpy.radians(degrees))
        rows += [[width, *map(float, row)] for row in zip(degrees, tm, te)]
    text = json.dumps(rows, separators=(",", ":")).replace("],", "],\n")
    (pathlib.Path(__file__).parent / "strips.json").write_text(text + "\n")


main()
