//! German of the same: see `words/forms.rs`.

use super::Language;
use super::faults::{against_car, allowed, found};
use super::rooms::two_lengths;
use crate::entry::starter::StartKind;
use crate::geometry::marks::{Construction, Wheel};
use crate::model::fault::{Fault, Found};
use crate::model::{
    Adjusted, Datum, End, Exclusion, HeightsFrom, MeasuredAlong, ReferenceAxis, SensorPoint, TargetHeight,
    TargetKind, Vehicle, VehicleClass, VerticalReference, ZoneFrame,
};
use crate::words::forms::Forms;
use crate::words::{Lengths, Units};

/// The fixed texts.
pub const TEXTS: Forms = Forms {
    language: Language::German,
    // A car.
    new_car: "Neues Fahrzeug eintragen …",
    change_car: "Dieses Fahrzeug ändern …",
    copy_car: "Ähnliches Fahrzeug eintragen …",
    change_it: "Ändern",
    copy_it: "Ähnliches eintragen",
    your_car: "Ihr Fahrzeug",
    keep_car: "Fahrzeug übernehmen",
    drop_car: "Verwerfen",
    keep_why: "Speichert es bei Ihren Fahrzeugen und stellt es auf diesen Messplatz",
    short_form: "Kurzes Formular",
    go_to: "Gehe zu",
    go_to_hint: "Klappt einen Abschnitt auf und bringt ihn in Sicht",
    seek: "Suchen",
    seek_hint: "Einen Teil des Namens eintippen, wie Boden: Nur solche Zeilen werden gezeigt",
    whole_form: "Alles",
    short_about: "Die Werte aus dem Blatt des Herstellers, in dessen Reihenfolge. Was offen bleibt, wird nach der Klasse angenommen und \
         gekennzeichnet.",
    assumed: "Annahme",
    assumed_why: "Angenommen, nicht eingetragen. Drücken, wenn es so stimmt.",
    to_put_right: "Vor dem Übernehmen zu berichtigen:",
    waits: "Die Werte des Fahrzeugs passen noch nicht zusammen. Dies ist das Ergebnis für das Fahrzeug, wie es vorher war.",
    not_shown_yet: "Die Zeichnung zeigt das Fahrzeug, wie es vorher war.",
    class: "Aufbau",
    name_of_car: "Name des Fahrzeugs",
    file_name: "Kurzname, für die Datei",
    my_car: "mein-fahrzeug",
    new_car_name: "Neues Fahrzeug",
    file_name_hint: "Buchstaben, Ziffern und Striche; so nennt ein Messplatz das Fahrzeug",
    ask_right: "Stimmt das?",

    // The car's body.
    body: "Karosserie",
    length: "Länge",
    width: "Breite",
    width_hint: "Der Karosserie, ohne Spiegel",
    height: "Höhe",
    wheelbase: "Radstand",
    overhang_front: "Überhang vorn",
    overhang_front_hint: "Von der Vorderachse zum vordersten Punkt",
    overhang_rear: "Überhang hinten",
    overhang_rear_hint: "Von der Hinterachse zum hintersten Punkt",
    ground_clearance: "Bodenfreiheit",
    wheels: "Räder",
    track_front: "Spurweite vorn",
    track_rear: "Spurweite hinten",
    track_hint: "Zwischen den Mitten der beiden Reifen",
    tyre_diameter: "Reifen, Ø",
    tyre_width: "Reifenbreite",
    tyre_width_rear: "Reifenbreite hinten",
    tyre_width_rear_hint: "Leer: wie vorn",
    mirrors: "Außenspiegel",
    mirror_width: "Breite über Spiegel",
    mirror_ahead: "Spiegel vor der Achse",
    mirror_ahead_hint: "Vor der Vorderachse; negativ: dahinter",
    mirror_height: "Spiegel über Boden",
    ride_heights: "Fahrzeughöhenstand",
    ride_heights_given: "Gegeben: Radlaufkante über der Radmitte",
    outlines: "Umrisse",
    outline_top: "Von oben",
    outline_side: "Von der Seite",
    outline_top_hint: "Ein Punkt je Zeile: vor der Vorderachse, nach links, in mm. Leer: nach der Klasse angenommen",
    outline_side_hint: "Ein Punkt je Zeile: vor der Vorderachse, über dem Boden, in mm. Leer: nach der Klasse angenommen",
    body_points: "Benannte Punkte",
    add_body_point: "Punkt hinzufügen",
    a_point: "Emblem",

    // Sensors.
    sensors: "Sensoren",
    add_sensor: "Sensor hinzufügen",
    sensor_kind: "Art",
    name: "Name",
    ahead: "Vor der Vorderachse",
    ahead_hint: "Längs zum Fahrzeug; negativ: hinter der Vorderachse",
    aside: "Links der Mittellinie",
    aside_hint: "Negativ: rechts",
    above_ground: "Über Boden",
    looks_left: "Blickt nach links um",
    looks_left_hint: "Von geradeaus; negativ: nach rechts",
    looks_up: "Blickt nach oben um",
    sees_across: "Sichtfeld, Breite",
    sees_down: "Sichtfeld, Höhe",
    frequency: "Frequenz, GHz",
    bandwidth: "Bandbreite, GHz",
    beam_across: "Strahl, Breite",
    beam_down: "Strahl, Höhe",
    pixels_across: "Bildpunkte, Breite",
    pixels_down: "Bildpunkte, Höhe",
    adjusted: "Eingestellt durch",
    remove: "Entfernen",
    up: "Früher",
    down: "Später",
    copy: "Kopieren",

    // Aimings.
    aimings: "Einstellungen",
    add_aiming: "Einstellung hinzufügen",
    title: "Titel",
    of_sensor: "Für Sensor",
    show_it: "Zeigen",
    axis: "Geradeaus ist",
    azimuth: "Toleranz, links und rechts",
    elevation: "Toleranz, auf und ab",
    floor_level: "Bodenhöhe innerhalb",
    floor_level_hint: "Größter Höhenunterschied über Räder und Ziel; leer, wenn nichts verlangt ist",
    floor_pitch: "Längsneigung bis",
    floor_pitch_hint: "Wie weit die Ebene der Räder vorn hoch oder tief liegen darf; leer, wenn nichts verlangt ist",
    floor_roll: "Querneigung bis",
    floor_roll_hint: "Wie weit die Ebene der Räder auf einer Seite hoch liegen darf; leer, wenn nichts verlangt ist",
    working_room: "Arbeitsraum",
    working_room_hint: "Rund um das Fahrzeug, zum Gehen und Arbeiten; leer: wie in der Werkstatt üblich",
    thrust_limit: "Fahrachswinkel bis",
    set_back_limit: "Radversatz bis",
    alignment_hint: "Darüber wird das Fahrzeug nicht eingestellt; leer, wenn die Anleitung nichts sagt",
    stands_with: "Steht",
    stands_as_usual: "wie üblich: Matten gemeinsam, andere nacheinander",
    stands_with_these: "gleichzeitig mit",
    have_ready: "Bereitlegen",
    conditions: "Vorher erfüllen",
    one_a_line: "Je Zeile eines",
    targets: "Ziele, der Reihe nach",
    add_target: "Ziel hinzufügen",
    target_kind: "Ziel",
    face_width: "Breite der Zielfläche",
    face_height: "Höhe der Zielfläche",
    face_depth: "Fläche bis Rückseite",
    centre_behind: "Zentrum hinter der Fläche",
    stand_off: "Abstand",
    stand_off_from: "Gemessen von",
    stand_off_to: "Gemessen bis",
    stand_off_along: "Gemessen entlang",
    bearing: "Richtung, nach links",
    bearing_hint: "Von geradeaus; negativ: nach rechts",
    stands_left: "Steht links um",
    stands_left_hint: "Von der Linie, von der aus gemessen wird; negativ: rechts",
    target_height_kind: "Höhe der Mitte, ab",
    target_height: "Höhe",
    vertical: "Lotrecht ist",
    heights_from: "Höhen ab",
    heights_from_hint: "Beides ist gleich, außer auf Fahrschienen",
    stand_lowest: "Reicht hinab bis",
    stand_highest: "Reicht hinauf bis",
    stand_reach_hint: "Mitte der Zielfläche über dem Boden; leer, wenn nicht bekannt",
    turned: "Nach links gedreht um",
    mark_under: "Steht über Marke",
    no_mark: "keine Marke",
    within_along: "Toleranz, längs",
    within_across: "Toleranz, quer",
    within_height: "Toleranz, Höhe",
    within_yaw: "Toleranz, gedreht",
    within_pitch: "Toleranz, geneigt",
    empty_is_nothing: "Leer: Die Anleitung sagt nichts",
    has_stand: "Auf einem Ständer",
    stand_base: "Füße, Höhe",
    stand_mast: "Mast, Seite",
    stand_behind: "Mast hinter der Fläche",
    stand_top: "Mast, oben",
    aims_by_place: "Falsche Lage verstellt um",
    aims_by_squareness: "Schiefer Stand verstellt um",
    share_hint: "Wie viel vom Fehler des Ziels zum Fehler der Einstellung wird: 1 alles, 0 nichts",
    zones: "Freiräume",
    add_zone: "Freiraum hinzufügen",
    names_no_zone: "Die Anleitung nennt keinen",
    names_no_zone_why: "Nur nach einem Blick in die Anleitung ankreuzen. Dann wird kein Freiraum beurteilt; wer einen hinzufügt, löscht das Kreuz.",
    a_zone: "Freiraum",
    zone_frame: "Geht mit",
    excludes: "Freizuhalten von",
    sends_back: "Radarecho über, dBsm",
    sends_back_hint: "Dezibel über einem Quadratmeter: 0 ist das Echo von 1 m², 10 von 10 m², 20 von 100 m², -10 von 0,1 m²",
    bottom: "Ab Höhe",
    top: "Bis Höhe",
    middle_x: "Mitte, längs",
    middle_y: "Mitte, nach links",
    zone_from_x: "Von, längs",
    zone_to_x: "Bis, längs",
    zone_from_y: "Von, nach links",
    zone_to_y: "Bis, nach links",
    zone_hint: "Bezogen auf das, womit er mitgeht: längs seiner Richtung und nach links; negativ: nach rechts",
    draw_it: "Zeichnen",
    sides_meet: "Die beiden Seiten fielen zusammen.",
    no_diameter: "Ein Kreis ist breiter als nichts.",
    draw_why: "Dann in der Draufsicht drücken und zur anderen Ecke ziehen",
    drawing_now: "In der Draufsicht drücken und zur anderen Ecke ziehen. Esc: jetzt nicht.",
    drawing_now_short: "Von Ecke zu Ecke ziehen.",
    corners: "Ecken",
    diameter: "Durchmesser",
    clear_aside: "Frei nach jeder Seite",
    clear_aside_hint: "Von Metall, links und rechts der Mittellinie, vom Stoßfänger bis hinter das Ziel",
    clear_top: "Frei bis Höhe",
    clear_reach: "Frei nach vorn",
    clear_reach_hint: "Vom vordersten Punkt des Stoßfängers bis zum Ende der Fläche",
    above_sensor_hint: "Am Ständer, von dort hinauf zur Mitte des Ziels; darunter negativ",
    edge_hint: "Am Sensor selbst, senkrecht auf oder ab: wie im Blatt, oder mit dem Maßstab gemessen",
    spots_outboard: "Punkte außen am Reifen",
    spots_outboard_hint: "Von der Außenseite des Reifens zu jedem Punkt am Boden, rechtwinklig zum Fahrzeug",
    radar_height: "Radar über Boden",
    radar_aside: "Radar links der Mittellinie",

    // Mark plan.
    mark_plan: "Marken, der Reihe nach",
    add_mark: "Marke hinzufügen",
    pick: "Auswählen",
    pick_why: "Dann in der Draufsicht eine Marke drücken",
    picking_now: "In der Draufsicht eine Marke drücken. Esc: jetzt nicht.",
    picking_now_short: "Eine Marke drücken.",
    from_mark: "Von Marke",
    through_mark: "Durch Marke",
    to_mark: "Bis Marke",
    first_mark: "Erste Marke",
    second_mark: "Zweite Marke",
    of_mark: "Rechtwinklig von Marke",
    at_mark: "Bei Marke",
    wheel: "Rad",
    point: "Karosseriepunkt",
    by: "Um",
    until: "Wie weit",
    by_length: "um eine Länge",
    abreast_of: "auf Höhe des Ziels",
    outboard_by: "Nach außen um",
    along: "Längs",
    to_left: "Nach links",
    at_angle: "Im Winkel, nach links",
    away: "Entfernung",
    from_first: "Von der ersten",
    from_second: "Von der zweiten",
    on_side: "Auf der Seite",
    left: "links",
    right: "rechts",
    needs_earlier: "Dafür müssen vorher andere Marken kommen.",
    used_later: "Dann käme sie nach einer Marke, die sie braucht.",
    used_by_others: "Andere Marken, ein Ziel oder ein Abstand richten sich danach; zuerst diese ändern.",

    // Where figures come from.
    source: "Woher diese Werte kommen",
    source_example: "ein Beispiel",
    source_not_given: "noch nicht angegeben",
    source_maker: "Anleitung des Herstellers",
    source_measured: "gemessen",
    source_published: "anderswo gedruckt",
    document: "Dokument",
    dated: "Vom",
    dated_hint: "Jahr-Monat-Tag, wie 2026-11-02; leer, wenn ohne Datum",
    measured_by: "Gemessen von",
    printed_where: "Gedruckt wo",
    not_a_day: "Das ist kein Tag; Jahr-Monat-Tag eintippen, wie 2026-11-02.",
    not_a_number: "Das ist keine Zahl.",
    no_text: "Ein Name ist nötig.",
};

