//! The sensors: what they are, where they sit, where they look, what they see.

use baywright_planner::entry::starter::StartKind;
use baywright_planner::model::assumed::{Assumed, SensorPart};
use baywright_planner::model::{Adjusted, Figures, Id, SensorKind, SensorPoint};
use baywright_planner::words::sentence_start;
use egui::Ui;

use super::car_form::{CarForm, Line, Of, Order, part_led};
use super::choices;
use super::sketch::Sketch;

/// What of a sensor's height is told beside its centre.
const EDGES: [SensorPoint; 3] = [SensorPoint::LowerEdge, SensorPoint::UpperEdge, SensorPoint::Line];

/// Hertz in a gigahertz.
const GIGA: f64 = 1e9;

impl CarForm<'_> {
    pub(super) fn sensors(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        let led = self.lead == Some(Figures::Sensor);
        let shown = self.desk.answer().arrangement.sensor.id.clone();
        part_led(ui, texts.sensors, "sensors", (false, led), |ui| {
            let count = self.car.sensors.len();
            let mut asked = None;
            for i in 0..count {
                let Some(id) = self.car.sensors.get(i).map(|own| own.id.clone()) else {
                    continue;
                };
                let title = sentence_start(id.as_str());
                let led = led && id == shown;
                part_led(ui, &title, &format!("sensor {i}"), (count == 1, led), |ui| {
                    if led {
                        self.led_to(ui, Figures::Sensor);
                    }
                    self.sensor(ui, i);
                    asked = self.order(ui, &title, i, count).map(|order| (i, order)).or(asked);
                });
            }
            if let Some((i, order)) = asked {
                self.order_sensor(i, order);
            }
            ui.menu_button(texts.add_sensor, |ui| {
                for kind in StartKind::ALL {
                    if ui.button(texts.kind(kind)).clicked() {
                        let id = choices::free(texts.kind(kind), self.car.sensors.iter().map(|own| &own.id));
                        self.car.start_sensor(kind, id);
                        self.did();
                        ui.close();
                    }
                }
            });
        });
    }

    fn order_sensor(&mut self, i: usize, order: Order) {
        let count = self.car.sensors.len();
        match order {
            Order::Up if i > 0 => self.car.sensors.swap(i - 1, i),
            Order::Down if i + 1 < count => self.car.sensors.swap(i, i + 1),
            Order::Up | Order::Down => return,
            Order::Copy => {
                let Some(mut own) = self.car.sensors.get(i).cloned() else { return };
                let of = own.id.clone();
                own.id = choices::free(of.as_str(), self.car.sensors.iter().map(|own| &own.id));
                self.car.sensor_copied(&of, &own.id);
                self.car.sensors.push(own);
            }
            Order::Remove => {
                if i >= count {
                    return;
                }
                let own = self.car.sensors.remove(i);
                // Its aimings have nothing to aim any more.
                self.car.aimings.retain(|aiming| aiming.sensor != own.id);
                self.car.forget_what_is_gone();
            }
        }
        self.did();
    }

    fn sensor(&mut self, ui: &mut Ui, i: usize) {
        let texts = self.texts;
        let Some(mut own) = self.car.sensors.get(i).cloned() else { return };
        let path = |field: &str| format!("sensors[{i}].{field}");
        let of = |part: SensorPart| part.of(&own.id);
        let others: Vec<Id> = self.car.sensors.iter().map(|own| own.id.clone()).collect();
        if let Some(id) = self.own_id(ui, texts.name, &path("name"), &own.id, others.iter()) {
            self.car.rename_sensor(i, id);
            return;
        }
        let kind = StartKind::of(&own.kind);
        if let Some(kind) = self.pick(ui, texts.sensor_kind, &path("kind"), &kind, &StartKind::ALL, |kind| {
            texts.kind(*kind).to_owned()
        }) {
            self.car.change_sensor_kind(i, kind);
            return;
        }
        let places = [
            (texts.ahead, texts.ahead_hint, of(SensorPart::Ahead), Sketch::SensorAhead),
            (texts.aside, texts.aside_hint, of(SensorPart::Aside), Sketch::SensorAside),
            (texts.above_ground, "", of(SensorPart::Height), Sketch::SensorHeight),
        ];
        for (axis, (label, hint, figure, sketch)) in places.iter().enumerate() {
            let path = path(&format!("at_mm[{axis}]"));
            let line = Line { label, hint, path: &path, figure: Some(figure), sketch: Some(*sketch) };
            if let Some(typed) = self.number(ui, line, Of::Length, own.at[axis]) {
                own.at[axis] = typed;
            }
        }
        for point in EDGES {
            self.edge(ui, i, point);
        }
        own.edges = self.car.sensors.get(i).map_or(own.edges, |own| own.edges);
        let (boresight, view) = (of(SensorPart::Boresight), of(SensorPart::View));
        for (label, hint, field, figure, sketch, value, by) in [
            (
                texts.looks_left,
                texts.looks_left_hint,
                "azimuth_deg",
                &boresight,
                Some(Sketch::LooksLeft),
                &mut own.azimuth_rad,
                1.0,
            ),
            (
                texts.looks_up,
                "",
                "elevation_deg",
                &boresight,
                Some(Sketch::LooksUp),
                &mut own.elevation_rad,
                1.0,
            ),
            (texts.sees_across, "", "view_azimuth_deg", &view, None, &mut own.view.azimuth_half_rad, 2.0),
            (texts.sees_down, "", "view_elevation_deg", &view, None, &mut own.view.elevation_half_rad, 2.0),
        ] {
            let path = path(field);
            let line = Line { label, hint, path: &path, figure: Some(figure), sketch };
            if let Some(typed) = self.number(ui, line, Of::Angle, *value * by) {
                *value = typed / by;
            }
        }
        let made_of = of(SensorPart::Kind);
        self.sensor_kind(ui, &path("kind"), &made_of, &mut own.kind);
        let set = [Adjusted::Screw, Adjusted::Shim, Adjusted::Software, Adjusted::NotAtAll];
        let chosen = self.pick(ui, texts.adjusted, &path("adjusted"), &own.adjusted, &set, |set| {
            texts.set_by(*set).to_owned()
        });
        if let Some(adjusted) = chosen {
            own.adjusted = adjusted;
            self.car.enter(of(SensorPart::Adjusted));
        }
        self.screws(ui, i, own.adjusted);
        own.screws = self.car.sensors.get(i).map_or(own.screws, |own| own.screws);
        self.source(ui, &path("source"), &mut own.provenance);
        if let Some(place) = self.car.sensors.get_mut(i) {
            *place = own;
        }
    }

    /// How far one of a sensor's edges, or the line on it, is from its centre; empty where it is not known.
    pub(super) fn edge(&mut self, ui: &mut Ui, at: usize, point: SensorPoint) {
        let texts = self.texts;
        let Some(now) = self.car.sensors.get(at).map(|own| own.edges) else { return };
        let (field, value) = match point {
            SensorPoint::Centre => return,
            SensorPoint::LowerEdge => ("lower_below_mm", now.lower_below_mm),
            SensorPoint::UpperEdge => ("upper_above_mm", now.upper_above_mm),
            SensorPoint::Line => ("line_above_mm", now.line_above_mm),
        };
        let path = format!("sensors[{at}].edges.{field}");
        let label = texts.point_from_centre(point);
        let sketch = Some(Sketch::SensorEdge);
        let line = Line { label, hint: texts.edge_hint, path: &path, figure: None, sketch };
        let Some(typed) = self.number_or_none(ui, line, Of::Length, value) else { return };
        let Some(own) = self.car.sensors.get_mut(at).map(|own| &mut own.edges) else { return };
        match point {
            SensorPoint::Centre => {}
            SensorPoint::LowerEdge => own.lower_below_mm = typed,
            SensorPoint::UpperEdge => own.upper_above_mm = typed,
            SensorPoint::Line => own.line_above_mm = typed,
        }
    }

    /// What is its kind's own: the radar's band and beam, the camera's pixels.
    fn sensor_kind(&mut self, ui: &mut Ui, path: &str, figure: &Assumed, kind: &mut SensorKind) {
        let texts = self.texts;
        match kind {
            SensorKind::ForwardRadar(radar) | SensorKind::CornerRadar(radar) => {
                for (label, field, of, value) in [
                    (texts.frequency, "frequency_ghz", Of::Number(1.0 / GIGA), &mut radar.frequency_hz),
                    (texts.bandwidth, "bandwidth_ghz", Of::Number(1.0 / GIGA), &mut radar.bandwidth_hz),
                    (texts.beam_across, "beam_azimuth_deg", Of::Angle, &mut radar.beam_azimuth_rad),
                    (texts.beam_down, "beam_elevation_deg", Of::Angle, &mut radar.beam_elevation_rad),
                ] {
                    let path = format!("{path}.{field}");
                    let line = Line { label, path: &path, figure: Some(figure), ..Line::default() };
                    if let Some(typed) = self.number(ui, line, of, *value) {
                        *value = typed;
                    }
                }
            }
            SensorKind::ForwardCamera(camera) | SensorKind::SurroundCamera(camera) => {
                for (label, field, value) in [
                    (texts.pixels_across, "pixels_across", &mut camera.pixels_across),
                    (texts.pixels_down, "pixels_down", &mut camera.pixels_down),
                ] {
                    let path = format!("{path}.{field}");
                    let line = Line { label, path: &path, figure: Some(figure), ..Line::default() };
                    if let Some(typed) = self.number(ui, line, Of::Number(1.0), f64::from(*value)) {
                        // Saturates; what no camera has is refused with its limits.
                        *value = typed.round().clamp(0.0, f64::from(u32::MAX)) as u32;
                    }
                }
            }
            SensorKind::Lidar => {}
        }
    }
}
