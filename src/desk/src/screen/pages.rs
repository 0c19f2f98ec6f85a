//! What lies over the screen: open, save as, questions, help.

mod cars;
mod compare;
mod examples;
mod failed;
mod files;
mod help;
mod new_bay;
mod question;
mod shop;
mod shop_face;
mod shop_instruments;
mod visit;
mod welcome;

use baywright_planner::words::Language;
use egui::{Align, Align2, Context, Id, Layout, Modal, RichText, ScrollArea, Ui};

pub(super) use compare::Compared;
pub(super) use failed::Weighed;

use super::command::Command;
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::page::{Page, Question};
use super::{Desk, widgets};

impl Desk {
    pub(super) fn pages(&mut self, ui: &Ui, out: &mut Vec<Command>) {
        if self.fills_window() {
            return;
        }
        let Some(mut page) = self.view.lift_page() else { return };
        let texts = self.texts();
        let (title, width) = match &page {
            Page::FirstSteps => (texts.first_steps, 720.0),
            Page::Welcome => (texts.welcome, 560.0),
            Page::Help => (texts.help, 720.0),
            Page::Licences => (texts.licences, 720.0),
            Page::Open(_) => (texts.open, 560.0),
            Page::Save(_) => (texts.save_as, 560.0),
            Page::KeepProof(_) => (self.view.locale.language.never().keep, 560.0),
            Page::Visit(_) => (texts.visit, 620.0),
            Page::Cars(..) => (texts.all_cars, 640.0),
            Page::Compare(_) => (texts.compare_title, 1_200.0),
            Page::Name(..) => (texts.name_arrangement, 420.0),
            Page::LeftBehind => (texts.left_behind, 560.0),
            Page::NewBay(_) => (self.view.locale.language.rooms().new_bay_title, 900.0),
            Page::Examples => (texts.examples, 520.0),
            Page::Shop => (self.view.locale.language.shop().title, 720.0),
            Page::Failed(_) => (self.view.locale.language.failed().title, 640.0),
            Page::Customer(_) => (self.view.locale.language.customer().page, 0.0),
            Page::OnPaper => (self.view.locale.language.on_paper().title, 0.0),
            Page::RoomDrawing => (self.view.locale.language.room_drawing().title, 0.0),
            Page::Record => (self.view.locale.language.record_page().page, 0.0),
            Page::Fits => (self.view.locale.language.fits().page, 0.0),
            Page::Ask(Question::Unsaved(_)) => (texts.save_changes, 480.0),
            Page::Ask(_) => (texts.question, 480.0),
        };
        // Escape in a field puts back what was there, and no more.
        let of_field = page.has_fields()
            && self.fields.had_keyboard(ui.ctx())
            && ui.input(|i| i.key_pressed(egui::Key::Escape));
        let is_new = is_newly_laid(ui.ctx(), title);
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
                        if page.waits() && !self.left_behind.works.is_empty() {
                            out.push(Command::Tell(texts.left_for_later.to_owned()));
                        }
                    }
                });
            });
            ui.add_space(6.0);
            let most = screen.height() - top - 124.0;
            let mut area = ScrollArea::vertical().id_salt(title).max_height(most).min_scrolled_height(most);
            // However far it was scrolled when it lay here before.
            if is_new {
                area = area.vertical_scroll_offset(0.0);
            }
            let wanted = Id::unique("page scrolled on to");
            if let Some(offset) = ui.data_mut(|data| data.remove_temp::<f32>(wanted)) {
                area = area.vertical_scroll_offset(offset);
            }
            let shown = area.show(ui, |ui| {
                ui.set_width(ui.available_width());
                match &mut page {
                    Page::FirstSteps => self.first_steps(ui, out),
                    Page::Welcome => self.welcome_page(ui, out),
                    Page::Help => self.help(ui, out),
                    Page::Licences => licences(ui, self.view.locale.language),
                    Page::Open(open) => self.open_page(ui, open, out),
                    Page::Save(save) => self.save_page(ui, save, out),
                    Page::KeepProof(keep) => self.keep_proof_page(ui, keep, out),
                    Page::Visit(visit) => self.visit_page(ui, visit, out),
                    Page::Cars(sought, focus) => self.cars_page(ui, sought, focus, out),
                    Page::Compare(compare) => self.compare_page(ui, compare, out),
                    Page::Name(name, focus) => self.name_page(ui, name, focus, out),
                    Page::LeftBehind => self.left_behind_page(ui, out),
                    Page::NewBay(bay) => self.new_bay_page(ui, bay, out),
                    Page::Examples => self.examples_page(ui, out),
                    Page::Shop => self.shop_page(ui, out),
                    Page::Failed(failed) => self.failed_page(ui, failed, out),
                    Page::Customer(_) | Page::OnPaper | Page::RoomDrawing | Page::Record | Page::Fits => {}
                    Page::Ask(question) => self.question(ui, question, out),
                }
                in_sight::follow(ui);
                in_sight::by_keys(ui, &texts.to_scroll(title), ScrolledBy::PageKeys);
            });
            let (seen, offset) = (shown.inner_rect.height(), shown.state.unclamped_offset().y);
            if shown.content_size.y > seen + LINE_PX {
                // Its place stays when the end is reached: the page does not grow under the pointer.
                let is_more = offset + seen + LINE_PX < shown.content_size.y;
                ui.horizontal(|ui| {
                    ui.set_min_height(ui.spacing().interact_size.y);
                    if is_more && widgets::link(ui, self.view.theme, texts.page_goes_on).clicked() {
                        ui.data_mut(|data| data.insert_temp(wanted, offset + seen * 0.8));
                        ui.ctx().request_repaint();
                    }
                });
            }
        });
        // A press beside a page closes it, unless something was typed in it.
        let closes = modal.should_close() && !of_field;
        if closes && !page.waits() && !(modal.backdrop_response.clicked() && page.is_typed_in()) {
            out.push(Command::Page(None));
        }
        self.view.put_page_back(page);
    }
}

/// Less than this of a page out of sight is no more to be seen, px.
const LINE_PX: f32 = 12.0;

/// Whether no page of this title lay here in the frame before.
fn is_newly_laid(ctx: &Context, title: &'static str) -> bool {
    let (key, now) = (Id::unique("page that lay here"), ctx.cumulative_frame_nr());
    let before: Option<(&'static str, u64)> = ctx.data(|data| data.get_temp(key));
    ctx.data_mut(|data| data.insert_temp(key, (title, now)));
    before.is_none_or(|(own, frame)| own != title || frame + 1 < now)
}

fn licences(ui: &mut Ui, language: Language) {
    ui.add(egui::Label::new(RichText::new(crate::licences::text(language)).size(size::SMALL)).wrap());
}
