//! What the words made and what somebody typed: in the language for tests every text of the words stands in brackets.

use std::collections::BTreeSet;

use baywright_planner::model::{Arrangement, Id, Layout, Vehicle};
use baywright_planner::words::sentence_start;

/// Names and texts that somebody typed.
#[derive(Clone, Debug, Default)]
pub struct Typed(pub BTreeSet<String>);

impl Typed {
    /// The names in a layout.
    pub fn learn(&mut self, layout: &Layout) {
        let bay = &layout.bay;
        let mut ids: Vec<&Id> = Vec::new();
        ids.extend(bay.walls.iter().map(|own| &own.id));
        ids.extend(bay.openings.iter().map(|own| &own.id));
        ids.extend(bay.floor_features.iter().map(|own| &own.id));
        ids.extend(bay.runways.iter().map(|own| &own.id));
        ids.extend(bay.keep_free.iter().map(|own| &own.id));
        ids.extend(bay.bays.iter().map(|own| &own.id));
        ids.extend(bay.marks.iter().map(|own| &own.id));
        ids.extend(bay.things.iter().map(|own| &own.id));
        ids.extend(layout.arrangements.iter().flat_map(|own| [&own.id, &own.vehicle, &own.aiming]));
        self.0.extend(ids.into_iter().map(Id::to_string));
        self.0.insert(bay.name.clone());
    }

    /// The names in an arrangement.
    pub fn learn_arrangement(&mut self, own: &Arrangement) {
        self.0.extend(own.bay.things.iter().map(|own| own.id.to_string()));
        self.0.insert(own.id.to_string());
        self.learn_car(&own.vehicle);
    }

    /// The names in a car.
    pub fn learn_car(&mut self, car: &Vehicle) {
        self.0.extend([car.name.clone(), car.id.to_string()]);
        self.0.extend(car.sensors.iter().map(|own| own.id.to_string()));
        self.0.extend(car.body_points.iter().map(|own| own.id.to_string()));
        for aiming in &car.aimings {
            self.0.extend([aiming.name.clone(), aiming.id.to_string()]);
            self.0.extend(aiming.conditions.iter().chain(&aiming.have_ready).cloned());
            self.0.extend(aiming.placements.iter().map(|own| own.id.to_string()));
            self.0.extend(aiming.zones.iter().map(|own| own.id.to_string()));
            self.0.extend(aiming.mark_plan.iter().map(|own| own.id.to_string()));
        }
    }

    /// Whether the words made a text, or it is none of theirs: a name, a figure with its unit, the letter of a finding, a path.
    /// Two texts of the words that were put together outside them are not made by them.
    pub fn is_made(&self, text: &str) -> bool {
        let whole = unlettered(text);
        let text = whole.trim_matches(|c: char| !c.is_alphanumeric() && !"⟦⟧…".contains(c));
        if text.starts_with('⟦') {
            return is_one(text);
        }
        if text.contains(['⟦', '⟧']) {
            return false;
        }
        if text.contains('/') || text.ends_with(".ron") || text.ends_with(".svg") {
            return true;
        }
        if let Some(begun) = text.strip_suffix('…')
            && self.0.iter().any(|name| name.starts_with(begun) || sentence_start(name).starts_with(begun))
        {
            return true;
        }
        let mut names: Vec<&String> = self.0.iter().filter(|name| !name.is_empty()).collect();
        names.sort_by_key(|name| std::cmp::Reverse(name.len()));
        // A name may end in a bracket or a full stop of its own.
        let rest = names.into_iter().fold(whole.to_owned(), |rest, name| {
            rest.replace(name.as_str(), " ").replace(&sentence_start(name), " ")
        });
        rest.split_whitespace().all(|word| {
            let word = word.trim_matches(|c: char| !c.is_alphanumeric());
            let letter = (1..=2).contains(&word.len()) && word.chars().all(|c| c.is_ascii_uppercase());
            let unit = ["mm", "m", "ft", "in", "GHz", "dBsm"].contains(&word);
            letter || unit || !word.chars().any(char::is_alphabetic)
        })
    }
}

/// Without the letter that stands before a finding in a list.
fn unlettered(text: &str) -> &str {
    match text.trim_start().split_once(". ") {
        Some((letter, rest)) if !letter.is_empty() && letter.chars().all(|c| c.is_ascii_uppercase()) => rest,
        _ => text,
    }
}

/// One text in brackets, whole or cut off at its end; not two put together.
fn is_one(text: &str) -> bool {
    let mut depth = 0;
    for (at, c) in text.char_indices() {
        depth += match c {
            '⟦' => 1,
            '⟧' => -1,
            _ => 0,
        };
        if depth == 0 {
            return at + c.len_utf8() == text.len();
        }
    }
    text.ends_with('…')
}

/// Fails with all that was found, so that it can be mended at once.
pub fn must_be_empty(found: &BTreeSet<String>) {
    let lines: Vec<&str> = found.iter().map(String::as_str).collect();
    assert!(found.is_empty(), "{} texts that no words made:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn what_is_not_made_is_seen() {
    let mut typed = Typed::default();
    typed.0.insert("trolley".to_owned());
    for text in [
        "⟦Trolley is in the way⟧",
        "B. ⟦of ⟦all⟧ of it⟧",
        "⟦cut o…",
        "trolley",
        "3 600 mm",
        "7 ft 6 in",
        "7\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}",
        "A",
        "/a/b",
    ] {
        assert!(typed.is_made(text), "{text}");
    }
    for text in ["Undo", "⟦a⟧: ⟦b⟧", "the trolley", "⟦a⟧ and ⟦b⟧", "trolley ⟦is⟧", "mark 3"]
    {
        assert!(!typed.is_made(text), "{text}");
    }
}
