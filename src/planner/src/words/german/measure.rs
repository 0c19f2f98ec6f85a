//! The number of a finding against its limit, in words.

use super::About;
use super::off_place::off_by;
use crate::assessment::{
    Facts, Finding, FloorFact, InSight, Lacks, Misplaced, Painted, Severity, StandOpen, Subject, TooSmall,
    Under,
};
use crate::words::matter::{is_nought, is_said_with_limit};

impl About<'_> {
    /// The number against its limit: "0,9° verdreht, Grenze 0,2°". A limit of nought goes without saying: "250 mm weit darin".
    /// `None` where there is no number.
    pub fn measure(&self, finding: &Finding) -> Option<String> {
        let (measured, limit) = (finding.measured?, finding.limit?);
        let [value, mut limit_text] = self.against(measured, limit);
        if is_said_with_limit(&finding.basis) {
            limit_text.push_str(" (Vorgabe der Werkstatt)");
        }
        let within = if is_nought(limit) && !is_said_with_limit(&finding.basis) {
            String::new()
        } else {
            format!(", Grenze {limit_text}")
        };
        Some(match &finding.facts {
            Facts::ZoneObject(_) | Facts::ZoneUnjudged(_) => format!("{value} weit darin{within}"),
            Facts::DoorLeaf(_) | Facts::ShutDoor { .. } | Facts::KeepFree => format!("um {value}{within}"),
            Facts::WalkIn if matches!(finding.subjects.first(), Some(Subject::KeepFree(_))) => {
                format!("um {value}{within}")
            }
            Facts::LightOnMat => format!("{value} entfernt, tiefe Sonne reicht {limit_text}"),
            Facts::OpenPit(_) => format!("{value} daneben, nötig {limit_text}"),
            Facts::WalkIn => format!("{value} davon entfernt, nötig {limit_text}"),
            Facts::UnderCar => format!("{value} daneben, bekannt auf ± {limit_text}"),
            Facts::PersonNear => match finding.subjects.get(1) {
                Some(Subject::Sensor) => format!("{value} daneben, bekannt auf ± {limit_text}"),
                _ => format!("{value} davon entfernt, nötig {limit_text}"),
            },
            Facts::MeasuredOnCar => format!("{value} neben dem Profil, üblich bis {limit_text}"),
            Facts::ReadingOff(_) => return None,
            Facts::InstrumentOverdue(_) => format!("um {value}"),
            Facts::InstrumentUnfit(_)
            | Facts::InstrumentUnlisted(_)
            | Facts::ReadingUnused { .. }
            | Facts::MarkCheckUnused { .. } => {
                return None;
            }
            Facts::ReadingDay { is_to_come } => self.days_away(&value, *is_to_come),
            Facts::MarkDrifted(_) | Facts::MarkElsewhere { .. } => format!("um {value}, Grenze {limit_text}"),
            Facts::StandSetOff(figure) | Facts::StandUnproven(StandOpen::Figure(figure)) => {
                self.stand_against(figure)
            }
            Facts::StandUnproven(StandOpen::Parts { .. } | StandOpen::NotPossible(_)) => return None,
            Facts::LaidOff(figure) | Facts::LaidUnproven(figure) => self.off_against(figure),
            Facts::MarkUnsure(_) => format!("auf ± {value}, Grenze {limit_text}"),
            Facts::WayIn(TooSmall::NoGround) => format!("{value}, Grenze {limit_text}"),
            Facts::WayIn(TooSmall::Sill) => format!("Schwelle {limit_text} hoch"),
            Facts::WayIn(TooSmall::Narrow) if finding.subjects.len() > 2 => {
                format!("{value} der Breite frei, nötig {limit_text}")
            }
            Facts::WayIn(TooSmall::Low) if finding.subjects.len() > 2 => {
                format!("{value} der Höhe frei, nötig {limit_text}")
            }
            Facts::WayIn(TooSmall::Narrow) => format!("höchstens {value} breit, nötig {limit_text}"),
            Facts::WayIn(TooSmall::Low) => format!("höchstens {value} hoch, nötig {limit_text}"),
            Facts::TapeOver => format!("verlängert um {value}, Grenze {limit_text}"),
            Facts::MarkPlace => format!("{value} darüber, nötig {limit_text}"),
            Facts::OutsideRoom { .. } => format!("{value} zu weit{within}"),
            Facts::CarClash(Lacks::Height) | Facts::StandClash(Lacks::Height) => {
                format!("{value} Höhe fehlen{within}")
            }
            Facts::CarClash(Lacks::Room) | Facts::StandClash(Lacks::Room) => match finding.subjects.first() {
                Some(Subject::FloorFeature(_)) => format!("{value} fehlen, um daneben zu stehen{within}"),
                Some(Subject::Opening(_)) => format!("{value} zu weit{within}"),
                _ => format!("{value} zu nah{within}"),
            },
            Facts::ZoneNear(_) | Facts::PlaceUnsure(_) | Facts::CarPlace(_) => {
                format!("{value} Luft, nötig {limit_text}")
            }
            Facts::SightBlocked(InSight::Wall) => format!("{value} in der Sicht{within}"),
            Facts::SightBlocked(_) => format!("{value} verdeckt{within}"),
            Facts::FresnelEntered(_) => {
                format!("{value} vom Radius der ersten Fresnelzone frei, nötig {limit_text}")
            }
            Facts::EchoTaken(echo) => self.echo_times(echo.heard.level_db),
            Facts::EchoDraws(_) | Facts::EchoesTogether => format!("um bis zu {value}{within}"),
            Facts::FieldOfView => format!("{value} neben der Mitte des Sichtfelds, Grenze {limit_text}"),
            Facts::OffBeam { .. } => {
                format!("{value} neben der Mitte des Strahls, Rand des Strahls {limit_text}")
            }
            Facts::Beside { what, .. } => return self.beside_measure(what),
            Facts::BeyondBay { .. } if !is_nought(limit) => format!("{value} Luft, nötig {limit_text}"),
            Facts::BeyondBay { .. } => format!("um {value}"),
            Facts::BeyondDoor if is_nought(limit) => format!("um {value}, bekannt frei ist dort nichts"),
            Facts::BeyondDoor => format!("um {value}, bekannt frei sind dort {limit_text}"),
            Facts::StandOffMark(off) => format!("{value} {}, Grenze {limit_text}", off_by(off.about)),
            Facts::HeadRoom(Under::Car) if finding.severity == Severity::Care => {
                format!("{value} über dem Dach, nötig {limit_text}")
            }
            Facts::HeadRoom(Under::Person) => format!("{value} über dem Boden, nötig {limit_text}"),
            Facts::HeadRoom(Under::Car | Under::Stand) => format!("{value} hoch, Grenze {limit_text}"),
            Facts::ThingPlace(Misplaced::Beyond) => format!("{value} jenseits, bekannt auf {limit_text}"),
            Facts::ThingPlace(_) => format!("{value} ineinander, bekannt auf {limit_text}"),
            Facts::StandReach(_) => format!("verlangt {value} über dem Boden, reicht bis {limit_text}"),
            Facts::MarkOffTarget => format!("{value} daneben{within}"),
            Facts::BesidePermanentMark(Painted::On) => format!("um bis zu {value}{within}"),
            Facts::BesidePermanentMark(Painted::Beside(_)) => {
                format!("{value} auseinander, nötig {limit_text} oder keine")
            }
            Facts::WheelOffRunway(_) => format!("{value} Unterschied{within}"),
            Facts::WorkingRoom(_) | Facts::StandRoom(_) => format!("{value} frei, nötig {limit_text}"),
            Facts::FloorLevels(FloorFact::OutOfDate) if finding.subjects.len() > 1 => {
                format!("bis zu {value} alt, Grenze {limit_text}")
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
            | Facts::HaveReady(_) => format!("{value}, Grenze {limit_text}"),
        })
    }
}
