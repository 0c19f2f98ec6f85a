//! The foot of a page: scale bar, scale, caution.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Units, Words};

use super::setter::{EDGE_PX, LINE_PX, Setter};
use super::wrap::wrapped;
use super::{Content, Frame};
use crate::lettering::{Lettering, size};
use crate::list::PX_PER_PAPER_MM;
use crate::role::Role;
use crate::text::{Align, Weight};

/// Its height without lines of caution, px before texts are enlarged; so are all lengths here.
const FOOT_PX: f64 = 40.0;
/// The line of the scale bar in it.
const SCALE_LINE_PX: f64 = 20.0;
/// Where the caution starts, if it stands below the scale bar: half a line above its first one.
const CAUTION_PX: f64 = 30.0;
/// Room for the scale bar and its texts.
const SCALE_WIDTH_PX: f64 = 340.0;
/// The scale bar at most.
const BAR_PX: f64 = 170.0;

/// A scale bar of a round length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScaleBar {
    /// Its length, mm of the bay.
    pub mm: f64,
    /// The same on the paper, px.
    pub px: f64,
    /// In how many parts, dark and light in turn.
    pub parts: u8,
}

/// The longest round length that is no wider than `most_px` on the paper; round in feet where lengths are shown in feet.
pub fn scale_bar(px_per_mm: f64, most_px: f64, units: Units) -> ScaleBar {
    let unit = if units == Units::FeetInches { MM_PER_FOOT } else { 1.0 };
    let most = most_px / px_per_mm;
    let mut round = ScaleBar { mm: unit, px: unit * px_per_mm, parts: 4 };
    for decade in [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6] {
        for (step, parts) in [(1.0, 4), (2.0, 4), (5.0, 5)] {
            let mm = decade * step * unit;
            if mm <= most {
                round = ScaleBar { mm, px: mm * px_per_mm, parts };
            }
        }
    }
    round
}

const MM_PER_FOOT: f64 = 304.8;

/// The foot, broken into lines.
pub(super) struct Foot<'a> {
    words: &'a Words<'a>,
    lettering: &'a Lettering<'a>,
    /// The caution below the scale bar, where it does not fit beside it.
    caution: Vec<String>,
}

impl<'a> Foot<'a> {
    pub fn of(words: &'a Words<'a>, lettering: &'a Lettering<'a>, width: f64) -> Self {
        let style = lettering.style(size::LABEL, Weight::Regular);
        let across = width - 2.0 * EDGE_PX;
        let caution = words.caution();
        let fits = lettering.width_of(caution, style) <= across - SCALE_WIDTH_PX * lettering.enlarged();
        let caution = if fits { Vec::new() } else { wrapped(caution, style, across, 4, lettering) };
        Self { words, lettering, caution }
    }

    /// Its height, px.
    pub fn height(&self) -> f64 {
        (FOOT_PX + LINE_PX * self.caution.len() as f64) * self.lettering.enlarged()
    }

    /// The scale bar of views at a scale, and the caution beside or below it.
    pub fn frames(&self, corner: DVec2, width: f64, px_per_mm: f64) -> [Frame; 2] {
        let (bar, end) = self.scale_bar(corner, width, px_per_mm);
        [bar, self.caution(corner, width, end)]
    }

    /// The scale bar, and where what stands beside it may begin, px.
    fn scale_bar(&self, corner: DVec2, width: f64, px_per_mm: f64) -> (Frame, f64) {
        let Self { words, lettering, .. } = *self;
        let by = lettering.enlarged();
        let high = if self.caution.is_empty() { FOOT_PX } else { CAUTION_PX };
        let mut setter = Setter::new(lettering, DVec2::new(width, high * by));
        let y = SCALE_LINE_PX * by;
        let style = setter.style(size::LABEL, Weight::Regular);
        let bar = scale_bar(px_per_mm, BAR_PX * by, lettering.locale.units);
        let part = bar.px / f64::from(bar.parts);
        let half = DVec2::new(0.0, 2.5 * by);
        for i in 0..bar.parts {
            let from = DVec2::new(EDGE_PX + part * f64::from(i), y);
            let to = from + DVec2::new(part, 0.0);
            let role = if i % 2 == 0 { Role::ScaleDark } else { Role::ScaleLight };
            setter.ring(role, [from - half, to - half, to + half, from + half]);
        }
        let mut x = EDGE_PX + bar.px + 10.0;
        let length = words.length(bar.mm);
        x += setter.text(Role::Title, DVec2::new(x, y), &length, style, Align::Start, width) + 24.0;
        let scale = words.scale(libm::round(PX_PER_PAPER_MM / px_per_mm));
        x += setter.text(Role::TitleSoft, DVec2::new(x, y), &scale, style, Align::Start, width) + 28.0;
        if self.caution.is_empty() {
            setter.size.x = x;
        }
        (setter.framed(corner, Content::ScaleBar), x)
    }

    fn caution(&self, corner: DVec2, width: f64, beside: f64) -> Frame {
        let by = self.lettering.enlarged();
        let start =
            if self.caution.is_empty() { DVec2::new(beside, 0.0) } else { DVec2::new(0.0, CAUTION_PX * by) };
        let size = DVec2::new(width, self.height()) - start;
        let mut setter = Setter::new(self.lettering, size);
        let style = setter.style(size::LABEL, Weight::Regular);
        if self.caution.is_empty() {
            let at = DVec2::new(size.x - EDGE_PX, SCALE_LINE_PX * by);
            setter.text(Role::TitleSoft, at, self.words.caution(), style, Align::End, at.x);
        }
        for (line, text) in self.caution.iter().enumerate() {
            let at = DVec2::new(EDGE_PX, LINE_PX * (line as f64 + 0.5) * by);
            setter.text(Role::TitleSoft, at, text, style, Align::Start, width - 2.0 * EDGE_PX);
        }
        setter.framed(corner + start, Content::Text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scale_bars_are_round_and_fit() {
        for (scale, mm) in [(0.09, 1000.0), (0.065, 2000.0), (0.02, 5000.0), (1.0, 100.0)] {
            let bar = scale_bar(scale, 170.0, Units::Millimetres);
            assert_eq!(bar.mm, mm, "{scale}");
            assert!(bar.px <= 170.0 && (bar.px - bar.mm * scale).abs() < 1e-9);
        }
        let feet = scale_bar(0.09, 170.0, Units::FeetInches);
        assert_eq!(feet.mm, 5.0 * 304.8);
    }
}
