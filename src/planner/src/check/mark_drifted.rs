//! Marks that stay, checked again.
//!
//! Rule: a mark that stays is where its earlier checks found it. Where the last check puts it is held against each earlier one of the
//! same things: what is left of the difference once the readings themselves are allowed for (95 %, each by the instrument that read
//! it) is drift.
//! Limit: how far off a mark is laid in this shop; beyond it the mark needs care.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::history::{Drift, drift};
use crate::model::{PermanentMark, ShopFigure};

pub(super) const CHECK: Check = Check { codes: &[Code::MarkDrifted], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    for mark in &arrangement.bay.marks {
        let Some(drift) = drift(&arrangement.bay, mark, &arrangement.shop, &arrangement.instruments) else {
            continue;
        };
        findings.extend(of(mark, drift, arrangement.shop.mark_laid_mm));
    }
}

fn of(mark: &PermanentMark, drift: Drift, allowed_mm: f64) -> Option<Finding> {
    let limit = allowed_mm + drift.u95_mm;
    if drift.by.length() <= limit {
        return None;
    }
    let of = vec![Subject::Mark(mark.id.clone())];
    let facts = Facts::MarkDrifted(drift);
    let basis = Basis::Shop(ShopFigure::MarkLaid);
    let found = finding(facts, Severity::Care, of, mark.at.extend(0.0), basis);
    Some(found.against(Quantity::Length(drift.by.length()), Quantity::Length(limit)))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use crate::check::testing::*;
    use crate::model::{CheckFrom, CheckRead, MarkCheck};

    /// A mark 1 000 mm and 800 mm from the two walls at a corner, checked in March, and again with these.
    fn checked(first: f64, second: f64) -> Arrangement {
        let mut own = clear();
        let (from, to) = own.bay.wall_ends(0).unwrap();
        let last = own.bay.walls.len() - 1;
        let inward = (to - from).perp().normalize();
        let at = from + (to - from).normalize() * 800.0 + inward * 1_000.0;
        let walls = [own.bay.walls[0].id.clone(), own.bay.walls[last].id.clone()];
        let check = |month: i8, read: [f64; 2]| MarkCheck {
            on: date(2026, month, 1),
            who: None,
            with: None,
            read: [0, 1]
                .map(|nth| CheckRead { from: CheckFrom::Wall(walls[nth].clone()), read_mm: read[nth] }),
        };
        let checks = vec![check(3, [1_000.0, 800.0]), check(9, [first, second])];
        own.bay.marks = vec![PermanentMark { checks, ..PermanentMark::new("stud".into(), at) }];
        own
    }

    /// By hand: two walls at right angles, 3 and 4 mm make 5. A reading of ± 0.7 mm, any value alike, is 0.404 standard, the
    /// difference of two 0.572 either way; 95 % of a plane within 2.448 of that, 1.40 mm: with 1 mm allowed the limit is 2.40.
    #[test]
    fn what_drifted_needs_care() {
        let found = check(&checked(1_003.0, 804.0), Code::MarkDrifted, Severity::Care, Some(5.0));
        assert_eq!(found.subjects, [Subject::Mark("stud".into())]);
        assert!((number(found.limit.unwrap()) - 2.40).abs() < 0.005, "{found:?}");
        none(&checked(1_001.0, 802.0), Code::MarkDrifted);
        none(&checked(1_000.0, 800.0), Code::MarkDrifted);
        check(&checked(1_000.0, 802.5), Code::MarkDrifted, Severity::Care, Some(2.5));
    }
}
