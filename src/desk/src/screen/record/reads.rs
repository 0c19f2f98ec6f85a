//! From what was read between marks in the set-up to what the record holds of it, and back.

use baywright_planner::model::record::{Instrument, Reading, What};
use baywright_planner::model::{Id, InstrumentList, MarkTaped, Taken, named};

use super::RecordPage;
use crate::session::clock;

/// As the record holds it: with the serial number and the due day of the shop's list, so that the record stands by itself.
pub(super) fn reading(aiming: &Id, taped: &MarkTaped, list: &InstrumentList) -> What {
    let with = taped.taken.with.as_ref();
    let instrument = with.map(|name| instrument(name, list));
    What::Reading(Reading {
        aiming: aiming.clone(),
        from: taped.from.clone(),
        to: taped.to.clone(),
        read_mm: taped.read_mm,
        instrument,
        temperature_c: taped.taken.temperature_c,
    })
}

/// One by its name, as the shop's list has it.
pub(super) fn instrument(name: &Id, list: &InstrumentList) -> Instrument {
    let listed = named(list, name);
    Instrument {
        name: name.to_string(),
        serial: listed.and_then(|own| own.serial.clone()).unwrap_or_default(),
        due: listed.and_then(|own| own.due),
        is_unlisted: listed.is_none(),
    }
}

impl RecordPage {
    /// How what is typed on this page is taken.
    pub(super) fn taken(&self) -> Taken {
        Taken {
            with: id(&self.tape),
            who: id(&self.by),
            at: Some(self.clock.unwrap_or_else(clock::now)),
            temperature_c: self.warm_c,
        }
    }

    /// What the set-up says of how a distance was read, and what this page says where it says nothing.
    pub(super) fn as_taken(&self, taped: &MarkTaped) -> MarkTaped {
        let mut taped = taped.clone();
        taped.taken.with = taped.taken.with.take().or_else(|| id(&self.tape));
        taped
    }
}

fn id(text: &str) -> Option<Id> {
    Some(text.trim()).filter(|own| !own.is_empty()).map(Id::from)
}
