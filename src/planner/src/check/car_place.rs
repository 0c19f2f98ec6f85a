//! A car that may stand a little elsewhere than it is drawn, with all that is laid from it.
//!
//! Rule: where the set-up would meet something of the room if the car stood anywhere within what is known of its place, that
//! needs care. It is one finding, since one measuring act settles it. The set-up's own parts are never at odds with each
//! other by it: marks and targets are laid from the car's wheels.
//! Limit: how well the car's place is known: [`ParkedKnown`], in the shop's own figures. Half a degree is 70 mm at 8 m.

use std::cell::OnceCell;

use baywright_geometry::{Bounds, PlanPose};

use super::claim::{Claim, MovesWith};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::near::{Meets, sway};
use super::obstacle::{Obstacle, rest_of_room, things_of};
use super::place_unsure::near;
use super::{Check, Context, Remedy, edges, finding};
#[cfg(doc)]
use crate::model::ParkedKnown;
use crate::model::ShopFigure;

pub(super) const CHECK: Check =
    Check { codes: &[Code::CarPlace], things, remedy: |_| Remedy::CarClear, ..Check::NONE };

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let set_up = SetUp::of(context);
    let things = things_of(context, set_up.most_sway_mm);
    let mut met: Vec<Meets> = things.flat_map(|own| met_by(context, &own, &set_up)).collect();
    if context.is_whole() {
        met.extend(rest_of_room(context).flat_map(|own| met_by(context, &own, &set_up)));
        met.extend(edges::near(context));
    }
    let known = context.arrangement.parked_known;
    let basis = ShopFigure::of_car(known).map_or(Basis::AsEntered, Basis::Shop);
    findings.extend(of_all(met, basis));
}

/// Two that are so nearly as near are equals, mm: far above rounding, far below what a tape shows.
const SAME_MM: f64 = 1e-5;

/// One finding of all that is met, the nearest first; none of nothing.
fn of_all(mut met: Vec<Meets>, basis: Basis) -> Option<Finding> {
    // Of equals rounding does not choose.
    let spare = |one: &Meets| ((one.may_be.gap_mm - one.reach_mm) / SAME_MM).round();
    let names = |one: &Meets| (one.what.clone(), one.may_be.of.clone());
    met.sort_by(|a, b| spare(a).total_cmp(&spare(b)).then_with(|| names(a).cmp(&names(b))));
    let worst = met.first()?.clone();
    let subjects = vec![Subject::Car, worst.what, worst.may_be.of];
    // What a tape leaves open is for the car to be parked further from.
    let settles = met.iter().all(Meets::is_settled_by_tape);
    let found = finding(Facts::CarPlace(met), Severity::Care, subjects, worst.may_be.at, basis)
        .against(Quantity::Length(worst.may_be.gap_mm), Quantity::Length(worst.reach_mm));
    Some(if settles { found.cured_by(Step::TapeCar) } else { found })
}

/// The same finding without what goes anyway; none if nothing is left of it.
pub(crate) fn without(found: Finding, goes: impl Fn(&Subject) -> bool) -> Option<Finding> {
    match found.facts {
        Facts::CarPlace(met) => of_all(met.into_iter().filter(|one| !goes(&one.what)).collect(), found.basis),
        _ => Some(found),
    }
}

/// What of the set-up an obstacle meets only if the car stands elsewhere: what its own place is too uncertain for is said of
/// it alone.
fn met_by(context: &Context<'_>, obstacle: &Obstacle<'_>, set_up: &SetUp) -> Vec<Meets> {
    let farthest = obstacle.known_mm + set_up.most_sway_mm;
    let own = OnceCell::new();
    let own = || own.get_or_init(|| obstacle.bounds_from(&set_up.car_from_bay));
    let within = |place: &Bounds, reach: f64| {
        obstacle.known_mm + sway(context.arrangement, farthest_in(&shared(&own().grown(reach), place)))
    };
    let reach = |index: usize| match set_up.places.get(index).copied().flatten() {
        // What is nearer than that lies within it: twice, and hardly more is left than there is.
        Some(place) => within(&place, within(&place, farthest)),
        None => 0.0,
    };
    let near = near(context, obstacle, farthest, reach).into_iter().filter(|own| !own.by_itself);
    let met = |may_be, reach| Meets::new(context, obstacle.subject.clone(), may_be, reach, obstacle.known_mm);
    near.map(|own| met(own.may_be, own.reach_mm)).collect()
}

/// What two boxes that meet share.
fn shared(a: &Bounds, b: &Bounds) -> Bounds {
    Bounds { low: a.low.max(b.low), high: a.high.min(b.high) }
}

