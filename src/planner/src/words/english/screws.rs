//! English of the same: see `words/screws.rs`.

use baywright_geometry::angle;

use super::{About, Language};
use crate::model::Adjusted;
use crate::model::screw::Upright;
use crate::model::sheet::Side;
use crate::words::screws::{OutBy, ScrewTexts};

/// The fixed texts.
pub const TEXTS: ScrewTexts = ScrewTexts {
    language: Language::English,
    title: "Adjusting screws",
    why: "As its maker's service information gives them. What is not entered is not told.",
    pitch_up_down: "Up and down: pitch",
    arm_up_down: "Up and down: screw to pivot",
    way_up_down: "Up and down: clockwise moves the beam",
    pitch_left_right: "Left and right: pitch",
    arm_left_right: "Left and right: screw to pivot",
    way_left_right: "Left and right: clockwise moves the beam",
    pitch_hint: "How far one turn of the screw moves it",
    arm_hint: "From the screw to the point about which the sensor turns",
    not_said: "not said",
    put_right_there: "What is off at marks or stand is put right there, not by the screw.",
    as_procedure_says: "Turn only as the maker's procedure says.",
};

pub const fn up_or_down(way: Upright) -> &'static str {
    match way {
        Upright::Up => "up",
        Upright::Down => "down",
    }
}

pub const fn left_or_right(way: Side) -> &'static str {
    match way {
        Side::Left => "left",
        Side::Right => "right",
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
            Some(self.turned("left or right", turns, of, left_or_right(way)))
        });
        let upright = out.upright.and_then(|by| {
            let (turns, way) = screws.up_down.turns(tenth)?;
            let of = by.and_then(|by| Some((by, screws.up_down.turns(by)?.0)));
            Some(self.turned("up or down", turns, of, up_or_down(way)))
        });
        let told: Vec<String> = sideways.into_iter().chain(upright).collect();
        (!told.is_empty()).then(|| format!("{} {}", told.join(" "), TEXTS.as_procedure_says))
    }

    fn turned(&self, where_to: &str, turns: f64, of: Option<(f64, f64)>, way: &str) -> String {
        let number = |turns: f64| self.locale.region.number(turns, 2);
        let more = of.map_or_else(String::new, |(by, turns)| {
            format!(", {} are {}", self.degrees(by.abs()), number(turns))
        });
        format!(
            "A tenth of a degree {where_to} is {} turns of its screw{more}; clockwise moves the beam {way}.",
            number(turns)
        )
    }
}
