//! What is known of the floor where something stands on it.
//!
//! Rule: the levels at the wheels, under the targets and their stands' feet, and at the marks are known: a dated survey, no
//! older than the shop's own `survey_age_days`, whose points reach round them and lie no further off than its
//! `level_reach_mm`. What is elsewhere in the survey does not matter. Between surveyed points a level is interpolated, and is
//! as uncertain as the survey there bends ([`baywright_survey::LevelSurface`]), and as the survey says that each of its levels may
//! be off: as it states itself, else as the instrument that it names is good for, else the shop's own figure
//! ([`crate::ground::LevelKnown`], which the tab of the floor tells). Levels at wheels, targets and feet that differ by more than the aiming
//! allows stop it; where they may, with what is uncertain of them, or where the tab's 95 of 100 reach over the limit, it needs care. So with the pitch and roll of the plane of
//! the wheels, where the aiming has a limit for them. A target is set above its own floor and meant above the plane of the
//! wheels: where the two differ by more than its height may be out, its stand is to be set higher or lower (care); a mat, which
//! cannot be, stops. One that is set by the plumb line is tipped and shifted against a car that stands tilted: by more than
//! the aiming's or its own tolerance stops, where the aiming has no limit for the floor. Of a car on
//! runways the wheels go by the runways' own surveys, each level against the height that the runway is entered with.
//! Uncertainties are added as squares, each level's being its own (JCGM 100, 5.1). What the car's place may be off by moves all
//! that is laid from it over the floor at once, and each of its levels by no more than the floor is steep thereabouts: that is
//! added as it is.
//! Limits: the aiming's; age and reach are the shop's own. Where an aiming asks nothing of the floor, a stand's feet and a target's
//! height need care from a step on that one wheel is not to stand on.

mod anywhere;
mod spread;
mod target_height;
mod target_plumb;
#[cfg(test)]
mod testing;
mod tilt;

use baywright_geometry::{DVec2, DVec3};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::stand_off_mark::OffBy;
use super::{Check, Context, finding};
use crate::ground::spots::{Ground, On, Spot, Spots};
use crate::model::{Arrangement, FloorSurvey, ParkedKnown, ShopFigure};
#[cfg(test)]
pub(crate) use anywhere::direct;
pub(crate) use anywhere::{Levelled, Surveyed};
use spread::{astride, spread};
use target_height::target_height;
use target_plumb::target_plumb;
pub use tilt::Tilt;
use tilt::{Wheels, tilt};

pub(super) const CHECK: Check = Check { codes: &[Code::FloorLevels], whole, ..Check::NONE };

/// What is known of a floor. The finding's first subject is the floor or a runway, the others are what stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorFact {
    /// Nobody surveyed it, nor what the further subjects are.
    Unknown,
    /// Surveyed, but undated.
    Undated,
    /// Surveyed on some day, but it is not known what day it is.
    NoToday,
    /// Surveyed on a day that is still to come.
    Future,
    /// Surveyed too long ago.
    OutOfDate,
    /// These are beyond the surveyed points.
    NotCovered,
    /// These are between surveyed points too far apart.
    Between,
    /// The levels of these are less certain than the aiming's limit.
    Uncertain,
    /// Too uneven at wheels, targets and feet: highest and lowest of them.
    Uneven,
    /// The same, with what is uncertain.
    MaybeUneven,
    /// A stand's feet, or a mat, on a step, where nothing is asked of the floor.
    Astride,
    /// The plane of the wheels is tilted.
    Tilted(Tilt),
    /// The same, with what is uncertain.
    MaybeTilted(Tilt),
    /// This target's floor is higher than the plane of the wheels, or lower.
    TargetOff {
        /// Higher.
        high: bool,
    },
    /// The same, with what is uncertain.
    TargetMaybeOff {
        /// Higher.
        high: bool,
    },
    /// The same of a mat, which is set no higher or lower than its floor.
    MatOff {
        /// Higher.
        high: bool,
    },
    /// The same, with what is uncertain.
    MatMaybeOff {
        /// Higher.
        high: bool,
    },
    /// This target is set by the plumb line, and the plane of the wheels is tilted: by what it is off then.
    PlumbOff(OffBy),
    /// The same, with what is uncertain.
    PlumbMaybeOff(OffBy),
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let spots = Spots::of(context.arrangement, context.scene);
    findings.extend(unknown(context, &spots));
    findings.extend(of_ages(context, &spots));
    for (index, ground) in spots.grounds.iter().enumerate() {
        if is_asked(&spots, index) {
            known(context, &spots, index, ground, findings);
        }
    }
    match context.arrangement.aiming.floor {
        Some(floor) => findings.extend(spread(context, &spots, floor.level_mm)),
        None => astride(context, &spots, findings),
    }
    let Some(wheels) = Wheels::of(context, &spots) else { return };
    tilt(context, &spots, &wheels, findings);
    for (index, target) in spots.targets.iter().enumerate() {
        findings.extend(target_height(context, &wheels, index, target));
        findings.extend(target_plumb(context, &wheels, index));
    }
}

