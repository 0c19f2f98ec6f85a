//! One item on a page.

use std::collections::BTreeMap;

use baywright_planner::geometry::{Bounds, DVec2, angle};
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{self, FillRule, LineCap, LineJoin, StrokeDash};
use krilla::surface::Surface;

use super::paths::{circle, fill, opacity, paint, point};
use super::{letters, tiles};
use crate::list::{Dimension, Item, Placing, Shape, Sign, Text};
use crate::role::Role;
use crate::text::{Align, TextStyle};
use crate::theme::{Colour, Fill, Paint, Stroke, Theme};

/// Ticks and extension lines of a dimension, as shares of its line's width.
const TICK_WIDTH: f64 = 1.35;
const EXTENSION_WIDTH: f64 = 0.65;

/// Paints items on a page.
pub(super) struct Painter<'s, 'd> {
    pub(super) surface: &'s mut Surface<'d>,
    theme: Theme,
    hatches: BTreeMap<&'static str, Option<paint::Paint>>,
}

impl<'s, 'd> Painter<'s, 'd> {
    pub(super) fn new(surface: &'s mut Surface<'d>, theme: Theme) -> Self {
        Self { surface, theme, hatches: BTreeMap::new() }
    }

    /// The paper itself.
    pub(super) fn ground(&mut self, all: Bounds) {
        let paper = fill(self.theme.palette().paper);
        self.path(rectangle(all), Some(paper), None);
    }

    /// Whether from now on only what is inside is painted, until it is popped.
    pub(super) fn clip(&mut self, inside: Bounds) -> bool {
        let Some(path) = rectangle(inside) else { return false };
        self.surface.push_clip_path(&path, &FillRule::NonZero);
        true
    }

    /// Paints it; a text with a blank after it where another one follows in reading.
    pub(super) fn item(&mut self, on: &Placing, item: &Item, with_blank: bool) {
        let paint = self.theme.paint(item.role);
        // What outlines something keeps its inside as it was.
        let fill = if matches!(item.role, Role::Hovered | Role::Selected) { Fill::None } else { paint.fill };
        match &item.shape {
            Shape::Area(rings) => {
                let rings =
                    rings.iter().map(|ring| ring.iter().map(|p| on.paper_point(*p)).collect::<Vec<_>>());
                let fill = self.filled(fill);
                self.path(lines(rings, true), fill, paint.stroke.map(stroke));
            }
            Shape::Disc { centre, radius } => {
                let fill = self.filled(fill);
                let path = circle(on.paper_point(*centre), radius * on.px_per_mm);
                self.path(path, fill, paint.stroke.map(stroke));
            }
            Shape::Line(points) => {
                let points = points.iter().map(|p| on.paper_point(*p)).collect::<Vec<_>>();
                self.path(lines([points], false), None, paint.stroke.map(stroke));
            }
            Shape::Dimension(own) => self.dimension(on, own, &paint),
            Shape::Sign(own) => self.sign(on, own, &paint),
            Shape::Text(own) => self.text(on, own, &paint, with_blank),
        }
    }

    fn dimension(&mut self, on: &Placing, own: &Dimension, paint: &Paint) {
        let Some(line) = paint.stroke else { return };
        let strokes = own.strokes(on.px_per_mm);
        let parts = [
            (strokes.extensions, EXTENSION_WIDTH),
            (strokes.line.into_iter().collect(), 1.0),
            (strokes.ticks, TICK_WIDTH),
        ];
        for (all, share) in parts {
            let all = all.iter().map(|ends| ends.map(|p| on.paper_point(p)).to_vec());
            self.path(lines(all, false), None, Some(stroke(Stroke { width: line.width * share, ..line })));
        }
        self.text(on, &own.text, paint, false);
    }

    fn sign(&mut self, on: &Placing, own: &Sign, paint: &Paint) {
        let at = on.paper_point(own.at);
        let place = |p: &DVec2| at + *p * own.reach;
        let parts = own.kind.parts();
        let outline = paint.stroke.map(stroke);
        let fill = self.filled(paint.fill);
        if !parts.area.is_empty() {
            let ring = parts.area.iter().map(place).collect::<Vec<_>>();
            self.path(lines([ring], true), fill.clone(), outline.clone());
        }
        if let Some(radius) = parts.disc {
            self.path(circle(at, radius * own.reach), fill, outline.clone());
        }
        if let Some(radius) = parts.ring {
            self.path(circle(at, radius * own.reach), None, outline.clone());
        }
        for line in parts.lines {
            let line = line.iter().map(place).collect::<Vec<_>>();
            let round = outline.clone().map(|own| paint::Stroke { line_cap: LineCap::Round, ..own });
            self.path(lines([line], false), None, round);
        }
        if !own.text.is_empty() {
            let wide = crate::font::measure(&own.text, own.style);
            let below = own.style.baseline_below_middle() + own.kind.text_below() * own.reach;
            self.letters(&own.text, own.style, at + DVec2::new(wide * -0.5, below), paint.text);
        }
    }

