//! What the radar would see: the echoes of what stands here beside the target's own, those that it may take for the target first, each
//! with its way drawn while the pointer or the keyboard is at it.

mod aims;
mod from_sensor;
mod graph;

use std::sync::Arc;

use baywright_planner::echoes::{Does, Echo, Seen, With, seen};
use baywright_planner::edit::Edit;
use egui::{CollapsingHeader, Color32, Context, Frame, Label, RichText, ScrollArea, Stroke, Ui};

use super::command::{Command, OfBay};
use super::findings::deed;
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::view::Tab;
use super::{Desk, waking, widgets};
use crate::session::answer::SlowPart;
use crate::session::caught::caught;

/// The corners of the frame around an echo that matters.
const CORNER_PX: f32 = 5.0;

/// What is known of them.
#[derive(Debug, Default)]
pub(super) struct Echoes {
    /// Ways by one mirror, worked out in the frame that shows them, and of what answer.
    fast: Option<(u64, Arc<Vec<Seen>>)>,
    /// The same with ways by two.
    slow: SlowPart<Vec<Seen>>,
    /// What stands before the sensor.
    pictures: from_sensor::Pictures,
    /// The echo whose way was shown in the frame before.
    lit: Option<Arc<Echo>>,
    /// Ten thousand virtual aims among them.
    pub aims: aims::Drawn,
}

impl Echoes {
    /// Takes in what was found since the last frame.
    ///
    /// # Errors
    /// The search met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.slow.collect().and(self.aims.collect())
    }
}

impl Desk {
    /// Before anything is drawn: what the radar would see of what is shown now.
    pub(super) fn look_for_echoes(&mut self, ctx: &Context) {
        self.view.echo = None;
        if self.view.tab != Tab::Echoes || self.view.page().is_some() || self.answer.stale {
            return;
        }
        let generation = self.answer.generation;
        if self.echoes.fast.as_ref().is_none_or(|own| own.0 != generation) {
            let (judged, scene) = (&self.answer.judged, &self.answer.assessment.scene);
            let found = caught(|| seen(judged, scene, With::OneMirror)).unwrap_or_default();
            self.echoes.fast = Some((generation, Arc::new(found)));
        }
        if self.canvas.is_dragging() || self.document.is_held() {
            return;
        }
        self.answer.work_out(&mut self.echoes.slow, ("echoes", 1), &waking(ctx), move |judged, own, _| {
            seen(judged, &own.scene, With::TwoMirrors)
        });
        self.draw_aims(ctx);
    }

    /// The echoes of what is shown now, as far as they are known.
    fn heard(&self) -> Option<&[Seen]> {
        let slow = self.answer.shown_of(&self.echoes.slow).filter(|own| !own.is_older);
        let fast = self.echoes.fast.as_ref().filter(|own| own.0 == self.answer.generation);
        slow.map(|own| own.found.as_slice()).or_else(|| fast.map(|own| own.1.as_slice()))
    }

    /// How many echoes are told now.
    pub fn echoes_heard(&self) -> usize {
        self.heard().into_iter().flatten().map(|own| own.echoes.len()).sum()
    }

