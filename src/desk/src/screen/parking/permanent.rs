//! Lines that stay on the floor, proposed for all set-ups of the bay: drawn with their numbers, told with two distances each and how well
//! they are laid, kept in the bay by one press and moved there as any mark that stays.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::Scene;
use baywright_planner::edit::Edit;
use baywright_planner::matrix::{Line, lines_of_layout, weigh};
use baywright_planner::model::{Arrangement, Bay, Id};
use baywright_planner::permanent::{
    Asked, Kept, OnFloor, ParkingPlace, Proposal, is_kept, kept_in, proposed,
};
use baywright_planner::place::{ByTape, Offer, Spot};
use baywright_planner::words::{Language, Words};
use egui::{Label, RichText, ScrollArea, Ui};

use crate::screen::command::{Command, OfBay, OfView};
use crate::screen::in_sight::{self, ScrolledBy};
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::document::made;
use crate::session::slow::Slow;
use crate::session::verdicts::Of;

/// The proposal, and whether it is looked at.
#[derive(Debug, Default)]
pub(in crate::screen) struct Staying {
    found: Slow<Of, Found>,
    /// Whether the panel shows it.
    pub is_open: bool,
    /// Somebody had the search stopped.
    enough: Arc<AtomicBool>,
}

/// What was found for the set-ups of a bay.
#[derive(Clone, Debug, Default)]
struct Found {
    lines: Vec<Line>,
    proposal: Option<Proposal>,
    floor: Arc<OnFloor>,
    /// How a person parks at each place.
    offers: Vec<Offer>,
    /// Whether the owner says how often anything comes in.
    is_weighed: bool,
}

impl Staying {
    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.found.collect()
    }

    /// Ends the search: it tells what it found so far.
    pub fn stop(&self) {
        self.enough.store(true, Ordering::Relaxed);
    }

    /// Has the same looked for once more.
    pub fn look_again(&mut self) {
        self.enough = Arc::default();
        self.found.ask_again();
    }
}

impl Found {
    fn of(lines: Vec<Line>, is_stopped: &dyn Fn() -> bool, tell: &mut dyn FnMut(usize)) -> Self {
        let Some(first) = lines.first() else { return Self::default() };
        let mut proposal = proposed(&lines, &Asked::of(&first.arrangement.shop), is_stopped, tell);
        let offers = proposal.parked.places.iter().filter_map(|own| {
            let arrangement = &lines.get(own.serves.first()?.0)?.arrangement;
            let by_tape = ByTape::of(arrangement, &Scene::of(arrangement), own.pose);
            let spot = Spot { pose: own.pose, slack: own.slack, is_invited: true };
            Some(Offer { spot, by_tape, meets: true })
        });
        let offers = offers.collect();
        let floor = Arc::new(std::mem::take(&mut proposal.floor));
        Self { lines, proposal: Some(proposal), floor, offers, is_weighed: false }
    }

    /// What each point may be called in the bay, in each language that a person may choose, the shown one first.
    fn names(&self, shown: Language) -> Vec<Vec<Id>> {
        let others = Language::OFFERED.into_iter().filter(|own| *own != shown);
        let mut all: Vec<Vec<Id>> = vec![Vec::new(); self.floor.points.len()];
        for language in std::iter::once(shown).chain(others) {
            let mut names: Vec<Id> = Vec::new();
            for (point, own) in self.floor.points.iter().zip(&mut all) {
                let wanted = language.permanent().name(point.place + 1, point.of);
                let id = Id::free(&wanted, " / ", |name| names.iter().any(|own| own.as_str() == name));
                names.push(id.clone());
                own.push(id);
            }
        }
        all
    }

    fn arrangement(&self, line: usize) -> Option<&Arrangement> {
        self.lines.get(line).map(|own| &own.arrangement)
    }

    fn set_ups(&self, lines: impl IntoIterator<Item = usize>) -> Vec<String> {
        lines.into_iter().filter_map(|nth| Some(self.arrangement(nth)?.id.to_string())).collect()
    }
}

