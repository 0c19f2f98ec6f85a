//! The row that has the keyboard keeps still: what is said of other rows pushes the form, never the row that is being typed in.

use egui::scroll_area::ScrollAreaOutput;
use egui::{Context, Id, ScrollArea};

/// Less than this is no move, px.
const STILL_PX: f32 = 0.5;

/// Where the row with the keyboard was.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Row {
    id: Id,
    /// Its upper edge on the screen, px.
    top: f32,
    /// Where the form began then, px. How far it is scrolled is no measure: a scroll that is on its way is counted there before
    /// it is drawn.
    beginning: f32,
}

fn of_row() -> Id {
    Id::unique("row with the keyboard")
}

fn of_offset() -> Id {
    Id::unique("offset that keeps that row still")
}

/// The form's area, scrolled so that the row with the keyboard is where it was.
pub(in crate::screen) fn area(ctx: &Context, area: ScrollArea) -> ScrollArea {
    match ctx.data_mut(|data| data.remove_temp::<f32>(of_offset())) {
        Some(offset) => area.vertical_scroll_offset(offset),
        None => area,
    }
}

/// In the next frame the form is seen from its beginning.
pub(super) fn to_beginning(ctx: &Context) {
    ctx.data_mut(|data| data.insert_temp(of_offset(), 0.0_f32));
    ctx.request_repaint();
}

/// After the form was drawn, from `beginning` on the screen: if its row with the keyboard moved and nobody scrolled, the form is drawn
/// again in the same frame, scrolled by as much.
pub(in crate::screen) fn keep_still<R>(ctx: &Context, form: &ScrollAreaOutput<R>, beginning: f32) {
    let offset = form.state.unclamped_offset().y;
    let focused = ctx.memory(egui::Memory::focused);
    let now = focused.and_then(|id| Some(Row { id, top: ctx.read_response(id)?.rect.top(), beginning }));
    let before: Option<Row> = ctx.data(|data| data.get_temp(of_row()));
    let moved = now.zip(before).filter(|(now, before)| {
        now.id == before.id
            && (now.beginning - before.beginning).abs() < STILL_PX
            && (now.top - before.top).abs() > STILL_PX
    });
    let kept = match moved {
        // It cannot be scrolled further back than to its beginning.
        Some((now, before)) if offset + now.top - before.top >= 0.0 => {
            let wanted = offset + now.top - before.top;
            ctx.data_mut(|data| data.insert_temp(of_offset(), wanted));
            ctx.request_discard("a message pushed the row that is being typed in");
            Some(Row { beginning: now.beginning - (now.top - before.top), ..before })
        }
        _ => now,
    };
    ctx.data_mut(|data| match kept {
        Some(kept) => {
            data.insert_temp(of_row(), kept);
        }
        None => data.remove::<Row>(of_row()),
    });
}
