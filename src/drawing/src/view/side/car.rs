//! The car from the side, or at a slant where the axis is a corner radar's sight line.

use baywright_planner::Subject;
use baywright_planner::entry::class::Glass;
use baywright_planner::geometry::{Bounds, DVec2, Polygon, angle, union};
use baywright_planner::model::Wheel;

use super::Side;
use crate::list::Shape;
use crate::role::Role;
use crate::view::pen::Pen;
use crate::view::space::Taken;

/// Below this sine of the angle between car and axis the car is drawn straight from its side: 0.1 mm in a metre.
const STRAIGHT: f64 = 1e-4;
/// A rim's share of the tyre's radius.
const RIM: f64 = 0.6;

pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>) {
    let vehicle = &side.arrangement.vehicle;
    let car = Some(Subject::Car);
    let up = side.scene.carried_at_mm;
    let axis_from_vehicle = side.axis_from_bay * side.scene.bay_from_vehicle;
    let (sin, cos) = angle::sin_cos(axis_from_vehicle.heading());
    let half = vehicle.width_mm * 0.5;
    // Which side of the car is seen: its right when it looks along the axis.
    let seen = if cos >= 0.0 { -half } else { half };
    let on_side = |p: DVec2, y: f64| DVec2::new((axis_from_vehicle * DVec2::new(p.x, y)).x, p.y + up);
    let near: Vec<DVec2> = vehicle.outline_side.iter().map(|&p| on_side(p, seen)).collect();
    let straight = sin.abs() < STRAIGHT;
    let mut bounds = Bounds::around(near.iter().copied());

    if near.len() < 3 {
        for solid in &side.scene.car {
            let ring = super::rectangle(side.along(&solid.outline), (solid.span.bottom(), solid.span.top()));
            pen.ring(Role::CarBody, car.clone(), ring);
        }
    } else if straight {
        pen.ring(Role::CarBody, car.clone(), near);
    } else {
        let far: Vec<DVec2> = vehicle.outline_side.iter().map(|&p| on_side(p, -seen)).collect();
        bounds = Bounds::around(near.iter().chain(&far).copied());
        for part in swept(&near, &far) {
            pen.push(Role::CarBody, car.clone(), Shape::Area(part.rings().map(<[DVec2]>::to_vec).collect()));
        }
        let first = near.first().copied();
        pen.line(Role::CarLine, car.clone(), near.into_iter().chain(first).collect());
    }
    for pane in Glass::of(vehicle).side {
        pen.ring(Role::CarGlass, car.clone(), pane.iter().map(|&p| on_side(p, seen)).collect());
    }
    for wheel in Wheel::ALL {
        let at = side.arrangement.wheel_point(wheel);
        if (at.y < 0.0) != (seen < 0.0) {
            continue;
        }
        let radius = vehicle.tyre_diameter_mm * 0.5;
        let centre = on_side(DVec2::new(at.x, radius), at.y);
        for (role, radius) in [(Role::Tyre, radius), (Role::Rim, radius * RIM)] {
            let shape = if straight {
                Shape::Disc { centre, radius }
            } else {
                ellipse(centre, radius * cos.abs(), radius)
            };
            pen.push(role, car.clone(), shape);
        }
    }
    if let Some(bounds) = bounds {
        pen.take_box(&bounds, Taken::Car);
        pen.take_body(&Subject::Car, &bounds);
    }
}

/// Everything between two equal rings, one shifted along x from the other: the silhouette of what they bound.
fn swept(near: &[DVec2], far: &[DVec2]) -> Vec<Polygon> {
    let next = |ring: &[DVec2]| ring.iter().copied().cycle().skip(1).take(ring.len()).collect::<Vec<_>>();
    let (near_next, far_next) = (next(near), next(far));
    let sides = near.iter().zip(&near_next).zip(far.iter().zip(&far_next));
    let sides = sides.filter_map(|((&a, &b), (&c, &d))| Polygon::simple(vec![a, b, d, c]).ok());
    let ends = [near, far].into_iter().filter_map(|ring| Polygon::simple(ring.to_vec()).ok());
    let all: Vec<Polygon> = ends.chain(sides).collect();
    union(&all)
}

fn ellipse(centre: DVec2, across: f64, up: f64) -> Shape {
    let point = |i: i32| {
        let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(i) / 32.0);
        centre + DVec2::new(across * cos, up * sin)
    };
    Shape::Area(vec![(0..32).map(point).collect()])
}
