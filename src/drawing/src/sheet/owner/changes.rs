//! What changes of the building would unlock, in order of worth.

use std::collections::BTreeMap;

use baywright_planner::matrix::{Change, EachAlone, Place, Together, Unlocked, ranked};

use super::{Report, WITH_MM, numbers};
use crate::sheet::flow::{Flow, px};
use crate::sheet::table::{Cell, Column};

/// What was asked of changes, and what was found.
#[derive(Clone, Copy, Debug)]
pub struct ChangesAsked<'a> {
    /// Where the list is to fit.
    pub place: &'a Place,
    /// How many fit there now, as cars are parked.
    pub fit_now: usize,
    /// How much further out walls would stand, and how much more ground before doors would be free, mm.
    pub further_mm: f64,
    /// What was found of each, and which openings stay.
    pub found: &'a EachAlone,
    /// What each costs, where that was said: in the owner's money.
    pub costs: &'a BTreeMap<Change, f64>,
    /// Whether most for the money comes first, not most.
    pub for_the_money: bool,
    /// How much can be spent, if that was said.
    pub to_spend: Option<f64>,
    /// What several unlock together for that, if it was looked at.
    pub together: Option<&'a Together>,
}

impl Report<'_> {
    /// In order of worth.
    fn order<'a>(&self, asked: &ChangesAsked<'a>) -> Vec<&'a Unlocked> {
        let weight = |nth: usize| self.of.found.lines.get(nth).map_or(1.0, |own| own.weight);
        let all = &asked.found.all;
        let order = ranked(all, weight, |own| asked.costs.get(own).copied(), asked.for_the_money);
        order.into_iter().filter_map(|nth| all.get(nth)).filter(|own| own.is_of_use()).collect()
    }

    fn named(&self, asked: &ChangesAsked<'_>, change: &Change) -> String {
        let first = self.of.found.lines.first();
        first.map_or_else(String::new, |own| self.words(own).fits_change(change, asked.further_mm))
    }

    /// The change of most worth, in a sentence; `None` if none was looked at or unlocks anything.
    pub(super) fn first_change(&self) -> Option<String> {
        let asked = self.of.changes.as_ref()?;
        let first = self.order(asked).into_iter().find(|own| !own.lines.is_empty())?;
        Some(self.texts.first_change(&self.named(asked, &first.change), first.lines.len()))
    }

    /// All of them; nothing if they were not looked at.
    pub(super) fn changes(&self, flow: &mut Flow<'_>) {
        let Some(asked) = &self.of.changes else { return };
        let all = self.of.found.lines.len();
        flow.heading(self.texts.changes, WITH_MM);
        let further = self.locale.length(asked.further_mm);
        flow.read(&self.texts.changes_at(&self.place(asked.place), asked.fit_now, all, &further), None);
        if asked.found.all.iter().any(|own| own.is_partial) {
            self.strong(flow, self.texts.partial);
        }
        let order = self.order(asked);
        if order.is_empty() {
            flow.read(self.fits.unlocks_none, None);
        } else {
            flow.gap(1.0);
            let has_costs = order.iter().any(|own| asked.costs.contains_key(&own.change));
            let mut columns = vec![
                Column::new(self.texts.change, 3.0),
                Column::new(self.texts.unlocks, 0.8).ends_right(),
                Column::new(self.texts.which, 2.0),
            ];
            let has_eased = order.iter().any(|own| !own.eases.is_empty());
            if has_eased {
                columns.push(Column::new(self.texts.eases, 1.4));
            }
            if has_costs {
                columns.push(Column::new(self.texts.costs, 1.4).ends_right());
            }
            let rows = order.iter().map(|own| {
                let mut row = vec![
                    Cell::Text(self.named(asked, &own.change)),
                    Cell::Strong(own.lines.len().to_string()),
                    Cell::Text(numbers(&own.lines)),
                ];
                if has_eased {
                    row.push(Cell::Text(numbers(&own.eases)));
                }
                if has_costs {
                    row.push(Cell::Text(self.cost(asked, &own.change)));
                }
                row
            });
            self.table(flow, columns, rows.collect());
            let others = asked.found.all.len() - order.len();
            if others > 0 {
                flow.gap(1.0);
                flow.read(&self.texts.others_unlock_none(others), None);
            }
        }
        for (opening, why) in &asked.found.stay {
            flow.read(&self.fits.door_stays(opening.as_str(), *why), None);
        }
        self.together(flow, asked);
        flow.read(self.fits.only_one, None);
    }

    /// What several unlock together for the sum that can be spent.
    fn together(&self, flow: &mut Flow<'_>, asked: &ChangesAsked<'_>) {
        let Some((own, to_spend)) = asked.together.zip(asked.to_spend) else { return };
        flow.gap(2.0);
        flow.ensure(px(WITH_MM));
        self.strong(flow, self.texts.together);
        if own.is_partial {
            self.strong(flow, self.texts.partial);
        }
        match self.best_together() {
            Some(told) => flow.work(&told, None),
            None => flow.read(&self.texts.together_none(&self.money(to_spend)), None),
        }
        flow.read(self.fits.together_told, None);
    }

    /// What unlocks the most together, in a sentence; `None` if that was not looked at or nothing unlocks any.
    pub(super) fn best_together(&self) -> Option<String> {
        let asked = self.of.changes.as_ref()?;
        let (own, to_spend) = asked.together.filter(|own| !own.changes.is_empty()).zip(asked.to_spend)?;
        let names: Vec<String> = own.changes.iter().map(|change| self.named(asked, change)).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let (sum, costs) = (self.money(to_spend), self.money(own.costs));
        Some(self.texts.together_for(&sum, &names, &costs, own.lines.len(), &numbers(&own.lines)))
    }

    fn money(&self, figure: f64) -> String {
        self.locale.region.money(figure)
    }

    /// What a change costs, as it was entered.
    fn cost(&self, asked: &ChangesAsked<'_>, change: &Change) -> String {
        let Some(cost) = asked.costs.get(change) else { return "\u{2013}".to_owned() };
        let figure = self.money(*cost);
        if asked.to_spend.is_some_and(|most| *cost > most) { self.texts.beyond(&figure) } else { figure }
    }
}
