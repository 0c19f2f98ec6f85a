//! What a customer is told, one idea at a time, as plain data: what the sensor must see, why what stands about matters, how much
//! empty floor is asked, what is in the way today, what is moved and what it looks like then, and whose work that is.
//!
//! All of it is taken from the set-up's own answer; nothing is added to it, and nothing is said of the sensor.

use baywright_geometry::Bounds;

use crate::assessment::{Assessment, Facts, Severity, Step, Subject, Verdict};
use crate::cure;
use crate::echoes::{How, With, seen};
use crate::judge::judge;
use crate::model::assumed::{AimingPart, Assumed, ZonePart};
use crate::model::{Arrangement, Exclusion, Id, SensorKind, ShopFace, WorkStep};

/// So many things are named on one screen; of the rest only the number is told.
pub const MOST_NAMED: usize = 5;

/// One idea: one screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Idea {
    /// The sensor must see only this target.
    OnlyTarget,
    /// Why what stands about matters to it.
    Why(Sense),
    /// A thing here sends back so much beside the target.
    SendsBack(SendsBack),
    /// So much floor is to be empty.
    EmptyFloor(Asked),
    /// This is in the way today.
    StandsIn(Stands),
    /// This is moved, and so it looks after.
    Moves(Moves),
    /// This is the work, with hands, floor, tape and time.
    Work(Work),
}

/// By what a sensor senses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Radar waves, which come back.
    Radar,
    /// Light that it sends out, which comes back.
    LaserLight,
    /// The light of the day.
    Picture,
}

/// What a thing sends back that a radar may take for its target, as far as smooth, plain shapes do.
#[derive(Clone, Debug, PartialEq)]
pub struct SendsBack {
    /// The thing.
    pub thing: Id,
    /// How much at most, against what the target sends back, dB.
    pub level_db: f64,
}

/// The floor that is asked to be empty.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// Each keep-clear zone, in the aiming's order.
    pub zones: Vec<AskedZone>,
    /// Whether any of it was assumed instead of entered.
    pub is_assumed: bool,
}

/// A keep-clear zone as a customer is told of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AskedZone {
    /// What may not be in it.
    pub excludes: Exclusion,
    /// How far it reaches along its own frame's x axis, mm.
    pub length_mm: f64,
    /// How far it reaches across, mm.
    pub width_mm: f64,
}

/// What is in the way today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stands {
    /// The findings that stop the aiming, by position; each culprit once.
    pub findings: Vec<usize>,
    /// Whether any of it stands in the floor that is to be empty.
    pub in_zone: bool,
    /// How many findings need care.
    pub care: usize,
}

/// What is moved.
#[derive(Clone, Debug, PartialEq)]
pub enum Moves {
    /// Nothing has to be.
    Nothing,
    /// No way is known.
    NotKnown,
    /// This, and then it is so.
    Known(Box<After>),
}

/// What is done, and what it is like then.
#[derive(Clone, Debug, PartialEq)]
pub struct After {
    /// What is done, in order.
    pub steps: Vec<Step>,
    /// The set-up then.
    pub arrangement: Arrangement,
    /// What is said of it.
    pub assessment: Assessment,
}

/// The work of an aiming in this set-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// The steps that it takes, in their order.
    pub steps: Vec<WorkPart>,
    /// All of them together, minutes; `None` if the shop has not said it of every one.
    pub minutes: Option<f64>,
}

/// One step of the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkPart {
    /// Which.
    pub step: WorkStep,
    /// Of how many: things that are moved, marks that are laid, targets that are set up; 1 of what is not counted.
    pub count: usize,
    /// How long it takes in this shop, minutes, if it was said.
    pub minutes: Option<f64>,
}

/// What there is to tell of a set-up, in the order in which it is told. `face` is what the shop says of itself.
pub fn ideas(arrangement: &Arrangement, assessment: &Assessment, face: &ShopFace) -> Vec<Idea> {
    let moves = moves(arrangement, assessment);
    let work = work(arrangement, &moves, face);
    let mut ideas = vec![Idea::OnlyTarget, Idea::Why(sense(&arrangement.sensor.kind))];
    ideas.extend(sends_back(arrangement, assessment).map(Idea::SendsBack));
    ideas.extend([
        Idea::EmptyFloor(asked(arrangement)),
        Idea::StandsIn(stands(assessment)),
        Idea::Moves(moves),
        Idea::Work(work),
    ]);
    ideas
}

