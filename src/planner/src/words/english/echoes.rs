//! English of the same: see `words/echoes.rs`.

use baywright_radar::level::{Band, Figure};

use super::clearing::takes;
use super::{About, Language, listed, sentence_start};
use crate::echoes::{Cure, Does, Done, Echo, How, May, OwnEcho, Seen, Untold};
use crate::words::echoes::{EchoTexts, Ratio, strength};

/// The fixed texts.
pub const TEXTS: EchoTexts = EchoTexts {
    language: Language::English,
    tab: "Echoes",
    tab_why: "What the radar would see: which things here send back an echo that it may take for the target",
    title: "What the radar would see",
    no_radar: "The sensor of this aiming is no radar: there are no echoes to tell.",
    waits: "Waits for the answer.",
    none: "Nothing here sends back as much as a ten-thousandth of the target’s echo.",
    show: "Show its way",
    details: "Figures behind it",
    takes: "The radar may take it for the target.",
    in_line: "It comes from the target’s own direction: taken for it or not, the aim stays.",
    apart_by_both: "The radar tells it from the target by its distance and direction.",
    apart_by_distance: "The radar tells it from the target by its distance.",
    apart_by_direction: "The radar tells it from the target by its direction.",
    strongest_takes: "A routine that takes the strongest echo takes this one.",
    strongest_may_take: "A routine that takes the strongest echo may take this one.",
    if_not_told_apart: "That is, if it cannot tell the two apart, which the profile does not say.",
    of_floor: "Every procedure is made over a floor and under a ceiling: this is no finding, but a grate or a wet patch there makes it stronger.",
    stuff_unknown: "What it is made of is not known: taken for anything up to bare metal.",
    prolonged: "Published figures of what it is made of end below this radar’s frequency; they are prolonged.",
    weaker: "Weaker, or told apart",
    rests_on: "Smooth, flat, ideal shapes. The car itself, the target’s own stand, ribs, handles and dents are left out; how a real radar filters is not known here. Levels are the least and the most that they may be.",
    decides: "Nothing of this makes a space ready: the vehicle maker’s clear area decides.",
    graph: "Strength against the target’s, by distance",
    graph_across: "Distance from the sensor",
    graph_up: "Decibels against the target",
    target: "target",
    cell: "not told from the target by distance",
    in_the_drawing: "line: the way of the echo; ring: where the radar believes it",
    from_sensor: "Seen from the sensor",
    from_sensor_about: "As one sees it who looks out along the sensor’s axis. Rings: where it believes the echoes that matter. The car itself is left out.",
    from_sensor_numbered: "Seen from the sensor, its axis in the middle. Numbered rings: where it believes the echoes below. The car itself is left out.",
    none_matters: "No echo here may be taken for the target, draw the aim beyond its limit or be the stronger.",
    off_axis: "The target lies too far off the sensor’s axis to be shown from there.",
    beam: "half power",
    beam_assumed: "half power, assumed",
    field: "field of view",
};

fn ratio(own: Ratio) -> String {
    match own {
        Ratio::Times(times) => format!("{times}"),
        Ratio::Part(of) => format!("1/{of}"),
    }
}

/// How strong against the target's.
pub fn times(from: Option<Ratio>, to: Ratio) -> String {
    format!("{}.", sentence_start(&times_within(from, to)))
}

/// The same as it stands within a sentence.
fn times_within(from: Option<Ratio>, to: Ratio) -> String {
    let times = if matches!(to, Ratio::Part(_)) { "" } else { " times" };
    let from = from.map_or_else(|| "up to ".to_owned(), |from| format!("{} to ", ratio(from)));
    format!("{from}{}{times} as strong as the target’s echo", ratio(to))
}

/// How much comes back at most beside what the target sends back, dB, as a customer is told.
pub fn as_much(level_db: f64) -> String {
    let Some(to) = Ratio::of(level_db) else { return String::new() };
    match to {
        Ratio::Times(1.0) => "just as much".to_owned(),
        Ratio::Times(times) => format!("up to {times} times as much"),
        Ratio::Part(_) => format!("up to {} as much", ratio(to)),
    }
}

/// A figure of the sensor.
pub const fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::ViewAzimuth => "how wide it sees from left to right",
        Figure::ViewElevation => "how wide it sees up and down",
        Figure::SideLobes => "how much it hears from aside",
        Figure::Isolation => "how much of the other polarisation it lets in",
        Figure::Bandwidth => "its bandwidth",
        Figure::Window => "how it weighs a chirp",
        Figure::BlindRange => "how near it is blind",
        Figure::Beam => "how fine it tells directions apart",
    }
}

