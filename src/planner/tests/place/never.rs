//! That it fits nowhere: closed forms, random bays against the checks, and proofs that were tampered with.

use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::never::{Area, Cell, MARGIN_UM, MOST_CELLS, Proof, ROUND_UDEG, Refused, Solid, check};
use baywright_planner::place::never::{Given, Never, Stays, is_of, never, short};
use baywright_planner::place::{Search, stood};

use crate::dice::Dice;
use crate::random::bay;
use crate::support::*;

/// One solid of the set-up, from so far behind the origin, in a room of four walls; heights are all one.
fn room(length: f64, width: f64, size: (f64, f64)) -> Given {
    let whole = |mm: f64| (mm * 1e3).round() as i64;
    let block = |of: &str, low: (f64, f64), high: (f64, f64)| {
        let ([x, y], [u, v]) = ([low.0, low.1].map(whole), [high.0, high.1].map(whole));
        let ring = vec![[x, y], [u, y], [u, v], [x, v]];
        Solid { of: of.to_owned(), ring, heights: [0, whole(1_000.0)] }
    };
    let far = 1e6;
    let wall = |id: &str, low, high| (Subject::Wall(id.into()), block(id, low, high));
    Given {
        set_up: vec![(Subject::Car, block("car", (-800.0, -size.1 / 2.0), (size.0 - 800.0, size.1 / 2.0)))],
        stands: vec![
            wall("left", (-far, -far), (0.0, far)),
            wall("right", (width, -far), (far, far)),
            wall("near", (-far, -far), (far, 0.0)),
            wall("far", (-far, length), (far, far)),
        ],
        room: Area { x: [0, whole(width)], y: [0, whole(length)] },
    }
}

fn proven(given: &Given) -> Option<Proof> {
    match never(given, MOST_CELLS, &|| false, &mut |_| {}) {
        Never::Proven(proof) => Some(*proof),
        _ => None,
    }
}

/// A car of 4200 by 1745 mm and rooms in which it lies along no wall, nor across: turned by a it takes 4200 cos a + 1745 sin a
/// one way, which is less than 4200 only from 45.1° on, where it takes more than that the other way.
#[test]
fn a_car_that_is_longer_than_the_room_is_proven_and_one_that_fits_is_not() {
    for (length, width) in [(4_000.0, 4_000.0), (4_150.0, 4_000.0), (20_000.0, 1_600.0), (4_190.0, 3_000.0)] {
        let given = room(length, width, (4_200.0, 1_745.0));
        let proof = proven(&given).unwrap_or_else(|| panic!("{length} by {width}"));
        assert_eq!(check(&proof), Ok(()), "{length} by {width}");
        assert_eq!(is_of(&proof, &given), Ok(()));
        println!("{length} by {width}: {} cells", proof.cells.len());
    }
    for (length, width) in [(4_210.0, 1_755.0), (4_210.0, 4_210.0), (1_755.0, 4_210.0)] {
        let found = never(&room(length, width, (4_200.0, 1_745.0)), MOST_CELLS, &|| false, &mut |_| {});
        assert!(!matches!(found, Never::Proven(_)), "{length} by {width}");
    }
    let free = never(&room(4_400.0, 2_000.0, (4_200.0, 1_745.0)), MOST_CELLS, &|| false, &mut |_| {});
    assert!(matches!(free, Never::Free(_)), "{free:?}");
}

/// Few cells are none, and a stop is one.
#[test]
fn what_is_cut_short_claims_nothing() {
    let given = room(4_000.0, 4_000.0, (4_200.0, 1_745.0));
    assert_eq!(never(&given, 20, &|| false, &mut |_| {}), Never::NotProven);
    assert_eq!(never(&given, MOST_CELLS, &|| true, &mut |_| {}), Never::Stopped);
}

