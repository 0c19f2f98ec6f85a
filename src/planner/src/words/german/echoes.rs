//! German of the same: see `words/echoes.rs`.

use baywright_radar::level::{Band, Figure};

use super::clearing::takes;
use super::{About, Language, listed, sentence_start};
use crate::echoes::{Cure, Does, Done, Echo, How, May, OwnEcho, Seen, Untold};
use crate::words::echoes::{EchoTexts, Ratio, strength};

/// The fixed texts.
pub const TEXTS: EchoTexts = EchoTexts {
    language: Language::German,
    tab: "Echos",
    tab_why: "Was das Radar sehen würde: was hier ein Echo zurückwirft, das es für das Ziel halten kann",
    title: "Was das Radar sehen würde",
    no_radar: "Der Sensor dieser Einstellung ist kein Radar: Von Echos ist nichts zu sagen.",
    waits: "Wartet auf die Antwort.",
    none: "Nichts hier wirft auch nur ein Zehntausendstel des Echos vom Ziel zurück.",
    show: "Seinen Weg zeigen",
    details: "Zahlen dahinter",
    takes: "Das Radar kann es für das Ziel halten.",
    in_line: "Es kommt aus der Richtung des Ziels selbst: Ob es dafür gehalten wird oder nicht, die Einstellung bleibt.",
    apart_by_both: "Das Radar unterscheidet es vom Ziel nach Entfernung und Richtung.",
    apart_by_distance: "Das Radar unterscheidet es vom Ziel nach der Entfernung.",
    apart_by_direction: "Das Radar unterscheidet es vom Ziel nach der Richtung.",
    strongest_takes: "Ein Ablauf, der das stärkste Echo nimmt, nimmt dieses.",
    strongest_may_take: "Ein Ablauf, der das stärkste Echo nimmt, kann dieses nehmen.",
    if_not_told_apart: "Das heißt, wenn es die beiden nicht unterscheidet; das Profil sagt das nicht.",
    of_floor: "Jede Anleitung ist über einem Boden und unter einer Decke gemacht: Das ist kein Befund, aber ein Rost oder eine nasse Stelle dort macht es stärker.",
    stuff_unknown: "Woraus es ist, ist nicht bekannt: Es kann alles bis zu blankem Metall sein.",
    prolonged: "Veröffentlichte Zahlen dessen, woraus es ist, enden unter der Frequenz dieses Radars; sie sind fortgesetzt.",
    weaker: "Schwächer oder zu unterscheiden",
    rests_on: "Glatte, ebene, ideale Formen. Das Fahrzeug selbst, der Ständer des Ziels, Sicken, Griffe und Beulen sind weggelassen; wie ein wirkliches Radar filtert, ist hier nicht bekannt. Pegel sind das Kleinste und das Größte, was sie sein können.",
    decides: "Nichts davon macht einen Platz bereit: Der Freiraum des Fahrzeugherstellers entscheidet.",
    graph: "Stärke gegen die des Ziels, nach der Entfernung",
    graph_across: "Entfernung vom Sensor",
    graph_up: "Dezibel gegen das Ziel",
    target: "Ziel",
    cell: "nach der Entfernung nicht vom Ziel zu unterscheiden",
    in_the_drawing: "Linie: Weg des Echos; Ring: wo das Radar es vermutet",
    from_sensor: "Vom Sensor aus gesehen",
    from_sensor_about: "So sieht es, wer entlang der Achse des Sensors hinausblickt. Ringe: wo er die Echos vermutet, auf die es ankommt. Das Fahrzeug selbst ist weggelassen.",
    from_sensor_numbered: "Vom Sensor aus gesehen, seine Achse in der Mitte. Nummerierte Ringe: wo er die Echos darunter vermutet. Das Fahrzeug selbst ist weggelassen.",
    none_matters: "Kein Echo hier kann für das Ziel gehalten werden, die Einstellung über ihre Grenze ziehen oder das stärkere sein.",
    off_axis: "Das Ziel liegt zu weit neben der Achse des Sensors, um von dort gezeigt zu werden.",
    beam: "halbe Leistung",
    beam_assumed: "halbe Leistung, angenommen",
    field: "Sichtfeld",
};

fn ratio(own: Ratio) -> String {
    match own {
        Ratio::Times(times) => format!("{times}").replace('.', ","),
        Ratio::Part(of) => format!("1/{of}").replace('.', ","),
    }
}

/// How strong against the target's.
pub fn times(from: Option<Ratio>, to: Ratio) -> String {
    format!("{}.", sentence_start(&times_within(from, to)))
}

