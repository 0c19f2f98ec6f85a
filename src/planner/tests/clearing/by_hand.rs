//! Cases that are worked out by hand. The set-up reaches from the car's tail at -3400 to the beam's end at 5800, the beam's sides
//! 1500 to either side: 9200 by 3000; the car's body is 1800 wide, its mirrors 2000.

use std::f64::consts::PI;

use baywright_planner::clearing::{Asked, Cleared, Surety, Where, cleared};
use baywright_planner::geometry::DVec2;
use baywright_planner::place::{corners, stood};

use crate::cure::apply;
use crate::support::*;
use crate::{Severity, Step, judge};

/// Asks with the nose along the room, and back.
pub fn ask(own: &Arrangement, headings: &[f64]) -> Cleared {
    let headings: Vec<(f64, bool)> = headings.iter().map(|&own| (own, true)).collect();
    let asked = Asked { at: Where::Anywhere, headings: &headings, costs: &[] };
    let found = cleared(own, &asked, &|| false, &mut |_| {});
    confirm(own, &found);
    found
}

/// What is given is so: nothing stops anywhere within the slack, and nothing that went is in a wall or in another thing.
pub fn confirm(own: &Arrangement, found: &Cleared) {
    let Some(way) = &found.way else { return };
    let after = way.moves.iter().fold(own.clone(), |own, next| apply(&own, &next.step));
    for pose in corners(&way.offer.spot) {
        assert_eq!(judge(&stood(&after, pose)).count(Severity::Stops), 0, "{way:?}");
    }
    let said = judge(&stood(&after, way.offer.spot.pose));
    for code in [Code::ThingPlace, Code::KeepFree] {
        let before: Vec<_> = judge(own).findings.into_iter().filter(|own| own.code() == code).collect();
        for new in said.findings.iter().filter(|own| own.code() == code) {
            assert!(before.iter().any(|old| old.subjects == new.subjects), "{new:?} of {way:?}");
        }
    }
    assert_eq!(said.verdict, way.verdict);
}

/// A room so wide that only what stands off its wall is in the way; nothing can leave by its door.
pub fn room(length: f64, width: f64, things: Vec<Thing>) -> Arrangement {
    let mut own = with(things);
    own.bay.room = rectangle((0.0, 0.0), (length, width));
    own.bay.survey = None;
    own.bay.ceiling_mm = 4_000.0;
    // A hatch that nothing passes.
    let hatch = open_door(0, length - 400.0, 150.0, 0.0);
    own.bay.openings = vec![Opening { shut: true, kind: OpeningKind::SwingDoor, ..hatch }];
    own
}

/// A cabinet with its front 200 mm too far into the room: it goes to the wall behind it, or nearly.
#[test]
fn a_cabinet_200_mm_too_near() {
    // The beam has 900 to the wall, the cabinet reaches to 1100.
    let own = room(9_400.0, 3_900.0, vec![cabinet("cabinet", (7_000.0, 800.0), 600.0, 600.0)]);
    let found = ask(&own, &[0.0]);
    let way = found.way.unwrap();
    assert_eq!((found.surety, way.hands, found.is_partial), (Surety::Proven, 1, false));
    let [only] = way.moves.as_slice() else { panic!("{way:?}") };
    let Step::MoveThing { thing, by } = &only.step else { panic!("{only:?}") };
    assert_eq!(thing.as_str(), "cabinet");
    assert!(by.x.abs() < 1.0 && (-500.0..=-200.0).contains(&by.y), "{by}");
    assert!((way.way_mm - by.length()).abs() < 1e-9);
    assert_eq!(only.towards[0].wall.as_str(), "right wall");
    assert!((only.towards[0].mm + by.y).abs() < 1e-9);
    assert!(way.offer.spot.slack.mm >= 1.0);
}

