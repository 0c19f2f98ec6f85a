//! DXF: drawings of other programs, read so that a bay can be made of one.
//!
//! Read are the text form of releases 12 to 2018: LINE, LWPOLYLINE, POLYLINE, ARC, CIRCLE, ELLIPSE, INSERT of blocks (in rows and
//! columns, stretched, mirrored, in one another), TEXT, ATTRIB and MTEXT for names. What else is there is left out, and told by kind
//! and line. All that is drawn counts as seen from above; heights are not asked for. Group codes and what they mean are from the
//! published reference of the format (from memory); what is read is compared with what another's writer wrote (`tests/dxf.rs`).
//!
//! Whatever is given is answered in bounded time and memory: a file of up to [`LARGEST_DXF`] bytes, 5 000 layers, 50 000 blocks, 16
//! deep in one another, 500 000 lines and arcs with blocks drawn wherever they are put; of the chosen layers a million points,
//! 50 000 straight pieces in 10 000 000 pairs, 10 000 outlines, 2 000 walls of the room, 2 000 things. More is refused with its limit.

mod entity;
mod groups;
mod placed;
mod sections;
mod shape;
mod tally;
mod to_bay;
mod trace;

use std::io::Read;
use std::path::Path;

use baywright_planner::geometry::DVec2;
use baywright_planner::model::Id;
use baywright_planner::model::fault::{DrawingTrouble, FileFault, FileKind, FileTrouble, TooMuch};

use crate::text::not_read;

pub use tally::NotRead;
pub use to_bay::{ClosedGap, DxfBay, DxfChoice, DxfNames};

/// No drawing may be larger, bytes.
pub const LARGEST_DXF: u64 = 64 * 1024 * 1024;

/// The units that a drawing can be in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfUnit {
    /// Millimetres.
    Millimetres,
    /// Centimetres.
    Centimetres,
    /// Metres.
    Metres,
    /// Inches.
    Inches,
    /// Feet.
    Feet,
}

impl DxfUnit {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Millimetres, Self::Centimetres, Self::Metres, Self::Inches, Self::Feet];

    /// One of it, mm.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Millimetres => 1.0,
            Self::Centimetres => 10.0,
            Self::Metres => 1_000.0,
            Self::Inches => 25.4,
            Self::Feet => 304.8,
        }
    }

    /// By the format's own number for it ($INSUNITS).
    const fn of(number: i64) -> Option<Self> {
        match number {
            1 => Some(Self::Inches),
            2 => Some(Self::Feet),
            4 => Some(Self::Millimetres),
            5 => Some(Self::Centimetres),
            6 => Some(Self::Metres),
            _ => None,
        }
    }
}

/// What a layer holds, in the drawing's own units.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfLayer {
    /// Its name.
    pub name: String,
    /// Lines and arcs on it, blocks drawn wherever they are put.
    pub lines: usize,
    /// Notes on it.
    pub notes: usize,
    /// The lower left and the upper right corner of what is drawn on it, if anything is.
    pub reach: Option<(DVec2, DVec2)>,
    /// Whether it is switched off or frozen: it is read all the same.
    pub is_hidden: bool,
}

/// Something that is drawn, from end to end, in the drawing's own units.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfLine<'a> {
    /// The layer that it is on.
    pub layer: &'a str,
    /// Points along it; of what is closed the last is the first.
    pub points: Vec<DVec2>,
}

/// A drawing of another program.
#[derive(Clone, Debug)]
pub struct DxfDrawing {
    /// Its file, as it was named.
    pub file: String,
    /// The unit that it says it is drawn in.
    pub unit: Option<DxfUnit>,
    /// Its layers that hold anything, by name.
    pub layers: Vec<DxfLayer>,
    /// What was left out.
    pub not_read: Vec<NotRead>,
    unit_number: Option<i64>,
    placed: placed::Placed,
}

/// Reads a drawing.
///
/// # Errors
/// Not there, no plain file, larger than [`LARGEST_DXF`], and as [`parse_dxf`].
pub fn read_dxf(path: &Path) -> Result<DxfDrawing, FileFault> {
    let file = path.display().to_string();
    let io = |error: std::io::Error| FileFault::whole(&file, not_read(FileKind::Drawing, &error));
    let about = std::fs::metadata(path).map_err(io)?;
    if about.is_dir() {
        return Err(FileFault::whole(file, FileTrouble::IsFolder(FileKind::Drawing)));
    }
    if !about.is_file() {
        return Err(FileFault::whole(file, FileTrouble::NoPlainFile(FileKind::Drawing)));
    }
    let mut bytes = Vec::new();
    // One byte more than allowed shows that there is more; a file that is larger is not read at all.
    let most = if about.len() > LARGEST_DXF { 0 } else { LARGEST_DXF + 1 };
    std::fs::File::open(path).map_err(io)?.take(most).read_to_end(&mut bytes).map_err(io)?;
    let found = about.len().max(bytes.len() as u64);
    if found > LARGEST_DXF {
        return Err(too_large(&file, found));
    }
    parse_dxf(&file, &bytes)
}

