//! An invented car, aiming and bay, small enough to work every expected figure out by hand.
//!
//! The bay is 12 m by 6 m, 3 m high. The car stands with its front axle at x = 4 m on the middle line, nose along x.
//! Its forward radar sits 800 mm ahead of the axle, 500 mm up. The target is 4 m ahead of the sensor.

pub(crate) use crate::geometry::marks::{Construction, Reach, Tool};
pub(crate) use crate::geometry::{DVec2, DVec3, PlanPose, Polygon, Prism, Span, angle};
pub(crate) use crate::model::*;
pub(crate) use crate::{
    Assessment, Code, Facts, Finding, FloorFact, InSight, InZone, OffBy, OffPlace, Quantity, Severity,
    StandReach, Step, Subject, Tilt, Verdict, assess, words,
};

pub fn rectangle(low: (f64, f64), high: (f64, f64)) -> Polygon {
    Polygon::rectangle(low.into(), high.into()).unwrap()
}

pub fn span(bottom: f64, top: f64) -> Span {
    Span::new(bottom, top).unwrap()
}

/// A box of `length` × `width` standing at `at`, from the floor to 1000 mm, steel, exactly known.
pub fn cabinet(name: &str, at: (f64, f64), length: f64, width: f64) -> Thing {
    let shape = Shape::Rectangle { length_mm: length, width_mm: width };
    Thing {
        id: name.into(),
        kind: ThingKind::Cabinet,
        footprint: Footprint::new(shape).unwrap(),
        place: Place { at: PlanPose::new(at.into(), 0.0), known: Known::Within(0.0) },
        span: span(0.0, 1000.0),
        material: Material::Steel,
        effort: Effort::OnePerson,
        metal: None,
        locked: false,
    }
}

pub fn column(name: &str, at: (f64, f64), diameter: f64) -> Thing {
    let shape = Shape::Round { diameter_mm: diameter };
    Thing {
        kind: ThingKind::Column,
        footprint: Footprint::new(shape).unwrap(),
        span: span(0.0, 3000.0),
        effort: Effort::Fixed,
        ..cabinet(name, at, 1.0, 1.0)
    }
}

pub fn radar() -> Sensor {
    Sensor {
        id: "forward radar".into(),
        kind: SensorKind::ForwardRadar(Radar {
            frequency_hz: 77e9,
            bandwidth_hz: 1e9,
            beam_azimuth_rad: angle::radians(20.0),
            beam_elevation_rad: angle::radians(10.0),
        }),
        at: DVec3::new(800.0, 0.0, 500.0),
        edges: Edges::default(),
        azimuth_rad: 0.0,
        elevation_rad: 0.0,
        view: FieldOfView {
            azimuth_half_rad: angle::radians(45.0),
            elevation_half_rad: angle::radians(15.0),
        },
        adjusted: Adjusted::Screw,
        screws: Default::default(),
        provenance: Provenance::Measured { by: "a test".into(), date: None },
    }
}

pub fn target(kind: TargetKind, error: AimError) -> Target {
    Target {
        kind,
        width_mm: 500.0,
        height_mm: 500.0,
        depth_mm: 20.0,
        centre_behind_mm: 0.0,
        error,
        stand: Some(Stand {
            base: rectangle((-500.0, -300.0), (-20.0, 300.0)).into(),
            base_height_mm: 60.0,
            mast_mm: 50.0,
            mast_behind_mm: 60.0,
            top_mm: 800.0,
            lowest_mm: None,
            highest_mm: None,
        }),
    }
}

