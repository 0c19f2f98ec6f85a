//! What adds up is judged together: marks, pole, floor and where a target was typed to stand. Figures by hand: see each test.

use baywright_geometry::{DVec2, PlanPose, angle};
use proptest::prelude::*;

use super::super::{Bound, FigureOf, MadeOf, Said, StandField, StandFigure, StandOf, stands};
use super::{proof, reflector};
use crate::check::testing::clear;
use crate::model::{Arrangement, FloorRequirement, Id, LineOver, MarkTaped, SquareBy, StandRead, StandSet};
use crate::scene::Scene;
use crate::{Verdict, assess};

/// The floor's levels by place; what is asked of it is no matter here.
fn on_floor(arrangement: &mut Arrangement, level: impl Fn(DVec2) -> f64) {
    arrangement.aiming.floor = Some(FloorRequirement::level(400.0));
    let survey = arrangement.bay.survey.as_mut().unwrap();
    survey.how.within_mm = Some(0.1);
    survey.points.change(|points| points.iter_mut().for_each(|own| own.level_mm = level(own.at)));
}

/// All that was read of its stand is as it should be, but for its pole, in degrees away and to the left.
fn with_pole(arrangement: &mut Arrangement, [away, left]: [f64; 2]) {
    let mut read = StandRead::of(arrangement.aiming.placements[0].id.clone());
    (read.line_mm, read.offset_mm) = (Some(0.0), Some(0.0));
    (read.square_by, read.beside_mm, read.mirror_mm) = (SquareBy::Mirror, Some(0.0), Some(2_700.0));
    (read.leans_away_rad, read.leans_left_rad) = (Some(angle::radians(away)), Some(angle::radians(left)));
    arrangement.stands_read = vec![read];
}

/// All distances between marks, 5, 6 and T so far ahead and to the left of where they are meant.
fn with_marks(arrangement: &mut Arrangement, by: DVec2) {
    let scene = Scene::of(arrangement);
    let at = |id: &Id| {
        let mark = scene.marks.iter().find(|mark| mark.id == *id).unwrap();
        let moved = if ["5", "6", "T"].contains(&id.as_str()) { by } else { DVec2::ZERO };
        scene.bay_from_vehicle.inverse() * mark.at.unwrap() + moved
    };
    let read = |from: Id, to: Id| {
        let mm = at(&from).distance(at(&to));
        MarkTaped::new(from, to, mm)
    };
    arrangement.marks_taped =
        scene.readings.iter().map(|own| read(own.from.clone(), own.to.clone())).collect();
}

fn of_stand(arrangement: &Arrangement, of: StandOf) -> StandFigure {
    let all = stands(arrangement, &Scene::of(arrangement));
    *all[0].figures.iter().find(|own| own.of == of).unwrap()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-4
}

/// Nose down by 0.1°, a pole that leans 0.12° towards the sensor is tipped by 0.22° against the car; one that leans away by 0.02°.
#[test]
fn a_pole_on_a_floor_that_falls_is_tipped_by_both() {
    let set = |lean: f64, pitch_limit: Option<f64>| {
        let mut plate = clear();
        plate.aiming.placements[0].tolerance.pitch_rad = Some(angle::radians(0.3));
        plate.aiming.tolerance.elevation_rad = angle::radians(0.3);
        on_floor(&mut plate, |at| -at.x * angle::radians(0.1).tan());
        plate.aiming.floor.as_mut().unwrap().pitch_rad = pitch_limit;
        with_pole(&mut plate, [lean, 0.0]);
        plate
    };
    let off = |lean: f64, limit| angle::degrees(of_stand(&set(lean, limit), StandOf::Tip).off);
    assert!(near(off(-0.12, None), -0.22), "{}", off(-0.12, None));
    assert!(near(off(0.12, None), 0.02));
    // A tilt for which the aiming has a limit of its own is the car's affair.
    assert!(near(off(-0.12, Some(0.01)), -0.12));
    let up_down = of_stand(&set(-0.12, None), StandOf::UpDown);
    assert!(near(angle::degrees(up_down.off), 0.22), "{up_down:?}");
    assert!(matches!(up_down.said, Said::CannotSay { .. }), "{up_down:?}");
    assert!(near(angle::degrees(up_down.floor.unwrap()), -0.1));
    // Without levels it is as it was read.
    let mut unsurveyed = set(-0.12, None);
    unsurveyed.bay.survey = None;
    assert!(near(angle::degrees(of_stand(&unsurveyed, StandOf::Tip).off), -0.12));
}

