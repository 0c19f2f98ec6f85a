//! What an aiming takes of the floor, worked out anew from the model's plain figures, in the vehicle frame: zones, targets
//! and stands, the car, what is seen, marks and runs.

use std::f64::consts::PI;

use baywright_planner::geometry::marks::{Construction, Reach, WhichSide};
use baywright_planner::geometry::{DVec2, DVec3, Outline};
use baywright_planner::model::sheet::Inward;
use baywright_planner::model::{
    Arrangement, Datum, End, Exclusion, HeightsFrom, MarkStep, Placement, ReferenceAxis, SensorPoint,
    StandSet, TargetHeight, Wheel, ZoneFrame,
};

use crate::shape::{Frame, Ring, edges, rectangle, round};

#[derive(Clone, Debug, PartialEq)]
pub enum What {
    Zone(Exclusion),
    Car,
    Wheel,
    /// The target's body.
    Face,
    Stand,
    /// What of a stand rests on the floor.
    Feet,
}

/// A volume of the set-up: a ring between two heights above the floor.
#[derive(Clone, Debug)]
pub struct Part {
    pub what: What,
    pub name: String,
    pub ring: Ring,
    pub low: f64,
    pub high: f64,
    /// Whether its heights go with the plane that carries the wheels; of a zone.
    pub with_wheels: bool,
}

/// A face as the sensor sees it.
#[derive(Clone, Debug)]
pub struct Sight {
    pub name: String,
    pub eye: DVec3,
    pub centre: DVec3,
    pub left: DVec3,
    pub up: DVec3,
    pub lies: bool,
}

impl Sight {
    /// What lies between eye and target, from above.
    pub fn ring(&self) -> Ring {
        let at = |u: f64, v: f64| self.point(u, v).truncate();
        let eye = self.eye.truncate();
        // Of a target that lies or is tipped its far edge; the eye looks at its face from before.
        let far = [-1.0, 1.0]
            .into_iter()
            .max_by(|a, b| at(0.0, *a).distance(eye).total_cmp(&at(0.0, *b).distance(eye)));
        let far = far.unwrap_or(1.0);
        vec![eye, at(-1.0, far), at(1.0, far)]
    }
}

/// A straight run of tape or light.
#[derive(Clone, Debug)]
pub struct Run {
    pub name: String,
    pub from: DVec2,
    pub to: DVec2,
    pub top: f64,
}

#[derive(Clone, Debug, Default)]
pub struct SetUp {
    pub parts: Vec<Part>,
    pub sights: Vec<Sight>,
    /// The marks that a person makes.
    pub marks: Vec<(String, DVec2)>,
    /// Those of them that are set off from a tyre, on the ground that it stands on.
    pub beside_tyres: Vec<(String, DVec2)>,
    pub runs: Vec<Run>,
    /// What of them a tape is laid along: of light that is prolonged, from the mark that it passes last.
    pub tapes: Vec<Run>,
    /// The wheel points.
    pub wheels: Vec<DVec2>,
    /// Where the middle of each target's face belongs.
    pub meant: Vec<DVec3>,
    /// Where the car's nose points.
    pub ahead: DVec2,
    /// How high the plane lies that carries the wheels.
    pub carried: f64,
    /// Room to work in round the car, mm.
    pub working_room: f64,
    /// Room for a hand over a mark, mm.
    pub over_mark: f64,
    /// Room that is left all round a target by whoever lays the bay, mm.
    pub round_targets: f64,
}

/// A tape lies on the floor and goes over 20 mm; a line laser lights it from 100 mm.
const TAPE_MM: f64 = 20.0;
const LASER_MM: f64 = 100.0;
/// What of the car is looked at stands so close along it, mm.
const SLICE_MM: f64 = 150.0;

pub fn ring_of(outline: &Outline) -> Ring {
    match outline {
        Outline::Polygon(polygon) => polygon.outer().to_vec(),
        Outline::Circle(circle) => round(circle.centre(), circle.radius()),
    }
}

