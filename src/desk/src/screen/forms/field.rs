//! Figures and names that are typed: taken when Enter is pressed or the field is left, put back by Escape, which
//! leaves the keyboard in its field.

use egui::text_edit::TextEditState;
use egui::{Context, Id, Key, Response, RichText, TextEdit, Ui};

use super::step::Stepped;
use super::which::{NotRead, Which};
use crate::screen::look::size;
use crate::screen::widgets;

/// What is being typed, and what could not be read.
#[derive(Debug, Default)]
pub(in crate::screen) struct Fields {
    editing: Option<Editing>,
    /// The field that had it until this frame, if what was typed there is not taken yet: one above it got the keyboard.
    left: Option<Editing>,
    asked: Vec<Asked>,
    refused: Vec<Refused>,
    /// Whether Enter leads on to the next field: where many are filled one after another.
    leads_on: bool,
    /// The next field that is drawn gets the keyboard, or the next picker where Enter leads on.
    next: bool,
    /// So does the first field of the next form, whichever that is.
    first: bool,
    /// Whether the row that was drawn last was left in this frame with something typed in it.
    left_edited: bool,
    /// The figure of the next row, if Up and Down step it.
    stepped: Option<Stepped>,
    /// The field that gets the keyboard, and whether its frame has come: what is chosen from a list gives the keyboard back first.
    wanted: Option<(Id, bool)>,
    /// What was taken in this frame, until it is known whether the work takes it too.
    taken: Option<Taken>,
    /// The field or picker that Enter left last in this form.
    entered: Option<Id>,
    /// The path of the picker that gets the keyboard.
    picker: Option<&'static str>,
    /// Whether what was typed in a field was refused, or is asked about, since this frame began.
    was_refused: bool,
}

/// What was typed in a field and could be read.
#[derive(Debug)]
struct Taken {
    id: Id,
    text: String,
    shown: String,
}

/// A question about what was typed in a field; until it is answered the field says what was typed.
#[derive(Debug)]
struct Asked {
    id: Id,
    text: String,
    which: Which,
    /// Whether it was drawn in this frame.
    seen: bool,
}

/// What was typed in a field and could not be read: it stays there, with the reason under it, until something else is typed or
/// Escape puts back what was there.
#[derive(Debug)]
struct Refused {
    id: Id,
    text: String,
    why: String,
    /// What was shown then: when another value comes there, what was typed is about nothing any more.
    shown: String,
    /// Whether its field was drawn in this frame.
    seen: bool,
}

/// The field that has the keyboard.
#[derive(Debug)]
struct Editing {
    id: Id,
    text: String,
    /// Whether that is something else than what is shown; else the field follows what is shown.
    edited: bool,
    /// Whether Escape put back what was there: the keyboard stayed so that Tab goes on from here, and the next Escape is no more
    /// the field's.
    put_back: bool,
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

impl Fields {
    /// The same, with Enter leading on to the next field or not.
    pub fn leading_on(self, leads_on: bool) -> Self {
        Self { leads_on, next: self.first, ..self }
    }

    /// The first field of the form that is drawn next gets the keyboard.
    pub const fn lead_in(&mut self) {
        self.first = true;
        self.picker = None;
    }

    /// The next field that is drawn gets the keyboard: what had it is about to go.
    pub fn lead_on(&mut self) {
        self.next = true;
    }

    /// In the next frame the field of this name gets the keyboard.
    pub fn lead_to(&mut self, label: &str, of: &str) {
        self.wanted = Some((id_of(label, of), false));
    }

    /// Whether the keyboard has come to the part of this name, to be led on to a field of it.
    pub fn arrives_at(&mut self, part: &str, of: &str) -> bool {
        let id = id_of(part, of);
        self.wanted.take_if(|wanted| *wanted == (id, true)).is_some()
    }

    /// Whether the keyboard is on its way to the field of this name: what it is folded away in opens.
    pub fn is_led_to(&self, label: &str, of: &str) -> bool {
        self.wanted.is_some_and(|(id, _)| id == id_of(label, of))
    }

    /// Whether Enter left the last field of the form that was just drawn: there is no next one that it leads to. Where what was
    /// typed there is refused, the keyboard goes back to it.
    pub fn leads_out(&mut self) -> bool {
        let last = self.entered.take().filter(|_| self.next);
        match last {
            Some(id) if self.refused.iter().any(|own| own.id == id) => {
                self.wanted = Some((id, false));
                false
            }
            last => last.is_some(),
        }
    }

