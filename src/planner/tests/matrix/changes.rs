//! What a change of the building unlocks.

use baywright_planner::matrix::{Change, Place, Unlocked, changed, changes_of, ranked, row, unlocked};
use baywright_planner::place::Margin;

use crate::made::line;
use crate::support::*;

/// A room that is a metre too short for the aiming is long enough with its far wall 1.2 m further out, and with nothing else; the room is
/// so much longer then.
#[test]
fn the_wall_that_is_too_near_is_the_one_that_unlocks() {
    let mut own = clear();
    own.bay.things.clear();
    own.bay.survey = None;
    let margin = Margin::default();
    let fits = |own: &Arrangement| {
        let answer = row(&line(own.clone()), &[Place::Room], &margin, false, &|| false);
        matches!(&answer.cells[0], Some(baywright_planner::matrix::Cell::Fits(own)) if own.meets_margin)
    };
    // As short, along the way that the car looks, as it must be that it fits no more; across it is too narrow to be turned.
    let bounds = own.bay.room.bounds();
    let is_across = |wall: usize, of: &Arrangement| {
        let (from, to) = of.bay.wall_ends(wall).unwrap();
        (to - from).x.abs() < 1.0
    };
    let far = (0..own.bay.walls.len()).find(|wall| {
        let (from, _) = own.bay.wall_ends(*wall).unwrap();
        is_across(*wall, &own) && (from.x - bounds.high.x).abs() < 1.0
    });
    let far = far.unwrap();
    let along = (0..own.bay.walls.len()).find(|wall| {
        let (from, to) = own.bay.wall_ends(*wall).unwrap();
        (to - from).y.abs() < 1.0 && (from.y - bounds.high.y).abs() < 1.0
    });
    own.bay.push_wall(along.unwrap(), bounds.size().y - 3_400.0).unwrap();
    assert!(fits(&own), "in a narrow room it still does");
    while fits(&own) {
        own.bay.push_wall(far, 200.0).unwrap();
    }
    let lines = [line(own.clone())];
    let name = own.bay.walls[far].id.clone();
    let all = changes_of(&own.bay);
    assert_eq!(all.len(), own.bay.walls.len());
    for change in &all {
        let found = unlocked(&lines, &[false], &Place::Room, (change, 1_200.0), &margin, &|| false);
        let Change::Further(wall) = change else { panic!("there is no thing") };
        let nth = own.bay.walls.iter().position(|own| own.id == *wall).unwrap();
        assert_eq!(!found.lines.is_empty(), is_across(nth, &own), "{wall}");
        assert!(!found.is_partial);
    }
    let after = changed(&own, &Change::Further(name), 1_200.0).unwrap();
    assert!((after.bay.room.bounds().size().x - own.bay.room.bounds().size().x - 1_200.0).abs() < 1e-6);
    // Whoever fits already is not asked, and is unlocked by nothing.
    let none = unlocked(&lines, &[true], &Place::Room, (&all[0], 1_200.0), &margin, &|| false);
    assert_eq!(none.lines, Vec::<usize>::new());
    let stopped = unlocked(&lines, &[false], &Place::Room, (&all[0], 1_200.0), &margin, &|| true);
    assert!(stopped.is_partial && stopped.lines.is_empty());
}

/// By worth, and by worth for the money; what has no price stands last where money counts.
#[test]
fn changes_are_ranked_by_worth_and_for_the_money() {
    let own = |name: &str, lines: &[usize]| Unlocked {
        change: Change::Without(name.into()),
        lines: lines.to_vec(),
        is_partial: false,
    };
    let all = [own("cabinet", &[0]), own("column", &[0, 1, 2]), own("trolley", &[]), own("wall", &[1])];
    let weight = |nth: usize| [1.0, 8.0, 1.0][nth];
    let cost = |change: &Change| match change {
        Change::Without(id) if *id == "cabinet".into() => Some(10.0),
        Change::Without(id) if *id == "column".into() => Some(1_000.0),
        Change::Without(id) if *id == "trolley".into() => Some(0.0),
        _ => None,
    };
    assert_eq!(ranked(&all, weight, cost, false), [1, 3, 0, 2]);
    assert_eq!(ranked(&all, weight, cost, true), [0, 1, 3, 2]);
}
