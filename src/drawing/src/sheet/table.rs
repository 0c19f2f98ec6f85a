//! Rows and columns that break over pages, their heads repeated on each.

use baywright_planner::geometry::{Bounds, DVec2};

use super::flow::{Flow, px};
use super::lines::{PITCH, READ_MM, lines, pitch, style};
use crate::lettering::Lettering;
use crate::list::Item;
use crate::page::setter::Setter;
use crate::page::{self, Content, InCell};
use crate::role::Role;
use crate::text::{Align, CAP_HEIGHT, TextStyle, Weight};

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// A text.
    Text(String),
    /// A text that is seen first.
    Strong(String),
    /// Written in by hand.
    Write,
    /// Nothing: no box either.
    Nothing,
}

/// A column.
#[derive(Clone, Debug)]
pub(super) struct Column {
    /// What stands over it.
    pub title: String,
    /// How wide it is: shares of what there is.
    pub share: f64,
    /// Where its texts stand.
    pub align: Align,
    /// Whether a line divides it from the one before.
    pub is_divided: bool,
}

impl Column {
    pub fn new(title: impl Into<String>, share: f64) -> Self {
        Self { title: title.into(), share, align: Align::Start, is_divided: false }
    }

    /// Its texts at its right.
    pub fn ends_right(self) -> Self {
        Self { align: Align::End, ..self }
    }

    /// With a line before it.
    pub fn divided(self) -> Self {
        Self { is_divided: true, ..self }
    }
}

/// Rows and columns.
pub(super) struct Table {
    pub columns: Vec<Column>,
    pub rows: Vec<Vec<Cell>>,
    /// Heights of its capitals, mm.
    pub capitals_mm: f64,
    /// No row is lower, mm: what is written by hand needs room.
    pub least_row_mm: f64,
}

/// Beside a text in its cell, and over and under it, mm.
const ASIDE_MM: f64 = 1.2;
const OVER_MM: f64 = 0.7;
/// Beside a box that is written in, mm.
const FIELD_MM: f64 = 0.6;

/// A row, broken into lines.
struct Row<'t> {
    cells: &'t [Cell],
    lines: Vec<Vec<String>>,
    height: f64,
}

/// The row as it is told to who cannot see it: whether its table has a head, whether it is that, whether it is the first.
fn told(
    row: &Row<'_>,
    (has_head, is_head, is_first): (bool, bool, bool),
) -> impl FnOnce(Vec<Item>) -> Content {
    let cell = |(cell, lines): (&Cell, &Vec<String>)| match cell {
        Cell::Text(_) | Cell::Strong(_) if !lines.is_empty() => InCell::Lines(lines.len()),
        Cell::Write => InCell::Box,
        Cell::Text(_) | Cell::Strong(_) | Cell::Nothing => InCell::Nothing,
    };
    let cells = row.cells.iter().zip(&row.lines).map(cell).collect();
    move |items| Content::Row(page::Row { items, cells, is_head, names_itself: !has_head, is_first })
}

impl Table {
    /// The capitals of a line that fills a row of a height, both mm.
    pub fn capitals_of_row(height_mm: f64) -> f64 {
        (height_mm - 2.0 * OVER_MM) / PITCH * CAP_HEIGHT
    }

    /// Where each column lies across the page, px.
    fn places(&self, width: f64) -> Vec<(f64, f64)> {
        let all: f64 = self.columns.iter().map(|own| own.share).sum();
        let mut x = 0.0;
        let place = |own: &Column| {
            let wide = own.share / all.max(f64::MIN_POSITIVE) * width;
            x += wide;
            (x - wide, wide)
        };
        self.columns.iter().map(place).collect()
    }

    fn style_of(&self, cell: &Cell, lettering: &Lettering<'_>) -> TextStyle {
        let weight = if matches!(cell, Cell::Strong(_)) { Weight::Bold } else { Weight::Regular };
        style(lettering, self.capitals_mm, weight)
    }

