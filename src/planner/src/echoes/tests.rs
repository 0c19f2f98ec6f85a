//! Echoes in the test bay, by hand: the sensor is at x = 4 800, y = 3 000, 500 mm up, the plate 4 000 mm before it.

use baywright_radar::level::Band;
use baywright_radar::resolve::Surely;

use super::{Does, Echo, How, Seen, Untold, With, seen};
use crate::check::testing::*;
use crate::scene::Scene;

fn looked(arrangement: &Arrangement) -> Seen {
    let mut all = seen(arrangement, &Scene::of(arrangement), With::TwoMirrors);
    assert_eq!(all.len(), 1);
    all.remove(0)
}

/// The test bay with its plate as a corner reflector of this inner edge, mm.
fn reflector(edge_mm: f64, things: Vec<Thing>) -> Arrangement {
    let mut arrangement = with(things);
    let target = &mut arrangement.aiming.placements[0].target;
    target.kind = TargetKind::CornerReflector;
    target.error = AimError::PLACE;
    (target.width_mm, target.height_mm) = (edge_mm * 2.0_f64.sqrt(), 250.0);
    arrangement
}

fn of<'a>(seen: &'a Seen, id: &str) -> Vec<&'a Echo> {
    let is_of = |own: &&Echo| matches!(&own.how, How::Straight { of: Subject::Thing(own), .. } if own.to_string() == id);
    seen.echoes.iter().filter(is_of).collect()
}

fn holds(band: Band, db: f64, within: f64) {
    assert!(band.low() - within <= db && db <= band.high() + within, "{band:?} {db}");
}

/// A reflector of a = 141.4 mm at 2.5 m: 18.2 dBsm (the integral over its aperture, references computed with numpy). The plate of
/// 500 x 500 mm at 4 m: 17.0 dBsm a wide one would have (πR²), the near field makes some dB of that.
#[test]
fn the_targets_own_echo_is_what_the_references_have() {
    let mut near = reflector(141.4, vec![]);
    near.aiming.placements[0].stand_off.distance_mm = 2_500.0;
    let own = looked(&near).own.unwrap();
    assert!((own.range_mm - 2_500.0).abs() < 1.0, "{own:?}");
    holds(own.received.sigma_dbsm, 18.2, 0.1);
    let plate = looked(&with(vec![])).own.unwrap();
    assert!(plate.received.sigma_dbsm.low() > 10.0 && plate.received.sigma_dbsm.high() < 21.0, "{plate:?}");
}

/// A steel sheet before a wall beside the line of sight, no mirror spot on it, is told apart from one that looks at the sensor.
#[test]
fn no_mirror_spot_lies_on_a_sheet_beside() {
    let beside = looked(&reflector(200.0, vec![cabinet("sheet", (7_850.0, 3_800.0), 100.0, 1_000.0)]));
    let found = of(&beside, "sheet");
    assert!(found.iter().all(|own| matches!(own.how, How::Straight { is_spot_on: false, .. })), "{found:?}");
}

/// A steel cabinet 4 m away beside a reflector, its face square to the ray: πR² at most, as strong as the law says; turned by 30° it
/// sends nothing straight back.
#[test]
fn a_cabinet_that_looks_at_the_sensor_may_be_taken_for_the_target() {
    let turned = |degrees: f64| {
        // 4 m away, 8° to the left.
        let ray = angle::radians(8.0);
        let (sin, cos) = angle::sin_cos(ray);
        let mut own = cabinet("cabinet", (0.0, 0.0), 400.0, 900.0);
        let middle = 4_000.0 + 200.0;
        own.place.at = PlanPose::new(
            DVec2::new(4_800.0 + middle * cos, 3_000.0 + middle * sin),
            ray + angle::radians(degrees),
        );
        looked(&reflector(100.0, vec![own]))
    };
    let facing = turned(0.0);
    let found = of(&facing, "cabinet");
    let first = found.first().unwrap();
    assert!(matches!(first.how, How::Straight { is_spot_on: true, .. }), "{first:?}");
    assert!((first.heard.range_mm - 4_000.0).abs() < 1.0);
    assert!(matches!(first.heard.does, Does::Takes), "{first:?}");
    assert_ne!(first.heard.beside.in_cell, Surely::No);
    assert!(first.heard.matters());
    let aside = turned(30.0);
    let most =
        of(&aside, "cabinet").iter().map(|own| own.heard.level_db.high()).fold(f64::NEG_INFINITY, f64::max);
    assert!(most < first.heard.level_db.high() - 15.0, "{most} {first:?}");
}

