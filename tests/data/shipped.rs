//! Every shipped file opens, resolves and is what it says it is.

use std::path::{Path, PathBuf};

use baywright_files::{EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, Embedded, Loaded, Profile, load_profile, open};
use baywright_planner::entry::class::Glass;
use baywright_planner::geometry::distance::{Separation, distance_to_segment};
use baywright_planner::geometry::marks::{Construction, Reach};
use baywright_planner::geometry::overlap::overlaps;
use baywright_planner::geometry::protrude::protrusions;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon, Segment};
use baywright_planner::model::{
    Arrangement, MarkTaped, OnThisCar, Provenance, SavedArrangement, SensorKind, TargetKind, validate,
};
use baywright_planner::proof::{NextTape, Proof, Said};
use baywright_planner::{Code, Scene, Severity, Verdict, assess};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// The RON files of a folder, sorted.
fn files(name: &str) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder(name)).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    files
}

fn profiles() -> Vec<Profile> {
    files("vehicle-profiles").iter().map(|path| load_profile(path).unwrap()).collect()
}

/// A day on which the shipped surveys are fresh.
const TODAY: jiff::civil::Date = jiff::civil::date(2026, 11, 25);

/// A shipped layout, opened from disk.
fn layout(name: &str) -> Loaded {
    open(&folder("bay-layouts").join(format!("{name}.ron")), Some(TODAY)).unwrap()
}

#[test]
fn the_binary_holds_exactly_the_files_of_the_folders() {
    for (name, embedded) in [("vehicle-profiles", EMBEDDED_PROFILES), ("bay-layouts", EMBEDDED_LAYOUTS)] {
        let on_disk = files(name);
        let names: Vec<&str> = on_disk.iter().map(|p| p.file_stem().unwrap().to_str().unwrap()).collect();
        assert_eq!(names, embedded.iter().map(|e| e.name).collect::<Vec<_>>(), "{name}");
        for (path, Embedded { text, .. }) in on_disk.iter().zip(embedded) {
            assert_eq!(std::fs::read_to_string(path).unwrap(), *text, "{}", path.display());
        }
    }
}

/// The menu names a built-in bay before it is opened; the bar names it then.
#[test]
fn a_built_in_bay_has_one_name_in_menu_and_bar() {
    for embedded in EMBEDDED_LAYOUTS {
        assert_eq!(layout(embedded.name).arrangements[0].1.bay.name, embedded.title());
    }
}

#[test]
fn every_file_warns_in_its_first_line() {
    const WARNING: &str =
        "// Invented example figures. Never use them on a car: the vehicle maker's procedure decides.";
    for path in files("vehicle-profiles").into_iter().chain(files("bay-layouts")) {
        let text = std::fs::read_to_string(&path).unwrap();
        assert_eq!(text.lines().next(), Some(WARNING), "{}", path.display());
        assert!(text.lines().count() <= 700, "{}", path.display());
    }
}

#[test]
fn every_layout_opens_and_remembers_its_profiles() {
    for file in EMBEDDED_LAYOUTS {
        let loaded = layout(file.name);
        assert!(loaded.arrangements.len() >= 2, "{}", file.name);
        assert_eq!(loaded.arrangements.len(), loaded.layout.arrangements.len());
        for (saved, (id, arrangement)) in loaded.layout.arrangements.iter().zip(&loaded.arrangements) {
            let remembered = saved.vehicle_fingerprint.as_deref();
            let profile = loaded.profiles.iter().find(|p| p.vehicle.id == saved.vehicle).unwrap();
            assert_eq!(remembered, Some(profile.fingerprint.as_str()), "{id} in {}", file.name);
            assert!(!arrangement.loading.profile_changed);
            assert_eq!(validate::arrangement(arrangement), []);
        }
    }
}

#[test]
fn the_shipped_cars_cover_the_kinds_of_sensors_and_targets() {
    let cars = profiles();
    let with = |test: &dyn Fn(&SensorKind) -> bool| {
        cars.iter().filter(|c| c.vehicle.sensors.iter().any(|s| test(&s.kind))).count()
    };
    let examples = cars.iter().filter(|c| c.vehicle.provenance == Provenance::Example).count();
    assert!(examples >= 5);
    assert!(with(&|k| matches!(k, SensorKind::ForwardRadar(_))) >= 5);
    assert!(with(&|k| matches!(k, SensorKind::CornerRadar(_))) >= 2);
    assert!(with(&|k| matches!(k, SensorKind::ForwardCamera(_))) >= 2);
    assert!(with(&|k| matches!(k, SensorKind::SurroundCamera(_))) >= 1);
    let aimings = || cars.iter().flat_map(|c| &c.vehicle.aimings);
    for kind in [TargetKind::Plate, TargetKind::CornerReflector, TargetKind::Board, TargetKind::Mat] {
        assert!(aimings().flat_map(|a| &a.placements).any(|p| p.target.kind == kind), "{kind:?}");
    }
    // No published figure stands for an example, and every aiming is one.
    assert!(aimings().all(|a| a.provenance == Provenance::Example));
    for car in &cars {
        assert!(!car.vehicle.aimings.is_empty(), "{}", car.vehicle.id);
        assert!(car.vehicle.provenance != Provenance::Example || car.vehicle.name.starts_with("Example "));
        assert!(
            !car.vehicle.solids().is_empty() && !Glass::of(&car.vehicle).side.is_empty(),
            "{}",
            car.vehicle.id
        );
        for aiming in &car.vehicle.aimings {
            assert!(!aiming.mark_plan.is_empty() && !aiming.zones.is_empty(), "{}", aiming.id);
            assert!(!aiming.have_ready.is_empty() && !aiming.conditions.is_empty(), "{}", aiming.id);
        }
    }
}

