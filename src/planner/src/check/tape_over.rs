//! Tape that lies over what stands proud of the floor.
//!
//! Rule: a tape is laid straight from one mark to the next along the floor; what it goes over, a ridge, a kerb or a thing that lies
//! there, lengthens it, so that the mark falls short. Taut it lies from edge to edge of what is highest, which is the least it is lengthened by.
//! What no tape goes over stands in its way, and the check `runs` says so. Between marks on runways a tape lies on their tops,
//! or is read along a slope that the plan's steps tell.
//! Limit: [`TAPE_READS_MM`], common practice, no source. It needs care: over a plank on either side, or held up, it is level.

use baywright_geometry::marks::{Construction, Tool};
use baywright_geometry::{DVec2, Outline, PlanPose, Polygon, Prism, Segment, Span, hull};

use super::claim::{Bars, Claim, GOES_OVER_MM, Volume, lies_under_a_tape};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, finding, thing_subject};
use crate::model::Arrangement;
use crate::scene::{PlacedRun, Scene};

/// A steel tape is read to a millimetre, so that half of one shows (common practice, no source).
const TAPE_READS_MM: f64 = 0.5;
/// What lies so far beside a tape is not under it, mm: half a tape's width (common practice, no source).
const BESIDE_MM: f64 = 10.0;

pub(super) const CHECK: Check =
    Check { codes: &[Code::TapeOver], things, whole, claims, remedy, ..Check::NONE };

/// A ridge stays where it is.
fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

/// Out from under the whole of every tape: at its ends even what is low lengthens it, and where it would not nobody reckons.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    let Ok(span) = Span::new(0.0, GOES_OVER_MM) else { return };
    claims.extend(scene.runs.iter().filter_map(|placed| {
        let (mark, line) = taped(arrangement, scene, placed)?;
        let aside = (line.to - line.from).normalize_or_zero().perp() * BESIDE_MM;
        let corners = vec![line.from - aside, line.to - aside, line.to + aside, line.from + aside];
        let strip = Prism::new(Polygon::simple(corners).ok()?.into(), span);
        Some(Claim::new(mark, Volume::Prism(strip), Bars::Low))
    }));
}

