//! The drawing list as shapes of the screen. Nothing is judged or measured here.

use baywright_drawing::list::{Dimension, Item, Sign, Text};
use baywright_drawing::theme::{Fill, Paint, Stroke as DrawnStroke};
use baywright_drawing::{Align, Drawing, Role, Shape, Theme, ink};
use baywright_planner::geometry::{Bounds, DVec2};
use egui::epaint::{Mesh, PathShape, PathStroke, TextShape};
use egui::{Color32, Pos2, Rect, Stroke, Vec2};

use super::cache::Fills;
use crate::screen::look;

/// Ticks and extension lines of a dimension, as shares of its line's width.
const TICK_WIDTH: f64 = 1.35;
const EXTENSION_WIDTH: f64 = 0.65;

/// Turns a drawing into shapes.
pub(in crate::screen) struct Painter<'a> {
    pub ctx: &'a egui::Context,
    pub theme: Theme,
    /// Where the drawing's paper begins on the screen.
    pub origin: Pos2,
    /// The drawing's window, px of its paper.
    pub window: Bounds,
    pub fills: &'a mut Fills,
    pub out: Vec<egui::Shape>,
}

impl<'a> Painter<'a> {
    /// Paints on the whole of a drawing's paper, which begins there on the screen.
    pub fn of_all(
        drawing: &Drawing,
        (ctx, theme): (&'a egui::Context, Theme),
        origin: Pos2,
        fills: &'a mut Fills,
    ) -> Self {
        let window = Bounds { low: DVec2::ZERO, high: drawing.size };
        Self { ctx, theme, origin, window, fills, out: Vec::new() }
    }
}

impl Painter<'_> {
    /// Paints everything of a drawing, in its order.
    pub fn drawing(&mut self, drawing: &Drawing) {
        for item in &drawing.items {
            self.item(drawing, item);
        }
    }

    /// Paints one more shape in the drawing's frame.
    pub fn item_of(&mut self, drawing: &Drawing, role: Role, shape: Shape) {
        self.item(drawing, &Item { role, subject: None, finding: None, shape });
    }

    /// Paints a shape as something that is not there: a clear ground and an edge.
    pub fn ghost(&mut self, drawing: &Drawing, shape: &Shape, ground: Color32, edge: Color32) {
        match shape {
            Shape::Area(rings) => {
                let rings: Vec<Vec<DVec2>> =
                    rings.iter().map(|ring| ring.iter().map(|&p| drawing.paper_point(p)).collect()).collect();
                self.solid(&rings, ground);
                for ring in &rings {
                    let points = ring.iter().map(|&p| self.at(p)).collect();
                    self.out.push(egui::Shape::closed_line(points, Stroke::new(2.0, edge)));
                }
            }
            Shape::Disc { centre, radius } => {
                let (at, reach) = (self.at(drawing.paper_point(*centre)), radius * drawing.px_per_mm);
                self.out.push(egui::Shape::circle_filled(at, reach as f32, ground));
                self.out.push(egui::Shape::circle_stroke(at, reach as f32, Stroke::new(2.0, edge)));
            }
            _ => {}
        }
    }

    fn at(&self, px: DVec2) -> Pos2 {
        self.origin + Vec2::new(px.x as f32, px.y as f32)
    }

    fn item(&mut self, drawing: &Drawing, item: &Item) {
        self.strokes(drawing, item);
        self.letters(drawing, item);
    }

    fn paint_of(&self, role: Role) -> Paint {
        let mut paint = self.theme.paint(role);
        // What outlines something keeps its inside as it was.
        if matches!(role, Role::Hovered | Role::Selected) {
            paint.fill = Fill::None;
        }
        paint
    }

    /// All of an item but its letters.
    pub fn strokes(&mut self, drawing: &Drawing, item: &Item) {
        let paint = self.paint_of(item.role);
        match &item.shape {
            Shape::Area(rings) => {
                let rings: Vec<Vec<DVec2>> =
                    rings.iter().map(|ring| ring.iter().map(|&p| drawing.paper_point(p)).collect()).collect();
                self.area(&rings, &paint);
            }
            Shape::Disc { centre, radius } => {
                self.disc(drawing.paper_point(*centre), radius * drawing.px_per_mm, &paint);
            }
            Shape::Line(points) => {
                let points: Vec<DVec2> = points.iter().map(|&p| drawing.paper_point(p)).collect();
                if let Some(stroke) = paint.stroke {
                    self.line(&points, stroke, false);
                }
            }
            Shape::Dimension(dimension) => self.dimension(drawing, dimension, &paint),
            Shape::Sign(sign) => self.figure(drawing.paper_point(sign.at), sign, &paint),
            Shape::Text(_) => {}
        }
    }

