//! The figures of what is in hand, to be read and typed: anything that can be dragged can be typed.

use baywright_planner::Subject;
use baywright_planner::edit::{Edit, is_built};
use baywright_planner::geometry::{DVec2, PlanPose, Span, angle};
use baywright_planner::hand::{WallGap, gap_to_wall, pose_of, wall_gaps};
use baywright_planner::model::{
    Effort, Id, Known, Material, Metal, ParkedKnown, Shape, StandSet, Thing, ThingKind,
};
use baywright_planner::words::sentence_start;
use egui::{IdSalt, RichText, Ui};

use super::field::{Fields, Row};
use super::picked::Picker;
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::step::Stepped;
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

/// The part of a form that says where something stands, for whom the keyboard is led there.
pub(in crate::screen) const PLACE: &str = "place";

impl Desk {
    pub(in crate::screen) fn form(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let Some(subject) = self.view.selected.clone() else { return };
        if self.view.are_several() {
            self.several_form(ui, out);
            return;
        }
        // Taken out while the panel is drawn: everything else is only looked at.
        // Enter leads on, as in every form.
        let mut fields = std::mem::take(&mut self.fields).leading_on(true);
        ui.spacing_mut().item_spacing.y = 3.0;
        // As the list names it.
        let name = match &subject {
            Subject::Floor => self.view.locale.language.rooms().room.to_owned(),
            subject => sentence_start(&self.words().bare_subject(subject)),
        };
        ui.label(RichText::new(name).font(look::bold(size::BODY)));
        match &subject {
            Subject::Thing(id) => self.thing_form(ui, &mut fields, id, out),
            Subject::Car => self.car_form(ui, &mut fields, out),
            Subject::Dimension(id) => self.dimension_form(ui, &mut fields, id, out),
            Subject::Stand(id) | Subject::Target(id) => self.stand_form(ui, &mut fields, id, out),
            other @ (Subject::Floor
            | Subject::Wall(_)
            | Subject::Opening(_)
            | Subject::FloorFeature(_)
            | Subject::Runway(_)
            | Subject::KeepFree(_)
            | Subject::HallBay(_)) => self.room_form(ui, &mut fields, other, out),
            other => {
                let said = self.texts().nothing_to_type;
                ui.label(widgets::soft(ui, said));
                let _ = other;
            }
        }
        self.fields = fields.leading_on(false);
    }

    /// The walls that it is taped from: those that were nearest when it was taken in hand, or when the hand last drew it
    /// somewhere. What is typed of one must not become another's distance.
    fn taped_from(&self, ui: &Ui, subject: &Subject) -> Vec<WallGap> {
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        let key = egui::Id::unique("taped from");
        let count = arrangement.bay.walls.len();
        let kept: Option<(Subject, usize, Vec<usize>)> = ui.data(|data| data.get_temp(key));
        if let Some((of, walls_then, walls)) = kept
            && of == *subject
            && walls_then == count
            && !self.document.is_held()
        {
            return walls.iter().filter_map(|&wall| gap_to_wall(arrangement, scene, subject, wall)).collect();
        }
        let gaps = wall_gaps(arrangement, scene, subject);
        let walls: Vec<usize> = gaps.iter().map(|gap| gap.wall).collect();
        ui.data_mut(|data| data.insert_temp(key, (subject.clone(), count, walls)));
        gaps
    }

    fn read_degrees(&self, text: &str) -> Result<f64, String> {
        typed::degrees(text).map(angle::radians).ok_or_else(|| self.texts().no_angle(text))
    }

    /// A length; what is typed is taken exactly.
    pub(super) fn length_row(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        row: (&str, &str),
        of: &str,
        mm: f64,
    ) -> Option<f64> {
        let (label, hint) = row;
        let row = Row { label, hint, of };
        fields.stepping(Stepped::Length(mm));
        fields.row(ui, &row, &self.view.locale.length_to_type(mm), |text| self.read_length(text))
    }

