//! English of the same: see `words/ground.rs`.

use baywright_survey::decide::Said;

use super::marks::wheel_name;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::geometry::angle;
use crate::ground::{
    CarStands, Dip, Even, Ground, Judged, KnownBy, LevelKnown, MarkLevel, STRAIGHTEDGE_MM, SetHeight,
};
use crate::model::{FloorSurvey, VerticalReference, Wheel};
use crate::words::ground::GroundTexts;

/// The fixed texts.
pub const TEXTS: GroundTexts = GroundTexts {
    language: Language::English,
    title: "Floor",
    not_surveyed: "No levels are entered. With them it is told here how the car stands, how high each target is set over its own piece of floor, and what is laid under the wheels.",
    not_here: "The levels do not reach all four wheels: how the car stands is not known.",
    enter_levels: "Enter levels \u{2026}",
    enter_levels_why: "Leads to the levels of the floor, by place or by mark, typed or from a file",
    heights_unknown: "How high a target is set cannot be told: the levels do not reach wheels and stand.",
    drain: "Fall to a drain is expected in many workshops by local rules: set the heights by it, do not level it away unasked.",
    details: "Details",
    rule: "Inside only if all of the 95 % range is; outside only if none of it is (JCGM 106, guarded acceptance).",
    of_the_car: "Each tyre against the plane of all four",
    of_the_marks: "Levels at the marks",
    of_the_floor: "The floor by itself",
    of_the_levels: "What the levels come to",
    contractor: "For who levels the floor",
    show: "Floor: contours and profile",
    show_why: "Draws lines of one level in the top view, and the floor under the centreline in the side view, many times as high",
    no_even: "Between car and target too few levels are known to tell how even it is.",
    sensor_by_profile: "It rests on the sensor's height as the profile has it: measure it on this car.",
    taken_with: "Taken with",
    taken_with_hint: "the instrument, such as \u{201c}rotating laser 2\u{201d}; may be left empty",
    taken_by: "Taken by",
    taken_by_hint: "who took them; may be left empty",
    within: "Each level, ±",
    within_hint: "how far one may be off, such as 0.5; left empty the shop's own figure is assumed",
};

/// The profile's factor.
pub fn profile(times: usize) -> String {
    format!("Floor here, {times} times as high")
}

/// Between which levels lines lie.
pub fn contours(interval: &str) -> String {
    format!("Floor levels, a line each {interval}")
}

