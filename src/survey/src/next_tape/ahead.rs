//! Which of some distances to tape first, so that whoever stops after two, three or four has lost as little as possible.
//!
//! The best two need not be among the best three. So of all orders that one is taken whose worst loss against the best set of as
//! many is the least. A set's worth is worked out in the distances' own terms, what each tells of the others and of what is
//! wished: one distance taped is one step of the same best linear estimate.

use crate::matrix::Matrix;

/// So many distances are looked at together; of more, those that are worth most with a second one.
pub(super) const TOGETHER: usize = 40;
/// So many steps of work at most: with many distances it looks less far ahead.
const MOST_WORK: usize = 3_000_000;
const FURTHEST: usize = 4;

/// Distances in their own terms.
#[derive(Clone)]
pub(super) struct Told {
    /// What they tell of each other: their covariance without their own reading.
    among: Matrix,
    /// What each (rows) tells of what is wished (columns).
    of_wish: Matrix,
    /// Each one's own reading, its variance.
    own: Vec<f64>,
    /// The variance of what is wished.
    left: f64,
}

/// What taping one first comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct First {
    /// Which one.
    pub candidate: usize,
    /// The variance left after it alone.
    pub left: f64,
    /// The variance left after the best second one too.
    pub left_after_two: f64,
    /// How much more than the best is left in the worst case of the orders that begin with it, as a ratio of uncertainties.
    pub worst: f64,
}

impl Told {
    pub fn new(among: Matrix, of_wish: Matrix, own: Vec<f64>, left: f64) -> Self {
        Self { among, of_wish, own, left }
    }

    /// The variance left after one of them.
    fn after(&self, taped: usize) -> f64 {
        let told: f64 = self.of_wish.row(taped).iter().map(|cell| cell * cell).sum();
        (self.left - told / self.variance(taped)).max(0.0)
    }

    fn variance(&self, taped: usize) -> f64 {
        self.among.at(taped, taped) + self.own.get(taped).copied().unwrap_or_default()
    }

    /// The variance left after two of them.
    fn after_two(&self, one: usize, other: usize) -> f64 {
        let both = self.among.at(one, other);
        let variance = self.variance(one);
        let rest = self.variance(other) - both * both / variance;
        let of = self.of_wish.row(one).iter().zip(self.of_wish.row(other));
        let told: f64 = of.map(|(a, b)| (b - a * both / variance).powi(2)).sum();
        (self.after(one) - told / rest).max(0.0)
    }

    /// Those that come later in the list, once one is taped.
    fn once_taped(&self, taped: usize) -> Self {
        let (first, variance) = (taped + 1, self.variance(taped));
        let later = self.own.get(first..).unwrap_or_default();
        let row = self.among.row(taped).get(first..).unwrap_or_default();
        let told = self.of_wish.row(taped);
        let pull = |at: usize| row.get(at).map_or(0.0, |cell| cell / variance);
        let cell = |of: &[f64], at: usize| of.get(at).copied().unwrap_or_default();
        Self {
            among: Matrix::of(later.len(), later.len(), |a, b| {
                self.among.at(first + a, first + b) - pull(a) * cell(row, b)
            }),
            of_wish: Matrix::of(later.len(), told.len(), |a, g| {
                self.of_wish.at(first + a, g) - pull(a) * cell(told, g)
            }),
            own: later.to_vec(),
            left: self.after(taped),
        }
    }

    /// Of many the few that are worth most with the best second one.
    pub fn best_pairs(&self) -> Vec<usize> {
        let count = self.own.len();
        let mut all: Vec<(usize, f64)> = (0..count)
            .map(|one| {
                let others = (0..count).filter(|other| *other != one);
                (one, others.map(|other| self.after_two(one, other)).fold(self.after(one), f64::min))
            })
            .collect();
        all.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        all.truncate(TOGETHER);
        all.into_iter().map(|(one, _)| one).collect()
    }

    /// Only these, in this order.
    pub fn only(&self, which: &[usize]) -> Self {
        let of = |at: usize| which.get(at).copied().unwrap_or(usize::MAX);
        let count = which.len();
        Self {
            among: Matrix::of(count, count, |a, b| self.among.at(of(a), of(b))),
            of_wish: Matrix::of(count, self.of_wish.columns(), |a, g| self.of_wish.at(of(a), g)),
            own: which.iter().map(|at| self.own.get(*at).copied().unwrap_or_default()).collect(),
            left: self.left,
        }
    }

