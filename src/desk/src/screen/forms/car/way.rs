//! The way to a section of the long form, until it is there.

use egui::{Align, Ui};

/// The way to a section, until it is there.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Way {
    pub(super) to: String,
    pub(super) within: Vec<String>,
}

/// Where the way is kept while it is gone.
pub(super) fn kept() -> egui::Id {
    egui::Id::unique("way to a section of the form")
}

/// Whether a section is to be open now, since it is led to or lies on the way.
pub(super) fn opens(ui: &Ui, key: &str) -> bool {
    let way: Option<Way> = ui.data(|data| data.get_temp(kept()));
    way.is_some_and(|way| way.to == key || way.within.iter().any(|own| own == key))
}

/// Brings what is drawn next into sight, if it is the section that is led to.
pub(super) fn arrive(ui: &Ui, key: &str) {
    let way: Option<Way> = ui.data(|data| data.get_temp(kept()));
    if way.is_some_and(|way| way.to == key) {
        ui.scroll_to_cursor(Some(Align::TOP));
        ui.data_mut(|data| data.remove_temp::<Way>(kept()));
        // What was unfolded in this frame is seen in the next.
        ui.ctx().request_repaint();
    }
}
