//! What stands first in a file of proof: what it is of, whether its figures are examples, and the answer, with what was open when it was
//! signed.

use baywright_planner::model::Provenance;
use baywright_planner::model::record::{Decided, Decision, What};

use super::Proof;
use crate::role::Role;
use crate::sheet::flow::{Flow, Lead, Said};
use crate::text::Weight;

/// The answer for each aiming, and who signed although something was open.
pub(super) fn in_short(own: &Proof<'_>, flow: &mut Flow<'_>) {
    let record = own.of.record;
    let begun = &record.begun;
    let style = flow.style(flow.sizes.read, Weight::Bold);
    flow.read(
        &own.texts.made_for(begun.vehicle.as_str(), begun.arrangement.as_str(), begun.bay.as_str()),
        None,
    );
    let of_lines = begun.lines.iter().any(|line| line.provenance == Provenance::Example);
    if of_lines || own.of.parts.iter().any(|part| part.assessment.on_example_figures) {
        let text = own.locale.language.sheets().on_examples;
        flow.said(&Said { text, style, role: Role::Title, lead: None });
    }
    own.heading(flow, own.texts.in_short);
    for line in &begun.lines {
        let all = own.holds.decided(&line.aiming);
        let count = |decision: Decision| {
            all.iter().filter(|now| !now.is_older && now.held.what.decision == decision).count()
        };
        let counts = [Decision::Inside, Decision::Outside].map(count);
        let mut said = own.texts.decided_so(&line.title, counts, all.len());
        if let Some(worst) = all.iter().map(|now| now.held.what).min_by(|a, b| worse(a, b)) {
            said = format!("{said} {}, {}", worst.placement, own.said.decided(own.locale, worst));
        }
        if let Some((result, ..)) = own.holds.routine(&line.aiming) {
            said = format!("{said} {}", own.said.routine(own.locale, result));
        } else {
            said = format!("{said} {}: {}.", own.texts.routine, own.texts.no_routine);
        }
        flow.read(&said, Some(Lead::Text("\u{2013}".to_owned())));
    }
    for (_, entry) in own.holds.signed() {
        if matches!(entry.what, What::Signed { lacking, .. } if lacking > 0) {
            let text = own.said.entry(own.locale, begun, entry);
            let text = format!("{text} ({}, {})", entry.by, own.said.clock(own.locale, entry.at));
            flow.said(&Said { text: &text, style, role: Role::Title, lead: None });
        }
    }
}

/// Which of two figures is told first: one that is outside, then one that cannot be told, then that of which least of the allowance is left.
fn worse(a: &Decided, b: &Decided) -> std::cmp::Ordering {
    let rank = |own: &Decided| match own.decision {
        Decision::Outside => 0,
        Decision::CannotSay => 1,
        Decision::Inside => 2,
    };
    let spare = |own: &Decided| own.to_spare() / own.allowed.max(f64::MIN_POSITIVE);
    rank(a).cmp(&rank(b)).then(spare(a).total_cmp(&spare(b)))
}
