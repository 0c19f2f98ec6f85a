//! From a layout's file to the model.

use baywright_planner::geometry::PlanPose;
use baywright_planner::model::fault::{Allowed, Fault, Found};
use baywright_planner::model::validate::{self, limits};
use baywright_planner::model::{
    Bay, Building, FloorFeature, FloorSurvey, Footprint, Ground, HallBay, Id, KeepFree, Layout, LevelPoint,
    LevelsTaken, MarkTaped, Moved, Opening, ParkedKnown, PermanentMark, Place, Runway, SavedArrangement,
    Shape, StandSet, TapedRoom, TapedWall, Thing, Underlay, Wall,
};

use super::building::Built;
use super::owner::owner_of;
use super::{
    ArrangementFile, LayoutFile, MarkTapedFile, OpeningFile, ParkedKnownFile, PermanentMarkFile, SetFile,
    ShapeFile, SurveyFile, TapedFile, ThingFile, UnderlayFile, on_car,
};
use crate::figure::{Figure, Point, vec2, vecs};
use crate::instrument::{MarkCheckFile, TakenFile};
use crate::shape::Faults;

/// The layout that a file describes, checked. `id` is the file's stem.
///
/// # Errors
/// Everything found wrong.
pub fn layout_of(file: &LayoutFile, id: Id) -> Result<Layout, Vec<Fault>> {
    let mut faults = Faults::default();
    let built = building("", &file.built(), &mut faults);
    let arrangements: Vec<SavedArrangement> = file
        .arrangements
        .iter()
        .enumerate()
        .map(|(i, a)| arrangement(&format!("arrangements[{i}]"), a, &mut faults))
        .collect();
    match built {
        Some(built) if faults.0.is_empty() => {
            let bay = Bay::of_parts(ground(file, id), built);
            let underlay = file.underlay.as_ref().map(underlay);
            let taped = file.taped.as_ref().map(taped);
            let layout = Layout {
                bay,
                arrangements,
                underlay,
                taped,
                owner: file.owner.as_ref().map(owner_of).unwrap_or_default(),
                shop_fingerprint: file.shop_fingerprint.clone(),
            };
            let mut found = validate::layout(&layout);
            for (path, built) in buildings(file) {
                if is_clockwise(&built.room.corners_mm) {
                    found = as_in_clockwise_file(&path, &built, found);
                }
            }
            if found.is_empty() { Ok(layout) } else { Err(found) }
        }
        _ => Err(faults.0),
    }
}

/// Every building of a file, with what stands before its fields.
fn buildings(file: &LayoutFile) -> impl Iterator<Item = (String, Built<'_>)> {
    let arrangements = file.arrangements.iter().enumerate();
    let own = arrangements.filter_map(|(i, own)| Some((i, own.building.as_ref()?)));
    std::iter::once((String::new(), file.built()))
        .chain(own.map(|(i, own)| (format!("arrangements[{i}].building."), own.built())))
}

fn underlay(file: &UnderlayFile) -> Underlay {
    Underlay {
        picture: file.picture.clone(),
        mm_per_px: file.mm_per_px.0,
        at: vec2(file.at_mm),
        turned_rad: file.turned_deg.radians(),
        faded: file.faded.0,
    }
}

fn taped(file: &TapedFile) -> TapedRoom {
    let walls = file.walls.iter().map(|wall| TapedWall {
        length_mm: wall.length_mm.0,
        turn_rad: wall.turn_deg.radians(),
        name: wall.name.as_deref().map(Id::from),
    });
    TapedRoom { start_turned_rad: file.start_turned_deg.radians(), walls: walls.collect() }
}

fn pose(at: Point, heading: Figure) -> PlanPose {
    PlanPose::new(vec2(at), heading.radians())
}

fn is_clockwise(corners: &[Point]) -> bool {
    baywright_planner::geometry::polygon::signed_area(&vecs(corners)) < 0.0
}

/// The wall of the turned room for a wall of a clockwise file, and the other way round: the ring's order is reversed,
/// and edge `i` runs between the same corners as edge `n - 2 - i` did.
fn turned_wall(wall: usize, walls: usize) -> usize {
    (2 * walls).saturating_sub(2 + wall) % walls.max(1)
}

