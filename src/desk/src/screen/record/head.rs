//! The strip over the page: whose record it is, the one answer for the visit, what is open, whether it is saved; and the list of steps.

use baywright_drawing::sign::SignKind;
use baywright_planner::record::{Holds, StepState, VisitStep};
use baywright_planner::words::record_page::StepSign;
use baywright_planner::{Severity, Verdict};
use egui::{
    Align, Label, Layout, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
};

use super::{OfRecord, RecordPage, Side};
use crate::screen::command::Command;
use crate::screen::look::{self, size};
use crate::screen::{Desk, in_sight, widgets};

/// A row of the list is at least so high, px.
const ROW_PX: f32 = 44.0;
/// So many digits of a hash tell one record from another at a glance.
pub(super) const HASH_BEGINS: usize = 12;

/// The verdict of the visit with what was read meanwhile: of the step's own set-up all of it, of the others that something needs care.
fn with_what_was_read(page: &RecordPage, answered: Verdict) -> Verdict {
    let here = page.at.as_ref().and_then(|own| own.aiming.as_ref());
    let own = here.and_then(|own| page.parts.part(own)).map(|own| own.assessment.verdict);
    let others = page.parts.all().iter().map(|own| own.assessment.verdict.min(Verdict::ReadyWithCare));
    others.chain(own).fold(answered, Verdict::max)
}

impl Desk {
    /// Opens the page.
    pub(in crate::screen) fn record_press(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.document.draft().is_some() {
            return;
        }
        let texts = self.view.locale.language.record_page();
        let mut press = |ui: &mut Ui| {
            let press = widgets::lesser(ui, texts.open).on_hover_text(texts.open_why);
            if press.accessible_name(texts.page).clicked() {
                out.push(Command::Record(OfRecord::Lay));
            }
        };
        let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
        let text = ui.painter().layout_no_wrap(texts.open.to_owned(), font, egui::Color32::BLACK).size().x;
        let wanted = text + 2.0 * ui.spacing().button_padding.x;
        // At the right edge beside the tabs; where they leave no room, in a row of its own and on nobody.
        if ui.available_size_before_wrap().x < wanted {
            press(ui);
        } else {
            ui.with_layout(Layout::right_to_left(Align::Center), press);
        }
    }

