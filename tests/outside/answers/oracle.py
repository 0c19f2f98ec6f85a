"""Where everything of an arrangement is and what is wrong with it, worked from what the documents say with shapely (GEOS),
numpy and scipy: nothing of the program's own way of working is used. Millimetres; degrees as in the files."""

import math

import numpy as np
import shapely
from scipy.optimize import minimize
from scipy.spatial import ConvexHull
from shapely import affinity
from shapely.geometry import LineString, MultiPoint, Point, Polygon, box
from shapely.ops import unary_union

from scenes import put

LIGHT = 299_792_458_000.0
METALS = {"Steel", "Aluminium", "Mesh", "CarBody", "Foil"}
KNOWN = {"Taped": 20.0}
# Corners of a polygon that stands for a circle of the same area.
CIRCLE = 2048
SPEAKS = 0.01


def known(value):
    return float(value.fields["mm"]) if value == "Within" else KNOWN[value.name]


class Shape:
    """A plan shape: a shapely polygon, and middle and radius if it is round."""

    def __init__(self, polygon, middle=None, radius=0.0):
        self.polygon, self.middle, self.radius = polygon, middle, radius

    @staticmethod
    def disc(middle, radius):
        r = radius * math.sqrt((2 * math.pi / CIRCLE) / math.sin(2 * math.pi / CIRCLE))
        ring = [(middle[0] + r * math.cos(2 * math.pi * i / CIRCLE), middle[1] + r * math.sin(2 * math.pi * i / CIRCLE)) for i in range(CIRCLE)]
        return Shape(Polygon(ring), np.array(middle, float), radius)

    @staticmethod
    def outline(tag, pose):
        f = tag.fields
        if tag == "Round":
            middle = f.get("middle_mm", (0, 0))
            return Shape.disc(put(pose, middle), f["diameter_mm"] / 2)
        holes = []
        if tag == "Rectangle" and "length_mm" in f:
            a, b = f["length_mm"] / 2, f["width_mm"] / 2
            ring = [(-a, -b), (a, -b), (a, b), (-a, b)]
        elif tag == "Rectangle":
            (x, y), (u, v) = f["from_mm"], f["to_mm"]
            ring = [(x, y), (u, y), (u, v), (x, v)]
        else:
            ring, holes = f["corners_mm"], f.get("holes_mm", [])
        return Shape(Polygon([put(pose, p) for p in ring], [[put(pose, p) for p in h] for h in holes]))

    def distance(self, other):
        """Between two plan shapes, with discs as discs."""
        a = Point(self.middle) if self.middle is not None else self.polygon
        b = Point(other.middle) if other.middle is not None else other.polygon
        return max(0.0, a.distance(b) - self.radius - other.radius)

    def pieces(self):
        if not hasattr(self, "_pieces"):
            whole = shapely.constrained_delaunay_triangles(self.polygon)
            self._pieces = [p for p in whole.geoms if p.area > 0]
        return self._pieces


class Solid:
    def __init__(self, shape, bottom, top):
        self.shape, self.bottom, self.top = shape, bottom, top

    def shares_height(self, other):
        return min(self.top, other.top) - max(self.bottom, other.bottom)

    def gap(self, other):
        """The shortest distance in space."""
        return math.hypot(self.shape.distance(other.shape), max(0.0, -self.shares_height(other)))


def forbidden(fixed, moving):
    """Where the moving shape's origin (its place now) must not go: {f - m}, as the union of sums of convex pieces."""
    if fixed.middle is not None and moving.middle is not None:
        return Point(fixed.middle - moving.middle).buffer(fixed.radius + moving.radius, quad_segs=CIRCLE)
    if moving.middle is not None:
        return affinity.translate(fixed.polygon, *-moving.middle).buffer(moving.radius, quad_segs=CIRCLE)
    mirrored = affinity.scale(moving.polygon, -1, -1, origin=(0, 0))
    if fixed.middle is not None:
        return affinity.translate(mirrored, *fixed.middle).buffer(fixed.radius, quad_segs=CIRCLE)
    sums = []
    for a in fixed.pieces():
        for b in moving.pieces():
            p, q = np.array(a.exterior.coords[:-1]), np.array(b.exterior.coords[:-1])
            sums.append(MultiPoint((p[:, None] - q[None]).reshape(-1, 2)).convex_hull)
    return unary_union(sums)


