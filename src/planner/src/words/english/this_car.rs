//! English of the same: see `words/this_car.rs`.

use super::marks::wheel_name;
use super::{About, Language, listed, sentence_start};
use crate::as_measured::{body_at_target, feet, hangs, still_within_mm};
use crate::assessment::{Assessment, Facts, Finding, LinesApart, Off, RideFact, Severity};
use crate::model::sheet::{Inward, SheetLacks, SheetPart, SheetUnit, Side};
use crate::model::{ReferenceAxis, Wheel};
use crate::scene::Scene;
use crate::words::this_car::ThisCarTexts;

/// The fixed texts.
pub const TEXTS: ThisCarTexts = ThisCarTexts {
    language: Language::English,
    sheet: "Alignment sheet",
    sheet_why: "Type each figure as the sheet has it, without a sign, and say which way it goes.",
    date: "Day of the sheet",
    date_hint: "Such as 2026-11-02. Empty: not known",
    no_day: "Type the day as 2026-11-02.",
    by: "Measured by",
    by_hint: "Who or which shop measured. Empty: not known",
    toe_in: "Toe is in",
    angles_in: "Angles are in",
    set_back_in: "Set-back is in",
    rim: "At a diameter of",
    rim_hint: "The rim's or plate's diameter that the sheet gives toe at: 406.4 mm, or 16 in",
    no_rim: "Type a diameter, such as 406.4 mm or 16 in.",
    toe_hint: "Of one wheel, as the sheet has it, without a sign. Empty: not known",
    camber_hint: "Of one wheel, as the sheet has it, without a sign. Empty: not known",
    thrust: "Thrust angle, printed",
    thrust_hint: "If the sheet prints one: compared with what the rear toes give. Empty: not printed",
    not_said: "not said",
    say_way: "Not used until you say which way.",
    no_sign: "Without a sign: choose which way under it.",
    no_minutes: "Type degrees and minutes: 0 15, or 15'.",
    more_of_sheet: "Rest of the sheet",
    no_rim_yet: "Not used until the diameter is typed.",
    wheels_at: "Brought to the floor from",
    at_tyre: "the tyre's middle",
    at_hub: "the hub, plumbed",
    arches: "Ride heights",
    arches_hint: "From the wheel's middle up to the edge of the arch. Empty: not taped",
    no_nominal: "The car's profile has no ride heights to hold them against: left is held against right.",
    body: "Body points as plumbed",
    body_hint: "Where the point comes to the floor: how far ahead of the front axle, and left of the centreline; negative: behind, right",
    stood: "Has the car moved?",
    stood_why: "Tape two distances from the floor to the car when the marks are laid, and again at the end.",
    floor_point: "From, on the floor",
    floor_point_hint: "A floor mark, or a cross on tape beside the car",
    car_point: "To, on the car",
    car_point_hint: "A point that is found again, such as the left front rim's edge",
    at_start: "At the start",
    at_end: "At the end",
    remove_stood: "Remove",
    enter_measured: "Type what the tape reads on the left, under Measured on this car.",
    tick_sensor: "Measure the sensor, tick that it was measured on the left, under Measured on this car, and type its height.",
    allowed_off: "May be off by",
    allowed_off_hint: "As the maker says, either way. Empty: not said",
};

pub fn part(part: SheetPart) -> String {
    match part {
        SheetPart::Toe(wheel) => sentence_start(&format!("{} toe", wheel_name(wheel))),
        SheetPart::Camber(wheel) => sentence_start(&format!("{} camber", wheel_name(wheel))),
        SheetPart::SetBack => "Set-back".to_owned(),
        SheetPart::Thrust => TEXTS.thrust.to_owned(),
    }
}

pub fn way_of(part: SheetPart) -> String {
    match part {
        SheetPart::Toe(wheel) => sentence_start(&format!("{} wheel is", wheel_name(wheel))),
        SheetPart::Camber(wheel) => sentence_start(&format!("{} wheel's", wheel_name(wheel))),
        SheetPart::SetBack => "Which stands back".to_owned(),
        SheetPart::Thrust => "Thrust line".to_owned(),
    }
}

pub fn usual_floor(number: usize) -> String {
    format!("cross {number}")
}

pub fn usual_car(number: usize) -> String {
    match number {
        1 => "left front rim".to_owned(),
        2 => "right rear rim".to_owned(),
        _ => format!("point {number} of the car"),
    }
}

pub const fn unit(unit: SheetUnit) -> &'static str {
    match unit {
        SheetUnit::Degrees => "degrees, 0.25°",
        SheetUnit::DegreesMinutes => "degrees and minutes, 0° 15′",
        SheetUnit::Millimetres => "millimetres",
        SheetUnit::Inches => "inches",
    }
}

