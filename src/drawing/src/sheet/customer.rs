//! The customer's sheet: the screen's ideas, one below another, each with its picture beside it.

use baywright_planner::customer::{Idea, Moves, ideas};
use baywright_planner::geometry::DVec2;

use super::bar::bar;
use super::flow::{Flow, Lead, Said, px};
use super::frame::Sheeted;
use super::head;
use super::lines::{READ_MM, WORK_MM, lines, pitch};
use super::of::Of;
use super::plan::in_views;
use super::scale::largest_scale;
use crate::list::{Drawing, PX_PER_PAPER_MM};
use crate::page::Page;
use crate::page::setter::Setter;
use crate::role::Role;
use crate::text::{Align, TextStyle, Weight};
use crate::view::{Extents, TOLD_MARGIN_PX, ViewState, told_to_scale};

/// What the words beside a picture have of the width at least, and a picture of the height of a page at most.
const WORDS: f64 = 0.28;
const PICTURE: f64 = 0.36;
/// Between words and picture, and between one idea and the next, mm.
const BETWEEN_MM: f64 = 4.0;
/// The picture of why, mm.
const WHY_MM: DVec2 = DVec2::new(80.0, 46.0);

/// The pages of the sheet.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let words = on.words;
    let texts = words.locale().language.customer();
    let mut flow = on.flow();
    let car = words.arrangement().vehicle.name.as_str();
    let shop = of.face.name.as_deref().unwrap_or("");
    head::title(&mut flow, on.title, &words.locale().language.sheets().for_car(car, shop));
    flow.gap(2.0);
    let one_to = scale(of, &flow, on);
    for idea in ideas(of.now.arrangement, of.now.assessment, of.face) {
        one(&mut flow, of, on, &idea, one_to);
    }
    let mut notes = vec![texts.our_part, words.locale().language.sheets().no_promise];
    if of.now.assessment.on_example_figures {
        notes.push(texts.made_up);
    }
    flow.gap(2.0);
    notes.iter().for_each(|own| flow.work(own, None));
    bar(&mut flow, words, one_to);
    on.pages(flow, &words.picture_description(of.now.assessment, Some(one_to)))
}

/// The scale of every picture of the bay: one, so that before and after can be compared.
fn scale(of: &Of<'_>, flow: &Flow<'_>, on: &Sheeted<'_>) -> f64 {
    let room = DVec2::new(flow.width() * (1.0 - WORDS) - px(BETWEEN_MM), flow.height() * PICTURE);
    let room = (room - DVec2::splat(2.0 * TOLD_MARGIN_PX * on.lettering.enlarged())).max(DVec2::ONE);
    let held = Extents::of(of.now.arrangement, of.now.assessment, &ViewState::default()).top;
    largest_scale(held.size(), room / PX_PER_PAPER_MM)
}

/// One idea: what it says, and its picture.
fn one(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>, idea: &Idea, one_to: f64) {
    let words = on.words;
    let texts = words.locale().language.sheets();
    let over = match idea {
        Idea::StandsIn(_) => Some(texts.before),
        Idea::Moves(Moves::Known(_)) => Some(texts.after),
        _ => None,
    };
    let told = words.idea_lines(idea, of.now.assessment).into_iter();
    let mut lines: Vec<(Lead, String)> = told.map(|own| (dash(), own)).collect();
    // On paper there is room to say why each step is there.
    if let Idea::Work(work) = idea {
        let customer = words.locale().language.customer();
        let whys = work.steps.iter().map(|part| (Lead::Nothing, customer.why_step(part.step).to_owned()));
        let after: Vec<(Lead, String)> = lines.split_off(work.steps.len().min(lines.len()));
        lines = lines.into_iter().zip(whys).flat_map(|(line, why)| [line, why]).chain(after).collect();
    }
    let said = Told { over, title: words.idea(idea), lines };
    if !has_picture(idea) {
        alone(flow, &said);
    } else {
        let own = in_views(on.lettering);
        let box_px = WHY_MM * px(1.0);
        let (arrangement, assessment) = (of.now.arrangement, of.now.assessment);
        let drawing = told_to_scale(idea, arrangement, assessment, (one_to, box_px), &own);
        beside(flow, &said, drawing);
    }
    flow.gap(BETWEEN_MM);
}

/// What is said with nothing in the way, or of work, needs no picture of its own.
const fn has_picture(idea: &Idea) -> bool {
    match idea {
        Idea::Why(_) | Idea::SendsBack(_) | Idea::EmptyFloor(_) => true,
        Idea::StandsIn(stands) => !stands.findings.is_empty(),
        Idea::Moves(moves) => matches!(moves, Moves::Known(_)),
        Idea::OnlyTarget | Idea::Work(_) => false,
    }
}

/// An idea in words.
struct Told {
    over: Option<&'static str>,
    title: String,
    /// With what stands before each where no picture stands beside it.
    lines: Vec<(Lead, String)>,
}

fn dash() -> Lead {
    Lead::Text("\u{2013}".to_owned())
}

fn alone(flow: &mut Flow<'_>, told: &Told) {
    let strong = flow.style(WORK_MM, Weight::Bold);
    flow.said(&Said { text: &told.title, style: strong, role: Role::Title, lead: None });
    let is_list = told.lines.len() > 1;
    told.lines.iter().for_each(|(lead, own)| flow.work(own, is_list.then(|| lead.clone())));
}

/// Words at the left, the picture at the right.
fn beside(flow: &mut Flow<'_>, told: &Told, drawing: Drawing) {
    let most = flow.width() - drawing.size.x - px(BETWEEN_MM);
    let strong = flow.style(WORK_MM, Weight::Bold);
    let plain = flow.style(WORK_MM, Weight::Regular);
    let small = flow.style(READ_MM, Weight::SemiBold);
    let mut all: Vec<(String, TextStyle, Role)> = Vec::new();
    let mut add = |text: &str, style: TextStyle, role: Role| {
        all.extend(lines(text, style, most, flow.lettering).into_iter().map(|own| (own, style, role)));
    };
    if let Some(over) = told.over {
        add(over, small, Role::TitleSoft);
    }
    add(&told.title, strong, Role::Title);
    told.lines.iter().for_each(|(_, own)| add(own, plain, Role::Title));
    let high: f64 = all.iter().map(|(_, style, _)| pitch(*style)).sum();
    flow.view_beside(drawing, high, |setter: &mut Setter<'_>| {
        let mut y = 0.0;
        for (text, style, role) in &all {
            let at = DVec2::new(0.0, y + pitch(*style) * 0.5);
            setter.text(*role, at, text, *style, Align::Start, f64::INFINITY);
            y += pitch(*style);
        }
    });
}
