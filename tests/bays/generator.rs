//! A bay from a seed: well laid, nearly right, or crowded. It is thought out in the vehicle frame and then put anywhere.

use baywright_planner::geometry::{DVec2, PlanPose, Polygon, Span};
use baywright_planner::model::*;

use crate::cars;
use crate::dice::Dice;
use crate::room::room;
use crate::set_up::{Part, SetUp, What};
use crate::shape::{Frame, depth_of, points};
use crate::solid::{Solid, spare, stacked};
use crate::wider;

/// How carefully a bay was laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Laid {
    /// Everything as far off as its place and the car's are uncertain by, and a little more.
    Well,
    /// Well, but for a few things that can be moved.
    Spoiled,
    /// Nearly so.
    Nearly,
    /// Anywhere.
    Crowded,
}

impl Laid {
    pub fn is_well(self) -> bool {
        matches!(self, Self::Well | Self::Spoiled)
    }
}

/// What is thought out so far, in the vehicle frame.
pub struct Draft {
    pub arrangement: Arrangement,
    pub set_up: SetUp,
    pub laid: Laid,
    /// The box of room and set-up.
    pub low: DVec2,
    pub high: DVec2,
}

pub fn arrangement(seed: u64) -> Arrangement {
    let mut dice = Dice::new(seed);
    let laid = match seed % 6 {
        0..=2 => Laid::Well,
        3 => Laid::Spoiled,
        4 => Laid::Nearly,
        _ => Laid::Crowded,
    };
    let mut draft = Draft::new(&mut dice, laid);
    draft.walls(&mut dice);
    draft.building(&mut dice);
    let count = if dice.often(0.7) { dice.count(3, 15) } else { dice.count(16, 40) };
    for i in 0..count {
        draft.thing(&mut dice, i);
    }
    if laid == Laid::Spoiled {
        draft.spoil(&mut dice, count);
    }
    // One thing, and only one, a little nearer than it may: what is said of it is all that keeps the bay from being ready.
    if seed % 6 == 2 {
        draft.laid = Laid::Nearly;
        draft.thing(&mut dice, count);
        draft.laid = laid;
    }
    draft.ways_out(&mut dice);
    draft.levels(&mut dice);
    let place = frame(&mut dice);
    draft.hall(&mut dice);
    draft.put(place)
}

/// Somewhere, at an awkward heading.
fn frame(dice: &mut Dice) -> Frame {
    let heading = match dice.count(0, 5) {
        0 => dice.one(&[0.0, 90.0, 180.0, -90.0]),
        1 => dice.one(&[45.0, -135.0, 30.0]),
        2 => dice.one(&[0.001, 89.999, -179.999, 1e-9]),
        _ => dice.within(-180.0, 180.0),
    };
    let at = DVec2::new(dice.within(-20_000.0, 20_000.0), dice.within(-20_000.0, 20_000.0));
    Frame::new(if dice.often(0.2) { DVec2::ZERO } else { at }, heading.to_radians())
}

pub fn polygon(ring: Vec<DVec2>) -> Polygon {
    Polygon::simple(ring).expect("a sound ring")
}

/// Whether it is of a target that people set.
fn is_of_target(what: &What) -> bool {
    matches!(what, What::Face | What::Stand | What::Feet)
}

