//! Carries out what the screen asks for: the one place where the document and the view change.

use std::path::{Path, PathBuf};

use baywright_files::FileFault;
use baywright_planner::edit::{Edit, EditFault};
use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::hand::free_spot;
use baywright_planner::model::fault::FileTrouble;
use baywright_planner::model::{Id, Known, Place, StandSet, Thing, ThingKind};
use baywright_planner::words::Words;
use baywright_planner::{Step, Subject, hand};

use super::command::Command;
use super::pages::{Leaving, NewBay, Page, Question, SavePage};
use super::view::{Measuring, Notice, Tab, Tool};
use super::{Desk, waking};
use crate::screen::shelf;
use crate::session::document::{Document, Done, NotSaved, Refused};
use crate::session::room_draft::RoomDraft;

/// A step of the eye nearer or further.
const MOST_SCALE: f64 = 4.0;
const LEAST_SCALE: f64 = 1e-3;

impl Desk {
    /// Carries out one command.
    pub(super) fn apply(&mut self, ctx: &egui::Context, command: Command) {
        if self.document.draft().is_some() && changes_bay(&command) {
            self.say_wrong(self.texts().finish_car);
            return;
        }
        let view = &mut self.view;
        match command {
            Command::Duplicate => {
                let name = self.free_arrangement_name();
                self.edit(&Edit::Duplicate(name));
            }
            Command::BeginBay => {
                if !self.asks_first(Leaving::NewBay) {
                    self.begin_bay();
                }
            }
            Command::NewBayAnyway => self.begin_bay(),
            Command::NewBay(layout) => {
                view.bay_begun = None;
                self.new_bay(*layout);
            }
            Command::KeepTriggers(list) => self.keep_triggers(&list),
            Command::BeginVisit => self.begin_visit(),
            Command::TakeUp(at) => self.take_up(at),
            Command::ThrowAway(at) => self.throw_away(at),
            Command::BeginCar(how) => self.begin_car(how),
            Command::ChangeCar(car) => {
                if let Some(draft) = self.document.draft_mut() {
                    draft.change(*car);
                }
            }
            Command::KeepCar => self.keep_car(),
            Command::DropCar => {
                if self.document.draft().is_some_and(crate::session::draft::Draft::is_changed) {
                    view.page = Some(Page::Ask(Question::DropCar));
                } else {
                    self.document.drop_car();
                }
            }
            Command::DropCarAnyway => {
                self.document.drop_car();
                view.tool = Tool::Hand;
            }
            Command::WholeForm(whole) => view.car.whole = whole,
            Command::DrawnArea(drawn, from, to) => self.drawn_area(drawn, from, to),
            Command::ScalePoint(at) => self.scale_point(at),
            Command::ScalePicture(distance) => self.scale_picture(distance),
            Command::PickedMark(mark) => self.picked_mark(mark),
            Command::Say(text) => self.say_wrong(text),
            Command::Edit(edit) => self.edit(&edit),
            Command::Preview(edits) => {
                let shown = self.document.preview(&edits);
                self.say_refused(shown);
            }
            Command::Settle(edit) => {
                let kept = self.document.settle(&edit);
                self.say_refused(kept);
            }
            Command::Abandon => self.document.abandon(),
            Command::Undo => self.document.undo(),
            Command::Redo => self.document.redo(),
            Command::Cure(finding) => self.cure(finding),
            Command::KeepPromise => self.keep_promise(),
            Command::Add(kind) => self.add(kind),
            Command::AddPart(part) => self.add_part(part),
            Command::Copy(thing) => self.copy(&thing),
            Command::Nudge(by) => self.nudge(by),
            Command::Turn(by) => self.turn(by),
            Command::Select(subject) => {
                if view.selected != subject {
                    view.pointed = None;
                }
                view.selected = subject;
            }
            Command::Hover(subject) => view.hovered = subject,
            Command::Point(finding) => self.point(finding),
            Command::Explain(finding) => {
                view.explained = (view.explained != Some(finding)).then_some(finding);
            }
            Command::Camera(camera) => view.camera = camera,
            Command::Zoom(by) => self.zoom(by),
            Command::Tool(tool) => view.tool = tool,
            Command::Tab(tab) => view.tab = tab,
            Command::List(open) => view.list_open = open,
            Command::Theme(theme) => view.theme = theme,
            Command::Units(units) => view.units = units,
            Command::BaySize(large) => {
                view.bay_size = large;
                view.camera = None;
            }
            Command::ToRoom(to_room) => {
                view.to_room = to_room;
                view.camera = None;
            }
            Command::Along(axis) => {
                view.along = axis;
                view.camera = None;
            }
            Command::Show(arrangement) => {
                self.document.show(&arrangement);
                self.view.forget_what_was_there();
            }
            Command::Car(car) => self.choose_car(&car, None),
            Command::Aiming(aiming) if self.document.draft().is_some() => {
                if let Some(draft) = self.document.draft_mut() {
                    draft.show(aiming);
                }
            }
            Command::Aiming(aiming) => {
                let car = self.answer.arrangement.vehicle.id.clone();
                self.choose_car(&car, Some(&aiming));
            }
            Command::Page(page) => {
                // Stepping back from a page is stepping back from what it was to lead to.
                if page.is_none() {
                    self.after_save = None;
                }
                let before = std::mem::replace(&mut view.page, page);
                // What was typed of a bay is there when one comes back to it.
                if let Some(Page::NewBay(begun)) = before {
                    view.bay_begun = Some(begun.room);
                }
            }
            Command::Open(path) => {
                if !self.asks_first(Leaving::Open(path.clone())) {
                    self.open(&path);
                }
            }
            Command::OpenAnyway(path) => self.open(&path),
            Command::AskOpen => self.files.ask_open(&waking(ctx), self.document.path()),
            Command::AskSave => self.files.ask_save(&waking(ctx), &self.suggested()),
            Command::Save => self.save(ctx, false),
            Command::SaveOver => self.save(ctx, true),
            Command::SaveAs(path, over) => self.save_as(ctx, &path, over),
            Command::SaveThen(then) => {
                self.after_save = Some(*then);
                self.save(ctx, false);
            }
            Command::Survey => self.survey.start(&waking(ctx), &self.document),
            Command::StopSurvey => self.survey.stop(),
            Command::CopyDiagnostics => {
                ctx.copy_text(self.diagnostics(ctx));
                self.say(self.texts().diagnostics_copied);
            }
            Command::Quit => {
                if !self.asks_first(Leaving::Quit) {
                    self.quit(ctx);
                }
            }
            Command::QuitAnyway => self.quit(ctx),
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
        faults.iter().map(|fault| self.view.language.file_fault(fault)).collect()
    }

    /// The first of them.
    pub(super) fn first_sentence(&self, faults: &[FileFault]) -> String {
        faults.first().map_or_else(String::new, |fault| self.view.language.file_fault(fault))
    }

    fn say_refused(&mut self, result: Result<(), Refused>) {
        let texts = self.texts();
        match result {
            Ok(()) => {
                if self.view.notice.as_ref().is_some_and(|notice| notice.wrong) {
                    self.view.notice = None;
                }
            }
            Err(Refused::Edit(EditFault::NoSuch(id))) => self.say_wrong(texts.no_such(&id)),
            Err(Refused::Edit(EditFault::NameTaken(id))) => self.say_wrong(texts.name_taken(&id)),
            Err(Refused::Edit(EditFault::NoShape)) => self.say_wrong(texts.no_shape),
            Err(Refused::Unsound(fault)) => self.say_wrong(texts.unsound(&fault)),
        }
    }

    /// Whether something in the bay goes by this name.
    pub(super) fn is_taken(&self, name: &Id) -> bool {
        baywright_planner::edit::is_taken(self.document.layout(), name)
    }

    /// Makes a change, and says why if it is not made.
    pub(super) fn edit(&mut self, edit: &Edit) {
        let done = self.document.edit(edit);
        if done.is_ok() {
            if let (Edit::Rename { thing, name }, Some(Subject::Thing(selected))) =
                (edit, &self.view.selected)
                && selected == thing
            {
                self.view.selected = Some(Subject::Thing(name.clone()));
            }
            self.view.pointed = None;
        }
        self.say_refused(done);
    }

    fn cure(&mut self, finding: usize) {
        let found = self.answer.assessment.findings.get(finding);
        let Some(step) = found.and_then(|found| Some(found.cure.as_ref()?.step.clone())) else { return };
        if self.answer.stale {
            return;
        }
        match step {
            // These ask a person to find something out: lead to where it is entered, or say where it will be.
            Step::Tape { thing } => {
                self.view.selected = Some(Subject::Thing(thing));
                self.view.list_open = true;
                self.say(self.texts().enter_taped);
            }
            Step::SurveyFloor => {
                self.view.selected = Some(Subject::Floor);
                self.view.list_open = true;
                self.say(self.texts().enter_levels);
            }
            Step::EnterFigures => {
                self.say(self.texts().enter_figures);
                self.begin_car(super::forms::car::Begin::Change);
            }
            Step::EnterAlignment => {
                self.view.selected = Some(Subject::Car);
                self.view.list_open = true;
                self.say(self.texts().enter_alignment);
            }
            Step::ReviewProfile => {
                let vehicle = self.answer.arrangement.vehicle.id.clone();
                let car = self.document.cars().iter().find(|car| car.vehicle.id == vehicle);
                if let Some(fingerprint) = car.map(|car| car.fingerprint.clone()) {
                    self.edit(&Edit::Remember(fingerprint));
                }
            }
            step => {
                if let Step::MoveThing { thing, .. } = &step {
                    self.view.selected = Some(Subject::Thing(thing.clone()));
                }
                self.edit(&Edit::Do(step));
            }
        }
    }

    fn keep_promise(&mut self) {
        let Some(promise) = self.answer.assessment.promise.clone().filter(|_| !self.answer.stale) else {
            return;
        };
        let edits: Vec<Edit> = promise.steps.into_iter().map(Edit::Do).collect();
        let done = self.document.preview(&edits).and_then(|()| self.document.settle(&Edit::All(edits)));
        if done.is_err() {
            self.document.abandon();
        }
        self.say_refused(done);
        self.view.pointed = None;
    }

    /// The middle of what is seen, bay frame: where something new goes.
    pub(super) fn middle_in_sight(&self) -> DVec2 {
        let middle = self.canvas.middle_in_bay();
        middle.unwrap_or_else(|| self.answer.assessment.scene.room.walls().bounds().centre())
    }

    fn add(&mut self, kind: ThingKind) {
        let words = self.words();
        let name = self.free_name(words.kind_of_thing(kind));
        let at = self.middle_in_sight();
        let ceiling = self.answer.arrangement.bay.ceiling;
        let Some(mut thing) = shelf::thing(kind, name, at, ceiling) else { return };
        // In nobody's way, as near as there is room; what was meant to stand in the way is drawn there.
        let spot = free_spot(&self.answer.arrangement, &self.answer.assessment.scene, &thing, at);
        thing.place.at = PlanPose::new(spot, 0.0);
        self.add_thing(thing);
    }

    fn copy(&mut self, of: &Id) {
        let Some(own) = self.answer.arrangement.bay.things.iter().find(|thing| thing.id == *of) else {
            return;
        };
        let mut thing = own.clone();
        thing.id = self.free_name(of.as_str());
        thing.locked = false;
        // Beside it, towards the bottom of the paper, where it is seen not to be the same.
        let size = thing.prism().outline.bounds().size();
        let aside = self.canvas.bay_from_top().turned(DVec2::new(0.0, -1.0)) * (size.min_element() + 100.0);
        thing.place = thing.place.shifted(aside);
        self.add_thing(thing);
    }

    fn add_thing(&mut self, thing: Thing) {
        let id = thing.id.clone();
        self.edit(&Edit::Add(thing));
        self.view.selected = Some(Subject::Thing(id));
        self.view.list_open = true;
    }

    /// "As found 2", "As found 3" ...
    fn free_arrangement_name(&self) -> Id {
        let stem = self.document.shown().stem();
        // The copy of "As found 2" is not the missing "As found".
        let taken = |name: &str| {
            name == stem || self.document.layout().arrangements.iter().any(|own| own.id.as_str() == name)
        };
        Id::free(stem, " ", taken)
    }

    /// "cabinet", "cabinet 2", "cabinet 3" ...
    pub(super) fn free_name(&self, wanted: &str) -> Id {
        let layout = self.document.layout();
        Id::free(Id::from(wanted).stem(), " ", |name| {
            baywright_planner::edit::is_taken(layout, &Id::from(name))
        })
    }

    /// Moves what is in hand; `by` is along the paper's own directions, mm.
    fn nudge(&mut self, by: DVec2) {
        let Some((subject, pose)) = self.in_hand() else { return };
        let by = self.canvas.bay_from_top().turned(by);
        if let Some(edit) = self.placed(&subject, pose.shifted(by)) {
            self.edit(&edit);
        }
    }

    fn turn(&mut self, by: f64) {
        let Some((subject, pose)) = self.in_hand() else { return };
        let turned = PlanPose::new(pose.origin(), angle::wrapped(pose.heading() + by));
        if let Some(edit) = self.placed(&subject, turned) {
            self.edit(&edit);
        }
    }

    fn in_hand(&self) -> Option<(Subject, PlanPose)> {
        let subject = self.view.selected.clone()?;
        let pose = hand::pose_of(&self.answer.arrangement, &self.answer.assessment.scene, &subject)?;
        Some((subject, pose))
    }

    /// The edit that puts something somewhere; `None` for what cannot be moved.
    pub(super) fn placed(&self, subject: &Subject, pose: PlanPose) -> Option<Edit> {
        placed(&self.answer, subject, pose)
    }

    fn point(&mut self, finding: usize) {
        let Some(found) = self.answer.assessment.findings.get(finding) else { return };
        let again = self.view.pointed == Some(finding);
        self.view.pointed = (!again).then_some(finding);
        self.scroll_to = self.view.pointed;
        self.view.tab = Tab::Findings;
        self.view.selected = found.subjects.first().cloned().map(super::whole).filter(|_| !again);
        if !again && let Some(camera) = self.canvas.camera_on(found.place, self.view.camera) {
            self.view.camera = Some(camera);
        }
    }

    fn zoom(&mut self, by: f64) {
        let Some(mut camera) = self.view.camera.or_else(|| self.canvas.camera()) else { return };
        camera.px_per_mm = (camera.px_per_mm * by).clamp(LEAST_SCALE, MOST_SCALE);
        self.view.camera = Some(camera);
    }

    fn choose_car(&mut self, car: &Id, aiming: Option<&Id>) {
        let Some(profile) = self.document.cars().iter().find(|own| own.vehicle.id == *car) else { return };
        let aimings = &profile.vehicle.aimings;
        let wanted = aiming.unwrap_or(&self.answer.arrangement.aiming.id);
        let chosen = aimings.iter().find(|own| own.id == *wanted).or_else(|| aimings.first());
        let Some(chosen) = chosen else {
            let text = self.texts().no_aiming(&profile.vehicle.name);
            self.say_wrong(text);
            return;
        };
        let edit = Edit::Car {
            vehicle: car.clone(),
            aiming: chosen.id.clone(),
            fingerprint: profile.fingerprint.clone(),
        };
        self.edit(&edit);
        self.view.forget_what_was_there();
    }

    /// Asks before work is lost; whether it did.
    fn asks_first(&mut self, leaving: Leaving) -> bool {
        // A car that is being entered is kept or dropped first: saving the bay would not save it.
        if self.document.draft().is_some_and(crate::session::draft::Draft::is_changed) {
            self.view.page = Some(Page::Ask(Question::DropCar));
            return true;
        }
        let asks = self.document.is_changed();
        if asks {
            self.view.page = Some(Page::Ask(Question::Unsaved(leaving)));
        }
        asks
    }

    /// A bare name is one in the folder where one's bays lie; the program may have been started anywhere.
    fn in_folder(&self, path: &Path) -> PathBuf {
        let bare = path.parent().is_some_and(|folder| folder.as_os_str().is_empty());
        match self.bays_folder() {
            Some(folder) if bare => folder.join(path),
            _ => path.to_owned(),
        }
    }

    /// Where the open bay lies; the user's documents if it lies nowhere yet.
    pub(super) fn bays_folder(&self) -> Option<PathBuf> {
        let own = self.document.path().and_then(Path::parent).map(Path::to_owned);
        own.filter(|folder| !folder.as_os_str().is_empty()).or_else(baywright_files::documents_folder)
    }

    fn open(&mut self, path: &Path) {
        // A name without its ending, or without its folder, is found where it was saved.
        let near = self.in_folder(&with_ending(path));
        let path = baywright_files::meant(path, &near);
        let opened = Document::open(path, self.document.today()).and_then(|document| {
            let answer = crate::session::answer::Answer::of(&document, self.assess).ok_or_else(|| {
                vec![FileFault::whole(path.display().to_string(), FileTrouble::CannotBeJudged)]
            })?;
            Ok((document, answer))
        });
        match opened {
            Ok((document, answer)) => self.show_opened(document, answer),
            Err(faults) => {
                let faults = self.sentences(&faults);
                faults.iter().for_each(|fault| self.log.push(fault));
                self.view.page = Some(Page::Open(super::pages::OpenPage {
                    path: path.display().to_string(),
                    faults,
                    focus: true,
                }));
            }
        }
    }

    fn begin_bay(&mut self) {
        let name = self.view.language.rooms().my_bay;
        let begun = self.view.bay_begun.take().unwrap_or_else(|| RoomDraft::new(name));
        self.view.page = Some(Page::NewBay(NewBay::of(begun)));
    }

    /// Shows another document in place of the one that was open.
    pub(super) fn show_document(&mut self, document: Document) {
        match crate::session::answer::Answer::of(&document, self.assess) {
            Some(answer) => self.show_opened(document, answer),
            None => self.say_wrong(self.texts().cannot_be_judged),
        }
    }

    fn show_opened(&mut self, document: Document, answer: crate::session::answer::Answer) {
        // Never the same number as before: what was drawn for the old document is not shown for the new.
        let generation = self.answer.generation + 1;
        (self.document, self.answer) = (document, answer);
        self.answer.generation = generation;
        self.view.camera = None;
        self.view.page = None;
        self.view.notice = None;
        self.view.forget_what_was_there();
        self.survey.forget();
        self.keeper.next_work();
        self.hold_file();
    }

    fn save(&mut self, ctx: &egui::Context, over: bool) {
        let saved = self.document.save(over);
        match saved {
            Err(NotSaved::NoPlace) => self.ask_name(Vec::new()),
            Err(NotSaved::ChangedOnDisk) => self.view.page = Some(Page::Ask(Question::ChangedOnDisk)),
            Err(NotSaved::Faults(faults)) => self.ask_name(self.sentences(&faults)),
            Ok(saved) => self.say_saved(ctx, saved),
        }
    }

    fn save_as(&mut self, ctx: &egui::Context, path: &Path, over: bool) {
        let path = self.in_folder(&with_ending(path));
        match self.document.save_as(&path, over) {
            Err(NotSaved::NoPlace | NotSaved::ChangedOnDisk) => {
                self.view.page = Some(Page::Ask(Question::Replace(path)));
            }
            Err(NotSaved::Faults(faults)) => {
                let faults = self.sentences(&faults);
                self.view.page =
                    Some(Page::Save(SavePage { path: path.display().to_string(), faults, focus: true }));
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
        self.view.page = None;
        if let Some(then) = self.after_save.take() {
            self.apply(ctx, then);
        }
    }

    fn ask_name(&mut self, faults: Vec<String>) {
        let path = self.suggested().display().to_string();
        self.view.page = Some(Page::Save(SavePage { path, faults, focus: true }));
    }

    /// Where a layout would be saved that has no place yet.
    pub(super) fn suggested(&self) -> PathBuf {
        self.document.path().map_or_else(
            || {
                let folder = baywright_files::documents_folder().unwrap_or_default();
                folder.join(format!("{}.ron", self.document.layout().bay.id))
            },
            Path::to_owned,
        )
    }

    fn quit(&mut self, ctx: &egui::Context) {
        self.quitting = true;
        self.keeper.close();
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
            Done::Bay(deed) => self.words().deed(deed),
            Done::Car(deed) => self.words().car_deed(deed),
        }
    }

    /// Sentences about what is shown.
    pub(super) fn words(&self) -> Words<'_> {
        Words::new(&self.answer.arrangement, self.view.units, self.view.language)
    }
}

/// The edit that puts something somewhere; `None` for what cannot be moved.
pub(super) fn placed(
    answer: &crate::session::answer::Answer,
    subject: &Subject,
    pose: PlanPose,
) -> Option<Edit> {
    match subject {
        Subject::Car => Some(Edit::Park(pose)),
        Subject::Thing(id) => {
            let thing = answer.arrangement.bay.things.iter().find(|own| own.id == *id)?;
            // Put there by hand, so known by eye.
            let place = Place { at: pose, known: Known::ByEye };
            (!thing.locked).then(|| Edit::Place { thing: id.clone(), place })
        }
        Subject::Stand(id) | Subject::Target(id) => {
            let target = answer.assessment.scene.targets.iter().find(|own| own.id == *id)?;
            let set = StandSet::At { place: pose, height: target.set.height, pitch: target.set.pitch };
            Some(Edit::Stand { placement: id.clone(), set })
        }
        _ => None,
    }
}

/// Whether a command changes the bay: while a car is being entered, that waits.
const fn changes_bay(command: &Command) -> bool {
    matches!(
        command,
        Command::Edit(_)
            | Command::Preview(_)
            | Command::Settle(_)
            | Command::Cure(_)
            | Command::KeepPromise
            | Command::Add(_)
            | Command::Duplicate
            | Command::AddPart(_)
            | Command::Copy(_)
            | Command::Nudge(_)
            | Command::Turn(_)
            | Command::Car(_)
            | Command::Show(_)
    )
}

impl super::view::View {
    /// What was in hand in another arrangement is not in this one.
    fn forget_what_was_there(&mut self) {
        self.hovered = None;
        self.selected = None;
        self.pointed = None;
        self.explained = None;
        if let Tool::Measure(_) = self.tool {
            self.tool = Tool::Measure(Measuring::default());
        }
        self.tab = Tab::Findings;
    }
}

/// A name that says what it is: `.ron` unless it says so already.
fn with_ending(path: &Path) -> PathBuf {
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ron")) {
        return path.to_owned();
    }
    let mut name = path.as_os_str().to_owned();
    name.push(".ron");
    PathBuf::from(name)
}