    fn angle_row(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        row: (&str, &str),
        of: &str,
        radians: f64,
    ) -> Option<f64> {
        let (label, hint) = row;
        let row = Row { label, hint, of };
        let shown = self.region().degrees_to_type(angle::degrees(radians));
        fields.stepping(Stepped::Degrees(angle::degrees(radians)));
        fields.row(ui, &row, &shown, |text| self.read_degrees(text))
    }

    /// Where it stands: from two walls, as a person tapes it, and how it is turned.
    fn place_rows(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        subject: &Subject,
        of: &str,
        out: &mut Vec<Command>,
    ) {
        let texts = self.texts();
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        let Some(pose) = pose_of(arrangement, scene, subject) else { return };
        if fields.arrives_at(PLACE, of) {
            fields.lead_on();
        }
        for gap in self.taped_from(ui, subject) {
            let label = texts.from_wall(gap.id.as_str());
            if let Some(wanted) = self.length_row(ui, fields, (&label, texts.from_wall_hint), of, gap.gap_mm)
            {
                self.set_gap(subject, &gap, pose, wanted, out);
            }
        }
        let row = (texts.turned, texts.turned_hint);
        if let Some(heading) = self.angle_row(ui, fields, row, of, pose.heading()) {
            let edit = self.typed_place(subject, PlanPose::new(pose.origin(), angle::wrapped(heading)));
            out.extend(edit.map(|asked| Command::Bay(OfBay::Edit(asked))));
        }
    }

    fn set_gap(&self, subject: &Subject, gap: &WallGap, pose: PlanPose, wanted: f64, out: &mut Vec<Command>) {
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        // The wall that was named when typing began.
        let now = gap_to_wall(arrangement, scene, subject, gap.wall).map_or(gap.gap_mm, |gap| gap.gap_mm);
        let edit = self.typed_place(subject, pose.shifted(gap.inward * (wanted - now)));
        out.extend(edit.map(|edit| {
            Command::Bay(match edit {
                Edit::Place { thing, place } => OfBay::Tape { thing, place, inward: gap.inward },
                other => OfBay::Edit(other),
            })
        }));
    }