impl Draft {
    fn new(dice: &mut Dice, laid: Laid) -> Self {
        let vehicle = cars::car(dice);
        let aiming = vehicle.aimings[dice.count(0, vehicle.aimings.len() - 1)].clone();
        let sensor = vehicle.sensors.iter().find(|own| own.id == aiming.sensor).expect("it is there").clone();
        let stands = vec![StandSet::OnMark; aiming.placements.len()];
        let parked_known = match dice.count(0, 5) {
            0 | 1 => ParkedKnown::Taped,
            2 => ParkedKnown::Planned,
            3 => ParkedKnown::Within { mm: 0.0, rad: 0.0 },
            4 => ParkedKnown::Within { mm: dice.within(0.0, 60.0), rad: 0.0 },
            _ => ParkedKnown::Within { mm: dice.within(0.0, 20.0), rad: dice.within(0.0, 0.01) },
        };
        let mut arrangement = Arrangement {
            id: "random".into(),
            bay: bay(),
            vehicle,
            aiming,
            sensor,
            parked: PlanPose::IDENTITY,
            parked_known,
            on_runways: vec![],
            in_bay: None,
            kept_empty: vec![],
            kept_shut: vec![],
            beside: vec![],
            on_this_car: OnThisCar::default(),
            marks_taped: Vec::new(),
            laid_before: Vec::new(),
            instruments: InstrumentList::default(),
            stands_read: Vec::new(),
            stands,
            today: Some(jiff::civil::date(2026, 11, 1)),
            shop: wider::shop(dice, laid),
            loading: Loading::default(),
        };
        arrangement.bay.walls_known = dice.one(&[Known::Within(0.0), Known::Within(5.0), Known::Taped]);
        wider::measured(dice, &mut arrangement);
        crate::this_car::measured(&mut dice.apart(), &mut arrangement);
        wider::raised(dice, &mut arrangement, laid);
        let set_up = SetUp::of(&arrangement);
        if !laid.is_well() && dice.often(0.3) {
            let target = dice.count(0, set_up.sights.len() - 1);
            let sight = &set_up.sights[target];
            let off = DVec2::new(dice.within(-20.0, 20.0), dice.within(-20.0, 20.0));
            let ahead = DVec2::new(sight.left.y, -sight.left.x);
            arrangement.stands[target] = StandSet::At {
                place: PlanPose::new(sight.centre.truncate() + off, ahead.y.atan2(ahead.x)),
                height_mm: sight.centre.z,
                pitch_rad: dice.one(&[0.0, 0.002]),
            };
        }
        let mut set_up = SetUp::of(&arrangement);
        // A strip past a corner reaches further from it than it is wide.
        let round = 1.45 * arrangement.shop.stand_room_mm;
        set_up.round_targets = if laid.is_well() && dice.often(0.95) { round } else { 0.0 };
        Self { arrangement, set_up, laid, low: DVec2::ZERO, high: DVec2::ZERO }
    }

    /// How far from the car's axle a place may be off with the car, mm.
    pub fn sway(&self, from_axle: f64) -> f64 {
        let (mm, rad) = self.arrangement.shop.parked_within(self.arrangement.parked_known);
        mm + from_axle * rad
    }

    /// The room: round the set-up, or not quite.
    fn walls(&mut self, dice: &mut Dice) {
        let binds = |part: &&Part| !matches!(part.what, What::Zone(Exclusion::People | Exclusion::Light));
        let parts: Vec<&Part> = self.set_up.parts.iter().filter(binds).collect();
        let all: Vec<DVec2> = parts.iter().flat_map(|part| part.ring.clone()).collect();
        let car = parts.iter().filter(|part| part.what == What::Car).flat_map(|part| part.ring.clone());
        let work = self.arrangement.working_room_mm() + 5.0;
        let car: Vec<DVec2> = car.collect();
        let known = self.arrangement.shop.within(self.arrangement.bay.walls_known);
        let far = all.iter().map(|p| p.length()).fold(0.0, f64::max) + 500.0;
        let must = known + self.sway(far);
        let runs = self.set_up.runs.iter().flat_map(|run| [run.from, run.to]);
        let all: Vec<DVec2> = all.into_iter().chain(runs).collect();
        let stood = parts.iter().filter(|part| is_of_target(&part.what)).flat_map(|part| part.ring.clone());
        let (stood, round): (Vec<DVec2>, f64) = (stood.collect(), self.set_up.round_targets);
        let low = all.iter().map(|p| *p - must).chain(car.iter().map(|p| *p - work));
        let low = low.chain(stood.iter().map(|p| *p - round));
        let high = all.iter().map(|p| *p + must).chain(car.iter().map(|p| *p + work));
        let high = high.chain(stood.iter().map(|p| *p + round));
        let (low, high) = (low.fold(DVec2::INFINITY, DVec2::min), high.fold(DVec2::NEG_INFINITY, DVec2::max));
        let mut more = || match self.laid {
            Laid::Well | Laid::Spoiled => dice.one(&[0.1, 10.0, 500.0, 2_000.0]) * (1.0 + dice.share()),
            Laid::Nearly => dice.one(&[-10.0, 0.5, 50.0, 1_500.0]),
            Laid::Crowded => dice.within(-300.0, 1_500.0),
        };
        let (low, high) = (low - DVec2::new(more(), more()), high + DVec2::new(more(), more()));
        let is_well = self.laid.is_well();
        let along: Vec<DVec2> =
            parts.iter().flat_map(|part| points(&part.ring).collect::<Vec<_>>()).collect();
        let ring = room(dice, low, high, |ring| {
            let clear = |p: &DVec2, by: f64| depth_of(ring, *p) > by;
            !is_well
                || (along.iter().all(|p| clear(p, must)) && car.iter().all(|p| clear(p, work)))
                    && all.iter().all(|p| clear(p, must))
                    && stood.iter().all(|p| clear(p, round))
        });
        self.arrangement.bay.walls = (0..ring.len())
            .map(|i| Wall {
                id: format!("wall {i}").into(),
                material: dice.one(&[Material::Brick, Material::Concrete, Material::Steel]),
            })
            .collect();
        self.arrangement.bay.room = polygon(ring);
        (self.low, self.high) = (low, high);
    }