def depth(fixed, moving):
    """The length of the shortest shift in plan that takes the moving shape off the fixed one; 0 if it is off."""
    region = forbidden(fixed, moving)
    return region.boundary.distance(Point(0, 0)) if region.contains(Point(0, 0)) else 0.0


def above_half_space(points, normal, offset):
    """What of a convex hull of points has normal . p >= offset: the points there and where lines to the others cross."""
    side = points @ normal - offset
    keep, rest = points[side >= 0], points[side < 0]
    if len(keep) == 0 or len(rest) == 0:
        return keep
    s, t = side[side >= 0][:, None, None], side[side < 0][None, :, None]
    crossing = (keep[:, None] * -t + rest[None] * s) / (s - t)
    found = np.concatenate([keep, crossing.reshape(-1, 3)])
    if len(found) > 100:
        # Most of the crossings lie within the hull of the others.
        found = found[ConvexHull(found, qhull_options="QJ").vertices]
    return found


def upright(ring, bottom, top):
    ring = np.asarray(ring, float)
    return np.concatenate([np.column_stack([ring, np.full(len(ring), z)]) for z in (bottom, top)])


class Face:
    def __init__(self, centre, heading, pitch, width, height):
        c, s, cp, sp = (f(math.radians(a)) for a in (heading, pitch) for f in (math.cos, math.sin))
        self.centre = np.array(centre, float)
        self.normal = np.array([c * cp, s * cp, -sp])
        self.left = np.array([-s, c, 0.0])
        self.up = np.cross(self.normal, self.left)
        self.width, self.height = width, height
        self.corners = [self.centre + self.left * (u * width / 2) + self.up * (v * height / 2) for u, v in [(-1, -1), (1, -1), (1, 1), (-1, 1)]]

    def hidden(self, sensor, solid):
        """The share of the face that one solid hides from the sensor: shadows of its convex pieces on the face's plane."""
        reach = (sensor - self.centre) @ self.normal
        if reach <= 0:
            return None
        window = box(-self.width / 2, -self.height / 2, self.width / 2, self.height / 2)
        shape = solid.shape
        pieces = [shape.polygon] if shape.middle is not None else shape.pieces()
        shadows = []
        for piece in pieces:
            points = upright(piece.exterior.coords[:-1], solid.bottom, solid.top)
            if shape.middle is not None:
                # Only near the sensor's or the face's plane do pairs of points matter: keep their number small there.
                points = points[:: 1 if self._between(points, sensor, reach) else 8]
            points = above_half_space(points, -self.normal, -self.normal @ sensor + 1e-3)
            if len(points):
                points = above_half_space(points, self.normal, self.normal @ self.centre)
            if len(points) < 3:
                continue
            away = points - sensor
            hit = sensor + away * (reach / -(away @ self.normal))[:, None]
            flat = np.column_stack([(hit - self.centre) @ self.left, (hit - self.centre) @ self.up])
            shadows.append(MultiPoint(flat).convex_hull)
        shadows = [s for s in shadows if s.area > 0]
        return unary_union(shadows).intersection(window).area / window.area if shadows else 0.0

    def _between(self, points, sensor, reach):
        along = (points - self.centre) @ self.normal
        return bool((along > 0).all() and (along < reach - 1e-3).all())

    def view_hull(self, sensor, bottom, top):
        """The plan of that part of the pyramid from sensor to face that has these heights; None if it has none."""
        points = np.array([sensor, *self.corners])
        points = above_half_space(points, np.array([0, 0, 1.0]), bottom)
        if len(points):
            points = above_half_space(points, np.array([0, 0, -1.0]), -top)
        hull = MultiPoint(points[:, :2]).convex_hull if len(points) else None
        return hull if hull is not None and hull.area > 0 else None