    fn thing_form(&self, ui: &mut Ui, fields: &mut Fields, id: &Id, out: &mut Vec<Command>) {
        let texts = self.texts();
        let Some(thing) = self.answer.arrangement.bay.things.iter().find(|own| own.id == *id) else { return };
        if let Some((beside, _)) = self.answer.arrangement.part_beside(id) {
            self.of_other_set_up(ui, &beside.set_up, out);
            return;
        }
        let of = id.as_str();
        let name = Row { label: texts.name, hint: "", of };
        let read = |text: &str| {
            let text = text.trim();
            if text.is_empty() { Err(texts.no_name.to_owned()) } else { Ok(Id::from(text)) }
        };
        let renamed = fields.row(ui, &name, of, read);
        if let Some(name) = renamed.clone() {
            out.push(Command::Bay(OfBay::Edit(Edit::Rename { thing: id.clone(), name })));
        }
        // In the next frame its fields go by its new name: Enter leads to them there.
        let of = renamed.as_ref().map_or(of, Id::as_str);
        // The hand does not move what is locked; what a tape reads is entered all the same.
        if thing.locked {
            ui.add(egui::Label::new(widgets::soft(ui, texts.is_locked)).wrap());
        }
        self.place_rows(ui, fields, &Subject::Thing(id.clone()), of, out);
        self.by_tape(ui, fields, id, out);
        self.whose_thing(ui, thing, out);
        self.size_rows(ui, fields, thing, of, out);
        self.kind_rows(ui, fields, thing, out);
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            if widgets::lesser(ui, texts.copy).on_hover_text(texts.copy_why).clicked() {
                out.push(Command::Bay(OfBay::Copy));
            }
            let why = if self.is_built_in(id) {
                self.view.locale.language.rooms().remove_built_why
            } else {
                texts.remove_why
            };
            if widgets::lesser(ui, texts.remove).on_hover_text(why).clicked() {
                out.push(Command::Bay(OfBay::Remove));
            }
        });
    }

    /// Whether a thing is a part of the building that other set-ups are made in too: removed, it leaves all of them.
    pub(super) fn is_built_in(&self, thing: &Id) -> bool {
        let removal = Edit::Remove(thing.clone());
        !removal.of_building(self.document.layout(), self.document.shown()).removed.is_empty()
    }

    /// Where it belongs, this arrangement or the bay, and the way from one to the other.
    fn whose_thing(&self, ui: &mut Ui, thing: &Thing, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        let id = &thing.id;
        let saved = self.document.saved_arrangement();
        let is_added = saved.is_some_and(|own| own.added.iter().any(|own| own.id == *id));
        let is_moved = saved.is_some_and(|own| own.moved.iter().any(|own| own.thing == *id));
        let has_others = self.document.layout().arrangements.len() > 1 && !self.has_own_building();
        let every = |why| Some((texts.in_every, why, Edit::InEvery(id.clone())));
        let (said, way) = if self.has_own_building() {
            (texts.thing_planned, None)
        } else if is_added {
            (texts.thing_of_own, every(texts.in_every_why))
        } else if is_moved {
            (texts.thing_moved, every(texts.place_in_every_why))
        } else {
            // What is built is in every set-up: as planned it is elsewhere in a building of the set-up's own.
            let is_built = is_built(thing);
            let said = if is_built && thing.kind != ThingKind::LiftArm {
                texts.thing_built
            } else {
                texts.thing_of_bay
            };
            let alone = (texts.here_alone, texts.here_alone_why, Edit::HereAlone(id.clone()));
            (said, (!is_built).then_some(alone))
        };
        ui.add(egui::Label::new(widgets::soft(ui, said)).wrap());
        if let Some((name, why, edit)) = way.filter(|_| has_others)
            && widgets::link(ui, self.view.theme, name).on_hover_text(why).clicked()
        {
            out.push(Command::Bay(OfBay::Edit(edit)));
        }
    }

    fn size_rows(&self, ui: &mut Ui, fields: &mut Fields, thing: &Thing, of: &str, out: &mut Vec<Command>) {
        let texts = self.texts();
        let mut reshape = |shape: Shape| {
            out.push(Command::Bay(OfBay::Reshape(Edit::Reshape { thing: thing.id.clone(), shape })));
        };
        match thing.footprint.shape() {
            Shape::Rectangle { length_mm: length, width_mm: width } => {
                if let Some(length) =
                    self.length_row(ui, fields, (texts.length, texts.length_hint), of, *length)
                {
                    reshape(Shape::Rectangle { length_mm: length, width_mm: *width });
                }
                if let Some(width) = self.length_row(ui, fields, (texts.width, ""), of, *width) {
                    reshape(Shape::Rectangle { length_mm: *length, width_mm: width });
                }
            }
            Shape::Round { diameter_mm: diameter } => {
                if let Some(diameter) = self.length_row(ui, fields, (texts.diameter, ""), of, *diameter) {
                    reshape(Shape::Round { diameter_mm: diameter });
                }
            }
            Shape::Outline(_) => {}
        }
        let (bottom, top) = (thing.span.bottom(), thing.span.top());
        let shown = |mm: f64| self.view.locale.length_to_type(mm);
        let spans = |bottom: f64, top: f64| {
            Span::new(bottom, top).map_err(|_| NotRead::Wrong(texts.upside_down.to_owned()))
        };
        let row = Row { label: texts.bottom, hint: texts.bottom_hint, of };
        fields.stepping(Stepped::Length(bottom));
        let lower = fields.row(ui, &row, &shown(bottom), |text| spans(self.read_length(text)?, top));
        let row = Row { label: texts.top, hint: texts.top_hint, of };
        fields.stepping(Stepped::Length(top));
        let upper = fields.row(ui, &row, &shown(top), |text| spans(bottom, self.read_length(text)?));
        if let Some(span) = lower.or(upper) {
            out.push(Command::Bay(OfBay::Edit(Edit::Heights { thing: thing.id.clone(), span })));
        }
    }

    /// What is known of a thing.
    fn kind_rows(&self, ui: &mut Ui, fields: &mut Fields, thing: &Thing, out: &mut Vec<Command>) {
        let texts = self.texts();
        let words = self.words();
        let mut now = (thing.kind, thing.material, thing.place.known, thing.effort, thing.locked);
        let mut metal = thing.metal;
        let before = now;
        let kinds = ThingKind::ALL;
        let named = |own: &ThingKind| words.kind_of_thing(*own).to_owned();
        now.0 = choice(ui, fields, texts.kind, &now.0, &kinds, named).unwrap_or(now.0);
        let named = |own: &Material| words.material(*own).to_owned();
        now.1 = choice(ui, fields, texts.material, &now.1, &Material::ALL, named).unwrap_or(now.1);
        // A face of metal says enough.
        if now.1.metal() != Metal::All {
            let named =
                |own: &Option<Metal>| own.map_or(texts.as_its_face, |own| words.metal(own)).to_owned();
            let all: Vec<Option<Metal>> = std::iter::once(None).chain(Metal::ALL.map(Some)).collect();
            metal = choice(ui, fields, texts.metal, &metal, &all, named).unwrap_or(metal);
        }
        let knowns = [Known::Taped, Known::ByEye];
        let named = |own: &Known| words.how_known(*own);
        now.2 = choice(ui, fields, texts.known, &now.2, &knowns, named).unwrap_or(now.2);
        let row = (texts.known_within, texts.known_within_hint);
        let within = self.answer.arrangement.shop.within(now.2);
        if let Some(within) = self.length_row(ui, fields, row, thing.id.as_str(), within) {
            now.2 = Known::Within(within);
        }
        let named = |own: &Effort| words.effort(*own).to_owned();
        now.3 = choice(ui, fields, texts.to_move, &now.3, &Effort::ALL, named).unwrap_or(now.3);
        let locked = ui.checkbox(&mut now.4, RichText::new(texts.locked).size(size::SMALL));
        locked.on_hover_text(texts.locked_why);
        if now != before || metal != thing.metal {
            let (kind, material, known, effort, locked) = now;
            let thing = thing.id.clone();
            let edit = Edit::Describe { thing, kind, material, metal, known, effort, locked };
            out.push(Command::Bay(OfBay::Edit(edit)));
        }
    }

    fn car_form(&self, ui: &mut Ui, fields: &mut Fields, out: &mut Vec<Command>) {
        let texts = self.texts();
        let vehicle = &self.answer.arrangement.vehicle;
        ui.label(widgets::soft(ui, &vehicle.name));
        self.place_rows(ui, fields, &Subject::Car, vehicle.id.as_str(), out);
        let words = self.words();
        let fact = |ui: &mut Ui, label: &str, value: String| {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, label));
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    ui.label(RichText::new(value).size(size::SMALL));
                });
            });
        };
        let before = self.answer.arrangement.parked_known;
        let (knowns, named) =
            ([ParkedKnown::Planned, ParkedKnown::Taped], |own: &ParkedKnown| words.how_parked(*own));
        if let Some(now) = choice(ui, fields, texts.known, &before, &knowns, named) {
            out.push(Command::Bay(OfBay::Edit(Edit::ParkedKnown(now))));
        }
        self.hall_rows(ui, fields, out);
        fact(ui, texts.length, words.length(vehicle.length_mm));
        fact(ui, texts.width, words.length(vehicle.width_mm));
        fact(ui, texts.wheelbase, words.length(vehicle.wheelbase_mm));
        ui.label(widgets::soft(ui, words.provenance_sentence(&vehicle.provenance)));
        let guessed = vehicle.guessed();
        if !guessed.is_empty() {
            ui.label(widgets::soft(ui, texts.assumed(&guessed)));
        }
        ui.label(widgets::soft(ui, texts.marks_go_with_car));
        self.measured_rows(ui, fields, out);
    }

    /// How a target stands off its mark, in its own directions.
    fn stand_form(&self, ui: &mut Ui, fields: &mut Fields, id: &Id, out: &mut Vec<Command>) {
        let texts = self.texts();
        let Some(target) = self.answer.assessment.scene.targets.iter().find(|own| own.id == *id) else {
            return;
        };
        let (meant, set) = (target.meant, target.set);
        // Seen from the sensor: away from it, and to the left. The target's own x points towards the sensor.
        let off = meant.place.inverse() * set.place.origin();
        let turned = angle::wrapped(set.place.heading() - meant.place.heading());
        let of = id.as_str();
        let mut put = |off: DVec2, turned: f64, height: f64, pitch: f64| {
            let place = PlanPose::new(meant.place * off, angle::wrapped(meant.place.heading() + turned));
            let set = StandSet::At { place, height_mm: height, pitch_rad: pitch };
            out.push(Command::Bay(OfBay::Edit(Edit::Stand { placement: id.clone(), set })));
        };
        if set == meant {
            ui.label(widgets::soft(ui, texts.on_its_mark));
        }
        ui.label(widgets::soft(ui, texts.off_its_mark));
        let row = (texts.further_away, texts.further_away_hint);
        if let Some(away) = self.length_row(ui, fields, row, of, -off.x) {
            put(DVec2::new(-away, off.y), turned, set.height_mm, set.pitch_rad);
        }
        let row = (texts.to_the_left, texts.to_the_left_hint);
        if let Some(left) = self.length_row(ui, fields, row, of, -off.y) {
            put(DVec2::new(off.x, -left), turned, set.height_mm, set.pitch_rad);
        }
        let row = (texts.turned, texts.stand_turned_hint);
        if let Some(turned) = self.angle_row(ui, fields, row, of, turned) {
            put(off, turned, set.height_mm, set.pitch_rad);
        }
        if !target.lies {
            let row = (texts.height, texts.height_hint);
            if let Some(height) = self.length_row(ui, fields, row, of, set.height_mm) {
                put(off, turned, height, set.pitch_rad);
            }
            let row = (texts.tipped, texts.tipped_hint);
            if let Some(pitch) = self.angle_row(ui, fields, row, of, set.pitch_rad) {
                put(off, turned, set.height_mm, pitch);
            }
        }
        ui.add_space(4.0);
        if set != meant && widgets::lesser(ui, texts.put_on_mark).clicked() {
            let set = StandSet::OnMark;
            out.push(Command::Bay(OfBay::Edit(Edit::Stand { placement: id.clone(), set })));
        }
    }
}

