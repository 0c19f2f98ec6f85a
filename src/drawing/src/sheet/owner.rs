//! The owner's report: what fits where, on paper, for who builds or lends. Made of what was found of a list, as far as it is there: what was
//! not looked at is told as that. In short; the aimings by the places; each aiming at its best place by tape; how many each place serves, to scale; how big an
//! empty room must be; what changes would unlock; what was not asked.

mod changes;
mod map;
mod places;
mod room;

use baywright_planner::judge;
use baywright_planner::matrix::{Cell, Line, Place, Planned};
use baywright_planner::words::fits::FitsTexts;
use baywright_planner::words::owner_report::OwnerReport;
use baywright_planner::words::plan::PlanTexts;
use baywright_planner::words::{Locale, Words};

use super::about::About;
use super::block::Field;
use super::flow::{Flow, Lead, Said};
use super::frame::footed;
use super::head;
use super::lines::READ_MM;
use super::paper::Paper;
use super::table::{Column, Table};
use crate::lettering::Lettering;
use crate::page::Page;
use crate::role::Role;
use crate::text::Weight;

pub use changes::ChangesAsked;

/// A heading stands with so much of what follows, mm.
const WITH_MM: f64 = 18.0;

/// What an owner's report is made from.
#[derive(Clone, Copy, Debug)]
pub struct ReportOf<'a> {
    /// What was found of the list.
    pub found: &'a Planned,
    /// The bay's name.
    pub bay: &'a str,
    /// What changes of the building would unlock, if that was looked at.
    pub changes: Option<ChangesAsked<'a>>,
    /// What a square metre of floor costs, in the owner's money, if that was said.
    pub price: Option<f64>,
}

/// The pages of the report.
pub fn owner_report(of: &ReportOf<'_>, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
    let lettering = &Lettering {
        least_text: Lettering::LEAST_TEXT * lettering.enlarged() * paper.letters(),
        ..*lettering
    };
    let locale = lettering.locale;
    let language = locale.language;
    let own =
        Report { of, locale, texts: language.owner_report(), fits: language.fits(), plan: language.plan() };
    let fields = |at: usize, count: usize| own.fields(about, at, count);
    let title = |page: (usize, usize)| language.sheets().page_title(own.texts.title, of.bay, page);
    footed(paper, lettering, &fields, &title, |flow| {
        own.set(flow);
        own.texts.described(of.bay, of.found.lines.len())
    })
}

/// A report in the making.
struct Report<'a> {
    of: &'a ReportOf<'a>,
    locale: Locale,
    texts: &'static OwnerReport,
    fits: &'static FitsTexts,
    plan: &'static PlanTexts,
}

impl<'a> Report<'a> {
    fn fields(&self, about: &About, at: usize, count: usize) -> Vec<Field> {
        let sheets = self.locale.language.sheets();
        let found = self.of.found;
        let list = self.texts.counted(found.lines.len(), found.places.len());
        let field = |name: &str, value: &str| Field { name: name.to_owned(), value: value.to_owned() };
        let mut fields = vec![
            field(sheets.sheet, self.texts.title),
            field(self.texts.bay, self.of.bay),
            field(self.texts.list, &list),
        ];
        for (name, value) in
            [(sheets.file, &about.file), (sheets.day, &about.day), (sheets.revision, &about.revision)]
        {
            if !value.is_empty() {
                fields.push(field(name, value));
            }
        }
        if !about.shop.is_empty() {
            fields.insert(0, field(sheets.shop, &about.shop));
        }
        fields.push(field(sheets.page, &sheets.page_of(at, count)));
        fields
    }

    fn set(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        head::title(
            flow,
            self.texts.title,
            &self.texts.of_list(self.of.bay, found.lines.len(), found.places.len()),
        );
        if self.is_partial() {
            self.strong(flow, self.texts.partial);
        }
        if found.lines.iter().any(|own| judge(&own.arrangement).on_example_figures) {
            self.strong(flow, self.locale.language.sheets().on_examples);
        }
        self.in_short(flow);
        self.places(flow);
        self.map(flow);
        self.room(flow);
        self.changes(flow);
        self.not_asked(flow);
    }

    /// Whether anything of it was not looked at, or is not answered yet.
    fn is_partial(&self) -> bool {
        let found = self.of.found;
        let is_open =
            found.rows.iter().any(|own| own.as_ref().is_none_or(|row| row.is_partial() || !row.has_moves));
        let is_missing = found.map.is_none() || found.room.is_none() || !found.is_best_looked_for;
        found.is_partial || is_open || is_missing
    }

