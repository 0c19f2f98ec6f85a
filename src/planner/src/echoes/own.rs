//! The sensor, and the target's own echo, against which all others are set.

use baywright_geometry::{DVec3, Face};
use baywright_radar::echo::{self, Eye, Shape};
use baywright_radar::level::{Band, Bearing, Known, Received, Sensor, SensorFault, mirrored_m2};
use baywright_radar::material::Surface;
use baywright_radar::trihedral::{Mouth, Trihedral};

use super::{Look, Untold};
use crate::model::{Placement, Radar, TargetKind};
use crate::scene::PlacedTarget;

/// The target's own echo.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnEcho {
    /// From where it comes, bay frame, mm.
    pub at: DVec3,
    /// How far that is from the sensor, mm.
    pub range_mm: f64,
    /// In which direction, in the sensor's frame.
    pub bearing: Bearing,
    /// Between these ranges, mm, the sensor may not tell an echo from it by its distance.
    pub cell_mm: (f64, f64),
    /// What of it is received.
    pub received: Received,
    shape: Shape,
}

/// The sensor as the profile has it; what it leaves open is taken over all that is usual.
///
/// # Errors
/// A figure that makes no sense.
pub(super) fn sensor(radar: &Radar) -> Result<Sensor, SensorFault> {
    Sensor::of(&Known {
        view_azimuth: Some(radar.beam_azimuth_rad),
        view_elevation: Some(radar.beam_elevation_rad),
        bandwidth_hz: Some(radar.bandwidth_hz),
        ..Known::default()
    })
}

/// The echo of the target itself.
///
/// # Errors
/// Why there is none to set others against.
pub(super) fn echo(placement: &Placement, placed: &PlacedTarget, look: &Look<'_>) -> Result<OwnEcho, Untold> {
    let eye = look.eye();
    let shape = shape(placement, placed, look.scene.sensor()).ok_or(Untold::Target)?;
    let found = echo::echo(&shape, &Surface::Metal, &eye).ok_or(Untold::OutOfReach)?;
    let sensor = look.scene.sensor();
    if look.room.direct(sensor, found.at).is_none() {
        return Err(Untold::OutOfReach);
    }
    let received =
        found.received(sensor, look.sensor.isolation_db, Band::NOTHING).ok_or(Untold::OutOfReach)?;
    let wide = look.sensor.widened_cell_mm().high();
    Ok(OwnEcho {
        at: found.at,
        range_mm: found.range_mm,
        bearing: found.bearing,
        cell_mm: (found.range_mm - wide, found.range_mm + wide),
        received,
        shape,
    })
}

/// The ideal shape of a target. A reflector's mouth is as wide as its opening: a triangle of side √2 times its inner edge.
fn shape(placement: &Placement, placed: &PlacedTarget, sensor: DVec3) -> Option<Shape> {
    let target = &placement.target;
    let face: &Face = placed.face.as_ref()?;
    match target.kind {
        TargetKind::Plate => Some(Shape::Face(face.clone())),
        TargetKind::CornerReflector => {
            let corner = face.centre() - face.normal() * target.centre_behind_mm;
            let edge_mm = target.width_mm / 2.0_f64.sqrt();
            let axis = if face.in_front(sensor) > 0.0 { face.normal() } else { return None };
            Trihedral::looking(corner, axis, edge_mm, Mouth::Triangular).map(Shape::Trihedral)
        }
        TargetKind::Board | TargetKind::Mat | TargetKind::ActiveDevice => None,
    }
}

impl OwnEcho {
    /// The echo area, dBsm, seen from so far away in another direction, a unit vector from the target; `None` where it turns its back.
    pub(super) fn seen_from(&self, towards: DVec3, far_mm: f64, eye: &Eye) -> Option<Band> {
        Some(echo::seen(&self.shape, self.at + towards * far_mm, eye.wave)?.sigma_dbsm)
    }

    /// The same where the wave leaves in another direction than it came from: taken for at most what comes straight back. A plate, which
    /// may send more into one such direction, is a mirror too.
    pub(super) fn aside(&self) -> Option<Band> {
        Band::between(f64::NEG_INFINITY, self.received.sigma_dbsm.high())
    }
}

/// The echo area of mirrors alone, half a way so long, mm: dBsm.
pub(super) fn mirrored_dbsm(range_mm: f64) -> f64 {
    10.0 * libm::log10(mirrored_m2(range_mm))
}
