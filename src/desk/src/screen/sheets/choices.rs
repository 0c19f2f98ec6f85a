//! What is chosen of what is printed: which sheets, on which paper; and where it is saved.

use std::path::PathBuf;

use baywright_drawing::sheet::{Sheet, Size};
use egui::{Align, Button, Layout, RichText, TextEdit, TextWrapMode, Ui};

use super::data::{As, Data};
use super::{DPI, OnPaperPage};
use crate::screen::command::{Command, OfFile, Over};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::printed::Format;

impl Desk {
    pub(super) fn choices(&self, ui: &mut Ui, page: &mut OnPaperPage, out: &mut Vec<Command>) {
        let language = self.view.locale.language;
        let texts = language.on_paper();
        ui.spacing_mut().item_spacing.y = 6.0;
        ui.horizontal(|ui| {
            let title = texts.title.trim_end_matches(['\u{2026}', ' ']);
            ui.label(RichText::new(title).font(look::bold(18.0)));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if widgets::lesser(ui, texts.leave).clicked() {
                    out.push(Command::Page(None));
                }
            });
        });
        heading(ui, texts.sheets);
        for kind in Sheet::ALL {
            let mut is_chosen = page.chosen.contains(&kind);
            if ui.checkbox(&mut is_chosen, RichText::new(kind.title(language)).size(size::BODY)).changed() {
                page.chosen.retain(|own| *own != kind);
                if is_chosen {
                    page.chosen.push(kind);
                }
                // In the order in which they are bound.
                page.chosen.sort_unstable();
            }
        }
        if self.proof_from().is_some() {
            let title = language.proof_file().title;
            ui.checkbox(&mut page.is_proof_chosen, RichText::new(title).size(size::BODY));
        }
        if self.has_report() {
            let title = language.owner_report().title;
            ui.checkbox(&mut page.is_report_chosen, RichText::new(title).size(size::BODY));
        }
        if page.chosen.contains(&Sheet::Findings) && self.was_otherwise() {
            ui.label(widgets::soft(ui, texts.before_now));
        }
        heading(ui, texts.paper);
        let mut paper = page.paper(self.view.locale.units);
        ui.horizontal_wrapped(|ui| {
            for own in Size::ALL {
                ui.selectable_value(&mut paper.size, own, own.name());
            }
        });
        ui.horizontal(|ui| {
            ui.selectable_value(&mut paper.is_landscape, false, texts.upright);
            ui.selectable_value(&mut paper.is_landscape, true, texts.level);
        });
        if paper != page.paper(self.view.locale.units) {
            page.paper = Some(paper);
        }
        let named = ui.label(widgets::soft(ui, texts.revision)).id;
        ui.add(TextEdit::singleline(&mut page.revision).char_limit(40).desired_width(f32::INFINITY))
            .labelled_by(named);
        ui.add_space(8.0);
        let can = self.can_print(page) && !page.writing.is_running();
        let print = ui.add_enabled_ui(can, |ui| widgets::press(ui, self.view.theme, texts.print)).inner;
        if print.on_hover_text(texts.print_why).clicked() {
            out.push(Command::File(OfFile::PrintSheets));
        }
        self.saving(ui, page, can, out);
        self.data(ui, page, out);
        if page.writing.is_running() {
            ui.label(widgets::soft(ui, texts.being_written));
        }
        if let Some(notice) = &self.view.notice {
            let colour = if notice.wrong { ui.visuals().error_fg_color } else { ui.visuals().text_color() };
            let said = RichText::new(widgets::unbroken(notice.text.as_str())).size(size::SMALL).color(colour);
            ui.add(egui::Label::new(said).wrap());
        }
    }

    /// Where it is saved.
    fn saving(&self, ui: &mut Ui, page: &mut OnPaperPage, can: bool, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.on_paper();
        heading(ui, texts.save_as);
        let mut to = page.to.clone().unwrap_or_else(|| self.suggested_sheets().display().to_string());
        let named = ui.add(egui::Label::new(widgets::soft(ui, texts.save_hint)).wrap()).id;
        let field = ui.add(TextEdit::singleline(&mut to).desired_width(f32::INFINITY)).labelled_by(named);
        if field.changed() {
            page.to = Some(to.clone());
            page.refused = None;
        }
        let path = PathBuf::from(to.trim());
        let saved_as = As::of_ending(&path, page);
        if matches!(saved_as, Some(As::Pages(Format::Png(_)))) {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.dpi));
                for own in DPI {
                    ui.selectable_value(&mut page.dpi, own, own.to_string());
                }
            });
        }
        // What is no pages needs none.
        let can = match saved_as {
            Some(As::Data(data)) => self.can_save_data(page, data),
            _ => can,
        };
        ui.horizontal(|ui| {
            let save = ui.add_enabled_ui(can, |ui| widgets::lesser(ui, texts.save)).inner;
            let entered = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
            if can && (save.clicked() || entered) {
                out.push(Command::File(OfFile::SaveSheets(path.clone(), Over::Nothing)));
            }
            let look = ui
                .add_enabled_ui(can && !self.files.is_open(), |ui| widgets::lesser(ui, texts.look_for_place));
            if look.inner.clicked() {
                out.push(Command::File(OfFile::AskSheets(path.clone())));
            }
        });
        if let Some((why, would_go)) = &page.refused {
            let colour = ui.visuals().error_fg_color;
            let said = RichText::new(widgets::unbroken(why.as_str())).size(size::SMALL).color(colour);
            ui.add(egui::Label::new(said).wrap());
            let name = if *would_go > 1 { texts.replace_all } else { texts.replace };
            if *would_go > 0 && widgets::lesser(ui, name).clicked() {
                out.push(Command::File(OfFile::SaveSheets(path, Over::All)));
            }
        }
    }

    /// What else there is to hand over, for other programs: saved beside the sheets, under their name.
    fn data(&self, ui: &mut Ui, page: &OnPaperPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.on_paper();
        ui.label(widgets::soft(ui, texts.for_programs));
        let to = page.to.as_ref().map_or_else(|| self.suggested_sheets(), |own| PathBuf::from(own.trim()));
        // One table goes under that name: with the report its own.
        let table = if page.is_report_chosen {
            (texts.fits, texts.fits_why, "csv", Data::Fits)
        } else {
            (texts.marks, texts.marks_why, "csv", Data::Marks)
        };
        ui.horizontal_wrapped(|ui| {
            for (name, why, ending, data) in [
                (texts.plan, texts.plan_why, "dxf", Data::Plan),
                table,
                (texts.everything, texts.everything_why, "json", Data::Everything),
            ] {
                let can = self.can_save_data(page, data);
                // In the row itself, so that one that has no room goes on the next line.
                let text = RichText::new(name).size(size::SMALL);
                let press = ui.add_enabled(can, Button::new(text).wrap_mode(TextWrapMode::Extend));
                if press.on_hover_text(why).clicked() {
                    out.push(Command::File(OfFile::SaveSheets(to.with_extension(ending), Over::Nothing)));
                }
            }
        });
    }
}

fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(text).font(look::bold(size::BODY)));
}
