//! The answers of a row.

use std::sync::Arc;

use baywright_planner::Verdict;
use baywright_planner::matrix::{Cell, FitThere, Place, Planned, Row, Stands, row, weigh};
use baywright_planner::model::{ComesIn, OwnerFigures};
use baywright_planner::place::{Margin, Slack, corners, stood};

use crate::cure;
use crate::geometry::PlanPose;
use crate::made::{grid, line, stands, two};
use crate::support::*;
use crate::{Severity, judge};

fn parked(of: &Arrangement) -> Place {
    Place::Parked {
        of: of.id.clone(),
        pose: of.parked,
        on_runways: of.on_runways.clone(),
        in_bay: of.in_bay.clone(),
    }
}

fn ask(own: &Arrangement, places: &[Place]) -> Vec<Cell> {
    let row = row(&line(own.clone()), places, &Margin::default(), true, &|| false);
    assert!(!row.is_partial());
    row.cells.into_iter().map(Option::unwrap).collect()
}

/// In an empty room it fits if the room is as long and as wide as the set-up, 9200 by 3000, and not if it is 10 mm shorter.
#[test]
fn in_an_empty_room_who_fits_is_a_formula() {
    for (length, width, fits) in [
        (9_204.0, 3_004.0, true),
        (3_004.0, 9_204.0, true),
        (9_190.0, 3_600.0, false),
        (12_000.0, 2_990.0, false),
    ] {
        let mut own = clear();
        own.bay.room = rectangle((0.0, 0.0), (length, width));
        own.bay.survey = None;
        let cells = ask(&own, &[Place::Room]);
        match &cells[0] {
            Cell::Fits(found) => assert!(fits && stands(&own, found.pose), "{length} {width}"),
            other => assert!(!fits, "{length} {width}: {other:?}"),
        }
    }
}

/// What is said of a place is what the checks say there; what a coarse grid finds by the checks alone is found.
#[test]
fn what_exists_on_a_grid_is_found() {
    let mut bays = Vec::new();
    for (nth, size) in [(9_600.0, 3_400.0), (9_150.0, 3_900.0), (11_000.0, 5_000.0), (4_400.0, 9_700.0)]
        .into_iter()
        .enumerate()
    {
        for own in two() {
            let mut own = own;
            own.bay.room = rectangle((0.0, 0.0), size);
            own.bay.things.push(column("column", (size.0 * 0.8, 600.0 + 300.0 * nth as f64), 300.0));
            own.bay.things.push(cabinet("bench", (size.0 * 0.2, size.1 - 400.0), 900.0, 500.0));
            bays.push(own);
        }
    }
    let mut counts = [0; 2];
    for own in bays {
        let exists = grid(&own, 150.0).into_iter().find(|pose| stands(&own, *pose));
        let places = [parked(&own), Place::Room];
        let cells = ask(&own, &places);
        counts[usize::from(exists.is_some())] += 1;
        match &cells[1] {
            Cell::Fits(found) => {
                assert_eq!(judge(&stood(&own, found.pose)).verdict, found.verdict);
                let spot =
                    baywright_planner::place::Spot { pose: found.pose, slack: found.slack, is_invited: true };
                assert!(corners(&spot).all(|pose| stands(&own, pose)), "{found:?}");
            }
            other => assert!(exists.is_none(), "{exists:?} exists, but {other:?}"),
        }
        // Where it stands the answer is the checks'.
        let judged = judge(&own);
        match &cells[0] {
            Cell::Fits(found) => assert_eq!((found.verdict, found.pose), (judged.verdict, own.parked)),
            Cell::AfterMoves { steps, .. } => {
                assert!(judged.count(Severity::Stops) > 0 && !steps.is_empty());
                let after = steps.iter().fold(own.clone(), |own, step| cure::apply(&own, step));
                assert_eq!(judge(&after).count(Severity::Stops), 0);
            }
            Cell::Elsewhere(found) => {
                assert!(judged.count(Severity::Stops) > 0 && stands(&own, found.pose));
            }
            Cell::NoneFound(none) => {
                assert!(judged.count(Severity::Stops) > 0 && !none.stops.is_empty());
                assert!(!matches!(cells[1], Cell::Fits(_)));
            }
        }
    }
    assert!(counts[0] > 0 && counts[1] > 0, "{counts:?}");
}

