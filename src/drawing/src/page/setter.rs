//! Sets texts, signs and rings into one frame of a page. Places here are px from the frame's upper left corner, y down,
//! as texts are read and as their sizes are given; the list comes out in mm.

use baywright_planner::geometry::{Bounds, DVec2};

use super::{Content, Frame};
use crate::lettering::Lettering;
use crate::list::{Item, PX_PER_PAPER_MM, Placing, Shape, Sign, Text};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle, Weight, fitted};

/// From the paper's edge, px.
pub(crate) const EDGE_PX: f64 = 24.0;
/// From line to line of running text, px before it is enlarged.
pub(crate) const LINE_PX: f64 = 20.0;

pub(crate) struct Setter<'a> {
    pub lettering: &'a Lettering<'a>,
    /// The frame's size, px.
    pub size: DVec2,
    items: Vec<Item>,
}

impl<'a> Setter<'a> {
    pub fn new(lettering: &'a Lettering<'a>, size: DVec2) -> Self {
        Self { lettering, size, items: Vec::new() }
    }

    /// The frame, its upper left corner at a place of the page, px.
    pub fn framed(mut self, corner: DVec2, content: impl FnOnce(Vec<Item>) -> Content) -> Frame {
        // Stable: items of one layer keep the order in which they were set.
        self.items.sort_by_key(|item| item.role.layer());
        let mm = |px: DVec2| px / PX_PER_PAPER_MM;
        let place = Bounds { low: mm(corner), high: mm(corner + self.size) };
        Frame { place, content: content(self.items) }
    }

    pub fn style(&self, size: f64, weight: Weight) -> TextStyle {
        self.lettering.style(size, weight)
    }

    /// Sets a text, shortened if it is wider than `most`, and gives its width.
    pub fn text(
        &mut self,
        role: Role,
        px: DVec2,
        text: &str,
        style: TextStyle,
        align: Align,
        most: f64,
    ) -> f64 {
        let Some(text) = fitted(text, style, most, self.lettering.measure) else { return 0.0 };
        let width = self.lettering.width_of(&text.text, style);
        let text = Text { at: self.mm(px), text: text.text, style, align, angle: 0.0, width, masked: false };
        self.push(role, Shape::Text(text));
        width
    }

    pub fn sign(&mut self, role: Role, px: DVec2, kind: SignKind, reach: f64, text: &str, style: TextStyle) {
        let sign = Sign { at: self.mm(px), kind, reach, text: text.to_owned(), style };
        self.push(role, Shape::Sign(sign));
    }

    pub fn ring(&mut self, role: Role, ring: impl IntoIterator<Item = DVec2>) {
        let ring = ring.into_iter().map(|p| self.mm(p)).collect();
        self.push(role, Shape::Area(vec![ring]));
    }

    /// A line through places, px.
    pub fn line(&mut self, role: Role, points: impl IntoIterator<Item = DVec2>) {
        let points = points.into_iter().map(|p| self.mm(p)).collect();
        self.push(role, Shape::Line(points));
    }

    fn mm(&self, px: DVec2) -> DVec2 {
        Placing { origin: DVec2::new(0.0, self.size.y), px_per_mm: PX_PER_PAPER_MM }.list_point(px)
    }

    fn push(&mut self, role: Role, shape: Shape) {
        self.items.push(Item { role, subject: None, finding: None, shape });
    }
}
