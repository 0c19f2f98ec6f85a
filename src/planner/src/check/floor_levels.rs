//! What is known of the floor.
//!
//! Rule: the floor's levels near wheels and targets are known, dated, not older than [`VALID_DAYS`], and differ by no
//! more than the aiming allows. Without levels the best verdict is "ready with care". Among the points nearest to each
//! wheel and target more than the aiming allows stops the aiming; of a car on runways only its targets stand on the
//! floor. More than that only elsewhere in the survey is not judged yet, and needs care.
//! Limit: the aiming's floor requirement; the age is common practice, no source.

use baywright_geometry::DVec2;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::model::{FloorSurvey, LevelPoint};

/// Surveyed once a year (common practice, no source).
const VALID_DAYS: i64 = 365;
/// A wheel or target is covered if a level was taken within two paces of it: between points further apart a floor may
/// do anything (common practice, no source).
const COVERED_WITHIN_MM: f64 = 1500.0;

pub(super) const CHECK: Check = Check { codes: &[Code::FloorLevels], whole, ..Check::NONE };

/// What is known of the floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorFact {
    /// Nobody surveyed it.
    Unknown,
    /// Surveyed, but undated.
    Undated,
    /// Surveyed on a day that is still to come.
    Future,
    /// Surveyed too long ago.
    OutOfDate,
    /// Too uneven near wheels and targets.
    Uneven,
    /// Too uneven somewhere else: this program does not judge yet whether that matters.
    NotJudged,
    /// The survey does not reach all wheels and targets.
    NotCovered,
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let care = |fact: FloorFact, basis: Basis| {
        finding(Facts::FloorLevels(fact), Severity::Care, vec![Subject::Floor], at, basis)
            .cured_by(Step::SurveyFloor)
    };
    let procedure = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let Some(survey) = &context.arrangement.bay.survey else {
        findings.push(care(FloorFact::Unknown, procedure));
        return;
    };
    match (survey.taken, context.arrangement.today) {
        (None, _) => findings.push(care(FloorFact::Undated, Basis::CommonPractice)),
        (Some(taken), Some(today)) => {
            let days = i64::from(taken.until(today).map_or(0, |span| span.get_days()));
            if days < 0 {
                findings.push(care(FloorFact::Future, Basis::AsEntered));
            } else if days > VALID_DAYS {
                findings.push(
                    care(FloorFact::OutOfDate, Basis::CommonPractice)
                        .against(Quantity::Days(days), Quantity::Days(VALID_DAYS)),
                );
            }
        }
        (Some(_), None) => {}
    }
    if !covers(context, survey) {
        findings.push(care(FloorFact::NotCovered, procedure.clone()));
    }
    let Some(floor) = context.arrangement.aiming.floor else { return };
    let against = |found: Finding, spread: f64| {
        let mut found = found.against(Quantity::Length(spread), Quantity::Length(floor.level_mm));
        // No survey makes a floor level.
        found.cure = None;
        found
    };
    let (near, anywhere) = (spread(levels_that_matter(context, survey)), spread(survey.points.iter()));
    if near > floor.level_mm {
        let uneven = Finding { severity: Severity::Stops, ..care(FloorFact::Uneven, procedure) };
        findings.push(against(uneven, near));
    } else if anywhere > floor.level_mm {
        findings.push(against(care(FloorFact::NotJudged, procedure), anywhere));
    }
}

/// Highest less lowest of some levels; nothing where there are none.
fn spread<'a>(points: impl Iterator<Item = &'a LevelPoint>) -> f64 {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in points {
        (low, high) = (low.min(point.level_mm), high.max(point.level_mm));
    }
    (high - low).max(0.0)
}

/// For each wheel on the floor and each target the surveyed point nearest to it.
fn levels_that_matter<'a>(
    context: &Context<'_>,
    survey: &'a FloorSurvey,
) -> impl Iterator<Item = &'a LevelPoint> {
    let on_floor = context.arrangement.on_runways.is_empty();
    let wheels = context.scene.wheels.into_iter().filter(move |_| on_floor);
    let targets = context.scene.targets.iter().map(|target| target.set.place.origin());
    let places: Vec<DVec2> = wheels.chain(targets).collect();
    places.into_iter().filter_map(|place| {
        let distance = |point: &LevelPoint| point.at.distance(place);
        survey.points.iter().min_by(|a, b| distance(a).total_cmp(&distance(b)))
    })
}

