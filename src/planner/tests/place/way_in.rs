//! How the car comes to a spot: known figures of doors, and every way that is found driven again in small steps by code that shares
//! nothing with the search.
//!
//! The random halls are a sample of some seconds; `BAYWRIGHT_BAYS=500` asks for so many.

use std::f64::consts::{FRAC_PI_2, PI};

use baywright_planner::geometry::{DVec2, PlanPose, Polygon, angle};
use baywright_planner::way_in::{Driven, TooSmall, Turns, Way, ways};

use crate::dice::Dice;
use crate::support::*;

/// What a wheel goes over, mm: lower things are driven over.
const GOES_OVER_MM: f64 = 20.0;
/// Steps of the simulation, mm of the rear axle, and radians.
const STEP: (f64, f64) = (4.0, 0.002);

/// A hall 14 m by 9 m with a door 3 m wide in the middle of its near wall, at x = 0.
fn hall() -> Arrangement {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (14_000.0, 9_000.0));
    arrangement.bay.survey = None;
    arrangement.bay.openings = vec![open_door(3, 3_000.0, 3_000.0, 0.0)];
    arrangement.bay.things.clear();
    arrangement
}

fn pose(x: f64, y: f64, heading: f64) -> PlanPose {
    PlanPose::new(DVec2::new(x, y), heading)
}

fn way(arrangement: &Arrangement, to: PlanPose) -> Way {
    let mut done = 0;
    let found = ways(arrangement, &[to], &|| false, &mut |own| done = own);
    assert_eq!((found.to.len(), done), (1, 1));
    found.to[0].clone()
}

fn driven(arrangement: &Arrangement, to: PlanPose) -> Driven {
    let found = way(arrangement, to);
    let Way::Driven(own) = &found else { panic!("{found:?}") };
    holds(arrangement, own, to);
    (**own).clone()
}

fn roller() -> Subject {
    Subject::Opening("roller door".into())
}

/// Whether two convex outlines share some area, by the lines along their sides.
fn meet(a: &[DVec2], b: &[DVec2]) -> bool {
    let apart = |of: &[DVec2], other: &[DVec2]| {
        (0..of.len()).any(|i| {
            let (p, q) = (of[i], of[(i + 1) % of.len()]);
            let out = DVec2::new(q.y - p.y, p.x - q.x).normalize();
            other.iter().all(|r| (*r - p).dot(out) >= -1e-6)
        })
    };
    !apart(a, b) && !apart(b, a)
}

/// How far two outlines are apart that share nothing.
fn gap(a: &[DVec2], b: &[DVec2]) -> f64 {
    let to_side = |p: DVec2, from: DVec2, to: DVec2| {
        let along = to - from;
        let share = ((p - from).dot(along) / along.length_squared()).clamp(0.0, 1.0);
        p.distance(from + along * share)
    };
    let from_corners = |of: &[DVec2], other: &[DVec2]| {
        let sides = (0..other.len()).map(|i| (other[i], other[(i + 1) % other.len()]));
        let all = sides.flat_map(|(p, q)| of.iter().map(move |&r| to_side(r, p, q)).collect::<Vec<_>>());
        all.fold(f64::INFINITY, f64::min)
    };
    from_corners(a, b).min(from_corners(b, a))
}

/// Whether a stretch of wall runs through the inside of a convex outline.
fn runs_through(ring: &[DVec2], from: DVec2, to: DVec2) -> bool {
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for i in 0..ring.len() {
        let (p, q) = (ring[i], ring[(i + 1) % ring.len()]);
        let inward = DVec2::new(p.y - q.y, q.x - p.x).normalize();
        let (a, b) = ((from - p).dot(inward) - 1e-6, (to - p).dot(inward) - 1e-6);
        if a < 0.0 && b < 0.0 {
            return false;
        }
        if a < 0.0 {
            low = low.max(a / (a - b));
        } else if b < 0.0 {
            high = high.min(a / (a - b));
        }
    }
    low < high
}