impl SetUp {
    pub fn of(a: &Arrangement) -> Self {
        let carrying = a.bay.runways.iter().filter(|own| a.on_runways.contains(&own.id));
        let carried = carrying.map(|own| own.top_mm).fold(0.0, f64::max);
        let wheels: Vec<DVec2> = Wheel::ALL.iter().map(|wheel| wheel_point(a, *wheel)).collect();
        let working_room = a.working_room_mm();
        let over_mark = a.shop.over_mark_mm;
        let mut all = Self { carried, wheels, working_room, over_mark, ahead: DVec2::X, ..Self::default() };
        let sensor = a.on_this_car.sensor_at.unwrap_or(a.sensor.at);
        let eye = DVec3::new(sensor.x, sensor.y, sensor.z + carried);
        let mut meant = Vec::new();
        let mut faces = Vec::new();
        for (placement, set) in a.aiming.placements.iter().zip(&a.stands) {
            let belongs = meant_frame(a, placement, sensor);
            meant.push(belongs.at);
            let height = match placement.height {
                TargetHeight::Absolute(mm) => mm + above_floor(placement.heights_from, carried),
                TargetHeight::FromSensor { point, offset_mm } => {
                    let edges = &a.sensor.edges;
                    let above = match point {
                        SensorPoint::Centre => 0.0,
                        SensorPoint::LowerEdge => -edges.lower_below_mm.expect("it is entered"),
                        SensorPoint::UpperEdge => edges.upper_above_mm.expect("it is entered"),
                        SensorPoint::Line => edges.line_above_mm.expect("it is entered"),
                    };
                    carried + sensor.z + above + offset_mm
                }
                TargetHeight::OnFloor => placement.target.depth_mm.max(1.0),
            };
            all.meant.push(DVec3::new(belongs.at.x, belongs.at.y, height));
            let (frame, height, pitch) = match set {
                StandSet::OnMark => (belongs, height, 0.0),
                StandSet::At { place, height_mm, pitch_rad } => {
                    let parked = Frame::new(a.parked.origin(), a.parked.heading());
                    let own =
                        Frame::new(parked.into_own(place.origin()), place.heading() - a.parked.heading());
                    (own, *height_mm, *pitch_rad)
                }
            };
            all.target(placement, frame, height, pitch, eye);
            faces.push((placement.id.clone(), frame));
        }
        for zone in &a.aiming.zones {
            let frame = match &zone.frame {
                ZoneFrame::Vehicle => Frame::new(DVec2::ZERO, 0.0),
                ZoneFrame::Sensor => Frame::new(sensor.truncate(), a.sensor.azimuth_rad),
                ZoneFrame::Target(id) => faces.iter().find(|own| own.0 == *id).expect("it is there").1,
            };
            let up = above_floor(zone.heights_from, carried);
            all.parts.push(Part {
                what: What::Zone(zone.excludes),
                name: zone.id.to_string(),
                ring: frame.ring(&ring_of(&zone.outline)),
                low: zone.span.bottom() + up,
                high: zone.span.top() + up,
                with_wheels: zone.heights_from == HeightsFrom::Wheels,
            });
        }
        all.car(a);
        all.lay(a, &meant);
        all
    }

