//! Openings: what closes them, whether it does, how much ground beyond is free, against every kind of zone that reaches them,
//! comes near them, runs out through them or keeps away.

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
                        cells += 1;
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {cells}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(cells > 500, "{cells}");
}
