//! Glass behind what a lidar looks at.
//!
//! Rule: in line with a lidar and an upright target, behind the target, nothing is of glass: no window, no door or wall of glass, no
//! thing, as far as their places and the car's are known. What passes the target's edge is thrown back from there as from a
//! mirror, and what stands opposite is seen twice. What hides the glass is not taken off: somebody looks.
//! Limit: common practice, no source. It needs care: it is covered.

use baywright_geometry::face::Face;
use baywright_geometry::{DVec2, DVec3, Outline, Polygon, Segment, Span, hull, overlaps};

use super::finding::{Basis, Code, Facts, Finding, Severity, Subject};
use super::light::panes;
use super::{Check, Context, finding, sway, thing_subject};
use crate::model::{Material, OpeningKind, SensorKind};

pub(super) const CHECK: Check = Check { codes: &[Code::GlassBehind], whole, ..Check::NONE };

/// An upright pane: its foot in plan, its heights, and how well its place is known, mm.
struct Glass {
    of: Subject,
    foot: Segment,
    span: Span,
    known_mm: f64,
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !matches!(context.arrangement.sensor.kind, SensorKind::Lidar) {
        return;
    }
    let glass = all_glass(context);
    for target in context.scene.targets.iter().filter(|target| !target.lies) {
        let Some(face) = &target.face else { continue };
        let mut told: Vec<&Subject> = Vec::new();
        for own in &glass {
            if told.contains(&&own.of) || !is_in_line(context, face, own) {
                continue;
            }
            told.push(&own.of);
            let at = own.foot.at(0.5).extend((own.span.bottom() + own.span.top()) * 0.5);
            let subjects = vec![own.of.clone(), Subject::Target(target.id.clone())];
            let found = finding(Facts::GlassBehind, Severity::Care, subjects, at, Basis::CommonPractice);
            findings.push(found);
        }
    }
}

fn all_glass(context: &Context<'_>) -> Vec<Glass> {
    let (bay, shop) = (&context.arrangement.bay, &context.arrangement.shop);
    let is_glass = |of: &Subject| match of {
        Subject::Opening(id) => bay.openings.iter().any(|own| {
            let closed = own.kind == OpeningKind::Window || own.material == Material::Glass && !own.is_open();
            own.id == *id && closed
        }),
        Subject::Wall(id) => bay.walls.iter().any(|own| own.id == *id && own.material == Material::Glass),
        _ => false,
    };
    let known_mm = shop.within(bay.walls_known);
    let built = panes(bay).filter(|pane| is_glass(&pane.subject));
    let built = built.map(|pane| Glass { of: pane.subject, foot: pane.line, span: pane.span, known_mm });
    let things = context.things().filter(|seen| seen.thing.material == Material::Glass);
    let things = things.flat_map(|seen| {
        let (of, prism) = (thing_subject(&seen.thing.id), &seen.placed.prism);
        let sides: Vec<Segment> = prism.outline.as_polygon().edges().collect();
        let known_mm = seen.placed.known_mm;
        sides.into_iter().map(move |foot| Glass { of: of.clone(), foot, span: prism.span, known_mm })
    });
    built.chain(things).collect()
}

/// Whether something of a pane is in line with the sensor and a face, behind it, or may be: seen from the sensor it lies on the face.
fn is_in_line(context: &Context<'_>, face: &Face, glass: &Glass) -> bool {
    let eye = context.scene.sensor();
    let before = face.in_front(eye);
    // One that faces away shows nothing to anybody, which is said.
    if before <= 0.0 {
        return false;
    }
    let Segment { from, to } = glass.foot;
    let along = (to - from).normalize_or_zero();
    let farthest = [from, to].map(|end| end.distance(context.arrangement.parked.origin()));
    let unsure = glass.known_mm + sway(context.arrangement, farthest[0].max(farthest[1]));
    let ring = face.own_ring();
    let Ok(own) = Polygon::rectangle(ring[0], ring[2]).map(Outline::from) else { return false };
    // It may stand nearer or farther by as much as it may be wider.
    [0.0, unsure, -unsure].into_iter().any(|off| {
        let (aside, along) = (along.perp() * off, along * unsure);
        let ends = [from + aside - along, to + aside + along];
        let (bottom, top) = (glass.span.bottom() - unsure, glass.span.top() + unsure);
        let pane = [ends[0].extend(bottom), ends[1].extend(bottom), ends[1].extend(top), ends[0].extend(top)];
        let on_face = behind(face, &pane).into_iter().map(|p| {
            let at = eye + (p - eye) * (before / (before - face.in_front(p))) - face.centre();
            DVec2::new(at.dot(face.left()), at.dot(face.up()))
        });
        let shadow = hull(&on_face.collect::<Vec<_>>()).map(Outline::from);
        shadow.is_some_and(|shadow| overlaps(&shadow, &own))
    })
}

