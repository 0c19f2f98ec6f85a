//! A target in its place: where it is meant to be, where it was put, and what it fills.

use baywright_geometry::face::Face;
use baywright_geometry::{DVec2, DVec3, PlanPose, Prism, Span, angle};

use super::above_floor;
use super::placed_rectangle;
use crate::model::{Arrangement, Datum, End, Id, Placement, StandSet, TargetHeight};

/// Where a target is: its frame on the floor, the height of its face's middle, its tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TargetPose {
    /// Bay from target.
    pub place: PlanPose,
    /// The middle of the face above the floor.
    pub height_mm: f64,
    /// Tipped: positive if the face looks down.
    pub pitch_rad: f64,
}

/// A part of what a target and its stand fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TargetPart {
    /// What is looked at: board, plate, reflector.
    Body,
    /// The stand's feet.
    Feet,
    /// The stand's mast.
    Mast,
}

/// A target in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedTarget {
    /// Its placement's name.
    pub id: Id,
    /// Where it belongs.
    pub meant: TargetPose,
    /// Where it stands.
    pub set: TargetPose,
    /// Its face where it stands; `None` only if its figures make no face.
    pub face: Option<Face>,
    /// What target and stand fill: the target's body first, then feet and mast.
    pub solids: Vec<Prism>,
    /// Which part each of them is.
    pub parts: Vec<TargetPart>,
    /// Whether it lies on the floor.
    pub lies: bool,
}

/// A mat is as thick as this at least, so that it has a body.
const THINNEST_MM: f64 = 1.0;

impl PlacedTarget {
    pub(super) fn new(
        placement: &Placement,
        set: StandSet,
        meant_at: PlanPose,
        carried_at: f64,
        sensor_height: f64,
    ) -> Self {
        let target = &placement.target;
        let lies = placement.height == TargetHeight::OnFloor;
        let height = match placement.height {
            TargetHeight::Absolute(height) => height + above_floor(placement.heights_from, carried_at),
            TargetHeight::FromSensor(offset) => carried_at + sensor_height + offset,
            TargetHeight::OnFloor => target.depth_mm.max(THINNEST_MM),
        };
        let meant = TargetPose { place: meant_at, height_mm: height, pitch_rad: 0.0 };
        let set = match set {
            StandSet::OnMark => meant,
            StandSet::At { place, height_mm: height, pitch_rad: pitch } => {
                TargetPose { place, height_mm: height, pitch_rad: pitch }
            }
        };
        let pitch = if lies { -std::f64::consts::FRAC_PI_2 } else { set.pitch_rad };
        let centre = set.place.origin().extend(set.height_mm);
        let face = Face::new(centre, set.place.heading(), pitch, target.width_mm, target.height_mm).ok();
        let (parts, solids) = solids(placement, &set, lies).into_iter().unzip();
        Self { id: placement.id.clone(), meant, set, face, solids, parts, lies }
    }

    /// The middle of the face where it stands.
    pub fn centre(&self) -> DVec3 {
        self.set.place.origin().extend(self.set.height_mm)
    }

    /// The middle of the face where it belongs.
    pub fn meant_centre(&self) -> DVec3 {
        self.meant.place.origin().extend(self.meant.height_mm)
    }
}

/// Vehicle from target, as the procedure wants it.
pub(super) fn vehicle_from_target(
    arrangement: &Arrangement,
    placement: &Placement,
    axis: &PlanPose,
    sensor_at: DVec3,
) -> PlanPose {
    let vehicle = &arrangement.vehicle;
    let stand_off = &placement.stand_off;
    let start = match &stand_off.from {
        Datum::FrontAxle => axis.origin(),
        Datum::RearAxle => *axis * DVec2::new(-arrangement.centreline().1, 0.0),
        Datum::Wheel(wheel) => arrangement.wheel_point(*wheel),
        Datum::Sensor => sensor_at.truncate(),
        Datum::FrontBumper => *axis * DVec2::new(vehicle.front(), 0.0),
        Datum::RearBumper => *axis * DVec2::new(vehicle.rear(), 0.0),
        // Validation refuses an unknown body point; the front axle stands in so that nothing here can fail.
        Datum::BodyPoint(id) => vehicle
            .body_points
            .iter()
            .find(|point| point.id == *id)
            .map_or(axis.origin(), |point| point.at.truncate()),
    };
    let heading = axis.heading() + stand_off.bearing_rad;
    let away = angle::direction(heading);
    let end = start + away * stand_off.distance_mm + away.perp() * stand_off.aside_mm;
    // Squarely back along the stand-off, then turned as the procedure says.
    let facing = heading + std::f64::consts::PI + placement.turned_rad;
    let face = match stand_off.to {
        End::Face => end,
        End::ReflectorCentre => end + angle::direction(facing) * placement.target.centre_behind_mm,
    };
    PlanPose::new(face, angle::wrapped(facing))
}

/// What target and stand fill: the target's body, the feet, the mast.
pub(super) fn solids(placement: &Placement, set: &TargetPose, lies: bool) -> Vec<(TargetPart, Prism)> {
    let target = &placement.target;
    let half_width = target.width_mm * 0.5;
    let depth = target.depth_mm.max(THINNEST_MM);
    let body = if lies {
        let half_length = target.height_mm * 0.5;
        (DVec2::new(-half_length, -half_width), DVec2::new(half_length, half_width), 0.0, depth)
    } else {
        let half_height = target.height_mm * 0.5;
        let bottom = (set.height_mm - half_height).max(0.0);
        (DVec2::new(-depth, -half_width), DVec2::new(0.0, half_width), bottom, set.height_mm + half_height)
    };
    let (low, high, bottom, top) = body;
    let mut solids = Vec::with_capacity(3);
    if let (Some(outline), Ok(span)) = (placed_rectangle(low, high, &set.place), Span::new(bottom, top)) {
        solids.push((TargetPart::Body, Prism::new(outline, span)));
    }
    if let Some(stand) = &target.stand {
        if let Ok(span) = Span::new(0.0, stand.base_height_mm) {
            solids.push((TargetPart::Feet, Prism::new(stand.base.placed(&set.place), span)));
        }
        let half = DVec2::splat(stand.mast_mm * 0.5);
        let middle = DVec2::new(-stand.mast_behind_mm, 0.0);
        let mast = placed_rectangle(middle - half, middle + half, &set.place);
        if let (Some(outline), Ok(span)) = (mast, Span::new(0.0, stand.top_mm.max(set.height_mm))) {
            solids.push((TargetPart::Mast, Prism::new(outline, span)));
        }
    }
    solids
}
