//! The parts of a DXF file: what its header says, its layers, its blocks, what is drawn.

use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::geometry::DVec2;
use baywright_planner::model::fault::{DrawingTrouble, LeftOut, TooMuch};

use super::entity::{self, Entity, Polyline, Read};
use super::groups::{Group, Groups, decoded};
use super::tally::Tally;

/// More blocks are not read.
const MOST_BLOCKS: usize = 50_000;

/// What is wrong, and in which line.
pub type Fault = (u32, DrawingTrouble);

/// A group of entities under a name.
#[derive(Clone, Debug, Default)]
pub struct Block {
    pub base: DVec2,
    pub entities: Vec<Entity>,
    pub left_out: Tally,
}

/// A file, taken apart.
#[derive(Clone, Debug, Default)]
pub struct Sections {
    /// The format's number for the unit that it is drawn in.
    pub unit: Option<i64>,
    /// Layers that are switched off or frozen.
    pub hidden: BTreeSet<String>,
    pub blocks: BTreeMap<String, Block>,
    /// What is drawn, as if it were a block.
    pub drawn: Block,
}

impl Sections {
    /// Takes a file apart, to its end.
    pub fn of(bytes: &[u8]) -> Result<Self, Fault> {
        let mut groups = Groups::of(bytes);
        let mut own = Self::default();
        let mut is_first = true;
        loop {
            let group = groups
                .read()
                .map_err(|fault| if is_first { (fault.0, DrawingTrouble::NoDxf) } else { fault })?;
            if group.is(0, b"EOF") && !is_first {
                return Ok(own);
            }
            if !group.is(0, b"SECTION") {
                if is_first {
                    return Err((group.line, DrawingTrouble::NoDxf));
                }
                continue;
            }
            is_first = false;
            let name = groups.read()?;
            match name.value.trim_ascii() {
                b"HEADER" => own.header(&mut groups)?,
                b"TABLES" => own.tables(&mut groups)?,
                b"BLOCKS" => own.read_blocks(&mut groups)?,
                b"ENTITIES" => {
                    let (drawn, _) = entities(&mut groups, None, &[b"ENDSEC"])?;
                    own.drawn = drawn;
                }
                _ => skip(&mut groups)?,
            }
        }
    }

    fn header(&mut self, groups: &mut Groups<'_>) -> Result<(), Fault> {
        loop {
            let group = groups.read()?;
            if group.is(0, b"ENDSEC") {
                return Ok(());
            }
            if group.is(9, b"$INSUNITS") {
                self.unit = groups.read()?.whole();
            }
        }
    }

    fn tables(&mut self, groups: &mut Groups<'_>) -> Result<(), Fault> {
        let (mut is_layer, mut name, mut is_hidden) = (false, String::new(), false);
        loop {
            let group = groups.read()?;
            if group.code == 0 {
                if is_layer && is_hidden {
                    self.hidden.insert(std::mem::take(&mut name));
                }
                (is_layer, is_hidden) = (group.is(0, b"LAYER"), false);
                if group.is(0, b"ENDSEC") {
                    return Ok(());
                }
            }
            match group.code {
                2 if is_layer => name = decoded(group.value),
                // Frozen, or of a colour below nothing.
                70 => is_hidden |= group.whole().is_some_and(|flags| flags & 1 != 0),
                62 => is_hidden |= group.whole().is_some_and(|colour| colour < 0),
                _ => {}
            }
        }
    }

    fn read_blocks(&mut self, groups: &mut Groups<'_>) -> Result<(), Fault> {
        loop {
            let group = groups.read()?;
            if group.is(0, b"ENDSEC") {
                return Ok(());
            }
            if !group.is(0, b"BLOCK") {
                continue;
            }
            let (mut name, mut base) = (None, DVec2::ZERO);
            let first = loop {
                let group = groups.read()?;
                match group.code {
                    0 => break group,
                    2 if name.is_none() => name = Some(decoded(group.value)),
                    10 => base.x = group.number().unwrap_or_default(),
                    20 => base.y = group.number().unwrap_or_default(),
                    _ => {}
                }
            };
            let (block, end) = entities(groups, Some(first), &[b"ENDBLK", b"ENDSEC"])?;
            if self.blocks.len() >= MOST_BLOCKS {
                return Err((end.line, DrawingTrouble::TooMuch(TooMuch::Blocks(MOST_BLOCKS))));
            }
            self.blocks.insert(name.unwrap_or_default(), Block { base, ..block });
            if end.is(0, b"ENDSEC") {
                return Ok(());
            }
        }
    }
}

fn skip(groups: &mut Groups<'_>) -> Result<(), Fault> {
    while !groups.read()?.is(0, b"ENDSEC") {}
    Ok(())
}

/// The entities from a first group on, which is read here if it is not in hand, up to one of these ends; and that end.
fn entities<'a>(
    groups: &mut Groups<'a>,
    first: Option<Group<'a>>,
    ends: &[&[u8]],
) -> Result<(Block, Group<'a>), Fault> {
    let mut block = Block::default();
    let mut polyline: Option<Polyline> = None;
    let mut kind = match first {
        Some(first) => first,
        None => start(groups)?,
    };
    let mut own: Vec<Group<'a>> = Vec::new();
    loop {
        if ends.iter().any(|end| kind.is(0, end)) {
            block.finish(polyline.take());
            return Ok((block, kind));
        }
        own.clear();
        let next = loop {
            let group = groups.read()?;
            if group.code == 0 {
                break group;
            }
            own.push(group);
        };
        let name = kind.value.trim_ascii();
        let read = entity::read(name, kind.line, &own);
        if name != b"VERTEX" {
            block.finish(polyline.take());
        }
        match read {
            Read::Entity(entity) => block.entities.push(entity),
            Read::Polyline(begun) => polyline = Some(begun),
            Read::Corner(at, bulge) => {
                if let Some(polyline) = &mut polyline {
                    polyline.corner(at, bulge);
                }
            }
            Read::Nothing => {}
            Read::LeftOut(why) => block.left_out.add(&decoded(name), why, kind.line),
        }
        kind = next;
    }
}

/// The first group that begins something.
fn start<'a>(groups: &mut Groups<'a>) -> Result<Group<'a>, Fault> {
    loop {
        let group = groups.read()?;
        if group.code == 0 {
            return Ok(group);
        }
    }
}

impl Block {
    fn finish(&mut self, polyline: Option<Polyline>) {
        let Some(polyline) = polyline else { return };
        let line = polyline.line();
        match polyline.end() {
            Some(entity) => self.entities.push(entity),
            None => self.left_out.add("POLYLINE", LeftOut::Damaged, line),
        }
    }
}
