//! Things on their own, as a layout's file has them: what goes from one layout to another by the clipboard.

use baywright_planner::model::Thing;
use ron::ser::PrettyConfig;

use super::{ThingFile, from_model, to_model};
use crate::parse::options;
use crate::shape::Faults;
use crate::text::Text;

/// More than so many are no handful to be put somewhere.
const MOST_THINGS: usize = 500;
/// A longer text is none of ours, bytes.
const LONGEST: usize = 1 << 20;

/// The text of some things: the list that stands under `things` in a layout's file.
pub fn things_text(things: &[Thing]) -> String {
    let files: Vec<ThingFile> = things.iter().map(from_model::thing).collect();
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(1).struct_names(false);
    // Names and figures can be written, always.
    options().to_string_pretty(&files, pretty).unwrap_or_default()
}

/// The things that a text holds: a list of them, or some lines of one, as they are copied out of a file. `None` if it holds
/// anything else, or nothing. Whether they are sound where they go is asked there.
pub fn things_of(text: &str) -> Option<Vec<Thing>> {
    let text = text.trim();
    if text.len() > LONGEST {
        return None;
    }
    let listed = if text.starts_with('[') { text.to_owned() } else { format!("[{text}]") };
    let files: Vec<ThingFile> = Text::new("", &listed).parse().ok()?;
    if files.is_empty() || files.len() > MOST_THINGS {
        return None;
    }
    let mut faults = Faults::default();
    let things: Vec<Thing> = files.iter().filter_map(|file| to_model::thing("", file, &mut faults)).collect();
    let is_somewhere = |own: &Thing| own.place.at.origin().is_finite() && own.place.at.heading().is_finite();
    (faults.0.is_empty() && things.len() == files.len() && things.iter().all(is_somewhere)).then_some(things)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn demo() -> Vec<Thing> {
        let text = crate::embedded::LAYOUTS.iter().find(|own| own.name.contains("crowded")).unwrap().text;
        crate::open::parse_layout("crowded-bay", "crowded-bay", text).unwrap().bay.things
    }

    #[test]
    fn there_and_back() {
        let things = demo();
        assert!(things.len() > 3);
        assert_eq!(things_of(&things_text(&things)), Some(things.clone()));
        // A line of a file, with its comma, is as good.
        let one = things_text(&things[..1]);
        let line = one.trim().trim_start_matches('[').trim_end_matches(']');
        assert_eq!(things_of(line), Some(things[..1].to_vec()));
    }

    #[test]
    fn what_is_no_thing_is_none() {
        for text in ["", "[]", "hello", "(name: \"x\")", "[1, 2]", "\u{0}", "(((((("] {
            assert_eq!(things_of(text), None, "{text}");
        }
        let things = demo();
        let broken = things_text(&things[..1]).replace("top_mm: ", "top_mm: -");
        assert_eq!(things_of(&broken), None);
    }
}
