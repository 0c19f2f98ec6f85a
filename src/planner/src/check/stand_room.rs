//! Room to step up to a target and to stand beside it.
//!
//! Rule: who sets a target carries its stand there from the car, puts it on its mark, turns and tips it at the mast and reads tape
//! and level at its face. For that a person steps up to its front, as wide as target and stand, and stands on one of its
//! sides, or behind it, whichever has most room: a target whose back is to a wall, because the stand-off puts it there, is set from
//! its front and one side. A side counts only if one gets to it past a corner: it is free as far on past the front or past the back;
//! behind is free as far on past one side. In the way are things that a person cannot step over or duck under, walls, idle
//! runways and open pits. The car, what carries it and targets that stand at the same time are as near as the aiming puts them. A
//! mat lies on the floor and is reached from everywhere.
//! Limit: the shop's own `stand_room_mm`.

use std::cmp::Ordering;

use baywright_geometry::{Bounds, Circle, DVec2, Outline, PlanPose, Segment, Span};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding, outside_room, thing_subject, wall_id};
use crate::model::ShopFigure;
use crate::scene::{PlacedTarget, placed_rectangle};

pub(super) const CHECK: Check = Check { codes: &[Code::StandRoom], whole, ..Check::NONE };

/// Where room is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StandSide {
    /// Before the face.
    Front,
    /// On either side and behind.
    Beside,
}

/// Something of the room that nobody walks through.
struct Obstacle {
    subject: Subject,
    outline: Sides,
}

/// What it shows in plan: a round one is round whichever way the bay lies.
enum Sides {
    Straight(Vec<Segment>),
    Round(Circle),
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let shop = &context.arrangement.shop;
    let Ok(walking) = Span::new(shop.step_over_mm, shop.duck_under_mm) else { return };
    let upright = context.scene.targets.iter().filter(|target| !target.lies);
    let around: Vec<(&PlacedTarget, Bounds)> = upright.filter_map(|own| Some((own, around(own)?))).collect();
    let near = around.iter().map(|(own, place)| seen_from(place, &own.set.place)).reduce(Bounds::union);
    let Some(near) = near else { return };
    let obstacles = obstacles(context, &walking, near.grown(2.0 * shop.stand_room_mm));
    for (target, place) in around {
        of_target(context, target, &place, &obstacles, findings);
    }
}

/// Where a person steps up to a target that stands, as far as the rule wants it; `None` of one that lies.
pub(super) fn before(context: &Context<'_>, target: &PlacedTarget) -> Option<Outline> {
    let Bounds { low, high } = around(target).filter(|_| !target.lies)?;
    let far = DVec2::new(high.x + context.arrangement.shop.stand_room_mm, high.y);
    placed_rectangle(DVec2::new(high.x, low.y), far, &target.set.place)
}

/// What a target and its stand take, in the target's frame.
fn around(target: &PlacedTarget) -> Option<Bounds> {
    let own_from_bay = target.set.place.inverse();
    target.solids.iter().map(|solid| solid.outline.bounds_from(&own_from_bay)).reduce(Bounds::union)
}

/// A box around a box in another frame, along that one's axes.
fn seen_from(place: &Bounds, to_from_own: &PlanPose) -> Bounds {
    let Bounds { low, high } = *place;
    let corners = [low, high, DVec2::new(low.x, high.y), DVec2::new(high.x, low.y)];
    Bounds::around(corners.map(|corner| *to_from_own * corner)).unwrap_or(*place)
}