/// Drives it in small steps: nothing is met, nothing is nearer than is told, and it ends where it should.
fn holds(arrangement: &Arrangement, own: &Driven, to: PlanPose) {
    let wheelbase = arrangement.vehicle.wheelbase_mm;
    let is_mirror = |solid: &&Prism| {
        let ring = solid.outline.as_polygon().outer().to_vec();
        solid.span.bottom() > 0.0 && (ring.iter().all(|p| p.y > 0.0) || ring.iter().all(|p| p.y < 0.0))
    };
    let solids: Vec<(Vec<DVec2>, Span)> = (arrangement.vehicle.solids().iter())
        .filter(|solid| !(own.mirrors_folded && is_mirror(solid)))
        .map(|solid| (solid.outline.as_polygon().outer().to_vec(), solid.span))
        .collect();
    let things: Vec<(Subject, Vec<Vec<DVec2>>, Span)> = (arrangement.bay.things.iter())
        .filter(|thing| !thing.is_person() && thing.span.top() > GOES_OVER_MM)
        .map(|thing| {
            let outline = thing.prism().outline;
            let rings = outline.as_polygon().pieces().map(<[DVec2]>::to_vec).collect();
            (Subject::Thing(thing.id.clone()), rings, thing.span)
        })
        .filter(|(of, ..)| !own.aside.contains(of))
        .collect();
    let mut walls: Vec<(DVec2, DVec2)> = Vec::new();
    for (nth, edge) in arrangement.bay.room.edges().enumerate() {
        let door = arrangement.bay.openings.iter().find(|door| door.wall == nth && door.id == own.door);
        match door {
            None => walls.push((edge.from, edge.to)),
            Some(door) => {
                let along = (edge.to - edge.from).normalize();
                let from = edge.from + along * door.from_mm;
                walls.push((edge.from, from));
                walls.push((from + along * door.width_mm, edge.to));
            }
        }
    }
    let mut nearest = f64::INFINITY;
    let mut at = |x: f64, y: f64, heading: f64| {
        let (sin, cos) = libm::sincos(heading);
        for (ring, heights) in &solids {
            let placed: Vec<DVec2> = ring
                .iter()
                .map(|p| {
                    let (along, left) = (p.x + wheelbase, p.y);
                    DVec2::new(x + along * cos - left * sin, y + along * sin + left * cos)
                })
                .collect();
            for (of, rings, span) in &things {
                if span.bottom() < heights.top() && span.top() > heights.bottom() {
                    for thing in rings {
                        assert!(!meet(&placed, thing), "meets {of:?} at {x} {y} {heading}");
                        nearest = nearest.min(gap(&placed, thing));
                    }
                }
            }
            for (from, to) in &walls {
                assert!(!runs_through(&placed, *from, *to), "through a wall at {x} {y} {heading}");
                nearest = nearest.min(gap(&placed, &[*from, *to]));
            }
        }
    };
    let (mut heading, (sin, cos)) = (own.from.heading(), libm::sincos(own.from.heading()));
    let (mut x, mut y) = (own.from.origin().x - wheelbase * cos, own.from.origin().y - wheelbase * sin);
    at(x, y, heading);
    for piece in &own.pieces {
        let count = (piece.length.abs() / STEP.0).max(piece.turn().abs() / STEP.1).ceil().max(1.0);
        let each = piece.length / count;
        for _ in 0..count as usize {
            // The chord of each small arc.
            let (sin, cos) = libm::sincos(heading + 0.5 * each * piece.curvature);
            let half = 0.5 * each * piece.curvature;
            let chord = if half.abs() > 1e-12 { each * libm::sin(half) / half } else { each };
            (x, y, heading) = (x + chord * cos, y + chord * sin, heading + each * piece.curvature);
            at(x, y, heading);
        }
    }
    let (sin, cos) = libm::sincos(heading);
    let end = DVec2::new(x + wheelbase * cos, y + wheelbase * sin);
    let turned = angle::wrapped(heading - to.heading()).abs();
    assert!(end.distance(to.origin()) < 2.0 && turned < 2e-3, "{end} {heading} is not {to:?}");
    let told = own.least.as_ref().map_or(f64::INFINITY, |own| own.mm);
    assert!(told <= nearest + 0.01, "{told} told, {nearest} met");
    // Walls are told as deep as walls are: a corner of one may be nearer than its inner line.
    assert!(told > 0.0 || nearest < 25.0, "{told} told, {nearest} met");
    let radius = own.pieces.iter().map(|piece| piece.curvature.abs()).fold(0.0, f64::max);
    let outer = 0.5 * Turns::of(arrangement).circle_mm;
    let track = arrangement.vehicle.track_front_mm + arrangement.vehicle.tyre_width_mm;
    assert!(radius <= 1.0 / ((outer * outer - wheelbase * wheelbase).sqrt() - 0.5 * track) + 1e-12);
    assert!(own.axle.len() > own.pieces.len() && own.swept.area() > 1e6);
}

