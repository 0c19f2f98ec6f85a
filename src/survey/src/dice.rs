//! Chance that comes out the same on every machine and in every version: a saved answer has to be found again years later, so
//! the generator and what is made of it are our own, by `libm`, and never change.
//!
//! xoshiro256++ (D. Blackman, S. Vigna, 2019), started by SplitMix64, as its authors say; normal figures by the ziggurat of
//! G. Marsaglia and W. W. Tsang (2000) with 256 layers, gamma figures by their method of the same year. All from memory, held by
//! tests: the generator by its authors' first figures, the rest by moments and chances.

mod many;

use std::sync::LazyLock;

pub(crate) use many::Dozens;
pub use many::{Lanes, SIDE_BY_SIDE};

/// A stream of chance.
#[derive(Clone, Debug)]
pub struct Dice([u64; 4]);

/// Where the ziggurat's tail begins, and the area of each of its layers.
const TAIL: f64 = 3.654_152_885_361_009;
const LAYER: f64 = 0.004_928_673_233_992_336;

/// The edges of the layers and the heights there.
struct Ziggurat {
    edge: [f64; 257],
    height: [f64; 257],
}

static ZIGGURAT: LazyLock<Ziggurat> = LazyLock::new(|| {
    let height = |x: f64| libm::exp(-0.5 * x * x);
    let mut edges = vec![LAYER / height(TAIL), TAIL];
    while edges.len() < 256 {
        let last = edges.last().copied().unwrap_or(TAIL);
        edges.push(libm::sqrt(-2.0 * libm::log(LAYER / last + height(last))));
    }
    edges.push(0.0);
    let edge = std::array::from_fn(|at| edges.get(at).copied().unwrap_or_default());
    Ziggurat { edge, height: edge.map(height) }
});

impl Dice {
    /// A stream of its own for each seed and number.
    pub fn of(seed: u64, stream: u64) -> Self {
        let mut state = seed ^ stream.wrapping_mul(0xd134_2543_de82_ef95).rotate_left(17);
        let mut next = || {
            state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let z = (state ^ (state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            z ^ (z >> 31)
        };
        Self([next(), next(), next(), next()])
    }

    /// The next 64 bits.
    #[inline]
    pub fn bits(&mut self) -> u64 {
        let [a, b, c, d] = self.0;
        let found = a.wrapping_add(d).rotate_left(23).wrapping_add(a);
        let (c, d) = (c ^ a, d ^ b);
        self.0 = [a ^ d, b ^ c, c ^ (b << 17), d.rotate_left(45)];
        found
    }

    /// Uniform from 0 up to but not 1.
    #[inline]
    pub fn uniform(&mut self) -> f64 {
        (self.bits() >> 11) as f64 * (1.0 / (1_u64 << 53) as f64)
    }

    /// Standard normal.
    #[inline]
    pub fn normal(&mut self) -> f64 {
        self.one_normal(&ZIGGURAT)
    }

    #[inline]
    fn one_normal(&mut self, table: &Ziggurat) -> f64 {
        loop {
            let bits = self.bits();
            let (x, next) = in_layer(table, bits);
            if x.abs() < next {
                return x;
            }
            if let Some(x) = self.seldom(table, bits, x) {
                return x;
            }
        }
    }

    /// Near a layer's edge, or in the tail: once in some hundred times.
    #[cold]
    fn seldom(&mut self, table: &Ziggurat, bits: u64, x: f64) -> Option<f64> {
        let (layer, is_negative) = ((bits & 0xff) as u8, bits >> 63 == 1);
        if layer == 0 {
            loop {
                // 1 - uniform is never 0.
                let far = -libm::log(1.0 - self.uniform()) / TAIL;
                let high = -libm::log(1.0 - self.uniform());
                if 2.0 * high >= far * far {
                    return Some(if is_negative { -TAIL - far } else { TAIL + far });
                }
            }
        }
        let [low, high] = layer_of(&table.height, layer);
        (low + (high - low) * self.uniform() < libm::exp(-0.5 * x * x)).then_some(x)
    }

    /// Gamma, with this shape (above 0) and scale 1.
    pub fn gamma(&mut self, shape: f64) -> f64 {
        if shape < 1.0 {
            let more = self.gamma(shape + 1.0);
            return more * libm::pow(1.0 - self.uniform(), 1.0 / shape);
        }
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let x = self.normal();
            let v = 1.0 + c * x;
            if v <= 0.0 {
                continue;
            }
            let v = v * v * v;
            if libm::log(1.0 - self.uniform()) < 0.5 * x * x + d - d * v + d * libm::log(v) {
                return d * v;
            }
        }
    }

    /// Student's t, with these degrees of freedom; endless ones are the normal distribution.
    pub fn t(&mut self, freedom: f64) -> f64 {
        let normal = self.normal();
        if freedom > 1e9 {
            return normal;
        }
        normal / (2.0 * self.gamma(0.5 * freedom) / freedom).sqrt()
    }
}

/// The lowest eight bits name the layer, the highest 53 the place in it, to the left and to the right; with the next layer's edge,
/// under which nothing more need be asked.
#[inline]
fn in_layer(table: &Ziggurat, bits: u64) -> (f64, f64) {
    let [edge, next] = layer_of(&table.edge, (bits & 0xff) as u8);
    (((bits as i64) >> 11) as f64 * (1.0 / (1_u64 << 52) as f64) * edge, next)
}

/// A layer's own figure and the next one's: 256 layers have 257 edges, so both are there.
#[inline]
fn layer_of(of: &[f64; 257], layer: u8) -> [f64; 2] {
    let at = usize::from(layer);
    [of.get(at).copied().unwrap_or_default(), of.get(at + 1).copied().unwrap_or_default()]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The authors' own first figures from the state 1, 2, 3, 4 (from memory, as in other libraries' tests).
    #[test]
    fn the_generator_is_the_published_one() {
        let mut dice = Dice([1, 2, 3, 4]);
        let expected = [
            41_943_041,
            58_720_359,
            3_588_806_011_781_223,
            3_591_011_842_654_386,
            9_228_616_714_210_784_205,
            9_973_669_472_204_895_162,
            14_011_001_112_246_962_877,
            12_406_186_145_184_390_807,
            15_849_039_046_786_891_736,
            10_450_023_813_501_588_000,
        ];
        assert_eq!(expected.map(|_| dice.bits()), expected);
    }

