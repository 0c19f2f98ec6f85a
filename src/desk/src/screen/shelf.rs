//! Ordinary workshop things, ready to be put into a bay: sizes, heights and materials that one might find anywhere.
//!
//! All figures are common practice, no source: a person types the real ones.

use baywright_planner::geometry::{DVec2, PlanPose, Span};
use baywright_planner::model::{Effort, Footprint, Id, Known, Material, Place, Shape, Thing, ThingKind};

/// One ordinary thing.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Ordinary {
    kind: ThingKind,
    /// Length and width; equal and `round` for a round thing. mm.
    size: (f64, f64),
    round: bool,
    /// Underside and top above the floor, mm.
    heights: (f64, f64),
    material: Material,
    effort: Effort,
}

const fn boxed(
    kind: ThingKind,
    size: (f64, f64),
    heights: (f64, f64),
    material: Material,
    effort: Effort,
) -> Ordinary {
    Ordinary { kind, size, round: false, heights, material, effort }
}

const fn round(
    kind: ThingKind,
    across: f64,
    heights: (f64, f64),
    material: Material,
    effort: Effort,
) -> Ordinary {
    Ordinary { kind, size: (across, across), round: true, heights, material, effort }
}

/// What is on the shelf, in the order in which it is offered.
const ALL: [Ordinary; 18] = [
    boxed(ThingKind::Cabinet, (900.0, 450.0), (0.0, 1900.0), Material::Steel, Effort::TwoPeople),
    boxed(ThingKind::ToolChest, (700.0, 460.0), (0.0, 1000.0), Material::Steel, Effort::OnePerson),
    boxed(ThingKind::Bench, (2000.0, 700.0), (0.0, 900.0), Material::Wood, Effort::TwoPeople),
    boxed(ThingKind::Shelf, (1800.0, 450.0), (0.0, 2000.0), Material::Steel, Effort::TwoPeople),
    boxed(ThingKind::Trolley, (700.0, 450.0), (0.0, 850.0), Material::Steel, Effort::OnePerson),
    round(ThingKind::Column, 200.0, (0.0, 3000.0), Material::Steel, Effort::Fixed),
    boxed(ThingKind::LiftPost, (400.0, 350.0), (0.0, 2800.0), Material::Steel, Effort::Fixed),
    boxed(ThingKind::LiftArm, (1000.0, 120.0), (100.0, 220.0), Material::Steel, Effort::OnePerson),
    round(ThingKind::Drum, 600.0, (0.0, 900.0), Material::Steel, Effort::TwoPeople),
    boxed(ThingKind::ParkedCar, (4300.0, 1800.0), (0.0, 1500.0), Material::CarBody, Effort::OnePerson),
    boxed(ThingKind::Fence, (2000.0, 40.0), (0.0, 2000.0), Material::Mesh, Effort::TwoPeople),
    round(ThingKind::Bin, 500.0, (0.0, 800.0), Material::Plastic, Effort::OnePerson),
    round(ThingKind::Person, 500.0, (0.0, 1800.0), Material::Person, Effort::OnePerson),
    boxed(ThingKind::Lamp, (1500.0, 150.0), (2500.0, 2600.0), Material::Aluminium, Effort::Fixed),
    boxed(ThingKind::Heater, (1200.0, 500.0), (2300.0, 2800.0), Material::Steel, Effort::Fixed),
    boxed(ThingKind::DoorTrack, (2500.0, 80.0), (2500.0, 2600.0), Material::Steel, Effort::Fixed),
    boxed(ThingKind::Beam, (4000.0, 200.0), (2600.0, 2900.0), Material::Steel, Effort::Fixed),
    boxed(ThingKind::Other, (500.0, 500.0), (0.0, 500.0), Material::Unknown, Effort::OnePerson),
];

/// The kinds on the shelf, in the order in which they are offered.
pub fn kinds() -> impl Iterator<Item = ThingKind> {
    ALL.iter().map(|own| own.kind)
}

/// An ordinary thing of a kind, there, under a name; nothing taller than the ceiling. `None` if it makes no shape.
pub fn thing(kind: ThingKind, name: Id, at: DVec2, ceiling: f64) -> Option<Thing> {
    made(ALL.iter().find(|own| own.kind == kind)?, name, at, ceiling)
}

/// That thing, there, under a name; nothing taller than the ceiling.
fn made(own: &Ordinary, name: Id, at: DVec2, ceiling: f64) -> Option<Thing> {
    let shape = if own.round {
        Shape::Round { diameter_mm: own.size.0 }
    } else {
        Shape::Rectangle { length_mm: own.size.0, width_mm: own.size.1 }
    };
    let (bottom, top) = own.heights;
    // What hangs keeps its thickness under a low ceiling; what stands reaches it at most.
    let down = if bottom > 0.0 { (top - ceiling).max(0.0).min(bottom) } else { 0.0 };
    let span = Span::new(bottom - down, (top - down).min(ceiling.max(bottom - down + 10.0))).ok()?;
    Some(Thing {
        id: name,
        kind: own.kind,
        footprint: Footprint::new(shape).ok()?,
        place: Place { at: PlanPose::new(at, 0.0), known: Known::ByEye },
        span,
        material: own.material,
        effort: own.effort,
        metal: None,
        locked: false,
    })
}

/// Things that come together, each of them a thing of its own afterwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Set {
    /// A wall that stands in the room.
    InnerWall,
    /// Three columns in a line.
    PillarRow,
    /// Three walls about a work place, open in front.
    Booth,
    /// Two posts and their four arms, swung along the car.
    Lift,
}

