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
use baywright_geometry::{DVec2, DVec3, Located, Outline, Prism, Span, locate, locate_in};

use super::claim::{Claim, Volume, anywhere, is_care_at_most, is_in_run, is_over_mark};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::near::MayBe;
use super::obstacle::{Obstacle, Shape, rest_of_room, things_of};
use super::sight::HIDDEN_FROM;
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, edges, finding, outside_room};
use crate::model::{Known, Material, ShopFigure};
use crate::scene::is_beside;

pub(super) const CHECK: Check =
    Check { codes: &[Code::ZoneNear, Code::PlaceUnsure], things, whole, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingFurther } else { Remedy::None }
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(things_of(context, 0.0).filter_map(|obstacle| unsure(context, &obstacle)));
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(rest_of_room(context).filter_map(|obstacle| unsure(context, &obstacle)));
    let beside = edges::uncertain(context);
    for feature in &context.arrangement.bay.floor_features {
        let what = Subject::FloorFeature(feature.id.clone());
        let own = beside.iter().filter(|one| one.what == what);
        let may_be = own.map(|one| one.may_be.clone()).collect();
        let known = context.arrangement.bay.walls_known;
        findings.extend(of_one(what, may_be, known, context.arrangement.shop.within(known)));
    }
}

/// One finding of all that one thing or wall may be in.
fn unsure(context: &Context<'_>, obstacle: &Obstacle<'_>) -> Option<Finding> {
    let near = near(context, obstacle, obstacle.known_mm, |_| obstacle.known_mm);
    let may_be = near.into_iter().map(|own| own.may_be).collect();
    of_one(obstacle.subject.clone(), may_be, obstacle.known, obstacle.known_mm)
}

fn of_one(what: Subject, may_be: Vec<MayBe>, known: Known, known_mm: f64) -> Option<Finding> {
    let nearest = may_be.iter().min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))?.clone();
    let subjects = std::iter::once(what.clone());
    let subjects = subjects.chain(may_be.iter().map(|one| one.of.clone())).collect();
    let is_zone = |one: &MayBe| matches!(one.of, Subject::Zone(_));
    let facts = if may_be.iter().all(is_zone) { Facts::ZoneNear(may_be) } else { Facts::PlaceUnsure(may_be) };
    let basis = ShopFigure::of_place(known).map_or(Basis::AsEntered, Basis::Shop);
    let found = finding(facts, Severity::Care, subjects, nearest.at, basis)
        .against(Quantity::Length(nearest.gap_mm), Quantity::Length(known_mm));
    Some(match what {
        Subject::Thing(thing) => found.cured_by(Step::Tape { thing }),
        _ => found,
    })
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
    // What is in one part of a car or a stand surely is not said to be perhaps in the next.
    let mut surely: Vec<(&Subject, Code)> = Vec::new();
    let around = obstacle.bounds.grown(farthest + SPEAKS_FROM_MM);
    for (index, claim) in context.claims().iter().enumerate().filter(|(_, claim)| claim.around.meets(&around))
    {
        let Some(code) = barred(claim, obstacle) else { continue };
        let Some(Gap { mm, at, is_in }) = gap(context, claim, obstacle) else {
            if claim.is_solid() && is_in_it(claim, obstacle) {
                surely.push((&claim.of, code));
            }
            continue;
        };
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
    found.retain(|own| !surely.contains(&(&own.may_be.of, own.may_be.code)));
    found
}

/// Whether an obstacle of its own heights is in a solid, by more than is spoken of.
fn is_in_it(claim: &Claim, obstacle: &Obstacle<'_>) -> bool {
    let prism = match &obstacle.shape {
        Shape::Thing(_, prism) => prism,
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism,
        Shape::Wall(..) | Shape::Ceiling(..) => return false,
    };
    matches!(&claim.volume, Volume::Prism(own)
        if own.span.shared(&prism.span).is_some() && overlaps_by(&own.outline, &prism.outline, SPEAKS_FROM_MM))
}

