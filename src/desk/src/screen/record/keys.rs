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
    Undo,
    Redo,
    Digit(usize),
}

/// A box by what it is of: it keeps the keyboard wherever it stands.
pub(super) fn id_of_box(of: &BoxOf) -> Id {
    let own = Id::unique("record's box");
    match of {
        BoxOf::Value(of, _) => own.with(format!("{of:?}")),
        of => own.with(format!("{of:?}")),
    }
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
            page.boxed.as_ref().filter(|own| page.at_box.is_some() && Some(id_of_box(&own.of)) == focused);
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
            // In a box of words what was typed is taken back by itself.
            if page.in_hand.is_some() && !boxed.is_some_and(super::Asking::is_text) {
                let again = Modifiers { shift: true, ..Modifiers::COMMAND };
                if pressed(again, Key::Z) || pressed(Modifiers::COMMAND, Key::Y) {
                    taken.push(Pressed::Redo);
                }
                if pressed(Modifiers::COMMAND, Key::Z) {
                    taken.push(Pressed::Undo);
                }
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
                            "+" | "*" => true,
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
                            '*' => taken.push(Pressed::Undo),
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
            Pressed::Undo => self.record_undo(page, out),
            Pressed::Redo => self.record_redo(page, out),
            // What was chosen and is not entered yet is dropped first.
            Pressed::Back | Pressed::Escape if page.picked.is_some() => page.picked = None,
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
            Pressed::Digit(digit) if self.picks_here(page, digit) => {}
            Pressed::Digit(0) if is_step => {}
            Pressed::Back | Pressed::Plus | Pressed::Escape | Pressed::Digit(0) => {
                out.push(asked(OfRecord::Side(up)));
            }
            Pressed::Digit(nth) => self.choose(page, nth - 1, out),
        }
    }

    /// Chooses one of what can be chosen on what is seen: what only leads somewhere leads there; what enters something is shown as chosen,
    /// and entered by Enter.
    pub(super) fn choose(&self, page: &mut RecordPage, nth: usize, out: &mut Vec<Command>) {
        let Some(own) = self.record_options(page).into_iter().nth(nth) else { return };
        if own.is_answer() {
            page.picked = Some(nth);
            page.is_pick_new = true;
            page.led = Some(super::Led::Next);
            let said = self.view.locale.language.record_page().chosen(own.text.trim_end_matches('.'));
            out.push(Command::Tell(said));
        } else {
            page.picked = None;
            out.extend(own.does);
        }
    }

    /// What was chosen and is not entered yet, taken: what Enter does with it.
    pub(super) fn take_picked(&self, page: &mut RecordPage) -> Option<Vec<Command>> {
        let nth = page.picked.take()?;
        self.record_options(page).into_iter().nth(nth).map(|own| own.does)
    }

    /// Chooses by a digit in the box that has the keyboard, if that is a box to choose in: it is shown as chosen, and taken by Enter or
    /// as one leaves it.
    fn picks_here(&self, page: &mut RecordPage, digit: usize) -> bool {
        let boxes = self.boxes(page);
        let Some(own) = page.at_box.and_then(|at| boxes.get(at)) else { return false };
        if page.side != Side::Step || !own.is_pick() {
            return false;
        }
        if let Some(option) = own.option_of(digit) {
            page.pick(own, option);
        }
        true
    }

    /// Takes what was typed in the box with the keyboard, so that nothing is lost by going back; whether it could be read.
    fn take_here(&self, page: &mut RecordPage, out: &mut Vec<Command>) -> bool {
        let boxes = self.boxes(page);
        let Some(own) = page.at_box.and_then(|at| boxes.get(at)) else { return true };
        if own.is_pick() {
            out.extend(self.take_pick(page, own));
            return true;
        }
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
                Some((at, own)) if own.is_pick() => {
                    out.extend(self.take_pick(page, own));
                    out.push(asked(OfRecord::LeadOn(at)));
                }
                Some((at, own)) => {
                    let text = page.text_of(own);
                    let is_new = text.trim() != own.shown.trim();
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
                    if let BoxOf::Tape(from, to) = &own.of {
                        page.typed.retain(|(of, _)| *of != own.of);
                        page.read_last = is_new.then(|| (from.clone(), to.clone()));
                    }
                    let is_before_tapes = matches!(own.of, BoxOf::Warm);
                    out.push(asked(if (is_tape && is_new) || is_before_tapes {
                        OfRecord::NextTape
                    } else {
                        OfRecord::LeadOn(at)
                    }));
                }
                None => out.extend(self.on_from_here(page)),
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
            | Side::Strike(_)
            | Side::Reopen
            | Side::Who => {
                if let Some(does) = self.take_picked(page) {
                    out.extend(does);
                    return;
                }
                let text = here.map(|(_, own)| page.text_of(own)).unwrap_or_default();
                let text = text.trim();
                let done = match (text.is_empty(), &page.side) {
                    (true, _) => None,
                    (false, Side::Who) => Some(vec![asked(OfRecord::By(text.to_owned()))]),
                    (false, _) => self.because(page, text),
                };
                let texts = self.view.locale.language.record_page();
                let nothing = match page.side {
                    Side::Who => asked(OfRecord::Side(Side::Step)),
                    // Enter without a reason does nothing: it would go on from what was to be done for one.
                    _ => Command::Tell(texts.choose_first.to_owned()),
                };
                out.extend(done.unwrap_or_else(|| vec![nothing]));
            }
            Side::More | Side::Findings | Side::Papers | Side::WholeVisit | Side::Entries | Side::Close => {
                let does = self.take_picked(page);
                out.extend(does.unwrap_or_else(|| vec![asked(OfRecord::Side(Side::Step))]));
            }
        }
    }

    /// What goes on from a step without a box: what was chosen is entered; else, where something can be chosen, the first empty box is next;
    /// else the step is done.
    pub(super) fn on_from_here(&self, page: &mut RecordPage) -> Vec<Command> {
        if let Some(does) = self.take_picked(page) {
            return does;
        }
        let is_answered = self.record_options(page).iter().any(super::choices::Choice::is_answer);
        vec![Command::Record(if is_answered { OfRecord::Onward } else { OfRecord::Done })]
    }
}
