//! What an echo says of each kind of thing and each stuff: looking straight at a radar beside its target, at the target's own distance,
//! it is told as a finding that names it; turned well away, and far behind, it is not. Walls, shut doors, runways, what stands proud of
//! the floor or lies in it, and other targets that are up alike. What sends back so little that it is not told has its reason.

use super::judge;
use super::support::*;

/// What is told of echoes, each by a test here.
pub const CODES: [Code; 3] = [Code::EchoTaken, Code::EchoDraws, Code::EchoesTogether];

/// Every stuff.
const ALL: [Material; 15] = [
    Material::Steel,
    Material::Aluminium,
    Material::Foil,
    Material::Mesh,
    Material::CarBody,
    Material::Person,
    Material::Concrete,
    Material::Brick,
    Material::Plasterboard,
    Material::Wood,
    Material::Glass,
    Material::Plastic,
    Material::Rubber,
    Material::Cloth,
    Material::Unknown,
];

/// A bay in which nothing else is asked: no zone, no mark, no foot of a stand.
fn clear_of_zones() -> Arrangement {
    let mut own = clear();
    own.aiming.zones.clear();
    own.aiming.mark_plan.clear();
    let placement = &mut own.aiming.placements[0];
    (placement.mark, placement.target.stand) = (None, None);
    own
}

/// The same, the car turned so that its target lies 8 degrees beside the square onto a far wall, in a room so long.
fn before_a_wall(length: f64) -> Arrangement {
    let mut own = clear_of_zones();
    own.parked = PlanPose::new(own.parked.origin(), angle::radians(8.0));
    own.bay.room = rectangle((0.0, 0.0), (length, 6_000.0));
    own
}

/// A board of so much stuff, 1 m wide, its near face at the target's distance and 850 mm to its left, turned so far from looking at the
/// sensor, and so much further away.
fn beside(kind: ThingKind, material: Material, turned_deg: f64, further_mm: f64) -> Arrangement {
    let mut own = clear_of_zones();
    let at = DVec2::new(4_000.0 + further_mm, 850.0);
    let looks_at = at.y.atan2(at.x) + angle::radians(turned_deg);
    let mut thing = cabinet("thing", (4_800.0 + at.x, 3_000.0 + at.y), 100.0, 1_000.0);
    thing.place.at = PlanPose::new(thing.place.at.origin(), looks_at);
    (thing.kind, thing.material) = (kind, material);
    own.bay.things.push(thing);
    own
}

fn told(arrangement: &Arrangement, of: &Subject) -> Vec<Severity> {
    let findings = judge(arrangement).findings;
    let its = findings.into_iter().filter(|own| own.is_of_echo() && own.subjects.first() == Some(of));
    its.map(|own| own.severity).collect()
}

