//! What was read of the stands as they were set.
//!
//! Rule: as long as nothing was read of a stand, nothing is asked: that it stands on its mark is taken as planned. Once something is,
//! what was read is inside what is allowed, its whole uncertainty of 95 % with it (JCGM 106, guarded acceptance): outside by all of it
//! stops, what cannot be told needs care. So does what matters for that kind of target and was not read: a plate's squareness, a
//! reflector's height, the pole of either; and a reading that waits for levels of the floor.
//! Nor is a figure believed that cannot be: it is told, and left out.
//! Limit: the aiming's tolerance, and the placement's of height, place, turn and tip.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::proof::{NotPossible, Said, StandFigure, StandOf, StandPart, StandProof, stands};
use crate::scene::PlacedTarget;

pub(super) const CHECK: Check =
    Check { codes: &[Code::StandSetOff, Code::StandUnproven], whole, ..Check::NONE };

/// What is not proven of a stand.
#[derive(Clone, Debug, PartialEq)]
pub enum StandOpen {
    /// This figure.
    Figure(StandFigure),
    /// This cannot be, and was left out.
    NotPossible(NotPossible),
    /// These parts were not read; or wait for levels of the floor.
    Parts {
        /// Which.
        parts: Vec<StandPart>,
        /// Whether levels are what is missing.
        wants_levels: bool,
    },
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let read = &context.arrangement.stands_read;
    if read.is_empty() {
        return;
    }
    for stand in stands(context.arrangement, context.scene) {
        let is_read = read.iter().any(|own| own.placement == stand.placement);
        let target = context.scene.targets.iter().find(|own| own.id == stand.placement);
        if let Some(target) = target.filter(|_| is_read) {
            findings.extend(of_stand(context, &stand, target));
        }
    }
}

