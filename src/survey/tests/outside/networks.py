#!/usr/bin/env python3
"""Plane networks of taped distances, adjusted by an independent library (scipy's least squares; covariances by numpy).

Writes networks.json beside this file: marks, distances, and what the library makes of them.

    python3 src/survey/tests/outside/networks.py
"""

import json
import pathlib

import numpy
import scipy.optimize

SEED = 20261
CASES = 30

dice = numpy.random.default_rng(SEED)


def network(case):
    """Some marks of a bay, mm; every second case held by wheels, the others free; every third with a tape's common scale."""
    count = int(dice.integers(5, 13))
    true = dice.uniform([-2800, -1800], [5000, 1800], (count, 2)).round(0)
    held = case % 2 == 0
    scale = 4e-4 if case % 3 == 0 and held else 0.0
    u = dice.uniform(0.5, 2.0, count * count).round(2)
    pairs = [(a, b) for a in range(count) for b in range(a + 1, count) if not (held and b < 4)]
    keep = dice.permutation(len(pairs))[: max(3 * count, len(pairs) * 2 // 3)]
    off = dice.normal() * scale
    taped = []
    for at in sorted(keep):
        a, b = pairs[at]
        length = float(numpy.hypot(*(true[b] - true[a])))
        taped.append([a, b, round(length * (1 + off) + float(dice.normal()) * u[at % len(u)], 1), float(u[at % len(u)])])
    meant = true + dice.normal(size=true.shape) * 15 * ((numpy.arange(count) >= 4)[:, None] if held else 1)
    return meant.round(1), taped, held, scale


def adjust(marks, taped, held, scale):
    """By scipy; with inner constraints for a free network: the solution of least change, the pseudo-inverse's covariance."""
    moving = [i for i in range(len(marks)) if not (held and i < 4)]
    read = numpy.array([t[2] for t in taped])
    covariance = numpy.diag([t[3] ** 2 for t in taped]) + scale**2 * numpy.outer(read, read)
    white = numpy.linalg.inv(numpy.linalg.cholesky(covariance))

    def places(x):
        full = marks.copy()
        full[moving] = x.reshape(-1, 2)
        return full

    def misses(x):
        full = places(x)
        return white @ (read - numpy.array([numpy.hypot(*(full[b] - full[a])) for a, b, *_ in taped]))

    def jacobian(x):
        full = places(x)
        rows = numpy.zeros((len(taped), 2 * len(marks)))
        for row, (a, b, *_) in zip(rows, taped):
            way = (full[b] - full[a]) / numpy.hypot(*(full[b] - full[a]))
            row[2 * a : 2 * a + 2] -= way
            row[2 * b : 2 * b + 2] += way
        return rows[:, [2 * i + k for i in moving for k in (0, 1)]]

    x = marks[moving].ravel()
    if held:
        x = scipy.optimize.least_squares(misses, x, jac=lambda x: -white @ jacobian(x), xtol=1e-15, ftol=1e-15, gtol=1e-15).x
    for _ in range(20):  # polish, and for a free network the steps of least length
        x = x + numpy.linalg.pinv(white @ jacobian(x), rcond=1e-9) @ misses(x)
    design = jacobian(x)
    q = numpy.linalg.pinv(design.T @ white.T @ white @ design, rcond=1e-9, hermitian=True)
    weight = white.T @ white
    residuals = -numpy.linalg.solve(white, misses(x))
    of_residuals = covariance - design @ q @ design.T
    seen = weight @ of_residuals @ weight
    spread = numpy.sqrt(numpy.diag(seen))
    rank = numpy.linalg.matrix_rank(design, tol=1e-6)
    return {
        "adjusted": places(x).tolist(),
        "moving": moving,
        "covariance": q.tolist(),
        "residuals": residuals.tolist(),
        "redundancy": numpy.diag(of_residuals @ weight).tolist(),
        "w": (weight @ residuals / spread).tolist(),
        "freedom": len(taped) - int(rank),
        "chi_squared": float(misses(x) @ misses(x)),
    }


def main():
    cases = []
    for case in range(CASES):
        marks, taped, held, scale = network(case)
        cases.append(
            {"marks": marks.tolist(), "taped": taped, "held": 4 if held else 0, "scale": scale}
            | adjust(marks, taped, held, scale)
        )
    tidy = json.loads(json.dumps(cases), parse_float=lambda text: float(f"{float(text):.12g}"))
    lines = ",\n".join(json.dumps(case, separators=(",", ":")) for case in tidy)
    pathlib.Path(__file__).with_name("networks.json").write_text(f"[\n{lines}\n]\n")


main()
