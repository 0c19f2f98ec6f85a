//! So that nothing is lost: the journal of this session, what earlier ones left behind, files that someone else has open or
//! changed.

use std::path::Path;

use baywright_files::{
    FileFault, Hold, LeftBehind, Leftovers, Since, Work, hold, left_behind, parse_draft, parse_layout,
    parse_shop,
};
use egui::{Context, RichText, Ui};

use super::command::{Command, OfFile};
use super::look::{self, size};
use super::page::{Leaving, NewBay, Page};
use super::{Desk, widgets};
use crate::session::document::Document;
use crate::session::draft::Draft;
use crate::session::keeper::{self, Keeper, NotKept};
use crate::session::room_draft::{RoomDraft, Unread};

impl Desk {
    /// From now on nothing that is entered is lost: keeps a journal, offers what was left behind, holds the open file. For
    /// the window; tests that want it call it too.
    pub fn keep_everything(&mut self) {
        let Some(folder) = self.data_folder() else {
            self.say_wrong(self.texts().nothing_kept);
            return;
        };
        self.left_behind = left_behind(&folder.join("journal"));
        self.keeper = Keeper::start(&folder.join("journal"));
        for path in &self.left_behind.not_understood {
            self.log.push(&self.texts().not_understood(&path.display().to_string()));
        }
        if !self.left_behind.works.is_empty() || !self.left_behind.not_understood.is_empty() {
            self.lay(Some(Page::LeftBehind));
        }
        self.hold_file();
    }

    /// The journal, for tests: waits until everything is on the disk.
    pub fn wait_until_kept(&mut self) {
        self.keeper.wait();
    }

    /// Holds the file that is open, and says so if another window has it.
    pub(super) fn hold_file(&mut self) {
        self.held = None;
        if !self.try_to_hold() {
            let text = self.texts().open_elsewhere;
            self.say_wrong(text);
        }
    }

    /// Holds the file that is open from here on, unless another window has it; whether none has. Where there is nothing to hold, or
    /// the hold cannot be written, the file can be used all the same.
    pub(super) fn try_to_hold(&mut self) -> bool {
        // Without a window of its own nothing is written into the user's folders.
        if self.held.is_some() || !self.keeper.is_on() {
            return true;
        }
        let (Some(folder), Some(path)) = (self.data_folder(), self.document.path().map(Path::to_owned))
        else {
            return true;
        };
        match hold(&folder.join("in-use"), &path) {
            Ok(Hold::Held(held)) => self.held = Some(held),
            Ok(Hold::InUseElsewhere) => return false,
            Err(fault) => self.log.push(&self.view.locale.language.file_fault(&fault)),
        }
        true
    }

    /// Looks after the journal's faults and, when the window is come back to, after the file on the disk.
    pub(super) fn look_after(&mut self, ctx: &Context) {
        if let Some(why) = self.keeper.fault() {
            let text = self.why_not_kept(&why);
            self.say_wrong(text);
        }
        let came_back =
            ctx.input(|i| i.events.iter().any(|event| matches!(event, egui::Event::WindowFocused(true))));
        if came_back {
            self.look_at_shop_again();
        }
        if came_back && let Some(astray) = self.document.car_astray() {
            let texts = self.view.locale.language.forms();
            let car = &astray.name;
            self.say_wrong(if astray.is_gone {
                texts.car_gone_meanwhile(car)
            } else {
                texts.car_changed_since(car)
            });
        }
        if came_back && self.document.is_changed_on_disk() {
            let texts = self.texts();
            let is_gone = self.document.is_gone_from_disk();
            let text = if is_gone { texts.gone_meanwhile } else { texts.changed_meanwhile };
            self.say_wrong(text);
        }
    }

    /// Why what is entered is not kept, in one sentence.
    fn why_not_kept(&self, why: &NotKept) -> String {
        match why {
            NotKept::Refused(fault) => self.view.locale.language.file_fault(fault),
            NotKept::NoText => self.texts().no_text_to_keep.to_owned(),
            NotKept::Fault(words) => self.texts().keeper_failed(words),
            NotKept::Ended => self.texts().keeper_ended.to_owned(),
        }
    }

    /// The short notice that stays as long as nothing is kept, with the reason behind it.
    pub(super) fn kept_no_more(&self, ui: &mut Ui) {
        let Some(why) = self.keeper.failing() else { return };
        let why = self.why_not_kept(why);
        let colour = look::colour(self.view.theme.palette().stops);
        let text = RichText::new(self.texts().not_kept_now).size(size::SMALL).color(colour);
        ui.add(egui::Label::new(text)).on_hover_text(&why);
    }

