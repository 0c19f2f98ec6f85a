//! The leaves of swing doors that stand open, and what a roller door rolls up to.
//!
//! Rule: nobody told which way a swing door is hung, or how far it stands open: its leaf is somewhere in the quarter circles
//! that it can sweep about either jamb, as wide as the opening. Where a zone that excludes the leaf, the sight on a target, the
//! first Fresnel zone of a radar's path, a target with its stand, the car, a mark, a run of tape or light, or a way that is to
//! stay free lies in them, or may as far as the places of wall and car are known, that needs care. Over its lintel a roller door
//! has a roll, of which the same is asked.
//! Limit: where the leaf stands is not told; a roll is as large as the shop's own `door_roll_mm`.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::{DVec2, DVec3, Polygon, Prism, Span, angle};

use super::claim::{Claim, MovesWith, Volume};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, farthest_of, finding, middle_of_both, sway};
use crate::model::{Opening, OpeningKind, ShopFigure};

/// Tangents of a quarter circle: the outline stands at most 0.3 % outside the arc, never inside.
const TANGENTS: u32 = 10;

/// Which part of a door may be in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DoorPart {
    /// The leaf of an open swing door.
    Leaf,
    /// The roll of a roller door.
    Roll,
}

pub(super) const CHECK: Check = Check { codes: &[Code::DoorLeaf], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for opening in &context.arrangement.bay.openings {
        match opening.kind {
            OpeningKind::SwingDoor if !opening.shut => leaf(context, opening, findings),
            OpeningKind::RollerDoor => roll(context, opening, findings),
            OpeningKind::SwingDoor | OpeningKind::Window | OpeningKind::Gap => {}
        }
    }
}

fn leaf(context: &Context<'_>, door: &Opening, findings: &mut Vec<Finding>) {
    in_claims(context, door, DoorPart::Leaf, &sweeps(context, door), findings);
}

fn roll(context: &Context<'_>, door: &Opening, findings: &mut Vec<Finding>) {
    let Some(line) = context.arrangement.bay.opening_line(door) else { return };
    let roll_mm = context.arrangement.shop.door_roll_mm;
    let inward = (line.to - line.from).normalize_or_zero().perp() * roll_mm;
    let outline = Polygon::simple(vec![line.from, line.to, line.to + inward, line.from + inward]);
    let lintel = door.span.top();
    let (Ok(outline), Ok(span)) = (outline, Span::new(lintel, lintel + roll_mm)) else { return };
    in_claims(context, door, DoorPart::Roll, &[Prism::new(outline.into(), span)], findings);
}

/// The quarter circles inside the room that a leaf as wide as its door sweeps, hung at either jamb.
pub(super) fn sweeps(context: &Context<'_>, door: &Opening) -> Vec<Prism> {
    let Some(line) = context.arrangement.bay.opening_line(door) else { return Vec::new() };
    let along = line.to - line.from;
    let hinges = [(line.from, along), (line.to, -along)];
    let outlines = hinges.into_iter().filter_map(|(at, shut)| quarter(at, shut, along.perp()));
    outlines.map(|outline| Prism::new(outline.into(), door.span)).collect()
}

/// The quarter circle about a hinge, from its shut leaf to one that stands square to the wall, by its tangents.
fn quarter(hinge: DVec2, shut: DVec2, square: DVec2) -> Option<Polygon> {
    let step = std::f64::consts::FRAC_PI_2 / f64::from(TANGENTS);
    let out = 1.0 / angle::sin_cos(step * 0.5).1;
    let arc = (0..=TANGENTS).map(|i| {
        let (sin, cos) = angle::sin_cos(step * f64::from(i));
        hinge + (shut * cos + square * sin) * out
    });
    Polygon::simple(std::iter::once(hinge).chain(arc).collect()).ok()
}

/// Says once of each that claims a place whether a part of the door may be there.
fn in_claims(
    context: &Context<'_>,
    door: &Opening,
    part: DoorPart,
    places: &[Prism],
    findings: &mut Vec<Finding>,
) {
    let asked = |claim: &Claim| match claim.says_of(door.material) {
        // Room to walk is walked round an open leaf, and the way to a door is through it.
        None | Some(Code::WorkingRoom) => false,
        Some(_) => claim.of != Subject::KeepFree(door.id.clone()),
    };
    let mut told_of: Vec<(Subject, Option<f64>, Finding)> = Vec::new();
    for claim in context.claims().iter().filter(|claim| asked(claim)) {
        for place in places {
            let Some((depth, at)) = in_claim(context, claim, place) else { continue };
            let found = told(door, part, claim.of.clone(), at);
            let found = match depth {
                Some(depth) => found.against(Quantity::Length(depth), Quantity::Length(0.0)),
                None => found,
            };
            match told_of.iter_mut().find(|(of, ..)| *of == claim.of) {
                Some(known) if known.1 < depth => (known.1, known.2) = (depth, found),
                Some(_) => {}
                None => told_of.push((claim.of.clone(), depth, found)),
            }
        }
    }
    findings.extend(told_of.into_iter().map(|(.., found)| found));
}

