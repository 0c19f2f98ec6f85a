//! The boxes that texts take on the paper.

use baywright_planner::geometry::{Bounds, DVec2, angle};

use crate::list::Text;
use crate::text::Align;

/// A text whose angle's sine or cosine is below this is level or upright.
const LEVEL: f64 = 0.01;

/// The boxes that a text at a place of the paper takes, px: one for a level or an upright text, a row of small ones for a slanted
/// one, whose own box would be mostly empty.
pub(crate) fn text_boxes(at: DVec2, text: &Text) -> impl Iterator<Item = Bounds> + use<> {
    let (sin, cos) = angle::sin_cos(text.angle);
    let way = DVec2::new(cos, -sin);
    let middle = at
        + way
            * match text.align {
                Align::Start => text.width * 0.5,
                Align::Middle => 0.0,
                Align::End => text.width * -0.5,
            };
    let (w, h) = (text.width * 0.5 + 2.0, text.style.line_height() * 0.5);
    let slanted = sin.abs().min(cos.abs()) > LEVEL;
    let parts = if slanted { (w / h).ceil().clamp(1.0, 64.0) } else { 1.0 };
    let (w, step) = (w / parts, 2.0 * w / parts);
    let half = DVec2::new(w * cos.abs() + h * sin.abs(), w * sin.abs() + h * cos.abs());
    (0..parts as u32).map(move |i| {
        let at = middle + way * (step * (f64::from(i) + 0.5 - parts * 0.5));
        Bounds { low: at - half, high: at + half }
    })
}
