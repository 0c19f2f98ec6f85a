//! What is known of the floor where something stands on it.
//!
//! Rule: the levels at the wheels, under the targets and their stands' feet, and at the marks are known: a dated survey, no
//! older than the shop's own `survey_age_days`, whose points reach round them and lie no further off than its
//! `level_reach_mm`. What is elsewhere in the survey does not matter. Between surveyed points a level is interpolated, and is as uncertain as the survey there
//! bends ([`baywright_survey::LevelSurface`]). Levels at wheels, targets and feet that differ by more than the aiming
//! allows stop it; where they may, with what is uncertain of them, it needs care. So with the pitch and roll of the plane of
//! the wheels, where the aiming has a limit for them. A target is set above its own floor and meant above the plane of the
//! wheels: where the two differ by more than its height may be out, its stand is to be set higher or lower (care). Of a car on
//! runways the wheels go by the runways' own surveys, each level against the height that the runway is entered with.
//! Uncertainties are added as squares, each level's being its own (JCGM 100, 5.1).
//! Limits: the aiming's; age and reach are the shop's own.

use baywright_geometry::locate::{Located, locate};
use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, DVec3, Outline, Prism, angle};
use baywright_survey::{Level, Stance, stance};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding};
use crate::model::{FloorSurvey, Id, Runway, ShopFigure};

/// Angles are spoken of from a hundred-thousandth of a degree on: as far below what a level reads as [`SPEAKS_FROM_MM`].
const SPEAKS_FROM_RAD: f64 = 1e-7;

pub(super) const CHECK: Check = Check { codes: &[Code::FloorLevels], whole, ..Check::NONE };

/// What is known of a floor. The finding's first subject is the floor or a runway, the others are what stands there.
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

/// What something stands on, with its own survey: one of the floor says nothing of a runway.
struct Ground<'a> {
    of: Subject,
    survey: Option<&'a FloorSurvey>,
    /// How high it lies as entered.
    height: f64,
    /// How much higher that is than the plane from which everything on it is meant.
    raised: f64,
    place: DVec2,
}

/// Something whose level matters, on the ground of this number.
struct Spot {
    of: Subject,
    ground: usize,
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

/// Everything whose level matters, each with its level as surveyed. Levels on runways are those above the plane that
/// carries the wheels, on the floor those above the bay's zero: what both are meant to be differs by the runways' height.
struct Spots<'a> {
    /// The floor first, then the runways that carry the car.
    grounds: Vec<Ground<'a>>,
    wheels: Vec<Spot>,
    /// Under the middle of each target's face.
    targets: Vec<Spot>,
    feet: Vec<Spot>,
    marks: Vec<Spot>,
}

impl<'a> Spots<'a> {
    fn of(context: &Context<'a>) -> Self {
        let (arrangement, scene) = (context.arrangement, context.scene);
        let survey = arrangement.bay.survey.as_ref();
        let place = scene.bay_from_vehicle.origin();
        let mut grounds = vec![Ground { of: Subject::Floor, survey, height: 0.0, raised: 0.0, place }];
        let carrying: Vec<(&Runway, Prism)> = context.carrying_runways().collect();
        grounds.extend(carrying.iter().map(|(runway, _)| Ground {
            of: Subject::Runway(runway.id.clone()),
            survey: runway.survey.as_ref(),
            height: runway.top_mm,
            raised: runway.top_mm - scene.carried_at_mm,
            place: runway.outline.bounds().centre(),
        }));
        let on_runway = |at: DVec2| {
            let holds = |(_, prism): &(&Runway, Prism)| locate(&prism.outline, at) != Located::Outside;
            carrying.iter().position(holds).map(|index| index + 1)
        };
        let spot = |of: Subject, ground: usize, at: DVec2| {
            let level = grounds.get(ground).and_then(|ground| {
                let level = ground.survey?.points.at(at)?;
                Some(Level { level_mm: level.level_mm + ground.raised, ..level })
            });
            Spot { of, ground, at, level }
        };
        // A wheel that no runway holds is found by another check.
        let ground_of = |at: DVec2| if carrying.is_empty() { Some(0) } else { on_runway(at) };
        let wheels = scene.wheels.iter().filter_map(|at| Some(spot(Subject::Car, ground_of(*at)?, *at)));
        let target = |id: &Id| Subject::Target(id.clone());
        let targets = scene.targets.iter().map(|own| spot(target(&own.id), 0, own.set.place.origin()));
        let stands = arrangement.aiming.placements.iter().zip(&scene.targets);
        let stands = stands.filter_map(|(placement, own)| Some((placement.target.stand.as_ref()?, own)));
        let feet = stands.flat_map(|(stand, own)| {
            let at = feet(&stand.base.placed(&own.set.place));
            at.into_iter().map(|at| spot(Subject::Stand(own.id.clone()), 0, at)).collect::<Vec<_>>()
        });
        let made = arrangement.aiming.mark_plan.iter().zip(&scene.marks);
        let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
        let marks = made.filter_map(|(_, mark)| {
            let at = mark.at.ok()?;
            Some(spot(Subject::Mark(mark.id.clone()), on_runway(at).unwrap_or(0), at))
        });
        let (wheels, targets) = (wheels.collect(), targets.collect());
        let (feet, marks) = (feet.collect(), marks.collect());
        Self { wheels, targets, feet, marks, grounds }
    }