/// How far the farthest corner of a box in the car's frame is from the axle, mm.
fn farthest_in(place: &Bounds) -> f64 {
    // The box is symmetric to what it is mirrored to: the farthest corner has the larger of each.
    place.low.abs().max(place.high.abs()).length()
}

/// The set-up as seen from the car, so that it does not matter how the bay lies.
struct SetUp {
    car_from_bay: PlanPose,
    /// Of each claim that moves with the car, a box around it in the car's frame.
    places: Vec<Option<Bounds>>,
    /// The farthest that any point of all of it may be from where it is drawn, mm.
    most_sway_mm: f64,
}

impl SetUp {
    fn of(context: &Context<'_>) -> Self {
        let car_from_bay = context.scene.bay_from_vehicle.inverse();
        let place = |claim: &Claim| {
            (claim.moves_with == MovesWith::Car).then(|| claim.volume.bounds_from(&car_from_bay))
        };
        let places: Vec<Option<Bounds>> = context.claims().iter().map(place).collect();
        let farthest = places.iter().flatten().map(farthest_in).fold(0.0, f64::max);
        Self { car_from_bay, places, most_sway_mm: sway(context.arrangement, farthest) }
    }
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

    /// The zone ends 10 mm before the far wall, which is known to ± 3 mm; a car that was taped may be ± 5 mm off, and turned. A
    /// tape tells no more: it is parked further from the wall, by as much as leaves nothing open until it is taped again.
    #[test]
    fn a_taped_car_near_a_wall_is_parked_further_from_it() {
        let mut arrangement = parked_at(6_190.0);
        arrangement.parked_known = ParkedKnown::Taped;
        arrangement.bay.walls_known = Known::Within(3.0);
        let found = check(&arrangement, Code::CarPlace, Severity::Care, Some(10.0));
        let Some(Step::MoveCar { by }) = found.cure.map(|cure| cure.step) else {
            panic!("{:?}", found.facts)
        };
        assert!(by.x < 0.0 && by.x > -80.0 && by.y == 0.0, "{by}");
        arrangement.parked = PlanPose::new(arrangement.parked.origin() + by, 0.0);
        arrangement.parked_known = ParkedKnown::Planned;
        none(&arrangement, Code::CarPlace);
        none(&arrangement, Code::PlaceUnsure);
    }

    #[test]
    fn a_planned_place_may_bring_the_zone_to_the_cabinet() {
        let far = DVec2::new(8_000.0 - 4_000.0, 1_500.0).length();
        let reach = 30.0 + far * libm::sin(angle::radians(0.5));
        assert!((reach - 67.3).abs() < 0.1, "{reach}");
        none(&beside(70.0, ParkedKnown::Planned), Code::CarPlace);
        let found = check(&beside(60.0, ParkedKnown::Planned), Code::CarPlace, Severity::Care, Some(60.0));
        // Never less than half a degree makes of it; at most a millimetre more.
        let limit = number(found.limit.unwrap());
        assert!((reach..reach + 1.0).contains(&limit), "{limit} {reach}");
        let subjects = [Subject::Car, Subject::Thing("cabinet".into()), Subject::Zone("beam".into())];
        assert_eq!(found.subjects, subjects);
        none(&beside(60.0, ParkedKnown::Taped), Code::CarPlace);
        none(&beside(60.0, ParkedKnown::Within { mm: 0.0, rad: 0.0 }), Code::CarPlace);
    }

    /// A shelf along the whole of the zone's left edge, 80 mm off, comes near it at the far end only, where half a degree is
    /// 52 mm: (5800, 1500) from the axle. The nearest points are the same all along.
    #[test]
    fn the_far_end_of_a_long_edge_counts() {
        let far = DVec2::new(5_800.0, 1_500.0).length();
        assert!(30.0 + far * libm::sin(angle::radians(0.5)) > 80.0);
        for (aside, turned) in [(1.0, 0.0), (1.0, 180.0), (-1.0, 0.0), (-1.0, 180.0)] {
            let at = DVec2::new(7_350.0, 3_000.0 + aside * (1_500.0 + 80.0 + 225.0));
            let mut arrangement = with(vec![cabinet("shelf", at.into(), 4_900.0, 450.0)]);
            arrangement.bay.things[0].place.at = PlanPose::new(at, angle::radians(turned));
            arrangement.parked_known = ParkedKnown::Planned;
            check(&arrangement, Code::CarPlace, Severity::Care, Some(80.0));
        }
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
