//! What was measured on one very car, in words.

use super::{Locale, Words};
use crate::model::Wheel;
use crate::model::sheet::{Inward, SheetPart, SheetUnit, Side, Typed};
use crate::scene::Scene;

texts! {
    this_car: ThisCarTexts, "Every fixed text about what was measured on one very car.";
    sheet, "A part of the form.";
    sheet_why, "What it is for.";
    date, "A day.";
    date_hint, "What it is.";
    no_day, "What was typed is no day.";
    by, "Who measured.";
    by_hint, "What it is.";
    toe_in, "The unit of toes.";
    angles_in, "The unit of cambers and thrust angle.";
    set_back_in, "The unit of a set-back.";
    rim, "A diameter.";
    rim_hint, "What it is.";
    no_rim, "What was typed is no diameter.";
    toe_hint, "What it is.";
    camber_hint, "What it is.";
    thrust, "An angle.";
    thrust_hint, "What it is.";
    not_said, "While nobody said which way.";
    say_way, "Under a figure that is not used.";
    no_sign, "What was typed has a sign.";
    no_minutes, "What was typed is no angle in degrees and minutes.";
    more_of_sheet, "Opens front toes, cambers, day and name.";
    no_rim_yet, "Under toes that are not used.";
    wheels_at, "A choice.";
    at_tyre, "Which point of a wheel.";
    at_hub, "Which point of a wheel.";
    arches, "A part of the form.";
    arches_hint, "What it is.";
    no_nominal, "Why nothing follows from heights.";
    body, "A part of the form.";
    body_hint, "What it is.";
    stood, "A part of the form.";
    stood_why, "What it is for.";
    floor_point, "A name.";
    floor_point_hint, "What it is.";
    car_point, "A name.";
    car_point_hint, "What it is.";
    at_start, "A distance.";
    at_end, "A distance.";
    remove_stood, "Takes a distance away.";
    enter_measured, "Where a figure is entered.";
    tick_sensor, "Where the sensor's place is entered.";
    allowed_off, "How far ride heights may be off.";
    allowed_off_hint, "What it is.";
}

impl ThisCarTexts {
    sentences! { this_car:
        /// A figure of a sheet, by its name.
        part(part: SheetPart) -> String;
        /// The choice of which way a figure goes.
        way_of(part: SheetPart) -> String;
        /// The point of the floor that is proposed for one of several distances.
        usual_floor(number: usize) -> String;
        /// The same of the car.
        usual_car(number: usize) -> String;
        /// A unit of a sheet.
        unit(unit: SheetUnit) -> &'static str;
        /// Which way a toe points.
        toe_way(way: Inward) -> &'static str;
        /// Which way a camber leans.
        camber_way(way: Inward) -> &'static str;
        /// Which front wheel stands back.
        back_way(side: Side) -> &'static str;
        /// To which side a thrust line points.
        thrust_way(side: Side) -> &'static str;
        /// What was typed is no figure in this unit.
        no_figure(text: &str) -> String;
        /// The height of a wheel's arch.
        arch_of(wheel: Wheel) -> String;
        /// How far ahead of the front axle a point of the body is, or how far left.
        body_point(name: &str, is_ahead: bool) -> String;
        /// A field of one of several distances, by its number.
        nth(number: usize, field: &str) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// Where the rear wheels push the car, and by which figures that is known; `None` while it is not.
        thrust_line() -> Option<String>;
        /// What follows from the wheels as measured: tracks, wheelbases, set-back, centreline; empty if they were not.
        stands_on() -> Vec<String>;
        /// How far plumbed hubs lie from their tyres' middles by the sheet's cambers; `None` while none is known.
        hubs_off() -> Option<String>;
        /// How the body hangs against the profile; empty while nothing can be told.
        body_hangs() -> Vec<String>;
        /// What separates the centreline by the body from the axis that the aiming names; `None` while nothing can be told.
        lines_apart(scene: &Scene) -> Option<String>;
        /// Whether the car stood still: of what was taped at the start and not again yet, or that all agrees; `None` where nothing was.
        stood_still() -> Option<String>;
    }
}

impl Locale {
    /// A figure of a sheet as it was typed, with its unit.
    pub fn sheet_figure(self, unit: SheetUnit, typed: Typed) -> String {
        let number = |value: f64, most: usize| {
            let parts = libm::exp10(most as f64);
            let rounded = (value * parts).round() / parts;
            let places = (0..most).find(|places| {
                let parts = libm::exp10(*places as f64);
                ((rounded * parts).round() / parts - rounded).abs() < 1e-9
            });
            self.region.number(rounded, places.unwrap_or(most))
        };
        match unit {
            SheetUnit::Degrees => format!("{}°", number(typed.value, 6)),
            SheetUnit::DegreesMinutes => {
                format!("{}° {}\u{2032}", number(typed.value, 6), number(typed.minutes, 4))
            }
            SheetUnit::Millimetres => format!("{} mm", number(typed.value, 6)),
            SheetUnit::Inches => format!("{}\u{2033}", number(typed.value, 6)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Language;
    use super::*;
    use crate::words::Units;

    #[test]
    fn figures_are_shown_as_they_were_typed() {
        let english = Locale::of(Language::English, Units::Millimetres);
        let german = Locale::of(Language::German, Units::Millimetres);
        assert_eq!(english.sheet_figure(SheetUnit::Degrees, Typed::of(0.25)), "0.25°");
        assert_eq!(german.sheet_figure(SheetUnit::Millimetres, Typed::of(2.1)), "2,1 mm");
        assert_eq!(german.sheet_figure(SheetUnit::Millimetres, Typed::of(2.0)), "2 mm");
        let minutes = Typed { value: 0.0, minutes: 15.5 };
        assert_eq!(english.sheet_figure(SheetUnit::DegreesMinutes, minutes), "0° 15.5\u{2032}");
        assert_eq!(english.sheet_figure(SheetUnit::Inches, Typed::of(0.0787)), "0.0787\u{2033}");
    }
}