/// What a finding says of it.
fn subject(of: &On) -> Subject {
    match of {
        On::Car => Subject::Car,
        On::Target(id) => Subject::Target(id.clone()),
        On::Stand(id) => Subject::Stand(id.clone()),
        On::Runway(id) => Subject::Runway(id.clone()),
        On::Mark(id) => Subject::Mark(id.clone()),
        On::Floor => Subject::Floor,
    }
}

/// The floor is always asked about: somebody walks on it with the target. A runway where something stands on it.
fn is_asked(spots: &Spots<'_>, index: usize) -> bool {
    index == 0 || spots.on(index).next().is_some()
}

/// What nobody surveyed, floor and runways in one: whoever surveys one of them does the others.
fn unknown(context: &Context<'_>, spots: &Spots<'_>) -> Option<Finding> {
    let all = spots.grounds.iter().enumerate();
    let unknown = all.filter(|(index, ground)| ground.survey.is_none() && is_asked(spots, *index));
    let mut unknown: Vec<&Ground<'_>> = unknown.map(|(_, ground)| ground).collect();
    unknown.sort_by(|a, b| a.of.cmp(&b.of));
    let first = unknown.first()?;
    let at = first.place.extend(first.height);
    let subjects = unknown.iter().map(|ground| subject(&ground.of)).collect();
    Some(care(FloorFact::Unknown, subjects, at, of_procedure(context)))
}

/// Whether the levels of a ground that was surveyed are known where they matter.
fn known(
    context: &Context<'_>,
    spots: &Spots<'_>,
    index: usize,
    ground: &Ground<'_>,
    findings: &mut Vec<Finding>,
) {
    let say = |fact: FloorFact, of: &[&Spot], basis: Basis| {
        let at = of.first().map_or(ground.place, |spot| spot.at);
        let mut subjects: Vec<Subject> = of.iter().map(|spot| subject(&spot.of)).collect();
        subjects.dedup();
        subjects.insert(0, subject(&ground.of));
        care(fact, subjects, at.extend(ground.height), basis)
    };
    if ground.survey.is_none() {
        return;
    }
    let outside: Vec<&Spot> = spots.on(index).filter(|spot| spot.level.is_none()).collect();
    if !outside.is_empty() {
        findings.push(say(FloorFact::NotCovered, &outside, of_procedure(context)));
    }
    let nearest = |spot: &&Spot| spot.level.map_or(0.0, |level| level.nearest_mm);
    let reach = context.arrangement.shop.level_reach_mm;
    let between: Vec<&Spot> = spots.on(index).filter(|spot| nearest(spot) > reach).collect();
    if let Some(worst) = between.iter().map(nearest).reduce(f64::max) {
        let found = say(FloorFact::Between, &between, Basis::Shop(ShopFigure::LevelReach));
        findings.push(found.against(Quantity::Length(worst), Quantity::Length(reach)));
    }
    let Some(floor) = context.arrangement.aiming.floor else { return };
    let limit = floor.level_mm;
    let within = |spot: &&Spot| spot.level.map_or(0.0, |level| level.within_mm);
    let uncertain: Vec<&Spot> = spots.on(index).filter(|spot| within(spot) > limit).collect();
    if let Some(worst) = uncertain.iter().map(within).reduce(f64::max) {
        let found = say(FloorFact::Uncertain, &uncertain, of_procedure(context));
        findings.push(found.against(Quantity::Length(worst), Quantity::Length(limit)));
    }
}

fn of_procedure(context: &Context<'_>) -> Basis {
    Basis::Procedure(context.arrangement.aiming.provenance.clone())
}

fn care(fact: FloorFact, subjects: Vec<Subject>, at: DVec3, basis: Basis) -> Finding {
    finding(Facts::FloorLevels(fact), Severity::Care, subjects, at, basis).cured_by(Step::SurveyFloor)
}

/// The same of what stands there, wherever that is.
fn care_of(context: &Context<'_>, fact: FloorFact, of: Vec<Subject>, at: DVec2) -> Finding {
    let subjects = std::iter::once(Subject::Floor).chain(of).collect();
    care(fact, subjects, at.extend(0.0), of_procedure(context))
}

