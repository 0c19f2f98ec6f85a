//! Arrangements made by hand. All figures are invented.

use baywright_planner::entry::class::Figures;
use baywright_planner::geometry::marks::{Construction, Reach};
use baywright_planner::geometry::{Circle, DVec2, DVec3, PlanPose, Polygon, Span, angle};
use baywright_planner::model::{
    Adjusted, AimError, AimTolerance, Aiming, AlignmentLimits, Arrangement, Bay, BodySolids, Datum, Edges,
    Effort, End, Exclusion, FieldOfView, Footprint, HeightsFrom, KeepClear, Known, Loading, MarkStep,
    Material, MeasuredAlong, OnThisCar, Opening, OpeningKind, Place, PlaceTolerance, Placement, Provenance,
    Radar, ReferenceAxis, Sensor, SensorKind, Shape, Shop, Stand, StandOff, StandSet, Target, TargetHeight,
    TargetKind, Thing, ThingKind, Vehicle, VehicleClass, VerticalReference, Wall, Wheel, ZoneFrame,
};

fn rectangle(low: (f64, f64), high: (f64, f64)) -> Polygon {
    Polygon::rectangle(low.into(), high.into()).unwrap()
}

/// A thing of a kind at a place.
pub fn thing(name: &str, kind: ThingKind, shape: Shape, at: (f64, f64), heights: (f64, f64)) -> Thing {
    Thing {
        id: name.into(),
        kind,
        footprint: Footprint::new(shape).unwrap(),
        place: Place { at: PlanPose::new(at.into(), 0.0), known: Known::Taped },
        span: Span::new(heights.0, heights.1).unwrap(),
        material: Material::Steel,
        effort: Effort::OnePerson,
        metal: None,
        locked: false,
    }
}

/// A steel box.
pub fn cabinet(name: &str, at: (f64, f64)) -> Thing {
    thing(name, ThingKind::Cabinet, Shape::Rectangle { length_mm: 900.0, width_mm: 450.0 }, at, (0.0, 1000.0))
}

fn vehicle(class: VehicleClass) -> Vehicle {
    let of = Figures {
        width: 1820.0,
        height: 1480.0,
        wheelbase: 2650.0,
        overhang_front: 900.0,
        overhang_rear: 900.0,
        ground_clearance: class.ground_clearance(),
    };
    let (tyre_diameter, tyre_width) = class.tyre();
    let track = class.track(of.width, tyre_width);
    let mut vehicle = Vehicle {
        id: "example".into(),
        name: "Example car".into(),
        class,
        length_mm: of.overhang_front + of.wheelbase + of.overhang_rear,
        width_mm: of.width,
        mirrors: class.mirrors(&of),
        height_mm: of.height,
        wheelbase_mm: of.wheelbase,
        track_front_mm: track,
        track_rear_mm: track,
        overhang_front_mm: of.overhang_front,
        overhang_rear_mm: of.overhang_rear,
        tyre_diameter_mm: tyre_diameter,
        tyre_width_mm: tyre_width,
        tyre_width_rear_mm: None,
        ground_clearance_mm: of.ground_clearance,
        ride_heights: None,
        ride_height_off_mm: None,
        outline_top: class.outline_top(&of),
        outline_side: class.outline_side(&of),
        assumed: Vec::new(),
        body_points: Vec::new(),
        sensors: Vec::new(),
        aimings: Vec::new(),
        provenance: Provenance::Example,
        body: BodySolids::default(),
    };
    vehicle.make_solids();
    vehicle
}

fn sensor(corner: bool) -> Sensor {
    let radar = Radar {
        frequency_hz: 76.5e9,
        bandwidth_hz: 1e9,
        beam_azimuth_rad: angle::radians(18.0),
        beam_elevation_rad: angle::radians(10.0),
    };
    Sensor {
        id: "radar".into(),
        kind: if corner { SensorKind::CornerRadar(radar) } else { SensorKind::ForwardRadar(radar) },
        at: if corner { DVec3::new(700.0, 760.0, 600.0) } else { DVec3::new(870.0, 0.0, 520.0) },
        edges: Edges::default(),
        azimuth_rad: if corner { angle::radians(45.0) } else { 0.0 },
        elevation_rad: 0.0,
        view: FieldOfView {
            azimuth_half_rad: angle::radians(45.0),
            elevation_half_rad: angle::radians(10.0),
        },
        adjusted: Adjusted::Screw,
        screws: Default::default(),
        provenance: Provenance::Example,
    }
}

