//! The cheapest way out of what stops the aiming, and what it would cause instead.
//!
//! A thing that stops the aiming is moved by the shortest move that clears *every* stop of it; a thing that cannot be
//! moved is cured by parking the car elsewhere. Every cure is tried before it is offered, and says what it would cause.

mod apply;
mod car;
mod further;
mod parking;
mod promise;
mod thing;

use std::collections::{BTreeMap, BTreeSet};

use baywright_geometry::{Bounds, Circle, DVec2, Outline, Prism, angle, convex};

use crate::assessment::{Assessment, Code, Cure, Finding, Quantity, Severity, Shorter, Step, Subject};
use crate::check::{self, Claims, Remedy};
use crate::model::{Arrangement, Id, ParkedKnown};
use crate::scene::{PlacedThing, Scene};

pub use apply::apply;
pub use further::{Further, is_worth_looking, look_further};
pub use parking::LOOKED_WITHIN_MM;
pub use promise::looks_elsewhere;
pub(crate) use promise::promise;
pub(crate) use thing::{built, leaves};

/// For how many things a way out is looked for; fewer in a bay so full that each look takes long, never fewer than
/// [`LEAST_CURES`].
pub const MOST_CURES: usize = 40;

/// In the fullest bay.
const LEAST_CURES: usize = 10;

/// So many corners of things, times the things for which they are looked at, are looked at in all.
const MOST_LOOKS: usize = 80_000;

/// For how many findings that blame nothing movable a way out is looked for: more drains and doors than any set-up meets.
const MOST_OF_CAR: usize = 40;

/// The same where more than [`MANY_FINDINGS`] are found: each way out is compared with all of them.
const MOST_OF_CAR_AMONG_MANY: usize = 10;
const MANY_FINDINGS: usize = 400;

/// For how many things that only may be in the way a place further away is looked for; the others are to be taped.
const MOST_FURTHER: usize = 40;

/// What would cause more is no way out: nobody does it, and so many sentences say it to nobody.
const MOST_CAUSED: usize = 40;

/// A length to go is rounded up to whole millimetres: no tape shows less.
const WHOLE_MM: f64 = 1.0;

/// How many tangents stand for a circle of uncertainty: they stand out by a fiftieth of it at most.
const TANGENTS: u32 = 16;

/// What all cures of one arrangement are looked for with.
struct Case<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    /// What is found as it stands.
    before: &'a [Finding],
    /// What the checks keep things and car out of.
    claims: Claims,
    /// What is built into the floor, so that nothing may be moved there, each with its box in plan.
    built: Vec<(Prism, Bounds)>,
    /// The walls, as thick as keeps a move from ending in them.
    walls: Vec<Outline>,
}

impl<'a> Case<'a> {
    fn new(arrangement: &'a Arrangement, scene: &'a Scene, before: &'a [Finding], claims: Claims) -> Self {
        let (built, walls) = (thing::built(arrangement).collect(), thing::walls(scene).collect());
        Self { arrangement, scene, before, claims, built, walls }
    }
}

