//! What is printed: which sheets, on which paper, and the pages as they will be, over the whole window.
//!
//! The pages are made beside the frame, whenever what they are made from is another; what is saved or printed are the pages that
//! are seen.

mod written;

use std::sync::Arc;

use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{Lettering, Page as Printed, ViewState};
use baywright_planner::model::{Arrangement, ShopFace};
use baywright_planner::words::{Locale, Units};
use baywright_planner::{Promise, assess_fully};
use egui::{
    Align, ColorImage, Context, Layout, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, TextEdit,
    TextureHandle, TextureOptions, Ui, UiBuilder, Vec2, WidgetInfo,
};

use super::command::{Command, OfFile};
use super::look::{self, size};
use super::page::Page;
use super::{Desk, waking, widgets};
use crate::session::document::made;
use crate::session::job::{Job, News};
use crate::session::printed::{NotMade, dots};
use written::Written;

/// The strip with what is chosen, px.
const CHOICES_PX: f32 = 300.0;
const EDGE_PX: f32 = 16.0;
/// Between two pages, px.
const GAP_PX: f32 = 14.0;
/// A page is seen in so many dots across.
const DOTS_ACROSS: f64 = 1_100.0;
/// So many pages are shown; all of them are saved and printed.
const MOST_SHOWN: usize = 24;
/// How large pages are shown, in shares of the width that there is, and by how much a press changes that.
const SMALLEST: f32 = 0.3;
const LARGEST: f32 = 3.0;
const STEP: f32 = 1.25;
/// Dots to the inch of a picture that is saved: on a screen, in an office's printer, in a good one.
const DPI: [u32; 3] = [150, 300, 600];
const MM_PER_INCH: f64 = 25.4;

/// The page, as long as the window is open: what was chosen on it is there again when one comes back.
pub(super) struct OnPaperPage {
    chosen: Vec<Sheet>,
    /// `None`: what is usual where lengths are shown so.
    paper: Option<Paper>,
    revision: String,
    /// Where it is saved, as it was typed; `None`: as it is suggested.
    to: Option<String>,
    dpi: u32,
    zoom: f32,
    /// What the pages that are being made, or were, are made from.
    of: Option<MadeFrom>,
    making: Job<Result<Vec<Shown>, NotMade>>,
    pages: Arc<Vec<Printed>>,
    shown: Vec<(Shown, TextureHandle)>,
    writing: Job<Written>,
    /// What is wrong with where it is to be saved, and whether it may be replaced.
    refused: Option<(String, bool)>,
}

/// A page as it will be printed.
struct Shown {
    page: Printed,
    /// Nothing for a page that is not shown.
    picture: Option<ColorImage>,
}

/// Everything that pages are made from: as long as it is the same, so are they.
#[derive(Clone, Debug, PartialEq)]
struct MadeFrom {
    generation: u64,
    promise: Option<Promise>,
    chosen: Vec<Sheet>,
    paper: Paper,
    about: About,
    face: ShopFace,
    numbers: Arc<[Option<usize>]>,
    locale: Locale,
}

impl Default for OnPaperPage {
    fn default() -> Self {
        Self {
            chosen: vec![Sheet::Marks],
            paper: None,
            revision: String::new(),
            to: None,
            dpi: DPI[0],
            zoom: 1.0,
            of: None,
            making: Job::default(),
            pages: Arc::default(),
            shown: Vec::new(),
            writing: Job::default(),
            refused: None,
        }
    }
}

impl std::fmt::Debug for OnPaperPage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("OnPaperPage").field("of", &self.of).finish_non_exhaustive()
    }
}

impl OnPaperPage {
    /// The size of paper that was chosen, to be remembered.
    pub(super) fn size_chosen(&self) -> Option<Size> {
        self.paper.map(|own| own.size)
    }

    /// Takes up the size that an earlier start had.
    pub(super) fn begin_on(&mut self, size: Size) {
        self.paper = Some(Paper::portrait(size));
    }

    fn paper(&self, units: Units) -> Paper {
        let usual = if units == Units::FeetInches { Size::Letter } else { Size::A4 };
        self.paper.unwrap_or(Paper::portrait(usual))
    }
}

impl Desk {
    /// Whether the page with what is printed lies over the screen.
    pub(super) const fn is_on_paper(&self) -> bool {
        matches!(self.view.page(), Some(Page::OnPaper))
    }

    /// How many pages there are, once they are made.
    pub fn pages_to_print(&self) -> Option<usize> {
        (!self.on_paper.making.is_running()).then(|| self.on_paper.pages.len())
    }

