//! A finding in words: a title, what it is about, and why its limit.

use super::marks::wheel_name;
use super::numbers::percent;
use super::{About, sentence_start};
use crate::assessment::{
    AlignmentFigure, Basis, CarSide, DoorPart, Facts, Finding, InSight, Lit, MOST_LOSS_DB, MarkFor,
    Misplaced, OnRunways, Painted, Quantity, Severity, StandReach, StandSide, Subject, TooLarge, TooSmall,
    Under,
};
use crate::model::{Exclusion, Material, Provenance, ReferenceAxis};
use crate::scene::TargetPart;

impl About<'_> {
    /// How bad, in words.
    pub const fn severity(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "stops the aiming",
            Severity::Care => "needs care",
            Severity::Note => "note",
        }
    }

    /// What is wrong, in one short sentence without its full stop: "Tool cabinet is inside the keep-clear zone".
    pub fn title(&self, finding: &Finding) -> String {
        sentence_start(&self.within_sentence(finding))
    }

    /// The same as it stands within a sentence: names keep their letters.
    pub(super) fn within_sentence(&self, finding: &Finding) -> String {
        let first = finding.subjects.first().map_or_else(String::new, |s| self.bare_subject(s));
        let second = finding.subjects.get(1).map_or_else(String::new, |s| self.subject(s));
        match &finding.facts {
            Facts::OutsideRoom { part, no_fit, .. } => {
                let whose = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
                let first = match part {
                    Some(TargetPart::Feet) => format!("the feet of {whose}"),
                    Some(TargetPart::Mast) => format!("the mast of {whose}"),
                    Some(TargetPart::Body) | None => first,
                };
                match finding.subjects.get(1) {
                    Some(Subject::Opening(id)) => {
                        match self.arrangement.bay.openings.iter().find(|door| door.id == *id) {
                            Some(door) if !door.is_open() => {
                                format!("{first} would go through {second}, which is shut")
                            }
                            Some(_) if *no_fit => format!("{first} does not fit through {second}"),
                            _ => format!(
                                "{first} would reach further through {second} than is known to be free"
                            ),
                        }
                    }
                    _ => format!("{first} would go through {second}"),
                }
            }
            Facts::CarClash(_) | Facts::StandClash(_) => match finding.subjects.first() {
                Some(Subject::FloorFeature(_)) => match finding.subjects.get(1) {
                    Some(Subject::Stand(id)) if self.is_mat(id) => {
                        format!("{second} would lie on the {first}")
                    }
                    _ => format!("{second} would stand on the {first}"),
                },
                Some(Subject::Car) => format!("the car and {second} want the same place"),
                _ => format!("{first} is where {second} must be"),
            },
            Facts::ZoneObject(_) => format!("{first} is inside {second}"),
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
                format!("{what} runs out through the {first}")
            }
            Facts::BeyondBay { lies, parts } => self.beyond_bay_title(*lies, parts, finding),
            Facts::WayIn(_) => "no door lets the car in".to_owned(),
            Facts::WalkIn => match (finding.subjects.first(), finding.measured) {
                (Some(Subject::KeepFree(_)), Some(_)) => format!("{first} leads through {second}"),
                (Some(Subject::KeepFree(_)), None) => format!("{first} may lead through {second}"),
                (_, Some(Quantity::Length(gap))) if gap > 0.0 => {
                    format!("{first} may let people in beside {second}")
                }
                _ => format!("{first} may let people into {second}"),
            },
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
                format!("the roll over the {first} may hang in {second}")
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
            Facts::FresnelEntered => format!("{first} is too near the radar's path to {second}"),
            Facts::FieldOfView => format!("{first} is outside what {second} sees"),
            Facts::StandOffMark(_) => format!("{first} is off its mark"),
            Facts::MarkFault(_) => format!("{first} cannot be found this way"),
            Facts::MarkOffTarget => format!("{first} is not where {second} belongs"),
            Facts::MarkMissing => format!(
                "no mark leads to {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
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
                Some(Subject::Wall(_)) => format!("{second} would lie beyond the {first}"),
                Some(Subject::Opening(_)) => format!("{second} would lie beyond the {first}"),
                _ => format!("{second} would lie on the {first}"),
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
                    0..=2 => format!("{second} crosses the {first}"),
                    more => format!("{} straight runs of tape or light cross the {first}", more - 1),
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
                format!("the {} wheel is not on the {first}", wheel_name(*wheel))
            }
            Facts::WheelOffRunway(OnRunways::Unequal) => "the runways are not equally high".to_owned(),
            Facts::WheelPlace(wheel) => format!("the {} wheel stands on the {first}", wheel_name(*wheel)),
            Facts::ThingPlace(Misplaced::Beyond) => format!("{first} is entered beyond {second}"),
            Facts::ThingPlace(Misplaced::InOneAnother) => match finding.subjects.len().saturating_sub(2) {
                0 => format!("{first} and {second} cannot both be where they are entered"),
                more => format!("{first}, {second} and {more} more cannot all be where they are entered"),
            },
            Facts::ThingPlace(Misplaced::NotCompared) => {
                "things lie so densely across one another that not all were looked at".to_owned()
            }
            Facts::WorkingRoom(_) => format!("little room between the {first} and the car"),
            Facts::StandRoom(StandSide::Front) => format!(
                "little room before {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::StandRoom(StandSide::Beside) => format!(
                "little room beside {}",
                finding.subjects.first().map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::OpenPit if finding.measured.is_none() => format!("{first} lies open where people work"),
            Facts::OpenPit => format!("{first} lies open beside where people work"),
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
            Facts::AxisUnknown => "thrust line not known".to_owned(),
            Facts::ProfileChanged => "the car's profile has changed since this was saved".to_owned(),
            Facts::ShopUnread => "the shop's own settings cannot be read".to_owned(),
            Facts::ShopChanged => "judged by other shop settings than when it was saved".to_owned(),
            Facts::OwnBuilding => "the building is as planned for this set-up".to_owned(),
            Facts::OlderByEye => "placed by eye under an older rule".to_owned(),
            Facts::ExampleFigures => "on example figures".to_owned(),
            Facts::AssumedFigures(_) => "some figures of the car are assumed".to_owned(),
            Facts::ViewByAngles => "the camera's lens is not known".to_owned(),
            Facts::MeasuredOnCar => match finding.subjects.first() {
                Some(Subject::Car) => "wheels as measured on this car".to_owned(),
                _ => "sensor's place as measured on this car".to_owned(),
            },
            Facts::Condition(text) => format!("first: {text}"),
            Facts::HaveReady(text) => format!("have ready: {text}"),
        }
    }

    /// What else to know about it, in one sentence; empty if there is nothing.
    pub fn detail(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::ZoneNear(_) => self.known(finding),
            Facts::PlaceUnsure(all) => self.may_be(finding, all),
            Facts::CarPlace(all) => self.car_place(all),
            Facts::ZoneUnjudged(zone) => {
                let of = self.keeps_clear_of(zone.excludes);
                match finding.subjects.first() {
                    Some(Subject::Wall(_) | Subject::Opening(_)) if zone.heights.is_none() => format!(
                        "The zone is to be clear of {of}; {}.",
                        match self.part_material(finding) {
                            Some(Material::Plasterboard) => "plasterboard hides studs, which may be steel",
                            _ => "what is in it is not known",
                        }
                    ),
                    Some(Subject::FloorFeature(id)) if zone.heights.is_none() && self.is_pit(id) => format!(
                        "It is open there; the zone is to be clear of {of}. Ask what the procedure says of the floor."
                    ),
                    Some(Subject::FloorFeature(_)) if zone.heights.is_none() => format!(
                        "{}, level with the floor; the zone is to be clear of {of}. Ask what the procedure says of the floor.",
                        sentence_start(&self.made_of(finding))
                    ),
                    Some(Subject::Opening(_) | Subject::Wall(_)) => format!(
                        "The zone is to be clear of {of}; how much it lets in depends on the day."
                    ),
                    Some(Subject::Ceiling) => {
                        format!("The zone is to be clear of {of}; what is in the ceiling is not known.")
                    }
                    Some(Subject::Runway(id)) if self.arrangement.on_runways.contains(id) => format!(
                        "The zone is to be clear of {of}, and its heights are given from the floor: whether the steel \
                         that carries the car counts, the procedure must say."
                    ),
                    Some(Subject::Thing(id)) if zone.excludes == Exclusion::Metal && self.is_someone(id) => {
                        format!("The zone is to be clear of {of}; what a person carries is not known.")
                    }
                    _ => format!(
                        "The zone is to be clear of {of}; for {} that is not known.",
                        self.made_of(finding)
                    ),
                }
            }
            Facts::ZoneObject(zone) => {
                let of = self.keeps_clear_of(zone.excludes);
                match zone.heights {
                    Some(heights) => format!(
                        "{}, from {} to {} above the floor; the zone is to be clear of {of}.",
                        sentence_start(&self.made_of(finding)),
                        self.length(heights.bottom()),
                        self.length(heights.top())
                    ),
                    None => format!("The zone is to be clear of {of}."),
                }
            }
            Facts::AlignmentOff(_) => "Have the wheels aligned first: a sensor that is aimed to a crooked car is crooked."
                .to_owned(),
            Facts::AlignmentUnknown(figure) => {
                let what = match figure {
                    AlignmentFigure::ThrustAngle => "a thrust angle",
                    AlignmentFigure::SetBack => "a set-back",
                };
                let limit = finding.limit.map_or_else(String::new, |own| self.quantity(own));
                format!("This aiming allows {what} of {limit} at most. Enter the alignment sheet.")
            }
            Facts::SightBlocked(InSight::OwnBody { assumed: true }) => {
                "Its outline from the side is assumed from the class.".to_owned()
            }
            Facts::SightBlocked(InSight::OwnBody { assumed: false }) => {
                "By its outline from the side, ahead of the camera.".to_owned()
            }
            Facts::BeyondDoor => "Out there look after traffic and people, the slope of the ground, light and \
                                  weather."
                .to_owned(),
            Facts::BeyondBay { lies, parts } => self.beyond_bay(*lies, parts),
            Facts::LightOnMat => {
                "The edge of a patch of sun crosses its pattern; how far it reaches depends on the day. Shut it or shade it.".to_owned()
            }
            Facts::LightInPicture(lit) => {
                let spoils = "light beside or behind the board spoils what the camera sees of it";
                let day = "how much it is depends on the day. Shut it or shade it.";
                match (finding.culprit(), lit) {
                    (Some(_), _) => format!("{}. Switch it off or shade it.", sentence_start(spoils)),
                    (None, Lit::Is) => format!("{}; {day}", sentence_start(spoils)),
                    (None, Lit::ByPlace) => {
                        format!("As far as the places of walls and car are known: {spoils}; {day}")
                    }
                    (None, Lit::ByMaterial) => {
                        format!("What it is made of may let daylight through: {spoils}. Look, and shade it if it does.")
                    }
                }
            }
            Facts::GlassBehind => {
                "Glass throws back what passes the edge of the target, as a mirror does: cover it with something matt.".to_owned()
            }
            Facts::OffBeam { loss_db } => {
                let loss = self.locale.region.number(*loss_db, 0);
                let about = if *loss_db < MOST_LOSS_DB { "About" } else { "More than" };
                format!(
                    "{about} {loss} dB less comes back from there than from the middle of the beam, there and back; by the \
                     usual bell shape of a beam."
                )
            }
            Facts::ViewByAngles => "What it sees is judged by its angles of view alone; a wide lens bends the edges \
                                    of its picture."
                .to_owned(),
            Facts::DoorLeaf(DoorPart::Leaf) => {
                "Where its leaf stands is not told; it is somewhere in the quarter circle about either jamb. Shut it, or \
                 see where it stands."
                    .to_owned()
            }
            Facts::DoorLeaf(DoorPart::Roll) => format!(
                "{}, and as far as it stands out from the wall; counted as {}, the shop's own figure. See where it ends.",
                sentence_start(self.part_material(finding).map_or("", |own| self.material(own))),
                self.length(self.arrangement.shop.door_roll_mm)
            ),
            Facts::SightBlocked(InSight::Hides { total }) => match finding.measured {
                Some(Quantity::Share(alone)) if total - alone > 0.005 => {
                    format!("All things together hide {}.", percent(*total, self.locale.region))
                }
                _ => match self.thing(finding) {
                    Some(thing) => format!(
                        "{}, {} to {} above the floor; the {} looks from {}.",
                        sentence_start(self.material(thing.material)),
                        self.bare(thing.span.bottom()),
                        self.length(thing.span.top()),
                        self.sensor(),
                        self.length(crate::scene::sensor_height(self.arrangement))
                    ),
                    None => String::new(),
                },
            },
            Facts::SightBlocked(InSight::CoversSensor) => "The sensor's place is inside it.".to_owned(),
            Facts::SightBlocked(InSight::FacesAway) => "Turn it to face the car.".to_owned(),
            Facts::StandOffMark(off) => self.off_place(off),
            Facts::MarkFault(fault) => self.fault(*fault),
            Facts::WorkingRoom(side) => format!(
                "{} the car.",
                match side {
                    CarSide::Front => "Ahead of",
                    CarSide::Left => "On the left of",
                    CarSide::Rear => "Behind",
                    CarSide::Right => "On the right of",
                }
            ),
            Facts::StandRoom(StandSide::Front) => format!(
                "As far as {}: nobody can step up to its face to set it and to measure.",
                finding.subjects.get(1).map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::StandRoom(StandSide::Beside) => format!(
                "Nor behind it; most is towards {}. Someone must stand there to set it and to read it.",
                finding.subjects.get(1).map_or_else(String::new, |own| self.subject(own))
            ),
            Facts::OpenPit => {
                "Cover it with what carries a person, or rail it off: who lays marks looks at the tape. Local rules decide.".to_owned()
            }
            Facts::OutsideRoom { too_large: Some(TooLarge::Long { needs_mm: needs, there_mm: there }), .. } => format!(
                "No place along the car's axis: car, target and zones need {}, the room gives {}.",
                self.length(*needs),
                self.length(*there)
            ),
            Facts::OutsideRoom { too_large: Some(TooLarge::Wide { needs_mm: needs, there_mm: there }), .. } => format!(
                "No place across the car's axis: car, target and zones need {}, the room gives {}.",
                self.length(*needs),
                self.length(*there)
            ),
            Facts::FloorLevels(fact) => super::floor::detail(*fact).to_owned(),
            Facts::AssumedFigures(figures) => super::assumed::sentence(figures),
            Facts::KeepFree => "Local rules decide; keep ways out, panels and extinguishers free.".to_owned(),
            Facts::ExampleFigures => "Invented to show how the program works. Enter the vehicle maker's own \
                                      figures before any real work."
                .to_owned(),
            Facts::ShopUnread => {
                "The defaults stand in for them; correct the file or take it away.".to_owned()
            }
            Facts::ShopChanged => {
                "Save the layout again to have it remember how it is judged now.".to_owned()
            }
            Facts::OwnBuilding => "Walls, doors and what is fixed are its own, not the bay's; what differs \
                                   must be built before the answer holds."
                .to_owned(),
            Facts::OlderByEye => self.older_by_eye(finding),
            Facts::ProfileChanged => "Look at its figures again, then save the layout with it.".to_owned(),
            Facts::AxisUnknown => {
                let drawn = "This aiming follows the thrust line; the centreline is drawn until the rear toe from the \
                             alignment sheet is entered.";
                match finding.limit {
                    Some(limit) => format!("{drawn} It allows a thrust angle of {} at most.", self.quantity(limit)),
                    None => drawn.to_owned(),
                }
            }
            Facts::FresnelEntered => {
                "Near the path a radar's wave is bent even if nothing hides the target.".to_owned()
            }
            Facts::MeasuredOnCar => match finding.severity {
                Severity::Note => "It is used instead of the profile's.",
                Severity::Stops | Severity::Care => {
                    "Cars of one kind differ less: measure again, and see whether something is bent."
                }
            }
            .to_owned(),
            Facts::MarkOffTarget => "The mark plan and the stand-off disagree: one of them was entered \
                                     wrongly, or they follow different axes."
                .to_owned(),
            Facts::ThingPlace(Misplaced::NotCompared) => {
                "Whether more of them are in one another is not known. Check the figures of their places."
                    .to_owned()
            }
            Facts::ThingPlace(_) => match finding.subjects.len() {
                0..=2 => "Check the figures of its place.".to_owned(),
                _ => "Check the figures of their places.".to_owned(),
            },
            Facts::BesidePermanentMark(Painted::On) => {
                "The car will stand a little elsewhere: lay this aiming's marks from its wheels and cover the permanent ones, \
                 or park by those and say how well it stands there."
                    .to_owned()
            }
            Facts::BesidePermanentMark(Painted::Beside(_)) => {
                "One is easily taken for the other: cover the one that is not meant, or park by it.".to_owned()
            }
            Facts::MarkMissing if self.arrangement.aiming.axis == ReferenceAxis::GeometricCentreline => {
                "How its place on the floor is found is not told: enter the marks by which it is laid.".to_owned()
            }
            Facts::MarkMissing => {
                "It belongs on the thrust line, which nobody sees on the floor: enter a mark that lies on it.".to_owned()
            }
            Facts::MarkUnsure(MarkFor::Direction) => format!(
                "Each mark is laid to ± {}: the nearer two marks lie, the more that turns the line between them. Set it by marks further \
                 apart, or by a longer bar.",
                self.length(self.arrangement.shop.mark_laid_mm)
            ),
            Facts::MarkUnsure(MarkFor::Place) => format!(
                "Each mark is laid to ± {}; a short line that is prolonged far, or two that cross flat, make more of it. Build it from \
                 marks further apart.",
                self.length(self.arrangement.shop.mark_laid_mm)
            ),
            Facts::WalkIn => {
                "The zone is to be clear of people: tell the others, and put up a barrier or a sign. A way out stays unlocked."
                    .to_owned()
            }
            Facts::WayIn(small) => {
                let entered = "Of the doors that are entered. If it comes in elsewhere, enter that door.";
                let door = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
                match (finding.subjects.get(2).map(|own| sentence_start(&self.subject(own))), small) {
                    (None, _) => entered.to_owned(),
                    (Some(by), TooSmall::NoGround) => {
                        format!("{by} lies open across {door}: its wheels have no ground there. {entered}")
                    }
                    (Some(by), TooSmall::Low) => format!("{by} hangs across {door}. {entered}"),
                    (Some(by), TooSmall::Narrow | TooSmall::Sill) => {
                        format!("{by} stands in {door}. {entered}")
                    }
                }
            }
            Facts::RunBlocked => match finding.severity {
                Severity::Care => "It is open there: cover it, so that nobody falls and tape and light have a floor.",
                Severity::Stops | Severity::Note => "Tape or laser cannot pass there.",
            }
            .to_owned(),
            Facts::TapeOver => {
                "Laid over it the tape reads more than the level distance: hold it level, or lay planks on both sides.".to_owned()
            }
            Facts::StandReach(StandReach::Unknown) => {
                "How high it goes is not entered, and more is asked of it than usual.".to_owned()
            }
            Facts::StandReach(StandReach::TooShort | StandReach::TooTall) => {
                "A stand is not made taller or lower than it is.".to_owned()
            }
            Facts::MatBelow => {
                "The camera expects it in the plane of the wheels; use a floor, or a deck as high as the runways."
                    .to_owned()
            }
            Facts::MarkInAir { instead: Some(aiming) } => {
                format!("No mark of “{aiming}” would hang in the air.")
            }
            Facts::MarkInAir { instead: None } => {
                "No mark plan without spots beside the tyres is entered for this sensor.".to_owned()
            }
            Facts::HeightsFromFloor => {
                "The car is raised: does the procedure mean the floor, or the plane of the wheels? Enter which."
                    .to_owned()
            }
            Facts::OutsideRoom { too_large: None, .. }
            | Facts::CarClash(_)
            | Facts::StandClash(_)
            | Facts::SightBlocked(InSight::Wall)
            | Facts::FieldOfView
            | Facts::MarkPlace
            | Facts::HeadRoom(Under::Car | Under::Stand)
            | Facts::WheelPlace(_)
            | Facts::WheelOffRunway(_)
            | Facts::Condition(_)
            | Facts::HaveReady(_) => String::new(),
            Facts::HeadRoom(Under::Person) => self.known(finding),
        }
    }

    /// Where the limit comes from.
    pub fn why(&self, finding: &Finding) -> String {
        match &finding.basis {
            Basis::Procedure(provenance) => {
                format!("The aiming's own figure: {}.", self.provenance(provenance))
            }
            Basis::Published(source) => format!("{source}."),
            Basis::CommonPractice => "Common practice, no source.".to_owned(),
            Basis::Shop(figure) => self.of_shop(*figure),
            Basis::Geometry => {
                "Two things cannot be in one place, and what is hidden cannot be seen.".to_owned()
            }
            Basis::AsEntered => "As entered.".to_owned(),
        }
    }

    /// Where figures come from.
    pub fn provenance(&self, provenance: &Provenance) -> String {
        match provenance {
            Provenance::Example => "an invented example".to_owned(),
            Provenance::Maker { document, date: Some(date) } => {
                format!("the maker's service information, {document}, {}", self.locale.region.day(*date))
            }
            Provenance::Maker { document, date: None } => {
                format!("the maker's service information, {document}")
            }
            Provenance::Measured { by, date: Some(date) } => {
                format!("measured by {by}, {}", self.locale.region.day(*date))
            }
            Provenance::Measured { by, date: None } => format!("measured by {by}"),
            Provenance::Published { source } => format!("published: {source}"),
        }
    }

    /// The same as a sentence.
    pub fn provenance_sentence(&self, provenance: &Provenance) -> String {
        format!("{}.", sentence_start(&self.provenance(provenance)))
    }

    /// The whole finding as one line of text.
    pub fn line(&self, finding: &Finding) -> String {
        let mut line = self.title(finding);
        if let Some(measure) = self.measure(finding) {
            line = format!("{line}: {measure}");
        }
        line.push('.');
        let detail = self.detail(finding);
        if !detail.is_empty() {
            line = format!("{line} {detail}");
        }
        line
    }

    /// A subject without its article, for the start of a title and after "the".
    pub fn bare_subject(&self, subject: &Subject) -> String {
        let text = self.subject(subject);
        text.strip_prefix("the ").map_or(text.clone(), str::to_owned)
    }
}