/// The faults of the turned room as faults of a clockwise one in the file: walls by their place in the file, openings by the
/// figures that stand there. `path` stands before the room's fields.
fn as_in_clockwise_file(path: &str, file: &Built<'_>, found: Vec<Fault>) -> Vec<Fault> {
    let walls = file.room.walls.len();
    let numbered = |field: &str, list: &str| -> Option<(usize, String)> {
        let own = field.strip_prefix(path)?.strip_prefix(list)?;
        let (i, rest) = own.strip_prefix('[')?.split_once(']')?;
        Some((i.parse().ok()?, rest.to_owned()))
    };
    // Where an opening lies along its wall is judged again, as the file counts.
    let along = |field: &str| {
        numbered(field, "openings").is_some_and(|(_, rest)| rest == ".from_mm" || rest == ".width_mm")
    };
    let mut faults: Vec<Fault> = found.into_iter().filter(|fault| !along(&fault.field)).collect();
    let as_in_file = |field: &mut String| {
        if let Some((i, rest)) = numbered(field, "room.walls").filter(|(i, _)| *i < walls) {
            *field = format!("{path}room.walls[{}]{rest}", turned_wall(i, walls));
        }
    };
    for fault in &mut faults {
        as_in_file(&mut fault.field);
        if let Allowed::UsedOnce(first) = &mut fault.allowed {
            as_in_file(first);
        }
    }
    let corners = format!("{path}room.corners_mm");
    let has_size = !faults.iter().any(|fault| fault.field == corners);
    for (i, opening) in file.openings.iter().enumerate() {
        let wall = file.room.walls.iter().position(|wall| wall.name == opening.wall).filter(|_| has_size);
        let length = wall.and_then(|wall| file.room.wall_length(wall));
        let path = format!("{path}openings[{i}]");
        faults.extend(validate::opening_along_wall(&path, opening.from_mm.0, opening.width_mm.0, length));
    }
    faults
}

fn ground(file: &LayoutFile, id: Id) -> Ground {
    let mark = |m: &PermanentMarkFile| PermanentMark {
        id: m.name.as_str().into(),
        at: vec2(m.at_mm),
        laid_within_mm: m.laid_within_mm.map(|own| own.0),
        line_to: m.line_to.as_deref().map(Id::from),
        checks: m.checks.iter().map(MarkCheckFile::model).collect(),
    };
    Ground {
        id,
        name: file.name.clone(),
        survey: file.survey.as_ref().map(survey),
        marks: file.marks.iter().map(mark).collect(),
        dimensions: super::dimensions::dimensions_of(
            &file.dimensions,
            &file.room,
            is_clockwise(&file.room.corners_mm),
        ),
    }
}

/// `path` stands before every field.
fn building(path: &str, file: &Built<'_>, faults: &mut Faults) -> Option<Building> {
    let room = faults.polygon(&format!("{path}room.corners_mm"), &file.room.corners_mm);
    let mut walls: Vec<Wall> = file
        .room
        .walls
        .iter()
        .map(|w| Wall { id: w.name.as_str().into(), material: w.material.into() })
        .collect();
    if room.is_some() && walls.len() != file.room.corners_mm.len() {
        faults.add(
            format!("{path}room.walls"),
            Found::WallsForCorners { walls: walls.len(), corners: file.room.corners_mm.len() },
            Allowed::OneForEachCorner,
        );
    }
    let clockwise = is_clockwise(&file.room.corners_mm);
    if clockwise {
        // The corners are taken in reverse; the wall of edge i of the new ring was that of edge n - 2 - i.
        let n = walls.len();
        walls = (0..n).filter_map(|i| walls.get(turned_wall(i, n)).cloned()).collect();
    }
    let names: Vec<&str> = file.room.walls.iter().map(|w| w.name.as_str()).collect();
    let openings: Vec<Opening> = file
        .openings
        .iter()
        .enumerate()
        .filter_map(|(i, o)| {
            let mut opening = opening(&format!("{path}openings[{i}]"), o, &names, faults)?;
            if clockwise {
                // Measured from the wall's other end.
                let length = file.room.wall_length(opening.wall)?;
                let from = Figure(length - opening.from_mm - opening.width_mm).rounded();
                // What an opening may stick out at the wall's far end it may not at its start: it is pushed in.
                let sticks_out = (-limits::WALL_SLACK_MM..0.0).contains(&from);
                opening.from_mm = if sticks_out { 0.0 } else { from };
                opening.wall = turned_wall(opening.wall, names.len());
            }
            Some(opening)
        })
        .collect();
    let floor_features: Vec<FloorFeature> =
        listed(&format!("{path}floor_features"), file.floor_features, faults, |path, f, faults| {
            Some(FloorFeature {
                id: f.name.as_str().into(),
                kind: f.kind.into(),
                outline: faults.polygon(&format!("{path}.corners_mm"), &f.corners_mm)?,
                material: f.material.into(),
                proud_mm: f.proud_mm.0,
            })
        });
    let runways = listed(&format!("{path}runways"), file.runways, faults, |path, r, faults| {
        let outline = faults.polygon(&format!("{path}.corners_mm"), &r.corners_mm)?;
        Some(Runway {
            id: r.name.as_str().into(),
            outline,
            top_mm: r.top_mm.0,
            survey: r.survey.as_ref().map(survey),
        })
    });
    let keep_free = listed(&format!("{path}keep_free"), file.keep_free, faults, |path, k, faults| {
        let outline = faults.polygon(&format!("{path}.corners_mm"), &k.corners_mm)?;
        Some(KeepFree { id: k.name.as_str().into(), kind: k.kind.into(), outline })
    });
    let bays = listed(&format!("{path}bays"), file.bays, faults, |path, own, faults| {
        let outline = faults.polygon(&format!("{path}.corners_mm"), &own.corners_mm)?;
        Some(HallBay { id: own.name.as_str().into(), outline })
    });
    let things = listed(&format!("{path}things"), file.things, faults, thing);
    Some(Building {
        room: room?,
        walls,
        walls_known: file.room.walls_known.into(),
        ceiling_mm: file.room.ceiling_mm.0,
        openings,
        floor_features,
        runways,
        things,
        keep_free,
        bays,
        provenance: file.source.into(),
    })
}