    pub(super) fn record_head_strip(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        let record = self.view.locale.language.record();
        ui.spacing_mut().item_spacing = Vec2::new(12.0, 4.0);
        ui.horizontal(|ui| {
            ui.label(RichText::new(texts.page).font(look::bold(20.0)));
            self.whose(ui, page, [320.0; 2]);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if widgets::lesser(ui, texts.leave).clicked() {
                    out.push(Command::Page(None));
                }
                if let Some(own) = &page.in_hand {
                    if widgets::lesser(ui, texts.another).clicked() {
                        out.push(Command::Record(OfRecord::PutAway));
                    }
                    self.saved_state(ui, own, true, out);
                }
            });
        });
        let Some(own) = &page.in_hand else { return };
        ui.horizontal(|ui| {
            let (text, verdict) = match page.parts.answer() {
                Some(answer) => (record.visit_answer(answer), Some(answer.verdict)),
                None if page.parts.all().is_empty() => (texts.other_set_up.to_owned(), None),
                None => (texts.is_worked_out.to_owned(), None),
            };
            if let Some(verdict) = verdict {
                self.visit_verdict(ui, with_what_was_read(page, verdict));
            }
            let room = ui.available_width() * 0.5;
            ui.scope(|ui| {
                ui.set_max_width(room);
                let shown = RichText::new(widgets::unbroken(text.as_str())).size(size::BODY);
                ui.add(Label::new(shown).truncate()).on_hover_text(&text);
            });
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let press = |ui: &mut Ui, text: &str, side: Side, out: &mut Vec<Command>| {
                    if widgets::lesser(ui, text).clicked() {
                        out.push(Command::Record(OfRecord::Side(side)));
                    }
                };
                press(ui, texts.whole_visit, Side::WholeVisit, out);
                let papers = Holds::of(own.record()).attachments().len();
                press(ui, &texts.so_many_papers(papers), Side::Papers, out);
                let found = self.found(page);
                let open = found.iter().filter(|own| own.accepted.is_none()).count();
                press(ui, &texts.so_many_open(open, found.len()), Side::Findings, out);
            });
        });
    }

    /// In one line, where there is little room: how the visit stands, whose it is, what is open, whether it is saved. The rest is under "more".
    pub(super) fn record_thin_head(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        ui.spacing_mut().item_spacing = Vec2::new(10.0, 4.0);
        ui.horizontal_centered(|ui| {
            let verdict = page.parts.answer().map(|own| with_what_was_read(page, own.verdict));
            match (&page.in_hand, verdict) {
                (Some(_), Some(verdict)) => self.visit_verdict(ui, verdict),
                (Some(_), None) => {}
                (None, _) => {
                    ui.label(RichText::new(texts.page).font(look::bold(size::LEAD)));
                }
            }
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if widgets::lesser(ui, texts.leave).clicked() {
                    out.push(Command::Page(None));
                }
                let Some(own) = &page.in_hand else { return };
                let found = self.found(page);
                let open = found.iter().filter(|own| own.accepted.is_none()).count();
                if open > 0 && widgets::lesser(ui, texts.so_many_open(open, found.len())).clicked() {
                    out.push(Command::Record(OfRecord::Side(Side::Findings)));
                }
                self.saved_state(ui, own, false, out);
                let width = ui.available_width();
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    self.whose(ui, page, [width, 320.0]);
                });
            });
        });
    }

    /// Whose record it is, and who enters.
    fn whose(&self, ui: &mut Ui, page: &RecordPage, widths: [f32; 2]) {
        let texts = self.view.locale.language.record_page();
        let Some(own) = &page.in_hand else { return };
        let begun = &own.record().begun;
        let texts_of = [texts.job_and_car(&begun.job, &begun.car), texts.enters(&page.by)];
        for (text, width) in texts_of.into_iter().zip(widths) {
            // Whoever enters is told where there is room.
            let left = ui.available_width().min(width);
            if left < 80.0 {
                return;
            }
            let text = widgets::fitted(ui, &text, left);
            ui.label(RichText::new(text).font(look::bold(size::BODY)));
        }
    }

    /// How the whole visit stands.
    fn visit_verdict(&self, ui: &mut Ui, verdict: Verdict) {
        let kind = SignKind::of_verdict(verdict);
        let mark = if kind == SignKind::Tick { "" } else { "!" };
        widgets::sign(ui, kind, 10.0, mark, widgets::verdict(self.view.theme.palette(), verdict));
        ui.label(RichText::new(self.words().verdict(verdict)).font(look::bold(size::LEAD)));
    }

    /// Whether all of it is on the disk, and the hash that stands for it.
    fn saved_state(
        &self,
        ui: &mut Ui,
        own: &crate::session::visit_record::RecordInHand,
        with_hash: bool,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.record_page();
        let begins: String = own.head().chars().take(HASH_BEGINS).collect();
        if with_hash {
            let hash = widgets::link(ui, self.view.theme, texts.head_begins(&begins));
            if hash.on_hover_text(own.head()).accessible_name(texts.copy_head).clicked() {
                out.push(Command::Record(OfRecord::CopyHead));
            }
        }
        let palette = self.view.theme.palette();
        match own.trouble() {
            Some(_) => {
                if widgets::lesser(ui, texts.save_again).clicked() {
                    out.push(Command::Record(OfRecord::SaveAgain));
                }
                let care = look::colour(palette.stops);
                widgets::sign(ui, SignKind::Octagon, 8.0, "!", (care, look::colour(palette.on_sign)));
            }
            None => {
                let said = if own.is_saved() { texts.saved } else { texts.saving };
                ui.label(widgets::soft(ui, said));
            }
        }
    }

    /// All steps, how each stands, and the one that is seen.
    pub(super) fn record_list(&self, ui: &mut Ui, page: &RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        let steps = page.parts.steps();
        let done = steps.iter().filter(|own| own.state.is_settled()).count();
        ui.horizontal(|ui| {
            ui.label(RichText::new(texts.steps).font(look::bold(size::LEAD)));
            ui.label(widgets::soft(ui, texts.so_many_done(done, steps.len())));
        });
        ScrollArea::vertical().id_salt("record's steps").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.set_width(ui.available_width() - 10.0);
            for (at, own) in steps.iter().enumerate() {
                let is_seen = page.at.as_ref() == Some(&own.id);
                let response = self.record_row(ui, page, (at, own), is_seen);
                if response.clicked() {
                    out.push(Command::Record(OfRecord::Go(own.id.clone())));
                }
                if is_seen && page.led.is_some() {
                    let wanted = response.rect.expand2(Vec2::new(0.0, ROW_PX));
                    ui.scroll_to_rect_animation(wanted, None, egui::style::ScrollAnimation::none());
                }
            }
            in_sight::follow(ui);
        });
    }

    fn record_row(
        &self,
        ui: &mut Ui,
        page: &RecordPage,
        (at, own): (usize, &VisitStep),
        is_seen: bool,
    ) -> egui::Response {
        const SIGN_PX: f32 = 28.0;
        let palette = self.view.theme.palette();
        let record = self.view.locale.language.record();
        let texts = self.view.locale.language.record_page();
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let width = ui.available_width();
        let title = record.step(own.id.kind);
        let begun = page.in_hand.as_ref().map(|own| &own.record().begun);
        let aiming = own.id.aiming.as_ref().zip(begun).map(|(id, begun)| record.aiming(begun, id));
        let state = match &own.state {
            StepState::GonePast(open) => record.gone_past(*open),
            state => texts.sign_of(sign_of(state)).to_owned(),
        };
        let below = match aiming {
            Some(aiming) => self.texts().with(aiming, &state),
            None => state,
        };
        let room = width - SIGN_PX - 12.0;
        let font = if is_seen {
            look::bold(size::LEAD)
        } else {
            look::letters(size::LEAD, baywright_drawing::Weight::Regular)
        };
        let upper = ui.painter().layout(widgets::unbroken(title), font, ink, room);
        let lower = ui.painter().layout(
            widgets::unbroken(below.as_str()),
            look::letters(size::SMALL, baywright_drawing::Weight::Regular),
            soft,
            room,
        );
        let height = (upper.size().y + lower.size().y + 8.0).max(ROW_PX);
        let (rect, _) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
        let response = ui.interact(rect, egui::Id::unique("record's row").with(at), Sense::click());
        response.widget_info(|| {
            WidgetInfo::selected(egui::Role::Button, true, is_seen, self.texts().with(title, &below))
        });
        if is_seen || response.hovered() || response.has_focus() {
            let fill = if is_seen { look::colour(palette.sheet) } else { egui::Color32::TRANSPARENT };
            let edge = look::colour(if is_seen { palette.beam } else { palette.soft });
            let wide = if response.has_focus() { 2.0 } else { 1.0 };
            ui.painter().rect(rect, 4.0, fill, Stroke::new(wide, edge), StrokeKind::Inside);
        }
        let place = Rect::from_min_size(rect.min, Vec2::new(SIGN_PX, height));
        self.paint_state(ui, place.center(), &own.state);
        let top = rect.center().y - (upper.size().y + lower.size().y) * 0.5;
        let left = rect.left() + SIGN_PX + 4.0;
        let under = top + upper.size().y;
        ui.painter().galley(egui::pos2(left, top), upper, ink);
        ui.painter().galley(egui::pos2(left, under), lower, soft);
        response
    }

    /// How a step stands, by a shape.
    pub(super) fn paint_state(&self, ui: &Ui, at: egui::Pos2, state: &StepState) {
        const REACH: f32 = 9.0;
        let palette = self.view.theme.palette();
        let soft = look::colour(palette.soft);
        let on = look::colour(palette.on_sign);
        let sign = |kind: SignKind, text: &str, colours| {
            widgets::paint_sign(ui.painter(), at, kind, REACH, text, colours);
        };
        match sign_of(state) {
            StepSign::Open => sign(SignKind::Ring, "", (soft, soft)),
            StepSign::Done => sign(SignKind::Tick, "", (look::colour(palette.ready), on)),
            StepSign::NotApplicable => {
                ui.painter().hline(at.x - REACH * 0.7..=at.x + REACH * 0.7, at.y, Stroke::new(2.0, soft));
            }
            StepSign::OutOfRange => {
                sign(SignKind::Octagon, "!", widgets::severity(palette, Severity::Stops));
            }
            StepSign::GonePast => {
                sign(SignKind::Triangle, "!", widgets::severity(palette, Severity::Care));
            }
            StepSign::LeftOut => {
                let care = look::colour(palette.care);
                let reach = REACH * 0.7;
                ui.painter()
                    .line_segment([at - Vec2::splat(reach), at + Vec2::splat(reach)], Stroke::new(2.0, care));
                let across = Vec2::new(reach, -reach);
                ui.painter().line_segment([at - across, at + across], Stroke::new(2.0, care));
            }
            StepSign::TakenBack => {
                sign(SignKind::Ring, "", (soft, soft));
                ui.painter().circle_filled(at, 2.6, soft);
            }
        }
    }
}

/// The sign of a state.
pub(super) const fn sign_of(state: &StepState) -> StepSign {
    match state {
        StepState::Open => StepSign::Open,
        StepState::Done => StepSign::Done,
        StepState::GonePast(_) => StepSign::GonePast,
        StepState::LeftOut(_) => StepSign::LeftOut,
        StepState::NotApplicable(_) => StepSign::NotApplicable,
        StepState::OutOfRange => StepSign::OutOfRange,
        StepState::TakenBack => StepSign::TakenBack,
    }
}
