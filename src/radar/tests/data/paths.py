#!/usr/bin/env python3
"""Specular paths of up to two reflections by an independent ray tracer: sionna-rt 2.2.0 (Apache-2.0), on mitsuba 3.9 and drjit 1.5
(both BSD), on the processor with Debian's libllvm19 (DRJIT_LIBLLVM_PATH=/usr/lib/x86_64-linux-gnu/libLLVM.so.19.1).

36 plan scenes (upright faces, sensor and target at one height) and 14 in space (floor, ceiling, tilted sheets, boxes of any height).
The tracer shoots rays to find which faces a path may use, and computes the path by its own images; it works in 32-bit figures, so that
lengths are good to some hundredths of a millimetre. A path that grazes the edge of a face within a few millimetres may be there or not.

Writes paths.json beside this file: lengths in millimetres, angles in radians. Where a face is turned and tipped as in ISO 8855:
heading anticlockwise from x, pitch positive nose down; its normal points out.

    python3 src/radar/tests/data/paths.py
"""

import json
import math
import pathlib
import tempfile

import numpy
from sionna.rt import PathSolver, PlanarArray, Receiver, Transmitter, load_scene

SEED = 2040
PLANS, SPACES = 36, 14
RAYS = 4_000_000

dice = numpy.random.default_rng(SEED)


def rounded(values, digits=3):
    return [round(float(value), digits) for value in values]


def face(centre, heading, pitch, width, height, both):
    return {
        "centre": rounded(centre),
        "heading": round(float(heading), 6),
        "pitch": round(float(pitch), 6),
        "width": round(float(width), 3),
        "height": round(float(height), 3),
        "both": both,
    }


def corners(of):
    h, p = of["heading"], of["pitch"]
    normal = numpy.array([math.cos(h) * math.cos(p), math.sin(h) * math.cos(p), -math.sin(p)])
    left = numpy.array([-math.sin(h), math.cos(h), 0.0])
    up = numpy.cross(normal, left)
    u, v = 0.5 * of["width"], 0.5 * of["height"]
    return [numpy.array(of["centre"]) + s * u * left + t * v * up for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]


def upright(a, b, low, high, both=False):
    """Between two places in plan; its front is to the left of who walks from a to b."""
    a, b = numpy.array(a), numpy.array(b)
    along = b - a
    heading = math.atan2(along[0], -along[1])
    middle = 0.5 * (a + b)
    return face((*middle, 0.5 * (low + high)), heading, 0.0, math.hypot(*along), high - low, both)


def level(x, y, z, wide, deep, turn, up):
    return face((x, y, z), turn, -math.pi / 2 if up else math.pi / 2, wide, deep, False)


def box(where, size, turn, low, high, lid):
    """Faces that look out, and its corners in plan, anticlockwise."""
    c, s = math.cos(turn), math.sin(turn)
    half = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
    plan = [
        (where[0] + i * size[0] / 2 * c - j * size[1] / 2 * s, where[1] + i * size[0] / 2 * s + j * size[1] / 2 * c)
        for i, j in half
    ]
    plan = [rounded(p) for p in plan]
    faces = [upright(plan[(i + 1) % 4], plan[i], low, high) for i in range(4)]
    if lid:
        # Its width runs along its own left, which is the plan's y there.
        faces.append(level(*where, high, size[1], size[0], turn, True))
        faces.append(level(*where, low, size[1], size[0], turn, False))
    return faces, {"plan": plan, "low": low, "high": high}


def is_clear(p, boxes, by=150.0):
    for of in boxes:
        plan = [numpy.array(q) for q in of["plan"]]
        inside = min(
            float(numpy.cross(numpy.append(b - a, 0), numpy.append(numpy.array(p[:2]) - a, 0))[2] / math.hypot(*(b - a)))
            for a, b in zip(plan, plan[1:] + plan[:1])
        )
        if inside > -by:
            return False
    return True


def somewhere(boxes, wide, deep, low, high):
    while True:
        p = rounded((dice.uniform(300, wide - 300), dice.uniform(300, deep - 300), dice.uniform(low, high)))
        if is_clear(p, boxes):
            return p


