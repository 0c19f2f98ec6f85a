//! Random rooms: all sets of things, each put all over a grid together, the car all over another, judged by the checks alone.
//! Nothing found so is cheaper than what is given, and where something is found so something is given.
//!
//! A sample; `BAYWRIGHT_ROOMS=200` asks for so many rooms.

use std::f64::consts::PI;

use baywright_planner::clearing::{Surety, hands};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::place::stood;

use crate::by_hand::ask;
use crate::dice::Dice;
use crate::support::*;
use crate::{Severity, judge};

/// So far apart are the places of the car that are tried, mm, and those of things.
const CAR_MM: f64 = 130.0;
const THING_MM: f64 = 400.0;
/// So many of the car's places are tried for a set, and so many ways to put its things.
const MOST_PLACES: usize = 6;
const MOST_PUT: usize = 300;

pub fn room(seed: u64) -> Arrangement {
    let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9_97f4_a7c1));
    let size = DVec2::new(dice.within(9_300.0, 11_500.0), dice.within(3_100.0, 5_000.0)).round();
    let mut own = clear();
    own.bay.room = rectangle((0.0, 0.0), size.into());
    own.bay.survey = None;
    own.parked_known = ParkedKnown::Planned;
    let count = 2 + (dice.share() * 3.0) as usize;
    for nth in 0..count {
        let own_size = DVec2::new(dice.within(300.0, 1_400.0), dice.within(300.0, 900.0)).round();
        let within = |dice: &mut Dice, half: f64, all: f64| dice.within(half, all - half).round();
        // Somewhere inside, in no other.
        for _ in 0..20 {
            let at =
                (within(&mut dice, own_size.x * 0.5, size.x), within(&mut dice, own_size.y * 0.5, size.y));
            let effort =
                [Effort::OnePerson, Effort::OnePerson, Effort::TwoPeople, Effort::ForkLift, Effort::Fixed]
                    [(dice.share() * 5.0) as usize];
            let thing = Thing { effort, ..cabinet(&format!("thing {nth}"), at, own_size.x, own_size.y) };
            if own.bay.things.iter().all(|other| !is_in(other, &thing)) {
                own.bay.things.push(thing);
                break;
            }
        }
    }
    own
}

fn is_in(one: &Thing, other: &Thing) -> bool {
    let (a, b) = (one.prism().outline.bounds(), other.prism().outline.bounds());
    let shared = a.high.min(b.high) - a.low.max(b.low);
    shared.min_element() > 0.0
}

fn is_inside(own: &Arrangement, thing: &Thing) -> bool {
    let (room, bounds) = (own.bay.room.bounds(), thing.prism().outline.bounds());
    (bounds.low - room.low).min_element() >= 0.0 && (room.high - bounds.high).min_element() >= 0.0
}

/// What stops with the car at a pose, a bit for each thing; `None` if something that is no thing does.
fn stopping(own: &Arrangement, pose: PlanPose) -> Option<u64> {
    let judged = judge(&stood(own, pose));
    let mut all = 0;
    for found in judged.findings.iter().filter(|own| own.severity == Severity::Stops) {
        let nth = own.bay.things.iter().position(|thing| Some(&thing.id) == found.culprit())?;
        all |= 1 << nth;
    }
    Some(all)
}

/// Every way to put the things of a set on the grid, each with the car where it is, until one is found in which nothing stops, nor
/// at the other poses.
pub fn is_put(
    own: &Arrangement,
    pose: PlanPose,
    others_too: &[PlanPose],
    set: &[usize],
    left: &mut usize,
) -> bool {
    let Some((&next, rest)) = set.split_first() else {
        let mut all = std::iter::once(&pose).chain(others_too);
        return all.all(|&pose| judge(&stood(own, pose)).count(Severity::Stops) == 0);
    };
    let size = own.bay.room.bounds().size();
    let (rows, columns) = ((size.y / THING_MM) as usize, (size.x / THING_MM) as usize);
    let half = own.bay.things[next].prism().outline.bounds().size() * 0.5;
    for (x, y) in (0..=columns).flat_map(|x| (0..=rows).map(move |y| (x as f64, y as f64))) {
        // Along the walls too.
        let at = (DVec2::new(x, y) * THING_MM + half).min(size - half);
        let mut with = own.clone();
        with.bay.things[next].place.at = PlanPose::new(at, 0.0);
        let moved = with.bay.things[next].clone();
        let others =
            with.bay.things.iter().enumerate().filter(|(nth, _)| *nth != next && !rest.contains(nth));
        if !is_inside(own, &moved) || others.into_iter().any(|(_, other)| is_in(other, &moved)) {
            continue;
        }
        // What stops with it there is soon told; those that are still to be put are not asked.
        let asked = without(&with, rest);
        let Some(now_left) = left.checked_sub(1) else { return false };
        *left = now_left;
        if judge(&stood(&asked, pose)).count(Severity::Stops) == 0
            && is_put(&with, pose, others_too, rest, left)
        {
            return true;
        }
    }
    false
}

