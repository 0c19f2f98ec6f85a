//! English of what a finding's code means.

use crate::check::finding::Code;

/// What a finding's code means, in one sentence.
pub const fn code(code: Code) -> &'static str {
    match code {
        Code::OutsideRoom => {
            "Part of the set-up (a keep-clear zone, a target, a stand) is outside the room, through a wall or a shut door."
        }
        Code::CarClash => "The car and something else want the same place.",
        Code::StandClash => {
            "The target or its stand and something else want the same place, or it stands on a pit or a grate."
        }
        Code::ZoneObject => "Something is in a keep-clear zone that may not be in it.",
        Code::ZonesMissing => {
            "No keep-clear zone of the aiming is entered, so that nothing was judged for any."
        }
        Code::NoZoneNamed => {
            "It was entered that the procedure names no keep-clear zone, so that nothing was judged for any."
        }
        Code::SightBlocked => "Something hides part of the target from the sensor.",
        Code::FresnelEntered => {
            "Something reaches into the first Fresnel zone between a radar and its target."
        }
        Code::EchoTaken => "Something sends back an echo that a radar may take for its target.",
        Code::EchoDraws => {
            "Something sends back an echo that may draw a radar's aim further than is allowed."
        }
        Code::EchoesTogether => {
            "Echoes that each alone matter little may draw a radar's aim further than is allowed together."
        }
        Code::FieldOfView => "The target is outside what the sensor sees.",
        Code::StandOffMark => "The target is not where it belongs.",
        Code::MarkFault => "A floor mark cannot be found by its recipe.",
        Code::MarkOffTarget => "The marks lead elsewhere than the stand-off does.",
        Code::MarkMissing => "No mark leads to a target: how its place on the floor is found is not told.",
        Code::LaidOff => "By what was taped between its marks a target lies further off than is allowed.",
        Code::LaidUnproven => {
            "What was taped between its marks does not prove yet that a target lies within what is allowed."
        }
        Code::ReadingOff => "What was taped between marks does not fit together.",
        Code::ReadingUnused => {
            "Something that was read is of no mark, run or target of this set-up, and is not used."
        }
        Code::ReadingDay => {
            "What was read between marks was read on another day than the one that is asked about."
        }
        Code::MarkElsewhere => "A mark that stays is not where the bay has it, by its last check.",
        Code::MarkCheckUnused => "A check of a mark that stays says nothing of where it is, and is not used.",
        Code::InstrumentOverdue => {
            "Marks were laid, taped or checked with an instrument whose check was over."
        }
        Code::InstrumentUnfit => {
            "What was read between marks is said to be read with an instrument that reads no distances."
        }
        Code::InstrumentUnlisted => {
            "What was read between marks was read with an instrument that is not in the shop's list."
        }
        Code::MarkDrifted => "A mark that stays on the floor is no more where an earlier check found it.",
        Code::StandSetOff => {
            "By what was read of its stand a target hangs, stands or leans further off than is allowed."
        }
        Code::StandUnproven => {
            "What was read of its stand does not prove yet that a target is within what is allowed."
        }
        Code::MarkUnsure => "A target's mark cannot be laid as surely as the target must stand.",
        Code::MarkPlace => {
            "A floor mark lies where no mark can be: under a thing, on a drain or a pit, beyond a wall."
        }
        Code::BesidePermanentMark => {
            "A floor mark lies beside one that stays on the floor, and may be taken for it."
        }
        Code::RunBlocked => "A straight run of tape or laser goes through something, or over an open pit.",
        Code::TapeOver => "A tape would lie over something that lengthens what it reads.",
        Code::HeadRoom => "There is too little height over the car, a stand or a person.",
        Code::StandReach => "A stand does not reach the height that is asked of it.",
        Code::MatBelow => "A mat lies on the floor below a car that is raised.",
        Code::MarkInAir => "A mark beside a car that is raised would hang in the air.",
        Code::HeightsFromFloor => "Heights were given from the floor, and the car is raised.",
        Code::WheelPlace => "A wheel stands on a pit, a grate or a joint.",
        Code::WheelOffRunway => "A wheel is not wholly on its runway, or the runways are unequally high.",
        Code::ZoneUnjudged => {
            "Something is in a keep-clear zone, and it cannot be judged whether it matters."
        }
        Code::ZoneNear => {
            "Something is so near a keep-clear zone that it may be inside: its place is not known well enough."
        }
        Code::PlaceUnsure => {
            "Something may be in the way of sight, car, stand, marks or runs: its place is not known well enough."
        }
        Code::CarPlace => {
            "The car's place is not known well enough: the set-up may meet something of the room."
        }
        Code::AlignmentOff => "The car's thrust angle or set-back is beyond what the aiming allows.",
        Code::AlignmentUnknown => {
            "The aiming limits thrust angle or set-back, and the alignment sheet is not entered; or only half of it is."
        }
        Code::SheetOpen => {
            "A figure of the alignment sheet is not used: nobody said which way it goes, or at which diameter a toe is given."
        }
        Code::SheetDiffers => {
            "The thrust angle that the alignment sheet prints is not what its rear toes give."
        }
        Code::CarUnlikely => {
            "A figure measured on this car is one that hardly any car has: a slip, another car's sheet, or a part that is bent."
        }
        Code::RideHeight => {
            "A wheel arch is higher or lower than it may be or was not taped; the body leans, by itself or with the floor; or it carries a \
             sensor along that nobody measured."
        }
        Code::CentrelinesApart => {
            "The centreline by points of the body leads elsewhere than the axis that the aiming names."
        }
        Code::CarMoved => "The car moved since its marks were laid.",
        Code::BeyondDoor => {
            "Part of the set-up is outside, through a door that stands open; what is there is not known."
        }
        Code::Beside => {
            "What is done at the same time in another bay of the hall does not go with this, or it is not known whether it does."
        }
        Code::BeyondBay => {
            "Part of the set-up lies in another bay of the hall, or in the rest of the hall; another bay is kept empty for it; or two bays share floor."
        }
        Code::WayIn => "No door or gap that is entered lets the car in.",
        Code::WalkIn => "People may walk into a keep-clear zone that is to be clear of them.",
        Code::ShutDoor => {
            "A shut door may be opened onto the set-up while it is aimed, or is kept shut for that time."
        }
        Code::PersonNear => {
            "Somebody stands within a step of a keep-clear zone that is to be clear of people or of the line of sight, or in the \
             picture of a camera."
        }
        Code::UnderCar => "Something or somebody is under the car, or may be.",
        Code::LightOnMat => "Daylight may fall on a mat that a camera looks at.",
        Code::LightInPicture => "Daylight or a lamp's light is or may be in the picture of a camera.",
        Code::GlassBehind => "Glass stands behind a lidar's target, in line with it.",
        Code::OffBeam => "The target is outside the radar's beam, from where less comes back.",
        Code::DoorLeaf => "The leaf of an open door, or the roll of a roller door, may be in the way.",
        Code::OpenPit => "A pit lies open where people lay marks and set targets, or near to it.",
        Code::WorkingRoom => "There is too little room to walk and work around the car.",
        Code::StandRoom => "There is too little room to step up to a target, or to stand beside it.",
        Code::ThingPlace => "A thing is outside the room or in another thing: a figure must be wrong.",
        Code::KeepFree => "A way out, a panel or an extinguisher is not free; local rules decide.",
        Code::FloorLevels => {
            "The floor's levels are not known here, too old or too uncertain, or not as the aiming asks."
        }
        Code::AxisUnknown => "The aiming follows the thrust line, and the alignment sheet is not entered.",
        Code::ProfileChanged => "The car's profile is not the one that the layout remembers.",
        Code::ShopUnread => "The shop's own settings cannot be read, and the defaults stand in for them.",
        Code::ShopChanged => {
            "The shop's settings are not those by which the layout was judged when it was saved."
        }
        Code::OwnBuilding => "The building is as planned for this set-up alone, not the bay's.",
        Code::OlderByEye => "Places by eye are from an older file, in which by eye meant less.",
        Code::SourceNotGiven => "Figures were entered, and it is not said where they come from.",
        Code::ExampleFigures => "Figures of the car are an example's, none of a maker.",
        Code::AssumedFigures => {
            "Figures of the car were not entered: they are assumed from its body class, or from what is usual."
        }
        Code::MeasuredOnCar => "A figure that was measured on this car is used instead of the profile's.",
        Code::ViewByAngles => "A camera's picture is judged by angles, without its lens.",
        Code::Condition => "Something is to be met before anything is measured.",
        Code::HaveReady => "Something is to be at hand.",
    }
}
