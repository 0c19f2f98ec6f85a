//! English of the same: see `words/failed.rs`.

use super::marks::wheel_name;
use super::{About, Language, sentence_start};
use crate::failed::{
    Cause, Explained, Explains, Looked, Origin, Suspect, ToCheck, Unexplained, Whose, may_fail_at,
};
use crate::words::failed::FailedTexts;

/// 95 of 100, either way.
const K: f64 = 1.96;

/// The fixed texts.
pub const TEXTS: FailedTexts = FailedTexts {
    language: Language::English,
    title: "The routine failed",
    ask: "The routine failed \u{2026}",
    ask_why: "What here could explain it, and what to check first",
    intro: "Type what the maker's routine told. What is known of marks, floor, car and stand is held against it.",
    whose: "It tells",
    of_sensor: "where the sensor looks",
    of_target: "where the target is seen",
    sideways: "Left and right",
    upright: "Up and down",
    not_said: "not said",
    fine: "fine",
    left: "left",
    right: "right",
    up: "up",
    down: "down",
    by_sideways: "By how much, sideways",
    by_upright: "By how much, up or down",
    by_why: "In degrees (0.6) or minutes of arc (36'). Empty: it does not say.",
    limit: "The routine's own limit",
    limit_why: "In degrees, either way. Empty: what this aiming allows.",
    failed_at: "It failed at",
    weighing: "Weighing \u{2026}",
    of_before: "Weighing \u{2026} What follows is older: of what was known before.",
    could_be: "What could explain it, the likeliest first",
    as_it_was: "as it was",
    by_check: "By how much",
    by_check_why: "As a length, or a turn in degrees.",
    forget: "Take back",
    to_tape: "Type what the tape reads",
    separates_nothing: "No check known here tells the first two apart.",
    not_weighed: "Not weighed: what echoes in the room, faults of the car, the scan tool. Of the sensor itself nothing is said: \
                  the maker's routine decides.",
};

pub const fn unexplained(why: Unexplained) -> &'static str {
    match why {
        Unexplained::WhoseWay => {
            "Say first whose way it is: a sensor that looks to the left sees the target to the right."
        }
        Unexplained::BothFine => {
            "It says that both are fine: nothing that is weighed here makes a routine fail then. Look at the car and the scan tool."
        }
        Unexplained::NoTarget => "No target of this aiming aims a sensor.",
        Unexplained::Nothing => "Nothing that is weighed here explains it.",
    }
}

pub const fn whose_of(whose: Whose) -> &'static str {
    match whose {
        Whose::Sensor => TEXTS.of_sensor,
        Whose::Target => TEXTS.of_target,
    }
}

pub const fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::Mark => "a mark",
        Cause::Floor => "the floor",
        Cause::ThrustLine => "the thrust line",
        Cause::CarMoved => "a car that moved",
        Cause::Stand => "the stand",
        Cause::Bracket => "the sensor's bracket",
    }
}

pub fn headline(found: &Explained) -> String {
    let named = |nth: usize| found.causes.get(nth).map_or("", |own| cause(own.suspect.cause()));
    match (found.is_clear, found.causes.len()) {
        (true, _) | (false, 1) => format!("Likeliest by far: {}.", named(0)),
        (false, _) => format!("Cannot tell yet: {} or {}.", named(0), named(1)),
    }
}

pub const fn mend(own: &Explains) -> &'static str {
    match own.suspect {
        Suspect::Laid(Origin::WheelAside(_) | Origin::WheelAlong(_)) => {
            "Find that wheel's point again with plumb line and square: all else is laid from it."
        }
        Suspect::Laid(Origin::Camber(_)) => "Take the camber from the alignment sheet.",
        Suspect::Laid(_) => "Lay it anew from what it is built on, and tape it again.",
        Suspect::FrontLevel | Suspect::RearLevel | Suspect::StandLevel => {
            "Take the levels under both axles and the stand again, and set the height by them."
        }
        Suspect::Thrust => "Have the rear toe measured again: alignment comes first.",
        Suspect::CarFront | Suspect::CarRear => {
            "Tape its wheels to their marks again. If it moved: park, settle, straighten, lay the marks anew."
        }
        Suspect::StandAside => "Plumb the middle of the face over its mark again.",
        Suspect::StandHeight => "Set its height again, and read it at the face.",
        Suspect::StandTurned => "Set the face square again, by two distances, a bar or a mirror.",
        Suspect::StandTipped | Suspect::StandLeans => "Plumb pole and face in two directions.",
        Suspect::BracketTurned | Suspect::BracketTilted => {
            "Look at bracket and cover as the maker says: bent, loose, the wrong part. No tape shows it."
        }
    }
}

