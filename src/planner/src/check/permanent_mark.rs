//! Marks that stay on the floor beside those of this aiming.
//!
//! Rule: a mark of this aiming lies on a permanent one, or far enough from it that nobody takes one for the other: who measures
//! from the wrong cross is off by as much as they are apart, and no diagonal shows it if all were mistaken alike.
//! Limit: nearer than a hand's breadth, 100 mm (common practice, no source). What a tape cannot tell apart is one mark.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};

/// What a tape can tell apart: it reads to a millimetre (common practice, no source).
const ONE_MM: f64 = 1.0;
/// A hand's breadth (common practice, no source).
const BESIDE_MM: f64 = 100.0;

pub(super) const CHECK: Check = Check { codes: &[Code::BesidePermanentMark], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let marks = context.scene.marks.iter().filter_map(|mark| Some((&mark.id, mark.at.ok()?)));
    for (id, at) in marks {
        let permanent = context.arrangement.bay.marks.iter().map(|own| (own.at.distance(at), own));
        let nearest = permanent.min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((apart, permanent)) = nearest.filter(|(apart, _)| (ONE_MM..BESIDE_MM).contains(apart))
        else {
            continue;
        };
        findings.push(
            finding(
                Facts::BesidePermanentMark(permanent.id.clone()),
                Severity::Care,
                vec![Subject::Mark(id.clone())],
                at.extend(0.0),
                Basis::CommonPractice,
            )
            .against(Quantity::Length(apart), Quantity::Length(BESIDE_MM)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The aiming's mark 3 lies at (4000, 4020).
    #[test]
    fn a_mark_beside_a_painted_one() {
        let painted = |x: f64| {
            let mut bay = clear();
            bay.bay.marks = vec![PermanentMark { id: "cross".into(), at: DVec2::new(x, 4_020.0) }];
            bay
        };
        let found = check(&painted(4_012.0), Code::BesidePermanentMark, Severity::Care, Some(12.0));
        assert_eq!(found.subjects, [Subject::Mark("3".into())]);
        for elsewhere in [4_000.0, 4_000.9, 4_100.0, 4_500.0] {
            none(&painted(elsewhere), Code::BesidePermanentMark);
        }
    }
}
