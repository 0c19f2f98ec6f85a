//! Levels against range: each echo as an upright stroke from the least to the most that it may be, the target's own at nothing, and
//! where the radar cannot tell an echo from the target by its distance shaded. It is looked at only.

use baywright_planner::echoes::{Echo, LEAST_DB, OwnEcho, Seen};
use egui::{Align2, RichText, Stroke, Ui};
use egui_plot::{HLine, Line, PlotPoint, PlotPoints, Points, Polygon, Text};

use crate::screen::Desk;
use crate::screen::look::{self, size};
use crate::screen::widgets::{self, still};

const GRAPH_PX: f32 = 170.0;
/// So much over the strongest, dB.
const OVER_DB: f64 = 6.0;

/// The graph.
pub(super) fn levels(desk: &Desk, ui: &mut Ui, seen: &Seen, own: &OwnEcho) {
    let texts = desk.view.locale.language.echoes();
    let (palette, locale) = (desk.view.theme.palette(), desk.view.locale);
    let [ink, beam, care, ready] = [palette.ink, palette.beam, palette.care, palette.ready].map(look::colour);
    let strongest = seen.echoes.iter().map(|own| own.heard.level_db.high()).fold(0.0, f64::max) + OVER_DB;
    let farthest = seen.echoes.iter().map(|own| own.heard.range_mm).fold(own.range_mm, f64::max) * 1.1;
    let (low, high) = (own.cell_mm.0.max(0.0), own.cell_mm.1);
    ui.label(RichText::new(texts.graph).font(look::bold(size::SMALL)));
    let shown = still("graph of echoes", GRAPH_PX)
        .show_axes(true)
        .include_x(0.0)
        .include_x(farthest)
        .include_y(LEAST_DB)
        .include_y(strongest)
        .x_axis_formatter(move |mark, _| locale.length(mark.value))
        .y_axis_formatter(move |mark, _| locale.region.number(mark.value, 0))
        .show(ui, |plot| {
            let cell = vec![[low, LEAST_DB], [high, LEAST_DB], [high, strongest], [low, strongest]];
            let cell = Polygon::new("", PlotPoints::from(cell)).fill_color(ready.gamma_multiply(0.15));
            plot.polygon(cell.stroke(Stroke::NONE).allow_hover(false));
            plot.hline(HLine::new("", 0.0).stroke(Stroke::new(1.0, ink)).allow_hover(false));
            for echo in &seen.echoes {
                let colour = if echo.heard.matters() { care } else { beam };
                let from = echo.heard.level_db.low().max(LEAST_DB);
                let line =
                    vec![[echo.heard.range_mm, from], [echo.heard.range_mm, echo.heard.level_db.high()]];
                let line = Line::new("", PlotPoints::from(line)).stroke(Stroke::new(2.0, colour));
                plot.line(line.allow_hover(false));
                let top = PlotPoints::from(vec![[echo.heard.range_mm, echo.heard.level_db.high()]]);
                plot.points(Points::new("", top).radius(3.0).color(colour).allow_hover(false));
            }
            let at = vec![[own.range_mm, 0.0]];
            plot.points(Points::new("", PlotPoints::from(at)).radius(4.0).color(ink).allow_hover(false));
            let name = RichText::new(texts.target).size(size::LEAST).color(ink);
            let at = PlotPoint::new(own.range_mm, 0.0);
            plot.text(Text::new("", at, name).anchor(Align2::LEFT_BOTTOM).allow_hover(false));
        });
    ui.label(widgets::soft(ui, texts.graph_across));
    ui.add(egui::Label::new(widgets::soft(ui, texts.cell)).wrap());
    let read: Vec<String> = seen.echoes.iter().map(|own: &Echo| desk.words().echo_of(own)).collect();
    widgets::named(&shown.response, texts.graph_read(&read));
}
