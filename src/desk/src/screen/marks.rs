//! How the marks are laid, in order; what the tape must read between them, a box for what it did read, and what that proves.

mod behind;
mod graphs;
mod other_plans;

use baywright_drawing::LiveDimension;
use baywright_planner::edit::Edit;
use baywright_planner::entry::readings_rest_on;
use baywright_planner::model::Taken;
use baywright_planner::proof::{Doubt, NextTape, Off, Proof, StandProof, reads_at, stands};
use egui::{Color32, Grid, Label, RichText, ScrollArea, Ui};

use super::command::{Command, OfBay, OfFile};
use super::forms::field::{Fields, Row};
use super::in_sight::{self, ScrolledBy};
use super::look::{self, size};
use super::{Desk, widgets};

/// What was proven of what is shown, worked out once for each answer.
#[derive(Debug, Default)]
pub(super) struct Proven {
    of: Option<u64>,
    proof: Option<Proof>,
    /// Each target's stand.
    stands: Vec<StandProof>,
    /// Whether the figures behind the answer are shown.
    details: bool,
    /// By whom, with what, how warm: of the next readings.
    taken: Taken,
    /// Whether it is drawn how far beside their places the marks lie.
    drawn: bool,
    /// What takes longer behind the details.
    behind: behind::Behind,
}

