use proptest::prelude::*;

use super::*;
use crate::check::testing::*;
use crate::proof::{FigureOf, Helps};

fn always() -> bool {
    true
}

fn helps(of: &Arrangement) -> Vec<PlanBuys> {
    plan_helps(of, &always)
}

fn sure(of: &Arrangement) -> Sure {
    Sure::of(of, &Scene::of(of)).unwrap()
}

fn at_angle() -> Arrangement {
    let mut own = clear();
    let plan = [
        ("1", Construction::Outboard { wheel: Wheel::RearLeft, distance: 150.0 }),
        ("2", Construction::Outboard { wheel: Wheel::FrontLeft, distance: 150.0 }),
        ("T", Construction::AtAngle { at: 1, towards: 0, angle: angle::radians(168.0), distance: 4907.0 }),
    ];
    own.aiming.mark_plan = plan.map(|(id, construction)| MarkStep { id: id.into(), construction }).to_vec();
    own.aiming.placements[0].target.error = AimError::PLACE;
    own
}

fn out(of: &[PlanBuys]) -> Option<(&PlanBuys, f64)> {
    of.iter().find_map(|own| match own.otherwise {
        Otherwise::FurtherOut { to_mm, .. } => Some((own, to_mm)),
        _ => None,
    })
}

/// The plate aims by its squareness, that is by the join of two marks: the further apart they lie the less each of them turns it.
#[test]
fn spots_further_out_turn_a_plate_less() {
    let mut own = clear();
    let (found, now) = (helps(&own), sure(&own).u95());
    let (best, to_mm) = out(&found).unwrap();
    assert!(to_mm > 150.0 && best.u95 < (1.0 - WORTH) * now, "{to_mm}: {} of {now}", best.u95);
    // With a square that is square, as far out as anybody goes.
    own.shop.square_laid_rad = 0.0;
    let (found, now) = (helps(&own), sure(&own).u95());
    let (best, to_mm) = out(&found).unwrap();
    assert!(to_mm > 1_000.0 && best.u95 < 0.8 * now, "{to_mm}: {} of {now}", best.u95);
    assert_eq!(best.then.aiming.mark_plan.len(), own.aiming.mark_plan.len());
    // A reflector aims by its place: how far apart the marks beside it lie is nothing to it.
    let mut reflector = clear();
    reflector.aiming.placements[0].target.error = AimError::PLACE;
    assert_eq!(out(&helps(&reflector)), None);
}

/// A square that is not square is nothing beside a tyre and something two metres from it: what is told counts it.
#[test]
fn a_spot_far_out_is_laid_by_a_square() {
    let mut own = clear();
    own.shop.square_laid_rad = angle::radians(1.0);
    let loose = helps(&own);
    own.shop.square_laid_rad = 0.0;
    let (square, far) = out(&helps(&own)).map(|(own, to_mm)| (own.u95, to_mm)).unwrap();
    assert!(out(&loose).is_none_or(|(own, to_mm)| own.u95 > square && to_mm < far), "{loose:?}");
}

/// Only as far as the room lets them lie: a bench along a wall stops them there.
#[test]
fn the_room_lets_them_lie_so_far() {
    let mut own = clear();
    own.shop.square_laid_rad = 0.0;
    let (_, free) = out(&helps(&own)).map(|(_, to)| ((), to)).unwrap();
    // The outer sides of the tyres lie 870 mm off the middle line, which is at y = 3 m: this bench begins 500 mm further out.
    let mut narrow = own.clone();
    narrow.bay.things = vec![cabinet("bench", (6.0e3, 4.87e3), 12.0e3, 1.0e3)].into_iter().collect();
    let found = helps(&narrow);
    let to = out(&found).map_or(0.0, |(_, to)| to);
    assert!(to < 700.0 && to < free, "{to} of {free}");
}

/// An angle is laid by two distances, not by a protractor.
#[test]
fn two_tapes_lay_an_angle_better_than_a_protractor() {
    let own = at_angle();
    let found = helps(&own);
    let now = sure(&own).u95();
    let other = found.iter().find(|own| own.otherwise == Otherwise::OtherWay).unwrap();
    assert!(other.u95 < 0.5 * now, "{} of {now}", other.u95);
    let told = other.plan();
    assert!(told.iter().any(|own| !matches!(
        own.construction,
        Construction::Outboard { .. } | Construction::AtAngle { .. }
    )));
}