/// The mark plan of every aiming leads to where its target belongs: two ways to one place, worked apart.
#[test]
fn mark_plans_lead_to_their_targets() {
    let mut checked = 0;
    for file in EMBEDDED_LAYOUTS {
        for (id, arrangement) in layout(file.name).arrangements {
            let scene = Scene::of(&arrangement);
            for (placement, target) in arrangement.aiming.placements.iter().zip(&scene.targets) {
                let Some(wanted) = &placement.mark else { continue };
                let mark = scene.marks.iter().find(|m| m.id == *wanted).unwrap();
                let off = mark.at.unwrap().distance(target.meant.place.origin());
                assert!(
                    off < 0.01,
                    "{id} in {}: {} lies {off} mm from mark {wanted}",
                    file.name,
                    placement.id
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 30, "only {checked} placements were looked at");
}

/// Every aiming of every shipped car, standing in the middle of the clear bay, square to it.
fn every_aiming() -> Vec<Arrangement> {
    let clear = layout("clear-bay").layout;
    let mut all = Vec::new();
    for Profile { vehicle, fingerprint, .. } in profiles() {
        for aiming in &vehicle.aimings {
            let saved = SavedArrangement {
                id: aiming.id.clone(),
                vehicle: vehicle.id.clone(),
                vehicle_fingerprint: None,
                aiming: aiming.id.clone(),
                parked: PlanPose::new(DVec2::new(6000.0, 3500.0), 0.0),
                parked_known: Default::default(),
                on_runways: Vec::new(),
                in_bay: None,
                kept_empty: Vec::new(),
                kept_shut: Vec::new(),
                at_once: Vec::new(),
                on_this_car: OnThisCar::default(),
                marks_taped: Vec::new(),
                laid_before: Vec::new(),
                stands_read: Vec::new(),
                building: None,
                stands: Vec::new(),
                moved: Vec::new(),
                away: Vec::new(),
                added: Vec::new(),
                shut: Vec::new(),
                visit: Vec::new(),
            };
            all.push(clear.resolve(&saved, &vehicle, &fingerprint, Some(TODAY)).unwrap());
        }
    }
    all
}

/// Who lays an aiming's marks as they are meant, and tapes and lays again what he is told to, is told at the end that it is enough, or that
/// the shop's instruments are not: no plan ends where a mark could still go unseen and nothing would show it.
#[test]
fn every_mark_plan_can_be_proven_by_what_is_told_next() {
    let mut ends = [0; 2];
    for mut arrangement in every_aiming() {
        let name = format!("{} of {}", arrangement.aiming.id, arrangement.vehicle.id);
        let scene = Scene::of(&arrangement);
        let Some(first) = Proof::of(&arrangement, &scene).filter(|own| !own.figures.is_empty()) else {
            continue;
        };
        let mut next = first;
        let most = scene.readings.len() + scene.marks.len();
        for _ in 0..=most {
            let (from, to, read_mm) = match &next.next {
                NextTape::Tape { from, to } => {
                    let own = scene.readings.iter().find(|own| own.from == *from && own.to == *to).unwrap();
                    (from, to, own.distance_mm.round())
                }
                NextTape::LayAgain(mark) => (mark, mark, 1.0),
                NextTape::Again { .. } => panic!("{name}: all fits"),
                NextTape::Enough | NextTape::NothingHelps => break,
            };
            arrangement.marks_taped.push(MarkTaped::new(from.clone(), to.clone(), read_mm));
            next = Proof::of(&arrangement, &scene).unwrap();
        }
        match next.next {
            NextTape::Enough => ends[0] += 1,
            NextTape::NothingHelps => {
                let open = next.figures.iter().find(|own| !matches!(own.said, Said::Inside { .. })).unwrap();
                assert!(!open.is_unchecked(), "{name}: {open:?}");
                ends[1] += 1;
            }
            other => panic!("{name}: {other:?} has no end"),
        }
    }
    assert!(ends[0] >= 10, "{ends:?}");
}

/// A tape or a line laser cannot go through a tyre: around each wheel point a strip as wide as the tyre and 300 mm
/// long, about what touches the floor or nearly does (common practice, no source), is free of every straight run.
/// Nor is any step of a plan nothing or backwards.
#[test]
fn no_mark_plan_needs_a_run_through_a_tyre() {
    const TREAD_MM: f64 = 300.0;
    let all = every_aiming();
    assert!(all.len() >= 15, "{}", all.len());
    for arrangement in &all {
        let name = format!("{} of {}", arrangement.aiming.id, arrangement.vehicle.id);
        let scene = Scene::of(arrangement);
        let half = DVec2::new(TREAD_MM, arrangement.vehicle.tyre_width_mm) * 0.5;
        assert!(!scene.runs.is_empty() && scene.wheels.len() == 4, "{name}");
        for at in scene.wheels {
            // The car stands square to the bay.
            let tyre = Polygon::rectangle(at - half, at + half).unwrap().into();
            for placed in &scene.runs {
                let run = Segment::new(placed.run.from, placed.run.to);
                assert_ne!(distance_to_segment(&tyre, &run), Separation::Overlapping, "{name}: {placed:?}");
            }
        }
        for step in &arrangement.aiming.mark_plan {
            let forwards = match step.construction {
                Construction::Prolong { reach: Reach::Length(by), .. } => by > 0.0,
                Construction::AlongAside { along, aside, .. } => along > 0.0 && aside != 0.0,
                _ => true,
            };
            assert!(forwards, "{name}: mark {}", step.id);
        }
    }
}

/// A person would see at once: a thing through a wall, or two solid things in one another.
#[test]
fn things_stand_inside_the_room_and_beside_one_another() {
    for file in EMBEDDED_LAYOUTS {
        for (id, arrangement) in layout(file.name).arrangements {
            let things = Scene::of(&arrangement).things;
            for (i, (a, is)) in things.iter().zip(&arrangement.bay.things).enumerate() {
                let name = format!("{} in {id} of {}", is.id, file.name);
                assert!(protrusions(&arrangement.bay.room, &a.prism.outline).is_empty(), "{name}");
                let (bottom, top) = (a.prism.span.bottom(), a.prism.span.top());
                assert!(bottom >= 0.0 && top <= arrangement.bay.ceiling_mm, "{name}");
                for (b, other) in things.iter().zip(&arrangement.bay.things).take(i) {
                    let apart = a.prism.span.shared(&b.prism.span).is_none();
                    assert!(apart || !overlaps(&a.prism.outline, &b.prism.outline), "{name}, {}", other.id);
                }
            }
        }
    }
}

/// The clear bay is surveyed closely where cars and targets stand.
#[test]
fn the_clear_bay_is_surveyed_near_every_wheel_and_target() {
    for (id, arrangement) in layout("clear-bay").arrangements {
        let scene = Scene::of(&arrangement);
        let points = &arrangement.bay.survey.as_ref().unwrap().points;
        for at in scene.wheels.into_iter().chain(scene.targets.iter().map(|t| t.set.place.origin())) {
            let nearest = points.iter().map(|p| p.at.distance(at)).fold(f64::INFINITY, f64::min);
            assert!(nearest < 1_500.0, "{id}: {at} is {nearest} mm from the nearest level");
        }
    }
}

/// What each bay is shipped to show.
#[test]
fn the_bays_show_what_they_are_for() {
    let verdicts = |name: &str| -> Vec<(String, Verdict)> {
        layout(name).arrangements.iter().map(|(id, a)| (id.to_string(), assess(a).verdict)).collect()
    };
    for (id, verdict) in verdicts("clear-bay") {
        let expected = if id == "Trolley left in the zone" { Verdict::NotReady } else { Verdict::Ready };
        assert_eq!(verdict, expected, "{id}");
    }
    // Too short for all of them, until a wall is moved.
    let short = layout("short-bay");
    for (id, arrangement) in &short.arrangements {
        let is_planned = arrangement.loading.own_building;
        let expected = if is_planned { Verdict::ReadyWithCare } else { Verdict::NotReady };
        assert_eq!(
            (assess(arrangement).verdict, is_planned),
            (expected, id.as_str().ends_with("wall moved")),
            "{id}"
        );
    }
    // A floor that falls by 54 mm to its drain serves no aiming that asks for 4 or 5 mm.
    let drain = layout("drain-bay");
    for (id, arrangement) in &drain.arrangements {
        let found = assess(arrangement).findings;
        let floor = found.iter().find(|f| f.code() == Code::FloorLevels);
        assert!(floor.is_some_and(|f| f.severity == Severity::Stops), "{id}");
    }
    for name in ["lift-bay", "crowded-bay"] {
        let all = verdicts(name);
        assert!(all.iter().any(|(_, v)| *v == Verdict::ReadyWithCare), "{name}");
        assert!(all.iter().any(|(_, v)| *v == Verdict::NotReady), "{name}");
    }
    let demo = layout("crowded-bay");
    let found = assess(&demo.arrangements[0].1);
    assert_eq!(found.count(Severity::Stops), 3);
    assert!(found.promise.is_some(), "moving trolley and cabinet is enough");
    let codes: Vec<Code> = found.findings.iter().map(|f| f.code()).collect();
    for code in [Code::ZoneObject, Code::SightBlocked, Code::ZoneNear, Code::KeepFree, Code::FloorLevels] {
        assert!(codes.contains(&code), "{code:?}");
    }
}
