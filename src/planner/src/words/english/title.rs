//! What is wrong, in one short sentence.

use super::marks::wheel_name;
use super::{About, sentence_start};
use crate::assessment::{
    AlignmentFigure, DoorPart, Facts, Finding, InSight, Lit, MarkFor, Misplaced, OnRunways, Open, Painted,
    Quantity, Severity, StandReach, StandSide, Subject, Under,
};
use crate::echoes::Does;
use crate::model::{Exclusion, Id};
use crate::scene::TargetPart;

impl About<'_> {
    /// What is wrong, in one short sentence without its full stop: "Tool cabinet is inside the keep-clear zone".
    pub fn title(&self, finding: &Finding) -> String {
        sentence_start(&self.within_sentence(finding))
    }

    /// What of the set-up would be outside, through a door or window.
    fn out_through(&self, what: &str, id: &Id, no_fit: bool) -> String {
        let through = self.subject(&Subject::Opening(id.clone()));
        match self.arrangement.bay.openings.iter().find(|door| door.id == *id) {
            Some(door) if !door.is_open() => format!("{what} would go through {through}, which is shut"),
            Some(_) if no_fit => format!("{what} does not fit through {through}"),
            _ => format!("{what} would reach further through {through} than is known to be free"),
        }
    }

    /// The same as it stands within a sentence: names keep their letters.
    pub(super) fn within_sentence(&self, finding: &Finding) -> String {
        let first = finding.subjects.first().map_or_else(String::new, |s| self.bare_subject(s));
        let second = finding.subjects.get(1).map_or_else(String::new, |s| self.subject(s));
        // With its article, where it is not the sentence's first word.
        let the_first = finding.subjects.first().map_or_else(String::new, |s| self.subject(s));
        match &finding.facts {
            Facts::OutsideRoom { part, no_fit, .. } => {
                let whose = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
                let first = match part {
                    Some(TargetPart::Feet) => format!("the feet of {whose}"),
                    Some(TargetPart::Mast) => format!("the mast of {whose}"),
                    Some(TargetPart::Body) | None => first,
                };
                match finding.subjects.get(1) {
                    Some(Subject::Opening(id)) => self.out_through(&first, id, *no_fit),
                    _ => format!("{first} would go through {second}"),
                }
            }
            Facts::CarClash(_) | Facts::StandClash(_) => match finding.subjects.first() {
                // A door is no thing that the car could be in.
                Some(Subject::Opening(id)) => self.out_through(&second, id, false),
                Some(Subject::FloorFeature(_)) => match finding.subjects.get(1) {
                    Some(Subject::Stand(id)) if self.is_mat(id) => {
                        format!("{second} would lie on {the_first}")
                    }
                    _ => format!("{second} would stand on {the_first}"),
                },
                Some(Subject::Car) => format!("the car and {second} want the same place"),
                _ => format!("{first} is where {second} must be"),
            },
            Facts::ZoneObject(_) => format!("{first} is inside {second}"),
            Facts::ZonesMissing => "no keep-clear zone is entered for this aiming".to_owned(),
            Facts::NoZoneNamed => "the procedure names no keep-clear zone".to_owned(),
            Facts::ZoneUnjudged(zone) => match (finding.subjects.first(), zone.heights) {
                (Some(Subject::Wall(_) | Subject::Opening(_)), None) => {
                    format!("{first} bounds {second} and may hold metal")
                }
                (Some(Subject::FloorFeature(id)), None) => {
                    let lies = if self.is_pit(id) { "lies open" } else { "lies flush" };
                    format!("{first} {lies} in the floor of {second}")
                }
                (Some(Subject::Opening(_) | Subject::Wall(_)), Some(_)) => {
                    let lets = if self.may_only_be_clear(finding) { "may let" } else { "lets" };
                    format!("{first} {lets} light into {second}")
                }
                _ if matches!(zone.excludes, Exclusion::Reflecting(_)) && !self.is_of_unknown(finding) => {
                    format!("{first} is in {second} and may send back too much")
                }
                _ => format!("{first} is in {second}, and it is not known whether it matters"),
            },
            Facts::AlignmentOff(figure) => {
                let what = match figure {
                    AlignmentFigure::ThrustAngle => "thrust angle",
                    AlignmentFigure::SetBack => "set-back",
                };
                match finding.severity {
                    Severity::Stops => format!("the {what} is beyond what this aiming allows"),
                    Severity::Care | Severity::Note => format!("the {what} is more than a straight car has"),
                }
            }
            Facts::AlignmentUnknown(AlignmentFigure::ThrustAngle) => "thrust angle not known".to_owned(),
            Facts::AlignmentUnknown(AlignmentFigure::SetBack) => "set-back not known".to_owned(),
            Facts::BeyondDoor => {
                let what = match finding.subjects.get(1) {
                    Some(Subject::Car) => self.subject(&Subject::Car),
                    Some(own) => self.bare_subject(own),
                    None => String::new(),
                };
                format!("{what} runs out through {the_first}")
            }
            Facts::BeyondBay { lies, parts } => self.beyond_bay_title(*lies, parts, finding),
            Facts::Beside { set_up, what } => self.beside_title(set_up, what),
            Facts::WayIn(_) => "no door lets the car in".to_owned(),
            Facts::WalkIn => match (finding.subjects.first(), finding.measured) {
                (Some(Subject::KeepFree(_)), Some(_)) => format!("{first} leads through {second}"),
                (Some(Subject::KeepFree(_)), None) => format!("{first} may lead through {second}"),
                (_, Some(Quantity::Length(gap))) if gap > 0.0 => {
                    format!("{first} may let people in beside {second}")
                }
                _ => format!("{first} may let people into {second}"),
            },
            Facts::ShutDoor { by, parts } => self.shut_door_title(*by, parts, finding),
            Facts::PersonNear => match (finding.subjects.get(1), finding.measured) {
                (Some(Subject::Sensor), Some(_)) => format!("{first} may stand in the picture of {second}"),
                (Some(Subject::Sensor), None) => format!("{first} stands in the picture of {second}"),
                (Some(Subject::Target(_)), _) => {
                    format!("{first} may step into the line of sight to {second}")
                }
                _ => format!("{first} may step into {second}"),
            },
            Facts::UnderCar if finding.measured.is_some() => format!("{first} may be under {second}"),
            Facts::UnderCar => format!("{first} is under {second}"),
            Facts::LightOnMat => format!("{first} may let daylight onto {second}"),
            Facts::LightInPicture(lit) => match (finding.culprit(), lit) {
                (Some(_), _) => format!("{first} is in the picture of {second}"),
                (None, Lit::Is) => format!("{first} lets light into the picture of {second}"),
                (None, Lit::ByPlace | Lit::ByMaterial) => {
                    format!("{first} may let light into the picture of {second}")
                }
            },
            Facts::GlassBehind => {
                format!("{first} stands behind {second}, in line with the {}", self.sensor())
            }
            Facts::OffBeam { .. } => format!("{first} is outside the beam of {second}"),
            Facts::DoorLeaf(DoorPart::Roll) => {
                format!("the roll over {the_first} may hang in {second}")
            }
            Facts::ZoneNear(zones) => format!("{first} may be inside {}", self.each_of(zones)),
            Facts::PlaceUnsure(_) => format!("{first} may be in the way"),
            Facts::CarPlace(_) => "the car may stand too near, a little off its place".to_owned(),
            Facts::DoorLeaf(DoorPart::Leaf) => match finding.subjects.get(1) {
                Some(Subject::Target(_)) => format!("{first} may stand open in the way of {second}"),
                Some(Subject::Mark(_)) => format!("{first} may stand open on {second} or in a run to it"),
                Some(Subject::KeepFree(id)) => {
                    let where_it_is = if self.is_door(id) { "before" } else { "in" };
                    format!("{first} may stand open {where_it_is} {second}")
                }
                _ => format!("{first} may stand open where {second} must be"),
            },
            Facts::SightBlocked(InSight::CoversSensor) => format!("{first} covers the {}", self.sensor()),
            Facts::SightBlocked(InSight::FacesAway) => {
                format!("{first} faces away from the {}", self.sensor())
            }
            Facts::SightBlocked(InSight::OwnBody { .. }) => {
                format!("the car's own body is in the way of {second}")
            }
            Facts::SightBlocked(InSight::Hides { .. } | InSight::Wall) => {
                format!("{first} is in the way of {second}")
            }
            Facts::FresnelEntered(_) => format!("{first} is too near the radar's path to {second}"),
            Facts::EchoTaken(echo) => match echo.heard.does {
                Does::Apart { .. } => {
                    format!("the echo of {the_first} may be stronger than that of {second}")
                }
                _ => format!("the radar may take the echo of {the_first} for {second}"),
            },
            Facts::EchoDraws(_) => format!("the echo of {the_first} may draw the aim"),
            Facts::EchoesTogether => format!("echoes beside that of {the_first} may draw the aim together"),
            Facts::FieldOfView => format!("{first} is outside what {second} sees"),
            Facts::StandOffMark(_) => format!("{first} is off its mark"),
            Facts::MarkFault(_) => format!("{first} cannot be found this way"),
            Facts::MarkOffTarget => format!("{first} is not where {second} belongs"),
            Facts::MarkMissing => format!(
                "no mark leads to {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::LaidOff(_) => format!("{first} is off by its marks as taped"),
            Facts::LaidUnproven(_) => format!("what was taped does not prove {first} yet"),
            Facts::ReadingOff(doubt) => self.reading_off(doubt),
            Facts::ReadingUnused { .. }
            | Facts::ReadingDay { .. }
            | Facts::MarkElsewhere { .. }
            | Facts::MarkCheckUnused { .. } => self.read_title(finding),
            Facts::InstrumentOverdue(name) => {
                format!("the check of {name} was over when it was used here")
            }
            Facts::InstrumentUnfit(name) => format!("{name} reads no distances"),
            Facts::InstrumentUnlisted(name) => format!("{name} is not in the shop's list of instruments"),
            Facts::MarkDrifted(_) => format!("{first} has drifted since an earlier check"),
            Facts::StandSetOff(_) => format!("{first} is set off its place by what was read of its stand"),
            Facts::StandUnproven(_) => format!("what was read of the stand does not prove {first} yet"),
            Facts::MarkUnsure(MarkFor::Place) => format!("{first} cannot be laid so surely"),
            Facts::MarkUnsure(MarkFor::Direction) => {
                let marks = finding.subjects.iter().skip(1).map(|mark| self.subject(mark));
                format!(
                    "{first} cannot be set square so surely by {}",
                    super::listed(&marks.collect::<Vec<_>>())
                )
            }
            Facts::MarkPlace => match finding.subjects.first() {
                Some(Subject::Thing(_)) if finding.measured.is_some() => {
                    format!("{first} hangs low over {second}")
                }
                Some(Subject::Thing(_)) => format!("{first} stands on {second}"),
                Some(Subject::Wall(_)) => format!("{second} would lie beyond {the_first}"),
                Some(Subject::Opening(_)) => format!("{second} would lie beyond {the_first}"),
                _ => format!("{second} would lie on {the_first}"),
            },
            Facts::BesidePermanentMark(Painted::On) => {
                let marks: Vec<String> = finding.subjects.iter().map(|mark| self.subject(mark)).collect();
                format!("{} may be laid beside the permanent marks under them", super::listed(&marks))
            }
            Facts::BesidePermanentMark(Painted::Beside(own)) => {
                format!("{first} would lie beside the permanent mark “{own}”")
            }
            Facts::RunBlocked => match finding.severity {
                Severity::Care => match finding.subjects.len() {
                    0..=2 => format!("{second} crosses {the_first}"),
                    more => format!("{} straight runs of tape or light cross {the_first}", more - 1),
                },
                Severity::Stops | Severity::Note => format!("{first} stands in {second}"),
            },
            Facts::TapeOver => format!("{first} lies under the tape to {second}"),
            Facts::HeadRoom(under) => match (under, finding.subjects.first()) {
                (Under::Person, Some(Subject::Ceiling)) => "the ceiling is low".to_owned(),
                (Under::Person, _) => format!("{first} hangs low where people work"),
                (Under::Car, Some(Subject::Ceiling)) if finding.severity == Severity::Care => {
                    format!("{second} stands close under the ceiling")
                }
                (Under::Car | Under::Stand, Some(Subject::Ceiling)) => {
                    format!("{second} is too tall for the ceiling")
                }
                (Under::Car | Under::Stand, _) => format!("{first} hangs close over {second}"),
            },
            Facts::StandReach(reach) => match reach {
                StandReach::TooShort => format!("{first} is too short for {second}"),
                StandReach::TooTall => format!("{first} cannot be set so low for {second}"),
                StandReach::Unknown => format!("{first} may be too short for what is asked"),
            },
            Facts::MatBelow => format!("{first} lies on the floor, below the raised car"),
            Facts::MarkInAir { .. } => {
                let marks: Vec<String> = finding.subjects.iter().map(|mark| self.subject(mark)).collect();
                format!("{} would hang in the air beside the runways", super::listed(&marks))
            }
            Facts::HeightsFromFloor => {
                let of: Vec<String> = finding.subjects.iter().map(|own| self.subject(own)).collect();
                format!("heights given from the floor: {}", super::listed(&of))
            }
            Facts::WheelOffRunway(OnRunways::Off(wheel)) => {
                format!("the {} wheel is not on {the_first}", wheel_name(*wheel))
            }
            Facts::WheelOffRunway(OnRunways::Unequal) => "the runways are not equally high".to_owned(),
            Facts::WheelPlace(wheel) => format!("the {} wheel stands on {the_first}", wheel_name(*wheel)),
            Facts::ThingPlace(Misplaced::Beyond) => format!("{first} is entered beyond {second}"),
            Facts::ThingPlace(Misplaced::InOneAnother) => match finding.subjects.len().saturating_sub(2) {
                0 => format!("{first} and {second} cannot both be where they are entered"),
                more => format!("{first}, {second} and {more} more cannot all be where they are entered"),
            },
            Facts::ThingPlace(Misplaced::NotCompared) => {
                "things lie so densely across one another that not all were looked at".to_owned()
            }
            Facts::WorkingRoom(_) => format!("little room between {the_first} and the car"),
            Facts::StandRoom(StandSide::Front) => format!(
                "little room before {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::StandRoom(StandSide::Beside) => format!(
                "little room beside {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::OpenPit(open) => {
                let lies = match open {
                    Open::Is => "lies open",
                    Open::MayBe => "may lie open",
                };
                let beside = if finding.measured.is_none() { "" } else { "beside " };
                format!("{first} {lies} {beside}where people work")
            }
            Facts::KeepFree => {
                let door = matches!(finding.subjects.get(1), Some(Subject::KeepFree(id)) if self.is_door(id));
                let lies = matches!(finding.subjects.first(), Some(Subject::FloorFeature(_)));
                let (stands, place) =
                    (if lies { "lies" } else { "stands" }, if door { "before" } else { "in" });
                let what = match finding.subjects.first() {
                    Some(Subject::Car) => self.subject(&Subject::Car),
                    _ => first,
                };
                format!("{what} {stands} {place} {second}")
            }
            Facts::FloorLevels(fact) => self.floor_title(*fact, finding),
            Facts::SheetOpen(_)
            | Facts::SheetDiffers { .. }
            | Facts::CarUnlikely(_)
            | Facts::RideHeight(_)
            | Facts::CentrelinesApart(_)
            | Facts::CarMoved { .. } => self.this_car_title(finding),
            Facts::AxisUnknown => "thrust line not known".to_owned(),
            Facts::ProfileChanged => "the car's profile has changed since this was saved".to_owned(),
            Facts::ShopUnread => "the shop's own settings cannot be read".to_owned(),
            Facts::ShopChanged => "judged by other shop settings than when it was saved".to_owned(),
            Facts::OwnBuilding => "the building is as planned for this set-up".to_owned(),
            Facts::OlderByEye => "placed by eye under an older rule".to_owned(),
            Facts::ExampleFigures => "on example figures".to_owned(),
            Facts::SourceNotGiven => "it is not said where some figures come from".to_owned(),
            Facts::AssumedFigures(_) => "some figures of the car are assumed".to_owned(),
            Facts::ViewByAngles => "the camera's lens is not known".to_owned(),
            Facts::MeasuredOnCar => match finding.subjects.first() {
                Some(Subject::Car) => "wheels as measured on this car".to_owned(),
                _ => "sensor's place as measured on this car".to_owned(),
            },
            Facts::Condition(text) => format!("first: {text}"),
            Facts::HaveReady(text) => format!("have ready: {}", self.in_units(text)),
        }
    }
}