fn obstacles(context: &Context<'_>, walking: &Span, near: Bounds) -> Vec<Obstacle> {
    let sides = |outline: &Outline| match outline {
        Outline::Polygon(polygon) => Sides::Straight(polygon.edges().collect()),
        Outline::Circle(circle) => Sides::Round(*circle),
    };
    let things = context.things_near(near).filter(|seen| seen.placed.prism.span.shared(walking).is_some());
    let things = things.map(|seen| Obstacle {
        subject: thing_subject(&seen.thing.id),
        outline: sides(&seen.placed.prism.outline),
    });
    let fixtures = context.fixtures().filter(|(_, own)| own.span.shared(walking).is_some());
    let built = fixtures.chain(context.pits()).filter(|(_, own)| own.outline.bounds().meets(&near));
    let built = built.map(|(subject, own)| Obstacle { subject, outline: sides(&own.outline) });
    let walls = (0..context.arrangement.bay.walls.len()).filter_map(|edge| {
        let subject = Subject::Wall(wall_id(context.arrangement, edge)?.into_owned());
        // One can walk through an open door.
        Some(Obstacle { subject, outline: Sides::Straight(context.scene.room.wall_at(edge, walking)) })
    });
    things.chain(built).chain(walls).collect()
}

/// How far it is free from one side of a target outwards, mm, and what ends that.
struct Free<'a> {
    mm: f64,
    until: Option<&'a Subject>,
}

impl Free<'_> {
    /// How this one compares: what is less than is spoken of is the same, and then the name decides, so that it is the same however
    /// the things are listed and the bay lies.
    fn compared(&self, other: &Self) -> Ordering {
        let whole = |own: &Self| (own.mm / SPEAKS_FROM_MM).round();
        whole(self).total_cmp(&whole(other))
    }

    fn or_nearer(self, other: Self) -> Self {
        match self.compared(&other).then_with(|| self.until.cmp(&other.until)) {
            Ordering::Greater => other,
            Ordering::Less | Ordering::Equal => self,
        }
    }

    fn or_wider(self, other: Self) -> Self {
        match self.compared(&other).then_with(|| other.until.cmp(&self.until)) {
            Ordering::Less => other,
            Ordering::Greater | Ordering::Equal => self,
        }
    }
}

fn of_target(
    context: &Context<'_>,
    target: &PlacedTarget,
    place: &Bounds,
    obstacles: &[Obstacle],
    findings: &mut Vec<Finding>,
) {
    let wants = context.arrangement.shop.stand_room_mm;
    let strip = |towards: DVec2, past: f64| free(target, place, towards, past, obstacles);
    // On the one or the other way past its corner.
    let past_a_corner = |towards: DVec2| strip(towards, wants).or_wider(strip(towards, -wants));
    let front = strip(DVec2::X, 0.0);
    let beside = [DVec2::Y, DVec2::NEG_Y, DVec2::NEG_X].map(past_a_corner);
    let beside = beside.into_iter().reduce(Free::or_wider);
    for (side, free) in [(StandSide::Front, Some(front)), (StandSide::Beside, beside)] {
        let Some(Free { mm, until: Some(until) }) = free else { continue };
        // Of one that stands through a wall that is said.
        if mm >= wants - SPEAKS_FROM_MM || !outside_room::passed(context, &target.solids).is_empty() {
            continue;
        }
        let subjects = vec![Subject::Stand(target.id.clone()), until.clone()];
        let basis = Basis::Shop(ShopFigure::StandRoom);
        let at = target.set.place.origin().extend(0.0);
        let found = finding(Facts::StandRoom(side), Severity::Care, subjects, at, basis);
        findings.push(found.against(Quantity::Length(mm), Quantity::Length(wants)));
    }
}

