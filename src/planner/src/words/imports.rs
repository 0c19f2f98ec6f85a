//! Words for making a bay of a drawing of another program.

use super::Lengths;
use crate::geometry::DVec2;
use crate::model::fault::LeftOut;

texts! {
    imports: Imports, "Every fixed text about drawings of other programs.";
    unit_mm, "A unit, within a sentence.";
    unit_cm, "A unit, within a sentence.";
    unit_m, "A unit, within a sentence.";
    unit_in, "A unit, within a sentence.";
    unit_ft, "A unit, within a sentence.";
    choose_layers, "What to do once the layers are listed.";
    solid_and_by_eye, "How what a drawing does not tell is taken.";
    no_layers, "That nothing is drawn in it.";
    set_up, "What the first set-up is called.";
}

impl Imports {
    sentences! { imports:
        /// In which unit a drawing is.
        drawn_in(file: &str, unit: Option<&str>) -> String;
        /// A layer: how many lines and arcs, notes, its size and lower left corner in the drawing's units, whether it is switched
        /// off.
        layer(lines: usize, notes: usize, reach: Option<(DVec2, DVec2)>, is_hidden: bool) -> String;
        /// So many of a kind that were left out, why, and the lines of the first ones.
        left_out(kind: Option<&str>, why: LeftOut, count: usize, lines: &[u32]) -> String;
        /// What came of it.
        made(walls: usize, things: usize) -> String;
        /// A gap that was closed, and where.
        closed(size_mm: f64, at: DVec2, lengths: Lengths) -> String;
        /// Gaps beyond those that were told.
        closed_more(count: usize) -> String;
        /// That the drawing was moved.
        moved(by: DVec2, lengths: Lengths) -> String;
        /// That the unit that was asked for is not the drawing's own.
        other_unit(asked: &str, own: &str) -> String;
        /// The ceiling that was taken.
        ceiling_taken(mm: f64, lengths: Lengths) -> String;
        /// Inner walls of one line, and how thick they are taken.
        thickened(count: usize, mm: f64, lengths: Lengths) -> String;
        /// Things that go by what is drawn round all of them.
        by_hull(count: usize) -> String;
        /// Outlines inside others.
        inside_others(count: usize) -> String;
        /// What lies outside of the room.
        outside(count: usize) -> String;
        /// Layers with lines that became nothing.
        not_used(layers: &[&str]) -> String;
        /// Lines of things that close nothing.
        unclosed(count: usize) -> String;
        /// The car and the aiming of the first set-up.
        set_up_with(car: &str, aiming: &str) -> String;
        /// What an inner wall is called, by its number.
        inner_wall(number: usize) -> String;
        /// What a thing is called, by its number.
        thing(number: usize) -> String;
    }
}

/// A figure in the drawing's own units, to six digits: with a point, as the drawing has it.
pub(super) fn own(value: f64) -> String {
    let size = value.abs().max(1.0).log10().floor();
    let places = (5.0 - size).clamp(0.0, 4.0);
    let by = 10_f64.powf(places);
    format!("{}", (value * by).round() / by + 0.0)
}

/// A length to a tenth of a millimetre, mm.
pub(super) fn tenth(length_mm: f64, lengths: Lengths) -> String {
    lengths.of((length_mm * 10.0).round() / 10.0 + 0.0)
}
