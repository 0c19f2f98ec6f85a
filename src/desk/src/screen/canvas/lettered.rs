//! Where letters and figures stand on a view: nothing of the hand's is put over them.

use baywright_drawing::list::{Shape, Text};
use baywright_drawing::{Align, Drawing};
use baywright_planner::geometry::{Bounds, DVec2, angle};

/// The boxes of all letters of a view, px of its paper.
pub(super) struct Lettered {
    boxes: Vec<Bounds>,
}

impl Lettered {
    /// Those of a drawing.
    pub fn of(drawing: &Drawing) -> Self {
        let boxes = drawing.items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(around(drawing, text)),
            Shape::Dimension(dimension) => Some(around(drawing, &dimension.text)),
            Shape::Sign(sign) if !sign.text.is_empty() => {
                let at = drawing.paper_point(sign.at);
                Some(Bounds { low: at, high: at }.grown(sign.reach))
            }
            _ => None,
        });
        Self { boxes: boxes.collect() }
    }

    /// Whether something that reaches so far about a place would cover letters, px.
    pub fn covers(&self, place: DVec2, reach: f64) -> bool {
        let own = Bounds { low: place, high: place }.grown(reach);
        self.boxes.iter().any(|letters| letters.meets(&own))
    }
}

/// The box around a text, px.
fn around(drawing: &Drawing, text: &Text) -> Bounds {
    let at = drawing.paper_point(text.at);
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => text.width * 0.5,
        Align::End => text.width,
    };
    // Turned anticlockwise as seen; the paper's y goes down.
    let along = angle::direction(-text.angle);
    let half = text.style.size * 0.5;
    let corners =
        [(-before, -half), (text.width - before, -half), (-before, half), (text.width - before, half)]
            .map(|(x, y)| at + along * x + along.perp() * y);
    corners.into_iter().map(|p| Bounds { low: p, high: p }).fold(Bounds { low: at, high: at }, Bounds::union)
}