/// Two tapes from the front spots alone would lay the marks ahead by figures off a drawing: a car whose axle is set back would turn
/// the target, and the budget would not show it.
#[test]
fn no_plan_leaves_a_wheel_out() {
    let own = clear();
    let scene = Scene::of(&own);
    let asked = Asked::of(&own, &always).unwrap();
    let places = laid(&own.aiming.mark_plan, &scene.givens(&own).unwrap()).unwrap();
    let by_front = |mark: usize, side: WhichSide| Construction::TwoDistances {
        first: 2,
        from_first: places[mark].distance(places[2]),
        second: 3,
        from_second: places[mark].distance(places[3]),
        side,
    };
    let mut plan = own.aiming.mark_plan.clone();
    plan[4].construction = by_front(4, WhichSide::Right);
    let changed = vec![4];
    let tried = Tried { plan, changed, stands: (0..7).collect() };
    let lies = laid(&tried.plan, &scene.givens(&own).unwrap()).unwrap();
    let lies = if lies[4].distance(places[4]) < 1.0 {
        tried
    } else {
        let mut other = tried;
        other.plan[4].construction = by_front(4, WhichSide::Left);
        other
    };
    assert!(!asked.is_same_to_the_car(&lies, |_| true, None));
    let same = Tried { plan: own.aiming.mark_plan.clone(), ..lies };
    assert!(asked.is_same_to_the_car(&same, |_| true, None));
}

use baywright_geometry::marks::WhichSide;

/// A drawing numbers marks as they are laid: where their names are these numbers, they still are.
#[test]
fn marks_that_are_numbered_stay_numbered() {
    let mut own = at_angle();
    own.aiming.rename_mark(2, "3".into());
    let found = helps(&own);
    let other = found.iter().find(|own| own.plan().len() > 3).unwrap_or(&found[0]);
    let names: Vec<&str> = other.plan().iter().map(|own| own.id.as_str()).collect();
    assert_eq!(names, ["1", "2", "3", "4", "5"][..names.len()]);
    let under = other.then.aiming.placements[0].mark.clone().unwrap();
    let at = |of: &Arrangement, id: &Id| {
        Scene::of(of).marks.iter().find(|mark| mark.id == *id).unwrap().at.unwrap()
    };
    assert!(at(&other.then, &under).distance(at(&own, &"3".into())) <= SAME_PLACE_MM);
}

#[test]
fn whoever_does_not_wait_is_told_nothing() {
    assert_eq!(plan_helps(&clear(), &|| false), Vec::new());
}

#[test]
fn what_it_is_held_against_is_the_plan_as_it_is_laid_now() {
    let own = clear();
    let now = Helps::of(&own, &Scene::of(&own)).unwrap();
    assert_eq!((now.of, now.u95), (FigureOf::Direction, sure(&own).u95()));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    /// No help is claimed that is not there: with its plan taken the program says no more of doubt than was told, the marks lie where they
    /// lay, and nothing new is found.
    #[test]
    fn with_the_plan_taken_it_is_as_sure_as_was_told(
        kind in 0..3_usize,
        out_mm in 100.0..600.0_f64,
        tape in 0.2..2.0_f64,
        laser in 0.05..1.0_f64,
        square_deg in 0.0..0.5_f64,
        bench in 4.0..6.0_f64,
    ) {
        let mut own = if kind == 2 { at_angle() } else { clear() };
        if kind == 1 {
            own.aiming.placements[0].target.error = AimError::PLACE;
        }
        for step in &mut own.aiming.mark_plan {
            if let Construction::Outboard { distance, .. } = &mut step.construction {
                *distance = (out_mm / 10.0).round() * 10.0;
            }
        }
        own.shop.tape_read_mm = tape;
        own.shop.laser_per_metre_mm = laser;
        own.shop.square_laid_rad = angle::radians(square_deg);
        own.bay.things = vec![cabinet("bench", (8.0e3, bench * 1e3), 4.0e3, 400.0)].into_iter().collect();
        let (before, now) = (judge(&own), sure(&own));
        let places = Scene::of(&own);
        for buys in helps(&own) {
            // Taken as one takes it: the plan alone, in the set-up as it is.
            let mut then = own.clone();
            buys.take(&mut then.aiming);
            let said = sure(&then);
            match buys.otherwise {
                Otherwise::FurtherOut { .. } => prop_assert!(said.u95() <= buys.u95 + 1e-15),
                _ => prop_assert_eq!(said.u95(), buys.u95),
            }
            prop_assert!(buys.u95 <= now.u95() * (1.0 - WORTH));
            let lies = Scene::of(&then);
            let target = own.aiming.placements[0].mark.clone().unwrap();
            let at = |scene: &Scene| scene.marks.iter().find(|mark| mark.id == target).unwrap().at.unwrap();
            prop_assert!(at(&lies).distance(at(&places)) <= 2.0 * SAME_PLACE_MM);
            for own in judge(&then).findings.iter().filter(|own| own.severity != Severity::Note) {
                prop_assert!(before.findings.iter().any(|was| was.code() == own.code() && was.subjects == own.subjects));
            }
        }
    }
}