/// Gives findings that stop the aiming or need care their cures, for [`most_cures`] things at most: those that stop it
/// first, and of these the nearest to the car, whatever they are called; one thing's cure serves all that it stops.
pub(crate) fn find(arrangement: &Arrangement, assessment: &mut Assessment) {
    let Assessment { findings, scene, .. } = assessment;
    let before = findings.clone();
    let case = Case::new(arrangement, scene, &before, check::claims(arrangement, scene));
    let looked_at = looked_at(&case);
    let mut of_things: Vec<(Id, bool, Option<Cure>)> = Vec::new();
    let mut of_car = car::Moves::new(&case);
    let of_car_at_most = if before.len() > MANY_FINDINGS { MOST_OF_CAR_AMONG_MANY } else { MOST_OF_CAR };
    let (mut left_of_car, mut left_further) = (of_car_at_most, MOST_FURTHER);
    for finding in findings.iter_mut().filter(|f| f.severity != Severity::Note) {
        let remedy = check::of(finding.code()).map_or(Remedy::None, |check| (check.remedy)(finding));
        if remedy == Remedy::ThingFurther && left_further > 0 {
            left_further -= 1;
            finding.cure = thing::further(&case, finding).or(finding.cure.take());
        }
        if finding.cure.is_some() {
            continue;
        }
        finding.cure = match (remedy, finding.culprit()) {
            (Remedy::ThingOut, Some(id)) => {
                let care = finding.severity != Severity::Stops;
                let known = of_things.iter().find(|(known, for_care, _)| known == id && *for_care == care);
                let cure = match known {
                    Some((_, _, cure)) => cure.clone(),
                    None if !looked_at.contains(id) => continue,
                    None => {
                        let cure = thing::cure(&case, id, care);
                        of_things.push((id.clone(), care, cure.clone()));
                        cure
                    }
                };
                if care || cure.is_some() || left_of_car == 0 {
                    cure
                } else {
                    left_of_car -= 1;
                    of_car.away_from(id)
                }
            }
            (Remedy::None, _) if !names_a_target(finding) => continue,
            _ if left_of_car == 0 => continue,
            _ => {
                left_of_car -= 1;
                of_car.stand_on_mark(finding).or_else(|| of_car.cure(finding, remedy))
            }
        };
    }
    for finding in findings.iter_mut() {
        finding.cure.take_if(|cure| cure.causes.len() > MOST_CAUSED);
    }
    // A set-up that no move of the car fits into the room says so, once.
    for finding in findings.iter_mut() {
        if of_car.say_too_large(finding) {
            break;
        }
    }
}

/// For how many things a way out is looked for in this bay.
fn most_cures(arrangement: &Arrangement) -> usize {
    let corners = arrangement.bay.things.iter().map(|thing| match thing.footprint.outline() {
        Outline::Circle(_) => 1,
        Outline::Polygon(polygon) => polygon.outer().len(),
    });
    (MOST_LOOKS / corners.sum::<usize>().max(1)).clamp(LEAST_CURES, MOST_CURES)
}

/// The things for which a way out is looked for.
fn looked_at(case: &Case<'_>) -> BTreeSet<Id> {
    let axle = case.arrangement.parked.origin();
    let mut all: Vec<(Severity, f64, &Id)> = Vec::new();
    for (thing, placed) in case.arrangement.bay.things.iter().zip(&case.scene.things) {
        let worst = case.before.iter().filter(|f| blames(f, &thing.id)).map(|f| f.severity).min();
        if let Some(worst) = worst.filter(|worst| *worst != Severity::Note) {
            all.push((worst, check::farthest_of(&placed.prism.outline, axle), &thing.id));
        }
    }
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then_with(|| a.2.cmp(b.2)));
    all.into_iter().take(most_cures(case.arrangement)).map(|(.., id)| id.clone()).collect()
}

impl Cure {
    /// The same move, but so far, which is sure, with what that causes.
    fn further(self, sure: Option<(DVec2, Vec<Finding>)>) -> Self {
        let Some((further, causes)) = sure else { return self };
        let (step, shorter) = match self.step {
            Step::MoveThing { thing, by } => (Step::MoveThing { thing, by: further }, by),
            Step::MoveCar { by } => (Step::MoveCar { by: further }, by),
            step => return Self { step, ..self },
        };
        // Where another way is surer and no longer, it is the way.
        let is_further = matches!(&step, Step::MoveThing { by, .. } | Step::MoveCar { by } if by.length() > shorter.length());
        Self { step, at_least: is_further.then_some(Shorter::AsDrawn(shorter)), causes, ..self }
    }
}