/// What stands in the way of nothing stays, and what is harder to move too where something else does.
#[test]
fn the_easier_of_two_goes() {
    // On either side one: with the car against the other wall one of them may stay.
    let hard = Thing { effort: Effort::ForkLift, ..cabinet("hard", (7_000.0, 500.0), 600.0, 600.0) };
    let easy = cabinet("easy", (7_000.0, 3_600.0), 600.0, 600.0);
    let aside = cabinet("aside", (1_000.0, 250.0), 400.0, 400.0);
    let own = room(9_400.0, 4_100.0, vec![hard, easy, aside]);
    let found = ask(&own, &[0.0]);
    let way = found.way.unwrap();
    assert_eq!((found.surety, way.hands), (Surety::Proven, 1));
    assert!(
        matches!(&way.moves[0].step, Step::MoveThing { thing, .. } if thing.as_str() == "easy"),
        "{way:?}"
    );
}

/// A niche in which the deeper of two stands out, and one into which it would go, but for the other that stands there.
#[test]
fn two_that_can_only_swap() {
    let far = |y: f64| y + 3_060.0;
    let ring = [
        (0.0, 0.0),
        (9_650.0, 0.0),
        (9_650.0, far(0.0)),
        (8_700.0, far(0.0)),
        (8_700.0, far(900.0)),
        (8_000.0, far(900.0)),
        (8_000.0, far(0.0)),
        (7_000.0, far(0.0)),
        (7_000.0, far(700.0)),
        (6_000.0, far(700.0)),
        (6_000.0, far(0.0)),
        (0.0, far(0.0)),
    ];
    let deep = cabinet("deep", (6_500.0, far(290.0)), 660.0, 800.0);
    let flat = cabinet("flat", (8_350.0, far(340.0)), 660.0, 660.0);
    let mut own = room(9_650.0, 3_060.0, vec![deep, flat]);
    own.bay.room = Polygon::simple(ring.map(DVec2::from).to_vec()).unwrap();
    own.bay.walls = (0..ring.len())
        .map(|nth| Wall { id: format!("wall {nth}").as_str().into(), material: Material::Brick })
        .collect();
    let found = ask(&own, &[0.0]);
    let way = found.way.as_ref().expect("they swap");
    assert_eq!((way.hands, way.moves.len()), (2, 2), "{found:?}");
    let by = |name: &str| {
        way.moves.iter().find_map(|own| match &own.step {
            Step::MoveThing { thing, by } if thing.as_str() == name => Some(*by),
            _ => None,
        })
    };
    assert!(by("deep").unwrap().x > 1_500.0 && by("flat").unwrap().x < -1_500.0, "{way:?}");
    // The deep one alone would leave the car a place; that it has none itself was not proven.
    assert_eq!(found.surety, Surety::BestFound);
}

/// What stays where it is leaves no place, and what could go does not help: that is proven.
#[test]
fn what_cannot_be_moved_is_not() {
    let stays = column("column", (6_500.0, 1_800.0), 400.0);
    let own = room(9_600.0, 3_600.0, vec![stays, cabinet("cabinet", (1_000.0, 300.0), 500.0, 500.0)]);
    let found = ask(&own, &[0.0]);
    assert_eq!((found.way, found.surety, found.movable), (None, Surety::Proven, 1));
    let mut alone = own.clone();
    alone.bay.things.retain(|own| own.effort == Effort::Fixed);
    let found = ask(&alone, &[0.0, PI]);
    assert_eq!((found.surety, found.movable), (Surety::Proven, 0));
}

/// A lift's arm that could be swung is not looked at: nothing is proven then.
#[test]
fn an_arm_that_could_be_swung_leaves_it_open() {
    let arm = Thing { kind: ThingKind::LiftArm, ..cabinet("arm", (7_000.0, 1_800.0), 600.0, 200.0) };
    let mut own = room(9_600.0, 3_600.0, vec![arm, cabinet("cabinet", (1_000.0, 300.0), 500.0, 500.0)]);
    let found = ask(&own, &[0.0]);
    assert_eq!((found.way, found.surety), (None, Surety::BestFound));
    own.bay.things[0].effort = Effort::Fixed;
    assert_eq!(ask(&own, &[0.0]).surety, Surety::Proven);
}

