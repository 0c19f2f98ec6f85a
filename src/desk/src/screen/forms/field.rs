//! Figures and names that are typed: taken when Enter is pressed or the field is left, put back by Escape.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Align, Id, Key, Response, RichText, TextEdit, Ui};

use crate::screen::look::size;

/// What is being typed, and what could not be read.
#[derive(Debug, Default)]
pub(in crate::screen) struct Fields {
    editing: Option<(Id, String)>,
    wrong: Option<(Id, String)>,
    /// Whether Enter leads on to the next field: where many are filled one after another.
    leads_on: bool,
    /// The next field that is drawn gets the keyboard.
    next: bool,
}

/// Where a field stands and what it is called.
pub(in crate::screen) struct Row<'a> {
    /// Its name on the left.
    pub label: &'a str,
    /// What the name means, for who hovers.
    pub hint: &'a str,
    /// What tells it apart from the same field of another thing.
    pub of: &'a str,
}

/// Chooses the whole text of a field, so that typing replaces it.
pub(in crate::screen) fn choose_all(ui: &Ui, id: Id, mut state: TextEditState, text: &str) {
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
    state.cursor.set_char_range(Some(all));
    state.store(ui.ctx(), id);
}

/// The name at the left of a row, in a column of its own.
pub(in crate::screen) fn name_column(ui: &mut Ui, width: f32, text: RichText) -> egui::Response {
    let layout = egui::Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(egui::Vec2::new(width, 22.0), layout, |ui| {
        ui.set_width(width);
        ui.add(egui::Label::new(text).wrap())
    })
    .inner
}

impl Fields {
    /// The same, with Enter leading on to the next field or not.
    pub fn leading_on(self, leads_on: bool) -> Self {
        Self { leads_on, next: false, ..self }
    }

    /// The next field that is drawn gets the keyboard: what had it is about to go.
    pub fn lead_on(&mut self) {
        self.next = true;
    }

    /// A row with a name and a field. `Some` once something new was typed that could be read; what could not is said
    /// under the field, and what was there stays.
    pub fn row<T>(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Option<T> {
        let id = Id::unique("field").with(row.label).with(row.of);
        let mut taken = None;
        ui.horizontal(|ui| {
            let width = ui.available_width();
            let soft = ui.visuals().weak_text_color();
            let text = RichText::new(row.label).size(size::SMALL).color(soft);
            let label = name_column(ui, width * 0.4, text);
            if !row.hint.is_empty() {
                label.clone().on_hover_text(row.hint);
            }
            let mut text = match &self.editing {
                Some((own, text)) if *own == id => text.clone(),
                _ => shown.to_owned(),
            };
            let edit = TextEdit::singleline(&mut text)
                .id(id)
                .desired_width(ui.available_width() - 10.0)
                .char_limit(200)
                .align(egui::Align2::RIGHT_CENTER);
            let output = edit.show(ui);
            let response = output.response.response.clone().labelled_by(label.id);
            let led_here = std::mem::take(&mut self.next);
            if led_here {
                response.request_focus();
            }
            // What is there is usually replaced as a whole; what was typed in this very frame is not.
            if led_here || (response.gained_focus() && !response.changed()) {
                choose_all(ui, id, output.state, &text);
            }
            let entered = ui.input(|i| i.key_pressed(Key::Enter));
            if let Some(typed) = self.typed(ui, id, &response, text, shown) {
                self.next = self.leads_on && entered;
                taken = self.read(id, typed, &read);
            }
        });
        self.say_wrong(ui, id);
        taken
    }

    /// A name and a field of several lines under it; Enter begins a new line, leaving the field takes what was typed.
    pub fn lines<T>(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Option<T> {
        let id = Id::unique("field").with(row.label).with(row.of);
        let mut taken = None;
        let soft = ui.visuals().weak_text_color();
        let label = ui.label(RichText::new(row.label).size(size::SMALL).color(soft));
        if !row.hint.is_empty() {
            ui.add(egui::Label::new(RichText::new(row.hint).size(size::LEAST).color(soft)).wrap());
        }
        let mut text = match &self.editing {
            Some((own, text)) if *own == id => text.clone(),
            _ => shown.to_owned(),
        };
        let rows = text.lines().count().clamp(2, 8);
        let edit = TextEdit::multiline(&mut text)
            .id(id)
            .desired_width(f32::INFINITY)
            .desired_rows(rows)
            .char_limit(LONGEST_LINES);
        let response = ui.add(edit).labelled_by(label.id);
        if let Some(typed) = self.typed(ui, id, &response, text, shown) {
            taken = self.read(id, typed, &read);
        }
        self.say_wrong(ui, id);
        taken
    }

    /// What was typed, once the field is left, by Enter or for another place: `Some(None)` if that is what was there. The
    /// library says so in more than one frame; and a fast hand may have reached the field, typed and left it within this
    /// one: letters and Enter come together.
    fn typed(
        &mut self,
        ui: &Ui,
        id: Id,
        response: &Response,
        text: String,
        shown: &str,
    ) -> Option<Option<String>> {
        if response.has_focus() {
            self.editing = Some((id, text));
            return None;
        }
        let was_here = self.editing.as_ref().is_some_and(|(own, _)| *own == id);
        let within_a_frame = response.lost_focus() && response.changed();
        if !was_here && !within_a_frame {
            return None;
        }
        self.editing = None;
        self.wrong = None;
        let escaped = ui.input(|i| i.key_pressed(Key::Escape));
        Some((!escaped && text.trim() != shown.trim()).then_some(text))
    }

    /// What was typed, read; what cannot be is remembered.
    fn read<T>(
        &mut self,
        id: Id,
        typed: Option<String>,
        read: &impl Fn(&str) -> Result<T, String>,
    ) -> Option<T> {
        match read(&typed?) {
            Ok(value) => Some(value),
            Err(why) => {
                self.wrong = Some((id, why));
                None
            }
        }
    }

    fn say_wrong(&self, ui: &mut Ui, id: Id) {
        if let Some((own, why)) = &self.wrong
            && *own == id
        {
            let colour = ui.visuals().error_fg_color;
            ui.label(RichText::new(why).size(size::LEAST).color(colour));
        }
    }
}

/// As many characters as a list of points or conditions may have.
const LONGEST_LINES: usize = 20_000;