    /// Openings, drains and runways.
    fn building(&mut self, dice: &mut Dice) {
        let ring = self.arrangement.bay.room.outer().to_vec();
        let is_low = !self.laid.is_well() && dice.often(0.1);
        let (low, high) = if is_low { (1_300.0, 2_400.0) } else { (2_700.0, 4_500.0) };
        self.arrangement.bay.ceiling_mm = dice.within(low, high).round();
        let long = (0..ring.len()).filter(|&i| ring[i].distance(ring[(i + 1) % ring.len()]) > 1_200.0);
        let long: Vec<usize> = long.collect();
        // People who might come in are kept out of a bay that is laid well.
        let is_for_people = |own: &Part| own.what == What::Zone(Exclusion::People);
        let is_to_be_shut = self.laid.is_well() && self.set_up.parts.iter().any(is_for_people);
        if dice.often(0.4) && !long.is_empty() && !is_to_be_shut {
            let length = |wall: &usize| ring[*wall].distance(ring[(wall + 1) % ring.len()]);
            let any = dice.one(&long);
            // One that a car can come in by, in a bay that is to be ready.
            let longest = long.iter().copied().max_by(|a, b| length(a).total_cmp(&length(b)));
            let (wall, share, most) = match longest.filter(|_| self.laid.is_well()) {
                Some(longest) => (longest, 0.8, 3_600.0),
                None => (any, 0.5, 3_000.0),
            };
            let length = length(&wall);
            let width = (length * share).min(most);
            self.arrangement.bay.openings.push(Opening {
                id: "door".into(),
                kind: dice.one(&[OpeningKind::RollerDoor, OpeningKind::SwingDoor]),
                wall,
                from_mm: (length - width) * 0.5,
                width_mm: width,
                span: Span::new(0.0, self.arrangement.bay.ceiling_mm.min(2_600.0)).expect("heights"),
                material: Material::Steel,
                shut: self.laid.is_well() || dice.often(0.4),
                free_beyond_mm: dice.one(&[0.0, 1_500.0]),
                is_exit: false,
            });
        }
        // A well-kept bay's door is shut, and mostly kept so.
        let door = self.arrangement.bay.openings.iter().find(|own| own.shut).map(|own| own.id.clone());
        let is_kept = dice.often(if self.laid.is_well() { 0.8 } else { 0.3 });
        self.arrangement.kept_shut.extend(door.filter(|_| is_kept));
        if dice.often(if self.laid.is_well() { 0.05 } else { 0.2 })
            && let Some(wall) =
                long.iter().find(|own| self.arrangement.bay.openings.iter().all(|d| d.wall != **own))
        {
            self.arrangement.bay.openings.push(Opening {
                id: "window".into(),
                kind: OpeningKind::Window,
                wall: *wall,
                from_mm: 50.0,
                width_mm: 1_000.0,
                span: Span::new(dice.within(100.0, 1_200.0), self.arrangement.bay.ceiling_mm.min(2_000.0))
                    .expect("heights"),
                material: Material::Glass,
                shut: true,
                free_beyond_mm: 0.0,
                is_exit: false,
            });
        }
        let side = |dice: &mut Dice| dice.within(100.0, 500.0);
        for i in 0..dice.count(0, 2) {
            let at = DVec2::new(dice.within(self.low.x, self.high.x), dice.within(self.low.y, self.high.y));
            let low = if dice.often(0.3) { self.beside_mark(dice) } else { at };
            let ring = vec![low, low + DVec2::new(side(dice), 0.0), low + DVec2::new(side(dice), side(dice))];
            let feature = FloorFeature {
                id: format!("feature {i}").into(),
                kind: dice.one(&[FloorFeatureKind::Drain, FloorFeatureKind::Pit, FloorFeatureKind::Joint]),
                outline: polygon(ring),
                material: dice.one(&[Material::Concrete, Material::Steel, Material::Unknown]),
                proud_mm: dice.one(&[0.0, 0.0, 3.0, 15.0, 25.0, 120.0]),
            };
            // Of a bay that was laid well, most that stands proud of the floor is out of the way, and few pits lie open.
            let is_open = feature.kind == FloorFeatureKind::Pit && self.laid.is_well() && dice.often(0.9);
            if is_open {
                continue;
            }
            if feature.proud_mm == 0.0 || !self.laid.is_well() || dice.often(0.1) || self.is_aside(&feature) {
                self.arrangement.bay.floor_features.push(feature);
            }
        }
        if !self.laid.is_well() && dice.often(0.2) {
            let low = DVec2::new(dice.within(self.low.x, self.high.x), dice.within(self.low.y, self.high.y));
            let ring = [
                low,
                low + DVec2::new(1_200.0, 0.0),
                low + DVec2::new(1_200.0, 300.0),
                low + DVec2::new(0.0, 300.0),
            ];
            self.arrangement.bay.runways.push(Runway {
                id: "runway".into(),
                outline: polygon(ring.to_vec()),
                top_mm: dice.within(50.0, 400.0),
                survey: None,
            });
        }
    }

