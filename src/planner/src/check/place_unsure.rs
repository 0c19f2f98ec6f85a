//! Things, runways and walls that may stand elsewhere than they are drawn, and then be in the way.
//!
//! Rule: whatever would stop the aiming somewhere needs care as far from there as its place is uncertain: what stands in
//! no region that a check claims, but nearer to one than its own place is known. So does what is in one by less than the
//! planner speaks of, even if its place is known exactly: there is no silent gap between touching, which is clear, and a stop.
//! What one measuring act would settle is one finding: all of one thing, all of one wall. Two things beside each other are
//! none: a row of cabinets stands against its wall.
//! Limit: how well the place is known, as entered.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance, distance_to_point, distance_to_segment};
use baywright_geometry::overlap::{overlaps, overlaps_by};
use baywright_geometry::share::{Share, target_share};
use baywright_geometry::{Bounds, DVec2, DVec3, Outline, PlanPose, Prism, Segment, Span};

use super::claim::{Claim, Volume, anywhere};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::runs::GOES_OVER_MM;
use super::sight::HIDDEN_FROM;
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, outside_room, thing_subject, wall_id};
use crate::model::{Known, Material, ShopFigure, Thing};

pub(super) const CHECK: Check =
    Check { codes: &[Code::ZoneNear, Code::PlaceUnsure], things, whole, remedy, ..Check::NONE };

/// What something may be in.
#[derive(Clone, Debug, PartialEq)]
pub struct MayBe {
    /// What claims the place.
    pub of: Subject,
    /// What would be found of it there.
    pub code: Code,
    /// How far away from there it is drawn, mm; 0 if it touches or is in by less than a tape shows.
    pub gap_mm: f64,
    /// Where that is, bay frame, mm.
    pub at: DVec3,
}

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingFurther } else { Remedy::None }
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(things_of(context).filter_map(|obstacle| unsure(context, &obstacle)));
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(rest_of_room(context).filter_map(|obstacle| unsure(context, &obstacle)));
}

/// One finding of all that one thing or wall may be in.
fn unsure(context: &Context<'_>, obstacle: &Obstacle<'_>) -> Option<Finding> {
    let near = near(context, obstacle, obstacle.known_mm, |_| obstacle.known_mm);
    let may_be: Vec<MayBe> = near.into_iter().map(|own| own.may_be).collect();
    let nearest = may_be.iter().min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))?.clone();
    let subjects = std::iter::once(obstacle.subject.clone());
    let subjects = subjects.chain(may_be.iter().map(|one| one.of.clone())).collect();
    let is_zone = |one: &MayBe| matches!(one.of, Subject::Zone(_));
    let facts = if may_be.iter().all(is_zone) { Facts::ZoneNear(may_be) } else { Facts::PlaceUnsure(may_be) };
    let basis = ShopFigure::of_place(obstacle.known).map_or(Basis::AsEntered, Basis::Shop);
    let found = finding(facts, Severity::Care, subjects, nearest.at, basis)
        .against(Quantity::Length(nearest.gap_mm), Quantity::Length(obstacle.known_mm));
    Some(match &obstacle.subject {
        Subject::Thing(thing) => found.cured_by(Step::Tape { thing: thing.clone() }),
        _ => found,
    })
}

/// Something of the room that is in the way where it is claimed.
pub(super) struct Obstacle<'a> {
    pub subject: Subject,
    shape: Shape<'a>,
    bounds: Bounds,
    /// How well its place is known, mm either way.
    pub known_mm: f64,
    /// Who says so.
    known: Known,
}

impl Obstacle<'_> {
    /// A box around it in plan, in a frame that is given from the bay.
    pub fn bounds_from(&self, own_from_bay: &PlanPose) -> Bounds {
        match &self.shape {
            Shape::Thing(_, prism) => prism.outline.bounds_from(own_from_bay),
            Shape::Runway(prism) | Shape::Proud(prism, _) => prism.outline.bounds_from(own_from_bay),
            Shape::Wall(wall) => {
                let ends = [*own_from_bay * wall.from, *own_from_bay * wall.to];
                Bounds { low: ends[0].min(ends[1]), high: ends[0].max(ends[1]) }
            }
        }
    }
}

enum Shape<'a> {
    Thing(&'a Thing, &'a Prism),
    /// A runway that carries no car, which is steel.
    Runway(Prism),
    /// What stands proud of the floor, and what it is made of.
    Proud(Prism, Material),
    /// At every height.
    Wall(Segment),
}

