//! German of the same: see `words/stand.rs`.

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
    language: Language::German,
    line_over: "Höhe der Linie gelesen ab",
    line: "Linie darüber",
    line_hint: "Höhe der waagerechten Linie, etwa 12, oder \u{2212}8 darunter",
    offset: "Fläche über der Linie",
    offset_hint: "von der Linie zur Mitte der Zielfläche; \u{2212}, wenn diese darunter liegt",
    square_by: "Ausgerichtet mit",
    left: "Zum linken Ende",
    right: "Zum rechten Ende",
    distance_hint: "von einer Linie, die rechtwinklig zur Achse liegt; links und rechts vom Sensor aus gesehen",
    apart: "Abstand der Enden",
    apart_hint: "wie weit die beiden Enden auseinander liegen",
    bar: "Länge des Lineals",
    bar_hint: "zwischen den beiden Enden, zu denen gemessen wird",
    beside: "Laser zurück, nach links",
    beside_hint: "wie weit neben dem Austritt er zurückkommt; \u{2212}, wenn rechts",
    mirror: "Abstand des Spiegels",
    mirror_hint: "vom Laser zum Spiegel auf der Fläche",
    leans_away: "Stange neigt sich weg",
    leans_left: "Stange neigt sich links",
    leans_hint: "Grad, etwa 0,1; \u{2212}, wenn andersherum, vom Sensor aus gesehen",
    unread: "Noch nichts abgelesen: es gilt als wie geplant aufgestellt.",
    marks_and_stand: "Die Marken, gemessen von diesen Rädern, wie sie stehen, was am Ständer abgelesen wurde, und die Neigung des Bodens, wo seine Höhen bekannt sind. Über den Sensor sagt es nichts.",
};

/// From where the line's height is read.
pub fn line_over_of(over: LineOver) -> String {
    match over {
        LineOver::Sensor => "Sensor",
        LineOver::Floor => "Boden am Ständer",
    }
    .to_owned()
}

/// How squareness is read.
pub fn square_by_of(by: SquareBy) -> String {
    match by {
        SquareBy::Distances => "zwei Abständen",
        SquareBy::Bar => "langem Lineal",
        SquareBy::Mirror => "Laser und Spiegel",
    }
    .to_owned()
}

/// A field of one of several stands.
pub fn field_of(label: &str, placement: &str) -> String {
    format!("{label}, {placement}")
}

