//! What was read and says nothing.
//!
//! Rule: what was read for this set-up is of it. A distance is between two marks of this plan, along a straight run, or from a mark to
//! itself, laid again; what was read of a
//! stand is of a placement that this aiming has, and of the body of a point that the profile has. What is not is used nowhere, and that is told: a technician who typed it believes that
//! it counts. So is a reading of another day: marks are laid from the wheels of a car as it stands, and overnight it may have been moved.
//! Two distances to the car that were taped then and now and agree show that it was not.
//! Limit: none is left out; the day that is asked about.

use std::collections::BTreeSet;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::as_measured::still_within_mm;
use crate::model::{Arrangement, Id};

pub(super) const CHECK: Check =
    Check { codes: &[Code::ReadingUnused, Code::ReadingDay], whole, ..Check::NONE };

/// Why something that was read says nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unused {
    /// A distance to a mark that the plan does not have.
    NoMark {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
    },
    /// A distance along which nothing straight can be held: a tyre is in between, or the plan names no such distance.
    NoRun {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
    },
    /// What was read of the stand of a placement that the aiming does not have.
    NoTarget(Id),
    /// A point of the body that the profile does not have, as it was plumbed.
    NoBodyPoint(Id),
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let (arrangement, scene) = (context.arrangement, context.scene);
    let at = scene.bay_from_vehicle.origin().extend(0.0);
    let tell = |facts| finding(facts, Severity::Care, vec![Subject::Car], at, Basis::CommonPractice);

    let has = |id: &Id| scene.marks.iter().any(|own| own.id == *id);
    let distances = arrangement.marks_taped.iter().filter_map(|own| {
        let (from, to) = (own.from.clone(), own.to.clone());
        if !has(&from) || !has(&to) {
            return Some(Unused::NoMark { from, to });
        }
        let is_run = own.is_again() || scene.readings.iter().any(|run| own.is_between(&run.from, &run.to));
        (!is_run).then_some(Unused::NoRun { from, to })
    });
    let stands = arrangement.stands_read.iter().filter(|own| {
        !own.is_empty()
            && !arrangement.aiming.placements.iter().any(|placement| placement.id == own.placement)
    });
    let stands = stands.map(|own| Unused::NoTarget(own.placement.clone()));
    let has_point = |id: &Id| arrangement.vehicle.body_points.iter().any(|own| own.id == *id);
    let points = arrangement.on_this_car.body_points.iter().map(|(id, _)| id).filter(|id| !has_point(id));
    let points = points.cloned().map(Unused::NoBodyPoint);
    let all: Vec<Unused> = distances.chain(stands).chain(points).collect();
    if let Some(first) = all.first() {
        findings.push(tell(Facts::ReadingUnused { first: first.clone(), all: all.len() }));
    }

    let Some(today) = arrangement.today else { return };
    let days = arrangement.marks_taped.iter().filter_map(|own| {
        let day = own.taken.at?.date();
        day.until(today).ok().map(|span| i64::from(span.get_days()))
    });
    // The one furthest from today is told; of a day to come before one that is gone.
    let stands = stands_still(arrangement);
    let apart =
        days.filter(|days| *days < 0 || (*days > 0 && !stands)).min_by_key(|days| (*days > 0, -days.abs()));
    if let Some(days) = apart {
        let told = tell(Facts::ReadingDay { is_to_come: days < 0 });
        findings.push(told.against(Quantity::Days(days.abs()), Quantity::Days(0)));
    }
}

/// So many distances show that a car was not moved: one alone stays as it is while the car turns about its end.
const SHOW_STILL: usize = 2;

