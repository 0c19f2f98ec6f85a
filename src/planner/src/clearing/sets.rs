//! Sets of deeds, the cheapest first.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::cost::Cost;

/// A set by its cost, how many deeds it has, the place of its last one, and which, a bit for each.
type Next = Reverse<(Cost, u32, usize, u128)>;

/// All sets of some deeds in the order of their costs, those of fewer deeds first among equals; the empty one is the first.
pub(super) struct Sets {
    costs: Vec<Cost>,
    open: BinaryHeap<Next>,
    has_begun: bool,
}

impl Sets {
    /// Of deeds at these costs, the cheapest first; 128 at most.
    pub(super) fn of(costs: Vec<Cost>) -> Self {
        Self { costs, open: BinaryHeap::new(), has_begun: false }
    }

    fn push(&mut self, cost: Cost, deeds: u32, deed: usize, others: u128) {
        if let Some(own) = self.costs.get(deed) {
            self.open.push(Reverse((cost + *own, deeds + 1, deed, others | 1 << deed)));
        }
    }
}

impl Iterator for Sets {
    /// The cost, and which, a bit for each.
    type Item = (Cost, u128);

    fn next(&mut self) -> Option<Self::Item> {
        if !std::mem::replace(&mut self.has_begun, true) {
            self.push(Cost::default(), 0, 0, 0);
            return Some((Cost::default(), 0));
        }
        let Reverse((cost, deeds, last, set)) = self.open.pop()?;
        // With the next deed beside the last, and with it in its stead: each set comes of one other, which is no dearer.
        self.push(cost, deeds, last + 1, set);
        let own = self.costs.get(last).copied().unwrap_or_default();
        self.push(cost - own, deeds - 1, last + 1, set & !(1 << last));
        Some((cost, set))
    }
}

#[cfg(test)]
mod tests {
    use super::{Cost, Sets};

    #[test]
    fn each_set_comes_once_and_no_dearer_one_before() {
        let costs = [(1, 0), (1, 70), (2, 5), (4, 0), (4, 9)];
        let costs: Vec<Cost> = costs.map(|(first, second)| Cost { first, second }).to_vec();
        let all: Vec<(Cost, u128)> = Sets::of(costs.clone()).collect();
        assert!(all.windows(2).all(|own| own[0].0 <= own[1].0), "{all:?}");
        for (cost, set) in &all {
            let chosen = (0..5).filter(|nth| set >> nth & 1 == 1);
            let sum = chosen.fold(Cost::default(), |sum, nth| sum + costs[nth]);
            assert_eq!(*cost, sum);
        }
        let mut sets: Vec<u128> = all.into_iter().map(|own| own.1).collect();
        sets.sort_unstable();
        assert_eq!(sets, (0..32).collect::<Vec<u128>>());
        assert_eq!(Sets::of(Vec::new()).collect::<Vec<_>>(), [(Cost::default(), 0)]);
    }
}
