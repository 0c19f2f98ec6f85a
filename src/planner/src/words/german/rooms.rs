//! German of the same: see `words/rooms.rs`.

use super::faults::{allowed, found};
use super::{Language, listed};
use crate::model::fault::Fault;
use crate::model::{AlcovePart, Known};
use crate::words::rooms::Rooms;
use crate::words::{Lengths, Units};

pub fn corners_hint(units: Units) -> String {
    let two = two_lengths(units);
    format!(
        "Eine Ecke je Zeile: längs, auf dem Blatt nach oben, {two}, oder mit eigener Einheit. Oder in der Draufsicht ziehen"
    )
}

pub fn removed_from_every(things: &[&str]) -> String {
    match things {
        [one] => format!("„{one}“ gehörte zum Gebäude und ist aus jeder Aufstellung entfernt."),
        _ => {
            let all: Vec<String> = things.iter().map(|own| format!("„{own}“")).collect();
            format!("Was zum Gebäude gehörte, ist aus jeder Aufstellung entfernt: {}.", listed(&all))
        }
    }
}

pub fn now_built(thing: &str, otherwise: &[&str]) -> String {
    let now = format!("„{thing}“ gehört jetzt zum Gebäude: Es steht in jeder Aufstellung, wo es hier steht.");
    if otherwise.is_empty() {
        return now;
    }
    let all: Vec<String> = otherwise.iter().map(|own| format!("„{own}“")).collect();
    format!(
        "{now} In {} stand es anderswo, war weg oder anders angegeben; Rückgängig bringt das zurück.",
        listed(&all)
    )
}

pub fn levels_hint(units: Units) -> String {
    format!(
        "Je Zeile eine: längs, quer, Höhe, {}, oder mit eigener Einheit; oder eine Marke, mit Namen oder Nummer, und ihre Höhe. Eine Tabelle lässt sich \
         einfügen. Leer: nicht aufgemessen",
        three_lengths(units)
    )
}

/// How two lengths are typed, and what a bare number is.
pub(super) const fn two_lengths(units: Units) -> &'static str {
    match units {
        Units::Millimetres => "in mm, wie 850; 1250",
        Units::Metres => "in m, wie 0,85; 1,25",
        Units::FeetInches => "in Zoll, wie 2' 9 1/2\"; 4' 1 1/4\"",
    }
}

/// The same of a place and its level.
pub(super) const fn three_lengths(units: Units) -> &'static str {
    match units {
        Units::Millimetres => "in mm, wie 850; 1500; -2,5",
        Units::Metres => "in m, wie 0,85; 1,5; -0,0025",
        Units::FeetInches => "in Zoll, wie 2' 9 1/2\"; 4' 11\"; -1/8\"",
    }
}

