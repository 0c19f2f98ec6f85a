//! Sensors and aimings to start from: ordinary figures of our own invention, all marked as assumed until they are entered.
//!
//! They are there so that a drawing can be made from the first figure on. None is any maker's, and no answer that rests
//! on one is without the note that it was assumed.

use baywright_geometry::marks::{Construction, Reach};
use baywright_geometry::{DVec2, DVec3, Outline, Polygon, Span, angle};

use crate::model::assumed::{AimingPart, Assumed, SensorPart};
use crate::model::{
    Adjusted, AimError, AimTolerance, Aiming, AlignmentLimits, Camera, Datum, Edges, End, Exclusion,
    FieldOfView, FloorRequirement, HeightsFrom, Id, KeepClear, MarkStep, MeasuredAlong, PlaceTolerance,
    Placement, Provenance, Radar, ReferenceAxis, Sensor, SensorKind, Stand, StandOff, Target, TargetHeight,
    TargetKind, Vehicle, VerticalReference, Wheel, ZoneFrame,
};

/// A kind of sensor to start from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StartKind {
    /// Looks ahead, by radar.
    ForwardRadar,
    /// Looks out of a bumper corner, by radar.
    CornerRadar,
    /// Looks ahead through the windscreen.
    ForwardCamera,
    /// One of those that look all round.
    SurroundCamera,
    /// Looks by laser light.
    Lidar,
}

impl StartKind {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::ForwardRadar, Self::CornerRadar, Self::ForwardCamera, Self::SurroundCamera, Self::Lidar];

    /// What a sensor starts from.
    pub const fn of(kind: &SensorKind) -> Self {
        match kind {
            SensorKind::ForwardRadar(_) => Self::ForwardRadar,
            SensorKind::CornerRadar(_) => Self::CornerRadar,
            SensorKind::ForwardCamera(_) => Self::ForwardCamera,
            SensorKind::SurroundCamera(_) => Self::SurroundCamera,
            SensorKind::Lidar => Self::Lidar,
        }
    }
}

/// The metal-free area of an aiming to start from.
pub const CLEAR_AREA: &str = "keep-clear area";
/// How far behind the target it reaches, mm, and how high.
const CLEAR_BEHIND_MM: f64 = 1_200.0;
const CLEAR_TOP_MM: f64 = 1_500.0;
/// How far from the bumper it starts.
const CLEAR_FROM_MM: f64 = 40.0;
/// How far to each side it reaches.
const CLEAR_ASIDE_MM: f64 = 1_500.0;
/// How far behind the foremost point a sensor in the grille sits.
const BEHIND_BUMPER_MM: f64 = 40.0;
/// How far outboard of a tyre the spots lie.
const OUTBOARD_MM: f64 = 150.0;

const fn radar(frequency: f64, bandwidth: f64, azimuth: f64, elevation: f64) -> Radar {
    Radar {
        frequency_hz: frequency,
        bandwidth_hz: bandwidth,
        beam_azimuth_rad: azimuth,
        beam_elevation_rad: elevation,
    }
}

impl Vehicle {
    /// A sensor to start from, all of it assumed. `id` must be free.
    pub fn start_sensor(&mut self, kind: StartKind, id: Id) {
        let deg = angle::radians;
        let (kind, azimuth, view) = figures_of(kind);
        self.assumed.extend(SensorPart::ALL.map(|part| part.of(&id)));
        self.sensors.push(Sensor {
            id,
            kind,
            at: DVec3::ZERO,
            edges: Edges::default(),
            azimuth_rad: deg(azimuth),
            elevation_rad: 0.0,
            view: FieldOfView { azimuth_half_rad: deg(view.0) * 0.5, elevation_half_rad: deg(view.1) * 0.5 },
            adjusted: Adjusted::Software,
            screws: Default::default(),
            provenance: Provenance::NotGiven,
        });
        self.follow();
    }

