//! The distances between marks as they are walked through: in which order their boxes stand, which one is read now, and what the last
//! one came to.

use baywright_planner::model::Id;
use baywright_planner::model::record::{StepKind, What};
use baywright_planner::proof::{NextTape, Row, Said};
use baywright_planner::record::Holds;

use super::boxes::BoxOf;
use super::{RecordPage, Side};
use crate::screen::Desk;

impl Desk {
    /// Before anything is drawn: the order of the boxes, as long as none is known, and what the distance that was read last came to.
    pub(super) fn follow_tapes(&mut self, page: &mut RecordPage) {
        let is_there = page.at.as_ref().is_some_and(|own| own.kind == StepKind::CheckDistances);
        if !is_there || page.side != Side::Step {
            return;
        }
        if page.tapes.is_empty() {
            page.tapes = in_order(page);
        }
        if let Some(told) = page.read_last.take().and_then(|(from, to)| self.read_told(page, &from, &to)) {
            self.say(told);
        }
    }

    /// What was read between two marks against what it must be, and what all of it comes to by that.
    fn read_told(&self, page: &RecordPage, from: &Id, to: &Id) -> Option<String> {
        let (proof, locale) = (page.parts.proof()?, self.view.locale);
        let row = proof.rows.iter().find(|own| own.from == *from && own.to == *to)?;
        let read_mm = row.read_mm?;
        let beyond = (read_mm - row.should_mm).abs() - row.allowance_mm;
        let beyond = (beyond > 0.0).then(|| locale.length(beyond));
        let words = self.words();
        let own = if row.is_again() {
            words.laid_twice(&row.from, read_mm, row.allowance_mm)
        } else {
            locale.language.record_page().tape_read(
                from.as_str(),
                to.as_str(),
                &locale.length(read_mm),
                &locale.length(row.should_mm),
                &locale.bare(row.allowance_mm),
                beyond.as_deref(),
            )
        };
        let is_inside = |said: &Said| matches!(said, Said::Inside { .. });
        let worst = proof.figures.iter().find(|own| !is_inside(&own.said)).or_else(|| proof.figures.first());
        let doubt = words.doubt(&proof.doubt);
        let next = (!matches!(proof.next, NextTape::Again { .. })).then(|| words.next_tape(&proof.next));
        let laid = worst.map(|own| words.laid(own));
        // Where there is little room what does not fit comes before all else; the rest stands below the boxes.
        let all = if page.is_thin { [Some(own), doubt, None] } else { [Some(own), doubt.or(laid), next] };
        Some(all.into_iter().flatten().collect::<Vec<_>>().join(" "))
    }

    /// Which distance is read now: that of the box with the keyboard, else the one that settles most; `None` where none is left.
    pub(super) fn tape_now(&self, page: &RecordPage) -> Option<String> {
        let proof = page.parts.proof()?;
        let here = page.boxed.as_ref().filter(|_| page.at_box.is_some()).and_then(|own| match &own.of {
            BoxOf::Tape(from, to) => Some((from, to)),
            _ => None,
        });
        let next = match &proof.next {
            NextTape::Tape { from, to } | NextTape::Again { from, to } => Some((from, to)),
            NextTape::LayAgain(mark) => Some((mark, mark)),
            NextTape::Enough | NextTape::NothingHelps => None,
        };
        let (from, to) = here.or(next)?;
        let row = proof.rows.iter().find(|own| own.from == *from && own.to == *to)?;
        if row.is_again() {
            let [now, _] = self.words().tape_row(row);
            return Some(now);
        }
        let locale = self.view.locale;
        let (length, allowance) = (locale.length(row.should_mm), locale.bare(row.allowance_mm));
        Some(locale.language.record_page().tape_now(from.as_str(), to.as_str(), &length, &allowance))
    }
}

/// Those that were read in the order in which they were, then the one that settles most, then the others as the plan has them: so Enter walks
/// down, and what was read stands above.
fn in_order(page: &RecordPage) -> Vec<(Id, Id)> {
    let Some((proof, in_hand)) = page.parts.proof().zip(page.in_hand.as_ref()) else { return Vec::new() };
    let aiming = page.at.as_ref().and_then(|own| own.aiming.as_ref());
    let all = Holds::of(in_hand.record()).entries();
    let nth = |row: &Row| {
        let is_of = |what: &What| match what {
            What::Reading(own) if Some(&own.aiming) == aiming => {
                (own.from == row.from && own.to == row.to) || (own.from == row.to && own.to == row.from)
            }
            _ => false,
        };
        all.iter().find(|(_, own)| is_of(&own.what)).map_or(0, |(nth, _)| nth + 1)
    };
    let is_next = |row: &Row| match &proof.next {
        NextTape::Tape { from, to } => *from == row.from && *to == row.to,
        NextTape::LayAgain(mark) => row.is_again() && *mark == row.from,
        NextTape::Again { .. } | NextTape::Enough | NextTape::NothingHelps => false,
    };
    let mut rows: Vec<&Row> = proof.rows.iter().collect();
    rows.sort_by_key(|row| match row.read_mm {
        Some(_) => (0, nth(row)),
        None if is_next(row) => (1, 0),
        None => (2, 0),
    });
    rows.into_iter().map(|own| (own.from.clone(), own.to.clone())).collect()
}
