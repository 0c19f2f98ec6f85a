//! What the form asks for and how it is carried out: keeping the car, areas drawn, marks picked.

use baywright_planner::edit::Edit;
use baywright_planner::entry::starter::CLEAR_AREA;
use baywright_planner::geometry::{DVec2, Outline, PlanPose, Polygon};
use baywright_planner::model::Vehicle;
use baywright_planner::model::assumed::AimingPart;

use crate::screen::Desk;
use crate::screen::view::{Area, Drawn, Tool};
use crate::session::answer::Answer;
use crate::session::document::CarNotKept;

impl Desk {
    /// Saves the car that is being entered among the user's own and chooses it.
    pub(in crate::screen) fn keep_car(&mut self) {
        let texts = self.view.language.forms();
        let Some(name) = self.document.draft().map(|draft| draft.car().name.clone()) else { return };
        let Some(folder) = self.data_folder().map(|folder| folder.join("vehicle-profiles")) else {
            self.say_wrong(self.texts().no_home);
            return;
        };
        let id = self.document.draft().map(|draft| draft.car().id.clone());
        match self.document.keep_car(&folder) {
            Ok(_) => {
                let path =
                    id.map_or_else(String::new, |id| folder.join(format!("{id}.ron")).display().to_string());
                self.view.tool = Tool::Hand;
                self.say(texts.car_kept(&name, &path));
            }
            Err(CarNotKept::Unsound(fault)) => self.say_wrong(texts.wrong(&fault)),
            Err(CarNotKept::NameTaken(id)) => self.say_wrong(texts.car_name_taken(id.as_str())),
            Err(CarNotKept::ChangedOnDisk(path)) => {
                self.say_wrong(texts.car_changed_meanwhile(&path.display().to_string()));
            }
            Err(CarNotKept::Needed { by, what }) => {
                self.say_wrong(texts.needed_elsewhere(by.as_str(), what.as_str()));
            }
            Err(CarNotKept::Faults(faults)) => self.say_wrong(self.first_sentence(&faults)),
        }
    }

    /// A rectangle was drawn, its corners in the bay.
    pub(in crate::screen) fn drawn_area(&mut self, drawn: Drawn, from: DVec2, to: DVec2) {
        self.view.tool = Tool::Hand;
        match drawn {
            Drawn::Zone { aiming, zone } => self.drawn_zone(aiming, zone, from, to),
            Drawn::Area(area) => self.drawn_floor(area, from.round(), to.round()),
        }
    }

    fn drawn_floor(&mut self, area: Area, from: DVec2, to: DVec2) {
        let Ok(outline) = Polygon::rectangle(from.min(to), from.max(to)) else { return };
        let mut bay = self.document.layout().bay.clone();
        let place = match area {
            Area::Feature(at) => bay.floor_features.get_mut(at).map(|own| &mut own.outline),
            Area::Runway(at) => bay.runways.get_mut(at).map(|own| &mut own.outline),
            Area::KeepFree(at) => bay.keep_free.get_mut(at).map(|own| &mut own.outline),
        };
        let Some(place) = place else { return };
        *place = outline;
        self.edit(&Edit::Bay { bay: Box::new(bay), renamed: None });
    }

    fn drawn_zone(&mut self, aiming: usize, zone: usize, from: DVec2, to: DVec2) {
        let frame = frame_of(&self.answer, Drawn::Zone { aiming, zone }).inverse();
        let (a, b) = ((frame * from).round(), (frame * to).round());
        let Ok(outline) = Polygon::rectangle(a.min(b), a.max(b)) else { return };
        let Some(draft) = self.document.draft_mut() else { return };
        let mut car = Vehicle::clone(draft.car());
        let Some(own) = car.aimings.get_mut(aiming) else { return };
        let id = own.id.clone();
        let Some(zone) = own.zones.get_mut(zone) else { return };
        zone.outline = Outline::Polygon(outline);
        if zone.id.as_str() == CLEAR_AREA {
            car.enter(AimingPart::ClearAside.of(&id));
            car.enter(AimingPart::ClearAlong.of(&id));
        }
        draft.change(car);
    }

    /// A mark was pressed on while one is picked for a step.
    pub(in crate::screen) fn picked_mark(&mut self, mark: usize) {
        let Tool::PickMark { aiming, step, nth } = self.view.tool else { return };
        let texts = self.view.language.forms();
        self.view.tool = Tool::Hand;
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