/// Straight in by a door of 3 m: the car of 1.8 m has 600 mm on either side of it, and the door is what it comes nearest to.
#[test]
fn straight_in_by_the_only_door() {
    let hall = hall();
    let own = driven(&hall, pose(8_000.0, 4_500.0, 0.0));
    assert!(own.nose_first && own.changes == 0 && !own.is_opened && own.aside.is_empty());
    let least = own.least.unwrap();
    assert_eq!(least.to, roller());
    assert!((598.9..=600.0).contains(&least.mm), "{least:?}");
    // Its jambs are at y = 3000 and 6000.
    assert!((least.at.y - 3_000.0).abs().min((least.at.y - 6_000.0).abs()) < 0.01, "{least:?}");
    // The other way round it comes backwards.
    let back = driven(&hall, pose(8_000.0, 4_500.0, PI));
    assert!(!back.nose_first && back.changes == 0);
    // Across, it has to turn: 90° at full lock.
    let across = driven(&hall, pose(10_000.0, 5_500.0, FRAC_PI_2));
    assert!(across.pieces.iter().map(|piece| piece.turn().abs()).sum::<f64>() > 1.0);
}

/// Known figures: what is missing of a door is sure.
#[test]
fn a_door_that_is_too_small_by_a_known_figure() {
    let to = pose(8_000.0, 4_500.0, 0.0);
    let with = |width_mm: f64, heights: (f64, f64)| {
        let mut hall = hall();
        let door = open_door(3, 3_000.0, width_mm, 0.0);
        hall.bay.openings = vec![Opening { span: span(heights.0, heights.1), ..door }];
        hall
    };
    let lacks = |own: &Arrangement| match way(own, to) {
        Way::NoDoorLetsIn { door, of, mm, is_only } => (door.as_str().to_owned(), of, mm, is_only),
        other => panic!("{other:?}"),
    };
    let named = || "roller door".to_owned();
    assert_eq!(lacks(&with(1_680.0, (0.0, 2_500.0))), (named(), TooSmall::Narrow, 120.0, true));
    assert_eq!(lacks(&with(3_000.0, (0.0, 1_400.0))), (named(), TooSmall::Low, 100.0, true));
    assert_eq!(lacks(&with(3_000.0, (100.0, 2_500.0))), (named(), TooSmall::Sill, 80.0, true));
    let mut two = with(1_680.0, (0.0, 2_500.0));
    two.bay.openings.push(side_door());
    assert_eq!(lacks(&two), (named(), TooSmall::Narrow, 120.0, false));
    // Walls whose places are not known so well make nothing sure.
    let mut unsure = with(1_795.0, (0.0, 2_500.0));
    unsure.bay.walls_known = Known::Within(10.0);
    assert_eq!(way(&unsure, to), Way::Barred { door: "roller door".into(), by: Vec::new() });
    // A window is no door.
    let mut window = with(3_000.0, (0.0, 2_500.0));
    window.bay.openings[0].kind = OpeningKind::Window;
    assert_eq!(way(&window, to), Way::NoDoor);
    // Its mirrors reach over 2000 mm: by a door of 1950 it comes with them folded.
    let mut folded = with(1_950.0, (0.0, 2_500.0));
    folded.vehicle.make_solids();
    let own = driven(&folded, to);
    assert!(own.mirrors_folded);
    let mut wide = with(2_300.0, (0.0, 2_500.0));
    wide.vehicle.make_solids();
    assert!(!driven(&wide, to).mirrors_folded);
}

/// A shut door is opened for it, one that is kept shut while it is aimed too: by then the car stands there.
#[test]
fn a_shut_door_is_opened() {
    let to = pose(8_000.0, 4_500.0, 0.0);
    let mut shut = hall();
    shut.bay.openings[0].shut = true;
    assert!(driven(&shut, to).is_opened);
    shut.kept_shut = vec!["roller door".into()];
    assert!(driven(&shut, to).is_opened);
}

