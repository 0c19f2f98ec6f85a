"""What the documents say is wrong with a scene. Each function gives {subjects: figures}; `unsure` holds what lies so near
to a limit that either answer is right."""

import math

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPoint, Point, Polygon

from oracle import LIGHT, METALS, SPEAKS, Solid, Shape, depth, excess, known

# Within this of a limit, mm, the answer may be either: the limits themselves are 0.01 mm wide.
EDGE = 0.012


def excluded(zone, thing):
    e = zone["excludes"].name
    face = thing["material"].name
    said = {"None": False, "Frame": True, "All": True, "Unknown": None}
    by_face = None if face in ("Unknown", "Plasterboard") else False
    by_kind = {k: True for k in ("LiftPost", "LiftArm", "ParkedCar", "Heater", "DoorTrack")} | {k: None for k in ("ToolChest", "Lamp", "Column")}
    metal = face in METALS or (said[thing["metal"].name] if "metal" in thing else by_kind.get(thing["kind"], by_face))
    is_person = thing["kind"] == "Person" or face == "Person"
    if is_person and "metal" not in thing and metal is False:
        # What somebody carries nobody knows until it is told.
        metal = None
    return {"Anything": True, "Metal": metal, "Reflecting": None, "People": is_person, "Light": thing["kind"] == "Lamp"}[e]


def zones(s):
    inside, unjudged, near, unsure = {}, {}, {}, set()
    for zn, (zone, volume) in s.zones.items():
        for name, solid in s.solids.items():
            judged = excluded(zone, s.things[name])
            if judged is False:
                continue
            band, key = known(s.things[name]["known"]), f"{name}|{zn}"
            into = depth(volume.shape, solid.shape) if volume.shares_height(solid) > 0 else 0.0
            if abs(into - SPEAKS) < EDGE and into > 0:
                unsure.add(key)
            if into > SPEAKS:
                low, high = max(volume.bottom, solid.bottom), min(volume.top, solid.top)
                area = volume.shape.polygon.intersection(solid.shape.polygon).area
                (inside if judged else unjudged)[key] = dict(depth=into, area=area, low=low, high=high)
                continue
            gap = volume.gap(solid)
            if abs(gap - band) < 2 * EDGE:
                unsure.add(key)
            if gap < band - SPEAKS and into == 0:
                near[key] = dict(gap=gap)
        if zone["excludes"] in ("Anything", "Metal", "Reflecting"):
            for name, solid in s.idle.items():
                into = depth(volume.shape, solid.shape) if volume.shares_height(solid) > 0 else 0.0
                if into > SPEAKS:
                    (unjudged if zone["excludes"] == "Reflecting" else inside)[f"{name}|{zn}"] = dict(depth=into, area=volume.shape.polygon.intersection(solid.shape.polygon).area,
                                                  low=max(volume.bottom, 0), high=min(volume.top, solid.top))
        if zone["excludes"] in ("Anything", "Metal", "Reflecting"):
            band = known(s.layout["room"]["walls_known"])
            for wall, p, q in s.edges:
                line = LineString([p, q])
                gap = volume.shape.distance(Shape(line))
                through = volume.shape.polygon.intersection(line).length
                if abs(gap - band) < 2 * EDGE or 0 < through < 1e-3:
                    unsure.add(f"{wall}|{zn}")
                if gap < band - SPEAKS and through == 0:
                    near[f"{wall}|{zn}"] = dict(gap=gap)
    return inside, unjudged, near, unsure


def reach_out(s, shape, bottom, top):
    """How far something of these heights reaches out of the floor past each wall, by points 2 mm apart."""
    floor = s.floor(bottom, top)
    outside = shape.polygon.difference(floor)
    if outside.area < 1e-6:
        return {}
    points = []
    for part in getattr(outside, "geoms", [outside]):
        points.append(np.array(part.segmentize(2.0).exterior.coords))
        (x, y, u, v), step = part.bounds, 20.0
        grid = np.stack(np.meshgrid(np.arange(x, u, step), np.arange(y, v, step)), -1).reshape(-1, 2)
        points.append(grid[[part.contains(Point(p)) for p in grid]] if len(grid) < 60000 else grid[:0])
    # Past a corner that the room turns in, the furthest places lie between its two walls.
    for (_, a, b), (_, _, c) in zip(s.edges, s.edges[1:] + s.edges[:1]):
        middle = (a - b) / np.linalg.norm(a - b) + (c - b) / np.linalg.norm(c - b)
        if np.linalg.norm(middle) > 1e-6:
            ray = b + np.arange(0.5, 4000, 0.5)[:, None] * middle / np.linalg.norm(middle)
            points.append(ray[shapely.contains_xy(outside, ray)])
    points = np.concatenate(points)
    away = np.array([floor.distance(Point(p)) for p in points])
    names, to_wall = [e[0] for e in s.edges], []
    for _, p, q in s.edges:
        t = np.clip(((points - p) @ (q - p)) / ((q - p) @ (q - p)), 0, 1)
        to_wall.append(np.linalg.norm(points - p - t[:, None] * (q - p), axis=1))
    nearest, found = np.argmin(to_wall, axis=0), {}
    for i, name in enumerate(names):
        if (nearest == i).any():
            found[name] = float(away[nearest == i].max())
    return {n: d for n, d in found.items() if d > SPEAKS}


