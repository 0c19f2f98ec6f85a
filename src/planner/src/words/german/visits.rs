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
    forward_radar: "Frontradar",
    lidar: "Lidar",
    forward_camera: "Frontkamera",
    front_corner_radar: "vorderes Eckradar",
    rear_corner_radar: "hinteres Eckradar",
    surround_camera: "Umfeldkamera",
};

pub fn line(number: usize, aiming: &str, because: &[String]) -> String {
    format!("{number}. {aiming} ({})", because.join(", "))
}

pub fn others(number: usize) -> String {
    match number {
        1 => "Zum Auftrag gehört eine weitere Einstellung".to_owned(),
        n => format!("Zum Auftrag gehören {n} weitere Einstellungen"),
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
        .map(|t| format!("„{}“", t.title))
        .collect();
    let (because, group) = (listed(&titles), TEXTS.group(missing.group));
    match &missing.sensor {
        Some(sensor) => format!(
            "Nach {because} ist „{sensor}“ ({group}) einzustellen; das Profil hat keine Einstellung dafür."
        ),
        None => format!(
            "Nach {because} ist einzustellen: {group}. Das Profil hat keine Einstellung dafür; eintragen, wenn das Fahrzeug \
             so etwas hat."
        ),
    }
}

pub fn scale_fault(fault: PictureScaleFault, lengths: Lengths) -> String {
    match fault {
        PictureScaleFault::TooNear { apart_px } => format!(
            "Die beiden Punkte sind {:.0} Bildpunkte auseinander; zwei nehmen, die es {:.0} oder mehr sind.",
            // What is too near is never written as near enough.
            apart_px.floor(),
            PictureScaleFault::LEAST_APART_PX
        ),
        PictureScaleFault::NoDistance => {
            format!(
                "Der Abstand der beiden Punkte geht nicht; erlaubt: {}.",
                range(&limits::DISTANCE, lengths)
            )
        }
        PictureScaleFault::OutOfLimits { mm_per_px } => format!(
            "Ein Bildpunkt wären {} mm; erlaubt je Bildpunkt: {}.",
            number(mm_per_px),
            range(&limits::MM_PER_PX, Lengths::InFile)
        ),
    }
}
