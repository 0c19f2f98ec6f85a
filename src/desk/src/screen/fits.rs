//! The page that says what fits where, over the whole window: all aimings of a list by all places of the bay, beside it what was found
//! of the one that is chosen, the place that serves the most of them, and how big an empty room must be.
//!
//! `table` draws the list, `aside` what stands beside it, `rooms` the curve of rooms; `paper` makes it a report to print.

mod aside;
mod buys;
mod fewest;
mod never;
mod owner;
mod paper;
mod rooms;
mod table;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::matrix::{
    Curve, Line, Place, Planned, lines_of_car, lines_of_layout, lines_of_visit, places_of, weigh,
};
use baywright_planner::model::{Id, JudgedBy, Layout, ParkedKnown};
use baywright_planner::place::Margin;
use egui::{IdSalt, ProgressBar, Rect, RichText, Ui, UiBuilder, Vec2};

use super::command::Command;
use super::forms::Picker;
use super::look::{self, size};
use super::page::Page;
use super::{Desk, waking, widgets};
use crate::session::document::made;
use crate::session::planning::{planned, steps};
use crate::session::slow::Slow;

pub(in crate::screen) use paper::ReportFrom;

/// Of what list it is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Whom {
    /// The set-ups of the bay.
    #[default]
    SetUps,
    /// The aimings of the visit of the shown set-up.
    Visit,
    /// All aimings of their cars.
    TheirCars,
    /// All aimings of all cars that there are.
    AllCars,
}

/// What stands beside the list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Side {
    /// The cell that is chosen.
    #[default]
    One,
    /// The place for the most, and the map.
    Most,
    /// How big a room must be.
    HowBig,
    /// What a change of the building would unlock.
    Buys,
}

/// What the answers are of: the very state of the layout, what it is judged by, the list, and the marks of the cars' profiles.
#[derive(Clone, Debug)]
struct Of {
    layout: Arc<Layout>,
    shown: Id,
    by: JudgedBy,
    whom: Whom,
    cars: Vec<String>,
}

impl PartialEq for Of {
    fn eq(&self, other: &Self) -> bool {
        let is_same = |own: &Self| (own.whom, own.shown.clone());
        is_same_work(&self.layout, &other.layout)
            && is_same(self) == is_same(other)
            && self.by == other.by
            && self.cars == other.cars
    }
}

/// The page, as long as the window is open.
#[derive(Default)]
pub(super) struct FitsPage {
    whom: Whom,
    side: Side,
    answers: Slow<Of, Planned>,
    /// Of what list was asked last.
    looked_at: Option<Whom>,
    /// Somebody had it stopped: what was found so far is what there is.
    enough: Arc<AtomicBool>,
    /// The cell that is chosen, by line and place.
    chosen: Option<(usize, usize)>,
    /// The width of the room that is looked at, mm; `None`: of the smallest.
    width_mm: Option<f64>,
    /// A figure of the owner as it is typed and not taken yet.
    typed: Option<(owner::Figure, String)>,
    buys: buys::Buys,
    nevers: never::Nevers,
    /// The rooms with another depth in store than they were worked out with.
    stored: Slow<rooms::OfStore, Arc<Curve>>,
    fewest: fewest::Fewest,
    drawn: aside::Drawn,
}

impl std::fmt::Debug for FitsPage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("FitsPage").field("whom", &self.whom).field("side", &self.side).finish_non_exhaustive()
    }
}

impl FitsPage {
    /// Takes in what was worked out since the last frame.
    ///
    /// # Errors
    /// It met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.answers.collect()?;
        self.buys.collect()?;
        self.nevers.collect()?;
        self.stored.collect()?;
        self.fewest.collect()
    }

    /// What was found so far of something, with what is proven of it and the rooms that keep so much for what is in store, mm; and whether
    /// it is of what was there earlier.
    fn found(&self, of: &Of) -> Option<(Planned, bool)> {
        let shown = self.answers.shown(of)?;
        let mut found = shown.found.clone();
        found.proven = self.nevers.proven();
        let store_mm = store_mm(&of.layout);
        if found.store_mm != store_mm {
            found.store_mm = store_mm;
            let stored = self.stored.shown(&rooms::OfStore { needs: Arc::clone(&found.needs), store_mm });
            found.room = stored.filter(|own| !own.is_older).map(|own| Arc::clone(own.found));
        }
        Some((found, shown.is_older))
    }
}

