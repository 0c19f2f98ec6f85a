//! The spots that are offered.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::place::{Fit, Margin, Search, Slack, best_spots, corners, headings};

use crate::support::*;

fn found(arrangement: &Arrangement) -> Vec<baywright_planner::place::Spot> {
    let search = Search::new(arrangement);
    let found = best_spots(&search, &Margin::default(), &|| false, &mut |_| {});
    assert!(!found.is_partial);
    for spot in &found.spots {
        for pose in corners(spot) {
            assert!(search.settle(pose), "{spot:?} at {pose:?}");
        }
    }
    found.spots
}

/// In an empty room the best spot is the middle of what the set-up leaves, and its slack is worked out by hand: at the turn that
/// goes with it the beam's corners reach as far aside as the walls allow.
#[test]
fn in_an_empty_room_the_best_spot_is_in_the_middle() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (12_000.0, 3_600.0));
    let spots = found(&arrangement);
    let best = spots.first().unwrap();
    let lever = Search::new(&arrangement).lever_mm();
    assert!((best.slack.rad - best.slack.mm / lever).abs() < 1e-12);
    // Of the box's half side s and turn s / lever the beam's corner at 5800, 1500 comes to 1500 cos + 5800 sin, and the box's own
    // corner to s (cos + sin) more as it turns with the spot, not with the car.
    let aside = |s: f64| {
        let (sin, cos) = angle::sin_cos(s / lever);
        1_500.0 * cos + 5_800.0 * sin + s
    };
    let (mut low, mut high) = (0.0, 300.0);
    while high - low > 1e-6 {
        let middle = (low + high) * 0.5;
        if aside(middle) < 1_800.0 { low = middle } else { high = middle }
    }
    // Told in whole millimetres, never more than it is; all of a degree taken at once costs a few.
    assert!(best.slack.mm <= low && best.slack.mm > low - 12.0, "{} of {low}", best.slack.mm);
    assert!((best.pose.origin().y - 1_800.0).abs() < 12.0 && best.is_invited, "{best:?}");
    // The other way round is another spot and as good.
    assert!(spots.len() >= 2);
    assert!(angle::wrapped(spots[1].pose.heading() - best.pose.heading()).abs() > 3.0);
}

#[test]
fn a_bay_that_is_too_short_has_none_and_a_stopped_search_says_so() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (9_000.0, 3_600.0));
    assert!(found(&arrangement).is_empty());
    let search = Search::new(&clear());
    let mut heard = 0;
    let stopped = best_spots(&search, &Margin::default(), &|| true, &mut |_| heard += 1);
    assert!(stopped.is_partial && stopped.spots.is_empty() && heard == 0);
}

/// No place of a coarse grid over places and headings has more slack than the one that is offered, tried by the checks alone.
#[test]
fn nothing_on_a_grid_has_more_slack() {
    let mut arrangement = with(vec![
        column("column", (8_600.0, 900.0), 300.0),
        cabinet("bench", (2_000.0, 4_500.0), 1_800.0, 500.0),
    ]);
    arrangement.bay.room = rectangle((0.0, 0.0), (11_000.0, 5_000.0));
    let search = Search::new(&arrangement);
    let spots = best_spots(&search, &Margin::default(), &|| false, &mut |_| {}).spots;
    let best = spots.first().unwrap();
    assert!(best.meets(&Margin::default()), "{best:?}");
    let more = baywright_planner::place::Slack { mm: best.slack.mm + 12.0, rad: best.slack.rad };
    for degrees in [0.0, 180.0, 2.0, -2.0, 178.0, 182.0] {
        for (x, y) in (0..28).flat_map(|x| (0..13).map(move |y| (x, y))) {
            let place = DVec2::new(400.0 * f64::from(x), 400.0 * f64::from(y));
            let pose = PlanPose::new(place, angle::radians(degrees));
            let spot = baywright_planner::place::Spot { pose, slack: more, is_invited: true };
            assert!(!corners(&spot).all(|pose| search.settle(pose)), "{spot:?} is better than {best:?}");
        }
    }
}

