//! Random bays: what fits and what does not, asked of the checks at places all over each, and beside the edges of its regions.
//!
//! A sample of some seconds; `BAYWRIGHT_BAYS=2000` asks for so many bays.

use baywright_planner::at_once::pair;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::place::{Bears, bears, stood};

use crate::dice::Dice;
use crate::support::*;
use crate::told::asked;

impl Dice {
    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[(self.share() * of.len() as f64) as usize]
    }

    pub fn often(&mut self, share: f64) -> bool {
        self.share() < share
    }
}

/// A room of four corners, of six with an inner corner, or of eight with a pier; doors in its first wall.
fn room(dice: &mut Dice, bay: &mut Bay) -> DVec2 {
    let size = DVec2::new(dice.within(9_500.0, 15_000.0), dice.within(5_000.0, 10_000.0)).round();
    let DVec2 { x, y } = size;
    let ring: Vec<(f64, f64)> = match dice.one(&[0, 0, 1, 2]) {
        1 => vec![(0., 0.), (x, 0.), (x, y * 0.7), (x * 0.6, y * 0.7), (x * 0.6, y), (0., y)],
        2 => {
            let (at, far) = (dice.within(0.3, 0.8) * x, dice.within(200.0, 900.0));
            vec![
                (0., 0.),
                (x, 0.),
                (x, y),
                (at + 300., y),
                (at + 300., y - far),
                (at, y - far),
                (at, y),
                (0., y),
            ]
        }
        _ => vec![(0., 0.), (x, 0.), (x, y), (0., y)],
    };
    bay.walls = (0..ring.len())
        .map(|nth| Wall { id: format!("{nth}").as_str().into(), material: Material::Brick })
        .collect();
    bay.room = Polygon::simple(ring.into_iter().map(DVec2::from).collect()).unwrap();
    if dice.often(0.4) {
        let top = dice.one(&[1_200.0, 1_800.0, 2_500.0]);
        let door = open_door(0, dice.within(500.0, x - 4_000.0), 3_000.0, dice.one(&[0.0, 1_500.0, 4_000.0]));
        bay.openings = vec![Opening { shut: dice.often(0.2), span: span(0.0, top), ..door }];
    }
    size
}

fn thing(dice: &mut Dice, nth: usize, size: DVec2) -> Thing {
    let at = DVec2::new(dice.within(0.0, size.x), dice.within(0.0, size.y));
    let shape = match dice.one(&[0, 1, 1, 2]) {
        0 => Shape::Round { diameter_mm: dice.within(60.0, 700.0) },
        1 => Shape::Rectangle { length_mm: dice.within(80.0, 1_800.0), width_mm: dice.within(20.0, 600.0) },
        _ => {
            let ring = [(-400., -300.), (400., -300.), (400., 0.), (0., 0.), (0., 300.), (-400., 300.)];
            Shape::Outline(ring.map(DVec2::from).into())
        }
    };
    let (bottom, top) = dice.one(&[
        (0.0, 900.0),
        (0.0, 3_000.0),
        (0.0, 60.0),
        (0.0, 300.0),
        (550.0, 2_000.0),
        (700.0, 900.0),
        (1_700.0, 2_600.0),
    ]);
    let kind = dice.one(&[ThingKind::Cabinet, ThingKind::Cabinet, ThingKind::Column, ThingKind::Lamp]);
    Thing {
        kind,
        footprint: Footprint::new(shape).unwrap(),
        place: Place { at: PlanPose::new(at, dice.within(0.0, 6.0)), known: Known::Within(0.0) },
        span: span(bottom, top),
        material: dice.one(&[Material::Steel, Material::Wood, Material::Glass]),
        ..cabinet(&format!("thing {nth}"), (0.0, 0.0), 1.0, 1.0)
    }
}

