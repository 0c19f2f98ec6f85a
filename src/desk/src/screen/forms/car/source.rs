//! Where a group of figures comes from.

use baywright_planner::model::Provenance;
use egui::Ui;
use jiff::civil::Date;

use super::car_form::{CarForm, Line};

impl CarForm<'_> {
    /// The fields of a source; whether it was changed.
    pub(in crate::screen) fn source(&mut self, ui: &mut Ui, path: &str, source: &mut Provenance) -> bool {
        let texts = self.texts;
        let before = source.clone();
        let mut kinds = vec![
            Provenance::Maker { document: String::new(), date: None },
            Provenance::Measured { by: String::new(), date: None },
            Provenance::Published { source: String::new() },
            Provenance::Example,
        ];
        // What was said is not taken back.
        if *source == Provenance::NotGiven {
            kinds.insert(0, Provenance::NotGiven);
        }
        let same = |a: &Provenance, b: &Provenance| std::mem::discriminant(a) == std::mem::discriminant(b);
        let at = kinds.iter().position(|kind| same(kind, source)).unwrap_or(0);
        let indices: Vec<usize> = (0..kinds.len()).collect();
        let chosen = self.pick(ui, texts.source, path, &at, &indices, |&i| {
            kinds.get(i).map_or_else(String::new, |kind| texts.source_of(kind).to_owned())
        });
        if let Some(kind) = chosen.and_then(|i| kinds.get(i)) {
            source.clone_from(kind);
            // An arrow or a letter may go past it to the next one.
            if self.from_list {
                self.lead_to_said(path, kind);
            }
        }
        match source {
            Provenance::Example | Provenance::NotGiven => {}
            Provenance::Maker { document, date } => {
                self.source_text(ui, texts.document, &format!("{path}.document"), document);
                self.day(ui, &format!("{path}.date"), date);
            }
            Provenance::Measured { by, date } => {
                self.source_text(ui, texts.measured_by, &format!("{path}.by"), by);
                self.day(ui, &format!("{path}.date"), date);
            }
            Provenance::Published { source } => {
                self.source_text(ui, texts.printed_where, &format!("{path}.source"), source);
            }
        }
        *source != before
    }

    /// What goes with a source is typed next.
    pub(in crate::screen) fn lead_to_said(&mut self, path: &str, source: &Provenance) {
        let texts = self.texts;
        let (label, field) = match source {
            Provenance::Example | Provenance::NotGiven => return,
            Provenance::Maker { .. } => (texts.document, "document"),
            Provenance::Measured { .. } => (texts.measured_by, "by"),
            Provenance::Published { .. } => (texts.printed_where, "source"),
        };
        self.fields.lead_to(label, &format!("{path}.{field}"));
    }

    fn source_text(&mut self, ui: &mut Ui, label: &str, path: &str, text: &mut String) {
        if let Some(typed) = self.text(ui, (label, ""), path, text) {
            *text = typed;
        }
    }

    fn day(&mut self, ui: &mut Ui, path: &str, date: &mut Option<Date>) {
        let texts = self.texts;
        let shown = date.map_or_else(String::new, |date| date.to_string());
        let line = Line { label: texts.dated, hint: texts.dated_hint, path, ..Line::default() };
        let wrong = texts.not_a_day;
        let typed = self.typed(ui, line, &shown, |text| {
            let text = text.trim();
            if text.is_empty() {
                return Ok(None);
            }
            text.parse::<Date>().map(Some).map_err(|_| wrong.to_owned())
        });
        if let Some(typed) = typed {
            *date = typed;
        }
    }
}
