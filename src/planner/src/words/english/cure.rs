//! What to do, in words.

use super::clearing::takes;
use super::names::the;
use super::{About, listed, sentence_start};
use crate::assessment::{Cure, Facts, Finding, OnCar, Severity, Shorter, Step, Subject};
use crate::model::{Effort, Id, SensorPoint, TargetHeight, ThingKind};

impl About<'_> {
    /// What to do about a finding, with what that would cause; `None` if nothing is known.
    pub fn cure(&self, finding: &Finding) -> Option<String> {
        let cure = finding.cure.as_ref()?;
        let mut text = match (&cure.step, &finding.facts) {
            (Step::SurveyFloor, Facts::FloorLevels(fact)) => super::floor::survey(*fact).to_owned(),
            (step, _) => sentence_start(&self.step(step)),
        };
        text.push('.');
        if let Some(shorter) = cure.at_least {
            text = format!("{text} {}", self.shorter(&cure.step, shorter));
        }
        // That one person can do it goes without saying.
        if let Some(takes) = cure.effort.filter(|own| *own != Effort::OnePerson).and_then(takes) {
            text = format!("{text} {takes}");
        }
        if let Some(instead) = self.instead(cure) {
            text = format!("{text} {instead}");
        }
        Some(text)
    }

    /// Why it goes further than it must: "250 mm would do if all stood exactly as drawn; ..."
    fn shorter(&self, step: &Step, shorter: Shorter) -> String {
        let by = shorter.by();
        let so_far = if self.same_way(step, shorter) { self.at_least(by.length()) } else { self.towards(by) };
        match shorter {
            Shorter::AsDrawn(_) => format!(
                "{so_far} would do if all stood exactly as drawn; the rest is for how well places are known."
            ),
            Shorter::ThisAlone(_) => {
                format!("{so_far} would clear this alone; the rest keeps off what else is there.")
            }
        }
    }

    /// One thing to do, without capital and full stop: "move the trolley 300 mm towards the car's right".
    pub fn step(&self, step: &Step) -> String {
        match step {
            Step::MoveThing { thing, by } => {
                // A name that ends in a figure would run into the length: "drum 2 150 mm".
                let by_how_much = if thing.as_str().ends_with(char::is_numeric) { " by" } else { "" };
                let towards = self.towards(*by);
                match self.kind(thing) {
                    // It does not go straight: so far goes its middle.
                    Some(ThingKind::LiftArm) => {
                        format!("swing {} about its post, its middle {towards}", the(thing))
                    }
                    _ => format!("{} {}{by_how_much} {towards}", self.moves(thing), the(thing)),
                }
            }
            Step::TurnThing { thing, by_rad } => {
                let way = if *by_rad > 0.0 { "anticlockwise" } else { "clockwise" };
                let by = self.locale.region.degrees(by_rad.abs());
                let by_how_much = if thing.as_str().ends_with(char::is_numeric) { " by" } else { "" };
                format!("turn {}{by_how_much} {by} {way}, seen from above", the(thing))
            }
            Step::TakeAway { thing } => self.leaves(thing),
            Step::MoveCar { by } => format!("park the car {}", self.towards(*by)),
            Step::StandOnMark { placement } => {
                let target = self.subject(&Subject::Stand(placement.clone()));
                match self.meant_height(placement) {
                    Some(height) => format!(
                        "put {target} back on its mark, square and plumb, its middle {} above the floor{}",
                        self.length(height),
                        self.by_which_point(placement)
                    ),
                    None => format!("put {target} back on its mark, square"),
                }
            }
            Step::KeepEmpty { bay } => format!("keep {} empty while this is aimed", the(bay)),
            Step::KeepShut { door } => self.keep_shut(door),
            Step::OpenDoor { door } => format!("open {}", the(door)),
            Step::Tape { thing } if self.is_taped(thing) && self.is_fixed(thing) => {
                format!("tape {} closer than it is known now", the(thing))
            }
            Step::Tape { thing } if self.is_taped(thing) => {
                format!("move {} a little further away, or tape it closer than it is known now", the(thing))
            }
            Step::Tape { thing } => format!("tape the distance to {} and enter it", the(thing)),
            Step::TapeCar => {
                "tape three distances from the walls to the car's wheels and say that it was taped".to_owned()
            }
            Step::SurveyFloor => "survey the floor and enter the levels".to_owned(),
            Step::EnterFigures => "enter the vehicle maker's own figures".to_owned(),
            Step::EnterAlignment => "enter the figures of the alignment sheet".to_owned(),
            Step::SayHeightsFrom => {
                "ask the procedure, and enter from which of the two its heights count".to_owned()
            }
            Step::MeasureOnCar(OnCar::Arch(_)) => {
                "tape from each wheel's middle up to its arch, and enter it".to_owned()
            }
            Step::MeasureOnCar(OnCar::Sensor) => {
                "measure the sensor's height on this car, and enter it".to_owned()
            }
            Step::EnterZones => "enter the zones that the procedure names, or that it names none".to_owned(),
            Step::ReviewProfile => "look at the profile again and save the layout with it".to_owned(),
        }
    }

    fn moves(&self, thing: &Id) -> &'static str {
        match self.kind(thing) {
            Some(ThingKind::LiftArm) => "swing",
            Some(ThingKind::ParkedCar) => "drive",
            _ => "move",
        }
    }

    fn leaves(&self, thing: &Id) -> String {
        match self.kind(thing) {
            _ if self.is_someone(thing) => format!("ask {} to step out", the(thing)),
            Some(ThingKind::ParkedCar) => format!("drive {} out of the bay", the(thing)),
            _ => format!("take {} out of the bay", the(thing)),
        }
    }

    /// ", 60 mm above the sensor's lower edge": by which edge or line of the sensor a target is set, where it is by one.
    fn by_which_point(&self, placement: &Id) -> String {
        let own = self.arrangement.aiming.placements.iter().find(|own| own.id == *placement);
        let Some(TargetHeight::FromSensor { point, offset_mm }) = own.map(|own| own.height) else {
            return String::new();
        };
        let of = match point {
            SensorPoint::Centre => return String::new(),
            SensorPoint::LowerEdge => "the sensor's lower edge",
            SensorPoint::UpperEdge => "the sensor's upper edge",
            SensorPoint::Line => "the line on the sensor",
        };
        let by = self.length(offset_mm.abs());
        if by == self.length(0.0) {
            return format!(", level with {of}");
        }
        format!(", {by} {} {of}", if offset_mm < 0.0 { "below" } else { "above" })
    }

    /// What a cure would cause: "Then the column is inside the keep-clear zone."
    fn instead(&self, cure: &Cure) -> Option<String> {
        let told: Vec<&Finding> = cure.causes.iter().collect();
        let first = told.iter().min_by_key(|caused| caused.severity)?;
        let what = self.within_sentence(first);
        let more = told.iter().filter(|caused| caused.severity == first.severity).count() - 1;
        let more = match more {
            0 => String::new(),
            1 => ", and one point more".to_owned(),
            n => format!(", and {n} points more"),
        };
        let but =
            if first.severity == Severity::Stops { "But then this stops it" } else { "Then this needs care" };
        Some(format!("{but}: {what}{more}."))
    }

    /// Several things to do, in one line: "move the trolley and the tool cabinet".
    pub fn steps(&self, steps: &[Step]) -> String {
        let mut verbs: Vec<(&str, Vec<String>)> = Vec::new();
        for step in steps {
            let (verb, what) = match step {
                Step::MoveThing { thing, .. } => (self.moves(thing), the(thing)),
                Step::TakeAway { thing }
                    if !matches!(self.kind(thing), Some(ThingKind::Person | ThingKind::ParkedCar)) =>
                {
                    ("take out", the(thing))
                }
                Step::OpenDoor { door } => ("open", the(door)),
                other => ("", self.step(other)),
            };
            match verbs.iter_mut().find(|(known, _)| *known == verb) {
                Some((_, whats)) if !whats.contains(&what) => whats.push(what),
                Some(_) => {}
                None => verbs.push((verb, vec![what])),
            }
        }
        let parts: Vec<String> = verbs
            .into_iter()
            .map(|(verb, whats)| format!("{verb} {}", listed(&whats)).trim().to_owned())
            .collect();
        listed(&parts)
    }
}
