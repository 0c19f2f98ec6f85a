//! Where the car can stand: the floor tinted for its heading as it is now, the best spots of all headings, each told so that a person
//! parks there by tape, and parked by one press.

mod clearing;
mod never;
mod permanent;
mod way_in;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::clearing::Where;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{PlanPose, angle};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::place::{Offered, Places, Search, all_headings, offered, stood};
use baywright_planner::way_in::Driven;
use egui::{CornerRadius, Frame, Label, Margin, RichText, ScrollArea, Stroke, Ui, Vec2};

pub(super) use permanent::Staying;

use clearing::Clearing;

use super::command::{Command, OfBay, OfView};
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::page::Page;
use super::view::Tab;
use super::{Desk, waking, widgets};
use crate::session::answer::SlowPart;
use crate::session::caught::caught;
use crate::session::job::Progress;
use crate::session::slow::Shown;

/// So many headings are looked at before it is told again: each time wakes the screen.
const TOLD_EVERY: usize = 20;
/// A car stands at a spot if it is no further from it, mm and rad.
const THERE_MM: f64 = 0.5;
const THERE_RAD: f64 = 1e-6;

/// What the pointer or the keyboard is at.
#[derive(Default)]
struct Lit {
    spot: Option<PlanPose>,
    way_in: Option<Arc<Driven>>,
}

/// What is known of where the car can stand.
#[derive(Debug, Default)]
pub(super) struct Parking {
    /// The car and the set-up that it is of: of another nothing is shown, not even as older.
    of: Option<[Id; 4]>,
    /// What does not depend on where the car stands, of what set-up.
    search: Option<(Arrangement, Search)>,
    /// The tint, of what answer.
    tint: Option<(u64, Arc<Places>)>,
    offered: SlowPart<Offered>,
    /// Whether it fits nowhere at all.
    pub never: never::FitsNowhere,
    /// How the car comes to what is offered.
    ways_in: way_in::WaysIn,
    /// Of what answer it was asked for last.
    asked: Option<u64>,
    /// Somebody had the search stopped: what it found so far is what there is.
    enough: Arc<AtomicBool>,
    clearing: Clearing,
    /// The keyboard goes to the panel's tab.
    pub leads: bool,
}

impl Parking {
    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        let looked = [self.never.collect(), self.ways_in.collect(), self.clearing.collect()];
        looked.into_iter().fold(self.offered.collect(), Result::and)
    }

    /// Ends the search: it tells what it found so far.
    pub fn stop(&self) {
        self.enough.store(true, Ordering::Relaxed);
        self.clearing.stop();
    }

    /// Has the same looked for once more.
    pub fn look_again(&mut self) {
        self.enough = Arc::default();
        self.offered.ask_again();
    }

    /// Has it looked for what must move, of this answer.
    pub fn ask_what_moves(&mut self, generation: u64, at: Where) {
        self.clearing.ask(generation, at);
    }

    /// The places for the car's heading as it is now; the search is made anew only for what does not go with the car.
    fn tinted(&mut self, judged: &Arrangement, generation: u64) -> Option<Arc<Places>> {
        if let Some((of, tint)) = &self.tint
            && *of == generation
        {
            return Some(Arc::clone(tint));
        }
        let parked_nowhere = stood(judged, PlanPose::IDENTITY);
        let heading = judged.parked.heading();
        let is_same = self.search.as_ref().is_some_and(|own| own.0 == parked_nowhere);
        let before = self.tint.take().filter(|(_, own)| is_same && own.heading_rad == heading);
        let tint = match before {
            Some((_, tint)) => tint,
            None => {
                if !is_same {
                    let search = caught(|| Search::new(judged)).ok()?;
                    self.search = Some((parked_nowhere, search));
                }
                let search = &self.search.as_ref()?.1;
                Arc::new(caught(|| search.places(heading)).ok()?)
            }
        };
        self.tint = Some((generation, Arc::clone(&tint)));
        Some(tint)
    }
}

