//! `baywright plan`: which aimings fit where, the place that serves the most of them, and how big an empty room must be.
//!
//! As text, as JSON (`json/plan.rs`), as a table (`plan/table.rs`), or on paper (the owner's report). It is worked out as in the window
//! (`session/planning.rs`) and told in the order of the list, whichever is done first.

mod table;

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_drawing::Lettering;
use baywright_drawing::sheet::{About, ReportOf, owner_report};
use baywright_files::{FileFault, Library, Loaded, ShopInUse, may_be_output, shop_in_use};
use baywright_planner::clearing::{Cleared, Where};
use baywright_planner::matrix::{
    Cell, Line, Place, Planned, Row, lines_of_car, lines_of_layout, places_of, weigh,
};
use baywright_planner::model::{Arrangement, Id, ParkedKnown, validate};
use baywright_planner::place::Margin;
use baywright_planner::place::never::Stays;
use baywright_planner::words::{Locale, Words};

use crate::command_line::changes::ChangesFound;
use crate::command_line::commands::{PlanAsked, ReportAsked};
use crate::command_line::input::{is_stream, open};
use crate::command_line::json::{PlanAnswer, write_plan};
use crate::command_line::never::prove;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::{chosen, judged_by, not_read};
use crate::command_line::sheet::read_from;
use crate::command_line::trouble::{Errors, Trouble};
use crate::command_line::written::written;
use crate::session::planning::{moves_of, planned, with_proofs};
use crate::session::printed::Format;

pub(crate) use table::table;

/// Plans one layout.
pub(crate) fn plan(
    asked: &PlanAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    // What cannot be written is said before a long search, not after it.
    let format = match &asked.report {
        Some(report) => match format(report) {
            Some(format) => Some(format),
            None => {
                errors.tell(Trouble::NoSheet(report.output.display().to_string()));
                return Outcome::NotRead;
            }
        },
        None => None,
    };
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
    if let Some(report) = &asked.report {
        let made_from = read_from(&loaded, &used);
        let made_from: Vec<&Path> = made_from.iter().map(PathBuf::as_path).collect();
        if let Err(fault) = may_be_output(&report.output, &made_from) {
            errors.tell(Trouble::File(fault));
            return Outcome::NotWritten;
        }
    }
    let lines: Arc<[Line]> = match lines(asked, &loaded, &chosen, errors) {
        Ok(mut lines) => {
            weigh(&mut lines, &loaded.layout.owner);
            lines.into()
        }
        Err(outcome) => return outcome,
    };
    let (mm, rad) = used.shop.parked_within(ParkedKnown::Planned);
    let places: Arc<[Place]> = places_of(&loaded.layout).into();
    let store_mm = loaded.layout.owner.store_mm.unwrap_or(0.0);
    let found = answered(asked, (&lines, &places), (Margin { mm, rad }, store_mm), errors);
    let moves = asked.moves.then(|| must_move(asked, &found, &loaded, errors));
    let changes = asked.changes.and_then(|further_mm| {
        let texts = asked.locale.language.fits();
        ChangesFound::look(&found, &loaded.layout.owner, further_mm, &mut |done, all| {
            if !asked.quiet {
                errors.so_far_on_terminal(&texts.looked_at(done, all));
            }
        })
    });
    let answer = PlanAnswer {
        file: if is_stream(&asked.layout) { asked.layout.display().to_string() } else { loaded.file.clone() },
        layout: &loaded.layout,
        used: (&used.shop, used.path.as_deref()),
        found: &found,
        moves: moves.as_deref(),
        changes: changes.as_ref(),
    };
    let at = places.iter().position(|own| *own == Place::Room).unwrap_or_default();
    let is_found = |row: &Row| matches!(row.cells.get(at), Some(Some(Cell::Fits(_))));
    let all_found = found.rows.iter().flatten().all(|own| is_found(own));
    let outcome = if all_found { Outcome::Ready } else { Outcome::NotReady };
    if let (Some(report), Some(format)) = (&asked.report, format) {
        return reported(asked, (report, format), (&loaded, &used), &answer, out, errors).max(outcome);
    }
    let written = if asked.quiet { Ok(()) } else { told(asked, &answer, out) };
    said(written, errors).max(outcome)
}

