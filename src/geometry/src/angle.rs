//! Angles: radians inside, degrees at the door.
//!
//! Sine and cosine go through `libm`, so that the same bits come out on every machine.

use std::f64::consts::{PI, TAU};

use glam::DVec2;

/// Radians from degrees.
pub fn radians(degrees: f64) -> f64 {
    degrees * (PI / 180.0)
}

/// Degrees from radians.
pub fn degrees(radians: f64) -> f64 {
    radians * (180.0 / PI)
}

/// Sine and cosine of an angle in radians, exact at the quarter turns, so that a wall turned by 90° stays square.
pub fn sin_cos(radians: f64) -> (f64, f64) {
    let quarter = radians / (PI / 2.0);
    let nearest = libm::round(quarter);
    // A quarter turn typed in degrees arrives here within a few units in the last place.
    if (quarter - nearest).abs() < 1e-15 * nearest.abs().max(1.0) {
        return match libm::fmod(nearest, 4.0) as i64 {
            0 => (0.0, 1.0),
            1 | -3 => (1.0, 0.0),
            2 | -2 => (0.0, -1.0),
            _ => (-1.0, 0.0),
        };
    }
    libm::sincos(radians)
}

/// The unit vector at `heading` radians, anticlockwise from x.
pub fn direction(heading: f64) -> DVec2 {
    let (sin, cos) = sin_cos(heading);
    DVec2::new(cos, sin)
}

/// The heading of a vector, radians in (-π, π], anticlockwise from x; zero for the zero vector.
pub fn heading(vector: DVec2) -> f64 {
    libm::atan2(vector.y, vector.x)
}

/// The same angle within (-π, π].
///
/// ```rust
/// # use baywright_geometry::*;
/// use angle::{radians, wrapped};
/// assert!((wrapped(radians(350.0)) - radians(-10.0)).abs() < 1e-12);
/// ```
pub fn wrapped(radians: f64) -> f64 {
    let turned = libm::fmod(radians, TAU);
    if turned > PI {
        turned - TAU
    } else if turned <= -PI {
        turned + TAU
    } else {
        turned
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarter_turns_are_exact() {
        for quarter in -9_i32..=9 {
            let (sin, cos) = sin_cos(radians(90.0 * f64::from(quarter)));
            assert_eq!(sin.abs() + cos.abs(), 1.0, "quarter {quarter}");
            assert!((sin - libm::sin(radians(90.0 * f64::from(quarter)))).abs() < 1e-14);
            assert!((cos - libm::cos(radians(90.0 * f64::from(quarter)))).abs() < 1e-14);
        }
    }

    #[test]
    fn small_angles_keep_their_sine() {
        assert_eq!(sin_cos(1e-12).0, libm::sin(1e-12));
        assert_eq!(sin_cos(0.0), (0.0, 1.0));
    }

    #[test]
    fn wrapping_keeps_the_direction() {
        for turns in -3_i32..=3 {
            assert!((wrapped(1.0 + TAU * f64::from(turns)) - 1.0).abs() < 1e-12);
        }
        assert_eq!(wrapped(PI), PI);
        assert_eq!(wrapped(-PI), PI);
    }
}
