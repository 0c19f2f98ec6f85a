//! What all steps together lead to.

use baywright_planner::cure::{LOOKED_WITHIN_MM, apply};
use baywright_planner::geometry::{DVec2, overlap_area};
use baywright_planner::model::*;
use baywright_planner::{Code, Promise, Severity, Step, Verdict, assess, assess_fully, judge};

use crate::support::*;

/// Two trolleys side by side in a zone that is shut off on all sides but one gap: each alone goes into the gap, both do
/// not. What no set of moves can do is not promised.
#[test]
fn two_things_are_not_sent_to_one_place() {
    let trolley = |name: &str, x: f64| cabinet(name, (x, 4_300.0), 500.0, 500.0);
    let mut wall = cabinet("shelf", (6_000.0, 5_280.0), 11_900.0, 1_440.0);
    wall.effort = Effort::Fixed;
    // The shelf stands from y = 4560 on, the zone ends at 4500, but for a bay of 560 mm in the shelf.
    let corners = [
        (-5_950.0, -720.0),
        (1_700.0, -720.0),
        (1_700.0, -60.0),
        (2_260.0, -60.0),
        (2_260.0, -720.0),
        (5_950.0, -720.0),
        (5_950.0, 720.0),
        (-5_950.0, 720.0),
    ];
    wall.footprint = Footprint::new(Shape::Outline(corners.map(DVec2::from).into())).unwrap();
    wall.material = Material::Wood;
    let arrangement = with(vec![trolley("left trolley", 7_700.0), trolley("right trolley", 8_260.0), wall]);
    let assessment = assess(&arrangement);
    for name in ["left trolley", "right trolley"] {
        let found = assessment.findings.iter().find(|f| f.culprit().is_some_and(|id| id.as_str() == name));
        assert!(found.is_some_and(|f| f.cure.is_some()), "{name} has a way out of its own");
    }
    if let Some(promise) = &assessment.promise {
        let after = promise.steps.iter().fold(arrangement, |now, step| apply(&now, step));
        assert_eq!(stacked(&after), vec![]);
    }
}

/// The pairs of things that share a place.
fn stacked(arrangement: &Arrangement) -> Vec<(Id, Id)> {
    let solids: Vec<_> = arrangement.bay.things.iter().map(|own| (&own.id, own.prism())).collect();
    let mut pairs = Vec::new();
    for (i, (id, a)) in solids.iter().enumerate() {
        for (other, b) in solids.iter().skip(i + 1) {
            if a.span.shared(&b.span).is_some() && overlap_area(&a.outline, &b.outline) > 1.0 {
                pairs.push(((*id).clone(), (*other).clone()));
            }
        }
    }
    pairs
}

/// Whatever is promised holds when it is done.
#[test]
fn promises_hold() {
    for seed in 0..200_u64 {
        let arrangement = crate::totality::crowded(seed, 12);
        let assessment = assess(&arrangement);
        if let Some(promise) = &assessment.promise {
            let before = stacked(&arrangement);
            let after = promise.steps.iter().fold(arrangement, |now, step| apply(&now, step));
            assert_eq!(judge(&after).verdict, promise.verdict, "seed {seed}");
            assert!(stacked(&after).iter().all(|pair| before.contains(pair)), "seed {seed}: stacked");
            assert_ne!(promise.verdict, Verdict::NotReady);
        }
    }
}

/// The same of the ways that are looked for off the frame; the car goes no further than it says.
#[test]
fn what_is_looked_for_further_holds_too() {
    let (mut by_car, mut better) = (0, 0);
    for seed in 0..120_u64 {
        let arrangement = crate::totality::crowded(seed, 6);
        let (fast, full) = (assess(&arrangement).promise, assess_fully(&arrangement).promise);
        let Some(promise) = full else {
            assert_eq!(fast, None, "seed {seed}: looking further lost a way");
            continue;
        };
        let before = stacked(&arrangement);
        let done =
            |promise: &Promise| promise.steps.iter().fold(arrangement.clone(), |now, step| apply(&now, step));
        let after = done(&promise);
        assert_eq!(judge(&after).verdict, promise.verdict, "seed {seed}");
        assert!(stacked(&after).iter().all(|pair| before.contains(pair)), "seed {seed}: stacked");
        let all = |promise: &Promise| {
            let left = judge(&done(promise)).findings;
            promise.steps.len() + left.iter().filter(|f| f.severity == Severity::Care).count()
        };
        if let Some(fast) = &fast {
            assert!(all(&promise) <= all(fast), "seed {seed}");
            better += usize::from(all(&promise) < all(fast));
        }
        for step in &promise.steps {
            let Step::MoveCar { by } = step else { continue };
            // Rounded away from where it stood, and further by what is sure.
            assert!(by.length() < LOOKED_WITHIN_MM + 2.0, "seed {seed}: {by}");
            by_car += 1;
        }
        // No step is needless.
        for i in 0..promise.steps.len() {
            let rest = promise.steps.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, step)| step);
            let less = judge(&rest.fold(arrangement.clone(), |now, step| apply(&now, step)));
            assert!(
                less.verdict == Verdict::NotReady
                    || less.findings.len() > judge(&after).findings.len()
                    || promise.steps.len() == 1,
                "seed {seed}: {:?}",
                promise.steps
            );
        }
    }
    assert!(by_car >= 5 && better >= 3, "{by_car} by car, {better} better");
}

/// A post in the sight and in no zone: the car goes aside with its target, and everything is clear by the post's and the
/// car's own uncertainty.
#[test]
fn a_post_in_the_sight_alone_moves_the_car() {
    let mut arrangement = with(vec![column("post", (7_000.0, 3_020.0), 60.0)]);
    // A zone that a post does not mind.
    arrangement.aiming.zones[0].excludes = Exclusion::Light;
    arrangement.parked_known = ParkedKnown::Planned;
    arrangement.bay.things[0].place.known = Known::Taped;
    let assessment = assess_fully(&arrangement);
    let found = of(&assessment, Code::SightBlocked)[0];
    let Some(Step::MoveCar { by }) = found.cure.as_ref().map(|cure| &cure.step) else { panic!("{found:?}") };
    assert_eq!(judge(&apply(&arrangement, &Step::MoveCar { by: *by })).verdict, Verdict::Ready, "{by}");
    let promise = assessment.promise.unwrap();
    assert_eq!((promise.steps.len(), promise.verdict), (1, Verdict::Ready));
}

/// Two trolleys in the zone's edge, one behind the other as seen from its side: the first goes where the second would have
/// gone. Found one after the other they come to stand side by side.
#[test]
fn two_trolleys_are_both_brought_out() {
    let trolley = |name: &str, y: f64| cabinet(name, (8_000.0, y), 500.0, 300.0);
    let arrangement = with(vec![trolley("near", 4_340.0), trolley("far", 4_020.0)]);
    let promise = assess_fully(&arrangement).promise.unwrap();
    let after = promise.steps.iter().fold(arrangement.clone(), |now, step| apply(&now, step));
    assert_eq!((promise.verdict, stacked(&after)), (Verdict::Ready, vec![]));
    let ways: Vec<DVec2> = promise
        .steps
        .iter()
        .filter_map(|step| match step {
            Step::MoveThing { by, .. } => Some(*by),
            _ => None,
        })
        .collect();
    assert_eq!(ways.len(), 2, "{:?}", promise.steps);
}
