//! What of the set-up lies beyond its own bay, in a hall that holds several.
//!
//! Rule: all that an aiming uses (keep-clear zones, sight and a radar's path, car, targets, stands, marks, straight runs, the room
//! to work around the car and to step up to a target), at whatever height, stays in the bay that it is made in. What lies in another bay needs care, told
//! once for each: another car may be driven in there; also where two bays overlap. So does what lies in the rest of the hall,
//! where people and cars pass. Of a bay that is kept empty meanwhile that is a note, so that it is done; a parked car in it needs
//! care. Two bays of which each is the other's floor cannot be told apart: where the set-up's own is one of them that needs care, and
//! nothing is said of keeping the other empty; that two bays share some floor is a note. Where no bay was chosen, every one is another. A hall without bays is one bay, and nothing is asked. What the picture
//! of a camera shows behind its target is not asked: it has no end.
//! Where it is known what is done there at the same time, no other car is driven in, and what stands of that is a thing like
//! others: only what is to be kept clear, or seen through, where people work on the other car or at its targets needs care; so it does in a hall without bays.
//! Limit: the bays as entered, as painted lines; the car's place within what is known of it.

use baywright_geometry::distance::{Separation, distance, distance_to_point};
use baywright_geometry::overlap::{overlap_area, overlap_region};
use baywright_geometry::{DVec2, Outline, Polygon, SeparatingMoves, boolean, separating_moves};

use super::claim::{Claim, LINE_HALF_MM, MovesWith, Volume, anywhere};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{
    Check, Context, Remedy, SPEAKS_FROM_MM, farthest_of, finding, middle_of_both, stand_room, sway,
    thing_subject,
};
use crate::model::{Arrangement, Bay, HallBay, Id, Other, ShopFigure, ThingKind};
use crate::scene::Scene;

pub(super) const CHECK: Check = Check { codes: &[Code::BeyondBay], things, whole, remedy, ..Check::NONE };

/// What reaches beyond its bay is moved back into it, or the other is kept empty; a car that is parked in one that is to be leaves.
fn remedy(finding: &Finding) -> Remedy {
    match finding.facts {
        Facts::BeyondBay { lies: Beyond::Bay | Beyond::Hall, .. } => Remedy::IntoBay,
        Facts::BeyondBay { lies: Beyond::NotEmpty, .. } => Remedy::ThingOut,
        _ => Remedy::None,
    }
}

/// All that an aiming uses of the floor, each with how far it may be from where it is drawn, mm.
pub(crate) fn used_floor(context: &Context<'_>) -> Vec<(Outline, f64)> {
    Used::all(context).into_iter().map(|own| (own.outline, own.sway_mm)).collect()
}

/// The bay of the hall that the set-up is made in.
pub(crate) fn own_bay(arrangement: &Arrangement) -> Option<&HallBay> {
    let own = arrangement.in_bay.as_ref()?;
    arrangement.bay.bays.iter().find(|bay| bay.id == *own)
}

/// Where something lies that is beyond the set-up's own bay, or what else is said of another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// In another bay.
    Bay,
    /// In the rest of the hall.
    Hall,
    /// Where people work on another set-up at the same time, in another bay or in none.
    AtWork,
    /// In another bay, which is kept empty while this is aimed.
    KeptEmpty,
    /// A parked car stands in a bay that is to be kept empty.
    NotEmpty,
    /// Two bays share some floor.
    Overlap,
    /// Two bays are the same floor.
    SameFloor,
}

/// From this share of the larger of two bays on that the other covers, they are one place (common practice, no source).
const SAME_FLOOR: f64 = 0.9;

/// A part of the set-up that lies beyond its own bay.
#[derive(Clone, Debug, PartialEq)]
pub struct Reaches {
    /// Whose it is.
    pub of: Subject,
    /// What would be found of something that stood in it.
    pub code: Code,
    /// How far it reaches there, mm; `None` if it only may, for what is known of the car's place.
    pub depth_mm: Option<f64>,
}

/// What an aiming uses of the floor.
#[derive(Clone)]
struct Used {
    of: Subject,
    code: Code,
    outline: Outline,
    /// Half the width that a line or a spot has here and not on the floor, mm.
    half_mm: f64,
    /// How far it may be from where it is drawn, mm.
    sway_mm: f64,
}

