//! Plane and upright-solid geometry of a calibration bay.
//!
//! Every length is in millimetres, every angle in radians, every number an `f64`, unless a name says otherwise.
//! Plan angles are anticlockwise-positive seen from above. A *share* is a part of a whole, 0 to 1. Nothing here knows files,
//! words, clocks or screens.
//!
//! A question about what is seen starts with the eye; then comes what is looked at, then the things in between, as
//! references: `&[&Prism]` in space, `&[&Outline]` in plan. Answers name things by their index in that list. Where a
//! question has no answer (the eye lies inside a thing) the answer says so, as a variant. Shapes, directions and other
//! figures that make no sense are refused where they are made, with a typed fault; then a query cannot fail, and a
//! construction ([`marks`]) says why there is no such place.
//!
//! Things touch within [`tolerance::TOUCH_MM`]; touching is never a conflict. Yes/no answers are decided by exact
//! predicates ([`predicate`]) before any coordinate is computed; constructions are plain `f64`.

pub mod angle;
pub mod blocker;
pub mod boolean;
pub mod bounds;
pub mod circle;
pub mod clearance;
pub mod contain;
pub mod convex;
pub mod distance;
pub mod face;
pub mod fault;
pub mod frame;
pub mod fresnel;
pub mod locate;
pub mod marks;
pub mod outline;
pub mod overlap;
pub mod polygon;
pub mod predicate;
pub mod prism;
pub mod protrude;
pub mod region;
pub mod segment;
pub mod separate;
pub mod share;
pub mod sight;
pub mod thrust;
pub mod tolerance;
pub mod visibility;
pub mod way_in;

pub use blocker::{LineOfSight, first_blocker, first_blocker_in_plan};
pub use boolean::{difference, intersection, union};
pub use bounds::Bounds;
pub use circle::Circle;
pub use clearance::{Clearance, Intrusion, clearance};
pub use contain::{Containment, contains, holds};
pub use convex::{hull, hull_grown};
pub use distance::{
    PrismSeparation, Separation, distance, distance_to_point, distance_to_segment, passes_through,
    prism_distance,
};
pub use face::Face;
pub use fault::ShapeFault;
pub use frame::{PlanPose, Pose};
pub use fresnel::{
    FresnelClearance, WaveFault, Wavelength, fresnel_clearance, fresnel_clearance_in_plan, wavelength,
    zone_radius,
};
pub use glam::{DVec2, DVec3};
pub use locate::{Located, locate, locate_in};
pub use marks::{TAPES_MEET_MM, TapeFault, two_distances};
pub use outline::Outline;
pub use overlap::{overlap_area, overlap_region, overlaps, overlaps_by};
pub use polygon::Polygon;
pub use prism::{Prism, Span};
pub use protrude::{Protrusion, moves_inside, protrusions, protrusions_deeper};
pub use region::Region;
pub use segment::Segment;
pub use separate::{MOST_SETS, SeparatingMoves, exits, separating_moves};
pub use share::{
    Hider, SegmentHider, SegmentShare, Share, Stretch, VisibleFace, VisibleSegment, segment_share,
    target_share,
};
pub use sight::{fresnel_plan, sight_shadow_plan};
pub use thrust::{thrust_axis, thrust_heading};
pub use visibility::{Visibility, visibility};
