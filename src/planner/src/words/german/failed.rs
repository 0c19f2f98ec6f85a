//! German of the same: see `words/failed.rs`.

use super::marks::wheel_name;
use super::{About, Language, sentence_start};
use crate::failed::{
    Cause, Explained, Explains, Looked, Origin, Suspect, ToCheck, Unexplained, Whose, may_fail_at,
};
use crate::words::failed::FailedTexts;

/// 95 of 100, either way.
const K: f64 = 1.96;

/// The fixed texts.
pub const TEXTS: FailedTexts = FailedTexts {
    language: Language::German,
    title: "Die Routine schlug fehl",
    ask: "Die Routine schlug fehl \u{2026}",
    ask_why: "Was es hier erklären könnte, und was zuerst zu prüfen ist",
    intro: "Eintragen, was die Routine des Herstellers meldete. Was über Marken, Boden, Fahrzeug und Ständer bekannt ist, wird dagegengehalten.",
    whose: "Sie meldet",
    of_sensor: "wohin der Sensor blickt",
    of_target: "wo das Ziel gesehen wird",
    sideways: "Links und rechts",
    upright: "Oben und unten",
    not_said: "nicht gemeldet",
    fine: "in Ordnung",
    left: "links",
    right: "rechts",
    up: "oben",
    down: "unten",
    by_sideways: "Um wie viel seitlich",
    by_upright: "Um wie viel nach oben oder unten",
    by_why: "In Grad (0,6) oder Winkelminuten (36'). Leer: nicht gemeldet.",
    limit: "Eigene Grenze der Routine",
    limit_why: "In Grad, nach beiden Seiten. Leer: was diese Einstellung erlaubt.",
    failed_at: "Fehlgeschlagen an",
    weighing: "Wird abgewogen \u{2026}",
    of_before: "Wird abgewogen \u{2026} Das Folgende ist älter: von dem, was vorher bekannt war.",
    could_be: "Was es erklären könnte, das Wahrscheinlichste zuerst",
    as_it_was: "wie es war",
    by_check: "Um wie viel",
    by_check_why: "Als Länge, oder als Drehung in Grad.",
    forget: "Zurücknehmen",
    to_tape: "Eintragen, was das Bandmaß zeigt",
    separates_nothing: "Keine hier bekannte Prüfung trennt die ersten beiden.",
    not_weighed: "Nicht abgewogen: was im Raum zurückstrahlt, Fehler des Fahrzeugs, das Diagnosegerät. Über den Sensor selbst sagt es \
                  nichts: die Routine des Herstellers entscheidet.",
};

pub const fn unexplained(why: Unexplained) -> &'static str {
    match why {
        Unexplained::WhoseWay => {
            "Zuerst sagen, wessen Richtung es ist: blickt der Sensor nach links, sieht er das Ziel rechts."
        }
        Unexplained::BothFine => {
            "Beides ist gemeldet als in Ordnung: nichts, was hier abgewogen wird, lässt eine Routine dann fehlschlagen. Fahrzeug und \
             Diagnosegerät prüfen."
        }
        Unexplained::NoTarget => "Kein Ziel dieser Einstellung richtet einen Sensor aus.",
        Unexplained::Nothing => "Nichts, was hier abgewogen wird, erklärt es.",
    }
}

pub const fn whose_of(whose: Whose) -> &'static str {
    match whose {
        Whose::Sensor => TEXTS.of_sensor,
        Whose::Target => TEXTS.of_target,
    }
}

pub const fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::Mark => "eine Marke",
        Cause::Floor => "der Boden",
        Cause::ThrustLine => "die Fahrachse",
        Cause::CarMoved => "ein bewegtes Fahrzeug",
        Cause::Stand => "der Ständer",
        Cause::Bracket => "der Halter des Sensors",
    }
}

pub fn headline(found: &Explained) -> String {
    let named = |nth: usize| found.causes.get(nth).map_or("", |own| cause(own.suspect.cause()));
    match (found.is_clear, found.causes.len()) {
        (true, _) | (false, 1) => format!("Bei weitem am wahrscheinlichsten: {}.", named(0)),
        (false, _) => format!("Noch nicht zu sagen: {} oder {}.", named(0), named(1)),
    }
}

