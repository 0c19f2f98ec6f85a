"""Asks a built program about the layouts and lists where it and the oracle disagree."""

import copy
import json
import pathlib
import subprocess
import tempfile

import ron

NAMES = {"zone-object": "inside", "zone-unjudged": "unjudged", "zone-near": "near"}


def ask(program, layout, cars):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "bay-layouts").mkdir()
        (folder / "vehicle-profiles").mkdir()
        for car in cars:
            (folder / "vehicle-profiles" / f"{car['file']}.ron").write_text(ron.document({k: v for k, v in car.items() if k != "file"}, "test"))
        path = folder / "bay-layouts" / "x.ron"
        path.write_text(ron.document(layout, "test"))
        out = subprocess.run([program, "--date", "2026-11-02", "check", "--json", str(path)], capture_output=True, text=True)
        if out.returncode > 1:
            raise SystemExit(out.stderr + out.stdout[:2000])
        return json.loads(out.stdout)["arrangements"]


class Disagreements:
    def __init__(self):
        self.lines, self.agreed = [], {}

    def check(self, where, what, ok, detail):
        self.agreed.setdefault(what, [0, 0])[0 if ok else 1] += 1
        if not ok:
            self.lines.append(f"{where} {what}: {detail}")


def key(f):
    return "|".join(n for s in f["subjects"] for n in (s.get("name") or [s["kind"]]))


def by_code(answer, code):
    return {key(f): f for f in answer["findings"] if f["code"] == code}


def same_sets(d, where, what, theirs, ours, unsure=()):
    for k in sorted((set(theirs) ^ set(ours)) - set(unsure)):
        d.check(where, what + " which", False, f"{k} only in {'program' if k in theirs else 'oracle'}: {theirs.get(k, ours.get(k)) if isinstance(ours, dict) else ''}"[:300])
    return sorted(set(theirs) & set(ours))


