//! What else to know about a finding.

use super::numbers::percent;
use super::{About, listed, sentence_start};
use crate::assessment::{
    AlignmentFigure, CarSide, DoorPart, Facts, Finding, InSight, Lit, MOST_LOSS_DB, MarkFor, Misplaced,
    Painted, Quantity, Severity, StandReach, StandSide, Subject, TooLarge, TooSmall, Under,
};
use crate::model::{Exclusion, Material, ReferenceAxis};

impl About<'_> {
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
                    // Of what it is made is known; how it stands leaves it open.
                    _ if matches!(zone.excludes, Exclusion::Reflecting(_)) && !self.is_of_unknown(finding) => format!(
                        "The zone is to be clear of {of}; {} may send back more than that, as it stands or turned otherwise.",
                        self.made_of(finding)
                    ),
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
            Facts::ZonesMissing => {
                "Nothing was judged for any: what stands beside and behind the target may matter all the same. Where the procedure \
                 names none, say so in the car's form, under Keep-clear zones, and look round yourself."
                    .to_owned()
            }
            Facts::NoZoneNamed => {
                "So it was entered: nothing was judged for any. What stands beside and behind the target may matter all the same; \
                 look round yourself."
                    .to_owned()
            }
            Facts::SheetOpen(_)
            | Facts::SheetDiffers { .. }
            | Facts::CarUnlikely(_)
            | Facts::RideHeight(_)
            | Facts::CentrelinesApart(_)
            | Facts::CarMoved { .. } => self.this_car_detail(finding),
            Facts::AlignmentOff(_) => "Have the wheels aligned first: a sensor that is aimed to a crooked car is crooked."
                .to_owned(),
            Facts::AlignmentUnknown(AlignmentFigure::ThrustAngle) if self.is_half_read() => {
                "The toe of one rear wheel is entered: enter that of the other.".to_owned()
            }
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
            Facts::BeyondDoor => {
                let door = match finding.subjects.first() {
                    Some(Subject::Opening(id)) => self.arrangement.bay.openings.iter().find(|own| own.id == *id),
                    _ => None,
                };
                let open = if door.is_some_and(|own| own.kind.is_door()) { ", that nobody shuts the door" } else { "" };
                format!("Out there look after traffic and people{open}, the slope of the ground, light and weather.")
            }
            Facts::BeyondBay { lies, parts } => self.beyond_bay(*lies, parts),
            Facts::Beside { what, .. } => self.beside_detail(what),
            Facts::ShutDoor { by, parts } => self.shut_door(*by, parts),
            Facts::LightOnMat => {
                "The edge of a patch of sun crosses its pattern; how far it reaches depends on the day. Shut it or shade it.".to_owned()
            }
            Facts::LightInPicture(lit) => {
                let spoils = "light beside or behind the board spoils what the camera sees of it";
                let day = "how much it is depends on the day. Shut it or shade it.";
                match (finding.culprit(), lit) {
                    (Some(id), _) if self.is_parked_car(id) => {
                        format!("Its lamps are to be off and its panes throw back light: {spoils}.")
                    }
                    (Some(id), _) if self.is_of_glass(id) && !self.is_lamp(id) => {
                        format!("Lamps and daylight are mirrored in it: {spoils}. Cover it with something matt, or move it out.")
                    }
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
            Facts::OpenPit(_) => {
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
            Facts::FloorLevels(fact) => self.floor_detail(*fact),
            Facts::AssumedFigures(figures) => super::assumed::sentence(figures),
            Facts::KeepFree => "Local rules decide; keep ways out, panels and extinguishers free.".to_owned(),
            Facts::SourceNotGiven => "Say which of the vehicle maker's documents they were read from, or who measured them."
                .to_owned(),
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
                let drawn = "This aiming follows the thrust line; the centreline is drawn until the toe of both rear \
                             wheels is entered from the alignment sheet.";
                match finding.limit {
                    Some(limit) => format!("{drawn} It allows a thrust angle of {} at most.", self.quantity(limit)),
                    None => drawn.to_owned(),
                }
            }
            Facts::FresnelEntered(shift) => {
                let bent = "Near the path a radar's wave is bent even if nothing hides the target";
                match shift {
                    Some(own) => {
                        let [by, limit] = [own.by_rad, own.limit_rad].map(|own| self.locale.region.degrees(own));
                        let way = if own.is_upright { "up or down" } else { "to a side" };
                        format!("{bent}: a straight edge there shifts the aim by up to {by} {way}; {limit} is allowed.")
                    }
                    None => format!("{bent}."),
                }
            }
            Facts::EchoTaken(echo) | Facts::EchoDraws(echo) => self.echo_found(echo),
            Facts::EchoesTogether => {
                let of: Vec<String> = finding.subjects.iter().skip(1).map(|own| self.subject(own)).collect();
                format!("The strongest come from {}. Ideal shapes; the vehicle maker’s clear area decides.", listed(&of))
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
            Facts::LaidOff(_) => "Shift its marks as the tape check says, or lay them anew, and tape again.".to_owned(),
            Facts::LaidUnproven(figure) => self.to_prove(figure),
            Facts::ReadingOff(doubt) => self.doubt(doubt).unwrap_or_default(),
            Facts::ReadingUnused { .. }
            | Facts::ReadingDay { .. }
            | Facts::MarkElsewhere { .. }
            | Facts::MarkCheckUnused { .. } => self.read_detail(finding),
            Facts::InstrumentOverdue(_) => "Have it checked, or measure again with one that is; if it was checked meanwhile, say so in the shop settings.".to_owned(),
            Facts::InstrumentUnfit(_) => "Say with which tape the marks were read, or tape them again: the shop's own figures count meanwhile.".to_owned(),
            Facts::InstrumentUnlisted(_) => "It counts with the shop's own figures, and nobody says when its check is due: list it in the shop settings.".to_owned(),
            Facts::MarkDrifted(own) => self.drifted(own),
            Facts::StandSetOff(_) => "Set the stand anew as the tape check says, and read it again.".to_owned(),
            Facts::StandUnproven(open) => self.stand_unproven(open),
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
            Facts::PersonNear => match finding.subjects.get(1) {
                Some(Subject::Sensor) => "Whoever moves beside or behind the board spoils what the camera sees of it: ask them to keep \
                                          away while it is aimed.",
                _ => "People move: ask them to keep away while it is aimed.",
            }
            .to_owned(),
            Facts::UnderCar => match finding.culprit().and_then(|id| self.arrangement.bay.things.iter().find(|own| own.id == *id)) {
                Some(own) if own.is_person() => {
                    "Nobody is under a car while it is aimed: they come out before the brake is tried and the marks are laid."
                }
                _ => "A jack or a stand may hold the car up, so that it does not stand on its own wheels: look, and take it away.",
            }
            .to_owned(),
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
                "The car is raised: does the procedure mean the floor, or the plane of the wheels?"
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
}
