//! `baywright marks`: floor marks, targets and distances as a table for other programs (CSV), or with all that a sheet tells as data
//! (JSON, `json/sheet.rs`).
//!
//! One row for each mark, target and distance of each set-up that is asked about. Places are in the bay's frame, mm, rounded to
//! hundredths, with a point before the tenths whatever the region; what a row has no figure for is empty. Quoted as RFC 4180 has it, a line feed after each row. Column names and kinds are
//! read by programs: they never change their meaning once shipped.

use std::io::Write;
use std::path::{Path, PathBuf};

use baywright_files::shop_in_use;
use baywright_planner::geometry::DVec2;
use baywright_planner::ground::height_to_set;
use baywright_planner::hand::kept_ends;
use baywright_planner::model::Arrangement;
use baywright_planner::words::{Locale, Units};
use baywright_planner::{Verdict, assess};

use crate::command_line::commands::Marks;
use crate::command_line::input::{is_stream, open};
use crate::command_line::json::told_sheets;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::report::{chosen, judged_by, not_read};
use crate::command_line::trouble::{Errors, Trouble};

/// The columns. `space` is the verdict on the set-up, so that no list of marks passes for more than it is.
const COLUMNS: [&str; 11] = [
    "set_up",
    "space",
    "kind",
    "name",
    "to",
    "x_mm",
    "y_mm",
    "height_mm",
    "distance_mm",
    "set_mm",
    "set_within_mm",
];

/// Lists the marks of one layout.
pub(crate) fn marks(
    asked: &Marks,
    own_shop: Option<&Path>,
    out: &mut dyn Write,
    errors: &mut Errors<'_>,
) -> Outcome {
    let file = asked.output.as_deref().filter(|output| !is_stream(output));
    let ending = file.map(|file| file.extension().unwrap_or_default().to_string_lossy().to_lowercase());
    let as_data = match ending.as_deref().unwrap_or(&asked.format) {
        "csv" => false,
        "json" => true,
        _ => {
            errors.tell(Trouble::NoTable(file.unwrap_or(Path::new("")).display().to_string()));
            return Outcome::NotRead;
        }
    };
    let opened = shop_in_use(asked.shop.as_deref(), own_shop)
        .and_then(|used| Ok((open(&asked.layout, judged_by(&used, asked.today), asked.language)?, used)));
    let (loaded, used) = match opened {
        Ok(opened) => opened,
        Err(faults) => return not_read(faults, errors),
    };
    errors.tell_passed_over(&loaded.passed_over);
    let arrangements = match chosen(&loaded, asked.arrangement.as_deref(), errors) {
        Ok(chosen) => chosen,
        Err(outcome) => return outcome,
    };
    let written = if as_data {
        let locale = Locale::of(asked.language, Units::Millimetres);
        let name = &asked.layout;
        let file = if is_stream(name) { name.display().to_string() } else { loaded.file.clone() };
        let by = (&used.shop, used.path.as_deref());
        told_sheets(file, &loaded.layout.bay.name, by, &arrangements, locale).map_err(|why| why.to_string())
    } else {
        table(&arrangements).map_err(|why| why.to_string())
    };
    let table = match written {
        Ok(written) => written,
        Err(why) => {
            errors.tell(Trouble::NotPrinted(why));
            return Outcome::NotWritten;
        }
    };
    let Some(file) = file else { return said(out.write_all(&table), errors) };
    let made_from: Vec<&Path> = loaded.path.iter().map(PathBuf::as_path).collect();
    match baywright_files::write_output(file, &table, &made_from) {
        Ok(()) if asked.quiet => Outcome::Ready,
        Ok(()) => said(writeln!(out, "{}", file.display()), errors),
        Err(fault) => {
            errors.tell(Trouble::File(fault));
            Outcome::NotWritten
        }
    }
}

/// One row under its set-up and verdict.
#[derive(Default)]
struct Row<'a> {
    kind: &'static str,
    name: &'a str,
    to: &'a str,
    at: Option<DVec2>,
    height_mm: Option<f64>,
    distance_mm: Option<f64>,
    /// How high a target is set over the floor where it stands, by its levels, and within what, 95 %.
    set_mm: Option<(f64, f64)>,
}

/// The table of these set-ups.
///
/// # Errors
/// The writer refused.
pub(crate) fn table(arrangements: &[&Arrangement]) -> csv::Result<Vec<u8>> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(COLUMNS)?;
    for arrangement in arrangements {
        let assessment = assess(arrangement);
        let space = match assessment.verdict {
            Verdict::Ready => "ready",
            Verdict::ReadyWithCare => "ready-with-care",
            Verdict::NotReady => "not-ready",
        };
        let mut write = |row: Row<'_>| {
            let [x, y] = [row.at.map(|at| at.x), row.at.map(|at| at.y)].map(figure);
            let set_up = arrangement.id.as_str();
            let (height, distance) = (figure(row.height_mm), figure(row.distance_mm));
            let [set, within] = [row.set_mm.map(|own| own.0), row.set_mm.map(|own| own.1)].map(figure);
            let name = [set_up, space, row.kind, row.name, row.to];
            out.write_record(
                name.into_iter().chain([&x, &y, &height, &distance, &set, &within].map(String::as_str)),
            )
        };
        let scene = &assessment.scene;
        for own in &scene.marks {
            write(Row { kind: "mark", name: own.id.as_str(), at: own.at.ok(), ..Row::default() })?;
        }
        for own in &arrangement.bay.marks {
            write(Row { kind: "permanent-mark", name: own.id.as_str(), at: Some(own.at), ..Row::default() })?;
        }
        for own in &scene.targets {
            let (at, height_mm) = (Some(own.centre().truncate()), Some(own.centre().z));
            let set = height_to_set(arrangement, scene, &own.id);
            let set_mm = set.map(|own| (own.height.value, own.height.u95));
            write(Row { kind: "target", name: own.id.as_str(), at, height_mm, set_mm, ..Row::default() })?;
        }
        for own in &scene.readings {
            let distance_mm = Some(own.distance_mm);
            let (name, to) = (own.from.as_str(), own.to.as_str());
            write(Row { kind: "tape-reading", name, to, distance_mm, ..Row::default() })?;
        }
        for own in &arrangement.bay.dimensions {
            let [from, to] = kept_ends(arrangement, scene, own).map(|end| end.at);
            let distance_mm = Some(from.distance(to));
            write(Row { kind: "dimension", name: own.id.as_str(), distance_mm, ..Row::default() })?;
        }
    }
    out.into_inner().map_err(|why| why.into_error().into())
}

/// A figure rounded to hundredths, never "-0"; nothing where there is none.
fn figure(mm: Option<f64>) -> String {
    mm.map_or_else(String::new, |mm| format!("{}", (mm * 100.0).round() / 100.0 + 0.0))
}