    /// What an owner asks first, each in a sentence.
    fn in_short(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        flow.heading(self.texts.in_short, WITH_MM);
        let say = |flow: &mut Flow<'_>, name: &str, told: &str| {
            flow.work(&format!("{name}: {told}"), Some(Lead::Text("\u{2013}".to_owned())));
        };
        say(flow, self.texts.in_room, &self.texts.somewhere(self.somewhere(), found.lines.len()));
        let best = found.best.as_ref().and_then(|own| Some((own, found.lines.get(own.serves.first()?.0)?)));
        let told = match (best, found.is_best_looked_for) {
            (Some((best, line)), _) => self.words(line).plan_best(best, found.lines.len(), &found.margin),
            (None, true) => self.plan.no_place_for_any.to_owned(),
            (None, false) => self.texts.not_looked.to_owned(),
        };
        let served =
            |nth: &usize| best.is_none_or(|(own, _)| own.serves.iter().any(|served| served.0 == *nth));
        let not: Vec<usize> = (0..found.lines.len()).filter(|nth| !served(nth)).collect();
        let told =
            if not.is_empty() { told } else { format!("{told} {}", self.texts.not_there(&numbers(&not))) };
        say(flow, self.plan.one_place, &told);
        let room = found.room.as_ref().map(|own| own.smallest.as_ref());
        let told = match room {
            Some(Some(room)) => found
                .lines
                .get(room.decides)
                .map_or_else(String::new, |line| self.words(line).plan_room(room, &found.margin)),
            Some(None) => self.plan.no_size.to_owned(),
            None => self.texts.not_looked.to_owned(),
        };
        say(flow, self.plan.empty_room, &told);
        for told in self.first_change().into_iter().chain(self.best_together()) {
            flow.work(&told, Some(Lead::Text("\u{2013}".to_owned())));
        }
    }

    /// How many of the list are served somewhere: as it is, tightly, after moves; of how many no place was found; how many are open.
    fn somewhere(&self) -> [usize; 5] {
        let mut all = [0; 5];
        for row in &self.of.found.rows {
            let cells = || row.iter().flat_map(|own| own.cells.iter().flatten());
            let any = |is: &dyn Fn(&Cell) -> bool| cells().any(is);
            let is_open = row.as_ref().is_none_or(|own| own.is_partial() || !own.has_moves);
            let at = if any(&|own| matches!(own, Cell::Fits(own) if own.meets_margin)) {
                0
            } else if any(&|own| matches!(own, Cell::Fits(_))) {
                1
            } else if any(&|own| matches!(own, Cell::AfterMoves { .. })) {
                2
            } else if is_open {
                4
            } else {
                3
            };
            if let Some(own) = all.get_mut(at) {
                *own += 1;
            }
        }
        all
    }

    fn not_asked(&self, flow: &mut Flow<'_>) {
        flow.heading(self.texts.not_asked, WITH_MM);
        let found = self.of.found;
        let caution = found.lines.first().map_or("", |own| self.words(own).caution());
        let all = [
            self.fits.searched,
            self.texts.no_proof,
            if found.proven.is_empty() { "" } else { self.texts.never_so },
            self.texts.care_is_counted,
            self.texts.way,
            self.texts.empty_is_empty,
            self.texts.entered,
            self.texts.who_decides,
            caution,
        ];
        for own in all.into_iter().filter(|own| !own.is_empty()) {
            flow.read(own, Some(Lead::Text("\u{2013}".to_owned())));
        }
    }

    fn words<'l>(&self, line: &'l Line) -> Words<'l> {
        Words::new(&line.arrangement, self.locale)
    }

    /// A line's set-up, car and aiming.
    fn line(&self, nth: usize) -> String {
        self.of.found.lines.get(nth).map_or_else(String::new, |own| self.words(own).plan_line(own.is_saved))
    }

    /// A place, as over a column.
    fn place(&self, place: &Place) -> String {
        self.of.found.lines.first().map_or_else(String::new, |own| self.words(own).fits_place(place))
    }

    /// An area, mm².
    fn area(&self, mm2: f64) -> String {
        self.texts.square_metres(&self.locale.region.number(mm2 * 1e-6, 1))
    }

    fn table(&self, flow: &mut Flow<'_>, columns: Vec<Column>, rows: Vec<Vec<super::table::Cell>>) {
        Table { columns, rows, capitals_mm: READ_MM, least_row_mm: 0.0 }.set(flow);
    }

    fn strong(&self, flow: &mut Flow<'_>, text: &str) {
        let style = flow.style(flow.sizes.read, Weight::Bold);
        flow.said(&Said { text, style, role: Role::Title, lead: None });
    }
}

/// Lines by their numbers, as they are counted from 1.
fn numbers(all: &[usize]) -> String {
    let all: Vec<String> = all.iter().map(|nth| (nth + 1).to_string()).collect();
    all.join(", ")
}
