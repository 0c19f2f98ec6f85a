//! Virtual aims in the test bay: the sensor 800 mm ahead of the front axle and 500 mm up, the target 4 000 mm before it. What is drawn is
//! held against truths planted beside: geometry by hand, chances of their own.

use baywright_radar::level::Band;

use super::*;
use crate::check::testing::*;
use crate::dice::Dice;
use crate::echoes::{How, With, seen};

const FAR: f64 = 4_000.0;
const AHEAD: f64 = 800.0;

/// The test bay with a reflector, which aims by its place; in a shop that never errs, on a floor that nobody surveyed.
fn quiet() -> Arrangement {
    let mut own = with(vec![]);
    let target = &mut own.aiming.placements[0].target;
    target.kind = TargetKind::CornerReflector;
    target.error = AimError::PLACE;
    (target.width_mm, target.height_mm) = (200.0, 250.0);
    own.bay.survey = None;
    let shop = &mut own.shop;
    for figure in [
        &mut shop.tape_read_mm,
        &mut shop.tape_per_metre_mm,
        &mut shop.tape_within_k,
        &mut shop.laser_per_metre_mm,
        &mut shop.line_found_mm,
        &mut shop.plumb_found_mm,
        &mut shop.wheel_found_mm,
        &mut shop.camber_known_rad,
        &mut shop.square_laid_rad,
        &mut shop.angle_laid_rad,
        &mut shop.floor_usual_mm,
        &mut shop.car_creeps_mm,
        &mut shop.bubble_set_rad,
    ] {
        *figure = 0.0;
    }
    own
}

/// What the radar would see, without its echoes.
fn alone(own: &Arrangement) -> Seen {
    let mut all = seen(own, &Scene::of(own), With::OneMirror);
    all[0].echoes.clear();
    all.remove(0)
}

/// The same with one echo of this level, so far aside.
fn echoing(own: &Arrangement, level: (f64, f64), apart: [f64; 2]) -> Seen {
    let mut all = seen(own, &Scene::of(own), With::OneMirror);
    let mut found = all.remove(0);
    let is_one = |echo: &Echo| echo.heard.beside.is_one() != Surely::No;
    let mut echo = found.echoes.iter().find(|echo| is_one(echo)).cloned().expect("the room echoes");
    // Of a thing: about the floor nobody can do anything.
    echo.how = How::Straight { of: Subject::Thing("cabinet".into()), is_spot_on: true };
    echo.heard.level_db = Band::between(level.0, level.1).unwrap();
    echo.heard.draws_from = apart;
    echo.heard.does = Does::Draws { by: 0.0, limit: 1.0, is_upright: false };
    found.echoes = vec![echo];
    found
}

fn aimed_of(own: &Arrangement, seen: &Seen) -> Aimed {
    let mut aims = VirtualAims::of(own, &Scene::of(own), seen).unwrap();
    while !aims.step() {}
    assert_eq!(aims.steps(), STEPS);
    aims.finish().unwrap()
}

/// Standard normal, by the polar way of Box and Muller.
fn normal(dice: &mut Dice) -> f64 {
    let turn = std::f64::consts::TAU * dice.share();
    (-2.0 * (1.0 - dice.share()).ln()).sqrt() * turn.cos()
}

/// Of what lies anywhere within so much either way.
fn out(dice: &mut Dice, half: f64) -> f64 {
    half / 3.0_f64.sqrt() * normal(dice)
}

/// Of so many truths those that the interval of 95 of 100 holds, to the left and up.
fn covered(aimed: &Aimed, mut truth: impl FnMut(&mut Dice) -> [f64; 2]) -> [f64; 2] {
    const TRUTHS: usize = 20_000;
    let (mut dice, mut held) = (Dice(77), [0.0; 2]);
    for _ in 0..TRUTHS {
        let is = truth(&mut dice);
        for ((held, is), [low, high]) in held.iter_mut().zip(is).zip(aimed.between) {
            *held += if (low..=high).contains(&is) { 1.0 / TRUTHS as f64 } else { 0.0 };
        }
    }
    held
}