pub fn corners_hint(units: Units) -> String {
    format!("Eine Ecke je Zeile: längs, nach links, {}, oder mit eigener Einheit", two_lengths(units))
}

pub fn not_points(units: Units) -> String {
    format!("Ein Punkt je Zeile, je zwei Längen, {}.", two_lengths(units))
}

pub fn about_car(
    class: VehicleClass,
    sensors: &[&str],
    aimings: &[&str],
    source: &str,
    file: &str,
) -> String {
    let listed = |what: &str, all: &[&str]| match all {
        [] => String::new(),
        all => format!("\n{what}: {}", all.join("; ")),
    };
    let (sensors, aimings) = (listed(TEXTS.sensors, sensors), listed(TEXTS.aimings, aimings));
    format!("{}{sensors}{aimings}\n{source} {file}", crate::words::sentence_start(class_of(class)))
}

pub fn a_aiming(sensor: &str) -> String {
    format!("{sensor}, Einstellung")
}

pub fn abreast_of_target(target: &str) -> String {
    format!("{} „{target}“", TEXTS.abreast_of)
}

pub const fn class_of(class: VehicleClass) -> &'static str {
    match class {
        VehicleClass::SmallHatchback => "Kleinwagen",
        VehicleClass::Saloon => "Limousine",
        VehicleClass::Estate => "Kombi",
        VehicleClass::TallCar => "hohes Fahrzeug",
        VehicleClass::Van => "Lieferwagen",
        VehicleClass::Pickup => "Pritschenwagen",
        VehicleClass::PeopleCarrier => "Großraumfahrzeug",
        VehicleClass::Other => "anderes",
    }
}

