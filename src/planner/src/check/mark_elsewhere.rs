//! Marks that stay, where they are entered and where their checks find them.
//!
//! Rule: what a bay says of a mark that stays is what the last check of it says: who parks or lays by it relies on that place. A check
//! that says nowhere (what it was measured from is gone, twice the same, or meets too flat), or is of a day to come, is told and not used.
//! Limit: how far off a mark is laid in this shop, or how far off this one may be laid if that is more; what the readings allow for
//! (95 %), and how well walls are known where it was measured from one. Where a mark of the aiming lies by it, what may be laid by it is
//! aimed: then only the shop's own figure counts, whatever the mark may be off for parking.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::permanent_mark::BESIDE_MM;
use super::{Check, Context, finding};
use crate::history::{checks, spread_mm};
use crate::model::{Arrangement, CheckFrom, MarkCheck, PermanentMark, ShopFigure};

pub(super) const CHECK: Check =
    Check { codes: &[Code::MarkElsewhere, Code::MarkCheckUnused], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for mark in &context.arrangement.bay.marks {
        let mut marks = context.scene.marks.iter().filter_map(|own| own.at.ok());
        let is_aimed_by = marks.any(|at| at.distance(mark.at) < BESIDE_MM);
        findings.extend(elsewhere(context.arrangement, mark, is_aimed_by));
        findings.extend(unused(context.arrangement, mark));
    }
}

fn is_to_come(arrangement: &Arrangement, check: &MarkCheck) -> bool {
    arrangement.today.is_some_and(|today| check.on > today)
}

fn elsewhere(arrangement: &Arrangement, mark: &PermanentMark, is_aimed_by: bool) -> Option<Finding> {
    let all = checks(&arrangement.bay, mark);
    let (last, found) = all.into_iter().rfind(|(own, at)| at.is_some() && !is_to_come(arrangement, own))?;
    let found = found?;
    let by = found.at - mark.at;
    let is_of_wall = last.read.iter().any(|own| matches!(own.from, CheckFrom::Wall(_)));
    let walls_mm = if is_of_wall { arrangement.shop.within(arrangement.bay.walls_known) } else { 0.0 };
    let read_mm = spread_mm(last, &found, &arrangement.shop, &arrangement.instruments);
    let of_shop = arrangement.shop.mark_laid_mm;
    let asked = mark.laid_within_mm.filter(|own| !is_aimed_by && *own > of_shop);
    let limit = asked.unwrap_or(of_shop) + read_mm + walls_mm;
    if by.length() <= limit {
        return None;
    }
    let facts = Facts::MarkElsewhere { by, on: last.on };
    let of = vec![Subject::Mark(mark.id.clone())];
    let basis = asked.map_or(Basis::Shop(ShopFigure::MarkLaid), |_| Basis::AsEntered);
    let told = finding(facts, Severity::Care, of, mark.at.extend(0.0), basis);
    Some(told.against(Quantity::Length(by.length()), Quantity::Length(limit)))
}

