//! Room to walk and work around the car.
//!
//! Rule: things that a person cannot step over or duck under, walls and open pits keep the aiming's working room from the body.
//! Limit: the aiming's working room, else the shop's own; what a person steps over or ducks under, the shop's own.

use baywright_geometry::distance::{Separation, distance, distance_to_segment};
use baywright_geometry::overlap::overlaps;
use baywright_geometry::{DVec2, Outline, Prism, Span};

use super::claim::{Claim, Volume};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, thing_subject, wall_id};
use crate::model::{Arrangement, ShopFigure};
use crate::scene::Scene;

pub(super) const CHECK: Check =
    Check { codes: &[Code::WorkingRoom], things, whole, claims, remedy, ..Check::NONE };

/// A side of the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CarSide {
    /// Ahead of it.
    Front,
    /// On its left.
    Left,
    /// Behind it.
    Rear,
    /// On its right.
    Right,
}

/// A wall or a runway beside the car is seen to when the car is parked.
fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

/// Each convex part of the car, larger all round by the room to work in: together they are what the rule measures, since
/// between body and mirrors nobody is asked to keep more.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    let Some((room, walking)) = asked(arrangement) else { return };
    for solid in &scene.car {
        for part in solid.outline.as_polygon().pieces() {
            let volume = Volume::Within { of: part.to_vec(), reach_mm: room, span: walking };
            claims.push(Claim::with_car(Subject::Car, volume, Code::WorkingRoom, Severity::Care));
        }
    }
}

/// How much room is asked for, and at which heights; `None` if none is.
fn asked(arrangement: &Arrangement) -> Option<(f64, Span)> {
    let room = arrangement.working_room_mm();
    let walking = Span::new(arrangement.shop.step_over_mm, arrangement.shop.duck_under_mm).ok()?;
    (room > 0.0).then_some((room, walking))
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some((room, walking)) = asked(context.arrangement) else { return };
    for seen in context.things_near(context.scene.car_bounds.grown(room)) {
        if seen.placed.prism.span.shared(&walking).is_none() {
            continue;
        }
        let gaps = gaps(context, &seen.placed.prism);
        nearest(context, thing_subject(&seen.thing.id), gaps, room, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some((room, walking)) = asked(context.arrangement) else { return };
    for (subject, fixture) in
        context.fixtures().filter(|(_, fixture)| fixture.span.shared(&walking).is_some())
    {
        nearest(context, subject, gaps(context, &fixture), room, findings);
    }
    // One does not step over an open pit either; the car may stand over one, and of what sticks out from under it nobody
    // keeps away.
    for (pit, hole) in context.pits() {
        let under =
            |solid: &&Prism| !sticks_out(context, solid, &hole) && overlaps(&solid.outline, &hole.outline);
        match context.scene.car.iter().find(under) {
            Some(solid) if !context.is_under_the_car(&hole.outline) => {
                let at = farthest_from(&hole.outline, solid.outline.bounds().centre());
                nearest(context, pit, [Separation::Touching { at }].into_iter(), room, findings);
            }
            Some(_) => {}
            None => nearest(context, pit, gaps(context, &hole), room, findings),
        }
    }
    let room_around = &context.scene.room;
    for edge in 0..context.arrangement.bay.walls.len() {
        // One can walk through an open door, and not beside its jambs.
        let standing = room_around.wall_at(edge, &walking);
        let gaps = standing.iter().flat_map(|wall| {
            context.scene.car.iter().map(move |solid| distance_to_segment(&solid.outline, wall))
        });
        if let Some(id) = wall_id(context.arrangement, edge) {
            nearest(context, Subject::Wall(id.into_owned()), gaps, room, findings);
        }
    }
}

/// The corner of an outline that is farthest from a place.
fn farthest_from(outline: &Outline, from: DVec2) -> DVec2 {
    let ring = outline.as_polygon();
    let by_distance = |a: &&DVec2, b: &&DVec2| a.distance(from).total_cmp(&b.distance(from));
    ring.outer().iter().max_by(by_distance).copied().unwrap_or(from)
}

/// How far each solid of the car is from a thing, but for what sticks out of the body over or under it, as a door mirror
/// does over a low box: that leaves no way past beside the body.
fn gaps<'a>(context: &'a Context<'_>, other: &'a Prism) -> impl Iterator<Item = Separation> + 'a {
    let gaps = context.scene.car.iter().map(move |solid| (solid, distance(&solid.outline, &other.outline)));
    let gaps = gaps
        .filter(move |(solid, gap)| *gap != Separation::Overlapping || !sticks_out(context, solid, other));
    gaps.map(|(_, gap)| gap)
}

/// Whether a solid of the car sticks out of its body over or under something.
fn sticks_out(context: &Context<'_>, solid: &Prism, other: &Prism) -> bool {
    context.is_aside(solid) && solid.span.shared(&other.span).is_none()
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
        let aiming = &context.arrangement.aiming;
        let basis = match aiming.working_room_mm {
            Some(_) => Basis::Procedure(aiming.provenance.clone()),
            None => Basis::Shop(ShopFigure::WorkingRoom),
        };
        findings.push(
            finding(
                Facts::WorkingRoom(side(context, at)),
                Severity::Care,
                vec![subject, Subject::Car],
                at.extend(0.0),
                basis,
            )
            .against(Quantity::Length(gap), Quantity::Length(room)),
        );
    }
}

