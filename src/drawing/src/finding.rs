//! Which findings are flagged on a drawing, with which number, and where they share a place that cannot be shared.

use std::collections::BTreeSet;

use baywright_planner::geometry::{Outline, Polygon, Prism, Span, difference, overlap_region};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::{Assessment, Code, Finding, Severity, Subject};

/// A finding that has a flag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flagged<'a> {
    /// Its number: what stops and what needs care, counted from 1.
    pub number: usize,
    /// Its position in the assessment's list.
    pub index: usize,
    /// The finding.
    pub finding: &'a Finding,
}

/// The findings that have a number, in order. Notes are not: they are not about a place.
pub fn flagged(assessment: &Assessment) -> impl Iterator<Item = Flagged<'_>> {
    let told = assessment.findings.iter().enumerate().filter(|(_, f)| f.severity != Severity::Note);
    told.zip(1..).map(|((index, finding), number)| Flagged { number, index, finding })
}

impl Flagged<'_> {
    /// Whether a drawing can point at what it is about: not at the floor or the ceiling as a whole, nor at figures.
    pub fn has_place(&self) -> bool {
        !matches!(
            self.finding.subjects.first(),
            None | Some(Subject::Floor | Subject::Ceiling | Subject::Figures)
        )
    }
}

/// The findings that have a flag on the drawing itself; the others stand in the key only.
pub fn pinned(assessment: &Assessment) -> impl Iterator<Item = Flagged<'_>> {
    flagged(assessment).filter(Flagged::has_place)
}

/// The things that a flagged finding is about, each once.
pub(crate) fn blamed(assessment: &Assessment) -> BTreeSet<&Id> {
    let subjects = flagged(assessment).flat_map(|told| &told.finding.subjects);
    subjects.filter_map(|subject| if let Subject::Thing(id) = subject { Some(id) } else { None }).collect()
}

/// Whether a flagged finding is about it, whatever else it is about.
pub(crate) fn is_told(assessment: &Assessment, subject: &Subject) -> bool {
    flagged(assessment).any(|told| told.finding.subjects.contains(subject))
}

/// The things that stop the aiming.
pub(crate) fn stopping(assessment: &Assessment) -> BTreeSet<&Id> {
    let stops = assessment.findings.iter().filter(|finding| finding.severity == Severity::Stops);
    stops.filter_map(Finding::culprit).collect()
}

/// A region that two share and cannot, with its heights.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Shared {
    pub region: Polygon,
    pub heights: Span,
}

/// Where the two that a finding is about share plan and height; what lies outside the room if it is about that.
pub(crate) fn shared(arrangement: &Arrangement, assessment: &Assessment, finding: &Finding) -> Vec<Shared> {
    match (finding.code(), finding.subjects.as_slice()) {
        (Code::OutsideRoom, [culprit, ..]) => solids(arrangement, assessment, culprit)
            .iter()
            .flat_map(|solid| {
                let room = assessment.scene.room.holding(&solid.span);
                let outside = difference(&solid.outline.as_polygon(), &room);
                outside.into_iter().map(|region| Shared { region, heights: solid.span })
            })
            .collect(),
        (
            Code::ZoneObject | Code::ZoneUnjudged | Code::CarClash | Code::StandClash | Code::KeepFree,
            [culprit, other, ..],
        ) => {
            let others = solids(arrangement, assessment, other);
            solids(arrangement, assessment, culprit)
                .iter()
                .flat_map(|a| others.iter().map(move |b| (a, b)))
                .filter_map(|(a, b)| Some((a.span.shared(&b.span)?, overlap_region(&a.outline, &b.outline))))
                .flat_map(|(heights, regions)| {
                    regions.into_iter().map(move |region| Shared { region, heights })
                })
                .collect()
        }
        // What of the thing lies between the sensor and the face.
        (Code::SightBlocked, [culprit, Subject::Target(target), ..]) => {
            let seen =
                assessment.scene.targets.iter().find(|t| t.id == *target).and_then(|t| t.face.as_ref());
            let Some(face) = seen else { return Vec::new() };
            let half = face.width() * 0.5;
            let corners = vec![
                assessment.scene.sensor().truncate(),
                face.point(half, 0.0).truncate(),
                face.point(-half, 0.0).truncate(),
            ];
            let Ok(wedge) = Polygon::simple(corners) else { return Vec::new() };
            let wedge = Outline::Polygon(wedge);
            solids(arrangement, assessment, culprit)
                .iter()
                .flat_map(|solid| {
                    let regions = overlap_region(&solid.outline, &wedge);
                    regions.into_iter().map(|region| Shared { region, heights: solid.span })
                })
                .collect()
        }
        _ => Vec::new(),
    }
}

/// The solids that hide something of a target, or of any: what findings say so of, but the target itself.
pub(crate) fn hiding(arrangement: &Arrangement, assessment: &Assessment, target: Option<&Id>) -> Vec<Prism> {
    let told = assessment.findings.iter().filter(|finding| finding.code() == Code::SightBlocked);
    let hiders = told.filter_map(|finding| match finding.subjects.as_slice() {
        // The car's own body is round the sensor: it would end every line where it begins.
        [Subject::Car, ..] => None,
        [hider, Subject::Target(of), ..] if target.is_none_or(|wanted| wanted == of) => Some(hider),
        _ => None,
    });
    hiders.flat_map(|hider| solids(arrangement, assessment, hider)).collect()
}

/// The solids that a subject fills or claims, bay frame.
pub(crate) fn solids(arrangement: &Arrangement, assessment: &Assessment, subject: &Subject) -> Vec<Prism> {
    let scene = &assessment.scene;
    let flat = |outline: &Polygon, top: f64| {
        Span::new(0.0, top).ok().map(|span| Prism::new(Outline::Polygon(outline.clone()), span))
    };
    match subject {
        Subject::Car => scene.car.clone(),
        Subject::Thing(id) => {
            let things = arrangement.bay.things.iter().zip(&scene.things);
            things.filter(|(thing, _)| thing.id == *id).map(|(_, placed)| placed.prism.clone()).collect()
        }
        Subject::Zone(id) => scene.zones.iter().filter(|z| z.id == *id).map(|z| z.prism.clone()).collect(),
        Subject::Target(id) | Subject::Stand(id) => {
            scene.targets.iter().filter(|t| t.id == *id).flat_map(|t| t.solids.iter().cloned()).collect()
        }
        Subject::FloorFeature(id) => {
            let own = arrangement.bay.floor_features.iter().filter(|f| f.id == *id);
            own.filter_map(|f| flat(&f.outline, THIN_MM)).collect()
        }
        Subject::Runway(id) => {
            let own = arrangement.bay.runways.iter().filter(|r| r.id == *id);
            own.filter_map(|r| flat(&r.outline, r.top_mm)).collect()
        }
        Subject::HallBay(id) => {
            let own = arrangement.bay.bays.iter().filter(|own| own.id == *id);
            own.filter_map(|own| flat(&own.outline, THIN_MM)).collect()
        }
        // Local rules want the whole height.
        Subject::KeepFree(id) => {
            let own = arrangement.bay.keep_free.iter().filter(|k| k.id == *id);
            own.filter_map(|k| flat(&k.outline, arrangement.bay.ceiling_mm)).collect()
        }
        _ => Vec::new(),
    }
}

/// What is flat on the floor has this height where a height is needed, mm.
const THIN_MM: f64 = 1.0;