    /// What stands there: all but the marks.
    fn standing(&self) -> impl Iterator<Item = &Spot> {
        self.wheels.iter().chain(&self.targets).chain(&self.feet)
    }

    fn on(&self, ground: usize) -> impl Iterator<Item = &Spot> {
        self.standing().chain(&self.marks).filter(move |spot| spot.ground == ground)
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let spots = Spots::of(context);
    for (index, ground) in spots.grounds.iter().enumerate() {
        // The floor is always asked about: somebody walks on it with the target.
        if index == 0 || spots.on(index).next().is_some() {
            known(context, &spots, index, ground, findings);
        }
    }
    if let Some(floor) = context.arrangement.aiming.floor {
        findings.extend(spread(context, &spots, floor.level_mm));
    }
    let Some(wheels) = Wheels::of(context, &spots) else { return };
    tilt(context, &wheels, findings);
    for (index, target) in spots.targets.iter().enumerate() {
        findings.extend(target_height(context, &wheels, index, target));
    }
}

/// Whether the levels of a ground are known where they matter.
fn known(
    context: &Context<'_>,
    spots: &Spots<'_>,
    index: usize,
    ground: &Ground<'_>,
    findings: &mut Vec<Finding>,
) {
    let say = |fact: FloorFact, of: &[&Spot], basis: Basis| {
        let at = of.first().map_or(ground.place, |spot| spot.at);
        let mut subjects: Vec<Subject> = of.iter().map(|spot| spot.of.clone()).collect();
        subjects.dedup();
        subjects.insert(0, ground.of.clone());
        care(fact, subjects, at.extend(ground.height), basis)
    };
    let Some(survey) = ground.survey else {
        findings.push(say(FloorFact::Unknown, &[], of_procedure(context)));
        return;
    };
    findings.extend(of_age(context, survey, ground));
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

/// No survey makes a floor level.
fn no_cure(found: Finding) -> Finding {
    Finding { cure: None, ..found }
}

fn of_age(context: &Context<'_>, survey: &FloorSurvey, ground: &Ground<'_>) -> Option<Finding> {
    let at = ground.place.extend(ground.height);
    let say = |fact: FloorFact, basis: Basis| Some(care(fact, vec![ground.of.clone()], at, basis));
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

/// Highest against lowest of what stands on the floor.
fn spread(context: &Context<'_>, spots: &Spots<'_>, limit: f64) -> Option<Finding> {
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
        care_of(context, fact, of, pair.1.0.at).against(Quantity::Length(by), Quantity::Length(limit))
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
    fn of(context: &Context<'_>, spots: &Spots<'_>) -> Option<Self> {
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
            care_of(context, fact, vec![Subject::Car], here)
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
        care_of(context, fact, vec![target.of.clone()], target.at)
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

    /// The floor falls under a raised car and is level at its target: that is nothing to wheels that stand on runways.
    #[test]
    fn on_runways_the_floor_says_nothing_of_the_wheels() {
        let falls = |p: DVec2| if p.x < 5_000.0 { 20.0 } else { 0.0 };
        assert_eq!(facts(&with_levels(falls))[0], (FloorFact::Uneven, Severity::Stops));
        let mut arrangement = raised();
        survey_of(&mut arrangement, |points| {
            points.iter_mut().filter(|p| p.at.x < 5_000.0).for_each(|p| p.level_mm = 20.0);
        });
        assert!(!facts(&arrangement).iter().any(|(fact, _)| *fact == FloorFact::Uneven));
        none(&raised(), Code::FloorLevels);
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
}
