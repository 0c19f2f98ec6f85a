//! How large an echo is, and how surely: a band, because a millimetre decides how its parts add up.

/// An echo area at the distance that is stated with it, m².
///
/// Real things are not known to a quarter of a wave (1 mm at 77 GHz), so that no more than a band can be meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sigma {
    /// As little as it may be; 0 where the parts may cancel.
    pub low_m2: f64,
    /// In the middle of how its parts may add up: their powers added.
    pub typical_m2: f64,
    /// As much as it may be.
    pub high_m2: f64,
}

impl Sigma {
    /// No echo at all.
    pub const NOTHING: Self = Self { low_m2: 0.0, typical_m2: 0.0, high_m2: 0.0 };

    /// A figure that may be so many dB less or more.
    pub fn within(m2: f64, db: f64) -> Self {
        let by = from_db(db);
        Self { low_m2: m2 / by, typical_m2: m2, high_m2: m2 * by }
    }

    /// Wider by so many dB either way.
    pub fn widened(self, db: f64) -> Self {
        let by = from_db(db);
        Self { low_m2: self.low_m2 / by, typical_m2: self.typical_m2, high_m2: self.high_m2 * by }
    }

    /// As it is if only a share of the power comes back, which is itself a band `[low, typical, high]`.
    pub fn times(self, share: [f64; 3]) -> Self {
        Self {
            low_m2: self.low_m2 * share[0],
            typical_m2: self.typical_m2 * share[1],
            high_m2: self.high_m2 * share[2],
        }
    }

    /// Whether a figure in m² lies within the band.
    pub fn holds(self, m2: f64) -> bool {
        self.low_m2 <= m2 && m2 <= self.high_m2
    }
}

/// Decibels of a ratio of powers; −∞ of nothing.
pub fn db(ratio: f64) -> f64 {
    10.0 * libm::log10(ratio)
}

/// The ratio of powers of so many decibels.
pub fn from_db(db: f64) -> f64 {
    libm::pow(10.0, db / 10.0)
}
