//! What moves the keyboard's focus, or undoes, gets a frame of its own.
//!
//! The library moves the focus before it looks at letters, and once a frame. What came in the same frame as a Tab, an
//! Enter or a press of the pointer, before it or after, would go to the wrong field, or nowhere: it takes its turn in a
//! frame before or after. And what undo is about, the field or the work, is known once the letters before it have arrived.

use std::collections::VecDeque;

use egui::{Event, Key, Plugin, RawInput, Ui};

/// What has not had its turn.
#[derive(Debug, Default)]
pub(super) struct InTurn {
    waiting: VecDeque<Event>,
}

impl Plugin for InTurn {
    fn debug_name(&self) -> &'static str {
        "in turn"
    }

    fn input_hook(&mut self, _ctx: &egui::Context, input: &mut RawInput) {
        self.waiting.extend(input.events.drain(..));
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

fn acts_alone(event: &Event) -> bool {
    match event {
        Event::PointerButton { pressed, .. } => *pressed,
        Event::Key { key: Key::Tab | Key::Enter | Key::Escape, pressed, .. } => *pressed,
        Event::Key { key: Key::Z | Key::Y, pressed, modifiers, .. } => *pressed && modifiers.command,
        _ => false,
    }
}
