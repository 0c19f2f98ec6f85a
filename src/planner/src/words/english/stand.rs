//! English of the same: see `words/stand.rs`.

use baywright_survey::decide::Said;

use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::check::StandOpen;
use crate::geometry::angle;
use crate::model::{LineOver, SquareBy};
use crate::proof::{
    BAR_MM, Bound, CHORD_AT_MM, NotPossible, StandField, StandFigure, StandOf, StandPart, StandProof,
};
use crate::words::stand::StandTexts;

/// The fixed texts.
pub const TEXTS: StandTexts = StandTexts {
    language: Language::English,
    line_over: "Line's height read from",
    line: "Line over that",
    line_hint: "height of the level line, such as 12 or \u{2212}8 below it",
    offset: "Face over the line",
    offset_hint: "from the line to the middle of the target's face; \u{2212} if that is below it",
    square_by: "Square by",
    left: "To the left end",
    right: "To the right end",
    distance_hint: "from a line that is square to the axis; left and right as seen from the sensor",
    apart: "Ends apart",
    apart_hint: "how far the two ends are apart",
    bar: "Bar's length",
    bar_hint: "between the two ends that are taped to",
    beside: "Laser back, to the left",
    beside_hint: "how far beside where it goes out it comes back; \u{2212} if to the right",
    mirror: "Mirror's distance",
    mirror_hint: "from the laser to the mirror on the face",
    leans_away: "Pole leans away",
    leans_left: "Pole leans left",
    leans_hint: "degrees, such as 0.1; \u{2212} if it leans the other way, as seen from the sensor",
    unread: "Nothing read yet: it is taken to stand as planned.",
    marks_and_stand: "Of the marks, measured from these wheels as they stand, of what was read of the stand, and of the floor's tilt where its levels are known. It says nothing about the sensor.",
};

/// From where the line's height is read.
pub fn line_over_of(over: LineOver) -> String {
    match over {
        LineOver::Sensor => "the sensor",
        LineOver::Floor => "the floor at the stand",
    }
    .to_owned()
}

/// How squareness is read.
pub fn square_by_of(by: SquareBy) -> String {
    match by {
        SquareBy::Distances => "two distances",
        SquareBy::Bar => "a long bar",
        SquareBy::Mirror => "a laser and a mirror",
    }
    .to_owned()
}

/// A field of one of several stands.
pub fn field_of(label: &str, placement: &str) -> String {
    format!("{label}, {placement}")
}

const fn part(own: StandPart) -> &'static str {
    match own {
        StandPart::Height => "height",
        StandPart::Square => "squareness",
        StandPart::Plumb => "pole's lean both ways",
    }
}

