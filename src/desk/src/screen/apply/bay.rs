//! The bay and its arrangements.

use baywright_planner::edit::{Edit, OfBuilding, is_taken, lost_by_adopting};
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::hand::{free_spot, gives_a_place};
use baywright_planner::model::validate::limits;
use baywright_planner::model::{Id, Known, Place, RearToe, StandSet, Thing, ThingKind};
use baywright_planner::{OnCar, Step, Subject, hand};

use crate::screen::Desk;
use crate::screen::command::{Begin, OfBay};
use crate::screen::forms::rows::PLACE;
use crate::screen::page::{Page, Question};
use crate::screen::shelf;
use crate::screen::view::{Area, Tool, TypedGap};
use crate::session::answer::Answer;

impl Desk {
    /// Changes the bay, or shows another of its arrangements.
    pub(super) fn apply_to_bay(&mut self, ctx: &egui::Context, asked: OfBay) {
        match asked {
            OfBay::AdoptBuilding => self.adopt_building(),
            OfBay::Edit(edit) => self.edit(&edit),
            OfBay::Preview(edits) => {
                let shown = self.document.preview(&edits);
                self.say_refused(shown);
            }
            OfBay::Settle(edit) if self.is_too_small(&edit) => self.ask_of_size(edit),
            OfBay::Settle(edit) | OfBay::SettleAnyway(edit) => {
                let kept = self.document.settle(&edit);
                self.say_refused(kept);
            }
            OfBay::Cure(finding) => self.cure(finding),
            OfBay::KeepPromise => self.keep_promise(),
            OfBay::KeepPromiseApart => self.keep_promise_apart(),
            OfBay::Add(kind) => self.add(kind),
            OfBay::AddSet(of) => self.add_set(of),
            OfBay::AddPart(part) => self.add_part(part),
            OfBay::ReadLevels { of, path } => self.take_levels(of.as_ref(), &path),
            OfBay::ReadTapes(path) => self.take_tapes(&path),
            OfBay::KeepMeasured => self.keep_measured(),
            OfBay::Picture(path) => self.choose_picture(&path),
            OfBay::Reshape(edit) => {
                // What cannot be is refused, and not asked about.
                if self.is_too_small(&edit) && self.document.could(&edit).is_ok() {
                    let shown = self.document.preview(std::slice::from_ref(&edit));
                    self.say_refused(shown);
                    self.ask_of_size(edit);
                } else {
                    self.edit(&edit);
                }
            }
            OfBay::Copy => self.copy(),
            OfBay::Remove => self.remove_chosen(),
            OfBay::Clip { cut } => self.clip(ctx, cut),
            OfBay::Paste { text, at } => self.paste(&text, at),
            OfBay::Arrange(order) => self.arrange(order),
            OfBay::Tape { thing, place, inward } => self.tape(&thing, place, inward),
            OfBay::Nudge(by) => self.nudge(by),
            OfBay::Turn(by) => self.turn(by),
            OfBay::DrawnArea(area, from, to) => self.drawn_area(area, from, to),
            OfBay::ScalePoint(at) => self.scale_point(at),
            OfBay::ScalePicture(distance) => self.scale_picture(distance),
            OfBay::Show(arrangement) => self.show_set_up(&arrangement),
            OfBay::ToBay(bay) => self.show_bay(&bay),
            OfBay::SetUpIn(bay) => self.set_up_in(&bay),
            OfBay::Duplicate => {
                let name = self.free_arrangement_name();
                self.edit(&Edit::Duplicate(name));
            }
            OfBay::ChooseCar(car) => self.choose_car(&car, None),
            OfBay::Visit(aimings) => self.visit(aimings),
        }
    }

    /// Whether something in the bay goes by this name.
    pub(in crate::screen) fn is_taken(&self, name: &Id) -> bool {
        is_taken(self.document.layout(), name)
    }

