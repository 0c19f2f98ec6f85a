//! The pages that stand alone: views to one scale, the verdict above them, the key, the scale and the caution below.

use baywright_planner::Assessment;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Arrangement;
use baywright_planner::words::drawing::Lies;

use super::foot::Foot;
use super::head::{Head, view_title, view_title_height};
use super::key::Key;
use super::{Frame, Page};
use crate::lettering::Lettering;
use crate::list::{PX_PER_PAPER_MM, Placing, Projection};
use crate::view::{Axis, Extents, Fit, Shown, Turned, ViewState};

/// A page is at least this wide, px before texts are enlarged: a small scale leaves them room.
const LEAST_WIDTH_PX: f64 = 300.0;

/// A picture of an assessed arrangement that stands alone: views over one another, to one scale. Where the top view and a
/// side view along the sight line are on it, a top view turned to the car is turned to the sight line instead, so that
/// everything stands under itself, unless the room lay slantwise then.
pub fn picture(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    projections: &[Projection],
    fit: Fit,
    lettering: &Lettering<'_>,
) -> Page {
    let mut state = state.clone();
    let both = [Projection::Top, Projection::Side].iter().all(|one| projections.contains(one));
    if both {
        state.turned = Extents::of_both(arrangement, assessment, &state).0;
    }
    let shown = Shown::new(arrangement, assessment, &state, lettering);
    let least = LEAST_WIDTH_PX * lettering.enlarged();
    let width_of = |one| shown.window(one, fit, DVec2::ZERO).area.size().x;
    let width = projections.iter().copied().map(width_of).fold(least, f64::max);

    let words = &shown.words;
    let head = Head::of(assessment, words, lettering, width);
    let key = Key::of(assessment, words, lettering, width);
    let foot = Foot::of(words, lettering, width);

    let mut frames = Vec::new();
    let mut first: Option<Placing> = None;
    let mut y = head.height();
    for &projection in projections {
        let (title, adds) = titles(&shown, projection);
        let names = if first.is_none() { head.names.as_str() } else { "" };
        let title = view_title(lettering, (DVec2::new(0.0, y), width), title, adds, names);
        y += view_title_height(lettering);
        let corner = DVec2::new(0.5 * (width - width_of(projection)), y);
        let mut window = shown.window(projection, fit, corner);
        let Placing { origin, .. } = *first.get_or_insert(window.placing);
        // One axis: where both views show the same one, they stand exactly under one another.
        if shown.extents.one_axis() {
            window.placing.origin.x = origin.x;
        }
        frames.push(Frame::of_view(shown.drawing(projection, window), corner / PX_PER_PAPER_MM));
        frames.push(title);
        y = window.area.high.y;
    }
    frames.push(head.frame(width));
    frames.push(key.frame(DVec2::new(0.0, y), width));
    y += key.height();
    if let Some(placing) = first {
        frames.extend(foot.frames(DVec2::new(0.0, y), width, placing.px_per_mm));
    }
    y += foot.height();
    let one_to = first.map(|placing| libm::round(PX_PER_PAPER_MM / placing.px_per_mm));
    Page {
        size: DVec2::new(width, y) / PX_PER_PAPER_MM,
        title: match projections.first() {
            Some(&first) => shown.words.picture_title(first == Projection::Side),
            None => shown.words.title_line(),
        },
        description: shown.words.picture_description(shown.assessment, one_to),
        frames,
    }
}

/// A view's title and what it adds.
fn titles(shown: &Shown<'_>, projection: Projection) -> (&'static str, &'static str) {
    let Shown { words, extents, .. } = shown;
    match projection {
        Projection::Top => (words.top_view(), words.top_view_lies(lies(extents.turned))),
        Projection::Side => {
            (words.side_view(), words.side_view_along(extents.along == Axis::SightLine, extents.from_left))
        }
    }
}

const fn lies(turned: Turned) -> Lies {
    match turned {
        Turned::ToCar => Lies::TurnedToCar,
        Turned::ToRoom => Lies::AsTheRoom,
        Turned::ToSightLine => Lies::AlongSightLine,
    }
}
