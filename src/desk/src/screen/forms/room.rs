//! The forms for the room and what belongs to it: walls, doors, places in the floor, runways, kept-free areas, bays of a hall.
//!
//! They change a copy of the bay; what was changed becomes one edit with a name.

mod areas;
mod levels;
mod openings;
mod permanent;
mod place;
mod taken;
mod walls;

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, Outline, PlanPose, Polygon, Span};
use baywright_planner::hand::{free_floor, free_spot_beside};
use baywright_planner::model::{
    Bay, Effort, FloorFeature, FloorFeatureKind, Footprint, HallBay, Id, KeepFree, Known, Material, Opening,
    OpeningKind, Place, Runway, Shape, Thing, ThingKind,
};
use egui::Ui;

pub(in crate::screen) use levels::{columns_of, levels_of, permanent_marks};
pub(in crate::screen) use walls::source_of_levels;

use super::car::car_form::CarForm;
use super::field::Fields;
use crate::screen::Desk;
use crate::screen::command::{Command, OfBay, Part};
use crate::screen::view::Tool;
use crate::screen::{hall, shelf};

/// As high as what lies flush in the floor counts when a place is sought for it, mm.
const FLUSH_MM: f64 = 10.0;

/// A bay while one of its forms is drawn.
pub(in crate::screen) struct BaySheet<'a> {
    pub sheet: CarForm<'a>,
    pub bay: Bay,
    pub renamed: Option<(Id, Id)>,
    pub out: Vec<Command>,
}

