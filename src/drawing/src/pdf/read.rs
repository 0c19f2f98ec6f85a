//! What stands around the views, painted layer by layer and tagged as it is read, frame by frame: the first line of a page is its
//! heading, what stands over a part a heading of the second level, a row's cells are cells of a table, the lines of a text one
//! paragraph. A view is a figure that is described in words; all else is ornament.

use std::collections::{BTreeMap, VecDeque};
use std::num::NonZeroU16;

use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, SpanTag, TableHeaderScope, Tag, TagGroup,
};

use super::shapes::Painter;
use crate::list::{Item, Shape};
use crate::page::{Content, Frame, InCell, Row, in_order};
use crate::role::Role;
use crate::text::clean;

/// What was painted in a frame and is read there, by its place in the frame.
#[derive(Default)]
struct Seen {
    texts: BTreeMap<usize, Identifier>,
    boxes: BTreeMap<usize, Identifier>,
}

/// What is not read.
pub(super) const fn ornament() -> ContentTag<'static> {
    ContentTag::Artifact(Artifact { kind: ArtifactType::Layout, bbox: None })
}

fn text_of(item: &Item) -> Option<&str> {
    match &item.shape {
        Shape::Text(own) if !own.text.is_empty() => Some(&own.text),
        _ => None,
    }
}

/// Frames without a view; `head` is the page's title as long as its heading was not read.
pub(super) fn around(
    painter: &mut Painter<'_, '_>,
    frames: &[Frame],
    head: &mut Option<&str>,
    section: &mut TagGroup,
) {
    let mut seen: Vec<Seen> = frames.iter().map(|_| Seen::default()).collect();
    for own in in_order(frames) {
        let is_row = frames.get(own.frame).is_some_and(|own| matches!(own.content, Content::Row(_)));
        let is_text = text_of(own.item).is_some();
        let is_box = is_row && own.item.role == Role::Field;
        let tag = match (is_text, is_box) {
            (true, _) => ContentTag::Span(SpanTag::empty()),
            (false, true) => ContentTag::Other,
            (false, false) => ornament(),
        };
        let id = painter.surface.start_tagged(tag);
        // A blank after it, so that what is read does not run into what follows.
        painter.item(&own.placing, own.item, is_text);
        painter.surface.end_tagged();
        if let Some(seen) = seen.get_mut(own.frame) {
            if is_text {
                seen.texts.insert(own.read, id);
            } else if is_box {
                seen.boxes.insert(own.read, id);
            }
        }
    }
    let mut table: Option<TagGroup> = None;
    for (frame, seen) in frames.iter().zip(seen) {
        if let Content::Row(row) = &frame.content {
            if row.is_first
                && let Some(done) = table.take()
            {
                section.push(done);
            }
            let mut rows = table.take().unwrap_or_else(|| TagGroup::new(Tag::Table));
            rows.push(row_of(painter, row, seen));
            table = Some(rows);
            continue;
        }
        if let Some(done) = table.take() {
            section.push(done);
        }
        let mut texts = seen.texts.into_values().peekable();
        if texts.peek().is_none() {
            continue;
        }
        if let Some(title) = head.take()
            && let Some(first) = texts.next()
        {
            section.push(heading(1, title.to_owned(), [first]));
        }
        match &frame.content {
            Content::Heading(items) => {
                let said: Vec<&str> = items.iter().filter_map(text_of).collect();
                section.push(heading(2, clean(&said.join(" ")), texts));
            }
            Content::Text(_) => {
                let mut paragraph = TagGroup::new(Tag::P);
                texts.for_each(|own| paragraph.push(own));
                section.push(paragraph);
            }
            // Fields and signs: each line says something of its own.
            _ => {
                for own in texts {
                    let mut line = TagGroup::new(Tag::P);
                    line.push(own);
                    section.push(line);
                }
            }
        }
    }
    if let Some(done) = table {
        section.push(done);
    }
}

fn heading(level: u16, title: String, of: impl IntoIterator<Item = Identifier>) -> TagGroup {
    let mut group = match NonZeroU16::new(level) {
        Some(level) => TagGroup::new(Tag::Hn(level, Some(title))),
        None => TagGroup::new(Tag::P),
    };
    of.into_iter().for_each(|own| group.push(own));
    group
}

/// A row with as many cells as it has columns: what is empty is a cell too, so that the rest stays under its heads.
fn row_of(painter: &mut Painter<'_, '_>, row: &Row, seen: Seen) -> TagGroup {
    let mut texts: VecDeque<Identifier> = seen.texts.into_values().collect();
    let mut boxes: VecDeque<Identifier> = seen.boxes.into_values().collect();
    let mut all = TagGroup::new(Tag::TR);
    let last = row.cells.len().saturating_sub(1);
    for (at, own) in row.cells.iter().enumerate() {
        let mut cell = match own {
            _ if row.is_head => TagGroup::new(Tag::TH(TableHeaderScope::Column)),
            InCell::Lines(_) if row.names_itself => TagGroup::new(Tag::TH(TableHeaderScope::Row)),
            InCell::Lines(_) | InCell::Box | InCell::Nothing => TagGroup::new(Tag::TD),
        };
        let lines = match own {
            // Nothing that is read is left out, whatever was counted.
            _ if at == last => texts.len(),
            InCell::Lines(lines) => (*lines).min(texts.len()),
            InCell::Box | InCell::Nothing => 0,
        };
        let mut inside: Vec<Identifier> = texts.drain(..lines).collect();
        match own {
            _ if at == last => inside.extend(boxes.drain(..)),
            InCell::Box => inside.extend(boxes.pop_front()),
            InCell::Lines(_) | InCell::Nothing => {}
        }
        if inside.is_empty() {
            inside.push(painter.surface.start_tagged(ContentTag::Span(SpanTag::empty())));
            painter.surface.end_tagged();
        }
        inside.into_iter().for_each(|own| cell.push(own));
        all.push(cell);
    }
    all
}
