//! What is done to the car and its targets in one arrangement.

use crate::geometry::PlanPose;
use crate::model::{Id, MarkTaped, OnThisCar, SavedArrangement, Shop, StandRead, StandSet, Taken};

/// The car is parked elsewhere: what was measured says nothing of the new place. What was entered as worse than the usual
/// margin stays as it is; a shop of its own margin asks more of whatever is planned. Marks are laid from the wheels: once these
/// stand elsewhere, what was taped between them is of no use.
pub(super) fn park(own: &mut SavedArrangement, pose: PlanPose) {
    if own.parked != pose {
        lay_anew(own);
    }
    own.parked = pose;
    own.parked_known = Shop::default().parked_anew(own.parked_known);
}

/// A target stands elsewhere. One on its mark has nothing to say.
pub(super) fn stand(own: &mut SavedArrangement, placement: &Id, set: StandSet) {
    own.stands.retain(|(id, _)| id != placement);
    // What was read of it was read where it stood.
    own.stands_read.retain(|read| read.placement != *placement);
    if set != StandSet::OnMark {
        own.stands.push((placement.clone(), set));
    }
}

/// Another car: what was measured on the old one, and where its stands were, says nothing of the new one. Another aiming of the
/// same car: its alignment and its wheels are what they were, but another sensor is aimed, and other targets.
pub(super) fn car(own: &mut SavedArrangement, vehicle: &Id, aiming: &Id, fingerprint: &str) {
    let same_car = own.vehicle == *vehicle;
    (own.vehicle, own.aiming) = (vehicle.clone(), aiming.clone());
    own.vehicle_fingerprint = Some(fingerprint.to_owned());
    own.stands.clear();
    lay_anew(own);
    own.on_this_car.sensor_at = None;
    if !same_car {
        own.on_this_car = OnThisCar::default();
        own.visit.clear();
    }
}

/// Other marks: what was taped between the old ones says nothing of them, nor whether the car stood still since, and the stands
/// are set anew too.
pub(super) fn lay_anew(own: &mut SavedArrangement) {
    own.marks_taped.clear();
    own.laid_before.clear();
    own.on_this_car.stood.clear();
    own.stands_read.clear();
}

/// What was read of a stand replaces what was read of it, in its place among the others.
pub(super) fn read_stand(own: &mut SavedArrangement, read: &StandRead) {
    let first = own.stands_read.iter().position(|own| own.placement == read.placement);
    own.stands_read.retain(|own| own.placement != read.placement);
    if !read.is_empty() {
        let at = first.unwrap_or(own.stands_read.len()).min(own.stands_read.len());
        own.stands_read.insert(at, read.clone());
    }
}

/// What a tape read between two marks replaces what was read there, in its place among the others.
pub(super) fn tape(own: &mut SavedArrangement, (from, to): (&Id, &Id), read_mm: Option<f64>, taken: &Taken) {
    let first = own.marks_taped.iter().position(|own| own.is_between(from, to));
    own.marks_taped.retain(|own| !own.is_between(from, to));
    if let Some(read_mm) = read_mm {
        let at = first.unwrap_or(own.marks_taped.len()).min(own.marks_taped.len());
        let taken = taken.clone();
        own.marks_taped.insert(at, MarkTaped { from: from.clone(), to: to.clone(), read_mm, taken });
    }
}

/// The same marks once more, from the wheels on: what was read so far is of the earlier laying, and the stands are set anew.
pub(super) fn lay_again(own: &mut SavedArrangement) {
    if !own.marks_taped.is_empty() {
        own.stands_read.clear();
        own.laid_before = std::mem::take(&mut own.marks_taped);
    }
}

#[cfg(test)]
mod tests {
    use super::super::Edit;
    use super::super::testing::layout;
    use crate::geometry::{DVec3, PlanPose};
    use crate::model::{OnThisCar, ParkedKnown, RearToe, StandSet, Taken};

    /// What was measured or entered of a place says nothing better of another one.
    #[test]
    fn a_car_that_is_parked_anew_is_planned_there() {
        let (layout, here) = layout();
        let park = |known: ParkedKnown| {
            let mut layout = layout.clone();
            layout.arrangements[0].parked_known = known;
            let after = Edit::Park(PlanPose::new((1.0, 2.0).into(), 0.0)).apply(&layout, &here).unwrap();
            after.arrangements[0].parked_known
        };
        let within = |mm: f64, rad: f64| ParkedKnown::Within { mm, rad };
        assert_eq!(park(ParkedKnown::Taped), ParkedKnown::Planned);
        assert_eq!(park(within(0.0, 0.0)), ParkedKnown::Planned);
        assert_eq!(park(within(200.0, 0.1)), within(200.0, 0.1));
    }

