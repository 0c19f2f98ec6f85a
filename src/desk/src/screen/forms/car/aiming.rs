//! The aimings: of which sensor, what is asked, targets, zones, marks, what to have ready and to meet first.

use baywright_planner::model::assumed::AimingPart;
use baywright_planner::model::{Figures, FloorRequirement, Id, ReferenceAxis};
use egui::Ui;

use super::car_form::{CarForm, Line, Of, Order, part, part_led};
use super::choices;
use super::sketch::Sketch;
use crate::screen::command::{Command, OfCar};
use crate::screen::widgets;

impl CarForm<'_> {
    pub(super) fn aimings(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts;
        let led = self.lead == Some(Figures::Aiming);
        part_led(ui, texts.aimings, "aimings", (true, led), |ui| {
            let count = self.car.aimings.len();
            let shown = self.desk.answer().arrangement.aiming.id.clone();
            let mut asked = None;
            for i in 0..count {
                let Some((title, id)) = self.car.aimings.get(i).map(|own| (own.name.clone(), own.id.clone()))
                else {
                    continue;
                };
                let led = led && id == shown;
                part_led(ui, &title, &format!("aiming {i}"), (id == shown, led), |ui| {
                    if led {
                        self.led_to(ui, Figures::Aiming);
                    }
                    if id != shown && widgets::lesser(ui, texts.show_it).clicked() {
                        out.push(Command::Car(OfCar::Aiming(id.clone())));
                    }
                    self.aiming(ui, i, out);
                    asked = self.order(ui, &title, i, count).map(|order| (i, order)).or(asked);
                });
            }
            if let Some((i, order)) = asked {
                self.order_aiming(i, order);
            }
            let sensors: Vec<Id> = self.car.sensors.iter().map(|own| own.id.clone()).collect();
            ui.menu_button(texts.add_aiming, |ui| {
                for sensor in &sensors {
                    if ui.button(sensor.as_str()).clicked() {
                        let wanted = texts.a_aiming(sensor.as_str());
                        let id = choices::free(&wanted, self.car.aimings.iter().map(|own| &own.id));
                        super::start_aiming(&mut self.car, sensor, id.clone());
                        self.did();
                        out.push(Command::Car(OfCar::Aiming(id)));
                        ui.close();
                    }
                }
            });
        });
    }

    fn order_aiming(&mut self, i: usize, order: Order) {
        let count = self.car.aimings.len();
        match order {
            Order::Up if i > 0 => self.car.aimings.swap(i - 1, i),
            Order::Down if i + 1 < count => self.car.aimings.swap(i, i + 1),
            Order::Up | Order::Down => return,
            Order::Copy => {
                let Some(mut own) = self.car.aimings.get(i).cloned() else { return };
                let of = own.id.clone();
                own.id = choices::free(of.as_str(), self.car.aimings.iter().map(|own| &own.id));
                self.car.aiming_copied(&of, &own.id);
                own.name = format!("{} (2)", own.name);
                self.car.aimings.push(own);
            }
            Order::Remove => {
                // Without an aiming nothing could be shown.
                if count < 2 || i >= count {
                    return;
                }
                self.car.aimings.remove(i);
                self.car.forget_what_is_gone();
            }
        }
        self.did();
    }

    fn aiming(&mut self, ui: &mut Ui, i: usize, out: &mut Vec<Command>) {
        let texts = self.texts;
        let Some(own) = self.car.aimings.get(i) else { return };
        let (id, title, sensor, axis) = (own.id.clone(), own.name.clone(), own.sensor.clone(), own.axis);
        let path = |field: &str| format!("aimings[{i}].{field}");
        if let Some(typed) = self.text(ui, (texts.title, ""), &path("title"), &title)
            && let Some(own) = self.car.aimings.get_mut(i)
        {
            own.name = typed;
        }
        let others: Vec<Id> = self.car.aimings.iter().map(|own| own.id.clone()).collect();
        if let Some(id) = self.own_id(ui, texts.name, &path("name"), &id, others.iter()) {
            self.car.rename_aiming(i, id);
        }
        let sensors: Vec<Id> = self.car.sensors.iter().map(|own| own.id.clone()).collect();
        let chosen =
            self.pick(ui, texts.of_sensor, &path("sensor"), &sensor, &sensors, |own| own.as_str().to_owned());
        if let (Some(chosen), Some(own)) = (chosen, self.car.aimings.get_mut(i)) {
            own.sensor = chosen;
        }
        let axes = [ReferenceAxis::GeometricCentreline, ReferenceAxis::ThrustLine];
        let chosen =
            self.pick(ui, texts.axis, &path("axis"), &axis, &axes, |own| texts.axis_of(*own).to_owned());
        if let (Some(chosen), Some(own)) = (chosen, self.car.aimings.get_mut(i)) {
            own.axis = chosen;
            self.car.enter(AimingPart::Axis.of(&id));
        }
        // As such sheets are read: what is needed first, what the floor and the aim must be, the marks, what stands on them, what
        // stays free (common practice, no source).
        self.text_lists(ui, i);
        self.asked_of_it(ui, i);
        part(ui, texts.mark_plan, &format!("marks {i}"), false, |ui| self.mark_plan(ui, i, out));
        part(ui, texts.targets, &format!("targets {i}"), false, |ui| self.targets(ui, i));
        part(ui, texts.zones, &format!("zones {i}"), false, |ui| self.zones(ui, i, out));
        if let Some(mut source) = self.car.aimings.get(i).map(|own| own.provenance.clone())
            && self.source(ui, &path("source"), &mut source)
            && let Some(own) = self.car.aimings.get_mut(i)
        {
            own.provenance = source;
        }
    }

    /// Tolerances, floor, working room.
    fn asked_of_it(&mut self, ui: &mut Ui, i: usize) {
        let texts = self.texts;
        let Some(own) = self.car.aimings.get(i) else { return };
        let id = own.id.clone();
        let (azimuth, elevation) = (own.tolerance.azimuth_rad, own.tolerance.elevation_rad);
        let (floor, room) = (own.floor, own.working_room_mm);
        let own_alignment = own.alignment;
        let path = |field: &str| format!("aimings[{i}].{field}");
        let (a, b) = (path("tolerance.azimuth_deg"), path("tolerance.elevation_deg"));
        let (fa, fb) = (AimingPart::Azimuth.of(&id), AimingPart::Elevation.of(&id));
        let line = Line {
            label: texts.azimuth,
            path: &a,
            figure: Some(&fa),
            sketch: Some(Sketch::LooksLeft),
            hint: "",
        };
        let across = self.number(ui, line, Of::Angle, azimuth);
        let line = Line {
            label: texts.elevation,
            path: &b,
            figure: Some(&fb),
            sketch: Some(Sketch::LooksUp),
            hint: "",
        };
        let upright = self.number(ui, line, Of::Angle, elevation);
        let (a, fa) = (path("floor.level_mm"), AimingPart::Floor.of(&id));
        let line = Line {
            label: texts.floor_level,
            hint: texts.floor_level_hint,
            path: &a,
            figure: Some(&fa),
            sketch: None,
        };
        let level = self.number_or_none(ui, line, Of::Length, floor.map(|floor| floor.level_mm));
        let mut tilts = [(); 2].map(|()| None);
        if let Some(floor) = floor {
            let rows = [
                ("floor.pitch_deg", texts.floor_pitch, texts.floor_pitch_hint, floor.pitch_rad),
                ("floor.roll_deg", texts.floor_roll, texts.floor_roll_hint, floor.roll_rad),
            ];
            tilts = rows.map(|(field, label, hint, tilt)| {
                let line = Line { label, hint, path: &path(field), figure: None, sketch: None };
                self.number_or_none(ui, line, Of::Angle, tilt)
            });
        }
        let (a, fa) = (path("working_room_mm"), AimingPart::WorkingRoom.of(&id));
        let line = Line {
            label: texts.working_room,
            hint: texts.working_room_hint,
            path: &a,
            figure: Some(&fa),
            sketch: None,
        };
        let around = self.number_or_none(ui, line, Of::Length, room);
        let mut alignment = own_alignment;
        let a = path("alignment.thrust_angle_deg");
        let line =
            Line { label: texts.thrust_limit, hint: texts.alignment_hint, path: &a, ..Line::default() };
        if let Some(thrust) = self.number_or_none(ui, line, Of::Angle, alignment.thrust_angle_rad) {
            alignment.thrust_angle_rad = thrust;
        }
        let a = path("alignment.set_back_mm");
        let line =
            Line { label: texts.set_back_limit, hint: texts.alignment_hint, path: &a, ..Line::default() };
        if let Some(back) = self.number_or_none(ui, line, Of::Length, alignment.set_back_mm) {
            alignment.set_back_mm = back;
        }
        let Some(own) = self.car.aimings.get_mut(i) else { return };
        own.tolerance.azimuth_rad = across.unwrap_or(azimuth);
        own.tolerance.elevation_rad = upright.unwrap_or(elevation);
        own.working_room_mm = around.unwrap_or(room);
        own.alignment = alignment;
        if let Some(level) = level {
            let before = own.floor.unwrap_or(FloorRequirement::level(0.0));
            own.floor = level.map(|level_mm| FloorRequirement { level_mm, ..before });
        }
        let [pitch, roll] = tilts;
        if let Some(floor) = &mut own.floor {
            floor.pitch_rad = pitch.unwrap_or(floor.pitch_rad);
            floor.roll_rad = roll.unwrap_or(floor.roll_rad);
        }
    }

    fn text_lists(&mut self, ui: &mut Ui, i: usize) {
        let texts = self.texts;
        for (label, field, ready) in
            [(texts.have_ready, "have_ready", true), (texts.conditions, "conditions", false)]
        {
            let Some(own) = self.car.aimings.get(i) else { return };
            let shown = if ready { &own.have_ready } else { &own.conditions }.join("\n");
            let path = format!("aimings[{i}].{field}");
            let line = Line { label, hint: texts.one_a_line, path: &path, ..Line::default() };
            let typed = self.lines(ui, line, &shown, |text| {
                let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
                Ok::<Vec<String>, String>(lines.map(str::to_owned).collect())
            });
            if let (Some(typed), Some(own)) = (typed, self.car.aimings.get_mut(i)) {
                *(if ready { &mut own.have_ready } else { &mut own.conditions }) = typed;
            }
        }
    }
}
