use baywright_geometry::angle;

use super::*;
use crate::check::testing::clear;
use crate::model::{MarkTaped, TargetKind};

fn reflector() -> Arrangement {
    let mut arrangement = clear();
    arrangement.aiming.placements[0].target.kind = TargetKind::CornerReflector;
    arrangement.aiming.placements[0].target.error = AimError::PLACE;
    arrangement
}

fn explained(arrangement: &Arrangement, said: &RoutineSaid) -> Explained {
    explain(arrangement, &Scene::of(arrangement), said, &[]).unwrap()
}

fn cause_of(found: &Explained, nth: usize) -> Cause {
    found.causes[nth].suspect.cause()
}

/// All that a tape can be held between, with a mark so far beside its place, mm, in the vehicle frame, and what is built from it.
fn taped_with(arrangement: &Arrangement, mislaid: &str, aside_mm: f64) -> Arrangement {
    let scene = Scene::of(arrangement);
    let place = |id: &Id| {
        let at = scene.marks.iter().find(|own| own.id == *id).unwrap().at.unwrap();
        let by = if id.as_str() == mislaid { aside_mm } else { 0.0 };
        scene.bay_from_vehicle.inverse() * at + baywright_geometry::DVec2::new(0.0, by)
    };
    let mut arrangement = arrangement.clone();
    arrangement.marks_taped = scene
        .readings
        .iter()
        .map(|own| {
            let read_mm = place(&own.from).distance(place(&own.to)).round();
            MarkTaped::new(own.from.clone(), own.to.clone(), read_mm)
        })
        .collect();
    arrangement
}

fn left(by: f64) -> RoutineSaid {
    let sideways = Way::Above(Some(angle::radians(by)));
    RoutineSaid { whose: Some(Whose::Target), sideways, upright: Way::Fine, ..RoutineSaid::default() }
}

/// The last mark 20 mm to the left and all distances taped: the mark is the cause, and how far it is out is told.
#[test]
fn a_mark_that_was_taped_as_it_lies_is_named() {
    let arrangement = taped_with(&reflector(), "T", 20.0);
    let seen = angle::degrees(20.0 / 4_000.0);
    let found = explained(&arrangement, &left(seen));
    assert_eq!(cause_of(&found, 0), Cause::Mark, "{found:?}");
    assert!(found.is_clear && found.causes[0].is_measured);
    // Its last step, sideways from the join or along it.
    let Suspect::Laid(Origin::Along(6) | Origin::Across(6)) = found.causes[0].suspect else {
        panic!("{:?}", found.causes[0])
    };
    assert!((found.causes[0].out.value.abs() - 20.0).abs() < 3.0, "{found:?}");
}

/// The marks taped as they are meant: they are not it, and what nothing was read of is left, with what to check.
#[test]
fn marks_that_fit_are_cleared() {
    let arrangement = taped_with(&reflector(), "", 0.0);
    let found = explained(&arrangement, &left(0.4));
    let place = found.causes.iter().position(|own| own.suspect.cause() == Cause::Mark).unwrap();
    assert!(place > 0 && !found.is_clear, "{found:?}");
    assert!(found.check.is_some());
    assert!((found.causes.iter().map(|own| own.chance).sum::<f64>() - 1.0).abs() < 1e-9);
    // Before anything was taped they are as likely as the rest, and one of them is to be taped or something else looked at.
    let before = explained(&reflector(), &left(0.4));
    let chance = |of: &Explained| {
        of.causes.iter().find(|own| own.suspect.cause() == Cause::Mark).map_or(0.0, |own| own.chance)
    };
    assert!(chance(&before) > 2.0 * chance(&found), "{before:?}");
}

/// The sensor that looks to the left sees the target to the right, and nobody guesses which was told.
#[test]
fn whose_way_it_is_is_asked() {
    let arrangement = reflector();
    let (scene, told) = (Scene::of(&arrangement), left(0.4));
    let unsaid = RoutineSaid { whose: None, ..told };
    assert_eq!(explain(&arrangement, &scene, &unsaid, &[]), Err(Unexplained::WhoseWay));
    let sensor = RoutineSaid { whose: Some(Whose::Sensor), ..told };
    let other = RoutineSaid { sideways: Way::Below(Some(angle::radians(0.4))), ..told };
    assert_eq!(explain(&arrangement, &scene, &sensor, &[]), explain(&arrangement, &scene, &other, &[]));
    assert_ne!(explain(&arrangement, &scene, &sensor, &[]), explain(&arrangement, &scene, &told, &[]));
    // Only that it failed: no way, so nobody's.
    let only = explain(&arrangement, &scene, &RoutineSaid::default(), &[]).unwrap();
    assert!(!only.is_clear);
}

/// Up and down is the floor, the stand's height, the bracket: never a mark, never the car's thrust line.
#[test]
fn up_and_down_is_no_mark() {
    let mut arrangement = reflector();
    arrangement.stands[0] = crate::model::StandSet::At {
        place: Scene::of(&arrangement).targets[0].meant.place,
        height_mm: 520.0,
        pitch_rad: 0.0,
    };
    let up = RoutineSaid {
        whose: Some(Whose::Target),
        sideways: Way::Fine,
        upright: Way::Above(Some(20.0 / 4_000.0)),
        ..RoutineSaid::default()
    };
    let found = explained(&arrangement, &up);
    assert_eq!(found.causes[0].suspect, Suspect::StandHeight, "{found:?}");
    assert!(found.is_clear && found.causes[0].is_measured);
    assert!((found.causes[0].out.value - 20.0).abs() < 2.0);
    let marks = found.causes.iter().find(|own| own.suspect.cause() == Cause::Mark).unwrap();
    assert!(marks.chance < 0.02);
    assert!(found.causes.iter().all(|own| own.suspect.cause() != Cause::ThrustLine));
}