fn is_95(share: f64) {
    assert!((share - 0.95).abs() < 0.012, "{share} of the truths are held");
}

fn first(aimed: &Aimed) -> &Why {
    &aimed.worth_fixing().expect("something does").why
}

/// A car that creeps aside at both axles, by hand: turned and shifted, the sensor with it, the target where it was.
fn crept(base: f64, front: f64, rear: f64) -> f64 {
    let turned = ((front - rear) / base).atan();
    let sensor = (AHEAD * turned.cos(), front + AHEAD * turned.sin());
    (-sensor.1).atan2(AHEAD + FAR - sensor.0) - turned
}

/// Levels under both axles and the stand, by hand.
fn lifted(base: f64, front: f64, rear: f64, stand: f64) -> f64 {
    let up = ((front - rear) / base).atan();
    let sensor = (AHEAD * up.cos() - 500.0 * up.sin(), front + AHEAD * up.sin() + 500.0 * up.cos());
    (500.0 + stand - sensor.1).atan2(AHEAD + FAR - sensor.0) - up
}

#[test]
fn a_car_that_creeps_is_held_and_named() {
    let mut own = quiet();
    own.shop.car_creeps_mm = 3.0;
    let base = own.vehicle.wheelbase_mm;
    let aimed = aimed_of(&own, &alone(&own));
    assert_eq!(first(&aimed), &Why::CarMoved);
    is_95(covered(&aimed, |dice| [crept(base, out(dice, 3.0), out(dice, 3.0)), 0.0])[0]);
    // By the law alone: both axles by their levers.
    let by = [-1.0 / base - (1.0 + AHEAD / base) / FAR, 1.0 / base + AHEAD / base / FAR];
    let u = 3.0 / 3.0_f64.sqrt() * by[0].hypot(by[1]);
    assert!((aimed.u[0] / u - 1.0).abs() < 0.03, "{} and {u}", aimed.u[0]);
    assert!(aimed.u[1] < 1e-12 && (aimed.shares[0].of_all - 1.0).abs() < 1e-9);
}

/// Wheels found to 2 mm: the lines of both sides prolonged to the target, their middle seen from the sensor.
#[test]
fn a_mark_laid_from_wheels_is_held_and_named() {
    let mut own = quiet();
    own.shop.wheel_found_mm = 2.0;
    let base = own.vehicle.wheelbase_mm;
    let aimed = aimed_of(&own, &alone(&own));
    assert_eq!(first(&aimed), &Why::Mark);
    let side = |dice: &mut Dice| {
        let (front, rear) = (out(dice, 2.0), out(dice, 2.0));
        front + (front - rear) * (AHEAD + FAR) / base
    };
    let share = covered(&aimed, |dice| [(0.5 * (side(dice) + side(dice)) / FAR).atan(), 0.0])[0];
    is_95(share);
}

#[test]
fn a_floor_and_a_height_are_held_and_named() {
    let mut own = quiet();
    own.shop.floor_usual_mm = 6.0;
    let base = own.vehicle.wheelbase_mm;
    let aimed = aimed_of(&own, &alone(&own));
    assert_eq!(first(&aimed), &Why::Floor);
    is_95(covered(&aimed, |dice| [0.0, lifted(base, out(dice, 6.0), out(dice, 6.0), out(dice, 6.0))])[1]);
    let mut own = quiet();
    own.shop.tape_read_mm = 4.0;
    let aimed = aimed_of(&own, &alone(&own));
    // The same tape lays the spots beside the tyres: to a side that is the mark's.
    let height = aimed.shares.iter().find(|own| own.why == Why::Height).expect("it is set by tape");
    assert!((height.up - 1.0).abs() < 1e-9 && height.left == 0.0, "{height:?}");
    is_95(covered(&aimed, |dice| [0.0, (out(dice, 4.0) / FAR).atan()])[1]);
    // A plate aims by its squareness: a bubble that is read to half a degree tips it by as much.
    let mut own = quiet();
    let target = &mut own.aiming.placements[0].target;
    (target.kind, target.error) = (TargetKind::Plate, AimError::SQUARENESS);
    own.shop.bubble_set_rad = angle::radians(0.5);
    let aimed = aimed_of(&own, &alone(&own));
    assert_eq!(first(&aimed), &Why::Square);
    is_95(covered(&aimed, |dice| [0.0, out(dice, angle::radians(0.5))])[1]);
}

