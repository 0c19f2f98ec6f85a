//! Which of some distances to tape first, so that whoever stops after two, three or four has lost as little as possible.
//!
//! The best two need not be among the best three. So of all orders that one is taken whose worst loss against the best set of as many
//! is the least. A set's worth is worked out in the distances' own terms, what each tells of the others and of what is wished: one
//! distance taped is one step of the same best linear estimate.

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

    /// What is left of all that come later in the list, once one is taped.
    fn once_taped(&self, taped: usize) -> Self {
        let (count, variance) = (self.own.len(), self.variance(taped));
        let row = self.among.row(taped);
        let pull = |at: usize| row.get(at).map_or(0.0, |cell| cell / variance);
        Self {
            among: Matrix::of(count, count, |a, b| {
                if a <= taped || b <= taped {
                    0.0
                } else {
                    self.among.at(a, b) - pull(a) * self.among.at(taped, b)
                }
            }),
            of_wish: Matrix::of(count, self.of_wish.columns(), |a, g| {
                if a <= taped { 0.0 } else { self.of_wish.at(a, g) - pull(a) * self.of_wish.at(taped, g) }
            }),
            own: self.own.clone(),
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
        let furthest = furthest(count, to);
        let mut sets = Sets { of: vec![Vec::new(); furthest] };
        self.walk(&mut sets, &mut Vec::new(), 0, furthest);
        let mut after: Vec<f64> = Vec::new();
        for size in (1..=furthest).rev() {
            let best = sets.of_size(size).iter().map(|(_, left)| *left).fold(f64::INFINITY, f64::min);
            let worst = |(set, left): &(Vec<u8>, f64)| {
                let own = if size >= from && best > 0.0 { (left / best).sqrt() } else { 1.0 };
                let next = (0..count).filter_map(|more| after.get(sets.with(set, more)?).copied());
                let next = next.fold(f64::INFINITY, f64::min);
                if next.is_finite() { own.max(next) } else { own }
            };
            after = sets.of_size(size).iter().map(worst).collect();
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

    /// All sets, each once, in the order of their members.
    fn walk(&self, sets: &mut Sets, set: &mut Vec<u8>, from: usize, deeper: usize) {
        for taped in from..self.own.len() {
            set.push(u8::try_from(taped).unwrap_or(u8::MAX));
            sets.add(set, self.after(taped));
            if deeper > 1 {
                self.once_taped(taped).walk(sets, set, taped + 1, deeper - 1);
            }
            set.pop();
        }
    }
}

/// How far ahead so many can be looked at.
fn furthest(count: usize, wanted: usize) -> usize {
    let mut sets = 1_usize;
    let mut size = 0;
    while size < wanted.clamp(1, FURTHEST).min(count) {
        sets = sets.saturating_mul(count - size) / (size + 1);
        if size >= 2 && sets.saturating_mul(count * count) > MOST_WORK {
            break;
        }
        size += 1;
    }
    size
}

/// The variance that each set leaves, by its size, in the order of the members.
struct Sets {
    of: Vec<Vec<(Vec<u8>, f64)>>,
}

impl Sets {
    fn add(&mut self, set: &[u8], left: f64) {
        self.of.get_mut(set.len().wrapping_sub(1)).into_iter().for_each(|own| own.push((set.to_vec(), left)));
    }

    fn of_size(&self, size: usize) -> &[(Vec<u8>, f64)] {
        size.checked_sub(1).and_then(|at| self.of.get(at)).map_or(&[], Vec::as_slice)
    }

    /// Where a set with one more stands among those of its size.
    fn with(&self, set: &[u8], more: usize) -> Option<usize> {
        let more = u8::try_from(more).ok()?;
        let at = set.binary_search(&more).err()?;
        let mut larger = set.to_vec();
        larger.insert(at, more);
        self.of_size(larger.len()).binary_search_by(|(own, _)| own.as_slice().cmp(&larger)).ok()
    }
}