    /// Whether what is proud of the floor is as far from the set-up as it must be.
    fn is_aside(&self, feature: &FloorFeature) -> bool {
        let shop = &self.arrangement.shop;
        let solid = Solid::proud(feature, shop.within(self.arrangement.bay.walls_known));
        self.over_solid(&solid, 1.0) > 0.1
    }

    /// A place a little ahead of a mark or beside a wheel's foot.
    fn beside_mark(&self, dice: &mut Dice) -> DVec2 {
        let marks = self.set_up.marks.iter().map(|own| own.1);
        let wheels = self.set_up.wheels.iter().map(|at| *at + DVec2::new(150.0, 0.0));
        let all: Vec<DVec2> = marks.chain(wheels).collect();
        dice.one(&all) + DVec2::new(dice.one(&[0.5, 5.0, 20.0, 60.0]), dice.within(-50.0, 0.0))
    }

    fn thing(&mut self, dice: &mut Dice, index: usize) {
        // Later ones are small: a full room has nothing else left.
        for attempt in 0..16 {
            let mut thing = self.made(dice, index, attempt > 7);
            let fits = self.laid == Laid::Crowded || self.beside(dice, &mut thing);
            if fits {
                self.arrangement.bay.things.push(thing);
                return;
            }
        }
    }

    /// A few movable things anywhere in the way of the set-up.
    fn spoil(&mut self, dice: &mut Dice, from: usize) {
        for i in 0..dice.count(1, 3) {
            let mut thing = self.made(dice, from + i, false);
            let of = &self.set_up.parts[dice.count(0, self.set_up.parts.len() - 1)].ring;
            let off = DVec2::new(dice.within(-200.0, 200.0), dice.within(-200.0, 200.0));
            thing.place.at = PlanPose::new(of[dice.count(0, of.len() - 1)] + off, thing.place.at.heading());
            thing.effort = dice.one(&[Effort::OnePerson, Effort::TwoPeople, Effort::ForkLift]);
            let solid = Solid::of(&thing, &self.arrangement.shop);
            let room = self.arrangement.bay.room.outer();
            let others = self.arrangement.bay.things.iter().map(|own| Solid::of(own, &self.arrangement.shop));
            if points(&solid.ring).all(|p| depth_of(room, p) > 0.0)
                && !others.into_iter().any(|other| stacked(&solid, &other, 0.0))
            {
                self.arrangement.bay.things.push(thing);
            }
        }
    }

