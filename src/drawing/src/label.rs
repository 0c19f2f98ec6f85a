//! Names find a free place: inside what they name if they fit, else beside it, else shorter, else not at all.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::list::Text;
use crate::pen::Pen;
use crate::role::Role;
use crate::text::{Align, TextStyle, fitted};

/// Between a thing and its name, px.
const OFF_PX: f64 = 5.0;
/// A shortened name is worth less than a whole one in a worse place.
const SHORT_COST: f64 = 30.0;
/// A name that would cover as much as this is left out: what it names can still be pointed at.
const TOO_DEAR: f64 = 260.0;
/// Outside of what it names is worth less than inside.
const OUTSIDE_COST: f64 = 4.0;

/// A name looking for its place.
pub(crate) struct Wanted<'a> {
    pub text: &'a str,
    pub role: Role,
    pub subject: Option<Subject>,
    pub style: TextStyle,
    /// What it names, px.
    pub around: Bounds,
    /// The widest it may be, px.
    pub most_width: f64,
    /// Whether it is put down even where it covers something.
    pub must: bool,
    /// Whether it may stand inside what it names.
    pub inside: bool,
}

impl Pen<'_> {
    /// Puts a name near what it names. Whether it was put.
    pub fn name(&mut self, wanted: Wanted<'_>) -> bool {
        let Some(whole) = fitted(wanted.text, wanted.style, wanted.most_width, self.paper.measure) else {
            return false;
        };
        let height = wanted.style.line_height();
        let Bounds { low, high } = wanted.around;
        let middle = wanted.around.centre();
        let room = wanted.around.size();
        let mut best: Option<(f64, Text)> = None;
        let mut consider = |cost: f64, at: DVec2, align: Align, text: &str, width: f64| {
            let text = Text {
                at: self.mm(at),
                text: text.to_owned(),
                style: wanted.style,
                align,
                angle: 0.0,
                width,
                masked: true,
            };
            let cost = cost + self.space.cost(self.text_box(&text));
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, text));
            }
        };
        if wanted.inside && room.y >= height + 2.0 {
            if whole.width + 8.0 <= room.x {
                consider(0.0, middle, Align::Middle, &whole.text, whole.width);
            } else if let Some(short) = fitted(wanted.text, wanted.style, room.x - 8.0, self.paper.measure) {
                consider(SHORT_COST, middle, Align::Middle, &short.text, short.width);
            }
        }
        let off = height * 0.5 + 3.0;
        let places = [
            (DVec2::new(middle.x, high.y + off), Align::Middle),
            (DVec2::new(middle.x, low.y - off), Align::Middle),
            (DVec2::new(high.x + OFF_PX, middle.y), Align::Start),
            (DVec2::new(low.x - OFF_PX, middle.y), Align::End),
            (DVec2::new(low.x, high.y + off), Align::Start),
            (DVec2::new(high.x, high.y + off), Align::End),
            (DVec2::new(low.x, low.y - off), Align::Start),
            (DVec2::new(high.x, low.y - off), Align::End),
            (DVec2::new(high.x + OFF_PX, high.y - 6.0), Align::Start),
            (DVec2::new(low.x - OFF_PX, high.y - 6.0), Align::End),
        ];
        for (i, (at, align)) in places.into_iter().enumerate() {
            consider(OUTSIDE_COST + i as f64 * 0.5, at, align, &whole.text, whole.width);
        }
        match best {
            Some((cost, text)) if cost < TOO_DEAR || wanted.must => {
                self.put_text(wanted.role, wanted.subject, text);
                true
            }
            _ => false,
        }
    }
}
