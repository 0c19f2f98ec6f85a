//! Keep-clear zones, typed or drawn, in the frame of the car, the sensor or a target; and outlines, wherever they are asked.

use baywright_planner::entry::zones::ZoneFigures;
use baywright_planner::geometry::{Circle, DVec2, Outline, Polygon, Span};
use baywright_planner::model::assumed::Assumed;
use baywright_planner::model::{Exclusion, HeightsFrom, Id, KeepClear, ZoneFrame};
use egui::{RichText, Ui};

use super::body::{points, points_text};
use super::car_form::{CarForm, Line, Of, Order, part};
use super::choices;
use crate::screen::command::{Command, OfCar, OfView};
use crate::screen::look::size;
use crate::screen::view::{Drawn, Tool};
use crate::screen::widgets;

impl CarForm<'_> {
    pub(super) fn zones(&mut self, ui: &mut Ui, aiming: usize, out: &mut Vec<Command>) {
        let texts = self.texts;
        let count = self.car.aimings.get(aiming).map_or(0, |own| own.zones.len());
        let mut asked = None;
        for j in 0..count {
            let Some(title) =
                self.car.aimings.get(aiming).and_then(|own| own.zones.get(j)).map(|own| own.id.to_string())
            else {
                continue;
            };
            part(ui, &title, &format!("zone {aiming} {j}"), count == 1, |ui| {
                self.zone(ui, aiming, j, out);
                asked = self.order(ui, &title, j, count).map(|order| (j, order)).or(asked);
            });
        }
        if let Some((j, order)) = asked {
            self.order_zone(aiming, j, order);
        }
        self.names_no_zone(ui, aiming);
        if widgets::lesser(ui, texts.add_zone).clicked() {
            self.add_zone(aiming);
        }
    }

    /// A tick, as long as no zone is entered: the procedure was looked at and names none.
    fn names_no_zone(&mut self, ui: &mut Ui, aiming: usize) {
        let texts = self.texts;
        let Some(own) = self.car.aimings.get_mut(aiming).filter(|own| own.zones.is_empty()) else { return };
        let tick = ui.checkbox(&mut own.names_no_zone, widgets::soft(ui, texts.names_no_zone));
        let changed = tick.changed();
        ui.add(egui::Label::new(widgets::soft(ui, texts.names_no_zone_why)).wrap());
        if changed {
            self.did();
        }
    }

    fn add_zone(&mut self, aiming: usize) {
        let texts = self.texts;
        let front = self.car.front();
        let Some(own) = self.car.aimings.get_mut(aiming) else { return };
        let outline =
            Polygon::rectangle(DVec2::new(front + 100.0, -1_000.0), DVec2::new(front + 2_100.0, 1_000.0));
        let Some((outline, span)) = outline.ok().zip(Span::new(0.0, 1_500.0).ok()) else { return };
        let id = choices::free(texts.a_zone, own.zones.iter().map(|own| &own.id));
        let aiming = own.id.clone();
        own.names_no_zone = false;
        own.zones.push(KeepClear {
            id: id.clone(),
            frame: ZoneFrame::Vehicle,
            outline: Outline::Polygon(outline),
            span,
            heights_from: HeightsFrom::Floor,
            excludes: Exclusion::Anything,
        });
        // Nobody typed them.
        self.car.zone_added(&aiming, &id);
        self.did();
    }

    fn order_zone(&mut self, aiming: usize, j: usize, order: Order) {
        let Some(own) = self.car.aimings.get_mut(aiming) else { return };
        let count = own.zones.len();
        match order {
            Order::Up if j > 0 => own.zones.swap(j - 1, j),
            Order::Down if j + 1 < count => own.zones.swap(j, j + 1),
            Order::Up | Order::Down => return,
            Order::Copy => {
                let Some(mut copy) = own.zones.get(j).cloned() else { return };
                let of = copy.id.clone();
                copy.id = choices::free(of.as_str(), own.zones.iter().map(|own| &own.id));
                let (id, name) = (own.id.clone(), copy.id.clone());
                own.zones.push(copy);
                self.car.zone_copied(&id, &of, &name);
            }
            Order::Remove if j < count => {
                let gone = own.zones.remove(j);
                let id = own.id.clone();
                self.car.zone_gone(&id, &gone.id);
            }
            Order::Remove => return,
        }
        self.did();
    }

    fn zone(&mut self, ui: &mut Ui, i: usize, j: usize, out: &mut Vec<Command>) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let Some(mut own) = aiming.zones.get(j).cloned() else { return };
        let (id, frames) = (aiming.id.clone(), choices::frames(aiming));
        let path = format!("aimings[{i}].zones[{j}]");
        let others: Vec<Id> = aiming.zones.iter().map(|own| own.id.clone()).collect();
        let renamed = self.own_id(ui, texts.name, &format!("{path}.name"), &own.id, others.iter());
        let p = format!("{path}.frame");
        if let Some(frame) = self.pick(ui, texts.zone_frame, &p, &own.frame, &frames, |own| texts.frame(own))
        {
            own.frame = frame;
        }
        let p = format!("{path}.excludes");
        let kinds = choices::excluded(own.excludes);
        let chosen =
            self.pick(ui, texts.excludes, &p, &own.excludes, &kinds, |own| texts.excluded(*own).to_owned());
        own.excludes = chosen.unwrap_or(own.excludes);
        if let Exclusion::Reflecting(level) = &mut own.excludes {
            let p = format!("{path}.excludes.level_dbsm");
            let line =
                Line { label: texts.sends_back, hint: texts.sends_back_hint, path: &p, ..Line::default() };
            *level = self.number(ui, line, Of::Number(1.0), *level).unwrap_or(*level);
        }
        let p = format!("{path}.heights_from");
        let chosen = self.pick(ui, texts.heights_from, &p, &own.heights_from, &HeightsFrom::ALL, |own| {
            texts.plane(*own).to_owned()
        });
        own.heights_from = chosen.unwrap_or(own.heights_from);
        let paths = ["bottom_mm", "top_mm"].map(|field| format!("{path}.{field}"));
        let [bottom, top] = &paths;
        let figures = ZoneFigures::of(&id, &own.id);
        let line = |label, path| Line { label, path, figure: Some(&figures.heights), ..Line::default() };
        let heights = [line(texts.bottom, bottom), line(texts.top, top)];
        own.span = self.heights(ui, heights, own.span).unwrap_or(own.span);
        let outline = format!("{path}.outline");
        if let Some(outline) =
            self.outline(ui, &outline, &own.outline, Some([&figures.along, &figures.aside]))
        {
            own.outline = outline;
        }
        let drawing = Drawn::Zone { aiming: i, zone: j };
        let now = self.desk.view.tool == Tool::Draw(drawing);
        let draw = egui::Button::new(RichText::new(texts.draw_it).size(size::SMALL)).selected(now);
        if ui.add(draw).on_hover_text(texts.draw_why).clicked() {
            out.push(Command::Car(OfCar::Aiming(id.clone())));
            out.push(Command::View(OfView::Tool(if now { Tool::WhichSide } else { Tool::Draw(drawing) })));
        }
        if let Some(name) = renamed {
            self.car.zone_renamed(&id, &own.id, &name);
            own.id = name;
        }
        let Some(aiming) = self.car.aimings.get_mut(i) else { return };
        if let Some(place) = aiming.zones.get_mut(j) {
            *place = own;
        }
    }

    /// The fields of an outline: a rectangle's four sides, a circle's middle and diameter, else its corners; with the figures along
    /// and aside that may be assumed, if they may. What is no rectangle along the frame is both at once.
    pub(super) fn outline(
        &mut self,
        ui: &mut Ui,
        path: &str,
        outline: &Outline,
        figures: Option<[&Assumed; 2]>,
    ) -> Option<Outline> {
        let texts = self.texts;
        let [along, aside] = figures.map_or([None; 2], |own| own.map(Some));
        let whole = |form: &mut Self, changed: bool| {
            for figure in figures.into_iter().flatten().filter(|_| changed) {
                form.car.enter(figure);
            }
        };
        match outline {
            Outline::Circle(circle) => {
                let (mut middle, mut diameter) = (circle.centre(), circle.radius() * 2.0);
                let mut typed = false;
                for (label, field, value) in [
                    (texts.middle_x, "middle_mm[0]", &mut middle.x),
                    (texts.middle_y, "middle_mm[1]", &mut middle.y),
                    (texts.diameter, "diameter_mm", &mut diameter),
                ] {
                    let p = format!("{path}.{field}");
                    let line =
                        Line { label, hint: texts.zone_hint, path: &p, figure: along, ..Line::default() };
                    let wrong = |typed: f64| {
                        let is_none =
                            field == "diameter_mm" && Circle::new(DVec2::ZERO, typed * 0.5).is_err();
                        is_none.then_some(texts.no_diameter)
                    };
                    if let Some(new) = self.number_unless(ui, line, Of::Length, *value, wrong) {
                        *value = new;
                        typed = true;
                    }
                }
                whole(self, typed);
                let circle = Circle::new(middle, diameter * 0.5).ok()?;
                typed.then_some(Outline::Circle(circle))
            }
            Outline::Polygon(polygon) => {
                let box_ = polygon.bounds();
                if polygon.area() < box_.size().x * box_.size().y - 1.0 {
                    let locale = self.desk.view().locale;
                    let shown = points_text(polygon.outer(), locale);
                    let hint = locale.language.forms().corners_hint(locale.units);
                    let p = format!("{path}.corners_mm");
                    let line = Line {
                        label: texts.corners,
                        hint: &hint,
                        path: &p,
                        figure: along,
                        ..Line::default()
                    };
                    let wrong = locale.language.forms().not_points(locale.units);
                    let typed = self
                        .lines(ui, line, &shown, |text| {
                            let before = polygon.outer();
                            let corners = points(text, locale, before).ok_or_else(|| wrong.clone())?;
                            Polygon::simple(corners).map_err(|_| wrong.clone())
                        })
                        .map(Outline::Polygon);
                    whole(self, typed.is_some());
                    return typed;
                }
                let paths = ["from_mm[0]", "to_mm[0]", "from_mm[1]", "to_mm[1]"];
                let paths = paths.map(|field| format!("{path}.{field}"));
                let [left, right, near, far] = &paths;
                let line = |label, path, figure| Line {
                    label,
                    hint: texts.zone_hint,
                    path,
                    figure,
                    ..Line::default()
                };
                let lines = [
                    line(texts.zone_from_x, left, along),
                    line(texts.zone_to_x, right, along),
                    line(texts.zone_from_y, near, aside),
                    line(texts.zone_to_y, far, aside),
                ];
                self.sides(ui, lines, box_).map(Outline::Polygon)
            }
        }
    }
}
