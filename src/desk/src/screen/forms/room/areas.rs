//! Areas of the floor: drains, pits, joints, runways, what local rules want free, bays of a hall.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::Polygon;
use baywright_planner::model::{FloorFeatureKind, Id, KeepFreeKind};
use egui::{RichText, Ui};

use super::BaySheet;
use crate::screen::command::{Command, OfBay, OfView};
use crate::screen::forms::car::body::{points, points_text};
use crate::screen::forms::car::car_form::{Line, Of, part};
use crate::screen::look::size;
use crate::screen::view::{Area, Drawn, Tool};
use crate::screen::widgets;

impl BaySheet<'_> {
    pub(super) fn feature(&mut self, ui: &mut Ui, id: &Id) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let Some(at) = self.bay.floor_features.iter().position(|own| own.id == *id) else { return };
        let Some(mut own) = self.bay.floor_features.get(at).cloned() else { return };
        if let Some(name) = self.new_name(ui, id) {
            own.id = name.clone();
            self.out.push(Command::View(OfView::Select(Some(Subject::FloorFeature(name)))));
        }
        // In the next frame its fields go by its new name: Enter leads to them there.
        let id = &own.id.clone();
        let kinds = [FloorFeatureKind::Drain, FloorFeatureKind::Pit, FloorFeatureKind::Joint];
        let chosen = self.sheet.pick(ui, texts.kind, &format!("feature {id}"), &own.kind, &kinds, |kind| {
            texts.feature_of(*kind).to_owned()
        });
        own.kind = chosen.unwrap_or(own.kind);
        let material = self.material(ui, &format!("feature material {id}"), own.material);
        own.material = material.unwrap_or(own.material);
        let path = format!("feature proud {id}");
        let line = Line { label: texts.proud, hint: texts.proud_hint, path: &path, ..Line::default() };
        own.proud_mm = self.sheet.number(ui, line, Of::Length, own.proud_mm).unwrap_or(own.proud_mm);
        if let Some(outline) = self.area(ui, id, &own.outline, Area::Feature(at)) {
            own.outline = outline;
        }
        if let Some(place) = self.bay.floor_features.get_mut(at) {
            *place = own;
        }
        if self.removed(ui) {
            self.bay.floor_features.remove(at);
        }
    }

    pub(super) fn runway(&mut self, ui: &mut Ui, id: &Id) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let Some(at) = self.bay.runways.iter().position(|own| own.id == *id) else { return };
        let Some(mut own) = self.bay.runways.get(at).cloned() else { return };
        let carried = &self.sheet.desk.answer().arrangement.on_runways;
        let mut carries = carried.contains(id);
        if ui.checkbox(&mut carries, widgets::soft(ui, texts.carries)).changed() {
            let mut now = carried.clone();
            now.retain(|own| own != id);
            if carries {
                now.push(id.clone());
            }
            self.out.push(Command::Bay(OfBay::Edit(Edit::Carried(now))));
        }
        if let Some(name) = self.new_name(ui, id) {
            own.id = name.clone();
            self.renamed = Some((id.clone(), name.clone()));
            self.out.push(Command::View(OfView::Select(Some(Subject::Runway(name)))));
        }
        let id = &own.id.clone();
        let path = format!("runway height {id}");
        let line = Line { label: texts.height, path: &path, ..Line::default() };
        own.top_mm = self.sheet.number(ui, line, Of::Length, own.top_mm).unwrap_or(own.top_mm);
        if let Some(outline) = self.area(ui, id, &own.outline, Area::Runway(at)) {
            own.outline = outline;
        }
        part(ui, texts.runway_levels, "runway levels", false, |ui| {
            self.levels(ui, &format!(" {id}"), &mut own.survey);
        });
        if let Some(place) = self.bay.runways.get_mut(at) {
            *place = own;
        }
        if self.removed(ui) {
            self.bay.runways.remove(at);
        }
    }

    pub(super) fn keep_free(&mut self, ui: &mut Ui, id: &Id) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let Some(at) = self.bay.keep_free.iter().position(|own| own.id == *id) else { return };
        let Some(mut own) = self.bay.keep_free.get(at).cloned() else { return };
        if let Some(name) = self.new_name(ui, id) {
            own.id = name.clone();
            self.out.push(Command::View(OfView::Select(Some(Subject::KeepFree(name)))));
        }
        let id = &own.id.clone();
        let kinds = [KeepFreeKind::Exit, KeepFreeKind::Panel, KeepFreeKind::Extinguisher];
        let chosen = self.sheet.pick(ui, texts.kind, &format!("free {id}"), &own.kind, &kinds, |kind| {
            texts.kept_free(*kind).to_owned()
        });
        own.kind = chosen.unwrap_or(own.kind);
        if let Some(outline) = self.area(ui, id, &own.outline, Area::KeepFree(at)) {
            own.outline = outline;
        }
        if let Some(place) = self.bay.keep_free.get_mut(at) {
            *place = own;
        }
        if self.removed(ui) {
            self.bay.keep_free.remove(at);
        }
    }

    /// One of the bays of a hall: its outline, and what of it is the shown set-up's.
    pub(super) fn hall_bay(&mut self, ui: &mut Ui, id: &Id) {
        let Some(at) = self.bay.bays.iter().position(|own| own.id == *id) else { return };
        let Some(mut own) = self.bay.bays.get(at).cloned() else { return };
        self.sheet.desk.of_hall_bay(ui, id, &mut self.out);
        if let Some(name) = self.new_name(ui, id) {
            own.id = name.clone();
            self.renamed = Some((id.clone(), name.clone()));
            self.out.push(Command::View(OfView::Select(Some(Subject::HallBay(name)))));
        }
        let id = &own.id.clone();
        if let Some(outline) = self.area(ui, id, &own.outline, Area::HallBay(at)) {
            own.outline = outline;
        }
        if let Some(place) = self.bay.bays.get_mut(at) {
            *place = own;
        }
        if self.removed(ui) {
            self.bay.bays.remove(at);
        }
    }

    fn new_name(&mut self, ui: &mut Ui, id: &Id) -> Option<Id> {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let name = self.sheet.id(ui, texts.name, &format!("area name {id}"), id)?;
        if self.sheet.desk.is_taken(&name) {
            self.out.push(Command::Say(self.sheet.desk.texts().name_taken(&name)));
            return None;
        }
        Some(name)
    }

    fn removed(&mut self, ui: &mut Ui) -> bool {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let removed = widgets::lesser(ui, texts.remove).clicked();
        if removed {
            self.sheet.did();
            self.out.push(Command::View(OfView::Select(None)));
        }
        removed
    }

    /// The four sides of a rectangle, else its corners; or drawn with the pointer.
    fn area(&mut self, ui: &mut Ui, id: &Id, outline: &Polygon, of: Area) -> Option<Polygon> {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let forms = self.sheet.texts;
        let tool = Tool::Draw(Drawn::Area(of));
        let now = self.sheet.desk.view().tool == tool;
        let draw = egui::Button::new(RichText::new(texts.draw_it).size(size::SMALL)).selected(now);
        if ui.add(draw).on_hover_text(forms.draw_why).clicked() {
            self.out.push(Command::View(OfView::Tool(if now { Tool::WhichSide } else { tool })));
        }
        let bounds = outline.bounds();
        let size = bounds.size();
        if outline.area() < size.x * size.y - 1.0 {
            let path = format!("area corners {id}");
            let locale = self.sheet.desk.view().locale;
            let hint = texts.corners_hint(locale.units);
            let line = Line { label: texts.corners, hint: &hint, path: &path, ..Line::default() };
            return self.sheet.lines(ui, line, &points_text(outline.outer(), locale), |text| {
                let corners =
                    points(text, locale, outline.outer()).ok_or_else(|| forms.not_points(locale.units))?;
                Polygon::simple(corners).map_err(|_| forms.not_points(locale.units))
            });
        }
        let paths = ["from x", "to x", "from y", "to y"].map(|field| format!("area {field} {id}"));
        let [left, right, near, far] = &paths;
        let line = |label, path| Line { label, hint: texts.area_hint, path, ..Line::default() };
        let lines = [
            line(texts.from_x, left),
            line(texts.to_x, right),
            line(texts.from_y, near),
            line(texts.to_y, far),
        ];
        self.sheet.sides(ui, lines, bounds)
    }
}
