//! Whether the car stood still since its marks were laid.
//!
//! Rule: a distance from the floor to the car that was taped when the marks were laid reads the same at the end. Marks that were
//! laid from wheels that have moved since are marks of nothing. One that was not taped again yet says nothing: the tab of marks
//! tells it as open.
//! Limit: what two readings of one tape may differ by ([`still_within_mm`]).

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::as_measured::still_within_mm;
use crate::model::ShopFigure;

pub(super) const CHECK: Check = Check { codes: &[Code::CarMoved], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let all = context.arrangement.on_this_car.stood.iter();
    let moved = all.filter_map(|own| Some((own, own.moved_mm()?)));
    let Some((own, by_mm)) = moved.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())) else { return };
    let limit = still_within_mm(context.arrangement);
    if by_mm.abs() <= limit {
        return;
    }
    let facts = Facts::CarMoved { from: own.from.clone(), to: own.to.clone(), by_mm };
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let basis = Basis::Shop(ShopFigure::TapeRead);
    let found = finding(facts, Severity::Stops, vec![Subject::Car], at, basis);
    findings.push(found.against(Quantity::Length(by_mm.abs()), Quantity::Length(limit)));
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// 1.96·√2·0.7/√3 = 1.120 mm: a millimetre is the tape, two are the car.
    #[test]
    fn a_car_that_moved_stops_the_aiming() {
        let mut arrangement = clear();
        arrangement.shop.tape_read_mm = 0.7;
        let stood = |end_mm| Stood {
            from: "floor mark A".into(),
            to: "left front tyre".into(),
            start_mm: 1_203.0,
            end_mm,
        };
        arrangement.on_this_car.stood = vec![stood(None), stood(Some(1_204.0))];
        none(&arrangement, Code::CarMoved);
        arrangement.on_this_car.stood = vec![stood(Some(1_204.0)), stood(Some(1_201.0))];
        let found = check(&arrangement, Code::CarMoved, Severity::Stops, Some(2.0));
        assert!((number(found.limit.unwrap()) - 1.120).abs() < 5e-4, "{found:?}");
        let Facts::CarMoved { by_mm, .. } = found.facts else { panic!("{:?}", found.facts) };
        assert!((by_mm + 2.0).abs() < 1e-12);
        // A tape that is read worse proves less.
        arrangement.shop.tape_read_mm = 2.0;
        none(&arrangement, Code::CarMoved);
    }
}
