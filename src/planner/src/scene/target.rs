//! A target in its place: where it is meant to be, where it was put, and what it fills.

use baywright_geometry::face::Face;
use baywright_geometry::marks::{Construction, Givens, lay};
use baywright_geometry::{DVec2, DVec3, PlanPose, Prism, Span, angle};

use super::placed_rectangle;
use crate::model::{Arrangement, Datum, End, Id, Placement, StandSet, Target, TargetHeight, Wheel};

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
    /// Where on the floor its stand-off starts, bay frame.
    pub starts_at: DVec2,
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

/// How thick a target is, from its face to its back, mm: of a mat, how high its face lies above the floor.
pub(super) fn thickness(target: &Target) -> f64 {
    target.depth_mm.max(THINNEST_MM)
}

impl PlacedTarget {
    pub(super) fn new(
        placement: &Placement,
        set: StandSet,
        starts_at: DVec2,
        meant_at: PlanPose,
        meant_height_mm: f64,
    ) -> Self {
        let target = &placement.target;
        let lies = placement.height == TargetHeight::OnFloor;
        let meant = TargetPose { place: meant_at, height_mm: meant_height_mm, pitch_rad: 0.0 };
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
        Self { id: placement.id.clone(), starts_at, meant, set, face, solids, parts, lies }
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

/// Where on the floor a stand-off starts, vehicle frame.
pub(super) fn starts_at(
    arrangement: &Arrangement,
    placement: &Placement,
    axis: &PlanPose,
    sensor_at: DVec3,
) -> DVec2 {
    let vehicle = &arrangement.vehicle;
    match &placement.stand_off.from {
        Datum::FrontAxle => axis.origin(),
        Datum::RearAxle => *axis * DVec2::new(-arrangement.centreline().1, 0.0),
        Datum::Wheel(wheel) => arrangement.wheel_point(*wheel),
        Datum::Sensor => sensor_at.truncate(),
        Datum::FrontBumper => *axis * DVec2::new(vehicle.front(), 0.0),
        Datum::RearBumper => *axis * DVec2::new(vehicle.rear(), 0.0),
        // Validation refuses an unknown body point, and spots that are not laid; the front axle stands in so that nothing here
        // can fail.
        Datum::BodyPoint(id) => vehicle
            .body_points
            .iter()
            .find(|point| point.id == *id)
            .map_or(axis.origin(), |point| point.at.truncate()),
        Datum::FrontSpots => across_front_spots(arrangement, axis).unwrap_or(axis.origin()),
    }
}

/// A second point on the axis is so far ahead of its first, mm: any length will do.
const ALONG_AXIS_MM: f64 = 1_000.0;

/// Where the axis crosses the line through the spots outboard of the front tyres, vehicle frame; `None` where they are not laid.
fn across_front_spots(arrangement: &Arrangement, axis: &PlanPose) -> Option<DVec2> {
    let spots = arrangement.aiming.front_spots()?;
    let [left, right] = spots.map(|at| arrangement.aiming.mark_plan.get(at).map(|step| step.construction));
    let on_axis = [axis.origin(), *axis * DVec2::new(ALONG_AXIS_MM, 0.0)];
    let plan = [
        left?,
        right?,
        Construction::BodyPoint { point: 0 },
        Construction::BodyPoint { point: 1 },
        Construction::Crossing { first: (0, 1), second: (2, 3) },
    ];
    let wheels = Wheel::ALL.map(|wheel| arrangement.wheel_point(wheel));
    let widths = Wheel::ALL.map(|wheel| arrangement.vehicle.tyre_width(wheel));
    let ahead = arrangement.centreline().0.forward();
    let givens = Givens::new(wheels, ahead, widths, on_axis.to_vec(), Vec::new()).ok()?;
    lay(&plan, &givens).pop()?.ok()
}

/// Vehicle from target, as the procedure wants it, from where its stand-off starts.
pub(super) fn vehicle_from_target(placement: &Placement, axis: &PlanPose, start: DVec2) -> PlanPose {
    let stand_off = &placement.stand_off;
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
    let depth = thickness(target);
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

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::validate;

    /// The test car with a sensor of which everything is known, and its target's height counted from a point of it.
    fn by(point: SensorPoint, offset_mm: f64) -> Arrangement {
        let mut arrangement = clear();
        let edges =
            Edges { lower_below_mm: Some(45.0), upper_above_mm: Some(60.0), line_above_mm: Some(-12.0) };
        arrangement.sensor.edges = edges;
        arrangement.vehicle.sensors[0].edges = edges;
        arrangement.aiming.placements[0].height = TargetHeight::FromSensor { point, offset_mm };
        arrangement.vehicle.aimings[0] = arrangement.aiming.clone();
        arrangement
    }

    fn height(arrangement: &Arrangement) -> f64 {
        assess(arrangement).scene.targets[0].meant.height_mm
    }

    /// The sensor's centre is 500 mm up: its edges are at 455 and 560, its line at 488.
    #[test]
    fn a_height_counts_from_the_point_that_is_meant() {
        for (point, up) in [
            (SensorPoint::Centre, 500.0),
            (SensorPoint::LowerEdge, 455.0),
            (SensorPoint::UpperEdge, 560.0),
            (SensorPoint::Line, 488.0),
        ] {
            for offset in [0.0, 30.0, -30.0] {
                let mut arrangement = by(point, offset);
                assert_eq!(validate::arrangement(&arrangement), []);
                assert_eq!(height(&arrangement), up + offset, "{point:?}");
                // The sensor that sits 20 mm lower on this car takes its edges with it; so do runways.
                arrangement.on_this_car.sensor_at = Some(DVec3::new(800.0, 0.0, 480.0));
                assert_eq!(height(&arrangement), up + offset - 20.0, "{point:?}");
                arrangement.bay.runways = raised().bay.runways;
                arrangement.on_runways = raised().on_runways;
                assert_eq!(height(&arrangement), up + offset + 380.0, "{point:?}");
            }
        }
        // The sensor looks from its centre all the same: sight and field of view are from there.
        assert_eq!(assess(&by(SensorPoint::LowerEdge, 0.0)).scene.sensor().z, 500.0);
    }

    /// The middle of the face is 30 mm above the lower edge, so 485 mm up: a stand that goes down to 486 is too tall, and one
    /// that stands at the centre's height is 15 mm off.
    #[test]
    fn what_is_asked_of_the_stand_is_of_that_height() {
        let mut arrangement = by(SensorPoint::LowerEdge, 30.0);
        none(&arrangement, Code::StandReach);
        arrangement.aiming.placements[0].target.stand.as_mut().unwrap().lowest_mm = Some(486.0);
        check(&arrangement, Code::StandReach, Severity::Stops, Some(485.0));
        let mut arrangement = by(SensorPoint::LowerEdge, 30.0);
        arrangement.aiming.placements[0].tolerance.height_mm = Some(10.0);
        let place = assess(&arrangement).scene.targets[0].meant.place;
        arrangement.stands[0] = StandSet::At { place, height_mm: 500.0, pitch_rad: 0.0 };
        check(&arrangement, Code::StandOffMark, Severity::Stops, Some(15.0));
        // 15 degrees down from the centre to a target 4 m off: 1072 mm. What is further down is not seen, whatever it counts from.
        let mut arrangement = by(SensorPoint::UpperEdge, 0.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(5.0);
        // 60 mm up at 4 m, and the face 250 mm to either side: 310 mm of the 350 that 5 degrees are.
        none(&arrangement, Code::FieldOfView);
        arrangement.aiming.placements[0].height =
            TargetHeight::FromSensor { point: SensorPoint::UpperEdge, offset_mm: 60.0 };
        assert!(!of(&assess(&arrangement), Code::FieldOfView).is_empty(), "370 mm");
    }

    /// Nothing stands in for an edge that nobody entered.
    #[test]
    fn a_point_that_is_not_known_is_a_fault() {
        for point in [SensorPoint::LowerEdge, SensorPoint::UpperEdge, SensorPoint::Line] {
            let mut arrangement = by(point, 0.0);
            arrangement.sensor.edges = Edges::default();
            arrangement.vehicle.sensors[0].edges = Edges::default();
            assert_eq!(validate::arrangement(&arrangement).len(), 1, "{point:?}");
        }
    }

    /// The test car with its stand-off from the front spots, its plate's mark left to the stand-off.
    fn from_spots(from: Datum) -> Arrangement {
        let mut arrangement = clear();
        let own = &mut arrangement.aiming.placements[0];
        own.stand_off.from = from;
        own.stand_off.distance_mm = 4_000.0;
        arrangement
    }

    fn starts_at(arrangement: &Arrangement) -> DVec2 {
        let scene = assess(arrangement).scene;
        scene.bay_from_vehicle.inverse() * scene.targets[0].starts_at
    }

    /// Of a square car the line through the spots is the axle, however far outboard they lie.
    #[test]
    fn the_front_spots_of_a_square_car_are_its_axle() {
        for axis in [ReferenceAxis::GeometricCentreline, ReferenceAxis::ThrustLine] {
            for outboard in [150.0, 400.0] {
                let [mut axle, mut spots] = [Datum::FrontAxle, Datum::FrontSpots].map(from_spots);
                for own in [&mut axle, &mut spots] {
                    own.aiming.axis = axis;
                    own.on_this_car.rear_toe = RearToe::of(0.0, angle::radians(0.2));
                    own.aiming.mark_plan[2].construction =
                        Construction::Outboard { wheel: Wheel::FrontLeft, distance: outboard };
                }
                // The thrust line's origin is a wheelbase along it: the crossing is 2600 / cos 0.1 degrees along it.
                let along = match axis {
                    ReferenceAxis::GeometricCentreline => 0.0,
                    ReferenceAxis::ThrustLine => 2_600.0 / libm::cos(angle::radians(0.1)) - 2_600.0,
                };
                let place = |own: &Arrangement| assess(own).scene.targets[0].meant.place.origin();
                for at in [starts_at, place] {
                    assert!((at(&spots).distance(at(&axle)) - along).abs() < 1e-9, "{axis:?}, {outboard}");
                }
            }
        }
    }

    /// By hand: the front wheels stand at (10, 770) and (-10, -770), the rear ones squarely: the centreline is the car's own. Tyres
    /// of 200 mm and spots 150 mm out lie at (10, 1020) and (-10, -1020): the line crosses the centreline at x = 0, the axle.
    /// With the left spots 350 mm out, at (10, 1220), it does at 10 - 20 * 1220 / 2240 = -0.892857 mm.
    #[test]
    fn the_front_spots_of_a_car_that_is_not_square_are_not() {
        let mut arrangement = from_spots(Datum::FrontSpots);
        let wheels = Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
        let [left, right, rear_left, rear_right] = wheels;
        let askew = DVec2::new(10.0, 0.0);
        arrangement.on_this_car.wheels = Some([left + askew, right - askew, rear_left, rear_right]);
        assert_eq!((left.y, arrangement.vehicle.tyre_width_mm), (770.0, 200.0));
        assert!(starts_at(&arrangement).length() < 1e-9);
        // Spots and tapes: both lines prolonged by the same from the front spots, joined, lead there too.
        for (step, from) in [(4, 0), (5, 1)] {
            arrangement.aiming.mark_plan[step].construction =
                Construction::Prolong { from, through: from + 2, reach: Reach::Length(4_000.0) };
        }
        none(&arrangement, Code::MarkOffTarget);
        arrangement.aiming.mark_plan[2].construction =
            Construction::Outboard { wheel: Wheel::FrontLeft, distance: 350.0 };
        let at = starts_at(&arrangement);
        assert!(at.distance(DVec2::new(-0.892_857_142_857, 0.0)) < 1e-9, "{at}");
        let face = assess(&arrangement).scene.targets[0].meant.place.origin();
        let ahead = arrangement.parked.inverse() * face;
        assert!(ahead.distance(at + DVec2::new(4_000.0, 0.0)) < 1e-9, "{ahead}");
        // From the axle it is elsewhere; the same spots on the other side are as far off the other way.
        arrangement.aiming.placements[0].stand_off.from = Datum::FrontAxle;
        assert!(starts_at(&arrangement).length() < 1e-9);
    }

    /// A thrust line leaves the middle of the rear axle, 2600 mm behind, at an angle a to the left: y = (x + 2600) tan a. The
    /// line through spots at (30, 1020) and (-30, -1020) is x = y / 34. They meet at y = 2600 tan a / (1 - tan a / 34).
    #[test]
    fn a_thrust_line_crosses_the_front_spots_aside_of_the_centreline() {
        let mut arrangement = from_spots(Datum::FrontSpots);
        let wheels = Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
        let [left, right, rear_left, rear_right] = wheels;
        let askew = DVec2::new(30.0, 0.0);
        arrangement.on_this_car.wheels = Some([left + askew, right - askew, rear_left, rear_right]);
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        // Toe in of the rear right wheel alone by 0.4 degrees pushes the car 0.2 degrees to the left.
        arrangement.on_this_car.rear_toe = RearToe::of(0.0, angle::radians(0.4));
        let tan = libm::tan(angle::radians(0.2));
        let aside = 2_600.0 * tan / (1.0 - tan / 34.0);
        let at = starts_at(&arrangement);
        assert!(at.distance(DVec2::new(aside / 34.0, aside)) < 1e-9, "{at}");
    }

    #[test]
    fn spots_that_are_not_laid_are_a_fault() {
        let mut arrangement = from_spots(Datum::FrontSpots);
        arrangement.vehicle.aimings[0] = arrangement.aiming.clone();
        assert_eq!(validate::arrangement(&arrangement), []);
        // The step that lays one stays as long as the stand-off counts from it.
        assert!(arrangement.aiming.remove_mark(2).is_err());
        arrangement.aiming.mark_plan[2].construction = Construction::WheelPoint { wheel: Wheel::FrontLeft };
        arrangement.vehicle.aimings[0] = arrangement.aiming.clone();
        let faults = validate::arrangement(&arrangement);
        assert_eq!(faults.len(), 1, "{faults:?}");
        assert_eq!(faults[0].field, "vehicle.aimings[0].placements[0].stand_off.from");
    }
}
