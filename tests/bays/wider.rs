//! What else a bay may be: a shop with settings of its own, a car as it was measured, on runways, on an uneven floor; ways out
//! that are kept free.

use baywright_planner::geometry::{DVec2, DVec3};
use baywright_planner::model::*;

use crate::dice::Dice;
use crate::floor::Standing;
use crate::generator::{Draft, Laid, polygon};
use crate::set_up::{SetUp, What, tyre_width};
use crate::shape::{Frame, depth_of, edges, gap, points, rectangle, rectangle_on};

/// Settings of a shop's own, each within what is allowed.
pub fn shop(dice: &mut Dice, laid: Laid) -> Shop {
    let mut shop = Shop::default();
    if dice.often(0.4) {
        return shop;
    }
    let mut some = |own: &mut f64, low: f64, high: f64| {
        if dice.often(0.4) {
            *own = dice.within(low, high);
        }
    };
    some(&mut shop.taped_mm, 1.0, 60.0);
    some(&mut shop.by_eye_mm, 10.0, 300.0);
    some(&mut shop.car_taped_mm, 0.5, 20.0);
    some(&mut shop.car_planned_mm, 1.0, 80.0);
    some(&mut shop.car_taped_rad, 1e-4, 5e-3);
    some(&mut shop.car_planned_rad, 1e-3, 2e-2);
    some(&mut shop.working_room_mm, 100.0, 1_200.0);
    some(&mut shop.step_over_mm, 0.0, 600.0);
    some(&mut shop.duck_under_mm, 1_400.0, 2_300.0);
    some(&mut shop.over_car_mm, 0.0, 600.0);
    some(&mut shop.over_mark_mm, 50.0, 1_200.0);
    some(&mut shop.mark_agrees_mm, 0.5, 10.0);
    some(&mut shop.target_off_mm, 0.5, 20.0);
    some(&mut shop.tolerance_share, 0.1, 1.0);
    some(&mut shop.into_wall_mm, 0.0, 100.0);
    some(&mut shop.door_roll_mm, 100.0, 900.0);
    some(&mut shop.level_reach_mm, 800.0, 3_000.0);
    // A bay that was laid well was surveyed as lately as the shop wants it.
    let oldest = if laid.is_well() { 160.0 } else { 90.0 };
    some(&mut shop.survey_age_days, oldest, 700.0);
    shop.survey_age_days = shop.survey_age_days.round();
    shop.by_eye_mm = shop.by_eye_mm.max(shop.taped_mm);
    shop.car_planned_mm = shop.car_planned_mm.max(shop.car_taped_mm);
    shop.car_planned_rad = shop.car_planned_rad.max(shop.car_taped_rad);
    shop
}

/// What was measured on this very car, most of it within what the aiming allows.
pub fn measured(dice: &mut Dice, a: &mut Arrangement) {
    let is_named = a.aiming.placements.iter().any(|own| own.mark.is_some());
    let car = &mut a.on_this_car;
    if dice.often(0.3) {
        let off = |dice: &mut Dice| dice.within(-20.0, 20.0);
        let at = a.sensor.at;
        // Never out of the car; and not aside where a mark says whither the target goes.
        let aside = if at.y == 0.0 { off(dice) } else { -at.y.signum() * off(dice).abs() };
        let aside = if is_named { 0.0 } else { aside };
        car.sensor_at = Some(at + DVec3::new(-off(dice).abs(), aside, off(dice)));
    }
    if dice.often(0.35) {
        // Where a mark says the same place as the stand-off, the wheels are nearly where the profile has them.
        let by = if is_named { dice.one(&[0.2, 1.0]) } else { dice.one(&[2.0, 30.0, 99.0]) };
        let at = Wheel::ALL.map(|wheel| a.vehicle.wheel_point(wheel));
        car.wheels = Some(at.map(|at| at + DVec2::new(dice.within(-by, by), dice.within(-by, by))));
    }
    let limits = &a.aiming.alignment;
    if a.aiming.axis == ReferenceAxis::ThrustLine || limits.thrust_angle_rad.is_some() || dice.often(0.2) {
        let most = limits.thrust_angle_rad.unwrap_or(if is_named { 2e-4 } else { 6e-3 });
        let toe = dice.within(-0.005, 0.005);
        if dice.often(0.9) {
            let other = toe + most * dice.within(-2.0, 2.0);
            // Of some sheets only half is entered.
            car.rear_toe = RearToe {
                left_rad: (toe < 0.0047).then_some(toe),
                right_rad: (toe > -0.0047).then_some(other),
            };
            // Some are typed from the sheet, with the way that each goes.
            if toe > 0.0 {
                let sheet = car.sheet_to_type();
                car.take_sheet(sheet);
            }
        }
    }
    if limits.set_back_mm.is_some() || dice.often(0.2) {
        let most = limits.set_back_mm.unwrap_or(20.0);
        car.set_back_mm = dice.often(0.9).then(|| most * dice.within(-1.0, 1.0));
    }
}

