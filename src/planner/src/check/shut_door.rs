//! Doors that are shut, and that somebody may open while it is aimed.
//!
//! Rule: whoever opens a door from the other side does not know what goes on. Which way a swing door is hung is not told, so that its
//! leaf may come into the room: nothing of the set-up that an open leaf may not be in ([`super::door_leaf`]) lies in the quarter
//! circles that it may sweep about either jamb. Within a step of a door through which a person fits no target stands and no line
//! of sight runs. What one door may bring is one finding, since one act settles it: the door is kept shut, and locked where it is
//! no way out, while this is aimed. That it is kept so is a note, so that it is done. Of a door that lets people into a zone
//! `walk_in` says so, and nothing is said here: the same act settles that.
//! Limit: the leaf is as wide as its opening; a step is [`walk_in::STEP_IN_MM`], common practice, no source; the places of wall and car
//! within what is known of them.

use baywright_geometry::{Bounds, DVec3, Prism, Span};

use super::claim::{Claim, MovesWith};
use super::door_leaf::{in_claim, sweeps};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::walk_in::{self, PERSON_MM};
use super::{Check, Context, Reaches, SPEAKS_FROM_MM, finding, sway};
use crate::model::{Opening, OpeningKind};

pub(super) const CHECK: Check = Check { codes: &[Code::ShutDoor], whole, ..Check::NONE };

/// What is said of a shut door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opened {
    /// Its leaf may swing into something.
    Leaf,
    /// Who comes in is within a step of something.
    Step,
    /// It is kept shut while this is aimed.
    Never,
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let openings = &context.arrangement.bay.openings;
    for door in openings.iter().filter(|own| own.shut && own.kind.is_door()) {
        findings.extend(of_door(context, door));
    }
}

fn of_door(context: &Context<'_>, door: &Opening) -> Option<Finding> {
    let zones = walk_in::zones_behind(context, door);
    let is_kept = walk_in::is_kept_shut(context, door);
    if !is_kept && !zones.is_empty() {
        return None;
    }
    let middle = context.arrangement.bay.opening_line(door)?.at(0.5).extend(door.span.bottom());
    let mut by_leaf = Vec::new();
    if door.kind == OpeningKind::SwingDoor {
        meets(context, &sweeps(context, door), |claim| is_barred_to_leaf(claim, door), &mut by_leaf);
    }
    let mut by_step = Vec::new();
    if is_near_a_step(context, door)
        && let Some(floor) = walk_in::floor_behind(context, door)
        && let Ok(walking) = Span::new(0.0, PERSON_MM)
    {
        let stepped = [Prism::new(floor, walking)];
        meets(context, &stepped, |claim| is_kept_from_step(claim, door), &mut by_step);
    }
    let by = match (is_kept, by_leaf.is_empty(), by_step.is_empty()) {
        (true, ..) => Opened::Never,
        (false, false, _) => Opened::Leaf,
        (false, true, false) => Opened::Step,
        (false, true, true) => return None,
    };
    let at = by_leaf.first().or(by_step.first()).map_or(middle, |(_, at)| *at);
    let mut parts: Vec<Reaches> = Vec::new();
    let met = by_leaf.into_iter().chain(by_step).map(|(part, _)| part);
    let of_zones = zones.into_iter().map(|of| Reaches { of, code: Code::WalkIn, depth_mm: None });
    for part in met.chain(of_zones) {
        if !parts.iter().any(|known| is_one(&known.of, &part.of)) {
            parts.push(part);
        }
    }
    let subjects = std::iter::once(Subject::Opening(door.id.clone()));
    let subjects = subjects.chain(parts.iter().map(|part| part.of.clone())).collect();
    let severity = if is_kept { Severity::Note } else { Severity::Care };
    let depth = parts.first().and_then(|part| part.depth_mm).filter(|_| by == Opened::Leaf);
    let found = finding(Facts::ShutDoor { by, parts }, severity, subjects, at, Basis::CommonPractice);
    let found = match depth {
        Some(depth) => found.against(Quantity::Length(depth), Quantity::Length(0.0)),
        None => found,
    };
    Some(if is_kept { found } else { found.cured_by(Step::KeepShut { door: door.id.clone() }) })
}

/// Whether two parts are told as one: where a target is in the way, its sight goes without saying.
fn is_one(known: &Subject, other: &Subject) -> bool {
    match (known, other) {
        (Subject::Stand(stand), Subject::Target(target)) => stand == target,
        _ => known == other,
    }
}

/// Whether a leaf may not swing into it: room to walk is walked round a leaf, and what local rules keep free is free again.
fn is_barred_to_leaf(claim: &Claim, door: &Opening) -> bool {
    let says = claim.says_of(door.material);
    claim.moves_with == MovesWith::Car && !matches!(says, None | Some(Code::WorkingRoom))
}

