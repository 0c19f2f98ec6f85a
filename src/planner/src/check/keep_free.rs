//! Ways out, electrical panels and extinguishers that something stands in front of.
//!
//! Rule: areas that the layout names stay free of car, stands, idle runways, steps in the floor, pits and things; so does the
//! way to every door that is named an exit. Care only: local rules decide.
//! Limit: the areas as entered; before an exit door, 29 CFR 1910.36(g)(2): at least 28 in (711 mm).

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::{Polygon, Prism, Span};

use super::claim::{Claim, MovesWith, Volume};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, middle_of_both, thing_subject};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// 28 inches.
const EXIT_MM: f64 = 711.2;
/// What hangs higher does not stand in a way (6 ft 8 in, 29 CFR 1910.36(g)(1)).
const OVERHEAD_MM: f64 = 2032.0;

const EXIT_RULE: &str = "29 CFR 1910.36(g)(2): exit access at least 28 in wide";

/// The areas to keep free: those entered, and one before each exit door.
fn areas(arrangement: &Arrangement) -> Vec<(Id, Prism, Basis)> {
    let Ok(walking) = Span::new(0.0, OVERHEAD_MM) else { return Vec::new() };
    let bay = &arrangement.bay;
    let entered = bay.keep_free.iter().map(|area| (area.id.clone(), area.outline.clone(), Basis::AsEntered));
    let exits = bay.openings.iter().filter(|o| o.is_exit).filter_map(|door| {
        let edge = bay.room.edges().nth(door.wall)?;
        let along = (edge.to - edge.from).normalize_or_zero();
        let start = edge.from + along * door.from_mm;
        // The inside lies left of an edge.
        let inward = along.perp() * EXIT_MM;
        let width = along * door.width_mm;
        let outline =
            Polygon::simple(vec![start, start + width, start + width + inward, start + inward]).ok()?;
        Some((door.id.clone(), outline, Basis::Published(EXIT_RULE)))
    });
    let areas = entered.chain(exits);
    areas.map(|(id, outline, basis)| (id, Prism::new(outline.into(), walking), basis)).collect()
}

