//! The targets of an aiming, in their order: what they are, where they go, how near they must be.

use baywright_planner::model::assumed::AimingPart;
use baywright_planner::model::{
    AimError, End, HeightsFrom, Id, MeasuredAlong, Placement, Stand, TargetHeight, TargetKind,
    VerticalReference,
};
use egui::Ui;

use super::car_form::{CarForm, Line, Of, Order, part};
use super::choices;
use super::sketch::Sketch;
use crate::screen::widgets;

impl CarForm<'_> {
    pub(super) fn targets(&mut self, ui: &mut Ui, aiming: usize) {
        let texts = self.texts;
        let count = self.car.aimings.get(aiming).map_or(0, |own| own.placements.len());
        let mut asked = None;
        for j in 0..count {
            let Some(own) = self.car.aimings.get(aiming).and_then(|own| own.placements.get(j)) else {
                continue;
            };
            let title = own.id.to_string();
            part(ui, &title, &format!("target {aiming} {j}"), count == 1, |ui| {
                self.placement(ui, aiming, j);
                asked = self.order(ui, &title, j, count).map(|order| (j, order)).or(asked);
            });
        }
        if let Some((j, order)) = asked {
            self.order_target(aiming, j, order);
        }
        if widgets::lesser(ui, texts.add_target).clicked() {
            self.order_target(aiming, count.saturating_sub(1), Order::Copy);
        }
    }

    fn order_target(&mut self, aiming: usize, j: usize, order: Order) {
        let Some(own) = self.car.aimings.get_mut(aiming) else { return };
        let count = own.placements.len();
        match order {
            // A mark that goes abreast of a target names it by its place.
            Order::Up if j > 0 => own.swap_placements(j - 1, j),
            Order::Down if j + 1 < count => own.swap_placements(j, j + 1),
            Order::Up | Order::Down => return,
            Order::Copy => {
                let Some(mut copy) = own.placements.get(j).cloned() else { return };
                copy.id = choices::free(copy.id.as_str(), own.placements.iter().map(|own| &own.id));
                copy.stand_off.distance_mm += FURTHER_MM;
                copy.mark = None;
                own.placements.push(copy);
            }
            Order::Remove => {
                if !own.remove_placement(j) {
                    return;
                }
            }
        }
        self.did();
    }

    fn placement(&mut self, ui: &mut Ui, i: usize, j: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let (id, Some(mut own)) = (aiming.id.clone(), aiming.placements.get(j).cloned()) else { return };
        let marks: Vec<Id> = aiming.mark_plan.iter().map(|step| step.id.clone()).collect();
        let path = format!("aimings[{i}].placements[{j}]");
        let others: Vec<Id> = aiming.placements.iter().map(|own| own.id.clone()).collect();
        let renamed = self.own_id(ui, texts.name, &format!("{path}.name"), &own.id, others.iter());
        self.target(ui, &path, &id, &mut own);
        self.stand_off(ui, &path, &id, &mut own);
        self.target_height(ui, &path, &id, &mut own);
        let p = format!("{path}.turned_deg");
        let line = Line { label: texts.turned, path: &p, ..Line::default() };
        own.turned_rad = self.number(ui, line, Of::Angle, own.turned_rad).unwrap_or(own.turned_rad);
        let choices: Vec<Option<Id>> = std::iter::once(None).chain(marks.into_iter().map(Some)).collect();
        let p = format!("{path}.mark");
        let chosen = self.pick(ui, texts.mark_under, &p, &own.mark, &choices, |mark| {
            mark.as_ref().map_or_else(|| texts.no_mark.to_owned(), ToString::to_string)
        });
        own.mark = chosen.unwrap_or(own.mark);
        self.nearness(ui, &path, &id, &mut own);
        self.together(ui, i, j, &mut own);
        let Some(aiming) = self.car.aimings.get_mut(i) else { return };
        if let Some(place) = aiming.placements.get_mut(j) {
            *place = own;
        }
        if let Some(to) = renamed {
            aiming.rename_placement(j, &to);
        }
    }

    /// Which targets stand at the same time.
    fn together(&mut self, ui: &mut Ui, i: usize, j: usize, own: &mut Placement) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let others: Vec<Id> =
            aiming.placements.iter().map(|other| other.id.clone()).filter(|id| *id != own.id).collect();
        if others.is_empty() {
            return;
        }
        let p = format!("aimings[{i}].placements[{j}].with");
        let chosen = self.pick(ui, texts.stands_with, &p, &own.with.is_some(), &[false, true], |said| {
            if *said { texts.stands_with_these } else { texts.stands_as_usual }.to_owned()
        });
        match chosen {
            Some(true) => own.with = Some(Vec::new()),
            Some(false) => own.with = None,
            None => {}
        }
        let Some(with) = own.with.as_mut() else { return };
        let mut changed = false;
        for other in &others {
            let mut stands = with.contains(other);
            if ui.checkbox(&mut stands, widgets::soft(ui, other.as_str())).changed() {
                with.retain(|id| id != other);
                if stands {
                    with.push(other.clone());
                }
                changed = true;
            }
        }
        if changed {
            self.did();
        }
    }

    fn target(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        let texts = self.texts;
        let figure = AimingPart::Target.of(aiming);
        let p = format!("{path}.target.kind");
        let chosen = self.pick(ui, texts.target_kind, &p, &own.target.kind, &choices::TARGETS, |kind| {
            texts.target(*kind).to_owned()
        });
        if let Some(kind) = chosen {
            self.car.enter(&figure);
            make(own, kind);
        }
        let target = &mut own.target;
        let mut rows = vec![
            (texts.face_width, "width_mm", &mut target.width_mm),
            (texts.face_height, "height_mm", &mut target.height_mm),
            (texts.face_depth, "depth_mm", &mut target.depth_mm),
        ];
        if target.kind == TargetKind::CornerReflector {
            rows.push((texts.centre_behind, "centre_behind_mm", &mut target.centre_behind_mm));
        }
        for (label, field, value) in rows {
            let p = format!("{path}.target.{field}");
            let line = Line { label, path: &p, figure: Some(&figure), ..Line::default() };
            *value = self.number(ui, line, Of::Length, *value).unwrap_or(*value);
        }
        for (label, field, value) in [
            (texts.aims_by_place, "aims_by.place", &mut target.error.by_place),
            (texts.aims_by_squareness, "aims_by.squareness", &mut target.error.by_squareness),
        ] {
            let p = format!("{path}.target.{field}");
            let line = Line { label, hint: texts.share_hint, path: &p, figure: Some(&figure), sketch: None };
            *value = self.number(ui, line, Of::Number(1.0), *value).unwrap_or(*value);
        }
        if target.kind == TargetKind::Mat {
            return;
        }
        let mut stands = target.stand.is_some();
        if ui.checkbox(&mut stands, widgets::soft(ui, texts.has_stand)).changed() {
            target.stand = if stands { Stand::start(Stand::START_TOP_MM) } else { None };
            self.did();
        }
        let Some(stand) = &mut target.stand else { return };
        for (label, field, value) in [
            (texts.stand_lowest, "lowest_mm", &mut stand.lowest_mm),
            (texts.stand_highest, "highest_mm", &mut stand.highest_mm),
        ] {
            let p = format!("{path}.target.stand.{field}");
            let line =
                Line { label, hint: texts.stand_reach_hint, path: &p, figure: Some(&figure), sketch: None };
            *value = self.number_or_none(ui, line, Of::Length, *value).unwrap_or(*value);
        }
        for (label, field, value) in [
            (texts.stand_top, "top_mm", &mut stand.top_mm),
            (texts.stand_mast, "mast_mm", &mut stand.mast_mm),
            (texts.stand_behind, "mast_behind_mm", &mut stand.mast_behind_mm),
            (texts.stand_base, "base_height_mm", &mut stand.base_height_mm),
        ] {
            let p = format!("{path}.target.stand.{field}");
            let line = Line { label, path: &p, figure: Some(&figure), ..Line::default() };
            *value = self.number(ui, line, Of::Length, *value).unwrap_or(*value);
        }
        let p = format!("{path}.target.stand.base");
        if let Some(base) = self.outline(ui, &p, &stand.base, None) {
            stand.base = base;
            self.car.enter(&figure);
        }
    }

    fn stand_off(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        let texts = self.texts;
        let figure = AimingPart::StandOff.of(aiming);
        let off = &mut own.stand_off;
        let p = format!("{path}.stand_off.distance_mm");
        let line = Line {
            label: texts.stand_off,
            path: &p,
            figure: Some(&figure),
            sketch: Some(Sketch::StandOff),
            ..Line::default()
        };
        off.distance_mm = self.number(ui, line, Of::Length, off.distance_mm).unwrap_or(off.distance_mm);
        let p = format!("{path}.stand_off.from");
        let data = choices::datums(&self.car);
        if let Some(from) = self.pick(ui, texts.stand_off_from, &p, &off.from, &data, |own| texts.datum(own))
        {
            off.from = from;
        }
        let p = format!("{path}.stand_off.to");
        let chosen =
            self.pick(ui, texts.stand_off_to, &p, &off.to, &choices::ENDS, |end| texts.end(*end).to_owned());
        off.to = chosen.unwrap_or(off.to);
        let p = format!("{path}.stand_off.along");
        let ways = [MeasuredAlong::Floor, MeasuredAlong::Level];
        let chosen = self
            .pick(ui, texts.stand_off_along, &p, &off.along, &ways, |own| texts.measured(*own).to_owned());
        off.along = chosen.unwrap_or(off.along);
        let p = format!("{path}.stand_off.bearing_deg");
        let line = Line {
            label: texts.bearing,
            hint: texts.bearing_hint,
            path: &p,
            figure: Some(&figure),
            sketch: Some(Sketch::LooksLeft),
        };
        off.bearing_rad = self.number(ui, line, Of::Angle, off.bearing_rad).unwrap_or(off.bearing_rad);
        let p = format!("{path}.stand_off.aside_mm");
        let line = Line {
            label: texts.stands_left,
            hint: texts.stands_left_hint,
            path: &p,
            figure: Some(&figure),
            sketch: Some(Sketch::TargetAside),
        };
        off.aside_mm = self.number(ui, line, Of::Length, off.aside_mm).unwrap_or(off.aside_mm);
    }

    /// What the height of a target's middle counts from, and how far above that it is.
    pub(super) fn height(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        let texts = self.texts;
        let figure = AimingPart::TargetHeight.of(aiming);
        let p = format!("{path}.height");
        let ways = choices::heights(own.height);
        let line =
            Line { label: texts.target_height_kind, path: &p, figure: Some(&figure), ..Line::default() };
        let is_open = self.car.is_assumed(&figure);
        let chosen =
            self.pick_of(ui, line, &own.height, &ways, |height| texts.height_from(*height).to_owned());
        own.height = chosen.unwrap_or(own.height);
        let (field, label, hint, value) = match &mut own.height {
            TargetHeight::FromSensor { point, offset_mm } => {
                ("offset_mm", texts.above_point(*point), texts.above_sensor_hint, offset_mm)
            }
            TargetHeight::Absolute(height) => ("height_mm", texts.target_height, "", height),
            TargetHeight::OnFloor => return,
        };
        let p = format!("{path}.height.{field}");
        if chosen.is_some() {
            // From where was said; how far is typed next, and nobody entered it yet.
            if is_open {
                self.car.leave_open(&figure);
            }
            self.fields.lead_to(label, &p);
        }
        let line = Line { label, hint, path: &p, figure: Some(&figure), sketch: Some(Sketch::TargetHeight) };
        *value = self.number(ui, line, Of::Length, *value).unwrap_or(*value);
    }

    fn target_height(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        let texts = self.texts;
        self.height(ui, path, aiming, own);
        if own.height == TargetHeight::OnFloor {
            return;
        }
        if matches!(own.height, TargetHeight::Absolute(_)) {
            let p = format!("{path}.heights_from");
            let chosen = self.pick(ui, texts.heights_from, &p, &own.heights_from, &HeightsFrom::ALL, |own| {
                texts.plane(*own).to_owned()
            });
            own.heights_from = chosen.unwrap_or(own.heights_from);
        }
        let p = format!("{path}.vertical");
        let ways = [VerticalReference::Gravity, VerticalReference::WheelsPlane];
        let chosen =
            self.pick(ui, texts.vertical, &p, &own.vertical, &ways, |own| texts.upright(*own).to_owned());
        own.vertical = chosen.unwrap_or(own.vertical);
    }

    /// How near to its place it must be.
    fn nearness(&mut self, ui: &mut Ui, path: &str, aiming: &Id, own: &mut Placement) {
        let texts = self.texts;
        let figure = AimingPart::PlaceTolerance.of(aiming);
        let near = &mut own.tolerance;
        for (label, field, of, value) in [
            (texts.within_along, "along_mm", Of::Length, &mut near.along_mm),
            (texts.within_across, "across_mm", Of::Length, &mut near.across_mm),
            (texts.within_height, "height_mm", Of::Length, &mut near.height_mm),
            (texts.within_yaw, "yaw_deg", Of::Angle, &mut near.yaw_rad),
            (texts.within_pitch, "pitch_deg", Of::Angle, &mut near.pitch_rad),
        ] {
            let p = format!("{path}.tolerance.{field}");
            let line =
                Line { label, hint: texts.empty_is_nothing, path: &p, figure: Some(&figure), sketch: None };
            *value = self.number_or_none(ui, line, of, *value).unwrap_or(*value);
        }
    }
}

/// A further target stands this much behind the one before it, mm, to start from.
const FURTHER_MM: f64 = 1_000.0;

/// What follows from a target's kind: how it aims, whether it stands or lies.
pub(super) fn make(own: &mut Placement, kind: TargetKind) {
    let target = &mut own.target;
    target.kind = kind;
    target.error = AimError::usual(kind);
    let mat = kind == TargetKind::Mat;
    if mat {
        (own.height, target.stand) = (TargetHeight::OnFloor, None);
    } else if own.height == TargetHeight::OnFloor {
        (own.height, target.stand) = (TargetHeight::from_centre(0.0), Stand::start(Stand::START_TOP_MM));
    }
    if kind != TargetKind::CornerReflector {
        target.centre_behind_mm = 0.0;
        own.stand_off.to = End::Face;
    }
}
