//! How a record begins.

use jiff::civil::DateTime;

use crate::model::fault::Fault;
use crate::model::record::{Because, Begun, RecordLine, VisitRecord, WorkList};
use crate::model::{Arrangement, Id, TriggerList, VisitLine, validate};

/// What a person says when a record is begun.
#[derive(Clone, Debug, PartialEq)]
pub struct BeginWith {
    /// The shop's number of the job.
    pub job: String,
    /// The car, as the shop refers to it.
    pub car: String,
    /// Its number plate, if it is entered.
    pub plate: Option<String>,
    /// Who begins it.
    pub by: String,
    /// When, by the shop's own clock.
    pub at: DateTime,
    /// The layout's file, seen from the record's own, if it has one.
    pub layout: Option<String>,
}

/// The record of a visit that is begun with these set-ups: one for each aiming, in the order of work, which is kept. The first is the one in
/// hand. `lines` tell which work asked for which aiming, by the names of `list`; both may be empty. Work that the list does not have is left
/// out.
///
/// # Errors
/// Everything found wrong with what was said; also that there is no set-up, or an aiming twice.
pub fn begin(
    with: &BeginWith,
    visit: &[Arrangement],
    lines: &[VisitLine],
    list: Option<&TriggerList>,
) -> Result<VisitRecord, Vec<Fault>> {
    let line = |own: &Arrangement| RecordLine {
        aiming: own.aiming.id.clone(),
        title: own.aiming.name.clone(),
        sensor: own.sensor.id.clone(),
        because: because(&own.aiming.id, lines, list),
        provenance: own.aiming.provenance.clone(),
    };
    let nothing = || Id::from("");
    let first = visit.first();
    let asked = list.filter(|_| !lines.is_empty());
    let begun = Begun {
        job: with.job.clone(),
        car: with.car.clone(),
        plate: with.plate.clone(),
        by: with.by.clone(),
        at: with.at,
        bay: first.map_or_else(nothing, |own| own.bay.id.clone()),
        layout: with.layout.clone(),
        arrangement: first.map_or_else(nothing, |own| own.id.clone()),
        vehicle: first.map_or_else(nothing, |own| own.vehicle.id.clone()),
        list: asked.map(|own| WorkList { name: own.name.clone(), provenance: own.provenance.clone() }),
        lines: visit.iter().map(line).collect(),
    };
    let faults = validate::record_begun(&begun);
    if faults.is_empty() { Ok(VisitRecord { begun, entries: Vec::new() }) } else { Err(faults) }
}

fn because(aiming: &Id, lines: &[VisitLine], list: Option<&TriggerList>) -> Vec<Because> {
    let asked = lines.iter().filter(|own| own.aiming == *aiming).flat_map(|own| &own.because);
    let entries = asked.filter_map(|id| list?.triggers.iter().find(|own| own.id == *id));
    let because = entries.map(|own| Because {
        work: own.title.clone(),
        note: own.note.clone(),
        provenance: own.provenance.clone(),
    });
    because.collect()
}
