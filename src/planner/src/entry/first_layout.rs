//! A bay that was just made, with a first set-up in it.

use baywright_geometry::{DVec2, PlanPose};

use crate::model::{Bay, Id, Layout, OwnerFigures, SavedArrangement, Vehicle};

/// Room to walk behind the car, mm: ahead is where the target goes.
const BEHIND_MM: f64 = 800.0;

/// The layout of a bay with one set-up of this name: the car stands in its middle across, nose along the bay's x, with room to walk
/// behind it; lengths mm, bay frame. `fingerprint` is the profile's mark, if it is known.
pub fn first_layout(bay: Bay, name: Id, car: &Vehicle, fingerprint: Option<String>, aiming: Id) -> Layout {
    let bounds = bay.room.bounds();
    let ahead = (BEHIND_MM - car.rear()).min(bounds.size().x * 0.5);
    let at = DVec2::new(bounds.low.x + ahead, bounds.centre().y).round();
    let arrangement = SavedArrangement {
        id: name,
        vehicle: car.id.clone(),
        vehicle_fingerprint: fingerprint,
        aiming,
        parked: PlanPose::new(at, 0.0),
        parked_known: Default::default(),
        on_runways: Vec::new(),
        in_bay: None,
        kept_empty: Vec::new(),
        kept_shut: Vec::new(),
        at_once: Vec::new(),
        on_this_car: Default::default(),
        marks_taped: Vec::new(),
        laid_before: Vec::new(),
        stands_read: Vec::new(),
        building: None,
        stands: Vec::new(),
        moved: Vec::new(),
        away: Vec::new(),
        added: Vec::new(),
        shut: Vec::new(),
        visit: Vec::new(),
    };
    Layout {
        bay,
        arrangements: vec![arrangement],
        underlay: None,
        taped: None,
        owner: OwnerFigures::default(),
        shop_fingerprint: None,
    }
}
