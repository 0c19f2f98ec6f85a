//! What a change of the building would unlock at the place that is chosen: each wall further out, each thing gone, each door open onto free
//! ground or walled up, one at a time; told by what they unlock, or by that for the money that they cost. Under them
//! what several unlock together for the sum that can be spent.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::matrix::{
    Change, EachAlone, Line, OfChanges, Place, Planned, Purse, Stands, Together, Unlocked, ranked,
};
use baywright_planner::model::OwnerFigures;
use baywright_planner::place::Margin;
use baywright_planner::words::{Locale, Words};
use egui::{CollapsingHeader, RichText, Ui};

use super::FitsPage;
use super::aside::say;
use super::owner::Figure;
use super::paper::Changes;
use crate::screen::command::Command;
use crate::screen::forms::typed::{self, Length};
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::planning::{FURTHER, FURTHER_MM, most_changes, together_by, unlocked_by};
use crate::session::slow::Slow;

/// The width of a field, px.
const FIELD_PX: f32 = 90.0;

/// What the answers are of: the list, its answers so far, the place, and how far out walls would stand.
#[derive(Clone, Debug)]
struct Of {
    lines: Arc<[Line]>,
    now: Vec<Option<Stands>>,
    place: Place,
    further_mm: f64,
}

impl Of {
    fn changes<'a>(&'a self, margin: &'a Margin) -> OfChanges<'a> {
        let Self { lines, now, place, further_mm } = self;
        OfChanges { lines, now, place, further_mm: *further_mm, margin }
    }
}

impl PartialEq for Of {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.lines, &other.lines)
            && self.now == other.now
            && self.place == other.place
            && self.further_mm == other.further_mm
    }
}

/// What the answer for several together is of: what each does alone, and what can be bought.
#[derive(Clone, Debug, PartialEq)]
struct OfSum {
    alone: Of,
    found: EachAlone,
    purse: Purse,
}

/// What was asked and typed of changes.
#[derive(Debug, Default)]
pub(super) struct Buys {
    found: Slow<Of, EachAlone>,
    together: Slow<OfSum, Together>,
    /// Somebody had either stopped.
    enough: Arc<AtomicBool>,
    /// How far out walls would stand, as it was typed.
    further: Option<String>,
    for_the_money: bool,
}

impl Buys {
    /// Takes in what was worked out since the last frame.
    pub fn collect(&mut self) -> Result<(), String> {
        self.found.collect()?;
        self.together.collect()
    }

    /// What was found is of another bay; what changes cost stays.
    pub fn forget(&mut self) {
        self.found.forget();
        self.together.forget();
    }
}

impl FitsPage {
    /// The place at which changes are asked about, by its position.
    fn asked_at(&self, found: &Planned) -> usize {
        self.chosen.map_or(found.places.len().saturating_sub(1), |own| own.1)
    }

    /// How far out walls would stand, mm, if what is typed is a length.
    fn further_mm(&self, locale: Locale) -> Option<f64> {
        let text = self.buys.further.clone().unwrap_or_else(|| locale.length(FURTHER_MM));
        match typed::length(&text, locale.units) {
            Some(Length::One(mm)) if FURTHER.contains(&mm) => Some(mm),
            _ => None,
        }
    }

    /// What is asked of changes now.
    fn asks(&self, found: &Planned, locale: Locale) -> Option<Of> {
        let at = self.asked_at(found);
        let place = found.places.get(at)?.clone();
        let further_mm = self.further_mm(locale)?;
        let all_there = found.rows.iter().all(Option::is_some);
        let of = || Of { lines: Arc::clone(&found.lines), now: found.fitting(at), place, further_mm };
        all_there.then(of)
    }

    /// What was found of changes, if it is of what is asked now.
    pub(super) fn changes(&self, found: &Planned, owner: &OwnerFigures, locale: Locale) -> Option<Changes> {
        let of = self.asks(found, locale)?;
        let shown = self.buys.found.shown(&of).filter(|own| !own.is_older)?;
        let cost = |own: &Unlocked| Some((own.change.clone(), own.change.cost(owner)?));
        let together = || {
            let purse = Purse::of(&shown.found.all, owner)?;
            let of = OfSum { alone: of.clone(), found: shown.found.clone(), purse };
            self.buys.together.shown(&of).filter(|own| !own.is_older).map(|own| own.found.clone())
        };
        Some(Changes {
            together: together(),
            fit_now: of.now.iter().flatten().count(),
            further_mm: of.further_mm,
            found: shown.found.clone(),
            costs: shown.found.all.iter().filter_map(cost).collect(),
            for_the_money: self.buys.for_the_money,
            to_spend: owner.to_spend,
            place: of.place,
        })
    }
}

/// What was asked of single changes, and what each unlocks.
struct OfAll<'a> {
    of: &'a Of,
    found: &'a EachAlone,
}

