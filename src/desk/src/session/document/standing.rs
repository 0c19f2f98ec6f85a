//! A car takes the place of the one that stands in an arrangement.

use baywright_planner::edit::Edit;
use baywright_planner::model::{Id, SavedArrangement, StandSet, Vehicle};

/// What is to be done so that a car stands where that of the arrangement `shown` does, for one of its aimings. Of the same car and
/// aiming with other figures all stays but what the car no longer has; it is remembered by its new fingerprint.
pub(super) fn standing(
    shown: Option<&SavedArrangement>,
    car: &Vehicle,
    aiming: &Id,
    fingerprint: &str,
) -> Edit {
    let anew =
        Edit::Car { vehicle: car.id.clone(), aiming: aiming.clone(), fingerprint: fingerprint.to_owned() };
    let Some(own) = shown.filter(|own| own.vehicle == car.id) else { return anew };
    let there = |id: &&Id| car.aimings.iter().any(|aiming| aiming.id == **id);
    let mut edits = vec![Edit::Visit(own.visit.iter().filter(there).cloned().collect())];
    if own.aiming == *aiming {
        let asked = car.aimings.iter().find(|own| own.id == *aiming);
        let is_there = |id: &Id| asked.is_some_and(|own| own.placements.iter().any(|own| own.id == *id));
        let gone = own.stands.iter().map(|(id, _)| id).filter(|id| !is_there(id));
        edits.extend(gone.map(|id| Edit::Stand { placement: id.clone(), set: StandSet::OnMark }));
        edits.push(Edit::Remember(fingerprint.to_owned()));
    } else {
        edits.push(anew);
    }
    Edit::All(edits)
}
