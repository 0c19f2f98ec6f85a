//! The same answer the long way, to be held against the short one: everything is put in its place anew for each pose, and what
//! stands and its levels come from where the check itself has them.

use super::*;
use crate::ground::spots::{Spot, Spots};
use crate::model::LevelPoint;

/// How the levels of each ground lie to the plane that all of them are held against.
pub(crate) fn evened(surveyed: &Surveyed) -> Vec<Option<Levels>> {
    let own = |own: &Survey| {
        let even = |p: &LevelPoint| LevelPoint { level_mm: p.level_mm - own.falls.dot(p.at), ..*p };
        own.points.iter().map(even).collect()
    };
    surveyed.grounds.iter().map(|ground| ground.survey.as_ref().map(own)).collect()
}

/// What the levels do with the car within so many mm of where it stands, and within so many radians of its heading; nothing lies on
/// the floor.
pub(crate) fn levelled_within(
    arrangement: &Arrangement,
    scene: &Scene,
    (surveyed, evened): (&Surveyed, &[Option<Levels>]),
    within_mm: f64,
    within_rad: f64,
) -> Levelled {
    let context = Context::new(arrangement, scene);
    let mut spots = Spots::of(arrangement, scene);
    let origin = scene.bay_from_vehicle.origin();
    let moved = |at: DVec2| Moved { shift_mm: within_mm, turn_mm: within_rad * at.distance(origin) };
    let survey = |spot: &Spot| surveyed.grounds[spot.ground].survey.as_ref();
    let plain = |spot: &Spot| {
        let far = moved(spot.at).far_mm();
        survey(spot).map_or(0.0, |own| (own.points.steepest_near(spot.at, far) * far).min(own.range_mm))
    };
    let unlike = |spot: &Spot| {
        let (by, far) = (moved(spot.at), moved(spot.at).far_mm());
        survey(spot).map_or(0.0, |own| {
            let turned = own.points.steepest_near(spot.at, far) * by.turn_mm;
            let evened = evened[spot.ground].as_ref();
            evened.map_or(0.0, |own| own.steepest_near(spot.at, far)) * by.shift_mm + turned
        })
    };
    let (plain, unlike): (Vec<f64>, Vec<f64>) =
        spots.standing().map(|spot| (plain(spot), unlike(spot))).unzip();
    let is_less = unlike.iter().sum::<f64>() < plain.iter().sum::<f64>();
    let bounds = if is_less { unlike } else { plain };
    let mut unsure = spots.wheels.len() < scene.wheels.len();
    let Spots { wheels, targets, feet, .. } = &mut spots;
    let standing = wheels.iter_mut().chain(targets.iter_mut()).chain(feet.iter_mut());
    for (spot, moved_mm) in standing.zip(bounds) {
        spot.moved_mm = moved_mm;
        let Some(own) = survey(spot) else {
            spot.level = None;
            continue;
        };
        let around = hull(&own.points.iter().map(|own| own.at).collect::<Vec<_>>()).unwrap();
        let edge = around.edges().map(|own| own.distance_to(spot.at)).fold(f64::INFINITY, f64::min);
        match (edge > moved(spot.at).far_mm(), locate_in(&around, spot.at)) {
            (false, _) => unsure = true,
            (true, Located::Outside) => spot.level = None,
            (true, _) => {}
        }
    }
    let mut all = Levelled::Never;
    let mut say = |figure: Figure, limit: f64| {
        let turned = 2.0 * within_rad * (figure.value.abs() + figure.moved);
        let moved = figure.moved * 1.01 + turned;
        if figure.value.abs() - moved > limit {
            all = Levelled::Stops;
        } else if figure.value.abs() + moved > limit && all == Levelled::Never {
            all = Levelled::Perhaps;
        }
    };
    if let Some(floor) = arrangement.aiming.floor {
        let known = || spots.standing().filter_map(|spot| Some((spot.level?.level_mm, spot.moved_mm)));
        let most =
            |by: f64| known().map(|(level, moved)| level + by * moved).fold(f64::NEG_INFINITY, f64::max);
        let least = |by: f64| known().map(|(level, moved)| level - by * moved).fold(f64::INFINITY, f64::min);
        if most(0.0) > f64::NEG_INFINITY {
            let (low, high) = (most(-1.0) - least(-1.0), most(1.0) - least(1.0));
            let (value, moved) = ((low + high) * 0.5, (high - low) * 0.5);
            say(Figure { value, within: 0.0, moved }, floor.level_mm + SPEAKS_FROM_MM);
        }
    }
    if let Some(wheels) = Wheels::of(&context, &spots) {
        if let Some(floor) = arrangement.aiming.floor {
            let tilts = [
                (floor.pitch_rad, wheels.figure(|stance| stance.pitch_rad)),
                (floor.roll_rad, wheels.figure(|stance| stance.roll_rad)),
            ];
            for (limit, figure) in tilts {
                limit.into_iter().for_each(|limit| say(figure, limit + SPEAKS_FROM_RAD));
            }
        }
        for index in 0..spots.targets.len() {
            for off in offs(&context, &wheels, index).into_iter().flatten().filter(|off| off.stops) {
                let figure = Figure { value: off.value, within: 0.0, moved: off.moved };
                say(figure, off.limit + off.slack());
            }
        }
    }
    match all {
        Levelled::Never | Levelled::Stops if unsure && surveyed.is_uneven => Levelled::Perhaps,
        sure => sure,
    }
}
