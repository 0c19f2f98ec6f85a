//! A hatch as one mesh: many thin lines and small dots, cheap for a renderer without a graphics card.

use std::sync::Arc;

use baywright_drawing::ink;
use baywright_planner::geometry::DVec2;
use egui::epaint::Mesh;
use egui::{Color32, Pos2, Rect, Vec2};

/// One mesh of a hatch.
pub(super) fn mesh(hatching: &ink::Hatching, width: f64, colour: Color32) -> Arc<Mesh> {
    let mut mesh = Mesh::default();
    mesh.reserve_vertices(hatching.lines.len() * 8 + hatching.dots.len() * 4);
    mesh.reserve_triangles(hatching.lines.len() * 6 + hatching.dots.len() * 2);
    for &line in &hatching.lines {
        thin_line(&mut mesh, line, width, colour);
    }
    for &(at, radius) in &hatching.dots {
        dot(&mut mesh, at, radius, colour);
    }
    Arc::new(mesh)
}

/// A thin line with soft edges. Each triangle costs a software renderer more than its px: a line up to [`TENT_PX`] wide is
/// full along its middle and fades to both sides, a wider one has a full strip between two soft ones.
fn thin_line(mesh: &mut Mesh, [a, b]: [DVec2; 2], width: f64, colour: Color32) {
    let (a, b) = (Vec2::new(a.x as f32, a.y as f32), Vec2::new(b.x as f32, b.y as f32));
    let along = (b - a).normalized();
    let across = Vec2::new(-along.y, along.x);
    let width = width as f32;
    let base = mesh.vertices.len() as u32;
    let lanes: &[(f32, bool)] = if width <= TENT_PX {
        // As much ink as a full line of that width.
        &[(-1.0, false), (0.0, true), (1.0, false)]
    } else {
        &[(-0.5, false), (-0.5, true), (0.5, true), (0.5, false)]
    };
    let (solid, reach, soft) = if width <= TENT_PX {
        (colour.gamma_multiply((width * 0.9).min(1.0)), width.max(1.0), 0.0)
    } else {
        (colour, width, 0.5)
    };
    for end in [a, b] {
        for &(side, full) in lanes {
            let off = side * reach + side.signum() * if full { -soft } else { soft };
            let (at, ink) = if full && side == 0.0 {
                (end, solid)
            } else {
                (end + across * off, if full { solid } else { Color32::TRANSPARENT })
            };
            mesh.colored_vertex(at.to_pos2(), ink);
        }
    }
    let count = lanes.len() as u32;
    for lane in 0..count - 1 {
        let (p, q) = (base + lane, base + lane + count);
        mesh.add_triangle(p, p + 1, q);
        mesh.add_triangle(p + 1, q + 1, q);
    }
}

/// Up to this width a line is drawn without a full strip, px.
const TENT_PX: f32 = 1.6;

/// A small dot: at its size a square looks as round as a circle, and costs a quarter of it.
fn dot(mesh: &mut Mesh, at: DVec2, radius: f64, colour: Color32) {
    let half = Vec2::splat(radius as f32 * ROUND);
    mesh.add_colored_rect(Rect::from_center_size(Pos2::new(at.x as f32, at.y as f32), half * 2.0), colour);
}

/// Half the side of a square of a circle's area: √π / 2.
const ROUND: f32 = 0.886;