/// Whether the survey reaches all wheels and targets.
fn covers(context: &Context<'_>, survey: &FloorSurvey) -> bool {
    let targets = context.scene.targets.iter().map(|target| target.set.place.origin());
    let near = |p: DVec2| survey.points.iter().any(|point| point.at.distance(p) <= COVERED_WITHIN_MM);
    context.scene.wheels.iter().copied().chain(targets).all(near)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn the_floor() {
        let fact = |arrangement: &Arrangement| {
            let found = check(arrangement, Code::FloorLevels, Severity::Care, None);
            let Facts::FloorLevels(fact) = found.facts else { panic!() };
            fact
        };
        let mut arrangement = clear();
        arrangement.bay.survey.as_mut().unwrap().points[2].level_mm = 5.0;
        none(&arrangement, Code::FloorLevels);
        arrangement.bay.survey.as_mut().unwrap().points[2].level_mm = 5.1;
        assert_eq!(fact(&arrangement), FloorFact::NotJudged);
        let mut arrangement = clear();
        arrangement.today = Some(jiff::civil::date(2027, 6, 2));
        assert_eq!(fact(&arrangement), FloorFact::OutOfDate);
        arrangement.today = Some(jiff::civil::date(2027, 6, 1));
        none(&arrangement, Code::FloorLevels);
        arrangement.today = Some(jiff::civil::date(2026, 5, 31));
        assert_eq!(fact(&arrangement), FloorFact::Future);
        arrangement.bay.survey.as_mut().unwrap().taken = None;
        assert_eq!(fact(&arrangement), FloorFact::Undated);
        let mut arrangement = clear();
        arrangement.bay.survey.as_mut().unwrap().points.retain(|point| point.at.x < 7_000.0);
        assert_eq!(fact(&arrangement), FloorFact::NotCovered);
        arrangement.bay.survey = None;
        assert_eq!(fact(&arrangement), FloorFact::Unknown);
        assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
    }

    /// The rear left wheel stands at (1400, 3770), the target at (8800, 3000): nearest are the points at (1000, 4000) and
    /// (9000, 3000).
    #[test]
    fn a_floor_that_is_not_level_at_wheels_and_target_stops() {
        let stops = |arrangement: &Arrangement, spread: f64| {
            let found = check(arrangement, Code::FloorLevels, Severity::Stops, Some(spread));
            assert_eq!(found.facts, Facts::FloorLevels(FloorFact::Uneven));
            assert!(found.cure.is_none(), "no survey makes a floor level");
            assert_eq!(assess(arrangement).verdict, Verdict::NotReady);
        };
        let low_at = |x: f64, y: f64, level: f64| {
            let mut arrangement = clear();
            for point in &mut arrangement.bay.survey.as_mut().unwrap().points {
                if point.at == DVec2::new(x, y) {
                    point.level_mm = -level;
                }
            }
            arrangement
        };
        stops(&low_at(1_000.0, 4_000.0, 5.1), 5.1);
        stops(&low_at(9_000.0, 3_000.0, 54.0), 54.0);
        none(&low_at(1_000.0, 4_000.0, 5.0), Code::FloorLevels);
        // A fall all along: 1.5 mm a metre over the 8 m from the rear wheels' points to the target's.
        let mut falling = clear();
        for point in &mut falling.bay.survey.as_mut().unwrap().points {
            point.level_mm = 0.0015 * point.at.x;
        }
        stops(&falling, 12.0);
        // On runways the wheels do not stand on that floor.
        let mut raised = low_at(1_000.0, 4_000.0, 5.1);
        let runway = |name: &str, y: f64| Runway {
            id: name.into(),
            outline: rectangle((1_000.0, y - 300.0), (4_600.0, y + 300.0)),
            top_mm: 150.0,
        };
        raised.bay.runways = vec![runway("left runway", 3_770.0), runway("right runway", 2_230.0)];
        raised.on_runways = vec!["left runway".into(), "right runway".into()];
        let found = check(&raised, Code::FloorLevels, Severity::Care, Some(5.1));
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::NotJudged));
    }
}
