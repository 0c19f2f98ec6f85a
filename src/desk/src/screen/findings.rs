//! The panel on the right: what was found, each with its number, its limit, its place and its cure.

use baywright_drawing::flagged;
use baywright_drawing::sign::SignKind;
use baywright_planner::{Basis, Finding, Severity, Step};
use egui::{Button, CornerRadius, Frame, Id, Margin, Rect, RichText, ScrollArea, Sense, Stroke, Ui, Vec2};

use super::command::{Command, OfBay, OfView};
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::page::Page;
use super::view::Tab;
use super::{Desk, foot, widgets};

/// A card whose height is not known yet, px.
const CARD_PX: f32 = 120.0;
const GAP_PX: f32 = 8.0;
/// Room under the cards for how many more there are, px.
const BELOW_PX: f32 = 20.0;

/// Heights of the cards as they were drawn last: what lies outside the window is not drawn at all, but for where the keyboard
/// may go next.
#[derive(Debug, Default)]
pub(super) struct Cards {
    heights: Vec<f32>,
    width: f32,
    /// The card, by its place among them, that holds what has the keyboard.
    with_keyboard: Option<usize>,
    /// The keyboard goes to the card at this place: a way out was pressed by a key in the one that stood there, and it may be gone.
    hand_on: Option<usize>,
}

impl Cards {
    /// The first card's first press gets the keyboard.
    pub fn lead_in(&mut self) {
        self.hand_on = Some(0);
    }
}

/// A card as it was drawn.
struct Card {
    rect: Rect,
    /// What can be pressed of it first.
    first: Id,
    has_keyboard: bool,
    /// Its way out was pressed by a key.
    is_cured_by_key: bool,
}

impl Desk {
    pub(super) fn answers(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        // In large letters there is not always room for all in one row.
        ui.horizontal_wrapped(|ui| {
            let floor = self.view.locale.language.ground().title;
            let parking = self.view.locale.language.place().tab;
            for (tab, name) in [
                (Tab::Findings, texts.in_the_way),
                (Tab::Marks, texts.marks),
                (Tab::Floor, floor),
                (Tab::Parking, parking),
                (Tab::Echoes, self.view.locale.language.echoes().tab),
            ] {
                let chosen = self.view.tab == tab;
                let font = if chosen {
                    look::bold(size::BODY)
                } else {
                    look::letters(size::BODY, baywright_drawing::Weight::Regular)
                };
                let text = RichText::new(name).font(font);
                let mut response = ui.add(Button::selectable(chosen, text));
                if tab == Tab::Parking {
                    response = response.on_hover_text(self.view.locale.language.place().title_why);
                }
                if tab == Tab::Echoes {
                    response = response.on_hover_text(self.view.locale.language.echoes().tab_why);
                }
                if tab == Tab::Parking && std::mem::take(&mut self.parking.leads) {
                    response.request_focus();
                }
                if response.clicked() {
                    out.push(Command::View(OfView::Tab(tab)));
                }
            }
            self.record_press(ui, out);
        });
        ui.add_space(2.0);
        match self.view.tab {
            Tab::Findings => {
                self.view.as_laid.clear();
                self.findings(ui, out);
            }
            Tab::Marks => self.marks(ui, out),
            Tab::Floor => {
                self.view.as_laid.clear();
                self.floor(ui, out);
            }
            Tab::Parking => {
                self.view.as_laid.clear();
                self.where_to_park(ui, out);
            }
            Tab::Echoes => {
                self.view.as_laid.clear();
                self.echoes(ui, out);
            }
        }
    }

