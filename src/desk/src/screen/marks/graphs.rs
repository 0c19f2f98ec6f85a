//! Graphs behind the details: pictures of figures that stand beside them as text too. They are looked at only: no wheel, no drag and
//! no key is theirs, so that the tab scrolls on under the pointer and the keyboard passes by.

use baywright_drawing::theme::Palette;
use baywright_planner::geometry::angle;
use baywright_planner::proof::{AfterReading, FigureOf};
use baywright_planner::words::Locale;
use baywright_planner::words::helps::HelpsTexts;
use egui::{Align2, Color32, RichText, Stroke, Ui, Vec2};
use egui_plot::{Bar, BarChart, HLine, Line, LineStyle, MarkerShape, PlotPoint, PlotPoints, Points, Text};

use crate::screen::look::{self, size};
use crate::screen::widgets::{self, named, still};

/// How things are drawn and said.
#[derive(Clone, Copy)]
pub(super) struct Look<'a> {
    pub palette: &'a Palette,
    pub locale: Locale,
    pub texts: &'a HelpsTexts,
}

/// Beyond this a reading does not fit (W. Baarda 1968, at a chance of 0.001).
const LIMIT: f64 = 3.29;
/// A bar with its name over it, px.
const BAR_PX: f32 = 32.0;
/// The graphs of readings, px.
const GRAPH_PX: f32 = 150.0;
/// Beside the bars' names, px.
const EDGE_PX: f32 = 24.0;