/// Two runways under the wheels and the spots beside them, with levels of their own.
pub fn raised(dice: &mut Dice, a: &mut Arrangement, laid: Laid) {
    let is_written_for_it = a.aiming.zones.iter().all(|own| own.heights_from == HeightsFrom::Wheels);
    let is_written_for_it =
        is_written_for_it && a.aiming.placements.iter().all(|own| own.height != TargetHeight::OnFloor);
    if !dice.often(if is_written_for_it { 0.6 } else { 0.03 }) {
        return;
    }
    let set_up = SetUp::of(a);
    let far = set_up.wheels.iter().map(|at| at.length()).fold(0.0, f64::max) + 500.0;
    let (mm, rad) = a.shop.parked_within(a.parked_known);
    let well = a.shop.within(a.bay.walls_known) + mm + far * rad;
    let more = match laid {
        Laid::Well | Laid::Spoiled => well + dice.one(&[0.5, 20.0, 150.0]),
        Laid::Nearly => dice.one(&[well - 5.0, well * 0.5, 1.0]).max(0.5),
        Laid::Crowded => dice.within(-30.0, 100.0),
    };
    let top = dice.one(&[100.0, 180.0, 400.0]);
    for (side, id) in [(1.0, "left runway"), (-1.0, "right runway")] {
        let tyres = Wheel::ALL.into_iter().zip(&set_up.wheels).filter(|(_, at)| at.y * side > 0.0);
        let tyres = tyres.flat_map(|(wheel, at)| {
            let half = DVec2::new(150.0, tyre_width(a, wheel) * 0.5);
            [*at - half, *at + half]
        });
        let spots = set_up.beside_tyres.iter().map(|own| own.1).filter(|at| at.y * side > 0.0);
        let all: Vec<DVec2> = tyres.chain(spots).collect();
        let low = all.iter().copied().fold(DVec2::INFINITY, DVec2::min) - more;
        let high = all.iter().copied().fold(DVec2::NEG_INFINITY, DVec2::max) + more;
        let top_mm = if dice.often(0.1) { top + 3.0 } else { top };
        let along = (high.x - low.x) / 4.0;
        let level = dice.one(&[0.0, 0.0, 0.3]);
        let points =
            (0..=4).flat_map(|i| [low.y, high.y].map(|y| DVec2::new(low.x + along * f64::from(i), y)));
        let points: Vec<LevelPoint> =
            points.map(|at| LevelPoint { at, level_mm: level * dice.within(-1.0, 1.0) }).collect();
        a.bay.runways.push(Runway {
            id: id.into(),
            outline: polygon(rectangle(low, high)),
            top_mm,
            survey: dice.often(0.9).then(|| survey(points)),
        });
        a.on_runways.push(id.into());
    }
}

fn survey(points: Vec<LevelPoint>) -> FloorSurvey {
    // Most say how surely their levels were taken; of the others the shop's own figure counts.
    let within_mm = (!points.len().is_multiple_of(4)).then_some(0.1);
    FloorSurvey {
        taken: Some(jiff::civil::date(2026, 6, 1)),
        points: points.into(),
        how: LevelsTaken { within_mm, ..LevelsTaken::default() },
        provenance: Provenance::Measured { by: "a test".into(), date: None },
    }
}

impl Draft {
    /// Levels on a grid of a metre: flat, or sloping, folded and bumpy by about as much as the aiming allows.
    pub fn levels(&mut self, dice: &mut Dice) {
        let (low, high) = (self.low - 2_000.0, self.high + 2_000.0);
        let is_flat = self.laid != Laid::Crowded && dice.often(0.4);
        let off = if dice.often(0.3) { 120.0 } else { 0.0 };
        let bumps = if self.laid != Laid::Crowded && dice.often(0.3) { 0.3 } else { 0.0 };
        let (slope, fold) = (DVec2::new(dice.within(-1.0, 1.0), dice.within(-1.0, 1.0)), dice.often(0.5));
        let (turn, from) = (dice.within(-2.0, 2.0), dice.within(low.x, high.x));
        let mut points = Vec::new();
        for i in 0..=((high.x - low.x) / 1_000.0) as u32 {
            for j in 0..=((high.y - low.y) / 1_000.0) as u32 {
                let jitter = DVec2::new(dice.within(-off, off), dice.within(-off, off));
                let at = low + DVec2::new(f64::from(i), f64::from(j)) * 1_000.0 + jitter;
                let bent = if fold { turn * (at.x - from).max(0.0) } else { 0.0 };
                let level_mm = (slope.dot(at) + bent) * 1e-3 + bumps * dice.within(-1.0, 1.0);
                points.push(LevelPoint { at, level_mm: if is_flat { 0.0 } else { level_mm } });
            }
        }
        let bay = &mut self.arrangement.bay;
        bay.survey = Some(survey(points));
        let spread = |a: &Arrangement| Standing::of(a, &SetUp::of(a)).map_or(0.0, |own| own.spread());
        let now = spread(&self.arrangement);
        let limit = self.arrangement.aiming.floor.map_or(12.0, |floor| floor.level_mm);
        if now > 0.01 {
            let share = match self.laid {
                Laid::Well | Laid::Spoiled => dice.one(&[0.2, 0.6, 0.97, 0.999]),
                Laid::Nearly => dice.one(&[0.5, 0.999, 1.003, 1.5]),
                Laid::Crowded => dice.one(&[0.999, 20.0, 40.0]),
            };
            let by = (share * limit / now).min(40.0);
            let levels = |points: &mut Vec<LevelPoint>| points.iter_mut().for_each(|own| own.level_mm *= by);
            if let Some(survey) = &mut self.arrangement.bay.survey {
                survey.points.change(levels);
            }
        }
    }

