//! `baywright plan`: which aimings fit where, the place that serves the most of them, and how big an empty room must be.
//!
//! As text, as JSON (`json/plan.rs`), or as a table (CSV): one row for each aiming and place. Rows are worked out on all processors and
//! told in the order of the list, whichever is done first.

use std::io::{self, Write};
use std::path::Path;
use std::sync::mpsc;

use baywright_files::{FileFault, Library, Loaded, shop_in_use};
use baywright_planner::Verdict;
use baywright_planner::geometry::{PlanPose, angle};
use baywright_planner::matrix::{
    Cell, Grid, Heard, Line, Place, Row, best_place, fit_map, heard, lines_of_car, lines_of_layout, needs,
    places_of, row, smallest,
};
use baywright_planner::model::{Arrangement, Id, ParkedKnown, validate};
use baywright_planner::place::never::Stays;
use baywright_planner::place::{Margin, Search, Slack, headings};
use baywright_planner::words::{Locale, Words};
use rayon::prelude::*;

use crate::command_line::commands::PlanAsked;
use crate::command_line::input::{is_stream, open};
use crate::command_line::json::{Planned, write_plan};
use crate::command_line::never::prove;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::{chosen, judged_by, not_read};
use crate::command_line::trouble::{Errors, Trouble};

/// How wide a square of the floor is in which aimings are counted, mm.
const SQUARE_MM: f64 = 100.0;

/// The columns of the table. Their names and what they mean never change once shipped.
const COLUMNS: [&str; 14] = [
    "set_up",
    "vehicle",
    "aiming",
    "place_kind",
    "place",
    "answer",
    "verdict",
    "x_mm",
    "y_mm",
    "heading_deg",
    "slack_mm",
    "slack_deg",
    "care",
    "stops",
];

/// Plans one layout.
pub(crate) fn plan(
    asked: &PlanAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let opened = shop_in_use(asked.shop.as_deref(), own_shop).and_then(|used| {
        Ok((open(&asked.layout, judged_by(&used, asked.today), asked.locale.language)?, used))
    });
    let (loaded, used) = match opened {
        Ok(opened) => opened,
        Err(faults) => return not_read(faults, errors),
    };
    errors.tell_passed_over(&loaded.passed_over);
    let chosen = match chosen(&loaded, asked.arrangement.as_deref(), errors) {
        Ok(chosen) => chosen,
        Err(outcome) => return outcome,
    };
    if let (Some(output), Some(arrangement)) = (&asked.proof, chosen.first()) {
        let made_from = [asked.layout.as_path()];
        return prove(arrangement, Stays::Fixed, asked.locale, (output, &made_from), out, errors);
    }
    let lines = match lines(asked, &loaded, &chosen, errors) {
        Ok(lines) => lines,
        Err(outcome) => return outcome,
    };
    let (mm, rad) = used.shop.parked_within(ParkedKnown::Planned);
    let margin = Margin { mm, rad };
    let places = places_of(&loaded.layout);
    let rows = rows(asked, &lines, &places, &margin, errors);
    let room = chosen.first().map(|own| &own.bay.room);
    let (map, best) = room.map_or((None, None), |room| {
        let searches: Vec<Search> = lines.par_iter().map(|own| Search::new(&own.arrangement)).collect();
        let weights: Vec<f64> = lines.iter().map(|own| own.weight).collect();
        let grid = Grid::over(room.bounds(), SQUARE_MM);
        let invited: Vec<f64> = headings(room).into_iter().filter(|own| own.1).map(|own| own.0).collect();
        let heard: Vec<Heard> =
            invited.par_iter().map(|heading| heard(&searches, &weights, &grid, *heading)).collect();
        (Some(fit_map(grid, &heard, lines.len())), best_place(&lines, &heard, &margin))
    });
    let slack = Slack { mm, rad };
    let needed: Option<Vec<_>> = lines.par_iter().map(|own| needs(own, &slack)).collect();
    let planned = Planned {
        file: if is_stream(&asked.layout) { asked.layout.display().to_string() } else { loaded.file.clone() },
        layout: &loaded.layout,
        used: (&used.shop, used.path.as_deref()),
        margin,
        places: &places,
        lines: &lines,
        rows: &rows,
        best,
        map,
        room: needed.and_then(|own| smallest(&own)),
    };
    let written = if asked.quiet { Ok(()) } else { told(asked, &planned, out) };
    let at = places.iter().position(|own| *own == Place::Room).unwrap_or_default();
    let is_found = |row: &Row| matches!(row.cells.get(at), Some(Some(Cell::Fits(_))));
    let found = if rows.iter().all(is_found) { Outcome::Ready } else { Outcome::NotReady };
    said(written, errors).max(found)
}

