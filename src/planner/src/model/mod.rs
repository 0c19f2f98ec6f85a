//! The things that the program speaks of, as plain data.
//!
//! Lengths are millimetres, angles radians, anticlockwise-positive from above. Frames:
//! - **bay**: origin at a chosen corner of the floor, x along the bay's long side, y to the left of x, z up.
//! - **vehicle** (after ISO 8855): x forward, y left, z up; origin in the plane that carries the wheels, under the
//!   middle of the front axle.
//! - **sensor**: x along the boresight.
//! - **target**: origin on the floor under the middle of the face, x towards the sensor, y to the left of x.
//!
//! Fields are plain and public; the door (files, forms) validates them; inside,
//! everything may rely on it.

mod aiming;
mod arrangement;
pub mod assumed;
mod bay;
mod beside;
pub mod body;
mod building;
mod car_on_floor;
mod dimension;
mod examples;
pub mod fault;
mod id;
mod instrument;
mod layout;
mod levels;
mod mark;
mod mark_check;
mod material;
mod on_this_car;
mod owner;
mod plan;
mod provenance;
pub mod record;
pub mod screw;
pub mod sheet;
mod shop;
mod shop_face;
mod stand_read;
mod taped;
mod thing;
mod underlay;
pub mod validate;
mod vehicle;
mod visit;
mod walls;

pub use aiming::{
    AimError, AimTolerance, Aiming, AlignmentLimits, Datum, End, Exclusion, FloorRequirement, HeightsFrom,
    KeepClear, MarkStep, MeasuredAlong, PlaceTolerance, Placement, ReferenceAxis, Stand, StandOff, Target,
    TargetHeight, TargetKind, VerticalReference, ZoneFrame,
};
pub use arrangement::{Arrangement, Loading, ParkedKnown, StandSet};
pub use bay::{
    Bay, FloorFeature, FloorFeatureKind, FloorSurvey, HallBay, KeepFree, KeepFreeKind, LevelsTaken, Opening,
    OpeningKind, PermanentMark, Runway, Wall,
};
pub use beside::{BesidePart, DoneBeside, Other};
pub use body::BodySolids;
pub use building::{Building, Ground};
pub use dimension::{CarPoint, DimensionEnd, EndOn, KeptDimension, ThingPoint};
pub use examples::Figures;
pub use id::Id;
pub use instrument::{
    Chosen, Instrument, InstrumentFigure, InstrumentKind, InstrumentList, MOST_INSTRUMENTS, STEEL_PPM_PER_K,
    Taken, UNNAMED, chosen, level_drift_mm, levelled_with, named,
};
pub use layout::{
    Layout, Moved, ResolveFault, SavedArrangement, TapedRoom, TapedWall, UNDERLAY_FADED, Underlay,
};
pub use levels::{Contour, LevelPoint, Levels};
pub use mark::fnv1a;
pub use mark_check::{CheckFrom, CheckRead, CheckedAt, MOST_CHECKS, MarkCheck, checked_at};
pub use material::{Material, Metal};
pub use on_this_car::{MOST_STOOD, OnThisCar, RearToe, Stood, WheelsAt};
pub use owner::{ComesIn, CostOf, OwnerFigures, cost_of, say_cost};
pub use plan::PlanFault;
pub use provenance::Provenance;
pub use sheet::{AlignmentSheet, SheetUnit, Told};
pub use shop::{JudgedBy, Shop, ShopFigure};
pub use shop_face::{Minutes, ShopDocument, ShopFace, WorkStep};
pub use stand_read::{LineOver, SquareBy, StandRead};
pub use taped::{MOST_TAPED, MarkTaped};
pub use thing::{Effort, Footprint, Known, Place, Shape, Thing, ThingKind};
pub use underlay::{PictureMap, PictureScaleFault};
pub use vehicle::{
    Adjusted, BodyPoint, Camera, Edges, FieldOfView, Mirrors, Radar, Sensor, SensorKind, SensorPoint,
    Vehicle, VehicleClass, Wheel,
};
pub use visit::{Missing, SensorGroup, Trigger, TriggerList, Visit, VisitLine, aimings_for};
pub use walls::{AlcovePart, RoomFault};