    /// A thing anywhere; in a bay that is laid well nobody stands before a camera.
    fn made(&self, dice: &mut Dice, index: usize, small: bool) -> Thing {
        let mut thing = self.any(dice, index, small);
        if self.laid.is_well() && self.arrangement.sensor.kind.is_camera() && thing.is_person() {
            (thing.kind, thing.material) = (ThingKind::Bin, Material::Wood);
        }
        thing
    }

    fn any(&self, dice: &mut Dice, index: usize, small: bool) -> Thing {
        let kinds = [
            ThingKind::Cabinet,
            ThingKind::ToolChest,
            ThingKind::Bench,
            ThingKind::Shelf,
            ThingKind::Drum,
            ThingKind::Bin,
            ThingKind::Column,
            ThingKind::Person,
            ThingKind::Lamp,
            ThingKind::Other,
        ];
        let side =
            |dice: &mut Dice| if small { dice.within(30.0, 200.0) } else { dice.within(60.0, 1_500.0) };
        let shape = match dice.count(0, 3) {
            0 => Shape::Round { diameter_mm: side(dice) * 0.5 },
            1 => {
                let (x, y) = (side(dice) * 0.5, side(dice) * 0.5);
                let corners =
                    [(-x, -y), (x, -y), (x, 0.1 * y), (0.2 * x, 0.3 * y), (-0.3 * x, y), (-x, 0.9 * y)];
                Shape::Outline(corners.map(DVec2::from).to_vec())
            }
            _ => Shape::Rectangle { length_mm: side(dice), width_mm: side(dice) },
        };
        let at = DVec2::new(dice.within(self.low.x, self.high.x), dice.within(self.low.y, self.high.y));
        // Seldom is anything drawn into the ceiling.
        let ceiling = self.arrangement.bay.ceiling_mm + if dice.often(0.02) { 500.0 } else { -1.0 };
        let bottom = if dice.often(0.15) { dice.within(0.0, ceiling.min(2_600.0) - 100.0) } else { 0.0 };
        let kind = dice.one(&kinds);
        Thing {
            id: format!("thing {index}").into(),
            kind,
            footprint: Footprint::new(shape).expect("a sound shape"),
            place: Place {
                at: PlanPose::new(at, dice.within(-4.0, 4.0)),
                known: dice.one(&[
                    Known::Taped,
                    Known::Taped,
                    Known::ByEye,
                    Known::Within(0.0),
                    Known::Within(3.0),
                ]),
            },
            span: Span::new(bottom, (bottom + dice.within(5.0, 2_000.0)).min(ceiling)).expect("heights"),
            material: if kind == ThingKind::Person { Material::Person } else { dice.one(&Material::ALL) },
            metal: dice.one(&[None, None, None, Some(Metal::None), Some(Metal::Frame)]),
            effort: dice.one(&[Effort::OnePerson, Effort::TwoPeople, Effort::ForkLift, Effort::Fixed]),
            locked: false,
        }
    }

