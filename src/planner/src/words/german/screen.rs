//! German of the same: see `words/screen.rs`.

use super::faults::{against_car, allowed, found};
use super::{Language, listed};
use crate::model::assumed::Assumed;
use crate::model::fault::Fault;
use crate::model::{FloorFeatureKind, Id, Opening, OpeningKind};
use crate::words::Lengths;
use crate::words::screen::{Diagnosis, Screen, cut};

/// The fixed texts.
pub const TEXTS: Screen = Screen {
    language: Language::German,
    // Bar and menus.
    car: "Fahrzeug",
    aiming: "Einstellung",
    bay: "Messplatz",
    arrangement: "Aufstellung",
    open: "Öffnen …",
    save: "Speichern",
    save_as: "Speichern als …",
    recent: "Zuletzt geöffnet",
    drop_it_here: "Loslassen: Ein Messplatz wird geöffnet, ein Fahrzeug eingetragen, ein Bild unter den Plan gelegt.",
    not_to_be_dropped: "Diese Datei ist kein Messplatz, kein Fahrzeug, kein Bild und keine Zeichnung (DXF); nichts wurde geöffnet.",
    one_at_a_time: "Mehrere Dateien wurden abgelegt; nur die erste wurde gelesen.",
    close_page_first: "Zuerst diese Seite schließen, dann die Datei noch einmal ablegen.",
    car_was_read: "Dieses Fahrzeug kommt aus seiner Datei. „Fahrzeug übernehmen“ speichert es bei den eigenen.",
    in_this_folder: "In diesem Ordner",
    built_in: "Mitgelieferte Beispiele",
    nothing_typed_here: "In diesem Feld wurde nichts eingetippt, das rückgängig zu machen wäre; der Messplatz wartet, bis diese Seite zu ist.",
    nothing_to_undo: "Nichts rückgängig zu machen: Seit dem Öffnen wurde nichts geändert.",
    nothing_to_redo: "Nichts zu wiederholen: Nichts wurde rückgängig gemacht.",
    undo: "Rückgängig",
    redo: "Wiederholen",
    measure: "Messen",
    measure_why: "Zwischen zwei beliebigen Punkten messen (M)",
    in_english: "English",
    in_german: "Deutsch",
    language_why: "Die Sprache des Programms und dessen, was es druckt, und ihre Schreibweise von Zahlen und Tagen",
    units: "Wie Längen gezeigt werden",
    millimetres: "mm",
    millimetres_long: "Millimeter",
    metres: "m",
    metres_long: "Meter",
    feet: "ft",
    feet_long: "Fuß und Zoll",
    show: "Ansicht",
    light: "Hell",
    dark: "Dunkel",
    large_letters: "Große Schrift",
    large_letters_why: "Alles größer, auf Armlänge lesbar (Strg und + oder − in kleineren Schritten)",
    as_system: "Wie das System",
    as_system_why: "Hell oder dunkel wie der übrige Rechner, jetzt und wenn sich das ändert",
    full_screen: "Ganzer Bildschirm",
    full_screen_why: "Ohne Fensterrahmen, oder wieder mit ihm (F11)",
    letters_largest: "Größer wird die Schrift nicht.",
    letters_usual: "Die Schrift hat ihre übliche Größe; kleiner wird sie nicht.",
    letters_no_room: "In diesem Fenster ist kein Platz für größere Schrift.",
    turn_to_car: "Blatt nach dem Fahrzeug gedreht",
    turn_to_room: "Blatt, wie der Raum liegt",
    help: "Hilfe",
    first_steps: "Erste Schritte",
    licences: "Lizenzen",
    copy_picture: "Bild kopieren",
    copy_picture_why: "Beide Ansichten, vollständig, zum Einfügen anderswo",
    picture_being_made: "Das Bild wird erstellt …",
    picture_copied: "Die Zeichnung ist in der Zwischenablage.",
    copy_diagnostics: "Diagnose kopieren",
    diagnostics_why: "Für den, der Ihnen hilft: Versionen, Anzeige und Protokoll, ohne Namen von Dateien oder Personen",
    diagnostics_copied: "Versionen, Anzeige und Protokoll sind in der Zwischenablage; Namen von Dateien oder Personen stehen nicht darin.",
    stop: "Anhalten",

    // The answer.
    do_all: "Alles ausführen",
    do_all_why: "Diese Änderungen in der Zeichnung ausführen, in einem Schritt, der sich rückgängig machen lässt",
    do_all_apart: "In neuer Aufstellung",
    do_all_apart_why: "Kopiert diese Aufstellung und führt dort alles aus; diese bleibt, wie sie ist",
    stale: "älteres Ergebnis",
    stale_why: "Das Ergebnis für das, was jetzt gezeichnet ist, ließ sich nicht berechnen; dies ist das letzte. Rückgängig machen, oder speichern und melden.",
    in_the_way: "Was im Weg ist",
    marks: "Marken",
    what_was_said: "Meldung",
    nothing_in_the_way: "Nichts gefunden, was die Einstellung verhindert oder Vorsicht braucht.",
    show_place: "Zeigen",
    showing: "Gezeigt",
    why_this_limit: "Warum dieser Grenzwert?",
    turn_it: "Drehen",
    move_it: "Verschieben",
    take_away: "Wegnehmen",
    park_there: "Dort abstellen",
    put_on_mark: "Auf die Marke stellen",
    open_door: "Öffnen",
    keep_empty: "Leer halten",
    keep_shut: "Geschlossen halten",
    enter_distance: "Gemessenen Abstand eintragen",
    how: "Wie?",
    enter_them: "Eintragen",
    say_which: "Angeben",
    looked_again: "Ich habe es geprüft",
    after_moves: "nach dem Umräumen",
    page_goes_on: "Weiter unten mehr ↓",
    enter_taped: "Links eintippen, was das Bandmaß zeigt, dann angeben, wie genau die Lage bekannt ist.",
    enter_car_place: "Von den Wänden zu drei Rädern messen, links eintippen, wo das Fahrzeug steht, dann „eingemessen“ angeben.",
    enter_levels: "Die Höhen links unter „Bodenhöhen“ eintragen: eine je Zeile, längs, quer und Höhe in mm.",
    enter_figures: "Links die Werte des Herstellers eintragen und angeben, woher sie kommen. Was übernommen wird, ist ein eigenes Fahrzeug.",
    enter_alignment: "Links unter „An diesem Fahrzeug gemessen“ eintragen, was das Protokoll der Achsvermessung sagt.",
    enter_zones: "Links unter „Freiräume“ die Freiräume eintragen. Was übernommen wird, ist ein eigenes Fahrzeug.",
    enter_heights_from: "Links unter „Höhen ab“ wählen, was die Anleitung meint. Was übernommen wird, ist ein eigenes Fahrzeug.",
    no_marks: "Diese Einstellung braucht keine Marken.",
    tape_must_read: "Das Bandmaß muss zeigen",
    laser_caution: "Nicht in den Laser blicken; den Strahl unter Augenhöhe halten und von blanken Flächen weg. Räder verkeilen, bevor man sich neben das Fahrzeug legt.",

    // What is in the bay.
    in_this_bay: "An diesem Messplatz",
    add: "+ Neu",
    local_rules: "freihalten, örtliche Vorschriften gelten",
    name: "Name",
    no_name: "Ein Name ist nötig.",
    from_wall_hint: "Von der Wand zum nächsten Teil davon, rechtwinklig zur Wand",
    turned: "gedreht",
    turned_hint: "Gegen die Längsseite des Messplatzes, von oben gesehen gegen den Uhrzeigersinn",
    length: "Länge",
    length_hint: "Entlang der eigenen langen Seite",
    width: "Breite",
    diameter: "Durchmesser",
    wheelbase: "Radstand",
    bottom: "Unterkante",
    bottom_hint: "Vom Boden zum tiefsten Teil; 0, wenn es auf dem Boden steht",
    top: "Oberkante",
    top_hint: "Vom Boden zum höchsten Teil",
    upside_down: "Die Oberkante muss über der Unterkante liegen.",
    kind: "Art",
    material: "Material",
    metal: "Metall darin",
    as_its_face: "wie das Material",
    known: "Lage",
    known_within: "bekannt auf ±",
    known_within_hint: "Um wie viel die Lage falsch sein kann, nach jeder Seite",
    to_move: "zum Verschieben",
    locked: "gesperrt",
    locked_why: "In der Zeichnung nicht von Hand zu verschieben",
    is_locked: "Gesperrt: Ziehen verschiebt es nicht, hier eingetippte Werte schon.",
    copy: "Kopieren",
    copy_why: "Ein zweites danebenstellen (Strg+D)",
    remove: "Entfernen",
    remove_why: "Aus dieser Aufstellung nehmen (Entf); am Messplatz bleibt es",
    marks_go_with_car: "Marken, Freiräume und Ziele auf ihren Marken gehen mit dem Fahrzeug mit.",
    on_its_mark: "Es steht auf seiner Marke.",
    off_its_mark: "Gegen die Marke, vom Sensor aus gesehen:",
    further_away: "weiter weg",
    further_away_hint: "Weiter vom Sensor weg als die Marke; minus ist näher",
    to_the_left: "nach links",
    to_the_left_hint: "Vom Sensor aus gesehen nach links; minus ist nach rechts",
    stand_turned_hint: "Aus dem rechten Winkel gedreht, von oben gesehen gegen den Uhrzeigersinn",
    height: "Höhe",
    height_hint: "Mitte der Zielfläche über dem Boden",
    tipped: "geneigt",
    tipped_hint: "Positiv, wenn die Zielfläche nach unten schaut",
    shut: "geschlossen",
    stands_open: "offen",
    nothing_to_type: "Es gehört zum Raum, zum Boden oder zur Einstellung; seine Werte stehen in der Datei.",
    no_arrangement: "Diese Aufstellung gibt es nicht, oder sie ist die einzige; nichts wurde geändert.",
    no_shape: "Aus diesen Werten wird keine Form; nichts wurde geändert.",

    // The drawing and the foot.
    paper_to_car: "Blatt nach dem Fahrzeug gedreht",
    paper_as_room: "Blatt, wie der Raum liegt",
    paper_to_sight_line: "Blatt nach der Sichtlinie gedreht",
    turn_paper: "Blatt drehen: nach dem Fahrzeug, oder wie der Raum liegt",
    change_axis: "Seitenansicht entlang der anderen Linie: Mittellinie oder Sichtlinie",
    all: "Alles",
    all_why: "Beide Ansichten ganz zeigen (0, oder Doppelklick auf leeres Blatt)",
    larger: "Größer (+)",
    smaller: "Kleiner (−)",
    nothing_in_hand: "Gegenstand oder Fahrzeug ziehen; ein Rahmen wählt mehrere. Mausrad: Größe; Leertaste und Ziehen: verschieben.",
    nothing_in_hand_short: "Gegenstand oder Fahrzeug ziehen.",
    nudging: "Pfeiltasten schieben, [ ] drehen; Tab: Werte; rechte Taste: mehr.",
    nudging_short: "Pfeiltasten schieben, [ ] drehen.",
    room_in_hand: "Ecke ziehen: Ihre Wände gehen mit; mit Alt nur die Ecke. Werte stehen links.",
    room_in_hand_short: "Eine Ecke des Raums ziehen.",
    fixed_in_hand: "Was davon bekannt ist, steht links.",
    while_dragging: "Strg oder Alt halten: kein Einrasten. Esc stellt zurück.",
    while_dragging_short: "Strg oder Alt: kein Einrasten.",
    measure_from: "Drücken, von wo gemessen wird; Ecken, Marken und Räder rasten ein. Esc beendet.",
    measure_from_short: "Drücken, von wo gemessen wird.",
    measure_to: "Drücken, bis wohin gemessen wird.",
    caution_short: "Die Anleitung des Herstellers entscheidet.",

    // Pages.
    close: "Schließen",
    begin: "Anfangen",
    keys: "Tasten",
    question: "Einen Moment",
    save_changes: "Änderungen speichern?",
    welcome: "Dies ist eine erfundene Werkstatt",
    welcome_about: "Messplatz, Fahrzeug und alle Werte hinter dieser Seite sind erfunden, zum Umsehen. Ihr eigenes Fahrzeug und Ihr \
         eigener Messplatz beginnen hier; was Sie öffnen oder speichern, ist beim nächsten Start wieder da.",
    who_aims: "Ich stelle Sensoren ein",
    who_aims_how: "Ist an meinem Messplatz genug frei für dieses Fahrzeug? Das Fahrzeug nach dem Blatt des Herstellers eintragen, oder einen \
         vorhandenen Messplatz öffnen.",
    enter_my_car: "Mein Fahrzeug eintragen",
    open_my_bay: "Meinen Messplatz öffnen",
    who_plans: "Ich leite die Werkstatt",
    who_plans_how: "Welche Arbeiten passen in meinen Raum? Den Raum zeichnen, dann ein Fahrzeug und eine Einstellung nach der anderen versuchen.",
    draw_my_bay: "Meinen Messplatz zeichnen",
    who_shows: "Ich schreibe den Kostenvoranschlag",
    who_shows_how: "Warum braucht das einen ganzen Messplatz? Einen Gegenstand in die blau gestrichelte Fläche ziehen: Das Ergebnis oben ändert \
         sich beim Ziehen.",
    look_round: "In der erfundenen Werkstatt umsehen",
    examples: "Erfundene Werte",
    examples_about: "Diese Werte sind erfunden, um das Programm zu zeigen; kein Ergebnis daraus gilt für ein wirkliches Fahrzeug oder einen \
         wirklichen Raum. Eigene Werte eintragen und angeben, woher sie kommen: Dann verschwindet der Hinweis „mit Beispielwerten“.",
    no_examples: "Hier ist kein Wert mehr erfunden.",
    enter_own: "Eigene eintragen",
    path_of_layout: "Ein Messplatz (.ron)",
    path_to_save: "Speichern als (.ron)",
    open_it: "Öffnen",
    look_for_it: "Suchen …",
    look_for_place: "Ort suchen …",
    changed_on_disk: "Jemand anderes hat diese Datei seit dem Öffnen geändert. Speichern würde das jetzt überschreiben.",
    save_open_elsewhere: "Diese Datei ist auch in einem anderen Fenster offen. Wird sie hier gespeichert, ändert sie sich unter jenem Fenster; dort wird \
         beim Speichern danach gefragt.",
    save_all_the_same: "Trotzdem speichern",
    save_first: "Zuerst speichern",
    do_not_save: "Nicht speichern",
    stay: "Hier bleiben",
    replace_it: "Ersetzen",
    open_theirs: "Die andere öffnen",
    save_there_again: "Dort wieder speichern",
    other_name: "Anderer Name",
    cannot_be_judged: "die erste Aufstellung dieses Messplatzes kann diese Version nicht beurteilen; die Werte ihres Fahrzeugs und ihrer Gegenstände \
         ansehen",

    // A car that is being entered.
    finish_car: "Zuerst das Fahrzeug, das eingetragen wird, übernehmen oder verwerfen; der Messplatz wartet.",
    drop_car_question: "Was von diesem Fahrzeug eingetragen wurde, ist noch nicht übernommen. Verwerfen?",
    drop_bay_question: "Der begonnene Messplatz ist noch nicht angelegt. Das Programm ohne ihn schließen?",
    drop_list_question: "Was in der Arbeitsliste geändert wurde, ist noch nicht übernommen. Das Programm ohne das schließen?",
    go_on_with_it: "Damit weitermachen",
    quit_without_it: "Ohne das schließen",
    go_on_entering: "Weiter eintragen",
    drop_it: "Fahrzeug verwerfen",
    no_home: "Es gibt keinen persönlichen Ordner dafür; nichts wurde gespeichert.",

    on_this_car: "An diesem Fahrzeug gemessen",
    sensor_measured: "Sensorlage wie verbaut",
    wheels_measured: "Radpunkte wie gemessen",
    centre_follows_hint: "Wie das Bandmaß es an diesem Fahrzeug zeigt: Die Mitte des Sensors folgt daraus",
    wheel_ahead: "voraus",
    wheel_left: "links",
    wheels_hint: "Unter der Mitte des Reifens: wie weit vor der Vorderachse und links der Mittellinie, wie im Profil; negativ: dahinter, rechts",
    toe_left: "Spur hinten links",
    toe_right: "Spur hinten rechts",
    set_back: "Radversatz",
    set_back_hint: "Aus dem Protokoll der Achsvermessung: um wie viel ein Vorderrad weiter hinten steht als das andere, ohne Vorzeichen. Leer: nicht bekannt",
    turning_circle: "Wendekreis",
    turning_circle_hint: "Zwischen Bordsteinen, als Durchmesser. Leer: nicht bekannt",
    other_toe: "Die Spur nur eines Hinterrads sagt noch nichts: auch die des anderen eintippen.",

    // A visit.
    visit: "Auftrag …",
    change_list: "Diese Liste ändern",
    change_list_why: "Welche Arbeit die Einstellung welcher Sensoren verlangt: wird als Liste der Werkstatt gespeichert",
    work: "Arbeit",
    to_mind: "Zu beachten",
    more_work: "Weitere Arbeit",
    keep_list: "Als Liste der Werkstatt speichern",
    shop_list: "Die Liste der Werkstatt",
    this_shop: "diese Werkstatt",
    work_done: "Was an diesem Fahrzeug gemacht wird",
    maker_decides: "Die Anleitung des Herstellers entscheidet, was nach welcher Arbeit einzustellen ist.",
    nothing_chosen: "Noch ist nichts angekreuzt.",
    none_entered: "Diese Arbeit verlangt Einstellungen, von denen für dieses Fahrzeug keine eingetragen ist:",
    take_visit: "In dieser Reihenfolge einstellen",
    in_for: "Auftrag",
    all_aimings: "Alle Einstellungen dieses Fahrzeugs",

    // All cars.
    all_cars: "Alle Fahrzeuge …",
    search_list: "Suchen nach Name, Art oder Größe (Strg+F); Eingabe nimmt den ersten Treffer, Esc beendet die Suche",
    nothing_like_that: "So etwas gibt es hier nicht.",
    search: "Suchen nach Name, Klasse, Sensor oder Herkunft",
    choose_it: "Wählen",
    no_car_found: "So ein Fahrzeug gibt es nicht.",

    // Arrangements.
    duplicate: "Noch eine wie diese",
    duplicate_why: "Zum Versuchen: in der Kopie umräumen, dann beide vergleichen",
    compare: "Vergleichen …",
    compare_why: "Diese Aufstellung und eine andere, oder wie sie geöffnet wurde, nebeneinander, mit den Änderungen",
    compare_title: "Vorher und nachher",
    compare_with: "Verglichen mit",
    as_opened: "Wie geöffnet",
    name_arrangement: "Aufstellung benennen …",
    name_it: "So benennen",
    remove_arrangement: "Diese Aufstellung löschen",
    show_this: "Diese zeigen",
    different: "Anders",
    gone: "Weg",
    new_here: "Neu",
    in_both: "In beiden",

    // So that nothing is lost.
    left_behind: "Nicht gespeicherte Arbeit",
    work_list: "Arbeitsliste",
    left_behind_about: "Das letzte Mal wurde das Programm beendet, bevor dies gespeichert war. Dort weitermachen oder es verwerfen. Wird diese \
         Seite geschlossen, bleibt es für den nächsten Start.",
    take_up: "Wieder öffnen",
    throw_away: "Verwerfen",
    nothing_left: "Nichts ist übrig.",
    left_by_later: "Das stammt von einer neueren Version des Programms; mit dieser öffnen. Es bleibt, wo es ist.",
    left_damaged: "Was davon aufbewahrt ist, ist nicht mehr lesbar.",
    bay_begun: "Ein begonnener Messplatz",
    left_is_saved: "In seiner Datei steht schon alles davon.",
    left_saved_since: "Seine Datei wurde seitdem wieder gespeichert: Dort steht jetzt etwas anderes. Vor dem Speichern wird gefragt.",
    left_file_gone: "Seine Datei ist nicht mehr da.",
    left_for_later: "Es bleibt aufbewahrt und steht unter Messplatz, „Nicht gespeicherte Arbeit“.",
    never_saved: "Nie als Datei gespeichert",
    open_elsewhere: "Diese Datei ist auch in einem anderen Fenster offen. In einem davon schließen, oder hier unter anderem Namen speichern.",
    gone_meanwhile: "Die Datei dieses Messplatzes ist nicht mehr da: gelöscht, verschoben oder umbenannt. Was hier ist, bleibt; zum Behalten speichern.",
    changed_meanwhile: "Jemand anderes hat diese Datei seit dem Öffnen geändert. Beim Speichern wird gefragt, welche von beiden bleibt; die andere lässt \
         sich öffnen.",
    not_kept_now: "Nicht gespeicherte Arbeit ist jetzt nicht gegen Absturz gesichert: bald speichern.",
    list_changed_meanwhile: "Jemand anderes hat die Arbeitsliste der Werkstatt geändert, seit sie hier gelesen wurde. Noch einmal speichern ersetzt sie.",
    finish_list: "Die Arbeitsliste wird gerade geändert. Erst diese speichern, dann das hier wieder öffnen.",
    finish_bay: "Ein anderer Messplatz ist begonnen. Erst diesen anlegen oder von vorn beginnen, dann das hier wieder öffnen.",
    keeper_ended: "Nichts wird mehr gegen Absturz gesichert. Arbeit speichern, das Programm schließen und neu starten.",
    no_text_to_keep: "Was jetzt eingetragen ist, lässt sich nicht gegen Absturz sichern: Ein Wert oder Text darin ist nicht zu schreiben. \
         Rückgängig machen, oder speichern.",
    undo_not_kept: "Was davor gemacht wurde, ist nicht rückgängig zu machen: Nur der letzte Stand wurde aufbewahrt.",
    nothing_kept: "Es gibt keinen persönlichen Ordner: Nicht gespeicherte Arbeit ist nicht gegen Absturz gesichert; oft speichern.",

    // When something goes wrong.
    fault_title: "Im Programm ist ein Fehler aufgetreten",
    fault_why: "Es liegt nicht an Ihnen. Die Arbeit ist aufbewahrt, wie sie nach der letzten Änderung war; die Zeichnung lässt sich wieder ansehen.",
    go_on: "Weiter",
};

