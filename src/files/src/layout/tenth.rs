//! The step from version 10 of a bay layout to version 11, which tells of an arrangement by whom, when and with which instrument
//! its readings were taken, and what else was measured of car, floor and stand. All of that may be left out, so that both are read
//! as the same record.

use super::LayoutFile;

/// The step to version 11.
pub fn eleventh(tenth: LayoutFile) -> LayoutFile {
    LayoutFile { version: 11, ..tenth }
}
