//! Dimensions that are kept with the bay.

use super::About;
use super::names::the;
use crate::model::{CarPoint, EndOn, ThingPoint, Wheel};

impl About<'_> {
    /// On its line, short: one that does not follow any more is told from one that does.
    pub fn kept_dimension(&self, length: f64, is_loose: bool) -> String {
        let length = self.locale.bare(length);
        if is_loose { format!("{length} (loose end)") } else { length }
    }

    /// What an end lies on.
    pub fn dimension_end(&self, on: Option<&EndOn>) -> String {
        let Some(on) = on else { return "a place on the floor".to_owned() };
        match on {
            EndOn::Corner(wall) => format!("the corner of the room where {} starts", the(wall)),
            EndOn::Wall { wall, .. } => format!("a place on {}", the(wall)),
            EndOn::SquareTo(wall) => format!("{}, square to it", the(wall)),
            EndOn::Thing { thing, point } => match point {
                ThingPoint::Middle => format!("the middle of {}", the(thing)),
                ThingPoint::Corner(_) => format!("a corner of {}", the(thing)),
                ThingPoint::Edge(_) => format!("the middle of a side of {}", the(thing)),
                ThingPoint::Rim(_) => format!("the rim of {}", the(thing)),
            },
            EndOn::Mark(mark) | EndOn::LaidMark(mark) => format!("mark {mark}"),
            EndOn::Car(point) => match point {
                CarPoint::Wheel(wheel) => format!("the car’s {} wheel", of_wheel(*wheel)),
                CarPoint::FrontAxle => "the middle of the car’s front axle".to_owned(),
                CarPoint::FrontBumper => "the middle of the car’s front bumper".to_owned(),
                CarPoint::RearBumper => "the middle of the car’s rear bumper".to_owned(),
                CarPoint::Named(name) => format!("the car’s {name}"),
            },
            EndOn::Sensor => format!("the {}", self.sensor()),
            EndOn::Target(placement) => format!("the target “{placement}”"),
        }
    }

    /// Why an end does not follow any more.
    pub fn dimension_end_gone(&self, on: &EndOn) -> String {
        let why = match on {
            EndOn::Corner(wall) | EndOn::Wall { wall, .. } | EndOn::SquareTo(wall) => {
                format!("{} is not there now", the(wall))
            }
            EndOn::Thing { thing, .. } => format!("{} is not there now", the(thing)),
            EndOn::Mark(mark) => format!("mark {mark} is not there now"),
            // What goes with a car and its aiming is not there with another.
            EndOn::LaidMark(mark) => format!("no mark {mark} is laid for the car and the aiming shown here"),
            EndOn::Target(placement) => format!("the aiming shown here has no target “{placement}”"),
            EndOn::Car(CarPoint::Named(name)) => format!("the car shown here has no point “{name}”"),
            EndOn::Car(_) | EndOn::Sensor => format!("{} is not there now", self.dimension_end(Some(on))),
        };
        format!("Stays where it was: {why}.")
    }
}

const fn of_wheel(wheel: Wheel) -> &'static str {
    match wheel {
        Wheel::FrontLeft => "front left",
        Wheel::FrontRight => "front right",
        Wheel::RearLeft => "rear left",
        Wheel::RearRight => "rear right",
    }
}
