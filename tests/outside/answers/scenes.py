"""Invented cars, aimings, rooms and arrangements, random but plausible, many of them nearly touching something."""

import math
import random

from ron import Tag

CAR_KINDS = ["SmallHatchback", "Saloon", "TallCar", "Van"]
METALS = ["Steel", "Aluminium", "Mesh", "CarBody", "Foil"]
OTHERS = ["Wood", "Plastic", "Rubber", "Brick", "Cloth"]


def tenth(v):
    return round(v, 1)


def place(p):
    return (round(p[0], 4), round(p[1], 4))


def turn(p, deg):
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return (c * p[0] - s * p[1], s * p[0] + c * p[1])


def put(pose, p):
    """A point of a frame at ((x, y), heading) in the frame around it."""
    x, y = turn(p, pose[1])
    return (pose[0][0] + x, pose[0][1] + y)


def pick(rng, *choices):
    return rng.choice(choices)


def body(rng):
    wheelbase, front, rear = rng.randint(2400, 3200), rng.randint(700, 1000), rng.randint(600, 1200)
    width, height = rng.randint(1650, 2000), rng.randint(1400, 2100)
    under, tyre = rng.randint(120, 220), rng.randint(580, 720)
    w, back = width / 2, -wheelbase - rear
    bonnet, screen = rng.randint(750, 1000), -rng.randint(200, 500)
    return dict(
        length_mm=wheelbase + front + rear, width_mm=width, height_mm=height, wheelbase_mm=wheelbase,
        overhang_front_mm=front, overhang_rear_mm=rear,
        track_front_mm=width - rng.randint(240, 300), track_rear_mm=width - rng.randint(240, 300),
        tyre_diameter_mm=tyre, tyre_width_mm=rng.randint(175, 255), ground_clearance_mm=under,
        mirrors=dict(width_mm=width + 240, ahead_mm=-rng.randint(400, 800), height_mm=rng.randint(900, 1100)),
        ride_heights=dict(front_left_mm=370, front_right_mm=370, rear_left_mm=365, rear_right_mm=365),
        outline_top_mm=[(back, -w * 0.7), (back + 300, -w), (front - 500, -w), (front - 60, -w * 0.7), (front, -w * 0.3),
                        (front, w * 0.3), (front - 60, w * 0.7), (front - 500, w), (back + 300, w), (back, w * 0.7)],
        outline_side_mm=[(back, under + 150), (back + 400, under), (front - 200, under), (front, under + 150), (front, 600),
                         (front - 150, bonnet), (screen, bonnet + 150), (screen - 700, height), (back + 500, height),
                         (back, 900)],
    )


def sensors(rng, b):
    front, half, back = b["overhang_front_mm"], b["width_mm"] / 2, -b["wheelbase_mm"] - b["overhang_rear_mm"]

    def radar(kind, width=90):
        return Tag(kind, frequency_ghz=pick(rng, 24.1, 76.5, 79), bandwidth_ghz=pick(rng, 0.2, 0.5, 1),
                   beam_azimuth_deg=20, beam_elevation_deg=10)

    left = pick(rng, 1, -1)
    return [
        dict(name="ahead", kind=radar("ForwardRadar"),
             at_mm=(front - rng.randint(30, 90), rng.randint(-350, 350), rng.randint(350, 700)),
             azimuth_deg=pick(rng, 0, 0, 1.5, -2), elevation_deg=pick(rng, 0, 0, 1, -1.5),
             view_azimuth_deg=rng.choice([20, 40, 90]), view_elevation_deg=rng.choice([10, 14, 24]),
             adjusted=Tag("Screw"), source=Tag("Example")),
        dict(name="corner", kind=radar("CornerRadar"),
             at_mm=(front - 350, left * (half - 120), rng.randint(450, 700)),
             azimuth_deg=left * rng.randint(30, 65), elevation_deg=0, view_azimuth_deg=rng.choice([40, 120]),
             view_elevation_deg=rng.choice([12, 30]), adjusted=Tag("Shim"), source=Tag("Example")),
        dict(name="camera", kind=Tag("ForwardCamera", pixels_across=1920, pixels_down=1208),
             at_mm=(-rng.randint(500, 900), rng.randint(-40, 40), rng.randint(1150, 1400)),
             azimuth_deg=pick(rng, 0, 0.5), elevation_deg=pick(rng, 0, -2), view_azimuth_deg=rng.choice([36, 60]),
             view_elevation_deg=rng.choice([22, 38]), adjusted=Tag("Software"), source=Tag("Example")),
        dict(name="rear view", kind=Tag("SurroundCamera", pixels_across=1280, pixels_down=960),
             at_mm=(back + 40, 0, rng.randint(900, 1150)), azimuth_deg=180, elevation_deg=-rng.randint(30, 50),
             view_azimuth_deg=rng.choice([90, 175]), view_elevation_deg=rng.choice([70, 130]), adjusted=Tag("Software"),
             source=Tag("Example")),
    ]


