//! The text of a DXF file: groups of a code and a value, a line each, in the order that readers want.
//!
//! Release 2000 of the format (AC1015), the oldest with a unit for its figures and with layer names in words; so that every
//! program takes it. Letters of Western alphabets are one byte each (code page 1252), all others are written as their code. Written by hand, for the library that we know
//! asks the clock and draws lots for a file's marks, and a drawing of ours is the same bytes every time. Group codes are from the
//! published reference of the format (from memory); that files are read as they are meant is asked of others' readers.

use std::fmt::{self, Write};

use baywright_planner::geometry::{Bounds, DVec2};

/// Dashes of the two broken lines, mm on the floor.
const DASHED: [f64; 2] = [150.0, -75.0];
const DASH_DOT: [f64; 4] = [300.0, -60.0, 20.0, -60.0];

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Line {
    Whole,
    Dashed,
    DashDot,
}

impl Line {
    const ALL: [Self; 3] = [Self::Whole, Self::Dashed, Self::DashDot];

    const fn name(self) -> &'static str {
        match self {
            Self::Whole => "Continuous",
            Self::Dashed => "DASHED",
            Self::DashDot => "DASHDOT",
        }
    }

    const fn pattern(self) -> &'static [f64] {
        match self {
            Self::Whole => &[],
            Self::Dashed => &DASHED,
            Self::DashDot => &DASH_DOT,
        }
    }
}

/// A layer: its name, its colour by the format's own numbers (1 red to 7 black on white), how its lines are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Layer {
    pub(super) name: &'static str,
    pub(super) colour: u8,
    pub(super) line: Line,
}

/// What is drawn so far.
pub(super) struct Writer {
    layers: Vec<Layer>,
    entities: String,
    handles: u32,
    extent: Option<Bounds>,
}

/// Handles below this are those of the tables, which are always the same.
const FIRST_FREE: u32 = 0x100;
/// The handle of the block that the plan is drawn in.
const MODEL_SPACE: u32 = 0x20;

impl Writer {
    pub(super) fn new(layers: Vec<Layer>) -> Self {
        Self { layers, entities: String::new(), handles: FIRST_FREE, extent: None }
    }

    /// A straight line.
    pub(super) fn line(&mut self, layer: &Layer, from: DVec2, to: DVec2) {
        self.start("LINE", layer, "AcDbLine");
        self.place(10, from, 0.0);
        self.place(11, to, 0.0);
    }

    /// Straight lines from corner to corner, closed.
    pub(super) fn ring(&mut self, layer: &Layer, corners: &[DVec2]) {
        self.start("LWPOLYLINE", layer, "AcDbPolyline");
        self.group(90, corners.len());
        self.group(70, 1);
        self.number(43, 0.0);
        for &corner in corners {
            self.seen(corner);
            self.number(10, corner.x);
            self.number(20, corner.y);
        }
    }

    pub(super) fn circle(&mut self, layer: &Layer, centre: DVec2, radius: f64) {
        self.start("CIRCLE", layer, "AcDbCircle");
        self.place(10, centre, 0.0);
        self.number(40, radius);
        self.seen(centre - DVec2::splat(radius));
        self.seen(centre + DVec2::splat(radius));
    }

    /// A point, at a height.
    pub(super) fn point(&mut self, layer: &Layer, at: DVec2, height: f64) {
        self.start("POINT", layer, "AcDbPoint");
        self.place(10, at, height);
    }

    /// A text whose lower left corner, or whose middle, is at a place.
    pub(super) fn text(&mut self, layer: &Layer, at: DVec2, height: f64, in_middle: bool, text: &str) {
        self.start("TEXT", layer, "AcDbText");
        self.place(10, at, 0.0);
        self.number(40, height);
        self.group(1, coded(text));
        if in_middle {
            self.group(72, 1);
            self.place(11, at, 0.0);
        }
        self.group(100, "AcDbText");
        if in_middle {
            self.group(73, 2);
        }
    }

    /// The lower left corner of what is drawn, the origin if nothing is.
    pub(super) fn low(&self) -> DVec2 {
        self.extent.map_or(DVec2::ZERO, |own| own.low)
    }

