//! The mark sheet: how the marks are laid, what the tape must read, and boxes for what it reads.
//!
//! One page where all of it has room on one: the picture under the head, below it in columns what is met and done, and at the foot the
//! distances; set as large as goes, never smaller than 9 points. Else several, of which the first has the picture and the distances.

mod parts;
mod readings;

use baywright_planner::Severity;
use baywright_planner::geometry::DVec2;

use super::bar::bar_with;
use super::flow::{Flow, Said, Sizes, px};
use super::frame::Sheeted;
use super::head;
use super::lines::READ_MM;
use super::of::Of;
use super::plan::{in_views, plan, whole_bay};
use super::running::{Edges, strips};
use super::working::{Working, working};
use crate::page::Page;
use crate::role::Role;
use crate::text::{CAP_HEIGHT, Weight};
use crate::view::Laid;

pub(super) use readings::{grouped, headed};

/// Capitals of letters of 9 points, 72 to the inch, mm: at an arm's length nothing smaller is read well (common practice, no source).
const LEAST_MM: f64 = 9.0 / 72.0 * 25.4 * CAP_HEIGHT;
/// How large a sheet of one page is set, the largest first; the rows to write in last of all.
const SIZES: [Sizes; 7] = [
    Sizes::USUAL,
    Sizes { work: 3.2, ..Sizes::USUAL },
    Sizes { work: 2.9, ..Sizes::USUAL },
    Sizes { work: 2.7, ..Sizes::USUAL },
    Sizes { work: READ_MM, written: 7.0, ..Sizes::USUAL },
    Sizes { work: LEAST_MM, read: LEAST_MM, written: 7.0 },
    Sizes { work: LEAST_MM, read: LEAST_MM, written: LEAST_ROW_MM },
];
/// No row that is written in is lower, mm.
const LEAST_ROW_MM: f64 = 6.4;
/// The view has at most such a share of a page, and what is moved first is seen in it or not: the first with which all has room.
const VIEWS: [(f64, bool); 4] = [(0.5, true), (0.36, true), (0.36, false), (0.28, false)];
/// Where it has room with none of them: a smaller scale, before it becomes several pages.
const SMALL: (f64, bool) = (0.21, false);
/// A view takes at most such a share of a page where the sheet has several.
const MOST_VIEW: f64 = 0.5;
/// What headings and gaps may take more than where nothing stands over them, mm.
const HEADING_MM: f64 = 2.2;
/// Between one part of a page and the next, mm.
const BETWEEN_MM: f64 = 2.0;
/// What is set in columns has so many at most.
const MOST_COLUMNS: usize = 2;
/// The whole bay is no lower than this, mm.
const LEAST_VIEW_MM: f64 = 45.0;

/// The pages of the sheet.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let (flow, one_to) = one_page(of, on).unwrap_or_else(|| several(of, on));
    on.pages(flow, &on.words.picture_description(of.now.assessment, Some(one_to)))
}

/// All of it on one page, with the picture's scale; `None` if it has no room there however small it is set.
fn one_page<'a>(of: &Of<'_>, on: &Sheeted<'a>) -> Option<(Flow<'a>, f64)> {
    let pictures = |views: &[(f64, bool)]| -> Vec<Picture> {
        views.iter().map(|view| Picture::of(of, on, *view)).collect()
    };
    within(of, on, &pictures(&VIEWS)).or_else(|| within(of, on, &pictures(&[SMALL])))
}

/// All of it on one page with one of these pictures, the first with which it has room.
fn within<'a>(of: &Of<'_>, on: &Sheeted<'a>, pictures: &[Picture]) -> Option<(Flow<'a>, f64)> {
    SIZES.into_iter().find_map(|sizes| {
        let mut flow = on.flow().sized(sizes);
        begin(&mut flow, of, on);
        let told = |flow: &mut Flow<'a>| {
            parts::first(flow, of, on.words, true);
            parts::lay(flow, of, on.words);
        };
        let high = |set: &dyn Fn(&mut Flow<'a>)| {
            let mut endless = on.endless(&flow);
            set(&mut endless);
            endless.taken()
        };
        let foot = high(&|flow| readings::readings(flow, of, on.words));
        let under = high(&|flow| under_view(flow, on, pictures.first().map_or(1.0, |own| own.one_to)));
        let (picture, columns) = pictures.iter().find_map(|own| {
            let taken = foot + under + own.high() + px(HEADING_MM + 2.0 * BETWEEN_MM);
            let room = flow.left() - taken;
            let columns = (1..=MOST_COLUMNS).find_map(|count| flow.columns(count, room, &told))?;
            Some((own, columns))
        })?;
        let one_to = picture.draw(&mut flow, on);
        flow.gap(BETWEEN_MM);
        flow.place(columns);
        flow.gap(BETWEEN_MM);
        readings::readings(&mut flow, of, on.words);
        (flow.count() == 1).then_some((flow, one_to))
    })
}

