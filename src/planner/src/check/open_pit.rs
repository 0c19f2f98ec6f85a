//! An open pit where people work.
//!
//! Rule: whoever lays marks and sets targets walks all round and between them, with the eyes on a tape: between the car, the marks
//! and the targets, and near to that, no pit lies open. One that the car covers wholly is none that anybody falls into. Where the
//! car, with all that is laid from it, may stand a little elsewhere, or the pit lie, it may lie open there, and that is said.
//! Limit: 29 CFR 1910.28(b)(8): within 6 ft of the edge of a pit less than 10 ft deep who is there is trained for it, the floor is
//! marked and a sign says so; how well the places of car and floor are known comes on top. It needs care, and local rules decide: a pit that is covered is entered as a drain, or not at all.

use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::{DVec2, Outline, hull, hull_grown};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity};
use super::{Check, Context, SPEAKS_FROM_MM, farthest_of, finding, sway};

/// Six feet.
const EDGE_MM: f64 = 1_828.8;

const PIT_RULE: &str = "29 CFR 1910.28(b)(8): trained people only within 6 ft of an open pit";

/// How surely a pit lies open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// As it is drawn.
    Is,
    /// As far as the places of car and floor are known.
    MayBe,
}

pub(super) const CHECK: Check = Check { codes: &[Code::OpenPit], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut pits = context.pits().peekable();
    let Some(worked) = pits.peek().and_then(|_| worked_in(context)) else { return };
    for (pit, hole) in pits {
        let (gap, at) = match distance(&worked, &hole.outline) {
            Separation::Apart { gap, to, .. } => (gap, to),
            Separation::Touching { at } => (0.0, at),
            Separation::Overlapping => (0.0, hole.outline.bounds().centre()),
        };
        let unsure_mm = unsure(context, &worked, &hole.outline, gap);
        let Some(open) = open(context, &hole.outline, gap, unsure_mm) else { continue };
        let basis = Basis::Published(PIT_RULE);
        let found = finding(Facts::OpenPit(open), Severity::Care, vec![pit], at.extend(0.0), basis);
        let wants = if gap < EDGE_MM - SPEAKS_FROM_MM { EDGE_MM } else { EDGE_MM + unsure_mm };
        findings.push(match gap > 0.0 {
            true => found.against(Quantity::Length(gap), Quantity::Length(wants)),
            false => found,
        });
    }
}

/// How surely a pit lies open where people work or near to it; `None` if it does not.
fn open(context: &Context<'_>, hole: &Outline, gap: f64, unsure_mm: f64) -> Option<Open> {
    let is_near = |edge: f64| gap < edge - SPEAKS_FROM_MM;
    if is_near(EDGE_MM) && !context.is_under_the_car(hole) {
        return Some(Open::Is);
    }
    // Wherever it may lie, seen from the car.
    let anywhere = || {
        let corners = hole.as_polygon().outer().to_vec();
        let grown = hull_grown(&corners, unsure_mm);
        grown.map_or_else(|| hole.clone(), Outline::from)
    };
    let may_be = unsure_mm > 0.0 && is_near(EDGE_MM + unsure_mm) && !context.is_under_the_car(&anywhere());
    may_be.then_some(Open::MayBe)
}

/// How far a pit and what people work at near it may be from where they are drawn, against each other, mm.
fn unsure(context: &Context<'_>, worked: &Outline, hole: &Outline, gap: f64) -> f64 {
    let arrangement = context.arrangement;
    let axle = arrangement.parked.origin();
    // What of it is as near to the pit is no farther from the axle than both together.
    let far = farthest_of(worked, axle).min(farthest_of(hole, axle) + gap);
    sway(arrangement, far) + arrangement.shop.within(arrangement.bay.walls_known)
}

/// All that lies between the car, its marks and its targets, from above.
fn worked_in(context: &Context<'_>) -> Option<Outline> {
    let scene = context.scene;
    let solids = scene.car.iter().chain(scene.targets.iter().flat_map(|own| &own.solids));
    let corners = solids.flat_map(|solid| solid.outline.as_polygon().outer().to_vec());
    let marks = scene.marks.iter().filter_map(|mark| mark.at.ok());
    hull(&corners.chain(marks).collect::<Vec<DVec2>>()).map(Outline::from)
}

#[cfg(test)]
mod tests {
    use super::Open;
    use crate::check::testing::*;

