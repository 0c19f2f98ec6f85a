//! The car from above, so that a customer sees a car and not a box.

use baywright_planner::Subject;
use baywright_planner::entry::class::Glass;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Wheel;

use super::Top;
use crate::lettering::size;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::view::pen::Pen;
use crate::view::space::Taken;

/// Length of a door mirror as drawn, mm: only for looks.
const MIRROR_MM: f64 = 150.0;

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let vehicle = &top.arrangement.vehicle;
    let place = |p: DVec2| top.at(top.scene.bay_from_vehicle * p);
    let ring = |points: &[DVec2]| points.iter().map(|&p| place(p)).collect::<Vec<_>>();
    let car = Some(Subject::Car);

    let half = vehicle.width_mm * 0.5;
    let (out, ahead) = (vehicle.mirrors.width_mm * 0.5, vehicle.mirrors.ahead_mm);
    if out > half {
        for side in [1.0, -1.0] {
            let mirror = [
                DVec2::new(ahead - MIRROR_MM * 0.5, side * half * 0.94),
                DVec2::new(ahead + MIRROR_MM * 0.35, side * half * 0.94),
                DVec2::new(ahead + MIRROR_MM * 0.2, side * (out * 0.97)),
                DVec2::new(ahead, side * out),
                DVec2::new(ahead - MIRROR_MM * 0.5, side * out),
            ];
            pen.ring(Role::CarBody, car.clone(), ring(&mirror));
        }
    }
    if vehicle.outline_top.len() >= 3 {
        pen.ring(Role::CarBody, car.clone(), ring(&vehicle.outline_top));
    } else {
        for solid in &top.scene.car {
            let shape = pen.outline(&solid.outline, &top.view_from_bay);
            pen.push(Role::CarBody, car.clone(), shape);
        }
    }

    let panes = Glass::of(vehicle).top;
    for line in edges(&panes, vehicle.front(), vehicle.rear(), half) {
        pen.line(Role::CarLine, car.clone(), ring(&line));
    }
    for pane in &panes {
        pen.ring(Role::CarGlass, car.clone(), ring(pane));
    }
    for wheel in Wheel::ALL {
        let at = top.arrangement.wheel_point(wheel);
        let size = DVec2::new(vehicle.tyre_diameter_mm, vehicle.tyre_width(wheel)) * 0.5;
        let tyre = [size, DVec2::new(-size.x, size.y), -size, DVec2::new(size.x, -size.y)].map(|c| at + c);
        pen.ring(Role::Tyre, car.clone(), ring(&tyre));
    }

    let corners = [
        DVec2::new(vehicle.front(), half),
        DVec2::new(vehicle.front(), -half),
        DVec2::new(vehicle.rear(), half),
        DVec2::new(vehicle.rear(), -half),
    ];
    if let Some(bounds) = Bounds::around(corners.map(place)) {
        pen.take_box(&bounds, Taken::Car);
        pen.take_body(&Subject::Car, &bounds);
    }
}

/// Which side is the car's left, beside it: only where the paper is free, after all that names something.
pub(super) fn left(pen: &mut Pen<'_>, top: &Top<'_>) {
    let vehicle = &top.arrangement.vehicle;
    let half = vehicle.width_mm.max(vehicle.mirrors.width_mm) * 0.5;
    let place = |along: f64| {
        let x = vehicle.rear() + (vehicle.front() - vehicle.rear()) * along;
        pen.px(top.at(top.scene.bay_from_vehicle * DVec2::new(x, half)))
    };
    // Left on the paper, whose y runs down.
    let out = (place(1.0) - place(0.0)).normalize_or(DVec2::X).perp() * -1.0;
    let style = pen.style(size::SMALL, Weight::Regular);
    let text = pen.measured(top.words.cars_left(), style);
    let beside = (out.y.abs() * style.line_height() + out.x.abs() * text.width) * 0.5 + 4.0;
    let places = ALONG.into_iter().zip(0_u8..).map(|(along, later)| {
        // A px in place of a name's cost: the first free one.
        (f64::from(later), place(along) + out * beside, Align::Middle)
    });
    if let Some((cost, at, align)) = pen.cheapest(text.width, style, places)
        && cost < ALONG.len() as f64
    {
        pen.put_level(Role::LabelSoft, None, text, style, (at, align));
    }
}

/// Where along the car its left is named, from its rear to its front: in the middle, else nearer to an end.
const ALONG: [f64; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92];

/// Edges of bonnet and roof: from the outer corners of the panes to the nose, to each other, to the tail.
fn edges(panes: &[Vec<DVec2>], front: f64, rear: f64, half: f64) -> Vec<Vec<DVec2>> {
    let corner = |pane: &[DVec2], foremost: bool| {
        // The outermost point of the pane's front or rear half.
        let bounds = Bounds::around(pane.iter().copied())?;
        let middle = bounds.centre().x;
        pane.iter().copied().filter(|p| (p.x >= middle) == foremost).max_by(|a, b| a.y.total_cmp(&b.y))
    };
    let mut lines = Vec::new();
    let [windscreen, rest @ ..] = panes else { return lines };
    for side in [1.0, -1.0] {
        let to_side = |p: DVec2| DVec2::new(p.x, p.y * side);
        if let Some(base) = corner(windscreen, true) {
            let nose = DVec2::new(base.x + (front - base.x) * 0.86, base.y * 0.72);
            lines.push(vec![to_side(base), to_side(nose)]);
        }
        if let Some(roof) = corner(windscreen, false) {
            let back = rest.first().and_then(|pane| corner(pane, true));
            let back = back.unwrap_or(DVec2::new(rear + (front - rear) * 0.03, half * 0.82));
            lines.push(vec![to_side(roof), to_side(back)]);
        }
    }
    lines
}