def scene(in_space):
    wide, deep, tall = dice.uniform(5000, 12000), dice.uniform(4000, 9000), dice.uniform(2600, 4200)
    low, high = (0.0, tall) if in_space else (-8000.0, 9000.0)
    skew = dice.uniform(-800, 800, 4)
    ring = [(skew[0], 0), (wide, skew[1]), (wide + skew[2], deep), (0, deep + skew[3])]
    ring = [rounded(p) for p in ring]
    faces = [upright(a, b, low, high) for a, b in zip(ring, ring[1:] + ring[:1])]
    boxes = []
    for _ in range(int(dice.integers(1, 5))):
        where = dice.uniform((1200, 1200), (wide - 1200, deep - 1200))
        size = dice.uniform(300, 1600, 2)
        top = dice.uniform(500, 2000) if in_space else high
        bottom = dice.choice([0.0, 350.0]) if in_space else low
        more, solid = box(rounded(where), rounded(size), round(float(dice.uniform(-3, 3)), 6), float(bottom), round(float(top), 3), in_space)
        faces += more
        boxes.append(solid)
    for _ in range(int(dice.integers(0, 3))):
        x, y = dice.uniform((800, 800), (wide - 800, deep - 800))
        pitch = dice.uniform(-0.5, 0.5) if in_space else 0.0
        middle = dice.uniform(700, 1600) if in_space else 500.0
        height = dice.uniform(600, 1200) if in_space else high - low
        faces.append(face((x, y, middle), dice.uniform(-3, 3), pitch, dice.uniform(400, 1500), height, True))
    if in_space:
        faces.append(level(wide / 2, deep / 2, 0.0, deep + 4000, wide + 4000, 0.0, True))
        faces.append(level(wide / 2, deep / 2, tall, deep + 4000, wide + 4000, 0.0, False))
        sensor, target = somewhere(boxes, wide, deep, 300, 1000), somewhere(boxes, wide, deep, 200, 1500)
    else:
        sensor, target = somewhere(boxes, wide, deep, 500, 500), somewhere(boxes, wide, deep, 500, 500)
    return {"sensor": sensor, "target": target, "faces": faces, "boxes": boxes}


PLY = """ply
format ascii 1.0
element vertex 4
property float x
property float y
property float z
element face 2
property list uchar int vertex_indices
end_header
"""


def traced(of):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        shapes = ""
        for nth, one in enumerate(of["faces"]):
            text = PLY + "".join("%.9g %.9g %.9g\n" % tuple(c / 1000) for c in corners(one)) + "3 0 1 2\n3 0 2 3\n"
            (folder / f"f{nth}.ply").write_text(text)
            shapes += f"""<shape type="ply" id="mesh-f{nth}"><string name="filename" value="f{nth}.ply"/>
            <boolean name="face_normals" value="true"/><ref id="mat-itu_metal" name="bsdf"/></shape>"""
        (folder / "scene.xml").write_text(
            f"""<scene version="2.1.0"><bsdf type="itu-radio-material" id="mat-itu_metal"><string name="type" value="metal"/>
            <float name="thickness" value="0.01"/></bsdf>{shapes}</scene>"""
        )
        room = load_scene(str(folder / "scene.xml"), merge_shapes=False)
        room.frequency = 77e9
        room.tx_array = room.rx_array = PlanarArray(num_rows=1, num_cols=1, pattern="iso", polarization="V")
        room.add(Transmitter("tx", position=[v / 1000 for v in of["sensor"]]))
        room.add(Receiver("rx", position=[v / 1000 for v in of["target"]]))
        names = {thing.object_id: int(name.rsplit("f", 1)[1]) for name, thing in room.objects.items()}
        found = PathSolver()(
            scene=room, max_depth=2, los=True, specular_reflection=True, diffuse_reflection=False, refraction=False,
            synthetic_array=True, samples_per_src=RAYS, max_num_paths_per_src=RAYS, seed=41,
        )
        valid = numpy.array(found.valid).reshape(-1)
        count = valid.size
        things = numpy.array(found.objects).reshape(2, -1)
        spots = numpy.array(found.vertices).reshape(2, count, 3)
        tau, *angles = (numpy.array(a).reshape(-1) for a in (found.tau, found.theta_t, found.phi_t, found.theta_r, found.phi_r))
        paths = {}
        for at in range(count):
            if not valid[at]:
                continue
            over = [names[int(t)] for t in things[:, at] if int(t) in names]
            tt, pt, tr, pr = (float(a[at]) for a in angles)
            unit = lambda t, p: [round(math.sin(t) * math.cos(p), 7), round(math.sin(t) * math.sin(p), 7), round(math.cos(t), 7)]
            paths[tuple(over)] = {
                "over": over,
                "length": round(float(tau[at]) * 299_792_458_000.0, 3),
                "departs": unit(tt, pt),
                "comes_from": unit(tr, pr),
                "at": [rounded(spots[k, at] * 1000, 2) for k in range(len(over))],
            }
        return [paths[key] for key in sorted(paths)]


def main():
    scenes = []
    for nth in range(PLANS + SPACES):
        one = scene(nth >= PLANS)
        one["in_space"] = nth >= PLANS
        one["paths"] = traced(one)
        print(nth, len(one["faces"]), [len([p for p in one["paths"] if len(p["over"]) == d]) for d in (0, 1, 2)], flush=True)
        scenes.append(one)
    lines = ",\n".join(json.dumps(one, separators=(",", ":")) for one in scenes)
    (pathlib.Path(__file__).parent / "paths.json").write_text("[\n" + lines + "\n]\n")


main()