def outside(s):
    """By subject: the deepest of all walls. One wall may answer for a corner that two share, so only this is compared."""
    found = {}
    for zn, (zone, volume) in s.zones.items():
        if zone["excludes"] in ("Anything", "Metal", "Reflecting"):
            reach = reach_out(s, volume.shape, volume.bottom, volume.top)
            if reach:
                found[zn] = dict(depth=max(reach.values()), walls=reach)
    reach = {}
    for part in s.stand:
        for wall, d in reach_out(s, part.shape, part.bottom, part.top).items():
            reach[wall] = max(d, reach.get(wall, 0))
    if reach:
        found["target"] = dict(depth=max(reach.values()), walls=reach)
    return found


def sight(s):
    """The share that each thing alone hides; 1 for one around the sensor; None if the face looks away."""
    hidden, unsure = {}, set()
    for name, solid in [*s.solids.items(), *s.idle.items()]:
        share = s.face.hidden(s.eye, solid)
        if share is None:
            return None, unsure
        if solid.bottom < s.eye[2] < solid.top and solid.shape.polygon.contains(Point(s.eye[:2])):
            share = 1.0
        if 0 < share < 1e-4:
            unsure.add(name)
        if share > 1e-5:
            hidden[name] = share
    return hidden, unsure


def sight_past_walls(s):
    """How far a wall reaches into the view in plan; 0 for a target that is outside itself or looks away."""
    if s.face.hidden(s.eye, Solid(Shape(Point(0, 0).buffer(1)), -9e3, -8e3)) is None or reach_out(s, s.stand[0].shape, s.stand[0].bottom, s.stand[0].top):
        return 0.0
    ends = np.array([s.eye, *s.face.corners])
    view = MultiPoint(ends[:, :2]).convex_hull
    return max(reach_out(s, Shape(view), max(ends[:, 2].min(), 0), ends[:, 2].max()).values(), default=0.0)


def fresnel(s, hidden):
    found, unsure = {}, set()
    kind = s.sensor["kind"]
    if "frequency_ghz" not in kind.fields or s.lies:
        return found, unsure
    a, b = s.eye, np.array([*s.target_pose[0], s.height])
    half = LIGHT / (kind.fields["frequency_ghz"] * 1e9) / 2
    for name, solid in [*s.solids.items(), *s.idle.items()]:
        line = Solid(Shape(LineString([a[:2], b[:2]])), min(a[2], b[2]), max(a[2], b[2]) + 1e-9)
        if line.gap(solid) > 300 or (hidden is not None and name in hidden):
            continue
        ratio = math.sqrt(excess(a, b, solid)[0] / half)
        if abs(ratio - 1) < 1e-4 or abs(ratio - 0.6) < 1e-4:
            unsure.add(name)
        if ratio < 1:
            found[name] = dict(ratio=ratio, severity="care")
    return found, unsure


def field_of_view(s):
    azimuth, up = (math.radians(a) for a in (s.pose[1] + s.sensor["azimuth_deg"], s.sensor["elevation_deg"]))
    ahead = np.array([math.cos(up) * math.cos(azimuth), math.cos(up) * math.sin(azimuth), math.sin(up)])
    left = np.array([-math.sin(azimuth), math.cos(azimuth), 0])
    top = np.cross(ahead, left)

    def over(p):
        v = p - s.eye
        x, y, z = v @ ahead, v @ left, v @ top
        # A forward camera below 170 degrees has a picture with straight edges.
        flat = s.sensor["kind"].name == "ForwardCamera" and max(s.sensor["view_azimuth_deg"], s.sensor["view_elevation_deg"]) < 170
        angles = (abs(math.degrees(math.atan2(y, x))), s.sensor["view_azimuth_deg"] / 2), (
            abs(math.degrees(math.atan2(z, x if flat else math.hypot(x, y)))), s.sensor["view_elevation_deg"] / 2)
        return max(angles, key=lambda a: a[0] - a[1])
    middle = over(s.face.centre)
    worst = max([middle, *map(over, s.face.corners)], key=lambda a: a[0] - a[1])
    if worst[0] - worst[1] <= 1e-4:
        return None
    camera = "frequency_ghz" not in s.sensor["kind"].fields
    return dict(angle=worst[0], half=worst[1], severity="stops" if camera or middle[0] > middle[1] + 1e-4 else "care")


