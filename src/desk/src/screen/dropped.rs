//! A file that is dropped on the window: a layout opens, a car is entered, a picture lies under the plan, a
//! drawing of another program is shown with what comes of it.

use std::path::Path;

use baywright_files::{kind_of, load_profile, whole_path};
use baywright_planner::model::Vehicle;
use baywright_planner::model::fault::FileKind;
use egui::Context;

use super::Desk;
use super::command::{Command, OfBay, OfCar, OfFile};
use super::of_record::OfRecord;
use super::view::CarView;
use crate::session::draft::Draft;

impl Desk {
    /// What is asked for by the files that were dropped since the last frame.
    pub(super) fn hear_dropped(&mut self, ctx: &Context, out: &mut Vec<Command>) {
        let dropped = ctx.input(|i| i.raw.dropped_files.clone());
        let paths: Vec<&Path> = dropped.iter().map(|file| file.path()).collect();
        let Some(first) = paths.first() else { return };
        let texts = self.texts();
        if self.takes_papers() {
            let all = paths.iter().map(|path| (path.to_path_buf(), self.paper_kind(path))).collect();
            out.push(Command::Record(OfRecord::Attach(all)));
            return;
        }
        // What is typed on a page would be gone, or what waits for an answer, or the file would be opened unseen behind a question.
        if self.view.page().is_some_and(|page| page.is_typed_in() || page.waits()) {
            self.say_wrong(texts.close_page_first);
            return;
        }
        match kind_of(first) {
            FileKind::Layout => out.push(Command::File(OfFile::Open(first.to_path_buf()))),
            FileKind::Profile => out.push(Command::Car(OfCar::Read(first.to_path_buf()))),
            FileKind::Drawing => out.push(Command::File(OfFile::ReadDrawing(first.to_path_buf()))),
            FileKind::Picture => {
                let put = self.with_picture(first);
                out.push(Command::Bay(OfBay::Edit(put)));
            }
            _ => self.say_wrong(texts.not_to_be_dropped),
        }
        if paths.len() > 1 {
            out.push(Command::Say(texts.one_at_a_time.to_owned()));
        }
    }

    /// A car out of a file: chosen if it is one of those that can be chosen, else entered, so that it can be kept.
    pub(super) fn read_car(&mut self, path: &Path) {
        let read = match load_profile(path) {
            Ok(read) => read,
            Err(faults) => {
                for sentence in self.sentences(&faults).into_iter().rev() {
                    self.say_wrong(sentence);
                }
                return;
            }
        };
        if self.asks_to_drop_car() {
            return;
        }
        self.document.drop_car();
        let same = self.document.cars().iter().find(|own| own.vehicle == read.vehicle);
        if let Some(id) = same.map(|own| own.vehicle.id.clone()) {
            self.choose_car(&id, None);
            return;
        }
        let id = self.free_car_name(read.vehicle.id.as_str());
        self.document.begin_car(Draft::taken_up(Vehicle { id, ..read.vehicle }, None));
        self.view.car = CarView { whole: true, lead: None, part: None };
        self.fields = super::forms::field::Fields::default();
        self.lay(None);
        (self.view.selected, self.view.pointed) = (None, None);
        self.say(self.texts().car_was_read);
    }

    /// The edit that puts a picture under the plan.
    fn with_picture(&self, path: &Path) -> baywright_planner::edit::Edit {
        let whole = whole_path(path).unwrap_or_else(|| path.display().to_string());
        // Beside the layout it goes by its name, so that both can be moved together.
        let folder = self.document.path().and_then(Path::parent).and_then(whole_path);
        let beside = folder
            .and_then(|folder| Path::new(&whole).strip_prefix(folder).ok()?.to_str().map(str::to_owned));
        self.picture_under_plan(beside.unwrap_or(whole))
    }
}
