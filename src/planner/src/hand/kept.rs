//! Where the dimensions that are kept with a bay lie now.

use baywright_geometry::DVec2;

use super::measure::{measuring_end, on_car};
use crate::assessment::Subject;
use crate::model::{Arrangement, DimensionEnd, EndOn, Id, KeptDimension};
use crate::scene::Scene;

/// A point lies where it was shown within this, mm: what is kept is what was seen.
const SAME_MM: f64 = 0.01;

/// One end of a dimension where it lies now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptEnd {
    /// Where, bay frame, mm.
    pub at: DVec2,
    /// Whether what it lay on is not there: it stays where it was last.
    pub is_gone: bool,
}

/// Both ends of a kept dimension, in its order.
pub fn kept_ends(arrangement: &Arrangement, scene: &Scene, dimension: &KeptDimension) -> [KeptEnd; 2] {
    let found = dimension.located(|on, other| located(arrangement, scene, on, other));
    let end = |end: &DimensionEnd, found: Option<DVec2>| KeptEnd {
        // Figures from a file can be so large that a sum of them is no number.
        at: found.filter(|at| at.is_finite()).unwrap_or(end.at),
        is_gone: found.is_none(),
    };
    let ([from, to], [found_from, found_to]) = (&dimension.ends, found);
    [end(from, found_from), end(to, found_to)]
}

/// A measurement from one place of the bay to another, mm, as a dimension of this name: each end on what lies just there.
pub fn kept(arrangement: &Arrangement, scene: &Scene, id: Id, from: DVec2, to: DVec2) -> KeptDimension {
    let end = |at: DVec2, other: Option<DVec2>| DimensionEnd {
        on: measuring_end(arrangement, scene, at, SAME_MM, other).map(|(_, on)| on),
        at,
    };
    // The first end was laid before there was another one: it is square to nothing.
    KeptDimension { id, ends: [end(from, None), end(to, Some(from))] }
}

/// What something that an end lies on belongs to.
pub fn lies_on(on: &EndOn) -> Subject {
    match on {
        EndOn::Corner(wall) | EndOn::Wall { wall, .. } | EndOn::SquareTo(wall) => Subject::Wall(wall.clone()),
        EndOn::Thing { thing, .. } => Subject::Thing(thing.clone()),
        EndOn::Mark(id) | EndOn::LaidMark(id) => Subject::Mark(id.clone()),
        EndOn::Car(_) => Subject::Car,
        EndOn::Sensor => Subject::Sensor,
        EndOn::Target(id) => Subject::Target(id.clone()),
    }
}

fn located(arrangement: &Arrangement, scene: &Scene, on: &EndOn, other: DVec2) -> Option<DVec2> {
    match on {
        EndOn::Corner(_) | EndOn::Wall { .. } | EndOn::SquareTo(_) | EndOn::Mark(_) => {
            on.on_room(&arrangement.bay, other)
        }
        EndOn::Thing { thing, point } => {
            let own = arrangement.bay.things.iter().find(|own| own.id == *thing)?;
            point.place(&own.footprint, &own.place.at)
        }
        EndOn::LaidMark(id) => scene.marks.iter().find(|own| own.id == *id)?.at.as_ref().ok().copied(),
        EndOn::Car(point) => on_car(arrangement, scene, point),
        EndOn::Sensor => Some(scene.sensor().truncate()),
        EndOn::Target(id) => scene.targets.iter().find(|own| own.id == *id).map(|own| own.set.place.origin()),
    }
}
