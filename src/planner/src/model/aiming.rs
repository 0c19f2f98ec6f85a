//! An aiming: one sensor by one procedure.

use std::collections::BTreeSet;

use baywright_geometry::marks::Construction;
use baywright_geometry::{Outline, Span};

use super::{Id, Metal, Provenance, SensorPoint, Wheel};

/// From where on the car a stand-off is measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Datum {
    /// The middle of the front axle.
    FrontAxle,
    /// The middle of the rear axle.
    RearAxle,
    /// One wheel's point on the ground.
    Wheel(Wheel),
    /// The sensor of this aiming.
    Sensor,
    /// The foremost point of the bumper, on the centreline.
    FrontBumper,
    /// The rearmost point of the bumper, on the centreline.
    RearBumper,
    /// A named body point.
    BodyPoint(Id),
    /// The line through the floor spots outboard of the two front tyres ([`Aiming::front_spots`]): where the reference axis
    /// crosses it. Where the car is square it is the front axle.
    FrontSpots,
}

/// To which part of the target a stand-off is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// The middle of the face.
    Face,
    /// The centre of a corner reflector, behind its mouth.
    ReflectorCentre,
}

/// How a stand-off is measured. On a level floor the two are one; on a floor that falls by 2 % they differ by
/// 0.2 mm a metre (1 - cos 1.15°). Lengths in plan are level lengths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredAlong {
    /// With the tape on the floor.
    Floor,
    /// Level.
    Level,
}

/// A distance from the car to the target, with both its ends named.
#[derive(Clone, Debug, PartialEq)]
pub struct StandOff {
    /// Where it starts.
    pub from: Datum,
    /// Where it ends.
    pub to: End,
    /// How long, positive.
    pub distance_mm: f64,
    /// In which direction in the vehicle frame, anticlockwise from the reference axis ahead.
    pub bearing_rad: f64,
    /// How far the target stands to the left of the line along `bearing` through `from`.
    pub aside_mm: f64,
    /// How it is measured.
    pub along: MeasuredAlong,
}

/// From which plane a height is given. They are one unless the car stands on runways.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HeightsFrom {
    /// The bay's floor.
    #[default]
    Floor,
    /// The plane that carries the wheels.
    Wheels,
}

impl HeightsFrom {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Floor, Self::Wheels];
}

/// At which height the middle of the target's face is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TargetHeight {
    /// Above the plane that the placement names.
    Absolute(f64),
    /// Above a point of the sensor.
    FromSensor {
        /// Which point; one of which the sensor says where it is.
        point: SensorPoint,
        /// How far above it, mm; negative below.
        offset_mm: f64,
    },
    /// The target lies on the floor, face up.
    OnFloor,
}

impl TargetHeight {
    /// So far above (negative: below) the sensor's centre, mm.
    pub const fn from_centre(offset_mm: f64) -> Self {
        Self::FromSensor { point: SensorPoint::Centre, offset_mm }
    }
}

/// Against what "upright" is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VerticalReference {
    /// The plumb line.
    Gravity,
    /// The plane that carries the wheels.
    WheelsPlane,
}

/// What kind of target it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TargetKind {
    /// Three plates that meet in a corner; aims by where it is.
    CornerReflector,
    /// A flat metal plate larger than its own mirror spot; aims by its squareness.
    Plate,
    /// A printed board.
    Board,
    /// A printed mat on the floor.
    Mat,
    /// An active device that answers a radar.
    ActiveDevice,
}

/// How errors of the target become errors of the aim: the larger of what the weights give, added without sign, so
/// that two errors are never assumed to cancel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AimError {
    /// Share of the angle under which the sensor sees the target's displacement (sideways or in height).
    pub by_place: f64,
    /// Share of the target's own turn (yaw or pitch).
    pub by_squareness: f64,
}

impl TargetKind {
    /// How much metal a target of this kind and its stand hold.
    pub const fn metal(self) -> Metal {
        match self {
            Self::CornerReflector | Self::Plate => Metal::All,
            Self::Board | Self::ActiveDevice => Metal::Unknown,
            Self::Mat => Metal::None,
        }
    }
}

impl AimError {
    /// A corner reflector: where it is counts, how it is turned does not.
    pub const PLACE: Self = Self { by_place: 1.0, by_squareness: 0.0 };
    /// A plate larger than its mirror spot: how it is turned counts, its place does not.
    pub const SQUARENESS: Self = Self { by_place: 0.0, by_squareness: 1.0 };
    /// Both count, in full: the more careful where a procedure does not say.
    pub const BOTH: Self = Self { by_place: 1.0, by_squareness: 1.0 };

