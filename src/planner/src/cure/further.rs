//! What is worked out beside the frame: the best of all ways to make it ready, and what takes away the echoes that are found.

use super::{caused, promise};
use crate::assessment::{Assessment, Cure, Finding, Promise, Verdict};
use crate::echoes::{self, With, seen};
use crate::judge::judge;
use crate::model::Arrangement;

/// What takes longer than a frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Further {
    /// The steps that make the space ready; `None` if none are known or needed.
    pub promise: Option<Promise>,
    /// Ways out of findings, each with the finding's position.
    pub cures: Vec<(usize, Cure)>,
}

/// Whether there is anything to look for.
pub fn is_worth_looking(assessment: &Assessment) -> bool {
    assessment.verdict == Verdict::NotReady || assessment.findings.iter().any(Finding::is_of_echo)
}

/// Looks for all of it.
pub fn look_further(arrangement: &Arrangement, assessment: &Assessment) -> Further {
    let promise = promise::of_all_ways(arrangement, assessment);
    Further { promise, cures: of_echoes(arrangement, assessment) }
}

impl Assessment {
    /// The same with what was found beside the frame.
    pub fn take(&mut self, further: Further) {
        self.promise = further.promise;
        for (at, cure) in further.cures {
            if let Some(finding) = self.findings.get_mut(at) {
                finding.cure = Some(cure);
            }
        }
    }
}

/// For each finding of an echo of a thing the least of the ways to take it away: a turn, a move, then out of the bay.
fn of_echoes(arrangement: &Arrangement, assessment: &Assessment) -> Vec<(usize, Cure)> {
    let asked = assessment.findings.iter().enumerate();
    let asked = asked.filter(|(_, own)| own.is_of_echo() && own.culprit().is_some());
    let asked: Vec<_> = asked.collect();
    if asked.is_empty() {
        return Vec::new();
    }
    let all = seen(arrangement, &assessment.scene, With::TwoMirrors);
    let ways: Vec<&echoes::Cure> =
        all.iter().flat_map(|own| &own.echoes).flat_map(|echo| &echo.cures).collect();
    let found = asked.into_iter().filter_map(|(at, finding)| {
        let way = ways.iter().find(|own| Some(&own.thing) == finding.culprit())?;
        let step = way.step(arrangement)?;
        let after = judge(&super::apply(arrangement, &step));
        let causes = caused(&assessment.findings, &after.findings);
        Some((at, Cure { step, effort: Some(way.effort), at_least: None, causes }))
    });
    found.collect()
}
