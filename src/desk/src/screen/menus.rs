//! Menus and pickers by the keyboard: the library's arrows walk through one that is open; here it closes when an entry of it
//! was pressed by a key, and the keyboard goes back to what opened it. What of it has the keyboard gets a ring: the library takes
//! the edges of a menu's entries away, and the ground of what is chosen hides the rest.

use egui::{Color32, Context, Id, Key, Order, Popup, Stroke, StrokeKind};

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
        let focused = ctx.memory(egui::Memory::focused);
        if !Popup::is_any_open(ctx) {
            self.opener = focused;
            return;
        }
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

    /// After they were drawn: what was pressed is done, and what has the keyboard is seen.
    pub fn after(&mut self, ctx: &Context, ring: Color32) {
        // Not in the frame of a press: to ask for what has the keyboard then takes it away.
        let is_pressed = ctx.input(|i| i.pointer.any_pressed() || i.pointer.any_released());
        if Popup::is_any_open(ctx) && !is_pressed {
            let focused = ctx.memory(egui::Memory::focused).and_then(|id| ctx.read_response(id));
            if let Some(own) = focused.filter(|own| own.layer_id.order == Order::Foreground) {
                let on = ctx.layer_painter(own.layer_id);
                on.rect_stroke(own.interact_rect, 3.0, Stroke::new(2.0, ring), StrokeKind::Inside);
            }
        }
        if !std::mem::take(&mut self.leaves) {
            return;
        }
        Popup::close_all(ctx);
        if let Some(opener) = self.opener.take() {
            ctx.memory_mut(|memory| memory.request_focus(opener));
        }
    }
}
