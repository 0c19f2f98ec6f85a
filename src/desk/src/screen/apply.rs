//! Carries out what the screen asks for: the one place where the document and the view change. One file for each of what a
//! command may touch.

mod bay;
mod car;
mod dimension;
mod file;
mod hall;
mod levels;
mod several;
mod shop;
mod tapes;
mod view;

use baywright_files::FileFault;
use baywright_planner::edit::{Deed, EditFault};
use baywright_planner::words::Words;

use super::Desk;
use super::command::Command;
use super::page::{Leaving, Page};
use super::view::Notice;
use crate::session::document::{Done, Refused};
pub(super) use bay::placed;
pub(super) use car::frame_of;
pub(super) use file::with_ending;

impl Desk {
    /// Carries out one command.
    pub(super) fn apply(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            // While a car is being entered the bay waits: undo is of the car.
            Command::Bay(_) if self.document.draft().is_some() => self.say_wrong(self.texts().finish_car),
            Command::Bay(asked) => self.apply_to_bay(ctx, asked),
            Command::Car(asked) => self.apply_to_car(asked),
            Command::File(asked) => self.apply_to_file(ctx, asked),
            Command::Shop(asked) => self.apply_to_shop(asked),
            Command::Record(asked) => self.apply_to_record(ctx, asked),
            Command::View(asked) => self.apply_to_view(ctx, asked),
            Command::Page(None) => self.close_page(),
            Command::Page(page) => self.lay(page),
            Command::OnPaper(sheet) => {
                self.on_paper.choose(sheet);
                self.lay(Some(Page::OnPaper));
            }
            Command::ReportOnPaper => {
                self.on_paper.choose_report();
                self.lay(Some(Page::OnPaper));
            }
            Command::Undo if self.document.undoes().is_none() => self.say(self.texts().nothing_to_undo),
            Command::Redo if self.document.redoes().is_none() => self.say(self.texts().nothing_to_redo),
            Command::Undo => {
                let undone = self.document.undo();
                self.say_refused(undone);
            }
            Command::Redo => {
                let done = self.document.redo();
                self.say_refused(done);
            }
            Command::Abandon => self.document.abandon(),
            Command::BeginVisit => self.begin_visit(),
            Command::EnterOwn(figures) => self.enter_own(figures),
            Command::EnterLevels => self.lead_to_levels(),
            Command::CopyPicture => self.copy_picture(ctx),
            Command::CopyDiagnostics => {
                ctx.copy_text(self.diagnostics(ctx));
                self.say(self.texts().diagnostics_copied);
            }
            Command::Say(text) => self.say_wrong(text),
            Command::Tell(text) => self.say(text),
            // What could not be saved is shown with the reason; there it can be dropped.
            Command::Quit if self.shop.is_changed() => self.lay(Some(Page::Shop)),
            Command::Quit => {
                if !self.asks_to_drop_begun() && !self.asks_first(Leaving::Quit) {
                    self.quit(ctx);
                }
            }
            Command::QuitAnyway => self.quit(ctx),
        }
    }

    /// Nothing is said at the foot.
    pub(super) fn wipe_said(&mut self) {
        self.view.notice = None;
    }

    /// Takes away what was said where one of these may make it untrue. Nothing else does: what is said on the way from one thing to
    /// the next, as in saving and then opening, is there at its end.
    pub(super) fn forget_said(&mut self, commands: &[Command]) {
        let Some(said) = &self.view.notice else { return };
        // That is done by closing it, though nothing of the work is changed by that.
        let asks_to_close = said.text == self.texts().close_page_first;
        let ends = |asked: &Command| match asked {
            Command::Page(None) if asks_to_close => true,
            asked if said.wrong => asked.changes_work(),
            asked => asked.is_an_act(),
        };
        if commands.iter().any(ends) {
            self.wipe_said();
        }
    }

    /// Says something at the foot of the screen.
    pub(super) fn say(&mut self, text: impl Into<String>) {
        self.view.notice = Some(Notice { text: text.into(), wrong: false });
    }

    /// Says that something went wrong.
    pub(super) fn say_wrong(&mut self, text: impl Into<String>) {
        let text = text.into();
        self.log.push(&text);
        self.view.notice = Some(Notice { text, wrong: true });
    }

    /// What is wrong with files, a sentence each.
    pub(super) fn sentences(&self, faults: &[FileFault]) -> Vec<String> {
        faults.iter().map(|fault| self.view.locale.language.file_fault(fault)).collect()
    }

    /// The first of them.
    pub(super) fn first_sentence(&self, faults: &[FileFault]) -> String {
        faults.first().map_or_else(String::new, |fault| self.view.locale.language.file_fault(fault))
    }

    /// Why something was refused: beside the field that it was typed in, if it was, else at the foot of the screen.
    pub(in crate::screen) fn say_refused(&mut self, result: Result<(), Refused>) {
        let texts = self.texts();
        let why = match result {
            Ok(()) => return,
            Err(Refused::Edit(EditFault::NoSuch(id))) => texts.no_such(&id),
            Err(Refused::Edit(EditFault::NoArrangement)) => texts.no_arrangement.to_owned(),
            Err(Refused::Edit(EditFault::NameTaken(id))) => texts.name_taken(&id),
            Err(Refused::Edit(EditFault::NoShape)) => texts.no_shape.to_owned(),
            Err(Refused::Unsound(fault)) => texts.unsound(&fault, self.lengths()),
            Err(Refused::Shut(shut)) => {
                texts.would_shut(shut.arrangement.as_str(), &shut.fault, self.lengths())
            }
        };
        if !self.fields.refuse_taken(&why) {
            self.say_wrong(why);
        }
    }

    /// Says which cars cannot be read, and which arrangements are kept and cannot be shown.
    pub(super) fn say_shut(&mut self) {
        let texts = self.texts();
        let said: Vec<String> = self
            .document
            .shut()
            .iter()
            .map(|shut| texts.not_shown(shut.arrangement.as_str(), &shut.fault, self.lengths()))
            .collect();
        // The first is at the foot of the screen, all are in the log. Why cars cannot be read may be why set-ups are not shown.
        let of_cars = self.sentences(self.document.car_faults());
        for sentence in of_cars.into_iter().chain(said).rev() {
            self.say_wrong(sentence);
        }
    }

    fn quit(&mut self, ctx: &egui::Context) {
        if !self.may_end_record() {
            return;
        }
        self.quitting = true;
        self.end();
        ctx.send_viewport_cmd(egui::ViewportCommand::Close);
    }

    /// What would be undone, as a person reads it.
    pub fn undoes(&self) -> Option<String> {
        self.document.undoes().map(|done| self.name_of(done))
    }

    /// What would be done again, as a person reads it.
    pub fn redoes(&self) -> Option<String> {
        self.document.redoes().map(|done| self.name_of(done))
    }

    fn name_of(&self, done: Done<'_>) -> String {
        match done {
            // By its own name, not its file's.
            Done::Bay(Deed::Car(id)) => {
                let car = self.document.cars().iter().find(|own| own.vehicle.id == *id);
                let name = car.map_or_else(|| id.clone(), |own| own.vehicle.name.as_str().into());
                self.words().deed(&Deed::Car(name))
            }
            Done::Bay(deed) => self.words().deed(deed),
            Done::Car(deed) => self.words().car_deed(deed),
        }
    }

    /// Sentences about what is shown.
    pub(super) fn words(&self) -> Words<'_> {
        Words::new(&self.answer.arrangement, self.view.locale)
    }
}
