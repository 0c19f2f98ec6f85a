//! Invariants of a list of what asks for aimings.

use super::super::TriggerList;
use super::super::fault::{Allowed, Found};
use super::{Faults, limits};

pub(super) fn check(list: &TriggerList, faults: &mut Faults) {
    faults.name("name", &list.name);
    faults.source("source", &list.provenance);
    faults.count("triggers", list.triggers.len(), limits::MOST_PARTS);
    faults.unique(list.triggers.iter().enumerate().map(|(i, t)| (format!("triggers[{i}].name"), &t.id)));
    for (i, trigger) in list.triggers.iter().enumerate() {
        let path = format!("triggers[{i}]");
        faults.name(format!("{path}.name"), trigger.id.as_str());
        faults.name(format!("{path}.title"), &trigger.title);
        if !trigger.note.is_empty() {
            faults.text(format!("{path}.note"), &trigger.note, limits::LONGEST_TEXT);
        }
        if trigger.asks.is_empty() && trigger.note.is_empty() {
            faults.add(format!("{path}.asks"), Found::EmptyList, Allowed::KindsOrNote);
        }
        for (j, group) in trigger.asks.iter().enumerate() {
            if trigger.asks.iter().take(j).any(|earlier| earlier == group) {
                faults.add(format!("{path}.asks[{j}]"), Found::KindAgain, Allowed::EachKindOnce);
            }
        }
        faults.source(&format!("{path}.source"), &trigger.provenance);
    }
}
