//! What the squares say, held against the same worked out the long way.

use super::Levels;
use super::*;
use crate::check::direct;
use crate::check::testing::*;
use crate::dice::Dice;
use crate::scene::Scene;

/// Squares as they were asked about at first: everything is put in its place anew for each of them, and none is passed over by the
/// edges that are near.
fn the_long_way(levels: &Levels, arrangement: &Arrangement, sweep: &Sweep, whole: &Region) -> Squares {
    let mut squares = Squares::default();
    let (turn_rad, by_mm) = sweep.reach();
    let mut open: Vec<(DVec2, f64)> =
        first(&whole.bounds().unwrap(), &[whole]).iter().map(|own| (own.middle, own.half)).collect();
    let (mut asked, evened) = (0, direct::evened(&levels.surveyed));
    while let Some((middle, half)) = open.pop() {
        let corner = half * std::f64::consts::SQRT_2;
        if !(whole.holds(middle) || whole.to_edge(middle) < corner) {
            continue;
        }
        asked += 1;
        let corners =
            |half: f64| [(-half, -half), (half, -half), (half, half), (-half, half)].map(DVec2::from);
        let ring = || corners(half).map(|off| middle + off).to_vec();
        let here = stood(arrangement, PlanPose::new(middle, sweep.heading_rad()));
        let reach = corner + by_mm * std::f64::consts::SQRT_2;
        let surveyed = (&*levels.surveyed, evened.as_slice());
        match direct::levelled_within(&here, &Scene::of(&here), surveyed, reach, turn_rad) {
            Levelled::Stops => squares.stop.push(ring()),
            Levelled::Never => {}
            Levelled::Perhaps if half < 2.0 * LEAST_MM || asked >= MOST_ASKED => {
                squares.undecided.push(ring());
            }
            Levelled::Perhaps => open.extend(corners(half * 0.5).map(|off| (middle + off, half * 0.5))),
        }
    }
    squares
}

/// A floor that falls, has a bump or a step, was not surveyed in a corner, or whose car stands on runways of which one is a little higher.
fn floor(dice: &mut Dice, nth: usize) -> Arrangement {
    let mut own = if nth % 4 == 3 { raised() } else { clear() };
    let falls = DVec2::new(dice.within(-0.003, 0.003), dice.within(-0.003, 0.003));
    let bump = DVec2::new(dice.within(2_000.0, 10_000.0), dice.within(1_000.0, 5_000.0));
    let (height, width) = (dice.within(-8.0, 8.0), dice.within(800.0, 2_500.0));
    let level = |at: DVec2| {
        let uneven = match nth % 3 {
            0 => height * (1.0 - at.distance(bump) / width).max(0.0),
            1 if at.x > bump.x => height * 0.4,
            _ => 0.0,
        };
        falls.dot(at) * 0.3 + 0.0006 * (at.x - bump.x).max(0.0) + uneven
    };
    let survey = own.bay.survey.as_mut().unwrap();
    survey.points.change(|points| {
        points.iter_mut().for_each(|own| own.level_mm = level(own.at));
        if nth % 4 == 1 {
            points.retain(|own| own.at.distance(DVec2::new(12_000.0, 6_000.0)) > 4_000.0);
        }
    });
    let step = dice.within(-4.0, 4.0);
    for (nth, runway) in own.bay.runways.iter_mut().enumerate() {
        if let Some(survey) = &mut runway.survey {
            survey.points.change(|points| {
                points.iter_mut().for_each(|own| own.level_mm = level(own.at) * 0.3 + step * nth as f64);
            });
        }
    }
    let floor = own.aiming.floor.as_mut().unwrap();
    floor.level_mm = dice.within(2.0, 7.0);
    if nth.is_multiple_of(2) {
        (floor.pitch_rad, floor.roll_rad) = (Some(dice.within(0.001, 0.003)), Some(0.002));
    }
    own
}

/// What the one has decided otherwise than the other, mm²: fits and does not.
fn otherwise(one: &(Region, Region), other: &(Region, Region)) -> f64 {
    let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
    let open: Vec<_> = rings(&other.0).into_iter().chain(rings(&other.1)).collect();
    Region::left(&rings(&one.0), &open).area()
}

