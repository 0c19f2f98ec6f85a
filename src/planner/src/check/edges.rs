//! Edges that marks, stands and tyres are near to: a drain's, a pit's or a joint's beside what rests on the floor, or beside a zone
//! that it counts in though it lies flush; and that of the runway under a tyre or a spot beside it. What is over an edge where it is drawn is said by the checks of marks,
//! stands and wheels.

use baywright_geometry::contain::holds;
use baywright_geometry::distance::{Separation, distance, distance_to_point};
use baywright_geometry::locate::{Located, locate};
use baywright_geometry::{Bounds, DVec2, Outline};

use super::finding::{Code, Subject};
use super::near::{MayBe, Meets, farthest_of, sway};
use super::zones::counts_flush;
use super::{Context, SPEAKS_FROM_MM, raised};
use crate::model::{FloorFeature, Runway};

/// All that may be over an edge if the car, with what is laid from it, is a little off its place.
pub(super) fn near(context: &Context<'_>) -> Vec<Meets> {
    let known_mm = known_mm(context);
    let mut met = beside_features(context, |far| known_mm + sway(context.arrangement, far));
    // What the edge's own place is too uncertain for is said of it alone.
    met.retain(|own| own.may_be.gap_mm >= known_mm - SPEAKS_FROM_MM);
    on_runways(context, &mut met);
    met
}

/// All that may be over an edge of the floor because that is not where it is drawn: its place is known as the walls' are.
pub(super) fn uncertain(context: &Context<'_>) -> Vec<Meets> {
    let known_mm = known_mm(context);
    beside_features(context, |_| known_mm)
}

fn known_mm(context: &Context<'_>) -> f64 {
    context.arrangement.shop.within(context.arrangement.bay.walls_known)
}

/// What rests on the floor.
enum Rests<'a> {
    Spot(DVec2),
    Area(&'a Outline),
}

/// The same as what it is and what would be said of it over an edge, the box around it, and how near may be too near, mm.
struct Resting<'a> {
    of: Subject,
    code: Code,
    rests: Rests<'a>,
    around: Bounds,
    reach_mm: f64,
}