/// The latest of those that are not used.
fn unused(arrangement: &Arrangement, mark: &PermanentMark) -> Option<Finding> {
    let all = checks(&arrangement.bay, mark);
    let (check, _) = all.into_iter().rfind(|(own, at)| at.is_none() || is_to_come(arrangement, own))?;
    let facts = Facts::MarkCheckUnused { on: check.on, is_to_come: is_to_come(arrangement, check) };
    let of = vec![Subject::Mark(mark.id.clone())];
    Some(finding(facts, Severity::Care, of, mark.at.extend(0.0), Basis::AsEntered))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use crate::check::testing::*;
    use crate::model::{CheckRead, Known};

    use super::*;

    /// A mark 1 000 mm and 800 mm from the two walls at a corner, walls known to the millimetre, found so in March.
    fn found(read: [f64; 2], walls: [usize; 2]) -> Arrangement {
        let mut own = clear();
        own.today = Some(date(2026, 6, 15));
        own.bay.walls_known = Known::Within(0.0);
        let (from, to) = own.bay.wall_ends(0).unwrap();
        let inward = (to - from).perp().normalize();
        let at = from + (to - from).normalize() * 800.0 + inward * 1_000.0;
        let of = |nth: usize| CheckRead {
            from: CheckFrom::Wall(own.bay.walls[walls[nth]].id.clone()),
            read_mm: read[nth],
        };
        let checks = vec![MarkCheck { on: date(2026, 3, 1), who: None, with: None, read: [of(0), of(1)] }];
        own.bay.marks = vec![PermanentMark { checks, ..PermanentMark::new("stud".into(), at) }];
        own
    }

    fn at_the_corner(read: [f64; 2]) -> Arrangement {
        let last = clear().bay.walls.len() - 1;
        found(read, [0, last])
    }

    /// By hand: readings of ± 0.7 mm, any value alike, are 0.404 standard either way; 95 % of a plane within 2.448 of that, 0.99 mm.
    #[test]
    fn a_mark_is_where_its_last_check_finds_it() {
        none(&at_the_corner([1_000.0, 800.0]), Code::MarkElsewhere);
        none(&at_the_corner([1_000.0, 801.9]), Code::MarkElsewhere);
        let told = check(&at_the_corner([1_003.0, 804.0]), Code::MarkElsewhere, Severity::Care, Some(5.0));
        assert!((number(told.limit.unwrap()) - 1.99).abs() < 0.005, "{told:?}");
        // One that may lie 4 mm off is not elsewhere; one that may lie half a millimetre off is laid as well as any.
        let asks = |within: f64| {
            let mut own = at_the_corner([1_003.0, 804.0]);
            own.bay.marks[0].laid_within_mm = Some(within);
            own
        };
        none(&asks(4.1), Code::MarkElsewhere);
        let told = check(&asks(3.9), Code::MarkElsewhere, Severity::Care, Some(5.0));
        assert!(
            told.basis == Basis::AsEntered && (number(told.limit.unwrap()) - 4.89).abs() < 0.005,
            "{told:?}"
        );
        check(&asks(0.5), Code::MarkElsewhere, Severity::Care, Some(5.0));
        // By whom a target is set up is as good as any mark of the shop, whatever parking allows.
        let mut aimed = asks(10.0);
        none(&aimed, Code::MarkElsewhere);
        let mark = aimed.bay.marks[0].at;
        let third = assess(&aimed).scene.marks[2].at.ok().unwrap();
        let near = mark + DVec2::new(60.0, 0.0);
        aimed.parked = PlanPose::new(aimed.parked.origin() + near - third, aimed.parked.heading());
        let told = check(&aimed, Code::MarkElsewhere, Severity::Care, Some(5.0));
        assert_eq!(told.basis, Basis::Shop(ShopFigure::MarkLaid));
        // Figures that changed places.
        check(
            &at_the_corner([800.0, 1_000.0]),
            Code::MarkElsewhere,
            Severity::Care,
            Some(200.0 * 2f64.sqrt()),
        );
        // Walls that are known to 3 mm explain as much.
        let mut roughly = at_the_corner([1_003.0, 804.0]);
        roughly.bay.walls_known = Known::Within(3.1);
        none(&roughly, Code::MarkElsewhere);
    }

    #[test]
    fn a_check_that_says_nothing_is_told() {
        none(&at_the_corner([1_000.0, 800.0]), Code::MarkCheckUnused);
        let twice = found([1_000.0, 800.0], [0, 0]);
        let facts = check(&twice, Code::MarkCheckUnused, Severity::Care, None).facts;
        assert_eq!(facts, Facts::MarkCheckUnused { on: date(2026, 3, 1), is_to_come: false });
        none(&twice, Code::MarkElsewhere);
        let mut gone = at_the_corner([1_000.0, 800.0]);
        gone.bay.marks[0].checks[0].read[0].from = CheckFrom::Wall("no such wall".into());
        check(&gone, Code::MarkCheckUnused, Severity::Care, None);
        // A year that was mistyped.
        let mut ahead = at_the_corner([1_003.0, 804.0]);
        ahead.bay.marks[0].checks[0].on = date(2062, 3, 1);
        none(&ahead, Code::MarkElsewhere);
        let facts = check(&ahead, Code::MarkCheckUnused, Severity::Care, None).facts;
        assert_eq!(facts, Facts::MarkCheckUnused { on: date(2062, 3, 1), is_to_come: true });
        ahead.today = None;
        none(&ahead, Code::MarkCheckUnused);
    }
}