/// The same of what is over its limit by so much, of which so much comes of what is known of the car's place: if without
/// that it is within, no survey settles it, but a tape may.
fn by_the_car(context: &Context<'_>, found: Finding, over: f64, moved: f64) -> Finding {
    let Arrangement { shop, parked_known, .. } = context.arrangement;
    let (now, taped) = (shop.parked_within(*parked_known), shop.parked_within(ParkedKnown::Taped));
    let share = |now: f64, taped: f64| if now > 0.0 { (taped / now).min(1.0) } else { 0.0 };
    let left = moved * share(now.0, taped.0).max(share(now.1, taped.1));
    match (over > moved, over > moved - left) {
        (true, _) => found,
        (false, true) => no_cure(found),
        (false, false) => no_cure(found).cured_by(Step::TapeCar),
    }
}

/// No survey makes a floor level.
fn no_cure(found: Finding) -> Finding {
    Finding { cure: None, ..found }
}

/// The same of several, floor and runways in one: whoever surveys one of them anew, or dates it, does the others. Of those that
/// are too old the oldest is told.
fn of_ages(context: &Context<'_>, spots: &Spots<'_>) -> Vec<Finding> {
    let asked = spots.grounds.iter().enumerate().filter(|(index, _)| is_asked(spots, *index));
    let aged = asked.filter_map(|(_, ground)| of_age(context, ground.survey?, ground));
    let mut all: Vec<Finding> = Vec::new();
    for found in aged {
        let Some(same) = all.iter_mut().find(|own| own.facts == found.facts) else {
            all.push(found);
            continue;
        };
        if let (Some(Quantity::Days(days)), Some(Quantity::Days(oldest))) = (found.measured, same.measured)
            && days > oldest
        {
            same.measured = found.measured;
        }
        same.subjects.extend(found.subjects);
        same.subjects.sort();
    }
    all
}

