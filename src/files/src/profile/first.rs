//! Version 1 of the profile's file, and the step from it: the car's six main sizes had to be given, and nothing of a sensor
//! or an aiming could be left open.

use serde::Deserialize;

use super::{BodyFile, BodyPointFile, ClassFile, MirrorsFile, RideHeightsFile, SensorFile, SourceFile};
use crate::aiming::AimingFile;
use crate::figure::{Figure, Point};

/// A whole profile file of version 1.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstProfileFile {
    #[serde(rename = "version")]
    _version: u32,
    pub(super) name: String,
    pub(super) class: ClassFile,
    pub(super) source: SourceFile,
    pub(super) body: FirstBodyFile,
    #[serde(default)]
    pub(super) body_points: Vec<BodyPointFile>,
    #[serde(default)]
    pub(super) sensors: Vec<SensorFile>,
    #[serde(default)]
    pub(super) aimings: Vec<AimingFile>,
}

/// The figures of the body of version 1.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstBodyFile {
    length_mm: Figure,
    width_mm: Figure,
    height_mm: Figure,
    wheelbase_mm: Figure,
    overhang_front_mm: Figure,
    overhang_rear_mm: Figure,
    #[serde(default)]
    track_front_mm: Option<Figure>,
    #[serde(default)]
    track_rear_mm: Option<Figure>,
    #[serde(default)]
    tyre_diameter_mm: Option<Figure>,
    #[serde(default)]
    tyre_width_mm: Option<Figure>,
    #[serde(default)]
    ground_clearance_mm: Option<Figure>,
    #[serde(default)]
    mirrors: Option<MirrorsFile>,
    #[serde(default)]
    ride_heights: Option<RideHeightsFile>,
    #[serde(default)]
    outline_top_mm: Option<Vec<Point>>,
    #[serde(default)]
    outline_side_mm: Option<Vec<Point>>,
}

impl From<FirstBodyFile> for BodyFile {
    fn from(body: FirstBodyFile) -> Self {
        Self {
            length_mm: Some(body.length_mm),
            width_mm: Some(body.width_mm),
            height_mm: Some(body.height_mm),
            wheelbase_mm: Some(body.wheelbase_mm),
            overhang_front_mm: Some(body.overhang_front_mm),
            overhang_rear_mm: Some(body.overhang_rear_mm),
            track_front_mm: body.track_front_mm,
            track_rear_mm: body.track_rear_mm,
            tyre_diameter_mm: body.tyre_diameter_mm,
            tyre_width_mm: body.tyre_width_mm,
            tyre_width_rear_mm: None,
            ground_clearance_mm: body.ground_clearance_mm,
            mirrors: body.mirrors,
            ride_heights: body.ride_heights,
            outline_top_mm: body.outline_top_mm,
            outline_side_mm: body.outline_side_mm,
        }
    }
}
