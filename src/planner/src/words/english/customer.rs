//! English of the same: see `words/customer.rs`.

use super::echoes::as_much;
use super::{About, Language, sentence_start};
use crate::assessment::{Assessment, Facts, Finding, InSight, Severity, Subject, TooLarge, Verdict};
use crate::customer::{
    After, Asked, AskedZone, Idea, MOST_NAMED, Moves, SendsBack, Sense, Stands, Work, WorkPart,
};
use crate::model::{Exclusion, Provenance, WorkStep};
use crate::words::customer::CustomerTexts;
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: CustomerTexts = CustomerTexts {
    language: Language::English,
    show: "For the customer",
    show_why: "A few large pages that say what this job takes (F5)",
    page: "Page for the customer",
    back: "Back",
    next: "Next",
    leave: "Leave",
    keys: "Arrow keys turn the page, Esc leaves it.",
    face: "What customers see",
    face_about: "Shown on the page for the customer. What is left empty is not said. A step's time is this shop's own.",
    name: "Shop's name",
    picture: "Picture, a file",
    picture_hint: "its name beside the shop's own file, or where it lies",
    minutes_hint: "minutes",
    own_picture: "The shop's picture",
    made_up: "Some figures here are made up, to show how it works.",
    sent_back: "Two discs show how much the target and a thing here send back.",
    sent_back_over: "how much comes back",
    our_part: "We get the space right. The maker's steps decide the rest.",
    older: "This is how it was before the last change.",
};

pub fn screen_of(at: usize, all: usize) -> String {
    format!("{at} of {all}")
}

pub const fn minutes_of(step: WorkStep) -> &'static str {
    match step {
        WorkStep::Clear => "Clear the floor, minutes",
        WorkStep::Park => "Park the car, minutes",
        WorkStep::Lay => "Lay the marks, minutes",
        WorkStep::Stand => "Set up the target, minutes",
        WorkStep::Aim => "Run the aiming, minutes",
        WorkStep::PutBack => "Put things back, minutes",
    }
}

pub const fn why_step(step: WorkStep) -> &'static str {
    match step {
        WorkStep::Clear => "So the sensor sees only its target.",
        WorkStep::Park => "All is measured from the car.",
        WorkStep::Lay => "They show where the target has to stand.",
        WorkStep::Stand => "The sensor is set by what it sees there.",
        WorkStep::Aim => "The maker says how.",
        WorkStep::PutBack => "Then the next job has its room.",
    }
}

pub fn no_minutes(text: &str) -> String {
    format!("“{}” is no number of minutes.", cut(text))
}

pub const fn why_picture(sense: Sense) -> &'static str {
    match sense {
        Sense::Radar => "Waves go out from the radar and come back from the target and from a steel trolley.",
        Sense::LaserLight => {
            "Light goes out from the sensor and comes back from a trolley before the target."
        }
        Sense::Picture => "A trolley stands before the camera and hides part of the board.",
    }
}

pub const fn why_names(sense: Sense) -> (&'static str, (&'static str, &'static str)) {
    match sense {
        Sense::Radar => ("radar", ("target", "steel trolley")),
        Sense::LaserLight => ("sensor", ("target", "trolley")),
        Sense::Picture => ("camera", ("board", "trolley")),
    }
}

fn are(count: usize, one: &str, more: &str) -> String {
    if count == 1 { one.to_owned() } else { format!("{count} {more}") }
}

