//! What is known of the floor where something stands on it.
//!
//! Rule: the levels at the wheels, under the targets and their stands' feet, and at the marks are known: a dated survey, no
//! older than [`VALID_DAYS`], whose points reach round them and lie no further off than [`REACH_MM`]. What is elsewhere in
//! the survey does not matter. Between surveyed points a level is interpolated, and is as uncertain as the survey there
//! bends ([`baywright_survey::LevelSurface`]). Levels at wheels, targets and feet that differ by more than the aiming
//! allows stop it; where they may, with what is uncertain of them, it needs care. So with the pitch and roll of the plane of
//! the wheels, where the aiming has a limit for them. A target is set above its own floor and meant above the plane of the
//! wheels: where the two differ by more than its height may be out, its stand is to be set higher or lower (care).
//! Uncertainties are added as squares, each level's being its own (JCGM 100, 5.1).
//! Limits: the aiming's; age and reach are common practice, no source.

use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, DVec3, Outline, angle};
use baywright_survey::{Level, Stance, stance};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding};
use crate::model::{FloorSurvey, Id};

/// Surveyed once a year (common practice, no source).
const VALID_DAYS: i64 = 365;
/// A level counts for two paces round it: between points further apart a floor may do anything (common practice, no source).
const REACH_MM: f64 = 1500.0;
/// Angles are spoken of from a hundred-thousandth of a degree on: as far below what a level reads as [`SPEAKS_FROM_MM`].
const SPEAKS_FROM_RAD: f64 = 1e-7;

pub(super) const CHECK: Check = Check { codes: &[Code::FloorLevels], whole, ..Check::NONE };

/// What is known of the floor. The finding's first subject is the floor, the others are what stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorFact {
    /// Nobody surveyed it.
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
}

/// Which way something is tilted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tilt {
    /// Nose down.
    NoseDown,
    /// Nose up.
    NoseUp,
    /// Left side up.
    LeftUp,
    /// Right side up.
    RightUp,
}

/// Something whose level matters.
struct Spot {
    of: Subject,
    at: DVec2,
    level: Option<Level>,
}

/// Where a stand's base rests: its corners, or the four quarters of a round one.
fn feet(base: &Outline) -> Vec<DVec2> {
    match base {
        Outline::Polygon(polygon) => polygon.outer().to_vec(),
        Outline::Circle(circle) => {
            let out = [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y];
            out.map(|out| circle.centre() + out * circle.radius()).to_vec()
        }
    }
}

/// Everything whose level matters, each with its level as surveyed.
struct Spots {
    wheels: Vec<Spot>,
    /// Under the middle of each target's face.
    targets: Vec<Spot>,
    feet: Vec<Spot>,
    marks: Vec<Spot>,
}

impl Spots {
    fn of(context: &Context<'_>, survey: &FloorSurvey) -> Self {
        let (arrangement, scene) = (context.arrangement, context.scene);
        let spot = |of: Subject, at: DVec2| Spot { of, at, level: survey.points.at(at) };
        // Of a car on runways only what stands beside them is on the floor.
        let on_floor = arrangement.on_runways.is_empty();
        let wheels = scene.wheels.iter().filter(|_| on_floor).map(|at| spot(Subject::Car, *at));
        let target = |id: &Id| Subject::Target(id.clone());
        let targets = scene.targets.iter().map(|own| spot(target(&own.id), own.set.place.origin()));
        let stands = arrangement.aiming.placements.iter().zip(&scene.targets);
        let stands = stands.filter_map(|(placement, own)| Some((placement.target.stand.as_ref()?, own)));
        let feet = stands.flat_map(|(stand, own)| {
            let at = feet(&stand.base.placed(&own.set.place));
            at.into_iter().map(|at| spot(Subject::Stand(own.id.clone()), at)).collect::<Vec<_>>()
        });
        let made = arrangement.aiming.mark_plan.iter().zip(&scene.marks);
        let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
        let marks = made.filter_map(|(_, mark)| Some(spot(Subject::Mark(mark.id.clone()), mark.at.ok()?)));
        Self {
            wheels: wheels.collect(),
            targets: targets.collect(),
            feet: feet.collect(),
            marks: marks.collect(),
        }
    }

    /// What stands there: all but the marks.
    fn standing(&self) -> impl Iterator<Item = &Spot> {
        self.wheels.iter().chain(&self.targets).chain(&self.feet)
    }

