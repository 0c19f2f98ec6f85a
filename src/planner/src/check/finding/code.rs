//! The kinds of findings.

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
    /// No keep-clear zone of the aiming is entered: nothing is judged for any.
    ZonesMissing,
    /// The procedure names no keep-clear zone, and that was said: nothing is judged for any.
    NoZoneNamed,
    /// Something hides part of the target from the sensor.
    SightBlocked,
    /// Something reaches into the first Fresnel zone.
    FresnelEntered,
    /// An echo beside the target's may be taken for it.
    EchoTaken,
    /// An echo beside the target's may draw the aim further than is allowed.
    EchoDraws,
    /// Echoes that each alone matter little may draw the aim further than is allowed together.
    EchoesTogether,
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
    /// By what was taped between its marks a target lies further off than is allowed.
    LaidOff,
    /// What was taped between its marks does not prove yet that a target lies within what is allowed.
    LaidUnproven,
    /// What was taped between marks does not fit together.
    ReadingOff,
    /// What was read is of no mark, run or target of this set-up, and is not used.
    ReadingUnused,
    /// What was read between marks was read on another day.
    ReadingDay,
    /// Marks were laid, taped or checked with an instrument whose check was over.
    InstrumentOverdue,
    /// What was read between marks was read with an instrument that the shop's list does not have.
    InstrumentUnlisted,
    /// What was read between marks is said to be read with an instrument that reads no distances.
    InstrumentUnfit,
    /// A mark that stays is no more where its earlier checks found it.
    MarkDrifted,
    /// A mark that stays is not where the bay has it, by its last check.
    MarkElsewhere,
    /// A check of a mark that stays says nothing of where it is.
    MarkCheckUnused,
    /// By what was read of its stand a target is further off than is allowed.
    StandSetOff,
    /// What was read of a stand does not prove yet that its target is within what is allowed.
    StandUnproven,
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
    /// A figure of the alignment sheet is not used: which way it goes, or at which rim, nobody said.
    SheetOpen,
    /// The thrust angle that the sheet prints is not what its rear toes give.
    SheetDiffers,
    /// A figure measured on this car is one that hardly any car has.
    CarUnlikely,
    /// A wheel arch is higher or lower than it may be, or the body leans.
    RideHeight,
    /// The centreline by the body leads elsewhere than the axis that the aiming names.
    CentrelinesApart,
    /// The car moved since its marks were laid.
    CarMoved,
    /// Part of the set-up is outside, through a door that stands open.
    BeyondDoor,
    /// Part of the set-up lies in another bay of the hall, or in the rest of it; or another bay is kept empty for it.
    BeyondBay,
    /// What is done at the same time in another bay of the hall does not go with this, or it is not known whether it does.
    Beside,
    /// No door that is entered lets the car in.
    WayIn,
    /// People may walk into a zone that is to be clear of them.
    WalkIn,
    /// A shut door may be opened onto the set-up, or is kept shut for it.
    ShutDoor,
    /// Somebody stands within a step of a zone that is to be clear of people or of the line of sight, or in a camera's picture.
    PersonNear,
    /// Something or somebody under the car, though not touching it.
    UnderCar,
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
    /// Somebody's own figures, and it is not said where they come from.
    SourceNotGiven,
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
    pub const ALL: [Self; 85] = [
        Self::OutsideRoom,
        Self::CarClash,
        Self::StandClash,
        Self::ZoneObject,
        Self::ZonesMissing,
        Self::NoZoneNamed,
        Self::SightBlocked,
        Self::FresnelEntered,
        Self::EchoTaken,
        Self::EchoDraws,
        Self::EchoesTogether,
        Self::FieldOfView,
        Self::StandOffMark,
        Self::MarkFault,
        Self::MarkOffTarget,
        Self::MarkMissing,
        Self::MarkUnsure,
        Self::LaidOff,
        Self::LaidUnproven,
        Self::ReadingOff,
        Self::ReadingUnused,
        Self::ReadingDay,
        Self::InstrumentOverdue,
        Self::InstrumentUnlisted,
        Self::InstrumentUnfit,
        Self::MarkDrifted,
        Self::MarkElsewhere,
        Self::MarkCheckUnused,
        Self::StandSetOff,
        Self::StandUnproven,
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
        Self::SheetOpen,
        Self::SheetDiffers,
        Self::CarUnlikely,
        Self::RideHeight,
        Self::CentrelinesApart,
        Self::CarMoved,
        Self::BeyondDoor,
        Self::BeyondBay,
        Self::Beside,
        Self::WayIn,
        Self::WalkIn,
        Self::ShutDoor,
        Self::PersonNear,
        Self::UnderCar,
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
        Self::SourceNotGiven,
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
            Self::ZonesMissing => "zones-missing",
            Self::NoZoneNamed => "no-zone-named",
            Self::SightBlocked => "sight-blocked",
            Self::FresnelEntered => "fresnel-entered",
            Self::EchoTaken => "echo-taken",
            Self::EchoDraws => "echo-draws",
            Self::EchoesTogether => "echoes-together",
            Self::FieldOfView => "field-of-view",
            Self::StandOffMark => "stand-off-mark",
            Self::MarkFault => "mark-fault",
            Self::MarkOffTarget => "mark-off-target",
            Self::MarkMissing => "mark-missing",
            Self::MarkUnsure => "mark-unsure",
            Self::LaidOff => "laid-off",
            Self::LaidUnproven => "laid-unproven",
            Self::ReadingOff => "reading-off",
            Self::ReadingUnused => "reading-unused",
            Self::ReadingDay => "reading-day",
            Self::InstrumentOverdue => "instrument-overdue",
            Self::InstrumentUnlisted => "instrument-unlisted",
            Self::InstrumentUnfit => "instrument-unfit",
            Self::MarkDrifted => "mark-drifted",
            Self::MarkElsewhere => "mark-elsewhere",
            Self::MarkCheckUnused => "mark-check-unused",
            Self::StandSetOff => "stand-set-off",
            Self::StandUnproven => "stand-unproven",
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
            Self::SheetOpen => "sheet-open",
            Self::SheetDiffers => "sheet-differs",
            Self::CarUnlikely => "car-unlikely",
            Self::RideHeight => "ride-height",
            Self::CentrelinesApart => "centrelines-apart",
            Self::CarMoved => "car-moved",
            Self::BeyondDoor => "beyond-door",
            Self::BeyondBay => "beyond-bay",
            Self::Beside => "beside",
            Self::WayIn => "way-in",
            Self::WalkIn => "walk-in",
            Self::ShutDoor => "shut-door",
            Self::PersonNear => "person-near",
            Self::UnderCar => "under-car",
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
            Self::SourceNotGiven => "source-not-given",
            Self::AssumedFigures => "assumed-figures",
            Self::MeasuredOnCar => "measured-on-car",
            Self::ViewByAngles => "view-by-angles",
            Self::Condition => "condition",
            Self::HaveReady => "have-ready",
        }
    }
}