impl Desk {
    /// Before anything is drawn: the tint of what is shown now, and the best spots looked for while nothing is in the hand.
    pub(super) fn look_where(&mut self, ctx: &egui::Context) {
        self.view.spot = None;
        (self.view.places, self.view.staying) = (None, None);
        (self.view.decides, self.view.way_in) = (None, None);
        self.view.to_do.clear();
        if self.view.tab != Tab::Parking || self.view.page().is_some() {
            return;
        }
        if self.look_for_lines(ctx) {
            return;
        }
        let judged = Arc::clone(&self.answer.judged);
        let of = [&judged.bay.id, &judged.id, &judged.vehicle.id, &judged.aiming.id].map(Id::clone);
        if self.parking.of.as_ref() != Some(&of) {
            self.parking = Parking { of: Some(of), leads: self.parking.leads, ..Parking::default() };
        }
        if self.answer.stale {
            return;
        }
        self.view.places = self.parking.tinted(&judged, self.answer.generation);
        self.parking.never.look(&self.answer, ctx);
        if self.canvas.is_dragging() || self.document.is_held() {
            return;
        }
        if self.parking.asked != Some(self.answer.generation) {
            (self.parking.asked, self.parking.enough) = (Some(self.answer.generation), Arc::default());
        }
        let enough = Arc::clone(&self.parking.enough);
        let how = ("spots", all_headings(&judged));
        self.answer.work_out(&mut self.parking.offered, how, &waking(ctx), move |own, _, tell| {
            let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
            offered(own, &is_stopped, &mut |done| {
                if done % TOLD_EVERY == 0 {
                    tell.steps(done);
                }
            })
        });
        self.look_for_ways_in(ctx);
        self.look_what_moves(ctx);
    }

