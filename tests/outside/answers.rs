//! Whole arrangements against an independent oracle: shapely on GEOS, numpy and scipy (`answers/expected.json` names their
//! versions). `answers.py` invents 84 arrangements in 14 rooms with 4 cars from a fixed seed, nearly touching wherever it
//! can, and works every answer out from what the documents say: shapely's booleans, distances and sums of convex pieces for
//! zones and moves, its own projection for what is hidden, scipy's minimisation for the first Fresnel zone.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::OnceLock;

use baywright_files::{Library, parse_layout, resolve};
use baywright_geometry::angle;
use baywright_planner::model::{Arrangement, Exclusion, KeepClear};
use baywright_planner::{
    Assessment, Code, Facts, Finding, InZone, OffBy, OffPlace, Quantity, Severity, Step, Subject, assess,
};
use serde::Deserialize;

/// Lengths, mm: the script's stand-in for a circle, of 2048 corners and the same area, is off by up to 1e-3 mm at the
/// largest radius here; the sums of convex pieces are exact to 1e-6 mm.
const LENGTH: f64 = 2e-3;
/// Areas, mm²: the same along an outline of a few metres.
const AREA: f64 = 5.0;
/// Shares of a target: the round thing's stand-in, seen up to ten times larger on a face of some hundred millimetres.
const SHARE: f64 = 1e-4;
/// Ratios of the first Fresnel zone: scipy ends its search within 1e-9 mm of excess or so, which matters where the ratio
/// is small, since it is the root of the excess.
const RATIO: f64 = 2e-4;
/// How far something reaches out of a room, mm: the script takes points 2 mm apart along every edge.
const REACH: f64 = 0.5;
/// Past a corner of the room, points inside what reaches out matter too; they lie 20 mm apart.
const PAST_WALLS: f64 = 1.0;
/// Angles, degrees: the table keeps millionths.
const ANGLE: f64 = 2e-6;
/// A move is rounded up to whole millimetres, or in a pocket ends at most 2 mm each way beside its tip.
const WHOLE: f64 = 1.0 + 2.83;
/// A way that causes nothing may be this much longer than the shortest, as `cure` says.
const DETOUR: f64 = 2.0;

#[derive(Deserialize)]
struct Table {
    library: String,
    arrangements: BTreeMap<String, Expected>,
    moves: BTreeMap<String, BTreeMap<String, Move>>,
}

#[derive(Deserialize)]
struct Expected {
    inside: BTreeMap<String, Intrusion>,
    unjudged: BTreeMap<String, Intrusion>,
    near: BTreeMap<String, Gap>,
    unsure_zone: BTreeSet<String>,
    outside: BTreeMap<String, Reach>,
    hidden: Option<BTreeMap<String, f64>>,
    past_walls: f64,
    unsure_sight: BTreeSet<String>,
    fresnel: BTreeMap<String, Entered>,
    unsure_fresnel: BTreeSet<String>,
    field_of_view: Option<View>,
    off_mark: Option<OffMark>,
    runs: BTreeSet<String>,
    unsure_run: BTreeSet<String>,
    mark_places: BTreeSet<String>,
    stand_clashes: BTreeMap<String, f64>,
    car_sure: BTreeSet<String>,
    car_clear: BTreeSet<String>,
    mark_off_target: Option<f64>,
    marks: BTreeMap<String, [f64; 2]>,
    readings: BTreeMap<String, f64>,
}

#[derive(Deserialize)]
struct Intrusion {
    depth: f64,
    area: f64,
    low: f64,
    high: f64,
}

#[derive(Deserialize)]
struct Gap {
    gap: f64,
}

#[derive(Deserialize)]
struct Reach {
    depth: f64,
}

#[derive(Deserialize)]
struct Entered {
    ratio: f64,
    severity: String,
}

#[derive(Deserialize)]
struct View {
    angle: f64,
    half: f64,
    severity: String,
}

#[derive(Deserialize)]
struct OffMark {
    about: String,
    value: f64,
    limit: f64,
    severity: String,
    azimuth: f64,
    elevation: f64,
}

#[derive(Deserialize)]
struct Move {
    least: f64,
    detour: bool,
}

struct Case {
    name: String,
    expected: Expected,
    arrangement: Arrangement,
    answer: Assessment,
}

