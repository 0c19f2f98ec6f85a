//! Words for a visit, and for what is asked for and cannot be done.

use super::{Language, listed};
use crate::model::{Missing, PictureScaleFault, SensorGroup, TriggerList, validate};

texts! {
    Visits, "Every fixed text about a visit.";
    forward_radar, "Sensors of a kind.": "forward radar";
    lidar, "Sensors of a kind.": "lidar";
    forward_camera, "Sensors of a kind.": "forward camera";
    front_corner_radar, "Sensors of a kind.": "front corner radar";
    rear_corner_radar, "Sensors of a kind.": "rear corner radar";
    surround_camera, "Sensors of a kind.": "surround camera";
}

impl Language {
    /// The texts about a visit.
    pub const fn visits(self) -> &'static Visits {
        match self {
            Self::English => &ENGLISH,
        }
    }
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

    /// What is asked for and cannot be done with this profile.
    pub fn missing(&self, missing: &Missing, list: &TriggerList) -> String {
        let titles: Vec<String> = list
            .triggers
            .iter()
            .filter(|t| missing.because.contains(&t.id))
            .map(|t| format!("“{}”", t.title))
            .collect();
        let (because, group) = (listed(&titles), self.group(missing.group));
        let asks = if titles.len() == 1 { "asks" } else { "ask" };
        match &missing.sensor {
            Some(sensor) => format!(
                "{because} {asks} for “{sensor}” ({group}) to be aimed, and the profile has no aiming for it."
            ),
            None => format!(
                "{because} {asks} for a {group} to be aimed, and the profile has none: enter it if the car has one."
            ),
        }
    }

    /// Why a picture's scale cannot be had from two points.
    pub fn scale_fault(&self, fault: PictureScaleFault) -> String {
        match fault {
            PictureScaleFault::TooNear { apart_px } => format!(
                "The two points are {apart_px:.0} pixels apart; take two that are {:.0} pixels apart or more.",
                PictureScaleFault::LEAST_APART_PX
            ),
            PictureScaleFault::NoDistance => {
                format!(
                    "The distance between the two points must be {}.",
                    validate::limits::DISTANCE.allowed()
                )
            }
            PictureScaleFault::OutOfLimits { mm_per_px } => format!(
                "One pixel would be {} mm; a picture's scale is {} a pixel.",
                validate::number(mm_per_px),
                validate::limits::MM_PER_PX.allowed()
            ),
        }
    }
}
