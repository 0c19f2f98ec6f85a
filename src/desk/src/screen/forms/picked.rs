//! The one picker. Shut, with the keyboard in it: the arrows choose the next one in its list, a letter the next that begins with it,
//! Enter and the space bar open it; but where Enter leads from row to row, it leads on from a picker that it led to.

use egui::{ComboBox, Context, Event, EventFilter, Id, IdSalt, Key, Modifiers, Response, RichText, Ui};

use super::field::Fields;
use crate::screen::widgets;

/// How high its open list is at most, px.
const LIST_PX: f32 = 320.0;

/// A picker, and where it stands.
pub(in crate::screen) struct Picker<'a> {
    /// What tells it apart from the others of its form.
    pub salt: IdSalt,
    /// The path by which the keyboard is led to it; empty for none.
    pub path: &'a str,
    /// The widget that says its name.
    pub named: Id,
    /// Its width, px.
    pub width: f32,
    /// The size of its letters, px.
    pub letters: f32,
}

/// What was chosen.
pub(in crate::screen) struct Picked<T> {
    /// `None` for what was chosen before.
    pub chosen: Option<T>,
    /// Whether it was chosen in the open list, by Enter or the pointer: that is meant, then.
    pub from_list: bool,
}

impl Picker<'_> {
    /// Draws it with what is chosen `now`, of `all`, by their names. In a form in which Enter leads on (`fields`) it is one of the stops.
    pub fn show<T: PartialEq + Clone>(
        self,
        ui: &mut Ui,
        mut fields: Option<&mut Fields>,
        now: &T,
        all: &[T],
        name: impl Fn(&T) -> String,
    ) -> Picked<T> {
        let Self { salt, path, named, width, letters } = self;
        // Taken before the library would open it by that; its name is made as the library makes it.
        let id = ui.make_persistent_id(IdSalt::new(salt));
        let is_left = fields.is_some() && is_led_to(ui.ctx(), Led::InTurn(id)) && take_enter(ui.ctx());
        let (mut chosen, shown) = (now.clone(), name(now));
        let combo = ComboBox::from_id_salt(salt)
            .selected_text(RichText::new(&shown).size(letters))
            .width(width)
            .truncate()
            .height(LIST_PX)
            .show_ui(ui, |ui| {
                for own in all {
                    widgets::entry(ui, &mut chosen, own.clone(), name(own));
                }
            });
        let is_open = combo.inner.is_some();
        let response = combo.response.labelled_by(named);
        if let Some(fields) = &mut fields {
            if fields.leads_to_picker(path) {
                lead_to(&response, Led::AtEnd(response.id));
            } else if fields.leads_here() {
                lead_to(&response, Led::InTurn(response.id));
            }
            if is_left {
                fields.lead_on_from(response.id);
            }
        }
        let from_list = chosen != *now;
        // One that was just led to has the keyboard already: what comes in the next frame is its own.
        if !is_open && response.has_focus() {
            let names: Vec<String> = all.iter().map(&name).collect();
            let at = all.iter().position(|own| own == now);
            if let Some(own) = by_keys(ui, response.id, &names, at).and_then(|at| all.get(at)) {
                chosen = own.clone();
            }
        }
        widgets::whole_of_chosen(ui, response, &shown, width);
        Picked { chosen: Some(chosen).filter(|own| own != now), from_list }
    }
}

/// How Enter led to a picker: from the row before it, or from the last one of the form, to what nobody said yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Led {
    InTurn(Id),
    AtEnd(Id),
}

/// What the keys choose in a picker of these names, of which the one at `at` is chosen; `None` for nothing else.
fn by_keys(ui: &Ui, picker: Id, names: &[String], at: Option<usize>) -> Option<usize> {
    let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(picker, filter));
    ui.data_mut(|data| data.insert_temp(in_hand(), picker));
    let last = names.len().checked_sub(1)?;
    let mut now = at;
    ui.input_mut(|i| {
        if i.consume_key(Modifiers::NONE, Key::ArrowDown) {
            now = Some(now.map_or(0, |at| (at + 1).min(last)));
        }
        if i.consume_key(Modifiers::NONE, Key::ArrowUp) {
            now = Some(now.map_or(last, |at| at.saturating_sub(1)));
        }
        for event in &i.events {
            let Event::Text(typed) = event else { continue };
            let typed = typed.trim().to_lowercase();
            let from = now.map_or(0, |at| at + 1);
            let mut others = (0..names.len()).map(|step| (from + step) % names.len());
            let begins =
                |at: &usize| names.get(*at).is_some_and(|own| own.to_lowercase().starts_with(&typed));
            now = others.find(begins).filter(|_| !typed.is_empty()).or(now);
        }
    });
    now.filter(|_| now != at)
}

/// Whether the keyboard is in such a picker: letters are its own, then.
pub(in crate::screen) fn chosen_by_keys(ctx: &Context) -> bool {
    let picker: Option<Id> = ctx.data(|data| data.get_temp(in_hand()));
    picker.is_some() && ctx.memory(egui::Memory::focused) == picker
}

/// Enter has led to this picker, as to a field.
fn lead_to(picker: &Response, led: Led) {
    picker.request_focus();
    picker.ctx.data_mut(|data| data.insert_temp(led_to(), led));
}

/// Whether the keyboard is in the picker that Enter led to so, which is shut: there Enter leads on and opens nothing. Asked in every
/// frame: of one that the keyboard left this is forgotten, and come to by Tab it opens as any other.
fn is_led_to(ctx: &Context, by: Led) -> bool {
    // In its open list the keyboard is not away.
    if ctx.data(|data| data.get_temp(led_to())) != Some(by) || egui::Popup::is_any_open(ctx) {
        return false;
    }
    let (Led::InTurn(picker) | Led::AtEnd(picker)) = by;
    let is_in_it = ctx.memory(egui::Memory::focused) == Some(picker);
    if !is_in_it {
        ctx.data_mut(|data| data.remove::<Led>(led_to()));
    }
    is_in_it
}

/// The same of the picker that Enter led to from the last row of a form.
pub(super) fn is_led_to_at_end(ctx: &Context) -> bool {
    match ctx.data(|data| data.get_temp(led_to())) {
        Some(led @ Led::AtEnd(_)) => is_led_to(ctx, led),
        _ => false,
    }
}

/// Takes the Enter that was pressed there; whether there was one.
pub(super) fn take_enter(ctx: &Context) -> bool {
    ctx.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Enter))
}

fn led_to() -> Id {
    Id::unique("picker led to")
}

fn in_hand() -> Id {
    Id::unique("picker in hand")
}