/// What of a ring of points lies behind the plane of a face: a pane beside a sight goes on before it.
fn behind(face: &Face, ring: &[DVec3; 4]) -> Vec<DVec3> {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    let kept = edges.flat_map(|(&from, &to)| {
        let (here, there) = (-face.in_front(from), -face.in_front(to));
        let crosses = (here > 0.0) != (there > 0.0);
        let at = crosses.then(|| from.lerp(to, here / (here - there)));
        (here > 0.0).then_some(from).into_iter().chain(at)
    });
    kept.collect()
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The lidar looks from (4800, 3000), 500 mm up; 500 mm of board at x = 8800 are 900 mm at the far wall: from y = 2550 to 3450,
    /// and from 50 to 950 mm up.
    fn lidar() -> Arrangement {
        let mut arrangement = clear();
        arrangement.sensor.kind = SensorKind::Lidar;
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.kind = TargetKind::Board;
        arrangement
    }

    #[test]
    fn a_window_behind_the_board() {
        let window = |from_mm: f64, sill: f64| {
            let mut arrangement = lidar();
            let door = open_door(1, from_mm, 1_000.0, 0.0);
            let (kind, span) = (OpeningKind::Window, span(sill, 2_000.0));
            arrangement.bay.openings = vec![Opening { id: "window".into(), kind, span, ..door }];
            arrangement
        };
        let found = check(&window(3_400.0, 900.0), Code::GlassBehind, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Opening("window".into()), Subject::Target("ahead".into())]);
        let line = words::Words::new(&window(3_400.0, 900.0), words::Locale::default()).line(&found);
        assert!(line.starts_with("Window stands behind the board, in line with the lidar. "), "{line}");
        none(&window(3_500.0, 900.0), Code::GlassBehind);
        none(&window(3_400.0, 960.0), Code::GlassBehind);
        let mut unsure = window(3_500.0, 900.0);
        unsure.bay.walls_known = Known::Within(60.0);
        check(&unsure, Code::GlassBehind, Severity::Care, None);
        let mut radar = window(3_400.0, 900.0);
        radar.sensor = clear().sensor;
        none(&radar, Code::GlassBehind);
        // Behind the lidar it is in no line.
        let mut behind = window(2_500.0, 900.0);
        behind.bay.openings[0].wall = 3;
        none(&behind, Code::GlassBehind);
    }

    #[test]
    fn what_else_is_of_glass() {
        none(&lidar(), Code::GlassBehind);
        let mut wall = lidar();
        wall.bay.walls[1].material = Material::Glass;
        check(&wall, Code::GlassBehind, Severity::Care, None);
        let case = |y: f64, material: Material| {
            let mut arrangement = lidar();
            arrangement.bay.things = vec![cabinet("glass case", (11_000.0, y), 400.0, 400.0)];
            arrangement.bay.things[0].material = material;
            arrangement
        };
        check(&case(3_000.0, Material::Glass), Code::GlassBehind, Severity::Care, None);
        none(&case(3_000.0, Material::Wood), Code::GlassBehind);
        none(&case(4_000.0, Material::Glass), Code::GlassBehind);
        // A partition along the car, from before the board's plane to the far wall: what passes the board's edge at y = 3250 rises
        // 1 in 16 and comes to y = 3450 at the far wall, to its near side at 3290 long before.
        let partition = |y: f64| {
            let mut arrangement = lidar();
            arrangement.bay.things = vec![cabinet("partition", (10_000.0, y), 4_000.0, 20.0)];
            arrangement.bay.things[0].material = Material::Glass;
            arrangement
        };
        check(&partition(3_300.0), Code::GlassBehind, Severity::Care, None);
        none(&partition(3_470.0), Code::GlassBehind);
        let mut unsure = partition(3_470.0);
        unsure.bay.things[0].place.known = Known::Within(60.0);
        check(&unsure, Code::GlassBehind, Severity::Care, None);
        let mut mesh = lidar();
        mesh.bay.walls[1].material = Material::Mesh;
        none(&mesh, Code::GlassBehind);
    }
}
