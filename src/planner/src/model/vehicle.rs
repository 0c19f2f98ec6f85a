//! A vehicle profile.

pub use baywright_geometry::marks::Wheel;
use baywright_geometry::{DVec2, DVec3};

use super::assumed::Assumed;
use super::screw::Screws;
use super::{Aiming, BodySolids, Id, Provenance};

/// The body class, from which what was not entered is assumed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum VehicleClass {
    /// A small hatchback.
    SmallHatchback,
    /// A saloon.
    Saloon,
    /// An estate.
    Estate,
    /// A tall, off-road styled car.
    TallCar,
    /// A van.
    Van,
    /// A pickup.
    Pickup,
    /// A people carrier.
    PeopleCarrier,
    /// Any other.
    Other,
}

/// A named point of the body, in the vehicle frame.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyPoint {
    /// Badge, bumper corner, sensor edge ...
    pub id: Id,
    /// Where it is, vehicle frame.
    pub at: DVec3,
}

/// The door mirrors: where they stick out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mirrors {
    /// Width over the mirrors.
    pub width_mm: f64,
    /// The mirrors' middle, ahead of the front axle (negative: behind it).
    pub ahead_mm: f64,
    /// The mirrors' middle above the ground.
    pub height_mm: f64,
}

/// How much a sensor sees, as half angles either side of its boresight, radians, each in (0, π].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldOfView {
    /// Left and right.
    pub azimuth_half_rad: f64,
    /// Up and down.
    pub elevation_half_rad: f64,
}

/// A radar's figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radar {
    /// Carrier frequency, hertz.
    pub frequency_hz: f64,
    /// Bandwidth, hertz.
    pub bandwidth_hz: f64,
    /// Full width of the beam between its -3 dB points, left to right, radians.
    pub beam_azimuth_rad: f64,
    /// The same, up and down.
    pub beam_elevation_rad: f64,
}

/// A camera's figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Camera {
    /// Pixels across its picture.
    pub pixels_across: u32,
    /// Pixels from top to bottom.
    pub pixels_down: u32,
}

/// What kind of sensor it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SensorKind {
    /// Looks ahead, by radar.
    ForwardRadar(Radar),
    /// Looks out of a bumper corner, by radar.
    CornerRadar(Radar),
    /// Looks ahead through the windscreen.
    ForwardCamera(Camera),
    /// One of the cameras that together look all round.
    SurroundCamera(Camera),
    /// Looks by laser light.
    Lidar,
}

impl SensorKind {
    /// The radar's figures, if it is one.
    pub const fn radar(&self) -> Option<&Radar> {
        match self {
            Self::ForwardRadar(radar) | Self::CornerRadar(radar) => Some(radar),
            _ => None,
        }
    }

    /// Whether it is a camera.
    pub const fn is_camera(&self) -> bool {
        matches!(self, Self::ForwardCamera(_) | Self::SurroundCamera(_))
    }
}

/// How the sensor's aim is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Adjusted {
    /// By screws.
    Screw,
    /// By shims.
    Shim,
    /// By the car's own software.
    Software,
    /// Not at all: it is only checked.
    NotAtAll,
}

/// A point of a sensor that a height is counted from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum SensorPoint {
    /// Its centre: the mounting point.
    #[default]
    Centre,
    /// Its lower edge.
    LowerEdge,
    /// Its upper edge.
    UpperEdge,
    /// A line that is marked on it.
    Line,
}

impl SensorPoint {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Centre, Self::LowerEdge, Self::UpperEdge, Self::Line];
}

/// How high a sensor's edges and a line marked on it lie, mm from its centre; `None` where nobody entered it. They move with the
/// sensor.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Edges {
    /// The lower edge below the centre, positive.
    pub lower_below_mm: Option<f64>,
    /// The upper edge above the centre, positive.
    pub upper_above_mm: Option<f64>,
    /// The line above the centre; negative below it.
    pub line_above_mm: Option<f64>,
}

impl Edges {
    /// How high a point lies above the centre, mm, negative below it; `None` where nobody entered it.
    pub fn above_centre_mm(&self, point: SensorPoint) -> Option<f64> {
        match point {
            SensorPoint::Centre => Some(0.0),
            SensorPoint::LowerEdge => self.lower_below_mm.map(|below| -below),
            SensorPoint::UpperEdge => self.upper_above_mm,
            SensorPoint::Line => self.line_above_mm,
        }
    }
}

