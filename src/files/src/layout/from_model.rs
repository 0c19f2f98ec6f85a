//! From a layout to its file.

use baywright_planner::geometry::PlanPose;
use baywright_planner::model::{
    Building, FloorSurvey, Layout, LevelPoint, MarkTaped, ParkedKnown, SavedArrangement, Shape, StandSet,
    TapedRoom, TapedWall, Thing, Underlay,
};

use super::{
    ArrangementFile, BuildingFile, DoorFile, FloorFeatureFile, HallBayFile, KeepFreeFile, LayoutFile,
    LevelFile, MarkTapedFile, MovedFile, OpeningFile, ParkedFile, ParkedKnownFile, PermanentMarkFile,
    RoomFile, RunwayFile, SetFile, ShapeFile, StandAtFile, SurveyFile, TapedFile, TapedWallFile, ThingFile,
    UnderlayFile, WallFile, on_car,
};
use crate::figure::{Day, Figure, Point, point, points};
use crate::instrument::{MarkCheckFile, TakenFile};

/// The file that describes a layout.
pub fn file_of(layout: &Layout) -> LayoutFile {
    let (bay, built) = layout.bay.clone().into_parts();
    let arrangements = layout.arrangements.iter().map(arrangement).collect();
    let BuildingFile { source, room, openings, floor_features, runways, things, keep_free, bays } =
        building(&built);
    LayoutFile {
        version: crate::version::LAYOUT,
        name: bay.name,
        source,
        room,
        openings,
        floor_features,
        runways,
        things,
        keep_free,
        bays,
        survey: bay.survey.as_ref().map(survey),
        marks: bay
            .marks
            .iter()
            .map(|m| PermanentMarkFile {
                name: m.id.to_string(),
                at_mm: point(m.at),
                laid_within_mm: m.laid_within_mm.map(Figure),
                line_to: m.line_to.as_ref().map(ToString::to_string),
                checks: m.checks.iter().map(MarkCheckFile::of).collect(),
            })
            .collect(),
        dimensions: super::dimensions::files_of(&bay.dimensions),
        arrangements,
        underlay: layout.underlay.as_ref().map(underlay),
        taped: layout.taped.as_ref().map(taped),
        owner: super::owner::file_of(&layout.owner),
        shop_fingerprint: layout.shop_fingerprint.clone(),
    }
}

fn building(own: &Building) -> BuildingFile {
    BuildingFile {
        source: (&own.provenance).into(),
        room: RoomFile {
            corners_mm: points(own.room.outer()),
            walls: own
                .walls
                .iter()
                .map(|w| WallFile { name: w.id.to_string(), material: w.material.into() })
                .collect(),
            ceiling_mm: own.ceiling_mm.into(),
            walls_known: own.walls_known.into(),
        },
        openings: openings(own),
        floor_features: own
            .floor_features
            .iter()
            .map(|f| FloorFeatureFile {
                name: f.id.to_string(),
                kind: f.kind.into(),
                corners_mm: points(f.outline.outer()),
                material: f.material.into(),
                proud_mm: f.proud_mm.into(),
            })
            .collect(),
        runways: own
            .runways
            .iter()
            .map(|r| RunwayFile {
                name: r.id.to_string(),
                corners_mm: points(r.outline.outer()),
                top_mm: r.top_mm.into(),
                survey: r.survey.as_ref().map(survey),
            })
            .collect(),
        things: own.things.iter().map(thing).collect(),
        keep_free: own
            .keep_free
            .iter()
            .map(|k| KeepFreeFile {
                name: k.id.to_string(),
                kind: k.kind.into(),
                corners_mm: points(k.outline.outer()),
            })
            .collect(),
        bays: own
            .bays
            .iter()
            .map(|own| HallBayFile { name: own.id.to_string(), corners_mm: points(own.outline.outer()) })
            .collect(),
    }
}

fn survey(survey: &FloorSurvey) -> SurveyFile {
    let level = |p: &LevelPoint| LevelFile { at_mm: point(p.at), level_mm: p.level_mm.into() };
    SurveyFile {
        taken: survey.taken.map(Day),
        with: survey.how.with.clone(),
        by: survey.how.by.clone(),
        within_mm: survey.how.within_mm.map(Figure),
        source: (&survey.provenance).into(),
        points: survey.points.iter().map(level).collect(),
    }
}

fn underlay(underlay: &Underlay) -> UnderlayFile {
    UnderlayFile {
        picture: underlay.picture.clone(),
        mm_per_px: underlay.mm_per_px.into(),
        at_mm: point(underlay.at),
        turned_deg: Figure::degrees(underlay.turned_rad),
        faded: underlay.faded.into(),
    }
}

fn taped(room: &TapedRoom) -> TapedFile {
    let wall = |wall: &TapedWall| TapedWallFile {
        length_mm: wall.length_mm.into(),
        turn_deg: Figure::degrees(wall.turn_rad),
        name: wall.name.as_ref().map(ToString::to_string),
    };
    TapedFile {
        start_turned_deg: Figure::degrees(room.start_turned_rad),
        walls: room.walls.iter().map(wall).collect(),
    }
}

