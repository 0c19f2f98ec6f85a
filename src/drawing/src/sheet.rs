//! Sheets of real paper, for who works without a screen: pages of a size that is bought, to a standard scale, with a title block.
//! Black ink on white paper ([`crate::Theme::Print`]); nothing is told by colour alone.
//!
//! A [`Sheet`] is one of the kinds; [`sheet`] makes its pages from the same arrangement, answer and letters as the screen.

mod about;
mod bar;
mod blank;
mod block;
mod customer;
mod findings;
mod floor;
mod flow;
mod frame;
mod head;
mod lines;
mod marks;
mod of;
mod owner;
mod paper;
mod plan;
mod proof;
mod running;
mod scale;
mod table;
mod working;

use baywright_planner::words::{Language, Words};

use crate::lettering::Lettering;
use crate::page::Page;
use crate::view::Trade;
use frame::Sheeted;

pub use about::About;
pub use of::{Answered, Of};
pub use owner::{ChangesAsked, ReportOf, owner_report};
pub use paper::{Paper, Size};
pub use proof::{ProofOf, proof_file};
pub use scale::largest_scale;

/// Which sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sheet {
    /// How the marks are laid and read.
    Marks,
    /// The same, to be filled in by hand: nothing of a set-up stands on it.
    Blank,
    /// What is found, before and now.
    Findings,
    /// What a customer is told.
    Customer,
    /// The bay for who paints its floor.
    Floor,
    /// The bay for who pours or levels its floor.
    Concrete,
    /// The bay for who wires it.
    Electric,
}

impl Sheet {
    /// All kinds, in the order in which they are bound together.
    pub const ALL: [Self; 7] = [
        Self::Marks,
        Self::Blank,
        Self::Findings,
        Self::Customer,
        Self::Floor,
        Self::Concrete,
        Self::Electric,
    ];

    /// Its name on the paper.
    pub fn title(self, language: Language) -> &'static str {
        let (texts, plans) = (language.sheets(), language.floor_sheets());
        match self {
            Self::Marks => texts.marks,
            Self::Blank => texts.blank,
            Self::Findings => texts.findings,
            Self::Customer => texts.customer,
            Self::Floor => plans.paint,
            Self::Concrete => plans.concrete,
            Self::Electric => plans.electric,
        }
    }

    /// Its name for other programs and on the command line.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Marks => "marks",
            Self::Blank => "blank",
            Self::Findings => "findings",
            Self::Customer => "customer",
            Self::Floor => "floor",
            Self::Concrete => "concrete",
            Self::Electric => "electric",
        }
    }
}

/// The pages of a sheet.
pub fn sheet(kind: Sheet, of: &Of<'_>, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
    let lettering = &Lettering {
        least_text: Lettering::LEAST_TEXT * lettering.enlarged() * paper.letters(),
        ..*lettering
    };
    let words = Words::new(of.now.arrangement, lettering.locale);
    let title = kind.title(lettering.locale.language);
    let on = Sheeted { paper, about, lettering, words: &words, title, is_blank: kind == Sheet::Blank };
    match kind {
        Sheet::Marks => marks::pages(of, &on),
        Sheet::Blank => blank::pages(&on),
        Sheet::Findings => findings::pages(of, &on),
        Sheet::Customer => customer::pages(of, &on),
        Sheet::Floor => floor::pages(of, &on, Trade::Paint),
        Sheet::Concrete => floor::pages(of, &on, Trade::Concrete),
        Sheet::Electric => floor::pages(of, &on, Trade::Electric),
    }
}
