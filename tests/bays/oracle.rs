//! Slow and plain: what is in the way, found by looking at many points, once where everything is drawn and once wherever it
//! may be. It asks nothing of the checks and nothing of the geometry that they use.

use baywright_planner::geometry::{DVec2, DVec3};
use baywright_planner::model::{Arrangement, Exclusion, FloorFeatureKind, OpeningKind, Runway, SensorKind};

use crate::set_up::{Part, SetUp, What};
use crate::shape::{
    Frame, Ring, along, around, boxes_meet, depth, depth_of, edges, gap, gap_to_line, inside_of, points,
    rectangle,
};
use crate::solid::{Is, Solid};
use crate::{care, floor, people, this_car};

/// One thing in the way of another.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// What kind.
    pub kind: &'static str,
    /// What is in the way: a thing, a runway, a feature; or "wall", "car", "ceiling".
    pub by: String,
    /// Of what.
    pub of: String,
    /// By how much it surely is (positive), or how near it may be too near (negative), mm, rays or nothing.
    pub by_mm: f64,
}

/// What is in a zone that nobody can judge, or in the first Fresnel zone, needs care and stops nothing.
pub const UNJUDGED: &str = "in, unjudged";
pub const FRESNEL: &str = "fresnel";

/// Every kind.
pub const KINDS: &[&str] = &[
    "in",
    UNJUDGED,
    FRESNEL,
    "high",
    "mark",
    "mark outside",
    "mark on feature",
    "mark in air",
    "mark off target",
    "run",
    "run outside",
    "sight",
    "sight outside",
    "outside",
    "near wall",
    "feet on feature",
    "wheel on feature",
    "wheel in air",
    "uneven",
    "pitch",
    "roll",
    "target's floor",
    "tipped",
    "tipped along",
    "tipped aside",
    "aims up or down",
    "aims aside",
    "askew",
    "level unknown",
    "working room",
    "way out",
    "another bay",
    "over the car",
    "over a person",
    "off its place",
    "aims off",
    "unequal runways",
    "does not reach",
    "mat below",
    "heights",
    "walk in",
    "person near",
    "under the car",
    "leaf",
    "step in",
    "way in",
    "step up",
    "stand beside",
    "pit",
    "no mark",
    "under tape",
    "glass",
    "daylight",
    "hangs aside",
    "arch off",
    "cambers apart",
    "unlikely camber",
    "unlikely toe",
];

/// What is looked for.
#[derive(Clone, Copy, PartialEq)]
enum Ask {
    /// What is so as it is drawn, by more than the planner speaks of.
    Surely,
    /// What may be so, if things and walls stand anywhere within what is known of their places.
    Perhaps,
}

/// The planner speaks from a hundredth of a millimetre on.
pub const SURE_MM: f64 = 0.02;
/// Touching, and rounding.
pub const TOUCH_MM: f64 = 1e-6;
/// Who fills the whole of an uncertainty to the last hundredth is clear.
const SPARE_MM: f64 = 0.02;
/// The middle of a tyre's foot, half as long, mm.
const FOOT_MM: f64 = 50.0;
/// What a wheel may stand on top of where no level floor is asked for.
const KERB_MM: f64 = 26.0;
/// The speed of light, mm/s (exact: SI Brochure, 9th edition, 2.3.1).
const LIGHT_MM_S: f64 = 299_792_458_000.0;
/// In how many directions a place is off.
const DIRECTIONS: u32 = 12;

/// Whether walls bound a zone.
fn binds(part: &Part) -> bool {
    !matches!(part.what, What::Zone(Exclusion::People | Exclusion::Light))
}

pub struct Oracle<'a> {
    arrangement: &'a Arrangement,
    set_up: SetUp,
    solids: Vec<Solid>,
    room: Ring,
}

/// What is in the way as everything is drawn.
pub fn certain(arrangement: &Arrangement) -> Vec<Conflict> {
    Oracle::of(arrangement).as_drawn(Ask::Surely)
}

/// What may be in the way with things and walls anywhere within what is known of them, the car as it is drawn.
pub fn near(arrangement: &Arrangement) -> Vec<Conflict> {
    Oracle::of(arrangement).as_drawn(Ask::Perhaps)
}

