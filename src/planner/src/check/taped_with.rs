//! With what the marks were taped, laid and checked.
//!
//! Rule: an instrument with which something of this set-up was read was within its check on that day, as the shop's own list has it,
//! is in that list, and reads distances at all. A reading without a day counts as of today. What a list does not say is not asked.
//! What marks are laid with that no reading names (the only line laser, plumb line, square of the list) is asked of too once something was
//! taped, as of today; and the last check of a mark that stays, as of its own day.
//! Limit: the day until which its check holds, as entered.

use baywright_geometry::marks::Tool;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Chosen, Id, InstrumentKind, MarkTaped, PermanentMark, Taken, chosen, named};

pub(super) const CHECK: Check = Check {
    codes: &[Code::InstrumentOverdue, Code::InstrumentUnlisted, Code::InstrumentUnfit],
    whole,
    ..Check::NONE
};

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
        if !own.kind.reads_distances() {
            let facts = Facts::InstrumentUnfit(name.clone());
            let first = read_with().next();
            findings.extend(first.and_then(|first| of(context, first, facts, Severity::Care)));
        }
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
    if !arrangement.marks_taped.is_empty() {
        laid_with(context, findings);
    }
    for mark in &arrangement.bay.marks {
        checked_with(context, mark, findings);
    }
}

/// What the plan's steps are laid with, where the list leaves no choice.
fn laid_with(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let Some(today) = arrangement.today else { return };
    for (kind, tool) in [
        (InstrumentKind::LineLaser, Tool::LineLaser),
        (InstrumentKind::PlumbLine, Tool::PlumbLine),
        (InstrumentKind::Square, Tool::TapeAndSquare),
    ] {
        let Chosen::One(own) = chosen(&arrangement.instruments, kind, None) else { continue };
        let Some(days) = own.overdue_on(today) else { continue };
        let laid = arrangement.aiming.mark_plan.iter().zip(&context.scene.marks);
        let mut laid = laid.filter(|(step, _)| step.construction.tool() == tool);
        let first = laid.find_map(|(step, mark)| Some((step, mark.at.ok()?.extend(mark.lies_mm))));
        let Some((step, at)) = first else { continue };
        let facts = Facts::InstrumentOverdue(own.name.clone());
        let found =
            finding(facts, Severity::Care, vec![Subject::Mark(step.id.clone())], at, Basis::AsEntered);
        findings.push(found.against(Quantity::Days(days), Quantity::Days(0)));
    }
}

/// What the last check of a mark that stays was read with.
fn checked_with(context: &Context<'_>, mark: &PermanentMark, findings: &mut Vec<Finding>) {
    let Some(last) = mark.checks.iter().max_by_key(|own| own.on) else { return };
    let Some(name) = &last.with else { return };
    let Some(days) = named(&context.arrangement.instruments, name).and_then(|own| own.overdue_on(last.on))
    else {
        return;
    };
    let facts = Facts::InstrumentOverdue(name.clone());
    let of = vec![Subject::Mark(mark.id.clone())];
    let found = finding(facts, Severity::Care, of, mark.at.extend(0.0), Basis::AsEntered);
    findings.push(found.against(Quantity::Days(days), Quantity::Days(0)));
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
    use crate::model::{CheckFrom, CheckRead, Instrument, InstrumentKind, MarkCheck, MarkTaped, Taken};

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

    /// The only line laser of the list lays the lines, whether or not a reading names it.
    #[test]
    fn what_lays_the_marks_is_asked_too() {
        let mut own = read("tape 1", Some(date(2026, 5, 1)));
        none(&own, Code::InstrumentOverdue);
        let laser = |due| Instrument { due, ..Instrument::new("laser".into(), InstrumentKind::LineLaser) };
        let tape = own.instruments[0].clone();
        own.instruments = [tape.clone(), laser(Some(date(2026, 6, 5)))].into();
        let found = check(&own, Code::InstrumentOverdue, Severity::Care, Some(10.0));
        assert_eq!(found.subjects, [Subject::Mark("5".into())]);
        // Of two nobody knows which; and nothing was laid as long as nothing was taped.
        let other = Instrument::new("other laser".into(), InstrumentKind::LineLaser);
        own.instruments = [tape.clone(), laser(Some(date(2026, 6, 5))), other].into();
        none(&own, Code::InstrumentOverdue);
        own.instruments = [tape, laser(Some(date(2026, 6, 5)))].into();
        own.marks_taped.clear();
        none(&own, Code::InstrumentOverdue);
    }

    /// A mark that stays is as good as its last check was read.
    #[test]
    fn what_a_mark_that_stays_was_checked_with_is_asked() {
        let mut own = read("tape 1", Some(date(2026, 5, 1)));
        let wall = |nth: usize| CheckRead { from: CheckFrom::Wall(format!("w{nth}").into()), read_mm: 900.0 };
        let check_on =
            |on| MarkCheck { on, who: None, with: Some("tape 1".into()), read: [wall(0), wall(1)] };
        let mark = PermanentMark::new("stud".into(), DVec2::new(900.0, 900.0));
        own.bay.marks = vec![PermanentMark { checks: vec![check_on(date(2026, 6, 4))], ..mark.clone() }];
        let found = check(&own, Code::InstrumentOverdue, Severity::Care, Some(3.0));
        assert_eq!(found.subjects, [Subject::Mark("stud".into())]);
        // One in time since then takes its place, in whatever order they were written.
        let both = vec![check_on(date(2026, 6, 4)), check_on(date(2026, 5, 30))];
        own.bay.marks = vec![PermanentMark { checks: both, ..mark.clone() }];
        check(&own, Code::InstrumentOverdue, Severity::Care, Some(3.0));
        own.bay.marks = vec![PermanentMark { checks: vec![check_on(date(2026, 5, 30))], ..mark }];
        none(&own, Code::InstrumentOverdue);
    }

    /// Somebody picked the line laser: whatever read the distances, its own figures were not asked.
    #[test]
    fn what_reads_no_distances_needs_care() {
        none(&read("tape 1", Some(date(2026, 5, 1))), Code::InstrumentUnfit);
        let mut own = read("laser", Some(date(2026, 5, 1)));
        own.instruments = [Instrument::new("laser".into(), InstrumentKind::LineLaser)].into();
        check(&own, Code::InstrumentUnfit, Severity::Care, None);
    }

    #[test]
    fn what_is_not_in_the_list_is_noted() {
        let other = read("tape 2", None);
        check(&other, Code::InstrumentUnlisted, Severity::Note, None);
        none(&other, Code::InstrumentOverdue);
        none(&read("tape 1", None), Code::InstrumentUnlisted);
    }
}
