//! A target off its place, in words.

use super::About;
use crate::assessment::{OffBy, OffPlace};

impl About<'_> {
    /// How it is off, and what that does to the aim.
    pub(super) fn off_place(&self, off: &OffPlace) -> String {
        let OffPlace {
            along_mm: along,
            across_mm: across,
            height_mm: height,
            yaw_rad: yaw,
            pitch_rad: pitch,
            azimuth_error_rad: azimuth_error,
            elevation_error_rad: elevation_error,
            about: _,
        } = off;
        let mut parts = Vec::new();
        let mut length = |value: f64, plus: &str, minus: &str| {
            if value.abs() >= crate::check::SPEAKS_FROM_MM {
                parts.push(format!(
                    "{} {}",
                    self.length(value.abs()),
                    if value > 0.0 { plus } else { minus }
                ));
            }
        };
        length(*along, "too far away", "too near");
        length(*across, "too far left seen from the sensor", "too far right seen from the sensor");
        length(*height, "too high", "too low");
        let mut angle = |value: f64, plus: &str, minus: &str| {
            /// A thousandth of a degree.
            const SPEAKS_FROM: f64 = 1.7e-5;
            if value.abs() >= SPEAKS_FROM {
                parts.push(format!(
                    "{} {}",
                    self.degrees(value.abs()),
                    if value > 0.0 { plus } else { minus }
                ));
            }
        };
        angle(*yaw, "turned anticlockwise seen from above", "turned clockwise seen from above");
        angle(*pitch, "tipped forward", "tipped back");
        // What is nothing is not said: an aim that is off by 0° is not off.
        let none = self.degrees(0.0);
        let ways = [(azimuth_error, "left or right"), (elevation_error, "up or down")];
        let off: Vec<String> = ways
            .into_iter()
            .map(|(error, way)| (self.degrees(*error), way))
            .filter(|(error, _)| *error != none)
            .map(|(error, way)| format!("{error} {way}"))
            .collect();
        // A target whose place does not aim the sensor: nothing to say of the aim.
        if off.is_empty() {
            return format!("It is {}.", super::listed(&parts));
        }
        let aim = format!("The aim would be off by {}", super::listed(&off));
        if parts.is_empty() { format!("{aim}.") } else { format!("It is {}. {aim}.", super::listed(&parts)) }
    }
}

/// What about a target is off, after the number.
pub(super) const fn off_by(about: OffBy) -> &'static str {
    match about {
        OffBy::Azimuth => "of aim left or right",
        OffBy::Elevation => "of aim up or down",
        OffBy::Along => "too near or too far",
        OffBy::Across => "aside",
        OffBy::Height => "in height",
        OffBy::Yaw => "turned",
        OffBy::Pitch => "tipped",
        OffBy::Roll => "askew",
    }
}
