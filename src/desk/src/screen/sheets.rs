//! What is printed: which sheets, on which paper, and the pages as they will be, over the whole window.
//!
//! The pages are made beside the frame, whenever what they are made from is another; what is saved or printed are the pages that
//! are seen.

mod choices;
mod data;
mod preview;
mod written;

use std::sync::Arc;

use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{Lettering, Page as Printed, ViewState};
use baywright_planner::model::{Arrangement, ShopFace};
use baywright_planner::words::{Locale, Units};
use baywright_planner::{Promise, assess_fully};
use egui::{ColorImage, Context, Rect, ScrollArea, TextureHandle, TextureOptions, Ui, UiBuilder};

use super::command::Command;
use super::fits::ReportFrom;
use super::page::Page;
use super::record::ProofFrom;
use super::{Desk, in_sight, look, waking};
use crate::session::document::made;
use crate::session::job::{Job, News};
use crate::session::printed::{NotMade, dots};
use written::Written;

/// The strip with what is chosen, px.
const CHOICES_PX: f32 = 300.0;
const EDGE_PX: f32 = 16.0;
/// A page is made in so many dots across; what is in sight is drawn anew in those of the screen (`preview.rs`).
const DOTS_ACROSS: f64 = 700.0;
/// So many pages are shown; all of them are saved and printed.
const MOST_SHOWN: usize = 24;
/// Dots to the inch of a picture that is saved: on a screen, in an office's printer, in a good one.
const DPI: [u32; 3] = [150, 300, 600];
const MM_PER_INCH: f64 = 25.4;

/// The page, as long as the window is open: what was chosen on it is there again when one comes back.
pub(super) struct OnPaperPage {
    chosen: Vec<Sheet>,
    /// Whether the file of proof of the record that is open is printed too.
    is_proof_chosen: bool,
    /// Whether the owner's report of what fits where is printed too.
    is_report_chosen: bool,
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
    shown: Vec<Seen>,
    sharpening: Job<Sharp>,
    writing: Job<Written>,
    /// What is wrong with where it is to be saved, and how many files that are there it would replace.
    refused: Option<(String, usize)>,
}

/// A page that is shown.
struct Seen {
    page: Printed,
    usual: TextureHandle,
    /// In as many dots across as it has on the screen.
    sharp: Option<(u32, TextureHandle)>,
}

/// A page that was drawn in so many dots across.
struct Sharp {
    at: usize,
    across: u32,
    picture: Result<ColorImage, NotMade>,
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
    proof: Option<ProofFrom>,
    report: Option<ReportFrom>,
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
            is_proof_chosen: false,
            is_report_chosen: false,
            paper: None,
            revision: String::new(),
            to: None,
            dpi: DPI[0],
            zoom: 1.0,
            of: None,
            making: Job::default(),
            pages: Arc::default(),
            shown: Vec::new(),
            sharpening: Job::default(),
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
    /// The paper that was chosen, to be remembered.
    pub(super) const fn paper_chosen(&self) -> Option<Paper> {
        self.paper
    }

    /// Takes up the paper that an earlier start had.
    pub(super) const fn begin_on(&mut self, paper: Paper) {
        self.paper = Some(paper);
    }

    /// This sheet, and no other, is chosen.
    pub(super) fn choose(&mut self, sheet: Sheet) {
        self.chosen = vec![sheet];
        (self.is_proof_chosen, self.is_report_chosen) = (false, false);
    }

    /// The file of proof, and nothing else, is chosen.
    pub(super) fn choose_proof(&mut self) {
        self.chosen.clear();
        (self.is_proof_chosen, self.is_report_chosen) = (true, false);
    }

    /// The owner's report, and nothing else, is chosen.
    pub(super) fn choose_report(&mut self) {
        self.chosen.clear();
        (self.is_proof_chosen, self.is_report_chosen) = (false, true);
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

    /// Whether the pages are made, those in sight as sharp as the screen shows them, and nothing is being written.
    pub fn is_paper_settled(&self) -> bool {
        let page = &self.on_paper;
        let is_running =
            page.making.is_running() || page.sharpening.is_running() || page.writing.is_running();
        !is_running && page.of.as_ref() == Some(&self.made_from(page))
    }

    /// How many pages there are, once they are made.
    pub fn pages_to_print(&self) -> Option<usize> {
        (!self.on_paper.making.is_running()).then(|| self.on_paper.pages.len())
    }

    /// The whole window.
    pub(super) fn sheets_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let ctx = ui.ctx().clone();
        self.follow_sheets(&ctx);
        self.follow_sharp(&ctx);
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
                        in_sight::follow(ui);
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
            proof: self.proof_from().filter(|_| page.is_proof_chosen),
            report: page.is_report_chosen.then(|| self.report_from()).flatten(),
            paper: page.paper(locale.units),
            about: About {
                day: self.document.today().map(|day| locale.region.day(day)).unwrap_or_default(),
                file: file.map(|own| own.to_string_lossy().into_owned()).unwrap_or_default(),
                shop: face.name.clone().unwrap_or_default(),
                revision: page.revision.trim().to_owned(),
                record: self.record_on_paper(),
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
                let proof = from.proof.as_ref().map(|own| own.pages(from.paper, &from.about, &lettering));
                let report = from.report.as_ref().map(|own| own.pages(from.paper, &from.about, &lettering));
                pages
                    .chain(proof.into_iter().flatten())
                    .chain(report.into_iter().flatten())
                    .enumerate()
                    .map(|(at, page)| pictured(page, at < MOST_SHOWN))
                    .collect()
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

    fn take_pages(&mut self, ctx: &Context, pages: Vec<Shown>) {
        let page = &mut self.on_paper;
        page.pages = Arc::new(pages.iter().map(|own| own.page.clone()).collect());
        let shown = pages.into_iter().filter_map(|Shown { page, picture }| {
            let usual = ctx.load_texture("page to print", picture?, TextureOptions::LINEAR);
            Some(Seen { page, usual, sharp: None })
        });
        page.shown = shown.collect();
        page.sharpening.stop();
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
    let picture = is_shown.then(|| across(&page, DOTS_ACROSS)).transpose()?;
    Ok(Shown { page, picture })
}

/// A page in so many dots across.
fn across(page: &Printed, count: f64) -> Result<ColorImage, NotMade> {
    let own = dots(page, count * MM_PER_INCH / page.size.x.max(1.0))?;
    let size = [own.width() as usize, own.height() as usize];
    Ok(ColorImage::from_rgba_premultiplied(size, own.data()))
}
