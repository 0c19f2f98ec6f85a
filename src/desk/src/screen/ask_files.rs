//! The system's own windows for "open" and "save as". Where there are none, nothing is answered: a path can always be
//! typed.

use std::path::{Path, PathBuf};

use baywright_planner::model::Id;
use baywright_planner::model::record::AttachmentKind;

use crate::screen::command::{Command, OfBay, OfFile, OfShop, Over};
use crate::screen::of_record::OfRecord;
use crate::session::job::{Job, News, Wake};
use crate::session::shop::FacePart;

/// A question to the system that may be open.
#[derive(Debug, Default)]
pub struct AskFiles {
    answer: Job<Option<Command>>,
}

impl AskFiles {
    /// Asks for a file to open, beside the present one.
    pub fn ask_open(&mut self, wake: &Wake, beside: Option<&Path>) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new().add_filter("RON", &["ron"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            window.pick_file().map(|asked| Command::File(OfFile::Open(asked)))
        });
    }

    /// Asks for a file of levels, of the floor or of a runway, beside the present layout.
    pub fn ask_levels(&mut self, wake: &Wake, beside: Option<&Path>, of: Option<Id>) {
        self.ask_table(wake, beside, move |path| Command::Bay(OfBay::ReadLevels { of, path }));
    }

    /// Asks for a file of distances that were taped between marks, beside the present layout.
    pub fn ask_tapes(&mut self, wake: &Wake, beside: Option<&Path>) {
        self.ask_table(wake, beside, |path| Command::Bay(OfBay::ReadTapes(path)));
    }

    fn ask_table(
        &mut self,
        wake: &Wake,
        beside: Option<&Path>,
        then: impl FnOnce(PathBuf) -> Command + Send + 'static,
    ) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new().add_filter("CSV, TXT", &["csv", "txt", "tsv", "asc"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            window.pick_file().map(then)
        });
    }

    /// Asks for a drawing of another program, beside the present layout.
    pub fn ask_drawing(&mut self, wake: &Wake, beside: Option<&Path>) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new().add_filter("DXF", &["dxf", "DXF"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            window.pick_file().map(|asked| Command::File(OfFile::ReadDrawing(asked)))
        });
    }

    /// Asks for a file to be attached to a record, looked for beside that first.
    pub fn ask_paper(&mut self, wake: &Wake, beside: Option<&Path>, kind: AttachmentKind) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new();
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            let all = window.pick_files()?.into_iter().map(|path| (path, kind)).collect();
            Some(Command::Record(OfRecord::Attach(all)))
        });
    }

    /// Asks for a picture to lie under the plan, beside the present layout.
    pub fn ask_picture(&mut self, wake: &Wake, beside: Option<&Path>) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(wake, move || picture(folder).map(|asked| Command::Bay(OfBay::Picture(asked))));
    }

    /// Asks for the shop's picture, shown to customers, beside its settings.
    pub fn ask_shop_picture(&mut self, wake: &Wake, beside: Option<&Path>) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        let say =
            |path: PathBuf| Command::Shop(OfShop::Say(FacePart::Picture(Some(path.display().to_string()))));
        self.ask(wake, move || picture(folder).map(say));
    }

    /// Asks for a place to save, suggesting a path.
    pub fn ask_save(
        &mut self,
        wake: &Wake,
        suggested: &Path,
        then: impl FnOnce(PathBuf) -> Command + Send + 'static,
    ) {
        let folder = suggested.parent().map(Path::to_owned);
        let name = suggested.file_name().map(|name| name.to_string_lossy().into_owned());
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new().add_filter("RON", &["ron"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            if let Some(name) = name {
                window = window.set_file_name(name);
            }
            // The system's window has asked already whether a file that is there may be replaced.
            window.save_file().map(then)
        });
    }

    /// Asks for a place for sheets, suggesting a path.
    pub fn ask_sheets(&mut self, wake: &Wake, suggested: &Path) {
        let folder = suggested.parent().map(Path::to_owned);
        let name = suggested.file_name().map(|name| name.to_string_lossy().into_owned());
        self.ask(wake, move || {
            let mut window = rfd::FileDialog::new()
                .add_filter("PDF", &["pdf"])
                .add_filter("SVG", &["svg"])
                .add_filter("PNG", &["png"])
                .add_filter("DXF", &["dxf"])
                .add_filter("CSV", &["csv"])
                .add_filter("JSON", &["json"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            if let Some(name) = name {
                window = window.set_file_name(name);
            }
            // The system's window has asked about a file of that name; those of several pictures are asked about on the page.
            window.save_file().map(|path: PathBuf| Command::File(OfFile::SaveSheets(path, Over::Named)))
        });
    }

    /// One question at a time, in a thread of its own: the screen goes on meanwhile.
    fn ask(&mut self, wake: &Wake, ask: impl FnOnce() -> Option<Command> + Send + 'static) {
        if !self.is_open() {
            self.answer.start("files", 1, wake, |_| ask());
        }
    }

    /// What was answered, once.
    ///
    /// # Errors
    /// Asking met a fault of the program: in what words.
    pub fn answered(&mut self) -> Result<Option<Command>, String> {
        match self.answer.news().pop() {
            Some(News::Done(command) | News::SoFar(command)) => Ok(command),
            Some(News::Failed(words)) => Err(words),
            None => Ok(None),
        }
    }

    /// Whether the system's window is open.
    pub const fn is_open(&self) -> bool {
        self.answer.is_running()
    }
}

/// A picture, looked for in a folder first.
fn picture(folder: Option<PathBuf>) -> Option<PathBuf> {
    let mut window = rfd::FileDialog::new().add_filter("PNG, JPEG", &["png", "jpg", "jpeg"]);
    if let Some(folder) = folder {
        window = window.set_directory(folder);
    }
    window.pick_file()
}
