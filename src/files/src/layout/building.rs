//! What of a bay is built and what stands in it: the bay's own fields, or those of one arrangement.

use serde::{Deserialize, Serialize};

use super::{
    FloorFeatureFile, HallBayFile, KeepFreeFile, LayoutFile, OpeningFile, RoomFile, RunwayFile, ThingFile,
};
use crate::source::SourceFile;

/// The building that an arrangement has of its own; each field is what the layout's field of that name is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildingFile {
    pub source: SourceFile,
    pub room: RoomFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<OpeningFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub floor_features: Vec<FloorFeatureFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runways: Vec<RunwayFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub things: Vec<ThingFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub keep_free: Vec<KeepFreeFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bays: Vec<HallBayFile>,
}

/// The same fields wherever they stand in a file.
#[derive(Clone, Copy, Debug)]
pub struct Built<'a> {
    pub source: &'a SourceFile,
    pub room: &'a RoomFile,
    pub openings: &'a [OpeningFile],
    pub floor_features: &'a [FloorFeatureFile],
    pub runways: &'a [RunwayFile],
    pub things: &'a [ThingFile],
    pub keep_free: &'a [KeepFreeFile],
    pub bays: &'a [HallBayFile],
}

impl LayoutFile {
    pub fn built(&self) -> Built<'_> {
        let Self { source, room, openings, floor_features, runways, things, keep_free, bays, .. } = self;
        Built { source, room, openings, floor_features, runways, things, keep_free, bays }
    }
}

impl BuildingFile {
    pub fn built(&self) -> Built<'_> {
        let Self { source, room, openings, floor_features, runways, things, keep_free, bays } = self;
        Built { source, room, openings, floor_features, runways, things, keep_free, bays }
    }
}