/// Of each stand the worst is said.
fn of_stand(context: &Context<'_>, stand: &StandProof, target: &PlacedTarget) -> Option<Finding> {
    let say = |facts: Facts, severity: Severity| {
        let of = vec![Subject::Target(stand.placement.clone()), Subject::Stand(stand.placement.clone())];
        let basis = Basis::Procedure(context.arrangement.aiming.provenance.clone());
        finding(facts, severity, of, target.centre(), basis)
    };
    let worst = stand.worst().filter(|own| !matches!(own.said, Said::Inside { .. }));
    let is_out = worst.is_some_and(|own| matches!(own.said, Said::Outside { .. }));
    if let Some(own) = stand.not_possible.first().filter(|_| !is_out) {
        let limit = if own.read_mm > own.most_mm { own.most_mm } else { own.least_mm };
        let found = say(Facts::StandUnproven(StandOpen::NotPossible(*own)), Severity::Care);
        return Some(found.against(Quantity::Length(own.read_mm), Quantity::Length(limit)));
    }
    let Some(figure) = worst.copied() else {
        let parts = stand.open.clone();
        let facts = Facts::StandUnproven(StandOpen::Parts { parts, wants_levels: stand.wants_levels });
        return (!stand.open.is_empty()).then(|| say(facts, Severity::Care));
    };
    let quantity = if figure.of.is_angle() { Quantity::Angle } else { Quantity::Length };
    let found = match figure.said {
        // A board's roll has a limit by common practice alone: it needs care at most.
        Said::Outside { .. } if figure.of == StandOf::Askew => {
            say(Facts::StandSetOff(figure), Severity::Care)
        }
        Said::Outside { .. } => say(Facts::StandSetOff(figure), Severity::Stops),
        _ => say(Facts::StandUnproven(StandOpen::Figure(figure)), Severity::Care),
    };
    Some(found.against(quantity(figure.off.abs()), quantity(figure.allowed)))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::{LineOver, SquareBy, StandRead, VerticalReference};
    use crate::proof::StandPart;
    use crate::{Facts, StandOpen};

    /// The test car's target as a reflector, 4 m ahead of the sensor and as high, with all that was read of its stand.
    fn reflector(change: impl FnOnce(&mut StandRead)) -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.placements[0].target.error = AimError::PLACE;
        let mut read = StandRead::of(arrangement.aiming.placements[0].id.clone());
        let TargetHeight::FromSensor { offset_mm, .. } = arrangement.aiming.placements[0].height else {
            panic!("the test car's target is counted from its sensor")
        };
        (read.line_mm, read.offset_mm) = (Some(0.0), Some(offset_mm));
        (read.leans_away_rad, read.leans_left_rad) = (Some(0.0), Some(0.0));
        change(&mut read);
        arrangement.stands_read = vec![read];
        arrangement
    }

    /// The same as a plate, of which a mirror 2700 mm away was read.
    fn plate(change: impl FnOnce(&mut StandRead)) -> Arrangement {
        let mut arrangement = reflector(|read| {
            (read.square_by, read.beside_mm, read.mirror_mm) = (SquareBy::Mirror, Some(0.0), Some(2_700.0));
            change(read);
        });
        arrangement.aiming.placements[0].target.error = AimError::SQUARENESS;
        arrangement.aiming.tolerance.azimuth_rad = angle::radians(0.2);
        arrangement.aiming.tolerance.elevation_rad = angle::radians(0.3);
        arrangement
    }

    #[test]
    fn nothing_read_says_nothing_and_all_right_says_nothing() {
        for arrangement in [clear(), reflector(|_| {}), plate(|_| {})] {
            none(&arrangement, Code::StandSetOff);
            none(&arrangement, Code::StandUnproven);
        }
    }

    /// 0.1° at 4 m is 7 mm: 20 mm too high is out whatever is unsure.
    #[test]
    fn a_reflector_that_hangs_too_high_stops() {
        let found =
            check(&reflector(|read| read.line_mm = Some(20.0)), Code::StandSetOff, Severity::Stops, None);
        assert!((number(found.measured.unwrap()) - libm::atan(20.0 / 4_000.0)).abs() < 1e-9, "{found:?}");
        // A pole that leans 1° to the left carries it 500·sin 1° = 8.7 mm aside.
        let leans = reflector(|read| read.leans_left_rad = Some(angle::radians(1.0)));
        let found = check(&leans, Code::StandSetOff, Severity::Stops, None);
        assert!((number(found.measured.unwrap()) - 8.726).abs() < 1e-2, "{found:?}");
    }

    /// 9.4 mm at 2.7 m is a tenth of a degree; 47 mm are half of one.
    #[test]
    fn a_plate_that_is_turned_stops() {
        let found =
            check(&plate(|read| read.beside_mm = Some(-47.1)), Code::StandSetOff, Severity::Stops, None);
        assert!((number(found.measured.unwrap()) - angle::radians(0.5)).abs() < 1e-4, "{found:?}");
        // Two distances over half a metre prove no tenth of a degree.
        let two = plate(|read| {
            read.square_by = SquareBy::Distances;
            (read.left_mm, read.right_mm, read.apart_mm) = (Some(3_000.0), Some(3_000.0), Some(500.0));
        });
        let mut strict = two;
        strict.aiming.tolerance.azimuth_rad = angle::radians(0.1);
        check(&strict, Code::StandUnproven, Severity::Care, Some(0.0));
    }

    #[test]
    fn what_matters_and_was_not_read_needs_care() {
        let open =
            |arrangement: &Arrangement| match check(arrangement, Code::StandUnproven, Severity::Care, None)
                .facts
            {
                Facts::StandUnproven(StandOpen::Parts { parts, wants_levels }) => (parts, wants_levels),
                other => panic!("{other:?}"),
            };
        assert_eq!(open(&reflector(|read| read.line_mm = None)), (vec![StandPart::Height], false));
        assert_eq!(open(&reflector(|read| read.leans_left_rad = None)), (vec![StandPart::Plumb], false));
        // Two marks that are joined give its direction, as long as it is led to by them.
        let mut unread = plate(|read| read.beside_mm = None);
        none(&unread, Code::StandUnproven);
        unread.aiming.placements[0].mark = None;
        assert_eq!(open(&unread).0, [StandPart::Square]);
        // A height over the floor there, without its levels; by the plane of the wheels not even from the sensor.
        let mut unknown = reflector(|read| (read.line_over, read.line_mm) = (LineOver::Floor, Some(500.0)));
        unknown.bay.survey = None;
        assert_eq!(open(&unknown), (vec![StandPart::Height], true));
        let mut by_wheels = reflector(|_| {});
        by_wheels.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
        none(&by_wheels, Code::StandSetOff);
        by_wheels.bay.survey = None;
        assert!(open(&by_wheels).1);
    }

    /// A line 500 mm over a level floor, and the sensor at 500: the same as none over the sensor.
    #[test]
    fn a_height_from_the_floor_goes_by_its_levels() {
        let from_floor = |line: f64| {
            let mut own = reflector(|read| (read.line_over, read.line_mm) = (LineOver::Floor, Some(line)));
            own.shop.level_read_mm = 0.5;
            own
        };
        let meant = assess(&from_floor(0.0)).scene.targets[0].meant.height_mm;
        none(&from_floor(meant), Code::StandSetOff);
        let found = check(&from_floor(meant + 30.0), Code::StandSetOff, Severity::Stops, None);
        assert!((number(found.measured.unwrap()) - libm::atan(30.0 / 4_000.0)).abs() < 1e-9, "{found:?}");
    }
}