    fn text(&mut self, on: &Placing, own: &Text, paint: &Paint, with_blank: bool) {
        let at = on.paper_point(own.at);
        // Anticlockwise as seen is negative on paper, where y runs down.
        let turn = -angle::degrees(own.angle);
        let is_turned = turn != 0.0;
        if is_turned {
            let (x, y) = (at.x as f32, at.y as f32);
            self.surface.push_transform(&Transform::from_rotate_at(turn as f32, x, y));
        }
        let begins = match own.align {
            Align::Start => 0.0,
            Align::Middle => own.width * -0.5,
            Align::End => -own.width,
        };
        if own.masked {
            let high = own.style.line_height();
            let low = at + DVec2::new(begins - 2.5, high * -0.5);
            let mask = Bounds { low, high: low + DVec2::new(own.width + 5.0, high) };
            self.path(rectangle(mask), Some(fill(paint.mask)), None);
        }
        let from = at + DVec2::new(begins, own.style.baseline_below_middle());
        if with_blank {
            self.letters(&format!("{} ", own.text), own.style, from, paint.text);
        } else {
            self.letters(&own.text, own.style, from, paint.text);
        }
        if is_turned {
            self.surface.pop();
        }
    }

    fn letters(&mut self, text: &str, style: TextStyle, from: DVec2, colour: Colour) {
        let Some(font) = letters::font(style.weight) else { return };
        let glyphs = letters::glyphs(text, style);
        if glyphs.is_empty() {
            return;
        }
        self.surface.set_fill(Some(fill(colour)));
        self.surface.set_stroke(None);
        let from = Point::from_xy(from.x as f32, from.y as f32);
        self.surface.draw_glyphs(from, &glyphs, font, text, style.size as f32, false);
    }

    /// Paints a path; nothing of one that encloses and reaches nothing.
    fn path(&mut self, path: Option<Path>, fill: Option<paint::Fill>, stroke: Option<paint::Stroke>) {
        let Some(path) = path.filter(|_| fill.is_some() || stroke.is_some()) else { return };
        self.surface.set_fill(fill);
        self.surface.set_stroke(stroke);
        self.surface.draw_path(&path);
    }

    fn filled(&mut self, with: Fill) -> Option<paint::Fill> {
        let hatched = match with {
            Fill::None => return None,
            Fill::Solid(colour) => return Some(paint::Fill { rule: FillRule::EvenOdd, ..fill(colour) }),
            Fill::Hatch(hatch) => hatch,
        };
        if !self.hatches.contains_key(hatched.name) {
            let own = tiles::pattern(self.surface, &hatched).map(paint::Paint::from);
            self.hatches.insert(hatched.name, own);
        }
        let paint = self.hatches.get(hatched.name).cloned().flatten()?;
        Some(paint::Fill { paint, opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd })
    }
}

/// Lines through points, each closed or not; `None` of no points.
fn lines(all: impl IntoIterator<Item = Vec<DVec2>>, closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for points in all {
        for (i, p) in points.iter().filter(|p| p.is_finite()).enumerate() {
            let (x, y) = point(*p);
            if i == 0 { path.move_to(x, y) } else { path.line_to(x, y) }
        }
        if closed && !points.is_empty() {
            path.close();
        }
    }
    path.finish()
}

fn rectangle(place: Bounds) -> Option<Path> {
    let Bounds { low, high } = place;
    lines([vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]], true)
}

fn stroke(own: Stroke) -> paint::Stroke {
    let dash = (!own.dash.is_empty())
        .then(|| StrokeDash { array: own.dash.iter().map(|d| *d as f32).collect(), offset: 0.0 });
    paint::Stroke {
        paint: paint(own.colour),
        opacity: opacity(own.colour),
        width: own.width as f32,
        line_join: LineJoin::Round,
        dash,
        ..paint::Stroke::default()
    }
}