/// Whether nobody may come in within a step of it.
fn is_kept_from_step(claim: &Claim, door: &Opening) -> bool {
    matches!(claim.says_of(door.material), Some(Code::StandClash | Code::SightBlocked))
}

/// Whether anything that is kept from a step may be within one: most doors are out of the question by that, and what lies round
/// the other walls is dear.
fn is_near_a_step(context: &Context<'_>, door: &Opening) -> bool {
    let arrangement = context.arrangement;
    let (Some(line), Some(claimed)) = (arrangement.bay.opening_line(door), context.claims().around()) else {
        return false;
    };
    let step = walk_in::STEP_IN_MM + walk_in::FURTHER_MM + SPEAKS_FROM_MM;
    let place = Bounds { low: line.from.min(line.to), high: line.from.max(line.to) }.grown(step);
    // No part of either is further from the axle, or less sure.
    let (axle, all) = (arrangement.parked.origin(), claimed.union(place));
    let farthest = (all.low - axle).abs().max((all.high - axle).abs()).length();
    let walls = arrangement.shop.within(arrangement.bay.walls_known);
    let unsure = walls + sway(arrangement, farthest + walls + sway(arrangement, farthest));
    let place = place.grown(unsure);
    context.claims().near(place).any(|(_, claim)| is_kept_from_step(claim, door))
}

/// Everything of some claims that lies in these places, or may: once each, the deepest first, and where.
fn meets(
    context: &Context<'_>,
    places: &[Prism],
    asked: impl Fn(&Claim) -> bool,
    met: &mut Vec<(Reaches, DVec3)>,
) {
    for claim in context.claims().iter().filter(|claim| asked(claim)) {
        let Some(code) = claim.code() else { continue };
        for place in places {
            let Some((depth_mm, at)) = in_claim(context, claim, place) else { continue };
            let part = Reaches { of: claim.of.clone(), code, depth_mm };
            match met.iter_mut().find(|(known, _)| known.of == part.of) {
                Some(known) if known.0.depth_mm < depth_mm => *known = (part, at),
                Some(_) => {}
                None => met.push((part, at)),
            }
        }
    }
    // Of equals rounding does not choose.
    let depth = |part: &Reaches| (part.depth_mm.unwrap_or(-1.0) / SPEAKS_FROM_MM).round();
    met.sort_by(|(a, _), (b, _)| depth(b).total_cmp(&depth(a)).then_with(|| a.of.cmp(&b.of)));
}

#[cfg(test)]
mod tests {
    use super::Opened;
    use crate::check::testing::*;

