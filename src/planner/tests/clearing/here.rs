//! What must move so that a car can stand at a place that is asked about: cases that are worked out by hand, and random rooms in which all
//! sets are tried by the checks alone. The set-up is that of `by_hand`: 9200 by 3000 about the car.

use baywright_planner::clearing::{Asked, Cleared, Surety, Where, cleared, looks, may_help};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::place::{Slack, Spot, corners, stood};

use crate::by_hand::{confirm, room};
use crate::dice::Dice;
use crate::support::*;
use crate::tried::{among_left, is_put, sets, without};
use crate::{Severity, Step, judge};

/// So many ways to put the things of a set are tried.
const MOST_PUT: usize = 600;
/// What is found by trying has to do so far beyond the margin, mm: the search takes what lies between the corners a little too large.
const BEYOND_MM: f64 = 5.0;

fn asked(own: &Arrangement, pose: PlanPose) -> Cleared {
    let asked = Asked { at: Where::Here(pose), headings: &[], costs: &[] };
    let mut told = 0;
    let found = cleared(own, &asked, &|| false, &mut |done| told = done);
    assert!(told <= looks(own, &asked));
    confirm(own, &found);
    if let Some(way) = &found.way {
        assert_eq!(way.offer.spot.pose, pose);
    }
    found
}

/// The room is 4700 wide, the car in its middle: the beam leaves 850 on either side, and the cabinet reaches 250 into it. Elsewhere it
/// fits as things are.
fn one_cabinet() -> Arrangement {
    let mut own = room(9_700.0, 4_700.0, vec![cabinet("cabinet", (7_000.0, 800.0), 600.0, 600.0)]);
    own.parked = PlanPose::new(DVec2::new(3_650.0, 2_350.0), 0.0);
    own.parked_known = ParkedKnown::Planned;
    own
}

#[test]
fn a_cabinet_goes_though_the_car_fits_elsewhere() {
    let own = one_cabinet();
    let elsewhere = Asked { at: Where::Anywhere, headings: &[(0.0, true)], costs: &[] };
    let elsewhere = cleared(&own, &elsewhere, &|| false, &mut |_| {}).way.unwrap();
    assert!(elsewhere.moves.is_empty());
    assert!(may_help(&own, &judge(&own).findings, &[]));
    let found = asked(&own, own.parked);
    let way = found.way.unwrap();
    assert_eq!(
        (found.surety, way.hands, way.offer.meets, found.is_partial),
        (Surety::Proven, 1, true, false)
    );
    let [only] = way.moves.as_slice() else { panic!("{way:?}") };
    let Step::MoveThing { by, .. } = &only.step else { panic!("{only:?}") };
    // At least out of the beam, by what the car may be off too: 30 mm along and across, and the turn that goes with it over the beam.
    assert!(by.x.abs() < 1.0 && (-499.0..=-280.0).contains(&by.y), "{by}");
    // The car is left as it is.
    assert_eq!(way.edit(&own), Edit::All(vec![Edit::Do(only.step.clone())]));
    // Of another place that is pointed at the car goes there with it.
    let there = PlanPose::new(DVec2::new(3_700.0, 2_350.0), 0.0);
    let way = asked(&own, there).way.unwrap();
    let Edit::All(edits) = way.edit(&own) else { panic!("one edit") };
    assert!(edits.contains(&Edit::Park(there)), "{edits:?}");
}

/// A car whose place was taped is off by less, and its tapes stay: the cabinet goes less far.
#[test]
fn a_taped_car_takes_less_room() {
    let mut own = one_cabinet();
    let far = |own: &Arrangement| asked(own, own.parked).way.unwrap().way_mm;
    let planned = far(&own);
    own.parked_known = ParkedKnown::Within { mm: 3.0, rad: 0.0 };
    assert!(far(&own) + 50.0 < planned, "{} {planned}", far(&own));
}

#[test]
fn what_stops_it_whatever_goes_is_told() {
    let mut own = one_cabinet();
    own.bay.things.push(column("column", (7_000.0, 3_400.0), 300.0));
    let found = asked(&own, own.parked);
    assert!(found.way.is_none());
    assert_eq!((found.surety, found.movable), (Surety::Proven, 1));
    assert!(!found.remains.is_empty());
    assert!(found.remains.iter().all(|own| own.culprit().is_some_and(|id| id.as_str() == "column")));
    // Without the cabinet nothing that goes could help.
    own.bay.things.retain(|own| own.effort == Effort::Fixed);
    assert!(!may_help(&own, &judge(&own).findings, &[]));
}

/// Ten millimetres from the tail to the wall: no more to spare is found, but the place is made ready, and that it is tight is said.
#[test]
fn a_tight_place_is_made_ready_as_it_is() {
    let mut own = one_cabinet();
    own.parked = PlanPose::new(DVec2::new(3_410.0, 2_350.0), 0.0);
    let found = asked(&own, own.parked);
    let way = found.way.unwrap();
    assert!(!way.offer.meets && way.offer.spot.slack.mm <= 10.0, "{way:?}");
    assert_eq!((found.surety, way.moves.len()), (Surety::Proven, 1));
}

