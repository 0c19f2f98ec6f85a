//! What is done at the same time in another bay of the hall, and does not go with this.
//!
//! Rule: nothing of this set-up (its car, its targets on their stands, what was put there for it alone) may stop the other one: lie in what
//! that keeps clear, hide its target, lie in its way of marks. The other is judged with it in it, by the checks as they are. What of the other
//! stands in this one, all checks find by themselves: it is among the bay's things. That two solids want one place is found so too,
//! and not told again here.
//! What the two sets-up say otherwise of the same things and doors needs care: it cannot be both at once. So does another set-up that
//! cannot be looked at. That the other is not ready by itself is a note. What is done beside the other is not looked at.
//! Limit: nothing, but for how well places are known, which is care in the other's own answer.

use std::sync::Arc;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, finding};
use crate::at_once::with_who_asks;
use crate::model::{Arrangement, BesidePart, DoneBeside, Id, Other};

pub(super) const CHECK: Check = Check { codes: &[Code::Beside], remedy, ..Check::NONE };

/// What was put there for this set-up alone goes along with no car.
fn remedy(finding: &Finding) -> Remedy {
    let goes_along = |own: &Subject| matches!(own, Subject::Car | Subject::Stand(_));
    match finding.severity {
        Severity::Stops if finding.subjects.iter().all(goes_along) => Remedy::OffOther,
        _ => Remedy::None,
    }
}

/// What is said of a set-up that is done at the same time.
#[derive(Clone, Debug, PartialEq)]
pub enum AtOnce {
    /// This set-up stops it.
    Stopped {
        /// It, with this one in it.
        with: Arc<Arrangement>,
        /// What is found there that stops, the first of it worded in the title.
        found: Vec<Finding>,
    },
    /// It cannot be looked at.
    Unknown,
    /// These things and doors are otherwise in it.
    Differs(Vec<Id>),
    /// It is not ready by itself.
    NotReady,
}

/// What is found of all that is done at the same time. `judged` is all that the checks find of an arrangement.
pub(crate) fn done_beside(
    context: &Context<'_>,
    judged: &dyn Fn(&Arrangement) -> Vec<Finding>,
) -> Vec<Finding> {
    let all = &context.arrangement.beside;
    all.iter().flat_map(|own| of_one(context, own, judged)).collect()
}

fn of_one(
    context: &Context<'_>,
    beside: &DoneBeside,
    judged: &dyn Fn(&Arrangement) -> Vec<Finding>,
) -> Vec<Finding> {
    let other = match &beside.other {
        Other::Asks => return Vec::new(),
        Other::Unknown => return vec![said(context, beside, AtOnce::Unknown, Severity::Care)],
        Other::Known(other) => other,
    };
    let mut all = Vec::new();
    let with = with_who_asks(other, context.arrangement, &beside.only_here);
    let stops = judged(&with).into_iter().filter(|own| own.severity == Severity::Stops);
    let (named, others): (Vec<Finding>, Vec<Finding>) = stops.partition(|own| !mine(&with, own).is_empty());
    // What stops without this one too is its own affair.
    let (alone, caused): (Vec<Finding>, Vec<Finding>) = match others.is_empty() {
        true => (Vec::new(), Vec::new()),
        false => {
            let without = judged(other);
            let is_there = |own: &Finding| {
                without.iter().any(|was| {
                    was.severity == Severity::Stops
                        && (was.code(), &was.subjects) == (own.code(), &own.subjects)
                })
            };
            others.into_iter().partition(is_there)
        }
    };
    let named = named.into_iter().filter(|own| !matches!(own.code(), Code::CarClash | Code::StandClash));
    let found: Vec<Finding> = named.chain(caused).collect();
    if let Some(first) = found.first().cloned() {
        let causes = found.iter().flat_map(|own| mine(&with, own));
        let mut subjects: Vec<Subject> = Vec::new();
        for cause in causes {
            if !subjects.contains(&cause) {
                subjects.push(cause);
            }
        }
        if subjects.is_empty() {
            subjects.push(Subject::Car);
        }
        let facts = Facts::Beside {
            set_up: beside.set_up.clone(),
            what: AtOnce::Stopped { with: Arc::new(with), found },
        };
        let (measured, limit) = (first.measured, first.limit);
        let told = finding(facts, Severity::Stops, subjects, first.place, first.basis);
        all.push(Finding { measured, limit, ..told });
    }
    if !beside.differs.is_empty() {
        let differs = AtOnce::Differs(beside.differs.clone());
        all.push(said(context, beside, differs, Severity::Care));
    }
    if !alone.is_empty() {
        all.push(said(context, beside, AtOnce::NotReady, Severity::Note));
    }
    all
}

