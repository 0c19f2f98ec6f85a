//! Which figures of the answer are invented, and the way to where one's own are entered.

use egui::{Label, RichText, Ui};

use crate::screen::command::Command;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn examples_page(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        let words = self.words();
        let invented = self.answer().arrangement.examples();
        ui.add(Label::new(if invented.is_empty() { texts.no_examples } else { texts.examples_about }).wrap());
        for figures in invented {
            ui.add_space(8.0);
            let name = words.example(figures);
            ui.label(RichText::new(&name).font(look::bold(size::BODY)));
            ui.horizontal(|ui| {
                let enter = widgets::lesser(ui, texts.enter_own);
                if enter.accessible_name(texts.of(texts.enter_own, &name)).clicked() {
                    out.push(Command::EnterOwn(figures));
                }
            });
        }
    }
}
