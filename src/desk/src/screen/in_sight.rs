//! What gets the keyboard is brought into sight. The library does that for letters typed in a field that is seen already; where
//! Enter, Tab or an arrow leads to what is scrolled away, it stays there.

use egui::style::ScrollAnimation;
use egui::{Id, Ui, Vec2};

/// As much is seen above and below what has the keyboard, px.
const BESIDE_PX: f32 = 34.0;

/// At the end of what scrolls: if the keyboard went to something in it since the last frame, that comes into sight.
pub(super) fn follow(ui: &Ui) {
    let key = Id::unique("had the keyboard").with(ui.scope_id());
    let focused = ui.memory(egui::Memory::focused);
    let before: Option<Id> = ui.data(|data| data.get_temp(key));
    if focused == before {
        return;
    }
    let Some(id) = focused else {
        ui.data_mut(|data| data.remove::<Id>(key));
        return;
    };
    // To ask where it is in the frame of a press beside it takes the keyboard away from it. Where it is not drawn yet it is looked for
    // again in the next frame, too.
    if ui.input(|i| i.pointer.any_click() || i.pointer.any_pressed() || i.pointer.any_released()) {
        return;
    }
    let Some(own) = ui.ctx().read_response(id) else { return };
    ui.data_mut(|data| data.insert_temp(key, id));
    let all = ui.min_rect();
    let is_in_it = own.layer_id == ui.layer_id() && all.contains(own.rect.center());
    let is_seen = ui.clip_rect().y_range().contains(own.rect.top())
        && ui.clip_rect().y_range().contains(own.rect.bottom());
    if is_in_it && !is_seen {
        // At once, and no further than there is something: what is on its way, or springs back, moves under the hand.
        let wanted = own.rect.expand2(Vec2::new(0.0, BESIDE_PX)).intersect(all);
        ui.scroll_to_rect_animation(wanted, None, ScrollAnimation::none());
    }
}

/// The room that a menu or a page has below what opened it, or where that is little, above it: never more than the window.
pub(super) fn menu_height(ui: &Ui) -> f32 {
    /// Edge of the window, the menu's own frame.
    const AROUND_PX: f32 = 40.0;
    let screen = ui.ctx().content_rect();
    let below = screen.bottom() - ui.cursor().top() - AROUND_PX;
    below.max(screen.height() * 0.5)
}