/// The same as it stands within a sentence.
fn times_within(from: Option<Ratio>, to: Ratio) -> String {
    let times = if matches!(to, Ratio::Part(_)) { "" } else { "-mal" };
    let from = from.map_or_else(|| "bis zu ".to_owned(), |from| format!("{} bis ", ratio(from)));
    format!("{from}{}{times} so stark wie das Echo des Ziels", ratio(to))
}

/// How much comes back at most beside what the target sends back, dB, as a customer is told.
pub fn as_much(level_db: f64) -> String {
    let Some(to) = Ratio::of(level_db) else { return String::new() };
    match to {
        Ratio::Times(1.0) => "ebenso viel".to_owned(),
        Ratio::Times(_) => format!("bis zu {}-mal so viel", ratio(to)),
        Ratio::Part(_) => format!("bis zu {} so viel", ratio(to)),
    }
}

/// A figure of the sensor.
pub const fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::ViewAzimuth => "wie weit es nach links und rechts sieht",
        Figure::ViewElevation => "wie weit es nach oben und unten sieht",
        Figure::SideLobes => "wie viel es von der Seite hört",
        Figure::Isolation => "wie viel von der anderen Polarisation es hereinlässt",
        Figure::Bandwidth => "seine Bandbreite",
        Figure::Window => "wie es einen Chirp gewichtet",
        Figure::BlindRange => "wie nah es blind ist",
        Figure::Beam => "wie fein es Richtungen unterscheidet",
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
    format!("Stärke gegen die des Ziels, nach der Entfernung: {}", listed(echoes))
}

/// A direction.
pub fn direction(degrees: f64, is_across: bool) -> String {
    let way = match (is_across, degrees < 0.0) {
        _ if degrees == 0.0 => return "0°".to_owned(),
        (true, true) => "links",
        (true, false) => "rechts",
        (false, true) => "unten",
        (false, false) => "oben",
    };
    format!("{}° {way}", degrees.abs())
}

/// What is not told.
pub fn more_matter(count: usize) -> String {
    if count == 1 {
        "Auf ein weiteres Echo kommt es an.".to_owned()
    } else {
        format!("Auf {count} weitere Echos kommt es an.")
    }
}

/// The picture from the sensor, read out.
pub fn from_sensor_read(names: &[String]) -> String {
    format!("Vom Sensor aus gesehen: {}", listed(names))
}

