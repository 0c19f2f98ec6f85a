//! The file form of a shop's instruments, and of how a reading was taken.

use baywright_planner::model::{CheckFrom, CheckRead, Instrument, InstrumentKind, MarkCheck, Taken};
use serde::{Deserialize, Serialize};

use crate::figure::{Clock, Day, Figure};

/// What kind of instrument it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum InstrumentKindFile {
    SteelTape,
    DistanceMeter,
    LineLaser,
    PlumbLine,
    DigitalLevel,
    Bubble,
    LevelLaser,
    Square,
    Other,
}

/// Both ways between the file's kinds and the model's.
macro_rules! kinds {
    ($($kind:ident),+) => {
        impl From<InstrumentKindFile> for InstrumentKind {
            fn from(file: InstrumentKindFile) -> Self {
                match file { $(InstrumentKindFile::$kind => Self::$kind),+ }
            }
        }

        impl From<InstrumentKind> for InstrumentKindFile {
            fn from(own: InstrumentKind) -> Self {
                match own { $(InstrumentKind::$kind => Self::$kind),+ }
            }
        }
    };
}

kinds!(SteelTape, DistanceMeter, LineLaser, PlumbLine, DigitalLevel, Bubble, LevelLaser, Square, Other);

/// An instrument. What is left out is not known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InstrumentFile {
    pub name: String,
    pub kind: InstrumentKindFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub serial: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub checked: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reading_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub per_metre_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ppm_per_k: Option<Figure>,
}

impl InstrumentFile {
    /// The file form of an instrument.
    pub fn of(own: &Instrument) -> Self {
        Self {
            name: own.name.to_string(),
            kind: own.kind.into(),
            class: own.class.clone(),
            serial: own.serial.clone(),
            checked: own.checked.map(Day),
            due: own.due.map(Day),
            reading_mm: own.reading_mm.map(Figure),
            per_metre_mm: own.per_metre_mm.map(Figure),
            ppm_per_k: own.ppm_per_k.map(Figure),
        }
    }

    /// The instrument that it describes.
    pub fn model(&self) -> Instrument {
        Instrument {
            name: self.name.as_str().into(),
            kind: self.kind.into(),
            class: self.class.clone(),
            serial: self.serial.clone(),
            checked: self.checked.map(|own| own.0),
            due: self.due.map(|own| own.0),
            reading_mm: self.reading_mm.map(|own| own.0),
            per_metre_mm: self.per_metre_mm.map(|own| own.0),
            ppm_per_k: self.ppm_per_k.map(|own| own.0),
        }
    }
}

/// How a reading was taken: fields beside what it read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TakenFile {
    pub with: Option<String>,
    pub who: Option<String>,
    pub at: Option<Clock>,
    pub temperature_c: Option<Figure>,
}

impl TakenFile {
    /// The file form.
    pub fn of(own: &Taken) -> Self {
        Self {
            with: own.with.as_ref().map(ToString::to_string),
            who: own.who.as_ref().map(ToString::to_string),
            at: own.at.map(Clock),
            temperature_c: own.temperature_c.map(Figure),
        }
    }

    /// What it describes.
    pub fn model(&self) -> Taken {
        Taken {
            with: self.with.as_deref().map(Into::into),
            who: self.who.as_deref().map(Into::into),
            at: self.at.map(|own| own.0),
            temperature_c: self.temperature_c.map(|own| own.0),
        }
    }
}

/// What a mark that stays was checked from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CheckFromFile {
    Wall(String),
    Mark(String),
}

/// A distance of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CheckReadFile {
    pub from: CheckFromFile,
    pub read_mm: Figure,
}

/// One check of a mark that stays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkCheckFile {
    pub on: Day,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub who: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
    pub read: (CheckReadFile, CheckReadFile),
}

impl MarkCheckFile {
    /// The file form.
    pub fn of(own: &MarkCheck) -> Self {
        let read = |own: &CheckRead| CheckReadFile {
            from: match &own.from {
                CheckFrom::Wall(id) => CheckFromFile::Wall(id.to_string()),
                CheckFrom::Mark(id) => CheckFromFile::Mark(id.to_string()),
            },
            read_mm: own.read_mm.into(),
        };
        let [first, second] = &own.read;
        Self {
            on: Day(own.on),
            who: own.who.as_ref().map(ToString::to_string),
            with: own.with.as_ref().map(ToString::to_string),
            read: (read(first), read(second)),
        }
    }

    /// What it describes.
    pub fn model(&self) -> MarkCheck {
        let read = |own: &CheckReadFile| CheckRead {
            from: match &own.from {
                CheckFromFile::Wall(id) => CheckFrom::Wall(id.as_str().into()),
                CheckFromFile::Mark(id) => CheckFrom::Mark(id.as_str().into()),
            },
            read_mm: own.read_mm.0,
        };
        MarkCheck {
            on: self.on.0,
            who: self.who.as_deref().map(Into::into),
            with: self.with.as_deref().map(Into::into),
            read: [read(&self.read.0), read(&self.read.1)],
        }
    }
}
