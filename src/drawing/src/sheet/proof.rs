//! The file of proof: a visit on paper, from its record alone, for who pays for it. On every page stands the hash of the record's last
//! entry, by which the paper and the file can be held against each other. Measured figures stand with uncertainty, allowance and decision,
//! never with a chance; nothing is said of a sensor.

mod attached;
mod short;
mod taped;

use baywright_planner::model::Id;
use baywright_planner::model::record::{ChainBreak, Decision, Entry, StepId, VisitRecord, What};
use baywright_planner::record::{Holds, Part, Shown, StepState, lacks, steps};
use baywright_planner::words::Locale;
use baywright_planner::words::proof_file::ProofFile;
use baywright_planner::words::record::RecordTexts;

use super::about::About;
use super::block::Field;
use super::flow::{Flow, Lead};
use super::frame::footed;
use super::head;
use super::lines::READ_MM;
use super::paper::Paper;
use super::table::{Cell, Column, Table};
use crate::lettering::Lettering;
use crate::page::Page;

/// A heading stands with so much of what follows, mm.
const WITH_MM: f64 = 14.0;
/// So many sign by pen, in rows so high, mm.
const SIGN_ROWS: usize = 2;
const SIGN_MM: f64 = 10.0;

/// What a file of proof is made from.
#[derive(Clone, Copy, Debug)]
pub struct ProofOf<'a> {
    /// The record.
    pub record: &'a VisitRecord,
    /// The hash of its last entry, 64 hexadecimal digits.
    pub head: &'a str,
    /// The first of its entries that does not follow; then the paper says so before anything else.
    pub broken: Option<ChainBreak>,
    /// Its set-ups, as far as they are at hand: what is still missing is told by them too.
    pub parts: &'a [Part<'a>],
    /// What belongs to the visit, as it is printed: as [`Holds::attachments`] has it, in that order.
    pub shown: &'a [Shown],
}

/// The pages of the file of proof.
pub fn proof_file(of: &ProofOf<'_>, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
    let lettering = &Lettering {
        least_text: Lettering::LEAST_TEXT * lettering.enlarged() * paper.letters(),
        ..*lettering
    };
    let locale = lettering.locale;
    let own = Proof {
        of,
        holds: Holds::of(of.record),
        texts: locale.language.proof_file(),
        said: locale.language.record(),
        locale,
    };
    let sheets = locale.language.sheets();
    let fields = |at: usize, count: usize| own.fields(about, at, count);
    let title = |page: (usize, usize)| sheets.page_title(own.texts.title, &of.record.begun.job, page);
    footed(paper, lettering, &fields, &title, |flow| {
        own.set(flow);
        own.texts.title.to_owned()
    })
}

struct Proof<'a> {
    of: &'a ProofOf<'a>,
    holds: Holds<'a>,
    texts: &'static ProofFile,
    said: &'static RecordTexts,
    locale: Locale,
}

/// A hash in groups of eight, which are read and compared more easily, and broken between lines.
fn grouped(hash: &str) -> String {
    let letters: Vec<char> = hash.chars().collect();
    let groups: Vec<String> = letters.chunks(8).map(|own| own.iter().collect()).collect();
    groups.join(" ")
}

fn text(text: impl Into<String>) -> Cell {
    Cell::Text(with_minus(&text.into()))
}

/// One sign for less than nothing: a figure with a hyphen before it gets the minus that all others have.
fn with_minus(text: &str) -> String {
    let mut before = ' ';
    let mut all = text.chars().peekable();
    let mut own = String::with_capacity(text.len());
    while let Some(one) = all.next() {
        let is_sign = one == '-' && matches!(before, ' ' | '(' | '\u{a0}' | '\u{2009}');
        let is_figure = all.peek().is_some_and(char::is_ascii_digit);
        own.push(if is_sign && is_figure { '\u{2212}' } else { one });
        before = one;
    }
    own
}

