//! A sensor's adjusting screws, in words.

use super::Words;
use crate::model::screw::Upright;
use crate::model::sheet::Side;

texts! {
    screws: ScrewTexts, "Every fixed text about a sensor's adjusting screws.";
    title, "A part of the form.";
    why, "What it is for.";
    pitch_up_down, "How far one turn moves the screw for up and down.";
    arm_up_down, "How far from its pivot it acts.";
    way_up_down, "Which way a turn clockwise moves the beam.";
    pitch_left_right, "How far one turn moves the screw for left and right.";
    arm_left_right, "How far from its pivot it acts.";
    way_left_right, "Which way a turn clockwise moves the beam.";
    pitch_hint, "What it is.";
    arm_hint, "What it is.";
    not_said, "While nobody said which way.";
    put_right_there, "Beside an error of marks or stands.";
    as_procedure_says, "After turns that were told.";
}

impl ScrewTexts {
    sentences! { screws:
        /// Which way the beam goes.
        up_or_down(way: Upright) -> &'static str;
        /// Which way the beam goes.
        left_or_right(way: Side) -> &'static str;
    }
}

/// In which of both directions something is out, and how far, radians, if that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutBy {
    /// Left or right.
    pub sideways: Option<Option<f64>>,
    /// Up or down.
    pub upright: Option<Option<f64>>,
}

impl Words<'_> {
    sentences! { about:
        /// How often the sensor's screws are turned for a tenth of a degree and for what is out, in the directions in which something
        /// is out, and which way that moves the beam, with whose procedure decides; `None` where the profile has no such screw.
        turns(out: OutBy) -> Option<String>;
    }
}