    /// The letters of an item, over the rest of it.
    pub fn letters(&mut self, drawing: &Drawing, item: &Item) {
        let paint = self.paint_of(item.role);
        match &item.shape {
            Shape::Dimension(dimension) if paint.stroke.is_some() => {
                self.text(drawing.paper_point(dimension.text.at), &dimension.text, &paint);
            }
            Shape::Sign(sign) => self.sign_text(drawing.paper_point(sign.at), sign, &paint),
            Shape::Text(text) => self.text(drawing.paper_point(text.at), text, &paint),
            Shape::Area(_) | Shape::Disc { .. } | Shape::Line(_) | Shape::Dimension(_) => {}
        }
    }

    /// Whether anything of these places can be seen.
    fn seen(&self, points: &[DVec2]) -> bool {
        Bounds::around(points.iter().copied()).is_some_and(|b| b.grown(4.0).meets(&self.window))
    }

    fn area(&mut self, rings: &[Vec<DVec2>], paint: &Paint) {
        let Some(outer) = rings.first() else { return };
        if !self.seen(outer) {
            return;
        }
        let solid = match paint.fill {
            Fill::None => None,
            Fill::Solid(solid) => Some(solid),
            Fill::Hatch(hatch) => hatch.ground,
        };
        if let Some(solid) = solid {
            self.solid(rings, look::colour(solid));
        }
        if let Fill::Hatch(hatch) = paint.fill {
            let mesh = self.fills.hatch(&hatch, rings, &self.window);
            if !mesh.is_empty() {
                let mut mesh = Mesh::clone(&mesh);
                mesh.translate(self.origin.to_vec2());
                self.out.push(egui::Shape::mesh(mesh));
            }
        }
        if let Some(stroke) = paint.stroke {
            for ring in rings {
                self.line(ring, stroke, true);
            }
        }
    }

    fn solid(&mut self, rings: &[Vec<DVec2>], fill: Color32) {
        if let [ring] = rings
            && ink::is_convex(ring)
        {
            let points = ring.iter().map(|&p| self.at(p)).collect();
            self.out.push(egui::Shape::convex_polygon(points, fill, PathStroke::NONE));
            return;
        }
        let triangles = self.fills.triangles(rings);
        let mut mesh = Mesh::default();
        for &p in rings.iter().flatten() {
            mesh.colored_vertex(self.at(p), fill);
        }
        mesh.indices.extend(triangles.iter().copied());
        if mesh.is_valid() {
            self.out.push(egui::Shape::mesh(mesh));
        }
    }

    fn line(&mut self, points: &[DVec2], stroke: DrawnStroke, closed: bool) {
        if points.len() < 2 || !self.seen(points) {
            return;
        }
        let (width, colour) = (stroke.width as f32, look::colour(stroke.colour));
        if stroke.dash.is_empty() {
            let points = points.iter().map(|&p| self.at(p)).collect();
            let stroke = PathStroke::new(width, colour);
            self.out.push(egui::Shape::Path(PathShape {
                points,
                closed,
                fill: Color32::TRANSPARENT,
                stroke,
            }));
            return;
        }
        let mut points = points.to_vec();
        if closed && let Some(&first) = points.first() {
            points.push(first);
        }
        for [a, b] in ink::dashes(&points, stroke.dash, &self.window.grown(stroke.width)) {
            self.out.push(egui::Shape::line_segment([self.at(a), self.at(b)], Stroke::new(width, colour)));
        }
    }

    fn disc(&mut self, centre: DVec2, radius: f64, paint: &Paint) {
        let size = DVec2::splat(radius + 2.0);
        if !(Bounds { low: centre - size, high: centre + size }).meets(&self.window) {
            return;
        }
        if matches!(paint.fill, Fill::Hatch(_)) || paint.stroke.is_some_and(|s| !s.dash.is_empty()) {
            self.area(&[round(centre, radius)], paint);
            return;
        }
        let at = self.at(centre);
        if let Fill::Solid(fill) = paint.fill {
            self.out.push(egui::Shape::circle_filled(at, radius as f32, look::colour(fill)));
        }
        if let Some(stroke) = paint.stroke {
            let stroke = Stroke::new(stroke.width as f32, look::colour(stroke.colour));
            self.out.push(egui::Shape::circle_stroke(at, radius as f32, stroke));
        }
    }

