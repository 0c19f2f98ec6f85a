//! What whoever helps needs to know: versions, display, log. No names of files or people.

use crate::screen::Desk;

impl Desk {
    /// Everything as text.
    pub(crate) fn diagnostics(&self, ctx: &egui::Context) -> String {
        let screen = ctx.content_rect();
        let arrangement = &self.answer().arrangement;
        let things = arrangement.bay.things.len();
        let findings = self.answer().assessment.findings.len();
        format!(
            "Baywright {} ({} {})\nscreen library: egui {}\nwindow: {:.0} x {:.0} points, {} px per point, zoom {}\n\
             generation {}, {things} things, {findings} findings, stale: {}\n\nLog:\n{}",
            env!("CARGO_PKG_VERSION"),
            std::env::consts::OS,
            std::env::consts::ARCH,
            EGUI,
            screen.width(),
            screen.height(),
            ctx.native_pixels_per_point().unwrap_or(1.0),
            ctx.zoom_factor(),
            self.answer().generation,
            self.answer().stale,
            self.log().text(),
        )
    }
}

/// The screen library's version, as in the workspace's manifest.
const EGUI: &str = "0.37";
