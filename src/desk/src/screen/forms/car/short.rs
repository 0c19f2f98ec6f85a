//! The short form: nine figures with which a forward radar's aiming can be drawn and judged.

use baywright_planner::entry::starter::CLEAR_AREA;
use baywright_planner::geometry::{DVec2, Outline, Polygon};
use baywright_planner::model::SensorKind;
use baywright_planner::model::assumed::{AimingPart, Assumed, BodyPart, SensorPart};
use egui::Ui;

use super::car_form::{CarForm, Line, Of};
use super::choices;
use super::sketch::Sketch;

impl CarForm<'_> {
    pub(super) fn short(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        for (label, hint, path, figure, sketch, of) in [
            (texts.length, "", "body.length_mm", BodyPart::Length, Sketch::Length, 0),
            (texts.width, texts.width_hint, "body.width_mm", BodyPart::Width, Sketch::Width, 1),
            (texts.wheelbase, "", "body.wheelbase_mm", BodyPart::Wheelbase, Sketch::Wheelbase, 2),
            (
                texts.overhang_front,
                texts.overhang_front_hint,
                "body.overhang_front_mm",
                BodyPart::OverhangFront,
                Sketch::OverhangFront,
                3,
            ),
        ] {
            let car = &mut self.car;
            let value = *[&car.length_mm, &car.width_mm, &car.wheelbase_mm, &car.overhang_front_mm][of];
            let figure = Assumed::from(figure);
            let line = Line { label, hint, path, figure: Some(&figure), sketch: Some(sketch) };
            if let Some(typed) = self.number(ui, line, Of::Length, value) {
                let car = &mut self.car;
                *[&mut car.length_mm, &mut car.width_mm, &mut car.wheelbase_mm, &mut car.overhang_front_mm]
                    [of] = typed;
            }
        }
        let (radar, aiming) = self.short_of();
        if let Some(radar) = radar {
            self.short_radar(ui, radar);
        }
        if let Some(aiming) = aiming {
            self.short_aiming(ui, aiming);
        }
    }

    /// The sensor and the aiming that the short form is about, by position: the first forward radar and its first aiming.
    pub(super) fn short_of(&self) -> (Option<usize>, Option<usize>) {
        let (sensors, aimings) = (&self.car.sensors, &self.car.aimings);
        let radar = sensors.iter().position(|own| matches!(own.kind, SensorKind::ForwardRadar(_)));
        let id = radar.and_then(|at| sensors.get(at)).map(|own| &own.id);
        (radar, id.and_then(|id| aimings.iter().position(|own| own.sensor == *id)))
    }

    /// How many figures of the short form are still assumed.
    pub(super) fn short_assumed(&self) -> usize {
        let (radar, aiming) = self.short_of();
        let fixed = [BodyPart::Length, BodyPart::Width, BodyPart::Wheelbase, BodyPart::OverhangFront];
        let of_radar = radar.and_then(|at| self.car.sensors.get(at)).map(|own| &own.id);
        let of_radar = of_radar.map(|id| [SensorPart::Height, SensorPart::Aside].map(|part| part.of(id)));
        let of_aiming = aiming.and_then(|at| self.car.aimings.get(at)).map(|own| &own.id);
        let of_aiming = of_aiming.map(|id| {
            [AimingPart::StandOff, AimingPart::Azimuth, AimingPart::ClearAside].map(|part| part.of(id))
        });
        let figures = fixed.map(Assumed::from).into_iter();
        let figures = figures.chain(of_radar.into_iter().flatten()).chain(of_aiming.into_iter().flatten());
        figures.filter(|figure| self.car.is_assumed(figure)).count()
    }

    fn short_radar(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(sensor) = self.car.sensors.get(at) else { return };
        let (id, place) = (sensor.id.clone(), sensor.at);
        let (height, aside) = (SensorPart::Height.of(&id), SensorPart::Aside.of(&id));
        let path = format!("sensors[{at}].at_mm[2]");
        let line = Line {
            label: texts.radar_height,
            path: &path,
            figure: Some(&height),
            sketch: Some(Sketch::SensorHeight),
            ..Line::default()
        };
        let typed = self.number(ui, line, Of::Length, place.z);
        let path = format!("sensors[{at}].at_mm[1]");
        let line = Line {
            label: texts.radar_aside,
            hint: texts.aside_hint,
            path: &path,
            figure: Some(&aside),
            sketch: Some(Sketch::SensorAside),
        };
        let left = self.number(ui, line, Of::Length, place.y);
        if let Some(own) = self.car.sensors.get_mut(at) {
            own.at.z = typed.unwrap_or(own.at.z);
            own.at.y = left.unwrap_or(own.at.y);
        }
    }

    fn short_aiming(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let id = aiming.id.clone();
        let azimuth = aiming.tolerance.azimuth_rad;
        let off =
            aiming.placements.first().map(|own| (own.stand_off.distance_mm, own.stand_off.from.clone()));
        if let Some((distance, from)) = off {
            let path = format!("aimings[{at}].placements[0].stand_off.distance_mm");
            let figure = AimingPart::StandOff.of(&id);
            let line = Line {
                label: texts.stand_off,
                path: &path,
                figure: Some(&figure),
                sketch: Some(Sketch::StandOff),
                ..Line::default()
            };
            let typed = self.number(ui, line, Of::Length, distance);
            let path = format!("aimings[{at}].placements[0].stand_off.from");
            let data = choices::datums(&self.car);
            let chosen = self.pick(ui, texts.stand_off_from, &path, &from, &data, |own| texts.datum(own));
            if let Some(own) = self.first_stand_off(at) {
                own.distance_mm = typed.unwrap_or(own.distance_mm);
                own.from = chosen.unwrap_or(from);
            }
        }
        let path = format!("aimings[{at}].tolerance.azimuth_deg");
        let figure = AimingPart::Azimuth.of(&id);
        let line = Line {
            label: texts.azimuth,
            path: &path,
            figure: Some(&figure),
            sketch: Some(Sketch::LooksLeft),
            ..Line::default()
        };
        if let Some(typed) = self.number(ui, line, Of::Angle, azimuth)
            && let Some(own) = self.car.aimings.get_mut(at)
        {
            own.tolerance.azimuth_rad = typed;
        }
        self.short_zone(ui, at);
    }

    fn first_stand_off(&mut self, at: usize) -> Option<&mut baywright_planner::model::StandOff> {
        let placement = self.car.aimings.get_mut(at)?.placements.first_mut()?;
        Some(&mut placement.stand_off)
    }

    /// How far to each side the area before the bumper is kept clear.
    fn short_zone(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let figure = AimingPart::ClearAside.of(&aiming.id);
        let Some(zone) = aiming.zones.iter().position(|own| own.id.as_str() == CLEAR_AREA) else { return };
        let Some(bounds) = aiming.zones.get(zone).map(|own| own.outline.bounds()) else { return };
        let path = format!("aimings[{at}].zones[{zone}].outline");
        let line = Line {
            label: texts.clear_aside,
            hint: texts.clear_aside_hint,
            path: &path,
            figure: Some(&figure),
            sketch: Some(Sketch::ClearAside),
        };
        if let Some(typed) = self.number(ui, line, Of::Length, bounds.high.y)
            && let Ok(outline) =
                Polygon::rectangle(DVec2::new(bounds.low.x, -typed), DVec2::new(bounds.high.x, typed))
            && let Some(own) = self.car.aimings.get_mut(at).and_then(|aiming| aiming.zones.get_mut(zone))
        {
            own.outline = Outline::Polygon(outline);
        }
    }
}
