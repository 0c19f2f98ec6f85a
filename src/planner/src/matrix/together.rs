//! Which changes of the building unlock the most together for a sum: what neither of two walls unlocks alone, both may.
//!
//! All single changes and all pairs that have a price and stay within the sum are looked at; the best pair is then grown by one more at a
//! time, as long as one unlocks more. That is not every set: another of three or more may do better, and this is told with the answer.

use super::changes::Change;
use super::unlocked::{SetUnlocks, Unlocked};
use crate::model::OwnerFigures;

/// Several changes at once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Together {
    /// The changes, as they were asked about; empty if none within the sum unlocks any.
    pub changes: Vec<Change>,
    /// What they cost, in the owner's money.
    pub costs: f64,
    /// The lines that fit then and did not before, by their position.
    pub lines: Vec<usize>,
    /// How many sets of two or more were looked at.
    pub looked_at: usize,
    /// Whether it was stopped before its end, or one of the single changes was.
    pub is_partial: bool,
}

/// What can be bought: changes with their price, for a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Purse {
    /// Those with a price that is no more than the sum, each with it.
    pub priced: Vec<(Change, f64)>,
    /// How much can be spent.
    pub to_spend: f64,
}

impl Purse {
    /// Of some changes those that have a price and are within the sum; `None` if there is no sum or nothing to be had for it.
    pub fn of(all: &[Unlocked], owner: &OwnerFigures) -> Option<Self> {
        let to_spend = owner.to_spend?;
        let priced = all.iter().filter_map(|own| Some((own.change.clone(), own.change.cost(owner)?)));
        let priced: Vec<(Change, f64)> = priced.filter(|own| is_within(own.1, to_spend)).collect();
        (!priced.is_empty()).then_some(Self { priced, to_spend })
    }

    /// In so many steps it is looked at, at least: all pairs, and one more of each of the others.
    pub fn steps(&self) -> usize {
        self.pairs().len() + self.priced.len()
    }

    /// All pairs within the sum, each by the positions of its two.
    pub fn pairs(&self) -> Vec<Vec<usize>> {
        let all = 0..self.priced.len();
        let pairs = all.clone().flat_map(|a| (a + 1..all.end).map(move |b| vec![a, b]));
        pairs.filter(|own| self.is_within(own)).collect()
    }

    /// Each set that is this one and one more, within the sum.
    fn grown(&self, set: &[usize]) -> Vec<Vec<usize>> {
        let more = (0..self.priced.len()).filter(|nth| !set.contains(nth));
        let grown = more.map(|nth| {
            let mut own = [set, &[nth]].concat();
            own.sort_unstable();
            own
        });
        grown.filter(|own| self.is_within(own)).collect()
    }

    fn costs(&self, set: &[usize]) -> f64 {
        set.iter().filter_map(|nth| self.priced.get(*nth)).map(|own| own.1).sum()
    }

    fn is_within(&self, set: &[usize]) -> bool {
        is_within(self.costs(set), self.to_spend)
    }

    /// The changes of a set.
    pub fn changes(&self, set: &[usize]) -> Vec<Change> {
        set.iter().filter_map(|nth| self.priced.get(*nth)).map(|own| own.0.clone()).collect()
    }
}

/// Sums of prices are compared to a millionth of a coin, for rounding.
fn is_within(costs: f64, to_spend: f64) -> bool {
    costs <= to_spend + 1e-6
}

/// A set by the positions of its changes, and what it unlocks.
struct Looked {
    set: Vec<usize>,
    lines: Vec<usize>,
}

/// The best that was found for the sum: most by weight, then least in costs, then fewest changes. `found` is what each change does
/// alone; `look` is asked about sets of the purse, by position, and answers for each in their order.
pub fn together(
    purse: &Purse,
    found: &[Unlocked],
    weight: impl Fn(usize) -> f64,
    look: &mut dyn FnMut(&[Vec<usize>]) -> Vec<SetUnlocks>,
) -> Together {
    let worth = |lines: &[usize]| lines.iter().map(|nth| weight(*nth)).sum::<f64>();
    let key = |own: &Looked| (worth(&own.lines), -purse.costs(&own.set), std::cmp::Reverse(own.set.len()));
    let is_better = |a: &Looked, b: Option<&Looked>| b.is_none_or(|b| key(a) > key(b));
    let mut all = Together::default();
    let mut best: Option<Looked> = None;
    for (nth, (change, _)) in purse.priced.iter().enumerate() {
        let Some(own) = found.iter().find(|own| own.change == *change) else { continue };
        all.is_partial |= own.is_partial;
        let own = Looked { set: vec![nth], lines: own.lines.clone() };
        if is_better(&own, best.as_ref()) {
            best = Some(own);
        }
    }
    let mut asked = purse.pairs();
    let mut grown: Option<Looked> = None;
    while !asked.is_empty() {
        let answers = look(&asked);
        all.looked_at += asked.len();
        let mut first: Option<Looked> = None;
        for (set, (lines, is_partial)) in asked.into_iter().zip(answers) {
            all.is_partial |= is_partial;
            let own = Looked { set, lines };
            if is_better(&own, first.as_ref()) {
                first = Some(own);
            }
        }
        let Some(first) = first else { break };
        // One more that unlocks no more is only dearer.
        if grown.as_ref().is_some_and(|grown| worth(&first.lines) <= worth(&grown.lines)) {
            break;
        }
        asked = if all.is_partial { Vec::new() } else { purse.grown(&first.set) };
        grown = Some(first);
    }
    if let Some(own) = grown
        && is_better(&own, best.as_ref())
    {
        best = Some(own);
    }
    if let Some(Looked { set, lines }) = best.filter(|own| !own.lines.is_empty()) {
        (all.changes, all.costs, all.lines) = (purse.changes(&set), purse.costs(&set), lines);
    }
    all
}
