//! German of the same: see `words/room_drawing.rs`.

use super::Language;
use crate::words::Locale;
use crate::words::room_drawing::RoomDrawing;

/// The fixed texts.
pub const TEXTS: RoomDrawing = RoomDrawing {
    language: Language::German,
    title: "Zeichnung des Raums …",
    title_why: "Macht aus der Zeichnung eines anderen Programms (DXF) einen Raum, oder legt sie unter den Plan",
    file: "Zeichnung (DXF)",
    file_hint: "Eine DXF-Datei in Textform, mit ganzem Pfad oder beim Messplatz; oder ins Fenster ziehen",
    read: "Lesen",
    look_for: "Zeichnung suchen …",
    being_read: "Die Zeichnung wird gelesen …",
    being_made: "Wird ausgearbeitet …",
    none_read: "Eine DXF-Zeichnung wählen oder ins Fenster ziehen. Was daraus wird, ist hier maßstäblich zu sehen, bevor etwas übernommen \
                wird.",
    becomes: "Was daraus wird",
    new_bay: "Ein neuer Messplatz",
    new_bay_why: "Ein eigener Messplatz mit dem gezeigten Fahrzeug. Der offene bleibt, wie er ist",
    this_room: "Der Raum dieses Messplatzes",
    this_room_why: "Raum und Wände sind dann die der Zeichnung; innere Wände und Gegenstände kommen dazu. Was hier steht, bleibt; Türen bleiben, \
                    wo die Zeichnung eine Wand hat",
    under_plan: "Ein Bild unter dem Plan",
    under_plan_why: "Nur ihre Linien, blass, zum Nachzeichnen: Am Messplatz ändert sich nichts",
    unit: "Gezeichnet in",
    mm: "mm",
    cm: "cm",
    m: "m",
    inch: "Zoll",
    foot: "Fuß",
    no_unit: "Die Datei sagt ihre Einheit nicht: die wählen, mit der die Größe stimmt.",
    layers: "Ebenen",
    layers_hint: "Wählen, was aus jeder wird",
    as_room: "Umriss des Raums",
    as_walls: "innere Wände",
    as_things: "Gegenstände",
    left_out: "weggelassen",
    drawn: "gezeichnet",
    stays: "bleibt, wie es ist",
    closed: "Lücke geschlossen",
    outline: "Welcher ist der Raum?",
    outline_hint: "Von beiden Seiten einer Wand ist die innere der Raum",
    gap: "Lücken schließen bis",
    gap_hint: "Zwischen Linienenden, die sich treffen sollten",
    wall_thick: "Wände aus einer Linie",
    wall_thick_hint: "Wie dick eine innere Wand gilt, die als eine Linie gezeichnet ist",
    ceiling: "Lichte Höhe",
    ceiling_hint: "Unter der Decke: Eine Zeichnung von oben sagt sie nicht",
    known_length: "Stimmt die Größe?",
    known_length_why: "Eine gemessene Wand wählen und ihre Länge eintippen: Danach wird die Zeichnung skaliert.",
    which_wall: "Wand",
    none: "keine",
    is_long: "Ihre Länge",
    as_drawn: "Größe der Zeichnung nehmen",
    comes_of_it: "Das kommt heraus",
    not_read: "Nicht zu lesen war",
    take: "Übernehmen",
    no_size: "Die Länge muss größer als null sein.",
    no_room_layer: "Die Ebene mit dem Umriss des Raums wählen.",
    too_far_apart: "Das Gewählte liegt für ein Bild zu weit auseinander: die Ebene weglassen, die weit weg ist.",
    preview: "Das wird aus der Zeichnung",
    leave: "Verlassen",
};

pub fn as_file_says(unit: &str) -> String {
    format!("{unit}, laut Datei")
}

pub fn size(width: f64, height: f64, locale: Locale) -> String {
    format!("Alles Gezeichnete misst {} mal {}.", locale.length(width), locale.length(height))
}

pub fn on_layer(lines: usize, notes: usize, is_hidden: bool) -> String {
    let mut parts = vec![if lines == 1 { "1 Linie".to_owned() } else { format!("{lines} Linien") }];
    match notes {
        0 => {}
        1 => parts.push("1 Beschriftung".to_owned()),
        _ => parts.push(format!("{notes} Beschriftungen")),
    }
    if is_hidden {
        parts.push("ausgeschaltet".to_owned());
    }
    parts.join(", ")
}

pub fn outline_of(number: usize, width: f64, height: f64, locale: Locale) -> String {
    format!("{number}: {} mal {}", locale.bare(width), locale.length(height))
}

pub fn scaled(by: &str) -> String {
    format!("Alles ist {by}-mal so groß wie in der Datei, nach der eingetippten Länge.")
}

pub fn moved_to_bay() -> String {
    "Die Zeichnung liegt anderswo als dieser Messplatz: Sie wurde an seine Ecke gerückt.".to_owned()
}

pub fn doors_lost(names: &[&str]) -> String {
    let names: Vec<String> = names.iter().map(|own| format!("„{own}“")).collect();
    format!(
        "In keiner Wand der Zeichnung, daher weggelassen: {}. Neu eintragen, wo sie sind.",
        names.join(", ")
    )
}

pub fn picture_written(file: &str) -> String {
    format!("Die Zeichnung liegt als Bild unter dem Plan: {file}")
}

pub fn taken(walls: usize, things: usize, lost: &[&str]) -> String {
    let walls = if walls == 1 { "1 Wand".to_owned() } else { format!("{walls} Wände") };
    let things = if things == 1 { "1 Gegenstand".to_owned() } else { format!("{things} Gegenstände") };
    let taken = format!("Aus der Zeichnung übernommen: {walls}, {things}.");
    match lost {
        [] => format!("{taken} Einmessen, worauf es ankommt; dann Türen und Höhen eintragen."),
        lost => format!("{taken} {}", doors_lost(lost)),
    }
}

pub fn ceiling_taken(mm: f64, locale: Locale) -> String {
    format!(
        "Eine Zeichnung von oben sagt nichts über die Decke: {} angenommen, bis sie eingetippt ist.",
        locale.length(mm)
    )
}

pub fn and_more(count: usize) -> String {
    format!("und {count} weitere")
}

pub fn from_to(least: f64, most: f64, locale: Locale) -> String {
    format!("Erlaubt sind {} bis {}.", locale.bare(least), locale.length(most))
}
