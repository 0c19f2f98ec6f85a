//! What is told on each side of the page, before its boxes and choices and after them.

use baywright_planner::model::record::{StepKind, What};
use baywright_planner::record::{Caution, Holds, Must, Task, VisitStep, lacks, place_of};
use baywright_planner::words::Words;
use baywright_planner::{Severity, geometry::angle};
use egui::{Label, RichText, Stroke, Ui};

use super::head::HASH_BEGINS;
use super::seen::{LARGE, TITLE, USUAL};
use super::{OfRecord, RecordPage, Side};
use crate::screen::command::Command;
use crate::screen::{Desk, look, widgets};
use crate::session::visit_record::{NotWritten, Shut};

impl Desk {
    /// What is told before the boxes.
    pub(super) fn record_told(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        match &page.side {
            Side::Records => {
                self.record_title(ui, texts.these);
                if self.document.path().is_none() {
                    self.plain_line(ui, texts.no_place);
                } else if page.listed.is_empty() {
                    self.plain_line(ui, texts.none_yet);
                }
            }
            Side::Begin => self.record_title(ui, texts.begin_new),
            Side::Step => {
                if let Some(step) = page.step() {
                    self.step_told(ui, page, step);
                }
            }
            Side::More => self.record_title(ui, texts.more),
            Side::WhyNot => {
                self.record_title(ui, texts.not_applicable);
                self.plain_line(ui, texts.why);
            }
            Side::LeftOut => {
                self.record_title(ui, texts.left_out);
                self.plain_line(ui, texts.why);
            }
            Side::Although(role) => self.signs_although(ui, page, role),
            Side::Findings => {
                self.record_title(ui, texts.findings);
                if self.found(page).is_empty() {
                    self.plain_line(ui, texts.no_findings);
                }
            }
            Side::Accept(aiming, nth) => {
                self.record_title(ui, texts.findings);
                let found = self.found(page).into_iter().find(|own| own.aiming == *aiming && own.nth == *nth);
                if let Some(own) = found {
                    self.plain_line(ui, &own.sentence);
                }
                self.record_heading(ui, texts.accept);
            }
            Side::Papers => {
                self.record_title(ui, texts.papers);
                self.attached(ui, page, out);
            }
            Side::Withdraw(_) => {
                self.record_title(ui, texts.withdraw);
                self.plain_line(ui, texts.why);
            }
            Side::Strike(nth) => {
                self.record_title(ui, texts.strike);
                if let Some(own) = page.in_hand.as_ref() {
                    let own = own.record();
                    if let Some(entry) = own.entries.get(*nth) {
                        let said =
                            self.view.locale.language.record().entry(self.view.locale, &own.begun, entry);
                        self.plain_line(ui, &said);
                    }
                }
                self.plain_line(ui, texts.why);
            }
            Side::WholeVisit => self.whole_visit(ui, page),
            Side::Entries => self.record_entries(ui, page, out),
            Side::Who => self.record_title(ui, texts.somebody_else),
            Side::Close => self.still_missing(ui, page),
            Side::Reopen => {
                self.record_title(ui, texts.reopen);
                self.plain_line(ui, texts.why);
            }
        }
    }

    /// What is told after the choices.
    pub(super) fn record_after_choices(&self, ui: &mut Ui, page: &RecordPage, _: &mut Vec<Command>) {
        let Some(step) = page.step().filter(|_| page.side == Side::Step) else { return };
        if step.id.kind == StepKind::CheckDistances {
            self.proven_told(ui, page);
        }
        if step.id.kind == StepKind::Alignment {
            self.alignment_told(ui, page, step);
        }
        self.open_told(ui, page, step);
    }

    fn record_title(&self, ui: &mut Ui, text: &str) {
        ui.add(Label::new(RichText::new(text).font(look::bold(TITLE))).wrap());
    }