impl Desk {
    /// Before anything is drawn: what is proposed, looked for while nothing is in the hand. Whether that is what the panel shows.
    pub(super) fn look_for_lines(&mut self, ctx: &egui::Context) -> bool {
        if !self.staying.is_open {
            return false;
        }
        let now = Of::now(&self.document);
        if !self.answer.stale && !self.canvas.is_dragging() && !self.document.is_held() {
            let (Of(layout, by), cars) = (now.clone(), self.document.cars().to_vec());
            let enough = Arc::clone(&self.staying.enough);
            let how = ("lines that stay", layout.arrangements.len());
            self.staying.found.ask(now.clone(), how, &waking(ctx), move |tell| {
                let all: Vec<Arrangement> =
                    layout.arrangements.iter().filter_map(|own| made(&layout, &own.id, &cars, &by)).collect();
                let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
                let mut lines = lines_of_layout(&all);
                weigh(&mut lines, &layout.owner);
                let found = Found::of(lines, &is_stopped, &mut |done| tell.steps(done));
                Found { is_weighed: !layout.owner.comes_in.is_empty(), ..found }
            });
        }
        self.view.staying = self.staying.found.shown(&now).map(|own| Arc::clone(&own.found.floor));
        true
    }

    /// The press that leads there.
    pub(super) fn offer_lines(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.permanent();
        ui.separator();
        if widgets::lesser(ui, texts.open).on_hover_text(texts.open_why).clicked() {
            out.push(Command::View(OfView::StayingLines(true)));
        }
    }