    /// The whole window.
    pub(super) fn sheets_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let ctx = ui.ctx().clone();
        self.follow_sheets(&ctx);
        let palette = self.view.theme.palette();
        let ground = egui::Frame::new().fill(look::colour(palette.sheet));
        egui::CentralPanel::default().frame(ground).show(ui, |ui| {
            let all = ui.max_rect();
            let split = all.left() + CHOICES_PX.min(all.width() * 0.4);
            let choices = Rect::from_min_max(all.min, egui::pos2(split, all.bottom())).shrink(EDGE_PX);
            let seen = Rect::from_min_max(egui::pos2(split, all.top()), all.max);
            let mut page = std::mem::take(&mut self.on_paper);
            ui.scope_builder(UiBuilder::new().max_rect(choices), |ui| {
                ScrollArea::vertical().id_salt("what is printed").auto_shrink([false, false]).show(
                    ui,
                    |ui| {
                        self.choices(ui, &mut page, out);
                    },
                );
            });
            ui.painter().rect_filled(seen, 0.0, look::colour(palette.panel));
            ui.scope_builder(UiBuilder::new().max_rect(seen.shrink(EDGE_PX)), |ui| {
                self.preview(ui, &mut page);
            });
            self.on_paper = page;
        });
    }

    fn choices(&self, ui: &mut Ui, page: &mut OnPaperPage, out: &mut Vec<Command>) {
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
        let named = ui.label(widgets::soft(ui, texts.save_hint)).id;
        let field = ui.add(TextEdit::singleline(&mut to).desired_width(f32::INFINITY)).labelled_by(named);
        if field.changed() {
            page.to = Some(to.clone());
            page.refused = None;
        }
        let path = std::path::PathBuf::from(to.trim());
        if to.trim().to_lowercase().ends_with(".png") {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.dpi));
                for own in DPI {
                    ui.selectable_value(&mut page.dpi, own, own.to_string());
                }
            });
        }
        ui.horizontal(|ui| {
            let save = ui.add_enabled_ui(can, |ui| widgets::lesser(ui, texts.save)).inner;
            let entered = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
            if can && (save.clicked() || entered) {
                out.push(Command::File(OfFile::SaveSheets(path.clone(), false)));
            }
            let look = ui
                .add_enabled_ui(can && !self.files.is_open(), |ui| widgets::lesser(ui, texts.look_for_place));
            if look.inner.clicked() {
                out.push(Command::File(OfFile::AskSheets(path.clone())));
            }
        });
        if let Some((why, may_be_replaced)) = &page.refused {
            let colour = ui.visuals().error_fg_color;
            let said = RichText::new(widgets::unbroken(why.as_str())).size(size::SMALL).color(colour);
            ui.add(egui::Label::new(said).wrap());
            if *may_be_replaced && widgets::lesser(ui, texts.replace).clicked() {
                out.push(Command::File(OfFile::SaveSheets(path, true)));
            }
        }
    }

    fn preview(&self, ui: &mut Ui, page: &mut OnPaperPage) {
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
        page.zoom = (page.zoom * ui.input(|i| i.zoom_delta())).clamp(SMALLEST, LARGEST);
        let shadow = ui.visuals().weak_text_color();
        ScrollArea::both().id_salt("pages").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = GAP_PX;
            let room = ui.available_width() - 2.0;
            for (at, (own, texture)) in page.shown.iter().enumerate() {
                let of_paper = own.page.size.as_vec2();
                // All of a page that lies upright is seen at once where the window is high enough.
                let least = (ui.clip_rect().height() / of_paper.y * of_paper.x).max(room * 0.5);
                let width = room.min(least) * page.zoom;
                let seen = Vec2::new(width, width * of_paper.y / of_paper.x);
                ui.horizontal(|ui| {
                    ui.add_space(((room - width) * 0.5).max(0.0));
                    let (rect, response) = ui.allocate_exact_size(seen, Sense::hover());
                    let name = texts.page(at + 1, count, &own.page.title, &own.page.description);
                    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &name));
                    let whole = Rect::from_min_max(egui::pos2(0.0, 0.0), egui::pos2(1.0, 1.0));
                    ui.painter().image(texture.id(), rect, whole, egui::Color32::WHITE);
                    ui.painter().rect_stroke(rect, 0.0, Stroke::new(1.0, shadow), StrokeKind::Outside);
                });
            }
        });
    }

    /// Whether the pages that are there are those of what is chosen and drawn now.
    fn can_print(&self, page: &OnPaperPage) -> bool {
        !page.pages.is_empty() && !page.making.is_running() && page.of.as_ref() == Some(&self.made_from(page))
    }

    /// Whether the bay is another than it was when it was opened.
    fn was_otherwise(&self) -> bool {
        let (opened, now) = (self.document.opened(), self.document.layout());
        !Arc::ptr_eq(opened, now) && opened != now
    }

    /// The set-up as it was opened, if it was otherwise then.
    fn as_opened(&self) -> Option<Arrangement> {
        let opened = self.document.opened();
        let id = self.document.opened_as().filter(|_| self.was_otherwise())?;
        made(opened, id, self.document.cars(), self.document.by())
    }

    /// What the pages are to be made from. Nothing is printed of an answer that is older than what is drawn.
    fn made_from(&self, page: &OnPaperPage) -> MadeFrom {
        let locale = self.view.locale;
        let face = self.shop.face().clone();
        let file = self.document.path().and_then(std::path::Path::file_name);
        MadeFrom {
            generation: self.answer.generation,
            promise: self.answer.assessment.promise.clone(),
            chosen: if self.answer.stale { Vec::new() } else { page.chosen.clone() },
            paper: page.paper(locale.units),
            about: About {
                day: self.document.today().map(|day| locale.region.day(day)).unwrap_or_default(),
                file: file.map(|own| own.to_string_lossy().into_owned()).unwrap_or_default(),
                shop: face.name.clone().unwrap_or_default(),
                revision: page.revision.trim().to_owned(),
            },
            face,
            numbers: self.answer.letters().numbers(),
            locale,
        }
    }

    /// Has the pages made anew when what they are made from is another, and takes them up once they are.
    fn follow_sheets(&mut self, ctx: &Context) {
        let locale = self.view.locale;
        let from = self.made_from(&self.on_paper);
        if self.on_paper.of.as_ref() != Some(&from) {
            let now = (Arc::clone(&self.answer.judged), Arc::clone(&self.answer.assessment));
            let before = self.as_opened();
            let as_opened = self.texts().as_opened.to_owned();
            self.on_paper.of = Some(from.clone());
            self.on_paper.refused = None;
            self.on_paper.making.start("sheets", 1, &waking(ctx), move |_| {
                let before = before.map(|own| (assess_fully(&own), own));
                let state = ViewState { numbers: from.numbers, ..ViewState::default() };
                let of = Of {
                    now: Answered { arrangement: &now.0, assessment: &now.1, name: now.0.id.as_str() },
                    before: before.as_ref().map(|(said, own)| Answered {
                        arrangement: own,
                        assessment: said,
                        name: &as_opened,
                    }),
                    state: &state,
                    face: &from.face,
                };
                let lettering = Lettering { locale, ..Lettering::default() };
                let pages = from
                    .chosen
                    .iter()
                    .flat_map(|kind| sheet(*kind, &of, from.paper, &from.about, &lettering));
                pages.enumerate().map(|(at, page)| pictured(page, at < MOST_SHOWN)).collect()
            });
        }
        match self.on_paper.making.news().pop() {
            Some(News::Done(Ok(pages)) | News::SoFar(Ok(pages))) => self.take_pages(ctx, pages),
            Some(News::Done(Err(fault)) | News::SoFar(Err(fault))) => {
                self.take_pages(ctx, Vec::new());
                self.say_wrong(self.not_made(&fault));
            }
            Some(News::Failed(words)) => {
                self.take_pages(ctx, Vec::new());
                self.say_wrong(self.texts().failed_beside(&words));
            }
            None => {}
        }
    }

    fn take_pages(&mut self, ctx: &Context, mut pages: Vec<Shown>) {
        self.on_paper.pages = Arc::new(pages.iter().map(|own| own.page.clone()).collect());
        let pictures: Vec<Option<ColorImage>> = pages.iter_mut().map(|own| own.picture.take()).collect();
        let shown = pages.into_iter().zip(pictures).filter_map(|(own, picture)| {
            let texture = ctx.load_texture("page to print", picture?, TextureOptions::LINEAR);
            Some((own, texture))
        });
        self.on_paper.shown = shown.collect();
    }

    fn not_made(&self, fault: &NotMade) -> String {
        let texts = self.view.locale.language.on_paper();
        match fault {
            NotMade::TooManyPixels([width, height, most]) => texts.too_many_pixels(*width, *height, *most),
            NotMade::NoPages(why) => texts.not_made(why),
        }
    }
}

/// A page with its picture.
fn pictured(page: Printed, is_shown: bool) -> Result<Shown, NotMade> {
    let dpi = DOTS_ACROSS * MM_PER_INCH / page.size.x.max(1.0);
    let picture = is_shown.then(|| dots(&page, dpi)).transpose()?;
    let picture = picture.map(|own| {
        let size = [own.width() as usize, own.height() as usize];
        ColorImage::from_rgba_premultiplied(size, own.data())
    });
    Ok(Shown { page, picture })
}

fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(text).font(look::bold(size::BODY)));
}
