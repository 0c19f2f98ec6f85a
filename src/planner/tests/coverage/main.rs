//! The coverage table: every kind of thing that a bay can hold, against everything that an aiming can ask of the room, in
//! every relation. Each cell is a finding, or a reason why there is none. A kind without its cells does not build.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod cells;
mod columns;
mod rows;

use std::collections::BTreeSet;

use cells::{Cell, Reason, cell};
use columns::{Column, Relation};
use rows::Row;

/// What is found of a row in a place: stops and cares that name it.
fn found_of(assessment: &Assessment, row: Row) -> Vec<&Finding> {
    let names = |f: &&Finding| f.severity != Severity::Note && f.subjects.iter().any(|s| row.is(s));
    assessment.findings.iter().filter(names).collect()
}

#[test]
fn every_cell_is_a_finding_or_a_reason() {
    let mut cells = 0;
    let mut wrong = Vec::new();
    let mut reasons: BTreeSet<Reason> = BTreeSet::new();
    for row in Row::all() {
        for column in Column::ALL {
            for relation in Relation::ALL {
                let Some(arrangement) = column.with(row, relation) else { continue };
                let assessment = assess(&arrangement);
                let found = found_of(&assessment, row);
                let told = || found.iter().map(|f| (f.severity, f.code())).collect::<Vec<_>>();
                match cell(row, column, relation) {
                    Cell::Found(severity, codes) => {
                        let is_it = |f: &&&Finding| f.severity <= severity && codes.contains(&f.code());
                        if !found.iter().any(|f| is_it(&f)) {
                            wrong.push(format!(
                                "{row:?} {column:?} {relation:?}: {codes:?} not in {:?}",
                                told()
                            ));
                        }
                        // What may be in the way is never a stop.
                        let stops = found.iter().any(|f| f.severity == Severity::Stops);
                        if severity == Severity::Care && relation == Relation::Within && stops {
                            wrong.push(format!("{row:?} {column:?} {relation:?}: stops {:?}", told()));
                        }
                    }
                    Cell::Nothing(reason) => {
                        reasons.insert(reason);
                        if !found.is_empty() {
                            wrong.push(format!(
                                "{row:?} {column:?} {relation:?}: {reason:?}, but {:?}",
                                told()
                            ));
                        }
                    }
                }
                cells += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {cells}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(cells > 2_000, "{cells}");
    assert_eq!(reasons, Reason::ALL.into_iter().collect(), "a reason that nothing needs");
    assert!(reasons.len() <= 15);
}

/// Whatever is found stops, needs care, or neither; a bay that is called ready has nothing in the way in any cell that says
/// there is something.
#[test]
fn no_cell_with_a_finding_is_ready() {
    for row in Row::all() {
        for column in Column::ALL {
            for relation in Relation::ALL {
                let Some(arrangement) = column.with(row, relation) else { continue };
                if let Cell::Found(severity, _) = cell(row, column, relation) {
                    let verdict = assess(&arrangement).verdict;
                    let worst =
                        if severity == Severity::Stops { Verdict::NotReady } else { Verdict::ReadyWithCare };
                    assert!(
                        verdict == worst || verdict == Verdict::NotReady,
                        "{row:?} {column:?} {relation:?}: {verdict:?}"
                    );
                }
            }
        }
    }
}
