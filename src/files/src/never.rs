//! Proofs that a set-up fits nowhere: plain figures, a file by themselves.
//!
//! Whole micrometres and millionths of a degree. A cell is one line of eight figures: x from and to, y from and to, heading from
//! and to, which solid of the set-up, which of what stands, both counted from 0.

use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use baywright_planner::never::{Area, Cell, Proof, Solid};
use baywright_planner::place::never::{Document, Stays};
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::parse::options;
use crate::text::{LARGEST_FILE, Text};
use crate::version::{self, Reader};

/// Every version of proofs that can be read, the present one last.
const VERSIONS: &[Reader<NeverFile>] = &[Reader { version: version::NEVER, read: Text::parse }];

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct NeverFile {
    version: u32,
    format: FormatFile,
    bay: String,
    set_up: String,
    car: String,
    aiming: String,
    counted: StaysFile,
    solids_of_set_up: Vec<SolidFile>,
    solids_that_stand: Vec<SolidFile>,
    room_um: AreaFile,
    places_um: AreaFile,
    cells: Vec<[i64; 8]>,
}

/// What a file of this format says it is.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
enum FormatFile {
    ProofThatItFitsNowhere,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
enum StaysFile {
    WhatCannotBeMoved,
    AllThatStands,
}

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SolidFile {
    of: String,
    heights_um: [i64; 2],
    ring_um: Vec<[i64; 2]>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AreaFile {
    x: [i64; 2],
    y: [i64; 2],
}

/// Reads a proof. That it reads says nothing of whether it holds.
///
/// # Errors
/// Not there, not readable, too large, not such a file.
pub fn load_never(path: &Path) -> Result<Document, FileFault> {
    document_in(&Text::read(path, FileKind::Any)?)
}

/// The same of a text in hand; `file` names it in sentences.
///
/// # Errors
/// What cannot be read of it.
pub fn parse_never(file: &str, text: &str) -> Result<Document, FileFault> {
    document_in(&Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Any)?)
}

/// The text of a proof's file.
///
/// # Errors
/// It is larger than is read.
pub fn never_text(document: &Document, file: &str) -> Result<String, FileFault> {
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(2).struct_names(false);
    let text = options()
        .to_string_pretty(&file_of(document), pretty)
        .map_err(|_| FileFault::whole(file, FileTrouble::NotInText))?;
    let bytes = text.len() as u64;
    if bytes > LARGEST_FILE {
        let kind = FileKind::Any;
        return Err(FileFault::whole(file, FileTrouble::TooLarge { kind, bytes, most: LARGEST_FILE }));
    }
    Ok(format!("{text}\n"))
}

fn document_in(text: &Text) -> Result<Document, FileFault> {
    let file = version::read(text, VERSIONS)?;
    let FormatFile::ProofThatItFitsNowhere = file.format;
    // What is no position is none that there is.
    let position = |at: i64| usize::try_from(at).unwrap_or(usize::MAX);
    let cells = file.cells.iter().map(|&[a, b, c, d, from, to, part, against]| Cell {
        places: Area { x: [a, b], y: [c, d] },
        headings: [from, to],
        part: position(part),
        against: position(against),
    });
    let solids = |all: &[SolidFile]| -> Vec<Solid> {
        let solid = |own: &SolidFile| Solid {
            of: own.of.clone(),
            ring: own.ring_um.clone(),
            heights: own.heights_um,
        };
        all.iter().map(solid).collect()
    };
    let area = |own: AreaFile| Area { x: own.x, y: own.y };
    let proof = Proof {
        set_up: solids(&file.solids_of_set_up),
        stands: solids(&file.solids_that_stand),
        room: area(file.room_um),
        places: area(file.places_um),
        cells: cells.collect(),
    };
    let stays = match file.counted {
        StaysFile::WhatCannotBeMoved => Stays::Fixed,
        StaysFile::AllThatStands => Stays::All,
    };
    let NeverFile { bay, set_up, car, aiming, .. } = file;
    Ok(Document { bay, set_up, car, aiming, stays, proof })
}

fn file_of(document: &Document) -> NeverFile {
    let proof = &document.proof;
    let figure = |at: usize| i64::try_from(at).unwrap_or(i64::MAX);
    let cell = |own: &Cell| {
        let ([a, b], [c, d], [from, to]) = (own.places.x, own.places.y, own.headings);
        [a, b, c, d, from, to, figure(own.part), figure(own.against)]
    };
    let solids = |all: &[Solid]| -> Vec<SolidFile> {
        let solid = |own: &Solid| SolidFile {
            of: own.of.clone(),
            heights_um: own.heights,
            ring_um: own.ring.clone(),
        };
        all.iter().map(solid).collect()
    };
    let area = |own: Area| AreaFile { x: own.x, y: own.y };
    NeverFile {
        version: version::NEVER,
        format: FormatFile::ProofThatItFitsNowhere,
        bay: document.bay.clone(),
        set_up: document.set_up.clone(),
        car: document.car.clone(),
        aiming: document.aiming.clone(),
        counted: match document.stays {
            Stays::Fixed => StaysFile::WhatCannotBeMoved,
            Stays::All => StaysFile::AllThatStands,
        },
        solids_of_set_up: solids(&proof.set_up),
        solids_that_stand: solids(&proof.stands),
        room_um: area(proof.room),
        places_um: area(proof.places),
        cells: proof.cells.iter().map(cell).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_written_reads_back_and_what_is_no_figure_does_not() {
        let ring = vec![[0, 0], [1_000, 0], [0, 1_000]];
        let solid = Solid { of: "car".to_owned(), ring, heights: [0, 5] };
        let area = Area { x: [-7, 7], y: [-9, 9] };
        let cell = Cell { places: area, headings: [0, 360_000_000], part: 0, against: 1 };
        let proof = Proof {
            set_up: vec![solid.clone()],
            stands: vec![solid],
            room: area,
            places: area,
            cells: vec![cell],
        };
        let [bay, set_up, car, aiming] = ["Hall", "one", "van", "radar"].map(str::to_owned);
        let document = Document { bay, set_up, car, aiming, stays: Stays::All, proof };
        let text = never_text(&document, "p.ron").unwrap();
        assert_eq!(parse_never("p.ron", &text), Ok(document));
        for (from, to) in [("(-7, 7)", "(NaN, 7)"), ("(-7, 7)", "(-7.5, 7)"), ("version: 1", "version: 9")] {
            assert!(text.contains(from), "{text}");
            assert!(parse_never("p.ron", &text.replacen(from, to, 1)).is_err(), "{to}");
        }
        let other = text.replace("ProofThatItFitsNowhere", "Drawing");
        assert!(parse_never("p.ron", &other).is_err());
        let no_cell = text.replace("360000000, 0, 1", "360000000, -1, 1");
        assert_eq!(parse_never("p.ron", &no_cell).unwrap().proof.cells[0].part, usize::MAX);
    }
}
