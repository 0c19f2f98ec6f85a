//! Whether the car gets into the room.
//!
//! Rule: where doors or gaps are entered, one of them is wide and high enough for the car, mirrors and all, with a hand's room all
//! round, as its place and size are known; and just inside of it the car passes under or beside what is fixed there, other walls
//! and what stands proud of the floor among it, with ground under its wheels: an open pit lies between them or is none. Onto
//! runways it is driven. What can be moved is moved before; the way on from there is not asked. A room of which no door is entered says nothing of the way into it.
//! Limit: the car, and the shop's own `over_car_mm` on every side that is not the floor. It needs care: another way in may
//! not have been entered.

use baywright_geometry::{DVec2, Outline, PlanPose, Polygon, Segment, overlap_region};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding, thing_subject, wall_id};
use crate::model::{Arrangement, Effort, Id, Opening, OpeningKind, ShopFigure, Wheel};
use crate::scene::Scene;

pub(super) const CHECK: Check = Check { codes: &[Code::WayIn], whole, ..Check::NONE };

/// So far inside a door nothing that stays may be in the car's way, mm (common practice, no source): there it has hardly begun to
/// turn.
const AT_THE_DOOR_MM: f64 = 1_000.0;

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let doors = context.arrangement.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window);
    let lacks: Vec<(&Opening, Lack)> = doors.map(|door| (door, lack(context, door))).collect();
    if lacks.iter().any(|(_, lack)| lack.mm <= 0.0) {
        return;
    }
    // One that is large enough and in which something stands is the one that is meant.
    let nearest = lacks.into_iter().min_by(|(x, a), (y, b)| {
        let by_size = a.by.is_none().cmp(&b.by.is_none());
        by_size.then(a.mm.total_cmp(&b.mm)).then_with(|| x.id.cmp(&y.id))
    });
    let Some((nearest, lack)) = nearest else { return };
    let Some(line) = context.arrangement.bay.opening_line(nearest) else { return };
    let mut subjects = vec![Subject::Opening(nearest.id.clone()), Subject::Car];
    subjects.extend(lack.by);
    let basis = Basis::Shop(ShopFigure::OverCar);
    let at = line.at(0.5).extend(0.0);
    let found = finding(Facts::WayIn(lack.of), Severity::Care, subjects, at, basis);
    findings.push(match lack.of {
        TooSmall::NoGround => Finding { basis: Basis::Geometry, ..found },
        TooSmall::Narrow | TooSmall::Low | TooSmall::Sill => {
            found.against(Quantity::Length(lack.is_mm), Quantity::Length(lack.is_mm + lack.mm))
        }
    });
}

/// The doors and gaps by which the car of an arrangement gets into its room.
pub(crate) fn lets_in(arrangement: &Arrangement) -> Vec<Id> {
    let scene = Scene::of(arrangement);
    let context = Context::new(arrangement, &scene);
    let doors = arrangement.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window);
    doors.filter(|door| lack(&context, door).mm <= 0.0).map(|door| door.id.clone()).collect()
}

/// Of what a door has too little.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooSmall {
    /// Of its width.
    Narrow,
    /// Of its height.
    Low,
    /// Its sill lies over the floor.
    Sill,
    /// An open pit lies across it.
    NoGround,
}

struct Lack {
    of: TooSmall,
    is_mm: f64,
    /// How much is missing; not above nought if nothing is.
    mm: f64,
    /// What takes it, if it is not the door itself.
    by: Option<Subject>,
}

/// How much room the car wants, mm.
struct Wants {
    /// To either side of its middle.
    half: f64,
    /// Over the floor.
    height: f64,
    /// What the walls' places are uncertain by.
    unsure: f64,
}

