//! What must move, where no place fits: looked for when somebody asks, told thing by thing, drawn on the floor as it would
//! stand, done by one press.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::Verdict;
use baywright_planner::clearing::{Cleared, Surety, Way, cleared};
use baywright_planner::geometry::PlanPose;
use baywright_planner::place::headings;
use egui::{CornerRadius, Frame, Label, Margin, RichText, Stroke, Ui, Vec2};

use super::TOLD_EVERY;
use crate::screen::command::{Command, OfBay, OfView};
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::SlowPart;
use crate::session::job::Progress;

/// What is known of what must move.
#[derive(Debug, Default)]
pub(super) struct Clearing {
    worked: SlowPart<Cleared>,
    /// Of what answer it was asked for.
    asked: Option<u64>,
    /// Somebody had it stopped: what it found so far is what there is.
    enough: Arc<AtomicBool>,
}

impl Clearing {
    /// Has it looked for, of this answer.
    pub fn ask(&mut self, generation: u64) {
        (self.asked, self.enough) = (Some(generation), Arc::default());
        self.worked.ask_again();
    }

    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.worked.collect()
    }

    /// Ends the search: it tells what it found so far.
    pub fn stop(&self) {
        self.enough.store(true, Ordering::Relaxed);
    }
}

impl Desk {
    /// Before anything is drawn: has it worked on if it was asked of what is shown, and drawn where things go.
    pub(super) fn look_what_moves(&mut self, ctx: &egui::Context) {
        let own = &mut self.parking.clearing;
        if own.asked != Some(self.answer.generation) {
            // Of another bay than is there now nobody waits for it.
            own.worked.stop();
            return;
        }
        let enough = Arc::clone(&own.enough);
        let all = headings(&self.answer.judged.bay.room);
        let how = ("what moves", all.len());
        self.answer.work_out(&mut own.worked, how, &waking(ctx), move |own, _, tell| {
            let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
            let steps = all.len();
            cleared(own, &all, &is_stopped, &mut |done| {
                if done % TOLD_EVERY == 0 || done == steps {
                    tell.steps(done);
                }
            })
        });
        let shown = self.answer.shown_of(&self.parking.clearing.worked).filter(|own| !own.is_older);
        let steps = shown.iter().filter_map(|own| own.found.way.as_ref()).flat_map(|own| &own.moves);
        self.view.to_do = steps.map(|own| own.step.clone()).collect();
    }

    /// The press that has it looked for, how far that is, or what was found.
    pub(super) fn what_must_move(&self, ui: &mut Ui, lit: &mut Option<PlanPose>, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.clearing();
        let own = &self.parking.clearing;
        if let Some(Progress { done, all }) = own.worked.progress() {
            let text = if done < all { texts.looked_at(done, all) } else { texts.looking.to_owned() };
            let share = done as f32 / all.max(1) as f32;
            ui.add(egui::ProgressBar::new(share).desired_height(6.0).animate(false)).accessible_name(&text);
            ui.horizontal_wrapped(|ui| {
                ui.label(widgets::soft(ui, text));
                if widgets::lesser(ui, self.texts().stop).clicked() {
                    out.push(Command::View(OfView::StopLooking));
                }
            });
            return;
        }
        let press = |ui: &mut Ui, text: &str, out: &mut Vec<Command>| {
            let press = widgets::offer(ui, self.view.theme, text).on_hover_text(texts.ask_why);
            if press.clicked() {
                out.push(Command::View(OfView::WhatMoves));
            }
        };
        let Some(shown) = self.answer.shown_of(&own.worked).filter(|own| !own.is_older) else {
            press(ui, texts.ask, out);
            return;
        };
        let Cleared { way, surety, is_partial, movable, .. } = shown.found;
        let says = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::BODY)).wrap());
        };
        match way {
            Some(way) => self.way_told(ui, shown.found, way, lit, out),
            None => says(
                ui,
                match (is_partial, movable, surety) {
                    (true, ..) => texts.not_found,
                    (false, 0, _) => texts.nothing_goes,
                    (false, _, Surety::Proven) => texts.never,
                    (false, _, Surety::BestFound) => texts.not_found,
                },
            ),
        }
        if *is_partial {
            let care = look::colour(self.view.theme.palette().care);
            ui.add(Label::new(RichText::new(texts.partial).size(size::SMALL).color(care)).wrap());
            press(ui, texts.look_again, out);
        }
    }

    /// A way, thing by thing, with how the car is parked then.
    fn way_told(
        &self,
        ui: &mut Ui,
        found: &Cleared,
        way: &Way,
        lit: &mut Option<PlanPose>,
        out: &mut Vec<Command>,
    ) {
        let (words, texts) = (self.words(), self.view.locale.language.clearing());
        let palette = self.view.theme.palette();
        let says = |ui: &mut Ui, text: RichText| {
            ui.add(Label::new(text).wrap().selectable(true));
        };
        let plain = |text: String| RichText::new(widgets::unbroken(text)).size(size::BODY);
        let frame = Frame::new()
            .fill(look::colour(palette.sheet))
            .stroke(Stroke::new(1.6, look::colour(palette.beam)))
            .corner_radius(CornerRadius::same(5))
            .inner_margin(Margin { left: 8, right: 10, top: 8, bottom: 8 });
        frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing = Vec2::new(6.0, 4.0);
            ui.label(RichText::new(texts.title).font(look::bold(14.0)));
            for own in &way.moves {
                says(ui, plain(format!("\u{2022} {}", words.goes(own))));
            }
            let takes = words.way_takes(way);
            if !takes.is_empty() {
                let takes = widgets::soft(ui, takes);
                says(ui, takes);
            }
            says(ui, RichText::new(texts.then_park).font(look::bold(size::BODY)));
            says(ui, plain(words.spot(&way.offer)));
            says(ui, plain(words.spot_slack(&way.offer.spot.slack)).font(look::bold(size::BODY)));
            let against = RichText::new(widgets::unbroken(words.spot_margin(&way.offer, &found.margin)));
            let care = look::colour(palette.care);
            let colour = if way.offer.meets { ui.visuals().weak_text_color() } else { care };
            says(ui, against.size(size::SMALL).color(colour));
            let (then, colour) = match way.verdict {
                Verdict::Ready => (texts.then_ready, look::colour(palette.ready)),
                Verdict::ReadyWithCare | Verdict::NotReady => (texts.then_care, care),
            };
            says(ui, RichText::new(then).size(size::SMALL).color(colour));
            let can = self.document.draft().is_none() && !self.answer.stale;
            let press = ui.add_enabled_ui(can, |ui| widgets::offer(ui, self.view.theme, texts.do_it)).inner;
            if press.clicked() {
                out.push(Command::Bay(OfBay::Edit(way.edit(&self.answer.judged))));
            }
            let surety = match found.surety {
                Surety::Proven => texts.proven,
                Surety::BestFound => texts.best_found,
            };
            for text in [surety, texts.rule] {
                let text = widgets::soft(ui, text);
                says(ui, text);
            }
        });
        *lit = Some(way.offer.spot.pose);
    }
}