    fn plain_line(&self, ui: &mut Ui, text: &str) {
        ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(LARGE)).wrap());
    }

    fn coloured(&self, ui: &mut Ui, text: &str, colour: egui::Color32) {
        let text = RichText::new(widgets::unbroken(text)).font(look::bold(LARGE)).color(colour);
        ui.add(Label::new(text).wrap());
    }

    /// A step: what to have, what to do, what to mind.
    fn step_told(&self, ui: &mut Ui, page: &RecordPage, step: &VisitStep) {
        let texts = self.view.locale.language.record_page();
        let record = self.view.locale.language.record();
        self.shut_told(ui, page);
        if page.parts.all().is_empty() {
            self.plain_line(ui, texts.other_set_up);
        }
        if step.id.kind == StepKind::Park {
            self.other_place(ui, page, step);
        }
        if !step.needs.is_empty() {
            self.record_heading(ui, texts.have);
            for need in &step.needs {
                self.large_line(ui, &record.need(need));
            }
        }
        if !step.tasks.is_empty() {
            self.record_heading(ui, texts.to_do);
            let part = step.id.aiming.as_ref().and_then(|own| page.parts.part(own));
            for task in &step.tasks {
                let said = match part {
                    Some(own) => {
                        Words::new(&own.arrangement, self.view.locale).visit_task(task, &own.assessment)
                    }
                    None => record.task(self.view.locale, task),
                };
                self.large_line(ui, &said);
            }
            if let Some(own) = part.filter(|_| step.id.kind == StepKind::Marks) {
                let words = Words::new(&own.arrangement, self.view.locale);
                for index in 0..own.arrangement.aiming.mark_plan.len() {
                    self.large_line(ui, &words.instruction(index, &own.assessment.scene));
                }
            }
        }
        self.cautions(ui, &step.cautions);
    }

    /// Where the car is parked for the step, if that is elsewhere than in the set-up, and what saying so does.
    fn other_place(&self, ui: &mut Ui, page: &RecordPage, step: &VisitStep) {
        let texts = self.view.locale.language.record_page();
        let Some((in_hand, aiming)) = page.in_hand.as_ref().zip(step.id.aiming.as_ref()) else { return };
        let (record, begun) = (self.view.locale.language.record(), &in_hand.record().begun);
        if let Some(held) = Holds::of(in_hand.record()).parked(aiming) {
            self.plain_line(ui, &record.entry(self.view.locale, begun, held.entry));
        } else if let Some((place, answer)) = page.parts.answer().and_then(|own| place_of(own, aiming)) {
            let told = self.words().visit_place(begun, place, answer);
            if let Some(first) = told.first() {
                self.coloured(ui, first, ui.visuals().text_color());
            }
            self.plain_line(ui, texts.what_standing_does);
        }
    }

    /// What lacks, before somebody signs all the same.
    fn signs_although(&self, ui: &mut Ui, page: &RecordPage, role: &str) {
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        self.record_title(ui, &texts.sign_as(role, &page.by));
        let Some(in_hand) = &page.in_hand else { return };
        let missing = self.lacking(page);
        self.plain_line(ui, &texts.still_missing(missing.len()));
        for lack in &missing {
            self.large_line(ui, &record.lack(&in_hand.record().begun, lack));
        }
        self.record_heading(ui, texts.signs_because);
    }

    /// What a step must have and has not.
    fn open_told(&self, ui: &mut Ui, page: &RecordPage, step: &VisitStep) {
        let record = self.view.locale.language.record();
        if step.open.is_empty() || !self.can_enter(page) {
            return;
        }
        // What Enter itself enters is no question.
        let survey = page.parts.all().first().and_then(|own| own.arrangement.bay.survey.as_ref());
        let is_dated = survey.is_some_and(|own| own.taken.is_some());
        let is_proven = page.parts.proof().is_some_and(|own| own.read() > 0);
        let by_enter = |own: &&Must| match own {
            Must::Survey => is_dated,
            Must::Decided => is_proven,
            _ => false,
        };
        let all: Vec<String> =
            step.open.iter().filter(|own| !by_enter(own)).map(|own| record.must(own)).collect();
        if all.is_empty() {
            return;
        }
        let said = self.view.locale.language.record_page().not_done_without(&all.join("; "));
        ui.add(Label::new(widgets::soft(ui, said)).wrap());
    }

    /// The cautions, each behind a bar of its colour.
    fn cautions(&self, ui: &mut Ui, cautions: &[Caution]) {
        if cautions.is_empty() {
            return;
        }
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        self.record_heading(ui, texts.mind);
        let care = look::colour(self.view.theme.palette().care);
        let inner = ui.horizontal_top(|ui| {
            ui.add_space(14.0);
            ui.vertical(|ui| {
                for own in cautions {
                    ui.add(
                        Label::new(RichText::new(record.caution(*own)).font(look::bold(USUAL + 1.0))).wrap(),
                    );
                }
            });
        });
        let place = inner.response.rect;
        ui.painter().vline(place.left() + 4.0, place.y_range(), Stroke::new(4.0, care));
    }

    /// Why nothing more is entered, if so.
    fn shut_told(&self, ui: &mut Ui, page: &RecordPage) {
        let texts = self.view.locale.language.record_page();
        let Some(own) = &page.in_hand else { return };
        let stops = look::colour(self.view.theme.palette().stops);
        match own.shut() {
            Some(Shut::Elsewhere) => self.coloured(ui, texts.in_other_window, stops),
            Some(Shut::ChangedOnDisk) => self.coloured(ui, texts.changed_on_disk, stops),
            Some(Shut::Changed(entry)) => {
                self.coloured(ui, &texts.was_changed(entry.map(|own| own + 1)), stops);
            }
            None if Holds::of(own.record()).is_closed() => self.coloured(ui, texts.is_closed, stops),
            None => {}
        }
        if let Some(NotWritten::Faults(faults)) = own.trouble() {
            self.coloured(ui, &texts.not_saved(&self.first_sentence(faults)), stops);
        }
    }

    /// What the marks prove so far, and what to tape next.
    fn proven_told(&self, ui: &mut Ui, page: &RecordPage) {
        use baywright_planner::proof::{Doubt, NextTape, Said};
        let Some(proof) = page.parts.proof() else { return };
        let (words, palette) = (self.words(), self.view.theme.palette());
        let texts = self.view.locale.language.record_page();
        for figure in &proof.figures {
            let colour = match figure.said {
                Said::Inside { .. } => palette.ready,
                Said::Outside { .. } => palette.stops,
                Said::CannotSay { .. } | Said::NoFigure => palette.care,
            };
            self.coloured(ui, &words.laid(figure), look::colour(colour));
        }
        if let Some(doubt) = words.doubt(&proof.doubt) {
            self.coloured(ui, &doubt, look::colour(palette.care));
        }
        if !matches!(proof.next, NextTape::Again { .. }) || matches!(proof.doubt, Doubt::CannotTell(_)) {
            self.plain_line(ui, &words.next_tape(&proof.next));
        }
        if proof.next == NextTape::Enough {
            self.plain_line(ui, texts.enough);
        }
        let says = self.view.locale.language.proof().says_nothing_of_sensor;
        ui.add(Label::new(widgets::soft(ui, says)).wrap());
    }

    /// The alignment sheet against what the procedures allow, and what of it is not used.
    fn alignment_told(&self, ui: &mut Ui, page: &RecordPage, step: &VisitStep) {
        let (texts, locale) = (self.view.locale.language.record_page(), self.view.locale);
        let palette = self.view.theme.palette();
        let car = self.record_car(page, step);
        let own = locale.language.this_car();
        if !car.sheet_to_type().open().is_empty() {
            self.coloured(ui, own.say_way, look::colour(palette.care));
        }
        let thrust = car.thrust_rad();
        for task in &step.tasks {
            let Task::AlignmentLimits { thrust_rad, set_back_mm } = task else { continue };
            if let Some((own, most)) = thrust.zip(*thrust_rad).filter(|(own, most)| own.abs() > *most) {
                let said = |rad: f64| locale.region.degrees_to_type(angle::degrees(rad));
                self.coloured(ui, &texts.thrust_beyond(&said(own), &said(most)), look::colour(palette.stops));
            }
            let track = page.parts.all().first().map_or(0.0, |own| own.arrangement.vehicle.track_front_mm);
            let back = car.sheet_to_type().set_back_mm(track);
            let back = back.zip(*set_back_mm).filter(|(own, most)| own.abs() > *most);
            if let Some((own, most)) = back {
                let said = texts.set_back_beyond(&locale.length(own), &locale.length(most));
                self.coloured(ui, &said, look::colour(palette.stops));
            }
        }
    }

    /// What is attached, with the hash's first digits.
    fn attached(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        ui.label(widgets::soft(ui, texts.drop_here));
        let Some(in_hand) = &page.in_hand else { return };
        let all = Holds::of(in_hand.record()).attachments();
        if all.is_empty() {
            self.plain_line(ui, texts.no_papers);
        }
        for own in all {
            let begins: String = own.what.sha256.chars().take(HASH_BEGINS).collect();
            ui.add(Label::new(RichText::new(&own.what.file).font(look::bold(LARGE))).wrap());
            ui.horizontal_wrapped(|ui| {
                ui.label(widgets::soft(ui, record.attachment_kind(own.what.kind)));
                ui.label(widgets::soft(ui, texts.head_begins(&begins))).on_hover_text(&own.what.sha256);
                let at = record.clock(self.view.locale, own.entry.at);
                ui.label(widgets::soft(ui, at));
                ui.label(widgets::soft(ui, own.entry.by.as_str()));
                let name = self.texts().of(texts.withdraw, &own.what.file);
                if self.can_enter(page) && widgets::lesser(ui, texts.withdraw).accessible_name(name).clicked()
                {
                    out.push(Command::Record(OfRecord::Side(Side::Withdraw(own.what.sha256.clone()))));
                }
            });
        }
    }

    /// The one answer for the whole visit.
    fn whole_visit(&self, ui: &mut Ui, page: &RecordPage) {
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        self.record_title(ui, texts.whole_visit);
        let Some((answer, in_hand)) = page.parts.answer().zip(page.in_hand.as_ref()) else {
            let said = if page.parts.all().is_empty() { texts.other_set_up } else { texts.is_worked_out };
            self.plain_line(ui, said);
            return;
        };
        let (words, begun) = (self.words(), &in_hand.record().begun);
        self.plain_line(ui, &record.visit_answer(answer));
        if answer.is_regrouped {
            self.plain_line(ui, record.regrouped());
        }
        for (at, place) in answer.places.iter().enumerate() {
            let mut lines = words.visit_place(begun, at + 1, place).into_iter();
            if let Some(first) = lines.next() {
                ui.add_space(6.0);
                ui.add(Label::new(RichText::new(widgets::unbroken(first)).font(look::bold(LARGE))).wrap());
            }
            for line in lines {
                self.large_line(ui, &line);
            }
        }
        if !answer.no_way.is_empty() {
            let names: Vec<String> =
                answer.no_way.iter().map(|own| record.aiming(begun, own).to_owned()).collect();
            self.coloured(ui, &record.no_way(&names), look::colour(self.view.theme.palette().stops));
        }
        ui.add_space(8.0);
        ui.add(Label::new(widgets::soft(ui, record.says_nothing_of_sensor)).wrap());
    }

    /// What was entered, the last first.
    fn record_entries(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        self.record_title(ui, texts.entries);
        let Some(in_hand) = &page.in_hand else { return };
        let own = in_hand.record();
        let holds = Holds::of(own);
        let counted: Vec<usize> = holds.entries().into_iter().map(|(nth, _)| nth).collect();
        for (nth, entry) in own.entries.iter().enumerate().rev() {
            let counts = counted.binary_search(&nth).is_ok();
            ui.horizontal_wrapped(|ui| {
                let name = texts.nth_entry(nth + 1);
                ui.label(widgets::soft(ui, name.as_str()));
                ui.label(widgets::soft(ui, record.clock(self.view.locale, entry.at)));
                ui.label(widgets::soft(ui, entry.by.as_str()));
                if !counts {
                    ui.label(widgets::soft(ui, texts.struck_out));
                } else if entry.what.can_be_struck() && self.can_enter(page) {
                    let press = widgets::lesser(ui, texts.strike);
                    if press.accessible_name(self.texts().of(texts.strike, &name)).clicked() {
                        out.push(Command::Record(OfRecord::Side(Side::Strike(nth))));
                    }
                }
            });
            let said = record.entry(self.view.locale, &own.begun, entry);
            let said = RichText::new(widgets::unbroken(said)).size(USUAL);
            ui.add(Label::new(if counts { said } else { said.strikethrough() }).wrap());
        }
    }

    /// What is still missing, and what stands for the record on paper.
    fn still_missing(&self, ui: &mut Ui, page: &RecordPage) {
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        self.record_title(ui, texts.close);
        let Some(in_hand) = &page.in_hand else { return };
        let own = in_hand.record();
        if Holds::of(own).is_closed() {
            self.plain_line(ui, texts.is_closed);
        }
        let missing = lacks(own, page.parts.steps(), &page.parts.parts());
        self.plain_line(ui, &texts.still_missing(missing.len()));
        for lack in &missing {
            self.large_line(ui, &record.lack(&own.begun, lack));
        }
        let open = self.found(page);
        for own in open.iter().filter(|own| own.accepted.is_none()) {
            let colour = match own.severity {
                Severity::Stops => self.view.theme.palette().stops,
                Severity::Care | Severity::Note => self.view.theme.palette().care,
            };
            self.coloured(ui, &own.sentence, look::colour(colour));
        }
        for own in own.entries.iter().filter(|own| matches!(own.what, What::Signed { .. })) {
            let said = record.entry(self.view.locale, &in_hand.record().begun, own);
            let at = record.clock(self.view.locale, own.at);
            ui.add(Label::new(widgets::soft(ui, said)).wrap());
            ui.horizontal_wrapped(|ui| {
                ui.label(widgets::soft(ui, at));
                ui.label(widgets::soft(ui, own.by.as_str()));
            });
        }
        self.record_heading(ui, record.head);
        ui.add(Label::new(RichText::new(in_hand.head()).size(USUAL)).wrap());
        ui.add(Label::new(widgets::soft(ui, record.shows_an_edit)).wrap());
        ui.add(Label::new(widgets::soft(ui, record.says_nothing_of_sensor)).wrap());
    }
}
