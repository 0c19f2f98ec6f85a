//! One car and one aiming in one bay, with the things where they are.

use baywright_geometry::{PlanPose, angle};
use jiff::civil::Date;

use super::{
    Aiming, Bay, DoneBeside, Id, InstrumentList, MarkTaped, OnThisCar, Sensor, Shop, StandRead, Vehicle,
};

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

/// How well it is known where the car stands; in figures, see [`Shop::parked_within`]. It counts where the set-up meets the room, never between the car and its own
/// marks and targets, which are laid from its wheels.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum ParkedKnown {
    /// It is to be parked there, or was parked and nothing was measured.
    #[default]
    Planned,
    /// Three distances from the walls were taped.
    Taped,
    /// As entered: the middle of the front axle within so many mm, its heading within so many radians, either way.
    Within {
        /// The middle of the front axle, mm.
        mm: f64,
        /// The heading, radians.
        rad: f64,
    },
}

impl Arrangement {
    /// How far a point of the set-up may be from where it is drawn, mm, for what is known of the car's place, if it is so far from the
    /// middle of the front axle, mm.
    pub fn sway_mm(&self, from_axle_mm: f64) -> f64 {
        let (mm, rad) = self.shop.parked_within(self.parked_known);
        mm + from_axle_mm * angle::sin_cos(rad).0
    }

    /// The room to work in that is kept round the car, mm: the aiming's, else the shop's; 0 asks for none.
    pub fn working_room_mm(&self) -> f64 {
        self.aiming.working_room_mm.unwrap_or(self.shop.working_room_mm)
    }
}

/// What was noticed when the files were read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Loading {
    /// The profile found is not the one that the layout remembers.
    pub profile_changed: bool,
    /// The layout was saved when the shop's settings were others.
    pub shop_changed: bool,
    /// The shop's own settings are there and could not be read: the defaults stand in for them.
    pub shop_unread: bool,
    /// The building is this arrangement's own, as planned, not the bay's.
    pub own_building: bool,
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
    /// How well that is known.
    pub parked_known: ParkedKnown,
    /// The runways that carry it; empty on the floor.
    pub on_runways: Vec<Id>,
    /// The bay of the hall that it is made in; `None` where the room is one bay, or none was chosen.
    pub in_bay: Option<Id>,
    /// Other bays of the hall that are kept empty while this is aimed.
    pub kept_empty: Vec<Id>,
    /// Doors that are kept shut, and locked where they are no way out, while this is aimed; of one that stands open it says nothing.
    pub kept_shut: Vec<Id>,
    /// The set-ups that are done at the same time: what of them stands here is among the bay's things.
    pub beside: Vec<DoneBeside>,
    /// What was measured on this very car.
    pub on_this_car: OnThisCar,
    /// What the tape read between the marks that were laid for it.
    pub marks_taped: Vec<MarkTaped>,
    /// What it read between them when they were laid the first time, if they were laid twice.
    pub laid_before: Vec<MarkTaped>,
    /// What was read of the stands as they were set for it.
    pub stands_read: Vec<StandRead>,
    /// Where the stands are, one for each placement.
    pub stands: Vec<StandSet>,
    /// The day on which it is asked, if known: dates the floor survey.
    pub today: Option<Date>,
    /// The shop's settings.
    pub shop: Shop,
    /// The shop's own instruments.
    pub instruments: InstrumentList,
    /// What was noticed when the files were read.
    pub loading: Loading,
}
