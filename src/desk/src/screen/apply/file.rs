//! Files: layouts opened, begun and saved, what an earlier session left, the shop's own lists.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{FileFault, Library, kind_of, whole_path};
use baywright_planner::model::Id;
use baywright_planner::model::fault::{FileKind, FileTrouble};

use crate::screen::command::{Command, OfFile};
use crate::screen::page::{Begun, Leaving, NewBay, OpenPage, Page, Question, SavePage};
use crate::screen::view::Notice;
use crate::screen::{Desk, waking};
use crate::session::answer::Answer;
use crate::session::document::{Document, NotSaved};
use crate::session::draft::Draft;
use crate::session::room_draft::RoomDraft;

impl Desk {
    /// Opens, begins or saves.
    pub(super) fn apply_to_file(&mut self, ctx: &egui::Context, asked: OfFile) {
        match asked {
            OfFile::BeginBay => {
                if !self.asks_first(Leaving::NewBay) {
                    self.begin_bay();
                }
            }
            OfFile::BeginBayAnyway => self.begin_bay(),
            OfFile::NewBay(layout) => self.new_bay(*layout),
            OfFile::DropBegun(Begun::Bay) => {
                self.lay(None);
                self.view.bay_begun = None;
            }
            OfFile::DropBegun(Begun::List) => {
                self.lay(None);
                self.view.list_begun = None;
            }
            OfFile::KeepTriggers(list) => self.keep_triggers(&list),
            OfFile::TakeUp(at) => {
                if !self.asks_before_taking_up(at) {
                    self.take_up(at);
                }
            }
            OfFile::TakeUpAnyway(at) => self.take_up(at),
            OfFile::ThrowAway(at) => self.throw_away(at),
            OfFile::Open(path) if kind_of(&path) == FileKind::Drawing => self.read_drawing(ctx, &path),
            // What cannot be opened is said at once: nothing has to be saved or dropped for it.
            OfFile::Open(path) => match self.read_layout(&path) {
                Err(faults) => self.say_not_opened(&path, &faults),
                Ok((document, answer)) => {
                    if !self.asks_first(Leaving::Open(path)) {
                        self.show_opened(document, answer);
                    }
                }
            },
            OfFile::OpenAnyway(path) => match self.read_layout(&path) {
                Err(faults) => self.say_not_opened(&path, &faults),
                Ok((document, answer)) => self.show_opened(document, answer),
            },
            OfFile::AskTapes => self.files.ask_tapes(&waking(ctx), self.document.path()),
            OfFile::AskLevels(of) => self.files.ask_levels(&waking(ctx), self.document.path(), of),
            OfFile::AskShopPicture => self.files.ask_shop_picture(&waking(ctx), self.shop.path()),
            OfFile::AskPicture => self.files.ask_picture(&waking(ctx), self.document.path()),
            OfFile::AskOpen => self.files.ask_open(&waking(ctx), self.document.path()),
            OfFile::AskSave => {
                let then = |path| Command::File(OfFile::SaveAs(path, true));
                self.files.ask_save(&waking(ctx), &self.suggested(), then);
            }
            OfFile::KeepProof(path, over) => self.keep_proof(&path, over),
            OfFile::AskProof(path) => {
                self.files.ask_save(&waking(ctx), &path, |path| Command::File(OfFile::KeepProof(path, true)));
            }
            OfFile::ReadDrawing(path) => self.read_drawing(ctx, &path),
            OfFile::AskDrawing => self.files.ask_drawing(&waking(ctx), self.document.path()),
            OfFile::TakeDrawing(anyway) => self.take_drawing(ctx, anyway),
            OfFile::PrintSheets => self.print_sheets(ctx),
            OfFile::SaveSheets(path, over) => self.save_sheets(ctx, &path, over),
            OfFile::AskSheets(path) => self.files.ask_sheets(&waking(ctx), &path),
            OfFile::Save => self.save_or_ask(ctx),
            OfFile::SaveThoughOpen => self.save(ctx, false),
            OfFile::SaveOver => self.save(ctx, true),
            OfFile::SaveAs(path, over) => self.save_as(ctx, &path, over),
            OfFile::SaveThen(then) => {
                self.after_save = Some(*then);
                self.save_or_ask(ctx);
            }
        }
    }

    /// Asks before work is lost; whether it did.
    pub(in crate::screen) fn asks_first(&mut self, leaving: Leaving) -> bool {
        // A car that is being entered is kept or dropped first: saving the bay would not save it.
        if self.asks_to_drop_car() {
            return true;
        }
        let asks = self.document.is_changed();
        if asks {
            self.lay(Some(Page::Ask(Question::Unsaved(leaving))));
        }
        asks
    }