/// The answer, as it was asked for.
fn told(asked: &PlanAsked, all: &Planned<'_>, out: &mut Page<'_>) -> io::Result<()> {
    if asked.json {
        write_plan(all, asked.locale, out)
    } else if asked.csv {
        out.write_all(&table(all).map_err(io::Error::other)?)
    } else {
        text(all, asked.locale, out)
    }
}

/// What is asked about: the set-ups, or all aimings of some cars in the room of the first of them.
fn lines(
    asked: &PlanAsked,
    loaded: &Loaded,
    chosen: &[&Arrangement],
    errors: &mut Errors<'_>,
) -> Result<Vec<Line>, Outcome> {
    if asked.cars.is_empty() && !asked.all_cars {
        return Ok(lines_of_layout(chosen.iter().copied()));
    }
    let Some(room_of) = chosen.first() else { return Ok(Vec::new()) };
    let library = match &loaded.path {
        Some(path) => Library::beside(path),
        None if is_stream(&asked.layout) => Library::beside(Path::new("layout.ron")),
        None => Library::built_in(),
    };
    let there = library.names();
    let named: Vec<Id> = if asked.all_cars {
        there.clone()
    } else {
        let mut named: Vec<Id> = Vec::new();
        for own in &asked.cars {
            let id = Id::from(own.as_str());
            if !named.contains(&id) {
                named.push(id);
            }
        }
        named
    };
    let mut lines = Vec::new();
    let mut wrong: Vec<FileFault> = Vec::new();
    for name in &named {
        errors.tell_passed_over(&library.passed_over(name));
        match library.find(name) {
            Ok(Some(profile)) => {
                let own = lines_of_car(&loaded.layout, room_of, &profile.vehicle);
                // Among all cars one that nothing is to be aimed of is passed over.
                if own.is_empty() && !asked.all_cars {
                    errors.tell(Trouble::NoAimings(name.to_string()));
                    return Err(Outcome::NotRead);
                }
                lines.extend(own);
            }
            Ok(None) => {
                let there: Vec<String> = there.iter().map(ToString::to_string).collect();
                let meant = validate::nearest(name.as_str(), there.iter().map(String::as_str));
                let meant = meant.map(ToOwned::to_owned);
                errors.tell(Trouble::NoSuchCar { name: name.to_string(), there, meant });
                return Err(Outcome::NotRead);
            }
            Err(faults) => wrong.extend(faults),
        }
    }
    if wrong.is_empty() { Ok(lines) } else { Err(not_read(wrong, errors)) }
}

/// The rows, on all processors, in the order of the list.
fn rows(
    asked: &PlanAsked,
    lines: &[Line],
    places: &[Place],
    margin: &Margin,
    errors: &mut Errors<'_>,
) -> Vec<Row> {
    let texts = asked.locale.language.plan();
    let (sender, receiver) = mpsc::channel();
    let mut rows: Vec<Option<Row>> = vec![None; lines.len()];
    std::thread::scope(|scope| {
        scope.spawn(|| {
            lines.par_iter().enumerate().for_each_with(sender, |sender, (at, line)| {
                // Whoever hears it is there until all are done.
                let _ = sender.send((at, row(line, places, margin, true, &|| false)));
            });
        });
        for (count, (at, row)) in receiver.iter().enumerate() {
            if let Some(line) = lines.get(at).filter(|_| !asked.quiet) {
                let line = Words::new(&line.arrangement, asked.locale).plan_line(line.is_saved);
                errors.so_far_on_terminal(&texts.so_far(count + 1, lines.len(), &line));
            }
            if let Some(own) = rows.get_mut(at) {
                *own = Some(row);
            }
        }
    });
    rows.into_iter().flatten().collect()
}