/// A reflector as high as the sensor by the plumb line is seen 0.1° too high from a car that is nose down by 0.1°; 5 mm more at 4 m are
/// 0.0716° more.
#[test]
fn a_reflector_that_is_level_is_high_for_a_car_that_is_nose_down() {
    let mut own = reflector();
    on_floor(&mut own, |at| -at.x * angle::radians(0.1).tan());
    with_pole(&mut own, [0.0, 0.0]);
    own.stands_read[0].line_mm = Some(5.0);
    let seen = angle::degrees(of_stand(&own, StandOf::UpDown).off);
    assert!((seen - 0.1 - 0.071_6).abs() < 1e-3, "{seen}");
}

/// The middle of the face is 500 mm up: marks 3 mm to the left, a pole that leans 0.3° to the left (2.618 mm), a car that is 0.2° up at
/// its left (the target stands 1.745 mm to the left of what is upright for it).
#[test]
fn marks_pole_and_floor_add_up_to_one_place() {
    let mut own = reflector();
    own.aiming.placements[0].tolerance.across_mm = Some(8.0);
    on_floor(&mut own, |at| at.y * angle::radians(0.2).tan());
    with_pole(&mut own, [0.3, 0.3]);
    with_marks(&mut own, DVec2::new(0.0, 3.0));
    let figures = proof(&own).figures;
    let of = |of: FigureOf| figures.iter().find(|own| own.of == of).unwrap();
    let (aside, further, direction) = (of(FigureOf::Aside), of(FigureOf::Distance), of(FigureOf::Direction));
    let part = |which: MadeOf| aside.made_of.iter().find(|(own, _)| *own == which).unwrap().1;
    assert!((part(MadeOf::Pole) - 2.618).abs() < 1e-3, "{:?}", aside.made_of);
    assert!((part(MadeOf::Floor) - 1.745).abs() < 1e-2, "{:?}", aside.made_of);
    assert!(part(MadeOf::Marks) > 1.5 && part(MadeOf::Marks) < 3.1, "{:?}", aside.made_of);
    let sum: f64 = aside.made_of.iter().map(|(_, by)| by).sum();
    assert!(near(sum, aside.off));
    assert!((further.off - 2.618).abs() < 0.1, "{further:?}");
    assert!((direction.off - aside.off / 4_000.0).abs() < 1e-5, "{direction:?}");
    assert!(!matches!(aside.said, Said::Inside { .. }), "{aside:?}");
}

/// What somebody typed of where it stands counts to what was taped: 4 mm to the left.
#[test]
fn where_it_was_typed_to_stand_counts() {
    let mut own = reflector();
    with_marks(&mut own, DVec2::new(0.0, 3.0));
    let aside =
        |own: &Arrangement| proof(own).figures.into_iter().find(|own| own.of == FigureOf::Aside).unwrap().off;
    let before = aside(&own);
    let meant = Scene::of(&own).targets[0].meant;
    let place = PlanPose::new(meant.place.origin() + DVec2::new(0.0, 4.0), meant.place.heading());
    own.stands[0] = StandSet::At { place, height_mm: meant.height_mm, pitch_rad: 0.0 };
    assert!((aside(&own) - before - 4.0).abs() < 1e-6, "{before}");
}

