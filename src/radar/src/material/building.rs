//! Building materials as Recommendation ITU-R P.2040 has them.

use num_complex::Complex64;

/// 1/(2π ε₀), so that ε″ = this × σ/f with f in GHz: CODATA 2018's ε₀ (the Recommendation rounds it to 17.98).
const LOSS: f64 = 17.975_103_57;

/// A building material of the Recommendation's table of parameters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Building {
    /// Concrete.
    Concrete,
    /// Brick.
    Brick,
    /// Plasterboard.
    Plasterboard,
    /// Wood.
    Wood,
    /// Glass.
    Glass,
    /// Ceiling board.
    CeilingBoard,
    /// Chipboard.
    Chipboard,
    /// Plywood.
    Plywood,
    /// Marble.
    Marble,
    /// Floorboard.
    Floorboard,
    /// Vinyl tile.
    VinylTile,
    /// Carpet tile.
    CarpetTile,
    /// Asphalt concrete.
    Asphalt,
    /// Metal.
    Metal,
    /// Very dry ground.
    VeryDryGround,
    /// Medium dry ground.
    MediumDryGround,
    /// Wet ground.
    WetGround,
}

/// Whether a row was measured at the frequency at which it is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reach {
    /// It covers the frequency.
    Covers,
    /// The frequency lies outside of the row's range: its power laws are prolonged, and who uses it must say so.
    Extrapolated,
}

/// What a material is at a frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Electric {
    /// ε′ relative to vacuum.
    pub permittivity: f64,
    /// S/m.
    pub conductivity: f64,
    /// η = ε′ - jε″, relative to vacuum.
    pub eta: Complex64,
    /// Whether the row covers the frequency.
    pub reach: Reach,
}

impl Building {
    /// All of them.
    pub const ALL: [Self; 17] = [
        Self::Concrete,
        Self::Brick,
        Self::Plasterboard,
        Self::Wood,
        Self::Glass,
        Self::CeilingBoard,
        Self::Chipboard,
        Self::Plywood,
        Self::Marble,
        Self::Floorboard,
        Self::VinylTile,
        Self::CarpetTile,
        Self::Asphalt,
        Self::Metal,
        Self::VeryDryGround,
        Self::MediumDryGround,
        Self::WetGround,
    ];

    /// a, b, c, d of ε′ = a f^b and σ = c f^d (f in GHz, σ in S/m), and the range of f: Recommendation ITU-R P.2040, table 3 (read
    /// second hand: three open programs that agree row for row).
    const fn row(self) -> [f64; 6] {
        match self {
            Self::Concrete => [5.24, 0.0, 0.0462, 0.7822, 1.0, 100.0],
            Self::Brick => [3.91, 0.0, 0.0238, 0.16, 1.0, 40.0],
            Self::Plasterboard => [2.73, 0.0, 0.0085, 0.9395, 1.0, 100.0],
            Self::Wood => [1.99, 0.0, 0.0047, 1.0718, 0.001, 100.0],
            Self::Glass => [6.31, 0.0, 0.0036, 1.3394, 0.1, 100.0],
            Self::CeilingBoard => [1.48, 0.0, 0.0011, 1.0750, 1.0, 100.0],
            Self::Chipboard => [2.58, 0.0, 0.0217, 0.78, 1.0, 100.0],
            Self::Plywood => [2.71, 0.0, 0.33, 0.0, 1.0, 40.0],
            Self::Marble => [7.074, 0.0, 0.0055, 0.9262, 1.0, 60.0],
            Self::Floorboard => [3.66, 0.0, 0.0044, 1.3515, 50.0, 100.0],
            Self::VinylTile => [3.62, 0.0, 0.0051, 0.8422, 1.0, 40.0],
            Self::CarpetTile => [2.08, 0.0, 0.0009, 0.82, 1.0, 40.0],
            Self::Asphalt => [4.83, 0.0, 0.0108, 1.3969, 1.0, 40.0],
            Self::Metal => [1.0, 0.0, 1e7, 0.0, 1.0, 100.0],
            Self::VeryDryGround => [3.0, 0.0, 0.000_15, 2.52, 1.0, 10.0],
            Self::MediumDryGround => [15.0, -0.1, 0.035, 1.63, 1.0, 10.0],
            Self::WetGround => [30.0, -0.4, 0.15, 1.30, 1.0, 10.0],
        }
    }

    /// What it is at a frequency, Hz (P.2040-4 equations 57 to 59). `None` if that is not above 0 or no number, or so far off that
    /// the power laws have no figure.
    pub fn at(self, hz: f64) -> Option<Electric> {
        let ghz = hz / 1e9;
        let [a, b, c, d, from, to] = self.row();
        let permittivity = a * libm::pow(ghz, b);
        let conductivity = c * libm::pow(ghz, d);
        let eta = Complex64::new(permittivity, -LOSS * conductivity / ghz);
        let reach = if (from..=to).contains(&ghz) { Reach::Covers } else { Reach::Extrapolated };
        (ghz > 0.0 && eta.is_finite() && permittivity > 0.0).then_some(Electric {
            permittivity,
            conductivity,
            eta,
            reach,
        })
    }
}