/// The places of a floor that are looked at: about where its car stands, as far as runways carry it.
fn places(arrangement: &Arrangement) -> Region {
    let by = if arrangement.on_runways.is_empty() { (1_300.0, 800.0) } else { (700.0, 220.0) };
    let at = arrangement.parked.origin();
    let around = Bounds { low: at - DVec2::from(by), high: at + DVec2::from(by) };
    Region::left(&[crate::place::corners_of(&around).to_vec()], &[])
}

/// What the check's own figures say of a pose, with nothing about it.
fn at_a_pose(levels: &Levels, arrangement: &Arrangement, pose: PlanPose) -> Levelled {
    let here = stood(arrangement, pose);
    let none = vec![None; 1 + arrangement.on_runways.len()];
    direct::levelled_within(&here, &Scene::of(&here), (&levels.surveyed, &none), 0.0, 0.0)
}

#[test]
fn what_is_told_soon_is_what_is_told_the_long_way() {
    let (mut all, mut of_another) = ([0.0; 3], 0.0);
    for nth in 0..24 {
        let mut dice = Dice(nth as u64 + 3);
        let arrangement = floor(&mut dice, nth);
        let levels = Levels::of(&arrangement).unwrap();
        let whole = places(&arrangement);
        let heading = if nth % 4 == 3 { 0.0 } else { dice.within(-3.2, 3.2) };
        let (turn, shift) = (dice.within(0.0, 0.008), 15.0);
        let long_way = |arrangement: &Arrangement, sweep: &Sweep| {
            let squares = the_long_way(&levels, arrangement, sweep, &whole);
            squares.take_from(whole.clone(), Region::default())
        };
        for (sweep, turn, shift) in [
            (Sweep::at(heading), 0.0, 0.0),
            (Sweep::between(heading - turn, heading + turn, heading, shift), turn, shift),
        ] {
            let soon = levels.refined(&sweep, whole.clone(), Region::default());
            let long = long_way(&arrangement, &sweep);
            let by = otherwise(&soon, &long) + otherwise(&long, &soon);
            assert!(by < 1.0, "{by} mm² of floor {nth} are told otherwise");
            let (open, before) = (soon.1.area(), long.1.area());
            assert!(open <= before + 1.0, "floor {nth}: {open} mm² are open, {before} the long way");
            let not = whole.area() - soon.0.area() - open;
            all = [all[0] + soon.0.area(), all[1] + not, all[2] + open];
            // And what is told is so at the poses themselves, wherever the car stands in the box.
            let around = whole.bounds().unwrap();
            for _ in 0..150 {
                let at = DVec2::new(
                    dice.within(around.low.x, around.high.x),
                    dice.within(around.low.y, around.high.y),
                );
                let by = DVec2::new(dice.within(-shift, shift), dice.within(-shift, shift));
                let by = PlanPose::new(DVec2::ZERO, heading).turned(by);
                let pose = PlanPose::new(at + by, heading + dice.within(-turn, turn));
                if soon.0.holds(at) {
                    let told = at_a_pose(&levels, &arrangement, pose);
                    assert_ne!(told, Levelled::Stops, "floor {nth} at {pose:?}");
                } else if !soon.1.holds(at) && shift == 0.0 {
                    let told = at_a_pose(&levels, &arrangement, pose);
                    assert_ne!(told, Levelled::Never, "floor {nth} at {pose:?}");
                }
            }
        }
        // Of a floor that may be a little less level something else is told.
        let mut stricter = arrangement.clone();
        stricter.aiming.floor.as_mut().unwrap().level_mm -= 0.5;
        let sweep = Sweep::at(heading);
        let soon = levels.refined(&sweep, whole.clone(), Region::default());
        of_another += otherwise(&soon, &long_way(&stricter, &sweep));
    }
    let [fits, not, open] = all.map(|own| own / all.iter().sum::<f64>());
    assert!(fits > 0.15 && not > 0.1 && open < 0.5, "too little of one kind: {fits} {not} {open}");
    assert!(of_another > 1e5, "{of_another} mm² of stricter floors are told otherwise");
}