    /// How a kind of target aims if nobody says. A board, whose procedure must say, counts both.
    pub const fn usual(kind: TargetKind) -> Self {
        match kind {
            TargetKind::CornerReflector | TargetKind::ActiveDevice | TargetKind::Mat => Self::PLACE,
            TargetKind::Plate => Self::SQUARENESS,
            TargetKind::Board => Self::BOTH,
        }
    }
}

/// What holds a target, in the target frame (x towards the sensor, origin under the middle of the face).
#[derive(Clone, Debug, PartialEq)]
pub struct Stand {
    /// The feet from above.
    pub base: Outline,
    /// How high the feet are.
    pub base_height_mm: f64,
    /// The mast's side, a square behind the target.
    pub mast_mm: f64,
    /// From the face back to the mast's middle.
    pub mast_behind_mm: f64,
    /// The top of the mast above the floor.
    pub top_mm: f64,
    /// How low the middle of a target's face can be set on it, above the floor, if known.
    pub lowest_mm: Option<f64>,
    /// How high.
    pub highest_mm: Option<f64>,
}

/// A target.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// What it is.
    pub kind: TargetKind,
    /// Width of the face (the aperture of a reflector).
    pub width_mm: f64,
    /// Height of the face; for a mat, its length away from the car.
    pub height_mm: f64,
    /// From the face to the back.
    pub depth_mm: f64,
    /// From the face back to the centre of a reflector; zero for others.
    pub centre_behind_mm: f64,
    /// How its errors become aim errors.
    pub error: AimError,
    /// What holds it; `None` for a mat.
    pub stand: Option<Stand>,
}

/// How near to its place a target must stand, as the procedure says; `None` where it says nothing. All positive.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlaceTolerance {
    /// Along the stand-off, mm either way.
    pub along_mm: Option<f64>,
    /// Across it, mm either way.
    pub across_mm: Option<f64>,
    /// In height, mm either way.
    pub height_mm: Option<f64>,
    /// Turned about the upright, radians either way.
    pub yaw_rad: Option<f64>,
    /// Tipped, radians either way.
    pub pitch_rad: Option<f64>,
}

/// One target at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// Its name within the aiming.
    pub id: Id,
    /// The target.
    pub target: Target,
    /// Where it goes.
    pub stand_off: StandOff,
    /// How high the middle of its face goes.
    pub height: TargetHeight,
    /// From which plane an absolute height is given.
    pub heights_from: HeightsFrom,
    /// Against what upright is judged.
    pub vertical: VerticalReference,
    /// Turned from squarely facing back along the stand-off, anticlockwise.
    pub turned_rad: f64,
    /// The mark that lies under the middle of the face.
    pub mark: Option<Id>,
    /// How near it must be.
    pub tolerance: PlaceTolerance,
    /// The placements that stand at the same time; `None` where nothing is said: mats stand together, all others in turn.
    pub with: Option<Vec<Id>>,
}

impl Placement {
    /// Whether two placements of an aiming stand at the same time: if either says so, or, where neither says anything, if
    /// both lie on the floor.
    pub fn stands_with(&self, other: &Self) -> bool {
        let names = |own: &Self, id: &Id| own.with.as_ref().is_some_and(|with| with.contains(id));
        match (&self.with, &other.with) {
            (None, None) => self.height == TargetHeight::OnFloor && other.height == TargetHeight::OnFloor,
            _ => names(self, &other.id) || names(other, &self.id),
        }
    }
}

/// The frame in which a keep-clear zone is drawn. Zones take only the heading of their frame; heights are from the
/// plane that the zone names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ZoneFrame {
    /// The vehicle frame.
    Vehicle,
    /// The sensor frame.
    Sensor,
    /// The frame of one placement's target.
    Target(Id),
}

/// What may not be in a keep-clear zone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Exclusion {
    /// Anything at all.
    Anything,
    /// Anything metal.
    Metal,
    /// Anything that sends back more than this, dBsm. It cannot be computed yet, so that whatever stands there needs
    /// care.
    Reflecting(f64),
    /// People.
    People,
    /// Sources of light.
    Light,
}

