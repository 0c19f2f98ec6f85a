//! A finding in words: how bad, why its limit, and all of it in one line.

use super::{About, sentence_start};
use crate::assessment::{Basis, Finding, Severity, Subject};
use crate::model::Provenance;

impl About<'_> {
    /// How bad, in words.
    pub const fn severity(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "stops the aiming",
            Severity::Care => "needs care",
            Severity::Note => "note",
        }
    }

    /// Where the limit comes from.
    pub fn why(&self, finding: &Finding) -> String {
        match &finding.basis {
            Basis::Procedure(provenance) => {
                format!("The aiming's own figure: {}.", self.provenance(provenance))
            }
            Basis::Published(source) => format!("{source}."),
            Basis::CommonPractice => "Common practice, no source.".to_owned(),
            Basis::Shop(figure) => self.of_shop(*figure),
            Basis::Geometry => {
                "Two things cannot be in one place, and what is hidden cannot be seen.".to_owned()
            }
            Basis::AsEntered => "As entered.".to_owned(),
        }
    }

    /// Where figures come from.
    pub fn provenance(&self, provenance: &Provenance) -> String {
        match provenance {
            Provenance::Example => "an invented example".to_owned(),
            Provenance::NotGiven => "not given yet".to_owned(),
            Provenance::Maker { document, date: Some(date) } => {
                format!("the maker's service information, {document}, {}", self.locale.region.day(*date))
            }
            Provenance::Maker { document, date: None } => {
                format!("the maker's service information, {document}")
            }
            Provenance::Measured { by, date: Some(date) } => {
                format!("measured by {by}, {}", self.locale.region.day(*date))
            }
            Provenance::Measured { by, date: None } => format!("measured by {by}"),
            Provenance::Published { source } => format!("published: {source}"),
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

    /// A subject without its article, for the start of a title and after "the".
    pub fn bare_subject(&self, subject: &Subject) -> String {
        let text = self.subject(subject);
        text.strip_prefix("the ").map_or(text.clone(), str::to_owned)
    }
}
