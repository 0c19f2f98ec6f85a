//! Shapes: from a file's points to checked ones and back, and the names that a file refers to.

use baywright_planner::geometry::{Bounds, Circle, DVec2, Outline, Polygon, Span};
use baywright_planner::model::Id;
use baywright_planner::model::fault::{Allowed, Fault, Found, Quote};
use baywright_planner::model::validate::limits::{self, Range, Unit};
use baywright_planner::model::validate::shape_fault;

use crate::aiming::OutlineFile;
use crate::figure::{Figure, Point, point, points, vec2, vecs};

/// What is wrong so far. Everything is read through it, so that one pass finds as much as it can.
#[derive(Default)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    pub fn add(&mut self, field: impl Into<String>, found: Found, allowed: Allowed) {
        self.0.push(Fault { field: field.into(), found, allowed });
    }

    /// A polygon from its corners.
    pub fn polygon(&mut self, field: &str, corners: &[Point]) -> Option<Polygon> {
        let corners = vecs(corners);
        match Polygon::simple(corners.clone()) {
            Ok(polygon) => Some(polygon),
            Err(fault) => {
                self.0.push(shape_fault(field, &corners, &fault));
                None
            }
        }
    }

    /// A height range.
    pub fn span(&mut self, path: &str, bottom: Figure, top: Figure) -> Option<Span> {
        let span = Span::new(bottom.0, top.0).ok();
        if span.is_none() {
            if !(bottom.0.is_finite() && bottom.0.abs() <= limits::HEIGHT.high) {
                self.number(&format!("{path}.bottom_mm"), bottom, &limits::HEIGHT);
                return None;
            }
            let allowed = Allowed::AboveBottomAt { bottom: bottom.0, high: limits::HEIGHT.high };
            self.add(format!("{path}.top_mm"), Found::Number(top.0, Unit::Millimetres), allowed);
        }
        span
    }

    /// A number in a range; whether it is.
    pub fn number(&mut self, field: &str, value: Figure, range: &Range) -> bool {
        let holds = range.holds(value.0);
        if !holds {
            self.add(field, Found::Number(value.0, range.unit), Allowed::In(*range));
        }
        holds
    }

    /// A shape from above.
    pub fn outline(&mut self, field: &str, file: &OutlineFile) -> Option<Outline> {
        match file {
            OutlineFile::Rectangle { from_mm, to_mm } => {
                let (low, high) = (vec2(*from_mm), vec2(*to_mm));
                let made = Polygon::rectangle(low, high);
                if made.is_err() {
                    self.add(format!("{field}.to_mm"), Found::Point(high), Allowed::CornerBeyond(low));
                }
                made.ok().map(Outline::from)
            }
            OutlineFile::Round { middle_mm, diameter_mm } => {
                if !self.number(&format!("{field}.diameter_mm"), *diameter_mm, &limits::SIZE) {
                    return None;
                }
                let made = Circle::new(vec2(*middle_mm), diameter_mm.0 * 0.5);
                if made.is_err() {
                    let found = Found::Point(vec2(*middle_mm));
                    self.add(format!("{field}.middle_mm"), found, Allowed::In(limits::PLACE));
                }
                made.ok().map(Outline::from)
            }
            OutlineFile::Corners { corners_mm, holes_mm } => {
                let corners = vecs(corners_mm);
                match Polygon::new(corners.clone(), holes_mm.iter().map(|h| vecs(h)).collect()) {
                    Ok(polygon) => Some(polygon.into()),
                    Err(fault) => {
                        self.0.push(shape_fault(&format!("{field}.corners_mm"), &corners, &fault));
                        None
                    }
                }
            }
        }
    }

    /// The position of a name among those that exist.
    pub fn find<'a>(
        &mut self,
        field: &str,
        name: &str,
        known: impl IntoIterator<Item = &'a str>,
    ) -> Option<usize> {
        let known: Vec<&str> = known.into_iter().collect();
        let found = known.iter().position(|k| *k == name);
        if found.is_none() {
            let ids: Vec<Id> = known.into_iter().map(Id::from).collect();
            self.add(field, Found::Word(Quote::of(name)), Allowed::one_of(name, &ids));
        }
        found
    }
}

/// The file form of a shape; an upright rectangle is written as one.
pub fn file_of(outline: &Outline) -> OutlineFile {
    match outline {
        Outline::Circle(circle) => OutlineFile::Round {
            middle_mm: point(circle.centre()),
            diameter_mm: (circle.radius() * 2.0).into(),
        },
        Outline::Polygon(polygon) => {
            let Bounds { low, high } = polygon.bounds();
            let rectangle = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
            if polygon.outer() == rectangle && polygon.holes().is_empty() {
                OutlineFile::Rectangle { from_mm: point(low), to_mm: point(high) }
            } else {
                OutlineFile::Corners {
                    corners_mm: points(polygon.outer()),
                    holes_mm: polygon.holes().iter().map(|h| points(h)).collect(),
                }
            }
        }
    }
}
