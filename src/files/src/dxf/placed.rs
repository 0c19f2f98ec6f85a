//! What is drawn, every block where it is put, by layer.

use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::fault::{DrawingTrouble, LeftOut, TooMuch};

use super::entity::{Entity, Insert, Kind};
use super::sections::{Fault, Sections};
use super::shape::{Piece, Placing};
use super::tally::Tally;

/// More lines and arcs are not drawn, notes and blocks that are put somewhere counted too.
const MOST_PIECES: usize = 500_000;
/// More layers are not told apart.
const MOST_LAYERS: usize = 5_000;
/// Blocks lie no deeper in one another.
const DEEPEST: usize = 16;

/// What belongs together: one line, one polyline, one circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    pub layer: usize,
    /// Which block that is put somewhere it belongs to; 0 for none.
    pub group: usize,
    pub pieces: Vec<Piece>,
    pub closed: bool,
}

/// A note, where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    pub layer: usize,
    pub at: DVec2,
    pub text: String,
}

/// What a layer holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Held {
    pub pieces: usize,
    pub notes: usize,
    pub bounds: Option<Bounds>,
}

/// All that is drawn, in the drawing's own units.
#[derive(Clone, Debug, Default)]
pub struct Placed {
    /// The names of layers in their order, and what each holds.
    pub layers: Vec<(String, Held)>,
    pub drawn: Vec<Drawn>,
    pub notes: Vec<Note>,
    /// The names of the blocks that are put somewhere, by group less one.
    pub groups: Vec<String>,
    pub left_out: Tally,
}

/// Draws everything.
pub fn place(sections: &Sections) -> Result<Placed, Fault> {
    let mut painter = Painter {
        sections,
        known: BTreeMap::new(),
        used: BTreeSet::new(),
        count: 0,
        placed: Placed::default(),
    };
    painter.placed.left_out.add_all(&sections.drawn.left_out);
    painter.draw(&sections.drawn.entities, &Placing::SAME, None, &mut Vec::new(), 0)?;
    Ok(painter.placed)
}

struct Painter<'a> {
    sections: &'a Sections,
    known: BTreeMap<String, usize>,
    /// Blocks whose own left-out entities are counted.
    used: BTreeSet<&'a str>,
    count: usize,
    placed: Placed,
}

impl<'a> Painter<'a> {
    /// Draws these entities; `inside` are the blocks that they lie in, `layer` that of what they were put in.
    fn draw(
        &mut self,
        entities: &'a [Entity],
        placing: &Placing,
        layer: Option<&str>,
        inside: &mut Vec<&'a str>,
        group: usize,
    ) -> Result<(), Fault> {
        for own in entities {
            // What lies on layer 0 of a block is on the layer that the block is put on.
            let name = layer.filter(|_| own.layer == "0").unwrap_or(&own.layer).to_owned();
            match &own.kind {
                Kind::Path(pieces, closed) => {
                    let pieces: Vec<Piece> = pieces.iter().map(|piece| piece.placed(placing)).collect();
                    self.counted(pieces.len(), own.line)?;
                    if !pieces.iter().all(Piece::is_finite) {
                        self.placed.left_out.add("LINE", LeftOut::Damaged, own.line);
                        continue;
                    }
                    let layer = self.layer(&name, own.line)?;
                    let reach = Bounds::around(pieces.iter().flat_map(Piece::reach));
                    self.hold(layer, pieces.len(), 0, reach);
                    self.placed.drawn.push(Drawn { layer, group, pieces, closed: *closed });
                }
                Kind::Text(at, text) => {
                    self.counted(1, own.line)?;
                    let (layer, at) = (self.layer(&name, own.line)?, placing.point(*at));
                    self.hold(layer, 0, 1, Bounds::around([at]).filter(|_| at.is_finite()));
                    if !text.is_empty() && at.is_finite() {
                        self.placed.notes.push(Note { layer, at, text: text.clone() });
                    }
                }
                Kind::Insert(insert) => self.insert(insert, own.line, placing, &name, inside)?,
            }
        }
        Ok(())
    }

    fn insert(
        &mut self,
        insert: &'a Insert,
        line: u32,
        placing: &Placing,
        layer: &str,
        inside: &mut Vec<&'a str>,
    ) -> Result<(), Fault> {
        let sections = self.sections;
        let Some(block) = sections.blocks.get(&insert.block) else {
            self.placed.left_out.add("INSERT", LeftOut::NoBlock, line);
            return Ok(());
        };
        if inside.len() >= DEEPEST || inside.contains(&insert.block.as_str()) {
            self.placed.left_out.add("INSERT", LeftOut::TooDeep, line);
            return Ok(());
        }
        if self.used.insert(&insert.block) {
            self.placed.left_out.add_all(&block.left_out);
        }
        inside.push(&insert.block);
        for row in 0..insert.rows {
            for column in 0..insert.columns {
                self.counted(1, line)?;
                let [along, across] = insert.apart;
                let shift = along * f64::from(column) + across * f64::from(row);
                let own = Placing { at: insert.placing.at + shift, ..insert.placing };
                let base = Placing { at: -block.base, ..Placing::SAME };
                self.placed.groups.push(insert.block.clone());
                let group = self.placed.groups.len();
                self.draw(&block.entities, &placing.after(&own.after(&base)), Some(layer), inside, group)?;
            }
        }
        inside.pop();
        Ok(())
    }

    /// So many more are drawn.
    fn counted(&mut self, more: usize, line: u32) -> Result<(), Fault> {
        self.count = self.count.saturating_add(more);
        if self.count > MOST_PIECES {
            return Err((line, DrawingTrouble::TooMuch(TooMuch::Pieces(MOST_PIECES))));
        }
        Ok(())
    }

    fn layer(&mut self, name: &str, line: u32) -> Result<usize, Fault> {
        if let Some(own) = self.known.get(name) {
            return Ok(*own);
        }
        if self.known.len() >= MOST_LAYERS {
            return Err((line, DrawingTrouble::TooMuch(TooMuch::Layers(MOST_LAYERS))));
        }
        let own = self.placed.layers.len();
        self.known.insert(name.to_owned(), own);
        self.placed.layers.push((name.to_owned(), Held::default()));
        Ok(own)
    }

    fn hold(&mut self, layer: usize, pieces: usize, notes: usize, reach: Option<Bounds>) {
        let Some((_, held)) = self.placed.layers.get_mut(layer) else { return };
        held.pieces += pieces;
        held.notes += notes;
        held.bounds = match (held.bounds, reach) {
            (Some(own), Some(more)) => Some(own.union(more)),
            (own, more) => own.or(more),
        };
    }
}
