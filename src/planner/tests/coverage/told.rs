//! What is asked of figures and not of floor: what was measured on the car and read between marks, what the sensor sees, how the car is
//! carried, what files and settings say. Each is found just beyond what is allowed, and not just within, whatever stands elsewhere
//! in the bay; and no kind of finding is in no cell.

use std::collections::BTreeSet;

use jiff::civil::date;

use super::cells::Cell;
use super::rows::Row;
use super::support::*;
use super::{all_cells, judge};
use baywright_planner::at_once::pair;
use baywright_planner::model::assumed::{BodyPart, SensorPart};
use baywright_planner::model::sheet::{Inward, Side, Typed};
use baywright_planner::model::{
    CheckFrom, CheckRead, Instrument, InstrumentKind, MarkCheck, MarkTaped, StandRead, Taken,
};

/// What is asked, by its code: a bay that says it and one that does not.
struct Asked {
    code: Code,
    severity: Severity,
    beyond: Arrangement,
    within: Arrangement,
}

/// The same bay changed by one figure, beyond and within.
fn asked<T>(
    code: Code,
    severity: Severity,
    (beyond, within): (T, T),
    from: impl Fn() -> Arrangement,
    change: impl Fn(&mut Arrangement, T),
) -> Asked {
    let changed = |figure: T| {
        let mut own = from();
        change(&mut own, figure);
        own
    };
    Asked { code, severity, beyond: changed(beyond), within: changed(within) }
}

/// A target that aims by its place.
fn reflector() -> Arrangement {
    let mut own = clear();
    own.aiming.placements[0].target.error = AimError::PLACE;
    own
}

/// The same with all distances read as they should be.
fn taped() -> Arrangement {
    let mut own = reflector();
    let readings = assess(&own).scene.readings;
    own.marks_taped =
        readings.into_iter().map(|own| MarkTaped::new(own.from, own.to, own.distance_mm.round())).collect();
    own
}

/// Marks ahead of the car so far to its left.
fn aside(own: &mut Arrangement, mm: f64) {
    let scene = assess(&clear()).scene;
    for taped in &mut own.marks_taped {
        let at = |id: &Id| {
            let mark = scene.marks.iter().find(|mark| mark.id == *id).unwrap();
            let aside = if ["5", "6", "T"].contains(&id.as_str()) { mm } else { 0.0 };
            mark.at.unwrap() + DVec2::new(0.0, aside)
        };
        taped.read_mm = at(&taped.from).distance(at(&taped.to)).round();
    }
}

/// One distance read with an instrument of this name; the shop's list has one that is due on 1 June 2026.
fn read_with(own: &mut Arrangement, (with, day): (&str, i8)) {
    let due = Some(date(2026, 6, 1));
    let tape = Instrument::new("tape 1".into(), InstrumentKind::SteelTape);
    own.instruments = [Instrument { due, ..tape }].into();
    let first = assess(&clear()).scene.readings[0].clone();
    let at = Some(date(2026, 6, day).at(9, 0, 0, 0));
    own.marks_taped = vec![MarkTaped {
        taken: Taken { with: Some(with.into()), at, ..Taken::default() },
        ..MarkTaped::new(first.from, first.to, first.distance_mm.round())
    }];
}

/// A mark that stays, checked twice from two walls, so far apart.
fn checked(own: &mut Arrangement, drifted_mm: f64) {
    let (from, to) = own.bay.wall_ends(0).unwrap();
    let inward = (to - from).perp().normalize();
    let at = from + (to - from).normalize() * 800.0 + inward * 1_000.0;
    let last = own.bay.walls.len() - 1;
    let walls = [own.bay.walls[0].id.clone(), own.bay.walls[last].id.clone()];
    let check = |month: i8, read: [f64; 2]| MarkCheck {
        on: date(2026, month, 1),
        who: None,
        with: None,
        read: [0, 1].map(|nth| CheckRead { from: CheckFrom::Wall(walls[nth].clone()), read_mm: read[nth] }),
    };
    let checks = vec![check(3, [1_000.0, 800.0]), check(9, [1_000.0, 800.0 + drifted_mm])];
    own.bay.marks.push(PermanentMark { checks, ..PermanentMark::new("stud".into(), at) });
}

