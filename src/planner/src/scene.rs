//! Everything of an arrangement put in its place, in the bay frame: what the checks look at and the drawing draws.
//!
//! Heights are above the bay's floor. Nothing is judged here.

mod car;
mod doors;
mod target;

use baywright_geometry::locate::{Located, locate, locate_in};
use baywright_geometry::marks::{self, Givens, MarkFault, MayBeOff, Run, Sought};
use baywright_geometry::{
    Bounds, DVec2, DVec3, Outline, PlanPose, Polygon, Pose, Prism, Segment, Span, passes_through,
};

use crate::model::{
    Arrangement, Exclusion, HeightsFrom, Id, Placement, Sensor, SensorPoint, TargetHeight, Wheel, ZoneFrame,
};

pub use doors::Room;
pub use target::{PlacedTarget, TargetPart, TargetPose};

/// A thing in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedThing {
    /// The solid it fills.
    pub prism: Prism,
    /// The box around it in plan.
    pub bounds: Bounds,
    /// How well its place is known, mm either way.
    pub known_mm: f64,
}

/// A keep-clear zone in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedZone {
    /// Its name in the aiming.
    pub id: Id,
    /// The volume.
    pub prism: Prism,
    /// The box around it in plan.
    pub bounds: Bounds,
    /// What may not be in it.
    pub excludes: Exclusion,
    /// From which plane its heights were given.
    pub heights_from: HeightsFrom,
}

/// A floor mark in its place, or why there is none.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedMark {
    /// Its name.
    pub id: Id,
    /// Where it is, bay frame.
    pub at: Result<DVec2, MarkFault>,
    /// How high above the bay's floor what it lies on is, mm: 0, or the top of a runway that carries the car.
    pub lies_mm: f64,
}

/// A straight run of tape or light in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedRun {
    /// The mark it serves, by position.
    pub mark: usize,
    /// The run, bay frame.
    pub run: Run,
    /// How high above the bay's floor what its two ends lie on is, as [`PlacedMark::lies_mm`].
    pub lies_mm: [f64; 2],
}

impl PlacedRun {
    /// The heights that are to be free along it, mm, if so much over what it lies on is: from the lower end's plane on.
    pub fn free(&self, over_mm: f64) -> Option<Span> {
        let [from, to] = self.lies_mm;
        Span::new(from.min(to), from.max(to) + over_mm).ok()
    }
}

/// A distance between two marks, of which one lies higher.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// How much higher, mm.
    pub height_mm: f64,
    /// What a tape reads that is held from one to the other, mm.
    pub reads_mm: f64,
}

/// What a tape must read between two marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// One mark.
    pub from: Id,
    /// The other.
    pub to: Id,
    /// The distance between them, mm.
    pub distance_mm: f64,
}

/// Everything in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// The room, and what its open doors add to it.
    pub room: Room,
    /// Bay from vehicle.
    pub bay_from_vehicle: PlanPose,
    /// Height of the plane that carries the wheels.
    pub carried_at_mm: f64,
    /// The reference axis of the aiming: its origin is abreast of the front axle, its x axis is straight ahead.
    pub bay_from_axis: PlanPose,
    /// The solids that the car fills.
    pub car: Vec<Prism>,
    /// The box around the car in plan.
    pub car_bounds: Bounds,
    /// The wheel points, in [`Wheel::ALL`]'s order.
    pub wheels: [DVec2; 4],
    /// Where each tyre stands on the ground, in the same order.
    pub treads: Vec<Polygon>,
    /// The sensor: bay from sensor.
    pub bay_from_sensor: Pose,
    /// The things, in the bay's order.
    pub things: Vec<PlacedThing>,
    /// The targets, in the aiming's order.
    pub targets: Vec<PlacedTarget>,
    /// The keep-clear zones, in the aiming's order.
    pub zones: Vec<PlacedZone>,
    /// The floor marks, in the plan's order.
    pub marks: Vec<PlacedMark>,
    /// The straight runs that laying them takes.
    pub runs: Vec<PlacedRun>,
    /// What a tape must read between the floor marks.
    pub readings: Vec<Reading>,
}

