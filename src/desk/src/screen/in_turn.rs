//! What moves the keyboard's focus, or undoes, gets a frame of its own.
//!
//! The library moves the focus before it looks at letters, and once a frame. What came in the same frame as a Tab, an
//! Enter, a tap of the space bar on a button or a press of the pointer, before it or after, would go to the wrong field, or
//! nowhere: it takes its turn in a frame before or after. And what undo is about, the field or the work, is known once the
//! letters before it have arrived. A press, the way of the pointer and its release are three turns too: on a slow screen all of a
//! quick drag comes in one frame, and the library takes a press with its release for no drag.

use std::collections::VecDeque;

use egui::{Event, Key, Plugin, Popup, Pos2, RawInput, Ui};

/// What has not had its turn.
#[derive(Debug, Default)]
pub(super) struct InTurn {
    waiting: VecDeque<Event>,
    /// The keyboard is on its way: nothing is handed out in the next frame.
    rests: bool,
    /// So many frames in a row nothing was, since it was on its way to what was not drawn.
    rested: u8,
    /// Where the pointer is known to be, px of the screen.
    pointer: Option<Pos2>,
}

/// It is waited for the keyboard no longer than this, frames: what it is led to may never be drawn.
const MOST_RESTS: u8 = 3;

/// Says after each frame whether the keyboard is on its way to a field of the next one: what is typed waits until it is there.
pub(super) fn wait_for_keyboard(ctx: &egui::Context, is_on_its_way: bool) {
    ctx.with_plugin(|own: &mut InTurn| {
        own.rested = if is_on_its_way { own.rested.saturating_add(1) } else { 0 };
        own.rests |= is_on_its_way && own.rested <= MOST_RESTS;
    });
}

impl InTurn {
    /// The last one in the row.
    fn take_in(&mut self, event: Event) {
        match event {
            Event::PointerMoved(at) => self.pointer = Some(at),
            // Nothing was told of the way there: without a turn of its own it would be no drag.
            Event::PointerButton { pos, pressed: false, .. } if self.pointer.replace(pos) != Some(pos) => {
                self.waiting.push_back(Event::PointerMoved(pos));
            }
            Event::PointerButton { pos, .. } => self.pointer = Some(pos),
            Event::PointerGone => self.pointer = None,
            _ => {}
        }
        self.waiting.push_back(event);
    }
}

impl Plugin for InTurn {
    fn debug_name(&self) -> &'static str {
        "in turn"
    }

    fn input_hook(&mut self, ctx: &egui::Context, input: &mut RawInput) {
        for event in input.events.drain(..) {
            self.take_in(event);
        }
        if std::mem::take(&mut self.rests) {
            return;
        }
        // In a menu arrows move the focus; elsewhere what is in hand, and whoever holds one down must not wait for it afterwards.
        let in_menu = Popup::is_any_open(ctx);
        // What it presses may lead on; in a field it types.
        let presses = !ctx.text_edit_focused();
        let acts_alone = |event: &Event| {
            acts_alone(event) || (in_menu && is_arrow(event)) || (presses && is_end_of_space(event))
        };
        let up_to = match self.waiting.iter().position(acts_alone) {
            Some(0) => 1,
            Some(at) => at,
            None => self.waiting.len(),
        };
        // A field above the one that is left is drawn before the keyboard comes to it: what is there is chosen a frame later.
        self.rests = self.waiting.front().is_some_and(leads_back);
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

fn leads_back(event: &Event) -> bool {
    matches!(event, Event::Key { key: Key::Tab, pressed: true, modifiers, .. } if modifiers.shift)
}

/// The space bar presses when it comes up.
fn is_end_of_space(event: &Event) -> bool {
    matches!(event, Event::Key { key: Key::Space, pressed: false, .. })
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