    fn target(&mut self, placement: &Placement, frame: Frame, height: f64, pitch: f64, eye: DVec3) {
        let target = &placement.target;
        let lies = placement.height == TargetHeight::OnFloor;
        let (half_width, half_height) = (target.width_mm * 0.5, target.height_mm * 0.5);
        let depth = target.depth_mm.max(1.0);
        let mut add = |what: What, low: (f64, f64), high: (f64, f64), bottom: f64, top: f64| {
            let ring = frame.ring(&rectangle(low.into(), high.into()));
            let name = placement.id.to_string();
            self.parts.push(Part { what, name, ring, low: bottom, high: top, with_wheels: false });
        };
        if lies {
            add(What::Feet, (-half_height, -half_width), (half_height, half_width), 0.0, depth);
        } else {
            let bottom = (height - half_height).max(0.0);
            add(What::Face, (-depth, -half_width), (0.0, half_width), bottom, height + half_height);
        }
        if let Some(stand) = &target.stand {
            let (middle, half) = (-stand.mast_behind_mm, stand.mast_mm * 0.5);
            let top = stand.top_mm.max(height);
            add(What::Stand, (middle - half, -half), (middle + half, half), 0.0, top);
            self.parts.push(Part {
                what: What::Feet,
                name: placement.id.to_string(),
                ring: frame.ring(&ring_of(&stand.base)),
                low: 0.0,
                high: stand.base_height_mm,
                with_wheels: false,
            });
        }
        // A face that looks down by `pitch` leans forward at its top; one that lies looks up, its top away from the car.
        let tip = if lies { -PI * 0.5 } else { pitch };
        let (ahead, aside) = (frame.turn(DVec2::X), frame.turn(DVec2::Y));
        let up = ahead * tip.sin();
        self.sights.push(Sight {
            name: placement.id.to_string(),
            eye,
            centre: DVec3::new(frame.at.x, frame.at.y, height),
            left: DVec3::new(aside.x, aside.y, 0.0) * half_width,
            up: DVec3::new(up.x, up.y, tip.cos()) * half_height,
            lies,
        });
    }