    /// Moments and chances, within four of their own standard deviations.
    #[test]
    fn normal_figures_are_normal() {
        let mut dice = Dice::of(1, 0);
        let all: Vec<f64> = (0..400_000).map(|_| dice.normal()).collect();
        let count = all.len() as f64;
        let moment = |power: i32| all.iter().map(|x| x.powi(power)).sum::<f64>() / count;
        // Variances of z, z², z³, z⁴: 1, 2, 15, 96.
        for (power, expected, variance) in [(1, 0.0, 1.0), (2, 1.0, 2.0), (3, 0.0, 15.0), (4, 3.0, 96.0_f64)]
        {
            let within = 4.0 * (variance / count).sqrt();
            assert!((moment(power) - expected).abs() < within, "{power}: {}", moment(power));
        }
        for limit in [0.1, 0.5, 1.0, 2.0, 3.0, TAIL, 4.0] {
            let share = all.iter().filter(|x| **x > limit).count() as f64 / count;
            let expected = crate::chances::normal(-limit);
            assert!((share - expected).abs() < 4.0 * (expected / count).sqrt() + 1e-6, "{limit}: {share}");
        }
    }

    #[test]
    fn other_figures_have_their_moments() {
        let mut dice = Dice::of(7, 3);
        let count = 200_000;
        for shape in [0.5, 1.0, 2.5, 9.0] {
            let mean = (0..count).map(|_| dice.gamma(shape)).sum::<f64>() / f64::from(count);
            assert!((mean - shape).abs() < 4.0 * (shape / f64::from(count)).sqrt(), "{shape}: {mean}");
        }
        // Beyond 2.119905 in 5 % of t with 16 degrees of freedom.
        let beyond = (0..count).filter(|_| dice.t(16.0).abs() > 2.119905).count() as f64 / f64::from(count);
        assert!((beyond - 0.05).abs() < 0.002, "{beyond}");
        let mean = (0..count).map(|_| dice.uniform()).sum::<f64>() / f64::from(count);
        assert!((mean - 0.5).abs() < 0.003);
    }

    #[test]
    fn streams_are_their_own() {
        let first = |seed, stream| Dice::of(seed, stream).bits();
        assert_eq!(first(5, 1), first(5, 1));
        let mut all: Vec<u64> =
            (0..100).flat_map(|seed| (0..100).map(move |stream| first(seed, stream))).collect();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), 10_000);
    }
}
