//! Whether a stand reaches the height that is asked of it.
//!
//! Rule: the middle of the face is set between the lowest and the highest that its stand reaches above the floor. Where the
//! stand's highest is not entered it reaches what is asked of a car on the floor, up to its own top; of one that stands on runways,
//! or of a sensor that sits higher, more is asked, and nobody knows whether it does: that needs care. A stand is never made
//! taller than it is.
//! Limit: the stand's own figures; within [`SPEAKS_FROM_MM`] it reaches.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding};

pub(super) const CHECK: Check = Check { codes: &[Code::StandReach], whole, ..Check::NONE };

/// How a stand does not reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandReach {
    /// It is too short.
    TooShort,
    /// It does not go so low.
    TooTall,
    /// How high it goes is not entered, and the car is raised, or more is asked than its top.
    Unknown,
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let placements = context.arrangement.aiming.placements.iter().zip(&context.scene.targets);
    for (placement, target) in placements.filter(|(_, target)| !target.lies) {
        let Some(stand) = &placement.target.stand else { continue };
        let asked = target.set.height_mm;
        let say = |fact: StandReach, severity: Severity| {
            let subjects = vec![Subject::Stand(target.id.clone()), Subject::Target(target.id.clone())];
            finding(Facts::StandReach(fact), severity, subjects, target.centre(), Basis::AsEntered)
        };
        let against =
            |found: Finding, limit: f64| found.against(Quantity::Length(asked), Quantity::Length(limit));
        match (stand.lowest_mm, stand.highest_mm) {
            (_, Some(highest)) if asked > highest + SPEAKS_FROM_MM => {
                findings.push(against(say(StandReach::TooShort, Severity::Stops), highest));
            }
            (Some(lowest), _) if asked < lowest - SPEAKS_FROM_MM => {
                findings.push(against(say(StandReach::TooTall, Severity::Stops), lowest));
            }
            (_, None) if context.is_raised() || asked > stand.top_mm + SPEAKS_FROM_MM => {
                findings.push(say(StandReach::Unknown, Severity::Care))
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The plate is 500 mm up, as the sensor is; on runways of 400 mm it is 900.
    #[test]
    fn a_stand_reaches_or_stops() {
        let reaches = |lowest: Option<f64>, highest: Option<f64>, mut arrangement: Arrangement| {
            let stand = arrangement.aiming.placements[0].target.stand.as_mut().unwrap();
            (stand.lowest_mm, stand.highest_mm) = (lowest, highest);
            arrangement
        };
        let is = |arrangement: &Arrangement, fact: StandReach, severity: Severity, at: Option<f64>| {
            assert_eq!(check(arrangement, Code::StandReach, severity, at).facts, Facts::StandReach(fact));
        };
        none(&clear(), Code::StandReach);
        none(&reaches(Some(500.0), Some(500.0), clear()), Code::StandReach);
        is(&reaches(None, Some(499.9), clear()), StandReach::TooShort, Severity::Stops, Some(500.0));
        is(&reaches(Some(500.1), None, clear()), StandReach::TooTall, Severity::Stops, Some(500.0));
        is(&raised(), StandReach::Unknown, Severity::Care, None);
        // Its own top is 700 mm: a sensor that was measured higher up asks for more.
        let mut higher = clear();
        let top = higher.aiming.placements[0].target.stand.as_ref().unwrap().top_mm;
        higher.on_this_car.sensor_at = Some(DVec3::new(800.0, 0.0, top + 1.0));
        is(&higher, StandReach::Unknown, Severity::Care, None);
        is(&reaches(None, Some(899.0), raised()), StandReach::TooShort, Severity::Stops, Some(900.0));
        none(&reaches(None, Some(900.0), raised()), Code::StandReach);
    }
}