/// The answer as text.
fn text(all: &Planned<'_>, locale: Locale, out: &mut Page<'_>) -> io::Result<()> {
    let texts = locale.language.plan();
    out.entry("", &texts.head(&all.layout.bay.name, all.lines.len()))?;
    for (line, row) in all.lines.iter().zip(all.rows) {
        let words = Words::new(&line.arrangement, locale);
        writeln!(out)?;
        out.entry("  ", &words.plan_line(line.is_saved))?;
        for (place, cell) in all.places.iter().zip(&row.cells) {
            if let Some(cell) = cell {
                out.entry("   -  ", &words.plan_place(place))?;
                out.entry("      ", &words.plan_cell(cell, &all.margin))?;
            }
        }
    }
    writeln!(out)?;
    out.entry("  ", &format!("{}:", texts.one_place))?;
    let best = all.best.as_ref().and_then(|best| Some((best, all.lines.get(best.serves.first()?.0)?)));
    match best {
        Some((best, first)) => {
            let words = Words::new(&first.arrangement, locale);
            out.entry("      ", &words.plan_best(best, all.lines.len(), &all.margin))?;
            let others = all.lines.iter().enumerate();
            let others: Vec<&Line> = others
                .filter(|(nth, _)| !best.serves.iter().any(|own| own.0 == *nth))
                .map(|own| own.1)
                .collect();
            if !others.is_empty() {
                out.entry("      ", &format!("{}:", texts.not_served))?;
            }
            for line in others {
                out.entry("   -  ", &Words::new(&line.arrangement, locale).plan_line(line.is_saved))?;
            }
        }
        None => out.entry("      ", texts.no_place_for_any)?,
    }
    writeln!(out)?;
    out.entry("  ", &format!("{}:", texts.empty_room))?;
    let decides = all.room.as_ref().and_then(|own| Some((own, all.lines.get(own.decides)?)));
    match decides {
        Some((room, line)) => {
            let words = Words::new(&line.arrangement, locale);
            out.entry("      ", &words.plan_room(room.length_mm, room.width_mm, &all.margin))?;
        }
        None => out.entry("      ", texts.no_size)?,
    }
    writeln!(out)?;
    out.entry("  ", texts.searched)?;
    match all.lines.first() {
        Some(line) => out.entry("  ", Words::new(&line.arrangement, locale).caution()),
        None => Ok(()),
    }
}

/// The table: one row for each aiming and place.
fn table(all: &Planned<'_>) -> csv::Result<Vec<u8>> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(COLUMNS)?;
    for (line, row) in all.lines.iter().zip(all.rows) {
        for (place, cell) in all.places.iter().zip(&row.cells) {
            let Some(cell) = cell else { continue };
            let own = &line.arrangement;
            let (kind, name) = match place {
                Place::Parked { of, .. } => ("parked", of.as_str()),
                Place::Bay(bay) => ("bay", bay.as_str()),
                Place::Room => ("room", ""),
            };
            let told = Told::of(cell);
            let set_up = if line.is_saved { own.id.as_str() } else { "" };
            let figures = told.figures();
            let first = [set_up, own.vehicle.id.as_str(), own.aiming.id.as_str(), kind, name];
            let rest = [told.answer, told.verdict.map_or("", verdict_name)].into_iter();
            out.write_record(first.into_iter().chain(rest).chain(figures.iter().map(String::as_str)))?;
        }
    }
    out.into_inner().map_err(|why| why.into_error().into())
}

const fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Ready => "ready",
        Verdict::ReadyWithCare => "ready-with-care",
        Verdict::NotReady => "not-ready",
    }
}

/// What the table says of a cell.
struct Told {
    answer: &'static str,
    verdict: Option<Verdict>,
    pose: PlanPose,
    slack: Option<Slack>,
    care: Option<usize>,
    stops: String,
}

impl Told {
    fn of(cell: &Cell) -> Self {
        let at = |answer, pose, verdict| Self {
            answer,
            verdict,
            pose,
            slack: None,
            care: None,
            stops: String::new(),
        };
        match cell {
            Cell::Fits(own) | Cell::Elsewhere(own) => {
                let answer = if matches!(cell, Cell::Fits(_)) { "fits" } else { "elsewhere" };
                let told = at(answer, own.pose, Some(own.verdict));
                Self { slack: Some(own.slack), care: Some(own.care), ..told }
            }
            Cell::AfterMoves { pose, verdict, .. } => at("after-moves", *pose, Some(*verdict)),
            Cell::NoneFound(own) => {
                let mut codes: Vec<&str> = own.stops.iter().map(|own| own.code().as_str()).collect();
                codes.sort_unstable();
                codes.dedup();
                Self { stops: codes.join(" "), ..at("none-found", own.pose, None) }
            }
        }
    }

    /// All that is no name, as text.
    fn figures(&self) -> [String; 7] {
        let to = |value: f64, parts: f64| format!("{}", (value * parts).round() / parts + 0.0);
        let slack =
            |of: fn(&Slack) -> f64| self.slack.as_ref().map_or_else(String::new, |slack| to(of(slack), 1e2));
        let at = self.pose.origin();
        [
            to(at.x, 1e2),
            to(at.y, 1e2),
            to(angle::degrees(self.pose.heading()), 1e4),
            slack(|own| own.mm),
            slack(|own| angle::degrees(own.rad)),
            self.care.map_or_else(String::new, |own| own.to_string()),
            self.stops.clone(),
        ]
    }
}