    /// Never more than the car fills: slices between two cuts, wheels, the mirrors' ends.
    fn car(&mut self, a: &Arrangement) {
        let car = &a.vehicle;
        let (rear, front) = (
            car.outline_top.iter().map(|p| p.x).fold(f64::INFINITY, f64::min),
            car.outline_top.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max),
        );
        let count = ((front - rear) / SLICE_MM).ceil();
        let inner = |i: f64| (rear + (front - rear) * i / count).clamp(rear + 0.5, front - 0.5);
        let mut add = |what: What, ring: Ring, low: f64, high: f64| {
            if low < high {
                let (low, high) = (low + self.carried, high + self.carried);
                self.parts.push(Part { what, name: "car".into(), ring, low, high, with_wheels: true });
            }
        };
        for i in 0..count as u32 {
            let (x0, x1) = (inner(f64::from(i)), inner(f64::from(i) + 1.0));
            let cuts = [
                (&car.outline_top, x0),
                (&car.outline_top, x1),
                (&car.outline_side, x0),
                (&car.outline_side, x1),
            ];
            let [Some(y0), Some(y1), Some(z0), Some(z1)] = cuts.map(|(ring, x)| cut(ring, x)) else {
                continue;
            };
            let corner = DVec2::new;
            let ring = vec![corner(x0, y0.0), corner(x1, y1.0), corner(x1, y1.1), corner(x0, y0.1)];
            add(What::Car, ring, z0.0.max(z1.0), z0.1.min(z1.1));
        }
        let radius = car.tyre_diameter_mm * 0.5;
        for (at, wheel) in self.wheels.iter().zip(Wheel::ALL) {
            for half in [0.3, 0.6] {
                let down = (1.0 - f64::sqrt(1.0 - half * half)) * radius;
                let half = DVec2::new(half * radius, tyre_width(a, wheel) * 0.5);
                add(
                    What::Wheel,
                    rectangle(*at - half, *at + half),
                    down,
                    car.ground_clearance_mm.min(radius),
                );
            }
        }
        let mirrors = &car.mirrors;
        if mirrors.width_mm > car.width_mm {
            for side in [1.0, -1.0] {
                let (y0, y1) = (side * car.width_mm * 0.5, side * mirrors.width_mm * 0.5);
                let low = DVec2::new(mirrors.ahead_mm - 20.0, y0.min(y1));
                let high = DVec2::new(mirrors.ahead_mm + 20.0, y0.max(y1));
                add(What::Car, rectangle(low, high), mirrors.height_mm - 20.0, mirrors.height_mm + 20.0);
            }
        }
    }

    /// The mark plan, with a ruler: what each step takes, as it is walked.
    fn lay(&mut self, a: &Arrangement, targets: &[DVec2]) {
        let mut at: Vec<DVec2> = Vec::new();
        for step in &a.aiming.mark_plan {
            let name = step.id.to_string();
            let way = |from: usize, to: usize| (at[to] - at[from]) / at[to].distance(at[from]);
            let left = |v: DVec2| DVec2::new(-v.y, v.x);
            let mut runs: Vec<(DVec2, DVec2, f64)> = Vec::new();
            let mut is_made = true;
            let here = match step.construction {
                Construction::WheelPoint { wheel } => {
                    is_made = false;
                    wheel_point(a, wheel)
                }
                Construction::Outboard { wheel, distance } => {
                    let out = if wheel.is_left() { 1.0 } else { -1.0 };
                    let far = tyre_width(a, wheel) * 0.5 + distance;
                    let here = wheel_point(a, wheel) + centreline(a).0.turn(DVec2::new(0.0, out * far));
                    self.beside_tyres.push((name.clone(), here));
                    here
                }
                Construction::BodyPoint { point } => a.vehicle.body_points[point].at.truncate(),
                Construction::Prolong { from, through, reach } => {
                    let far = match reach {
                        Reach::Length(mm) => mm,
                        Reach::AbreastOf(target) => (targets[target] - at[through]).dot(way(from, through)),
                    };
                    let here = at[through] + way(from, through) * far;
                    self.tapes.push(Run { name: name.clone(), from: at[through], to: here, top: TAPE_MM });
                    if far < 0.0 {
                        runs.push((at[from], at[through], LASER_MM));
                        runs.push((at[through], here, LASER_MM));
                    } else {
                        runs.push((at[from], here, LASER_MM));
                    }
                    here
                }
                Construction::Middle { first, second } => {
                    runs.push((at[first], at[second], TAPE_MM));
                    (at[first] + at[second]) * 0.5
                }
                Construction::Foot { of, from, to } => {
                    let here = at[from] + way(from, to) * (at[of] - at[from]).dot(way(from, to));
                    runs.push((at[from], here, LASER_MM));
                    runs.push((at[of], here, TAPE_MM));
                    here
                }
                Construction::AlongAside { from, to, along, aside } => {
                    let corner = at[from] + way(from, to) * along;
                    let here = corner + left(way(from, to)) * aside;
                    runs.push((at[from], corner, TAPE_MM));
                    runs.push((corner, here, TAPE_MM));
                    here
                }
                Construction::AtAngle { at: start, towards, angle, distance } => {
                    let here =
                        at[start] + Frame::new(DVec2::ZERO, angle).turn(way(start, towards)) * distance;
                    runs.push((at[start], here, TAPE_MM));
                    here
                }
                Construction::Crossing { first, second } => {
                    let (p, q) = (way(first.0, first.1), way(second.0, second.1));
                    let far = (at[second.0] - at[first.0]).perp_dot(q) / p.perp_dot(q);
                    let here = at[first.0] + p * far;
                    runs.push((at[first.0], here, LASER_MM));
                    runs.push((at[second.0], here, LASER_MM));
                    here
                }
                Construction::TwoDistances { first, from_first, second, from_second, side } => {
                    let apart = at[first].distance(at[second]);
                    let along = (from_first.powi(2) - from_second.powi(2) + apart.powi(2)) / (2.0 * apart);
                    let aside = (from_first.powi(2) - along.powi(2)).max(0.0).sqrt();
                    let aside = if side == WhichSide::Left { aside } else { -aside };
                    let here = at[first] + way(first, second) * along + left(way(first, second)) * aside;
                    runs.push((at[first], here, TAPE_MM));
                    runs.push((at[second], here, TAPE_MM));
                    here
                }
            };
            at.push(here);
            if is_made {
                self.marks.push((name.clone(), here));
            }
            let runs = runs.into_iter().filter(|(from, to, _)| from.distance(*to) > 1.0);
            let runs = runs.map(|(from, to, top)| Run { name: name.clone(), from, to, top });
            let runs: Vec<Run> = runs.collect();
            self.tapes.extend(runs.iter().filter(|own| own.top == TAPE_MM).cloned());
            self.runs.extend(runs);
        }
    }

    /// The same carried to a place of the car.
    pub fn placed(&self, by: Frame) -> Self {
        let space = |p: DVec3| {
            let plan = by.out(p.truncate());
            DVec3::new(plan.x, plan.y, p.z)
        };
        let turned = |p: DVec3| {
            let plan = by.turn(p.truncate());
            DVec3::new(plan.x, plan.y, p.z)
        };
        Self {
            parts: self.parts.iter().map(|own| Part { ring: by.ring(&own.ring), ..own.clone() }).collect(),
            sights: self
                .sights
                .iter()
                .map(|own| Sight {
                    name: own.name.clone(),
                    eye: space(own.eye),
                    centre: space(own.centre),
                    left: turned(own.left),
                    up: turned(own.up),
                    lies: own.lies,
                })
                .collect(),
            marks: self.marks.iter().map(|(name, at)| (name.clone(), by.out(*at))).collect(),
            runs: self
                .runs
                .iter()
                .map(|own| Run { from: by.out(own.from), to: by.out(own.to), ..own.clone() })
                .collect(),
            tapes: self
                .tapes
                .iter()
                .map(|own| Run { from: by.out(own.from), to: by.out(own.to), ..own.clone() })
                .collect(),
            beside_tyres: self.beside_tyres.iter().map(|(name, at)| (name.clone(), by.out(*at))).collect(),
            wheels: self.wheels.iter().map(|at| by.out(*at)).collect(),
            meant: self.meant.iter().map(|at| space(*at)).collect(),
            ahead: by.turn(self.ahead),
            carried: self.carried,
            working_room: self.working_room,
            over_mark: self.over_mark,
            round_targets: self.round_targets,
        }
    }
}