pub const fn mend(own: &Explains) -> &'static str {
    match own.suspect {
        Suspect::Laid(Origin::WheelAside(_) | Origin::WheelAlong(_)) => {
            "Den Punkt dieses Rades mit Lot und Winkel neu suchen: alles andere wird von ihm aus gelegt."
        }
        Suspect::Laid(Origin::Camber(_)) => "Den Sturz dem Vermessungsblatt entnehmen.",
        Suspect::Laid(_) => "Neu legen von dem aus, worauf sie aufbaut, und noch einmal messen.",
        Suspect::FrontLevel | Suspect::RearLevel | Suspect::StandLevel => {
            "Die Höhen unter beiden Achsen und dem Ständer neu aufnehmen und die Höhe danach einstellen."
        }
        Suspect::Thrust => "Die Spur hinten neu messen lassen: die Vermessung kommt zuerst.",
        Suspect::CarFront | Suspect::CarRear => {
            "Von den Rädern zu ihren Marken noch einmal messen. Hat es sich bewegt: einparken, einfedern, geradestellen, Marken neu \
             legen."
        }
        Suspect::StandAside => "Die Mitte der Fläche neu über ihre Marke loten.",
        Suspect::StandHeight => "Die Höhe neu einstellen und an der Fläche ablesen.",
        Suspect::StandTurned => "Die Fläche neu rechtwinklig stellen, mit zwei Maßen, Latte oder Spiegel.",
        Suspect::StandTipped | Suspect::StandLeans => "Mast und Fläche in zwei Richtungen loten.",
        Suspect::BracketTurned | Suspect::BracketTilted => {
            "Halter und Abdeckung nach Herstellervorgabe ansehen: verbogen, lose, falsches Teil. Kein Bandmaß zeigt es."
        }
    }
}

impl About<'_> {
    /// What is out, which way and how far.
    pub fn explains(&self, place: usize, own: &Explains) -> String {
        let Explains { suspect, out, by, is_measured, .. } = own;
        let read = if *is_measured { "" } else { " Nicht gemessen: nur angenommen." };
        let within = K * out.u;
        // Whichever way and however far: nothing says so yet.
        if out.value.abs() < within {
            let said = self.at_target(vaguely(*suspect), *suspect, own.target);
            return format!("{place}. {}.{read}", sentence_start(&said));
        }
        let size = self.size_of(*suspect, out.value.abs());
        let way = |above: &'static str, below: &'static str| if out.value > 0.0 { above } else { below };
        let lies = by.map_or_else(|| size.clone(), |by| self.towards(self.of_car(by)));
        let said = match suspect {
            Suspect::Laid(Origin::Along(_) | Origin::Across(_)) => {
                let mark = self.mark_of(*suspect);
                format!("Marke {mark} liegt {lies} neben ihrer Stelle")
            }
            Suspect::Laid(Origin::WheelAside(wheel) | Origin::WheelAlong(wheel)) => {
                let wheel = wheel_name(*wheel);
                format!("der Radpunkt, {wheel}, wurde {lies} neben seiner Stelle gefunden")
            }
            Suspect::Laid(Origin::Camber(wheel)) => {
                let wheel = wheel_name(*wheel);
                format!("der Sturz, {wheel}, ist um {size} anders als berücksichtigt")
            }
            Suspect::Laid(Origin::TapeScale | Origin::TapeWarmth) => {
                "das Bandmaß selbst weicht ab".to_owned()
            }
            Suspect::FrontLevel => {
                format!("der Boden unter der Vorderachse ist um {size} zu {}", way("hoch", "tief"))
            }
            Suspect::RearLevel => {
                format!("der Boden unter der Hinterachse ist um {size} zu {}", way("hoch", "tief"))
            }
            Suspect::StandLevel => {
                format!("der Boden unter dem Ständer ist um {size} zu {}", way("hoch", "tief"))
            }
            Suspect::Thrust => {
                format!("die Fahrachse zeigt {size} weiter nach {} als auf dem Blatt", way("links", "rechts"))
            }
            Suspect::CarFront => {
                format!("das Fahrzeug wanderte vorn um {size} nach {}", way("links", "rechts"))
            }
            Suspect::CarRear => {
                format!("das Fahrzeug wanderte hinten um {size} nach {}", way("links", "rechts"))
            }
            Suspect::StandAside => {
                format!(
                    "das Ziel steht {size} {} neben seiner Marke, vom Sensor gesehen",
                    way("links", "rechts")
                )
            }
            Suspect::StandHeight => format!("das Ziel hängt um {size} zu {}", way("hoch", "tief")),
            Suspect::StandTurned => {
                let way = way("gegen den Uhrzeigersinn", "im Uhrzeigersinn");
                format!("die Fläche des Ziels ist um {size} {way} gedreht, von oben gesehen")
            }
            Suspect::StandTipped => {
                format!("die Fläche des Ziels blickt um {size} nach {}", way("unten", "oben"))
            }
            Suspect::StandLeans => {
                format!("der Mast neigt sich um {size} nach {}, vom Sensor gesehen", way("links", "rechts"))
            }
            Suspect::BracketTurned => {
                format!("der Sensor sitzt um {size} nach {} gedreht in seinem Halter", way("links", "rechts"))
            }
            Suspect::BracketTilted => {
                format!("der Sensor sitzt um {size} nach {} gekippt in seinem Halter", way("oben", "unten"))
            }
        };
        let said = self.at_target(&said, *suspect, own.target);
        format!("{place}. {} (±\u{a0}{}).{read}", sentence_start(&said), self.size_of(*suspect, within))
    }

    /// With the target that it is of, where the aiming has several that a routine may fail at.
    fn at_target(&self, said: &str, of: Suspect, target: usize) -> String {
        let several = may_fail_at(self.arrangement).len() > 1;
        let id = self.arrangement.aiming.placements.get(target).map(|own| &own.id);
        match id.filter(|_| several && of.is_of_target()) {
            Some(id) => format!("Ziel „{id}“: {said}"),
            None => said.to_owned(),
        }
    }

    /// What was looked at, and what was found.
    pub fn looked(&self, own: &Looked) -> String {
        let check = sentence_start(&self.at_target(check_of(own.at), own.at, own.target));
        let (above, below) = ways_of(own.at);
        match own.out {
            0.0 => format!("{check}: {}.", TEXTS.as_it_was),
            out => {
                let way = if out > 0.0 { above } else { below };
                format!("{check}: {} {way}.", self.read_of(own.at, out.abs()))
            }
        }
    }

    /// What to check first.
    pub fn check_first(&self, found: &Explained) -> Option<String> {
        let [first, second, ..] = found.causes.as_slice() else { return None };
        let check = match found.check.as_ref()? {
            ToCheck::Tape { from, to, again: true } => format!("{from}\u{2013}{to} noch einmal messen"),
            ToCheck::Tape { from, to, again: false } => format!("{from}\u{2013}{to} messen"),
            ToCheck::Part { at, target } => self.at_target(check_of(*at), *at, *target),
        };
        let [first, second] = [first, second].map(|own| cause(own.suspect.cause()));
        Some(format!("Zuerst prüfen: {check}. Das klärt: {first} oder {second}."))
    }
}