/// A drawing from bytes in hand; `file` names it in sentences.
///
/// # Errors
/// No DXF, the binary form of it, cut short, a line that is no group code, more than is read; with the line.
pub fn parse_dxf(file: &str, bytes: &[u8]) -> Result<DxfDrawing, FileFault> {
    let whole = |trouble| FileFault::whole(file, FileTrouble::Drawing(trouble));
    if bytes.len() as u64 > LARGEST_DXF {
        return Err(too_large(file, bytes.len() as u64));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let head = bytes.get(..bytes.len().min(BINARY_WITHIN)).unwrap_or_default();
    if head.windows(BINARY.len()).any(|own| own == BINARY) {
        return Err(whole(DrawingTrouble::Binary));
    }
    if bytes.starts_with(b"AC10") {
        return Err(whole(DrawingTrouble::Dwg));
    }
    let located = |(line, trouble): sections::Fault| FileFault { line: Some(line), ..whole(trouble) };
    let sections = sections::Sections::of(bytes).map_err(located)?;
    let placed = placed::place(&sections).map_err(located)?;
    let mut layers: Vec<DxfLayer> = placed
        .layers
        .iter()
        .map(|(name, held)| DxfLayer {
            name: name.clone(),
            lines: held.pieces,
            notes: held.notes,
            reach: held.bounds.map(|own| (own.low, own.high)),
            is_hidden: sections.hidden.contains(name),
        })
        .collect();
    layers.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(DxfDrawing {
        file: file.to_owned(),
        unit: sections.unit.and_then(DxfUnit::of),
        layers,
        not_read: placed.left_out.told(),
        unit_number: sections.unit,
        placed,
    })
}

impl DxfDrawing {
    /// Makes a bay of chosen layers, under an id and a name. The bay's frame is the drawing's own, in mm; a drawing whose room lies
    /// more than a kilometre from its origin is moved so that the room begins there. What a drawing does not tell is taken so that
    /// nothing is called clear that is not: see [`DxfBay`] and `dxf/to_bay.rs`.
    ///
    /// # Errors
    /// No such layer; no outline, or several that may be the room; an outline that crosses itself; more than is read.
    pub fn bay(
        &self,
        choice: &DxfChoice,
        names: &DxfNames<'_>,
        id: Id,
        name: String,
    ) -> Result<DxfBay, FileFault> {
        // The drawing by its name: where it lay when it was read says nothing later.
        let source = Path::new(&self.file)
            .file_name()
            .map_or_else(|| self.file.clone(), |own| own.to_string_lossy().into_owned());
        to_bay::bay_of(&self.placed, choice, names, (id, name, source))
            .map_err(|trouble| FileFault::whole(&self.file, FileTrouble::Drawing(trouble)))
    }

    /// Everything that is drawn, as straight lines: arcs keep within so much of theirs, in the drawing's own units.
    ///
    /// # Errors
    /// More points than are looked at.
    pub fn lines(&self, within: f64) -> Result<Vec<DxfLine<'_>>, FileFault> {
        let mut lines = Vec::with_capacity(self.placed.drawn.len());
        let mut left = to_bay::MOST_POINTS;
        for own in &self.placed.drawn {
            let Some((layer, _)) = self.placed.layers.get(own.layer) else { continue };
            let mut points: Vec<DVec2> = Vec::new();
            for piece in &own.pieces {
                points.extend(piece.points(within));
                if points.len() > left {
                    let trouble = DrawingTrouble::TooMuch(TooMuch::Tangled(to_bay::MOST_POINTS));
                    return Err(FileFault::whole(&self.file, FileTrouble::Drawing(trouble)));
                }
            }
            left -= points.len();
            lines.push(DxfLine { layer, points });
        }
        Ok(lines)
    }

    /// The unit that was asked for, else the drawing's own.
    ///
    /// # Errors
    /// Neither is there.
    pub fn unit_or(&self, asked: Option<DxfUnit>) -> Result<DxfUnit, FileFault> {
        asked.or(self.unit).ok_or_else(|| {
            FileFault::whole(&self.file, FileTrouble::Drawing(DrawingTrouble::NoUnit(self.unit_number)))
        })
    }
}

/// What stands among the first bytes of the binary form.
const BINARY: &[u8] = b"Binary\x20DXF";
const BINARY_WITHIN: usize = 32;

fn too_large(file: &str, bytes: u64) -> FileFault {
    let (kind, most) = (FileKind::Drawing, LARGEST_DXF);
    FileFault::whole(file, FileTrouble::TooLarge { kind, bytes, most })
}