pub const fn kind(kind: StartKind) -> &'static str {
    match kind {
        StartKind::ForwardRadar => "Frontradar",
        StartKind::CornerRadar => "Eckradar",
        StartKind::ForwardCamera => "Frontkamera",
        StartKind::SurroundCamera => "Umfeldkamera",
        StartKind::Lidar => "Lidar",
    }
}

pub const fn set_by(adjusted: Adjusted) -> &'static str {
    match adjusted {
        Adjusted::Screw => "Schrauben",
        Adjusted::Shim => "Beilagscheiben",
        Adjusted::Software => "die Fahrzeugsoftware",
        Adjusted::NotAtAll => "nichts: wird nur geprüft",
    }
}

pub const fn axis_of(axis: ReferenceAxis) -> &'static str {
    match axis {
        ReferenceAxis::GeometricCentreline => "geometrische Mittellinie",
        ReferenceAxis::ThrustLine => "geometrische Fahrachse",
    }
}

pub const fn target(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::CornerReflector => "Winkelreflektor",
        TargetKind::Plate => "Platte",
        TargetKind::Board => "gedruckte Tafel",
        TargetKind::Mat => "Matte am Boden",
        TargetKind::ActiveDevice => "aktives Gerät",
    }
}

pub fn datum(datum: &Datum) -> String {
    match datum {
        Datum::FrontAxle => "Vorderachse".to_owned(),
        Datum::RearAxle => "Hinterachse".to_owned(),
        Datum::Wheel(wheel) => format!("Rad {}", wheel_of(*wheel)),
        Datum::Sensor => "Sensor".to_owned(),
        Datum::FrontBumper => "Stoßfänger vorn".to_owned(),
        Datum::RearBumper => "Stoßfänger hinten".to_owned(),
        Datum::BodyPoint(id) => id.to_string(),
        Datum::FrontSpots => "Linie durch die vorderen Punkte".to_owned(),
    }
}

