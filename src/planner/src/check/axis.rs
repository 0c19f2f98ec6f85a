//! The reference axis.
//!
//! Rule: an aiming along the thrust line needs the rear toe of this very car, from its alignment sheet. Without it the
//! centreline is drawn instead, and that needs care.
//! Limit: the aiming's reference axis.

use super::{Context, finding};
use crate::assessment::{Basis, Code, Finding, Severity, Step, Subject};
use crate::model::ReferenceAxis;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.aiming.axis == ReferenceAxis::ThrustLine && arrangement.on_this_car.rear_toe.is_none() {
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let basis = Basis::Procedure(arrangement.aiming.provenance.clone());
        findings.push(
            finding(Code::AxisUnknown, Severity::Care, vec![Subject::Car], at, basis)
                .cured_by(Step::EnterAlignment),
        );
    }
}
