//! Marks that are laid with one tape and checked with others: what each is out by itself is common to all that it read.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, Reach, Wheel};
use baywright_survey::budget::{Budget, CheckTape, Instruments, Sought, Tape};
use baywright_survey::next_tape::{Candidate, Known, Wish};

/// How much longer or shorter a tape is, a ratio, and its warmth, ± K.
const SCALE: f64 = 1e-4;
const WITHIN_K: f64 = 15.0;
const STEEL: f64 = 11.5e-6;
/// A reading that is as good as nothing off.
const SURE_MM: f64 = 1e-6;

/// A mark 5 m ahead of a wheel, laid with a tape that is off by its scale and its warmth, and nothing else.
fn plan(within_k: f64, checks: &[CheckTape]) -> Known {
    let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    let mut plan: Vec<Construction> = Wheel::ALL.map(|wheel| Construction::WheelPoint { wheel }).to_vec();
    plan.push(Construction::Prolong { from: 2, through: 0, reach: Reach::Length(5_000.0) });
    let tape = Tape { scale: SCALE, within_k, ..Instruments::PERFECT.tape };
    let shop = Instruments { tape, ..Instruments::PERFECT };
    let budget = Budget::of(&plan, &givens, &shop).unwrap();
    Known::as_laid(&budget.checked_with(checks.to_vec()).unwrap())
}

fn u(known: &Known) -> f64 {
    let from = DVec2::new(0.0, 780.0);
    known.u(&Wish::Target(Sought::Distance { mark: 4, from })).unwrap()
}

fn read(known: &Known, tape: usize) -> Known {
    known.once_taped(&Candidate { from: 0, to: 4, u_mm: SURE_MM, tape }).unwrap()
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-5, "{a} against {b}");
}

/// Uncertainties of independent sights of one thing: the weights add up (JCGM 100, H.1's law, by hand).
#[test]
fn another_tape_tells_what_the_first_one_cannot() {
    let another = |is| CheckTape { is, scale: SCALE, warmth: 0.0 };
    let laid = plan(0.0, &[another(1), another(2), another(1)]);
    near(u(&laid), 0.5);
    near(u(&read(&laid, 0)), 0.5);
    near(u(&read(&laid, 1)), 0.5 / 2.0_f64.sqrt());
    // Twice by the same one, under whatever name, is once; by a third one it is not.
    near(u(&read(&read(&laid, 1), 1)), 0.5 / 2.0_f64.sqrt());
    near(u(&read(&read(&laid, 1), 3)), 0.5 / 2.0_f64.sqrt());
    near(u(&read(&read(&laid, 1), 2)), 0.5 / 3.0_f64.sqrt());
}

/// The tape that the marks are laid with, at a temperature that is known: its warmth while they were laid shows, its scale never.
#[test]
fn a_known_temperature_tells_the_warmth_and_not_the_scale() {
    let laid = plan(WITHIN_K, &[CheckTape { is: 0, scale: 0.0, warmth: 0.0 }]);
    // 5 m, 15 K, 11.5 ppm is 0.86 mm either way, any value alike.
    let warmth = 5_000.0 * WITHIN_K * STEEL / 3.0_f64.sqrt();
    near(u(&laid), f64::hypot(0.5, warmth));
    near(u(&read(&laid, 0)), f64::hypot(0.5, warmth));
    near(u(&read(&laid, 1)), 0.5);
    // Known to 2 K it is not all of it.
    let known = plan(WITHIN_K, &[CheckTape { is: 0, scale: 0.0, warmth: 2.0 * STEEL / 3.0_f64.sqrt() }]);
    let left = 5_000.0 * 2.0 * STEEL / 3.0_f64.sqrt();
    let both = warmth.powi(-2) + left.powi(-2);
    near(u(&read(&known, 1)), f64::hypot(0.5, both.powf(-0.5)));
}

#[test]
fn a_tape_that_is_none_says_nothing() {
    let laid = plan(0.0, &[]);
    assert_eq!(laid.once_taped(&Candidate { from: 0, to: 4, u_mm: 1.0, tape: 1 }), None);
    assert_eq!(laid.expects(&Candidate { from: 0, to: 4, u_mm: 1.0, tape: 1 }), None);
}