/// How far an echo of this level and phase draws it: the sum of two phasors.
fn drawn(level_db: f64, phase: f64) -> f64 {
    let g = 10.0_f64.powf(level_db / 20.0);
    (g * g + g * phase.cos()) / (1.0 + g * g + 2.0 * g * phase.cos())
}

#[test]
fn an_echo_is_held_and_named() {
    let (own, apart) = (quiet(), [0.05, -0.02]);
    let aimed = aimed_of(&own, &echoing(&own, (-22.0, -14.0), apart));
    assert!(matches!(first(&aimed), Why::Echo(_)), "{aimed:?}");
    let [left, up] = covered(&aimed, |dice| {
        let by = drawn(dice.within(-22.0, -14.0), dice.within(0.0, std::f64::consts::TAU));
        apart.map(|apart| by * apart)
    });
    is_95(left);
    is_95(up);
}

/// All at once, as shops are: held, and by a law of their own that knows no draws.
#[test]
fn all_together_are_held_and_add_up() {
    let mut own = quiet();
    let shop = &mut own.shop;
    (shop.car_creeps_mm, shop.wheel_found_mm, shop.floor_usual_mm) = (0.8, 1.0, 2.0);
    (shop.tape_read_mm, shop.plumb_found_mm) = (0.0, 1.5);
    let base = own.vehicle.wheelbase_mm;
    let aimed = aimed_of(&own, &alone(&own));
    let truth = |dice: &mut Dice| {
        let side = |dice: &mut Dice| {
            let (front, rear) = (out(dice, 1.0), out(dice, 1.0));
            front + (front - rear) * (AHEAD + FAR) / base
        };
        let mark = 0.5 * (side(dice) + side(dice)) / FAR;
        let left = mark + crept(base, out(dice, 0.8), out(dice, 0.8)) + out(dice, 1.5) / FAR;
        [left, lifted(base, out(dice, 2.0), out(dice, 2.0), out(dice, 2.0))]
    };
    let [left, up] = covered(&aimed, truth);
    is_95(left);
    is_95(up);
    let sum = |of: fn(&Share) -> f64| aimed.shares.iter().map(of).sum::<f64>();
    for sum in [sum(|own| own.left), sum(|own| own.up), sum(|own| own.of_all)] {
        assert!((sum - 1.0).abs() < 0.05, "{sum}");
    }
    assert!(aimed.shares.is_sorted_by(|a, b| a.of_all >= b.of_all));
    // The crate's own judgement of what is worth fixing is the first of them.
    let mut aims = VirtualAims::of(&own, &Scene::of(&own), &alone(&own)).unwrap();
    while !aims.step() {}
    let (whys, allowed) = (aims.whys.clone(), aims.allowed);
    let nth = aims.aims.finish().unwrap().worth_fixing(allowed).unwrap();
    assert_eq!(&whys[nth], first(&aimed));
}

#[test]
fn the_same_set_up_has_the_same_answer_and_can_be_stopped() {
    let own = clear_reflector();
    let seen = echoing(&own, (-30.0, -20.0), [0.02, 0.0]);
    assert_eq!(aimed_of(&own, &seen), aimed_of(&own, &seen));
    let mut aims = VirtualAims::of(&own, &Scene::of(&own), &seen).unwrap();
    assert!(!aims.step() && !aims.step() && !aims.step());
    let some = aims.finish().unwrap();
    assert_eq!(some.draws, 1_500);
    let all = aimed_of(&own, &seen);
    assert!((some.within()[0] / all.within()[0] - 1.0).abs() < 0.1);
    // Nothing drawn is nothing told.
    assert_eq!(VirtualAims::of(&own, &Scene::of(&own), &seen).unwrap().finish(), None);
}

