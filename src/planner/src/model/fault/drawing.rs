//! What is wrong with a drawing of another program, and what of it is left out.

use baywright_geometry::DVec2;

use super::{Choice, Quote};

/// What is wrong with a drawing of another program as a whole. Lengths are mm, of the bay's frame.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawingTrouble {
    /// It is no DXF file.
    NoDxf,
    /// It is a DXF file in the binary form.
    Binary,
    /// It is in the format that DXF is the exchange form of.
    Dwg,
    /// It ends before its end.
    Cut,
    /// No code stands where one should.
    NoCode(Quote),
    /// There is more in it than is read.
    TooMuch(TooMuch),
    /// It does not say in which unit it is drawn: the number that it has for it, if it has one.
    NoUnit(Option<i64>),
    /// There is no such layer.
    NoLayer {
        /// What was asked for.
        name: String,
        /// What there is.
        there: Box<Choice>,
    },
    /// No line of a layer closes.
    NoOutline {
        /// The layer.
        layer: String,
        /// The smallest gap between its lines, and where, if there is one.
        gap: Option<(f64, DVec2)>,
    },
    /// Several outlines of a layer may be the room.
    SeveralOutlines {
        /// The layer.
        layer: String,
        /// The size and the lower left corner of each, in the order in which they are counted.
        outlines: Vec<(DVec2, DVec2)>,
    },
    /// There is no outline of that number.
    NoSuchOutline {
        /// Which was asked for.
        number: usize,
        /// How many there are.
        count: usize,
    },
    /// The outline crosses itself or encloses nothing.
    NoRoom(String),
}

/// Of what there is more than is read, and how much is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooMuch {
    /// Layers.
    Layers(usize),
    /// Blocks.
    Blocks(usize),
    /// Lines and arcs, blocks drawn wherever they are put.
    Pieces(usize),
    /// Lines and arcs of the chosen layers, or crossings among them.
    Tangled(usize),
    /// Inner walls and things.
    Things(usize),
}

/// Why something of a drawing is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LeftOut {
    /// It is of a kind that is not read.
    Kind,
    /// It belongs to a sheet of paper, not to the building.
    OnPaper,
    /// It is drawn in a plane that is not level.
    Tilted,
    /// The block that is put there is not in the file.
    NoBlock,
    /// Blocks lie too deep in one another, or in themselves.
    TooDeep,
    /// A figure of it is missing, or is no number.
    Damaged,
}