    /// A car whose middle is at this height of the plan, and the shut steel door in the left wall, 900 mm wide.
    fn beside(y: f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, y), 0.0);
        arrangement.bay.openings = vec![Opening { material: Material::Steel, shut: true, ..side_door() }];
        arrangement
    }

    fn wooden(y: f64) -> Arrangement {
        let mut arrangement = beside(y);
        arrangement.bay.openings[0].material = Material::Wood;
        arrangement
    }

    fn opened(found: &Finding) -> (Opened, Vec<Subject>) {
        match &found.facts {
            Facts::ShutDoor { by, parts } => (*by, parts.iter().map(|part| part.of.clone()).collect()),
            other => panic!("{other:?}"),
        }
    }

    /// The zone, which excludes metal, ends 1500 mm left of the car's middle; the sweep 900 mm from the wall at y = 6000.
    #[test]
    fn a_leaf_may_swing_into_a_zone() {
        none(&beside(3_590.0), Code::ShutDoor);
        let arrangement = beside(3_700.0);
        let found = check(&arrangement, Code::ShutDoor, Severity::Care, None);
        assert_eq!(opened(&found), (Opened::Leaf, vec![Subject::Zone("beam".into())]));
        let depth = number(found.measured.unwrap());
        assert!((100.0..104.0).contains(&depth), "{depth}");
        let words = words::Words::new(&arrangement, words::Locale::default());
        let title = words.title(&found);
        assert_eq!(title, "Side door may swing into the keep-clear zone “beam” if somebody opens it");
        let cure = words.cure(&found);
        assert_eq!(cure.as_deref(), Some("Keep the side door shut and locked while this is aimed."));
        // Wood may be in it.
        none(&wooden(3_700.0), Code::ShutDoor);
    }

    /// Kept shut it is a note; open again it is none, and the leaf is asked of.
    #[test]
    fn a_door_that_is_kept_shut_is_a_note() {
        let arrangement = beside(3_700.0);
        let found = check(&arrangement, Code::ShutDoor, Severity::Care, None);
        let kept = crate::cure::apply(&arrangement, &found.cure.unwrap().step);
        assert_eq!(kept.kept_shut, ["side door".into()]);
        let note = check(&kept, Code::ShutDoor, Severity::Note, None);
        assert_eq!(opened(&note), (Opened::Never, vec![Subject::Zone("beam".into())]));
        assert_eq!((note.cure.clone(), note.measured), (None, None));
        let words = words::Words::new(&kept, words::Locale::default());
        let line = words.line(&note);
        assert!(line.starts_with("Keep the side door shut and locked while this is aimed."), "{line}");
        let open = crate::cure::apply(&kept, &Step::OpenDoor { door: "side door".into() });
        assert!(open.kept_shut.is_empty());
        none(&open, Code::ShutDoor);
        check(&open, Code::DoorLeaf, Severity::Care, None);
        // What is kept shut for nothing is told as that.
        let mut far = beside(3_000.0);
        far.kept_shut = vec!["side door".into()];
        let note = check(&far, Code::ShutDoor, Severity::Note, None);
        let line = words::Words::new(&far, words::Locale::default()).line(&note);
        assert!(line.contains("need not be kept shut"), "{line}");
    }

    /// A way out is never locked.
    #[test]
    fn a_way_out_is_not_locked() {
        let mut arrangement = beside(3_700.0);
        arrangement.bay.openings[0].is_exit = true;
        let found = check(&arrangement, Code::ShutDoor, Severity::Care, None);
        let words = words::Words::new(&arrangement, words::Locale::default());
        let cure = words.cure(&found).unwrap();
        assert!(cure.contains("shut but not locked") && !cure.contains("shut and locked"), "{cure}");
    }

    /// The stand's feet reach from x = 8820 to 9300 and 300 mm to either side, the face 250 mm; the door from x = 9000 on. A
    /// wooden leaf sweeps 900 mm; a step in is 1000.
    #[test]
    fn who_comes_in_stands_beside_the_target() {
        let at = |y: f64, kind: OpeningKind| {
            let mut arrangement = wooden(y);
            let door = &mut arrangement.bay.openings[0];
            (door.from_mm, door.kind) = (2_700.0, kind);
            arrangement.aiming.mark_plan.truncate(2);
            arrangement.aiming.placements[0].mark = None;
            arrangement
        };
        none(&at(4_690.0, OpeningKind::SwingDoor), Code::ShutDoor);
        let near = at(4_750.0, OpeningKind::SwingDoor);
        let found = check(&near, Code::ShutDoor, Severity::Care, None);
        assert_eq!(opened(&found), (Opened::Step, vec![Subject::Stand("ahead".into())]));
        let title = words::Words::new(&near, words::Locale::default()).title(&found);
        assert_eq!(title, "Side door may let somebody in within a step of the target stand");
        let roller = check(&at(4_750.0, OpeningKind::RollerDoor), Code::ShutDoor, Severity::Care, None);
        assert_eq!(opened(&roller).0, Opened::Step);
        let swung = check(&at(5_000.0, OpeningKind::SwingDoor), Code::ShutDoor, Severity::Care, None);
        assert_eq!(opened(&swung).0, Opened::Leaf);
        // Nobody gets in by what is too narrow, and no leaf as narrow reaches so far.
        let mut narrow = near;
        narrow.bay.openings[0].width_mm = 390.0;
        none(&narrow, Code::ShutDoor);
    }

    /// A zone that is to be clear of people is told by `walk_in`, with the same way out, and then both are the one note.
    #[test]
    fn one_act_is_told_once() {
        let mut arrangement = beside(3_700.0);
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        none(&arrangement, Code::ShutDoor);
        let found = check(&arrangement, Code::WalkIn, Severity::Care, None);
        let kept = crate::cure::apply(&arrangement, &found.cure.unwrap().step);
        none(&kept, Code::WalkIn);
        let note = check(&kept, Code::ShutDoor, Severity::Note, None);
        assert_eq!(opened(&note), (Opened::Never, vec![Subject::Zone("beam".into())]));
    }

    #[test]
    fn what_is_uncertain_counts_at_a_shut_door() {
        let near = beside(3_590.0);
        none(&near, Code::ShutDoor);
        let mut walls = near.clone();
        walls.bay.walls_known = Known::Within(15.0);
        check(&walls, Code::ShutDoor, Severity::Care, None);
        let mut car = near;
        car.parked_known = ParkedKnown::Within { mm: 15.0, rad: 0.0 };
        check(&car, Code::ShutDoor, Severity::Care, None);
    }
}
