//! Blocks set one below another over as many pages as they take. All lengths here are px of the paper, y down.

use baywright_planner::Severity;
use baywright_planner::geometry::{Bounds, DVec2};

use super::lines::{READ_MM, WORK_MM, WRITTEN_MM, lines, pitch, style};
use crate::lettering::Lettering;
use crate::list::{Drawing, Item, PX_PER_PAPER_MM};
use crate::page::setter::Setter;
use crate::page::{Content, Frame, Photo};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle, Weight};

/// A length of paper, px.
pub(super) const fn px(mm: f64) -> f64 {
    mm * PX_PER_PAPER_MM
}

/// What stands before the first line of a text.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Lead {
    /// A number, a dash.
    Text(String),
    /// A finding's letter in its sign.
    Sign(String, Severity),
    /// A small box that is ticked by hand.
    Tick,
    /// Nothing: it goes on with the text above it.
    Nothing,
}

/// How wide what stands before a text is, mm.
const LEAD_MM: f64 = 7.0;
/// A triangle is so much wider than its reach.
const ASIDE_OF_SIGN: f64 = 1.15;
/// A box that is ticked, its side, mm.
const TICK_MM: f64 = 3.6;

/// Between two columns, mm.
const BETWEEN_COLUMNS_MM: f64 = 6.0;

/// Between a picture and what is said under it, mm.
const UNDER_PHOTO_MM: f64 = 1.2;

/// What is set in columns.
pub(super) struct Columns {
    /// As high as the highest of them, px.
    pub height: f64,
    /// Each frame and where its column begins, from the left, px.
    frames: Vec<(f64, Frame)>,
}

/// A text and how it is set.
#[derive(Clone, Debug)]
pub(super) struct Said<'a> {
    pub text: &'a str,
    pub style: TextStyle,
    pub role: Role,
    pub lead: Option<Lead>,
}

/// How large all of a flow is set, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    /// Capitals of what is read while working.
    pub work: f64,
    /// Capitals of what else is read.
    pub read: f64,
    /// The height of a row that is written in by hand, at least.
    pub written: f64,
}

impl Sizes {
    /// As a sheet is set that has room for it.
    pub const USUAL: Self = Self { work: WORK_MM, read: READ_MM, written: WRITTEN_MM };
}

/// What is set so far, and where the next block begins.
pub(super) struct Flow<'a> {
    pub lettering: &'a Lettering<'a>,
    pub sizes: Sizes,
    /// What of each page is set in.
    area: Bounds,
    /// Whether a text that has room on one page is not broken.
    keeps_whole: bool,
    pages: Vec<Vec<Frame>>,
    /// From the upper edge of that.
    y: f64,
}

impl<'a> Flow<'a> {
    pub fn new(lettering: &'a Lettering<'a>, area: Bounds) -> Self {
        Self { lettering, sizes: Sizes::USUAL, area, keeps_whole: false, pages: vec![Vec::new()], y: 0.0 }
    }

    /// The same with other sizes.
    pub fn sized(self, sizes: Sizes) -> Self {
        Self { sizes, ..self }
    }

    /// An empty one of the same sizes, so wide and high, px, in which no text is broken: for [`Self::place`].
    fn inner(&self, width: f64, height: f64) -> Self {
        let area = Bounds { low: DVec2::ZERO, high: DVec2::new(width, height) };
        Self { keeps_whole: true, ..Flow::new(self.lettering, area).sized(self.sizes) }
    }

