//! What a change of the building unlocks.

use baywright_planner::matrix::{
    Change, DoorStays, Line, OfChanges, Place, Stands, Unlocked, changed, changes_of, doors_that_stay,
    ground_mm, ranked, row, unlocked, unlocked_by_all,
};
use baywright_planner::place::Margin;

use crate::judge;
use crate::made::{line, now, stands};
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
    let all = changes_of(&own.bay, &[]);
    assert_eq!(all.len(), own.bay.walls.len());
    let of =
        OfChanges { lines: &lines, now: &[None], place: &Place::Room, further_mm: 1_200.0, margin: &margin };
    for change in &all {
        let found = unlocked(&of, change, &|| false);
        let Change::Further(wall) = change else { panic!("there is no thing") };
        let nth = own.bay.walls.iter().position(|own| own.id == *wall).unwrap();
        assert_eq!(!found.lines.is_empty(), is_across(nth, &own), "{wall}");
        assert!(!found.is_partial);
    }
    let after = changed(&own, &Change::Further(name), 1_200.0).unwrap();
    assert!((after.bay.room.bounds().size().x - own.bay.room.bounds().size().x - 1_200.0).abs() < 1e-6);
    // Whoever fits already is not asked, and is unlocked by nothing.
    let known = now(&[line(clear())], &Place::Room, &margin);
    let none = unlocked(&OfChanges { now: &known, ..of }, &all[0], &|| false);
    assert_eq!(none.lines, Vec::<usize>::new());
    let stopped = unlocked(&of, &all[0], &|| true);
    assert!(stopped.is_partial && stopped.lines.is_empty());
}

