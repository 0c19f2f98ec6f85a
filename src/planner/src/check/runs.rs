//! Straight tape and laser runs between marks.
//!
//! Rule: nothing stands in a run at its height, and it passes through no wall; over an open pit it needs care. A tape lies on
//! the floor; a line laser lights the floor from a low tripod. The car's own tyres are in the way too, where they stand on
//! the ground, and so is a runway that carries the car where both marks lie on the floor beside it.
//! Limit: see [`top_of_run`].

use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::marks::Tool;
use baywright_geometry::predicate::{Meeting, meeting};
use baywright_geometry::{Bounds, DVec2, Prism, Segment, passes_through};

use super::claim::{Claim, Volume, is_in_run};
use super::finding::{Basis, Code, Facts, Finding, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, thing_subject, wall_id};
use crate::model::{Arrangement, Id};
use crate::scene::{PlacedMark, PlacedRun, Scene, is_beside};

/// How high above the floor a run must be free: a tape lies flat (20 mm over a joint or a cable); a line laser on a low
/// tripod lights the floor from 100 mm (common practice, no source).
const fn top_of_run(tool: Tool) -> f64 {
    match tool {
        Tool::PlumbLine | Tool::Tape | Tool::TapeAndSquare => 20.0,
        Tool::LineLaser => 100.0,
    }
}

pub(super) const CHECK: Check =
    Check { codes: &[Code::RunBlocked], things, whole, claims, remedy: Remedy::of_obstacle, ..Check::NONE };

/// Nothing low may stand in a run.
fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(scene.runs.iter().filter_map(|placed| {
        let line = Segment::new(placed.run.from, placed.run.to);
        let volume = Volume::Line { line, free: placed.free(top_of_run(placed.run.tool))? };
        let of = Subject::Mark(scene.marks.get(placed.mark)?.id.clone());
        Some(Claim::with_car(of, volume, Code::RunBlocked, Severity::Stops))
    }));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for placed in &context.scene.runs {
        let segment = Segment::new(placed.run.from, placed.run.to);
        let Some(bounds) = Bounds::around([segment.from, segment.to]) else { continue };
        let Some(free) = placed.free(top_of_run(placed.run.tool)) else { continue };
        for seen in context.things_near(bounds) {
            let prism = &seen.placed.prism;
            if is_in_run(&prism.span, &free)
                && distance_to_segment(&prism.outline, &segment) == Separation::Overlapping
            {
                let nearest = segment.nearest(seen.placed.bounds.centre());
                blocked(context, thing_subject(&seen.thing.id), placed, nearest, findings);
            }
        }
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for placed in &context.scene.runs {
        through_the_rest(context, placed, &Segment::new(placed.run.from, placed.run.to), findings);
    }
    findings.extend(context.pits().filter_map(|(pit, hole)| over_pit(context, pit, &hole)));
}

/// All runs over one open pit: who covers it has settled them. A tape is held over it, and a line of light caught on a lath.
fn over_pit(context: &Context<'_>, pit: Subject, hole: &Prism) -> Option<Finding> {
    let of = |placed: &PlacedRun| Segment::new(placed.run.from, placed.run.to);
    let is_over =
        |placed: &&PlacedRun| distance_to_segment(&hole.outline, &of(placed)) == Separation::Overlapping;
    let over: Vec<&PlacedRun> = context.scene.runs.iter().filter(is_over).collect();
    let at = of(over.first()?).nearest(hole.outline.bounds().centre());
    let mut subjects = vec![pit];
    for placed in over {
        let (from, to) = ends(context, placed);
        let run = Subject::Run(from, to);
        if !subjects.contains(&run) {
            subjects.push(run);
        }
    }
    Some(finding(Facts::RunBlocked, Severity::Care, subjects, at.extend(0.0), Basis::CommonPractice))
}