    /// What is set of itself, in so many columns side by side, each as high as it must be and no higher than `most`, px; `None` if it
    /// is more than that.
    pub fn columns(&self, count: usize, most: f64, set: &dyn Fn(&mut Self)) -> Option<Columns> {
        let between = px(BETWEEN_COLUMNS_MM);
        let width = (self.width() - between * (count.max(1) - 1) as f64) / count.max(1) as f64;
        let fill = |high: f64| {
            let mut inner = self.inner(width, high);
            set(&mut inner);
            (inner.pages.len() <= count && inner.tallest() <= high).then_some(inner)
        };
        let mut best = fill(most)?;
        // The lowest height at which they hold all of it, to a pixel.
        let (mut low, mut high) = (0.0, most);
        while high - low > 1.0 {
            let middle = (low + high) * 0.5;
            match fill(middle) {
                Some(inner) => (best, high) = (inner, middle),
                None => low = middle,
            }
        }
        let step = width + between;
        let pages = best.pages.into_iter().enumerate();
        let frames =
            pages.flat_map(|(at, frames)| frames.into_iter().map(move |own| (step * at as f64, own)));
        Some(Columns { height: high, frames: frames.collect() })
    }

    /// Puts columns here.
    pub fn place(&mut self, columns: Columns) {
        self.ensure(columns.height);
        let corner = self.area.low + DVec2::new(0.0, self.y);
        for (x, own) in columns.frames {
            let by = (corner + DVec2::X * x) / PX_PER_PAPER_MM;
            let place = Bounds { low: own.place.low + by, high: own.place.high + by };
            self.put(Frame { place, ..own }, 0.0);
        }
        self.y += columns.height;
    }

    /// How far down the lowest block of any page reaches.
    fn tallest(&self) -> f64 {
        let ends = self.pages.iter().flatten().map(|own| own.place.high.y * PX_PER_PAPER_MM);
        ends.fold(0.0, f64::max)
    }

    /// How wide a block is.
    pub fn width(&self) -> f64 {
        self.area.size().x
    }

    /// How high a page is.
    pub fn height(&self) -> f64 {
        self.area.size().y
    }

    /// How much of this page is taken.
    pub const fn taken(&self) -> f64 {
        self.y
    }

    /// Goes on to a new page, unless nothing stands on this one.
    pub fn next_page(&mut self) {
        self.ensure(f64::INFINITY);
    }

    /// How much of this page is left.
    pub fn left(&self) -> f64 {
        self.height() - self.y
    }

    /// How many pages there are so far.
    pub fn count(&self) -> usize {
        self.pages.len()
    }

    /// The pages.
    pub fn done(self) -> Vec<Vec<Frame>> {
        self.pages
    }

    /// A style of this sheet.
    pub fn style(&self, capitals_mm: f64, weight: Weight) -> TextStyle {
        style(self.lettering, capitals_mm, weight)
    }

    /// Goes on to a new page unless so much is left, or nothing stands on this one.
    pub fn ensure(&mut self, height: f64) {
        if height > self.left() && self.y > 0.0 {
            self.pages.push(Vec::new());
            self.y = 0.0;
        }
    }

    /// Leaves so much free, but not at the head of a page.
    pub fn gap(&mut self, mm: f64) {
        if self.y > 0.0 {
            self.y += px(mm);
        }
    }

    /// Leaves so much free, px, at the head of a page too, where what comes then is so high.
    pub fn clear(&mut self, over: f64, height: f64) {
        self.ensure(over + height);
        self.y += over;
    }

