//! A fault of the program in one frame: the work is written beside, the person is told where, and may go on.

use baywright_files::FileFault;
use egui::{CentralPanel, Frame, Label, Margin, RichText, Ui};

use super::{Desk, look, widgets};
use crate::session::caught::caught;

/// Catches faults at the frame's edge.
#[derive(Debug, Default)]
pub struct Rescue {
    fault: Option<Fault>,
}

#[derive(Debug)]
struct Fault {
    words: String,
    /// Where a copy of the work lies, or why there is none.
    kept: Result<std::path::PathBuf, Vec<FileFault>>,
}

impl Rescue {
    /// One frame of the desk, or the page that a fault leads to.
    pub fn frame(&mut self, desk: &mut Desk, ui: &mut Ui) {
        self.guard(desk, ui, Desk::frame);
    }

    /// The same with something else drawn: for tests of what happens when it fails.
    pub fn guard(&mut self, desk: &mut Desk, ui: &mut Ui, draw: impl FnOnce(&mut Desk, &mut Ui)) {
        if self.fault.is_some() {
            self.page(desk, ui);
            return;
        }
        let Err(words) = caught(|| draw(desk, ui)) else { return };
        desk.log.push(&words);
        // What was shown while the hand moved may be what brought the fault: it is dropped.
        desk.document.abandon();
        let aside = desk.home.as_ref().map(|home| home.join("kept-after-a-fault"));
        let kept = baywright_files::save_aside(aside.as_deref(), desk.document.layout());
        self.fault = Some(Fault { words, kept });
        ui.ctx().request_repaint();
    }

    /// Whether a fault was met and is still shown.
    pub const fn is_shown(&self) -> bool {
        self.fault.is_some()
    }

    fn page(&mut self, desk: &mut Desk, ui: &mut Ui) {
        let Some(fault) = &self.fault else { return };
        let texts = desk.texts();
        let mut on = false;
        let frame = Frame::new().fill(ui.visuals().panel_fill).inner_margin(Margin::same(40));
        CentralPanel::default().frame(frame).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 10.0;
            ui.label(
                RichText::new(texts.fault_title).font(look::letters(26.0, baywright_drawing::Weight::Bold)),
            );
            ui.add(Label::new(texts.fault_why).wrap());
            let kept = match &fault.kept {
                Ok(path) => texts.kept_at(&path.display().to_string()),
                Err(faults) => texts.not_kept(&desk.sentences(faults).join(" ")),
            };
            ui.add(Label::new(RichText::new(kept).font(look::bold(15.0))).wrap());
            ui.add(Label::new(widgets::soft(ui, &fault.words)).wrap());
            ui.horizontal(|ui| {
                on = widgets::press(ui, desk.view.theme, texts.go_on).clicked();
                if widgets::lesser(ui, texts.copy_diagnostics).clicked() {
                    let text = desk.diagnostics(ui.ctx());
                    ui.ctx().copy_text(text);
                }
            });
        });
        if on {
            self.fault = None;
            desk.start_over();
            ui.ctx().request_repaint();
        }
    }
}
