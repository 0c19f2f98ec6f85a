//! What whoever helps needs to know: versions, display, log. No names of files or people.

use baywright_planner::words::screen::Diagnosis;

use crate::screen::Desk;

impl Desk {
    /// Everything as text.
    pub(crate) fn diagnostics(&self, ctx: &egui::Context) -> String {
        let screen = ctx.content_rect();
        let answer = self.answer();
        self.texts().diagnosis(&Diagnosis {
            version: env!("CARGO_PKG_VERSION"),
            system: [std::env::consts::OS, std::env::consts::ARCH],
            library: LIBRARY,
            window: [screen.width(), screen.height()],
            px_per_point: ctx.native_pixels_per_point().unwrap_or(1.0),
            zoom: ctx.zoom_factor(),
            generation: answer.generation,
            things: answer.arrangement.bay.things.len(),
            findings: answer.assessment.findings.len(),
            stale: answer.stale,
            log: &self.log().text(),
        })
    }
}

/// The screen library and its version, as in the workspace's manifest.
const LIBRARY: &str = "egui 0.37";