#[test]
fn every_kind_and_stuff_that_looks_at_the_radar_beside_its_target_is_told() {
    let thing = Subject::Thing("thing".into());
    let mut wrong = Vec::new();
    for kind in ThingKind::ALL {
        for material in ALL {
            let found = told(&beside(kind, material, 0.0, 0.0), &thing);
            if found != [Severity::Care] {
                wrong.push(format!("{kind:?} of {material:?}: {found:?}"));
            }
            let found = told(&beside(kind, material, 45.0, 2_500.0), &thing);
            if !found.is_empty() && material != Material::Unknown {
                wrong.push(format!("{kind:?} of {material:?} turned away: {found:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}

/// Nearer to the axis, where the beam takes less off it, a steel board is as good as the target: a turn takes it away, and so it is said
/// beside the frame; the plate itself stays the target.
#[test]
fn a_steel_board_near_the_axis_may_be_taken_for_the_target() {
    let mut own = clear_of_zones();
    let at = DVec2::new(4_000.0, 600.0);
    let mut board = cabinet("board", (4_800.0 + at.x, 3_000.0 + at.y), 50.0, 600.0);
    board.place.at = PlanPose::new(board.place.at.origin(), at.y.atan2(at.x));
    own.bay.things.push(board);
    let full = baywright_planner::assess_fully(&own);
    let found = full.findings.iter().find(|own| own.code() == Code::EchoTaken).expect("taken");
    let cure = found.cure.clone().expect("a way out");
    assert!(matches!(cure.step, Step::TurnThing { .. }), "{cure:?}");
    let after = judge(&baywright_planner::cure::apply(&own, &cure.step));
    assert!(!after.findings.iter().any(Finding::is_of_echo), "{:?}", after.findings);
}

/// The far wall stands close behind the target, of each stuff that walls are of; at the far end of a long room it is told apart.
#[test]
fn a_wall_close_behind_the_target_is_told() {
    let room = |length: f64, material: Material| {
        let mut own = before_a_wall(length);
        own.bay.walls[1].material = material;
        own
    };
    for material in [Material::Steel, Material::Brick, Material::Concrete, Material::Plasterboard] {
        let wall = Subject::Wall(clear().bay.walls[1].id.clone());
        assert_eq!(told(&room(8_950.0, material), &wall), [Severity::Care], "{material:?}");
        assert!(told(&room(14_000.0, material), &wall).is_empty(), "{material:?} far away");
    }
}

/// A shut roller door there is told by its own name, an open one not at all.
#[test]
fn a_shut_door_close_behind_the_target_is_told() {
    let with_door = |shut: bool| {
        let mut own = before_a_wall(8_950.0);
        own.bay.openings = vec![Opening { shut, ..open_door(1, 1_500.0, 3_000.0, 5_000.0) }];
        own.bay.openings[0].material = Material::Steel;
        own
    };
    let door = Subject::Opening(with_door(true).bay.openings[0].id.clone());
    assert_eq!(told(&with_door(true), &door), [Severity::Care]);
    assert!(told(&with_door(false), &door).is_empty());
}

/// The floor itself mirrors the target in every bay; a steel grate where it does is told, and one of concrete, or elsewhere, is not.
#[test]
fn a_grate_where_the_floor_mirrors_the_target_is_told() {
    let with_grate = |x: f64, material: Material| {
        let mut own = clear_of_zones();
        own.bay.floor_features.push(FloorFeature {
            id: "gully".into(),
            kind: FloorFeatureKind::Drain,
            outline: rectangle((x - 150.0, 2_000.0), (x + 150.0, 4_000.0)),
            material,
            proud_mm: 0.0,
        });
        own
    };
    let gully = Subject::FloorFeature("gully".into());
    assert_eq!(told(&with_grate(6_800.0, Material::Steel), &gully), [Severity::Care]);
    assert!(told(&with_grate(6_800.0, Material::Concrete), &gully).is_empty());
    assert!(told(&with_grate(5_200.0, Material::Steel), &gully).is_empty());
    assert!(told(&with_grate(10_000.0, Material::Steel), &gully).is_empty());
}

/// What keeps out anything that reflects more than a level, by what stands in it: a steel plate that looks at the sensor does, the same
/// turned away may if somebody turns it, a small thing of plastic does not.
#[test]
fn a_zone_by_level_judges_what_stands_in_it() {
    let in_zone = |turned_deg: f64, material: Material, size: [f64; 2], level: f64| {
        let mut own = clear();
        own.aiming.zones[0].excludes = Exclusion::Reflecting(level);
        let mut thing = cabinet("thing", (7_500.0, 4_000.0), size[0], size[1]);
        let looks = 1_000.0_f64.atan2(2_700.0) + angle::radians(turned_deg);
        thing.place.at = PlanPose::new(thing.place.at.origin(), looks);
        thing.material = material;
        thing.metal = Some(material.metal());
        own.bay.things.push(thing);
        let found = judge(&own).findings.into_iter();
        let its = found.filter(|own| own.subjects.first() == Some(&Subject::Thing("thing".into())));
        its.filter(|own| matches!(own.code(), Code::ZoneObject | Code::ZoneUnjudged))
            .map(|own| (own.code(), own.severity))
            .collect::<Vec<_>>()
    };
    let stops = vec![(Code::ZoneObject, Severity::Stops)];
    let open = vec![(Code::ZoneUnjudged, Severity::Care)];
    assert_eq!(in_zone(0.0, Material::Steel, [100.0, 800.0], 0.0), stops);
    assert_eq!(in_zone(30.0, Material::Steel, [100.0, 800.0], 0.0), open);
    assert_eq!(in_zone(0.0, Material::Unknown, [100.0, 800.0], 0.0), open);
    assert_eq!(in_zone(0.0, Material::Steel, [100.0, 800.0], 40.0), []);
    assert_eq!(in_zone(0.0, Material::Wood, [20.0, 20.0], 30.0), []);
}

/// Two boards that each draw the aim by less than is allowed draw it further together.
#[test]
fn what_none_does_alone_all_do_together() {
    let boards = |count: usize, limit_deg: f64| {
        let mut own = clear_of_zones();
        own.aiming.tolerance.azimuth_rad = angle::radians(limit_deg);
        for side in [1.0, -1.0].into_iter().take(count) {
            let mut board = beside(ThingKind::Cabinet, Material::Brick, 0.0, 0.0).bay.things.pop().unwrap();
            let at = board.place.at;
            let y = 3_000.0 + side * (at.origin().y - 3_000.0);
            board.place.at = PlanPose::new(DVec2::new(at.origin().x, y), side * at.heading());
            board.id = format!("board {side}").as_str().into();
            own.bay.things.push(board);
        }
        let findings = judge(&own).findings;
        let alone = findings.iter().filter(|own| own.is_of_echo()).count();
        let together = findings.iter().find(|own| own.code() == Code::EchoesTogether).cloned();
        (alone, together)
    };
    // One alone draws it by so much; the bound of both together is more than twice that.
    let (_, none) = boards(1, 0.1);
    assert_eq!(none, None);
    let one = judge(&beside(ThingKind::Cabinet, Material::Brick, 0.0, 0.0));
    let one = one.findings.iter().find(|own| own.code() == Code::EchoDraws).cloned().expect("a pull");
    let Some(Quantity::Angle(by)) = one.measured else { panic!("{one:?}") };
    let (alone, together) = boards(2, angle::degrees(by) * 1.2);
    let together = together.expect("both together");
    assert_eq!((alone, together.severity), (0, Severity::Care));
    let Some(Quantity::Angle(both)) = together.measured else { panic!("{together:?}") };
    assert!(both > 2.0 * by, "{both} {by}");
}