    fn all(&self) -> impl Iterator<Item = &Spot> {
        self.standing().chain(&self.marks)
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let here = context.scene.bay_from_vehicle.origin();
    let Some(survey) = &context.arrangement.bay.survey else {
        findings.push(care(FloorFact::Unknown, vec![], here, of_procedure(context)));
        return;
    };
    findings.extend(of_age(context, survey));
    let spots = Spots::of(context, survey);
    let say = |fact: FloorFact, of: Vec<&Spot>, basis: Basis| {
        let at = of.first().map_or(here, |spot| spot.at);
        let mut subjects: Vec<Subject> = of.iter().map(|spot| spot.of.clone()).collect();
        subjects.dedup();
        care(fact, subjects, at, basis)
    };
    let outside: Vec<&Spot> = spots.all().filter(|spot| spot.level.is_none()).collect();
    if !outside.is_empty() {
        findings.push(say(FloorFact::NotCovered, outside, of_procedure(context)));
    }
    let nearest = |spot: &&Spot| spot.level.map_or(0.0, |level| level.nearest_mm);
    let between: Vec<&Spot> = spots.all().filter(|spot| nearest(spot) > REACH_MM).collect();
    if let Some(worst) = between.iter().map(nearest).reduce(f64::max) {
        let found = say(FloorFact::Between, between, Basis::CommonPractice);
        findings.push(found.against(Quantity::Length(worst), Quantity::Length(REACH_MM)));
    }
    if let Some(floor) = context.arrangement.aiming.floor {
        let limit = floor.level_mm;
        let within = |spot: &&Spot| spot.level.map_or(0.0, |level| level.within_mm);
        let uncertain: Vec<&Spot> = spots.all().filter(|spot| within(spot) > limit).collect();
        if let Some(worst) = uncertain.iter().map(within).reduce(f64::max) {
            let found = say(FloorFact::Uncertain, uncertain, of_procedure(context));
            findings.push(found.against(Quantity::Length(worst), Quantity::Length(limit)));
        }
        findings.extend(spread(context, &spots, limit));
    }
    let Some(wheels) = Wheels::of(context, &spots) else { return };
    tilt(context, &wheels, findings);
    for (index, target) in spots.targets.iter().enumerate() {
        findings.extend(target_height(context, &wheels, index, target));
    }
}

fn of_procedure(context: &Context<'_>) -> Basis {
    Basis::Procedure(context.arrangement.aiming.provenance.clone())
}

fn care(fact: FloorFact, of: Vec<Subject>, at: DVec2, basis: Basis) -> Finding {
    let subjects = std::iter::once(Subject::Floor).chain(of).collect();
    finding(Facts::FloorLevels(fact), Severity::Care, subjects, at.extend(0.0), basis)
        .cured_by(Step::SurveyFloor)
}

/// No survey makes a floor level.
fn no_cure(found: Finding) -> Finding {
    Finding { cure: None, ..found }
}

fn of_age(context: &Context<'_>, survey: &FloorSurvey) -> Option<Finding> {
    let here = context.scene.bay_from_vehicle.origin();
    let say = |fact: FloorFact, basis: Basis| Some(care(fact, vec![], here, basis));
    let Some(taken) = survey.taken else { return say(FloorFact::Undated, Basis::CommonPractice) };
    let Some(today) = context.arrangement.today else {
        return say(FloorFact::NoToday, Basis::CommonPractice).map(no_cure);
    };
    let days = i64::from(taken.until(today).map_or(0, |span| span.get_days()));
    if days < 0 {
        say(FloorFact::Future, Basis::AsEntered)
    } else if days > VALID_DAYS {
        say(FloorFact::OutOfDate, Basis::CommonPractice)
            .map(|found| found.against(Quantity::Days(days), Quantity::Days(VALID_DAYS)))
    } else {
        None
    }
}

/// Highest against lowest of what stands on the floor.
fn spread(context: &Context<'_>, spots: &Spots, limit: f64) -> Option<Finding> {
    let known: Vec<(&Spot, Level)> = spots.standing().filter_map(|spot| Some((spot, spot.level?))).collect();
    let pairs = || known.iter().flat_map(|high| known.iter().map(move |low| (high, low)));
    let apart = |(high, low): &(&(&Spot, Level), &(&Spot, Level))| high.1.level_mm - low.1.level_mm;
    let at_worst = |pair: &(&(&Spot, Level), &(&Spot, Level))| {
        let both = pair.0.0.at.distance(pair.1.0.at) > 0.0;
        apart(pair) + if both { libm::hypot(pair.0.1.within_mm, pair.1.1.within_mm) } else { 0.0 }
    };
    let found = |fact: FloorFact, pair: (&(&Spot, Level), &(&Spot, Level)), by: f64| {
        let mut of = vec![pair.0.0.of.clone(), pair.1.0.of.clone()];
        of.dedup();
        care(fact, of, pair.1.0.at, of_procedure(context))
            .against(Quantity::Length(by), Quantity::Length(limit))
    };
    let worst = pairs().max_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    if apart(&worst) > limit {
        let uneven = no_cure(found(FloorFact::Uneven, worst, apart(&worst)));
        return Some(Finding { severity: Severity::Stops, ..uneven });
    }
    let worst = pairs().max_by(|a, b| at_worst(a).total_cmp(&at_worst(b)))?;
    (at_worst(&worst) > limit + SPEAKS_FROM_MM)
        .then(|| found(FloorFact::MaybeUneven, worst, at_worst(&worst)))
}

/// The wheel points with their levels, and how the car stands on them.
struct Wheels {
    points: [DVec3; 4],
    within: [f64; 4],
    ahead: DVec2,
    stance: Stance,
}

impl Wheels {
    fn of(context: &Context<'_>, spots: &Spots) -> Option<Self> {
        let known: Vec<(DVec3, f64)> = spots
            .wheels
            .iter()
            .filter_map(|spot| spot.level.map(|level| (spot.at.extend(level.level_mm), level.within_mm)))
            .collect();
        let known: [(DVec3, f64); 4] = known.try_into().ok()?;
        let (points, within) = (known.map(|(point, _)| point), known.map(|(_, within)| within));
        let ahead = angle::direction(context.scene.bay_from_vehicle.heading());
        Some(Self { points, within, ahead, stance: stance(&points, ahead)? })
    }

