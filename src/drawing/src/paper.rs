//! What a drawing is made for: how large, at which scale, with which letters.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Language, Units};

use crate::font;
use crate::text::{Measure, TextStyle};

/// How the view is laid on the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fit {
    /// The whole room, on paper this wide and at most this high; the paper is as high as the drawing needs. px.
    Whole {
        /// Width of the paper.
        width: f64,
        /// Greatest height of one view's paper.
        most_height: f64,
    },
    /// A window that the hand moves and zooms.
    Window {
        /// Its size, px.
        size: DVec2,
        /// px for each mm.
        px_per_mm: f64,
        /// What lies in its middle, mm in the view's own frame.
        middle: DVec2,
    },
}

/// What stands around the view.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Furniture {
    /// Verdict, titles, scale bar and caution: a picture that stands alone.
    Sheet,
    /// Nothing: the screen has its own.
    Canvas,
}

/// What a drawing is made for.
#[derive(Clone, Copy)]
pub struct Paper<'a> {
    /// How the view is laid on it.
    pub fit: Fit,
    /// What stands around the view.
    pub furniture: Furniture,
    /// The smallest text, px: [`Paper::LEAST_TEXT`], or more for reading at arm's length. All texts grow with it.
    pub least_text: f64,
    /// Measures a text, px.
    pub measure: Measure<'a>,
    /// How lengths are shown.
    pub units: Units,
    /// In which language.
    pub language: Language,
}

impl Paper<'static> {
    /// No text is smaller than this, px.
    pub const LEAST_TEXT: f64 = 11.0;
    /// For reading at arm's length under strip lights, px.
    pub const BAY_SIZE_TEXT: f64 = 18.0;

    /// A picture that stands alone, `width` px wide, with the drawings' own font.
    pub fn picture(width: f64) -> Self {
        Self {
            fit: Fit::Whole { width, most_height: width * 0.8 },
            furniture: Furniture::Sheet,
            least_text: Self::LEAST_TEXT,
            measure: &font::measure,
            units: Units::default(),
            language: Language::default(),
        }
    }
}

impl Paper<'_> {
    /// How much larger than the usual size texts and signs are drawn; never smaller.
    pub(crate) fn enlarged(&self) -> f64 {
        let by = self.least_text / Paper::LEAST_TEXT;
        // A wish that is not a number, or is out of all measure, is not followed.
        if by.is_finite() { by.clamp(1.0, 8.0) } else { 1.0 }
    }

    /// The width of a text, px, as a number that can be used.
    pub(crate) fn width_of(&self, text: &str, style: TextStyle) -> f64 {
        let width = (self.measure)(text, style);
        if width.is_finite() { width.max(0.0) } else { 0.0 }
    }
}
