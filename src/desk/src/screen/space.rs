//! The space bar: tapped, it presses what has the keyboard; held while the pointer is pressed, it moves the paper.
//!
//! Which of the two is known when it comes up again, so until then nothing else hears of it. In a field it types.

use egui::{Context, Event, Key, Modifiers, Plugin, RawInput};

/// What the space bar is doing.
#[derive(Debug, Default)]
pub(super) struct SpaceBar {
    held: bool,
    /// The pointer was pressed while it was held.
    used: bool,
    /// Whether it was held when the pointer was pressed last.
    at_press: bool,
}

impl Plugin for SpaceBar {
    fn debug_name(&self) -> &'static str {
        "space bar"
    }

    fn input_hook(&mut self, ctx: &Context, input: &mut RawInput) {
        let mut heard = Vec::with_capacity(input.events.len());
        for event in input.events.drain(..) {
            match &event {
                Event::Key { key: Key::Space, pressed: true, repeat, modifiers: Modifiers::NONE, .. }
                    if self.held || !repeat && !ctx.text_edit_focused() =>
                {
                    self.used &= self.held;
                    self.held = true;
                    continue;
                }
                Event::Key { key: Key::Space, pressed: false, physical_key, .. } if self.held => {
                    self.held = false;
                    if !self.used {
                        heard.push(Event::Key {
                            key: Key::Space,
                            physical_key: *physical_key,
                            pressed: true,
                            repeat: false,
                            modifiers: Modifiers::NONE,
                        });
                    }
                }
                Event::PointerButton { pressed: true, .. } => {
                    self.used |= self.held;
                    self.at_press = self.held;
                }
                // It may come up while another window has the keyboard.
                Event::WindowFocused(false) => self.held = false,
                _ => {}
            }
            heard.push(event);
        }
        input.events = heard;
    }
}

/// Whether it is held, and not to type.
pub(super) fn is_held(ctx: &Context) -> bool {
    ctx.with_plugin(|space: &mut SpaceBar| space.held).unwrap_or(false)
}

/// Whether it was held when the pointer was pressed last: the press is the paper's, whatever is under it.
pub(super) fn was_held_at_press(ctx: &Context) -> bool {
    ctx.with_plugin(|space: &mut SpaceBar| space.at_press).unwrap_or(false)
}
