//! A proposal in a bay.

use baywright_planner::model::Id;
use baywright_planner::permanent::{Kept, is_kept, kept_in};

use crate::closed::{in_room, of};
use crate::made::{line, two};
use crate::support::*;

fn names(count: usize) -> Vec<Vec<Id>> {
    (0..count)
        .map(|nth| vec![Id::from(format!("point {nth}").as_str()), Id::from(format!("Punkt {nth}").as_str())])
        .collect()
}

/// All of it is there once, each mark with how well it is laid, each line from mark to mark; kept again nothing changes.
#[test]
fn it_is_there_once() {
    let lines: Vec<_> = two().map(|own| line(in_room(own, (14_000.0, 6_000.0)))).into();
    let floor = of(&lines).floor;
    let bay = &lines[0].arrangement.bay;
    let names = names(floor.points.len());
    let mut before = bay.clone();
    // One that lies there already serves; what was measured of it stays.
    before.marks.push(PermanentMark::new("old stud".into(), floor.points[1].at + DVec2::new(0.4, 0.0)));
    let after = kept_in(&before, &floor, &names);
    assert_eq!(after.marks.len(), floor.points.len());
    for (nth, (point, own)) in floor.points.iter().zip(&names).enumerate() {
        let is = if nth == 1 { Id::from("old stud") } else { own[0].clone() };
        assert_eq!(is_kept(&after, point, own), Kept::As(is.clone()));
        let mark = after.marks.iter().find(|own| own.id == is).unwrap();
        assert_eq!(mark.laid_within_mm, Some(point.within_mm));
        assert!(nth == 1 || mark.at == point.at);
    }
    let drawn: Vec<_> = after
        .floor_lines()
        .map(|(from, _)| (from.id.to_string(), from.line_to.clone().unwrap().to_string()))
        .collect();
    assert_eq!(drawn.len(), 2);
    assert!(drawn.contains(&("point 0".to_owned(), "old stud".to_owned())), "{drawn:?}");
    assert_eq!(kept_in(&after, &floor, &names), after);
    assert_eq!(is_kept(bay, &floor.points[0], &names[0]), Kept::No);
}

/// Where places are numbered the other way round, the points that are painted serve by other names: none is told as moved, none is moved.
#[test]
fn places_that_are_numbered_anew_move_no_mark() {
    let lines: Vec<_> = two().map(|own| line(in_room(own, (14_000.0, 6_000.0)))).into();
    let floor = of(&lines).floor;
    let names = names(floor.points.len());
    let kept = kept_in(&lines[0].arrangement.bay, &floor, &names);
    let mut turned = names.clone();
    turned.reverse();
    for (nth, (point, own)) in floor.points.iter().zip(&turned).enumerate() {
        assert_eq!(is_kept(&kept, point, own), Kept::As(names[nth][0].clone()));
    }
    let again = kept_in(&kept, &floor, &turned);
    assert!(again.marks.iter().zip(&kept.marks).all(|(a, b)| (&a.id, a.at) == (&b.id, b.at)), "{again:?}");
}

/// A mark that was moved by hand serves as far as it may lie off, and then says how far off it is; kept again it is back.
#[test]
fn a_mark_that_was_moved_serves_no_more() {
    let lines: Vec<_> = two().map(|own| line(in_room(own, (14_000.0, 6_000.0)))).into();
    let floor = of(&lines).floor;
    let names = names(floor.points.len());
    let kept = kept_in(&lines[0].arrangement.bay, &floor, &names);
    let (point, own) = (&floor.points[2], &names[2]);
    let moved = |by: f64| {
        let mut bay = kept.clone();
        bay.marks[2].at.x += by;
        // In the other language it went by its other name.
        bay.marks[2].id = own[1].clone();
        bay
    };
    assert_eq!(is_kept(&moved(point.within_mm - 0.01), point, own), Kept::As(own[1].clone()));
    let off = point.within_mm + 0.01;
    let Kept::Moved { mark, by } = is_kept(&moved(off), point, own) else { panic!() };
    assert!(mark == own[1] && (by.x - off).abs() < 1e-9 && by.y == 0.0);
    let back = kept_in(&moved(off), &floor, &names);
    assert_eq!(back.marks[2].at, point.at);
    assert_eq!(back.marks.len(), kept.marks.len());
}