def mark_plan(rng, ahead):
    """The usual ways and some unusual ones; M leads to the place abreast of the target on the centreline."""
    gap = rng.choice([100, 150, 200])
    plan = [(n, Tag("Outboard", wheel=Tag(w), distance_mm=gap)) for n, w in
            [("RL", "RearLeft"), ("RR", "RearRight"), ("FL", "FrontLeft"), ("FR", "FrontRight")]]
    kind = rng.randrange(5)
    if kind == 0:
        plan += [("L", Tag("Prolong", **{"from": "RL"}, through="FL", by_mm=ahead)),
                 ("R", Tag("Prolong", **{"from": "RR"}, through="FR", by_mm=ahead)), ("M", Tag("Middle", first="L", second="R"))]
    elif kind == 1:
        plan += [("A", Tag("Middle", first="RL", second="RR")), ("B", Tag("Middle", first="FL", second="FR")),
                 ("M", Tag("Prolong", **{"from": "A"}, through="B", by_mm=ahead)),
                 ("S", Tag("AlongAside", **{"from": "M"}, to="B", along_mm=rng.randint(0, 200), aside_mm=rng.randint(-600, 600)))]
    elif kind == 2:
        plan += [("W", Tag("WheelPoint", wheel=Tag("FrontLeft"))), ("X", Tag("Crossing", first=("FL", "RR"), second=("FR", "RL"))),
                 ("B", Tag("Middle", first="FL", second="FR")), ("F", Tag("Foot", of="W", **{"from": "X"}, to="B")),
                 ("M", Tag("ProlongAbreast", **{"from": "X"}, through="F", of="target"))]
    elif kind == 3:
        reach = rng.randint(1900, 2600)
        plan += [("T", Tag("TwoDistances", first="FR", from_first_mm=reach, second="FL", from_second_mm=reach + rng.randint(-60, 60),
                           side=Tag("Right"))), ("P", Tag("BodyPoint", point="badge")),
                 ("M", Tag("AtAngle", at="FL", towards="RL", angle_deg=rng.choice([165, 180, -160]), distance_mm=ahead)),
                 ("Q", Tag("AlongAside", **{"from": "P"}, to="T", along_mm=600, aside_mm=-300))]
    else:
        plan += [("P", Tag("BodyPoint", point="badge")), ("A", Tag("Middle", first="RL", second="RR")),
                 ("M", Tag("Prolong", **{"from": "A"}, through="P", by_mm=ahead - 800)),
                 ("N", Tag("Prolong", **{"from": "A"}, through="P", by_mm=-500)),
                 ("D", Tag("Foot", of="FL", **{"from": "A"}, to="M"))]
    return [dict(name=n, how=h) for n, h in plan]


def stand(rng, width):
    side = rng.choice([400, 500, 600])
    base = rng.choice([Tag("Rectangle", from_mm=(-side, -side / 2), to_mm=(100, side / 2)),
                       Tag("Round", middle_mm=(-150, 0), diameter_mm=side)])
    return dict(base=base, base_height_mm=rng.choice([40, 80]), mast_mm=40, mast_behind_mm=160, top_mm=rng.choice([700, 1500]))