fn aiming(corner: bool) -> Aiming {
    let stand = Stand {
        base: rectangle((-500.0, -300.0), (50.0, 300.0)).into(),
        base_height_mm: 60.0,
        mast_mm: 60.0,
        mast_behind_mm: 100.0,
        top_mm: 900.0,
        lowest_mm: None,
        highest_mm: None,
    };
    let target = Target {
        kind: if corner { TargetKind::CornerReflector } else { TargetKind::Plate },
        width_mm: if corner { 200.0 } else { 500.0 },
        height_mm: if corner { 200.0 } else { 400.0 },
        depth_mm: if corner { 120.0 } else { 6.0 },
        centre_behind_mm: if corner { 90.0 } else { 0.0 },
        error: if corner { AimError::PLACE } else { AimError::SQUARENESS },
        stand: Some(stand),
    };
    let stand_off = StandOff {
        from: if corner { Datum::Sensor } else { Datum::FrontAxle },
        to: if corner { End::ReflectorCentre } else { End::Face },
        distance_mm: if corner { 1500.0 } else { 3600.0 },
        bearing_rad: if corner { angle::radians(45.0) } else { 0.0 },
        aside_mm: 0.0,
        along: MeasuredAlong::Level,
    };
    let outboard = |wheel| Construction::Outboard { wheel, distance: 140.0 };
    let steps = [
        ("1", outboard(Wheel::RearLeft)),
        ("2", outboard(Wheel::RearRight)),
        ("3", outboard(Wheel::FrontLeft)),
        ("4", outboard(Wheel::FrontRight)),
        ("5", Construction::Prolong { from: 0, through: 2, reach: Reach::AbreastOf(0) }),
        ("6", Construction::Prolong { from: 1, through: 3, reach: Reach::AbreastOf(0) }),
        ("7", Construction::Middle { first: 4, second: 5 }),
    ];
    Aiming {
        id: "aiming".into(),
        name: "Radar by target".into(),
        sensor: "radar".into(),
        placements: vec![Placement {
            id: "target".into(),
            target,
            stand_off,
            height: TargetHeight::from_centre(0.0),
            heights_from: HeightsFrom::Floor,
            vertical: VerticalReference::Gravity,
            turned_rad: 0.0,
            mark: None,
            tolerance: PlaceTolerance::default(),
            with: None,
        }],
        mark_plan: steps.map(|(id, construction)| MarkStep { id: id.into(), construction }).to_vec(),
        tolerance: AimTolerance { azimuth_rad: angle::radians(0.2), elevation_rad: angle::radians(0.2) },
        zones: vec![KeepClear {
            id: "metal-free area".into(),
            frame: ZoneFrame::Vehicle,
            outline: rectangle((950.0, -1500.0), (4800.0, 1500.0)).into(),
            span: Span::new(0.0, 1500.0).unwrap(),
            heights_from: HeightsFrom::Floor,
            excludes: Exclusion::Metal,
        }],
        floor: None,
        alignment: AlignmentLimits::default(),
        axis: ReferenceAxis::GeometricCentreline,
        working_room_mm: None,
        names_no_zone: false,
        have_ready: Vec::new(),
        conditions: Vec::new(),
        provenance: Provenance::Example,
    }
}

/// An empty room of 12 by 6 m with a car in it that aims straight ahead, or out of its front left corner.
pub fn empty(corner: bool) -> Arrangement {
    let names = ["yard wall", "office wall", "neighbour's wall", "street wall"];
    let bay = Bay {
        id: "bay".into(),
        name: "Bay by hand".into(),
        room: rectangle((0.0, 0.0), (12_000.0, 6_000.0)),
        walls: names.map(|name| Wall { id: name.into(), material: Material::Brick }).to_vec(),
        walls_known: Known::Taped,
        ceiling_mm: 3000.0,
        openings: vec![Opening {
            id: "roller door".into(),
            kind: OpeningKind::RollerDoor,
            wall: 3,
            from_mm: 1400.0,
            width_mm: 3200.0,
            span: Span::new(0.0, 2700.0).unwrap(),
            material: Material::Steel,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }],
        floor_features: Vec::new(),
        runways: Vec::new(),
        things: Vec::new(),
        keep_free: Vec::new(),
        bays: Vec::new(),
        survey: None,
        marks: Vec::new(),
        dimensions: vec![],
        provenance: Provenance::Example,
    };
    Arrangement {
        id: "as found".into(),
        bay,
        vehicle: vehicle(VehicleClass::SmallHatchback),
        aiming: aiming(corner),
        sensor: sensor(corner),
        parked: PlanPose::new(DVec2::new(4300.0, 3000.0), 0.0),
        parked_known: Default::default(),
        on_runways: Vec::new(),
        in_bay: None,
        kept_empty: Vec::new(),
        kept_shut: Vec::new(),
        beside: Vec::new(),
        on_this_car: OnThisCar::default(),
        marks_taped: Vec::new(),
        laid_before: Vec::new(),
        stands_read: Vec::new(),
        stands: vec![StandSet::OnMark],
        today: None,
        shop: Shop::default(),
        instruments: Default::default(),
        loading: Loading::default(),
    }
}

/// The same room with things in the way.
pub fn crowded() -> Arrangement {
    let mut arrangement = empty(false);
    let column = Circle::new(DVec2::ZERO, 60.0).unwrap();
    arrangement.bay.things = vec![
        thing(
            "trolley",
            ThingKind::Trolley,
            Shape::Rectangle { length_mm: 600.0, width_mm: 400.0 },
            (6300.0, 3100.0),
            (0.0, 860.0),
        ),
        cabinet("tool cabinet", (7450.0, 4475.0)),
        thing(
            "column",
            ThingKind::Column,
            Shape::Round { diameter_mm: 2.0 * column.radius() },
            (6300.0, 1420.0),
            (0.0, 3000.0),
        ),
        thing(
            "work bench",
            ThingKind::Bench,
            Shape::Rectangle { length_mm: 2000.0, width_mm: 650.0 },
            (2500.0, 5650.0),
            (0.0, 900.0),
        ),
        thing(
            "lamp",
            ThingKind::Lamp,
            Shape::Rectangle { length_mm: 1500.0, width_mm: 120.0 },
            (6000.0, 4300.0),
            (2850.0, 2950.0),
        ),
    ];
    arrangement
}
