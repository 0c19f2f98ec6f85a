//! What is known of each kind of finding beyond measured value and limit.

use baywright_geometry::DVec2;
use baywright_geometry::marks::MarkFault;
use jiff::civil::Date;

use super::Code;
use crate::check::{
    AlignmentFigure, AtOnce, Beyond, CarSide, DoorPart, FloorFact, InSight, InZone, Lacks, LinesApart, Lit,
    MarkFor, MayBe, Meets, Misplaced, OffPlace, OnRunways, Open, Opened, Painted, Reaches, RideFact, Shifted,
    StandOpen, StandReach, StandSide, TooLarge, TooSmall, Under, Unlikely, Unused,
};
use crate::echoes::Echo;
use crate::history::Drift;
use crate::model::assumed::Assumed;
use crate::model::sheet::{SheetLacks, SheetPart};
use crate::model::{Id, Wheel};
use crate::proof::{Doubt, Figure, StandFigure};
use crate::scene::TargetPart;

/// What was found, with what is known of it beyond measured value and limit. Each kind's facts are its check's own.
#[derive(Clone, Debug, PartialEq)]
pub enum Facts {
    /// See [`Code::OutsideRoom`].
    OutsideRoom {
        /// Which part of a target and its stand; `None` of what has no parts.
        part: Option<TargetPart>,
        /// Whether a door that is open does not let it through though the ground beyond is free so far: for its lintel or sill.
        no_fit: bool,
        /// What the set-up takes more than the room gives, if no move makes it fit.
        too_large: Option<TooLarge>,
    },
    /// See [`Code::CarClash`].
    CarClash(Lacks),
    /// See [`Code::StandClash`].
    StandClash(Lacks),
    /// See [`Code::ZoneObject`].
    ZoneObject(InZone),
    /// See [`Code::ZonesMissing`].
    ZonesMissing,
    /// See [`Code::NoZoneNamed`].
    NoZoneNamed,
    /// See [`Code::SightBlocked`].
    SightBlocked(InSight),
    /// See [`Code::FresnelEntered`]: how far that shifts the bearing, if that can be told.
    FresnelEntered(Option<Shifted>),
    /// See [`Code::EchoTaken`]: which.
    EchoTaken(Box<Echo>),
    /// See [`Code::EchoDraws`]: which.
    EchoDraws(Box<Echo>),
    /// See [`Code::EchoesTogether`].
    EchoesTogether,
    /// See [`Code::FieldOfView`].
    FieldOfView,
    /// See [`Code::StandOffMark`].
    StandOffMark(OffPlace),
    /// See [`Code::MarkFault`].
    MarkFault(MarkFault),
    /// See [`Code::MarkOffTarget`].
    MarkOffTarget,
    /// See [`Code::MarkMissing`].
    MarkMissing,
    /// See [`Code::MarkUnsure`]: for what.
    MarkUnsure(MarkFor),
    /// See [`Code::LaidOff`]: which figure.
    LaidOff(Figure),
    /// See [`Code::LaidUnproven`]: which figure.
    LaidUnproven(Figure),
    /// See [`Code::ReadingOff`]: what does not.
    ReadingOff(Doubt),
    /// See [`Code::ReadingUnused`].
    ReadingUnused {
        /// The first of them, and why.
        first: Unused,
        /// How many in all.
        all: usize,
    },
    /// See [`Code::ReadingDay`].
    ReadingDay {
        /// Whether the day is still to come.
        is_to_come: bool,
    },
    /// See [`Code::InstrumentOverdue`]: which.
    InstrumentOverdue(Id),
    /// See [`Code::InstrumentUnlisted`]: which.
    InstrumentUnlisted(Id),
    /// See [`Code::InstrumentUnfit`]: which.
    InstrumentUnfit(Id),
    /// See [`Code::MarkDrifted`]: how far.
    MarkDrifted(Drift),
    /// See [`Code::MarkElsewhere`].
    MarkElsewhere {
        /// How far and which way from where it is entered, bay frame, mm.
        by: DVec2,
        /// By the check of this day.
        on: Date,
    },
    /// See [`Code::MarkCheckUnused`].
    MarkCheckUnused {
        /// The check of this day.
        on: Date,
        /// Whether the day is still to come.
        is_to_come: bool,
    },
    /// See [`Code::StandSetOff`]: which figure.
    StandSetOff(StandFigure),
    /// See [`Code::StandUnproven`]: what is not.
    StandUnproven(StandOpen),
    /// See [`Code::MarkPlace`].
    MarkPlace,
    /// See [`Code::BesidePermanentMark`]: how.
    BesidePermanentMark(Painted),
    /// See [`Code::RunBlocked`].
    RunBlocked,
    /// See [`Code::TapeOver`].
    TapeOver,
    /// See [`Code::HeadRoom`].
    HeadRoom(Under),
    /// See [`Code::StandReach`].
    StandReach(StandReach),
    /// See [`Code::MatBelow`].
    MatBelow,
    /// See [`Code::MarkInAir`].
    MarkInAir {
        /// Another aiming of this car for the same sensor, none of whose marks are.
        instead: Option<Id>,
    },
    /// See [`Code::HeightsFromFloor`].
    HeightsFromFloor,
    /// See [`Code::WheelPlace`].
    WheelPlace(Wheel),
    /// See [`Code::WheelOffRunway`].
    WheelOffRunway(OnRunways),
    /// See [`Code::ZoneUnjudged`].
    ZoneUnjudged(InZone),
    /// See [`Code::ZoneNear`]: which zones.
    ZoneNear(Vec<MayBe>),
    /// See [`Code::PlaceUnsure`]: in the way of what.
    PlaceUnsure(Vec<MayBe>),
    /// See [`Code::CarPlace`]: what meets what, the nearest first.
    CarPlace(Vec<Meets>),
    /// See [`Code::AlignmentOff`].
    AlignmentOff(AlignmentFigure),
    /// See [`Code::AlignmentUnknown`].
    AlignmentUnknown(AlignmentFigure),
    /// See [`Code::SheetOpen`]: which figures, and why.
    SheetOpen(Vec<(SheetPart, SheetLacks)>),
    /// See [`Code::SheetDiffers`]: both, radians, positive to the left.
    SheetDiffers {
        /// As printed.
        printed_rad: f64,
        /// As worked out from the rear toes.
        worked_rad: f64,
    },
    /// See [`Code::CarUnlikely`]: which.
    CarUnlikely(Unlikely),
    /// See [`Code::RideHeight`]: what of it.
    RideHeight(RideFact),
    /// See [`Code::CentrelinesApart`]: by how much.
    CentrelinesApart(LinesApart),
    /// See [`Code::CarMoved`]: by which distance.
    CarMoved {
        /// From this point of the floor.
        from: Id,
        /// To this one of the car.
        to: Id,
        /// By how much it reads more at the end, mm.
        by_mm: f64,
    },
    /// See [`Code::BeyondDoor`].
    BeyondDoor,
    /// See [`Code::BeyondBay`].
    BeyondBay {
        /// Where, or what else is said of another bay.
        lies: Beyond,
        /// What lies there, the deepest first; none of a bay that is kept empty for nothing, or is not empty.
        parts: Vec<Reaches>,
    },
    /// See [`Code::Beside`].
    Beside {
        /// The other set-up.
        set_up: Id,
        /// What of it.
        what: AtOnce,
    },
    /// See [`Code::WayIn`]: of what the door that is nearest to it has too little.
    WayIn(TooSmall),
    /// See [`Code::WalkIn`].
    WalkIn,
    /// See [`Code::ShutDoor`].
    ShutDoor {
        /// What may come of it.
        by: Opened,
        /// What of the set-up is in its way, the deepest first.
        parts: Vec<Reaches>,
    },
    /// See [`Code::PersonNear`]: of a zone or of the sensor's picture, as the second subject says.
    PersonNear,
    /// See [`Code::UnderCar`].
    UnderCar,
    /// See [`Code::LightInPicture`]: how surely.
    LightInPicture(Lit),
    /// See [`Code::LightOnMat`].
    LightOnMat,
    /// See [`Code::GlassBehind`].
    GlassBehind,
    /// See [`Code::OffBeam`].
    OffBeam {
        /// What comes back less than from the middle of the beam, there and back, dB.
        loss_db: f64,
    },
    /// See [`Code::DoorLeaf`].
    DoorLeaf(DoorPart),
    /// See [`Code::WorkingRoom`].
    WorkingRoom(CarSide),
    /// See [`Code::StandRoom`]: where it is missing.
    StandRoom(StandSide),
    /// See [`Code::OpenPit`]: how surely.
    OpenPit(Open),
    /// See [`Code::ThingPlace`].
    ThingPlace(Misplaced),
    /// See [`Code::KeepFree`].
    KeepFree,
    /// See [`Code::FloorLevels`].
    FloorLevels(FloorFact),
    /// See [`Code::AxisUnknown`].
    AxisUnknown,
    /// See [`Code::ProfileChanged`].
    ProfileChanged,
    /// See [`Code::ShopUnread`].
    ShopUnread,
    /// See [`Code::ShopChanged`].
    ShopChanged,
    /// See [`Code::OwnBuilding`].
    OwnBuilding,
    /// See [`Code::OlderByEye`].
    OlderByEye,
    /// See [`Code::ExampleFigures`].
    ExampleFigures,
    /// See [`Code::SourceNotGiven`].
    SourceNotGiven,
    /// See [`Code::AssumedFigures`]: which.
    AssumedFigures(Vec<Assumed>),
    /// See [`Code::MeasuredOnCar`].
    MeasuredOnCar,
    /// See [`Code::ViewByAngles`].
    ViewByAngles,
    /// See [`Code::Condition`]: the procedure's own words.
    Condition(String),
    /// See [`Code::HaveReady`]: the procedure's own words.
    HaveReady(String),
}

