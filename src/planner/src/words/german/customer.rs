//! German of the same: see `words/customer.rs`.

use super::echoes::as_much;
use super::{About, Language, sentence_start};
use crate::assessment::{Assessment, Facts, Finding, InSight, Severity, Subject, TooLarge, Verdict};
use crate::customer::{
    After, Asked, AskedZone, Idea, MOST_NAMED, Moves, SendsBack, Sense, Stands, Work, WorkPart,
};
use crate::model::{Exclusion, Provenance, WorkStep};
use crate::words::customer::CustomerTexts;
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: CustomerTexts = CustomerTexts {
    language: Language::German,
    show: "Für Kunden",
    show_why: "Einige große Seiten, die sagen, was diese Arbeit braucht (F5)",
    page: "Seite für Kunden",
    back: "Zurück",
    next: "Weiter",
    leave: "Verlassen",
    keys: "Pfeiltasten blättern, Esc verlässt die Seite.",
    face: "Was Kunden sehen",
    face_about: "Steht auf der Seite für Kunden. Was leer bleibt, wird nicht gesagt. Wie lange ein Schritt dauert, legt die Werkstatt fest.",
    name: "Name der Werkstatt",
    picture: "Bild, eine Datei",
    picture_hint: "ihr Name neben der Datei der Werkstatt, oder wo sie liegt",
    minutes_hint: "Minuten",
    own_picture: "Das Bild der Werkstatt",
    made_up: "Manche Zahlen sind hier erfunden, um zu zeigen, wie es geht.",
    sent_back: "Zwei Scheiben zeigen, wie viel das Ziel und ein Ding hier zurückwerfen.",
    sent_back_over: "so viel kommt zurück",
    our_part: "Wir sorgen für den Platz. Den Rest gibt der Hersteller vor.",
    older: "So war es vor dem letzten Schritt.",
};

pub fn screen_of(at: usize, all: usize) -> String {
    format!("{at} von {all}")
}

pub const fn minutes_of(step: WorkStep) -> &'static str {
    match step {
        WorkStep::Clear => "Boden räumen, Minuten",
        WorkStep::Park => "Fahrzeug abstellen, Minuten",
        WorkStep::Lay => "Marken legen, Minuten",
        WorkStep::Stand => "Ziel aufstellen, Minuten",
        WorkStep::Aim => "Einstellen, Minuten",
        WorkStep::PutBack => "Zurückstellen, Minuten",
    }
}

pub const fn why_step(step: WorkStep) -> &'static str {
    match step {
        WorkStep::Clear => "So sieht der Sensor nur sein Ziel.",
        WorkStep::Park => "Alles wird vom Wagen aus gemessen.",
        WorkStep::Lay => "Sie zeigen, wo das Ziel stehen muss.",
        WorkStep::Stand => "Nach ihm wird der Sensor gestellt.",
        WorkStep::Aim => "Wie das geht, sagt der Hersteller.",
        WorkStep::PutBack => "Dann ist der Platz wieder frei.",
    }
}

pub fn no_minutes(text: &str) -> String {
    format!("„{}“ ist keine Zahl von Minuten.", cut(text))
}

pub const fn why_picture(sense: Sense) -> &'static str {
    match sense {
        Sense::Radar => {
            "Wellen gehen vom Radar aus und kommen vom Ziel und von einem Rollwagen aus Stahl zurück."
        }
        Sense::LaserLight => "Licht geht vom Sensor aus und kommt von einem Rollwagen vor dem Ziel zurück.",
        Sense::Picture => "Ein Rollwagen steht vor der Kamera und verdeckt einen Teil der Tafel.",
    }
}

pub const fn why_names(sense: Sense) -> (&'static str, (&'static str, &'static str)) {
    match sense {
        Sense::Radar => ("Radar", ("Ziel", "Rollwagen")),
        Sense::LaserLight => ("Sensor", ("Ziel", "Rollwagen")),
        Sense::Picture => ("Kamera", ("Tafel", "Rollwagen")),
    }
}

fn are(count: usize, one: &str, more: &str) -> String {
    if count == 1 { one.to_owned() } else { format!("{count} {more}") }
}

