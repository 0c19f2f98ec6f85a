//! Doors that somebody may open while it is aimed, in words.

use super::About;
use super::names::the;
use super::unsure::{NAMED, and_more};
use crate::assessment::{Finding, Opened, Reaches, Subject};
use crate::check::STEP_IN_MM;
use crate::model::Id;

impl About<'_> {
    /// The title of what a shut door may bring.
    pub(super) fn shut_door_title(&self, by: Opened, parts: &[Reaches], finding: &Finding) -> String {
        let Some(Subject::Opening(door)) = finding.subjects.first() else { return String::new() };
        let name = the(door);
        match by {
            Opened::Leaf => {
                let to = match parts.first().map(|part| &part.of) {
                    Some(Subject::Mark(_)) => "über",
                    _ => "in",
                };
                let met = self.each_used(parts, Self::used_accusative);
                format!("{name} kann beim Öffnen {to} {met} schlagen")
            }
            Opened::Step => {
                let met = self.each_used(parts, Self::used_dative);
                format!("durch {name} kann jemand herein, bis auf einen Schritt neben {met}")
            }
            Opened::Never => self.keep_shut(door),
        }
    }

    /// What is known of it.
    pub(super) fn shut_door(&self, by: Opened, parts: &[Reaches]) -> String {
        match by {
            Opened::Leaf => "Der Anschlag ist nicht angegeben: Das Türblatt gilt im Viertelkreis um jeden der beiden Pfosten. \
                             Wer von außen öffnet, weiß nichts von der Einstellung."
                .to_owned(),
            Opened::Step => format!(
                "Ein Schritt herein sind {}. Wer von außen öffnet, weiß nichts von der Einstellung.",
                self.length(STEP_IN_MM)
            ),
            Opened::Never if parts.is_empty() => {
                "Nichts von dieser Aufstellung ist im Weg: Dafür muss nichts geschlossen bleiben.".to_owned()
            }
            Opened::Never => {
                format!("Offen kann es stören: {}.", self.each_used(parts, Self::used))
            }
        }
    }

    /// To keep a door shut: a way out stays unlocked.
    pub(super) fn keep_shut(&self, door: &Id) -> String {
        let door_of = |id: &Id| self.arrangement.bay.openings.iter().find(|own| own.id == *id);
        let how = match door_of(door).is_some_and(|own| own.is_exit) {
            true => "geschlossen halten, aber nicht verriegeln, und jemanden davorstellen",
            false => "geschlossen und verriegelt halten",
        };
        format!("{} bei der Einstellung {how}", the(door))
    }

    fn each_used(&self, parts: &[Reaches], said: impl Fn(&Self, &Reaches) -> String) -> String {
        let named = parts.iter().take(NAMED).map(|part| said(self, part)).collect();
        and_more(named, parts.len())
    }
}
