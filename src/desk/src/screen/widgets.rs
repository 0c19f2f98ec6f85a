//! Small parts that several panels are made of.

use baywright_drawing::sign::SignKind;
use baywright_drawing::theme::Palette;
use baywright_drawing::{Theme, Weight};
use baywright_planner::words::stand_together;
use baywright_planner::{Severity, Verdict};
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{
    Align, Button, Color32, Id, Label, Layout, Painter, Pos2, Response, RichText, Sense, Stroke, StrokeKind,
    Ui, Vec2,
};

use super::look::{self, size};
use crate::session::job::Progress;

/// Paints a sign of the drawing on the screen: octagon, triangle, ring or tick, with what stands in it.
pub(super) fn paint_sign(
    on: &Painter,
    at: Pos2,
    kind: SignKind,
    reach: f32,
    text: &str,
    colours: (Color32, Color32),
) {
    let (fill, ink) = colours;
    let place = |p: baywright_planner::geometry::DVec2| at + Vec2::new(p.x as f32, p.y as f32) * reach;
    let parts = kind.parts();
    if !parts.area.is_empty() {
        let points = parts.area.iter().map(|&p| place(p)).collect();
        // The sign of what needs care is bright: it is seen by its edge.
        let edge = if kind == SignKind::Triangle { Stroke::new(1.2, ink) } else { Stroke::NONE };
        on.add(egui::Shape::convex_polygon(points, fill, edge));
    }
    if let Some(radius) = parts.disc {
        on.circle_filled(at, radius as f32 * reach, fill);
    }
    if let Some(radius) = parts.ring {
        on.circle_stroke(at, radius as f32 * reach, Stroke::new(1.6, fill));
    }
    for line in parts.lines {
        let points = line.iter().map(|&p| place(p)).collect();
        on.add(egui::Shape::line(points, Stroke::new((reach * 0.16).max(1.6), ink)));
    }
    if !text.is_empty() {
        let text_ink = if kind == SignKind::Ring { fill } else { ink };
        // Two letters, or three, fit as one does.
        let smaller = [1.18, 1.18, 0.94, 0.7].get(text.chars().count()).copied().unwrap_or(0.7);
        let font = look::letters(reach * smaller, Weight::Bold);
        let galley = on.layout_no_wrap(text.to_owned(), font, text_ink);
        let below = Vec2::new(0.0, kind.text_below() as f32 * reach);
        on.galley(at + below - galley.size() * 0.5, galley, text_ink);
    }
}

/// The colour of the sign of a severity, and of what stands on it.
pub(super) fn severity(palette: &Palette, severity: Severity) -> (Color32, Color32) {
    let (fill, on) = match severity {
        Severity::Stops => (palette.stops, palette.on_sign),
        Severity::Care => (palette.care_sign, palette.on_care),
        Severity::Note => (palette.soft, palette.on_sign),
    };
    (look::colour(fill), look::colour(on))
}

/// The colour of texts and edges of a severity.
pub(super) fn told_in(palette: &Palette, severity: Severity) -> Color32 {
    look::colour(match severity {
        Severity::Stops => palette.stops,
        Severity::Care => palette.care,
        Severity::Note => palette.soft,
    })
}

/// The colour of the sign of a verdict, and of what stands on it.
pub(super) fn verdict(palette: &Palette, verdict: Verdict) -> (Color32, Color32) {
    let (fill, on) = match verdict {
        Verdict::NotReady => (palette.stops, palette.on_sign),
        Verdict::ReadyWithCare => (palette.care_sign, palette.on_care),
        Verdict::Ready => (palette.ready, palette.on_sign),
    };
    (look::colour(fill), look::colour(on))
}

/// A sign that takes its place in a row.
pub(super) fn sign(
    ui: &mut Ui,
    kind: SignKind,
    reach: f32,
    text: &str,
    colours: (Color32, Color32),
) -> Response {
    let (rect, response) = ui.allocate_exact_size(Vec2::splat(reach * 2.4), Sense::hover());
    paint_sign(ui.painter(), rect.center(), kind, reach, text, colours);
    response
}