/// Sentences one after another; what is none yet ends with its stop.
pub fn in_one(all: &[String]) -> String {
    let whole = |own: &String| if own.ends_with('.') { own.clone() } else { format!("{own}.") };
    all.iter().map(whole).collect::<Vec<_>>().join(" ")
}

/// A heading with how many stand under it.
pub fn of_these(heading: &str, count: usize) -> String {
    format!("{heading} ({count})")
}

/// The graph, read out.
pub fn graph_read(echoes: &[String]) -> String {
    format!("Strength against the target’s by distance: {}", listed(echoes))
}

/// A direction.
pub fn direction(degrees: f64, is_across: bool) -> String {
    let way = match (is_across, degrees < 0.0) {
        _ if degrees == 0.0 => return "0°".to_owned(),
        (true, true) => "left",
        (true, false) => "right",
        (false, true) => "down",
        (false, false) => "up",
    };
    format!("{}° {way}", degrees.abs())
}

/// What is not told.
pub fn more_matter(count: usize) -> String {
    if count == 1 { "One more echo matters.".to_owned() } else { format!("{count} more echoes matter.") }
}

/// The picture from the sensor, read out.
pub fn from_sensor_read(names: &[String]) -> String {
    format!("Seen from the sensor: {}", listed(names))
}

/// Why nothing is said.
pub const fn untold(why: Untold) -> &'static str {
    match why {
        Untold::Target => "How much such a target sends back is not known: nothing can be set against it.",
        Untold::OutOfReach => "The target is hidden, or too near for these figures.",
        Untold::Sensor => "The profile’s figures of the radar make no sense: nothing can be said.",
    }
}

