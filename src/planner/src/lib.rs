//! What is where, whether that lets the aiming succeed, and why not.
//!
//! [`model`] is plain validated data; [`assess()`] turns an [`model::Arrangement`] into an [`Assessment`]: a pure,
//! total function, the same answer every time and on every machine. [`edit`] changes a saved layout; [`words`] is the only
//! place that makes sentences.
//!
//! Lengths are millimetres, angles radians, frames as [`model`] says.

pub mod another_plan;
pub mod as_measured;
pub mod assess;
pub mod assessment;
pub mod at_once;
pub mod check;
pub mod clearing;
pub mod cure;
pub mod customer;
#[cfg(test)]
#[path = "../tests/checks/dice.rs"]
mod dice;
pub mod difference;
pub mod echoes;
pub mod edit;
pub mod entry;
pub mod failed;
pub mod ground;
pub mod hand;
pub mod history;
pub mod judge;
pub mod matrix;
pub mod model;
pub mod permanent;
pub mod place;
pub mod proof;
pub mod record;
pub mod room;
pub mod scene;
pub mod way_in;
pub mod words;

pub use baywright_geometry as geometry;
pub use baywright_never as never;

pub use assess::{assess, assess_fully};
pub use assessment::{
    AlignmentFigure, Assessment, AtOnce, Basis, Beyond, CarSide, Code, Cure, DoorPart, Facts, Finding,
    FloorFact, InSight, InZone, Lacks, LinesApart, Lit, MarkFor, MayBe, Meets, Off, OffBy, OffPlace, OnCar,
    OnRunways, Open, Opened, Painted, Promise, Quantity, Reaches, RideFact, Severity, Shorter, StandOpen,
    StandReach, StandSide, Step, Subject, Tilt, TooLarge, TooSmall, Under, Unlikely, Verdict,
};
pub use judge::judge;
pub use scene::Scene;