/// By worth, and by worth for the money; what has no price stands last where money counts.
#[test]
fn changes_are_ranked_by_worth_and_for_the_money() {
    let own = |name: &str, lines: &[usize]| Unlocked {
        change: Change::Without(name.into()),
        lines: lines.to_vec(),
        eases: Vec::new(),
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
    // Of what unlocks as much what leaves less to mind.
    let easing = Unlocked { eases: vec![1], ..own("lamp", &[0]) };
    let all =
        [own("cabinet", &[0]), own("barrel", &[]), easing, Unlocked { eases: vec![0], ..own("bin", &[]) }];
    assert_eq!(ranked(&all, weight, |_| None, false), [2, 0, 3, 1]);
    assert_eq!(all.iter().map(Unlocked::is_of_use).collect::<Vec<bool>>(), [true, false, true, true]);
}

/// The steel swing door of 900 mm in the left wall, which stands open.
fn open_leaf() -> Opening {
    Opening { material: Material::Steel, shut: false, ..side_door() }
}

/// A wide door for the car in the near wall.
fn gate() -> Opening {
    Opening { id: "gate".into(), ..open_door(3, 1_500.0, 3_000.0, 0.0) }
}

/// What is asked of one set-up where its car stands, whatever the shop parks off.
fn asked<T>(own: &Arrangement, further_mm: f64, ask: impl FnOnce(&OfChanges<'_>) -> T) -> T {
    let place = Place::Parked {
        of: own.id.clone(),
        pose: own.parked,
        on_runways: own.on_runways.clone(),
        in_bay: own.in_bay.clone(),
    };
    let margin = crate::place::Margin { mm: 0.0, rad: 0.0 };
    let lines = [line(own.clone())];
    let known = now(&lines, &place, &margin);
    ask(&OfChanges { lines: &lines, now: &known, place: &place, further_mm, margin: &margin })
}

/// The leaf may stand in the zone, which ends 1500 mm left of the car's middle: walled up it does not. That stops nothing, so it unlocks
/// nothing. The wall with the door in it further out does the same; all other changes leave as much to mind.
#[test]
fn a_door_walled_up_leaves_less_to_mind_and_unlocks_nothing() {
    let mut own = clear();
    own.parked = PlanPose::new(DVec2::new(4_000.0, 3_700.0), 0.0);
    own.bay.openings = vec![open_leaf(), gate()];
    own.kept_shut = vec!["side door".into()];
    let before = judge(&own);
    assert!(before.findings.iter().any(|own| own.code() == Code::DoorLeaf));
    let care = before.count(Severity::Care);
    asked(&own, 1_000.0, |of| {
        assert_eq!(of.now[0].as_ref().map(|own: &Stands| own.care), Some(care));
        let stay = doors_that_stay(of);
        assert_eq!(stay, [("gate".into(), DoorStays::WayIn)]);
        for change in changes_of(of.bay().unwrap(), &stay) {
            let found = unlocked(of, &change, &|| false);
            let after = changed(&own, &change, 1_000.0).unwrap();
            // The checks' own count, which asks nothing of how it was found.
            let eases = judge(&after).count(Severity::Care) < care;
            assert_eq!((found.lines.len(), found.eases.len()), (0, usize::from(eases)), "{change:?}");
            let of_door = [Change::WalledUp("side door".into()), Change::Further("left wall".into())];
            assert_eq!(eases, of_door.contains(&change), "{change:?}");
            if let Change::WalledUp(id) = &change {
                assert!(after.kept_shut.is_empty() && after.bay.openings.iter().all(|own| own.id != *id));
            }
        }
    });
}

/// Of a bay 9 m long, 200 mm too short, the far wall has a door as wide as the zone: with ground beyond it the aiming fits, if its lintel
/// lets the zone of 1500 mm through. Brute force along the room, by the checks alone, agrees for each door and each length of ground.
#[test]
fn a_door_onto_free_ground_unlocks_what_passes_it() {
    let margin = crate::place::Margin { mm: 0.0, rad: 0.0 };
    let mut short = clear();
    short.bay.room = rectangle((0.0, 0.0), (9_000.0, 3_400.0));
    short.bay.survey = None;
    let (mut opened, mut shut_out) = (0, 0);
    for (lintel, shut, known, further) in [
        (2_500.0, true, 0.0, 1_000.0),
        (2_500.0, false, 100.0, 50.0),
        (2_500.0, false, 100.0, 400.0),
        // Opened it is enough: no more is asked of the ground.
        (2_500.0, true, 600.0, 1.0),
        (1_400.0, true, 0.0, 1_000.0),
    ] {
        let mut own = short.clone();
        own.kept_shut = vec!["roller door".into()];
        let door = Opening { shut, span: span(0.0, lintel), ..open_door(1, 50.0, 3_300.0, known) };
        let ground = ground_mm(&door, further);
        assert_eq!(ground, if shut && known > 0.0 { known } else { known + further });
        own.bay.openings = vec![door];
        let lines = [line(own.clone())];
        let known = now(&lines, &Place::Room, &margin);
        assert_eq!(known, [None], "it does not fit as it is");
        let of = OfChanges {
            lines: &lines,
            now: &known,
            place: &Place::Room,
            further_mm: further,
            margin: &margin,
        };
        let change = Change::OpenOnto("roller door".into());
        let found = unlocked(&of, &change, &|| false);
        let after = changed(&own, &change, further).unwrap();
        assert!(after.kept_shut.is_empty() && after.bay.openings[0].is_open());
        // Across there is no choice, and the nose is along the room.
        let along = (0..110).map(|nth| DVec2::new(100.0 * f64::from(nth) + 51.3, 1_700.0));
        let mut poses =
            along.flat_map(|at| [0.0, std::f64::consts::PI].map(|heading| PlanPose::new(at, heading)));
        let is_any = poses.any(|pose| stands(&after, pose));
        assert_eq!(found.lines.len(), usize::from(is_any), "{lintel} {ground}");
        opened += usize::from(is_any);
        shut_out += usize::from(!is_any);
    }
    assert_eq!((opened, shut_out), (3, 2));
}

/// A way out, the way to one, the last way in for people or for a car of the list, and what an aiming stands out of stay; what is left over
/// may go, but not all of it at once.
#[test]
fn a_door_that_has_to_stay_is_not_walled_up() {
    let stay = |own: &Arrangement| asked(own, 1_000.0, doors_that_stay);
    let mut own = clear();
    own.bay.openings = vec![side_door()];
    assert_eq!(stay(&own), [("side door".into(), DoorStays::WayIn)]);
    // The car comes by the gate alone, people by either.
    own.bay.openings.push(gate());
    assert_eq!(stay(&own), [("gate".into(), DoorStays::WayIn)]);
    own.bay.openings[0].is_exit = true;
    assert_eq!(stay(&own)[0], ("side door".into(), DoorStays::Exit));
    own.bay.openings[0].is_exit = false;
    // A way that is kept free ends 300 mm before the wall; 600 mm before it, it leads elsewhere.
    for (far, is_led) in [(5_700.0, true), (5_400.0, false)] {
        own.bay.keep_free = vec![KeepFree {
            id: "way out".into(),
            kind: KeepFreeKind::Exit,
            outline: rectangle((7_300.0, 4_800.0), (7_900.0, far)),
        }];
        let is_told = stay(&own).contains(&("side door".into(), DoorStays::Exit));
        assert_eq!(is_told, is_led, "{far}");
    }
    own.bay.keep_free.clear();
    // A window is no way in.
    own.bay.openings[0].kind = OpeningKind::Window;
    assert_eq!(stay(&own), [("gate".into(), DoorStays::WayIn)]);
    // Two doors for the car: each may go, both may not.
    let other = Opening { id: "other gate".into(), ..open_door(0, 1_000.0, 3_000.0, 0.0) };
    own.bay.openings.push(other);
    assert_eq!(stay(&own), []);
    asked(&own, 1_000.0, |of| {
        let of = OfChanges { now: &[None], ..*of };
        let walled = ["gate", "other gate"].map(|own| Change::WalledUp(own.into()));
        assert_eq!(unlocked_by_all(&of, &walled[..1], &|| false).0, [0], "it fits, one door less");
        assert_eq!(unlocked_by_all(&of, &walled, &|| false).0, Vec::<usize>::new());
    });
    // The zone goes out by the door in the far wall.
    let mut out = clear();
    out.bay.openings = vec![open_door(1, 1_000.0, 4_000.0, 2_000.0), gate()];
    out.parked = PlanPose::new(DVec2::new(7_000.0, 3_000.0), 0.0);
    assert_eq!(stay(&out), [("roller door".into(), DoorStays::Used)]);
    out.parked = PlanPose::new(DVec2::new(6_000.0, 3_000.0), 0.0);
    assert_eq!(stay(&out), []);
    // Of a list with another car that is too high for the one door, the other stays.
    let mut high = clear();
    high.bay.openings.clone_from(&out.bay.openings);
    high.bay.openings[0].span = span(0.0, 1_550.0);
    let mut low = high.clone();
    low.vehicle.outline_side.iter_mut().for_each(|own| own.y = own.y.min(1_300.0));
    low.vehicle.height_mm = 1_300.0;
    low.vehicle.body =
        vec![Prism::new(rectangle((-3400.0, -900.0), (850.0, 900.0)).into(), span(150.0, 1300.0))].into();
    assert_eq!(stay(&low), []);
    let lines: [Line; 2] = [line(low), line(high)];
    let of = OfChanges {
        lines: &lines,
        now: &[None, None],
        place: &Place::Room,
        further_mm: 1_000.0,
        margin: &crate::place::Margin::default(),
    };
    assert_eq!(doors_that_stay(&of), [("gate".into(), DoorStays::WayIn)]);
}
