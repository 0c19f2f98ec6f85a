//! Two arrangements of one bay side by side, how they differ, and what changed in the findings: before and after moving the
//! cabinet, or a wall.

use std::collections::BTreeMap;
use std::sync::Arc;

use baywright_drawing::sign::SignKind;
use baywright_drawing::{Drawing, Fit, Lettering, ViewState, top_view};
use baywright_planner::difference::{Found, between_arrangements, found};
use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::{Arrangement, Id, JudgedBy, Layout};
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Finding, Subject};
use egui::{IdSalt, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2};

use crate::screen::building::difference_lines;
use crate::screen::canvas::{Fills, Painter};
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::Picker;
use crate::screen::look::{self, size};
use crate::screen::page::{Compare, With};
use crate::screen::{Desk, widgets};
use crate::session::document::made;
use crate::session::letters::Letters;

/// The other arrangement and what is said of it, as long as nothing changes.
#[derive(Debug, Default)]
pub(in crate::screen) struct Compared {
    of: Option<Judged>,
    made: Option<(Arc<Arrangement>, Arc<Assessment>)>,
    fills: Fills,
}

/// What the other arrangement was judged from: of which layout, its name, by which settings and day, and the mark of its car's
/// profile, which may be changed while both stay.
#[derive(Debug)]
struct Judged {
    layout: Arc<Layout>,
    id: Id,
    by: JudgedBy,
    car: Option<String>,
}

/// Between what was moved and the ring around it, px.
const RING_PX: f32 = 5.0;
/// Height of a picture, px: as much as its width lets the room fill, within these.
const PICTURE_PX: (f32, f32) = (304.0, 400.0);
/// The width of the list of what it can be compared with, px.
const PICKER_PX: f32 = 240.0;
/// Around the room: names and the overall dimensions, px.
const AROUND: DVec2 = DVec2::new(90.0, 80.0);

/// What stands elsewhere in the other set-up: ringed in both pictures.
fn moved(first: &Arrangement, second: &Arrangement) -> Vec<Subject> {
    let places = |of: &Arrangement| -> BTreeMap<Id, PlanPose> {
        of.bay.things.iter().map(|thing| (thing.id.clone(), thing.place.at)).collect()
    };
    let (before, after) = (places(first), places(second));
    let things = before.into_iter().filter(|(id, was)| after.get(id).is_some_and(|is| is != was));
    let car = (first.parked != second.parked).then_some(Subject::Car);
    things.map(|(id, _)| Subject::Thing(id)).chain(car).collect()
}

/// What is found of one, with its letter and the one by which the other has it.
struct Told<'a> {
    letter: &'a str,
    other: Option<&'a str>,
    finding: &'a Finding,
}

/// What is found of one: what the other does not have, and what it has too.
fn told<'a>(
    (of, letters): (&'a Assessment, &'a [String]),
    (other, others): (&Assessment, &'a [String]),
) -> (Vec<Told<'a>>, Vec<Told<'a>>) {
    let Found { alone, in_both } = found(of, other);
    let one = |at: usize, there: Option<usize>| {
        let other = there.and_then(|there| others.get(there)).map(String::as_str);
        Some(Told { letter: letters.get(at)?, other, finding: of.findings.get(at)? })
    };
    let alone = alone.into_iter().filter_map(|at| one(at, None)).collect();
    (alone, in_both.into_iter().filter_map(|(at, there)| one(at, Some(there))).collect())
}