fn of_age(context: &Context<'_>, survey: &FloorSurvey, ground: &Ground<'_>) -> Option<Finding> {
    let at = ground.place.extend(ground.height);
    let say = |fact: FloorFact, basis: Basis| Some(care(fact, vec![subject(&ground.of)], at, basis));
    let Some(taken) = survey.taken else { return say(FloorFact::Undated, Basis::CommonPractice) };
    let Some(today) = context.arrangement.today else {
        return say(FloorFact::NoToday, Basis::CommonPractice).map(no_cure);
    };
    // Whole days, as validated.
    let valid = context.arrangement.shop.survey_age_days as i64;
    let days = i64::from(taken.until(today).map_or(0, |span| span.get_days()));
    if days < 0 {
        say(FloorFact::Future, Basis::AsEntered)
    } else if days > valid {
        say(FloorFact::OutOfDate, Basis::Shop(ShopFigure::SurveyAge))
            .map(|found| found.against(Quantity::Days(days), Quantity::Days(valid)))
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::testing::*;
    use crate::check::testing::*;

    #[test]
    fn how_old_the_survey_is() {
        let care = |arrangement: &Arrangement, fact: FloorFact| only(arrangement, fact, Severity::Care, None);
        let on = |year: i16, month: i8, day: i8| {
            let mut arrangement = clear();
            arrangement.today = Some(jiff::civil::date(year, month, day));
            arrangement
        };
        care(&on(2027, 6, 2), FloorFact::OutOfDate);
        none(&on(2027, 6, 1), Code::FloorLevels);
        care(&on(2026, 5, 31), FloorFact::Future);
        let mut arrangement = clear();
        // A survey of any age is not taken for a fresh one because nobody says what day it is.
        arrangement.today = None;
        care(&arrangement, FloorFact::NoToday);
        assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
        arrangement.bay.survey.as_mut().unwrap().taken = None;
        care(&arrangement, FloorFact::Undated);
        arrangement.bay.survey = None;
        care(&arrangement, FloorFact::Unknown);
        assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
    }

    /// The target stands at (8800, 3000), its stand's feet reach to x = 9300; the marks lie at x = 1400, 4000 and 8800.
    #[test]
    fn what_the_survey_does_not_reach() {
        let mut arrangement = clear();
        survey_of(&mut arrangement, |points| points.retain(|point| point.at.x < 7_500.0));
        let found = only(&arrangement, FloorFact::NotCovered, Severity::Care, None);
        let beyond =
            [Subject::Target("ahead".into()), Subject::Stand("ahead".into()), Subject::Mark("5".into())];
        assert_eq!(found.subjects[1..4], beyond);
        // Up to the target, not to the feet behind it.
        let mut arrangement = clear();
        survey_of(&mut arrangement, |points| points.retain(|point| point.at.x < 9_500.0));
        let found = only(&arrangement, FloorFact::NotCovered, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Floor, Subject::Stand("ahead".into())]);
    }

    /// Points are taken away all round the front left wheel at (4000, 3770): the nearest that is left is at (2000, 4000).
    #[test]
    fn between_points_far_apart_a_wheel_is_not_beyond_the_survey() {
        let mut arrangement = clear();
        let wheel = DVec2::new(4_000.0, 3_770.0);
        survey_of(&mut arrangement, |points| points.retain(|point| point.at.distance(wheel) > 1_990.0));
        let nearest = DVec2::new(2_000.0, 4_000.0).distance(wheel);
        let found = only(&arrangement, FloorFact::Between, Severity::Care, Some(nearest));
        assert_eq!(found.subjects, [Subject::Floor, Subject::Car, Subject::Mark("3".into())]);
        let words = words::Words::new(&arrangement, words::Locale::default());
        assert!(!words.line(&found).contains("eyond"), "{}", words.line(&found));
    }

    #[test]
    fn runways_have_levels_of_their_own() {
        let mut arrangement = raised();
        arrangement.bay.runways[1].survey = None;
        let found = only(&arrangement, FloorFact::Unknown, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Runway("right runway".into())]);
        let mut arrangement = raised();
        arrangement.bay.runways[0].survey.as_mut().unwrap().taken = None;
        let found = only(&arrangement, FloorFact::Undated, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Runway("left runway".into())]);
        // Those of both runways are one act, and the oldest is told; an undated one is another.
        let mut arrangement = raised();
        for (i, own) in arrangement.bay.runways.iter_mut().enumerate() {
            own.survey.as_mut().unwrap().taken = Some(jiff::civil::date(2025, 1, 2 - i as i8));
        }
        let found = only(&arrangement, FloorFact::OutOfDate, Severity::Care, None);
        let both = ["left runway", "right runway"].map(|id| Subject::Runway(id.into()));
        assert_eq!(found.subjects, both);
        let today = arrangement.today.unwrap();
        let days = i64::from(jiff::civil::date(2025, 1, 1).until(today).unwrap().get_days());
        assert_eq!(found.measured, Some(Quantity::Days(days)));
        let words = words::Words::new(&arrangement, words::Locale::default());
        let line = words.line(&found).replace('\u{202f}', " ");
        let expected = format!(
            "Left runway and right runway surveys are out of date: up to {days} days old, limit 365 days"
        );
        assert!(line.starts_with(&expected), "{line}");
        arrangement.bay.runways[0].survey.as_mut().unwrap().taken = None;
        let ages = |fact: FloorFact| {
            let all = assess(&arrangement).findings;
            all.iter().filter(|f| f.facts == Facts::FloorLevels(fact)).count()
        };
        assert_eq!((ages(FloorFact::OutOfDate), ages(FloorFact::Undated)), (1, 1));
        // The left runway 6 mm higher than it is entered: against the right one, and against the target's floor.
        let mut arrangement = raised();
        let own = arrangement.bay.runways[0].survey.as_mut().unwrap();
        own.points.change(|points| points.iter_mut().for_each(|point| point.level_mm = 6.0));
        let found = check(&arrangement, Code::FloorLevels, Severity::Stops, Some(6.0));
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::Uneven));
        // Its points do not reach the rear wheel.
        let mut arrangement = raised();
        let own = arrangement.bay.runways[0].survey.as_mut().unwrap();
        own.points.change(|points| points.retain(|point| point.at.x > 1_900.0));
        let found = only(&arrangement, FloorFact::NotCovered, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Runway("left runway".into()), Subject::Car]);
    }

    /// A floor that rises by a millimetre a metre: wheels from x = 1400 mm on, feet up to 9300, 7.9 mm higher. If all of it may
    /// stand 100 mm elsewhere, the one may be 0.1 mm lower and the other 0.1 mm higher.
    #[test]
    fn a_car_that_stands_elsewhere_stands_on_another_floor() {
        let mut arrangement = with_levels(|p| 0.001 * p.x);
        arrangement.aiming.floor = Some(FloorRequirement::level(8.0));
        none(&arrangement, Code::FloorLevels);
        arrangement.parked_known = ParkedKnown::Within { mm: 100.0, rad: 0.0 };
        let found = check(&arrangement, Code::FloorLevels, Severity::Care, None);
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::MaybeUneven));
        assert!((number(found.measured.unwrap()) - 8.1).abs() < 1e-9, "{found:?}");
        // A tape settles that, and no survey.
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::TapeCar));
        arrangement.parked_known = ParkedKnown::Taped;
        none(&arrangement, Code::FloorLevels);
        // Where the floor is flat, it is so elsewhere.
        let mut flat = with_levels(|_| 0.0);
        flat.parked_known = ParkedKnown::Within { mm: 100.0, rad: 0.0 };
        none(&flat, Code::FloorLevels);
    }
}
