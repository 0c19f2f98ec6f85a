//! A target off its place, in words.

use super::{About, listed};
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
        length(*along, "zu weit weg", "zu nah");
        length(*across, "zu weit links (vom Sensor aus gesehen)", "zu weit rechts (vom Sensor aus gesehen)");
        length(*height, "zu hoch", "zu tief");
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
        angle(
            *yaw,
            "gegen den Uhrzeigersinn verdreht (von oben gesehen)",
            "im Uhrzeigersinn verdreht (von oben gesehen)",
        );
        angle(*pitch, "nach vorn geneigt", "nach hinten geneigt");
        // What is nothing is not said: an aim that is off by 0° is not off.
        let none = self.degrees(0.0);
        let ways = [(azimuth_error, "seitlich"), (elevation_error, "in der Höhe")];
        let off: Vec<String> = ways
            .into_iter()
            .map(|(error, way)| (self.degrees(*error), way))
            .filter(|(error, _)| *error != none)
            .map(|(error, way)| format!("{error} {way}"))
            .collect();
        // A target whose place does not aim the sensor: nothing to say of the aim.
        if off.is_empty() {
            return format!("Abweichung: {}.", listed(&parts));
        }
        let aim = format!("Die Einstellung läge um {} daneben", listed(&off));
        if parts.is_empty() { format!("{aim}.") } else { format!("Abweichung: {}. {aim}.", listed(&parts)) }
    }
}

/// What about a target is off, after the number.
pub(super) const fn off_by(about: OffBy) -> &'static str {
    match about {
        OffBy::Azimuth => "Einstellfehler seitlich",
        OffBy::Elevation => "Einstellfehler in der Höhe",
        OffBy::Along => "zu nah oder zu weit",
        OffBy::Across => "daneben",
        OffBy::Height => "in der Höhe",
        OffBy::Yaw => "verdreht",
        OffBy::Pitch => "geneigt",
        OffBy::Roll => "seitlich gekippt",
    }
}