/// What is there after and was not there before, or is worse; without the ways out of it, and no more of it than shows that
/// there is more than [`MOST_CAUSED`].
fn caused(before: &[Finding], after: &[Finding]) -> Vec<Finding> {
    let mut known: BTreeMap<(Code, &[Subject]), Vec<&Finding>> = BTreeMap::new();
    for finding in before {
        known.entry((finding.code(), &finding.subjects)).or_default().push(finding);
    }
    let there = |f: &Finding| {
        let same = known.get(&(f.code(), f.subjects.as_slice()));
        same.is_some_and(|same| same.iter().any(|b| b.severity <= f.severity && !deeper(f, b)))
    };
    let mut new: Vec<&Finding> = after.iter().filter(|f| f.severity != Severity::Note && !there(f)).collect();
    new.truncate(MOST_CAUSED + 1);
    new.into_iter().map(|f| Finding { cure: None, ..f.clone() }).collect()
}

/// How well it is known where the car stands once it is parked elsewhere.
fn parked_anew(case: &Case<'_>) -> ParkedKnown {
    case.arrangement.shop.parked_anew(case.arrangement.parked_known)
}

/// How far past what it clears a thing goes so that neither its own place nor the car's leaves anything open, if it goes so
/// far from the car's axle already and the car's place is so known, mm.
fn margin(case: &Case<'_>, placed: &PlacedThing, by: DVec2, parked: ParkedKnown) -> f64 {
    let axle = case.arrangement.parked.origin();
    // How far the thing is from the axle then is how far it is now from where the axle would be.
    let far = |by: DVec2| check::farthest_of(&placed.prism.outline, axle - by);
    let at = |by: DVec2| placed.known_mm + check::sway_if(case.arrangement, parked, far(by));
    // The margin itself may lead further from the axle, where it is to be larger.
    at(by + by.normalize_or_zero() * at(by)).max(at(DVec2::ZERO))
}

/// Everywhere that a thing may be, if it may be so far from where it is drawn: never smaller, and without its hollows. One of
/// the tangents for the uncertainty is square to this heading, rad: the car's, so that it does not matter how the bay lies.
fn grown(outline: &Outline, by: f64, along: f64) -> Option<Outline> {
    if by <= 0.0 {
        return Some(outline.clone());
    }
    match outline {
        Outline::Circle(circle) => Circle::new(circle.centre(), circle.radius() + by).ok().map(Outline::from),
        Outline::Polygon(polygon) => {
            // The corners of a square round the circle would do; these stand out less.
            let step = std::f64::consts::TAU / f64::from(TANGENTS);
            let out = by / angle::sin_cos(step * 0.5).1;
            let around: Vec<DVec2> =
                (0..TANGENTS).map(|i| angle::direction(along + step * (f64::from(i) + 0.5)) * out).collect();
            let corners = polygon.outer().iter().flat_map(|&p| around.iter().map(move |&off| p + off));
            convex::hull(&corners.collect::<Vec<_>>()).map(Outline::from)
        }
    }
}

/// Whether a finding is about a target or its stand, which may have been put elsewhere than on its mark.
fn names_a_target(finding: &Finding) -> bool {
    finding.subjects.iter().any(|subject| matches!(subject, Subject::Target(_) | Subject::Stand(_)))
}

/// How much is to be minded: how many stops, and how much more that needs care.
fn minded(found: &[Finding]) -> (usize, usize) {
    let count = |severity| found.iter().filter(|f| f.severity == severity).count();
    (count(Severity::Stops), count(Severity::Care))
}

/// Whether a conflict is deeper than it was, by more than a tape shows. Ways are of whole millimetres: one more is none yet, however
/// it is rounded.
fn deeper(now: &Finding, then: &Finding) -> bool {
    let is_depth = check::of(now.code()).is_some_and(|check| check.depths.contains(&now.code()));
    match (now.measured, then.measured) {
        (Some(Quantity::Length(now)), Some(Quantity::Length(then))) => {
            is_depth && now > then + WHOLE_MM + check::SPEAKS_FROM_MM
        }
        _ => false,
    }
}

/// Whether a finding is of what is in the way, or near enough to be.
fn may_be_in_the_way(finding: &Finding) -> bool {
    finding.severity == Severity::Stops || finding.is_only_unsure()
}

/// Whether a finding is about this thing first.
fn blames(finding: &Finding, id: &Id) -> bool {
    matches!(finding.subjects.first(), Some(Subject::Thing(culprit)) if culprit == id)
}
