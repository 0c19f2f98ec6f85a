//! A finding in words: how bad, why its limit, and all of it in one line.

use super::{About, sentence_start};
use crate::assessment::{Basis, Finding, Severity};
use crate::model::Provenance;

impl About<'_> {
    /// How bad, in words.
    pub const fn severity(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "verhindert die Einstellung",
            Severity::Care => "Vorsicht",
            Severity::Note => "Hinweis",
        }
    }

    /// Where the limit comes from.
    pub fn why(&self, finding: &Finding) -> String {
        match &finding.basis {
            Basis::Procedure(provenance) => {
                format!("Angabe der Einstellung selbst: {}.", self.provenance(provenance))
            }
            Basis::Published(source) => format!("{source}."),
            Basis::CommonPractice => "Übliche Praxis, ohne Quelle.".to_owned(),
            Basis::Shop(figure) => self.of_shop(*figure),
            Basis::Geometry => {
                "Zwei Dinge können nicht am selben Platz sein, und was verdeckt ist, ist nicht zu sehen."
                    .to_owned()
            }
            Basis::AsEntered => "Wie eingetragen.".to_owned(),
        }
    }

    /// Where figures come from.
    pub fn provenance(&self, provenance: &Provenance) -> String {
        match provenance {
            Provenance::Example => "erfundenes Beispiel".to_owned(),
            Provenance::NotGiven => "noch nicht angegeben".to_owned(),
            Provenance::Maker { document, date: Some(date) } => {
                format!("Anleitung des Herstellers, {document}, {}", self.locale.region.day(*date))
            }
            Provenance::Maker { document, date: None } => format!("Anleitung des Herstellers, {document}"),
            Provenance::Measured { by, date: Some(date) } => {
                format!("gemessen von {by}, {}", self.locale.region.day(*date))
            }
            Provenance::Measured { by, date: None } => format!("gemessen von {by}"),
            Provenance::Published { source } => format!("veröffentlicht: {source}"),
        }
    }

    /// The same as a sentence.
    pub fn provenance_sentence(&self, provenance: &Provenance) -> String {
        format!("{}.", sentence_start(&self.provenance(provenance)))
    }

    /// The whole finding as one line of text.
    pub fn line(&self, finding: &Finding) -> String {
        let mut line = self.title(finding);
        if let Some(measure) = self.measure(finding) {
            line = format!("{line}: {measure}");
        }
        line.push('.');
        let detail = self.detail(finding);
        if !detail.is_empty() {
            line = format!("{line} {detail}");
        }
        line
    }
}
