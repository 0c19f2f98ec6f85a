//! What people want of a bay as it is drawn, looked at point by point: doors by which nobody walks into a zone, shut doors that
//! nobody opens onto the set-up, a door for the car,
//! room to step up to a target, floor without holes; and that marks are found and laid, and nothing shines behind a lidar's target.

use baywright_planner::geometry::{DVec2, DVec3};
use baywright_planner::model::{
    Arrangement, Effort, Exclusion, FloorFeatureKind, KeepFreeKind, Material, Opening, OpeningKind,
    SensorKind, Wheel,
};

use crate::oracle::{Conflict, SURE_MM};
use crate::set_up::{Part, SetUp, Sight, What, tyre_width};
use crate::shape::{
    Frame, Ring, along, depth, depth_of, edges, gap, gap_to_line, points, rectangle, rectangle_on,
};
use crate::solid::{Is, Solid};

/// A step into the room, what a person walks through, and how tall one is.
pub const STEP_MM: f64 = 1_000.0;
const NARROWEST_MM: f64 = 400.0;
const LOWEST_MM: f64 = 1_000.0;
pub const PERSON_MM: f64 = 2_032.0;
/// Six feet from a pit's edge.
const PIT_MM: f64 = 1_828.8;
/// What is missing by less is left to the check's own figures.
const MARGIN_MM: f64 = 1.0;
/// A car's place in a door is looked for so finely, and what is in its way by less is not.
const IN_DOOR_MM: f64 = 4.0;
/// In how many directions a pit is off its place.
const WAYS: u32 = 8;
/// What lengthens a tape by that shows on it.
const READS_MM: f64 = 0.5;
/// A tape goes over what is as low.
const LOW_MM: f64 = 20.0;
/// How high a mirror is.
const MIRROR_MM: f64 = 40.0;

/// All of it.
pub fn as_drawn(a: &Arrangement, placed: &SetUp, solids: &[Solid], found: &mut Vec<Conflict>) {
    let mut all = Looked { a, placed, solids, room: a.bay.room.outer(), found };
    all.walk_in();
    all.people();
    all.under_the_car();
    all.shut_doors();
    all.way_in();
    all.beside_targets();
    all.pits(0.0);
    all.marks();
    all.tapes();
    all.glass();
    all.daylight();
}

/// The same of people and pits, wherever the car stands and the pits lie, as far as that is known.
pub fn elsewhere(a: &Arrangement, placed: &SetUp, solids: &[Solid], found: &mut Vec<Conflict>) {
    let mut all = Looked { a, placed, solids, room: a.bay.room.outer(), found };
    all.people();
    all.under_the_car();
    all.pits(a.shop.within(a.bay.walls_known));
}

struct Looked<'a> {
    a: &'a Arrangement,
    placed: &'a SetUp,
    solids: &'a [Solid],
    room: &'a [DVec2],
    found: &'a mut Vec<Conflict>,
}

