//! What a step must have before it is done.

use super::Part;
use super::holds::Holds;
use crate::model::record::{CAR_CHECKS, StepId, StepKind, ValueOf};
use crate::model::sheet::{SheetLacks, SheetPart};
use crate::model::{AlignmentSheet, Id, ReferenceAxis, Wheel};

/// Something that a step must have and has not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Must {
    /// A figure that it asks for.
    Value(ValueOf),
    /// The title or number of the maker's document.
    Document,
    /// Its edition.
    Edition,
    /// The date on it.
    Dated,
    /// The height of a wheel's arch.
    Arch(Wheel),
    /// A figure of the alignment sheet.
    Sheet(SheetPart),
    /// A figure of it that was typed and is not used, and why.
    SheetOpen(SheetPart, SheetLacks),
    /// That the floor's survey, with its day, still holds.
    Survey,
    /// That the car stands at its other place.
    Parked,
    /// A distance to the car when it is parked, from 1.
    CarAtStart(usize),
    /// The same when the routine is through.
    CarAtEnd(usize),
    /// What the marks prove, after the last tape.
    Decided,
    /// With which tape distances were read: of so many nobody said.
    Instrument(usize),
    /// What the routine said.
    Result,
    /// A signature.
    Signature,
}

/// What musts are asked of.
pub(super) struct Asked<'a, 'p> {
    pub holds: Holds<'a>,
    pub parts: &'p [Part<'a>],
    /// The aiming for which the car was parked where the step is done.
    pub parked_for: Option<&'a Id>,
    /// Whether the car is parked elsewhere for it than where it stood first.
    pub is_elsewhere: bool,
}

/// What a step must have and has not, in the order of its boxes; `unentered` are those of its figures. What only a set-up that is not at hand
/// knows is not asked.
pub(super) fn musts(
    asked: &Asked<'_, '_>,
    id: &StepId,
    unentered: impl Iterator<Item = ValueOf>,
) -> Vec<Must> {
    let holds = asked.holds;
    match (id.kind, &id.aiming) {
        (StepKind::Procedure, Some(aiming)) => document(holds, aiming),
        (StepKind::RideHeights, _) => arches(asked),
        (StepKind::Alignment, _) => alignment(asked),
        (StepKind::Floor, _) => holds.floor().is_none().then_some(Must::Survey).into_iter().collect(),
        (StepKind::Park, Some(aiming)) => {
            let is_parked = !asked.is_elsewhere || holds.parked(aiming).is_some();
            let taped = holds.stood(aiming);
            let missing = (1..=CAR_CHECKS)
                .filter(|nth| !taped.iter().any(|own| own.what.nth == *nth))
                .map(Must::CarAtStart);
            (!is_parked).then_some(Must::Parked).into_iter().chain(missing).collect()
        }
        (StepKind::CheckDistances, Some(aiming)) => {
            let decided = holds.decided(aiming);
            let is_open = decided.is_empty() || decided.iter().any(|own| own.is_older);
            let readings = holds.readings(aiming);
            let unknown = readings.iter().filter(|own| own.what.instrument.is_none()).count();
            let with = (unknown > 0).then_some(Must::Instrument(unknown));
            is_open.then_some(Must::Decided).into_iter().chain(with).collect()
        }
        (StepKind::Result, Some(aiming)) => {
            let result = holds.routine(aiming).is_none().then_some(Must::Result);
            result.into_iter().chain(ends(asked, aiming)).collect()
        }
        (StepKind::Sign, _) => holds.signed().is_empty().then_some(Must::Signature).into_iter().collect(),
        _ => unentered.map(Must::Value).collect(),
    }
}

fn document(holds: Holds<'_>, aiming: &Id) -> Vec<Must> {
    let all = holds.documents(aiming);
    let Some(own) = all.iter().max_by_key(|own| own.nth) else {
        return vec![Must::Document, Must::Edition, Must::Dated];
    };
    let edition = own.what.edition.is_empty().then_some(Must::Edition);
    let dated = own.what.date.is_none().then_some(Must::Dated);
    edition.into_iter().chain(dated).collect()
}

/// All four arches, whatever the car's profile says of them: a step without its figures is not done, and where the maker does not ask for
/// them it does not apply.
fn arches(asked: &Asked<'_, '_>) -> Vec<Must> {
    let held = asked.holds.ride_heights().map_or([None; 4], |own| *own.what);
    let open = Wheel::ALL.into_iter().zip(held).filter(|(_, height)| height.is_none());
    open.map(|(wheel, _)| Must::Arch(wheel)).collect()
}

/// The thrust line, by both rear toes or as the sheet prints it: to a crooked car no sensor is aimed. The set-back where a procedure limits
/// it. And whatever was typed and is not used.
fn alignment(asked: &Asked<'_, '_>) -> Vec<Must> {
    let none = AlignmentSheet::default();
    let held = asked.holds.alignment().map_or(&none, |own| own.what);
    let open = held.open();
    let is_open = |part: SheetPart| open.iter().any(|(own, _)| *own == part);
    let toe = |wheel| held.toe_rad(wheel).is_none() && !is_open(SheetPart::Toe(wheel));
    // A printed angle stands in for the toes, but not where the aiming itself goes by the thrust line.
    let by_line = asked.parts.iter().any(|own| own.arrangement.aiming.axis == ReferenceAxis::ThrustLine);
    let is_printed = held.printed_thrust_rad().is_some() && !by_line;
    let toes = [Wheel::RearLeft, Wheel::RearRight].into_iter().filter(|own| !is_printed && toe(*own));
    let limited = asked.parts.iter().any(|own| own.arrangement.aiming.alignment.set_back_mm.is_some());
    let back = (limited && held.set_back.reads.is_none()).then_some(Must::Sheet(SheetPart::SetBack));
    let toes = toes.map(|own| Must::Sheet(SheetPart::Toe(own)));
    let said = open.iter().map(|(part, why)| Must::SheetOpen(*part, *why));
    toes.chain(back).chain(said).collect()
}

/// What was taped to the car where it was parked is taped again at the end of each routine.
fn ends(asked: &Asked<'_, '_>, aiming: &Id) -> Vec<Must> {
    let Some(parked_for) = asked.parked_for else { return Vec::new() };
    let starts = asked.holds.stood(parked_for);
    let ends = asked.holds.stood(aiming);
    let is_taped = |nth: usize| ends.iter().any(|own| own.what.nth == nth && own.what.stood.end_mm.is_some());
    let open = starts.iter().map(|own| own.what.nth).filter(|nth| !is_taped(*nth));
    open.map(Must::CarAtEnd).collect()
}