    /// What a figure of the stance is and how surely, each wheel's level being off by what is uncertain of it in turn.
    fn figure(&self, of: impl Fn(&Stance) -> f64) -> (f64, f64) {
        let value = of(&self.stance);
        let off = |wheel: usize| {
            let mut points = self.points;
            if let (Some(point), Some(within)) = (points.get_mut(wheel), self.within.get(wheel)) {
                point.z += within;
            }
            stance(&points, self.ahead).map_or(0.0, |other| of(&other) - value)
        };
        (value, (0..4).map(|wheel| off(wheel) * off(wheel)).sum::<f64>().sqrt())
    }
}

fn tilt(context: &Context<'_>, wheels: &Wheels, findings: &mut Vec<Finding>) {
    let Some(floor) = context.arrangement.aiming.floor else { return };
    let here = context.scene.bay_from_vehicle.origin();
    for (limit, (by, within), ways) in [
        (floor.pitch_rad, wheels.figure(|stance| stance.pitch_rad), [Tilt::NoseDown, Tilt::NoseUp]),
        (floor.roll_rad, wheels.figure(|stance| stance.roll_rad), [Tilt::LeftUp, Tilt::RightUp]),
    ] {
        let Some(limit) = limit else { continue };
        let way = if by >= 0.0 { ways[0] } else { ways[1] };
        let say = |fact: FloorFact, by: f64| {
            care(fact, vec![Subject::Car], here, of_procedure(context))
                .against(Quantity::Angle(by), Quantity::Angle(limit))
        };
        if by.abs() > limit + SPEAKS_FROM_RAD {
            let tilted = no_cure(say(FloorFact::Tilted(way), by.abs()));
            findings.push(Finding { severity: Severity::Stops, ..tilted });
        } else if by.abs() + within > limit + SPEAKS_FROM_RAD {
            findings.push(say(FloorFact::MaybeTilted(way), by.abs() + within));
        }
    }
}

/// How far off in height a target may be, as the procedure says or as its place makes the aim go off.
fn height_limit(context: &Context<'_>, index: usize) -> Option<f64> {
    let (arrangement, scene) = (context.arrangement, context.scene);
    let placement = arrangement.aiming.placements.get(index)?;
    if let Some(limit) = placement.tolerance.height_mm {
        return Some(limit);
    }
    let by_place = placement.target.error.by_place;
    let away = scene.targets.get(index)?.centre().truncate().distance(scene.sensor().truncate());
    // Under an angle of this many times its share the aim is off by its tolerance.
    let seen = (by_place > 0.0).then(|| (arrangement.aiming.tolerance.elevation_rad / by_place).min(1.0))?;
    Some(away * libm::tan(seen))
}

fn target_height(context: &Context<'_>, wheels: &Wheels, index: usize, target: &Spot) -> Option<Finding> {
    let (level, limit) = (target.level?, height_limit(context, index)?);
    if context.scene.targets.get(index)?.lies {
        return None;
    }
    let (plane, plane_within) = wheels.figure(|stance| stance.plane.at(target.at));
    let (off, within) = (level.level_mm - plane, libm::hypot(plane_within, level.within_mm));
    let high = off > 0.0;
    let say = |fact: FloorFact, by: f64| {
        care(fact, vec![target.of.clone()], target.at, of_procedure(context))
            .against(Quantity::Length(by), Quantity::Length(limit))
    };
    if off.abs() > limit + SPEAKS_FROM_MM {
        Some(no_cure(say(FloorFact::TargetOff { high }, off.abs())))
    } else {
        (off.abs() + within > limit + SPEAKS_FROM_MM)
            .then(|| say(FloorFact::TargetMaybeOff { high }, off.abs() + within))
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The clear bay with levels by place; its survey is a grid of 1 m.
    fn with_levels(level: impl Fn(DVec2) -> f64) -> Arrangement {
        let mut arrangement = clear();
        survey_of(&mut arrangement, |points| points.iter_mut().for_each(|p| p.level_mm = level(p.at)));
        arrangement
    }

    fn survey_of(arrangement: &mut Arrangement, change: impl FnOnce(&mut Vec<LevelPoint>)) {
        arrangement.bay.survey.as_mut().unwrap().points.change(change);
    }

    fn facts(arrangement: &Arrangement) -> Vec<(FloorFact, Severity)> {
        let found = assess(arrangement).findings.into_iter().filter_map(|found| match found.facts {
            Facts::FloorLevels(fact) => Some((fact, found.severity)),
            _ => None,
        });
        found.collect()
    }

    fn only(
        arrangement: &Arrangement,
        fact: FloorFact,
        severity: Severity,
        measured: Option<f64>,
    ) -> Finding {
        let found = check(arrangement, Code::FloorLevels, severity, measured);
        assert_eq!(found.facts, Facts::FloorLevels(fact));
        found
    }

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

    /// The rear left wheel stands at (1400, 3770), in the cell of the points (1000 to 2000, 3000 to 4000).
    #[test]
    fn a_floor_that_is_not_level_at_wheels_and_target_stops() {
        let stops = |arrangement: &Arrangement, spread: f64| {
            let found = of(&assess(arrangement), Code::FloorLevels)
                .into_iter()
                .find(|found| found.facts == Facts::FloorLevels(FloorFact::Uneven))
                .cloned()
                .unwrap();
            assert_eq!(found.severity, Severity::Stops);
            assert!((number(found.measured.unwrap()) - spread).abs() < 1e-6, "{found:?}");
            assert!(found.cure.is_none(), "no survey makes a floor level");
            assert_eq!(assess(arrangement).verdict, Verdict::NotReady);
        };
        // A fall all along, 1 mm a metre: from the rear wheels at 1400 to the feet at 9300.
        stops(&with_levels(|p| 0.001 * p.x), 7.9);
        none(&with_levels(|p| 0.0006 * p.x), Code::FloorLevels);
        // A step between x = 7 m and x = 8 m.
        stops(&with_levels(|p| if p.x > 7_500.0 { -54.0 } else { 0.0 }), 54.0);
        // Twice the limit, sharply, at one point 2 m aside of all that stands there.
        none(&with_levels(|p| if p == DVec2::new(6_000.0, 1_000.0) { 10.0 } else { 0.0 }), Code::FloorLevels);
    }

    /// A hole elsewhere: an end of the room 54 mm lower, or never surveyed. A metre beside something it would count: where
    /// between two points a floor breaks off no survey shows.
    #[test]
    fn what_is_elsewhere_does_not_matter() {
        let far = |p: DVec2| p.x > 11_500.0;
        none(&with_levels(|p| if far(p) { -54.0 } else { 0.0 }), Code::FloorLevels);
        let mut arrangement = clear();
        survey_of(&mut arrangement, |points| points.retain(|point| !far(point.at)));
        none(&arrangement, Code::FloorLevels);
    }

    /// A dip of 6 mm at the point (4000, 4000), 230 mm beside the front left wheel: 4.6 mm there. The slopes round it change by
    /// so much that 5 mm may well be passed.
    #[test]
    fn what_may_be_uneven_needs_care() {
        let dip = with_levels(|p| if p == DVec2::new(4_000.0, 4_000.0) { -6.0 } else { 0.0 });
        let found = of(&assess(&dip), Code::FloorLevels).into_iter().next().cloned().unwrap();
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::MaybeUneven));
        assert_eq!(found.severity, Severity::Care);
        let most = number(found.measured.unwrap());
        assert!(most > 5.0 && most < 8.0, "{most}");
        // Where it bends by decimetres, nothing is known at all between the points.
        let rough = with_levels(|p| if (p.x + p.y) % 2_000.0 > 500.0 { 40.0 } else { -40.0 });
        assert!(facts(&rough).contains(&(FloorFact::Uncertain, Severity::Care)));
    }