impl Looked<'_> {
    fn add(&mut self, kind: &'static str, by: &str, of: &str) {
        self.found.push(Conflict { kind, by: by.to_owned(), of: of.to_owned(), by_mm: 0.0 });
    }

    fn wall_of(&self, door: &Opening) -> (DVec2, DVec2) {
        edges(self.room).nth(door.wall).expect("it is there")
    }

    /// A door as from where to where, its beginning first, and the direction into the room.
    fn door(&self, door: &Opening) -> (DVec2, DVec2, DVec2) {
        let (from, to) = self.wall_of(door);
        let way = (to - from) / from.distance(to);
        let begin = from + way * door.from_mm;
        (begin, begin + way * door.width_mm, DVec2::new(-way.y, way.x))
    }

    fn walk_in(&mut self) {
        let is_asked = |what: &What| *what == What::Zone(Exclusion::People);
        let zones = self.placed.parts.iter().filter(|own| is_asked(&own.what) && own.low < PERSON_MM);
        let mut told = Vec::new();
        for zone in zones {
            for door in self.a.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window) {
                let fits = self.lets_somebody_in(door);
                // Through a door that stands open the zone may run out, which is said of it as a whole.
                if fits
                    && !door.is_open()
                    && !self.is_kept_shut(door)
                    && self.is_stepped_into(door, &zone.ring)
                {
                    told.push((door.id.to_string(), zone.name.clone()));
                }
            }
            for way in self.a.bay.keep_free.iter().filter(|own| own.kind == KeepFreeKind::Exit) {
                if depth(way.outline.outer(), &zone.ring) > MARGIN_MM {
                    told.push((way.id.to_string(), zone.name.clone()));
                }
            }
        }
        for (by, of) in told {
            self.add("walk in", &by, &of);
        }
    }

    /// Whether some point of a zone is seen from some point of a door, and nearer than a step.
    fn is_stepped_into(&self, door: &Opening, zone: &[DVec2]) -> bool {
        let (from, to, inward) = self.door(door);
        let reached = |p: DVec2, q: DVec2| {
            let is_near = (q - p).dot(inward) > MARGIN_MM && q.distance(p) < STEP_MM - MARGIN_MM;
            is_near && along(p + inward * SURE_MM, q, 20.0).all(|own| depth_of(self.room, own) > -SURE_MM)
        };
        along(from, to, 50.0).any(|p| {
            let stood = p + inward * 2.0 * MARGIN_MM;
            (depth_of(zone, stood) > MARGIN_MM && depth_of(self.room, stood) > 0.0)
                || points(zone).any(|q| reached(p, q))
        })
    }

    /// People within a step of a zone that they are kept out of or of a line of sight, or in a camera's picture.
    fn people(&mut self) {
        let mut told = Vec::new();
        for own in self.solids.iter().filter(|own| own.is_person) {
            let zones = self.placed.parts.iter().filter(|zone| zone.is_kept_from(own));
            for zone in zones.filter(|zone| self.is_stepped_from(&own.ring, &zone.ring)) {
                told.push((own.name.clone(), zone.name.clone()));
            }
            for sight in
                self.placed.sights.iter().filter(|sight| self.is_stepped_from(&own.ring, &sight.ring()))
            {
                told.push((own.name.clone(), sight.name.clone()));
            }
            if self.is_in_picture(own) {
                told.push((own.name.clone(), "picture".to_owned()));
            }
        }
        for (by, of) in told {
            self.add("person near", &by, &of);
        }
    }

    /// What can be carried away and stands under the body, higher than a tape goes over.
    fn under_the_car(&mut self) {
        let things = self.a.bay.things.iter().zip(self.solids).filter(|(own, _)| own.effort != Effort::Fixed);
        let rising = things.map(|(_, solid)| solid).filter(|own| own.high > self.placed.carried + LOW_MM);
        // A mirror is no higher than that.
        let body = |part: &&Part| part.what == What::Car && part.high - part.low > MIRROR_MM + MARGIN_MM;
        let is_under = |own: &Solid| {
            let over = self.placed.parts.iter().filter(body).filter(|part| own.high < part.low - MARGIN_MM);
            over.into_iter().any(|part| depth(&own.ring, &part.ring) > MARGIN_MM)
        };
        let told: Vec<String> = rising.filter(|own| is_under(own)).map(|own| own.name.clone()).collect();
        for by in told {
            self.add("under the car", &by, "car");
        }
    }

    fn lets_somebody_in(&self, door: &Opening) -> bool {
        door.width_mm >= NARROWEST_MM
            && door.span.bottom() <= self.a.shop.step_over_mm
            && door.span.top() >= LOWEST_MM
    }

    fn is_kept_shut(&self, door: &Opening) -> bool {
        door.shut && self.a.kept_shut.contains(&door.id)
    }

    /// Doors that are shut and not kept so, with what of the set-up their leaf swings into, or who comes in is a step from.
    fn shut_doors(&mut self) {
        let is_door = |own: &&Opening| matches!(own.kind, OpeningKind::RollerDoor | OpeningKind::SwingDoor);
        let mut told = Vec::new();
        for door in
            self.a.bay.openings.iter().filter(is_door).filter(|own| own.shut && !self.is_kept_shut(own))
        {
            let name = door.id.to_string();
            if door.kind == OpeningKind::SwingDoor && self.swings_into_something(door) {
                told.push(("leaf", name.clone()));
            }
            let is_target = |what: &What| matches!(what, What::Face | What::Stand | What::Feet);
            let targets = self.placed.parts.iter().filter(|own| is_target(&own.what) && own.low < PERSON_MM);
            let sights = self.placed.sights.iter().map(Sight::ring);
            let mut near = targets.map(|own| own.ring.clone()).chain(sights);
            if self.lets_somebody_in(door) && near.any(|ring| self.is_stepped_into(door, &ring)) {
                told.push(("step in", name));
            }
        }
        for (kind, by) in told {
            self.add(kind, &by, "set-up");
        }
    }

    /// Whether some point of a leaf, hung at either jamb and open by any angle into the room, is in a part of the set-up.
    fn swings_into_something(&self, door: &Opening) -> bool {
        let (from, to, inward) = self.door(door);
        let leaf = Solid::leaf(door);
        let parts = self.placed.parts.iter().filter(|part| leaf.keeps_out(part) != Some(false));
        let in_way: Vec<&Ring> = parts.map(|part| &part.ring).collect();
        let width = door.width_mm;
        let leaves = [(from, to), (to, from)].into_iter().flat_map(|(hinge, end)| {
            let shut = (end - hinge) / width;
            (1..=18).map(move |i| {
                let (sin, cos) = (f64::from(i) * 5.0).to_radians().sin_cos();
                (hinge, hinge + (shut * cos + inward * sin) * width)
            })
        });
        leaves.into_iter().any(|(hinge, end)| {
            in_way.iter().any(|ring| along(hinge, end, 20.0).any(|p| depth_of(ring, p) > MARGIN_MM))
        })
    }

    /// Whether somebody gets into a zone by one straight step inside the room.
    fn is_stepped_from(&self, from: &[DVec2], zone: &[DVec2]) -> bool {
        if gap(from, zone) > STEP_MM - MARGIN_MM {
            return false;
        }
        let is_in = |p: &DVec2| depth_of(zone, *p) > MARGIN_MM && depth_of(self.room, *p) > MARGIN_MM;
        let steps = |p: DVec2, q: DVec2| {
            let is_near = q.distance(p) < STEP_MM - MARGIN_MM && depth_of(self.room, q) > MARGIN_MM;
            is_near && along(p, q, 20.0).all(|own| depth_of(self.room, own) > -SURE_MM)
        };
        points(from).any(|p| is_in(&p)) || points(from).any(|p| points(zone).any(|q| steps(p, q)))
    }

    /// Whether some point of somebody is in the picture of a camera that looks at something upright.
    fn is_in_picture(&self, who: &Solid) -> bool {
        let sensor = &self.a.sensor;
        let Some(sight) = self.placed.sights.iter().find(|own| !own.lies && sensor.kind.is_camera()) else {
            return false;
        };
        let heading = self.placed.ahead.y.atan2(self.placed.ahead.x) + sensor.azimuth_rad;
        let own = Frame::new(sight.eye.truncate(), heading);
        let (sin, cos) = sensor.elevation_rad.sin_cos();
        let (across, upright) = (sensor.view.azimuth_half_rad, sensor.view.elevation_half_rad);
        let sees = |p: DVec2, z: f64| {
            let (flat, z) = (own.into_own(p), z - sight.eye.z);
            let (x, y, z) = (flat.x * cos + z * sin, flat.y, z * cos - flat.x * sin);
            if sensor.has_flat_picture() {
                x > MARGIN_MM
                    && y.abs() < x * across.tan() - MARGIN_MM
                    && z.abs() < x * upright.tan() - MARGIN_MM
            } else {
                y.atan2(x).abs() < across - 0.001 && z.atan2(x.hypot(y)).abs() < upright - 0.001
            }
        };
        let heights = (0..=10).map(|i| who.low + (who.high - who.low) * f64::from(i) / 10.0);
        heights.into_iter().any(|z| points(&who.ring).any(|p| sees(p, z)))
    }

    /// Whether the car, and no more than that, comes in by any door at all.
    fn way_in(&mut self) {
        let doors: Vec<&Opening> =
            self.a.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window).collect();
        if !doors.is_empty() && !doors.iter().any(|door| self.lets_in(door)) {
            self.add("way in", "door", "car");
        }
    }

    fn lets_in(&self, door: &Opening) -> bool {
        let car = &self.a.vehicle;
        let body = car.outline_top.iter().map(|p| p.y.abs()).fold(0.0, f64::max);
        let half = body.max(car.mirrors.width_mm * 0.5);
        let top = car.outline_side.iter().map(|p| p.y).fold(0.0, f64::max);
        if door.width_mm < 2.0 * half || door.span.top() < top || door.span.bottom() > LOW_MM {
            return false;
        }
        let (from, to, _) = self.door(door);
        let before = |low: f64, high: f64| rectangle_on(from, to, (low, high), (SURE_MM, STEP_MM));
        let fixed = self.a.bay.things.iter().zip(self.solids).filter(|(own, _)| own.effort == Effort::Fixed);
        let fixed = fixed.map(|(_, solid)| solid).filter(|own| own.low < top && own.high > LOW_MM);
        let kerbs = self.solids.iter().filter(|own| own.is == Is::Proud && own.high > LOW_MM);
        let in_way: Vec<&Ring> = fixed.chain(kerbs).map(|own| &own.ring).collect();
        let pits = self.a.bay.floor_features.iter().filter(|own| own.kind == FloorFeatureKind::Pit);
        let pits: Vec<&[DVec2]> = pits.map(|own| own.outline.outer()).collect();
        let is_free = |middle: f64| {
            let body = before(middle - half, middle + half);
            let is_inside = points(&body).all(|p| depth_of(self.room, p) > -IN_DOOR_MM);
            let wheels = Wheel::ALL.map(|wheel| {
                let (y, half) = (car.wheel_point(wheel).y, tyre_width(self.a, wheel) * 0.5);
                before(middle + y - half, middle + y + half)
            });
            is_inside
                && in_way.iter().all(|own| depth(own, &body) < IN_DOOR_MM)
                && wheels.iter().all(|own| pits.iter().all(|pit| depth(pit, own) < IN_DOOR_MM))
        };
        let (low, high) = (half, door.width_mm - half);
        let steps = ((high - low) / IN_DOOR_MM).ceil() as u32;
        (0..=steps).any(|i| is_free((low + f64::from(i) * IN_DOOR_MM).min(high)))
    }

    fn beside_targets(&mut self) {
        let wants = self.a.shop.stand_room_mm;
        let upright: Vec<Sight> = self.placed.sights.iter().filter(|own| !own.lies).cloned().collect();
        for sight in upright {
            let left = sight.left.truncate().normalize();
            let own = Frame::new(sight.centre.truncate(), (-left.x).atan2(left.y));
            let is_own = |what: &What| matches!(what, What::Face | What::Stand | What::Feet);
            let parts = self.placed.parts.iter().filter(|part| part.name == sight.name && is_own(&part.what));
            let corners: Vec<DVec2> =
                parts.flat_map(|part| part.ring.iter().map(|p| own.into_own(*p))).collect();
            let low = corners.iter().copied().fold(DVec2::INFINITY, DVec2::min);
            let high = corners.iter().copied().fold(DVec2::NEG_INFINITY, DVec2::max);
            let strip = |from: DVec2, to: DVec2| own.ring(&rectangle(from, to));
            let front = strip(DVec2::new(high.x, low.y), DVec2::new(high.x + wants, high.y));
            if self.is_blocked(&front) {
                self.add("step up", "thing or wall", &sight.name);
            }
            let past = [(0.0, wants), (-wants, 0.0)];
            let aside = past.map(|(back, on)| {
                let x = (low.x + back, high.x + on);
                [
                    strip(DVec2::new(x.0, high.y), DVec2::new(x.1, high.y + wants)),
                    strip(DVec2::new(x.0, low.y - wants), DVec2::new(x.1, low.y)),
                ]
            });
            let behind = past.map(|(right, on)| {
                strip(DVec2::new(low.x - wants, low.y + right), DVec2::new(low.x, high.y + on))
            });
            if aside.iter().flatten().chain(&behind).all(|own| self.is_blocked(own)) {
                self.add("stand beside", "things or walls", &sight.name);
            }
        }
    }

    /// Whether nobody stands everywhere in a strip of floor.
    fn is_blocked(&self, strip: &[DVec2]) -> bool {
        let (low, high) = (self.a.shop.step_over_mm, self.a.shop.duck_under_mm);
        let stands = |own: &&Solid| own.is != Is::Carrying && own.high.min(high) - own.low.max(low) > SURE_MM;
        let pits = self.a.bay.floor_features.iter().filter(|own| own.kind == FloorFeatureKind::Pit);
        let mut all = self.solids.iter().filter(stands).map(|own| &own.ring[..]);
        let is_out = |p: DVec2| {
            depth_of(self.room, p) < -MARGIN_MM && self.a.bay.openings.iter().all(|door| !door.is_open())
        };
        all.any(|own| depth(own, strip) > MARGIN_MM)
            || pits.map(|own| own.outline.outer()).any(|own| depth(own, strip) > MARGIN_MM)
            || points(strip).any(is_out)
    }

    /// Pits that lie open, each so far from where it is drawn as is known, mm, any way.
    fn pits(&mut self, known: f64) {
        let (car, at): (Vec<&[DVec2]>, _) = {
            let parts = self.placed.parts.iter().filter(|own| !matches!(own.what, What::Zone(_)));
            let corners = parts.clone().flat_map(|own| own.ring.iter().copied());
            let marks = self.placed.marks.iter().map(|own| own.1);
            let car = parts.filter(|own| own.what == What::Car).map(|own| &own.ring[..]).collect();
            (car, corners.chain(marks).collect::<Vec<DVec2>>())
        };
        let pits = self.a.bay.floor_features.iter().filter(|own| own.kind == FloorFeatureKind::Pit);
        let mut told = Vec::new();
        for pit in pits {
            let drawn = pit.outline.outer();
            // Under the car as it is drawn, slice by slice, or nearly.
            let is_covered = |p: DVec2| car.iter().any(|own| depth_of(own, p) > -10.0);
            let is_open = |off: DVec2| {
                let ring: Vec<DVec2> = drawn.iter().map(|p| *p + off).collect();
                let is_near = |(i, from): (usize, &DVec2)| {
                    at[i..].iter().any(|to| gap_to_line(&ring, *from, *to) < PIT_MM - MARGIN_MM)
                };
                // Every fifth corner is enough to walk between.
                !points(&ring).all(is_covered) && at.iter().enumerate().step_by(5).any(is_near)
            };
            let ways = (0..WAYS).map(|i| std::f64::consts::TAU * f64::from(i) / f64::from(WAYS));
            let off = ways.map(|way| DVec2::new(way.cos(), way.sin()) * known);
            let off = off.take(if known > 0.0 { WAYS as usize } else { 0 });
            if std::iter::once(DVec2::ZERO).chain(off).any(is_open) {
                told.push(pit.id.to_string());
            }
        }
        for by in told {
            self.add("pit", &by, "people");
        }
    }

    fn marks(&mut self) {
        for placement in self.a.aiming.placements.iter().filter(|own| own.mark.is_none()) {
            self.add("no mark", "plan", placement.id.as_str());
        }
    }

    fn tapes(&mut self) {
        if !self.a.on_runways.is_empty() {
            return;
        }
        let is_low = |own: &&Solid| {
            matches!(own.is, Is::Thing | Is::Proud) && own.low <= 0.0 && own.high > 0.0 && own.high <= LOW_MM
        };
        let low: Vec<&Solid> = self.solids.iter().filter(is_low).collect();
        let mut told = Vec::new();
        for tape in &self.placed.tapes {
            let length = tape.from.distance(tape.to);
            let way = (tape.to - tape.from) / length;
            let mut under = vec![(0.0, 0.0)];
            for i in 1..length as u32 {
                let at = tape.from + way * f64::from(i);
                let tops = low.iter().filter(|own| depth_of(&own.ring, at) > SURE_MM).map(|own| own.high);
                under.extend(tops.reduce(f64::max).map(|top| (f64::from(i), top)));
            }
            under.push((length, 0.0));
            if taut(&under) - length > READS_MM + 0.02 {
                told.push(tape.name.clone());
            }
        }
        for of in told {
            self.add("under tape", "what is low", &of);
        }
    }

    /// What passes a lidar's target and goes on to glass.
    fn glass(&mut self) {
        if !matches!(self.a.sensor.kind, SensorKind::Lidar) {
            return;
        }
        let mut panes: Vec<(DVec2, DVec2, f64, f64)> = Vec::new();
        for door in &self.a.bay.openings {
            let is_glass = door.kind == OpeningKind::Window || door.material == Material::Glass;
            if is_glass && !(door.kind != OpeningKind::Window && door.is_open()) {
                let (from, to, _) = self.door(door);
                panes.push((from, to, door.span.bottom(), door.span.top()));
            }
        }
        let things = self.a.bay.things.iter().zip(self.solids);
        for (_, solid) in things.filter(|(own, _)| own.material == Material::Glass) {
            panes.extend(edges(&solid.ring).map(|(from, to)| (from, to, solid.low, solid.high)));
        }
        let mut told = Vec::new();
        for sight in self.placed.sights.iter().filter(|own| !own.lies) {
            let over: Vec<f64> = (0..=12).map(|i| f64::from(i) / 6.0 - 1.0).collect();
            let rays = over.iter().flat_map(|u| over.iter().map(move |v| (*u, *v)));
            let mut rays = rays.map(|(u, v)| sight.point(u, v) - sight.eye);
            if rays.any(|ray| panes.iter().any(|pane| meets(sight.eye, ray, pane))) {
                told.push(sight.name.clone());
            }
        }
        for of in told {
            self.add("glass", "glass", &of);
        }
    }

    /// A sun 20° up, through the upper edge of a window or an open door.
    fn daylight(&mut self) {
        if !self.a.sensor.kind.is_camera() {
            return;
        }
        let mut told = Vec::new();
        for door in self.a.bay.openings.iter().filter(|own| own.kind == OpeningKind::Window || own.is_open())
        {
            let (from, to, _) = self.door(door);
            let far = door.span.top() / 20.0_f64.to_radians().tan() - MARGIN_MM;
            for mat in self.placed.parts.iter().filter(|own| own.what == What::Feet) {
                let is_mat = self.placed.sights.iter().any(|own| own.lies && own.name == mat.name);
                if is_mat && along(from, to, 50.0).any(|p| points(&mat.ring).any(|q| q.distance(p) < far)) {
                    told.push((door.id.to_string(), mat.name.clone()));
                }
            }
        }
        for (by, of) in told {
            self.add("daylight", &by, &of);
        }
    }
}