/// How much of a row its name has.
const NAME_SHARE: f32 = 0.4;

/// A row with a name and a choice of a few; `Some` if another one was chosen.
pub(in crate::screen) fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    fields: &mut Fields,
    label: &str,
    now: &T,
    all: &[T],
    name: impl Fn(&T) -> String,
) -> Option<T> {
    choice_of(ui, fields, (label, ""), now, all, name)
}

/// The same where several of one name stand in a form: `of` tells them apart.
pub(in crate::screen) fn choice_of<T: PartialEq + Clone>(
    ui: &mut Ui,
    fields: &mut Fields,
    (label, of): (&str, &str),
    now: &T,
    all: &[T],
    name: impl Fn(&T) -> String,
) -> Option<T> {
    let shown = name(now);
    let text = widgets::soft(ui, label);
    let mut beside = |ui: &mut Ui, named: egui::Id| {
        let width = ui.available_width() - 4.0;
        let picker = Picker { salt: IdSalt::new((label, of)), path: "", named, width, letters: size::SMALL };
        picker.show(ui, Some(fields), now, all, &name).chosen
    };
    let whole = ui.available_width();
    // What is chosen is read whole: where it would be cut beside its name, it stands under it.
    if widgets::is_chosen_cut(ui, &shown, whole * (1.0 - NAME_SHARE) - ui.spacing().item_spacing.x - 4.0) {
        return ui
            .vertical(|ui| {
                let named = ui.add(egui::Label::new(text).wrap()).id;
                beside(ui, named)
            })
            .inner;
    }
    ui.horizontal(|ui| {
        let named = widgets::name_column(ui, whole * NAME_SHARE, text).id;
        beside(ui, named)
    })
    .inner
}