impl Desk {
    /// The form of a part of the bay; whether there is one for it.
    pub(in crate::screen) fn room_form(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        subject: &Subject,
        out: &mut Vec<Command>,
    ) {
        self.whose_building(ui, out);
        if *subject == Subject::Floor {
            self.building_differs(ui);
        }
        let before = self.document.bay();
        let car = self.answer.arrangement.vehicle.clone();
        let sheet = CarForm::new(self, std::mem::take(fields), car, Vec::new(), Vec::new()).narrow();
        let mut form = BaySheet { sheet, bay: before.clone().into_owned(), renamed: None, out: Vec::new() };
        match subject {
            Subject::Floor => form.room(ui),
            Subject::Wall(id) => form.wall(ui, id),
            Subject::Opening(id) => form.opening(ui, id),
            Subject::FloorFeature(id) => form.feature(ui, id),
            Subject::Runway(id) => form.runway(ui, id),
            Subject::KeepFree(id) => form.keep_free(ui, id),
            Subject::HallBay(id) => form.hall_bay(ui, id),
            _ => {}
        }
        let BaySheet { sheet, bay, renamed, out: mut asked } = form;
        *fields = sheet.fields;
        if bay != *before {
            out.push(Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed })));
        }
        out.append(&mut asked);
        self.way_to_own_building(ui, out);
    }

    /// Puts a part into the bay, where there is room for it or in the middle of what is seen, and takes it in hand.
    pub(in crate::screen) fn add_part(&mut self, part: Part) {
        let texts = self.view.locale.language.rooms();
        let mut bay = self.document.bay().into_owned();
        let name = match part {
            Part::Opening(kind) => texts.opening_of(kind),
            Part::Feature(kind) => texts.feature_of(kind),
            Part::Runway => texts.runway,
            Part::KeepFree(kind) => texts.kept_free(kind),
            Part::HallBay => texts.hall_bay_name,
            Part::LowCeiling => texts.low_ceiling,
        };
        let id = match part {
            // Bays are numbered from the first on.
            Part::HallBay => self.free_numbered(name),
            _ => self.free_name(name),
        };
        let middle = self.middle_in_sight();
        let area = |size: DVec2, top: f64| self.free_area(&bay, id.clone(), size, top);
        let subject = match part {
            Part::Opening(kind) => {
                let Some(opening) = self.new_opening(&bay, kind, id.clone()) else { return };
                bay.openings.push(opening);
                Subject::Opening(id)
            }
            Part::Feature(kind) => {
                let size = match kind {
                    FloorFeatureKind::Drain => DVec2::new(1_000.0, 200.0),
                    FloorFeatureKind::Pit => DVec2::new(4_000.0, 900.0),
                    FloorFeatureKind::Joint => DVec2::new(3_000.0, 100.0),
                };
                let Some(outline) = area(size, FLUSH_MM) else { return };
                bay.floor_features.push(FloorFeature {
                    id: id.clone(),
                    kind,
                    outline,
                    material: Material::Steel,
                    proud_mm: 0.0,
                });
                Subject::FloorFeature(id)
            }
            Part::Runway => {
                let Some(outline) = area(DVec2::new(4_800.0, 600.0), 300.0) else { return };
                bay.runways.push(Runway { id: id.clone(), outline, top_mm: 300.0, survey: None });
                Subject::Runway(id)
            }
            Part::KeepFree(kind) => {
                let Some(outline) = area(DVec2::new(1_000.0, 1_000.0), 2_000.0) else { return };
                bay.keep_free.push(KeepFree { id: id.clone(), kind, outline });
                Subject::KeepFree(id)
            }
            Part::HallBay => {
                let size = hall::bay_size(bay.room.bounds().size());
                let others: Vec<Polygon> = bay.bays.iter().map(|own| own.outline.clone()).collect();
                // Where there is no floor left it lies on another, and is said to; in the room it lies in any case.
                let on_another = || free_floor(&bay.room, &[], size, middle);
                let Some(outline) = free_floor(&bay.room, &others, size, middle).or_else(on_another) else {
                    self.say_wrong(texts.no_floor_for_bay);
                    return;
                };
                bay.bays.push(HallBay { id: id.clone(), outline });
                Subject::HallBay(id)
            }
            Part::LowCeiling => {
                let Some(low) = shelf::low_ceiling(id.clone(), middle.round(), bay.ceiling_mm) else {
                    return;
                };
                bay.things.push(low);
                Subject::Thing(id)
            }
        };
        self.edit(&Edit::Bay { bay: Box::new(bay), renamed: None });
        self.view.choose(Some(subject));
        self.view.tool = Tool::WhichSide;
        self.view.list_open = true;
    }

    /// A place of the floor of this size, as near to the middle of what is seen as it is in nobody's way from the floor to `top`: on
    /// no other place in the floor, runway or kept-free area either.
    fn free_area(&self, bay: &Bay, id: Id, size: DVec2, top: f64) -> Option<Polygon> {
        let middle = self.middle_in_sight().round();
        let shape = Shape::Rectangle { length_mm: size.x, width_mm: size.y };
        let there = Thing {
            id,
            kind: ThingKind::Other,
            footprint: Footprint::new(shape).ok()?,
            place: Place { at: PlanPose::new(middle, 0.0), known: Known::ByEye },
            span: Span::new(0.0, top).ok()?,
            material: Material::Steel,
            metal: None,
            effort: Effort::Fixed,
            locked: false,
        };
        let features = bay.floor_features.iter().map(|own| &own.outline);
        let others = features.chain(bay.runways.iter().map(|own| &own.outline));
        let others: Vec<Outline> =
            others.chain(bay.keep_free.iter().map(|own| &own.outline)).cloned().map(Outline::from).collect();
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let at = free_spot_beside(arrangement, scene, &there, middle, &others);
        Polygon::rectangle((at - size * 0.5).round(), (at + size * 0.5).round()).ok()
    }

    /// A door or window of a usual size in the middle of the wall in hand, else of the longest one that has room.
    fn new_opening(&self, bay: &Bay, kind: OpeningKind, id: Id) -> Option<Opening> {
        let (width, bottom, top, material) = match kind {
            OpeningKind::RollerDoor => (3_000.0, 0.0, 2_600.0, Material::Steel),
            OpeningKind::SwingDoor => (900.0, 0.0, 2_000.0, Material::Wood),
            OpeningKind::Window => (1_500.0, 1_000.0, 2_200.0, Material::Glass),
            OpeningKind::Gap => (1_200.0, 0.0, 2_000.0, Material::Unknown),
        };
        let length = |wall: usize| bay.wall_ends(wall).map_or(0.0, |(a, b)| a.distance(b));
        let in_hand = match &self.view.selected {
            Some(Subject::Wall(id)) => bay.walls.iter().position(|wall| wall.id == *id),
            _ => None,
        };
        // Of the longest walls the one with the fewest doors.
        let longest = (0..bay.walls.len()).max_by(|&a, &b| {
            let taken = |wall: usize| {
                bay.openings.iter().filter(|own| own.wall == wall).map(|own| own.width_mm).sum::<f64>()
            };
            (length(a) - taken(a)).total_cmp(&(length(b) - taken(b)))
        });
        let wall = in_hand.or(longest)?;
        let width = f64::min(width, (length(wall) * 0.8).floor());
        let top = f64::min(top, bay.ceiling_mm);
        let mut own = Opening {
            id,
            kind,
            wall,
            from_mm: ((length(wall) - width) * 0.5).round(),
            width_mm: width,
            span: Span::new(bottom, top).ok()?,
            material,
            shut: kind != OpeningKind::Gap,
            free_beyond_mm: 0.0,
            is_exit: false,
        };
        openings::fit_into(bay, &mut own);
        Some(own)
    }
}