fn above_floor(from: HeightsFrom, carried: f64) -> f64 {
    if from == HeightsFrom::Wheels { carried } else { 0.0 }
}

/// The lowest and highest second figure of a ring at a first one.
fn cut(ring: &[DVec2], x: f64) -> Option<(f64, f64)> {
    let met = edges(ring).filter(|(a, b)| (a.x > x) != (b.x > x));
    let at: Vec<f64> = met.map(|(a, b)| a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y)).collect();
    let low = at.iter().copied().fold(f64::INFINITY, f64::min);
    (at.len() == 2).then(|| (low, at.iter().copied().fold(f64::NEG_INFINITY, f64::max)))
}

fn wheel_point(a: &Arrangement, wheel: Wheel) -> DVec2 {
    let car = &a.vehicle;
    if let Some([front_left, front_right, rear_left, rear_right]) = a.on_this_car.wheels {
        return match wheel {
            Wheel::FrontLeft => front_left,
            Wheel::FrontRight => front_right,
            Wheel::RearLeft => rear_left,
            Wheel::RearRight => rear_right,
        };
    }
    let (x, track) = match wheel {
        Wheel::FrontLeft | Wheel::FrontRight => (0.0, car.track_front_mm),
        Wheel::RearLeft | Wheel::RearRight => (-car.wheelbase_mm, car.track_rear_mm),
    };
    let side = if matches!(wheel, Wheel::FrontLeft | Wheel::RearLeft) { 0.5 } else { -0.5 };
    DVec2::new(x, track * side)
}

/// From the middle of the rear wheel points to the middle of the front ones, where it starts; and how long that is.
pub fn centreline(a: &Arrangement) -> (Frame, f64) {
    let [front_left, front_right, rear_left, rear_right] = Wheel::ALL.map(|wheel| wheel_point(a, wheel));
    let (front, rear) = ((front_left + front_right) * 0.5, (rear_left + rear_right) * 0.5);
    let ahead = front - rear;
    (Frame::new(front, ahead.y.atan2(ahead.x)), ahead.length())
}