def off_mark(s):
    """What uses up most of its tolerance: the aim by what the target is, or its place."""
    if s.target_pose is s.meant:
        return None
    t, p = s.placement["target"], s.placement
    default = {"Plate": (0, 1), "Board": (1, 1)}.get(t["kind"].name, (1, 0))
    rule = t.get("aims_by", dict(place=default[0], squareness=default[1]))
    behind = t.get("centre_behind_mm", 0)

    def aims(pose, height, pitch):
        face = Face_normal(pose[1], pitch)
        return np.array([*pose[0], height]) - face * behind
    meant, now = aims(s.meant, s.meant_height, 0), aims(s.target_pose, s.height, s.pitch)
    heading = lambda v: math.degrees(math.atan2(v[1] - s.eye[1], v[0] - s.eye[0]))
    rise = lambda v: math.degrees(math.atan2(v[2] - s.eye[2], math.hypot(*(v - s.eye)[:2])))
    wrap = lambda a: (a + 180) % 360 - 180
    yaw, pitch = wrap(s.target_pose[1] - s.meant[1]), s.pitch
    away = (meant - s.eye)[:2] / np.linalg.norm((meant - s.eye)[:2])
    shift = now - meant
    aim, allowed = s.aiming["tolerance"], p.get("tolerance", {})
    rows = [("azimuth", rule["place"] * abs(wrap(heading(now) - heading(meant))) + rule["squareness"] * abs(yaw), aim["azimuth_deg"]),
            ("elevation", rule["place"] * abs(rise(now) - rise(meant)) + rule["squareness"] * abs(pitch), aim["elevation_deg"]),
            ("along", abs(shift[:2] @ away), allowed.get("along_mm")), ("across", abs(away[0] * shift[1] - away[1] * shift[0]), allowed.get("across_mm")),
            ("height", abs(shift[2]), allowed.get("height_mm")), ("yaw", abs(yaw), allowed.get("yaw_deg")), ("pitch", abs(pitch), allowed.get("pitch_deg"))]
    rows = [(v / limit, n, v, limit) for n, v, limit in rows if limit is not None]
    most = max(rows)
    if most[0] <= 0.5:
        return None
    return dict(about=most[1], value=most[2], limit=most[3], severity="stops" if most[0] > 1 else "care", second=sorted(rows)[-2][0] / most[0],
                azimuth=rule["place"] * abs(wrap(heading(now) - heading(meant))) + rule["squareness"] * abs(yaw),
                elevation=rule["place"] * abs(rise(now) - rise(meant)) + rule["squareness"] * abs(pitch))


def Face_normal(heading, pitch):
    h, p = math.radians(heading), math.radians(pitch)
    return np.array([math.cos(h) * math.cos(p), math.sin(h) * math.cos(p), -math.sin(p)])


def carrying(s):
    on = s.arrangement.get("on_runways", [])
    return [(Polygon(r["corners_mm"]), r["top_mm"]) for r in s.layout.get("runways", []) if r["name"] in on]


def lies(s, at):
    """How high what a mark there lies on is: the floor, or a runway that carries the car."""
    return max([top for steel, top in carrying(s) if steel.covers(Point(at))], default=0.0)


def runs(s):
    found, unsure = set(), set()
    for a, b, line, top in s.runs:
        ends = [lies(s, p) for p in line.coords]
        for name, solid in s.solids.items():
            # A tape goes over 20 mm.
            if solid.bottom >= max(ends) + top or solid.top <= min(ends) + 20:
                continue
            length = solid.shape.polygon.intersection(line).length
            inner = solid.shape.polygon.buffer(-1e-3)
            if length > 0 and not inner.intersects(line):
                unsure.add(f"{name}|{a}|{b}")
            if inner.intersects(line):
                found.add(f"{name}|{a}|{b}")
    return sorted(found), unsure


def mark_places(s):
    found = set()
    for name in s.made:
        at = Point(s.bay_marks[name])
        own = lies(s, at)
        found |= {f"{n}|{name}" for n, solid in [*s.solids.items(), *s.idle.items()]
                  if solid.bottom < own + 400 and solid.top > own and solid.shape.polygon.contains(at)}
        if not s.floor(0, 1).covers(at):
            found.add(f"wall|{name}")
            continue
        if own == 0:
            found |= {f"{f['name']}|{name}" for f in s.layout.get("floor_features", []) if Polygon(f["corners_mm"]).contains(at)}
    return sorted(found)


