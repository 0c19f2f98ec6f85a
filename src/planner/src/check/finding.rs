//! What a check finds, as plain data. Sentences are made from it by [`crate::words`].

use baywright_geometry::marks::MarkFault;
use baywright_geometry::{DVec2, DVec3};

use super::{
    AlignmentFigure, Beyond, CarSide, DoorPart, FloorFact, InSight, InZone, Lacks, Lit, MarkFor, MayBe,
    Meets, Misplaced, OffPlace, OnRunways, Painted, Reaches, StandReach, StandSide, TooLarge, TooSmall,
    Under,
};
use crate::model::assumed::Assumed;
use crate::model::{Effort, Id, Provenance, ShopFigure, Wheel};
use crate::scene::TargetPart;

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

/// What kind of finding it is. The text of a code never changes once shipped: other programs read it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Code {
    /// Part of the set-up is outside the room, through a wall or a shut door.
    OutsideRoom,
    /// The car and something else want the same place.
    CarClash,
    /// The target or its stand and something else want the same place.
    StandClash,
    /// Something stands in a keep-clear zone that may not.
    ZoneObject,
    /// Something hides part of the target from the sensor.
    SightBlocked,
    /// Something reaches into the first Fresnel zone.
    FresnelEntered,
    /// The target is outside what the sensor sees.
    FieldOfView,
    /// The target does not stand where it belongs.
    StandOffMark,
    /// A floor mark cannot be found by its recipe.
    MarkFault,
    /// The mark plan leads elsewhere than the stand-off.
    MarkOffTarget,
    /// No mark leads to a target: how its place is found is not told.
    MarkMissing,
    /// A target's mark cannot be laid as surely as the target must stand.
    MarkUnsure,
    /// A floor mark lies where no mark can be.
    MarkPlace,
    /// A floor mark lies beside one that stays.
    BesidePermanentMark,
    /// A straight tape or laser run passes through something.
    RunBlocked,
    /// A tape lies over something that lengthens it.
    TapeOver,
    /// Too little height.
    HeadRoom,
    /// A stand does not reach the height that is asked of it.
    StandReach,
    /// A mat lies on the floor below a raised car.
    MatBelow,
    /// A mark beside a raised car hangs in the air.
    MarkInAir,
    /// Heights were given from the floor, and the car is raised.
    HeightsFromFloor,
    /// A wheel stands on a pit, a drain or a joint.
    WheelPlace,
    /// A wheel is not on its runway.
    WheelOffRunway,
    /// Something in a zone that cannot be judged yet.
    ZoneUnjudged,
    /// Something so near a zone that it may be inside.
    ZoneNear,
    /// Something whose place is not known well enough: it may be in the way.
    PlaceUnsure,
    /// The car's place is not known well enough: its set-up may meet something of the room.
    CarPlace,
    /// The car's alignment is beyond what the aiming allows.
    AlignmentOff,
    /// The aiming limits what the alignment sheet would say, and nothing of it is entered.
    AlignmentUnknown,
    /// Part of the set-up is outside, through a door that stands open.
    BeyondDoor,
    /// Part of the set-up lies in another bay of the hall, or in the rest of it; or another bay is kept empty for it.
    BeyondBay,
    /// No door that is entered lets the car in.
    WayIn,
    /// People may walk into a zone that is to be clear of them.
    WalkIn,
    /// Daylight or a lamp's light may come into a camera's picture.
    LightInPicture,
    /// Daylight may fall on a mat that a camera looks at.
    LightOnMat,
    /// Glass behind what a lidar looks at.
    GlassBehind,
    /// The target is outside a radar's beam, though inside its field of view.
    OffBeam,
    /// An open door's leaf, or a roller door's roll, may be in the way.
    DoorLeaf,
    /// Too little room to walk and work around the car.
    WorkingRoom,
    /// Too little room to step up to a target or to stand beside it.
    StandRoom,
    /// An open pit where people work.
    OpenPit,
    /// A thing is outside the room or in another thing: a figure must be wrong.
    ThingPlace,
    /// A way out, a panel or an extinguisher is not free.
    KeepFree,
    /// The floor's levels are not known here, out of date, or not judged.
    FloorLevels,
    /// The reference axis needs figures that are not given.
    AxisUnknown,
    /// The profile is not the one that the layout remembers.
    ProfileChanged,
    /// The shop's own settings cannot be read: the defaults stand in for them.
    ShopUnread,
    /// The shop's settings are not those by which the layout was judged when it was saved.
    ShopChanged,
    /// The building is this arrangement's own, as planned.
    OwnBuilding,
    /// Places that were set by eye under an older, narrower rule, and not reviewed since.
    OlderByEye,
    /// The figures are examples.
    ExampleFigures,
    /// Figures of the car were assumed from its class.
    AssumedFigures,
    /// A figure measured on this car is used instead of the profile's.
    MeasuredOnCar,
    /// A camera's picture is judged by angles, without its lens.
    ViewByAngles,
    /// Something to meet before anything is measured.
    Condition,
    /// Something to have ready.
    HaveReady,
}

