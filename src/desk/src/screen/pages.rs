//! What lies over the screen: open, save as, questions, help.

mod cars;
mod compare;
mod examples;
mod files;
mod help;
mod new_bay;
mod question;
mod shop;
mod shop_face;
mod visit;
mod welcome;

use baywright_planner::words::Language;
use egui::{Align, Align2, Id, Layout, Modal, RichText, ScrollArea, Ui};

pub(super) use compare::Compared;

use super::Desk;
use super::command::Command;
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::page::{Page, Question};

impl Desk {
    pub(super) fn pages(&mut self, ui: &Ui, out: &mut Vec<Command>) {
        let Some(mut page) = self.view.page.take() else { return };
        if matches!(page, Page::Customer(_)) {
            self.view.page = Some(page);
            return;
        }
        let texts = self.texts();
        let (title, width) = match &page {
            Page::FirstSteps => (texts.first_steps, 720.0),
            Page::Welcome => (texts.welcome, 560.0),
            Page::Help => (texts.help, 720.0),
            Page::Licences => (texts.licences, 720.0),
            Page::Open(_) => (texts.open, 560.0),
            Page::Save(_) => (texts.save_as, 560.0),
            Page::Visit(_) => (texts.visit, 620.0),
            Page::Cars(..) => (texts.all_cars, 640.0),
            Page::Compare(_) => (texts.compare_title, 1_200.0),
            Page::Name(..) => (texts.name_arrangement, 420.0),
            Page::LeftBehind => (texts.left_behind, 560.0),
            Page::NewBay(_) => (self.view.locale.language.rooms().new_bay_title, 900.0),
            Page::Examples => (texts.examples, 520.0),
            Page::Shop => (self.view.locale.language.shop().title, 720.0),
            Page::Customer(_) => (self.view.locale.language.customer().page, 0.0),
            Page::Ask(Question::Unsaved(_)) => (texts.save_changes, 480.0),
            Page::Ask(_) => (texts.question, 480.0),
        };
        // Escape in a field puts back what was there, and no more.
        let of_field = page == Page::Shop
            && self.fields.had_keyboard(ui.ctx())
            && ui.input(|i| i.key_pressed(egui::Key::Escape));
        let screen = ui.ctx().content_rect();
        let frame = egui::Frame::window(ui.style()).inner_margin(egui::Margin::same(18));
        // From one height down: what is pressed stays under the hand when the page grows.
        let top = (screen.height() * 0.09).round();
        let area = Modal::default_area(Id::unique("page")).anchor(Align2::CENTER_TOP, [0.0, top]);
        let modal = Modal::new(Id::unique("page")).area(area).frame(frame).show(ui.ctx(), |ui| {
            ui.set_width(f32::min(width, screen.width() - 60.0));
            ui.horizontal(|ui| {
                ui.label(RichText::new(title.trim_end_matches(['\u{2026}', ' '])).font(look::bold(18.0)));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    if ui.button(texts.close).clicked() {
                        out.push(Command::Page(None));
                        if page.waits() {
                            out.push(Command::Say(texts.left_for_later.to_owned()));
                        }
                    }
                });
            });
            ui.add_space(6.0);
            let most = screen.height() - top - 100.0;
            let area = ScrollArea::vertical().id_salt(title).max_height(most).min_scrolled_height(most);
            area.show(ui, |ui| {
                ui.set_width(ui.available_width());
                match &mut page {
                    Page::FirstSteps => self.first_steps(ui, out),
                    Page::Welcome => self.welcome_page(ui, out),
                    Page::Help => self.help(ui, out),
                    Page::Licences => licences(ui, self.view.locale.language),
                    Page::Open(open) => self.open_page(ui, open, out),
                    Page::Save(save) => self.save_page(ui, save, out),
                    Page::Visit(visit) => self.visit_page(ui, visit, out),
                    Page::Cars(sought, focus) => self.cars_page(ui, sought, focus, out),
                    Page::Compare(compare) => self.compare_page(ui, compare, out),
                    Page::Name(name, focus) => self.name_page(ui, name, focus, out),
                    Page::LeftBehind => self.left_behind_page(ui, out),
                    Page::NewBay(bay) => self.new_bay_page(ui, bay, out),
                    Page::Examples => self.examples_page(ui, out),
                    Page::Shop => self.shop_page(ui, out),
                    Page::Customer(_) => {}
                    Page::Ask(question) => self.question(ui, question, out),
                }
                in_sight::follow(ui);
                in_sight::by_keys(ui, &texts.to_scroll(title), ScrolledBy::PageKeys);
            });
        });
        // A press beside a page closes it, unless something was typed in it.
        let closes = modal.should_close() && !of_field;
        if closes && !page.waits() && !(modal.backdrop_response.clicked() && page.is_typed_in()) {
            out.push(Command::Page(None));
        }
        self.view.page = Some(page);
    }
}

fn licences(ui: &mut Ui, language: Language) {
    ui.add(egui::Label::new(RichText::new(crate::licences::text(language)).size(size::SMALL)).wrap());
}