impl Scene {
    /// Bay from the frame that a zone is given in; `None` for a target that is not there.
    pub fn bay_from_zone(&self, arrangement: &Arrangement, frame: &ZoneFrame) -> Option<PlanPose> {
        zone_frame(arrangement, &self.bay_from_vehicle, &self.bay_from_sensor, &self.targets, frame)
    }

    /// Puts everything in its place.
    pub fn of(arrangement: &Arrangement) -> Self {
        let bay_from_vehicle = arrangement.parked;
        let carried_at = car::carried_at(arrangement);
        let vehicle_from_axis = car::reference_axis(arrangement);
        let sensor_at = sensor_on_car(arrangement);
        let bay_from_sensor = sensor_pose(&arrangement.sensor, sensor_at, &bay_from_vehicle, carried_at);

        let (car, car_bounds) = car::solids(arrangement, &bay_from_vehicle, carried_at);
        let targets: Vec<PlacedTarget> = arrangement
            .aiming
            .placements
            .iter()
            .zip(&arrangement.stands)
            .map(|(placement, set)| {
                let start = target::starts_at(arrangement, placement, &vehicle_from_axis, sensor_at);
                let own = target::vehicle_from_target(placement, &vehicle_from_axis, start);
                let height = meant_height(arrangement, placement);
                PlacedTarget::new(placement, *set, bay_from_vehicle * start, bay_from_vehicle * own, height)
            })
            .collect();

        let zones = place_zones(arrangement, &bay_from_vehicle, &bay_from_sensor, &targets, carried_at);
        let (marks, runs) = lay_marks(arrangement, &bay_from_vehicle, &targets);
        let treads = car::treads(arrangement, &bay_from_vehicle);
        let plumbed = plumbed(arrangement, &bay_from_vehicle, &targets);
        let readings = readings(arrangement, &marks, &plumbed, &treads);
        Self {
            room: Room::of(arrangement),
            carried_at_mm: carried_at,
            bay_from_axis: bay_from_vehicle * vehicle_from_axis,
            car,
            car_bounds,
            wheels: Wheel::ALL.map(|w| bay_from_vehicle * arrangement.wheel_point(w)),
            treads,
            bay_from_sensor,
            things: arrangement
                .bay
                .things
                .iter()
                .map(|thing| placed_thing(thing, &arrangement.shop))
                .collect(),
            targets,
            zones,
            marks,
            runs,
            readings,
            bay_from_vehicle,
        }
    }

    /// Where the sensor looks from.
    pub fn sensor(&self) -> DVec3 {
        self.bay_from_sensor.origin()
    }

    /// Where each tyre is at any height up to this over the plane that carries the wheels, mm, in [`Wheel::ALL`]'s order: its
    /// tread, and where the tyre bulges over what is beside that.
    pub fn tyres_up_to(&self, arrangement: &Arrangement, height_mm: f64) -> Vec<Polygon> {
        car::tyres_up_to(arrangement, &self.bay_from_vehicle, height_mm)
    }

    /// Whether a person can reach a point of the floor: in the room, or through a door that stands open to the floor.
    pub fn on_floor(&self, at: DVec2) -> bool {
        // A mark is flat; what it needs of a door is that its sill lies on the floor.
        Span::new(0.0, 1.0)
            .is_ok_and(|flat| locate(&self.room.holding(&flat).into_owned().into(), at) != Located::Outside)
    }

    /// How far a prolonged mark lies beyond the mark that its line passes last: what the tape reads there. `None` for
    /// other constructions, or where a mark is missing.
    pub fn tape(&self, step: usize, arrangement: &Arrangement) -> Option<f64> {
        let construction = arrangement.aiming.mark_plan.get(step)?.construction;
        let marks::Construction::Prolong { through, .. } = construction else { return None };
        let at = |index: usize| self.marks.get(index)?.at.ok();
        Some(at(step)?.distance(at(through)?))
    }

