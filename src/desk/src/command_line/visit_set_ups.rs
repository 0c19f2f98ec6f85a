//! The set-ups of a record's visit, from the bay's file beside it, as the window has them.

use std::path::Path;

use baywright_files::{Kept, ShopInUse};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::record::{Part, answer, in_order, set_up};
use baywright_planner::{Assessment, assess_fully};
use jiff::civil::Date;

use crate::command_line::report::judged_by;

/// The set-ups, each with what is found of it; none where the bay's file, its set-up or its car is another or is not there.
pub(crate) fn set_ups(
    kept: &Kept,
    file: &Path,
    used: &ShopInUse,
    today: Option<Date>,
) -> Vec<(Arrangement, Assessment)> {
    let record = kept.record();
    let begun = &record.begun;
    let Some(layout) = &begun.layout else { return Vec::new() };
    let path = file.parent().unwrap_or(Path::new("")).join(layout);
    let Ok(loaded) = baywright_files::open(&path, judged_by(used, today)) else { return Vec::new() };
    let of_record =
        |(id, own): &&(Id, Arrangement)| *id == begun.arrangement && own.vehicle.id == begun.vehicle;
    let Some((_, drawn)) = loaded.arrangements.iter().find(of_record) else { return Vec::new() };
    let lines: Vec<Id> = begun.lines.iter().map(|own| own.aiming.clone()).collect();
    let own = lines.contains(&drawn.aiming.id).then(|| drawn.clone());
    let mut base: Vec<Arrangement> =
        own.into_iter().chain(loaded.layout.with_aimings(drawn, &lines)).collect();
    base.sort_by_key(|own| lines.iter().position(|id| *id == own.aiming.id));
    let saved = |id: &Id| loaded.arrangements.iter().find(|(own, _)| own == id).map(|(_, own)| own.clone());
    // What was read is no part of the one answer for the visit.
    let mut bare = base.clone();
    for own in &mut bare {
        own.marks_taped.clear();
        own.on_this_car.stood.clear();
    }
    let others = loaded
        .arrangements
        .iter()
        .filter(|(id, own)| *id != begun.arrangement && own.vehicle.id == begun.vehicle);
    let elsewhere: Vec<Arrangement> = others.map(|(_, own)| own.clone()).collect();
    let answer = answer(&bare, &elsewhere);
    let made = base.into_iter().map(|own| {
        let is_drawn = own.aiming.id == drawn.aiming.id;
        set_up(record, &own, is_drawn, Some(&answer), saved).unwrap_or(own)
    });
    let mut made: Vec<Arrangement> = made.collect();
    made.sort_by_key(|own| in_order(record, Some(&answer), &own.aiming.id));
    made.into_iter().map(|own| (own.clone(), assess_fully(&own))).collect()
}

/// The same, as the record asks for them.
pub(crate) fn parts(all: &[(Arrangement, Assessment)]) -> Vec<Part<'_>> {
    all.iter().map(|(arrangement, assessment)| Part { arrangement, assessment }).collect()
}
