//! A car that is being entered or changed: it stands in the bay in place of the chosen one until it is kept or dropped.

use std::path::PathBuf;
use std::sync::Arc;

use baywright_files::DiskMark;
use baywright_planner::entry::{CarDeed, plausible};
use baywright_planner::model::fault::Found;
use baywright_planner::model::validate::Fault;
use baywright_planner::model::{Id, Vehicle, validate};

use crate::session::history::History;

/// A car in work.
#[derive(Clone, Debug)]
pub struct Draft {
    history: History<Vehicle, CarDeed>,
    /// The profile that it replaces when it is kept; `None` for a new one.
    replaces: Option<Id>,
    /// The file of that, and what it held when this was begun; `None` where it has none of its own.
    file: Option<(PathBuf, DiskMark)>,
    /// The aiming that is shown.
    aiming: Option<Id>,
    begun: Arc<Vehicle>,
}

impl Draft {
    /// Work on a car; `replaces` is the profile that is changed by it, `aiming` what is shown of it first.
    pub fn new(mut car: Vehicle, replaces: Option<Id>, aiming: Option<Id>) -> Self {
        finish(&mut car);
        let history = History::new(car, weight);
        let begun = Arc::clone(history.now());
        Self { history, replaces, file: None, aiming, begun }
    }

    /// A car that an earlier session left, in place of the profile that it `replaces`: it counts as changed, since it was never
    /// kept.
    pub fn taken_up(car: Vehicle, replaces: Option<Id>) -> Self {
        let mut draft = Self::new(car, replaces, None);
        draft.begun = Arc::new(Vehicle::of_class(draft.car().class));
        draft
    }

    /// The car as it is now, sound or not.
    pub const fn car(&self) -> &Arc<Vehicle> {
        self.history.now()
    }

    /// The profile that it replaces.
    pub const fn replaces(&self) -> Option<&Id> {
        self.replaces.as_ref()
    }

    /// The file of that, and what it held when this was begun.
    pub const fn file(&self) -> Option<&(PathBuf, DiskMark)> {
        self.file.as_ref()
    }

    /// This is the file that it changes, and held this when it was begun.
    pub fn begun_from(&mut self, file: Option<(PathBuf, DiskMark)>) {
        self.file = file;
    }

    /// The aiming that is shown: the chosen one if it is there, else the first.
    pub fn aiming(&self) -> Option<&Id> {
        let there = &self.car().aimings;
        let chosen = there.iter().find(|own| Some(&own.id) == self.aiming.as_ref());
        chosen.or_else(|| there.first()).map(|own| &own.id)
    }

    /// Shows another aiming of it.
    pub fn show(&mut self, aiming: Id) {
        self.aiming = Some(aiming);
    }

    /// Whether anything was entered.
    pub fn is_changed(&self) -> bool {
        **self.car() != *self.begun
    }

    /// The car becomes this; what was not entered follows.
    pub fn change(&mut self, mut car: Vehicle) {
        let Some(deed) = CarDeed::between(self.car(), &car) else { return };
        car.assume();
        car.follow();
        finish(&mut car);
        let before = Arc::clone(self.car());
        // Until one is chosen the first is shown: that one stays, also if it is removed and an undo brings it back.
        if self.aiming.is_none() {
            self.aiming = self.aiming().cloned();
        }
        self.history.change(deed, car);
        self.go_on_showing(&before);
    }

    /// The aiming that was shown stays shown, wherever it stands now; also where it has another name now, in the same place. One
    /// that was removed and is there again by an undo is shown again.
    fn go_on_showing(&mut self, before: &Vehicle) {
        let now = Arc::clone(self.car());
        let is_shown = |id: &Id| self.aiming.as_ref() == Some(id);
        if now.aimings.iter().any(|own| is_shown(&own.id)) {
            return;
        }
        // It has another name now, or it was gone already and the first was shown.
        let place = before.aimings.iter().position(|own| is_shown(&own.id)).unwrap_or(0);
        let Some(shown) = before.aimings.get(place).map(|own| &own.id) else { return };
        let same = now.aimings.iter().find(|own| own.id == *shown);
        let renamed = || now.aimings.get(place).filter(|_| now.aimings.len() == before.aimings.len());
        if let Some(same) = same.or_else(renamed) {
            self.aiming = Some(same.id.clone());
        }
    }

    /// Everything for which it cannot be kept.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = validate::vehicle(self.car());
        if faults.is_empty() {
            faults = plausible::refused(self.car());
        }
        faults
    }

    /// The first that is still to be typed, if nothing of it is wrong.
    pub fn still_to_type(&self) -> Option<Fault> {
        let faults = self.faults();
        let first = faults.first().cloned()?;
        faults.iter().all(is_to_type).then_some(first)
    }

    /// What is unlikely in it.
    pub fn unlikely(&self) -> Vec<Fault> {
        plausible::unlikely(self.car())
    }

    /// What would be undone.
    pub fn undoes(&self) -> Option<&CarDeed> {
        self.history.undoes()
    }

    /// What would be done again.
    pub fn redoes(&self) -> Option<&CarDeed> {
        self.history.redoes()
    }

    /// One step back.
    pub fn undo(&mut self) {
        let before = Arc::clone(self.car());
        self.history.undo();
        self.go_on_showing(&before);
    }

    /// One step forth.
    pub fn redo(&mut self) {
        let before = Arc::clone(self.car());
        self.history.redo();
        self.go_on_showing(&before);
    }
}