    pub(super) fn left_behind_page(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        let Leftovers { works, not_understood } = &self.left_behind;
        for path in not_understood {
            ui.add(egui::Label::new(texts.not_understood(&path.display().to_string())).wrap());
            ui.add_space(6.0);
        }
        if !works.is_empty() {
            ui.add(egui::Label::new(texts.left_behind_about).wrap());
            ui.add(egui::Label::new(texts.undo_not_kept).wrap());
            ui.add_space(6.0);
        }
        let now = keeper::now();
        for (i, left) in works.iter().enumerate() {
            let record = &left.record;
            let kind = match record.kind {
                Work::Layout => texts.bay,
                Work::Profile => texts.car,
                Work::Room => texts.bay_begun,
                Work::Shop => self.view.locale.language.shop().title,
                Work::Triggers => texts.work_list,
            };
            let title = texts.of(kind, &record.name);
            ui.label(RichText::new(&title).font(look::bold(size::BODY)));
            let when = texts.ago(now.saturating_sub(record.at));
            let place = record
                .path
                .as_ref()
                .map_or_else(|| texts.never_saved.to_owned(), |p| p.display().to_string());
            ui.add(egui::Label::new(widgets::soft(ui, texts.when_and_where(&when, &place))).wrap());
            match left.since {
                Since::Same => {
                    ui.add(egui::Label::new(texts.left_is_saved).wrap());
                }
                Since::Written => {
                    ui.add(egui::Label::new(texts.left_saved_since).wrap());
                }
                Since::Gone => {
                    ui.add(egui::Label::new(texts.left_file_gone).wrap());
                }
                Since::Unwritten => {}
            }
            ui.horizontal(|ui| {
                let open = widgets::offer(ui, self.view.theme, texts.take_up);
                if open.accessible_name(texts.of(texts.take_up, &title)).clicked() {
                    out.push(Command::File(OfFile::TakeUp(i)));
                }
                let throw = widgets::lesser(ui, texts.throw_away);
                if throw.accessible_name(texts.of(texts.throw_away, &title)).clicked() {
                    out.push(Command::File(OfFile::ThrowAway(i)));
                }
            });
            ui.add_space(8.0);
        }
        if works.is_empty() && not_understood.is_empty() {
            ui.label(texts.nothing_left);
        }
    }

    /// Asks before what is open makes room for what was left behind; whether it did. A car stands in the bay that is open.
    pub(super) fn asks_before_taking_up(&mut self, at: usize) -> bool {
        match self.left_behind.works.get(at).map(|left| left.record.kind) {
            Some(Work::Layout) => self.asks_first(Leaving::TakeUp(at)),
            Some(Work::Profile) => self.asks_to_drop_car(),
            _ => false,
        }
    }

    /// Shows what was left behind; it is forgotten only when this session keeps it.
    pub(super) fn take_up(&mut self, at: usize) {
        if at >= self.left_behind.works.len() {
            return;
        }
        let left = self.left_behind.works.remove(at);
        let shown = match left.record.kind {
            Work::Layout => self.take_up_layout(&left),
            Work::Profile => self.take_up_car(&left),
            Work::Room => self.take_up_room(&left),
            Work::Shop => self.take_up_shop(&left),
            Work::Triggers => self.take_up_list(&left.record.text, &left.record.name),
        };
        match shown {
            Ok(()) => {
                // A bay and the car that was entered in it are two works: the one after the other. What has a page of its own goes
                // before the list.
                if !matches!(left.record.kind, Work::Room | Work::Triggers) {
                    self.lay(None);
                }
                // What is on disk already needs no journal any more.
                if left.record.kind == Work::Shop && !self.shop.is_changed() {
                    if let Err(fault) = left.forget() {
                        self.say_wrong(self.view.locale.language.file_fault(&fault));
                    }
                } else {
                    self.keeper.recovers(left);
                }
            }
            Err(why) => {
                self.say_wrong(why);
                self.left_behind.works.insert(at, left);
                self.lay(None);
            }
        }
    }

    fn take_up_layout(&mut self, left: &LeftBehind) -> Result<(), String> {
        let record = &left.record;
        let stem = record
            .path
            .as_ref()
            .and_then(|path| path.file_stem())
            .map(|stem| stem.to_string_lossy().into_owned());
        let otherwise = self.view.locale.language.rooms().my_bay;
        let id = stem.unwrap_or_else(|| super::forms::car::file_name(&record.name, otherwise));
        let said = |faults: Vec<FileFault>| self.first_sentence(&faults);
        let layout = parse_layout(&record.name, &id, &record.text).map_err(said)?;
        let document = Document::taken_up(layout, record.path.clone(), record.unchanged(), &self.document)
            .map_err(said)?;
        self.show_document(document)
    }

    fn take_up_room(&mut self, left: &LeftBehind) -> Result<(), String> {
        let texts = self.texts();
        if self.view.room_begun().is_some() {
            return Err(texts.finish_bay.to_owned());
        }
        let room = RoomDraft::left_behind(&left.record.text).map_err(|why| match why {
            Unread::Later => texts.left_by_later,
            Unread::Damaged => texts.left_damaged,
        })?;
        self.lay(Some(Page::NewBay(NewBay::of(room))));
        Ok(())
    }

    /// They are set, and saved where nobody else changed the file since.
    fn take_up_shop(&mut self, left: &LeftBehind) -> Result<(), String> {
        let record = &left.record;
        let shop = parse_shop(&record.name, &record.text).map_err(|faults| self.first_sentence(&faults))?;
        if self.shop.is_unread() {
            return Err(self.view.locale.language.shop().not_read.to_owned());
        }
        self.shop.take_up(&shop, record.unchanged());
        self.judge_by_shop();
        Ok(())
    }

    fn take_up_car(&mut self, left: &LeftBehind) -> Result<(), String> {
        let record = &left.record;
        let otherwise = self.view.locale.language.forms().my_car;
        // An older program noted no short name.
        let id = record.id.clone().unwrap_or_else(|| super::forms::car::file_name(&record.name, otherwise));
        let car =
            parse_draft(&record.name, &id, &record.text).map_err(|faults| self.first_sentence(&faults))?;
        let own = record.path.as_deref().zip(record.unchanged());
        let replaces = own.and_then(|(path, mark)| self.document.still_replaces(&car.id, path, mark));
        self.document.begin_car(Draft::taken_up(car, replaces));
        Ok(())
    }

    pub(super) fn throw_away(&mut self, at: usize) {
        if at >= self.left_behind.works.len() {
            return;
        }
        if let Err(fault) = self.left_behind.works.remove(at).forget() {
            self.say_wrong(self.view.locale.language.file_fault(&fault));
        }
        if self.left_behind.works.is_empty() {
            self.lay(None);
        }
    }
}