    fn dimension(&mut self, drawing: &Drawing, dimension: &Dimension, paint: &Paint) {
        let Some(stroke) = paint.stroke else { return };
        let strokes = dimension.strokes(drawing.px_per_mm);
        let parts = [
            (strokes.extensions, EXTENSION_WIDTH),
            (strokes.line.into_iter().collect(), 1.0),
            (strokes.ticks, TICK_WIDTH),
        ];
        for (lines, share) in parts {
            for line in lines {
                let line = line.map(|p| drawing.paper_point(p));
                self.line(&line, DrawnStroke { width: stroke.width * share, ..stroke }, false);
            }
        }
    }

    /// A small figure of a fixed size.
    fn figure(&mut self, at: DVec2, sign: &Sign, paint: &Paint) {
        let place = |p: DVec2| at + p * sign.reach;
        let parts = sign.kind.parts();
        if !parts.area.is_empty() {
            let ring: Vec<DVec2> = parts.area.iter().map(|&p| place(p)).collect();
            self.area(&[ring], paint);
        }
        if let Some(radius) = parts.disc {
            self.disc(at, radius * sign.reach, paint);
        }
        if let Some(radius) = parts.ring {
            let ring = Paint {
                fill: if parts.area.is_empty() && parts.lines.is_empty() { paint.fill } else { Fill::None },
                ..*paint
            };
            self.disc(at, radius * sign.reach, &ring);
        }
        for line in parts.lines {
            let line: Vec<DVec2> = line.iter().map(|&p| place(p)).collect();
            if let Some(stroke) = paint.stroke {
                self.line(&line, stroke, false);
            }
        }
    }

    fn sign_text(&mut self, at: DVec2, sign: &Sign, paint: &Paint) {
        if !sign.text.is_empty() {
            let below = DVec2::new(0.0, sign.kind.text_below() * sign.reach);
            let text = Text {
                at: sign.at,
                text: sign.text.clone(),
                style: sign.style,
                align: Align::Middle,
                angle: 0.0,
                width: 0.0,
                masked: false,
            };
            self.text(at + below, &text, paint);
        }
    }

    fn text(&mut self, at: DVec2, text: &Text, paint: &Paint) {
        let reach = DVec2::splat(text.width + 30.0);
        if !(Bounds { low: at - reach, high: at + reach }).meets(&self.window) {
            return;
        }
        let colour = look::colour(paint.text);
        let font = look::drawn(text.style);
        let galley = self.ctx.fonts_mut(|fonts| fonts.layout_no_wrap(text.text.clone(), font, colour));
        let width = f64::from(galley.size().x);
        let shift = match text.align {
            Align::Start => 0.0,
            Align::Middle => 0.5,
            Align::End => 1.0,
        };
        // Anticlockwise as seen is negative where y runs down.
        let (sin, cos) = (-text.angle).sin_cos();
        let turned = |p: DVec2| at + DVec2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
        if text.masked {
            let (half, left) = (text.style.line_height() * 0.5, -width * shift);
            let (low, high) = (DVec2::new(left - 2.5, -half), DVec2::new(left + width + 2.5, half));
            let ring = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)].map(turned);
            let points = ring.iter().map(|&p| self.at(p)).collect();
            self.out.push(egui::Shape::convex_polygon(points, look::colour(paint.mask), PathStroke::NONE));
        }
        let baseline = galley.rows.first().and_then(|row| Some(row.pos.y + row.row.glyphs.first()?.pos.y));
        let baseline = f64::from(baseline.unwrap_or_else(|| galley.size().y * 0.8));
        let corner = DVec2::new(-width * shift, text.style.baseline_below_middle() - baseline);
        let mut shape = TextShape::new(self.at(turned(corner)), galley, colour);
        shape.angle = -text.angle as f32;
        self.out.push(egui::Shape::Text(shape));
    }

    /// A square handle.
    pub fn handle(&mut self, at: Pos2, edge: Color32, ground: Color32) {
        let rect = Rect::from_center_size(at, Vec2::splat(super::HANDLE_PX));
        self.out.push(egui::Shape::rect_filled(rect, 1.0, ground));
        self.out.push(egui::Shape::rect_stroke(rect, 1.0, Stroke::new(1.6, edge), egui::StrokeKind::Middle));
    }
}

/// A ring of points on a circle, close enough for the eye.
fn round(centre: DVec2, radius: f64) -> Vec<DVec2> {
    let count = (radius.max(1.0).sqrt() * 8.0).clamp(16.0, 128.0) as u32;
    (0..count)
        .map(|i| {
            let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / f64::from(count)).sin_cos();
            centre + DVec2::new(cos, sin) * radius
        })
        .collect()
}