/// Whether what was taped to the car shows that it was not moved.
fn stands_still(arrangement: &Arrangement) -> bool {
    let limit = still_within_mm(arrangement);
    let all = || arrangement.on_this_car.stood.iter().filter_map(|own| Some((own, own.moved_mm()?.abs())));
    // The same distance twice is one.
    let different: BTreeSet<(&Id, &Id)> = all().map(|(own, _)| (&own.from, &own.to)).collect();
    all().all(|(_, by)| by <= limit) && different.len() >= SHOW_STILL
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::Unused;
    use crate::check::testing::*;
    use crate::model::{MarkTaped, StandRead, Stood, Taken};

    fn with_reading(from: &str, to: &str) -> Arrangement {
        let mut own = clear();
        own.marks_taped.push(MarkTaped::new(from.into(), to.into(), 2_000.0));
        own
    }

    #[test]
    fn what_is_of_no_mark_and_along_no_run_is_told() {
        let told = |own: &Arrangement| check(own, Code::ReadingUnused, Severity::Care, None).facts;
        let (from, to) = ("1".into(), "99".into());
        let first = Unused::NoMark { from, to };
        assert_eq!(told(&with_reading("1", "99")), Facts::ReadingUnused { first, all: 1 });
        // A tyre stands between the marks of an axle that lie outboard of it.
        let blocked = with_reading("1", "2");
        assert!(
            assess(&blocked)
                .scene
                .readings
                .iter()
                .all(|own| (own.from.as_str(), own.to.as_str()) != ("1", "2"))
        );
        assert!(matches!(told(&blocked), Facts::ReadingUnused { first: Unused::NoRun { .. }, all: 1 }));
        none(&with_reading("3", "5"), Code::ReadingUnused);
        none(&with_reading("3", "3"), Code::ReadingUnused);
        assert!(matches!(
            told(&with_reading("99", "99")),
            Facts::ReadingUnused { first: Unused::NoMark { .. }, all: 1 }
        ));
        none(&clear(), Code::ReadingUnused);
    }

    #[test]
    fn what_was_read_of_no_stand_of_this_aiming_is_told() {
        let mut own = clear();
        let mut read = StandRead::of("another".into());
        own.stands_read = vec![read.clone()];
        none(&own, Code::ReadingUnused);
        read.line_mm = Some(0.0);
        own.stands_read = vec![read];
        let facts = check(&own, Code::ReadingUnused, Severity::Care, None).facts;
        assert_eq!(facts, Facts::ReadingUnused { first: Unused::NoTarget("another".into()), all: 1 });
    }

    #[test]
    fn what_was_plumbed_of_no_point_of_the_body_is_told() {
        let mut own = clear();
        own.on_this_car.body_points = vec![("no such badge".into(), DVec2::new(700.0, 0.0))];
        let facts = check(&own, Code::ReadingUnused, Severity::Care, None).facts;
        assert_eq!(
            facts,
            Facts::ReadingUnused { first: Unused::NoBodyPoint("no such badge".into()), all: 1 }
        );
    }

    #[test]
    fn what_was_read_on_another_day_is_told() {
        let on = |day: i8| {
            let mut own = with_reading("3", "5");
            own.today = Some(date(2026, 6, 15));
            let at = Some(date(2026, 6, day).at(9, 0, 0, 0));
            own.marks_taped[0].taken = Taken { at, ..Taken::default() };
            own
        };
        none(&on(15), Code::ReadingDay);
        none(&with_reading("3", "5"), Code::ReadingDay);
        let old = check(&on(14), Code::ReadingDay, Severity::Care, Some(1.0));
        assert_eq!(old.facts, Facts::ReadingDay { is_to_come: false });
        // A day to come is told first, however old another is.
        let mut both = on(1);
        both.marks_taped.extend(on(17).marks_taped);
        both.marks_taped[1].to = "6".into();
        let told = check(&both, Code::ReadingDay, Severity::Care, Some(2.0));
        assert_eq!(told.facts, Facts::ReadingDay { is_to_come: true });
        // Two distances to the car that read as they did, to a millimetre.
        let mut still = on(14);
        let stood = |from: &str, end_mm| Stood {
            from: from.into(),
            to: "hub".into(),
            start_mm: 1_203.0,
            end_mm: Some(end_mm),
        };
        still.on_this_car.stood = vec![stood("A", 1_203.0)];
        check(&still, Code::ReadingDay, Severity::Care, Some(1.0));
        // The same one twice proves no more.
        still.on_this_car.stood.push(stood("A", 1_203.0));
        check(&still, Code::ReadingDay, Severity::Care, Some(1.0));
        still.on_this_car.stood.push(stood("B", 1_204.0));
        none(&still, Code::ReadingDay);
        still.on_this_car.stood.push(stood("C", 1_206.0));
        check(&still, Code::ReadingDay, Severity::Care, Some(1.0));
        let mut whenever = on(1);
        whenever.today = None;
        none(&whenever, Code::ReadingDay);
    }
}