    /// Where a step of the mark plan is taped between marks of which one lies higher: what the tape reads along the slope. The
    /// plan's own distances are level.
    pub fn slope(&self, step: usize, arrangement: &Arrangement) -> Option<Slope> {
        let construction = arrangement.aiming.mark_plan.get(step)?.construction;
        let marks::Construction::Prolong { through, .. } = construction else {
            return self.runs.iter().filter(|own| own.mark == step).find_map(|own| {
                let [from, to] = own.lies_mm;
                sloping(own.run.from, from, own.run.to, to)
            });
        };
        let (from, to) = (self.marks.get(through)?, self.marks.get(step)?);
        sloping(from.at.ok()?, from.lies_mm, to.at.ok()?, to.lies_mm)
    }

    /// What the car and where its targets belong give the mark plan to start from, vehicle frame; `None` if that makes no sense.
    pub fn givens(&self, arrangement: &Arrangement) -> Option<Givens> {
        givens(arrangement, &self.bay_from_vehicle, &self.targets)
    }

    /// How far off each of what is sought of the mark plan may be if each mark is laid as far off as the shop's own `mark_laid_mm`,
    /// mm, from [`marks::may_be_off`], in the car's directions ([`Scene::in_car_directions`]); `None` if that may leave none at all.
    pub fn marks_may_be_off<const N: usize>(
        &self,
        arrangement: &Arrangement,
        sought: [Sought; N],
    ) -> [Option<MayBeOff>; N] {
        let plan: Vec<_> = arrangement.aiming.mark_plan.iter().map(|step| step.construction).collect();
        match givens(arrangement, &self.bay_from_vehicle, &self.targets) {
            Some(givens) => marks::may_be_off(&plan, &givens, sought, arrangement.shop.mark_laid_mm),
            None => [const { None }; N],
        }
    }

    /// A bay vector in the car's directions: x ahead, y to the left.
    pub fn in_car_directions(&self, by: DVec2) -> DVec2 {
        self.bay_from_vehicle.inverse().turned(by)
    }
}

fn sloping(from: DVec2, from_mm: f64, to: DVec2, to_mm: f64) -> Option<Slope> {
    let height_mm = (to_mm - from_mm).abs();
    (height_mm > 0.0).then(|| Slope { height_mm, reads_mm: libm::hypot(from.distance(to), height_mm) })
}

/// The sensor's place in the vehicle frame: as measured on this car, or as the profile has it.
fn sensor_on_car(arrangement: &Arrangement) -> DVec3 {
    arrangement.on_this_car.sensor_at.unwrap_or(arrangement.sensor.at)
}

/// The height of the plane that carries the wheels above the bay's floor.
pub fn carried_at(arrangement: &Arrangement) -> f64 {
    car::carried_at(arrangement)
}

/// The sensor's height above the bay's floor.
pub fn sensor_height(arrangement: &Arrangement) -> f64 {
    car::carried_at(arrangement) + sensor_on_car(arrangement).z
}

/// The height of a point of the sensor above the bay's floor, mm; `None` where the sensor does not say where it is.
pub fn sensor_point_height(arrangement: &Arrangement, point: SensorPoint) -> Option<f64> {
    Some(sensor_height(arrangement) + arrangement.sensor.edges.above_centre_mm(point)?)
}

/// How high above the bay's floor the middle of a target's face belongs, mm.
pub(crate) fn meant_height(arrangement: &Arrangement, placement: &Placement) -> f64 {
    match placement.height {
        TargetHeight::Absolute(height) => {
            height + above_floor(placement.heights_from, car::carried_at(arrangement))
        }
        // Validation refuses a point of which the sensor says nothing; the centre stands in so that nothing here can fail.
        TargetHeight::FromSensor { point, offset_mm } => {
            sensor_point_height(arrangement, point).unwrap_or_else(|| sensor_height(arrangement)) + offset_mm
        }
        TargetHeight::OnFloor => target::thickness(&placement.target),
    }
}

/// What a target and its stand fill, in the target frame; heights above the floor.
pub(crate) fn target_solids(placement: &Placement, target: &PlacedTarget) -> Vec<Prism> {
    let here = TargetPose { place: PlanPose::IDENTITY, ..target.set };
    target::solids(placement, &here, target.lies).into_iter().map(|(_, solid)| solid).collect()
}

