//! Distances from walls, as a person tapes them.

use baywright_planner::geometry::{DVec2, Located, PlanPose, locate};
use baywright_planner::hand::{WallGap, gap_to_wall, own_outlines, pose_of, wall_gaps};
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, boundary, config, movable, put, slack};
use crate::support::*;

fn told(arrangement: &Arrangement, subject: &Subject) -> Vec<(String, f64)> {
    let gaps = wall_gaps(arrangement, &Scene::of(arrangement), subject);
    gaps.iter().map(|gap| (gap.id.to_string(), gap.gap_mm)).collect()
}

#[test]
fn the_two_nearest_walls_that_are_not_parallel() {
    let thing = |at: (f64, f64)| with(vec![cabinet("cabinet", at, 900.0, 450.0)]);
    let cabinet = Subject::Thing("cabinet".into());
    let gaps = |at| told(&thing(at), &cabinet);
    let expect =
        |walls: &[(&str, f64)]| walls.iter().map(|(id, gap)| ((*id).to_owned(), *gap)).collect::<Vec<_>>();
    assert_eq!(gaps((11_000.0, 5_000.0)), expect(&[("far wall", 550.0), ("left wall", 775.0)]));
    // Nearer to both long walls than to a short one: still one of each.
    assert_eq!(gaps((6_000.0, 2_000.0)), expect(&[("right wall", 1_775.0), ("far wall", 5_550.0)]));
    // Through a wall, and wholly beyond it.
    assert_eq!(gaps((11_700.0, 5_000.0)), expect(&[("far wall", -150.0), ("left wall", 775.0)]));
    assert_eq!(gaps((13_000.0, 4_000.0)), expect(&[("far wall", -1_450.0), ("left wall", 1_775.0)]));
    // Beyond a corner it stands abreast of no wall: still it can be told how to come back.
    assert_eq!(gaps((13_000.0, 7_000.0)), expect(&[("far wall", -1_450.0), ("left wall", -1_225.0)]));
    assert_eq!(told(&clear(), &Subject::Car), expect(&[("near wall", 600.0), ("right wall", 2_100.0)]));
    // The feet reach 500 mm behind the face, the target 250 mm to each side, the feet 300.
    assert_eq!(
        told(&clear(), &Subject::Target("ahead".into())),
        expect(&[("right wall", 2_700.0), ("far wall", 2_700.0)])
    );
    for subject in [Subject::Floor, Subject::Thing("nothing".into()), Subject::Stand("nothing".into())] {
        assert!(told(&clear(), &subject).is_empty());
    }
}

#[test]
fn a_wall_of_another_part_of_the_room_comes_last() {
    // A niche at the top: the thing in the room below stands before the long walls, not before the niche's sides.
    let mut arrangement = with(vec![cabinet("cabinet", (7_200.0, 5_300.0), 900.0, 450.0)]);
    let corners = [
        (0., 0.),
        (12_000., 0.),
        (12_000., 6_000.),
        (8_000., 6_000.),
        (8_000., 6_600.),
        (6_500., 6_600.),
        (6_500., 6_000.),
        (0., 6_000.),
    ];
    let ring = corners.map(DVec2::from).to_vec();
    arrangement.bay.room = baywright_planner::geometry::Polygon::simple(ring).unwrap();
    let wall = |i: usize| Wall { id: format!("wall {i}").into(), material: Material::Brick };
    arrangement.bay.walls = (0..8).map(wall).collect();
    let expected = vec![("wall 4".to_owned(), 1_075.0), ("wall 1".to_owned(), 4_350.0)];
    assert_eq!(told(&arrangement, &Subject::Thing("cabinet".into())), expected);
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn the_gap_is_to_the_nearest_surface(arrangement in arrangement()) {
        let scene = Scene::of(&arrangement);
        let slack = slack(&arrangement) * 10.0;
        for subject in movable(&arrangement) {
            let pose = pose_of(&arrangement, &scene, &subject).unwrap();
            let own: Vec<_> = own_outlines(&arrangement, &scene, &subject)
                .iter()
                .flat_map(|outline| boundary(&outline.placed(&pose)))
                .collect();
            let mut known: Vec<WallGap> = Vec::new();
            for (i, edge) in arrangement.bay.room.edges().enumerate() {
                let gap = gap_to_wall(&arrangement, &scene, &subject, i).unwrap();
                prop_assert_eq!(&gap.id, &arrangement.bay.walls[i].id);
                prop_assert!((gap.inward.length() - 1.0).abs() < 1e-12);
                prop_assert!(gap.inward.dot(edge.to - edge.from).abs() < 1e-6 * edge.length());
                let depths = own.iter().map(|(p, _)| (*p - edge.from).dot(gap.inward));
                let least = depths.fold(f64::INFINITY, f64::min);
                // A rim is sampled.
                let off = gap.gap_mm - least;
                prop_assert!(off <= slack && off >= -0.02 - slack, "{} {least}", gap.gap_mm);
                known.push(gap);
            }
            prop_assert_eq!(gap_to_wall(&arrangement, &scene, &subject, arrangement.bay.walls.len()), None);
            let told = wall_gaps(&arrangement, &scene, &subject);
            prop_assert_eq!(told.len(), 2, "every room here has a corner");
            prop_assert!(told.iter().all(|gap| known.contains(gap)));
            prop_assert!(told[0].inward.perp_dot(told[1].inward).abs() >= 0.5);
            // Nothing abreast and before it is nearer than the first.
            let within = |gap: &WallGap| {
                let edge = arrangement.bay.room.edges().nth(gap.wall).unwrap();
                let along = (edge.to - edge.from).normalize();
                let at: Vec<f64> = own.iter().map(|(p, _)| (*p - edge.from).dot(along)).collect();
                let deep = own.iter().any(|(p, _)| (*p - edge.from).dot(gap.inward) > slack);
                deep && at.iter().any(|&a| a > slack) && at.iter().any(|&a| a < edge.length() - slack)
            };
            let middle = own.iter().map(|(p, _)| *p);
            let middle = baywright_planner::geometry::Bounds::around(middle).unwrap().centre();
            // On a wall it may be either.
            let inside = locate(&arrangement.bay.room.clone().into(), middle) == Located::Inside
                && arrangement.bay.room.edges().all(|edge| edge.distance_to(middle) > 0.02 + slack);
            for gap in known.iter().filter(|gap| inside && within(gap)) {
                prop_assert!(told[0].gap_mm <= gap.gap_mm, "{told:?} {gap:?}");
                if gap.inward.perp_dot(told[0].inward).abs() >= 0.5 {
                    prop_assert!(told[1].gap_mm <= gap.gap_mm, "{told:?} {gap:?}");
                }
            }
        }
    }

    /// A figure typed is the figure read afterwards.
    #[test]
    fn what_is_moved_by_the_difference_reads_what_was_typed(
        arrangement in arrangement(),
        typed in -500.0..3_000.0_f64,
    ) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let pose = pose_of(&arrangement, &scene, &subject).unwrap();
            for gap in wall_gaps(&arrangement, &scene, &subject) {
                let place: PlanPose = pose.shifted(gap.inward * (typed - gap.gap_mm));
                let after = put(&arrangement, &subject, place);
                let read = gap_to_wall(&after, &Scene::of(&after), &subject, gap.wall).unwrap();
                prop_assert!((read.gap_mm - typed).abs() < 1e-6);
            }
        }
    }
}
