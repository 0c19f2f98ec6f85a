//! The car that is being entered, and the aiming that is shown.

use baywright_planner::Subject;
use baywright_planner::another_plan::PlanBuys;
use baywright_planner::entry::zones::ZoneFigures;
use baywright_planner::geometry::{DVec2, Outline, PlanPose, Polygon};
use baywright_planner::model::assumed::AimingPart;
use baywright_planner::model::{Figures, Id, Vehicle, VehicleClass};

use crate::screen::Desk;
use crate::screen::command::{Begin, OfCar};
use crate::screen::forms::car::new_car;
use crate::screen::forms::field::Fields;
use crate::screen::page::{Page, Question};
use crate::screen::view::{CarView, Drawn, Tool};
use crate::session::answer::Answer;
use crate::session::document::CarNotKept;
use crate::session::draft::Draft;

impl Desk {
    /// Changes the car that is being entered, begins, keeps or drops it.
    pub(super) fn apply_to_car(&mut self, asked: OfCar) {
        match asked {
            OfCar::Begin(how) => self.begin_car(how),
            OfCar::Plan(plan) => self.change_plan(&plan),
            OfCar::Read(path) => self.read_car(&path),
            OfCar::Change(car) => {
                if let Some(draft) = self.document.draft_mut() {
                    draft.change(*car);
                }
            }
            OfCar::DrawnZone { aiming, zone, from, to } => self.drawn_zone(aiming, zone, from, to),
            OfCar::PickedMark(mark) => self.picked_mark(mark),
            OfCar::Whole(whole) => self.view.car.whole = whole,
            OfCar::Aiming(aiming) => match self.document.draft_mut() {
                Some(draft) => draft.show(aiming),
                None => {
                    let car = self.answer.arrangement.vehicle.id.clone();
                    self.choose_car(&car, Some(&aiming));
                }
            },
            OfCar::Keep => self.keep_car(false),
            OfCar::KeepAgain => self.keep_car(true),
            OfCar::Drop => {
                if self.document.draft().is_some_and(Draft::is_changed) {
                    self.lay(Some(Page::Ask(Question::DropCar)));
                } else {
                    self.document.drop_car();
                }
            }
            OfCar::DropAnyway => {
                self.document.drop_car();
                self.view.tool = Tool::WhichSide;
            }
        }
    }

    /// Leads to where these figures are entered: the car's whole form at their part of it, or the room's.
    pub(super) fn enter_own(&mut self, figures: Figures) {
        self.lay(None);
        match figures {
            Figures::Body | Figures::Sensor | Figures::Aiming => {
                if self.document.draft().is_none() {
                    self.begin_car(Begin::Change);
                }
                self.view.car = CarView { whole: true, lead: Some(figures), part: None };
            }
            Figures::Bay | Figures::Levels if self.document.draft().is_some() => {
                self.say_wrong(self.texts().finish_car);
            }
            Figures::Bay | Figures::Levels => {
                self.view.choose(Some(Subject::Floor));
                self.view.list_open = true;
            }
        }
    }

    /// Leads to where this zone or target of the aiming that is shown is entered; of the figures, to all of its zones.
    pub(super) fn enter_part(&mut self, of: Option<Subject>) {
        if self.document.draft().is_none() {
            self.begin_car(Begin::Change);
        }
        self.view.car = CarView { whole: true, lead: None, part: of };
    }

    /// Begins to enter or change a car.
    pub(super) fn begin_car(&mut self, how: Begin) {
        let shown = &self.answer.arrangement;
        let aiming = Some(shown.aiming.id.clone());
        let draft = match how {
            Begin::New => {
                let mut car = new_car(VehicleClass::SmallHatchback, self.view.locale.language.forms());
                let texts = self.view.locale.language.forms();
                car.name = texts.new_car_name.to_owned();
                car.id = self.free_car_name(texts.my_car);
                Draft::new(car, None, None)
            }
            Begin::Copy => {
                let id = self.free_car_name(shown.vehicle.id.as_str());
                let name = format!("{} (2)", shown.vehicle.name);
                Draft::new(Vehicle { id, name, ..shown.vehicle.clone() }, None, aiming)
            }
            Begin::Change => {
                let id = shown.vehicle.id.clone();
                // A shipped car cannot be changed where it lies: it becomes one's own, under a name of its own.
                let shipped =
                    self.document.cars().iter().any(|own| own.vehicle.id == id && own.own_file().is_none());
                let own = if shipped { self.free_car_name(id.as_str()) } else { id.clone() };
                Draft::new(Vehicle { id: own, ..shown.vehicle.clone() }, Some(id), aiming)
            }
        };
        self.view.car = CarView { whole: how == Begin::Change, lead: None, part: None };
        self.fields = Fields::default();
        // A sheet in hand is typed from its first line on.
        if how != Begin::Change {
            self.fields.lead_in();
        }
        self.document.begin_car(draft);
        self.view.choose(None);
        self.view.pointed = None;
        self.view.tool = Tool::WhichSide;
    }