/// Whether a ray meets a pane past the place where it has come to its end.
fn meets(eye: DVec3, ray: DVec3, (from, to, low, high): &(DVec2, DVec2, f64, f64)) -> bool {
    let (way, own) = (*to - *from, ray.truncate());
    let across = own.perp_dot(way);
    if across.abs() < 1e-9 {
        return false;
    }
    let off = *from - eye.truncate();
    let (far, share) = (off.perp_dot(way) / across, off.perp_dot(own) / across);
    let height = eye.z + ray.z * far;
    far > 1.0 + 1e-6
        && (0.001..0.999).contains(&share)
        && height > low + MARGIN_MM
        && height < high - MARGIN_MM
}

/// How long a taut tape over these is, from the first to the last, as far along as the first figure and as high as the second.
fn taut(under: &[(f64, f64)]) -> f64 {
    let mut kept: Vec<(f64, f64)> = Vec::new();
    for &(x, z) in under {
        while let [.., (x0, z0), (x1, z1)] = kept[..] {
            // Whether the one between hangs under the line from the one before to this.
            if (x1 - x0) * (z - z0) - (z1 - z0) * (x - x0) < 0.0 {
                break;
            }
            kept.pop();
        }
        kept.push((x, z));
    }
    kept.windows(2).map(|own| (own[1].0 - own[0].0).hypot(own[1].1 - own[0].1)).sum()
}

/// How far a ring is from where people work at targets, of a bay that is laid with room for them, mm.
pub fn from_targets(placed: &SetUp, ring: &[DVec2]) -> f64 {
    let is_own = |what: &What| matches!(what, What::Face | What::Stand | What::Feet);
    let parts = placed.parts.iter().filter(|own| is_own(&own.what));
    parts.map(|own| gap(&own.ring, ring)).fold(f64::INFINITY, f64::min)
}
