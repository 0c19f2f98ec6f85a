//! The keys of the page. In a box of figures all but plus, and minus where nothing was typed, are the box's; in a box of words all are.

use egui::{Context, Event, Id, Key, Modifiers};

use super::boxes::BoxOf;
use super::{OfRecord, RecordPage, Side};
use crate::screen::Desk;
use crate::screen::command::Command;
use crate::screen::keys::pressing;

/// Something that was pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pressed {
    Enter,
    Back,
    Plus,
    Escape,
    Print,
    Digit(usize),
}

/// The box of this number.
pub(super) fn id_of_box(at: usize) -> Id {
    Id::unique("record's box").with(at)
}

/// What does the step.
pub(super) fn id_of_next() -> Id {
    Id::unique("record's next")
}

impl Desk {
    /// Before anything is drawn: keys that are the page's are taken out of what the boxes are given.
    pub(in crate::screen) fn record_listen(&mut self, ctx: &Context) {
        let page = &mut self.record;
        let focused = ctx.memory(egui::Memory::focused);
        let boxed =
            page.boxed.as_ref().filter(|_| page.at_box.is_some_and(|at| Some(id_of_box(at)) == focused));
        let mut taken: Vec<Pressed> = Vec::new();
        {
            let pressed = pressing(ctx);
            // The more modifiers first: a shortcut with fewer would take the key as well.
            if pressed(Modifiers::SHIFT, Key::Enter) || pressed(Modifiers::NONE, Key::PageUp) {
                taken.push(Pressed::Back);
            }
            let is_ours = focused.is_none() || boxed.is_some() || focused == Some(id_of_next());
            if is_ours && pressed(Modifiers::NONE, Key::Enter) {
                taken.push(Pressed::Enter);
            }
            if pressed(Modifiers::NONE, Key::Escape) || pressed(Modifiers::COMMAND, Key::W) {
                taken.push(Pressed::Escape);
            }
            if page.in_hand.is_some() && pressed(Modifiers::COMMAND, Key::P) {
                taken.push(Pressed::Print);
            }
        }
        if !boxed.is_some_and(super::Asking::is_text) {
            let in_figures = boxed.is_some_and(|own| !own.is_pick());
            let is_signed = boxed.is_some_and(super::Asking::is_signed);
            let is_typed = boxed.is_some_and(|own| page.typed.iter().any(|(of, _)| *of == own.of));
            ctx.input_mut(|input| {
                let (mut is_out, mut is_typed) = (!in_figures, is_typed);
                input.events.retain(|event| {
                    let Event::Text(text) = event else { return true };
                    if !is_out {
                        is_out = match text.as_str() {
                            "+" => true,
                            "-" | "\u{2212}" => !is_signed && !is_typed,
                            _ => false,
                        };
                        if !is_out {
                            is_typed = true;
                            return true;
                        }
                    }
                    for letter in text.chars() {
                        match letter {
                            '+' => taken.push(Pressed::Plus),
                            '-' | '\u{2212}' => taken.push(Pressed::Back),
                            _ => taken.extend(letter.to_digit(10).map(|own| Pressed::Digit(own as usize))),
                        }
                    }
                    false
                });
            });
        }
        page.pressed.extend(taken);
    }

    /// After all was drawn, so that what was typed in this frame stands in its box: one key a frame, for what it does may change what the
    /// next one means.
    pub(super) fn record_pressed(&self, ctx: &Context, page: &mut RecordPage, out: &mut Vec<Command>) {
        let Some(pressed) = page.pressed.pop_front() else { return };
        if !page.pressed.is_empty() {
            ctx.request_repaint();
        }
        let asked = |asked: OfRecord| Command::Record(asked);
        let is_step = page.side == Side::Step;
        let up = if page.in_hand.is_some() { Side::Step } else { Side::Records };
        match pressed {
            Pressed::Enter => self.record_entered(page, out),
            Pressed::Print => out.push(asked(OfRecord::Print)),
            Pressed::Back if is_step => {
                if self.take_here(page, out) {
                    out.push(asked(OfRecord::Back));
                }
            }
            Pressed::Plus if is_step => out.push(asked(OfRecord::Side(Side::More))),
            Pressed::Escape if !page.typed.is_empty() => {
                page.typed.clear();
                page.told.clear();
            }
            Pressed::Escape if matches!(page.side, Side::Step | Side::Records) => {
                out.push(Command::Page(None))
            }
            Pressed::Digit(digit) if self.picks_here(page, digit, out) => {}
            Pressed::Digit(0) if is_step => {}
            Pressed::Back | Pressed::Plus | Pressed::Escape | Pressed::Digit(0) => {
                out.push(asked(OfRecord::Side(up)));
            }
            Pressed::Digit(nth) => {
                out.extend(
                    self.record_options(page)
                        .into_iter()
                        .nth(nth - 1)
                        .map(|own| own.does)
                        .unwrap_or_default(),
                );
            }
        }
    }