impl About<'_> {
    /// The idea, in one sentence.
    pub fn idea(&self, idea: &Idea) -> String {
        match idea {
            Idea::OnlyTarget if self.arrangement.aiming.placements.len() > 1 => {
                "Der Sensor darf nur diese Ziele sehen."
            }
            Idea::OnlyTarget => "Der Sensor darf nur dieses Ziel sehen.",
            Idea::Why(Sense::Radar) => {
                "Stahl wirft Radarwellen zurück, darum kann ein Rollwagen wie ein zweites Ziel wirken."
            }
            Idea::Why(Sense::LaserLight) => "Ein Rollwagen im Weg wirft das Licht zu früh zurück.",
            Idea::Why(Sense::Picture) => {
                "Ein Rollwagen vor der Tafel verdeckt einen Teil davon, wie eine Hand vor dem Auge."
            }
            Idea::SendsBack(_) => "Der Sensor sucht ein kleines Ziel, und auch das hier wirft Wellen zurück.",
            Idea::EmptyFloor(asked) if asked.zones.is_empty() => {
                "Für diese Arbeit muss kein Boden frei sein."
            }
            Idea::EmptyFloor(_) => match self.arrangement.aiming.provenance {
                Provenance::Maker { .. } => "So viel freien Boden verlangt der Hersteller.",
                _ => "So viel freien Boden braucht diese Arbeit.",
            },
            Idea::StandsIn(Stands { findings, .. }) if findings.is_empty() => "Heute steht nichts im Weg.",
            Idea::StandsIn(Stands { in_zone: true, .. }) => "Das steht heute darin.",
            Idea::StandsIn(_) => "Das ist heute im Weg.",
            Idea::Moves(Moves::Nothing) => "Wir müssen nichts wegräumen.",
            Idea::Moves(Moves::NotKnown) => "Wie der Platz frei wird, wissen wir noch nicht.",
            Idea::Moves(Moves::Known(_)) => "Das stellen wir um, und so sieht es dann aus.",
            Idea::Work(_) => "Das geht nicht am Computer: Es braucht Hände, Platz, Maßband und Zeit.",
        }
        .to_owned()
    }

    /// What else is told with it, a sentence each.
    pub fn idea_lines(&self, idea: &Idea, assessment: &Assessment) -> Vec<String> {
        match idea {
            Idea::OnlyTarget => vec![
                match crate::customer::sense(&self.arrangement.sensor.kind) {
                    Sense::Radar => "Er sendet Radarwellen aus und wartet, was davon zurückkommt.",
                    Sense::LaserLight => "Er sendet Licht aus und wartet, was davon zurückkommt.",
                    Sense::Picture => "Er ist eine Kamera, und das muss sie sehen.",
                }
                .to_owned(),
            ],
            Idea::Why(_) => Vec::new(),
            Idea::SendsBack(own) => self.sends_back(own),
            Idea::EmptyFloor(asked) => self.asked_for(asked),
            Idea::StandsIn(stands) => self.in_the_way(stands, assessment),
            Idea::Moves(Moves::Known(after)) => self.moved(after),
            Idea::Moves(Moves::Nothing | Moves::NotKnown) => Vec::new(),
            Idea::Work(work) => self.work(work),
        }
    }

    fn sends_back(&self, own: &SendsBack) -> Vec<String> {
        let thing = sentence_start(&self.subject(&Subject::Thing(own.thing.clone())));
        vec![
            format!("{thing} wirft hier {} zurück.", as_much(own.level_db)),
            "So kann der Sensor sein Ziel verfehlen.".to_owned(),
            "Das gilt für glatte Formen. Echte werfen mehr oder weniger zurück.".to_owned(),
        ]
    }

    fn asked_for(&self, asked: &Asked) -> Vec<String> {
        let zone = |zone: &AskedZone| {
            let nothing = match zone.excludes {
                Exclusion::Anything => "nichts sein",
                Exclusion::Metal => "kein Metall sein",
                Exclusion::Reflecting(_) => "nichts sein, was Wellen zurückwirft",
                Exclusion::People => "niemand sein",
                Exclusion::Light => "keine Lampe und kein Licht sein",
            };
            let (length, width) = (self.length(zone.length_mm), self.length(zone.width_mm));
            format!("In einem Feld, {length} lang und {width} breit, darf {nothing}.")
        };
        let mut lines: Vec<String> = asked.zones.iter().take(MOST_NAMED).map(zone).collect();
        lines.extend(and_more(asked.zones.len()));
        if asked.is_assumed {
            lines
                .push("Ein Teil dieser Größe stammt aus ähnlichen Arbeiten, nicht aus dem Blatt.".to_owned());
        }
        lines
    }

    fn in_the_way(&self, stands: &Stands, assessment: &Assessment) -> Vec<String> {
        let told = stands.findings.iter().filter_map(|&at| assessment.findings.get(at));
        let mut lines: Vec<String> = told.take(MOST_NAMED).map(|finding| self.plainly(finding)).collect();
        lines.extend(and_more(stands.findings.len()));
        lines.extend(care("", stands.care));
        lines
    }

    /// What stops the aiming, as a layman says it.
    fn plainly(&self, finding: &Finding) -> String {
        let first = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
        let second = finding.subjects.get(1).map_or_else(String::new, |own| self.subject(own));
        let said = match (&finding.facts, finding.subjects.first()) {
            (Facts::ZoneObject(_), Some(Subject::Thing(_))) => {
                format!("{first} steht, wo der Boden frei sein muss")
            }
            (Facts::SightBlocked(InSight::Hides { .. } | InSight::Wall), _) => {
                let hidden = finding.subjects.get(1).map_or_else(String::new, |own| self.accusative(own));
                format!("{first} verdeckt zum Teil {hidden}")
            }
            (Facts::OutsideRoom { too_large: Some(TooLarge::Long { needs_mm, there_mm }), .. }, _) => {
                format!("der Raum ist um {} zu kurz", self.length(needs_mm - there_mm))
            }
            (Facts::OutsideRoom { too_large: Some(TooLarge::Wide { needs_mm, there_mm }), .. }, _) => {
                format!("der Raum ist um {} zu schmal", self.length(needs_mm - there_mm))
            }
            (Facts::CarClash(_) | Facts::StandClash(_), Some(Subject::Thing(_))) => {
                format!("{first} steht, wo {second} sein muss")
            }
            _ => self.within_sentence(finding),
        };
        format!("{}.", sentence_start(&said))
    }

    fn moved(&self, after: &After) -> Vec<String> {
        let step = |step| format!("{}.", sentence_start(&self.step(step)));
        let mut lines: Vec<String> = after.steps.iter().take(MOST_NAMED).map(step).collect();
        lines.extend(and_more(after.steps.len()));
        match after.assessment.verdict {
            Verdict::Ready => lines.push("Dann ist der Platz bereit.".to_owned()),
            Verdict::ReadyWithCare => {
                lines.push("Dann steht der Arbeit nichts im Weg.".to_owned());
                lines.extend(care("noch ", after.assessment.count(Severity::Care)));
            }
            Verdict::NotReady => lines.push("Dann ist noch mehr zu tun.".to_owned()),
        }
        lines
    }

    fn work(&self, work: &Work) -> Vec<String> {
        let minutes = |minutes: f64| {
            let places = usize::from(minutes != minutes.round());
            let number = self.locale.region.number(minutes, places);
            if minutes == 1.0 { format!("{number} Minute") } else { format!("{number} Minuten") }
        };
        let part = |part: &WorkPart| {
            let said = match part.step {
                WorkStep::Clear => {
                    format!(
                        "Wir räumen den Boden von Hand, in {}",
                        are(part.count, "einem Schritt", "Schritten")
                    )
                }
                WorkStep::Park => "Wir stellen das Fahrzeug an seinen Platz".to_owned(),
                WorkStep::Lay => {
                    format!(
                        "Mit Band und Schnur legen wir {} auf den Boden",
                        are(part.count, "eine Marke", "Marken")
                    )
                }
                WorkStep::Stand => format!("Wir stellen {} auf", are(part.count, "das Ziel", "Ziele")),
                WorkStep::Aim => "Dann wird der Sensor eingestellt, Schritt für Schritt".to_owned(),
                WorkStep::PutBack => "Am Ende stellen wir alles zurück".to_owned(),
            };
            part.minutes.map_or_else(|| format!("{said}."), |own| format!("{said}: {}.", minutes(own)))
        };
        let mut lines: Vec<String> = work.steps.iter().map(part).collect();
        lines.extend(work.minutes.map(|own| format!("In dieser Werkstatt dauert das {}.", minutes(own))));
        lines
    }
}

/// What is not named any more.
fn and_more(count: usize) -> Option<String> {
    match count.saturating_sub(MOST_NAMED) {
        0 => None,
        1 => Some("Und noch eine Sache.".to_owned()),
        more => Some(format!("Und noch {more} Dinge.")),
    }
}

/// How many things need care.
fn care(still: &str, count: usize) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("Eine Sache braucht {still}Vorsicht.")),
        count => Some(format!("{count} Dinge brauchen {still}Vorsicht.")),
    }
}