impl Desk {
    pub(super) fn marks(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.proven.of != Some(self.answer.generation) || self.answer.stale {
            self.proven.of = Some(self.answer.generation);
            self.proven.proof = Proof::of(&self.answer.judged, &self.answer.assessment.scene);
            self.proven.stands = stands(&self.answer.judged, &self.answer.assessment.scene);
        }
        if let Err(words) = self.proven.behind.collect() {
            self.say_wrong(self.texts().failed_beside(&words));
        }
        // Enter leads from box to box, as the tape goes from mark to mark.
        let mut fields = std::mem::take(&mut self.fields).leading_on(true);
        let mut proven = std::mem::take(&mut self.proven);
        let proof = proven.proof.as_ref().filter(|own| !own.figures.is_empty());
        let is_stand_read = proven.stands.iter().any(|own| self.is_read(own));
        if let Some(proof) = proof {
            self.answer_of_tape(ui, proof);
        }
        if proof.is_some() || is_stand_read {
            let texts = self.view.locale.language;
            self.answer_of_stands(ui, &proven.stands);
            self.turns_beside(ui, proof, &proven.stands);
            let about = match is_stand_read {
                true => texts.stand().marks_and_stand,
                false => texts.proof().says_nothing_of_sensor,
            };
            ui.add(Label::new(widgets::soft(ui, about)).wrap());
            ui.separator();
        }
        ScrollArea::vertical().id_salt("marks").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 5.0;
            // Beside the bar that it is scrolled by.
            ui.set_width(ui.available_width() - 10.0);
            self.how_to_lay(ui);
            match &proven.proof {
                Some(proof) if !proof.rows.is_empty() => {
                    self.taken_by(ui, &mut fields, &mut proven.taken, out);
                    self.tapes(ui, &mut fields, (proof, &proven.taken), out);
                    self.as_laid(ui, proof, &mut proven.drawn);
                    self.behind_the_answer(ui, proof, &mut proven.details);
                    if proven.details {
                        self.behind(ui, proof, &mut proven.behind, out);
                    }
                    self.leads_to_failed(ui, out);
                }
                // Of a plan that cannot be judged it is told all the same what the tape must read.
                _ => self.must_read(ui),
            }
            self.stands(ui, &mut fields, &proven.stands, out);
            self.laid_anew(ui, out);
            ui.add_space(6.0);
            ui.add(Label::new(widgets::soft(ui, self.texts().laser_caution)).wrap());
            in_sight::by_keys(ui, &self.texts().to_scroll(self.texts().marks), ScrolledBy::Keys);
            in_sight::follow(ui);
        });
        let drawn = proven.proof.as_ref().filter(|own| proven.drawn && own.read() > 0);
        self.view.as_laid = drawn.map_or_else(Vec::new, |proof| self.drawn_as_laid(proof));
        self.proven = proven;
        self.fields = fields.leading_on(false);
    }

    /// The instructions, in order.
    fn how_to_lay(&self, ui: &mut Ui) {
        let (words, scene) = (self.words(), &self.answer.assessment.scene);
        let plan = &self.answer.judged.aiming.mark_plan;
        if plan.is_empty() {
            ui.label(widgets::soft(ui, self.texts().no_marks));
        }
        for index in 0..plan.len() {
            let text = widgets::unbroken(words.instruction(index, scene));
            ui.add(Label::new(RichText::new(text).size(size::BODY)).wrap());
        }
    }

    /// The answer, which stays in sight while one types.
    fn answer_of_tape(&self, ui: &mut Ui, proof: &Proof) {
        let (words, texts) = (self.words(), self.view.locale.language.proof());
        let palette = self.view.theme.palette();
        let said = |ui: &mut Ui, text: String, colour: Option<Color32>| {
            let text = RichText::new(widgets::unbroken(text)).font(look::bold(size::BODY));
            let text = colour.into_iter().fold(text, |text, colour| text.color(colour));
            ui.add(Label::new(text).wrap());
        };
        let first = proof.worst().filter(|_| proof.read() > 0).or_else(|| proof.figures.first());
        if let Some(figure) = first {
            use baywright_planner::proof::Said;
            let colour = match figure.said {
                Said::Inside { .. } => palette.ready,
                Said::Outside { .. } => palette.stops,
                Said::CannotSay { .. } | Said::NoFigure => palette.care,
            };
            said(ui, words.laid(figure), Some(look::colour(colour)));
            if figure.squareness_open {
                ui.add(Label::new(widgets::soft(ui, texts.squareness_open)).wrap());
            }
        }
        if let Some(doubt) = words.doubt(&proof.doubt) {
            said(ui, doubt, Some(look::colour(palette.care)));
        }
        if !matches!(proof.next, NextTape::Again { .. }) || matches!(proof.doubt, Doubt::CannotTell(_)) {
            said(ui, words.next_tape(&proof.next), None);
        }
        if proof.strange > 0 {
            ui.add(Label::new(widgets::soft(ui, texts.strange(proof.strange))).wrap());
        }
        self.car_under_the_marks(ui);
    }

    /// Each distance with what it should read and a box for what it did.
    fn tapes(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        (proof, taken): (&Proof, &Taken),
        out: &mut Vec<Command>,
    ) {
        let (words, texts) = (self.words(), self.view.locale.language.proof());
        let rests = readings_rest_on(&self.answer.judged, &self.answer.assessment.scene.readings);
        let care = look::colour(self.view.theme.palette().care);
        let small = |text: String| RichText::new(widgets::unbroken(text)).size(size::LEAST).color(care);
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            ui.label(RichText::new(self.texts().tape_must_read).font(look::bold(size::BODY)));
            ui.label(widgets::soft(ui, texts.so_many(proof.read(), proof.rows.len())));
        });
        // While a car is being entered the bay waits.
        let is_open = self.document.draft().is_none();
        let rests = rests.iter().map(Vec::as_slice).chain(std::iter::repeat(&[][..]));
        for (row, rests) in proof.rows.iter().zip(rests) {
            let locale = self.view.locale;
            let [label, mut hint] = words.tape_row(row);
            if is_open {
                let shown = row.read_mm.map_or_else(String::new, |mm| locale.length_to_type(mm));
                let read = |text: &str| match text.trim() {
                    "" => Ok(None),
                    text => self.read_length(text).map(Some),
                };
                if let Some(how) = self.how_taken(row) {
                    hint = self.view.locale.language.instruments().with_how(&hint, &how);
                }
                if let Some(read_mm) =
                    fields.row(ui, &Row { label: &label, hint: &hint, of: "tape" }, &shown, read)
                {
                    let edit = Edit::Tape {
                        from: row.from.clone(),
                        to: row.to.clone(),
                        read_mm,
                        taken: self.taken_now(taken),
                    };
                    out.push(Command::Bay(OfBay::Edit(edit)));
                }
            } else {
                ui.label(widgets::soft(ui, label));
            }
            // What stands on the tape that is in the hand, where that is not at 20 °C.
            let warm = reads_at(&self.answer.judged, row.should_mm, taken);
            let warm = warm.filter(|mm| !row.is_again() && (mm - row.should_mm).abs() >= TOLD_WARM_MM);
            if let Some(said) = warm.and_then(|mm| words.reads_warm(taken, mm)) {
                ui.add(Label::new(widgets::soft(ui, widgets::unbroken(said))).wrap());
            }
            // Beside the figure that it is about: what does not fit, and on whose account it may be another one on the floor.
            if let Some(off) = off_of(proof, row) {
                ui.add(Label::new(small(words.off_by_tape(off))).wrap());
            }
            if !rests.is_empty() {
                ui.add(Label::new(small(words.rests_on(rests))).wrap());
            }
        }
        // One window of the system at a time.
        if is_open
            && !self.files.is_open()
            && widgets::lesser(ui, texts.read_file).on_hover_text(texts.read_file_why).clicked()
        {
            out.push(Command::File(OfFile::AskTapes));
        }
        self.laid_twice(ui, proof, is_open, out);
    }

    /// Takes all away that was read of marks and stands.
    fn laid_anew(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.proof();
        let judged = &self.answer.judged;
        let is_read = !judged.marks_taped.is_empty() || !judged.stands_read.is_empty();
        if self.document.draft().is_none() && is_read {
            let button = ui.button(RichText::new(texts.lay_anew).size(size::SMALL));
            if button.on_hover_text(texts.lay_anew_why).clicked() {
                out.push(Command::Bay(OfBay::Edit(Edit::LayAnew)));
            }
        }
    }

    /// Whether to draw how the marks lie, once there is something to draw.
    fn as_laid(&self, ui: &mut Ui, proof: &Proof, drawn: &mut bool) {
        if proof.read() > 0 {
            let text = self.view.locale.language.proof().draw_as_laid(times_larger(proof));
            ui.checkbox(drawn, widgets::soft(ui, text));
        }
    }

    /// From where each mark is meant to where it lies, so many times further.
    fn drawn_as_laid(&self, proof: &Proof) -> Vec<LiveDimension> {
        let (words, bay_from_vehicle) = (self.words(), self.answer.assessment.scene.bay_from_vehicle);
        let times = times_larger(proof) as f64;
        let told = proof.marks.iter().filter(|own| own.by.length() >= SPEAKS_FROM_MM);
        told.map(|own| {
            let meant = own.at - own.by;
            LiveDimension {
                from: bay_from_vehicle * meant,
                to: bay_from_vehicle * (meant + own.by * times),
                text: words.dimension(own.by.length()),
            }
        })
        .collect()
    }

    /// The figures behind the answer, for who asks.
    fn behind_the_answer(&self, ui: &mut Ui, proof: &Proof, open: &mut bool) {
        let (words, texts) = (self.words(), self.view.locale.language.proof());
        ui.checkbox(open, widgets::soft(ui, texts.details));
        if !*open {
            return;
        }
        for figure in &proof.figures {
            ui.add(Label::new(widgets::soft(ui, words.laid(figure))).wrap());
        }
        ui.add(Label::new(widgets::soft(ui, texts.rule)).wrap());
        let number = |value: f64, places: usize| self.region().number(value, places);
        Grid::new("tests").num_columns(2).show(ui, |ui| {
            for row in proof.rows.iter().filter(|row| row.test.is_some()) {
                ui.label(widgets::soft(ui, self.texts().mark_to_mark(row.from.as_str(), row.to.as_str())));
                let test = row.test.map_or_else(String::new, |test| number(test, 2));
                ui.label(widgets::soft(ui, format!("{} {test}", texts.test)));
                ui.end_row();
            }
        });
    }

    /// What the tape must read, where nothing more can be told.
    fn must_read(&self, ui: &mut Ui) {
        let (texts, words, scene) = (self.texts(), self.words(), &self.answer.assessment.scene);
        if scene.readings.is_empty() {
            return;
        }
        ui.add_space(6.0);
        ui.label(RichText::new(texts.tape_must_read).font(look::bold(size::BODY)));
        Grid::new("readings").num_columns(2).show(ui, |ui| {
            for reading in &scene.readings {
                let marks = texts.mark_to_mark(reading.from.as_str(), reading.to.as_str());
                ui.label(RichText::new(marks).size(size::BODY));
                ui.label(RichText::new(words.length(reading.distance_mm)).font(look::bold(size::BODY)));
                ui.end_row();
            }
        });
    }
}

