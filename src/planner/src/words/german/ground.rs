//! German of the same: see `words/ground.rs`.

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
    language: Language::German,
    title: "Boden",
    not_surveyed: "Es sind keine Höhen eingetragen. Mit ihnen steht hier, wie das Fahrzeug steht, wie hoch jedes Ziel über seinem Stück Boden eingestellt wird und was unter die Räder gelegt wird.",
    not_here: "Die Höhen reichen nicht zu allen vier Rädern: wie das Fahrzeug steht, ist nicht bekannt.",
    enter_levels: "Höhen eintragen \u{2026}",
    enter_levels_why: "Führt zu den Höhen des Bodens, nach Ort oder Marke, getippt oder aus einer Datei",
    heights_unknown: "Wie hoch ein Ziel eingestellt wird, ist nicht zu sagen: die Höhen reichen nicht zu Rädern und Ständer.",
    drain: "Gefälle zum Ablauf ist in vielen Werkstätten nach örtlichen Regeln verlangt: die Höhen danach einstellen, es nicht ungefragt ausgleichen.",
    details: "Einzelheiten",
    rule: "Innerhalb nur, wenn der ganze 95-%-Bereich es ist; außerhalb nur, wenn nichts davon innen liegt (JCGM 106, Annahme mit Sicherheitsabstand).",
    of_the_car: "Jeder Reifen gegen die Ebene aller vier",
    of_the_marks: "Höhen an den Marken",
    of_the_floor: "Der Boden für sich",
    of_the_levels: "Was die Höhen ergeben",
    contractor: "Für den, der den Boden ebnet",
    show: "Boden: Höhenlinien und Schnitt",
    show_why: "Zeichnet in der Draufsicht Linien gleicher Höhe, in der Seitenansicht den Boden unter der Mittellinie, vielfach überhöht",
    no_even: "Zwischen Fahrzeug und Ziel sind zu wenige Höhen bekannt, um zu sagen, wie eben er ist.",
    sensor_by_profile: "Das beruht auf der Höhe des Sensors aus dem Profil: an diesem Fahrzeug messen.",
    taken_with: "Gemessen mit",
    taken_with_hint: "das Gerät, etwa „Rotationslaser 2“; darf leer bleiben",
    taken_by: "Gemessen von",
    taken_by_hint: "wer gemessen hat; darf leer bleiben",
    within: "Jede Höhe, ±",
    within_hint: "um wie viel eine falsch sein kann, etwa 0,5; bleibt es leer, gilt die Angabe des Betriebs als Annahme",
};

/// The profile's factor.
pub fn profile(times: usize) -> String {
    format!("Boden hier, {times}-fach überhöht")
}

/// Between which levels lines lie.
pub fn contours(interval: &str) -> String {
    format!("Bodenhöhen, eine Linie je {interval}")
}

