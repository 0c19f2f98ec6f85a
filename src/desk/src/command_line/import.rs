//! `baywright import`: a bay out of a DXF drawing, or what is in the drawing.

use std::io;
use std::path::Path;

use baywright_files::{
    DxfBay, DxfChoice, DxfDrawing, DxfUnit, Library, Profile, is_taken, layout_text, read_dxf, write_output,
};
use baywright_planner::entry::first_layout;
use baywright_planner::model::Id;
use baywright_planner::model::fault::{Allowed, Fault, FileFault, FileTrouble, Found, Quote, Why};
use baywright_planner::words::imports::Imports;
use baywright_planner::words::{Lengths, Locale};

use crate::command_line::commands::Import;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::{Page, Paper};
use crate::command_line::report::not_read;
use crate::command_line::trouble::{Errors, Trouble};
use crate::session::drawn_in::{self, CEILING_MM, bay_of, left_out, unit_name};

/// The car of the first set-up, where none is asked for.
const EXAMPLE: &str = "example-saloon";
/// Makes a bay of a drawing, or lists its layers.
pub(crate) fn import(asked: &Import, out: &mut Page<'_>, errors: &mut Errors<'_>) -> Outcome {
    if asked.quiet {
        let mut nowhere = io::sink();
        return carry_out(asked, &mut Page::new(&mut nowhere, Paper::ENDLESS), errors);
    }
    carry_out(asked, out, errors)
}

fn carry_out(asked: &Import, out: &mut Page<'_>, errors: &mut Errors<'_>) -> Outcome {
    let drawing = match read_dxf(&asked.drawing) {
        Ok(drawing) => drawing,
        Err(fault) => return not_read(vec![fault], errors),
    };
    let Some(room) = &asked.room else {
        return said(listed(&drawing, asked.language.imports(), out), errors);
    };
    if !asked.output.extension().is_some_and(|own| own.eq_ignore_ascii_case("ron")) {
        errors.tell(Trouble::NoLayout(asked.output.display().to_string()));
        return Outcome::NotRead;
    }
    match made(asked, &drawing, room) {
        Ok(made) => write(asked, &drawing, &made, out, errors),
        Err(faults) => not_read(faults, errors),
    }
}

/// What was made, and with which car.
struct Made {
    unit: DxfUnit,
    choice: DxfChoice,
    bay: DxfBay,
    car: Profile,
    aiming: Id,
}

fn made(asked: &Import, drawing: &DxfDrawing, room: &str) -> Result<Made, Vec<FileFault>> {
    let unit = drawing.unit_or(asked.unit).map_err(|fault| vec![fault])?;
    let choice = DxfChoice {
        room: room.to_owned(),
        outline: asked.outline,
        walls: asked.walls.clone(),
        things: asked.things.clone(),
        mm_per_unit: unit.mm(),
        gap_mm: asked.gap_mm,
        wall_mm: asked.wall_mm,
        ceiling_mm: asked.ceiling_mm.unwrap_or(CEILING_MM),
        low_at: None,
    };
    let name = asked.output.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let bay = bay_of(drawing, &choice, asked.language, name.as_str().into(), name);
    let bay = bay.map_err(|fault| vec![fault])?;
    let (car, aiming) = first_car(asked)?;
    Ok(Made { unit, choice, bay, car, aiming })
}

/// The car and the aiming of the first set-up.
fn first_car(asked: &Import) -> Result<(Profile, Id), Vec<FileFault>> {
    let library = Library::beside(&asked.output);
    let wanted = asked.vehicle.as_deref().unwrap_or(EXAMPLE);
    let file = asked.output.display().to_string();
    let fault = |field: &str, found, allowed| {
        let fault = Fault { field: field.to_owned(), found, allowed };
        vec![FileFault::inside(file.clone(), None, fault)]
    };
    let Some(car) = library.find(&wanted.into())? else {
        let found = Found::NoProfile(Quote::of(wanted));
        return Err(fault("vehicle", found, Allowed::one_of(wanted, &library.names())));
    };
    let aimings: Vec<Id> = car.vehicle.aimings.iter().map(|own| own.id.clone()).collect();
    let named = asked.aiming.as_deref();
    let chosen = aimings.iter().find(|own| named.is_none_or(|named| own.as_str() == named)).cloned();
    match chosen {
        Some(aiming) => Ok((car, aiming)),
        None => {
            let wanted = named.unwrap_or_default();
            Err(fault("aiming", Found::Word(Quote::of(wanted)), Allowed::one_of(wanted, &aimings)))
        }
    }
}

fn write(
    asked: &Import,
    drawing: &DxfDrawing,
    made: &Made,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let texts = asked.language.imports();
    let Made { bay, car, aiming, .. } = made;
    let fingerprint = Some(car.fingerprint.clone());
    let layout =
        first_layout(bay.bay.clone(), texts.set_up.into(), &car.vehicle, fingerprint, aiming.clone());
    let text = match layout_text(&layout) {
        Ok(text) => text,
        Err(faults) => return not_read(faults, errors),
    };
    // Nobody's bay is replaced by a drawing.
    if is_taken(&asked.output) {
        let trouble = FileTrouble::NotWritten(Why::Exists);
        errors.tell(Trouble::File(FileFault::whole(asked.output.display().to_string(), trouble)));
        return Outcome::NotWritten;
    }
    let made_from: [&Path; 1] = [&asked.drawing];
    if let Err(fault) = write_output(&asked.output, text.as_bytes(), &made_from) {
        errors.tell(Trouble::File(fault));
        return Outcome::NotWritten;
    }
    said(told(asked, drawing, made, out), errors)
}

/// What came of it, and what was taken where the drawing tells nothing.
fn told(asked: &Import, drawing: &DxfDrawing, made: &Made, out: &mut Page<'_>) -> io::Result<()> {
    let texts = asked.language.imports();
    let lengths = Lengths::Shown(Locale { language: asked.language, ..Locale::default() });
    let Made { unit, choice, bay, car, aiming } = made;
    let file = asked.output.display().to_string();
    out.entry(&format!("{file}: "), &texts.made(bay.bay.walls.len(), bay.bay.things.len()))?;
    let mut lines = drawn_in::told(drawing, bay, (choice, *unit), texts, lengths);
    lines.extend(left_out(drawing, texts));
    if asked.ceiling_mm.is_none() {
        lines.push(texts.ceiling_taken(CEILING_MM, lengths));
    }
    lines.push(texts.solid_and_by_eye.to_owned());
    let aiming_title = car.vehicle.aimings.iter().find(|own| own.id == *aiming).map(|own| own.name.as_str());
    lines.push(texts.set_up_with(&car.vehicle.name, aiming_title.unwrap_or(aiming.as_str())));
    lines.iter().try_for_each(|line| out.entry("  ", line))
}

/// What is in the drawing.
fn listed(drawing: &DxfDrawing, texts: &Imports, out: &mut Page<'_>) -> io::Result<()> {
    out.lines(&texts.drawn_in(&drawing.file, drawing.unit.map(|own| unit_name(own, texts))))?;
    if drawing.layers.is_empty() {
        out.entry("  ", texts.no_layers)?;
    }
    for own in &drawing.layers {
        let reach = own.reach;
        out.entry(&format!("  {}: ", own.name), &texts.layer(own.lines, own.notes, reach, own.is_hidden))?;
    }
    for line in left_out(drawing, texts) {
        out.lines(&line)?;
    }
    out.lines(texts.choose_layers)
}