def zones(rng, frame_of_target):
    """One to three zones in the three frames; outlines with and without corners that turn in, round, with holes."""
    found = []
    for i in range(rng.choice([1, 2, 2, 3])):
        frame = rng.choice([Tag("Vehicle"), Tag("Sensor"), Tag("Target", frame_of_target)])
        target, x = frame == "Target", rng.choice([60, 120, 300])
        long, wide = rng.randint(900, 3200), rng.randint(500, 1400)
        if frame == "Vehicle":
            x += 900
        if target:
            x, long = -rng.randint(200, 1500), rng.randint(1500, 3000)
        shape = rng.randrange(7)
        if shape < 2:
            outline = Tag("Rectangle", from_mm=(x, -wide), to_mm=(x + long, wide - rng.randint(0, 300)))
        elif shape == 2:
            outline = Tag("Corners", corners_mm=[(x, -150), (x + long, -wide), (x + long, wide), (x, 150)])
        elif shape == 3:
            outline = Tag("Round", middle_mm=(x + long / 2, rng.randint(-200, 200)), diameter_mm=long)
        elif shape == 4:
            outline = Tag("Corners", corners_mm=[(x, -wide), (x + long, -wide), (x + long, 0), (x + long / 2, 0),
                                                 (x + long / 2, wide), (x, wide)])
        elif shape == 5:
            outline = Tag("Corners", corners_mm=[(x, -wide), (x + long, -wide), (x + long, wide), (x, wide), (x, wide - 200),
                                                 (x + long - 250, wide - 200), (x + long - 250, -wide + 300), (x, -wide + 300)])
        else:
            outline = Tag("Corners", corners_mm=[(x, -wide), (x + long, -wide), (x + long, wide), (x, wide)],
                          holes_mm=[[(x + long * 0.3, -wide / 2), (x + long * 0.7, -wide / 3), (x + long * 0.6, wide / 2)]])
        found.append(dict(
            name=f"zone {i + 1}", frame=frame, outline=outline, bottom_mm=rng.choice([0, 0, 0, 200, 400]),
            top_mm=rng.choice([900, 1500, 2000, 2500]),
            excludes=rng.choice([Tag("Metal"), Tag("Metal"), Tag("Anything"), Tag("Anything"), Tag("People"), Tag("Light"),
                                 Tag("Reflecting", level_dbsm=10)])))
    return found


def aiming(rng, name, sensor, b, kind):
    at = sensor["at_mm"]
    distance = rng.choice([1500, 2000, 2500, 3000, 3500])
    errors = {}
    if kind == "reflector":
        target = dict(kind=Tag(rng.choice(["CornerReflector", "CornerReflector", "ActiveDevice"])), width_mm=200, height_mm=rng.choice([200, 260]),
                      depth_mm=110)
        if target["kind"] == "CornerReflector":
            target["centre_behind_mm"] = 80
    elif kind == "plate":
        target = dict(kind=Tag("Plate"), width_mm=rng.choice([400, 500]), height_mm=rng.choice([400, 500]), depth_mm=30)
    elif kind == "board":
        target = dict(kind=Tag("Board"), width_mm=rng.choice([1000, 1400]), height_mm=rng.choice([700, 1000]), depth_mm=25,
                      aims_by=dict(place=1, squareness=rng.choice([0, 0.2, 0.5])))
    else:
        target = dict(kind=Tag("Mat"), width_mm=rng.choice([1200, 2000]), height_mm=rng.choice([600, 1000]), depth_mm=rng.choice([0, 3]))
    if kind != "mat":
        target["stand"] = stand(rng, target["width_mm"])
    bearing, aside = 0, rng.choice([0, 0, -120, 200])
    start = rng.choice([Tag("FrontAxle"), Tag("FrontBumper"), Tag("Sensor"), Tag("BodyPoint", "badge"), Tag("Wheel", Tag("FrontLeft"))])
    if sensor["name"] == "corner":
        start, bearing = Tag("Sensor"), sensor["azimuth_deg"] + rng.choice([0, 0, 8, -12])
        distance = rng.choice([900, 1300, 2000])
    if kind == "mat":
        start, bearing, distance, aside = Tag("RearBumper"), 180, rng.choice([700, 1000, 1400]), rng.choice([0, 150])
    if start == "FrontAxle" or start == "Wheel":
        distance += b["overhang_front_mm"]
    height = (Tag("OnFloor") if kind == "mat" else Tag("Absolute", height_mm=rng.choice([1100, 1300])) if kind == "board"
              else rng.choice([Tag("FromSensor", offset_mm=rng.choice([0, 0, -40, 60])), Tag("Absolute", height_mm=at[2] + rng.randint(-60, 60))]))
    plan = mark_plan(rng, distance + (b["overhang_front_mm"] if start == "FrontBumper" else 0))
    tolerance = dict(along_mm=10, across_mm=5, height_mm=5)
    if kind in ("plate", "board"):
        tolerance.update(yaw_deg=0.3, pitch_deg=0.5)
    off = dict(name="target", target=target,
               stand_off=dict(**{"from": start}, to=Tag("ReflectorCentre" if "centre_behind_mm" in target and rng.random() < 0.6 else "Face"),
                              distance_mm=distance, bearing_deg=bearing, aside_mm=aside, along=Tag("Floor")),
               height=height, vertical=Tag("Gravity"), turned_deg=rng.choice([0, 0, 0, 10, -5]) if kind != "mat" else 0)
    if rng.random() < 0.4:
        off["mark"] = "M"
    off["tolerance"] = tolerance
    return dict(name=name, sensor=sensor["name"], source=Tag("Example"),
                axis=Tag(rng.choice(["GeometricCentreline", "GeometricCentreline", "ThrustLine"])),
                tolerance=dict(azimuth_deg=rng.choice([0.2, 0.5]), elevation_deg=rng.choice([0.3, 0.5])),
                working_room_mm=rng.choice([0, 300, 600]), mark_plan=plan, placements=[off], zones=zones(rng, "target"))


