//! Sheets as files: saved where one says, or given to the system to be printed. Written beside the frame.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_drawing::Page as Printed;
use baywright_files::{FileFault, fresh_folder, is_taken, make_folder, write_output};
use baywright_planner::words::Language;
use egui::Context;

use crate::screen::{Desk, waking};
use crate::session::job::News;
use crate::session::printed::{Format, NotMade, bytes, names};

/// How it ended.
pub(super) enum Written {
    /// These files are there.
    Files(Vec<PathBuf>),
    /// The system was given this one.
    Opened(PathBuf),
    /// It is there, and the system did not take it: its words.
    NotOpened(PathBuf, String),
    /// Files of these names are there, and nothing was written.
    IsThere(PathBuf),
    /// The pages could not become what they were to be.
    NotMade(NotMade),
    /// They could not be written.
    Fault(FileFault),
}

impl Desk {
    /// Where sheets are saved if nobody says: beside the bay, under its name.
    pub(super) fn suggested_sheets(&self) -> PathBuf {
        self.suggested().with_extension("pdf")
    }

    /// Writes the pages that are seen as PDF, and has the system open it.
    pub(in crate::screen) fn print_sheets(&mut self, ctx: &Context) {
        if !self.can_print(&self.on_paper) {
            return;
        }
        let own = self.data_folder().map(|folder| folder.join("printed"));
        let name = self.suggested_sheets().file_name().map(PathBuf::from).unwrap_or_default();
        let (pages, language) = (Arc::clone(&self.on_paper.pages), self.view.locale.language);
        self.on_paper.writing.start("print", 1, &waking(ctx), move |_| {
            let folder = match own.filter(|folder| make_folder(folder).is_ok()) {
                Some(folder) => folder,
                None => match fresh_folder("baywright") {
                    Ok(folder) => folder,
                    Err(fault) => return Written::Fault(fault),
                },
            };
            let path = folder.join(name);
            match write(&pages, &path, Format::Pdf, language, &[]) {
                Written::Files(_) => match open::that_detached(&path) {
                    Ok(()) => Written::Opened(path),
                    Err(why) => Written::NotOpened(path, why.to_string()),
                },
                other => other,
            }
        });
    }

    /// Writes them where one says; whether files that are there may be replaced.
    pub(in crate::screen) fn save_sheets(&mut self, ctx: &Context, path: &Path, over: bool) {
        let texts = self.view.locale.language.on_paper();
        self.on_paper.to = Some(path.display().to_string());
        // The system's window may have been open while something else was chosen or drawn: what is saved was seen.
        if !self.is_on_paper() || !self.can_print(&self.on_paper) {
            self.say_wrong(texts.look_again);
            return;
        }
        let path = self.in_folder(path);
        let ending = path.extension().map(|own| own.to_string_lossy().into_owned()).unwrap_or_default();
        let Some(format) = Format::of_ending(&ending, self.on_paper.dpi) else {
            self.on_paper.refused = Some((texts.wrong_ending(&path.display().to_string()), false));
            return;
        };
        self.on_paper.refused = None;
        let (pages, language) = (Arc::clone(&self.on_paper.pages), self.view.locale.language);
        let made_from: Vec<PathBuf> = self.document.path().map(Path::to_owned).into_iter().collect();
        self.on_paper.writing.start("save sheets", 1, &waking(ctx), move |_| {
            let files = if format == Format::Pdf { 1 } else { pages.len() };
            let there = names(&path, files).into_iter().find(|own| is_taken(own));
            match there.filter(|_| !over) {
                Some(there) => Written::IsThere(there),
                None => write(&pages, &path, format, language, &made_from),
            }
        });
    }

    /// Says how it ended.
    pub(in crate::screen) fn hear_written(&mut self) {
        let texts = self.view.locale.language.on_paper();
        let named = |path: &Path| path.display().to_string();
        match self.on_paper.writing.news().pop() {
            Some(News::Done(end) | News::SoFar(end)) => match end {
                Written::Files(files) => {
                    let files: Vec<String> = files.iter().map(|own| named(own)).collect();
                    self.say(texts.written(&files));
                }
                Written::Opened(path) => self.say(texts.opened(&named(&path))),
                Written::NotOpened(path, why) => self.say_wrong(texts.not_opened(&named(&path), &why)),
                Written::IsThere(path) => {
                    self.on_paper.refused = Some((texts.is_there(&named(&path)), true));
                }
                Written::NotMade(fault) => self.on_paper.refused = Some((self.not_made(&fault), false)),
                Written::Fault(fault) => {
                    let said = self.view.locale.language.file_fault(&fault);
                    self.log.push(&said);
                    self.on_paper.refused = Some((said, false));
                }
            },
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
    }
}

/// The pages as files under this name.
fn write(
    pages: &[Printed],
    path: &Path,
    format: Format,
    language: Language,
    made_from: &[PathBuf],
) -> Written {
    let all = match bytes(pages, format, language) {
        Ok(all) => all,
        Err(fault) => return Written::NotMade(fault),
    };
    let files = names(path, all.len());
    let made_from: Vec<&Path> = made_from.iter().map(PathBuf::as_path).collect();
    for (file, own) in files.iter().zip(&all) {
        if let Err(fault) = write_output(file, own, &made_from) {
            return Written::Fault(fault);
        }
    }
    Written::Files(files)
}