/// 145 mm are missing across a passage of 1600 mm for a car of 1745 mm that is too long to lie across.
#[test]
fn how_much_is_missing_between_two_walls() {
    let mut given = room(4_000.0, 9_000.0, (4_200.0, 3_950.0));
    // Along a passage of 4000 mm a body of 3950 mm fits.
    assert!(proven(&given).is_none());
    given = room(1_600.0, 9_000.0, (4_200.0, 1_745.0));
    let proof = proven(&given).unwrap();
    let told = short(&given, &proof, &|| false).expect("two walls decide it");
    println!("{told:?}");
    assert!((143.5..=145.0).contains(&told.at_least_mm), "{told:?}");
    assert!(told.enough_mm.is_some_and(|own| own >= 145.0 && own - told.at_least_mm < 2.0), "{told:?}");
    let ends = ["near", "far"].map(|id| Subject::Wall(id.into()));
    assert!(told.between.iter().all(|own| ends.contains(own)) && told.between[0] != told.between[1]);
    // Drawn from the face of the wall that gives way, out of the room, as long as what is missing.
    let [from, to] = told.line;
    let (face, out) = if told.between[1] == ends[0] { (0.0, -1.0) } else { (1_600.0, 1.0) };
    assert!((from.y - face).abs() < 1.0 && (0.0..=9_000.0).contains(&from.x), "{told:?}");
    assert!((to - from).distance(DVec2::new(0.0, out * told.at_least_mm)) < 1.0, "{told:?}");
}

/// Bays in which there is little room, so that some are proven.
fn tight(seed: u64) -> Arrangement {
    let mut own = bay(seed);
    let mut dice = Dice(seed ^ 0x5151);
    // A sound room shrunk is a sound room.
    let share = dice.within(0.35, 1.0);
    let ring = own.bay.room.outer().iter().map(|&p| p * share).collect();
    own.bay.room = Polygon::simple(ring).unwrap();
    let ends = own.bay.room.edges().map(|edge| edge.length()).collect::<Vec<f64>>();
    own.bay.openings.retain(|own| ends[own.wall] > own.from_mm + own.width_mm + 1.0);
    for thing in &mut own.bay.things {
        thing.place.at = PlanPose::new(thing.place.at.origin() * share, thing.place.at.heading());
        if dice.often(0.6) {
            thing.effort = Effort::Fixed;
        }
    }
    own
}

/// What is proven is so by the checks themselves, at poses all over and at those where little is missing; and what was told to be
/// free has no solid in another.
#[test]
fn what_is_proven_stops_at_every_pose_that_is_asked() {
    let count = std::env::var("BAYWRIGHT_BAYS").ok().and_then(|own| own.parse().ok()).unwrap_or(24);
    let (mut all, mut free) = (0, 0);
    for seed in 0..count {
        let arrangement = tight(seed);
        let mut dice = Dice(seed + 991);
        for stays in [Stays::Fixed, Stays::All] {
            let given = Given::of(&arrangement, stays);
            match never(&given, MOST_CELLS, &|| false, &mut |_| {}) {
                Never::Proven(proof) => {
                    assert_eq!(check(&proof), Ok(()), "seed {seed}");
                    all += 1;
                    let mut smallest: Vec<&Cell> = proof.cells.iter().collect();
                    let size =
                        |own: &Cell| own.places.x[1] - own.places.x[0] + own.places.y[1] - own.places.y[0];
                    smallest.sort_by_key(|own| size(own));
                    let own = smallest.iter().take(30).map(|own| pose(&mut dice, own)).collect::<Vec<_>>();
                    let whole = Cell { places: proof.places, headings: [0, ROUND_UDEG], part: 0, against: 0 };
                    let any = (0..50).map(|_| pose(&mut dice, &whole)).collect::<Vec<_>>();
                    for pose in own.into_iter().chain(any) {
                        let judged = judge(&stood(&arrangement, pose));
                        assert!(judged.count(Severity::Stops) > 0, "seed {seed}: {pose:?}");
                    }
                }
                Never::Free(pose) if stays == Stays::All => {
                    free += 1;
                    // No solid meets a thing or a wall there.
                    let judged = judge(&stood(&arrangement, pose));
                    let clash = judged.findings.iter().find(|own| {
                        matches!(own.code(), Code::CarClash | Code::StandClash)
                            && own.severity == Severity::Stops
                            && own.subjects.iter().any(|of| matches!(of, Subject::Thing(_)))
                            && own.measured.is_some_and(|own| number(own) > 1.0)
                    });
                    // What is round is taken from within.
                    let is_round = |own: &Thing| matches!(own.footprint.shape(), Shape::Round { .. });
                    let may_be = arrangement.bay.things.iter().any(is_round);
                    assert!(clash.is_none() || may_be, "seed {seed}: {clash:?}");
                }
                _ => {}
            }
        }
    }
    println!("{all} proven, {free} free");
    assert!(all >= 5 && free >= 3, "{all} proven, {free} free: too few");
}