/// The things to look at.
pub(super) fn things_of<'a>(context: &'a Context<'_>) -> impl Iterator<Item = Obstacle<'a>> {
    context.things().map(|seen| Obstacle {
        subject: thing_subject(&seen.thing.id),
        shape: Shape::Thing(seen.thing, &seen.placed.prism),
        bounds: seen.placed.bounds,
        known_mm: seen.placed.known_mm,
        known: seen.thing.place.known,
    })
}

/// Runways that carry no car, what is proud of the floor, and walls: their places are known as the room's walls are.
pub(super) fn rest_of_room<'a>(context: &'a Context<'_>) -> impl Iterator<Item = Obstacle<'a>> {
    let known = context.arrangement.bay.walls_known;
    let known_mm = context.arrangement.shop.within(known);
    let runways = context.idle_runways().map(move |(subject, prism)| Obstacle {
        subject,
        bounds: prism.outline.bounds(),
        shape: Shape::Runway(prism),
        known_mm,
        known,
    });
    let walls = context.scene.room.walls().edges().enumerate().filter_map(move |(edge, wall)| {
        Some(Obstacle {
            subject: Subject::Wall(wall_id(context.arrangement, edge)?.into_owned()),
            shape: Shape::Wall(wall),
            bounds: Bounds::around([wall.from, wall.to])?,
            known_mm,
            known,
        })
    });
    let features = context.arrangement.bay.floor_features.iter().filter_map(move |own| {
        let prism = own.solid()?;
        Some(Obstacle {
            subject: Subject::FloorFeature(own.id.clone()),
            bounds: prism.outline.bounds(),
            shape: Shape::Proud(prism, own.material),
            known_mm,
            known,
        })
    });
    runways.chain(features).chain(walls)
}

/// Something near a claim that bars it.
pub(super) struct Near {
    pub may_be: MayBe,
    /// How near may be too near, mm.
    pub reach_mm: f64,
    /// Whether what is known of its own place leaves it open already.
    pub by_itself: bool,
}

/// What an obstacle is nearer to than the `reach` of a claim, by its position, which never exceeds `farthest`; of each that claims a place, the nearest.
pub(super) fn near(
    context: &Context<'_>,
    obstacle: &Obstacle<'_>,
    farthest: f64,
    reach: impl Fn(usize) -> f64,
) -> Vec<Near> {
    let mut found: Vec<Near> = Vec::new();
    let around = obstacle.bounds.grown(farthest + SPEAKS_FROM_MM);
    for (index, claim) in context.claims().iter().enumerate().filter(|(_, claim)| claim.around.meets(&around))
    {
        let Some(code) = barred(claim, obstacle) else { continue };
        let Some(Gap { mm, at, is_in }) = gap(context, claim, obstacle) else { continue };
        let reach_mm = reach(index);
        // Who fills the whole of it exactly is clear.
        let within = |reach: f64| is_in || mm < reach - SPEAKS_FROM_MM;
        if !within(reach_mm) {
            continue;
        }
        let may_be = MayBe { of: claim.of.clone(), code, gap_mm: mm, at };
        let near = Near { may_be, reach_mm, by_itself: within(obstacle.known_mm) };
        let is_same = |own: &&mut Near| own.may_be.of == claim.of && own.may_be.code == code;
        match found.iter_mut().find(is_same) {
            Some(known) if known.may_be.gap_mm <= mm => known.by_itself |= near.by_itself,
            Some(known) => *known = Near { by_itself: known.by_itself || near.by_itself, ..near },
            None => found.push(near),
        }
    }
    found
}

/// What would be found of an obstacle in a claim; `None` if that would not be in the way of the aiming.
fn barred(claim: &Claim, obstacle: &Obstacle<'_>) -> Option<Code> {
    let code = match &obstacle.shape {
        Shape::Thing(thing, _) => claim.says(thing)?.0,
        Shape::Runway(_) => claim.says_of(Material::Steel)?,
        Shape::Proud(prism, material) => says_of_proud(claim, prism, *material)?,
        Shape::Wall(_) => claim.says_of_wall()?,
    };
    // Room to work in and ways out need care at most, and say so for themselves.
    (!matches!(code, Code::WorkingRoom | Code::KeepFree)).then_some(code)
}

/// What would be found of what is proud of the floor: a tape goes over a low lip.
fn says_of_proud(claim: &Claim, prism: &Prism, material: Material) -> Option<Code> {
    let code = claim.says_of(material)?;
    (code != Code::RunBlocked || prism.span.top() > GOES_OVER_MM).then_some(code)
}