    /// An aiming of a sensor to start from, all of it assumed, called by its `id`, which must be free; nothing happens without the sensor.
    pub fn start_aiming(&mut self, sensor: &Id, id: Id) {
        let Some(own) = self.sensors.iter().find(|own| own.id == *sensor) else { return };
        let kind = StartKind::of(&own.kind);
        let azimuth = own.azimuth_rad;
        self.assumed.extend(AimingPart::ALL.map(|part| part.of(&id)));
        let forward = matches!(kind, StartKind::ForwardRadar | StartKind::ForwardCamera | StartKind::Lidar);
        let placement = if forward { ahead(kind) } else { at_angle(kind, azimuth) };
        let mark_plan = if forward { both_sides() } else { Vec::new() };
        let zones = Polygon::rectangle(DVec2::splat(-CLEAR_ASIDE_MM), DVec2::splat(CLEAR_ASIDE_MM))
            .ok()
            .zip(Span::new(0.0, CLEAR_TOP_MM).ok());
        let excludes = match kind {
            StartKind::ForwardRadar | StartKind::CornerRadar => Exclusion::Metal,
            _ => Exclusion::Anything,
        };
        let zones = zones.map(|(outline, span)| KeepClear {
            id: CLEAR_AREA.into(),
            frame: if forward { ZoneFrame::Vehicle } else { ZoneFrame::Target(placement.id.clone()) },
            outline: Outline::Polygon(outline),
            span,
            heights_from: HeightsFrom::Floor,
            excludes,
        });
        let tolerance = angle::radians(0.3);
        self.aimings.push(Aiming {
            name: id.to_string(),
            id,
            sensor: sensor.clone(),
            placements: vec![placement],
            mark_plan,
            tolerance: AimTolerance { azimuth_rad: tolerance, elevation_rad: tolerance },
            zones: zones.into_iter().collect(),
            names_no_zone: false,
            floor: Some(FloorRequirement::level(4.0)),
            alignment: AlignmentLimits::default(),
            axis: ReferenceAxis::GeometricCentreline,
            working_room_mm: None,
            have_ready: Vec::new(),
            conditions: Vec::new(),
            provenance: Provenance::NotGiven,
        });
        self.follow();
    }

    /// What was not entered of sensors and aimings, from what was entered of the car: the sensor behind the bumper, the
    /// keep-clear area from the bumper to behind the target.
    pub fn follow(&mut self) {
        let assumed = std::mem::take(&mut self.assumed);
        let open = |figure: &Assumed| assumed.contains(figure);
        let (front, rear, half) = (self.front(), self.rear(), self.width_mm * 0.5);
        let height = self.height_mm;
        for sensor in &mut self.sensors {
            let start = match StartKind::of(&sensor.kind) {
                StartKind::ForwardRadar | StartKind::Lidar => {
                    DVec3::new(front - BEHIND_BUMPER_MM, 0.0, 500.0)
                }
                StartKind::CornerRadar => DVec3::new(front - 250.0, half - 150.0, 550.0),
                StartKind::ForwardCamera => {
                    DVec3::new(front * 0.1 + rear * 0.3, 0.0, (height - 130.0).max(100.0))
                }
                StartKind::SurroundCamera => DVec3::new(front - BEHIND_BUMPER_MM, 0.0, 700.0),
            };
            for (part, own, start) in [
                (SensorPart::Ahead, &mut sensor.at.x, start.x),
                (SensorPart::Aside, &mut sensor.at.y, start.y),
                (SensorPart::Height, &mut sensor.at.z, start.z),
            ] {
                if open(&part.of(&sensor.id)) {
                    *own = start.round();
                }
            }
        }
        for i in 0..self.aimings.len() {
            let Some(aiming) = self.aimings.get(i) else { continue };
            let (along, aside) =
                (open(&AimingPart::ClearAlong.of(&aiming.id)), open(&AimingPart::ClearAside.of(&aiming.id)));
            let Some(zone) = aiming.zones.iter().position(|zone| zone.id.as_str() == CLEAR_AREA) else {
                continue;
            };
            let ahead = aiming.zones.get(zone).is_some_and(|zone| zone.frame == ZoneFrame::Vehicle);
            if !along || !ahead {
                continue;
            }
            let Some(face) = self.face_ahead(aiming) else { continue };
            let Some(own) = self.aimings.get_mut(i).and_then(|aiming| aiming.zones.get_mut(zone)) else {
                continue;
            };
            let half = if aside { CLEAR_ASIDE_MM } else { own.outline.bounds().high.y };
            let (low, high) = (front + CLEAR_FROM_MM, face + CLEAR_BEHIND_MM);
            if let Ok(outline) =
                Polygon::rectangle(DVec2::new(low, -half), DVec2::new(high.max(low + 100.0).round(), half))
            {
                own.outline = Outline::Polygon(outline);
            }
        }
        self.assumed = assumed;
    }

    /// Where the first target's face stands ahead of the front axle, if its stand-off goes straight ahead from a known place.
    fn face_ahead(&self, aiming: &Aiming) -> Option<f64> {
        let off = &aiming.placements.first()?.stand_off;
        let from = match &off.from {
            // The profile's own car is square.
            Datum::FrontAxle | Datum::FrontSpots => 0.0,
            Datum::RearAxle => -self.wheelbase_mm,
            Datum::Wheel(wheel) => self.wheel_point(*wheel).x,
            Datum::Sensor => self.sensors.iter().find(|sensor| sensor.id == aiming.sensor)?.at.x,
            Datum::FrontBumper => self.front(),
            Datum::RearBumper => self.rear(),
            Datum::BodyPoint(id) => self.body_points.iter().find(|point| point.id == *id)?.at.x,
        };
        Some(from + off.distance_mm * angle::sin_cos(off.bearing_rad).1)
    }