impl Case {
    /// Findings of a code about one of these kinds of subjects, by all their subjects' names.
    fn found(&self, code: Code, about: fn(&Subject) -> bool) -> BTreeMap<String, &Finding> {
        let of_code = self.answer.findings.iter().filter(|f| f.code() == code && about(&f.subjects[0]));
        of_code.map(|f| (f.subjects.iter().map(name).collect::<Vec<_>>().join("|"), f)).collect()
    }

    /// The same by the first subject alone.
    fn by_first(&self, code: Code, about: fn(&Subject) -> bool) -> BTreeMap<String, &Finding> {
        let of_code = self.answer.findings.iter().filter(|f| f.code() == code && about(&f.subjects[0]));
        of_code.map(|f| (name(&f.subjects[0]), f)).collect()
    }

    /// The names that both have; what only one has must be unsure.
    fn both<A, B>(
        &self,
        what: &str,
        found: &BTreeMap<String, A>,
        expected: &BTreeMap<String, B>,
        unsure: &BTreeSet<String>,
    ) -> Vec<String> {
        for key in found.keys().filter(|key| !expected.contains_key(*key)) {
            assert!(unsure.contains(key), "{}: {what} {key} is not expected", self.name);
        }
        for key in expected.keys().filter(|key| !found.contains_key(*key)) {
            assert!(unsure.contains(key), "{}: {what} {key} is not found", self.name);
        }
        found.keys().filter(|key| expected.contains_key(*key)).cloned().collect()
    }

    /// The zones that keep out what reflects more than a level.
    fn by_level(&self) -> BTreeSet<String> {
        let is_by_level = |own: &&KeepClear| matches!(own.excludes, Exclusion::Reflecting(_));
        self.arrangement.aiming.zones.iter().filter(is_by_level).map(|own| own.id.to_string()).collect()
    }

    fn near(&self, what: &str, found: f64, expected: f64, within: f64) {
        let name = &self.name;
        assert!((found - expected).abs() <= within, "{name}: {what} {found}, expected {expected}");
    }
}

fn solid(subject: &Subject) -> bool {
    matches!(subject, Subject::Thing(_) | Subject::Runway(_))
}

fn thing(subject: &Subject) -> bool {
    matches!(subject, Subject::Thing(_))
}

fn name(subject: &Subject) -> String {
    match subject {
        Subject::Thing(id)
        | Subject::Zone(id)
        | Subject::Target(id)
        | Subject::Stand(id)
        | Subject::Wall(id)
        | Subject::Opening(id)
        | Subject::FloorFeature(id)
        | Subject::Runway(id)
        | Subject::KeepFree(id)
        | Subject::HallBay(id)
        | Subject::Mark(id) => id.to_string(),
        Subject::Run(from, to) => format!("{from}|{to}"),
        other => format!("{other:?}"),
    }
}

fn number(finding: &Finding) -> f64 {
    match finding.measured {
        Some(Quantity::Length(v) | Quantity::Share(v) | Quantity::Ratio(v)) => v,
        Some(Quantity::Angle(v)) => angle::degrees(v),
        other => panic!("{:?} measures {other:?}", finding.code()),
    }
}

fn severity(finding: &Finding) -> &'static str {
    match finding.severity {
        Severity::Stops => "stops",
        Severity::Care => "care",
        Severity::Note => "note",
    }
}

fn table() -> Table {
    serde_json::from_str(include_str!("answers/expected.json")).unwrap()
}

/// Every arrangement of the folder with its answer, worked out once for all tests.
fn cases() -> &'static [Case] {
    static CASES: OnceLock<Vec<Case>> = OnceLock::new();
    CASES.get_or_init(answered)
}

fn answered() -> Vec<Case> {
    let folder = Path::new("tests/outside/answers");
    let library = Library::folders(vec![folder.to_owned()]);
    let mut expected = table().arrangements;
    let mut cases = Vec::new();
    for room in 0.. {
        let file = format!("room-{room}.ron");
        let Ok(text) = std::fs::read_to_string(folder.join(&file)) else { break };
        let layout = parse_layout(&file, "room", &text).unwrap_or_else(|faults| panic!("{faults:?}"));
        let resolved = resolve(&file, &layout, &library, None).unwrap_or_else(|faults| panic!("{faults:?}"));
        for (id, arrangement) in resolved.arrangements {
            let name = id.to_string();
            let expected = expected.remove(&name).unwrap();
            cases.push(Case { name, expected, answer: assess(&arrangement), arrangement });
        }
    }
    assert!(expected.is_empty(), "not asked: {:?}", expected.keys());
    cases
}