/// Whether nothing was typed yet where something is to be: no fault of anybody's, and told as what is left to do.
pub fn is_to_type(fault: &Fault) -> bool {
    matches!(fault.found, Found::EmptyText | Found::NeededBy(_))
}

/// The solids follow the outlines where these make shapes.
fn finish(car: &mut Vehicle) {
    if validate::vehicle(car).is_empty() {
        car.make_solids();
    } else {
        car.forget_solids();
    }
}

/// About how many bytes a car takes: what grows in it are aimings, marks and outlines.
fn weight(car: &Vehicle) -> usize {
    let aimings: usize = car
        .aimings
        .iter()
        .map(|own| 1_500 + 200 * (own.mark_plan.len() + own.zones.len() + own.placements.len()))
        .sum();
    4_000 + 16 * (car.outline_top.len() + car.outline_side.len()) + 400 * car.sensors.len() + aimings
}

#[cfg(test)]
mod tests {
    use baywright_planner::entry::starter::StartKind;
    use baywright_planner::model::VehicleClass;
    use baywright_planner::model::assumed::BodyPart;

    use super::*;

    /// Whatever its name becomes, or its place among the others.
    #[test]
    fn the_aiming_that_is_shown_stays_shown() {
        let mut car = Vehicle::of_class(VehicleClass::Estate);
        car.start_sensor(StartKind::ForwardRadar, "radar".into());
        for id in ["first", "second", "third"] {
            car.start_aiming(&"radar".into(), id.into());
        }
        let mut draft = Draft::new(car, None, Some("second".into()));
        let shown = |draft: &Draft| draft.aiming().map(ToString::to_string);
        let change = |draft: &mut Draft, how: fn(&mut Vehicle)| {
            let mut car = Vehicle::clone(draft.car());
            how(&mut car);
            draft.change(car);
        };
        change(&mut draft, |car| car.aimings.swap(0, 1));
        assert_eq!(shown(&draft).as_deref(), Some("second"), "moved up");
        change(&mut draft, |car| car.aimings.swap(0, 2));
        change(&mut draft, |car| car.rename_aiming(2, "other".into()));
        assert_eq!(shown(&draft).as_deref(), Some("other"), "by another name");
        draft.undo();
        assert_eq!(shown(&draft).as_deref(), Some("second"));
        draft.redo();
        assert_eq!(shown(&draft).as_deref(), Some("other"));
        change(&mut draft, |car| {
            car.aimings.remove(0);
        });
        assert_eq!(shown(&draft).as_deref(), Some("other"), "another one is gone");
        change(&mut draft, |car| car.aimings.retain(|own| own.id.as_str() != "other"));
        assert_eq!(shown(&draft).as_deref(), Some("first"), "it is gone itself");
        draft.undo();
        assert_eq!(shown(&draft).as_deref(), Some("other"), "it is there again");
        draft.redo();
        draft.undo();
        assert_eq!(shown(&draft).as_deref(), Some("other"), "and once more");
        let mut draft = Draft::new(Vehicle::clone(draft.car()), None, None);
        let first = shown(&draft);
        change(&mut draft, |car| {
            car.aimings.remove(0);
        });
        assert_ne!(shown(&draft), first);
        draft.undo();
        assert_eq!(shown(&draft), first, "nothing was chosen yet, and the first was shown");
    }

    #[test]
    fn what_is_typed_is_undone_and_what_is_wrong_is_told() {
        let mut car = Vehicle::of_class(VehicleClass::Estate);
        car.start_sensor(StartKind::ForwardRadar, "radar".into());
        car.start_aiming(&"radar".into(), "aiming".into());
        let mut draft = Draft::new(car, None, None);
        assert!(!draft.is_changed() && draft.faults().is_empty());
        assert_eq!(draft.aiming().map(Id::as_str), Some("aiming"));
        let mut wider = Vehicle::clone(draft.car());
        wider.enter(BodyPart::Width);
        wider.width_mm = 1_900.0;
        draft.change(wider);
        assert!(draft.is_changed() && draft.car().mirrors.width_mm > 1_900.0, "the mirrors follow");
        assert!(!draft.car().solids().is_empty());
        let mut wrong = Vehicle::clone(draft.car());
        wrong.enter(BodyPart::TrackFront);
        wrong.track_front_mm = 2_000.0;
        draft.change(wrong);
        assert_eq!(draft.faults().len(), 1, "{:?}", draft.faults());
        let mut renamed = Vehicle::clone(draft.car());
        renamed.rename_aiming(0, "other".into());
        draft.change(renamed);
        assert_eq!(draft.aiming().map(Id::as_str), Some("other"));
        draft.undo();
        draft.undo();
        assert!(draft.faults().is_empty() && draft.is_changed());
        draft.undo();
        assert!(!draft.is_changed() && draft.undoes().is_none());
    }
}
