//! What takes longer than a frame behind the details of the marks: how sure it became reading by reading, what would help, and the
//! plan drawn again and again beside the linear law. Nothing of it is worked out before the details are open.

use baywright_planner::proof::{AfterReading, BLOCK, Checked, Gathered, Helps, Proof, ToDraw, after_each};
use egui::{Label, RichText, Ui};
use rayon::prelude::*;

use super::graphs::Look;
use super::other_plans::OtherPlans;
use crate::screen::command::Command;
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::SlowPart;
use crate::session::job::Tell;

/// What was found, of which answer.
#[derive(Debug, Default)]
pub(super) struct Behind {
    worked: SlowPart<Worked>,
    drawn: SlowPart<Option<Checked>>,
    other_plans: OtherPlans,
}

#[derive(Debug)]
struct Worked {
    course: Vec<AfterReading>,
    helps: Option<Helps>,
}

/// So many steps have a bar of their own, if their share is not less than this.
const BARS: usize = 8;
const TOLD_FROM: f64 = 0.01;

impl Behind {
    /// Takes in what came since the last frame; what failed, in whose words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.worked.collect().and(self.drawn.collect()).and(self.other_plans.collect())
    }
}

impl Desk {
    /// The graphs, what would help and the check by drawing.
    pub(super) fn behind(&self, ui: &mut Ui, proof: &Proof, behind: &mut Behind, out: &mut Vec<Command>) {
        let (words, texts) = (self.words(), self.view.locale.language.helps());
        let graphs = Look { palette: self.view.theme.palette(), locale: self.view.locale, texts };
        let wake = waking(ui.ctx());
        self.answer.work_out(&mut behind.worked, ("behind the marks", 1), &wake, |of, said, tell| Worked {
            helps: Helps::of(of, &said.scene),
            course: after_each(of, &said.scene, |_| !tell.is_stopped()),
        });
        ui.add(Label::new(widgets::soft(ui, widgets::unbroken(words.laid_with()))).wrap());
        if !proof.costs.is_empty() {
            let told = proof.costs.iter().take(BARS).take_while(|own| own.share >= TOLD_FROM).count();
            let (own, others) = proof.costs.split_at(told);
            let mut shares: Vec<(String, f64)> =
                own.iter().map(|own| (words.origin(&own.origin), own.share)).collect();
            if !others.is_empty() {
                shares.push((texts.others(others.len()), others.iter().map(|own| own.share).sum()));
            }
            graphs.shares(ui, &shares);
        }
        let tested = proof.rows.iter().filter_map(|row| Some((texts.run(&row.from, &row.to), row.test?)));
        let tested: Vec<(String, f64)> = tested.collect();
        if !tested.is_empty() {
            graphs.tests(ui, &tested);
        }
        let worked = self.answer.shown_of(&behind.worked).filter(|own| !own.is_older);
        if let (Some(worked), Some(figure)) = (&worked, proof.figures.first())
            && worked.found.course.len() > 1
        {
            graphs.course(ui, figure.of, &worked.found.course);
        }
        if let Some(helps) = worked.and_then(|own| own.found.helps.as_ref()) {
            ui.add_space(4.0);
            ui.label(RichText::new(texts.would_help).font(look::bold(size::SMALL)));
            let soft = |ui: &mut Ui, text: String| {
                ui.add(Label::new(widgets::soft(ui, widgets::unbroken(text))).wrap());
            };
            soft(ui, words.laid_now(helps));
            self.other_plans(ui, helps, &mut behind.other_plans, out);
            for own in &helps.buys {
                soft(ui, words.buys(helps, own));
            }
            if helps.base_at_wheels {
                soft(ui, texts.no_base.to_owned());
            }
        }
        // By a name of its own: what would help comes above it when it is worked out, and takes no keyboard away.
        let own = egui::UiBuilder::new().scope_id(egui::Id::unique("a plan drawn"));
        ui.scope_builder(own, |ui| self.by_drawing(ui, &mut behind.drawn));
    }

    /// The press that has it drawn, how far it is, what it came to.
    fn by_drawing(&self, ui: &mut Ui, drawn: &mut SlowPart<Option<Checked>>) {
        let (words, texts) = (self.words(), self.view.locale.language.helps());
        ui.add_space(6.0);
        if let Some(progress) = drawn.progress() {
            let times = self.region().number((progress.done * BLOCK) as f64 * 1e-3, 0);
            let stop = ui.horizontal_wrapped(|ui| {
                ui.label(widgets::soft(ui, texts.drawing(&times)));
                widgets::lesser(ui, texts.stop).clicked()
            });
            if stop.inner {
                drawn.stop();
            }
            return;
        }
        let shown = self.answer.shown_of(drawn).filter(|own| !own.is_older);
        match shown.and_then(|own| own.found.as_ref()) {
            Some(found) => {
                if !found.is_settled {
                    ui.add(Label::new(widgets::soft(ui, texts.unsettled)).wrap());
                }
                ui.add(Label::new(widgets::soft(ui, widgets::unbroken(words.checked(found)))).wrap());
            }
            None => {
                if widgets::lesser(ui, texts.draw).on_hover_text(texts.draw_why).clicked() {
                    let most = ToDraw::enough().most_blocks as usize;
                    let wake = waking(ui.ctx());
                    self.answer.work_out(drawn, ("drawing of a plan", most), &wake, |of, said, tell| {
                        ToDraw::of(of, &said.scene).and_then(|own| draw(&own, tell))
                    });
                }
            }
        }
    }
}

/// Draws until it is enough, by as many threads as there are: the blocks are taken in their order and no further than the first that is
/// enough, so that the outcome is the same by any number of them.
fn draw(own: &ToDraw, tell: &Tell<Option<Checked>>) -> Option<Checked> {
    let enough = ToDraw::enough();
    let mut gathered = Gathered::new(enough);
    let at_once = rayon::current_num_threads().max(1) as u64;
    let mut nth = 0;
    while nth < enough.most_blocks && !gathered.is_settled() && !tell.is_stopped() {
        let until = (nth + at_once).min(enough.most_blocks);
        let blocks: Vec<Vec<f64>> = (nth..until).into_par_iter().map(|nth| own.block(nth)).collect();
        for block in blocks {
            if !gathered.is_settled() {
                gathered.take(block);
            }
        }
        nth = until;
        tell.steps(nth as usize);
    }
    gathered.finish().map(|drawn| own.held_against(&drawn))
}
