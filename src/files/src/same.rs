//! Words that file and model share one to one.

use baywright_planner::model as m;

use crate::source::SourceFile;
use crate::{aiming as a, layout as l, profile as p, triggers as t};

/// Both ways, every variant named: adding one to either side does not compile until it stands here.
macro_rules! same {
    ($file:ty, $model:ty: $($name:ident),+ $(,)?) => {
        impl From<$file> for $model {
            fn from(file: $file) -> Self {
                match file { $(<$file>::$name => Self::$name),+ }
            }
        }
        impl From<$model> for $file {
            fn from(model: $model) -> Self {
                match model { $(<$model>::$name => Self::$name),+ }
            }
        }
    };
}

same!(p::ClassFile, m::VehicleClass: SmallHatchback, Saloon, Estate, TallCar, Van, Pickup, PeopleCarrier, Other);
same!(p::SensorPartFile, m::assumed::SensorPart: Ahead, Aside, Height, Boresight, View, Kind, Adjusted);
same!(
    p::AimingPartFile, m::assumed::AimingPart: StandOff, Target, TargetHeight, PlaceTolerance, Azimuth, Elevation,
    ClearAside, ClearAlong, Floor, WorkingRoom, MarkPlan, Axis, ClearHeight
);
same!(p::ZonePartFile, m::assumed::ZonePart: Outline, Heights);
same!(p::AdjustedFile, m::Adjusted: Screw, Shim, Software, NotAtAll);
same!(a::AxisFile, m::ReferenceAxis: GeometricCentreline, ThrustLine);
same!(a::WheelFile, m::Wheel: FrontLeft, FrontRight, RearLeft, RearRight);
same!(a::HandFile, baywright_planner::geometry::marks::WhichSide: Left, Right);
same!(a::TargetKindFile, m::TargetKind: CornerReflector, Plate, Board, Mat, ActiveDevice);
same!(a::EndFile, m::End: Face, ReflectorCentre);
same!(a::AlongFile, m::MeasuredAlong: Floor, Level);
same!(a::PointFile, m::SensorPoint: Centre, LowerEdge, UpperEdge, Line);
same!(a::HeightsFromFile, m::HeightsFrom: Floor, Wheels);
same!(a::VerticalFile, m::VerticalReference: Gravity, WheelsPlane);
same!(
    l::MaterialFile, m::Material: Steel, Aluminium, Mesh, CarBody, Foil, Concrete, Brick, Plasterboard, Wood, Glass,
    Plastic, Rubber, Cloth, Person, Unknown
);
same!(l::MetalFile, m::Metal: None, Frame, All, Unknown);
same!(l::OpeningKindFile, m::OpeningKind: RollerDoor, SwingDoor, Window, Gap);
same!(l::FloorFeatureKindFile, m::FloorFeatureKind: Drain, Pit, Joint);
same!(
    l::ThingKindFile, m::ThingKind: Cabinet, ToolChest, Bench, Shelf, Trolley, Column, LiftPost, LiftArm, Drum,
    ParkedCar, Fence, Bin, Person, Lamp, Heater, DoorTrack, Beam, Other
);
same!(l::EffortFile, m::Effort: OnePerson, TwoPeople, ForkLift, Fixed);
same!(l::KeepFreeKindFile, m::KeepFreeKind: Exit, Panel, Extinguisher);
same!(
    t::SensorGroupFile, m::SensorGroup: ForwardRadar, Lidar, ForwardCamera, FrontCornerRadar, RearCornerRadar,
    SurroundCamera
);

impl From<&SourceFile> for m::Provenance {
    fn from(file: &SourceFile) -> Self {
        match file {
            SourceFile::Example => Self::Example,
            SourceFile::NotGiven => Self::NotGiven,
            SourceFile::Maker { document, date } => {
                Self::Maker { document: document.clone(), date: date.map(|d| d.0) }
            }
            SourceFile::Measured { by, date } => Self::Measured { by: by.clone(), date: date.map(|d| d.0) },
            SourceFile::Published { source } => Self::Published { source: source.clone() },
        }
    }
}

impl From<&m::Provenance> for SourceFile {
    fn from(model: &m::Provenance) -> Self {
        let day = |date: &Option<jiff::civil::Date>| date.map(crate::figure::Day);
        match model {
            m::Provenance::Example => Self::Example,
            m::Provenance::NotGiven => Self::NotGiven,
            m::Provenance::Maker { document, date } => {
                Self::Maker { document: document.clone(), date: day(date) }
            }
            m::Provenance::Measured { by, date } => Self::Measured { by: by.clone(), date: day(date) },
            m::Provenance::Published { source } => Self::Published { source: source.clone() },
        }
    }
}

impl From<l::KnownFile> for m::Known {
    fn from(file: l::KnownFile) -> Self {
        match file {
            l::KnownFile::Taped => Self::Taped,
            l::KnownFile::ByEye => Self::ByEye,
            l::KnownFile::ByEyeOlder => Self::ByEyeOlder,
            l::KnownFile::Within { mm } => Self::Within(mm.0),
        }
    }
}

impl From<m::Known> for l::KnownFile {
    fn from(model: m::Known) -> Self {
        match model {
            m::Known::Taped => Self::Taped,
            m::Known::ByEye => Self::ByEye,
            m::Known::ByEyeOlder => Self::ByEyeOlder,
            m::Known::Within(mm) => Self::Within { mm: mm.into() },
        }
    }
}