    /// In this frame or the next the picker of this path gets the keyboard.
    pub fn lead_to_picker(&mut self, path: &'static str) {
        self.picker = Some(path);
    }

    /// Whether this is the picker that was to get it; it has it now.
    pub fn leads_to_picker(&mut self, path: &str) -> bool {
        self.picker.take_if(|wanted| *wanted == path).is_some()
    }

    /// Whether Enter in the row before leads to this row, a picker; it has the keyboard now.
    pub const fn leads_here(&mut self) -> bool {
        let leads_here = self.leads_on && self.next && !self.first;
        if leads_here {
            self.next = false;
        }
        leads_here
    }

    /// Enter leads from this picker to the next row, or out of the form.
    pub const fn lead_on_from(&mut self, picker: Id) {
        self.next = true;
        self.entered = Some(picker);
    }

    /// The keyboard goes to the first field in sight of the form in which something stands that was refused; what it is.
    pub fn lead_to_refused(&mut self) -> Option<String> {
        let (id, text) = self.refused.iter().find(|own| own.seen).map(|own| (own.id, own.text.clone()))?;
        self.wanted = Some((id, false));
        Some(text)
    }

    /// Whether what was typed in a field was refused, or is asked about, since this frame began.
    pub const fn was_refused(&self) -> bool {
        self.was_refused
    }

    /// Whether the keyboard is on its way to a field or a picker that was not drawn since.
    pub const fn is_leading(&self) -> bool {
        self.first || self.wanted.is_some() || self.picker.is_some()
    }

    /// Up and Down step the figure of the next row.
    pub const fn stepping(&mut self, figure: Stepped) {
        self.stepped = Some(figure);
    }

    /// The next row is not drawn after all.
    pub const fn pass_over(&mut self) {
        self.stepped = None;
    }

    /// Whether the keyboard is in a field in which nothing was typed: there is nothing that could be undone in it.
    pub fn is_untouched(&self, ctx: &Context) -> bool {
        let focused = ctx.memory(egui::Memory::focused);
        self.editing.as_ref().is_some_and(|own| !own.edited && Some(own.id) == focused)
    }

    /// The same, and what was typed was not undone either: there is nothing that could be done again.
    pub fn was_never_touched(&self, ctx: &Context) -> bool {
        let again = self.editing.as_ref().is_some_and(|own| {
            let state = TextEditState::load(ctx, own.id).unwrap_or_default();
            let cursor = state.cursor.char_range().unwrap_or_default();
            state.undoer().has_redo(&(cursor, own.text.clone()))
        });
        self.is_untouched(ctx) && !again
    }

    /// Whether the keyboard was in a field in the last frame: its Escape is the field's, though the library has taken the
    /// keyboard away by now. A second one, after which nothing was typed, is the form's.
    pub fn had_keyboard(&self, ctx: &Context) -> bool {
        let own = self.editing.as_ref().filter(|own| !own.put_back);
        own.is_some_and(|own| ctx.memory(|memory| memory.had_focus_last_frame(own.id)))
    }

    /// Whether something is typed in a field and not taken yet.
    pub fn is_edited(&self) -> bool {
        self.editing.as_ref().is_some_and(|own| own.edited)
    }

    /// Whether the row that was drawn last was left in this frame with something typed in it.
    pub const fn was_left_edited(&self) -> bool {
        self.left_edited
    }

    /// Whether a question waits for its answer.
    pub const fn is_asking(&self) -> bool {
        !self.asked.is_empty()
    }

    /// Puts back what was there: nothing is being typed, nothing asked.
    pub fn put_back(&mut self) {
        self.editing = None;
        self.left = None;
        self.asked.clear();
        self.refused.clear();
    }

    /// What was taken in this frame is refused after all, for a reason that only the work as a whole knows: it stays in its field
    /// with that reason, as if it could not be read. Whether there was such a field.
    pub fn refuse_taken(&mut self, why: &str) -> bool {
        let Some(Taken { id, text, shown }) = self.taken.take() else { return false };
        self.refused.push(Refused { id, text, why: why.to_owned(), shown, seen: true });
        self.was_refused = true;
        true
    }

    /// A new frame begins: what was taken in the last one was taken by the work too.
    pub fn next_frame(&mut self) {
        self.taken = None;
        self.was_refused = false;
        self.refused.iter_mut().for_each(|own| own.seen = false);
        self.wanted = self.wanted.map(|(id, _)| (id, true));
    }

