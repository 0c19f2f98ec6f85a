//! PDF: pages as they are printed, at their true scale, each text as text in the drawings' own font.
//!
//! Everything is given in px, 96 to the inch, and the page is scaled to PDF's points, 72 to the inch. No clock goes in: the bytes are
//! the same on every machine. Tagged after ISO 14289-1 (PDF/UA-1, from memory): see `pdf/read.rs`.

mod letters;
mod paths;
mod photos;
mod read;
mod shapes;
mod tiles;

use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::record::Picture;
use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::{ContentTag, Tag, TagGroup, TagTree};
use krilla::{Document, SerializeSettings};

use crate::list::PX_PER_PAPER_MM;
use crate::page::{Content, Frame, Page, in_order};
use crate::text::clean;
use crate::theme::Theme;
use read::{around, ornament};
use shapes::Painter;

/// Points for each px.
const POINTS_PER_PX: f64 = 72.0 / 96.0;

/// The pages could not be written: what the writer says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotWritten(pub String);

impl std::fmt::Display for NotWritten {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl std::error::Error for NotWritten {}

/// Whether the writer takes a picture: what it does not is told by its name.
pub(crate) fn takes(picture: &Picture) -> bool {
    photos::takes(picture)
}

/// Pages as PDF. `language` is that of the texts, as BCP 47 has it (`en`).
///
/// # Errors
/// What cannot be written as PDF: a page of no size, or more than the format holds.
pub fn to_pdf(pages: &[Page], theme: Theme, language: &str) -> Result<Vec<u8>, NotWritten> {
    let settings = SerializeSettings { configuration: accessible()?, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
    for page in pages {
        tree.push(write(&mut document, page, theme)?);
    }
    document.set_outline(contents(pages));
    let title = pages.first().map_or("", |page| page.title.as_str());
    document.set_metadata(Metadata::new().title(clean(title)).language(language.to_owned()));
    document.set_tag_tree(tree);
    document.finish().map_err(|fault| NotWritten(format!("{fault:?}")))
}

/// The contents: every page by what it is.
fn contents(pages: &[Page]) -> Outline {
    let mut all = Outline::new();
    for (index, page) in pages.iter().enumerate() {
        let top = XyzDestination::new(index, Point::from_xy(0.0, 0.0));
        all.push_child(OutlineNode::new(clean(&page.title), top));
    }
    all
}

fn accessible() -> Result<Configuration, NotWritten> {
    let wanted = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1);
    wanted.finish().map_err(|fault| NotWritten(format!("{fault:?}")))
}

/// One page, and how it is read.
fn write(document: &mut Document, page: &Page, theme: Theme) -> Result<TagGroup, NotWritten> {
    let size = page.size * PX_PER_PAPER_MM;
    let points = (size * POINTS_PER_PX).as_vec2();
    let settings = PageSettings::from_wh(points.x, points.y);
    let settings =
        settings.ok_or_else(|| NotWritten(format!("a page of {} by {} mm", page.size.x, page.size.y)))?;
    let mut sheet = document.start_page_with(settings);
    let mut surface = sheet.surface();
    let scale = POINTS_PER_PX as f32;
    surface.push_transform(&Transform::from_scale(scale, scale));
    let mut painter = Painter::new(&mut surface, theme);
    let mut section = TagGroup::new(Tag::Section);
    painter.surface.start_tagged(ornament());
    painter.ground(Bounds { low: DVec2::ZERO, high: size });
    painter.surface.end_tagged();
    let mut head = Some(page.title.as_str());
    // A view by itself, and a picture; what stands around them together, as in every picture of it.
    for frames in page.frames.chunk_by(|a, b| !a.is_alone() && !b.is_alone()) {
        if let [Frame { content: Content::Photo(photo), place }] = frames {
            let seen = painter.surface.start_tagged(ContentTag::Other);
            let painted = photos::paint(painter.surface, photo, place);
            painter.surface.end_tagged();
            painted?;
            let mut figure = TagGroup::new(Tag::Figure(Some(clean(&photo.said))));
            figure.push(seen);
            section.push(figure);
        } else if let [view @ Frame { content: Content::View(_), .. }] = frames {
            let Bounds { low, high } = view.place;
            let seen = painter.surface.start_tagged(ContentTag::Other);
            if painter.clip(Bounds { low: low * PX_PER_PAPER_MM, high: high * PX_PER_PAPER_MM }) {
                for own in in_order(frames) {
                    painter.item(&own.placing, own.item, false);
                }
                painter.surface.pop();
            }
            painter.surface.end_tagged();
            let mut figure = TagGroup::new(Tag::Figure(Some(clean(&page.description))));
            figure.push(seen);
            section.push(figure);
        } else {
            around(&mut painter, frames, &mut head, &mut section);
        }
    }
    surface.pop();
    surface.finish();
    sheet.finish();
    Ok(section)
}