/// Marks that lie nearer to their places than this are not drawn beside them, mm.
const SPEAKS_FROM_MM: f64 = 0.5;
/// What a tape's warmth makes of a distance is told from here on, mm: less nobody reads.
const TOLD_WARM_MM: f64 = 0.2;
/// The furthest that one is drawn from its place, mm.
const DRAWN_MM: f64 = 800.0;

/// How many times larger it is drawn: as large as has room, in round figures.
fn times_larger(proof: &Proof) -> usize {
    let most = proof.marks.iter().map(|own| own.by.length()).fold(SPEAKS_FROM_MM, f64::max);
    let round = [100, 50, 20, 10, 5, 2];
    round.into_iter().find(|times| most * *times as f64 <= DRAWN_MM).unwrap_or(1)
}

/// What of the doubt is about this distance.
fn off_of<'a>(proof: &'a Proof, row: &baywright_planner::proof::Row) -> Option<&'a Off> {
    let all: &[Off] = match &proof.doubt {
        Doubt::Unread | Doubt::Fits => &[],
        Doubt::One(own) | Doubt::MoreThanOne(own) => std::slice::from_ref(own),
        Doubt::CannotTell(all) => all,
    };
    all.iter().find(|own| match own {
        Off::Reading { from, to, .. } => {
            (from, to) == (&row.from, &row.to) || (from, to) == (&row.to, &row.from)
        }
        Off::Apart { mark, .. } => row.is_again() && *mark == row.from,
        Off::Mark { .. } => false,
    })
}