/// On which side of the car a point of the bay lies.
fn side(context: &Context<'_>, at: DVec2) -> CarSide {
    let own = context.scene.bay_from_vehicle.inverse() * at;
    let vehicle = &context.arrangement.vehicle;
    let past_front = own.x - vehicle.front();
    let past_rear = vehicle.rear() - own.x;
    let past_side = own.y.abs() - vehicle.width_mm * 0.5;
    if past_side >= past_front && past_side >= past_rear {
        if own.y > 0.0 { CarSide::Left } else { CarSide::Right }
    } else if past_front >= past_rear {
        CarSide::Front
    } else {
        CarSide::Rear
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn room_to_work() {
        let mut arrangement = with(vec![cabinet("bench", (2_000.0, 4_600.0), 600.0, 600.0)]);
        let found = check(&arrangement, Code::WorkingRoom, Severity::Care, Some(400.0));
        assert_eq!(found.facts, Facts::WorkingRoom(crate::CarSide::Left));
        arrangement.bay.things[0].place.at = crate::geometry::PlanPose::new((2_000.0, 4_800.0).into(), 0.0);
        none(&arrangement, Code::WorkingRoom);
    }

    /// The body's left side is at y = 3900, the mirror's at 4000. A bench behind the mirror wants 600 mm from the body and from the
    /// mirror, not from a line between the mirror and the tail: where 1 mm is missing, 1 mm is asked for, and what is uncertain.
    #[test]
    fn what_is_missing_is_what_is_asked_for() {
        let mut arrangement = with(vec![cabinet("bench", (2_000.0, 4_799.0), 600.0, 600.0)]);
        let body = arrangement.vehicle.solids()[0].clone();
        let mirror = rectangle((-800.0, -1_000.0), (-600.0, 1_000.0));
        arrangement.vehicle.body = vec![body, Prism::new(mirror.into(), span(950.0, 1_100.0))].into();
        let missing = |arrangement: &Arrangement| {
            let found = check(arrangement, Code::WorkingRoom, Severity::Care, Some(599.0));
            let Step::MoveThing { by, .. } = found.cure.unwrap().step else { panic!("it is moved") };
            by.length()
        };
        assert_eq!(missing(&arrangement), 1.0);
        arrangement.bay.things[0].place.known = Known::Within(30.0);
        assert_eq!(missing(&arrangement), 31.0);
        // Beside the mirror it is the mirror that counts.
        arrangement.bay.things[0] = cabinet("bench", (3_400.0, 4_899.0), 600.0, 600.0);
        assert_eq!(missing(&arrangement), 1.0);
    }

    /// The body is 1800 mm wide, and its mirrors are inside: the jambs of a door 2400 wide leave 300 on each side.
    #[test]
    fn beside_the_jambs_of_a_door() {
        let mut arrangement = parked_at(1_000.0);
        arrangement.bay.openings = vec![open_door(3, 1_800.0, 2_400.0, 5_000.0)];
        let found = check(&arrangement, Code::WorkingRoom, Severity::Care, Some(300.0));
        assert_eq!(found.subjects[0], crate::Subject::Wall("near wall".into()));
        arrangement.bay.openings = vec![open_door(3, 1_000.0, 4_000.0, 5_000.0)];
        none(&arrangement, Code::WorkingRoom);
    }

    /// The body's left side is at y = 3900; a door mirror sticks out over a box 300 high that is 70 mm beside it, and the body
    /// itself over a creeper of that height, which is in nobody's way.
    #[test]
    fn under_a_mirror_there_is_no_way_past() {
        let mut arrangement = with(vec![cabinet("box", (3_200.0, 4_120.0), 200.0, 300.0)]);
        arrangement.bay.things[0].span = span(0.0, 600.0);
        let outline = rectangle((-900.0, 900.0), (-700.0, 1_100.0));
        let mirror = crate::geometry::Prism::new(outline.into(), span(900.0, 1_100.0));
        let mut solids = arrangement.vehicle.solids().to_vec();
        solids.push(mirror);
        arrangement.vehicle.body = solids.into();
        check(&arrangement, Code::WorkingRoom, Severity::Care, Some(70.0));
    }

    #[test]
    fn a_pit_beside_the_car() {
        let mut arrangement = clear();
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "pit".into(),
            kind: FloorFeatureKind::Pit,
            outline: rectangle((1_000.0, 4_000.0), (3_000.0, 4_700.0)),
            material: Material::Concrete,
            proud_mm: 0.0,
        }];
        let found = check(&arrangement, Code::WorkingRoom, Severity::Care, Some(100.0));
        assert_eq!(found.subjects[0], Subject::FloorFeature("pit".into()));
        // A door mirror over it leaves no way past either.
        let outline = rectangle((-900.0, 900.0), (-700.0, 1_100.0));
        let mut solids = arrangement.vehicle.solids().to_vec();
        solids.push(crate::geometry::Prism::new(outline.into(), span(900.0, 1_100.0)));
        arrangement.vehicle.body = solids.into();
        arrangement.bay.floor_features[0].outline = rectangle((3_000.0, 4_000.0), (3_500.0, 4_700.0));
        check(&arrangement, Code::WorkingRoom, Severity::Care, Some(100.0));
        // The car may stand over one.
        arrangement.bay.floor_features[0].outline = rectangle((1_000.0, 2_700.0), (3_000.0, 3_300.0));
        none(&arrangement, Code::WorkingRoom);
        // Of one that reaches out before its nose nobody keeps away.
        arrangement.bay.floor_features[0].outline = rectangle((1_000.0, 2_700.0), (5_500.0, 3_300.0));
        check(&arrangement, Code::WorkingRoom, Severity::Care, Some(0.0));
    }
}