impl<'a> Resting<'a> {
    fn new((of, code, rests): (Subject, Code, Rests<'a>), axle: DVec2, reach: impl Fn(f64) -> f64) -> Self {
        let (around, far) = match &rests {
            Rests::Spot(at) => (Bounds { low: *at, high: *at }, axle.distance(*at)),
            Rests::Area(area) => (area.bounds(), farthest_of(area, axle)),
        };
        Self { of, code, rests, around, reach_mm: reach(far) }
    }
}

const fn tyre(own: &Outline) -> (Subject, Code, Rests<'_>) {
    (Subject::Car, Code::WheelPlace, Rests::Area(own))
}

/// What is nearer to the edge of something flush, or a tyre nearer to something proud, than the reach of what is so far from
/// the axle, mm.
fn beside_features(context: &Context<'_>, reach: impl Fn(f64) -> f64) -> Vec<Meets> {
    let mut met = Vec::new();
    if context.arrangement.bay.floor_features.is_empty() {
        return met;
    }
    // What lies on the floor is under no tyre of a car on runways.
    let tyres = |height_mm: f64| -> Vec<Outline> {
        let all = context
            .arrangement
            .on_runways
            .is_empty()
            .then(|| context.scene.tyres_up_to(context.arrangement, height_mm));
        all.into_iter().flatten().map(Outline::from).collect()
    };
    let treads = tyres(0.0);
    let marks = context.scene.marks.iter().filter(|mark| mark.lies_mm <= 0.0).filter_map(|mark| {
        Some((Subject::Mark(mark.id.clone()), Code::MarkPlace, Rests::Spot(mark.at.ok()?)))
    });
    let feet = context.scene.targets.iter().flat_map(|target| {
        let resting = target.solids.iter().filter(|solid| solid.span.bottom() <= SPEAKS_FROM_MM);
        resting
            .map(|solid| (Subject::Stand(target.id.clone()), Code::StandClash, Rests::Area(&solid.outline)))
    });
    let axle = context.arrangement.parked.origin();
    let on_floor = marks.chain(feet).chain(treads.iter().map(tyre));
    let on_floor: Vec<_> = on_floor.map(|own| Resting::new(own, axle, &reach)).collect();
    for feature in &context.arrangement.bay.floor_features {
        if feature.proud_mm <= 0.0 {
            beside_feature(context, feature, &on_floor, &mut met);
            let zones = context.scene.zones.iter().filter(|zone| counts_flush(zone, feature)).map(|zone| {
                let (of, area) = (Subject::Zone(zone.id.clone()), Rests::Area(&zone.prism.outline));
                Resting::new((of, Code::ZoneUnjudged, area), axle, &reach)
            });
            beside_feature(context, feature, &zones.collect::<Vec<_>>(), &mut met);
        } else {
            // What is proud of the floor is a solid, and asked about as such; but a tyre is round.
            for own in tyres(feature.proud_mm) {
                beside_feature(context, feature, &[Resting::new(tyre(&own), axle, &reach)], &mut met);
            }
        }
    }
    met
}

fn beside_feature(
    context: &Context<'_>,
    feature: &FloorFeature,
    resting: &[Resting<'_>],
    met: &mut Vec<Meets>,
) {
    let bounds = feature.outline.bounds();
    for own in resting.iter().filter(|own| bounds.meets(&own.around.grown(own.reach_mm))) {
        let edge = Outline::from(feature.outline.clone());
        let apart = match own.rests {
            Rests::Spot(at) => distance_to_point(&edge, at),
            Rests::Area(area) => distance(&edge, area),
        };
        let (gap_mm, at) = match apart {
            Separation::Apart { gap, to, .. } => (gap, to),
            Separation::Touching { at } => (0.0, at),
            // That is another check's.
            Separation::Overlapping => continue,
        };
        if gap_mm < own.reach_mm - SPEAKS_FROM_MM {
            let may_be = MayBe { of: own.of.clone(), code: own.code, gap_mm, at: at.extend(0.0) };
            let what = Subject::FloorFeature(feature.id.clone());
            note(met, Meets::new(context, what, may_be, own.reach_mm, known_mm(context)));
        }
    }
}

fn on_runways(context: &Context<'_>, met: &mut Vec<Meets>) {
    let carrying = || {
        let on = &context.arrangement.on_runways;
        context.arrangement.bay.runways.iter().filter(move |runway| on.contains(&runway.id))
    };
    let known_mm = known_mm(context);
    let axle = context.arrangement.parked.origin();
    let mut near = |of: Subject, code: Code, runway: &Runway, corners: &[DVec2]| {
        let far = corners.iter().map(|corner| corner.distance(axle)).fold(0.0, f64::max);
        let reach_mm = known_mm + sway(context.arrangement, far);
        let to_edge = |corner: &DVec2| {
            runway.outline.edges().map(|edge| edge.distance_to(*corner)).fold(f64::INFINITY, f64::min)
        };
        let nearest = corners.iter().map(|corner| (to_edge(corner), *corner));
        let Some((gap_mm, at)) = nearest.min_by(|a, b| a.0.total_cmp(&b.0)) else { return };
        if gap_mm < reach_mm - SPEAKS_FROM_MM {
            let may_be = MayBe { of, code, gap_mm, at: at.extend(runway.top_mm) };
            let what = Subject::Runway(runway.id.clone());
            note(met, Meets::new(context, what, may_be, reach_mm, known_mm));
        }
    };
    for tread in &context.scene.treads {
        let own = Outline::from(tread.clone());
        if let Some(runway) = carrying().find(|runway| holds(&runway.outline, &own)) {
            near(Subject::Car, Code::WheelOffRunway, runway, tread.outer());
        }
    }
    // A spot beside a tyre lies on the runway that the tyre stands on.
    for (id, at) in raised::beside_tyres(context, &context.arrangement.aiming) {
        let holds = |runway: &&Runway| locate(&runway.outline.clone().into(), at) != Located::Outside;
        if let Some(runway) = carrying().find(holds) {
            near(Subject::Mark(id.clone()), Code::MarkInAir, runway, &[at]);
        }
    }
}

/// Of each pair the one that lacks most: of tyres that stand as near to one edge the farther from the axle sways more.
fn note(met: &mut Vec<Meets>, new: Meets) {
    let same = |own: &&mut Meets| own.what == new.what && own.may_be.of == new.may_be.of;
    let spare = |own: &Meets| own.may_be.gap_mm - own.reach_mm;
    match met.iter_mut().find(same) {
        Some(known) if spare(known) <= spare(&new) => {}
        Some(known) => *known = new,
        None => met.push(new),
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    fn beside(kind: FloorFeatureKind, low: (f64, f64), high: (f64, f64)) -> Arrangement {
        let mut arrangement = clear();
        arrangement.parked_known = ParkedKnown::Planned;
        let outline = rectangle(low, high);
        let material = Material::Plastic;
        arrangement.bay.floor_features =
            vec![FloorFeature { id: "drain".into(), kind, outline, material, proud_mm: 0.0 }];
        arrangement
    }

    /// The mark at (4000, 4020), 1020 mm from the axle: 30 mm and half a degree of it is 38.9 mm.
    #[test]
    fn a_mark_beside_a_drain() {
        for (gap, is_said) in [(38.0, true), (39.5, false)] {
            let drain = beside(FloorFeatureKind::Drain, (3_900.0, 4_020.0 + gap), (4_100.0, 4_200.0));
            if is_said {
                let found = check(&drain, Code::CarPlace, Severity::Care, Some(gap));
                let subjects =
                    [Subject::Car, Subject::FloorFeature("drain".into()), Subject::Mark("3".into())];
                assert_eq!(found.subjects, subjects);
            } else {
                none(&drain, Code::CarPlace);
            }
        }
        // On it, that is what is said.
        let on = beside(FloorFeatureKind::Drain, (3_900.0, 3_950.0), (4_100.0, 4_050.0));
        none(&on, Code::CarPlace);
        check(&on, Code::MarkPlace, Severity::Stops, None);
    }

    /// The tread of the rear right wheel ends at y = 2130: a pit up to 2100 is 30 mm beside it.
    #[test]
    fn a_tyre_beside_a_pit() {
        let pit = beside(FloorFeatureKind::Pit, (1_300.0, 1_900.0), (1_500.0, 2_100.0));
        let found = check(&pit, Code::CarPlace, Severity::Care, Some(30.0));
        assert_eq!(found.subjects[2], Subject::Car);
        let mut taped = pit;
        taped.parked_known = ParkedKnown::Taped;
        none(&taped, Code::CarPlace);
    }

    /// Tyres 130 mm from the outer edges of both runways; moved 100 mm to the left, two of them are 30 mm from one.
    #[test]
    fn a_tyre_near_the_edge_of_its_runway() {
        let runway = |id: &str, low: f64| Runway {
            id: id.into(),
            outline: rectangle((500.0, low), (5_000.0, low + 500.0)),
            top_mm: 400.0,
            survey: None,
        };
        let mut arrangement = clear();
        arrangement.bay.runways = vec![runway("left runway", 3_500.0), runway("right runway", 2_000.0)];
        arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
        arrangement.parked_known = ParkedKnown::Planned;
        // Marks beside the runways would be near their steel.
        for (step, wheel) in arrangement.aiming.mark_plan.iter_mut().zip(Wheel::ALL) {
            step.construction = Construction::WheelPoint { wheel };
        }
        none(&arrangement, Code::CarPlace);
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_100.0), 0.0);
        none(&arrangement, Code::WheelOffRunway);
        let found = check(&arrangement, Code::CarPlace, Severity::Care, Some(30.0));
        let subjects = [Subject::Car, Subject::Runway("left runway".into()), Subject::Car];
        assert_eq!(found.subjects, subjects);
        arrangement.parked_known = ParkedKnown::Within { mm: 0.0, rad: 0.0 };
        none(&arrangement, Code::CarPlace);
    }

    /// The spots beside the tyres lie at y = 4020 and 1980, 80 mm from the outer edges of runways that are wide enough.
    #[test]
    fn a_spot_near_the_edge_of_its_runway() {
        let mut arrangement = raised();
        for (runway, y) in arrangement.bay.runways.iter_mut().zip([3_400.0, 1_900.0]) {
            runway.outline = rectangle((500.0, y), (5_000.0, y + 700.0));
        }
        let in_air = |arrangement: &Arrangement| {
            let found = assess(arrangement).findings;
            let met = found.iter().flat_map(|found| match &found.facts {
                Facts::CarPlace(met) => met.as_slice(),
                _ => &[],
            });
            met.filter(|own| own.may_be.code == Code::MarkInAir).count()
        };
        for (mm, walls, spots) in
            [(0.0, 0.0, 0), (75.0, 0.0, 0), (85.0, 0.0, 4), (0.0, 85.0, 4), (45.0, 40.0, 4)]
        {
            arrangement.parked_known = ParkedKnown::Within { mm, rad: 0.0 };
            arrangement.bay.walls_known = Known::Within(walls);
            none(&arrangement, Code::MarkInAir);
            assert_eq!(in_air(&arrangement), spots, "{mm} {walls}");
        }
    }
}