/// What is found of the parts of one car, or of one stand, of another set-up, told once: of what is measured the most.
pub(crate) fn once_for_each_part(arrangement: &Arrangement, findings: Vec<Finding>) -> Vec<Finding> {
    if arrangement.beside.is_empty() {
        return findings;
    }
    let part = |own: &Finding| {
        let (set_up, part) = arrangement.part_beside(own.culprit()?)?;
        Some((set_up.set_up.clone(), part.clone(), own.code(), own.severity, own.subjects.get(1..)?.to_vec()))
    };
    let mut kept: Vec<Finding> = Vec::new();
    for own in findings {
        let of = part(&own);
        let known = of.and_then(|of| kept.iter().position(|known| part(known).as_ref() == Some(&of)));
        match known.and_then(|at| kept.get_mut(at)) {
            Some(known) if depth(&own) > depth(known) => *known = own,
            Some(_) => {}
            None => kept.push(own),
        }
    }
    kept
}

/// How deep something is in another, mm; nought of what is measured otherwise.
fn depth(found: &Finding) -> f64 {
    let is_depth = super::of(found.code()).is_some_and(|check| check.depths.contains(&found.code()));
    match found.measured {
        Some(Quantity::Length(mm)) if is_depth => mm,
        _ => 0.0,
    }
}

/// What of this set-up a finding of the other one names.
fn mine(with: &Arrangement, found: &Finding) -> Vec<Subject> {
    let part = |subject: &Subject| {
        let Subject::Thing(id) = subject else { return None };
        let (beside, part) = with.part_beside(id)?;
        (beside.other == Other::Asks).then(|| match part {
            BesidePart::Car => Subject::Car,
            BesidePart::Stand(id) => Subject::Stand(id.clone()),
            BesidePart::Thing(id) => Subject::Thing(id.clone()),
        })
    };
    found.subjects.iter().filter_map(part).collect()
}