impl Set {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::InnerWall, Self::PillarRow, Self::Booth, Self::Lift];
}

/// Clear between the two posts of a lift, mm.
const BETWEEN_POSTS_MM: f64 = 2_500.0;
/// From the middle of one column of a row to that of the next, mm.
const COLUMNS_APART_MM: f64 = 3_000.0;

/// A set in its usual sizes about a place of the bay, its long side along `frame`'s x; `name` says what a part is called.
/// Empty if there is no room for it under the ceiling.
pub fn set(of: Set, frame: PlanPose, ceiling: f64, mut name: impl FnMut(SetPart) -> Id) -> Vec<Thing> {
    let mut parts = Vec::new();
    let wall = |kind: ThingKind, size: (f64, f64), top: f64, material: Material| {
        boxed(kind, size, (0.0, top), material, Effort::Fixed)
    };
    let mut put =
        |part: SetPart, own: Ordinary, at: (f64, f64)| parts.push((part, own, DVec2::new(at.0, at.1)));
    match of {
        Set::InnerWall => {
            let own = wall(ThingKind::Other, (3_000.0, 100.0), f64::INFINITY, Material::Brick);
            put(SetPart::Wall, own, (0.0, 0.0));
        }
        Set::PillarRow => {
            for i in [-1.0, 0.0, 1.0] {
                let own =
                    round(ThingKind::Column, 300.0, (0.0, f64::INFINITY), Material::Concrete, Effort::Fixed);
                put(SetPart::Pillar, own, (i * COLUMNS_APART_MM, 0.0));
            }
        }
        Set::Booth => {
            let side = |size| wall(ThingKind::Other, size, 2_400.0, Material::Plasterboard);
            put(SetPart::BoothWall, side((3_000.0, 80.0)), (0.0, 1_000.0));
            for x in [-1_460.0, 1_460.0] {
                put(SetPart::BoothWall, side((80.0, 1_920.0)), (x, 0.0));
            }
        }
        Set::Lift => {
            for side in [1.0, -1.0] {
                let post = ALL.iter().find(|own| own.kind == ThingKind::LiftPost);
                let arm = ALL.iter().find(|own| own.kind == ThingKind::LiftArm);
                let (Some(post), Some(arm)) = (post, arm) else { continue };
                let middle = side * (BETWEEN_POSTS_MM + post.size.1) * 0.5;
                put(SetPart::Post, *post, (0.0, middle));
                for way in [1.0, -1.0] {
                    put(SetPart::Arm, *arm, (way * (post.size.0 + arm.size.0) * 0.5, middle));
                }
            }
        }
    }
    let made = |(part, own, at): (SetPart, Ordinary, DVec2)| {
        let mut made = made(&own, name(part), frame * at, ceiling)?;
        made.place.at = PlanPose::new(made.place.at.origin(), frame.heading());
        Some(made)
    };
    parts.into_iter().filter_map(made).collect()
}

/// What a part of a set is called after.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetPart {
    /// A wall in the room.
    Wall,
    /// A column of a row.
    Pillar,
    /// A wall of a booth.
    BoothWall,
    /// A post of a lift.
    Post,
    /// An arm of one.
    Arm,
}

/// A part of the ceiling that hangs lower, to start from: its size and its underside are typed. `None` if there is no room
/// below the ceiling.
pub fn low_ceiling(name: Id, at: DVec2, ceiling: f64) -> Option<Thing> {
    let shape = Shape::Rectangle { length_mm: 3_000.0, width_mm: 2_000.0 };
    Some(Thing {
        id: name,
        kind: ThingKind::Other,
        footprint: Footprint::new(shape).ok()?,
        place: Place { at: PlanPose::new(at, 0.0), known: Known::ByEye },
        span: Span::new(f64::min(2_400.0, ceiling * 0.8), ceiling).ok()?,
        material: Material::Plasterboard,
        effort: Effort::Fixed,
        metal: None,
        locked: false,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_fits_under_any_ceiling_and_its_parts_stand_apart() {
        for of in Set::ALL {
            for ceiling in [1_000.0, 2_700.0, 6_000.0] {
                let frame = PlanPose::new(DVec2::new(5_000.0, 4_000.0), 0.3);
                let mut count = 0;
                let things = set(of, frame, ceiling, |_| {
                    count += 1;
                    Id::from(count.to_string().as_str())
                });
                assert_eq!(things.len(), [1, 3, 3, 6][of as usize], "{of:?}");
                for (i, own) in things.iter().enumerate() {
                    assert!(own.span.top() <= ceiling, "{of:?}");
                    for other in &things[..i] {
                        let (a, b) = (own.prism().outline, other.prism().outline);
                        assert!(!baywright_planner::geometry::overlap::overlaps(&a, &b), "{of:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn every_kind_is_on_the_shelf_once_and_fits_under_any_ceiling() {
        let all: Vec<ThingKind> = kinds().collect();
        for kind in ThingKind::ALL {
            assert_eq!(all.iter().filter(|own| **own == kind).count(), 1, "{kind:?}");
            for ceiling in [1_000.0, 2_200.0, 2_700.0, 6_000.0] {
                let thing = thing(kind, "x".into(), DVec2::new(1.0, 2.0), ceiling).unwrap();
                assert!(
                    thing.span.top() <= ceiling && thing.span.top() > thing.span.bottom(),
                    "{kind:?} {ceiling}"
                );
            }
        }
    }
}