/// From the window's edge, px.
const EDGE_PX: f32 = 14.0;
/// The list takes this share of the width; from this width on both stand beside each other, px.
const LIST: f32 = 0.58;
const BESIDE_FROM_PX: f32 = 760.0;
/// The list has no less height than this where the rest stands below it, px.
const LIST_PX: f32 = 190.0;
/// The width of the choice of the list, px.
const PICKER_PX: f32 = 240.0;

impl Desk {
    /// Whether the page of what fits where lies over the screen.
    pub(super) const fn tells_fits(&self) -> bool {
        matches!(self.view.page(), Some(Page::Fits))
    }

    /// What was found on the page so far, if it is of what is there now.
    pub fn fits_planned(&self) -> Option<Planned> {
        let (found, is_older) = self.fits.found(&self.fits_of(&self.fits))?;
        (!is_older).then_some(found)
    }

    /// Whether the page has nothing more to work out.
    pub fn are_fits_found(&self) -> bool {
        let is_at_rest = self.fits.answers.progress().is_none()
            && self.fits.stored.progress().is_none()
            && self.fits.nevers.is_at_rest();
        is_at_rest && self.fits_planned().is_some()
    }

    fn fits_of(&self, page: &FitsPage) -> Of {
        Of {
            layout: Arc::clone(self.document.layout()),
            shown: self.document.shown().clone(),
            by: self.document.by().clone(),
            whom: page.whom,
            cars: self.document.cars().iter().map(|own| own.fingerprint.clone()).collect(),
        }
    }

    /// Has it all worked out, unless it is or is being.
    fn follow_fits(&self, ui: &Ui, page: &mut FitsPage) {
        let of = self.fits_of(page);
        if page.answers.is_asked(&of) {
            page.follow_store(&of, ui.ctx());
            return;
        }
        page.enough = Arc::default();
        // What is chosen stays where only the weights are others.
        if page.looked_at != Some(page.whom) {
            (page.chosen, page.width_mm) = (None, None);
        }
        page.looked_at = Some(page.whom);
        page.buys.forget();
        page.nevers.forget();
        page.fewest.forget();
        let mut lines = self.fits_lines(page.whom);
        weigh(&mut lines, &self.document.layout().owner);
        let lines: Arc<[Line]> = lines.into();
        let places: Arc<[Place]> = places_of(&of.layout).into();
        let (mm, rad) = of.by.shop.parked_within(ParkedKnown::Planned);
        let store_mm = store_mm(&of.layout);
        let enough = Arc::clone(&page.enough);
        let how = ("what fits where", steps(&lines));
        page.answers.ask(of, how, &waking(ui.ctx()), move |tell| {
            let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
            planned(&lines, &places, (Margin { mm, rad }, store_mm), &is_stopped, &mut |found, done| {
                tell.so_far(found.clone());
                tell.steps(done);
            })
        });
    }

    /// The lines of a list; what cannot be made is left out.
    fn fits_lines(&self, whom: Whom) -> Vec<Line> {
        let (layout, by) = (self.document.layout(), self.document.by());
        let cars = self.document.cars();
        let saved = || layout.arrangements.iter().filter_map(|own| made(layout, &own.id, cars, by));
        if whom == Whom::SetUps {
            return lines_of_layout(&saved().collect::<Vec<_>>());
        }
        let Some(room_of) = made(layout, self.document.shown(), cars, by).or_else(|| saved().next()) else {
            return Vec::new();
        };
        if whom == Whom::Visit {
            return lines_of_visit(layout, &room_of);
        }
        let is_asked =
            |id: &Id| whom == Whom::AllCars || layout.arrangements.iter().any(|own| own.vehicle == *id);
        let asked = cars.iter().filter(|own| is_asked(&own.vehicle.id));
        asked.flat_map(|own| lines_of_car(layout, &room_of, &own.vehicle)).collect()
    }

