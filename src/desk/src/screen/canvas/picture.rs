//! The picture under the plan in hand: drawn along by a drag anywhere on it, turned and sized by a handle each. Its lower left
//! corner stays where it is turned and sized, as when that is typed.

use baywright_drawing::Drawing;
use baywright_planner::geometry::{Bounds, DVec2, angle};
use baywright_planner::model::Underlay;
use baywright_planner::model::validate::limits;
use baywright_planner::words::Language;

/// A handle is hit this far from its middle, px.
const REACH_PX: f64 = 12.0;
/// Nearer to the corner that stays, mm, no direction can be told.
const LEAST_ARM_MM: f64 = 1.0;

/// Where the picture lies, and how large it is.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::screen) struct PictureLies {
    pub underlay: Underlay,
    /// Of its file, px.
    pub size: DVec2,
}

/// What of it the hand holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::screen) enum PictureHold {
    /// All of it.
    Whole,
    /// The handle that turns it, at its lower right corner.
    Turn,
    /// The handle that sizes it, at its upper right corner.
    Size,
}

impl PictureLies {
    /// A place of the picture, px of its file, in the bay.
    pub fn bay(&self, px: DVec2) -> DVec2 {
        self.underlay.bay_from_px(self.size.y).bay(px)
    }

    /// Its corners in the bay: lower left, lower right, upper right, upper left as the file has them.
    pub fn corners(&self) -> [DVec2; 4] {
        let DVec2 { x, y } = self.size;
        [DVec2::new(0.0, y), self.size, DVec2::new(x, 0.0), DVec2::ZERO].map(|px| self.bay(px))
    }

    /// What a press at a place of the top view's paper takes.
    pub fn hold_at(&self, drawing: &Drawing, px: DVec2) -> PictureHold {
        let view_from_bay = drawing.bay_from_view.inverse();
        let [_, turn, size, _] = self.corners().map(|p| drawing.paper_point(view_from_bay * p).distance(px));
        if turn.min(size) > REACH_PX {
            PictureHold::Whole
        } else if turn < size {
            PictureHold::Turn
        } else {
            PictureHold::Size
        }
    }

    /// It and its handles on the top view's paper, px, with the names that they have for who cannot see them.
    pub fn named(&self, drawing: &Drawing, language: Language) -> Vec<(Bounds, &'static str)> {
        let texts = language.rooms();
        let view_from_bay = drawing.bay_from_view.inverse();
        let corners = self.corners().map(|p| drawing.paper_point(view_from_bay * p));
        let handle = |at: DVec2| Bounds { low: at, high: at }.grown(REACH_PX);
        let [_, turn, size, _] = corners;
        let whole = Bounds::around(corners).map(|whole| (whole, texts.picture_whole));
        let handles = [(handle(turn), texts.picture_turns), (handle(size), texts.picture_sizes)];
        whole.into_iter().chain(handles).collect()
    }

    /// Where it lies once the hand has gone from one place of the bay to another, mm. Places to a millimetre, turns to a
    /// hundredth of a degree, as they can be read and typed.
    pub fn held(&self, hold: PictureHold, from: DVec2, to: DVec2) -> Underlay {
        let own = &self.underlay;
        let (was, now) = (from - own.at, to - own.at);
        let is_arm = was.length().min(now.length()) >= LEAST_ARM_MM;
        match hold {
            PictureHold::Whole => Underlay { at: (own.at + (to - from)).round(), ..own.clone() },
            PictureHold::Turn if is_arm => {
                let by = angle::heading(now) - angle::heading(was);
                let turned = angle::degrees(own.turned_rad + by);
                let turned_rad = angle::wrapped(angle::radians((turned * 100.0).round() / 100.0));
                Underlay { turned_rad, ..own.clone() }
            }
            PictureHold::Size if is_arm => {
                let mm_per_px = (own.mm_per_px * now.length() / was.length() * 1e4).round() / 1e4;
                let mm_per_px = mm_per_px.clamp(limits::MM_PER_PX.low, limits::MM_PER_PX.high);
                Underlay { mm_per_px, ..own.clone() }
            }
            PictureHold::Turn | PictureHold::Size => own.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_corner_stays_where_it_is_turned_and_sized() {
        let underlay = Underlay {
            picture: "plan.png".into(),
            mm_per_px: 10.0,
            at: DVec2::new(1_000.0, 2_000.0),
            turned_rad: 0.0,
            faded: 0.5,
        };
        let lies = PictureLies { underlay, size: DVec2::new(400.0, 300.0) };
        let [corner, right, across, up] = lies.corners();
        assert_eq!([corner, right], [DVec2::new(1_000.0, 2_000.0), DVec2::new(5_000.0, 2_000.0)]);
        assert_eq!([across, up], [DVec2::new(5_000.0, 5_000.0), DVec2::new(1_000.0, 5_000.0)]);
        let by = |hold, from, to| PictureLies { underlay: lies.held(hold, from, to), ..lies.clone() };
        // Drawn along by as much, wherever it was taken.
        let moved = by(PictureHold::Whole, DVec2::new(3_000.0, 3_000.0), DVec2::new(3_100.0, 2_960.0));
        assert_eq!(moved.corners()[0], DVec2::new(1_100.0, 1_960.0));
        // A quarter turn: its lower edge runs up.
        let turned = by(PictureHold::Turn, right, DVec2::new(1_000.0, 9_000.0));
        let [corner, right, ..] = turned.corners();
        assert!(
            corner.distance(lies.corners()[0]) < 1e-9 && right.distance(DVec2::new(1_000.0, 6_000.0)) < 1e-6
        );
        // Twice as far from the corner, twice as large; the turn stays.
        let sized = by(PictureHold::Size, across, DVec2::new(9_000.0, 8_000.0));
        assert_eq!((sized.underlay.mm_per_px, sized.underlay.turned_rad), (20.0, 0.0));
        // No direction and no size from the corner itself, and none beyond what a layout holds.
        assert_eq!(lies.held(PictureHold::Turn, corner, across), lies.underlay);
        assert_eq!(lies.held(PictureHold::Size, across, corner), lies.underlay);
        let far = lies.held(PictureHold::Size, corner + DVec2::splat(2.0), DVec2::splat(1e8));
        assert_eq!(far.mm_per_px, limits::MM_PER_PX.high);
    }
}