    #[test]
    fn another_car_forgets_what_was_measured_on_the_old_one() {
        let (layout, here) = layout();
        let set = StandSet::At { place: PlanPose::IDENTITY, height_mm: 500.0, pitch_rad: 0.0 };
        let placed = Edit::All(vec![
            Edit::Stand { placement: "T".into(), set },
            Edit::Visit(vec!["A".into(), "B".into()]),
            Edit::OnThisCar(OnThisCar {
                sensor_at: Some(DVec3::ONE),
                rear_toe: RearToe::of(0.001, 0.002),
                set_back_mm: Some(3.0),
                ..OnThisCar::default()
            }),
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
        let kept = other_aiming.arrangements[0].on_this_car.clone();
        assert_eq!((kept.rear_toe, kept.set_back_mm), (RearToe::of(0.001, 0.002), Some(3.0)));
        assert_eq!(kept.sensor_at, None, "another sensor may be aimed");
        let another = car("another", "B").apply(&placed, &here).unwrap();
        assert_eq!(another.arrangements[0].on_this_car, OnThisCar::default());
        assert!(car("another", "B").apply(&placed, &here).unwrap().arrangements[0].visit.is_empty());
        let back = Edit::Stand { placement: "T".into(), set: StandSet::OnMark };
        assert!(back.apply(&placed, &here).unwrap().arrangements[0].stands.is_empty());
    }

    #[test]
    fn readings_are_replaced_and_forgotten_once_the_car_stands_elsewhere() {
        let (layout, here) = layout();
        let tape = |from: &str, to: &str, read_mm| Edit::Tape {
            from: from.into(),
            to: to.into(),
            read_mm,
            taken: Taken { who: Some("A".into()), ..Taken::default() },
        };
        let taped = Edit::All(vec![
            tape("1", "2", Some(2_040.0)),
            tape("2", "3", Some(2_600.0)),
            tape("2", "1", Some(2_041.0)),
            tape("3", "4", Some(1.0)),
            tape("4", "3", None),
        ]);
        let taped = taped.apply(&layout, &here).unwrap();
        let read: Vec<f64> = taped.arrangements[0].marks_taped.iter().map(|own| own.read_mm).collect();
        assert_eq!(read, [2_041.0, 2_600.0]);
        let mut read = crate::model::StandRead::of("T".into());
        read.line_mm = Some(12.0);
        let taped = Edit::ReadStand(read.clone()).apply(&taped, &here).unwrap();
        assert_eq!(taped.arrangements[0].stands_read, [read.clone()]);
        let moved =
            Edit::Stand { placement: "T".into(), set: StandSet::OnMark }.apply(&taped, &here).unwrap();
        assert!(moved.arrangements[0].stands_read.is_empty(), "it was read where it stood");
        read.line_mm = None;
        assert!(Edit::ReadStand(read).apply(&taped, &here).unwrap().arrangements[0].stands_read.is_empty());
        let same = Edit::Park(taped.arrangements[0].parked).apply(&taped, &here).unwrap();
        assert_eq!(same.arrangements[0].marks_taped.len(), 2);
        for edit in [Edit::Park(PlanPose::new((1.0, 2.0).into(), 0.3)), Edit::LayAnew] {
            let after = edit.apply(&taped, &here).unwrap();
            assert!(
                after.arrangements[0].marks_taped.is_empty() && after.arrangements[0].stands_read.is_empty()
            );
        }
        assert!(taped.arrangements[0].marks_taped.iter().all(|own| own.taken.who == Some("A".into())));
        // Laid again the first readings are kept apart; with nothing read there is nothing to keep, and nothing is lost.
        let again = Edit::LayAgain.apply(&taped, &here).unwrap();
        let own = &again.arrangements[0];
        assert_eq!((own.marks_taped.len(), &own.laid_before), (0, &taped.arrangements[0].marks_taped));
        assert_eq!(Edit::LayAgain.apply(&again, &here).unwrap(), again);
        let moved = Edit::Park(PlanPose::new((1.0, 2.0).into(), 0.3)).apply(&again, &here).unwrap();
        assert!(moved.arrangements[0].laid_before.is_empty(), "from other wheels");
    }
}