pub fn of(what: &str, of: &str) -> String {
    format!("{what}: {of}")
}

pub fn with(name: &str, note: &str) -> String {
    format!("{name}, {note}")
}

pub fn numbered(what: &str, number: usize) -> String {
    format!("{what} {number}")
}

pub fn letters_now(percent: u32) -> String {
    format!("Schrift: {percent} % der üblichen Größe.")
}

pub fn counted(what: &str, count: usize) -> String {
    format!("{what} ({count})")
}

pub fn list_from(name: &str, source: &str) -> String {
    format!("{name}. {source}")
}

pub fn when_and_where(when: &str, place: &str) -> String {
    format!("{when}. {place}")
}

pub fn at_place(which: &str, along: &str, across: &str) -> String {
    format!("{which} ({along}; {across})")
}

pub fn diagnosis(of: &Diagnosis<'_>) -> String {
    let ([system, machine], [width, height]) = (of.system, of.window);
    let stale = if of.stale { "ja" } else { "nein" };
    format!(
        "Baywright {} ({system} {machine})\nBildschirmbibliothek: {}\nFenster: {width:.0} x {height:.0} Punkte, {} px je Punkt, \
         Vergrößerung {}\nStand {}, {} Gegenstände, {} Befunde, veraltet: {stale}\n\nProtokoll:\n{}",
        of.version, of.library, of.px_per_point, of.zoom, of.generation, of.things, of.findings, of.log,
    )
}

pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} geprüft")
}

pub fn after_the_moves(set_up: &str) -> String {
    format!("{set_up}, {}", TEXTS.after_moves)
}

pub fn more_below(count: usize) -> String {
    format!("{count} weitere unten")
}

pub fn from_wall(wall: &str) -> String {
    format!("ab {wall}")
}

pub fn no_length(text: &str) -> String {
    format!("„{}“ ist keine Länge; eine Zahl eintippen wie 1250, 1,25 m oder 4 ft 1 1/4 in.", cut(text))
}

pub fn which(thousands: &str, decimal: &str) -> String {
    format!("{thousands} oder {decimal}?")
}

pub fn not_answered(text: &str, which: &str) -> String {
    format!("„{}“ wurde nicht übernommen: {which}", cut(text))
}

pub fn no_angle(text: &str) -> String {
    format!("„{}“ ist kein Winkel; Grad eintippen, wie 12,5.", cut(text))
}

pub fn no_such(name: &Id) -> String {
    format!("„{name}“ gibt es hier nicht; nichts wurde geändert.")
}

pub fn name_taken(name: &Id) -> String {
    format!("„{name}“ heißt hier schon etwas; einen anderen Namen wählen.")
}

pub fn unsound(fault: &Fault, lengths: Lengths) -> String {
    let (found, allowed) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    format!("Nichts geändert. Das geht hier nicht: {found}; erlaubt: {allowed}.")
}