impl About<'_> {
    /// What is out, which way and how far.
    pub fn explains(&self, place: usize, own: &Explains) -> String {
        let Explains { suspect, out, by, is_measured, .. } = own;
        let read = if *is_measured { "" } else { " Not measured: only assumed." };
        let within = K * out.u;
        // Whichever way and however far: nothing says so yet.
        if out.value.abs() < within {
            let said = self.at_target(vaguely(*suspect), *suspect, own.target);
            return format!("{place}. {}.{read}", sentence_start(&said));
        }
        let size = self.size_of(*suspect, out.value.abs());
        let way = |above: &'static str, below: &'static str| if out.value > 0.0 { above } else { below };
        let lies = by.map_or_else(|| size.clone(), |by| self.towards(self.of_car(by)));
        let said = match suspect {
            Suspect::Laid(Origin::Along(_) | Origin::Across(_)) => {
                let mark = self.mark_of(*suspect);
                format!("mark {mark} lies {lies} of where it belongs")
            }
            Suspect::Laid(Origin::WheelAside(wheel) | Origin::WheelAlong(wheel)) => {
                let wheel = wheel_name(*wheel);
                format!("the wheel point, {wheel}, was found {lies} of where it is")
            }
            Suspect::Laid(Origin::Camber(wheel)) => {
                let wheel = wheel_name(*wheel);
                format!("the camber, {wheel}, is {size} other than allowed for")
            }
            Suspect::Laid(Origin::TapeScale | Origin::TapeWarmth) => "the tape itself is off".to_owned(),
            Suspect::FrontLevel => {
                format!("the floor under the front axle is {size} too {}", way("high", "low"))
            }
            Suspect::RearLevel => {
                format!("the floor under the rear axle is {size} too {}", way("high", "low"))
            }
            Suspect::StandLevel => format!("the floor under the stand is {size} too {}", way("high", "low")),
            Suspect::Thrust => {
                format!("the thrust line points {size} further {} than the sheet says", way("left", "right"))
            }
            Suspect::CarFront => format!("the car's front moved {size} to its {}", way("left", "right")),
            Suspect::CarRear => format!("the car's rear moved {size} to its {}", way("left", "right")),
            Suspect::StandAside => {
                format!(
                    "the target stands {size} to the {} of its mark, seen from the sensor",
                    way("left", "right")
                )
            }
            Suspect::StandHeight => format!("the target hangs {size} too {}", way("high", "low")),
            Suspect::StandTurned => {
                let way = way("anticlockwise", "clockwise");
                format!("the target's face is turned {size} {way}, seen from above")
            }
            Suspect::StandTipped => format!("the target's face looks {size} {}", way("down", "up")),
            Suspect::StandLeans => {
                format!("the stand's pole leans {size} to the {}, seen from the sensor", way("left", "right"))
            }
            Suspect::BracketTurned => {
                format!("the sensor sits {size} to the {} in its bracket", way("left", "right"))
            }
            Suspect::BracketTilted => {
                format!("the sensor sits tilted {size} {} in its bracket", way("up", "down"))
            }
        };
        let said = self.at_target(&said, *suspect, own.target);
        format!("{place}. {} (±\u{a0}{}).{read}", sentence_start(&said), self.size_of(*suspect, within))
    }

    /// With the target that it is of, where the aiming has several that a routine may fail at.
    fn at_target(&self, said: &str, of: Suspect, target: usize) -> String {
        let several = may_fail_at(self.arrangement).len() > 1;
        let id = self.arrangement.aiming.placements.get(target).map(|own| &own.id);
        match id.filter(|_| several && of.is_of_target()) {
            Some(id) => format!("target “{id}”: {said}"),
            None => said.to_owned(),
        }
    }

    /// What was looked at, and what was found.
    pub fn looked(&self, own: &Looked) -> String {
        let check = sentence_start(&self.at_target(check_of(own.at), own.at, own.target));
        let (above, below) = ways_of(own.at);
        match own.out {
            0.0 => format!("{check}: {}.", TEXTS.as_it_was),
            out => {
                let way = if out > 0.0 { above } else { below };
                format!("{check}: {} {way}.", self.read_of(own.at, out.abs()))
            }
        }
    }

    /// What to check first.
    pub fn check_first(&self, found: &Explained) -> Option<String> {
        let [first, second, ..] = found.causes.as_slice() else { return None };
        let check = match found.check.as_ref()? {
            ToCheck::Tape { from, to, again: true } => format!("tape {from}\u{2013}{to} again"),
            ToCheck::Tape { from, to, again: false } => format!("tape {from}\u{2013}{to}"),
            ToCheck::Part { at, target } => self.at_target(check_of(*at), *at, *target),
        };
        let [first, second] = [first, second].map(|own| cause(own.suspect.cause()));
        Some(format!("Check first: {check}. It tells {first} from {second}."))
    }
}