fn listed<F, M>(
    list: &str,
    files: &[F],
    faults: &mut Faults,
    read: impl Fn(&str, &F, &mut Faults) -> Option<M>,
) -> Vec<M> {
    files.iter().enumerate().filter_map(|(i, f)| read(&format!("{list}[{i}]"), f, faults)).collect()
}

fn opening(path: &str, file: &OpeningFile, walls: &[&str], faults: &mut Faults) -> Option<Opening> {
    let wall = faults.find(&format!("{path}.wall"), &file.wall, walls.iter().copied());
    let span = faults.span(path, file.bottom_mm, file.top_mm);
    Some(Opening {
        id: file.name.as_str().into(),
        kind: file.kind.into(),
        wall: wall?,
        from_mm: file.from_mm.0,
        width_mm: file.width_mm.0,
        span: span?,
        material: file.material.into(),
        shut: file.shut,
        free_beyond_mm: file.free_beyond_mm.0,
        is_exit: file.is_exit,
    })
}

pub(super) fn thing(path: &str, file: &ThingFile, faults: &mut Faults) -> Option<Thing> {
    let span = faults.span(path, file.bottom_mm, file.top_mm);
    let shape = shape(&format!("{path}.shape"), &file.shape, faults)?;
    // A shape whose figures are in range makes an outline.
    let footprint = Footprint::new(shape).ok()?;
    Some(Thing {
        id: file.name.as_str().into(),
        kind: file.kind.into(),
        footprint,
        place: Place { at: pose(file.at_mm, file.turned_deg), known: file.known.into() },
        span: span?,
        material: file.material.into(),
        metal: file.metal.map(Into::into),
        effort: file.effort.into(),
        locked: file.locked,
    })
}

fn shape(path: &str, file: &ShapeFile, faults: &mut Faults) -> Option<Shape> {
    match file {
        ShapeFile::Rectangle { length_mm, width_mm } => {
            let length = faults.number(
                &format!("{path}.length_mm"),
                *length_mm,
                limits::side(length_mm.0, width_mm.0),
            );
            let width =
                faults.number(&format!("{path}.width_mm"), *width_mm, limits::side(width_mm.0, length_mm.0));
            (length && width).then_some(Shape::Rectangle { length_mm: length_mm.0, width_mm: width_mm.0 })
        }
        ShapeFile::Round { diameter_mm } => faults
            .number(&format!("{path}.diameter_mm"), *diameter_mm, &limits::THING)
            .then_some(Shape::Round { diameter_mm: diameter_mm.0 }),
        ShapeFile::Outline { corners_mm } => {
            faults.polygon(&format!("{path}.corners_mm"), corners_mm)?;
            Some(Shape::Outline(vecs(corners_mm)))
        }
    }
}

fn survey(file: &SurveyFile) -> FloorSurvey {
    FloorSurvey {
        taken: file.taken.map(|d| d.0),
        points: file
            .points
            .iter()
            .map(|p| LevelPoint { at: vec2(p.at_mm), level_mm: p.level_mm.0 })
            .collect(),
        how: LevelsTaken {
            with: file.with.clone(),
            by: file.by.clone(),
            within_mm: file.within_mm.map(|mm| mm.0),
        },
        provenance: (&file.source).into(),
    }
}

