"""Does what each cure and promise says and asks again; and looks for shorter moves than those offered."""

import copy
import math

import numpy as np
from shapely.affinity import translate
from shapely.geometry import LineString, MultiPoint, Point, Polygon, box
from shapely.ops import nearest_points, unary_union

from findings import excluded
from oracle import LIGHT, Scene, Shape, Solid, above_half_space, forbidden
from scenes import put
from ron import Tag


def shift(p, by):
    return (round(float(p[0]) + by[0], 6), round(float(p[1]) + by[1], 6))


def with_step(arrangement, layout, step):
    """The arrangement after a step."""
    a = copy.deepcopy(arrangement)
    kind, of, by = step["step"], step.get("of"), step.get("by_mm")
    if kind in ("move-thing", "take-away"):
        if any(t["name"] == of for t in a.get("added", [])):
            if kind == "take-away":
                a["added"] = [t for t in a["added"] if t["name"] != of]
            for t in a["added"]:
                if t["name"] == of:
                    t["at_mm"] = shift(t["at_mm"], by)
        elif kind == "take-away":
            a["moved"] = [m for m in a.get("moved", []) if m["thing"] != of]
            a["away"] = [*a.get("away", []), of]
        else:
            own = next(t for t in layout["things"] if t["name"] == of)
            now = next((m for m in a.get("moved", []) if m["thing"] == of), dict(at_mm=own["at_mm"], turned_deg=own["turned_deg"]))
            rest = [m for m in a.get("moved", []) if m["thing"] != of]
            a["moved"] = [*rest, dict(thing=of, at_mm=shift(now["at_mm"], by), turned_deg=now["turned_deg"])]
    elif kind == "move-car":
        a["parked"]["at_mm"] = shift(a["parked"]["at_mm"], by)
        for s in a.get("stands", []):
            s["set"].fields["at_mm"] = shift(s["set"].fields["at_mm"], by)
    elif kind == "tape-car":
        a["parked"]["known"] = Tag("Taped")
    elif kind == "stand-on-mark":
        a.pop("stands", None)
    elif kind == "open-door":
        a["doors"] = [dict(door=of, shut=False)]
    return {k: v for k, v in a.items() if v != []}


def fresnel_hull(s, share, solid):
    """The plan of that part of the ellipsoid around the radar's path that has the solid's heights."""
    kind = s.sensor["kind"]
    if "frequency_ghz" not in kind.fields or s.lies:
        return None
    a, b = s.eye, np.array([*s.target_pose[0], s.height])
    d = np.linalg.norm(b - a)
    long = (d + share * share * LIGHT / (kind.fields["frequency_ghz"] * 1e9) / 2) / 2
    short = math.sqrt(long * long - d * d / 4)
    u = (b - a) / d
    v = np.cross(u, [0, 0, 1.0])
    v /= np.linalg.norm(v)
    w = np.cross(u, v)
    t, f = np.meshgrid(np.linspace(0, math.pi, 41), np.linspace(0, 2 * math.pi, 40, endpoint=False))
    points = ((a + b) / 2 + u * (long * np.cos(t))[..., None] + v * (short * np.sin(t) * np.cos(f))[..., None] + w * (short * np.sin(t) * np.sin(f))[..., None]).reshape(-1, 3)
    points = above_half_space(points, np.array([0, 0, 1.0]), solid.bottom)
    if len(points):
        points = above_half_space(points, np.array([0, 0, -1.0]), -solid.top)
    hull = MultiPoint(points[:, :2]).convex_hull if len(points) > 2 else None
    return hull if hull is not None and hull.area > 0 else None


