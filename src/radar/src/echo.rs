//! One echo of one thing, as the sensor gets it.

use baywright_geometry::{DVec3, Face, Pose, Wavelength};

use crate::cylinder::{self, Cylinder};
use crate::dihedral::{self, Dihedral};
use crate::face;
use crate::level::{Band, Bearing, Received, polarised_db};
use crate::material::{Reach, Surface};
use crate::seen::Seen;
use crate::sphere;
use crate::trihedral::{self, Trihedral};

/// An ideal shape that stands for a thing, in the bay's frame, mm.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A flat rectangle.
    Face(Face),
    /// A column, a drum, a pipe.
    Cylinder(Cylinder),
    /// A ball.
    Sphere {
        /// Its middle.
        middle: DVec3,
        /// Its radius, mm.
        radius_mm: f64,
    },
    /// Two faces at a right angle.
    Dihedral(Dihedral),
    /// A corner reflector.
    Trihedral(Trihedral),
}

/// The sensor as a wave knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Eye {
    /// Where it is and where it looks.
    pub bay_from_sensor: Pose,
    /// Its wavelength.
    pub wave: Wavelength,
    /// How its electric field is tilted from the sensor's own up, radians, anticlockwise to who looks along with it. `None` if the
    /// profile does not say.
    pub tilt: Option<f64>,
}

/// What comes back of one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Echo {
    /// How far it is, mm.
    pub range_mm: f64,
    /// From where most of it comes, in the bay's frame, mm.
    pub at: DVec3,
    /// The direction of that as the sensor names it.
    pub bearing: Bearing,
    /// Whether it is a mirror's or a corner's echo, and not what rims send back beside one.
    pub is_spot_on: bool,
    /// The echo area at that distance, dBsm: of the shape and its surface, both polarisations together.
    pub sigma_dbsm: Band,
    /// The least and the most of the power that comes back as it was sent, 0 to 1.
    pub co_polar: Band,
    /// Whether the surface's figures were measured at this frequency.
    pub reach: Reach,
    /// Whether the surface's figures are an estimate of our own.
    pub is_estimate: bool,
}

/// The echo of a thing for a sensor: its shape's at the distance at which it stands, less what its surface does not reflect at each
/// reflection. Levels of ideal shapes; a thing that is bent, ribbed or dented sends back otherwise, mostly less where this says
/// much and more where it says little. What hides it is not asked here.
///
/// `None` if the shape sends nothing straight back to where the sensor stands or has no figure there (behind a face, within a drum,
/// too near), or the surface is unknown.
pub fn echo(shape: &Shape, surface: &Surface, eye: &Eye) -> Option<Echo> {
    let (sensor, wave) = (eye.bay_from_sensor.origin(), eye.wave);
    let seen = seen(shape, sensor, wave)?;
    let mut sigma_dbsm = seen.sigma_dbsm;
    let (mut reach, mut is_estimate) = (Reach::Covers, false);
    for incidence in &seen.incidences {
        let reflected = surface.reflected(*incidence, wave)?;
        sigma_dbsm = sigma_dbsm.plus(&reflected.db)?;
        reach = reach.max(reflected.reach);
        is_estimate |= reflected.is_estimate;
    }
    Some(Echo {
        range_mm: seen.range_mm,
        at: seen.at,
        bearing: Bearing::of(seen.at - sensor, &eye.bay_from_sensor),
        is_spot_on: seen.is_spot_on,
        sigma_dbsm,
        co_polar: co_polar(shape, &seen, eye)?,
        reach,
        is_estimate,
    })
}

/// What the shape sends back as an ideal conductor.
pub fn seen(shape: &Shape, sensor: DVec3, wave: Wavelength) -> Option<Seen> {
    match shape {
        Shape::Face(of) => face::echo(of, sensor, wave),
        Shape::Cylinder(of) => cylinder::echo(of, sensor, wave),
        Shape::Sphere { middle, radius_mm } => sphere::echo(*middle, *radius_mm, sensor, wave),
        Shape::Dihedral(of) => dihedral::echo(of, sensor, wave),
        Shape::Trihedral(of) => trihedral::echo(of, sensor, wave),
    }
}

/// Only two faces that meet turn a polarisation: by twice its tilt against their edge.
fn co_polar(shape: &Shape, seen: &Seen, eye: &Eye) -> Option<Band> {
    let Shape::Dihedral(of) = shape else { return Band::of(1.0) };
    let Some(tilt) = eye.tilt else { return Band::between(0.0, 1.0) };
    let pose = &eye.bay_from_sensor;
    let ray = (seen.at - pose.origin()).try_normalize()?;
    let (sin, cos) = libm::sincos(tilt);
    // Up turned anticlockwise goes to the left for who looks along.
    let field = pose.up() * cos + pose.left() * sin;
    let across = |v: DVec3| v - ray * v.dot(ray);
    let (field, edge) = (across(field), across(of.edge));
    let between = libm::atan2(field.cross(edge).length(), field.dot(edge));
    Band::of(dihedral::co_polar(between))
}

impl Echo {
    /// As the law of levels takes it ([`crate::level::against`]), for a sensor at `sensor` that receives the other polarisation so
    /// much lower, with what is lost on both ways together (what hides it, a cover), dB. `None` for no number.
    pub fn received(&self, sensor: DVec3, isolation_db: Band, lost_db: Band) -> Option<Received> {
        let [low, high] =
            [self.co_polar.low(), self.co_polar.high()].map(|share| polarised_db(share, isolation_db));
        let towards = self.at - sensor;
        Some(Received {
            sigma_dbsm: self.sigma_dbsm,
            out_mm: self.range_mm,
            back_mm: self.range_mm,
            departs: towards,
            comes_from: towards,
            lost_db,
            polarised_db: low?.around(&high?),
        })
    }
}