impl About<'_> {
    /// "0.12° ± 0.03° (95 %), allowed ± 0.20°: inside".
    fn judged(&self, own: &Judged, said: impl Fn(f64) -> String) -> String {
        let figure = format!("{} ± {} (95 %)", said(own.value.abs()), said(own.u95));
        let Some((allowed, decision)) = own.allowed.zip(own.said) else {
            return format!("{figure}; the procedure names no limit");
        };
        let decision = match decision {
            Said::Inside { .. } => "inside",
            Said::Outside { .. } => "outside",
            Said::CannotSay { .. } | Said::NoFigure => "cannot say",
        };
        format!("{figure}, allowed ± {}: {decision}", said(allowed))
    }

    fn hundredths(&self, radians: f64) -> String {
        format!("{}°", self.locale.region.number(angle::degrees(radians), 2))
    }

    /// How the car stands lengthwise.
    pub fn pitch(&self, car: &CarStands) -> String {
        let way = if car.pitch.value > 0.0 { "Nose down" } else { "Nose up" };
        format!("{way} {}.", self.judged(&car.pitch, |rad| self.hundredths(rad)))
    }

    /// How it stands sideways.
    pub fn roll(&self, car: &CarStands) -> String {
        let way = if car.roll.value > 0.0 { "Left side up" } else { "Right side up" };
        format!("{way} {}.", self.judged(&car.roll, |rad| self.hundredths(rad)))
    }

    /// How high a target is set.
    pub fn height_to_set(&self, height: &SetHeight) -> String {
        let target = self.subject(&Subject::Target(height.placement.clone()));
        let by = match height.vertical {
            VerticalReference::Gravity => "by the level line",
            VerticalReference::WheelsPlane => "by the plane of the wheels",
        };
        let more = height.more_mm;
        let against = match self.locale.tenths(more.abs()) {
            own if own == self.locale.tenths(0.0) => "as over a level floor".to_owned(),
            own if more > 0.0 => format!("{own} more than over a level floor"),
            own => format!("{own} less than over a level floor"),
        };
        let unsure = match height.height.said {
            Some(Said::Inside { .. }) | None => "",
            Some(_) => " The levels are not known surely enough for what its height may be off.",
        };
        format!(
            "Set {target} {} over the floor there (± {}), {by}: {against}.{unsure}",
            self.locale.height(height.height.value),
            self.locale.tenths(height.height.u95)
        )
    }

    /// Which tyre stands low, and what is laid under the wheels.
    pub fn shims(&self, car: &CarStands) -> Option<String> {
        let laid = car.shims.filter(|own| car.wants_shims() && own.under_mm.iter().any(|mm| *mm > 0.0))?;
        let low = car.lowest().and_then(|(at, own)| Some((Wheel::ALL.get(at)?, own))).map(|(wheel, own)| {
            let wheel = sentence_start(wheel_name(*wheel));
            format!(
                "{wheel} wheel stands {} low (± {}): ",
                self.locale.tenths(-own.value),
                self.locale.tenths(own.u95)
            )
        });
        let under = Wheel::ALL.iter().zip(laid.under_mm).filter(|(_, mm)| *mm > 0.0);
        let under: Vec<String> = under
            .map(|(wheel, mm)| format!("{} {} mm", wheel_name(*wheel), self.locale.region.number(mm, 0)))
            .collect();
        let shim = if low.is_some() { "shim" } else { "Shim" };
        let then =
            if laid.is_within { "" } else { " Shims of whole millimetres do not bring it within the limit." };
        Some(format!("{}{shim} {}.{then}", low.unwrap_or_default(), listed(&under)))
    }

    /// How far levels differ.
    pub fn spread(&self, spread: &Judged) -> String {
        format!("Levels at wheels and target differ by {}.", self.judged(spread, |mm| self.locale.tenths(mm)))
    }

    /// How surely a level is known.
    pub fn levels_known(&self, known: &LevelKnown, survey: Option<&FloorSurvey>) -> String {
        let mut text = "Levels".to_owned();
        if let Some(day) = survey.and_then(|own| own.taken) {
            text += &format!(" of {}", self.locale.region.day(day));
        }
        if let Some(with) = survey.and_then(|own| own.how.with.as_ref()) {
            text += &format!(", taken with {with}");
        }
        if let Some(by) = survey.and_then(|own| own.how.by.as_ref()) {
            text += &format!(", by {by}");
        }
        let within = self.locale.tenths(known.within_mm);
        match known.by {
            KnownBy::Survey => text + &format!(", each ± {within}."),
            KnownBy::Instrument(_) => text + &format!(", each ± {within}, as the shop's list has it."),
            KnownBy::Assumed => text + &format!(", each ± {within}: assumed, the shop's own figure."),
        }
    }

    /// Twist.
    pub fn twist(&self, car: &CarStands) -> String {
        let which = if car.twist.value > 0.0 { "left" } else { "right" };
        format!(
            "Twisted: the front axle {} ± {} further up at the {which} than the rear axle.",
            self.hundredths(car.twist.value.abs()),
            self.hundredths(car.twist.u95)
        )
    }

    /// How a tyre stands.
    pub fn tyre(&self, car: &CarStands, at: usize) -> String {
        let (Some(own), Some(wheel)) = (car.tyres.get(at), Wheel::ALL.get(at)) else { return String::new() };
        format!("{}: {}", sentence_start(wheel_name(*wheel)), self.level_at(own))
    }

    /// A level.
    pub fn level_at(&self, level: &Judged) -> String {
        format!("{} ± {}", self.locale.signed_tenths(level.value), self.locale.tenths(level.u95))
    }

    /// The level at a mark.
    pub fn mark_level(&self, own: &MarkLevel) -> String {
        format!("Mark {}: {}", own.mark, self.level_at(&own.level))
    }

    /// How even the floor is.
    pub fn evenness(&self, even: &Even) -> Vec<String> {
        let mm = |mm: f64| self.locale.tenths(mm);
        let [low, high] = even.between;
        let mut all = vec![format!(
            "All that was surveyed: {} ± {} between lowest (point {low}) and highest (point {high}).",
            mm(even.largest.value),
            mm(even.largest.u95)
        )];
        if let Some(fall) = even.fall {
            // As many places as its uncertainty needs to be something.
            let places =
                (2..4).find(|places| fall.share.u95 * 100.0 >= 0.5 * 0.1_f64.powi(*places)).unwrap_or(4);
            let percent =
                |share: f64| self.locale.region.number(share * 100.0, places.unsigned_abs() as usize);
            let own = self.in_car_directions(fall.towards);
            all.push(format!(
                "The mean plane falls {} % ± {} %, {}.",
                percent(fall.share.value),
                percent(fall.share.u95),
                towards_of(own)
            ));
        }
        if let Some(gap) = even.gap {
            all.push(format!(
                "Under a straightedge of {} along the car: {} ± {}.",
                self.locale.length(STRAIGHTEDGE_MM),
                mm(gap.value),
                mm(gap.u95)
            ));
        }
        if let Some(din) = even.din {
            let said = match din.off.said {
                Some(Said::Inside { .. }) => "inside",
                Some(Said::Outside { .. }) => "outside",
                _ => "cannot say",
            };
            all.push(format!(
                "DIN 18202, table 3, row 3 (finished floors): at worst {} ± {} off the line between points {} apart, \
                 allowed {}: {said}. As a handbook of the trade prints the table.",
                mm(din.off.value),
                mm(din.off.u95),
                self.locale.length(din.apart_mm),
                mm(din.off.allowed.unwrap_or_default())
            ));
        }
        all.extend(even.dips.iter().map(|dip| self.dip(dip)));
        all
    }

    fn dip(&self, dip: &Dip) -> String {
        let what = if dip.below.value > 0.0 { "Dip" } else { "Bump" };
        format!(
            "{what} at point {}: {} ± {} against its neighbours.",
            dip.number,
            self.locale.tenths(dip.below.value.abs()),
            self.locale.tenths(dip.below.u95)
        )
    }

    /// One line for who levels the floor.
    pub fn for_contractor(&self, ground: &Ground) -> String {
        let asked = self.arrangement.aiming.floor.map(|own| self.locale.tenths(own.level_mm));
        let is = ground
            .spread
            .map(|own| format!("{} ± {}", self.locale.tenths(own.value), self.locale.tenths(own.u95)));
        match (asked, is) {
            (Some(asked), Some(is)) => {
                format!(
                    "Under wheels and target no two levels more than {asked} apart; surveyed they are {is} apart."
                )
            }
            (Some(asked), None) => {
                format!(
                    "Under wheels and target no two levels more than {asked} apart; the levels there are not known."
                )
            }
            (None, Some(is)) => {
                format!(
                    "Under wheels and target levels are {is} apart; how much may be is the maker's procedure to say."
                )
            }
            (None, None) => "What is asked of the floor is the maker's procedure to say.".to_owned(),
        }
    }

    /// A level beside its line.
    pub fn contour(&self, level_mm: f64, interval_mm: f64) -> String {
        self.locale.signed(level_mm, usize::from(interval_mm < 1.0))
    }
}

/// Which way of the car's, of a vector of length 1.
fn towards_of(own: crate::geometry::DVec2) -> &'static str {
    if own.x.abs() > own.y.abs() {
        if own.x > 0.0 { "mostly towards the car's front" } else { "mostly towards the car's rear" }
    } else if own.y > 0.0 {
        "mostly towards the car's left"
    } else {
        "mostly towards the car's right"
    }
}
