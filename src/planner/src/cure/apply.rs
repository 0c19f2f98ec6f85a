//! Does what a step says.

use baywright_geometry::{DVec2, PlanPose};

use crate::assessment::Step;
use crate::model::{Arrangement, StandSet};

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
        Step::TurnThing { thing, by_rad } => {
            for turned in after.bay.things.iter_mut().filter(|t| t.id == *thing) {
                let at = turned.place.at;
                turned.place.at = PlanPose::new(at.origin(), at.heading() + by_rad);
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
        Step::KeepEmpty { bay } => {
            if after.in_bay.as_ref() != Some(bay) && !after.kept_empty.contains(bay) {
                after.kept_empty.push(bay.clone());
            }
        }
        Step::OpenDoor { door } => {
            for opening in after.bay.openings.iter_mut().filter(|o| o.id == *door) {
                opening.shut = false;
            }
            after.kept_shut.retain(|id| id != door);
        }
        Step::KeepShut { door } => {
            for opening in after.bay.openings.iter_mut().filter(|o| o.id == *door && o.kind.is_door()) {
                opening.shut = true;
                after.kept_shut.retain(|id| id != door);
                after.kept_shut.push(door.clone());
            }
        }
        Step::Tape { .. }
        | Step::TapeCar
        | Step::SurveyFloor
        | Step::EnterFigures
        | Step::EnterAlignment
        | Step::SayHeightsFrom
        | Step::EnterZones
        | Step::MeasureOnCar(_)
        | Step::ReviewProfile => {}
    }
}

/// The marks follow the car by themselves; a stand that was put somewhere is carried along.
fn move_car(after: &mut Arrangement, by: DVec2) {
    after.parked = after.parked.shifted(by);
    after.parked_known = after.shop.parked_anew(after.parked_known);
    for set in &mut after.stands {
        if let StandSet::At { place, .. } = set {
            *place = place.shifted(by);
        }
    }
}
