//! What is under a pointer.

use baywright_drawing::{Drawing, Fit, Furniture, Paper, Role, Shape, ViewState, side_view, top_view};
use baywright_planner::geometry::DVec2;
use baywright_planner::{Subject, assess};

use crate::bay::crowded;

fn views() -> [Drawing; 2] {
    let arrangement = crowded();
    let assessment = assess(&arrangement);
    let paper = |middle| Paper {
        fit: Fit::Window { size: DVec2::new(900.0, 600.0), px_per_mm: 0.07, middle },
        furniture: Furniture::Canvas,
        ..Paper::picture(900.0)
    };
    let state = ViewState::default();
    [
        top_view(&arrangement, &assessment, &state, &paper(DVec2::new(2_000.0, 0.0))),
        side_view(&arrangement, &assessment, &state, &paper(DVec2::new(2_000.0, 1_500.0))),
    ]
}

#[test]
fn the_middle_of_a_thing_is_that_thing() {
    let [top, side] = views();
    for drawing in [&top, &side] {
        let mut things = 0;
        for item in &drawing.items {
            let (Role::Thing(_), Shape::Area(rings), Some(subject)) = (item.role, &item.shape, &item.subject)
            else {
                continue;
            };
            let middle = rings[0].iter().sum::<DVec2>() / rings[0].len() as f64;
            let picked = drawing.pick(drawing.paper_point(middle), 3.0).unwrap();
            // A flag may stand on it; what it blames is the thing.
            assert!(
                picked.subject.as_ref() == Some(subject) || picked.finding.is_some(),
                "{picked:?} {subject:?}"
            );
            things += 1;
        }
        assert!(things > 0);
    }
}

#[test]
fn a_flag_is_its_finding_and_the_empty_floor_is_nothing() {
    let [top, _] = views();
    let mut flags = 0;
    for item in top.items.iter().filter(|item| matches!(item.role, Role::Flag(_))) {
        let Shape::Sign(sign) = &item.shape else { continue };
        let picked = top.pick(top.paper_point(sign.at), 3.0).unwrap();
        assert_eq!(picked.finding, item.finding);
        flags += 1;
    }
    assert!(flags > 0);
    assert_eq!(top.pick(DVec2::new(-50.0, -50.0), 3.0), None);
}

/// A zone is taken by its edge, or where nothing else is.
#[test]
fn what_lies_in_a_zone_is_picked_before_the_zone() {
    let [top, _] = views();
    let Some(zone) = top.items.iter().find(|item| item.role == Role::ZoneEdge) else { panic!() };
    let Shape::Area(rings) = &zone.shape else { panic!() };
    let edge = (rings[0][0] + rings[0][1]) * 0.5;
    let picked = top.pick(top.paper_point(edge), 3.0).unwrap();
    assert!(
        matches!(picked.subject, Some(Subject::Zone(_) | Subject::Thing(_) | Subject::Car)),
        "{picked:?}"
    );
}

#[test]
fn every_body_has_one_box_and_it_holds_the_body() {
    for drawing in views() {
        let boxes = drawing.boxes();
        for (i, (subject, bounds)) in boxes.iter().enumerate() {
            assert!(boxes[..i].iter().all(|(other, _)| other != subject), "{subject:?} twice");
            assert_eq!(drawing.box_of(subject), Some(*bounds));
        }
        assert!(boxes.iter().any(|(subject, _)| *subject == Subject::Car));
        assert_eq!(drawing.box_of(&Subject::Figures), None);
    }
}