    fn start(&mut self, kind: &str, layer: &Layer, class: &str) {
        self.handles += 1;
        let handle = format!("{:X}", self.handles);
        self.group(0, kind);
        self.group(5, handle);
        self.group(330, format!("{MODEL_SPACE:X}"));
        self.group(100, "AcDbEntity");
        self.group(8, coded(layer.name));
        self.group(100, class);
    }

    fn place(&mut self, code: u16, at: DVec2, height: f64) {
        self.seen(at);
        self.number(code, at.x);
        self.number(code + 10, at.y);
        self.number(code + 20, height);
    }

    fn group(&mut self, code: u16, value: impl fmt::Display) {
        group(&mut self.entities, code, value);
    }

    fn number(&mut self, code: u16, value: f64) {
        number(&mut self.entities, code, value);
    }

    fn seen(&mut self, at: DVec2) {
        if let Some(own) = Bounds::around([at]) {
            self.extent = Some(self.extent.map_or(own, |all| all.union(own)));
        }
    }

    /// The whole file.
    pub(super) fn finish(self) -> Vec<u8> {
        let mut out = String::with_capacity(self.entities.len() + (1 << 14));
        let extent = self.extent.or_else(|| Bounds::around([DVec2::ZERO]));
        let (low, high) = extent.map_or((DVec2::ZERO, DVec2::ZERO), |own| (own.low, own.high));
        header(&mut out, low, high, self.handles + 1);
        tables(&mut out, &self.layers, low, high);
        blocks(&mut out);
        section(&mut out, "ENTITIES");
        out.push_str(&self.entities);
        group(&mut out, 0, "ENDSEC");
        objects(&mut out);
        group(&mut out, 0, "EOF");
        // All that is left is within the first 256 letters, which from 160 on are the code page's own.
        out.chars().map(|letter| u8::try_from(u32::from(letter)).unwrap_or(b' ')).collect()
    }
}

fn group(out: &mut String, code: u16, value: impl fmt::Display) {
    // A text takes whatever is written to it.
    let _ = write!(out, "{code:>3}\n{value}\n");
}

/// A figure to a millionth, so that every machine writes the same; no "-0".
fn number(out: &mut String, code: u16, value: f64) {
    let rounded = (value * 1e6).round() / 1e6 + 0.0;
    let rounded = if rounded.is_finite() { rounded } else { 0.0 };
    group(out, code, format_args!("{rounded:?}"));
}

fn section(out: &mut String, name: &str) {
    group(out, 0, "SECTION");
    group(out, 2, name);
}

/// A text in letters of the code page, others as their code, as the format has it; what steers how a text is set becomes plain.
/// Blanks, dashes and quotation marks become those that every typeface has. Letters beyond the first 65 536 have no code: a box
/// stands for each.
fn coded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            // A caret leads a control character unless a blank follows it.
            '^' => out.push_str("^ "),
            // Both would start something that is not meant.
            '\\' | '%' => code(&mut out, u32::from(letter)),
            '\u{a0}' | '\u{2000}'..='\u{200a}' | '\u{202f}' => out.push(' '),
            '\u{2010}'..='\u{2015}' | '\u{2212}' => out.push('-'),
            '\u{2018}' | '\u{2019}' => out.push('\''),
            '\u{201c}' | '\u{201d}' => out.push('"'),
            ' '..='~' | '\u{a1}'..='\u{ac}' | '\u{ae}'..='\u{ff}' => out.push(letter),
            _ if letter.is_control() => out.push(' '),
            _ => code(&mut out, if u32::from(letter) > 0xffff { 0x25a1 } else { u32::from(letter) }),
        }
    }
    out
}

fn code(out: &mut String, letter: u32) {
    let _ = write!(out, "\\U+{letter:04X}");
}

fn header(out: &mut String, low: DVec2, high: DVec2, next_handle: u32) {
    section(out, "HEADER");
    let mut variable = |name: &str, groups: &[(u16, &str)]| {
        group(out, 9, name);
        for (code, value) in groups {
            group(out, *code, value);
        }
    };
    variable("$ACADVER", &[(1, "AC1015")]);
    variable("$DWGCODEPAGE", &[(3, "ANSI_1252")]);
    // Millimetres, and metric patterns.
    variable("$INSUNITS", &[(70, "4")]);
    variable("$MEASUREMENT", &[(70, "1")]);
    // Decimal figures with one place after the point.
    variable("$LUNITS", &[(70, "2")]);
    variable("$LUPREC", &[(70, "1")]);
    // Points are seen as a circle with a cross in it, 60 mm wide.
    variable("$PDMODE", &[(70, "34")]);
    variable("$PDSIZE", &[(40, "60.0")]);
    variable("$HANDSEED", &[(5, &format!("{next_handle:X}"))]);
    for (name, at) in [("$EXTMIN", low), ("$EXTMAX", high)] {
        group(out, 9, name);
        number(out, 10, at.x);
        number(out, 20, at.y);
        number(out, 30, 0.0);
    }
    group(out, 0, "ENDSEC");
}

