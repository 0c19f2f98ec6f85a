//! What is found of the floor's levels, in words.

use super::names::before;
use super::off_place::off_by;
use super::{About, listed};
use crate::assessment::{Finding, FloorFact, Subject, Tilt};
use crate::ground::{KnownBy, LevelKnown};

impl About<'_> {
    /// What else to know about it; where it is not sure, how surely each level is known, and who says so.
    pub(super) fn floor_detail(&self, fact: FloorFact) -> String {
        let detail = detail(fact).to_owned();
        match LevelKnown::worst(self.arrangement).filter(|_| is_unsure(fact)) {
            Some(known) => {
                let within = self.locale.tenths(known.within_mm);
                let by = match known.by {
                    KnownBy::Survey => ", wie es ihre Vermessung sagt.",
                    KnownBy::Instrument(_) => ", wie in der Liste der Messgeräte.",
                    KnownBy::Assumed => ": angenommen, die Angabe des Betriebs.",
                };
                format!("{detail} Jede Höhe zählt mit ± {within}{by}")
            }
            None => detail,
        }
    }

    /// What is wrong, as it stands within a sentence.
    pub(super) fn floor_title(&self, fact: FloorFact, finding: &Finding) -> String {
        let runway = finding.subjects.first().filter(|own| matches!(own, Subject::Runway(_)));
        let of = runway.map_or_else(|| "des Bodens".to_owned(), |own| self.genitive(own));
        let what = runway.map_or_else(|| "der Boden".to_owned(), |own| self.subject(own));
        let places = |wheels: &str, said: &dyn Fn(&Subject) -> String| {
            let names = finding.subjects.iter().skip(1).map(|subject| match subject {
                Subject::Car => wheels.to_owned(),
                other => said(other),
            });
            listed(&names.collect::<Vec<_>>())
        };
        let there = || places("die Räder", &|own| self.subject(own));
        let at = || places("den Rädern", &|own| self.dative(own));
        match fact {
            FloorFact::Unknown => {
                let all: Vec<String> = finding.subjects.iter().map(|ground| self.subject(ground)).collect();
                let are = if all.len() == 1 { "ist" } else { "sind" };
                format!("{} {are} hier nicht aufgemessen", listed(&all))
            }
            FloorFact::Undated | FloorFact::NoToday | FloorFact::Future | FloorFact::OutOfDate => {
                self.survey_title(fact, finding)
            }
            FloorFact::NotCovered => format!("das Aufmaß {of} reicht nicht bis {}", before("zu", &at())),
            FloorFact::Between => format!("das Aufmaß {of} hat keinen Punkt nahe {}", at()),
            FloorFact::Uncertain => format!("die Höhe {of} ist nicht genau bekannt {}", before("bei", &at())),
            FloorFact::Uneven => format!("{what} ist nicht eben bei Rädern und Ziel"),
            FloorFact::Astride => format!("über einer Stufe: {}", there()),
            FloorFact::MaybeUneven => format!("{what} ist vielleicht nicht eben bei Rädern und Ziel"),
            FloorFact::Tilted(tilt) => format!("das Fahrzeug steht schief, {}", tilted(tilt)),
            FloorFact::MaybeTilted(tilt) => format!("das Fahrzeug steht vielleicht schief, {}", tilted(tilt)),
            FloorFact::TargetOff { high } => format!("{} stünde {} zum Fahrzeug", there(), too(high)),
            FloorFact::TargetMaybeOff { high } => {
                format!("{} steht vielleicht {} zum Fahrzeug", there(), too(high))
            }
            FloorFact::MatOff { high } => format!("{} läge {} zum Fahrzeug", there(), too(high)),
            FloorFact::MatMaybeOff { high } => {
                format!("{} liegt vielleicht {} zum Fahrzeug", there(), too(high))
            }
            FloorFact::PlumbOff(_) => format!("{} stünde lotrecht, aber schief zum Fahrzeug", there()),
            FloorFact::PlumbMaybeOff(_) => {
                format!("{} steht vielleicht lotrecht, aber schief zum Fahrzeug", there())
            }
        }
    }

    /// What is wrong with the age of a survey, or of several.
    fn survey_title(&self, fact: FloorFact, finding: &Finding) -> String {
        let all: Vec<String> = finding.subjects.iter().map(|ground| self.genitive(ground)).collect();
        let of = listed(&all);
        match fact {
            FloorFact::Undated => format!("das Aufmaß {of} hat kein Datum"),
            FloorFact::NoToday => format!("wie alt das Aufmaß {of} ist, lässt sich nicht sagen"),
            FloorFact::Future => format!("das Aufmaß {of} trägt ein Datum in der Zukunft"),
            _ => format!("das Aufmaß {of} ist veraltet"),
        }
    }
}

