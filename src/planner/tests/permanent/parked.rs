//! Where cars are parked: fewest, and never stopped while lines and cars are as far off as is told.

use baywright_planner::matrix::Line;
use baywright_planner::permanent::{How, PointOf, Proposal};

use crate::closed::{in_room, of};
use crate::geometry::PlanPose;
use crate::made::{line, stands, two};
use crate::support::*;

/// A line whose car's front axle may lie from one place along a room of 20 m to another.
fn between(from: f64, to: f64, weight: f64) -> Line {
    let [_, mut own] = two().map(|own| in_room(own, (20_000.0, 4_000.0)));
    let mut ahead = own.aiming.zones[0].clone();
    ahead.id = "ahead".into();
    ahead.outline = rectangle((900.0, -1_500.0), (20_000.0 - to, 1_500.0)).into();
    own.aiming.zones[0].outline = rectangle((-from, -1_500.0), (-3_500.0, 1_500.0)).into();
    own.aiming.zones.push(ahead);
    Line { weight, ..line(own) }
}

/// Two that come often go together, and then the two others need a place each; parted otherwise two places are enough.
#[test]
fn the_weightiest_first_is_not_always_fewest() {
    let lines = [
        between(4_000.0, 11_000.0, 3.0),
        between(10_000.0, 17_000.0, 3.0),
        between(4_000.0, 6_000.0, 1.0),
        between(15_000.0, 17_000.0, 1.0),
    ];
    let told = of(&lines).parked;
    assert_eq!((told.places.len(), told.how), (2, How::Fewest), "{told:?}");
    let mut sets: Vec<Vec<usize>> =
        told.places.iter().map(|own| own.serves.iter().map(|own| own.0).collect()).collect();
    sets.sort();
    assert_eq!(sets, [[0, 2], [1, 3]]);
    // Of more than are looked at in all ways it is said how it was found.
    let many: Vec<Line> = lines.iter().cloned().cycle().take(13).collect();
    let told = of(&many).parked;
    assert_eq!((told.places.len(), told.how), (3, How::Greedy));
}

/// What comes in most often is the first place, and told first at it; whatever the weights, nobody is left out, and a weight of nought
/// is served too.
#[test]
fn the_place_that_is_used_most_comes_first() {
    let lines = |weights: [f64; 3]| {
        let [seldom, often, other] = weights;
        [
            between(4_000.0, 6_000.0, seldom),
            between(15_000.0, 17_000.0, often),
            between(14_000.0, 16_000.0, other),
        ]
    };
    for (weights, first, used) in [
        ([1.0, 1.0, 1.0], vec![1, 2], [2.0, 1.0]),
        ([9.0, 1.5, 6.0], vec![0], [9.0, 7.5]),
        ([2.0, 1.5, 6.0], vec![2, 1], [7.5, 2.0]),
        ([0.0, 0.0, 3.0], vec![2, 1], [3.0, 0.0]),
        ([0.5, 0.0, 0.0], vec![0], [0.5, 0.0]),
    ] {
        let own = lines(weights);
        let told = of(&own).parked;
        assert!(told.without.is_empty() && told.how == How::Fewest, "{weights:?}: {told:?}");
        assert_eq!(told.places[0].most_often_first(&own), first, "{weights:?}");
        let a_month: Vec<f64> = told.places.iter().map(|own_place| own_place.a_month(&own)).collect();
        assert_eq!(a_month, used, "{weights:?}");
    }
}

/// A pose from the lines as they were laid: where they cross, looking from the end behind to the end ahead.
fn crossing([back, ahead]: [DVec2; 2], [left, right]: [DVec2; 2]) -> PlanPose {
    let (way, across) = (ahead - back, right - left);
    let on = (left - back).perp_dot(across) / way.perp_dot(across);
    PlanPose::new(back + way * on, way.y.atan2(way.x))
}

/// Each end of each line laid as far off as it may be, any way, and the car on them as far off as the shop parks one: nothing stops.
#[test]
fn at_the_edge_of_what_is_told_nothing_stops() {
    let wide = [(14_000.0, 6_000.0), (10_500.0, 4_600.0), (12_500.0, 5_600.0), (9_900.0, 3_700.0)];
    // Where it is the room that decides how well lines are laid.
    let narrow = (0..14).map(|nth| (14_000.0, 3_440.0 + 12.0 * f64::from(nth)));
    let (mut asked, mut finer) = (0, 0);
    for size in wide.into_iter().chain(narrow) {
        let [ahead, back] = two();
        let mut broad = back.clone();
        broad.aiming.zones[0].outline = rectangle((-5_000.0, -1_700.0), (-3_500.0, 1_700.0)).into();
        let all = [ahead, back, broad].map(|own| {
            let mut own = in_room(own, size);
            own.bay.things.push(column("column", (size.0 * 0.75, 500.0), 300.0));
            line(own)
        });
        let Proposal { parked, floor } = of(&all);
        let margin = all[0].arrangement.shop.parked_within(ParkedKnown::Planned);
        for (nth, place) in parked.places.iter().enumerate() {
            let end = |of: PointOf| floor.points.iter().find(|own| own.place == nth && own.of == of);
            let (Some(rear), Some(front)) =
                (end(PointOf::LineEnd { is_ahead: false }), end(PointOf::LineEnd { is_ahead: true }))
            else {
                continue;
            };
            let left = end(PointOf::AxleEnd { is_left: true }).unwrap();
            let right = end(PointOf::AxleEnd { is_left: false }).unwrap();
            asked += place.serves.len();
            finer += usize::from(front.within_mm < 10.0);
            // A hair inside: places on an edge are either's.
            let off = |by: &crate::permanent::Point, way: DVec2| by.at + way * (by.within_mm - 1e-3);
            let [x, y] = [place.pose.forward(), place.pose.left()];
            let ways = [y, -y, x, -x, (x + y).normalize(), (x - y).normalize()];
            for (a, b) in ways.iter().flat_map(|a| ways.iter().map(move |b| (*a, *b))) {
                for (along, turn) in [(x, 1.0), (-x, -1.0), (y, -1.0), (-y, 1.0)] {
                    let lines =
                        crossing([off(rear, a), off(front, b)], [off(left, along), off(right, along)]);
                    // As it is parked on them.
                    let parked =
                        [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)].map(|(ahead, aside)| {
                            let by = lines.forward() * (ahead * margin.0) + lines.left() * (aside * margin.0);
                            PlanPose::new(
                                lines.origin() + by,
                                angle::wrapped(lines.heading() + turn * margin.1),
                            )
                        });
                    for pose in parked {
                        for (line, _) in &place.serves {
                            assert!(stands(&all[*line].arrangement, pose), "{size:?} {nth} {line}: {pose:?}");
                        }
                    }
                }
            }
        }
    }
    assert!(asked > 20 && finer > 2, "{asked} {finer}");
}
