//! Ways out, electrical panels and extinguishers that something stands in front of.
//!
//! Rule: areas that the layout names stay free of car, stands and things; so does the way to every door that is named
//! an exit. Care only: local rules decide.
//! Limit: the areas as entered; before an exit door, 29 CFR 1910.36(g)(2): at least 28 in (711 mm).

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::{Polygon, Prism, Span};

use super::{Context, SPEAKS_FROM_MM, finding, middle_of_both, thing_subject};
use crate::assessment::{Basis, Code, Finding, Quantity, Severity, Subject};
use crate::model::{Arrangement, Id};

/// 28 inches.
pub(crate) const EXIT_MM: f64 = 711.2;
/// What hangs higher does not stand in a way (6 ft 8 in, 29 CFR 1910.36(g)(1)).
const OVERHEAD_MM: f64 = 2032.0;

const EXIT_RULE: &str = "29 CFR 1910.36(g)(2): exit access at least 28 in wide";

/// The areas to keep free: those entered, and one before each exit door.
pub(crate) fn areas(arrangement: &Arrangement) -> Vec<(Id, Polygon, Basis)> {
    let bay = &arrangement.bay;
    let entered = bay.keep_free.iter().map(|area| (area.id.clone(), area.outline.clone(), Basis::AsEntered));
    let exits = bay.openings.iter().filter(|o| o.is_exit).filter_map(|door| {
        let edge = bay.room.edges().nth(door.wall)?;
        let along = (edge.to - edge.from).normalize_or_zero();
        let start = edge.from + along * door.from;
        // The inside lies left of an edge.
        let inward = along.perp() * EXIT_MM;
        let width = along * door.width;
        let outline =
            Polygon::simple(vec![start, start + width, start + width + inward, start + inward]).ok()?;
        Some((door.id.clone(), outline, Basis::Published(EXIT_RULE)))
    });
    entered.chain(exits).collect()
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (id, area, basis) in areas(context.arrangement) {
        let bounds = area.bounds();
        let Ok(walking) = Span::new(0.0, OVERHEAD_MM) else { continue };
        let way = Prism::new(area.into(), walking);
        let mut stands_in = |subject: Subject, prism: &Prism| {
            let Clearance::Intrudes(intrusion) = clearance(&way, prism) else { return };
            let subjects = vec![subject, Subject::KeepFree(id.clone())];
            let said = findings.iter().any(|f| f.code == Code::KeepFree && f.subjects == subjects);
            if intrusion.depth > SPEAKS_FROM_MM && !said {
                let at = middle_of_both(&prism.outline.bounds(), &bounds).extend(0.0);
                findings.push(
                    finding(Code::KeepFree, Severity::Care, subjects, at, basis.clone())
                        .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0)),
                );
            }
        };
        for seen in context.things_near(bounds) {
            stands_in(thing_subject(&seen.thing.id), &seen.placed.prism);
        }
        if context.is_whole() {
            for solid in context.scene.car.iter().filter(|solid| solid.outline.bounds().meets(&bounds)) {
                stands_in(Subject::Car, solid);
            }
            for target in &context.scene.targets {
                for solid in target.solids.iter().filter(|solid| solid.outline.bounds().meets(&bounds)) {
                    stands_in(Subject::Stand(target.id.clone()), solid);
                }
            }
        }
    }
}
