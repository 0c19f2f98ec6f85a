#!/usr/bin/env python3
"""Whole arrangements answered by an independent oracle (shapely on GEOS, numpy, scipy): tests/outside/answers/*.ron and
expected.json.

`scenes.py` invents cars, rooms, things and aimings from a fixed seed; `oracle.py` puts them in their places and
`findings.py` says what is wrong, both from the documented meaning alone; `compare.py` asks a built program and lists where the two disagree.

    python3 tests/outside/answers.py                      writes the tables
    python3 tests/outside/answers.py target/debug/baywright   compares too, and tries every cure and promise
"""

import json
import math
import pathlib
import random
import sys

import numpy
import scipy
import shapely

HERE = pathlib.Path(__file__).parent / "answers"
sys.path.insert(0, str(HERE))

import findings
import ron
import scenes
from oracle import Scene
from ron import Tag

SEED = 16180
LAYOUTS, EACH, CARS = 14, 6, 4
REMARK = "Invented figures, written by answers.py for a test. Never use them on a car."


def spots(rng, scene):
    """Places where a thing nearly touches something: beside a zone's edge, by the line of sight, on a run, by the car."""
    found = []
    for _ in range(rng.choice([1, 2, 2, 3])):
        ring = rng.choice(list(scene.zones.values()))[1].shape.polygon.exterior.coords
        if len(ring) > 50:
            continue
        i = rng.randrange(len(ring) - 1)
        p, q = numpy.array(ring[i]), numpy.array(ring[i + 1])
        if numpy.linalg.norm(q - p) < 300:
            continue
        along = (q - p) / numpy.linalg.norm(q - p)
        area = scene.zones and shapely.Polygon(ring).exterior.is_ccw
        out = numpy.array([along[1], -along[0]]) * (1 if area else -1)
        half = rng.choice([20, 60, 150, 300])
        gap = rng.choice([0, 0, 0.5, -0.5, 5, -5, 19, 21, 48, -30, -90])
        at = p + (q - p) * rng.uniform(0.2, 0.8) + out * (half + gap)
        found.append((tuple(at), math.degrees(math.atan2(along[1], along[0])), half))
    for _ in range(rng.choice([1, 1, 2])):
        to = numpy.array(scene.target_pose[0])
        eye = scene.eye[:2]
        away = to - eye
        side = numpy.array([-away[1], away[0]]) / numpy.linalg.norm(away)
        at = eye + away * rng.uniform(0.1, 1.05) + side * rng.choice([rng.uniform(-450, 450), rng.uniform(-120, 120)])
        found.append((tuple(at), rng.uniform(-180, 180), None))
    # Under, over or beside the line, by less than the first Fresnel zone is wide.
    for _ in range(rng.choice([1, 2])):
        share = rng.uniform(0.08, 0.7)
        at = scene.eye + (scene.face.centre - scene.eye) * share
        side = numpy.array([-away[1], away[0]]) / numpy.linalg.norm(away)
        beyond = rng.uniform(5, 95) + scene.face.width / 2 * share * rng.choice([0, 1])
        how = rng.choice(["under", "over", "beside", "beside"])
        if how == "beside":
            half = rng.choice([20, 150])
            found.append((tuple(at[:2] + side * rng.choice([-1, 1]) * (half + beyond)), math.degrees(math.atan2(away[1], away[0])), half))
        else:
            beyond = rng.uniform(5, 60) + scene.face.height / 2 * share
            heights = (0, round(at[2] - beyond, 1)) if how == "under" else (round(at[2] + beyond, 1), round(at[2] + beyond + 300, 1))
            if heights[1] > 20:
                found.append((tuple(at[:2]), rng.uniform(-180, 180), heights))
    if scene.runs and rng.random() < 0.5:
        line = rng.choice(scene.runs)[2]
        at = numpy.array(line.interpolate(rng.uniform(0, 1), normalized=True).coords[0])
        found.append((tuple(at + numpy.array([rng.uniform(-300, 300), rng.uniform(-300, 300)])), rng.uniform(-180, 180), None))
    return found


