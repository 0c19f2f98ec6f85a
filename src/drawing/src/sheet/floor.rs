//! The floor plans: the bay to scale for who paints, pours or wires it, with what that trade is told.

mod concrete;
mod electric;
mod ground;
mod paint;
mod shared;

use baywright_planner::geometry::DVec2;
use baywright_planner::words::Words;

use super::bar::bar;
use super::flow::{Flow, px};
use super::frame::Sheeted;
use super::head;
use super::lines::{READ_MM, WRITTEN_MM};
use super::of::Of;
use super::plan::in_views;
use super::scale::largest_scale;
use super::table::{Cell, Column, Table};
use crate::page::Page;
use crate::view::{Planned, Shell, Trade, contour_interval};

/// So many rows are left to write revisions in.
const REVISIONS: usize = 3;
/// No row that is written in is lower, mm.
const LEAST_WRITTEN_MM: f64 = 6.4;
/// No view is given less than this, mm.
const LEAST_VIEW_MM: f64 = 60.0;
/// Between a view and what stands under it, mm, and what lies there by the last bits.
const UNDER_VIEW_MM: f64 = 2.0;

/// What a floor plan is made from.
struct Floor<'a> {
    of: &'a Of<'a>,
    on: &'a Sheeted<'a>,
    shell: Shell,
    words: &'a Words<'a>,
}

/// The pages of a floor plan.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>, trade: Trade) -> Vec<Page> {
    let shell = Shell::of(of.now.arrangement, trade);
    let floor = Floor { of, on, shell, words: on.words };
    let mut flow = on.flow();
    head::title(&mut flow, on.title, &on.words.title_line());
    if of.now.assessment.on_example_figures {
        flow.read(on.words.locale().language.sheets().on_examples, None);
    }
    flow.gap(1.0);
    let one_to = floor.plan(&mut flow);
    match trade {
        Trade::Paint => floor.paint(&mut flow),
        Trade::Concrete => floor.concrete(&mut flow),
        Trade::Electric => floor.electric(&mut flow),
    }
    floor.openings(&mut flow);
    floor.where_from(&mut flow);
    floor.revisions(&mut flow);
    let texts = on.words.locale().language.floor_sheets();
    let scale = on.words.scale(one_to);
    on.pages(flow, &texts.described(on.title, &of.now.arrangement.bay.name, &scale))
}

impl Floor<'_> {
    /// The plan at the largest standard scale at which it stands on this page, with how it is read; gives its scale. What is to be
    /// minded stands there too, unless the plan would be smaller for it.
    fn plan(&self, flow: &mut Flow<'_>) -> f64 {
        let own = in_views(self.on.lettering);
        let high = |set: &dyn Fn(&mut Flow<'_>)| {
            let mut endless = self.on.endless(flow);
            set(&mut endless);
            endless.taken()
        };
        let under = high(&|flow| self.under(flow, 100.0, 1)) + px(UNDER_VIEW_MM);
        let minded = high(&|flow| self.minded(flow)) + px(UNDER_VIEW_MM);
        let fitted = |taken: f64| {
            let room = DVec2::new(flow.width(), (flow.left() - taken).max(px(LEAST_VIEW_MM)));
            Planned::of(&self.shell, room, &own, largest_scale)
        };
        let (whole, with) = (fitted(under), fitted(under + minded));
        let all_here = with.one_to <= whole.one_to;
        let planned = if all_here { with } else { whole };
        let level = |number: usize, mm: f64| {
            let figure = self.level(mm, true);
            self.words.locale().language.floor_sheets().surveyed(number, &figure)
        };
        flow.view(planned.drawing(&self.shell, &own, level));
        self.under(flow, planned.one_to, planned.left_out());
        self.minded(flow);
        planned.one_to
    }

    /// How the figures are read, and the bar.
    fn under(&self, flow: &mut Flow<'_>, one_to: f64, left_out: usize) {
        let texts = self.words.locale().language.floor_sheets();
        flow.gap(0.8);
        flow.read(texts.running, None);
        let survey =
            self.shell.arrangement.bay.survey.as_ref().filter(|_| self.shell.trade == Trade::Concrete);
        if let Some(apart) = survey.and_then(|own| contour_interval(&own.points, self.words.locale())) {
            flow.read(&apart, None);
        }
        if left_out > 0 {
            flow.read(&texts.left_out(left_out), None);
        }
        bar(flow, self.words, one_to);
    }

    /// Who decides, and what to mind.
    fn minded(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let own = match self.shell.trade {
            Trade::Paint => texts.paint_caution,
            Trade::Concrete => texts.concrete_caution,
            Trade::Electric => texts.electric_caution,
        };
        flow.gap(1.0);
        flow.read(self.words.caution(), None);
        flow.read(own, None);
    }

    /// Where the room's figures come from.
    fn where_from(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let bay = &self.shell.arrangement.bay;
        flow.heading(texts.where_from, 8.0);
        let known = self.words.how_known(bay.walls_known);
        flow.read(&texts.room_from(&self.words.provenance(&bay.provenance), &known), None);
    }

    /// The revisions of the sheet: the one that it is made as, and room to write; where all rows would begin a page of their own, as many
    /// as have room on this one.
    fn revisions(&self, flow: &mut Flow<'_>) {
        let high = |(count, high_mm)| {
            let mut endless = self.on.endless(flow);
            // What stands over it: a heading at the head of a page has no gap there.
            endless.read("", None);
            let before = endless.taken();
            self.revisions_in(&mut endless, count, high_mm);
            endless.taken() - before
        };
        let all = (REVISIONS, WRITTEN_MM);
        let fewer = (1..=REVISIONS).rev().map(|count| (count, LEAST_WRITTEN_MM));
        let (count, high_mm) =
            std::iter::once(all).chain(fewer).find(|own| high(*own) <= flow.left()).unwrap_or(all);
        self.revisions_in(flow, count, high_mm);
    }

    fn revisions_in(&self, flow: &mut Flow<'_>, count: usize, high_mm: f64) {
        let texts = self.words.locale().language.floor_sheets();
        flow.heading(texts.revisions, 10.0 + count as f64 * high_mm);
        flow.read(texts.revisions_about, None);
        flow.gap(1.0);
        let columns = [(texts.revision, 0.5), (texts.day, 1.0), (texts.changed, 3.0), (texts.by, 1.0)];
        let columns = columns.map(|(title, share)| Column::new(title, share)).to_vec();
        let about = self.on.about;
        let mut rows = vec![vec![Cell::Write; 4]; count];
        if let (Some(first), false) = (rows.first_mut(), about.revision.is_empty()) {
            let day = if about.day.is_empty() { Cell::Write } else { Cell::Text(about.day.clone()) };
            *first = vec![Cell::Strong(about.revision.clone()), day, Cell::Write, Cell::Write];
        }
        Table { columns, rows, capitals_mm: READ_MM, least_row_mm: high_mm }.set(flow);
    }
}
