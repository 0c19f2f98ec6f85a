//! Empty rooms, where all of it is a formula.

use baywright_planner::geometry::{DVec2, PlanPose, Polygon, angle};
use baywright_planner::place::{Fit, Search};

use crate::support::*;

/// The set-up's extents in the vehicle frame: it reaches from the car's tail at -3400 to the beam's end at 5800, or as far as the
/// stand's feet behind the target's face at 4800; the beam's sides lie 1500 to either side.
const AHEAD: f64 = 5_800.0;
const BACK: f64 = 3_400.0;
const ASIDE: f64 = 1_500.0;

/// How much longer along the turned room's own sides the set-up's hull is: its extents at a heading.
fn extents(heading: f64) -> DVec2 {
    let corners = [
        // The car's body, its mirrors 1000 to either side of it 600 behind the axle; then the beam.
        (-BACK, 900.0),
        (-BACK, -900.0),
        (900.0, ASIDE),
        (AHEAD, ASIDE),
        (AHEAD, -ASIDE),
        (900.0, -ASIDE),
    ];
    let turned: Vec<DVec2> = corners.map(|p| PlanPose::new(DVec2::ZERO, heading).turned(p.into())).into();
    let low = turned.iter().copied().reduce(DVec2::min).unwrap();
    let high = turned.iter().copied().reduce(DVec2::max).unwrap();
    high - low
}

#[test]
fn in_an_empty_room_the_places_are_the_room_less_the_set_up() {
    for degrees in [0.0, 90.0, 180.0, 270.0, 3.0, -17.0, 45.0, 123.456] {
        for (length, width) in [(12_000.0, 6_000.0), (14_500.0, 12_250.0)] {
            let mut arrangement = clear();
            arrangement.bay.room = rectangle((0.0, 0.0), (length, width));
            let search = Search::new(&arrangement);
            assert!(search.everywhere().is_empty(), "{:?}", search.everywhere());
            let heading = angle::radians(degrees);
            let places = search.places(heading);
            let left = (DVec2::new(length, width) - extents(heading)).max(DVec2::ZERO);
            let expected = left.x * left.y;
            let got = places.fits.area();
            assert!(
                (got - expected).abs() <= 1e-6 * expected.max(1.0),
                "{degrees}° {length}: {got}, not {expected}"
            );
            assert!(places.undecided.is_empty());
        }
    }
}

#[test]
fn a_column_takes_the_set_up_reflected_about_it() {
    // The room is so large that the column's region lies wholly inside of what is left of it.
    let mut arrangement = with(vec![cabinet("post", (20_000.0, 20_000.0), 100.0, 200.0)]);
    arrangement.bay.room = rectangle((0.0, 0.0), (40_000.0, 40_000.0));
    arrangement.aiming.zones.clear();
    arrangement.aiming.placements.clear();
    arrangement.aiming.mark_plan.clear();
    arrangement.stands.clear();
    let search = Search::new(&arrangement);
    let places = search.places(0.0);
    // Body and mirrors are higher than the floor and the post is 1000 high: it meets the body, 4250 by 1800, and the tyres in it;
    // mirrors lie at 1000 and higher or lower as they are.
    let held = (40_000.0 - 4_250.0) * (40_000.0 - 1_800.0);
    let held_with_mirrors = (40_000.0 - 4_250.0) * (40_000.0 - 2_000.0);
    let post = (4_250.0 + 100.0) * (1_800.0 + 200.0);
    let got = places.fits.area();
    assert!(
        [held, held_with_mirrors].iter().any(|held| (got - (held - post)).abs() < 1.0),
        "{got}, not {}",
        held - post
    );
    // Touching the nose is none of it, a hair more is.
    let nose = 20_000.0 - 50.0 - 850.0;
    assert_eq!(places.at(DVec2::new(nose - 0.1, 20_000.0)), Fit::Fits);
    assert_eq!(places.at(DVec2::new(nose + 0.1, 20_000.0)), Fit::Not);
}

/// In a room with a corner that juts in, places are those of the box less those where the set-up meets the corner.
#[test]
fn a_corner_that_juts_in_is_taken_away() {
    let mut arrangement = clear();
    let ring = [
        (0.0, 0.0),
        (14_000.0, 0.0),
        (14_000.0, 6_000.0),
        (6_000.0, 6_000.0),
        (6_000.0, 9_000.0),
        (0.0, 9_000.0),
    ];
    arrangement.bay.room = Polygon::simple(ring.map(DVec2::from).into()).unwrap();
    for id in ["fifth wall", "sixth wall"] {
        arrangement.bay.walls.push(Wall { id: id.into(), material: Material::Brick });
    }
    let places = Search::new(&arrangement).places(0.0);
    // The box is 14 000 by 9000; the car's tail is 900 to either side and the beam 1500, so what juts in at 6000, 6000 is met by
    // the beam or the nose wherever the axle stands less than so far before it and higher than 6000 less half a width.
    let own = |p: (f64, f64)| places.at(p.into());
    assert_eq!(own((3_500.0, 4_499.0)), Fit::Fits);
    assert_eq!(own((3_500.0, 4_501.0)), Fit::Not);
    assert_eq!(own((3_500.0, 7_400.0)), Fit::Not);
    assert_eq!(places.fits.shapes().len(), 1);
    // 14 000 - 9200 along, and 6000 - 3000 across.
    assert!((places.fits.area() - 4_800.0 * 3_000.0).abs() < 1.0, "{}", places.fits.area());
}

#[test]
fn what_is_so_everywhere_leaves_no_place() {
    let mut arrangement = clear();
    arrangement.bay.ceiling_mm = 1_400.0;
    let search = Search::new(&arrangement);
    assert!(search.everywhere().iter().any(|found| found.code() == Code::HeadRoom));
    let places = search.places(0.0);
    assert!(places.fits.is_empty() && places.undecided.is_empty());
}

/// What an open door lets through has more room than what it does not; where one of the two fits nowhere, nothing does.
#[test]
fn of_two_parts_with_rooms_of_their_own_both_must_fit() {
    let mut arrangement = clear();
    arrangement.aiming.zones.clear();
    // Target and stand, up to 800, pass under the lintel; the car does not. The stand's feet reach 5300 ahead.
    arrangement.bay.openings =
        vec![Opening { span: span(0.0, 1_200.0), ..open_door(0, 4_000.0, 4_000.0, 1_500.0) }];
    let search = Search::new(&arrangement);
    // Across the room: 6000 and 1500 of ground are 7500, the set-up is 3400 and 5300 long.
    assert!(search.places(angle::radians(-90.0)).fits.is_empty());
    assert!(search.places(angle::radians(-76.7)).fits.is_empty());
    arrangement.bay.openings[0].free_beyond_mm = 3_500.0;
    let places = Search::new(&arrangement).places(angle::radians(-90.0));
    // The nose, 850 ahead, stays inside and the tail too; the feet come as far as -3500 and go through the door, 600 wide.
    assert_eq!(places.at(DVec2::new(6_000.0, 2_000.0)), Fit::Fits);
    assert_eq!(places.at(DVec2::new(6_000.0, 1_700.0)), Fit::Not);
    assert_eq!(places.at(DVec2::new(9_000.0, 2_000.0)), Fit::Not);
}