/// Between two columns just inside of the door the car cannot turn: it goes straight in, and has to be turned otherwise.
#[test]
fn columns_beside_the_door_leave_no_room_to_turn() {
    let mut narrow = hall();
    narrow.bay.room = rectangle((0.0, 0.0), (14_000.0, 5_000.0));
    // In the right wall, from x = 5000 to 7400.
    narrow.bay.openings = vec![open_door(0, 5_000.0, 2_400.0, 0.0)];
    let post = |x: f64, y: f64, name: &str| column(name, (x, y), 200.0);
    let rows = [(5_050.0, 1_500.0), (7_350.0, 1_500.0), (5_050.0, 3_400.0), (7_350.0, 3_400.0)];
    narrow.bay.things =
        rows.iter().zip(0..).map(|((x, y), nth)| post(*x, *y, &format!("post {nth}"))).collect();
    let to = pose(11_000.0, 2_500.0, 0.0);
    assert_eq!(way(&narrow, to), Way::Pushed { door: "roller door".into() });
    // A wall of shelves right behind the door leaves not even that.
    let mut barred = hall();
    let mut shelf = cabinet("shelf", (1_500.0, 4_500.0), 500.0, 8_900.0);
    shelf.effort = Effort::TwoPeople;
    barred.bay.things = vec![shelf];
    let by = vec![Subject::Thing("shelf".into())];
    assert_eq!(
        way(&barred, pose(9_000.0, 4_500.0, 0.0)),
        Way::Barred { door: "roller door".into(), by: by.clone() }
    );
    assert_eq!(way(&barred, pose(1_500.0, 4_500.0, 0.0)), Way::Taken { by });
}

/// In a slot as long as the car, closed at its end: nose first in, so that it leaves backwards; or backwards in.
#[test]
fn a_slot_that_is_left_as_it_was_entered() {
    let mut slot = hall();
    let side = |name: &str, y: f64| {
        let mut own = cabinet(name, (10_700.0, y), 5_600.0, 200.0);
        own.effort = Effort::TwoPeople;
        own
    };
    slot.bay.things = vec![side("left shelf", 5_700.0), side("right shelf", 3_300.0)];
    let own = driven(&slot, pose(12_500.0, 4_500.0, 0.0));
    assert!(own.nose_first && own.pieces.iter().all(|piece| piece.is_forwards()), "left backwards");
    let back = driven(&slot, pose(9_500.0, 4_500.0, PI));
    assert!(!back.nose_first && back.pieces.iter().all(|piece| !piece.is_forwards()), "left forwards");
}

/// What one person rolls aside is told, if it is in the way; people, mats, what hangs over the car and its own targets are not.
#[test]
fn what_is_in_the_way_and_what_is_not() {
    let to = pose(8_000.0, 4_500.0, 0.0);
    let mut hall = hall();
    hall.vehicle.make_solids();
    let mut trolley = cabinet("trolley", (2_500.0, 4_500.0), 500.0, 8_800.0);
    let mut bin = cabinet("bin", (1_000.0, 200.0), 300.0, 300.0);
    (trolley.effort, bin.effort) = (Effort::OnePerson, Effort::OnePerson);
    hall.bay.things = vec![trolley.clone(), bin];
    let own = driven(&hall, to);
    assert_eq!(own.aside, vec![Subject::Thing("trolley".into())]);
    // As it is locked, nobody rolls it.
    hall.bay.things[0].locked = true;
    assert!(matches!(way(&hall, to), Way::Barred { .. }));
    let over = |bottom: f64, top: f64, kind: ThingKind| {
        let mut own = trolley.clone();
        (own.effort, own.span, own.kind) = (Effort::Fixed, span(bottom, top), kind);
        own
    };
    for thing in [
        over(1_600.0, 2_000.0, ThingKind::Beam),
        over(0.0, 20.0, ThingKind::Other),
        over(0.0, 1_800.0, ThingKind::Person),
    ] {
        hall.bay.things = vec![thing];
        assert!(driven(&hall, to).aside.is_empty());
    }
    hall.bay.things = vec![over(1_400.0, 2_000.0, ThingKind::Beam)];
    assert!(!matches!(way(&hall, to), Way::Driven(_)));
    // A pit between its wheels it drives over astride; one that is as wide as the hall it does not. A kerb under its body neither.
    hall.bay.things.clear();
    let feature = |kind: FloorFeatureKind, y: (f64, f64), proud_mm: f64| FloorFeature {
        id: "pit".into(),
        kind,
        outline: rectangle((2_000.0, y.0), (5_000.0, y.1)),
        material: Material::Concrete,
        proud_mm,
    };
    hall.bay.floor_features = vec![feature(FloorFeatureKind::Pit, (4_200.0, 4_800.0), 0.0)];
    assert!(driven(&hall, to).changes == 0);
    hall.bay.floor_features = vec![feature(FloorFeatureKind::Pit, (0.0, 9_000.0), 0.0)];
    assert!(!matches!(way(&hall, to), Way::Driven(_)));
    hall.bay.floor_features = vec![feature(FloorFeatureKind::Drain, (0.0, 9_000.0), 0.0)];
    assert!(driven(&hall, to).changes == 0);
}