/// How far an obstacle is from a claim, and whether it is in it by less than is spoken of.
struct Gap {
    mm: f64,
    at: DVec3,
    is_in: bool,
}

/// `None` if it passes over or under, or is in it so far that a check of its own speaks.
fn gap(context: &Context<'_>, claim: &Claim, obstacle: &Obstacle<'_>) -> Option<Gap> {
    let heights = match &obstacle.shape {
        Shape::Thing(_, prism) => prism.span,
        Shape::Runway(prism) | Shape::Proud(prism, _) => prism.span,
        Shape::Wall(_) => anywhere()?,
    };
    let height = (heights.bottom() + heights.top()) * 0.5;
    let prism = match &obstacle.shape {
        Shape::Thing(_, prism) => prism,
        Shape::Runway(prism) | Shape::Proud(prism, _) => prism,
        Shape::Wall(wall) => {
            let region = claim.volume.at(&heights)?;
            return match distance_to_segment(&region, wall) {
                Separation::Overlapping => past_wall(context, claim, region, heights),
                apart => beside(apart, height),
            };
        }
    };
    let outline = &prism.outline;
    match &claim.volume {
        Volume::Prism(own) if matches!(claim.of, Subject::Zone(_)) => in_space(own, prism),
        Volume::Prism(own) => {
            own.span.shared(&heights)?;
            match distance(&own.outline, outline) {
                Separation::Overlapping => in_space(own, prism),
                apart => beside(apart, height),
            }
        }
        // Room to work in is never asked for here.
        Volume::Within { .. } => None,
        Volume::Line { line, top } if heights.bottom() < *top => {
            beside(distance_to_segment(outline, line), 0.0)
        }
        Volume::Spot { at, top } if heights.bottom() < *top => beside(distance_to_point(outline, *at), 0.0),
        Volume::Line { .. } | Volume::Spot { .. } => None,
        Volume::Sight { eye, face } => {
            let Some(region) = claim.volume.at(&heights) else {
                return over_or_under(claim, obstacle, prism);
            };
            match distance(&region, outline) {
                Separation::Overlapping => {
                    let hides = match target_share(*eye, face, &[prism]) {
                        Share::Seen(seen) => 1.0 - seen.share > HIDDEN_FROM,
                        Share::EyeInside { .. } => true,
                        Share::Behind => return None,
                    };
                    let at = middle(&region, outline).extend(height);
                    (!hides).then_some(Gap { mm: 0.0, at, is_in: true })
                }
                apart => nearer(beside(apart, height), over_or_under(claim, obstacle, prism)),
            }
        }
        Volume::Fresnel { .. } => {
            let Some(region) = claim.volume.at(&heights) else {
                return over_or_under(claim, obstacle, prism);
            };
            let apart = distance(&region, outline);
            let beside = beside(apart, height)?;
            nearer(Some(beside), over_or_under(claim, obstacle, prism))
        }
    }
}

