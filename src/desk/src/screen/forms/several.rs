//! What can be done with several things in hand.

use baywright_planner::hand::Order;
use baywright_planner::words::sentence_start;
use egui::{RichText, Ui};

use crate::screen::command::{Command, OfBay};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    /// Their names, and orders into which they can be put.
    pub(in crate::screen) fn several_form(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.hand();
        let words = self.words();
        let names: Vec<String> = self.view.chosen().map(|own| words.bare_subject(own)).collect();
        ui.label(RichText::new(texts.several(names.len())).font(look::bold(size::BODY)));
        ui.add(egui::Label::new(widgets::soft(ui, sentence_start(&names.join(", ")))).wrap());
        ui.add_space(4.0);
        ui.label(RichText::new(texts.line_up).font(look::bold(size::SMALL)));
        let arrange = |ui: &mut Ui, order: Order, why: &str, out: &mut Vec<Command>| {
            let name = texts.order(order);
            let text = RichText::new(name).size(size::SMALL);
            let enough = order != Order::SpacedOut || names.len() > 2;
            let response = ui.add_enabled(enough, egui::Button::new(text));
            let response = if why.is_empty() { response } else { response.on_hover_text(why) };
            if response.clicked() {
                out.push(Command::Bay(OfBay::Arrange(order)));
            }
        };
        ui.horizontal_wrapped(|ui| {
            for order in
                [Order::Fronts, Order::Rears, Order::Lefts, Order::Rights, Order::AlongCar, Order::AcrossCar]
            {
                arrange(ui, order, "", out);
            }
        });
        ui.add(egui::Label::new(widgets::soft(ui, texts.by_the_car)).wrap());
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            arrange(ui, Order::SpacedOut, texts.spaced_out_why, out);
            arrange(ui, Order::Row, texts.row_why, out);
        });
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            let (copy, remove) = (self.texts().copy, self.texts().remove);
            if widgets::lesser(ui, copy).on_hover_text(self.texts().copy_why).clicked() {
                out.push(Command::Bay(OfBay::Copy));
            }
            let why = if self.things_in_hand().iter().any(|own| self.is_built_in(&own.id)) {
                self.view.locale.language.rooms().remove_built_of_several_why
            } else {
                self.texts().remove_why
            };
            if widgets::lesser(ui, remove).on_hover_text(why).clicked() {
                out.push(Command::Bay(OfBay::Remove));
            }
        });
    }
}
