//! A length that can be read in two ways: both are offered, and nothing changes until one is chosen.

use baywright_planner::words::Language;
use egui::Ui;

use super::typed::{self, Length};
use crate::screen::{Desk, widgets};

/// Why a text was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::screen) enum NotRead {
    /// It says nothing that fits; a sentence says why.
    Wrong(String),
    /// It says one of two things.
    Which(Which),
}

/// One of two things, to be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::screen) struct Which {
    /// Both of them, as a question.
    pub question: String,
    readings: Box<[Reading; 2]>,
    language: Language,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Reading {
    /// As it is offered.
    said: String,
    /// As it would have been typed by someone who leaves no doubt.
    typed: String,
}

/// What was chosen.
pub(in crate::screen) struct Chosen {
    /// A text that says this and nothing else.
    pub typed: String,
    /// Whether by the keyboard, which has no place when the question goes.
    pub by_key: bool,
}

impl From<String> for NotRead {
    fn from(why: String) -> Self {
        Self::Wrong(why)
    }
}

impl Desk {
    /// A length as it was typed; without a unit it is in the one that is shown.
    pub(in crate::screen) fn read_length(&self, text: &str) -> Result<f64, NotRead> {
        let texts = self.texts();
        match typed::length(text, self.view.locale.units) {
            Some(Length::One(mm)) => Ok(mm),
            Some(Length::Two(lengths)) => {
                Err(self.asked(self.region().readings(lengths), lengths.map(typed::surely)))
            }
            Some(Length::Dash(lengths)) => {
                let said = lengths.map(|mm| self.view.locale.length(mm));
                let surely = |(mm, said): (f64, &String)| {
                    // A finer part of an inch than is shown is kept all the same.
                    let read = typed::length(said, self.view.locale.units);
                    let is_exact = matches!(read, Some(Length::One(read)) if (read - mm).abs() < 1e-6);
                    if is_exact { said.clone() } else { typed::surely(mm) }
                };
                let [feet, less] = lengths;
                let [of_feet, of_less] = &said;
                let typed = [surely((feet, of_feet)), surely((less, of_less))];
                Err(self.asked(said, typed))
            }
            None => Err(NotRead::Wrong(texts.no_length(text))),
        }
    }

    /// The question which of two lengths is meant, and how each would be typed by someone who leaves no doubt.
    fn asked(&self, said: [String; 2], typed: [String; 2]) -> NotRead {
        let [first, second] = &said;
        let question = self.texts().which(first, second);
        let ([first, second], [of_first, of_second]) = (said, typed);
        let readings = [(first, of_first), (second, of_second)];
        let readings = Box::new(readings.map(|(said, typed)| Reading { said, typed }));
        NotRead::Which(Which { question, readings, language: self.view.locale.language })
    }
}

impl Which {
    /// Asks, for the field of this name; what was chosen in this frame.
    pub fn ask(&self, ui: &mut Ui, field: &str) -> Option<Chosen> {
        let mut chosen = None;
        let texts = self.language.screen();
        ui.horizontal_wrapped(|ui| {
            ui.label(widgets::soft(ui, &self.question));
            for Reading { said, typed } in self.readings.iter() {
                let answer = widgets::lesser(ui, said).accessible_name(texts.of(said, field));
                if answer.clicked() {
                    chosen = Some(Chosen { typed: typed.clone(), by_key: answer.has_focus() });
                }
            }
        });
        chosen
    }
}