/// All read of a stand, its line so much higher.
fn stand(own: &mut Arrangement, line_mm: Option<f64>) {
    let mut read = StandRead::of("ahead".into());
    (read.line_mm, read.offset_mm) = (line_mm, Some(0.0));
    (read.leans_away_rad, read.leans_left_rad) = (Some(0.0), Some(0.0));
    own.stands_read = vec![read];
}

/// Two badges 4 m apart, the front one plumbed so far aside.
fn badges(own: &mut Arrangement, aside_mm: f64) {
    let at = [("front badge", 850.0, aside_mm), ("rear badge", -3_150.0, 0.0)];
    own.vehicle.body_points =
        at.map(|(id, x, _)| BodyPoint { id: id.into(), at: DVec3::new(x, 0.0, 600.0) }).to_vec();
    own.on_this_car.body_points = at.map(|(id, x, aside)| (id.into(), DVec2::new(x, aside))).to_vec();
}

fn of_the_car() -> Vec<Asked> {
    use Severity::{Care, Note, Stops};
    let toe = |own: &mut Arrangement, way: Option<Inward>| {
        own.on_this_car.sheet.toe[2] = Told { reads: Some(Typed::of(0.2)), way };
        own.on_this_car.sheet.toe[3] = Told::of(Typed::of(0.0), Inward::In);
    };
    let printed = |own: &mut Arrangement, way: Side| {
        own.on_this_car.sheet.toe[2] = Told::of(Typed::of(0.2), Inward::In);
        own.on_this_car.sheet.toe[3] = Told::of(Typed::of(0.0), Inward::In);
        own.on_this_car.sheet.thrust = Told::of(Typed::of(0.1), way);
    };
    let measured = |own: &mut Arrangement, is: bool| {
        own.on_this_car.sensor_at = is.then_some(own.sensor.at);
    };
    let arches = |own: &mut Arrangement, mm: f64| {
        own.on_this_car.arches_mm = [Some(380.0), Some(380.0 + mm), Some(375.0), Some(375.0)];
    };
    let back = |own: &mut Arrangement, mm: f64| own.on_this_car.set_back_mm = Some(mm);
    let lowered = |own: &mut Arrangement, mm: f64| {
        own.vehicle.ride_heights = Some([380.0; 4]);
        own.on_this_car.arches_mm = [Some(380.0 - mm); 4];
        own.aiming.placements[0].tolerance.height_mm = Some(10.0);
    };
    vec![
        asked(Code::SheetOpen, Care, (None, Some(Inward::In)), clear, toe),
        asked(Code::SheetDiffers, Care, (Side::Left, Side::Right), clear, printed),
        asked(Code::CarUnlikely, Care, (1.1, 0.9), clear, |own, deg| {
            own.on_this_car.sheet.toe = [Told::of(Typed::of(deg), Inward::In); 4];
        }),
        asked(Code::RideHeight, Care, (17.0, 13.0), clear, arches),
        // Of a sensor that nobody measured; it hangs as much lower.
        asked(Code::RideHeight, Care, (6.0, 3.0), reflector, lowered),
        asked(Code::AlignmentOff, Care, (20.5, 19.5), clear, back),
        asked(Code::CentrelinesApart, Care, (8.0, 1.0), clear, badges),
        asked(Code::MeasuredOnCar, Note, (true, false), clear, measured),
        asked(Code::MeasuredOnCar, Care, (61.0, 59.0), clear, |own, aside| {
            own.on_this_car.sensor_at = Some(own.sensor.at + DVec3::new(0.0, aside, 0.0));
        }),
        asked(Code::FieldOfView, Stops, (60.0, 0.0), clear, |own, deg| {
            own.sensor.azimuth_rad = angle::radians(deg);
        }),
        asked(Code::OffBeam, Care, (20.0, 0.0), clear, |own, deg| {
            own.sensor.azimuth_rad = angle::radians(deg);
        }),
        asked(Code::ViewByAngles, Note, (true, false), clear, |own, is| {
            if is {
                let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
                own.sensor.kind = SensorKind::SurroundCamera(camera);
            }
        }),
    ]
}