    /// Makes another kind of a sensor: its figures are assumed again, its place stays.
    pub fn change_sensor_kind(&mut self, at: usize, kind: StartKind) {
        let Some(sensor) = self.sensors.get_mut(at) else { return };
        let (figures, azimuth, view) = figures_of(kind);
        sensor.kind = figures;
        sensor.azimuth_rad = angle::radians(azimuth);
        sensor.elevation_rad = 0.0;
        sensor.view = FieldOfView {
            azimuth_half_rad: angle::radians(view.0) * 0.5,
            elevation_half_rad: angle::radians(view.1) * 0.5,
        };
        let id = sensor.id.clone();
        for part in [SensorPart::Boresight, SensorPart::View, SensorPart::Kind] {
            self.leave_open(part.of(&id));
        }
    }

    /// Gives a body point another name, wherever it is spoken of; nothing happens if the name is taken or empty.
    pub fn rename_body_point(&mut self, at: usize, to: Id) {
        if to.as_str().is_empty() || self.body_points.iter().any(|point| point.id == to) {
            return;
        }
        let Some(point) = self.body_points.get_mut(at) else { return };
        let old = std::mem::replace(&mut point.id, to.clone());
        for placement in self.aimings.iter_mut().flat_map(|aiming| &mut aiming.placements) {
            if placement.stand_off.from == Datum::BodyPoint(old.clone()) {
                placement.stand_off.from = Datum::BodyPoint(to.clone());
            }
        }
    }

    /// Takes a body point away, unless a mark or a stand-off counts from it; whether it did.
    pub fn remove_body_point(&mut self, at: usize) -> bool {
        let Some(point) = self.body_points.get(at) else { return false };
        let datum = Datum::BodyPoint(point.id.clone());
        let used = self.aimings.iter().any(|aiming| {
            aiming.placements.iter().any(|own| own.stand_off.from == datum)
                || aiming
                    .mark_plan
                    .iter()
                    .any(|step| step.construction == Construction::BodyPoint { point: at })
        });
        if used {
            return false;
        }
        self.body_points.remove(at);
        for construction in self.plumbed() {
            if let Construction::BodyPoint { point } = construction
                && *point > at
            {
                *point -= 1;
            }
        }
        true
    }

    /// Changes the order of two body points; marks still count from the same ones. Whether both are there.
    pub fn swap_body_points(&mut self, first: usize, second: usize) -> bool {
        if first >= self.body_points.len() || second >= self.body_points.len() {
            return false;
        }
        self.body_points.swap(first, second);
        for construction in self.plumbed() {
            if let Construction::BodyPoint { point } = construction {
                if *point == first {
                    *point = second;
                } else if *point == second {
                    *point = first;
                }
            }
        }
        true
    }

    fn plumbed(&mut self) -> impl Iterator<Item = &mut Construction> {
        self.aimings.iter_mut().flat_map(|aiming| &mut aiming.mark_plan).map(|step| &mut step.construction)
    }

    /// Gives a sensor another name, wherever it is spoken of; nothing happens if the name is taken or empty.
    pub fn rename_sensor(&mut self, at: usize, to: Id) {
        if to.as_str().is_empty() || self.sensors.iter().any(|sensor| sensor.id == to) {
            return;
        }
        let Some(sensor) = self.sensors.get_mut(at) else { return };
        let old = std::mem::replace(&mut sensor.id, to.clone());
        for aiming in self.aimings.iter_mut().filter(|aiming| aiming.sensor == old) {
            aiming.sensor = to.clone();
        }
        self.sensor_renamed(&old, &to);
    }

    /// Gives an aiming another name; nothing happens if the name is taken or empty.
    pub fn rename_aiming(&mut self, at: usize, to: Id) {
        if to.as_str().is_empty() || self.aimings.iter().any(|aiming| aiming.id == to) {
            return;
        }
        let Some(aiming) = self.aimings.get_mut(at) else { return };
        let old = std::mem::replace(&mut aiming.id, to.clone());
        self.aiming_renamed(&old, &to);
    }
}

/// What other kind a sensor is, with figures to start from.
fn figures_of(kind: StartKind) -> (SensorKind, f64, (f64, f64)) {
    let deg = angle::radians;
    let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
    match kind {
        StartKind::ForwardRadar => {
            (SensorKind::ForwardRadar(radar(76.5e9, 0.5e9, deg(20.0), deg(10.0))), 0.0, (90.0, 24.0))
        }
        StartKind::CornerRadar => {
            (SensorKind::CornerRadar(radar(77.0e9, 1.0e9, deg(60.0), deg(12.0))), 45.0, (140.0, 24.0))
        }
        StartKind::ForwardCamera => (SensorKind::ForwardCamera(camera), 0.0, (60.0, 40.0)),
        StartKind::SurroundCamera => (SensorKind::SurroundCamera(camera), 0.0, (180.0, 140.0)),
        StartKind::Lidar => (SensorKind::Lidar, 0.0, (120.0, 20.0)),
    }
}

