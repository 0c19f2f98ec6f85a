//! The figures that a step asks for, and what they may be.

use super::super::Part;
use super::super::holds::Holds;
use super::AskedValue;
use crate::ground::height_to_set;
use crate::model::record::{StepId, StepKind, ValueOf, Within};
use crate::model::{TargetHeight, Wheel};

pub(super) fn asked(holds: Holds<'_>, id: &StepId, part: Option<&Part<'_>>) -> Vec<AskedValue> {
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
        StepKind::Stand => {
            let heights = part.map(heights).unwrap_or_default().into_iter();
            heights.map(|(of, within)| value(of, within)).collect()
        }
        StepKind::Drive => vec![value(ValueOf::Driven, Within::default())],
        StepKind::Why
        | StepKind::Procedure
        | StepKind::Sensor
        | StepKind::RideHeights
        | StepKind::Alignment
        | StepKind::Floor
        | StepKind::Park
        | StepKind::Clear
        | StepKind::Marks
        | StepKind::CheckDistances
        | StepKind::Routine
        | StepKind::Result
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
