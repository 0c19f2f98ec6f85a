//! What is seen: an [`Assessment`](baywright_planner::Assessment) and a [`ViewState`] become a drawing list, views become
//! frames of a [`Page`], a page becomes bytes of SVG. Screen and paper show the same lists, so they cannot disagree.
//!
//! Places and shapes are millimetres in the list's own frame (top view: the room, or turned to the car; side view: x
//! along the axis, y up from the floor; around a view: the paper). Text sizes, strokes and signs are paper units (px, 96
//! to the inch), so a list is built for one scale and one text-measuring function. Items say what they are ([`Role`]),
//! never a colour: the [`theme`] gives that. Nothing here touches files or a screen, and nothing here can fail.

mod clip;
mod dxf;
mod finding;
pub mod font;
pub mod ink;
mod lettering;
pub mod list;
pub mod page;
mod pdf;
mod pick;
pub mod role;
pub mod sheet;
pub mod sign;
mod svg;
pub mod text;
pub mod theme;
mod thing_name;
mod view;

pub use dxf::to_dxf;
pub use finding::{Flagged, flagged, pinned};
pub use lettering::Lettering;
pub use list::{Dimension, Drawing, Item, PX_PER_PAPER_MM, Projection, Shape, Sign, Text};
pub use page::{Page, ScaleBar, picture, scale_bar};
pub use pdf::{NotWritten, to_pdf};
pub use pick::Picked;
pub use role::Role;
pub use svg::to_svg;
pub use text::{Align, TextStyle, Weight};
pub use theme::Theme;
pub use view::{
    Axis, Datum, Extents, Fit, FloorLevel, LiveDimension, LookedAt, Turned, ViewState, Windows, fit_map_view,
    on_top, sensor_view, side_view, told_view, top_view, view_after,
};
