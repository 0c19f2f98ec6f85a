//! Whether it fits nowhere at all: where no spot was found a press has a proof looked for beside the frames. What is proven is
//! told with what decides it, which is drawn, and kept as a file; what is not is told so that nobody takes it for either.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{is_taken, never_text, write_output};
use baywright_planner::geometry::PlanPose;
use baywright_planner::model::Arrangement;
use baywright_planner::never::{MOST_CELLS, check};
use baywright_planner::place::never::{Document, Given, Never, Short, Stays, never, short};
use egui::{Context, Key, Label, RichText, TextEdit, Ui};

use crate::screen::apply::with_ending;
use crate::screen::command::{Command, OfFile, OfView};
use crate::screen::look::{self, size};
use crate::screen::page::{KeepProofPage, Page};
use crate::screen::view::Decides;
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::{Answer, SlowPart};
use crate::session::job::{Progress, Tell};

/// What is known of it.
#[derive(Debug, Default)]
pub(in crate::screen) struct FitsNowhere {
    looked: SlowPart<Answered>,
    /// Of what answer it was asked for.
    asked: Option<u64>,
}

/// What came of it.
#[derive(Clone, Debug)]
enum Answered {
    /// It never fits: the proof, which was checked, and what is missing, if two things decide it.
    Proven(Arc<Document>, Option<Arc<Short>>),
    /// At this pose (bay from vehicle) no solid meets anything that stays.
    Free(PlanPose),
    /// Neither.
    NotProven,
}

impl FitsNowhere {
    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.looked.collect()
    }

    /// Has a proof looked for, of this answer.
    pub const fn ask(&mut self, generation: u64) {
        self.asked = Some(generation);
    }

    /// Ends it: of what was asked nothing is known, or what is missing is not.
    pub fn stop(&mut self) {
        self.asked = None;
        self.looked.stop();
    }

    /// Before anything is drawn: what was asked of what is shown now goes on.
    pub fn look(&mut self, answer: &Answer, ctx: &Context) {
        if self.asked == Some(answer.generation) {
            answer.work_out(&mut self.looked, ("never", 100), &waking(ctx), |own, _, tell| looked(own, tell));
        }
    }

    /// What is known of what is shown now; of an earlier bay nothing is said.
    fn known(&self, answer: &Answer) -> Option<&Answered> {
        answer.shown_of(&self.looked).filter(|own| !own.is_older).map(|own| own.found)
    }
}

/// Looks for a proof, has it checked by who shares no code with the search, and works out what is missing.
fn looked(own: &Arrangement, tell: &Tell<Answered>) -> Answered {
    let given = Given::of(own, Stays::Fixed);
    let is_stopped = || tell.is_stopped();
    let mut before = 0;
    let found = never(&given, MOST_CELLS, &is_stopped, &mut |share| {
        let now = (share * 100.0) as usize;
        if now > before {
            before = now;
            tell.steps(now);
        }
    });
    match found {
        Never::Proven(proof) if check(&proof).is_ok() => {
            let document = Arc::new(Document::of(own, Stays::Fixed, *proof));
            tell.so_far(Answered::Proven(Arc::clone(&document), None));
            tell.steps(100);
            let missing = short(&given, &document.proof, &is_stopped).map(Arc::new);
            Answered::Proven(document, missing)
        }
        Never::Free(pose) => Answered::Free(pose),
        _ => Answered::NotProven,
    }
}

