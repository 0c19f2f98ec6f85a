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
    let own = ALL.iter().find(|own| own.kind == kind)?;
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
        kind,
        footprint: Footprint::new(shape).ok()?,
        place: Place { at: PlanPose::new(at, 0.0), known: Known::ByEye },
        span,
        material: own.material,
        effort: own.effort,
        metal: None,
        locked: false,
    })
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
