//! What an item is. A role decides colours, strokes, hatch and when it is painted; it is never a colour itself.

use baywright_planner::model::{FloorFeatureKind, Material};
use baywright_planner::{Severity, Verdict};

/// What an item is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The room's floor from above, or the air in it from the side.
    Floor,
    /// The light net of a metre.
    Grid,
    /// Ground beyond an open door that is known to be free.
    Beyond,
    /// A raised runway.
    Runway,
    /// A drain, pit or joint.
    FloorFeature(FloorFeatureKind),
    /// One of several bays of a hall, which the set-up is not made in.
    OtherBay,
    /// The one that it is made in.
    OwnBay,
    /// An area that local rules want free.
    KeepFree,
    /// Masonry: walls, floor slab, ceiling.
    Wall(Material),
    /// The faces of walls, floor and ceiling.
    WallLine,
    /// An opening in a wall.
    Opening,
    /// What closes an opening.
    OpeningLine,
    /// Where a door swings.
    DoorSwing,
    /// A keep-clear zone.
    ZoneFill,
    /// Its edge.
    ZoneEdge,
    /// Every other zone, so that two that overlap are told apart.
    OtherZoneFill,
    /// Its edge.
    OtherZoneEdge,
    /// What the sensor sees or lights up.
    BeamFill,
    /// The edges of that.
    BeamEdge,
    /// A thing that stands to the side of the axis, seen from the side.
    ThingAside(Material),
    /// The car's body.
    CarBody,
    /// Edges of bonnet and roof.
    CarLine,
    /// Glass.
    CarGlass,
    /// A tyre.
    Tyre,
    /// A wheel's rim.
    Rim,
    /// The axis straight ahead.
    CentreLine,
    /// A straight run of tape or laser.
    Run,
    /// The feet of a target's stand.
    StandBase,
    /// Its mast.
    StandMast,
    /// A thing that a finding is about, or that is in hand.
    Thing(Material),
    /// A line on a thing that shows what it is.
    ThingLine,
    /// A thing that is in nobody's way: paler.
    QuietThing(Material),
    /// A line on it.
    QuietThingLine,
    /// A wall that is looked at from within the room.
    WallFaced(Material),
    /// What closes an opening in it.
    OpeningFaced,
    /// A part of a target's stand that is looked at.
    StandFaced,
    /// The sides of a target.
    TargetRim,
    /// The face of a target that is looked at.
    TargetFace,
    /// A thing that hangs above the car.
    Overhead,
    /// From corner to corner of it, so that it is told from what stands.
    OverheadLine,
    /// Where two share a place that cannot be shared.
    Overlap(Severity),
    /// The same to the side of the axis, seen from the side.
    OverlapAside(Severity),
    /// Where a target belongs when it stands elsewhere.
    TargetMeant,
    /// Where a thing would stand out of the way.
    OutOfTheWay,
    /// The ground of the way there, so that it stands out from what it runs over.
    WayOutUnder,
    /// The way there.
    WayOut,
    /// A target.
    Target,
    /// A mat on the floor.
    Mat,
    /// The line from sensor to target, as far as it is seen along it.
    SightLine,
    /// The rest of that line, behind what hides it.
    SightLineHidden,
    /// Where the middle of the front axle can lie.
    PlaceFits,
    /// The edge of that, seen over what stands there.
    PlaceEdge,
    /// Where that is not decided.
    PlaceOpen,
    /// Where it lies now.
    PlaceNow,
    /// Where some of a list of aimings can be done; where more can, it is painted over and over.
    Served,
    /// Its edge.
    ServedEdge,
    /// What the car passes over on its way in.
    WayIn,
    /// The edge of that.
    WayInEdge,
    /// The way of its rear axle's middle.
    WayInAxle,
    /// Where it has the least room.
    WayInTight,
    /// The way of an echo, out and back.
    EchoWay,
    /// Where the radar believes what it comes from to be.
    EchoBelieved,
    /// The target as it seems to stand there once more.
    EchoGhost,
    /// The edge of what the sensor sees, seen from there.
    ViewEdge,
    /// Where its beam has half of its power left.
    BeamWidth,
    /// What lies in the shadow of something between sensor and target.
    Shadow,
    /// Where that shadow lies on the target.
    ShadowOnTarget,
    /// The sensor.
    Sensor,
    /// A floor mark to be laid.
    Mark,
    /// A mark that stays on the floor.
    PermanentMark,
    /// A line on the floor from one of them to another.
    FloorLine,
    /// The outline of what is pointed at.
    Hovered,
    /// The outline of what is in hand.
    Selected,
    /// A distance.
    Dimension,
    /// A distance that was measured and kept.
    KeptDimension,
    /// How far something is in where it may not be.
    DimensionStops,
    /// How far something reaches to where it needs care.
    DimensionCare,
    /// A distance of what is in hand.
    LiveDimension,
    /// A level of the floor that is in hand.
    Level,
    /// A name.
    Label,
    /// A name of lesser weight.
    LabelSoft,
    /// A line of one level of the floor.
    Contour,
    /// The floor from the side as it was surveyed, many times as high.
    Profile,
    /// What a zone keeps clear.
    LabelZone,
    /// From a name to what it names, where that is not beside it.
    NameLeader,
    /// From a flag to its place.
    Leader(Severity),
    /// A finding's number.
    Flag(Severity),
    /// A finding's number in the key.
    KeySign(Severity),
    /// The verdict's sign.
    VerdictSign(Verdict),
    /// The verdict, in words.
    Verdict,
    /// A title.
    Title,
    /// What a title adds.
    TitleSoft,
    /// A frame that says that figures are examples.
    Example,
    /// What stands in it.
    ExampleText,
    /// A dark part of the scale bar.
    ScaleDark,
    /// A light part of it.
    ScaleLight,
    /// The ground of a heading or of a row on a sheet.
    Shade,
    /// A line between rows or around a block of a sheet.
    Rule,
    /// The same where it divides more.
    RuleHeavy,
    /// A box on a sheet that is written in by hand.
    Field,
}