/// The answer, as it was asked for.
fn told(asked: &PlanAsked, all: &PlanAnswer<'_>, out: &mut Page<'_>) -> io::Result<()> {
    if asked.json {
        write_plan(all, asked.locale, out)
    } else if asked.csv {
        out.write_all(&table(all.found).map_err(io::Error::other)?)
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

/// All of it, on all processors; a terminal is told how many of the list are answered.
fn answered(
    asked: &PlanAsked,
    (lines, places): (&Arc<[Line]>, &Arc<[Place]>),
    of: (Margin, f64),
    errors: &mut Errors<'_>,
) -> Planned {
    let texts = asked.locale.language.plan();
    let (mut is_told, mut count) = (vec![false; lines.len()], 0);
    let found = planned(lines, places, of, &|| false, &mut |found, _| {
        for ((line, row), is_told) in lines.iter().zip(&found.rows).zip(&mut is_told) {
            if asked.quiet || *is_told || !row.as_ref().is_some_and(|own| own.has_moves) {
                continue;
            }
            (*is_told, count) = (true, count + 1);
            let line = Words::new(&line.arrangement, asked.locale).plan_line(line.is_saved);
            errors.so_far_on_terminal(&texts.so_far(count, lines.len(), &line));
        }
    });
    // The exit status does not tell of it.
    if asked.quiet && asked.report.is_none() { found } else { with_proofs(found, &|| false) }
}

/// What must move for each line that is stopped; a terminal is told how many lines are answered.
fn must_move(
    asked: &PlanAsked,
    found: &Planned,
    loaded: &Loaded,
    errors: &mut Errors<'_>,
) -> Vec<Vec<Cleared>> {
    let (texts, all) = (asked.locale.language.clearing(), found.lines.len());
    moves_of(found, &loaded.layout.owner.without, &|| false, &mut |done| {
        if !asked.quiet {
            errors.so_far_on_terminal(&texts.lines_done(done, all));
        }
    })
}

/// What a report is written as, by the ending of its file's name.
fn format(report: &ReportAsked) -> Option<Format> {
    let ending = report.output.extension()?.to_string_lossy();
    Format::of_ending(&ending, report.dpi)
}

/// The owner's report, in the file that was asked for.
fn reported(
    asked: &PlanAsked,
    (report, format): (&ReportAsked, Format),
    (loaded, used): (&Loaded, &ShopInUse),
    answer: &PlanAnswer<'_>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let name = loaded.path.as_deref().and_then(Path::file_name).map(|own| own.to_string_lossy().into_owned());
    let about = About {
        day: asked.today.map(|day| asked.locale.region.day(day)).unwrap_or_default(),
        file: name.unwrap_or_else(|| loaded.file.clone()),
        shop: used.face.name.clone().unwrap_or_default(),
        revision: report.revision.clone(),
        record: String::new(),
    };
    let lettering = Lettering { locale: asked.locale, ..Lettering::default() };
    let of = ReportOf {
        found: answer.found,
        bay: &loaded.layout.bay.name,
        changes: answer.changes.map(ChangesFound::asked),
        price: loaded.layout.owner.square_metre,
    };
    let pages = owner_report(&of, report.paper, &about, &lettering);
    let made_from = read_from(loaded, used);
    let made_from: Vec<&Path> = made_from.iter().map(PathBuf::as_path).collect();
    match written(&pages, &report.output, (format, asked.locale.language), &made_from) {
        Ok(_) if asked.quiet => Outcome::Ready,
        Ok(files) => said(files.iter().try_for_each(|file| writeln!(out, "{}", file.display())), errors),
        Err(trouble) => {
            errors.tell(*trouble);
            Outcome::NotWritten
        }
    }
}

/// The answer as text.
fn text(answer: &PlanAnswer<'_>, locale: Locale, out: &mut Page<'_>) -> io::Result<()> {
    let (all, texts) = (answer.found, locale.language.plan());
    out.entry("", &texts.head(&answer.layout.bay.name, all.lines.len()))?;
    for (nth, (line, row)) in all.lines.iter().zip(&all.rows).enumerate() {
        let words = Words::new(&line.arrangement, locale);
        writeln!(out)?;
        out.entry("  ", &words.plan_line(line.is_saved))?;
        let cells = row.iter().flat_map(|own| &own.cells);
        for (at, (place, cell)) in all.places.iter().zip(cells).enumerate() {
            if let Some(cell) = cell {
                out.entry("   -  ", &words.plan_place(place))?;
                out.entry("      ", &answer.sentence(&words, cell, (nth, at)))?;
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
    let decides = answer.room().and_then(|own| Some((own, all.lines.get(own.decides)?)));
    match decides {
        Some((room, line)) => {
            let words = Words::new(&line.arrangement, locale);
            out.entry("      ", &words.plan_room(room, &all.margin))?;
        }
        None => out.entry("      ", texts.no_size)?,
    }
    if let Some(moves) = answer.moves {
        writeln!(out)?;
        moves_told(all, moves, locale, out)?;
    }
    writeln!(out)?;
    if let Some(changes) = answer.changes {
        changes.text(all, locale, out)?;
        writeln!(out)?;
    }
    out.entry("  ", texts.searched)?;
    if !all.proven.is_empty() {
        out.entry("  ", texts.never_so)?;
    }
    match all.lines.first() {
        Some(line) => out.entry("  ", Words::new(&line.arrangement, locale).caution()),
        None => Ok(()),
    }
}

/// What must move, line by line.
fn moves_told(all: &Planned, moves: &[Vec<Cleared>], locale: Locale, out: &mut Page<'_>) -> io::Result<()> {
    let texts = locale.language.clearing();
    out.entry("  ", &format!("{}:", texts.must_move))?;
    if moves.iter().all(Vec::is_empty) {
        out.entry("      ", texts.nothing_moves)?;
    }
    for (line, found) in all.lines.iter().zip(moves).filter(|own| !own.1.is_empty()) {
        let words = Words::new(&line.arrangement, locale);
        out.entry("   -  ", &words.plan_line(line.is_saved))?;
        for own in found {
            let at = if own.at == Where::Anywhere { texts.to_stand_anywhere } else { texts.to_stand_here };
            out.entry("      ", &format!("{at}:"))?;
            for text in words.cleared(own) {
                out.entry("       -  ", &text)?;
            }
        }
    }
    Ok(())
}