/// Figures that cannot be are left out and told; what can be is taken.
#[test]
fn what_cannot_be_is_not_used() {
    let told = |change: &dyn Fn(&mut StandRead)| {
        let mut own = clear();
        own.aiming.tolerance.azimuth_rad = angle::radians(2.0);
        own.aiming.tolerance.elevation_rad = angle::radians(2.0);
        with_pole(&mut own, [0.0, 0.0]);
        change(&mut own.stands_read[0]);
        let proof = stands(&own, &Scene::of(&own)).remove(0);
        let is_read = proof.figures.iter().any(|own| own.of == StandOf::Turn);
        let told: Vec<_> = proof.not_possible.iter().map(|own| (own.field, own.by)).collect();
        assert_eq!(told.is_empty(), assess(&own).verdict == Verdict::Ready, "{told:?}");
        (told, is_read)
    };
    let two = |by, left: f64, right: f64, apart: f64| {
        move |own: &mut StandRead| {
            own.square_by = by;
            (own.left_mm, own.right_mm, own.apart_mm) = (Some(left), Some(right), Some(apart));
        }
    };
    // The farthest corner of the 12 m by 6 m room from the target at (8.8, 3) is 9.3 m off.
    for mm in [27_000.0, 50_000.0, 9_400.0, 0.0, -2_700.0] {
        let found = told(&|own| (own.mirror_mm, own.beside_mm) = (Some(mm), Some(40.0)));
        assert_eq!(found, (vec![(StandField::Mirror, Bound::Room)], false), "{mm}");
    }
    assert_eq!(told(&|own| own.mirror_mm = Some(2_700.0)), (vec![], true));
    let bar = |left, right, apart| told(&two(SquareBy::Bar, left, right, apart));
    assert_eq!(bar(3_000.0, 3_020.0, 20_000.0), (vec![(StandField::Bar, Bound::Bar)], false));
    let below = vec![(StandField::Left, Bound::Room), (StandField::Right, Bound::Room)];
    assert_eq!(bar(-1_000.0, -1_000.0, 2_000.0), (below.clone(), false));
    assert_eq!(bar(19_000.0, 19_000.0, 2_000.0), (below, false));
    assert_eq!(bar(3_000.0, 5_000.0, 2_000.0), (vec![(StandField::Right, Bound::Ends)], false));
    let wide = told(&two(SquareBy::Distances, 3_000.0, 3_004.0, 4_800.0));
    assert_eq!(wide, (vec![(StandField::Apart, Bound::Face)], false));
    let floor = told(&|own| {
        own.line_over = LineOver::Floor;
        (own.line_mm, own.offset_mm) = (Some(19_000.0), Some(-18_480.0));
    });
    assert_eq!(floor.0, [(StandField::Line, Bound::Ceiling), (StandField::Offset, Bound::Stand)]);
}

/// How far a place may be off, mm, and how far a tip and an aim up or down, degrees.
const PLACE: f64 = 8.0;
const ANGLE: f64 = 0.3;
/// So many pairs of what adds up: see [`with_errors`].
const PAIRS: usize = 6;

