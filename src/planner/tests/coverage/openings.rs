//! Openings: what closes them, whether it does, how much ground beyond is free, against every kind of zone that reaches them,
//! comes near them, runs out through them or keeps away; and doors that are shut, against each part of a set-up.

use baywright_planner::Opened;

use super::support::*;
use super::*;

/// How a zone lies to the wall with the opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Reach {
    /// 200 mm past it.
    Past,
    /// 30 mm short of it; its place is known to 50.
    Near,
    /// Two metres short of it: farther than a leaf swings.
    Far,
}

impl Reach {
    const ALL: [Self; 3] = [Self::Past, Self::Near, Self::Far];

    const fn mm(self) -> f64 {
        match self {
            Self::Past => 200.0,
            Self::Near => -30.0,
            Self::Far => -2_000.0,
        }
    }
}

/// How much ground beyond is free, mm: not known, too little, enough, and enough for what may stand elsewhere.
const FREE_MM: [f64; 4] = [0.0, 100.0, 210.0, 1_000.0];

const EXCLUSIONS: [Exclusion; 5] = [
    Exclusion::Anything,
    Exclusion::Metal,
    Exclusion::Reflecting(-10.0),
    Exclusion::People,
    Exclusion::Light,
];

/// An opening 1 m wide in the far wall, before it a zone 600 mm wide.
fn bay(opening: &Opening, excludes: Exclusion, reach: Reach) -> Arrangement {
    let mut bay = clear();
    bay.aiming.working_room_mm = Some(0.0);
    bay.aiming.mark_plan.clear();
    bay.aiming.placements[0].mark = None;
    let zone = &mut bay.aiming.zones[0];
    (zone.excludes, zone.outline) =
        (excludes, rectangle((5_000.0, -300.0), (8_000.0 + reach.mm(), 300.0)).into());
    zone.span = span(0.0, 1_500.0);
    bay.bay.openings = vec![opening.clone()];
    bay.bay.walls_known = Known::Within(50.0);
    bay
}

/// What must be said, at least this bad, by one of these codes; `None` where there is nothing to say.
fn expected(opening: &Opening, excludes: Exclusion, reach: Reach) -> Option<(Severity, &'static [Code])> {
    let (binds, light, people) = match excludes {
        Exclusion::Anything | Exclusion::Metal | Exclusion::Reflecting(_) => (true, false, false),
        Exclusion::People => (false, false, true),
        Exclusion::Light => (false, true, false),
    };
    let lets_in = match opening.kind {
        OpeningKind::Window => true,
        OpeningKind::RollerDoor | OpeningKind::SwingDoor => {
            !opening.shut || matches!(opening.material, Material::Glass | Material::Mesh | Material::Unknown)
        }
        OpeningKind::Gap => true,
    };
    let goes_through = match opening.kind {
        OpeningKind::Window => false,
        OpeningKind::RollerDoor | OpeningKind::SwingDoor => !opening.shut,
        OpeningKind::Gap => true,
    };
    match reach {
        Reach::Far => None,
        Reach::Past | Reach::Near if light => {
            // Near is within what is known of the wall.
            lets_in.then_some((Severity::Care, &[Code::ZoneUnjudged]))
        }
        Reach::Past if people && goes_through => Some((Severity::Care, &[Code::BeyondDoor])),
        // Through a window nobody walks; whoever opens a door from outside does not know of the zone.
        Reach::Past | Reach::Near if people => {
            (opening.kind != OpeningKind::Window).then_some((Severity::Care, &[Code::WalkIn]))
        }
        Reach::Past if binds && goes_through && opening.free_beyond_mm >= reach.mm() => {
            Some((Severity::Care, &[Code::BeyondDoor]))
        }
        Reach::Past => Some((Severity::Stops, &[Code::OutsideRoom])),
        // Where nothing stands and the ground beyond is free, nothing is met by reaching a little further.
        Reach::Near if goes_through && opening.free_beyond_mm > 0.0 => None,
        // It may reach the wall.
        Reach::Near => Some((Severity::Care, &[Code::ZoneNear])),
    }
}