/// A table with so many records; each is given the table's own handle as its owner.
fn table(out: &mut String, name: &str, handle: u32, count: usize) {
    group(out, 0, "TABLE");
    group(out, 2, name);
    group(out, 5, format_args!("{handle:X}"));
    group(out, 330, 0);
    group(out, 100, "AcDbSymbolTable");
    group(out, 70, count);
}

fn record(out: &mut String, kind: &str, handle: u32, table: u32, class: &str) {
    group(out, 0, kind);
    group(out, if kind == "DIMSTYLE" { 105 } else { 5 }, format_args!("{handle:X}"));
    group(out, 330, format_args!("{table:X}"));
    group(out, 100, "AcDbSymbolTableRecord");
    group(out, 100, class);
}

fn tables(out: &mut String, layers: &[Layer], low: DVec2, high: DVec2) {
    section(out, "TABLES");
    view_port(out, low, high);
    table(out, "LTYPE", 0x5, 2 + Line::ALL.len());
    for (at, name) in (0x14..).zip(["ByBlock", "ByLayer"]) {
        line_type(out, at, name, &[]);
    }
    for (at, line) in (0x16..).zip(Line::ALL) {
        line_type(out, at, line.name(), line.pattern());
    }
    group(out, 0, "ENDTAB");
    table(out, "LAYER", 0x2, layers.len() + 1);
    let zero = Layer { name: "0", colour: 7, line: Line::Whole };
    for (at, layer) in (0x40..).zip(std::iter::once(&zero).chain(layers)) {
        record(out, "LAYER", at, 0x2, "AcDbLayerTableRecord");
        group(out, 2, coded(layer.name));
        group(out, 70, 0);
        group(out, 62, layer.colour);
        group(out, 6, layer.line.name());
    }
    group(out, 0, "ENDTAB");
    table(out, "STYLE", 0x3, 1);
    record(out, "STYLE", 0x11, 0x3, "AcDbTextStyleTableRecord");
    group(out, 2, "Standard");
    group(out, 70, 0);
    for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
        number(out, code, value);
    }
    group(out, 71, 0);
    number(out, 42, 100.0);
    group(out, 3, "txt");
    group(out, 4, "");
    group(out, 0, "ENDTAB");
    for (name, handle) in [("VIEW", 0x6), ("UCS", 0x7)] {
        table(out, name, handle, 0);
        group(out, 0, "ENDTAB");
    }
    table(out, "APPID", 0x9, 1);
    record(out, "APPID", 0x12, 0x9, "AcDbRegAppTableRecord");
    group(out, 2, "ACAD");
    group(out, 70, 0);
    group(out, 0, "ENDTAB");
    table(out, "DIMSTYLE", 0xa, 1);
    group(out, 100, "AcDbDimStyleTable");
    record(out, "DIMSTYLE", 0x13, 0xa, "AcDbDimStyleTableRecord");
    group(out, 2, "Standard");
    group(out, 70, 0);
    group(out, 0, "ENDTAB");
    table(out, "BLOCK_RECORD", 0x1, 2);
    for (handle, name) in [(MODEL_SPACE, "*Model_Space"), (0x21, "*Paper_Space")] {
        record(out, "BLOCK_RECORD", handle, 0x1, "AcDbBlockTableRecord");
        group(out, 2, name);
    }
    group(out, 0, "ENDTAB");
    group(out, 0, "ENDSEC");
}