/// The test bay as shops are, with a reflector.
fn clear_reflector() -> Arrangement {
    let mut own = clear();
    let target = &mut own.aiming.placements[0].target;
    (target.kind, target.error) = (TargetKind::CornerReflector, AimError::PLACE);
    (target.width_mm, target.height_mm) = (200.0, 250.0);
    own
}

/// A stand that was put 20 mm to the car's left and 8 mm higher, and a floor that falls ahead by 2 mm a metre under a car whose target is
/// set by the plumb line: all aims are shifted, none is spread.
#[test]
fn what_is_known_already_shifts_them_all() {
    let own = clear_reflector();
    let before = aimed_of(&own, &alone(&own));
    assert!(before.off.iter().all(|off| off.abs() < 1e-9), "{:?}", before.off);
    let mut moved = own.clone();
    let set = Scene::of(&own).targets[0].set;
    let place = PlanPose::new(set.place.origin() + DVec2::new(0.0, 20.0), set.place.heading());
    let (height_mm, pitch_rad) = (set.height_mm + 8.0, set.pitch_rad);
    moved.stands = vec![StandSet::At { place, height_mm, pitch_rad }];
    let after = aimed_of(&moved, &alone(&moved));
    let [left, up] = after.off;
    assert!(
        (left - (20.0 / FAR).atan()).abs() < 1e-5 && (up - (8.0 / FAR).atan()).abs() < 1e-5,
        "{left} {up}"
    );
    assert!(after.within()[0] > before.within()[0] + 0.9 * left);
    let mut falling = own;
    falling.aiming.floor = None;
    let survey = falling.bay.survey.as_mut().unwrap();
    survey.points.change(|points| points.iter_mut().for_each(|own| own.level_mm = -0.002 * own.at.x));
    let [_, up] = aimed_of(&falling, &alone(&falling)).off;
    assert!((up - 0.002).abs() < 1e-5, "{up}");
}

#[test]
fn what_may_be_taken_is_left_out_and_said_and_what_has_no_aims_says_why() {
    let own = quiet();
    let scene = Scene::of(&own);
    let taken = |does: Does| {
        let mut seen = echoing(&own, (-9.0, -2.0), [0.05, 0.0]);
        seen.echoes[0].heard.does = does;
        aimed_of(&own, &seen)
    };
    let found = taken(Does::Takes);
    assert_eq!((found.may_be_taken.len(), found.in_line, found.shares.len()), (1, 0, 0), "{found:?}");
    assert_eq!(found.worth_fixing(), None);
    let found = taken(Does::InLine);
    assert_eq!((found.may_be_taken.len(), found.in_line), (0, 1));
    // Too many to be told from nothing.
    let mut many = echoing(&own, (-8.0, -7.0), [0.05, 0.0]);
    many.echoes = vec![many.echoes[0].clone(); 3];
    let why = |own: &Arrangement, seen: &Seen| VirtualAims::of(own, &Scene::of(own), seen).err();
    assert_eq!(why(&own, &many), Some(NoAims::NoBound));
    let mut board = own.clone();
    board.aiming.placements[0].target.kind = TargetKind::Board;
    assert_eq!(why(&board, &alone(&board)), Some(NoAims::Untold(Untold::Target)));
    let mut lost = own.clone();
    lost.aiming.placements[0].mark = None;
    assert_eq!(why(&lost, &alone(&lost)), Some(NoAims::NoMark));
    let mut nothing = own.clone();
    nothing.aiming.placements[0].target.error = AimError { by_place: 0.0, by_squareness: 0.0 };
    assert_eq!(why(&nothing, &alone(&nothing)), Some(NoAims::AimsNothing));
    // An echo that is told apart counts for nothing.
    let mut apart = seen(&own, &scene, With::OneMirror).remove(0);
    apart.echoes.retain(|echo| echo.heard.beside.is_one() == Surely::No);
    assert!(aimed_of(&own, &apart).shares.is_empty());
}
