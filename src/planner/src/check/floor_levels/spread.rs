//! How level the floor is at all that stands on it.

use baywright_survey::Level;

use super::{by_the_car, care_of, no_cure, subject};
use crate::check::finding::{Basis, Finding, Quantity, Severity};
use crate::check::wheels::UNEVEN_MM;
use crate::check::{Context, FloorFact, SPEAKS_FROM_MM};
use crate::ground;
use crate::ground::spots::{Spot, Spots};

/// Something that stands where its level is known.
type Surveyed<'a> = (&'a Spot, Level);

/// A higher one and a lower one.
type Pair<'b, 'a> = (&'b Surveyed<'a>, &'b Surveyed<'a>);

/// A level, or how far two are apart, in whole millionths of a millimetre: of as much as each other rounding does not choose.
fn whole(mm: f64) -> f64 {
    (mm * 1e6).round()
}

/// Highest against lowest of what stands on the floor.
pub(super) fn spread(context: &Context<'_>, spots: &Spots<'_>, limit: f64) -> Option<Finding> {
    let known: Vec<Surveyed<'_>> = spots.standing().filter_map(|spot| Some((spot, spot.level?))).collect();
    if range(&known) <= limit {
        return unsaid(context, spots, limit);
    }
    let outer = |moved: f64| {
        let highest = outermost(&known, |(spot, level)| level.level_mm + moved * spot.moved_mm);
        let lowest = outermost(&known, |(spot, level)| moved * spot.moved_mm - level.level_mm);
        (highest, lowest)
    };
    let (highest, lowest) = outer(0.0);
    let found = |fact: FloorFact, pair: (&Surveyed<'_>, &Surveyed<'_>), by: f64| {
        let mut of = vec![subject(&pair.0.0.of), subject(&pair.1.0.of)];
        of.dedup();
        care_of(context, fact, of, pair.1.0.at).against(Quantity::Length(by), Quantity::Length(limit))
    };
    let apart = |pair: &Pair<'_, '_>| pair.0.1.level_mm - pair.1.1.level_mm;
    let worst = worst_of(&highest, &lowest, apart)?;
    if apart(&worst) > limit + SPEAKS_FROM_MM {
        let uneven = no_cure(found(FloorFact::Uneven, worst, apart(&worst)));
        return Some(Finding { severity: Severity::Stops, ..uneven });
    }
    let (highest, lowest) = outer(1.0);
    let most = |pair: &Pair<'_, '_>| at_worst(*pair) + moved(*pair);
    let worst = worst_of(&highest, &lowest, most)?;
    let over = most(&worst) - limit;
    (over > SPEAKS_FROM_MM)
        .then(|| by_the_car(context, found(FloorFact::MaybeUneven, worst, most(&worst)), over, moved(worst)))
        .or_else(|| unsaid(context, spots, limit))
}

/// What the tab of the floor cannot say is inside is not passed over here: the same figure against the same limit, 95 of 100.
fn unsaid(context: &Context<'_>, spots: &Spots<'_>, limit: f64) -> Option<Finding> {
    let told = ground::spread(context.arrangement, context.scene, spots, limit)?;
    let most = told.judged.value + told.judged.u95;
    if told.judged.is_inside() || most <= limit + SPEAKS_FROM_MM {
        return None;
    }
    let [highest, lowest] = told.ends;
    let mut of = vec![subject(&highest.0), subject(&lowest.0)];
    of.dedup();
    let found = care_of(context, FloorFact::MaybeUneven, of, lowest.1);
    Some(found.against(Quantity::Length(most), Quantity::Length(limit)))
}