/// Runways that carry no car, or carry it between two marks on the floor, the car's own tyres, and walls.
fn through_the_rest(context: &Context<'_>, placed: &PlacedRun, run: &Segment, findings: &mut Vec<Finding>) {
    let Some(free) = placed.free(top_of_run(placed.run.tool)) else { return };
    let beside = |prism: &Prism| is_beside(&prism.outline.as_polygon(), run);
    let carrying = context.carrying_steel().filter(|(_, prism)| beside(prism));
    for (subject, prism) in context.fixtures().chain(carrying).filter(|(_, own)| is_in_run(&own.span, &free))
    {
        if distance_to_segment(&prism.outline, run) == Separation::Overlapping {
            blocked(context, subject, placed, run.nearest(prism.outline.bounds().centre()), findings);
        }
    }
    for tread in &context.scene.treads {
        if passes_through(tread, run) {
            blocked(context, Subject::Car, placed, tread.bounds().centre(), findings);
        }
    }
    // A mark outside the room is that mark's own finding; a corner of a way outside is none's but the run's.
    let outside: Vec<DVec2> =
        [run.from, run.to].into_iter().filter(|&end| !context.scene.on_floor(end)).collect();
    let is_mark = |p: DVec2| context.scene.marks.iter().any(|mark| lies_at(mark, p));
    if let Some(&corner) = outside.iter().find(|&&end| !is_mark(end)) {
        blocked(context, super::outside_room::barrier(context, corner), placed, corner, findings);
    }
    if !outside.is_empty() {
        return;
    }
    for (edge, wall) in context.scene.room.walls().edges().enumerate() {
        if meeting(run, &wall) == Meeting::Cross && !through_open_door(context, edge, run, &wall) {
            let Some(id) = wall_id(context.arrangement, edge) else { continue };
            blocked(context, Subject::Wall(id.into_owned()), placed, crossing(run, &wall), findings);
        }
    }
}

/// Whether a run crosses a wall where a door stands open down to the floor.
fn through_open_door(context: &Context<'_>, edge: usize, run: &Segment, wall: &Segment) -> bool {
    let abreast = wall.from.distance(crossing(run, wall));
    context.arrangement.bay.openings.iter().any(|door| {
        door.wall == edge
            && door.is_open()
            && door.span.bottom() <= 0.0
            && (door.from_mm..=door.from_mm + door.width_mm).contains(&abreast)
    })
}

/// Where two segments that cross do so.
fn crossing(p: &Segment, q: &Segment) -> DVec2 {
    let (along, other) = (p.to - p.from, q.to - q.from);
    let across = along.perp_dot(other);
    if across == 0.0 { p.at(0.5) } else { p.at((q.from - p.from).perp_dot(other) / across) }
}

fn blocked(context: &Context<'_>, by: Subject, placed: &PlacedRun, at: DVec2, findings: &mut Vec<Finding>) {
    let (from, to) = ends(context, placed);
    let subjects = vec![by, Subject::Run(from, to)];
    // Two runs of one step may share their ends.
    if findings.iter().any(|f| f.code() == Code::RunBlocked && f.subjects == subjects) {
        return;
    }
    findings.push(finding(
        Facts::RunBlocked,
        Severity::Stops,
        subjects,
        at.extend(0.0),
        Basis::CommonPractice,
    ));
}

/// Whether a mark lies there, but for rounding: the corner of a way, worked out, is not a mark to the last bit.
fn lies_at(mark: &PlacedMark, p: DVec2) -> bool {
    mark.at.is_ok_and(|at| at.distance(p) < SPEAKS_FROM_MM)
}

