//! Daylight on a mat.
//!
//! Rule: where a camera looks at mats on the floor, nothing lets daylight in from so near that a low sun throws a patch of it onto
//! one: its bright edge crosses the pattern. What stands between, and which way the wall looks, is not taken off: somebody looks.
//! Limit: the sun as low as [`LOW_SUN_DEG`], common practice, no source, through the pane's upper edge, as far as the places of walls
//! and car are known. It needs care: how much comes in depends on the day, and on who shades what.

use baywright_geometry::angle;
use baywright_geometry::distance::distance_to_segment;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::light::{Pane, panes};
use super::{Check, Context, SPEAKS_FROM_MM, farthest_of, finding, sway};
use crate::scene::PlacedTarget;

/// Lower than that for most of the year only before and after work, degrees.
const LOW_SUN_DEG: f64 = 20.0;

pub(super) const CHECK: Check = Check { codes: &[Code::LightOnMat], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let is_asked = context.arrangement.sensor.kind.is_camera();
    let mats: Vec<&PlacedTarget> = context.scene.targets.iter().filter(|own| is_asked && own.lies).collect();
    if mats.is_empty() {
        return;
    }
    // Of one wall all that is of glass or mesh is told once, by the mat that is nearest to it; of mats as near rounding and order do
    // not choose.
    let mut told: Vec<(Pane, &PlacedTarget, (f64, f64))> = Vec::new();
    let whole = |gap: f64| (gap / SPEAKS_FROM_MM).round();
    for pane in panes(&context.arrangement.bay) {
        for mat in &mats {
            let (gap, limit) = reach(context, &pane, mat);
            if gap >= limit - SPEAKS_FROM_MM {
                continue;
            }
            match told.iter_mut().find(|(own, ..)| own.subject == pane.subject) {
                Some(own) if (whole(gap), &mat.id) >= (whole(own.2.0), &own.1.id) => {}
                Some(own) => *own = (pane.clone(), mat, (gap, limit)),
                None => told.push((pane.clone(), mat, (gap, limit))),
            }
        }
    }
    findings.extend(told.into_iter().map(|(pane, mat, (gap, limit))| {
        let at = pane.line.at(0.5).extend((pane.span.bottom() + pane.span.top()) * 0.5);
        let subjects = vec![pane.subject, Subject::Target(mat.id.clone())];
        let found = finding(Facts::LightOnMat, Severity::Care, subjects, at, Basis::CommonPractice);
        found.against(Quantity::Length(gap), Quantity::Length(limit))
    }));
}

/// How far a mat is from a pane's foot, and how far from it light falls on the floor, or may, mm.
fn reach(context: &Context<'_>, pane: &Pane, mat: &PlacedTarget) -> (f64, f64) {
    let arrangement = context.arrangement;
    let (sin, cos) = angle::sin_cos(angle::radians(LOW_SUN_DEG));
    let axle = arrangement.parked.origin();
    let of_solid = mat.solids.iter().map(|solid| {
        let unsure = sway(arrangement, farthest_of(&solid.outline, axle));
        (distance_to_segment(&solid.outline, &pane.line).gap(), unsure)
    });
    let (gap, unsure) =
        of_solid.min_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1))).unwrap_or((f64::INFINITY, 0.0));
    (gap, pane.span.top() * cos / sin + unsure + arrangement.shop.within(arrangement.bay.walls_known))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A mat of 500 mm, its middle at (8800, 3000): 2750 mm from the walls at its sides, 2950 from the far one.
    fn with_mat(opening: Option<Opening>) -> Arrangement {
        let mut arrangement = clear();
        let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
        arrangement.sensor.kind = SensorKind::SurroundCamera(camera);
        arrangement.aiming.zones.clear();
        let placement = &mut arrangement.aiming.placements[0];
        (placement.height, placement.target.kind) = (TargetHeight::OnFloor, TargetKind::Mat);
        placement.target.stand = None;
        arrangement.bay.openings = opening.into_iter().collect();
        arrangement
    }

    fn window(top: f64) -> Opening {
        let (kind, material) = (OpeningKind::Window, Material::Glass);
        Opening {
            id: "window".into(),
            kind,
            material,
            shut: true,
            span: span(900.0, top),
            ..open_door(0, 8_300.0, 1_000.0, 0.0)
        }
    }

    /// From 20° up 1000 mm of height are 2747.5 mm of floor.
    #[test]
    fn a_window_beside_a_mat() {
        none(&with_mat(None), Code::LightOnMat);
        none(&with_mat(Some(window(1_000.0))), Code::LightOnMat);
        let lit = with_mat(Some(window(1_001.0)));
        let found = check(&lit, Code::LightOnMat, Severity::Care, Some(2_750.0));
        let limit = 1_001.0 / libm::tan(angle::radians(20.0));
        assert!((number(found.limit.unwrap()) - limit).abs() < 1e-6, "{found:?}");
        assert_eq!(found.subjects, [Subject::Opening("window".into()), Subject::Target("ahead".into())]);
        let line = words::Words::new(&lit, words::Locale::default()).line(&found);
        assert!(line.starts_with("Window may let daylight onto the mat: 2750.0 mm away"), "{line}");
        // As far as the walls are known.
        let mut unsure = with_mat(Some(window(1_000.0)));
        unsure.bay.walls_known = Known::Within(10.0);
        check(&unsure, Code::LightOnMat, Severity::Care, None);
        // Of a board that stands the picture is asked, and a radar sees none.
        let mut radar = lit;
        radar.sensor.kind = super::super::testing::radar().kind;
        none(&radar, Code::LightOnMat);
    }

    /// Each opening by what closes it, and whether it does; and a wall of mesh, which is told once.
    #[test]
    fn whatever_lets_daylight_in() {
        for kind in [OpeningKind::RollerDoor, OpeningKind::SwingDoor, OpeningKind::Window, OpeningKind::Gap] {
            for material in [Material::Steel, Material::Glass, Material::Mesh, Material::Unknown] {
                for shut in [true, false] {
                    let own = Opening { kind, material, shut, ..window(2_000.0) };
                    let lets_in = own.lets_light_in() != Some(false);
                    let found = assess(&with_mat(Some(own)));
                    assert_eq!(
                        !of(&found, Code::LightOnMat).is_empty(),
                        lets_in,
                        "{kind:?} {material:?} {shut}"
                    );
                }
            }
        }
        let mut mesh = with_mat(Some(Opening {
            material: Material::Steel,
            kind: OpeningKind::RollerDoor,
            ..window(2_000.0)
        }));
        mesh.bay.walls[0].material = Material::Mesh;
        let found = check(&mesh, Code::LightOnMat, Severity::Care, None);
        assert_eq!(found.subjects[0], Subject::Wall("right wall".into()));
    }
}
