//! What must move, where no place fits, or for the place where the car stands: looked for when somebody asks, told thing by thing,
//! drawn on the floor as it would stand, done by one press.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::Verdict;
use baywright_planner::clearing::{Asked, Cleared, Way, Where, cleared, looks, may_help};
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
    /// Of what answer it was asked for, and where the car is to stand.
    asked: Option<(u64, Where)>,
    /// Somebody had it stopped: what it found so far is what there is.
    enough: Arc<AtomicBool>,
}

impl Clearing {
    /// Has it looked for, of this answer.
    pub fn ask(&mut self, generation: u64, at: Where) {
        (self.asked, self.enough) = (Some((generation, at)), Arc::default());
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
        let Some((_, at)) = own.asked.filter(|asked| asked.0 == self.answer.generation) else {
            // Of another bay than is there now nobody waits for it.
            own.worked.stop();
            return;
        };
        let enough = Arc::clone(&own.enough);
        let all = headings(&self.answer.judged.bay.room);
        let costs = self.document.layout().owner.without.clone();
        let steps = looks(&self.answer.judged, &Asked { at, headings: &all, costs: &costs });
        let how = ("what moves", steps);
        self.answer.work_out(&mut own.worked, how, &waking(ctx), move |own, _, tell| {
            let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
            let asked = Asked { at, headings: &all, costs: &costs };
            cleared(own, &asked, &is_stopped, &mut |done| {
                if done % TOLD_EVERY == 0 || done == steps {
                    tell.steps(done);
                }
            })
        });
        let shown = self.cleared(at);
        let steps = shown.iter().filter_map(|own| own.way.as_ref()).flat_map(|own| &own.moves);
        self.view.to_do = steps.map(|own| own.step.clone()).collect();
    }

    /// What was found of what is shown now, if that was asked.
    fn cleared(&self, at: Where) -> Option<&Cleared> {
        let own = &self.parking.clearing;
        own.asked.filter(|asked| *asked == (self.answer.generation, at))?;
        let shown = self.answer.shown_of(&own.worked).filter(|own| !own.is_older)?;
        Some(shown.found).filter(|own| own.at == at)
    }

    /// The same for the place where the car stands, where something that could go stops it.
    pub(super) fn what_must_move_here(
        &self,
        ui: &mut Ui,
        lit: &mut Option<PlanPose>,
        out: &mut Vec<Command>,
    ) {
        let (judged, findings) = (&self.answer.judged, &self.answer.assessment.findings);
        if !self.answer.stale && may_help(judged, findings, &self.document.layout().owner.without) {
            self.what_must_move(ui, Where::Here(judged.parked), lit, out);
        }
    }

    /// The press that has it looked for, how far that is, or what was found.
    pub(super) fn what_must_move(
        &self,
        ui: &mut Ui,
        at: Where,
        lit: &mut Option<PlanPose>,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.clearing();
        let own = &self.parking.clearing;
        let is_asked = own.asked == Some((self.answer.generation, at));
        if let (true, Some(Progress { done, all })) = (is_asked, own.worked.progress()) {
            let text = match at {
                _ if done >= all => texts.looking.to_owned(),
                Where::Anywhere => texts.looked_at(done, all),
                Where::Here(_) => texts.looked_at_here(done, all),
            };
            if widgets::searching(ui, Progress { done, all }, text, self.texts().stop) {
                out.push(Command::View(OfView::StopLooking));
            }
            return;
        }
        let press = |ui: &mut Ui, text: &str, out: &mut Vec<Command>| {
            let why = if at == Where::Anywhere { texts.ask_why } else { texts.ask_here_why };
            let press = widgets::offer(ui, self.view.theme, text).on_hover_text(why);
            if press.clicked() {
                out.push(Command::View(OfView::WhatMoves(at)));
            }
        };
        let Some(found) = self.cleared(at) else {
            press(ui, if at == Where::Anywhere { texts.ask } else { texts.ask_here }, out);
            return;
        };
        let says = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::BODY)).wrap());
        };
        match &found.way {
            Some(way) => self.way_told(ui, found, way, lit, out),
            None => {
                says(ui, texts.no_way(found));
                for own in &found.remains {
                    says(ui, &format!("\u{2022} {}", self.words().line(own)));
                }
            }
        }
        if found.is_partial {
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
            let is_here = found.at != Where::Anywhere;
            let title = if is_here { texts.title_here } else { texts.title };
            ui.add(Label::new(RichText::new(title).font(look::bold(14.0))).wrap());
            for own in &way.moves {
                says(ui, plain(format!("\u{2022} {}", words.goes(own))));
            }
            let care = look::colour(palette.care);
            for text in texts.by_builder(found) {
                says(ui, RichText::new(text).size(size::SMALL).color(care));
            }
            for takes in [words.way_takes(way), words.way_costs(way)] {
                if !takes.is_empty() {
                    let takes = widgets::soft(ui, takes);
                    says(ui, takes);
                }
            }
            if is_here {
                says(ui, plain(texts.stays_here.to_owned()));
            } else {
                says(ui, RichText::new(texts.then_park).font(look::bold(size::BODY)));
                says(ui, plain(words.spot(&way.offer)));
            }
            says(ui, plain(words.spot_slack(&way.offer.spot.slack)).font(look::bold(size::BODY)));
            let against = RichText::new(widgets::unbroken(words.spot_margin(&way.offer, &found.margin)));
            let colour = if way.offer.meets { ui.visuals().weak_text_color() } else { care };
            says(ui, against.size(size::SMALL).color(colour));
            let colour = if way.verdict == Verdict::Ready { look::colour(palette.ready) } else { care };
            says(ui, RichText::new(texts.then(way.verdict)).size(size::SMALL).color(colour));
            let can = self.document.draft().is_none() && !self.answer.stale;
            let does = if is_here { texts.do_here } else { texts.do_it };
            let press = ui.add_enabled_ui(can, |ui| widgets::offer(ui, self.view.theme, does)).inner;
            if press.clicked() {
                out.push(Command::Bay(OfBay::Edit(way.edit(&self.answer.judged))));
            }
            for text in texts.surety(found) {
                let text = widgets::soft(ui, text);
                says(ui, text);
            }
        });
        *lit = Some(way.offer.spot.pose);
    }
}
