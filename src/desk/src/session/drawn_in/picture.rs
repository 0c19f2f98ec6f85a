//! How a drawing of another program looks: what comes of it, to scale, before it is taken; and its lines alone, as a picture that can
//! lie under the plan.

use baywright_drawing::Theme;
use baywright_drawing::theme::Colour;
use baywright_files::{DxfDrawing, DxfLine, FileFault};
use baywright_planner::geometry::{Bounds, DVec2, Polygon};
use baywright_planner::model::Effort;
use resvg::tiny_skia::{Color, FillRule, Paint, PathBuilder, Pixmap, Stroke, Transform};

use super::Made;
use crate::session::printed;

/// Around what is shown, as a share of its size.
const MARGIN: f64 = 0.07;
/// Chords keep to their arcs within this share of all that is drawn.
const WITHIN: f64 = 1.0 / 20_000.0;
/// The longer side of a picture under the plan has no more dots: what is shown as it is (`MOST_PX_SHOWN` of pictures).
const MOST_PX: f64 = 4_000.0;
/// A dot of it covers no more of the bay, mm: as a layout's file has it.
const MOST_MM_PER_PX: f64 = 1_000.0;
/// The picture's lines are so wide, dots.
const LINE_PX: f32 = 2.0;

/// A picture of what comes of a drawing.
pub(crate) struct Shown {
    pub(crate) picture: Pixmap,
    pub(crate) lies: Lies,
}

/// What of the bay a picture shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Lies {
    /// Its lower left corner, mm.
    low: DVec2,
    pub(crate) px_per_mm: f64,
    /// How high it is, px.
    height: f64,
}

impl Lies {
    /// Where something is in the picture, px from its upper left corner.
    pub(crate) fn px(&self, at: DVec2) -> DVec2 {
        let own = (at - self.low) * self.px_per_mm;
        DVec2::new(own.x, self.height - own.y)
    }
}

/// What is shown on so many dots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Sized {
    pub(crate) size: [u32; 2],
    /// Dots to a point of the screen.
    pub(crate) dots: f32,
    pub(crate) theme: Theme,
}

/// What comes of a drawing: `made`, or its lines as long as there is nothing; lines of layers that are not `seen` are not drawn.
/// `None` if nothing is there, or on no dots.
pub(crate) fn shown(
    drawing: &DxfDrawing,
    mm_per_unit: f64,
    made: Option<&Made>,
    seen: &dyn Fn(&str) -> bool,
    sized: Sized,
) -> Result<Option<Shown>, FileFault> {
    let lines = lines(drawing, mm_per_unit, seen)?;
    let moved = made.map_or(DVec2::ZERO, |own| own.moved);
    let all = made.map_or_else(|| bounds(&lines), |own| Some(own.bay.room.bounds()));
    let [width, height] = sized.size;
    let (Some(all), Some(picture)) = (all, Pixmap::new(width, height)) else { return Ok(None) };
    let size = all.size().max(DVec2::splat(1.0)) * (1.0 + 2.0 * MARGIN);
    let px_per_mm = (f64::from(width) / size.x).min(f64::from(height) / size.y);
    let low = all.centre() - DVec2::new(f64::from(width), f64::from(height)) * 0.5 / px_per_mm;
    let mut on = On { picture, lies: Lies { low, px_per_mm, height: f64::from(height) }, dots: sized.dots };
    let palette = sized.theme.palette();
    on.picture.fill(colour(palette.sheet));
    let lines = lines.iter().map(|own| own.points.iter().map(|at| *at + moved).collect::<Vec<_>>());
    on.lines(lines, palette.soft.faded(if made.is_some() { 0.7 } else { 1.0 }), 1.0);
    if let Some(made) = made {
        for (at, thing) in made.bay.things.iter().enumerate() {
            let outline = thing.footprint.outline().placed(&thing.place.at);
            let own = outline.as_polygon();
            match (at >= made.drawn_from, thing.effort) {
                (false, _) => on.edge(&own, palette.beam, 1.2),
                (true, Effort::Fixed) => on.fill(&own, palette.ink),
                (true, _) => {
                    on.fill(&own, palette.soft.faded(0.35));
                    on.edge(&own, palette.ink, 1.2);
                }
            }
        }
        on.edge(&made.bay.room, palette.ink, 3.0);
        for gap in &made.closed {
            on.ring(gap.at, 7.0, palette.stops);
        }
    }
    Ok(Some(Shown { picture: on.picture, lies: on.lies }))
}