pub fn aiming() -> Aiming {
    let wheels = [
        ("1", Construction::Outboard { wheel: Wheel::RearLeft, distance: 150.0 }),
        ("2", Construction::Outboard { wheel: Wheel::RearRight, distance: 150.0 }),
        ("3", Construction::Outboard { wheel: Wheel::FrontLeft, distance: 150.0 }),
        ("4", Construction::Outboard { wheel: Wheel::FrontRight, distance: 150.0 }),
        ("5", Construction::Prolong { from: 0, through: 2, reach: Reach::AbreastOf(0) }),
        ("6", Construction::Prolong { from: 1, through: 3, reach: Reach::AbreastOf(0) }),
        ("T", Construction::Middle { first: 4, second: 5 }),
    ];
    Aiming {
        id: "plate".into(),
        name: "Forward radar, plate".into(),
        sensor: "forward radar".into(),
        placements: vec![Placement {
            id: "ahead".into(),
            target: target(TargetKind::Plate, AimError::SQUARENESS),
            stand_off: StandOff {
                from: Datum::Sensor,
                to: End::Face,
                distance_mm: 4000.0,
                bearing_rad: 0.0,
                aside_mm: 0.0,
                along: MeasuredAlong::Floor,
            },
            height: TargetHeight::from_centre(0.0),
            heights_from: HeightsFrom::Floor,
            vertical: VerticalReference::Gravity,
            turned_rad: 0.0,
            mark: Some("T".into()),
            tolerance: PlaceTolerance { along_mm: Some(10.0), across_mm: Some(10.0), ..Default::default() },
            with: None,
        }],
        mark_plan: wheels
            .into_iter()
            .map(|(id, construction)| MarkStep { id: id.into(), construction })
            .collect(),
        tolerance: AimTolerance { azimuth_rad: angle::radians(0.1), elevation_rad: angle::radians(0.1) },
        zones: vec![KeepClear {
            id: "beam".into(),
            frame: ZoneFrame::Vehicle,
            outline: rectangle((900.0, -1500.0), (5800.0, 1500.0)).into(),
            span: span(0.0, 1500.0),
            heights_from: HeightsFrom::Floor,
            excludes: Exclusion::Metal,
        }],
        floor: Some(FloorRequirement::level(5.0)),
        alignment: AlignmentLimits::default(),
        axis: ReferenceAxis::GeometricCentreline,
        working_room_mm: Some(600.0),
        names_no_zone: false,
        have_ready: vec![],
        conditions: vec![],
        provenance: Provenance::Maker { document: "a test".into(), date: None },
    }
}

/// An open roller door, 2500 mm high, with this much free ground beyond.
pub fn open_door(wall: usize, from_mm: f64, width_mm: f64, free_beyond_mm: f64) -> Opening {
    Opening {
        id: "roller door".into(),
        kind: OpeningKind::RollerDoor,
        wall,
        from_mm,
        width_mm,
        span: span(0.0, 2_500.0),
        material: Material::Steel,
        shut: false,
        free_beyond_mm,
        is_exit: false,
    }
}

/// A shut wooden swing door of 900 mm in the left wall at y = 6000, x from 7100 to 8000 (that wall runs from x = 12 000 back to 0).
pub fn side_door() -> Opening {
    Opening {
        id: "side door".into(),
        kind: OpeningKind::SwingDoor,
        span: span(0.0, 2_000.0),
        material: Material::Wood,
        shut: true,
        ..open_door(2, 4_000.0, 900.0, 0.0)
    }
}

pub fn vehicle() -> Vehicle {
    let body = rectangle((-3400.0, -900.0), (850.0, 900.0));
    Vehicle {
        id: "test-car".into(),
        name: "Test car".into(),
        class: VehicleClass::Other,
        length_mm: 4250.0,
        width_mm: 1800.0,
        mirrors: Mirrors { width_mm: 2000.0, ahead_mm: -600.0, height_mm: 1000.0 },
        height_mm: 1500.0,
        wheelbase_mm: 2600.0,
        track_front_mm: 1540.0,
        track_rear_mm: 1540.0,
        overhang_front_mm: 850.0,
        overhang_rear_mm: 800.0,
        tyre_diameter_mm: 630.0,
        tyre_width_mm: 200.0,
        tyre_width_rear_mm: None,
        ground_clearance_mm: 150.0,
        ride_heights: None,
        ride_height_off_mm: None,
        outline_top: body.outer().to_vec(),
        outline_side: [(-3400.0, 150.0), (850.0, 150.0), (850.0, 1500.0), (-3400.0, 1500.0)]
            .map(DVec2::from)
            .into(),
        assumed: vec![],
        body_points: vec![],
        sensors: vec![radar()],
        aimings: vec![aiming()],
        provenance: Provenance::Maker { document: "a test".into(), date: None },
        body: vec![Prism::new(body.into(), span(150.0, 1500.0))].into(),
    }
}

pub fn bay() -> Bay {
    let wall = |id: &str| Wall { id: id.into(), material: Material::Brick };
    let level = move |x: f64, y: f64| LevelPoint { at: DVec2::new(x, y), level_mm: 0.0 };
    Bay {
        id: "test-bay".into(),
        name: "Test bay".into(),
        room: rectangle((0.0, 0.0), (12_000.0, 6_000.0)),
        walls: vec![wall("right wall"), wall("far wall"), wall("left wall"), wall("near wall")],
        walls_known: Known::Within(0.0),
        ceiling_mm: 3000.0,
        openings: vec![],
        floor_features: vec![],
        runways: vec![],
        things: vec![],
        keep_free: vec![],
        bays: vec![],
        survey: Some(FloorSurvey {
            taken: Some(jiff::civil::date(2026, 6, 1)),
            points: (0..=12)
                .flat_map(|x| (0..=6).map(move |y| level(1e3 * f64::from(x), 1e3 * f64::from(y))))
                .collect(),
            // As sure as any survey: what is unsure of a level is each test's own.
            how: LevelsTaken { within_mm: Some(0.05), ..LevelsTaken::default() },
            provenance: Provenance::Measured { by: "a test".into(), date: None },
        }),
        marks: vec![],
        dimensions: vec![],
        provenance: Provenance::Measured { by: "a test".into(), date: None },
    }
}

