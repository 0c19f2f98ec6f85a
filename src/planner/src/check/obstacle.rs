//! What of the room may be in the way of a set-up: things, runways, what is proud of the floor, walls, the ceiling, each with how
//! well its place is known.

use baywright_geometry::{Bounds, DVec2, PlanPose, Prism};

use super::finding::Subject;
use super::{Context, SPEAKS_FROM_MM, Seen, thing_subject, wall_id};
use crate::model::{Known, Material, Thing};

/// Something of the room that is in the way where it is claimed.
pub(super) struct Obstacle<'a> {
    pub subject: Subject,
    pub shape: Shape<'a>,
    pub bounds: Bounds,
    /// How well its place is known, mm either way.
    pub known_mm: f64,
    /// Who says so.
    pub known: Known,
}

impl Obstacle<'_> {
    /// A box around it in plan, in a frame that is given from the bay.
    pub fn bounds_from(&self, own_from_bay: &PlanPose) -> Bounds {
        match &self.shape {
            Shape::Thing(_, prism) => prism.outline.bounds_from(own_from_bay),
            Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => {
                prism.outline.bounds_from(own_from_bay)
            }
            Shape::Wall(_, corners) => around(corners, own_from_bay),
            Shape::Ceiling(_, corners) => around(corners, own_from_bay),
        }
    }
}

fn around(corners: &[DVec2], own_from_bay: &PlanPose) -> Bounds {
    let none = Bounds { low: DVec2::ZERO, high: DVec2::ZERO };
    Bounds::around(corners.iter().map(|&p| *own_from_bay * p)).unwrap_or(none)
}

/// Its shape, by what it is.
pub(super) enum Shape<'a> {
    Thing(&'a Thing, &'a Prism),
    /// A runway that carries no car, which is steel.
    Runway(Prism),
    /// One that carries the car: the set-up was meant to be beside it, but its stands and what is seen must not meet it.
    Carrying(Prism),
    /// What stands proud of the floor, and what it is made of.
    Proud(Prism, Material),
    /// Over all of the room, whose corners these are.
    Ceiling(f64, &'a [DVec2]),
    /// Of this position, at every height but for what open doors let through; with the corners of the ground beyond.
    Wall(usize, Vec<DVec2>),
}

/// The things to look at: those that are nearer to anything that is claimed than what is known of their place, and so much more, mm.
pub(super) fn things_of<'a>(context: &'a Context<'_>, more_mm: f64) -> impl Iterator<Item = Obstacle<'a>> {
    let is_near = move |seen: &Seen<'_>| {
        let reach = seen.placed.known_mm + more_mm + SPEAKS_FROM_MM;
        context.claims().around().is_some_and(|claimed| claimed.meets(&seen.placed.bounds.grown(reach)))
    };
    context.things().filter(is_near).map(|seen| Obstacle {
        subject: thing_subject(&seen.thing.id),
        shape: Shape::Thing(seen.thing, &seen.placed.prism),
        bounds: seen.placed.bounds,
        known_mm: seen.placed.known_mm,
        known: seen.thing.place.known,
    })
}

/// Runways, what is proud of the floor, walls and ceiling: their places are known as the room's walls are.
pub(super) fn rest_of_room<'a>(context: &'a Context<'_>) -> impl Iterator<Item = Obstacle<'a>> {
    let known = context.arrangement.bay.walls_known;
    let known_mm = context.arrangement.shop.within(known);
    let runways = context.idle_runways().map(move |(subject, prism)| Obstacle {
        subject,
        bounds: prism.outline.bounds(),
        shape: Shape::Runway(prism),
        known_mm,
        known,
    });
    let carrying = context.carrying_steel().map(move |(subject, prism)| Obstacle {
        subject,
        bounds: prism.outline.bounds(),
        shape: Shape::Carrying(prism),
        known_mm,
        known,
    });
    let corners = context.scene.room.walls().outer();
    let ceiling = Obstacle {
        subject: Subject::Ceiling,
        shape: Shape::Ceiling(context.arrangement.bay.ceiling_mm, corners),
        bounds: context.scene.room.walls().bounds(),
        known_mm,
        known,
    };
    let walls = (0..context.arrangement.bay.walls.len()).filter_map(move |wall| {
        let corners = context.scene.room.corners_of(wall);
        Some(Obstacle {
            subject: Subject::Wall(wall_id(context.arrangement, wall)?.into_owned()),
            bounds: Bounds::around(corners.iter().copied())?,
            shape: Shape::Wall(wall, corners),
            known_mm,
            known,
        })
    });
    let features = context.arrangement.bay.floor_features.iter().filter_map(move |own| {
        let prism = own.solid()?;
        Some(Obstacle {
            subject: Subject::FloorFeature(own.id.clone()),
            bounds: prism.outline.bounds(),
            shape: Shape::Proud(prism, own.material),
            known_mm,
            known,
        })
    });
    runways.chain(carrying).chain(features).chain(walls).chain([ceiling])
}