const fn part(own: StandPart) -> &'static str {
    match own {
        StandPart::Height => "Höhe",
        StandPart::Square => "Ausrichtung",
        StandPart::Plumb => "Neigung der Stange in beiden Richtungen",
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

    /// "0,8 mm zu tief ± 1,2 mm (95 %), erlaubt ± 5,0 mm".
    pub(super) fn stand_against(&self, figure: &StandFigure) -> String {
        let value = self.of_stand(figure.of, figure.off.abs());
        let is_nothing = value == self.of_stand(figure.of, 0.0);
        let way = match (figure.of, figure.off > 0.0) {
            _ if is_nothing => "",
            (StandOf::Height, true) => " zu hoch",
            (StandOf::Height, false) => " zu tief",
            (StandOf::Turn | StandOf::Aside | StandOf::Askew, true) => " links",
            (StandOf::Turn | StandOf::Aside | StandOf::Askew, false) => " rechts",
            (StandOf::Along, true) => " zu weit",
            (StandOf::Along, false) => " zu nah",
            (StandOf::Tip, true) => " nach oben",
            (StandOf::Tip, false) => " nach unten",
            (StandOf::UpDown, _) => "",
        };
        format!(
            "{value}{way} ± {} (95 %){}, erlaubt ± {}",
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
            false => format!(", davon {value} durch die Neigung des Bodens"),
        }
    }

    /// What a reading comes to.
    pub fn stand_figure(&self, figure: &StandFigure) -> String {
        let what = match figure.of {
            StandOf::Height => "Höhe",
            StandOf::UpDown => "Ausrichtung auf oder ab",
            StandOf::Turn => "Verdreht",
            StandOf::Aside => "Seitlich durch die Stange",
            StandOf::Along => "Vor oder zurück durch die Stange",
            StandOf::Tip => "Gekippt",
            StandOf::Askew => "Schief",
        };
        let against = self.stand_against(figure);
        match figure.said {
            Said::Inside { to_spare } => {
                format!("{what}: {against}: innerhalb, {} Reserve.", self.of_stand(figure.of, to_spare))
            }
            Said::Outside { by } => {
                format!("{what}: {against}: außerhalb, {} zu viel.", self.of_stand(figure.of, by))
            }
            Said::CannotSay { .. } | Said::NoFigure => format!("Noch nicht zu sagen: {what}: {against}."),
        }
    }

    /// What was not read.
    pub fn stand_open(&self, parts: &[StandPart], wants_levels: bool) -> Option<String> {
        let names: Vec<String> = parts.iter().map(|own| part(*own).to_owned()).collect();
        match (names.is_empty(), wants_levels) {
            (true, _) => None,
            (false, true) => Some(format!(
                "Nicht belegt: {}. Was davon abgelesen ist, wartet auf Höhen des Bodens unter Rädern und Ständer.",
                listed(&names)
            )),
            (false, false) => Some(format!("Nicht abgelesen: {}.", listed(&names))),
        }
    }

    /// How little each way proves.
    pub fn stand_proves(&self, stand: &StandProof) -> String {
        let [two, bar, mirror] = stand.proves.map(|own| self.of_stand(StandOf::Turn, own));
        format!(
            "Hier belegen zwei Abstände zu den Enden der Fläche die Ausrichtung auf ± {two}, ein Lineal von {} auf ± {bar}, ein Laser, \
             den ein Spiegel auf der Fläche zurückwirft, auf ± {mirror}.",
            self.length(BAR_MM)
        )
    }

    /// How an angle is laid.
    pub fn stand_chord(&self, stand: &StandProof) -> Option<String> {
        let (turned, chord) = stand.chord?;
        Some(format!(
            "Es steht {} zur Achse: das mit zwei Abständen legen, nicht mit einem Winkelmesser. {} von der Marke auf beiden Linien liegen \
             die Enden {} auseinander; ein halbes Grad mehr oder weniger sind dort 13 mm.",
            self.degrees(turned.abs()),
            self.length(CHORD_AT_MM),
            self.locale.tenths(chord)
        ))
    }

    /// What cannot be, and what could.
    pub fn stand_not_possible(&self, own: &NotPossible) -> String {
        let what = match own.field {
            StandField::Line => "Höhe der Linie",
            StandField::Offset => "Fläche über der Linie",
            StandField::Left => "Abstand zum linken Ende",
            StandField::Right => "Abstand zum rechten Ende",
            StandField::Apart => "Abstand der Enden voneinander",
            StandField::Bar => "Länge des Lineals",
            StandField::Beside => "Laser zurück daneben",
            StandField::Mirror => "Abstand des Spiegels",
        };
        let by = match own.by {
            Bound::Room => "was dieser Raum von dort zulässt, wo das Ziel steht",
            Bound::Ceiling => "was die Höhe dieses Raums zulässt",
            Bound::Face => "so breit wie die Fläche ist",
            Bound::Stand => "so hoch wie Ständer und Fläche sind",
            Bound::Bar => "so lang wie Lineale sind",
            Bound::Ends => "was der Abstand des anderen Endes zulässt",
        };
        let (read, least, most) =
            (self.length(own.read_mm), self.length(own.least_mm), self.length(own.most_mm));
        let range = if own.least_mm == 0.0 {
            format!("mehr als 0, höchstens {most}")
        } else {
            format!("{least} bis {most}")
        };
        format!(
            "{what}: {read} kann nicht sein; möglich ist {range}, {by}. Es zählt nicht; bitte neu ablesen."
        )
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