/// Something that is said of the other as a whole.
fn said(context: &Context<'_>, beside: &DoneBeside, what: AtOnce, severity: Severity) -> Finding {
    let bays = &context.arrangement.bay.bays;
    let bay = beside.in_bay.as_ref().and_then(|id| bays.iter().find(|own| own.id == *id));
    let subject = bay.map_or(Subject::Floor, |own| Subject::HallBay(own.id.clone()));
    let stands = match &beside.other {
        Other::Known(other) => Some(other.parked.origin()),
        Other::Asks | Other::Unknown => None,
    };
    let at = bay.map(|own| own.outline.bounds().centre()).or(stands);
    let at = at.unwrap_or_else(|| context.arrangement.parked.origin());
    let facts = Facts::Beside { set_up: beside.set_up.clone(), what };
    finding(facts, severity, vec![subject], at.extend(0.0), Basis::AsEntered)
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use crate::assessment::{Beyond, Facts, Finding};
    use crate::at_once::pair;
    use crate::judge::judge;
    use crate::model::{Arrangement, BesidePart, HallBay, Material};
    use crate::place::{Fit, Search};
    use baywright_geometry::{DVec2, PlanPose};

    /// A hall of 24 × 20 m with the clear bay's set-up in it, its car at a place.
    fn in_hall(name: &str, at: (f64, f64)) -> Arrangement {
        let mut own = clear();
        own.bay.room = rectangle((0.0, 0.0), (24_000.0, 20_000.0));
        own.bay.survey = None;
        own.id = name.into();
        own.parked = PlanPose::new(at.into(), 0.0);
        own
    }

    fn beside(own: &Arrangement, other: &Arrangement) -> Arrangement {
        pair(own.clone(), other.clone(), Default::default(), Vec::new())
    }

    fn told(own: &Arrangement, other: &Arrangement) -> Vec<(Code, Severity)> {
        let stopping = |own: &Arrangement| -> Vec<(Code, Severity)> {
            let found = judge(own).findings.into_iter();
            found
                .filter(|own| own.severity == Severity::Stops)
                .map(|own| (own.code(), own.severity))
                .collect()
        };
        stopping(&beside(own, other))
    }

    #[test]
    fn two_far_apart_are_as_they_are_alone() {
        let (one, other) = (in_hall("one", (4_000.0, 3_000.0)), in_hall("other", (4_000.0, 13_000.0)));
        for (own, with) in [(&one, &other), (&other, &one)] {
            let both = beside(own, with);
            assert!(both.bay.things.len() > own.bay.things.len());
            let codes = |own: &Arrangement| -> Vec<Code> {
                judge(own).findings.iter().map(|own| own.code()).collect()
            };
            assert_eq!(codes(&both), codes(own));
            assert_eq!(both.alone(), *own);
        }
    }

    /// The zone "beam" reaches from 900 to 5800 mm ahead of the front axle of the one; the other's car stands in it, and its own zone is
    /// free.
    #[test]
    fn a_zone_over_the_other_car_stops_both_and_is_told_in_both() {
        let one = in_hall("one", (4_000.0, 10_000.0));
        let other = Arrangement {
            parked: PlanPose::new(DVec2::new(9_000.0, 12_300.0), std::f64::consts::FRAC_PI_2),
            ..in_hall("other", (0.0, 0.0))
        };
        let seen = told(&one, &other);
        assert!(seen.contains(&(Code::ZoneObject, Severity::Stops)), "{seen:?}");
        let seen = told(&other, &one);
        assert!(seen.contains(&(Code::Beside, Severity::Stops)), "{seen:?}");
        let found = judge(&beside(&other, &one)).findings;
        let found = found.iter().find(|own| own.code() == Code::Beside).unwrap();
        assert_eq!(found.subjects, [Subject::Car]);
        let words = crate::words::Words::new(&other, Default::default());
        let title = "This stops “one”, done at the same time: this car is inside the keep-clear zone “beam”";
        assert_eq!(words.title(found), title);
    }

    /// The other car's rear stands 1700 mm in the zone, seen along the hall, and 2600 mm across: it is parked further along it. What is told
    /// to do is done and looked at anew: nothing stops either of the two, and no shorter way of a grid leaves as little to mind.
    #[test]
    fn the_car_that_stops_the_other_is_parked_elsewhere() {
        let one = in_hall("one", (4_000.0, 10_000.0));
        let other = Arrangement {
            parked: PlanPose::new(DVec2::new(9_000.0, 12_300.0), std::f64::consts::FRAC_PI_2),
            ..in_hall("other", (0.0, 0.0))
        };
        let both = beside(&other, &one);
        let found = check(&both, Code::Beside, Severity::Stops, None);
        let cure = found.cure.expect("a way out");
        let Step::MoveCar { by } = cure.step else { panic!("{cure:?}") };
        // Further by what a car that is parked anew is off.
        assert!((1_700.0..1_800.0).contains(&by.x) && by.y.abs() < 1e-6, "{by}");
        let minded = |by: DVec2| {
            let judged = judge(&crate::cure::apply(&both, &Step::MoveCar { by }));
            (judged.count(Severity::Stops), judged.count(Severity::Care))
        };
        let then = minded(by);
        assert_eq!(then.0, 0);
        let moved = crate::cure::apply(&both, &cure.step);
        assert_eq!(told(&one, &moved.alone()), [], "nor is this one stopped by that one");
        let steps = || (-9..=9).map(|i| 200.0 * f64::from(i));
        let shorter = steps().flat_map(|x| steps().map(move |y| DVec2::new(x, y)));
        for own in shorter.filter(|own| own.length() < by.length() - 1.0) {
            assert!(minded(own) > then, "{own}");
        }
        // A thing that is there for this set-up alone goes along with no car.
        let mut crated = in_hall("other", (4_000.0, 3_000.0));
        crated.bay.things = vec![cabinet("crate", (7_000.0, 10_000.0), 600.0, 400.0)];
        let stops = pair(crated, one, [vec!["crate".into()], Vec::new()], Vec::new());
        let found = check(&stops, Code::Beside, Severity::Stops, None);
        assert_eq!((found.subjects, found.cure), (vec![Subject::Thing("crate".into())], None));
    }

    /// A stand and a car between the other's radar and its target.
    #[test]
    fn what_stands_before_the_others_radar_hides_its_target() {
        let one = in_hall("one", (4_000.0, 10_000.0));
        let mut other = in_hall("other", (16_000.0, 4_000.0));
        // Its target's stand alone is carried into the other's sight.
        other.stands = vec![StandSet::At {
            place: PlanPose::new(DVec2::new(7_000.0, 10_000.0), 0.0),
            height_mm: 500.0,
            pitch_rad: 0.0,
        }];
        let seen = told(&one, &other);
        assert!(seen.contains(&(Code::SightBlocked, Severity::Stops)), "{seen:?}");
        let found = judge(&beside(&other, &one)).findings;
        let found = found.iter().find(|own| own.code() == Code::Beside).unwrap();
        assert_eq!(found.subjects, [Subject::Stand("ahead".into())]);
    }

    #[test]
    fn one_that_is_not_ready_by_itself_is_a_note() {
        let one = in_hall("one", (4_000.0, 3_000.0));
        let mut other = in_hall("other", (4_000.0, 13_000.0));
        other.bay.things = vec![cabinet("cabinet", (7_000.0, 13_000.0), 600.0, 400.0)];
        let mut both = one.clone();
        both.bay.things.clone_from(&other.bay.things);
        let found = judge(&beside(&both, &other)).findings;
        let own: Vec<_> = found.iter().filter(|own| own.code() == Code::Beside).collect();
        assert_eq!(own.len(), 1, "{own:?}");
        assert_eq!(own[0].severity, Severity::Note);
    }

    #[test]
    fn what_only_one_has_stands_in_the_other_and_what_differs_is_told() {
        let (one, mut other) = (in_hall("one", (4_000.0, 3_000.0)), in_hall("other", (4_000.0, 13_000.0)));
        other.bay.things = vec![cabinet("crate", (7_000.0, 3_000.0), 600.0, 400.0)];
        let both = pair(one.clone(), other.clone(), [Vec::new(), vec!["crate".into()]], vec!["gate".into()]);
        let is_crate = |part: &BesidePart| *part == BesidePart::Thing("crate".into());
        assert!(both.beside[0].parts.iter().any(|(_, part)| is_crate(part)));
        let found = judge(&both).findings;
        assert!(found.iter().any(|own| own.code() == Code::ZoneObject && own.severity == Severity::Stops));
        let differs = found.iter().find(|own| own.code() == Code::Beside).unwrap();
        assert_eq!(differs.severity, Severity::Care);
        assert!(both.bay.things.iter().all(|own| own.material != Material::Unknown));
    }

    /// The places that the search offers keep the car out of what the other keeps clear, and are what the checks say there.
    #[test]
    fn the_search_keeps_off_the_other() {
        let one = in_hall("one", (4_000.0, 3_000.0));
        let other = in_hall("other", (4_000.0, 13_000.0));
        let both = beside(&one, &other);
        let search = Search::new(&both);
        let (mut fits, mut stops) = (0, 0);
        for heading in [0.0, std::f64::consts::FRAC_PI_2] {
            let places = search.places(heading);
            for x in (0..12).map(|i| 3_137.0 + f64::from(i) * 1_531.0) {
                for y in (0..11).map(|i| 2_211.0 + f64::from(i) * 1_577.0) {
                    let at = DVec2::new(x, y);
                    let is_ready = search.settle(PlanPose::new(at, heading));
                    match places.at(at) {
                        Fit::Fits => {
                            assert!(is_ready, "{at} {heading}");
                            fits += 1;
                        }
                        Fit::Not => {
                            assert!(!is_ready, "{at} {heading}");
                            stops += 1;
                        }
                        Fit::Undecided => {}
                    }
                }
            }
        }
        assert!(fits > 20 && stops > 20, "{fits} {stops}");
    }

    /// The other's car stands beside the zone, with the room to work round it in the zone: whether it is made in a bay or in none, and
    /// in a hall without bays too.
    #[test]
    fn people_at_work_on_the_other_in_what_is_kept_clear_are_told() {
        let one = in_hall("one", (4_000.0, 10_000.0));
        let beside_at = |y: f64| Arrangement {
            parked: PlanPose::new(DVec2::new(9_000.0, y), 0.0),
            ..in_hall("other", (0.0, 0.0))
        };
        let at = (0..40).map(|i| 11_000.0 + 50.0 * f64::from(i));
        let clear_of_it = at.map(beside_at).find(|other| told(&one, other).is_empty()).unwrap();
        let bay = |name: &str, y: f64| HallBay {
            id: name.into(),
            outline: rectangle((0.0, y), (24_000.0, y + 10_000.0)),
        };
        let bays = vec![bay("near", 0.0), bay("far", 10_000.0)];
        for (bays, in_bay) in [(Vec::new(), None), (bays.clone(), None), (bays, Some("far".into()))] {
            let mut one = one.clone();
            one.bay.bays = bays;
            let other = Arrangement { in_bay, ..clear_of_it.clone() };
            let judged = judge(&beside(&one, &other));
            let is_told = |own: &&Finding| {
                own.severity == Severity::Care
                    && matches!(own.facts, Facts::BeyondBay { lies: Beyond::AtWork, .. })
            };
            assert_eq!(judged.findings.iter().filter(is_told).count(), 1, "{:?}", other.in_bay);
        }
    }

    /// A bay that is to be kept empty is none while another set-up is done in it.
    #[test]
    fn a_bay_is_not_kept_empty_with_the_other_in_it() {
        let mut one = in_hall("one", (4_000.0, 3_000.0));
        let bay = |name: &str, y: f64| HallBay {
            id: name.into(),
            outline: rectangle((0.0, y), (24_000.0, y + 10_000.0)),
        };
        one.bay.bays = vec![bay("near", 0.0), bay("far", 10_000.0)];
        (one.in_bay, one.kept_empty) = (Some("near".into()), vec!["far".into()]);
        let mut other = in_hall("other", (4_000.0, 13_000.0));
        (other.bay.bays, other.in_bay) = (one.bay.bays.clone(), Some("far".into()));
        let found = judge(&beside(&one, &other)).findings;
        let is_told = |own: &Finding| {
            own.severity == Severity::Care
                && matches!(own.facts, Facts::BeyondBay { lies: Beyond::NotEmpty, .. })
        };
        assert!(found.iter().any(is_told), "{found:?}");
    }

    /// The other's car is many solids one on the other: where people work beside it none of them hangs over them.
    #[test]
    fn a_car_that_stands_there_hangs_over_nobody() {
        let one = in_hall("one", (4_000.0, 10_000.0));
        for y in (0..30).map(|i| 11_500.0 + 50.0 * f64::from(i)) {
            let other = in_hall("other", (10_000.0, y));
            let found = judge(&beside(&one, &other)).findings;
            assert!(found.iter().all(|own| own.code() != Code::HeadRoom), "{y}: {found:?}");
        }
    }
}