pub fn would_shut(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    format!(
        "Nichts geändert: Die Aufstellung „{arrangement}“ würde nicht mehr zu ihrem Fahrzeug passen ({}).",
        against_car(fault, lengths)
    )
}

pub fn not_shown(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    format!(
        "Die Aufstellung „{arrangement}“ bleibt, wie sie ist, und lässt sich nicht zeigen: Sie passt nicht zu ihrem Fahrzeug \
         ({}). Ist das am Fahrzeug berichtigt, lässt sie sich wieder zeigen.",
        against_car(fault, lengths)
    )
}

pub fn no_aiming(car: &str) -> String {
    format!(
        "Für „{car}“ ist keine Einstellung eingetragen; ein anderes Fahrzeug wählen, oder eine in seinem Profil eintragen."
    )
}

pub fn saved(path: &str) -> String {
    format!("Gespeichert: {path}")
}

pub fn nothing_to_save(path: &str) -> String {
    format!("Nichts zu speichern: In {path} steht schon alles.")
}

pub fn saved_without_cars(path: &str, cars: &[&Id]) -> String {
    let named: Vec<String> = cars.iter().map(|id| format!("„{id}“")).collect();
    let (car, is, own) = if named.len() == 1 {
        ("das Fahrzeug", "wird", "seine eigene Datei")
    } else {
        ("die Fahrzeuge", "werden", "ihre eigenen Dateien")
    };
    format!(
        "Gespeichert: {path}. Dort {is} {car} {} nicht gefunden: {own} in einen Ordner „vehicle-profiles“ neben dem Ordner des \
         Messplatzes legen, sonst lässt er sich dort nicht zeigen.",
        listed(&named)
    )
}