#[test]
fn every_opening_against_every_zone() {
    let mut wrong = Vec::new();
    let mut cells = 0;
    for kind in [OpeningKind::RollerDoor, OpeningKind::SwingDoor, OpeningKind::Window, OpeningKind::Gap] {
        for material in [Material::Wood, Material::Glass, Material::Mesh, Material::Unknown] {
            for (shut, free) in
                [(true, 0.0), (true, 1_000.0)].into_iter().chain(FREE_MM.map(|free| (false, free)))
            {
                let opening = Opening {
                    id: "row".into(),
                    kind,
                    wall: 1,
                    from_mm: 2_500.0,
                    width_mm: 1_000.0,
                    span: span(0.0, 2_200.0),
                    material,
                    shut,
                    free_beyond_mm: free,
                    is_exit: false,
                };
                for excludes in EXCLUSIONS {
                    for reach in Reach::ALL {
                        let name =
                            format!("{kind:?} {material:?} shut {shut} free {free} {excludes:?} {reach:?}");
                        let judged = judge(&bay(&opening, excludes, reach));
                        let minded: Vec<(Severity, Code)> = judged
                            .findings
                            .iter()
                            .filter(|f| f.severity != Severity::Note)
                            .map(|f| (f.severity, f.code()))
                            .collect();
                        let is_right = match expected(&opening, excludes, reach) {
                            Some((severity, codes)) => {
                                minded.iter().any(|(s, code)| *s == severity && codes.contains(code))
                            }
                            // A leaf that stands open, whether the car gets in, and that no mark is laid here, is another matter.
                            None => {
                                let others = [Code::DoorLeaf, Code::WayIn, Code::MarkMissing];
                                minded.iter().all(|(_, code)| others.contains(code))
                            }
                        };
                        if !is_right {
                            wrong.push(format!(
                                "{name}: {minded:?}, not {:?}",
                                expected(&opening, excludes, reach)
                            ));
                        }
                        // Whoever opens a leaf swings it into a zone that excludes it; a zone without people is told by who walks in.
                        let may_swing = opening.shut
                            && kind == OpeningKind::SwingDoor
                            && reach != Reach::Far
                            && excludes_leaf(excludes, material);
                        if may_swing != minded.contains(&(Severity::Care, Code::ShutDoor)) {
                            wrong.push(format!("{name}: may swing into it: {may_swing}, {minded:?}"));
                        }
                        cells += 1;
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {cells}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(cells > 500, "{cells}");
}

/// Whether a leaf of a material may not be in a zone, as far as is known.
fn excludes_leaf(excludes: Exclusion, material: Material) -> bool {
    match excludes {
        Exclusion::Anything | Exclusion::Reflecting(_) => true,
        Exclusion::Metal => matches!(material, Material::Mesh | Material::Unknown),
        Exclusion::People | Exclusion::Light => false,
    }
}

/// A part of the set-up, how far its edge is from the car's middle, mm, and from where on a door in the left wall is beside it.
const PARTS: [(Part, f64, f64); 4] = [
    (Part::Car, 900.0, 8_000.0),
    (Part::Run, 1_020.0, 6_000.0),
    (Part::Sight, 200.0, 4_000.0),
    (Part::Stand, 300.0, 2_700.0),
];

#[derive(Clone, Copy, Debug, PartialEq)]
enum Part {
    Car,
    Run,
    Sight,
    Stand,
}

impl Part {
    fn is(self, subject: &Subject) -> bool {
        match self {
            Self::Car => *subject == Subject::Car,
            Self::Run => matches!(subject, Subject::Mark(_)),
            Self::Sight => matches!(subject, Subject::Target(_)),
            Self::Stand => matches!(subject, Subject::Stand(_)),
        }
    }
}

/// A wooden door 900 mm wide, whose leaf reaches as far, and one metre that who comes in steps; whichever part it is beside, 20 mm
/// in reach and 20 mm out of it; kept shut, it is a note.
#[test]
fn every_shut_door_against_every_part() {
    let mut wrong = Vec::new();
    for (part, edge_mm, from_mm) in PARTS {
        for kind in [OpeningKind::SwingDoor, OpeningKind::RollerDoor] {
            for (reach_mm, by) in [(900.0, Opened::Leaf), (1_000.0, Opened::Step)] {
                for gap_mm in [-20.0, 20.0] {
                    let mut bay = clear();
                    if part != Part::Run {
                        bay.aiming.mark_plan.clear();
                        bay.aiming.placements[0].mark = None;
                    }
                    let y = 6_000.0 - reach_mm - gap_mm - edge_mm;
                    bay.parked = PlanPose::new(DVec2::new(4_000.0, y), 0.0);
                    let door = Opening { kind, from_mm, material: Material::Wood, shut: true, ..side_door() };
                    bay.bay.openings = vec![door];
                    let told = |bay: &Arrangement| -> Option<(Severity, Opened, bool)> {
                        judge(bay).findings.iter().find_map(|own| match &own.facts {
                            Facts::ShutDoor { by, parts } => {
                                let is_told = parts.iter().any(|own| part.is(&own.of));
                                Some((own.severity, *by, is_told))
                            }
                            _ => None,
                        })
                    };
                    let swings = kind == OpeningKind::SwingDoor;
                    // Of what a leaf reaches who comes in is within a step too.
                    let is_stepped = matches!(part, Part::Sight | Part::Stand);
                    let expected = match by {
                        Opened::Leaf if swings && gap_mm < 0.0 => Some(Opened::Leaf),
                        Opened::Leaf if is_stepped => Some(Opened::Step),
                        Opened::Step if is_stepped && gap_mm < 0.0 => Some(Opened::Step),
                        _ => None,
                    };
                    let found = told(&bay);
                    let by_this = found.filter(|own| own.2).map(|own| (own.0, own.1));
                    if by_this != expected.map(|by| (Severity::Care, by)) {
                        wrong.push(format!("{part:?} {kind:?} {by:?} {gap_mm}: {found:?}, not {expected:?}"));
                    }
                    bay.bay.openings[0].shut = false;
                    if told(&bay).is_some() {
                        wrong.push(format!("{part:?} {kind:?} stands open"));
                    }
                    bay.bay.openings[0].shut = true;
                    bay.kept_shut = vec!["side door".into()];
                    if !matches!(told(&bay), Some((Severity::Note, Opened::Never, _))) {
                        wrong.push(format!("{part:?} {kind:?} is kept shut: {:?}", told(&bay)));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What the tables here hold.
pub const CODES: [Code; 6] =
    [Code::OutsideRoom, Code::BeyondDoor, Code::WalkIn, Code::ZoneNear, Code::ZoneUnjudged, Code::ShutDoor];