    /// A question whose field is gone is not asked any more; the first that went without an answer, with what was typed.
    pub fn unanswered(&mut self) -> Option<(String, String)> {
        self.left = None;
        let (seen, gone) = std::mem::take(&mut self.asked).into_iter().partition::<Vec<_>, _>(|own| own.seen);
        self.asked = seen.into_iter().map(|own| Asked { seen: false, ..own }).collect();
        gone.into_iter().next().map(|own| (own.text, own.which.question))
    }

    /// What stands in a field: what is being typed, what is asked about, or what is shown.
    fn text_of(&self, id: Id, shown: &str) -> String {
        let mut editing = self.editing.iter().chain(&self.left);
        let typed = editing.find(|own| own.id == id && own.edited).map(|own| &own.text);
        let asked = self.asked.iter().find(|own| own.id == id).map(|own| &own.text);
        let refused = self.refused.iter().find(|own| own.id == id && own.shown == shown).map(|own| &own.text);
        typed.or(asked).or(refused).map_or_else(|| shown.to_owned(), String::clone)
    }

    /// Whether what is shown became another while the keyboard was in the untouched field, as undo does it.
    fn shows_another(&self, id: Id, shown: &str) -> bool {
        self.editing.as_ref().is_some_and(|own| own.id == id && !own.edited && own.text != shown)
    }

    /// A row with a name and a field. `Some` once something new was typed that could be read; what could not is said
    /// under the field, and what was there stays.
    pub fn row<T, E: Into<NotRead>>(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let id = id_of(row.label, row.of);
        let mut taken = None;
        let stepped = self.stepped.take();
        self.left_edited = false;
        ui.horizontal(|ui| {
            let width = ui.available_width();
            let soft = ui.visuals().weak_text_color();
            let text = RichText::new(row.label).size(size::SMALL).color(soft);
            let label = widgets::name_column(ui, width * 0.4, text);
            if !row.hint.is_empty() {
                label.clone().on_hover_text(row.hint);
            }
            let mut text = self.text_of(id, shown);
            let stepped = stepped.filter(|_| ui.memory(|memory| memory.has_focus(id)));
            if let Some(typed) = stepped.and_then(|own| own.by_keys(ui))
                && let Ok(value) = read(&typed)
            {
                // Taken at once, as an arrow moves a thing; the field follows.
                taken = Some(value);
                self.taken = Some(Taken { id, text: typed, shown: shown.to_owned() });
                text = shown.to_owned();
                self.editing = None;
            }
            let edit = TextEdit::singleline(&mut text)
                .id(id)
                .desired_width(ui.available_width() - 10.0)
                .char_limit(200)
                .align(egui::Align2::RIGHT_CENTER);
            let output = edit.show(ui);
            let response = output.response.response.clone().labelled_by(label.id);
            let wanted = self.wanted.take_if(|wanted| *wanted == (id, true)).is_some();
            let led_here = std::mem::take(&mut self.next) || wanted;
            self.first = false;
            if led_here {
                response.request_focus();
            }
            // What is there is usually replaced as a whole; what was typed in this very frame is not.
            let came = led_here || response.gained_focus() || self.shows_another(id, shown);
            if came && !response.changed() {
                widgets::choose_all(ui, id, output.state, &text);
            }
            let entered = ui.input(|i| i.key_pressed(Key::Enter));
            if let Some(typed) = self.typed(ui, id, &response, text, shown) {
                self.next = self.leads_on && entered;
                self.entered = self.next.then_some(id);
                self.left_edited = typed.is_some();
                taken = self.read(id, typed, shown, &read);
            }
        });
        self.say_wrong(ui, id, shown);
        if let Some(typed) = self.ask(ui, id, row.label) {
            taken = self.read(id, Some(typed), shown, &read);
        }
        taken
    }

