//! The page of a visit's record, over the whole window: one step at a time in large letters, with what to have, what to do, what to mind
//! and the boxes to fill, the live drawing beside it. Everything that is done standing is done by the number pad: Enter does the step and
//! goes on, minus goes back, plus shows what else there is, a digit chooses.
//!
//! `parts` works out the set-ups of the visit and its steps; `boxes` and `choices` say what can be typed and chosen on what is seen;
//! `keys` turns keys into those; `apply` carries out; `seen`, `head`, `sides` and `drawn` draw.

mod apply;
mod boxes;
mod car;
mod choices;
mod drawn;
mod head;
mod keys;
mod listed;
mod papers;
mod parts;
mod proof;
mod reads;
mod seen;
mod sides;
mod strike;
mod taped;

use std::collections::VecDeque;
use std::path::PathBuf;

use baywright_files::FileFault;
use baywright_planner::model::record::{Attachment, AttachmentKind, Begun, StepId};
use baywright_planner::model::{Id, TriggerList, VisitLine};
use baywright_planner::record::VisitStep;
use egui::{Context, Rect, Ui, UiBuilder, Vec2};
use jiff::civil::DateTime;

use boxes::{Asking, BoxOf};
use keys::Pressed;
use parts::Parts;

use super::command::Command;
pub use super::of_record::{OfRecord, Side};
use super::page::Page;
use super::{Desk, look, waking};
use crate::session::job::Job;
use crate::session::visit_record::RecordInHand;
pub(in crate::screen) use proof::ProofFrom;

/// Which box gets the keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Led {
    /// The first, or what does the step where there is none or something is to be chosen first.
    First,
    /// This one.
    Box(usize),
    /// That of the distance which settles most.
    Tape,
    /// To what does the step, past its boxes.
    Next,
}

/// A record beside the layout.
#[derive(Clone, Debug)]
struct Listed {
    path: PathBuf,
    begun: Begun,
    is_closed: bool,
    people: Vec<String>,
}

/// The page, as long as the window is open.
#[derive(Default)]
pub(super) struct RecordPage {
    in_hand: Option<RecordInHand>,
    listed: Vec<Listed>,
    side: Side,
    at: Option<StepId>,
    /// Who enters.
    by: String,
    /// The tape that is read; empty while nobody said which.
    tape: String,
    /// Whether it is another one than those of the shop's list.
    is_other_tape: bool,
    /// How warm it is, °C.
    warm_c: Option<f64>,
    /// Whether the rest of the alignment sheet is seen.
    is_rest_seen: bool,
    listing: Job<Vec<Listed>>,
    /// The time that is entered; `None`: what the shop's clock says.
    clock: Option<DateTime>,
    parts: Parts,
    /// What was typed and is not entered yet.
    typed: Vec<(BoxOf, String)>,
    /// What is told beside boxes.
    told: Vec<(BoxOf, String)>,
    was_asked_to_end: bool,
    was_refused: bool,
    was_told: bool,
    led: Option<Led>,
    /// Which of the choices of what is seen was chosen and is not entered yet.
    picked: Option<usize>,
    /// Whether it is to come into sight.
    is_pick_new: bool,
    /// The distances between marks in the order in which their boxes stand, as long as one walks through them.
    tapes: Vec<(Id, Id)>,
    /// The distance that was read last, and is to be told.
    read_last: Option<(Id, Id)>,
    /// What was entered in this window, by the numbers of its entries, as far as it can be taken back; the last thing last.
    deeds: Vec<Vec<usize>>,
    /// What of it was taken back: its entries, and those that struck them out.
    undone: Vec<(Vec<usize>, Vec<usize>)>,
    /// The box that has the keyboard, and of what kind it is.
    at_box: Option<usize>,
    boxed: Option<Asking>,
    pressed: VecDeque<Pressed>,
    follows_tape: bool,
    /// What the marks prove is to come into sight.
    is_answer_led: bool,
    because: Option<(Id, Vec<VisitLine>, TriggerList)>,
    to_attach: Vec<(PathBuf, AttachmentKind)>,
    attaching: Job<Result<Attachment, FileFault>>,
    drawing: drawn::Beside,
    /// Whether there is little room, and all but the step is as small as it can be.
    is_thin: bool,
    /// Whether there is no room for a drawing beside the step, and it stands below.
    is_drawn_below: bool,
}

impl std::fmt::Debug for RecordPage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("RecordPage").field("side", &self.side).field("at", &self.at).finish_non_exhaustive()
    }
}