/// Space ready, nothing found at all.
pub fn clear() -> Arrangement {
    Arrangement {
        id: "clear".into(),
        bay: bay(),
        vehicle: vehicle(),
        aiming: aiming(),
        sensor: radar(),
        parked: PlanPose::new(DVec2::new(4_000.0, 3_000.0), 0.0),
        parked_known: ParkedKnown::Within { mm: 0.0, rad: 0.0 },
        on_runways: vec![],
        in_bay: None,
        kept_empty: vec![],
        kept_shut: vec![],
        beside: vec![],
        on_this_car: OnThisCar::default(),
        marks_taped: Vec::new(),
        laid_before: Vec::new(),
        stands_read: Vec::new(),
        stands: vec![StandSet::OnMark],
        today: Some(jiff::civil::date(2026, 11, 1)),
        shop: Shop::default(),
        instruments: Default::default(),
        loading: Loading::default(),
    }
}

/// The clear arrangement with these things in it.
pub fn with(things: Vec<Thing>) -> Arrangement {
    let mut arrangement = clear();
    arrangement.bay.things = things;
    arrangement
}

pub fn of(assessment: &Assessment, code: Code) -> Vec<&Finding> {
    assessment.findings.iter().filter(|f| f.code() == code).collect()
}

/// The only finding of this code; its severity and measured value are checked.
pub fn check(arrangement: &Arrangement, code: Code, severity: Severity, measured: Option<f64>) -> Finding {
    let assessment = assess(arrangement);
    let found = of(&assessment, code);
    assert_eq!(found.len(), 1, "{code:?} in {:#?}", assessment.findings);
    assert_eq!(found[0].severity, severity, "{:?}", found[0]);
    if let Some(expected) = measured {
        let value = number(found[0].measured.unwrap());
        assert!((value - expected).abs() < 1e-6, "{value} instead of {expected}");
    }
    found[0].clone()
}

/// No finding of this code.
pub fn none(arrangement: &Arrangement, code: Code) {
    let assessment = assess(arrangement);
    assert!(of(&assessment, code).is_empty(), "{:#?}", of(&assessment, code));
}

pub fn number(quantity: Quantity) -> f64 {
    use Quantity::{Angle, Days, Length, Ratio, Share};
    match quantity {
        Length(v) | Angle(v) | Share(v) | Ratio(v) => v,
        Days(v) => v as f64,
    }
}

/// The car with its front axle so far along the bay, on the middle line.
pub fn parked_at(x: f64) -> Arrangement {
    let mut arrangement = clear();
    arrangement.parked = PlanPose::new(DVec2::new(x, 3_000.0), 0.0);
    arrangement
}

/// The target set off its place by these: away, left seen from the sensor, up, turned (degrees), tipped (degrees).
pub fn off(kind: TargetKind, error: AimError, by: [f64; 5]) -> Arrangement {
    let [along, across, up, yaw, pitch] = by;
    let mut arrangement = clear();
    arrangement.aiming.placements[0].target = target(kind, error);
    arrangement.aiming.placements[0].tolerance = PlaceTolerance::default();
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(
            DVec2::new(8_800.0 + along, 3_000.0 + across),
            angle::radians(180.0) + angle::radians(yaw),
        ),
        height_mm: 500.0 + up,
        pitch_rad: angle::radians(pitch),
    }];
    arrangement
}

/// The clear arrangement on two runways 400 mm high and 500 wide, each wheel 270 mm from its runway's outer edge. Their
/// levels, and the floor's, are surveyed.
pub fn raised() -> Arrangement {
    let mut arrangement = clear();
    let survey = |low: f64, high: f64| FloorSurvey {
        points: (0..=9)
            .flat_map(|x| [low, high].map(|y| DVec2::new(500.0 + 500.0 * f64::from(x), y)))
            .map(|at| LevelPoint { at, level_mm: 0.0 })
            .collect(),
        ..arrangement.bay.survey.clone().unwrap()
    };
    let runway = |name: &str, low: f64, high: f64| Runway {
        id: name.into(),
        outline: rectangle((500.0, low), (5_000.0, high)),
        top_mm: 400.0,
        survey: Some(survey(low, high)),
    };
    arrangement.bay.runways =
        vec![runway("left runway", 3_500.0, 4_000.0), runway("right runway", 2_000.0, 2_500.0)];
    arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
    arrangement
}