/// Why nothing is said.
pub const fn untold(why: Untold) -> &'static str {
    match why {
        Untold::Target => {
            "Wie viel ein solches Ziel zurückwirft, ist nicht bekannt: Nichts lässt sich damit vergleichen."
        }
        Untold::OutOfReach => "Das Ziel ist verdeckt oder zu nah für diese Zahlen.",
        Untold::Sensor => "Die Zahlen des Radars im Profil ergeben keinen Sinn: Nichts ist zu sagen.",
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
                format!("{}: steht dem Sensor gerade gegenüber", sentence_start(&self.subject(of)))
            }
            How::Straight { of, is_spot_on: false } => sentence_start(&self.subject(of)),
            How::Corner { of } => format!("Ecke von: {}", all(of)),
            How::TargetBy { out, back } if out.is_empty() => {
                format!("Noch einmal das Ziel, zurück über: {}", all(back))
            }
            How::TargetBy { out, back } if back.is_empty() => {
                format!("Noch einmal das Ziel, hin über: {}", all(out))
            }
            How::TargetBy { out, back } if out == back => {
                format!("Noch einmal das Ziel, hin und zurück über: {}", all(out))
            }
            How::TargetBy { out, back } => {
                format!("Noch einmal das Ziel, hin über: {}, zurück über: {}", all(out), all(back))
            }
            How::Round { by } => format!("Zurück zum Sensor über: {}", all(by)),
        }
    }

    /// Where it lies.
    pub fn echo_lies(&self, echo: &Echo) -> String {
        let off = echo.heard.beyond_mm;
        let mut told = if off.abs() < 5.0 {
            "So weit weg wie das Ziel".to_owned()
        } else if off > 0.0 {
            format!("{} hinter dem Ziel", self.length(off))
        } else {
            format!("{} näher als das Ziel", self.length(-off))
        };
        let [aside, up] = echo.heard.apart;
        for (by, one, other) in [(aside, "links davon", "rechts davon"), (up, "darüber", "darunter")] {
            if by.abs() > 0.5_f64.to_radians() {
                let way = if by > 0.0 { one } else { other };
                told.push_str(&format!(", {} {way}", self.locale.region.degrees(by.abs())));
            }
        }
        told.push_str(", vom Sensor aus.");
        told
    }

    /// What is said of one that is found: how it comes about, where it lies, and who decides.
    pub fn echo_found(&self, echo: &Echo) -> String {
        let by = match &echo.how {
            How::Straight { .. } => String::new(),
            _ => format!("{}. ", self.echo_of(echo)),
        };
        let unknown = if echo.is_stuff_known { String::new() } else { format!(" {}", TEXTS.stuff_unknown) };
        format!(
            "{by}{}{unknown} Ideale Formen; der Freiraum des Herstellers entscheidet.",
            self.echo_lies(echo)
        )
    }

    /// How strong against the target's, beside a title.
    pub fn echo_times(&self, level_db: Band) -> String {
        strength(level_db).map_or_else(String::new, |(from, to)| times_within(from, to))
    }

    /// How far it draws the aim.
    pub fn echo_draws(&self, by: f64, limit: f64, is_upright: bool) -> String {
        let way = if is_upright { "nach oben oder unten" } else { "zur Seite" };
        let [by, limit] = [by, limit].map(|own| self.locale.region.degrees(own));
        format!("Es kann die Einstellung um bis zu {by} {way} verziehen; {limit} sind erlaubt.")
    }

    /// All together.
    pub fn echoes_together(&self, does: Does) -> String {
        let all = "Alles, was es vielleicht nicht vom Ziel trennt, kann zusammen";
        let worst = "bei den ungünstigsten Phasen";
        match does {
            Does::Draws { by, limit, is_upright } => {
                let way = if is_upright { "nach oben oder unten" } else { "zur Seite" };
                let [by, limit] = [by, limit].map(|own| self.locale.region.degrees(own));
                format!(
                    "{all} die Einstellung um bis zu {by} {way} verziehen, {worst}; {limit} sind erlaubt."
                )
            }
            _ => format!(
                "{all} so stark wie das Ziel selbst sein, {worst}: Dann verzieht es die Einstellung beliebig weit."
            ),
        }
    }

    /// Which echo a routine takes.
    pub fn echo_picked(&self, seen: &Seen, may: &May, by_strength: bool) -> String {
        let rule = if by_strength {
            "die das stärkste Echo nimmt,"
        } else {
            "die das nächste Echo nimmt, das nicht schwächer als ein Zehntel von dem des Ziels ist,"
        };
        let others: Vec<String> =
            may.echoes.iter().filter_map(|nth| seen.echoes.get(*nth)).map(|own| self.echo_of(own)).collect();
        match (others.is_empty(), may.target) {
            (true, true) => format!("Eine Routine, {rule} nimmt das Ziel."),
            (true, false) => format!("Eine Routine, {rule} findet vielleicht keines."),
            (false, true) => format!("Eine Routine, {rule} nimmt das Ziel oder: {}.", others.join("; ")),
            (false, false) => {
                format!("Eine Routine, {rule} nimmt nicht das Ziel, sondern: {}.", others.join("; "))
            }
        }
    }

    /// One thing that takes it away, within a sentence.
    fn way_out(&self, own: &Cure) -> String {
        match own.how {
            Done::Turned(by) => {
                let way = if by > 0.0 { "gegen den Uhrzeigersinn" } else { "im Uhrzeigersinn" };
                format!("um {} {way} drehen, von oben gesehen", self.locale.region.degrees(by.abs()))
            }
            Done::Back(mm) => format!("{} weiter vom Sensor weg schieben", self.length(mm)),
            Done::Aside(mm) => format!("{} zur Seite schieben, weg von der Linie zum Ziel", self.length(mm)),
            Done::Out => "aus dem Messplatz entfernen".to_owned(),
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
        let told = format!("{}.", sentence_start(&ways.join("; oder ")));
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
            format!("{} bis {} dB", db(echo.heard.level_db.low()), db(echo.heard.level_db.high()))
        } else {
            format!("höchstens {} dB", db(echo.heard.level_db.high()))
        };
        let aside = echo.heard.bearing.azimuth;
        let way = if aside.abs() < 0.05_f64.to_radians() {
            "gerade vor ihm".to_owned()
        } else {
            let side = if aside > 0.0 { "links" } else { "rechts" };
            format!("{} {side} von seiner Achse", self.locale.region.degrees(aside.abs()))
        };
        format!("{level} gegen das Ziel; {} vom Sensor, {way}.", self.length(echo.heard.range_mm))
    }

    /// One of several targets.
    pub fn echoes_of(&self, seen: &Seen) -> String {
        sentence_start(&self.subject(&crate::assessment::Subject::Target(seen.target.clone())))
    }

    /// The target's own.
    pub fn own_echo(&self, own: &OwnEcho) -> String {
        let db = |own: f64| self.locale.region.number(own, 0);
        format!(
            "Das Echo des Ziels selbst kommt aus {} Entfernung ({} bis {} dBsm dort).",
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
        format!("Das Profil sagt vom Radar nicht: {}. Angenommen ist alles, was üblich ist.", listed(&all))
    }
}
