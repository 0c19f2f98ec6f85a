//! The boxes of a step: what each is of, what it shows, and what is entered by it.

use baywright_planner::edit::Edit;
use baywright_planner::geometry::angle;
use baywright_planner::model::record::{
    Entered, RoutineResult, StepKind, ValueOf, ValueUnit, Way, WayOut, What, Within,
};
use baywright_planner::model::{Id, Instrument, MarkTaped, Taken as MadeWith};
use baywright_planner::proof::Row;
use baywright_planner::record::{Holds, Task, VisitStep};
use baywright_planner::words::record_page::PageBox;

use super::{OfRecord, RecordPage, Side, reads};
use crate::screen::Desk;
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::car_rows::{CarRow, car_row_chosen};
use crate::screen::forms::typed::{self, Length};
use crate::screen::forms::which::NotRead;

/// What a box is of.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum BoxOf {
    /// A figure that the step asks for.
    Value(ValueOf, Within),
    /// A row of what is measured on the car.
    Car(CarRow),
    /// With which tape distances are read.
    With,
    /// How warm it is.
    Warm,
    /// A distance between two marks.
    Tape(Id, Id),
    /// What else is typed on the page.
    Page(PageBox),
}

/// A box on the page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Asking {
    pub of: BoxOf,
    /// Its name.
    pub label: String,
    /// What may be typed, or what it may be; may be empty.
    pub hint: String,
    /// The unit behind it.
    pub unit: &'static str,
    /// What stands in it while nothing is typed.
    pub shown: String,
    /// What is chosen from by a digit, where nothing is typed.
    pub options: Vec<String>,
    /// Which of them holds.
    pub chosen: Option<usize>,
    /// The digit of the first one.
    pub first_digit: usize,
    /// Whether Enter passes it over.
    pub is_aside: bool,
}

impl Asking {
    /// Whether words are typed in it, not figures.
    pub const fn is_text(&self) -> bool {
        use PageBox::{By, Car, Dated, Document, Edition, Job, Plate, Tape, Words};
        match self.of {
            BoxOf::Page(By | Car | Dated | Document | Edition | Job | Plate | Tape | Words) => true,
            BoxOf::Car(row) => row.is_words(),
            _ => false,
        }
    }

    /// Whether a minus may stand before it: the cold.
    pub const fn is_signed(&self) -> bool {
        matches!(self.of, BoxOf::Warm)
    }

    /// Whether something is chosen in it by a digit.
    pub const fn is_pick(&self) -> bool {
        !self.options.is_empty()
    }

    /// Which option goes by a digit.
    pub fn option_of(&self, digit: usize) -> Option<usize> {
        digit.checked_sub(self.first_digit).filter(|at| *at < self.options.len())
    }

    /// A plain box.
    fn new(of: BoxOf, label: String, hint: String, shown: String) -> Self {
        let (options, chosen) = (Vec::new(), None);
        Self { of, label, hint, unit: "", shown, options, chosen, first_digit: 1, is_aside: false }
    }
}

/// What comes of a text in a box.
pub(super) type Taken = Result<Vec<Command>, String>;

impl Desk {
    /// The boxes of what is seen.
    pub(super) fn boxes(&self, page: &RecordPage) -> Vec<Asking> {
        let plain = |of: PageBox| self.record_plain(of, String::new());
        match &page.side {
            Side::Begin => {
                let by = page.by.clone();
                vec![
                    plain(PageBox::Job),
                    plain(PageBox::Car),
                    self.record_plain(PageBox::By, by),
                    plain(PageBox::Plate),
                ]
            }
            Side::WhyNot
            | Side::LeftOut
            | Side::Although(_)
            | Side::Accept(..)
            | Side::Withdraw(_)
            | Side::Strike(_)
            | Side::Reopen => vec![plain(PageBox::Words)],
            Side::Who => vec![plain(PageBox::By)],
            Side::Step => page.step().map(|step| self.boxes_of(page, step)).unwrap_or_default(),
            Side::Records
            | Side::More
            | Side::Findings
            | Side::Papers
            | Side::WholeVisit
            | Side::Entries
            | Side::Close => Vec::new(),
        }
    }

    fn record_plain(&self, of: PageBox, shown: String) -> Asking {
        let texts = self.view.locale.language.record_page();
        let (label, hint) = (texts.name_of(of).to_owned(), texts.hint_of(of).to_owned());
        Asking::new(BoxOf::Page(of), label, hint, shown)
    }