/// A target square ahead.
fn ahead(kind: StartKind) -> Placement {
    let board = kind != StartKind::ForwardRadar;
    let (kind, width, height) =
        if board { (TargetKind::Board, 1_200.0, 800.0) } else { (TargetKind::Plate, 500.0, 500.0) };
    let name = if board { "board" } else { "plate" };
    Placement {
        id: name.into(),
        target: Target {
            kind,
            width_mm: width,
            height_mm: height,
            depth_mm: 6.0,
            centre_behind_mm: 0.0,
            error: AimError::usual(kind),
            stand: Stand::start(if board { 1_900.0 } else { Stand::START_TOP_MM }),
        },
        stand_off: StandOff {
            from: Datum::FrontAxle,
            to: End::Face,
            distance_mm: 3_600.0,
            bearing_rad: 0.0,
            aside_mm: 0.0,
            along: MeasuredAlong::Floor,
        },
        height: TargetHeight::from_centre(0.0),
        heights_from: HeightsFrom::Floor,
        vertical: VerticalReference::Gravity,
        turned_rad: 0.0,
        mark: Some("7".into()),
        tolerance: PlaceTolerance {
            along_mm: Some(10.0),
            across_mm: Some(10.0),
            height_mm: Some(10.0),
            ..Default::default()
        },
        with: None,
    }
}

/// A reflector, or for a surround camera a mat, where the sensor looks.
fn at_angle(kind: StartKind, bearing: f64) -> Placement {
    let mat = kind == StartKind::SurroundCamera;
    let target = if mat {
        Target {
            kind: TargetKind::Mat,
            width_mm: 1_200.0,
            height_mm: 1_200.0,
            depth_mm: 0.0,
            centre_behind_mm: 0.0,
            error: AimError::usual(TargetKind::Mat),
            stand: None,
        }
    } else {
        Target {
            kind: TargetKind::CornerReflector,
            width_mm: 150.0,
            height_mm: 150.0,
            depth_mm: 120.0,
            centre_behind_mm: 80.0,
            error: AimError::usual(TargetKind::CornerReflector),
            stand: Stand::start(Stand::START_TOP_MM),
        }
    };
    Placement {
        id: if mat { "mat" } else { "reflector" }.into(),
        target,
        stand_off: StandOff {
            from: Datum::Sensor,
            to: if mat { End::Face } else { End::ReflectorCentre },
            distance_mm: if mat { 1_200.0 } else { 2_500.0 },
            bearing_rad: bearing,
            aside_mm: 0.0,
            along: MeasuredAlong::Floor,
        },
        height: if mat { TargetHeight::OnFloor } else { TargetHeight::from_centre(0.0) },
        heights_from: HeightsFrom::Floor,
        vertical: VerticalReference::Gravity,
        turned_rad: 0.0,
        mark: None,
        tolerance: PlaceTolerance { along_mm: Some(10.0), across_mm: Some(5.0), ..Default::default() },
        with: None,
    }
}

impl Stand {
    /// How high a stand to start from is, mm.
    pub const START_TOP_MM: f64 = 900.0;

    /// A stand to start from, so high, mm: our own invention. There always is one.
    pub fn start(top: f64) -> Option<Self> {
        let base = Polygon::rectangle(DVec2::new(-520.0, -300.0), DVec2::new(60.0, 300.0)).ok()?;
        Some(Self {
            base: Outline::Polygon(base),
            base_height_mm: 60.0,
            mast_mm: 50.0,
            mast_behind_mm: 80.0,
            top_mm: top,
            lowest_mm: None,
            highest_mm: None,
        })
    }
}

/// Spots outboard of the tyres, prolonged on both sides to abreast of the target, joined; the target on the middle.
fn both_sides() -> Vec<MarkStep> {
    let outboard = |wheel| Construction::Outboard { wheel, distance: OUTBOARD_MM };
    let abreast = |from, through| Construction::Prolong { from, through, reach: Reach::AbreastOf(0) };
    [
        outboard(Wheel::RearLeft),
        outboard(Wheel::RearRight),
        outboard(Wheel::FrontLeft),
        outboard(Wheel::FrontRight),
        abreast(0, 2),
        abreast(1, 3),
        Construction::Middle { first: 4, second: 5 },
    ]
    .into_iter()
    .zip(1..)
    .map(|(construction, number)| MarkStep { id: number.to_string().into(), construction })
    .collect()
}