/// A wall beside: the target is seen again there and back by way of it, at √(D² + 4h²) (image of the target, by hand), h 3 m to
/// either side wall, D 4 m: 7 211 mm; by one way straight and one by the wall half of both, 5 606 mm.
#[test]
fn the_target_is_seen_again_by_way_of_a_side_wall() {
    let seen = looked(&reflector(200.0, vec![]));
    let by = |out: usize, back: usize| {
        seen.echoes.iter().filter(move |own| match &own.how {
            How::TargetBy { out: o, back: b } => {
                let walls = o.iter().chain(b).all(|own| matches!(own, Subject::Wall(_)));
                walls && (o.len(), b.len()) == (out, back)
            }
            _ => false,
        })
    };
    let both: Vec<f64> = by(1, 1).map(|own| own.heard.range_mm).collect();
    let one: Vec<f64> = by(1, 0).chain(by(0, 1)).map(|own| own.heard.range_mm).collect();
    let dihedral = |ranges: &[f64], mm: f64| ranges.iter().any(|own| (own - mm).abs() < 1.0);
    // The reflector turns its back to most of what comes by a wall 56° aside; whatever is told stands where the images are.
    for range in &both {
        assert!((range - 7_211.1).abs() < 1.0, "{both:?}");
    }
    assert!(one.is_empty() || dihedral(&one, 5_605.6), "{one:?}");
    for own in by(1, 0) {
        assert!(own.way.len() == 4 && own.way[0] == own.way[3], "{own:?}");
    }
}

/// The far wall, 7 200 mm before the sensor behind the target: where the target leaves it free it stands where it stands.
#[test]
fn the_far_wall_stands_where_it_stands() {
    let seen = looked(&reflector(200.0, vec![]));
    let walls =
        seen.echoes.iter().filter(|own| matches!(&own.how, How::Straight { of: Subject::Wall(_), .. }));
    let far: Vec<f64> = walls.map(|own| own.heard.range_mm).collect();
    assert!(far.iter().any(|own| (own - 7_200.0).abs() < 1.0), "{far:?}");
}

/// A weak echo 8° aside that the sensor may not tell apart draws the aim by more than a tenth of a degree: that matters. By hand: g of
/// -10 dB is 0.316, and 0.316/0.684 of 8° are 3.7°.
#[test]
fn a_weak_echo_that_draws_the_aim_matters() {
    let ray = angle::radians(8.0);
    let mut own = cabinet("cabinet", (0.0, 0.0), 400.0, 900.0);
    let (sin, cos) = angle::sin_cos(ray);
    own.place.at = PlanPose::new(DVec2::new(4_800.0 + 4_200.0 * cos, 3_000.0 + 4_200.0 * sin), ray);
    let seen = looked(&reflector(200.0, vec![own]));
    let first = of(&seen, "cabinet")[0];
    let Does::Draws { by, limit, is_upright } = first.heard.does else { panic!("{first:?}") };
    let g = baywright_radar::pull::amplitude(first.heard.level_db.high());
    assert!((by - g / (1.0 - g) * ray).abs() < 1e-9, "{first:?}");
    assert!(first.heard.matters() && by > limit && !is_upright);
}