/// The view of what is worked on, from above, with its running dimensions.
struct Picture {
    laid: Laid,
    edges: Edges,
    one_to: f64,
}

impl Picture {
    /// At most such a share of a page high, with what is moved first or not.
    fn of(of: &Of<'_>, on: &Sheeted<'_>, (share, with_moved): (f64, bool)) -> Self {
        let flow = on.flow();
        Self::within(of, on, DVec2::new(flow.width(), flow.height() * share), with_moved)
    }

    /// In such a room, px.
    fn within(of: &Of<'_>, on: &Sheeted<'_>, room: DVec2, with_moved: bool) -> Self {
        let Working { lettering, lies, fit } = working(of, room, on, with_moved);
        let laid =
            crate::view::laid_view(of.now.arrangement, of.now.assessment, &lies.state, fit, &lettering);
        let edges = Edges::of(&laid, on.words, &lettering);
        Self { laid, edges, one_to: lies.one_to }
    }

    /// How high it is without its bar, px.
    fn high(&self) -> f64 {
        self.edges.over() + self.laid.drawing.size.y + self.edges.under()
    }

    /// Sets it with its bar below; gives its scale.
    fn draw(&self, flow: &mut Flow<'_>, on: &Sheeted<'_>) -> f64 {
        strips(flow, self.laid.clone(), &self.edges);
        under_view(flow, on, self.one_to);
        self.one_to
    }
}

/// The sheet's name, the verdict, and the cautions.
fn begin(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>) {
    let texts = on.words.locale().language.sheets();
    let assessment = of.now.assessment;
    // What is moved has its own list.
    head::beside(flow, on.title, on.words, assessment, assessment.promise.is_some());
    if assessment.on_example_figures {
        let style = flow.style(flow.sizes.read, Weight::Bold);
        flow.said(&Said { text: texts.on_examples, style, role: Role::Title, lead: None });
    }
    flow.read(texts.both_cautions, None);
    flow.gap(BETWEEN_MM);
}

/// Over several pages: on the first the picture with the marks and the distances, then what is met, laid and minded.
fn several<'a>(of: &Of<'_>, on: &Sheeted<'a>) -> (Flow<'a>, f64) {
    let words = on.words;
    let mut flow = on.flow();
    begin(&mut flow, of, on);
    let mut endless = on.endless(&flow);
    readings::readings(&mut endless, of, words);
    under_view(&mut endless, on, 1.0);
    let taken = endless.taken() + px(HEADING_MM + 2.0 * BETWEEN_MM);
    let high = (flow.left() - taken).clamp(px(LEAST_VIEW_MM), flow.height() * MOST_VIEW);
    let room = DVec2::new(flow.width(), high);
    let one_to = Picture::within(of, on, room, true).draw(&mut flow, on);
    flow.gap(BETWEEN_MM);
    readings::readings(&mut flow, of, words);
    parts::first(&mut flow, of, words, false);
    parts::lay(&mut flow, of, words);
    if of.now.assessment.findings.iter().any(|own| own.severity != Severity::Note) {
        whole(&mut flow, of, on);
    }
    (flow, one_to)
}

/// The whole bay with the letters of what is found, if there is room left for it.
fn whole(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>) {
    flow.gap(BETWEEN_MM);
    let high = flow.left().min(flow.height() * MOST_VIEW);
    if high < px(LEAST_VIEW_MM) {
        return;
    }
    let own = in_views(on.lettering);
    let room = DVec2::new(flow.width(), high);
    let lies = whole_bay(of.now.arrangement, of.now.assessment, of.state, room, &own);
    let size = lies.size(&own).min(room);
    flow.view(plan(of.now.arrangement, of.now.assessment, &lies, size, on.lettering));
}

/// The bar, and how the figures along the view are used.
fn under_view(flow: &mut Flow<'_>, on: &Sheeted<'_>, one_to: f64) {
    bar_with(flow, on.words, one_to, on.words.locale().language.sheets().running);
}