/// One thing that is tried elsewhere, by itself; where all is looked at, all that lies under a tape lengthens it together.
fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !context.is_whole() {
        whole(context, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let things = context.things().filter(|seen| lies_under_a_tape(&seen.placed.prism.span));
    let things = things.map(|seen| (thing_subject(&seen.thing.id), seen.placed.prism.clone()));
    let proud = context.proud_features().filter(|(_, own)| lies_under_a_tape(&own.span));
    let low: Vec<(Subject, Prism)> = proud.chain(things).collect();
    if low.is_empty() {
        return;
    }
    for placed in &context.scene.runs {
        let Some((mark, line)) = taped(context.arrangement, context.scene, placed) else { continue };
        let over = low.iter().filter_map(|(subject, prism)| Some((subject, profile(prism, &line)?)));
        let over: Vec<(&Subject, [DVec2; 2])> = over.collect();
        // A mark that lies on it is as high: up to there no tape goes.
        let rises = |is_end: fn(&[DVec2; 2], f64) -> bool| {
            let ends = over.iter().filter(|(_, edges)| is_end(edges, line.length()));
            ends.map(|(_, edges)| edges[0].y).fold(0.0, f64::max)
        };
        let rise = rises(|edges, _| edges[0].x <= 0.0) + rises(|edges, length| edges[1].x >= length);
        let longer = taut(line.length(), over.iter().flat_map(|(_, edges)| *edges)) - line.length() - rise;
        let highest = over.iter().max_by(|(_, a), (_, b)| a[0].y.total_cmp(&b[0].y));
        let Some((ridge, edges)) = highest.filter(|_| longer > TAPE_READS_MM) else { continue };
        let subjects = vec![(*ridge).clone(), mark];
        let share = (edges[0].x + edges[1].x) * 0.5 / line.length();
        let found = finding(
            Facts::TapeOver,
            Severity::Care,
            subjects,
            line.at(share).extend(0.0),
            Basis::CommonPractice,
        );
        let found = found.against(Quantity::Length(longer), Quantity::Length(TAPE_READS_MM));
        let is_said = |f: &&mut Finding| f.code() == Code::TapeOver && f.subjects == found.subjects;
        match findings.iter_mut().find(is_said) {
            // Of several tapes to one mark the one that is lengthened most is told.
            Some(Finding { measured: Some(Quantity::Length(said)), .. }) if *said >= longer => {}
            Some(said) => *said = found,
            None => findings.push(found),
        }
    }
}

/// What of a run a tape is laid along, on the floor: of a line of light that is prolonged, what lies beyond the mark that it
/// passes last.
fn taped(arrangement: &Arrangement, scene: &Scene, placed: &PlacedRun) -> Option<(Subject, Segment)> {
    let construction = arrangement.aiming.mark_plan.get(placed.mark)?.construction;
    let marks = &scene.marks;
    let mark = marks.get(placed.mark)?;
    let run = Segment::new(placed.run.from, placed.run.to);
    let line = match construction {
        Construction::Prolong { through, .. } => Segment::new(marks.get(through)?.at.ok()?, mark.at.ok()?),
        _ if matches!(placed.run.tool, Tool::Tape | Tool::TapeAndSquare) => run,
        _ => return None,
    };
    let is_level = placed.lies_mm.iter().all(|lies| *lies <= 0.0);
    (is_level && line.length() > 0.0).then(|| (Subject::Mark(mark.id.clone()), line))
}

/// Where a line goes onto something and off it, as far along it as x and as high as y; `None` if it passes beside.
fn profile(over: &Prism, line: &Segment) -> Option<[DVec2; 2]> {
    let along = (line.to - line.from).normalize_or_zero();
    let (on, off) = match &over.outline {
        Outline::Circle(disc) => disc.between_from(&PlanPose::facing(line.from, line.to).inverse(), 0.0, 0.0),
        Outline::Polygon(ring) => {
            let crossed = ring.edges().filter_map(|edge| {
                let (a, b) = ((edge.from - line.from).perp_dot(along), (edge.to - line.from).perp_dot(along));
                // From one side of the line to the other.
                ((a < 0.0) != (b < 0.0)).then(|| (edge.at(a / (a - b)) - line.from).dot(along))
            });
            crossed.map(|at| (at, at)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
        }
    }?;
    let (on, off) = (on.max(0.0), off.min(line.length()));
    let top = over.span.top();
    (off > on).then(|| [DVec2::new(on, top), DVec2::new(off, top)])
}

/// How long a taut tape is from the floor at one end to the floor at the other over all these, each as far along it as x and as
/// high as y, mm: their hull's way round, without the floor.
fn taut(length: f64, over: impl Iterator<Item = DVec2>) -> f64 {
    let points: Vec<DVec2> = over.chain([DVec2::ZERO, DVec2::new(length, 0.0)]).collect();
    hull(&points).map_or(length, |hull| hull.edges().map(|edge| edge.length()).sum::<f64>() - length)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The lines from the rear spots through the front ones, at (4000, 4020) and (4000, 1980), are prolonged by 4800 mm.
    fn ridge(x: (f64, f64), y: (f64, f64), proud_mm: f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        let (id, kind, material) = ("ridge".into(), FloorFeatureKind::Joint, Material::Concrete);
        let outline = rectangle((x.0, y.0), (x.1, y.1));
        arrangement.bay.floor_features = vec![FloorFeature { id, kind, outline, material, proud_mm }];
        arrangement
    }

    #[test]
    fn a_ridge_under_a_tape() {
        // 20 mm high, from 100 to 200 mm past the spot.
        let near = ridge((4_100.0, 4_200.0), (3_000.0, 5_000.0), 20.0);
        let longer = 100.0_f64.hypot(20.0) + 4_600.0_f64.hypot(20.0) + 100.0 - 4_800.0;
        let found = check(&near, Code::TapeOver, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - longer).abs() < 1e-6, "{found:?} {longer}");
        assert_eq!(found.subjects, [Subject::FloorFeature("ridge".into()), Subject::Mark("5".into())]);
        let line = words::Words::new(&near, words::Locale::default()).line(&found);
        assert!(line.starts_with("Ridge lies under the tape to mark 5: lengthens it by 2 mm"), "{line}");
        // In the middle of so long a run it is nothing that a tape shows; nor is it where it is low, or beside.
        none(&ridge((6_400.0, 6_500.0), (3_000.0, 5_000.0), 20.0), Code::TapeOver);
        none(&ridge((4_100.0, 4_200.0), (3_000.0, 5_000.0), 9.0), Code::TapeOver);
        none(&ridge((4_100.0, 4_200.0), (4_100.0, 5_000.0), 20.0), Code::TapeOver);
        // Where the spot itself lies on it the tape begins as high, and in 4800 mm that is nothing.
        none(&ridge((3_900.0, 4_200.0), (3_000.0, 5_000.0), 20.0), Code::TapeOver);
        // Before the spot no tape lies, and over 20 mm none goes.
        none(&ridge((3_700.0, 3_900.0), (4_000.0, 5_000.0), 20.0), Code::TapeOver);
        none(&ridge((4_100.0, 4_200.0), (3_000.0, 5_000.0), 21.0), Code::TapeOver);
    }

    /// What lies on the floor lengthens it as the floor itself does: a strip, and a round cover by the chord under the tape.
    #[test]
    fn a_cable_cover_under_a_tape() {
        let lying = |footprint: Shape, x: f64| {
            let mut cover = cabinet("cover", (x, 4_020.0), 100.0, 600.0);
            cover.footprint = Footprint::new(footprint).unwrap();
            (cover.span, cover.material, cover.metal) =
                (span(0.0, 18.0), Material::Plastic, Some(Metal::None));
            let mut arrangement = with(vec![cover]);
            arrangement.aiming.zones[0].excludes = Exclusion::Light;
            arrangement
        };
        let strip = lying(Shape::Rectangle { length_mm: 100.0, width_mm: 600.0 }, 4_150.0);
        let longer = 100.0_f64.hypot(18.0) + 4_600.0_f64.hypot(18.0) + 100.0 - 4_800.0;
        let found = check(&strip, Code::TapeOver, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - longer).abs() < 1e-6, "{found:?} {longer}");
        assert_eq!(found.subjects, [Subject::Thing("cover".into()), Subject::Mark("5".into())]);
        assert_eq!(assess(&strip).verdict, Verdict::ReadyWithCare);
        let round = lying(Shape::Round { diameter_mm: 100.0 }, 4_150.0);
        let found = check(&round, Code::TapeOver, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - longer).abs() < 1e-6, "{found:?} {longer}");
        none(&lying(Shape::Rectangle { length_mm: 100.0, width_mm: 600.0 }, 6_400.0), Code::TapeOver);
        // What can be moved goes out from under every tape: back past the spot is the shortest way of the strip.
        let cured = check(&strip, Code::TapeOver, Severity::Care, None).cure.unwrap();
        let (Step::MoveThing { thing, by }, true) = (&cured.step, cured.causes.is_empty()) else {
            panic!("{cured:?}")
        };
        assert_eq!(*thing, "cover".into());
        assert!(by.length() < 320.0, "{by}");
        let after = assess(&crate::cure::apply(&strip, &cured.step));
        assert_eq!(after.verdict, Verdict::Ready, "{:?}", after.findings);
        let mut fixed = strip.clone();
        fixed.bay.things[0].effort = Effort::Fixed;
        assert_eq!(check(&fixed, Code::TapeOver, Severity::Care, None).cure, None);
    }

    /// Two ridges near the two ends lengthen it together: by 0.4 and 0.5 mm.
    #[test]
    fn what_is_under_it_adds_up() {
        let one = ridge((4_500.0, 4_550.0), (3_900.0, 5_000.0), 20.0);
        none(&one, Code::TapeOver);
        let mut both = one;
        let second = ridge((8_350.0, 8_400.0), (3_900.0, 5_000.0), 20.0).bay.floor_features.remove(0);
        both.bay.floor_features.push(FloorFeature { id: "second ridge".into(), ..second });
        let longer = 500.0_f64.hypot(20.0) + 400.0_f64.hypot(20.0) - 900.0;
        let found = check(&both, Code::TapeOver, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - longer).abs() < 1e-6, "{found:?} {longer}");
    }

    /// A mark 600 mm from mark 3 and 2 107 mm from mark 4 by two tapes over one ridge: the shorter one, which comes second, is
    /// lengthened most, by 2.5 mm, and that is told.
    #[test]
    fn of_two_tapes_to_one_mark_the_one_that_is_lengthened_most_is_told() {
        let mut arrangement = ridge((4_100.0, 4_200.0), (1_000.0, 5_000.0), 20.0);
        let at = DVec2::new(4_600.0, 4_000.0);
        let [third, fourth] = [DVec2::new(4_000.0, 4_020.0), DVec2::new(4_000.0, 1_980.0)];
        arrangement.aiming.mark_plan[6].construction = Construction::TwoDistances {
            first: 3,
            from_first: at.distance(fourth),
            second: 2,
            from_second: at.distance(third),
            side: baywright_geometry::marks::WhichSide::Right,
        };
        let all = assess(&arrangement).findings;
        let told: Vec<&Finding> = all
            .iter()
            .filter(|own| own.code() == Code::TapeOver && own.subjects[1] == Subject::Mark("T".into()))
            .collect();
        assert_eq!(told.len(), 1, "{told:?}");
        let long = at.distance(third);
        let [on, off] = [100.0, 200.0].map(|x| x / 600.0 * long);
        let longer = on.hypot(20.0) + (long - off).hypot(20.0) + off - on - long;
        assert!((number(told[0].measured.unwrap()) - longer).abs() < 1e-6, "{told:?} {longer}");
    }
}
