//! A sensor's adjusting screws, as a profile has them.

use baywright_planner::model::screw::{Screw, Screws, Upright};
use baywright_planner::model::sheet::Side;
use serde::{Deserialize, Serialize};

use crate::figure::Figure;

/// A sensor's screws, each for the direction in which it turns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScrewsFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub up_down: Option<ScrewFile<UprightFile>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_right: Option<ScrewFile<SidewaysFile>>,
}

/// One screw, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScrewFile<W> {
    #[serde(default = "Option::default", skip_serializing_if = "Option::is_none")]
    pub pitch_mm: Option<Figure>,
    #[serde(default = "Option::default", skip_serializing_if = "Option::is_none")]
    pub arm_mm: Option<Figure>,
    /// Which way the beam goes when it is turned clockwise.
    #[serde(default = "Option::default", skip_serializing_if = "Option::is_none")]
    pub clockwise: Option<W>,
}

/// Up or down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum UprightFile {
    Up,
    Down,
}

/// Left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SidewaysFile {
    Left,
    Right,
}

impl ScrewsFile {
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    pub fn of(screws: &Screws) -> Self {
        Self {
            up_down: one(&screws.up_down, |way| match way {
                Upright::Up => UprightFile::Up,
                Upright::Down => UprightFile::Down,
            }),
            left_right: one(&screws.left_right, |way| match way {
                Side::Left => SidewaysFile::Left,
                Side::Right => SidewaysFile::Right,
            }),
        }
    }

    pub fn to_model(self) -> Screws {
        Screws {
            up_down: back(self.up_down, |way| match way {
                UprightFile::Up => Upright::Up,
                UprightFile::Down => Upright::Down,
            }),
            left_right: back(self.left_right, |way| match way {
                SidewaysFile::Left => Side::Left,
                SidewaysFile::Right => Side::Right,
            }),
        }
    }
}

fn one<W: Copy, F: PartialEq>(screw: &Screw<W>, way: impl Fn(W) -> F) -> Option<ScrewFile<F>> {
    let own = ScrewFile {
        pitch_mm: screw.pitch_mm.map(Figure),
        arm_mm: screw.arm_mm.map(Figure),
        clockwise: screw.clockwise.map(way),
    };
    let is_known = own.pitch_mm.is_some() || own.arm_mm.is_some() || own.clockwise.is_some();
    is_known.then_some(own)
}

fn back<W, F: Copy>(own: Option<ScrewFile<F>>, way: impl Fn(F) -> W) -> Screw<W> {
    own.map_or_else(Screw::default, |own| Screw {
        pitch_mm: own.pitch_mm.map(|mm| mm.0),
        arm_mm: own.arm_mm.map(|mm| mm.0),
        clockwise: own.clockwise.map(way),
    })
}
