//! The schema of all that `--json` writes (JSON Schema, draft 2020-12), made from the structs that are written.

use schemars::generate::SchemaSettings;
use schemars::transform::transform_subschemas;
use schemars::{JsonSchema, Schema};
use serde::Serialize;

use super::plan::PlanTold;
use super::record::{RecordCheck, WholeRecord};
use super::shape::{Answer, Answers};
use super::sheet_shape::Sheets;
use super::trouble::Errors;

/// What `--json` writes: the answer for one file or for several, to standard output; what went wrong, to standard error. And what
/// `baywright marks`, `baywright plan` and `baywright record` write as JSON.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(title = "What baywright --json writes")]
#[expect(dead_code, reason = "named in the schema, never written: each document is written as itself")]
enum Document<'a> {
    Answer(Answer),
    Answers(Answers<'a>),
    Sheets(Sheets),
    Plan(Box<PlanTold>),
    RecordCheck(RecordCheck),
    WholeRecord(WholeRecord),
    Errors(Errors),
}

/// The schema.
pub(crate) fn schema() -> Schema {
    SchemaSettings::draft2020_12()
        .for_serialize()
        .with_transform(in_one_line as fn(&mut Schema))
        .into_generator()
        .into_root_schema_for::<Document<'static>>()
}

/// Descriptions are the documentation of the code, whose line breaks mean nothing.
fn in_one_line(schema: &mut Schema) {
    if let Some(serde_json::Value::String(text)) = schema.get_mut("description") {
        *text = text.replace('\n', " ");
    }
    transform_subschemas(&mut (in_one_line as fn(&mut Schema)), schema);
}