pub fn saved_with_backup(path: &str, backup: &str) -> String {
    format!(
        "Gespeichert: {path}. Kommentare bleiben darin nicht erhalten; die Datei mit ihnen ist jetzt {backup}"
    )
}

pub fn saved_with_older(path: &str, older: &str) -> String {
    format!("Gespeichert: {path}. Sie war von einer älteren Version; diese ist jetzt {older}")
}

pub fn aiming_of(place: usize, all: usize) -> String {
    format!("{} {place} von {all}", TEXTS.aiming)
}

pub fn to_be_aimed(count: usize) -> String {
    match count {
        0 => "Nach dieser Liste ist danach nichts einzustellen.".to_owned(),
        1 => "Neu einzustellen: 1".to_owned(),
        _ => format!("Neu einzustellen, in dieser Reihenfolge: {count}"),
    }
}

pub fn ago(seconds: u64) -> String {
    let (count, one, more) = match seconds {
        0..60 => return "Vor weniger als einer Minute".to_owned(),
        60..3_600 => (seconds / 60, "einer Minute", "Minuten"),
        3_600..86_400 => (seconds / 3_600, "einer Stunde", "Stunden"),
        _ => (seconds / 86_400, "einem Tag", "Tagen"),
    };
    if count == 1 { format!("Vor {one}") } else { format!("Vor {count} {more}") }
}