/// How near a zone things, runways and walls are that may be inside, by their names and the zone's.
fn near_zones(case: &Case) -> BTreeMap<String, f64> {
    let mut found = BTreeMap::new();
    for finding in &case.answer.findings {
        let (Facts::ZoneNear(all) | Facts::PlaceUnsure(all)) = &finding.facts else { continue };
        for one in all.iter().filter(|one| matches!(one.of, Subject::Zone(_))) {
            found.insert(format!("{}|{}", name(&finding.subjects[0]), name(&one.of)), one.gap_mm);
        }
    }
    found
}

#[test]
fn things_in_zones_and_near_them() {
    let mut compared = [0; 3];
    for case in cases() {
        // Whether what stands in a zone by level stops is judged by how much it sends back, which the library does not know: how far it is in it
        // is compared wherever it is found.
        let by_level = case.by_level();
        let of_level = |key: &&String| key.split('|').nth(1).is_some_and(|zone| by_level.contains(zone));
        let open: BTreeSet<String> = case.expected.unjudged.keys().filter(of_level).cloned().collect();
        for (key, found) in case.found(Code::ZoneObject, solid).iter().filter(|(key, _)| open.contains(*key))
        {
            case.near(key, number(found), case.expected.unjudged[key].depth, LENGTH);
            compared[1] += 1;
        }
        let unsure = &(&case.expected.unsure_zone | &open);
        for (i, (code, expected)) in
            [(Code::ZoneObject, &case.expected.inside), (Code::ZoneUnjudged, &case.expected.unjudged)]
                .into_iter()
                .enumerate()
        {
            let found = case.found(code, solid);
            for key in case.both("zone", &found, expected, unsure) {
                let (found, expected) = (found[&key], &expected[&key]);
                case.near(&key, number(found), expected.depth, LENGTH);
                let (Facts::ZoneObject(zone) | Facts::ZoneUnjudged(zone)) = found.facts else {
                    panic!("{}: {key}", case.name)
                };
                let InZone { heights: Some(heights), area_mm2: area, .. } = zone else {
                    panic!("{}: {key}", case.name)
                };
                case.near(&key, area, expected.area, AREA);
                case.near(&key, heights.bottom(), expected.low, LENGTH);
                case.near(&key, heights.top(), expected.high, LENGTH);
                compared[i] += 1;
            }
        }
        let found = near_zones(case);
        // Of what stops something that is not said besides.
        let stops = case.answer.findings.iter().filter(|f| f.severity == Severity::Stops);
        let going: BTreeSet<String> = stops.map(|f| name(&f.subjects[0])).collect();
        let is_going = |key: &&String| key.split('|').next().is_some_and(|first| going.contains(first));
        let unsure = unsure | &case.expected.near.keys().filter(is_going).cloned().collect();
        for key in case.both("near", &found, &case.expected.near, &unsure) {
            case.near(&key, found[&key], case.expected.near[&key].gap, LENGTH);
            compared[2] += 1;
        }
    }
    assert!(compared.iter().zip([150, 20, 20]).all(|(n, least)| *n >= least), "{compared:?}");
}

#[test]
fn parts_outside_the_room() {
    let mut compared = 0;
    for case in cases() {
        let mut found: BTreeMap<String, f64> = BTreeMap::new();
        for finding in case.answer.findings.iter().filter(|f| f.code() == Code::OutsideRoom) {
            let deepest = found.entry(name(&finding.subjects[0])).or_default();
            *deepest = deepest.max(number(finding));
        }
        for key in case.both("outside", &found, &case.expected.outside, &BTreeSet::new()) {
            case.near(&key, found[&key], case.expected.outside[&key].depth, REACH);
            compared += 1;
        }
    }
    assert!(compared >= 10, "{compared}");
}

