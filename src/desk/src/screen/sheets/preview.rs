//! The pages as they will be printed, one below the other. Those in sight are drawn in the screen's own dots, a page at a time, beside
//! the frame; the others as they were made.

use egui::emath::GuiRounding;
use egui::{
    Align, Color32, Context, Key, Layout, Modifiers, Pos2, Rect, RichText, ScrollArea, Sense, Stroke,
    StrokeKind, TextureOptions, Ui, Vec2, WidgetInfo,
};

use super::{OnPaperPage, Seen, Sharp, across};
use crate::screen::in_sight::{self, ScrolledBy};
use crate::screen::look::size;
use crate::screen::{Desk, waking, widgets};
use crate::session::job::News;

/// Between two pages, px.
const GAP_PX: f32 = 14.0;
/// Above the first page, so that its edge is seen, px.
const EDGE_PX: f32 = 2.0;
/// How large pages are shown, in shares of the width that there is, and by how much a press changes that.
const SMALLEST: f32 = 0.3;
const LARGEST: f32 = 3.0;
const STEP: f32 = 1.25;
/// No page is drawn in more dots along its longer side.
const MOST_DOTS: f32 = 4_096.0;

impl Desk {
    /// Takes up what was drawn sharper. What cannot be drawn so stays as it is: it can be printed all the same.
    pub(super) fn follow_sharp(&mut self, ctx: &Context) {
        let page = &mut self.on_paper;
        match page.sharpening.news().pop() {
            Some(News::Done(Sharp { at, across, picture }) | News::SoFar(Sharp { at, across, picture })) => {
                if let Some(own) = page.shown.get_mut(at) {
                    let texture = match picture {
                        Ok(picture) => ctx.load_texture("page in sight", picture, TextureOptions::LINEAR),
                        Err(_) => own.usual.clone(),
                    };
                    own.sharp = Some((across, texture));
                }
            }
            Some(News::Failed(words)) => self.log.push(&words),
            None => {}
        }
    }

    pub(super) fn preview(&self, ui: &mut Ui, page: &mut OnPaperPage) {
        let texts = self.view.locale.language.on_paper();
        let count = page.pages.len();
        ui.horizontal(|ui| {
            if self.answer.stale {
                let colour = ui.visuals().error_fg_color;
                let said = RichText::new(self.texts().stale_why).size(size::SMALL).color(colour);
                ui.add(egui::Label::new(said).wrap());
            } else if page.chosen.is_empty() {
                ui.label(widgets::soft(ui, texts.none_chosen));
            } else if page.making.is_running() {
                ui.label(widgets::soft(ui, texts.being_made));
            } else {
                ui.label(widgets::soft(ui, texts.pages(count)));
                if count > page.shown.len() {
                    ui.label(widgets::soft(ui, texts.first_shown(page.shown.len())));
                }
            }
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if widgets::lesser(ui, "+").on_hover_text(texts.enlarge).clicked() {
                    page.zoom *= STEP;
                }
                if widgets::lesser(ui, "\u{2212}").on_hover_text(texts.reduce).clicked() {
                    page.zoom /= STEP;
                }
            });
        });
        page.zoom = (page.zoom * zoomed_by_keys(ui) * ui.input(|i| i.zoom_delta())).clamp(SMALLEST, LARGEST);
        let shadow = ui.visuals().weak_text_color();
        let dots = ui.ctx().pixels_per_point();
        let most = MOST_DOTS.min(ui.input(|i| i.max_texture_side) as f32);
        let mut wanted = None;
        ScrollArea::both().id_salt("pages").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = GAP_PX;
            let room = ui.available_width() - 2.0;
            ui.add_space(EDGE_PX);
            for (at, own) in page.shown.iter_mut().enumerate() {
                let of_paper = own.page.size.as_vec2();
                // All of a page that lies upright is seen at once where the window is high enough.
                let least =
                    ((ui.clip_rect().height() - 2.0 * EDGE_PX) / of_paper.y * of_paper.x).max(room * 0.5);
                let width = room.min(least) * page.zoom;
                let seen = Vec2::new(width, width * of_paper.y / of_paper.x);
                ui.horizontal(|ui| {
                    ui.add_space(((room - width) * 0.5).max(0.0));
                    let (rect, response) = ui.allocate_exact_size(seen, Sense::hover());
                    let rect = rect.round_to_pixels(dots);
                    let name = texts.page(at + 1, count, &own.page.title, &own.page.description);
                    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &name));
                    let is_seen = ui.is_rect_visible(rect);
                    if is_seen {
                        let across = dots_across(rect, dots, most);
                        if own.sharp.as_ref().is_none_or(|(own, _)| *own != across) {
                            wanted = wanted.or(Some((at, across)));
                        }
                    } else {
                        own.sharp = None;
                    }
                    paint(ui, own, rect, Stroke::new(1.0, shadow));
                });
            }
            in_sight::by_keys(ui, texts.pages_name, ScrolledBy::PageKeys);
        });
        if let Some((at, count)) = wanted.filter(|_| !page.sharpening.is_running())
            && let Some(own) = page.shown.get(at)
        {
            let own = own.page.clone();
            page.sharpening.start("page in sight", 1, &waking(ui.ctx()), move |_| Sharp {
                at,
                across: count,
                picture: across(&own, f64::from(count)),
            });
        }
    }
}

/// As many dots as a page has across on the screen, but no more than `most` along its longer side.
fn dots_across(rect: Rect, dots: f32, most: f32) -> u32 {
    let longer = rect.width().max(rect.height()) * dots;
    let less = (most / longer).min(1.0);
    (rect.width() * dots * less).round().max(1.0) as u32
}

fn paint(ui: &Ui, own: &Seen, rect: Rect, edge: Stroke) {
    let texture = own.sharp.as_ref().map_or(&own.usual, |(_, texture)| texture);
    let whole = Rect::from_min_max(Pos2::ZERO, Pos2::new(1.0, 1.0));
    ui.painter().image(texture.id(), rect, whole, Color32::WHITE);
    ui.painter().rect_stroke(rect, 0.0, edge, StrokeKind::Outside);
}

/// Plus and minus, where they are not typed.
fn zoomed_by_keys(ui: &Ui) -> f32 {
    if ui.ctx().text_edit_focused() {
        return 1.0;
    }
    let presses = |modifiers, key| ui.input_mut(|i| i.count_and_consume_key(modifiers, key)) as i32;
    let larger = presses(Modifiers::NONE, Key::Plus)
        + presses(Modifiers::SHIFT, Key::Plus)
        + presses(Modifiers::NONE, Key::Equals);
    STEP.powi(larger - presses(Modifiers::NONE, Key::Minus))
}
