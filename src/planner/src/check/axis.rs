//! The reference axis.
//!
//! Rule: an aiming along the thrust line needs the rear toe of this very car, from its alignment sheet. Without it the
//! centreline is drawn instead, and that needs care.
//! Limit: the aiming's reference axis.

use super::{Check, Context, finding};
use crate::assessment::{Basis, Code, Facts, Finding, Severity, Step, Subject};
use crate::model::ReferenceAxis;

pub(super) const CHECK: Check = Check { codes: &[Code::AxisUnknown], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.aiming.axis == ReferenceAxis::ThrustLine && arrangement.on_this_car.rear_toe.is_none() {
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let basis = Basis::Procedure(arrangement.aiming.provenance.clone());
        findings.push(
            finding(Facts::AxisUnknown, Severity::Care, vec![Subject::Car], at, basis)
                .cured_by(Step::EnterAlignment),
        );
    }
}
