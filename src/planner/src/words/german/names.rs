//! What things are called, in the case in which a sentence has them.

use super::About;
use crate::assessment::{Subject, Verdict};
use crate::model::{
    BesidePart, Effort, Exclusion, Id, Known, Material, Metal, Other, ParkedKnown, SensorKind, TargetKind,
    ThingKind,
};

/// The cases that the sentences use.
#[derive(Clone, Copy)]
enum Case {
    Nominative,
    Accusative,
    Dative,
    Genitive,
}

/// A noun: alone, and with its article in each of the cases.
struct Noun {
    alone: &'static str,
    cases: [&'static str; 4],
}

impl Noun {
    const fn of(alone: &'static str, cases: [&'static str; 4]) -> Self {
        Self { alone, cases }
    }

    const fn in_case(&self, case: Case) -> &'static str {
        match case {
            Case::Nominative => self.cases[0],
            Case::Accusative => self.cases[1],
            Case::Dative => self.cases[2],
            Case::Genitive => self.cases[3],
        }
    }
}

const CAR: Noun = Noun::of("Fahrzeug", ["das Fahrzeug", "das Fahrzeug", "dem Fahrzeug", "des Fahrzeugs"]);
const ZONE: Noun = Noun::of("Freiraum", ["der Freiraum", "den Freiraum", "dem Freiraum", "des Freiraums"]);
const STAND: Noun =
    Noun::of("Zielständer", ["der Zielständer", "den Zielständer", "dem Zielständer", "des Zielständers"]);
const THIS_CAR: Noun = Noun::of(
    "dieses Fahrzeug",
    ["dieses Fahrzeug", "dieses Fahrzeug", "diesem Fahrzeug", "dieses Fahrzeugs"],
);
const THIS_STAND: Noun = Noun::of(
    "dieser Zielständer",
    ["dieser Zielständer", "diesen Zielständer", "diesem Zielständer", "dieses Zielständers"],
);
const MARK: Noun = Noun::of("Marke", ["die Marke", "die Marke", "der Marke", "der Marke"]);
const RUN: Noun =
    Noun::of("Messstrecke", ["die Messstrecke", "die Messstrecke", "der Messstrecke", "der Messstrecke"]);
const CEILING: Noun = Noun::of("Decke", ["die Decke", "die Decke", "der Decke", "der Decke"]);
const FLOOR: Noun = Noun::of("Boden", ["der Boden", "den Boden", "dem Boden", "des Bodens"]);
const FIGURES: Noun = Noun::of("Angaben", ["die Angaben", "die Angaben", "den Angaben", "der Angaben"]);
const THING: Noun =
    Noun::of("Gegenstand", ["der Gegenstand", "den Gegenstand", "dem Gegenstand", "des Gegenstands"]);
const TARGET: Noun = Noun::of("Ziel", ["das Ziel", "das Ziel", "dem Ziel", "des Ziels"]);

const fn of_sensor(kind: SensorKind) -> Noun {
    match kind {
        SensorKind::ForwardRadar(_) => {
            Noun::of("Frontradar", ["das Frontradar", "das Frontradar", "dem Frontradar", "des Frontradars"])
        }
        SensorKind::CornerRadar(_) => {
            Noun::of("Eckradar", ["das Eckradar", "das Eckradar", "dem Eckradar", "des Eckradars"])
        }
        SensorKind::ForwardCamera(_) => Noun::of(
            "Frontkamera",
            ["die Frontkamera", "die Frontkamera", "der Frontkamera", "der Frontkamera"],
        ),
        SensorKind::SurroundCamera(_) => Noun::of(
            "Umfeldkamera",
            ["die Umfeldkamera", "die Umfeldkamera", "der Umfeldkamera", "der Umfeldkamera"],
        ),
        SensorKind::Lidar => Noun::of("Lidar", ["das Lidar", "das Lidar", "dem Lidar", "des Lidars"]),
    }
}

const fn of_target(kind: TargetKind) -> Noun {
    match kind {
        TargetKind::CornerReflector => Noun::of(
            "Winkelreflektor",
            ["der Winkelreflektor", "den Winkelreflektor", "dem Winkelreflektor", "des Winkelreflektors"],
        ),
        TargetKind::Plate => Noun::of("Platte", ["die Platte", "die Platte", "der Platte", "der Platte"]),
        TargetKind::Board => Noun::of("Tafel", ["die Tafel", "die Tafel", "der Tafel", "der Tafel"]),
        TargetKind::Mat => Noun::of("Matte", ["die Matte", "die Matte", "der Matte", "der Matte"]),
        TargetKind::ActiveDevice => Noun::of(
            "aktives Gerät",
            ["das aktive Gerät", "das aktive Gerät", "dem aktiven Gerät", "des aktiven Geräts"],
        ),
    }
}

/// A name as it was typed, between quotes: it needs no article and no ending.
pub(super) fn the(id: &Id) -> String {
    format!("„{id}“")
}

