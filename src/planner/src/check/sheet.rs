//! The alignment sheet against itself.
//!
//! Rule: a figure that was typed is used, or it is said that it is not and why: nobody said which way it goes, or a toe in
//! millimetres is at a rim of no known diameter. The thrust angle that a sheet prints is what its rear toes give.
//! Limit: [`AGREES_RAD`].

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};

/// How far the printed thrust angle may be from (right − left) / 2 of the rear toes: a twentieth of a degree. Each figure is printed
/// to a hundredth of a degree or to a minute, and two of them and a half make less than 0.02° (common practice, no source); more is
/// a wrong way, a wrong unit or another sheet.
const AGREES_RAD: f64 = 0.05 * std::f64::consts::PI / 180.0;

pub(super) const CHECK: Check = Check { codes: &[Code::SheetOpen, Code::SheetDiffers], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let car = &context.arrangement.on_this_car;
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let told = |facts| finding(facts, Severity::Care, vec![Subject::Car], at, Basis::CommonPractice);
    let open = car.sheet.open();
    if !open.is_empty() {
        findings.push(told(Facts::SheetOpen(open)).cured_by(Step::EnterAlignment));
    }
    if let Some((printed_rad, worked_rad)) = car.sheet.printed_thrust_rad().zip(car.worked_thrust_rad())
        && (printed_rad - worked_rad).abs() > AGREES_RAD
    {
        let apart = Quantity::Angle((printed_rad - worked_rad).abs());
        let differs = told(Facts::SheetDiffers { printed_rad, worked_rad });
        findings.push(differs.against(apart, Quantity::Angle(AGREES_RAD)).cured_by(Step::EnterAlignment));
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::sheet::{Inward, Rim, SheetLacks, SheetPart, Side, Typed};

    #[test]
    fn what_is_not_used_is_told() {
        let mut arrangement = clear();
        none(&arrangement, Code::SheetOpen);
        arrangement.on_this_car.sheet.toe[2].reads = Some(Typed::of(0.2));
        let found = check(&arrangement, Code::SheetOpen, Severity::Care, None);
        let open = vec![(SheetPart::Toe(Wheel::RearLeft), SheetLacks::Way)];
        assert_eq!(found.facts, Facts::SheetOpen(open));
        arrangement.on_this_car.sheet.toe[2].way = Some(Inward::In);
        none(&arrangement, Code::SheetOpen);
        arrangement.on_this_car.sheet.toe_unit = SheetUnit::Millimetres;
        check(&arrangement, Code::SheetOpen, Severity::Care, None);
        arrangement.on_this_car.sheet.rim = Some(Rim::Inches(16.0));
        none(&arrangement, Code::SheetOpen);
    }

    /// Toes of 0.3° and 0.1° give (0.1 − 0.3) / 2 = 0.1° to the right; a sheet that prints 0.1° to the left was read wrongly.
    #[test]
    fn a_printed_thrust_angle_is_what_the_toes_give() {
        let mut arrangement = clear();
        arrangement.on_this_car.sheet.toe[2] = Told::of(Typed::of(0.3), Inward::In);
        arrangement.on_this_car.sheet.toe[3] = Told::of(Typed::of(0.1), Inward::In);
        arrangement.on_this_car.sheet.thrust = Told::of(Typed::of(0.06), Side::Right);
        none(&arrangement, Code::SheetDiffers);
        arrangement.on_this_car.sheet.thrust.way = Some(Side::Left);
        let found = check(&arrangement, Code::SheetDiffers, Severity::Care, Some(angle::radians(0.16)));
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::EnterAlignment));
        // What is worked out counts: the thrust line still points to the right.
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        assert!(assess(&arrangement).scene.bay_from_axis.heading() < 0.0);
    }

    /// A sheet that prints the thrust angle alone is enough for an aiming along the thrust line, and within its limit or not.
    #[test]
    fn a_printed_thrust_angle_stands_in_for_the_toes() {
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.aiming.alignment.thrust_angle_rad = Some(angle::radians(0.1));
        check(&arrangement, Code::AxisUnknown, Severity::Care, None);
        arrangement.on_this_car.sheet.thrust = Told::of(Typed { value: 0.0, minutes: 9.0 }, Side::Left);
        arrangement.on_this_car.sheet.thrust_unit = SheetUnit::DegreesMinutes;
        none(&arrangement, Code::AxisUnknown);
        check(&arrangement, Code::AlignmentOff, Severity::Stops, Some(angle::radians(0.15)));
        arrangement.on_this_car.sheet.thrust.way = None;
        check(&arrangement, Code::AxisUnknown, Severity::Care, None);
        check(&arrangement, Code::SheetOpen, Severity::Care, None);
        none(&arrangement, Code::AlignmentOff);
    }

    /// A set-back of 0.5° over the front track of the test car is in mm; the aiming's limit of 8 mm is for mm.
    #[test]
    fn a_set_back_in_degrees_is_held_against_a_limit_in_mm() {
        let mut arrangement = clear();
        arrangement.aiming.alignment.set_back_mm = Some(8.0);
        arrangement.on_this_car.sheet.set_back_unit = SheetUnit::Degrees;
        arrangement.on_this_car.sheet.set_back = Told::of(Typed::of(0.5), Side::Left);
        let track = arrangement.vehicle.track_front_mm;
        let mm = track * libm::tan(angle::radians(0.5));
        let found = check(&arrangement, Code::AlignmentOff, Severity::Stops, None);
        assert!((number(found.measured.unwrap()) - mm).abs() < 1e-9 && mm > 8.0);
        arrangement.on_this_car.sheet.set_back.way = None;
        none(&arrangement, Code::AlignmentOff);
        check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
    }
}