    fn pit(low: (f64, f64), high: (f64, f64)) -> Arrangement {
        let mut arrangement = clear();
        let (id, kind, material) = ("pit".into(), FloorFeatureKind::Pit, Material::Concrete);
        let outline = rectangle(low, high);
        arrangement.bay.floor_features = vec![FloorFeature { id, kind, outline, material, proud_mm: 0.0 }];
        arrangement
    }

    /// Before the nose, between the lines to the target: no tape, no wheel, no stand is on it, and nobody's working room.
    #[test]
    fn a_pit_between_car_and_target() {
        let before = pit((5_600.0, 2_600.0), (8_000.0, 3_400.0));
        let found = check(&before, Code::OpenPit, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::FloorFeature("pit".into())]);
        assert_eq!(assess(&before).verdict, Verdict::ReadyWithCare);
        let line = words::Words::new(&before, words::Locale::default()).line(&found);
        assert!(line.starts_with("Pit lies open where people work"), "{line}");
        let mut grate = before;
        grate.bay.floor_features[0].kind = FloorFeatureKind::Drain;
        none(&grate, Code::OpenPit);
    }

    /// The hull's left side runs from mark 1 at (1400, 4020) to mark 5 at (8800, 4020): six feet from it is y = 5848.8.
    #[test]
    fn six_feet_from_where_people_work() {
        let found =
            check(&pit((3_000.0, 5_848.0), (4_000.0, 5_990.0)), Code::OpenPit, Severity::Care, Some(1_828.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_828.8)));
        none(&pit((3_000.0, 5_849.0), (4_000.0, 5_990.0)), Code::OpenPit);
    }

    /// The body is 1800 mm wide, from x = 600 to 4850.
    #[test]
    fn the_car_stands_over_it() {
        none(&pit((1_600.0, 2_600.0), (3_400.0, 3_400.0)), Code::OpenPit);
        check(&pit((4_500.0, 2_600.0), (4_900.0, 3_400.0)), Code::OpenPit, Severity::Care, None);
        // In parts, none of which covers it alone, as bonnet and cabin are.
        let mut parts = pit((1_600.0, 2_600.0), (3_400.0, 3_400.0));
        let part = |from: f64, to: f64| {
            Prism::new(rectangle((from, -900.0), (to, 900.0)).into(), span(150.0, 1_400.0))
        };
        parts.vehicle.body = vec![part(-3_400.0, -1_500.0), part(-1_500.0, 850.0)].into();
        none(&parts, Code::OpenPit);
        none(&parts, Code::WorkingRoom);
        parts.vehicle.body = vec![part(-3_400.0, -1_500.0), part(-1_400.0, 850.0)].into();
        check(&parts, Code::OpenPit, Severity::Care, None);
    }

    /// A taped car is known to 5 mm and 0.15°, and turns all that is laid from it: what is farthest of pit and gap from its axle at
    /// (4000, 3000) is the corner at (3000, 5990), 3152.8 mm away, and the gap.
    #[test]
    fn as_far_as_the_places_are_known() {
        let mut beside = pit((3_000.0, 5_849.0), (4_000.0, 5_990.0));
        beside.bay.walls_known = Known::Within(2.0);
        let found = check(&beside, Code::OpenPit, Severity::Care, Some(1_829.0));
        assert_eq!(
            (&found.facts, found.limit),
            (&Facts::OpenPit(Open::MayBe), Some(Quantity::Length(1_830.8)))
        );
        let line = words::Words::new(&beside, words::Locale::default()).line(&found);
        assert!(line.starts_with("Pit may lie open beside where people work"), "{line}");
        beside.bay.walls_known = Known::Within(0.0);
        none(&beside, Code::OpenPit);
        beside.parked_known = ParkedKnown::Taped;
        let found = check(&beside, Code::OpenPit, Severity::Care, None);
        let far = libm::hypot(1_000.0, 2_990.0) + 1_829.0;
        let wants = 1_828.8 + 5.0 + far * libm::sin(angle::radians(0.15));
        assert!((number(found.limit.unwrap()) - wants).abs() < 1e-6, "{found:?} {wants}");
        // Under the car, 20 mm from its side: planned, it may stand 30 mm aside.
        let mut under = pit((1_600.0, 2_600.0), (3_400.0, 3_880.0));
        none(&under, Code::OpenPit);
        under.parked_known = ParkedKnown::Planned;
        let found = check(&under, Code::OpenPit, Severity::Care, None);
        assert_eq!((found.facts, found.measured), (Facts::OpenPit(Open::MayBe), None));
    }
}