const fn vaguely(suspect: Suspect) -> &'static str {
    match suspect {
        Suspect::Laid(_) => "eine Marke liegt neben ihrer Stelle",
        Suspect::FrontLevel => "der Boden unter der Vorderachse ist höher oder tiefer als angenommen",
        Suspect::RearLevel => "der Boden unter der Hinterachse ist höher oder tiefer als angenommen",
        Suspect::StandLevel => "der Boden unter dem Ständer ist höher oder tiefer als angenommen",
        Suspect::Thrust => "die Fahrachse ist nicht wie auf dem Blatt",
        Suspect::CarFront => "das Fahrzeug wanderte vorn nach dem Messen",
        Suspect::CarRear => "das Fahrzeug wanderte hinten nach dem Messen",
        Suspect::StandAside => "das Ziel steht neben seiner Marke",
        Suspect::StandHeight => "das Ziel hängt in falscher Höhe",
        Suspect::StandTurned => "die Fläche des Ziels steht nicht rechtwinklig",
        Suspect::StandTipped => "die Fläche des Ziels ist gekippt",
        Suspect::StandLeans => "der Mast des Ständers neigt sich",
        Suspect::BracketTurned => "der Sensor sitzt gedreht in seinem Halter",
        Suspect::BracketTilted => "der Sensor sitzt gekippt in seinem Halter",
    }
}

pub const fn ways_of(at: Suspect) -> (&'static str, &'static str) {
    match at {
        Suspect::FrontLevel | Suspect::RearLevel | Suspect::StandLevel | Suspect::StandHeight => {
            ("zu hoch", "zu tief")
        }
        Suspect::CarFront | Suspect::CarRear => ("nach links gewandert", "nach rechts gewandert"),
        Suspect::StandTurned => ("gegen den Uhrzeigersinn", "im Uhrzeigersinn"),
        Suspect::StandTipped => ("blickt nach unten", "blickt nach oben"),
        Suspect::BracketTilted => ("nach oben", "nach unten"),
        Suspect::Laid(_)
        | Suspect::Thrust
        | Suspect::StandAside
        | Suspect::StandLeans
        | Suspect::BracketTurned => ("nach links", "nach rechts"),
    }
}

const fn check_of(suspect: Suspect) -> &'static str {
    match suspect {
        Suspect::Laid(_) => "die Marke neu legen",
        Suspect::FrontLevel => "die Höhe unter der Vorderachse aufnehmen",
        Suspect::RearLevel => "die Höhe unter der Hinterachse aufnehmen",
        Suspect::StandLevel => "die Höhe unter dem Ständer aufnehmen",
        Suspect::Thrust => "die Spur hinten neu ablesen lassen",
        Suspect::CarFront => "von den Vorderrädern zu ihren Marken messen",
        Suspect::CarRear => "von den Hinterrädern zu ihren Marken messen",
        Suspect::StandAside => "die Mitte der Fläche auf ihre Marke loten",
        Suspect::StandHeight => "die Höhe an der Fläche ablesen",
        Suspect::StandTurned => "zu beiden Enden der Fläche messen",
        Suspect::StandTipped => "die Fläche von vorn nach hinten loten",
        Suspect::StandLeans => "den Mast von links nach rechts loten",
        Suspect::BracketTurned | Suspect::BracketTilted => "den Halter des Sensors ansehen",
    }
}
