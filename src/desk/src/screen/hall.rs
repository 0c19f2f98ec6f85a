//! A hall of several bays: which of them is in hand, and what is set up in each.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, SavedArrangement};
use baywright_planner::words::sentence_start;
use egui::{Button, RichText, Ui};

use super::Desk;
use super::command::{Command, OfBay};
use super::look::{self, size};

/// As large as a bay for one car is begun, along and across, mm (common practice, no source).
const BAY_MM: DVec2 = DVec2::new(7_000.0, 4_000.0);

/// How large a bay begins in a room of this size, mm.
pub(super) fn bay_size(room: DVec2) -> DVec2 {
    BAY_MM.min(room * 0.8)
}

impl Desk {
    /// The bay of the hall that the shown set-up is made in.
    pub(super) fn active_bay(&self) -> Option<&Id> {
        self.document.saved_arrangement().and_then(|own| own.in_bay.as_ref())
    }

    /// The set-ups that are made in a bay, in the layout's order.
    pub(super) fn made_in<'a>(&'a self, bay: &'a Id) -> impl Iterator<Item = &'a SavedArrangement> {
        self.document.layout().arrangements.iter().filter(move |own| own.in_bay.as_ref() == Some(bay))
    }

    /// Over the list: the bays of a hall, of which one is in hand. A press on another shows what is set up there.
    pub(super) fn bays_in_hall(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let bay = self.document.bay();
        if bay.bays.is_empty() {
            return;
        }
        let texts = self.view.locale.language.rooms();
        ui.label(RichText::new(texts.bays_in_hall).font(look::bold(size::SMALL)));
        ui.horizontal_wrapped(|ui| {
            for own in &bay.bays {
                let active = self.active_bay() == Some(&own.id);
                let name = sentence_start(own.id.as_str());
                let press = ui.add(Button::selectable(active, RichText::new(&name).size(size::SMALL)));
                let why =
                    if self.made_in(&own.id).next().is_some() { texts.to_bay_why } else { texts.no_set_up };
                let press = press.on_hover_text(why).accessible_name(texts.to_bay(own.id.as_str()));
                if press.clicked() {
                    out.push(Command::Bay(OfBay::ToBay(own.id.clone())));
                }
            }
        });
        ui.separator();
    }
}