pub fn to_type(field: &str) -> String {
    format!("Noch einzutippen: {field}.")
}

pub fn waits_for(field: &str) -> String {
    format!("Noch einzutippen: {field}. Dies ist das Ergebnis für das Fahrzeug, wie es vorher war.")
}

pub const fn end(end: End) -> &'static str {
    match end {
        End::Face => "Zielfläche",
        End::ReflectorCentre => "Zentrum des Reflektors",
    }
}

pub const fn measured(along: MeasuredAlong) -> &'static str {
    match along {
        MeasuredAlong::Floor => "dem Boden",
        MeasuredAlong::Level => "der Waagerechten",
    }
}

pub const fn height_from(height: TargetHeight) -> &'static str {
    match height {
        TargetHeight::Absolute(_) => "Boden",
        TargetHeight::FromSensor { point: SensorPoint::Centre, .. } => "Mitte des Sensors",
        TargetHeight::FromSensor { point: SensorPoint::LowerEdge, .. } => "Unterkante des Sensors",
        TargetHeight::FromSensor { point: SensorPoint::UpperEdge, .. } => "Oberkante des Sensors",
        TargetHeight::FromSensor { point: SensorPoint::Line, .. } => "Linie am Sensor",
        TargetHeight::OnFloor => "keine: liegt am Boden",
    }
}

