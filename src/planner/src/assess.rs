//! From an arrangement to its assessment.

use crate::assessment::Assessment;
use crate::cure;
use crate::judge::judge;
use crate::model::Arrangement;

/// What is in the way, with the cheapest cures and what they lead to: fast enough for every frame of a drag.
///
/// Pure and total: no clock, no file, no panic; the same answer every time and on every machine.
pub fn assess(arrangement: &Arrangement) -> Assessment {
    let mut assessment = judge(arrangement);
    cure::find(arrangement, &mut assessment);
    assessment.promise = cure::promise(arrangement, &assessment);
    assessment
}

/// The same with the best of all ways that are known, the car parked elsewhere included, and with what takes echoes away: what is worked
/// out off the frame.
pub fn assess_fully(arrangement: &Arrangement) -> Assessment {
    let mut assessment = assess(arrangement);
    let further = cure::look_further(arrangement, &assessment);
    assessment.take(further);
    assessment
}
