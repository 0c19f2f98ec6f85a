//! What was read of a target's stand, and what it proves, in words.

use baywright_geometry::angle;

use super::Words;
use crate::check::StandOpen;
use crate::model::{LineOver, SquareBy, StandRead};
use crate::proof::{NotPossible, StandFigure, StandPart, StandProof};

texts! {
    stand: StandTexts, "Every fixed text about what is read of a stand.";
    line_over, "The label of the choice from where the line's height is read.";
    line, "The label of the line's height.";
    line_hint, "What is typed there.";
    offset, "The label of the face's height over the line.";
    offset_hint, "What is typed there.";
    square_by, "The label of the choice how squareness is read.";
    left, "The label of the left distance.";
    right, "The label of the right one.";
    distance_hint, "What is typed in either.";
    apart, "The label of how far both ends are apart.";
    apart_hint, "What is typed there.";
    bar, "The label of a bar's length.";
    bar_hint, "What is typed there.";
    beside, "The label of how far beside the laser comes back.";
    beside_hint, "What is typed there.";
    mirror, "The label of how far the mirror is.";
    mirror_hint, "What is typed there.";
    leans_away, "The label of a pole's lean away from the sensor.";
    leans_left, "The label of its lean to the left.";
    leans_hint, "What is typed in either.";
    unread, "Nothing was read of it yet.";
    marks_and_stand, "What the answer of the marks is about, once stands were read too.";
}

impl StandTexts {
    sentences! { stand:
        /// From where the line's height is read.
        line_over_of(over: LineOver) -> String;
        /// How squareness is read.
        square_by_of(by: SquareBy) -> String;
        /// A field of one of several stands, for who cannot see under which title it stands.
        field_of(label: &str, placement: &str) -> String;
    }
}

impl Words<'_> {
    /// What was read of a stand, each figure by the name of its field, in the order in which they are typed; empty if nothing was.
    pub fn stand_read(&self, read: &StandRead) -> String {
        let (texts, locale) = (self.locale.language.stand(), self.locale);
        let mm =
            |label: &str, own: Option<f64>| own.map(|own| format!("{label}: {}", locale.length_to_type(own)));
        let turn = |label: &str, own: Option<f64>| {
            let said =
                own.map(|own| locale.region.degrees_to_type(angle::degrees(own)).replace('-', "\u{2212}"));
            said.map(|own| format!("{label}: {own}"))
        };
        let height = [mm(texts.line, read.line_mm), mm(texts.offset, read.offset_mm)];
        let over =
            read.line_mm.map(|_| format!("{}: {}", texts.line_over, texts.line_over_of(read.line_over)));
        let apart = if read.square_by == SquareBy::Bar { texts.bar } else { texts.apart };
        let square = match read.square_by {
            SquareBy::Distances | SquareBy::Bar => {
                [mm(texts.left, read.left_mm), mm(texts.right, read.right_mm), mm(apart, read.apart_mm)]
            }
            SquareBy::Mirror => [mm(texts.beside, read.beside_mm), mm(texts.mirror, read.mirror_mm), None],
        };
        let by = square.iter().any(Option::is_some);
        let by = by.then(|| format!("{}: {}", texts.square_by, texts.square_by_of(read.square_by)));
        let plumb =
            [turn(texts.leans_away, read.leans_away_rad), turn(texts.leans_left, read.leans_left_rad)];
        let all = [over].into_iter().chain(height).chain([by]).chain(square).chain(plumb);
        all.flatten().collect::<Vec<_>>().join("; ")
    }

    sentences! { about:
        /// Whose stand it is, as a title.
        stand_title(stand: &StandProof) -> String;
        /// What a reading of a stand comes to, in one sentence with its decision.
        stand_figure(figure: &StandFigure) -> String;
        /// What was not read, or waits for levels; `None` if nothing.
        stand_open(parts: &[StandPart], wants_levels: bool) -> Option<String>;
        /// A figure of it that cannot be, with what could.
        stand_not_possible(own: &NotPossible) -> String;
        /// How little or how much each way of reading squareness proves.
        stand_proves(stand: &StandProof) -> String;
        /// How an angle is laid by two distances; `None` of a target that stands square.
        stand_chord(stand: &StandProof) -> Option<String>;
        /// What is not proven of a stand, as it stands within a sentence about it.
        stand_unproven(open: &StandOpen) -> String;
    }
}