impl Code {
    /// Every code, in the order in which findings of one severity are listed.
    pub const ALL: [Self; 56] = [
        Self::OutsideRoom,
        Self::CarClash,
        Self::StandClash,
        Self::ZoneObject,
        Self::SightBlocked,
        Self::FresnelEntered,
        Self::FieldOfView,
        Self::StandOffMark,
        Self::MarkFault,
        Self::MarkOffTarget,
        Self::MarkMissing,
        Self::MarkUnsure,
        Self::MarkPlace,
        Self::BesidePermanentMark,
        Self::RunBlocked,
        Self::TapeOver,
        Self::HeadRoom,
        Self::StandReach,
        Self::MatBelow,
        Self::MarkInAir,
        Self::HeightsFromFloor,
        Self::WheelPlace,
        Self::WheelOffRunway,
        Self::ZoneUnjudged,
        Self::ZoneNear,
        Self::PlaceUnsure,
        Self::CarPlace,
        Self::AlignmentOff,
        Self::AlignmentUnknown,
        Self::BeyondDoor,
        Self::BeyondBay,
        Self::WayIn,
        Self::WalkIn,
        Self::LightInPicture,
        Self::LightOnMat,
        Self::GlassBehind,
        Self::OffBeam,
        Self::DoorLeaf,
        Self::WorkingRoom,
        Self::StandRoom,
        Self::OpenPit,
        Self::ThingPlace,
        Self::KeepFree,
        Self::FloorLevels,
        Self::AxisUnknown,
        Self::ProfileChanged,
        Self::ShopUnread,
        Self::ShopChanged,
        Self::OwnBuilding,
        Self::OlderByEye,
        Self::ExampleFigures,
        Self::AssumedFigures,
        Self::MeasuredOnCar,
        Self::ViewByAngles,
        Self::Condition,
        Self::HaveReady,
    ];

