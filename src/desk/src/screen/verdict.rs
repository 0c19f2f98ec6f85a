//! The answer, in one line: the largest words on the screen, and what would make the space ready.

use baywright_drawing::sign::SignKind;
use baywright_planner::{Subject, Verdict};
use egui::text::LayoutJob;
use egui::{Align, Color32, CornerRadius, Layout, RichText, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo};

use super::command::{Command, OfBay, OfView};
use super::look::{self, size};
use super::page::Page;
use super::{Desk, widgets};

impl Desk {
    pub(super) fn verdict(&self, ui: &mut Ui, wide: bool, out: &mut Vec<Command>) {
        let words = self.words();
        let texts = self.texts();
        let palette = self.view.theme.palette();
        let assessment = &self.answer.assessment;
        let verdict = assessment.verdict;
        ui.horizontal(|ui| {
            ui.set_height(40.0);
            let kind = SignKind::of_verdict(verdict);
            let mark = if kind == SignKind::Tick { "" } else { "!" };
            let colours = if self.answer.stale {
                (look::colour(palette.soft), look::colour(palette.on_sign))
            } else {
                widgets::verdict(palette, verdict)
            };
            widgets::sign(ui, kind, 16.0, mark, colours);
            ui.add_space(4.0);
            let font = look::letters(size::VERDICT, baywright_drawing::Weight::Bold);
            ui.label(RichText::new(words.verdict(verdict)).font(font));
            ui.add_space(6.0);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if wide {
                    self.example_figures(ui, out);
                }
                if self.has_own_building() {
                    let sign = widgets::note(ui, words.own_building(), look::colour(palette.beam));
                    if sign.on_hover_ui(|ui| self.building_differs(ui)).clicked() {
                        out.push(Command::View(OfView::Select(Some(Subject::Floor))));
                        out.push(Command::View(OfView::List(true)));
                    }
                }
                if self.answer.stale {
                    pill(ui, texts.stale, look::colour(palette.stops));
                } else if verdict == Verdict::NotReady && assessment.promise.is_some() {
                    let press = widgets::press(ui, self.view.theme, texts.do_all);
                    if press.on_hover_text(texts.do_all_why).clicked() {
                        out.push(Command::Bay(OfBay::KeepPromise));
                    }
                    if self.document.draft().is_none() {
                        let apart = widgets::lesser(ui, texts.do_all_apart);
                        if apart.on_hover_text(texts.do_all_apart_why).clicked() {
                            out.push(Command::Bay(OfBay::KeepPromiseApart));
                        }
                    }
                }
                let summary = match (self.answer.stale, self.document.draft().is_some()) {
                    (true, true) => self.waits(),
                    (true, false) => texts.stale_why.to_owned(),
                    (false, _) => words.summary(assessment),
                };
                told(ui, summary, look::colour(palette.soft));
            });
        });
    }

    /// Why the answer is not of the car as it is entered: what is still to be typed, or that something of it is wrong.
    fn waits(&self) -> String {
        let texts = self.view.locale.language.forms();
        let draft = self.document.draft();
        match draft.and_then(|draft| Some((draft.still_to_type()?, draft.car()))) {
            Some((fault, car)) => texts.waits_for(&texts.field_name(&fault.field, car)),
            None => texts.waits.to_owned(),
        }
    }

    /// That figures of the answer are invented; in the bar where the answer needs the whole line.
    pub(super) fn example_figures(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        if !self.answer.assessment.on_example_figures {
            return;
        }
        let colour = look::colour(self.view.theme.palette().care);
        let pressed = widgets::note(ui, self.words().on_example_figures(), colour);
        if pressed.on_hover_text(self.texts().examples).clicked() {
            out.push(Command::Page(Some(Page::Examples)));
        }
    }
}

/// The summary, on one line if it fits, else on two or three smaller ones; the whole of it for who hovers. The strip never grows:
/// the drawing must not move under the hand because the answer has become longer.
fn told(ui: &mut Ui, text: String, colour: Color32) {
    let shown = widgets::unbroken(text.as_str());
    let room = ui.available_width();
    let job = |size: f32, rows: usize| {
        let font = look::letters(size, baywright_drawing::Weight::Regular);
        let mut job = LayoutJob::simple(shown.clone(), font, colour, room);
        job.wrap.max_rows = rows;
        ui.painter().layout_job(job)
    };
    let ways = [(size::LEAD, 1), (size::BODY, 2), (size::SMALL, 2), (size::LEAST, 3)];
    let fits = ways.into_iter().map(|(size, rows)| job(size, rows)).find(|own| !own.elided);
    let galley = fits.unwrap_or_else(|| job(size::LEAST, 3));
    let (rect, response) = ui.allocate_exact_size(Vec2::new(room, 40.0), Sense::hover());
    ui.painter().galley(egui::pos2(rect.min.x, rect.center().y - galley.size().y * 0.5), galley, colour);
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, &text));
    response.on_hover_text(&shown);
}

/// A text in a frame with round ends; nothing happens if it is pressed.
fn pill(ui: &mut Ui, text: &str, colour: Color32) {
    let galley = ui.painter().layout_no_wrap(text.to_owned(), look::bold(size::SMALL), colour);
    let (rect, response) = ui.allocate_exact_size(galley.size() + Vec2::new(26.0, 9.0), Sense::hover());
    let round = CornerRadius::same((rect.height() * 0.5) as u8);
    ui.painter().rect_stroke(rect, round, Stroke::new(1.2, colour), StrokeKind::Inside);
    ui.painter().galley(rect.center() - galley.size() * 0.5, galley, colour);
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, text));
}