def together(one, other):
    """How far two solids that share height are in one another: in plan, or in height if one hangs over the other and less
    would do."""
    into = depth(one.shape, other.shape)
    upper, lower = (one, other) if one.bottom > other.bottom else (other, one)
    hangs = upper.bottom > lower.bottom + SPEAKS
    return min(into, lower.top - upper.bottom) if hangs and into > SPEAKS else into


def stand_clashes(s):
    found = {}
    for name, solid in [*s.solids.items(), *s.idle.items()]:
        into = max([together(part, solid) for part in s.stand if part.shares_height(solid) > 0], default=0)
        if into > SPEAKS:
            found[name] = into
    return found


def car_clashes(s):
    """Things that surely share volume with the body, and things that surely do not: by slices 5 mm thick."""
    b, sure, clear = s.body, [], []
    above, beside = Polygon(b["outline_top_mm"]), Polygon(b["outline_side_mm"])
    lowest, highest = -b["wheelbase_mm"] - b["overhang_rear_mm"], b["overhang_front_mm"]
    m = b["mirrors"]
    whole = MultiPoint([*b["outline_top_mm"], (m["ahead_mm"] + 90, m["width_mm"] / 2), (m["ahead_mm"] - 90, m["width_mm"] / 2),
                        (m["ahead_mm"] + 90, -m["width_mm"] / 2), (m["ahead_mm"] - 90, -m["width_mm"] / 2)]).convex_hull
    for name, solid in s.solids.items():
        ring = np.array(solid.shape.polygon.exterior.coords) - np.array(s.pose[0])
        c, n = math.cos(math.radians(s.pose[1])), math.sin(math.radians(s.pose[1]))
        own = Polygon(np.column_stack([ring[:, 0] * c + ring[:, 1] * n, -ring[:, 0] * n + ring[:, 1] * c]))
        low, high = solid.bottom - s.carried, solid.top - s.carried
        if not own.intersects(whole) or low >= b["height_mm"] or high <= 0:
            clear.append(name)
            continue
        for x in np.arange(lowest + 2.5, highest, 5.0):
            side = beside.intersection(Polygon([(x - 1, -10), (x + 1, -10), (x + 1, 9e3), (x - 1, 9e3)])).bounds
            if side and min(high, side[3]) - max(low, side[1]) > 5:
                strip = Polygon([(x - 2, -9e3), (x + 2, -9e3), (x + 2, 9e3), (x - 2, 9e3)])
                if own.intersection(above).intersection(strip).area > 20:
                    sure.append(name)
                    break
    return sure, clear


def mark_off_target(s):
    mark = s.placement.get("mark")
    off = float(np.linalg.norm(s.marks[mark] - np.array(s.meant_in_car))) if mark else 0.0
    return off if off > 1.0 else None


def readings(s):
    """Between all marks that are made, where the tape passes no tyre, nor along the floor through what carries the car. It
    reads the slope from what carries the car to the floor."""
    found = {}
    steel = [own for own, _ in carrying(s)]
    for i, to in enumerate(s.made):
        for start in s.made[:i]:
            tape = LineString([s.bay_marks[start], s.bay_marks[to]])
            ends = [Point(p) for p in tape.coords]
            of_floor = [own for own in steel if all(own.disjoint(end) for end in ends)]
            if all(tape.intersection(own).length < 1e-6 for own in [*s.treads, *of_floor]):
                found[f"{start}|{to}"] = math.hypot(tape.length, lies(s, tape.coords[0]) - lies(s, tape.coords[1]))
    return found


def all_of(s):
    inside, unjudged, near, unsure_zone = zones(s)
    hidden, unsure_sight = sight(s)
    entered, unsure_fresnel = fresnel(s, hidden)
    blocked, unsure_run = runs(s)
    sure, clear = car_clashes(s)
    return dict(
        inside=inside, unjudged=unjudged, near=near, unsure_zone=sorted(unsure_zone), outside=outside(s), hidden=hidden,
        past_walls=sight_past_walls(s), unsure_sight=sorted(unsure_sight), fresnel=entered, unsure_fresnel=sorted(unsure_fresnel),
        field_of_view=field_of_view(s), off_mark=off_mark(s), runs=blocked, unsure_run=sorted(unsure_run), mark_places=mark_places(s),
        stand_clashes=stand_clashes(s), car_sure=sure, car_clear=clear, mark_off_target=mark_off_target(s),
        marks={n: list(p) for n, p in s.bay_marks.items()},
        readings=readings(s))
