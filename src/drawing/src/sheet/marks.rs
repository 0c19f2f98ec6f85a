//! The mark sheet: how the marks are laid, what the tape must read, and boxes for what it reads.

use baywright_planner::assessment::Facts;
use baywright_planner::entry::readings_rest_on;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Id;
use baywright_planner::model::assumed::Assumed;
use baywright_planner::scene::Reading;
use baywright_planner::words::Words;
use baywright_planner::{Severity, Verdict};

use super::bar::bar;
use super::flow::{Flow, Lead, px};
use super::frame::Sheeted;
use super::head;
use super::lines::{READ_MM, WORK_MM};
use super::of::Of;
use super::plan::{in_views, plan, whole_bay};
use super::running::{Edges, strips};
use super::table::{Cell, Column, Table};
use super::working::{Working, working};
use crate::page::Page;
use crate::text::Weight;

/// The view is no lower than this where all of a sheet is to stand on one page, mm, and takes at most such a share of a page.
const LEAST_VIEW_MM: f64 = 45.0;
const MOST_VIEW: f64 = 0.5;
/// What stands below a view: how its figures are used, and the bar, mm.
const BELOW_VIEW_MM: f64 = 18.0;
/// A row that is written in by hand, mm.
pub(super) const WRITTEN_MM: f64 = 7.4;

/// So many points that need care are told here; all of them stand in the findings report.
const MOST_CARE: usize = 12;

/// The pages of the sheet: one if all of it stands there; else what comes first on pages of its own, with the whole bay, so that what
/// is worked by stands together.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let words = on.words;
    let mut flow = on.flow();
    head::title(&mut flow, on.title, &words.title_line());
    let moves = of.now.assessment.promise.is_some();
    // What is moved has its own list.
    head::verdict(&mut flow, words, of.now.assessment, (None, moves));
    let high = |set: &dyn Fn(&mut Flow<'_>)| {
        let mut endless = on.endless(&flow);
        set(&mut endless);
        endless.taken()
    };
    let before = high(&|flow| first(flow, of, words));
    let after = high(&|flow| work(flow, of, words)) + px(BELOW_VIEW_MM);
    let (page, spare) = (flow.height(), flow.left() - before - after);
    let least = px(LEAST_VIEW_MM);
    let one_to = if spare >= least {
        first(&mut flow, of, words);
        flow.gap(2.0);
        picture(&mut flow, of, on, spare.min(page * MOST_VIEW))
    } else {
        let spare = (flow.left() - before - px(1.0)).min(page * MOST_VIEW);
        if spare >= least && before > 0.0 {
            whole(&mut flow, of, on, spare);
        }
        first(&mut flow, of, words);
        flow.next_page();
        picture(&mut flow, of, on, (page - after).clamp(least, page * MOST_VIEW))
    };
    work(&mut flow, of, words);
    on.pages(flow, &words.picture_description(of.now.assessment, Some(one_to)))
}

/// The whole bay, with the letters of what is found.
fn whole(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>, high: f64) {
    let own = in_views(on.lettering);
    let room = DVec2::new(flow.width(), high);
    let lies = whole_bay(of.now.arrangement, of.now.assessment, of.state, room, &own);
    let size = lies.size(&own).min(room);
    flow.view(plan(of.now.arrangement, of.now.assessment, &lies, size, on.lettering));
}

/// What is worked on from above, with its running dimensions; gives its scale.
fn picture(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>, high: f64) -> f64 {
    let Working { lettering, lies, fit } = working(of, DVec2::new(flow.width(), high), on.lettering);
    let laid = crate::view::laid_view(of.now.arrangement, of.now.assessment, &lies.state, fit, &lettering);
    let edges = Edges::of(&laid, on.words, &lettering);
    strips(flow, laid, &edges);
    let texts = on.words.locale().language.sheets();
    flow.gap(0.8);
    flow.read(texts.running, None);
    bar(flow, on.words, lies.one_to);
    lies.one_to
}

/// All that stands below the view: what is done with tape, plumb line and laser.
fn work(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let (arrangement, scene) = (of.now.arrangement, &of.now.assessment.scene);
    let plan = &arrangement.aiming.mark_plan;
    if plan.is_empty() {
        flow.heading(texts.lay, 8.0);
        flow.work(words.locale().language.screen().no_marks, None);
    } else {
        flow.heading(texts.lay, 14.0);
        for (step, own) in plan.iter().enumerate() {
            let said = words.instruction(step, scene);
            let number = (step + 1).to_string();
            // A mark that has a name goes by its number on the drawing too.
            let said = if own.id.as_str() == number { said } else { texts.numbered(&number, &said) };
            flow.work(&said, Some(Lead::Tick));
        }
    }
    let standing: Vec<String> = arrangement
        .aiming
        .placements
        .iter()
        .zip(&scene.targets)
        .filter(|(_, target)| !target.lies)
        .map(|(placement, target)| words.set_height(placement, target.meant.height_mm))
        .collect();
    if !standing.is_empty() {
        flow.heading(texts.set_targets, 8.0);
        standing.iter().for_each(|own| flow.work(own, Some(Lead::Tick)));
    }
    readings(flow, of, words);
    flow.gap(2.0);
    signed(flow, words);
}

