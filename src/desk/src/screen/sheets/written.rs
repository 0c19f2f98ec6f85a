//! Sheets as files: saved where one says, or given to the system to be printed. Written beside the frame.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{FileFault, fresh_folder, is_taken, make_folder, may_be_output, write_output};
use egui::Context;

use super::data::As;
use crate::screen::command::Over;
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
    AreThere(Vec<PathBuf>),
    /// The pages could not become what they were to be.
    NotMade(NotMade),
    /// One could not be written; these were, before it.
    Fault(FileFault, Vec<PathBuf>),
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
                    Err(fault) => return Written::Fault(fault, Vec::new()),
                },
            };
            let path = folder.join(name);
            let all = match bytes(&pages, Format::Pdf, language) {
                Ok(all) => all,
                Err(fault) => return Written::NotMade(fault),
            };
            match write(std::slice::from_ref(&path), &all) {
                Written::Files(_) => match open::that_detached(&path) {
                    Ok(()) => Written::Opened(path),
                    Err(why) => Written::NotOpened(path, why.to_string()),
                },
                other => other,
            }
        });
    }

    /// Writes them where one says; which files that are there may be replaced.
    pub(in crate::screen) fn save_sheets(&mut self, ctx: &Context, path: &Path, over: Over) {
        let texts = self.view.locale.language.on_paper();
        self.on_paper.to = Some(path.display().to_string());
        let path = self.in_folder(path);
        let Some(saved_as) = As::of_ending(&path, &self.on_paper) else {
            self.on_paper.refused = Some((texts.wrong_ending(&path.display().to_string()), 0));
            return;
        };
        // The system's window may have been open while something else was chosen or drawn: what is saved was seen.
        let can = match saved_as {
            As::Pages(_) => self.can_print(&self.on_paper),
            As::Data(data) => self.can_save_data(&self.on_paper, data),
        };
        if !self.is_on_paper() || !can {
            self.say_wrong(texts.look_again);
            return;
        }
        self.on_paper.refused = None;
        let (pages, language) = (Arc::clone(&self.on_paper.pages), self.view.locale.language);
        let made_from = self.is_made_from();
        let made_from = move |file: &Path| {
            let made_from: Vec<&Path> = made_from.iter().map(PathBuf::as_path).collect();
            may_be_output(file, &made_from)
        };
        let handed_over = self.handed_over();
        self.on_paper.writing.start("save sheets", 1, &waking(ctx), move |_| {
            let files = match saved_as {
                As::Pages(Format::Svg | Format::Png(_)) => names(&path, pages.len()),
                As::Pages(Format::Pdf) | As::Data(_) => vec![path.clone()],
            };
            // What it is made from is never replaced, whatever is answered.
            if let Some(fault) = files.iter().find_map(|own| made_from(own).err()) {
                return Written::Fault(fault, Vec::new());
            }
            let there = files.iter().filter(|own| match over {
                Over::Nothing => is_taken(own),
                Over::Named => **own != path && is_taken(own),
                Over::All => false,
            });
            let there: Vec<PathBuf> = there.cloned().collect();
            if !there.is_empty() {
                return Written::AreThere(there);
            }
            let all = match saved_as {
                As::Pages(format) => bytes(&pages, format, language),
                As::Data(data) => handed_over.bytes(data).map(|own| vec![own]),
            };
            match all {
                Ok(all) => write(&files, &all),
                Err(fault) => Written::NotMade(fault),
            }
        });
    }

    /// What is shown is made from these files: the layout, pictures, the shop's settings.
    fn is_made_from(&self) -> Vec<PathBuf> {
        let shop = self.shop.path();
        let folder = shop.and_then(Path::parent).unwrap_or(Path::new(""));
        let picture = self.shop.face().picture.as_ref().map(|own| folder.join(own));
        let layout = self.document.path().map(Path::to_owned);
        layout.into_iter().chain(self.picture_path()).chain(shop.map(Path::to_owned)).chain(picture).collect()
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
                Written::AreThere(files) => {
                    let said: Vec<String> = files.iter().map(|own| named(own)).collect();
                    self.on_paper.refused = Some((texts.are_there(&said), files.len()));
                }
                Written::NotMade(fault) => self.on_paper.refused = Some((self.not_made(&fault), 0)),
                Written::Fault(fault, before) => {
                    let fault = self.view.locale.language.file_fault(&fault);
                    let before: Vec<String> = before.iter().map(|own| named(own)).collect();
                    let said = texts.not_all_written(&fault, &before);
                    self.log.push(&said);
                    self.on_paper.refused = Some((said, 0));
                }
            },
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
    }
}

/// One file after another.
fn write(files: &[PathBuf], all: &[Vec<u8>]) -> Written {
    for (at, (file, own)) in files.iter().zip(all).enumerate() {
        if let Err(fault) = write_output(file, own, &[]) {
            return Written::Fault(fault, files.iter().take(at).cloned().collect());
        }
    }
    Written::Files(files.to_vec())
}
