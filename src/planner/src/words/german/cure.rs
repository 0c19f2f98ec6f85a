//! What to do, in words.

use super::clearing::takes;
use super::names::the;
use super::{About, listed, sentence_start};
use crate::assessment::{Cure, Facts, Finding, OnCar, Severity, Shorter, Step, Subject};
use crate::model::{Effort, Id, SensorPoint, TargetHeight, ThingKind};

impl About<'_> {
    /// What to do about a finding, with what that would cause; `None` if nothing is known.
    pub fn cure(&self, finding: &Finding) -> Option<String> {
        let cure = finding.cure.as_ref()?;
        let mut text = match (&cure.step, &finding.facts) {
            (Step::SurveyFloor, Facts::FloorLevels(fact)) => super::floor::survey(*fact).to_owned(),
            (step, _) => sentence_start(&self.step(step)),
        };
        text.push('.');
        if let Some(shorter) = cure.at_least {
            text = format!("{text} {}", self.shorter(&cure.step, shorter));
        }
        // That one person can do it goes without saying.
        if let Some(takes) = cure.effort.filter(|own| *own != Effort::OnePerson).and_then(takes) {
            text = format!("{text} {takes}");
        }
        if let Some(instead) = self.instead(cure) {
            text = format!("{text} {instead}");
        }
        Some(text)
    }

    /// Why it goes further than it must: "250 mm reichen, wenn alles genau so steht wie gezeichnet; ..."
    fn shorter(&self, step: &Step, shorter: Shorter) -> String {
        let by = shorter.by();
        let so_far = if self.same_way(step, shorter) { self.at_least(by.length()) } else { self.towards(by) };
        match shorter {
            Shorter::AsDrawn(_) => format!(
                "{so_far} reichen, wenn alles genau so steht wie gezeichnet; der Rest gleicht aus, wie genau die Lagen bekannt sind."
            ),
            Shorter::ThisAlone(_) => {
                format!("{so_far} reichen für diesen Befund allein; der Rest hält Abstand von anderem.")
            }
        }
    }

    /// One thing to do, in the infinitive, without capital and full stop: "„Wagen“ 300 mm in Fahrtrichtung nach rechts schieben".
    pub fn step(&self, step: &Step) -> String {
        match step {
            Step::MoveThing { thing, by } => {
                let towards = self.towards(*by);
                match self.kind(thing) {
                    // It does not go straight: so far goes its middle.
                    Some(ThingKind::LiftArm) => {
                        format!("{} um die Hubsäule schwenken, die Mitte {towards}", the(thing))
                    }
                    _ => format!("{} {towards} {}", the(thing), self.moves(thing, "schieben")),
                }
            }
            Step::TurnThing { thing, by_rad } => {
                let way = if *by_rad > 0.0 { "gegen den Uhrzeigersinn" } else { "im Uhrzeigersinn" };
                let by = self.locale.region.degrees(by_rad.abs());
                format!("{} um {by} {way} drehen, von oben gesehen", the(thing))
            }
            Step::TakeAway { thing } => self.leaves(thing),
            Step::MoveCar { by } => format!("Fahrzeug {} stellen", self.towards(*by)),
            Step::StandOnMark { placement } => {
                let target = self.alone(&Subject::Stand(placement.clone()));
                match self.meant_height(placement) {
                    Some(height) => format!(
                        "{target} wieder auf die Marke stellen, rechtwinklig und lotrecht, die Mitte {} über dem Boden{}",
                        self.length(height),
                        self.by_which_point(placement)
                    ),
                    None => format!("{target} wieder auf die Marke legen, rechtwinklig"),
                }
            }
            Step::KeepEmpty { bay } => format!("{} bei der Einstellung leer halten", the(bay)),
            Step::KeepShut { door } => self.keep_shut(door),
            Step::OpenDoor { door } => format!("{} öffnen", the(door)),
            Step::Tape { thing } if self.is_taped(thing) && self.is_fixed(thing) => {
                format!("{} genauer einmessen als bisher", the(thing))
            }
            Step::Tape { thing } if self.is_taped(thing) => {
                format!("{} etwas weiter wegstellen oder genauer einmessen als bisher", the(thing))
            }
            Step::Tape { thing } => format!("Lage von {} mit dem Bandmaß messen und eintragen", the(thing)),
            Step::TapeCar => {
                "drei Abstände von den Wänden zu den Rädern messen und „eingemessen“ angeben".to_owned()
            }
            Step::SurveyFloor => "Boden aufmessen und die Höhen eintragen".to_owned(),
            Step::EnterFigures => "Werte des Fahrzeugherstellers eintragen".to_owned(),
            Step::EnterAlignment => "Werte aus dem Protokoll der Achsvermessung eintragen".to_owned(),
            Step::SayHeightsFrom => {
                "in der Anleitung nachsehen und eintragen, von welcher der beiden Ebenen ihre Höhen zählen"
                    .to_owned()
            }
            Step::MeasureOnCar(OnCar::Arch(_)) => {
                "von jeder Radmitte hinauf zum Radlauf messen und eintragen".to_owned()
            }
            Step::MeasureOnCar(OnCar::Sensor) => {
                "Höhe des Sensors an diesem Fahrzeug messen und eintragen".to_owned()
            }
            Step::EnterZones => "Freiräume der Anleitung eintragen, oder dass sie keinen nennt".to_owned(),
            Step::ReviewProfile => "Profil noch einmal ansehen und den Messplatz damit speichern".to_owned(),
        }
    }

    /// The verb of a thing that is moved; `plainly` is that of most things.
    fn moves(&self, thing: &Id, plainly: &'static str) -> &'static str {
        match self.kind(thing) {
            Some(ThingKind::LiftArm) => "schwenken",
            Some(ThingKind::ParkedCar) => "fahren",
            Some(ThingKind::Person) => "gehen lassen",
            _ => plainly,
        }
    }

    fn leaves(&self, thing: &Id) -> String {
        match self.kind(thing) {
            Some(ThingKind::Person) => format!("{} bitten, vom Messplatz zu gehen", the(thing)),
            Some(ThingKind::ParkedCar) => format!("{} vom Messplatz fahren", the(thing)),
            _ => format!("{} vom Messplatz räumen", the(thing)),
        }
    }

    /// ", 60 mm über der Unterkante des Sensors": by which edge or line of the sensor a target is set, where it is by one.
    fn by_which_point(&self, placement: &Id) -> String {
        let own = self.arrangement.aiming.placements.iter().find(|own| own.id == *placement);
        let Some(TargetHeight::FromSensor { point, offset_mm }) = own.map(|own| own.height) else {
            return String::new();
        };
        let of = match point {
            SensorPoint::Centre => return String::new(),
            SensorPoint::LowerEdge => "der Unterkante des Sensors",
            SensorPoint::UpperEdge => "der Oberkante des Sensors",
            SensorPoint::Line => "der Linie am Sensor",
        };
        let by = self.length(offset_mm.abs());
        if by == self.length(0.0) {
            return format!(", auf Höhe {of}");
        }
        format!(", {by} {} {of}", if offset_mm < 0.0 { "unter" } else { "über" })
    }

    /// What a cure would cause: "Dann Vorsicht: „Säule“ ist im Freiraum „vorn“."
    fn instead(&self, cure: &Cure) -> Option<String> {
        let told: Vec<&Finding> = cure.causes.iter().collect();
        let first = told.iter().min_by_key(|caused| caused.severity)?;
        let what = self.within_sentence(first);
        let more = told.iter().filter(|caused| caused.severity == first.severity).count() - 1;
        let more = match more {
            0 => String::new(),
            1 => ", und ein weiterer Punkt".to_owned(),
            n => format!(", und {n} weitere Punkte"),
        };
        let but = match first.severity {
            Severity::Stops => "Das verhindert dann aber die Einstellung",
            Severity::Care | Severity::Note => "Dann Vorsicht",
        };
        Some(format!("{but}: {what}{more}."))
    }

    /// Several things to do, in one line: "„Wagen“ und „Schrank“ verschieben".
    pub fn steps(&self, steps: &[Step]) -> String {
        let mut verbs: Vec<(&str, Vec<String>)> = Vec::new();
        for step in steps {
            let (verb, what) = match step {
                Step::MoveThing { thing, .. } => (self.moves(thing, "verschieben"), the(thing)),
                Step::TakeAway { thing }
                    if !matches!(self.kind(thing), Some(ThingKind::Person | ThingKind::ParkedCar)) =>
                {
                    ("wegräumen", the(thing))
                }
                Step::OpenDoor { door } => ("öffnen", the(door)),
                other => ("", self.step(other)),
            };
            match verbs.iter_mut().find(|(known, _)| *known == verb) {
                Some((_, whats)) if !whats.contains(&what) => whats.push(what),
                Some(_) => {}
                None => verbs.push((verb, vec![what])),
            }
        }
        let parts: Vec<String> = verbs
            .into_iter()
            .map(|(verb, whats)| format!("{} {verb}", listed(&whats)).trim().to_owned())
            .collect();
        // What has a comma of its own is not told from the next by one.
        if parts.iter().any(|part| part.contains(", ")) { parts.join("; ") } else { listed(&parts) }
    }
}