/// Slow and plain: a place and heading of a grid at which no solid meets what stands, and which is surely so.
fn by_brute_force(given: &Given, step_mm: f64, turns: usize) -> Option<PlanPose> {
    let (set_up, stands) = given.solids();
    let pairs: Vec<(&Solid, &Solid)> =
        set_up.iter().flat_map(|part| stands.iter().map(move |own| (part, own))).collect();
    let along = |[from, to]: [i64; 2]| {
        let (from, to) = (from as f64 * 1e-3 - 800.0, to as f64 * 1e-3 + 800.0);
        (0..).map(move |nth| from + f64::from(nth) * step_mm).take_while(move |at| *at < to)
    };
    let mut last = 0;
    for turn in 0..turns {
        let heading = std::f64::consts::TAU * turn as f64 / turns as f64;
        for x in along(given.room.x) {
            for y in along(given.room.y) {
                let pose =
                    PlanPose::new(DVec2::new(x, y), baywright_planner::geometry::angle::wrapped(heading));
                let meets = |nth: &usize| overlap(pairs[*nth].0, pairs[*nth].1, &pose);
                // Beside it the same mostly bars.
                match std::iter::once(last).chain(0..pairs.len()).find(meets) {
                    Some(nth) => last = nth,
                    None => return Some(pose),
                }
            }
        }
    }
    None
}

/// Of bays in which brute force finds no place, nearly all are proven; where it finds one nothing is proven; what is told to be
/// free is; and where something is proven the search for spots finds none.
#[test]
fn what_brute_force_finds_no_place_in_is_proven_and_nothing_else() {
    let count = std::env::var("BAYWRIGHT_BAYS").ok().and_then(|own| own.parse().ok()).unwrap_or(30);
    let [mut proven, mut open, mut tight_fits, mut with_place] = [0; 4];
    let mut most_cells = 0;
    for seed in 500..500 + count {
        let arrangement = tight(seed);
        for stays in [Stays::Fixed, Stays::All] {
            let given = Given::of(&arrangement, stays);
            let place = by_brute_force(&given, 220.0, 40);
            match (never(&given, MOST_CELLS, &|| false, &mut |_| {}), place) {
                (Never::Proven(proof), None) => {
                    assert_eq!(check(&proof), Ok(()), "seed {seed}");
                    (proven, most_cells) = (proven + 1, most_cells.max(proof.cells.len()));
                    let search = Search::new(&arrangement);
                    for turn in 0..8 {
                        let heading = f64::from(turn) * std::f64::consts::FRAC_PI_4 - 3.0;
                        assert!(search.places(heading).fits.is_empty(), "seed {seed}, {heading}");
                    }
                }
                (Never::Proven(_), Some(pose)) => panic!("seed {seed}: it fits at {pose:?}"),
                (Never::Free(pose), place) => {
                    let (set_up, stands) = given.solids();
                    let is_met = |own: &Solid| stands.iter().any(|other| is_deep(own, other, &pose));
                    assert!(!set_up.iter().any(is_met), "seed {seed}: {pose:?}");
                    *(if place.is_some() { &mut with_place } else { &mut tight_fits }) += 1;
                }
                (Never::NotProven, None) => open += 1,
                (Never::NotProven, Some(_)) => with_place += 1,
                (Never::Stopped, _) => panic!("nobody stopped it"),
            }
        }
    }
    println!(
        "{proven} proven of {most_cells} cells at most, {open} not; {tight_fits} fit closely, {with_place} fit"
    );
    assert!(proven * 20 >= (proven + open) * 19, "{proven} proven, {open} not");
    assert!(proven >= 5 && with_place >= 5);
}

/// Whether they are in one another by more than what the search lets pass: neither alone nor a little aside they are apart.
fn is_deep(part: &Solid, stands: &Solid, pose: &PlanPose) -> bool {
    let aside = [(0.0, 0.0), (0.3, 0.0), (-0.3, 0.0), (0.0, 0.3), (0.0, -0.3)].map(DVec2::from);
    aside.iter().all(|&by| overlap(part, stands, &pose.shifted(by)))
}