def excess(a, b, solid):
    """How much longer than the direct path the shortest one over a point of the solid is: scipy over its convex pieces."""
    direct = np.linalg.norm(b - a)
    scale, best, at = 100.0, math.inf, None
    shape = solid.shape

    def length(p):
        return np.linalg.norm(p - a) + np.linalg.norm(b - p) - direct

    def search(point, starts, bounds, constraints):
        nonlocal best, at
        for start in starts:
            found = minimize(lambda v: length(point(v)), start, bounds=bounds, constraints=constraints, method="SLSQP",
                             options=dict(ftol=1e-13, maxiter=400))
            for v in (found.x, np.array(start)):
                v = np.clip(v, [lo for lo, _ in bounds], [hi for _, hi in bounds])
                if all(c["fun"](v) >= -1e-9 for c in constraints) and length(point(v)) < best:
                    best, at = length(point(v)), point(v)

    heights = np.array([solid.bottom, solid.top])
    rise = heights[1] - heights[0]
    near = float(np.clip(((a[2] + b[2]) / 2 - heights[0]) / rise, 0, 1))
    if shape.middle is not None:
        along = (b - a)[:2] / np.linalg.norm((b - a)[:2])
        t = np.clip((shape.middle - a[:2]) @ along, 0, np.linalg.norm((b - a)[:2]))
        foot = a[:2] + along * t - shape.middle
        reach = np.linalg.norm(foot)
        start = foot / shape.radius if reach < shape.radius else foot / reach
        search(lambda v: np.array([*(shape.middle + v[:2] * shape.radius), heights[0] + v[2] * rise]),
               [(*start, z) for z in {near, 0.0, 1.0}], [(-1, 1), (-1, 1), (0, 1)],
               [dict(type="ineq", fun=lambda v: 1 - v[0] ** 2 - v[1] ** 2)])
    else:
        for piece in shape.pieces():
            p, q, r = np.array(piece.exterior.coords[:3])
            search(lambda v: np.array([*(p + (q - p) * v[0] + (r - p) * v[1]), heights[0] + v[2] * rise]),
                   [(u, w, z) for u, w in [(1 / 3, 1 / 3), (0, 0), (1, 0), (0, 1)] for z in {near}], [(0, 1), (0, 1), (0, 1)],
                   [dict(type="ineq", fun=lambda v: 1 - v[0] - v[1])])
    return max(best, 0.0), at