    fn findings(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let mut cards = std::mem::take(&mut self.cards);
        let told: Vec<usize> = flagged(&self.answer.assessment).map(|f| f.index).collect();
        let width = ui.available_width() - 10.0;
        if (cards.width - width).abs() > 0.5 {
            cards = Cards { heights: Vec::new(), width, ..cards };
        }
        cards.heights.resize(told.len(), CARD_PX);
        let (before, handed_on) = (cards.with_keyboard.take(), cards.hand_on.take());
        let room = ui.available_height() - BELOW_PX;
        let mut lowest = 0.0_f32;
        let area = ScrollArea::vertical().id_salt("findings").max_height(room);
        area.auto_shrink([false, false]).show_viewport(ui, |ui, seen| {
            ui.set_width(width);
            lowest = seen.max.y;
            ui.spacing_mut().item_spacing.y = 0.0;
            if told.is_empty() {
                ui.label(widgets::soft(ui, self.texts().nothing_in_the_way));
            }
            let top = ui.cursor().min.y;
            let mut skipped = 0.0_f32;
            for (place, (&index, height)) in told.iter().zip(&mut cards.heights).enumerate() {
                let at = ui.cursor().min.y - top + skipped;
                let hidden = at + *height < seen.min.y - 200.0 || at > seen.max.y + 200.0;
                // The library leads the keyboard to what is drawn only: from above to the first card, from below to the last.
                let is_next = place == 0
                    || place + 1 == told.len()
                    || before.is_some_and(|own| own.abs_diff(place) < 2)
                    || handed_on == Some(place);
                if hidden && !is_next && self.scroll_to != Some(index) {
                    skipped += *height + GAP_PX;
                    continue;
                }
                if skipped > 0.0 {
                    ui.add_space(skipped);
                    skipped = 0.0;
                }
                let Some(finding) = self.answer.assessment.findings.get(index) else { continue };
                // Under a name of its own, however many before it are not drawn: what has the keyboard keeps it as it scrolls.
                let own = egui::UiBuilder::new().scope_id(ui.scope_id().with(("card", index)));
                let drawn = ui.scope_builder(own, |ui| self.card(ui, index, finding, out)).inner;
                *height = drawn.rect.height();
                if handed_on.is_some_and(|own| place == own.min(told.len() - 1)) {
                    ui.memory_mut(|memory| memory.request_focus(drawn.first));
                    cards.with_keyboard = Some(place);
                } else if drawn.has_keyboard {
                    cards.with_keyboard = Some(place);
                }
                if drawn.is_cured_by_key {
                    cards.hand_on = Some(place);
                }
                ui.add_space(GAP_PX);
            }
            ui.add_space(skipped);
            self.notes(ui);
            in_sight::follow(ui);
            let name = self.texts().to_scroll(self.texts().in_the_way);
            in_sight::by_keys(ui, &name, ScrolledBy::Keys);
        });
        let mut top = 0.0;
        let below = cards.heights.iter().filter(|height| {
            // More than half of it is out of sight.
            let hidden = top + *height * 0.5 > lowest;
            top += *height + GAP_PX;
            hidden
        });
        let below = below.count();
        if below > 0 {
            ui.label(widgets::soft(ui, self.texts().more_below(below)));
        }
        self.cards = cards;
    }