/// How deep a claim reaches into a place, if it does and can be measured, and where; or whether it may, as far as the places of
/// wall and car are known.
pub(super) fn in_claim(context: &Context<'_>, claim: &Claim, place: &Prism) -> Option<(Option<f64>, DVec3)> {
    let bounds = place.outline.bounds();
    let reach = reach(context, claim, place);
    if !claim.around.meets(&bounds.grown(reach)) {
        return None;
    }
    let (here, height) =
        (middle_of_both(&claim.around, &bounds), (place.span.bottom() + place.span.top()) * 0.5);
    if let Volume::Prism(own) = &claim.volume
        && let Clearance::Intrudes(in_it) = clearance(own, place)
        && in_it.depth >= SPEAKS_FROM_MM
    {
        let height = (in_it.heights.bottom() + in_it.heights.top()) * 0.5;
        return Some((Some(in_it.depth), here.extend(height)));
    }
    match distance(&claim.volume.at(&place.span)?, &place.outline) {
        Separation::Apart { gap, to, .. } => {
            (gap < reach - SPEAKS_FROM_MM).then(|| (None, to.extend(height)))
        }
        Separation::Touching { at } => (reach > SPEAKS_FROM_MM).then(|| (None, at.extend(height))),
        Separation::Overlapping => Some((None, here.extend(height))),
    }
}

/// How far off what is uncertain of wall and car may bring a claim to a place of the wall's.
fn reach(context: &Context<'_>, claim: &Claim, place: &Prism) -> f64 {
    let arrangement = context.arrangement;
    if claim.moves_with == MovesWith::Room {
        return 0.0;
    }
    let walls = arrangement.shop.within(arrangement.bay.walls_known);
    let far = farthest_of(&place.outline, arrangement.parked.origin());
    // What is so near is hardly farther from the axle.
    walls + sway(arrangement, far + walls + sway(arrangement, far))
}

fn told(door: &Opening, part: DoorPart, other: Subject, at: DVec3) -> Finding {
    let subjects = vec![Subject::Opening(door.id.clone()), other];
    let basis = match part {
        DoorPart::Leaf => Basis::CommonPractice,
        DoorPart::Roll => Basis::Shop(ShopFigure::DoorRoll),
    };
    finding(Facts::DoorLeaf(part), Severity::Care, subjects, at, basis)
}

#[cfg(test)]
mod tests {
    use super::DoorPart;
    use crate::check::testing::*;

    fn door() -> Opening {
        Opening { material: Material::Steel, shut: false, ..side_door() }
    }

