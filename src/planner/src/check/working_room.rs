//! Room to walk and work around the car.
//!
//! Rule: things that a person cannot step over or duck under, and walls, keep the aiming's working room from the body.
//! Limit: the aiming's working room; 600 mm unless it says otherwise (common practice, no source).

use baywright_geometry::distance::{Separation, distance, distance_to_segment};
use baywright_geometry::{DVec2, Span};

use super::{Context, SPEAKS_FROM_MM, finding, thing_subject, wall_id};
use crate::assessment::{Basis, CarSide, Code, Facts, Finding, Quantity, Severity, Subject};

/// A person steps over what is lower and ducks under what is higher (common practice, no source).
const IN_THE_WAY_MM: (f64, f64) = (250.0, 1800.0);

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let room = context.arrangement.aiming.working_room;
    if room <= 0.0 {
        return;
    }
    let Ok(walking) = Span::new(IN_THE_WAY_MM.0, IN_THE_WAY_MM.1) else { return };
    for seen in context.things_near(context.scene.car_bounds.grown(room)) {
        if seen.placed.prism.span.shared(&walking).is_none() {
            continue;
        }
        let gaps = context.scene.car.iter().map(|solid| distance(&solid.outline, &seen.placed.prism.outline));
        nearest(context, thing_subject(&seen.thing.id), gaps, room, findings);
    }
    if !context.is_whole() {
        return;
    }
    for (subject, runway) in
        context.idle_runways().filter(|(_, runway)| runway.span.shared(&walking).is_some())
    {
        let gaps = context.scene.car.iter().map(|solid| distance(&solid.outline, &runway.outline));
        nearest(context, subject, gaps, room, findings);
    }
    for (edge, wall) in context.scene.room.walls().edges().enumerate() {
        let gaps = context.scene.car.iter().map(|solid| distance_to_segment(&solid.outline, &wall));
        if let Some(id) = wall_id(context.arrangement, edge) {
            nearest(context, Subject::Wall(id.into_owned()), gaps, room, findings);
        }
    }
}

fn nearest(
    context: &Context<'_>,
    subject: Subject,
    gaps: impl Iterator<Item = Separation>,
    room: f64,
    findings: &mut Vec<Finding>,
) {
    let nearest = gaps.min_by(|a, b| a.gap().total_cmp(&b.gap()));
    // What overlaps or touches is a clash, or no gap to walk in at all.
    let (gap, at) = match nearest {
        Some(Separation::Apart { gap, from, to }) => (gap, (from + to) * 0.5),
        Some(Separation::Touching { at }) => (0.0, at),
        Some(Separation::Overlapping) | None => return,
    };
    if gap < room - SPEAKS_FROM_MM {
        findings.push(
            finding(
                Code::WorkingRoom,
                Severity::Care,
                vec![subject, Subject::Car],
                at.extend(0.0),
                Basis::CommonPractice,
            )
            .against(Quantity::Length(gap), Quantity::Length(room))
            .knowing(Facts::Side(side(context, at))),
        );
    }
}

/// On which side of the car a point of the bay lies.
fn side(context: &Context<'_>, at: DVec2) -> CarSide {
    let own = context.scene.bay_from_vehicle.inverse() * at;
    let vehicle = &context.arrangement.vehicle;
    let past_front = own.x - vehicle.front();
    let past_rear = vehicle.rear() - own.x;
    let past_side = own.y.abs() - vehicle.width * 0.5;
    if past_side >= past_front && past_side >= past_rear {
        if own.y > 0.0 { CarSide::Left } else { CarSide::Right }
    } else if past_front >= past_rear {
        CarSide::Front
    } else {
        CarSide::Rear
    }
}
