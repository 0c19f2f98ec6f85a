//! The leaves of swing doors that stand open, and what a roller door rolls up to.
//!
//! Rule: nobody told which way a swing door is hung, or how far it stands open: its leaf is somewhere in the quarter circles
//! that it can sweep about either jamb, as wide as the opening. Where a zone that excludes the leaf, the sight on a target,
//! a target with its stand, or the car lies in them, that needs care. Over its lintel a roller door has a roll: where it may
//! reach into a zone that excludes it, that needs care too.
//! Limit: where the leaf stands is not told; a roll is as large as the shop's own `door_roll_mm`.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::share::{Share, target_share};
use baywright_geometry::{DVec2, Polygon, Prism, Span, angle};

use super::claim::excludes_part;
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::sight::HIDDEN_FROM;
use super::{Check, Context, SPEAKS_FROM_MM, finding, middle_of_both};
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
    let sweeps = sweeps(context, door);
    in_zones(context, door, DoorPart::Leaf, &sweeps, findings);
    for target in &context.scene.targets {
        let subject = Subject::Stand(target.id.clone());
        in_solids(door, subject, &target.solids, &sweeps, findings);
        let Some(face) = &target.face else { continue };
        let hides = match target_share(context.scene.sensor(), face, &sweeps.iter().collect::<Vec<_>>()) {
            Share::Seen(seen) => 1.0 - seen.share > HIDDEN_FROM,
            Share::EyeInside { .. } => true,
            Share::Behind => false,
        };
        if let Some(sweep) = sweeps.first().filter(|_| hides) {
            let (at, height) = (sweep.outline.bounds().centre(), context.scene.sensor().z);
            let subject = Subject::Target(target.id.clone());
            findings.push(told(door, DoorPart::Leaf, subject, at, height));
        }
    }
    in_solids(door, Subject::Car, &context.scene.car, &sweeps, findings);
}

fn roll(context: &Context<'_>, door: &Opening, findings: &mut Vec<Finding>) {
    let Some(line) = context.arrangement.bay.opening_line(door) else { return };
    let roll_mm = context.arrangement.shop.door_roll_mm;
    let inward = (line.to - line.from).normalize_or_zero().perp() * roll_mm;
    let outline = Polygon::simple(vec![line.from, line.to, line.to + inward, line.from + inward]);
    let lintel = door.span.top();
    let (Ok(outline), Ok(span)) = (outline, Span::new(lintel, lintel + roll_mm)) else { return };
    in_zones(context, door, DoorPart::Roll, &[Prism::new(outline.into(), span)], findings);
}

/// The quarter circles inside the room that a leaf as wide as its door sweeps, hung at either jamb.
fn sweeps(context: &Context<'_>, door: &Opening) -> Vec<Prism> {
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

fn in_zones(
    context: &Context<'_>,
    door: &Opening,
    part: DoorPart,
    places: &[Prism],
    findings: &mut Vec<Finding>,
) {
    for zone in &context.scene.zones {
        if excludes_part(zone.excludes, door.material.metal()) == Some(false) {
            continue;
        }
        if let Some((depth, at, height)) = deepest([&zone.prism], places) {
            let found = told(door, part, Subject::Zone(zone.id.clone()), at, height);
            findings.push(found.against(Quantity::Length(depth), Quantity::Length(0.0)));
        }
    }
}

fn in_solids(
    door: &Opening,
    subject: Subject,
    solids: &[Prism],
    sweeps: &[Prism],
    findings: &mut Vec<Finding>,
) {
    if let Some((depth, at, height)) = deepest(solids, sweeps) {
        let found = told(door, DoorPart::Leaf, subject, at, height);
        findings.push(found.against(Quantity::Length(depth), Quantity::Length(0.0)));
    }
}

/// How deep, and where, the deepest of some solids is in one of these places.
fn deepest<'a>(solids: impl IntoIterator<Item = &'a Prism>, places: &[Prism]) -> Option<(f64, DVec2, f64)> {
    let pairs = solids.into_iter().flat_map(|solid| places.iter().map(move |place| (solid, place)));
    let depths = pairs.filter_map(|(solid, place)| {
        let Clearance::Intrudes(in_it) = clearance(solid, place) else { return None };
        let at = middle_of_both(&solid.outline.bounds(), &place.outline.bounds());
        Some((in_it.depth, at, (in_it.heights.bottom() + in_it.heights.top()) * 0.5))
    });
    depths.filter(|own| own.0 >= SPEAKS_FROM_MM).max_by(|a, b| a.0.total_cmp(&b.0))
}

fn told(door: &Opening, part: DoorPart, other: Subject, at: DVec2, height: f64) -> Finding {
    let subjects = vec![Subject::Opening(door.id.clone()), other];
    let basis = match part {
        DoorPart::Leaf => Basis::CommonPractice,
        DoorPart::Roll => Basis::Shop(ShopFigure::DoorRoll),
    };
    finding(Facts::DoorLeaf(part), Severity::Care, subjects, at.extend(height), basis)
}

#[cfg(test)]
mod tests {
    use super::DoorPart;
    use crate::check::testing::*;

    /// A swing door of 900 mm in the left wall at y = 6000, x from 7100 to 8000 (that wall runs from x = 12 000 back to 0).
    fn door() -> Opening {
        Opening {
            id: "side door".into(),
            kind: OpeningKind::SwingDoor,
            wall: 2,
            from_mm: 4_000.0,
            width_mm: 900.0,
            span: span(0.0, 2_000.0),
            material: Material::Steel,
            shut: false,
            free_beyond_mm: 0.0,
            is_exit: false,
        }
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
        assert_eq!(subjects(&arrangement), [Subject::Target("ahead".into()), Subject::Stand("ahead".into())]);
        // The body ends at x = 4850, 900 mm to the left.
        let mut beside_car = beside(4_000.0);
        beside_car.bay.openings[0].from_mm = 8_000.0;
        beside_car.bay.openings[0].width_mm = 1_200.0;
        beside_car.bay.openings[0].material = Material::Wood;
        assert_eq!(subjects(&beside_car), [Subject::Car]);
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
}
