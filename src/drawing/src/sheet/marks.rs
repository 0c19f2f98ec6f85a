//! The mark sheet: how the marks are laid, what the tape must read, and boxes for what it reads.

use baywright_planner::assessment::Facts;
use baywright_planner::entry::readings_rest_on;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::assumed::Assumed;
use baywright_planner::words::Words;
use baywright_planner::{Severity, Verdict};

use super::bar::bar;
use super::flow::{Flow, Lead, px};
use super::frame::Sheeted;
use super::head;
use super::lines::{READ_MM, WORK_MM};
use super::of::Of;
use super::running::{Edges, strips};
use super::table::{Cell, Column, Table};
use super::working::{Working, working};
use crate::page::Page;

/// The view takes so much of a page at least where the sheet is longer than one, as a share.
const VIEW: f64 = 0.36;
/// And at most so much where there is room.
const MOST_VIEW: f64 = 0.6;
/// A row that is written in by hand, mm.
pub(super) const WRITTEN_MM: f64 = 8.0;

/// The pages of the sheet.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let words = on.words;
    let mut flow = on.flow();
    head::title(&mut flow, on.title, &words.title_line());
    head::verdict(&mut flow, words, of.now.assessment, None);
    // What all else takes on paper without an end: the rest of one page is the view's.
    let mut endless = on.endless(&flow);
    rest(&mut endless, of, words);
    let page = flow.height();
    let spare = flow.left() - (endless.height() - endless.left()) - px(16.0);
    let high = if spare > px(55.0) { spare.min(page * MOST_VIEW) } else { page * VIEW };
    let one_to = picture(&mut flow, of, on, high);
    bar(&mut flow, words, one_to);
    rest(&mut flow, of, words);
    on.pages(flow, &words.picture_description(of.now.assessment, Some(one_to)))
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
    lies.one_to
}

/// All that stands below the view.
fn rest(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    first(flow, of, words);
    let (arrangement, scene) = (of.now.arrangement, &of.now.assessment.scene);
    let plan = &arrangement.aiming.mark_plan;
    if plan.is_empty() {
        flow.heading(texts.lay, 8.0);
        flow.work(words.locale().language.screen().no_marks, None);
    } else {
        flow.heading(texts.lay, 14.0);
        (0..plan.len()).for_each(|step| flow.work(&words.instruction(step, scene), Some(Lead::Tick)));
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
    flow.gap(1.5);
    let cautions = [words.caution(), words.locale().language.screen().laser_caution];
    cautions.into_iter().for_each(|own| flow.read(own, None));
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
        asked.iter().for_each(|own| flow.read(own, Some(Lead::Tick)));
    }
    // What needs care is not to be missed by who has only this sheet.
    let care = crate::finding::flagged(assessment).filter(|own| own.finding.severity == Severity::Care);
    let care: Vec<(String, String)> =
        care.map(|own| (of.letter_of(own.index, own.number), words.line(own.finding))).collect();
    if !care.is_empty() {
        flow.heading(words.heading(Severity::Care), 8.0);
        for (letter, line) in care {
            flow.read(&line, Some(Lead::Sign(letter, Severity::Care)));
        }
    }
}

/// Every distance to read, with a box for what was read; what rests on assumed figures says so.
fn readings(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let all = &of.now.assessment.scene.readings;
    if all.is_empty() {
        return;
    }
    let rests = readings_rest_on(of.now.arrangement, all);
    let named = all.iter().zip(&rests).map(|(own, rests)| {
        let star = if rests.is_empty() { "" } else { " *" };
        [
            Cell::Text(texts.between(own.from.as_str(), own.to.as_str())),
            Cell::Strong(format!("{}{star}", words.length(own.distance_mm))),
            Cell::Write,
        ]
    });
    flow.heading(texts.read_tape, 20.0);
    let longest =
        all.iter().map(|own| own.from.as_str().chars().count() + own.to.as_str().chars().count()).max();
    let groups = if longest.unwrap_or(0) <= 8 { in_a_row(flow.width(), words) } else { 1 };
    grouped(flow, named.collect(), [texts.from_to, texts.must_read, texts.was_read], groups);
    let mut told: Vec<(&Vec<Assumed>, Vec<String>)> = Vec::new();
    for (own, rests) in all.iter().zip(&rests).filter(|(_, rests)| !rests.is_empty()) {
        let name = texts.between(own.from.as_str(), own.to.as_str());
        match told.iter_mut().find(|(figures, _)| *figures == rests) {
            Some((_, names)) => names.push(name),
            None => told.push((rests, vec![name])),
        }
    }
    for (figures, names) in told {
        flow.read(
            &texts.rests(&names.join(", "), &words.rests_on(figures)),
            Some(Lead::Text("*".to_owned())),
        );
    }
}

/// How many readings stand beside one another: as many as leave each its figure and a box wide enough to write in, up to three.
fn in_a_row(width: f64, words: &Words<'_>) -> usize {
    let one = if words.length(1_000.0).chars().count() > 8 { px(80.0) } else { px(60.0) };
    ((width / one) as usize).clamp(1, 3)
}

/// Rows of three cells, so many beside one another, read downwards.
pub(super) fn grouped(flow: &mut Flow<'_>, cells: Vec<[Cell; 3]>, titles: [&str; 3], groups: usize) {
    let groups = groups.clamp(1, cells.len().max(1));
    let high = cells.len().div_ceil(groups);
    let shares = [0.8, 1.25, 1.2];
    let mut columns = Vec::new();
    for group in 0..groups {
        for (at, (title, share)) in titles.into_iter().zip(shares).enumerate() {
            let column = Column::new(title, share);
            let column = if at == 1 { column.to_right() } else { column };
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
