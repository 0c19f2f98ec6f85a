//! A figure that is not known exactly: what it is, how surely, and how what it may be is spread.

/// How the values that a figure may have are spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Normal.
    Normal,
    /// Any within limits alike: a class, a resolution.
    Rectangular,
    /// The sum of two alike rectangular ones.
    Triangular,
    /// What swings between limits, at any time alike: a heating that is switched on and off.
    ArcSine,
    /// Student's, from so many readings less one: [`Input::freedom`] says how many.
    T,
}

/// A figure that is not known exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Input {
    /// The best estimate.
    pub at: f64,
    /// Its standard uncertainty, in its own unit. Of [`Shape::T`] the scale of the distribution, as JCGM 101 has it.
    pub u: f64,
    /// How surely the uncertainty is known: degrees of freedom, infinite if it is taken as known.
    pub freedom: f64,
    /// How it is spread.
    pub shape: Shape,
}

impl Input {
    /// Normal, with an uncertainty that is known.
    pub const fn normal(at: f64, u: f64) -> Self {
        Self { at, u, freedom: f64::INFINITY, shape: Shape::Normal }
    }

    /// Anything within so much of it alike: u is the half width over √3 (JCGM 100, 4.3.7).
    pub fn rectangular(at: f64, half: f64) -> Self {
        Self { u: half / 3.0_f64.sqrt(), shape: Shape::Rectangular, ..Self::normal(at, 0.0) }
    }

    /// A triangle of so much to either side: u is that over √6 (JCGM 100, 4.3.9).
    pub fn triangular(at: f64, half: f64) -> Self {
        Self { u: half / 6.0_f64.sqrt(), shape: Shape::Triangular, ..Self::normal(at, 0.0) }
    }

    /// What swings by so much to either side: u is that over √2 (JCGM 100, H.1.3.4).
    pub fn arc_sine(at: f64, half: f64) -> Self {
        Self { u: half / 2.0_f64.sqrt(), shape: Shape::ArcSine, ..Self::normal(at, 0.0) }
    }

    /// A mean of readings, with the standard deviation of the mean and their number less one.
    pub const fn t(at: f64, u: f64, freedom: f64) -> Self {
        Self { at, u, freedom, shape: Shape::T }
    }

    /// Whether it is a figure at all.
    pub fn is_sound(&self) -> bool {
        self.at.is_finite() && self.u >= 0.0 && self.u.is_finite() && self.freedom > 0.0
    }
}

/// What came out: a value with its standard uncertainty, in one unit.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Figure {
    /// The value.
    pub value: f64,
    /// Its standard uncertainty, not negative.
    pub u: f64,
}

impl Figure {
    /// Whether it is a figure at all.
    pub fn is_sound(&self) -> bool {
        self.value.is_finite() && (0.0..f64::INFINITY).contains(&self.u)
    }
}

/// Two figures that go together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correlation {
    /// One, by its position.
    pub first: usize,
    /// The other.
    pub second: usize,
    /// -1 to 1.
    pub r: f64,
}

/// Whether correlations are of two inputs that are there, and between -1 and 1.
pub fn are_sound(inputs: &[Input], correlations: &[Correlation]) -> bool {
    let is = |c: &Correlation| {
        c.first != c.second && c.first < inputs.len() && c.second < inputs.len() && c.r.abs() <= 1.0
    };
    inputs.iter().all(Input::is_sound) && correlations.iter().all(is)
}