    /// Makes a change, and says why if it is not made.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) {
        let of_building = edit.of_building(self.document.layout(), self.document.shown());
        let done = self.document.edit(edit);
        if done.is_ok() {
            self.say_of_building(&of_building);
            if let (Edit::Rename { thing, name }, Some(Subject::Thing(selected))) =
                (edit, &self.view.selected)
                && selected == thing
            {
                self.view.choose(Some(Subject::Thing(name.clone())));
            }
            if let (Edit::RenameDimension { dimension, name }, Some(Subject::Dimension(selected))) =
                (edit, &self.view.selected)
                && selected == dimension
            {
                self.view.choose(Some(Subject::Dimension(name.clone())));
            }
            self.view.pointed = None;
        }
        self.say_refused(done);
    }

    /// What was done to the building in other set-ups too, which nobody sees.
    fn say_of_building(&mut self, done: &OfBuilding) {
        let texts = self.view.locale.language.rooms();
        fn names(all: &[Id]) -> Vec<&str> {
            all.iter().map(Id::as_str).collect()
        }
        if !done.removed.is_empty() {
            self.say(texts.removed_from_every(&names(&done.removed)));
        }
        if let Some((thing, otherwise)) = done.built.last() {
            self.say(texts.now_built(thing.as_str(), &names(otherwise)));
        }
    }

    /// Whether by this change a thing becomes smaller than its kind ever is.
    fn is_too_small(&self, edit: &Edit) -> bool {
        let Edit::Reshape { thing, shape } = edit else { return false };
        let before = self.document.things_before_hand();
        let own = before.as_ref().and_then(|own| own.iter().find(|own| own.id == *thing));
        own.is_some_and(|own| hand::too_small(own, shape).is_some())
    }

    /// Asks whether it is meant. Until that is answered it is shown, and no step yet.
    fn ask_of_size(&mut self, edit: Edit) {
        self.lay(Some(Page::Ask(Question::TooSmall(Box::new(edit)))));
    }

    fn adopt_building(&mut self) {
        let lost = lost_by_adopting(self.document.layout(), self.document.shown());
        if lost.is_empty() {
            self.edit(&Edit::AdoptBuilding);
        } else {
            self.lay(Some(Page::Ask(Question::AdoptBuilding(lost))));
        }
    }

    fn cure(&mut self, finding: usize) {
        let found = self.answer.assessment.findings.get(finding);
        let Some(step) = found.and_then(|found| Some(found.cure.as_ref()?.step.clone())) else { return };
        if self.answer.stale {
            return;
        }
        match step {
            // These ask a person to find something out: lead to where it is entered, or say where it will be.
            Step::Tape { thing } => {
                self.fields.lead_to(PLACE, thing.as_str());
                self.view.choose(Some(Subject::Thing(thing)));
                self.view.list_open = true;
                self.say(self.texts().enter_taped);
            }
            Step::TapeCar => {
                self.view.choose(Some(Subject::Car));
                self.view.list_open = true;
                self.fields.lead_to(PLACE, self.answer.arrangement.vehicle.id.as_str());
                self.say(self.texts().enter_car_place);
            }
            Step::SurveyFloor => self.lead_to_levels(),
            Step::EnterFigures => {
                self.say(self.texts().enter_figures);
                self.begin_car(Begin::Change);
            }
            Step::EnterAlignment => {
                self.view.choose(Some(Subject::Car));
                self.view.list_open = true;
                let known = &self.answer.arrangement.on_this_car;
                let texts = self.texts();
                let missing = match known.told_rear_toe() {
                    RearToe { left_rad: None, .. } => texts.toe_left,
                    RearToe { right_rad: None, .. } => texts.toe_right,
                    _ => texts.set_back,
                };
                self.fields.lead_to(missing, self.answer.arrangement.vehicle.id.as_str());
                self.say(texts.enter_alignment);
            }
            Step::MeasureOnCar(what) => self.lead_to_measured(what),
            Step::EnterZones => {
                self.say(self.texts().enter_zones);
                self.enter_part(Some(Subject::Figures));
            }
            Step::SayHeightsFrom => {
                let of = found.and_then(|found| found.subjects.first().cloned());
                self.say(self.texts().enter_heights_from);
                self.enter_part(of);
            }
            Step::ReviewProfile => {
                let vehicle = self.answer.arrangement.vehicle.id.clone();
                let car = self.document.cars().iter().find(|car| car.vehicle.id == vehicle);
                if let Some(fingerprint) = car.map(|car| car.fingerprint.clone()) {
                    self.edit(&Edit::Remember(fingerprint));
                }
            }
            step => {
                if let Step::MoveThing { thing, .. } | Step::TurnThing { thing, .. } = &step {
                    self.view.choose(Some(Subject::Thing(thing.clone())));
                }
                self.edit(&Edit::Do(step));
            }
        }
    }

    /// To where something that is measured on this car is typed.
    fn lead_to_measured(&mut self, what: OnCar) {
        self.view.choose(Some(Subject::Car));
        self.view.list_open = true;
        let own = self.view.locale.language.this_car();
        match what {
            OnCar::Arch(wheel) => {
                self.fields.lead_to(&own.arch_of(wheel), self.answer.arrangement.vehicle.id.as_str());
                self.say(own.enter_measured);
            }
            // Ticking it says that it was measured: that is a person's.
            OnCar::Sensor => self.say(own.tick_sensor),
        }
    }

    fn keep_promise(&mut self) {
        let Some(promise) = self.answer.assessment.promise.clone().filter(|_| !self.answer.stale) else {
            return;
        };
        let edits: Vec<Edit> = promise.steps.into_iter().map(Edit::Do).collect();
        let done = self.document.preview(&edits).and_then(|()| self.document.settle(&Edit::All(edits)));
        if done.is_err() {
            self.document.abandon();
        }
        self.say_refused(done);
        self.view.pointed = None;
    }

    fn keep_promise_apart(&mut self) {
        let Some(promise) = self.answer.assessment.promise.clone().filter(|_| !self.answer.stale) else {
            return;
        };
        let edits = promise.steps.into_iter().map(Edit::Do).collect();
        self.edit(&Edit::Apart { name: self.free_name_after_moves(), edits });
    }

    /// The middle of what is seen, bay frame: where something new goes.
    pub(in crate::screen) fn middle_in_sight(&self) -> DVec2 {
        let middle = self.canvas.middle_in_bay();
        middle.unwrap_or_else(|| self.answer.assessment.scene.room.walls().bounds().centre())
    }

    fn add(&mut self, kind: ThingKind) {
        let words = self.words();
        let name = self.free_name(words.kind_of_thing(kind));
        // To the millimetre, as everything that is drawn.
        let at = self.middle_in_sight().round();
        let ceiling = self.answer.arrangement.bay.ceiling_mm;
        let Some(mut thing) = shelf::thing(kind, name, at, ceiling) else { return };
        // In nobody's way, as near as there is room; what was meant to stand in the way is drawn there.
        let spot = free_spot(&self.answer.arrangement, &self.answer.assessment.scene, &thing, at);
        thing.place.at = PlanPose::new(spot, 0.0);
        self.add_thing(thing);
    }

    /// A distance to a wall was typed, as it was read off a tape: of the two directions that make a place, one. The place
    /// is taped when two walls that stand well apart in direction gave theirs and the thing was not moved between.
    fn tape(&mut self, thing: &Id, place: Place, inward: DVec2) {
        let Some(own) = self.answer.arrangement.bay.things.iter().find(|own| own.id == *thing) else {
            return;
        };
        let was = own.place;
        let other = self.view.typed_gap.as_ref().filter(|typed| {
            typed.thing == *thing && typed.at == was.at && gives_a_place(typed.inward, inward)
        });
        let known = if other.is_some() { Known::Taped } else { was.known };
        self.edit(&Edit::Place { thing: thing.clone(), place: Place { known, ..place } });
        self.view.typed_gap = Some(TypedGap { thing: thing.clone(), at: place.at, inward });
    }

    fn add_thing(&mut self, thing: Thing) {
        let id = thing.id.clone();
        self.edit(&Edit::Add(thing));
        self.view.choose(Some(Subject::Thing(id)));
        self.view.list_open = true;
    }

    /// "As found 2", "As found 3" ...
    fn free_arrangement_name(&self) -> Id {
        let stem = self.document.shown().stem();
        // The copy of "As found 2" is not the missing "As found".
        let taken = |name: &str| {
            name == stem || self.document.layout().arrangements.iter().any(|own| own.id.as_str() == name)
        };
        Id::free(stem, " ", taken)
    }

    /// "As found, after the moves", "As found, after the moves 2" ...
    fn free_name_after_moves(&self) -> Id {
        let shown = self.document.shown();
        let texts = self.texts();
        let wanted = texts.after_the_moves(Id::from(shown.stem()).as_str());
        // A name that is as long as names may be leaves no room for more.
        if shown.stem().ends_with(texts.after_moves) || wanted.chars().count() + 4 > limits::LONGEST_NAME {
            return self.free_arrangement_name();
        }
        Id::free(&wanted, " ", |name| {
            self.document.layout().arrangements.iter().any(|own| own.id.as_str() == name)
        })
    }

    /// "cabinet", "cabinet 2", "cabinet 3" ...
    pub(in crate::screen) fn free_name(&self, wanted: &str) -> Id {
        let layout = self.document.layout();
        Id::free(Id::from(wanted).stem(), " ", |name| is_taken(layout, &Id::from(name)))
    }

    /// "bay 1", "bay 2" ...
    pub(in crate::screen) fn free_numbered(&self, wanted: &str) -> Id {
        let layout = self.document.layout();
        // No more names are taken than there are.
        let names = (1..=usize::MAX).map(|n| Id::from(format!("{wanted} {n}")));
        names.into_iter().find(|name| !is_taken(layout, name)).unwrap_or_else(|| Id::from(wanted))
    }

    /// The edit that puts something somewhere; `None` for what cannot be moved.
    pub(in crate::screen) fn placed(&self, subject: &Subject, pose: PlanPose) -> Option<Edit> {
        placed(&self.answer, subject, pose)
    }

    /// The edit that puts something where its figures have it, which lock nothing: it is known as well as if the hand had put it there.
    pub(in crate::screen) fn typed_place(&self, subject: &Subject, pose: PlanPose) -> Option<Edit> {
        match subject {
            Subject::Thing(id) => placed_thing(&self.answer, id, pose).map(|(_, edit)| edit),
            other => self.placed(other, pose),
        }
    }

    /// What the car is in for, and the first aiming of it is shown: one step.
    fn visit(&mut self, aimings: Vec<Id>) {
        let shown = &self.answer.arrangement;
        let profile = self.document.cars().iter().find(|own| own.vehicle.id == shown.vehicle.id);
        let other = aimings.first().filter(|first| **first != shown.aiming.id).zip(profile);
        let goes_on = other.map(|(first, own)| Edit::Car {
            vehicle: own.vehicle.id.clone(),
            aiming: first.clone(),
            fingerprint: own.fingerprint.clone(),
        });
        let is_other = goes_on.is_some();
        self.edit(&Edit::All(goes_on.into_iter().chain([Edit::Visit(aimings)]).collect()));
        if is_other {
            self.view.forget_what_was_there();
        }
    }

    pub(in crate::screen) fn choose_car(&mut self, car: &Id, aiming: Option<&Id>) {
        let Some(profile) = self.document.cars().iter().find(|own| own.vehicle.id == *car) else { return };
        let aimings = &profile.vehicle.aimings;
        let wanted = aiming.unwrap_or(&self.answer.arrangement.aiming.id);
        let chosen = aimings.iter().find(|own| own.id == *wanted).or_else(|| aimings.first());
        let Some(chosen) = chosen else {
            let text = self.texts().no_aiming(&profile.vehicle.name);
            self.say_wrong(text);
            return;
        };
        let edit = Edit::Car {
            vehicle: car.clone(),
            aiming: chosen.id.clone(),
            fingerprint: profile.fingerprint.clone(),
        };
        self.edit(&edit);
        self.view.forget_what_was_there();
    }

    /// A rectangle was drawn on the floor, its corners in the bay.
    fn drawn_area(&mut self, area: Area, from: DVec2, to: DVec2) {
        self.view.tool = Tool::WhichSide;
        let (from, to) = (from.round(), to.round());
        let Ok(outline) = Polygon::rectangle(from.min(to), from.max(to)) else { return };
        let mut bay = self.document.bay().into_owned();
        let place = match area {
            Area::Feature(at) => bay.floor_features.get_mut(at).map(|own| &mut own.outline),
            Area::Runway(at) => bay.runways.get_mut(at).map(|own| &mut own.outline),
            Area::HallBay(at) => bay.bays.get_mut(at).map(|own| &mut own.outline),
            Area::KeepFree(at) => bay.keep_free.get_mut(at).map(|own| &mut own.outline),
        };
        let Some(place) = place else { return };
        *place = outline;
        self.edit(&Edit::Bay { bay: Box::new(bay), renamed: None });
    }
}