#[test]
fn where_there_is_nothing_to_say_it_is_said_why() {
    let arrangement = reflector();
    let scene = Scene::of(&arrangement);
    let fine = RoutineSaid { sideways: Way::Fine, upright: Way::Fine, ..RoutineSaid::default() };
    assert_eq!(explain(&arrangement, &scene, &fine, &[]), Err(Unexplained::BothFine));
    let mut none = arrangement.clone();
    none.aiming.placements[0].target.error = AimError { by_place: 0.0, by_squareness: 0.0 };
    assert_eq!(explain(&none, &Scene::of(&none), &left(0.4), &[]), Err(Unexplained::NoTarget));
    let zero = RoutineSaid { limit_rad: Some(0.0), ..left(0.4) };
    assert_eq!(explain(&arrangement, &scene, &zero, &[]), Err(Unexplained::Nothing));
    // Without marks the rest is weighed all the same.
    let mut bare = arrangement;
    bare.aiming.mark_plan.clear();
    bare.aiming.placements[0].mark = None;
    let found = explain(&bare, &Scene::of(&bare), &left(0.4), &[]).unwrap();
    assert!(found.causes.iter().all(|own| own.suspect.cause() != Cause::Mark));
}

/// What is proposed is checked, until one is named: a car that moved is found by its own check, and cleared by it.
#[test]
fn a_check_that_is_made_counts() {
    let arrangement = taped_with(&reflector(), "", 0.0);
    let scene = Scene::of(&arrangement);
    // 4 mm to the right in front: the target is seen to the left.
    let moved = |suspect: Suspect| if suspect == Suspect::CarFront { -4.0 } else { 0.0 };
    let base = arrangement.vehicle.wheelbase_mm;
    let seen = 4.0 / base + 4.0 * (1.0 + 800.0 / base) / 4_000.0;
    let mut looked: Vec<Looked> = Vec::new();
    for _ in 0..8 {
        let found = explain(&arrangement, &scene, &left(angle::degrees(seen)), &looked).unwrap();
        if found.is_clear {
            assert_eq!(found.causes[0].suspect, Suspect::CarFront, "{found:?}");
            assert!(found.causes[0].is_measured && (found.causes[0].out.value + 4.0).abs() < 1.0);
            return;
        }
        let Some(ToCheck::Part { at, target }) = found.check else { panic!("{found:?}") };
        assert!(looked.iter().all(|own| own.at != at), "once is enough: {looked:?}");
        looked.push(Looked { at, target, out: moved(at) });
    }
    panic!("{looked:?}");
}

/// The same set-up with a second target beside the first, 1 m to the left, nearer by 1 m.
fn two_targets() -> Arrangement {
    let mut own = reflector();
    let mut other = own.aiming.placements[0].clone();
    other.id = "beside".into();
    other.stand_off.distance_mm = 3_000.0;
    other.stand_off.aside_mm = 1_000.0;
    other.mark = None;
    own.aiming.placements.push(other);
    own.stands.push(crate::model::StandSet::OnMark);
    own
}

/// Of each target its own stand counts; which one it is, the routine may say.
#[test]
fn every_target_that_aims_is_weighed() {
    let own = two_targets();
    assert_eq!(may_fail_at(&own), [0, 1]);
    let stand =
        |found: &Explained| *found.causes.iter().find(|own| own.suspect.cause() == Cause::Stand).unwrap();
    let at = |nth: usize| stand(&explained(&own, &RoutineSaid { at: Some(nth), ..left(0.4) }));
    assert_eq!((at(0).target, at(1).target), (0, 1));
    // Where it does not say, the chances of all causes together are one still.
    let all = explained(&own, &left(0.4));
    assert!((all.causes.iter().map(|own| own.chance).sum::<f64>() - 1.0).abs() < 1e-9);
    // The first alone is what it was when there was no other.
    let alone = explained(&reflector(), &left(0.4));
    let first = explained(&own, &RoutineSaid { at: Some(0), ..left(0.4) });
    assert_eq!((first.causes, first.is_clear), (alone.causes, alone.is_clear));
    // The first one's stand was looked at and is as it was: the second one's is left, and it is told.
    let looked: Vec<Looked> = [Suspect::StandAside, Suspect::StandLeans, Suspect::CarFront, Suspect::CarRear]
        .map(|at| Looked { at, target: 0, out: 0.0 })
        .to_vec();
    let found = explain(&own, &Scene::of(&own), &left(0.4), &looked).unwrap();
    assert_eq!(stand(&found).target, 1, "{found:?}");
    // A target that does not aim is none of them.
    let mut plain = own.clone();
    plain.aiming.placements[1].target.error = AimError { by_place: 0.0, by_squareness: 0.0 };
    assert_eq!(may_fail_at(&plain), [0]);
    assert_eq!(
        explain(&plain, &Scene::of(&plain), &RoutineSaid { at: Some(1), ..left(0.4) }, &[]),
        Err(Unexplained::NoTarget)
    );
}

/// What goes wrong as a rule is the shop's to say.
#[test]
fn the_shop_says_what_goes_wrong_as_a_rule() {
    let mut own = reflector();
    let chance = |of: &Arrangement| {
        let found = explained(of, &left(0.4));
        found.causes.iter().find(|own| own.suspect.cause() == Cause::Bracket).map_or(0.0, |own| own.chance)
    };
    let usual = chance(&own);
    // A bracket that is turned by half a degree as a rule explains it by itself.
    own.shop.bracket_usual_rad = angle::radians(0.7);
    assert!((chance(&own) - usual).abs() > 0.02, "{usual} {}", chance(&own));
}
