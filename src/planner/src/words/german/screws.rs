//! German of the same: see `words/screws.rs`.

use baywright_geometry::angle;

use super::{About, Language};
use crate::model::Adjusted;
use crate::model::screw::Upright;
use crate::model::sheet::Side;
use crate::words::screws::{OutBy, ScrewTexts};

/// The fixed texts.
pub const TEXTS: ScrewTexts = ScrewTexts {
    language: Language::German,
    title: "Einstellschrauben",
    why: "Wie in den Werkstattangaben des Herstellers. Was nicht eingetragen ist, wird nicht gesagt.",
    pitch_up_down: "Auf und ab: Steigung",
    arm_up_down: "Auf und ab: Schraube bis Drehpunkt",
    way_up_down: "Auf und ab: rechtsherum geht der Strahl",
    pitch_left_right: "Links und rechts: Steigung",
    arm_left_right: "Links und rechts: Schraube bis Drehpunkt",
    way_left_right: "Links und rechts: rechtsherum geht der Strahl",
    pitch_hint: "So weit bewegt eine Umdrehung die Schraube",
    arm_hint: "Von der Schraube bis zu dem Punkt, um den sich der Sensor dreht",
    not_said: "nicht gesagt",
    put_right_there: "Was an Marken oder Ständer nicht stimmt, wird dort in Ordnung gebracht, nicht mit der Schraube.",
    as_procedure_says: "Nur drehen, wie es die Anleitung des Herstellers sagt.",
};

pub const fn up_or_down(way: Upright) -> &'static str {
    match way {
        Upright::Up => "nach oben",
        Upright::Down => "nach unten",
    }
}

pub const fn left_or_right(way: Side) -> &'static str {
    match way {
        Side::Left => "nach links",
        Side::Right => "nach rechts",
    }
}

impl About<'_> {
    /// See [`crate::words::Words::turns`].
    pub fn turns(&self, out: OutBy) -> Option<String> {
        let sensor = &self.arrangement.sensor;
        if sensor.adjusted != Adjusted::Screw {
            return None;
        }
        let screws = &sensor.screws;
        let tenth = angle::radians(0.1);
        let sideways = out.sideways.and_then(|by| {
            let (turns, way) = screws.left_right.turns(tenth)?;
            let of = by.and_then(|by| Some((by, screws.left_right.turns(by)?.0)));
            Some(self.turned("nach links oder rechts", turns, of, left_or_right(way)))
        });
        let upright = out.upright.and_then(|by| {
            let (turns, way) = screws.up_down.turns(tenth)?;
            let of = by.and_then(|by| Some((by, screws.up_down.turns(by)?.0)));
            Some(self.turned("nach oben oder unten", turns, of, up_or_down(way)))
        });
        let told: Vec<String> = sideways.into_iter().chain(upright).collect();
        (!told.is_empty()).then(|| format!("{} {}", told.join(" "), TEXTS.as_procedure_says))
    }

    fn turned(&self, where_to: &str, turns: f64, of: Option<(f64, f64)>, way: &str) -> String {
        let number = |turns: f64| self.locale.region.number(turns, 2);
        let more = of.map_or_else(String::new, |(by, turns)| {
            format!(", {} sind {}", self.degrees(by.abs()), number(turns))
        });
        format!(
            "Ein Zehntelgrad {where_to} sind {} Umdrehungen der Schraube dafür{more}; rechtsherum geht der Strahl {way}.",
            number(turns)
        )
    }
}