impl Facts {
    /// What kind of finding it is.
    pub const fn code(&self) -> Code {
        match self {
            Self::OutsideRoom { .. } => Code::OutsideRoom,
            Self::CarClash(_) => Code::CarClash,
            Self::StandClash(_) => Code::StandClash,
            Self::ZoneObject(_) => Code::ZoneObject,
            Self::ZonesMissing => Code::ZonesMissing,
            Self::NoZoneNamed => Code::NoZoneNamed,
            Self::SightBlocked(_) => Code::SightBlocked,
            Self::FresnelEntered(_) => Code::FresnelEntered,
            Self::EchoTaken(_) => Code::EchoTaken,
            Self::EchoDraws(_) => Code::EchoDraws,
            Self::EchoesTogether => Code::EchoesTogether,
            Self::FieldOfView => Code::FieldOfView,
            Self::StandOffMark(_) => Code::StandOffMark,
            Self::MarkFault(_) => Code::MarkFault,
            Self::MarkOffTarget => Code::MarkOffTarget,
            Self::MarkMissing => Code::MarkMissing,
            Self::MarkUnsure(_) => Code::MarkUnsure,
            Self::LaidOff(_) => Code::LaidOff,
            Self::LaidUnproven(_) => Code::LaidUnproven,
            Self::ReadingOff(_) => Code::ReadingOff,
            Self::ReadingUnused { .. } => Code::ReadingUnused,
            Self::ReadingDay { .. } => Code::ReadingDay,
            Self::InstrumentOverdue(_) => Code::InstrumentOverdue,
            Self::InstrumentUnlisted(_) => Code::InstrumentUnlisted,
            Self::InstrumentUnfit(_) => Code::InstrumentUnfit,
            Self::MarkDrifted(_) => Code::MarkDrifted,
            Self::MarkElsewhere { .. } => Code::MarkElsewhere,
            Self::MarkCheckUnused { .. } => Code::MarkCheckUnused,
            Self::StandSetOff(_) => Code::StandSetOff,
            Self::StandUnproven(_) => Code::StandUnproven,
            Self::MarkPlace => Code::MarkPlace,
            Self::BesidePermanentMark(_) => Code::BesidePermanentMark,
            Self::RunBlocked => Code::RunBlocked,
            Self::TapeOver => Code::TapeOver,
            Self::HeadRoom(_) => Code::HeadRoom,
            Self::StandReach(_) => Code::StandReach,
            Self::MatBelow => Code::MatBelow,
            Self::MarkInAir { .. } => Code::MarkInAir,
            Self::HeightsFromFloor => Code::HeightsFromFloor,
            Self::WheelPlace(_) => Code::WheelPlace,
            Self::WheelOffRunway(_) => Code::WheelOffRunway,
            Self::ZoneUnjudged(_) => Code::ZoneUnjudged,
            Self::ZoneNear(_) => Code::ZoneNear,
            Self::PlaceUnsure(_) => Code::PlaceUnsure,
            Self::CarPlace(_) => Code::CarPlace,
            Self::AlignmentOff(_) => Code::AlignmentOff,
            Self::AlignmentUnknown(_) => Code::AlignmentUnknown,
            Self::SheetOpen(_) => Code::SheetOpen,
            Self::SheetDiffers { .. } => Code::SheetDiffers,
            Self::CarUnlikely(_) => Code::CarUnlikely,
            Self::RideHeight(_) => Code::RideHeight,
            Self::CentrelinesApart(_) => Code::CentrelinesApart,
            Self::CarMoved { .. } => Code::CarMoved,
            Self::BeyondDoor => Code::BeyondDoor,
            Self::BeyondBay { .. } => Code::BeyondBay,
            Self::Beside { .. } => Code::Beside,
            Self::WayIn(_) => Code::WayIn,
            Self::WalkIn => Code::WalkIn,
            Self::ShutDoor { .. } => Code::ShutDoor,
            Self::PersonNear => Code::PersonNear,
            Self::UnderCar => Code::UnderCar,
            Self::LightInPicture(_) => Code::LightInPicture,
            Self::LightOnMat => Code::LightOnMat,
            Self::GlassBehind => Code::GlassBehind,
            Self::OffBeam { .. } => Code::OffBeam,
            Self::DoorLeaf(_) => Code::DoorLeaf,
            Self::WorkingRoom(_) => Code::WorkingRoom,
            Self::StandRoom(_) => Code::StandRoom,
            Self::OpenPit(_) => Code::OpenPit,
            Self::ThingPlace(_) => Code::ThingPlace,
            Self::KeepFree => Code::KeepFree,
            Self::FloorLevels(_) => Code::FloorLevels,
            Self::AxisUnknown => Code::AxisUnknown,
            Self::ProfileChanged => Code::ProfileChanged,
            Self::ShopUnread => Code::ShopUnread,
            Self::ShopChanged => Code::ShopChanged,
            Self::OwnBuilding => Code::OwnBuilding,
            Self::OlderByEye => Code::OlderByEye,
            Self::ExampleFigures => Code::ExampleFigures,
            Self::SourceNotGiven => Code::SourceNotGiven,
            Self::AssumedFigures(_) => Code::AssumedFigures,
            Self::MeasuredOnCar => Code::MeasuredOnCar,
            Self::ViewByAngles => Code::ViewByAngles,
            Self::Condition(_) => Code::Condition,
            Self::HaveReady(_) => Code::HaveReady,
        }
    }
}
