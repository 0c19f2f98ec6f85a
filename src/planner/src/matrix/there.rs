//! A line of a list with its car at a place: as it is judged there, and how the bay is led there.

use baywright_geometry::PlanPose;

use super::{Cell, Line, Place, in_that_bay, parked_at};
use crate::edit::Edit;
use crate::model::Arrangement;
use crate::place::stood;

/// The set-up of a line with its car at a pose that was found of a place, as it was judged there.
pub fn there(line: &Line, place: &Place, pose: PlanPose) -> Arrangement {
    let at = |own: &Arrangement| if own.parked == pose { own.clone() } else { stood(own, pose) };
    let own = &line.arrangement;
    match place {
        Place::Parked { pose: of_place, .. } if *of_place == pose => {
            parked_at(own, place).unwrap_or_else(|| own.clone())
        }
        Place::Bay(id) => at(&in_that_bay(own, id).0),
        // Elsewhere is somewhere in the room.
        Place::Parked { .. } | Place::Room => at(own),
    }
}

/// What leads from the set-up that a line is made of to the line at a pose of a place: nothing where it stands so already.
/// `fingerprint` is that of the line's car.
pub fn edits_there(line: &Line, place: &Place, pose: PlanPose, fingerprint: &str) -> Vec<Edit> {
    let (own, there) = (&line.arrangement, there(line, place, pose));
    let mut edits = Vec::new();
    if !line.is_saved {
        edits.push(Edit::Car {
            vehicle: own.vehicle.id.clone(),
            aiming: own.aiming.id.clone(),
            fingerprint: fingerprint.to_owned(),
        });
    }
    if there.in_bay != own.in_bay {
        edits.push(Edit::InBay { bay: there.in_bay.clone(), kept_empty: there.kept_empty.clone() });
    }
    if there.on_runways != own.on_runways {
        edits.push(Edit::Carried(there.on_runways.clone()));
    }
    if there.parked != own.parked {
        edits.push(Edit::Park(there.parked));
    }
    edits
}

impl Cell {
    /// Where the car stands of which it tells, bay from vehicle.
    pub const fn pose(&self) -> PlanPose {
        match self {
            Self::Fits(own) | Self::Elsewhere(own) => own.pose,
            Self::AfterMoves { pose, .. } => *pose,
            Self::NoneFound(own) => own.pose,
        }
    }
}