pub const fn toe_way(way: Inward) -> &'static str {
    match way {
        Inward::In => "toed in",
        Inward::Out => "toed out",
    }
}

pub const fn camber_way(way: Inward) -> &'static str {
    match way {
        Inward::In => "top leans in",
        Inward::Out => "top leans out",
    }
}

pub const fn back_way(side: Side) -> &'static str {
    match side {
        Side::Left => "left wheel",
        Side::Right => "right wheel",
    }
}

pub const fn thrust_way(side: Side) -> &'static str {
    match side {
        Side::Left => "points to the left",
        Side::Right => "points to the right",
    }
}

pub fn no_figure(text: &str) -> String {
    format!("“{}” is no figure of that unit.", crate::words::screen::cut(text))
}

pub fn arch_of(wheel: Wheel) -> String {
    sentence_start(&format!("{} arch", wheel_name(wheel)))
}

pub fn body_point(name: &str, is_ahead: bool) -> String {
    if is_ahead { format!("{name}, ahead") } else { format!("{name}, left") }
}

pub fn nth(number: usize, field: &str) -> String {
    format!("{number}. {field}")
}

const fn axis(axis: ReferenceAxis) -> &'static str {
    match axis {
        ReferenceAxis::GeometricCentreline => "the centreline by the wheels",
        ReferenceAxis::ThrustLine => "the thrust line",
    }
}

const fn side_of(positive_left: f64) -> &'static str {
    if positive_left >= 0.0 { "left" } else { "right" }
}

const fn up_or_down(nose_down: f64) -> &'static str {
    if nose_down >= 0.0 { "down" } else { "up" }
}

/// What comes first where the car itself stops the aiming: no move of anything helps.
pub fn first(assessment: &Assessment) -> Option<&'static str> {
    let stops = || assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
    if stops().any(|own| matches!(own.facts, Facts::CarMoved { .. })) {
        Some("The marks are this car's no longer: park and settle it, and lay them anew.")
    } else if stops().any(|own| matches!(own.facts, Facts::AlignmentOff(_) | Facts::RideHeight(_))) {
        Some("No move helps: have the car put right first.")
    } else {
        None
    }
}

