//! What the blocks come to, and when it is enough.

use super::Enough;

/// What was drawn came to this.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The mean.
    pub mean: f64,
    /// The standard deviation.
    pub u: f64,
    /// The interval with as many values below as above it.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// The shortest interval that holds as many.
    pub shortest: (f64, f64),
    /// How many draws it rests on.
    pub draws: usize,
    /// How many draws gave no number, and are in none of these figures: if any did, the figures flatter.
    pub lost: usize,
    /// Whether the figures are as steady as was asked.
    pub is_settled: bool,
}

/// Blocks, gathered in their order.
#[derive(Clone, Debug)]
pub struct Gathered {
    enough: Enough,
    values: Vec<f64>,
    /// Mean, standard deviation, low, high of each block.
    blocks: Vec<[f64; 4]>,
    sum: f64,
    lost: usize,
    is_settled: bool,
}

impl Gathered {
    /// With nothing in it.
    pub const fn new(enough: Enough) -> Self {
        Self { enough, values: Vec::new(), blocks: Vec::new(), sum: 0.0, lost: 0, is_settled: false }
    }

    /// Takes the next block.
    pub fn take(&mut self, mut block: Vec<f64>) {
        let drawn = block.len();
        block.retain(|value| value.is_finite());
        self.lost += drawn - block.len();
        if block.len() < 2 {
            return;
        }
        self.values.extend_from_slice(&block);
        let (mean, u) = moments(&block);
        let (low, high) = ends(&mut block, self.enough.coverage);
        self.sum += mean * block.len() as f64;
        self.blocks.push([mean, u, low, high]);
        self.is_settled = self.is_steady();
    }

    /// Whether the figures are as steady as was asked: twice the standard deviation of each figure's mean over the blocks is
    /// below half a unit of the last figure that counts (7.9.4 g to i).
    pub const fn is_settled(&self) -> bool {
        self.is_settled
    }

    fn is_steady(&self) -> bool {
        let count = self.blocks.len() as f64;
        if count < 2.0 {
            return false;
        }
        let spread = |figure: usize| {
            let of: Vec<f64> = self.blocks.iter().filter_map(|block| block.get(figure).copied()).collect();
            moments(&of)
        };
        // The standard deviation of all values so far: of the blocks' own and of their means.
        let (within, between) =
            (self.blocks.iter().map(|[_, u, ..]| u * u).sum::<f64>() / count, spread(0).1);
        let Some(tolerance) = tolerance((within + between * between).sqrt(), self.enough.digits) else {
            return true;
        };
        (0..4).all(|figure| 2.0 * spread(figure).1 / count.sqrt() < tolerance)
    }

    /// What it came to; `None` if nothing did.
    pub fn finish(mut self) -> Option<Drawn> {
        let draws = self.values.len();
        if draws < 2 {
            return None;
        }
        let (mean, u) = moments(&self.values);
        let (first, held) = ranks(draws, self.enough.coverage);
        sort_tails(&mut self.values, draws - held);
        let at = |rank: usize| self.values.get(rank).copied().unwrap_or_default();
        let shortest = (0..draws - held).map(|rank| (at(rank), at(rank + held)));
        let shortest = shortest.min_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
        Some(Drawn {
            mean,
            u,
            low: at(first),
            high: at(first + held),
            shortest,
            draws,
            lost: self.lost,
            is_settled: self.is_settled,
        })
    }
}

/// Half a unit of the last of so many figures of an uncertainty (7.9.2); `None` of none.
fn tolerance(u: f64, digits: u32) -> Option<f64> {
    if !(u > 0.0 && u.is_finite()) {
        return None;
    }
    let power = libm::floor(libm::log10(u)) - (f64::from(digits.max(1)) - 1.0);
    Some(0.5 * libm::pow(10.0, power))
}

fn moments(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean) * (value - mean)).sum();
    (mean, (squares / (count - 1.0)).sqrt())
}

/// The rank of the lower end, and how many ranks further the upper one is (7.7).
fn ranks(count: usize, coverage: f64) -> (usize, usize) {
    let held = (coverage.clamp(0.0, 1.0) * count as f64 + 0.5) as usize;
    let held = held.min(count - 1);
    ((count - held) / 2, held).min((count - 1 - held, held))
}

/// Puts so many of the lowest in order at the beginning and as many of the highest at the end: no end of an interval lies between.
fn sort_tails(values: &mut [f64], tail: usize) {
    let count = values.len();
    if 2 * tail >= count {
        values.sort_unstable_by(f64::total_cmp);
        return;
    }
    let (rest, _, high) = values.select_nth_unstable_by(count - tail - 1, f64::total_cmp);
    high.sort_unstable_by(f64::total_cmp);
    let low = if tail < rest.len() { rest.select_nth_unstable_by(tail, f64::total_cmp).0 } else { rest };
    low.sort_unstable_by(f64::total_cmp);
}

/// Both ends of the interval with as many values below as above; the values lose their order.
fn ends(values: &mut [f64], coverage: f64) -> (f64, f64) {
    let (first, held) = ranks(values.len(), coverage);
    let (_, low, above) = values.select_nth_unstable_by(first, f64::total_cmp);
    let low = *low;
    if held == 0 {
        return (low, low);
    }
    let (_, high, _) = above.select_nth_unstable_by(held - 1, f64::total_cmp);
    (low, *high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// As if all were in order.
        #[test]
        fn only_the_tails_are_sorted(values in prop::collection::vec(-9..9i8, 2..60), coverage in 0.0..1.0f64) {
            let values: Vec<f64> = values.into_iter().map(f64::from).collect();
            let mut sorted = values.clone();
            sorted.sort_by(f64::total_cmp);
            let (first, held) = ranks(values.len(), coverage);
            prop_assert!(first + held < values.len());
            let mut tails = values.clone();
            let tail = values.len() - held;
            sort_tails(&mut tails, tail);
            prop_assert_eq!(&tails[..tail], &sorted[..tail]);
            prop_assert_eq!(&tails[held..], &sorted[held..]);
            prop_assert_eq!(ends(&mut values.clone(), coverage), (sorted[first], sorted[first + held]));
        }
    }
}
