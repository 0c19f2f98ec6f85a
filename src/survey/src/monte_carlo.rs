//! Uncertainty by drawing what the inputs may be (JCGM 101): for models that are not linear over what is uncertain, and as a check
//! of those that are.
//!
//! Draws come in blocks of [`BLOCK`], each from its own stream of the seed: whoever works the blocks out, by one thread or by many,
//! the answer is the same to the last bit, as long as they are [`Gathered::take`]n in their order. [`adaptive`] does all of it in
//! turn (7.9.4).

mod gathered;
mod sampler;

pub use crate::dice::{Lanes, SIDE_BY_SIDE};
pub use gathered::{Drawn, Gathered};
pub use sampler::{Model, Sampler, SamplerFault};

/// So many draws are one block, the least that JCGM 101 asks for (7.9.4 b).
pub const BLOCK: usize = 10_000;

/// When it is enough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Enough {
    /// The share of the values that the intervals hold: 0.95.
    pub coverage: f64,
    /// To so many significant figures of the standard uncertainty all figures are to be steady: 1 or 2.
    pub digits: u32,
    /// So many blocks at most.
    pub most_blocks: u64,
}

impl Default for Enough {
    fn default() -> Self {
        Self { coverage: 0.95, digits: 2, most_blocks: 400 }
    }
}

/// Draws until the figures are steady, or `most_blocks`, or `keep_on` (asked before each block) says no; then
/// [`Drawn::is_settled`] tells which. `None` if nothing was drawn.
///
/// JCGM 101, 9.2.3: four rectangular inputs of standard deviation 1 add up to 2.0 and ±3.88, not the ±3.92 of a normal sum.
///
/// ```
/// use baywright_survey::{input::Input, monte_carlo::*};
/// let inputs = [Input::rectangular(0.0, 3_f64.sqrt()); 4];
/// let sampler = Sampler::of(&inputs, &[]).unwrap();
/// let enough = Enough { digits: 3, ..Enough::default() };
/// let found = adaptive(&sampler, |x: &[f64]| x.iter().sum(), 1, &enough, || true).unwrap();
/// assert!((found.u - 2.0).abs() < 0.005 && (found.high - 3.88).abs() < 0.015);
/// ```
pub fn adaptive(
    sampler: &Sampler,
    mut model: impl Model,
    seed: u64,
    enough: &Enough,
    mut keep_on: impl FnMut() -> bool,
) -> Option<Drawn> {
    let mut gathered = Gathered::new(*enough);
    for nth in 0..enough.most_blocks {
        if gathered.is_settled() || !keep_on() {
            break;
        }
        gathered.take(sampler.block(seed, nth, &mut model));
    }
    gathered.finish()
}