/// The figure of this car counts where it is entered, else the class's.
#[test]
fn the_turning_circle_is_this_cars_or_assumed() {
    let mut hall = hall();
    assert!(Turns::of(&hall).is_assumed);
    // 2 · 2600 / sin 29° = 10 726, to the tenth of a metre above.
    assert_eq!(Turns::of(&hall).circle_mm, 10_800.0);
    hall.on_this_car.turning_circle_mm = Some(12_300.0);
    assert_eq!(Turns::of(&hall), Turns { circle_mm: 12_300.0, is_assumed: false });
}

#[test]
fn it_is_stopped() {
    let hall = hall();
    let found = ways(&hall, &[pose(10_000.0, 5_500.0, FRAC_PI_2)], &|| true, &mut |_| {});
    assert!(matches!(found.to[0], Way::Stopped | Way::Driven(_)), "{found:?}");
}

/// In random halls every way that is found is driven again in small steps.
#[test]
fn ways_in_random_halls_meet_nothing() {
    let all = std::env::var("BAYWRIGHT_BAYS").ok().and_then(|own| own.parse().ok()).unwrap_or(14);
    let mut dice = Dice(29);
    let mut found = 0;
    for _ in 0..all {
        let mut hall = clear();
        hall.vehicle.make_solids();
        hall.bay.survey = None;
        let (x, y) = (dice.within(11_000.0, 16_000.0).round(), dice.within(7_000.0, 11_000.0).round());
        // With an inner corner, sometimes.
        let ring = match dice.share() < 0.4 {
            true => vec![(0., 0.), (x, 0.), (x, y), (x * 0.3, y), (x * 0.3, y * 0.8), (0., y * 0.8)],
            false => vec![(0., 0.), (x, 0.), (x, y), (0., y)],
        };
        let count = ring.len();
        hall.bay.room = Polygon::simple(ring.into_iter().map(DVec2::from).collect()).unwrap();
        let wall = |nth: usize| Wall { id: format!("wall {nth}").into(), material: Material::Brick };
        hall.bay.walls = (0..count).map(wall).collect();
        let width = dice.within(2_200.0, 3_600.0);
        hall.bay.openings = vec![open_door(0, dice.within(500.0, x - 4_500.0), width, 0.0)];
        for nth in 0..8 {
            let size = (dice.within(200.0, 1_400.0), dice.within(200.0, 700.0));
            let mut own = cabinet(
                &format!("thing {nth}"),
                (dice.within(0.0, x), dice.within(2_500.0, y)),
                size.0,
                size.1,
            );
            own.place.at = PlanPose::new(own.place.at.origin(), dice.within(0.0, PI));
            let low = [0.0, 0.0, 0.0, 900.0, 1_200.0][(dice.share() * 5.0) as usize];
            own.span = span(low, low + dice.within(60.0, 1_500.0));
            own.effort = if dice.share() < 0.3 { Effort::OnePerson } else { Effort::TwoPeople };
            hall.bay.things.push(own);
        }
        let heading = FRAC_PI_2 * (dice.share() * 4.0).floor() + dice.within(-0.05, 0.05);
        let to = pose(dice.within(4_000.0, x - 4_000.0), dice.within(3_000.0, y - 2_000.0), heading);
        if let Way::Driven(own) = way(&hall, to) {
            holds(&hall, &own, to);
            found += 1;
        }
    }
    assert!(found * 4 >= all, "found in {found} of {all} halls");
}