pub const fn above_point(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => "Über der Sensormitte",
        SensorPoint::LowerEdge => "Über Unterkante Sensor",
        SensorPoint::UpperEdge => "Über Oberkante Sensor",
        SensorPoint::Line => "Über Linie am Sensor",
    }
}

pub const fn point_from_centre(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => "Mitte",
        SensorPoint::LowerEdge => "Unterkante unter der Mitte",
        SensorPoint::UpperEdge => "Oberkante über der Mitte",
        SensorPoint::Line => "Linie über der Mitte",
    }
}

pub const fn point_above_ground(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => TEXTS.above_ground,
        SensorPoint::LowerEdge => "Unterkante über Boden",
        SensorPoint::UpperEdge => "Oberkante über Boden",
        SensorPoint::Line => "Linie über Boden",
    }
}

pub const fn plane(from: HeightsFrom) -> &'static str {
    match from {
        HeightsFrom::Floor => "dem Boden",
        HeightsFrom::Wheels => "der Ebene der Räder",
    }
}

pub const fn upright(vertical: VerticalReference) -> &'static str {
    match vertical {
        VerticalReference::Gravity => "nach dem Lot",
        VerticalReference::WheelsPlane => "rechtwinklig zur Ebene der Räder",
    }
}

pub fn frame(frame: &ZoneFrame) -> String {
    match frame {
        ZoneFrame::Vehicle => "dem Fahrzeug".to_owned(),
        ZoneFrame::Sensor => "dem Sensor".to_owned(),
        ZoneFrame::Target(id) => format!("dem Ziel „{id}“"),
    }
}

