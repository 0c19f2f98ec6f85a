//! What is seen in the middle: the step or another side of the page, its boxes, what can be chosen, and the presses under it.

use baywright_drawing::Weight;
use baywright_planner::model::record::StepKind;
use baywright_planner::proof::NextTape;
use baywright_planner::record::Holds;
use baywright_planner::words::record_page::PageBox;
use egui::{
    Align2, Color32, Id, Label, Margin, Rect, Response, RichText, ScrollArea, Sense, Stroke, StrokeKind,
    TextEdit, Ui, UiBuilder, Vec2, WidgetInfo,
};

use super::boxes::{Asking, BoxOf};
use super::keys::{Pressed, id_of_box, id_of_next};
use super::{Led, OfRecord, RecordPage, Side};
use crate::screen::command::Command;
use crate::screen::forms::car_rows::CarRow;
use crate::screen::forms::steady;
use crate::screen::{Desk, in_sight, look, widgets};

/// Sizes of letters, px: read standing, from an arm's length.
pub(super) const TITLE: f32 = 26.0;
pub(super) const LARGE: f32 = 18.0;
pub(super) const USUAL: f32 = 15.5;
const FIGURE: f32 = 24.0;
/// A title where there is little room.
const THIN_TITLE: f32 = 19.0;
/// A press for a gloved hand is at least so high, px.
const PRESS_PX: f32 = 46.0;
const BOX_PX: f32 = 190.0;

/// How a press looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Press {
    /// What goes on.
    Main,
    /// Any other.
    Plain,
    /// One of several answers, and whether it is the chosen one.
    Answer(bool),
}

/// Whether the step asks what the routine said, and nobody told yet.
pub(super) fn is_routine_unsaid(page: &RecordPage) -> bool {
    let Some(at) = page.at.as_ref().filter(|own| own.kind == StepKind::Result) else { return false };
    let said = at.aiming.as_ref().zip(page.in_hand.as_ref());
    said.is_some_and(|(id, own)| Holds::of(own.record()).routine(id).is_none())
}

impl Desk {
    /// The middle of the page.
    pub(super) fn record_side(&self, ui: &mut Ui, page: &mut RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        let all = ui.max_rect();
        let boxes = self.boxes(page);
        let choices = self.record_options(page);
        let is_answered = choices.iter().any(super::choices::Choice::is_answer);
        let hint = match page.side {
            _ if page.is_thin => "",
            Side::Step => texts.keys,
            Side::Begin => "",
            Side::Records => texts.keys_of_list,
            _ if is_answered => texts.keys_of_answer,
            _ => texts.keys_of_choice,
        };
        let all = self.record_step_head(ui, page, all);
        let strip = PRESS_PX + if hint.is_empty() { 6.0 } else { 28.0 } + self.said_px(ui, all.width());
        let (body, foot) = all.split_top_bottom_at_y((all.bottom() - strip).max(all.top()));
        self.lead(ui, page, &boxes, !choices.is_empty());
        page.at_box = None;
        let salt = format!("{:?} {:?}", page.side, page.at);
        ui.scope_builder(UiBuilder::new().max_rect(body), |ui| {
            let area = || ScrollArea::vertical().id_salt(&salt).auto_shrink([false, false]);
            let kept = steady::area(ui.ctx(), area());
            // Where the keyboard is led elsewhere, no row is kept where it was.
            let area = if page.led.is_some() { area() } else { kept };
            let form = area.show(ui, |ui| {
                let beginning = ui.min_rect().top();
                ui.set_width(ui.available_width() - 12.0);
                ui.spacing_mut().item_spacing.y = 7.0;
                self.record_told(ui, page, out);
                // That the car stands elsewhere now is said before it is taped to.
                let is_parking = page.at.as_ref().is_some_and(|own| own.kind == StepKind::Park);
                let is_first = page.side == Side::Step && is_parking;
                if is_first {
                    self.record_choices(ui, page, &choices, out);
                }
                self.record_boxes(ui, page, &boxes, out);
                if !is_first {
                    self.record_choices(ui, page, &choices, out);
                }
                self.record_after_choices(ui, page, out);
                if std::mem::take(&mut page.is_answer_led) {
                    // Enough was taped: what it proves comes into sight.
                    ui.scroll_to_cursor(Some(egui::Align::BOTTOM));
                }
                self.drawn_below(ui, page);
                in_sight::follow(ui);
                beginning
            });
            if page.at_box.is_some() && page.led.is_none() {
                // What is told above the box with the keyboard pushes it nowhere.
                steady::keep_still(ui.ctx(), &form, form.inner);
            }
        });
        ui.scope_builder(UiBuilder::new().max_rect(foot), |ui| self.record_foot(ui, page, hint, out));
        page.led = None;
    }

