//! What a visit holds, and where a picture under the plan lies.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

mod picture;

use baywright_planner::entry::starter::StartKind;
use baywright_planner::geometry::DVec3;
use baywright_planner::model::{
    Id, Provenance, SensorGroup, Trigger, TriggerList, Vehicle, VehicleClass, aimings_for, validate,
};
use baywright_planner::words::Language;
use proptest::prelude::*;

/// A car with sensors: their kind, place along the car, azimuth, and how many aimings each has.
fn car(sensors: &[(StartKind, f64, f64, usize)]) -> Vehicle {
    let mut car = Vehicle::of_class(VehicleClass::Saloon);
    for (i, (kind, _, _, aimings)) in sensors.iter().enumerate() {
        let id = Id::from(format!("sensor {i}"));
        car.start_sensor(*kind, id.clone());
        for j in 0..*aimings {
            car.start_aiming(&id, format!("aiming {i} {j}").into());
        }
    }
    // Last, since each start puts what is still assumed where it assumes it.
    for (own, (_, x, azimuth, _)) in car.sensors.iter_mut().zip(sensors) {
        own.at = DVec3::new(*x, 0.0, 500.0);
        own.azimuth_rad = *azimuth;
    }
    car
}

fn list(asks: &[Vec<SensorGroup>]) -> TriggerList {
    let triggers = asks.iter().enumerate().map(|(i, asks)| Trigger {
        id: format!("work {i}").into(),
        title: format!("Work {i}"),
        asks: asks.clone(),
        note: "A note".to_owned(),
        provenance: Provenance::Example,
    });
    TriggerList { name: "A list".to_owned(), triggers: triggers.collect(), provenance: Provenance::Example }
}

fn ids(names: &[&str]) -> Vec<Id> {
    names.iter().copied().map(Id::from).collect()
}

#[test]
fn lines_stand_in_the_order_of_work() {
    use SensorGroup as G;
    use StartKind as K;
    let car = car(&[
        (K::SurroundCamera, 0.0, 0.0, 1),
        (K::CornerRadar, -3500.0, 2.4, 1),
        (K::CornerRadar, 700.0, 0.8, 1),
        (K::ForwardCamera, -900.0, 0.0, 1),
        (K::Lidar, 800.0, 0.0, 1),
        (K::ForwardRadar, 800.0, 0.0, 2),
    ]);
    let list = list(&[vec![G::SurroundCamera, G::ForwardRadar], G::ALL.to_vec()]);
    let visit = aimings_for(&car, &list, &ids(&["work 1"]));
    let order: Vec<&str> = visit.lines.iter().map(|l| l.aiming.as_str()).collect();
    assert_eq!(
        order,
        ["aiming 5 0", "aiming 5 1", "aiming 4 0", "aiming 3 0", "aiming 2 0", "aiming 1 0", "aiming 0 0"]
    );
    assert_eq!((visit.missing.len(), visit.unknown.len()), (0, 0));
    let both = aimings_for(&car, &list, &ids(&["work 1", "work 0", "work 1"]));
    assert_eq!(both.lines.len(), 7, "asked for twice, done once");
    assert_eq!(both.lines[0].because, ids(&["work 0", "work 1"]));
    assert_eq!(both.lines[2].because, ids(&["work 1"]));
    assert_eq!(aimings_for(&car, &list, &[]).lines, []);
}

#[test]
fn a_corner_radar_belongs_to_the_bumper_it_comes_off_with() {
    let group = |x: f64, azimuth: f64| {
        let car = car(&[(StartKind::CornerRadar, x, azimuth.to_radians(), 0)]);
        SensorGroup::of(&car.sensors[0], &car)
    };
    let (front, rear) = (SensorGroup::FrontCornerRadar, SensorGroup::RearCornerRadar);
    // On a bumper it is where it sits, wherever it looks.
    assert_eq!((group(700.0, 135.0), group(-3500.0, 45.0)), (front, rear));
    // Between the axles it is where it looks; straight aside, the nearer axle.
    assert_eq!((group(-2000.0, 60.0), group(-200.0, -150.0)), (front, rear));
    assert_eq!((group(-200.0, 90.0), group(-2400.0, -90.0)), (front, rear));
}

#[test]
fn what_cannot_be_done_is_said() {
    use SensorGroup as G;
    let car = car(&[(StartKind::ForwardRadar, 800.0, 0.0, 0), (StartKind::ForwardCamera, 0.0, 0.0, 1)]);
    let list = list(&[vec![G::ForwardRadar, G::Lidar], vec![G::ForwardRadar]]);
    let visit = aimings_for(&car, &list, &ids(&["work 1", "gone", "work 0", "gone"]));
    assert_eq!(visit.lines, []);
    assert_eq!(visit.unknown, ids(&["gone"]));
    let said: Vec<String> =
        visit.missing.iter().map(|m| Language::English.visits().missing(m, &list)).collect();
    assert_eq!(
        said,
        [
            "“Work 0” and “Work 1” ask for “sensor 0” (forward radar) to be aimed, and the profile has no aiming for it.",
            "“Work 0” asks for a lidar to be aimed, and the profile has none: enter it if the car has one.",
        ]
    );
}

