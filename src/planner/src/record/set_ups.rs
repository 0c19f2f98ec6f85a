//! The set-ups of a visit as its record has them: with what was read for each, where the car was parked for it. They are made of the bay's,
//! and change nothing of it.

use super::answer::{PlaceAnswer, VisitAnswer, Way};
use super::holds::Holds;
use crate::assessment::Step;
use crate::cure::apply;
use crate::model::record::VisitRecord;
use crate::model::{Arrangement, Id, MarkTaped, Taken};

/// What was taped for an aiming, as a set-up has it.
pub fn taped(record: &VisitRecord, aiming: &Id) -> Vec<MarkTaped> {
    let held = Holds::of(record).readings(aiming).into_iter();
    let taped = held.map(|own| {
        let read = own.what;
        let taken = Taken {
            with: read.instrument.as_ref().map(|own| Id::from(own.name.as_str())),
            who: Some(own.entry.by.trim()).filter(|by| !by.is_empty()).map(Id::from),
            at: Some(own.entry.at),
            temperature_c: read.temperature_c,
        };
        MarkTaped { from: read.from.clone(), to: read.to.clone(), read_mm: read.read_mm, taken }
    });
    taped.collect()
}

/// Where an aiming is done, if it is not where the car stands in the bay: the how-manieth place, from 1, and how the car comes there.
pub fn place_of<'a>(answer: &'a VisitAnswer, aiming: &Id) -> Option<(usize, &'a PlaceAnswer)> {
    let places = answer.places.iter().enumerate();
    let mut elsewhere = places.filter(|(_, own)| own.way != Way::StandsThere);
    let (at, place) = elsewhere.find(|(_, own)| own.parts.iter().any(|own| own.aiming == *aiming))?;
    Some((at + 1, place))
}

/// The set-up of an aiming as the record has it: parked as it was said that the car stands, else as the answer for the visit has it. `base` is
/// the bay's, `is_drawn` that it is the one that is drawn there, whose readings are its own. `None`: it is as `base`. `as_set_up` makes a
/// saved set-up.
pub fn set_up(
    record: &VisitRecord,
    base: &Arrangement,
    is_drawn: bool,
    answer: Option<&VisitAnswer>,
    as_set_up: impl Fn(&Id) -> Option<Arrangement>,
) -> Option<Arrangement> {
    let aiming = &base.aiming.id;
    let of_saved = |id: &Id| as_set_up(id).filter(|own| own.aiming.id == *aiming);
    let held = Holds::of(record).parked(aiming);
    let elsewhere = match (held, answer.and_then(|own| place_of(own, aiming))) {
        (Some(held), _) => {
            let mut own = held.what.set_up.as_ref().and_then(of_saved).unwrap_or_else(|| base.clone());
            own.parked = held.what.parked;
            Some(own)
        }
        (None, Some((_, place))) => match &place.way {
            Way::StandsThere => None,
            Way::Moved(by) => Some(apply(base, &Step::MoveCar { by: *by })),
            Way::AsSetUp(id) => of_saved(id),
        },
        (None, None) => None,
    };
    let is_elsewhere = elsewhere.is_some();
    if is_drawn && !is_elsewhere {
        return None;
    }
    let mut own = elsewhere.unwrap_or_else(|| base.clone());
    own.marks_taped = taped(record, aiming);
    if is_elsewhere {
        own.on_this_car.stood.clear();
    }
    Some(own)
}

/// The place of an aiming in the order of work: that of the answer for the visit, then that of the record's lines.
pub fn in_order(record: &VisitRecord, answer: Option<&VisitAnswer>, aiming: &Id) -> (usize, usize) {
    let answered = answer.and_then(|own| own.order().position(|own| own == aiming));
    let line = record.begun.lines.iter().position(|own| own.aiming == *aiming);
    (answered.unwrap_or(usize::MAX), line.unwrap_or(usize::MAX))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::{BeginWith, PartAnswer, append, begin};
    use super::*;
    use crate::assessment::Verdict;
    use crate::check::testing::{DVec2, clear};
    use crate::model::record::{Entry, ParkedAt, Reading, What};

    fn aiming(name: &str) -> Arrangement {
        let mut own = clear();
        own.aiming.id = name.into();
        own
    }

    fn enter(record: &mut VisitRecord, what: What) {
        let at = date(2026, 11, 20).at(9, 0, 0, 0);
        append(record, Entry { by: "A".into(), at, what }).unwrap();
    }

    /// What the drawn set-up has is its own; another aiming, or another place, has what the record holds, and stands where the answer, and
    /// then whoever parked it, has the car.
    #[test]
    fn readings_and_places_are_the_records() {
        let (drawn, other) = (aiming("a"), aiming("b"));
        let at = date(2026, 11, 20).at(8, 0, 0, 0);
        let text = String::from;
        let with =
            BeginWith { job: text("1"), car: text("grey"), plate: None, by: text("A"), at, layout: None };
        let mut record = begin(&with, &[drawn.clone(), other.clone()], &[], None).unwrap();
        let read = Reading {
            aiming: "b".into(),
            from: "1".into(),
            to: "2".into(),
            read_mm: 1_900.0,
            instrument: None,
            temperature_c: None,
        };
        enter(&mut record, What::Reading(read));
        let none = |_: &Id| None;
        assert_eq!(set_up(&record, &drawn, true, None, none), None);
        let here = set_up(&record, &other, false, None, none).unwrap();
        assert_eq!((here.parked, here.marks_taped.len()), (other.parked, 1));
        let by = DVec2::new(600.0, 0.0);
        let part =
            |name: &str| PartAnswer { aiming: name.into(), before: Vec::new(), verdict: Verdict::Ready };
        let place = |way, name| PlaceAnswer { way, parked: drawn.parked, parts: vec![part(name)] };
        let answer = VisitAnswer {
            places: vec![place(Way::StandsThere, "a"), place(Way::Moved(by), "b")],
            no_way: Vec::new(),
            is_regrouped: false,
            verdict: Verdict::Ready,
        };
        assert_eq!(place_of(&answer, &"a".into()), None);
        assert_eq!(place_of(&answer, &"b".into()).map(|own| own.0), Some(2));
        let there = set_up(&record, &other, false, Some(&answer), none).unwrap();
        assert!((there.parked.origin() - other.parked.origin() - by).length() < 1e-9);
        let parked = other.parked.shifted(DVec2::new(610.0, 5.0));
        let aimings = vec!["b".into()];
        enter(&mut record, What::Parked(ParkedAt { aimings, place: 2, parked, set_up: None }));
        // As it was said, whatever the answer has.
        for answer in [Some(&answer), None] {
            assert_eq!(set_up(&record, &other, false, answer, none).unwrap().parked, parked);
        }
        let order = |name: &str| in_order(&record, Some(&answer), &name.into());
        assert!(order("a") < order("b"));
    }
}
