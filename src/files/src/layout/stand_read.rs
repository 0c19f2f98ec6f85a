//! What was read of a stand, as it stands in a file.

use baywright_planner::model::{LineOver, SquareBy, StandRead};
use serde::{Deserialize, Serialize};

use crate::figure::Figure;

/// What was read of the stand of one placement. Left and right are those of who looks from the sensor at the target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandReadFile {
    pub placement: String,
    #[serde(default, skip_serializing_if = "LineOverFile::is_sensor")]
    pub line_over: LineOverFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offset_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "SquareByFile::is_distances")]
    pub square_by: SquareByFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub apart_mm: Option<Figure>,
    /// Positive to the left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub beside_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mirror_mm: Option<Figure>,
    /// Positive away from the sensor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leans_away_deg: Option<Figure>,
    /// Positive to the left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leans_left_deg: Option<Figure>,
}

/// From where the reference line's height was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum LineOverFile {
    #[default]
    Sensor,
    Floor,
}

impl LineOverFile {
    fn is_sensor(&self) -> bool {
        *self == Self::Sensor
    }
}

/// How squareness was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum SquareByFile {
    #[default]
    Distances,
    Bar,
    Mirror,
}

impl SquareByFile {
    fn is_distances(&self) -> bool {
        *self == Self::Distances
    }
}

impl From<&StandReadFile> for StandRead {
    fn from(file: &StandReadFile) -> Self {
        let mm = |own: Option<Figure>| own.map(|own| own.0);
        let rad = |own: Option<Figure>| own.map(Figure::radians);
        Self {
            placement: file.placement.as_str().into(),
            line_over: match file.line_over {
                LineOverFile::Sensor => LineOver::Sensor,
                LineOverFile::Floor => LineOver::Floor,
            },
            line_mm: mm(file.line_mm),
            offset_mm: mm(file.offset_mm),
            square_by: match file.square_by {
                SquareByFile::Distances => SquareBy::Distances,
                SquareByFile::Bar => SquareBy::Bar,
                SquareByFile::Mirror => SquareBy::Mirror,
            },
            left_mm: mm(file.left_mm),
            right_mm: mm(file.right_mm),
            apart_mm: mm(file.apart_mm),
            beside_mm: mm(file.beside_mm),
            mirror_mm: mm(file.mirror_mm),
            leans_away_rad: rad(file.leans_away_deg),
            leans_left_rad: rad(file.leans_left_deg),
        }
    }
}

impl From<&StandRead> for StandReadFile {
    fn from(own: &StandRead) -> Self {
        let mm = |own: Option<f64>| own.map(Figure);
        let deg = |own: Option<f64>| own.map(Figure::degrees);
        Self {
            placement: own.placement.to_string(),
            line_over: match own.line_over {
                LineOver::Sensor => LineOverFile::Sensor,
                LineOver::Floor => LineOverFile::Floor,
            },
            line_mm: mm(own.line_mm),
            offset_mm: mm(own.offset_mm),
            square_by: match own.square_by {
                SquareBy::Distances => SquareByFile::Distances,
                SquareBy::Bar => SquareByFile::Bar,
                SquareBy::Mirror => SquareByFile::Mirror,
            },
            left_mm: mm(own.left_mm),
            right_mm: mm(own.right_mm),
            apart_mm: mm(own.apart_mm),
            beside_mm: mm(own.beside_mm),
            mirror_mm: mm(own.mirror_mm),
            leans_away_deg: deg(own.leans_away_rad),
            leans_left_deg: deg(own.leans_left_rad),
        }
    }
}