/// In a bay of a hall: with all that it uses where there is room for it, so that nothing is said of another bay; with its car alone
/// where there is not.
#[test]
fn a_bay_of_a_hall_holds_all_of_it_or_the_car_alone() {
    let mut own = clear();
    own.bay.room = rectangle((0.0, 0.0), (14_000.0, 12_000.0));
    own.bay.survey = None;
    let bay = |id: &str, low, high| HallBay { id: id.into(), outline: rectangle(low, high) };
    own.bay.bays = vec![
        bay("wide", (200.0, 200.0), (13_800.0, 6_000.0)),
        bay("narrow", (200.0, 6_000.0), (13_800.0, 8_600.0)),
        bay("tiny", (200.0, 9_000.0), (3_000.0, 11_000.0)),
    ];
    let places = ["wide", "narrow", "tiny"].map(|id| Place::Bay(id.into()));
    let cells = ask(&own, &places);
    let beyond = |bay: &str, pose: PlanPose| {
        let mut there = stood(&own, pose);
        there.in_bay = Some(bay.into());
        judge(&there).findings.iter().any(|own| own.code() == Code::BeyondBay)
    };
    let Cell::Fits(wide) = &cells[0] else { panic!("{:?}", cells[0]) };
    assert!(!beyond("wide", wide.pose));
    let Cell::Fits(narrow) = &cells[1] else { panic!("{:?}", cells[1]) };
    // Its beam is 3000 wide and the bay 2600.
    assert!(beyond("narrow", narrow.pose));
    assert!((7_000.0..7_600.0).contains(&narrow.pose.origin().y), "{narrow:?}");
    assert!(!matches!(cells[2], Cell::Fits(_)), "{:?}", cells[2]);
}

/// A search that is stopped says so, and says nothing of what it did not look at.
#[test]
fn what_is_stopped_is_partial() {
    let own = clear();
    let places = [Place::Room, parked(&own)];
    let stopped = row(&line(own), &places, &Margin::default(), true, &|| true);
    assert!(stopped.is_partial() && stopped.cells == [None, None]);
}

/// An aiming that is two set-ups comes in as often as one, and is served where either fits; the sum of none is nought, not less.
#[test]
fn a_job_of_two_set_ups_comes_in_once() {
    let [ahead, back] = two();
    let mut same = ahead.clone();
    same.id = "the same, otherwise".into();
    let mut other = back;
    other.aiming.id = "another".into();
    let owner = OwnerFigures {
        comes_in: vec![ComesIn {
            car: ahead.vehicle.id.clone(),
            aiming: ahead.aiming.id.clone(),
            a_month: 10.0,
        }],
        ..OwnerFigures::default()
    };
    let mut lines = [line(ahead.clone()), line(same), line(other)];
    weigh(&mut lines, &OwnerFigures::default());
    assert_eq!(lines.each_ref().map(|own| own.weight), [0.5, 0.5, 1.0]);
    let places: Arc<[Place]> = [Place::Room, Place::Room, Place::Room].into();
    let mut found = Planned::begun(lines.to_vec().into(), Arc::clone(&places), Margin::default());
    assert!(!found.is_weighted());
    weigh(&mut lines, &owner);
    found.lines = lines.to_vec().into();
    let stands = |mm: f64| Stands {
        pose: ahead.parked,
        slack: Slack { mm, rad: 1.0 },
        meets_margin: mm >= 30.0,
        verdict: Verdict::Ready,
        care: 0,
    };
    let fits = || Some(Cell::Fits(stands(100.0)));
    let tight = || Some(Cell::Fits(stands(5.0)));
    // At the first place only the second set-up, at the second only what is another job, at the third none with enough to spare.
    let rows = [[tight(), tight(), tight()], [fits(), tight(), None], [tight(), fits(), tight()]];
    found.rows = rows.map(|cells| Some(Arc::new(Row { cells: cells.into(), has_moves: true }))).into();
    assert!(found.is_weighted());
    let told = |place: usize| found.fit_there(place);
    assert_eq!(told(0), FitThere { lines: 1, of: 3, a_month: 10.0, of_a_month: 11.0 });
    assert_eq!(told(1), FitThere { lines: 1, of: 3, a_month: 1.0, of_a_month: 11.0 });
    let none = told(2);
    assert_eq!((none.lines, none.a_month), (0, 0.0));
    assert!(none.a_month.is_sign_positive());
    assert!(found.cell(1, 2).is_none() && !found.fits(1, 2) && !found.fits(9, 9));
}
