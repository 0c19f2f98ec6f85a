//! The ellipse of a plane covariance.

/// An error ellipse of one standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse {
    /// The larger half axis, mm.
    pub long_mm: f64,
    /// The smaller.
    pub short_mm: f64,
    /// Where the larger points, radians in (-π/2, π/2], anticlockwise from x.
    pub heading_rad: f64,
}

impl Ellipse {
    /// Of the variances along x and y and their covariance.
    ///
    /// ```
    /// use baywright_survey::network::Ellipse;
    /// let along_x = Ellipse::of(9.0, 0.0, 4.0);
    /// assert_eq!((along_x.long_mm, along_x.short_mm, along_x.heading_rad), (3.0, 2.0, 0.0));
    /// ```
    pub fn of(xx: f64, xy: f64, yy: f64) -> Self {
        let (middle, half) = (0.5 * (xx + yy), 0.5 * (xx - yy));
        let reach = libm::hypot(half, xy);
        let heading_rad = 0.5 * libm::atan2(xy, half);
        Self {
            long_mm: (middle + reach).max(0.0).sqrt(),
            short_mm: (middle - reach).max(0.0).sqrt(),
            heading_rad,
        }
    }

    /// Standard uncertainty towards a heading, radians.
    pub fn towards(&self, heading_rad: f64) -> f64 {
        let (sin, cos) = libm::sincos(heading_rad - self.heading_rad);
        libm::hypot(self.long_mm * cos, self.short_mm * sin)
    }
}