    /// How much further from the set-up than it must a thing stands, if a share of the car's uncertainty counts.
    fn over(&self, thing: &Thing, share: f64) -> f64 {
        self.over_solid(&Solid::of(thing, &self.arrangement.shop), share)
    }

    fn over_solid(&self, solid: &Solid, share: f64) -> f64 {
        let far = solid.ring.iter().map(|p| p.length()).fold(0.0, f64::max);
        spare(&self.set_up, solid) - solid.known - share * self.sway(far)
    }

    /// Pushes a thing towards the set-up until it stands as near as it may, or nearly; whether it fits there.
    fn beside(&self, dice: &mut Dice, thing: &mut Thing) -> bool {
        let extra = match self.laid {
            Laid::Well | Laid::Spoiled => dice.one(&[0.1, 2.0, 20.0, 150.0]),
            _ => dice.one(&[-60.0, -20.0, -1.5, -0.5, 0.1, 20.0, 300.0]),
        };
        // Too near by a hair of what the car's place, or the thing's own, is uncertain by.
        let share = match self.laid {
            Laid::Well | Laid::Spoiled => 1.0,
            _ => dice.one(&[1.0, 0.8, 0.0]),
        };
        if self.over(thing, share) < extra {
            return false;
        }
        if dice.often(0.7) {
            let aim = self.set_up.parts[dice.count(0, self.set_up.parts.len() - 1)].ring[0];
            let (from, known) = (thing.place.at, thing.place.known);
            let at = |share: f64| Place { at: from.shifted((aim - from.origin()) * share), known };
            let (mut clear, mut blocked) = (0.0, 1.0);
            for _ in 0..14 {
                let middle = (clear + blocked) * 0.5;
                thing.place = at(middle);
                if self.over(thing, share) < extra { blocked = middle } else { clear = middle }
            }
            thing.place = at(clear);
        }
        let solid = Solid::of(thing, &self.arrangement.shop);
        let room = self.arrangement.bay.room.outer();
        let others = self.arrangement.bay.things.iter().map(|own| Solid::of(own, &self.arrangement.shop));
        points(&solid.ring).all(|p| depth_of(room, p) > 0.0)
            && !others.into_iter().any(|other| stacked(&solid, &other, 0.0))
    }

    /// All of it in the bay.
    fn put(self, place: Frame) -> Arrangement {
        let Self { mut arrangement, .. } = self;
        let pose = PlanPose::new(place.at, place.heading);
        let bay = &mut arrangement.bay;
        let surveys = bay.runways.iter_mut().filter_map(|own| own.survey.as_mut());
        for survey in surveys.chain(&mut bay.survey) {
            survey.points.change(|points| points.iter_mut().for_each(|own| own.at = pose * own.at));
        }
        for area in &mut bay.keep_free {
            area.outline = area.outline.placed(&pose);
        }
        for own in &mut bay.bays {
            own.outline = own.outline.placed(&pose);
        }
        bay.room = bay.room.placed(&pose);
        for feature in &mut bay.floor_features {
            feature.outline = feature.outline.placed(&pose);
        }
        for runway in &mut bay.runways {
            runway.outline = runway.outline.placed(&pose);
        }
        for thing in &mut bay.things {
            thing.place.at = pose * thing.place.at;
        }
        for set in &mut arrangement.stands {
            if let StandSet::At { place, .. } = set {
                *place = pose * *place;
            }
        }
        arrangement.parked = pose;
        arrangement
    }
}

fn bay() -> Bay {
    let provenance = Provenance::Measured { by: "a test".into(), date: None };
    Bay {
        id: "random-bay".into(),
        name: "Random bay".into(),
        room: polygon(crate::shape::rectangle(DVec2::ZERO, DVec2::ONE)),
        walls: vec![],
        walls_known: Known::Within(0.0),
        ceiling_mm: 3_500.0,
        openings: vec![],
        floor_features: vec![],
        runways: vec![],
        dimensions: Vec::new(),
        things: vec![],
        keep_free: vec![],
        bays: vec![],
        survey: None,
        marks: vec![],
        provenance,
    }
}
