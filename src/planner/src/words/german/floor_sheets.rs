//! German of the same: see `words/floor_sheets.rs`.

use super::Language;
use crate::words::floor_sheets::FloorTexts;

/// The fixed texts.
pub const TEXTS: FloorTexts = FloorTexts {
    language: Language::German,
    paint: "Bodenplan: Linien und Marken",
    concrete: "Bodenplan: Beton",
    electric: "Bodenplan: Elektro",
    running: "Die Zahlen an einer Wand zählen von der 0 am Ring an. Sie nie addieren.",
    number: "Nr.",
    what: "Was",
    name: "Name",
    starts: "Beginn",
    ends: "Ende",
    wall: "Wand",
    bottom: "Unterkante",
    top: "Oberkante",
    level: "Höhe",
    proud: "Über dem Boden",
    survey: "Aufmaß",
    openings: "Türen, Fenster, Öffnungen: vom linken Wandende an, von innen gesehen",
    points: "Punkte, rechtwinklig von zwei Wänden",
    corners: "Linien und Flächen, Ecke für Ecke",
    no_points: "Keine bleibende Marke ist eingetragen, und diese Aufstellung hat keine Marke zu legen.",
    colours: "Farben der Linien: keine eingetragen. Mit dem Betreiber abstimmen.",
    may_reach: "Ein Freiraum ist bis an die Wände gezeichnet; seine Ecken sind aufgeführt, wo sie liegen, auch außerhalb.",
    fixed: "Säulen und Eingebautes",
    asked_floor: "Wie der Boden sein muss",
    not_asked: "Was diese Anleitung vom Boden verlangt, ist nicht eingetragen. Es vor dem Gießen oder Schleifen in der Anleitung des \
                Herstellers nachsehen.",
    in_millimetres: "Höhen, ihre erlaubten Abweichungen und Unterlagen stehen in Millimetern: ein sechzehntel Zoll ist dafür zu grob.",
    level_marks: "Höhen wie aufgemessen, gegen die Null des Messplatzes",
    not_surveyed: "Der Boden wurde nicht aufgemessen: keine Höhe ist bekannt.",
    undated: "Der Tag des Aufmaßes ist nicht eingetragen.",
    is_surveyed: "ja",
    is_not_surveyed: "nein",
    in_floor: "Rinnen, Gruben, Fugen",
    runways: "Erhöhte Fahrschienen",
    found_of_floor: "Was nicht bekannt oder nicht in Ordnung ist",
    concrete_caution: "Die örtlichen Bauvorschriften und zugelassene Fachleute entscheiden. Vor dem Schneiden nach Rohren, Kabeln und \
                       Heizung im Boden suchen. Eine offene Grube abdecken oder absperren. Gefälle zu Rinnen gehört nicht in die \
                       Fläche, die eben sein muss.",
    sockets: "Steckdosen",
    no_sockets: "Keine eingetragen: Steckdosen kennt das Programm nicht. Auf diesem Blatt von Hand eintragen.",
    lights: "Leuchten",
    hanging: "Was sonst hängt oder eingebaut ist",
    panels: "Vor Schaltschränken freizuhalten",
    asked_light: "Vor dieser Einstellung zu erfüllen, wie eingetragen",
    none: "Nichts eingetragen.",
    electric_caution: "Die örtlichen Elektrovorschriften und eine zugelassene Elektrofachkraft entscheiden über Abstände, Stromkreise und \
                       Einbauten. Vor dem Anfassen freischalten, gegen Wiedereinschalten sichern, Spannungsfreiheit feststellen. \
                       Leuchten und Stahl gehören nicht in die Freiräume.",
    paint_caution: "Vor dem Malen jeden Punkt von beiden Wänden aus mit dem Bandmaß messen. Die Marken dieser Aufstellung vom Fahrzeug \
                    aus neu legen: Sie gelten für ein Fahrzeug, das steht wie gezeichnet.",
    revisions: "Fassungen",
    revisions_about: "Die Datei führt keine Liste der Fassungen: hier von Hand eintragen.",
    revision: "Fassung",
    day: "Datum",
    changed: "Was geändert wurde",
    by: "Von",
    where_from: "Woher die Werte kommen",
};

