//! What is seen and how.

use baywright_planner::Subject;
use baywright_planner::hand::pose_of;

use crate::screen::command::OfView;
use crate::screen::page::Page;
use crate::screen::view::{Letters, Measuring, Tab, Tool, Viewing};
use crate::screen::{Desk, waking};

/// The least and the most that is seen, px for each mm.
const LEAST_SCALE: f64 = 1e-3;
const MOST_SCALE: f64 = 4.0;
/// The screen is laid out in no less, points.
const LEAST_ROOM: egui::Vec2 = egui::Vec2::new(800.0, 450.0);

impl Desk {
    /// Changes what is seen, and nothing else.
    pub(super) fn apply_to_view(&mut self, ctx: &egui::Context, asked: OfView) {
        let view = &mut self.view;
        match asked {
            OfView::Select(subject) => {
                if view.selected != subject {
                    view.pointed = None;
                }
                view.choose(subject);
            }
            OfView::SelectToo(subject) => self.select_too(subject),
            OfView::SelectAll(subjects) => view.choose_all(subjects),
            OfView::Menu(at) => view.menu = at,
            OfView::MenuByKey => self.view.menu = self.canvas.place_in_hand(&self.view),
            OfView::ToFields => {
                view.list_open = true;
                self.fields.lead_in();
            }
            OfView::ToCards => {
                view.tab = Tab::Findings;
                self.cards.lead_in();
            }
            OfView::Hover(subject) => view.hovered = subject,
            OfView::Light(finding) => view.lit = finding,
            OfView::Point(finding) => self.point(finding),
            OfView::Explain(finding) => {
                view.explained = (view.explained != Some(finding)).then_some(finding);
            }
            OfView::Camera(camera) => view.camera = camera,
            OfView::Zoom(by) => self.zoom(by),
            OfView::Tool(tool) => view.tool = tool,
            OfView::Tab(tab) => view.tab = tab,
            OfView::Parking => {
                let is_seen = view.tab == Tab::Parking;
                view.tab = if is_seen { Tab::Findings } else { Tab::Parking };
                self.parking.leads = !is_seen;
            }
            OfView::StopLooking if self.staying.is_open => self.staying.stop(),
            OfView::StopLooking => self.parking.stop(),
            OfView::LookAgain if self.staying.is_open => self.staying.look_again(),
            OfView::LookAgain => self.parking.look_again(),
            OfView::StayingLines(is_open) => self.staying.is_open = is_open,
            OfView::Prove => self.parking.never.ask(self.answer.generation),
            OfView::StopProving => self.parking.never.stop(),
            OfView::DrawAims => self.echoes.aims.ask(self.answer.generation),
            OfView::StopAims => self.echoes.aims.stop(),
            OfView::WhatMoves(at) => self.parking.ask_what_moves(self.answer.generation, at),
            OfView::Search => self.search(),
            OfView::EndSearch => view.sought = None,
            OfView::List(open) => view.list_open = open,
            OfView::Theme(theme) => (view.theme, view.as_system) = (theme, false),
            OfView::AsSystem => view.as_system = true,
            OfView::Language(language) => self.speak(language),
            OfView::Units(units) => view.locale.units = units,
            OfView::Letters(letters) => (view.letters, view.camera) = (letters, None),
            OfView::StepLetters(larger) => self.step_letters(ctx, larger),
            OfView::FullScreen => {
                let is_full = ctx.input(|i| i.viewport().fullscreen.unwrap_or(false));
                ctx.send_viewport_cmd(egui::ViewportCommand::Fullscreen(!is_full));
            }
            OfView::ToRoom(to_room) => {
                view.to_room = to_room;
                view.camera = None;
                // The side view may run the other way now.
                if let Tool::Measure(measuring) = view.tool
                    && measuring.in_side_view
                {
                    view.tool = Tool::Measure(Measuring::default());
                }
            }
            OfView::Contours(drawn) => view.contours = drawn,
            OfView::Along(axis) => {
                view.along = axis;
                view.camera = None;
            }
            OfView::Alone(side) => {
                view.alone = side;
                view.camera = None;
            }
            OfView::JudgeAll => self.verdicts.start(&waking(ctx), &self.document),
            OfView::StopJudging => self.verdicts.stop(),
        }
    }

    /// Only what can be moved is in hand together with others: anything else is chosen alone.
    fn select_too(&mut self, subject: Subject) {
        let can_move =
            |own: &Subject| pose_of(&self.answer.arrangement, &self.answer.assessment.scene, own).is_some();
        self.view.pointed = None;
        if can_move(&subject) && self.view.selected.as_ref().is_none_or(can_move) {
            self.view.choose_too(subject);
        } else {
            self.view.choose(Some(subject));
        }
    }

    fn point(&mut self, finding: usize) {
        let Some(found) = self.answer.assessment.findings.get(finding) else { return };
        let again = self.view.pointed == Some(finding);
        self.view.pointed = (!again).then_some(finding);
        self.scroll_to = self.view.pointed;
        self.view.tab = Tab::Findings;
        self.view.choose(found.subjects.first().cloned().map(crate::screen::whole).filter(|_| !again));
        if !again && let Some(camera) = self.canvas.camera_on(found.place, self.view.camera) {
            self.view.camera = Some(camera);
        }
    }

    /// Gives the keyboard to the search of the list that is in sight.
    fn search(&mut self) {
        if let Some(Page::Cars(_, focus)) = self.view.page_mut() {
            *focus = true;
        } else if self.view.page().is_none() && self.document.draft().is_some() {
            self.say_wrong(self.texts().finish_car);
        } else if self.view.page().is_none() {
            self.view.list_open = true;
            self.view.sought = Some((self.view.sought.take().unwrap_or_default().0, true));
        }
    }

    /// Letters larger than "large" only where the window has room for them.
    fn step_letters(&mut self, ctx: &egui::Context, larger: bool) {
        let texts = self.texts();
        let Some(next) = self.view.letters.step(larger) else {
            self.say(if larger { texts.letters_largest } else { texts.letters_usual });
            return;
        };
        let room = ctx.content_rect().size() * (ctx.zoom_factor() / next.factor());
        if larger && next > Letters::LARGE && (room.x < LEAST_ROOM.x || room.y < LEAST_ROOM.y) {
            self.say(texts.letters_no_room);
            return;
        }
        (self.view.letters, self.view.camera) = (next, None);
        self.say(texts.letters_now(next.percent()));
    }

    fn zoom(&mut self, by: f64) {
        let Some(mut camera) = self.view.camera.or_else(|| self.canvas.camera()) else { return };
        camera.px_per_mm = (camera.px_per_mm * by).clamp(LEAST_SCALE, MOST_SCALE);
        self.view.camera = Some(self.canvas.with_sensor(camera));
    }
}

impl Viewing {
    /// What was in hand in another arrangement is not in this one.
    pub(super) fn forget_what_was_there(&mut self) {
        self.hovered = None;
        self.lit = None;
        self.choose(None);
        self.pointed = None;
        self.explained = None;
        if let Tool::Measure(_) = self.tool {
            self.tool = Tool::Measure(Measuring::default());
        }
        self.tab = Tab::Findings;
    }
}