impl About<'_> {
    /// The idea, in one sentence.
    pub fn idea(&self, idea: &Idea) -> String {
        match idea {
            Idea::OnlyTarget if self.arrangement.aiming.placements.len() > 1 => {
                "The sensor must see only these targets."
            }
            Idea::OnlyTarget => "The sensor must see only this target.",
            Idea::Why(Sense::Radar) => {
                "Steel sends radar waves back, so a trolley can look like one more target."
            }
            Idea::Why(Sense::LaserLight) => "A trolley in the way sends the light back too soon.",
            Idea::Why(Sense::Picture) => {
                "A trolley before the board hides part of it, like a hand before your eye."
            }
            Idea::SendsBack(_) => "The sensor looks for one small target, and this sends waves back too.",
            Idea::EmptyFloor(asked) if asked.zones.is_empty() => "For this job no floor has to be empty.",
            Idea::EmptyFloor(_) => match self.arrangement.aiming.provenance {
                Provenance::Maker { .. } => "This much empty floor is what the maker asks.",
                _ => "This much empty floor is what the job asks.",
            },
            Idea::StandsIn(Stands { findings, .. }) if findings.is_empty() => {
                "Nothing stands in the way today."
            }
            Idea::StandsIn(Stands { in_zone: true, .. }) => "This stands in it today.",
            Idea::StandsIn(_) => "This is in the way today.",
            Idea::Moves(Moves::Nothing) => "Nothing has to be moved.",
            Idea::Moves(Moves::NotKnown) => "We have not found a way to clear it yet.",
            Idea::Moves(Moves::Known(_)) => "This is what we move, and how it looks then.",
            Idea::Work(_) => "This is no computer job: it takes hands, floor, tape and time.",
        }
        .to_owned()
    }

    /// What else is told with it, a sentence each.
    pub fn idea_lines(&self, idea: &Idea, assessment: &Assessment) -> Vec<String> {
        match idea {
            Idea::OnlyTarget => vec![
                match crate::customer::sense(&self.arrangement.sensor.kind) {
                    Sense::Radar => "It sends out radar waves and waits for what comes back.",
                    Sense::LaserLight => "It sends out light and waits for what comes back.",
                    Sense::Picture => "It is a camera, and this is what it has to look at.",
                }
                .to_owned(),
            ],
            Idea::Why(_) => Vec::new(),
            Idea::SendsBack(own) => self.sends_back(own),
            Idea::EmptyFloor(asked) => self.asked_for(asked),
            Idea::StandsIn(stands) => self.in_the_way(stands, assessment),
            Idea::Moves(Moves::Known(after)) => self.moved(after),
            Idea::Moves(Moves::Nothing | Moves::NotKnown) => Vec::new(),
            Idea::Work(work) => self.work(work),
        }
    }

    fn sends_back(&self, own: &SendsBack) -> Vec<String> {
        let thing = sentence_start(&self.subject(&Subject::Thing(own.thing.clone())));
        vec![
            format!("{thing} here sends back {}.", as_much(own.level_db)),
            "That can make the sensor miss its mark.".to_owned(),
            "This holds for smooth, plain shapes. Real ones send back more or less.".to_owned(),
        ]
    }

    fn asked_for(&self, asked: &Asked) -> Vec<String> {
        let zone = |zone: &AskedZone| {
            let nothing = match zone.excludes {
                Exclusion::Anything => "Nothing",
                Exclusion::Metal => "No metal",
                Exclusion::Reflecting(_) => "Nothing that sends waves back",
                Exclusion::People => "No one",
                Exclusion::Light => "No lamp and no light",
            };
            let (length, width) = (self.length(zone.length_mm), self.length(zone.width_mm));
            format!("{nothing} may be in a space {length} long and {width} wide.")
        };
        let mut lines: Vec<String> = asked.zones.iter().take(MOST_NAMED).map(zone).collect();
        lines.extend(and_more(asked.zones.len()));
        if asked.is_assumed {
            lines.push("We took part of this size from jobs like this one, not from the sheet.".to_owned());
        }
        lines
    }

    fn in_the_way(&self, stands: &Stands, assessment: &Assessment) -> Vec<String> {
        let told = stands.findings.iter().filter_map(|&at| assessment.findings.get(at));
        let mut lines: Vec<String> = told.take(MOST_NAMED).map(|finding| self.plainly(finding)).collect();
        lines.extend(and_more(stands.findings.len()));
        lines.extend(care("", stands.care));
        lines
    }

    /// What stops the aiming, as a layman says it.
    fn plainly(&self, finding: &Finding) -> String {
        let first = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
        let second = finding.subjects.get(1).map_or_else(String::new, |own| self.subject(own));
        let said = match (&finding.facts, finding.subjects.first()) {
            (Facts::ZoneObject(_), Some(Subject::Thing(_))) => {
                format!("{first} stands where the floor must be empty")
            }
            (Facts::SightBlocked(InSight::Hides { .. } | InSight::Wall), _) => {
                format!("{first} hides part of {second}")
            }
            (Facts::OutsideRoom { too_large: Some(TooLarge::Long { needs_mm, there_mm }), .. }, _) => {
                format!("the room is {} too short", self.length(needs_mm - there_mm))
            }
            (Facts::OutsideRoom { too_large: Some(TooLarge::Wide { needs_mm, there_mm }), .. }, _) => {
                format!("the room is {} too narrow", self.length(needs_mm - there_mm))
            }
            (Facts::CarClash(_) | Facts::StandClash(_), Some(Subject::Thing(_))) => {
                format!("{first} stands where {second} has to be")
            }
            _ => self.within_sentence(finding),
        };
        format!("{}.", sentence_start(&said))
    }

    fn moved(&self, after: &After) -> Vec<String> {
        let step = |step| format!("{}.", sentence_start(&self.step(step)));
        let mut lines: Vec<String> = after.steps.iter().take(MOST_NAMED).map(step).collect();
        lines.extend(and_more(after.steps.len()));
        match after.assessment.verdict {
            Verdict::Ready => lines.push("Then the space is ready.".to_owned()),
            Verdict::ReadyWithCare => {
                lines.push("Then nothing stops the job.".to_owned());
                lines.extend(care("still ", after.assessment.count(Severity::Care)));
            }
            Verdict::NotReady => lines.push("Then more has to be done.".to_owned()),
        }
        lines
    }

    fn work(&self, work: &Work) -> Vec<String> {
        let minutes = |minutes: f64| {
            let places = usize::from(minutes != minutes.round());
            let number = self.locale.region.number(minutes, places);
            if minutes == 1.0 { format!("{number} minute") } else { format!("{number} minutes") }
        };
        let part = |part: &WorkPart| {
            let said = match part.step {
                WorkStep::Clear => {
                    format!("We clear the floor by hand, in {}", are(part.count, "one step", "steps"))
                }
                WorkStep::Park => "We park the car in its place".to_owned(),
                WorkStep::Lay => {
                    format!("With tape and line we lay {} on the floor", are(part.count, "one mark", "marks"))
                }
                WorkStep::Stand => format!("We set up {}", are(part.count, "the target", "targets")),
                WorkStep::Aim => "Then the aiming is run, step by step".to_owned(),
                WorkStep::PutBack => "At the end we put it all back".to_owned(),
            };
            part.minutes.map_or_else(|| format!("{said}."), |own| format!("{said}: {}.", minutes(own)))
        };
        let mut lines: Vec<String> = work.steps.iter().map(part).collect();
        lines.extend(work.minutes.map(|own| format!("In this shop that takes {}.", minutes(own))));
        lines
    }
}

/// What is not named any more.
fn and_more(count: usize) -> Option<String> {
    match count.saturating_sub(MOST_NAMED) {
        0 => None,
        1 => Some("And one thing more.".to_owned()),
        more => Some(format!("And {more} things more.")),
    }
}

/// How many things need care.
fn care(still: &str, count: usize) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("One thing {still}needs care.")),
        count => Some(format!("{count} things {still}need care.")),
    }
}
