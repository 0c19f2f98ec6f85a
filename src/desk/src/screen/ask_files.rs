//! The system's own windows for "open" and "save as". Where there are none, nothing is answered: a path can always be
//! typed.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};

use crate::screen::command::Command;

/// A question to the system that may be open.
#[derive(Debug, Default)]
pub struct AskFiles {
    answer: Option<Receiver<Option<Command>>>,
}

impl AskFiles {
    /// Asks for a file to open, beside the present one.
    pub fn ask_open(&mut self, ctx: &egui::Context, beside: Option<&Path>) {
        let folder = beside.and_then(Path::parent).map(Path::to_owned);
        self.ask(ctx, move || {
            let mut window = rfd::FileDialog::new().add_filter("RON", &["ron"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            window.pick_file().map(Command::Open)
        });
    }

    /// Asks for a place to save, suggesting a path.
    pub fn ask_save(&mut self, ctx: &egui::Context, suggested: &Path) {
        let folder = suggested.parent().map(Path::to_owned);
        let name = suggested.file_name().map(|name| name.to_string_lossy().into_owned());
        self.ask(ctx, move || {
            let mut window = rfd::FileDialog::new().add_filter("RON", &["ron"]);
            if let Some(folder) = folder {
                window = window.set_directory(folder);
            }
            if let Some(name) = name {
                window = window.set_file_name(name);
            }
            // The system's window has asked already whether a file that is there may be replaced.
            window.save_file().map(|path: PathBuf| Command::SaveAs(path, true))
        });
    }

    /// One question at a time, in a thread of its own: the screen goes on meanwhile.
    fn ask(&mut self, ctx: &egui::Context, ask: impl FnOnce() -> Option<Command> + Send + 'static) {
        if self.answer.is_some() {
            return;
        }
        let (send, receive) = channel();
        let ctx = ctx.clone();
        let asked = std::thread::Builder::new().name("files".into()).spawn(move || {
            // Nobody listens any more if the program has ended.
            let _ = send.send(ask());
            ctx.request_repaint();
        });
        self.answer = asked.is_ok().then_some(receive);
    }

    /// What was answered, once.
    pub fn answered(&mut self) -> Option<Command> {
        let answer = self.answer.as_ref()?.try_recv();
        match answer {
            Ok(command) => {
                self.answer = None;
                command
            }
            Err(std::sync::mpsc::TryRecvError::Empty) => None,
            Err(std::sync::mpsc::TryRecvError::Disconnected) => {
                self.answer = None;
                None
            }
        }
    }

    /// Whether the system's window is open.
    pub const fn is_open(&self) -> bool {
        self.answer.is_some()
    }
}