/// What most of is missing of a door.
fn lack(context: &Context<'_>, door: &Opening) -> Lack {
    let arrangement = context.arrangement;
    let (shop, car) = (&arrangement.shop, &arrangement.vehicle);
    let solids = car.solids();
    let sides = solids.iter().map(|solid| solid.outline.bounds());
    let aside = sides.fold(0.0, |most: f64, own| most.max(own.high.y).max(-own.low.y));
    let top = solids.iter().map(|solid| solid.span.top()).fold(0.0, f64::max);
    let wants = Wants {
        half: aside + shop.over_car_mm,
        height: top + shop.over_car_mm,
        unsure: shop.within(arrangement.bay.walls_known),
    };
    let of = |of, is_mm: f64, wants: f64| Lack { of, is_mm, mm: wants - is_mm, by: None };
    let all = [
        of(TooSmall::Narrow, door.width_mm, 2.0 * wants.half + wants.unsure),
        of(TooSmall::Low, door.span.top(), wants.height + wants.unsure),
        // Over what a tape goes a wheel goes as well.
        Lack { mm: door.span.bottom() - super::claim::GOES_OVER_MM, ..of(TooSmall::Sill, 0.0, 0.0) },
    ];
    let worst = all.into_iter().max_by(|a, b| a.mm.total_cmp(&b.mm));
    let own = worst.unwrap_or_else(|| of(TooSmall::Narrow, 0.0, 0.0));
    if own.mm > 0.0 { own } else { across(context, door, &wants).unwrap_or(own) }
}

/// Something just inside a door, and between which places along its wall the car's middle is kept out by it.
struct Across {
    by: Subject,
    /// How high it is under it, mm; `None` of a pit.
    under_mm: Option<f64>,
    keeps_out: Vec<(f64, f64)>,
    /// From where to where along the door it lies itself, mm from the door's beginning.
    lies_mm: (f64, f64),
    /// How well its own place is known, beside what the walls' places are, mm.
    known_mm: f64,
}

impl Across {
    /// What is built as the door is, and known as well, keeps the car out by half of what both are uncertain by.
    fn standing(by: Subject, lies_mm: (f64, f64), wants: &Wants) -> Self {
        let out = wants.half + wants.unsure * 0.5;
        let keeps_out = vec![(lies_mm.0 - out, lies_mm.1 + out)];
        Self { by, under_mm: Some(0.0), keeps_out, lies_mm, known_mm: 0.0 }
    }
}

/// What takes the car's way just inside a door that is large enough; `None` if some of it is left.
fn across(context: &Context<'_>, door: &Opening, wants: &Wants) -> Option<Lack> {
    let line = context.arrangement.bay.opening_line(door)?;
    let pits = pits(context, &line);
    let mut things = things(context, &line, wants);
    things.extend(kerbs(context, &line, wants).chain(walls(context, door, &line, wants)));
    // Of what is as high the first by name, however they are listed.
    things.sort_by(|a, b| {
        let by_height = a.under_mm.unwrap_or(0.0).total_cmp(&b.under_mm.unwrap_or(0.0));
        by_height.then_with(|| a.by.cmp(&b.by))
    });
    let stands = |own: &&Across| own.under_mm.is_none_or(|under| under <= 0.0);
    let taken: Vec<(f64, f64)> = pits.iter().chain(&things).filter(stands).map(|own| own.lies_mm).collect();
    // Where its middle may be between the jambs.
    let half = wants.half + wants.unsure * 0.5;
    let between = (half.min(door.width_mm * 0.5), (door.width_mm - half).max(door.width_mm * 0.5));
    let mut kept_out = Vec::new();
    let mut known = 0.0;
    for own in pits.into_iter().chain(things) {
        known = f64::max(known, own.known_mm);
        kept_out.extend(own.keeps_out);
        if !is_covered(between, &kept_out) {
            continue;
        }
        let by = Some(own.by);
        return Some(match own.under_mm {
            None => Lack { of: TooSmall::NoGround, is_mm: 0.0, mm: own.lies_mm.1 - own.lies_mm.0, by },
            Some(under) if under > 0.0 => {
                Lack { of: TooSmall::Low, is_mm: under, mm: wants.height - under, by }
            }
            Some(_) => {
                let is_mm = widest_left(door.width_mm, &taken);
                // As drawn it may be as wide as that, and is none that is sure.
                let mm = 2.0 * wants.half + wants.unsure + known - is_mm;
                Lack { of: TooSmall::Narrow, is_mm, mm: mm.max(SPEAKS_FROM_MM), by }
            }
        });
    }
    None
}