/// Applying a promise's steps one after another must be the same as when it was tried.
#[cfg(test)]
mod tests {
    use baywright_planner::cure;

    use super::*;

    #[test]
    fn a_promise_kept_gives_what_was_promised() {
        let document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let arrangement = document.arrangement().unwrap();
        let promise = baywright_planner::assess(&arrangement).promise.unwrap();
        let tried = promise.steps.iter().fold(arrangement, |now, step| cure::apply(&now, step));
        let mut desk = Desk::new(document).unwrap();
        desk.apply(&egui::Context::default(), Command::KeepPromise);
        desk.answer.refresh(&desk.document);
        assert_eq!(desk.answer.arrangement.bay.things, tried.bay.things);
        assert_eq!(desk.answer.assessment.verdict, promise.verdict);
        assert!(desk.undoes().is_some_and(|text| !text.is_empty()));
        desk.apply(&egui::Context::default(), Command::Undo);
        assert!(!desk.document.is_changed());
    }

    #[test]
    fn names_end_in_ron() {
        assert_eq!(with_ending(Path::new("a/bay")), Path::new("a/bay.ron"));
        assert_eq!(with_ending(Path::new("a/bay.RON")), Path::new("a/bay.RON"));
        assert_eq!(with_ending(Path::new("bay 1.2")), Path::new("bay 1.2.ron"));
    }
}