fn openings(own: &Building) -> Vec<OpeningFile> {
    // A wall that is not there becomes an empty name: reading it back refuses it.
    let wall = |i: usize| own.walls.get(i).map_or_else(String::new, |w| w.id.to_string());
    own.openings
        .iter()
        .map(|o| OpeningFile {
            name: o.id.to_string(),
            kind: o.kind.into(),
            wall: wall(o.wall),
            from_mm: o.from_mm.into(),
            width_mm: o.width_mm.into(),
            bottom_mm: o.span.bottom().into(),
            top_mm: o.span.top().into(),
            material: o.material.into(),
            shut: o.shut,
            free_beyond_mm: o.free_beyond_mm.into(),
            is_exit: o.is_exit,
        })
        .collect()
}

fn placed(pose: &PlanPose) -> (Point, Figure) {
    (point(pose.origin()), Figure::degrees(pose.heading()))
}

pub(super) fn thing(thing: &Thing) -> ThingFile {
    let (at_mm, turned_deg) = placed(&thing.place.at);
    ThingFile {
        name: thing.id.to_string(),
        kind: thing.kind.into(),
        shape: match thing.footprint.shape() {
            Shape::Rectangle { length_mm: length, width_mm: width } => {
                ShapeFile::Rectangle { length_mm: (*length).into(), width_mm: (*width).into() }
            }
            Shape::Round { diameter_mm: diameter } => ShapeFile::Round { diameter_mm: (*diameter).into() },
            Shape::Outline(corners) => ShapeFile::Outline { corners_mm: points(corners) },
        },
        at_mm,
        turned_deg,
        bottom_mm: thing.span.bottom().into(),
        top_mm: thing.span.top().into(),
        material: thing.material.into(),
        metal: thing.metal.map(Into::into),
        known: thing.place.known.into(),
        effort: thing.effort.into(),
        locked: thing.locked,
    }
}

fn arrangement(saved: &SavedArrangement) -> ArrangementFile {
    let (at_mm, heading_deg) = placed(&saved.parked);
    let known = match saved.parked_known {
        ParkedKnown::Planned => ParkedKnownFile::Planned,
        ParkedKnown::Taped => ParkedKnownFile::Taped,
        ParkedKnown::Within { mm, rad } => {
            ParkedKnownFile::Within { mm: mm.into(), deg: Figure::degrees(rad) }
        }
    };
    ArrangementFile {
        name: saved.id.to_string(),
        vehicle: saved.vehicle.to_string(),
        vehicle_fingerprint: saved.vehicle_fingerprint.clone(),
        aiming: saved.aiming.to_string(),
        parked: ParkedFile { at_mm, heading_deg, known },
        on_runways: saved.on_runways.iter().map(ToString::to_string).collect(),
        in_bay: saved.in_bay.as_ref().map(ToString::to_string),
        kept_empty: saved.kept_empty.iter().map(ToString::to_string).collect(),
        kept_shut: saved.kept_shut.iter().map(ToString::to_string).collect(),
        at_once: saved.at_once.iter().map(ToString::to_string).collect(),
        on_this_car: on_car::file_of(&saved.on_this_car),
        marks_taped: saved.marks_taped.iter().map(mark_taped).collect(),
        laid_before: saved.laid_before.iter().map(mark_taped).collect(),
        stands_read: saved.stands_read.iter().map(Into::into).collect(),
        building: saved.building.as_deref().map(building),
        stands: saved
            .stands
            .iter()
            .map(|(id, set)| StandAtFile { placement: id.to_string(), set: stand(set) })
            .collect(),
        moved: saved
            .moved
            .iter()
            .map(|m| {
                let (at_mm, turned_deg) = placed(&m.place.at);
                let known = Some(m.place.known.into());
                MovedFile { thing: m.thing.to_string(), at_mm, turned_deg, known }
            })
            .collect(),
        away: saved.away.iter().map(ToString::to_string).collect(),
        added: saved.added.iter().map(thing).collect(),
        doors: saved
            .shut
            .iter()
            .map(|(door, shut)| DoorFile { door: door.to_string(), shut: *shut })
            .collect(),
        visit: saved.visit.iter().map(ToString::to_string).collect(),
    }
}

fn mark_taped(own: &MarkTaped) -> MarkTapedFile {
    let TakenFile { with, who, at, temperature_c } = TakenFile::of(&own.taken);
    let (from, to, read_mm) = (own.from.to_string(), own.to.to_string(), Figure(own.read_mm));
    MarkTapedFile { from, to, read_mm, with, who, at, temperature_c }
}

fn stand(set: &StandSet) -> SetFile {
    match set {
        StandSet::OnMark => SetFile::OnMark,
        StandSet::At { place, height_mm: height, pitch_rad: pitch } => {
            let (at_mm, heading_deg) = placed(place);
            SetFile::At {
                at_mm,
                heading_deg,
                height_mm: (*height).into(),
                pitch_deg: Figure::degrees(*pitch),
            }
        }
    }
}
