//! A complex number, with the little arithmetic that waves need.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A complex number.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Complex {
    /// The real part.
    pub re: f64,
    /// The imaginary part.
    pub im: f64,
}

impl Complex {
    /// Nothing.
    pub const ZERO: Self = Self::new(0.0, 0.0);
    /// One.
    pub const ONE: Self = Self::new(1.0, 0.0);

    /// `re + j im`.
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    /// e^(jφ), φ in radians.
    pub fn phase(radians: f64) -> Self {
        let (sin, cos) = libm::sincos(radians);
        Self::new(cos, sin)
    }

    /// Its square over the plane: |z|².
    pub fn power(self) -> f64 {
        self.re * self.re + self.im * self.im
    }

    /// |z|.
    pub fn abs(self) -> f64 {
        libm::hypot(self.re, self.im)
    }

    /// The angle, radians in (−π, π].
    pub fn arg(self) -> f64 {
        libm::atan2(self.im, self.re)
    }

    /// The complex conjugate.
    pub const fn conj(self) -> Self {
        Self::new(self.re, -self.im)
    }

    /// The principal square root: its real part is not negative.
    pub fn sqrt(self) -> Self {
        let size = self.abs();
        let re = libm::sqrt(((size + self.re) / 2.0).max(0.0));
        let im = libm::sqrt(((size - self.re) / 2.0).max(0.0));
        Self::new(re, if self.im < 0.0 { -im } else { im })
    }

    /// e^z.
    pub fn exp(self) -> Self {
        Self::phase(self.im) * libm::exp(self.re)
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(self.re * other.re - self.im * other.im, self.re * other.im + self.im * other.re)
    }
}

impl Mul<f64> for Complex {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self::new(self.re * by, self.im * by)
    }
}

impl Div for Complex {
    type Output = Self;
    fn div(self, by: Self) -> Self {
        self * by.conj() * (1.0 / by.power())
    }
}

impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.re, -self.im)
    }
}