def off_mark(rng, scene):
    """A stand set off its mark."""
    far = rng.choice([0.5, 1, 3])
    at = (scene.meant[0][0] + rng.uniform(-12, 12) * far, scene.meant[0][1] + rng.uniform(-12, 12) * far)
    fields = dict(at_mm=scenes.place(at), heading_deg=round((scene.meant[1] + rng.uniform(-0.6, 0.6) * far + 180) % 360 - 180, 4),
                  height_mm=round(scene.meant_height + (0 if scene.lies else rng.uniform(-8, 8) * far), 2))
    if not scene.lies:
        fields["pitch_deg"] = round(rng.choice([0, rng.uniform(-0.8, 0.8) * far]), 3)
    return [dict(placement="target", set=Tag("At", **fields))]


def look_past_a_corner(rng, car, layout, one):
    """Parks where a corner of the room comes between sensor and target, if there is such a place."""
    before = one["parked"]
    corners = layout["room"]["corners_mm"]
    for _ in range(400):
        middle = [sum(c[i] for c in corners) / len(corners) for i in (0, 1)]
        at = scenes.place((middle[0] + rng.uniform(-3500, 3500), middle[1] + rng.uniform(-3500, 3500)))
        one["parked"] = dict(at_mm=at, heading_deg=round(rng.uniform(-180, 180), 3))
        scene = Scene(car, layout, one)
        inside = all(shapely.contains_xy(scene.walls, *scene.eye[:2]) and scene.walls.contains(part.shape.polygon) for part in scene.stand)
        if inside and findings.sight_past_walls(scene) > 30:
            return
    one["parked"] = before


def make():
    rng = random.Random(SEED)
    cars = [scenes.profile(rng, i + 1) for i in range(CARS)]
    for i, car in enumerate(cars):
        car["file"] = f"invented-{i + 1}"
    layouts = []
    for number in range(LAYOUTS):
        layout = scenes.layout(rng, number, cars, EACH)
        for one in layout["arrangements"]:
            car = next(c for c in cars if c["file"] == one["vehicle"])
            if number % 3 == 1 and one is layout["arrangements"][1]:
                look_past_a_corner(rng, car, layout, one)
            if rng.random() < 0.4:
                one["on_this_car"] = dict(rear_toe=dict(left_deg=round(rng.uniform(-0.3, 0.4), 2), right_deg=round(rng.uniform(-0.3, 0.4), 2)))
            if rng.random() < 0.35:
                one["stands"] = off_mark(rng, Scene(car, layout, one))
            if rng.random() < 0.3 and "openings" in layout:
                one["doors"] = [dict(door="door", shut=rng.random() < 0.5)]
            scenes.furnish(rng, one, layout, spots(rng, Scene(car, layout, one)))
        layouts.append(layout)
    return cars, layouts


def rounded(value):
    if isinstance(value, dict):
        return {k: rounded(v) for k, v in value.items()}
    if isinstance(value, list):
        return [rounded(v) for v in value]
    return round(float(value), 6) if isinstance(value, float) else value


def main():
    cars, layouts = make()
    for old in HERE.glob("*.ron"):
        old.unlink()
    for car in cars:
        (HERE / f"{car['file']}.ron").write_text(ron.document({k: v for k, v in car.items() if k != "file"}, REMARK))
    table = dict(library=f"shapely {shapely.__version__}, GEOS {'.'.join(map(str, shapely.geos_version))}, numpy {numpy.__version__}, scipy {scipy.__version__}", seed=SEED, arrangements={})
    for number, layout in enumerate(layouts):
        (HERE / f"room-{number}.ron").write_text(ron.document(layout, REMARK))
        for one in layout["arrangements"]:
            car = next(c for c in cars if c["file"] == one["vehicle"])
            table["arrangements"][one["name"]] = dict(room=number, **rounded(findings.all_of(Scene(car, layout, one))))
    if len(sys.argv) > 1:
        import compare
        table["moves"] = rounded(compare.run(sys.argv[1], HERE, cars, layouts, table["arrangements"]))
    rows = ",\n".join(f"{json.dumps(k)}: {json.dumps(v, separators=(',', ':'))}" for k, v in table["arrangements"].items())
    head = {k: v for k, v in table.items() if k != "arrangements"}
    (HERE / "expected.json").write_text(json.dumps(head)[:-1] + ', "arrangements": {\n' + rows + "\n}}\n")


if __name__ == "__main__":
    main()