pub const fn excluded(excludes: Exclusion) -> &'static str {
    match excludes {
        Exclusion::Anything => "allem",
        Exclusion::Metal => "Metall",
        Exclusion::Reflecting(_) => "starken Echos",
        Exclusion::People => "Personen",
        Exclusion::Light => "Lampen und anderem Licht",
    }
}

pub const fn wheel_of(wheel: Wheel) -> &'static str {
    super::marks::wheel_name(wheel)
}

pub const fn way(construction: &Construction) -> &'static str {
    match construction {
        Construction::WheelPoint { .. } => "unter der Reifenmitte",
        Construction::Outboard { .. } => "außen neben dem Reifen",
        Construction::BodyPoint { .. } => "Karosseriepunkt, abgelotet",
        Construction::Prolong { .. } => "verlängerte Linie",
        Construction::Middle { .. } => "Mitte zwischen zweien",
        Construction::Foot { .. } => "rechtwinklig auf eine Linie",
        Construction::AlongAside { .. } => "längs und seitlich",
        Construction::AtAngle { .. } => "im Winkel",
        Construction::Crossing { .. } => "Schnitt zweier Linien",
        Construction::TwoDistances { .. } => "zwei Abstände",
    }
}

pub fn field_name(path: &str, car: &Vehicle) -> String {
    let (owner, rest) = crate::words::forms::owner_of(path, car);
    owner.map_or_else(|| last_name(rest), |owner| format!("{owner}, {}", last_name(rest)))
}

