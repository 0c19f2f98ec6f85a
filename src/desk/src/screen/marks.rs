//! How the marks are laid, in order, and what the tape must read between them.

use baywright_planner::entry::readings_rest_on;
use egui::{Grid, Label, RichText, ScrollArea, Ui};

use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::{Desk, widgets};

impl Desk {
    pub(super) fn marks(&self, ui: &mut Ui) {
        let texts = self.texts();
        let words = self.words();
        let (arrangement, scene) = (&*self.answer.judged, &self.answer.assessment.scene);
        ScrollArea::vertical().id_salt("marks").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 5.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            if arrangement.aiming.mark_plan.is_empty() {
                ui.label(widgets::soft(ui, texts.no_marks));
            }
            for index in 0..arrangement.aiming.mark_plan.len() {
                let text = widgets::unbroken(words.instruction(index, scene));
                ui.add(Label::new(RichText::new(text).size(size::BODY)).wrap());
            }
            if !scene.readings.is_empty() {
                ui.add_space(6.0);
                ui.label(RichText::new(texts.tape_must_read).font(look::bold(size::BODY)));
                let rests = readings_rest_on(arrangement, &scene.readings);
                Grid::new("readings").num_columns(2).show(ui, |ui| {
                    for (reading, rests) in scene.readings.iter().zip(&rests) {
                        ui.label(
                            RichText::new(texts.mark_to_mark(reading.from.as_str(), reading.to.as_str()))
                                .size(size::BODY),
                        );
                        let figure =
                            RichText::new(words.length(reading.distance_mm)).font(look::bold(size::BODY));
                        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                            ui.label(figure)
                        });
                        ui.end_row();
                        // Beside the figure that it is about: on whose account it may be another one on the floor.
                        if !rests.is_empty() {
                            let care = look::colour(self.view.theme.palette().care);
                            let said = RichText::new(widgets::unbroken(words.rests_on(rests)))
                                .size(size::LEAST)
                                .color(care);
                            ui.label("");
                            ui.add(Label::new(said).wrap());
                            ui.end_row();
                        }
                    }
                });
            }
            ui.add_space(6.0);
            ui.add(Label::new(widgets::soft(ui, texts.laser_caution)).wrap());
            in_sight::by_keys(ui, &texts.to_scroll(texts.marks), ScrolledBy::Keys);
        });
    }
}
