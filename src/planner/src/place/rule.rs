//! What each kind of finding has to do with where the car stands: a table that does not build without a new one.

use crate::assessment::{Code, Finding, Severity, Subject};

/// What a kind of finding that stops has to do with where the car stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bears {
    /// It never stops an aiming.
    Never,
    /// It does, and is so wherever the car stands: it comes of the car, the aiming and the heights alone.
    Everywhere,
    /// What of it depends on the place is decided by the regions, but for a band at their edge ([`super::BAND_MM`]); what of
    /// it is between parts of the set-up alone is so everywhere.
    Decided,
    /// The same, with some places that are left undecided until they are judged.
    Bounded,
}

/// What a kind of finding has to do with where the car stands.
pub const fn bears(code: Code) -> Bears {
    match code {
        // Car, stands and zones that keep things out lie in what of room and open doors takes their heights; what went out
        // by a door and through the wall behind it is undecided.
        Code::OutsideRoom => Bears::Bounded,
        // Solid against solid. A tyre that bulges over a high lip beside its tread is undecided.
        Code::CarClash => Bears::Bounded,
        // Solid against solid, and feet against pits; against car, floor and one another everywhere.
        Code::StandClash => Bears::Decided,
        // Solid against zone; companions and the ceiling everywhere.
        Code::ZoneObject => Bears::Decided,
        // The share that is hidden: nothing outside the shadow's region, more than a hair inside a smaller one.
        Code::SightBlocked => Bears::Bounded,
        // Points against outlines; under a raised car, whose marks may lie on a runway, undecided.
        Code::MarkPlace => Bears::Bounded,
        // Lines against outlines; by an open door, or beside a runway that carries the car, undecided.
        Code::RunBlocked => Bears::Bounded,
        // Treads against pits and lips.
        Code::WheelPlace => Bears::Decided,
        // Treads in runways; unequal runways everywhere.
        Code::WheelOffRunway => Bears::Decided,
        // Spots on runways.
        Code::MarkInAir => Bears::Decided,
        // Levels between surveyed points: squares in which they surely stop or surely do not.
        Code::FloorLevels => Bears::Bounded,
        // What the other set-up keeps clear, against this one's solids; its sight and its way of marks undecided.
        Code::Beside => Bears::Bounded,
        // Only the ceiling stops.
        Code::HeadRoom
        | Code::FieldOfView
        | Code::StandOffMark
        | Code::MarkFault
        | Code::MarkOffTarget
        | Code::StandReach
        | Code::MatBelow
        | Code::AlignmentOff
        | Code::RideHeight
        // What was read of marks, stands and of where the car stood is forgotten once it stands elsewhere.
        | Code::LaidOff
        | Code::StandSetOff
        | Code::CarMoved => Bears::Everywhere,
        Code::ZonesMissing
        | Code::NoZoneNamed
        | Code::FresnelEntered
        | Code::EchoTaken
        | Code::EchoDraws
        | Code::EchoesTogether
        | Code::MarkMissing
        | Code::MarkUnsure
        | Code::LaidUnproven
        | Code::ReadingOff
        | Code::ReadingUnused
        | Code::ReadingDay
        | Code::InstrumentOverdue
        | Code::InstrumentUnlisted
        | Code::InstrumentUnfit
        | Code::MarkDrifted
        | Code::MarkElsewhere
        | Code::MarkCheckUnused
        | Code::StandUnproven
        | Code::BesidePermanentMark
        | Code::TapeOver
        | Code::HeightsFromFloor
        | Code::ZoneUnjudged
        | Code::ZoneNear
        | Code::PlaceUnsure
        | Code::CarPlace
        | Code::AlignmentUnknown
        | Code::SheetOpen
        | Code::SheetDiffers
        | Code::CarUnlikely
        | Code::CentrelinesApart
        | Code::BeyondDoor
        | Code::BeyondBay
        | Code::WayIn
        | Code::WalkIn
        | Code::ShutDoor
        | Code::PersonNear
        | Code::UnderCar
        | Code::LightInPicture
        | Code::LightOnMat
        | Code::GlassBehind
        | Code::OffBeam
        | Code::DoorLeaf
        | Code::WorkingRoom
        | Code::StandRoom
        | Code::OpenPit
        | Code::ThingPlace
        | Code::KeepFree
        | Code::AxisUnknown
        | Code::ProfileChanged
        | Code::ShopUnread
        | Code::ShopChanged
        | Code::OwnBuilding
        | Code::OlderByEye
        | Code::ExampleFigures
        | Code::SourceNotGiven
        | Code::AssumedFigures
        | Code::MeasuredOnCar
        | Code::ViewByAngles
        | Code::Condition
        | Code::HaveReady => Bears::Never,
    }
}

/// Whether a finding stops the aiming wherever the car stands.
pub(super) fn stops_everywhere(found: &Finding) -> bool {
    if found.severity != Severity::Stops {
        return false;
    }
    match bears(found.code()) {
        Bears::Never => false,
        Bears::Everywhere => true,
        Bears::Decided | Bears::Bounded => match found.code() {
            Code::FloorLevels | Code::MarkInAir | Code::MarkPlace => false,
            // A thing of this set-up that stands in the other one's way does so wherever the car is.
            Code::Beside => found.subjects.iter().any(|own| matches!(own, Subject::Thing(_))),
            Code::WheelOffRunway => !found.subjects.contains(&Subject::Car),
            _ => found.subjects.iter().all(goes_along),
        },
    }
}

/// Whether it is of the set-up, or over or under all of the room alike.
const fn goes_along(subject: &Subject) -> bool {
    !matches!(
        subject,
        Subject::Thing(_)
            | Subject::Wall(_)
            | Subject::Opening(_)
            | Subject::Runway(_)
            | Subject::FloorFeature(_)
            | Subject::KeepFree(_)
            | Subject::HallBay(_)
    )
}
