//! What is done to the car and its targets in one arrangement.

use crate::geometry::PlanPose;
use crate::model::{Id, ParkedKnown, SavedArrangement, StandSet};

/// The car is parked elsewhere: what was taped says nothing of the new place.
pub(super) fn park(own: &mut SavedArrangement, pose: PlanPose) {
    own.parked = pose;
    if own.parked_known == ParkedKnown::Taped {
        own.parked_known = ParkedKnown::Planned;
    }
}

/// A target stands elsewhere. One on its mark has nothing to say.
pub(super) fn stand(own: &mut SavedArrangement, placement: &Id, set: StandSet) {
    own.stands.retain(|(id, _)| id != placement);
    if set != StandSet::OnMark {
        own.stands.push((placement.clone(), set));
    }
}

/// Another car or aiming: what was measured on the old car, and where its stands were, says nothing of the new one.
pub(super) fn car(own: &mut SavedArrangement, vehicle: &Id, aiming: &Id, fingerprint: &str) {
    let same_car = own.vehicle == *vehicle;
    (own.vehicle, own.aiming) = (vehicle.clone(), aiming.clone());
    own.vehicle_fingerprint = Some(fingerprint.to_owned());
    own.on_this_car = Default::default();
    own.stands.clear();
    if !same_car {
        own.visit.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::super::Edit;
    use super::super::testing::layout;
    use crate::geometry::PlanPose;
    use crate::model::StandSet;

    #[test]
    fn another_car_forgets_what_was_measured_on_the_old_one() {
        let (layout, here) = layout();
        let set = StandSet::At { place: PlanPose::IDENTITY, height_mm: 500.0, pitch_rad: 0.0 };
        let placed = Edit::All(vec![
            Edit::Stand { placement: "T".into(), set },
            Edit::Visit(vec!["A".into(), "B".into()]),
        ]);
        let placed = placed.apply(&layout, &here).unwrap();
        assert_eq!(placed.arrangements[0].stands, [("T".into(), set)]);
        let car = |vehicle: &str, aiming: &str| Edit::Car {
            vehicle: vehicle.into(),
            aiming: aiming.into(),
            fingerprint: "0".to_owned(),
        };
        let own = layout.arrangements[0].vehicle.clone();
        let other_aiming = car(own.as_str(), "B").apply(&placed, &here).unwrap();
        assert!(other_aiming.arrangements[0].stands.is_empty());
        assert_eq!(other_aiming.arrangements[0].visit.len(), 2, "the visit is the car's");
        assert!(car("another", "B").apply(&placed, &here).unwrap().arrangements[0].visit.is_empty());
        let back = Edit::Stand { placement: "T".into(), set: StandSet::OnMark };
        assert!(back.apply(&placed, &here).unwrap().arrangements[0].stands.is_empty());
    }
}