impl Look<'_> {
    fn ink(&self) -> Color32 {
        look::colour(self.palette.ink)
    }

    fn soft(&self) -> Color32 {
        look::colour(self.palette.soft)
    }

    fn beam(&self) -> Color32 {
        look::colour(self.palette.beam)
    }

    fn care(&self) -> Color32 {
        look::colour(self.palette.care)
    }

    fn small(&self, text: impl Into<String>, colour: Color32) -> RichText {
        RichText::new(text).size(size::LEAST).color(colour)
    }

    /// Each step's name with its share of what is unsure.
    pub fn shares(&self, ui: &mut Ui, shares: &[(String, f64)]) {
        heading(ui, self.texts.shares);
        let region = self.locale.region;
        let said = |(name, share): &(String, f64)| {
            self.texts.figure(name, &self.texts.share(&region.number(100.0 * share, 0)))
        };
        let read: Vec<String> = shares.iter().map(said).collect();
        let most = ui.available_width() - EDGE_PX;
        let names: Vec<String> = read.iter().map(|own| widgets::fitted(ui, own, most)).collect();
        let (ink, beam) = (self.ink(), self.beam());
        let texts: Vec<RichText> = names.into_iter().map(|name| self.small(name, ink)).collect();
        let longest = shares.iter().map(|own| own.1).fold(0.01, f64::max);
        let down = |nth: usize| -(nth as f64);
        let shown = still("graph of shares", BAR_PX * shares.len() as f32 + 8.0)
            .show_axes(false)
            .set_margin_fraction(Vec2::ZERO)
            .include_x(0.0)
            .include_x(longest * 1.02)
            .include_y(0.7)
            .include_y(down(shares.len()) + 0.6)
            .show(ui, |plot| {
                let bars = shares.iter().enumerate();
                let bars = bars.map(|(nth, own)| Bar::new(down(nth), own.1).width(0.3).fill(beam)).collect();
                plot.bar_chart(BarChart::new("", bars).horizontal().color(beam).allow_hover(false));
                for (nth, text) in texts.into_iter().enumerate() {
                    let at = PlotPoint::new(0.0, down(nth) + 0.42);
                    plot.text(Text::new("", at, text).anchor(Align2::LEFT_CENTER).allow_hover(false));
                }
            });
        named(&shown.response, self.texts.graph(self.texts.shares_read, &read));
    }

    /// Each reading's test in its order; a cross where it does not fit, the furthest with its marks' names.
    pub fn tests(&self, ui: &mut Ui, tests: &[(String, f64)]) {
        heading(ui, self.texts.tests);
        let (ink, beam, care, soft) = (self.ink(), self.beam(), self.care(), self.soft());
        let region = self.locale.region;
        let count = tests.len() as f64;
        let beyond = |own: &&(usize, &(String, f64))| own.1.1.abs() > LIMIT;
        let all: Vec<(usize, &(String, f64))> = tests.iter().enumerate().collect();
        let place = |own: &(usize, &(String, f64))| [own.0 as f64 + 1.0, own.1.1];
        let fit: PlotPoints<'_> = all.iter().filter(|own| !beyond(own)).map(place).collect();
        let not: PlotPoints<'_> = all.iter().filter(beyond).map(place).collect();
        // Only the furthest has its name there: the others stand too near to each other, and all stand in the list.
        let furthest = all.iter().filter(beyond).max_by(|a, b| a.1.1.abs().total_cmp(&b.1.1.abs()));
        let name = furthest.map(|own| {
            let is_early = (own.0 as f64) < count * 0.5;
            let (beside, anchor) =
                if is_early { (1.5, Align2::LEFT_CENTER) } else { (0.5, Align2::RIGHT_CENTER) };
            (PlotPoint::new(own.0 as f64 + beside, own.1.1), anchor, self.small(&own.1.0, ink))
        });
        let highest = tests.iter().map(|own| own.1.abs()).fold(LIMIT * 1.3, f64::max);
        let shown = still("graph of tests", GRAPH_PX)
            .show_axes([false, true])
            .include_x(0.0)
            .include_x(count + 1.0)
            .include_y(highest)
            .include_y(-highest)
            .y_axis_formatter(move |mark, _| region.number(mark.value, 0))
            .show(ui, |plot| {
                plot.hline(HLine::new("", 0.0).stroke(Stroke::new(1.0, soft)).allow_hover(false));
                for at in [LIMIT, -LIMIT] {
                    let line = HLine::new("", at).style(LineStyle::dashed_dense());
                    plot.hline(line.stroke(Stroke::new(1.4, care)).allow_hover(false));
                }
                plot.points(Points::new("", fit).radius(3.0).color(beam).allow_hover(false));
                let not = Points::new("", not).radius(5.0).color(care).shape(MarkerShape::Cross);
                plot.points(not.allow_hover(false));
                if let Some((at, anchor, text)) = name {
                    plot.text(Text::new("", at, text).anchor(anchor).allow_hover(false));
                }
            });
        ui.add(egui::Label::new(widgets::soft(ui, self.texts.limit_line)).wrap());
        let said = |own: &(String, f64)| self.texts.figure(&own.0, &region.number(own.1, 2));
        let read: Vec<String> = tests.iter().map(said).collect();
        named(&shown.response, self.texts.graph(self.texts.tests_read, &read));
    }

    /// How sure the first figure was after each reading, and down to what it must come.
    pub fn course(&self, ui: &mut Ui, of: FigureOf, course: &[AfterReading]) {
        heading(ui, self.texts.course);
        let locale = self.locale;
        // Degrees along the axis, or millimetres, said as everywhere else.
        let unit = if of.is_angle() { angle::degrees(1.0) } else { 1.0 };
        let in_words = move |value: f64| match of {
            FigureOf::Direction | FigureOf::Turn => format!("{}°", locale.region.number(value, 2)),
            FigureOf::Distance | FigureOf::Aside => locale.length(value),
        };
        let (beam, ready, ink) = (self.beam(), look::colour(self.palette.ready), self.ink());
        let region = self.locale.region;
        let at = |own: &AfterReading| [own.read as f64, own.u95 * unit];
        let line: PlotPoints<'_> = course.iter().map(at).collect();
        let points: PlotPoints<'_> = course.iter().map(at).collect();
        let enough = course.last().map_or(0.0, |own| own.enough * unit);
        let last = course.last().map_or(1.0, |own| own.read as f64);
        let text = self.small(self.texts.enough_line, ink);
        let shown = still("graph of the course", GRAPH_PX)
            .show_axes(true)
            .include_x(0.0)
            .include_x(last)
            .include_y(0.0)
            .include_y(enough * 1.25)
            .x_axis_formatter(move |mark, _| match mark.value.fract().abs() < 1e-6 && mark.value >= 0.0 {
                true => region.number(mark.value, 0),
                false => String::new(),
            })
            .y_axis_formatter(move |mark, _| in_words(mark.value))
            .show(ui, |plot| {
                let limit = HLine::new("", enough).style(LineStyle::dashed_dense());
                plot.hline(limit.stroke(Stroke::new(1.4, ready)).allow_hover(false));
                let at = PlotPoint::new(last, enough);
                plot.text(Text::new("", at, text).anchor(Align2::RIGHT_BOTTOM).allow_hover(false));
                plot.line(Line::new("", line).stroke(Stroke::new(1.6, beam)).allow_hover(false));
                plot.points(Points::new("", points).radius(2.8).color(beam).allow_hover(false));
            });
        ui.label(widgets::soft(ui, self.texts.course_across));
        let said = |own: &AfterReading| {
            self.texts.figure(&region.number(own.read as f64, 0), &format!("± {}", in_words(own.u95 * unit)))
        };
        let read: Vec<String> = course.iter().map(said).collect();
        named(&shown.response, self.texts.graph(self.texts.course_read, &read));
    }
}

fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(text).font(look::bold(size::SMALL)));
}
