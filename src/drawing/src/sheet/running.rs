//! Running dimensions along the edges of a view.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::Words;

use super::flow::{Flow, px};
use super::working::figures;
use crate::lettering::Lettering;
use crate::page::setter::Setter;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle};
use crate::view::{Laid, Running};

/// From a view's edge to the line of its dimensions, and half of a tick, mm.
const LINE_MM: f64 = 2.5;
const TICK_MM: f64 = 1.1;
/// So far a line leads to its figure beside it, and from its end to that, mm.
const LED_MM: f64 = 1.5;
const BESIDE_TEXT_MM: f64 = 0.6;
/// Between two figures side by side, mm.
const APART_MM: f64 = 1.5;

/// A figure in its place.
struct Placed {
    at_px: f64,
    text: String,
    /// In which row from the line.
    row: usize,
    /// Where its text stands along the edge, px.
    said_px: f64,
    is_origin: bool,
}

/// The figures along both edges.
pub(super) struct Edges {
    below: Vec<Placed>,
    beside: Vec<Placed>,
    style: TextStyle,
}

impl Edges {
    pub fn of(laid: &Laid, words: &Words<'_>, lettering: &Lettering<'_>) -> Self {
        let style = figures(lettering);
        let wide = |text: &str| lettering.width_of(text, style);
        Self {
            below: placed(&laid.below, words, |text| wide(text)),
            beside: spread(&laid.beside, words, style.line_height(), laid.drawing.size.y),
            style,
        }
    }

    /// How far the figures beside the view reach above it, px: what stands over it keeps off them.
    pub fn over(&self) -> f64 {
        let half = self.style.line_height() * 0.5;
        self.beside.iter().map(|own| half - own.said_px).fold(0.0, f64::max)
    }

    /// How high the strip below the view is, px.
    pub fn under(&self) -> f64 {
        let rows = self.below.iter().map(|own| own.row + 1).max().unwrap_or(0) as f64;
        px(LINE_MM + TICK_MM) + rows * self.style.line_height()
    }
}

/// Each figure in the first row in which it stands clear of those before it.
fn placed(all: &[Running], words: &Words<'_>, long: impl Fn(&str) -> f64) -> Vec<Placed> {
    let mut ends: Vec<f64> = Vec::new();
    let mut sorted: Vec<&Running> = all.iter().collect();
    sorted.sort_by(|a, b| a.at_px.total_cmp(&b.at_px));
    let place = |own: &Running| {
        let text = words.dimension(own.mm);
        let half = long(&text) * 0.5;
        let row = ends.iter().position(|end| own.at_px - half > end + px(APART_MM)).unwrap_or(ends.len());
        match ends.get_mut(row) {
            Some(end) => *end = own.at_px + half,
            None => ends.push(own.at_px + half),
        }
        Placed { at_px: own.at_px, text, row, said_px: own.at_px, is_origin: own.mm == 0.0 }
    };
    sorted.into_iter().map(place).collect()
}

/// Each figure beside its line, or as near as they stand clear of one another, within so much of the edge.
fn spread(all: &[Running], words: &Words<'_>, high: f64, most: f64) -> Vec<Placed> {
    let mut sorted: Vec<&Running> = all.iter().collect();
    sorted.sort_by(|a, b| a.at_px.total_cmp(&b.at_px));
    let place = |own: &&Running| {
        let (at_px, text) = (own.at_px, words.dimension(own.mm));
        Placed { at_px, text, row: 0, said_px: at_px, is_origin: own.mm == 0.0 }
    };
    let mut placed: Vec<Placed> = sorted.iter().map(place).collect();
    let mut least = f64::NEG_INFINITY;
    for own in &mut placed {
        own.said_px = own.said_px.max(least);
        least = own.said_px + high;
    }
    let mut most = most;
    for own in placed.iter_mut().rev() {
        own.said_px = own.said_px.min(most);
        most = own.said_px - high;
    }
    placed
}

/// Sets the view with its strips: the figures beside it at the left, those under it below.
pub(super) fn strips(flow: &mut Flow<'_>, laid: Laid, edges: &Edges) {
    let (over, under) = (edges.over(), edges.under());
    flow.clear(over, laid.drawing.size.y + under);
    let Edges { below, beside, style } = edges;
    let (style, tick, size) = (*style, px(TICK_MM), laid.drawing.size);
    let left = flow.width() - size.x;
    let set_beside = |setter: &mut Setter<'_>| {
        let x = left - px(LINE_MM);
        if let Some([from, to]) = ends(beside) {
            setter.line(Role::Dimension, [DVec2::new(x, from), DVec2::new(x, to)]);
        }
        for own in beside {
            setter.line(Role::Dimension, [DVec2::new(x - tick, own.at_px), DVec2::new(left, own.at_px)]);
            marker(setter, DVec2::new(x, own.at_px), own.is_origin, style);
            // Led there where its neighbours push it off its line.
            let led = DVec2::new(x - tick - px(LED_MM), own.said_px);
            setter.line(Role::Dimension, [DVec2::new(x - tick, own.at_px), led]);
            let at = led - DVec2::X * px(BESIDE_TEXT_MM);
            setter.text(Role::Title, at, &own.text, style, Align::End, f64::INFINITY);
        }
    };
    let set_below = |setter: &mut Setter<'_>| {
        let y = px(LINE_MM);
        if let Some([from, to]) = ends(below) {
            setter.line(Role::Dimension, [DVec2::new(left + from, y), DVec2::new(left + to, y)]);
        }
        for own in below {
            let x = left + own.at_px;
            setter.line(Role::Dimension, [DVec2::new(x, 0.0), DVec2::new(x, y + tick)]);
            marker(setter, DVec2::new(x, y), own.is_origin, style);
            let at = DVec2::new(x, y + tick + style.line_height() * (own.row as f64 + 0.5));
            setter.text(Role::Title, at, &own.text, style, Align::Middle, f64::INFINITY);
        }
    };
    flow.view_with(laid.drawing, (left, set_beside), (under, set_below));
}

/// From the first to the last of them.
fn ends(all: &[Placed]) -> Option<[f64; 2]> {
    Some([all.first()?.at_px, all.last()?.at_px]).filter(|[from, to]| from < to)
}

/// The origin is a ring, all else a slanted tick: ISO 129-1 (from memory).
fn marker(setter: &mut Setter<'_>, at: DVec2, is_origin: bool, style: TextStyle) {
    if is_origin {
        setter.sign(Role::Mark, at, SignKind::Ring, px(TICK_MM), "", style);
    } else {
        let half = DVec2::new(1.0, -1.0) * px(TICK_MM) * 0.8;
        setter.line(Role::RuleHeavy, [at - half, at + half]);
    }
}