/// Why there is no picture of a drawing's lines.
pub(crate) enum NoPicture {
    /// Nothing is chosen.
    Nothing,
    /// What is chosen lies too far apart.
    TooFar,
    /// The drawing has too much in it.
    Fault(FileFault),
    /// The writer's words.
    NotMade(String),
}

/// A picture for under the plan.
pub(crate) struct Under {
    /// PNG.
    pub(crate) bytes: Vec<u8>,
    pub(crate) mm_per_px: f64,
    /// Its lower left and its upper right corner, mm, in the drawing's own frame.
    pub(crate) reach: (DVec2, DVec2),
}

/// The lines of the layers that are `seen`, dark on white, to a true scale.
pub(crate) fn under(
    drawing: &DxfDrawing,
    mm_per_unit: f64,
    seen: &dyn Fn(&str) -> bool,
) -> Result<Under, NoPicture> {
    let lines = lines(drawing, mm_per_unit, seen).map_err(NoPicture::Fault)?;
    let all = bounds(&lines).ok_or(NoPicture::Nothing)?;
    let mm_per_px = round_up(all.size().max_element().max(1.0) / MOST_PX);
    if mm_per_px > MOST_MM_PER_PX {
        return Err(NoPicture::TooFar);
    }
    // Whole dots all round, and room for the lines at the edges.
    let edge = 2.0 * f64::from(LINE_PX) * mm_per_px;
    let low = ((all.low - edge) / mm_per_px).floor() * mm_per_px;
    let px = ((all.high + edge - low) / mm_per_px).ceil();
    let picture = Pixmap::new(px.x as u32, px.y as u32).ok_or(NoPicture::TooFar)?;
    let lies = Lies { low, px_per_mm: 1.0 / mm_per_px, height: px.y };
    let mut on = On { picture, lies, dots: 1.0 };
    on.picture.fill(Color::WHITE);
    on.lines(lines.into_iter().map(|own| own.points), Theme::Print.palette().ink, LINE_PX);
    let bytes = printed::encoded(&on.picture, 1_000.0 / mm_per_px);
    let bytes = bytes.map_err(|error| NoPicture::NotMade(error.to_string()))?;
    Ok(Under { bytes, mm_per_px, reach: (low, low + px * mm_per_px) })
}

/// The next of 1, 2, 5, 10 ... that is no smaller.
fn round_up(value: f64) -> f64 {
    let mut decade = 0.01;
    while decade < value {
        for step in [1.0, 2.0, 5.0] {
            if decade * step >= value {
                return decade * step;
            }
        }
        decade *= 10.0;
    }
    decade
}

/// The lines of some layers, mm.
fn lines<'a>(
    drawing: &'a DxfDrawing,
    mm_per_unit: f64,
    seen: &dyn Fn(&str) -> bool,
) -> Result<Vec<DxfLine<'a>>, FileFault> {
    let reach = drawing.layers.iter().filter(|own| seen(&own.name)).filter_map(|own| own.reach);
    let size = reach.map(|(low, high)| (high - low).max_element()).fold(0.0, f64::max);
    let mut lines = drawing.lines((size * WITHIN).max(f64::MIN_POSITIVE))?;
    lines.retain(|own| seen(own.layer));
    for own in &mut lines {
        own.points.iter_mut().for_each(|at| *at *= mm_per_unit);
    }
    Ok(lines)
}

