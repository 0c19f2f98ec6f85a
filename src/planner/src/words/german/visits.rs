//! German of the same: see `words/visits.rs`.

use super::faults::{number, range};
use super::{Language, listed};
use crate::model::validate::limits;
use crate::model::{Missing, PictureScaleFault, TriggerList};
use crate::words::Lengths;
use crate::words::visits::Visits;

/// The fixed texts.
pub const TEXTS: Visits = Visits {
    language: Language::German,
    forward_radar: "forward radar",
    lidar: "lidar",
    forward_camera: "forward camera",
    front_corner_radar: "front corner radar",
    rear_corner_radar: "rear corner radar",
    surround_camera: "surround camera",
};

pub fn line(number: usize, aiming: &str, because: &[String]) -> String {
    format!("{number}. {aiming} ({})", because.join(", "))
}

pub fn others(number: usize) -> String {
    match number {
        1 => "The car is in for one aiming more".to_owned(),
        n => format!("The car is in for {n} aimings more"),
    }
}

pub fn other(aiming: &str, verdict: &str) -> String {
    format!("{aiming}: {verdict}")
}

pub fn missing(missing: &Missing, list: &TriggerList) -> String {
    let titles: Vec<String> = list
        .triggers
        .iter()
        .filter(|t| missing.because.contains(&t.id))
        .map(|t| format!("“{}”", t.title))
        .collect();
    let (because, group) = (listed(&titles), TEXTS.group(missing.group));
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

pub fn scale_fault(fault: PictureScaleFault, lengths: Lengths) -> String {
    match fault {
        PictureScaleFault::TooNear { apart_px } => format!(
            "The two points are {:.0} pixels apart; take two that are {:.0} pixels apart or more.",
            // What is too near is never written as near enough.
            apart_px.floor(),
            PictureScaleFault::LEAST_APART_PX
        ),
        PictureScaleFault::NoDistance => {
            format!("The distance between the two points must be {}.", range(&limits::DISTANCE, lengths))
        }
        PictureScaleFault::OutOfLimits { mm_per_px } => format!(
            "One pixel would be {} mm; a picture's scale is {} a pixel.",
            number(mm_per_px),
            range(&limits::MM_PER_PX, Lengths::InFile)
        ),
    }
}