pub(super) const CHECK: Check =
    Check { codes: &[Code::KeepFree], things, whole, claims, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

fn claims(arrangement: &Arrangement, _: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(areas(arrangement).into_iter().map(|(id, way, _)| Claim {
        moves_with: MovesWith::Room,
        ..Claim::with_car(Subject::KeepFree(id), Volume::Prism(way), Code::KeepFree, Severity::Care)
    }));
}

/// A lip up to a quarter of an inch is no step in a way (ADA Standards for Accessible Design 303.2, from memory), mm.
const STEP_MM: f64 = 6.4;

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for area in areas(context.arrangement) {
        let of_area = findings.len();
        for seen in context.things_near(area.1.outline.bounds()) {
            stands_in(&area, thing_subject(&seen.thing.id), &seen.placed.prism, of_area, findings);
        }
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let car = || context.scene.car.iter().map(|solid| (Subject::Car, solid));
    let targets = || context.scene.targets.iter();
    let stands =
        || targets().flat_map(|own| own.solids.iter().map(|solid| (Subject::Stand(own.id.clone()), solid)));
    for area in areas(context.arrangement) {
        let of_area = findings.len();
        for (subject, solid) in car().chain(stands()) {
            stands_in(&area, subject, solid, of_area, findings);
        }
        // Nobody walks over an open pit: in a way it is as tall as who walks there.
        let pits = context.pits().map(|(pit, hole)| (pit, Prism::new(hole.outline, area.1.span)));
        for (subject, fixture) in context.fixtures().filter(|(_, own)| own.span.top() > STEP_MM).chain(pits) {
            stands_in(&area, subject, &fixture, of_area, findings);
        }
    }
}

/// Says once of each what stands in an area, by the part of it that stands in it furthest; its findings begin at `of_area`.
fn stands_in(
    area: &(Id, Prism, Basis),
    subject: Subject,
    solid: &Prism,
    of_area: usize,
    findings: &mut Vec<Finding>,
) {
    let (id, way, basis) = area;
    let (here, there) = (solid.outline.bounds(), way.outline.bounds());
    if !here.meets(&there) {
        return;
    }
    let Clearance::Intrudes(intrusion) = clearance(way, solid) else { return };
    if intrusion.depth <= SPEAKS_FROM_MM {
        return;
    }
    let subjects = vec![subject, Subject::KeepFree(id.clone())];
    let at = middle_of_both(&here, &there).extend(0.0);
    let depth = Quantity::Length(intrusion.depth);
    let said = findings.iter_mut().skip(of_area);
    match said.into_iter().find(|f| f.code() == Code::KeepFree && f.subjects == subjects) {
        Some(said) if matches!(said.measured, Some(Quantity::Length(before)) if before >= intrusion.depth) => {
        }
        Some(said) => (said.measured, said.place) = (Some(depth), at),
        None => findings.push(
            finding(Facts::KeepFree, Severity::Care, subjects, at, basis.clone())
                .against(depth, Quantity::Length(0.0)),
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn the_way_out() {
        let mut arrangement = with(vec![cabinet("bin", (500.0, 400.0), 600.0, 600.0)]);
        arrangement.bay.keep_free = vec![KeepFree {
            id: "way out".into(),
            kind: KeepFreeKind::Exit,
            outline: rectangle((0.0, 0.0), (1_000.0, 1_000.0)),
        }];
        check(&arrangement, Code::KeepFree, Severity::Care, Some(700.0));
        // Nobody walks over an open pit either.
        let mut pit = clear();
        pit.bay.keep_free = arrangement.bay.keep_free.clone();
        let (kind, material) = (FloorFeatureKind::Pit, Material::Concrete);
        let outline = rectangle((800.0, 100.0), (1_500.0, 2_000.0));
        pit.bay.floor_features =
            vec![FloorFeature { id: "pit".into(), kind, outline, material, proud_mm: 0.0 }];
        let found = check(&pit, Code::KeepFree, Severity::Care, Some(200.0));
        assert_eq!(words::Words::new(&pit, Default::default()).title(&found), "Pit lies in the way out");
        // The car in it.
        let mut parked = clear();
        parked.bay.keep_free = arrangement.bay.keep_free.clone();
        parked.bay.keep_free[0].outline = rectangle((0.0, 2_000.0), (1_000.0, 2_500.0));
        let found = check(&parked, Code::KeepFree, Severity::Care, None);
        let title = words::Words::new(&parked, Default::default()).title(&found);
        assert_eq!(title, "The car stands in the way out");
        // The same before an exit door: 900 wide and 711.2 deep.
        arrangement.bay.keep_free.clear();
        arrangement.bay.openings = vec![Opening {
            id: "back door".into(),
            kind: OpeningKind::SwingDoor,
            wall: 0,
            from_mm: 200.0,
            width_mm: 900.0,
            span: span(0.0, 2000.0),
            material: Material::Wood,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: true,
        }];
        check(&arrangement, Code::KeepFree, Severity::Care, Some(600.0));
        let text = words::Words::new(&arrangement, Default::default());
        let assessment = assess(&arrangement);
        assert!(text.line(of(&assessment, Code::KeepFree)[0]).contains("Local rules decide"));
    }

    /// The car is 1800 mm wide and stands over the middle of an area 600 mm wide: it is out of it after 900 and 300 mm, not after
    /// what a wheel reaches into it. The foot of a stand is out of its own outline after the shorter side of that, not its mast.
    #[test]
    fn by_how_much_is_told_of_the_part_that_is_in_it_furthest() {
        let mut arrangement = clear();
        let area = |low: (f64, f64), high: (f64, f64)| KeepFree {
            id: "panel".into(),
            kind: KeepFreeKind::Panel,
            outline: rectangle(low, high),
        };
        let car = arrangement.parked.origin();
        for at in [-2_900.0, -1_500.0, -500.0] {
            arrangement.bay.keep_free =
                vec![area((car.x + at, car.y - 300.0), (car.x + at + 1_000.0, car.y + 300.0))];
            check(&arrangement, Code::KeepFree, Severity::Care, Some(1_200.0));
        }
        // The feet begin 20 mm behind the face at 8800, the mast stands from 8835 to 8885.
        arrangement.bay.keep_free = vec![area((8_820.0, 2_700.0), (9_320.0, 3_300.0))];
        check(&arrangement, Code::KeepFree, Severity::Care, Some(480.0));
    }
}
