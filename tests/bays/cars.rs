//! The shipped cars, and cars of one's own made from them.

use std::sync::OnceLock;

use baywright_files::{EMBEDDED_PROFILES, parse_profile};
use baywright_planner::geometry::{Circle, DVec2, Outline, Polygon, Span};
use baywright_planner::model::{
    Aiming, Datum, Edges, Exclusion, FloorRequirement, HeightsFrom, Provenance, ReferenceAxis, SensorKind,
    SensorPoint, TargetHeight, Vehicle, VerticalReference,
};

use crate::dice::Dice;
use crate::set_up::ring_of;

pub fn shipped() -> &'static [Vehicle] {
    static CARS: OnceLock<Vec<Vehicle>> = OnceLock::new();
    CARS.get_or_init(|| {
        let read = |text: &str, label: &str, name: &str| {
            parse_profile(label, name, text).expect("it is sound").vehicle
        };
        EMBEDDED_PROFILES.iter().map(|own| read(own.text, &own.label(), own.name)).collect()
    })
}

/// One of the shipped cars, or one with other tyres, targets and zones.
pub fn car(dice: &mut Dice) -> Vehicle {
    let mut car = shipped()[dice.count(0, shipped().len() - 1)].clone();
    if dice.often(0.6) {
        return car;
    }
    let own = || Provenance::Maker { document: "a test".into(), date: None };
    car.id = "own-car".into();
    car.name = "Own car".into();
    car.provenance = own();
    // Marks that go by a tyre's side move with it, so tyres grow on one's own side only: of the rear ones.
    car.tyre_width_rear_mm = dice.often(0.3).then(|| (car.tyre_width_mm + dice.within(-10.0, 10.0)).round());
    for sensor in &mut car.sensors {
        sensor.provenance = own();
        if sensor.kind.radar().is_some() && dice.often(0.2) {
            sensor.kind = SensorKind::Lidar;
        }
    }
    for aiming in &mut car.aimings {
        aiming.provenance = own();
        aiming.working_room_mm = dice.one(&[Some(0.0), Some(300.0), Some(600.0), None]);
        demands(dice, aiming);
        for zone in &mut aiming.zones {
            if dice.often(0.3) {
                zone.excludes = dice.one(&[
                    Exclusion::Anything,
                    Exclusion::Metal,
                    Exclusion::Reflecting(-10.0),
                    Exclusion::People,
                    Exclusion::Light,
                ]);
            }
            if dice.often(0.3) {
                zone.span =
                    Span::new(dice.one(&[0.0, 10.0, 300.0]), dice.within(400.0, 2_400.0)).expect("heights");
            }
            zone.outline = other(dice, &zone.outline);
        }
    }
    counted(&mut dice.apart(), &mut car);
    car.make_solids();
    car
}

/// From where a procedure counts: an edge of the sensor or a line on it, the line through the front spots.
fn counted(dice: &mut Dice, car: &mut Vehicle) {
    for sensor in &mut car.sensors {
        sensor.edges = Edges {
            lower_below_mm: Some(dice.within(20.0, 60.0).round()),
            upper_above_mm: Some(dice.within(20.0, 60.0).round()),
            line_above_mm: Some(dice.within(-20.0, 20.0).round()),
        };
    }
    for aiming in &mut car.aimings {
        let has_spots = aiming.front_spots().is_some();
        for placement in &mut aiming.placements {
            if let TargetHeight::FromSensor { point, offset_mm } = &mut placement.height {
                (*point, *offset_mm) = (dice.one(&SensorPoint::ALL), dice.within(-40.0, 60.0).round());
            }
            if has_spots && placement.stand_off.from == Datum::FrontAxle && dice.often(0.5) {
                placement.stand_off.from = Datum::FrontSpots;
            }
        }
    }
}

/// What a procedure asks of floor and car, and how it says where a target goes.
fn demands(dice: &mut Dice, aiming: &mut Aiming) {
    let may =
        |dice: &mut Dice, share: f64, low: f64, high: f64| dice.often(share).then(|| dice.within(low, high));
    if dice.often(0.7) {
        aiming.floor = dice.often(0.8).then(|| FloorRequirement {
            level_mm: dice.within(2.0, 15.0).round(),
            pitch_rad: may(dice, 0.4, 0.001, 0.006),
            roll_rad: may(dice, 0.4, 0.001, 0.006),
        });
    }
    if dice.often(0.3) {
        aiming.axis = ReferenceAxis::ThrustLine;
    }
    aiming.alignment.thrust_angle_rad = may(dice, 0.3, 0.001, 0.004);
    aiming.alignment.set_back_mm = may(dice, 0.3, 2.0, 15.0);
    let heights = if dice.often(0.7) { HeightsFrom::Wheels } else { HeightsFrom::Floor };
    for zone in &mut aiming.zones {
        zone.heights_from = heights;
    }
    for placement in &mut aiming.placements {
        placement.heights_from = heights;
        if dice.often(0.1) {
            placement.mark = None;
        }
        if dice.often(0.3) {
            placement.vertical = VerticalReference::WheelsPlane;
        }
        placement.tolerance.pitch_rad = may(dice, 0.3, 0.002, 0.01).or(placement.tolerance.pitch_rad);
        placement.tolerance.along_mm = may(dice, 0.3, 1.0, 5.0).or(placement.tolerance.along_mm);
        placement.tolerance.height_mm = may(dice, 0.3, 1.0, 12.0).or(placement.tolerance.height_mm);
        if let Some(stand) = &mut placement.target.stand {
            (stand.lowest_mm, stand.highest_mm) =
                (Some(50.0), Some(if dice.often(0.05) { 400.0 } else { 4_000.0 }));
        }
    }
}

/// A zone's outline with its corners elsewhere, or made round.
fn other(dice: &mut Dice, outline: &Outline) -> Outline {
    let ring = ring_of(outline);
    let middle = ring.iter().sum::<DVec2>() / ring.len() as f64;
    if dice.often(0.1) {
        return Circle::new(middle, dice.within(200.0, 900.0)).expect("a circle").into();
    }
    let off = ring.iter().map(|p| *p + DVec2::new(dice.within(-150.0, 150.0), dice.within(-150.0, 150.0)));
    Polygon::simple(off.collect()).map_or_else(|_| outline.clone(), Outline::from)
}
