//! What the keys do. A key that is typed into a field is the field's.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, angle};
use egui::{Context, Key, KeyboardShortcut, Modifiers};

use super::command::{Command, OfBay, OfCar, OfFile, OfShop, OfView};
use super::forms::field::Fields;
use super::of_record::OfRecord;
use super::page::{OpenPage, Page, SavePage};
use super::view::{Measuring, Tool, Viewing};
use crate::session::document::Document;

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

/// Steps of the arrow keys, mm: usual, with Shift, with Alt.
const STEP: f64 = 10.0;
const WIDE_STEP: f64 = 100.0;
const FINE_STEP: f64 = 1.0;

/// Keys as commands.
pub(super) fn listen(
    ctx: &Context,
    view: &Viewing,
    document: &Document,
    fields: &mut Fields,
    // What can be chosen together, and where the pointer is over the floor; `None` while something is dragged.
    hand: Option<(&[Subject], Option<DVec2>)>,
    out: &mut Vec<Command>,
) {
    let Some((all, pointer_in_bay)) = hand else { return };
    let pressed = pressing(ctx);
    // How large it all is has nothing to do with what is open.
    if pressed(Modifiers::NONE, Key::F11) {
        out.push(Command::View(OfView::FullScreen));
    }
    // The plus of many keyboards is a shifted equals sign, and egui gives either.
    let larger = [(CTRL, Key::Plus), (CTRL_SHIFT, Key::Plus), (CTRL, Key::Equals), (CTRL_SHIFT, Key::Equals)];
    if larger.into_iter().any(|(modifiers, key)| pressed(modifiers, key)) {
        out.push(Command::View(OfView::StepLetters(true)));
    }
    if pressed(CTRL, Key::Minus) {
        out.push(Command::View(OfView::StepLetters(false)));
    }
    // A menu that is open closes first.
    if egui::Popup::is_any_open(ctx) || view.menu.is_some() {
        if pressed(Modifiers::NONE, Key::Escape) {
            egui::Popup::close_all(ctx);
            out.push(Command::View(OfView::Menu(None)));
        }
        return;
    }
    if view.page().is_none_or(|page| matches!(page, Page::Cars(..))) && pressed(CTRL, Key::F) {
        out.push(Command::View(OfView::Search));
    }
    if let Some(page) = view.page() {
        // Its keys are its own, and it knows how many screens there are.
        if matches!(page, Page::Customer(_) | Page::Record) {
            return;
        }
        if *page != Page::Shop && super::widgets::is_untouched(ctx) && step(ctx, fields, &pressed).is_some() {
            out.push(Command::Tell(view.locale.language.screen().nothing_typed_here.to_owned()));
        }
        if *page == Page::Shop {
            match step(ctx, fields, &pressed) {
                Some(Step::Undo) => out.push(Command::Shop(OfShop::Undo)),
                Some(Step::Redo) => out.push(Command::Shop(OfShop::Redo)),
                None => {}
            }
        }
        if page.has_fields() {
            if fields.is_asking() && pressed(Modifiers::NONE, Key::Escape) {
                fields.put_back();
            }
            // Escape has taken the keyboard from its field: it puts back what was there, and no more.
            if fields.had_keyboard(ctx) {
                return;
            }
        }
        if !page.waits() && (pressed(Modifiers::NONE, Key::Escape) || pressed(CTRL, Key::W)) {
            out.push(Command::Page(None));
        }
        return;
    }
    if fields.is_asking() && pressed(Modifiers::NONE, Key::Escape) {
        fields.put_back();
    }
    // The more modifiers first: a shortcut with fewer would take the key as well.
    let path = || document.path().map_or_else(String::new, |path| path.display().to_string());
    if pressed(CTRL_SHIFT, Key::S) {
        out.push(Command::Page(Some(Page::Save(SavePage { path: path(), faults: Vec::new(), focus: true }))));
    }
    if pressed(CTRL, Key::S) {
        // What is in hand: the bay waits while a car is being entered.
        let is_car = document.draft().is_some();
        out.push(if is_car { Command::Car(OfCar::Keep) } else { Command::File(OfFile::Save) });
    }
    if pressed(CTRL, Key::O) {
        out.push(Command::Page(Some(Page::Open(OpenPage { focus: true, ..OpenPage::default() }))));
    }
    if pressed(CTRL, Key::N) {
        out.push(Command::File(OfFile::BeginBay));
    }
    // The window has one bay: closing that is closing the window.
    if pressed(CTRL, Key::Q) || pressed(CTRL, Key::W) {
        out.push(Command::Quit);
    }
    if pressed(Modifiers::NONE, Key::F5) {
        out.push(Command::Page(Some(Page::Customer(0))));
    }
    if pressed(CTRL, Key::P) {
        out.push(Command::Page(Some(Page::OnPaper)));
    }
    if pressed(CTRL, Key::R) {
        out.push(Command::Record(OfRecord::Lay));
    }
    if pressed(Modifiers::NONE, Key::F6) && document.draft().is_none() {
        out.push(Command::View(OfView::ToCards));
    }
    if pressed(Modifiers::NONE, Key::F7) {
        out.push(Command::Page(Some(Page::Fits)));
    }
    if pressed(Modifiers::NONE, Key::F1) {
        out.push(Command::Page(Some(Page::Help)));
    }
    match step(ctx, fields, &pressed) {
        Some(Step::Undo) => out.push(Command::Undo),
        Some(Step::Redo) => out.push(Command::Redo),
        None => {}
    }
    let typing = ctx.text_edit_focused();
    // Escape has taken the keyboard from its field already: it puts back what was there, and no more.
    let leaves_field = fields.had_keyboard(ctx) && ctx.input(|i| i.key_pressed(Key::Escape));
    if typing || leaves_field || super::forms::chosen_by_keys(ctx) {
        return;
    }
    if pressed(Modifiers::NONE, Key::M) {
        let tool = match view.tool {
            Tool::WhichSide => Tool::Measure(Measuring::default()),
            _ => Tool::WhichSide,
        };
        out.push(Command::View(OfView::Tool(tool)));
    }
    if pressed(Modifiers::NONE, Key::P) {
        out.push(Command::View(OfView::Parking));
    }
    if matches!(view.tool, Tool::Measure(_)) && pressed(Modifiers::NONE, Key::K) {
        out.push(Command::Bay(OfBay::KeepMeasured));
    }
    if pressed(Modifiers::NONE, Key::Num0) || pressed(CTRL, Key::Num0) {
        out.push(Command::View(OfView::Camera(None)));
    }
    if pressed(Modifiers::NONE, Key::Plus)
        || pressed(Modifiers::SHIFT, Key::Plus)
        || pressed(Modifiers::NONE, Key::Equals)
    {
        out.push(Command::View(OfView::Zoom(1.25)));
    }
    if pressed(Modifiers::NONE, Key::Minus) {
        out.push(Command::View(OfView::Zoom(1.0 / 1.25)));
    }
    if pressed(Modifiers::NONE, Key::Escape) {
        match view.tool {
            _ if view.sought.is_some() => out.push(Command::View(OfView::EndSearch)),
            Tool::Measure(Measuring { from: Some(_), .. }) => {
                out.push(Command::View(OfView::Tool(Tool::Measure(Measuring::default()))));
            }
            Tool::Measure(_)
            | Tool::Draw(_)
            | Tool::PickMark { .. }
            | Tool::MovePicture
            | Tool::ScalePicture { .. } => out.push(Command::View(OfView::Tool(Tool::WhichSide))),
            Tool::WhichSide => out.push(Command::View(OfView::Select(None))),
        }
    }
    clipboard(ctx, pointer_in_bay, out);
    if pressed(CTRL, Key::A) {
        out.push(Command::View(OfView::SelectAll(all.to_vec())));
    }
    if pressed(Modifiers::SHIFT, Key::F10) || pressed(Modifiers::NONE, Key::Menu) {
        out.push(Command::View(OfView::MenuByKey));
    }
    if pressed(CTRL, Key::D) {
        out.push(Command::Bay(OfBay::Copy));
    }
    if pressed(Modifiers::NONE, Key::Delete) || pressed(Modifiers::NONE, Key::Backspace) {
        out.push(Command::Bay(OfBay::Remove));
    }
    if view.selected.is_some() {
        to_fields(ctx, view, &pressed, out);
        in_hand(ctx, &pressed, out);
    }
}

