//! Colours, strokes and hatches for what the drawing says, on light and on dark paper.
//!
//! Ink and paper for things; one blue for what the sensor and the hand do, one orange for what stops, one bright sign and an ochre for
//! care, one green for ready. Materials by hatch.

mod colour;
mod hatch;
mod paints;

pub use colour::{Colour, contrast};
pub use hatch::{Hatch, HatchDot, HatchLine};

use crate::role::Role;

/// Which paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Dark ink on light paper.
    #[default]
    Light,
    /// Light ink on dark paper.
    Dark,
    /// Black ink on white paper, for what is printed: each colour so far from the others in lightness that nothing is lost
    /// where a printer or a copier has only black.
    Print,
}

/// The colours that everything is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Around the drawing.
    pub paper: Colour,
    /// Under the drawing: the floor, masks.
    pub sheet: Colour,
    /// Panels of the screen.
    pub panel: Colour,
    /// Texts and outlines.
    pub ink: Colour,
    /// Texts and lines of lesser weight.
    pub soft: Colour,
    /// What the sensor and the hand do.
    pub beam: Colour,
    /// What stops.
    pub stops: Colour,
    /// What needs care, as texts and lines: dark enough to be read.
    pub care: Colour,
    /// The sign of what needs care: far from `stops` in lightness, so that it is told from it at a glance, whatever colours one sees.
    pub care_sign: Colour,
    /// Ready.
    pub ready: Colour,
    /// The light net.
    pub grid: Colour,
    /// The body of the car.
    pub body: Colour,
    /// The ground of hatched things.
    pub stuff: Colour,
    /// The hatch of walls.
    pub masonry: Colour,
    /// Texts on `stops` and `ready`.
    pub on_sign: Colour,
    /// Texts on `care_sign`, and its edge.
    pub on_care: Colour,
}

/// How an area is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fill {
    /// Not at all.
    None,
    /// With one colour.
    Solid(Colour),
    /// With a pattern that is fixed to the paper.
    Hatch(Hatch),
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width, px.
    pub width: f64,
    /// Lengths of dash and gap in turn, px; empty for a full line.
    pub dash: &'static [f64],
}

/// How an item is painted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paint {
    /// Areas, discs, signs.
    pub fill: Fill,
    /// Outlines and lines.
    pub stroke: Option<Stroke>,
    /// Texts, and texts in signs.
    pub text: Colour,
    /// What a masked text paints over what lies under it.
    pub mask: Colour,
}

impl Theme {
    /// Its colours.
    pub const fn palette(self) -> &'static Palette {
        match self {
            Self::Light => &colour::LIGHT,
            Self::Dark => &colour::DARK,
            Self::Print => &colour::PRINT,
        }
    }

    /// How items of a role are painted.
    pub fn paint(self, role: Role) -> Paint {
        paints::paint(self.palette(), role)
    }
}