impl About<'_> {
    /// "0,12° ± 0,03° (95 %), erlaubt ± 0,20°: innerhalb".
    fn judged(&self, own: &Judged, said: impl Fn(f64) -> String) -> String {
        let figure = format!("{} ± {} (95 %)", said(own.value.abs()), said(own.u95));
        let Some((allowed, decision)) = own.allowed.zip(own.said) else {
            return format!("{figure}; das Verfahren nennt keine Grenze");
        };
        let decision = match decision {
            Said::Inside { .. } => "innerhalb",
            Said::Outside { .. } => "außerhalb",
            Said::CannotSay { .. } | Said::NoFigure => "nicht zu sagen",
        };
        format!("{figure}, erlaubt ± {}: {decision}", said(allowed))
    }

    fn hundredths(&self, radians: f64) -> String {
        format!("{}°", self.locale.region.number(angle::degrees(radians), 2))
    }

    /// How the car stands lengthwise.
    pub fn pitch(&self, car: &CarStands) -> String {
        let way = if car.pitch.value > 0.0 { "Vorn tiefer:" } else { "Vorn höher:" };
        format!("{way} {}.", self.judged(&car.pitch, |rad| self.hundredths(rad)))
    }

    /// How it stands sideways.
    pub fn roll(&self, car: &CarStands) -> String {
        let way = if car.roll.value > 0.0 { "Links höher:" } else { "Rechts höher:" };
        format!("{way} {}.", self.judged(&car.roll, |rad| self.hundredths(rad)))
    }

    /// How high a target is set.
    pub fn height_to_set(&self, height: &SetHeight) -> String {
        let target = sentence_start(&self.bare_subject(&Subject::Target(height.placement.clone())));
        let by = match height.vertical {
            VerticalReference::Gravity => "nach der waagerechten Linie",
            VerticalReference::WheelsPlane => "nach der Ebene der Räder",
        };
        let more = height.more_mm;
        let against = match self.locale.tenths(more.abs()) {
            own if own == self.locale.tenths(0.0) => "wie über ebenem Boden".to_owned(),
            own if more > 0.0 => format!("{own} mehr als über ebenem Boden"),
            own => format!("{own} weniger als über ebenem Boden"),
        };
        let unsure = match height.height.said {
            Some(Said::Inside { .. }) | None => "",
            Some(_) => {
                " Die Höhen sind nicht sicher genug bekannt für das, was die Höhe des Ziels abweichen darf."
            }
        };
        format!(
            "{target}: auf {} über dem Boden dort einstellen (± {}), {by}: {against}.{unsure}",
            self.locale.height(height.height.value),
            self.locale.tenths(height.height.u95)
        )
    }

    /// Which tyre stands low, and what is laid under the wheels.
    pub fn shims(&self, car: &CarStands) -> Option<String> {
        let laid = car.shims.filter(|own| car.wants_shims() && own.under_mm.iter().any(|mm| *mm > 0.0))?;
        let low = car.lowest().and_then(|(at, own)| Some((Wheel::ALL.get(at)?, own))).map(|(wheel, own)| {
            format!(
                "Das Rad {} steht {} zu tief (± {}): ",
                wheel_name(*wheel),
                self.locale.tenths(-own.value),
                self.locale.tenths(own.u95)
            )
        });
        let under = Wheel::ALL.iter().zip(laid.under_mm).filter(|(_, mm)| *mm > 0.0);
        let under: Vec<String> = under
            .map(|(wheel, mm)| format!("{} {} mm", wheel_name(*wheel), self.locale.region.number(mm, 0)))
            .collect();
        let shim = if low.is_some() { "unterlegen" } else { "Unterlegen" };
        let then = if laid.is_within { "" } else { " Mit ganzen Millimetern kommt es nicht in die Grenze." };
        Some(format!("{}{shim}: {}.{then}", low.unwrap_or_default(), listed(&under)))
    }

    /// How far levels differ.
    pub fn spread(&self, spread: &Judged) -> String {
        let judged = self.judged(spread, |mm| self.locale.tenths(mm));
        format!("Höhenunterschied an Rädern und Ziel: {judged}.")
    }

    /// How surely a level is known.
    pub fn levels_known(&self, known: &LevelKnown, survey: Option<&FloorSurvey>) -> String {
        let mut text = "Höhen".to_owned();
        if let Some(day) = survey.and_then(|own| own.taken) {
            text += &format!(" vom {}", self.locale.region.day(day));
        }
        if let Some(with) = survey.and_then(|own| own.how.with.as_ref()) {
            text += &format!(", gemessen mit „{with}“");
        }
        if let Some(by) = survey.and_then(|own| own.how.by.as_ref()) {
            text += &format!(", von {by}");
        }
        let within = self.locale.tenths(known.within_mm);
        match known.by {
            KnownBy::Survey => text + &format!(", jede ± {within}."),
            KnownBy::Instrument(_) => text + &format!(", jede ± {within}, wie in der Liste des Betriebs."),
            KnownBy::Assumed => text + &format!(", jede ± {within}: angenommen, die Angabe des Betriebs."),
        }
    }

    /// Twist.
    pub fn twist(&self, car: &CarStands) -> String {
        let which = if car.twist.value > 0.0 { "links" } else { "rechts" };
        format!(
            "Verwunden: die Vorderachse steht {which} um {} ± {} höher als die Hinterachse.",
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
        format!("Marke {}: {}", own.mark, self.level_at(&own.level))
    }

    /// How even the floor is.
    pub fn evenness(&self, even: &Even) -> Vec<String> {
        let mm = |mm: f64| self.locale.tenths(mm);
        let [low, high] = even.between;
        let mut all = vec![format!(
            "Alles Vermessene: {} ± {} zwischen tiefstem (Punkt {low}) und höchstem (Punkt {high}).",
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
                "Gefälle der mittleren Ebene {} % ± {} %, {}.",
                percent(fall.share.value),
                percent(fall.share.u95),
                towards_of(own)
            ));
        }
        if let Some(gap) = even.gap {
            all.push(format!(
                "Unter einer Richtlatte von {} längs des Fahrzeugs: {} ± {}.",
                self.locale.length(STRAIGHTEDGE_MM),
                mm(gap.value),
                mm(gap.u95)
            ));
        }
        if let Some(din) = even.din {
            let said = match din.off.said {
                Some(Said::Inside { .. }) => "innerhalb",
                Some(Said::Outside { .. }) => "außerhalb",
                _ => "nicht zu sagen",
            };
            all.push(format!(
                "DIN 18202, Tabelle 3, Zeile 3 (flächenfertige Böden): höchstens {} ± {} neben der Linie zwischen Punkten \
                 im Abstand von {}, erlaubt {}: {said}. Wie ein Handbuch des Fachs die Tabelle druckt.",
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
        let what = if dip.below.value > 0.0 { "Mulde" } else { "Buckel" };
        format!(
            "{what} an Punkt {}: {} ± {} gegen die Nachbarn.",
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
            (Some(asked), Some(is)) => format!(
                "Unter Rädern und Ziel dürfen keine zwei Höhen mehr als {asked} auseinander liegen; vermessen sind es {is}."
            ),
            (Some(asked), None) => format!(
                "Unter Rädern und Ziel dürfen keine zwei Höhen mehr als {asked} auseinander liegen; die Höhen dort sind nicht bekannt."
            ),
            (None, Some(is)) => format!(
                "Unter Rädern und Ziel liegen die Höhen {is} auseinander; wie viel es sein darf, sagt das Verfahren des Herstellers."
            ),
            (None, None) => "Was vom Boden verlangt ist, sagt das Verfahren des Herstellers.".to_owned(),
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
        if own.x > 0.0 { "vor allem nach vorn" } else { "vor allem nach hinten" }
    } else if own.y > 0.0 {
        "vor allem zur linken Fahrzeugseite"
    } else {
        "vor allem zur rechten Fahrzeugseite"
    }
}
