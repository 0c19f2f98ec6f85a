//! Menus and pickers by the keyboard: the library's arrows walk through one that is open; here it closes when an entry of it
//! was pressed by a key, and the keyboard goes back to what opened it.

use egui::{Context, Id, Key, Order, Popup};

/// What had the keyboard when a menu opened.
#[derive(Debug, Default)]
pub(super) struct Menus {
    opener: Option<Id>,
    /// An entry is pressed by a key in this frame, or the menu closed by one.
    leaves: bool,
}

impl Menus {
    /// Before the panels of a frame are drawn.
    pub fn before(&mut self, ctx: &Context) {
        self.leaves = false;
        if !Popup::is_any_open(ctx) {
            return;
        }
        let focused = ctx.memory(egui::Memory::focused);
        let in_menu =
            |id: Id| ctx.read_response(id).is_some_and(|own| own.layer_id.order == Order::Foreground);
        let (entered, escaped) = ctx
            .input(|i| (i.key_pressed(Key::Enter) || i.key_pressed(Key::Space), i.key_pressed(Key::Escape)));
        match focused {
            Some(id) if in_menu(id) => self.leaves = entered,
            Some(id) => self.opener = Some(id),
            None => {}
        }
        self.leaves |= escaped;
    }

    /// After they were drawn: what was pressed is done.
    pub fn after(&mut self, ctx: &Context) {
        if !std::mem::take(&mut self.leaves) {
            return;
        }
        Popup::close_all(ctx);
        if let Some(opener) = self.opener.take() {
            ctx.memory_mut(|memory| memory.request_focus(opener));
        }
    }
}
