//! What a person did, in the list of things to undo.

use super::assumed::{named, of_aiming, of_body, of_sensor};
use super::{About, forms, sentence_start};
use crate::assessment::{Severity, Subject};
use crate::edit::{BayDeed, BayPart, Deed};
use crate::entry::{AimingDeed, CarDeed, SensorDeed};

impl About<'_> {
    /// A deed as a person reads it beside "undo".
    pub fn deed(&self, deed: &Deed) -> String {
        match deed {
            Deed::Move(thing) => format!("„{thing}“ verschieben"),
            Deed::Size(thing) => format!("Größe von „{thing}“"),
            Deed::Describe(thing) => format!("Angaben zu „{thing}“"),
            Deed::Rename(thing) => format!("„{thing}“ umbenennen"),
            Deed::Add(thing) => format!("„{thing}“ hinzufügen"),
            Deed::Remove(thing) => format!("„{thing}“ entfernen"),
            Deed::RemoveBuilt(thing) => format!("„{thing}“ aus jeder Aufstellung entfernen"),
            Deed::Build(thing) => format!("Teil des Gebäudes, in jeder Aufstellung: „{thing}“"),
            Deed::InEvery(thing) => format!("In jeder Aufstellung: „{thing}“"),
            Deed::HereAlone(thing) => format!("Nur in dieser Aufstellung: „{thing}“"),
            Deed::Park => "Fahrzeug aufstellen".to_owned(),
            Deed::ParkedKnown => "Angeben, wie genau der Platz des Fahrzeugs bekannt ist".to_owned(),
            Deed::Stand => "Zielständer versetzen".to_owned(),
            Deed::Shut(door) => format!("„{door}“ schließen"),
            Deed::Open(door) => format!("„{door}“ öffnen"),
            Deed::KeepShut(door) => format!("„{door}“ geschlossen halten"),
            Deed::LetOpen(door) => format!("„{door}“ öffnen lassen"),
            Deed::Car(car) => format!("Anderes Fahrzeug, „{car}“"),
            Deed::Aiming(aiming) => format!("Andere Einstellung, „{aiming}“"),
            Deed::Remember(car) => format!("Werte von „{car}“ übernehmen, wie sie jetzt sind"),
            Deed::Bay(deed) => self.bay_deed(deed),
            Deed::Corner => "Ecke des Raums versetzen".to_owned(),
            Deed::PlanBuilding => "Gebäude für diese Aufstellung planen".to_owned(),
            Deed::GiveUpBuilding => "Zurück zum Gebäude des Messplatzes".to_owned(),
            Deed::AdoptBuilding => "Geplantes Gebäude für den Messplatz übernehmen".to_owned(),
            Deed::Duplicate(name) => format!("Neue Aufstellung „{name}“"),
            Deed::NameArrangement(name) => format!("Aufstellung „{name}“ nennen"),
            Deed::RemoveArrangement => "Aufstellung entfernen".to_owned(),
            Deed::Visit => "Auftrag des Fahrzeugs".to_owned(),
            Deed::ReadStand(id) => format!("Ständer von „{id}“ abgelesen"),
            Deed::Tape(from, to) => format!("Maß {from}–{to}"),
            Deed::LayAgain => "Marken noch einmal gelegt: frühere Maße behalten".to_owned(),
            Deed::LayAnew => "Marken neu angelegt: ihre Maße entfernt".to_owned(),
            Deed::OnThisCar => "An diesem Fahrzeug gemessen".to_owned(),
            Deed::Owner => "Angaben des Inhabers".to_owned(),
            Deed::Underlay => "Bild des Plans".to_owned(),
            Deed::KeepDimension(id) => format!("„{id}“ behalten"),
            Deed::RenameDimension(id) => format!("„{id}“ umbenennen"),
            Deed::RemoveDimension(id) => format!("„{id}“ entfernen"),
            Deed::Carried => "Worauf das Fahrzeug steht".to_owned(),
            Deed::InBay => "Stellplätze der Aufstellung".to_owned(),
            Deed::AtOnce => "Was gleichzeitig gemacht wird".to_owned(),
            Deed::MoveSeveral(count) => format!("{count} Gegenstände verschieben"),
            Deed::AddSeveral(count) => format!("{count} Gegenstände hinzufügen"),
            Deed::RemoveSeveral(count) => format!("{count} Gegenstände entfernen"),
            Deed::Cure(step) => sentence_start(&self.step(step)),
            Deed::Cures(steps) => sentence_start(&self.steps(steps)),
        }
    }

    fn bay_deed(&self, deed: &BayDeed) -> String {
        match deed {
            BayDeed::Add(what) => format!("{} hinzufügen", self.alone(what)),
            BayDeed::Remove(what) => format!("{} entfernen", self.alone(what)),
            BayDeed::Change(what, part) => {
                let what = if *what == Subject::Floor { "Raum".to_owned() } else { self.alone(what) };
                format!("{what}: {}", of_bay(*part))
            }
        }
    }

    /// What was done to a car, as a person reads it beside "undo".
    pub fn car_deed(&self, deed: &CarDeed) -> String {
        let texts = &forms::TEXTS;
        let text = match deed {
            CarDeed::Name => texts.name_of_car.to_owned(),
            CarDeed::ShortName => texts.file_name.to_owned(),
            CarDeed::Class => texts.class.to_owned(),
            CarDeed::Source => texts.source.to_owned(),
            CarDeed::Body(part) => of_body(*part).to_owned(),
            CarDeed::RideHeights => texts.ride_heights.to_owned(),
            CarDeed::BodyPoints => texts.body_points.to_owned(),
            CarDeed::Sensors => texts.sensors.to_owned(),
            CarDeed::Aimings => texts.aimings.to_owned(),
            CarDeed::Sensor(id, deed) => {
                let what = match deed {
                    SensorDeed::Name => "Name",
                    SensorDeed::Part(part) => of_sensor(*part),
                    SensorDeed::Edges => "Lage der Kanten",
                    SensorDeed::Screws => "Einstellschrauben",
                    SensorDeed::Source => "Herkunft der Angaben",
                };
                format!("„{id}“: {what}")
            }
            CarDeed::Aiming(id, deed) => {
                let what = match deed {
                    AimingDeed::Name => "Name",
                    AimingDeed::Sensor => "eingestellter Sensor",
                    AimingDeed::Part(part) => of_aiming(*part),
                    AimingDeed::Targets => "Ziele",
                    AimingDeed::Alignment => "Forderungen an die Achsvermessung",
                    AimingDeed::Together => "gleichzeitig aufgestellte Ziele",
                    AimingDeed::Zones => "Freiräume",
                    AimingDeed::HaveReady => "was bereitzuhalten ist",
                    AimingDeed::Conditions => "was zuerst zu erfüllen ist",
                    AimingDeed::Source => "Herkunft der Angaben",
                };
                format!("„{id}“: {what}")
            }
            CarDeed::Took(figure) => format!("{}, wie es dasteht", named(figure)),
            CarDeed::LeftOpen(figure) => format!("{}, offen gelassen", named(figure)),
        };
        sentence_start(&text)
    }

    /// The heading over all findings of one severity.
    pub const fn heading(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "Verhindert die Einstellung",
            Severity::Care => "Vorsicht",
            Severity::Note => "Hinweise und was bereitzuhalten ist",
        }
    }
}

const fn of_bay(part: BayPart) -> &'static str {
    match part {
        BayPart::Name => "Name",
        BayPart::Kind => "Art",
        BayPart::Material => "Material",
        BayPart::Place => "Lage und Form",
        BayPart::Heights => "Höhe",
        BayPart::Shut => "offen oder geschlossen",
        BayPart::FreeBeyond => "was dahinter frei ist",
        BayPart::Exit => "Ausgang",
        BayPart::WallsKnown => "wie genau die Wände bekannt sind",
        BayPart::Levels => "Bodenhöhen",
        BayPart::Source => "Herkunft der Angaben",
        BayPart::Other => "geändert",
    }
}