/// A sensor of the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensor {
    /// Its name, unique in the profile.
    pub id: Id,
    /// What it is.
    pub kind: SensorKind,
    /// Its mounting point, which is its centre, vehicle frame.
    pub at: DVec3,
    /// Where its edges lie, from there.
    pub edges: Edges,
    /// Boresight azimuth in the vehicle frame, positive left.
    pub azimuth_rad: f64,
    /// Boresight elevation, positive up.
    pub elevation_rad: f64,
    /// What it sees.
    pub view: FieldOfView,
    /// How it is adjusted.
    pub adjusted: Adjusted,
    /// Its screws, if it is adjusted by some and they are known; else they say nothing.
    pub screws: Screws,
    /// Where its figures come from.
    pub provenance: Provenance,
}

impl Sensor {
    /// A forward camera that sees less than this, left to right and top to bottom, has a flat picture with straight edges.
    /// Wider lenses bend the picture (common practice, no source).
    pub const FLAT_BELOW_RAD: f64 = 170.0 * std::f64::consts::PI / 180.0;

    /// Whether it is a camera whose picture is a rectangle in the plane of the picture: `|y / x|` and `|z / x|` in the sensor
    /// frame are bounded, ahead of it.
    pub fn has_flat_picture(&self) -> bool {
        let widest = 2.0 * self.view.azimuth_half_rad.max(self.view.elevation_half_rad);
        matches!(self.kind, SensorKind::ForwardCamera(_)) && widest < Self::FLAT_BELOW_RAD
    }
}

/// A vehicle profile: figures of one kind of car, in the vehicle frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Vehicle {
    /// The profile's name for files: its file's stem.
    pub id: Id,
    /// The name on the screen.
    pub name: String,
    /// Body class.
    pub class: VehicleClass,
    /// Overall length.
    pub length_mm: f64,
    /// Width of the body without mirrors.
    pub width_mm: f64,
    /// The door mirrors.
    pub mirrors: Mirrors,
    /// Overall height above the plane that carries the wheels.
    pub height_mm: f64,
    /// Front axle to rear axle.
    pub wheelbase_mm: f64,
    /// Between the middles of the front tyres.
    pub track_front_mm: f64,
    /// Between the middles of the rear tyres.
    pub track_rear_mm: f64,
    /// Front axle to foremost point.
    pub overhang_front_mm: f64,
    /// Rear axle to rearmost point.
    pub overhang_rear_mm: f64,
    /// Across a tyre, seen from the side.
    pub tyre_diameter_mm: f64,
    /// Width of a tyre; of the front ones where the rear ones differ.
    pub tyre_width_mm: f64,
    /// Width of a rear tyre, where it differs.
    pub tyre_width_rear_mm: Option<f64>,
    /// Under the body between the axles.
    pub ground_clearance_mm: f64,
    /// Ride heights at the four arches (wheel arch edge above the wheel's middle), in [`Wheel::ALL`]'s order, if given.
    pub ride_heights: Option<[f64; 4]>,
    /// How far each of them may be off on a car that is aimed, mm either way, if its maker says.
    pub ride_height_off_mm: Option<f64>,
    /// Outline from above, vehicle frame.
    pub outline_top: Vec<DVec2>,
    /// Outline from the side: x ahead of the front axle, y up from the ground.
    pub outline_side: Vec<DVec2>,
    /// Figures that were not entered but assumed.
    pub assumed: Vec<Assumed>,
    /// Named points of the body.
    pub body_points: Vec<BodyPoint>,
    /// Its sensors.
    pub sensors: Vec<Sensor>,
    /// The aimings of its sensors.
    pub aimings: Vec<Aiming>,
    /// Where the figures of the body come from.
    pub provenance: Provenance,
    /// The solids that the body fills; read by [`Self::solids`], made from the outlines by [`Self::make_solids`].
    pub body: BodySolids,
}

impl Vehicle {
    /// The point of the carrying plane under the middle of a tyre, vehicle frame.
    pub fn wheel_point(&self, wheel: Wheel) -> DVec2 {
        let (x, track) = if wheel.is_front() {
            (0.0, self.track_front_mm)
        } else {
            (-self.wheelbase_mm, self.track_rear_mm)
        };
        DVec2::new(x, if wheel.is_left() { track * 0.5 } else { -track * 0.5 })
    }

    /// The width of a wheel's tyre.
    pub fn tyre_width(&self, wheel: Wheel) -> f64 {
        self.tyre_width_rear_mm.filter(|_| !wheel.is_front()).unwrap_or(self.tyre_width_mm)
    }

    /// The foremost x of the body.
    pub fn front(&self) -> f64 {
        self.overhang_front_mm
    }

    /// The rearmost x of the body.
    pub fn rear(&self) -> f64 {
        -(self.wheelbase_mm + self.overhang_rear_mm)
    }
}