pub fn without(own: &Arrangement, gone: &[usize]) -> Arrangement {
    let mut left = own.clone();
    let mut nth = 0;
    left.bay.things.retain(|_| {
        nth += 1;
        !gone.contains(&(nth - 1))
    });
    left
}

/// What is done of a set: what it takes, what is moved within the room, what is taken out, by position.
pub type Done = (u32, Vec<usize>, Vec<usize>);

/// All sets of things that hands move, the cheapest first.
pub fn sets(own: &Arrangement) -> Vec<Done> {
    let of = |nth: usize| hands(own.bay.things[nth].effort);
    // Each thing stays, is moved, or is taken out for twice the hands.
    let count = own.bay.things.len();
    let mut all: Vec<Done> = Vec::new();
    'sets: for code in 0..3_usize.pow(count as u32) {
        let (mut cost, mut moved, mut out) = (0, Vec::new(), Vec::new());
        for nth in 0..count {
            match (code / 3_usize.pow(nth as u32) % 3, of(nth)) {
                (0, _) => {}
                (_, None) => continue 'sets,
                (1, Some(own)) => {
                    cost += own;
                    moved.push(nth);
                }
                (_, Some(own)) => {
                    cost += 2 * own;
                    out.push(nth);
                }
            }
        }
        all.push((cost, moved, out));
    }
    all.sort();
    all
}

/// The positions of some things among those that are left when others are gone.
pub fn among_left(moved: &[usize], out: &[usize]) -> Vec<usize> {
    moved.iter().map(|nth| nth - out.iter().filter(|gone| *gone < nth).count()).collect()
}

/// The fewest hands that are found by trying; and the fewest of any set without which the car has a place on the grid.
fn tried(own: &Arrangement, headings: &[f64]) -> (Option<u32>, Option<u32>) {
    let size = own.bay.room.bounds().size();
    // The set-up is 9200 by 3000: elsewhere it is not in the room. Nor is anything tried that has not a millimetre to spare.
    let spare = size - DVec2::new(9_200.0, 3_000.0) - 4.0;
    let (rows, columns) = ((spare.y / CAR_MM) as usize, (spare.x / CAR_MM) as usize);
    let places = headings.iter().flat_map(|&rad| {
        let low = DVec2::new(if rad == 0.0 { 3_400.0 } else { 5_800.0 }, 1_500.0) + 2.0;
        (0..=columns)
            .flat_map(move |x| (0..=rows).map(move |y| (x, y)))
            .map(move |(x, y)| PlanPose::new(low + DVec2::new(x as f64, y as f64) * CAR_MM, rad))
    });
    let places: Vec<(PlanPose, u64)> = places.filter_map(|pose| Some((pose, stopping(own, pose)?))).collect();
    let mut free = None;
    for (cost, moved, out) in sets(own) {
        let gone: u64 = moved.iter().chain(&out).map(|nth| 1_u64 << nth).sum();
        let left_free: Vec<PlanPose> =
            places.iter().filter(|(_, stops)| stops & !gone == 0).map(|own| own.0).collect();
        if left_free.is_empty() {
            continue;
        }
        free = free.or(Some(cost));
        let out_of = without(own, &out);
        let moved = among_left(&moved, &out);
        let step = left_free.len().div_ceil(MOST_PLACES);
        let mut left = MOST_PUT;
        if left_free.iter().step_by(step).any(|&pose| is_put(&out_of, pose, &[], &moved, &mut left)) {
            return (Some(cost), free);
        }
    }
    (None, free)
}

#[test]
fn nothing_that_is_tried_takes_less() {
    let count = std::env::var("BAYWRIGHT_ROOMS").ok().and_then(|own| own.parse().ok()).unwrap_or(40);
    let (mut given, mut proven, mut moved) = (0, 0, 0);
    for seed in 0..count {
        let own = room(seed);
        let headings = [0.0, PI];
        let found = ask(&own, &headings);
        let (best, free) = tried(&own, &headings);
        assert!(!found.is_partial, "seed {seed}");
        match (&found.way, best) {
            (Some(way), best) => {
                if let Some(best) = best {
                    assert!(way.hands <= best, "seed {seed}: {best} hands do, not {way:?}");
                }
                if found.surety == Surety::Proven {
                    // No set that takes less has a place on the grid even with its things gone.
                    assert!(free.is_none_or(|free| free >= way.hands), "seed {seed}: {free:?} {way:?}");
                    proven += 1;
                }
                given += 1;
                moved += usize::from(!way.moves.is_empty());
            }
            (None, Some(best)) => panic!("seed {seed}: {best} hands do, and nothing is given"),
            (None, None) => assert!(found.surety == Surety::BestFound || free.is_none(), "seed {seed}"),
        }
    }
    println!("{count} rooms: {given} given, {proven} proven, {moved} with moves");
    assert!(moved * 4 > count as usize && proven * 2 > given, "{given} {proven} {moved}");
}