impl Used {
    fn of(context: &Context<'_>, claim: &Claim) -> Option<Self> {
        if claim.moves_with != MovesWith::Car {
            return None;
        }
        // A tape's run counts as that; who is near is asked of people, not of floor.
        let code = claim.code()?;
        let is_thin = matches!(claim.volume, Volume::Line { .. } | Volume::Spot { .. });
        let half_mm = if is_thin { LINE_HALF_MM } else { 0.0 };
        Some(Self { half_mm, ..Self::new(context, claim.of.clone(), code, claim.volume.at(&anywhere()?)?) })
    }

    fn new(context: &Context<'_>, of: Subject, code: Code, outline: Outline) -> Self {
        let arrangement = context.arrangement;
        let sway_mm = sway(arrangement, farthest_of(&outline, arrangement.parked.origin()));
        Self { of, code, outline, half_mm: 0.0, sway_mm }
    }

    /// Whether it is to be free of people and what they carry while this is aimed.
    const fn is_kept_free(&self) -> bool {
        matches!(self.code, Code::ZoneObject | Code::SightBlocked)
    }

    /// All that an aiming uses: what it claims, and the room to step up to its targets.
    fn all(context: &Context<'_>) -> Vec<Self> {
        let claimed = context.claims().iter().filter_map(|claim| Self::of(context, claim));
        let before = context.scene.targets.iter().filter_map(|target| {
            let stand = Subject::Stand(target.id.clone());
            Some(Self::new(context, stand, Code::StandRoom, stand_room::before(context, target)?))
        });
        claimed.chain(before).collect()
    }
}

/// A region beyond the set-up's own bay.
struct There<'a> {
    pieces: Vec<Outline>,
    /// What the depth is measured out of, if it is not the region itself.
    own: Option<&'a Outline>,
}

/// How one part lies to a region.
enum Lies {
    /// In it, by so much, mm.
    In(f64),
    /// Outside by so much, mm, and known to so much, mm.
    Near(f64, f64),
}

impl There<'_> {
    /// How a part lies to it, and where; `None` if it is farther away than is uncertain.
    fn lies(&self, used: &Used) -> Option<(Lies, DVec2)> {
        let mut deepest: Option<(f64, DVec2)> = None;
        let mut nearest: Option<(f64, DVec2)> = None;
        let around = used.outline.bounds().grown(used.sway_mm + SPEAKS_FROM_MM);
        for piece in self.pieces.iter().filter(|piece| piece.bounds().meets(&around)) {
            let (gap, at) = match distance(&used.outline, piece) {
                Separation::Apart { gap, from, to } => (gap + used.half_mm, (from + to) * 0.5),
                Separation::Touching { at } => (used.half_mm, at),
                Separation::Overlapping => {
                    let (depth, at) = self.depth(used, piece);
                    if depth > SPEAKS_FROM_MM && deepest.is_none_or(|(known, _)| depth > known) {
                        deepest = Some((depth, at));
                    }
                    // In it by less than is spoken of: it may be in it by more.
                    (if depth > 0.0 { -SPEAKS_FROM_MM } else { -depth }, at)
                }
            };
            if nearest.is_none_or(|(known, _)| gap < known) {
                nearest = Some((gap, at));
            }
        }
        if let Some((depth, at)) = deepest {
            return Some((Lies::In(depth), at));
        }
        let (gap, at) = nearest.filter(|(gap, _)| *gap < used.sway_mm - SPEAKS_FROM_MM || *gap < 0.0)?;
        Some((Lies::Near(gap.max(0.0), used.sway_mm), at))
    }

    /// How far a part is in a piece of it, mm, and where; less than nought for a line or a spot that lies on its edge.
    fn depth(&self, used: &Used, piece: &Outline) -> (f64, DVec2) {
        let middle = middle_of_both(&used.outline.bounds(), &piece.bounds());
        match self.own {
            Some(own) => {
                let corners = overlap_region(&used.outline, piece);
                let corners = corners.iter().flat_map(|part| part.outer().iter().copied());
                let far = corners.map(|p| (distance_to_point(own, p).gap(), p));
                let far = far.max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((0.0, middle));
                (far.0 - used.half_mm, far.1)
            }
            None => match separating_moves(&[piece], &used.outline) {
                SeparatingMoves::AlreadyApart => (0.0, middle),
                SeparatingMoves::Moves { length, .. } => (length - used.half_mm, middle),
            },
        }
    }
}

