//! The coverage table: every kind of thing that a bay can hold, against everything that an aiming can ask of the room, in
//! every relation. Each cell is a finding, or a reason why there is none. A kind without its cells does not build.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod cells;
mod columns;
mod echoes;
mod openings;
mod rows;
mod told;

use std::collections::BTreeSet;

use cells::{Cell, Reason, cell};
use columns::{Column, Relation, Variant};
use rows::Row;
use support::Arrangement;

/// Whether a finding makes of a ready bay one that is not, or only with care. That no mark leads to the target, and that no zone
/// is entered, is so in every bay here where marks and zones would be in the way of what is asked.
fn is_minded(found: &Finding) -> bool {
    found.severity != Severity::Note && !matches!(found.code(), Code::MarkMissing | Code::ZonesMissing)
}

/// What is found of a row in a place: stops and cares that name it.
fn found_of(assessment: &Assessment, row: Row, column: Column) -> Vec<&Finding> {
    let is_named = |f: &Finding| match column.is_of_the_car() {
        true => f.subjects.contains(&Subject::Car),
        false => f.subjects.iter().any(|s| row.is(s)),
    };
    let minded = assessment.findings.iter().filter(|f| f.severity != Severity::Note);
    minded.filter(|f| is_named(f) && column.asks(f)).collect()
}

/// Every cell of the table that can be put together, with the bay that it is.
fn all_cells() -> impl Iterator<Item = (String, Row, Column, Cell, Arrangement)> {
    Row::all().into_iter().flat_map(|row| {
        let asked = move |variant: &Variant| {
            // What a thing is matters to what is asked of the room, not to who asks.
            matches!(variant, Variant::Radar | Variant::CarUnsure) || row.is_typical()
        };
        Variant::ALL.into_iter().filter(asked).flat_map(move |variant| {
            Column::ALL.into_iter().flat_map(move |column| {
                Relation::ALL.into_iter().filter_map(move |relation| {
                    let name = format!("{row:?} {column:?} {relation:?} {variant:?}");
                    let arrangement = column.with(row, relation, variant)?;
                    Some((name, row, column, cell(row, column, relation, variant), arrangement))
                })
            })
        })
    })
}

/// Whatever is found stops, needs care, or neither; a bay that is called ready has nothing in the way in any cell that says
/// there is something.
#[test]
fn every_cell_is_a_finding_or_a_reason() {
    let mut cells = 0;
    let mut wrong = Vec::new();
    let mut reasons: BTreeSet<Reason> = BTreeSet::new();
    for (name, row, column, cell, arrangement) in all_cells() {
        let judged = judge(&arrangement);
        let found = found_of(&judged, row, column);
        let told = || found.iter().map(|f| (f.severity, f.code())).collect::<Vec<_>>();
        match cell {
            Cell::Found(severity, codes) => {
                let is_it = |f: &&&Finding| f.severity <= severity && codes.contains(&f.code());
                if !found.iter().any(|f| is_it(&f)) {
                    wrong.push(format!("{name}: {codes:?} not in {:?}", told()));
                }
                // What may be in the way is never a stop.
                let is_unsure = codes.contains(&Code::PlaceUnsure) && !codes.contains(&Code::FresnelEntered);
                if is_unsure && found.iter().any(|f| f.severity == Severity::Stops) {
                    wrong.push(format!("{name}: stops {:?}", told()));
                }
                let is_ready = match severity {
                    Severity::Stops => judged.verdict != Verdict::NotReady,
                    _ => !judged.findings.iter().any(is_minded),
                };
                if is_ready {
                    wrong.push(format!("{name}: {:?}", judged.verdict));
                }
            }
            Cell::Nothing(reason) => {
                reasons.insert(reason);
                if !found.is_empty() {
                    wrong.push(format!("{name}: {reason:?}, but {:?}", told()));
                }
            }
        }
        let is_unmarked = arrangement.aiming.placements.iter().any(|own| own.mark.is_none());
        if is_unmarked != judged.findings.iter().any(|f| f.code() == Code::MarkMissing) {
            wrong.push(format!("{name}: a target without a mark: {is_unmarked}"));
        }
        let is_zoneless = arrangement.aiming.zones.is_empty();
        if is_zoneless != judged.findings.iter().any(|f| f.code() == Code::ZonesMissing) {
            wrong.push(format!("{name}: an aiming without a zone: {is_zoneless}"));
        }
        cells += 1;
    }
    assert!(wrong.is_empty(), "{} of {cells}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(cells > 40_000, "{cells}");
    assert_eq!(reasons, Reason::ALL.into_iter().collect(), "a reason that nothing needs");
    assert!(reasons.len() <= 15);
}