    /// The step's name, how it stands and, where distances are taped, which one is read now: they stay in sight, whatever is scrolled. What is
    /// left of the room.
    fn record_step_head(&self, ui: &mut Ui, page: &RecordPage, all: Rect) -> Rect {
        let Some((step, in_hand)) =
            page.step().filter(|_| page.side == Side::Step).zip(page.in_hand.as_ref())
        else {
            return all;
        };
        let (texts, record) = (self.view.locale.language.record_page(), self.view.locale.language.record());
        let soft = ui.visuals().weak_text_color();
        let steps = page.parts.steps();
        let at = steps.iter().position(|own| own.id == step.id).unwrap_or(0);
        let title = if page.is_thin { THIN_TITLE } else { TITLE };
        let drawn = ui.scope_builder(UiBuilder::new().max_rect(all), |ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            ui.horizontal_top(|ui| {
                let (rect, _) = ui.allocate_exact_size(Vec2::new(24.0, title * 1.3), Sense::hover());
                self.paint_state(ui, rect.center(), &step.state);
                let text = RichText::new(record.step(step.id.kind)).font(look::bold(title));
                ui.add(Label::new(text).wrap());
            });
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().item_spacing = Vec2::new(10.0, 1.0);
                ui.label(widgets::soft(ui, texts.nth_step(at + 1, steps.len())));
                if let Some(aiming) = &step.id.aiming {
                    let name = record.aiming(&in_hand.record().begun, aiming);
                    ui.label(RichText::new(name).size(USUAL).color(soft));
                }
                ui.label(RichText::new(record.state(&step.state)).size(USUAL));
            });
            if step.id.kind == StepKind::CheckDistances
                && let Some(now) = self.tape_now(page)
            {
                let now = RichText::new(widgets::unbroken(now)).font(look::bold(LARGE));
                ui.add(Label::new(now).wrap());
            }
        });
        let below = drawn.response.rect.bottom() + 6.0;
        Rect::from_min_max(egui::pos2(all.left(), below.min(all.bottom())), all.max)
    }

    /// The keyboard goes where it is led before its box is drawn: what is typed next is the box's.
    fn lead(&self, ui: &Ui, page: &mut RecordPage, boxes: &[Asking], is_choice: bool) {
        let Some(led) = page.led else { return };
        let tape = || {
            let next = &page.parts.proof()?.next;
            let (from, to) = match next {
                NextTape::Tape { from, to } | NextTape::Again { from, to } => (from, to),
                NextTape::LayAgain(mark) => (mark, mark),
                NextTape::Enough | NextTape::NothingHelps => return None,
            };
            boxes.iter().position(|own| own.of == BoxOf::Tape(from.clone(), to.clone()))
        };
        let first_chosen = match page.side {
            Side::Step => {
                // What the routine said comes before its boxes; but what is taped to the car then comes before it, so that no figure
                // of a tape is taken for an answer.
                let mut ends = boxes.iter().filter(|own| matches!(own.of, BoxOf::Car(CarRow::End(_))));
                let is_taped = ends.all(|own| !own.shown.trim().is_empty());
                let kind = page.at.as_ref().map(|own| own.kind);
                let is_unsaid = is_routine_unsaid(page);
                is_choice
                    && match kind {
                        Some(StepKind::Drive | StepKind::Park) => true,
                        Some(StepKind::Result) => is_unsaid && is_taped,
                        _ => false,
                    }
            }
            Side::Begin => false,
            _ => is_choice,
        };
        let at = match led {
            Led::First if first_chosen || boxes.is_empty() => None,
            // With which tape comes before the first distance.
            Led::First if page.follows_tape && page.side == Side::Step && !page.tape.is_empty() => {
                tape().or(Some(0))
            }
            Led::First => boxes.iter().position(|own| !own.is_aside),
            Led::Box(at) => Some(at).filter(|at| *at < boxes.len()),
            Led::Tape => tape(),
            Led::Next => None,
        };
        if led == Led::Tape && at.is_none() {
            page.told.clear();
            page.is_answer_led = true;
        }
        let id = at.and_then(|at| boxes.get(at)).map_or_else(id_of_next, |own| id_of_box(&own.of));
        page.led = at.map(Led::Box);
        ui.memory_mut(|memory| memory.request_focus(id));
    }

    fn record_boxes(&self, ui: &mut Ui, page: &mut RecordPage, boxes: &[Asking], out: &mut Vec<Command>) {
        let can =
            matches!(page.side, Side::Begin | Side::Who) || self.can_enter(page) || page.side == Side::Reopen;
        if boxes.is_empty() || !can {
            return;
        }
        if page.side == Side::Step {
            self.record_heading(ui, self.view.locale.language.record_page().enter_here);
        }
        for (at, own) in boxes.iter().enumerate() {
            self.record_box(ui, page, (at, own), out);
        }
    }

    fn record_box(
        &self,
        ui: &mut Ui,
        page: &mut RecordPage,
        (at, own): (usize, &Asking),
        out: &mut Vec<Command>,
    ) {
        let soft = ui.visuals().weak_text_color();
        if own.is_pick() {
            self.record_pick(ui, page, (at, own), out);
            return;
        }
        let top = ui.cursor().top();
        let named = |ui: &mut Ui| {
            let label = widgets::unbroken(own.label.as_str());
            // What Enter passes over is not asked now.
            let ink = if own.is_aside { soft } else { ui.visuals().text_color() };
            let label = ui.add(Label::new(RichText::new(label).font(look::bold(USUAL)).color(ink)).wrap());
            if !own.hint.is_empty() {
                let hint = RichText::new(widgets::unbroken(own.hint.as_str())).size(USUAL - 1.0).color(soft);
                ui.add(Label::new(hint).wrap());
            }
            label
        };
        let mut text = page.text_of(own);
        let edit = |ui: &mut Ui, text: &mut String, label: &Response, width: f32| {
            let edit = TextEdit::singleline(text)
                .id(id_of_box(&own.of))
                .font(look::bold(FIGURE))
                .margin(Margin::symmetric(8, 7))
                .desired_width(width)
                .char_limit(200);
            let output = edit.show(ui);
            let response = output.response.response.clone().labelled_by(label.id);
            (response, output.state)
        };
        let is_text = own.is_text();
        let (response, state) = if is_text {
            let label = named(ui);
            edit(ui, &mut text, &label, ui.available_width() - 20.0)
        } else {
            let inner = ui.horizontal_top(|ui| {
                let room = (ui.available_width() - BOX_PX - 60.0).max(120.0);
                let label = ui
                    .vertical(|ui| {
                        ui.set_width(room);
                        named(ui)
                    })
                    .inner;
                let edited = edit(ui, &mut text, &label, BOX_PX - 20.0);
                if !own.unit.is_empty() {
                    ui.label(RichText::new(own.unit).size(USUAL).color(soft));
                }
                edited
            });
            inner.inner
        };
        let is_led = page.led == Some(Led::Box(at));
        if response.changed() {
            page.typed.retain(|(of, _)| *of != own.of);
            if text != own.shown {
                page.typed.push((own.of.clone(), text.clone()));
            }
            page.told.retain(|(of, _)| *of != own.of);
        } else if is_led || response.gained_focus() {
            widgets::choose_all(ui, id_of_box(&own.of), state, &text);
        }
        if response.has_focus() {
            page.at_box = Some(at);
            page.boxed = Some(own.clone());
            // Which row one is at is seen from a step away.
            let beam = look::colour(self.view.theme.palette().beam);
            let x = ui.max_rect().left() - 6.0;
            ui.painter().vline(x, top..=ui.min_rect().bottom(), Stroke::new(4.0, beam));
        }
        let is_left = response.lost_focus() && !page.pressed.contains(&Pressed::Escape);
        let is_page_text = is_text && !matches!(own.of, BoxOf::Car(_) | BoxOf::Page(PageBox::Tape));
        if is_left && page.side == Side::Step && !is_page_text && text.trim() != own.shown.trim() {
            // Left by a press elsewhere: what was typed is taken all the same.
            match self.take_box(page, own, &text) {
                Ok(commands) => {
                    out.extend(commands);
                    page.typed.retain(|(of, _)| *of != own.of);
                }
                Err(said) => page.told.push((own.of.clone(), said)),
            }
        }
        let stops = look::colour(self.view.theme.palette().stops);
        for (_, said) in page.told.iter().filter(|(of, _)| *of == own.of) {
            let said = RichText::new(widgets::unbroken(said.as_str())).size(USUAL).color(stops);
            ui.add(Label::new(said).wrap());
        }
    }

    /// A box to choose in by a digit: all its options, the one that holds filled.
    fn record_pick(
        &self,
        ui: &mut Ui,
        page: &mut RecordPage,
        (at, own): (usize, &Asking),
        out: &mut Vec<Command>,
    ) {
        const HIGH_PX: f32 = 36.0;
        let soft = ui.visuals().weak_text_color();
        let named = if own.is_aside { soft } else { ui.visuals().text_color() };
        let label = RichText::new(widgets::unbroken(own.label.as_str())).font(look::bold(USUAL)).color(named);
        ui.add(Label::new(label).wrap());
        if !own.hint.is_empty() {
            let hint = RichText::new(widgets::unbroken(own.hint.as_str())).size(USUAL - 1.0).color(soft);
            ui.add(Label::new(hint).wrap());
        }
        let palette = self.view.theme.palette();
        let (beam, sheet, ink, panel) = (
            look::colour(palette.beam),
            look::colour(palette.sheet),
            look::colour(palette.ink),
            look::colour(palette.panel),
        );
        let id = id_of_box(&own.of);
        let chosen = page.picked_in(&own.of).or(own.chosen);
        let mut pressed = None;
        let drawn = ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = Vec2::splat(6.0);
            let most = (ui.available_width() - 24.0).max(60.0);
            for (nth, option) in own.options.iter().enumerate() {
                let holds = chosen == Some(nth);
                let text = format!("{}  {option}", nth + own.first_digit);
                let colour = if holds { sheet } else { ink };
                let galley = ui.painter().layout(widgets::unbroken(&text), look::bold(USUAL), colour, most);
                let size = Vec2::new(galley.size().x + 20.0, (galley.size().y + 12.0).max(HIGH_PX));
                let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
                let response = ui.interact(rect, id.with(nth), Sense::click());
                let name = self.texts().of(&own.label, option);
                response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, true, holds, &name));
                let edge = Stroke::new(if response.hovered() { 2.0 } else { 1.0 }, beam);
                let fill = if holds { beam } else { panel };
                ui.painter().rect(rect, 5.0, fill, edge, StrokeKind::Inside);
                let place = rect.left_center() + Vec2::new(10.0, -galley.size().y * 0.5);
                ui.painter().galley(place, galley, colour);
                if widgets::ringed(ui, response).clicked() {
                    pressed = Some(nth);
                }
            }
        });
        let rect = drawn.response.rect.expand(3.0);
        let response = ui.interact(rect, id, Sense::focusable_noninteractive());
        let shown = chosen.and_then(|at| own.options.get(at)).cloned().unwrap_or_default();
        response.widget_info(|| {
            WidgetInfo::labeled(egui::Role::RadioGroup, true, self.texts().with(&own.label, &shown))
        });
        let response = widgets::ringed(ui, response);
        if response.has_focus() {
            page.at_box = Some(at);
            page.boxed = Some(own.clone());
        }
        if response.lost_focus() && page.side == Side::Step && !page.pressed.contains(&Pressed::Escape) {
            out.extend(self.take_pick(page, own));
        }
        if let Some(nth) = pressed {
            page.pick(own, nth);
            ui.memory_mut(|memory| memory.request_focus(id));
        }
    }

    fn record_choices(
        &self,
        ui: &mut Ui,
        page: &mut RecordPage,
        choices: &[super::choices::Choice],
        out: &mut Vec<Command>,
    ) {
        if choices.is_empty() {
            return;
        }
        let texts = self.view.locale.language.record_page();
        let heading = match page.side {
            Side::Papers => texts.choose_kind,
            Side::Step if page.at.as_ref().is_some_and(|own| own.kind == StepKind::Sign) => texts.sign,
            _ => texts.choose,
        };
        self.record_heading(ui, heading);
        self.held_told(ui, choices);
        let found = if page.side == Side::Findings { self.found(page) } else { Vec::new() };
        for (at, own) in choices.iter().enumerate() {
            let digit = (at < 9).then_some(at + 1);
            let is_chosen = page.picked.map_or(own.holds, |picked| picked == at);
            let look = match (own.is_answer(), is_chosen) {
                (true, is_chosen) => Press::Answer(is_chosen),
                (false, _) => Press::Plain,
            };
            let press = self.large_press(ui, ui.next_auto_id().with(at), digit, &own.text, look);
            if page.picked == Some(at) && std::mem::take(&mut page.is_pick_new) {
                press.scroll_to_me(None);
            }
            if press.clicked() {
                self.choose(page, at, out);
            }
            if let Some(accepted) = found.get(at).and_then(|own| own.accepted.as_ref()) {
                ui.add(Label::new(widgets::soft(ui, accepted.as_str())).wrap());
            }
        }
    }

    /// What of the choices holds. What was chosen and is not entered yet is told at the foot, where it is always in sight.
    fn held_told(&self, ui: &mut Ui, choices: &[super::choices::Choice]) {
        let held: Vec<&str> =
            choices.iter().filter(|own| own.holds).map(|own| own.text.trim_end_matches('.')).collect();
        if !held.is_empty() {
            let said = self.view.locale.language.record_page().holds(&held.join(", "));
            let said = RichText::new(widgets::unbroken(said)).font(look::bold(USUAL));
            ui.add(Label::new(said).wrap());
        }
    }

    /// A press for a gloved hand, as wide as there is room, its digit before it.
    pub(super) fn large_press(
        &self,
        ui: &mut Ui,
        id: Id,
        digit: Option<usize>,
        text: &str,
        look: Press,
    ) -> Response {
        const DIGIT_PX: f32 = 30.0;
        let palette = self.view.theme.palette();
        let (beam, sheet, ink) =
            (look::colour(palette.beam), look::colour(palette.sheet), look::colour(palette.ink));
        let width = ui.available_width();
        let is_main = matches!(look, Press::Main | Press::Answer(true));
        let before = if digit.is_some() { DIGIT_PX + 16.0 } else { 14.0 };
        let text_ink = if is_main { sheet } else { ink };
        let shown = widgets::unbroken(text);
        let galley =
            ui.painter().layout(shown, look::bold(LARGE - 1.0), text_ink, (width - before - 14.0).max(40.0));
        let height = (galley.size().y + 18.0).max(PRESS_PX);
        let (rect, _) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
        let response = ui.interact(rect, id, Sense::click());
        response.widget_info(|| match look {
            Press::Answer(is_chosen) => WidgetInfo::selected(egui::Role::RadioButton, true, is_chosen, text),
            Press::Main | Press::Plain => WidgetInfo::labeled(egui::Role::Button, true, text),
        });
        let fill = if is_main { beam } else { look::colour(palette.panel) };
        let edge = if response.hovered() || response.has_focus() {
            Stroke::new(2.0, ink)
        } else {
            Stroke::new(1.0, beam)
        };
        let painter = ui.painter();
        painter.rect(rect, 5.0, fill, edge, StrokeKind::Inside);
        if let Some(digit) = digit {
            let own = Rect::from_center_size(
                egui::pos2(rect.left() + 8.0 + DIGIT_PX * 0.5, rect.center().y),
                Vec2::splat(DIGIT_PX),
            );
            let on = if is_main { sheet } else { beam };
            painter.rect_stroke(own, 4.0, Stroke::new(1.4, on), StrokeKind::Inside);
            painter.text(
                own.center(),
                Align2::CENTER_CENTER,
                digit.to_string(),
                look::letters(LARGE, Weight::Bold),
                on,
            );
        }
        let at = if digit.is_none() && is_main {
            rect.center() - galley.size() * 0.5
        } else {
            egui::pos2(rect.left() + before, rect.center().y - galley.size().y * 0.5)
        };
        painter.galley(at, galley, text_ink);
        widgets::ringed(ui, response)
    }

    /// The presses under what is seen, with what the keys do.
    fn record_foot(&self, ui: &mut Ui, page: &mut RecordPage, hint: &str, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        let asked = |asked: OfRecord| Command::Record(asked);
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.add_space(4.0);
        if let Some(notice) = &self.view.notice {
            let palette = self.view.theme.palette();
            let colour = look::colour(if notice.wrong { palette.stops } else { palette.ink });
            let said = widgets::unbroken(notice.text.as_str());
            ui.add(Label::new(RichText::new(said).size(USUAL).color(colour)).wrap());
        }
        let all = ui.available_rect_before_wrap();
        let row = Rect::from_min_size(all.min, Vec2::new(all.width(), PRESS_PX));
        let part = |from: f32, to: f32| {
            let x = |share: f32| row.left() + row.width() * share;
            Rect::from_min_max(egui::pos2(x(from), row.top()), egui::pos2(x(to) - 6.0, row.bottom()))
        };
        let press = |ui: &mut Ui, rect: Rect, id: Id, text: &str, is_main: bool| {
            ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
                self.large_press(ui, id, None, text, if is_main { Press::Main } else { Press::Plain })
            })
            .inner
            .clicked()
        };
        let id = |name: &'static str| Id::unique("record's foot").with(name);
        match page.side {
            Side::Step => {
                if press(ui, part(0.0, 0.25), id("back"), texts.back, false) {
                    out.push(asked(OfRecord::Back));
                }
                if press(ui, part(0.25, 0.5), id("more"), texts.more, false) {
                    out.push(asked(OfRecord::Side(Side::More)));
                }
                let is_chosen = page.picked.is_some();
                let text = if is_chosen { texts.enter_it } else { texts.next };
                if press(ui, part(0.5, 1.0), id_of_next(), text, true) {
                    out.extend(self.take_picked(page).unwrap_or_else(|| vec![asked(OfRecord::Done)]));
                }
            }
            Side::Begin => {
                if press(ui, part(0.0, 0.4), id("back"), texts.back, false) {
                    out.push(asked(OfRecord::Side(Side::Records)));
                }
                if press(ui, part(0.4, 1.0), id_of_next(), texts.begin, true) {
                    out.push(asked(OfRecord::Begin));
                }
            }
            Side::Records => {
                if press(ui, part(0.0, 0.5), id_of_next(), texts.leave, false) {
                    out.push(Command::Page(None));
                }
            }
            _ => {
                // The keyboard is on what enters, where something is chosen.
                let is_chosen = page.picked.is_some();
                let [back, enters] =
                    if is_chosen { [id("back"), id_of_next()] } else { [id_of_next(), id("enter")] };
                if press(ui, part(0.0, 0.5), back, texts.back, false) {
                    out.push(asked(OfRecord::Side(Side::Step)));
                }
                if is_chosen && press(ui, part(0.5, 1.0), enters, texts.enter_it, true) {
                    out.extend(self.take_picked(page).unwrap_or_default());
                }
            }
        }
        ui.allocate_rect(row, Sense::hover());
        if !hint.is_empty() {
            ui.add(Label::new(widgets::soft(ui, hint)).truncate()).on_hover_text(hint);
        }
    }

    /// How high what was said last is, px.
    fn said_px(&self, ui: &Ui, width: f32) -> f32 {
        let Some(notice) = &self.view.notice else { return 0.0 };
        let font = look::letters(USUAL, Weight::Regular);
        let said = widgets::unbroken(notice.text.as_str());
        ui.painter().layout(said, font, Color32::BLACK, width).size().y + 8.0
    }

    /// A heading over a part.
    pub(super) fn record_heading(&self, ui: &mut Ui, text: &str) {
        ui.add_space(4.0);
        let soft = ui.visuals().weak_text_color();
        ui.label(RichText::new(text).font(look::bold(look::size::BODY)).color(soft));
    }

    /// A line in large letters, a dot before it.
    pub(super) fn large_line(&self, ui: &mut Ui, text: &str) {
        ui.horizontal_top(|ui| {
            let (rect, _) = ui.allocate_exact_size(Vec2::new(10.0, LARGE + 5.0), Sense::hover());
            let ink = ui.visuals().text_color();
            ui.painter().circle_filled(rect.center(), 2.6, ink);
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(LARGE)).wrap());
        });
    }
}
