//! What belongs to the visit: each by its name and hash, and pictures themselves.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::record::{Attachment, StepId};
use baywright_planner::record::{Held, Shown};

use super::{Proof, grouped, text};
use crate::page::Photo;
use crate::pdf::takes;
use crate::sheet::flow::{Flow, px};

/// Two to a page: each takes at most such a share of it with what is said under it.
const SHARE: f64 = 0.42;
/// A picture of few dots is not blown up beyond so many mm for each of them: 100 dots to the inch.
const MOST_MM_PER_DOT: f64 = 0.254;

/// The list, what of it is not printed and why, and the pictures.
pub(super) fn attachments(own: &Proof<'_>, flow: &mut Flow<'_>) {
    let texts = own.texts;
    own.heading(flow, texts.attachments);
    let all = own.holds.attachments();
    if all.is_empty() {
        flow.read(texts.no_attachment, None);
        return;
    }
    let step = |of: &Option<StepId>| match of {
        Some(step) => own.said.step_of(&own.of.record.begun, step),
        None => "\u{2013}".to_owned(),
    };
    let rows = all.iter().map(|held| {
        vec![
            text(own.said.attachment_kind(held.what.kind)),
            text(&*held.what.file),
            text(texts.size_of(own.locale, held.what.bytes)),
            text(step(&held.what.step)),
            text(grouped(&held.what.sha256)),
            own.who(held.entry),
        ]
    });
    let columns = [
        (texts.kind, 1.7),
        (texts.file, 2.0),
        (texts.size, 0.9),
        (texts.step, 1.9),
        (texts.sha256, 2.4),
        (texts.who, 1.8),
    ];
    own.table(flow, &columns, rows.collect());
    let mut is_first = true;
    for (held, shown) in all.iter().zip(own.of.shown) {
        let photo = match shown {
            Shown::Picture(picture) if takes(picture) => picture,
            // What the writer does not take is no picture for it.
            Shown::Picture(_) => {
                flow.read(&texts.not_shown(&held.what.file, &Shown::NotRead).unwrap_or_default(), None);
                continue;
            }
            other => {
                if let Some(said) = texts.not_shown(&held.what.file, other) {
                    flow.read(&said, None);
                }
                continue;
            }
        };
        if std::mem::take(&mut is_first) {
            flow.gap(2.0);
        } else {
            flow.gap(4.0);
        }
        let under = under(own, held, &step(&held.what.step), photo.is_smaller);
        let said = format!("{}: {}", own.said.attachment_kind(held.what.kind), held.what.file);
        let [wide, high] = photo.upright();
        let most = DVec2::new(flow.width(), flow.height() * SHARE);
        let scale = (most.x / wide).min(most.y / high).min(px(MOST_MM_PER_DOT));
        flow.photo(Photo { picture: photo.clone(), said }, DVec2::new(wide, high) * scale, &under);
    }
}

/// What is said under a picture.
fn under(own: &Proof<'_>, held: &Held<'_, Attachment>, step: &str, is_smaller: bool) -> String {
    let what = held.what;
    let step = if what.step.is_some() { format!(", {step}") } else { String::new() };
    let of = format!("{} ({}){step}.", what.file, own.said.attachment_kind(what.kind));
    let smaller = if is_smaller { format!(" {}", own.texts.smaller) } else { String::new() };
    format!("{of} SHA-256 {}.{smaller}", grouped(&what.sha256))
}
