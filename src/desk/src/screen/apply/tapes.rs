//! What a tape read between marks, out of a file: all of it or nothing.

use std::path::Path;

use baywright_planner::edit::Edit;
use baywright_planner::model::{Id, MOST_TAPED, Taken};
use baywright_planner::words::Units;
use baywright_planner::words::proof::BadTape;

use crate::screen::Desk;
use crate::screen::forms::room::columns_of;
use crate::screen::forms::typed::{bare_number, of_table};

impl Desk {
    /// Takes what a file says of distances between the marks of the plan that is shown; others stay as they are.
    pub(super) fn take_tapes(&mut self, path: &Path) {
        let (texts, units) = (self.view.locale.language.proof(), self.view.locale.units);
        let Some((file, text)) = self.read_table(path) else { return };
        let plan = &self.answer.judged.aiming.mark_plan;
        let marks: Vec<Id> = plan.iter().map(|step| step.id.clone()).collect();
        let edits = match tapes_of(&text, &marks, units) {
            Ok(edits) => edits,
            Err((number, what)) => {
                let said = texts.bad_tape_in(&file, number, what);
                self.say_wrong(said);
                return;
            }
        };
        let count = edits.len();
        if count == 0 || count > MOST_TAPED {
            self.say_wrong(texts.so_many_tapes_in(&file, count, MOST_TAPED));
            return;
        }
        let done = self.document.edit(&Edit::All(edits));
        let is_done = done.is_ok();
        self.say_refused(done);
        if is_done {
            self.say(texts.tapes_read(&file, count));
        }
    }
}

/// From, to and what was read, a line each, or by whom, with what, when and how warm too; a head over the columns and empty lines are passed over. Marks go by their names, or by
/// their numbers on the drawing.
///
/// # Errors
/// The number of the first line that is none of that, from 1, and what of it is wrong.
fn tapes_of<'a>(text: &'a str, marks: &[Id], units: Units) -> Result<Vec<Edit>, (usize, BadTape<'a>)> {
    let mut edits = Vec::new();
    let mut is_first = true;
    for (number, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        let is_head = is_first && columns_of(line).get(2).is_none_or(|own| of_table(own, units).is_none());
        is_first = false;
        if is_head {
            continue;
        }
        edits.push(tape_of(line, marks, units).map_err(|what| (number + 1, what))?);
    }
    Ok(edits)
}

fn tape_of<'a>(line: &'a str, marks: &[Id], units: Units) -> Result<Edit, BadTape<'a>> {
    let columns = columns_of(line);
    let (from, to, read, taken) = match *columns.as_slice() {
        [from, to, read] => (from, to, read, Taken::default()),
        [from, to, read, ref how @ ..] if how.len() == 4 => (from, to, read, taken_of(how)?),
        _ => return Err(BadTape::Columns(columns.len())),
    };
    let mark = |name: &'a str| {
        let named = marks.iter().find(|own| own.as_str().eq_ignore_ascii_case(name));
        let numbered = || name.parse::<usize>().ok().and_then(|own| marks.get(own.checked_sub(1)?));
        named.or_else(numbered).cloned().ok_or(BadTape::NoMark(name))
    };
    let (from, to) = (mark(from)?, mark(to)?);
    if from == to {
        return Err(BadTape::OneMark);
    }
    let read_mm = of_table(read, units).filter(|own| *own > 0.0).ok_or(BadTape::NoLength(read))?;
    Ok(Edit::Tape { from, to, read_mm: Some(read_mm), taken })
}

/// By whom, with what, when, how warm.
fn taken_of<'a>(how: &[&'a str]) -> Result<Taken, BadTape<'a>> {
    let [who, with, at, warm] = *how else { return Err(BadTape::Columns(3 + how.len())) };
    let name = |own: &str| Some(own.trim()).filter(|own| !own.is_empty()).map(Id::from);
    let moment = at.trim().replace(' ', "T").parse().map_err(|_| BadTape::NoMoment(at))?;
    let celsius = bare_number(warm).filter(|own| Taken::TEMPERATURE.holds(*own));
    let temperature_c = Some(celsius.ok_or(BadTape::NoTemperature(warm))?);
    Ok(Taken { who: name(who), with: name(with), at: Some(moment), temperature_c })
}
