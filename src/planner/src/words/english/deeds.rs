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
            Deed::Move(thing) => format!("Move {thing}"),
            Deed::Size(thing) => format!("Size of {thing}"),
            Deed::Describe(thing) => format!("Facts about {thing}"),
            Deed::Rename(thing) => format!("Rename {thing}"),
            Deed::Add(thing) => format!("Add {thing}"),
            Deed::Remove(thing) => format!("Remove {thing}"),
            Deed::RemoveBuilt(thing) => format!("Remove {thing} from every set-up"),
            Deed::Build(thing) => format!("Part of the building, in every set-up: {thing}"),
            Deed::InEvery(thing) => format!("In every set-up: {thing}"),
            Deed::HereAlone(thing) => format!("In this set-up alone: {thing}"),
            Deed::Park => "Park the car".to_owned(),
            Deed::ParkedKnown => "Say how well the car's place is known".to_owned(),
            Deed::Stand => "Move the target stand".to_owned(),
            Deed::Shut(door) => format!("Shut {door}"),
            Deed::Open(door) => format!("Open {door}"),
            Deed::KeepShut(door) => format!("Keep {door} shut"),
            Deed::LetOpen(door) => format!("Let {door} be opened"),
            Deed::Car(car) => format!("Another car, {car}"),
            Deed::Aiming(aiming) => format!("Another aiming, {aiming}"),
            Deed::Remember(car) => format!("Take the figures of {car} as they are now"),
            Deed::Bay(deed) => self.bay_deed(deed),
            Deed::Corner => "Move a corner of the room".to_owned(),
            Deed::PlanBuilding => "Building planned for this set-up".to_owned(),
            Deed::GiveUpBuilding => "Back to the bay's building".to_owned(),
            Deed::AdoptBuilding => "Planned building made the bay's".to_owned(),
            Deed::Duplicate(name) => format!("New set-up {name}"),
            Deed::NameArrangement(name) => format!("Name the set-up {name}"),
            Deed::RemoveArrangement => "Remove a set-up".to_owned(),
            Deed::Visit => "What the car is in for".to_owned(),
            Deed::ReadStand(id) => format!("Read stand of {id}"),
            Deed::Tape(from, to) => format!("Tape {from}–{to}"),
            Deed::LayAgain => "Marks laid again: the earlier readings kept".to_owned(),
            Deed::LayAnew => "Marks laid anew: their readings taken away".to_owned(),
            Deed::OnThisCar => "Measured on this car".to_owned(),
            Deed::Owner => "The owner's figures".to_owned(),
            Deed::Underlay => "Picture of the plan".to_owned(),
            Deed::KeepDimension(id) => format!("Keep {id}"),
            Deed::RenameDimension(id) => format!("Rename {id}"),
            Deed::RemoveDimension(id) => format!("Remove {id}"),
            Deed::Carried => "What the car stands on".to_owned(),
            Deed::InBay => "Bays of the set-up".to_owned(),
            Deed::AtOnce => "What is done at the same time".to_owned(),
            Deed::MoveSeveral(count) => format!("Move {count} things"),
            Deed::AddSeveral(count) => format!("Add {count} things"),
            Deed::RemoveSeveral(count) => format!("Remove {count} things"),
            Deed::Cure(step) => sentence_start(&self.step(step)),
            Deed::Cures(steps) => sentence_start(&self.steps(steps)),
        }
    }

    fn bay_deed(&self, deed: &BayDeed) -> String {
        match deed {
            BayDeed::Add(what) => format!("Add {}", self.bare_subject(what)),
            BayDeed::Remove(what) => format!("Remove {}", self.bare_subject(what)),
            BayDeed::Change(what, part) => {
                let what = if *what == Subject::Floor { "room".to_owned() } else { self.bare_subject(what) };
                format!("{}: {}", sentence_start(&what), of_bay(*part))
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
                    SensorDeed::Name => "name",
                    SensorDeed::Part(part) => of_sensor(*part),
                    SensorDeed::Edges => "where its edges lie",
                    SensorDeed::Screws => "its adjusting screws",
                    SensorDeed::Source => "where its figures come from",
                };
                format!("{id}: {what}")
            }
            CarDeed::Aiming(id, deed) => {
                let what = match deed {
                    AimingDeed::Name => "name",
                    AimingDeed::Sensor => "the sensor that it aims",
                    AimingDeed::Part(part) => of_aiming(*part),
                    AimingDeed::Targets => "targets",
                    AimingDeed::Alignment => "what it asks of the alignment",
                    AimingDeed::Together => "which targets stand at the same time",
                    AimingDeed::Zones => "keep-clear zones",
                    AimingDeed::HaveReady => "what to have ready",
                    AimingDeed::Conditions => "what to meet first",
                    AimingDeed::Source => "where its figures come from",
                };
                format!("{id}: {what}")
            }
            CarDeed::Took(figure) => format!("{}, as it stands", named(figure)),
            CarDeed::LeftOpen(figure) => format!("{}, left open", named(figure)),
        };
        sentence_start(&text)
    }

    /// The heading over all findings of one severity.
    pub const fn heading(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "Stops the aiming",
            Severity::Care => "Needs care",
            Severity::Note => "To know and to have ready",
        }
    }
}

const fn of_bay(part: BayPart) -> &'static str {
    match part {
        BayPart::Name => "name",
        BayPart::Kind => "what it is",
        BayPart::Material => "what it is made of",
        BayPart::Place => "place and shape",
        BayPart::Heights => "height",
        BayPart::Shut => "open or shut",
        BayPart::FreeBeyond => "what is free beyond",
        BayPart::Exit => "way out",
        BayPart::WallsKnown => "how well the walls are known",
        BayPart::Levels => "floor levels",
        BayPart::Source => "where its figures come from",
        BayPart::Other => "changed",
    }
}
