//! In which bay of a hall a set-up is made, and which others are kept empty for it.

use baywright_planner::edit::Edit;
use baywright_planner::model::validate::limits;
use baywright_planner::model::{Id, SavedArrangement};
use baywright_planner::words::sentence_start;
use egui::Ui;

use super::field::Fields;
use super::rows::choice;
use crate::screen::command::{Command, OfBay};
use crate::screen::{Desk, widgets};

impl Desk {
    /// In the form of the car: the bay that the set-up is made in, and which others are kept empty meanwhile.
    pub(in crate::screen) fn hall_rows(&self, ui: &mut Ui, fields: &mut Fields, out: &mut Vec<Command>) {
        let bays = &self.answer.arrangement.bay.bays;
        let Some(saved) = self.document.saved_arrangement().filter(|_| !bays.is_empty()) else { return };
        let texts = self.view.locale.language.rooms();
        let before = saved.in_bay.clone();
        let named = |own: &Option<Id>| {
            own.as_ref().map_or_else(|| texts.no_bay.to_owned(), |own| sentence_start(own.as_str()))
        };
        let all: Vec<Option<Id>> = bays.iter().map(|own| Some(own.id.clone())).chain([None]).collect();
        if let Some(now) = choice(ui, fields, texts.hall_bay_of, &before, &all, named) {
            out.push(choose(now, saved.kept_empty.clone()));
        }
        let others = || bays.iter().filter(|own| Some(&own.id) != before.as_ref());
        if others().next().is_some() {
            ui.label(widgets::soft(ui, texts.keep_empty_of));
        }
        for own in others() {
            self.keep_empty(ui, saved, &own.id, &sentence_start(own.id.as_str()), out);
        }
        self.at_once_rows(ui, saved, out);
    }

    /// Ticks: which set-ups in other bays are done at the same time. A tick is one step, and counts in both.
    fn at_once_rows(&self, ui: &mut Ui, saved: &SavedArrangement, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        let layout = self.document.layout();
        let now: Vec<Id> = layout.at_once(saved).map(|own| own.id.clone()).collect();
        let offered =
            layout.may_be_at_once(saved).filter(|own| own.in_bay.is_some() || now.contains(&own.id));
        for (i, own) in offered.enumerate() {
            if i == 0 {
                ui.label(widgets::soft(ui, texts.at_once_of));
            }
            let bay = own.in_bay.as_ref().map_or(texts.no_bay, Id::as_str);
            let label = widgets::soft(ui, texts.at_once(own.id.as_str(), bay));
            let mut is_now = now.contains(&own.id);
            let is_full = now.len() >= limits::MOST_AT_ONCE && !is_now;
            let tick = ui.add_enabled(!is_full, egui::Checkbox::new(&mut is_now, label));
            if tick.on_hover_text(texts.at_once_why).changed() {
                let mut all = now.clone();
                all.retain(|id| *id != own.id);
                all.extend(is_now.then(|| own.id.clone()));
                out.push(Command::Bay(OfBay::Edit(Edit::AtOnce(all))));
            }
        }
    }

    /// In the form of a thing that stands there for another set-up: whose it is, and the way to that.
    pub(in crate::screen) fn of_other_set_up(&self, ui: &mut Ui, set_up: &Id, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        ui.add(egui::Label::new(widgets::soft(ui, texts.stands_for(set_up.as_str()))).wrap());
        if widgets::lesser(ui, texts.show_set_up).clicked() {
            out.push(Command::Bay(OfBay::Show(set_up.clone())));
        }
    }

    /// A tick: whether a bay is kept empty for the shown set-up.
    fn keep_empty(
        &self,
        ui: &mut Ui,
        saved: &SavedArrangement,
        bay: &Id,
        label: &str,
        out: &mut Vec<Command>,
    ) {
        let mut kept = saved.kept_empty.contains(bay);
        if ui.checkbox(&mut kept, widgets::soft(ui, label)).changed() {
            let mut now = saved.kept_empty.clone();
            now.retain(|own| own != bay);
            now.extend(kept.then(|| bay.clone()));
            out.push(choose(saved.in_bay.clone(), now));
        }
    }

    /// In the form of a bay: whether the shown set-up is made in it or keeps it empty, what else is set up there, and the way to
    /// another.
    pub(in crate::screen) fn of_hall_bay(&self, ui: &mut Ui, bay: &Id, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        let Some(saved) = self.document.saved_arrangement() else { return };
        let mut is_own = saved.in_bay.as_ref() == Some(bay);
        if ui.checkbox(&mut is_own, widgets::soft(ui, texts.made_in_it)).changed() {
            let mut kept = saved.kept_empty.clone();
            kept.retain(|own| own != bay);
            out.push(choose(is_own.then(|| bay.clone()), kept));
        }
        if saved.in_bay.as_ref() != Some(bay) {
            self.keep_empty(ui, saved, bay, texts.keep_empty, out);
        }
        let others = || self.made_in(bay).filter(|own| own.id != saved.id);
        if others().next().is_some() {
            ui.label(widgets::soft(ui, texts.made_here));
        }
        for own in others() {
            if widgets::link(ui, self.view.theme, own.id.as_str()).clicked() {
                out.push(Command::Bay(OfBay::Show(own.id.clone())));
            }
        }
        if self.document.draft().is_none() {
            let press = widgets::lesser(ui, texts.set_up_in(bay.as_str()));
            if press.on_hover_text(texts.set_up_in_why).clicked() {
                out.push(Command::Bay(OfBay::SetUpIn(bay.clone())));
            }
        }
        ui.add_space(4.0);
    }
}

fn choose(bay: Option<Id>, kept_empty: Vec<Id>) -> Command {
    Command::Bay(OfBay::Edit(Edit::InBay { bay, kept_empty }))
}
