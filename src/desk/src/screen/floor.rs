//! What the floor's levels say: how the car stands, how high each target is set, what is laid under the wheels; and how even the floor
//! is, for who has it levelled.

use baywright_planner::ground::{Ground, Judged};
use baywright_planner::proof::Said;
use egui::{Color32, Label, RichText, ScrollArea, Ui};

use super::command::{Command, OfView};
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::{Desk, widgets};

/// What levels say of what is shown, worked out once for each answer.
#[derive(Debug, Default)]
pub(super) struct OnFloor {
    of: Option<u64>,
    ground: Option<Ground>,
    /// Whether the figures behind the answer are shown.
    details: bool,
}

impl Desk {
    pub(super) fn floor(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.on_floor.of != Some(self.answer.generation) || self.answer.stale {
            self.on_floor.of = Some(self.answer.generation);
            self.on_floor.ground = Ground::of(&self.answer.judged, &self.answer.assessment.scene);
        }
        let mut on_floor = std::mem::take(&mut self.on_floor);
        let texts = self.view.locale.language.ground();
        ScrollArea::vertical().id_salt("floor").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 6.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            match &on_floor.ground {
                Some(ground) => {
                    self.answer_of_levels(ui, ground);
                    self.drawn_levels(ui, out);
                    self.ways_of_floor(ui, out);
                    ui.add(Label::new(widgets::soft(ui, texts.drain)).wrap());
                    self.behind_levels(ui, ground, &mut on_floor.details);
                }
                None => {
                    ui.add(Label::new(RichText::new(texts.not_surveyed).size(size::BODY)).wrap());
                    self.ways_of_floor(ui, out);
                    ui.add(Label::new(widgets::soft(ui, texts.drain)).wrap());
                }
            }
            in_sight::by_keys(ui, &self.texts().to_scroll(texts.title), ScrolledBy::Keys);
            in_sight::follow(ui);
        });
        self.on_floor = on_floor;
    }

    /// The answer, the sentence first.
    fn answer_of_levels(&self, ui: &mut Ui, ground: &Ground) {
        let (words, texts) = (self.words(), self.view.locale.language.ground());
        let said = |ui: &mut Ui, text: String, colour: Option<Color32>| {
            let text = RichText::new(widgets::unbroken(text)).font(look::bold(size::BODY));
            let text = colour.into_iter().fold(text, |text, colour| text.color(colour));
            ui.add(Label::new(text).wrap());
        };
        match &ground.car {
            Some(car) => {
                said(ui, words.pitch(car), self.told_in(&car.pitch));
                said(ui, words.roll(car), self.told_in(&car.roll));
            }
            None => {
                let care = look::colour(self.view.theme.palette().care);
                said(ui, texts.not_here.to_owned(), Some(care));
            }
        }
        let stands = self.answer.assessment.scene.targets.iter().any(|own| !own.lies);
        if ground.heights.is_empty() && stands {
            ui.add(Label::new(widgets::soft(ui, texts.heights_unknown)).wrap());
        }
        for height in &ground.heights {
            let unsure = height.height.said.is_some_and(|said| !matches!(said, Said::Inside { .. }));
            let care = look::colour(self.view.theme.palette().care);
            said(ui, words.height_to_set(height), unsure.then_some(care));
        }
        if ground.heights.iter().any(|own| own.by_profile) {
            ui.add(Label::new(widgets::soft(ui, texts.sensor_by_profile)).wrap());
        }
        if let Some(shims) = ground.car.as_ref().and_then(|car| words.shims(car)) {
            said(ui, shims, None);
        }
        if let Some(spread) = &ground.spread {
            said(ui, words.spread(spread), self.told_in(spread));
        }
        let survey = self.answer.judged.bay.survey.as_ref();
        ui.add(Label::new(widgets::soft(ui, words.levels_known(&ground.known, survey))).wrap());
    }

    /// By what colour a figure is told, if something is asked of it.
    fn told_in(&self, own: &Judged) -> Option<Color32> {
        let palette = self.view.theme.palette();
        own.said.map(|said| match said {
            Said::Inside { .. } => look::colour(palette.ready),
            Said::Outside { .. } => look::colour(palette.stops),
            Said::CannotSay { .. } | Said::NoFigure => look::colour(palette.care),
        })
    }

    fn drawn_levels(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.ground();
        let mut drawn = self.view.contours;
        if ui.checkbox(&mut drawn, widgets::soft(ui, texts.show)).on_hover_text(texts.show_why).changed() {
            out.push(Command::View(OfView::Contours(drawn)));
        }
    }

    /// Where the levels are entered.
    fn ways_of_floor(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.ground();
        // While a car is being entered the bay waits.
        if self.document.draft().is_none()
            && widgets::lesser(ui, texts.enter_levels).on_hover_text(texts.enter_levels_why).clicked()
        {
            out.push(Command::EnterLevels);
        }
    }

    /// The figures behind the answer, for who asks, and the line for who levels the floor.
    fn behind_levels(&self, ui: &mut Ui, ground: &Ground, open: &mut bool) {
        let (words, texts) = (self.words(), self.view.locale.language.ground());
        let line = |ui: &mut Ui, text: String| {
            ui.add(Label::new(widgets::soft(ui, widgets::unbroken(text))).wrap());
        };
        let title = |ui: &mut Ui, text: &str| {
            ui.add_space(4.0);
            ui.add(Label::new(RichText::new(text).font(look::bold(size::SMALL))).wrap());
        };
        title(ui, texts.contractor);
        line(ui, words.for_contractor(ground));
        ui.checkbox(open, widgets::soft(ui, texts.details));
        if !*open {
            return;
        }
        if let Some(car) = &ground.car {
            title(ui, texts.of_the_car);
            (0..car.tyres.len()).for_each(|at| line(ui, words.tyre(car, at)));
            line(ui, words.twist(car));
        }
        if !ground.marks.is_empty() {
            title(ui, texts.of_the_marks);
            for own in &ground.marks {
                line(ui, words.mark_level(own));
            }
        }
        title(ui, texts.of_the_floor);
        match &ground.even {
            Some(even) => words.evenness(even).into_iter().for_each(|text| line(ui, text)),
            None => line(ui, texts.no_even.to_owned()),
        }
        line(ui, texts.rule.to_owned());
    }
}