/// Open pits: the car's wheels stay beside them.
fn pits(context: &Context<'_>, line: &Segment) -> Vec<Across> {
    let arrangement = context.arrangement;
    let wheels = Wheel::ALL.map(|wheel| {
        let half = arrangement.vehicle.tyre_width(wheel) * 0.5;
        (arrangement.wheel_point(wheel).y, half)
    });
    let pits = context.pits().filter_map(|(by, hole)| {
        let (from, to) = before(line, &hole.outline)?;
        let keeps_out = wheels.iter().map(|(y, half)| (from - y - half, to - y + half)).collect();
        Some(Across { by, under_mm: None, keeps_out, lies_mm: (from, to), known_mm: 0.0 })
    });
    pits.collect()
}

/// What is fixed and neither over the car nor so low that a wheel goes over it: the car goes past it.
fn things(context: &Context<'_>, line: &Segment, wants: &Wants) -> Vec<Across> {
    let fixed = context.things().filter(|seen| seen.thing.effort == Effort::Fixed);
    let things = fixed.filter_map(|seen| {
        let (span, known) = (&seen.placed.prism.span, seen.placed.known_mm);
        if span.bottom() >= wants.height + known || span.top() <= super::claim::GOES_OVER_MM {
            return None;
        }
        let (from, to) = before(line, &seen.placed.prism.outline)?;
        Some(Across {
            by: thing_subject(&seen.thing.id),
            under_mm: Some((span.bottom() - if span.bottom() > 0.0 { known } else { 0.0 }).max(0.0)),
            keeps_out: vec![(from - wants.half - known, to + wants.half + known)],
            lies_mm: (from, to),
            known_mm: known,
        })
    });
    things.collect()
}

/// What stands proud of the floor by more than a wheel goes over.
fn kerbs<'a>(context: &'a Context<'_>, line: &'a Segment, wants: &'a Wants) -> impl Iterator<Item = Across> {
    let tall = context.proud_features().filter(|(_, own)| own.span.top() > super::claim::GOES_OVER_MM);
    tall.filter_map(|(by, own)| Some(Across::standing(by, before(line, &own.outline)?, wants)))
}

/// Other walls of the room: a corner or a pier just inside.
fn walls<'a>(
    context: &'a Context<'_>,
    door: &'a Opening,
    line: &'a Segment,
    wants: &'a Wants,
) -> impl Iterator<Item = Across> {
    let line_from_bay = PlanPose::facing(line.from, line.to).inverse();
    let others = context.scene.room.walls().edges().enumerate().filter(|(edge, _)| *edge != door.wall);
    others.filter_map(move |(edge, wall)| {
        let by = Subject::Wall(wall_id(context.arrangement, edge)?.into_owned());
        let (from, to) = stretch((line_from_bay * wall.from, line_from_bay * wall.to), AT_THE_DOOR_MM)?;
        // One that runs in from a jamb leaves all of the door.
        let is_inside = from < line.length() - SPEAKS_FROM_MM && to > SPEAKS_FROM_MM;
        is_inside.then(|| Across::standing(by, (from.max(0.0), to.min(line.length())), wants))
    })
}

/// From where to where along x a line lies that runs between y = 0 and a height of it; `None` if it does not, or only touches.
fn stretch((from, to): (DVec2, DVec2), high: f64) -> Option<(f64, f64)> {
    let (below, above) = if from.y <= to.y { (from, to) } else { (to, from) };
    if above.y <= SPEAKS_FROM_MM || below.y >= high - SPEAKS_FROM_MM {
        return None;
    }
    let rise = above.y - below.y;
    let at = |y: f64| below.x + (above.x - below.x) * (y - below.y) / rise;
    let ends = match rise > SPEAKS_FROM_MM {
        true => (at(below.y.max(0.0)), at(above.y.min(high))),
        false => (below.x, above.x),
    };
    Some((ends.0.min(ends.1), ends.0.max(ends.1)))
}

