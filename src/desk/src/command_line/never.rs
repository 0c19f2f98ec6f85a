//! `baywright proof check`: whether a proof that a set-up fits nowhere holds, and whether it is of a layout; and how one is made.

use std::path::Path;

use baywright_files::{load_never, may_be_output, never_text, shop_in_use, write_output};
use baywright_planner::model::Arrangement;
use baywright_planner::never::{MOST_CELLS, check};
use baywright_planner::place::never::{Document, Given, Never, Stays, is_of, never, short};
use baywright_planner::words::{Locale, Words};

use crate::command_line::commands::NeverAsked;
use crate::command_line::input::open;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::{chosen, judged_by, not_read};
use crate::command_line::trouble::{Errors, Trouble};

/// Checks one proof.
pub(crate) fn proof_check(
    asked: &NeverAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let document = match load_never(&asked.file) {
        Ok(document) => document,
        Err(fault) => return not_read(vec![fault], errors),
    };
    let texts = asked.language.never();
    let mut outcome = Outcome::Ready;
    let mut lines = vec![match check(&document.proof) {
        Ok(()) => texts.holds(document.proof.cells.len()),
        Err(why) => {
            outcome = Outcome::NotReady;
            texts.refused(why)
        }
    }];
    match &asked.of {
        None => lines.push(texts.by_itself.to_owned()),
        Some(layout) => {
            let opened = shop_in_use(asked.shop.as_deref(), own_shop)
                .and_then(|used| open(layout, judged_by(&used, asked.today), asked.language));
            let loaded = match opened {
                Ok(loaded) => loaded,
                Err(faults) => return not_read(faults, errors),
            };
            errors.tell_passed_over(&loaded.passed_over);
            let name = asked.arrangement.as_deref().unwrap_or(&document.set_up);
            let arrangements = match chosen(&loaded, Some(name), errors) {
                Ok(chosen) => chosen,
                Err(outcome) => return outcome,
            };
            for own in arrangements {
                lines.push(match is_of(&document.proof, &Given::of(own, document.stays)) {
                    Ok(()) => texts.is_of.to_owned(),
                    Err(solid) => {
                        outcome = Outcome::NotReady;
                        solid.map_or_else(|| texts.larger_room.to_owned(), |own| texts.not_of(&own.of))
                    }
                });
            }
        }
    }
    if asked.quiet && outcome == Outcome::Ready {
        return outcome;
    }
    lines.push(texts.rests_on.to_owned());
    outcome.max(said(lines.iter().try_for_each(|line| out.lines(line)), errors))
}

/// Looks for a proof that an arrangement fits nowhere, says what was found, and writes the proof, if there is one, into a file
/// that is made from `made_from`. Ready is that one was written.
pub(crate) fn prove(
    arrangement: &Arrangement,
    stays: Stays,
    locale: Locale,
    (output, made_from): (&Path, &[&Path]),
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    if let Err(fault) = may_be_output(output, made_from) {
        errors.tell(Trouble::File(fault));
        return Outcome::NotWritten;
    }
    let texts = locale.language.never();
    let given = Given::of(arrangement, stays);
    let proof = match never(&given, MOST_CELLS, &|| false, &mut |_| {}) {
        Never::Proven(proof) => *proof,
        found => {
            let told = if matches!(found, Never::Free(_)) { texts.free } else { texts.not_proven };
            return Outcome::NotReady.max(said(out.lines(told), errors));
        }
    };
    let short = short(&given, &proof, &|| false);
    let document = Document::of(arrangement, stays, proof);
    let written = never_text(&document, &output.display().to_string())
        .and_then(|text| write_output(output, text.as_bytes(), made_from));
    if let Err(fault) = written {
        errors.tell(Trouble::File(fault));
        return Outcome::NotWritten;
    }
    let told = out.lines(&Words::new(arrangement, locale).never_fits(short.as_ref()));
    said(told.and_then(|()| out.lines(texts.rests_on)), errors)
}