#[test]
fn a_list_is_checked_at_the_door() {
    use SensorGroup as G;
    assert_eq!(validate::trigger_list(&list(&[vec![G::Lidar], vec![]])), []);
    let broken = |spoil: fn(&mut TriggerList)| -> String {
        let mut list = list(&[vec![G::Lidar], vec![G::Lidar]]);
        spoil(&mut list);
        let faults = validate::trigger_list(&list);
        assert_eq!(faults.len(), 1, "{faults:?}");
        faults[0].field.clone()
    };
    assert_eq!(broken(|l| l.name = String::new()), "name");
    assert_eq!(broken(|l| l.provenance = Provenance::Published { source: String::new() }), "source.source");
    assert_eq!(broken(|l| l.triggers[1].id = "work 0".into()), "triggers[1].name");
    assert_eq!(broken(|l| l.triggers[1].title = "two\nlines".to_owned()), "triggers[1].title");
    assert_eq!(broken(|l| l.triggers[1].note = "x".repeat(1001)), "triggers[1].note");
    assert_eq!(broken(|l| l.triggers[0].asks.push(G::Lidar)), "triggers[0].asks[1]");
    assert_eq!(
        broken(|l| {
            l.triggers[0].asks.clear();
            l.triggers[0].note.clear();
        }),
        "triggers[0].asks"
    );
    let many = list(&vec![vec![G::Lidar]; 501]);
    assert_eq!(validate::trigger_list(&many)[0].field, "triggers");
}

fn any_car() -> impl Strategy<Value = Vehicle> {
    let sensor = (prop::sample::select(StartKind::ALL.to_vec()), -4000.0..1000.0, -4.0..4.0, 0..3_usize);
    prop::collection::vec(sensor, 0..8).prop_map(|sensors| car(&sensors))
}

fn any_list() -> impl Strategy<Value = TriggerList> {
    let asks = prop::sample::subsequence(SensorGroup::ALL.to_vec(), 0..=6).prop_shuffle();
    prop::collection::vec(asks, 1..7).prop_map(|asks| list(&asks))
}

/// Of eight names, of which a list has at most six; some twice.
fn any_choice() -> impl Strategy<Value = Vec<Id>> {
    prop::collection::vec((0..8_usize).prop_map(|i| Id::from(format!("work {i}"))), 0..10)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn a_visit_holds_what_was_asked_for_once_and_nothing_else(
        car in any_car(), list in any_list(), chosen in any_choice()
    ) {
        let visit = aimings_for(&car, &list, &chosen);
        let asked = |group: SensorGroup| -> Vec<Id> {
            list.triggers
                .iter()
                .filter(|t| chosen.contains(&t.id) && t.asks.contains(&group))
                .map(|t| t.id.clone())
                .collect()
        };
        // Every aiming of the car: there exactly once with its reasons if its sensor is asked for, else not at all.
        let mut places = Vec::new();
        for (i, aiming) in car.aimings.iter().enumerate() {
            let sensor = car.sensors.iter().find(|s| s.id == aiming.sensor).unwrap();
            let group = SensorGroup::of(sensor, &car);
            let lines: Vec<_> = visit.lines.iter().filter(|l| l.aiming == aiming.id).collect();
            let because = asked(group);
            prop_assert_eq!(lines.len(), usize::from(!because.is_empty()));
            if let [line] = lines[..] {
                prop_assert_eq!(&line.because, &because);
                places.push((group, i));
            }
        }
        prop_assert_eq!(places.len(), visit.lines.len());
        places.sort_unstable();
        let order: Vec<&Id> = places.iter().map(|(_, i)| &car.aimings[*i].id).collect();
        prop_assert_eq!(order, visit.lines.iter().map(|l| &l.aiming).collect::<Vec<_>>());
        // Every sensor that is asked for is aimed or missing, never both.
        for sensor in &car.sensors {
            let group = SensorGroup::of(sensor, &car);
            let aimed = car.aimings.iter().any(|a| a.sensor == sensor.id);
            let missing = visit.missing.iter().filter(|m| m.sensor.as_ref() == Some(&sensor.id)).count();
            prop_assert_eq!(missing, usize::from(!aimed && !asked(group).is_empty()));
        }
        for missing in &visit.missing {
            prop_assert_eq!(&missing.because, &asked(missing.group));
            prop_assert!(!missing.because.is_empty());
        }
    }

    #[test]
    fn the_order_of_choosing_does_not_matter(
        car in any_car(), list in any_list(),
        (chosen, shuffled) in any_choice().prop_flat_map(|c| (Just(c.clone()), Just(c).prop_shuffle()))
    ) {
        let visit = aimings_for(&car, &list, &chosen);
        prop_assert_eq!(&visit, &aimings_for(&car, &list, &shuffled));
        let twice: Vec<Id> = chosen.iter().chain(&chosen).cloned().collect();
        prop_assert_eq!(&visit, &aimings_for(&car, &list, &twice));
    }
}