impl Desk {
    pub(super) fn compare_page(&mut self, ui: &mut Ui, page: &mut Compare, out: &mut Vec<Command>) {
        let texts = self.texts();
        let layout = Arc::clone(self.document.layout());
        let shown = self.document.shown().clone();
        let by = self.document.by();
        let place = layout.arrangements.iter().position(|own| own.id == shown).unwrap_or(0);
        let others = || layout.arrangements.iter().map(|own| &own.id).filter(|id| **id != shown);
        let opened = Arc::clone(self.document.opened());
        let Some(opened_as) = self.document.opened_as().cloned() else { return };
        let with = page.with.clone().unwrap_or_else(|| {
            let of = |layout: &Layout| layout.arrangements.iter().find(|own| own.id == shown).cloned();
            // What was changed since is compared with what it was; else the earlier one is the first: "As found" before
            // "cabinet moved".
            let was_changed = of(&opened).is_some_and(|was| of(&layout).is_some_and(|is| is != was));
            let before = layout.arrangements.get(place.wrapping_sub(1)).map(|own| &own.id);
            let other = before.or_else(|| others().next()).filter(|_| !was_changed);
            other.cloned().map_or(With::Opened, With::Other)
        });
        let (from, id) = match &with {
            With::Opened => (&opened, &opened_as),
            With::Other(id) => (&layout, id),
        };
        let mut compared = std::mem::take(&mut self.compared);
        let saved = from.arrangements.iter().find(|own| own.id == *id);
        let car = saved.and_then(|own| self.document.cars().iter().find(|car| car.vehicle.id == own.vehicle));
        let car = car.map(|own| &own.fingerprint);
        if compared.of.as_ref().is_none_or(|own| {
            !Arc::ptr_eq(&own.layout, from) || own.id != *id || own.by != *by || own.car.as_ref() != car
        }) {
            let arrangement = made(from, id, self.document.cars(), by).map(Arc::new);
            compared.made = arrangement.map(|own| {
                let assessment = Arc::new((self.assess)(&own));
                (own, assessment)
            });
            compared.of =
                Some(Judged { layout: Arc::clone(from), id: id.clone(), by: by.clone(), car: car.cloned() });
        }
        let name_of = |with: &With| match with {
            With::Other(id) => id.to_string(),
            With::Opened if opened_as == shown => texts.as_opened.to_owned(),
            With::Opened => texts.of(texts.as_opened, opened_as.as_str()),
        };
        ui.horizontal(|ui| {
            let label = ui.label(texts.compare_with);
            let all: Vec<With> =
                std::iter::once(With::Opened).chain(others().cloned().map(With::Other)).collect();
            let salt = IdSalt::new("compare with");
            let picker = Picker { salt, path: "", named: label.id, width: PICKER_PX, letters: size::BODY };
            if let Some(chosen) = picker.show(ui, None, &with, &all, name_of).chosen {
                page.with = Some(chosen);
            }
        });
        ui.add_space(6.0);
        if let Some((other, said)) = compared.made.clone() {
            let name = name_of(&with);
            self.side_by_side(ui, &mut compared.fills, (&other, &said), (&with, &name), out);
        }
        self.compared = compared;
    }

    fn side_by_side(
        &self,
        ui: &mut Ui,
        fills: &mut Fills,
        (other, said): (&Arrangement, &Assessment),
        (with, name): (&With, &str),
        out: &mut Vec<Command>,
    ) {
        let texts = self.texts();
        fills.next_frame();
        let (now, now_said) = (&*self.answer.judged, &*self.answer.assessment);
        let (its, own) = (Letters::read(said), Letters::read(now_said));
        let moved = moved(other, now);
        // Both to one scale and about one middle: a wall that was moved is seen to be.
        let room = other.bay.room.bounds().union(now.bay.room.bounds());
        ui.columns(2, |columns| {
            let both = [(other, said, name), (now, now_said, now.id.as_str())];
            let mut pictures: Vec<Drawing> = Vec::new();
            for (ui, (arrangement, assessment, name)) in columns.iter_mut().zip(both) {
                let is_other = std::ptr::eq(arrangement, other);
                self.verdict_of(ui, arrangement, assessment, name);
                // Beside what is counted, so that both pictures begin at one height, and in sight however low the window is.
                ui.horizontal(|ui| {
                    ui.label(widgets::soft(
                        ui,
                        Words::new(arrangement, self.view.locale).counted(assessment),
                    ));
                    if let (true, With::Other(id)) = (is_other, with)
                        && widgets::lesser(ui, texts.show_this).clicked()
                    {
                        out.push(Command::Bay(OfBay::Show(id.clone())));
                        out.push(Command::Page(None));
                    }
                });
                pictures.push(self.side_picture(ui, (arrangement, assessment), room, &moved));
            }
            // Where a figure stands in the one's place of a name, there may be room in both in the other's.
            if let [first, second] = pictures.as_mut_slice() {
                second.name_as(first);
                first.name_as(second);
            }
            for (ui, picture) in columns.iter_mut().zip(&pictures) {
                self.show_picture(ui, fills, picture, &moved);
            }
        });
        ui.add_space(8.0);
        let differences = between_arrangements(other, now);
        let title = texts.counted(texts.different, differences.len());
        ui.label(RichText::new(title).font(look::bold(size::BODY)));
        difference_lines(ui, &Words::new(now, self.view.locale), &differences);
        ui.add_space(4.0);
        let (gone, _) = told((said, &its), (now_said, &own));
        let (new, both) = told((now_said, &own), (said, &its));
        self.lines(ui, texts.gone, &gone, other);
        self.lines(ui, texts.new_here, &new, now);
        self.lines(ui, texts.in_both, &both, now);
    }

