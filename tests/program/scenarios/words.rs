//! The words of a scenario for what is measured, read and entered; and for what a profile and files say, which is tried in memory
//! alone (`profile`, `file`).

use baywright_planner::geometry::marks::Construction;
use baywright_planner::geometry::{DVec2, DVec3, PlanPose, Span, angle};
use baywright_planner::model::sheet::{Inward, Side, Told, Typed};
use baywright_planner::model::{
    Arrangement, Bay, CheckFrom, CheckRead, Effort, FloorFeature, FloorFeatureKind, Footprint, Instrument,
    InstrumentKind, Known, MarkCheck, MarkTaped, Material, OnThisCar, Opening, OpeningKind, PermanentMark,
    Place, Provenance, ReferenceAxis, SensorKind, Shape, StandRead, Stood, Taken, TargetHeight, TargetKind,
    Thing, ThingKind, Wheel,
};

/// What a layout and an arrangement keep of it in the same way.
pub struct Held<'a> {
    pub car: &'a mut OnThisCar,
    pub taped: &'a mut Vec<MarkTaped>,
    pub stands: &'a mut Vec<StandRead>,
    pub bay: &'a mut Bay,
}

/// The wheels, as lines of a scenario name them.
const WHEELS: [&str; 4] = ["front left", "front right", "rear left", "rear right"];

fn number(parts: &[&str], i: usize) -> f64 {
    parts.get(i).and_then(|part| part.parse().ok()).unwrap_or_else(|| panic!("no figure {i} in {parts:?}"))
}

fn inward(way: &str) -> Option<Inward> {
    match way {
        "in" => Some(Inward::In),
        "out" => Some(Inward::Out),
        _ => None,
    }
}

fn wheel(name: &str) -> usize {
    WHEELS.iter().position(|own| *own == name).unwrap_or_else(|| panic!("no wheel {name:?}"))
}

/// Does what a line says; whether it is one of these words.
pub fn hold(word: &str, parts: &[&str], held: Held<'_>) -> bool {
    let Held { car, taped, stands, bay } = held;
    let number = |i: usize| number(parts, i);
    let side = |way: &str| match way {
        "left" => Some(Side::Left),
        "right" => Some(Side::Right),
        _ => None,
    };
    match word {
        "sheet" => {
            let reads = Some(Typed::of(number(1)));
            match parts[0] {
                "rear left toe" => car.sheet.toe[2] = Told { reads, way: inward(parts[2]) },
                "rear right toe" => car.sheet.toe[3] = Told { reads, way: inward(parts[2]) },
                "thrust angle" => car.sheet.thrust = Told { reads, way: side(parts[2]) },
                "set-back" => car.sheet.set_back = Told { reads, way: side(parts[2]) },
                what => panic!("sheet: what is {what:?}?"),
            }
        }
        "camber" => {
            car.sheet.camber[wheel(parts[0])] =
                Told { reads: Some(Typed::of(number(1))), way: inward(parts[2]) };
        }
        "arches" => car.arches_mm = [0, 1, 2, 3].map(|i| Some(number(i))),
        "body point" => car.body_points.push((parts[0].into(), DVec2::new(number(1), number(2)))),
        "taped to the car" => {
            let (from, to) = ("cross on the floor".into(), "left front rim".into());
            car.stood.push(Stood { from, to, start_mm: number(0), end_mm: Some(number(1)) });
        }
        "sensor at" => car.sensor_at = Some(DVec3::new(number(0), number(1), number(2))),
        "taped" => taped.push(MarkTaped::new(parts[0].into(), parts[1].into(), number(2))),
        "taped with" => taped.push(MarkTaped {
            taken: Taken {
                with: Some(parts[3].into()),
                at: Some(parts[4].parse::<jiff::civil::Date>().expect("a day").at(9, 0, 0, 0)),
                ..Taken::default()
            },
            ..MarkTaped::new(parts[0].into(), parts[1].into(), number(2))
        }),
        "stand read" => {
            let mut own = StandRead::of(parts[0].into());
            let read = |i: usize| (parts[i] != "-").then(|| number(i));
            (own.line_mm, own.offset_mm) = (read(1), read(2));
            (own.leans_away_rad, own.leans_left_rad) = (Some(0.0), Some(0.0));
            stands.push(own);
        }
        "painted" => bay.marks.push(PermanentMark::new(parts[0].into(), DVec2::new(number(1), number(2)))),
        "checked" => {
            let mark = bay.marks.iter_mut().find(|own| own.id.as_str() == parts[0]).expect("a mark");
            let read =
                [2, 4].map(|i| CheckRead { from: CheckFrom::Wall(parts[i].into()), read_mm: number(i + 1) });
            mark.checks.push(MarkCheck { on: parts[1].parse().expect("a day"), who: None, with: None, read });
        }
        "thing" => bay.things.push(thing(parts)),
        "pane" => bay.things.push(Thing { material: Material::Glass, ..thing(parts) }),
        "board" => {
            let own = thing(parts);
            let at = PlanPose::new(own.place.at.origin(), angle::radians(number(5)));
            bay.things.push(Thing { material: Material::Wood, place: Place { at, ..own.place }, ..own });
        }
        "built" => bay.things.push(Thing { effort: Effort::Fixed, ..thing(parts) }),
        "sill" => {
            let at = |i: usize| DVec2::new(number(i), number(i + 1));
            let outline = baywright_planner::geometry::Polygon::rectangle(at(1), at(3)).expect("a rectangle");
            let (kind, material) = (FloorFeatureKind::Joint, Material::Wood);
            let id = parts[0].into();
            bay.floor_features.push(FloorFeature { id, kind, outline, material, proud_mm: number(5) });
        }
        "leaf" => {
            let door = Opening {
                id: parts[0].into(),
                kind: OpeningKind::SwingDoor,
                wall: bay.walls.iter().position(|own| own.id.as_str() == parts[1]).expect("a wall"),
                from_mm: number(2),
                width_mm: number(3),
                span: Span::new(0.0, 2_000.0).expect("heights"),
                material: Material::Steel,
                shut: false,
                free_beyond_mm: 2_000.0,
                is_exit: false,
            };
            bay.openings.push(door);
        }
        "older by eye" => {
            let thing = bay.things.iter_mut().find(|own| own.id.as_str() == parts[0]);
            thing.expect("it is there").place.known = Known::ByEyeOlder;
        }
        "room from" => match parts[0] {
            "nowhere" => bay.provenance = Provenance::NotGiven,
            what => panic!("room from: what is {what:?}?"),
        },
        _ => return false,
    }
    true
}

