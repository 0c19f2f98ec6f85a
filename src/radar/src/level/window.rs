//! How a range window spreads a strong echo over its neighbours' ranges.

use std::f64::consts::PI;

/// How the samples of a chirp are weighed before their spectrum is taken.
///
/// Each is a sum of cosines, w = a₀ - a₁ cos 2πt + a₂ cos 4πt (0 ≤ t ≤ 1): F. J. Harris, On the use of windows for harmonic
/// analysis with the discrete Fourier transform, Proc. IEEE 66 (1978) 51, table 1 (figures from memory; the tests work them out
/// anew).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Window {
    /// All samples alike.
    Rectangular,
    /// von Hann's.
    Hann,
    /// Hamming's, 0.54 and 0.46.
    Hamming,
    /// Blackman's, 0.42, 0.50 and 0.08.
    Blackman,
}

impl Window {
    /// All of them, from the narrowest to the widest.
    pub const ALL: [Self; 4] = [Self::Rectangular, Self::Hamming, Self::Hann, Self::Blackman];

    const fn weights(self) -> [f64; 3] {
        match self {
            Self::Rectangular => [1.0, 0.0, 0.0],
            Self::Hann => [0.5, 0.5, 0.0],
            Self::Hamming => [0.54, 0.46, 0.0],
            Self::Blackman => [0.42, 0.5, 0.08],
        }
    }

    /// The highest side lobe, dB against the peak.
    pub const fn highest_side_lobe_db(self) -> f64 {
        match self {
            Self::Rectangular => -13.26,
            Self::Hann => -31.47,
            Self::Hamming => -42.67,
            Self::Blackman => -58.11,
        }
    }

    /// Where the main lobe ends, in cells of c/2B from the peak: its first zero.
    const fn first_zero(self) -> f64 {
        match self {
            Self::Rectangular => 1.0,
            Self::Hann | Self::Hamming => 2.0,
            Self::Blackman => 3.0,
        }
    }

    /// The full width of the main lobe 6 dB below its peak, in cells: two equal echoes nearer than that are one hump (Harris 1978,
    /// section IV.C).
    pub const fn resolved_cells(self) -> f64 {
        match self {
            Self::Rectangular => 1.207,
            Self::Hann => 2.0,
            Self::Hamming => 1.816,
            Self::Blackman => 2.298,
        }
    }

    /// What of an echo so many cells of c/2B nearer or further shows at the target's range, dB against the echo itself, at most 0:
    /// the main lobe itself, and beyond it the highest side lobe everywhere, as side lobes that fall off further out drown in what
    /// real chirps are not straight by. No number of cells is taken as none.
    pub fn leak_db(self, cells: f64) -> f64 {
        let off = cells.abs();
        let side = self.highest_side_lobe_db();
        if off >= self.first_zero() {
            return side;
        }
        let [zeroth, first, second] = self.weights();
        let pair = |by: f64| sinc(off - by) + sinc(off + by);
        let sum = sinc(off) + (0.5 * first * pair(1.0) + 0.5 * second * pair(2.0)) / zeroth;
        let level = 20.0 * libm::log10(sum.abs());
        if level.is_nan() { 0.0 } else { level.max(side).min(0.0) }
    }
}

fn sinc(x: f64) -> f64 {
    if x.abs() < 1e-9 { 1.0 } else { libm::sin(PI * x) / (PI * x) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The level of an echo by a sum over many samples of the window itself: nothing of the closed form.
    fn summed(window: Window, cells: f64) -> f64 {
        let [zeroth, first, second] = window.weights();
        let (mut re, mut im, mut all) = (0.0, 0.0, 0.0);
        let count = 4096;
        for at in 0..count {
            let t = (f64::from(at) + 0.5) / f64::from(count);
            let w = zeroth - first * (2.0 * PI * t).cos() + second * (4.0 * PI * t).cos();
            re += w * (2.0 * PI * cells * t).cos();
            im -= w * (2.0 * PI * cells * t).sin();
            all += w;
        }
        20.0 * (re.hypot(im) / all).log10()
    }

    #[test]
    fn the_main_lobe_is_that_of_the_samples() {
        for window in Window::ALL {
            for step in 0..=40 {
                let cells = 0.05 * f64::from(step) * window.first_zero() * 0.499;
                let (found, expected) = (window.leak_db(cells), summed(window, cells));
                assert!(
                    (found - expected.max(window.highest_side_lobe_db())).abs() < 1e-3,
                    "{window:?} {cells}"
                );
                assert_eq!(found, window.leak_db(-cells));
            }
        }
    }

    /// Harris 1978, table 1 (from memory): -13, -32, -43, -58 dB; 1.21, 2.00, 1.81, 2.35 cells, the last of which comes out as
    /// 2.30.
    #[test]
    fn side_lobes_and_widths_as_published() {
        let published =
            [(Window::Rectangular, -13.0, 1.21), (Window::Hann, -32.0, 2.00), (Window::Hamming, -43.0, 1.81)];
        for (window, side, width) in published {
            assert!((window.highest_side_lobe_db() - side).abs() < 0.6, "{window:?}");
            assert!((window.resolved_cells() - width).abs() < 0.01, "{window:?}");
        }
        for window in Window::ALL {
            let beyond = (0..4000).map(|step| summed(window, window.first_zero() + 0.005 * f64::from(step)));
            let highest = beyond.fold(f64::NEG_INFINITY, f64::max);
            assert!((window.highest_side_lobe_db() - highest).abs() < 0.02, "{window:?}: {highest}");
            let half = summed(window, 0.5 * window.resolved_cells());
            assert!((half + 20.0 * 2.0_f64.log10()).abs() < 0.02, "{window:?}: {half}");
        }
        assert!((Window::Blackman.highest_side_lobe_db() + 58.0).abs() < 0.2);
    }

    #[test]
    fn awkward_cells() {
        for window in Window::ALL {
            assert_eq!(window.leak_db(0.0), 0.0);
            assert_eq!(window.leak_db(f64::NAN), 0.0);
            assert_eq!(window.leak_db(f64::INFINITY), window.highest_side_lobe_db());
        }
    }
}