fn bounds(lines: &[DxfLine<'_>]) -> Option<Bounds> {
    Bounds::around(lines.iter().flat_map(|own| own.points.iter().copied()))
}

fn colour(own: Colour) -> Color {
    let [r, g, b] = own.rgb;
    Color::from_rgba8(r, g, b, (own.opacity * 255.0).round() as u8)
}

/// What is drawn on.
struct On {
    picture: Pixmap,
    lies: Lies,
    dots: f32,
}

impl On {
    fn lines(&mut self, lines: impl Iterator<Item = Vec<DVec2>>, of: Colour, width: f32) {
        let most = DVec2::new(f64::from(self.picture.width()), f64::from(self.picture.height()));
        let mut path = PathBuilder::new();
        for own in lines {
            let points: Vec<DVec2> = own.iter().map(|at| self.lies.px(*at)).collect();
            for pair in points.windows(2) {
                // What is far away never comes to the painter: its figures have no end.
                if let [from, to] = *pair
                    && let Some((from, to)) = cut((from, to), DVec2::splat(-8.0), most + 8.0)
                {
                    path.move_to(from.x as f32, from.y as f32);
                    path.line_to(to.x as f32, to.y as f32);
                }
            }
        }
        self.stroke(path, of, width);
    }

    fn stroke(&mut self, path: PathBuilder, of: Colour, width: f32) {
        let Some(path) = path.finish() else { return };
        let stroke = Stroke { width: width * self.dots, ..Stroke::default() };
        self.picture.stroke_path(&path, &paint(of), &stroke, Transform::identity(), None);
    }

    fn path(&self, polygon: &Polygon) -> PathBuilder {
        let mut path = PathBuilder::new();
        for ring in polygon.rings() {
            for (at, corner) in ring.iter().enumerate() {
                let own = self.lies.px(*corner);
                let own = (own.x as f32, own.y as f32);
                if at == 0 { path.move_to(own.0, own.1) } else { path.line_to(own.0, own.1) }
            }
            path.close();
        }
        path
    }

    fn edge(&mut self, polygon: &Polygon, of: Colour, width: f32) {
        let path = self.path(polygon);
        self.stroke(path, of, width);
    }

    fn fill(&mut self, polygon: &Polygon, of: Colour) {
        let Some(path) = self.path(polygon).finish() else { return };
        self.picture.fill_path(&path, &paint(of), FillRule::EvenOdd, Transform::identity(), None);
    }

    fn ring(&mut self, at: DVec2, radius: f32, of: Colour) {
        let own = self.lies.px(at);
        let mut path = PathBuilder::new();
        path.push_circle(own.x as f32, own.y as f32, radius * self.dots);
        self.stroke(path, of, 2.0);
    }
}

fn paint(of: Colour) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(colour(of));
    paint
}

/// What of a line lies in a box: by Liang and Barsky, edge after edge.
fn cut((from, to): (DVec2, DVec2), low: DVec2, high: DVec2) -> Option<(DVec2, DVec2)> {
    let way = to - from;
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (along, before, after) in
        [(way.x, from.x - low.x, high.x - from.x), (way.y, from.y - low.y, high.y - from.y)]
    {
        for (speed, room) in [(-along, before), (along, after)] {
            if speed == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if speed < 0.0 {
                first = first.max(room / speed);
            } else {
                last = last.min(room / speed);
            }
        }
    }
    let ends = (from + way * first, from + way * last);
    (first <= last && ends.0.is_finite() && ends.1.is_finite()).then_some(ends)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_cut_at_the_edge() {
        let (low, high) = (DVec2::ZERO, DVec2::new(10.0, 5.0));
        let of = |from: (f64, f64), to: (f64, f64)| {
            cut((DVec2::new(from.0, from.1), DVec2::new(to.0, to.1)), low, high)
        };
        assert_eq!(of((-10.0, 1.0), (20.0, 1.0)), Some((DVec2::new(0.0, 1.0), DVec2::new(10.0, 1.0))));
        assert_eq!(of((2.0, 1.0), (3.0, 2.0)), Some((DVec2::new(2.0, 1.0), DVec2::new(3.0, 2.0))));
        assert_eq!(of((-1.0, 2.0), (-1.0, 3.0)), None);
        assert_eq!(of((-4.0, 3.0), (3.0, 10.0)), None, "past the corner");
        assert!(of((-1e300, 2.0), (1e300, 2.0)).is_none_or(|(from, to)| from.x >= -1.0 && to.x <= 11.0));
    }

    #[test]
    fn a_dot_covers_a_round_length() {
        for (value, round) in
            [(0.004, 0.01), (0.9, 1.0), (1.0, 1.0), (3.0, 5.0), (5.1, 10.0), (730.0, 1_000.0)]
        {
            assert!((round_up(value) - round).abs() < 1e-9 * round, "{value}: {}", round_up(value));
        }
    }
}