/// What is met and moved before anything is laid.
fn first(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let assessment = of.now.assessment;
    let steps: Vec<String> = match &assessment.promise {
        Some(promise) => promise.steps.iter().map(|step| words.step_sentence(step)).collect(),
        None => {
            let stops = assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
            stops.map(|own| words.cure(own).unwrap_or_else(|| words.line(own))).collect()
        }
    };
    if assessment.verdict == Verdict::NotReady && !steps.is_empty() {
        flow.heading(texts.move_first, 8.0);
        steps.iter().for_each(|own| flow.work(own, Some(Lead::Tick)));
    }
    let is_asked = |facts: &Facts| matches!(facts, Facts::Condition(_) | Facts::HaveReady(_));
    let asked: Vec<String> =
        assessment.findings.iter().filter(|own| is_asked(&own.facts)).map(|own| words.line(own)).collect();
    if !asked.is_empty() {
        flow.heading(texts.before_start, 8.0);
        flow.ticked(&asked, READ_MM);
    }
    // What needs care is not to be missed by who has only this sheet.
    let care = crate::finding::flagged(assessment).filter(|own| own.finding.severity == Severity::Care);
    let care: Vec<(String, String)> =
        care.map(|own| (of.letter_of(own.index, own.number), words.line(own.finding))).collect();
    if !care.is_empty() {
        flow.heading(words.heading(Severity::Care), 8.0);
        let more = care.len().saturating_sub(MOST_CARE);
        for (letter, line) in care.into_iter().take(MOST_CARE) {
            flow.read(&line, Some(Lead::Sign(letter, Severity::Care)));
        }
        if more > 0 {
            flow.read(&words.key_more(more), None);
        }
    }
    flow.gap(1.5);
    let cautions = [words.caution(), words.locale().language.screen().laser_caution];
    cautions.into_iter().for_each(|own| flow.read(own, None));
}

/// Every distance to read, with a box for what was read; what rests on assumed figures says so.
fn readings(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let all = &of.now.assessment.scene.readings;
    if all.is_empty() {
        return;
    }
    let rests = readings_rest_on(of.now.arrangement, all);
    // By the marks' numbers, as they stand on the drawing.
    let number = |id: &Id| {
        let at = of.now.arrangement.aiming.mark_plan.iter().position(|own| own.id == *id);
        at.map_or_else(|| id.to_string(), |at| (at + 1).to_string())
    };
    let name = |own: &Reading| texts.between(&number(&own.from), &number(&own.to));
    let named = all.iter().zip(&rests).map(|(own, rests)| {
        let figure = words.bare(own.distance_mm);
        let figure = if rests.is_empty() { figure } else { texts.starred(&figure) };
        [Cell::Text(name(own)), Cell::Strong(figure), Cell::Write]
    });
    flow.heading(&texts.read_tape_in(words.locale().units), 20.0);
    let titles = [texts.from_to, texts.must_read, texts.was_read];
    grouped(flow, named.collect(), titles);
    let mut told: Vec<(&Vec<Assumed>, Vec<String>)> = Vec::new();
    for (own, rests) in all.iter().zip(&rests).filter(|(_, rests)| !rests.is_empty()) {
        match told.iter_mut().find(|(figures, _)| *figures == rests) {
            Some((_, names)) => names.push(name(own)),
            None => told.push((rests, vec![name(own)])),
        }
    }
    for (figures, names) in told {
        flow.read(
            &texts.rests(&names.join(", "), &words.rests_on(figures)),
            Some(Lead::Text("*".to_owned())),
        );
    }
}

/// A box for a figure is no narrower, mm.
const BOX_MM: f64 = 17.0;
/// Beside a text in its cell, both sides together, mm.
const CELL_MM: f64 = 2.6;

/// Rows of three cells, as many beside one another as leave each its figures and a box wide enough to write in; read downwards.
pub(super) fn grouped(flow: &mut Flow<'_>, cells: Vec<[Cell; 3]>, titles: [&str; 3]) {
    let (strong, head) = (flow.style(WORK_MM, Weight::Bold), flow.style(READ_MM, Weight::Bold));
    let by = flow.lettering.enlarged();
    let mut needs = titles.map(|title| flow.lettering.width_of(title, head) + px(CELL_MM));
    for row in &cells {
        for (cell, needs) in row.iter().zip(&mut needs) {
            let wide = match cell {
                Cell::Text(text) | Cell::Strong(text) => flow.lettering.width_of(text, strong) + px(CELL_MM),
                Cell::Write => px(BOX_MM) * by,
                Cell::Nothing => 0.0,
            };
            *needs = needs.max(wide);
        }
    }
    let all: f64 = needs.iter().sum();
    let groups = ((flow.width() / all) as usize).clamp(1, cells.len().max(1));
    let high = cells.len().div_ceil(groups);
    let groups = cells.len().div_ceil(high.max(1)).max(1);
    // What is left over is room to write in.
    let [name, figure, _] = needs;
    let each = flow.width() / groups as f64;
    let shares = [name, figure, (each - name - figure).max(1.0)];
    let mut columns = Vec::new();
    for group in 0..groups {
        for (at, (title, share)) in titles.into_iter().zip(shares).enumerate() {
            let column = Column::new(title, share);
            let column = if at == 1 { column.ends_right() } else { column };
            columns.push(if group > 0 && at == 0 { column.divided() } else { column });
        }
    }
    let nothing = [Cell::Nothing, Cell::Nothing, Cell::Nothing];
    let row = |row: usize| -> Vec<Cell> {
        (0..groups).flat_map(|group| cells.get(group * high + row).unwrap_or(&nothing).clone()).collect()
    };
    let rows = (0..high).map(row).collect();
    Table { columns, rows, capitals_mm: WORK_MM, least_row_mm: WRITTEN_MM }.set(flow);
}

/// Who read it, and when.
pub(super) fn signed(flow: &mut Flow<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let columns = [0.35, 1.0, 0.45, 0.9].map(|share| Column::new("", share)).to_vec();
    let [by, at] = [texts.read_by, texts.read_at].map(|own| Cell::Text(own.to_owned()));
    let rows = vec![vec![by, Cell::Write, at, Cell::Write]];
    Table { columns, rows, capitals_mm: READ_MM, least_row_mm: WRITTEN_MM }.set(flow);
}
