//! From one bay of a hall to another.

use baywright_planner::Subject;
use baywright_planner::edit::set_up_in;
use baywright_planner::model::{HallBay, Id};

use crate::screen::Desk;

/// So many set-ups that were shown are remembered.
const MOST_SHOWN: usize = 500;

impl Desk {
    /// Makes a bay the one in hand: the set-up that was shown last of those made in it is shown; where there is none, the bay's
    /// form offers one.
    pub(super) fn show_bay(&mut self, bay: &Id) {
        let last = self.view.shown_before.iter().rev();
        let last = last.chain([self.document.shown()]).find(|id| self.made_in(bay).any(|own| own.id == **id));
        let shown = last.or_else(|| self.made_in(bay).next().map(|own| &own.id)).cloned();
        match shown {
            Some(shown) if shown != *self.document.shown() => self.show_set_up(&shown),
            Some(_) => {}
            None => {
                self.view.choose(Some(Subject::HallBay(bay.clone())));
                self.view.list_open = true;
            }
        }
    }

    /// Shows another set-up, and remembers which one was shown.
    pub(super) fn show_set_up(&mut self, arrangement: &Id) {
        let before = self.document.shown().clone();
        match self.document.show(arrangement) {
            Ok(()) => {
                self.view.shown_before.retain(|own| *own != before && own != arrangement);
                self.view.shown_before.push(before);
                if self.view.shown_before.len() > MOST_SHOWN {
                    self.view.shown_before.remove(0);
                }
                self.view.forget_what_was_there();
            }
            Err(shut) => {
                self.say_wrong(self.texts().not_shown(shut.arrangement.as_str(), &shut.fault, self.lengths()))
            }
        }
    }

    /// The car and aiming that are shown, set up anew in the middle of a bay.
    pub(super) fn set_up_in(&mut self, bay: &Id) {
        let Some(arrangement) = self.document.arrangement() else { return };
        let Some(own) = arrangement.bay.bays.iter().find(|own| own.id == *bay) else { return };
        let own: HallBay = own.clone();
        let all = &self.document.layout().arrangements;
        let taken = |name: &str| all.iter().any(|own| own.id.as_str() == name);
        let name = Id::free(&self.view.locale.language.rooms().set_up_of(bay.as_str()), " ", taken);
        self.view.shown_before.push(self.document.shown().clone());
        self.edit(&set_up_in(&arrangement, &own, name));
        self.view.forget_what_was_there();
        self.view.choose(Some(Subject::Car));
    }
}
