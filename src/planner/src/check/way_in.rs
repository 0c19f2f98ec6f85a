//! Whether the car gets into the room.
//!
//! Rule: where doors or gaps are entered, one of them is wide and high enough for the car, mirrors and all, with a hand's room all
//! round, as its place and size are known. A room of which none is entered says nothing of the way into it.
//! Limit: the car, and the shop's own `over_car_mm` on every side that is not the floor. It needs care: another way in may
//! not have been entered.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Arrangement, Opening, OpeningKind, ShopFigure};

pub(super) const CHECK: Check = Check { codes: &[Code::WayIn], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let doors = || arrangement.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window);
    let lacks = |door: &Opening| lack(arrangement, door);
    let Some(nearest) = doors().min_by(|a, b| lacks(a).mm.total_cmp(&lacks(b).mm)) else { return };
    let lack = lacks(nearest);
    if lack.mm <= 0.0 {
        return;
    }
    let Some(wall) = context.scene.room.walls().edges().nth(nearest.wall) else { return };
    let along = (wall.to - wall.from).normalize_or_zero();
    let at = wall.from + along * (nearest.from_mm + nearest.width_mm * 0.5);
    let subjects = vec![Subject::Opening(nearest.id.clone()), Subject::Car];
    let basis = Basis::Shop(ShopFigure::OverCar);
    let found = finding(Facts::WayIn(lack.of), Severity::Care, subjects, at.extend(0.0), basis);
    findings.push(found.against(Quantity::Length(lack.is_mm), Quantity::Length(lack.is_mm + lack.mm)));
}

/// Of what a door has too little.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooSmall {
    /// Of its width.
    Narrow,
    /// Of its height.
    Low,
    /// Its sill lies over the floor.
    Sill,
}

struct Lack {
    of: TooSmall,
    is_mm: f64,
    /// How much is missing; not above nought if nothing is.
    mm: f64,
}

/// What most of is missing of a door.
fn lack(arrangement: &Arrangement, door: &Opening) -> Lack {
    let (shop, car) = (&arrangement.shop, &arrangement.vehicle);
    let solids = car.solids();
    let sides = solids.iter().map(|solid| solid.outline.bounds());
    let aside = sides.fold(0.0, |most: f64, own| most.max(own.high.y).max(-own.low.y));
    let top = solids.iter().map(|solid| solid.span.top()).fold(0.0, f64::max);
    let unsure = shop.within(arrangement.bay.walls_known);
    let of = |of, is_mm: f64, wants: f64| Lack { of, is_mm, mm: wants - is_mm };
    let all = [
        of(TooSmall::Narrow, door.width_mm, 2.0 * (aside + shop.over_car_mm) + unsure),
        of(TooSmall::Low, door.span.top(), top + shop.over_car_mm + unsure),
        // Over what a tape goes a wheel goes as well.
        Lack { of: TooSmall::Sill, is_mm: 0.0, mm: door.span.bottom() - super::claim::GOES_OVER_MM },
    ];
    all.into_iter().max_by(|a, b| a.mm.total_cmp(&b.mm)).unwrap_or(of(TooSmall::Narrow, 0.0, 0.0))
}

#[cfg(test)]
mod tests {
    use crate::TooSmall;
    use crate::check::testing::*;

    /// The car is 1800 mm wide and 1500 high; the shop wants 100 mm over and beside it.
    #[test]
    fn a_door_that_lets_the_car_in() {
        let door = |(width, top): &(f64, f64)| Opening {
            span: span(0.0, *top),
            shut: true,
            ..open_door(1, 500.0, *width, 5_000.0)
        };
        let with_doors = |doors: &[(f64, f64)]| {
            let mut arrangement = clear();
            arrangement.bay.openings = doors.iter().map(door).collect();
            arrangement
        };
        none(&clear(), Code::WayIn);
        none(&with_doors(&[(900.0, 2_000.0), (2_000.0, 1_600.0)]), Code::WayIn);
        let narrow = check(
            &with_doors(&[(900.0, 2_000.0), (1_999.0, 2_100.0)]),
            Code::WayIn,
            Severity::Care,
            Some(1_999.0),
        );
        assert_eq!(
            (narrow.facts, narrow.limit),
            (Facts::WayIn(TooSmall::Narrow), Some(Quantity::Length(2_000.0)))
        );
        let low = check(&with_doors(&[(2_400.0, 1_590.0)]), Code::WayIn, Severity::Care, Some(1_590.0));
        assert_eq!((low.facts, low.limit), (Facts::WayIn(TooSmall::Low), Some(Quantity::Length(1_600.0))));
        // A window is none.
        let mut window = with_doors(&[(2_400.0, 2_400.0)]);
        window.bay.openings[0].kind = OpeningKind::Window;
        none(&window, Code::WayIn);
    }
}