    /// Ways out and what else local rules want free; in a bay that was laid well nothing stands there.
    pub fn ways_out(&mut self, dice: &mut Dice) {
        let kinds = [KeepFreeKind::Exit, KeepFreeKind::Panel, KeepFreeKind::Extinguisher];
        for i in 0..dice.count(0, 2) {
            for _ in 0..8 {
                let low =
                    DVec2::new(dice.within(self.low.x, self.high.x), dice.within(self.low.y, self.high.y));
                let ring =
                    rectangle(low, low + DVec2::new(dice.within(200.0, 900.0), dice.within(200.0, 900.0)));
                let ring =
                    Frame::new(low, dice.within(-3.0, 3.0)).ring(&rectangle(DVec2::ZERO, ring[2] - low));
                if !self.laid.is_well() || self.is_free(&ring) {
                    let (id, kind) = (format!("way {i}").as_str().into(), dice.one(&kinds));
                    self.arrangement.bay.keep_free.push(KeepFree { id, kind, outline: polygon(ring) });
                    break;
                }
            }
        }
        let room = self.arrangement.bay.room.outer().to_vec();
        for i in 0..self.arrangement.bay.openings.len() {
            let door = &self.arrangement.bay.openings[i];
            let (from, to) = edges(&room).nth(door.wall).expect("it is there");
            let before = rectangle_on(from, to, (door.from_mm, door.from_mm + door.width_mm), (0.0, 712.0));
            let is_exit = dice.often(0.5) && (!self.laid.is_well() || self.is_free(&before));
            self.arrangement.bay.openings[i].is_exit = is_exit;
        }
    }

    /// A hall of several bays: one that is all of the room, in which it is set up, and up to two more somewhere in it, of which
    /// some are kept empty; in a bay that was laid well they are out of reach.
    pub fn hall(&mut self, dice: &mut Dice) {
        if !dice.often(0.25) {
            return;
        }
        let own = HallBay { id: "own bay".into(), outline: self.arrangement.bay.room.clone() };
        self.arrangement.bay.bays.push(own);
        self.arrangement.in_bay = Some("own bay".into());
        for i in 0..dice.count(1, 2) {
            let low = DVec2::new(dice.within(self.low.x, self.high.x), dice.within(self.low.y, self.high.y));
            let size = DVec2::new(dice.within(300.0, 2_000.0), dice.within(300.0, 2_000.0));
            let ring = Frame::new(low, dice.within(-3.0, 3.0)).ring(&rectangle(DVec2::ZERO, size));
            let kept = dice.often(0.3);
            let parts = &self.set_up.parts;
            let is_far = parts.iter().all(|own| gap(&own.ring, &ring) > dice.one(&[900.0, 1_500.0]));
            if kept || is_far || !self.laid.is_well() {
                let id: Id = format!("bay {i}").as_str().into();
                self.arrangement.kept_empty.extend(kept.then(|| id.clone()));
                self.arrangement.bay.bays.push(HallBay { id, outline: polygon(ring) });
            }
        }
    }

    /// Whether nothing of the set-up and no thing is in a place.
    fn is_free(&self, ring: &[DVec2]) -> bool {
        let parts = self.set_up.parts.iter();
        let is_in_way = |what: &What| !matches!(what, What::Zone(own) if *own != Exclusion::People);
        let parts = parts.filter(|own| is_in_way(&own.what));
        let shop = &self.arrangement.shop;
        let things = self.arrangement.bay.things.iter();
        let things = things.map(|own| crate::solid::Solid::of(own, shop).ring);
        let features = self.arrangement.bay.floor_features.iter().map(|own| own.outline.outer().to_vec());
        let runways = self.arrangement.bay.runways.iter().map(|own| own.outline.outer().to_vec());
        let mut all = parts.map(|own| own.ring.clone()).chain(things).chain(features).chain(runways);
        let is_inside = points(ring).all(|p| depth_of(self.arrangement.bay.room.outer(), p) >= -1e-3);
        is_inside && !all.any(|own| gap(&own, ring) < 1.0)
    }
}