/// Of a board it is not known what it sends back; a camera hears no echoes.
#[test]
fn what_cannot_be_said_is_not() {
    let mut board = clear();
    board.aiming.placements[0].target.kind = TargetKind::Board;
    assert_eq!(looked(&board).own, Err(Untold::Target));
    let mut camera = clear();
    camera.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
    assert!(seen(&camera, &Scene::of(&camera), With::TwoMirrors).is_empty());
}

/// What hides the target takes away what others are set against; a thing that is wholly hidden sends nothing back.
#[test]
fn what_is_hidden_is_not_heard() {
    let hidden = reflector(200.0, vec![cabinet("box", (6_800.0, 3_000.0), 400.0, 800.0)]);
    assert_eq!(looked(&hidden).own, Err(Untold::OutOfReach));
    // A screen beside the line of sight with a cabinet straight behind it.
    let screen = cabinet("screen", (6_800.0, 3_600.0), 20.0, 700.0);
    let mut behind = cabinet("behind", (7_400.0, 3_750.0), 200.0, 100.0);
    behind.span = span(0.0, 600.0);
    let seen = looked(&reflector(200.0, vec![screen, behind]));
    assert!(of(&seen, "behind").is_empty(), "{:?}", of(&seen, "behind"));
    assert!(!of(&seen, "screen").is_empty());
}

/// What is told to take an echo away does: done, no echo of that thing matters any more, and nothing more stops; half of a turn, if it
/// is more than a few degrees, does not.
#[test]
fn a_way_out_takes_the_echo_away() {
    let ray = angle::radians(8.0);
    let (sin, cos) = angle::sin_cos(ray);
    let mut own = cabinet("cabinet", (0.0, 0.0), 400.0, 900.0);
    own.place.at = PlanPose::new(DVec2::new(4_800.0 + 4_200.0 * cos, 3_000.0 + 4_200.0 * sin), ray);
    let mut before = reflector(100.0, vec![own]);
    before.aiming.zones.clear();
    let seen = looked(&before);
    let first = of(&seen, "cabinet")[0];
    assert!(!first.cures.is_empty(), "{first:?}");
    let stops = |own: &Arrangement| crate::judge::judge(own).count(Severity::Stops);
    for cure in &first.cures {
        let mut after = before.clone();
        match cure.at {
            Some(at) => after.bay.things[0].place.at = at,
            None => after.bay.things.clear(),
        }
        let then = looked(&after);
        assert!(of(&then, "cabinet").iter().all(|own| !own.heard.matters()), "{cure:?} {then:?}");
        assert!(stops(&after) <= stops(&before));
        if let super::Done::Turned(by) = cure.how
            && by.abs() > angle::radians(4.0)
        {
            after.bay.things[0].place.at =
                PlanPose::new(before.bay.things[0].place.at.origin(), ray + 0.5 * by);
            assert!(of(&looked(&after), "cabinet").iter().any(|own| own.heard.matters()), "{cure:?}");
        }
    }
    assert!(matches!(first.cures.last().unwrap().how, super::Done::Out));
    // A parked car and somebody who stands there only leave; what is fixed or hinged has no way out.
    for (kind, most) in [(ThingKind::ParkedCar, 1), (ThingKind::Person, 1), (ThingKind::LiftArm, 0)] {
        before.bay.things[0].kind = kind;
        let cures: Vec<_> =
            of(&looked(&before), "cabinet").iter().flat_map(|own| own.cures.clone()).collect();
        assert!(
            cures.len() <= most && cures.iter().all(|own| own.how == super::Done::Out),
            "{kind:?} {cures:?}"
        );
    }
    before.bay.things[0].kind = ThingKind::Cabinet;
    before.bay.things[0].effort = Effort::Fixed;
    assert!(of(&looked(&before), "cabinet").iter().all(|own| own.cures.is_empty()));
}

