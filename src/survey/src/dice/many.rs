//! Many figures at once: eight streams of the same generator, two at a time, so that a processor has something to do while it waits
//! for one of them. What comes out is the same on every machine, however wide it works.

use super::{Dice, ZIGGURAT, Ziggurat, in_layer};

/// So many figures are made side by side: those of twenty inputs stay in the processor's nearest memory.
pub const SIDE_BY_SIDE: usize = 80;

/// Figures side by side.
pub type Lanes = [f64; SIDE_BY_SIDE];

const STREAMS: usize = 8;

/// Eight streams of chance, and one for what is seldom needed.
#[derive(Clone, Debug)]
pub struct Dozens {
    states: [[u64; 4]; STREAMS],
    bits: [u64; SIDE_BY_SIDE],
    /// For figures that need more than one draw.
    pub one: Dice,
}

impl Dozens {
    /// Streams of their own for each seed and number.
    pub fn of(seed: u64, stream: u64) -> Self {
        let mut one = Dice::of(seed, stream);
        let mut states = [[0; 4]; STREAMS];
        states.iter_mut().flatten().for_each(|word| *word = one.bits());
        Self { states, bits: [0; SIDE_BY_SIDE], one }
    }

    /// The next bits of every stream, two streams at a time: as much as a processor holds without putting it down.
    #[inline]
    fn roll(&mut self) {
        let each =
            self.states.chunks_exact_mut(2).zip(self.bits.chunks_exact_mut(2 * SIDE_BY_SIDE / STREAMS));
        for (states, bits) in each {
            let [one, other] = states else { continue };
            let (mut first, mut second) = (Dice(*one), Dice(*other));
            for bits in bits.chunks_exact_mut(2) {
                let [a, b] = bits else { continue };
                (*a, *b) = (first.bits(), second.bits());
            }
            (*one, *other) = (first.0, second.0);
        }
    }

    /// Normal figures about a middle.
    #[inline]
    pub fn normal(&mut self, at: f64, u: f64, lanes: &mut Lanes) {
        self.roll();
        let table: &Ziggurat = &ZIGGURAT;
        // Below nothing where a figure lies under the next layer's edge: first all without asking, then the few that do not.
        let mut beyond = [0.0; SIDE_BY_SIDE];
        for ((lane, beyond), bits) in lanes.iter_mut().zip(&mut beyond).zip(&self.bits) {
            let (x, next) = in_layer(table, *bits);
            *lane = at + u * x;
            *beyond = x.abs() - next;
        }
        let each = lanes.chunks_exact_mut(STREAMS).zip(beyond.chunks_exact(STREAMS));
        for ((lanes, beyond), bits) in each.zip(self.bits.chunks_exact(STREAMS)) {
            if beyond.iter().fold(u64::MAX, |signs, beyond| signs & beyond.to_bits()) >> 63 == 1 {
                continue;
            }
            for ((lane, beyond), bits) in lanes.iter_mut().zip(beyond).zip(bits) {
                if *beyond >= 0.0 {
                    let x = self.one.seldom(table, *bits, in_layer(table, *bits).0);
                    *lane = at + u * x.unwrap_or_else(|| self.one.one_normal(table));
                }
            }
        }
    }

    /// Figures from 0 up to but not 1, as something of them.
    #[inline]
    pub fn uniform(&mut self, lanes: &mut Lanes, to: impl Fn(f64) -> f64) {
        self.roll();
        for (lane, bits) in lanes.iter_mut().zip(&self.bits) {
            *lane = to((*bits >> 11) as f64 * (1.0 / (1_u64 << 53) as f64));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each stream is the published generator.
    #[test]
    fn eight_of_the_same() {
        let mut many = Dozens::of(3, 4);
        let mut alone: Vec<Dice> = many.states.into_iter().map(Dice).collect();
        for _ in 0..3 {
            many.roll();
            for (at, bits) in many.bits.iter().enumerate() {
                let of_pair = 2 * SIDE_BY_SIDE / STREAMS;
                assert_eq!(*bits, alone[2 * (at / of_pair) + at % 2].bits());
            }
        }
    }

    /// As of the single stream: moments within four of their own standard deviations.
    #[test]
    fn normal_and_uniform_figures_are_so() {
        let mut many = Dozens::of(1, 0);
        let (mut lanes, mut all) = ([0.0; SIDE_BY_SIDE], Vec::new());
        for _ in 0..5_000 {
            many.normal(2.0, 3.0, &mut lanes);
            all.extend(lanes.map(|x| (x - 2.0) / 3.0));
        }
        let count = all.len() as f64;
        for (power, expected, variance) in [(1, 0.0, 1.0), (2, 1.0, 2.0), (3, 0.0, 15.0), (4, 3.0, 96.0_f64)]
        {
            let moment = all.iter().map(|x| x.powi(power)).sum::<f64>() / count;
            assert!((moment - expected).abs() < 4.0 * (variance / count).sqrt(), "{power}: {moment}");
        }
        for limit in [0.5, 2.0, 3.0, 3.7, 4.0] {
            let share = all.iter().filter(|x| x.abs() > limit).count() as f64 / count;
            let expected = 2.0 * crate::chances::normal(-limit);
            assert!((share - expected).abs() < 4.0 * (expected / count).sqrt() + 1e-6, "{limit}: {share}");
        }
        // Neighbours, and lanes of one stream, have nothing to do with each other.
        for apart in [1, 2, 2 * SIDE_BY_SIDE / STREAMS, SIDE_BY_SIDE] {
            let product = all.iter().zip(all.iter().skip(apart)).map(|(a, b)| a * b).sum::<f64>() / count;
            assert!(product.abs() < 4.0 / count.sqrt(), "{apart}: {product}");
        }
        let mut sum = 0.0;
        for _ in 0..2_000 {
            many.uniform(&mut lanes, |share| share);
            assert!(lanes.iter().all(|share| (0.0..1.0).contains(share)));
            sum += lanes.iter().sum::<f64>();
        }
        assert!(
            (sum / (2_000.0 * SIDE_BY_SIDE as f64) - 0.5).abs() < 4.0 * (1.0 / 12.0 / 160_000.0_f64).sqrt()
        );
    }
}