impl Desk {
    /// What a change would buy.
    pub(super) fn fits_buys(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        say(ui, widgets::soft(ui, texts.buys_told));
        let at = page.asked_at(found);
        let Some(place) = found.places.get(at) else { return };
        if found.rows.iter().any(Option::is_none) {
            ui.label(widgets::soft(ui, if found.is_partial { texts.not_looked } else { texts.waiting }));
            return;
        }
        let fit = found.fit_there(at).lines;
        let told = texts.asked_at(&self.words().fits_place(place), fit, found.lines.len());
        say(ui, RichText::new(told).font(look::bold(size::BODY)));
        if fit == found.lines.len() {
            say(ui, RichText::new(texts.nothing_locked).size(size::BODY));
        }
        self.fits_further(ui, page);
        let Some(of) = page.asks(found, self.view.locale) else { return };
        self.fits_look_at_changes(ui, page, found, &of);
        let Some(shown) = page.buys.found.shown(&of).filter(|own| !own.is_older) else { return };
        let each: EachAlone = shown.found.clone();
        self.fits_changes(ui, page, found, (&each.all, of.further_mm), out);
        self.fits_together(ui, page, found, &OfAll { of: &of, found: &each });
        self.fits_unlock_none(ui, page, found, (&each.all, of.further_mm), out);
        for (opening, why) in &each.stay {
            say(ui, widgets::soft(ui, texts.door_stays(opening.as_str(), *why)));
        }
        say(ui, widgets::soft(ui, texts.only_one));
    }