    /// The panel.
    pub(super) fn where_to_park(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.staying.is_open {
            return self.lines_that_stay(ui, out);
        }
        let texts = self.view.locale.language.place();
        let mut lit = Lit::default();
        ScrollArea::vertical().id_salt("parking").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 6.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            let title = RichText::new(texts.title).font(look::bold(size::BODY));
            ui.add(Label::new(title).wrap());
            // Each part is one for what stands below it, be there something of it or not: the keyboard stays where it is when a line comes.
            ui.scope(|ui| self.tint_told(ui));
            let fits = self.view.locale.language.fits();
            if widgets::lesser(ui, fits.page).on_hover_text(fits.page_why).clicked() {
                out.push(Command::Page(Some(Page::Fits)));
            }
            ui.scope(|ui| self.search_told(ui, out));
            lit.way_in = ui.scope(|ui| self.way_in_here(ui)).inner;
            ui.scope(|ui| self.what_must_move_here(ui, &mut lit.spot, out));
            ui.scope(|ui| {
                if let Some(shown) = self.answer.shown_of(&self.parking.offered) {
                    self.offers(ui, &shown, &mut lit, out);
                }
            });
            ui.scope(|ui| self.offer_lines(ui, out));
            self.ways_in_rest_on(ui);
            in_sight::by_keys(ui, &self.texts().to_scroll(texts.title), ScrolledBy::Keys);
            in_sight::follow(ui);
        });
        self.view.decides = self.decides();
        (self.view.spot, self.view.way_in) = (lit.spot, lit.way_in);
    }

    /// What the tint on the floor is of.
    fn tint_told(&self, ui: &mut Ui) {
        let texts = self.view.locale.language.place();
        let Some(places) = &self.view.places else { return };
        let text = match (places.fits.is_empty(), places.undecided.is_empty()) {
            (true, true) => texts.fits_nowhere,
            (false, true) => texts.fits,
            (_, false) => texts.or_undecided,
        };
        ui.add(Label::new(widgets::soft(ui, text)).wrap());
    }

    /// How far the search is, or that it was stopped.
    fn search_told(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.place();
        if let Some(Progress { done, all }) = self.parking.offered.progress() {
            let text = if done < all { texts.looked_at(done, all) } else { texts.weighing.to_owned() };
            if widgets::searching(ui, Progress { done, all }, text, self.texts().stop) {
                out.push(Command::View(OfView::StopLooking));
            }
        }
    }

    /// The spots, or what is known instead.
    fn offers(&self, ui: &mut Ui, shown: &Shown<'_, Offered>, lit: &mut Lit, out: &mut Vec<Command>) {
        let (words, texts) = (self.words(), self.view.locale.language.place());
        let palette = self.view.theme.palette();
        let Offered { offers, everywhere, margin, found } = shown.found;
        let care = look::colour(palette.care);
        let say = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::BODY)).wrap());
        };
        let warn = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(RichText::new(text).size(size::SMALL).color(care)).wrap());
        };
        if shown.is_older {
            warn(ui, texts.older);
        }
        if !everywhere.is_empty() {
            say(ui, texts.stops_everywhere);
            for own in everywhere {
                say(ui, &format!("\u{2022} {}", words.line(own)));
            }
            return;
        }
        if found.is_partial {
            warn(ui, texts.partial);
        }
        if found.is_partial
            && self.parking.offered.progress().is_none()
            && widgets::lesser(ui, texts.look_again).clicked()
        {
            out.push(Command::View(OfView::LookAgain));
        }
        for (nth, offer) in offers.iter().enumerate() {
            let is_best = nth == 0;
            let edge =
                if is_best { look::colour(palette.ready) } else { look::colour(palette.soft.faded(0.35)) };
            let frame = Frame::new()
                .fill(look::colour(palette.sheet))
                .stroke(Stroke::new(if is_best { 1.6 } else { 1.0 }, edge))
                .corner_radius(CornerRadius::same(5))
                .inner_margin(Margin { left: 8, right: 10, top: 8, bottom: 8 });
            let mut has_keyboard = false;
            let drawn = frame.show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing = Vec2::new(6.0, 3.0);
                let name = texts.nth(nth);
                ui.label(RichText::new(&name).font(look::bold(14.0)));
                let sentence = RichText::new(widgets::unbroken(words.spot(offer))).size(size::BODY);
                ui.add(Label::new(sentence).wrap().selectable(true));
                let slack = RichText::new(widgets::unbroken(words.spot_slack(&offer.spot.slack)));
                ui.add(Label::new(slack.font(look::bold(size::BODY))).wrap().selectable(true));
                let against =
                    RichText::new(widgets::unbroken(words.spot_margin(offer, margin))).size(size::SMALL);
                let colour = if offer.meets { ui.visuals().weak_text_color() } else { care };
                ui.add(Label::new(against.color(colour)).wrap().selectable(true));
                let way_in = ui.scope(|ui| self.way_in_told(ui, offer.spot.pose, &name)).inner;
                lit.way_in = way_in.or(lit.way_in.take());
                if self.stands_at(offer.spot.pose) {
                    ui.label(
                        RichText::new(texts.is_here).size(size::SMALL).color(look::colour(palette.ready)),
                    );
                    return;
                }
                // What is of an earlier bay need not fit in this one.
                let can = !shown.is_older && self.document.draft().is_none();
                let press =
                    ui.add_enabled_ui(can, |ui| widgets::offer(ui, self.view.theme, texts.park)).inner;
                has_keyboard = press.has_focus();
                if press.accessible_name(self.texts().of(texts.park, &name)).clicked() {
                    out.push(Command::Bay(OfBay::Edit(Edit::Park(offer.spot.pose))));
                }
            });
            if has_keyboard || drawn.response.contains_pointer() {
                lit.spot = Some(offer.spot.pose);
            }
        }
        if offers.is_empty() {
            say(
                ui,
                match (found.is_partial, found.fits_somewhere, found.is_open_somewhere) {
                    (true, ..) => texts.nowhere_so_far,
                    (false, true, _) => texts.only_just,
                    (false, false, true) => texts.nowhere_decided,
                    (false, false, false) => texts.nowhere,
                },
            );
            if !found.is_partial && !found.fits_somewhere && !shown.is_older {
                ui.scope(|ui| self.fits_nowhere(ui, &mut lit.spot, out));
            }
            if !found.is_partial && !shown.is_older {
                ui.scope(|ui| self.what_must_move(ui, Where::Anywhere, &mut lit.spot, out));
            }
        } else {
            ui.add(Label::new(widgets::soft(ui, texts.measured_so)).wrap());
            ui.add(Label::new(widgets::soft(ui, texts.rule)).wrap());
            if self.document.draft().is_some() {
                ui.add(Label::new(widgets::soft(ui, texts.waits)).wrap());
            }
        }
    }

    /// Whether the car stands at a pose now.
    fn stands_at(&self, pose: PlanPose) -> bool {
        let now = self.answer.judged.parked;
        now.origin().distance(pose.origin()) < THERE_MM
            && angle::wrapped(now.heading() - pose.heading()).abs() < THERE_RAD
    }
}