/// A turned plate sends straight back next to nothing, but mirrors the sensor into the side wall: sensor, plate, wall and back are told
/// as a way by two mirrors, however weak the plate's own echo is. By hand: the sensor's image behind the wall 3 m aside lies 6 m aside,
/// seen from the plate atan(6/4) = 56.31° off the line to the sensor; turned by half of that the plate looks between the two.
#[test]
fn a_plate_that_is_turned_mirrors_into_the_room() {
    let mut turned = clear();
    turned.aiming.zones.clear();
    turned.aiming.placements[0].turned_rad = 0.5 * libm::atan2(6.0, 4.0);
    let seen = looked(&turned);
    let by = |own: &&Echo| match &own.how {
        How::Round { by } => by.iter().any(|own| matches!(own, Subject::Target(_))),
        _ => false,
    };
    assert!(seen.echoes.iter().any(|own| by(&own)), "{:#?}", seen.echoes);
    let own = |own: &&Echo| matches!(&own.how, How::Straight { of: Subject::Target(_), .. });
    assert!(!seen.echoes.iter().any(|echo| own(&echo)), "its own echo is what others are set against");
}

/// In the keep-clear zone a small turn may take the echo away, and the zone still stops: only what takes the thing out of it is told.
#[test]
fn no_way_out_leaves_a_thing_in_a_zone() {
    let ray = angle::radians(14.0);
    let (sin, cos) = angle::sin_cos(ray);
    let mut own = cabinet("cabinet", (0.0, 0.0), 400.0, 900.0);
    own.place.at = PlanPose::new(DVec2::new(4_800.0 + 4_200.0 * cos, 3_000.0 + 4_200.0 * sin), ray);
    let zoned = reflector(100.0, vec![own]);
    let its = |own: &Arrangement| {
        let of = Subject::Thing("cabinet".into());
        crate::judge::judge(own)
            .findings
            .iter()
            .any(|own| own.severity == Severity::Stops && own.subjects.contains(&of))
    };
    assert!(its(&zoned));
    let seen = looked(&zoned);
    let first = of(&seen, "cabinet")[0];
    assert!(first.heard.matters() && !first.cures.is_empty(), "{first:?}");
    for cure in &first.cures {
        let mut after = zoned.clone();
        match cure.at {
            Some(at) => after.bay.things[0].place.at = at,
            None => after.bay.things.clear(),
        }
        assert!(!its(&after), "{cure:?}");
    }
}

/// What findings are made of is what matters of all that is told, however large the hall: 60 halls with boxes and drums where a rule of
/// remainders puts them, the target at 1.5 to 6 m.
#[test]
fn what_is_near_is_all_that_matters() {
    let mut matter = 0;
    for seed in 0..60_u32 {
        let mut state = seed.wrapping_mul(2_654_435_761).wrapping_add(12_345);
        let mut next = |most: f64| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(state >> 8) / f64::from(1_u32 << 24) * most
        };
        let things = (0..30).map(|nth| {
            let (at, size) =
                ((200.0 + next(23_000.0), 200.0 + next(5_600.0)), (50.0 + next(900.0), 50.0 + next(900.0)));
            let mut own = match nth % 4 {
                0 => column(&format!("column {nth}"), at, size.0),
                _ => cabinet(&format!("box {nth}"), at, size.0, size.1),
            };
            own.place.at = PlanPose::new(own.place.at.origin(), next(6.3));
            own
        });
        let mut arrangement = reflector(80.0 + 20.0 * f64::from(seed % 6), things.collect());
        arrangement.bay.room = rectangle((0.0, 0.0), (24_000.0, 6_000.0));
        arrangement.aiming.placements[0].stand_off.distance_mm = 1_500.0 + 900.0 * f64::from(seed % 6);
        let scene = Scene::of(&arrangement);
        let of = |with: With| {
            let all = seen(&arrangement, &scene, with).into_iter().flat_map(|own| own.echoes);
            all.filter(|own| own.heard.matters()).map(|own| (own.how, own.heard.level_db)).collect::<Vec<_>>()
        };
        let (near, all) = (of(With::WhatMatters), of(With::OneMirror));
        matter += all.len();
        assert_eq!(near, all, "{seed}");
    }
    assert!(matter > 60, "{matter}");
}
