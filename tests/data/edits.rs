//! Edits of the shipped layouts: a cure's step does to a saved layout what it did to the arrangement that it was tried on,
//! and what was done leaves a layout that is sound.

use std::path::Path;

use baywright_files::{EMBEDDED_LAYOUTS, Loaded, open};
use baywright_planner::cure;
use baywright_planner::edit::{Deed, Edit};
use baywright_planner::geometry::{DVec2, PlanPose, Span};
use baywright_planner::model::{Arrangement, Id, Known, Layout, Place, Shape, StandSet, validate};
use baywright_planner::{OnCar, Step};
use proptest::prelude::*;
use proptest::sample::Index;

fn shipped() -> Vec<Loaded> {
    EMBEDDED_LAYOUTS.iter().map(|own| open(Path::new(own.name), None).unwrap()).collect()
}

/// The arrangement of that name, made from a layout with the profiles that were loaded with it.
fn made(loaded: &Loaded, layout: &Layout, here: &Id) -> Arrangement {
    let saved = layout.arrangements.iter().find(|own| own.id == *here).unwrap();
    let car = loaded.profiles.iter().find(|car| car.vehicle.id == saved.vehicle).unwrap();
    layout.resolve(saved, &car.vehicle, &car.fingerprint, None).unwrap()
}

/// Which step, about which part, by how much.
fn step() -> impl Strategy<Value = (u8, Index, f64, f64)> {
    (0..15_u8, any::<Index>(), -3_000.0..3_000.0_f64, -3_000.0..3_000.0_f64)
}

/// A step of each kind that can be taken in an arrangement, chosen by number; none if there is nothing of that kind.
fn taken(arrangement: &Arrangement, (kind, which, x, y): (u8, Index, f64, f64)) -> Option<Step> {
    let by = DVec2::new(x, y);
    let (bay, placements) = (&arrangement.bay, &arrangement.aiming.placements);
    let of = |ids: Vec<&Id>| (!ids.is_empty()).then(|| ids[which.index(ids.len())].clone());
    let thing = || of(bay.things.iter().map(|own| &own.id).collect());
    Some(match kind {
        0 => Step::MoveThing { thing: thing()?, by },
        1 => Step::TakeAway { thing: thing()? },
        2 => Step::MoveCar { by },
        3 => Step::StandOnMark { placement: of(placements.iter().map(|own| &own.id).collect())? },
        4 => Step::OpenDoor { door: of(bay.openings.iter().map(|own| &own.id).collect())? },
        5 => Step::Tape { thing: thing()? },
        6 => Step::SurveyFloor,
        7 => Step::EnterFigures,
        8 => Step::EnterAlignment,
        9 => Step::SayHeightsFrom,
        10 => Step::EnterZones,
        11 => Step::KeepEmpty { bay: of(bay.bays.iter().map(|own| &own.id).collect())? },
        12 => {
            let doors = bay.openings.iter().filter(|own| own.kind.is_door());
            Step::KeepShut { door: of(doors.map(|own| &own.id).collect())? }
        }
        13 => Step::MeasureOnCar(OnCar::Sensor),
        _ => Step::ReviewProfile,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// After a step in the layout the arrangement made is the one that the cure was tried with, whatever was done before.
    #[test]
    fn a_step_does_the_same_as_when_it_was_tried(
        which in any::<Index>(),
        arrangement in any::<Index>(),
        put in prop::option::of((any::<Index>(), -2_000.0..9_000.0_f64, -3.0..3.0_f64)),
        in_own_building in any::<bool>(),
        steps in prop::collection::vec(step(), 1..8),
    ) {
        let all = shipped();
        let loaded = &all[which.index(all.len())];
        let here = loaded.arrangements[arrangement.index(loaded.arrangements.len())].0.clone();
        let mut layout = loaded.layout.clone();
        let mut now = made(loaded, &layout, &here);
        if in_own_building {
            layout = Edit::PlanBuilding.apply(&layout, &here).unwrap();
            now = made(loaded, &layout, &here);
        }
        // A stand that was put somewhere goes with the car.
        if let Some((target, x, turned)) = put {
            let placement = now.aiming.placements[target.index(now.aiming.placements.len())].id.clone();
            let place = PlanPose::new(DVec2::new(x, 1_000.0), turned);
            let edit = Edit::Stand { placement, set: StandSet::At { place, height_mm: 500.0, pitch_rad: 0.0 } };
            layout = edit.apply(&layout, &here).unwrap();
            now = made(loaded, &layout, &here);
        }
        for step in steps {
            let Some(step) = taken(&now, step) else { continue };
            let edit = Edit::Do(step.clone());
            prop_assert_eq!(edit.deed(&layout, &here), Deed::Cure(step.clone()));
            layout = edit.apply(&layout, &here).unwrap();
            let expected = cure::apply(&now, &step);
            now = made(loaded, &layout, &here);
            prop_assert_eq!(&now, &expected, "{:?}", step);
        }
    }
}

/// Every cure that is offered in the shipped bays, done.
#[test]
fn every_cure_that_is_offered_can_be_done() {
    let mut tried = 0;
    for loaded in shipped() {
        for (here, arrangement) in &loaded.arrangements {
            for finding in baywright_planner::assess(arrangement).findings {
                let Some(cure) = finding.cure else { continue };
                let after = Edit::Do(cure.step.clone()).apply(&loaded.layout, here).unwrap();
                assert_eq!(
                    made(&loaded, &after, here),
                    cure::apply(arrangement, &cure.step),
                    "{:?}",
                    cure.step
                );
                tried += 1;
            }
        }
    }
    assert!(tried > 20, "{tried}");
}

#[test]
fn every_edit_leaves_a_sound_layout() {
    let loaded = open(Path::new("crowded-bay"), None).unwrap();
    let here = loaded.arrangements[0].0.clone();
    let place = Place { at: PlanPose::new(DVec2::new(1_000.0, 1_500.0), 0.5), known: Known::Taped };
    let edits = [
        Edit::Park(PlanPose::new(DVec2::new(4_000.0, 3_100.0), 0.1)),
        Edit::Door { door: "roller door".into(), shut: false },
        Edit::Reshape { thing: "trolley".into(), shape: Shape::Round { diameter_mm: 500.0 } },
        Edit::Heights { thing: "trolley".into(), span: Span::new(0.0, 500.0).unwrap() },
        Edit::Place { thing: "trolley".into(), place },
        Edit::Do(Step::MoveCar { by: DVec2::new(10.0, 0.0) }),
        Edit::Remove("tool cabinet".into()),
        Edit::Rename { thing: "trolley".into(), name: "old trolley".into() },
    ];
    let last = edits.iter().fold(loaded.layout.clone(), |now, edit| {
        let after = edit.apply(&now, &here).unwrap();
        assert_eq!(validate::layout(&after), [], "{edit:?}");
        after
    });
    assert!(last.arrangements[0].shut.contains(&("roller door".into(), false)));
    let trolley = last.arrangements[0].moved.iter().find(|own| own.thing.as_str() == "old trolley");
    assert_eq!(trolley.map(|own| own.place), Some(place));
}
