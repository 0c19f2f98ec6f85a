//! By whom, with what and how warm the next readings are taken: said once above the boxes, kept with each reading.

use baywright_planner::model::{Id, MarkTaped, Taken, named};
use baywright_planner::proof::{Proof, warmth_of};
use egui::{Label, Ui};

use super::command::{Command, OfBay};
use super::forms::car::car_form::part;
use super::forms::field::{Fields, Row};
use super::forms::rows::choice;
use super::forms::typed;
use super::forms::which::NotRead;
use super::page::Page;
use super::{Desk, widgets};
use baywright_planner::edit::Edit;

impl Desk {
    /// How the next readings are taken: on one line, its fields folded away under it.
    pub(super) fn taken_by(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        taken: &mut Taken,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.instruments();
        let is_overdue = |name: &Id| {
            let list = self.shop.instruments();
            let day = self.document.today();
            named(list, name).zip(day).is_some_and(|(own, day)| own.overdue_on(day).is_some())
        };
        let mut line = self.words().next_taken(taken);
        if taken.with.as_ref().is_some_and(&is_overdue) {
            line = texts.overdue_beside(&line);
        }
        part(ui, &line, "taken by", false, |ui| {
            let row = |label, hint| Row { label, hint, of: "taken by" };
            let shown = taken.who.as_ref().map_or("", Id::as_str).to_owned();
            let name = |text: &str| {
                Ok::<_, NotRead>(Some(Id::from(text.trim())).filter(|own| !own.as_str().is_empty()))
            };
            if let Some(who) = fields.row(ui, &row(texts.taped_by, texts.taped_by_hint), &shown, name) {
                taken.who = who;
            }
            let read_with = self.shop.instruments().iter().filter(|own| own.kind.reads_distances());
            let mut all: Vec<Option<Id>> = vec![None];
            all.extend(read_with.map(|own| Some(own.name.clone())));
            // What was read with one that left the list since is called by its name still.
            if !all.contains(&taken.with) {
                all.push(taken.with.clone());
            }
            let said = |own: &Option<Id>| match own {
                None => texts.with_any.to_owned(),
                Some(own) if is_overdue(own) => texts.overdue_beside(own.as_str()),
                Some(own) => own.to_string(),
            };
            if let Some(with) = choice(ui, fields, texts.with, &taken.with, &all, said) {
                taken.with = with;
            }
            let shown = taken
                .temperature_c
                .map_or_else(String::new, |own| self.region().number(own, usize::from(own != own.round())));
            let celsius = |text: &str| match text.trim() {
                "" => Ok(None),
                text => typed::bare_number(text)
                    .filter(|own| Taken::TEMPERATURE.holds(*own))
                    .map(Some)
                    .ok_or_else(|| NotRead::Wrong(texts.no_temperature(text))),
            };
            if let Some(warm) = fields.row(ui, &row(texts.celsius, texts.celsius_hint), &shown, celsius) {
                taken.temperature_c = warm;
            }
            if self.shop.instruments().is_empty() && widgets::lesser(ui, texts.list_them).clicked() {
                out.push(Command::Page(Some(Page::Shop)));
            }
        });
    }

    /// The same with the time by the clock on the wall, to the second, on the day by which all is judged.
    pub(super) fn taken_now(&self, taken: &Taken) -> Taken {
        let now = crate::session::clock::now();
        let at = self.document.today().map_or(now, |day| day.to_datetime(now.time()));
        Taken { at: Some(at), ..taken.clone() }
    }

    /// How the reading between two marks was taken.
    pub(super) fn how_taken(&self, row: &baywright_planner::proof::Row) -> Option<String> {
        let judged = &self.answer.judged;
        let taped = judged.marks_taped.iter().find(|own: &&MarkTaped| own.is_between(&row.from, &row.to))?;
        self.words().taken(taped, warmth_of(judged, taped))
    }

    /// What two layings show, and the press that begins a second one.
    pub(super) fn laid_twice(&self, ui: &mut Ui, proof: &Proof, is_open: bool, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.instruments();
        if let Some(hand) = &proof.hand {
            ui.add(Label::new(widgets::soft(ui, self.words().hand(hand))).wrap());
        }
        if is_open
            && !self.answer.judged.marks_taped.is_empty()
            && widgets::lesser(ui, texts.lay_again).on_hover_text(texts.lay_again_why).clicked()
        {
            out.push(Command::Bay(OfBay::Edit(Edit::LayAgain)));
        }
    }
}