def barred(s, name):
    """All moves of a thing that leave it where it stops something, leaves the room or meets another thing or what is built into the floor. The car is
    taken too large, as a hull of all its heights: there may be shorter moves, but these are ways."""
    thing, solid = s.things[name], s.solids[name]
    shapes = [v.shape for z, v in s.zones.values() if v.shares_height(solid) > 0 and excluded(z, thing)]
    for hull in (s.face.view_hull(s.eye, solid.bottom, solid.top), fresnel_hull(s, 0.6, solid)):
        if hull is not None and hull.area > 1e-6:
            shapes.append(Shape(hull))
    shapes += [p.shape for p in s.stand if p.shares_height(solid) > 0]
    shapes += [Shape(line.buffer(1, cap_style="flat")) for _, _, line, top in s.runs if solid.bottom < top and line.length > 1]
    if solid.bottom < 400:
        shapes += [Shape(Point(p).buffer(1, quad_segs=2)) for p in s.bay_marks.values()]
    b = s.body
    if solid.bottom - s.carried < b["height_mm"]:
        m = b["mirrors"]
        hull = MultiPoint([*b["outline_top_mm"], *[(m["ahead_mm"] + x, y * m["width_mm"] / 2) for x in (90, -90) for y in (1, -1)]]).convex_hull
        shapes.append(Shape.outline_of(list(hull.exterior.coords), s.pose))
    for other, placed in s.solids.items():
        if other != name and placed.shares_height(solid) > 0:
            shapes.append(placed.shape)
    for runway in s.layout.get("runways", []):
        if solid.bottom < runway["top_mm"]:
            shapes.append(Shape(Polygon(runway["corners_mm"])))
    for feature in s.layout.get("floor_features", []):
        # Nothing is put down over an open pit, or where something stands proud.
        if feature["kind"] == "Pit" and solid.bottom < 1 or solid.bottom < feature.get("proud_mm", 0):
            shapes.append(Shape(Polygon(feature["corners_mm"])))
    shapes.append(Shape(box(*s.walls.bounds).buffer(4000, join_style="mitre").difference(s.walls)))
    return unary_union([forbidden(shape, solid.shape) for shape in shapes])


def shortest(s, name):
    region = barred(s, name)
    here = Point(0, 0)
    if not region.contains(here):
        return None
    to = nearest_points(region.boundary, here)[0]
    return np.array([to.x, to.y])


def through_what_stays(s, name, by):
    """Whether a thing would be moved through a wall, something fixed, a runway, what stands proud or over an open pit, on its straight way."""
    solid = s.solids[name]
    here = solid.shape.polygon
    way = unary_union([here, translate(here, *by)]).convex_hull
    stays = [placed.shape.polygon for other, placed in s.solids.items()
             if other != name and placed.shares_height(solid) > 0 and s.things[other]["effort"].name == "Fixed"]
    stays += [Polygon(r["corners_mm"]) for r in s.layout.get("runways", []) if solid.bottom < r["top_mm"]]
    stays += [Polygon(f["corners_mm"]) for f in s.layout.get("floor_features", [])
              if f["kind"] == "Pit" and solid.bottom < 1 or solid.bottom < f.get("proud_mm", 0)]
    through = any(way.intersection(own).area > 1e-3 and not here.intersects(own) for own in stays)
    return through or way.difference(s.walls).area > here.convex_hull.difference(s.walls).area + 1


def key(f):
    """What a finding is about. What is one finding of a heap or of one act of measuring goes by who is blamed: the rest of it
    comes and goes with others."""
    if f["code"] == "car-place":
        return (f["code"], "|".join((f["subjects"][1].get("name") or [f["subjects"][1]["kind"]])))
    if f["code"] == "thing-place":
        return (f["code"], "")
    return (f["code"], "|".join(n for sub in f["subjects"] for n in (sub.get("name") or [sub["kind"]])))


