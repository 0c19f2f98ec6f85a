//! What is read of each target's stand, a box for each figure, and what it comes to.

use baywright_planner::edit::Edit;
use baywright_planner::geometry::angle;
use baywright_planner::model::{LineOver, SquareBy, StandRead};
use baywright_planner::proof::{Said, StandFigure, StandProof};
use egui::{Color32, Label, RichText, Ui};

use super::command::{Command, OfBay};
use super::forms::field::{Fields, Row};
use super::forms::rows::choice;
use super::forms::typed;
use super::forms::which::NotRead;
use super::look::{self, size};
use super::{Desk, widgets};

/// One figure of a stand's readings.
#[derive(Clone, Copy)]
struct Figure {
    label: &'static str,
    hint: &'static str,
    is_angle: bool,
    of: OfRead,
}

/// Which of them.
type OfRead = fn(&mut StandRead) -> &mut Option<f64>;

impl Desk {
    /// The worst of each stand of which something was read, and what was not.
    pub(super) fn answer_of_stands(&self, ui: &mut Ui, stands: &[StandProof]) {
        for stand in stands.iter().filter(|own| self.is_read(own)) {
            if let Some(figure) = stand.worst() {
                self.stand_said(ui, figure, true);
            }
            self.stand_open(ui, stand);
        }
    }

    pub(super) fn is_read(&self, stand: &StandProof) -> bool {
        self.answer.judged.stands_read.iter().any(|own| own.placement == stand.placement)
    }

    fn stand_said(&self, ui: &mut Ui, figure: &StandFigure, is_first: bool) {
        let palette = self.view.theme.palette();
        let colour = look::colour(match figure.said {
            Said::Inside { .. } => palette.ready,
            Said::Outside { .. } => palette.stops,
            Said::CannotSay { .. } | Said::NoFigure => palette.care,
        });
        let font = if is_first { look::bold(size::BODY) } else { look::bold(size::SMALL) };
        let text = RichText::new(widgets::unbroken(self.words().stand_figure(figure)));
        ui.add(Label::new(text.font(font).color(colour)).wrap());
    }

    fn stand_open(&self, ui: &mut Ui, stand: &StandProof) {
        let care: Color32 = look::colour(self.view.theme.palette().care);
        let words = self.words();
        let not_possible = stand.not_possible.iter().map(|own| words.stand_not_possible(own));
        for open in not_possible.chain(words.stand_open(&stand.open, stand.wants_levels)) {
            let text = RichText::new(widgets::unbroken(open)).size(size::SMALL).color(care);
            ui.add(Label::new(text).wrap());
        }
    }

    /// The boxes of every stand, with what each comes to.
    pub(super) fn stands(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        stands: &[StandProof],
        out: &mut Vec<Command>,
    ) {
        // While a car is being entered the bay waits.
        if self.document.draft().is_some() {
            return;
        }
        let (words, texts) = (self.words(), self.view.locale.language.stand());
        for stand in stands {
            ui.add_space(6.0);
            let title = RichText::new(words.stand_title(stand)).font(look::bold(size::BODY));
            ui.label(title);
            let own = self.answer.judged.stands_read.iter().find(|own| own.placement == stand.placement);
            let before = own.cloned().unwrap_or_else(|| StandRead::of(stand.placement.clone()));
            let mut now = before.clone();
            ui.push_id(stand.placement.as_str(), |ui| {
                self.of_height(ui, fields, &mut now);
                self.of_squareness(ui, fields, &mut now);
                let degrees =
                    |label, of: OfRead| Figure { label, hint: texts.leans_hint, is_angle: true, of };
                let away = degrees(texts.leans_away, |own| &mut own.leans_away_rad);
                let left = degrees(texts.leans_left, |own| &mut own.leans_left_rad);
                [away, left].into_iter().for_each(|own| self.figure(ui, fields, own, &mut now));
            });
            if own.is_none() {
                ui.add(Label::new(widgets::soft(ui, texts.unread)).wrap());
            }
            if own.is_some() {
                stand.figures.iter().for_each(|figure| self.stand_said(ui, figure, false));
                self.stand_open(ui, stand);
            }
            ui.add(Label::new(widgets::soft(ui, widgets::unbroken(words.stand_proves(stand)))).wrap());
            if let Some(chord) = words.stand_chord(stand) {
                ui.add(Label::new(widgets::soft(ui, widgets::unbroken(chord))).wrap());
            }
            if now != before {
                out.push(Command::Bay(OfBay::Edit(Edit::ReadStand(now))));
            }
        }
    }