/// How far it is free from the side of a target that looks `towards` a direction of its own frame, over the length of that side
/// and so much `past_mm` its left end (negative: its right one).
fn free<'a>(
    target: &PlacedTarget,
    place: &Bounds,
    towards: DVec2,
    past_mm: f64,
    obstacles: &'a [Obstacle],
) -> Free<'a> {
    let strip_from_target = PlanPose::facing(DVec2::ZERO, towards).inverse();
    let strip_from_bay = strip_from_target * target.set.place.inverse();
    let side = seen_from(place, &strip_from_target);
    let (from, to) = (side.low.y + past_mm.min(0.0), side.high.y + past_mm.max(0.0));
    let mut nearest = Free { mm: f64::INFINITY, until: None };
    for own in obstacles {
        let reach = match &own.outline {
            Sides::Straight(edges) => {
                let ends = |edge: &Segment| (strip_from_bay * edge.from, strip_from_bay * edge.to);
                let reach = edges.iter().filter_map(|edge| between(ends(edge), from, to));
                reach.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
            }
            Sides::Round(circle) => {
                let within = circle.between_from(&strip_from_bay, from + SPEAKS_FROM_MM, to - SPEAKS_FROM_MM);
                within.and_then(|_| circle.between_from(&strip_from_bay, from, to))
            }
        };
        let Some((near, _)) = reach.filter(|(_, far)| *far > side.high.x + SPEAKS_FROM_MM) else { continue };
        let mm = (near - side.high.x).max(0.0);
        nearest = nearest.or_nearer(Free { mm, until: Some(&own.subject) });
    }
    nearest
}

/// How near and how far a stretch is, along x, where it lies between two lines along x; `None` if it does not, or only touches.
fn between((from, to): (DVec2, DVec2), low: f64, high: f64) -> Option<(f64, f64)> {
    let (below, above) = if from.y <= to.y { (from, to) } else { (to, from) };
    if above.y <= low + SPEAKS_FROM_MM || below.y >= high - SPEAKS_FROM_MM {
        return None;
    }
    let rise = above.y - below.y;
    let at = |y: f64| if rise > 0.0 { below.x + (above.x - below.x) * (y - below.y) / rise } else { below.x };
    let ends = match rise > 0.0 {
        true => (at(below.y.max(low)), at(above.y.min(high))),
        false => (below.x, above.x),
    };
    Some((ends.0.min(ends.1), ends.0.max(ends.1)))
}

#[cfg(test)]
mod tests {
    use super::StandSide;
    use crate::check::testing::*;

    fn wooden(name: &str, at: (f64, f64), length: f64, width: f64) -> Thing {
        Thing { material: Material::Wood, ..cabinet(name, at, length, width) }
    }

    /// Target and stand reach from x = 8800 to 9300, 300 mm to either side of y = 3000. A bench 400 mm before the face.
    #[test]
    fn nobody_steps_up_to_it() {
        let mut bench = wooden("bench", (8_300.0, 3_000.0), 200.0, 400.0);
        bench.span = span(0.0, 251.0);
        let arrangement = with(vec![bench.clone()]);
        let found = check(&arrangement, Code::StandRoom, Severity::Care, Some(400.0));
        assert_eq!(found.facts, Facts::StandRoom(StandSide::Front));
        assert_eq!(found.subjects, [Subject::Stand("ahead".into()), Subject::Thing("bench".into())]);
        assert_eq!(found.limit, Some(Quantity::Length(600.0)));
        let words = words::Words::new(&arrangement, words::Locale::default()).title(&found);
        assert_eq!(words, "Little room before the target stand");
        // One steps over it, or past it.
        bench.span = span(0.0, 250.0);
        none(&with(vec![bench.clone()]), Code::StandRoom);
        bench.span = span(0.0, 251.0);
        bench.place.at = PlanPose::new(DVec2::new(8_300.0, 3_500.0), 0.0);
        none(&with(vec![bench.clone()]), Code::StandRoom);
        bench.place.at = PlanPose::new(DVec2::new(8_100.0, 3_000.0), 0.0);
        none(&with(vec![bench]), Code::StandRoom);
    }

