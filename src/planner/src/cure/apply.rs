//! Does what a step says.

use baywright_geometry::DVec2;

use crate::assessment::Step;
use crate::model::{Arrangement, ParkedKnown, StandSet};

/// The arrangement after a step. A step that only asks a person to find something out changes nothing.
pub fn apply(arrangement: &Arrangement, step: &Step) -> Arrangement {
    let mut after = arrangement.clone();
    apply_to(&mut after, step);
    after
}

/// The same in place, for several steps in a row.
pub(super) fn apply_to(after: &mut Arrangement, step: &Step) {
    match step {
        Step::MoveThing { thing, by } => {
            for moved in after.bay.things.iter_mut().filter(|t| t.id == *thing) {
                moved.place = moved.place.shifted(*by);
            }
        }
        Step::TakeAway { thing } => after.bay.things.retain(|t| t.id != *thing),
        Step::MoveCar { by } => move_car(after, *by),
        Step::StandOnMark { placement } => {
            for (own, set) in after.aiming.placements.iter().zip(&mut after.stands) {
                if own.id == *placement {
                    *set = StandSet::OnMark;
                }
            }
        }
        Step::OpenDoor { door } => {
            for opening in after.bay.openings.iter_mut().filter(|o| o.id == *door) {
                opening.shut = false;
            }
        }
        Step::Tape { .. }
        | Step::TapeCar
        | Step::SurveyFloor
        | Step::EnterFigures
        | Step::EnterAlignment
        | Step::ReviewProfile => {}
    }
}

/// How well it is known where a car stands once it is parked elsewhere: what was taped is to be parked again.
pub(super) fn known_elsewhere(known: ParkedKnown) -> ParkedKnown {
    if known == ParkedKnown::Taped { ParkedKnown::Planned } else { known }
}

/// The marks follow the car by themselves; a stand that was put somewhere is carried along.
fn move_car(after: &mut Arrangement, by: DVec2) {
    after.parked = after.parked.shifted(by);
    after.parked_known = known_elsewhere(after.parked_known);
    for set in &mut after.stands {
        if let StandSet::At { place, .. } = set {
            *place = place.shifted(by);
        }
    }
}