const fn too(high: bool) -> &'static str {
    if high { "zu hoch" } else { "zu tief" }
}

/// Whether it is what is uncertain of levels that makes it one.
const fn is_unsure(fact: FloorFact) -> bool {
    matches!(
        fact,
        FloorFact::Uncertain
            | FloorFact::MaybeUneven
            | FloorFact::MaybeTilted(_)
            | FloorFact::TargetMaybeOff { .. }
            | FloorFact::MatMaybeOff { .. }
            | FloorFact::PlumbMaybeOff(_)
    )
}

const fn tilted(tilt: Tilt) -> &'static str {
    match tilt {
        Tilt::NoseDown => "vorn tiefer",
        Tilt::NoseUp => "vorn höher",
        Tilt::LeftUp => "links höher",
        Tilt::RightUp => "rechts höher",
    }
}

/// The number against its limit.
pub(super) fn measure(fact: FloorFact, value: &str, limit: &str) -> String {
    match fact {
        FloorFact::OutOfDate => format!("{value} alt, Grenze {limit}"),
        FloorFact::Between => format!("{value} bis zum nächsten, nötig {limit}"),
        FloorFact::Uncertain => format!("bekannt auf ± {value}, Grenze {limit}"),
        FloorFact::MaybeUneven => {
            format!("bis zu {value} zwischen höchstem und tiefstem Punkt, Grenze {limit}")
        }
        FloorFact::Tilted(_) => format!("um {value}, Grenze {limit}"),
        FloorFact::MaybeTilted(_) => format!("um bis zu {value}, Grenze {limit}"),
        FloorFact::PlumbOff(about) => format!("{value} {}, Grenze {limit}", off_by(about)),
        FloorFact::PlumbMaybeOff(about) => format!("bis zu {value} {}, Grenze {limit}", off_by(about)),
        FloorFact::TargetOff { .. } | FloorFact::MatOff { .. } => {
            format!("{value} neben der Ebene der Räder, Grenze {limit}")
        }
        FloorFact::TargetMaybeOff { .. } | FloorFact::MatMaybeOff { .. } => {
            format!("bis zu {value} neben der Ebene der Räder, Grenze {limit}")
        }
        FloorFact::Unknown
        | FloorFact::Undated
        | FloorFact::NoToday
        | FloorFact::Future
        | FloorFact::NotCovered
        | FloorFact::Astride
        | FloorFact::Uneven => format!("{value} zwischen höchstem und tiefstem Punkt, Grenze {limit}"),
    }
}

