//! Names find a free place: inside what they name if they fit, else beside it, else shorter, else not at all.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::pen::Pen;
use crate::role::Role;
use crate::space::Taken;
use crate::text::{Align, Fitted, TextStyle, fitted};

/// Between a thing and its name, px.
const OFF_PX: f64 = 5.0;
/// A shortened name is worth less than a whole one in a worse place.
const SHORT_COST: f64 = 30.0;
/// A name that would cover as much as this is left out: what it names can still be pointed at.
const TOO_DEAR: f64 = 190.0;
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
        let mut best: Option<(f64, DVec2, Align, Fitted)> = None;
        if wanted.inside && room.y >= height + 2.0 {
            let inside = if whole.width + 8.0 <= room.x {
                Some((0.0, whole.clone()))
            } else {
                let short = fitted(wanted.text, wanted.style, room.x - 8.0, self.paper.measure);
                let letters = whole.text.chars().count();
                // Half a name is told better beside the thing than by its first letters inside.
                short
                    .filter(|short| 2 * short.text.chars().count() > letters)
                    .map(|short| (SHORT_COST, short))
            };
            if let Some((extra, text)) = inside {
                let place = self.level_box(middle, Align::Middle, text.width, wanted.style);
                // The body that it covers is its own.
                let cost = (extra + self.space.cost(place) - Taken::Body.cost()).max(extra);
                best = Some((cost, middle, Align::Middle, text));
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
        let least = best.as_ref().map_or(f64::INFINITY, |(cost, ..)| *cost);
        if least > OUTSIDE_COST {
            let extras = (0..).map(|i| OUTSIDE_COST + 0.5 * f64::from(i));
            let places = extras.zip(places).map(|(extra, (at, align))| (extra, at, align));
            if let Some((cost, at, align)) = self.cheapest(whole.width, wanted.style, places)
                && cost < least
            {
                best = Some((cost, at, align, whole));
            }
        }
        match best {
            Some((cost, at, align, text)) if cost < TOO_DEAR || wanted.must => {
                self.put_level(wanted.role, wanted.subject, text, wanted.style, (at, align));
                true
            }
            _ => false,
        }
    }
}