/// The edit that puts something somewhere; `None` for what cannot be moved.
pub(in crate::screen) fn placed(answer: &Answer, subject: &Subject, pose: PlanPose) -> Option<Edit> {
    match subject {
        Subject::Car => Some(Edit::Park(pose)),
        Subject::Thing(id) => {
            placed_thing(answer, id, pose).and_then(|(thing, edit)| (!thing.locked).then_some(edit))
        }
        Subject::Stand(id) | Subject::Target(id) => {
            let target = answer.assessment.scene.targets.iter().find(|own| own.id == *id)?;
            let set = StandSet::At {
                place: pose,
                height_mm: target.set.height_mm,
                pitch_rad: target.set.pitch_rad,
            };
            Some(Edit::Stand { placement: id.clone(), set })
        }
        _ => None,
    }
}

/// A thing, and the edit that puts it somewhere: known by eye at best, and no better than it was.
fn placed_thing<'a>(answer: &'a Answer, id: &Id, pose: PlanPose) -> Option<(&'a Thing, Edit)> {
    let thing = answer.arrangement.bay.things.iter().find(|own| own.id == *id)?;
    let place = Place { at: pose, known: answer.arrangement.shop.by_hand(thing.place.known) };
    Some((thing, Edit::Place { thing: id.clone(), place }))
}

/// Applying a promise's steps one after another must be the same as when it was tried.
#[cfg(test)]
mod tests {
    use std::path::Path;

    use baywright_planner::cure;

    use super::*;
    use crate::screen::command::Command;
    use crate::session::document::Document;

    #[test]
    fn a_promise_kept_gives_what_was_promised() {
        let document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let arrangement = document.arrangement().unwrap();
        let promise = baywright_planner::assess(&arrangement).promise.unwrap();
        let tried = promise.steps.iter().fold(arrangement, |now, step| cure::apply(&now, step));
        let mut desk = Desk::new(document).unwrap();
        desk.apply(&egui::Context::default(), Command::Bay(OfBay::KeepPromise));
        desk.answer.refresh(&desk.document);
        assert_eq!(desk.answer.arrangement.bay.things, tried.bay.things);
        assert_eq!(desk.answer.assessment.verdict, promise.verdict);
        assert!(desk.undoes().is_some_and(|text| !text.is_empty()));
        desk.apply(&egui::Context::default(), Command::Undo);
        assert!(!desk.document.is_changed());
    }
}