fn of_the_marks() -> Vec<Asked> {
    use Severity::{Care, Note, Stops};
    let misread = |own: &mut Arrangement, mm: f64| {
        let is = |own: &&mut MarkTaped| (own.from.as_str(), own.to.as_str()) == ("3", "6");
        own.marks_taped.iter_mut().find(is).unwrap().read_mm += mm;
    };
    let few = |own: &mut Arrangement, count: usize| {
        own.marks_taped.truncate(count);
        if count == 1 {
            own.aiming.tolerance.azimuth_rad = angle::radians(0.03);
        }
    };
    let set_off = |own: &mut Arrangement, mm: f64| {
        own.stands = vec![StandSet::At {
            place: PlanPose::new(DVec2::new(8_800.0, 3_000.0 + mm), angle::radians(180.0)),
            height_mm: 500.0,
            pitch_rad: 0.0,
        }];
    };
    let spot = |own: &mut Arrangement, distance: f64| {
        own.aiming.mark_plan[2].construction = Construction::Outboard { wheel: Wheel::FrontLeft, distance };
    };
    let crossing = |own: &mut Arrangement, (first, second): ((usize, usize), (usize, usize))| {
        let construction = Construction::Crossing { first, second };
        own.aiming.mark_plan.truncate(4);
        own.aiming.mark_plan.push(MarkStep { id: "T".into(), construction });
    };
    let narrow = |own: &mut Arrangement, mm: f64| own.aiming.placements[0].tolerance.across_mm = Some(mm);
    vec![
        asked(Code::LaidOff, Stops, (30.0, 0.0), taped, aside),
        asked(Code::LaidUnproven, Care, (1, usize::MAX), taped, few),
        asked(Code::ReadingOff, Care, (12.0, 0.0), taped, misread),
        // Laid a second time it lies elsewhere.
        asked(Code::ReadingOff, Care, (14.0, 1.0), taped, |own, mm| {
            own.marks_taped.push(MarkTaped::new("3".into(), "3".into(), mm));
        }),
        asked(Code::ReadingUnused, Care, ("99", "5"), reflector, |own, to| {
            own.marks_taped = vec![MarkTaped::new("3".into(), to.into(), 3_600.0)];
        }),
        asked(Code::ReadingDay, Care, (14, 15), taped, |own, day| {
            own.today = Some(date(2026, 6, 15));
            own.marks_taped[0].taken.at = Some(date(2026, 6, day).at(9, 0, 0, 0));
        }),
        asked(Code::MarkElsewhere, Care, (20.0, 0.0), clear, |own, mm| {
            checked(own, 0.0);
            own.bay.marks.last_mut().unwrap().at.x += mm;
        }),
        asked(Code::MarkCheckUnused, Care, ("no such wall", ""), clear, |own, wall| {
            checked(own, 0.0);
            if !wall.is_empty() {
                let mark = own.bay.marks.last_mut().unwrap();
                mark.checks[0].read[0].from = CheckFrom::Wall(wall.into());
            }
        }),
        asked(Code::InstrumentOverdue, Care, (("tape 1", 2), ("tape 1", 1)), clear, read_with),
        asked(Code::InstrumentUnlisted, Note, (("tape 2", 1), ("tape 1", 1)), clear, read_with),
        asked(
            Code::InstrumentUnfit,
            Care,
            (InstrumentKind::LineLaser, InstrumentKind::SteelTape),
            clear,
            |own, kind| {
                read_with(own, ("tape 1", 1));
                own.instruments = [Instrument::new("tape 1".into(), kind)].into();
            },
        ),
        asked(Code::MarkDrifted, Care, (2.6, 2.0), clear, checked),
        asked(Code::StandSetOff, Stops, (Some(20.0), Some(0.0)), reflector, stand),
        asked(Code::StandUnproven, Care, (None, Some(0.0)), reflector, stand),
        asked(Code::StandOffMark, Stops, (20.0, 0.0), reflector, set_off),
        asked(Code::MarkFault, Stops, (((0, 2), (1, 3)), ((0, 3), (1, 2))), clear, crossing),
        asked(Code::MarkOffTarget, Stops, (250.0, 150.0), clear, spot),
        asked(Code::MarkUnsure, Care, (1.0, 10.0), clear, narrow),
        asked(Code::StandReach, Stops, (499.0, 501.0), clear, |own, mm| {
            own.aiming.placements[0].target.stand.as_mut().unwrap().highest_mm = Some(mm);
        }),
    ]
}

