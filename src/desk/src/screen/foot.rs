//! The foot: scale bar, where the pointer is or what was said last, the caution.

use baywright_drawing::scale_bar;
use baywright_planner::Subject;
use baywright_planner::hand::pose_of;
use egui::{Align, Layout, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2};

use super::command::{Command, OfBay, OfView};
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::view::{Measuring, Notice, Tool};
use super::{Desk, widgets};

/// The scale bar is at most this long, px.
const BAR_PX: f64 = 110.0;
/// The bar and what it says have so much room, px: the longest bar with the longest figure.
const SCALE_PX: f32 = 186.0;
/// Between what is said and the caution, at least, px.
const GAP_PX: f32 = 16.0;

/// Whether the foot had room for the whole caution when it was drawn last: where it has not, the panel of what is found says it.
pub(super) fn says_whole_caution(ctx: &egui::Context) -> bool {
    ctx.data(|data| data.get_temp(whole_caution())) == Some(true)
}

fn whole_caution() -> egui::Id {
    egui::Id::unique("whole caution in the foot")
}

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
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let caution = words.caution();
                let (hint, brief) = self.hint();
                let brief = if brief.is_empty() { hint.as_str() } else { brief };
                let said = self.view.notice.as_ref().map_or(hint.as_str(), |notice| notice.text.as_str());
                // The whole caution before the whole hint; nothing is cut while something shorter fits. But what was said has no
                // shorter form: it goes before the whole caution.
                let room = ui.available_width() - GAP_PX;
                let (first, then) = ((caution, brief), (texts.caution_short, said));
                let (first, then) = if self.view.notice.is_some() { (then, first) } else { (first, then) };
                let pairs = [(caution, said), first, then, (texts.caution_short, brief)];
                let fits = pairs.into_iter().find(|(told, said)| wide(ui, told) + wide(ui, said) <= room);
                let (told, said) = fits.unwrap_or((texts.caution_short, brief));
                let is_whole = told == caution;
                ui.data_mut(|data| data.insert_temp(whole_caution(), is_whole));
                ui.label(widgets::soft(ui, told)).on_hover_text(caution);
                // What was said stands here whole or elsewhere.
                let fits = if self.view.notice.is_some() { brief } else { said };
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    self.keep(ui, out);
                    self.said(ui, fits, &hint);
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

    /// What was said last, if there is room for it; else what the hand can do: `fits` of the whole `hint`.
    fn said(&self, ui: &mut Ui, fits: &str, hint: &str) {
        self.kept_no_more(ui);
        let room = ui.available_width();
        let here = self.view.notice.as_ref().filter(|notice| wide(ui, &notice.text) <= room);
        let is_beside = self.view.notice.is_some() && here.is_none();
        ui.data_mut(|data| data.insert_temp(beside(), is_beside));
        if ui.input(|i| !i.raw.hovered_files.is_empty()) {
            ui.label(RichText::new(self.texts().drop_it_here).size(size::SMALL));
            return;
        }
        match here {
            Some(notice) => {
                ui.label(self.notice_text(notice));
            }
            None => {
                ui.add(egui::Label::new(widgets::soft(ui, fits)).truncate()).on_hover_text(hint);
            }
        }
    }

    fn notice_text(&self, notice: &Notice) -> RichText {
        let palette = self.view.theme.palette();
        let colour = if notice.wrong { palette.stops } else { palette.ink };
        let text = widgets::unbroken(notice.text.as_str());
        RichText::new(text).size(size::SMALL).color(look::colour(colour))
    }

    /// What was said and is too long for the foot stands whole at the lower end of a panel beside the drawing, in as many lines as it
    /// takes; what else is in the panel has the room above it, which is given. It takes no more than a share of the panel: what is
    /// longer is scrolled.
    pub(super) fn said_beside(&self, ui: &mut Ui) -> Rect {
        let is_beside = ui.data(|data| data.get_temp(beside())) == Some(true);
        let all = ui.available_rect_before_wrap();
        let Some(notice) = self.view.notice.as_ref().filter(|_| is_beside) else { return all };
        let text = self.notice_text(notice);
        let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
        let shown = widgets::unbroken(notice.text.as_str());
        let width = all.width() - 2.0 * NOTICE_MARGIN_PX;
        let laid = ui.painter().layout(shown, font, egui::Color32::BLACK, width);
        let (needed, most) = (laid.size().y + 2.0 * NOTICE_MARGIN_PX, all.height() * NOTICE_SHARE);
        let top = all.bottom() - needed.min(most);
        let place = Rect::from_min_max(egui::pos2(all.left(), top), all.right_bottom());
        let palette = self.view.theme.palette();
        let edge = if notice.wrong { palette.stops } else { palette.soft };
        let (fill, edge) = (look::colour(palette.sheet), Stroke::new(1.0, look::colour(edge)));
        ui.painter().rect(place, 4.0, fill, edge, StrokeKind::Inside);
        let inner = egui::UiBuilder::new().max_rect(place.shrink(NOTICE_MARGIN_PX));
        let mut inner = ui.new_child(inner);
        if needed <= most {
            inner.add(egui::Label::new(text).wrap());
        } else {
            egui::ScrollArea::vertical().id_salt("what was said").auto_shrink([false, false]).show(
                &mut inner,
                |ui| {
                    ui.add(egui::Label::new(text).wrap());
                    let name = self.texts().to_scroll(self.texts().what_was_said);
                    in_sight::by_keys(ui, &name, ScrolledBy::Keys);
                },
            );
        }
        Rect::from_min_max(all.min, egui::pos2(all.right(), (top - NOTICE_MARGIN_PX).max(all.top())))
    }

    /// What the hand can do now, and the same for where there is little room.
    fn hint(&self) -> (String, &'static str) {
        let texts = self.texts();
        let (forms, rooms) = (self.view.locale.language.forms(), self.view.locale.language.rooms());
        let whole = |text: &'static str| (text.to_owned(), text);
        match self.view.tool {
            Tool::Measure(measuring) => match (measuring.from, measuring.to) {
                (Some(from), Some(to)) => {
                    let said = self.measured(measuring.in_side_view, from, to);
                    let free = self.view.locale.language.hand().free_end;
                    (if measuring.free_end { texts.with(&said, free) } else { said }, "")
                }
                (Some(_), None) => whole(texts.measure_to),
                _ => (texts.measure_from.to_owned(), texts.measure_from_short),
            },
            Tool::Draw(_) => (forms.drawing_now.to_owned(), forms.drawing_now_short),
            Tool::MovePicture => (rooms.moving_now.to_owned(), rooms.moving_now_short),
            Tool::ScalePicture { .. } => (rooms.scaling_now.to_owned(), rooms.scaling_now_short),
            Tool::PickMark { .. } => (forms.picking_now.to_owned(), forms.picking_now_short),
            Tool::WhichSide if self.canvas.is_dragging() => {
                (texts.while_dragging.to_owned(), texts.while_dragging_short)
            }
            Tool::WhichSide if self.view.are_several() => {
                let hand = self.view.locale.language.hand();
                (hand.several_hint.to_owned(), hand.several_hint_short)
            }
            Tool::WhichSide => match &self.view.selected {
                None => (texts.nothing_in_hand.to_owned(), texts.nothing_in_hand_short),
                Some(Subject::Floor) => (texts.room_in_hand.to_owned(), texts.room_in_hand_short),
                Some(subject) if self.is_movable(subject) => (texts.nudging.to_owned(), texts.nudging_short),
                Some(_) => whole(texts.fixed_in_hand),
            },
        }
    }

    /// Whether hand and arrows move it.
    fn is_movable(&self, subject: &Subject) -> bool {
        let pose = pose_of(&self.answer.arrangement, &self.answer.assessment.scene, subject);
        pose.is_some_and(|pose| self.placed(subject, pose).is_some())
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
        // Its place is as wide at every scale: the buttons beside it stay under a pointer that presses them again.
        let (place, response) = ui.allocate_exact_size(Vec2::new(SCALE_PX, 18.0), Sense::hover());
        let rect = Rect::from_min_size(
            place.left_center() - Vec2::new(0.0, 5.0),
            Vec2::new(bar.px as f32 + 2.0, 10.0),
        );
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
        let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
        let at = rect.right_center() + Vec2::new(8.0, 0.0);
        ui.painter().text(at, egui::Align2::LEFT_CENTER, text, font, ink);
    }
}

/// How wide a small text is in one line, px.
fn wide(ui: &Ui, text: &str) -> f32 {
    let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
    ui.painter().layout_no_wrap(text.to_owned(), font, egui::Color32::BLACK).size().x
}

/// Whether what was said last stands beside the drawing instead of in the foot.
fn beside() -> egui::Id {
    egui::Id::unique("said beside the drawing")
}

/// What was said takes at most so much of the height of the panel that it stands in.
const NOTICE_SHARE: f32 = 0.5;
/// Around what was said where it stands beside the drawing, px.
const NOTICE_MARGIN_PX: f32 = 6.0;
