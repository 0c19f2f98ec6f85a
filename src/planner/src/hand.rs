//! What the hand does on a drawing: where a thing is, how far it may go, what it is drawn onto, how it is sized.
//!
//! Pure sums for whoever moves things on a screen: bay frame, millimetres, radians. What is in hand is named by a
//! [`Subject`]: the car, a thing, or a target with its stand. Nothing here judges.

mod gaps;
mod measure;
mod size;
mod snap;
mod walls;

use baywright_geometry::{Outline, PlanPose, Prism};

use crate::assessment::Subject;
use crate::model::Arrangement;
use crate::scene::Scene;

pub use gaps::{Gap, gaps};
pub use measure::{Measured, measured, measuring_point};
pub use size::resized;
pub use snap::{Snap, SnapKind, Snapped, snapped, squared};
pub use walls::{WallGap, gap_to_wall, wall_gaps};

/// Where what is in hand stands: bay from its own frame (the car's is the vehicle frame, a stand's the target frame).
/// `None` for what cannot be moved, or is not there.
pub fn pose_of(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Option<PlanPose> {
    match subject {
        Subject::Car => Some(scene.bay_from_vehicle),
        Subject::Thing(id) => arrangement.bay.things.iter().find(|own| own.id == *id).map(|own| own.place),
        Subject::Stand(id) | Subject::Target(id) => {
            scene.targets.iter().find(|own| own.id == *id).map(|own| own.set.place)
        }
        _ => None,
    }
}

/// Its outlines from above, in its own frame; none for what cannot be moved.
pub fn own_outlines(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Outline> {
    let Some(pose) = pose_of(arrangement, scene, subject) else { return Vec::new() };
    let own_from_bay = pose.inverse();
    solids(arrangement, scene, subject).iter().map(|solid| solid.outline.placed(&own_from_bay)).collect()
}

/// The solids that it fills, bay frame.
fn solids(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Prism> {
    match subject {
        Subject::Car => scene.car.clone(),
        Subject::Thing(id) => {
            let things = arrangement.bay.things.iter().zip(&scene.things);
            things.filter(|(own, _)| own.id == *id).map(|(_, placed)| placed.prism.clone()).collect()
        }
        Subject::Stand(id) | Subject::Target(id) => scene
            .targets
            .iter()
            .filter(|own| own.id == *id)
            .flat_map(|own| own.solids.iter().cloned())
            .collect(),
        _ => Vec::new(),
    }
}

/// Whether two names are of one body: a target and its stand are.
fn same_body(a: &Subject, b: &Subject) -> bool {
    match (a, b) {
        (Subject::Stand(a) | Subject::Target(a), Subject::Stand(b) | Subject::Target(b)) => a == b,
        _ => a == b,
    }
}

/// Every solid that is not part of what is in hand, with what it is of: things, the car, targets.
fn others<'a>(
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    subject: &'a Subject,
) -> impl Iterator<Item = (Subject, &'a Prism)> {
    let things = arrangement.bay.things.iter().zip(&scene.things);
    let things = things.map(|(own, placed)| (Subject::Thing(own.id.clone()), &placed.prism));
    let car = scene.car.iter().map(|solid| (Subject::Car, solid));
    let targets =
        scene.targets.iter().flat_map(|t| t.solids.iter().map(|solid| (Subject::Stand(t.id.clone()), solid)));
    things.chain(car).chain(targets).filter(move |(of, _)| !same_body(of, subject))
}