/// Whether this is the bay that the set-up is made in.
fn is_own(context: &Context<'_>, bay: &HallBay) -> bool {
    context.arrangement.in_bay.as_ref() == Some(&bay.id)
}

/// The bays that are kept empty while this is aimed.
fn kept_empty<'a>(context: &'a Context<'_>) -> impl Iterator<Item = &'a HallBay> {
    let arrangement = context.arrangement;
    let kept = arrangement.bay.bays.iter().filter(|own| arrangement.kept_empty.contains(&own.id));
    kept.filter(|own| !is_own(context, own) && !is_own_floor(context, own))
}

/// Whether two bays are the same floor.
fn are_same_floor(a: &HallBay, b: &HallBay) -> bool {
    let larger = f64::max(a.outline.area(), b.outline.area());
    overlap_area(&a.outline.clone().into(), &b.outline.clone().into()) >= SAME_FLOOR * larger
}

/// Whether another bay is the floor of the one that the set-up is made in: it cannot be empty while the car stands in this one.
fn is_own_floor(context: &Context<'_>, other: &HallBay) -> bool {
    own_bay(context.arrangement).is_some_and(|own| own.id != other.id && are_same_floor(own, other))
}

/// What two bays share.
fn shared(context: &Context<'_>, a: &HallBay, b: &HallBay) -> Option<Finding> {
    let (a, b) = if a.id <= b.id { (a, b) } else { (b, a) };
    let (first, second) = (Outline::from(a.outline.clone()), Outline::from(b.outline.clone()));
    let SeparatingMoves::Moves { length, .. } = separating_moves(&[&first], &second) else { return None };
    // Along a border that was drawn by hand bays share a sliver.
    if length <= SPEAKS_FROM_MM {
        return None;
    }
    let is_same = are_same_floor(a, b);
    let (lies, severity) = match (is_same, is_own(context, a) || is_own(context, b)) {
        (true, true) => (Beyond::SameFloor, Severity::Care),
        (true, false) => (Beyond::SameFloor, Severity::Note),
        (false, _) => (Beyond::Overlap, Severity::Note),
    };
    let at = middle_of_both(&first.bounds(), &second.bounds()).extend(0.0);
    let subjects = vec![Subject::HallBay(a.id.clone()), Subject::HallBay(b.id.clone())];
    let found =
        finding(Facts::BeyondBay { lies, parts: Vec::new() }, severity, subjects, at, Basis::AsEntered);
    // By how much one floor is another tells nothing.
    Some(if is_same { found } else { found.against(Quantity::Length(length), Quantity::Length(0.0)) })
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for bay in kept_empty(context) {
        let outline = Outline::from(bay.outline.clone());
        let cars = context.things_near(outline.bounds()).filter(|own| own.thing.kind == ThingKind::ParkedCar);
        for car in cars {
            let standing = &car.placed.prism.outline;
            let SeparatingMoves::Moves { length, .. } = separating_moves(&[&outline], standing) else {
                continue;
            };
            if length > SPEAKS_FROM_MM {
                let at = middle_of_both(&standing.bounds(), &outline.bounds()).extend(0.0);
                let subjects = vec![thing_subject(&car.thing.id), Subject::HallBay(bay.id.clone())];
                let facts = Facts::BeyondBay { lies: Beyond::NotEmpty, parts: Vec::new() };
                findings.push(
                    finding(facts, Severity::Care, subjects, at, Basis::AsEntered)
                        .against(Quantity::Length(length), Quantity::Length(0.0)),
                );
            }
        }
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let bay = &context.arrangement.bay;
    let works = at_work(context);
    if bay.bays.is_empty() && works.is_empty() {
        return;
    }
    let used = Used::all(context);
    let kept: Vec<Used> = used.iter().filter(|own| own.is_kept_free()).cloned().collect();
    for (other, pieces) in &works {
        let there = There { pieces: pieces.clone(), own: None };
        let subject = other.as_ref().map_or(Subject::Floor, |own| Subject::HallBay(own.clone()));
        findings.extend(reaching(context, &there, Beyond::AtWork, &kept, subject));
    }
    if bay.bays.is_empty() {
        return;
    }
    for (i, one) in bay.bays.iter().enumerate() {
        findings.extend(bay.bays.iter().take(i).filter_map(|other| shared(context, other, one)));
    }
    let is_worked_in = |bay: &HallBay| works.iter().any(|(own, _)| own.as_ref() == Some(&bay.id));
    for other in bay.bays.iter().filter(|other| !is_own(context, other) && !is_worked_in(other)) {
        let pieces = match own_bay(context.arrangement).filter(|_| is_own_floor(context, other)) {
            // Of one that is the own floor only what lies beyond that is another's.
            Some(own) => floors(boolean::difference(&other.outline, &own.outline)),
            None => vec![other.outline.clone().into()],
        };
        let there = There { pieces, own: None };
        let is_kept = kept_empty(context).any(|kept| kept.id == other.id);
        let lies = if is_kept { Beyond::KeptEmpty } else { Beyond::Bay };
        let found = reaching(context, &there, lies, &used, Subject::HallBay(other.id.clone()));
        // What is kept empty is said, also where nothing reaches there.
        findings.extend(found.or_else(|| is_kept.then(|| for_nothing(other))));
    }
    let own = bay.bays.iter().find(|own| is_own(context, own));
    let outline = own.map(|own| Outline::from(own.outline.clone()));
    let rest = There { pieces: rest_of_hall(bay), own: outline.as_ref() };
    let subject = own.map_or(Subject::Floor, |own| Subject::HallBay(own.id.clone()));
    findings.extend(reaching(context, &rest, Beyond::Hall, &used, subject));
}

/// Where people work at the same time, by the bay that it is in, or in none: round the cars of the set-ups that are made there, and before
/// their targets.
fn at_work(context: &Context<'_>) -> Vec<(Option<Id>, Vec<Outline>)> {
    let mut all: Vec<(Option<Id>, Vec<Outline>)> = Vec::new();
    for beside in &context.arrangement.beside {
        let Other::Known(other) = &beside.other else { continue };
        let scene = Scene::of(other);
        let used = Used::all(&Context::new(other, &scene)).into_iter();
        let works = used.filter(|own| matches!(own.code, Code::WorkingRoom | Code::StandRoom));
        let works = works.map(|own| own.outline);
        match all.iter_mut().find(|(bay, _)| *bay == beside.in_bay) {
            Some((_, known)) => known.extend(works),
            None => all.push((beside.in_bay.clone(), works.collect())),
        }
    }
    all
}

/// What of the hall is in no bay.
fn rest_of_hall(bay: &Bay) -> Vec<Outline> {
    let without = |left: Vec<Polygon>, own: &HallBay| {
        left.iter().flat_map(|piece| boolean::difference(piece, &own.outline)).collect()
    };
    floors(bay.bays.iter().fold(vec![bay.room.clone()], without))
}

/// What rounding leaves between two bays that meet is no part of a hall, and is another in each order.
fn floors(left: Vec<Polygon>) -> Vec<Outline> {
    let is_floor = |piece: &Polygon| piece.area() > SPEAKS_FROM_MM * piece.bounds().size().length();
    left.into_iter().filter(is_floor).map(Outline::from).collect()
}

fn for_nothing(bay: &HallBay) -> Finding {
    let facts = Facts::BeyondBay { lies: Beyond::KeptEmpty, parts: Vec::new() };
    let at = bay.outline.bounds().centre().extend(0.0);
    finding(facts, Severity::Note, vec![Subject::HallBay(bay.id.clone())], at, Basis::AsEntered)
}

/// One finding of all that reaches, or may reach, into a region: the deepest first.
fn reaching(
    context: &Context<'_>,
    there: &There<'_>,
    beyond: Beyond,
    used: &[Used],
    subject: Subject,
) -> Option<Finding> {
    let mut all: Vec<(Reaches, Lies, DVec2)> = Vec::new();
    for own in used {
        let Some((lies, at)) = there.lies(own) else { continue };
        let depth_mm = if let Lies::In(depth) = lies { Some(depth) } else { None };
        let part = Reaches { of: own.of.clone(), code: own.code, depth_mm };
        match all.iter_mut().find(|(known, ..)| (&known.of, known.code) == (&own.of, own.code)) {
            Some(known) if spare(&known.1) <= spare(&lies) => {}
            Some(known) => *known = (part, lies, at),
            None => all.push((part, lies, at)),
        }
    }
    // Of equals rounding does not choose.
    let order = |(part, lies, _): &(Reaches, Lies, DVec2)| {
        ((spare(lies) / SPEAKS_FROM_MM).round(), part.of.clone(), part.code)
    };
    all.sort_by(|a, b| {
        let (a, b) = (order(a), order(b));
        a.0.total_cmp(&b.0).then_with(|| (a.1, a.2).cmp(&(b.1, b.2)))
    });
    let (_, lies, at) = all.first()?;
    let (measured, limit, basis) = match *lies {
        Lies::In(depth) => (depth, 0.0, Basis::AsEntered),
        Lies::Near(gap, known) => {
            let basis = ShopFigure::of_car(context.arrangement.parked_known);
            (gap, known, basis.map_or(Basis::AsEntered, Basis::Shop))
        }
    };
    let severity = if beyond == Beyond::KeptEmpty { Severity::Note } else { Severity::Care };
    let at = at.extend(0.0);
    let parts: Vec<Reaches> = all.into_iter().map(|(part, ..)| part).collect();
    let mut subjects = vec![subject];
    for part in &parts {
        if !subjects.contains(&part.of) {
            subjects.push(part.of.clone());
        }
    }
    let found = finding(Facts::BeyondBay { lies: beyond, parts }, severity, subjects, at, basis);
    Some(found.against(Quantity::Length(measured), Quantity::Length(limit)))
}

/// The less, the worse: how far from a region, mm; less than nought is in it. What may be in it comes after what is.
fn spare(lies: &Lies) -> f64 {
    match lies {
        Lies::In(depth) => -depth,
        Lies::Near(gap, known) => gap - known + AFTER_MM,
    }
}

/// More than anything that is known so badly, mm.
const AFTER_MM: f64 = 1e7;

#[cfg(test)]
mod tests {
    use crate::Reaches;
    use crate::check::beyond_bay::Beyond;
    use crate::check::testing::*;

    fn hall_bay(name: &str, low: (f64, f64), high: (f64, f64)) -> HallBay {
        HallBay { id: name.into(), outline: rectangle(low, high) }
    }

    /// The zone from y = 1500 to 4500, and a bay that holds all of the set-up; another beside it from `from` on.
    fn beside(from: f64) -> Arrangement {
        let mut hall = clear();
        hall.bay.bays = vec![
            hall_bay("bay 1", (0.0, 0.0), (12_000.0, from)),
            hall_bay("bay 2", (0.0, from), (12_000.0, 6_000.0)),
        ];
        hall.in_bay = Some("bay 1".into());
        hall
    }

    fn found(arrangement: &Arrangement, severity: Severity, depth: Option<f64>) -> (Beyond, Vec<Reaches>) {
        let found = check(arrangement, Code::BeyondBay, severity, depth);
        let Facts::BeyondBay { lies, parts } = found.facts else { panic!("{found:?}") };
        (lies, parts)
    }

    fn title(arrangement: &Arrangement) -> String {
        let assessment = assess(arrangement);
        let found = of(&assessment, Code::BeyondBay)[0].clone();
        words::Words::new(arrangement, Default::default()).line(&found)
    }

    #[test]
    fn a_room_that_is_one_bay_is_asked_nothing() {
        none(&clear(), Code::BeyondBay);
        let mut whole = clear();
        whole.bay.bays = vec![hall_bay("all of it", (0.0, 0.0), (12_000.0, 6_000.0))];
        whole.in_bay = Some("all of it".into());
        none(&whole, Code::BeyondBay);
        assert_eq!(assess(&whole).verdict, Verdict::Ready);
    }

    /// The room to work around the car ends 600 mm beside it, at y = 4500 as the zone does.
    #[test]
    fn what_touches_a_bay_is_not_in_it() {
        none(&beside(4_500.0), Code::BeyondBay);
        let (lies, parts) = found(&beside(4_499.995), Severity::Care, Some(0.0));
        assert_eq!((lies, parts.len(), parts[0].depth_mm), (Beyond::Bay, 2, None), "less than is spoken of");
        let (_, parts) = found(&beside(4_400.0), Severity::Care, Some(100.0));
        let told: Vec<_> =
            parts.iter().map(|own| (own.of.clone(), own.code, own.depth_mm.map(f64::round))).collect();
        let zone = Subject::Zone("beam".into());
        assert_eq!(
            told,
            [(Subject::Car, Code::WorkingRoom, Some(100.0)), (zone, Code::ZoneObject, Some(100.0))]
        );
        assert_eq!(
            title(&beside(4_400.0)),
            "The set-up reaches into bay 2: by 100 mm. The room to work around the car and the keep-clear zone “beam” lie there. \
             Another car may be driven in there meanwhile."
        );
    }

    /// 30 mm and half a degree: what is 20 mm off may be in it.
    #[test]
    fn a_planned_place_may_bring_it_there() {
        let mut hall = beside(4_520.0);
        none(&hall, Code::BeyondBay);
        hall.parked_known = ParkedKnown::Planned;
        let (lies, parts) = found(&hall, Severity::Care, Some(20.0));
        assert_eq!((lies, parts[0].depth_mm), (Beyond::Bay, None));
        assert!(
            title(&hall).starts_with("The set-up may reach into bay 2: clear by 20 mm, wants "),
            "{}",
            title(&hall)
        );
    }

    #[test]
    fn a_bay_that_is_kept_empty_is_a_note() {
        let mut hall = beside(4_400.0);
        hall.kept_empty = vec!["bay 2".into()];
        let (lies, parts) = found(&hall, Severity::Note, Some(100.0));
        assert_eq!((lies, parts.len()), (Beyond::KeptEmpty, 2));
        assert_eq!(assess(&hall).verdict, Verdict::Ready);
        assert!(
            title(&hall).starts_with("Keep bay 2 empty while this is aimed: by 100 mm. "),
            "{}",
            title(&hall)
        );
        // It is said where nothing reaches there, too.
        let mut wide = beside(5_000.0);
        wide.kept_empty = vec!["bay 2".into()];
        let (lies, parts) = found(&wide, Severity::Note, None);
        assert_eq!((lies, parts.len()), (Beyond::KeptEmpty, 0));
        // A car that is parked in it is no empty bay; one beside it, or a bench in it, is.
        let mut parked = cabinet("van", (4_000.0, 5_500.0), 4_000.0, 900.0);
        parked.kind = ThingKind::ParkedCar;
        wide.bay.things = vec![parked, cabinet("bench", (10_000.0, 5_600.0), 600.0, 600.0)];
        let assessment = assess(&wide);
        let all = of(&assessment, Code::BeyondBay);
        assert_eq!(all.len(), 2, "{all:?}");
        assert_eq!(all[0].subjects, [Subject::Thing("van".into()), Subject::HallBay("bay 2".into())]);
        assert_eq!((all[0].severity, all[0].measured), (Severity::Care, Some(Quantity::Length(950.0))));
        wide.bay.things[0].place.at = PlanPose::new(DVec2::new(4_000.0, 4_550.0), 0.0);
        let assessment = assess(&wide);
        assert_eq!(of(&assessment, Code::BeyondBay).len(), 1);
    }

    /// A bay around the car alone: the zone runs 3800 mm ahead of it, to x = 9800, where the lane is.
    #[test]
    fn what_lies_in_the_rest_of_the_hall() {
        let mut hall = clear();
        hall.bay.bays = vec![hall_bay("bay 1", (0.0, 1_000.0), (9_000.0, 5_000.0))];
        hall.in_bay = Some("bay 1".into());
        let (lies, parts) = found(&hall, Severity::Care, Some(800.0));
        assert_eq!((lies, &parts[0].of), (Beyond::Hall, &Subject::Zone("beam".into())));
        let line = title(&hall);
        assert!(
            line.starts_with("The set-up reaches out of bay 1: by 800 mm. The keep-clear zone"),
            "{line}"
        );
        assert!(line.contains("People and cars pass there"), "{line}");
        // Where the lane is another bay, it is that; kept empty, it is none.
        hall.bay.bays.push(hall_bay("bay 2", (9_000.0, 0.0), (12_000.0, 6_000.0)));
        assert_eq!(found(&hall, Severity::Care, Some(800.0)).0, Beyond::Bay);
        hall.kept_empty = vec!["bay 2".into()];
        assert_eq!(found(&hall, Severity::Note, Some(800.0)).0, Beyond::KeptEmpty);
        assert_eq!(assess(&hall).verdict, Verdict::Ready);
    }

    /// A long bay across two others is its own, and what lies in them all the same theirs.
    #[test]
    fn where_two_bays_overlap_it_is_the_others_too() {
        let mut hall = clear();
        hall.bay.bays = vec![
            hall_bay("long bay", (0.0, 0.0), (12_000.0, 6_000.0)),
            hall_bay("bay 1", (0.0, 0.0), (6_000.0, 6_000.0)),
            hall_bay("bay 2", (11_000.0, 0.0), (12_000.0, 6_000.0)),
        ];
        hall.in_bay = Some("long bay".into());
        let assessment = assess(&hall);
        let found = of(&assessment, Code::BeyondBay);
        let care: Vec<_> = found.iter().filter(|own| own.severity == Severity::Care).collect();
        assert_eq!(care.len(), 1, "{found:?}");
        assert_eq!(care[0].subjects[0], Subject::HallBay("bay 1".into()));
        assert_eq!(assessment.verdict, Verdict::ReadyWithCare);
        // That they share floor is said of each.
        let shared = |own: &&&Finding| matches!(own.facts, Facts::BeyondBay { lies: Beyond::Overlap, .. });
        assert_eq!(found.iter().filter(shared).count(), 2, "{found:?}");
        // A bay that only touches another shares nothing with it.
        hall.bay.bays.remove(0);
        hall.bay.bays[1] = hall_bay("bay 2", (6_000.0, 0.0), (12_000.0, 6_000.0));
        let assessment = assess(&hall);
        assert!(!of(&assessment, Code::BeyondBay).iter().any(|own| shared(&own)));
    }

    /// One bay drawn exactly on another: that is what is to be put right, not that the floor under the car is kept empty.
    #[test]
    fn two_bays_on_one_floor_are_said_and_neither_is_to_be_kept_empty() {
        let mut hall = clear();
        let all = ((0.0, 0.0), (12_000.0, 6_000.0));
        hall.bay.bays = vec![hall_bay("bay 1", all.0, all.1), hall_bay("bay 2", all.0, all.1)];
        hall.in_bay = Some("bay 2".into());
        for kept in [Vec::new(), vec!["bay 1".into()]] {
            hall.kept_empty = kept;
            let found = check(&hall, Code::BeyondBay, Severity::Care, None);
            assert!(matches!(found.facts, Facts::BeyondBay { lies: Beyond::SameFloor, .. }), "{found:?}");
            assert_eq!(found.subjects, [Subject::HallBay("bay 1".into()), Subject::HallBay("bay 2".into())]);
            assert_eq!(assess(&hall).verdict, Verdict::ReadyWithCare);
            assert!(title(&hall).starts_with("Bay 1 and bay 2 are the same floor. Draw"), "{}", title(&hall));
        }
        // A little apart they are so still, down to nine tenths.
        hall.kept_empty.clear();
        hall.bay.bays[0] = hall_bay("bay 1", (0.0, 0.0), (11_500.0, 6_000.0));
        assert!(title(&hall).starts_with("Bay 1 and bay 2 are the same floor"), "{}", title(&hall));
    }

    /// Of a hall whose bay was not chosen every bay is another, and what is in none of them is the hall's.
    #[test]
    fn where_no_bay_is_chosen() {
        let mut hall = beside(4_500.0);
        hall.in_bay = None;
        let found = check(&hall, Code::BeyondBay, Severity::Care, None);
        assert_eq!(found.subjects[0], Subject::HallBay("bay 1".into()));
        assert!(
            title(&hall).ends_with("Which bay this set-up is made in is not chosen."),
            "{}",
            title(&hall)
        );
        hall.bay.bays.remove(0);
        let found = check(&hall, Code::BeyondBay, Severity::Care, None);
        assert_eq!(found.subjects[0], Subject::Floor);
        assert!(
            title(&hall).starts_with("The set-up reaches into the hall beside its bays: by "),
            "{}",
            title(&hall)
        );
    }

    /// A mark on the line between two bays is in none of them but its own; 1 mm further on it is.
    #[test]
    fn a_mark_on_the_line_touches() {
        let mut hall = clear();
        hall.aiming.zones.clear();
        hall.aiming.working_room_mm = Some(0.0);
        let scene = crate::scene::Scene::of(&hall);
        let highest = scene.marks.iter().filter_map(|mark| mark.at.ok()).map(|at| at.y).fold(0.0, f64::max);
        let at = |from: f64| {
            let mut hall = hall.clone();
            hall.bay.bays = beside(from).bay.bays;
            hall.in_bay = Some("bay 1".into());
            hall
        };
        assert!(highest > 4_000.0, "{highest}");
        none(&at(highest), Code::BeyondBay);
        let (_, parts) = found(&at(highest - 1.0), Severity::Care, Some(1.0));
        assert!(parts.iter().all(|own| matches!(own.of, Subject::Mark(_) | Subject::Run(..))), "{parts:?}");
    }

    /// The set-up is 3000 mm wide: a bay 4400 mm wide holds it 100 mm further aside, one 2900 mm wide nowhere, so that the other is
    /// kept empty.
    #[test]
    fn the_car_moves_over_or_the_other_bay_is_kept_empty() {
        let cure = |hall: &Arrangement| {
            let cure = check(hall, Code::BeyondBay, Severity::Care, None).cure.expect("a way out");
            let after = assess(&crate::cure::apply(hall, &cure.step));
            (cure, after)
        };
        let (moved, after) = cure(&beside(4_400.0));
        let Step::MoveCar { by } = moved.step else { panic!("{moved:?}") };
        // Parked anew it is known to 30 mm and half a degree: by so much further.
        assert!(by.y <= -130.0 && by.y > -250.0, "{by}");
        assert_eq!(after.verdict, Verdict::Ready, "{:?}", after.findings);
        let mut narrow = beside(2_900.0);
        let (kept, after) = cure(&narrow);
        assert_eq!((&kept.step, kept.causes.len()), (&Step::KeepEmpty { bay: "bay 2".into() }, 0));
        assert_eq!(after.verdict, Verdict::Ready, "{:?}", after.findings);
        // A car that is parked there is to leave first, and that is said.
        let mut van = cabinet("van", (10_500.0, 5_400.0), 2_000.0, 900.0);
        van.kind = ThingKind::ParkedCar;
        narrow.bay.things = vec![van];
        let (kept, after) = cure(&narrow);
        assert_eq!(
            kept.causes.iter().map(|f| (f.code(), f.severity)).collect::<Vec<_>>(),
            [(Code::BeyondBay, Severity::Care)]
        );
        let left = of(&after, Code::BeyondBay)[0].cure.clone().expect("it drives away");
        assert_eq!(left.step, Step::TakeAway { thing: "van".into() });
        // Where no bay is chosen, none is another.
        let mut open = beside(2_900.0);
        open.in_bay = None;
        let assessment = assess(&open);
        assert!(
            of(&assessment, Code::BeyondBay).iter().all(|f| f.cure.is_none()),
            "{:?}",
            assessment.findings
        );
    }

    /// Parked anew a car is where it is planned: it goes as much further as leaves nothing open then.
    #[test]
    fn it_moves_as_far_as_is_sure() {
        let mut hall = beside(4_520.0);
        hall.parked_known = ParkedKnown::Planned;
        let found = check(&hall, Code::BeyondBay, Severity::Care, None);
        let Some(Step::MoveCar { by }) = found.cure.map(|cure| cure.step) else { panic!("no move") };
        assert!(by.y < -20.0 && by.y > -200.0, "{by}");
        let moved = crate::cure::apply(&hall, &Step::MoveCar { by });
        none(&moved, Code::BeyondBay);
    }
}