/// One spot for all aimings of a visit: where each of them fits.
#[test]
fn a_place_for_a_visit_is_one_for_each_of_its_aimings() {
    let mut ahead = with(vec![column("column", (9_400.0, 1_000.0), 300.0)]);
    ahead.bay.room = rectangle((0.0, 0.0), (13_000.0, 6_000.0));
    let mut back = ahead.clone();
    back.aiming.zones[0].outline = rectangle((-6_000.0, -1_800.0), (-3_500.0, 1_200.0)).into();
    back.aiming.placements.clear();
    back.aiming.mark_plan.clear();
    back.stands.clear();
    let both = Search::of_all(&[ahead.clone(), back.clone()]);
    let (ahead, back) = (Search::new(&ahead), Search::new(&back));
    let heading = angle::radians(1.5);
    let (all, one, other) = (both.places(heading), ahead.places(heading), back.places(heading));
    let mut fitting = 0;
    for (x, y) in (0..52).flat_map(|x| (0..24).map(move |y| (x, y))) {
        let place = DVec2::new(250.0 * f64::from(x) + 3.0, 250.0 * f64::from(y) + 7.0);
        let each = one.at(place) == Fit::Fits && other.at(place) == Fit::Fits;
        assert_eq!(all.at(place) == Fit::Fits, each, "{place}");
        fitting += usize::from(each);
    }
    assert!(fitting > 10, "{fitting}");
    let found = best_spots(&both, &Margin::default(), &|| false, &mut |_| {});
    let best = found.spots.first().unwrap();
    assert!(corners(best).all(|pose| ahead.settle(pose) && back.settle(pose)));
}

/// What the search leaves out on its way has no more to give: at no heading is there a place that may be further off than the spot
/// that is offered, whatever else is known there.
#[test]
fn nothing_that_is_left_out_has_more_slack() {
    let (mut offered, mut none) = (0, 0);
    for seed in 0..7 {
        let arrangement = crate::random::bay(3 * seed + 1);
        let search = Search::new(&arrangement);
        let margin = Margin::default();
        let spots = best_spots(&search, &margin, &|| false, &mut |_| {}).spots;
        let best = spots.first();
        // As good for a few millimetres is as good, and a place that the checks find fault with is none.
        let more = best.map_or(0.0, |own| own.slack.mm) + 8.0;
        let lever = search.lever_mm();
        let has_more = |heading: f64| {
            let slack = Slack { mm: more, rad: more / lever };
            search
                .clear_places(heading, &slack)
                .and_then(|own| own.middle())
                .is_some_and(|at| search.settle(PlanPose::new(at, heading)))
        };
        // One that the room invites goes before all others, if it meets the margin.
        let only_invited = best.is_some_and(|own| own.is_invited && own.meets(&margin));
        let all = headings(&arrangement.bay.room).into_iter().filter(|own| own.1 || !only_invited);
        if more <= baywright_planner::place::MOST_MM {
            for (heading, _) in all {
                assert!(!has_more(heading), "seed {seed}: more than {best:?} at {heading}");
            }
        }
        if best.is_some() { offered += 1 } else { none += 1 }
    }
    assert!(offered > 2, "{offered} {none}");
}

/// Where both ways round are as good the car stays the way it is.
#[test]
fn a_car_is_not_turned_round_for_nothing() {
    for now in [0.0, std::f64::consts::PI] {
        let mut arrangement = clear();
        arrangement.bay.room = rectangle((0.0, 0.0), (12_000.0, 3_600.0));
        arrangement.bay.survey = None;
        arrangement.parked = PlanPose::new(DVec2::new(5_000.0, 1_800.0), now);
        let spots = found(&arrangement);
        let turned = |nth: usize| angle::wrapped(spots[nth].pose.heading() - now).abs();
        assert!(turned(0) < 0.1 && turned(1) > 3.0, "{spots:?}");
    }
}