    /// Each as the first one, when sets of these sizes (1 is one more) are to lose little.
    pub fn firsts(&self, from: usize, to: usize) -> Vec<First> {
        let count = self.own.len();
        let sets = Sets { of: count, furthest: furthest(count, to) };
        let mut left = vec![Vec::new(); sets.furthest];
        self.walk(&mut left, 0);
        // From the largest sets down: how much more than the best is left, there and after the best of the sets that hold it.
        let mut after: Vec<f64> = Vec::new();
        for (smaller, left) in left.iter().enumerate().rev() {
            let size = smaller + 1;
            let best = left.iter().copied().fold(f64::INFINITY, f64::min);
            let mut worst: Vec<f64> = left
                .iter()
                .map(|left| if size >= from && best > 0.0 { (left / best).sqrt() } else { 1.0 })
                .collect();
            let mut least = vec![f64::INFINITY; if size < sets.furthest { worst.len() } else { 0 }];
            sets.each(size + 1, |nth, set| {
                let there = after.get(nth).copied().unwrap_or(f64::INFINITY);
                for without in 0..set.len() {
                    let smaller =
                        set.iter().enumerate().filter(|(at, _)| *at != without).map(|(_, one)| *one);
                    if let Some(own) = least.get_mut(sets.place(size, smaller)) {
                        *own = own.min(there);
                    }
                }
            });
            worst.iter_mut().zip(least).for_each(|(own, next)| *own = own.max(next));
            after = worst;
        }
        let first = |candidate: usize| {
            let others = (0..count).filter(|other| *other != candidate);
            let left = self.after(candidate);
            First {
                candidate,
                left,
                left_after_two: others.map(|other| self.after_two(candidate, other)).fold(left, f64::min),
                worst: after.get(candidate).copied().unwrap_or(f64::INFINITY),
            }
        };
        (0..count).map(first).collect()
    }

    /// What every set leaves, by its size, in the order of its members.
    fn walk(&self, left: &mut [Vec<f64>], size: usize) {
        for taped in 0..self.own.len() {
            left.get_mut(size).into_iter().for_each(|own| own.push(self.after(taped)));
            if size + 1 < left.len() {
                self.once_taped(taped).walk(left, size + 1);
            }
        }
    }
}

/// How far ahead so many can be looked at.
fn furthest(count: usize, wanted: usize) -> usize {
    let mut size = 0;
    while size < wanted.clamp(1, FURTHEST).min(count) {
        if size >= 2 && sets_of(count, size + 1).saturating_mul(count * count) > MOST_WORK {
            break;
        }
        size += 1;
    }
    size
}

/// How many sets of a size there are.
fn sets_of(count: usize, size: usize) -> usize {
    (0..size).fold(1, |sets, nth| sets * count.saturating_sub(nth) / (nth + 1))
}

/// The sets of so many things, up to a size, each size in the order of its members.
struct Sets {
    of: usize,
    furthest: usize,
}

impl Sets {
    /// Each set of a size with its place; none of a size that is not looked at.
    fn each(&self, size: usize, mut give: impl FnMut(usize, &[usize])) {
        if size > self.furthest || size == 0 {
            return;
        }
        let mut set: Vec<usize> = (0..size).collect();
        for nth in 0..sets_of(self.of, size) {
            give(nth, &set);
            // The last member that can go on does, and those behind it follow right after.
            let Some(at) =
                (0..size).rev().find(|at| set.get(*at).is_some_and(|one| *one < self.of - size + at))
            else {
                return;
            };
            let first = set.get(at).map_or(0, |one| one + 1);
            set.iter_mut().skip(at).zip(first..).for_each(|(own, one)| *own = one);
        }
    }

    /// Where a set of a size stands: before it are all but those that begin later.
    fn place(&self, size: usize, set: impl Iterator<Item = usize>) -> usize {
        let later = set.zip((1..=size).rev()).map(|(one, left)| sets_of(self.of - 1 - one, left));
        sets_of(self.of, size) - 1 - later.sum::<usize>()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic)]

    use super::*;

    #[test]
    fn every_set_has_its_place() {
        let sets = Sets { of: 7, furthest: 4 };
        for size in 1..=4 {
            let mut last: Vec<usize> = Vec::new();
            let mut count = 0;
            sets.each(size, |nth, set| {
                assert!(
                    set.is_sorted() && last.as_slice() < set && sets.place(size, set.iter().copied()) == nth
                );
                last = set.to_vec();
                count += 1;
            });
            assert_eq!(count, [7, 21, 35, 35][size - 1]);
        }
        sets.each(5, |_, _| panic!("no such sets are looked at"));
    }

    /// So many distances that four ahead are too much: as far as there is time for, but two always.
    #[test]
    fn it_looks_as_far_as_there_is_time_for() {
        assert_eq!([1, 2, 14, 21, 30, TOGETHER].map(|count| furthest(count, 4)), [1, 2, 4, 4, 2, 2]);
        assert_eq!(furthest(14, 2), 2);
    }
}