    fn lines(&self, ui: &mut Ui, title: &str, findings: &[Told<'_>], of: &Arrangement) {
        let words = Words::new(of, self.view.locale);
        let palette = self.view.theme.palette();
        ui.label(RichText::new(self.texts().counted(title, findings.len())).font(look::bold(size::BODY)));
        for Told { letter, other, finding } in findings {
            ui.horizontal_top(|ui| {
                let colours = widgets::severity(palette, finding.severity);
                let kind = SignKind::of_severity(finding.severity);
                // As it is called on the left, then as on the right.
                if let Some(other) = other.filter(|other| other != letter) {
                    widgets::sign(ui, kind, 8.0, other, colours);
                    ui.label(widgets::soft(ui, "\u{2192}"));
                }
                widgets::sign(ui, kind, 8.0, letter, colours);
                let line = RichText::new(widgets::unbroken(words.line(finding))).size(size::SMALL);
                ui.add(egui::Label::new(line).wrap());
            });
        }
        ui.add_space(4.0);
    }

    fn verdict_of(&self, ui: &mut Ui, arrangement: &Arrangement, assessment: &Assessment, name: &str) {
        let words = Words::new(arrangement, self.view.locale);
        let palette = self.view.theme.palette();
        ui.horizontal_wrapped(|ui| {
            let kind = SignKind::of_verdict(assessment.verdict);
            let mark = if kind == SignKind::Tick { "" } else { "!" };
            widgets::sign(ui, kind, 9.0, mark, widgets::verdict(palette, assessment.verdict));
            ui.label(RichText::new(name).font(look::bold(size::LEAD)));
            if arrangement.loading.own_building {
                ui.label(widgets::soft(ui, words.own_building()));
            }
            ui.label(RichText::new(words.verdict(assessment.verdict)).size(size::SMALL));
        });
    }

    fn side_picture(
        &self,
        ui: &Ui,
        (arrangement, assessment): (&Arrangement, &Assessment),
        room: Bounds,
        moved: &[Subject],
    ) -> Drawing {
        // As the room lies, so that both are seen alike; a little air for the names around it.
        let size = room.size().max(DVec2::ONE);
        let width = ui.available_width();
        let filled = (f64::from(width) - AROUND.x) * size.y / size.x + AROUND.y;
        let place = Vec2::new(width, (filled as f32).clamp(PICTURE_PX.0, PICTURE_PX.1));
        let inner = DVec2::new(f64::from(place.x), f64::from(place.y)) - AROUND;
        let px_per_mm = (inner.x / size.x).min(inner.y / size.y);
        let fit = Fit::Window {
            size: DVec2::new(f64::from(place.x), f64::from(place.y)),
            px_per_mm,
            middle: room.centre(),
        };
        let lettering = Lettering { locale: self.view.locale, ..Lettering::default() };
        let told = moved.to_vec();
        let state = ViewState { turned: baywright_drawing::Turned::ToRoom, told, ..ViewState::default() };
        top_view(arrangement, assessment, &state, fit, &lettering)
    }

    fn show_picture(&self, ui: &mut Ui, fills: &mut Fills, drawing: &Drawing, moved: &[Subject]) {
        let place = Vec2::new(ui.available_width(), drawing.size.y as f32);
        let (rect, _) = ui.allocate_exact_size(place, Sense::hover());
        let mut painter = Painter::of_all(drawing, (ui.ctx(), self.view.theme), rect.min, fills);
        painter.drawing(drawing);
        let shapes = std::mem::take(&mut painter.out);
        let ground = look::colour(self.view.theme.palette().paper);
        ui.painter().rect_filled(rect, 4.0, ground);
        let clipped: Rect = rect.intersect(ui.clip_rect());
        let on = ui.painter().with_clip_rect(clipped);
        on.extend(shapes);
        let beam = look::colour(self.view.theme.palette().beam);
        for bounds in moved.iter().filter_map(|subject| drawing.box_of(subject)) {
            let at = |p: DVec2| rect.min + Vec2::new(p.x as f32, p.y as f32);
            let around = Rect::from_min_max(at(bounds.low), at(bounds.high)).expand(RING_PX);
            on.rect_stroke(around, RING_PX, Stroke::new(2.0, beam), StrokeKind::Outside);
        }
    }

    pub(super) fn name_page(&self, ui: &mut Ui, name: &mut String, focus: &mut bool, out: &mut Vec<Command>) {
        let texts = self.texts();
        let label = ui.label(widgets::soft(ui, texts.name));
        let id = egui::Id::unique("arrangement's name");
        let response =
            widgets::field(ui, id, name, f32::INFINITY, std::mem::take(focus)).labelled_by(label.id);
        let entered = response.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        let typed = !name.trim().is_empty();
        let pressed = ui.add_enabled_ui(typed, |ui| widgets::press(ui, self.view.theme, texts.name_it)).inner;
        if typed && (entered || pressed.clicked()) {
            out.push(Command::Page(None));
            out.push(Command::Bay(OfBay::Edit(baywright_planner::edit::Edit::NameArrangement(
                name.trim().into(),
            ))));
        }
    }
}
