//! With what the marks were taped.
//!
//! Rule: an instrument with which something of this set-up was read was within its check on that day, as the shop's own list has it,
//! and is in that list. A reading without a day counts as of today. What a list does not say is not asked.
//! Limit: the day until which its check holds, as entered.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Id, MarkTaped, Taken, named};

pub(super) const CHECK: Check =
    Check { codes: &[Code::InstrumentOverdue, Code::InstrumentUnlisted], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let taped = || arrangement.marks_taped.iter().chain(&arrangement.laid_before);
    let mut names: Vec<&Id> = taped().filter_map(|own| own.taken.with.as_ref()).collect();
    names.sort();
    names.dedup();
    for name in names {
        let read_with = || taped().filter(|own| own.taken.with.as_ref() == Some(name));
        let Some(own) = named(&arrangement.instruments, name) else {
            let facts = Facts::InstrumentUnlisted(name.clone());
            let first = read_with().next();
            findings.extend(first.and_then(|first| of(context, first, facts, Severity::Note)));
            continue;
        };
        let days = |taken: &Taken| {
            let day = taken.at.map(|at| at.date()).or(arrangement.today)?;
            own.overdue_on(day)
        };
        // The longest overdue of them is told.
        let overdue = read_with().filter_map(|taped| Some((days(&taped.taken)?, taped)));
        let Some((days, taped)) = overdue.max_by_key(|(days, _)| *days) else { continue };
        let found = of(context, taped, Facts::InstrumentOverdue(name.clone()), Severity::Care);
        findings.extend(found.map(|own| own.against(Quantity::Days(days), Quantity::Days(0))));
    }
}

fn of(context: &Context<'_>, taped: &MarkTaped, facts: Facts, severity: Severity) -> Option<Finding> {
    let mark = context.scene.marks.iter().find(|own| own.id == taped.to)?;
    let at = mark.at.ok()?.extend(mark.lies_mm);
    let run = Subject::Run(taped.from.clone(), taped.to.clone());
    Some(finding(facts, severity, vec![run], at, Basis::AsEntered))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use crate::check::testing::*;
    use crate::model::{Instrument, InstrumentKind, MarkTaped, Taken};

    /// One distance, read with this on this day by the clock, asked on 2026-06-15.
    fn read(with: &str, on: Option<jiff::civil::Date>) -> Arrangement {
        let mut own = clear();
        own.today = Some(date(2026, 6, 15));
        let due = Some(date(2026, 6, 1));
        own.instruments =
            [Instrument { due, ..Instrument::new("tape 1".into(), InstrumentKind::SteelTape) }].into();
        let first = assess(&own).scene.readings[0].clone();
        let at = on.map(|day| day.at(9, 0, 0, 0));
        own.marks_taped = vec![MarkTaped {
            taken: Taken { with: Some(with.into()), at, ..Taken::default() },
            ..MarkTaped::new(first.from, first.to, first.distance_mm.round())
        }];
        own
    }

    #[test]
    fn what_was_overdue_on_that_day_needs_care() {
        let late = Some(date(2026, 6, 13));
        let found = check(&read("tape 1", late), Code::InstrumentOverdue, Severity::Care, Some(12.0));
        assert!(matches!(found.subjects[..], [Subject::Run(..)]));
        // On its last day it holds, whatever the day on which that is asked; without a day it is today's.
        none(&read("tape 1", Some(date(2026, 6, 1))), Code::InstrumentOverdue);
        check(&read("tape 1", None), Code::InstrumentOverdue, Severity::Care, Some(14.0));
        let mut unlimited = read("tape 1", late);
        unlimited.instruments = [Instrument::new("tape 1".into(), InstrumentKind::SteelTape)].into();
        none(&unlimited, Code::InstrumentOverdue);
        // What the hand of the earlier laying was measured with counts too.
        let mut before = read("tape 1", late);
        before.laid_before = std::mem::take(&mut before.marks_taped);
        check(&before, Code::InstrumentOverdue, Severity::Care, Some(12.0));
    }

    #[test]
    fn what_is_not_in_the_list_is_noted() {
        let other = read("tape 2", None);
        check(&other, Code::InstrumentUnlisted, Severity::Note, None);
        none(&other, Code::InstrumentOverdue);
        none(&read("tape 1", None), Code::InstrumentUnlisted);
    }
}