impl RecordPage {
    /// The step that is seen.
    fn step(&self) -> Option<&VisitStep> {
        self.parts.step(self.at.as_ref()?)
    }

    /// Another side.
    fn turn(&mut self, side: Side) {
        self.side = if self.in_hand.is_none() && side != Side::Begin { Side::Records } else { side };
        self.typed.clear();
        self.told.clear();
        self.picked = None;
        self.tapes.clear();
        (self.was_refused, self.was_told) = (false, false);
        self.at_box = None;
        self.led = Some(Led::First);
    }

    /// How many entries the record has.
    fn so_many(&self) -> usize {
        self.in_hand.as_ref().map_or(0, |own| own.record().entries.len())
    }

    /// What was entered since there were so many entries is one deed: it is taken back together. Behind what cannot be struck out nothing is.
    fn note_deed(&mut self, before: usize) {
        let Some(in_hand) = &self.in_hand else { return };
        let entered = in_hand.record().entries.get(before..).unwrap_or_default();
        if entered.is_empty() {
            return;
        }
        self.undone.clear();
        if entered.iter().all(|own| own.what.can_be_struck()) {
            self.deeds.push((before..before + entered.len()).collect());
        } else {
            self.deeds.clear();
        }
    }

    fn forget_deeds(&mut self) {
        self.deeds.clear();
        self.undone.clear();
    }

    /// Chooses in a box: it is shown, and taken as what is typed is.
    fn pick(&mut self, asking: &Asking, option: usize) {
        self.typed.retain(|(of, _)| *of != asking.of);
        self.typed.push((asking.of.clone(), option.to_string()));
    }

    /// What was chosen in a box and is not taken yet.
    fn picked_in(&self, of: &BoxOf) -> Option<usize> {
        self.typed.iter().find(|(own, _)| own == of).and_then(|(_, text)| text.parse().ok())
    }

    /// What stands in a box.
    fn text_of(&self, asking: &Asking) -> String {
        let typed = self.typed.iter().find(|(of, _)| *of == asking.of);
        typed.map_or_else(|| asking.shown.clone(), |(_, text)| text.clone())
    }

    /// Whether the keyboard is on its way to a box.
    pub(super) fn is_leading(&self) -> bool {
        self.led.is_some() || !self.pressed.is_empty()
    }
}

/// From the window's edge, and the room of its parts, px.
const EDGE_PX: f32 = 16.0;
const HEAD_PX: f32 = 74.0;
/// In large letters, or in a small window, the step has the room: the head is one line.
const THIN_HEAD_PX: f32 = 40.0;
const THICK_FROM_PX: f32 = 600.0;
const LIST_PX: f32 = 268.0;
/// Below this width there is no room for the list of steps, or for a drawing beside the step, which stands below then.
const LIST_FROM_PX: f32 = 860.0;
const DRAWN_FROM_PX: f32 = 1_000.0;
/// The drawing takes this share of what the list leaves.
const DRAWN: f32 = 0.46;

impl Desk {
    /// Whether the page of the record lies over the screen.
    pub(super) const fn is_recording(&self) -> bool {
        matches!(self.view.page(), Some(Page::Record))
    }

    /// Whether all that was entered in the record is on the disk, and nothing is worked out of it.
    pub fn is_record_saved(&self) -> bool {
        let is_attaching = self.record.attaching.is_running() || !self.record.to_attach.is_empty();
        let is_beside = is_attaching || self.record.listing.is_running();
        !is_beside && self.record.in_hand.as_ref().is_none_or(RecordInHand::is_saved)
    }

    /// Whether the answer for the whole visit is there.
    pub fn is_visit_answered(&self) -> bool {
        self.record.parts.answer().is_some()
    }

    /// All that is entered from now on is entered at this time: for pictures that are the same every day.
    pub const fn enter_at(&mut self, at: DateTime) {
        self.record.clock = Some(at);
    }

    /// The record in hand.
    pub fn record_in_hand(&self) -> Option<&baywright_planner::model::record::VisitRecord> {
        self.record.in_hand.as_ref().map(RecordInHand::record)
    }

    /// The step that is seen.
    pub const fn record_step(&self) -> Option<&StepId> {
        self.record.at.as_ref()
    }

    /// The marks of the distance whose box has the keyboard.
    pub fn record_tape(&self) -> Option<(Id, Id)> {
        self.record.at_box?;
        match &self.record.boxed.as_ref()?.of {
            BoxOf::Tape(from, to) => Some((from.clone(), to.clone())),
            _ => None,
        }
    }

