//! What is found of the set-ups, and with what of it somebody goes on.

use super::{Holds, Part};
use crate::assessment::{Finding, Quantity, Severity, Subject};
use crate::geometry::angle;
use crate::model::record::{AcceptedFinding, Entry, VisitRecord, What};
use crate::model::{Arrangement, Id};

/// A finding that stops an aiming of the visit or needs care.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenFinding<'a> {
    /// Of which aiming.
    pub aiming: Id,
    /// Its place among the assessment's findings.
    pub nth: usize,
    /// The finding.
    pub finding: &'a Finding,
    /// The entry by which somebody goes on with it as it is now; `None`: nobody does.
    pub accepted: Option<&'a Entry>,
}

/// What stops or needs care in these set-ups, in their order, each with the last acceptance that is of it as it is now: of another kind,
/// about something else or with another figure it is another finding.
pub fn open_findings<'a>(record: &'a VisitRecord, parts: &[Part<'a>]) -> Vec<OpenFinding<'a>> {
    let entries = Holds::of(record).entries();
    let of = |part: &Part<'a>| {
        let aiming = part.aiming().clone();
        let findings = part.assessment.findings.iter().enumerate();
        let open = findings.filter(|(_, own)| own.severity != Severity::Note);
        let open = open.map(|(nth, finding)| OpenFinding {
            accepted: entries.iter().rev().map(|(_, own)| *own).find(|own| is_of(own, &aiming, finding)),
            aiming: aiming.clone(),
            nth,
            finding,
        });
        open.collect::<Vec<_>>()
    };
    parts.iter().flat_map(of).collect()
}

fn is_of(entry: &Entry, aiming: &Id, finding: &Finding) -> bool {
    /// Figures differ if they are written differently.
    const SAME: f64 = 1e-3;
    let What::Accepted(own) = &entry.what else { return false };
    let measured = match (own.measured, measured(finding)) {
        (None, None) => true,
        (Some(then), Some(now)) => (then - now).abs() <= SAME,
        _ => false,
    };
    own.aiming == *aiming && own.code == finding.code().as_str() && own.about == about(finding) && measured
}

/// That somebody goes on with a finding. `said`: its sentence in English and in German, for whoever reads it later; `why`: in that person's
/// own words.
pub fn accept(arrangement: &Arrangement, finding: &Finding, said: [String; 2], why: &str) -> What {
    let [in_english, in_german] = said;
    What::Accepted(AcceptedFinding {
        aiming: arrangement.aiming.id.clone(),
        code: finding.code().as_str().to_owned(),
        about: about(finding),
        measured: measured(finding),
        in_english,
        in_german,
        why: why.to_owned(),
    })
}

/// What was measured, mm, degrees, a share, a ratio or days, as files hold it.
pub fn measured(finding: &Finding) -> Option<f64> {
    let value = match finding.measured? {
        Quantity::Length(own) | Quantity::Share(own) | Quantity::Ratio(own) => own,
        Quantity::Angle(own) => angle::degrees(own),
        Quantity::Days(own) => own as f64,
    };
    value.is_finite().then(|| (value * 1e6).round() / 1e6)
}

/// What a finding is about, the culprit first, in words that do not change: they are compared, and stand in the file.
pub fn about(finding: &Finding) -> Vec<String> {
    let named = |kind: &str, id: &Id| format!("{kind}: {id}");
    let word = |own: &Subject| match own {
        Subject::Car => "car".to_owned(),
        Subject::Thing(id) => named("thing", id),
        Subject::Zone(id) => named("zone", id),
        Subject::Target(id) => named("target", id),
        Subject::Stand(id) => named("stand", id),
        Subject::Sensor => "sensor".to_owned(),
        Subject::Wall(id) => named("wall", id),
        Subject::Opening(id) => named("opening", id),
        Subject::FloorFeature(id) => named("floor", id),
        Subject::Runway(id) => named("runway", id),
        Subject::KeepFree(id) => named("keep free", id),
        Subject::HallBay(id) => named("bay", id),
        Subject::Mark(id) => named("mark", id),
        Subject::Dimension(id) => named("dimension", id),
        Subject::Run(from, to) => format!("run: {from} to {to}"),
        Subject::Ceiling => "ceiling".to_owned(),
        Subject::Floor => "floor".to_owned(),
        Subject::Figures => "figures".to_owned(),
    };
    /// More of them tell no finding from another.
    const MOST: usize = 20;
    finding.subjects.iter().take(MOST).map(word).collect()
}