/// The fixed texts.
pub const TEXTS: Rooms = Rooms {
    language: Language::German,
    new_bay: "Neuen Messplatz zeichnen …",
    new_bay_title: "Ein neuer Messplatz",
    room: "Raum",
    name_of_bay: "Name des Messplatzes",
    ceiling: "Lichte Höhe",
    ceiling_hint: "Unter der Decke; ein tiefer Träger oder Kanal ist ein eigener Gegenstand",
    walls_known: "Wände sind",
    corners: "Ecken",
    wall: "Wand",
    wall_length: "Länge",
    wall_length_hint: "Wird sie getippt, rückt die nächste Wand mit, und rechte Winkel bleiben",
    corner_only: "Nur ihre Ecke verschieben: Die nächste Wand wird schief",
    push: "In den Raum schieben",
    push_hint: "Beide Ecken rechtwinklig dazu; negativ: nach außen",
    alcove: "Nische oder Vorsprung",
    alcove_from: "Ab ihrem Anfang",
    alcove_width: "Breit",
    alcove_depth: "Tief",
    alcove_depth_hint: "Nach außen; negativ: ein Vorsprung in den Raum",
    build: "Einbauen",
    remove_corner: "Ihre erste Ecke entfernen",
    material: "Material",
    name: "Name",
    opening: "Art",
    in_wall: "In der Wand",
    from_corner_hint: "Entlang ihrer Wand, ab der Ecke mit dieser",
    width: "Breite",
    bottom: "Ab Höhe",
    top: "Bis Höhe",
    beyond: "Dahinter frei",
    beyond_hint: "Wie weit der Boden dahinter frei und eben ist; 0, wenn nicht bekannt",
    keep_shut: "Während dieser Aufstellung geschlossen halten",
    is_exit: "Ein Fluchtweg",
    stands: "Steht",
    open: "offen",
    shut: "geschlossen",
    kind: "Art",
    from_x: "Von, längs",
    to_x: "Bis, längs",
    from_y: "Von, quer",
    to_y: "Bis, quer",
    area_hint: "Ab der Ecke des Raums, längs und quer im Raum",
    height: "Höhe",
    carries: "Das Fahrzeug steht darauf",
    proud: "Steht über den Boden vor",
    proud_hint: "Wie weit es über den Boden vorsteht; 0, wenn bündig",
    remove: "Entfernen",
    draw_it: "Zeichnen",
    levels: "Bodenhöhen",
    runway_levels: "Höhen, gegen die eigene",
    surveyed_on: "Aufgemessen am",
    surveyed_today: "Heute",
    surveyed_today_why: "Die Höhen wurden heute gemessen",
    picture: "Bild eines Plans",
    picture_file: "Bild",
    picture_file_hint: "Eine PNG- oder JPEG-Datei, neben der Datei des Messplatzes oder mit ganzem Pfad. Leer: keines",
    reading_picture: "Das Bild wird gelesen …",
    move_picture: "Bild verschieben",
    move_picture_why: "In der Draufsicht ziehen; der runde Griff dreht, der eckige ändert die Größe. Die Ecke mit dem Punkt bleibt",
    moving_now: "Bild ziehen; der runde Griff dreht, der eckige ändert die Größe. Esc stellt zurück, dann beendet es.",
    moving_now_short: "Bild oder Griff ziehen.",
    picture_whole: "das Bild unter dem Plan",
    picture_turns: "der Griff, der das Bild dreht",
    picture_sizes: "der Griff für die Größe des Bildes",
    scale_picture: "Maßstab aus zwei Punkten",
    scale_picture_why: "In der Draufsicht zwei Punkte drücken, deren Abstand bekannt ist, dann ihn eintippen",
    scaling_now: "Einen Punkt des Bildes drücken, dessen Abstand zu einem anderen bekannt ist, dann den anderen. Esc: jetzt nicht.",
    scaling_now_short: "Zwei Punkte darauf drücken.",
    apart: "Ihr Abstand",
    apart_hint: "Der Abstand der beiden Punkte, wie gemessen oder wie im Plan angeschrieben",
    mm_per_px: "mm je Bildpunkt",
    picture_at_hint: "Wo die linke untere Ecke am Messplatz liegt",
    picture_turned: "Nach links gedreht um",
    faded: "Aufgehellt, %",
    faded_hint: "0: wie es ist; 100: unsichtbar",
    // Whose building it is.
    plan_building: "Gebäude nur für diese Aufstellung planen",
    plan_building_why: "Wände, Türen, Boden und Eingebautes werden dann nur in dieser Aufstellung geändert; am Messplatz bleibt alles",
    give_up_building: "Zurück zum Gebäude des Messplatzes",
    give_up_building_why: "Verwirft, was hier an Wänden, Türen, Boden und Eingebautem geplant wurde; lässt sich rückgängig machen",
    adopt_building: "Zum Gebäude des Messplatzes machen",
    adopting_forgets: "Andere Aufstellungen sagen, wo eine Tür, eine Fahrschiene oder ein Gegenstand ist, die es in diesem Gebäude nicht gibt. Gilt es für den Messplatz, vergessen sie das, und ein Fahrzeug auf einer solchen Fahrschiene steht auf dem Boden:",
    adopt_building_why: "Jede Aufstellung ohne eigenes Gebäude steht dann in diesem; lässt sich rückgängig machen",
    changes_own: "Wie geplant: nur in dieser Aufstellung geändert. Bodenhöhen und Name gehören auch hier zum Messplatz.",
    changes_all: "Gehört zum Messplatz: in jeder Aufstellung geändert.",
    changes_bays: "Gehört zum Messplatz: in jeder Aufstellung ohne eigenes Gebäude geändert.",
    thing_of_own: "Es steht nur in dieser Aufstellung.",
    thing_planned: "Größe und Angaben: nur in dieser Aufstellung geändert.",
    thing_built: "Teil des Gebäudes: Lage, Größe und Angaben gelten in jeder Aufstellung des Messplatzes.",
    thing_moved: "Hier steht es nur in dieser Aufstellung. Größe und Angaben: am Messplatz geändert.",
    no_floor_for_bay: "Der Raum hat keine Fläche, auf der ein Messplatz längs seiner Achsen Platz hat.",
    remove_built_of_several_why: "Aus dieser Aufstellung entfernen (Entf); was zum Gebäude gehört, verlässt jede Aufstellung",
    remove_built_why: "Vom Messplatz entfernen, in jeder Aufstellung (Entf)",
    in_every: "In jeder Aufstellung",
    in_every_why: "Stellt es auf den Messplatz, wie es hier steht",
    place_in_every_why: "Macht dies zu seiner Lage am Messplatz",
    here_alone: "Nur in dieser Aufstellung",
    here_alone_why: "Am Messplatz und in den anderen Aufstellungen fällt es weg, hier bleibt es",
    thing_of_bay: "Größe und Angaben: am Messplatz geändert.",
    // What can be added.
    roller_door: "Rolltor",
    swing_door: "Drehflügeltür",
    window: "Fenster",
    gap: "Öffnung ohne Tür",
    drain: "Rinne",
    pit: "Grube",
    joint: "Fuge",
    runway: "Fahrschiene",
    keep_exit: "Fläche vor einem Ausgang",
    keep_panel: "Fläche vor einem Schaltschrank",
    low_ceiling: "niedrige Decke",
    keep_extinguisher: "Fläche vor einem Feuerlöscher",
    hall_bay: "Stellplatz dieser Halle",
    hall_bay_name: "Stellplatz",
    // The bays of a hall.
    in_this_hall: "In dieser Halle",
    bays_in_hall: "Stellplätze dieser Halle",
    to_bay_why: "Zeigt, was auf diesem Stellplatz aufgestellt ist",
    no_set_up: "Auf diesem Stellplatz ist noch nichts aufgestellt",
    hall_bay_of: "Auf welchem Stellplatz",
    no_bay: "keiner gewählt",
    in_no_bay: "Kein Stellplatz gewählt",
    keep_empty_of: "Währenddessen leer gehalten",
    keep_empty: "Während dieser Aufstellung leer halten",
    made_in_it: "Diese Aufstellung steht auf diesem Stellplatz",
    made_here: "Auch hier aufgestellt",
    at_once_of: "Gleichzeitig auf anderen Stellplätzen",
    at_once_why: "Beide werden mit Fahrzeug und Zielen der anderen beurteilt",
    show_set_up: "Diese Aufstellung zeigen",
    set_up_in_why: "Eine neue Aufstellung mit diesem Fahrzeug und dieser Einstellung, Fahrzeug und Ziele mitten auf dem Stellplatz; lässt sich rückgängig machen",
    // A room that is taped.
    rectangle: "Ein Rechteck",
    taped: "Wand für Wand",
    length: "Länge",
    across: "Breite",
    taped_about: "In einer Ecke anfangen und so gehen, dass der Raum links liegt. Für jede Wand die Länge, und wie weit man an ihrem Ende \
         nach links dreht: 90 an einer gewöhnlichen Ecke, -90, wo die Wand in den Raum vorspringt.",
    turn: "nach links, °",
    wall_name: "Name",
    add_wall: "Noch eine Wand",
    closes: "Es schließt sich.",
    spread: "Den Rest auf alle Wände verteilen, nach ihrer Länge",
    spread_why: "Wie beim Polygonzug der Landvermessung: Jede Wand bekommt ihren Teil des Rests nach ihrer Länge. Richtig, wenn alle gleich gut gemessen sind",
    use_it: "So nehmen",
    decide: "Die fragliche Wand neu messen, eine Erklärung nehmen, oder ankreuzen, dass der Rest verteilt wird.",
    begin_anew: "Neu beginnen",
    go_on: "Weiter mit der nächsten Wand.",
    within_tape: "Das liegt im Rahmen eines Bandmaßes; es wird auf alle Wände nach ihrer Länge verteilt.",
    begin_here: "Anfang",
    make_it: "Messplatz anlegen",
    turns_wrong: "Die Drehungen geben keine ganze Runde:",
    other_order: "Die Ecken in der Reihenfolge eintippen, in der sie hier standen: gegen den Uhrzeigersinn, von derselben an. Daran behält jede Wand Namen, Material und Öffnungen.",
    other_count: "Die Zahl der Ecken bleibt hier gleich: eine Nische in eine Wand einbauen, eine Ecke entfernen, oder den Messplatz neu anlegen.",
    no_room: "Aus diesen Wänden wird kein Raum: Sie kreuzen sich, oder zwei Ecken fallen zusammen.",
    needs_three: "Ein Raum hat mindestens drei Wände.",
    my_bay: "Mein Messplatz",
    first_arrangement: "Wie geplant",
    alcove_too_long: "Sie passt nicht in diese Wand neben das, was schon darin ist.",
    corner_in_use: "In dieser Wand ist eine Tür oder ein Fenster; zuerst dieses verschieben.",
    crossing: "Die Wände würden sich kreuzen.",
    // Placing a thing by tape.
    by_tape: "Mit dem Bandmaß stellen",
    two_points: "von zwei Punkten",
    wall_and_corner: "von Wand und Ecke",
    from_wheel: "von einem Rad",
    first_point: "Von",
    second_point: "Und von",
    distance: "Abstand",
    which_place: "Zwei Stellen passen. Welche?",
    ahead: "Voraus",
    ahead_hint: "Längs zum Fahrzeug, ab der Radmitte; negativ: dahinter",
    aside: "Seitlich",
    aside_hint: "Vom Fahrzeug weg, ab der Radmitte",
    from_the_wall: "Von der Wand",
    along_the_wall: "Entlang, ab ihrer Ecke",
    measured_to: "Gemessen bis",
    middle: "Mitte",
    nearest_side: "nächste Seite",
    put_there: "Dorthin stellen",
    left_place: "Die linke",
    right_place: "Die rechte",
};

