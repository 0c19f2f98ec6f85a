//! What must be found in each cell, or why nothing.

use super::columns::{Column, Relation, Variant};
use super::rows::{Hangs, Made, Row};
use super::support::*;

/// What a cell holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cell {
    /// A finding of the row, at least as bad as this, of one of these codes.
    Found(Severity, &'static [Code]),
    /// None, and why.
    Nothing(Reason),
}

/// Why nothing is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// It is farther away than its place is uncertain by.
    FarEnough,
    /// The zone does not exclude it.
    NotExcluded,
    /// It hangs above what is asked there, or lies flat under it.
    OverOrUnder,
    /// Room to work in and ways out need care at most: an uncertain place adds nothing to that.
    CareAtMost,
    /// A zone that keeps out people or light ends at a wall by itself.
    EndsAtTheWall,
    /// Only a radar has a Fresnel zone.
    NoRadar,
    /// It stands on the floor, and so over nothing.
    StandsBelow,
    /// A car that stands a little elsewhere stands no higher.
    NoHigher,
    /// The car's alignment is within what the aiming allows.
    WithinLimits,
    /// A car is driven onto it.
    DrivenOnto,
}

impl Reason {
    /// Every reason.
    pub const ALL: [Self; 10] = [
        Self::FarEnough,
        Self::NotExcluded,
        Self::OverOrUnder,
        Self::CareAtMost,
        Self::EndsAtTheWall,
        Self::NoRadar,
        Self::StandsBelow,
        Self::NoHigher,
        Self::WithinLimits,
        Self::DrivenOnto,
    ];
}

const UNSURE: Cell = Cell::Found(Severity::Care, &[Code::ZoneNear, Code::PlaceUnsure]);

/// What must be found of a row in a relation to a place by who asks.
pub fn cell(row: Row, column: Column, relation: Relation, variant: Variant) -> Cell {
    if column == Column::Fresnel
        && !variant.is_radar()
        && !matches!(row, Row::Feature(_) | Row::PermanentMark | Row::Ceiling | Row::OtherBay)
    {
        // 20 mm inside the zone's edge the sight, 5 mm to its side half way, is 37 mm away.
        let is_beside = relation == Relation::Over;
        return if is_beside { UNSURE } else { Cell::Nothing(Reason::NoRadar) };
    }
    let asked = match row {
        Row::Ceiling => ceiling(column, relation),
        Row::Thing(kind, hangs, made) => thing(kind, hangs, made, column, relation),
        Row::IdleRunway => runway(Made::Metal, column, relation),
        Row::Wall(material) => wall(material, column, relation),
        Row::Feature(kind) => feature(kind, column, relation),
        Row::PermanentMark => permanent_mark(column, relation),
        Row::OtherBay => return other_bay(column, relation, variant),
        // Over a pit's edge by however little a foot falls.
        Row::Proud(FloorFeatureKind::Pit, _)
            if matches!(column, Column::Feet | Column::OverStand) && relation == Relation::Sliver =>
        {
            stops(&[Code::StandClash])
        }
        Row::Proud(kind, made) => proud(kind, made, column, relation),
    };
    match variant {
        Variant::CarUnsure => by_the_car(row, column, relation, asked),
        Variant::Radar
        | Variant::CornerRadar
        | Variant::ForwardCamera
        | Variant::SurroundCamera
        | Variant::Lidar
        | Variant::Raised
        | Variant::Together => asked,
    }
}

/// The same where the row is known and the car may stand elsewhere.
fn by_the_car(row: Row, column: Column, relation: Relation, asked: Cell) -> Cell {
    const UNSURE_BY_CAR: Cell =
        Cell::Found(Severity::Care, &[Code::ZoneNear, Code::PlaceUnsure, Code::CarPlace]);
    // Drawn on a painted mark, laid beside it.
    if (row, column, relation) == (Row::PermanentMark, Column::Mark, Relation::Sliver) {
        return care(&[Code::BesidePermanentMark]);
    }
    let is_by_height = row == Row::Ceiling || (column == Column::OverStand && row.hangs());
    match (asked, relation) {
        (UNSURE, Relation::Within) if is_by_height => Cell::Nothing(Reason::NoHigher),
        (Cell::Found(..), Relation::Within) if matches!(column, Column::OverPerson | Column::OverCar) => {
            Cell::Nothing(Reason::NoHigher)
        }
        // A door is where it is wherever the car stands, and so is what stands in it.
        (Cell::Found(..), Relation::Within) if column == Column::WayIn => Cell::Nothing(Reason::FarEnough),
        (UNSURE, _) => UNSURE_BY_CAR,
        _ => asked,
    }
}

