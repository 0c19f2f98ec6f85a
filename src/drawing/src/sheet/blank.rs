//! The mark sheet of no set-up: the same boxes, to be filled in by hand where there is no computer.

use baywright_planner::geometry::DVec2;

use super::flow::{Flow, px};
use super::frame::Sheeted;
use super::head;
use super::lines::{READ_MM, WORK_MM, WRITTEN_MM};
use super::marks::{grouped, headed};
use super::table::{Cell, Column, Table};
use crate::page::{Content, Page};
use crate::role::Role;
use crate::text::Align;

/// The side of a square to draw in, mm.
const SQUARE_MM: f64 = 5.0;
/// What is a whole square but for the last bits is one.
const HAIR: f64 = 1e-6;
/// So many marks, heights and readings have a row.
const MARKS: usize = 8;
const HEIGHTS: usize = 2;
const READINGS: usize = 12;
/// The sketch is no lower, mm.
const LEAST_SKETCH_MM: f64 = 40.0;
/// Its heading and what is said there, mm.
const SKETCH_HEAD_MM: f64 = 18.0;

/// The page of the sheet.
pub(super) fn pages(on: &Sheeted<'_>) -> Vec<Page> {
    let texts = on.words.locale().language.sheets();
    let mut flow = on.flow();
    head::title(&mut flow, on.title, "");
    let mut endless = on.endless(&flow);
    rest(&mut endless, on);
    let spare = flow.left() - endless.taken() - px(SKETCH_HEAD_MM);
    flow.heading(texts.sketch, LEAST_SKETCH_MM);
    flow.read(texts.sketch_about, None);
    flow.gap(1.0);
    squares(&mut flow, spare.max(px(LEAST_SKETCH_MM)));
    rest(&mut flow, on);
    on.pages(flow, texts.blank)
}

/// Squares to draw in, of whole rows.
fn squares(flow: &mut Flow<'_>, high: f64) {
    let side = px(SQUARE_MM);
    let (columns, rows) = ((flow.width() / side + HAIR).floor(), (high / side).floor().max(1.0));
    flow.block(rows * side, Content::Table, |setter| {
        for row in 0..=rows as usize {
            let y = side * row as f64;
            setter.line(Role::Grid, [DVec2::new(0.0, y), DVec2::new(columns * side, y)]);
        }
        for column in 0..=columns as usize {
            let x = side * column as f64;
            setter.line(Role::Grid, [DVec2::new(x, 0.0), DVec2::new(x, rows * side)]);
        }
    });
}

fn rest(flow: &mut Flow<'_>, on: &Sheeted<'_>) {
    let (words, texts) = (on.words, on.words.locale().language.sheets());
    flow.heading(texts.marks_by_hand, 20.0);
    let columns = vec![
        Column { align: Align::Middle, ..Column::new(texts.mark, 0.5) },
        Column::new(texts.ahead, 1.6),
        Column::new(texts.aside, 1.6),
        Column { align: Align::Middle, ..Column::new(texts.laid, 0.5) },
    ];
    let row = |number: usize| vec![Cell::Strong(number.to_string()), Cell::Write, Cell::Write, Cell::Write];
    let rows = (1..=MARKS).map(row).collect();
    Table { columns, rows, capitals_mm: WORK_MM, least_row_mm: WRITTEN_MM }.set(flow);
    flow.gap(1.5);
    let columns = vec![Column::new("", 2.0), Column::new("", 1.2)];
    let rows = vec![vec![Cell::Text(texts.height_by_hand.to_owned()), Cell::Write]; HEIGHTS];
    Table { columns, rows, capitals_mm: READ_MM, least_row_mm: WRITTEN_MM }.set(flow);
    headed(flow, words);
    let cells = vec![[Cell::Write, Cell::Write, Cell::Write]; READINGS];
    grouped(flow, cells, [texts.from_to, texts.must_read, texts.was_read]);
    flow.gap(1.5);
    flow.read(texts.both_cautions, None);
}
