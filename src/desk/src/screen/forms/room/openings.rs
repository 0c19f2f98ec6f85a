//! Doors, windows, gaps.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::model::{Bay, Id, Opening, OpeningKind};
use egui::Ui;

use super::BaySheet;
use crate::screen::command::{Command, OfBay, OfView};
use crate::screen::forms::car::car_form::{Line, Of};
use crate::screen::widgets;

impl BaySheet<'_> {
    pub(super) fn opening(&mut self, ui: &mut Ui, id: &Id) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let Some(at) = self.bay.openings.iter().position(|own| own.id == *id) else { return };
        let Some(mut own) = self.bay.openings.get(at).cloned() else { return };
        let here = self.sheet.desk.answer().arrangement.bay.openings.iter().find(|own| own.id == *id);
        // Open or shut belongs to the arrangement.
        if matches!(own.kind, OpeningKind::RollerDoor | OpeningKind::SwingDoor)
            && let Some(here) = here
        {
            let shut = here.shut;
            let chosen =
                self.sheet.pick(ui, texts.stands, &format!("stands {id}"), &shut, &[true, false], |shut| {
                    if *shut { texts.shut } else { texts.open }.to_owned()
                });
            if let Some(shut) = chosen {
                self.out.push(Command::Bay(OfBay::Edit(Edit::Door { door: id.clone(), shut })));
            }
            let mut kept = shut && self.sheet.desk.answer().arrangement.kept_shut.contains(id);
            if ui.checkbox(&mut kept, widgets::soft(ui, texts.keep_shut)).changed() {
                self.out.push(Command::Bay(OfBay::Edit(Edit::KeepShut { door: id.clone(), kept })));
            }
        }
        if let Some(name) = self.sheet.id(ui, texts.name, &format!("opening {id}"), id) {
            if self.sheet.desk.is_taken(&name) {
                self.out.push(Command::Say(self.sheet.desk.texts().name_taken(&name)));
            } else {
                own.id = name.clone();
                self.renamed = Some((id.clone(), name.clone()));
                self.out.push(Command::View(OfView::Select(Some(Subject::Opening(name)))));
            }
        }
        // In the next frame its fields go by its new name: Enter leads to them there.
        let id = &own.id.clone();
        let kinds = [OpeningKind::RollerDoor, OpeningKind::SwingDoor, OpeningKind::Window, OpeningKind::Gap];
        let chosen =
            self.sheet.pick(ui, texts.opening, &format!("opening kind {id}"), &own.kind, &kinds, |kind| {
                texts.opening_of(*kind).to_owned()
            });
        own.kind = chosen.unwrap_or(own.kind);
        let names: Vec<String> = self.bay.walls.iter().map(|wall| wall.id.to_string()).collect();
        let all: Vec<usize> = (0..names.len()).collect();
        let chosen =
            self.sheet.pick(ui, texts.in_wall, &format!("opening wall {id}"), &own.wall, &all, |&wall| {
                names.get(wall).cloned().unwrap_or_default()
            });
        if let Some(wall) = chosen {
            own.wall = wall;
            fit_into(&self.bay, &mut own);
        }
        // It is taped along its wall from the corner with the wall before.
        let before = self.bay.walls.len().saturating_sub(1);
        let before = own.wall.checked_sub(1).unwrap_or(before);
        let corner = self.bay.walls.get(before).map_or("", |wall| wall.id.as_str());
        let corner = self.sheet.desk.texts().from_wall(corner);
        for (label, hint, field, value) in [
            (corner.as_str(), texts.from_corner_hint, "from", &mut own.from_mm),
            (texts.width, "", "width", &mut own.width_mm),
        ] {
            let path = format!("opening {field} {id}");
            let line = Line { label, hint, path: &path, ..Line::default() };
            *value = self.sheet.number(ui, line, Of::Length, *value).unwrap_or(*value);
        }
        let paths = ["bottom", "top", "beyond"].map(|field| format!("opening {field} {id}"));
        let [bottom, top, beyond] = &paths;
        let line = |label, hint, path| Line { label, hint, path, ..Line::default() };
        let heights = [line(texts.bottom, "", bottom), line(texts.top, "", top)];
        own.span = self.sheet.heights(ui, heights, own.span).unwrap_or(own.span);
        let free = line(texts.beyond, texts.beyond_hint, beyond);
        let typed = self.sheet.number(ui, free, Of::Length, own.free_beyond_mm);
        own.free_beyond_mm = typed.unwrap_or(own.free_beyond_mm);
        let material = self.material(ui, &format!("opening material {id}"), own.material);
        own.material = material.unwrap_or(own.material);
        if ui.checkbox(&mut own.is_exit, widgets::soft(ui, texts.is_exit)).changed() {
            self.sheet.did();
        }
        if let Some(place) = self.bay.openings.get_mut(at) {
            *place = own;
        }
        if widgets::lesser(ui, texts.remove).clicked() {
            self.bay.openings.remove(at);
            self.sheet.did();
            self.out.push(Command::View(OfView::Select(None)));
        }
    }
}

/// In one act: an opening that has come to its wall keeps its distance from the corner if there is room, else it goes to the
/// nearest place between the openings that are there; in the largest such place it is as wide as that, if none is wide enough.
pub(super) fn fit_into(bay: &Bay, own: &mut Opening) {
    let length = bay.wall_ends(own.wall).map_or(0.0, |(from, to)| from.distance(to));
    let others = bay.openings.iter().filter(|other| other.wall == own.wall && other.id != own.id);
    let mut taken: Vec<(f64, f64)> =
        others.map(|other| (other.from_mm, other.from_mm + other.width_mm)).collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = Vec::new();
    let mut from = 0.0;
    for (start, end) in taken.into_iter().chain([(length, length)]) {
        free.push((from, start));
        from = f64::max(from, end);
    }
    let near = |&(from, to): &(f64, f64)| {
        // As wide as the place itself, rounding may leave it a hair too wide.
        let at = own.from_mm.clamp(from, (to - own.width_mm).max(from));
        (at, (at - own.from_mm).abs())
    };
    let wide = free.iter().filter(|(from, to)| to - from >= own.width_mm).map(near);
    let nearest = wide.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at);
    if let Some(at) = nearest {
        own.from_mm = at;
    } else if let Some((from, to)) = free.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0))) {
        own.from_mm = from.ceil();
        own.width_mm = (to.floor() - own.from_mm).max(0.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A door that is just as wide as the place that it comes to, whichever way rounding leaves that.
    #[test]
    fn a_door_as_wide_as_its_place_fits() {
        let document = crate::session::document::Document::open(
            std::path::Path::new("clear-bay"),
            baywright_planner::model::JudgedBy::default(),
        )
        .unwrap();
        let mut bay = document.layout().bay.clone();
        bay.openings.truncate(1);
        let (wall, length) = (bay.openings[0].wall, 7_000.0);
        for step in 0..4_000_u16 {
            let width = f64::from(step) * 0.7 + 300.3;
            let other = &mut bay.openings[0];
            (other.from_mm, other.width_mm) = (0.1, width);
            let place = length - (0.1 + width);
            let mut own = Opening { id: "own".into(), from_mm: 0.0, width_mm: place, wall, ..other.clone() };
            fit_into(&bay, &mut own);
            assert!((own.from_mm - (0.1 + width)).abs() < 1.0 && own.width_mm <= place, "{step}: {own:?}");
        }
    }
}
