//! *Ready* is so, point by point.

use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::model::validate;
use baywright_planner::{Verdict, judge};

use crate::{bays, generator, of_each, oracle};

/// Of so many bays, the sample that is asked without being told otherwise, the shares of the verdicts are asked too.
const TELLING: u64 = 120;

/// A bay that is ready holds nothing that may be in the way, wherever its things and the car stand; one that is ready with care
/// nothing that surely is.
#[test]
fn what_is_ready_is_ready() {
    let count = bays(TELLING);
    let asked = of_each(count, |seed| {
        let arrangement = generator::arrangement(seed);
        let faults = validate::arrangement(&arrangement);
        assert!(faults.is_empty(), "seed {seed}: {faults:?}");
        let verdict = judge(&arrangement).verdict;
        let found = match verdict {
            Verdict::Ready => oracle::possible(&arrangement),
            Verdict::ReadyWithCare => oracle::certain(&arrangement),
            Verdict::NotReady => Vec::new(),
        };
        (seed, verdict, found)
    });
    let mut verdicts: BTreeMap<Verdict, u64> = BTreeMap::new();
    let mut refuted = Vec::new();
    for (seed, verdict, found) in asked {
        *verdicts.entry(verdict).or_default() += 1;
        if !found.is_empty() {
            refuted.push(format!("seed {seed}: {verdict:?}, but {found:?}"));
        }
    }
    println!("{verdicts:?}");
    assert!(refuted.is_empty(), "{} of {count}:\n{}", refuted.len(), refuted.join("\n"));
    // By chance a small sample holds few of one kind: its shares tell nothing of the bays that are made.
    if count >= TELLING {
        let share = |verdict: Verdict| verdicts.get(&verdict).copied().unwrap_or(0) * 100 / count;
        assert!(share(Verdict::Ready) >= 10, "too few are ready: {verdicts:?}");
        assert!(share(Verdict::ReadyWithCare) >= 5, "too few are ready with care: {verdicts:?}");
        assert!(share(Verdict::NotReady) >= 10, "too few are not ready: {verdicts:?}");
    }
}

/// What the oracle knows of it finds somewhere: a kind that it never finds proves nothing.
#[test]
fn the_oracle_finds_each_kind() {
    let asked = of_each(400, |seed| oracle::drawn(&generator::arrangement(seed)));
    let found: BTreeSet<&str> = asked.iter().flatten().map(|own| own.kind).collect();
    let missing: Vec<&&str> = oracle::KINDS.iter().filter(|kind| !found.contains(**kind)).collect();
    let unlisted: Vec<&&str> = found.iter().filter(|kind| !oracle::KINDS.contains(kind)).collect();
    assert!(missing.is_empty() && unlisted.is_empty(), "never found: {missing:?}; not listed: {unlisted:?}");
}