pub fn from_wall(wall: &str) -> String {
    format!("Von „{wall}“")
}

pub fn permanent(number: usize) -> String {
    format!("P{number}")
}

pub fn surveyed(number: usize, level: &str) -> String {
    format!("{number}: {level}")
}

pub fn mark(number: usize) -> String {
    format!("Marke {number} dieser Aufstellung")
}

pub fn corner(of: &str, number: usize) -> String {
    format!("{of}, Ecke {number}")
}

pub fn axis_end(is_ahead: bool) -> String {
    if is_ahead { "Mittellinie, an der Wand vorn" } else { "Mittellinie, an der Wand hinten" }.to_owned()
}

pub fn from_to(from: &str, to: &str) -> String {
    format!("{from} bis {to}")
}

pub fn floor_limit(level: &str) -> String {
    format!(
        "Unter den Rädern und den Zielen darf der höchste Punkt höchstens {level} über dem tiefsten liegen."
    )
}

pub fn floor_area(walls: [&str; 2], first: [&str; 2], second: [&str; 2]) -> String {
    let one = |wall: &str, [from, to]: [&str; 2]| format!("{from} bis {to} von „{wall}“");
    let [a, b] = walls;
    format!("In dieser Aufstellung liegen sie {} und {}.", one(a, first), one(b, second))
}

pub fn floor_fall(over: &str, one_in: &str) -> String {
    format!(
        "Über diese Fläche, {over} von Ecke zu Ecke, wäre das ein gleichmäßiges Gefälle von höchstens 1 : {one_in}."
    )
}

pub fn tilt(pitch: Option<&str>, roll: Option<&str>) -> String {
    let pitch = pitch.map(|most| format!("{most} nach vorn oder hinten"));
    let roll = roll.map(|most| format!("{most} nach jeder Seite"));
    let both: Vec<String> = pitch.into_iter().chain(roll).collect();
    format!("Das Fahrzeug darf auf seinen Rädern höchstens so schief stehen: {}.", both.join(" und "))
}

pub fn levels(count: usize, (high, highest): (usize, &str), (low, lowest): (usize, &str)) -> String {
    if count == 1 {
        return format!("Eine Höhe: {highest}. Was ringsum liegt, braucht mehr Punkte.");
    }
    format!("{count} Höhen: die höchste {highest} bei Nr. {high}, die tiefste {lowest} bei Nr. {low}.")
}

pub fn levels_from(provenance: &str, taken: Option<&str>) -> String {
    match taken {
        Some(day) => format!("Höhen: {provenance}; aufgemessen am {day}."),
        None => format!("Höhen: {provenance}."),
    }
}

pub fn ceiling(height: &str) -> String {
    format!("Lichte Höhe unter der Decke: {height}.")
}

pub fn room_from(provenance: &str, known: &str) -> String {
    format!("Der Raum: {provenance}. Seine Wände: {known}.")
}

pub fn left_out(count: usize) -> String {
    if count == 1 {
        return "Eine Zahl hatte neben dem Plan keinen Platz; sie steht in den Tabellen.".to_owned();
    }
    format!("{count} Zahlen hatten neben dem Plan keinen Platz; sie stehen in den Tabellen.")
}

pub fn more_corners(count: usize) -> String {
    if count == 1 {
        return "1 weitere Ecke an gerundeten Kanten: aus der Zeichnung nehmen.".to_owned();
    }
    format!("{count} weitere Ecken an gerundeten Kanten: aus der Zeichnung nehmen.")
}

pub fn described(sheet: &str, bay: &str, scale: &str) -> String {
    format!(
        "{sheet}, „{bay}“ von oben, Maßstab {scale}: die Wände, was darin ist, und was dieses Gewerk zu tun hat."
    )
}