/// What would be found of an obstacle in a claim; `None` if that would not be in the way of the aiming.
fn barred(claim: &Claim, obstacle: &Obstacle<'_>) -> Option<Code> {
    let code = match &obstacle.shape {
        Shape::Thing(thing, _) => claim.says(thing)?.0,
        Shape::Runway(_) => claim.says_of(Material::Steel)?,
        Shape::Carrying(steel) => {
            // The car stands on it, and marks and runs may lie on it.
            let own = claim.says_of(Material::Steel)?;
            let is_meant = match &claim.volume {
                Volume::Line { line, .. } => !is_beside(&steel.outline.as_polygon(), line),
                _ => matches!(own, Code::CarClash | Code::MarkPlace),
            };
            (!is_meant).then_some(own)?
        }
        // What ends at the walls ends under the ceiling.
        Shape::Ceiling(..) => claim.says_of_wall().filter(|_| claim.inside)?,
        Shape::Proud(_, material) => claim.says_of(*material)?,
        Shape::Wall(..) => claim.says_of_wall()?,
    };
    // What needs care at most says so for itself.
    (!is_care_at_most(code)).then_some(code)
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
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism.span,
        Shape::Wall(wall, _) => return gap_to_wall(context, claim, obstacle, *wall),
        Shape::Ceiling(height, _) => return under_ceiling(claim, obstacle, *height),
    };
    let height = (heights.bottom() + heights.top()) * 0.5;
    let prism = match &obstacle.shape {
        Shape::Thing(_, prism) => prism,
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism,
        Shape::Wall(..) | Shape::Ceiling(..) => return None,
    };
    let outline = &prism.outline;
    match &claim.volume {
        Volume::Prism(own) if matches!(claim.of, Subject::Zone(_)) => in_space(own, prism),
        Volume::Prism(own) => {
            if own.span.shared(&heights).is_none() {
                return over_or_under(claim, obstacle, prism);
            }
            match distance(&own.outline, outline) {
                Separation::Overlapping => in_space(own, prism),
                apart => beside(apart, height),
            }
        }
        // Room to work in is never asked for here.
        Volume::Within { .. } => None,
        Volume::Line { line, free } if is_in_run(&heights, free) => {
            beside(distance_to_segment(outline, line), 0.0)
        }
        Volume::Spot { at, free } if is_over_mark(&heights, free) => {
            // What touches the edge of what is proud of the floor lies on it, and its own check says so.
            let is_said =
                matches!(obstacle.shape, Shape::Proud(..)) && locate(outline, *at) != Located::Outside;
            if is_said { None } else { beside(distance_to_point(outline, *at), 0.0) }
        }
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
        Volume::Picture(_) | Volume::Fresnel { .. } => {
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
/// heights are known as well as the place is, and what is low is no more than as high again. `None` if that is more than is
/// uncertain.
fn over_or_under(claim: &Claim, obstacle: &Obstacle<'_>, prism: &Prism) -> Option<Gap> {
    let known_mm = match obstacle.shape {
        Shape::Thing(..) => obstacle.known_mm,
        Shape::Runway(_) | Shape::Proud(..) => obstacle.known_mm.min(prism.span.top()),
        Shape::Carrying(_) | Shape::Wall(..) | Shape::Ceiling(..) => return None,
    };
    let is_in = |by: f64| {
        let bottom = prism.span.bottom();
        let bottom = if bottom > 0.0 { bottom - by } else { bottom };
        let span = Span::new(bottom, prism.span.top() + by).ok()?;
        claim.volume.at(&span).filter(|region| overlaps(region, &prism.outline)).map(|_| span)
    };
    // Of an upright solid it is plain by how much.
    let (mut out, mut within) = match &claim.volume {
        Volume::Prism(own) => {
            let apart = prism.span.bottom().max(own.span.bottom()) - prism.span.top().min(own.span.top());
            (apart, (apart + SPEAKS_FROM_MM).min(known_mm))
        }
        _ => (0.0, known_mm),
    };
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
    Some(Gap {
        mm: if out > 0.0 { out } else { within },
        at: prism.outline.bounds().centre().extend(height),
        is_in: false,
    })
}

/// How much is left over what must be inside, if that is less than the ceiling's height is known to.
fn under_ceiling(claim: &Claim, obstacle: &Obstacle<'_>, ceiling: f64) -> Option<Gap> {
    let left = ceiling - claim.volume.heights()?.top();
    let at = claim.around.centre().extend(ceiling);
    let is_near = -SPEAKS_FROM_MM < left && left < obstacle.known_mm;
    is_near.then_some(Gap { mm: left.max(0.0), at, is_in: left < 0.0 })
}

/// The same of a wall, which lets through what fits under the lintel of an open door: then it is about the jambs, about where
/// the ground beyond ends, and about the lintel.
fn gap_to_wall(context: &Context<'_>, claim: &Claim, obstacle: &Obstacle<'_>, wall: usize) -> Option<Gap> {
    let heights = claim.volume.heights()?;
    let region = claim.volume.at(&anywhere()?)?;
    let room = &context.scene.room;
    let held = room.holding(&heights);
    let height = (heights.bottom().max(0.0) + heights.top()) * 0.5;
    // What lies wholly beyond the wall is another check's.
    let is_beyond = |p: DVec2| {
        locate_in(&held, p) == Located::Outside && !overlaps(&region, &held.clone().into_owned().into())
    };
    let mut nearest = None;
    for piece in room.wall_at(wall, &heights).iter().chain(&room.ground_ends_at(wall, &heights)) {
        let gap = match distance_to_segment(&region, piece) {
            // That it reaches past by less than is spoken of is all that is left to say.
            Separation::Overlapping => return past_wall(context, region, heights),
            Separation::Apart { from, .. } if is_beyond(from) => continue,
            Separation::Apart { gap, to, .. } => Gap { mm: gap, at: to.extend(height), is_in: false },
            Separation::Touching { at } => Gap { mm: 0.0, at: at.extend(height), is_in: false },
        };
        nearest = nearer(nearest, Some(gap));
    }
    // How high a lintel is, is known as well as where its wall is.
    let lintels = room.just_under(wall, &heights, obstacle.known_mm);
    let over = lintels.filter(|(line, _)| distance_to_segment(&region, line) == Separation::Overlapping);
    let over =
        over.map(|(line, left)| Gap { mm: left, at: line.at(0.5).extend(heights.top()), is_in: false });
    over.fold(nearest, |nearest, own| nearer(nearest, Some(own)))
}

/// A region that reaches past a wall by less than is spoken of. Through an open door it reaches past none.
fn past_wall(context: &Context<'_>, region: Outline, span: Span) -> Option<Gap> {
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
    use crate::scene::Scene;

    /// A shelf hangs 9 mm into the body, 1500 mm high, and 0.5 mm beside what stands on its roof: it is in the car, and nothing is
    /// to be said of perhaps.
    #[test]
    fn what_is_surely_in_the_car_is_not_said_to_be_perhaps() {
        let mut arrangement = with(vec![cabinet("shelf", (1_200.5, 3_000.0), 400.0, 400.0)]);
        arrangement.bay.things[0].place.known = Known::Within(1.0);
        let body = arrangement.vehicle.solids()[0].clone();
        let box_on_it =
            Prism::new(rectangle((-3_400.0, -900.0), (-3_000.0, 900.0)).into(), span(1_500.0, 1_700.0));
        arrangement.vehicle.body = vec![body, box_on_it].into();
        let hung = |bottom: f64| {
            let mut own = arrangement.clone();
            own.bay.things[0].span = span(bottom, 1_700.0);
            own
        };
        check(&hung(1_491.0), Code::CarClash, Severity::Stops, Some(9.0));
        none(&hung(1_491.0), Code::PlaceUnsure);
        check(&hung(1_601.0), Code::PlaceUnsure, Severity::Care, Some(0.5));
    }

    /// Mark 3 at (4000, 4020) on the very edge of a lip that stands 10 mm proud lies on it, and is not "clear by 0 mm" beside it
    /// as well; 5 mm beside it that is said.
    #[test]
    fn a_mark_on_a_lip_is_said_once() {
        let lip = |low: f64| {
            let mut arrangement = clear();
            arrangement.bay.walls_known = Known::Within(20.0);
            arrangement.bay.floor_features = vec![FloorFeature {
                id: "lip".into(),
                kind: FloorFeatureKind::Joint,
                outline: rectangle((3_900.0, low), (4_100.0, 4_300.0)),
                material: Material::Concrete,
                proud_mm: 10.0,
            }];
            let all = assess(&arrangement).findings;
            let about = |f: &&Finding| f.subjects.contains(&Subject::Mark("3".into()));
            all.iter().filter(about).map(Finding::code).collect::<Vec<_>>()
        };
        assert_eq!(lip(4_020.0), [Code::MarkPlace]);
        assert_eq!(lip(4_025.0), [Code::PlaceUnsure]);
    }

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

    /// The zone, from y = 1500 to 4500 and 1500 mm high, runs 100 mm out through an open door.
    fn through_a_door(from: f64, width: f64, lintel: f64, known: f64) -> Arrangement {
        let mut arrangement = parked_at(6_300.0);
        arrangement.bay.openings =
            vec![Opening { span: span(0.0, lintel), ..open_door(1, from, width, 1_000.0) }];
        arrangement.bay.walls_known = Known::Within(known);
        arrangement
    }

    #[test]
    fn what_goes_through_a_door_is_near_its_jambs_and_its_lintel() {
        let wall = Subject::Wall("far wall".into());
        none(&through_a_door(1_400.0, 3_200.0, 2_500.0, 20.0), Code::ZoneNear);
        // 5 mm beside the left jamb, 100 mm beside the right one.
        none(&through_a_door(1_400.0, 3_105.0, 2_500.0, 4.0), Code::ZoneNear);
        let jamb = through_a_door(1_400.0, 3_105.0, 2_500.0, 20.0);
        assert_eq!(check(&jamb, Code::ZoneNear, Severity::Care, Some(5.0)).subjects[0], wall);
        // 5 mm under the lintel.
        none(&through_a_door(1_400.0, 3_200.0, 1_505.0, 4.0), Code::ZoneNear);
        let lintel = through_a_door(1_400.0, 3_200.0, 1_505.0, 20.0);
        assert_eq!(check(&lintel, Code::ZoneNear, Severity::Care, Some(5.0)).subjects[0], wall);
        // The ground ends 5 mm further on.
        let mut ends = through_a_door(1_400.0, 3_200.0, 2_500.0, 20.0);
        ends.bay.openings[0].free_beyond_mm = 105.0;
        check(&ends, Code::ZoneNear, Severity::Care, Some(5.0));
        // An open door that nothing reaches is no wall.
        let mut before = parked_at(6_195.0);
        before.bay.walls_known = Known::Within(20.0);
        before.bay.openings = vec![open_door(1, 1_400.0, 3_200.0, 1_000.0)];
        none(&before, Code::ZoneNear);
    }

    /// A beam over the roof, which is 1500 mm high, and one over the stand's mast.
    #[test]
    fn what_hangs_over_the_car_or_a_stand() {
        let mast = Scene::of(&clear()).targets[0].solids.iter().map(|own| own.span.top()).fold(0.0, f64::max);
        for (at, top) in [((2_000.0, 3_000.0), 1_500.0), ((8_850.0, 3_000.0), mast)] {
            let hanging = |gap: f64, known: f64| {
                let mut arrangement = wood(at, 3_000.0, 100.0, known);
                arrangement.bay.things[0].kind = ThingKind::Beam;
                arrangement.bay.things[0].span = span(top + gap, 2_900.0);
                arrangement
            };
            none(&hanging(120.0, 119.9), Code::PlaceUnsure);
            check(&hanging(120.0, 150.0), Code::PlaceUnsure, Severity::Care, Some(120.0));
        }
    }

    #[test]
    fn a_ceiling_just_over_the_roof() {
        let mut arrangement = clear();
        arrangement.bay.ceiling_mm = 1_510.0;
        none(&arrangement, Code::PlaceUnsure);
        arrangement.bay.walls_known = Known::Within(20.0);
        let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(10.0));
        assert_eq!(found.subjects[0], Subject::Ceiling);
        assert!(found.subjects.contains(&Subject::Car));
    }

    /// The car may be on a runway; its target's feet may not come to stand on one: they begin 20 mm behind the face, at 8820.
    #[test]
    fn a_stand_beside_the_runway_that_carries_the_car() {
        let runway = |id: &str, low: f64| Runway {
            id: id.into(),
            outline: rectangle((500.0, low), (8_815.0, low + 500.0)),
            top_mm: 40.0,
            survey: None,
        };
        let mut arrangement = clear();
        arrangement.bay.runways = vec![runway("left runway", 3_500.0), runway("right runway", 2_000.0)];
        arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
        none(&arrangement, Code::PlaceUnsure);
        arrangement.aiming.placements[0].target.stand.as_mut().unwrap().base =
            rectangle((-500.0, -600.0), (-20.0, 400.0)).into();
        arrangement.bay.walls_known = Known::Within(20.0);
        let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(5.0));
        assert!(all_of(&found).iter().all(|one| one.code == Code::StandClash), "{found:#?}");
    }

    /// The mark at (4000, 4020): a drain's edge 10 mm beside it that may lie elsewhere.
    #[test]
    fn a_drain_that_may_be_under_a_mark() {
        let mut arrangement = clear();
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "drain".into(),
            kind: FloorFeatureKind::Drain,
            outline: rectangle((3_900.0, 4_030.0), (4_100.0, 4_200.0)),
            material: Material::Plastic,
            proud_mm: 0.0,
        }];
        none(&arrangement, Code::PlaceUnsure);
        arrangement.bay.walls_known = Known::Within(20.0);
        let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(10.0));
        assert_eq!(found.subjects, [Subject::FloorFeature("drain".into()), Subject::Mark("3".into())]);
        none(&arrangement, Code::CarPlace);
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