/// A steel box from the floor to 1 m.
fn thing(parts: &[&str]) -> Thing {
    let number = |i: usize| number(parts, i);
    let shape = Shape::Rectangle { length_mm: number(3), width_mm: number(4) };
    Thing {
        id: parts[0].into(),
        kind: ThingKind::Other,
        footprint: Footprint::new(shape).expect("a shape"),
        place: Place { at: PlanPose::new(DVec2::new(number(1), number(2)), 0.0), known: Known::Within(0.0) },
        span: Span::new(0.0, 1_000.0).expect("heights"),
        material: Material::Steel,
        metal: None,
        effort: Effort::OnePerson,
        locked: false,
    }
}

/// An instrument of the shop's list.
pub fn instrument(parts: &[&str]) -> Instrument {
    let due = parts.get(1).map(|day| day.parse().expect("a day"));
    let is_laser = parts.get(2) == Some(&"line laser");
    let kind = if is_laser { InstrumentKind::LineLaser } else { InstrumentKind::SteelTape };
    Instrument { due, ..Instrument::new(parts[0].into(), kind) }
}

/// What the car's profile says otherwise.
pub fn profile(parts: &[&str], now: &mut Arrangement) {
    let number = |i: usize| number(parts, i);
    match parts[0] {
        "looks left" => now.sensor.azimuth_rad = angle::radians(number(1)),
        "sees" => now.sensor.view.azimuth_half_rad = angle::radians(number(1)) * 0.5,
        "camera" => {
            let camera = baywright_planner::model::Camera { pixels_across: 1_280, pixels_down: 960 };
            now.sensor.kind = SensorKind::SurroundCamera(camera);
        }
        "mat" => {
            let placement = &mut now.aiming.placements[0];
            (placement.target.kind, placement.target.stand) = (TargetKind::Mat, None);
            placement.height = TargetHeight::OnFloor;
        }
        "thrust line" => now.aiming.axis = ReferenceAxis::ThrustLine,
        "no zone entered" => now.aiming.zones.clear(),
        "no zone named" => {
            now.aiming.zones.clear();
            now.aiming.names_no_zone = true;
        }
        "no mark" => now.aiming.placements[0].mark = None,
        "spot" => {
            let construction =
                Construction::Outboard { wheel: Wheel::ALL[wheel(parts[1])], distance: number(2) };
            let is = |own: &&mut baywright_planner::model::MarkStep| matches!(own.construction, Construction::Outboard { wheel: of, .. } if of == Wheel::ALL[wheel(parts[1])]);
            now.aiming.mark_plan.iter_mut().find(is).expect("a spot").construction = construction;
        }
        "target where lines cross that do not" => {
            let last = now.aiming.mark_plan.last_mut().expect("a plan");
            last.construction = Construction::Crossing { first: (0, 2), second: (1, 3) };
        }
        "place within" => {
            now.aiming.placements[0].tolerance.across_mm = Some(number(1));
        }
        what => panic!("profile: what is {what:?}?"),
    }
}

/// What was noticed of files as they were read.
pub fn file(parts: &[&str], now: &mut Arrangement) {
    match parts[0] {
        "profile changed" => now.loading.profile_changed = true,
        "settings not read" => now.loading.shop_unread = true,
        "settings changed" => now.loading.shop_changed = true,
        what => panic!("file: what is {what:?}?"),
    }
}
