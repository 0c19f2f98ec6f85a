//! What a sheet is made from.

use baywright_planner::Assessment;
use baywright_planner::model::{Arrangement, ShopFace};
use baywright_planner::words::letter;

use crate::view::ViewState;

/// A set-up and what is said of it.
#[derive(Clone, Copy, Debug)]
pub struct Answered<'a> {
    /// The set-up.
    pub arrangement: &'a Arrangement,
    /// What is said of it.
    pub assessment: &'a Assessment,
    /// What it is called beside another one: "As opened".
    pub name: &'a str,
}

/// What a sheet is made from: the same as the screen shows.
#[derive(Clone, Copy, Debug)]
pub struct Of<'a> {
    /// As it is.
    pub now: Answered<'a>,
    /// As it was, where that is to be told.
    pub before: Option<Answered<'a>>,
    /// The letters by which findings go on the screen.
    pub state: &'a ViewState,
    /// What the shop says of itself to customers.
    pub face: &'a ShopFace,
}

impl Of<'_> {
    /// The letter of a finding: the screen's where it has one, else by how it is counted.
    pub(super) fn letter_of(&self, index: usize, counted: usize) -> String {
        letter(self.state.numbers.get(index).copied().flatten().unwrap_or(counted))
    }
}
