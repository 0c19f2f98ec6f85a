//! What people and rules want of a bay as it is drawn, which needs care at most: room to work in, ways out, height over the car
//! and over a person, marks that agree with the stand-off, targets where they belong, stands that reach.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Arrangement, TargetHeight};

use crate::floor;
use crate::oracle::{Conflict, SURE_MM};
use crate::set_up::{SetUp, What};
use crate::shape::{depth, edges, gap, gap_to_line, rectangle_on};
use crate::solid::{Is, Solid};

/// 29 CFR 1910.36(g)(1) and (2): a ceiling of 7 ft 6 in, a projection 6 ft 8 in up, a way out 28 in wide.
const CEILING_MM: f64 = 2_286.0;
const OVER_PERSON_MM: f64 = 2_032.0;
const WAY_OUT_MM: f64 = 711.2;
/// What hangs lower stands in the way rather than over it.
const HANGS_MM: f64 = 1_000.0;
/// A lip that is no step in a way.
const STEP_MM: f64 = 6.4;

/// All of it.
pub fn as_drawn(a: &Arrangement, placed: &SetUp, solids: &[Solid], found: &mut Vec<Conflict>) {
    let mut all = Looked { a, placed, solids, found };
    all.working_room();
    all.ways_out();
    all.heights();
    all.marks_and_targets();
    all.raised();
    other_bays(a, placed, found);
    floor::unknown(a, placed, found);
}

/// What of the set-up lies in another bay of the hall that is not kept empty. Its own is all of the room.
pub fn other_bays(a: &Arrangement, placed: &SetUp, found: &mut Vec<Conflict>) {
    let others = a.bay.bays.iter().filter(|own| Some(&own.id) != a.in_bay.as_ref());
    for bay in others.filter(|own| !a.kept_empty.contains(&own.id)) {
        for part in &placed.parts {
            let by_mm = depth(&part.ring, bay.outline.outer());
            if by_mm > SURE_MM {
                let (by, of) = (part.name.clone(), bay.id.to_string());
                found.push(Conflict { kind: "another bay", by, of, by_mm });
            }
        }
    }
}

struct Looked<'a> {
    a: &'a Arrangement,
    placed: &'a SetUp,
    solids: &'a [Solid],
    found: &'a mut Vec<Conflict>,
}