    fn of_height(&self, ui: &mut Ui, fields: &mut Fields, now: &mut StandRead) {
        let texts = self.view.locale.language.stand();
        let over = now.line_over;
        let named = |own: &LineOver| texts.line_over_of(*own);
        if let Some(over) = choice(ui, fields, texts.line_over, &over, &LineOver::ALL, named) {
            // A height from elsewhere is another one.
            (now.line_over, now.line_mm) = (over, None);
        }
        let line =
            Figure { label: texts.line, hint: texts.line_hint, is_angle: false, of: |own| &mut own.line_mm };
        let offset = Figure {
            label: texts.offset,
            hint: texts.offset_hint,
            is_angle: false,
            of: |own| &mut own.offset_mm,
        };
        [line, offset].into_iter().for_each(|own| self.figure(ui, fields, own, now));
    }

    fn of_squareness(&self, ui: &mut Ui, fields: &mut Fields, now: &mut StandRead) {
        let texts = self.view.locale.language.stand();
        let by = now.square_by;
        let named = |own: &SquareBy| texts.square_by_of(*own);
        if let Some(by) = choice(ui, fields, texts.square_by, &by, &SquareBy::ALL, named) {
            // What was read one way says nothing of another.
            *now = StandRead {
                square_by: by,
                left_mm: None,
                right_mm: None,
                apart_mm: None,
                beside_mm: None,
                mirror_mm: None,
                ..now.clone()
            };
        }
        let mm = |label, hint, of: OfRead| Figure { label, hint, is_angle: false, of };
        let apart = |label, hint| mm(label, hint, |own| &mut own.apart_mm);
        let ends = [
            mm(texts.left, texts.distance_hint, |own| &mut own.left_mm),
            mm(texts.right, texts.distance_hint, |own| &mut own.right_mm),
        ];
        let all: Vec<Figure> = match now.square_by {
            SquareBy::Distances => ends.into_iter().chain([apart(texts.apart, texts.apart_hint)]).collect(),
            SquareBy::Bar => ends.into_iter().chain([apart(texts.bar, texts.bar_hint)]).collect(),
            SquareBy::Mirror => vec![
                mm(texts.beside, texts.beside_hint, |own| &mut own.beside_mm),
                mm(texts.mirror, texts.mirror_hint, |own| &mut own.mirror_mm),
            ],
        };
        all.into_iter().for_each(|own| self.figure(ui, fields, own, now));
    }

    fn figure(&self, ui: &mut Ui, fields: &mut Fields, figure: Figure, now: &mut StandRead) {
        let Figure { label, hint, is_angle, of } = figure;
        let value = *of(now);
        let shown = value.map_or_else(String::new, |value| match is_angle {
            true => self.region().degrees_to_type(angle::degrees(value)),
            false => self.view.locale.length_to_type(value),
        });
        let read = |text: &str| match (text.trim(), is_angle) {
            ("", _) => Ok(None),
            (text, false) => self.read_length(text).map(Some),
            (text, true) => match typed::degrees(text) {
                Some(degrees) => Ok(Some(angle::radians(degrees))),
                None => Err(NotRead::Wrong(self.texts().no_angle(text))),
            },
        };
        let path = format!("stand {}", now.placement);
        if let Some(typed) = fields.row(ui, &Row { label, hint, of: &path }, &shown, read) {
            *of(now) = typed;
        }
    }
}
