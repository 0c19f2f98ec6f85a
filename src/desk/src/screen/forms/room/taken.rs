//! With what levels were taken, by whom, and how surely: all of it may be left out.

use baywright_planner::model::LevelsTaken;
use egui::Ui;

use super::BaySheet;
use crate::screen::forms::car::car_form::{Line, Of};

impl BaySheet<'_> {
    /// `of` is the runway's name; nothing for the floor.
    pub(super) fn how_taken(&mut self, ui: &mut Ui, of: &str, how: &mut LevelsTaken) {
        let texts = self.sheet.desk.view().locale.language.ground();
        let path = format!("within{of}");
        let line = Line { label: texts.within, hint: texts.within_hint, path: &path, ..Line::default() };
        if let Some(typed) = self.sheet.number_or_none(ui, line, Of::Length, how.within_mm) {
            how.within_mm = typed;
        }
        for (label, hint, field, own) in [
            (texts.taken_with, texts.taken_with_hint, "with", &mut how.with),
            (texts.taken_by, texts.taken_by_hint, "by", &mut how.by),
        ] {
            let path = format!("{field}{of}");
            let line = Line { label, hint, path: &path, ..Line::default() };
            let shown = own.clone().unwrap_or_default();
            let read = |text: &str| {
                let text = text.trim();
                Ok::<_, String>((!text.is_empty()).then(|| text.to_owned()))
            };
            if let Some(typed) = self.sheet.typed(ui, line, &shown, read) {
                *own = typed;
            }
        }
    }
}
