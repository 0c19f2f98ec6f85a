//! A page: paper of a size in mm, with frames placed on it, each with its own drawing list.
//!
//! A view knows nothing of the page that it stands on, and what stands around it is not drawn through it. Writers draw a
//! page by drawing its frames; [`picture`] makes the pages that stand alone.

mod foot;
mod head;
mod key;
mod picture;
pub(crate) mod setter;
pub(crate) mod wrap;

use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::record::Picture;

use crate::list::{Drawing, Item, PX_PER_PAPER_MM, Placing};

pub use foot::{ScaleBar, scale_bar};
pub use picture::picture;

/// Frames on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// The paper's size, mm.
    pub size: DVec2,
    /// What the page is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or two, for who cannot see it.
    pub description: String,
    /// What is on it, in the order in which it is painted.
    pub frames: Vec<Frame>,
}

/// A part of a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// Where it is, mm of the page, from its upper left corner, y down.
    pub place: Bounds,
    /// What is in it.
    pub content: Content,
}

/// What is in a frame. All but a view are lists in mm of the paper, from the frame's lower left corner, y up as in every
/// list.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// A view at its own scale, cut off at the frame's edge.
    View(Drawing),
    /// Lines of one text.
    Text(Vec<Item>),
    /// What stands over a part of the page, in one line or more.
    Heading(Vec<Item>),
    /// Signs and what they mean, squares to draw in.
    Table(Vec<Item>),
    /// A row of a table of rows and columns.
    Row(Row),
    /// What the page is about, and the answer.
    TitleBlock(Vec<Item>),
    /// A scale bar, with the scale.
    ScaleBar(Vec<Item>),
    /// A picture of dots that fills the frame.
    Photo(Photo),
}

/// A picture of dots on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// The picture.
    pub picture: Picture,
    /// What it is, for who cannot see it.
    pub said: String,
}

/// A row of a table. Tables lie on their pages row by row: which of them is the first, and what is in which cell, is told to who
/// cannot see it.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What is painted in it.
    pub items: Vec<Item>,
    /// What is in each of its cells, in the order in which texts and boxes stand among the items.
    pub cells: Vec<InCell>,
    /// Whether its cells say what stands below them.
    pub is_head: bool,
    /// Whether its texts say what stands to the right of them: no row above does.
    pub names_itself: bool,
    /// Whether a table begins here, or goes on from the page before.
    pub is_first: bool,
}

/// What is in a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InCell {
    /// So many lines of text.
    Lines(usize),
    /// A box to write in.
    Box,
    /// Nothing.
    Nothing,
}

impl Photo {
    /// From the picture's own dots to px of the paper, where it fills a place, mm: as [`Picture::to_upright`] has it.
    pub(crate) fn on_paper(&self, place: &Bounds) -> [f64; 6] {
        let [wide, high] = self.picture.upright();
        let size = place.size() * PX_PER_PAPER_MM;
        let (low, x, y) = (place.low * PX_PER_PAPER_MM, size.x / wide, size.y / high);
        let [a, b, c, d, e, f] = self.picture.to_upright();
        [a * x, b * y, c * x, d * y, low.x + e * x, low.y + f * y]
    }
}

impl Page {
    /// The views on it.
    pub fn views(&self) -> impl Iterator<Item = &Drawing> {
        self.frames.iter().filter_map(|frame| match &frame.content {
            Content::View(drawing) => Some(drawing),
            _ => None,
        })
    }
}

impl Frame {
    /// A view on a page, its upper left corner there, mm.
    pub fn of_view(drawing: Drawing, corner: DVec2) -> Self {
        let place = Bounds { low: corner, high: corner + drawing.size / PX_PER_PAPER_MM };
        Self { place, content: Content::View(drawing) }
    }

    /// Whether it holds a view.
    pub const fn is_view(&self) -> bool {
        matches!(self.content, Content::View(_))
    }

    /// Whether it is painted and read by itself, whatever stands around it.
    pub(crate) const fn is_alone(&self) -> bool {
        matches!(self.content, Content::View(_) | Content::Photo(_))
    }

    /// What is painted in it, in order; a picture of dots has no parts.
    pub fn items(&self) -> &[Item] {
        match &self.content {
            Content::View(drawing) => &drawing.items,
            Content::Row(row) => &row.items,
            Content::Text(items)
            | Content::Heading(items)
            | Content::Table(items)
            | Content::TitleBlock(items)
            | Content::ScaleBar(items) => items,
            Content::Photo(_) => &[],
        }
    }

    /// How its list lies on the page's paper, px.
    pub fn placing(&self) -> Placing {
        let Bounds { low, high } = self.place;
        match &self.content {
            Content::View(drawing) => {
                Placing { origin: low * PX_PER_PAPER_MM + drawing.origin, px_per_mm: drawing.px_per_mm }
            }
            _ => Placing { origin: DVec2::new(low.x, high.y) * PX_PER_PAPER_MM, px_per_mm: PX_PER_PAPER_MM },
        }
    }
}

/// An item of some frames, as a writer takes it.
pub(crate) struct Painted<'a> {
    /// In which of the frames.
    pub frame: usize,
    /// Its place among all of them as they are read, frame by frame.
    pub read: usize,
    /// How its list lies on the paper.
    pub placing: Placing,
    /// What it is.
    pub item: &'a Item,
}

/// What is painted in some frames, layer by layer.
pub(crate) fn in_order(frames: &[Frame]) -> Vec<Painted<'_>> {
    let all = frames.iter().enumerate().flat_map(|(at, frame)| {
        let placing = frame.placing();
        frame.items().iter().map(move |item| (at, placing, item))
    });
    let mut items: Vec<_> = all
        .enumerate()
        .map(|(read, (frame, placing, item))| Painted { frame, read, placing, item })
        .collect();
    // Stable: items of one layer keep the order of their frames.
    items.sort_by_key(|own| own.item.role.layer());
    items
}