fn arrangement(path: &str, file: &ArrangementFile, faults: &mut Faults) -> SavedArrangement {
    let building = file.building.as_ref().and_then(|own| {
        // What it has wrong is a fault of the file, which is then no layout.
        building(&format!("{path}.building."), &own.built(), faults).map(Box::new)
    });
    let added = file
        .added
        .iter()
        .enumerate()
        .filter_map(|(i, t)| thing(&format!("{path}.added[{i}]"), t, faults))
        .collect();
    SavedArrangement {
        id: file.name.as_str().into(),
        vehicle: file.vehicle.as_str().into(),
        vehicle_fingerprint: file.vehicle_fingerprint.clone(),
        aiming: file.aiming.as_str().into(),
        parked: pose(file.parked.at_mm, file.parked.heading_deg),
        parked_known: match file.parked.known {
            ParkedKnownFile::Planned => ParkedKnown::Planned,
            ParkedKnownFile::Taped => ParkedKnown::Taped,
            ParkedKnownFile::Within { mm, deg } => ParkedKnown::Within { mm: mm.0, rad: deg.radians() },
        },
        on_runways: file.on_runways.iter().map(|r| r.as_str().into()).collect(),
        in_bay: file.in_bay.as_deref().map(Id::from),
        kept_empty: file.kept_empty.iter().map(|own| own.as_str().into()).collect(),
        kept_shut: file.kept_shut.iter().map(|own| own.as_str().into()).collect(),
        at_once: file.at_once.iter().map(|own| own.as_str().into()).collect(),
        on_this_car: file.on_this_car.as_ref().map(on_car::to_model).unwrap_or_default(),
        marks_taped: file.marks_taped.iter().map(mark_taped).collect(),
        laid_before: file.laid_before.iter().map(mark_taped).collect(),
        stands_read: file.stands_read.iter().map(Into::into).collect(),
        building,
        stands: file.stands.iter().map(|s| (s.placement.as_str().into(), set(&s.set))).collect(),
        moved: file
            .moved
            .iter()
            .map(|m| Moved {
                thing: m.thing.as_str().into(),
                place: Place { at: pose(m.at_mm, m.turned_deg), known: m.known.unwrap_or_default().into() },
            })
            .collect(),
        away: file.away.iter().map(|a| a.as_str().into()).collect(),
        added,
        shut: file.doors.iter().map(|d| (d.door.as_str().into(), d.shut)).collect(),
        visit: file.visit.iter().map(|a| a.as_str().into()).collect(),
    }
}

fn mark_taped(file: &MarkTapedFile) -> MarkTaped {
    let MarkTapedFile { from, to, read_mm, with, who, at, temperature_c } = file.clone();
    let taken = TakenFile { with, who, at, temperature_c }.model();
    MarkTaped { from: from.into(), to: to.into(), read_mm: read_mm.0, taken }
}

fn set(file: &SetFile) -> StandSet {
    match file {
        SetFile::OnMark => StandSet::OnMark,
        SetFile::At { at_mm, heading_deg, height_mm, pitch_deg } => StandSet::At {
            place: pose(*at_mm, *heading_deg),
            height_mm: height_mm.0,
            pitch_rad: pitch_deg.radians(),
        },
    }
}

#[cfg(test)]
mod tests {
    use baywright_planner::geometry::Polygon;

    use baywright_planner::geometry::DVec2;

    use super::*;

    /// Edge i of a reversed ring is edge `turned_wall(i)` of the ring, for a ring of any size.
    #[test]
    fn turned_walls_join_the_same_corners() {
        for n in 3..9_usize {
            let ring: Vec<usize> = (0..n).collect();
            let reversed: Vec<usize> = ring.iter().rev().copied().collect();
            for i in 0..n {
                let old = turned_wall(i, n);
                let (a, b) = (ring[old], ring[(old + 1) % n]);
                assert_eq!((reversed[i], reversed[(i + 1) % n]), (b, a), "{n} corners, edge {i}");
                assert_eq!(turned_wall(old, n), i);
            }
        }
    }

    #[test]
    fn the_polygon_reverses_a_clockwise_ring_as_assumed_here() {
        let clockwise: Vec<DVec2> = [(0., 0.), (0., 4.), (6., 4.), (6., 0.)].map(DVec2::from).to_vec();
        let polygon = Polygon::simple(clockwise.clone()).unwrap();
        let reversed: Vec<DVec2> = clockwise.into_iter().rev().collect();
        assert_eq!(polygon.outer(), reversed);
    }
}