#[test]
fn what_hides_the_target() {
    let (mut compared, mut past_walls) = (0, 0);
    for case in cases() {
        let away = case.found(Code::SightBlocked, |s| matches!(s, Subject::Target(_)));
        let found = case.by_first(Code::SightBlocked, solid);
        match &case.expected.hidden {
            None => assert!(!away.is_empty(), "{}: the face looks away", case.name),
            Some(expected) => {
                assert!(away.is_empty(), "{}: the face does not look away", case.name);
                for key in case.both("sight", &found, expected, &case.expected.unsure_sight) {
                    case.near(&key, number(found[&key]), expected[&key], SHARE);
                    compared += 1;
                }
            }
        }
        let walls = case.found(Code::SightBlocked, |s| matches!(s, Subject::Wall(_)));
        let deepest = walls.values().map(|f| number(f)).fold(0.0, f64::max);
        case.near("past walls", deepest, case.expected.past_walls, PAST_WALLS);
        past_walls += usize::from(deepest > 0.0);
    }
    assert!(compared >= 100 && past_walls >= 1, "{compared} {past_walls}");
}

#[test]
fn things_in_the_first_fresnel_zone() {
    let mut compared = 0;
    for case in cases() {
        let found = case.by_first(Code::FresnelEntered, solid);
        let unsure = &case.expected.unsure_fresnel | &case.expected.unsure_sight;
        for key in case.both("Fresnel", &found, &case.expected.fresnel, &unsure) {
            let expected = &case.expected.fresnel[&key];
            case.near(&key, number(found[&key]), expected.ratio, RATIO);
            assert_eq!(severity(found[&key]), expected.severity, "{}: {key}", case.name);
            compared += 1;
        }
    }
    assert!(compared >= 12, "{compared}");
}

#[test]
fn the_field_of_view() {
    let mut compared = 0;
    for case in cases() {
        let found = case.answer.findings.iter().find(|f| f.code() == Code::FieldOfView);
        assert_eq!(found.is_some(), case.expected.field_of_view.is_some(), "{}", case.name);
        if let (Some(found), Some(expected)) = (found, &case.expected.field_of_view) {
            case.near("angle", number(found), expected.angle, ANGLE);
            let Some(Quantity::Angle(half)) = found.limit else { panic!() };
            case.near("half", angle::degrees(half), expected.half, ANGLE);
            assert_eq!(severity(found), expected.severity, "{}", case.name);
            compared += 1;
        }
    }
    assert!(compared >= 5, "{compared}");
}

#[test]
fn stands_off_their_marks() {
    let mut compared = 0;
    for case in cases() {
        let found = case.answer.findings.iter().find(|f| f.code() == Code::StandOffMark);
        assert_eq!(found.is_some(), case.expected.off_mark.is_some(), "{}", case.name);
        let (Some(found), Some(expected)) = (found, &case.expected.off_mark) else { continue };
        let Facts::StandOffMark(OffPlace {
            about,
            azimuth_error_rad: azimuth_error,
            elevation_error_rad: elevation_error,
            ..
        }) = found.facts
        else {
            panic!()
        };
        let about = match about {
            OffBy::Azimuth => "azimuth",
            OffBy::Elevation => "elevation",
            OffBy::Along => "along",
            OffBy::Across => "across",
            OffBy::Height => "height",
            OffBy::Yaw => "yaw",
            OffBy::Pitch => "pitch",
            OffBy::Roll => "roll",
        };
        assert_eq!(about, expected.about, "{}", case.name);
        assert_eq!(severity(found), expected.severity, "{}", case.name);
        case.near(about, number(found), expected.value, LENGTH.min(ANGLE));
        case.near("azimuth", angle::degrees(azimuth_error), expected.azimuth, ANGLE);
        case.near("elevation", angle::degrees(elevation_error), expected.elevation, ANGLE);
        assert!(expected.limit > 0.0);
        compared += 1;
    }
    assert!(compared >= 15, "{compared}");
}