impl About<'_> {
    /// What it is of.
    pub fn echo_of(&self, echo: &Echo) -> String {
        let all = |own: &[crate::assessment::Subject]| {
            listed(&own.iter().map(|own| self.subject(own)).collect::<Vec<_>>())
        };
        match &echo.how {
            How::Straight { of, is_spot_on: true } => {
                format!("{} looks straight at the sensor", sentence_start(&self.subject(of)))
            }
            How::Straight { of, is_spot_on: false } => sentence_start(&self.subject(of)),
            How::Corner { of } => format!("The corner of {}", all(of)),
            How::TargetBy { out, back } if out.is_empty() => {
                format!("The target once more, back by way of {}", all(back))
            }
            How::TargetBy { out, back } if back.is_empty() => {
                format!("The target once more, out by way of {}", all(out))
            }
            How::TargetBy { out, back } if out == back => {
                format!("The target once more, there and back by way of {}", all(out))
            }
            How::TargetBy { out, back } => {
                format!("The target once more, out by way of {}, back by way of {}", all(out), all(back))
            }
            How::Round { by } => format!("By way of {}, back to the sensor", all(by)),
        }
    }

    /// Where it lies.
    pub fn echo_lies(&self, echo: &Echo) -> String {
        let off = echo.heard.beyond_mm;
        let mut told = if off.abs() < 5.0 {
            "At the target’s distance".to_owned()
        } else if off > 0.0 {
            format!("{} beyond the target", self.length(off))
        } else {
            format!("{} nearer than the target", self.length(-off))
        };
        let [aside, up] = echo.heard.apart;
        for (by, one, other) in [(aside, "to its left", "to its right"), (up, "above it", "below it")] {
            if by.abs() > 0.5_f64.to_radians() {
                let way = if by > 0.0 { one } else { other };
                told.push_str(&format!(", {} {way}", self.locale.region.degrees(by.abs())));
            }
        }
        told.push_str(", seen from the sensor.");
        told
    }

    /// What is said of one that is found: how it comes about, where it lies, and who decides.
    pub fn echo_found(&self, echo: &Echo) -> String {
        let by = match &echo.how {
            How::Straight { .. } => String::new(),
            _ => format!("{}. ", self.echo_of(echo)),
        };
        let unknown = if echo.is_stuff_known { String::new() } else { format!(" {}", TEXTS.stuff_unknown) };
        format!("{by}{}{unknown} Ideal shapes; the vehicle maker’s clear area decides.", self.echo_lies(echo))
    }

    /// How strong against the target's, beside a title.
    pub fn echo_times(&self, level_db: Band) -> String {
        strength(level_db).map_or_else(String::new, |(from, to)| times_within(from, to))
    }

    /// How far it draws the aim.
    pub fn echo_draws(&self, by: f64, limit: f64, is_upright: bool) -> String {
        let way = if is_upright { "up or down" } else { "to a side" };
        let [by, limit] = [by, limit].map(|own| self.locale.region.degrees(own));
        format!("It may draw the aim by up to {by} {way}; {limit} is allowed.")
    }

    /// All together.
    pub fn echoes_together(&self, does: Does) -> String {
        let all = "All that it may not tell from the target together";
        let worst = "at the worst of their phases";
        match does {
            Does::Draws { by, limit, is_upright } => {
                let way = if is_upright { "up or down" } else { "to a side" };
                let [by, limit] = [by, limit].map(|own| self.locale.region.degrees(own));
                format!("{all} may draw the aim by up to {by} {way}, {worst}; {limit} is allowed.")
            }
            _ => format!(
                "{all} may be as strong as the target itself, {worst}: then there is no limit to how far they draw the aim."
            ),
        }
    }

    /// Which echo a routine takes.
    pub fn echo_picked(&self, seen: &Seen, may: &May, by_strength: bool) -> String {
        let rule = if by_strength {
            "strongest echo"
        } else {
            "nearest echo that is no weaker than a tenth of the target’s"
        };
        let others = may.echoes.iter().filter_map(|nth| seen.echoes.get(*nth)).map(|own| self.echo_of(own));
        let others: Vec<String> = others.collect();
        match (others.is_empty(), may.target) {
            (true, true) => format!("A routine that takes the {rule} takes the target."),
            (true, false) => format!("A routine that takes the {rule} may find none."),
            (false, true) => {
                format!("A routine that takes the {rule} takes the target, or: {}.", others.join("; "))
            }
            (false, false) => format!(
                "A routine that takes the {rule} does not take the target, but: {}.",
                others.join("; ")
            ),
        }
    }

    /// One thing that takes it away, within a sentence.
    fn way_out(&self, own: &Cure) -> String {
        match own.how {
            Done::Turned(by) => {
                let way = if by > 0.0 { "anticlockwise" } else { "clockwise" };
                format!("turn it {} {way}, seen from above", self.locale.region.degrees(by.abs()))
            }
            Done::Back(mm) => format!("move it {} further from the sensor", self.length(mm)),
            Done::Aside(mm) => format!("move it {} aside, away from the line to the target", self.length(mm)),
            Done::Out => "take it out of the bay".to_owned(),
        }
    }

    /// One thing that takes it away.
    pub fn echo_cure(&self, own: &Cure) -> String {
        sentence_start(&self.way_out(own))
    }

    /// All that do, and what it takes.
    pub fn echo_cures(&self, echo: &Echo) -> String {
        let ways: Vec<String> = echo.cures.iter().map(|own| self.way_out(own)).collect();
        if ways.is_empty() {
            return String::new();
        }
        let told = format!("{}.", sentence_start(&ways.join("; or ")));
        format!("{told} {}", self.echo_cures_take(echo)).trim_end().to_owned()
    }

    /// What that takes.
    pub fn echo_cures_take(&self, echo: &Echo) -> String {
        echo.cures.first().and_then(|own| takes(own.effort)).unwrap_or_default().to_owned()
    }

    /// The figures.
    pub fn echo_behind(&self, echo: &Echo) -> String {
        let db = |own: f64| self.locale.region.number(own, 0);
        let level = if echo.heard.level_db.low().is_finite() {
            format!("{} to {} dB", db(echo.heard.level_db.low()), db(echo.heard.level_db.high()))
        } else {
            format!("at most {} dB", db(echo.heard.level_db.high()))
        };
        let aside = echo.heard.bearing.azimuth;
        let way = if aside.abs() < 0.05_f64.to_radians() {
            "straight before it".to_owned()
        } else {
            let side = if aside > 0.0 { "left" } else { "right" };
            format!("{} to the {side} of its axis", self.locale.region.degrees(aside.abs()))
        };
        format!("{level} against the target; {} from the sensor, {way}.", self.length(echo.heard.range_mm))
    }

    /// One of several targets.
    pub fn echoes_of(&self, seen: &Seen) -> String {
        sentence_start(&self.subject(&crate::assessment::Subject::Target(seen.target.clone())))
    }

    /// The target's own.
    pub fn own_echo(&self, own: &OwnEcho) -> String {
        let db = |own: f64| self.locale.region.number(own, 0);
        format!(
            "The target’s own echo comes from {} away ({} to {} dBsm at that distance).",
            self.length(own.range_mm),
            db(own.received.sigma_dbsm.low()),
            db(own.received.sigma_dbsm.high())
        )
    }

    /// What is not in the profile.
    pub fn echoes_assume(&self, seen: &Seen) -> String {
        if seen.assumed.is_empty() {
            return String::new();
        }
        let all: Vec<String> = seen.assumed.iter().map(|own| figure(*own).to_owned()).collect();
        format!("The profile does not say of the radar: {}. Taken over all that is usual.", listed(&all))
    }
}
