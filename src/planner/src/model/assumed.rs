//! Which figures of a car were not entered but assumed.

use super::{Id, Vehicle};

/// Figures of the body that a class can give, as they stand in [`Vehicle::assumed`].
pub mod figure {
    /// Overall length.
    pub const LENGTH: &str = "length";
    /// Width of the body.
    pub const WIDTH: &str = "width";
    /// Overall height.
    pub const HEIGHT: &str = "height";
    /// Front axle to rear axle.
    pub const WHEELBASE: &str = "wheelbase";
    /// Front axle to foremost point.
    pub const OVERHANG_FRONT: &str = "front overhang";
    /// Rear axle to rearmost point.
    pub const OVERHANG_REAR: &str = "rear overhang";
    /// Front track.
    pub const TRACK_FRONT: &str = "front track";
    /// Rear track.
    pub const TRACK_REAR: &str = "rear track";
    /// Tyre diameter.
    pub const TYRE_DIAMETER: &str = "tyre diameter";
    /// Tyre width.
    pub const TYRE_WIDTH: &str = "tyre width";
    /// Ground clearance.
    pub const GROUND_CLEARANCE: &str = "ground clearance";
    /// Door mirrors.
    pub const MIRRORS: &str = "mirrors";
    /// Outline from above.
    pub const OUTLINE_TOP: &str = "outline from above";
    /// Outline from the side.
    pub const OUTLINE_SIDE: &str = "outline from the side";

    /// All of them, in the order in which they are named.
    pub const ALL: [&str; 14] = [
        LENGTH,
        WIDTH,
        HEIGHT,
        WHEELBASE,
        OVERHANG_FRONT,
        OVERHANG_REAR,
        TYRE_DIAMETER,
        TYRE_WIDTH,
        TRACK_FRONT,
        TRACK_REAR,
        GROUND_CLEARANCE,
        MIRRORS,
        OUTLINE_TOP,
        OUTLINE_SIDE,
    ];
}

/// Figures of sensors and aimings that may be assumed, as they stand after the name of theirs.
pub mod part {
    /// How far ahead of the front axle a sensor sits.
    pub const AHEAD: &str = "place ahead of the front axle";
    /// How far to the left of the centreline a sensor sits.
    pub const ASIDE: &str = "place off the centreline";
    /// How high a sensor sits.
    pub const HEIGHT: &str = "height";
    /// Where a sensor looks.
    pub const BORESIGHT: &str = "boresight";
    /// What a sensor sees.
    pub const VIEW: &str = "field of view";
    /// Frequency, bandwidth, beam; pixels.
    pub const KIND: &str = "what it is made of";
    /// How a sensor's aim is set.
    pub const ADJUSTED: &str = "how it is set";
    /// The stand-off.
    pub const STAND_OFF: &str = "stand-off";
    /// The target and its stand.
    pub const TARGET: &str = "target";
    /// The target's height.
    pub const TARGET_HEIGHT: &str = "target height";
    /// How near to its place the target must be.
    pub const PLACE_TOLERANCE: &str = "how near the target must be";
    /// The tolerance left and right.
    pub const AZIMUTH: &str = "tolerance left and right";
    /// The tolerance up and down.
    pub const ELEVATION: &str = "tolerance up and down";
    /// How far to each side must be kept clear.
    pub const CLEAR_ASIDE: &str = "keep-clear width";
    /// How far along, and how high, must be kept clear.
    pub const CLEAR_ALONG: &str = "keep-clear length and height";
    /// What the floor must be.
    pub const FLOOR: &str = "floor";
    /// Room to work in.
    pub const WORKING_ROOM: &str = "working room";
    /// How the marks are laid.
    pub const MARK_PLAN: &str = "mark plan";
    /// What "straight ahead" means.
    pub const AXIS: &str = "reference axis";

    /// What can be assumed of a sensor.
    pub const OF_SENSOR: [&str; 7] = [AHEAD, ASIDE, HEIGHT, BORESIGHT, VIEW, KIND, ADJUSTED];
    /// What can be assumed of an aiming.
    pub const OF_AIMING: [&str; 12] = [
        STAND_OFF,
        TARGET,
        TARGET_HEIGHT,
        PLACE_TOLERANCE,
        AZIMUTH,
        ELEVATION,
        CLEAR_ASIDE,
        CLEAR_ALONG,
        FLOOR,
        WORKING_ROOM,
        MARK_PLAN,
        AXIS,
    ];
}

/// The name in [`Vehicle::assumed`] of a part of a sensor or an aiming.
pub fn name(of: &Id, part: &str) -> String {
    format!("{of}: {part}")
}

impl Vehicle {
    /// The names of what was not entered and does not follow from what was: a rear overhang is what length, wheelbase and
    /// front overhang leave.
    pub fn guessed(&self) -> Vec<String> {
        let entered =
            [figure::LENGTH, figure::WHEELBASE, figure::OVERHANG_FRONT].map(|name| !self.is_assumed(name));
        let follows = |name: &String| entered == [true; 3] && name == figure::OVERHANG_REAR;
        self.assumed.iter().filter(|name| !follows(name)).cloned().collect()
    }

    /// Whether a figure was not entered.
    pub fn is_assumed(&self, name: &str) -> bool {
        self.assumed.iter().any(|own| own == name)
    }

    /// Notes that a figure was entered; whether it was assumed before.
    pub fn enter(&mut self, name: &str) -> bool {
        let before = self.assumed.len();
        self.assumed.retain(|own| own != name);
        self.assumed.len() < before
    }

    /// Notes that a figure is not known after all; the class gives it from the next [`Vehicle::assume`] on.
    pub fn leave_open(&mut self, name: &str) {
        if !self.is_assumed(name) {
            self.assumed.push(name.to_owned());
        }
    }

    /// Every name of a part of its sensors and aimings that may be assumed.
    pub fn parts_that_may_be_assumed(&self) -> Vec<String> {
        let sensors = self.sensors.iter().flat_map(|own| part::OF_SENSOR.map(|part| name(&own.id, part)));
        let aimings = self.aimings.iter().flat_map(|own| part::OF_AIMING.map(|part| name(&own.id, part)));
        sensors.chain(aimings).collect()
    }

    /// What is no longer there is no longer assumed.
    pub fn forget_parts_of(&mut self, of: &Id) {
        let own = name(of, "");
        self.assumed.retain(|assumed| !assumed.starts_with(&own));
    }

    pub(crate) fn rename_assumed(&mut self, old: &Id, to: &Id) {
        let (old, to) = (name(old, ""), name(to, ""));
        for assumed in &mut self.assumed {
            if let Some(part) = assumed.strip_prefix(&old) {
                *assumed = format!("{to}{part}");
            }
        }
    }
}