    /// A name and a field of several lines under it; Enter begins a new line, leaving the field takes what was typed.
    pub fn lines<T, E: Into<NotRead>>(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let id = id_of(row.label, row.of);
        let mut taken = None;
        let soft = ui.visuals().weak_text_color();
        let label = ui.label(RichText::new(row.label).size(size::SMALL).color(soft));
        if !row.hint.is_empty() {
            ui.add(
                egui::Label::new(RichText::new(widgets::unbroken(row.hint)).size(size::LEAST).color(soft))
                    .wrap(),
            );
        }
        let mut text = self.text_of(id, shown);
        let rows = text.lines().count().clamp(2, 8);
        let edit = TextEdit::multiline(&mut text)
            .id(id)
            .desired_width(f32::INFINITY)
            .desired_rows(rows)
            .char_limit(LONGEST_LINES);
        let output = edit.show(ui);
        let response = output.response.response.clone().labelled_by(label.id);
        let led_here = self.wanted.take_if(|wanted| *wanted == (id, true)).is_some();
        if led_here {
            response.request_focus();
        }
        if (led_here || response.gained_focus()) && !response.changed() {
            widgets::begin_anew(ui, id, output.state);
        }
        if let Some(typed) = self.typed(ui, id, &response, text, shown) {
            taken = self.read(id, typed, shown, &read);
        }
        self.say_wrong(ui, id, shown);
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
            let edited = text != shown;
            if response.changed() {
                self.asked.retain(|own| own.id != id);
                self.refused.retain(|own| own.id != id);
            }
            let put_back = !edited && self.editing.as_ref().is_some_and(|own| own.id == id && own.put_back);
            let before = self.editing.replace(Editing { id, text, edited, put_back });
            self.left = before.filter(|own| own.id != id && own.edited).or(self.left.take());
            return None;
        }
        let escaped = ui.input(|i| i.key_pressed(Key::Escape));
        // Escape puts back what was there, and the keyboard, which the library has taken away, stays: what is typed next belongs here.
        // Where nothing was typed it lets go.
        let edited = text.trim() != shown.trim();
        let was_edited = self.editing.as_ref().is_some_and(|own| own.id == id && own.edited);
        if escaped && response.lost_focus() && (edited || was_edited) {
            self.asked.retain(|own| own.id != id);
            self.refused.retain(|own| own.id != id);
            self.editing = Some(Editing { id, text: shown.to_owned(), edited: false, put_back: true });
            response.request_focus();
            // As when one comes to it: the next letter takes the place of a figure, and stands in a list where the hand is.
            let state = TextEditState::load(ui.ctx(), id).unwrap_or_default();
            if shown.contains('\n') {
                widgets::begin_anew(ui, id, state);
            } else {
                widgets::choose_all(ui, id, state, shown);
            }
            return None;
        }
        let had = |own: &mut Editing| own.id == id;
        let was_here = self.editing.take_if(had).or(self.left.take_if(had)).is_some();
        let within_a_frame = response.lost_focus() && response.changed();
        if !was_here && !within_a_frame {
            return None;
        }
        self.asked.retain(|own| own.id != id);
        self.refused.retain(|own| own.id != id);
        Some((edited && !escaped).then_some(text))
    }

    /// What was typed, read; what cannot be is remembered, to be said or asked about.
    fn read<T, E: Into<NotRead>>(
        &mut self,
        id: Id,
        typed: Option<String>,
        shown: &str,
        read: &impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let text = typed?;
        let read = read(&text).map_err(Into::into);
        self.was_refused |= read.is_err();
        match read {
            Ok(value) => {
                self.taken = Some(Taken { id, text, shown: shown.to_owned() });
                return Some(value);
            }
            Err(NotRead::Wrong(why)) => {
                let shown = shown.to_owned();
                self.refused.push(Refused { id, text, why, shown, seen: true });
                // Forms that were left long ago are not gone through for ever.
                let too_many = self.refused.len().saturating_sub(MOST_REFUSED);
                self.refused.drain(..too_many);
            }
            Err(NotRead::Which(which)) => self.asked.push(Asked { id, text, which, seen: true }),
        }
        None
    }

    /// Asks what is to be asked about a field; the answer, as a text that leaves no doubt. Not yet in the frame in which the
    /// field was left: the keyboard goes on to the next one, not to the answers.
    fn ask(&mut self, ui: &mut Ui, id: Id, label: &str) -> Option<String> {
        let at = self.asked.iter().position(|own| own.id == id && !self.left_edited)?;
        let asked = self.asked.get_mut(at)?;
        asked.seen = true;
        let chosen = asked.which.ask(ui, label)?;
        self.asked.remove(at);
        self.next |= self.leads_on && chosen.by_key;
        Some(chosen.typed)
    }

    fn say_wrong(&mut self, ui: &mut Ui, id: Id, shown: &str) {
        if let Some(refused) = self.refused.iter_mut().find(|own| own.id == id && own.shown == shown) {
            refused.seen = true;
            let colour = ui.visuals().error_fg_color;
            ui.label(RichText::new(widgets::unbroken(refused.why.as_str())).size(size::LEAST).color(colour));
        }
    }
}

/// The widget's own name of a field.
fn id_of(label: &str, of: &str) -> Id {
    Id::unique("field").with(label).with(of)
}

/// So many texts that could not be read are kept in their fields.
const MOST_REFUSED: usize = 50;

/// As many characters as a list of points or conditions may have.
const LONGEST_LINES: usize = 20_000;