def one(d, where, answer, expected, doors):
    for code, name in NAMES.items():
        theirs, ours = {k: f for k, f in by_code(answer, code).items() if f["subjects"][0]["kind"] in ("thing", "runway", "wall")}, expected[name]
        for k in same_sets(d, where, name, theirs, ours, expected["unsure_zone"]):
            want = ours[k].get("depth", ours[k].get("gap"))
            got = theirs[k]["measured"]["value"]
            d.check(where, name, abs(got - want) < 0.02, f"{k}: program {got}, oracle {want}")
    outside = {}
    for f in answer["findings"]:
        if f["code"] == "outside-room":
            name = f["subjects"][0]["name"][0]
            wall = doors.get(f["subjects"][1].get("name", ["?"])[0], f["subjects"][1].get("name", ["?"])[0])
            outside.setdefault(name, {})[wall] = max(f["measured"]["value"], outside.get(name, {}).get(wall, 0))
    for k in same_sets(d, where, "outside", outside, expected["outside"]):
        want = expected["outside"][k]["depth"]
        d.check(where, "outside", abs(max(outside[k].values()) - want) < 0.5, f"{k}: program {outside[k]}, oracle {expected['outside'][k]}")
        walls = {w: v for w, v in expected["outside"][k]["walls"].items()}
        for w in sorted(set(walls) | set(outside[k])):
            d.check(where, "outside by wall", abs(walls.get(w, 0) - outside[k].get(w, 0)) < 2, f"{k} {w}: program {outside[k]}, oracle {walls}")
    theirs = {f["subjects"][0]["name"][0]: f for f in answer["findings"] if f["code"] == "sight-blocked" and f["subjects"][0]["kind"] in ("thing", "runway")}
    away = any(f["code"] == "sight-blocked" and f["subjects"][0]["kind"] == "target" for f in answer["findings"])
    if expected["hidden"] is None or away:
        d.check(where, "faces away", expected["hidden"] is None and away, f"program {away}, oracle {expected['hidden']}")
    else:
        for k in same_sets(d, where, "sight", theirs, expected["hidden"], expected["unsure_sight"]):
            d.check(where, "sight", abs(theirs[k]["measured"]["value"] - expected["hidden"][k]) < 2e-4, f"{k}: program {theirs[k]['measured']['value']}, oracle {expected['hidden'][k]}")
    walls = [f["measured"]["value"] for f in answer["findings"] if f["code"] == "sight-blocked" and f["subjects"][0]["kind"] == "wall"]
    d.check(where, "sight past walls", abs(max(walls, default=0) - expected["past_walls"]) < 1, f"program {walls}, oracle {expected['past_walls']}")
    theirs = {f["subjects"][0]["name"][0]: f for f in answer["findings"] if f["code"] == "fresnel-entered"}
    for k in same_sets(d, where, "fresnel", theirs, expected["fresnel"], [*expected["unsure_fresnel"], *expected["unsure_sight"]]):
        got, want = theirs[k]["measured"]["value"], expected["fresnel"][k]
        d.check(where, "fresnel", abs(got - want["ratio"]) < 1e-3 and theirs[k]["severity"] == want["severity"], f"{k}: program {got}, oracle {want}")
    got, want = list(by_code(answer, "field-of-view").values()), expected["field_of_view"]
    ok = bool(got) == bool(want) and (not got or (abs(got[0]["measured"]["value"] - want["angle"]) < 1e-5 and got[0]["severity"] == want["severity"]))
    d.check(where, "field of view", ok, f"program {got and got[0]['measured']}, oracle {want}")
    got, want = list(by_code(answer, "stand-off-mark").values()), expected["off_mark"]
    ok = bool(got) == bool(want) and (not got or (abs(got[0]["measured"]["value"] - want["value"]) < 0.01 and got[0]["severity"] == want["severity"]))
    d.check(where, "off mark", ok, f"program {got and [got[0]['measured'], got[0]['limit']]}, oracle {want}")
    same_sets(d, where, "run blocked", {k for k, f in by_code(answer, "run-blocked").items() if f["subjects"][0]["kind"] == "thing"}, set(expected["runs"]), expected["unsure_run"])
    d.check(where, "runs agree", True, "")
    places = {("wall|" + k.split("|")[1]) if k.startswith(("wall", "door")) else k for k in by_code(answer, "mark-place")}
    d.check(where, "mark places", places == set(expected["mark_places"]), f"program {sorted(places)}, oracle {expected['mark_places']}")
    theirs = {f["subjects"][0]["name"][0]: f for f in answer["findings"] if f["code"] == "stand-clash" and f["subjects"][0]["kind"] in ("thing", "runway") and f["measured"]}
    for k in same_sets(d, where, "stand clash", theirs, expected["stand_clashes"]):
        d.check(where, "stand clash", abs(theirs[k]["measured"]["value"] - expected["stand_clashes"][k]) < 0.02, f"{k}: program {theirs[k]['measured']['value']}, oracle {expected['stand_clashes'][k]}")
    clash = {f["subjects"][0]["name"][0] for f in answer["findings"] if f["code"] == "car-clash" and f["subjects"][0]["kind"] == "thing"}
    for k in expected["car_sure"]:
        d.check(where, "car clash sure", k in clash, k)
    for k in expected["car_clear"]:
        d.check(where, "car clash clear", k not in clash, k)
    got = [f["measured"]["value"] for f in answer["findings"] if f["code"] == "mark-off-target"]
    want = expected["mark_off_target"]
    d.check(where, "mark off target", bool(got) == bool(want) and (not got or abs(got[0] - want) < 0.02), f"program {got}, oracle {want}")
    for m in answer["marks"]:
        want = expected["marks"][m["name"]]
        d.check(where, "marks", m["at_mm"] is not None and max(abs(a - b) for a, b in zip(m["at_mm"], want)) < 0.0051, f"{m['name']}: {m['at_mm']} {want}")
    got = {f"{r['from']}|{r['to']}": r["distance_mm"] for r in answer["readings"]}
    for k in same_sets(d, where, "readings", got, expected["readings"]):
        d.check(where, "readings", abs(got[k] - expected["readings"][k]) < 0.0051, f"{k}: {got[k]} {expected['readings'][k]}")


def run(program, here, cars, layouts, table):
    d = Disagreements()
    for layout in layouts:
        doors = {o["name"]: o["wall"] for o in layout.get("openings", [])}
        for answer in ask(program, layout, cars):
            one(d, answer["arrangement"], answer, table[answer["arrangement"]], doors)
    moves = {}
    try:
        import cures
        moves = cures.run(program, cars, layouts, d, ask)
    except ImportError:
        pass
    print("\n".join(d.lines))
    for what, (ok, bad) in sorted(d.agreed.items()):
        print(f"{what:20} agreed {ok:5}  disagreed {bad}")
    return moves
