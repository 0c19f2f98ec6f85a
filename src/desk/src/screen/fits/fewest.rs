//! The fewest places to park from which all of the list can be aimed: of a visit, whether the car stands still or how often it is parked
//! anew.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::Scene;
use baywright_planner::matrix::{Line, Planned};
use baywright_planner::permanent::{Asked, How, Parked, fewest};
use baywright_planner::place::{ByTape, Offer, Spot};
use baywright_planner::words::Words;
use egui::{RichText, Ui};

use super::FitsPage;
use super::aside::say;
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::slow::Slow;

/// Of what list it is.
#[derive(Clone, Debug)]
struct Of(Arc<[Line]>);

impl PartialEq for Of {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

/// What was found.
#[derive(Debug, Default)]
pub(super) struct Fewest {
    found: Slow<Of, Parked>,
    /// Somebody had it stopped.
    enough: Arc<AtomicBool>,
}

impl Fewest {
    /// Takes in what was worked out since the last frame.
    pub fn collect(&mut self) -> Result<(), String> {
        self.found.collect()
    }

    /// What was found is of another bay.
    pub fn forget(&mut self) {
        self.found.forget();
    }
}

impl Desk {
    /// The fewest places for all of the list, asked once the rest is there.
    pub(super) fn fits_fewest(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned) {
        let texts = self.view.locale.language.fits();
        if page.answers.progress().is_some() || found.is_partial {
            return;
        }
        let of = Of(Arc::clone(&found.lines));
        if !page.fewest.found.is_asked(&of) {
            let Some(first) = found.lines.first() else { return };
            let (lines, asked) = (Arc::clone(&found.lines), Asked::of(&first.arrangement.shop));
            page.fewest.enough = Arc::default();
            let enough = Arc::clone(&page.fewest.enough);
            let how = ("fewest places", lines.len());
            page.fewest.found.ask(of.clone(), how, &waking(ui.ctx()), move |tell| {
                let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
                fewest(&lines, &asked, &is_stopped, &mut |done| tell.steps(done))
            });
        }
        say(ui, RichText::new(texts.fewest).font(look::bold(size::BODY)));
        if let Some(progress) = page.fewest.found.progress() {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.looked_at(progress.done, progress.all)));
                if widgets::lesser(ui, self.texts().stop).clicked() {
                    page.fewest.enough.store(true, Ordering::Relaxed);
                }
            });
        }
        let Some(shown) = page.fewest.found.shown(&of).filter(|own| !own.is_older) else { return };
        let parked = shown.found;
        let line = |nth: usize| found.lines.get(nth);
        let names = |of: &mut dyn Iterator<Item = usize>| -> Vec<String> {
            let own = of.filter_map(line);
            own.map(|own| Words::new(&own.arrangement, self.view.locale).plan_line(own.is_saved)).collect()
        };
        let told = |names: &[String], tell: &dyn Fn(&[&str]) -> String| {
            tell(&names.iter().map(String::as_str).collect::<Vec<_>>())
        };
        for (nth, place) in parked.places.iter().enumerate() {
            let Some(first) = place.serves.first().and_then(|own| line(own.0)) else { continue };
            let own = &first.arrangement;
            let by_tape = ByTape::of(own, &Scene::of(own), place.pose);
            let spot = Spot { pose: place.pose, slack: place.slack, is_invited: true };
            let words = Words::new(own, self.view.locale);
            let offer = Offer { spot, by_tape, meets: true };
            let how = [words.spot(&offer), words.spot_slack(&place.slack)].join(" ");
            let served = names(&mut place.serves.iter().map(|own| own.0));
            let text = told(&served, &|own| texts.park_for(nth, own, &how));
            say(ui, RichText::new(widgets::unbroken(text)).size(size::SMALL));
        }
        if !parked.without.is_empty() {
            let without = names(&mut parked.without.iter().copied());
            let text = told(&without, &|own| texts.nowhere_for(own));
            let care = look::colour(self.view.theme.palette().care);
            say(ui, RichText::new(text).size(size::SMALL).color(care));
        }
        if parked.is_partial {
            say(ui, widgets::soft(ui, texts.partial));
        } else if !parked.places.is_empty() {
            let text = if parked.how == How::Fewest { texts.fewest_proven } else { texts.fewest_greedy };
            say(ui, widgets::soft(ui, text));
        }
    }
}