    fn row<'t>(&self, cells: &'t [Cell], width: f64, most: f64, lettering: &Lettering<'_>) -> Row<'t> {
        let mut height = px(self.least_row_mm) * lettering.enlarged();
        let mut all = Vec::new();
        for (cell, (_, wide)) in cells.iter().zip(self.places(width)) {
            let texts = match cell {
                Cell::Text(text) | Cell::Strong(text) => {
                    let style = self.style_of(cell, lettering);
                    let mut texts = lines(text, style, wide - 2.0 * px(ASIDE_MM), lettering);
                    // A page holds so many; no text that is accepted has more.
                    texts.truncate(((most - 2.0 * px(OVER_MM)) / pitch(style)).floor().max(1.0) as usize);
                    height = f64::max(height, pitch(style) * texts.len() as f64 + 2.0 * px(OVER_MM));
                    texts
                }
                Cell::Write | Cell::Nothing => Vec::new(),
            };
            all.push(texts);
        }
        Row { cells, lines: all, height }
    }

    fn head(&self) -> Option<Vec<Cell>> {
        let has = self.columns.iter().any(|own| !own.title.is_empty());
        has.then(|| self.columns.iter().map(|own| Cell::Strong(own.title.clone())).collect())
    }

    /// The same columns in the size of a head.
    fn as_head(&self) -> Self {
        Self { columns: self.columns.clone(), rows: Vec::new(), capitals_mm: READ_MM, least_row_mm: 0.0 }
    }

    /// Sets it.
    pub fn set(&self, flow: &mut Flow<'_>) {
        let (width, most, lettering) = (flow.width(), flow.height(), flow.lettering);
        let head = self.head();
        let of_head = self.as_head();
        let head = head.as_ref().map(|cells| of_head.row(cells, width, most, lettering));
        let high = head.as_ref().map_or(0.0, |own| own.height);
        let mut page = usize::MAX;
        for cells in &self.rows {
            let row = self.row(cells, width, most - high, lettering);
            flow.ensure(row.height + if flow.count() == page { 0.0 } else { high });
            if flow.count() != page
                && let Some(head) = &head
            {
                flow.block(head.height, told(head, (true, true, true)), |setter| {
                    let all = Bounds { low: DVec2::ZERO, high: setter.size };
                    setter.ring(Role::Shade, corners(&all));
                    of_head.put(setter, head);
                });
            }
            let is_first = head.is_none() && flow.count() != page;
            page = flow.count();
            flow.block(row.height, told(&row, (head.is_some(), false, is_first)), |setter| {
                self.put(setter, &row)
            });
        }
    }

    /// A row, in a frame of its own.
    fn put(&self, setter: &mut Setter<'_>, row: &Row<'_>) {
        let (width, height) = (setter.size.x, row.height);
        setter.line(Role::Rule, [DVec2::new(0.0, height), DVec2::new(width, height)]);
        let parts = row.cells.iter().zip(&row.lines).zip(self.columns.iter().zip(self.places(width)));
        for ((cell, texts), (column, (x, wide))) in parts {
            if column.is_divided {
                setter.line(Role::RuleHeavy, [DVec2::new(x, 0.0), DVec2::new(x, height)]);
            }
            let style = self.style_of(cell, setter.lettering);
            let each = pitch(style);
            match cell {
                Cell::Text(_) | Cell::Strong(_) => {
                    let at = match column.align {
                        Align::Start => x + px(ASIDE_MM),
                        Align::Middle => x + wide * 0.5,
                        Align::End => x + wide - px(ASIDE_MM),
                    };
                    let over = (height - each * texts.len() as f64) * 0.5;
                    for (line, text) in texts.iter().enumerate() {
                        let at = DVec2::new(at, over + each * (line as f64 + 0.5));
                        setter.text(Role::Title, at, text, style, column.align, f64::INFINITY);
                    }
                }
                Cell::Write => {
                    let off = DVec2::splat(px(FIELD_MM));
                    let all =
                        Bounds { low: DVec2::new(x, 0.0) + off, high: DVec2::new(x + wide, height) - off };
                    setter.ring(Role::Field, corners(&all));
                }
                Cell::Nothing => {}
            }
        }
    }
}

/// The corners of a box.
pub(super) fn corners(of: &Bounds) -> [DVec2; 4] {
    let Bounds { low, high } = *of;
    [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
}
