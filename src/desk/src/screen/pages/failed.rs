//! The maker's routine failed: what it said is typed, what here could explain it is ranked, and one check comes first.

use std::sync::Arc;

use baywright_planner::failed::{
    Explained, Looked, RoutineSaid, Suspect, ToCheck, Unexplained, Way, Whose, explain_while, may_fail_at,
};
use baywright_planner::geometry::angle;
use baywright_planner::words::failed::FailedTexts;
use baywright_planner::words::screws::OutBy;
use egui::{Button, Id, Label, Response, RichText, Ui};

use crate::screen::command::{Command, OfView};
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::page::{FailedPage, Page};
use crate::screen::view::Tab;
use crate::screen::{Desk, waking, widgets};
use crate::session::slow::{Shown, Slow};

/// Of what it was weighed: which answer, what the routine said, what was looked at.
type WeighedOf = (u64, RoutineSaid, Vec<Looked>);

/// What came of weighing, off the frame.
#[derive(Debug, Default)]
pub(in crate::screen) struct Weighed(Slow<WeighedOf, Result<Explained, Unexplained>>);

/// What is less likely than this is not listed.
const LISTED_FROM: f64 = 0.03;

impl Desk {
    /// The press that leads here.
    pub(in crate::screen) fn leads_to_failed(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.failed();
        if widgets::lesser(ui, texts.ask).on_hover_text(texts.ask_why).clicked() {
            out.push(Command::Page(Some(self.routine_failed())));
        }
    }

    /// The page, with what was typed of this set-up before a tape was fetched.
    pub(in crate::screen) fn routine_failed(&self) -> Page {
        let of = self.answer.arrangement.id.clone();
        let begun = self.view.routine_said.clone().filter(|own| own.of.as_ref() == Some(&of));
        Page::Failed(begun.unwrap_or_else(|| Box::new(FailedPage { of: Some(of), ..FailedPage::default() })))
    }