/// A volume and what may not be in it.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepClear {
    /// Its name within the aiming.
    pub id: Id,
    /// The frame it is given in.
    pub frame: ZoneFrame,
    /// Its outline in that frame.
    pub outline: Outline,
    /// Its heights.
    pub span: Span,
    /// From which plane they are given.
    pub heights_from: HeightsFrom,
    /// What may not be in it.
    pub excludes: Exclusion,
}

/// How the aim may be off and still be right, radians either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AimTolerance {
    /// Left or right.
    pub azimuth_rad: f64,
    /// Up or down.
    pub elevation_rad: f64,
}

/// What the procedure asks of what carries the car and its targets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorRequirement {
    /// Largest difference of level over wheels and target.
    pub level_mm: f64,
    /// How far the plane of the wheels may be nose down or nose up, radians either way, if the procedure says.
    pub pitch_rad: Option<f64>,
    /// The same for one side up.
    pub roll_rad: Option<f64>,
}

/// What the procedure asks of the car's alignment before anything is aimed; `None` where it says nothing. All positive.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AlignmentLimits {
    /// Largest thrust angle, radians either way.
    pub thrust_angle_rad: Option<f64>,
    /// Largest set-back of the front axle, mm either way.
    pub set_back_mm: Option<f64>,
}

/// What "straight ahead" means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReferenceAxis {
    /// From the middle of the rear wheel points to the middle of the front ones.
    GeometricCentreline,
    /// Where the rear wheels push the car.
    ThrustLine,
}

/// One named step of a mark plan. Marks refer to earlier ones by their position in the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkStep {
    /// The mark's name.
    pub id: Id,
    /// How it is found.
    pub construction: Construction,
}

/// One sensor by one procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Aiming {
    /// Its name within the profile.
    pub id: Id,
    /// The name on the screen.
    pub name: String,
    /// Which sensor.
    pub sensor: Id,
    /// The targets in their order.
    pub placements: Vec<Placement>,
    /// How the floor marks are laid.
    pub mark_plan: Vec<MarkStep>,
    /// How far the aim may be off.
    pub tolerance: AimTolerance,
    /// What must be kept clear.
    pub zones: Vec<KeepClear>,
    /// Whether the procedure was looked at and names no keep-clear zone; then there is none in `zones`. Else an aiming without
    /// zones is one whose zones nobody entered.
    pub names_no_zone: bool,
    /// What the floor must be, if the procedure says.
    pub floor: Option<FloorRequirement>,
    /// What is asked of the car's alignment before anything is aimed.
    pub alignment: AlignmentLimits,
    /// What "straight ahead" means.
    pub axis: ReferenceAxis,
    /// Room to walk and work all round the car, mm, 0 if it asks for none; `None` if it says nothing, so that the shop's own
    /// setting holds ([`super::Arrangement::working_room_mm`]).
    pub working_room_mm: Option<f64>,
    /// Things to have ready.
    pub have_ready: Vec<String>,
    /// Conditions to meet first.
    pub conditions: Vec<String>,
    /// Where its figures come from.
    pub provenance: Provenance,
}

impl Aiming {
    /// The points of the sensor, other than its centre, that the height of a target is counted from.
    pub fn sensor_points(&self) -> BTreeSet<SensorPoint> {
        let point = |own: &Placement| match own.height {
            TargetHeight::FromSensor { point, .. } => {
                Some(point).filter(|point| *point != SensorPoint::Centre)
            }
            TargetHeight::Absolute(_) | TargetHeight::OnFloor => None,
        };
        self.placements.iter().filter_map(point).collect()
    }

    /// Whether a mark of the plan is brought to the floor from a wheel's hub.
    pub fn plumbs_hubs(&self) -> bool {
        let is_hub = |step: &MarkStep| matches!(step.construction, Construction::WheelPoint { .. });
        self.mark_plan.iter().any(is_hub)
    }

    /// The steps of the mark plan that lay a spot outboard of the front left and of the front right tyre, by position, the first of
    /// each; `None` unless both are there.
    pub fn front_spots(&self) -> Option<[usize; 2]> {
        let spot = |of: Wheel| {
            let lays = |step: &MarkStep| matches!(step.construction, Construction::Outboard { wheel, .. } if wheel == of);
            self.mark_plan.iter().position(lays)
        };
        Some([spot(Wheel::FrontLeft)?, spot(Wheel::FrontRight)?])
    }
}

impl FloorRequirement {
    /// A floor of which nothing but this is asked.
    pub const fn level(level_mm: f64) -> Self {
        Self { level_mm, pitch_rad: None, roll_rad: None }
    }
}