    /// By hand: 2 mm a metre nose down are 0.115°; the floor may be 40 mm out.
    #[test]
    fn how_the_car_stands() {
        let tilted = |limit: Option<f64>, level: fn(DVec2) -> f64| {
            let mut arrangement = with_levels(level);
            let limit = limit.map(angle::radians);
            arrangement.aiming.floor =
                Some(FloorRequirement { level_mm: 40.0, pitch_rad: limit, roll_rad: limit });
            arrangement.aiming.placements[0].tolerance.height_mm = Some(50.0);
            arrangement
        };
        let by = libm::atan(0.002);
        type Fall = fn(DVec2) -> f64;
        let cases: [(Fall, Tilt); 4] = [
            (|p| -0.002 * p.x, Tilt::NoseDown),
            (|p| 0.002 * p.x, Tilt::NoseUp),
            (|p| 0.002 * p.y, Tilt::LeftUp),
            (|p| -0.002 * p.y, Tilt::RightUp),
        ];
        for (level, tilt) in cases {
            only(&tilted(Some(0.11), level), FloorFact::Tilted(tilt), Severity::Stops, Some(by));
            none(&tilted(Some(0.12), level), Code::FloorLevels);
            none(&tilted(None, level), Code::FloorLevels);
        }
        // The same fall on a floor that is wavy by half a millimetre: 0.121°, and what may be hidden between the points.
        let wavy = |p: DVec2| -0.002 * p.x + if (p.x / 1_000.0) % 2.0 > 0.5 { 0.5 } else { 0.0 };
        let found = facts(&tilted(Some(0.123), wavy));
        assert_eq!(found, [(FloorFact::MaybeTilted(Tilt::NoseDown), Severity::Care)]);
    }

