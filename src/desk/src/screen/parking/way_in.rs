//! How the car comes to the spots that are offered and to where it stands now: a line for each, and the way drawn while the pointer or
//! the keyboard is at it.

use std::sync::Arc;

use baywright_planner::geometry::PlanPose;
use baywright_planner::way_in::{Driven, Way, Ways, ways};
use egui::{Context, Label, RichText, Ui};

use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::SlowPart;

/// Ways, each with where it leads.
#[derive(Debug)]
struct Found {
    to: Vec<PlanPose>,
    ways: Ways,
}

/// What is known of them.
#[derive(Debug, Default)]
pub(in crate::screen) struct WaysIn {
    found: SlowPart<Found>,
    /// To where they were asked for last, and of what answer.
    asked: Option<(u64, Vec<PlanPose>)>,
}

impl WaysIn {
    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.found.collect()
    }

    /// Whether they are being looked for.
    pub fn are_looked_for(&self) -> bool {
        self.found.progress().is_some()
    }
}

impl Desk {
    /// Has the ways looked for to where the car stands and to these spots.
    pub(in crate::screen) fn look_for_ways_in(&mut self, ctx: &Context) {
        let offered = self.answer.shown_of(&self.parking.offered);
        let Some(offered) = offered.filter(|own| !own.is_older) else { return };
        if self.parking.offered.progress().is_some() {
            return;
        }
        let spots = offered.found.offers.iter().map(|own| own.spot.pose);
        let to: Vec<PlanPose> = std::iter::once(self.answer.judged.parked).chain(spots).collect();
        let asked = Some((self.answer.generation, to.clone()));
        let own = &mut self.parking.ways_in;
        if own.asked != asked {
            own.asked = asked;
            own.found.ask_again();
        }
        let how = ("ways in", to.len());
        self.answer.work_out(&mut own.found, how, &waking(ctx), move |judged, _, tell| {
            let ways = ways(judged, &to, &|| tell.is_stopped(), &mut |done| tell.steps(done));
            Found { to, ways }
        });
    }

    /// What was found of what is shown now: what is of an earlier bay may be no way in this one, and is not told.
    fn ways_in(&self) -> Option<&Found> {
        let shown = self.answer.shown_of(&self.parking.ways_in.found)?;
        (!shown.is_older).then_some(shown.found)
    }

    /// The line of the way to a spot, by the spot's name; what is drawn of it while it is pointed at.
    pub(in crate::screen) fn way_in_told(
        &self,
        ui: &mut Ui,
        spot: PlanPose,
        name: &str,
    ) -> Option<Arc<Driven>> {
        let shown = self.ways_in()?;
        let nth = shown.to.iter().position(|own| *own == spot)?;
        let way = shown.ways.to.get(nth)?;
        let line = self.words().way(way);
        let Way::Driven(driven) = way else {
            let care = look::colour(self.view.theme.palette().care);
            let text = RichText::new(widgets::unbroken(line)).size(size::SMALL).color(care);
            ui.add(Label::new(text).wrap().selectable(true));
            return None;
        };
        let response = widgets::link(ui, self.view.theme, &line);
        if response.clicked() {
            response.request_focus();
        }
        let is_lit = response.hovered() || response.has_focus();
        response.accessible_name(self.texts().of(&line, name));
        is_lit.then(|| Arc::clone(driven))
    }

    /// That they are being looked for, and the line of the way to where the car stands now.
    pub(in crate::screen) fn way_in_here(&self, ui: &mut Ui) -> Option<Arc<Driven>> {
        let texts = self.view.locale.language.way_in();
        if self.parking.ways_in.are_looked_for() {
            ui.add(Label::new(widgets::soft(ui, texts.looking)).wrap());
        }
        self.ways_in()?;
        ui.label(RichText::new(texts.where_it_stands).font(look::bold(size::BODY)));
        self.way_in_told(ui, self.answer.judged.parked, texts.where_it_stands)
    }

    /// What the ways rest on.
    pub(in crate::screen) fn ways_in_rest_on(&self, ui: &mut Ui) {
        let Some(shown) = self.ways_in() else { return };
        let texts = self.view.locale.language.way_in();
        let turning = self.words().turning(&shown.ways.turns);
        for text in [turning.as_str(), texts.taken_as_free, texts.beside_it] {
            ui.add(Label::new(widgets::soft(ui, text)).wrap());
        }
    }
}
