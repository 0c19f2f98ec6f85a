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
                format!("this stops “{set_up}”, done at the same time: {first}")
            }
            AtOnce::Unknown => format!("what stands of “{set_up}” at the same time is not known"),
            AtOnce::Differs(names) => {
                let names: Vec<String> = names.iter().map(|id| format!("“{id}”")).collect();
                let are = if names.len() == 1 { "is" } else { "are" };
                format!("in “{set_up}”, done at the same time, {} {are} not the same", listed(&names))
            }
            AtOnce::NotReady => format!("at the same time “{set_up}” is not ready by itself"),
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
                    2 => " One more thing stops it too.".to_owned(),
                    all => format!(" {} more things stop it too.", all - 1),
                };
                format!("Set up one of the two elsewhere, or aim one after the other.{more}")
            }
            AtOnce::Unknown => "The file of its car is not here, or does not go with it.".to_owned(),
            AtOnce::Differs(_) => "It cannot be both at once: make it the same in both set-ups.".to_owned(),
            AtOnce::NotReady => "What stops it is told in that set-up.".to_owned(),
        }
    }
}
