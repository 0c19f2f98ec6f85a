//! What gets the keyboard is brought into sight. The library does that for letters typed in a field that is seen already; where
//! Enter, Tab or an arrow leads to what is scrolled away, it stays there.

use egui::style::ScrollAnimation;
use egui::{EventFilter, Id, Key, Modifiers, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo};

/// As much is seen above and below what has the keyboard, px.
const BESIDE_PX: f32 = 34.0;
/// What one press of an arrow scrolls, px.
const LINE_PX: f32 = 40.0;

/// Which keys scroll what is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ScrolledBy {
    /// Arrows and pages, once Tab led to it.
    Keys,
    /// The page keys besides, wherever the keyboard is: it lies over all else.
    PageKeys,
}

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

/// At the end of what scrolls and is only read, so that there is nothing in it that the keyboard could go to: where there is more of
/// it than is seen, Tab leads to the whole of it, under this name, and keys scroll it.
pub(super) fn by_keys(ui: &Ui, name: &str, keys: ScrolledBy) {
    let seen = ui.clip_rect();
    let most = (ui.min_rect().height() - seen.height()).max(0.0);
    let is_wider = ui.min_rect().width() - seen.width() >= 1.0;
    if most < 1.0 && !is_wider {
        return;
    }
    let own = ui.interact(seen, ui.scope_id().with("by keys"), Sense::focusable_noninteractive());
    own.widget_info(|| WidgetInfo::labeled(Role::ScrollView, true, name));
    let (mut by, mut aside) = (0.0, 0.0);
    if own.has_focus() {
        let edge = Stroke::new(2.0, ui.visuals().selection.stroke.color);
        ui.painter().rect_stroke(seen, 3.0, edge, StrokeKind::Inside);
        let arrows =
            EventFilter { vertical_arrows: true, horizontal_arrows: is_wider, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(own.id, arrows));
        if is_wider {
            aside = presses(ui, Key::ArrowRight, LINE_PX) - presses(ui, Key::ArrowLeft, LINE_PX);
        }
        by += presses(ui, Key::ArrowDown, LINE_PX) - presses(ui, Key::ArrowUp, LINE_PX);
        by += presses(ui, Key::End, most) - presses(ui, Key::Home, most);
    }
    if own.has_focus() || keys == ScrolledBy::PageKeys {
        let page = (seen.height() - LINE_PX).max(LINE_PX);
        by += presses(ui, Key::PageDown, page) - presses(ui, Key::PageUp, page);
    }
    if by != 0.0 || aside != 0.0 {
        ui.scroll_with_delta_animation(Vec2::new(-aside, -by), ScrollAnimation::none());
    }
}

fn presses(ui: &Ui, key: Key, px: f32) -> f32 {
    ui.input_mut(|i| i.count_and_consume_key(Modifiers::NONE, key)) as f32 * px
}

/// The room that a menu or a page has below what opened it, or where that is little, above it: never more than the window.
pub(super) fn menu_height(ui: &Ui) -> f32 {
    /// Edge of the window, the menu's own frame.
    const AROUND_PX: f32 = 40.0;
    let screen = ui.ctx().content_rect();
    let below = screen.bottom() - ui.cursor().top() - AROUND_PX;
    below.max(screen.height() * 0.5)
}
