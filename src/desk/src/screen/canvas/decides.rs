//! What decides that the car never fits, over the top view: the set-up where it fits best, the two that are in its way, and what is
//! missing between them, dimensioned.

use baywright_drawing::list::Shape as Listed;
use baywright_drawing::{Projection, Role};
use baywright_planner::geometry::{DVec2, Polygon, boolean};
use baywright_planner::words::Words;
use egui::{Color32, Stroke};

use super::paint::Painter;
use super::show::on_screen;
use super::{Canvas, Drawn, measure};
use crate::screen::look;
use crate::screen::view::{Decides, Viewing};
use crate::session::answer::Answer;

/// How strong the ground of what is in the way is.
const IN_THE_WAY: f32 = 0.3;
/// How strong the ground of the set-up is.
const GHOST: f32 = 0.1;

impl Canvas {
    /// Draws it.
    pub(super) fn decided(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        answer: &Answer,
        view: &Viewing,
        decides: &Decides,
    ) {
        let (rect, drawing) = (drawn.rect(Projection::Top), drawn.drawing(Projection::Top));
        let palette = view.theme.palette();
        let (beam, stops) = (look::colour(palette.beam), look::colour(palette.stops));
        let ghost = look::colour(palette.beam.faded(GHOST));
        let in_the_way = look::colour(palette.stops.faded(IN_THE_WAY));
        let Decides { proof, short } = decides;
        let view_from_bay = drawing.bay_from_view.inverse();
        let mut painter = Painter::of_all(drawing, (on.ctx(), view.theme), rect.min, &mut self.fills);
        // From above the set-up is one outline for each piece of it.
        let parts = proof.proof.set_up.iter().filter_map(|solid| {
            let at = |p: &[i64; 2]| DVec2::new(p[0] as f64, p[1] as f64) * 1e-3;
            Polygon::simple(solid.ring.iter().map(|p| view_from_bay * (short.pose * at(p))).collect()).ok()
        });
        for own in boolean::union(&parts.collect::<Vec<Polygon>>()) {
            let shape = Listed::Area(vec![own.outer().to_vec()]);
            painter.ghost(drawing, &shape, ghost, Color32::TRANSPARENT);
            // Side by side: where two of a set-up's solids join there are corners so sharp that a mitre runs off the paper.
            for edge in own.edges() {
                let ends = [edge.from, edge.to].map(|p| on_screen(rect, drawing.paper_point(p)));
                painter.out.push(egui::Shape::line_segment(ends, Stroke::new(2.0, beam)));
            }
        }
        for subject in &short.between {
            for item in drawing.showing(subject) {
                if matches!(item.shape, Listed::Area(_) | Listed::Disc { .. }) {
                    painter.ghost(drawing, &item.shape, in_the_way, stops);
                }
            }
        }
        let words = Words::new(&answer.judged, view.locale);
        let [from, to] = short.line;
        let missing = words.length(short.at_least_mm.floor());
        let ends = [from, to].map(|p| on_screen(rect, drawing.paper_point(view_from_bay * p)));
        painter.out.push(egui::Shape::line_segment(ends, Stroke::new(3.0, stops)));
        let dimension = measure::dimension(drawing, Projection::Top, from, to, missing);
        painter.item_of(drawing, Role::LiveDimension, Listed::Dimension(dimension));
        on.extend(std::mem::take(&mut painter.out));
    }
}
