//! The centreline by the body against the axis that the aiming names.
//!
//! Rule: where points of the body were plumbed on this car, the line by them and the reference axis (the centreline by the wheels,
//! or the thrust line) lead to the same aim: what separates them at a target, turned and aside, is less of the aim's tolerance than
//! the shop leaves to one cause. A badge lies off the middle more often than one thinks, and a body that was mended may sit askew.
//! Limit: the shop's own share of the aiming's tolerance.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::as_measured::{ahead_of_axle_mm, body_apart};
use crate::model::{ReferenceAxis, ShopFigure};

/// What separates them, abreast of a target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinesApart {
    /// How far the body's line is turned from the axis, radians, positive to the left.
    pub turned_rad: f64,
    /// How far it lies aside there, mm, positive to the left.
    pub aside_mm: f64,
    /// How far off that may be in 95 of 100 cases, mm either way.
    pub aside_u95_mm: f64,
    /// The axis.
    pub axis: ReferenceAxis,
}

pub(super) const CHECK: Check = Check { codes: &[Code::CentrelinesApart], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.on_this_car.body_points.len() < 2 {
        return;
    }
    let sensor = context.scene.sensor().truncate();
    let limit = arrangement.shop.tolerance_share * arrangement.aiming.tolerance.azimuth_rad;
    let each = arrangement.aiming.placements.iter().zip(&context.scene.targets).enumerate();
    let apart = each.filter_map(|(nth, (placement, target))| {
        let apart = body_apart(arrangement, ahead_of_axle_mm(context.scene, nth)?)?;
        let away = sensor.distance(target.meant.place.origin());
        let aside = libm::atan2(apart.aside_mm.value.abs(), away);
        let error = placement.target.error;
        let off = error.by_place * aside + error.by_squareness * apart.turned_rad.value.abs();
        Some((off, apart, target.meant.place.origin()))
    });
    let Some((off, apart, at)) = apart.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|own| own.0 > limit) else {
        return;
    };
    let facts = Facts::CentrelinesApart(LinesApart {
        turned_rad: apart.turned_rad.value,
        aside_mm: apart.aside_mm.value,
        aside_u95_mm: K * apart.aside_mm.u,
        axis: arrangement.aiming.axis,
    });
    let basis = Basis::Shop(ShopFigure::ToleranceShare);
    let found = finding(facts, Severity::Care, vec![Subject::Car], at.extend(0.0), basis);
    findings.push(found.against(Quantity::Angle(off), Quantity::Angle(limit)));
}

/// 95 of 100, either way.
const K: f64 = baywright_survey::chances::K95;

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::sheet::{Inward, Typed};

    /// Two badges 4 m apart on the middle line of the test car, the front one measured `aside` mm to the left.
    fn badges(aside: f64) -> Arrangement {
        let mut arrangement = clear();
        let front = arrangement.vehicle.length_mm
            - arrangement.vehicle.overhang_rear_mm
            - arrangement.vehicle.wheelbase_mm;
        let at = [("front badge", front, aside), ("rear badge", front - 4_000.0, 0.0)];
        arrangement.vehicle.body_points =
            at.map(|(id, x, _)| BodyPoint { id: id.into(), at: DVec3::new(x, 0.0, 600.0) }).to_vec();
        arrangement.on_this_car.body_points =
            at.map(|(id, x, aside)| (id.into(), DVec2::new(x, aside))).to_vec();
        arrangement
    }

    /// 8 mm over 4 m are 0.115°, seen by a plate that aims by its squareness; of 0.2° the shop leaves half to one cause.
    #[test]
    fn a_body_that_sits_askew_needs_care() {
        none(&badges(0.0), Code::CentrelinesApart);
        let mut askew = badges(8.0);
        askew.aiming.tolerance.azimuth_rad = angle::radians(0.2);
        askew.shop.tolerance_share = 0.5;
        let turned = libm::atan(8.0 / 4_000.0);
        check(&askew, Code::CentrelinesApart, Severity::Care, Some(turned));
        askew.aiming.tolerance.azimuth_rad = angle::radians(0.3);
        none(&askew, Code::CentrelinesApart);
        askew.on_this_car.body_points.truncate(1);
        askew.aiming.tolerance.azimuth_rad = angle::radians(0.01);
        none(&askew, Code::CentrelinesApart);
    }

    /// Against the thrust line, where the aiming follows that: a body turned as the thrust line is agrees with it.
    #[test]
    fn the_axis_that_is_named_is_the_one_that_counts() {
        let mut askew = badges(8.0);
        askew.aiming.tolerance.azimuth_rad = angle::radians(0.1);
        check(&askew, Code::CentrelinesApart, Severity::Care, None);
        askew.aiming.axis = ReferenceAxis::ThrustLine;
        none(&askew, Code::CentrelinesApart);
        askew.on_this_car.sheet.toe[2] = Told::of(Typed::of(0.0), Inward::In);
        askew.on_this_car.sheet.toe[3] = Told::of(Typed::of(0.229), Inward::In);
        none(&askew, Code::CentrelinesApart);
        askew.on_this_car.sheet.toe[3].way = Some(Inward::Out);
        check(&askew, Code::CentrelinesApart, Severity::Care, None);
    }
}
