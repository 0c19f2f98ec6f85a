//! Levels of the floor, or of a runway's top, out of a file: all of it or nothing.

use std::path::Path;

use baywright_files::read_levels;
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::model::validate::limits;
use baywright_planner::model::{FloorSurvey, Id, LevelsTaken};

use crate::screen::Desk;
use crate::screen::forms::room::{levels_of, permanent_marks, source_of_levels};

impl Desk {
    /// Leads to where the floor's levels are entered.
    pub(super) fn lead_to_levels(&mut self) {
        self.view.choose(Some(Subject::Floor));
        self.view.list_open = true;
        self.fields.lead_to(self.view.locale.language.rooms().levels, "levels");
        self.say(self.texts().enter_levels);
    }

    /// A table out of a file with the name that it goes by; what cannot be read is said.
    pub(super) fn read_table(&mut self, path: &Path) -> Option<(String, String)> {
        match read_levels(path) {
            Ok(read) => Some(read),
            Err(fault) => {
                let said = self.view.locale.language.file_fault(&fault);
                self.say_wrong(said);
                None
            }
        }
    }

    /// Takes the place of the levels that are there. The file does not say when they were taken: until that is entered they are of
    /// no known age.
    pub(super) fn take_levels(&mut self, of: Option<&Id>, path: &Path) {
        let hand = self.view.locale.language.hand();
        let units = self.view.locale.units;
        let Some((file, text)) = self.read_table(path) else { return };
        let mut bay = self.document.bay().into_owned();
        let marks = permanent_marks(&bay);
        let points = match levels_of(&text, &marks, units, |_| None) {
            Ok(points) => points,
            Err(bad) => {
                self.say_wrong(hand.bad_level_in(&file, bad.number, bad.line, bad.what, units));
                return;
            }
        };
        if points.len() > limits::MOST_THINGS {
            self.say_wrong(hand.too_many_levels(&file, points.len(), limits::MOST_THINGS));
            return;
        }
        let count = points.len();
        if count == 0 {
            self.say_wrong(hand.no_levels_in(&file, units));
            return;
        }
        let survey = match of {
            None => &mut bay.survey,
            Some(id) => match bay.runways.iter_mut().find(|own| own.id == *id) {
                Some(runway) => &mut runway.survey,
                // It was removed while the system's window was open.
                None => {
                    let said = self.texts().no_such(id);
                    self.say_wrong(said);
                    return;
                }
            },
        };
        let before = survey.take();
        let provenance = before.map_or_else(|| source_of_levels(self), |own| own.provenance);
        *survey =
            Some(FloorSurvey { points: points.into(), taken: None, how: LevelsTaken::default(), provenance });
        let done = self.document.edit(&Edit::Bay { bay: Box::new(bay), renamed: None });
        let is_done = done.is_ok();
        self.say_refused(done);
        if is_done {
            self.say(hand.levels_read(&file, count));
        }
    }
}
