//! The checks: each one a function in one list. A check turns facts of geometry into findings; it never fails.
//!
//! To add one: a file here with its rule, code, limit and tests, its code in [`crate::assessment::Code`], its sentence
//! in [`crate::words`], and one line in [`ALL`].

mod axis;
mod car_clash;
mod conditions;
mod field_of_view;
mod figures;
mod floor_levels;
mod fresnel;
mod head_room;
mod keep_free;
mod mark_place;
mod mark_target;
mod outside_room;
mod runs;
mod sight;
mod stand_clash;
mod stand_off_mark;
mod thing_place;
mod wheels;
mod working_room;
mod zones;

use std::borrow::Cow;

use baywright_geometry::{Bounds, DVec2, DVec3, Prism, Span};

use crate::assessment::{Basis, Code, Cure, Facts, Finding, Quantity, Severity, Subject};
use crate::model::{Arrangement, Id, Thing};
use crate::scene::{PlacedThing, Scene};

pub(crate) use figures::on_examples;
pub(crate) use keep_free::areas as keep_free_areas;
pub(crate) use mark_place::HAND_MM;
pub(crate) use outside_room::binds as walls_bind;
pub(crate) use runs::top_of_run;
pub(crate) use zones::excluded;

/// The planner speaks from a hundredth of a millimetre on: what is less, no tape shows.
pub const SPEAKS_FROM_MM: f64 = 0.01;

/// One check.
pub type Check = fn(&Context<'_>, &mut Vec<Finding>);

/// Every check. The order does not matter: findings are sorted afterwards.
pub const ALL: &[Check] = &[
    zones::check,
    sight::check,
    fresnel::check,
    car_clash::check,
    stand_clash::check,
    mark_place::check,
    runs::check,
    head_room::check,
    working_room::check,
    keep_free::check,
    outside_room::check,
    field_of_view::check,
    stand_off_mark::check,
    wheels::check,
    thing_place::check,
    mark_target::check,
    floor_levels::check,
    axis::check,
    figures::check,
    conditions::check,
];

/// How many of [`ALL`], from the start, look at things one by one: those that must be asked again when one thing moves.
pub const ABOUT_THINGS: usize = 10;

/// What a check looks at.
pub struct Context<'a> {
    /// What is asked about.
    pub arrangement: &'a Arrangement,
    /// The same, put in its place.
    pub scene: &'a Scene,
    /// Only this thing is looked at, in this place instead of its own: a cheap "what if".
    only: Option<(usize, PlacedThing)>,
}

/// One thing as a check sees it.
pub struct Seen<'a> {
    /// Its position in the bay.
    pub index: usize,
    /// What it is.
    pub thing: &'a Thing,
    /// Where it is.
    pub placed: &'a PlacedThing,
}

impl<'a> Context<'a> {
    /// Looks at everything.
    pub const fn new(arrangement: &'a Arrangement, scene: &'a Scene) -> Self {
        Self { arrangement, scene, only: None }
    }

    /// Looks at one thing only, as if it had been moved by `by`. `None` if there is no such thing.
    pub fn with_thing_moved(
        arrangement: &'a Arrangement,
        scene: &'a Scene,
        index: usize,
        by: DVec2,
    ) -> Option<Self> {
        let placed = scene.things.get(index)?;
        let moved = PlacedThing {
            prism: placed.prism.moved(by),
            bounds: placed.bounds.moved(by),
            known: placed.known,
        };
        Some(Self { arrangement, scene, only: Some((index, moved)) })
    }

    /// Whether the whole arrangement is looked at, and not one thing.
    pub const fn is_whole(&self) -> bool {
        self.only.is_none()
    }

    /// The things to look at, those whose box in plan meets `near`.
    pub fn things_near(&self, near: Bounds) -> impl Iterator<Item = Seen<'_>> {
        self.things().filter(move |seen| seen.placed.bounds.meets(&near))
    }

    /// Runways that do not carry the car: steel from the floor to their top. Those that carry it belong to the set-up.
    pub fn idle_runways(&self) -> impl Iterator<Item = (Subject, Prism)> {
        let arrangement = self.arrangement;
        let idle = arrangement
            .bay
            .runways
            .iter()
            .filter(|runway| self.is_whole() && !arrangement.on_runways.contains(&runway.id));
        idle.filter_map(|runway| {
            let span = Span::new(0.0, runway.top).ok()?;
            Some((Subject::Runway(runway.id.clone()), Prism::new(runway.outline.clone().into(), span)))
        })
    }

    /// The things to look at.
    pub fn things(&self) -> impl Iterator<Item = Seen<'_>> {
        let (from, count) = match &self.only {
            Some((index, _)) => (*index, 1),
            None => (0, usize::MAX),
        };
        let placed = match &self.only {
            Some((_, moved)) => std::slice::from_ref(moved),
            None => self.scene.things.as_slice(),
        };
        let things = self.arrangement.bay.things.iter().enumerate().skip(from).take(count);
        things.zip(placed).map(|((index, thing), placed)| Seen { index, thing, placed })
    }
}

/// A finding in the making, so that each check states only what is its own.
pub(crate) fn finding(
    code: Code,
    severity: Severity,
    subjects: Vec<Subject>,
    place: DVec3,
    basis: Basis,
) -> Finding {
    Finding {
        code,
        severity,
        subjects,
        place,
        measured: None,
        limit: None,
        basis,
        facts: Facts::None,
        cure: None,
    }
}

impl Finding {
    pub(crate) fn against(mut self, measured: Quantity, limit: Quantity) -> Self {
        self.measured = Some(measured);
        self.limit = Some(limit);
        self
    }

    pub(crate) fn knowing(mut self, facts: Facts) -> Self {
        self.facts = facts;
        self
    }

    pub(crate) fn cured_by(mut self, step: crate::assessment::Step) -> Self {
        self.cure = Some(Cure { step, effort: None, to_be_sure: None, causes: Vec::new() });
        self
    }
}

/// The middle of what two boxes share: a place to point at. If they share nothing, the middle between them.
pub(crate) fn middle_of_both(a: &Bounds, b: &Bounds) -> DVec2 {
    (a.low.max(b.low) + a.high.min(b.high)) * 0.5
}

/// The subject of a thing.
pub(crate) fn thing_subject(id: &Id) -> Subject {
    Subject::Thing(id.clone())
}

/// The wall of the room's edge at this position.
pub(crate) fn wall_id(arrangement: &Arrangement, edge: usize) -> Option<Cow<'_, Id>> {
    arrangement.bay.walls.get(edge).map(|wall| Cow::Borrowed(&wall.id))
}