/// The marks at the two ends of a run: of those that its step uses, or its own. Another mark may lie in the same place. A leg
/// that ends at a corner, where no mark is, is named by the mark where the step starts, or by its own.
fn ends(context: &Context<'_>, placed: &PlacedRun) -> (Id, Id) {
    let steps = &context.arrangement.aiming.mark_plan;
    let uses = steps.get(placed.mark).map(|step| step.construction.uses()).unwrap_or_default();
    let marks = || std::iter::once(placed.mark).chain(uses.iter().copied());
    let named = |p: DVec2, or: usize| {
        let marks = marks().filter_map(|step| context.scene.marks.get(step));
        let there = marks.filter(|mark| lies_at(mark, p)).map(|mark| mark.id.clone()).next();
        there.or_else(|| steps.get(or).map(|step| step.id.clone())).unwrap_or_else(|| Id::from(""))
    };
    (named(placed.run.from, *uses.first().unwrap_or(&placed.mark)), named(placed.run.to, placed.mark))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The foot of a perpendicular may fall on another mark: the run is named by the marks of its own step.
    #[test]
    fn a_run_is_named_by_its_own_marks() {
        // W under the front left tyre; X where the diagonals cross; M between the front spots, where the foot D falls too.
        let mut arrangement = with(vec![cabinet("drum", (3_400.0, 3_000.0), 300.0, 300.0)]);
        let step = |id: &str, construction| MarkStep { id: id.into(), construction };
        let plan = &mut arrangement.aiming.mark_plan;
        plan.truncate(4);
        plan.extend([
            step("W", Construction::WheelPoint { wheel: Wheel::FrontLeft }),
            step("X", Construction::Crossing { first: (2, 1), second: (3, 0) }),
            step("M", Construction::Middle { first: 2, second: 3 }),
            step("D", Construction::Foot { of: 4, from: 5, to: 6 }),
        ]);
        arrangement.aiming.placements[0].mark = None;
        let assessment = assess(&arrangement);
        let runs: Vec<_> = of(&assessment, Code::RunBlocked).iter().map(|f| f.subjects.clone()).collect();
        let of_the_foot = [Subject::Thing("drum".into()), Subject::Run("X".into(), "D".into())];
        assert!(runs.iter().any(|subjects| *subjects == of_the_foot), "{runs:?}");
        assert!(
            !runs.iter().any(|subjects| subjects.contains(&Subject::Run("X".into(), "M".into()))),
            "{runs:?}"
        );
    }

    /// The corner of a way along and aside lies on mark 5, 4800 mm ahead of mark 3. However the bay lies, the second leg, in which
    /// the drum stands, is named by it.
    #[test]
    fn a_corner_on_a_mark_is_named_by_it_however_the_bay_lies() {
        for degrees in 0..90 {
            let turn = PlanPose::new(DVec2::new(123.0, -4_567.0), angle::radians(f64::from(degrees) + 0.3));
            let mut arrangement = with(vec![cabinet("drum", (8_800.0, 4_620.0), 100.0, 100.0)]);
            let step = Construction::AlongAside { from: 2, to: 4, along: 4_800.0, aside: 1_000.0 };
            arrangement.aiming.mark_plan.push(MarkStep { id: "S".into(), construction: step });
            arrangement.parked = turn * arrangement.parked;
            arrangement.bay.room = arrangement.bay.room.placed(&turn);
            let drum = &mut arrangement.bay.things[0].place;
            drum.at = turn * drum.at;
            let assessment = assess(&arrangement);
            let runs: Vec<_> = of(&assessment, Code::RunBlocked).iter().map(|f| f.subjects.clone()).collect();
            let expected = [Subject::Thing("drum".into()), Subject::Run("5".into(), "S".into())];
            assert!(runs.iter().any(|subjects| *subjects == expected), "{degrees}: {runs:?}");
        }
    }

    /// 600 mm ahead of the front left spot and 1000 mm to its left: along the line, then square to it. What stands between
    /// the two ends is in no way; what stands on either leg is.
    #[test]
    fn along_and_aside_are_two_legs() {
        let mut arrangement = clear();
        let step = Construction::AlongAside { from: 2, to: 4, along: 600.0, aside: 1_000.0 };
        arrangement.aiming.mark_plan.push(MarkStep { id: "S".into(), construction: step });
        // Mark 3 at (4000, 4020): the corner at (4600, 4020), S at (4600, 5020).
        let drum = |at| {
            let mut own = arrangement.clone();
            own.bay.things = vec![cabinet("drum", at, 100.0, 100.0)];
            own
        };
        let own_run = |found: &&Finding| found.subjects[1] == Subject::Run("3".into(), "S".into());
        let count = |at| of(&assess(&drum(at)), Code::RunBlocked).into_iter().filter(own_run).count();
        assert_eq!(count((4_300.0, 4_520.0)), 0, "the diagonal");
        assert_eq!(count((4_300.0, 4_020.0)), 1, "along");
        assert_eq!(count((4_600.0, 4_520.0)), 1, "square");
    }
    /// Marks 1 and 2 lie on the floor, 1020 mm left and right of a platform's middle that carries the car: what lies between them
    /// is steel, and no tape reads that distance. From mark to mark on the platform nothing is in the way.
    #[test]
    fn a_run_through_what_carries_the_car() {
        let platform = |half_width: f64| {
            let mut arrangement = clear();
            arrangement.bay.runways = vec![Runway {
                id: "platform".into(),
                outline: rectangle((500.0, 3_000.0 - half_width), (5_000.0, 3_000.0 + half_width)),
                top_mm: 150.0,
                survey: None,
            }];
            arrangement.on_runways = vec!["platform".into()];
            let across = Construction::Prolong { from: 0, through: 1, reach: Reach::Length(500.0) };
            arrangement.aiming.mark_plan.push(MarkStep { id: "S".into(), construction: across });
            arrangement
        };
        let assessment = assess(&platform(1_000.0));
        // Its own rear tyres are in that run too.
        let through_it = |of_all: &crate::Assessment| {
            let blocked = of(of_all, Code::RunBlocked);
            blocked.iter().any(|own| own.subjects[0] == Subject::Runway("platform".into()))
        };
        assert!(through_it(&assessment));
        let is_read = |of: &crate::Assessment, from: &str, to: &str| {
            of.scene.readings.iter().any(|own| own.from == from.into() && own.to == to.into())
        };
        // Mark 4 lies beside the front right tyre, mark 5 ahead on the left: between them the corner of the platform.
        assert!(!is_read(&assessment, "4", "5") && is_read(&assessment, "3", "5"));
        // On a platform of 150 mm mark 3 lies 150 mm higher than mark 5, 4800 mm on: a tape reads the slope, and is said to.
        let higher = platform(1_600.0);
        let scene = assess(&higher).scene;
        let read = |from: &str, to: &str| {
            let own = scene.readings.iter().find(|own| own.from == from.into() && own.to == to.into());
            own.unwrap().distance_mm
        };
        assert!((read("3", "5") - 4_800.0_f64.hypot(150.0)).abs() < 1e-9);
        assert!((read("1", "3") - 2_600.0).abs() < 1e-9);
        let words = words::Words::new(&higher, words::Locale::default());
        let slope = "One end lies 150 mm higher: hold the tape level there and plumb down; along the slope it reads 4\u{202f}802 mm.";
        assert!(words.instruction(4, &scene).ends_with(slope), "{}", words.instruction(4, &scene));
        assert!(!words.instruction(2, &scene).contains("higher"));
        let on_it = assess(&platform(1_600.0));
        assert!(!through_it(&on_it));
    }

    /// What lies under the floor, or is as low as a cable, is in no run: as a thing no more than as a lip.
    #[test]
    fn a_tape_goes_over_what_is_low() {
        let at = |bottom: f64, top: f64| {
            let mut arrangement = with(vec![cabinet("cover", (4_800.0, 4_020.0), 100.0, 100.0)]);
            arrangement.bay.things[0].span = span(bottom, top);
            of(&assess(&arrangement), Code::RunBlocked).len()
        };
        assert_eq!(at(-1_000.0, -100.0), 0);
        assert_eq!(at(0.0, 20.0), 0);
        assert!(at(0.0, 20.1) > 0);
    }
}
