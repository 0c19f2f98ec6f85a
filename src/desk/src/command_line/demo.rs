//! The program started without a command and without a window: the demo bay's answer and its two views.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use baywright_drawing::{Theme, Turned};
use baywright_files::FileFault;
use baywright_planner::assess;
use baywright_planner::model::Arrangement;
use baywright_planner::words::{Language, Units, Words};
use jiff::civil::Date;

use crate::command_line::draw::{Picture, svg};
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::report::{answer, not_read};

/// The built-in layout that the program opens with.
pub(crate) const DEMO: &str = "crowded-bay";

/// Says that there is no window and why, answers for the demo bay and writes its two views into a fresh folder of their
/// own. That the demo bay is not ready is what it shows, and no fault: the outcome is that the answer was given.
pub(crate) fn show(why: &str, today: Option<Date>, out: &mut dyn Write, errors: &mut dyn Write) -> Outcome {
    let loaded = match baywright_files::open(Path::new(DEMO), today) {
        Ok(loaded) => loaded,
        Err(faults) => return not_read(&faults, errors),
    };
    let Some((_, arrangement)) = loaded.arrangements.first() else {
        let _ = writeln!(errors, "{}: found no arrangement to show.", loaded.file);
        return Outcome::NotRead;
    };
    let views: Vec<Result<PathBuf, FileFault>> = match baywright_files::fresh_folder("baywright") {
        Ok(folder) => {
            [("top", false), ("side", true)].map(|(name, side)| view(arrangement, &folder, name, side)).into()
        }
        Err(fault) => vec![Err(fault)],
    };
    let written = say(&loaded.layout.bay.name, arrangement, why, &views, out);
    let faults: Vec<_> = views.into_iter().filter_map(Result::err).collect();
    for fault in &faults {
        let _ = writeln!(errors, "{}", Language::English.file_fault(fault));
    }
    let said = said(written, errors);
    if faults.is_empty() { said } else { Outcome::NotWritten }
}

fn view(arrangement: &Arrangement, folder: &Path, name: &str, side: bool) -> Result<PathBuf, FileFault> {
    let picture = Picture { side, theme: Theme::Light, turned: Turned::ToCar, units: Units::Millimetres };
    let path = folder.join(format!("{DEMO}-{name}.svg"));
    baywright_files::write_output(&path, svg(arrangement, &picture).as_bytes(), &[]).map(|()| path)
}

fn say(
    bay: &str,
    arrangement: &Arrangement,
    why: &str,
    views: &[Result<PathBuf, FileFault>],
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(
        out,
        "No window can be opened ({why}), so here is the demo bay's answer; `baywright check` and `baywright draw` do \
         the same for your own files.\n"
    )?;
    let assessment = assess(arrangement);
    let words = Words::new(arrangement, Units::Millimetres, Language::English);
    answer(bay, arrangement, &assessment, &words, out)?;
    let written: Vec<String> = views.iter().flatten().map(|path| path.display().to_string()).collect();
    if !written.is_empty() {
        writeln!(out, "\n  Drawn to scale: {}", written.join(" and "))?;
    }
    Ok(())
}