/// Whether a key was pressed with just these; then it is nobody else's.
pub(super) fn pressing(ctx: &Context) -> impl Fn(Modifiers, Key) -> bool {
    |modifiers, key| ctx.input_mut(|i| i.consume_shortcut(&KeyboardShortcut::new(modifiers, key)))
}

/// What the system says of its clipboard: things go there as text and come from there.
fn clipboard(ctx: &Context, pointer_in_bay: Option<DVec2>, out: &mut Vec<Command>) {
    ctx.input(|i| {
        for event in &i.events {
            match event {
                egui::Event::Copy => out.push(Command::Bay(OfBay::Clip { cut: false })),
                egui::Event::Cut => out.push(Command::Bay(OfBay::Clip { cut: true })),
                egui::Event::Paste(text) => {
                    out.push(Command::Bay(OfBay::Paste { text: text.clone(), at: pointer_in_bay }));
                }
                _ => {}
            }
        }
    });
}

/// From what is in hand to its fields: F2 to its name; Enter where the keyboard walks over the drawing; Tab from where it was
/// chosen by a press, in the list or on the drawing.
fn to_fields(
    ctx: &Context,
    view: &Viewing,
    pressed: &impl Fn(Modifiers, Key) -> bool,
    out: &mut Vec<Command>,
) {
    let focused = ctx.memory(egui::Memory::focused);
    let in_list = focused.is_some_and(|id| super::list::is_row_in_hand(ctx, id));
    let has_name = !matches!(view.selected, Some(Subject::Car | Subject::Stand(_) | Subject::Target(_)));
    let by_tab = (focused.is_none() || in_list)
        && ctx.input(|i| i.key_pressed(Key::Tab) && i.modifiers == Modifiers::NONE);
    if by_tab {
        // The library would lead on from where the keyboard was.
        ctx.memory_mut(|memory| memory.move_focus(egui::FocusDirection::None));
    }
    let by_enter = (canvas_has_focus(ctx) && !in_list) && pressed(Modifiers::NONE, Key::Enter);
    if by_tab || by_enter || has_name && pressed(Modifiers::NONE, Key::F2) {
        out.push(Command::View(OfView::ToFields));
    }
}