    /// Shelves along both sides, 400 and 350 mm away, from x = 8000 to 10 000: behind the target one comes to nowhere.
    #[test]
    fn between_two_shelves() {
        let shelves = |length: f64| {
            let middle = 8_000.0 + length * 0.5;
            with(vec![
                wooden("left shelf", (middle, 3_850.0), length, 300.0),
                wooden("right shelf", (middle, 2_175.0), length, 350.0),
            ])
        };
        let found = check(&shelves(2_000.0), Code::StandRoom, Severity::Care, Some(400.0));
        assert_eq!(found.facts, Facts::StandRoom(StandSide::Beside));
        assert_eq!(found.subjects[1], Subject::Thing("left shelf".into()));
        // Where they end before its back one walks round them.
        none(&shelves(1_300.0), Code::StandRoom);
        // One of them is enough of a wall, and a shop may ask for less.
        let mut one = shelves(2_000.0);
        one.bay.things.pop();
        none(&one, Code::StandRoom);
        let mut slim = shelves(2_000.0);
        slim.shop.stand_room_mm = 400.0;
        none(&slim, Code::StandRoom);
    }

    /// The far wall is at x = 12 000, 50 mm behind the stand: it is set from its front and its sides. In a corner of the room one
    /// side is left, and none between two walls of an alcove 1000 mm wide.
    #[test]
    fn with_its_back_to_a_wall() {
        let mut arrangement = parked_at(6_650.0);
        none(&arrangement, Code::StandRoom);
        arrangement.parked = PlanPose::new(DVec2::new(6_650.0, 5_600.0), 0.0);
        none(&arrangement, Code::StandRoom);
        arrangement.parked = PlanPose::new(DVec2::new(6_650.0, 3_000.0), 0.0);
        let corners = [
            (0.0, 0.0),
            (11_000.0, 0.0),
            (11_000.0, 2_500.0),
            (12_000.0, 2_500.0),
            (12_000.0, 3_500.0),
            (11_000.0, 3_500.0),
            (11_000.0, 6_000.0),
            (0.0, 6_000.0),
        ];
        arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
        let wall = |i: usize| Wall { id: format!("wall {i}").as_str().into(), material: Material::Brick };
        arrangement.bay.walls = (0..8).map(wall).collect();
        check(&arrangement, Code::StandRoom, Severity::Care, Some(200.0));
        // One that stands through the wall stands nowhere.
        arrangement.parked = PlanPose::new(DVec2::new(6_800.0, 3_000.0), 0.0);
        none(&arrangement, Code::StandRoom);
        assert_eq!(assess(&arrangement).verdict, Verdict::NotReady);
    }

    /// A mat is reached from everywhere; the car and a target that stands at the same time are as near as the aiming wants them.
    #[test]
    fn what_the_aiming_puts_there_is_not_in_the_way() {
        let mut near = clear();
        near.aiming.placements[0].stand_off.distance_mm = 300.0;
        none(&near, Code::StandRoom);
        let mut together = clear();
        for (id, aside_mm) in [("left", 800.0), ("right", -800.0)] {
            let mut own = together.aiming.placements[0].clone();
            own.id = id.into();
            own.mark = None;
            own.stand_off.aside_mm = aside_mm;
            own.with = Some(vec!["ahead".into()]);
            together.aiming.placements.push(own);
            together.stands.push(StandSet::OnMark);
        }
        none(&together, Code::StandRoom);
        let mut mat = with(vec![wooden("bench", (8_300.0, 3_000.0), 200.0, 400.0)]);
        check(&mat, Code::StandRoom, Severity::Care, None);
        mat.aiming.placements[0].height = TargetHeight::OnFloor;
        mat.aiming.placements[0].target.stand = None;
        none(&mat, Code::StandRoom);
    }

    /// Nobody stands in an open pit.
    #[test]
    fn a_pit_before_the_face() {
        let mut arrangement = clear();
        let pit = |kind| FloorFeature {
            id: "pit".into(),
            kind,
            outline: rectangle((7_000.0, 2_600.0), (8_700.0, 3_400.0)),
            material: Material::Concrete,
            proud_mm: 0.0,
        };
        arrangement.bay.floor_features = vec![pit(FloorFeatureKind::Pit)];
        check(&arrangement, Code::StandRoom, Severity::Care, Some(100.0));
        arrangement.bay.floor_features = vec![pit(FloorFeatureKind::Drain)];
        none(&arrangement, Code::StandRoom);
    }
}