/// What else to know about it.
const fn detail(fact: FloorFact) -> &'static str {
    match fact {
        FloorFact::Unknown => "Die Höhen bei Rädern und Ziel sind nicht bekannt.",
        FloorFact::Undated => "Niemand kann sagen, wie alt es ist.",
        FloorFact::NoToday => "Es hat ein Datum, aber der heutige Tag ist nicht bekannt.",
        FloorFact::Future => "Das Datum muss falsch sein.",
        FloorFact::OutOfDate => "Böden setzen sich, und Fugen heben sich.",
        FloorFact::NotCovered => "Jenseits der aufgemessenen Punkte ist nichts bekannt.",
        FloorFact::Between => "Zwischen weiter entfernten Punkten kann der Boden beliebig verlaufen.",
        FloorFact::Uncertain => "Der Boden ist dort stark gewölbt für so weit entfernte Punkte.",
        FloorFact::Uneven => {
            "Die Einstellung braucht dort einen ebeneren Boden: auf einem ebeneren Teil aufstellen oder den Boden ausgleichen lassen."
        }
        FloorFact::Astride => {
            "Diese Einstellung verlangt nichts vom Boden, aber darauf steht kein Ständer gerade."
        }
        FloorFact::MaybeUneven => {
            "Zwischen den Punkten kann sich der Boden wölben wie ringsum, und das Fahrzeug steht vielleicht etwas anders."
        }
        FloorFact::Tilted(_) => "Gemeint ist die Ebene der Räder auf dem aufgemessenen Boden.",
        FloorFact::MaybeTilted(_) => {
            "Gemeint ist die Ebene der Räder mit dem, was an den Höhen unsicher ist."
        }
        FloorFact::PlumbOff(_) => {
            "Die Ebene der Räder ist dort geneigt, und die Einstellung sagt, was aufrecht heißt: nach dem Lot. Auf einem ebeneren \
             Teil aufstellen oder klären, ob die Anleitung die Ebene der Räder meint."
        }
        FloorFact::PlumbMaybeOff(_) => {
            "So weit kann die Ebene der Räder geneigt sein, mit dem, was an den Höhen unsicher ist."
        }
        FloorFact::MatOff { .. } => {
            "Die Matte liegt wie ihr Boden: auf einem ebeneren Teil aufstellen oder den Boden ausgleichen lassen."
        }
        FloorFact::TargetMaybeOff { .. } | FloorFact::MatMaybeOff { .. } => {
            "Genauer ist die Ebene der Räder, bis dorthin verlängert, nicht bekannt."
        }
        FloorFact::TargetOff { high: true } => {
            "Der Boden liegt dort höher als die Ebene der Räder: Eine Höhe, die von diesem Boden gemessen wird, ist um so viel falsch. Die einzustellende Höhe, die danach geht, was die Anleitung aufrecht nennt, berücksichtigt es."
        }
        FloorFact::TargetOff { high: false } => {
            "Der Boden liegt dort tiefer als die Ebene der Räder: Eine Höhe, die von diesem Boden gemessen wird, ist um so viel falsch. Die einzustellende Höhe, die danach geht, was die Anleitung aufrecht nennt, berücksichtigt es."
        }
    }
}

/// What a survey is to be for it: of a floor that was surveyed, and lately, it is not said to be surveyed.
pub(super) const fn survey(fact: FloorFact) -> &'static str {
    match fact {
        FloorFact::Unknown => "Boden aufmessen und die Höhen eintragen",
        FloorFact::Undated | FloorFact::Future => "Tag des Aufmaßes eintragen oder den Boden neu aufmessen",
        FloorFact::NoToday | FloorFact::OutOfDate => "Boden neu aufmessen und die Höhen eintragen",
        FloorFact::NotCovered => "Boden bis dorthin aufmessen und die Höhen eintragen",
        FloorFact::Between
        | FloorFact::Uncertain
        | FloorFact::Uneven
        | FloorFact::MaybeUneven
        | FloorFact::Astride
        | FloorFact::Tilted(_)
        | FloorFact::MaybeTilted(_)
        | FloorFact::TargetOff { .. }
        | FloorFact::TargetMaybeOff { .. }
        | FloorFact::MatOff { .. }
        | FloorFact::MatMaybeOff { .. }
        | FloorFact::PlumbOff(_)
        | FloorFact::PlumbMaybeOff(_) => "Dort mehr Punkte aufmessen und die Höhen eintragen",
    }
}