/// One step of a history.
enum Step {
    Undo,
    Redo,
}

/// The step that is asked for; in a field in which something was typed the keys are the field's.
fn step(ctx: &Context, fields: &Fields, pressed: &impl Fn(Modifiers, Key) -> bool) -> Option<Step> {
    let typing = ctx.text_edit_focused() && !super::widgets::is_untouched(ctx);
    if (!typing || fields.was_never_touched(ctx)) && (pressed(CTRL_SHIFT, Key::Z) || pressed(CTRL, Key::Y)) {
        Some(Step::Redo)
    } else if (!typing || fields.is_untouched(ctx)) && pressed(CTRL, Key::Z) {
        Some(Step::Undo)
    } else {
        None
    }
}

/// Arrows move what is in hand along the paper; brackets turn it.
fn in_hand(ctx: &Context, pressed: &impl Fn(Modifiers, Key) -> bool, out: &mut Vec<Command>) {
    // A button that the keyboard has reached keeps its arrows: they lead on to the next one.
    let in_list = ctx.memory(egui::Memory::focused).is_some_and(|id| super::list::is_row_in_hand(ctx, id));
    let elsewhere = ctx.memory(|memory| memory.focused().is_some()) && !canvas_has_focus(ctx) && !in_list;
    let arrows = [
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    for (key, way) in arrows {
        for (modifiers, step) in
            [(Modifiers::SHIFT, WIDE_STEP), (Modifiers::ALT, FINE_STEP), (Modifiers::NONE, STEP)]
        {
            if !elsewhere && pressed(modifiers, key) {
                out.push(Command::Bay(OfBay::Nudge(way * step)));
            }
        }
    }
    // With Shift many keyboards write a curly bracket there, and some systems say that instead.
    let turns =
        [(Key::OpenBracket, Key::OpenCurlyBracket, 1.0), (Key::CloseBracket, Key::CloseCurlyBracket, -1.0)];
    for (key, curly, way) in turns {
        if pressed(Modifiers::SHIFT, key) || pressed(Modifiers::SHIFT, curly) {
            out.push(Command::Bay(OfBay::Turn(angle::radians(15.0 * way))));
        }
        if pressed(Modifiers::NONE, key) {
            out.push(Command::Bay(OfBay::Turn(angle::radians(way))));
        }
    }
}

fn canvas_has_focus(ctx: &Context) -> bool {
    let Some(focused) = ctx.memory(egui::Memory::focused) else { return false };
    super::canvas::is_on_canvas(ctx, focused)
}
