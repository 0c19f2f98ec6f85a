//! The foot: scale bar, where the pointer is or what was said last, the caution.

use baywright_drawing::scale_bar;
use egui::{Align, Layout, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2};

use super::command::{Command, OfBay, OfView};
use super::look::{self, size};
use super::view::{Measuring, Tool};
use super::{Desk, widgets};

/// The scale bar is at most this long, px.
const BAR_PX: f64 = 130.0;

impl Desk {
    pub(super) fn foot(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let words = self.words();
        let texts = self.texts();
        ui.horizontal(|ui| {
            self.scale(ui);
            if ui
                .small_button("\u{2212}")
                .on_hover_text(texts.smaller)
                .accessible_name(texts.smaller)
                .clicked()
            {
                out.push(Command::View(OfView::Zoom(1.0 / 1.25)));
            }
            if ui.small_button("+").on_hover_text(texts.larger).accessible_name(texts.larger).clicked() {
                out.push(Command::View(OfView::Zoom(1.25)));
            }
            if ui
                .add_enabled(self.view.camera.is_some(), egui::Button::new(texts.all).small())
                .on_hover_text(texts.all_why)
                .clicked()
            {
                out.push(Command::View(OfView::Camera(None)));
            }
            ui.add_space(8.0);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let caution = words.caution();
                let short = ui.available_width() < 900.0;
                let told = if short { texts.caution_short } else { caution };
                ui.label(widgets::soft(ui, told)).on_hover_text(caution);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    self.keep(ui, out);
                    self.said(ui);
                });
            });
        });
    }

    /// What was measured in the top view can be kept.
    fn keep(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let Tool::Measure(Measuring { in_side_view: false, from: Some(_), to: Some(_), .. }) = self.view.tool
        else {
            return;
        };
        let texts = self.view.locale.language.hand();
        if ui.small_button(texts.keep_it).on_hover_text(texts.keep_it_why).clicked() {
            out.push(Command::Bay(OfBay::KeepMeasured));
        }
    }

    fn said(&self, ui: &mut Ui) {
        self.kept_no_more(ui);
        if ui.input(|i| !i.raw.hovered_files.is_empty()) {
            ui.label(RichText::new(self.texts().drop_it_here).size(size::SMALL));
            return;
        }
        let palette = self.view.theme.palette();
        if let Some(notice) = &self.view.notice {
            let colour = if notice.wrong { palette.stops } else { palette.ink };
            let text = RichText::new(&notice.text).size(size::SMALL).color(look::colour(colour));
            ui.add(egui::Label::new(text).truncate()).on_hover_text(&notice.text);
            return;
        }
        ui.add(egui::Label::new(widgets::soft(ui, self.hint())).truncate());
    }

    /// What the hand can do now.
    fn hint(&self) -> String {
        let texts = self.texts();
        match self.view.tool {
            Tool::Measure(measuring) => match (measuring.from, measuring.to) {
                (Some(from), Some(to)) => {
                    let said = self.measured(measuring.in_side_view, from, to);
                    let free = self.view.locale.language.hand().free_end;
                    if measuring.free_end { texts.with(&said, free) } else { said }
                }
                (Some(_), None) => texts.measure_to.to_owned(),
                _ => texts.measure_from.to_owned(),
            },
            Tool::Draw(_) => self.view.locale.language.forms().drawing_now.to_owned(),
            Tool::MovePicture => self.view.locale.language.rooms().moving_now.to_owned(),
            Tool::ScalePicture { .. } => self.view.locale.language.rooms().scaling_now.to_owned(),
            Tool::PickMark { .. } => self.view.locale.language.forms().picking_now.to_owned(),
            Tool::WhichSide if self.canvas.is_dragging() => texts.while_dragging.to_owned(),
            Tool::WhichSide if self.view.are_several() => {
                self.view.locale.language.hand().several_hint.to_owned()
            }
            Tool::WhichSide if self.view.selected.is_some() => texts.nudging.to_owned(),
            Tool::WhichSide => texts.nothing_in_hand.to_owned(),
        }
    }

    fn measured(
        &self,
        in_side_view: bool,
        from: baywright_planner::geometry::DVec2,
        to: baywright_planner::geometry::DVec2,
    ) -> String {
        let words = self.words();
        let (distance, ahead, other) = super::canvas::measured(&self.answer, in_side_view, from, to);
        let (distance, along, across) =
            (words.length(distance), words.length(ahead.abs()), words.length(other.abs()));
        self.texts().measured(&distance, &along, &across, in_side_view)
    }

    fn scale(&self, ui: &mut Ui) {
        let palette = self.view.theme.palette();
        let (ink, sheet) = (look::colour(palette.ink), look::colour(palette.sheet));
        let bar = scale_bar(self.canvas.px_per_mm(), BAR_PX, self.view.locale.units);
        let (rect, response) = ui.allocate_exact_size(Vec2::new(bar.px as f32 + 2.0, 10.0), Sense::hover());
        let part = bar.px as f32 / bar.parts as f32;
        for i in 0..bar.parts {
            let from = rect.left_center() + Vec2::new(1.0 + part * i as f32, -2.5);
            let own = Rect::from_min_size(from, Vec2::new(part, 5.0));
            ui.painter().rect_filled(own, 0.0, if i % 2 == 0 { ink } else { sheet });
            ui.painter().rect_stroke(own, 0.0, Stroke::new(1.0, ink), StrokeKind::Middle);
        }
        let text = self.words().length(bar.mm);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::Image, true, self.texts().scale_bar(&text))
        });
        ui.label(RichText::new(text).size(size::SMALL));
    }
}
