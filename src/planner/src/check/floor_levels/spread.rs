//! How level the floor is at all that stands on it.

use baywright_survey::Level;

use super::spots::{Spot, Spots};
use super::{care_of, no_cure};
use crate::check::finding::{Finding, Quantity, Severity};
use crate::check::{Context, FloorFact, SPEAKS_FROM_MM};

/// Highest against lowest of what stands on the floor.
pub(super) fn spread(context: &Context<'_>, spots: &Spots<'_>, limit: f64) -> Option<Finding> {
    let known: Vec<(&Spot, Level)> = spots.standing().filter_map(|spot| Some((spot, spot.level?))).collect();
    let pairs = || known.iter().flat_map(|high| known.iter().map(move |low| (high, low)));
    let apart = |(high, low): &(&(&Spot, Level), &(&Spot, Level))| high.1.level_mm - low.1.level_mm;
    let at_worst = |pair: &(&(&Spot, Level), &(&Spot, Level))| {
        let both = pair.0.0.at.distance(pair.1.0.at) > 0.0;
        apart(pair) + if both { libm::hypot(pair.0.1.within_mm, pair.1.1.within_mm) } else { 0.0 }
    };
    let found = |fact: FloorFact, pair: (&(&Spot, Level), &(&Spot, Level)), by: f64| {
        let mut of = vec![pair.0.0.of.clone(), pair.1.0.of.clone()];
        of.dedup();
        care_of(context, fact, of, pair.1.0.at).against(Quantity::Length(by), Quantity::Length(limit))
    };
    let worst = pairs().max_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    if apart(&worst) > limit {
        let uneven = no_cure(found(FloorFact::Uneven, worst, apart(&worst)));
        return Some(Finding { severity: Severity::Stops, ..uneven });
    }
    let worst = pairs().max_by(|a, b| at_worst(a).total_cmp(&at_worst(b)))?;
    (at_worst(&worst) > limit + SPEAKS_FROM_MM)
        .then(|| found(FloorFact::MaybeUneven, worst, at_worst(&worst)))
}

#[cfg(test)]
mod tests {
    use crate::check::floor_levels::testing::*;
    use crate::check::testing::*;

    /// The rear left wheel stands at (1400, 3770), in the cell of the points (1000 to 2000, 3000 to 4000).
    #[test]
    fn a_floor_that_is_not_level_at_wheels_and_target_stops() {
        let stops = |arrangement: &Arrangement, spread: f64| {
            let found = of(&assess(arrangement), Code::FloorLevels)
                .into_iter()
                .find(|found| found.facts == Facts::FloorLevels(FloorFact::Uneven))
                .cloned()
                .unwrap();
            assert_eq!(found.severity, Severity::Stops);
            assert!((number(found.measured.unwrap()) - spread).abs() < 1e-6, "{found:?}");
            assert!(found.cure.is_none(), "no survey makes a floor level");
            assert_eq!(assess(arrangement).verdict, Verdict::NotReady);
        };
        // A fall all along, 1 mm a metre: from the rear wheels at 1400 to the feet at 9300.
        stops(&with_levels(|p| 0.001 * p.x), 7.9);
        none(&with_levels(|p| 0.0006 * p.x), Code::FloorLevels);
        // A step between x = 7 m and x = 8 m.
        stops(&with_levels(|p| if p.x > 7_500.0 { -54.0 } else { 0.0 }), 54.0);
        // Twice the limit, sharply, at one point 2 m aside of all that stands there.
        none(&with_levels(|p| if p == DVec2::new(6_000.0, 1_000.0) { 10.0 } else { 0.0 }), Code::FloorLevels);
    }

    /// A hole elsewhere: an end of the room 54 mm lower, or never surveyed. A metre beside something it would count: where
    /// between two points a floor breaks off no survey shows.
    #[test]
    fn what_is_elsewhere_does_not_matter() {
        let far = |p: DVec2| p.x > 11_500.0;
        none(&with_levels(|p| if far(p) { -54.0 } else { 0.0 }), Code::FloorLevels);
        let mut arrangement = clear();
        survey_of(&mut arrangement, |points| points.retain(|point| !far(point.at)));
        none(&arrangement, Code::FloorLevels);
    }

    /// A dip of 6 mm at the point (4000, 4000), 230 mm beside the front left wheel: 4.6 mm there. The slopes round it change by
    /// so much that 5 mm may well be passed.
    #[test]
    fn what_may_be_uneven_needs_care() {
        let dip = with_levels(|p| if p == DVec2::new(4_000.0, 4_000.0) { -6.0 } else { 0.0 });
        let found = of(&assess(&dip), Code::FloorLevels).into_iter().next().cloned().unwrap();
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::MaybeUneven));
        assert_eq!(found.severity, Severity::Care);
        let most = number(found.measured.unwrap());
        assert!(most > 5.0 && most < 8.0, "{most}");
        // Where it bends by decimetres, nothing is known at all between the points.
        let rough = with_levels(|p| if (p.x + p.y) % 2_000.0 > 500.0 { 40.0 } else { -40.0 });
        assert!(facts(&rough).contains(&(FloorFact::Uncertain, Severity::Care)));
    }

    /// The floor falls under a raised car and is level at its target: that is nothing to wheels that stand on runways.
    #[test]
    fn on_runways_the_floor_says_nothing_of_the_wheels() {
        let falls = |p: DVec2| if p.x < 5_000.0 { 20.0 } else { 0.0 };
        assert_eq!(facts(&with_levels(falls))[0], (FloorFact::Uneven, Severity::Stops));
        let mut arrangement = raised();
        survey_of(&mut arrangement, |points| {
            points.iter_mut().filter(|p| p.at.x < 5_000.0).for_each(|p| p.level_mm = 20.0);
        });
        assert!(!facts(&arrangement).iter().any(|(fact, _)| *fact == FloorFact::Uneven));
        none(&raised(), Code::FloorLevels);
    }
}