    /// Chooses by a digit in the box that has the keyboard, if that is a box to choose in, and leads on.
    fn picks_here(&self, page: &RecordPage, digit: usize, out: &mut Vec<Command>) -> bool {
        let boxes = self.boxes(page);
        let Some((at, own)) = page.at_box.and_then(|at| Some((at, boxes.get(at)?))) else { return false };
        if page.side != Side::Step || !own.is_pick() {
            return false;
        }
        if let Some(option) = own.option_of(digit) {
            out.extend(self.choose_in(page, own, option));
            out.push(Command::Record(OfRecord::LeadOn(at)));
        }
        true
    }

    /// Takes what was typed in the box with the keyboard, so that nothing is lost by going back; whether it could be read.
    fn take_here(&self, page: &mut RecordPage, out: &mut Vec<Command>) -> bool {
        let boxes = self.boxes(page);
        let Some(own) = page.at_box.and_then(|at| boxes.get(at)).filter(|own| !own.is_pick()) else {
            return true;
        };
        let text = page.text_of(own);
        if text.trim() == own.shown.trim() {
            return true;
        }
        match self.take_box(page, own, &text) {
            Ok(commands) => out.extend(commands),
            Err(said) => {
                page.told.retain(|(of, _)| *of != own.of);
                page.told.push((own.of.clone(), said));
                return false;
            }
        }
        true
    }

    fn record_entered(&self, page: &mut RecordPage, out: &mut Vec<Command>) {
        let asked = |asked: OfRecord| Command::Record(asked);
        let boxes = self.boxes(page);
        let here = page.at_box.and_then(|at| Some((at, boxes.get(at)?)));
        match page.side {
            Side::Step => match here {
                Some((at, own)) => {
                    let text = page.text_of(own);
                    let is_new = !own.is_pick() && text.trim() != own.shown.trim();
                    let taken = if is_new { self.take_box(page, own, &text) } else { Ok(Vec::new()) };
                    match taken {
                        Ok(commands) => out.extend(commands),
                        Err(said) => {
                            page.told.retain(|(of, _)| *of != own.of);
                            page.told.push((own.of.clone(), said));
                            page.led = Some(super::Led::Box(at));
                            return;
                        }
                    }
                    let is_tape = matches!(own.of, BoxOf::Tape(..));
                    if is_tape {
                        page.typed.retain(|(of, _)| *of != own.of);
                    }
                    let is_before_tapes = matches!(own.of, BoxOf::Warm);
                    out.push(asked(if (is_tape && is_new) || is_before_tapes {
                        OfRecord::NextTape
                    } else {
                        OfRecord::LeadOn(at)
                    }));
                }
                None => out.push(asked(OfRecord::Done)),
            },
            Side::Begin => out.push(asked(match here {
                Some((at, _)) if at + 1 < boxes.len() => OfRecord::Lead(at + 1),
                _ => OfRecord::Begin,
            })),
            Side::Records => {
                let first = self.record_options(page).into_iter().next();
                out.extend(first.map(|own| own.does).unwrap_or_default());
            }
            Side::WhyNot
            | Side::LeftOut
            | Side::Although(_)
            | Side::Accept(..)
            | Side::Withdraw(_)
            | Side::Reopen
            | Side::Who => {
                let text = here.map(|(_, own)| page.text_of(own)).unwrap_or_default();
                let text = text.trim();
                let done = match (text.is_empty(), &page.side) {
                    (true, _) => None,
                    (false, Side::Who) => Some(vec![asked(OfRecord::By(text.to_owned()))]),
                    (false, _) => self.because(page, text),
                };
                out.extend(done.unwrap_or_else(|| vec![asked(OfRecord::Side(Side::Step))]));
            }
            Side::More | Side::Findings | Side::Papers | Side::WholeVisit | Side::Entries | Side::Close => {
                out.push(asked(OfRecord::Side(Side::Step)));
            }
        }
    }
}
