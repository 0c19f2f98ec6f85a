//! Whatever is asked, an answer comes, the same each time, the same in every orientation.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::model::*;
use baywright_planner::{Code, assess};

use crate::dice::Dice;
use crate::support::*;

/// The clear bay with things thrown in anywhere, many of them in the way.
pub fn crowded(seed: u64, count: usize) -> Arrangement {
    let mut dice = Dice(seed);
    let mut things = Vec::new();
    for i in 0..count {
        let at = (dice.within(-500.0, 12_500.0), dice.within(-500.0, 6_500.0));
        let mut thing = if dice.share() < 0.2 {
            column(&format!("round {i}"), at, dice.within(50.0, 600.0))
        } else {
            cabinet(&format!("box {i}"), at, dice.within(1.0, 1_500.0), dice.within(1.0, 900.0))
        };
        thing.place.at = PlanPose::new(at.into(), dice.within(-4.0, 4.0));
        let bottom = if dice.share() < 0.3 { dice.within(0.0, 2_500.0) } else { 0.0 };
        thing.span = span(bottom, bottom + dice.within(1.0, 2_000.0));
        thing.place.known = [Known::Taped, Known::ByEye, Known::Within(0.0)][(dice.share() * 3.0) as usize];
        thing.effort = [Effort::OnePerson, Effort::TwoPeople, Effort::Fixed][(dice.share() * 3.0) as usize];
        thing.material = Material::ALL[(dice.share() * 15.0) as usize];
        things.push(thing);
    }
    with(things)
}

#[test]
fn an_empty_surveyed_bay_is_ready() {
    let assessment = assess(&clear());
    assert_eq!(assessment.verdict, Verdict::Ready, "{:#?}", assessment.findings);
    assert!(assessment.findings.is_empty(), "{:#?}", assessment.findings);
}

#[test]
fn the_same_answer_each_time() {
    for seed in 0..50 {
        let arrangement = crowded(seed, 20);
        assert_eq!(assess(&arrangement), assess(&arrangement));
    }
}

/// Turning and shifting the whole bay changes no finding's measured value.
#[test]
fn a_turned_bay_is_the_same_bay() {
    for seed in 0..60 {
        let arrangement = crowded(seed, 10);
        let turn = PlanPose::new(DVec2::new(123.0, -4_567.0), angle::radians(37.0 + seed as f64));
        let mut turned = arrangement.clone();
        turned.parked = turn * arrangement.parked;
        turned.bay.room = arrangement.bay.room.placed(&turn);
        for thing in &mut turned.bay.things {
            thing.place.at = turn * thing.place.at;
        }
        turned.bay.survey.as_mut().unwrap().points.change(|points| {
            points.iter_mut().for_each(|point| point.at = turn * point.at);
        });
        let key = |a: &Arrangement| {
            let mut all: Vec<_> = assess(a)
                .findings
                .iter()
                .map(|f| (f.code(), f.subjects.clone(), f.measured.map(number)))
                .collect();
            all.sort_by(|a, b| (a.0, &a.1).cmp(&(b.0, &b.1)));
            all
        };
        let (one, other) = (key(&arrangement), key(&turned));
        assert_eq!(one.len(), other.len(), "seed {seed}:\n{one:#?}\n{other:#?}");
        for (a, b) in one.iter().zip(&other) {
            assert_eq!((a.0, &a.1), (b.0, &b.1), "seed {seed}");
            let (a, b) = (a.2.unwrap_or(0.0), b.2.unwrap_or(0.0));
            assert!((a - b).abs() < 1e-5 * a.abs().max(1.0), "seed {seed}: {a} and {b}");
        }
    }
}

#[test]
fn nothing_is_not_a_number() {
    for seed in 0..100 {
        let assessment = assess(&crowded(seed, 15));
        for finding in &assessment.findings {
            assert!(finding.place.is_finite(), "{finding:?}");
            for value in [finding.measured, finding.limit].into_iter().flatten() {
                assert!(number(value).is_finite(), "{finding:?}");
            }
        }
    }
}

/// Whatever is put where it must not be, something is said about it.
#[test]
fn a_metal_thing_in_the_zone_never_goes_unsaid() {
    for seed in 0..200 {
        let mut dice = Dice(seed);
        let at = (dice.within(4_950.0, 9_750.0), dice.within(1_550.0, 4_450.0));
        let mut thing = cabinet("thing", at, dice.within(0.1, 900.0), dice.within(0.1, 900.0));
        thing.place.at = PlanPose::new(at.into(), dice.within(-4.0, 4.0));
        let assessment = assess(&with(vec![thing]));
        assert!(!of(&assessment, Code::ZoneObject).is_empty(), "seed {seed}");
    }
}
