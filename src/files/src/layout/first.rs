//! The file form of a bay layout, version 1, and the step from it to version 2, which added `underlay`, `taped` and
//! `visit`: the records that got them are copied here. All others are shared with the present version. What later versions
//! added to those may be left out, as every file that a program of version 1 wrote does; one that holds it all the same, by a
//! hand that changed the text and not the version, is read as the present version reads it. A record that comes to mean
//! something else by what version 1 could say is turned in the step to that version.

use serde::Deserialize;

use super::{
    ArrangementFile, DoorFile, FloorFeatureFile, KeepFreeFile, LayoutFile, MovedFile, OnThisCarFile,
    OpeningFile, ParkedFile, PermanentMarkFile, RoomFile, RunwayFile, StandAtFile, SurveyFile, ThingFile,
};
use crate::figure::{Figure, Point};
use crate::source::SourceFile;

/// A whole layout file of version 1.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LayoutFirst {
    #[serde(rename = "version")]
    pub _version: u32,
    pub name: String,
    pub source: SourceFile,
    pub room: RoomFile,
    #[serde(default)]
    pub openings: Vec<OpeningFile>,
    #[serde(default)]
    pub floor_features: Vec<FloorFeatureFile>,
    #[serde(default)]
    pub runways: Vec<RunwayFile>,
    #[serde(default)]
    pub things: Vec<ThingFile>,
    #[serde(default)]
    pub keep_free: Vec<KeepFreeFile>,
    #[serde(default)]
    pub survey: Option<SurveyFile>,
    #[serde(default)]
    pub marks: Vec<PermanentMarkFile>,
    #[serde(default)]
    pub arrangements: Vec<ArrangementFirst>,
}

/// A saved arrangement of version 1.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArrangementFirst {
    pub name: String,
    pub vehicle: String,
    #[serde(default)]
    pub vehicle_fingerprint: Option<String>,
    pub aiming: String,
    pub parked: ParkedFile,
    #[serde(default)]
    pub on_runways: Vec<String>,
    #[serde(default)]
    pub on_this_car: Option<OnThisCarFile>,
    #[serde(default)]
    pub stands: Vec<StandAtFile>,
    #[serde(default)]
    pub moved: Vec<MovedFirst>,
    #[serde(default)]
    pub away: Vec<String>,
    #[serde(default)]
    pub added: Vec<ThingFile>,
    #[serde(default)]
    pub doors: Vec<DoorFile>,
}

/// A thing that stands elsewhere, of version 1.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MovedFirst {
    pub thing: String,
    pub at_mm: Point,
    #[serde(default)]
    pub turned_deg: Figure,
}

impl From<MovedFirst> for MovedFile {
    fn from(first: MovedFirst) -> Self {
        Self { thing: first.thing, at_mm: first.at_mm, turned_deg: first.turned_deg, known: None }
    }
}

impl From<LayoutFirst> for LayoutFile {
    fn from(first: LayoutFirst) -> Self {
        Self {
            version: 2,
            name: first.name,
            source: first.source,
            room: first.room,
            openings: first.openings,
            floor_features: first.floor_features,
            runways: first.runways,
            things: first.things,
            keep_free: first.keep_free,
            bays: Vec::new(),
            survey: first.survey,
            marks: first.marks,
            dimensions: Vec::new(),
            arrangements: first.arrangements.into_iter().map(Into::into).collect(),
            underlay: None,
            owner: None,
            taped: None,
            shop_fingerprint: None,
        }
    }
}

impl From<ArrangementFirst> for ArrangementFile {
    fn from(first: ArrangementFirst) -> Self {
        Self {
            name: first.name,
            vehicle: first.vehicle,
            vehicle_fingerprint: first.vehicle_fingerprint,
            aiming: first.aiming,
            parked: first.parked,
            on_runways: first.on_runways,
            in_bay: None,
            kept_empty: Vec::new(),
            kept_shut: Vec::new(),
            at_once: Vec::new(),
            on_this_car: first.on_this_car,
            marks_taped: Vec::new(),
            laid_before: Vec::new(),
            stands_read: Vec::new(),
            building: None,
            stands: first.stands,
            moved: first.moved.into_iter().map(Into::into).collect(),
            away: first.away,
            added: first.added,
            doors: first.doors,
            visit: Vec::new(),
        }
    }
}
