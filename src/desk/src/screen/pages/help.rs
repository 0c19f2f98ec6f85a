//! First steps and help.

use baywright_planner::words::help::Section;
use egui::{Grid, Label, RichText, Ui};

use crate::screen::command::Command;
use crate::screen::look::{self, size};
use crate::screen::page::Page;
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn first_steps(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        sections(ui, self.view.locale.language.help().first_steps);
        if widgets::press(ui, self.view.theme, self.texts().begin).clicked() {
            out.push(Command::Page(None));
        }
    }

    pub(super) fn help(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        ui.horizontal_wrapped(|ui| {
            if widgets::lesser(ui, texts.first_steps).clicked() {
                out.push(Command::Page(Some(Page::FirstSteps)));
            }
            if widgets::lesser(ui, texts.licences).clicked() {
                out.push(Command::Page(Some(Page::Licences)));
            }
            if widgets::lesser(ui, texts.copy_diagnostics).on_hover_text(texts.diagnostics_why).clicked() {
                out.push(Command::CopyDiagnostics);
            }
        });
        ui.add_space(6.0);
        ui.label(RichText::new(texts.keys).font(look::bold(size::LEAD)));
        Grid::new("keys").num_columns(2).spacing([18.0, 4.0]).show(ui, |ui| {
            for (keys, does) in self.view.locale.language.help().keys {
                ui.label(RichText::new(*keys).font(look::bold(size::BODY)));
                ui.add(Label::new(*does).wrap());
                ui.end_row();
            }
        });
        ui.add_space(8.0);
        sections(ui, self.view.locale.language.help().sections);
    }
}

fn sections(ui: &mut Ui, sections: &[Section]) {
    for (title, lines) in sections {
        ui.label(RichText::new(*title).font(look::bold(size::LEAD)));
        for line in *lines {
            ui.add(Label::new(*line).wrap());
        }
        ui.add_space(8.0);
    }
}
