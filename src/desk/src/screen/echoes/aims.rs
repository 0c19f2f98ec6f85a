//! Ten thousand virtual aims: by a press they are drawn beside the frames, told with what each cause does to them as bars with words
//! beside, and marked as older once anything changed.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::echoes::Seen;
use baywright_planner::echoes::virtual_aims::{AIMS, Aimed, NoAims, STEPS, VirtualAims};
use baywright_planner::model::Arrangement;
use baywright_planner::scene::Scene;
use egui::{Context, Label, ProgressBar, RichText, Ui};

use crate::screen::command::{Command, OfView};
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::SlowPart;
use crate::session::job::{Progress, Tell};

/// Shares from here on have a bar.
const BAR_FROM: f64 = 0.005;
const BAR_PX: f32 = 6.0;

/// What was drawn for each target, or why nothing was.
type Found = Vec<Result<Aimed, NoAims>>;

/// What is known of them.
#[derive(Debug, Default)]
pub(in crate::screen) struct Drawn {
    found: SlowPart<Found>,
    /// Of what answer they were asked for.
    asked: Option<u64>,
    /// Somebody had the drawing stopped: what was drawn so far is what there is.
    enough: Arc<AtomicBool>,
}

impl Drawn {
    /// Takes in what was drawn since the last frame.
    ///
    /// # Errors
    /// The drawing met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.found.collect()
    }

    /// Has them drawn, of this answer.
    pub fn ask(&mut self, generation: u64) {
        (self.asked, self.enough) = (Some(generation), Arc::default());
        self.found.ask_again();
    }

    /// Ends it: what was drawn so far is told.
    pub fn stop(&self) {
        self.enough.store(true, Ordering::Relaxed);
    }
}

/// Draws for each target in turn.
fn drawn(of: &Arrangement, scene: &Scene, all: &[Seen], enough: &AtomicBool, tell: &Tell<Found>) -> Found {
    let mut found = Found::new();
    for (nth, seen) in all.iter().enumerate() {
        let one = VirtualAims::of(of, scene, seen).and_then(|mut aims| {
            loop {
                let is_last = aims.step();
                tell.steps(nth * STEPS + aims.steps());
                if is_last || tell.is_stopped() || enough.load(Ordering::Relaxed) {
                    break;
                }
            }
            aims.finish().ok_or(NoAims::NotSound)
        });
        found.push(one);
    }
    found
}

impl Desk {
    /// Before anything is drawn: what was asked of what is shown now goes on, once all its echoes are known.
    pub(super) fn draw_aims(&mut self, ctx: &Context) {
        let generation = self.answer.generation;
        let own = &self.echoes.aims;
        if own.asked != Some(generation) || own.found.is_asked(&generation) {
            return;
        }
        let all = self.answer.shown_of(&self.echoes.slow).filter(|own| !own.is_older);
        let Some(all) = all.map(|own| own.found.clone()) else { return };
        let (steps, enough) = (STEPS * all.len().max(1), Arc::clone(&own.enough));
        self.answer.work_out(
            &mut self.echoes.aims.found,
            ("aims", steps),
            &waking(ctx),
            move |judged, own, tell| drawn(judged, &own.scene, &all, &enough, tell),
        );
    }

    /// The press, how far it is, or what came of it.
    pub(super) fn aims(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.aims();
        let own = &self.echoes.aims;
        if self.heard().is_none_or(|all| all.iter().all(|own| own.own.is_err())) {
            return;
        }
        ui.add_space(8.0);
        ui.separator();
        if own.asked == Some(self.answer.generation)
            && let Some(Progress { done, all }) = own.found.progress()
        {
            let count = |steps: usize| {
                let aims = steps * AIMS / STEPS;
                self.view.locale.region.number(aims as f64, 0)
            };
            if widgets::searching(
                ui,
                Progress { done, all },
                texts.drawn(&count(done), &count(all)),
                self.texts().stop,
            ) {
                out.push(Command::View(OfView::StopAims));
            }
            return;
        }
        let shown = self.answer.shown_of(&own.found);
        let is_whole =
            shown.as_ref().is_some_and(|shown| !shown.is_older && shown.found.iter().all(is_whole));
        if !is_whole {
            if widgets::offer(ui, self.view.theme, texts.press).on_hover_text(texts.press_why).clicked() {
                out.push(Command::View(OfView::DrawAims));
            }
            ui.add(Label::new(widgets::soft(ui, texts.press_why)).wrap());
        }
        let Some(shown) = shown else { return };
        if shown.is_older {
            let care = look::colour(self.view.theme.palette().care);
            let older = RichText::new(self.view.locale.language.place().older).size(size::SMALL).color(care);
            ui.add(Label::new(older).wrap());
        }
        for (nth, one) in shown.found.iter().enumerate() {
            ui.push_id(("aims of", nth), |ui| match one {
                Ok(aimed) => self.aims_told(ui, aimed),
                Err(why) => {
                    ui.add(Label::new(RichText::new(texts.none(*why)).size(size::BODY)).wrap());
                }
            });
        }
        ui.add(Label::new(widgets::soft(ui, texts.rests_on)).wrap());
    }

    fn aims_told(&self, ui: &mut Ui, aimed: &Aimed) {
        let (words, texts) = (self.words(), self.view.locale.language.aims());
        let palette = self.view.theme.palette();
        let (care, beam) = (look::colour(palette.care), look::colour(palette.beam));
        let lie = RichText::new(widgets::unbroken(words.aims_lie(aimed))).font(look::bold(size::BODY));
        ui.add(Label::new(lie).wrap());
        let say = |ui: &mut Ui, text: String| {
            if !text.is_empty() {
                ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::BODY)).wrap());
            }
        };
        if aimed.draws < AIMS {
            ui.add(Label::new(RichText::new(texts.stopped).size(size::SMALL).color(care)).wrap());
        }
        let without = words.aims_leave_out(aimed);
        if !without.is_empty() {
            let without = RichText::new(widgets::unbroken(without)).size(size::BODY).color(care);
            ui.add(Label::new(without).wrap());
        }
        say(ui, words.aims_come_from(aimed));
        say(ui, words.aims_are_off(aimed));
        ui.add(Label::new(widgets::soft(ui, texts.causes)).wrap());
        for share in aimed.shares.iter().filter(|own| own.of_all >= BAR_FROM) {
            let name = format!("{}: {}", words.why_off(&share.why), words.aims_share(share.of_all));
            ui.add(Label::new(RichText::new(widgets::unbroken(name.as_str())).size(size::SMALL)).wrap());
            let bar = ProgressBar::new(share.of_all.min(1.0) as f32).desired_height(BAR_PX).fill(beam);
            widgets::named(&ui.add(bar.animate(false)), name);
        }
    }
}

/// Whether nothing more is to be drawn for a target.
fn is_whole(one: &Result<Aimed, NoAims>) -> bool {
    one.as_ref().map_or(true, |own| own.draws >= AIMS)
}