    pub(super) fn failed_page(&mut self, ui: &mut Ui, page: &mut FailedPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.failed();
        let soft = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(widgets::soft(ui, widgets::unbroken(text))).wrap());
        };
        soft(ui, texts.intro);
        ui.add_space(6.0);
        let mut fields = std::mem::take(&mut self.fields).leading_on(true);
        self.said_rows(ui, &mut fields, &mut page.said);
        ui.add_space(4.0);
        ui.separator();
        self.turns_for(ui, said_out(&page.said));
        self.weigh(ui, page);
        let mut looked = page.looked.clone();
        let key = self.weighed_of(page);
        match self.weighed.0.shown(&key) {
            None => soft(ui, texts.weighing),
            Some(Shown { found, is_older }) => {
                if is_older {
                    soft(ui, texts.of_before);
                }
                match found {
                    Ok(found) => self.explained(ui, &mut fields, found, &mut looked, out),
                    Err(why) => {
                        let text = RichText::new(texts.unexplained(*why)).font(look::bold(size::BODY));
                        ui.add(Label::new(text).wrap());
                    }
                }
            }
        }
        page.looked = looked;
        self.fields = fields.leading_on(false);
        ui.add_space(6.0);
        soft(ui, texts.not_weighed);
    }

    /// What is weighed is of an answer, of what was said and of what was looked at.
    fn weighed_of(&self, page: &FailedPage) -> WeighedOf {
        (self.answer.generation, page.said, page.looked.clone())
    }

    /// Has it weighed off the frame, unless it is or is being.
    fn weigh(&mut self, ui: &Ui, page: &FailedPage) {
        let key = self.weighed_of(page);
        let (judged, assessment) = (Arc::clone(&self.answer.judged), Arc::clone(&self.answer.assessment));
        let (said, looked) = (page.said, page.looked.clone());
        self.weighed.0.ask(key, ("why a routine failed", 1), &waking(ui.ctx()), move |tell| {
            explain_while(&judged, &assessment.scene, &said, &looked, &|| !tell.is_stopped())
        });
        if let Err(words) = self.weighed.0.collect() {
            self.say_wrong(words);
        }
    }

    /// What was weighed last of the page that is shown, and whether it is of something else than what stands there now.
    pub fn weighed(&self) -> Option<(&Result<Explained, Unexplained>, bool)> {
        let Some(Page::Failed(page)) = self.view.page() else { return None };
        let shown = self.weighed.0.shown(&self.weighed_of(page))?;
        Some((shown.found, shown.is_older))
    }

    /// What the routine said: whose way, which way and how far, its limit.
    fn said_rows(&self, ui: &mut Ui, fields: &mut Fields, said: &mut RoutineSaid) {
        let texts = self.view.locale.language.failed();
        ui.horizontal_wrapped(|ui| {
            named(ui, texts.whose);
            for whose in [Whose::Sensor, Whose::Target] {
                let is = said.whose == Some(whose);
                if choice(ui, is, texts.whose_of(whose)).clicked() {
                    said.whose = (!is).then_some(whose);
                }
            }
        });
        self.at_row(ui, texts, said);
        self.way_rows(ui, fields, texts, false, &mut said.sideways);
        self.way_rows(ui, fields, texts, true, &mut said.upright);
        let shown = said.limit_rad.map_or_else(String::new, |own| self.degrees_to_type(own));
        let hint = texts.limit_why;
        let row = Row { label: texts.limit, hint, of: "routine" };
        if let Some(typed) = fields.row(ui, &row, &shown, |text| self.read_turn(text)) {
            said.limit_rad = typed;
        }
        soft_hint(ui, hint);
    }

    /// At which target it failed, where there are several.
    fn at_row(&self, ui: &mut Ui, texts: &FailedTexts, said: &mut RoutineSaid) {
        let judged = &self.answer.judged;
        let all = may_fail_at(judged);
        if all.len() < 2 {
            said.at = None;
            return;
        }
        ui.horizontal_wrapped(|ui| {
            named(ui, texts.failed_at);
            let mut row = |name: &str, own: Option<usize>| {
                let chosen = choice(ui, said.at == own, name);
                if chosen.accessible_name(self.texts().with(texts.failed_at, name)).clicked() {
                    said.at = own;
                }
            };
            row(texts.not_said, None);
            for nth in all {
                let id = judged.aiming.placements.get(nth).map_or("", |own| own.id.as_str());
                row(id, Some(nth));
            }
        });
    }

    fn way_rows(&self, ui: &mut Ui, fields: &mut Fields, texts: &FailedTexts, is_up: bool, way: &mut Way) {
        let (title, above, below, by) = match is_up {
            false => (texts.sideways, texts.left, texts.right, texts.by_sideways),
            true => (texts.upright, texts.up, texts.down, texts.by_upright),
        };
        let far = match *way {
            Way::Above(far) | Way::Below(far) => far,
            Way::NotSaid | Way::Fine => None,
        };
        ui.horizontal_wrapped(|ui| {
            named(ui, title);
            for (name, own) in [
                (texts.not_said, Way::NotSaid),
                (texts.fine, Way::Fine),
                (above, Way::Above(far)),
                (below, Way::Below(far)),
            ] {
                let chosen = choice(ui, *way == own, name);
                if chosen.on_hover_text(title).accessible_name(self.texts().with(title, name)).clicked() {
                    *way = own;
                }
            }
        });
        if matches!(*way, Way::Above(_) | Way::Below(_)) {
            let shown = far.map_or_else(String::new, |own| self.degrees_to_type(own));
            let row = Row { label: by, hint: texts.by_why, of: "routine" };
            if let Some(typed) = fields.row(ui, &row, &shown, |text| self.read_turn(text)) {
                *way = match *way {
                    Way::Above(_) => Way::Above(typed),
                    _ => Way::Below(typed),
                };
            }
            soft_hint(ui, texts.by_why);
        }
    }

    /// The causes, the likeliest first, each with what to do; before them what to check, with room for what that found.
    fn explained(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        found: &Explained,
        looked: &mut Vec<Looked>,
        out: &mut Vec<Command>,
    ) {
        let (words, texts) = (self.words(), self.view.locale.language.failed());
        let bold = |ui: &mut Ui, text: String, letters: f32| {
            let text = RichText::new(widgets::unbroken(text)).font(look::bold(letters));
            ui.add(Label::new(text).wrap());
        };
        bold(ui, texts.headline(found), size::LEAD);
        match words.check_first(found) {
            Some(check) => bold(ui, check, size::BODY),
            None => {
                ui.add(Label::new(texts.separates_nothing).wrap());
            }
        }
        match &found.check {
            Some(ToCheck::Part { at, target }) => self.found_rows(ui, fields, (*at, *target), looked),
            Some(ToCheck::Tape { .. }) => to_tape(ui, texts, out),
            None => {}
        }
        let mut gone = None;
        for (nth, own) in looked.iter().enumerate() {
            ui.horizontal_wrapped(|ui| {
                let text = words.looked(own);
                ui.label(widgets::soft(ui, widgets::unbroken(text.as_str())));
                let name = self.texts().with(texts.forget, &text);
                if widgets::lesser(ui, texts.forget).accessible_name(name).clicked() {
                    gone = Some(nth);
                }
            });
        }
        if let Some(nth) = gone {
            looked.remove(nth);
        }
        ui.add_space(6.0);
        ui.label(widgets::soft(ui, texts.could_be));
        let listed = found.causes.iter().filter(|own| own.chance >= LISTED_FROM);
        for (own, place) in listed.zip(1..) {
            let text = words.explains(place, own);
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::BODY)).wrap());
            ui.add(Label::new(widgets::soft(ui, widgets::unbroken(texts.mend(own)))).wrap());
        }
    }

    /// What a check found: nothing, or which way and how far.
    fn found_rows(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        (at, target): (Suspect, usize),
        looked: &mut Vec<Looked>,
    ) {
        let texts = self.view.locale.language.failed();
        let (above, below) = texts.ways_of(at);
        // Which way is kept until it is typed how far; of another check it is another's.
        let key = Id::unique("way of a check").with(format!("{at:?} {target}"));
        let mut way: Option<f64> = ui.data(|data| data.get_temp(key));
        ui.horizontal_wrapped(|ui| {
            if choice(ui, false, texts.as_it_was).clicked() {
                looked.push(Looked { at, target, out: 0.0 });
            }
            for (name, sign) in [(above, 1.0), (below, -1.0)] {
                if choice(ui, way == Some(sign), name).clicked() {
                    way = Some(sign);
                }
            }
        });
        let Some(sign) = way else { return };
        ui.data_mut(|data| data.insert_temp(key, sign));
        let row = Row { label: texts.by_check, hint: texts.by_check_why, of: "check" };
        let read = |text: &str| match at.is_angle() {
            true => self.read_turn(text).map(|own| own.unwrap_or_default()),
            false => self.read_length(text),
        };
        if let Some(typed) = fields.row(ui, &row, "", read) {
            looked.push(Looked { at, target, out: sign * typed.abs() });
            ui.data_mut(|data| data.remove_temp::<f64>(key));
        }
        soft_hint(ui, texts.by_check_why);
    }

    fn degrees_to_type(&self, radians: f64) -> String {
        self.region().degrees_to_type(angle::degrees(radians))
    }

    /// A turn above nothing, in degrees or minutes of arc; nothing typed is none.
    fn read_turn(&self, text: &str) -> Result<Option<f64>, NotRead> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        let minutes = text.strip_suffix(['\'', '\u{2032}']).map(str::trim);
        let degrees = minutes.map_or_else(|| typed::degrees(text), |own| Some(typed::degrees(own)? / 60.0));
        let wanted = degrees.filter(|own| *own > 0.0 && *own <= MOST_DEG).map(angle::radians);
        wanted.map(Some).ok_or_else(|| NotRead::Wrong(self.texts().no_angle(text)))
    }
}

