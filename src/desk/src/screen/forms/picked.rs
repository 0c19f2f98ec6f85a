//! A picker that has the keyboard and is shut: the arrows choose the next one in its list, a letter the next that begins with it.

use egui::{Context, Event, EventFilter, Id, Key, Modifiers, Response, Ui};

/// What the keys choose in a picker of these names, of which the one at `at` is chosen; `None` for nothing else.
pub(super) fn by_keys(ui: &Ui, picker: Id, names: &[String], at: Option<usize>) -> Option<usize> {
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
pub(super) fn lead_to(picker: &Response) {
    picker.request_focus();
    picker.ctx.data_mut(|data| data.insert_temp(led_to(), picker.id));
}

/// Whether the keyboard is in the picker that Enter led to, which is shut: there Enter leads on and opens nothing. Asked in every
/// frame: of one that the keyboard left this is forgotten, and come to by Tab it opens as any other.
pub(super) fn is_led_to(ctx: &Context) -> bool {
    let picker: Option<Id> = ctx.data(|data| data.get_temp(led_to()));
    // In its open list the keyboard is not away.
    if picker.is_none() || egui::Popup::is_any_open(ctx) {
        return false;
    }
    let is_in_it = ctx.memory(egui::Memory::focused) == picker;
    if !is_in_it {
        ctx.data_mut(|data| data.remove::<Id>(led_to()));
    }
    is_in_it
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
