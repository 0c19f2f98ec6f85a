//! A line of a list with its car at a place: as it is judged there, and how the bay is led there.

use baywright_geometry::PlanPose;

use super::{Cell, Line, Place};
use crate::edit::Edit;
use crate::model::{Arrangement, Id};
use crate::place::stood;

/// The set-up of a line with its car at a pose of a place. Where it stands already, what was measured of that place counts.
pub fn there(line: &Line, place: &Place, pose: PlanPose) -> Arrangement {
    let own = &line.arrangement;
    let (runways, bay): (&[Id], Option<&Id>) = match place {
        Place::Parked { on_runways, in_bay, .. } => (on_runways, in_bay.as_ref()),
        Place::Bay(bay) => (&own.on_runways, Some(bay)),
        Place::Room => (&own.on_runways, own.in_bay.as_ref()),
    };
    let is_own = own.parked == pose && own.on_runways == runways && own.in_bay.as_ref() == bay;
    let mut there = if is_own { own.clone() } else { stood(own, pose) };
    there.on_runways = runways.to_vec();
    if there.in_bay.as_ref() != bay {
        there.kept_empty.clear();
        there.in_bay = bay.cloned();
    }
    there
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