    /// The panel of what is proposed.
    pub(super) fn lines_that_stay(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.permanent();
        ScrollArea::vertical().id_salt("lines that stay").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 6.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            say(ui, RichText::new(texts.title).font(look::bold(size::BODY)));
            say(ui, widgets::soft(ui, texts.about));
            if widgets::lesser(ui, texts.put_away).clicked() {
                out.push(Command::View(OfView::StayingLines(false)));
            }
            self.lines_searched(ui, out);
            let now = Of::now(&self.document);
            if let Some(shown) = self.staying.found.shown(&now) {
                let is_older = shown.is_older || self.answer.stale;
                self.found_lines(ui, shown.found, is_older, out);
            }
            in_sight::by_keys(ui, &self.texts().to_scroll(texts.title), ScrolledBy::Keys);
            in_sight::follow(ui);
        });
    }

    /// How far the search is.
    fn lines_searched(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.permanent();
        let Some(progress) = self.staying.found.progress() else { return };
        let text = texts.looked_at(progress.done, progress.all);
        if widgets::searching(ui, progress, text, self.texts().stop) {
            out.push(Command::View(OfView::StopLooking));
        }
    }

    fn found_lines(&self, ui: &mut Ui, found: &Found, is_older: bool, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.permanent();
        let care = look::colour(self.view.theme.palette().care);
        let warn = |ui: &mut Ui, text: &str| say(ui, RichText::new(text).size(size::SMALL).color(care));
        if is_older {
            warn(ui, texts.older);
        }
        let Some(proposal) = &found.proposal else {
            say(ui, RichText::new(texts.none).size(size::BODY));
            return;
        };
        if proposal.parked.is_partial {
            warn(ui, texts.partial);
            let again = self.view.locale.language.place().look_again;
            if self.staying.found.progress().is_none() && widgets::lesser(ui, again).clicked() {
                out.push(Command::View(OfView::LookAgain));
            }
        }
        let (parked, floor) = (&proposal.parked, &found.floor);
        if parked.places.is_empty() {
            say(ui, RichText::new(texts.none).size(size::BODY));
            return;
        }
        let counted = texts.counted(parked.places.len(), floor.lines.len(), floor.points.len());
        say(ui, RichText::new(counted).font(look::bold(size::BODY)));
        say(ui, widgets::soft(ui, texts.how(parked)));
        if !parked.without.is_empty() {
            let without = found.set_ups(parked.without.iter().copied());
            say(ui, RichText::new(texts.without(&without)).size(size::SMALL).color(care));
        }
        let bay = self.document.bay();
        let names = found.names(self.view.locale.language);
        self.keep_lines(ui, (&bay, found, &names), is_older, out);
        for (nth, (place, offer)) in parked.places.iter().zip(&found.offers).enumerate() {
            ui.separator();
            say(ui, RichText::new(texts.place(nth + 1)).font(look::bold(14.0)));
            let serves = self.served_so_often(found, place);
            say(ui, RichText::new(widgets::unbroken(texts.serves(&serves))).size(size::BODY));
            if found.is_weighed {
                let used = texts.used(&self.so_often(place.a_month(&found.lines)));
                say(ui, RichText::new(widgets::unbroken(used)).size(size::BODY));
            }
            if let Some(own) = place.serves.first().and_then(|own| found.arrangement(own.0)) {
                let words = Words::new(own, self.view.locale);
                say(ui, widgets::soft(ui, widgets::unbroken(words.spot(offer))));
            }
            say(ui, RichText::new(texts.points).font(look::bold(size::SMALL)));
            self.points_of(ui, (&bay, found, &names), nth);
            self.targets_of(ui, found, &place.serves.iter().map(|own| own.0).collect::<Vec<_>>());
        }
        ui.separator();
        say(ui, widgets::soft(ui, texts.how_laid));
    }

    /// The set-ups that a place serves: what comes in most often first, with how often, where the owner says so.
    fn served_so_often(&self, found: &Found, place: &ParkingPlace) -> Vec<String> {
        let texts = self.view.locale.language.permanent();
        let all = place.most_often_first(&found.lines);
        if !found.is_weighed {
            return found.set_ups(all);
        }
        let own = all.into_iter().filter_map(|nth| found.lines.get(nth));
        own.map(|own| texts.so_often(own.arrangement.id.as_str(), &self.so_often(own.weight))).collect()
    }

    /// How often a month, as it is written.
    fn so_often(&self, a_month: f64) -> String {
        let is_whole = (a_month - a_month.round()).abs() < 0.05;
        self.view.locale.region.number(a_month, usize::from(!is_whole))
    }

    /// The press that keeps them, or that they are.
    fn keep_lines(
        &self,
        ui: &mut Ui,
        (bay, found, names): (&Bay, &Found, &[Vec<Id>]),
        is_older: bool,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.permanent();
        let kept = kept_in(bay, &found.floor, names);
        if kept == *bay {
            let ready = look::colour(self.view.theme.palette().ready);
            say(ui, RichText::new(texts.kept).size(size::BODY).color(ready));
            return;
        }
        // What is of an earlier bay need not fit in this one.
        let can = !is_older && self.document.draft().is_none();
        let press = ui.add_enabled_ui(can, |ui| widgets::offer(ui, self.view.theme, texts.keep)).inner;
        if press.on_hover_text(texts.keep_why).clicked() {
            out.push(Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(kept), renamed: None })));
        }
        let under = if self.document.draft().is_some() { texts.waits } else { texts.keep_why };
        say(ui, widgets::soft(ui, under));
    }

    /// The points of a place, by their numbers in the drawing.
    fn points_of(&self, ui: &mut Ui, (bay, found, names): (&Bay, &Found, &[Vec<Id>]), place: usize) {
        let texts = self.view.locale.language.permanent();
        let palette = self.view.theme.palette();
        let words = self.words();
        let all = found.floor.points.iter().zip(names).enumerate().filter(|(_, own)| own.0.place == place);
        for (nth, (point, names)) in all {
            let name = names.first().map_or("", Id::as_str);
            say(ui, RichText::new(format!("{}  {name}", nth + 1)).size(size::BODY));
            let laid = self.view.locale.laid_within(point.within_mm);
            let from = widgets::unbroken(format!("{}; {laid}", words.point_from_walls(point)));
            ui.add(Label::new(widgets::soft(ui, from)).wrap().selectable(true));
            let care = look::colour(palette.care);
            if let Some(text) = words.point_lies_on(point) {
                say(ui, RichText::new(text).size(size::SMALL).color(care));
            }
            match is_kept(bay, point, names) {
                Kept::No => {}
                Kept::As(_) => {
                    let ready = look::colour(palette.ready);
                    say(ui, RichText::new(texts.is_kept).size(size::SMALL).color(ready));
                }
                Kept::Moved { mark, by } => {
                    let text = words.point_moved(&mark, by.length());
                    say(ui, RichText::new(text).size(size::SMALL).color(care));
                }
            }
        }
    }

    /// What of the marks of targets stays, set-up by set-up.
    fn targets_of(&self, ui: &mut Ui, found: &Found, lines: &[usize]) {
        let texts = self.view.locale.language.permanent();
        let all = found.floor.targets.iter().filter(|own| lines.contains(&own.line));
        let mut before = None;
        for own in all {
            let Some(arrangement) = found.arrangement(own.line) else { continue };
            if before.is_none() {
                say(ui, RichText::new(texts.targets).font(look::bold(size::SMALL)));
            }
            if before != Some(own.line) {
                say(ui, RichText::new(arrangement.id.as_str()).size(size::BODY));
            }
            before = Some(own.line);
            let said = Words::new(arrangement, self.view.locale).target_stays(own);
            say(ui, widgets::soft(ui, widgets::unbroken(said)));
        }
    }
}

fn say(ui: &mut Ui, text: RichText) {
    ui.add(Label::new(text).wrap());
}
