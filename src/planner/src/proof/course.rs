//! How the first figure of a target became surer, reading by reading, in the order in which they were taken.

use super::Standing;
use crate::model::Arrangement;
use crate::scene::Scene;

/// What there was to say after so many readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AfterReading {
    /// How many were taken.
    pub read: usize,
    /// Uncertainty of the first figure then, 95 %, in its unit.
    pub u95: f64,
    /// Down to what it must come to be inside: what is allowed less what the figure is off.
    pub enough: f64,
}

/// So many points at most; of more readings every second, third ... one, and the last.
pub const MOST_AFTER: usize = 40;

/// After none of the readings, after the first, and so on, up to all. Empty where nothing was read that can be held against the plan.
/// `keep_on` is asked before each; what was found until it says no is handed back.
pub fn after_each(
    arrangement: &Arrangement,
    scene: &Scene,
    mut keep_on: impl FnMut(usize) -> bool,
) -> Vec<AfterReading> {
    let all = arrangement.marks_taped.len();
    let step = all.div_ceil(MOST_AFTER).max(1);
    let mut found = Vec::new();
    let mut until = arrangement.clone();
    for read in (0..all).step_by(step).chain(std::iter::once(all)).filter(|_| all > 0) {
        if !keep_on(read) {
            break;
        }
        until.marks_taped = arrangement.marks_taped.iter().take(read).cloned().collect();
        let figure = Standing::of(&until, scene).and_then(|own| own.figures.into_iter().next());
        found.extend(figure.map(|own| AfterReading {
            read,
            u95: own.u95,
            enough: (own.allowed - own.off.abs()).max(0.0),
        }));
    }
    found
}