pub fn not_understood(path: &str) -> String {
    format!(
        "Ein Teil der nicht gespeicherten Arbeit von früher ist beschädigt, oder eine neuere Version des Programms hat ihn \
         geschrieben; er bleibt, wie er ist, in {path}."
    )
}

pub fn failed_beside(words: &str) -> String {
    format!(
        "Im Hintergrund ist ein Fehler des Programms aufgetreten; von Ihrer Arbeit geht nichts verloren: {words}"
    )
}

pub fn keeper_failed(words: &str) -> String {
    format!(
        "Ein Fehler des Programms ist aufgetreten, und eine Änderung wurde nicht gegen Absturz gesichert; die Arbeit bald \
         speichern: {words}"
    )
}

pub fn kept_at(path: &str) -> String {
    format!("Eine Kopie der Arbeit wurde hier gespeichert: {path}")
}

pub fn not_kept(why: &str) -> String {
    format!("Von der Arbeit ließ sich keine Kopie schreiben: {why}")
}

pub fn unsaved(bay: &str) -> String {
    format!("„{bay}“ hat Änderungen, die nicht gespeichert sind.")
}

pub fn file_is_gone(path: &str) -> String {
    format!(
        "{path} ist nicht mehr da: seit dem Öffnen gelöscht, verschoben oder umbenannt. Was hier ist, ist nicht verloren; es lässt \
         sich dort wieder speichern, oder unter anderem Namen."
    )
}

