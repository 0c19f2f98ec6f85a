//! How far the sensor's own screws turn it, beside what is out; nothing where its profile has none.

use baywright_planner::proof::{FigureOf, Proof, StandOf, StandProof};
use baywright_planner::words::screws::OutBy;
use egui::{Label, Ui};

use super::{Desk, widgets};

/// What is shown as none at all is no error: half of a hundredth of a degree.
const SEEN_RAD: f64 = 0.005 * std::f64::consts::PI / 180.0;

impl Desk {
    /// Beside the answer of the marks and stands, once something was read: in the directions in which it says an error.
    pub(super) fn turns_beside(&self, ui: &mut Ui, proof: Option<&Proof>, stands: &[StandProof]) {
        let figures = proof.filter(|own| own.read() > 0).into_iter().flat_map(|own| &own.figures);
        let is_aimed_aside =
            figures.into_iter().any(|own| own.of == FigureOf::Direction && own.off.abs() >= SEEN_RAD);
        let read = stands.iter().filter(|own| self.is_read(own)).flat_map(|own| &own.figures);
        let off: Vec<StandOf> = read.filter(|own| own.off != 0.0).map(|own| own.of).collect();
        let is_turned = off.contains(&StandOf::Turn);
        let is_up = off.iter().any(|own| matches!(own, StandOf::UpDown | StandOf::Height | StandOf::Tip));
        let out =
            OutBy { sideways: (is_aimed_aside || is_turned).then_some(None), upright: is_up.then_some(None) };
        if let Some(turns) = self.words().turns(out) {
            self.said_softly(ui, self.view.locale.language.screws().put_right_there);
            self.said_softly(ui, &turns);
        }
    }

    /// On the page of a routine that failed, for what it said.
    pub(super) fn turns_for(&self, ui: &mut Ui, out: OutBy) {
        if let Some(turns) = self.words().turns(out) {
            ui.add_space(4.0);
            self.said_softly(ui, &turns);
        }
    }

    fn said_softly(&self, ui: &mut Ui, text: &str) {
        ui.add(Label::new(widgets::soft(ui, widgets::unbroken(text))).wrap());
    }
}
