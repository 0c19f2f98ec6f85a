//! Whose building is changed: the bay's, or the shown arrangement's own; the sign of it, and the ways from one to the other.

use baywright_planner::difference::{Difference, of_own_building};
use baywright_planner::edit::Edit;
use baywright_planner::words::Words;
use egui::{Label, RichText, Ui};

use super::command::{Command, OfBay};
use super::look::size;
use super::{Desk, widgets};

/// More differences than this are counted, not listed.
const MOST_LINES: usize = 30;

impl Desk {
    /// Whether the shown arrangement has a building of its own.
    pub(super) fn has_own_building(&self) -> bool {
        self.document.saved_arrangement().is_some_and(|own| own.building.is_some())
    }

    /// What can be done about the building: name, explanation, command.
    fn building_ways(&self) -> Vec<(&'static str, &'static str, OfBay)> {
        let texts = self.view.locale.language.rooms();
        if self.has_own_building() {
            vec![
                (texts.give_up_building, texts.give_up_building_why, OfBay::Edit(Edit::GiveUpBuilding)),
                (texts.adopt_building, texts.adopt_building_why, OfBay::AdoptBuilding),
            ]
        } else {
            vec![(texts.plan_building, texts.plan_building_why, OfBay::Edit(Edit::PlanBuilding))]
        }
    }

    /// The ways as entries of a menu.
    pub(super) fn building_menu(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        for (name, why, asked) in self.building_ways() {
            if ui.button(name).on_hover_text(why).clicked() {
                out.push(Command::Bay(asked));
            }
        }
    }

    /// Above a form that changes the building: whose it is; of its own, the ways out of it, too.
    pub(super) fn whose_building(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        let any_has = self.document.layout().arrangements.iter().any(|own| own.building.is_some());
        let whose = match (self.has_own_building(), any_has) {
            (true, _) => texts.changes_own,
            (false, true) => texts.changes_bays,
            (false, false) => texts.changes_all,
        };
        ui.add(Label::new(widgets::soft(ui, whose)).wrap());
        if self.has_own_building() {
            self.building_links(ui, out);
        }
        ui.add_space(4.0);
    }

    /// Below a form that changes the bay's: the way to a building of its own.
    pub(super) fn way_to_own_building(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        if !self.has_own_building() {
            ui.add_space(4.0);
            self.building_links(ui, out);
        }
    }

    fn building_links(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        for (name, why, asked) in self.building_ways() {
            if widgets::link(ui, self.view.theme, name).on_hover_text(why).clicked() {
                out.push(Command::Bay(asked));
            }
        }
    }

    /// How the shown arrangement's own building differs from the bay's; nothing where it has none.
    pub(super) fn building_differs(&self, ui: &mut Ui) {
        let Some(all) = of_own_building(self.document.layout(), self.document.shown()) else { return };
        let words = self.words();
        ui.add(Label::new(widgets::soft(ui, words.own_building_differs(all.len()))).wrap());
        difference_lines(ui, &words, &all);
        ui.add_space(4.0);
    }
}

/// One line for each difference, as many as can be read.
pub(super) fn difference_lines(ui: &mut Ui, words: &Words<'_>, all: &[Difference]) {
    for own in all.iter().take(MOST_LINES) {
        ui.add(Label::new(RichText::new(widgets::unbroken(words.difference(own))).size(size::SMALL)).wrap());
    }
    if all.len() > MOST_LINES {
        ui.label(widgets::soft(ui, words.key_more(all.len() - MOST_LINES)));
    }
}