fn pose(dice: &mut Dice, of: &Cell) -> PlanPose {
    let within = |dice: &mut Dice, [from, to]: [i64; 2]| dice.within(from as f64, to as f64);
    let at = DVec2::new(within(dice, of.places.x), within(dice, of.places.y)) * 1e-3;
    let heading = baywright_planner::geometry::angle::radians(within(dice, of.headings) * 1e-6);
    PlanPose::new(at, baywright_planner::geometry::angle::wrapped(heading))
}

/// Slow and plain: whether two convex outlines overlap at a pose, by clipping the one by the other.
fn overlap(part: &Solid, stands: &Solid, pose: &PlanPose) -> bool {
    if part.heights[0] >= stands.heights[1] || stands.heights[0] >= part.heights[1] {
        return false;
    }
    let ring = |own: &Solid| -> Vec<DVec2> {
        own.ring.iter().map(|p| DVec2::new(p[0] as f64, p[1] as f64) * 1e-3).collect()
    };
    let mut left: Vec<DVec2> = ring(part).into_iter().map(|p| *pose * p).collect();
    let other = ring(stands);
    for (nth, &from) in other.iter().enumerate() {
        let way = other[(nth + 1) % other.len()] - from;
        let side = |p: DVec2| way.perp_dot(p - from);
        let mut kept = Vec::new();
        for (at, &p) in left.iter().enumerate() {
            let q = left[(at + 1) % left.len()];
            let (a, b) = (side(p), side(q));
            if a >= 0.0 {
                kept.push(p);
            }
            if a * b < 0.0 {
                kept.push(p.lerp(q, a / (a - b)));
            }
        }
        left = kept;
    }
    left.len() >= 3
}

/// Whether a proof, as it stands, is true as far as many samples tell: each place and heading is in a cell whose pair meets there.
fn is_refuted(proof: &Proof, dice: &mut Dice) -> bool {
    let all = Cell { places: proof.places, headings: [0, ROUND_UDEG], part: 0, against: 0 };
    let holds = |own: &Cell, x: f64, y: f64, turn: f64| {
        let is_in = |[from, to]: [i64; 2], at: f64| from as f64 <= at && at <= to as f64;
        is_in(own.places.x, x) && is_in(own.places.y, y) && is_in(own.headings, turn)
    };
    let by_cells = proof.cells.iter().any(|own| {
        let (part, stands) = (proof.set_up.get(own.part), proof.stands.get(own.against));
        let Some((part, stands)) = part.zip(stands) else { return true };
        (0..4).any(|_| !overlap(part, stands, &pose(dice, own)))
    });
    by_cells
        || (0..600).any(|_| {
            let [x, y, turn] = [all.places.x, all.places.y, all.headings]
                .map(|[from, to]| dice.within(from as f64, to as f64));
            !proof.cells.iter().any(|own| holds(own, x, y, turn))
        })
}

