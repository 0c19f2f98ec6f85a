//! Figures while something is in hand: one that stands still keeps its place as long as nothing else is read there, one that moves
//! keeps its place beside its own line, so that neither jumps where nothing forces it.

use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;

use crate::list::{Dimension, Text};
use crate::role::Role;
use crate::view::pen::{Pen, readable};
use crate::view::space::FIRM;

/// Cosine above which a line that moves runs as it did.
const AS_IT_RAN: f64 = 0.98;
/// A text nearer to its line than this stands on it, px; on it it takes so much more than its width.
const ON_LINE_PX: f64 = 1.0;
const ROOM_ON_LINE_PX: f64 = 10.0;
/// A text that turns by more than this from one drawing to the next is read from elsewhere, radians.
const SAME_WAY_UP: f64 = 0.5;

impl Pen<'_> {
    /// A dimension where it stood, if it spans the same, says one of `texts` and lies on nothing that is read.
    pub fn still_dimension(
        &self,
        role: Role,
        subject: Option<&Subject>,
        ends: (DVec2, DVec2),
        texts: &[&str],
    ) -> Option<Dimension> {
        let old = self.kept.still(role, subject, ends)?;
        let is_kept = texts.contains(&old.text.text.as_str()) && self.text_cost(&old.text) < FIRM;
        is_kept.then(|| old.clone())
    }

    /// A dimension from `from` to `to` along `along` (a unit vector), its line and its figure beside its own ends as they stood a
    /// moment ago, and what that costs, if it lies on nothing there that is read.
    pub fn moving_dimension(
        &self,
        role: Role,
        subject: Option<&Subject>,
        (from, to): (DVec2, DVec2),
        along: DVec2,
        text: &str,
    ) -> Option<(f64, Dimension)> {
        let old = self.kept.moving(role, subject, (from, to))?;
        let ran = (old.line_to - old.line_from).normalize_or_zero();
        let turned = readable(along);
        if ran.dot(along) < AS_IT_RAN || (readable(ran) - turned).abs() > SAME_WAY_UP {
            return None;
        }
        let beside = (old.line_from - old.from).reject_from_normalized(ran).dot(ran.perp());
        let now = self.dimension(from, to, along, from + along.perp() * beside, text);
        let (was_long, is_long) = (old.line_from.distance(old.line_to), now.line_from.distance(now.line_to));
        let off = old.text.at - old.line_from;
        let (far, aside) = (off.dot(ran), off.dot(ran.perp()));
        let is_on = aside.abs() * self.scale < ON_LINE_PX && (0.0..=was_long).contains(&far);
        if is_on && is_long * self.scale < now.text.width + ROOM_ON_LINE_PX {
            return None;
        }
        // As far along it as a share of it, beyond an end as far off that.
        let far = if far <= 0.0 {
            far
        } else if far >= was_long {
            is_long + far - was_long
        } else {
            is_long * far / was_long
        };
        let at = now.line_from + along * far + along.perp() * aside;
        let angle = if old.text.angle == 0.0 { 0.0 } else { turned };
        let text = Text { at, angle, align: old.text.align, ..now.text.clone() };
        let cost = self.text_cost(&text);
        (cost < FIRM).then_some((cost, Dimension { text, ..now }))
    }
}
