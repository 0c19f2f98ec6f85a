//! The form of a dimension that is kept with the bay: its name, its length, what its ends follow.

use baywright_planner::edit::Edit;
use baywright_planner::hand::{KeptEnd, kept_ends};
use baywright_planner::model::{DimensionEnd, Id};
use egui::{Label, RichText, Ui};

use super::field::{Fields, Row};
use crate::screen::command::{Command, OfBay};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn dimension_form(&self, ui: &mut Ui, fields: &mut Fields, id: &Id, out: &mut Vec<Command>) {
        let texts = self.texts();
        let hand = self.view.locale.language.hand();
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        let Some(own) = arrangement.bay.dimensions.iter().find(|own| own.id == *id) else { return };
        let of = id.as_str();
        let read = |text: &str| {
            let text = text.trim();
            if text.is_empty() { Err(texts.no_name.to_owned()) } else { Ok(Id::from(text)) }
        };
        if let Some(name) = fields.row(ui, &Row { label: texts.name, hint: "", of }, of, read) {
            out.push(Command::Bay(OfBay::Edit(Edit::RenameDimension { dimension: id.clone(), name })));
        }
        let ends = kept_ends(arrangement, scene, own);
        let [from, to] = ends;
        ui.horizontal(|ui| {
            ui.label(widgets::soft(ui, texts.length));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let length = self.words().length(from.at.distance(to.at));
                ui.label(RichText::new(length).font(look::bold(size::BODY)));
            });
        });
        for ((label, end), now) in [hand.from_end, hand.to_end].into_iter().zip(&own.ends).zip(ends) {
            self.dimension_end(ui, label, end, now);
        }
        ui.add_space(4.0);
        if widgets::lesser(ui, texts.remove).on_hover_text(texts.remove_why).clicked() {
            out.push(Command::Bay(OfBay::Remove));
        }
    }

    fn dimension_end(&self, ui: &mut Ui, label: &str, end: &DimensionEnd, now: KeptEnd) {
        let words = self.words();
        let said = self.view.locale.language.hand().end_on(label, &words.dimension_end(end.on.as_ref()));
        ui.add(Label::new(RichText::new(widgets::unbroken(said)).size(size::SMALL)).wrap());
        if let Some(on) = end.on.as_ref().filter(|_| now.is_gone) {
            let care = look::colour(self.view.theme.palette().care);
            let said = RichText::new(words.dimension_end_gone(on)).size(size::LEAST).color(care);
            ui.add(Label::new(said).wrap());
        }
    }
}