    /// Its name for other programs.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::OutsideRoom => "outside-room",
            Self::CarClash => "car-clash",
            Self::StandClash => "stand-clash",
            Self::ZoneObject => "zone-object",
            Self::SightBlocked => "sight-blocked",
            Self::FresnelEntered => "fresnel-entered",
            Self::FieldOfView => "field-of-view",
            Self::StandOffMark => "stand-off-mark",
            Self::MarkFault => "mark-fault",
            Self::MarkOffTarget => "mark-off-target",
            Self::MarkMissing => "mark-missing",
            Self::MarkUnsure => "mark-unsure",
            Self::MarkPlace => "mark-place",
            Self::BesidePermanentMark => "beside-permanent-mark",
            Self::RunBlocked => "run-blocked",
            Self::TapeOver => "tape-over",
            Self::HeadRoom => "head-room",
            Self::StandReach => "stand-reach",
            Self::MatBelow => "mat-below",
            Self::MarkInAir => "mark-in-air",
            Self::HeightsFromFloor => "heights-from-floor",
            Self::WheelPlace => "wheel-place",
            Self::WheelOffRunway => "wheel-off-runway",
            Self::ThingPlace => "thing-place",
            Self::ZoneUnjudged => "zone-unjudged",
            Self::ZoneNear => "zone-near",
            Self::PlaceUnsure => "place-unsure",
            Self::CarPlace => "car-place",
            Self::AlignmentOff => "alignment-off",
            Self::AlignmentUnknown => "alignment-unknown",
            Self::BeyondDoor => "beyond-door",
            Self::BeyondBay => "beyond-bay",
            Self::WayIn => "way-in",
            Self::WalkIn => "walk-in",
            Self::LightInPicture => "light-in-picture",
            Self::LightOnMat => "light-on-mat",
            Self::GlassBehind => "glass-behind",
            Self::OffBeam => "off-beam",
            Self::DoorLeaf => "door-leaf",
            Self::WorkingRoom => "working-room",
            Self::StandRoom => "stand-room",
            Self::OpenPit => "open-pit",
            Self::KeepFree => "keep-free",
            Self::FloorLevels => "floor-levels",
            Self::AxisUnknown => "axis-unknown",
            Self::ProfileChanged => "profile-changed",
            Self::ShopUnread => "shop-unread",
            Self::ShopChanged => "shop-changed",
            Self::OwnBuilding => "own-building",
            Self::OlderByEye => "older-by-eye",
            Self::ExampleFigures => "example-figures",
            Self::AssumedFigures => "assumed-figures",
            Self::MeasuredOnCar => "measured-on-car",
            Self::ViewByAngles => "view-by-angles",
            Self::Condition => "condition",
            Self::HaveReady => "have-ready",
        }
    }
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
    /// See [`Code::SightBlocked`].
    SightBlocked(InSight),
    /// See [`Code::FresnelEntered`].
    FresnelEntered,
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
    /// See [`Code::BeyondDoor`].
    BeyondDoor,
    /// See [`Code::BeyondBay`].
    BeyondBay {
        /// Where, or what else is said of another bay.
        lies: Beyond,
        /// What lies there, the deepest first; none of a bay that is kept empty for nothing, or is not empty.
        parts: Vec<Reaches>,
    },
    /// See [`Code::WayIn`]: of what the door that is nearest to it has too little.
    WayIn(TooSmall),
    /// See [`Code::WalkIn`].
    WalkIn,
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
    /// See [`Code::OpenPit`].
    OpenPit,
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
            Self::SightBlocked(_) => Code::SightBlocked,
            Self::FresnelEntered => Code::FresnelEntered,
            Self::FieldOfView => Code::FieldOfView,
            Self::StandOffMark(_) => Code::StandOffMark,
            Self::MarkFault(_) => Code::MarkFault,
            Self::MarkOffTarget => Code::MarkOffTarget,
            Self::MarkMissing => Code::MarkMissing,
            Self::MarkUnsure(_) => Code::MarkUnsure,
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
            Self::BeyondDoor => Code::BeyondDoor,
            Self::BeyondBay { .. } => Code::BeyondBay,
            Self::WayIn(_) => Code::WayIn,
            Self::WalkIn => Code::WalkIn,
            Self::LightInPicture(_) => Code::LightInPicture,
            Self::LightOnMat => Code::LightOnMat,
            Self::GlassBehind => Code::GlassBehind,
            Self::OffBeam { .. } => Code::OffBeam,
            Self::DoorLeaf(_) => Code::DoorLeaf,
            Self::WorkingRoom(_) => Code::WorkingRoom,
            Self::StandRoom(_) => Code::StandRoom,
            Self::OpenPit => Code::OpenPit,
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
            Self::AssumedFigures(_) => Code::AssumedFigures,
            Self::MeasuredOnCar => Code::MeasuredOnCar,
            Self::ViewByAngles => Code::ViewByAngles,
            Self::Condition(_) => Code::Condition,
            Self::HaveReady(_) => Code::HaveReady,
        }
    }
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
    /// Look at the profile again and save the layout with it.
    ReviewProfile,
}

/// The cheapest way out of a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// What to do.
    pub step: Step,
    /// What it takes.
    pub effort: Option<Effort>,
    /// For a move that goes far enough to be sure of it, whatever is uncertain of the places: the shortest move that just
    /// clears what it cures. `None` if the move itself is that one.
    pub at_least: Option<DVec2>,
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

    /// The thing in the bay that it blames, if it is one.
    pub fn culprit(&self) -> Option<&Id> {
        match self.subjects.first() {
            Some(Subject::Thing(id)) => Some(id),
            _ => None,
        }
    }
}
