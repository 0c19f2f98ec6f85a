//! What is told of the record of a visit, as data.

use std::io::{self, Write};

use baywright_files::LostAttachment;
use baywright_planner::model::record::{ChainBreak, HeadSaid};
use schemars::JsonSchema;
use serde::Serialize;

use super::VERSION;

/// What `baywright record check` writes as JSON: whether a record is as it was written. It shows an edit, not who made it: whoever writes
/// the whole file anew makes a new chain.
#[derive(Serialize, JsonSchema)]
pub(super) struct RecordCheck {
    /// Which kind of document this is.
    format: RecordCheckFormat,
    /// The version of the format. New fields may be added without a new one.
    version: u32,
    /// The file, as it was named.
    file: String,
    /// The job.
    job: String,
    /// How many entries there are.
    entries: usize,
    /// The hash that the last entry states: SHA-256 in hexadecimal digits.
    head: String,
    /// Whether each entry follows from what stands before it.
    follows: bool,
    /// The first that does not, from 1; 0 is how the record begins.
    #[serde(skip_serializing_if = "Option::is_none")]
    first_broken: Option<usize>,
    /// Its line in the file.
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<u32>,
    /// What the hash says that was named with `--head`; left out where none was.
    #[serde(skip_serializing_if = "Option::is_none")]
    named_head: Option<NamedHead>,
    /// Of an earlier one: how many entries were added since.
    #[serde(skip_serializing_if = "Option::is_none")]
    added_since: Option<usize>,
    /// What was attached and does not lie beside the record: by its own name.
    attachments_missing: Vec<String>,
    /// What was attached and in whose place something else lies beside the record.
    attachments_changed: Vec<String>,
}

/// What `baywright record check` writes.
#[derive(Serialize, JsonSchema)]
enum RecordCheckFormat {
    #[serde(rename = "baywright-record-check")]
    Check,
}

/// Whose a hash is.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum NamedHead {
    /// That of the last entry.
    Same,
    /// That of an earlier one: the others were added since.
    Earlier,
    /// None of this record's.
    Unknown,
}

/// What `baywright record show` writes as JSON: the whole record.
#[derive(Serialize, JsonSchema)]
pub(super) struct WholeRecord {
    /// Which kind of document this is.
    format: WholeRecordFormat,
    /// The record, field by field as its file has it, figures in the units that end the fields' names.
    record: serde_json::Value,
    /// What it still lacks, or was signed without: a sentence each, in the language that is asked for.
    missing: Vec<String>,
    /// Whether the bay's file was at hand: without its set-ups nothing is told of marks, heights and findings.
    set_ups_at_hand: bool,
}

/// What `baywright record show` writes.
#[derive(Serialize, JsonSchema)]
enum WholeRecordFormat {
    #[serde(rename = "baywright-record")]
    Record,
}

/// What is known of a record's chain.
pub(crate) struct RecordTold<'a> {
    pub(crate) file: String,
    pub(crate) job: &'a str,
    pub(crate) entries: usize,
    pub(crate) head: &'a str,
    pub(crate) broken: Option<ChainBreak>,
    pub(crate) on_paper: Option<HeadSaid>,
    pub(crate) lost: Vec<LostAttachment>,
}

impl RecordTold<'_> {
    fn named(&self, is_changed: bool) -> Vec<String> {
        let lost = self.lost.iter().filter(|own| own.is_changed == is_changed);
        lost.map(|own| own.file.clone()).collect()
    }
}

/// Writes what a record's chain says.
pub(crate) fn told_record_check(told: &RecordTold<'_>, out: &mut dyn Write) -> io::Result<()> {
    let document = RecordCheck {
        format: RecordCheckFormat::Check,
        version: VERSION,
        file: told.file.clone(),
        job: told.job.to_owned(),
        entries: told.entries,
        head: told.head.to_owned(),
        follows: told.broken.is_none(),
        first_broken: told.broken.map(|own| own.nth.map_or(0, |nth| nth + 1)),
        line: told.broken.and_then(|own| own.line),
        named_head: told.on_paper.map(|own| match own {
            HeadSaid::Same => NamedHead::Same,
            HeadSaid::Earlier { .. } => NamedHead::Earlier,
            HeadSaid::Unknown => NamedHead::Unknown,
        }),
        added_since: told.on_paper.and_then(|own| match own {
            HeadSaid::Earlier { since, .. } => Some(since),
            HeadSaid::Same | HeadSaid::Unknown => None,
        }),
        attachments_missing: told.named(false),
        attachments_changed: told.named(true),
    };
    serde_json::to_writer_pretty(&mut *out, &document)?;
    writeln!(out)
}

/// The document of a whole record.
///
/// # Errors
/// What the writer says.
pub(crate) fn told_record(
    record: serde_json::Value,
    missing: Vec<String>,
    set_ups_at_hand: bool,
) -> serde_json::Result<Vec<u8>> {
    let format = WholeRecordFormat::Record;
    let mut written = serde_json::to_vec_pretty(&WholeRecord { format, record, missing, set_ups_at_hand })?;
    written.push(b'\n');
    Ok(written)
}