pub fn bay(seed: u64) -> Arrangement {
    let mut dice = Dice(seed.wrapping_mul(0xd134_2543_de82_ef95));
    let mut own = clear();
    own.parked_known = ParkedKnown::Planned;
    let size = room(&mut dice, &mut own.bay);
    let count = dice.one(&[0, 2, 6, 12]);
    own.bay.things = (0..count).map(|nth| thing(&mut dice, nth, size)).collect();
    for nth in 0..dice.one(&[0, 1, 2]) {
        let low = (dice.within(0.0, size.x - 700.0), dice.within(0.0, size.y - 500.0));
        own.bay.floor_features.push(FloorFeature {
            id: format!("feature {nth}").as_str().into(),
            kind: dice.one(&[FloorFeatureKind::Drain, FloorFeatureKind::Pit, FloorFeatureKind::Joint]),
            outline: rectangle(low, (low.0 + dice.within(60.0, 700.0), low.1 + dice.within(60.0, 500.0))),
            material: dice.one(&[Material::Steel, Material::Concrete]),
            proud_mm: dice.one(&[0.0, 0.0, 3.0, 28.0, 90.0]),
        });
    }
    // Runways, idle or under the car.
    if dice.often(0.3) {
        own.bay.runways = raised().bay.runways;
        if dice.often(0.6) {
            own.on_runways = raised().on_runways;
            own.aiming.zones.iter_mut().for_each(|own| own.heights_from = HeightsFrom::Wheels);
        }
    }
    match dice.one(&[0, 1, 2]) {
        0 => own.aiming.zones.clear(),
        1 => own.aiming.zones[0].excludes = Exclusion::Anything,
        _ => {}
    }
    if dice.often(0.3) {
        own.aiming.zones.push(KeepClear {
            id: "people".into(),
            frame: ZoneFrame::Sensor,
            outline: rectangle((0.0, -800.0), (3_000.0, 800.0)).into(),
            span: span(0.0, 2_000.0),
            heights_from: HeightsFrom::Floor,
            excludes: dice.one(&[Exclusion::People, Exclusion::Light, Exclusion::Anything]),
        });
    }
    if dice.often(0.3) {
        own.aiming.mark_plan.clear();
        own.aiming.placements.iter_mut().for_each(|own| own.mark = None);
    }
    if dice.often(0.3) {
        let falls = DVec2::new(dice.within(-0.002, 0.002), dice.within(-0.002, 0.002));
        let from = dice.within(0.0, size.x);
        let survey = own.bay.survey.as_mut().unwrap();
        survey.points.change(|points| {
            points
                .iter_mut()
                .for_each(|own| own.level_mm = falls.dot(own.at) + 0.002 * (own.at.x - from).max(0.0))
        });
    }
    own.bay.ceiling_mm = 3_200.0;
    // Another car, with its target, is aimed there at the same time.
    if dice.often(0.2) {
        let place = DVec2::new(dice.within(0.0, size.x), dice.within(0.0, size.y));
        let there = stood(&own, PlanPose::new(place, dice.within(-3.2, 3.2)));
        let there = Arrangement { id: "beside".into(), ..there };
        own = pair(own, there, Default::default(), Vec::new());
    }
    own
}

#[test]
fn what_fits_has_nothing_that_stops_and_what_does_not_has() {
    let count = std::env::var("BAYWRIGHT_BAYS").ok().and_then(|own| own.parse().ok()).unwrap_or(40);
    let mut all = [0; 3];
    for seed in 0..count {
        let arrangement = bay(seed);
        let mut dice = Dice(seed + 77);
        let headings =
            [dice.one(&[0.0, 90.0, 180.0, 270.0]), dice.within(-180.0, 180.0), dice.within(-4.0, 4.0)];
        let told = std::panic::catch_unwind(|| asked(&arrangement, &headings, 14));
        let told = told.unwrap_or_else(|_| panic!("seed {seed}"));
        for (all, own) in all.iter_mut().zip(told) {
            *all += own;
        }
    }
    println!("{all:?}");
    assert!(all[0] * 50 > all[1] && all[2] * 20 < all[0] + all[1], "too few of one kind: {all:?}");
}

/// The table is true of all that is found in these bays: what it calls *never* never stops.
#[test]
fn what_never_stops_never_does() {
    let mut stopped = std::collections::BTreeSet::new();
    for seed in 0..150 {
        let arrangement = bay(seed);
        let mut dice = Dice(seed + 5);
        let size = arrangement.bay.room.bounds().size();
        for _ in 0..12 {
            let place = DVec2::new(dice.within(0.0, size.x), dice.within(0.0, size.y));
            let judged = judge(&stood(&arrangement, PlanPose::new(place, dice.within(-3.2, 3.2))));
            stopped.extend(
                judged.findings.iter().filter(|own| own.severity == Severity::Stops).map(Finding::code),
            );
        }
    }
    for &code in &stopped {
        assert_ne!(bears(code), Bears::Never, "{code:?}");
    }
    // Each kind that depends on the place is found, or the bays prove nothing of it.
    for code in Code::ALL.into_iter().filter(|own| matches!(bears(*own), Bears::Decided | Bears::Bounded)) {
        assert!(stopped.contains(&code), "{code:?} is never found");
    }
}

use crate::judge;