/// A proof that is tampered with, at random: what is then untrue as samples show is refused, and so is each that uncovers a place
/// or names what does not bar.
#[test]
fn what_was_tampered_with_is_refused() {
    let plain = proven(&room(4_000.0, 4_050.0, (4_200.0, 1_745.0))).unwrap();
    // Of many parts, among many things.
    let crowded = (0..20).filter_map(|seed| proven(&Given::of(&tight(seed), Stays::All)));
    let crowded = crowded.filter(|own| own.set_up.len() > 2 && own.stands.len() > 12).take(2);
    let all: Vec<Proof> = std::iter::once(plain).chain(crowded).collect();
    assert!(all.len() == 3 && all.iter().all(|own| check(own) == Ok(())));
    let mut dice = Dice(20_26);
    let (mut refused, mut passed) = (0, 0);
    for turn in 0..1_200 {
        let is_plain = turn % 2 == 0;
        let mut own = all[if is_plain { 0 } else { 1 + turn / 2 % 2 }].clone();
        let nth = (dice.share() * own.cells.len() as f64) as usize;
        let by = dice.one(&[1, 40, 1_000, 250_000, 3_000_000]);
        let kind = turn / 2 % 19;
        let must_fail = match kind {
            // Left out: every cell is needed, for none covers another's inside.
            0 => {
                own.cells.remove(nth);
                true
            }
            // Smaller along one way: a gap, be it a micrometre.
            1 => {
                own.cells[nth].places.x[0] += by;
                true
            }
            2 => {
                own.cells[nth].places.y[1] -= by;
                true
            }
            3 => {
                own.cells[nth].headings[1] -= by;
                true
            }
            // Elsewhere.
            4 => {
                let cell = &mut own.cells[nth].places;
                (cell.x[0], cell.x[1]) = (cell.x[0] + by, cell.x[1] + by);
                true
            }
            // Larger: it may still be barred.
            5 => {
                own.cells[nth].places.x[1] += by;
                false
            }
            6 => {
                own.cells[nth].headings[0] -= by;
                false
            }
            // Another blocker: it may bar as well.
            7 => {
                own.cells[nth].against = (own.cells[nth].against + 1) % own.stands.len();
                false
            }
            8 => {
                own.cells[nth].against = own.stands.len();
                true
            }
            // The solids themselves: a smaller car, a wall farther away, one at another height, one that is bent in.
            9 => {
                own.set_up[0].ring.iter_mut().for_each(|p| *p = p.map(|at| at * 9 / 10));
                is_plain
            }
            10 => {
                own.stands[1].ring.iter_mut().for_each(|p| p[0] += 400_000);
                is_plain
            }
            11 => {
                let cell = own.cells[nth];
                own.stands[cell.against].heights = [90_000_000, 91_000_000];
                true
            }
            12 => {
                own.stands[3].ring.swap(1, 2);
                true
            }
            // Larger solids bar more, which is no proof of the layout, but one by itself.
            13 => {
                own.stands[1].ring.iter_mut().for_each(|p| *p = p.map(|at| at * 11 / 10));
                false
            }
            // The heading's range cut in two, the room's box made larger, another part, blockers' places exchanged.
            14 => {
                let [from, to] = own.cells[nth].headings;
                own.cells[nth].headings = [from + (to - from) / 2, to];
                true
            }
            15 => {
                own.room.y[1] += by + 2_000;
                true
            }
            16 => {
                own.cells[nth].part = (own.cells[nth].part + 1) % own.set_up.len();
                false
            }
            17 => {
                own.stands.swap(0, 1);
                false
            }
            // A box that leaves out places in the room.
            _ => {
                own.places.x[0] += by;
                by > 2_000
            }
        };
        match check(&own) {
            Err(_) => refused += 1,
            Ok(()) => {
                passed += 1;
                assert!(!must_fail, "kind {kind}, cell {nth}, by {by}");
                assert!(!is_refuted(&own, &mut dice), "kind {kind}, cell {nth}, by {by}");
            }
        }
    }
    println!("{refused} refused, {passed} passed");
    assert!(refused > 600 && passed > 10);
}

/// What is no proof at all.
#[test]
fn what_is_no_proof_is_refused() {
    assert_eq!(check(&Proof::default()), Err(Refused::Places));
    let given = room(4_000.0, 4_000.0, (4_200.0, 1_745.0));
    let whole = proven(&given).unwrap();
    let with = |change: &dyn Fn(&mut Proof)| {
        let mut own = whole.clone();
        change(&mut own);
        check(&own)
    };
    assert!(matches!(with(&|own| own.cells.clear()), Err(Refused::Uncovered(_))));
    assert_eq!(with(&|own| own.set_up.clear()), Err(Refused::Places));
    assert_eq!(with(&|own| own.set_up[0].ring.reverse()), Err(Refused::Part(0)));
    assert_eq!(with(&|own| own.stands[0].ring.truncate(2)), Err(Refused::Stands(0)));
    assert_eq!(with(&|own| own.stands[0].ring[0] = [i64::MIN, i64::MAX]), Err(Refused::Stands(0)));
    assert_eq!(with(&|own| own.stands[1].heights = [5, 5]), Err(Refused::Stands(1)));
    assert_eq!(with(&|own| own.cells[0].headings = [-1, 90]), Err(Refused::NoCell(0)));
    assert_eq!(with(&|own| own.cells[0].places.x = [i64::MIN, i64::MAX]), Err(Refused::NoCell(0)));
    assert_eq!(with(&|own| own.places.x = [i64::MIN, i64::MAX]), Err(Refused::Places));
    assert_eq!(with(&|own| own.room.x[1] += 500_000), Err(Refused::Places));
    assert_eq!(with(&|own| own.cells = vec![own.cells[0]; MOST_CELLS + 1]), Err(Refused::TooMany));
    // Corners of a star are no convex ring.
    let star: Vec<[i64; 2]> =
        [[0, 10], [-6, -8], [9, 3], [-9, 3], [6, -8]].map(|p: [i64; 2]| p.map(|at| at * 1_000)).into();
    assert_eq!(with(&|own| own.set_up[0].ring = star.clone()), Err(Refused::Part(0)));
}

