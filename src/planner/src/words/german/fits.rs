//! German of the same: see `words/fits.rs`.

use super::{About, Language, sentence_start};
use crate::matrix::{Along, DoorStays, Place, RoomSize};
use crate::words::fits::FitsTexts;

/// The fixed texts.
pub const TEXTS: FitsTexts = FitsTexts {
    language: Language::German,
    page: "Was wohin passt\u{2026}",
    page_why: "Alle Einstellungen einer Liste an allen Stellen des Messplatzes: welche wo bereit ist, die Stelle für die meisten, wie \
               groß ein Raum sein muss (F7)",
    on_paper_why: "Der Bericht für den Inhaber zum Drucken oder Verschicken: was bisher gefunden ist, der Plan, der Raum, die angesehenen \
                   Änderungen",
    of_what: "Von",
    set_ups: "den Aufbauten dieses Messplatzes",
    their_cars: "allen Einstellungen der Fahrzeuge hier",
    all_cars: "allen Einstellungen aller Fahrzeuge",
    visit: "den Einstellungen dieses Besuchs",
    car_and_aiming: "Fahrzeug und Einstellung",
    anywhere: "Irgendwo im Raum",
    ready: "bereit",
    with_care: "mit Vorsicht",
    tight: "knapp",
    after_moves: "umräumen",
    elsewhere: "woanders",
    none_found: "nicht gefunden",
    never: "nie",
    stopped: "gesperrt",
    not_looked: "nicht angesehen",
    waiting: "\u{2026}",
    fit_here: "Passen hier",
    a_month: "im Monat",
    one: "Das Gewählte",
    most: "Die meisten an einer Stelle",
    how_big: "Wie groß ein Raum",
    buys: "Was eine Änderung bringt",
    choose: "Ein Feld drücken: Was dort gefunden ist, steht hier mit seiner Zeichnung.",
    choose_line: "Ein Feld einer Zeile drücken: Ihr Fahrzeug ist im kleinsten Raum für alle gezeichnet.",
    show_it: "Im Messplatz zeigen",
    show_it_why: "Öffnet den Aufbau; steht sein Fahrzeug jetzt anderswo, eine Kopie mit dem Fahrzeug dort, ein Schritt zum Zurücknehmen",
    map_told: "Je dunkler, desto mehr von der Liste lässt sich einstellen, wenn die Mitte der Vorderachse dort liegt, das Fahrzeug längs \
               oder quer im Raum; jede Zahl ist die kleinste ihrer Fläche. Das gezeichnete Fahrzeug steht an der einen Stelle.",
    point: "Auf eine Stelle zeigen: Wie vielen der Liste sie dient, steht hier.",
    fewest: "Alle von möglichst wenigen Stellen",
    fewest_proven: "Längs und quer im Raum dienen ihnen nicht weniger Stellen.",
    fewest_greedy: "Weniger Stellen genügen vielleicht: Bei so langer Liste ist nicht alles probiert.",
    none_served: "Keine Stelle längs oder quer im Raum dient einer davon.",
    no_list: "Es gibt keine Einstellung anzusehen.",
    rooms: "Ein Raum auf der Linie oder darüber dient der ganzen Liste; sonst leer, seine Türen zu.",
    wide: "Breite",
    long: "Länge",
    narrower: "Einer schmaler",
    wider: "Einer breiter",
    adds: "Was jede zum kleinsten Raum beiträgt",
    no_room: "in jedem leeren Raum gesperrt; nicht gezählt",
    comes_in: "kommt so oft im Monat",
    weights_told: "Was nicht gesagt ist, zählt einmal.",
    price: "Preis eines Quadratmeters",
    store: "Tiefe des Lagers an einer Wand",
    store_told: "Für weggeräumte Ständer, Tafeln und Matten: ein Streifen an einer Wand, der längeren oder der kürzeren, in den keine \
                 Einstellung reicht. Ohne Angabe: keiner.",
    in_store: "Lager",
    buys_told: "Jede Wand des Raums weiter außen, jeder Gegenstand weg, jedes Tor offen mit freiem Boden davor, jede Tür und jedes Fenster \
                zugemauert, immer nur eines: welche der Liste dann passen, die jetzt nicht passen, und bei welchen anderen an ihrer Stelle \
                auf weniger zu achten ist. Eine Spalte wählt man mit einem ihrer Felder.",
    further: "Wände und freier Boden vor Toren weiter außen um",
    look: "Alle Änderungen ansehen",
    costs_name: "kostet",
    to_spend: "Höchstens auszugeben",
    by_worth: "das meiste zuerst",
    for_money: "das meiste fürs Geld zuerst",
    beyond: "mehr, als auszugeben ist",
    nothing_locked: "Dort passen alle der Liste, wie es ist: Es ist nichts zu gewinnen.",
    unlocks_none: "Keine einzelne Änderung bringt eine.",
    only_one: "Ob eine Wand oder Stütze weg darf oder eine Tür zugemauert werden darf, sagen die Erbauer und der örtliche Brandschutz.",
    alone_none: "Bringen allein keine",
    alone_none_told: "Mit einem Preis werden sie zusammen mit anderen angesehen.",
    together: "Zusammen für das, was auszugeben ist",
    together_look: "Änderungen zusammen ansehen",
    together_needs: "Angeben, was auszugeben ist und was mindestens zwei Änderungen kosten: Dann werden diese zusammen angesehen.",
    together_none: "Nichts, was dafür zu haben ist, bringt eine.",
    together_told: "Das Beste aus allen einzelnen Änderungen und allen Paaren mit einem Preis, dann immer eine mehr. Andere drei oder mehr \
                    bringen vielleicht mehr.",
    partial: "Angehalten: Nicht alles ist angesehen.",
    again: "Noch einmal ansehen",
    searched: "„Knapp“: Das Fahrzeug müsste genauer stehen, als die Werkstatt es abstellt. „Umräumen“: Zuerst müssten Gegenstände weg. \
               „Woanders“: nicht an dieser Stelle, aber irgendwo im Raum. Sonst bleibt alles, wo es steht. Angesehen sind Richtungen, die \
               ein Grad auseinander sind: Wo nichts gefunden ist, kann dazwischen eine Stelle sein.",
};

pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} angesehen")
}

pub fn of_all(some: &str, all: &str) -> String {
    format!("{some} von {all}")
}

pub fn served_there(some: usize, all: usize) -> String {
    format!("{some} von {all} hier")
}

pub fn park_for(nth: usize, lines: &[&str], spot: &str) -> String {
    format!("{}. {}: {spot}", nth + 1, lines.join("; "))
}

pub fn nowhere_for(lines: &[&str]) -> String {
    format!("Keine Stelle mit genug Spielraum zum Parken: {}.", lines.join("; "))
}

pub fn cell(line: &str, place: &str, found: &str) -> String {
    format!("{line}; {place}: {found}")
}

pub fn costs(sum: &str) -> String {
    format!("Zu diesem Preis kostet er {sum}.")
}

pub fn by(long: &str, wide: &str) -> String {
    format!("{long} mal {wide}")
}

pub fn no_number(typed: &str) -> String {
    format!("„{typed}“ ist keine Zahl ab 0: Nichts ist geändert.")
}

pub fn no_depth(typed: &str, most: &str) -> String {
    format!("„{typed}“ ist keine Tiefe von 0 bis {most}: Nichts ist geändert.")
}

pub fn without(thing: &str) -> String {
    format!("Ohne: {thing}")
}

pub fn wall_further(wall: &str, by: &str) -> String {
    format!("{} {by} weiter außen", sentence_start(wall))
}

pub fn walled_up(opening: &str) -> String {
    format!("{} zugemauert", sentence_start(opening))
}

pub fn open_onto(door: &str, free: &str) -> String {
    format!("{} beim Einstellen offen, der Boden davor auf {free} frei", sentence_start(door))
}

pub fn door_stays(opening: &str, why: DoorStays) -> String {
    let why = match why {
        DoorStays::Exit => "Dort ist ein Rettungsweg, oder einer führt dorthin",
        DoorStays::WayIn => "Für Leute oder ein Fahrzeug der Liste gibt es keinen anderen Weg hinein",
        DoorStays::Used => "Eine Einstellung der Liste steht dort hinaus",
    };
    format!("{} zuzumauern ist nicht gefragt: {why}.", sentence_start(opening))
}

pub fn eases(lines: &[&str]) -> String {
    format!("bei {} ist auf weniger zu achten: {}", lines.len(), lines.join("; "))
}

pub fn unlocks(lines: &[&str]) -> String {
    match lines {
        [] => "bringt keine".to_owned(),
        [one] => format!("bringt 1: {one}"),
        all => format!("bringt {}: {}", all.len(), all.join("; ")),
    }
}

pub fn together_are(changes: &[&str], costs: &str, lines: &[&str]) -> String {
    format!("{}: zusammen {costs}, {}", changes.join(" + "), unlocks(lines))
}

pub fn asked_at(place: &str, fit: usize, all: usize) -> String {
    format!("{place}: {fit} von {all} passen jetzt.")
}

pub fn parked_there(of: &str) -> String {
    format!("{of}, neu abgestellt")
}

impl About<'_> {
    /// A place over a column.
    pub fn fits_place(&self, place: &Place) -> String {
        match place {
            Place::Parked { of, .. } => format!("Wie in „{of}“"),
            Place::Bay(bay) => sentence_start(bay.as_str()),
            Place::Room => TEXTS.anywhere.to_owned(),
        }
    }

    /// A room of the curve.
    pub fn fits_room(&self, room: &RoomSize) -> String {
        let own = self.arrangement;
        format!(
            "{} mal {}, {} m²: so lang, wie {}, {} bei dieser Breite braucht{}.",
            self.length(room.length_mm),
            self.length(room.width_mm),
            self.locale.region.number(room.area() * 1e-6, 1),
            own.vehicle.name,
            own.aiming.name,
            self.in_store(room)
        )
    }

    /// What of a room is kept for what is in store, at the end of a sentence; nothing if none is.
    pub(super) fn in_store(&self, room: &RoomSize) -> String {
        room.strip.as_ref().map_or_else(String::new, |own| {
            let along = match own.along {
                Along::Length => "längs",
                Along::Width => "quer",
            };
            format!("; davon {} tief {along} als Lager", self.length(own.depth_mm))
        })
    }

    /// What a line adds.
    pub fn fits_adds(&self, adds_mm2: f64, alone: &RoomSize) -> String {
        let square_metres = |mm2: f64| self.locale.region.number(mm2 * 1e-6, 1);
        let adds = if adds_mm2 < 5e4 {
            "trägt nichts bei".to_owned()
        } else {
            format!("ohne sie {} m² weniger", square_metres(adds_mm2))
        };
        format!("{adds}; allein {} mal {}", self.length(alone.length_mm), self.length(alone.width_mm))
    }
}