    /// Asks before a bay that was begun, or a changed list of work, is lost; whether it did.
    pub(super) fn asks_to_drop_begun(&mut self) -> bool {
        let begun = self.view.begun();
        if let Some(begun) = begun {
            self.lay(Some(Page::Ask(Question::DropBegun(begun))));
        }
        begun.is_some()
    }

    /// Asks before a car that is being entered is lost; whether it did.
    pub(in crate::screen) fn asks_to_drop_car(&mut self) -> bool {
        let asks = self.document.draft().is_some_and(Draft::is_changed);
        if asks {
            self.lay(Some(Page::Ask(Question::DropCar)));
        }
        asks
    }

    /// A bare name is one in the folder where one's bays lie; the program may have been started anywhere.
    pub(in crate::screen) fn in_folder(&self, path: &Path) -> PathBuf {
        let bare = path.parent().is_some_and(|folder| folder.as_os_str().is_empty());
        match self.bays_folder() {
            Some(folder) if bare => folder.join(path),
            _ => path.to_owned(),
        }
    }

    /// Where the open bay lies; the user's documents if it lies nowhere yet.
    pub(in crate::screen) fn bays_folder(&self) -> Option<PathBuf> {
        let own = self.document.path().and_then(Path::parent).map(Path::to_owned);
        own.filter(|folder| !folder.as_os_str().is_empty()).or_else(baywright_files::documents_folder)
    }

    /// A layout and what is said of it; what is wrong with its file.
    fn read_layout(&self, path: &Path) -> Result<(Document, Answer), Vec<FileFault>> {
        let near = self.in_folder(&with_ending(path));
        // A name without its ending, or without its folder, is found where it was saved.
        let path = baywright_files::meant(path, &near);
        let mut document = Document::open(path, self.document.by())?;
        self.go_on_showing(&mut document);
        let answer = Answer::of(&document, self.assess)
            .ok_or_else(|| vec![FileFault::whole(path.display().to_string(), FileTrouble::CannotBeJudged)])?;
        Ok((document, answer))
    }

    fn say_not_opened(&mut self, path: &Path, faults: &[FileFault]) {
        let faults = self.sentences(faults);
        faults.iter().for_each(|fault| self.log.push(fault));
        // By the name under which it was looked for.
        let near = self.in_folder(&with_ending(path));
        let path = baywright_files::meant(path, &near).display().to_string();
        self.lay(Some(Page::Open(OpenPage { path, faults, focus: true })));
    }

    /// Of the file that is open already, as somebody else wrote it: the set-up in hand is shown, if that is there still and goes
    /// with its car.
    fn go_on_showing(&self, again: &mut Document) {
        let is_same = again.path().zip(self.document.path()).is_some_and(|(again, own)| {
            let own = whole_path(own);
            own.is_some() && own == whole_path(again)
        });
        if is_same {
            // What does not go with its car is told once it is open, and another one shown.
            let _ = again.show(self.document.shown());
        }
    }

    fn begin_bay(&mut self) {
        let name = self.view.locale.language.rooms().my_bay;
        // What is typed of one on the page that lies there goes on.
        self.lay(None);
        let begun =
            self.view.bay_begun.take().unwrap_or_else(|| RoomDraft::new(name, self.view.locale.units.into()));
        self.lay(Some(Page::NewBay(NewBay::of(begun))));
    }

    /// Shows another document in place of the one that was open; why not, if nothing can be said of it.
    pub(in crate::screen) fn show_document(&mut self, document: Document) -> Result<(), String> {
        let answer = Answer::of(&document, self.assess).ok_or(self.texts().cannot_be_judged)?;
        self.show_opened(document, answer);
        Ok(())
    }

    fn show_opened(&mut self, document: Document, answer: Answer) {
        // Never the same number as before: what was drawn for the old document is not shown for the new.
        let generation = self.answer.generation + 1;
        (self.document, self.answer) = (document, answer);
        self.answer.generation = generation;
        self.view.camera = None;
        self.lay(None);
        self.view.forget_what_was_there();
        // What a car was in for was ticked for one of the other bay.
        if let Some(begun) = &mut self.view.list_begun {
            begun.chosen.clear();
        }
        self.verdicts.forget();
        self.staying = super::super::parking::Staying::default();
        self.keeper.next_work();
        self.hold_file();
        self.say_shut();
    }

    /// Saves where it lies, unless all of it is there; asks first if another window has the file.
    fn save_or_ask(&mut self, ctx: &egui::Context) {
        if !self.document.has_to_be_saved() {
            let path = self.document.path().unwrap_or(Path::new("")).display().to_string();
            self.say(self.texts().nothing_to_save(&path));
            self.go_on_after_save(ctx);
        } else if !self.try_to_hold() && !self.document.is_changed_on_disk() {
            self.lay(Some(Page::Ask(Question::OpenElsewhere)));
        } else {
            self.save(ctx, false);
        }
    }