/// A pair that meets by exactly the margin bars, by less it does not: one heading's worth of a square beside a wall.
#[test]
fn the_margin_is_the_margin() {
    let meets_by = |by: i64| {
        let square = |low: i64, high: i64| vec![[low, low], [high, low], [high, high], [low, high]];
        let solid = |ring| Solid { of: String::new(), ring, heights: [0, 1_000] };
        let wall =
            vec![[-10_000_000, -10_000_000], [0, -10_000_000], [0, 10_000_000], [-10_000_000, 10_000_000]];
        // The square's left side lies `by` past the wall's face wherever in the cell it stands.
        let cell = Cell {
            places: Area { x: [100_000 - by - 1, 100_000 - by], y: [-5, 5] },
            headings: [0, 1],
            part: 0,
            against: 0,
        };
        let proof = Proof {
            set_up: vec![solid(square(-100_000, 100_000))],
            stands: vec![solid(wall)],
            room: Area { x: [-1, 1], y: [-1, 1] },
            places: Area { x: [-900_000, 900_000], y: [-900_000, 900_000] },
            cells: vec![cell],
        };
        check(&proof)
    };
    assert!(matches!(meets_by(MARGIN_UM + 1), Err(Refused::Uncovered(_))));
    assert_eq!(meets_by(MARGIN_UM - 1), Err(Refused::NotBarred(0)));
}

/// It is of the layout that it was made of, and of no other.
#[test]
fn a_proof_is_of_its_layout() {
    let mut arrangement = clear();
    // Shorter than the car with its stand, even from corner to corner.
    let (length, width) = (4_800.0, 3_600.0);
    arrangement.bay.room = rectangle((0.0, 0.0), (length, width));
    let given = Given::of(&arrangement, Stays::Fixed);
    let corners = given.set_up.iter().flat_map(|own| own.1.ring.iter().map(|p| p[0] as f64 * 1e-3));
    let (back, front) = corners.fold((f64::MAX, f64::MIN), |own, at| (own.0.min(at), own.1.max(at)));
    assert!(front - back > length.hypot(width), "{back} to {front}");
    let proof = proven(&given).expect("it is longer than the room");
    assert_eq!(check(&proof), Ok(()));
    assert_eq!(is_of(&proof, &given), Ok(()));
    // A thing more makes less room, and it is so all the same.
    let more = Thing { effort: Effort::Fixed, ..cabinet("post", (300.0, 300.0), 200.0, 200.0) };
    arrangement.bay.things.push(more);
    assert_eq!(is_of(&proof, &Given::of(&arrangement, Stays::Fixed)), Ok(()));
    arrangement.bay.room = rectangle((0.0, 0.0), (length + 1.0, width));
    assert!(is_of(&proof, &Given::of(&arrangement, Stays::Fixed)).is_err());
    arrangement.bay.room = rectangle((0.0, 0.0), (length, width));
    assert_eq!(is_of(&proof, &Given::of(&arrangement, Stays::Fixed)), Ok(()));
    // A room's box that leaves out some of it is none of this room, though it may hold by itself.
    let mut less = proof.clone();
    less.room.x[1] -= 500_000;
    assert_eq!(is_of(&less, &given), Err(None));
    // Of one bay it is none of another.
    let others: Vec<Given> = (0..12).map(|seed| Given::of(&tight(seed), Stays::All)).collect();
    for (nth, own) in others.iter().enumerate() {
        let Some(proof) = proven(own) else { continue };
        let of: Vec<usize> = (0..12).filter(|&other| is_of(&proof, &others[other]).is_ok()).collect();
        assert_eq!(of, [nth]);
    }
    // A car of more and smaller solids takes less room than the block that was proven.
    arrangement.vehicle.make_solids();
    assert!(is_of(&proof, &Given::of(&arrangement, Stays::Fixed)).is_err());
}

use crate::judge;
