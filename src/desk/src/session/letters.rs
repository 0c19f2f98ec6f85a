//! By which letter a finding goes: while the hand moves something it keeps its own, whatever else comes and goes; as soon as nothing
//! is held the list reads A, B, C ... from the top, the same for the same state, on the screen, on paper and side by side.

use std::sync::Arc;

use baywright_drawing::flagged;
use baywright_planner::model::Id;
use baywright_planner::words::letter;
use baywright_planner::{Assessment, Code, Subject};

/// What makes a finding the same one: what is found, of what, and which of several such.
type Known = (Code, Vec<Subject>, usize);

/// The letters of the findings of an answer, as numbers from 1.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Letters {
    /// The bay and the set-up that they are of.
    of: Option<(Id, Id)>,
    known: Vec<(Known, usize)>,
    /// By position in the assessment's list; `None` for what has no letter.
    numbers: Arc<[Option<usize>]>,
}

impl Letters {
    /// Of another answer. While something is held what was found before keeps its letter, and what is new takes the first that is
    /// free; else, and in another bay or set-up, all begin anew.
    pub fn follow(&mut self, of: (&Id, &Id), assessment: &Assessment, is_held: bool) {
        let same = is_held && self.of.as_ref().is_some_and(|(bay, set_up)| (bay, set_up) == of);
        if !same {
            *self = Self { of: Some((of.0.clone(), of.1.clone())), ..Self::default() };
        }
        self.number(assessment);
    }

    /// Those of an answer that nothing is held in, read from A on, by position; empty for what has none.
    pub fn read(assessment: &Assessment) -> Vec<String> {
        let mut own = Self::default();
        own.number(assessment);
        (0..assessment.findings.len()).map(|index| own.letter(index).unwrap_or_default()).collect()
    }

    /// What is known keeps its number, and what is new takes the first that is free.
    fn number(&mut self, assessment: &Assessment) {
        let mut now: Vec<(Known, usize, Option<usize>)> = Vec::new();
        for told in flagged(assessment) {
            let (code, subjects) = (told.finding.code(), &told.finding.subjects);
            let nth = now.iter().filter(|((own, of, _), ..)| *own == code && of == subjects).count();
            let known = (code, subjects.clone(), nth);
            let kept = self.known.iter().find(|(own, _)| *own == known).map(|(_, number)| *number);
            now.push((known, told.index, kept));
        }
        let mut taken: Vec<bool> = vec![true];
        let take = |taken: &mut Vec<bool>, number: usize| {
            if taken.len() <= number {
                taken.resize(number + 1, false);
            }
            if let Some(own) = taken.get_mut(number) {
                *own = true;
            }
        };
        for number in now.iter().filter_map(|(.., kept)| *kept) {
            take(&mut taken, number);
        }
        let mut first = 1;
        self.known.clear();
        let mut numbers = vec![None; assessment.findings.len()];
        for (known, index, kept) in now {
            let number = kept.unwrap_or_else(|| {
                while taken.get(first).copied().unwrap_or(false) {
                    first += 1;
                }
                take(&mut taken, first);
                first
            });
            self.known.push((known, number));
            if let Some(own) = numbers.get_mut(index) {
                *own = Some(number);
            }
        }
        self.numbers = numbers.into();
    }

    /// All of them as numbers, by position.
    pub fn numbers(&self) -> Arc<[Option<usize>]> {
        Arc::clone(&self.numbers)
    }

    /// The letter of a finding, by position.
    pub fn letter(&self, index: usize) -> Option<String> {
        self.numbers.get(index).copied().flatten().map(letter)
    }
}