fn of_the_ground() -> Vec<Asked> {
    use Severity::{Care, Stops};
    let floor_fell = |own: &mut Arrangement, mm: f64| {
        let points = &mut own.bay.survey.as_mut().unwrap().points;
        points.change(|all| all.iter_mut().for_each(|point| point.level_mm = point.at.x / 12_000.0 * mm));
    };
    let sure = |own: &mut Arrangement, mm: f64| {
        own.bay.survey.as_mut().unwrap().how.within_mm = Some(mm);
    };
    let carried = |is: bool| if is { raised() } else { clear() };
    let mat = |own: &mut Arrangement, is: bool| {
        *own = carried(is);
        let placement = &mut own.aiming.placements[0];
        (placement.target.kind, placement.target.stand) = (TargetKind::Mat, None);
        placement.height = TargetHeight::OnFloor;
    };
    let moved = |own: &mut Arrangement, mm: f64| own.parked = PlanPose::new(DVec2::new(4_000.0, mm), 0.0);
    // A leaf of 900 mm in the left wall, and a zone whose edge lies 1 500 mm left of the car's middle.
    let leaf = |own: &mut Arrangement, y: f64| {
        own.bay.openings = vec![Opening { shut: false, ..side_door() }];
        own.aiming.zones[0].excludes = Exclusion::Anything;
        moved(own, y);
    };
    let thing = |own: &mut Arrangement, y: f64| {
        own.bay.things.push(cabinet("far too far", (7_450.0, y), 900.0, 450.0));
    };
    vec![
        asked(Code::FloorLevels, Stops, (8.0, 5.0), clear, floor_fell),
        // What the levels are unsure of, of a floor that is level: 1.96 · √2 · 4 / √3 = 6.4 mm of 5.
        asked(Code::FloorLevels, Care, (4.0, 2.0), clear, sure),
        asked(Code::MatBelow, Stops, (true, false), clear, mat),
        asked(Code::MarkInAir, Stops, (true, false), clear, |own, is| *own = carried(is)),
        asked(Code::HeightsFromFloor, Care, (true, false), clear, |own, is| *own = carried(is)),
        asked(Code::WheelOffRunway, Stops, (3_131.0, 3_130.0), raised, moved),
        asked(Code::DoorLeaf, Care, (3_650.0, 3_000.0), clear, leaf),
        asked(Code::ThingPlace, Care, (44_750.0, 5_825.0), clear, thing),
    ]
}

fn of_the_files() -> Vec<Asked> {
    use Severity::{Care, Note};
    let both = || (true, false);
    let loaded =
        |of: fn(&mut Loading) -> &mut bool| move |own: &mut Arrangement, is: bool| *of(&mut own.loading) = is;
    let known = |own: &mut Arrangement, known: Known| own.bay.walls_known = known;
    let from = |own: &mut Arrangement, from: Provenance| own.bay.provenance = from;
    let shop = || Provenance::Measured { by: "a test".into(), date: None };
    vec![
        asked(Code::ProfileChanged, Care, both(), clear, loaded(|own| &mut own.profile_changed)),
        asked(Code::ShopUnread, Care, both(), clear, loaded(|own| &mut own.shop_unread)),
        asked(Code::ShopChanged, Note, both(), clear, loaded(|own| &mut own.shop_changed)),
        asked(Code::OwnBuilding, Note, both(), clear, loaded(|own| &mut own.own_building)),
        asked(Code::OlderByEye, Note, (Known::ByEyeOlder, Known::Within(0.0)), clear, known),
        asked(Code::ExampleFigures, Note, (Provenance::Example, shop()), clear, from),
        asked(Code::SourceNotGiven, Care, (Provenance::NotGiven, shop()), clear, from),
        asked(Code::AssumedFigures, Note, both(), clear, |own, is| {
            let figures = [BodyPart::GroundClearance.into(), SensorPart::View.of(&own.sensor.id)];
            own.vehicle.assumed.extend(figures.into_iter().filter(|_| is));
        }),
        asked(Code::NoZoneNamed, Note, both(), clear, |own, is| {
            if is {
                own.aiming.zones.clear();
            }
            own.aiming.names_no_zone = is;
        }),
        asked(Code::Condition, Note, both(), clear, |own, is| {
            own.aiming.conditions.extend(is.then(|| "boot empty".to_owned()));
        }),
        asked(Code::HaveReady, Note, both(), clear, |own, is| {
            own.aiming.have_ready.extend(is.then(|| "a tape".to_owned()));
        }),
    ]
}

