//! Words for a visit, and for what is asked for and cannot be done.

use super::Lengths;
use crate::model::{Missing, PictureScaleFault, SensorGroup, TriggerList};

texts! {
    visits: Visits, "Every fixed text about a visit.";
    forward_radar, "Sensors of a kind.";
    lidar, "Sensors of a kind.";
    forward_camera, "Sensors of a kind.";
    front_corner_radar, "Sensors of a kind.";
    rear_corner_radar, "Sensors of a kind.";
    surround_camera, "Sensors of a kind.";
}

impl Visits {
    /// Sensors of a kind, as a workshop says it.
    pub const fn group(&self, group: SensorGroup) -> &'static str {
        match group {
            SensorGroup::ForwardRadar => self.forward_radar,
            SensorGroup::Lidar => self.lidar,
            SensorGroup::ForwardCamera => self.forward_camera,
            SensorGroup::FrontCornerRadar => self.front_corner_radar,
            SensorGroup::RearCornerRadar => self.rear_corner_radar,
            SensorGroup::SurroundCamera => self.surround_camera,
        }
    }

    sentences! { visits:
        /// A line of a visit: which aiming comes when, and after which work.
        line(number: usize, aiming: &str, because: &[String]) -> String;
        /// Over the answers for the other aimings of a visit.
        others(number: usize) -> String;
        /// What came of one of them.
        other(aiming: &str, verdict: &str) -> String;
        /// What is asked for and cannot be done with this profile.
        missing(missing: &Missing, list: &TriggerList) -> String;
        /// Why a picture's scale cannot be had from two points.
        scale_fault(fault: PictureScaleFault, lengths: Lengths) -> String;
    }
}
