//! The doors: one view on its own paper, or both on one.

pub(crate) mod extents;
mod flag;
mod label;
pub(crate) mod pen;
mod side;
mod space;
mod state;
mod top;

use baywright_planner::Assessment;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Arrangement;
use baywright_planner::words::Words;

use crate::furniture::Lines;
use crate::list::{Drawing, Projection};
use crate::paper::{Fit, Furniture, Paper};
use extents::Placed;
pub use extents::{Extents, Windows};
use pen::Pen;
pub use state::{Axis, LiveDimension, Turned, ViewState};

/// Both views on one paper, to one scale; where the top view is turned to the side view's axis, on one x axis too.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The paper's size, px.
    pub size: DVec2,
    /// The top view.
    pub top: Drawing,
    /// The side view.
    pub side: Drawing,
}

/// What both doors share.
struct Desk<'a> {
    arrangement: &'a Arrangement,
    assessment: &'a Assessment,
    state: &'a ViewState,
    paper: &'a Paper<'a>,
    words: Words<'a>,
    extents: Extents,
    lines: Lines,
}

impl<'a> Desk<'a> {
    fn new(
        arrangement: &'a Arrangement,
        assessment: &'a Assessment,
        state: &'a ViewState,
        paper: &'a Paper<'a>,
    ) -> Self {
        let words = Words::new(arrangement, paper.units, paper.language);
        let width = match paper.fit {
            Fit::Whole { width, .. } => width,
            Fit::Window { size, .. } => size.x,
        };
        let lines = Lines::of(assessment, &words, paper, width);
        let extents = Extents::of(arrangement, assessment, state, paper);
        Self { arrangement, assessment, state, paper, words, extents, lines }
    }

    fn framed(&self) -> bool {
        self.paper.furniture == Furniture::Sheet && matches!(self.paper.fit, Fit::Whole { .. })
    }

    fn top(&self, placed: Placed) -> Pen<'a> {
        let (words, extents) = (&self.words, &self.extents);
        let mut pen =
            top::draw(self.arrangement, self.assessment, self.state, words, self.paper, extents, placed);
        if self.framed() {
            let adds = words.top_view_lies(top::lies(extents.turned));
            pen.view_title(words.top_view(), adds, &self.lines.names);
        }
        pen
    }

    fn side(&self, placed: Placed, names: &str) -> Pen<'a> {
        let (words, extents) = (&self.words, &self.extents);
        let mut pen =
            side::draw(self.arrangement, self.assessment, self.state, words, self.paper, extents, placed);
        if self.framed() {
            pen.view_title(words.side_view(), words.side_view_along(extents.along == Axis::SightLine), names);
        }
        pen
    }

    fn header(&self, pen: &mut Pen<'_>) {
        if self.framed() {
            pen.header(self.assessment, &self.words, &self.lines);
        }
    }

    fn footer(&self, pen: &mut Pen<'_>) {
        if self.framed() {
            pen.key(&self.lines);
            pen.footer(&self.words, &self.lines);
        }
    }

    fn finished(&self, pen: Pen<'_>, projection: Projection) -> Drawing {
        let Pen { placed, scale, mut items, .. } = pen;
        // Stable: items of one layer keep the order in which they were drawn.
        items.sort_by_key(|item| item.role.layer());
        let words = &self.words;
        let (title, bay_from_view) = match projection {
            Projection::Top => (words.top_view(), self.extents.bay_from_top),
            Projection::Side => (words.side_view(), self.extents.bay_from_side),
        };
        Drawing {
            projection,
            size: placed.size,
            plan: placed.plan,
            px_per_mm: scale,
            origin: placed.origin,
            bay_from_view,
            title: format!("{title}: {}", words.title_line()),
            description: if self.framed() {
                words.drawing_description(self.assessment)
            } else {
                String::new()
            },
            items,
        }
    }
}

/// The top view of an assessed arrangement.
pub fn top_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    paper: &Paper<'_>,
) -> Drawing {
    let desk = Desk::new(arrangement, assessment, state, paper);
    let mut pen = desk.top(desk.extents.place_top(paper, &desk.lines));
    desk.header(&mut pen);
    desk.footer(&mut pen);
    desk.finished(pen, Projection::Top)
}

/// The side view of an assessed arrangement.
pub fn side_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    paper: &Paper<'_>,
) -> Drawing {
    let desk = Desk::new(arrangement, assessment, state, paper);
    let mut pen = desk.side(desk.extents.place_side(paper, &desk.lines), &desk.lines.names);
    desk.header(&mut pen);
    desk.footer(&mut pen);
    desk.finished(pen, Projection::Side)
}

/// Both views on one paper, the top view over the side view. Where the side view runs along the sight line, a top view
/// turned to the car is turned to the sight line instead, so that everything stands under itself.
pub fn sheet(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    paper: &Paper<'_>,
) -> Sheet {
    let mut state = state.clone();
    let along = Extents::of(arrangement, assessment, &state, paper).along;
    if along == Axis::SightLine && state.turned == Turned::ToCar {
        state.turned = Turned::ToSightLine;
    }
    let desk = Desk::new(arrangement, assessment, &state, paper);
    let (top_placed, side_placed) = desk.extents.place_both(paper, &desk.lines);
    let mut top = desk.top(top_placed);
    desk.header(&mut top);
    let mut side = desk.side(side_placed, "");
    desk.footer(&mut side);
    let size = side_placed.size;
    Sheet { size, top: desk.finished(top, Projection::Top), side: desk.finished(side, Projection::Side) }
}
