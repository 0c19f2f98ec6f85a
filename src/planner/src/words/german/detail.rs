//! What else to know about a finding.

use super::numbers::percent;
use super::{About, listed, sentence_start};
use crate::assessment::{
    AlignmentFigure, CarSide, DoorPart, Facts, Finding, InSight, InZone, Lit, MOST_LOSS_DB, MarkFor,
    Misplaced, Painted, Quantity, Severity, StandReach, StandSide, Subject, TooLarge, TooSmall, Under,
};
use crate::model::{Exclusion, Material, ReferenceAxis};

impl About<'_> {
    /// What else to know about it, in one sentence; empty if there is nothing.
    pub fn detail(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::ZoneNear(_) => self.known(finding),
            Facts::PlaceUnsure(all) => self.may_be(finding, all),
            Facts::CarPlace(all) => self.car_place(all),
            Facts::ZoneUnjudged(zone) => self.unjudged(*zone, finding),
            Facts::ZoneObject(zone) => {
                let of = self.keeps_clear_of(zone.excludes);
                match zone.heights {
                    Some(heights) => format!(
                        "{}, von {} bis {} über dem Boden; der Freiraum muss frei sein von {of}.",
                        sentence_start(&self.made_of(finding)),
                        self.length(heights.bottom()),
                        self.length(heights.top())
                    ),
                    None => format!("Der Freiraum muss frei sein von {of}."),
                }
            }
            Facts::ZonesMissing => {
                "Dazu wurde nichts beurteilt: Was neben und hinter dem Ziel steht, kann trotzdem stören. Nennt die Anleitung keinen, \
                 das im Formular des Fahrzeugs unter Freiräume angeben und sich selbst umsehen."
                    .to_owned()
            }
            Facts::NoZoneNamed => {
                "So wurde es eingetragen: Dazu wurde nichts beurteilt. Was neben und hinter dem Ziel steht, kann trotzdem stören; sich \
                 selbst umsehen."
                    .to_owned()
            }
            Facts::SheetOpen(_)
            | Facts::SheetDiffers { .. }
            | Facts::CarUnlikely(_)
            | Facts::RideHeight(_)
            | Facts::CentrelinesApart(_)
            | Facts::CarMoved { .. } => self.this_car_detail(finding),
            Facts::AlignmentOff(_) => {
                "Zuerst die Achsvermessung: Ein Sensor, der nach einem schiefen Fahrwerk eingestellt wird, steht schief.".to_owned()
            }
            Facts::AlignmentUnknown(AlignmentFigure::ThrustAngle) if self.is_half_read() => {
                "Die Spur eines Hinterrads ist eingetragen: die des anderen auch eintragen.".to_owned()
            }
            Facts::AlignmentUnknown(figure) => {
                let what = match figure {
                    AlignmentFigure::ThrustAngle => "einen Fahrachswinkel",
                    AlignmentFigure::SetBack => "einen Radversatz",
                };
                let limit = finding.limit.map_or_else(String::new, |own| self.quantity(own));
                format!("Diese Einstellung erlaubt {what} bis {limit}. Das Protokoll der Achsvermessung eintragen.")
            }
            Facts::SightBlocked(InSight::OwnBody { assumed: true }) => {
                "Ihr Umriss von der Seite ist nach der Fahrzeugklasse angenommen.".to_owned()
            }
            Facts::SightBlocked(InSight::OwnBody { assumed: false }) => {
                "Nach ihrem Umriss von der Seite, vor der Kamera.".to_owned()
            }
            Facts::BeyondDoor => {
                let door = match finding.subjects.first() {
                    Some(Subject::Opening(id)) => self.arrangement.bay.openings.iter().find(|own| own.id == *id),
                    _ => None,
                };
                let open = match door.is_some_and(|own| own.kind.is_door()) {
                    true => ", und dass niemand schließt",
                    false => "",
                };
                format!("Draußen auf Verkehr und Personen achten{open}, auf Gefälle, Licht und Wetter.")
            }
            Facts::BeyondBay { lies, parts } => self.beyond_bay(*lies, parts),
            Facts::Beside { what, .. } => self.beside_detail(what),
            Facts::ShutDoor { by, parts } => self.shut_door(*by, parts),
            Facts::LightOnMat => {
                "Der Rand eines Sonnenflecks quert das Muster; wie weit er reicht, hängt vom Tag ab. Schließen oder abschatten.".to_owned()
            }
            Facts::LightInPicture(lit) => self.light(*lit, finding),
            Facts::GlassBehind => {
                "Glas wirft wie ein Spiegel zurück, was am Rand des Ziels vorbeigeht: mit etwas Mattem abdecken.".to_owned()
            }
            Facts::OffBeam { loss_db } => {
                let loss = self.locale.region.number(*loss_db, 0);
                let about = if *loss_db < MOST_LOSS_DB { "Etwa" } else { "Mehr als" };
                format!(
                    "{about} {loss} dB weniger kommen von dort zurück als aus der Mitte des Strahls, hin und zurück; nach der üblichen \
                     Glockenform eines Strahls."
                )
            }
            Facts::ViewByAngles => {
                "Was sie sieht, wird nur nach ihren Blickwinkeln beurteilt; ein Weitwinkel krümmt den Rand des Bildes.".to_owned()
            }
            Facts::DoorLeaf(DoorPart::Leaf) => {
                "Wo das Türblatt steht, ist nicht angegeben; irgendwo im Viertelkreis um einen der beiden Pfosten. Schließen oder \
                 nachsehen, wo es steht."
                    .to_owned()
            }
            Facts::DoorLeaf(DoorPart::Roll) => {
                let material = self.part_material(finding).map_or("", |own| self.material(own));
                format!(
                    "{}, so weit vor der Wand, wie der Ballen dick ist; gerechnet mit {}, der Vorgabe der Werkstatt. Nachsehen, wo er endet.",
                    sentence_start(material),
                    self.length(self.arrangement.shop.door_roll_mm)
                )
            }
            Facts::SightBlocked(InSight::Hides { total }) => match finding.measured {
                Some(Quantity::Share(alone)) if total - alone > 0.005 => {
                    format!("Alles zusammen verdeckt {}.", percent(*total, self.locale.region))
                }
                _ => match self.thing(finding) {
                    Some(thing) => format!(
                        "{}, {} bis {} über dem Boden; der Sensor sitzt auf {}.",
                        sentence_start(self.material(thing.material)),
                        self.bare(thing.span.bottom()),
                        self.length(thing.span.top()),
                        self.length(crate::scene::sensor_height(self.arrangement))
                    ),
                    None => String::new(),
                },
            },
            Facts::SightBlocked(InSight::CoversSensor) => "Der Sensor liegt darin.".to_owned(),
            Facts::SightBlocked(InSight::FacesAway) => "Zum Fahrzeug drehen.".to_owned(),
            Facts::StandOffMark(off) => self.off_place(off),
            Facts::MarkFault(fault) => self.fault(*fault),
            Facts::WorkingRoom(side) => match side {
                CarSide::Front => "Vor dem Fahrzeug.",
                CarSide::Left => "Links vom Fahrzeug.",
                CarSide::Rear => "Hinter dem Fahrzeug.",
                CarSide::Right => "Rechts vom Fahrzeug.",
            }
            .to_owned(),
            Facts::StandRoom(StandSide::Front) => format!(
                "Bis {}: Zum Einstellen und Messen kann niemand davortreten.",
                super::names::before("zu", &finding.subjects.get(1).map_or_else(String::new, |own| self.dative(own)))
            ),
            Facts::StandRoom(StandSide::Beside) => format!(
                "Auch dahinter nicht; am meisten auf der Seite {}. Zum Einstellen und Ablesen muss dort jemand stehen.",
                finding.subjects.get(1).map_or_else(String::new, |own| self.genitive(own))
            ),
            Facts::OpenPit(_) => {
                "Begehbar abdecken oder absperren: Wer Marken legt, schaut auf das Bandmaß. Es gelten die Vorschriften vor Ort.".to_owned()
            }
            Facts::OutsideRoom { too_large: Some(TooLarge::Long { needs_mm: needs, there_mm: there }), .. } => format!(
                "Kein Platz längs zum Fahrzeug: Fahrzeug, Ziel und Freiräume brauchen {}, der Raum hat {}.",
                self.length(*needs),
                self.length(*there)
            ),
            Facts::OutsideRoom { too_large: Some(TooLarge::Wide { needs_mm: needs, there_mm: there }), .. } => format!(
                "Kein Platz quer zum Fahrzeug: Fahrzeug, Ziel und Freiräume brauchen {}, der Raum hat {}.",
                self.length(*needs),
                self.length(*there)
            ),
            Facts::FloorLevels(fact) => self.floor_detail(*fact),
            Facts::AssumedFigures(figures) => super::assumed::sentence(figures),
            Facts::KeepFree => {
                "Es gelten die Vorschriften vor Ort; Fluchtwege, Schaltschränke und Feuerlöscher frei halten.".to_owned()
            }
            Facts::SourceNotGiven => {
                "Angeben, aus welcher Anleitung des Herstellers sie stammen oder wer sie gemessen hat.".to_owned()
            }
            Facts::ExampleFigures => "Erfunden, um das Programm zu zeigen. Vor jeder echten Arbeit die Werte des Herstellers eintragen."
                .to_owned(),
            Facts::ShopUnread => "Statt ihrer gelten die üblichen Werte; die Datei berichtigen oder entfernen.".to_owned(),
            Facts::ShopChanged => {
                "Den Messplatz neu speichern, damit er sich merkt, wie jetzt beurteilt wird.".to_owned()
            }
            Facts::OwnBuilding => {
                "Wände, Türen und Eingebautes gehören zu dieser Aufstellung, nicht zum Messplatz; was abweicht, muss erst gebaut werden, \
                 bevor das Ergebnis gilt."
                    .to_owned()
            }
            Facts::OlderByEye => self.older_by_eye(finding),
            Facts::ProfileChanged => "Die Werte ansehen, dann den Messplatz damit speichern.".to_owned(),
            Facts::AxisUnknown => {
                let drawn = "Diese Einstellung folgt der geometrischen Fahrachse; gezeichnet ist die Mittellinie, bis die Spur beider \
                             Hinterräder aus dem Protokoll der Achsvermessung eingetragen ist.";
                match finding.limit {
                    Some(limit) => format!("{drawn} Erlaubt ist ein Fahrachswinkel bis {}.", self.quantity(limit)),
                    None => drawn.to_owned(),
                }
            }
            Facts::FresnelEntered(shift) => {
                let bent = "Nahe am Weg wird die Welle eines Radars gebeugt, auch wenn nichts das Ziel verdeckt";
                match shift {
                    Some(own) => {
                        let [by, limit] = [own.by_rad, own.limit_rad].map(|own| self.locale.region.degrees(own));
                        let way = if own.is_upright { "nach oben oder unten" } else { "zur Seite" };
                        format!("{bent}: Eine gerade Kante dort verschiebt die Einstellung um bis zu {by} {way}; {limit} sind erlaubt.")
                    }
                    None => format!("{bent}."),
                }
            }
            Facts::EchoTaken(echo) | Facts::EchoDraws(echo) => self.echo_found(echo),
            Facts::EchoesTogether => {
                let of: Vec<String> = finding.subjects.iter().skip(1).map(|own| self.dative(own)).collect();
                format!("Die stärksten kommen von {}. Ideale Formen; der Freiraum des Herstellers entscheidet.", listed(&of))
            }
            Facts::MeasuredOnCar => match finding.severity {
                Severity::Note => "Das gilt statt des Werts im Profil.",
                Severity::Stops | Severity::Care => {
                    "Gleiche Fahrzeuge weichen weniger ab: neu messen und nachsehen, ob etwas verbogen ist."
                }
            }
            .to_owned(),
            Facts::MarkOffTarget => {
                "Markenplan und Abstand widersprechen sich: Eines ist falsch eingetragen, oder sie folgen verschiedenen Achsen.".to_owned()
            }
            Facts::ThingPlace(Misplaced::NotCompared) => {
                "Ob weitere ineinander liegen, ist nicht bekannt. Die Angaben zu ihrer Lage prüfen.".to_owned()
            }
            Facts::ThingPlace(_) => "Die Angaben zur Lage prüfen.".to_owned(),
            Facts::BesidePermanentMark(Painted::On) => {
                "Das Fahrzeug wird etwas anders stehen: die Marken dieser Einstellung von seinen Rädern aus legen und die bleibenden \
                 abdecken, oder danach aufstellen und angeben, wie genau es dort steht."
                    .to_owned()
            }
            Facts::BesidePermanentMark(Painted::Beside(_)) => {
                "Leicht zu verwechseln: die Marke abdecken, die nicht gemeint ist, oder nach ihr aufstellen.".to_owned()
            }
            Facts::MarkMissing if self.arrangement.aiming.axis == ReferenceAxis::GeometricCentreline => {
                "Wie der Platz am Boden gefunden wird, ist nicht angegeben: die Marken dafür eintragen.".to_owned()
            }
            Facts::MarkMissing => {
                "Der Platz liegt auf der geometrischen Fahrachse, die am Boden niemand sieht: eine Marke darauf eintragen.".to_owned()
            }
            Facts::LaidOff(_) => "Die Marken nach der Markenprüfung verschieben oder neu legen, und neu messen.".to_owned(),
            Facts::LaidUnproven(figure) => self.to_prove(figure),
            Facts::ReadingOff(doubt) => self.doubt(doubt).unwrap_or_default(),
            Facts::ReadingUnused { .. }
            | Facts::ReadingDay { .. }
            | Facts::MarkElsewhere { .. }
            | Facts::MarkCheckUnused { .. } => self.read_detail(finding),
            Facts::InstrumentOverdue(_) => "Prüfen lassen oder mit einem geprüften neu messen; wurde es inzwischen geprüft, das in den Vorgaben der Werkstatt eintragen.".to_owned(),
            Facts::InstrumentUnfit(_) => "Sagen, mit welchem Band die Marken gemessen sind, oder neu messen: bis dahin zählen die Werte der Werkstatt.".to_owned(),
            Facts::InstrumentUnlisted(_) => "Es zählt mit den Werten der Werkstatt, und niemand sagt, wann seine Prüfung fällig ist: in den Vorgaben der Werkstatt eintragen.".to_owned(),
            Facts::MarkDrifted(own) => self.drifted(own),
            Facts::StandSetOff(_) => "Den Ständer neu einstellen, wie die Markenprüfung sagt, und wieder ablesen.".to_owned(),
            Facts::StandUnproven(open) => self.stand_unproven(open),
            Facts::MarkUnsure(MarkFor::Direction) => format!(
                "Jede Marke wird auf ± {} gelegt: Je näher zwei Marken liegen, desto mehr verdreht das die Linie dazwischen. Nach Marken \
                 ausrichten, die weiter auseinander liegen, oder mit einer längeren Schiene.",
                self.length(self.arrangement.shop.mark_laid_mm)
            ),
            Facts::MarkUnsure(MarkFor::Place) => format!(
                "Jede Marke wird auf ± {} gelegt; eine kurze Linie, weit verlängert, oder zwei, die sich flach kreuzen, vergrößern das. \
                 Aus Marken bilden, die weiter auseinander liegen.",
                self.length(self.arrangement.shop.mark_laid_mm)
            ),
            Facts::WalkIn => {
                "Der Freiraum muss frei sein von Personen: den anderen Bescheid sagen und absperren oder ein Schild aufstellen. Ein \
                 Ausgang bleibt unverriegelt."
                    .to_owned()
            }
            Facts::PersonNear => match finding.subjects.get(1) {
                Some(Subject::Sensor) => {
                    "Wer sich neben oder hinter der Tafel bewegt, stört das Bild der Kamera: bitten, bei der Einstellung wegzubleiben."
                }
                _ => "Personen bewegen sich: bitten, bei der Einstellung wegzubleiben.",
            }
            .to_owned(),
            Facts::UnderCar => match finding.culprit() {
                Some(id) if self.is_someone(id) => {
                    "Bei der Einstellung ist niemand unter dem Fahrzeug: erst herauskommen, dann die Bremse prüfen und Marken legen."
                }
                _ => {
                    "Ein Wagenheber oder Unterstellbock hält das Fahrzeug vielleicht, sodass es nicht auf den eigenen Rädern steht: \
                     nachsehen und entfernen."
                }
            }
            .to_owned(),
            Facts::WayIn(small) => {
                let entered = "Von den eingetragenen Türen und Toren. Kommt es anders herein, diese Öffnung eintragen.";
                let door = finding.subjects.first().map_or_else(String::new, |own| self.dative(own));
                match (finding.subjects.get(2).map(|own| sentence_start(&self.subject(own))), small) {
                    (None, _) => entered.to_owned(),
                    (Some(by), TooSmall::NoGround) => {
                        format!("{by} liegt offen vor {door}: Die Räder haben dort keinen Boden. {entered}")
                    }
                    (Some(by), TooSmall::Low) => format!("{by} hängt vor {door}. {entered}"),
                    (Some(by), TooSmall::Narrow | TooSmall::Sill) => format!("{by} steht in {door}. {entered}"),
                }
            }
            Facts::RunBlocked => match finding.severity {
                Severity::Care => {
                    "Dort ist es offen: abdecken, damit niemand stürzt und Bandmaß und Laser einen Boden haben."
                }
                Severity::Stops | Severity::Note => "Dort kommen Bandmaß und Laser nicht durch.",
            }
            .to_owned(),
            Facts::TapeOver => {
                "Darüber gelegt zeigt das Bandmaß mehr als die waagerechte Strecke: waagerecht halten oder auf beiden Seiten Bohlen legen."
                    .to_owned()
            }
            Facts::StandReach(StandReach::Unknown) => {
                "Wie hoch er reicht, ist nicht eingetragen, und es wird mehr verlangt als üblich.".to_owned()
            }
            Facts::StandReach(StandReach::TooShort | StandReach::TooTall) => {
                "Ein Ständer wird nicht höher oder niedriger, als er ist.".to_owned()
            }
            Facts::MatBelow => {
                "Die Kamera erwartet sie in der Ebene der Räder: am Boden einstellen oder ein Podest so hoch wie die Fahrschienen nehmen."
                    .to_owned()
            }
            Facts::MarkInAir { instead: Some(aiming) } => {
                format!("Von „{aiming}“ hinge keine Marke in der Luft.")
            }
            Facts::MarkInAir { instead: None } => {
                "Für diesen Sensor ist kein Markenplan ohne Punkte neben den Reifen eingetragen.".to_owned()
            }
            Facts::HeightsFromFloor => {
                "Das Fahrzeug ist angehoben: Meint die Anleitung den Boden oder die Ebene der Räder?".to_owned()
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

    /// Why it cannot be judged whether something matters in a zone.
    fn unjudged(&self, zone: InZone, finding: &Finding) -> String {
        let clear = format!("Der Freiraum muss frei sein von {}", self.keeps_clear_of(zone.excludes));
        let asks = "Klären, was die Anleitung vom Boden sagt.";
        match finding.subjects.first() {
            Some(Subject::Wall(_) | Subject::Opening(_)) if zone.heights.is_none() => {
                match self.part_material(finding) {
                    Some(Material::Plasterboard) => {
                        format!("{clear}; hinter Gipskarton sind Profile, vielleicht aus Stahl.")
                    }
                    _ => format!("{clear}; was darin ist, ist nicht bekannt."),
                }
            }
            Some(Subject::FloorFeature(id)) if zone.heights.is_none() && self.is_pit(id) => {
                format!("Dort ist es offen. {clear}. {asks}")
            }
            Some(Subject::FloorFeature(_)) if zone.heights.is_none() => {
                format!("{}, bündig mit dem Boden. {clear}. {asks}", sentence_start(&self.made_of(finding)))
            }
            Some(Subject::Opening(_) | Subject::Wall(_)) => {
                format!("{clear}; wie viel hereinkommt, hängt vom Tag ab.")
            }
            Some(Subject::Ceiling) => format!("{clear}; was in der Decke ist, ist nicht bekannt."),
            Some(Subject::Runway(id)) if self.arrangement.on_runways.contains(id) => format!(
                "{clear}, und seine Höhen zählen vom Boden aus: Ob der Stahl unter dem Fahrzeug zählt, muss die Anleitung sagen."
            ),
            Some(Subject::Thing(id)) if zone.excludes == Exclusion::Metal && self.is_someone(id) => {
                format!("{clear}; was eine Person bei sich trägt, ist nicht bekannt.")
            }
            // Of what it is made is known; how it stands leaves it open.
            _ if matches!(zone.excludes, Exclusion::Reflecting(_)) && !self.is_of_unknown(finding) => {
                format!(
                    "{clear}. {}: So, wie es steht, oder anders gedreht wirft es vielleicht mehr zurück.",
                    sentence_start(&self.made_of(finding))
                )
            }
            _ => format!(
                "{clear}. {}: Ob das zählt, ist nicht bekannt.",
                sentence_start(&self.made_of(finding))
            ),
        }
    }

    /// What light in a camera's picture does, and what to do about it.
    fn light(&self, lit: Lit, finding: &Finding) -> String {
        let spoils = "Licht neben oder hinter der Tafel stört, was die Kamera davon sieht";
        let day = "wie viel es ist, hängt vom Tag ab. Schließen oder abschatten.";
        match (finding.culprit(), lit) {
            (Some(id), _) if self.is_parked_car(id) => {
                format!("{spoils}: seine Lampen ausschalten; auch seine Scheiben werfen Licht zurück.")
            }
            (Some(id), _) if self.is_of_glass(id) && !self.is_lamp(id) => format!(
                "Lampen und Tageslicht spiegeln sich darin. {spoils}. Mit etwas Mattem abdecken oder hinausstellen."
            ),
            (Some(_), _) => format!("{spoils}. Ausschalten oder abschatten."),
            (None, Lit::Is) => format!("{spoils}; {day}"),
            (None, Lit::ByPlace) => {
                format!("So genau die Lage von Wänden und Fahrzeug bekannt ist: {spoils}; {day}")
            }
            (None, Lit::ByMaterial) => {
                format!(
                    "Das Material lässt vielleicht Tageslicht durch. {spoils}. Nachsehen und dann abschatten."
                )
            }
        }
    }
}