/// Full of cabinets, and no door lets one out: none is found, and it is not said that there is none.
#[test]
fn a_room_in_which_nothing_can_go_anywhere() {
    let all = (0..15).map(|nth| {
        let (x, y) = (f64::from(nth % 5), f64::from(nth / 5));
        let name = format!("cabinet {nth}");
        cabinet(&name, (960.0 + 1_920.0 * x, 600.0 + 1_200.0 * y), 1_900.0, 1_180.0)
    });
    let own = room(9_600.0, 3_600.0, all.collect());
    let found = ask(&own, &[0.0]);
    assert!(found.way.is_none());
    assert_eq!((found.surety, found.movable), (Surety::BestFound, 15));
    // With a door, out they go: all of them but what the car leaves room for.
    let mut open = own;
    open.bay.openings = vec![Opening { shut: true, ..open_door(1, 100.0, 3_000.0, 0.0) }];
    let found = ask(&open, &[0.0]);
    let way = found.way.expect("there is a door");
    assert!(way.moves.iter().any(|own| matches!(own.step, Step::TakeAway { .. })), "{way:?}");
    assert_eq!(found.surety, Surety::BestFound);
}

/// People leave, and are carried nowhere.
#[test]
fn people_step_out() {
    let someone = Thing {
        kind: ThingKind::Person,
        material: Material::Person,
        ..cabinet("Jo", (7_000.0, 1_700.0), 400.0, 400.0)
    };
    let mut own = room(9_400.0, 3_300.0, vec![someone]);
    own.aiming.zones[0].excludes = Exclusion::Anything;
    own.bay.openings =
        vec![Opening { kind: OpeningKind::SwingDoor, shut: true, ..open_door(0, 100.0, 900.0, 0.0) }];
    let found = ask(&own, &[0.0]);
    let way = found.way.unwrap();
    assert_eq!((found.surety, way.hands), (Surety::Proven, 1));
    assert!(matches!(&way.moves[0].step, Step::TakeAway { thing } if thing.as_str() == "Jo"));
}

/// Where it fits already nothing goes; a way that is kept free stays so.
#[test]
fn nothing_goes_where_it_fits_and_nothing_into_a_way() {
    let own = room(9_400.0, 3_300.0, Vec::new());
    let found = ask(&own, &[0.0]);
    let way = found.way.unwrap();
    assert!(way.moves.is_empty() && way.hands == 0 && found.surety == Surety::Proven);
    // The cabinet of above with all of the wall behind it kept free, but for a piece far along.
    let mut own = room(12_000.0, 3_900.0, vec![cabinet("cabinet", (7_000.0, 800.0), 600.0, 600.0)]);
    let area = rectangle((0.0, 0.0), (10_500.0, 800.0));
    own.bay.keep_free = vec![KeepFree { id: "way out".into(), kind: KeepFreeKind::Exit, outline: area }];
    let found = ask(&own, &[0.0]);
    for step in found.way.iter().flat_map(|own| &own.moves).map(|own| &own.step) {
        let Step::MoveThing { by, .. } = step else { continue };
        let at = DVec2::new(7_000.0, 800.0) + *by;
        assert!(at.x - 300.0 >= 10_500.0 || at.y - 300.0 >= 800.0, "{at}");
    }
}

/// A stop leaves what is known, marked.
#[test]
fn a_stop_is_marked() {
    let own = room(9_400.0, 3_900.0, vec![cabinet("cabinet", (7_000.0, 800.0), 600.0, 600.0)]);
    let asked = Asked { at: Where::Anywhere, headings: &[(0.0, true)], costs: &[] };
    let found = cleared(&own, &asked, &|| true, &mut |_| {});
    assert!(found.is_partial && found.way.is_none() && found.surety == Surety::BestFound);
    // What stops everywhere is said, and nothing goes.
    let mut low = own;
    low.bay.ceiling_mm = 1_400.0;
    let found = ask(&low, &[0.0]);
    assert!(!found.remains.is_empty() && found.way.is_none());
}
