//! Which file to open, where to save.

use std::path::PathBuf;

use egui::{Key, RichText, TextEdit, Ui};

use crate::screen::command::{Command, OfFile};
use crate::screen::look::size;
use crate::screen::page::{OpenPage, SavePage};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn open_page(&self, ui: &mut Ui, page: &mut OpenPage, out: &mut Vec<Command>) {
        let texts = self.texts();
        let entered = path_field(ui, texts.path_of_layout, &mut page.path, &mut page.focus);
        ui.horizontal(|ui| {
            let typed = !page.path.trim().is_empty();
            let open =
                ui.add_enabled_ui(typed, |ui| widgets::press(ui, self.view.theme, texts.open_it)).inner;
            if typed && (open.clicked() || entered) {
                out.push(Command::File(OfFile::Open(PathBuf::from(page.path.trim()))));
            }
            if ui.add_enabled(!self.files.is_open(), egui::Button::new(texts.look_for_it)).clicked() {
                out.push(Command::File(OfFile::AskOpen));
            }
        });
        said(ui, &page.faults);
        ui.add_space(8.0);
        self.recent(ui, out, |ui, name, _| ui.button(name));
        let beside =
            self.bays_folder().map(|folder| baywright_files::layouts_in(&folder)).unwrap_or_default();
        if !beside.is_empty() {
            ui.label(widgets::soft(ui, texts.in_this_folder));
            for path in beside {
                let name =
                    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
                if ui.button(name).clicked() {
                    out.push(Command::File(OfFile::Open(path)));
                }
            }
            ui.add_space(8.0);
        }
        ui.label(widgets::soft(ui, texts.built_in));
        ui.horizontal_wrapped(|ui| {
            for built_in in baywright_files::EMBEDDED_LAYOUTS {
                if ui.button(built_in.title()).clicked() {
                    out.push(Command::File(OfFile::Open(PathBuf::from(built_in.name))));
                }
            }
        });
    }

    pub(super) fn save_page(&self, ui: &mut Ui, page: &mut SavePage, out: &mut Vec<Command>) {
        let texts = self.texts();
        let entered = path_field(ui, texts.path_to_save, &mut page.path, &mut page.focus);
        ui.horizontal(|ui| {
            let typed = !page.path.trim().is_empty();
            let save = ui.add_enabled_ui(typed, |ui| widgets::press(ui, self.view.theme, texts.save)).inner;
            if typed && (save.clicked() || entered) {
                let path = PathBuf::from(page.path.trim());
                // Saving where it lies asks as "save" does, not whether the file may be replaced.
                let own = self.document().path() == Some(path.as_path());
                out.push(if own {
                    Command::File(OfFile::Save)
                } else {
                    Command::File(OfFile::SaveAs(path, false))
                });
            }
            if ui.add_enabled(!self.files.is_open(), egui::Button::new(texts.look_for_place)).clicked() {
                out.push(Command::File(OfFile::AskSave));
            }
        });
        said(ui, &page.faults);
    }
}

/// A field for a path; whether Enter was pressed in it.
fn path_field(ui: &mut Ui, name: &str, path: &mut String, focus: &mut bool) -> bool {
    let label = ui.label(widgets::soft(ui, name));
    let response = ui.add(TextEdit::singleline(path).desired_width(f32::INFINITY)).labelled_by(label.id);
    if std::mem::take(focus) {
        response.request_focus();
    }
    response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter))
}

/// What was wrong, a sentence each.
fn said(ui: &mut Ui, faults: &[String]) {
    let colour = ui.visuals().error_fg_color;
    for fault in faults {
        ui.add(egui::Label::new(RichText::new(fault).size(size::SMALL).color(colour)).wrap());
    }
}
