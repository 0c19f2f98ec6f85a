//! Sheets of real paper, for who works without a screen: pages of a size that is bought, to a standard scale, with a title block.
//! Black ink on white paper ([`crate::Theme::Print`]); nothing is told by colour alone.
//!
//! A [`Sheet`] is one of the kinds; [`sheet`] makes its pages from the same arrangement, answer and letters as the screen.

mod about;
mod bar;
mod block;
mod findings;
mod flow;
mod frame;
mod head;
mod lines;
mod of;
mod paper;
mod plan;
mod scale;
mod table;

use baywright_planner::words::Words;

use crate::lettering::Lettering;
use crate::page::Page;
use frame::Sheeted;

pub use about::About;
pub use of::{Answered, Of};
pub use paper::{Paper, Size};
pub use scale::largest_scale;

/// Which sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sheet {
    /// What is found, before and now.
    Findings,
}

impl Sheet {
    /// All kinds, in the order in which they are bound together.
    pub const ALL: [Self; 1] = [Self::Findings];

    /// Its name for other programs and on the command line.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Findings => "findings",
        }
    }
}

/// The pages of a sheet.
pub fn sheet(kind: Sheet, of: &Of<'_>, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
    let words = Words::new(of.now.arrangement, lettering.locale);
    let texts = lettering.locale.language.sheets();
    let title = match kind {
        Sheet::Findings => texts.findings,
    };
    let on = Sheeted { paper, about, lettering, words: &words, title, is_blank: false };
    match kind {
        Sheet::Findings => findings::pages(of, &on),
    }
}