/// What is seen when the file is opened: all of it.
fn view_port(out: &mut String, low: DVec2, high: DVec2) {
    /// The view is wider than high by this, as a screen is.
    const WIDE: f64 = 1.6;
    let size = high - low;
    let height = size.y.max(size.x / WIDE).max(1_000.0) * 1.1;
    let middle = (low + high) * 0.5;
    table(out, "VPORT", 0x8, 1);
    record(out, "VPORT", 0x10, 0x8, "AcDbViewportTableRecord");
    group(out, 2, "*Active");
    group(out, 70, 0);
    // On the screen from corner to corner; its middle; snap and grid; seen straight from above.
    for (code, [x, y]) in [
        (10, [0.0, 0.0]),
        (11, [1.0, 1.0]),
        (12, middle.to_array()),
        (13, [0.0, 0.0]),
        (14, [10.0, 10.0]),
        (15, [1_000.0, 1_000.0]),
    ] {
        number(out, code, x);
        number(out, code + 10, y);
    }
    for (code, [x, y, z]) in [(16, [0.0, 0.0, 1.0]), (17, [0.0; 3])] {
        number(out, code, x);
        number(out, code + 10, y);
        number(out, code + 20, z);
    }
    for (code, value) in [(40, height), (41, WIDE), (42, 50.0), (43, 0.0), (44, 0.0), (50, 0.0), (51, 0.0)] {
        number(out, code, value);
    }
    for (code, value) in [(71, 0), (72, 1_000), (73, 1), (74, 3), (75, 0), (76, 0), (77, 0), (78, 0)] {
        group(out, code, value);
    }
    group(out, 0, "ENDTAB");
}

fn line_type(out: &mut String, handle: u32, name: &str, pattern: &[f64]) {
    record(out, "LTYPE", handle, 0x5, "AcDbLinetypeTableRecord");
    group(out, 2, name);
    group(out, 70, 0);
    group(out, 3, "");
    group(out, 72, 65);
    group(out, 73, pattern.len());
    number(out, 40, pattern.iter().map(|own| own.abs()).sum());
    for dash in pattern {
        number(out, 49, *dash);
        group(out, 74, 0);
    }
}

fn blocks(out: &mut String) {
    section(out, "BLOCKS");
    for (begin, end, owner, name) in
        [(0x22, 0x23, MODEL_SPACE, "*Model_Space"), (0x24, 0x25, 0x21, "*Paper_Space")]
    {
        let start = |out: &mut String, kind: &str, handle: u32, class: &str| {
            group(out, 0, kind);
            group(out, 5, format_args!("{handle:X}"));
            group(out, 330, format_args!("{owner:X}"));
            group(out, 100, "AcDbEntity");
            if owner != MODEL_SPACE {
                group(out, 67, 1);
            }
            group(out, 8, 0);
            group(out, 100, class);
        };
        start(out, "BLOCK", begin, "AcDbBlockBegin");
        group(out, 2, name);
        group(out, 70, 0);
        for code in [10, 20, 30] {
            number(out, code, 0.0);
        }
        group(out, 3, name);
        group(out, 1, "");
        start(out, "ENDBLK", end, "AcDbBlockEnd");
    }
    group(out, 0, "ENDSEC");
}

fn objects(out: &mut String) {
    section(out, "OBJECTS");
    for (handle, owner) in [(0xcu32, 0x0u32), (0xd, 0xc)] {
        group(out, 0, "DICTIONARY");
        group(out, 5, format_args!("{handle:X}"));
        group(out, 330, format_args!("{owner:X}"));
        group(out, 100, "AcDbDictionary");
        group(out, 281, 1);
        if owner == 0 {
            group(out, 3, "ACAD_GROUP");
            group(out, 350, "D");
        }
    }
    group(out, 0, "ENDSEC");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_plain_and_steer_nothing() {
        assert_eq!(
            coded("Bay 2, 7\u{202f}000 \u{d7} 4 \u{2265} \u{2212}1"),
            "Bay 2, 7 000 \u{d7} 4 \\U+2265 -1"
        );
        assert_eq!(coded("a\\Pb %%u ^J\nx"), "a\\U+005CPb \\U+0025\\U+0025u ^ J x");
        assert_eq!(coded("\u{1f600}"), "\\U+25A1");
    }

    #[test]
    fn figures_are_rounded_and_never_minus_nothing() {
        let mut out = String::new();
        for value in [-1e-9, 1_234.567_890_12, 2.0, f64::NAN, f64::INFINITY] {
            number(&mut out, 10, value);
        }
        assert_eq!(out, " 10\n0.0\n 10\n1234.56789\n 10\n2.0\n 10\n0.0\n 10\n0.0\n");
    }
}
