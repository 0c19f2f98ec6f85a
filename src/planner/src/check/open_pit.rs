//! An open pit where people work.
//!
//! Rule: whoever lays marks and sets targets walks all round and between them, with the eyes on a tape: between the car, the marks
//! and the targets, and near to that, no pit lies open. One that the car covers wholly is none that anybody falls into.
//! Limit: 29 CFR 1910.28(b)(8): within 6 ft of the edge of a pit less than 10 ft deep who is there is trained for it, the floor is
//! marked and a sign says so. It needs care, and local rules decide: a pit that is covered is entered as a drain, or not at all.

use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::{DVec2, Outline, hull};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity};
use super::{Check, Context, SPEAKS_FROM_MM, finding};

/// Six feet.
const EDGE_MM: f64 = 1_828.8;

const PIT_RULE: &str = "29 CFR 1910.28(b)(8): trained people only within 6 ft of an open pit";

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
        if context.is_under_the_car(&hole.outline) || gap >= EDGE_MM - SPEAKS_FROM_MM {
            continue;
        }
        let basis = Basis::Published(PIT_RULE);
        let found = finding(Facts::OpenPit, Severity::Care, vec![pit], at.extend(0.0), basis);
        findings.push(match gap > 0.0 {
            true => found.against(Quantity::Length(gap), Quantity::Length(EDGE_MM)),
            false => found,
        });
    }
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
}