/// What stands where the one that is in the way could go makes room for it, though it is in nobody's way itself.
#[test]
fn one_in_nobodys_way_goes_too() {
    // Beside the beam and behind it nothing of 900 by 900 has room but in the corner where the other stands.
    let big = cabinet("big", (7_000.0, 1_000.0), 900.0, 900.0);
    let mut own = one_cabinet();
    own.bay.room = rectangle((0.0, 0.0), (10_700.0, 4_700.0));
    let small = cabinet("small", (10_190.0, 2_300.0), 300.0, 3_900.0);
    own.bay.things = vec![big, small];
    let found = asked(&own, own.parked);
    let way = found.way.as_ref().expect("there is room beyond the beam");
    assert!(way.moves.len() <= 2 && way.hands <= 2, "{way:?}");
    assert!(
        way.moves
            .iter()
            .any(|own| matches!(&own.step, Step::MoveThing { thing, .. } if thing.as_str() == "big"))
    );
}

#[test]
fn a_stop_is_marked() {
    let own = one_cabinet();
    let asked = Asked { at: Where::Here(own.parked), headings: &[], costs: &[] };
    let found = cleared(&own, &asked, &|| true, &mut |_| {});
    assert!(found.is_partial && found.way.is_none() && found.surety == Surety::BestFound);
}

/// The poses about a place within so much, mm, with the turn that goes with it, and so much beyond.
fn about(pose: PlanPose, mm: f64, lever_mm: f64, beyond_mm: f64) -> Vec<PlanPose> {
    let by = mm + beyond_mm;
    let turn = by / lever_mm;
    let steps = [-1.0, 0.0, 1.0];
    let all = steps.into_iter().flat_map(|x| steps.into_iter().map(move |y| (x, y)));
    let all = all.flat_map(|(x, y)| steps.into_iter().map(move |turned| (x, y, turned)));
    all.map(|(x, y, turned)| {
        let off = pose.forward() * (x * by) + pose.left() * (y * by);
        PlanPose::new(pose.origin() + off, pose.heading() + turned * turn)
    })
    .collect()
}

fn is_clear(own: &Arrangement, poses: impl IntoIterator<Item = PlanPose>) -> bool {
    poses.into_iter().all(|pose| judge(&stood(own, pose)).count(Severity::Stops) == 0)
}

/// In random rooms, at a random place: nothing that is tried takes less than what is given, and no set that takes less than what is proven
/// leaves the place clear even with its things gone.
#[test]
fn nothing_that_is_tried_here_takes_less() {
    let count = std::env::var("BAYWRIGHT_ROOMS").ok().and_then(|own| own.parse().ok()).unwrap_or(60);
    let (mut given, mut proven, mut moved, mut well) = (0, 0, 0, 0);
    for seed in 0..count {
        let mut own = crate::tried::room(seed + 1_000);
        let mut dice = Dice(seed.wrapping_mul(0x2545_f491_4f6c_dd1d) + 17);
        let spare = own.bay.room.bounds().size() - DVec2::new(9_200.0, 3_000.0) - 4.0;
        let by = DVec2::new(dice.share() * spare.x, dice.share() * spare.y);
        let pose = PlanPose::new(DVec2::new(3_402.0, 1_502.0) + by, 0.0);
        own.parked = pose;
        let found = asked(&own, pose);
        let lever_mm = own.vehicle.length_mm * 0.5;
        let mm = found.margin.mm.max(found.margin.rad * lever_mm);
        let tried = |poses: &[PlanPose]| {
            sets(&own).into_iter().find(|(_, moved, out)| {
                let out_of = without(&own, out);
                is_put(&out_of, pose, poses, &among_left(moved, out), &mut MOST_PUT.clone())
            })
        };
        // The fewest hands that leave it clear with their things gone, within the margin and at the place alone.
        let free = |slack: Slack| {
            let spot = Spot { pose, slack, is_invited: false };
            let all = sets(&own);
            let gone = |own: &(u32, Vec<usize>, Vec<usize>)| [own.1.clone(), own.2.clone()].concat();
            all.into_iter().find(|set| is_clear(&without(&own, &gone(set)), corners(&spot))).map(|set| set.0)
        };
        let free_well = free(Slack { mm, rad: mm / lever_mm });
        let free_just = free(Slack { mm: 0.0, rad: 0.0 });
        let best_well = tried(&about(pose, mm, lever_mm, BEYOND_MM)).map(|own| own.0);
        match &found.way {
            Some(way) => {
                if let Some(best) = best_well {
                    assert!(
                        way.offer.meets && way.hands <= best,
                        "seed {seed}: {best} hands do, not {way:?}"
                    );
                }
                if found.surety == Surety::Proven {
                    let free = if way.offer.meets { free_well } else { free_just };
                    assert!(free.is_some_and(|free| free >= way.hands), "seed {seed}: {free:?} {way:?}");
                    proven += 1;
                }
                given += 1;
                moved += usize::from(!way.moves.is_empty());
                well += usize::from(way.offer.meets);
            }
            None => {
                let best = best_well.or_else(|| tried(&[]).map(|own| own.0));
                assert!(best.is_none(), "seed {seed}: {best:?} hands do, and nothing is given");
                if found.surety == Surety::Proven {
                    assert!(free_just.is_none() && !found.remains.is_empty(), "seed {seed}: {free_just:?}");
                    proven += 1;
                }
            }
        }
    }
    println!("{count} rooms: {given} given, {proven} proven, {moved} with moves, {well} with the margin");
    assert!(moved * 5 > count as usize && proven * 2 > given && well > 0, "{given} {proven} {moved} {well}");
}