/// The button that does what is most likely wanted: filled with the hand's colour. One in each place.
pub(super) fn press(ui: &mut Ui, theme: Theme, text: impl Into<String>) -> Response {
    let palette = theme.palette();
    let (beam, sheet) = (look::colour(palette.beam), look::colour(palette.sheet));
    let text = RichText::new(text).font(look::bold(size::SMALL)).color(sheet);
    ui.scope(|ui| {
        let widgets = &mut ui.visuals_mut().widgets;
        // Pointed at, or with the keyboard, it has an edge that its own colour does not hide.
        let edge = Stroke::new(2.0, look::colour(palette.ink));
        (widgets.hovered.bg_stroke, widgets.active.bg_stroke) = (edge, edge);
        ui.add(Button::new(text).wrap().fill(beam))
    })
    .inner
}

/// What has no frame, or always the same one, with a ring while it has the keyboard.
pub(super) fn ringed(ui: &Ui, response: Response) -> Response {
    /// Between it and its ring, px.
    const ROOM_PX: f32 = 2.0;
    if response.has_focus() {
        let edge = Stroke::new(2.0, ui.visuals().selection.stroke.color);
        ui.painter().rect_stroke(response.rect.expand(ROOM_PX), 3.0, edge, StrokeKind::Middle);
    }
    response
}

/// The same where there are several in a list, none of them the main one: outlined.
pub(super) fn offer(ui: &mut Ui, theme: Theme, text: impl Into<String>) -> Response {
    let beam = look::colour(theme.palette().beam);
    let text = RichText::new(text).font(look::bold(size::SMALL)).color(beam);
    let response = ui.scope(|ui| {
        // By the style, which keeps room for an edge: one laid over it has the room of that of each state, and moves with it.
        let widgets = &mut ui.visuals_mut().widgets;
        for own in
            [&mut widgets.noninteractive, &mut widgets.inactive, &mut widgets.hovered, &mut widgets.active]
        {
            own.bg_stroke = Stroke::new(1.2, beam);
        }
        ui.add(Button::new(text).wrap())
    });
    ringed(ui, response.inner)
}

/// The same on a page that asks something: what loses nothing. It has the keyboard as soon as it is asked, so that Enter is enough.
pub(super) fn default_press(ui: &mut Ui, theme: Theme, text: impl Into<String>) -> Response {
    let response = press(ui, theme, text);
    if is_new(ui, response.id) {
        response.request_focus();
    }
    response
}

/// Whether a widget was not drawn in the pass before this one.
fn is_new(ui: &Ui, id: Id) -> bool {
    let (key, now) = (id.with("drawn in pass"), ui.ctx().cumulative_pass_nr());
    let before: Option<u64> = ui.data_mut(|data| {
        let before = data.get_temp(key);
        data.insert_temp(key, now);
        before
    });
    before.is_none_or(|before| before + 1 < now)
}

/// An entry of a picker that chooses a value. Opened by a key, the picker has the keyboard at what is chosen: arrows walk on from
/// there.
pub(super) fn entry<T: PartialEq>(ui: &mut Ui, chosen: &mut T, own: T, text: impl Into<egui::WidgetText>) {
    let is_chosen = *chosen == own;
    let response = ui.selectable_value(chosen, own, text.into());
    if !is_chosen {
        return;
    }
    let is_new = is_new(ui, response.id);
    if is_new && !response.clicked() && !ui.input(|i| i.pointer.any_pressed() || i.pointer.any_released()) {
        response.request_focus();
    }
}

/// Another button.
pub(super) fn lesser(ui: &mut Ui, text: impl Into<String>) -> Response {
    ui.add(Button::new(RichText::new(text).size(size::SMALL)))
}

