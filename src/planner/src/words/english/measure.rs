//! The number of a finding against its limit, in words.

use super::About;
use super::off_place::off_by;
use crate::assessment::{
    Facts, Finding, FloorFact, InSight, Lacks, Misplaced, Painted, Severity, StandOpen, Subject, TooSmall,
    Under,
};
use crate::words::matter::{is_nought, is_said_with_limit};

impl About<'_> {
    /// The number against its limit: "0.9° turned, limit 0.2°". A limit of nought goes without saying: "250 mm inside". `None`
    /// where there is no number.
    pub fn measure(&self, finding: &Finding) -> Option<String> {
        let (measured, limit) = (finding.measured?, finding.limit?);
        let [value, mut limit_text] = self.against(measured, limit);
        if is_said_with_limit(&finding.basis) {
            limit_text.push_str(", the shop's own");
        }
        let within = if is_nought(limit) && !is_said_with_limit(&finding.basis) {
            String::new()
        } else {
            format!(", limit {limit_text}")
        };
        Some(match &finding.facts {
            Facts::ZoneObject(_) | Facts::ZoneUnjudged(_) => format!("{value} inside{within}"),
            Facts::DoorLeaf(_) | Facts::ShutDoor { .. } | Facts::KeepFree => format!("by {value}{within}"),
            Facts::WalkIn if matches!(finding.subjects.first(), Some(Subject::KeepFree(_))) => {
                format!("by {value}{within}")
            }
            Facts::LightOnMat => format!("{value} away, a low sun reaches {limit_text}"),
            Facts::OpenPit(_) => format!("{value} from them, wants {limit_text}"),
            Facts::WalkIn => format!("{value} from it, wants {limit_text}"),
            Facts::UnderCar => format!("{value} beside it, known to ± {limit_text}"),
            Facts::PersonNear => match finding.subjects.get(1) {
                Some(Subject::Sensor) => format!("{value} beside it, known to ± {limit_text}"),
                _ => format!("{value} from it, wants {limit_text}"),
            },
            Facts::MeasuredOnCar => format!("{value} off the profile's, usual up to {limit_text}"),
            Facts::ReadingOff(_) => return None,
            Facts::InstrumentOverdue(_) => format!("by {value}"),
            Facts::InstrumentUnfit(_)
            | Facts::InstrumentUnlisted(_)
            | Facts::ReadingUnused { .. }
            | Facts::MarkCheckUnused { .. } => {
                return None;
            }
            Facts::ReadingDay { is_to_come } => self.days_away(&value, *is_to_come),
            Facts::MarkDrifted(_) | Facts::MarkElsewhere { .. } => format!("by {value}, limit {limit_text}"),
            Facts::StandSetOff(figure) | Facts::StandUnproven(StandOpen::Figure(figure)) => {
                self.stand_against(figure)
            }
            Facts::StandUnproven(StandOpen::Parts { .. } | StandOpen::NotPossible(_)) => return None,
            Facts::LaidOff(figure) | Facts::LaidUnproven(figure) => self.off_against(figure),
            Facts::MarkUnsure(_) => format!("to ± {value}, limit {limit_text}"),
            Facts::WayIn(TooSmall::NoGround) => format!("{value}, limit {limit_text}"),
            Facts::WayIn(TooSmall::Sill) => format!("sill {limit_text} high"),
            Facts::WayIn(TooSmall::Narrow) if finding.subjects.len() > 2 => {
                format!("{value} of its width left, wants {limit_text}")
            }
            Facts::WayIn(TooSmall::Low) if finding.subjects.len() > 2 => {
                format!("{value} of its height left, wants {limit_text}")
            }
            Facts::WayIn(TooSmall::Narrow) => format!("the widest {value} wide, wants {limit_text}"),
            Facts::WayIn(TooSmall::Low) => format!("the highest {value} high, wants {limit_text}"),
            Facts::TapeOver => format!("lengthens it by {value}, limit {limit_text}"),
            Facts::MarkPlace => format!("{value} over it, wants {limit_text}"),
            Facts::OutsideRoom { .. } => format!("{value} too far{within}"),
            Facts::CarClash(Lacks::Height) | Facts::StandClash(Lacks::Height) => {
                format!("{value} of height missing{within}")
            }
            Facts::CarClash(Lacks::Room) | Facts::StandClash(Lacks::Room) => match finding.subjects.first() {
                Some(Subject::FloorFeature(_)) => format!("{value} from being off it{within}"),
                Some(Subject::Opening(_)) => format!("{value} too far{within}"),
                _ => format!("{value} too close{within}"),
            },
            Facts::ZoneNear(_) | Facts::PlaceUnsure(_) | Facts::CarPlace(_) => {
                format!("clear by {value}, wants {limit_text}")
            }
            Facts::SightBlocked(InSight::Wall) => format!("{value} into the view{within}"),
            Facts::SightBlocked(_) => format!("{value} hidden{within}"),
            Facts::FresnelEntered(_) => {
                format!("{value} of the first Fresnel zone's radius clear, wants {limit_text}")
            }
            Facts::EchoTaken(echo) => self.echo_times(echo.heard.level_db),
            Facts::EchoDraws(_) | Facts::EchoesTogether => format!("by up to {value}{within}"),
            Facts::FieldOfView => format!("{value} off the middle of its view, limit {limit_text}"),
            Facts::OffBeam { .. } => format!("{value} off its boresight, edge of the beam {limit_text}"),
            Facts::Beside { what, .. } => return self.beside_measure(what),
            Facts::BeyondBay { .. } if !is_nought(limit) => format!("clear by {value}, wants {limit_text}"),
            Facts::BeyondBay { .. } => format!("by {value}"),
            Facts::BeyondDoor if is_nought(limit) => format!("by {value}, where nothing is known to be free"),
            Facts::BeyondDoor => format!("by {value}, where {limit_text} are known to be free"),
            Facts::StandOffMark(off) => format!("{value} {}, limit {limit_text}", off_by(off.about)),
            Facts::HeadRoom(Under::Car) if finding.severity == Severity::Care => {
                format!("{value} above the roof, wants {limit_text}")
            }
            Facts::HeadRoom(Under::Person) => format!("{value} above the floor, wants {limit_text}"),
            Facts::HeadRoom(Under::Car | Under::Stand) => format!("{value} high, limit {limit_text}"),
            Facts::ThingPlace(Misplaced::Beyond) => format!("{value} beyond it, known to {limit_text}"),
            Facts::ThingPlace(_) => format!("{value} in one another, known to {limit_text}"),
            Facts::StandReach(_) => format!("asked {value} above the floor, reaches {limit_text}"),
            Facts::MarkOffTarget => format!("{value} beside it{within}"),
            Facts::BesidePermanentMark(Painted::On) => format!("by up to {value}{within}"),
            Facts::BesidePermanentMark(Painted::Beside(_)) => {
                format!("{value} apart, wants {limit_text} or none")
            }
            Facts::WheelOffRunway(_) => format!("{value} apart{within}"),
            Facts::WorkingRoom(_) | Facts::StandRoom(_) => format!("{value} there, wants {limit_text}"),
            Facts::FloorLevels(FloorFact::OutOfDate) if finding.subjects.len() > 1 => {
                format!("up to {value} old, limit {limit_text}")
            }
            Facts::SheetOpen(_)
            | Facts::SheetDiffers { .. }
            | Facts::CarUnlikely(_)
            | Facts::RideHeight(_)
            | Facts::CentrelinesApart(_)
            | Facts::CarMoved { .. } => self.this_car_measure(finding, &value, &limit_text),
            Facts::FloorLevels(fact) => super::floor::measure(*fact, &value, &limit_text),
            // These have no number.
            Facts::MarkFault(_)
            | Facts::RunBlocked
            | Facts::WheelPlace(_)
            | Facts::GlassBehind
            | Facts::MatBelow
            | Facts::MarkInAir { .. }
            | Facts::HeightsFromFloor
            | Facts::AxisUnknown
            | Facts::ProfileChanged
            | Facts::ShopUnread
            | Facts::ShopChanged
            | Facts::OwnBuilding
            | Facts::OlderByEye
            | Facts::ExampleFigures
            | Facts::SourceNotGiven
            | Facts::AssumedFigures(_)
            | Facts::AlignmentOff(_)
            | Facts::AlignmentUnknown(_)
            | Facts::LightInPicture(_)
            | Facts::ViewByAngles
            | Facts::Condition(_)
            | Facts::MarkMissing
            | Facts::ZonesMissing
            | Facts::NoZoneNamed
            | Facts::HaveReady(_) => format!("{value}, limit {limit_text}"),
        })
    }
}