/// In it is found so; a sliver of it, or near it, is unsure; else it is far enough.
fn solid(over: Cell, relation: Relation) -> Cell {
    match relation {
        Relation::Over => over,
        Relation::Sliver | Relation::Within => UNSURE,
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// The same of what is found from a line or a point on: there is no sliver of it.
fn line(over: Cell, relation: Relation) -> Cell {
    match relation {
        Relation::Sliver => over,
        other => solid(over, other),
    }
}

/// Of what needs care at most.
fn care_only(over: Cell, relation: Relation) -> Cell {
    match relation {
        Relation::Over => over,
        Relation::Sliver | Relation::Within => Cell::Nothing(Reason::CareAtMost),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// What is said of the car is said of it whatever stands in its bay.
fn of_the_car(column: Column, relation: Relation) -> Cell {
    match (column, relation) {
        (Column::AxisUnknown, _) => care(&[Code::AxisUnknown]),
        (Column::AlignmentUnknown, _) => care(&[Code::AlignmentUnknown]),
        (Column::RideHeight, Relation::Over | Relation::Sliver) => stops(&[Code::RideHeight]),
        (Column::StoodStill, Relation::Over | Relation::Sliver) => stops(&[Code::CarMoved]),
        (_, Relation::Over | Relation::Sliver) => stops(&[Code::AlignmentOff]),
        (_, Relation::Within | Relation::Clear) => Cell::Nothing(Reason::WithinLimits),
    }
}

/// Over the ceiling is what is in it.
fn ceiling(column: Column, relation: Relation) -> Cell {
    match column {
        Column::NothingZone => solid(stops(&[Code::ZoneObject]), relation),
        Column::MetalZone | Column::ReflectingZone => solid(care(&[Code::ZoneUnjudged]), relation),
        Column::PeopleZone | Column::LightZone => match relation {
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
            Relation::Over | Relation::Sliver | Relation::Within => Cell::Nothing(Reason::EndsAtTheWall),
        },
        Column::Car | Column::UnderCar | Column::Target | Column::Axis | Column::OverStand => {
            solid(stops(&[Code::HeadRoom]), relation)
        }
        Column::OverCar => over(relation),
        Column::OverPerson => over(relation),
        Column::Sight
        | Column::Fresnel
        | Column::Feet
        | Column::Tyre
        | Column::Mark
        | Column::Run
        | Column::WorkingRoom
        | Column::BeforeStand
        | Column::WayOut
        | Column::Picture
        | Column::BehindTarget
        | Column::UnderTape
        | Column::WayIn
        | Column::GroundInDoor
        | Column::WorkedIn
        | Column::OnMat => Cell::Nothing(Reason::OverOrUnder),
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
    }
}

/// As high as a person, or what is free over the roof, needs, and as much more as the height is uncertain by.
fn over(relation: Relation) -> Cell {
    match relation {
        Relation::Over | Relation::Sliver | Relation::Within => care(&[Code::HeadRoom]),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

const fn stops(codes: &'static [Code]) -> Cell {
    Cell::Found(Severity::Stops, codes)
}

const fn care(codes: &'static [Code]) -> Cell {
    Cell::Found(Severity::Care, codes)
}

/// Whether a kind is a person or a source of light, whatever it is made of.
const fn is_person(kind: ThingKind) -> bool {
    match kind {
        ThingKind::Person => true,
        ThingKind::Lamp
        | ThingKind::Cabinet
        | ThingKind::ToolChest
        | ThingKind::Bench
        | ThingKind::Shelf
        | ThingKind::Trolley
        | ThingKind::Column
        | ThingKind::LiftPost
        | ThingKind::LiftArm
        | ThingKind::Drum
        | ThingKind::ParkedCar
        | ThingKind::Fence
        | ThingKind::Bin
        | ThingKind::Heater
        | ThingKind::DoorTrack
        | ThingKind::Beam
        | ThingKind::Other => false,
    }
}

const fn is_light(kind: ThingKind) -> bool {
    matches!(kind, ThingKind::Lamp)
}

fn thing(kind: ThingKind, hangs: Hangs, made: Made, column: Column, relation: Relation) -> Cell {
    let excluded = |yes: bool| {
        if yes {
            solid(stops(&[Code::ZoneObject]), relation)
        } else if relation == Relation::Clear {
            Cell::Nothing(Reason::FarEnough)
        } else {
            Cell::Nothing(Reason::NotExcluded)
        }
    };
    // People move: a step is farther than any of these relations, and in the picture what is unsure of their place counts.
    let is_beside = match column {
        Column::NothingZone | Column::PeopleZone => !matches!(relation, Relation::Over),
        // Beside the picture somebody is within a step of the sight in it.
        Column::Picture => true,
        Column::Sight => matches!(relation, Relation::Within | Relation::Clear),
        _ => false,
    };
    if is_person(kind) && is_beside {
        return care(&[Code::PersonNear]);
    }
    match column {
        Column::NothingZone => excluded(true),
        Column::MetalZone => match (is_person(kind), made) {
            (false, Made::Metal) => excluded(true),
            (true, Made::Metal) | (_, Made::NoMetal | Made::Glass) => excluded(false),
            (_, Made::Unknown) => solid(care(&[Code::ZoneUnjudged]), relation),
        },
        Column::ReflectingZone => solid(care(&[Code::ZoneUnjudged]), relation),
        Column::PeopleZone => excluded(is_person(kind)),
        Column::LightZone => excluded(is_light(kind)),
        Column::Sight => line(stops(&[Code::SightBlocked]), relation),
        // The zone is entered or not: there is no sliver of it.
        Column::Fresnel => line(care(&[Code::FresnelEntered, Code::PlaceUnsure]), relation),
        Column::Feet => match hangs {
            Hangs::No => solid(stops(&[Code::StandClash]), relation),
            Hangs::Yes => Cell::Nothing(Reason::OverOrUnder),
        },
        Column::Target | Column::Axis => solid(stops(&[Code::StandClash]), relation),
        // The stand is in what hangs lower than its top by however little; what stands is in its mast.
        Column::OverStand => match hangs {
            Hangs::Yes => line(stops(&[Code::StandClash]), relation),
            Hangs::No => solid(stops(&[Code::StandClash]), relation),
        },
        Column::OverCar | Column::OverPerson => match (hangs, column) {
            (Hangs::Yes, Column::OverCar) => over(relation),
            (Hangs::Yes, _) => over(relation),
            (Hangs::No, _) => Cell::Nothing(Reason::StandsBelow),
        },
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
        Column::Car => solid(stops(&[Code::CarClash]), relation),
        Column::UnderCar => match hangs {
            Hangs::No => under_car(relation),
            // What hangs reaches down into the body.
            Hangs::Yes => solid(stops(&[Code::CarClash]), relation),
        },
        // 30 mm inside the body's side there: it is in the car at every relation but the last.
        Column::Tyre => match relation {
            Relation::Over | Relation::Sliver => stops(&[Code::CarClash]),
            Relation::Within => UNSURE,
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
        },
        Column::Mark => match hangs {
            Hangs::No => line(stops(&[Code::MarkPlace]), relation),
            Hangs::Yes => Cell::Nothing(Reason::OverOrUnder),
        },
        Column::Run => match hangs {
            Hangs::No => line(stops(&[Code::RunBlocked]), relation),
            Hangs::Yes => Cell::Nothing(Reason::OverOrUnder),
        },
        Column::WorkingRoom => care_only(care(&[Code::WorkingRoom]), relation),
        Column::BeforeStand => care_only(care(&[Code::StandRoom]), relation),
        Column::WayOut => care_only(care(&[Code::KeepFree]), relation),
        // A parked car's lamps may be on, and glass mirrors what is.
        Column::Picture if is_light(kind) || kind == ThingKind::ParkedCar || made == Made::Glass => {
            line(care(&[Code::LightInPicture]), relation)
        }
        Column::Picture => excluded(false),
        Column::BehindTarget => glass(made == Made::Glass, relation),
        Column::UnderTape => match hangs {
            Hangs::No => under(care(&[Code::TapeOver]), relation),
            Hangs::Yes => Cell::Nothing(Reason::OverOrUnder),
        },
        Column::WayIn | Column::GroundInDoor => way_in(relation),
        Column::WorkedIn | Column::OnMat => Cell::Nothing(Reason::NotExcluded),
    }
}

/// Glass in line with a lidar and its target, or perhaps.
fn glass(is_glass: bool, relation: Relation) -> Cell {
    match relation {
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
        _ if !is_glass => Cell::Nothing(Reason::NotExcluded),
        Relation::Over | Relation::Sliver | Relation::Within => care(&[Code::GlassBehind]),
    }
}

/// What stands under the car by however little, or may stand there.
fn under_car(relation: Relation) -> Cell {
    match relation {
        Relation::Over | Relation::Sliver | Relation::Within => care(&[Code::UnderCar]),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// What lies under a tape or a wheel, by however little: that is seen there, and needs care at most.
fn under(over: Cell, relation: Relation) -> Cell {
    match relation {
        Relation::Over | Relation::Sliver => over,
        Relation::Within => Cell::Nothing(Reason::CareAtMost),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// A pit that lies open near where people work, or perhaps.
fn open_pit(relation: Relation) -> Cell {
    match relation {
        Relation::Over | Relation::Sliver | Relation::Within => care(&[Code::OpenPit]),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// What stays takes the car's way in, or perhaps.
fn way_in(relation: Relation) -> Cell {
    match relation {
        Relation::Over | Relation::Sliver | Relation::Within => care(&[Code::WayIn]),
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    }
}

/// A part of the building that stands on the floor.
fn runway(made: Made, column: Column, relation: Relation) -> Cell {
    match column {
        Column::NothingZone => solid(stops(&[Code::ZoneObject]), relation),
        Column::MetalZone => match (made, relation) {
            (Made::Metal, _) => solid(stops(&[Code::ZoneObject]), relation),
            (Made::Unknown, _) => solid(care(&[Code::ZoneUnjudged]), relation),
            (Made::NoMetal | Made::Glass, Relation::Clear) => Cell::Nothing(Reason::FarEnough),
            (Made::NoMetal | Made::Glass, _) => Cell::Nothing(Reason::NotExcluded),
        },
        Column::ReflectingZone => solid(care(&[Code::ZoneUnjudged]), relation),
        Column::PeopleZone | Column::LightZone | Column::Picture => match relation {
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
            Relation::Over | Relation::Sliver | Relation::Within => Cell::Nothing(Reason::NotExcluded),
        },
        Column::Sight => line(stops(&[Code::SightBlocked]), relation),
        Column::Fresnel => line(care(&[Code::FresnelEntered, Code::PlaceUnsure]), relation),
        Column::Feet | Column::Target | Column::Axis | Column::OverStand => {
            solid(stops(&[Code::StandClash]), relation)
        }
        Column::OverCar | Column::OverPerson => Cell::Nothing(Reason::StandsBelow),
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
        Column::Car => solid(stops(&[Code::CarClash]), relation),
        // As low as that it is the building's, and holds up no car.
        Column::UnderCar => runway(made, Column::Car, relation),
        Column::Tyre => match relation {
            Relation::Over | Relation::Sliver => stops(&[Code::CarClash]),
            Relation::Within => UNSURE,
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
        },
        Column::Mark => line(stops(&[Code::MarkPlace]), relation),
        Column::Run => line(stops(&[Code::RunBlocked]), relation),
        Column::WorkingRoom => care_only(care(&[Code::WorkingRoom]), relation),
        Column::BeforeStand => care_only(care(&[Code::StandRoom]), relation),
        Column::WayOut => care_only(care(&[Code::KeepFree]), relation),
        Column::BehindTarget => glass(false, relation),
        Column::UnderTape => line(stops(&[Code::RunBlocked]), relation),
        Column::WayIn | Column::GroundInDoor => Cell::Nothing(Reason::DrivenOnto),
        Column::WorkedIn | Column::OnMat => Cell::Nothing(Reason::NotExcluded),
    }
}

/// The same, which is no runway: a tape goes over what is low, and no car is driven onto it.
fn proud(kind: FloorFeatureKind, made: Made, column: Column, relation: Relation) -> Cell {
    match (column, kind) {
        // A pit under a raised cover lies open as any.
        (Column::UnderTape, FloorFeatureKind::Pit) => under(care(&[Code::RunBlocked]), relation),
        (Column::UnderTape, _) => under(care(&[Code::TapeOver]), relation),
        (Column::WayIn | Column::GroundInDoor, _) => way_in(relation),
        (Column::WorkedIn, FloorFeatureKind::Pit) => open_pit(relation),
        _ => runway(made, column, relation),
    }
}

fn wall(material: Material, column: Column, relation: Relation) -> Cell {
    let lets_light_in = matches!(material, Material::Glass | Material::Mesh);
    match column {
        // Light from near by is as good as light in the zone.
        Column::Picture if lets_light_in && relation != Relation::Clear => care(&[Code::LightInPicture]),
        Column::LightZone if lets_light_in && relation != Relation::Clear => care(&[Code::ZoneUnjudged]),
        Column::OnMat if lets_light_in && relation != Relation::Clear => care(&[Code::LightOnMat]),
        Column::NothingZone | Column::MetalZone | Column::ReflectingZone => {
            solid(stops(&[Code::OutsideRoom]), relation)
        }
        Column::PeopleZone | Column::LightZone | Column::Picture => match relation {
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
            Relation::Over | Relation::Sliver | Relation::Within => Cell::Nothing(Reason::EndsAtTheWall),
        },
        Column::Sight => line(stops(&[Code::SightBlocked]), relation),
        Column::Fresnel => line(care(&[Code::FresnelEntered, Code::PlaceUnsure]), relation),
        Column::Feet | Column::Target | Column::OverStand => solid(stops(&[Code::OutsideRoom]), relation),
        // As thick as a wall is, one corner of it is farther in where the edge slants.
        Column::Axis => line(stops(&[Code::OutsideRoom]), relation),
        Column::OverCar | Column::OverPerson => Cell::Nothing(Reason::StandsBelow),
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
        Column::Car | Column::UnderCar | Column::Tyre => solid(stops(&[Code::CarClash]), relation),
        Column::Mark => line(stops(&[Code::MarkPlace]), relation),
        Column::Run => line(stops(&[Code::RunBlocked]), relation),
        Column::WorkingRoom => care_only(care(&[Code::WorkingRoom]), relation),
        Column::BeforeStand => care_only(care(&[Code::StandRoom]), relation),
        Column::WayOut => Cell::Nothing(Reason::CareAtMost),
        Column::BehindTarget => glass(material == Material::Glass, relation),
        Column::UnderTape => line(stops(&[Code::RunBlocked]), relation),
        Column::WayIn | Column::GroundInDoor => way_in(relation),
        Column::WorkedIn | Column::OnMat => Cell::Nothing(Reason::NotExcluded),
    }
}

/// A cross on the floor is in nobody's way, but beside a mark it is taken for that. At 20 mm to either side it is; a sliver away
/// it is the mark.
fn permanent_mark(column: Column, relation: Relation) -> Cell {
    match (column, relation) {
        (Column::Mark, Relation::Over | Relation::Within | Relation::Clear) => {
            care(&[Code::BesidePermanentMark])
        }
        (own, _) if own.is_of_the_car() => of_the_car(own, relation),
        _ => Cell::Nothing(Reason::OverOrUnder),
    }
}

/// A bay is as it is painted: only where the car may stand elsewhere what is near it may be in it.
fn other_bay(column: Column, relation: Relation, variant: Variant) -> Cell {
    let reaches = || match (relation, variant) {
        (Relation::Over | Relation::Sliver, _) | (Relation::Within, Variant::CarUnsure) => {
            care(&[Code::BeyondBay])
        }
        (Relation::Within | Relation::Clear, _) => Cell::Nothing(Reason::FarEnough),
    };
    match column {
        Column::NothingZone
        | Column::MetalZone
        | Column::ReflectingZone
        | Column::PeopleZone
        | Column::LightZone
        | Column::Sight
        | Column::Feet
        | Column::Target
        | Column::Car
        | Column::UnderCar
        | Column::Mark
        | Column::Run
        | Column::WorkingRoom
        | Column::UnderTape
        | Column::OverStand
        | Column::BeforeStand
        | Column::Axis => reaches(),
        Column::Fresnel if variant.is_radar() => reaches(),
        // 20 mm inside the zone's edge the sight is 37 mm away.
        Column::Fresnel => Cell::Nothing(Reason::NoRadar),
        // The tread is 30 mm inside the body's side.
        Column::Tyre => match relation {
            Relation::Over | Relation::Sliver => care(&[Code::BeyondBay]),
            _ => reaches(),
        },
        Column::OverCar | Column::OverPerson => Cell::Nothing(Reason::StandsBelow),
        // Its own bay is the room, and what lies behind a target has no end; nor are the ways to it the set-up's.
        Column::WayOut
        | Column::Picture
        | Column::BehindTarget
        | Column::WayIn
        | Column::GroundInDoor
        | Column::WorkedIn
        | Column::OnMat => Cell::Nothing(Reason::NotExcluded),
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
    }
}

fn feature(kind: FloorFeatureKind, column: Column, relation: Relation) -> Cell {
    let resting = |pit: Cell, drain: Cell, joint: Cell| match relation {
        Relation::Over | Relation::Sliver => match kind {
            FloorFeatureKind::Pit => pit,
            FloorFeatureKind::Drain => drain,
            FloorFeatureKind::Joint => joint,
        },
        Relation::Within => UNSURE,
        Relation::Clear => Cell::Nothing(Reason::FarEnough),
    };
    match column {
        Column::Feet | Column::OverStand => {
            let rocks = care(&[Code::StandClash]);
            resting(stops(&[Code::StandClash]), rocks, rocks)
        }
        Column::Tyre => {
            let tips = care(&[Code::WheelPlace]);
            resting(stops(&[Code::WheelPlace]), tips, tips)
        }
        Column::Mark => {
            let nowhere = stops(&[Code::MarkPlace]);
            resting(nowhere, nowhere, care(&[Code::MarkPlace]))
        }
        // Steel, flush with the floor.
        Column::MetalZone | Column::ReflectingZone => {
            let flush = care(&[Code::ZoneUnjudged]);
            resting(flush, flush, flush)
        }
        // A hole in a floor that is to be empty.
        Column::NothingZone if kind == FloorFeatureKind::Pit => {
            let open = care(&[Code::ZoneUnjudged]);
            resting(open, open, open)
        }
        // Nobody walks over an open pit.
        Column::WorkingRoom if kind == FloorFeatureKind::Pit => {
            care_only(care(&[Code::WorkingRoom]), relation)
        }
        Column::BeforeStand if kind == FloorFeatureKind::Pit => care_only(care(&[Code::StandRoom]), relation),
        // Nor does a tape lie on it.
        Column::Run if kind == FloorFeatureKind::Pit => match relation {
            Relation::Over | Relation::Sliver => care(&[Code::RunBlocked]),
            Relation::Within => Cell::Nothing(Reason::CareAtMost),
            Relation::Clear => Cell::Nothing(Reason::FarEnough),
        },
        Column::UnderTape if kind == FloorFeatureKind::Pit => under(care(&[Code::RunBlocked]), relation),
        // Its place in the floor is the door's own.
        Column::GroundInDoor => under(care(&[Code::WayIn]), relation),
        Column::WorkedIn if kind == FloorFeatureKind::Pit => open_pit(relation),
        Column::WayOut if kind == FloorFeatureKind::Pit => care_only(care(&[Code::KeepFree]), relation),
        Column::NothingZone
        | Column::PeopleZone
        | Column::LightZone
        | Column::Sight
        | Column::Fresnel
        | Column::Target
        | Column::Car
        | Column::UnderCar
        | Column::Run
        | Column::WorkingRoom
        | Column::BeforeStand
        | Column::WayOut
        | Column::Picture
        | Column::BehindTarget
        | Column::UnderTape
        | Column::WayIn
        | Column::WorkedIn
        | Column::OnMat
        | Column::Axis => Cell::Nothing(Reason::OverOrUnder),
        Column::OverCar | Column::OverPerson => Cell::Nothing(Reason::StandsBelow),
        Column::AxisUnknown
        | Column::Alignment
        | Column::AlignmentUnknown
        | Column::RideHeight
        | Column::StoodStill => of_the_car(column, relation),
    }
}