    /// The whole window.
    pub(super) fn fits_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let mut page = std::mem::take(&mut self.fits);
        self.follow_fits(ui, &mut page);
        let palette = self.view.theme.palette();
        let ground = egui::Frame::new().fill(look::colour(palette.sheet)).inner_margin(EDGE_PX);
        egui::CentralPanel::default().frame(ground).show(ui, |ui| {
            self.fits_head(ui, &mut page, out);
            ui.add_space(6.0);
            let all = ui.available_rect_before_wrap();
            let of = self.fits_of(&page);
            let Some((found, is_older)) = page.found(&of) else {
                if page.answers.progress().is_none() {
                    ui.label(self.view.locale.language.fits().no_list);
                }
                return;
            };
            if found.lines.is_empty() {
                ui.label(self.view.locale.language.fits().no_list);
                return;
            }
            let (list, rest) = if all.width() >= BESIDE_FROM_PX {
                all.split_left_right_at_fraction(LIST)
            } else {
                let at = all.top() + LIST_PX.max(all.height() * 0.45);
                all.split_top_bottom_at_y(at)
            };
            let rest = if all.width() >= BESIDE_FROM_PX {
                Rect::from_min_max(rest.min + Vec2::new(EDGE_PX, 0.0), rest.max)
            } else {
                Rect::from_min_max(rest.min + Vec2::new(0.0, 8.0), rest.max)
            };
            ui.scope_builder(UiBuilder::new().max_rect(list), |ui| {
                self.fits_table(ui, &mut page, &found);
            });
            ui.scope_builder(UiBuilder::new().max_rect(rest), |ui| {
                self.fits_aside(ui, &mut page, &found, is_older, out);
            });
        });
        self.fits = page;
    }

    /// Title, list, how far it is.
    fn fits_head(&self, ui: &mut Ui, page: &mut FitsPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.fits();
        ui.horizontal(|ui| {
            let title = texts.page.trim_end_matches('\u{2026}');
            ui.label(RichText::new(title).font(look::bold(18.0)));
            ui.label(widgets::soft(ui, self.document.layout().bay.name.as_str()));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                if ui.button(self.texts().close).clicked() {
                    out.push(Command::Page(None));
                }
                let paper = self.view.locale.language.on_paper();
                let press = ui.add_enabled_ui(self.has_found(page), |ui| widgets::lesser(ui, paper.title));
                if press.inner.on_hover_text(texts.on_paper_why).clicked() {
                    out.push(Command::ReportOnPaper);
                }
            });
        });
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(texts.of_what);
            let salt = IdSalt::new("list of what fits where");
            let picker = Picker { salt, path: "", named: label.id, width: PICKER_PX, letters: size::BODY };
            let name = |own: &Whom| match own {
                Whom::SetUps => texts.set_ups.to_owned(),
                Whom::Visit => texts.visit.to_owned(),
                Whom::TheirCars => texts.their_cars.to_owned(),
                Whom::AllCars => texts.all_cars.to_owned(),
            };
            let mut all = vec![Whom::SetUps, Whom::TheirCars, Whom::AllCars];
            // A visit of one aiming is that aiming.
            let saved =
                self.document.layout().arrangements.iter().find(|own| own.id == *self.document.shown());
            if saved.is_some_and(|own| own.visit.len() > 1) {
                all.insert(1, Whom::Visit);
            }
            if let Some(chosen) = picker.show(ui, None, &page.whom, &all, name).chosen {
                page.whom = chosen;
            }
            if let Some(progress) = page.answers.progress() {
                let told = texts.looked_at(progress.done, progress.all);
                let share = progress.done as f32 / progress.all.max(1) as f32;
                let bar = ProgressBar::new(share).desired_height(6.0).desired_width(120.0).animate(false);
                ui.add(bar).accessible_name(&told);
                ui.label(widgets::soft(ui, told));
                if widgets::lesser(ui, self.texts().stop).clicked() {
                    page.enough.store(true, Ordering::Relaxed);
                }
            } else if self.fits_partial(page) {
                let care = look::colour(self.view.theme.palette().care);
                ui.label(RichText::new(texts.partial).size(size::SMALL).color(care));
                if widgets::lesser(ui, texts.again).clicked() {
                    page.answers.ask_again();
                }
            }
        });
    }

    /// Whether anything of what is asked is there.
    fn has_found(&self, page: &FitsPage) -> bool {
        let shown = page.answers.shown(&self.fits_of(page));
        shown.is_some_and(|own| !own.is_older && !own.found.lines.is_empty())
    }

    fn fits_partial(&self, page: &FitsPage) -> bool {
        let shown = page.answers.shown(&self.fits_of(page));
        shown.is_some_and(|own| !own.is_older && own.found.is_partial)
    }
}

/// Whether what is asked about is the same in two states of a layout: of what the owner says only how often what comes in counts.
fn is_same_work(a: &Arc<Layout>, b: &Arc<Layout>) -> bool {
    Arc::ptr_eq(a, b)
        || (a.owner.comes_in == b.owner.comes_in && a.arrangements == b.arrangements && a.bay == b.bay)
}

/// How deep a strip of a new room the owner keeps for what is in store, mm.
fn store_mm(layout: &Layout) -> f64 {
    layout.owner.store_mm.unwrap_or(0.0)
}

/// How often a line comes in, as a figure of the owner.
fn weight_of(line: &Line) -> owner::Figure {
    owner::Figure::AMonth(line.arrangement.vehicle.id.clone(), line.arrangement.aiming.id.clone())
}