impl Proof<'_> {
    fn fields(&self, about: &About, at: usize, count: usize) -> Vec<Field> {
        let sheets = self.locale.language.sheets();
        let begun = &self.of.record.begun;
        let field = |name: &str, value: String| Field { name: name.to_owned(), value };
        let mut fields = vec![
            field(sheets.sheet, self.texts.title.to_owned()),
            field(self.said.job, begun.job.clone()),
            field(self.said.car, begun.car.clone()),
        ];
        fields.extend(begun.plate.clone().map(|own| field(self.said.plate, own)));
        fields.push(field(sheets.bay, begun.bay.to_string()));
        for (name, value) in [(sheets.day, &about.day), (sheets.revision, &about.revision)] {
            if !value.is_empty() {
                fields.push(field(name, value.clone()));
            }
        }
        if !about.shop.is_empty() {
            fields.insert(0, field(sheets.shop, about.shop.clone()));
        }
        fields.push(field(self.said.head, grouped(self.of.head)));
        fields.push(field(sheets.page, sheets.page_of(at, count)));
        fields
    }

    fn title<'i>(&'i self, aiming: &'i Id) -> &'i str {
        self.said.aiming(&self.of.record.begun, aiming)
    }

    /// Who entered it, and when.
    fn who(&self, entry: &Entry) -> Cell {
        text(format!("{}, {}", entry.by, self.said.clock(self.locale, entry.at)))
    }

    fn table(&self, flow: &mut Flow<'_>, columns: &[(&str, f64)], rows: Vec<Vec<Cell>>) {
        let columns = columns.iter().map(|(title, share)| Column::new(*title, *share)).collect();
        Table { columns, rows, capitals_mm: READ_MM, least_row_mm: 0.0 }.set(flow);
    }

    fn heading(&self, flow: &mut Flow<'_>, text: &str) {
        flow.heading(text, WITH_MM);
    }

    fn set(&self, flow: &mut Flow<'_>) {
        let begun = &self.of.record.begun;
        let of = format!("{} {}", self.said.job, begun.job);
        head::title(flow, self.texts.title, &of);
        let started =
            format!("{}: {}, {}", self.said.begun, begun.by, self.said.clock(self.locale, begun.at));
        flow.read(&started, None);
        if self.of.broken.is_some() {
            let entries = self.of.record.entries.len();
            flow.work(&self.said.chain(&begun.job, entries, self.of.head, self.of.broken), None);
        }
        flow.read(self.said.says_nothing_of_sensor, None);
        short::in_short(self, flow);
        self.missing(flow);
        self.work(flow);
        self.documents(flow);
        self.decisions(flow);
        self.routine(flow);
        self.deviations(flow);
        self.conditions(flow);
        self.floor(flow);
        taped::readings(self, flow);
        taped::instruments(self, flow);
        self.steps(flow);
        self.labour(flow);
        self.signatures(flow);
        attached::attachments(self, flow);
        flow.gap(3.0);
        flow.read(self.said.shows_an_edit, None);
    }

    fn missing(&self, flow: &mut Flow<'_>) {
        let record = self.of.record;
        let all = lacks(record, &steps(record, self.of.parts), self.of.parts);
        self.heading(flow, self.said.missing);
        if all.is_empty() {
            flow.read(self.said.nothing_missing, None);
        }
        for own in &all {
            flow.read(&self.said.lack(&record.begun, own), Some(Lead::Text("\u{2013}".to_owned())));
        }
    }

    fn work(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        let begun = &self.of.record.begun;
        self.heading(flow, texts.work);
        if let Some(list) = &begun.list {
            flow.read(&texts.by_list(self.locale, &list.name, &list.provenance), None);
        }
        let rows = begun.lines.iter().flat_map(|line| {
            let set_up = self.set_up_of(&line.aiming);
            let row = |work: &str, source: String| {
                let [sensor, set_up] = [line.sensor.as_str(), &set_up].map(text);
                vec![text(work), text(&*line.title), sensor, set_up, text(source)]
            };
            if line.because.is_empty() {
                return vec![row("\u{2013}", String::new())];
            }
            let each = line.because.iter();
            each.map(|own| row(&own.work, texts.source_of(self.locale, &own.provenance))).collect()
        });
        let columns = [
            (texts.line, 2.6),
            (texts.aiming, 2.0),
            (texts.sensor, 1.6),
            (self.said.set_up, 1.8),
            (texts.source, 2.2),
        ];
        self.table(flow, &columns, rows.collect());
    }

    /// As which set-up the car stood for an aiming, and at which place of the visit where that is another.
    fn set_up_of(&self, aiming: &Id) -> String {
        let begun = &self.of.record.begun;
        match self.holds.parked(aiming).map(|own| own.what) {
            Some(own) => {
                let set_up = own.set_up.as_ref().unwrap_or(&begun.arrangement);
                self.texts.at_place(set_up.as_str(), own.place)
            }
            None => begun.arrangement.to_string(),
        }
    }

    fn documents(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        self.heading(flow, texts.documents);
        let mut rows = Vec::new();
        for line in &self.of.record.begun.lines {
            let own = self.holds.documents(&line.aiming);
            let from = texts.source_of(self.locale, &line.provenance);
            if own.is_empty() {
                let none = text(texts.no_document);
                rows.push(vec![text(&*line.title), none, Cell::Nothing, Cell::Nothing, text(&*from)]);
            }
            for held in own {
                let date = held.what.date.map(|own| self.locale.region.day(own)).unwrap_or_default();
                rows.push(vec![
                    text(&*line.title),
                    text(&*held.what.document),
                    text(&*held.what.edition),
                    text(date),
                    text(&*from),
                ]);
            }
        }
        let columns = [
            (texts.aiming, 2.4),
            (texts.document, 3.2),
            (texts.edition, 1.3),
            (texts.date, 1.4),
            (texts.figures_from, 2.2),
        ];
        self.table(flow, &columns, rows);
    }

    fn decisions(&self, flow: &mut Flow<'_>) {
        let (texts, locale) = (self.texts, self.locale);
        self.heading(flow, texts.decisions);
        let mut rows = Vec::new();
        for line in &self.of.record.begun.lines {
            for now in self.holds.decided(&line.aiming) {
                let own = now.held.what;
                let figure = |value: f64| self.said.decided_figure(locale, own, value);
                let decision = self.said.decision(own.decision);
                // Inside by its figures alone: why it is not said stands with it.
                let is_unchecked = own.decision == Decision::CannotSay && own.to_spare() >= 0.0;
                let decision = if is_unchecked {
                    format!("{decision}: {}", texts.unchecked)
                } else {
                    decision.to_owned()
                };
                let decision = if now.is_older { format!("{decision}; {}", texts.older) } else { decision };
                rows.push(vec![
                    text(&*line.title),
                    text(own.placement.as_str()),
                    text(self.said.proven(own.of)),
                    text(self.said.decided_off(locale, own)),
                    text(format!("± {}", figure(own.u95))),
                    text(format!("± {}", figure(own.allowed))),
                    Cell::Strong(decision),
                ]);
            }
        }
        if rows.is_empty() {
            flow.read(texts.no_decision, None);
            return;
        }
        let columns = [
            (texts.aiming, 2.2),
            (texts.target, 1.5),
            (texts.what, 1.6),
            (texts.off, 1.6),
            (texts.u95, 1.3),
            (texts.allowed, 1.3),
            (texts.decision, 1.8),
        ];
        self.table(flow, &columns, rows);
        flow.gap(0.8);
        flow.read(self.said.rule, None);
    }

    fn routine(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        self.heading(flow, texts.routine);
        let rows = self.of.record.begun.lines.iter().flat_map(|line| {
            let all = self.holds.entries().into_iter().filter_map(|(_, entry)| match &entry.what {
                What::Routine { aiming, result, note } if *aiming == line.aiming => {
                    let said = self.said.routine(self.locale, result);
                    let said = if note.is_empty() { said } else { format!("{said} {note}") };
                    Some(vec![text(&*line.title), text(said), self.who(entry)])
                }
                _ => None,
            });
            let mut all: Vec<Vec<Cell>> = all.collect();
            if all.is_empty() {
                all.push(vec![text(&*line.title), text(texts.no_routine), Cell::Nothing]);
            }
            all
        });
        let columns = [(texts.aiming, 2.4), (texts.result, 5.0), (texts.who, 2.6)];
        self.table(flow, &columns, rows.collect());
    }

    fn deviations(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        self.heading(flow, texts.deviations);
        let accepted = self.holds.entries().into_iter().filter_map(|(_, entry)| match &entry.what {
            What::Accepted(own) => Some(vec![
                text(self.title(&own.aiming)),
                text(self.said.accepted(own)),
                text(&*own.why),
                self.who(entry),
            ]),
            _ => None,
        });
        let rows: Vec<Vec<Cell>> = accepted.collect();
        if rows.is_empty() {
            flow.read(texts.no_deviation, None);
            return;
        }
        let columns = [(texts.aiming, 2.0), (texts.finding, 3.4), (texts.why, 2.6), (texts.who, 2.0)];
        self.table(flow, &columns, rows);
    }

    fn conditions(&self, flow: &mut Flow<'_>) {
        let (texts, locale) = (self.texts, self.locale);
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        for held in self.holds.values() {
            let own = held.what;
            let state = match (own.allowed.is_open(), own.is_in_range()) {
                (true, _) => "",
                (false, true) => texts.in_range,
                (false, false) => texts.out_of_range,
            };
            rows.push(vec![
                text(self.said.step_of(&self.of.record.begun, &own.step)),
                text(self.said.value(&own.of)),
                text(self.said.figure(locale, &own.of, own.value)),
                text(self.said.within(locale, &own.of, own.allowed)),
                text(state),
                self.who(held.entry),
            ]);
        }
        let begun = &self.of.record.begun;
        let heights = self.holds.ride_heights().map(|own| own.entry);
        let sheet = self.holds.alignment().map(|own| own.entry);
        // Where the car stood, and that it stood still.
        let lines = || begun.lines.iter();
        let mut parked: Vec<&Entry> = Vec::new();
        for own in lines().filter_map(|own| self.holds.parked(&own.aiming)) {
            if !parked.iter().any(|known| std::ptr::eq(*known, own.entry)) {
                parked.push(own.entry);
            }
        }
        let stood = lines().flat_map(|own| self.holds.stood(&own.aiming)).map(|own| own.entry);
        let all: Vec<&Entry> = heights.into_iter().chain(sheet).chain(parked).chain(stood).collect();
        if rows.is_empty() && all.is_empty() {
            return;
        }
        self.heading(flow, texts.conditions);
        for entry in all {
            flow.read(&self.said.entry(locale, begun, entry), None);
        }
        if !rows.is_empty() {
            let columns = [
                (texts.step, 2.2),
                (texts.what, 2.4),
                (texts.figure, 1.4),
                (texts.allowed, 2.0),
                (texts.state, 1.4),
                (texts.who, 2.6),
            ];
            self.table(flow, &columns, rows);
        }
    }

    fn floor(&self, flow: &mut Flow<'_>) {
        self.heading(flow, self.texts.floor);
        match self.holds.floor() {
            Some((_, _, entry)) => {
                let said = self.said.entry(self.locale, &self.of.record.begun, entry);
                let who = self.said.clock(self.locale, entry.at);
                flow.read(&format!("{said} {}, {who}.", entry.by), None);
            }
            None => flow.read(self.texts.no_floor, None),
        }
    }

    fn steps(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        let record = self.of.record;
        self.heading(flow, texts.steps);
        let rows = steps(record, self.of.parts).into_iter().map(|own| {
            let id: &StepId = &own.id;
            let who = self.holds.step(id).filter(|_| own.state != StepState::Open);
            vec![
                text(self.said.step_of(&record.begun, id)),
                text(self.said.state(&own.state)),
                who.map_or(Cell::Nothing, |entry| self.who(entry)),
            ]
        });
        let columns = [(texts.step, 4.4), (texts.state, 3.0), (texts.who, 2.6)];
        self.table(flow, &columns, rows.collect());
    }

    fn labour(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        let lines = self.holds.labour();
        if lines.is_empty() {
            return;
        }
        self.heading(flow, texts.labour);
        let minutes = |own: f64| texts.minutes_of(self.locale, own);
        let total: f64 = lines.iter().map(|(_, own, _)| own).sum();
        let mut rows: Vec<Vec<Cell>> = lines
            .iter()
            .map(|(work, own, entry)| vec![text(*work), text(minutes(*own)), self.who(entry)])
            .collect();
        rows.push(vec![Cell::Strong(texts.total.to_owned()), Cell::Strong(minutes(total)), Cell::Nothing]);
        let columns = [(texts.line, 5.4), (texts.minutes, 1.4), (texts.who, 2.6)];
        self.table(flow, &columns, rows);
    }

    fn signatures(&self, flow: &mut Flow<'_>) {
        let texts = self.texts;
        self.heading(flow, texts.signatures);
        let rows = self.holds.signed().into_iter();
        let said = |role: &str, entry: &Entry| match &entry.what {
            What::Signed { lacking, .. } if *lacking > 0 => {
                text(self.said.entry(self.locale, &self.of.record.begun, entry))
            }
            _ => text(role),
        };
        let rows: Vec<Vec<Cell>> =
            rows.map(|(role, entry)| vec![said(role, entry), self.who(entry)]).collect();
        if !rows.is_empty() {
            self.table(flow, &[(texts.role, 4.0), (texts.who, 4.0)], rows);
        }
        if self.holds.is_closed() {
            flow.read(self.said.closed, None);
        }
        flow.gap(1.5);
        let columns = vec![
            Column::new(texts.pen_role, 2.4),
            Column::new(texts.pen_name, 3.0),
            Column::new(texts.date, 1.6),
            Column::new(texts.by_pen, 3.4),
        ];
        let rows = vec![vec![Cell::Write, Cell::Write, Cell::Write, Cell::Write]; SIGN_ROWS];
        Table { columns, rows, capitals_mm: READ_MM, least_row_mm: SIGN_MM }.set(flow);
    }
}
