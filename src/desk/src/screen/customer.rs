//! The page for the customer: one idea a screen, in large words, with its drawing beside them. It says what the answer says and
//! draws it with the drawings' own lists; nothing here is made up.

use std::path::{Path, PathBuf};

use baywright_drawing::sheet::Sheet;
use baywright_drawing::{Lettering, told_view};
use baywright_files::{FileFault, Picture, read_picture};
use baywright_planner::Promise;
use baywright_planner::customer::{Idea, ideas};
use baywright_planner::model::ShopFace;
use egui::text::LayoutJob;
use egui::{
    Align, ColorImage, Context, Key, Layout, Rect, RichText, Sense, TextureHandle, TextureOptions, Ui,
    UiBuilder, Vec2, ViewportCommand, WidgetInfo,
};

use super::canvas::{Fills, Painter};
use super::command::Command;
use super::look;
use super::page::Page;
use super::{Desk, waking, widgets};
use crate::session::job::{Job, News};

/// What is shown to a customer, as long as nothing changes.
#[derive(Debug, Default)]
pub(super) struct Told {
    of: Option<(u64, Option<Promise>, ShopFace)>,
    ideas: Vec<Idea>,
    fills: Fills,
    picture: ShopPicture,
    /// Whether the window fills the screen for it.
    fills_screen: bool,
    /// Whether the window filled the screen before the page did.
    was_full: bool,
}

/// The shop's picture, as long as the shop names the same one.
#[derive(Default)]
struct ShopPicture {
    of: Option<PathBuf>,
    reading: Job<Result<Picture, FileFault>>,
    texture: Option<TextureHandle>,
}

impl std::fmt::Debug for ShopPicture {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("ShopPicture").field("of", &self.of).finish_non_exhaustive()
    }
}

/// Sizes of the words on a window 900 px high; they grow and shrink with it.
const IDEA_PX: f32 = 40.0;
const LINE_PX: f32 = 25.0;
const NOTE_PX: f32 = 16.0;
const OF_HEIGHT: f32 = 900.0;
/// Words are never smaller than these shares of that.
const SMALLEST: f32 = 0.55;
/// The drawing's smallest text on such a window, px.
const DRAWN_PX: f64 = 17.0;
/// Height of the strip above and of the shop's picture in it, px.
const HEAD_PX: f32 = 56.0;
/// From the window's edge, px.
const EDGE_PX: f32 = 28.0;
/// Words take this share of the width, the drawing the rest.
const WORDS: f32 = 0.4;

impl Desk {
    /// Whether the page for the customer lies over the screen.
    pub(super) const fn tells_customer(&self) -> bool {
        matches!(self.view.page(), Some(Page::Customer(_)))
    }

