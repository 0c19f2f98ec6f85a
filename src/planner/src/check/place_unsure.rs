//! Things, runways and walls that may stand elsewhere than they are drawn, and then be in the way.
//!
//! Rule: whatever would stop the aiming somewhere needs care as far from there as its place is uncertain: what stands in
//! no region that a check claims, but nearer to one than its own place is known. So does what is in one by less than the
//! planner speaks of, even if its place is known exactly: there is no silent gap between touching, which is clear, and a stop.
//! What one measuring act would settle is one finding: all of one thing, all of one wall. Two things beside each other are
//! none: a row of cabinets stands against its wall.
//! Limit: how well the place is known, as entered.

mod gap;
#[cfg(test)]
mod tests;

use baywright_geometry::overlap::overlaps_by;

use self::gap::{Gap, gap};
use super::claim::{Claim, Volume, is_care_at_most};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::near::MayBe;
use super::obstacle::{Obstacle, Shape, rest_of_room, things_of};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, edges, finding};
use crate::model::{Known, Material, ShopFigure};
use crate::scene::is_beside;

pub(super) const CHECK: Check =
    Check { codes: &[Code::ZoneNear, Code::PlaceUnsure], things, whole, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingFurther } else { Remedy::None }
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(things_of(context, 0.0).filter_map(|obstacle| unsure(context, &obstacle)));
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(rest_of_room(context).filter_map(|obstacle| unsure(context, &obstacle)));
    let beside = edges::uncertain(context);
    for feature in &context.arrangement.bay.floor_features {
        let what = Subject::FloorFeature(feature.id.clone());
        let own = beside.iter().filter(|one| one.what == what);
        let may_be = own.map(|one| one.may_be.clone()).collect();
        let known = context.arrangement.bay.walls_known;
        findings.extend(of_one(what, may_be, known, context.arrangement.shop.within(known)));
    }
}

/// One finding of all that one thing or wall may be in.
fn unsure(context: &Context<'_>, obstacle: &Obstacle<'_>) -> Option<Finding> {
    let near = near(context, obstacle, obstacle.known_mm, |_| obstacle.known_mm);
    let may_be = near.into_iter().map(|own| own.may_be).collect();
    of_one(obstacle.subject.clone(), may_be, obstacle.known, obstacle.known_mm)
}

fn of_one(what: Subject, may_be: Vec<MayBe>, known: Known, known_mm: f64) -> Option<Finding> {
    let nearest = may_be.iter().min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))?.clone();
    let subjects = std::iter::once(what.clone());
    let subjects = subjects.chain(may_be.iter().map(|one| one.of.clone())).collect();
    let is_zone = |one: &MayBe| matches!(one.of, Subject::Zone(_));
    let facts = if may_be.iter().all(is_zone) { Facts::ZoneNear(may_be) } else { Facts::PlaceUnsure(may_be) };
    let basis = ShopFigure::of_place(known).map_or(Basis::AsEntered, Basis::Shop);
    let found = finding(facts, Severity::Care, subjects, nearest.at, basis)
        .against(Quantity::Length(nearest.gap_mm), Quantity::Length(known_mm));
    Some(match what {
        Subject::Thing(thing) => found.cured_by(Step::Tape { thing }),
        _ => found,
    })
}

/// Something near a claim that bars it.
pub(super) struct Near {
    pub may_be: MayBe,
    /// How near may be too near, mm.
    pub reach_mm: f64,
    /// Whether what is known of its own place leaves it open already.
    pub by_itself: bool,
}

/// What an obstacle is nearer to than the `reach` of a claim, mm, by the claim's position in the list; no reach exceeds
/// `farthest`, mm. Of each that claims a place, the nearest.
pub(super) fn near(
    context: &Context<'_>,
    obstacle: &Obstacle<'_>,
    farthest: f64,
    reach: impl Fn(usize) -> f64,
) -> Vec<Near> {
    let mut found: Vec<Near> = Vec::new();
    // What is in one part of a car or a stand surely is not said to be perhaps in the next.
    let mut surely: Vec<(&Subject, Code)> = Vec::new();
    let around = obstacle.bounds.grown(farthest + SPEAKS_FROM_MM);
    for (index, claim) in context.claims().near(around) {
        let Some(code) = barred(claim, obstacle) else { continue };
        let Some(Gap { mm, at, is_in }) = gap(context, claim, obstacle) else {
            if claim.is_solid() && is_in_it(claim, obstacle) {
                surely.push((&claim.of, code));
            }
            continue;
        };
        let reach_mm = reach(index);
        // Who fills the whole of it exactly is clear.
        let within = |reach: f64| is_in || mm < reach - SPEAKS_FROM_MM;
        if !within(reach_mm) {
            continue;
        }
        let may_be = MayBe { of: claim.of.clone(), code, gap_mm: mm, at };
        let near = Near { may_be, reach_mm, by_itself: within(obstacle.known_mm) };
        let is_same = |own: &&mut Near| own.may_be.of == claim.of && own.may_be.code == code;
        match found.iter_mut().find(is_same) {
            Some(known) if known.may_be.gap_mm <= mm => known.by_itself |= near.by_itself,
            Some(known) => *known = Near { by_itself: known.by_itself || near.by_itself, ..near },
            None => found.push(near),
        }
    }
    found.retain(|own| !surely.contains(&(&own.may_be.of, own.may_be.code)));
    found
}

/// Whether an obstacle of its own heights is in a solid, by more than is spoken of.
fn is_in_it(claim: &Claim, obstacle: &Obstacle<'_>) -> bool {
    let prism = match &obstacle.shape {
        Shape::Thing(_, prism) => prism,
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism,
        Shape::Wall(..) | Shape::Ceiling(..) => return false,
    };
    matches!(&claim.volume, Volume::Prism(own)
        if own.span.shared(&prism.span).is_some() && overlaps_by(&own.outline, &prism.outline, SPEAKS_FROM_MM))
}

/// What would be found of an obstacle in a claim; `None` if that would not be in the way of the aiming.
fn barred(claim: &Claim, obstacle: &Obstacle<'_>) -> Option<Code> {
    let code = match &obstacle.shape {
        Shape::Thing(thing, _) => claim.says(thing)?.0,
        Shape::Runway(_) => claim.says_of(Material::Steel)?,
        Shape::Carrying(steel) => {
            // The car stands on it, and marks and runs may lie on it.
            let own = claim.says_of(Material::Steel)?;
            let is_meant = match &claim.volume {
                Volume::Line { line, .. } => !is_beside(&steel.outline.as_polygon(), line),
                _ => matches!(own, Code::CarClash | Code::MarkPlace),
            };
            (!is_meant).then_some(own)?
        }
        // What ends at the walls ends under the ceiling.
        Shape::Ceiling(..) => claim.says_of_wall().filter(|_| claim.inside)?,
        Shape::Proud(_, material) => claim.says_of(*material)?,
        Shape::Wall(..) => claim.says_of_wall()?,
    };
    // What needs care at most says so for itself.
    (!is_care_at_most(code)).then_some(code)
}
