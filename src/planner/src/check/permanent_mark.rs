//! Marks that stay on the floor beside those of this aiming.
//!
//! Rule: a mark of this aiming lies on a permanent one, or far enough from each that nobody takes one for the other: who measures
//! from the wrong cross is off by as much as they are apart, and no diagonal shows it if all were mistaken alike. One that is
//! drawn on a permanent mark lies beside it as soon as the car stands a little elsewhere: that needs care by as much as is known
//! of the car's place there, said once of all such marks. Marks are laid from the wheels of the car that stands there, or the car
//! is parked by those that are painted.
//! Limit: nearer than a hand's breadth, 100 mm (common practice, no source). What a tape cannot tell apart is one mark.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding, sway};
use crate::model::{Id, ShopFigure};

/// What a tape can tell apart: it reads to a millimetre (common practice, no source).
const ONE_MM: f64 = 1.0;
/// A hand's breadth (common practice, no source).
pub(super) const BESIDE_MM: f64 = 100.0;

pub(super) const CHECK: Check = Check { codes: &[Code::BesidePermanentMark], whole, ..Check::NONE };

/// How a mark of this aiming lies to a permanent one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Painted {
    /// Beside this one.
    Beside(Id),
    /// On one, if the car stands exactly where it is drawn.
    On,
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let axle = context.arrangement.parked.origin();
    let mut on: Vec<(Subject, f64)> = Vec::new();
    let on_floor = context.scene.marks.iter().filter(|mark| mark.lies_mm <= 0.0);
    for (id, at) in on_floor.filter_map(|mark| Some((&mark.id, mark.at.ok()?))) {
        for permanent in &context.arrangement.bay.marks {
            let apart = permanent.at.distance(at);
            let mark = Subject::Mark(id.clone());
            if apart < ONE_MM {
                on.push((mark, apart + sway(context.arrangement, axle.distance(at))));
            } else if apart < BESIDE_MM {
                let facts = Facts::BesidePermanentMark(Painted::Beside(permanent.id.clone()));
                let found = finding(facts, Severity::Care, vec![mark], at.extend(0.0), Basis::CommonPractice);
                findings.push(found.against(Quantity::Length(apart), Quantity::Length(BESIDE_MM)));
            }
        }
    }
    on.retain(|(_, beside)| *beside > ONE_MM + SPEAKS_FROM_MM);
    let Some(most) = on.iter().map(|(_, beside)| *beside).reduce(f64::max) else { return };
    let mut marks: Vec<Subject> = on.into_iter().map(|(mark, _)| mark).collect();
    marks.dedup();
    let basis = ShopFigure::of_car(context.arrangement.parked_known).map_or(Basis::AsEntered, Basis::Shop);
    let facts = Facts::BesidePermanentMark(Painted::On);
    findings.push(
        finding(facts, Severity::Care, marks, axle.extend(0.0), basis)
            .against(Quantity::Length(most), Quantity::Length(ONE_MM)),
    );
}

#[cfg(test)]
mod tests {
    use crate::Painted;
    use crate::check::testing::*;

    /// The aiming's mark 3 lies at (4000, 4020).
    #[test]
    fn a_mark_beside_a_painted_one() {
        let painted = |x: f64| {
            let mut bay = clear();
            bay.bay.marks = vec![PermanentMark::new("cross".into(), DVec2::new(x, 4_020.0))];
            bay
        };
        let found = check(&painted(4_012.0), Code::BesidePermanentMark, Severity::Care, Some(12.0));
        assert_eq!(found.subjects, [Subject::Mark("3".into())]);
        for elsewhere in [4_000.0, 4_000.9, 4_100.0, 4_500.0] {
            none(&painted(elsewhere), Code::BesidePermanentMark);
        }
    }

    /// A cross on the mark does not hide another one 60 mm beside it, nor two of which each is near.
    #[test]
    fn every_painted_mark_counts() {
        let mut bay = clear();
        let painted = |id: &str, x: f64| PermanentMark::new(id.into(), DVec2::new(x, 4_020.0));
        bay.bay.marks = vec![painted("A", 4_000.0), painted("B", 4_060.0)];
        let found = check(&bay, Code::BesidePermanentMark, Severity::Care, Some(60.0));
        assert_eq!(found.facts, Facts::BesidePermanentMark(Painted::Beside("B".into())));
        bay.bay.marks[0].at.x = 3_970.0;
        assert_eq!(of(&assess(&bay), Code::BesidePermanentMark).len(), 2);
    }

    /// Mark 3, 1020 mm from the axle, is painted on the floor: the car planned within 30 mm and half a degree lays it as much as
    /// 30 + 1020 · sin 0.5° = 38.9 mm beside the paint. One that stands where it is drawn lays it there.
    #[test]
    fn a_painted_mark_and_a_car_that_is_only_planned() {
        let mut bay = clear();
        let painted = |id: &str, y: f64| PermanentMark::new(id.into(), DVec2::new(4_000.0, y));
        bay.bay.marks = vec![painted("left", 4_020.0), painted("right", 1_980.0)];
        none(&bay, Code::BesidePermanentMark);
        bay.parked_known = ParkedKnown::Within { mm: 30.0, rad: angle::radians(0.5) };
        let beside = 30.0 + 1_020.0 * libm::sin(angle::radians(0.5));
        let found = check(&bay, Code::BesidePermanentMark, Severity::Care, Some(beside));
        assert_eq!(found.subjects, [Subject::Mark("3".into()), Subject::Mark("4".into())]);
        assert_eq!(found.facts, Facts::BesidePermanentMark(Painted::On));
        bay.parked_known = ParkedKnown::Within { mm: 0.5, rad: 0.0 };
        none(&bay, Code::BesidePermanentMark);
    }
}