    /// The panel.
    pub(super) fn echoes(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.echoes();
        let mut lit = None;
        ScrollArea::vertical().id_salt("echoes").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 6.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            ui.add(Label::new(RichText::new(texts.title).font(look::bold(size::BODY))).wrap());
            let care = look::colour(self.view.theme.palette().care);
            ui.add(Label::new(RichText::new(texts.decides).size(size::BODY).color(care)).wrap());
            self.view_from_sensor(ui, out);
            lit = self.echoes_told(ui, out);
            ui.scope(|ui| self.aims(ui, out));
            ui.add(Label::new(widgets::soft(ui, texts.rests_on)).wrap());
            in_sight::by_keys(ui, &self.texts().to_scroll(texts.title), ScrolledBy::Keys);
            in_sight::follow(ui);
        });
        if self.echoes.lit != lit {
            // It is marked in what is drawn over it from the next frame on.
            ui.ctx().request_repaint();
            self.echoes.lit.clone_from(&lit);
        }
        self.view.echo = lit;
    }

    fn echoes_told(&self, ui: &mut Ui, out: &mut Vec<Command>) -> Option<Arc<Echo>> {
        let texts = self.view.locale.language.echoes();
        let mut lit = None;
        if self.answer.judged.sensor.kind.radar().is_none() {
            ui.add(Label::new(texts.no_radar).wrap());
            return None;
        }
        let Some(found) = self.heard() else {
            ui.add(Label::new(widgets::soft(ui, texts.waits)).wrap());
            return None;
        };
        for (nth, own) in found.iter().enumerate() {
            let many = found.len() > 1;
            ui.push_id(("echoes of", nth), |ui| {
                if many {
                    let name = self.words().echoes_of(own);
                    ui.add(Label::new(RichText::new(name).font(look::bold(size::BODY))).wrap());
                }
                lit = self.of_target(ui, own, out).or(lit.take());
            });
        }
        lit
    }

    fn of_target(&self, ui: &mut Ui, seen: &Seen, out: &mut Vec<Command>) -> Option<Arc<Echo>> {
        let (words, texts) = (self.words(), self.view.locale.language.echoes());
        let own = match &seen.own {
            Ok(own) => own,
            Err(why) => {
                ui.add(Label::new(texts.untold(*why)).wrap());
                return None;
            }
        };
        let (first, rest): (Vec<&Echo>, Vec<&Echo>) =
            seen.echoes.iter().partition(|echo| echo.heard.matters());
        let mut lit = None;
        for echo in &first {
            let care = look::colour(self.view.theme.palette().care);
            let frame =
                Frame::new().stroke(Stroke::new(1.5, care)).corner_radius(CORNER_PX).inner_margin(8.0);
            let inner = frame.show(ui, |ui| {
                ui.set_width(ui.available_width());
                self.one_echo(ui, echo, Some(care), out)
            });
            lit = inner.inner.or(lit);
        }
        if seen.echoes.is_empty() {
            ui.add(Label::new(texts.none).wrap());
        }
        let told_apart = |echo: &&Echo| matches!(echo.heard.does, Does::Apart { .. } | Does::InLine);
        if let Some(does) = seen.together
            && seen.echoes.iter().filter(|own| !told_apart(own)).count() > 1
        {
            ui.add(Label::new(RichText::new(words.echoes_together(does)).size(size::BODY)).wrap());
        }
        if !rest.is_empty() {
            let name = RichText::new(texts.of_these(texts.weaker, rest.len())).size(size::BODY);
            let shut = CollapsingHeader::new(name).id_salt("weaker").show(ui, |ui| {
                let mut lit = None;
                for echo in &rest {
                    lit = self.one_echo(ui, echo, None, out).or(lit);
                }
                lit
            });
            lit = shut.body_returned.flatten().or(lit);
        }
        CollapsingHeader::new(RichText::new(texts.details).size(size::BODY)).id_salt("behind").show(
            ui,
            |ui| {
                graph::levels(self, ui, seen, own);
                ui.add(Label::new(widgets::soft(ui, words.own_echo(own))).wrap());
                for echo in first.iter().chain(&rest) {
                    let line = format!("{}: {}", words.echo_of(echo), words.echo_behind(echo));
                    ui.add(Label::new(widgets::soft(ui, line)).wrap());
                }
                for (may, by_strength) in [(&seen.takes.strongest, true), (&seen.takes.nearest, false)] {
                    let line = words.echo_picked(seen, may, by_strength);
                    ui.add(Label::new(RichText::new(line).size(size::SMALL)).wrap());
                }
                let assumed = words.echoes_assume(seen);
                if !assumed.is_empty() {
                    ui.add(Label::new(widgets::soft(ui, assumed)).wrap());
                }
            },
        );
        lit
    }

    /// What takes an echo away, each done by a press and undone by one.
    fn ways_out(&self, ui: &mut Ui, echo: &Echo, title: &str, out: &mut Vec<Command>) {
        if echo.cures.is_empty() {
            return;
        }
        let (words, texts) = (self.words(), self.texts());
        for cure in &echo.cures {
            let Some(step) = cure.step(&self.answer.judged) else { continue };
            let told = words.echo_cure(cure);
            let text = RichText::new(widgets::unbroken(format!("\u{2192} {told}"))).size(size::SMALL);
            ui.add(Label::new(text).wrap());
            let (deed, is_now) = (deed(texts, &step), !self.answer.stale);
            let press = ui.add_enabled_ui(is_now, |ui| widgets::offer(ui, self.view.theme, deed)).inner;
            if press.accessible_name(texts.of(&told, title)).clicked() {
                out.push(Command::Bay(OfBay::Edit(Edit::Do(step))));
            }
        }
        let takes = words.echo_cures_take(echo);
        if !takes.is_empty() {
            ui.add(Label::new(RichText::new(takes).size(size::SMALL)).wrap());
        }
    }

    fn one_echo(
        &self,
        ui: &mut Ui,
        echo: &Echo,
        care: Option<Color32>,
        out: &mut Vec<Command>,
    ) -> Option<Arc<Echo>> {
        let (words, texts) = (self.words(), self.view.locale.language.echoes());
        let title = words.echo_of(echo);
        let heading = RichText::new(widgets::unbroken(title.clone()));
        let heading = match care {
            Some(_) => heading.font(look::bold(size::BODY)),
            None => heading.size(size::BODY),
        };
        ui.add(Label::new(heading).wrap());
        let says = |ui: &mut Ui, text: RichText| ui.add(Label::new(text.size(size::SMALL)).wrap());
        says(ui, RichText::new(words.echo_lies(echo)));
        says(ui, RichText::new(words.echo_strength(echo.heard.level_db)));
        for text in words.echo_does(echo) {
            let text = RichText::new(text);
            says(ui, care.into_iter().fold(text, |text, care| text.color(care)));
        }
        self.ways_out(ui, echo, &title, out);
        let response = widgets::link(ui, self.view.theme, texts.show);
        if response.clicked() {
            response.request_focus();
        }
        let is_lit = response.hovered() || response.has_focus();
        response.accessible_name(self.texts().of(texts.show, &title));
        is_lit.then(|| Arc::new(echo.clone()))
    }
}