pub fn to_scroll(what: &str) -> String {
    format!("{what}, mit den Pfeiltasten zu rollen")
}

pub fn file_is_there(path: &str) -> String {
    format!("Diese Datei gibt es schon: {path}")
}

pub fn undo_what(name: Option<&str>) -> String {
    name.map_or_else(
        || "Nichts rückgängig zu machen".to_owned(),
        |name| format!("Rückgängig: {name} (Strg+Z)"),
    )
}

pub fn redo_what(name: Option<&str>) -> String {
    name.map_or_else(
        || "Nichts zu wiederholen".to_owned(),
        |name| format!("Wiederholen: {name} (Strg+Umschalt+Z)"),
    )
}

pub fn on_canvas(name: &str, in_top_view: bool) -> String {
    if in_top_view { format!("{name}, Draufsicht") } else { format!("{name}, Seitenansicht") }
}

pub fn scale_bar(length: &str) -> String {
    format!("Maßstab, {length}")
}

pub fn measured(distance: &str, along: &str, other: &str, in_side_view: bool) -> String {
    if in_side_view {
        format!("{distance}: {along} längs, {other} auf oder ab")
    } else {
        format!("{distance}: {along} längs zum Fahrzeug, {other} quer")
    }
}

pub fn of_wheel(wheel: &str, figure: &str) -> String {
    format!("{wheel}, {figure}")
}