    fn save(&mut self, ctx: &egui::Context, over: bool) {
        let saved = self.document.save(over);
        match saved {
            Err(NotSaved::NoPlace) => self.ask_name(Vec::new()),
            Err(NotSaved::ChangedOnDisk) => {
                self.lay(Some(Page::Ask(Question::ChangedOnDisk)));
            }
            Err(NotSaved::Gone) => {
                self.lay(Some(Page::Ask(Question::GoneFromDisk)));
            }
            Err(NotSaved::Faults(faults)) => self.ask_name(self.sentences(&faults)),
            Ok(saved) => self.say_saved(ctx, saved),
        }
    }

    fn save_as(&mut self, ctx: &egui::Context, path: &Path, over: bool) {
        let path = self.in_folder(&with_ending(path));
        match self.document.save_as(&path, over) {
            Err(NotSaved::NoPlace | NotSaved::ChangedOnDisk | NotSaved::Gone) => {
                self.lay(Some(Page::Ask(Question::Replace(path))));
            }
            Err(NotSaved::Faults(faults)) => {
                let faults = self.sentences(&faults);
                let path = path.display().to_string();
                self.lay(Some(Page::Save(SavePage { path, faults, focus: true })));
            }
            Ok(saved) => self.say_saved(ctx, saved),
        }
    }

    fn say_saved(&mut self, ctx: &egui::Context, saved: baywright_files::Saved) {
        self.hold_file();
        let texts = self.texts();
        let path = self.document.path().unwrap_or(Path::new("")).display().to_string();
        self.say(match (saved.backup, saved.other_version) {
            (Some(backup), _) => texts.saved_with_backup(&path, &backup.display().to_string()),
            (None, Some(older)) => texts.saved_with_older(&path, &older.display().to_string()),
            (None, None) => texts.saved(&path),
        });
        self.say_cars_not_found(&path);
        self.go_on_after_save(ctx);
    }

    /// What was to be done once the work was on the disk. What went wrong on the way there is read with what that says.
    fn go_on_after_save(&mut self, ctx: &egui::Context) {
        let then = self.after_save.take();
        self.lay(None);
        let Some(then) = then else { return };
        let before = self.view.notice.clone().filter(|said| said.wrong);
        self.apply(ctx, then);
        if let Some(before) = before
            && self.view.notice.as_ref() != Some(&before)
        {
            let since = self.view.notice.as_ref().map_or_else(String::new, |said| format!(" {}", said.text));
            self.view.notice = Some(Notice { text: before.text + &since, wrong: true });
        }
    }

    /// Says which cars of the layout are not found from where it was saved. What is shown here has them still.
    fn say_cars_not_found(&mut self, path: &str) {
        let mut from_there = Library::beside(Path::new(path));
        if let Some(folder) = self.data_folder() {
            from_there.live_in(folder.join("vehicle-profiles"));
        }
        let layout = Arc::clone(self.document.layout());
        let cars: BTreeSet<&Id> = layout.arrangements.iter().map(|own| &own.vehicle).collect();
        let is_missing = |id: &&Id| matches!(from_there.find(id), Ok(None));
        let missing: Vec<&Id> = cars.into_iter().filter(is_missing).collect();
        if !missing.is_empty() {
            self.say_wrong(self.texts().saved_without_cars(path, &missing));
        }
    }

    fn ask_name(&mut self, faults: Vec<String>) {
        let path = self.suggested().display().to_string();
        self.lay(Some(Page::Save(SavePage { path, faults, focus: true })));
    }

    /// Where a layout would be saved that has no place yet.
    pub(in crate::screen) fn suggested(&self) -> PathBuf {
        self.document.path().map_or_else(
            || {
                let folder = baywright_files::documents_folder().unwrap_or_default();
                folder.join(format!("{}.ron", self.document.layout().bay.id))
            },
            Path::to_owned,
        )
    }
}

/// A name that says what it is: `.ron` unless it says so already.
pub(in crate::screen) fn with_ending(path: &Path) -> PathBuf {
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ron")) {
        return path.to_owned();
    }
    let mut name = path.as_os_str().to_owned();
    name.push(".ron");
    PathBuf::from(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_end_in_ron() {
        assert_eq!(with_ending(Path::new("a/bay")), Path::new("a/bay.ron"));
        assert_eq!(with_ending(Path::new("a/bay.RON")), Path::new("a/bay.RON"));
        assert_eq!(with_ending(Path::new("bay 1.2")), Path::new("bay 1.2.ron"));
    }
}