impl About<'_> {
    fn of_stand(&self, of: StandOf, value: f64) -> String {
        match of {
            of if of.is_angle() => format!("{}°", self.locale.region.number(angle::degrees(value), 2)),
            _ => self.locale.tenths(value),
        }
    }

    /// Whose stand.
    pub fn stand_title(&self, stand: &StandProof) -> String {
        sentence_start(&self.bare_subject(&Subject::Stand(stand.placement.clone())))
    }

    /// "0.8 mm too low ± 1.2 mm (95 %), allowed ± 5.0 mm".
    pub(super) fn stand_against(&self, figure: &StandFigure) -> String {
        let value = self.of_stand(figure.of, figure.off.abs());
        let is_nothing = value == self.of_stand(figure.of, 0.0);
        let way = match (figure.of, figure.off > 0.0) {
            _ if is_nothing => "",
            (StandOf::Height, true) => " too high",
            (StandOf::Height, false) => " too low",
            (StandOf::Turn | StandOf::Aside | StandOf::Askew, true) => " left",
            (StandOf::Turn | StandOf::Aside | StandOf::Askew, false) => " right",
            (StandOf::Along, true) => " too far",
            (StandOf::Along, false) => " too near",
            (StandOf::Tip, true) => " looking up",
            (StandOf::Tip, false) => " looking down",
            (StandOf::UpDown, _) => "",
        };
        format!(
            "{value}{way} ± {} (95 %){}, allowed ± {}",
            self.of_stand(figure.of, figure.u95),
            self.by_the_floor(figure),
            self.of_stand(figure.of, figure.allowed)
        )
    }

    /// What of it the floor makes, where that is seen in its last place.
    fn by_the_floor(&self, figure: &StandFigure) -> String {
        let Some(floor) = figure.floor else { return String::new() };
        let value = self.of_stand(figure.of, floor.abs());
        match value == self.of_stand(figure.of, 0.0) {
            true => String::new(),
            false => format!(", with {value} by the floor's tilt"),
        }
    }

    /// What a reading comes to.
    pub fn stand_figure(&self, figure: &StandFigure) -> String {
        let what = match figure.of {
            StandOf::Height => "Height",
            StandOf::UpDown => "Aim up or down",
            StandOf::Turn => "Turned",
            StandOf::Aside => "Aside by the pole",
            StandOf::Along => "Off or near by the pole",
            StandOf::Tip => "Tipped",
            StandOf::Askew => "Askew",
        };
        let against = self.stand_against(figure);
        match figure.said {
            Said::Inside { to_spare } => {
                format!("{what}: {against}: inside, {} to spare.", self.of_stand(figure.of, to_spare))
            }
            Said::Outside { by } => {
                format!("{what}: {against}: outside, {} too much.", self.of_stand(figure.of, by))
            }
            Said::CannotSay { .. } | Said::NoFigure => format!("Cannot say yet: {what}: {against}."),
        }
    }

    /// What was not read.
    pub fn stand_open(&self, parts: &[StandPart], wants_levels: bool) -> Option<String> {
        let names: Vec<String> = parts.iter().map(|own| part(*own).to_owned()).collect();
        match (names.is_empty(), wants_levels) {
            (true, _) => None,
            (false, true) => Some(format!(
                "Not proven: {}. What was read of it waits for levels of the floor under wheels and stand.",
                listed(&names)
            )),
            (false, false) => Some(format!("Not read: {}.", listed(&names))),
        }
    }

    /// How little each way proves.
    pub fn stand_proves(&self, stand: &StandProof) -> String {
        let [two, bar, mirror] = stand.proves.map(|own| self.of_stand(StandOf::Turn, own));
        format!(
            "Here two distances to the ends of the face prove squareness to ± {two}, a bar of {} to ± {bar}, a laser that a mirror on the \
             face sends back to ± {mirror}.",
            self.length(BAR_MM)
        )
    }

    /// How an angle is laid.
    pub fn stand_chord(&self, stand: &StandProof) -> Option<String> {
        let (turned, chord) = stand.chord?;
        Some(format!(
            "It stands {} to the axis: lay that by two distances, not by a protractor. At {} from the mark on either line the ends are {} \
             apart; half a degree more or less is 13 mm there.",
            self.degrees(turned.abs()),
            self.length(CHORD_AT_MM),
            self.locale.tenths(chord)
        ))
    }

    /// What cannot be, and what could.
    pub fn stand_not_possible(&self, own: &NotPossible) -> String {
        let what = match own.field {
            StandField::Line => "line's height",
            StandField::Offset => "face over the line",
            StandField::Left => "distance to the left end",
            StandField::Right => "distance to the right end",
            StandField::Apart => "ends apart",
            StandField::Bar => "bar's length",
            StandField::Beside => "laser back beside",
            StandField::Mirror => "mirror's distance",
        };
        let by = match own.by {
            Bound::Room => "what this room allows from where the target stands",
            Bound::Ceiling => "what this room's height allows",
            Bound::Face => "as wide as the face is",
            Bound::Stand => "as high as stand and face are",
            Bound::Bar => "as long as bars are",
            Bound::Ends => "what the other end's distance allows",
        };
        let (read, least, most) =
            (self.length(own.read_mm), self.length(own.least_mm), self.length(own.most_mm));
        let range = if own.least_mm == 0.0 {
            format!("more than 0, at most {most}")
        } else {
            format!("{least} to {most}")
        };
        format!("The {what} of {read} cannot be: possible is {range}, {by}. It is left out; read it again.")
    }

    /// What is not proven.
    pub fn stand_unproven(&self, open: &StandOpen) -> String {
        match open {
            StandOpen::Figure(figure) => self.stand_figure(figure),
            StandOpen::NotPossible(own) => self.stand_not_possible(own),
            StandOpen::Parts { parts, wants_levels } => {
                self.stand_open(parts, *wants_levels).unwrap_or_default()
            }
        }
    }
}
