//! The room and its walls.

use baywright_planner::model::{
    FloorSurvey, Id, Known, LevelPoint, Material, Provenance, RoomFault, validate::number,
};
use baywright_planner::words::{Locale, Units};
use egui::Ui;
use jiff::civil::Date;

use super::BaySheet;
use super::levels::{levels_of, marks_to_level};
use crate::screen::command::{Command, OfFile, OfView};
use crate::screen::forms::as_shown::AsShown;
use crate::screen::forms::car::body::{points, points_text};
use crate::screen::forms::car::car_form::{Line, Of, part, part_led};
use crate::screen::{Desk, widgets};

impl BaySheet<'_> {
    pub(super) fn room(&mut self, ui: &mut Ui) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let name = self.bay.name.clone();
        if let Some(name) = self.sheet.text(ui, (texts.name_of_bay, ""), "name", &name) {
            self.bay.name = name;
        }
        let line =
            Line { label: texts.ceiling, hint: texts.ceiling_hint, path: "ceiling", ..Line::default() };
        if let Some(typed) = self.sheet.number(ui, line, Of::Length, self.bay.ceiling_mm) {
            self.bay.ceiling_mm = typed;
        }
        let ways = [Known::Taped, Known::ByEye];
        let known = self.bay.walls_known;
        if let Some(known) = self
            .sheet
            .pick(ui, texts.walls_known, "known", &known, &ways, |known| texts.known(*known).to_owned())
        {
            self.bay.walls_known = known;
        }
        let locale = self.sheet.desk.view().locale;
        let shown = points_text(self.bay.room.outer(), locale);
        let hint = texts.corners_hint(locale.units);
        let line = Line { label: texts.corners, hint: &hint, path: "corners", ..Line::default() };
        let forms = self.sheet.texts;
        let bay = &self.bay;
        let typed = self.sheet.lines(ui, line, &shown, |text| {
            let corners =
                points(text, locale, bay.room.outer()).ok_or_else(|| forms.not_points(locale.units))?;
            let mut bay = bay.clone();
            match bay.replace_corners(corners) {
                Ok(()) => Ok(bay.room),
                Err(RoomFault::OtherOrder) => Err(texts.other_order.to_owned()),
                Err(RoomFault::NoSuch) => Err(texts.other_count.to_owned()),
                Err(_) => Err(texts.no_room.to_owned()),
            }
        });
        if let Some(room) = typed {
            self.bay.room = room;
        }
        let is_led = self.sheet.fields.is_led_to(texts.levels, "levels");
        part_led(ui, texts.levels, "levels", (false, is_led), |ui| {
            let mut survey = self.bay.survey.clone();
            self.levels(ui, "", &mut survey);
            self.bay.survey = survey;
        });
        self.marks_that_stay(ui);
        self.picture(ui);
        let mut source = self.bay.provenance.clone();
        if self.sheet.source(ui, "bay source", &mut source) {
            self.bay.provenance = source;
        }
    }

    /// Levels, one a line, and when they were taken: the floor's, or those of the runway of this name.
    pub(super) fn levels(&mut self, ui: &mut Ui, of: &str, survey: &mut Option<FloorSurvey>) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let forms = self.sheet.texts;
        let locale = self.sheet.desk.view().locale;
        let before: Vec<LevelPoint> =
            survey.iter().flat_map(|survey| survey.points.iter().copied()).collect();
        let shown: String = before.iter().map(|own| level_text(own, locale)).collect();
        let path = format!("levels{of}");
        let hint = texts.levels_hint(locale.units);
        let line = Line { label: texts.levels, hint: &hint, path: &path, ..Line::default() };
        let hand = self.sheet.desk.view().locale.language.hand();
        let scene = &self.sheet.desk.answer.assessment.scene;
        let runway = (!of.is_empty()).then(|| Id::from(of));
        let marks = marks_to_level(&self.bay, scene, runway.as_ref());
        let typed = self.sheet.lines(ui, line, &shown, |text| {
            let mut untouched = AsShown::new(&before, |own| level_text(own, locale));
            levels_of(text, &marks, locale.units, |line| untouched.take(line))
                .map_err(|bad| hand.bad_level(bad.number, bad.line, bad.what, locale.units))
        });
        // One window of the system at a time.
        if !self.sheet.desk.files.is_open()
            && widgets::lesser(ui, hand.read_levels).on_hover_text(hand.read_levels_why).clicked()
        {
            self.out.push(Command::File(OfFile::AskLevels(runway)));
        }
        if let Some(points) = typed {
            *survey = (!points.is_empty()).then(|| FloorSurvey {
                points: points.into(),
                // A table may be years old: its day is what somebody says, and no day by being typed or corrected today.
                taken: survey.as_ref().and_then(|survey| survey.taken),
                how: survey.as_ref().map(|survey| survey.how.clone()).unwrap_or_default(),
                provenance: survey
                    .as_ref()
                    .map_or_else(|| source_of_levels(self.sheet.desk), |survey| survey.provenance.clone()),
            });
        }
        let Some(own) = survey else { return };
        let shown = own.taken.map_or_else(String::new, |day| day.to_string());
        let path = format!("taken{of}");
        let line = Line { label: texts.surveyed_on, hint: forms.dated_hint, path: &path, ..Line::default() };
        let typed = self.sheet.typed(ui, line, &shown, |text| {
            let text = text.trim();
            if text.is_empty() {
                return Ok(None);
            }
            text.parse::<Date>().map(Some).map_err(|_| forms.not_a_day.to_owned())
        });
        own.taken = typed.unwrap_or(own.taken);
        let today = self.sheet.desk.document().today();
        if let Some(today) = today.filter(|today| own.taken != Some(*today))
            && widgets::lesser(ui, texts.surveyed_today).on_hover_text(texts.surveyed_today_why).clicked()
        {
            own.taken = Some(today);
        }
        self.how_taken(ui, of, &mut own.how);
        let mut source = own.provenance.clone();
        if self.sheet.source(ui, &format!("survey source{of}"), &mut source) {
            own.provenance = source;
        }
    }

    pub(super) fn wall(&mut self, ui: &mut Ui, id: &Id) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let Some(wall) = self.bay.walls.iter().position(|own| own.id == *id) else { return };
        let Some((from, to)) = self.bay.wall_ends(wall) else { return };
        let renamed = self.sheet.id(ui, texts.name, &format!("wall {id}"), id);
        // In the next frame its fields go by its new name: Enter leads to them there.
        let id = renamed.as_ref().unwrap_or(id);
        if let Some(name) = renamed.clone() {
            self.bay.rename_wall(wall, name.clone());
            self.out.push(Command::View(OfView::Select(Some(baywright_planner::Subject::Wall(name)))));
        }
        let material = self.bay.walls.get(wall).map_or(Material::Unknown, |own| own.material);
        if let Some(material) = self.material(ui, &format!("wall material {id}"), material)
            && let Some(own) = self.bay.walls.get_mut(wall)
        {
            own.material = material;
        }
        let length = from.distance(to);
        // How the next length is meant, until it is said otherwise.
        let key = egui::Id::unique("corner only");
        let mut corner_only = ui.data(|data| data.get_temp(key)).unwrap_or(false);
        let path = format!("wall length {id}");
        let line =
            Line { label: texts.wall_length, hint: texts.wall_length_hint, path: &path, ..Line::default() };
        if let Some(typed) = self.sheet.number(ui, line, Of::Length, length) {
            let done = self.bay.stretch_wall(wall, typed, corner_only);
            self.say(done);
        }
        ui.checkbox(&mut corner_only, widgets::soft(ui, texts.corner_only));
        ui.data_mut(|data| data.insert_temp(key, corner_only));
        let path = format!("wall push {id}");
        let line = Line { label: texts.push, hint: texts.push_hint, path: &path, ..Line::default() };
        if let Some(by) = self.sheet.number(ui, line, Of::Length, 0.0) {
            let done = self.bay.push_wall(wall, by);
            self.say(done);
        }
        part(ui, texts.alcove, "alcove", false, |ui| self.alcove(ui, wall, id, length));
        if widgets::lesser(ui, texts.remove_corner).clicked() {
            let done = self.bay.remove_corner(wall);
            self.sheet.did();
            self.say(done);
            self.out.push(Command::View(OfView::Select(Some(baywright_planner::Subject::Floor))));
        }
    }

    fn alcove(&mut self, ui: &mut Ui, wall: usize, id: &Id, length: f64) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        // What is typed is kept until it is built, as numbers that belong to this wall.
        let key = egui::Id::unique("alcove").with(id.as_str());
        let usual = [(length * 0.4).round(), (length * 0.2).round(), 600.0];
        let mut sizes = ui.data_mut(|data| *data.get_temp_mut_or(key, usual));
        for (i, (label, hint)) in
            [(texts.alcove_from, ""), (texts.alcove_width, ""), (texts.alcove_depth, texts.alcove_depth_hint)]
                .into_iter()
                .enumerate()
        {
            let path = format!("alcove {id} {i}");
            let line = Line { label, hint, path: &path, ..Line::default() };
            let Some(own) = sizes.get_mut(i) else { continue };
            *own = self.sheet.number(ui, line, Of::Length, *own).unwrap_or(*own);
        }
        ui.data_mut(|data| data.insert_temp(key, sizes));
        if widgets::lesser(ui, texts.build).clicked() {
            let done = self.bay.alcove(wall, sizes.into(), |part| texts.alcove_part(id.as_str(), part));
            self.sheet.did();
            self.say(done);
        }
    }

    pub(super) fn material(&mut self, ui: &mut Ui, path: &str, now: Material) -> Option<Material> {
        let texts = self.sheet.desk.view().locale.language.rooms();
        let words = self.sheet.desk.words();
        self.sheet.pick(ui, texts.material, path, &now, &Material::ALL, |own| words.material(*own).to_owned())
    }

    fn say(&mut self, done: Result<(), RoomFault>) {
        let texts = self.sheet.desk.view().locale.language.rooms();
        if let Err(fault) = done {
            self.out.push(Command::Say(
                match fault {
                    RoomFault::Shape(_) | RoomFault::NoSuch | RoomFault::OtherOrder => texts.crossing,
                    RoomFault::TooLong { wall: 0.0 } => texts.corner_in_use,
                    RoomFault::TooLong { .. } => texts.alcove_too_long,
                }
                .to_owned(),
            ));
        }
    }
}

/// Levels that are typed or read are the shop's own word, of no day until somebody says which.
pub(in crate::screen) fn source_of_levels(desk: &Desk) -> Provenance {
    Provenance::Measured { by: desk.texts().this_shop.to_owned(), date: None }
}

/// A level as it can be typed again, in the unit that is shown.
fn level_text(point: &LevelPoint, locale: Locale) -> String {
    let (x, y) = (locale.length_to_type(point.at.x), locale.length_to_type(point.at.y));
    match locale.units {
        Units::Millimetres => {
            format!("{}, {}, {}\n", number(point.at.x), number(point.at.y), number(point.level_mm))
        }
        // What matters of a level is finer than what a tape reads.
        Units::Metres => format!("{x}; {y}; {}\n", in_metres(point.level_mm)),
        Units::FeetInches => {
            format!("{x}; {y}; {}\"\n", number((point.level_mm * TO_INCHES).round() / 1_000.0))
        }
    }
}

/// To a hundredth of a millimetre; no "-0".
fn in_metres(mm: f64) -> String {
    number((mm * 100.0).round() / 1e5 + 0.0)
}

/// A thousandth of an inch in a millimetre; an inch is 25.4 mm.
const TO_INCHES: f64 = 1_000.0 / 25.4;