impl Role {
    /// When it is painted: smaller is earlier.
    pub const fn layer(self) -> u8 {
        match self {
            Self::Floor => 0,
            Self::Grid => 1,
            Self::Beyond => 2,
            // In the order in which they are given.
            Self::OtherBay | Self::OwnBay | Self::KeepFree => 3,
            Self::Runway => 4,
            Self::FloorFeature(_) | Self::Contour | Self::FloorLine => 5,
            Self::ZoneFill | Self::OtherZoneFill => 6,
            Self::BeamFill
            | Self::Shadow
            | Self::PlaceFits
            | Self::PlaceOpen
            | Self::Served
            | Self::ServedEdge
            | Self::WayIn => 7,
            Self::Wall(_) => 8,
            Self::WallLine => 9,
            Self::Opening => 10,
            Self::OpeningLine => 11,
            Self::DoorSwing => 12,
            Self::ThingAside(_) | Self::OverlapAside(_) => 13,
            Self::ZoneEdge | Self::OtherZoneEdge => 14,
            Self::BeamEdge => 15,
            Self::CarBody => 16,
            Self::CarLine => 17,
            Self::CarGlass => 18,
            Self::Tyre => 19,
            Self::Rim => 20,
            Self::Run => 21,
            Self::StandBase => 22,
            Self::StandMast => 23,
            // Thing and its lines keep the order in which they are given, so that nearer things cover farther ones.
            Self::Thing(_)
            | Self::ThingLine
            | Self::QuietThing(_)
            | Self::QuietThingLine
            | Self::WallFaced(_)
            | Self::OpeningFaced
            | Self::StandFaced
            | Self::TargetRim
            | Self::TargetFace => 24,
            Self::Overlap(_) => 25,
            Self::Overhead | Self::OverheadLine => 26,
            Self::CentreLine => 27,
            Self::TargetMeant | Self::OutOfTheWay => 28,
            Self::SightLine | Self::SightLineHidden => 29,
            // In the order in which they are given: the shadow lies on the target.
            Self::Target | Self::Mat | Self::ShadowOnTarget => 30,
            // In the order in which they are given: the point lies on the edge.
            Self::Sensor
            | Self::PlaceEdge
            | Self::PlaceNow
            | Self::WayInEdge
            | Self::WayInAxle
            | Self::WayInTight
            | Self::EchoWay
            | Self::EchoBelieved
            | Self::EchoGhost
            | Self::ViewEdge
            | Self::BeamWidth => 31,
            Self::PermanentMark | Self::Profile => 32,
            Self::Mark => 33,
            Self::Hovered | Self::WayOutUnder | Self::WayOut => 34,
            Self::Selected => 35,
            Self::Dimension | Self::KeptDimension | Self::DimensionCare => 36,
            Self::DimensionStops => 37,
            Self::LabelSoft | Self::NameLeader => 38,
            Self::LabelZone => 39,
            Self::Label => 40,
            Self::Leader(_) => 41,
            Self::LiveDimension | Self::Level => 42,
            Self::Flag(_) => 43,
            // In the order in which they are given: a line lies on its ground.
            Self::Shade | Self::Rule | Self::RuleHeavy | Self::Field => 44,
            Self::Title | Self::TitleSoft => 45,
            Self::KeySign(_) | Self::VerdictSign(_) | Self::Verdict => 46,
            Self::Example => 47,
            Self::ExampleText => 48,
            Self::ScaleDark | Self::ScaleLight => 49,
        }
    }

    /// Whether it stands around the view instead of in it: it is not cut off at the plan's edge.
    pub const fn is_furniture(self) -> bool {
        self.layer() >= 44
    }
}
