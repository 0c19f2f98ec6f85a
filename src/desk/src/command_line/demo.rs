//! The program started without a command and without a window: the demo bay's answer and its two views.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use baywright_drawing::{Theme, Turned};
use baywright_files::FileFault;
use baywright_planner::assess;
use baywright_planner::model::{Arrangement, JudgedBy, Layout};
use baywright_planner::words::{Language, Locale, Units, Words};

use crate::command_line::draw::{Picture, svg};
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::{answer, not_read};
use crate::command_line::trouble::{Errors, Trouble};

/// The built-in layout that the program opens with.
pub(crate) const DEMO: &str = "crowded-bay";

/// Says that there is no window and why, answers for the demo bay and writes its two views into a fresh folder of their
/// own. That the demo bay is not ready is what it shows, and no fault: the outcome is that the answer was given.
pub(crate) fn show(
    why: &str,
    by: JudgedBy,
    language: Language,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let loaded = match baywright_files::open(Path::new(DEMO), by) {
        Ok(loaded) => loaded,
        Err(faults) => return not_read(faults, errors),
    };
    let Some((_, arrangement)) = loaded.arrangements.first() else {
        errors.tell(Trouble::NothingToShow(loaded.file));
        return Outcome::NotRead;
    };
    let locale = Locale::of(language, Units::default());
    let views: Vec<Result<PathBuf, FileFault>> = match baywright_files::fresh_folder("baywright") {
        Ok(folder) => [("top", false), ("side", true)]
            .map(|(name, side)| view(arrangement, &folder, name, side, locale))
            .into(),
        Err(fault) => vec![Err(fault)],
    };
    let written = say(&loaded.layout, arrangement, locale, why, &views, out);
    let mut outcome = said(written, errors);
    for fault in views.into_iter().filter_map(Result::err) {
        errors.tell(Trouble::File(fault));
        outcome = Outcome::NotWritten;
    }
    outcome
}

fn view(
    arrangement: &Arrangement,
    folder: &Path,
    name: &str,
    side: bool,
    locale: Locale,
) -> Result<PathBuf, FileFault> {
    let picture = Picture { side, theme: Theme::Light, turned: Turned::ToCar, locale };
    let path = folder.join(format!("{DEMO}-{name}.svg"));
    baywright_files::write_output(&path, svg(arrangement, &picture).as_bytes(), &[]).map(|()| path)
}

fn say(
    layout: &Layout,
    arrangement: &Arrangement,
    locale: Locale,
    why: &str,
    views: &[Result<PathBuf, FileFault>],
    out: &mut Page<'_>,
) -> io::Result<()> {
    let texts = locale.language.command_line();
    out.entry("", &texts.no_window_for_demo(why))?;
    writeln!(out)?;
    let assessment = assess(arrangement);
    let words = Words::new(arrangement, locale);
    answer(layout, &assessment, &words, out)?;
    let written: Vec<String> = views.iter().flatten().map(|path| path.display().to_string()).collect();
    if !written.is_empty() {
        writeln!(out, "\n  {}", texts.drawn(&written))?;
    }
    Ok(())
}