    fn boxes_of(&self, page: &RecordPage, step: &VisitStep) -> Vec<Asking> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        let record = in_hand.record();
        let holds = Holds::of(record);
        let locale = self.view.locale;
        let mut boxes: Vec<Asking> = Vec::new();
        match (step.id.kind, &step.id.aiming) {
            (StepKind::Procedure, Some(aiming)) => {
                let held =
                    holds.documents(aiming).into_iter().max_by_key(|own| own.nth).map(|own| own.what.clone());
                let named = step.tasks.iter().find_map(|own| match own {
                    Task::OpenProcedure(Some((document, date))) => Some((document.clone(), *date)),
                    _ => None,
                });
                let document = held.as_ref().map(|own| own.document.clone());
                let document =
                    document.or_else(|| named.as_ref().map(|own| own.0.clone())).unwrap_or_default();
                let edition = held.as_ref().map(|own| own.edition.clone()).unwrap_or_default();
                let date = held.map_or_else(|| named.and_then(|own| own.1), |own| own.date);
                boxes.push(self.record_plain(PageBox::Document, document));
                boxes.push(self.record_plain(PageBox::Edition, edition));
                boxes.push(
                    self.record_plain(PageBox::Dated, date.map_or_else(String::new, |own| own.to_string())),
                );
            }
            (StepKind::CheckDistances, Some(_)) => {
                boxes.extend(self.tape_boxes(page));
                let mut rows: Vec<_> = page.parts.proof().iter().flat_map(|own| &own.rows).collect();
                let place =
                    |row: &Row| page.tapes.iter().position(|(from, to)| *from == row.from && *to == row.to);
                rows.sort_by_key(|row| place(row).unwrap_or(usize::MAX));
                for row in rows {
                    let [should, hint] = self.words().tape_row(row);
                    boxes.push(Asking::new(
                        BoxOf::Tape(row.from.clone(), row.to.clone()),
                        hint,
                        should,
                        row.read_mm.map_or_else(String::new, |mm| locale.length_to_type(mm)),
                    ));
                }
            }
            _ => {}
        }
        let car = self.record_car(page, step);
        boxes.extend(self.car_rows(page, step, &car).into_iter().map(|row| self.car_box(row, &car)));
        // Behind what was there before it: no row comes above one that is typed in.
        if let (StepKind::Result, Some(aiming)) = (step.id.kind, &step.id.aiming) {
            boxes.extend(self.out_box(page, holds.routine(aiming).map(|own| own.0)));
        }
        let texts = locale.language.record();
        for own in &step.values {
            let within = texts.within(locale, &own.of, own.allowed);
            let hint =
                if within.is_empty() { within } else { locale.language.record_page().allowed(&within) };
            let shown = own.entered.map_or_else(String::new, |value| self.figure_to_type(&own.of, value));
            let of = BoxOf::Value(own.of.clone(), own.allowed);
            let asking = Asking::new(of, texts.value(&own.of), hint, shown);
            boxes.push(Asking { unit: unit_of(own.of.unit()), ..asking });
        }
        boxes
    }

    /// By how much the routine said that it was out, once it said which way.
    fn out_box(&self, page: &RecordPage, said: Option<&RoutineResult>) -> Option<Asking> {
        let failed = matches!(said, Some(RoutineResult::Failed { out }) if !out.is_empty());
        let out = self.routine_ways(page).into_iter().next_back().and_then(|own| own.by_rad);
        let shown = out.map_or_else(String::new, |own| self.region().degrees_to_type(angle::degrees(own)));
        failed.then(|| self.record_plain(PageBox::Out, shown))
    }

    /// With which tape distances are read, and how warm it is.
    fn tape_boxes(&self, page: &RecordPage) -> Vec<Asking> {
        let texts = self.view.locale.language.record_page();
        let today = page.taken().at.map(|own| own.date());
        let tapes = self.listed_tapes();
        let named = |own: &&Instrument| {
            let serial = own.serial.as_deref().unwrap_or_default();
            let is_overdue = today.is_some_and(|day| own.overdue_on(day).is_some());
            texts.listed_tape(own.name.as_str(), serial, is_overdue)
        };
        let mut options: Vec<String> = tapes.iter().map(named).collect();
        options.push(texts.another_tape.to_owned());
        let listed = tapes.iter().position(|own| own.name.as_str() == page.tape);
        let chosen = if page.is_other_tape { Some(tapes.len()) } else { listed };
        // Its name is asked for as soon as it is chosen: no row comes above the one that is typed in next.
        let is_other = page.picked_in(&BoxOf::With).or(chosen) == Some(tapes.len());
        let name = chosen.and_then(|at| options.get(at)).cloned().unwrap_or_default();
        let hint = if tapes.is_empty() { texts.no_tapes } else { "" };
        let with = Asking::new(BoxOf::With, texts.tape_in_use.to_owned(), hint.to_owned(), name);
        let mut boxes = vec![Asking { options, chosen, ..with }];
        if is_other {
            boxes.push(self.record_plain(PageBox::Tape, page.tape.clone()));
        }
        let warm = page
            .warm_c
            .map_or_else(String::new, |own| self.region().number(own, usize::from(own.fract() != 0.0)));
        let hint = texts.warm_hint.to_owned();
        let warm = Asking::new(BoxOf::Warm, texts.warm.to_owned(), hint, warm);
        boxes.push(Asking { unit: "°C", ..warm });
        boxes
    }

    /// What of the shop's list distances are read with.
    pub(super) fn listed_tapes(&self) -> Vec<&Instrument> {
        self.shop.instruments().iter().filter(|own| own.kind.reads_distances()).collect()
    }

    /// A figure as it stands in its box.
    fn figure_to_type(&self, of: &ValueOf, value: f64) -> String {
        match of.unit() {
            ValueUnit::Count => self.region().number(value, 0),
            ValueUnit::Bar => self.region().number(value, 2),
            ValueUnit::Kilometres => self.region().number(value, 1),
            ValueUnit::Millimetres => self.view.locale.length_to_type(value),
        }
    }

    /// How the routine said that it was out, as it holds now.
    pub(super) fn routine_ways(&self, page: &RecordPage) -> Vec<WayOut> {
        let aiming = page.at.as_ref().and_then(|own| own.aiming.as_ref());
        let Some((in_hand, aiming)) = page.in_hand.as_ref().zip(aiming) else { return Vec::new() };
        match Holds::of(in_hand.record()).routine(aiming) {
            Some((RoutineResult::Failed { out }, ..)) => out.clone(),
            _ => Vec::new(),
        }
    }

    /// What the routine said if it is out that way too, instead of the other way across it.
    pub(super) fn out_that_way(&self, page: &RecordPage, way: Way) -> Vec<WayOut> {
        let across = |own: Way| matches!(own, Way::Left | Way::Right);
        let mut ways = self.routine_ways(page);
        ways.retain(|own| across(own.way) != across(way));
        ways.push(WayOut { way, by_rad: None });
        ways
    }

    /// What is entered by a text in a box that has another one now.
    pub(super) fn take_box(&self, page: &RecordPage, asking: &Asking, text: &str) -> Taken {
        let Some(step) = page.step() else { return Ok(Vec::new()) };
        let enter = |what: What| vec![Command::Record(OfRecord::Enter(vec![what]))];
        let nothing = text.trim().is_empty();
        match &asking.of {
            BoxOf::Value(..) if nothing => Ok(Vec::new()),
            BoxOf::Value(of, allowed) => {
                let value = self.record_figure(of.unit(), text)?;
                Ok(enter(What::Value(Entered {
                    step: step.id.clone(),
                    of: of.clone(),
                    value,
                    allowed: *allowed,
                })))
            }
            BoxOf::Car(row) => {
                let car = self.car_row_typed(*row, &self.record_car(page, step), text);
                let car = car.map_err(|why| match why {
                    NotRead::Wrong(why) => why,
                    NotRead::Which(which) => which.question,
                })?;
                Ok(self.car_taken(page, step, *row, car))
            }
            BoxOf::With => Ok(Vec::new()),
            BoxOf::Warm if nothing => Ok(vec![Command::Record(OfRecord::Warm(None))]),
            BoxOf::Warm => {
                let said = || self.view.locale.language.instruments().no_temperature(text.trim());
                let warm = typed::bare_number(text).filter(|own| MadeWith::TEMPERATURE.holds(*own));
                Ok(vec![Command::Record(OfRecord::Warm(Some(warm.ok_or_else(said)?)))])
            }
            BoxOf::Tape(from, to) => {
                let read_mm = if nothing { None } else { Some(self.record_mm(text)?) };
                let taken = page.taken();
                let Some(aiming) = step.id.aiming.clone() else { return Ok(Vec::new()) };
                if read_mm.is_none() {
                    return Ok(self.reading_away(page, &aiming, from, to));
                }
                let read = read_mm.map(|read_mm| {
                    let taped =
                        MarkTaped { from: from.clone(), to: to.clone(), read_mm, taken: taken.clone() };
                    enter(reads::reading(&aiming, &taped, self.shop.instruments()))
                });
                // Those of another aiming, or of another place, are the record's alone.
                let edit = self.is_drawn(page, &aiming).then(|| {
                    let edit = Edit::Tape { from: from.clone(), to: to.clone(), read_mm, taken };
                    Command::Bay(OfBay::Edit(edit))
                });
                Ok(read.into_iter().flatten().chain(edit).collect())
            }
            BoxOf::Page(PageBox::Out) => {
                let aiming = step.id.aiming.clone().unwrap_or_else(|| Id::from(""));
                let mut out = self.routine_ways(page);
                let by = if nothing { None } else { Some(self.record_degrees(text)?.abs()) };
                if let Some(last) = out.last_mut() {
                    last.by_rad = by.map(angle::radians);
                }
                let result = RoutineResult::Failed { out };
                Ok(enter(What::Routine { aiming, result, note: String::new() }))
            }
            BoxOf::Page(PageBox::Tape) => {
                Ok(vec![Command::Record(OfRecord::TapeName(text.trim().to_owned()))])
            }
            BoxOf::Page(_) => Ok(Vec::new()),
        }
    }

    /// A distance is taken away: what was read of it is struck out in the record, and stands in the set-up no more.
    fn reading_away(&self, page: &RecordPage, aiming: &Id, from: &Id, to: &Id) -> Vec<Command> {
        let entries = Self::readings_between(page, &MarkTaped::new(from.clone(), to.clone(), 1.0), aiming);
        if !entries.is_empty() {
            return self.strike(page, &entries, "");
        }
        let edit = Edit::Tape { from: from.clone(), to: to.clone(), read_mm: None, taken: page.taken() };
        self.is_drawn(page, aiming).then(|| Command::Bay(OfBay::Edit(edit))).into_iter().collect()
    }

    /// What was chosen in a box is taken.
    pub(super) fn take_pick(&self, page: &mut RecordPage, asking: &Asking) -> Vec<Command> {
        let picked = page.picked_in(&asking.of).filter(|own| asking.chosen != Some(*own));
        page.typed.retain(|(of, _)| *of != asking.of);
        picked.map(|own| self.choose_in(page, asking, own)).unwrap_or_default()
    }

    /// What is done by choosing an option of a box.
    fn choose_in(&self, page: &RecordPage, asking: &Asking, option: usize) -> Vec<Command> {
        let Some(step) = page.step() else { return Vec::new() };
        match asking.of {
            BoxOf::Car(row) => {
                let car = car_row_chosen(row, &self.record_car(page, step), option);
                self.car_taken(page, step, row, car)
            }
            BoxOf::With => {
                let listed = self.listed_tapes().get(option).map(|own| own.name.clone());
                vec![Command::Record(OfRecord::Tape(listed))]
            }
            _ => Vec::new(),
        }
    }

    /// Whether the set-up of an aiming is the one that is drawn in the bay, with the readings that stand there.
    pub(super) fn is_drawn(&self, page: &RecordPage, aiming: &Id) -> bool {
        let drawn = &self.answer.judged;
        page.parts.part(aiming).is_some_and(|own| {
            own.arrangement.aiming.id == drawn.aiming.id && own.arrangement.parked == drawn.parked
        })
    }

    fn record_figure(&self, unit: ValueUnit, text: &str) -> Result<f64, String> {
        let wrong = || self.view.locale.language.record_page().no_figure(text.trim());
        match unit {
            ValueUnit::Count => typed::whole(text).ok_or_else(wrong),
            ValueUnit::Bar | ValueUnit::Kilometres => {
                let bare = text.trim().trim_end_matches(char::is_alphabetic).trim().replace(',', ".");
                bare.parse::<f64>().ok().filter(|own| own.is_finite()).ok_or_else(wrong)
            }
            ValueUnit::Millimetres => self.record_mm(text),
        }
    }

    /// A length as it was typed, mm. On a number pad nobody answers a question about a comma: it is typed again without.
    fn record_mm(&self, text: &str) -> Result<f64, String> {
        let texts = self.view.locale.language.record_page();
        match typed::length(text, self.view.locale.units) {
            Some(Length::One(mm)) => Ok(mm),
            Some(Length::Two(both)) => {
                let [one, other] = self.region().readings(both);
                Err(texts.two_lengths(&one, &other))
            }
            Some(Length::Dash([one, other])) => {
                Err(texts.two_lengths(&self.view.locale.length(one), &self.view.locale.length(other)))
            }
            None => Err(texts.no_figure(text.trim())),
        }
    }

    fn record_degrees(&self, text: &str) -> Result<f64, String> {
        typed::degrees(text).ok_or_else(|| self.view.locale.language.record_page().no_figure(text.trim()))
    }
}

/// The same in both languages: symbols, no words.
const fn unit_of(unit: ValueUnit) -> &'static str {
    match unit {
        // A length brings its own.
        ValueUnit::Count | ValueUnit::Millimetres => "",
        ValueUnit::Bar => "bar",
        ValueUnit::Kilometres => "km",
    }
}
