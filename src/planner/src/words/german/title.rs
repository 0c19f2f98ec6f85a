//! What is wrong, in one short sentence.

use super::marks::wheel_name;
use super::names::before;
use super::{About, listed, sentence_start};
use crate::assessment::{
    AlignmentFigure, DoorPart, Facts, Finding, InSight, Lit, MarkFor, Misplaced, OnRunways, Open, Painted,
    Quantity, Severity, StandReach, StandSide, Subject, Under,
};
use crate::echoes::Does;
use crate::model::{Exclusion, Id};
use crate::scene::TargetPart;

impl About<'_> {
    /// What is wrong, in one short sentence without its full stop: "„Schrank“ ist im Freiraum „vorn“".
    pub fn title(&self, finding: &Finding) -> String {
        sentence_start(&self.within_sentence(finding))
    }

    /// What of the set-up would be outside, through a door or window.
    fn out_through(&self, what: &str, id: &Id, no_fit: bool) -> String {
        let through = self.accusative(&Subject::Opening(id.clone()));
        match self.arrangement.bay.openings.iter().find(|door| door.id == *id) {
            Some(door) if !door.is_open() => format!("{what} ginge durch {through} (geschlossen)"),
            Some(_) if no_fit => format!("{what} passt nicht durch {through}"),
            _ => format!("{what} reicht durch {through} weiter hinaus, als bekannt frei ist"),
        }
    }

    /// The same as it stands within a sentence: names keep their letters.
    pub(super) fn within_sentence(&self, finding: &Finding) -> String {
        let said = |at: usize, how: &dyn Fn(&Subject) -> String| {
            finding.subjects.get(at).map_or_else(String::new, how)
        };
        let first = said(0, &|own| self.subject(own));
        let second = said(1, &|own| self.subject(own));
        let first_accusative = said(0, &|own| self.accusative(own));
        let second_accusative = said(1, &|own| self.accusative(own));
        let first_dative = said(0, &|own| self.dative(own));
        let second_dative = said(1, &|own| self.dative(own));
        let first_genitive = said(0, &|own| self.genitive(own));
        let second_genitive = said(1, &|own| self.genitive(own));
        let in_second = before("in", &second_dative);
        let to_first = before("zu", &first_dative);
        let to_second = before("zu", &second_dative);
        match &finding.facts {
            Facts::OutsideRoom { part, no_fit, .. } => {
                let what = match part {
                    Some(TargetPart::Feet) => format!("der Fuß {}", first_genitive),
                    Some(TargetPart::Mast) => format!("der Mast {}", first_genitive),
                    Some(TargetPart::Body) | None => first,
                };
                match finding.subjects.get(1) {
                    Some(Subject::Opening(id)) => self.out_through(&what, id, *no_fit),
                    _ => format!("{what} ginge durch {second_accusative}"),
                }
            }
            Facts::CarClash(_) | Facts::StandClash(_) => match finding.subjects.first() {
                // A door is no thing that the car could be in.
                Some(Subject::Opening(id)) => self.out_through(&second, id, false),
                Some(Subject::FloorFeature(_)) => match finding.subjects.get(1) {
                    Some(Subject::Stand(id)) if self.is_mat(id) => {
                        format!("{second} läge auf {first_dative}")
                    }
                    _ => format!("{second} stünde auf {first_dative}"),
                },
                Some(Subject::Car) => format!("das Fahrzeug und {second} brauchen denselben Platz"),
                _ => format!("{first} ist dort, wo {second} sein muss"),
            },
            Facts::ZoneObject(_) => format!("{first} ist {in_second}"),
            Facts::ZonesMissing => "für diese Einstellung ist kein Freiraum eingetragen".to_owned(),
            Facts::NoZoneNamed => "die Anleitung nennt keinen Freiraum".to_owned(),
            Facts::ZoneUnjudged(zone) => match (finding.subjects.first(), zone.heights) {
                (Some(Subject::Wall(_) | Subject::Opening(_)), None) => {
                    format!("{first} begrenzt {second_accusative} und kann Metall enthalten")
                }
                (Some(Subject::FloorFeature(id)), None) => {
                    let lies = if self.is_pit(id) { "liegt offen" } else { "liegt bündig" };
                    format!("{first} {lies} im Boden unter {second_dative}")
                }
                (Some(Subject::Opening(_) | Subject::Wall(_)), Some(_)) => {
                    let to = second_accusative;
                    if self.may_only_be_clear(finding) {
                        format!("{first} lässt vielleicht Licht in {to}")
                    } else {
                        format!("{first} lässt Licht in {to}")
                    }
                }
                _ if matches!(zone.excludes, Exclusion::Reflecting(_)) && !self.is_of_unknown(finding) => {
                    format!("{first} ist {in_second} und wirft vielleicht zu viel zurück")
                }
                _ => format!("{first} ist {in_second}; ob das stört, ist nicht bekannt"),
            },
            Facts::AlignmentOff(figure) => {
                let what = match figure {
                    AlignmentFigure::ThrustAngle => "der Fahrachswinkel",
                    AlignmentFigure::SetBack => "der Radversatz",
                };
                match finding.severity {
                    Severity::Stops => format!("{what} ist größer, als diese Einstellung erlaubt"),
                    Severity::Care | Severity::Note => {
                        format!("{what} ist größer als bei einem geraden Fahrzeug")
                    }
                }
            }
            Facts::AlignmentUnknown(AlignmentFigure::ThrustAngle) => {
                "der Fahrachswinkel ist nicht bekannt".to_owned()
            }
            Facts::AlignmentUnknown(AlignmentFigure::SetBack) => {
                "der Radversatz ist nicht bekannt".to_owned()
            }
            Facts::BeyondDoor => format!("{second} reicht durch {first_accusative} hinaus"),
            Facts::BeyondBay { lies, parts } => self.beyond_bay_title(*lies, parts, finding),
            Facts::Beside { set_up, what } => self.beside_title(set_up, what),
            Facts::WayIn(_) => "durch keine Tür und kein Tor passt das Fahrzeug herein".to_owned(),
            Facts::WalkIn => match (finding.subjects.first(), finding.measured) {
                (Some(Subject::KeepFree(_)), Some(_)) => format!("{first} führt durch {second_accusative}"),
                (Some(Subject::KeepFree(_)), None) => {
                    format!("{first} führt vielleicht durch {second_accusative}")
                }
                (_, Some(Quantity::Length(gap))) if gap > 0.0 => {
                    format!("durch {first_accusative} können Personen neben {second_accusative} treten")
                }
                _ => format!("durch {first_accusative} können Personen in {second_accusative} treten"),
            },
            Facts::ShutDoor { by, parts } => self.shut_door_title(*by, parts, finding),
            Facts::PersonNear => match (finding.subjects.get(1), finding.measured) {
                (Some(Subject::Sensor), Some(_)) => {
                    format!("{first} steht vielleicht im Bild {}", second_genitive)
                }
                (Some(Subject::Sensor), None) => {
                    format!("{first} steht im Bild {}", second_genitive)
                }
                (Some(Subject::Target(_)), _) => format!("{first} kann in die Sichtlinie {to_second} treten"),
                _ => format!("{first} kann in {second_accusative} treten"),
            },
            Facts::UnderCar if finding.measured.is_some() => {
                format!("{first} ist vielleicht unter {second_dative}")
            }
            Facts::UnderCar => format!("{first} ist unter {second_dative}"),
            Facts::LightOnMat => format!("{first} lässt vielleicht Tageslicht auf {second_accusative}"),
            Facts::LightInPicture(lit) => {
                let picture = second_genitive;
                match (finding.culprit(), lit) {
                    (Some(_), _) => format!("{first} ist im Bild {picture}"),
                    (None, Lit::Is) => format!("{first} lässt Licht in das Bild {picture}"),
                    (None, Lit::ByPlace | Lit::ByMaterial) => {
                        format!("{first} lässt vielleicht Licht in das Bild {picture}")
                    }
                }
            }
            Facts::GlassBehind => {
                let sensor = self.dative(&Subject::Sensor);
                format!("{first} steht von {sensor} aus gesehen hinter {second_dative}")
            }
            Facts::OffBeam { .. } => {
                format!("{first} ist außerhalb der Strahlbreite {}", second_genitive)
            }
            Facts::DoorLeaf(DoorPart::Roll) => {
                format!("der Rollballen über {first_dative} hängt vielleicht {in_second}")
            }
            Facts::ZoneNear(zones) => format!("{first} ist vielleicht {}", self.in_each_of(zones)),
            Facts::PlaceUnsure(_) => format!("{first} ist vielleicht im Weg"),
            Facts::CarPlace(_) => {
                "das Fahrzeug könnte zu nah stehen, wenn es etwas neben seinem Platz steht".to_owned()
            }
            Facts::DoorLeaf(DoorPart::Leaf) => match finding.subjects.get(1) {
                Some(Subject::Target(_)) => {
                    format!("{first} kann offen vor {second_dative} stehen")
                }
                Some(Subject::Mark(_)) => {
                    format!("{first} kann offen auf {second_dative} oder in einer Messstrecke dorthin stehen")
                }
                Some(Subject::KeepFree(id)) => {
                    let place = if self.is_door(id) { before("vor", &second_dative) } else { in_second };
                    format!("{first} kann offen {place} stehen")
                }
                _ => format!("{first} kann offen dort stehen, wo {second} sein muss"),
            },
            Facts::SightBlocked(InSight::CoversSensor) => {
                format!("{first} verdeckt {}", self.accusative(&Subject::Sensor))
            }
            Facts::SightBlocked(InSight::FacesAway) => {
                format!("{first} zeigt {} weg", before("von", &self.dative(&Subject::Sensor)))
            }
            Facts::SightBlocked(InSight::OwnBody { .. }) => {
                format!("die Karosserie des Fahrzeugs verdeckt {second_accusative}")
            }
            Facts::SightBlocked(InSight::Hides { .. } | InSight::Wall) => {
                format!("{first} verdeckt {second_accusative}")
            }
            Facts::FresnelEntered(_) => format!("{first} ist zu nah am Weg des Radars {to_second}"),
            Facts::EchoTaken(echo) => match echo.heard.does {
                Does::Apart { .. } => {
                    format!("das Echo {first_genitive} ist vielleicht stärker als das {second_genitive}")
                }
                _ => format!("das Radar hält das Echo {first_genitive} vielleicht für {second_accusative}"),
            },
            Facts::EchoDraws(_) => format!("das Echo {first_genitive} kann die Einstellung verziehen"),
            Facts::EchoesTogether => {
                format!("Echos neben dem {first_genitive} können zusammen die Einstellung verziehen")
            }
            Facts::FieldOfView => {
                format!("{first} ist außerhalb des Sichtfelds {}", second_genitive)
            }
            Facts::StandOffMark(_) => format!("{first} steht nicht auf der Marke"),
            Facts::MarkFault(_) => format!("{first} ist so nicht zu finden"),
            Facts::MarkOffTarget => format!("{first} ist nicht dort, wo {second} hingehört"),
            Facts::MarkMissing => format!("keine Marke führt {to_first}"),
            Facts::LaidOff(_) => format!("{first} liegt nach den Maßen seiner Marken daneben"),
            Facts::LaidUnproven(_) => format!("die Maße belegen {first} noch nicht"),
            Facts::ReadingOff(doubt) => self.reading_off(doubt),
            Facts::ReadingUnused { .. }
            | Facts::ReadingDay { .. }
            | Facts::MarkElsewhere { .. }
            | Facts::MarkCheckUnused { .. } => self.read_title(finding),
            Facts::InstrumentOverdue(name) => {
                format!("die Prüfung von „{name}“ war abgelaufen, als es hier benutzt wurde")
            }
            Facts::InstrumentUnfit(name) => format!("{name} liest keine Maße"),
            Facts::InstrumentUnlisted(name) => format!("„{name}“ steht nicht in der Liste der Messgeräte"),
            Facts::MarkDrifted(_) => format!("{first} ist seit einer früheren Prüfung gewandert"),
            Facts::StandSetOff(_) => {
                format!("{first} ist nach dem am Ständer Abgelesenen falsch eingestellt")
            }
            Facts::StandUnproven(_) => format!("was am Ständer abgelesen ist, belegt {first} noch nicht"),
            Facts::MarkUnsure(MarkFor::Place) => format!("{first} lässt sich nicht so genau legen"),
            Facts::MarkUnsure(MarkFor::Direction) => {
                let marks: Vec<String> =
                    finding.subjects.iter().skip(1).map(|mark| self.alone(mark)).collect();
                format!("{first} lässt sich mit {} nicht so genau ausrichten", listed(&marks))
            }
            Facts::MarkPlace => match finding.subjects.first() {
                Some(Subject::Thing(_)) if finding.measured.is_some() => {
                    format!("{first} hängt tief über {second_dative}")
                }
                Some(Subject::Thing(_)) => format!("{first} steht auf {second_dative}"),
                Some(Subject::Wall(_) | Subject::Opening(_)) => {
                    format!("{second} läge jenseits von {first_dative}")
                }
                _ => format!("{second} läge auf {first_dative}"),
            },
            Facts::BesidePermanentMark(Painted::On) => {
                let marks: Vec<String> = finding.subjects.iter().map(|mark| self.alone(mark)).collect();
                match marks.as_slice() {
                    [one] => format!("{one} liegt vielleicht neben der bleibenden Marke darunter"),
                    all => format!("{} liegen vielleicht neben den bleibenden Marken darunter", listed(all)),
                }
            }
            Facts::BesidePermanentMark(Painted::Beside(own)) => {
                format!("{first} läge neben der bleibenden Marke „{own}“")
            }
            Facts::RunBlocked => match finding.severity {
                Severity::Care => match finding.subjects.len() {
                    0..=2 => format!("{second} führt über {first_accusative}"),
                    more => format!(
                        "{} Messstrecken mit Bandmaß oder Laser führen über {first_accusative}",
                        more - 1
                    ),
                },
                Severity::Stops | Severity::Note => format!("{first} steht {in_second}"),
            },
            Facts::TapeOver => format!("{first} liegt unter dem Bandmaß {to_second}"),
            Facts::HeadRoom(under) => match (under, finding.subjects.first()) {
                (Under::Person, Some(Subject::Ceiling)) => "die Decke ist niedrig".to_owned(),
                (Under::Person, _) => format!("{first} hängt niedrig, wo gearbeitet wird"),
                (Under::Car, Some(Subject::Ceiling)) if finding.severity == Severity::Care => {
                    format!("{second} steht knapp unter der Decke")
                }
                (Under::Car | Under::Stand, Some(Subject::Ceiling)) => {
                    format!("{second} ist zu hoch für die Decke")
                }
                (Under::Car | Under::Stand, _) => format!("{first} hängt knapp über {second_dative}"),
            },
            Facts::StandReach(reach) => match reach {
                StandReach::TooShort => format!("{first} ist zu kurz für {second_accusative}"),
                StandReach::TooTall => {
                    format!("{first} lässt sich nicht so niedrig einstellen für {second_accusative}")
                }
                StandReach::Unknown => format!("{first} ist vielleicht zu kurz für das Verlangte"),
            },
            Facts::MatBelow => format!("{first} liegt am Boden, unter der Ebene des angehobenen Fahrzeugs"),
            Facts::MarkInAir { .. } => {
                let marks: Vec<String> = finding.subjects.iter().map(|mark| self.alone(mark)).collect();
                let hang = if marks.len() == 1 { "hinge" } else { "hingen" };
                format!("{} {hang} neben den Fahrschienen in der Luft", listed(&marks))
            }
            Facts::HeightsFromFloor => {
                let of: Vec<String> = finding.subjects.iter().map(|own| self.alone(own)).collect();
                format!("Höhen sind vom Boden aus angegeben: {}", listed(&of))
            }
            Facts::WheelOffRunway(OnRunways::Off(wheel)) => {
                format!("das Rad {} steht nicht auf {first_dative}", wheel_name(*wheel))
            }
            Facts::WheelOffRunway(OnRunways::Unequal) => "die Fahrschienen sind nicht gleich hoch".to_owned(),
            Facts::WheelPlace(wheel) => format!("das Rad {} steht auf {first_dative}", wheel_name(*wheel)),
            Facts::ThingPlace(Misplaced::Beyond) => {
                format!("{first} ist jenseits von {second_dative} eingetragen")
            }
            Facts::ThingPlace(Misplaced::InOneAnother) => match finding.subjects.len().saturating_sub(2) {
                0 => format!("{first} und {second} können nicht beide dort sein, wo sie eingetragen sind"),
                more => {
                    format!(
                        "{first}, {second} und {more} weitere können nicht alle dort sein, wo sie eingetragen sind"
                    )
                }
            },
            Facts::ThingPlace(Misplaced::NotCompared) => {
                "so viele Gegenstände überdecken sich, dass nicht alle geprüft wurden".to_owned()
            }
            Facts::WorkingRoom(_) => format!("wenig Platz zwischen {first_dative} und dem Fahrzeug"),
            Facts::StandRoom(StandSide::Front) => format!("wenig Platz vor {first_dative}"),
            Facts::StandRoom(StandSide::Beside) => format!("wenig Platz neben {first_dative}"),
            Facts::OpenPit(open) => {
                let lies = match open {
                    Open::Is => "liegt offen",
                    Open::MayBe => "liegt vielleicht offen",
                };
                let place = if finding.measured.is_none() {
                    ", wo gearbeitet wird"
                } else {
                    " neben dem Arbeitsbereich"
                };
                format!("{first} {lies}{place}")
            }
            Facts::KeepFree => {
                let is_door =
                    matches!(finding.subjects.get(1), Some(Subject::KeepFree(id)) if self.is_door(id));
                let is_flat = matches!(finding.subjects.first(), Some(Subject::FloorFeature(_)));
                let stands = if is_flat { "liegt" } else { "steht" };
                let place = if is_door { before("vor", &second_dative) } else { in_second };
                format!("{first} {stands} {place}")
            }
            Facts::FloorLevels(fact) => self.floor_title(*fact, finding),
            Facts::SheetOpen(_)
            | Facts::SheetDiffers { .. }
            | Facts::CarUnlikely(_)
            | Facts::RideHeight(_)
            | Facts::CentrelinesApart(_)
            | Facts::CarMoved { .. } => self.this_car_title(finding),
            Facts::AxisUnknown => "die geometrische Fahrachse ist nicht bekannt".to_owned(),
            Facts::ProfileChanged => "das Profil des Fahrzeugs ist seit dem Speichern geändert".to_owned(),
            Facts::ShopUnread => "die eigenen Vorgaben der Werkstatt sind nicht lesbar".to_owned(),
            Facts::ShopChanged => {
                "mit anderen Vorgaben der Werkstatt beurteilt als beim Speichern".to_owned()
            }
            Facts::OwnBuilding => "das Gebäude ist so, wie für diese Aufstellung geplant".to_owned(),
            Facts::OlderByEye => "nach Augenmaß und älterer Regel aufgestellt".to_owned(),
            Facts::ExampleFigures => "mit Beispielwerten".to_owned(),
            Facts::SourceNotGiven => "die Herkunft einiger Angaben ist nicht genannt".to_owned(),
            Facts::AssumedFigures(_) => "einige Maße des Fahrzeugs sind angenommen".to_owned(),
            Facts::ViewByAngles => "das Objektiv der Kamera ist nicht bekannt".to_owned(),
            Facts::MeasuredOnCar => match finding.subjects.first() {
                Some(Subject::Car) => "Räder wie an diesem Fahrzeug gemessen".to_owned(),
                _ => "Lage des Sensors wie an diesem Fahrzeug gemessen".to_owned(),
            },
            Facts::Condition(text) => format!("zuerst: {text}"),
            Facts::HaveReady(text) => format!("bereithalten: {}", self.in_units(text)),
        }
    }
}
