//! The checks: one file each, with its rule, its facts, the regions that it claims and by what it is cured. A check turns
//! facts of geometry into findings; it never fails.
//!
//! To add one: a file here with its tests, its code and facts in [`finding`], its sentence in [`crate::words`],
//! and one line in [`ALL`].

mod alignment;
mod axis;
mod beam;
mod beside;
mod beyond_bay;
mod car_clash;
mod car_moved;
mod car_place;
mod car_unlikely;
mod centrelines;
pub mod claim;
mod conditions;
mod door_leaf;
mod echo;
mod edges;
mod field_of_view;
mod figures;
pub mod finding;
mod floor_levels;
mod fresnel;
mod glass_behind;
mod head_room;
mod in_one_place;
mod keep_free;
mod light;
mod mark_drifted;
mod mark_elsewhere;
mod mark_place;
mod mark_target;
mod mark_unsure;
mod marks_taped;
mod mat_light;
mod near;
mod obstacle;
mod open_pit;
mod outside_room;
mod permanent_mark;
mod person_near;
mod picture;
mod place_unsure;
mod raised;
mod reading_unused;
mod ride_height;
mod ring;
mod runs;
mod sheet;
mod shut_door;
mod sight;
mod stand_clash;
mod stand_off_mark;
mod stand_reach;
mod stand_read;
mod stand_room;
mod tape_over;
mod taped_with;
#[cfg(test)]
pub(crate) mod testing;
mod thing_place;
mod under_car;
mod walk_in;
mod way_in;
mod wheels;
mod working_room;
mod zones;
mod zones_missing;

use std::borrow::Cow;

use baywright_geometry::{Bounds, DVec2, DVec3, Outline, Prism, Span, boolean, overlaps};

use crate::model::{Arrangement, FloorFeatureKind, Id, Placement, Runway, Thing};
use crate::scene::{PlacedTarget, PlacedThing, Scene};
use finding::{Basis, Code, Cure, Facts, Finding, Quantity, Severity, Subject};

pub use alignment::AlignmentFigure;
pub use beam::MOST_LOSS_DB;
pub use beside::AtOnce;
pub(crate) use beside::{done_beside, once_for_each_part};
pub use beyond_bay::{Beyond, Reaches};
pub(crate) use beyond_bay::{own_bay, used_floor};
pub(crate) use car_place::without;
pub use car_unlikely::Unlikely;
pub use centrelines::LinesApart;
pub use claim::{Claim, Claims, MovesWith, Volume};
pub(crate) use claim::{GOES_OVER_MM, excludes_part, is_in_run};
pub use door_leaf::DoorPart;
pub(crate) use figures::on_examples;
#[cfg(test)]
pub(crate) use floor_levels::direct;
pub use floor_levels::{FloorFact, Tilt};
pub(crate) use floor_levels::{Levelled, Surveyed};
pub use fresnel::Shifted;
pub use head_room::Under;
pub use in_one_place::Lacks;
pub use mark_unsure::MarkFor;
pub(crate) use mark_unsure::may_be_off;
pub use near::{MayBe, Meets};
pub(crate) use near::{farthest_of, sway, sway_if};
pub use open_pit::Open;
pub use outside_room::TooLarge;
pub use permanent_mark::Painted;
pub use picture::{Lit, Picture};
pub(crate) use raised::beside_tyres;
pub use reading_unused::Unused;
pub use ride_height::{Off, RideFact};
pub use shut_door::Opened;
pub(crate) use sight::HIDDEN_FROM;
pub use sight::InSight;
pub(crate) use stand_clash::rests_on_floor;
pub use stand_off_mark::{OffBy, OffPlace};
pub use stand_reach::StandReach;
pub use stand_read::StandOpen;
pub use stand_room::StandSide;
pub use thing_place::Misplaced;
pub(crate) use walk_in::STEP_IN_MM;
pub use way_in::TooSmall;
pub(crate) use way_in::lets_in;
pub use wheels::OnRunways;
pub(crate) use wheels::{level_mm, stops_a_wheel};
pub use working_room::CarSide;
pub use zones::InZone;

/// The planner speaks from a hundredth of a millimetre on: what is less, no tape shows.
pub const SPEAKS_FROM_MM: f64 = 0.01;