    /// The window fills the screen as long as the page is there, however that came and went.
    pub(super) fn fill_screen(&mut self, ctx: &Context) {
        let fills = self.tells_customer();
        if std::mem::replace(&mut self.told.fills_screen, fills) == fills {
            return;
        }
        let is_full = ctx.input(|i| i.viewport().fullscreen).unwrap_or(false);
        if fills {
            self.told.was_full = is_full;
        }
        let wanted = fills || self.told.was_full;
        if wanted != is_full {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(wanted));
        }
    }

    /// What there is to tell, worked out anew when something changed.
    fn follow_told(&mut self) {
        let (promise, face) = (&self.answer.assessment.promise, self.shop.face());
        let is_same = self.told.of.as_ref().is_some_and(|(generation, of_promise, of_face)| {
            *generation == self.answer.generation && of_promise == promise && of_face == face
        });
        if !is_same {
            self.told.ideas = ideas(&self.answer.judged, &self.answer.assessment, face);
            self.told.of = Some((self.answer.generation, promise.clone(), face.clone()));
        }
    }

    /// Reads the shop's picture when the shop names another one; a frame never waits for it.
    fn follow_shop_picture(&mut self, ctx: &Context) {
        let folder = self.shop.path().and_then(Path::parent).unwrap_or(Path::new(""));
        let wanted = self.shop.face().picture.as_ref().map(|own| folder.join(own));
        if self.told.picture.of != wanted {
            self.told.picture = ShopPicture { of: wanted.clone(), ..ShopPicture::default() };
            if let Some(path) = wanted {
                let wake = waking(ctx);
                self.told.picture.reading.start("shop picture", 1, &wake, move |_| read_picture(&path));
            }
        }
        match self.told.picture.reading.news().pop() {
            Some(News::Done(Ok(picture)) | News::SoFar(Ok(picture))) => {
                let size = [picture.width as usize, picture.height as usize];
                let image = ColorImage::from_rgba_unmultiplied(size, &picture.rgba);
                self.told.picture.texture = Some(ctx.load_texture("shop", image, TextureOptions::LINEAR));
            }
            Some(News::Done(Err(fault)) | News::SoFar(Err(fault))) => {
                self.say_wrong(self.view.locale.language.file_fault(&fault));
            }
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
    }

    /// The whole window.
    pub(super) fn customer(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let Some(&Page::Customer(at)) = self.view.page() else { return };
        let ctx = ui.ctx().clone();
        self.follow_told();
        self.follow_shop_picture(&ctx);
        let all = self.told.ideas.len();
        let at = at.min(all.saturating_sub(1));
        let paper = look::colour(self.view.theme.palette().paper);
        egui::CentralPanel::default().frame(egui::Frame::new().fill(paper)).show(ui, |ui| {
            let page = ui.max_rect().shrink(EDGE_PX);
            let head = Rect::from_min_size(page.min, Vec2::new(page.width(), HEAD_PX));
            self.customer_head(ui, head, (at, all), out);
            let body = Rect::from_min_max(page.min + Vec2::new(0.0, HEAD_PX + EDGE_PX * 0.5), page.max);
            let mut told = std::mem::take(&mut self.told);
            if let Some(idea) = told.ideas.get(at) {
                let split = (body.width() * WORDS).round();
                let words = Rect::from_min_size(body.min, Vec2::new(split - EDGE_PX, body.height()));
                let drawn = Rect::from_min_max(body.min + Vec2::new(split, 0.0), body.max);
                self.customer_words(ui, words, idea);
                self.customer_drawing(ui, drawn, idea, &mut told.fills);
            }
            self.told = told;
        });
    }

    fn customer_head(&self, ui: &mut Ui, rect: Rect, (at, all): (usize, usize), out: &mut Vec<Command>) {
        let texts = self.view.locale.language.customer();
        ui.scope_builder(
            UiBuilder::new().max_rect(rect).layout(Layout::left_to_right(Align::Center)),
            |ui| {
                if let Some(texture) = &self.told.picture.texture {
                    let size = texture.size_vec2();
                    let height = HEAD_PX;
                    let shown =
                        Vec2::new((size.x * height / size.y.max(1.0)).min(rect.width() * 0.3), height);
                    let response = ui.image((texture.id(), shown));
                    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, texts.own_picture));
                    ui.add_space(8.0);
                }
                if let Some(name) = &self.shop.face().name {
                    // The presses keep their room beside a long one.
                    ui.scope(|ui| {
                        ui.set_max_width(rect.width() * 0.4);
                        ui.add(egui::Label::new(RichText::new(name).font(look::bold(22.0))).truncate());
                    });
                }
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    if widgets::lesser(ui, texts.leave).on_hover_text(texts.keys).clicked() {
                        out.push(Command::Page(None));
                    }
                    let on_paper = self.view.locale.language.on_paper();
                    if widgets::lesser(ui, on_paper.title).on_hover_text(on_paper.title_why).clicked() {
                        out.push(Command::OnPaper(Sheet::Customer));
                    }
                    let next =
                        ui.add_enabled_ui(at + 1 < all, |ui| widgets::press(ui, self.view.theme, texts.next));
                    if next.inner.clicked() {
                        out.push(Command::Page(Some(Page::Customer(at + 1))));
                    }
                    let back = ui.add_enabled_ui(at > 0, |ui| widgets::lesser(ui, texts.back));
                    if back.inner.clicked() {
                        out.push(Command::Page(Some(Page::Customer(at.saturating_sub(1)))));
                    }
                    ui.label(widgets::soft(ui, texts.screen_of(at + 1, all)));
                });
            },
        );
    }

    /// The idea and what is told with it, as large as all of it fits.
    fn customer_words(&self, ui: &mut Ui, rect: Rect, idea: &Idea) {
        let words = self.words();
        let texts = self.view.locale.language.customer();
        let title = widgets::unbroken(words.idea(idea));
        let lines: Vec<String> =
            words.idea_lines(idea, &self.answer.assessment).into_iter().map(widgets::unbroken).collect();
        let mut notes = Vec::new();
        if self.answer.assessment.on_example_figures {
            notes.push(texts.made_up);
        }
        if self.answer.stale {
            notes.push(texts.older);
        }
        if matches!(idea, Idea::Moves(_) | Idea::Work(_)) {
            notes.push(texts.our_part);
        }
        let ink = ui.visuals().text_color();
        let fonts = |scale: f32| {
            let of_window = (rect.height() / (OF_HEIGHT - HEAD_PX - 2.0 * EDGE_PX)).clamp(0.6, 2.0) * scale;
            (
                look::bold(IDEA_PX * of_window),
                look::letters(LINE_PX * of_window, baywright_drawing::Weight::Regular),
                look::letters(
                    (NOTE_PX * of_window).max(look::size::BODY),
                    baywright_drawing::Weight::Regular,
                ),
                18.0 * of_window,
            )
        };
        let height = |scale: f32| {
            let (of_title, of_lines, of_notes, gap) = fonts(scale);
            let of = |text: &str, font: &egui::FontId| {
                let job = LayoutJob::simple(text.to_owned(), font.clone(), ink, rect.width());
                ui.painter().layout_job(job).size().y + gap
            };
            of(&title, &of_title)
                + lines.iter().map(|line| of(line, &of_lines)).sum::<f32>()
                + notes.iter().map(|note| of(note, &of_notes)).sum::<f32>()
        };
        let mut scale = 1.0;
        while scale > SMALLEST && height(scale) > rect.height() {
            scale -= 0.05;
        }
        let (of_title, of_lines, of_notes, gap) = fonts(scale);
        ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
            ui.spacing_mut().item_spacing.y = gap;
            ui.add(egui::Label::new(RichText::new(title).font(of_title)).wrap());
            for line in lines {
                ui.add(egui::Label::new(RichText::new(line).font(of_lines.clone())).wrap());
            }
            let soft = ui.visuals().weak_text_color();
            for note in notes {
                ui.add(egui::Label::new(RichText::new(note).font(of_notes.clone()).color(soft)).wrap());
            }
        });
    }

    fn customer_drawing(&self, ui: &mut Ui, rect: Rect, idea: &Idea, fills: &mut Fills) {
        fills.next_frame();
        let least_text = DRAWN_PX * f64::from(rect.height() / OF_HEIGHT).clamp(0.75, 2.0);
        let lettering = Lettering { locale: self.view.locale, least_text, ..Lettering::default() };
        let size = (f64::from(rect.width()), f64::from(rect.height()));
        let drawing = told_view(idea, &self.answer.judged, &self.answer.assessment, size, &lettering);
        let drawn = Vec2::new(drawing.size.x as f32, drawing.size.y as f32);
        let own =
            Rect::from_min_size(rect.min + Vec2::new(0.0, (rect.height() - drawn.y).max(0.0) * 0.5), drawn);
        let texts = self.view.locale.language.customer();
        let name = match idea {
            Idea::Why(sense) => texts.why_picture(*sense),
            Idea::SendsBack(_) => texts.sent_back,
            _ => self.words().top_view(),
        };
        let response = ui.interact(own, egui::Id::unique("customer's drawing"), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, name));
        let mut painter = Painter::of_all(&drawing, (ui.ctx(), self.view.theme), own.min, fills);
        painter.drawing(&drawing);
        let shapes = std::mem::take(&mut painter.out);
        ui.painter().with_clip_rect(own.intersect(ui.clip_rect())).extend(shapes);
    }

    /// The keys there: arrows and Page keys turn, Home and End lead to the ends, Escape leaves.
    pub(super) fn customer_keys(
        &self,
        at: usize,
        pressed: &impl Fn(egui::Modifiers, Key) -> bool,
        out: &mut Vec<Command>,
    ) {
        let last = self.told.ideas.len().saturating_sub(1);
        let any = |keys: &[Key]| keys.iter().any(|&key| pressed(egui::Modifiers::NONE, key));
        let to = if any(&[Key::ArrowRight, Key::ArrowDown, Key::PageDown]) {
            Some((at + 1).min(last))
        } else if any(&[Key::ArrowLeft, Key::ArrowUp, Key::PageUp]) {
            Some(at.saturating_sub(1))
        } else if any(&[Key::Home]) {
            Some(0)
        } else if any(&[Key::End]) {
            Some(last)
        } else {
            None
        };
        out.extend(to.map(|to| Command::Page(Some(Page::Customer(to)))));
        if pressed(egui::Modifiers::COMMAND, Key::P) {
            out.push(Command::OnPaper(Sheet::Customer));
        }
        if any(&[Key::Escape, Key::F5]) {
            out.push(Command::Page(None));
        }
    }
}