/// What sends back less than this against the target is shown to no customer, dB, though it matters: a tenth is seen as a disc.
const SHOWN_FROM_DB: f64 = -10.0;

/// The strongest echo of a thing among those that matter and are as strong as that, straight back to the sensor; `None` where there is none.
fn sends_back(arrangement: &Arrangement, assessment: &Assessment) -> Option<SendsBack> {
    let all = seen(arrangement, &assessment.scene, With::OneMirror);
    let echoes = all.iter().flat_map(|own| &own.echoes).filter(|own| own.heard.matters());
    let of_things = echoes.filter_map(|own| match &own.how {
        How::Straight { of: Subject::Thing(thing), .. } if own.heard.level_db.high() >= SHOWN_FROM_DB => {
            Some(SendsBack { thing: thing.clone(), level_db: own.heard.level_db.high() })
        }
        _ => None,
    });
    // Of two that are as strong the first of the list.
    of_things.reduce(|most, own| if own.level_db > most.level_db { own } else { most })
}

pub(crate) const fn sense(kind: &SensorKind) -> Sense {
    match kind {
        SensorKind::ForwardRadar(_) | SensorKind::CornerRadar(_) => Sense::Radar,
        SensorKind::Lidar => Sense::LaserLight,
        SensorKind::ForwardCamera(_) | SensorKind::SurroundCamera(_) => Sense::Picture,
    }
}

fn asked(arrangement: &Arrangement) -> Asked {
    let aiming = &arrangement.aiming;
    let zones = aiming.zones.iter().map(|zone| {
        let Bounds { low, high } = zone.outline.bounds();
        AskedZone { excludes: zone.excludes, length_mm: high.x - low.x, width_mm: high.y - low.y }
    });
    let is_assumed = arrangement.vehicle.assumed.iter().any(|own| match own {
        Assumed::Aiming(id, part) => {
            *id == aiming.id && matches!(part, AimingPart::ClearAside | AimingPart::ClearAlong)
        }
        Assumed::Zone(id, _, part) => *id == aiming.id && *part == ZonePart::Outline,
        Assumed::Body(_) | Assumed::Sensor(..) => false,
    });
    Asked { zones: zones.collect(), is_assumed }
}

fn stands(assessment: &Assessment) -> Stands {
    let mut findings: Vec<usize> = Vec::new();
    let of = |at: usize| assessment.findings.get(at).and_then(|own| own.culprit());
    for (at, finding) in assessment.findings.iter().enumerate() {
        let is_told = finding.culprit().is_some() && findings.iter().any(|&own| of(own) == finding.culprit());
        if finding.severity == Severity::Stops && !is_told {
            findings.push(at);
        }
    }
    let stops = || assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
    Stands {
        in_zone: stops().any(|own| matches!(own.facts, Facts::ZoneObject(_))),
        care: assessment.count(Severity::Care),
        findings,
    }
}

fn moves(arrangement: &Arrangement, assessment: &Assessment) -> Moves {
    match &assessment.promise {
        _ if assessment.verdict != Verdict::NotReady => Moves::Nothing,
        None => Moves::NotKnown,
        Some(promise) => {
            let after =
                promise.steps.iter().fold(arrangement.clone(), |after, step| cure::apply(&after, step));
            let assessment = judge(&after);
            Moves::Known(Box::new(After { steps: promise.steps.clone(), arrangement: after, assessment }))
        }
    }
}

fn work(arrangement: &Arrangement, moves: &Moves, face: &ShopFace) -> Work {
    let moved = match moves {
        Moves::Known(after) => after.steps.len(),
        Moves::Nothing | Moves::NotKnown => 0,
    };
    let steps: Vec<WorkPart> = WorkStep::ALL
        .into_iter()
        .map(|step| {
            let count = match step {
                WorkStep::Clear | WorkStep::PutBack => moved,
                WorkStep::Lay => arrangement.aiming.mark_plan.len(),
                WorkStep::Stand => arrangement.aiming.placements.len(),
                WorkStep::Park | WorkStep::Aim => 1,
            };
            WorkPart { step, count, minutes: face.minutes(step) }
        })
        .filter(|part| part.count > 0)
        .collect();
    let minutes = face.minutes_of(steps.iter().map(|part| part.step));
    Work { steps, minutes }
}