/// A preposition before what follows it, drawn together with its article as it is spoken: "in dem" is "im".
pub(super) fn before(preposition: &str, rest: &str) -> String {
    const TOGETHER: [(&str, &str, &str); 5] = [
        ("in", "dem ", "im "),
        ("von", "dem ", "vom "),
        ("zu", "dem ", "zum "),
        ("zu", "der ", "zur "),
        ("bei", "dem ", "beim "),
    ];
    TOGETHER
        .iter()
        .filter(|(own, ..)| *own == preposition)
        .find_map(|(_, article, short)| rest.strip_prefix(article).map(|noun| format!("{short}{noun}")))
        .unwrap_or_else(|| format!("{preposition} {rest}"))
}

impl About<'_> {
    /// The verdict: of the space, never of the car or the sensor.
    pub const fn verdict(&self, verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Ready => "Platz bereit",
            Verdict::ReadyWithCare => "Platz bereit mit Vorsicht",
            Verdict::NotReady => "Platz nicht bereit",
        }
    }

    /// What a finding is about, as it stands within a sentence: "die Tafel".
    pub fn subject(&self, subject: &Subject) -> String {
        self.in_case(Case::Nominative, subject)
    }

    pub(super) fn accusative(&self, subject: &Subject) -> String {
        self.in_case(Case::Accusative, subject)
    }

    pub(super) fn dative(&self, subject: &Subject) -> String {
        self.in_case(Case::Dative, subject)
    }

    /// A subject without its article, and a typed name without its quotes: for a line of a list.
    pub fn bare_subject(&self, subject: &Subject) -> String {
        match self.noun(subject) {
            Some((noun, more)) => format!("{}{more}", noun.alone),
            None => typed_name(subject).to_owned(),
        }
    }

    /// A subject without its article, a typed name between its quotes: for what is to be done, and before a colon.
    pub(super) fn alone(&self, subject: &Subject) -> String {
        match self.noun(subject) {
            Some((noun, more)) => format!("{}{more}", noun.alone),
            None => format!("„{}“", typed_name(subject)),
        }
    }

    pub(super) fn genitive(&self, subject: &Subject) -> String {
        self.in_case(Case::Genitive, subject)
    }

    fn in_case(&self, case: Case, subject: &Subject) -> String {
        match self.noun(subject) {
            Some((noun, more)) => format!("{}{more}", noun.in_case(case)),
            None if matches!(case, Case::Genitive) => format!("von „{}“", typed_name(subject)),
            None => format!("„{}“", typed_name(subject)),
        }
    }

    /// The noun of a subject and what stands behind it; `None` of what has a typed name alone.
    fn noun(&self, subject: &Subject) -> Option<(Noun, String)> {
        let none = String::new();
        Some(match subject {
            Subject::Car => (CAR, none),
            Subject::Zone(id) => (ZONE, format!(" „{id}“")),
            Subject::Target(id) => self.target(id),
            Subject::Stand(id) => self.stand(id),
            Subject::Sensor => (of_sensor(self.arrangement.sensor.kind), none),
            Subject::Mark(id) => (MARK, format!(" {id}")),
            Subject::Run(from, to) => (RUN, format!(" von Marke {from} zu Marke {to}")),
            Subject::Ceiling => (CEILING, none),
            Subject::Floor => (FLOOR, none),
            Subject::Figures => (FIGURES, none),
            Subject::Thing(id) => return self.beside(id),
            Subject::Wall(_)
            | Subject::Opening(_)
            | Subject::FloorFeature(_)
            | Subject::Runway(_)
            | Subject::KeepFree(_)
            | Subject::HallBay(_)
            | Subject::Dimension(_) => return None,
        })
    }

    /// A part of a set-up that is done at the same time; `None` of the bay's own things.
    fn beside(&self, id: &Id) -> Option<(Noun, String)> {
        let (beside, part) = self.arrangement.part_beside(id)?;
        let of = &beside.set_up;
        Some(match part {
            // Said of the other set-up where this one is told what it does there.
            BesidePart::Car if beside.other == Other::Asks => (THIS_CAR, String::new()),
            BesidePart::Stand(_) if beside.other == Other::Asks => (THIS_STAND, String::new()),
            BesidePart::Thing(id) if beside.other == Other::Asks => (THING, format!(" „{id}“")),
            BesidePart::Car => (CAR, format!(" von „{of}“")),
            BesidePart::Stand(_) => (STAND, format!(" von „{of}“")),
            BesidePart::Thing(id) => (THING, format!(" „{id}“ von „{of}“")),
        })
    }

    /// The sensor's kind, as a workshop says it.
    pub fn sensor(&self) -> &'static str {
        of_sensor(self.arrangement.sensor.kind).alone
    }

    fn target(&self, id: &Id) -> (Noun, String) {
        let placement = self.arrangement.aiming.placements.iter().find(|p| p.id == *id);
        let noun = placement.map_or(TARGET, |placement| of_target(placement.target.kind));
        (noun, self.among_several(id))
    }

    fn stand(&self, id: &Id) -> (Noun, String) {
        let lies = self.arrangement.aiming.placements.iter().any(|p| p.id == *id && p.target.stand.is_none());
        if lies { self.target(id) } else { (STAND, self.among_several(id)) }
    }

    /// The name of a target, where there is more than one.
    fn among_several(&self, id: &Id) -> String {
        if self.arrangement.aiming.placements.len() > 1 { format!(" „{id}“") } else { String::new() }
    }

    /// What a zone is kept clear of, after "frei von".
    pub fn keeps_clear_of(&self, excludes: Exclusion) -> String {
        match excludes {
            Exclusion::Anything => "allem".to_owned(),
            Exclusion::Metal => "Metall".to_owned(),
            Exclusion::Reflecting(level) => {
                let [level, area] = self.echo(level);
                format!("allem mit einem Radarecho über {level} dBsm (wie von {area} m²)")
            }
            Exclusion::People => "Personen".to_owned(),
            Exclusion::Light => "Lampen und anderem Licht".to_owned(),
        }
    }

    /// A material, as a workshop says it.
    pub const fn material(&self, material: Material) -> &'static str {
        match material {
            Material::Steel => "Stahl",
            Material::Aluminium => "Aluminium",
            Material::Mesh => "Drahtgitter",
            Material::CarBody => "Karosserie",
            Material::Foil => "Platte mit Alufolie",
            Material::Concrete => "Beton",
            Material::Brick => "Ziegel",
            Material::Plasterboard => "Gipskarton",
            Material::Wood => "Holz",
            Material::Glass => "Glas",
            Material::Plastic => "Kunststoff",
            Material::Rubber => "Gummi",
            Material::Cloth => "Stoff oder Pappe",
            Material::Person => "Person",
            Material::Unknown => "Material nicht bekannt",
        }
    }

    /// How much metal something holds.
    pub const fn metal(&self, metal: Metal) -> &'static str {
        match metal {
            Metal::None => "keins",
            Metal::Frame => "Rahmen oder Profile",
            Metal::All => "ganz aus Metall",
            Metal::Unknown => "nicht bekannt",
        }
    }

    /// A kind of thing, as a workshop says it.
    pub const fn kind_of_thing(&self, kind: ThingKind) -> &'static str {
        match kind {
            ThingKind::Cabinet => "Schrank",
            ThingKind::ToolChest => "Werkzeugkiste",
            ThingKind::Bench => "Werkbank",
            ThingKind::Shelf => "Regal",
            ThingKind::Trolley => "Werkzeugwagen",
            ThingKind::Column => "Säule",
            ThingKind::LiftPost => "Hubsäule",
            ThingKind::LiftArm => "Tragarm",
            ThingKind::Drum => "Fass",
            ThingKind::ParkedCar => "abgestelltes Fahrzeug",
            ThingKind::Fence => "Gitterzaun",
            ThingKind::Bin => "Tonne",
            ThingKind::Person => "Person",
            ThingKind::Lamp => "Lampe",
            ThingKind::Heater => "Heizgerät oder Kanal",
            ThingKind::DoorTrack => "Torschiene oben",
            ThingKind::Beam => "Träger oder Rohr oben",
            ThingKind::Other => "etwas anderes",
        }
    }

    /// What it takes to move a thing.
    pub const fn effort(&self, effort: Effort) -> &'static str {
        match effort {
            Effort::OnePerson => "eine Person",
            Effort::TwoPeople => "zwei Personen",
            Effort::ForkLift => "Gabelstapler",
            Effort::Fixed => "eingebaut",
        }
    }

    /// How well it is known where the car stands.
    pub fn how_parked(&self, known: ParkedKnown) -> String {
        let (mm, rad) = self.arrangement.shop.parked_within(known);
        let within = format!("± {}, ± {}", self.length(mm), self.margin_of_angle(rad));
        match known {
            ParkedKnown::Planned => format!("geplant, {within}"),
            ParkedKnown::Taped => format!("eingemessen, {within}"),
            ParkedKnown::Within { .. } => within,
        }
    }

    /// How well the place of a thing is known.
    pub fn how_known(&self, known: Known) -> String {
        let within = self.length(self.arrangement.shop.within(known));
        match known {
            Known::Taped => format!("eingemessen, ± {within}"),
            Known::ByEye => format!("nach Augenmaß, ± {within}"),
            Known::ByEyeOlder => format!("nach Augenmaß (ältere Regel), ± {within}"),
            Known::Within(_) => format!("± {within}"),
        }
    }
}

/// The name that was typed for what has no noun of ours.
fn typed_name(subject: &Subject) -> &str {
    match subject {
        Subject::Thing(id)
        | Subject::Wall(id)
        | Subject::Opening(id)
        | Subject::FloorFeature(id)
        | Subject::Runway(id)
        | Subject::KeepFree(id)
        | Subject::HallBay(id)
        | Subject::Dimension(id) => id.as_str(),
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::before;

    #[test]
    fn a_preposition_and_its_article_are_drawn_together() {
        assert_eq!(before("in", "dem Freiraum „links“"), "im Freiraum „links“");
        assert_eq!(before("zu", "der Tafel"), "zur Tafel");
        assert_eq!(before("in", "der Messstrecke"), "in der Messstrecke");
        assert_eq!(before("zu", "„Wagen 2“"), "zu „Wagen 2“");
    }
}