    /// How far out walls would stand.
    fn fits_further(&self, ui: &mut Ui, page: &mut FitsPage) {
        let texts = self.view.locale.language.fits();
        let usual = || self.view.locale.length(FURTHER_MM);
        let mut text = page.buys.further.clone().unwrap_or_else(usual);
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(RichText::new(texts.further).size(size::SMALL));
            let id = egui::Id::unique("walls further out");
            if widgets::field(ui, id, &mut text, FIELD_PX, false).labelled_by(label.id).changed() {
                page.buys.further = Some(text.clone());
            }
        });
    }

    /// The press that looks, or how far it is.
    fn fits_look_at_changes(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned, of: &Of) {
        let texts = self.view.locale.language.fits();
        if let Some(progress) = page.buys.found.progress() {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.looked_at(progress.done, progress.all)));
                if widgets::lesser(ui, self.texts().stop).clicked() {
                    page.buys.enough.store(true, Ordering::Relaxed);
                }
            });
            return;
        }
        if page.buys.found.shown(of).is_some_and(|own| !own.is_older && own.found.is_whole()) {
            return;
        }
        if widgets::press(ui, self.view.theme, texts.look).clicked() {
            // What was stopped is looked at from its beginning.
            page.buys.found.ask_again();
            let (own, margin) = (of.clone(), found.margin);
            page.buys.enough = Arc::default();
            let enough = Arc::clone(&page.buys.enough);
            let how = ("what a change buys", most_changes(&of.changes(&margin)));
            page.buys.found.ask(of.clone(), how, &waking(ui.ctx()), move |tell| {
                let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
                unlocked_by(&own.changes(&margin), &is_stopped, &mut |done| tell.steps(done))
            });
        }
    }

    /// The changes that unlock some in their order, each with its cost.
    fn fits_changes(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        (all, further_mm): (&[Unlocked], f64),
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        if all.iter().any(|own| own.is_partial) || all.is_empty() {
            self.fits_stopped(ui);
        }
        let owner = &self.document.layout().owner;
        let cost = |change: &Change| change.cost(owner);
        let weight = |nth: usize| found.lines.get(nth).map_or(1.0, |own| own.weight);
        if all.iter().all(|own| own.lines.is_empty()) {
            say(ui, RichText::new(texts.unlocks_none).size(size::BODY));
        } else {
            ui.horizontal_wrapped(|ui| {
                for (for_money, name) in [(false, texts.by_worth), (true, texts.for_money)] {
                    if ui.selectable_label(page.buys.for_the_money == for_money, name).clicked() {
                        page.buys.for_the_money = for_money;
                    }
                }
            });
        }
        ui.horizontal_wrapped(|ui| {
            let named = (texts.to_spend, texts.to_spend, FIELD_PX);
            self.owner_field(ui, page, &Figure::ToSpend, named, out);
        });
        let order = ranked(all, weight, cost, page.buys.for_the_money);
        for own in order.into_iter().filter_map(|nth| all.get(nth)).filter(|own| own.is_of_use()) {
            let name = self.fits_change(found, &own.change, further_mm);
            ui.separator();
            say(ui, RichText::new(widgets::unbroken(name.clone())).font(look::bold(size::BODY)));
            let [lines, eases] = [&own.lines, &own.eases].map(|own| self.fits_lines_named(found, own));
            let [lines, eases] =
                [&lines, &eases].map(|own| own.iter().map(String::as_str).collect::<Vec<&str>>());
            say(ui, RichText::new(texts.unlocks(&lines)).size(size::SMALL));
            if !eases.is_empty() {
                say(ui, RichText::new(texts.eases(&eases)).size(size::SMALL));
            }
            self.fits_cost(ui, page, (&own.change, &name), out);
        }
    }

    /// What a change costs, and whether that is more than can be spent.
    fn fits_cost(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        (change, name): (&Change, &str),
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        let owner = &self.document.layout().owner;
        ui.horizontal_wrapped(|ui| {
            let told = self.texts().of(texts.costs_name, name);
            let named = (texts.costs_name, told.as_str(), FIELD_PX);
            self.owner_field(ui, page, &Figure::Costs(change.clone()), named, out);
            if change.cost(owner).zip(owner.to_spend).is_some_and(|(cost, most)| cost > most) {
                let care = look::colour(self.view.theme.palette().care);
                ui.label(RichText::new(texts.beyond).size(size::SMALL).color(care));
            }
        });
    }

    /// What several changes unlock together for the sum that can be spent.
    fn fits_together(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned, own: &OfAll<'_>) {
        let texts = self.view.locale.language.fits();
        ui.separator();
        say(ui, RichText::new(texts.together).font(look::bold(size::BODY)));
        let purse = Purse::of(&own.found.all, &self.document.layout().owner);
        let Some(purse) = purse.filter(|own| own.priced.len() > 1) else {
            say(ui, widgets::soft(ui, texts.together_needs));
            return;
        };
        let of = OfSum { alone: own.of.clone(), found: own.found.clone(), purse };
        if let Some(progress) = page.buys.together.progress() {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.looked_at(progress.done, progress.all)));
                if widgets::lesser(ui, self.texts().stop).clicked() {
                    page.buys.enough.store(true, Ordering::Relaxed);
                }
            });
            return;
        }
        let shown = page.buys.together.shown(&of).filter(|own| !own.is_older);
        let is_whole = shown.as_ref().is_some_and(|own| !own.found.is_partial);
        if let Some(own) = &shown {
            self.fits_best_together(ui, found, own.found, of.alone.further_mm);
        }
        if !is_whole && widgets::press(ui, self.view.theme, texts.together_look).clicked() {
            let margin = found.margin;
            page.buys.enough = Arc::default();
            let enough = Arc::clone(&page.buys.enough);
            let steps = of.purse.steps();
            page.buys.together.ask_again();
            page.buys.together.ask(
                of.clone(),
                ("what changes buy together", steps),
                &waking(ui.ctx()),
                move |tell| {
                    let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
                    // How often one more is added is not known before.
                    let mut told = |done: usize| tell.steps(done.min(steps));
                    let alone = of.alone.changes(&margin);
                    together_by((&of.purse, &of.found.all), &alone, &is_stopped, &mut told)
                },
            );
        }
        say(ui, widgets::soft(ui, texts.together_told));
    }

    /// The best that was found of several.
    fn fits_best_together(&self, ui: &mut Ui, found: &Planned, own: &Together, further_mm: f64) {
        let texts = self.view.locale.language.fits();
        if own.is_partial {
            self.fits_stopped(ui);
        }
        if own.changes.is_empty() {
            say(ui, RichText::new(texts.together_none).size(size::BODY));
            return;
        }
        let names: Vec<String> =
            own.changes.iter().map(|change| self.fits_change(found, change, further_mm)).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let lines = self.fits_lines_named(found, &own.lines);
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let costs = self.region().money(own.costs);
        let told = texts.together_are(&names, &costs, &lines);
        say(ui, RichText::new(widgets::unbroken(told)).size(size::BODY));
    }

    /// Those that unlock none alone: with a price they may unlock some with others.
    fn fits_unlock_none(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        (all, further_mm): (&[Unlocked], f64),
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        let none: Vec<&Unlocked> = all.iter().filter(|own| !own.is_of_use()).collect();
        if none.is_empty() {
            return;
        }
        let header = CollapsingHeader::new(texts.alone_none).id_salt("changes that unlock none alone");
        header.show(ui, |ui| {
            say(ui, widgets::soft(ui, texts.alone_none_told));
            for own in none {
                let name = self.fits_change(found, &own.change, further_mm);
                say(ui, RichText::new(widgets::unbroken(name.clone())).size(size::SMALL));
                self.fits_cost(ui, page, (&own.change, &name), out);
            }
        });
    }

    fn fits_stopped(&self, ui: &mut Ui) {
        let care = look::colour(self.view.theme.palette().care);
        say(ui, RichText::new(self.view.locale.language.fits().partial).size(size::SMALL).color(care));
    }

    /// A change by its name.
    fn fits_change(&self, found: &Planned, change: &Change, further_mm: f64) -> String {
        let name =
            |own: &Line| Words::new(&own.arrangement, self.view.locale).fits_change(change, further_mm);
        found.lines.first().map(name).unwrap_or_default()
    }

    /// Some lines by their names.
    fn fits_lines_named(&self, found: &Planned, lines: &[usize]) -> Vec<String> {
        let name = |own: &Line| Words::new(&own.arrangement, self.view.locale).plan_line(own.is_saved);
        lines.iter().filter_map(|nth| found.lines.get(*nth)).map(name).collect()
    }
}
