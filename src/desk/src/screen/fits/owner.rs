//! Figures of the owner: they are the layout's, and taken from a field when that is left.

use baywright_planner::edit::Edit;
use baywright_planner::matrix::Change;
use baywright_planner::model::{Id, OwnerFigures, say_cost, validate::limits};
use egui::{RichText, Role, Ui, WidgetInfo};

use super::FitsPage;
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::typed::{self, Length};
use crate::screen::look::size;
use crate::screen::{Desk, widgets};

/// One of the figures.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) enum Figure {
    SquareMetre,
    ToSpend,
    /// How deep a strip is kept for what is in store.
    Store,
    /// How often an aiming of a car comes in a month.
    AMonth(Id, Id),
    /// What a change costs.
    Costs(Change),
}

impl Figure {
    /// What the owner said of it.
    pub fn of(&self, own: &OwnerFigures) -> Option<f64> {
        match self {
            Self::SquareMetre => own.square_metre,
            Self::ToSpend => own.to_spend,
            Self::Store => own.store_mm,
            Self::AMonth(car, aiming) => own.a_month(car, aiming),
            Self::Costs(change) => change.cost(own),
        }
    }

    fn say(&self, own: &mut OwnerFigures, value: Option<f64>) {
        match self {
            Self::SquareMetre => own.square_metre = value,
            Self::ToSpend => own.to_spend = value,
            Self::Store => own.store_mm = value,
            Self::AMonth(car, aiming) => own.say_comes_in(car, aiming, value),
            Self::Costs(Change::Without(thing)) => say_cost(&mut own.without, thing, value),
            Self::Costs(Change::Further(wall)) => say_cost(&mut own.further, wall, value),
            Self::Costs(Change::WalledUp(opening)) => say_cost(&mut own.walled_up, opening, value),
            Self::Costs(Change::OpenOnto(door)) => say_cost(&mut own.open_onto, door, value),
        }
    }
}

impl Desk {
    /// What the owner said of a figure.
    pub(super) fn owner_says(&self, figure: &Figure) -> Option<f64> {
        figure.of(&self.document.layout().owner)
    }

    /// A field for one of them with its name before it; `told` is how who listens hears it. An empty field says nothing of it.
    pub(super) fn owner_field(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        figure: &Figure,
        (name, told, width): (&str, &str, f32),
        out: &mut Vec<Command>,
    ) {
        let label = ui.label(RichText::new(name).size(size::SMALL));
        let kept = self.owner_says(figure);
        let locale = self.view.locale;
        let is_length = *figure == Figure::Store;
        let shown = |own: f64| if is_length { locale.length(own) } else { own.to_string() };
        let as_kept = || kept.map_or_else(String::new, shown);
        let typed = page.typed.as_ref().filter(|own| own.0 == *figure).map(|own| own.1.clone());
        let mut text = typed.unwrap_or_else(as_kept);
        let id = egui::Id::unique("figure of the owner").with(figure);
        let field = widgets::field(ui, id, &mut text, width, false);
        // By its own name, unless that says too little where there are several.
        let field = if told == name {
            field.labelled_by(label.id)
        } else {
            field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, told));
            field
        };
        if field.changed() {
            page.typed = Some((figure.clone(), text.clone()));
        }
        if field.lost_focus() && page.typed.take_if(|own| own.0 == *figure).is_some() {
            let text = text.trim();
            let value = match is_length {
                false => typed::bare_number(text).filter(|own| *own >= 0.0),
                true => match typed::length(text, locale.units) {
                    Some(Length::One(mm)) if (limits::IN_STORE.low..=limits::IN_STORE.high).contains(&mm) => {
                        Some(mm)
                    }
                    _ => None,
                },
            };
            if !text.is_empty() && value.is_none() {
                let texts = locale.language.fits();
                let most = || locale.length(limits::IN_STORE.high);
                out.push(Command::Say(if is_length {
                    texts.no_depth(text, &most())
                } else {
                    texts.no_number(text)
                }));
            } else if value != kept {
                let mut own = self.document.layout().owner.clone();
                figure.say(&mut own, value);
                out.push(Command::Bay(OfBay::Edit(Edit::Owner(Box::new(own)))));
            }
        }
    }
}
