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
