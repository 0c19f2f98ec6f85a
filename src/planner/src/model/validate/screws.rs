//! Invariants of a sensor's screws.

use super::super::screw::{Screw, Screws};
use super::Faults;
use super::limits;

pub(super) fn check(path: &str, screws: &Screws, faults: &mut Faults) {
    one(&format!("{path}.up_down"), &screws.up_down, faults);
    one(&format!("{path}.left_right"), &screws.left_right, faults);
}

fn one<W>(path: &str, screw: &Screw<W>, faults: &mut Faults) {
    if let Some(pitch) = screw.pitch_mm {
        faults.number(format!("{path}.pitch_mm"), pitch, &limits::SCREW_PITCH);
    }
    if let Some(arm) = screw.arm_mm {
        faults.number(format!("{path}.arm_mm"), arm, &limits::SCREW_ARM);
    }
}
