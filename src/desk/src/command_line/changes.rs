//! What changes of the building unlock anywhere in the room: each alone, in order of worth, and those with a price together for the sum
//! that the layout's owner has.

use std::collections::BTreeMap;
use std::io;

use baywright_drawing::sheet::ChangesAsked;
use baywright_planner::matrix::{
    Change, EachAlone, OfChanges, Place, Planned, Purse, Together, Unlocked, ranked,
};
use baywright_planner::model::OwnerFigures;
use baywright_planner::words::{Locale, Words};

use crate::command_line::page::Page;
use crate::session::planning::{most_changes, together_by, unlocked_by};

/// What was found.
pub(crate) struct ChangesFound {
    pub(crate) further_mm: f64,
    pub(crate) alone: EachAlone,
    pub(crate) together: Option<Together>,
    pub(crate) costs: BTreeMap<Change, f64>,
    pub(crate) to_spend: Option<f64>,
    fit_now: usize,
}

impl ChangesFound {
    /// Looks at all of them; `tell` hears how many are looked at, and of how many.
    pub(crate) fn look(
        found: &Planned,
        owner: &OwnerFigures,
        further_mm: f64,
        tell: &mut dyn FnMut(usize, usize),
    ) -> Option<Self> {
        let at = found.places.iter().position(|own| *own == Place::Room)?;
        let (lines, now) = (&*found.lines, found.fitting(at));
        let of = OfChanges { lines, now: &now, place: &Place::Room, further_mm, margin: &found.margin };
        let all = most_changes(&of);
        let alone = unlocked_by(&of, &|| false, &mut |done| tell(done, all));
        let together = Purse::of(&alone.all, owner).map(|purse| {
            let steps = purse.steps();
            let mut told = |done: usize| tell(done.min(steps), steps);
            together_by((&purse, &alone.all), &of, &|| false, &mut told)
        });
        let cost = |own: &Unlocked| Some((own.change.clone(), own.change.cost(owner)?));
        let costs = alone.all.iter().filter_map(cost).collect();
        let fit_now = now.iter().flatten().count();
        Some(Self { further_mm, alone, together, costs, to_spend: owner.to_spend, fit_now })
    }

    /// In order of worth.
    pub(crate) fn in_order(&self, found: &Planned) -> Vec<&Unlocked> {
        let weight = |nth: usize| found.lines.get(nth).map_or(1.0, |own| own.weight);
        let order = ranked(&self.alone.all, weight, |own| self.costs.get(own).copied(), false);
        order.into_iter().filter_map(|nth| self.alone.all.get(nth)).collect()
    }

    /// The same, for a report.
    pub(crate) fn asked(&self) -> ChangesAsked<'_> {
        ChangesAsked {
            place: &Place::Room,
            fit_now: self.fit_now,
            further_mm: self.further_mm,
            found: &self.alone,
            costs: &self.costs,
            for_the_money: false,
            to_spend: self.to_spend,
            together: self.together.as_ref(),
        }
    }

    /// As text.
    pub(crate) fn text(&self, found: &Planned, locale: Locale, out: &mut Page<'_>) -> io::Result<()> {
        let Some(first) = found.lines.first() else { return Ok(()) };
        let (fits, report) = (locale.language.fits(), locale.language.owner_report());
        let money = |sum: f64| locale.region.money(sum);
        let further = locale.length(self.further_mm);
        let words = Words::new(&first.arrangement, locale);
        let named = |own: &Change| words.fits_change(own, self.further_mm);
        let name = |nth: &usize| {
            let line = found.lines.get(*nth)?;
            Some(Words::new(&line.arrangement, locale).plan_line(line.is_saved))
        };
        out.entry("  ", &format!("{}:", report.changes))?;
        let place = words.fits_place(&Place::Room);
        out.entry("      ", &report.changes_at(&place, self.fit_now, found.lines.len(), &further))?;
        let mut none = 0;
        for own in self.in_order(found) {
            if !own.is_of_use() {
                none += 1;
                continue;
            }
            let [lines, eases] =
                [&own.lines, &own.eases].map(|own| own.iter().filter_map(name).collect::<Vec<String>>());
            let [lines, eases] =
                [&lines, &eases].map(|own| own.iter().map(String::as_str).collect::<Vec<&str>>());
            out.entry("   -  ", &named(&own.change))?;
            out.entry("      ", &fits.unlocks(&lines))?;
            if !eases.is_empty() {
                out.entry("      ", &fits.eases(&eases))?;
            }
            if let Some(cost) = self.costs.get(&own.change) {
                let is_beyond = self.to_spend.is_some_and(|most| *cost > most);
                let cost = if is_beyond { report.beyond(&money(*cost)) } else { money(*cost) };
                out.entry("      ", &format!("{}: {cost}", report.costs))?;
            }
        }
        if none == self.alone.all.len() {
            out.entry("      ", fits.unlocks_none)?;
        } else if none > 0 {
            out.entry("      ", &report.others_unlock_none(none))?;
        }
        for (opening, why) in &self.alone.stay {
            out.entry("      ", &fits.door_stays(opening.as_str(), *why))?;
        }
        if let Some((own, to_spend)) = self.together.as_ref().zip(self.to_spend) {
            out.entry("  ", &format!("{}:", report.together))?;
            let names: Vec<String> = own.changes.iter().map(named).collect();
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            let lines: Vec<String> = own.lines.iter().filter_map(name).collect();
            let sum = money(to_spend);
            let told = match own.changes.is_empty() {
                true => report.together_none(&sum),
                false => {
                    let (costs, which) = (money(own.costs), lines.join("; "));
                    report.together_for(&sum, &names, &costs, own.lines.len(), &which)
                }
            };
            out.entry("      ", &told)?;
            out.entry("      ", fits.together_told)?;
        }
        out.entry("      ", fits.only_one)
    }
}