pub const fn known(known: Known) -> &'static str {
    match known {
        Known::Taped => "eingemessen",
        Known::ByEye => "abgeschritten oder nach Augenmaß",
        Known::ByEyeOlder => "nach Augenmaß (ältere Regel)",
        Known::Within(_) => "anders bekannt",
    }
}

pub fn not_made(fault: &Fault, lengths: Lengths) -> String {
    let found = crate::words::sentence_start(&found(fault, lengths));
    format!("{found} geht nicht; erlaubt: {}.", allowed(&fault.allowed, lengths))
}

pub fn turns_make(sum: &str) -> String {
    format!("{} {sum}", TEXTS.turns_wrong)
}

pub fn gap_of(gap: &str, share: f64) -> String {
    format!("Die letzte Wand endet {gap} vom Anfang: 1 zu {share:.0} der ganzen Runde.")
}

pub fn still_open(gap: &str) -> String {
    format!("Von hier zum Anfang sind es {gap}.")
}

pub fn explains(wall: &str, taped: &str, would_be: &str) -> String {
    format!("„{wall}“ allein würde es erklären: {would_be} statt {taped}.")
}

pub fn explains_turn(wall: &str, would_be: &str) -> String {
    format!("Die Ecke nach „{wall}“ allein würde es erklären: eine Drehung um {would_be}.")
}

