//! The file of proof of the record that is open, among the sheets that are printed.

use std::path::PathBuf;
use std::sync::Arc;

use baywright_drawing::sheet::{About, Paper, ProofOf, proof_file};
use baywright_drawing::{Lettering, Page};
use baywright_files::{Kept, shown_attachments};
use baywright_planner::record::Part;

use super::parts::OwnPart;
use crate::screen::Desk;

/// What it is made from: the record as it is, and its set-ups.
#[derive(Clone, Debug)]
pub(in crate::screen) struct ProofFrom {
    kept: Arc<Kept>,
    /// Where the record lies: what belongs to it lies beside it.
    path: PathBuf,
    parts: Vec<OwnPart>,
}

impl PartialEq for ProofFrom {
    fn eq(&self, other: &Self) -> bool {
        let is_same = |(one, other): (&OwnPart, &OwnPart)| {
            Arc::ptr_eq(&one.arrangement, &other.arrangement)
                && Arc::ptr_eq(&one.assessment, &other.assessment)
        };
        self.kept.head() == other.kept.head()
            && self.path == other.path
            && self.parts.len() == other.parts.len()
            && self.parts.iter().zip(&other.parts).all(is_same)
    }
}

impl ProofFrom {
    /// Its pages.
    pub fn pages(&self, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
        let part = |own: &OwnPart| (Arc::clone(&own.arrangement), Arc::clone(&own.assessment));
        let parts: Vec<_> = self.parts.iter().map(part).collect();
        let parts: Vec<Part<'_>> =
            parts.iter().map(|(arrangement, assessment)| Part { arrangement, assessment }).collect();
        let kept = &self.kept;
        let shown = shown_attachments(&self.path, kept.record());
        let of = ProofOf {
            record: kept.record(),
            head: kept.head(),
            broken: kept.broken(),
            parts: &parts,
            shown: &shown,
        };
        proof_file(&of, paper, about, lettering)
    }
}

impl Desk {
    /// Of the record that is open; `None` where none is.
    pub(in crate::screen) fn proof_from(&self) -> Option<ProofFrom> {
        let in_hand = self.record.in_hand.as_ref()?;
        Some(ProofFrom {
            kept: Arc::clone(in_hand.kept()),
            path: in_hand.path().to_owned(),
            parts: self.record.parts.all().to_vec(),
        })
    }
}
