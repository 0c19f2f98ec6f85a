//! The distances of a mark sheet: what the tape must read, and boxes for what it reads.

use baywright_planner::entry::readings_rest_on;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Id;
use baywright_planner::model::assumed::Assumed;
use baywright_planner::proof::{Proof, StandProof, stands};
use baywright_planner::scene::Reading;
use baywright_planner::words::{Units, Words};

use crate::page::Content;
use crate::role::Role;
use crate::sheet::flow::{Flow, Lead, Said, Sizes, px};
use crate::sheet::lines::{READ_MM, WORK_MM, pitch};
use crate::sheet::of::Of;
use crate::sheet::table::{Cell, Column, Table, corners};
use crate::text::{Align, Weight};

/// Every distance to read, with a box for what was read; what rests on assumed figures says so.
pub(super) fn readings(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let all = &of.now.assessment.scene.readings;
    if all.is_empty() {
        flow.gap(2.0);
        signed(flow, words);
        return;
    }
    let rests = readings_rest_on(of.now.arrangement, all);
    // By the marks' numbers, as they stand on the drawing.
    let number = |id: &Id| {
        let at = of.now.arrangement.aiming.mark_plan.iter().position(|own| own.id == *id);
        at.map_or_else(|| id.to_string(), |at| (at + 1).to_string())
    };
    let name = |own: &Reading| texts.between(&number(&own.from), &number(&own.to));
    let proof = Proof::of(of.now.arrangement, &of.now.assessment.scene);
    let rows = proof.iter().flat_map(|own| &own.rows).map(Some).chain(std::iter::repeat(None));
    let named = all.iter().zip(&rests).zip(rows).map(|((own, rests), row)| {
        let figure = words.bare(own.distance_mm);
        let figure = if rests.is_empty() { figure } else { texts.starred(&figure) };
        // How far off it may read if all is as assumed, in 95 of 100 cases.
        let allowed = row.map(|row| words.bare(row.allowance_mm));
        let figure = allowed.map_or_else(|| figure.clone(), |own| texts.within(&figure, &own));
        // As it was read: a half that somebody took the trouble to read stands there.
        let as_read = |mm: f64| match words.locale().units {
            Units::Millimetres if mm.fract() != 0.0 => words.locale().region.number(mm, 1),
            _ => words.bare(mm),
        };
        let read = row.and_then(|row| row.read_mm).map(|mm| Cell::Strong(as_read(mm)));
        [Cell::Text(name(own)), Cell::Strong(figure), read.unwrap_or(Cell::Write)]
    });
    let taken = taken(of, words);
    if taken.is_empty() {
        headed(flow, words);
    } else {
        // What is known of who read them needs no line to write on.
        flow.heading(&texts.read_tape_in(words.locale().units), 20.0);
        taken.iter().for_each(|own| flow.read(own, None));
    }
    // Marks that are laid a second time stand after the distances: how far apart both may lie.
    let again = proof.iter().flat_map(|own| &own.rows).filter(|row| row.is_again()).map(|row| {
        let at_most = format!("\u{2264} {}", words.bare(row.allowance_mm));
        let read = row.read_mm.map(|mm| Cell::Strong(words.bare(mm)));
        let name = texts.between(&number(&row.from), &number(&row.to));
        [Cell::Text(name), Cell::Strong(at_most), read.unwrap_or(Cell::Write)]
    });
    let titles = [texts.from_to, texts.must_read, texts.was_read];
    grouped(flow, named.chain(again).collect(), titles);
    proven(flow, proof.as_ref(), words);
    of_stands(flow, of, words);
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

/// Who read the distances, with what and when, each once; with how many distances where not all were taken alike. None if nothing is known.
fn taken(of: &Of<'_>, words: &Words<'_>) -> Vec<String> {
    let all = &of.now.arrangement.marks_taped;
    let mut told: Vec<(String, Vec<String>)> = Vec::new();
    for own in all {
        let Some(said) = words.taken(own, None) else { continue };
        let name = words.locale().language.sheets().between(own.from.as_str(), own.to.as_str());
        match told.iter_mut().find(|(same, _)| *same == said) {
            Some((_, names)) => names.push(name),
            None => told.push((said, vec![name])),
        }
    }
    let is_one = told.len() == 1 && told.iter().all(|(_, names)| names.len() == all.len());
    let say = |(said, names): (String, Vec<String>)| {
        if is_one { format!("{said}.") } else { format!("{}: {said}.", names.join(", ")) }
    };
    told.into_iter().map(say).collect()
}

/// What was read of each stand, with its decisions, and what of it is still to read.
fn of_stands(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let arrangement = of.now.arrangement;
    let is_read =
        |own: &StandProof| arrangement.stands_read.iter().any(|read| read.placement == own.placement);
    let style = flow.style(flow.sizes.read, Weight::Bold);
    for stand in stands(arrangement, &of.now.assessment.scene).iter().filter(|own| is_read(own)) {
        flow.said(&Said { text: &words.stand_title(stand), style, role: Role::Title, lead: None });
        let read = arrangement.stands_read.iter().filter(|own| own.placement == stand.placement);
        for own in read.map(|own| words.stand_read(own)).filter(|own| !own.is_empty()) {
            flow.read(&format!("{own}."), None);
        }
        let figures = stand.figures.iter().map(|own| words.stand_figure(own));
        let slips = stand.not_possible.iter().map(|own| words.stand_not_possible(own));
        let open = words.stand_open(&stand.open, stand.wants_levels);
        for text in figures.chain(slips).chain(open) {
            flow.read(&text, Some(Lead::Text("\u{2013}".to_owned())));
        }
    }
    // Who read a stand, and when, is kept nowhere.
    if arrangement.stands_read.iter().any(|own| !own.is_empty()) {
        flow.read(&words.laid_with(), None);
        signed(flow, words);
    }
}

/// What was read comes to, if anything was; what of it does not fit, and what to tape next.
fn proven(flow: &mut Flow<'_>, proof: Option<&Proof>, words: &Words<'_>) {
    let Some(proof) = proof.filter(|own| own.read() > 0) else { return };
    flow.gap(0.8);
    let style = flow.style(flow.sizes.read, Weight::Bold);
    // The worst stands first; the others follow it, a line each.
    let worst = proof.worst();
    for text in worst.map(|own| words.laid(own)).into_iter().chain(words.doubt(&proof.doubt)) {
        flow.said(&Said { text: &text, style, role: Role::Title, lead: None });
    }
    for own in proof.figures.iter().filter(|own| Some(*own) != worst) {
        flow.read(&words.laid(own), Some(Lead::Text("\u{2013}".to_owned())));
    }
    flow.read(&words.next_tape_of(&proof.next, &proof.figures), None);
    flow.read(words.locale().language.proof().says_nothing_of_sensor, None);
}

/// Boxes for a name and for a day with its time are no narrower, mm.
const NAME_MM: f64 = 38.0;
const DAY_MM: f64 = 30.0;
/// A box for a figure is no narrower, mm.
const BOX_MM: f64 = 17.0;
/// Beside a text in its cell, both sides together, mm.
const CELL_MM: f64 = 2.6;

/// Rows of three cells, as many beside one another as leave each its figures and a box wide enough to write in; read downwards. The
/// figures are as large as the rows let them be, unless fewer would stand beside one another.
pub(in crate::sheet) fn grouped(flow: &mut Flow<'_>, cells: Vec<[Cell; 3]>, titles: [&str; 3]) {
    let sizes = flow.sizes;
    let in_row = Table::capitals_of_row(sizes.written).clamp(sizes.work, WORK_MM);
    let groups = |needs: [f64; 3]| -> usize {
        let all: f64 = needs.iter().sum();
        let most = ((flow.width() / all) as usize).clamp(1, cells.len().max(1));
        cells.len().div_ceil(cells.len().div_ceil(most).max(1)).max(1)
    };
    let [large, least] = [in_row, sizes.work].map(|own| (own, needs(flow, &cells, titles, own)));
    let (capitals_mm, needs) = if groups(large.1) < groups(least.1) { least } else { large };
    let groups = groups(needs);
    let high = cells.len().div_ceil(groups);
    // What is left over is room to write in.
    let [name, figure, _] = needs;
    let each = flow.width() / groups as f64;
    let shares = if cells.iter().all(|row| row[1] == Cell::Write) {
        let rest = (each - name) * 0.5;
        [name, rest, rest]
    } else {
        [name, figure, (each - name - figure).max(1.0)]
    };
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
    Table { columns, rows, capitals_mm, least_row_mm: sizes.written }.set(flow);
}

/// How wide each of the three columns must be for figures of such capitals, px.
fn needs(flow: &Flow<'_>, cells: &[[Cell; 3]], titles: [&str; 3], capitals_mm: f64) -> [f64; 3] {
    let (strong, head) = (flow.style(capitals_mm, Weight::Bold), flow.style(READ_MM, Weight::Bold));
    let by = flow.lettering.enlarged();
    let mut needs = titles.map(|title| flow.lettering.width_of(title, head) + px(CELL_MM));
    for row in cells {
        for (cell, needs) in row.iter().zip(&mut needs) {
            let wide = match cell {
                Cell::Text(text) | Cell::Strong(text) => flow.lettering.width_of(text, strong) + px(CELL_MM),
                Cell::Write => px(BOX_MM) * by,
                Cell::Nothing => 0.0,
            };
            *needs = needs.max(wide);
        }
    }
    needs
}

/// The heading over them, and beside it who read them and when.
pub(in crate::sheet) fn headed(flow: &mut Flow<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let heading = texts.read_tape_in(words.locale().units);
    let (strong, plain) =
        (flow.style(flow.sizes.work, Weight::Bold), flow.style(flow.sizes.read, Weight::Regular));
    let by = flow.lettering.enlarged();
    let wide = |text: &str, style| flow.lettering.width_of(text, style) + px(CELL_MM);
    let [name, day] = [texts.read_by, texts.read_at].map(|own| wide(own, plain));
    let from = wide(&heading, strong);
    let boxes = flow.width() - from - name - day;
    if boxes < px(NAME_MM + DAY_MM) * by {
        flow.heading(&heading, 20.0);
        signed(flow, words);
        flow.gap(1.0);
        return;
    }
    let height = (px(flow.sizes.written) * by).max(pitch(strong)) + px(1.2);
    let named = boxes * NAME_MM / (NAME_MM + DAY_MM);
    flow.gap(2.0);
    flow.ensure(height + px(20.0));
    flow.block(height, Content::Heading, |setter| {
        let (width, y, half) = (setter.size.x, (height - px(0.8)) * 0.5, height * 0.5 - px(1.0));
        let under = height - px(0.4);
        setter.line(Role::RuleHeavy, [DVec2::new(0.0, under), DVec2::new(width, under)]);
        setter.text(Role::Title, DVec2::new(0.0, y), &heading, strong, Align::Start, f64::INFINITY);
        let mut x = from;
        for (text, label, wide) in [(texts.read_by, name, named), (texts.read_at, day, boxes - named)] {
            let at = DVec2::new(x + label - px(CELL_MM * 0.5), y);
            setter.text(Role::Title, at, text, plain, Align::End, f64::INFINITY);
            x += label;
            let field = Bounds { low: DVec2::new(x, y - half), high: DVec2::new(x + wide - 1.0, y + half) };
            setter.ring(Role::Field, corners(&field));
            x += wide;
        }
    });
}

/// Who read it, and when.
fn signed(flow: &mut Flow<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let columns = [0.35, 1.0, 0.45, 0.9].map(|share| Column::new("", share)).to_vec();
    let [by, at] = [texts.read_by, texts.read_at].map(|own| Cell::Text(own.to_owned()));
    let rows = vec![vec![by, Cell::Write, at, Cell::Write]];
    let Sizes { read, written, .. } = flow.sizes;
    Table { columns, rows, capitals_mm: read, least_row_mm: written }.set(flow);
}