/// A thing where it stands.
pub(crate) fn placed_thing(thing: &crate::model::Thing, shop: &crate::model::Shop) -> PlacedThing {
    let prism = thing.prism();
    PlacedThing { bounds: prism.outline.bounds(), prism, known_mm: shop.within(thing.place.known) }
}

fn sensor_pose(sensor: &Sensor, at: DVec3, bay_from_vehicle: &PlanPose, carried_at: f64) -> Pose {
    let bay = Pose::level(bay_from_vehicle, carried_at);
    Pose::looking(bay * at, bay_from_vehicle.heading() + sensor.azimuth_rad, sensor.elevation_rad)
}

/// How high above the floor the plane lies from which heights are given.
fn above_floor(from: HeightsFrom, carried_at: f64) -> f64 {
    match from {
        HeightsFrom::Floor => 0.0,
        HeightsFrom::Wheels => carried_at,
    }
}

/// Bay from the frame that a zone is given in; `None` for a target that is not there.
fn zone_frame(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    bay_from_sensor: &Pose,
    targets: &[PlacedTarget],
    frame: &ZoneFrame,
) -> Option<PlanPose> {
    match frame {
        ZoneFrame::Vehicle => Some(*bay_from_vehicle),
        ZoneFrame::Sensor => Some(PlanPose::new(
            bay_from_sensor.origin().truncate(),
            bay_from_vehicle.heading() + arrangement.sensor.azimuth_rad,
        )),
        ZoneFrame::Target(id) => targets.iter().find(|t| t.id == *id).map(|t| t.set.place),
    }
}

fn place_zones(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    bay_from_sensor: &Pose,
    targets: &[PlacedTarget],
    carried_at: f64,
) -> Vec<PlacedZone> {
    let frame =
        |frame: &ZoneFrame| zone_frame(arrangement, bay_from_vehicle, bay_from_sensor, targets, frame);
    arrangement
        .aiming
        .zones
        .iter()
        .filter_map(|zone| {
            // Validation refuses a zone whose target is not there; a zone without a frame has no place.
            let span = zone.span.raised(above_floor(zone.heights_from, carried_at));
            let prism = Prism::new(zone.outline.placed(&frame(&zone.frame)?), span);
            Some(PlacedZone {
                id: zone.id.clone(),
                bounds: prism.outline.bounds(),
                prism,
                excludes: zone.excludes,
                heights_from: zone.heights_from,
            })
        })
        .collect()
}

/// What the car and where its targets belong give a mark plan to start from, vehicle frame.
fn givens(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    targets: &[PlacedTarget],
) -> Option<Givens> {
    let vehicle = &arrangement.vehicle;
    let vehicle_from_bay = bay_from_vehicle.inverse();
    let wheels = Wheel::ALL.map(|w| arrangement.wheel_point(w));
    let body_points = (0..vehicle.body_points.len()).filter_map(|nth| arrangement.body_point(nth)).collect();
    // A mark belongs to where the target should be, not to where it stands.
    let targets = targets.iter().map(|t| vehicle_from_bay * t.meant.place.origin()).collect();
    let widths = Wheel::ALL.map(|w| vehicle.tyre_width(w));
    Givens::new(wheels, arrangement.centreline().0.forward(), widths, body_points, targets).ok()
}