    fn card(&self, ui: &mut Ui, index: usize, finding: &Finding, out: &mut Vec<Command>) -> Card {
        let texts = self.texts();
        let words = self.words();
        let theme = self.view.theme;
        let palette = theme.palette();
        let pointed = self.view.pointed == Some(index);
        let colours = widgets::severity(palette, finding.severity);
        let edge = if pointed || self.view.lit == Some(index) {
            Stroke::new(2.0, widgets::told_in(palette, finding.severity))
        } else {
            Stroke::new(1.0, look::colour(palette.soft.faded(0.35)))
        };
        let frame = Frame::new()
            .fill(look::colour(palette.sheet))
            .stroke(edge)
            .corner_radius(CornerRadius::same(5))
            .inner_margin(Margin { left: 8, right: 10, top: 8, bottom: 8 });
        let (mut first, mut has_keyboard, mut is_cured_by_key) = (None, false, false);
        let drawn = frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing = Vec2::new(6.0, 3.0);
            ui.horizontal_top(|ui| {
                let kind = SignKind::of_severity(finding.severity);
                let sign =
                    widgets::sign(ui, kind, 9.5, &self.answer.letter(index).unwrap_or_default(), colours);
                sign.on_hover_text(words.severity(finding.severity));
                ui.vertical(|ui| {
                    let title = RichText::new(widgets::unbroken(words.title(finding))).font(look::bold(14.0));
                    ui.add(egui::Label::new(title).wrap().selectable(true));
                    if let Some(measure) = words.measure(finding) {
                        let colour = widgets::told_in(palette, finding.severity);
                        let measure = RichText::new(measure).font(look::bold(size::BODY)).color(colour);
                        ui.add(egui::Label::new(measure).selectable(true));
                    }
                    let detail = words.detail(finding);
                    if !detail.is_empty() {
                        ui.add(
                            egui::Label::new(widgets::soft(ui, widgets::unbroken(detail))).selectable(true),
                        );
                    }
                    if let Some(cure) = words.cure(finding) {
                        let cure =
                            RichText::new(widgets::unbroken(format!("\u{2192} {cure}"))).size(size::SMALL);
                        ui.add(egui::Label::new(cure).selectable(true));
                    }
                    ui.add_space(2.0);
                    ui.horizontal_wrapped(|ui| {
                        if let Some(cure) = &finding.cure {
                            let text = deed(texts, &cure.step);
                            let press = ui
                                .add_enabled_ui(!self.answer.stale, |ui| widgets::offer(ui, theme, text))
                                .inner;
                            let name = texts.of(text, &words.title(finding));
                            has_keyboard |= press.has_focus();
                            first = press.enabled().then_some(press.id);
                            if press.accessible_name(name).clicked() {
                                is_cured_by_key = has_keyboard && !cure.step.asks_for_more();
                                out.push(Command::Bay(OfBay::Cure(index)));
                            }
                        }
                        let show =
                            widgets::lesser(ui, if pointed { texts.showing } else { texts.show_place });
                        has_keyboard |= show.has_focus();
                        first.get_or_insert(show.id);
                        if show.accessible_name(texts.show_place_of(&words.title(finding))).clicked() {
                            out.push(Command::View(OfView::Point(index)));
                        }
                        let why = widgets::link(ui, theme, texts.why_this_limit);
                        has_keyboard |= why.has_focus();
                        if why.accessible_name(texts.why_of(&words.title(finding))).clicked() {
                            out.push(Command::View(OfView::Explain(index)));
                        }
                    });
                    if self.view.explained == Some(index) {
                        ui.add(egui::Label::new(widgets::soft(ui, words.why(finding))).selectable(true));
                        if matches!(finding.basis, Basis::Shop(_)) {
                            let text = self.view.locale.language.shop().change_it;
                            let change = widgets::link(ui, theme, text);
                            has_keyboard |= change.has_focus();
                            if change.clicked() {
                                out.push(Command::Page(Some(Page::Shop)));
                            }
                        }
                    }
                });
            });
        });
        let rect = drawn.response.rect;
        // A press on the card itself shows the place; buttons in it come first.
        let response = ui.interact(rect, ui.scope_id().with(("card", index)), Sense::hover());
        if response.hovered() {
            out.push(Command::View(OfView::Light(Some(index))));
        }
        if response.hovered()
            && let Some(subject) = finding.subjects.first().cloned().map(super::whole)
        {
            out.push(Command::View(OfView::Hover(Some(subject))));
        }
        // Chosen on the drawing: its card comes into sight.
        if self.scroll_to == Some(index) {
            response.scroll_to_me(None);
        }
        let first = first.unwrap_or(response.id);
        Card { rect, first, has_keyboard, is_cured_by_key }
    }

    /// What to know and to have ready, in a quiet list.
    fn notes(&self, ui: &mut Ui) {
        let words = self.words();
        let notes: Vec<&Finding> =
            self.answer.assessment.findings.iter().filter(|f| f.severity == Severity::Note).collect();
        if notes.is_empty() {
            return;
        }
        ui.add_space(4.0);
        ui.label(RichText::new(words.heading(Severity::Note)).font(look::bold(size::BODY)));
        ui.spacing_mut().item_spacing.y = 3.0;
        for note in notes {
            ui.horizontal_top(|ui| {
                ui.label(widgets::soft(ui, "\u{2022}"));
                let line = RichText::new(widgets::unbroken(words.line(note))).size(size::SMALL);
                ui.add(egui::Label::new(line).wrap().selectable(true));
            });
        }
        if !foot::says_whole_caution(ui.ctx()) {
            ui.add_space(6.0);
            ui.add(egui::Label::new(widgets::soft(ui, words.caution())).wrap());
        }
    }
}

/// What a press on a cure does, in a few words.
pub(super) const fn deed(texts: &baywright_planner::words::screen::Screen, step: &Step) -> &'static str {
    match step {
        Step::MoveThing { .. } => texts.move_it,
        Step::TurnThing { .. } => texts.turn_it,
        Step::TakeAway { .. } => texts.take_away,
        Step::MoveCar { .. } => texts.park_there,
        Step::StandOnMark { .. } => texts.put_on_mark,
        Step::KeepEmpty { .. } => texts.keep_empty,
        Step::KeepShut { .. } => texts.keep_shut,
        Step::OpenDoor { .. } => texts.open_door,
        Step::Tape { .. } => texts.enter_distance,
        Step::TapeCar
        | Step::SurveyFloor
        | Step::EnterFigures
        | Step::EnterAlignment
        | Step::MeasureOnCar(_) => texts.how,
        Step::SayHeightsFrom => texts.say_which,
        Step::EnterZones => texts.enter_them,
        Step::ReviewProfile => texts.looked_again,
    }
}
