//! What a check finds, as plain data. Sentences are made from it by [`crate::words`].

mod code;
mod facts;

use baywright_geometry::{DVec2, DVec3};

use crate::model::{Effort, Id, Provenance, ShopFigure, Wheel};

pub use code::Code;
pub use facts::Facts;

/// How much a finding matters; the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The aiming cannot be done so.
    Stops,
    /// It can be done by someone who looks after this.
    Care,
    /// Worth knowing.
    Note,
}

/// What a finding is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The car.
    Car,
    /// A thing in the bay.
    Thing(Id),
    /// A keep-clear zone of the aiming.
    Zone(Id),
    /// The target of a placement.
    Target(Id),
    /// The stand of a placement.
    Stand(Id),
    /// The sensor.
    Sensor,
    /// A wall of the bay.
    Wall(Id),
    /// A door, window or gap.
    Opening(Id),
    /// A drain, pit or joint.
    FloorFeature(Id),
    /// A runway.
    Runway(Id),
    /// An area that local rules want free.
    KeepFree(Id),
    /// One of the bays of a hall.
    HallBay(Id),
    /// A floor mark.
    Mark(Id),
    /// A dimension that is kept with the bay.
    Dimension(Id),
    /// The straight run from one mark to another.
    Run(Id, Id),
    /// The ceiling.
    Ceiling,
    /// The floor.
    Floor,
    /// The profile's or aiming's figures.
    Figures,
}

/// A value with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// Millimetres.
    Length(f64),
    /// Radians.
    Angle(f64),
    /// A share of the whole, 0 to 1.
    Share(f64),
    /// A ratio to a stated whole that may exceed it.
    Ratio(f64),
    /// Days.
    Days(i64),
}

/// Where a limit comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The aiming's own figures.
    Procedure(Provenance),
    /// A published standard or rule, named.
    Published(&'static str),
    /// Common practice, no source.
    CommonPractice,
    /// A setting of the shop.
    Shop(ShopFigure),
    /// Two things cannot be in one place; what is hidden cannot be seen.
    Geometry,
    /// How well the place of a thing is known, as entered.
    AsEntered,
}

/// One thing to do about a finding.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// Move a thing, in plan; bay frame, mm.
    MoveThing {
        /// Which.
        thing: Id,
        /// By how much.
        by: DVec2,
    },
    /// Turn a thing where it stands, about its own place.
    TurnThing {
        /// Which.
        thing: Id,
        /// By how much, radians, anticlockwise from above.
        by_rad: f64,
    },
    /// Take a thing out of the bay.
    TakeAway {
        /// Which.
        thing: Id,
    },
    /// Park the car elsewhere, marks and targets with it; bay frame, mm.
    MoveCar {
        /// By how much.
        by: DVec2,
    },
    /// Put a target where it belongs.
    StandOnMark {
        /// Whose target.
        placement: Id,
    },
    /// Keep another bay of the hall empty while this is aimed.
    KeepEmpty {
        /// Which.
        bay: Id,
    },
    /// Keep a door shut while this is aimed.
    KeepShut {
        /// Which.
        door: Id,
    },
    /// Open a door.
    OpenDoor {
        /// Which.
        door: Id,
    },
    /// Tape the place of a thing, so that it is better known.
    Tape {
        /// Which.
        thing: Id,
    },
    /// Tape the car's place from the walls, and say so.
    TapeCar,
    /// Survey the floor.
    SurveyFloor,
    /// Enter the maker's own figures.
    EnterFigures,
    /// Enter the figures of the alignment sheet.
    EnterAlignment,
    /// Say from which plane the heights of the aiming's zones and targets count.
    SayHeightsFrom,
    /// Enter the keep-clear zones of the aiming.
    EnterZones,
    /// Look at the profile again and save the layout with it.
    ReviewProfile,
    /// Measure something on this car, and enter it.
    MeasureOnCar(OnCar),
}

/// What is measured on this very car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnCar {
    /// From a wheel's middle up to its arch.
    Arch(Wheel),
    /// The sensor's place and height.
    Sensor,
}

impl Step {
    /// Whether it asks a person to find something out and enter it: until then nothing changes.
    pub const fn asks_for_more(&self) -> bool {
        match self {
            Self::Tape { .. }
            | Self::TapeCar
            | Self::SurveyFloor
            | Self::EnterFigures
            | Self::EnterAlignment
            | Self::SayHeightsFrom
            | Self::EnterZones
            | Self::MeasureOnCar(_) => true,
            Self::MoveThing { .. }
            | Self::TurnThing { .. }
            | Self::TakeAway { .. }
            | Self::MoveCar { .. }
            | Self::StandOnMark { .. }
            | Self::KeepEmpty { .. }
            | Self::KeepShut { .. }
            | Self::OpenDoor { .. }
            | Self::ReviewProfile => false,
        }
    }
}

/// A shorter move than the one that is offered, and why that one goes further; bay frame, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shorter {
    /// It just clears what it cures, as that is drawn; the offered one does whatever is uncertain of the places.
    AsDrawn(DVec2),
    /// It cures this alone; the offered one leaves less else to be minded.
    ThisAlone(DVec2),
}

impl Shorter {
    /// By how much it moves.
    pub const fn by(self) -> DVec2 {
        match self {
            Self::AsDrawn(by) | Self::ThisAlone(by) => by,
        }
    }
}

/// The cheapest way out of a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// What to do.
    pub step: Step,
    /// What it takes.
    pub effort: Option<Effort>,
    /// A shorter move that would do, if something speaks for the longer one.
    pub at_least: Option<Shorter>,
    /// What it would cause instead, each as it would be found then; empty if nothing.
    pub causes: Vec<Finding>,
}

/// One thing wrong or worth knowing.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What was found.
    pub facts: Facts,
    /// How bad.
    pub severity: Severity,
    /// About what; the culprit first.
    pub subjects: Vec<Subject>,
    /// Where, bay frame, mm, with height above the floor.
    pub place: DVec3,
    /// What was found.
    pub measured: Option<Quantity>,
    /// What is allowed.
    pub limit: Option<Quantity>,
    /// Where the limit comes from.
    pub basis: Basis,
    /// The cheapest way out, if there is one.
    pub cure: Option<Cure>,
}

impl Finding {
    /// What kind it is.
    pub const fn code(&self) -> Code {
        self.facts.code()
    }

    /// Whether all that it says is that a place is not known well enough.
    pub const fn is_only_unsure(&self) -> bool {
        matches!(self.code(), Code::ZoneNear | Code::PlaceUnsure | Code::CarPlace)
    }

    /// Whether it is of an echo of one thing.
    pub const fn is_of_echo(&self) -> bool {
        matches!(self.facts, Facts::EchoTaken(_) | Facts::EchoDraws(_))
    }

    /// The thing in the bay that it blames, if it is one.
    pub fn culprit(&self) -> Option<&Id> {
        match self.subjects.first() {
            Some(Subject::Thing(id)) => Some(id),
            _ => None,
        }
    }
}
