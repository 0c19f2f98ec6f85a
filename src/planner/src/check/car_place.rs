//! A car that may stand a little elsewhere than it is drawn, with all that is laid from it.
//!
//! Rule: where the set-up would meet something of the room if the car stood anywhere within what is known of its place, that
//! needs care. It is one finding, since one measuring act settles it. The set-up's own parts are never at odds with each
//! other by it: marks and targets are laid from the car's wheels.
//! Limit: how well the car's place is known: [`ParkedKnown`]. Half a degree is 70 mm at 8 m.

use baywright_geometry::DVec2;
use baywright_geometry::angle;

use super::claim::{Claim, MovesWith};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::place_unsure::{MayBe, Obstacle, may_be, rest_of_room, things_of};
use super::{Check, Context, finding};
use crate::model::Arrangement;
#[cfg(doc)]
use crate::model::ParkedKnown;

pub(super) const CHECK: Check = Check { codes: &[Code::CarPlace], things, ..Check::NONE };

/// Something of the room that the set-up may meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Meets {
    /// What it is.
    pub what: Subject,
    /// What of the set-up may meet it, and how near that is drawn.
    pub may_be: MayBe,
    /// How near may be too near: what is known of both places, mm.
    pub reach_mm: f64,
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut met: Vec<Meets> = things_of(context).flat_map(|own| met_by(context, &own)).collect();
    if context.is_whole() {
        met.extend(rest_of_room(context).flat_map(|own| met_by(context, &own)));
    }
    findings.extend(of_all(met));
}

/// One finding of all that is met, the nearest first; none of nothing.
fn of_all(mut met: Vec<Meets>) -> Option<Finding> {
    let spare = |one: &Meets| one.may_be.gap_mm - one.reach_mm;
    met.sort_by(|a, b| spare(a).total_cmp(&spare(b)));
    let worst = met.first()?.clone();
    let subjects = vec![Subject::Car, worst.what, worst.may_be.of];
    Some(
        finding(Facts::CarPlace(met), Severity::Care, subjects, worst.may_be.at, Basis::AsEntered)
            .against(Quantity::Length(worst.may_be.gap_mm), Quantity::Length(worst.reach_mm))
            .cured_by(Step::TapeCar),
    )
}

/// The same finding without what goes anyway; none if nothing is left of it.
pub(crate) fn without(found: Finding, goes: impl Fn(&Subject) -> bool) -> Option<Finding> {
    match found.facts {
        Facts::CarPlace(met) => of_all(met.into_iter().filter(|one| !goes(&one.what)).collect()),
        _ => Some(found),
    }
}

/// What of the set-up an obstacle meets only if the car stands elsewhere.
fn met_by(context: &Context<'_>, obstacle: &Obstacle<'_>) -> Vec<Meets> {
    let farthest = most_sway(context);
    let reach = |claim: Option<(&Claim, DVec2)>| {
        obstacle.known_mm + claim.map_or(farthest, |(_, at)| sway(context.arrangement, at))
    };
    let all = may_be(context, obstacle, |claim| match claim {
        Some((claim, _)) if claim.moves_with == MovesWith::Room => 0.0,
        other => reach(other),
    });
    // What its own place is too uncertain for is said of it already.
    let own = may_be(context, obstacle, |_| obstacle.known_mm);
    let is_said = |one: &MayBe| own.iter().any(|said| said.of == one.of && said.code == one.code);
    let unsaid = all.into_iter().filter(|one| !is_said(one));
    let claims = context.claims();
    unsaid
        .filter_map(|may_be| {
            let claim = claims.iter().find(|claim| claim.of == may_be.of)?;
            let reach_mm = reach(Some((claim, may_be.at.truncate())));
            Some(Meets { what: obstacle.subject.clone(), may_be, reach_mm })
        })
        .collect()
}

/// How far a point of the set-up may be from where it is drawn, mm.
pub(crate) fn sway(arrangement: &Arrangement, at: DVec2) -> f64 {
    let (mm, rad) = arrangement.parked_known.within();
    mm + arrangement.parked.origin().distance(at) * angle::sin_cos(rad).0
}

/// The farthest that any point of the set-up may be from where it is drawn, mm.
fn most_sway(context: &Context<'_>) -> f64 {
    let boxes = context.claims().iter().map(|claim| claim.volume.bounds());
    let corners =
        boxes.flat_map(|b| [b.low, b.high, DVec2::new(b.low.x, b.high.y), DVec2::new(b.high.x, b.low.y)]);
    corners.map(|corner| sway(context.arrangement, corner)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The zone's left edge lies at y = 4500; a cabinet 60 mm outside it, 4 m ahead of the axle: half a degree is 35 mm there.
    fn beside(gap: f64, known: ParkedKnown) -> Arrangement {
        let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_500.0 + gap + 225.0), 1.0, 450.0)]);
        arrangement.parked_known = known;
        arrangement
    }

    #[test]
    fn a_planned_place_may_bring_the_zone_to_the_cabinet() {
        let far = DVec2::new(8_000.0 - 4_000.0, 1_500.0).length();
        let reach = 30.0 + far * libm::sin(angle::radians(0.5));
        assert!((reach - 67.3).abs() < 0.1, "{reach}");
        none(&beside(70.0, ParkedKnown::Planned), Code::CarPlace);
        let found = check(&beside(60.0, ParkedKnown::Planned), Code::CarPlace, Severity::Care, Some(60.0));
        assert!((number(found.limit.unwrap()) - reach).abs() < 0.5, "{:?}", found.limit);
        let subjects = [Subject::Car, Subject::Thing("cabinet".into()), Subject::Zone("beam".into())];
        assert_eq!(found.subjects, subjects);
        none(&beside(60.0, ParkedKnown::Taped), Code::CarPlace);
        none(&beside(60.0, ParkedKnown::Within { mm: 0.0, rad: 0.0 }), Code::CarPlace);
    }

    /// What the thing's own place is too uncertain for is said of the thing alone.
    #[test]
    fn nothing_is_said_twice() {
        let mut arrangement = beside(40.0, ParkedKnown::Planned);
        arrangement.bay.things[0].place.known = Known::Within(50.0);
        none(&arrangement, Code::CarPlace);
        check(&arrangement, Code::ZoneNear, Severity::Care, Some(40.0));
        // The two of them together reach farther than each.
        let mut arrangement = beside(80.0, ParkedKnown::Planned);
        arrangement.bay.things[0].place.known = Known::Within(50.0);
        none(&arrangement, Code::ZoneNear);
        check(&arrangement, Code::CarPlace, Severity::Care, Some(80.0));
    }

    /// However many things it meets, it is one finding; a clear bay has none.
    #[test]
    fn one_measuring_act_is_one_finding() {
        let mut arrangement = beside(20.0, ParkedKnown::Planned);
        for x in [6_000.0, 7_000.0] {
            arrangement.bay.things.push(cabinet(&format!("at {x}"), (x, 4_500.0 + 20.0 + 225.0), 1.0, 450.0));
        }
        let found = check(&arrangement, Code::CarPlace, Severity::Care, Some(20.0));
        let Facts::CarPlace(all) = &found.facts else { panic!() };
        assert_eq!(all.len(), 3, "{all:#?}");
        let mut clear = clear();
        clear.parked_known = ParkedKnown::Planned;
        assert_eq!(assess(&clear).verdict, Verdict::Ready);
    }
}
