//! The doors: one view on its own paper, or both on one.

use baywright_planner::Assessment;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Arrangement;
use baywright_planner::words::Words;

use crate::furniture::Lines;
use crate::layout::{Layout, Placed};
use crate::list::{Drawing, View};
use crate::paper::{Fit, Furniture, Paper};
use crate::pen::Pen;
use crate::view_state::{Axis, Turned, ViewState};
use crate::{side, top};

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
    layout: Layout,
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
        let layout = Layout::of(arrangement, assessment, state, paper);
        Self { arrangement, assessment, state, paper, words, layout, lines }
    }

    fn framed(&self) -> bool {
        self.paper.furniture == Furniture::Sheet && matches!(self.paper.fit, Fit::Whole { .. })
    }

    fn top(&self, placed: Placed) -> Pen<'a> {
        let (words, layout) = (&self.words, &self.layout);
        let mut pen =
            top::draw(self.arrangement, self.assessment, self.state, words, self.paper, layout, placed);
        if self.framed() {
            let adds = words.top_view_lies(top::lies(layout.turned));
            pen.view_title(words.top_view(), adds, &self.lines.names);
        }
        pen
    }

    fn side(&self, placed: Placed, names: &str) -> Pen<'a> {
        let (words, layout) = (&self.words, &self.layout);
        let mut pen =
            side::draw(self.arrangement, self.assessment, self.state, words, self.paper, layout, placed);
        if self.framed() {
            pen.view_title(words.side_view(), words.side_view_along(layout.along == Axis::SightLine), names);
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

    fn finished(&self, pen: Pen<'_>, view: View) -> Drawing {
        let Pen { placed, scale, mut items, .. } = pen;
        // Stable: items of one layer keep the order in which they were drawn.
        items.sort_by_key(|item| item.role.layer());
        let words = &self.words;
        let (title, bay_from_view) = match view {
            View::Top => (words.top_view(), self.layout.bay_from_top),
            View::Side => (words.side_view(), self.layout.bay_from_side),
        };
        Drawing {
            view,
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
    let mut pen = desk.top(desk.layout.place_top(paper, &desk.lines));
    desk.header(&mut pen);
    desk.footer(&mut pen);
    desk.finished(pen, View::Top)
}

/// The side view of an assessed arrangement.
pub fn side_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    paper: &Paper<'_>,
) -> Drawing {
    let desk = Desk::new(arrangement, assessment, state, paper);
    let mut pen = desk.side(desk.layout.place_side(paper, &desk.lines), &desk.lines.names);
    desk.header(&mut pen);
    desk.footer(&mut pen);
    desk.finished(pen, View::Side)
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
    let along = Layout::of(arrangement, assessment, &state, paper).along;
    if along == Axis::SightLine && state.turned == Turned::ToCar {
        state.turned = Turned::ToSightLine;
    }
    let desk = Desk::new(arrangement, assessment, &state, paper);
    let (top_placed, side_placed) = desk.layout.place_both(paper, &desk.lines);
    let mut top = desk.top(top_placed);
    desk.header(&mut top);
    let mut side = desk.side(side_placed, "");
    desk.footer(&mut side);
    let size = side_placed.size;
    Sheet { size, top: desk.finished(top, View::Top), side: desk.finished(side, View::Side) }
}
