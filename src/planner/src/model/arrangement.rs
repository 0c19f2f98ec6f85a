//! One car and one aiming in one bay, with the things where they are.

use baywright_geometry::{DVec3, PlanPose};
use jiff::civil::Date;

use super::{Aiming, Bay, Id, Sensor, Vehicle};

/// Where a target stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StandSet {
    /// Exactly where it belongs.
    OnMark,
    /// As it was found or put.
    At {
        /// Bay from target.
        place: PlanPose,
        /// Height of the face's middle above the floor.
        height_mm: f64,
        /// Tipped: positive if the face looks down.
        pitch_rad: f64,
    },
}

/// What was measured on this very car; it overrides the profile, and shows.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OnThisCar {
    /// The sensor's place as built, vehicle frame.
    pub sensor_at: Option<DVec3>,
    /// Toe of the rear left and the rear right wheel, positive toe-in, radians.
    pub rear_toe_rad: Option<(f64, f64)>,
}

/// What was noticed when the files were read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Loading {
    /// The profile found is not the one that the layout remembers.
    pub profile_changed: bool,
}

/// Everything that [`crate::assess()`] needs, as plain data.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrangement {
    /// Its name.
    pub id: Id,
    /// The bay, its things and doors as this arrangement has them.
    pub bay: Bay,
    /// The car.
    pub vehicle: Vehicle,
    /// The aiming.
    pub aiming: Aiming,
    /// The sensor of that aiming, as in the profile.
    pub sensor: Sensor,
    /// Where the car stands: bay from vehicle.
    pub parked: PlanPose,
    /// The runways that carry it; empty on the floor.
    pub on_runways: Vec<Id>,
    /// What was measured on this very car.
    pub on_this_car: OnThisCar,
    /// Where the stands are, one for each placement.
    pub stands: Vec<StandSet>,
    /// The day on which it is asked, if known: dates the floor survey.
    pub today: Option<Date>,
    /// What was noticed when the files were read.
    pub loading: Loading,
}
