//! What is done at the same time, in words.

use super::{About, listed};
use crate::assessment::AtOnce;
use crate::model::{Arrangement, Id};
use crate::words::matter::Matter;

impl About<'_> {
    /// The same words about another arrangement.
    fn about<'a>(&self, other: &'a Arrangement) -> About<'a> {
        About(Matter { arrangement: other, locale: self.locale })
    }

    pub(super) fn beside_title(&self, set_up: &Id, what: &AtOnce) -> String {
        match what {
            AtOnce::Stopped { with, found } => {
                let first =
                    found.first().map(|own| self.about(with).within_sentence(own)).unwrap_or_default();
                format!("gleichzeitig geht „{set_up}“ nicht: {first}")
            }
            AtOnce::Unknown => format!("was von „{set_up}“ gleichzeitig dort steht, ist nicht bekannt"),
            AtOnce::Differs(names) => {
                let names: Vec<String> = names.iter().map(|id| format!("„{id}“")).collect();
                format!("gleichzeitig ist in „{set_up}“ anders: {}", listed(&names))
            }
            AtOnce::NotReady => format!("gleichzeitig ist „{set_up}“ für sich nicht bereit"),
        }
    }

    pub(super) fn beside_measure(&self, what: &AtOnce) -> Option<String> {
        match what {
            AtOnce::Stopped { with, found } => self.about(with).measure(found.first()?),
            AtOnce::Unknown | AtOnce::Differs(_) | AtOnce::NotReady => None,
        }
    }

    pub(super) fn beside_detail(&self, what: &AtOnce) -> String {
        match what {
            AtOnce::Stopped { found, .. } => {
                let more = match found.len() {
                    0 | 1 => String::new(),
                    2 => " Noch etwas steht ihr im Weg.".to_owned(),
                    all => format!(" Noch {} Dinge stehen ihr im Weg.", all - 1),
                };
                format!("Eine der beiden anders aufstellen oder nacheinander einstellen.{more}")
            }
            AtOnce::Unknown => "Die Datei des Fahrzeugs fehlt oder passt nicht dazu.".to_owned(),
            AtOnce::Differs(_) => {
                "Beides zugleich geht nicht: in beiden Aufstellungen gleich machen.".to_owned()
            }
            AtOnce::NotReady => "Was dort im Weg ist, steht bei dieser Aufstellung.".to_owned(),
        }
    }
}
