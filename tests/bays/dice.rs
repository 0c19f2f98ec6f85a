//! Small, fixed pseudo-random numbers (splitmix64), so that a bay can be made again from its seed.

pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0xd134_2543_de82_ef95).wrapping_add(0x1234_5678_9abc_def1))
    }

    /// Dice of their own, for what was added later: what is thrown with them changes nothing else of a seed's bay.
    pub fn apart(&self) -> Self {
        Self::new(self.0)
    }

    /// 0 to 1, never 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    pub fn count(&mut self, low: usize, high: usize) -> usize {
        low + (self.share() * (high + 1 - low) as f64) as usize
    }

    pub fn often(&mut self, share: f64) -> bool {
        self.share() < share
    }

    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.count(0, of.len() - 1)]
    }
}