pub fn show_place_of(finding: &str) -> String {
    format!("Zeigen: {finding}")
}

pub fn why_of(finding: &str) -> String {
    format!("Warum dieser Grenzwert? {finding}")
}

pub fn mark_to_mark(from: &str, to: &str) -> String {
    format!("Marke {from} bis Marke {to}")
}

pub fn assumed(figures: &[Assumed]) -> String {
    super::assumed::sentence(figures)
}

pub fn opening_size(width: &str, bottom: &str, top: &str) -> String {
    format!("{width} breit, von {bottom} bis {top} über dem Boden")
}

pub const fn floor_feature(kind: FloorFeatureKind) -> &'static str {
    match kind {
        FloorFeatureKind::Drain => "Rinne im Boden",
        FloorFeatureKind::Pit => "Grube im Boden",
        FloorFeatureKind::Joint => "Fuge im Boden",
    }
}

pub fn opening_note(opening: &Opening, wall: Option<&str>) -> String {
    let what = match (opening.kind, opening.shut) {
        (OpeningKind::Window, _) => "Fenster",
        (OpeningKind::Gap, _) => "Öffnung",
        (_, true) => "geschlossen",
        (_, false) => "offen",
    };
    wall.map_or_else(|| what.to_owned(), |wall| format!("{what}, in „{wall}“"))
}
