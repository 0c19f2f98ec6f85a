//! Aimings by places: a word for each, in as many tables as the paper is wide; then each aiming at its best place by tape.

use baywright_planner::matrix::{Cell as Found, Line, Place, there};
use baywright_planner::{Finding, Severity, judge};

use super::{Report, WITH_MM};
use crate::sheet::flow::{Flow, px};
use crate::sheet::table::{Cell, Column};

/// Widths of the columns of numbers, of lines' names, and of a place at least, mm.
const NUMBER_MM: f64 = 10.0;
const NAME_MM: f64 = 52.0;
const PLACE_MM: f64 = 25.0;
/// The same of what is told of each place by itself, mm: a line, where, what was found.
const LINE_MM: f64 = 40.0;
const WHERE_MM: f64 = 32.0;
const FOUND_MM: f64 = 22.0;

impl Report<'_> {
    pub(super) fn places(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        flow.heading(self.texts.which_where, WITH_MM * 2.0);
        let larger = flow.lettering.enlarged();
        let width = flow.width() / px(1.0);
        let most = ((width - (NUMBER_MM + NAME_MM) * larger) / (PLACE_MM * larger)).floor().max(1.0) as usize;
        let parts = found.places.len().div_ceil(most).max(1);
        let each = found.places.len().div_ceil(parts).max(1);
        for (nth, places) in found.places.chunks(each).enumerate() {
            let from = nth * each;
            if parts > 1 {
                flow.gap(if nth == 0 { 0.0 } else { 3.0 });
                flow.ensure(px(WITH_MM * 2.0));
                let told = self.texts.places_of(from + 1, from + places.len(), found.places.len());
                self.strong(flow, &told);
            }
            self.part(flow, (from, places), width);
        }
        flow.gap(1.5);
        if let Some(line) = found.lines.first() {
            flow.read(&self.words(line).report_words(&found.margin), None);
        }
        self.by_tape(flow);
    }

    /// The table of some of the places, from the one of this position on.
    fn part(&self, flow: &mut Flow<'_>, (from, places): (usize, &[Place]), width: f64) {
        let found = self.of.found;
        let larger = flow.lettering.enlarged();
        let (number, name) = (NUMBER_MM * larger, NAME_MM * larger);
        let each = (width - number - name).max(1.0) / places.len().max(1) as f64;
        let mut columns =
            vec![Column::new(self.texts.number, number), Column::new(self.fits.car_and_aiming, name)];
        columns.extend(places.iter().map(|own| Column::new(self.place(own), each).divided()));
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        for nth in 0..found.lines.len() {
            let mut cells = vec![Cell::Text((nth + 1).to_string()), Cell::Text(self.line(nth))];
            cells.extend((from..from + places.len()).map(|at| {
                let word = self.fits.word(found, nth, at).to_owned();
                if found.fits(nth, at) { Cell::Strong(word) } else { Cell::Text(word) }
            }));
            rows.push(cells);
        }
        let mut foot = vec![Cell::Text(String::new()), Cell::Strong(self.fits.fit_here.to_owned())];
        foot.extend((from..from + places.len()).map(|at| Cell::Strong(self.fit_here(at))));
        rows.push(foot);
        self.table(flow, columns, rows);
    }

    /// How many of the list fit at a place as it is, and by how often they come in where that was said.
    fn fit_here(&self, at: usize) -> String {
        let found = self.of.found;
        let there = found.fit_there(at);
        let told = self.fits.of_all(&there.lines.to_string(), &there.of.to_string());
        if !found.is_weighted() {
            return told;
        }
        let number = |value: f64| self.locale.region.number(value, usize::from(value.fract().abs() > 1e-9));
        let month = self.fits.of_all(&number(there.a_month), &number(there.of_a_month));
        format!("{told}; {month} {}", self.fits.a_month)
    }

    /// Each line at the place at which it does best, by tape, with what is to be minded there.
    fn by_tape(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        flow.heading(self.texts.each_place, WITH_MM * 1.5);
        flow.read(self.texts.as_above, None);
        flow.gap(1.0);
        let rows = found.lines.iter().enumerate().map(|(nth, line)| {
            let best = found.best_cell(nth).and_then(|(at, own)| Some((at, found.places.get(at)?, own)));
            let (place, word, text) = match best {
                Some((at, place, own)) => (
                    self.place(place),
                    self.fits.word(found, nth, at),
                    self.told((nth, line), (at, place), own),
                ),
                None => (String::new(), self.fits.of_cell(None), self.texts.not_looked.to_owned()),
            };
            let [name, place, word, text] = [self.line(nth), place, word.to_owned(), text].map(Cell::Text);
            vec![Cell::Strong((nth + 1).to_string()), name, place, word, text]
        });
        let rows = rows.collect();
        let larger = flow.lettering.enlarged();
        let taken = [NUMBER_MM, LINE_MM, WHERE_MM, FOUND_MM].map(|own| own * larger);
        let rest = (flow.width() / px(1.0) - taken.iter().sum::<f64>()).max(FOUND_MM * larger);
        let titles = [
            self.texts.number,
            self.fits.car_and_aiming,
            self.texts.place,
            self.texts.found,
            self.texts.by_tape,
        ];
        let columns = titles.into_iter().zip(taken.into_iter().chain([rest]));
        let columns = columns.map(|(title, share)| Column::new(title, share)).collect();
        self.table(flow, columns, rows);
    }

    /// What is told of a line at its best place.
    fn told(&self, (nth, line): (usize, &Line), (at, place): (usize, &Place), own: &Found) -> String {
        let words = self.words(line);
        let margin = &self.of.found.margin;
        match own {
            Found::Fits(own) => {
                let offer = own.offer(&line.arrangement);
                let mut told =
                    vec![words.plan_verdict(own), words.spot(&offer), words.spot_slack(&own.slack)];
                if !own.meets_margin {
                    told.push(words.spot_margin(&offer, margin));
                }
                let said = judge(&there(line, place, own.pose));
                let care: Vec<&Finding> =
                    said.findings.iter().filter(|own| own.severity == Severity::Care).collect();
                if !care.is_empty() {
                    told.push(words.report_care(&care));
                }
                told.join(" ")
            }
            own => match self.of.found.never(nth, at) {
                Some(proven) => words.never_fits(proven.as_deref()),
                None => words.plan_cell(own, margin),
            },
        }
    }
}