class Scene:
    """Everything in its place, bay frame."""

    def __init__(self, car, layout, arrangement):
        self.car, self.layout, self.arrangement, self.body = car, layout, arrangement, car["body"]
        self.aiming = next(a for a in car["aimings"] if a["name"] == arrangement["aiming"])
        self.sensor = next(s for s in car["sensors"] if s["name"] == self.aiming["sensor"])
        self.pose = (arrangement["parked"]["at_mm"], arrangement["parked"]["heading_deg"])
        self.carried = max([r["top_mm"] for r in layout.get("runways", []) if r["name"] in arrangement.get("on_runways", [])], default=0)
        on_car = arrangement.get("on_this_car", {})
        self.sensor_at = on_car.get("sensor_at_mm", self.sensor["at_mm"])
        self.eye = np.array([*put(self.pose, self.sensor_at[:2]), self.sensor_at[2] + self.carried])
        toe = on_car.get("rear_toe")
        thrust = (toe["right_deg"] - toe["left_deg"]) / 2 if toe and self.aiming["axis"] == "ThrustLine" else 0.0
        back = -self.body["wheelbase_mm"]
        # The thrust line passes the middle of the rear axle.
        self.axis = (put(((back, 0), thrust), (-back, 0)), thrust)
        self.place_target()
        self.room()
        self.things = {t["name"]: t for t in self.all_things()}
        self.solids = {n: Solid(Shape.outline(t["shape"], (t["at_mm"], t["turned_deg"])), t["bottom_mm"], t["top_mm"]) for n, t in self.things.items()}
        frames = {"Vehicle": self.pose, "Sensor": (tuple(self.eye[:2]), self.pose[1] + self.sensor["azimuth_deg"]), "Target": self.target_pose}
        self.zones = {z["name"]: (z, Solid(Shape.outline(z["outline"], frames[z["frame"].name]), z["bottom_mm"], z["top_mm"])) for z in self.aiming["zones"]}
        self.idle = {r["name"]: Solid(Shape(Polygon(r["corners_mm"])), 0, r["top_mm"]) for r in layout.get("runways", [])
                     if r["name"] not in arrangement.get("on_runways", [])}
        self.lay_marks()

    def all_things(self):
        moved = {m["thing"]: m for m in self.arrangement.get("moved", [])}
        for t in self.layout.get("things", []):
            if t["name"] not in self.arrangement.get("away", []):
                yield {**t, **{k: v for k, v in moved.get(t["name"], {}).items() if k != "thing"}}
        yield from self.arrangement.get("added", [])

    def wheel(self, name):
        front, side = name.startswith("Front"), 1 if name.endswith("Left") else -1
        return (0 if front else -self.body["wheelbase_mm"], side * self.body["track_front_mm" if front else "track_rear_mm"] / 2)

    def place_target(self):
        p = self.aiming["placements"][0]
        self.placement, t, off, b = p, p["target"], p["stand_off"], self.body
        start = off["from"]
        start = {"FrontAxle": lambda: self.axis[0], "FrontBumper": lambda: put(self.axis, (b["overhang_front_mm"], 0)),
                 "RearBumper": lambda: put(self.axis, (-b["wheelbase_mm"] - b["overhang_rear_mm"], 0)),
                 "Sensor": lambda: self.sensor_at[:2], "Wheel": lambda: self.wheel(start.places[0].name),
                 "BodyPoint": lambda: next(q["at_mm"][:2] for q in self.car["body_points"] if q["name"] == start.places[0])}[start.name]()
        heading = self.axis[1] + off["bearing_deg"]
        end = put((start, heading), (off["distance_mm"], off["aside_mm"]))
        facing = heading + 180 + p["turned_deg"]
        if off["to"] == "ReflectorCentre":
            end = put((end, facing), (t["centre_behind_mm"], 0))
        self.meant_in_car = end
        self.meant = (put(self.pose, end), self.pose[1] + facing)
        self.lies = p["height"] == "OnFloor"
        h = p["height"].fields
        thick = max(t["depth_mm"], 1)
        self.meant_height = (thick if self.lies else h["height_mm"] if p["height"] == "Absolute" else self.eye[2] + h["offset_mm"])
        self.target_pose, self.height, self.pitch = self.meant, self.meant_height, 0.0
        for s in self.arrangement.get("stands", []):
            f = s["set"].fields
            self.target_pose, self.height, self.pitch = (f["at_mm"], f["heading_deg"]), f["height_mm"], f.get("pitch_deg", 0)
        self.face = Face((*self.target_pose[0], self.height), self.target_pose[1], -90 if self.lies else self.pitch, t["width_mm"], t["height_mm"])
        w, pose = t["width_mm"] / 2, self.target_pose

        def rectangle(x, y, u, v):
            return Shape.outline_of([(x, y), (u, y), (u, v), (x, v)], pose)
        if self.lies:
            parts = [Solid(rectangle(-t["height_mm"] / 2, -w, t["height_mm"] / 2, w), 0, thick)]
        else:
            parts = [Solid(rectangle(-thick, -w, 0, w), max(0, self.height - t["height_mm"] / 2), self.height + t["height_mm"] / 2)]
        if "stand" in t:
            s = t["stand"]
            m, back = s["mast_mm"] / 2, -s["mast_behind_mm"]
            parts += [Solid(Shape.outline(s["base"], pose), 0, s["base_height_mm"]),
                      Solid(rectangle(back - m, -m, back + m, m), 0, max(s["top_mm"], self.height))]
        self.stand = parts

    def room(self):
        self.corners = [tuple(p) for p in self.layout["room"]["corners_mm"]]
        self.walls = Polygon(self.corners)
        self.edges = [(f"wall {i + 1}", np.array(p), np.array(q)) for i, (p, q) in enumerate(zip(self.corners, self.corners[1:] + self.corners[:1]))]
        shut = {d["door"]: d["shut"] for d in self.arrangement.get("doors", [])}
        self.ground, self.doors = [], {}
        for o in self.layout.get("openings", []):
            _, p, q = next(e for e in self.edges if e[0] == o["wall"])
            along = (q - p) / np.linalg.norm(q - p)
            out = np.array([along[1], -along[0]])
            start = p + along * o["from_mm"]
            if self.walls.contains(Point(start + along + out)):
                out = -out
            self.doors[o["name"]] = o["wall"]
            if not shut.get(o["name"], o["shut"]):
                end = start + along * o["width_mm"]
                far = out * o["free_beyond_mm"]
                # A hair over the wall, so that the two meet whatever rounding does to it.
                self.ground.append((o.get("bottom_mm", 0), o["top_mm"], Polygon([start - out * 1e-6, end - out * 1e-6, end + far, start + far])))

    def floor(self, bottom, top):
        """Where something of these heights can be: a door that stands open lets through what is no higher than it."""
        return unary_union([self.walls, *[ground for low, high, ground in self.ground if low <= bottom and top <= high]])

    def lay_marks(self):
        half, self.marks, runs = self.body["tyre_width_mm"] / 2, {}, []
        m, target = self.marks, np.array(self.meant_in_car)

        def towards(a, b):
            v = np.array(m[b]) - np.array(m[a])
            return v / np.linalg.norm(v)
        for step in self.aiming["mark_plan"]:
            name, how = step["name"], step["how"]
            f, k = how.fields, how.name
            left = lambda v: np.array([-v[1], v[0]])
            if k == "WheelPoint":
                at = np.array(self.wheel(f["wheel"].name))
            elif k == "Outboard":
                at = np.array(self.wheel(f["wheel"].name))
                at = at + np.array([0, np.sign(at[1]) * (half + f["distance_mm"])])
            elif k == "BodyPoint":
                at = np.array(next(q["at_mm"][:2] for q in self.car["body_points"] if q["name"] == f["point"]), float)
            elif k in ("Prolong", "ProlongAbreast"):
                v = towards(f["from"], f["through"])
                by = f["by_mm"] if k == "Prolong" else (target - m[f["through"]]) @ v
                at = m[f["through"]] + v * by
                # A line prolonged backwards is still laid from both its marks.
                if by < 0:
                    runs += [(f["from"], f["through"], 100), (f["through"], name, 100)]
                else:
                    runs.append((f["from"], name, 100))
            elif k == "Middle":
                at = (m[f["first"]] + m[f["second"]]) / 2
                runs.append((f["first"], f["second"], 20))
            elif k == "Foot":
                line = LineString([m[f["from"]] - towards(f["from"], f["to"]) * 1e5, m[f["from"]] + towards(f["from"], f["to"]) * 1e5])
                at = np.array(line.interpolate(line.project(Point(m[f["of"]]))).coords[0])
                runs += [(f["from"], name, 100), (f["of"], name, 20)]
            elif k == "AlongAside":
                v = towards(f["from"], f["to"])
                at = m[f["from"]] + v * f["along_mm"] + left(v) * f["aside_mm"]
                # Along the line, then square to it: the tape is never laid straight across.
                runs.append((f["from"], name, 20, [m[f["from"]], m[f["from"]] + v * f["along_mm"], at]))
            elif k == "AtAngle":
                v = towards(f["at"], f["towards"])
                at = np.array(put((m[f["at"]], math.degrees(math.atan2(v[1], v[0])) + f["angle_deg"]), (f["distance_mm"], 0)))
                runs.append((f["at"], name, 20))
            elif k == "Crossing":
                (a, b), (c, d) = f["first"], f["second"]
                s = np.linalg.solve(np.column_stack([m[b] - m[a], m[c] - m[d]]), m[c] - m[a])
                at = m[a] + (m[b] - m[a]) * s[0]
                runs += [(a, name, 100), (c, name, 100)]
            else:
                p, q, r, s = m[f["first"]], m[f["second"]], f["from_first_mm"], f["from_second_mm"]
                d = np.linalg.norm(q - p)
                turn = math.acos((r * r + d * d - s * s) / (2 * d * r)) * (1 if f["side"] == "Left" else -1)
                v = (q - p) / d
                at = np.array(put((p, math.degrees(math.atan2(v[1], v[0]) + turn)), (r, 0)))
                runs += [(f["first"], name, 20), (f["second"], name, 20)]
            m[name] = np.array(at, float)
        self.bay_marks = {n: np.array(put(self.pose, p)) for n, p in m.items()}
        self.made = [s["name"] for s in self.aiming["mark_plan"] if s["how"] != "WheelPoint"]
        half_tread, wide = 150.0, half
        wheels = [self.wheel(w) for w in ("FrontLeft", "FrontRight", "RearLeft", "RearRight")]
        self.treads = [Polygon([put(self.pose, (x + u * half_tread, y + v * wide)) for u, v in [(-1, -1), (1, -1), (1, 1), (-1, 1)]]) for x, y in wheels]
        self.runs = [(a, b, LineString([put(self.pose, p) for p in way[0]] if way else [self.bay_marks[a], self.bay_marks[b]]), top)
                     for a, b, top, *way in runs]


def outline_of(ring, pose):
    return Shape(Polygon([put(pose, p) for p in ring]))


Shape.outline_of = staticmethod(outline_of)