def profile(rng, number):
    b = body(rng)
    s = sensors(rng, b)
    aims = [aiming(rng, f"aiming {i + 1}", s[k], b, kind) for i, (k, kind) in enumerate(
        [(0, "plate"), (0, "reflector"), (1, "reflector"), (2, "board"), (3, "mat"), (0, "reflector"), (0, "plate"), (1, "plate")])]
    return dict(version=1, name=f"Invented car {number}", **{"class": Tag(rng.choice(CAR_KINDS))}, source=Tag("Example"), body=b,
                body_points=[dict(name="badge", at_mm=(b["overhang_front_mm"] - 10, rng.randint(-3, 3), 650))], sensors=s, aimings=aims)


def thing(rng, name, at, turned, near=None):
    round_one, kind = rng.random() < 0.3, "Other"
    if round_one:
        shape = Tag("Round", diameter_mm=rng.choice([80, 120, 300, 420, 580]))
    elif rng.random() < 0.75:
        shape = Tag("Rectangle", length_mm=rng.choice([60, 300, 600, 900, 1500]), width_mm=rng.choice([40, 250, 450, 600]))
    else:
        a, b = rng.randint(300, 900), rng.randint(250, 700)
        shape = Tag("Outline", corners_mm=rng.choice([
            [(-a, -b), (a, -b), (a, -b + 120), (-a + 120, -b + 120), (-a + 120, b), (-a, b)],
            [(-a, -b), (a, 0), (-a, b), (-a / 2, 0)],
            [(-a, -b), (a, -b), (a, b), (a - 100, b), (a - 100, -b + 100), (-a + 100, -b + 100), (-a + 100, b), (-a, b)]]))
    bottom, top = 0, rng.choice([90, 300, 450, 600, 860, 1200, 1900])
    if rng.random() < 0.25:
        bottom = rng.choice([15, 60, 300, 700, 1600, 2100])
        top = bottom + rng.choice([50, 300, 600])
    material = rng.choice([*METALS, *METALS, *OTHERS, "Unknown"])
    if rng.random() < 0.12:
        kind, material = rng.choice([("Person", "Person"), ("Lamp", "Plastic"), ("LiftArm", "Steel")])
    return dict(name=name, kind=Tag(kind), shape=shape, at_mm=place(at), turned_deg=round(turned, 3), bottom_mm=bottom, top_mm=top,
                material=Tag(material), known=rng.choice([Tag("Taped"), Tag("Within", mm=50), Tag("Within", mm=rng.choice([0, 5, 100]))]),
                effort=Tag(rng.choice(["OnePerson", "OnePerson", "TwoPeople", "ForkLift", "Fixed"])))


def room(rng, number):
    long, wide = rng.randint(9500, 14000), rng.randint(5500, 8500)
    corners = [(0, 0), (long, 0), (long, wide), (0, wide)]
    if number % 3 == 1:
        corners = [(0, 0), (long, 0), (long, wide * 0.62), (long * 0.7, wide * 0.62), (long * 0.7, wide), (0, wide)]
    if number % 3 == 2:
        corners = [(0, 0), (long * 0.5, 0), (long, 400), (long - 300, wide), (0, wide)]
    tilt = [0, 17.3, -8, 90][number % 4]
    origin = (rng.randint(-2000, 2000), rng.randint(-2000, 2000)) if tilt else (0, 0)
    corners = [place(put((origin, tilt), p)) for p in corners]
    if number % 5 == 4:
        corners = corners[::-1]
    return (origin, tilt), long, wide, corners


