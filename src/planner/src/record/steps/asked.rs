//! The figures that a step asks for, and what they may be.

use super::super::Part;
use super::super::holds::Holds;
use super::AskedValue;
use crate::as_measured::still_within_mm;
use crate::ground::height_to_set;
use crate::model::record::{CAR_CHECKS, StepId, StepKind, ValueOf, Within};
use crate::model::{Arrangement, Id, TargetHeight, Wheel};

/// `parked_for` is the aiming for which the car was parked where it stands at this step.
pub(super) fn asked(
    holds: Holds<'_>,
    id: &StepId,
    part: Option<&Part<'_>>,
    parked_for: Option<&Id>,
) -> Vec<AskedValue> {
    let value = |of: ValueOf, allowed: Within| {
        let entered = holds.value(id, &of).map(|own| own.what.value);
        AskedValue { of, allowed, entered }
    };
    match id.kind {
        StepKind::ScanBefore => vec![value(ValueOf::Faults, Within::default())],
        // What is left is to be explained.
        StepKind::ScanAfter => vec![value(ValueOf::Faults, Within::range(0.0, 0.0))],
        StepKind::TyresAndLoad => {
            Wheel::ALL.map(|own| value(ValueOf::TyrePressure(own), Within::default())).to_vec()
        }
        StepKind::Park => {
            (1..=CAR_CHECKS).map(|nth| value(ValueOf::CarAtStart(nth), Within::default())).collect()
        }
        StepKind::Stand => {
            let heights = part.map(heights).unwrap_or_default().into_iter();
            heights.map(|(of, within)| value(of, within)).collect()
        }
        StepKind::Result => {
            let end = |nth| Some((nth, car_at_end(holds, parked_for?, part?.arrangement, nth)?));
            let ends = (1..=CAR_CHECKS).filter_map(end);
            ends.map(|(nth, within)| value(ValueOf::CarAtEnd(nth), within)).collect()
        }
        StepKind::Drive => vec![value(ValueOf::Driven, Within::default())],
        StepKind::Why
        | StepKind::Procedure
        | StepKind::Sensor
        | StepKind::RideHeights
        | StepKind::Alignment
        | StepKind::Floor
        | StepKind::Clear
        | StepKind::Marks
        | StepKind::CheckDistances
        | StepKind::Routine
        | StepKind::Sign => Vec::new(),
    }
}

/// The heights of targets that stand, with what the procedure allows.
fn heights(part: &Part<'_>) -> Vec<(ValueOf, Within)> {
    let placements = part.arrangement.aiming.placements.iter().zip(&part.assessment.scene.targets);
    let standing = placements.filter(|(own, _)| own.height != TargetHeight::OnFloor);
    let asked = standing.map(|(own, placed)| {
        // Over the floor there, as the step says.
        let by_levels = height_to_set(part.arrangement, &part.assessment.scene, &own.id);
        let meant = by_levels.map_or(placed.meant.height_mm, |own| own.height.value);
        let within =
            own.tolerance.height_mm.map_or_else(Within::default, |by| Within::range(meant - by, meant + by));
        (ValueOf::TargetHeight(own.id.clone()), within)
    });
    asked.collect()
}

/// What a distance to the car may read if the car has not moved: as at the start, within what two readings of the shop's tape differ by in
/// 95 of 100 cases ([`still_within_mm`]). `None` where none was taped at the start.
fn car_at_end(holds: Holds<'_>, parked_for: &Id, arrangement: &Arrangement, nth: u8) -> Option<Within> {
    let parked = StepId::of_aiming(StepKind::Park, parked_for.clone());
    let start = holds.value(&parked, &ValueOf::CarAtStart(nth))?.what.value;
    let by = still_within_mm(arrangement);
    Some(Within::range(start - by, start + by))
}