    /// Begins to change the chosen car by the mark plan of the aiming that is shown: one step, that can be undone.
    fn change_plan(&mut self, plan: &PlanBuys) {
        if self.document.draft().is_some() {
            self.say_wrong(self.texts().finish_car);
            return;
        }
        let shown = self.answer.arrangement.aiming.id.clone();
        self.begin_car(Begin::Change);
        let Some(draft) = self.document.draft_mut() else { return };
        let mut car = Vehicle::clone(draft.car());
        let Some(own) = car.aimings.iter_mut().find(|own| own.id == shown) else { return };
        plan.take(own);
        car.enter(AimingPart::MarkPlan.of(&shown));
        draft.change(car);
        self.view.car.lead = Some(Figures::Aiming);
    }

    /// "my-car", "my-car-2", ...
    pub(in crate::screen) fn free_car_name(&self, wanted: &str) -> Id {
        Id::free(wanted, "-", |name| self.document.cars().iter().any(|car| car.vehicle.id.as_str() == name))
    }

    /// Saves the car that is being entered among the user's own and chooses it; `again` where its file is gone.
    fn keep_car(&mut self, again: bool) {
        let texts = self.view.locale.language.forms();
        let Some(name) = self.document.draft().map(|draft| draft.car().name.clone()) else { return };
        // What stands in a field and was not taken is no figure of the car: it would go with its form.
        if let Some(typed) = self.fields.lead_to_refused() {
            self.say_wrong(texts.not_kept_yet(&typed));
            return;
        }
        let Some(folder) = self.data_folder().map(|folder| folder.join("vehicle-profiles")) else {
            self.say_wrong(self.texts().no_home);
            return;
        };
        match self.document.keep_car(&folder, again) {
            Ok(kept) => {
                self.view.tool = Tool::WhichSide;
                if let Some(path) = kept {
                    self.say(texts.car_kept(&name, &path.display().to_string()));
                }
            }
            Err(CarNotKept::Unsound(fault)) => self.say_wrong(texts.wrong(&fault, self.lengths())),
            Err(CarNotKept::NameTaken(id)) => self.say_wrong(texts.car_name_taken(id.as_str())),
            Err(CarNotKept::ChangedOnDisk(path)) => {
                self.say_wrong(texts.car_changed_meanwhile(&path.display().to_string()));
            }
            Err(CarNotKept::Gone(path)) => {
                self.lay(Some(Page::Ask(Question::CarGone(path))));
            }
            Err(CarNotKept::Shut(shut)) => {
                self.say_wrong(texts.goes_not_with(shut.arrangement.as_str(), &shut.fault, self.lengths()));
            }
            Err(CarNotKept::Faults(faults)) => self.say_wrong(self.first_sentence(&faults)),
        }
    }

    /// A rectangle was drawn for a zone of the car, its corners in the bay.
    fn drawn_zone(&mut self, aiming: usize, zone: usize, from: DVec2, to: DVec2) {
        self.view.tool = Tool::WhichSide;
        let frame = frame_of(&self.answer, Drawn::Zone { aiming, zone }).inverse();
        let (a, b) = ((frame * from).round(), (frame * to).round());
        let Ok(outline) = Polygon::rectangle(a.min(b), a.max(b)) else { return };
        let Some(draft) = self.document.draft_mut() else { return };
        let mut car = Vehicle::clone(draft.car());
        let Some(own) = car.aimings.get_mut(aiming) else { return };
        let id = own.id.clone();
        let Some(zone) = own.zones.get_mut(zone) else { return };
        zone.outline = Outline::Polygon(outline);
        let figures = ZoneFigures::of(&id, &zone.id);
        car.enter(&figures.along);
        car.enter(&figures.aside);
        draft.change(car);
    }

    /// A mark was pressed on while one is picked for a step.
    fn picked_mark(&mut self, mark: usize) {
        let Tool::PickMark { aiming, step, nth } = self.view.tool else { return };
        let texts = self.view.locale.language.forms();
        self.view.tool = Tool::WhichSide;
        let Some(draft) = self.document.draft_mut() else { return };
        let mut car = Vehicle::clone(draft.car());
        let Some(own) = car.aimings.get_mut(aiming) else { return };
        let id = own.id.clone();
        if own.use_mark(step, nth, mark).is_err() {
            self.say_wrong(texts.used_later);
            return;
        }
        car.enter(AimingPart::MarkPlan.of(&id));
        draft.change(car);
    }
}

/// The frame in which a rectangle is drawn square: the zone's own, bay from it. The aiming is the one that is shown.
pub(in crate::screen) fn frame_of(answer: &Answer, drawn: Drawn) -> PlanPose {
    let (arrangement, scene) = (&*answer.judged, &answer.assessment.scene);
    match drawn {
        Drawn::Zone { zone, .. } => {
            let zone = arrangement.aiming.zones.get(zone);
            let pose = zone.and_then(|zone| scene.bay_from_zone(arrangement, &zone.frame));
            pose.unwrap_or(scene.bay_from_vehicle)
        }
        // Square to the room.
        Drawn::Area(_) => PlanPose::IDENTITY,
    }
}