def layout(rng, number, cars, arrangements):
    frame, long, wide, corners = room(rng, number)
    first = 0 if number % 5 != 4 else len(corners) - 2
    value = dict(version=1, name=f"Invented room {number}", source=Tag("Example"),
                 room=dict(corners_mm=corners, walls=[dict(name=f"wall {i + 1}", material=Tag("Brick")) for i in range(len(corners))],
                           ceiling_mm=rng.choice([2800, 3500]), walls_known=rng.choice([Tag("Taped"), Tag("Within", mm=50)])),
                 openings=[], floor_features=[], runways=[], things=[], arrangements=[])
    if number % 2 == 0:
        # In the short wall ahead, which stands at the same place of either list.
        wall = 1 if number % 3 != 2 else 2
        if number % 5 == 4:
            wall = len(corners) - 2 - wall
        value["openings"].append(dict(name="door", kind=Tag("RollerDoor"), wall=f"wall {wall + 1}", from_mm=700, width_mm=2600, top_mm=rng.choice([1400, 1900, 2600]),
                                      material=Tag("Steel"), shut=rng.random() < 0.4, free_beyond_mm=1500))
    if number % 3 == 0:
        at = (rng.uniform(0.4, 0.8) * long, rng.uniform(0.3, 0.7) * wide)
        value["floor_features"].append(dict(name="drain", kind=Tag(rng.choice(["Drain", "Pit", "Joint"])), material=Tag("Steel"),
                                            corners_mm=[place(put(frame, (at[0] + dx, at[1] + dy))) for dx, dy in
                                                        [(0, 0), (300, 0), (300, 250), (0, 250)]]))
    for i in range(5):
        at = put(frame, (rng.uniform(0.1, 0.9) * long, rng.uniform(0.1, 0.9) * wide))
        value["things"].append(thing(rng, f"thing {i + 1}", at, frame[1] + rng.choice([0, 0, 37.5, rng.uniform(-90, 90)])))
    for i in range(arrangements):
        car = cars[rng.randrange(len(cars))]
        aim = car["aimings"][rng.randrange(len(car["aimings"]))]
        mat = aim["placements"][0]["height"] == "OnFloor"
        x = rng.uniform(0.28, 0.42 if rng.random() < 0.7 else 0.62) * long if not mat else rng.uniform(0.6, 0.8) * long
        pose = (put(frame, (x, rng.uniform(0.4, 0.6) * (0.62 if number % 3 == 1 else 1) * wide)), round(frame[1] + rng.choice([0, 0, 1.5, -3, rng.uniform(-8, 8)]), 3))
        if number % 3 == 1 and i < 3:
            # Looking past the corner that the room turns in.
            pose = (put(frame, (rng.uniform(0.4, 0.5) * long, rng.uniform(0.62, 0.75) * wide)), round(frame[1] - rng.uniform(10, 30), 3))
        pose = (place(pose[0]), pose[1])
        value["arrangements"].append(dict(name=f"{number}.{i + 1}", vehicle=car["file"], aiming=aim["name"],
                                          parked=dict(at_mm=pose[0], heading_deg=pose[1])))
    if number % 4 == 3:
        # Runways under the first arrangement's car, which the others leave idle.
        one = value["arrangements"][0]
        car = next(c for c in cars if c["file"] == one["vehicle"])
        pose = (one["parked"]["at_mm"], one["parked"]["heading_deg"])
        for name, side in [("left runway", 1), ("right runway", -1)]:
            y, back = side * car["body"]["track_front_mm"] / 2, -car["body"]["wheelbase_mm"] - 500
            value["runways"].append(dict(name=name, top_mm=140, corners_mm=[place(put(pose, (px, y + py))) for px, py in
                                                                            [(back, -260), (500, -260), (500, 260), (back, 260)]]))
        one["on_runways"] = ["left runway", "right runway"]
    return {k: v for k, v in value.items() if v != []}


def furnish(rng, arrangement, layout_value, spots):
    """Moves some things, and adds some where they nearly touch what the oracle says is there: (place, turned) spots with
    `flush` the half width of a rectangle that just touches an edge there, or the heights of what passes under or over."""
    added = []
    for i, (at, turned, flush) in enumerate(spots):
        one = thing(rng, f"extra {i + 1}", at, turned)
        if isinstance(flush, tuple):
            one["bottom_mm"], one["top_mm"] = flush
        elif flush is not None:
            one["shape"] = Tag("Rectangle", length_mm=500, width_mm=2 * flush)
        added.append(one)
    if added:
        arrangement["added"] = added
    if rng.random() < 0.5 and "things" in layout_value:
        one = rng.choice(layout_value["things"])
        arrangement["moved"] = [dict(thing=one["name"], at_mm=place((one["at_mm"][0] + rng.uniform(-1500, 1500), one["at_mm"][1] + rng.uniform(-1500, 1500))),
                                     turned_deg=round(rng.uniform(-180, 180), 2))]
    if rng.random() < 0.25:
        arrangement["away"] = [layout_value["things"][-1]["name"]]
        if "moved" in arrangement and arrangement["moved"][0]["thing"] == arrangement["away"][0]:
            del arrangement["away"]