impl Desk {
    /// The question, how far its answer is, or the answer, where no spot was found; `lit` is where the car is drawn.
    pub(super) fn fits_nowhere(&self, ui: &mut Ui, lit: &mut Option<PlanPose>, out: &mut Vec<Command>) {
        let (words, texts) = (self.words(), self.view.locale.language.never());
        let own = &self.parking.never;
        let say = |ui: &mut Ui, text: &str| {
            let told = RichText::new(widgets::unbroken(text)).font(look::bold(size::BODY));
            ui.add(Label::new(told).wrap().selectable(true));
        };
        let add = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(widgets::soft(ui, text)).wrap());
        };
        ui.add_space(8.0);
        ui.separator();
        let known = own.known(&self.answer);
        if let Some(Progress { done, all }) = own.looked.progress() {
            let text = match known {
                Some(Answered::Proven(..)) => texts.weighing.to_owned(),
                _ => texts.ruled_out(done),
            };
            if widgets::searching(ui, Progress { done, all }, text, self.texts().stop) {
                out.push(Command::View(OfView::StopProving));
            }
            return;
        }
        match known {
            None => {
                if widgets::offer(ui, self.view.theme, texts.ask).on_hover_text(texts.ask_why).clicked() {
                    out.push(Command::View(OfView::Prove));
                }
                add(ui, texts.ask_why);
            }
            Some(Answered::Proven(_, short)) => {
                say(ui, &words.never_fits(short.as_deref()));
                add(ui, texts.found_so);
                if widgets::lesser(ui, texts.keep).on_hover_text(texts.keep_why).clicked() {
                    let path = self.suggested().with_extension("proof.ron").display().to_string();
                    let page = KeepProofPage { path, focus: true, ..KeepProofPage::default() };
                    out.push(Command::Page(Some(Page::KeepProof(page))));
                }
            }
            Some(Answered::Free(pose)) => {
                say(ui, texts.free);
                add(ui, texts.free_drawn);
                *lit = Some(*pose);
            }
            Some(Answered::NotProven) => {
                say(ui, texts.not_proven);
                add(ui, texts.not_said);
            }
        }
    }

    /// What decides that it never fits, if that is known of what is shown.
    pub(super) fn decides(&self) -> Option<Decides> {
        match self.parking.never.known(&self.answer)? {
            Answered::Proven(proof, Some(short)) => {
                Some(Decides { proof: Arc::clone(proof), short: Arc::clone(short) })
            }
            _ => None,
        }
    }

    /// The page that asks where a proof is kept.
    pub(in crate::screen) fn keep_proof_page(
        &self,
        ui: &mut Ui,
        page: &mut KeepProofPage,
        out: &mut Vec<Command>,
    ) {
        let (texts, own) = (self.texts(), self.view.locale.language.never());
        let label = ui.label(widgets::soft(ui, own.path));
        let field = TextEdit::singleline(&mut page.path).desired_width(f32::INFINITY);
        let field = ui.add(field).labelled_by(label.id);
        if std::mem::take(&mut page.focus) {
            field.request_focus();
        }
        if field.changed() {
            page.faults.clear();
            page.is_there = false;
        }
        let path = || PathBuf::from(page.path.trim());
        let is_typed = !page.path.trim().is_empty();
        ui.horizontal(|ui| {
            let save =
                ui.add_enabled_ui(is_typed, |ui| widgets::press(ui, self.view.theme, texts.save)).inner;
            let entered = field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
            if is_typed && (save.clicked() || entered) {
                out.push(Command::File(OfFile::KeepProof(path(), false)));
            }
            if ui.add_enabled(!self.files.is_open(), egui::Button::new(texts.look_for_place)).clicked() {
                out.push(Command::File(OfFile::AskProof(path())));
            }
        });
        let colour = ui.visuals().error_fg_color;
        for fault in &page.faults {
            ui.add(Label::new(RichText::new(fault).size(size::SMALL).color(colour)).wrap());
        }
        if page.is_there && widgets::lesser(ui, own.replace).clicked() {
            out.push(Command::File(OfFile::KeepProof(path(), true)));
        }
        ui.add(Label::new(widgets::soft(ui, own.keep_why)).wrap());
    }

    /// Writes the proof of what is shown into a file; `over` is whether it may replace one.
    pub(in crate::screen) fn keep_proof(&mut self, path: &Path, over: bool) {
        let own = self.view.locale.language.never();
        let Some(Answered::Proven(document, _)) = self.parking.never.known(&self.answer) else {
            self.lay(None);
            self.say_wrong(own.gone);
            return;
        };
        let file = self.in_folder(&with_ending(path));
        let named = file.display().to_string();
        let made_from: Vec<&Path> = self.document.path().into_iter().collect();
        let is_there = !over && is_taken(&file);
        let written = (!is_there).then(|| {
            never_text(document, &named).and_then(|text| write_output(&file, text.as_bytes(), &made_from))
        });
        let faults = match written {
            Some(Ok(())) => {
                self.lay(None);
                self.say(own.kept(&named));
                return;
            }
            Some(Err(fault)) => self.sentences(&[fault]),
            None => vec![own.is_there.to_owned()],
        };
        let page = KeepProofPage { path: path.display().to_string(), faults, focus: false, is_there };
        self.lay(Some(Page::KeepProof(page)));
    }
}