    fn beside(y: f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.bay.openings = vec![door()];
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, y), 0.0);
        arrangement
    }

    /// The zone ends 1500 mm left of the car's middle, the sweep 900 mm from the wall at y = 6000.
    #[test]
    fn an_open_leaf_may_stand_in_a_zone() {
        none(&beside(3_590.0), Code::DoorLeaf);
        let found = check(&beside(3_700.0), Code::DoorLeaf, Severity::Care, None);
        assert_eq!(found.facts, Facts::DoorLeaf(DoorPart::Leaf));
        assert_eq!(found.subjects, [Subject::Opening("side door".into()), Subject::Zone("beam".into())]);
        // By 100 mm, and a few for the tangents.
        let depth = number(found.measured.unwrap());
        assert!((100.0..104.0).contains(&depth), "{depth}");
        let mut other = beside(3_700.0);
        other.bay.openings[0].material = Material::Wood;
        none(&other, Code::DoorLeaf);
        other.bay.openings[0].material = Material::Unknown;
        check(&other, Code::DoorLeaf, Severity::Care, None);
        other.bay.openings[0].shut = true;
        none(&other, Code::DoorLeaf);
    }

    /// A wooden leaf may stand in the sight, where the stand goes, and where the car's side is.
    #[test]
    fn an_open_leaf_may_stand_in_the_sight_and_in_the_set_up() {
        let subjects = |arrangement: &Arrangement| -> Vec<Subject> {
            let assessment = assess(arrangement);
            of(&assessment, Code::DoorLeaf).iter().map(|found| found.subjects[1].clone()).collect()
        };
        let mut arrangement = beside(5_300.0);
        arrangement.bay.openings[0].material = Material::Wood;
        assert_eq!(subjects(&arrangement), [Subject::Target("ahead".into())]);
        // The stand's feet reach from x = 8820 to 9300, 300 mm to either side.
        arrangement.bay.openings[0].from_mm = 2_700.0;
        let there = subjects(&arrangement);
        for own in [
            Subject::Target("ahead".into()),
            Subject::Stand("ahead".into()),
            // Under the middle of the face, and the mark whose tape runs there.
            Subject::Mark("T".into()),
        ] {
            assert!(there.contains(&own), "{own:?} {there:?}");
        }
        // The body ends at x = 4850, 900 mm to the left.
        let mut beside_car = beside(4_000.0);
        beside_car.bay.openings[0].from_mm = 8_000.0;
        beside_car.bay.openings[0].width_mm = 1_200.0;
        beside_car.bay.openings[0].material = Material::Wood;
        assert_eq!(subjects(&beside_car).first(), Some(&Subject::Car));
    }

    /// A roller door in the far wall with its lintel at 1400 mm, and a zone that reaches 1500 mm high and the wall.
    #[test]
    fn a_roll_over_the_lintel() {
        let mut arrangement = parked_at(6_200.0);
        arrangement.bay.openings = vec![Opening {
            kind: OpeningKind::RollerDoor,
            wall: 1,
            from_mm: 1_000.0,
            width_mm: 4_000.0,
            span: span(0.0, 1_400.0),
            shut: true,
            ..door()
        }];
        let found = check(&arrangement, Code::DoorLeaf, Severity::Care, None);
        assert_eq!(found.facts, Facts::DoorLeaf(DoorPart::Roll));
        arrangement.bay.openings[0].span = span(0.0, 1_500.0);
        none(&arrangement, Code::DoorLeaf);
        arrangement.bay.openings[0].span = span(0.0, 1_400.0);
        arrangement.bay.openings[0].material = Material::Plastic;
        none(&arrangement, Code::DoorLeaf);
    }

    /// The run from mark 1 to mark 5 lies 1020 mm left of the middle, and passes the door at 900 mm from its wall or nearer.
    #[test]
    fn an_open_leaf_may_stand_in_a_run() {
        let wooden = |y: f64| {
            let mut arrangement = beside(y);
            arrangement.bay.openings[0].material = Material::Wood;
            arrangement
        };
        none(&wooden(4_070.0), Code::DoorLeaf);
        let found = check(&wooden(4_090.0), Code::DoorLeaf, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Opening("side door".into()), Subject::Mark("5".into())]);
        let words = words::Words::new(&wooden(4_090.0), words::Locale::default()).title(&found);
        assert_eq!(words, "Side door may stand open on mark 5 or in a run to it");
    }

    /// The zone ends 10 mm short of the sweep, which stands at most 3 mm outside its arc: that is within what is known of the wall,
    /// or of the car.
    #[test]
    fn what_is_uncertain_counts_at_a_leaf_too() {
        let near = beside(3_590.0);
        none(&near, Code::DoorLeaf);
        let mut walls = near.clone();
        walls.bay.walls_known = Known::Within(15.0);
        check(&walls, Code::DoorLeaf, Severity::Care, None);
        let mut car = near;
        car.parked_known = ParkedKnown::Within { mm: 15.0, rad: 0.0 };
        check(&car, Code::DoorLeaf, Severity::Care, None);
    }

    /// The way before another door that is an exit; its own it is opened into.
    #[test]
    fn an_open_leaf_before_a_way_out() {
        let mut arrangement = beside(3_000.0);
        arrangement.bay.openings[0].is_exit = true;
        none(&arrangement, Code::DoorLeaf);
        let outline = rectangle((7_000.0, 5_200.0), (8_200.0, 5_400.0));
        arrangement.bay.keep_free = vec![KeepFree { id: "panel".into(), kind: KeepFreeKind::Panel, outline }];
        let found = check(&arrangement, Code::DoorLeaf, Severity::Care, None);
        assert_eq!(found.subjects[1], Subject::KeepFree("panel".into()));
    }
}