pub fn too_short(by: &str) -> String {
    format!("Die beiden Maße treffen sich nicht: {by} fehlen.")
}

pub fn too_long(by: &str) -> String {
    format!("Ein Maß ist um {by} zu lang, als dass das andere bis dorthin reicht.")
}

pub fn corner(wall: &str, next: &str) -> String {
    format!("Ecke {wall} / {next}")
}

pub fn mark(name: &str) -> String {
    format!("Marke {name}")
}

pub fn wheel(name: &str) -> String {
    format!("Mitte des Rades {name}")
}

pub fn nth_wall(number: usize) -> String {
    format!("Wand {number}")
}

pub fn to_bay(bay: &str) -> String {
    format!("Zu „{bay}“ gehen")
}

pub fn stands_for(set_up: &str) -> String {
    format!("Steht hier für „{set_up}“, die gleichzeitig gemacht wird. Versetzt wird es dort.")
}

pub fn at_once(set_up: &str, bay: &str) -> String {
    format!("{set_up} ({bay})")
}

pub fn set_up_in(bay: &str) -> String {
    format!("Auf „{bay}“ aufstellen")
}

pub fn set_up_of(bay: &str) -> String {
    format!("Auf {bay}")
}

pub fn alcove_part(wall: &str, part: AlcovePart) -> String {
    match part {
        AlcovePart::Side => format!("{wall}, Nische, Seite"),
        AlcovePart::Back => format!("{wall}, Nische, Rückseite"),
        AlcovePart::OtherSide => format!("{wall}, Nische, andere Seite"),
        AlcovePart::Beyond => format!("{wall}, hinter der Nische"),
    }
}
