//! The short form: what stands on a maker's sheet for a forward radar, in the order of such a sheet. With it the aiming can
//! be drawn and judged.

use baywright_planner::entry::starter::CLEAR_AREA;
use baywright_planner::geometry::marks::Construction;
use baywright_planner::geometry::{DVec2, Outline, Polygon, Span};
use baywright_planner::model::assumed::{AimingPart, Assumed, BodyPart, SensorPart};
use baywright_planner::model::{
    End, FloorRequirement, Id, MarkStep, Placement, SensorKind, SensorPoint, TargetHeight, TargetKind,
};
use egui::Ui;

use super::car_form::{CarForm, Line, Of};
use super::choices;
use super::sketch::Sketch;
use super::targets;
use crate::screen::widgets;

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
        for (label, path, part, sketch) in [
            (texts.track_front, "body.track_front_mm", BodyPart::TrackFront, Sketch::TrackFront),
            (texts.track_rear, "body.track_rear_mm", BodyPart::TrackRear, Sketch::TrackRear),
            (texts.tyre_width, "body.tyre_width_mm", BodyPart::TyreWidth, Sketch::TyreWidth),
        ] {
            let hint = if part == BodyPart::TyreWidth { "" } else { texts.track_hint };
            let figure = Assumed::from(part);
            let line = Line { label, hint, path, figure: Some(&figure), sketch: Some(sketch) };
            let car = &self.car;
            let value = match part {
                BodyPart::TrackFront => car.track_front_mm,
                BodyPart::TrackRear => car.track_rear_mm,
                _ => car.tyre_width_mm,
            };
            let Some(typed) = self.number(ui, line, Of::Length, value) else { continue };
            match part {
                BodyPart::TrackFront => self.car.track_front_mm = typed,
                BodyPart::TrackRear => self.car.track_rear_mm = typed,
                _ => self.car.tyre_width_mm = typed,
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
        let fixed = [
            BodyPart::Length,
            BodyPart::Width,
            BodyPart::Wheelbase,
            BodyPart::OverhangFront,
            BodyPart::TrackFront,
            BodyPart::TrackRear,
            BodyPart::TyreWidth,
        ];
        let of_radar = radar.and_then(|at| self.car.sensors.get(at)).map(|own| &own.id);
        let of_radar = of_radar.map(|id| [SensorPart::Height, SensorPart::Aside].map(|part| part.of(id)));
        let of_aiming = aiming.and_then(|at| self.car.aimings.get(at)).map(|own| &own.id);
        let of_aiming = of_aiming.map(|id| {
            let parts = [
                AimingPart::Target,
                AimingPart::StandOff,
                AimingPart::TargetHeight,
                AimingPart::MarkPlan,
                AimingPart::Azimuth,
                AimingPart::Elevation,
                AimingPart::Floor,
                AimingPart::ClearAside,
                AimingPart::ClearAlong,
                AimingPart::ClearHeight,
            ];
            parts.map(|part| part.of(id))
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
        self.short_target(ui, at);
        self.short_outboard(ui, at);
        self.short_limits(ui, at);
        self.short_zone(ui, at);
    }

    /// The first target: what it is, where it goes, how high.
    fn short_target(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let (id, Some(mut own)) = (aiming.id.clone(), aiming.placements.first().cloned()) else { return };
        let path = format!("aimings[{at}].placements[0]");
        let (p, figure) = (format!("{path}.target.kind"), AimingPart::Target.of(&id));
        let line = Line { label: texts.target_kind, path: &p, figure: Some(&figure), ..Line::default() };
        let chosen = self
            .pick_of(ui, line, &own.target.kind, &choices::TARGETS, |kind| texts.target(*kind).to_owned());
        if let Some(kind) = chosen {
            targets::make(&mut own, kind);
        }
        let (p, figure) = (format!("{path}.stand_off.distance_mm"), AimingPart::StandOff.of(&id));
        let line = Line {
            label: texts.stand_off,
            path: &p,
            figure: Some(&figure),
            sketch: Some(Sketch::StandOff),
            ..Line::default()
        };
        let off = &mut own.stand_off;
        off.distance_mm = self.number(ui, line, Of::Length, off.distance_mm).unwrap_or(off.distance_mm);
        let p = format!("{path}.stand_off.from");
        let data = choices::datums(&self.car);
        let from = self.pick(ui, texts.stand_off_from, &p, &off.from, &data, |own| texts.datum(own));
        off.from = from.unwrap_or_else(|| off.from.clone());
        let p = format!("{path}.stand_off.to");
        let ends: &[End] =
            if own.target.kind == TargetKind::CornerReflector { &choices::ENDS } else { &[End::Face] };
        let to = self.pick(ui, texts.stand_off_to, &p, &off.to, ends, |end| texts.end(*end).to_owned());
        off.to = to.unwrap_or(off.to);
        self.short_height(ui, &path, &id, &mut own);
        if let Some(place) = self.car.aimings.get_mut(at).and_then(|aiming| aiming.placements.first_mut()) {
            *place = own;
        }
    }

    /// How high the middle of the target goes, and where the edge or line of the sensor lies that this counts from.
    fn short_height(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        self.height(ui, path, aiming, own);
        let TargetHeight::FromSensor { point, .. } = own.height else { return };
        let sensor = self.short_of().0;
        if let Some(at) = sensor.filter(|_| point != SensorPoint::Centre) {
            self.edge(ui, at, point);
        }
    }

    /// How far outboard of the tyres the spots lie, where the plan lays any so: one figure for all of them.
    fn short_outboard(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let figure = AimingPart::MarkPlan.of(&aiming.id);
        let of = |step: &MarkStep| match step.construction {
            Construction::Outboard { distance, .. } => Some(distance),
            _ => None,
        };
        let Some((step, first)) =
            aiming.mark_plan.iter().enumerate().find_map(|(i, step)| Some((i, of(step)?)))
        else {
            return;
        };
        // Spots that lie differently far out are told one by one in the long form.
        if aiming.mark_plan.iter().filter_map(of).any(|other| other != first) {
            return;
        }
        let path = format!("aimings[{at}].mark_plan[{step}].how.distance_mm");
        let line = Line {
            label: texts.spots_outboard,
            hint: texts.spots_outboard_hint,
            path: &path,
            figure: Some(&figure),
            sketch: Some(Sketch::Outboard),
        };
        let Some(typed) = self.number(ui, line, Of::Length, first) else { return };
        let Some(own) = self.car.aimings.get_mut(at) else { return };
        for step in &mut own.mark_plan {
            if let Construction::Outboard { distance, .. } = &mut step.construction {
                *distance = typed;
            }
        }
    }

    /// How far the aim may be off, and what the floor must be.
    fn short_limits(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let (id, floor) = (aiming.id.clone(), aiming.floor);
        let mut tolerance = aiming.tolerance;
        for (label, field, part, sketch, value) in [
            (
                texts.azimuth,
                "azimuth_deg",
                AimingPart::Azimuth,
                Sketch::LooksLeft,
                &mut tolerance.azimuth_rad,
            ),
            (
                texts.elevation,
                "elevation_deg",
                AimingPart::Elevation,
                Sketch::LooksUp,
                &mut tolerance.elevation_rad,
            ),
        ] {
            let path = format!("aimings[{at}].tolerance.{field}");
            let figure = part.of(&id);
            let line =
                Line { label, path: &path, figure: Some(&figure), sketch: Some(sketch), ..Line::default() };
            *value = self.number(ui, line, Of::Angle, *value).unwrap_or(*value);
        }
        let (path, figure) = (format!("aimings[{at}].floor.level_mm"), AimingPart::Floor.of(&id));
        let line = Line {
            label: texts.floor_level,
            hint: texts.floor_level_hint,
            path: &path,
            figure: Some(&figure),
            sketch: Some(Sketch::FloorLevel),
        };
        let level = self.number_or_none(ui, line, Of::Length, floor.map(|own| own.level_mm));
        let Some(own) = self.car.aimings.get_mut(at) else { return };
        own.tolerance = tolerance;
        if let Some(level) = level {
            let before = floor.unwrap_or(FloorRequirement::level(0.0));
            own.floor = level.map(|level_mm| FloorRequirement { level_mm, ..before });
        }
    }

    /// The area that is kept clear: how far to each side, how high, how far ahead of the bumper.
    fn short_zone(&mut self, ui: &mut Ui, at: usize) {
        let texts = self.texts;
        let front = self.car.front();
        let Some(aiming) = self.car.aimings.get(at) else { return };
        let aside = AimingPart::ClearAside.of(&aiming.id);
        let along = AimingPart::ClearAlong.of(&aiming.id);
        let height = AimingPart::ClearHeight.of(&aiming.id);
        let count = aiming.zones.len();
        // One that is no rectangle, or reaches further to one side, is told in the long form: one figure would change it.
        let zone = aiming.zones.iter().position(|own| own.id.as_str() == CLEAR_AREA && is_even(&own.outline));
        // What the short form does not show is said, and that nothing is judged where there is nothing.
        let others = count - usize::from(zone.is_some());
        let Some((zone, own)) = zone.and_then(|zone| Some((zone, aiming.zones.get(zone)?.clone()))) else {
            ui.add(egui::Label::new(widgets::soft(ui, texts.zones_elsewhere(others, false))).wrap());
            return;
        };
        let bounds = own.outline.bounds();
        let path = format!("aimings[{at}].zones[{zone}].outline");
        let line = Line {
            label: texts.clear_aside,
            hint: texts.clear_aside_hint,
            path: &path,
            figure: Some(&aside),
            sketch: Some(Sketch::ClearAside),
        };
        let meet = texts.sides_meet;
        let area =
            |half: f64| Polygon::rectangle(DVec2::new(bounds.low.x, -half), DVec2::new(bounds.high.x, half));
        let wrong = |half: f64| area(half).is_err().then_some(meet);
        let width = self.number_unless(ui, line, Of::Length, bounds.high.y, wrong);
        let path = format!("aimings[{at}].zones[{zone}].top_mm");
        let sketch = Some(Sketch::ClearTop);
        let line = Line { label: texts.clear_top, path: &path, figure: Some(&height), sketch, hint: "" };
        let bottom = own.span.bottom();
        let upside_down = self.desk.texts().upside_down;
        let wrong = |top: f64| Span::new(bottom, top).is_err().then_some(upside_down);
        let top = self.number_unless(ui, line, Of::Length, own.span.top(), wrong);
        let path = format!("aimings[{at}].zones[{zone}].outline.reach");
        let line = Line {
            label: texts.clear_reach,
            hint: texts.clear_reach_hint,
            path: &path,
            figure: Some(&along),
            sketch: Some(Sketch::ClearReach),
        };
        let wrong = |reach: f64| (front + reach <= bounds.low.x).then_some(meet);
        let reach = self.number_unless(ui, line, Of::Length, bounds.high.x - front, wrong);
        ui.add(egui::Label::new(widgets::soft(ui, texts.zones_elsewhere(others, true))).wrap());
        let Some(own) = self.car.aimings.get_mut(at).and_then(|aiming| aiming.zones.get_mut(zone)) else {
            return;
        };
        if let Some(span) = top.and_then(|top| Span::new(bottom, top).ok()) {
            own.span = span;
        }
        if width.is_none() && reach.is_none() {
            return;
        }
        let (half, far) = (width.unwrap_or(bounds.high.y), reach.map_or(bounds.high.x, |own| front + own));
        if let Ok(outline) = Polygon::rectangle(DVec2::new(bounds.low.x, -half), DVec2::new(far, half)) {
            own.outline = Outline::Polygon(outline);
        }
    }
}

/// Whether an area is a rectangle along its frame that reaches as far to the right as to the left.
fn is_even(outline: &Outline) -> bool {
    let Outline::Polygon(polygon) = outline else { return false };
    let bounds = polygon.bounds();
    let size = bounds.size();
    size.x * size.y - polygon.area() < 1.0 && (bounds.low.y + bounds.high.y).abs() < 0.5
}
