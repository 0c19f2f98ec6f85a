//! What is seen: an [`Assessment`](baywright_planner::Assessment) and a [`ViewState`] become a drawing list, the
//! drawing list becomes bytes of SVG. Screen and paper show the same list, so they cannot disagree.
//!
//! Places and shapes are millimetres in the view's own frame (top view: the room, or turned to the car; side view: x
//! along the axis, y up from the floor). Text sizes, strokes and signs are paper units (px, 96 to the inch), so a list
//! is built for one scale and one text-measuring function. Items say what they are ([`Role`]), never a colour: the
//! [`theme`] gives that. Nothing here touches files or a screen, and nothing here can fail.

mod clip;
mod finding;
pub mod font;
mod furniture;
pub mod ink;
pub mod list;
mod paper;
mod pick;
pub mod role;
pub mod sign;
mod svg;
pub mod text;
pub mod theme;
mod view;

pub use finding::{Flagged, flagged, pinned};
pub use furniture::{ScaleBar, scale_bar};
pub use list::{Dimension, Drawing, Item, Projection, Shape, Sign, Text};
pub use paper::{Fit, Furniture, Paper};
pub use pick::Picked;
pub use role::Role;
pub use svg::{sheet_to_svg, to_svg};
pub use text::{Align, TextStyle, Weight};
pub use theme::Theme;
pub use view::{Axis, Extents, LiveDimension, Sheet, Turned, ViewState, Windows, sheet, side_view, top_view};
