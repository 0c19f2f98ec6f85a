//! Ten thousand virtual aims, in words.

use super::Words;
use crate::echoes::virtual_aims::{Aimed, NoAims, Why};

texts! {
    aims: AimsTexts, "Every fixed text about virtual aims.";
    press, "Has them drawn.";
    press_why, "What that tells.";
    causes, "Over the bars: what each is.";
    stopped, "They were stopped before the last.";
    rests_on, "What they rest on, and who decides.";
}

impl AimsTexts {
    sentences! { aims:
        /// So many of so many are drawn.
        drawn(done: &str, all: &str) -> String;
        /// Why there is nothing to draw.
        none(why: NoAims) -> &'static str;
    }
}

/// What counts for less than this share is not named beside the first.
pub(super) const NAMED_FROM: f64 = 0.05;
/// All aims together are off by less than this, radians: not worth a word.
pub(super) const OFF_FROM_RAD: f64 = 1e-5;

impl Words<'_> {
    sentences! { about:
        /// Within how much they lie, and how much is allowed.
        aims_lie(aimed: &Aimed) -> String;
        /// What most of it comes from, and what next; what is worth fixing, if more is out than is allowed.
        aims_come_from(aimed: &Aimed) -> String;
        /// What shifts all of them; empty if nothing does.
        aims_are_off(aimed: &Aimed) -> String;
        /// What they are without; empty if nothing is left out.
        aims_leave_out(aimed: &Aimed) -> String;
        /// A cause, as a heading.
        why_off(why: &Why) -> String;
        /// A share, rounded.
        aims_share(share: f64) -> String;
    }
}

#[cfg(test)]
mod tests;
