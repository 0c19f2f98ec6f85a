//! The boxes of a step: what each is of, what it shows, and what is entered by it.

use baywright_planner::edit::Edit;
use baywright_planner::geometry::angle;
use baywright_planner::model::record::{
    AlignmentSheet, Entered, RoutineResult, StepKind, ValueOf, ValueUnit, Way, WayOut, What, Within,
};
use baywright_planner::model::{Id, MarkTaped, OnThisCar, RearToe, Wheel};
use baywright_planner::record::{Holds, Task, VisitStep};
use baywright_planner::words::record_page::PageBox;

use super::{RecordPage, Side, reads};
use crate::screen::Desk;
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::typed::{self, Length};

/// What a box is of.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum BoxOf {
    /// A figure that the step asks for.
    Value(ValueOf, Within),
    /// An arch above its wheel, by position.
    Arch(usize),
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
}

impl Asking {
    /// Whether words are typed in it, not figures.
    pub const fn is_text(&self) -> bool {
        use PageBox::{By, Car, Dated, Document, Edition, Job, Plate, Tape, Words};
        matches!(self.of, BoxOf::Page(By | Car | Dated | Document | Edition | Job | Plate | Tape | Words))
    }

    /// Whether a minus may stand before it.
    pub const fn is_signed(&self) -> bool {
        matches!(self.of, BoxOf::Page(PageBox::ToeLeft | PageBox::ToeRight | PageBox::SetBack))
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
                    plain(PageBox::Tape),
                ]
            }
            Side::WhyNot | Side::Accept(..) | Side::Withdraw(_) | Side::Reopen => vec![plain(PageBox::Words)],
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
        Asking {
            label: texts.name_of(of).to_owned(),
            hint: texts.hint_of(of).to_owned(),
            unit: "",
            shown,
            of: BoxOf::Page(of),
        }
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
            (StepKind::RideHeights, _) => {
                let known = self.answer.judged.on_this_car.arches_mm;
                let held = holds.ride_heights().map_or(known, |own| *own.what);
                for (at, (wheel, height)) in Wheel::ALL.into_iter().zip(held).enumerate() {
                    boxes.push(Asking {
                        of: BoxOf::Arch(at),
                        label: locale.language.record_page().arch(wheel),
                        hint: String::new(),
                        unit: "",
                        shown: height.map_or_else(String::new, |mm| locale.length_to_type(mm)),
                    });
                }
            }
            (StepKind::Alignment, _) => {
                // What the set-up knows already is offered.
                let own = &self.answer.judged;
                let (rear_toe, set_back_mm) = (own.on_this_car.told_rear_toe(), own.told_set_back_mm());
                let known = AlignmentSheet { rear_toe, set_back_mm, taken: None };
                let held = holds.alignment().map_or(known, |own| own.what.clone());
                let toe = |rad: Option<f64>| {
                    rad.map_or_else(String::new, |own| self.region().degrees_to_type(angle::degrees(own)))
                };
                boxes.push(self.record_plain(PageBox::ToeLeft, toe(held.rear_toe.left_rad)));
                boxes.push(self.record_plain(PageBox::ToeRight, toe(held.rear_toe.right_rad)));
                let back = held.set_back_mm.map_or_else(String::new, |mm| locale.length_to_type(mm));
                boxes.push(self.record_plain(PageBox::SetBack, back));
            }
            (StepKind::CheckDistances, Some(aiming)) if *aiming == self.answer.judged.aiming.id => {
                let texts = locale.language.proof();
                for row in page.parts.proof().map(|own| own.rows.as_slice()).unwrap_or_default() {
                    let (from, to) = (row.from.as_str(), row.to.as_str());
                    let should =
                        texts.should(from, to, &locale.length(row.should_mm), &locale.bare(row.allowance_mm));
                    boxes.push(Asking {
                        of: BoxOf::Tape(row.from.clone(), row.to.clone()),
                        label: texts.box_of(from, to),
                        hint: should,
                        unit: "",
                        shown: row.read_mm.map_or_else(String::new, |mm| locale.length_to_type(mm)),
                    });
                }
            }
            (StepKind::Result, Some(aiming)) => {
                let failed = holds.routine(aiming).is_some_and(
                    |(said, ..)| matches!(said, RoutineResult::Failed { out } if !out.is_empty()),
                );
                if failed {
                    let out = self.routine_ways(page).into_iter().next_back().and_then(|own| own.by_rad);
                    let shown = out
                        .map_or_else(String::new, |own| self.region().degrees_to_type(angle::degrees(own)));
                    boxes.push(self.record_plain(PageBox::Out, shown));
                }
            }
            _ => {}
        }
        let texts = locale.language.record();
        for own in &step.values {
            let within = texts.within(locale, &own.of, own.allowed);
            boxes.push(Asking {
                label: texts.value(&own.of),
                hint: if within.is_empty() { within } else { locale.language.record_page().allowed(&within) },
                unit: unit_of(own.of.unit()),
                shown: own.entered.map_or_else(String::new, |value| self.figure_to_type(&own.of, value)),
                of: BoxOf::Value(own.of.clone(), own.allowed),
            });
        }
        boxes
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
        let enter = |what: What| vec![Command::Record(super::OfRecord::Enter(vec![what]))];
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
            BoxOf::Arch(_) => {
                let mut heights_mm = [None; 4];
                for (own, height) in self.boxes(page).iter().zip(&mut heights_mm) {
                    let text = page.text_of(own);
                    *height = if text.trim().is_empty() { None } else { Some(self.record_mm(&text)?) };
                }
                // The same for the car of the set-up, so that one answer is of one car.
                let car = OnThisCar { arches_mm: heights_mm, ..self.answer.arrangement.on_this_car.clone() };
                let follows =
                    (!page.parts.all().is_empty()).then_some(Command::Bay(OfBay::Edit(Edit::OnThisCar(car))));
                Ok(enter(What::RideHeights { heights_mm }).into_iter().chain(follows).collect())
            }
            BoxOf::Tape(from, to) => {
                let read_mm = if nothing { None } else { Some(self.record_mm(text)?) };
                let taken = page.taken();
                // What was taken away in the set-up stays read in the record.
                let read = read_mm.map(|read_mm| {
                    let taped =
                        MarkTaped { from: from.clone(), to: to.clone(), read_mm, taken: taken.clone() };
                    enter(reads::reading(&self.answer.judged.aiming.id, &taped, self.shop.instruments()))
                });
                let edit = Edit::Tape { from: from.clone(), to: to.clone(), read_mm, taken };
                Ok(read.into_iter().flatten().chain([Command::Bay(OfBay::Edit(edit))]).collect())
            }
            BoxOf::Page(PageBox::ToeLeft | PageBox::ToeRight | PageBox::SetBack) => {
                self.alignment_typed(page)
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
            BoxOf::Page(_) => Ok(Vec::new()),
        }
    }

    /// The alignment sheet as it is typed, and the same for the car of the set-up, so that one answer is of one car.
    fn alignment_typed(&self, page: &RecordPage) -> Taken {
        let boxes = self.boxes(page);
        let text = |of: PageBox| {
            boxes
                .iter()
                .find(|own| own.of == BoxOf::Page(of))
                .map(|own| page.text_of(own))
                .unwrap_or_default()
        };
        let toe = |of: PageBox| match text(of).trim() {
            "" => Ok(None),
            text => self.record_degrees(text).map(|own| Some(angle::radians(own))),
        };
        let rear_toe = RearToe { left_rad: toe(PageBox::ToeLeft)?, right_rad: toe(PageBox::ToeRight)? };
        let back = text(PageBox::SetBack);
        let set_back_mm = if back.trim().is_empty() { None } else { Some(self.record_mm(&back)?) };
        let what = What::Alignment(AlignmentSheet { rear_toe, set_back_mm, taken: None });
        let mut out = vec![Command::Record(super::OfRecord::Enter(vec![what]))];
        if !page.parts.all().is_empty() {
            let mut car = self.answer.arrangement.on_this_car.clone();
            car.take_signed(rear_toe, set_back_mm);
            out.push(Command::Bay(OfBay::Edit(Edit::OnThisCar(car))));
        }
        Ok(out)
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