#[test]
fn marks_and_what_the_tape_reads() {
    let mut compared = 0;
    for case in cases() {
        for mark in &case.answer.scene.marks {
            let [x, y] = case.expected.marks[mark.id.as_str()];
            let at = mark.at.unwrap();
            case.near("mark x", at.x, x, 2e-6);
            case.near("mark y", at.y, y, 2e-6);
        }
        let readings = case.answer.scene.readings.iter();
        let found: BTreeMap<String, f64> =
            readings.map(|r| (format!("{}|{}", r.from, r.to), r.distance_mm)).collect();
        for key in case.both("reading", &found, &case.expected.readings, &BTreeSet::new()) {
            case.near(&key, found[&key], case.expected.readings[&key], 2e-6);
            compared += 1;
        }
        let off = case.answer.findings.iter().find(|f| f.code() == Code::MarkOffTarget).map(number);
        assert_eq!(off.is_some(), case.expected.mark_off_target.is_some(), "{}", case.name);
        case.near("mark off target", off.unwrap_or(0.0), case.expected.mark_off_target.unwrap_or(0.0), 2e-6);
    }
    assert!(compared >= 1000, "{compared}");
}

#[test]
fn runs_and_marks_under_things() {
    for case in cases() {
        let found: BTreeSet<String> = case.found(Code::RunBlocked, thing).into_keys().collect();
        for key in found.symmetric_difference(&case.expected.runs) {
            assert!(case.expected.unsure_run.contains(key), "{}: {key}", case.name);
        }
        let found: BTreeSet<String> = case
            .found(Code::MarkPlace, |_| true)
            .into_iter()
            .map(|(key, found)| match (&found.subjects[0], &found.subjects[1]) {
                (Subject::Wall(_) | Subject::Opening(_), mark) => format!("wall|{}", name(mark)),
                _ => key,
            })
            .collect();
        assert_eq!(found, case.expected.mark_places, "{}", case.name);
    }
}

/// The car's body is known only by two outlines, so only what surely touches it, or surely does not, is compared.
#[test]
fn things_in_the_stand_and_in_the_car() {
    let (mut stands, mut cars) = (0, 0);
    for case in cases() {
        let found = case.by_first(Code::StandClash, solid);
        for key in case.both("stand", &found, &case.expected.stand_clashes, &BTreeSet::new()) {
            case.near(&key, number(found[&key]), case.expected.stand_clashes[&key], LENGTH);
            stands += 1;
        }
        let found = case.by_first(Code::CarClash, thing);
        for key in &case.expected.car_sure {
            assert!(found.contains_key(key), "{}: {key} is in the car", case.name);
            cars += 1;
        }
        for key in &case.expected.car_clear {
            assert!(!found.contains_key(key), "{}: {key} is not in the car", case.name);
        }
    }
    assert!(stands >= 20 && cars >= 50, "{stands} {cars}");
}

/// A thing is moved by no more than the oracle's own shortest move, which clears the same stops, stays in the room and
/// meets nothing; or by up to twice that where the shortest leads to something that needs care.
#[test]
fn moves_are_the_shortest() {
    let table = table();
    let (mut compared, mut detours) = (0, 0);
    for case in cases() {
        let Some(moves) = table.moves.get(&case.name) else { continue };
        for finding in case.answer.findings.iter().filter(|f| f.severity == Severity::Stops) {
            let Some(cure) = &finding.cure else { continue };
            let Step::MoveThing { thing, by } = &cure.step else { continue };
            // What just clears it: the move itself goes further where a place is uncertain.
            let by = cure.at_least.map_or(*by, baywright_planner::Shorter::by);
            let Some(expected) = moves.get(thing.as_str()) else { continue };
            // What reflects too much for a zone by level goes out of that too, which the library does not ask for.
            let reflects = |own: &Finding| {
                let zone = own.subjects.get(1).map(name).unwrap_or_default();
                own.culprit() == Some(thing)
                    && own.code() == Code::ZoneObject
                    && case.by_level().contains(&zone)
            };
            if case.answer.findings.iter().any(reflects) {
                continue;
            }
            assert!(case.arrangement.bay.things.iter().any(|t| t.id == *thing));
            let most =
                if expected.detour { DETOUR * (expected.least + WHOLE) } else { expected.least + WHOLE };
            assert!(by.length() <= most, "{}: {thing} by {by}, least {}", case.name, expected.least);
            compared += 1;
            detours += usize::from(expected.detour);
        }
    }
    assert!(compared >= 100 && detours * 4 < compared, "{compared}, {detours} of them detours");
}

#[test]
fn the_table_names_its_source() {
    let table = table();
    assert!(["shapely", "GEOS", "numpy", "scipy"].iter().all(|name| table.library.contains(name)));
    assert!(table.arrangements.len() >= 60);
}