/// In which directions the routine said that something is out, and how far.
fn said_out(said: &RoutineSaid) -> OutBy {
    let out = |way: Way| match way {
        Way::NotSaid | Way::Fine => None,
        Way::Above(far) | Way::Below(far) => Some(far),
    };
    OutBy { sideways: out(said.sideways), upright: out(said.upright) }
}

/// No routine tells more: beyond that a figure was typed in another unit, degrees.
const MOST_DEG: f64 = 30.0;

/// One of a few choices that stand in a row, seen to be pressed.
fn choice(ui: &mut Ui, is_chosen: bool, name: &str) -> Response {
    ui.add(Button::selectable(is_chosen, name).frame_when_inactive(true))
}

/// What a row of choices is about, as wide as the names of fields.
fn named(ui: &mut Ui, name: &str) {
    let text = widgets::soft(ui, name);
    widgets::name_column(ui, 150.0, text);
}

/// Leads to the box that the tape's reading is typed in.
fn to_tape(ui: &mut Ui, texts: &FailedTexts, out: &mut Vec<Command>) {
    if widgets::lesser(ui, texts.to_tape).clicked() {
        out.push(Command::Page(None));
        out.push(Command::View(OfView::Tab(Tab::Marks)));
    }
}

fn soft_hint(ui: &mut Ui, hint: &str) {
    let text = RichText::new(widgets::unbroken(hint)).size(size::LEAST).color(ui.visuals().weak_text_color());
    ui.add(Label::new(text).wrap());
}