    /// Where it lies.
    pub fn record_path(&self) -> Option<&std::path::Path> {
        self.record.in_hand.as_ref().map(RecordInHand::path)
    }

    /// The hash that stands for all of it.
    pub fn record_head(&self) -> Option<&str> {
        self.record.in_hand.as_ref().map(RecordInHand::head)
    }

    /// The job and the hash of the record that is open, in groups to be read off paper; empty where none is.
    pub(super) fn record_on_paper(&self) -> String {
        const GROUP: usize = 8;
        let Some(own) = &self.record.in_hand else { return String::new() };
        let head: Vec<char> = own.head().chars().collect();
        let groups: Vec<String> = head.chunks(GROUP).map(|own| own.iter().collect()).collect();
        self.texts().with(&own.record().begun.job, &groups.join(" "))
    }

    /// Takes in what came of writing and attaching, whichever page is there.
    pub(super) fn hear_record(&mut self, ctx: &Context, out: &mut Vec<Command>) {
        let wake = waking(ctx);
        let mut page = std::mem::take(&mut self.record);
        let trouble = page.in_hand.as_mut().and_then(|own| own.hear(&wake));
        self.hear_attached(&mut page, &wake, out);
        self.hear_listed(&mut page);
        if let Some(why) = trouble {
            self.say_not_written(&why);
        }
        if page.in_hand.as_ref().is_some_and(|own| own.trouble().is_some()) {
            ctx.request_repaint_after(std::time::Duration::from_secs(5));
        }
        self.record = page;
    }

    /// The whole window.
    pub(super) fn record_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let ctx = ui.ctx().clone();
        let wake = waking(&ctx);
        let mut page = std::mem::take(&mut self.record);
        if let Err(words) = self.follow_parts(&mut page, &wake) {
            self.say_wrong(self.texts().failed_beside(&words));
        }
        self.follow_tapes(&mut page);
        let palette = self.view.theme.palette();
        let ground = egui::Frame::new().fill(look::colour(palette.sheet));
        egui::CentralPanel::default().frame(ground).show(ui, |ui| {
            let all = ui.max_rect();
            page.is_thin = all.width() < LIST_FROM_PX || all.height() < THICK_FROM_PX;
            let high = if page.is_thin { THIN_HEAD_PX } else { HEAD_PX };
            let head = Rect::from_min_size(all.min, Vec2::new(all.width(), high));
            ui.painter().rect_filled(head, 0.0, look::colour(palette.panel));
            let edge = if page.is_thin { Vec2::new(10.0, 4.0) } else { Vec2::new(EDGE_PX, 8.0) };
            ui.scope_builder(UiBuilder::new().max_rect(head.shrink2(edge)), |ui| {
                if page.is_thin {
                    self.record_thin_head(ui, &page, out);
                } else {
                    self.record_head_strip(ui, &page, out);
                }
            });
            let mut body = Rect::from_min_max(egui::pos2(all.left(), head.bottom()), all.max);
            let is_wide = all.width() >= LIST_FROM_PX;
            if page.in_hand.is_some() && is_wide {
                let (list, rest) = body.split_left_right_at_x(body.left() + LIST_PX);
                ui.painter().rect_filled(list, 0.0, look::colour(palette.panel));
                ui.scope_builder(UiBuilder::new().max_rect(list.shrink(10.0)), |ui| {
                    self.record_list(ui, &page, out);
                });
                body = rest;
            }
            let draws = page.in_hand.is_some() && all.width() >= DRAWN_FROM_PX;
            page.is_drawn_below = page.in_hand.is_some() && !draws;
            if draws {
                let (rest, drawn) = body.split_left_right_at_fraction(1.0 - DRAWN);
                self.record_drawing(ui, &mut page, drawn.shrink(EDGE_PX));
                body = rest;
            }
            let edge = if page.is_thin { Vec2::new(EDGE_PX, 6.0) } else { Vec2::splat(EDGE_PX) };
            ui.scope_builder(UiBuilder::new().max_rect(body.shrink2(edge)), |ui| {
                self.record_side(ui, &mut page, out);
            });
        });
        // What was told of the last press is told until the next one.
        if !page.pressed.is_empty() && self.view.notice.as_ref().is_some_and(|own| !own.wrong) {
            self.wipe_said();
        }
        self.record_pressed(&ctx, &mut page, out);
        self.record = page;
    }
}