/// One check, with all that depends on its rule. What it has nothing to say of it leaves to [`Check::NONE`].
pub struct Check {
    /// The codes of what it finds: no other check has them.
    pub codes: &'static [Code],
    /// What it finds of things: asked again when one of them moves.
    pub things: fn(&Context<'_>, &mut Vec<Finding>),
    /// What it finds of all the rest.
    pub whole: fn(&Context<'_>, &mut Vec<Finding>),
    /// The regions that it keeps something out of.
    pub claims: fn(&Arrangement, &Scene, &mut Vec<Claim>),
    /// By what a finding of it is cured.
    pub remedy: fn(&Finding) -> Remedy,
    /// The codes whose figure is how deep something is in another: more of it is worse.
    pub depths: &'static [Code],
}

impl Check {
    /// Finds nothing, claims nothing, cures nothing.
    pub const NONE: Self = Self {
        codes: &[],
        things: |_, _| {},
        whole: |_, _| {},
        claims: |_, _, _| {},
        remedy: |_| Remedy::None,
        depths: &[],
    };
}

/// Where the cure of a finding is to be looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// Nowhere, or the finding brings its own.
    None,
    /// The thing that it blames goes out of every region where it is in the way; if it stays, the car goes.
    ThingOut,
    /// The thing goes further from the zone, if no tape can tell.
    ThingFurther,
    /// A door is opened, or the car goes until all of the set-up is inside the room.
    IntoRoom,
    /// The car goes until mark and stand are off a drain or pit.
    OffFeature,
    /// The car goes square across onto its runways.
    OntoRunways,
    /// The car goes until all that is used of the floor is in the bay of a hall that it is aimed in; or the other bay is kept empty.
    IntoBay,
    /// The car goes until what is done at the same time is not stopped by its set-up.
    OffOther,
    /// The car goes until all of its set-up is clear of everything by more than is uncertain, where no tape can tell.
    CarClear,
}

impl Remedy {
    /// For findings of things in the way, or of walls and doors.
    pub(crate) fn of_obstacle(finding: &Finding) -> Self {
        match finding.subjects.first() {
            Some(Subject::Thing(_)) => Self::ThingOut,
            Some(Subject::Wall(_) | Subject::Opening(_)) => Self::IntoRoom,
            _ => Self::None,
        }
    }
}

/// Every check. The order does not matter: findings are sorted afterwards.
pub const ALL: &[Check] = &[
    zones::CHECK,
    zones_missing::CHECK,
    door_leaf::CHECK,
    sight::CHECK,
    fresnel::CHECK,
    echo::CHECK,
    car_clash::CHECK,
    stand_clash::CHECK,
    mark_place::CHECK,
    permanent_mark::CHECK,
    runs::CHECK,
    tape_over::CHECK,
    head_room::CHECK,
    working_room::CHECK,
    keep_free::CHECK,
    outside_room::CHECK,
    beyond_bay::CHECK,
    beside::CHECK,
    way_in::CHECK,
    walk_in::CHECK,
    shut_door::CHECK,
    person_near::CHECK,
    under_car::CHECK,
    field_of_view::CHECK,
    beam::CHECK,
    picture::CHECK,
    mat_light::CHECK,
    glass_behind::CHECK,
    stand_off_mark::CHECK,
    stand_reach::CHECK,
    stand_room::CHECK,
    open_pit::CHECK,
    raised::CHECK,
    wheels::CHECK,
    thing_place::CHECK,
    place_unsure::CHECK,
    car_place::CHECK,
    mark_target::CHECK,
    mark_unsure::CHECK,
    marks_taped::CHECK,
    reading_unused::CHECK,
    taped_with::CHECK,
    mark_drifted::CHECK,
    mark_elsewhere::CHECK,
    stand_read::CHECK,
    floor_levels::CHECK,
    axis::CHECK,
    alignment::CHECK,
    sheet::CHECK,
    car_unlikely::CHECK,
    ride_height::CHECK,
    centrelines::CHECK,
    car_moved::CHECK,
    figures::CHECK,
    conditions::CHECK,
];

/// The check that finds this; `None` only for a code that no check has, which a test rules out.
pub fn of(code: Code) -> Option<&'static Check> {
    ALL.iter().find(|check| check.codes.contains(&code))
}

/// Every region that the checks keep something out of.
pub fn claims(arrangement: &Arrangement, scene: &Scene) -> Claims {
    let mut claims = Vec::new();
    for check in ALL {
        (check.claims)(arrangement, scene, &mut claims);
    }
    Claims::new(claims)
}