impl Looked<'_> {
    fn add(&mut self, kind: &'static str, by: &str, of: &str, by_mm: f64) {
        self.found.push(Conflict { kind, by: by.to_owned(), of: of.to_owned(), by_mm });
    }

    /// How far a ring is from the car's body and wheels, mm.
    fn gap_to_car(&self, ring: &[DVec2]) -> f64 {
        let car = self.placed.parts.iter().filter(|own| matches!(own.what, What::Car | What::Wheel));
        car.map(|own| gap(&own.ring, ring)).fold(f64::INFINITY, f64::min)
    }

    fn working_room(&mut self) {
        let room = self.a.aiming.working_room_mm.unwrap_or(self.a.shop.working_room_mm);
        let (low, high) = (self.a.shop.step_over_mm, self.a.shop.duck_under_mm);
        for solid in self.solids.iter().filter(|own| own.is != Is::Carrying) {
            let gap = self.gap_to_car(&solid.ring);
            if solid.high.min(high) - solid.low.max(low) > SURE_MM && gap < room - SURE_MM && gap > 0.0 {
                self.add("working room", &solid.name, "car", gap);
            }
        }
        let ring = self.a.bay.room.outer();
        let car = self.placed.parts.iter().filter(|own| matches!(own.what, What::Car | What::Wheel));
        let car: Vec<_> = car.collect();
        for (i, (from, to)) in edges(ring).enumerate() {
            // Beside a door that may stand open nothing is said here.
            if self.a.bay.openings.iter().any(|own| own.wall == i && own.is_open()) {
                continue;
            }
            let gap = car.iter().map(|own| gap_to_line(&own.ring, from, to)).fold(f64::INFINITY, f64::min);
            if gap < room - SURE_MM && gap > 0.0 {
                self.add("working room", "wall", "car", gap);
            }
        }
    }

    fn ways_out(&mut self) {
        let mut areas: Vec<(String, Vec<DVec2>)> = self
            .a
            .bay
            .keep_free
            .iter()
            .map(|own| (own.id.to_string(), own.outline.outer().to_vec()))
            .collect();
        for door in self.a.bay.openings.iter().filter(|own| own.is_exit) {
            let (from, to) = edges(self.a.bay.room.outer()).nth(door.wall).expect("it is there");
            areas.push((
                door.id.to_string(),
                rectangle_on(from, to, (door.from_mm, door.from_mm + door.width_mm), (0.0, WAY_OUT_MM)),
            ));
        }
        for (name, area) in areas {
            for solid in self.solids.iter().filter(|own| own.is != Is::Carrying) {
                let is_step = solid.is == Is::Thing || solid.high > STEP_MM;
                let over = solid.low.max(0.0) >= OVER_PERSON_MM || solid.high <= SURE_MM;
                if is_step && !over && depth(&solid.ring, &area) > SURE_MM {
                    self.add("way out", &solid.name, &name, 0.0);
                }
            }
            let solid = |what: &What| !matches!(what, What::Zone(_));
            let parts = self.placed.parts.iter().filter(|own| solid(&own.what) && own.low < OVER_PERSON_MM);
            let taken: Vec<String> =
                parts.filter(|own| depth(&own.ring, &area) > SURE_MM).map(|own| own.name.clone()).collect();
            for part in taken {
                self.add("way out", &part, &name, 0.0);
            }
        }
    }

    fn heights(&mut self) {
        let room = self.a.aiming.working_room_mm.unwrap_or(self.a.shop.working_room_mm);
        let over_car = self.a.shop.over_car_mm;
        let ceiling = self.a.bay.ceiling_mm;
        let roof = |ring: &[DVec2]| {
            let car = self.placed.parts.iter().filter(|own| matches!(own.what, What::Car | What::Wheel));
            car.filter(|own| depth(&own.ring, ring) > SURE_MM).map(|own| own.high).reduce(f64::max)
        };
        let top = self.placed.parts.iter().filter(|own| own.what == What::Car).map(|own| own.high);
        let top = top.fold(0.0, f64::max);
        let mut told = Vec::new();
        for solid in self.solids.iter().filter(|own| own.is == Is::Thing && own.low > 0.0) {
            let over = roof(&solid.ring);
            if over.is_some_and(|roof| roof <= solid.low && solid.low - roof < over_car - SURE_MM) {
                told.push(("over the car", solid.name.clone(), solid.low));
            }
            let stands = self.placed.parts.iter().filter(|own| !matches!(own.what, What::Zone(_)));
            let near = stands.map(|own| gap(&own.ring, &solid.ring)).fold(f64::INFINITY, f64::min);
            let hangs = (HANGS_MM..OVER_PERSON_MM).contains(&solid.low);
            if hangs && over.is_none() && near < room - SURE_MM && self.gap_to_car(&solid.ring) > 0.0 {
                told.push(("over a person", solid.name.clone(), solid.low));
            }
        }
        if ceiling - top < over_car - SURE_MM {
            told.push(("over the car", "ceiling".into(), ceiling - top));
        }
        if ceiling < CEILING_MM {
            told.push(("over a person", "ceiling".into(), ceiling));
        }
        for (kind, by, mm) in told {
            self.add(kind, &by, "car", mm);
        }
    }

    /// Two ways to say where a target goes, and where it stands.
    fn marks_and_targets(&mut self) {
        let shop = &self.a.shop;
        let aim = &self.a.aiming.tolerance;
        let mut told = Vec::new();
        for ((placement, sight), meant) in
            self.a.aiming.placements.iter().zip(&self.placed.sights).zip(&self.placed.meant)
        {
            let own = &placement.tolerance;
            let limit =
                [own.along_mm, own.across_mm].into_iter().flatten().fold(shop.mark_agrees_mm, f64::min);
            let mark = self
                .placed
                .marks
                .iter()
                .find(|own| Some(own.0.as_str()) == placement.mark.as_ref().map(|id| id.as_str()));
            if let Some((name, at)) = mark
                && at.distance(meant.truncate()) > limit + SURE_MM
            {
                told.push(("mark off target", name.clone(), at.distance(meant.truncate())));
            }
            let (line, off) = (*meant - sight.eye, sight.centre - *meant);
            let way = line.truncate().normalize();
            let parts = [
                (off.truncate().dot(way).abs(), own.along_mm),
                (off.truncate().perp_dot(way).abs(), own.across_mm),
                (off.z.abs(), own.height_mm),
            ];
            for (by, limit) in parts {
                let limit = limit.map_or(shop.target_off_mm, |limit| limit * shop.tolerance_share);
                if by > limit + SURE_MM {
                    told.push(("off its place", sight.name.clone(), by));
                }
            }
            let seen = |line: baywright_planner::geometry::DVec3| {
                (line.y.atan2(line.x), line.z.atan2(line.truncate().length()))
            };
            let (is, should) = (seen(sight.centre - sight.eye), seen(line));
            let turn = std::f64::consts::TAU;
            let aside = (is.0 - should.0 + 1.5 * turn).rem_euclid(turn) - 0.5 * turn;
            let share = placement.target.error.by_place;
            for (by, limit) in [(aside, aim.azimuth_rad), (is.1 - should.1, aim.elevation_rad)] {
                if share * by.abs() > limit * shop.tolerance_share + 2e-6 {
                    told.push(("aims off", sight.name.clone(), by));
                }
            }
        }
        for (kind, of, mm) in told {
            self.add(kind, "car", &of, mm);
        }
    }

    /// What is asked of a car on runways, and of stands.
    fn raised(&mut self) {
        let mut told = Vec::new();
        let carrying = self.a.bay.runways.iter().filter(|own| self.a.on_runways.contains(&own.id));
        let tops: Vec<f64> = carrying.map(|own| own.top_mm).collect();
        let highest = tops.iter().copied().fold(0.0, f64::max);
        if tops.iter().any(|top| highest - top > SURE_MM) {
            told.push(("unequal runways", "car".to_owned()));
        }
        for (placement, sight) in self.a.aiming.placements.iter().zip(&self.placed.sights) {
            let reach = placement.target.stand.as_ref().map(|own| (own.lowest_mm, own.highest_mm));
            let Some((lowest, highest)) = reach.filter(|_| placement.height != TargetHeight::OnFloor) else {
                continue;
            };
            let too_low = lowest.is_some_and(|own| sight.centre.z < own - SURE_MM);
            if too_low || highest.is_some_and(|own| sight.centre.z > own + SURE_MM) {
                told.push(("does not reach", sight.name.clone()));
            }
        }
        if highest > 0.0 {
            let mats = self.placed.sights.iter().filter(|own| own.lies);
            told.extend(mats.map(|own| ("mat below", own.name.clone())));
            let floor = self.placed.parts.iter().filter(|own| matches!(own.what, What::Zone(_)));
            told.extend(floor.filter(|own| !own.with_wheels).map(|own| ("heights", own.name.clone())));
        }
        for (kind, of) in told {
            self.add(kind, "car", &of, 0.0);
        }
    }
}
