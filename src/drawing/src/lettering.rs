//! How the texts of a drawing are set: how large, in which language and units, and how their widths are measured.

use baywright_planner::words::Locale;

use crate::font;
use crate::text::{Measure, TextStyle, Weight};

/// Sizes of type, px before they are enlarged.
pub(crate) mod size {
    pub const VERDICT: f64 = 26.0;
    pub const LEAD: f64 = 15.0;
    pub const TITLE: f64 = 13.0;
    pub const SUBTITLE: f64 = 12.0;
    pub const LABEL: f64 = 11.5;
    pub const SMALL: f64 = 11.0;
}

/// How the texts of a drawing are set.
#[derive(Clone, Copy)]
pub struct Lettering<'a> {
    /// The smallest text, px: [`Lettering::LEAST_TEXT`], or more for reading at arm's length. All texts grow with it.
    pub least_text: f64,
    /// Measures a text, px.
    pub measure: Measure<'a>,
    /// The language, and how lengths and numbers are shown.
    pub locale: Locale,
}

impl Default for Lettering<'static> {
    /// The drawings' own font, in the usual size.
    fn default() -> Self {
        Self { least_text: Self::LEAST_TEXT, measure: &font::measure, locale: Locale::default() }
    }
}

impl Lettering<'static> {
    /// No text is smaller than this, px.
    pub const LEAST_TEXT: f64 = 11.0;
    /// For reading at arm's length under strip lights, px.
    pub const BAY_SIZE_TEXT: f64 = 18.0;
}

impl Lettering<'_> {
    /// How much larger than the usual size texts and signs are drawn; never smaller.
    pub(crate) fn enlarged(&self) -> f64 {
        let by = self.least_text / Lettering::LEAST_TEXT;
        // A wish that is not a number, or is out of all measure, is not followed.
        if by.is_finite() { by.clamp(1.0, 8.0) } else { 1.0 }
    }

    /// A style, enlarged as wished.
    pub(crate) fn style(&self, size: f64, weight: Weight) -> TextStyle {
        TextStyle::new(size * self.enlarged(), weight)
    }

    /// The width of a text, px, as a number that can be used.
    pub(crate) fn width_of(&self, text: &str, style: TextStyle) -> f64 {
        let width = (self.measure)(text, style);
        if width.is_finite() { width.max(0.0) } else { 0.0 }
    }
}
