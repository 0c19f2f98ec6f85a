#!/usr/bin/env python3
"""Mark plans with the uncertainty of every mark, by an independent uncertainty library (uncertainties: automatic
differentiation, all correlations kept).

Writes plans.json beside this file.

    python3 src/survey/tests/outside/plans.py
"""

import json
import math
import pathlib
import random

from uncertainties import covariance_matrix, ufloat, umath

SEED = 4711
CASES = 24
WHEELS = ["FrontLeft", "FrontRight", "RearLeft", "RearRight"]

dice = random.Random(SEED)


class P:
    """A point whose coordinates may be uncertain."""

    def __init__(self, x, y):
        self.x, self.y = x, y

    def __add__(self, other):
        return P(self.x + other.x, self.y + other.y)

    def __sub__(self, other):
        return P(self.x - other.x, self.y - other.y)

    def __mul__(self, by):
        return P(self.x * by, self.y * by)

    def dot(self, other):
        return self.x * other.x + self.y * other.y

    def left(self):
        return P(-self.y, self.x)

    def length(self):
        return umath.sqrt(self.x * self.x + self.y * self.y)

    def unit(self):
        return self * (1 / self.length())

    def nominal(self):
        value = lambda figure: getattr(figure, "nominal_value", figure)
        return P(value(self.x), value(self.y))


def shop():
    return {
        "read_mm": dice.uniform(0.2, 1.0),
        "per_metre_mm": dice.uniform(0.0, 0.3),
        "scale": dice.uniform(0.0, 3e-4),
        "within_k": dice.uniform(0, 20),
        "per_k": 11.5e-6,
        "laser_mm_per_m": dice.uniform(0.0, 0.4),
        "line_mm": dice.uniform(0.0, 0.8),
        "plumb_mm": dice.uniform(0.0, 1.0),
        "wheel_aside_mm": dice.uniform(0.2, 2.0),
        "wheel_along_mm": dice.uniform(0.2, 3.0),
        "camber_rad": dice.uniform(0.0, 0.01),
        "hub_height_mm": dice.uniform(290, 340),
        "square_rad": dice.uniform(0.0, 2e-3),
        "angle_rad": dice.uniform(0.0, 4e-3),
    }


def plan():
    """A spot at each tyre or its wheel point, both lines ahead, and some more of every kind."""
    out = dice.random() < 0.5
    steps = [
        {"is": "Outboard", "wheel": w, "distance": round(dice.uniform(80, 250))} if out else {"is": "WheelPoint", "wheel": w}
        for w in WHEELS
    ]
    length = round(dice.uniform(1500, 4500))
    steps.append({"is": "Prolong", "from": 2, "through": 0, "length": length})
    steps.append({"is": "Prolong", "from": 3, "through": 1, "length": length})
    steps.append({"is": "Middle", "first": 4, "second": 5})
    steps.append({"is": "Middle", "first": 0, "second": 1})
    steps.append({"is": "Foot", "of": 6, "from": 0, "to": 4})
    steps.append({"is": "AlongAside", "from": 7, "to": 6, "along": round(dice.uniform(1000, 3000)), "aside": round(dice.uniform(-900, 900))})
    steps.append({"is": "AtAngle", "at": 0, "towards": 4, "angle": round(dice.uniform(-1.2, 1.2), 3), "distance": round(dice.uniform(500, 2500))})
    steps.append({"is": "Crossing", "first": [0, 5], "second": [1, 4]})
    reach = round(dice.uniform(1800, 2500))
    steps.append({"is": "TwoDistances", "first": 0, "from_first": reach, "second": 1, "from_second": reach + round(dice.uniform(-200, 200)), "side": dice.choice(["Left", "Right"])})
    steps.append({"is": "BodyPoint"})
    steps.append({"is": "Prolong", "from": 13, "through": 6, "length": round(dice.uniform(200, 900))})
    return steps