/// A note that says more when it is pressed: underlined, behind the sign of a note; no button.
pub(super) fn note(ui: &mut Ui, text: &str, colour: Color32) -> Response {
    const REACH: f32 = 7.0;
    let galley = ui.painter().layout_no_wrap(text.to_owned(), look::bold(size::SMALL), colour);
    let beside = Vec2::new(REACH * 2.0 + 6.0, 0.0);
    let (rect, response) =
        ui.allocate_exact_size(galley.size() + beside + Vec2::new(4.0, 9.0), Sense::click());
    let left = rect.left_center() + Vec2::new(2.0, 0.0);
    // The usual sign of something to be read: a dot over a stroke in a ring. Painted: it is no word.
    let middle = left + Vec2::new(REACH, 0.0);
    ui.painter().circle_stroke(middle, REACH, Stroke::new(1.3, colour));
    ui.painter().circle_filled(middle - Vec2::new(0.0, 3.2), 1.1, colour);
    ui.painter().vline(middle.x, middle.y - 0.8..=middle.y + 3.8, Stroke::new(1.6, colour));
    let at = left + beside - Vec2::new(0.0, galley.size().y * 0.5);
    let below = at.y + galley.size().y;
    let wide = if response.hovered() { 2.0 } else { 1.0 };
    ui.painter().hline(at.x..=at.x + galley.size().x, below, Stroke::new(wide, colour));
    ui.painter().galley(at, galley, colour);
    if response.has_focus() {
        ui.painter().rect_stroke(rect, 3.0, Stroke::new(2.0, colour), egui::StrokeKind::Inside);
    }
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, text));
    response
}

/// A text that is to be wrapped: what stands together stays on one line. The library breaks even at the thin space between
/// thousands, so that it is given the one space at which it does not.
pub fn unbroken(text: impl Into<String>) -> String {
    const KEPT: char = '\u{a0}';
    let text: String = text.into();
    // Only figures stand together with anything.
    if !text.contains(|letter: char| letter.is_ascii_digit()) {
        return text;
    }
    let mut out = String::with_capacity(text.len() + 8);
    let mut before = "";
    for word in text.split(' ') {
        if !out.is_empty() {
            out.push(if stand_together(before, word) { KEPT } else { ' ' });
        }
        out.extend(word.chars().map(|own| if own == '\u{202f}' { KEPT } else { own }));
        before = word;
    }
    out
}

/// A text of lesser weight.
pub(super) fn soft(ui: &Ui, text: impl Into<String>) -> RichText {
    let colour = ui.visuals().weak_text_color();
    RichText::new(unbroken(text)).size(size::SMALL).color(colour)
}

/// A quiet text that can be pressed.
pub(super) fn link(ui: &mut Ui, theme: Theme, text: impl Into<String>) -> Response {
    let beam = look::colour(theme.palette().beam);
    let text = RichText::new(unbroken(text)).size(size::SMALL).color(beam);
    let response = ui.add(Button::new(text).frame(false).wrap());
    ringed(ui, response)
}

/// A field for a short text of a page; `led` gives it the keyboard. What is in it is chosen as a whole when the keyboard
/// comes to it, so that typing replaces it.
pub(super) fn field(ui: &mut Ui, id: Id, text: &mut String, width: f32, led: bool) -> Response {
    let before = text.clone();
    let edit = egui::TextEdit::singleline(text).id(id).desired_width(width).char_limit(120);
    let output = edit.show(ui);
    let response = output.response.response.clone();
    if led {
        response.request_focus();
    }
    // At once: the first letters may come in the next frame.
    if led || (response.gained_focus() && !response.changed()) {
        choose_all(ui, id, output.state, text);
    }
    if response.has_focus() {
        let own = InField { id, came: before, now: text.clone() };
        // Asked before the context is locked for what it keeps.
        let came_now = led || response.gained_focus();
        ui.data_mut(|data| {
            let known = data.get_temp_mut_or(in_field(), own.clone());
            let is_new = known.id != id || came_now;
            *known = if is_new { own } else { InField { now: own.now, ..known.clone() } };
        });
    }
    response
}

/// What stands in the field of a page that has the keyboard: when that came there, and now.
#[derive(Clone)]
struct InField {
    id: Id,
    came: String,
    now: String,
}

fn in_field() -> Id {
    Id::unique("in a page's field")
}

/// Whether the keyboard is in such a field in which nothing was typed, and nothing typed there was undone: there is nothing that
/// could be undone or done again in it.
pub(super) fn is_untouched(ctx: &egui::Context) -> bool {
    let focused = ctx.memory(egui::Memory::focused);
    let own: Option<InField> = ctx.data(|data| data.get_temp(in_field()));
    own.filter(|own| Some(own.id) == focused && own.came == own.now).is_some_and(|own| {
        let state = TextEditState::load(ctx, own.id).unwrap_or_default();
        let cursor = state.cursor.char_range().unwrap_or_default();
        !state.undoer().has_redo(&(cursor, own.now))
    })
}

