//! What was taped, beside what it had to be, and with what.

use baywright_planner::model::record::{Instrument, Reading};
use baywright_planner::model::{Id, Taken};
use baywright_planner::proof::{Proof as OfMarks, reads_at};
use baywright_planner::record::{Held, Part, is_overdue};
use baywright_planner::words::Units;

use super::{Proof, text};
use crate::role::Role;
use crate::sheet::flow::{Flow, Said, px};
use crate::sheet::table::Cell;
use crate::text::Weight;

/// The name of an aiming stands with so much of its table, mm.
const WITH_MM: f64 = 18.0;

/// What a distance had to be, and how far off it may read, mm.
struct Planned {
    must_mm: f64,
    allowance_mm: f64,
}

/// Every distance that was taped between marks, aiming by aiming.
pub(super) fn readings(own: &Proof<'_>, flow: &mut Flow<'_>) {
    let texts = own.texts;
    let mut is_unplanned = false;
    let mut is_first = true;
    for line in &own.of.record.begun.lines {
        let held = own.holds.readings(&line.aiming);
        if held.is_empty() {
            continue;
        }
        if std::mem::take(&mut is_first) {
            own.heading(flow, texts.readings);
        } else {
            flow.gap(1.5);
        }
        flow.ensure(px(WITH_MM));
        let style = flow.style(flow.sizes.read, Weight::SemiBold);
        flow.said(&Said { text: &line.title, style, role: Role::Title, lead: None });
        let part = own.of.parts.iter().find(|part| *part.aiming() == line.aiming);
        let marks = part.and_then(|part| OfMarks::of(part.arrangement, &part.assessment.scene));
        let rows = held.iter().map(|held| {
            let planned = part.zip(marks.as_ref()).and_then(|(part, marks)| planned(part, marks, held.what));
            is_unplanned |= planned.is_none();
            row(own, held, planned.as_ref())
        });
        let columns = [
            (texts.from_to, 0.9),
            (texts.must, 1.6),
            (texts.read, 1.7),
            (texts.differs, 1.2),
            (texts.allowed, 1.2),
            (texts.with, 1.6),
            (texts.warm, 0.7),
            (texts.who, 2.0),
        ];
        own.table(flow, &columns, rows.collect());
    }
    if !is_first {
        flow.gap(0.8);
        flow.read(if is_unplanned { texts.must_unknown } else { texts.must_about }, None);
    }
}

fn row(own: &Proof<'_>, held: &Held<'_, Reading>, planned: Option<&Planned>) -> Vec<Cell> {
    let locale = own.locale;
    let as_read = |mm: f64| match locale.units {
        Units::FeetInches => locale.height(mm),
        Units::Millimetres | Units::Metres => locale.tenths(mm),
    };
    let read = held.what;
    let of_plan = |said: &dyn Fn(&Planned) -> String| match planned {
        Some(planned) => text(said(planned)),
        None => text("\u{2013}"),
    };
    let with = read.instrument.as_ref().map(named);
    let warm = read.temperature_c.map(|own| locale.region.number(own, 1));
    vec![
        text(locale.language.sheets().between(read.from.as_str(), read.to.as_str())),
        of_plan(&|planned| as_read(planned.must_mm)),
        Cell::Strong(as_read(read.read_mm)),
        of_plan(&|planned| locale.signed_tenths(read.read_mm - planned.must_mm)),
        of_plan(&|planned| format!("± {}", locale.tenths(planned.allowance_mm))),
        text(with.unwrap_or_default()),
        text(warm.unwrap_or_default()),
        own.who(held.entry),
    ]
}

/// What the tape in hand had to read there, as the set-up is.
fn planned(part: &Part<'_>, marks: &OfMarks, read: &Reading) -> Option<Planned> {
    let ends =
        |from: &Id, to: &Id| (*from == read.from && *to == read.to) || (*from == read.to && *to == read.from);
    let row = marks.rows.iter().find(|row| ends(&row.from, &row.to))?;
    let taken = Taken {
        with: read.instrument.as_ref().map(|own| own.name.as_str().into()),
        temperature_c: read.temperature_c,
        ..Taken::default()
    };
    let must_mm = reads_at(part.arrangement, row.should_mm, &taken).unwrap_or(row.should_mm);
    Some(Planned { must_mm, allowance_mm: row.allowance_mm })
}

fn named(own: &Instrument) -> String {
    if own.serial.is_empty() { own.name.clone() } else { format!("{} {}", own.name, own.serial) }
}

/// With what was measured, and how its checks stand.
pub(super) fn instruments(own: &Proof<'_>, flow: &mut Flow<'_>) {
    let (texts, region) = (own.texts, own.locale.region);
    let listed = |used: &Instrument| {
        let mut all = own.of.parts.iter().flat_map(|part| part.arrangement.instruments.iter());
        all.find(|own| {
            own.name.as_str() == used.name && own.serial.as_deref().unwrap_or_default() == used.serial
        })
    };
    let rows = own.holds.instruments().into_iter().map(|(used, day)| {
        let checked = listed(used).and_then(|own| own.checked);
        let state = match used.due {
            _ if used.is_unlisted => texts.unlisted,
            Some(_) if is_overdue(used, day) => texts.overdue,
            Some(_) => texts.in_time,
            None => texts.no_check_known,
        };
        let said = |day: Option<_>| text(day.map_or("\u{2013}".to_owned(), |day| region.day(day)));
        vec![
            text(named(used)),
            said(checked),
            said(used.due),
            text(region.day(day)),
            Cell::Strong(state.to_owned()),
        ]
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    if rows.is_empty() {
        return;
    }
    own.heading(flow, texts.instruments);
    let columns = [
        (texts.name, 3.4),
        (texts.checked, 1.7),
        (texts.check_due, 1.7),
        (texts.used, 1.7),
        (texts.state, 2.6),
    ];
    own.table(flow, &columns, rows);
}