    /// A block that is set here, as wide as the page is.
    pub fn block(
        &mut self,
        height: f64,
        content: impl FnOnce(Vec<Item>) -> Content,
        set: impl FnOnce(&mut Setter<'a>),
    ) {
        self.ensure(height);
        let mut setter = Setter::new(self.lettering, DVec2::new(self.width(), height));
        set(&mut setter);
        let frame = setter.framed(self.area.low + DVec2::new(0.0, self.y), content);
        self.put(frame, height);
    }

    /// A view, in the middle of the page's width.
    pub fn view(&mut self, drawing: Drawing) {
        let size = drawing.size;
        self.ensure(size.y);
        let aside = (self.width() - size.x) * 0.5;
        let corner = self.area.low + DVec2::new(aside, self.y);
        self.put(Frame::of_view(drawing, corner / PX_PER_PAPER_MM), size.y);
    }

    /// A picture of dots, so large, px, at the left, with a text under it on the same page.
    pub fn photo(&mut self, photo: Photo, size: DVec2, under: &str) {
        self.ensure(size.y + px(UNDER_PHOTO_MM) + self.height_read(under));
        let corner = self.area.low + DVec2::new(0.0, self.y);
        let place = Bounds { low: corner / PX_PER_PAPER_MM, high: (corner + size) / PX_PER_PAPER_MM };
        self.put(Frame { place, content: Content::Photo(photo) }, size.y + px(UNDER_PHOTO_MM));
        self.read(under, None);
    }

    /// A view at the right with what stands at its left, as high as the higher of them.
    pub fn view_beside(&mut self, drawing: Drawing, high: f64, set_left: impl FnOnce(&mut Setter<'a>)) {
        let size = drawing.size;
        let left = self.width() - size.x;
        self.ensure(size.y.max(high));
        let corner = self.area.low + DVec2::new(0.0, self.y);
        let mut beside = Setter::new(self.lettering, DVec2::new(left, high));
        set_left(&mut beside);
        self.put(beside.framed(corner, Content::Text), 0.0);
        let at = corner + DVec2::X * left;
        self.put(Frame::of_view(drawing, at / PX_PER_PAPER_MM), size.y.max(high));
    }

    /// Short texts to be ticked, two in a row where both have room; their capitals so high, mm.
    pub fn ticked(&mut self, texts: &[String], capitals_mm: f64) {
        let style = self.style(capitals_mm, Weight::Regular);
        let indent = px(LEAD_MM) * self.lettering.enlarged();
        let half = self.width() * 0.5;
        let is_short = |text: &String| self.lettering.width_of(text, style) < half - indent - px(2.0);
        let mut rest = texts;
        while let [first, later @ ..] = rest {
            let Some((second, after)) =
                later.split_first().filter(|_| is_short(first)).filter(|(next, _)| is_short(next))
            else {
                self.said(&Said { text: first, style, role: Role::Title, lead: Some(Lead::Tick) });
                rest = later;
                continue;
            };
            let each = pitch(style);
            self.block(each + px(0.6), Content::Text, |setter| {
                for (text, x) in [(first, 0.0), (second, half)] {
                    let at = DVec2::new(x, each * 0.5);
                    put_lead(setter, &Lead::Tick, at, style);
                    setter.text(
                        Role::Title,
                        at + DVec2::X * indent,
                        text,
                        style,
                        Align::Start,
                        f64::INFINITY,
                    );
                }
            });
            rest = after;
        }
    }

    /// A view at the right, with what stands in the strips at its left, so wide, and below it, so high.
    pub fn view_with(
        &mut self,
        drawing: Drawing,
        (left, set_left): (f64, impl FnOnce(&mut Setter<'a>)),
        (under, set_under): (f64, impl FnOnce(&mut Setter<'a>)),
    ) {
        let size = drawing.size;
        self.ensure(size.y + under);
        let corner = self.area.low + DVec2::new(0.0, self.y);
        let mut beside = Setter::new(self.lettering, DVec2::new(left, size.y));
        set_left(&mut beside);
        self.put(beside.framed(corner, Content::Text), 0.0);
        self.put(Frame::of_view(drawing, (corner + DVec2::X * left) / PX_PER_PAPER_MM), size.y);
        self.block(under, Content::Text, set_under);
    }

    fn put(&mut self, frame: Frame, height: f64) {
        if let Some(page) = self.pages.last_mut() {
            page.push(frame);
        }
        self.y += height;
    }

    /// A heading over what follows, kept on one page with so much of it.
    pub fn heading(&mut self, text: &str, with_mm: f64) {
        let style = self.style(self.sizes.work, Weight::Bold);
        let texts = lines(text, style, self.width(), self.lettering);
        let each = pitch(style);
        let height = each * texts.len() as f64 + px(1.2);
        self.gap(2.6);
        self.ensure(height + px(with_mm));
        self.block(height, Content::Heading, |setter| {
            let width = setter.size.x;
            let under = height - px(0.8);
            setter.line(Role::RuleHeavy, [DVec2::new(0.0, under), DVec2::new(width, under)]);
            for (line, text) in texts.iter().enumerate() {
                let at = DVec2::new(0.0, each * (line as f64 + 0.5));
                setter.text(Role::Title, at, text, style, Align::Start, f64::INFINITY);
            }
        });
    }

    /// A text in the size of what is read while working.
    pub fn work(&mut self, text: &str, lead: Option<Lead>) {
        let style = self.style(self.sizes.work, Weight::Regular);
        self.said(&Said { text, style, role: Role::Title, lead });
    }

    /// A text in the size of what else is read.
    pub fn read(&mut self, text: &str, lead: Option<Lead>) {
        let style = self.style(self.sizes.read, Weight::Regular);
        self.said(&Said { text, style, role: Role::Title, lead });
    }

    /// How high a text is in the size of what is read, with something before it.
    pub fn height_read(&self, text: &str) -> f64 {
        let style = self.style(self.sizes.read, Weight::Regular);
        let most = self.width() - px(LEAD_MM) * self.lettering.enlarged();
        pitch(style) * lines(text, style, most, self.lettering).len() as f64 + px(0.6)
    }

    fn indent(&self, said: &Said<'_>) -> f64 {
        if said.lead.is_some() { px(LEAD_MM) * self.lettering.enlarged() } else { 0.0 }
    }

    /// A text, over more than one page if it must be.
    pub fn said(&mut self, said: &Said<'_>) {
        let indent = self.indent(said);
        let texts = lines(said.text, said.style, self.width() - indent, self.lettering);
        let each = pitch(said.style);
        let whole = each * texts.len() as f64 + px(0.6);
        // No line stands alone at the foot of a page.
        let together =
            if self.keeps_whole && whole <= self.height() { texts.len() } else { texts.len().min(2) };
        self.ensure(each * together as f64 + px(0.6));
        let mut lead = said.lead.as_ref();
        let mut rest = texts.as_slice();
        while !rest.is_empty() {
            self.ensure(each + px(0.6));
            let fits = ((self.left() - px(0.6)) / each).floor().max(1.0) as usize;
            let (now, later) = rest.split_at(fits.min(rest.len()));
            let height = each * now.len() as f64 + if later.is_empty() { px(0.6) } else { 0.0 };
            let lead = lead.take();
            self.block(height, Content::Text, |setter| {
                if let Some(lead) = lead {
                    put_lead(setter, lead, DVec2::new(0.0, each * 0.5), said.style);
                }
                for (line, text) in now.iter().enumerate() {
                    let at = DVec2::new(indent, each * (line as f64 + 0.5));
                    setter.text(said.role, at, text, said.style, Align::Start, f64::INFINITY);
                }
            });
            rest = later;
        }
    }
}

/// What stands before a text, half way up its first line, from the left edge on.
pub(super) fn put_lead(setter: &mut Setter<'_>, lead: &Lead, at: DVec2, style: TextStyle) {
    let by = setter.lettering.enlarged();
    match lead {
        Lead::Text(text) => {
            setter.text(
                Role::Title,
                at,
                text,
                TextStyle { weight: Weight::Bold, ..style },
                Align::Start,
                f64::INFINITY,
            );
        }
        Lead::Nothing => {}
        Lead::Sign(letter, severity) => {
            let reach = px(2.4) * by;
            let own = TextStyle { weight: Weight::Bold, ..style };
            let kind = SignKind::of_severity(*severity);
            setter.sign(
                Role::KeySign(*severity),
                at + DVec2::X * (reach * ASIDE_OF_SIGN),
                kind,
                reach,
                letter,
                own,
            );
        }
        Lead::Tick => {
            let half = px(TICK_MM) * 0.5 * by;
            let middle = at + DVec2::X * (half + 1.0);
            setter.ring(Role::Field, square(middle, half));
        }
    }
}

/// A square about its middle.
pub(super) fn square(middle: DVec2, half: f64) -> [DVec2; 4] {
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| middle + DVec2::new(x, y) * half)
}
