//! English of the same: see `words/record_command.rs`.

use super::Language;
use crate::words::record_command::RecordCommand;

/// The fixed texts.
pub const TEXTS: RecordCommand = RecordCommand {
    language: Language::English,
    record: "Look at the record of a visit: whether it is as it was written, what stands in it, its file of proof",
    check: "Say whether each entry follows from the one before, and whether the last has the hash that stands on paper",
    show: "Print all that stands in a record",
    sheet: "Make the file of proof to print: PDF, SVG or PNG",
    file: "The record of a visit (.visit.ron)",
    head: "The hash on paper, with or without blanks: then the record must end with it",
    no_head: "give the 64 digits of the hash, 0 to 9 and a to f; blanks and capitals do not matter, and with blanks it stands in quotes",
    a_hash: "HASH",
    a_record: "VISIT.visit.ron",
    format: "What is written to standard output",
    output_of_show: "Write the whole record into this file as JSON",
    a_data_file: "DATA.json",
    after: "Exit status: 0 as it was written, 1 something was changed or the hash is another, 2 something given could not be read or \
            found, 3 something could not be written.\n\n\
            The chain shows that something was changed, not by whom. Nothing here says that a sensor is aimed.",
};