impl About<'_> {
    /// See [`crate::words::Words::thrust_line`].
    pub fn thrust_line(&self) -> Option<String> {
        let car = &self.arrangement.on_this_car;
        let thrust = car.thrust_rad()?;
        let by =
            if car.worked_thrust_rad().is_some() { "by the rear toes" } else { "as the sheet prints it" };
        Some(format!("Thrust line: {} to the {}, {by}.", self.degrees(thrust.abs()), side_of(thrust)))
    }

    /// See [`crate::words::Words::stands_on`].
    pub fn stands_on(&self) -> Vec<String> {
        let Some(feet) = feet(self.arrangement) else { return Vec::new() };
        let back = feet.front_set_back_rad;
        let wheel = if back >= 0.0 { "left" } else { "right" };
        let mut lines = vec![
            format!(
                "Track {} in front, {} at the rear.",
                self.length(feet.front_track_mm),
                self.length(feet.rear_track_mm)
            ),
            format!(
                "Wheelbase {} left, {} right.",
                self.length(feet.left_wheelbase_mm),
                self.length(feet.right_wheelbase_mm)
            ),
            format!(
                "Set-back {} ({}), {wheel} front wheel back.",
                self.length((feet.front_track_mm * libm::sin(back)).abs()),
                self.degrees(back.abs())
            ),
        ];
        let turned = feet.centreline_rad;
        lines.push(format!(
            "Centreline turned {} to the {} of where the profile has it.",
            self.degrees(turned.abs()),
            side_of(turned)
        ));
        lines
    }

    /// See [`crate::words::Words::hubs_off`].
    pub fn hubs_off(&self) -> Option<String> {
        let told: Vec<String> = Wheel::ALL
            .into_iter()
            .filter(|wheel| self.arrangement.on_this_car.sheet.camber_rad(*wheel).is_some())
            .map(|wheel| {
                let aside = self.arrangement.plumbed_from_middle(wheel).y;
                let outboard = if wheel.is_left() { aside } else { -aside };
                let way = if outboard >= 0.0 { "outboard" } else { "inboard" };
                format!("{} {} {way}", wheel_name(wheel), self.length(outboard.abs()))
            })
            .collect();
        (!told.is_empty()).then(|| {
            format!(
                "By its camber a plumbed hub lies beside the tyre's middle: {}.{}",
                listed(&told),
                if self.arrangement.aiming.plumbs_hubs() {
                    " The tape check allows for it."
                } else {
                    " This plan plumbs no hub."
                }
            )
        })
    }

    /// See [`crate::words::Words::body_hangs`].
    pub fn body_hangs(&self) -> Vec<String> {
        let Some(hangs) = hangs(self.arrangement) else { return Vec::new() };
        let (pitch, roll, higher) = (hangs.pitch_rad.value, hangs.roll_rad.value, hangs.higher_mm.value);
        vec![
            format!(
                "Against the profile: {} {}, {} nose {}.",
                self.length(higher.abs()),
                if higher >= 0.0 { "higher" } else { "lower" },
                self.degrees(pitch.abs()),
                if pitch >= 0.0 { "down" } else { "up" }
            ),
            format!("Leans {} to the {}.", self.degrees(roll.abs()), side_of(-roll)),
        ]
    }

    /// See [`crate::words::Words::lines_apart`].
    pub fn lines_apart(&self, scene: &Scene) -> Option<String> {
        let (apart, _) = body_at_target(self.arrangement, scene)?;
        let (turned, aside) = (apart.turned_rad.value, apart.aside_mm.value);
        Some(format!(
            "The centreline by the body runs {} to the {} of {}, and {} ± {} to its {} at the target.",
            self.degrees(turned.abs()),
            side_of(turned),
            axis(self.arrangement.aiming.axis),
            self.bare(aside.abs()),
            self.length(1.96 * apart.aside_mm.u),
            side_of(aside)
        ))
    }

    /// See [`crate::words::Words::stood_still`].
    pub fn stood_still(&self) -> Option<String> {
        let all = &self.arrangement.on_this_car.stood;
        let open = all.iter().filter(|own| own.end_mm.is_none()).count();
        let off = all.iter().filter_map(|own| Some((own.end_mm? - own.start_mm).abs())).fold(0.0, f64::max);
        match (all.len(), open) {
            (0, _) => None,
            _ if off > still_within_mm(self.arrangement) => {
                Some(format!("The car moved by {} since the marks were laid.", self.length(off)))
            }
            (_, 1) => Some("One distance to the car is still to be taped again, at the end.".to_owned()),
            (_, 2..) => Some(format!("{open} distances to the car are still to be taped again, at the end.")),
            _ => Some("The car stood still: what was taped to it reads as it did at the start.".to_owned()),
        }
    }

    pub(super) fn this_car_title(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::SheetOpen(open) if open.len() == 1 => {
                "one figure of the alignment sheet is not used".to_owned()
            }
            Facts::SheetOpen(open) => format!("{} figures of the alignment sheet are not used", open.len()),
            Facts::SheetDiffers { .. } => "the sheet's thrust angle and rear toes disagree".to_owned(),
            Facts::RideHeight(RideFact::NotTaped(_)) => "ride heights are not taped".to_owned(),
            Facts::RideHeight(RideFact::Arch(wheel, off)) => format!(
                "the {} wheel arch is too {}",
                wheel_name(*wheel),
                if *off < 0.0 { "low" } else { "high" }
            ),
            Facts::RideHeight(RideFact::NoseDown(by)) => {
                format!("the body hangs nose {}", up_or_down(by.value))
            }
            Facts::RideHeight(RideFact::LeftUp(by)) => {
                format!("the body leans to the {}", side_of(-by.value))
            }
            Facts::RideHeight(RideFact::SidesApart { is_front, apart, .. }) => format!(
                "the {} of the body hangs to the {}",
                if *is_front { "front" } else { "rear" },
                side_of(-apart.value)
            ),
            Facts::RideHeight(RideFact::WithFloor { is_pitch: true, in_all, .. }) => {
                format!("body and floor together are nose {}", up_or_down(in_all.value))
            }
            Facts::RideHeight(RideFact::WithFloor { in_all, .. }) => {
                format!("body and floor together lean to the {}", side_of(-in_all.value))
            }
            Facts::RideHeight(RideFact::SensorMoved(by)) => format!(
                "the sensor hangs {} than the profile has it",
                if by.value < 0.0 { "lower" } else { "higher" }
            ),
            Facts::CarUnlikely(own) => super::car_unlikely::title(own),
            Facts::CentrelinesApart(apart) => {
                format!("the body's centreline is not {}", axis(apart.axis))
            }
            Facts::CarMoved { .. } => "the car moved since the marks were laid".to_owned(),
            _ => String::new(),
        }
    }

    pub(super) fn this_car_measure(&self, finding: &Finding, value: &str, limit: &str) -> String {
        match &finding.facts {
            Facts::SheetDiffers { .. } => format!("{value} apart, limit {limit}"),
            Facts::CarMoved { .. } => format!("by {value}, the tape explains {limit}"),
            Facts::RideHeight(RideFact::SidesApart { apart, .. }) => {
                format!("{value} apart{}, limit {limit}", self.or_so(*apart, true))
            }
            Facts::RideHeight(RideFact::SensorMoved(by)) => {
                format!("{value} off{}, limit {limit}", self.or_so(*by, true))
            }
            Facts::RideHeight(
                RideFact::NoseDown(by) | RideFact::LeftUp(by) | RideFact::WithFloor { in_all: by, .. },
            ) => format!("{value}{} off, limit {limit}", self.or_so(*by, false)),
            Facts::RideHeight(RideFact::NotTaped(_) | RideFact::Arch(..)) => {
                format!("{value} off, limit {limit}")
            }
            Facts::CarUnlikely(own) => super::car_unlikely::measure(own, value, limit),
            _ => format!("{value}, limit {limit}"),
        }
    }

    /// What a figure may be off by, behind it; nothing where that is nothing.
    fn or_so(&self, own: Off, is_length: bool) -> String {
        if own.u95 <= 0.0 {
            return String::new();
        }
        let within = if is_length { self.length(own.u95) } else { self.degrees(own.u95) };
        format!(" ± {within}")
    }

    /// What a body that leans does to the sensor that is aimed.
    fn rolls_with_it(&self) -> &'static str {
        if self.arrangement.sensor.kind.is_camera() {
            "a camera's picture leans as much: what it measures aside is part of what is up and down."
        } else {
            "a radar or lidar leans as much: what is turned up or down then turns it aside, too."
        }
    }

    fn tilt_of(&self, is_pitch: bool, rad: f64) -> String {
        let by = self.degrees(rad.abs());
        if is_pitch {
            format!("{by} nose {}", up_or_down(rad))
        } else {
            format!("{by} to the {}", side_of(-rad))
        }
    }

    pub(super) fn this_car_detail(&self, finding: &Finding) -> String {
        let told = |rad: f64| format!("{} to the {}", self.degrees(rad.abs()), side_of(rad));
        match &finding.facts {
            Facts::SheetOpen(open) => match open.first() {
                Some((own, SheetLacks::Way)) => {
                    format!("{}: say which way it goes, beside the figure.", part(*own))
                }
                Some((_, SheetLacks::Rim)) => {
                    "Toe is typed as a length: type the diameter that the sheet gives it at.".to_owned()
                }
                None => String::new(),
            },
            Facts::SheetDiffers { printed_rad, worked_rad } => format!(
                "It prints {}, its rear toes give {}. Check unit and way of each; the toes count.",
                told(*printed_rad),
                told(*worked_rad)
            ),
            Facts::RideHeight(RideFact::NotTaped(wheel)) => {
                let limit = finding.limit.map_or_else(String::new, |own| self.quantity(own));
                format!(
                    "Its maker allows {limit} either way. Tape from each wheel's middle up to its arch, the {} one too, and type it \
                     under Measured on this car.",
                    wheel_name(*wheel)
                )
            }
            Facts::RideHeight(RideFact::Arch(..)) => {
                "Look at load, tyres and springs first, roll the car a length, then tape again.".to_owned()
            }
            Facts::RideHeight(RideFact::NoseDown(_) | RideFact::LeftUp(_)) => {
                "Its sensors lean with it. Look at load, tyres and springs first, then tape again.".to_owned()
            }
            Facts::RideHeight(RideFact::SidesApart { leans_rad, .. }) => format!(
                "That leans it by {}, and {} Look at load, tyres and springs first, roll the car a length, then tape again.",
                self.degrees(leans_rad.abs()),
                self.rolls_with_it()
            ),
            Facts::RideHeight(RideFact::WithFloor { is_pitch, in_all, floor_rad }) => format!(
                "Of it {} is the floor's and {} the body's by its arches: each is within the limit, both together are not. Its \
                 sensors lean with both against a target that is plumb. Look at load, tyres and springs, or level the car.",
                self.tilt_of(*is_pitch, *floor_rad),
                self.tilt_of(*is_pitch, in_all.value - floor_rad)
            ),
            Facts::RideHeight(RideFact::SensorMoved(_)) => {
                "So the arches say; the target's height counts from the sensor. Measure its height on this car, and type it under \
                 Measured on this car."
                    .to_owned()
            }
            Facts::CarUnlikely(own) => super::car_unlikely::detail(own).to_owned(),
            Facts::CentrelinesApart(LinesApart { turned_rad, aside_mm, aside_u95_mm, axis: own }) => format!(
                "By the points as plumbed it runs {} of it, and {} ± {} to its {} at the target. The aiming counts from {}; ask what \
                 the procedure takes, and look for a badge or a body that sits askew.",
                told(*turned_rad),
                self.bare(aside_mm.abs()),
                self.length(*aside_u95_mm),
                side_of(*aside_mm),
                axis(*own)
            ),
            Facts::CarMoved { from, to, by_mm } => format!(
                "From {from} to {to} the tape reads {} {} than at the start. Park and settle it, and lay the marks anew.",
                self.length(by_mm.abs()),
                if *by_mm > 0.0 { "more" } else { "less" }
            ),
            _ => String::new(),
        }
    }
}
