#!/usr/bin/env python3
"""Networks with one blunder of the least size that is found with 80 %, and which distance an independent adjuster (scipy's least
squares, numpy) names: the largest |w| beyond Baarda's 3.29.

    python3 src/survey/tests/outside/blunders.py [COUNT FILE]

Without arguments writes the sample, blunders.json, beside this file; with them so many into FILE, for the environment variable
BAYWRIGHT_BLUNDERS of the test.
"""

import json
import pathlib
import sys

import numpy
import scipy.optimize

SEED = 80_000

dice = numpy.random.default_rng(SEED)


def network():
    """Four wheel points, held, four to eight marks ahead; three of four possible distances taped."""
    wheels = numpy.array([[0, 780], [0, -780], [-2600, 780], [-2600, -780]], float)
    count = int(dice.integers(4, 9))
    marks = numpy.vstack([wheels, dice.uniform([300, -1600], [4500, 1600], (count, 2)).round(0)])
    pairs = [(a, b) for a in range(len(marks)) for b in range(max(a + 1, 4), len(marks))]
    keep = sorted(dice.permutation(len(pairs))[: int(len(pairs) * 0.75)])
    return marks, [pairs[i] for i in keep], dice.uniform(0.8, 1.8, len(keep)).round(2)


def design(marks, pairs):
    rows = numpy.zeros((len(pairs), 2 * len(marks)))
    for row, (a, b) in zip(rows, pairs):
        way = (marks[b] - marks[a]) / numpy.hypot(*(marks[b] - marks[a]))
        row[2 * a : 2 * a + 2] -= way
        row[2 * b : 2 * b + 2] += way
    return rows[:, 8:]


def lengths(marks, pairs):
    return numpy.array([numpy.hypot(*(marks[b] - marks[a])) for a, b in pairs])


def tests(marks, pairs, u, read):
    def misses(x):
        return (lengths(numpy.vstack([marks[:4], x.reshape(-1, 2)]), pairs) - read) / u

    x = scipy.optimize.least_squares(misses, marks[4:].ravel(), x_scale=100.0, xtol=1e-12, ftol=1e-12, gtol=1e-12).x
    a = design(numpy.vstack([marks[:4], x.reshape(-1, 2)]), pairs) / u[:, None]
    shows = 1 - numpy.diag(a @ numpy.linalg.pinv(a))
    return misses(x) / numpy.sqrt(numpy.maximum(shows, 1e-12)), a


def hardly_determined(a):
    """Whether some marks may move while the distances change by less than a hundredth of what they change elsewhere: no adjuster's
    figures say much then, and ours refuses the worst of them."""
    own = numpy.sqrt((a * a).sum(0))
    if (own == 0).any():
        return True
    values = numpy.linalg.eigvalsh((a / own).T @ (a / own))
    return values[0] < 1e-4 * values[-1]


left_out = []


def case():
    while True:
        marks, pairs, u = network()
        a = design(marks, pairs) / u[:, None]
        if hardly_determined(a):
            left_out.append(len(pairs))
            continue
        shows = 1 - numpy.diag(a @ numpy.linalg.pinv(a))
        good = numpy.flatnonzero(shows > 0.1)
        if len(good) == 0:
            continue
        wrong = int(dice.choice(good))
        read = lengths(marks, pairs) + dice.normal(size=len(u)) * u
        read[wrong] += (1 if dice.random() < 0.5 else -1) * 4.132148 * u[wrong] / numpy.sqrt(shows[wrong])
        read = read.round(3)
        w, there = tests(marks, pairs, u, read)
        # Circles that barely meet need not meet any more once they are read: the mark lies on the line then.
        if hardly_determined(there):
            left_out.append(len(pairs))
            continue
        return {
            "marks": marks.tolist(),
            "taped": [[a, b, float(d), float(s)] for (a, b), d, s in zip(pairs, read, u)],
            "wrong": wrong,
            "w_of_wrong": float(w[wrong]),
            "names": int(numpy.argmax(abs(w))) if abs(w).max() > 3.290527 else None,
        }


def main():
    count, file = (int(sys.argv[1]), pathlib.Path(sys.argv[2])) if len(sys.argv) > 2 else (60, pathlib.Path(__file__).with_name("blunders.json"))
    cases = [case() for _ in range(count)]
    file.write_text("[\n" + ",\n".join(json.dumps(c, separators=(",", ":")) for c in cases) + "\n]\n")
    named = sum(c["names"] == c["wrong"] for c in cases)
    print(f"{count} networks ({len(left_out)} left out, hardly determined), {sum(abs(c['w_of_wrong']) > 3.290527 for c in cases)} found, {named} named rightly")


main()