/// More than any two of them may be apart, with all that is uncertain of both and all that the car's place makes of it.
fn range(known: &[Surveyed<'_>]) -> f64 {
    let reaches = |of: fn(f64, f64) -> f64| {
        known.iter().map(move |(spot, level)| of(level.level_mm, level.within_mm + spot.moved_mm))
    };
    let highest = reaches(|level, off| level + off).fold(f64::NEG_INFINITY, f64::max);
    highest - reaches(|level, off| level - off).fold(f64::INFINITY, f64::min)
}

/// The same of each stand's own feet, and of all of a mat, where nothing is asked of the floor: more than one wheel may stand
/// higher than the others is a step that it stands astride.
pub(super) fn astride(context: &Context<'_>, spots: &Spots<'_>, findings: &mut Vec<Finding>) {
    for own in spots.feet.chunk_by(|a, b| a.of == b.of) {
        let known = || own.iter().filter_map(|spot| Some((spot, spot.level?.level_mm)));
        let by_level = |a: &(&Spot, f64), b: &(&Spot, f64)| a.1.total_cmp(&b.1);
        let Some((low, high)) = known().min_by(by_level).zip(known().max_by(by_level)) else { continue };
        let apart = high.1 - low.1;
        if apart > UNEVEN_MM + SPEAKS_FROM_MM {
            let found = no_cure(care_of(context, FloorFact::Astride, vec![subject(&low.0.of)], low.0.at));
            let found = Finding { basis: Basis::CommonPractice, ..found };
            findings.push(found.against(Quantity::Length(apart), Quantity::Length(UNEVEN_MM)));
        }
    }
}

/// The two that differ most; of those that differ as much, the first by name.
fn worst_of<'b, 'a>(
    highest: &'b [Surveyed<'a>],
    lowest: &'b [Surveyed<'a>],
    by: impl Fn(&Pair<'b, 'a>) -> f64,
) -> Option<Pair<'b, 'a>> {
    let pairs = highest.iter().flat_map(move |high| lowest.iter().map(move |low| (high, low)));
    pairs.min_by(|a, b| {
        let named = |pair: &Pair<'b, 'a>| (&pair.0.0.of, &pair.1.0.of);
        whole(by(b)).total_cmp(&whole(by(a))).then_with(|| named(a).cmp(&named(b)))
    })
}

/// How much more they may differ if the car stands elsewhere, with all that is laid from it: the one may be higher where the
/// other is lower.
fn moved((high, low): (&Surveyed<'_>, &Surveyed<'_>)) -> f64 {
    if high.0.at.distance(low.0.at) > 0.0 { high.0.moved_mm + low.0.moved_mm } else { 0.0 }
}

/// How much higher one may be than another: of one place nothing is uncertain.
fn at_worst((high, low): (&Surveyed<'_>, &Surveyed<'_>)) -> f64 {
    let both = high.0.at.distance(low.0.at) > 0.0;
    let within = if both { libm::hypot(high.1.within_mm, low.1.within_mm) } else { 0.0 };
    high.1.level_mm - low.1.level_mm + within
}