/// Another set-up behind the car, so far to the bay's left: ahead of it its zone reaches over the car.
fn of_what_is_beside() -> Vec<Asked> {
    let other =
        |at: DVec2| Arrangement { id: "the other one".into(), parked: PlanPose::new(at, 0.0), ..clear() };
    let at = move |own: &mut Arrangement, y: f64| {
        *own = pair(own.clone(), other(DVec2::new(-3_000.0, y)), Default::default(), Vec::new());
    };
    let differs = move |own: &mut Arrangement, what: Vec<Id>| {
        *own = pair(own.clone(), other(DVec2::new(-30_000.0, 0.0)), Default::default(), what);
    };
    vec![
        asked(Code::Beside, Severity::Stops, (3_000.0, 9_000.0), clear, at),
        asked(Code::Beside, Severity::Care, (vec!["gate".into()], Vec::new()), clear, differs),
    ]
}

fn all() -> Vec<Asked> {
    [of_what_is_beside(), of_the_car(), of_the_marks(), of_the_ground(), of_the_files()]
        .into_iter()
        .flatten()
        .collect()
}

/// Beside a wall behind the car, where nothing else is asked.
const ELSEWHERE: (f64, f64) = (11_500.0, 5_600.0);

#[test]
fn every_figure_is_told_beyond_its_limit_and_not_within() {
    let rows = Row::all();
    let rows: Vec<Row> =
        rows.into_iter().filter(|row| matches!(row, Row::Thing(..)) && row.is_typical()).collect();
    let mut wrong = Vec::new();
    let mut cells = 0;
    for own in all() {
        let others = rows.iter().copied().map(Some).chain([None]);
        for row in others {
            for (is_beyond, bay) in [(true, &own.beyond), (false, &own.within)] {
                let mut bay = bay.clone();
                if let Some(row) = row {
                    row.put(&mut bay, ELSEWHERE.into(), 100.0, 100.0);
                }
                let judged = judge(&bay);
                let is_it = |f: &&Finding| f.code() == own.code && f.severity == own.severity;
                let found = judged.findings.iter().find(is_it);
                if found.is_some() != is_beyond {
                    let told: Vec<_> = judged.findings.iter().map(|f| (f.code(), f.severity)).collect();
                    wrong.push(format!(
                        "{:?} {:?} beyond {is_beyond}, {row:?}: {told:?}",
                        own.code, own.severity
                    ));
                }
                let is_ready = match own.severity {
                    Severity::Stops => judged.verdict != Verdict::NotReady,
                    Severity::Care => judged.verdict == Verdict::Ready,
                    Severity::Note => false,
                };
                if is_beyond && is_ready {
                    wrong.push(format!("{:?}, {row:?}: {:?}", own.code, judged.verdict));
                }
                cells += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {cells}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(cells > 600, "{cells}");
}

/// A code of which no cell speaks is one that nobody looked for in a bay that is called ready.
#[test]
fn every_code_has_a_cell() {
    let mut held: BTreeSet<Code> = all().iter().map(|own| own.code).collect();
    for (_, _, _, cell, _) in all_cells() {
        if let Cell::Found(_, codes) = cell {
            held.extend(codes);
        }
    }
    held.extend(super::openings::CODES);
    held.extend(super::echoes::CODES);
    // Of every cell it is asked whether these are told where no mark leads to the target, or no zone is entered, and there alone.
    held.extend([Code::MarkMissing, Code::ZonesMissing]);
    let missing: Vec<Code> = Code::ALL.into_iter().filter(|code| !held.contains(code)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}