fn nearer(a: Option<Gap>, b: Option<Gap>) -> Option<Gap> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.mm < a.mm { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// How much lower something that hangs would have to hang, or how much higher something would have to stand, to be in a claim:
/// heights are known as well as the place is. `None` if that is more than is uncertain.
fn over_or_under(claim: &Claim, obstacle: &Obstacle<'_>, prism: &Prism) -> Option<Gap> {
    let Shape::Thing(..) = obstacle.shape else { return None };
    let is_in = |by: f64| {
        let bottom = prism.span.bottom();
        let bottom = if bottom > 0.0 { bottom - by } else { bottom };
        let span = Span::new(bottom, prism.span.top() + by).ok()?;
        claim.volume.at(&span).filter(|region| overlaps(region, &prism.outline)).map(|_| span)
    };
    let (mut out, mut within) = (0.0, obstacle.known_mm);
    let mut heights = is_in(within)?;
    while within - out > SPEAKS_FROM_MM {
        let middle = (out + within) * 0.5;
        match is_in(middle) {
            Some(span) => (within, heights) = (middle, span),
            None => out = middle,
        }
    }
    let hangs_lower = heights.bottom() < prism.span.bottom() && prism.span.bottom() > 0.0;
    let height = if hangs_lower { prism.span.bottom() } else { prism.span.top() };
    Some(Gap { mm: within, at: prism.outline.bounds().centre().extend(height), is_in: false })
}

/// A region that reaches past a wall by less than is spoken of. Through an open door it reaches past none.
fn past_wall(context: &Context<'_>, claim: &Claim, region: Outline, heights: Span) -> Option<Gap> {
    let span = if let Volume::Prism(own) = &claim.volume { own.span } else { heights };
    let past = outside_room::protruding(context, &Prism::new(region, span));
    let deepest = past.first().filter(|deepest| deepest.depth < SPEAKS_FROM_MM)?;
    Some(Gap { mm: 0.0, at: deepest.deepest.extend(span.bottom().max(0.0)), is_in: true })
}

fn middle(a: &Outline, b: &Outline) -> DVec2 {
    super::middle_of_both(&a.bounds(), &b.bounds())
}

fn beside(apart: Separation, height: f64) -> Option<Gap> {
    match apart {
        Separation::Apart { gap, to, .. } => Some(Gap { mm: gap, at: to.extend(height), is_in: false }),
        Separation::Touching { at } => Some(Gap { mm: 0.0, at: at.extend(height), is_in: false }),
        Separation::Overlapping => None,
    }
}

fn in_space(own: &Prism, prism: &Prism) -> Option<Gap> {
    // Most of what is in something is in it by far.
    let is_far_in = || overlaps_by(&own.outline, &prism.outline, SPEAKS_FROM_MM);
    if own.span.shared(&prism.span).is_some() && is_far_in() {
        return None;
    }
    match clearance(own, prism) {
        Clearance::Clear { gap, to, .. } => Some(Gap { mm: gap, at: to, is_in: false }),
        Clearance::Touching { at } => Some(Gap { mm: 0.0, at, is_in: false }),
        Clearance::Intrudes(intrusion) => (intrusion.depth < SPEAKS_FROM_MM).then(|| {
            let at = middle(&own.outline, &prism.outline).extend(intrusion.heights.bottom());
            Gap { mm: 0.0, at, is_in: true }
        }),
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A wooden cabinet that may stand in the zone, with what is known of its place.
    fn wood(at: (f64, f64), length: f64, width: f64, known: f64) -> Arrangement {
        let mut thing = cabinet("cabinet", at, length, width);
        thing.material = Material::Wood;
        thing.place.known = Known::Within(known);
        with(vec![thing])
    }

    fn all_of(found: &Finding) -> &[crate::MayBe] {
        match &found.facts {
            Facts::ZoneNear(all) | Facts::PlaceUnsure(all) => all,
            other => panic!("{other:?}"),
        }
    }

    /// A column of 120 mm whose near side is 20 mm from the zone, placed by eye.
    #[test]
    fn a_column_known_by_eye_may_be_inside() {
        let mut arrangement = with(vec![column("column", (8_000.0, 4_580.0), 120.0)]);
        none(&arrangement, Code::ZoneNear);
        arrangement.bay.things[0].place.known = Known::ByEye;
        let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(20.0));
        assert_eq!(number(found.limit.unwrap()), arrangement.shop.by_eye_mm);
        assert_eq!(found.subjects, [Subject::Thing("column".into()), Subject::Zone("beam".into())]);
        arrangement.bay.things[0].place.known = Known::Taped;
        none(&arrangement, Code::ZoneNear);
    }

    /// 5 mm from the wall, which is known to 20 mm.
    #[test]
    fn a_zone_that_may_reach_into_the_wall() {
        let mut arrangement = parked_at(6_195.0);
        none(&arrangement, Code::ZoneNear);
        arrangement.bay.walls_known = Known::Taped;
        let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(5.0));
        assert_eq!(found.subjects[0], Subject::Wall("far wall".into()));
        arrangement.parked = PlanPose::new(DVec2::new(6_180.0, 3_000.0), 0.0);
        none(&arrangement, Code::ZoneNear);
    }

    /// The sight is 500 mm wide at the target, 4 m off, and nothing at the sensor: 125 mm either side half way. The near
    /// side of a cabinet a hair long stands 1 mm beside it.
    #[test]
    fn a_cabinet_beside_the_sight() {
        let beside = |known| wood((6_800.0, 3_126.0 + 200.0), 0.002, 400.0, known);
        none(&beside(0.0), Code::PlaceUnsure);
        let found = check(&beside(50.0), Code::PlaceUnsure, Severity::Care, None);
        let sight = all_of(&found).iter().find(|one| one.code == Code::SightBlocked).unwrap();
        // Square to the edge of the sight, which runs off at 1 in 16.
        let (along, beside) = (4_000.0_f64, 250.0_f64);
        let expected = 1.0 * along / along.hypot(beside);
        assert!((sight.gap_mm - expected).abs() < 0.01, "{} {expected}", sight.gap_mm);
        assert_eq!(sight.of, Subject::Target("ahead".into()));
    }

    /// The feet reach 500 mm behind the face at x = 8800, 300 mm to either side.
    #[test]
    fn a_cabinet_behind_the_stand() {
        none(&wood((9_310.0 + 200.0, 3_000.0), 400.0, 400.0, 9.9), Code::PlaceUnsure);
        let found = check(
            &wood((9_310.0 + 200.0, 3_000.0), 400.0, 400.0, 50.0),
            Code::PlaceUnsure,
            Severity::Care,
            Some(10.0),
        );
        assert_eq!(all_of(&found)[0].of, Subject::Stand("ahead".into()));
    }

    /// Between the car's right side at y = 2100 and the run at y = 1980: one finding names both.
    #[test]
    fn one_thing_is_one_finding() {
        let arrangement = wood((2_500.0, 2_040.0), 300.0, 80.0, 150.0);
        let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, None);
        let codes: std::collections::BTreeSet<_> = all_of(&found).iter().map(|one| one.code).collect();
        assert!(codes.contains(&Code::CarClash) && codes.contains(&Code::RunBlocked), "{codes:?}");
        assert_eq!(found.subjects.len(), all_of(&found).len() + 1);
        let smallest = all_of(&found).iter().map(|one| one.gap_mm).fold(f64::INFINITY, f64::min);
        assert_eq!(number(found.measured.unwrap()), smallest);
    }

    /// Exact touching is clear; 0.005 mm of overlap, which no check speaks of for itself, needs care.
    #[test]
    fn there_is_no_silent_gap() {
        let steel = |into: f64| with(vec![cabinet("cabinet", (8_000.0, 4_725.0 - into), 900.0, 450.0)]);
        assert!(assess(&steel(0.0)).findings.iter().all(|f| f.culprit().is_none()));
        for into in [0.001, 0.005, 0.009] {
            check(&steel(into), Code::ZoneNear, Severity::Care, Some(0.0));
            none(&steel(into), Code::ZoneObject);
        }
        check(&steel(0.02), Code::ZoneObject, Severity::Stops, None);
        // The same of the stand, and of the car's side.
        let behind = |into: f64| wood((9_300.0 + 200.0 - into, 3_000.0), 400.0, 400.0, 0.0);
        none(&behind(0.0), Code::PlaceUnsure);
        check(&behind(0.005), Code::PlaceUnsure, Severity::Care, Some(0.0));
        check(&behind(0.02), Code::StandClash, Severity::Stops, None);
        let aside = |into: f64| {
            let mut arrangement = wood((2_500.0, 3_900.0 + 300.0 - into), 500.0, 600.0, 0.0);
            arrangement.aiming.mark_plan.clear();
            arrangement
        };
        none(&aside(0.0), Code::PlaceUnsure);
        check(&aside(0.005), Code::PlaceUnsure, Severity::Care, Some(0.0));
        check(&aside(0.02), Code::CarClash, Severity::Stops, None);
    }

    /// Cabinets against each other and against the wall are known no better, and nobody minds.
    /// A wooden chest under the sight: from the sensor at 500 mm to the target's lower edge at 250 mm, 4 m away, the line of
    /// sight is 375 mm high half way. Its far edge is 2 050 mm away: 371.875 mm.
    #[test]
    fn a_chest_just_under_the_sight() {
        let chest = |top: f64, known: f64| {
            let mut bay = wood((6_800.0, 3_000.0), 100.0, 100.0, known);
            bay.bay.things[0].span = span(0.0, top);
            bay
        };
        let found = check(&chest(361.875, 20.0), Code::PlaceUnsure, Severity::Care, None);
        let gap = number(found.measured.unwrap());
        assert!((gap - 10.0).abs() < 0.02, "{gap}");
        for (top, known) in [(361.875, 9.9), (341.0, 20.0)] {
            none(&chest(top, known), Code::PlaceUnsure);
        }
        check(&chest(373.0, 20.0), Code::SightBlocked, Severity::Stops, None);
    }

    #[test]
    fn a_row_of_cabinets_against_the_wall() {
        let mut row: Vec<Thing> = (0..5)
            .map(|i| {
                cabinet(&format!("cabinet {i}"), (1_000.0 + 900.0 * f64::from(i), 5_775.0), 900.0, 450.0)
            })
            .collect();
        for own in &mut row {
            own.place.known = Known::ByEye;
        }
        let mut arrangement = with(row);
        arrangement.bay.walls_known = Known::Taped;
        let assessment = assess(&arrangement);
        assert!(
            assessment.findings.iter().all(|f| f.severity == Severity::Note),
            "{:#?}",
            assessment.findings
        );
    }
}