/// What the last part of a path is called on the form; the path itself, as the file has it, where the form has no name for it.
fn last_name(path: &str) -> String {
    let within = |part: &str| path.contains(part);
    let known = match path.rsplit('.').next().unwrap_or(path) {
        "at_mm[0]" => TEXTS.ahead,
        "at_mm[1]" => TEXTS.aside,
        "at_mm[2]" => TEXTS.above_ground,
        "lower_below_mm" => point_from_centre(SensorPoint::LowerEdge),
        "upper_above_mm" => point_from_centre(SensorPoint::UpperEdge),
        "line_above_mm" => point_from_centre(SensorPoint::Line),
        "width_mm" if within("mirrors.") => TEXTS.mirror_width,
        "ahead_mm" if within("mirrors.") => TEXTS.mirror_ahead,
        "height_mm" if within("mirrors.") => TEXTS.mirror_height,
        "width_mm" if within("target.") => TEXTS.face_width,
        "height_mm" if within("target.") => TEXTS.face_height,
        "height_mm" | "offset_mm" if within("height.") => TEXTS.target_height,
        "length_mm" => TEXTS.length,
        "width_mm" => TEXTS.width,
        "height_mm" => TEXTS.height,
        "wheelbase_mm" => TEXTS.wheelbase,
        "overhang_front_mm" => TEXTS.overhang_front,
        "overhang_rear_mm" => TEXTS.overhang_rear,
        "ground_clearance_mm" => TEXTS.ground_clearance,
        "track_front_mm" => TEXTS.track_front,
        "track_rear_mm" => TEXTS.track_rear,
        "tyre_diameter_mm" => TEXTS.tyre_diameter,
        "tyre_width_mm" => TEXTS.tyre_width,
        "tyre_width_rear_mm" => TEXTS.tyre_width_rear,
        "outline_top_mm" => TEXTS.outline_top,
        "outline_side_mm" => TEXTS.outline_side,
        "body_points" => TEXTS.body_points,
        "front_left_mm" => super::marks::wheel_name(Wheel::FrontLeft),
        "front_right_mm" => super::marks::wheel_name(Wheel::FrontRight),
        "rear_left_mm" => super::marks::wheel_name(Wheel::RearLeft),
        "rear_right_mm" => super::marks::wheel_name(Wheel::RearRight),
        "sensors" => TEXTS.sensors,
        "aimings" => TEXTS.aimings,
        "placements" => TEXTS.targets,
        "zones" => TEXTS.zones,
        "mark_plan" => TEXTS.mark_plan,
        "pitch_mm" if within("up_down") => super::screws::TEXTS.pitch_up_down,
        "arm_mm" if within("up_down") => super::screws::TEXTS.arm_up_down,
        "pitch_mm" => super::screws::TEXTS.pitch_left_right,
        "arm_mm" => super::screws::TEXTS.arm_left_right,
        "name" | "id" => TEXTS.name,
        "title" => TEXTS.title,
        "sensor" => TEXTS.of_sensor,
        "axis" => TEXTS.axis,
        "azimuth_deg" if within("tolerance.") => TEXTS.azimuth,
        "elevation_deg" if within("tolerance.") => TEXTS.elevation,
        "azimuth_deg" => TEXTS.looks_left,
        "elevation_deg" => TEXTS.looks_up,
        "frequency_ghz" => TEXTS.frequency,
        "bandwidth_ghz" => TEXTS.bandwidth,
        "level_mm" => TEXTS.floor_level,
        "pitch_deg" if within("floor.") => TEXTS.floor_pitch,
        "roll_deg" if within("floor.") => TEXTS.floor_roll,
        "working_room_mm" => TEXTS.working_room,
        "thrust_angle_deg" => TEXTS.thrust_limit,
        "set_back_mm" => TEXTS.set_back_limit,
        "kind" if within("target") => TEXTS.target_kind,
        "depth_mm" => TEXTS.face_depth,
        "centre_behind_mm" => TEXTS.centre_behind,
        "from" if within("stand_off") => TEXTS.stand_off_from,
        "to" if within("stand_off") => TEXTS.stand_off_to,
        "along" if within("stand_off") => TEXTS.stand_off_along,
        "distance_mm" if within("stand_off") => TEXTS.stand_off,
        "aside_mm" if within("stand_off") => TEXTS.stands_left,
        "bearing_deg" => TEXTS.bearing,
        "height" => TEXTS.target_height_kind,
        "heights_from" => TEXTS.heights_from,
        "vertical" => TEXTS.vertical,
        "turned_deg" => TEXTS.turned,
        "along_mm" if within("tolerance") => TEXTS.within_along,
        "across_mm" => TEXTS.within_across,
        "yaw_deg" => TEXTS.within_yaw,
        "pitch_deg" => TEXTS.within_pitch,
        "stand" => TEXTS.has_stand,
        "base" | "base_height_mm" => TEXTS.stand_base,
        "mast_mm" => TEXTS.stand_mast,
        "mast_behind_mm" => TEXTS.stand_behind,
        "lowest_mm" => TEXTS.stand_lowest,
        "highest_mm" => TEXTS.stand_highest,
        "top_mm" if within("stand.") => TEXTS.stand_top,
        "top_mm" if within("zones[") => TEXTS.clear_top,
        "bottom_mm" => TEXTS.bottom,
        "top_mm" => TEXTS.top,
        "place" => TEXTS.aims_by_place,
        "squareness" => TEXTS.aims_by_squareness,
        "frame" => TEXTS.zone_frame,
        "excludes" => TEXTS.excludes,
        "level_dbsm" => TEXTS.sends_back,
        "corners_mm" | "outline" => TEXTS.corners,
        "diameter_mm" => TEXTS.diameter,
        "mark" => TEXTS.of_mark,
        "wheel" => TEXTS.wheel,
        "point" => TEXTS.point,
        "by" | "by_mm" => TEXTS.by,
        "reach" => TEXTS.until,
        "angle_deg" => TEXTS.at_angle,
        "along_mm" => TEXTS.along,
        "aside_mm" => TEXTS.to_left,
        "distance_mm" => TEXTS.away,
        "from_first_mm" => TEXTS.from_first,
        "from_second_mm" => TEXTS.from_second,
        "side" => TEXTS.on_side,
        "source" => TEXTS.source,
        "date" => TEXTS.dated,
        "document" => TEXTS.document,
        _ => return format!("„{path}“"),
    };
    known.to_owned()
}