/// The same, and what needs care as it is drawn.
pub fn drawn(arrangement: &Arrangement) -> Vec<Conflict> {
    let all = Oracle::of(arrangement);
    let mut found = all.as_drawn(Ask::Perhaps);
    care::as_drawn(arrangement, &all.drawn(), &all.solids, &mut found);
    people::as_drawn(arrangement, &all.drawn(), &all.solids, &mut found);
    this_car::as_drawn(arrangement, &mut found);
    found
}

/// The same with the car anywhere within what is known of its place too.
pub fn possible(arrangement: &Arrangement) -> Vec<Conflict> {
    let mut found = drawn(arrangement);
    let all = Oracle::of(arrangement);
    let (mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
    let (at, heading) = (arrangement.parked.origin(), arrangement.parked.heading());
    let far = (mm - SPARE_MM).max(0.0);
    for turn in [0.0, rad * 0.999, -rad * 0.999] {
        for i in 0..DIRECTIONS {
            // A place exactly ahead, aside and behind is among them.
            let way = heading + std::f64::consts::TAU * f64::from(i) / f64::from(DIRECTIONS);
            let there = Frame::new(at + DVec2::new(way.cos(), way.sin()) * far, heading + turn);
            let placed = all.set_up.placed(there);
            found.extend(all.conflicts(&placed, Ask::Perhaps));
            care::other_bays(arrangement, &placed, &mut found);
            people::elsewhere(arrangement, &placed, &all.solids, &mut found);
            if !found.is_empty() {
                return found;
            }
        }
    }
    found
}

impl<'a> Oracle<'a> {
    fn of(arrangement: &'a Arrangement) -> Self {
        let bay = &arrangement.bay;
        let known = arrangement.shop.within(bay.walls_known);
        let mut solids: Vec<Solid> = bay.things.iter().map(|own| Solid::of(own, &arrangement.shop)).collect();
        let carries = |own: &Runway| arrangement.on_runways.contains(&own.id);
        solids.extend(bay.runways.iter().map(|own| Solid::runway(own, known, carries(own))));
        let proud = bay.floor_features.iter().filter(|own| own.proud_mm > 0.0);
        solids.extend(proud.map(|own| Solid::proud(own, known)));
        Self { arrangement, set_up: SetUp::of(arrangement), solids, room: bay.room.outer().to_vec() }
    }

    fn drawn(&self) -> SetUp {
        let parked = &self.arrangement.parked;
        self.set_up.placed(Frame::new(parked.origin(), parked.heading()))
    }

    fn as_drawn(&self, ask: Ask) -> Vec<Conflict> {
        self.conflicts(&self.drawn(), ask)
    }

    fn conflicts(&self, placed: &SetUp, ask: Ask) -> Vec<Conflict> {
        let mut found = Vec::new();
        for solid in &self.solids {
            self.of_solid(placed, solid, ask, &mut found);
        }
        self.of_walls(placed, ask, &mut found);
        self.of_features(placed, ask, &mut found);
        self.of_feet(placed, ask, &mut found);
        self.of_itself(placed, &mut found);
        floor::uneven(self.arrangement, placed, ask == Ask::Perhaps, &mut found);
        found
    }

    fn of_solid(&self, placed: &SetUp, solid: &Solid, ask: Ask, found: &mut Vec<Conflict>) {
        let reach = if ask == Ask::Perhaps { (solid.known - SPARE_MM).max(0.0) } else { 0.0 };
        let margin = if ask == Ask::Perhaps { TOUCH_MM } else { SURE_MM };
        let own_box = around(&solid.ring, reach + 1.0);
        let mut add = |kind: &'static str, of: &str, by_mm: f64| {
            found.push(Conflict { kind, by: solid.name.clone(), of: of.to_owned(), by_mm });
        };
        let is_near = |ring: &[DVec2]| boxes_meet(own_box, around(ring, 0.0));
        for part in placed.parts.iter().filter(|part| is_near(&part.ring)) {
            let keeps_out = solid.keeps_out(part);
            let counts = keeps_out.unwrap_or(ask == Ask::Perhaps);
            if counts && let Some(mm) = in_or_near(&solid.ring, &part.ring, margin, reach) {
                // Of what nobody can judge it is asked only whether care is taken.
                add(if keeps_out.is_some() { "in" } else { UNJUDGED }, &part.name, mm);
            }
        }
        let over_mark = self.arrangement.shop.over_mark_mm;
        let marks = placed
            .marks
            .iter()
            .filter(|_| solid.is != Is::Carrying && solid.low < over_mark && solid.high > 0.0);
        for (name, at) in marks.filter(|own| is_near(&[own.1])) {
            let deep = depth_of(&solid.ring, *at);
            if deep > margin || -deep < reach {
                add("mark", name, deep);
            }
        }
        let runs = placed.runs.iter().filter(|run| solid.is_in_run(run.from, run.to) && solid.low < run.top);
        for run in runs.filter(|run| is_near(&[run.from, run.to])) {
            if inside_of(&solid.ring, run.from, run.to, margin) {
                add("run", &run.name, 0.0);
            } else if reach > 0.0 && gap_to_line(&solid.ring, run.from, run.to) < reach {
                add("run", &run.name, -gap_to_line(&solid.ring, run.from, run.to));
            }
        }
        for sight in &placed.sights {
            if is_near(&sight.plan()) {
                let rays = if ask == Ask::Surely { 15 } else { 7 };
                let hidden = |by: DVec2| sight.hidden(&solid.moved(by), solid.low, solid.high, rays);
                let ways =
                    (0..DIRECTIONS).map(|i| std::f64::consts::TAU * f64::from(i) / f64::from(DIRECTIONS));
                let off = ways.map(|way| DVec2::new(way.cos(), way.sin()) * reach);
                let off = off.take(if reach > 0.0 { DIRECTIONS as usize } else { 0 });
                let most = std::iter::once(DVec2::ZERO).chain(off).map(hidden).max().unwrap_or(0);
                if most > usize::from(ask == Ask::Surely) {
                    add("sight", &sight.name, most as f64);
                }
            }
            // What enters the first Fresnel zone only needs care.
            if ask == Ask::Perhaps
                && !sight.lies
                && boxes_meet(around(&solid.ring, reach + 300.0), around(&sight.plan(), 0.0))
                && let Some(half_wave) = self.half_wave()
                && let Some(less) = sight.enters(solid, reach, half_wave)
            {
                add(FRESNEL, &sight.name, less);
            }
        }
    }

    /// Half of a radar's wavelength, mm.
    fn half_wave(&self) -> Option<f64> {
        match &self.arrangement.sensor.kind {
            SensorKind::ForwardRadar(radar) | SensorKind::CornerRadar(radar) => {
                Some(LIGHT_MM_S / radar.frequency_hz * 0.5)
            }
            _ => None,
        }
    }

    /// Whether a point is outside, by more than a margin: not in the room, nor beyond a door that stands open there.
    fn is_outside(&self, p: DVec2, low: f64, high: f64, margin: f64) -> bool {
        if depth_of(&self.room, p) >= -margin {
            return false;
        }
        let bay = &self.arrangement.bay;
        let walls: Vec<(DVec2, DVec2)> = edges(&self.room).collect();
        !bay.openings.iter().any(|door| {
            let (from, to) = walls[door.wall];
            let along = (to - from) / to.distance(from);
            let out = DVec2::new(along.y, -along.x);
            let (abreast, beyond) = ((p - from).dot(along), (p - from).dot(out));
            !door.shut
                && door.kind != OpeningKind::Window
                && (door.from_mm..=door.from_mm + door.width_mm).contains(&abreast)
                && (0.0..=door.free_beyond_mm).contains(&beyond)
                && door.span.bottom() <= low
                && high <= door.span.top()
        })
    }

    fn of_walls(&self, placed: &SetUp, ask: Ask, found: &mut Vec<Conflict>) {
        let margin = if ask == Ask::Perhaps { TOUCH_MM } else { SURE_MM };
        let known = self.arrangement.shop.within(self.arrangement.bay.walls_known);
        let reach = if ask == Ask::Perhaps { (known - SPARE_MM).max(0.0) } else { 0.0 };
        let mut add = |kind: &'static str, of: &str, by_mm: f64| {
            found.push(Conflict { kind, by: "wall".into(), of: of.to_owned(), by_mm });
        };
        let near = |ring: &[DVec2]| {
            let gaps = edges(&self.room).map(|(a, b)| gap_to_line(ring, a, b));
            gaps.fold(f64::INFINITY, f64::min)
        };
        for part in placed.parts.iter().filter(|part| binds(part)) {
            let out = points(&part.ring).any(|p| self.is_outside(p, part.low, part.high, margin));
            let corner = self.arrangement.bay.openings.iter().all(|door| door.shut)
                && self.room.iter().any(|&p| depth_of(&part.ring, p) > margin);
            if out || corner {
                add("outside", &part.name, 0.0);
            } else if reach > 0.0 && near(&part.ring) < reach {
                add("near wall", &part.name, -near(&part.ring));
            }
        }
        for (name, at) in &placed.marks {
            if self.is_outside(*at, 0.0, 1.0, margin) || near(&[*at, *at]) < reach {
                add("mark outside", name, 0.0);
            }
        }
        for run in &placed.runs {
            let out = along(run.from, run.to, 10.0).any(|p| self.is_outside(p, 0.0, 1.0, margin));
            if out || (reach > 0.0 && near(&[run.from, run.to]) < reach) {
                add("run outside", &run.name, 0.0);
            }
        }
        for sight in &placed.sights {
            let eye = sight.eye.truncate();
            let ends = [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)].map(|(u, v)| sight.point(u, v));
            let is_out = |end: &DVec3| {
                let (low, high) = (end.z.min(sight.eye.z), end.z.max(sight.eye.z));
                along(eye, end.truncate(), 10.0).any(|p| self.is_outside(p, low, high, margin))
            };
            if ends.iter().any(is_out) {
                add("sight outside", &sight.name, 0.0);
            }
        }
    }

    /// The feet of tyres, looked at in their middle.
    fn treads(&self, placed: &SetUp) -> Vec<Ring> {
        let treads = placed.wheels.iter().map(|wheel| {
            let own = Frame::new(*wheel, self.arrangement.parked.heading());
            let half = DVec2::new(FOOT_MM, self.arrangement.vehicle.tyre_width_mm * 0.4);
            own.ring(&rectangle(-half, half))
        });
        treads.collect()
    }

    /// Drains, pits and joints under marks, stands' feet and tyres; or so near that they may be.
    fn of_features(&self, placed: &SetUp, ask: Ask, found: &mut Vec<Conflict>) {
        let arrangement = self.arrangement;
        let treads = self.treads(placed);
        let care = ask == Ask::Perhaps;
        let known = arrangement.shop.within(arrangement.bay.walls_known);
        let reach = if care { (known - SPARE_MM).max(0.0) } else { 0.0 };
        let level = arrangement.aiming.floor.map_or(KERB_MM, |floor| floor.level_mm);
        let over = |area: &[DVec2], ring: &[DVec2]| in_or_near(area, ring, SURE_MM, reach).is_some();
        for feature in &arrangement.bay.floor_features {
            let ring = feature.outline.outer();
            let is_pit = feature.kind == FloorFeatureKind::Pit;
            let is_hole = is_pit || feature.kind == FloorFeatureKind::Drain;
            let is_kerb = feature.proud_mm > level + SURE_MM;
            let mut add = |kind: &'static str, of: &str| {
                found.push(Conflict { kind, by: feature.id.to_string(), of: of.to_owned(), by_mm: 0.0 });
            };
            // What is in the floor under a runway is under no mark on it.
            let marks = placed.marks.iter().filter(|(_, at)| {
                !arrangement.bay.runways.iter().any(|own| {
                    arrangement.on_runways.contains(&own.id) && depth_of(own.outline.outer(), *at) > 0.0
                })
            });
            for (name, at) in marks {
                if (is_hole || care) && depth_of(ring, *at) > if reach > 0.0 { -reach } else { SURE_MM } {
                    add("mark on feature", name);
                }
            }
            let feet = placed.parts.iter().filter(|part| part.what == What::Feet);
            for part in feet.filter(|part| (is_pit || care) && over(&part.ring, ring)) {
                add("feet on feature", &part.name);
            }
            let on_floor = arrangement.on_runways.is_empty();
            if (is_pit || is_kerb || care) && on_floor && treads.iter().any(|tread| over(tread, ring)) {
                add("wheel on feature", "car");
            }
        }
    }

    /// Tyres on runways, and in the way of what is laid; and what is laid beside them on the runways.
    fn of_feet(&self, placed: &SetUp, ask: Ask, found: &mut Vec<Conflict>) {
        let arrangement = self.arrangement;
        let treads = self.treads(placed);
        let carrying: Vec<Ring> = arrangement
            .bay
            .runways
            .iter()
            .filter(|own| arrangement.on_runways.contains(&own.id))
            .map(|own| own.outline.outer().to_vec())
            .collect();
        let known = arrangement.shop.within(arrangement.bay.walls_known);
        let inside = if ask == Ask::Perhaps { (known - SPARE_MM).max(0.0) } else { 0.0 } - SURE_MM;
        let is_on =
            |points: &[DVec2]| carrying.iter().any(|ring| points.iter().all(|&p| depth_of(ring, p) > inside));
        let mut add = |kind: &'static str, by: &str, of: &str| {
            found.push(Conflict { kind, by: by.to_owned(), of: of.to_owned(), by_mm: 0.0 });
        };
        if !carrying.is_empty() {
            for _ in treads.iter().filter(|tread| !is_on(tread)) {
                add("wheel in air", "car", "runway");
            }
            for (name, _) in placed.beside_tyres.iter().filter(|own| !is_on(&[own.1])) {
                add("mark in air", "car", name);
            }
        }
        for run in &placed.runs {
            if treads.iter().any(|tread| inside_of(tread, run.from, run.to, SURE_MM)) {
                add("run", "car", &run.name);
            }
        }
    }

    /// The set-up against the ceiling, and the car against its own targets.
    fn of_itself(&self, placed: &SetUp, found: &mut Vec<Conflict>) {
        let is_car = |part: &&Part| matches!(part.what, What::Car | What::Wheel);
        let is_stand = |part: &&Part| matches!(part.what, What::Face | What::Stand | What::Feet);
        for stand in placed.parts.iter().filter(is_stand) {
            for car in placed.parts.iter().filter(is_car) {
                let share = car.high.min(stand.high) - car.low.max(stand.low) > SURE_MM;
                if share && depth(&car.ring, &stand.ring) > SURE_MM {
                    found.push(Conflict { kind: "in", by: "car".into(), of: stand.name.clone(), by_mm: 0.0 });
                }
            }
        }
        let ceiling = self.arrangement.bay.ceiling_mm;
        for part in placed.parts.iter().filter(|part| !matches!(part.what, What::Zone(_))) {
            if part.high > ceiling + SURE_MM {
                found.push(Conflict {
                    kind: "high",
                    by: "ceiling".into(),
                    of: part.name.clone(),
                    by_mm: 0.0,
                });
            }
        }
    }
}

/// How deep one ring surely is in another, or how near it is if that is nearer than `reach`.
fn in_or_near(solid: &[DVec2], part: &[DVec2], margin: f64, reach: f64) -> Option<f64> {
    if reach > 0.0 {
        let gap = gap(solid, part);
        return (gap < reach).then_some(-gap);
    }
    let deep = depth(solid, part);
    (deep > margin).then_some(deep)
}

/// Things of an arrangement as the oracle sees them.
pub fn things(arrangement: &Arrangement) -> Vec<Solid> {
    Oracle::of(arrangement).solids.into_iter().filter(|solid| solid.is == Is::Thing).collect()
}

/// How far a thing reaches out of the room, mm, by its points.
pub fn past_walls(arrangement: &Arrangement, solid: &Solid) -> f64 {
    let room = arrangement.bay.room.outer();
    points(&solid.ring).map(|p| -depth_of(room, p)).fold(f64::NEG_INFINITY, f64::max)
}