/// Two errors of one way, in shares of what is allowed of their sum: `a` of the first and `b` of the second of one of these pairs.
fn with_errors(which: usize, a: f64, b: f64) -> Arrangement {
    let mut own = if which == 4 { clear() } else { reflector() };
    let tolerance = &mut own.aiming.placements[0].tolerance;
    (tolerance.across_mm, tolerance.along_mm) = (Some(PLACE), Some(PLACE));
    tolerance.pitch_rad = (which == 4).then_some(angle::radians(ANGLE));
    own.aiming.tolerance.elevation_rad = angle::radians(ANGLE);
    own.aiming.tolerance.azimuth_rad = angle::radians(ANGLE);
    // 500 mm up: an angle that moves the target by so much.
    let lean = |mm: f64| angle::degrees((mm / 500.0_f64).asin());
    let tilt = |deg: f64| angle::radians(deg).tan();
    let (mut pole, mut marks) = ([0.0, 0.0], DVec2::ZERO);
    let (first, second) = (a * PLACE, b * PLACE);
    match which {
        // Pole and marks, aside and along.
        0 => (pole, marks) = ([0.0, lean(first)], DVec2::new(0.0, second)),
        1 => (pole, marks) = ([lean(first), 0.0], DVec2::new(second, 0.0)),
        // Pole and floor aside; marks and floor aside.
        2 => {
            pole = [0.0, lean(first)];
            on_floor(&mut own, |at| at.y * tilt(lean(second)));
        }
        3 => {
            marks = DVec2::new(0.0, first);
            on_floor(&mut own, |at| at.y * tilt(lean(second)));
        }
        // A plate's pole and floor, tipped; a reflector's height and floor, up and down.
        4 => {
            pole = [a * ANGLE, 0.0];
            on_floor(&mut own, |at| at.x * tilt(b * ANGLE));
        }
        _ => on_floor(&mut own, |at| -at.x * tilt(b * ANGLE)),
    }
    with_pole(&mut own, pole);
    if which == 5 {
        own.stands_read[0].line_mm = Some(4_000.0 * tilt(a * ANGLE));
    }
    with_marks(&mut own, marks);
    own
}

#[test]
fn errors_of_nothing_are_ready() {
    for which in 0..PAIRS {
        let found = assess(&with_errors(which, 0.0, 0.0));
        assert_eq!(found.verdict, Verdict::Ready, "{which}: {:?}", found.findings);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Two errors of the same way, each below its limit and both together beyond it, are never ready: whatever they are of.
    #[test]
    fn errors_that_add_up_are_never_ready(
        a in 0.3..0.95f64,
        b in 0.3..0.95f64,
        way in prop_oneof![Just(1.0), Just(-1.0)],
        which in 0..PAIRS,
    ) {
        prop_assume!(a + b > 1.0);
        let verdict = assess(&with_errors(which, way * a, way * b)).verdict;
        prop_assert!(verdict != Verdict::Ready, "{which}: {a} {b} {way}");
    }
}

/// 5 and 6 are 2 000 mm apart: 8.727 mm of one ahead turns the face by 0.25°. The aim alone may be off by more; the placement's own limit
/// counts where it has one.
#[test]
fn a_face_that_its_marks_turn_is_held_against_its_own_limit() {
    let with_limit = |degrees: Option<f64>| {
        let mut own = clear();
        own.aiming.tolerance.azimuth_rad = angle::radians(1.0);
        own.aiming.placements[0].tolerance.yaw_rad = degrees.map(angle::radians);
        let scene = Scene::of(&own);
        let at = |id: &Id| {
            let mark = scene.marks.iter().find(|mark| mark.id == *id).unwrap();
            let moved = match id.as_str() {
                "5" => DVec2::new(8.727, 0.0),
                "T" => DVec2::new(4.363, 0.0),
                _ => DVec2::ZERO,
            };
            scene.bay_from_vehicle.inverse() * mark.at.unwrap() + moved
        };
        let read = |from: &Id, to: &Id| MarkTaped::new(from.clone(), to.clone(), at(from).distance(at(to)));
        own.marks_taped = scene.readings.iter().map(|own| read(&own.from, &own.to)).collect();
        let figures = proof(&own).figures;
        figures.into_iter().find(|own| own.of == FigureOf::Turn)
    };
    assert_eq!(with_limit(None), None);
    let narrow = with_limit(Some(0.2)).unwrap();
    assert!(angle::degrees(narrow.off.abs()) > 0.15, "{narrow:?}");
    assert!(!matches!(narrow.said, Said::Inside { .. }), "{narrow:?}");
    let wide = with_limit(Some(2.0)).unwrap();
    assert!(matches!(wide.said, Said::Inside { .. }), "{wide:?}");
}