pub fn wrong(fault: &Fault, lengths: Lengths) -> String {
    let allowed = allowed(&fault.allowed, lengths);
    match &fault.found {
        Found::EmptyText => format!("nichts eingetragen; erlaubt: {allowed}."),
        _ => format!("{} geht nicht; erlaubt: {allowed}.", found(fault, lengths)),
    }
}

pub fn unlikely(fault: &Fault, lengths: Lengths) -> String {
    let (found, usual) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    format!("{found}; üblich: {usual}. {}", TEXTS.ask_right)
}

pub fn car_name_taken(name: &str) -> String {
    format!("Ein Fahrzeug „{name}“ gibt es schon; diesem einen anderen Kurznamen geben.")
}

pub fn car_changed_meanwhile(path: &str) -> String {
    format!(
        "Nicht übernommen: Jemand anderes hat {path} inzwischen geändert. Diesem Fahrzeug einen anderen Kurznamen geben, dann \
         bleiben beide."
    )
}

pub fn not_kept_yet(typed: &str) -> String {
    format!(
        "Noch nicht übernommen: „{typed}“ wurde in seinem Feld nicht angenommen. Dort berichtigen, oder mit Esc zurückholen, was \
         dort stand."
    )
}

pub fn car_gone_meanwhile(car: &str) -> String {
    format!(
        "Die Datei des Fahrzeugs „{car}“ ist nicht mehr da: gelöscht, verschoben oder umbenannt. Hier sind ihre Werte noch \
         vorhanden; „Dieses Fahrzeug ändern …“ und dann „Fahrzeug übernehmen“ schreibt sie wieder."
    )
}

pub fn car_changed_since(car: &str) -> String {
    format!(
        "Jemand anderes hat die Datei des Fahrzeugs „{car}“ geändert: Was hier steht, gilt für die Werte, wie sie gelesen wurden. \
         Den Messplatz neu öffnen, um die neuen zu haben."
    )
}

pub fn goes_not_with(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    match &fault.found {
        Found::Word(what) => format!(
            "Nicht übernommen: Die Aufstellung „{arrangement}“ braucht „{}“ von diesem Fahrzeug. Diesen Namen wieder geben, \
             oder dem Fahrzeug einen anderen Kurznamen, dann bleiben beide.",
            what.text()
        ),
        _ => format!(
            "Nicht übernommen: Die Aufstellung „{arrangement}“ passt nicht dazu ({}). Zuerst eines von beiden berichtigen, \
             oder dem Fahrzeug einen anderen Kurznamen geben, dann bleiben beide.",
            against_car(fault, lengths)
        ),
    }
}

pub fn car_kept(name: &str, path: &str) -> String {
    format!("„{name}“ ist übernommen: {path}")
}

pub fn still_assumed(count: usize, in_sight: usize) -> String {
    match count {
        _ if in_sight < count && in_sight > 0 => {
            format!("Angenommen: {in_sight} hier, {} anderswo.", count - in_sight)
        }
        0 => "Alles ist eingetragen.".to_owned(),
        1 => "1 Wert ist angenommen.".to_owned(),
        _ => format!("{count} Werte sind angenommen."),
    }
}

pub fn zones_elsewhere(others: usize, has_own: bool) -> String {
    let place = format!("unter „{}“, „{}“", TEXTS.whole_form, TEXTS.zones);
    match (others, has_own) {
        (0, true) => {
            format!("Dieser eine Freiraum wird beurteilt. Nennt das Blatt mehr, sie {place} hinzufügen.")
        }
        (0, false) => format!(
            "Kein Freiraum ist eingetragen, also wird keiner beurteilt: was das Blatt nennt, {place} hinzufügen."
        ),
        (1, true) => format!("1 weiterer Freiraum ist {place} eingetragen."),
        (1, false) => format!("1 Freiraum ist {place} eingetragen."),
        (n, true) => format!("{n} weitere Freiräume sind {place} eingetragen."),
        (n, false) => format!("{n} Freiräume sind {place} eingetragen."),
    }
}