/// What "straight ahead" means, abreast of the front axle: the centreline, or where the rear wheels push the car.
fn reference_axis(a: &Arrangement) -> Frame {
    let (line, length) = centreline(a);
    // Degrees of a sheet, positive in, or what an older file says by a sign.
    let toe = |nth: usize, older: Option<f64>| {
        let told = a.on_this_car.sheet.toe[nth];
        let degrees = told.reads.map(|typed| typed.value);
        let way = told.way.map(|way| if way == Inward::In { 1.0 } else { -1.0 });
        degrees.zip(way).map(|(degrees, way)| way * degrees * std::f64::consts::PI / 180.0).or(older)
    };
    let older = a.on_this_car.rear_toe;
    match (a.aiming.axis, toe(2, older.left_rad), toe(3, older.right_rad)) {
        (ReferenceAxis::ThrustLine, Some(left), Some(right)) => {
            // What the left wheel toes in pushes to the right.
            let heading = line.heading + (right - left) / 2.0;
            let rear = line.out(DVec2::new(-length, 0.0));
            Frame::new(Frame::new(rear, heading).out(DVec2::new(length, 0.0)), heading)
        }
        _ => line,
    }
}

pub fn tyre_width(a: &Arrangement, wheel: Wheel) -> f64 {
    let rear = matches!(wheel, Wheel::RearLeft | Wheel::RearRight);
    a.vehicle.tyre_width_rear_mm.filter(|_| rear).unwrap_or(a.vehicle.tyre_width_mm)
}

/// Where the axis crosses the line through the first spots outboard of the front tyres: their heights over the axis, left and
/// right, as shares of the way between them.
fn front_spots(a: &Arrangement, axis: &Frame) -> DVec2 {
    let square = centreline(a).0.turn(DVec2::Y);
    let spot = |of: Wheel, out: f64| {
        let lays = |step: &MarkStep| match step.construction {
            Construction::Outboard { wheel, distance } if wheel == of => Some(distance),
            _ => None,
        };
        let distance = a.aiming.mark_plan.iter().find_map(lays).expect("it is laid");
        wheel_point(a, of) + square * out * (tyre_width(a, of) * 0.5 + distance)
    };
    let (left, right) = (spot(Wheel::FrontLeft, 1.0), spot(Wheel::FrontRight, -1.0));
    let over = |p: DVec2| (p - axis.at).dot(axis.turn(DVec2::Y));
    let (high, low) = (over(left), -over(right));
    (left * low + right * high) / (high + low)
}

/// Where a target belongs: from its datum along its bearing, then aside; looking back, then turned.
fn meant_frame(a: &Arrangement, placement: &Placement, sensor: DVec3) -> Frame {
    let car = &a.vehicle;
    let off = &placement.stand_off;
    let axis = reference_axis(a);
    let start = match &off.from {
        Datum::FrontAxle => axis.at,
        Datum::RearAxle => axis.out(DVec2::new(-centreline(a).1, 0.0)),
        Datum::Wheel(wheel) => wheel_point(a, *wheel),
        Datum::Sensor => sensor.truncate(),
        Datum::FrontBumper => axis.out(DVec2::new(car.overhang_front_mm, 0.0)),
        Datum::RearBumper => axis.out(DVec2::new(-car.wheelbase_mm - car.overhang_rear_mm, 0.0)),
        Datum::FrontSpots => front_spots(a, &axis),
        Datum::BodyPoint(id) => {
            car.body_points.iter().find(|own| own.id == *id).expect("it is there").at.truncate()
        }
    };
    let along = Frame::new(start, axis.heading + off.bearing_rad);
    let facing = axis.heading + off.bearing_rad + PI + placement.turned_rad;
    let behind = match off.to {
        End::Face => 0.0,
        End::ReflectorCentre => placement.target.centre_behind_mm,
    };
    let end = along.out(DVec2::new(off.distance_mm, off.aside_mm));
    Frame::new(end + Frame::new(DVec2::ZERO, facing).turn(DVec2::new(behind, 0.0)), facing)
}
