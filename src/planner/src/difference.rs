//! How one bay differs from another: walls, openings, what is in the floor, things; each difference with its figures.
//!
//! What goes by one name in both is the same thing. What goes by a name in one only is new or gone, unless it is like
//! something in the other in all but its name.

mod bay;
mod parts;

use baywright_geometry::DVec2;

use crate::assessment::Subject;
use crate::model::{
    Arrangement, Effort, FloorFeatureKind, Id, KeepFreeKind, Known, Layout, Material, Metal, OpeningKind,
    Shape, ThingKind,
};

pub use bay::between;

/// Lengths that differ by less than this, mm, are the same: what the planner speaks of begins here.
pub(crate) const SAME_MM: f64 = 0.01;
/// Directions that differ by less than this, radians, are the same: [`SAME_MM`] over the metre of a thing's half length.
pub(crate) const SAME_RAD: f64 = 1e-5;

/// One difference: of what, and in what.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Of what; the floor stands for the room.
    pub of: Subject,
    /// In what.
    pub what: Change,
}

/// What was, and what is now.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// It was not there.
    New,
    /// It is not there any more.
    Gone,
    /// It had this name.
    Name(Id),
    /// A wall that runs as before stands further out by so much, mm; negative: further in.
    FurtherOut(f64),
    /// A wall runs otherwise: its two ends are so far from where they were, mm.
    Ends([f64; 2]),
    /// A length is other than it was, mm.
    Length(Figure, [f64; 2]),
    /// It is from another height, or to another: underside and top before and now, mm above the floor.
    Heights([[f64; 2]; 2]),
    /// It stands elsewhere by so much, bay frame, mm, and is turned by so much, radians anticlockwise.
    Moved(DVec2, f64),
    /// It has another shape.
    Shape([Box<Shape>; 2]),
    /// Its outline on the floor is another: its size before and now, mm.
    Outline([DVec2; 2]),
    /// It is something else.
    Kind([Kind; 2]),
    /// It is made of something else.
    Material([Material; 2]),
    /// It holds more or less metal; none where nothing is said.
    Metal([Option<Metal>; 2]),
    /// An opening is in another wall.
    Wall([Id; 2]),
    /// It is shut now, or open.
    Shut(bool),
    /// It is a way out now, or none.
    Exit(bool),
    /// Its place is known better or worse.
    Known([Known; 2]),
    /// It takes more or less to move it.
    Effort([Effort; 2]),
    /// The levels of its top are others.
    Levels,
    /// Its figures come from elsewhere.
    Source,
}

/// Which length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// A wall's.
    WallLength,
    /// The clear height under the ceiling.
    Ceiling,
    /// From the wall's first corner to where an opening starts.
    FromCorner,
    /// An opening's width.
    Width,
    /// How far the ground beyond an opening is free.
    FreeBeyond,
    /// How far something stands proud of the floor.
    Proud,
    /// A runway's top.
    RunwayTop,
}

/// What something is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A thing.
    Thing(ThingKind),
    /// An opening.
    Opening(OpeningKind),
    /// A place in the floor.
    Feature(FloorFeatureKind),
    /// An area that is kept free.
    KeepFree(KeepFreeKind),
}

/// How an arrangement's own building differs from the bay's, things at home and doors as they are there; `None` if it has none.
pub fn of_own_building(layout: &Layout, arrangement: &Id) -> Option<Vec<Difference>> {
    let own = layout.arrangements.iter().find(|own| own.id == *arrangement)?;
    own.building.is_some().then(|| between(&layout.bay, &layout.bay_of(own)))
}

/// How what is seen in the one arrangement differs from the other: the bay with its things where they stand, and the car if it
/// is the same one.
pub fn between_arrangements(before: &Arrangement, now: &Arrangement) -> Vec<Difference> {
    let mut all = Vec::new();
    if before.vehicle.id == now.vehicle.id {
        let moved = parts::moved(&before.parked, &now.parked);
        all.extend(moved.map(|what| Difference { of: Subject::Car, what }));
    }
    all.extend(between(&before.bay, &now.bay));
    all
}