def run(program, cars, layouts, d, ask):
    moves = {}
    for layout in layouts:
        before = {a["arrangement"]: a for a in ask(program, layout, cars)}
        tries = []
        for one in layout["arrangements"]:
            answer = before[one["name"]]
            car = next(c for c in cars if c["file"] == one["vehicle"])
            scene = Scene(car, layout, one)
            done = set()
            for f in answer["findings"]:
                cure = f["cure"]
                if not cure or cure["step"] in ("tape", "survey-floor", "enter-figures", "enter-alignment", "review-profile"):
                    continue
                mark = (cure["step"], cure.get("of"), str(cure.get("by_mm")), f["severity"])
                tries.append(("cure", one, f, with_step(one, layout, cure)))
                if cure["at_least_mm"] and mark not in done:
                    tries.append(("to be sure", one, f, tries[-1][3]))
                    tries.append(("just clears", one, f, with_step(one, layout, {**cure, "by_mm": cure["at_least_mm"]})))
                if cure["step"] == "move-thing" and f["severity"] == "stops" and cure["of"] not in moves.get(one["name"], {}):
                    by = shortest(scene, cure["of"])
                    length = math.hypot(*(cure["at_least_mm"] or cure["by_mm"]))
                    if by is not None:
                        best = float(np.linalg.norm(by))
                        moves.setdefault(one["name"], {})[cure["of"]] = dict(least=best, detour=False)
                        if length > best + 2.5 and through_what_stays(scene, cure["of"], by):
                            moves[one["name"]].pop(cure["of"])
                            d.check(one["name"], "the shorter goes through what stays", True, "")
                        elif length > best + 2.5:
                            less = by * (best + 0.6) / best
                            tries.append(("shorter", one, f, with_step(one, layout, dict(step="move-thing", of=cure["of"], by_mm=[round(float(v), 3) for v in less])), best, length))
                        else:
                            d.check(one["name"], "move is the shortest", True, "")
                    else:
                        d.check(one["name"], "nothing to clear", False, f"{cure['of']} {key(f)} by {cure['by_mm']}")
                done.add(mark)
            if answer["promise"]:
                after = one
                for step in answer["promise"]["steps"]:
                    after = with_step(after, layout, step)
                tries.append(("promise", one, answer["promise"], after))
            elif answer["verdict"] == "not-ready":
                d.check(one["name"], "not ready, no promise", True, "")
        trial = {k: v for k, v in layout.items() if k != "arrangements"}
        trial["arrangements"] = [{**t[3], "name": f"try {i}"} for i, t in enumerate(tries)]
        if not tries:
            continue
        for t, after in zip(tries, ask(program, trial, cars)):
            kind, one, f = t[:3]
            if kind == "promise":
                d.check(one["name"], "promise holds", after["verdict"] == f["verdict"], f"{f['steps']} promised {f['verdict']}, came out {after['verdict']}: {[key(x) for x in after['findings'] if x['severity'] == 'stops']}")
                continue
            old = {key(x): x for x in before[one["name"]]["findings"]}
            new = {key(x): x for x in after["findings"]}
            bad = [k for k, x in new.items() if x["severity"] != "note" and (k not in old or (x["severity"] == "stops" and old[k]["severity"] != "stops"))]
            of = f["cure"].get("of")
            if kind == "shorter":
                stops = [k for k, x in new.items() if x["severity"] == "stops" and x["subjects"][0].get("name") == [of]]
                worse = [k for k in bad if k[0] != "zone-near"]
                ok = bool(stops or worse)
                moves[one["name"]][of]["detour"] = True
                # Where the shorter way leads to something that needs care, a way up to twice as long may be offered.
                d.check(one["name"], "shorter needs care" if ok else "shorter exists", ok, f"{of}: offered {f['cure']['by_mm']} ({t[5]:.1f} mm), {t[4]:.1f} mm clears too: {t[3].get('moved')} {[x['at_mm'] for x in t[3].get('added', []) if x['name'] == of]}")
                if stops:
                    d.check(one["name"], "oracle's shorter fails", False, f"{of} {t[4]:.1f} of {t[5]:.1f}: {stops}")
                continue
            cure = f["cure"]
            if kind == "cure":
                if cure["step"] == "move-thing" and f["severity"] == "stops":
                    left = [k for k, x in new.items() if x["severity"] == "stops" and x["subjects"][0].get("name") == [of]]
                    d.check(one["name"], "cure clears every stop", not left, f"{cure['step']} {of} {cure.get('by_mm')}: {left}")
                else:
                    d.check(one["name"], f"cure works: {cure['step']}", key(f) not in new or (new[key(f)]["severity"] != f["severity"]), f"{key(f)} {cure.get('by_mm')}")
                said = {key(c) for c in cure["causes"]}
                silent = [k for k in bad if k not in said]
                d.check(one["name"], "causes are all said", not silent, f"{cure['step']} {of} {cure.get('by_mm')} for {key(f)}: unsaid {silent}, said {sorted(said)}")
                # Rounded to 0.01 mm a thing may just be clear; of what narrows one side of the car, the nearest is named.
                near = [sub.get("name") for x in new.values() if x["code"] == "car-place" for sub in x["subjects"]]
                false = [k for k in said if k not in new and k[0] not in ("zone-near", "working-room") and [k[1]] not in near]
                d.check(one["name"], "causes come true", not false, f"{cure['step']} {of} {cure.get('by_mm')} for {key(f)}: {false}")
            elif kind == "just clears":
                left = [k for k, x in new.items() if k == key(f) and x["severity"] == "stops"]
                d.check(one["name"], "the shorter way just clears", not left, f"{of} {cure['at_least_mm']}: {left}")
            else:
                near = [k for k, x in new.items() if x["severity"] == "stops" and x["subjects"][0].get("name") == [of]]
                d.check(one["name"], "to be sure is sure", not near, f"{of} {cure['by_mm']}: {near}")
    return moves
