//! Pages of one sheet: what flows over them, with the title block at the foot of each.

use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Provenance;
use baywright_planner::words::Words;

use super::about::About;
use super::block::{Block, Field};
use super::flow::{Flow, px};
use super::paper::Paper;
use crate::lettering::Lettering;
use crate::page::Page;

/// Between what flows and the title block, mm.
const OVER_BLOCK_MM: f64 = 2.5;
/// No sheet is as long as this, px.
const ENDLESS_PX: f64 = 1e8;

/// So many digits the pages' numbers may take.
const MOST_PAGES: usize = 99;

/// The pages of what is set into a flow, with a title block of these fields at the foot of each: of which page they are, of how many.
/// `set` gives what is said of the pages' views to who cannot see them.
pub(super) fn footed<'a>(
    paper: Paper,
    lettering: &'a Lettering<'a>,
    fields: &dyn Fn(usize, usize) -> Vec<Field>,
    title: &dyn Fn((usize, usize)) -> String,
    set: impl FnOnce(&mut Flow<'a>) -> String,
) -> Vec<Page> {
    let (size, margin) = (paper.size_mm(), paper.margin_mm());
    let area = Bounds { low: DVec2::splat(px(margin)), high: (size - DVec2::splat(margin)) * px(1.0) };
    let block = |at: usize, count: usize| Block::of(fields(at, count), area.size().x, lettering);
    // A page's number may take a digit more than the first one's.
    let foot = block(MOST_PAGES, MOST_PAGES).height();
    let high = DVec2::new(area.high.x, area.high.y - foot - px(OVER_BLOCK_MM));
    let mut flow = Flow::new(lettering, Bounds { low: area.low, high });
    let description = set(&mut flow);
    let all = flow.done();
    let count = all.len();
    let page = |(at, mut frames): (usize, Vec<crate::page::Frame>)| {
        let block = block(at + 1, count);
        frames.push(block.frame(DVec2::new(area.low.x, area.high.y - block.height())));
        Page { size, title: title((at + 1, count)), description: description.clone(), frames }
    };
    all.into_iter().enumerate().map(page).collect()
}

/// A sheet in the making: its paper, what it is called and what it is of.
pub(super) struct Sheeted<'a> {
    pub paper: Paper,
    pub about: &'a About,
    pub lettering: &'a Lettering<'a>,
    pub words: &'a Words<'a>,
    /// What the sheet is: "Mark sheet".
    pub title: &'a str,
    /// Whether nothing is said of the set-up: what the title block is of is written in by hand.
    pub is_blank: bool,
}

impl<'a> Sheeted<'a> {
    /// An empty flow, as large as the paper leaves.
    pub fn flow(&self) -> Flow<'a> {
        let block = self.block(1, 1);
        let area = self.inside();
        let high = DVec2::new(area.high.x, area.high.y - block.height() - px(OVER_BLOCK_MM));
        Flow::new(self.lettering, Bounds { low: area.low, high: high.max(area.low + DVec2::splat(px(20.0))) })
    }

    /// A flow of the same width without an end: what is set in it tells how high it is.
    pub fn endless(&self, like: &Flow<'a>) -> Flow<'a> {
        let area = Bounds { low: DVec2::ZERO, high: DVec2::new(like.width(), ENDLESS_PX) };
        Flow::new(self.lettering, area).sized(like.sizes)
    }

    /// The pages of what was set, each described so to who cannot see its views.
    pub fn pages(&self, flow: Flow<'_>, description: &str) -> Vec<Page> {
        let area = self.inside();
        let all = flow.done();
        let count = all.len();
        let texts = self.words.locale().language.sheets();
        let set_up = if self.is_blank { "" } else { self.words.arrangement().id.as_str() };
        let page = |(at, mut frames): (usize, Vec<crate::page::Frame>)| {
            let block = self.block(at + 1, count);
            frames.push(block.frame(DVec2::new(area.low.x, area.high.y - block.height())));
            Page {
                size: self.paper.size_mm(),
                title: texts.page_title(self.title, set_up, (at + 1, count)),
                description: description.to_owned(),
                frames,
            }
        };
        all.into_iter().enumerate().map(page).collect()
    }

    /// The paper without its margins, px.
    fn inside(&self) -> Bounds {
        let (size, margin) = (self.paper.size_mm(), self.paper.margin_mm());
        Bounds { low: DVec2::splat(px(margin)), high: (size - DVec2::splat(margin)) * px(1.0) }
    }

    fn block(&self, at: usize, count: usize) -> Block<'a> {
        let texts = self.words.locale().language.sheets();
        let own = self.words.arrangement();
        let field = |name: &str, value: &str| Field { name: name.to_owned(), value: value.to_owned() };
        let known = |value: String| if self.is_blank { String::new() } else { value };
        let made_in = texts.in_bay(&own.bay.name, own.id.as_str());
        let mut fields = vec![
            field(texts.sheet, self.title),
            field(texts.bay, &known(made_in)),
            field(texts.car, &known(own.vehicle.name.clone())),
            field(texts.aiming, &known(own.aiming.name.clone())),
            field(texts.procedure, &known(self.procedure(&own.aiming.provenance))),
        ];
        for (name, value) in [
            (texts.file, &self.about.file),
            (texts.day, &self.about.day),
            (texts.revision, &self.about.revision),
            (texts.record, &self.about.record),
        ] {
            if self.is_blank && name != texts.revision {
                fields.push(field(name, ""));
            } else if !value.is_empty() {
                fields.push(field(name, value));
            }
        }
        if !self.about.shop.is_empty() {
            fields.insert(0, field(texts.shop, &self.about.shop));
        }
        fields.push(field(texts.page, &texts.page_of(at, count)));
        let (size, margin) = (self.paper.size_mm(), self.paper.margin_mm());
        Block::of(fields, px(size.x - 2.0 * margin), self.lettering)
    }

    fn procedure(&self, of: &Provenance) -> String {
        self.words.provenance(of)
    }
}