fn lay_marks(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    targets: &[PlacedTarget],
) -> (Vec<PlacedMark>, Vec<PlacedRun>) {
    let plan: Vec<_> = arrangement.aiming.mark_plan.iter().map(|step| step.construction).collect();
    // Validation refuses a tyre of no width; without it there is no mark.
    let givens = givens(arrangement, bay_from_vehicle, targets);
    let laid =
        givens.map_or_else(|| vec![Err(MarkFault::OutOfReach); plan.len()], |own| marks::lay(&plan, &own));
    let laid: Vec<_> = laid.into_iter().map(|mark| mark.map(|p| *bay_from_vehicle * p)).collect();
    let at = |index: usize| laid.get(index).and_then(|mark| mark.ok());
    let lies = |p: DVec2| car::lies_on_mm(arrangement, p);
    let runs = plan
        .iter()
        .enumerate()
        .filter_map(|(i, step)| Some((i, step.runs(at(i)?, at))))
        .flat_map(|(mark, runs)| runs.into_iter().map(move |run| (mark, run)))
        .map(|(mark, run)| PlacedRun { mark, run, lies_mm: [run.from, run.to].map(lies) })
        .collect();
    let marks = arrangement
        .aiming
        .mark_plan
        .iter()
        .zip(&laid)
        .map(|(step, at)| PlacedMark { id: step.id.clone(), at: *at, lies_mm: at.map_or(0.0, lies) })
        .collect();
    (marks, runs)
}

/// Where the marks come to lie if those under the wheels are plumbed from hubs whose camber is known, bay frame, in the plan's
/// order; none where no camber is, for then it is where they are meant.
fn plumbed(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    targets: &[PlacedTarget],
) -> Option<Vec<Result<DVec2, MarkFault>>> {
    let off = |wheel: Wheel| arrangement.plumbed_from_middle(wheel);
    if Wheel::ALL.iter().all(|wheel| off(*wheel) == DVec2::ZERO) {
        return None;
    }
    let givens = givens(arrangement, bay_from_vehicle, targets)?;
    let mut laid = Vec::with_capacity(arrangement.aiming.mark_plan.len());
    for step in &arrangement.aiming.mark_plan {
        let meant = marks::lay_next(&laid, &step.construction, &givens);
        laid.push(match step.construction {
            marks::Construction::WheelPoint { wheel } => meant.map(|at| at + off(wheel)),
            _ => meant,
        });
    }
    Some(laid.into_iter().map(|mark| mark.map(|at| *bay_from_vehicle * at)).collect())
}

/// What the tape reads between all marks that a person can tape: not the points under the tyres, and not through a tyre, nor
/// along the floor through a runway that carries the car. From a mark on a runway to one on the floor it reads the slope.
fn readings(
    arrangement: &Arrangement,
    marks: &[PlacedMark],
    plumbed: &Option<Vec<Result<DVec2, MarkFault>>>,
    treads: &[Polygon],
) -> Vec<Reading> {
    let made: Vec<_> = arrangement
        .aiming
        .mark_plan
        .iter()
        .zip(marks)
        .enumerate()
        .filter(|(_, (step, _))| !matches!(step.construction, marks::Construction::WheelPoint { .. }))
        .filter_map(|(nth, (_, mark))| {
            let lies = plumbed.as_ref().and_then(|all| all.get(nth)).unwrap_or(&mark.at);
            Some((mark, (*lies).ok()?))
        })
        .collect();
    let mut readings = Vec::new();
    for (i, (to, q)) in made.iter().enumerate() {
        for (from, p) in made.iter().take(i) {
            let tape = Segment::new(*p, *q);
            let is_blocked = treads.iter().any(|tread| passes_through(tread, &tape))
                || car::carrying(arrangement)
                    .any(|own| is_beside(&own.outline, &tape) && passes_through(&own.outline, &tape));
            if !is_blocked {
                let distance_mm = libm::hypot(tape.length(), to.lies_mm - from.lies_mm);
                readings.push(Reading { from: from.id.clone(), to: to.id.clone(), distance_mm });
            }
        }
    }
    readings
}

/// Whether neither end of a run lies on a runway: then it goes along the floor, and not over the steel.
pub(crate) fn is_beside(runway: &Polygon, run: &Segment) -> bool {
    [run.from, run.to].into_iter().all(|end| locate_in(runway, end) == Located::Outside)
}

/// A rectangle in a pose's own frame, placed; `None` if it has no area.
pub(crate) fn placed_rectangle(low: DVec2, high: DVec2, pose: &PlanPose) -> Option<Outline> {
    Some(Polygon::rectangle(low, high).ok()?.placed(pose).into())
}