/// Those among which the highest must be, with what is uncertain: all but what two others, in other places, are at least as high
/// and as uncertain as. Few of many: a stand of many corners is not compared with each of another.
fn outermost<'a>(known: &[Surveyed<'a>], up: impl Fn(&Surveyed<'a>) -> f64) -> Vec<Surveyed<'a>> {
    let mut known = known.to_vec();
    known.sort_by(|one, other| {
        let ((a, x), (b, y)) = (one, other);
        let by_level = whole(up(other)).total_cmp(&whole(up(one)));
        let by_level =
            by_level.then(whole(y.within_mm).total_cmp(&whole(x.within_mm))).then_with(|| a.of.cmp(&b.of));
        by_level.then(a.at.x.total_cmp(&b.at.x)).then(a.at.y.total_cmp(&b.at.y))
    });
    known.dedup_by(|(a, x), (b, y)| a.at == b.at && x.level_mm == y.level_mm);
    let (mut most, mut second) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    known.retain(|(_, level)| {
        let within = level.within_mm;
        let is_outer = within > second;
        (most, second) = if within > most { (within, most) } else { (most, second.max(within)) };
        is_outer
    });
    known
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::floor_levels::testing::*;
    use crate::check::testing::*;
    use crate::ground::spots::On;

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

    /// The target stands at (8800, 3000), its feet from there to x = 9300: a step of 40 mm at 9 m lies under them, and the survey
    /// has points 20 mm before and behind it.
    #[test]
    fn a_stand_astride_a_step_of_which_nothing_is_asked() {
        let step = |mm: f64| {
            let mut arrangement = with_levels(|p| if p.x > 9_010.0 { -mm } else { 0.0 });
            survey_of(&mut arrangement, |points| {
                let lip = [9_000.0, 9_020.0]
                    .into_iter()
                    .flat_map(|x| (0..=6).map(move |y| (x, 1_000.0 * f64::from(y))));
                let added = lip
                    .map(|at| LevelPoint { at: at.into(), level_mm: if at.0 > 9_010.0 { -mm } else { 0.0 } });
                let added: Vec<_> =
                    added.filter(|own| points.iter().all(|known| known.at != own.at)).collect();
                points.extend(added);
            });
            arrangement.aiming.floor = None;
            facts(&arrangement).into_iter().any(|own| own == (FloorFact::Astride, Severity::Care))
        };
        assert!(step(40.0) && !step(20.0));
    }

    /// A hump of 40 mm under the outer half of a mat of 1000 mm, whose middle lies on the level floor 5000 mm ahead; the same a
    /// metre aside is under nothing.
    #[test]
    fn a_hump_under_a_mat_stops() {
        let mat = |aside: f64| {
            let mut arrangement = with_levels(|_| 0.0);
            let placement = &mut arrangement.aiming.placements[0];
            (placement.height, placement.mark) = (TargetHeight::OnFloor, None);
            placement.target.stand = None;
            let middle = assess(&arrangement).scene.targets[0].set.place.origin();
            arrangement.bay.survey.as_mut().unwrap().points.change(|points| {
                let off = |at: DVec2| points.iter().all(|own| own.at.distance(at) > 20.0);
                let around = [(-20.0, 0.0), (20.0, 0.0), (0.0, -20.0), (0.0, 20.0), (0.0, 0.0)];
                let hump = middle + DVec2::new(0.0, 200.0 + aside);
                let added: Vec<_> = around
                    .into_iter()
                    .map(DVec2::from)
                    .filter(|by| off(hump + *by))
                    .map(|by| LevelPoint {
                        at: hump + by,
                        level_mm: if by == DVec2::ZERO { 40.0 } else { 0.0 },
                    })
                    .collect();
                points.extend(added);
            });
            let found = assess(&arrangement).findings;
            found.into_iter().any(|own| own.facts == Facts::FloorLevels(FloorFact::Uneven))
        };
        assert!(mat(0.0));
        assert!(!mat(1_000.0));
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

    /// Levels 4 mm apart with a limit of 4 mm are within it, as they are shown; the smallest more that is spoken of is not.
    #[test]
    fn at_the_limit_it_is_level() {
        let step = |mm: f64| {
            let mut arrangement = with_levels(|p| if p.x > 7_500.0 { -mm } else { 0.0 });
            arrangement.aiming.floor = Some(FloorRequirement::level(4.0));
            facts(&arrangement).contains(&(FloorFact::Uneven, Severity::Stops))
        };
        assert!(!step(4.0) && !step(4.0 + 1e-9) && !step(4.005));
        assert!(step(4.02));
    }

    /// Among a thousand spots the worst pair of a few is the worst of all, and they are few.
    #[test]
    fn few_of_many_are_compared() {
        let mut seed = 1_u64;
        let mut next = || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 40) as f64 / f64::from(1_u32 << 24)
        };
        for round in 0..20 {
            let many: Vec<Spot> = (0..1_000)
                .map(|_| {
                    let level =
                        Level { level_mm: (next() * 8.0).round(), within_mm: next(), nearest_mm: 0.0 };
                    // Many of them in one place.
                    let at = DVec2::new((next() * 20.0).round(), 0.0);
                    let level = if round % 2 == 0 { level } else { Level { level_mm: 1.0, ..level } };
                    Spot { of: On::Car, ground: 0, at, level: Some(level), moved_mm: 0.0 }
                })
                .collect();
            // What is in one place has one level.
            let of_place = |spot: &Spot| many.iter().find(|own| own.at == spot.at).and_then(|own| own.level);
            let known: Vec<Surveyed<'_>> = many.iter().map(|spot| (spot, of_place(spot).unwrap())).collect();
            let worst = |high: &[Surveyed<'_>], low: &[Surveyed<'_>]| {
                let pairs = high.iter().flat_map(|high| low.iter().map(move |low| at_worst((high, low))));
                pairs.fold(f64::NEG_INFINITY, f64::max)
            };
            let high = outermost(&known, |own| own.1.level_mm);
            let low = outermost(&known, |own| -own.1.level_mm);
            assert_eq!(worst(&high, &low), worst(&known, &known));
            assert!(high.len() <= 21 && low.len() <= 21, "{} {}", high.len(), low.len());
        }
    }
}
