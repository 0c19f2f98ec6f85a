//! A cure's step as the edits that do it.

use baywright_geometry::PlanPose;

use super::{Edit, EditFault, things};
use crate::assessment::Step;
use crate::model::{Id, Layout, Place, StandSet};

/// What a step comes to in the arrangement at `at`: the same as [`crate::cure::apply`] does to the arrangement made.
pub(super) fn edits(step: &Step, layout: &Layout, at: usize) -> Result<Vec<Edit>, EditFault> {
    let on_mark = |placement: &Id| Edit::Stand { placement: placement.clone(), set: StandSet::OnMark };
    Ok(match step {
        // Moved by so much, its place is known as well as before.
        Step::MoveThing { thing, by } => {
            let place = things::stands(layout, at, thing)?.shifted(*by);
            vec![Edit::Place { thing: thing.clone(), place }]
        }
        Step::TurnThing { thing, by_rad } => {
            let stands = things::stands(layout, at, thing)?;
            let at = PlanPose::new(stands.at.origin(), stands.at.heading() + by_rad);
            let place = Place { at, ..stands };
            vec![Edit::Place { thing: thing.clone(), place }]
        }
        Step::TakeAway { thing } => vec![Edit::Remove(thing.clone())],
        // Marks and targets on their marks go with the car; a stand that was put somewhere is carried along.
        Step::MoveCar { by } => {
            let nowhere = || EditFault::NoArrangement;
            let own = layout.arrangements.get(at).ok_or_else(nowhere)?;
            let carried = own.stands.iter().filter_map(|(placement, set)| {
                let StandSet::At { place, height_mm: height, pitch_rad: pitch } = *set else { return None };
                let set = StandSet::At { place: place.shifted(*by), height_mm: height, pitch_rad: pitch };
                Some(Edit::Stand { placement: placement.clone(), set })
            });
            std::iter::once(Edit::Park(own.parked.shifted(*by))).chain(carried).collect()
        }
        Step::StandOnMark { placement } => vec![on_mark(placement)],
        Step::KeepEmpty { bay } => {
            let own = layout.arrangements.get(at).ok_or(EditFault::NoArrangement)?;
            let kept_empty = own.kept_empty.iter().chain([bay]).cloned().collect();
            vec![Edit::InBay { bay: own.in_bay.clone(), kept_empty }]
        }
        Step::KeepShut { door } => vec![Edit::KeepShut { door: door.clone(), kept: true }],
        Step::OpenDoor { door } => vec![Edit::Door { door: door.clone(), shut: false }],
        // These ask a person to find something out; nothing changes until it is entered.
        Step::Tape { .. }
        | Step::TapeCar
        | Step::SurveyFloor
        | Step::EnterFigures
        | Step::EnterAlignment
        | Step::SayHeightsFrom
        | Step::EnterZones
        | Step::MeasureOnCar(_)
        | Step::ReviewProfile => Vec::new(),
    })
}