const fn vaguely(suspect: Suspect) -> &'static str {
    match suspect {
        Suspect::Laid(_) => "a mark lies beside its place",
        Suspect::FrontLevel => "the floor under the front axle is higher or lower than assumed",
        Suspect::RearLevel => "the floor under the rear axle is higher or lower than assumed",
        Suspect::StandLevel => "the floor under the stand is higher or lower than assumed",
        Suspect::Thrust => "the thrust line is not as the sheet says",
        Suspect::CarFront => "the car's front moved after it was measured",
        Suspect::CarRear => "the car's rear moved after it was measured",
        Suspect::StandAside => "the target stands beside its mark",
        Suspect::StandHeight => "the target hangs at the wrong height",
        Suspect::StandTurned => "the target's face is not square",
        Suspect::StandTipped => "the target's face is tipped",
        Suspect::StandLeans => "the stand's pole leans",
        Suspect::BracketTurned => "the sensor sits turned in its bracket",
        Suspect::BracketTilted => "the sensor sits tilted in its bracket",
    }
}

pub const fn ways_of(at: Suspect) -> (&'static str, &'static str) {
    match at {
        Suspect::FrontLevel | Suspect::RearLevel | Suspect::StandLevel | Suspect::StandHeight => {
            ("too high", "too low")
        }
        Suspect::CarFront | Suspect::CarRear => ("moved to its left", "moved to its right"),
        Suspect::StandTurned => ("anticlockwise", "clockwise"),
        Suspect::StandTipped => ("looks down", "looks up"),
        Suspect::BracketTilted => ("up", "down"),
        Suspect::Laid(_)
        | Suspect::Thrust
        | Suspect::StandAside
        | Suspect::StandLeans
        | Suspect::BracketTurned => ("to the left", "to the right"),
    }
}

const fn check_of(suspect: Suspect) -> &'static str {
    match suspect {
        Suspect::Laid(_) => "lay the mark anew",
        Suspect::FrontLevel => "take the level under the front axle",
        Suspect::RearLevel => "take the level under the rear axle",
        Suspect::StandLevel => "take the level under the stand",
        Suspect::Thrust => "have the rear toe read again",
        Suspect::CarFront => "tape from the front wheels to their marks",
        Suspect::CarRear => "tape from the rear wheels to their marks",
        Suspect::StandAside => "plumb the middle of the face to its mark",
        Suspect::StandHeight => "read the height at the face",
        Suspect::StandTurned => "tape to both ends of the face",
        Suspect::StandTipped => "plumb the face, front to back",
        Suspect::StandLeans => "plumb the pole, left to right",
        Suspect::BracketTurned | Suspect::BracketTilted => "look at the sensor's bracket",
    }
}