/// From where to where along a door something lies just inside of it, mm from the door's beginning; `None` if it does not.
fn before(line: &Segment, outline: &Outline) -> Option<(f64, f64)> {
    let along = (line.to - line.from).normalize_or_zero();
    // A round one by its own chord: an outline of corners would say another figure when the bay is turned.
    if let Outline::Circle(disc) = outline {
        let line_from_bay = PlanPose::facing(line.from, line.to).inverse();
        let (from, to) = disc.between_from(&line_from_bay, 0.0, AT_THE_DOOR_MM)?;
        let (from, to) = (from.max(0.0), to.min(line.length()));
        return (from < to).then_some((from, to));
    }
    let inward = along.perp() * AT_THE_DOOR_MM;
    let inside = Polygon::simple(vec![line.from, line.to, line.to + inward, line.from + inward]).ok()?;
    let pieces = overlap_region(outline, &inside.into());
    let places = pieces.iter().flat_map(|piece| piece.outer()).map(|&p: &DVec2| (p - line.from).dot(along));
    places.map(|at| (at, at)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// The widest stretch of a door that none of these takes, mm.
fn widest_left(width: f64, taken: &[(f64, f64)]) -> f64 {
    let mut taken: Vec<_> = taken.to_vec();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut widest, mut reached) = (0.0, 0.0);
    for (begins, ends) in taken.into_iter().chain([(width, width)]) {
        widest = f64::max(widest, begins - reached);
        reached = f64::max(reached, ends);
    }
    widest
}

/// Whether every place of a stretch lies in one of these, their ends left out.
fn is_covered((from, to): (f64, f64), by: &[(f64, f64)]) -> bool {
    let mut by: Vec<_> = by.to_vec();
    by.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut reached = from;
    for (begins, ends) in by {
        if begins >= reached {
            return false;
        }
        if ends > to {
            return true;
        }
        reached = reached.max(ends);
    }
    false
}

#[cfg(test)]
mod tests {
    use crate::TooSmall;
    use crate::check::testing::*;

    /// The car is 1800 mm wide and 1500 high; the shop wants 100 mm over and beside it.
    #[test]
    fn a_door_that_lets_the_car_in() {
        let door = |(width, top): &(f64, f64)| Opening {
            span: span(0.0, *top),
            shut: true,
            ..open_door(1, 500.0, *width, 5_000.0)
        };
        let with_doors = |doors: &[(f64, f64)]| {
            let mut arrangement = clear();
            arrangement.bay.openings = doors.iter().map(door).collect();
            arrangement
        };
        none(&clear(), Code::WayIn);
        none(&with_doors(&[(900.0, 2_000.0), (2_000.0, 1_600.0)]), Code::WayIn);
        let narrow = check(
            &with_doors(&[(900.0, 2_000.0), (1_999.0, 2_100.0)]),
            Code::WayIn,
            Severity::Care,
            Some(1_999.0),
        );
        assert_eq!(
            (narrow.facts, narrow.limit),
            (Facts::WayIn(TooSmall::Narrow), Some(Quantity::Length(2_000.0)))
        );
        let low = check(&with_doors(&[(2_400.0, 1_590.0)]), Code::WayIn, Severity::Care, Some(1_590.0));
        assert_eq!((low.facts, low.limit), (Facts::WayIn(TooSmall::Low), Some(Quantity::Length(1_600.0))));
        // A window is none.
        let mut window = with_doors(&[(2_400.0, 2_400.0)]);
        window.bay.openings[0].kind = OpeningKind::Window;
        none(&window, Code::WayIn);
    }
    /// A door 2400 mm wide from y = 500 on in the far wall at x = 12 000: the car's middle is 1000 to 1400 mm from its beginning.
    fn with_door() -> Arrangement {
        let mut arrangement = clear();
        let door = open_door(1, 500.0, 2_400.0, 5_000.0);
        arrangement.bay.openings = vec![Opening { span: span(0.0, 2_400.0), shut: true, ..door }];
        arrangement
    }

    #[test]
    fn what_hangs_across_the_only_door() {
        let across = |x: f64, width: f64, bottom: f64| {
            let mut beam = cabinet("beam", (x, 500.0 + width * 0.5), 200.0, width);
            (beam.span, beam.effort) = (span(bottom, 2_300.0), Effort::Fixed);
            let mut arrangement = with_door();
            arrangement.bay.things = vec![beam];
            arrangement
        };
        none(&with_door(), Code::WayIn);
        none(&across(11_500.0, 2_400.0, 1_600.0), Code::WayIn);
        let low = across(11_500.0, 2_400.0, 1_590.0);
        let found = check(&low, Code::WayIn, Severity::Care, Some(1_590.0));
        assert_eq!(
            (&found.facts, found.limit),
            (&Facts::WayIn(TooSmall::Low), Some(Quantity::Length(1_600.0)))
        );
        assert_eq!(found.subjects[2], Subject::Thing("beam".into()));
        let line = words::Words::new(&low, words::Locale::default()).line(&found);
        assert!(line.contains("The beam hangs across the roller door"), "{line}");
        // The car keeps a metre from its middle to either side: 300 mm of a beam it passes, 500 mm not.
        none(&across(11_500.0, 300.0, 1_590.0), Code::WayIn);
        check(&across(11_500.0, 500.0, 1_590.0), Code::WayIn, Severity::Care, Some(1_590.0));
        // More than a metre inside it is on the way, which is not asked; what can be moved is moved.
        none(&across(10_890.0, 2_400.0, 1_590.0), Code::WayIn);
        let mut moved = low.clone();
        moved.bay.things[0].effort = Effort::TwoPeople;
        none(&moved, Code::WayIn);
        // Of a beam whose height is known to 20 mm as much more is wanted.
        let mut unsure = across(11_500.0, 2_400.0, 1_610.0);
        none(&unsure, Code::WayIn);
        unsure.bay.things[0].place.known = Known::Within(20.0);
        check(&unsure, Code::WayIn, Severity::Care, Some(1_590.0));
        // A post in the middle of it leaves no width.
        let mut post = low;
        post.bay.things = vec![cabinet("post", (11_500.0, 1_700.0), 200.0, 200.0)];
        post.bay.things[0].effort = Effort::Fixed;
        let found = check(&post, Code::WayIn, Severity::Care, Some(1_100.0));
        assert_eq!(found.facts, Facts::WayIn(TooSmall::Narrow));
        // A round one takes as much as it is wide, and one whose middle lies 60 mm too far inside, by 100 mm round, its chord: 160 mm.
        for (x, left) in [(11_500.0, 1_100.0), (10_940.0, 1_120.0)] {
            post.bay.things = vec![column("post", (x, 1_700.0), 200.0)];
            post.bay.things[0].effort = Effort::Fixed;
            check(&post, Code::WayIn, Severity::Care, Some(left));
        }
        // One beside the jamb leaves 2050 mm, of which its own place is uncertain by 60.
        post.bay.things = vec![cabinet("post", (11_500.0, 675.0), 200.0, 350.0)];
        post.bay.things[0].effort = Effort::Fixed;
        none(&post, Code::WayIn);
        post.bay.things[0].place.known = Known::Within(60.0);
        let found = check(&post, Code::WayIn, Severity::Care, Some(2_050.0));
        assert_eq!(found.limit, Some(Quantity::Length(2_060.0)));
        // A second door that lets it in is enough.
        post.bay.openings.push(Opening { id: "other door".into(), wall: 3, ..post.bay.openings[0].clone() });
        none(&post, Code::WayIn);
    }

    /// A door from y = 500 to 2900 in the wall at x = 12 000: a pier of the right wall beside it, and a kerb in it.
    #[test]
    fn a_pier_or_a_kerb_inside_the_only_door() {
        let pier = |x: f64, top: f64| {
            let mut arrangement = with_door();
            let corners = [
                (0.0, 0.0),
                (x, 0.0),
                (x, top),
                (x + 200.0, top),
                (x + 200.0, 0.0),
                (12_000.0, 0.0),
                (12_000.0, 6_000.0),
                (0.0, 6_000.0),
            ];
            arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
            let wall = |i: usize| Wall { id: format!("wall {i}").into(), material: Material::Brick };
            arrangement.bay.walls = (0..8).map(wall).collect();
            arrangement.bay.openings[0].wall = 5;
            arrangement
        };
        // 2000 mm of 2400 are left from y = 900 on.
        none(&pier(11_400.0, 900.0), Code::WayIn);
        let found = check(&pier(11_400.0, 910.0), Code::WayIn, Severity::Care, Some(1_990.0));
        assert_eq!(found.facts, Facts::WayIn(TooSmall::Narrow));
        assert!(matches!(found.subjects[2], Subject::Wall(_)), "{:?}", found.subjects);
        // More than a metre inside it is on the way; the walls beside the jambs are none.
        none(&pier(10_790.0, 3_000.0), Code::WayIn);
        let mut unsure = pier(11_400.0, 880.0);
        unsure.bay.walls_known = Known::Within(30.0);
        check(&unsure, Code::WayIn, Severity::Care, Some(2_020.0));
        let kerb = |proud_mm: f64| {
            let mut arrangement = with_door();
            let outline = rectangle((11_800.0, 400.0), (11_900.0, 1_500.0));
            let (id, kind, material) = ("kerb".into(), FloorFeatureKind::Joint, Material::Concrete);
            arrangement.bay.floor_features = vec![FloorFeature { id, kind, outline, material, proud_mm }];
            arrangement
        };
        none(&kerb(20.0), Code::WayIn);
        let mut beside = kerb(120.0);
        check(&beside, Code::WayIn, Severity::Care, Some(1_400.0));
        // A door for people is no way in either, and not the one that is meant.
        beside.bay.openings.push(side_door());
        let line = words::Words::new(&beside, words::Locale::default()).line(&check(
            &beside,
            Code::WayIn,
            Severity::Care,
            Some(1_400.0),
        ));
        let told = "No door lets the car in: 1\u{202f}400 mm of its width left, wants 2\u{202f}000 mm, the shop's own. \
                    The kerb stands in the roller door.";
        assert!(line.starts_with(told), "{line}");
    }

    #[test]
    fn an_open_pit_right_across_the_only_door() {
        let pit = |low: f64, high: f64, kind: FloorFeatureKind| {
            let mut arrangement = with_door();
            let (id, material) = ("pit".into(), Material::Concrete);
            let outline = rectangle((11_200.0, low), (11_900.0, high));
            arrangement.bay.floor_features =
                vec![FloorFeature { id, kind, outline, material, proud_mm: 0.0 }];
            arrangement
        };
        let across = pit(400.0, 3_000.0, FloorFeatureKind::Pit);
        let found = check(&across, Code::WayIn, Severity::Care, None);
        assert_eq!(found.facts, Facts::WayIn(TooSmall::NoGround));
        let line = words::Words::new(&across, words::Locale::default()).line(&found);
        assert!(line.contains("The pit lies open across the roller door"), "{line}");
        none(&pit(400.0, 3_000.0, FloorFeatureKind::Drain), Code::WayIn);
        // Tracks of 1540 mm and tyres of 200 leave 1340 mm between them: the car drives over it astride.
        none(&pit(1_500.0, 1_900.0, FloorFeatureKind::Pit), Code::WayIn);
        check(&pit(1_000.0, 2_400.0, FloorFeatureKind::Pit), Code::WayIn, Severity::Care, None);
    }
}