/// What a check looks at.
pub struct Context<'a> {
    /// What is asked about.
    pub arrangement: &'a Arrangement,
    /// The same, put in its place.
    pub scene: &'a Scene,
    /// What is claimed, of things where they stand and of this one elsewhere.
    claims: Cow<'a, Claims>,
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
    pub fn new(arrangement: &'a Arrangement, scene: &'a Scene) -> Self {
        Self { arrangement, scene, claims: Cow::Owned(claims(arrangement, scene)), only: None }
    }

    /// Every region that the checks keep something out of.
    pub fn claims(&self) -> &Claims {
        &self.claims
    }

    /// Whether everything is looked at, and not one thing only.
    pub const fn is_whole(&self) -> bool {
        self.only.is_none()
    }

    /// Looks at one thing only, as if it had been moved by `by`. `None` if there is no such thing.
    pub fn with_thing_moved(
        arrangement: &'a Arrangement,
        scene: &'a Scene,
        claims: &'a Claims,
        index: usize,
        by: DVec2,
    ) -> Option<Self> {
        let placed = scene.things.get(index)?;
        let moved = PlacedThing {
            prism: placed.prism.moved(by),
            bounds: placed.bounds.moved(by),
            known_mm: placed.known_mm,
        };
        Some(Self { arrangement, scene, claims: Cow::Borrowed(claims), only: Some((index, moved)) })
    }

    /// The things to look at, those whose box in plan meets `near`.
    pub fn things_near(&self, near: Bounds) -> impl Iterator<Item = Seen<'_>> {
        self.things().filter(move |seen| seen.placed.bounds.meets(&near))
    }

    /// Runways that do not carry the car: steel from the floor to their top. Those that carry it belong to the set-up. None
    /// where one thing is looked at.
    pub fn idle_runways(&self) -> impl Iterator<Item = (Subject, Prism)> {
        let arrangement = self.arrangement;
        let idle = arrangement
            .bay
            .runways
            .iter()
            .filter(|runway| self.only.is_none() && !arrangement.on_runways.contains(&runway.id));
        idle.filter_map(|runway| {
            let span = Span::new(0.0, runway.top_mm).ok()?;
            Some((Subject::Runway(runway.id.clone()), Prism::new(runway.outline.clone().into(), span)))
        })
    }

    /// What stands proud of the floor: grates, lips, covers. None where one thing is looked at.
    pub fn proud_features(&self) -> impl Iterator<Item = (Subject, Prism)> {
        let all = self.arrangement.bay.floor_features.iter().filter(|_| self.only.is_none());
        all.filter_map(|own| Some((Subject::FloorFeature(own.id.clone()), own.solid()?)))
    }

    /// Open pits, as holes under the floor. None where one thing is looked at.
    pub fn pits(&self) -> impl Iterator<Item = (Subject, Prism)> {
        let all = self.arrangement.bay.floor_features.iter();
        let pits = all.filter(|own| self.only.is_none() && own.kind == FloorFeatureKind::Pit);
        pits.filter_map(|own| {
            // How deep is not told: what matters is that it is there.
            let hole = Prism::new(own.outline.clone().into(), Span::new(-1.0, 0.0).ok()?);
            Some((Subject::FloorFeature(own.id.clone()), hole))
        })
    }

    /// Whether a solid of the car lies on one side of it, as a door mirror does.
    pub fn is_aside(&self, solid: &Prism) -> bool {
        is_aside(self.arrangement, self.scene, solid)
    }

    /// Whether the car covers all of a hole in the floor, with all its parts together.
    pub fn is_under_the_car(&self, hole: &Outline) -> bool {
        let covers = |solid: &&Prism| !self.is_aside(solid) && overlaps(&solid.outline, hole);
        let mut over = self.scene.car.iter().filter(covers).peekable();
        if over.peek().is_none() {
            return false;
        }
        let mut left = vec![hole.as_polygon().into_owned()];
        for solid in over {
            let over = solid.outline.as_polygon();
            left = left.iter().flat_map(|piece| boolean::difference(piece, &over)).collect();
        }
        // A sliver between two parts lets nobody through.
        left.iter().all(|piece| piece.area() < SPEAKS_FROM_MM * piece.bounds().size().length())
    }

    /// Solids of the building that may stand in the way of what is seen: idle runways and what is proud of the floor.
    pub fn fixtures(&self) -> impl Iterator<Item = (Subject, Prism)> {
        self.idle_runways().chain(self.proud_features())
    }

    /// The targets that stand at the same time as this one, each with its stand. None where one thing is looked at.
    pub fn companions<'b>(&'b self, of: &'b Id) -> impl Iterator<Item = (&'b Placement, &'b PlacedTarget)> {
        let placements = &self.arrangement.aiming.placements;
        let own = placements.iter().find(|own| own.id == *of).filter(|_| self.only.is_none());
        let others = placements.iter().zip(&self.scene.targets);
        others.filter(move |(other, _)| other.id != *of && own.is_some_and(|own| own.stands_with(other)))
    }

    /// The solids of those, each as its stand's.
    pub fn companion_solids<'b>(
        &'b self,
        of: &'b Id,
    ) -> impl Iterator<Item = (Subject, Prism)> + use<'b, 'a> {
        self.companions(of).flat_map(|(_, target)| {
            let subject = Subject::Stand(target.id.clone());
            target.solids.iter().map(move |solid| (subject.clone(), solid.clone()))
        })
    }

    /// Runways that carry the car, with what they fill. None where one thing is looked at.
    pub fn carrying_runways(&self) -> impl Iterator<Item = (&'a Runway, Prism)> {
        let arrangement = self.arrangement;
        let carrying = arrangement
            .bay
            .runways
            .iter()
            .filter(|runway| self.only.is_none() && arrangement.on_runways.contains(&runway.id));
        carrying.filter_map(|runway| {
            let span = Span::new(0.0, runway.top_mm).ok()?;
            Some((runway, Prism::new(runway.outline.clone().into(), span)))
        })
    }

    /// The same as what is found in the way of something.
    pub fn carrying_steel(&self) -> impl Iterator<Item = (Subject, Prism)> {
        self.carrying_runways().map(|(runway, prism)| (Subject::Runway(runway.id.clone()), prism))
    }

    /// Whether runways carry the car.
    pub fn is_raised(&self) -> bool {
        self.scene.carried_at_mm > 0.0
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
pub(crate) const fn finding(
    facts: Facts,
    severity: Severity,
    subjects: Vec<Subject>,
    place: DVec3,
    basis: Basis,
) -> Finding {
    Finding { facts, severity, subjects, place, measured: None, limit: None, basis, cure: None }
}

impl Finding {
    pub(crate) fn against(mut self, measured: Quantity, limit: Quantity) -> Self {
        self.measured = Some(measured);
        self.limit = Some(limit);
        self
    }

    pub(crate) fn cured_by(mut self, step: finding::Step) -> Self {
        self.cure = Some(Cure { step, effort: None, at_least: None, causes: Vec::new() });
        self
    }
}

/// Whether a solid of the car lies on one side of it, as a door mirror does.
pub(crate) fn is_aside(arrangement: &Arrangement, scene: &Scene, solid: &Prism) -> bool {
    let middle = scene.bay_from_vehicle.inverse() * solid.outline.bounds().centre();
    middle.y.abs() > arrangement.vehicle.width_mm * 0.25
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_code_is_one_checks() {
        for code in Code::ALL {
            let checks = ALL.iter().filter(|check| check.codes.contains(&code));
            assert_eq!(checks.count(), 1, "{code:?}");
        }
        let listed: usize = ALL.iter().map(|check| check.codes.len()).sum();
        assert_eq!(listed, Code::ALL.len());
        assert!(Code::ALL.is_sorted(), "the order of the list is the order of the codes");
    }

    /// What a check finds it claims: a thing that something is said of stands in a region that says so.
    #[test]
    fn what_stops_a_thing_is_claimed() {
        use testing::*;
        let mut tried = 0;
        for (at, size) in [
            ((8_000.0, 4_475.0), (900.0, 450.0)),
            ((6_800.0, 3_100.0), (600.0, 400.0)),
            ((4_000.0, 4_220.0), (300.0, 500.0)),
            ((6_000.0, 4_220.0), (300.0, 500.0)),
            ((2_000.0, 4_180.0), (600.0, 600.0)),
            ((9_200.0, 3_300.0), (200.0, 100.0)),
            ((4_830.0, 3_000.0), (100.0, 300.0)),
        ] {
            let arrangement = with(vec![cabinet("thing", at, size.0, size.1)]);
            let scene = Scene::of(&arrangement);
            let claims = claims(&arrangement, &scene);
            let (thing, placed) = (&arrangement.bay.things[0], &scene.things[0]);
            for found in assess(&arrangement).findings.iter().filter(|f| f.culprit().is_some()) {
                let says = |claim: &&Claim| claim.says(thing) == Some((found.code(), found.severity));
                let stands_in = |claim: &Claim| {
                    let region = claim.volume.at(&thing.span);
                    region.is_some_and(|region| crate::geometry::overlaps(&region, &placed.prism.outline))
                };
                assert!(claims.iter().filter(says).any(stands_in), "{found:?}");
                tried += 1;
            }
        }
        assert!(tried > 8, "only {tried}");
    }
}