    /// By hand: the floor falls by 2 mm a metre up to x = 5 m and is level beyond. The plane of the wheels at the target,
    /// 4.8 m ahead of the front axle, lies 9.6 mm below the front wheels; the floor there 2 mm.
    #[test]
    fn the_height_of_a_target_is_meant_above_the_plane_of_the_wheels() {
        let mut arrangement = with_levels(|p| -0.002 * p.x.min(5_000.0));
        arrangement.aiming.floor = Some(FloorRequirement::level(40.0));
        none(&arrangement, Code::FloorLevels);
        let limits = |height: f64| {
            let mut arrangement = arrangement.clone();
            arrangement.aiming.placements[0].tolerance.height_mm = Some(height);
            arrangement
        };
        only(&limits(7.5), FloorFact::TargetOff { high: true }, Severity::Care, Some(7.6));
        none(&limits(12.0), Code::FloorLevels);
        // A reflector aims by its place: 0.1° at 4 m are 7 mm.
        arrangement.aiming.placements[0].target.error = AimError::PLACE;
        only(&arrangement, FloorFact::TargetOff { high: true }, Severity::Care, Some(7.6));
    }

    #[test]
    fn on_runways_the_floor_says_nothing_of_the_wheels() {
        let mut raised = with_levels(|p| if p.x < 5_000.0 { 20.0 } else { 0.0 });
        assert_eq!(facts(&raised)[0], (FloorFact::Uneven, Severity::Stops));
        let runway = |name: &str, y: f64| Runway {
            id: name.into(),
            outline: rectangle((1_000.0, y - 300.0), (4_600.0, y + 300.0)),
            top_mm: 150.0,
        };
        raised.bay.runways = vec![runway("left runway", 3_770.0), runway("right runway", 2_230.0)];
        raised.on_runways = vec!["left runway".into(), "right runway".into()];
        assert!(!facts(&raised).iter().any(|(fact, _)| *fact == FloorFact::Uneven));
    }
}
