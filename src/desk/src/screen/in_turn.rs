//! What moves the keyboard's focus, or undoes, gets a frame of its own.
//!
//! The library moves the focus before it looks at letters, and once a frame. What came in the same frame as a Tab, an
//! Enter or a press of the pointer, before it or after, would go to the wrong field, or nowhere: it takes its turn in a
//! frame before or after. And what undo is about, the field or the work, is known once the letters before it have arrived.

use std::collections::VecDeque;

use egui::{Event, Key, Plugin, Popup, RawInput, Ui};

/// What has not had its turn.
#[derive(Debug, Default)]
pub(super) struct InTurn {
    waiting: VecDeque<Event>,
}

impl Plugin for InTurn {
    fn debug_name(&self) -> &'static str {
        "in turn"
    }

    fn input_hook(&mut self, ctx: &egui::Context, input: &mut RawInput) {
        self.waiting.extend(input.events.drain(..));
        // In a menu arrows move the focus; elsewhere what is in hand, and whoever holds one down must not wait for it afterwards.
        let in_menu = Popup::is_any_open(ctx);
        let acts_alone = |event: &Event| acts_alone(event) || (in_menu && is_arrow(event));
        let up_to = match self.waiting.iter().position(acts_alone) {
            Some(0) => 1,
            Some(at) => at,
            None => self.waiting.len(),
        };
        input.events.extend(self.waiting.drain(..up_to));
    }

    fn on_end_pass(&mut self, ui: &mut Ui) {
        if !self.waiting.is_empty() {
            ui.ctx().request_repaint();
        }
    }
}

fn is_arrow(event: &Event) -> bool {
    matches!(
        event,
        Event::Key {
            key: Key::ArrowUp | Key::ArrowDown | Key::ArrowLeft | Key::ArrowRight,
            pressed: true,
            ..
        }
    )
}

fn acts_alone(event: &Event) -> bool {
    match event {
        // Let go, a menu opens: what is typed after that is the menu's.
        Event::PointerButton { .. } => true,
        Event::Key { key: Key::Tab | Key::Enter | Key::Escape, pressed, .. } => *pressed,
        Event::Key { key: Key::Z | Key::Y, pressed, modifiers, .. } => *pressed && modifiers.command,
        _ => false,
    }
}