def lay(steps, wheels, tyre, body, s, exact=None):
    """The marks. With `exact`, the places of a first run without errors, what each step may be off is added."""
    sure = exact is None
    off = lambda u: 0.0 if sure or u == 0 else ufloat(0, u)
    longer = 1.0 if sure else 1 + ufloat(0, s["scale"]) + ufloat(0, s["within_k"] * s["per_k"] / math.sqrt(3))
    found = {w: (off(s["wheel_along_mm"]), off(s["wheel_aside_mm"]), off(s["camber_rad"])) for w in WHEELS}
    tape = lambda length: s["read_mm"] + s["per_metre_mm"] * abs(length) / 1000
    line = s["line_mm"]
    marks = []

    def ends(a, b, at):
        """How far aside a line through a and b runs at a third place."""
        base = (b - a).length()
        on = (at - a).dot((b - a).unit()) / base
        drift = s["laser_mm_per_m"] * base / 1000 * max(abs(on), abs(on - 1))
        return math.sqrt((line * on) ** 2 + (line * (1 - on)) ** 2 + drift**2)

    for index, step in enumerate(steps):
        kind = step["is"]
        own = None if sure else exact[index]
        m = lambda name: marks[step[name]]
        e = lambda name: exact[step[name]]
        h = math.hypot
        if kind in ("WheelPoint", "Outboard"):
            place = P(*wheels[step["wheel"]])
            outwards = 1 if step["wheel"].endswith("Left") else -1
            ahead, aside, camber = found[step["wheel"]]
            place = place + P(ahead, aside)
            if kind == "WheelPoint":
                place = place + P(off(s["plumb_mm"]), off(s["plumb_mm"]) + camber * s["hub_height_mm"] * outwards)
            else:
                place = place + P(off(line), outwards * (tyre / 2 + step["distance"] * longer) + off(h(tape(step["distance"]), line)))
        elif kind == "BodyPoint":
            place = P(body[0] + off(s["plumb_mm"]), body[1] + off(s["plumb_mm"]))
        elif kind == "Prolong":
            place = m("through") + (m("through") - m("from")).unit() * (step["length"] * longer)
            if not sure:
                way = (e("through") - e("from")).unit()
                aside = h(ends(e("from"), e("through"), own), line)
                place = place + way * off(h(tape(step["length"]), line)) + way.left() * off(aside)
        elif kind == "Middle":
            place = (m("first") + m("second")) * 0.5
            if not sure:
                way, apart = (e("second") - e("first")).unit(), (e("second") - e("first")).length()
                place = place + way * off(h(tape(apart) / math.sqrt(2), line)) + way.left() * off(line)
        elif kind == "Foot":
            way = (m("to") - m("from")).unit()
            place = m("from") + way * (m("of") - m("from")).dot(way)
            if not sure:
                way, far = (e("to") - e("from")).unit(), (own - e("of")).length()
                place = place + way * off(h(s["square_rad"] * far, line)) + way.left() * off(h(ends(e("from"), e("to"), own), line))
        elif kind == "AlongAside":
            way = (m("to") - m("from")).unit()
            place = m("from") + way * (step["along"] * longer) + way.left() * (step["aside"] * longer)
            if not sure:
                way = (e("to") - e("from")).unit()
                corner = e("from") + way * step["along"]
                lengthwise = math.sqrt(tape(step["along"]) ** 2 + (s["square_rad"] * step["aside"]) ** 2 + line**2)
                sideways = math.sqrt(tape(step["aside"]) ** 2 + ends(e("from"), e("to"), corner) ** 2 + line**2)
                place = place + way * off(lengthwise) + way.left() * off(sideways)
        elif kind == "AtAngle":
            base = (m("towards") - m("at")).unit()
            c, q = math.cos(step["angle"]), math.sin(step["angle"])
            place = m("at") + (base * c + base.left() * q) * (step["distance"] * longer)
            if not sure:
                way = (own - e("at")).unit()
                place = place + way * off(h(tape(step["distance"]), line)) + way.left() * off(h(s["angle_rad"] * step["distance"], line))
        elif kind == "Crossing":
            (a, b), (c, d) = [[marks[i] for i in step[name]] for name in ("first", "second")]
            if not sure:  # each line moved aside by what it may be off
                for pair, name in (((a, b), "first"), ((c, d), "second")):
                    start, end = [exact[i] for i in step[name]]
                    by = (end - start).unit().left() * off(h(ends(start, end, own), line))
                    if name == "first":
                        a, b = a + by, b + by
                    else:
                        c, d = c + by, d + by
            p, q = b - a, d - c
            t = ((c.x - a.x) * q.y - (c.y - a.y) * q.x) / (p.x * q.y - p.y * q.x)
            place = a + p * t
        elif kind == "TwoDistances":
            a, b = m("first"), m("second")
            read = lambda name, length: length * longer + (0 if sure else off(h(tape((own - e(name)).length()), line)))
            r, q = read("first", step["from_first"]), read("second", step["from_second"])
            base = (b - a).length()
            along = (r * r - q * q + base * base) / (2 * base)
            aside = umath.sqrt(r * r - along * along) * (1 if step["side"] == "Left" else -1)
            way = (b - a).unit()
            place = a + way * along + way.left() * aside
        marks.append(place)
    return marks


def main():
    cases = []
    for _ in range(CASES):
        track, base = dice.uniform(720, 800), dice.uniform(2400, 2900)
        wheels = {
            w: (round((0 if w.startswith("F") else -base) + dice.uniform(-5, 5), 1), round((1 if w.endswith("Left") else -1) * track + dice.uniform(-5, 5), 1))
            for w in WHEELS
        }
        s, steps, body = shop(), plan(), (round(dice.uniform(700, 900)), round(dice.uniform(-30, 30)))
        exact = [mark.nominal() for mark in lay(steps, wheels, 205.0, body, s)]
        marks = lay(steps, wheels, 205.0, body, s, exact)
        flat = [c + ufloat(0, 0) for mark in marks for c in (mark.x, mark.y)]
        sensor = (round(dice.uniform(600, 900)), round(dice.uniform(-300, 300)))
        seen = umath.atan2(marks[6].y - sensor[1], marks[6].x - sensor[0])
        across = marks[4] - marks[5]
        turned = umath.atan2(-across.x, across.y)
        far = (marks[6] - P(*sensor)).length()
        value = lambda u: [u.nominal_value, u.std_dev]
        cases.append(
            {"wheels": [wheels[w] for w in WHEELS], "body": body, "shop": s, "plan": steps, "sensor": sensor}
            | {"places": [[m.x, m.y] for m in exact], "covariance": [list(row) for row in covariance_matrix(flat)]}
            | {"bearing": value(seen), "squareness": value(turned), "distance": value(far)}
        )
    tidy = json.loads(json.dumps(cases), parse_float=lambda text: float(f"{float(text):.10g}"))
    lines = ",\n".join(json.dumps(case, separators=(",", ":")) for case in tidy)
    pathlib.Path(__file__).with_name("plans.json").write_text(f"[\n{lines}\n]\n")


main()