/// Chooses the whole text of a field, so that typing replaces it.
pub(super) fn choose_all(ui: &Ui, id: Id, mut state: TextEditState, text: &str) {
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
    state.cursor.set_char_range(Some(all));
    begin_anew(ui, id, state);
}

/// What was typed in a field earlier is done with: undo leads no further back than to what stands there now.
pub(super) fn begin_anew(ui: &Ui, id: Id, mut state: TextEditState) {
    state.clear_undoer();
    state.store(ui.ctx(), id);
}

/// As much of a text in bold letters of the usual size as fits.
pub(super) fn fitted(ui: &Ui, text: &str, most: f32) -> String {
    let measure = |text: &str, _: baywright_drawing::TextStyle| {
        let font = look::bold(size::BODY);
        f64::from(ui.painter().layout_no_wrap(text.to_owned(), font, Color32::BLACK).size().x)
    };
    let style = baywright_drawing::TextStyle::new(f64::from(size::BODY), baywright_drawing::Weight::SemiBold);
    baywright_drawing::text::fitted(text, style, f64::from(most), &measure)
        .map_or_else(|| text.to_owned(), |f| f.text)
}

/// Whether a list on so much room cuts what is chosen, in small letters.
pub(super) fn is_chosen_cut(ui: &Ui, chosen: &str, width: f32) -> bool {
    /// The list's edges and its arrow.
    const BESIDE_PX: f32 = 34.0;
    let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
    let wanted = ui.painter().layout_no_wrap(chosen.to_owned(), font, Color32::BLACK).size().x;
    wanted > width - BESIDE_PX
}

/// The response of a list that shows what is chosen on so much room: where that is cut, the whole of it stands beside the pointer.
pub(super) fn whole_of_chosen(ui: &Ui, response: Response, chosen: &str, width: f32) -> Response {
    if is_chosen_cut(ui, chosen, width) { response.on_hover_text(chosen) } else { response }
}

/// The name at the left of a row, in a column of its own.
pub(super) fn name_column(ui: &mut Ui, width: f32, text: RichText) -> Response {
    let layout = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(Vec2::new(width, 22.0), layout, |ui| {
        ui.set_width(width);
        ui.add(Label::new(text).wrap())
    })
    .inner
}

/// Whether every word that is sought stands in a text, in any case.
pub(super) fn is_like(sought: &str, text: &str) -> bool {
    let text = text.to_lowercase();
    sought.to_lowercase().split_whitespace().all(|word| text.contains(word))
}

/// How far a search is, with a press that ends it: whether that was pressed.
pub(super) fn searching(ui: &mut Ui, Progress { done, all }: Progress, text: String, stop: &str) -> bool {
    let bar = egui::ProgressBar::new(done as f32 / all.max(1) as f32);
    ui.add(bar.desired_height(6.0).animate(false)).accessible_name(&text);
    let row = ui.horizontal_wrapped(|ui| {
        ui.label(soft(ui, text));
        lesser(ui, stop).clicked()
    });
    row.inner
}

/// A graph that nothing but the eye has to do with.
pub(super) fn still<'a>(id: &str, height: f32) -> egui_plot::Plot<'a> {
    egui_plot::Plot::new(id)
        .height(height)
        .show_x(false)
        .show_y(false)
        .show_grid(false)
        .show_background(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .label_formatter(|_| None)
        .sense(egui::Sense::hover())
}

/// What a graph shows, for who listens.
pub(super) fn named(response: &egui::Response, read: String) {
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &read));
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_length_is_not_broken() {
        let said = super::unbroken(
            "1\u{202f}200 mm, 5\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033} wide, 500 \u{d7} 500 mm, 30 % of 2 \u{bd}\u{2033}",
        );
        let wanted = "1\u{a0}200\u{a0}mm, 5\u{2032}\u{a0}6\u{a0}\u{b3}\u{2044}\u{2081}\u{2086}\u{2033} wide, \
                      500\u{a0}\u{d7}\u{a0}500\u{a0}mm, 30\u{a0}% of 2\u{a0}\u{bd}\u{2033}";
        assert_eq!(said, wanted);
    }

    #[test]
    fn every_word_must_be_there() {
        assert!(super::is_like("", "anything"));
        assert!(super::is_like("VAN radar", "Example van; forward radar"));
        assert!(!super::is_like("van lidar", "Example van; forward radar"));
    }
}
