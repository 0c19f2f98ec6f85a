//! What stands beside a thing on a drawing.

use std::borrow::Cow;

use baywright_planner::Subject;
use baywright_planner::model::{Arrangement, Thing};
use baywright_planner::words::Words;

/// Its own name, or whose it is that stands there for another set-up; `None` of a part of something that bears its name elsewhere.
pub fn thing_name<'a>(
    arrangement: &Arrangement,
    words: &Words<'_>,
    thing: &'a Thing,
) -> Option<Cow<'a, str>> {
    if !arrangement.is_named(&thing.id) {
        return None;
    }
    Some(match arrangement.part_beside(&thing.id) {
        Some(_) => Cow::Owned(words.bare_subject(&Subject::Thing(thing.id.clone()))),
        None => Cow::Borrowed(thing.id.as_str()),
    })
}
