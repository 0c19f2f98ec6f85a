//! Floors with levels, and what is found of them.

use crate::check::testing::*;

/// The clear bay with levels by place; its survey is a grid of 1 m.
pub(super) fn with_levels(level: impl Fn(DVec2) -> f64) -> Arrangement {
    let mut arrangement = clear();
    survey_of(&mut arrangement, |points| points.iter_mut().for_each(|p| p.level_mm = level(p.at)));
    // Sure to the last, so that what is found is what the surface makes of it.
    arrangement.bay.survey.as_mut().unwrap().how.within_mm = Some(0.0);
    arrangement
}

pub(super) fn survey_of(arrangement: &mut Arrangement, change: impl FnOnce(&mut Vec<LevelPoint>)) {
    arrangement.bay.survey.as_mut().unwrap().points.change(change);
}

pub(super) fn facts(arrangement: &Arrangement) -> Vec<(FloorFact, Severity)> {
    let found = assess(arrangement).findings.into_iter().filter_map(|found| match found.facts {
        Facts::FloorLevels(fact) => Some((fact, found.severity)),
        _ => None,
    });
    found.collect()
}

pub(super) fn only(
    arrangement: &Arrangement,
    fact: FloorFact,
    severity: Severity,
    measured: Option<f64>,
) -> Finding {
    let found = check(arrangement, Code::FloorLevels, severity, measured);
    assert_eq!(found.facts, Facts::FloorLevels(fact));
    found
}
