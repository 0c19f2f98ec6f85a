//! German of the same: see `words/record.rs`.

use jiff::civil::DateTime;

use super::faults;
use super::marks::wheel_name;
use super::record_open;
pub use super::record_open::{accepted, distance_to_car, gone_past, moved, must, stood, value};
use super::{About, Language, listed, sentence_start};
use crate::assessment::Assessment;
use crate::model::record::{
    Attachment, AttachmentKind, Begun, ChainBreak, Decided, Decision, Entered, Entry, HeadSaid, Instrument,
    ProvenFigure, RoutineResult, StepId, StepKind, ValueOf, ValueUnit, Way as Out, What, Within,
};
use crate::model::{TargetKind, Wheel};
use crate::record::{Caution, Lack, Need, PlaceAnswer, Refused, StepState, Task, VisitAnswer, Way};
use crate::words::record::{RecordTexts, decided_number, entered_length, title_of};
use crate::words::{Lengths, Locale};

/// The fixed texts.
pub const TEXTS: RecordTexts = RecordTexts {
    language: Language::German,
    title: "Protokoll eines Auftrags",
    job: "Auftrag",
    car: "Fahrzeug",
    plate: "Kennzeichen",
    by: "Wer",
    at: "Wann",
    bay: "Messplatz",
    set_up: "Aufstellung",
    profile: "Fahrzeugprofil",
    begun: "Begonnen",
    aimings: "Einstellungen",
    entries: "Einträge",
    head: "Letzter Prüfwert",
    steps: "Schritte",
    missing: "Fehlt noch",
    without_set_ups: "Die Datei des Messplatzes ist nicht da: Seine Aufstellungen, ihre Marken und was dort gefunden wird, sind nicht dabei.",
    nothing_missing: "Nichts fehlt.",
    shows_an_edit: "Die Kette zeigt, dass etwas geändert wurde, nicht von wem: Wer die ganze Datei neu schreibt, macht eine neue Kette. \
                    Den letzten Prüfwert mit dem auf dem Papier vergleichen.",
    says_nothing_of_sensor: "Hier steht, was eingegeben und ausgerechnet wurde, nicht, dass ein Sensor eingestellt ist.",
    rule: "Innerhalb: |b| + U höchstens T; außerhalb: |b| − U über T; sonst nicht zu sagen (JCGM 106, Annahme mit Sicherheitsabstand, U zu 95 %).",
    closed: "Abgeschlossen: nichts wird mehr eingetragen.",
};

pub const fn step(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Why => "Warum, und welche Sensoren",
        StepKind::Procedure => "Anleitung des Herstellers",
        StepKind::ScanBefore => "Fehlerspeicher vorher",
        StepKind::Sensor => "Sensor, Halter, Abdeckung",
        StepKind::TyresAndLoad => "Reifen und Beladung",
        StepKind::RideHeights => "Fahrzeughöhe",
        StepKind::Alignment => "Achsvermessung",
        StepKind::Floor => "Bodenvermessung",
        StepKind::Park => "Einfahren, setzen lassen, ausrichten",
        StepKind::Clear => "Platz schaffen",
        StepKind::Marks => "Marken",
        StepKind::CheckDistances => "Kontrollmaße",
        StepKind::Stand => "Ziel auf dem Ständer",
        StepKind::Routine => "Routine des Herstellers",
        StepKind::Result => "Ergebnis der Routine",
        StepKind::ScanAfter => "Fehlerspeicher nachher",
        StepKind::Drive => "Fahrt, falls verlangt",
        StepKind::Sign => "Durchsehen und unterschreiben",
    }
}

pub fn step_of(begun: &Begun, own: &StepId) -> String {
    match &own.aiming {
        Some(aiming) => format!("{}: {}", step(own.kind), title_of(begun, aiming)),
        None => step(own.kind).to_owned(),
    }
}

pub fn state(state: &StepState) -> String {
    match state {
        StepState::Open => "Offen".to_owned(),
        StepState::Done => "Erledigt".to_owned(),
        StepState::GonePast(open) => sentence_start(&record_open::gone_past(*open)),
        StepState::LeftOut(why) => format!("Ausgelassen, weil: {why}"),
        StepState::NotApplicable(why) => format!("Trifft nicht zu: {why}"),
        StepState::OutOfRange => "Außerhalb des Erlaubten".to_owned(),
        StepState::TakenBack => "Zurückgenommen".to_owned(),
    }
}

const fn target(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::CornerReflector => "Winkelreflektor",
        TargetKind::Plate => "Platte",
        TargetKind::Board => "Tafel",
        TargetKind::Mat => "Matte",
        TargetKind::ActiveDevice => "aktives Gerät",
    }
}

pub fn need(need: &Need) -> String {
    match need {
        Need::MakersDocument => "Anleitung des Herstellers".to_owned(),
        Need::ScanTool => "Diagnosegerät".to_owned(),
        Need::BatterySupport => "Ladegerät, das die Batterie stützt".to_owned(),
        Need::TyreGauge => "Reifenfüllmesser".to_owned(),
        Need::TapeMeasure => "Bandmaß".to_owned(),
        Need::AlignmentSheet => "Protokoll der Achsvermessung dieses Fahrzeugs".to_owned(),
        Need::CrossTape => "Klebeband, feiner Stift".to_owned(),
        Need::Chocks => "Unterlegkeile".to_owned(),
        Need::LayingTools => "Bandmaß, Lot, Linienlaser oder Schnur, Klebeband, feiner Stift".to_owned(),
        Need::Target(id, kind) => format!("Ziel {id}: {}", target(*kind)),
        Need::Level => "Wasserwaage".to_owned(),
        Need::OfProcedure(own) => sentence_start(own),
    }
}

pub const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::MakerDecides => "Es gilt die Anleitung des Fahrzeugherstellers.",
        Caution::ChockFirst => "Bremse anziehen und Räder verkeilen, bevor man sich neben das Fahrzeug legt.",
        Caution::NotOnAJack => "Niemand unter ein Fahrzeug, das nur auf einem Wagenheber steht.",
        Caution::LookAwayFromLaser => {
            "Nicht in den Laser blicken; den Strahl unter Augenhöhe halten und von blanken Flächen weg."
        }
        Caution::RadarRadiates => {
            "Ein Radar sendet, während es eingestellt wird: den Abstand halten, den sein Hersteller verlangt."
        }
        Caution::TrainedPeople => "Airbags und Hochvolt hinter Stoßfängern: nur, wer dafür ausgebildet ist.",
        Caution::TripAndExits => {
            "Auf Schnüre und Ständerfüße achten; Ausgänge, Feuerlöscher und Schaltkästen frei halten."
        }
        Caution::OnTheRoad => "Auf der Straße nur, wer es fahren darf, wie Gesetz und Hersteller es sagen.",
        Caution::LocalCodes => "Böden und Wände: örtliche Vorschriften und Fachleute entscheiden.",
        Caution::SaysNothingOfSensor => "Das Protokoll sagt nicht, dass der Sensor eingestellt ist.",
    }
}

pub fn task(locale: Locale, task: &Task) -> String {
    match task {
        Task::WorkAsksFor { work, aiming } => format!("{work}: {aiming}"),
        Task::AimingChosen(aiming) => format!("{aiming}: ohne Reparaturzeile gewählt"),
        Task::Mind(note) => note.clone(),
        Task::OpenProcedure(Some((document, Some(date)))) => {
            format!("Anleitung des Herstellers öffnen: {document}, {}.", locale.region.day(*date))
        }
        Task::OpenProcedure(Some((document, None))) => {
            format!("Anleitung des Herstellers öffnen: {document}.")
        }
        Task::OpenProcedure(None) => {
            "Anleitung des Herstellers öffnen: Das Profil nennt keine, also nachsehen.".to_owned()
        }
        Task::NoteDocument => "Titel, Ausgabe und Datum eintragen.".to_owned(),
        Task::ReadFaults => "Alle Fehler auslesen und den Ausdruck aufheben.".to_owned(),
        Task::MendOtherFaults => "Andere Fehler zuerst beheben.".to_owned(),
        Task::LookAtSensor(sensor) => {
            format!("„{sensor}“ ansehen: sitzt fest, Halter nicht verbogen, nichts gebrochen.")
        }
        Task::LookAtCover => {
            "Ansehen, was davor sitzt: kein dicker Spachtel, kein Metallband, kein Aufkleber, kein Schild."
                .to_owned()
        }
        Task::SetTyres => "Reifen einer Größe, mit dem verlangten Druck.".to_owned(),
        Task::EmptyCar => {
            "Kofferraum leer, niemand im Fahrzeug, Tank wie vom Hersteller verlangt.".to_owned()
        }
        Task::Meet(condition) => sentence_start(condition),
        Task::MeasureArches => "Von jeder Radmitte bis zur Kante des Radlaufs messen.".to_owned(),
        Task::EnterAlignment => {
            "Spur hinten und Radversatz eintragen, wie das Protokoll sie hat, und in welche Richtung."
                .to_owned()
        }
        Task::AlignmentLimits { thrust_rad, set_back_mm } => {
            let thrust =
                thrust_rad.map(|own| format!("Fahrachswinkel höchstens ±{}", locale.region.degrees(own)));
            let back = set_back_mm.map(|own| format!("Radversatz höchstens ±{}", locale.length(own)));
            let limits: Vec<String> = thrust.into_iter().chain(back).collect();
            format!("{}: sonst kommt die Achseinstellung zuerst.", listed(&limits))
        }
        Task::ConfirmSurvey(taken) => {
            let day = locale.region.day(*taken);
            format!("Der Boden wurde am {day} vermessen: bestätigen, dass seither nichts geändert wurde.")
        }
        Task::SurveyTooOld(days) => {
            format!("Das ist {days} Tage her, länger als die Werkstatt gelten lässt.")
        }
        Task::SurveyFloor => "Keine Vermessung mit Datum: den Boden vermessen.".to_owned(),
        Task::Do(_) | Task::LookAt(_) => "Beheben, was im Weg ist.".to_owned(),
        Task::Park => "Einfahren, wie die Aufstellung es zeigt.".to_owned(),
        Task::Settle => "Gerade einrollen und die Federn setzen lassen.".to_owned(),
        Task::Straighten => "Räder geradeaus; Bremse und Keile.".to_owned(),
        Task::LayCrosses => record_open::LAY_CROSSES.to_owned(),
        Task::TapeCar => {
            "Von jedem Kreuz zu seiner Felge messen: Das zeigt später, ob sich das Fahrzeug bewegt hat."
                .to_owned()
        }
        Task::LayMarks(1) => "Eine Marke legen, wie der Plan sagt.".to_owned(),
        Task::LayMarks(count) => format!("{count} Marken legen, wie der Plan sagt."),
        Task::TapeMarks(count) => {
            format!("Zwischen den Marken messen, bis es genug ist; es gibt {count} Maße.")
        }
        Task::SetTarget { placement, mark, height_mm, by_levels_mm } => {
            let on =
                mark.as_ref().map_or_else(|| "an seinem Platz".to_owned(), |own| format!("auf Marke {own}"));
            match height_mm {
                Some(height) => {
                    let over = by_levels_mm.map_or_else(
                        || format!("{} über einem ebenen Boden", locale.length(*height)),
                        |by| {
                            format!(
                                "{} über dem Boden dort (± {})",
                                locale.height(*height),
                                locale.tenths(by)
                            )
                        },
                    );
                    format!("Ziel {placement}: {on}, Mitte der Zielfläche {over}.")
                }
                None => format!("Ziel {placement}: flach auf dem Boden, {on}."),
            }
        }
        Task::SquareAndPlumb => {
            "Ziel rechtwinklig, wie die Anleitung sagt, Mast in beiden Richtungen im Lot.".to_owned()
        }
        Task::StartRoutine => "Die Routine des Herstellers mit dem Diagnosegerät starten.".to_owned(),
        Task::KeepOff => {
            "Fahrzeug nicht berühren; niemand geht vor dem Sensor vorbei, solange sie läuft.".to_owned()
        }
        Task::TypeResult => "Eintragen, was die Routine meldet.".to_owned(),
        Task::TapeCarAgain => "Die zwei Maße zum Fahrzeug noch einmal nehmen.".to_owned(),
        Task::DriveIfAsked => "Fahren, falls die Anleitung es verlangt.".to_owned(),
        Task::GatherPapers => "Alles zurückräumen, Ausdrucke und Fotos zusammentragen.".to_owned(),
        Task::LookThroughAndSign => "Das Protokoll durchsehen und unterschreiben.".to_owned(),
    }
}

pub fn figure(locale: Locale, of: &ValueOf, value: f64) -> String {
    match of.unit() {
        ValueUnit::Count => locale.region.number(value, 0),
        ValueUnit::Bar => format!("{} bar", locale.region.number(value, 2)),
        ValueUnit::Millimetres => entered_length(locale, value),
        ValueUnit::Kilometres => format!("{} km", locale.region.number(value, 1)),
    }
}

pub fn within(locale: Locale, of: &ValueOf, within: Within) -> String {
    let text = |own: f64| figure(locale, of, own);
    match (within.low, within.high) {
        (None, None) => String::new(),
        (Some(low), Some(high)) if text(low) == text(high) => text(low),
        (Some(low), Some(high)) => format!("{} bis {}", text(low), text(high)),
        (Some(low), None) => format!("mindestens {}", text(low)),
        (None, Some(high)) => format!("höchstens {}", text(high)),
    }
}

pub fn out_of_range(locale: Locale, own: &Entered) -> String {
    format!(
        "{}: {}; erlaubt ist {}. Der Wert bleibt stehen, als außerhalb des Erlaubten.",
        value(&own.of),
        figure(locale, &own.of, own.value),
        within(locale, &own.of, own.allowed)
    )
}

pub fn refused(begun: &Begun, refused: &Refused) -> String {
    match refused {
        Refused::Closed => "Das Protokoll ist abgeschlossen: erst wieder öffnen und sagen, warum.".to_owned(),
        Refused::NotClosed => "Das Protokoll ist offen.".to_owned(),
        Refused::Full(most) => format!("Das Protokoll hat {most} Einträge, mehr sind nicht möglich."),
        Refused::FullOfAttachments(most) => {
            format!("Das Protokoll hat {most} Anlagen, mehr sind nicht möglich.")
        }
        Refused::NotSound(all) => {
            let said = all.iter().map(|own| {
                format!(
                    "{}: gefunden {}; erlaubt ist {}.",
                    own.field,
                    faults::found(own, Lengths::InFile),
                    faults::allowed(&own.allowed, Lengths::InFile)
                )
            });
            said.collect::<Vec<_>>().join(" ")
        }
        Refused::DoesNotFollow { said, follows } => {
            format!("Aus den Zahlen folgt „{}“, nicht „{}“.", decision(*follows), decision(*said))
        }
        Refused::AttachedAlready(file) => format!("Diese Datei ist schon angehängt, als {file}."),
        Refused::NotAttached(hash) => format!("Keine Anlage hat den Prüfwert {hash}."),
        Refused::NothingToTakeBack(own) => format!("„{}“ ist schon offen.", step_of(begun, own)),
        Refused::NothingToStrike(nth) => record_open::nothing_to_strike(*nth),
        Refused::SignedAlready => {
            "Das ist schon unterschrieben, und seither wurde nichts eingetragen.".to_owned()
        }
    }
}

pub fn lack(begun: &Begun, lack: &Lack) -> String {
    match lack {
        Lack::StepOpen(own) => format!("Offen: {}.", step_of(begun, own)),
        Lack::GonePast(own, open) => {
            format!("{}: übergangen ohne {}.", step_of(begun, own), record_open::all_open(open))
        }
        Lack::LeftOut(own, why) => format!("{}: ausgelassen, weil: {why}", step_of(begun, own)),
        Lack::OpenToo(own, open) => {
            format!("{}: auch offen: {}.", step_of(begun, own), record_open::all_open(open))
        }
        Lack::Unlisted(name) => {
            format!("{name} steht nicht auf der Liste der Werkstatt: Niemand führt seine Prüfungen.")
        }
        Lack::StepOutOfRange(own) => format!("Außerhalb des Erlaubten: {}.", step_of(begun, own)),
        Lack::NoDocument(own) => {
            format!("{}: keine Anleitung des Herstellers eingetragen.", title_of(begun, own))
        }
        Lack::NotDecided(own) => {
            format!("{}: kein Maß genommen, das die Marken belegt.", title_of(begun, own))
        }
        Lack::NotInside(own, 1) => {
            format!("{}: ein Wert liegt nicht innerhalb.", title_of(begun, own))
        }
        Lack::NotInside(own, count) => {
            format!("{}: {count} Werte liegen nicht innerhalb.", title_of(begun, own))
        }
        Lack::DecidedBefore(own) => {
            format!("{}: Seit der Entscheidung wurde wieder gemessen.", title_of(begun, own))
        }
        Lack::RoutineFailed(own) => format!("{}: Die Routine ist fehlgeschlagen.", title_of(begun, own)),
        Lack::NoResult(own) => format!("{}: kein Ergebnis der Routine.", title_of(begun, own)),
        Lack::FindingsOpen { aiming, stop, care } => {
            let stops = (*stop > 0).then(|| match stop {
                1 => "ein Befund verhindert sie".to_owned(),
                _ => format!("{stop} Befunde verhindern sie"),
            });
            let cares = (*care > 0).then(|| match care {
                1 => "einer braucht Vorsicht".to_owned(),
                _ => format!("{care} brauchen Vorsicht"),
            });
            let parts: Vec<String> = stops.into_iter().chain(cares).collect();
            format!("{}: {}, und niemand hat das angenommen.", title_of(begun, aiming), listed(&parts))
        }
        Lack::Overdue(name, serial) if serial.is_empty() => {
            format!("{name} war vor dem Gebrauch zu prüfen.")
        }
        Lack::Overdue(name, serial) => format!("{name} {serial} war vor dem Gebrauch zu prüfen."),
        Lack::NotSigned => "Niemand hat unterschrieben, was jetzt hier steht.".to_owned(),
    }
}

pub fn entry(locale: Locale, begun: &Begun, entry: &Entry) -> String {
    let day = |own: jiff::civil::Date| locale.region.day(own);
    match &entry.what {
        What::StepDone { step } => format!("Erledigt: {}.", step_of(begun, step)),
        What::GonePast { step, open } => {
            format!("{}: {}.", sentence_start(&record_open::gone_past(*open)), step_of(begun, step))
        }
        What::LeftOut { step, why } => format!("Ausgelassen: {} ({why}).", step_of(begun, step)),
        What::NotApplicable { step, why } => format!("Trifft nicht zu: {} ({why}).", step_of(begun, step)),
        What::TakenBack { step, why } if why.is_empty() => {
            format!("Zurückgenommen: {}.", step_of(begun, step))
        }
        What::TakenBack { step, why } => format!("Zurückgenommen: {} ({why}).", step_of(begun, step)),
        What::Struck { entry, why } => record_open::struck(*entry, why),
        What::Value(own) => {
            let allowed = within(locale, &own.of, own.allowed);
            let against = match (own.is_in_range(), allowed.is_empty()) {
                (_, true) => String::new(),
                (true, false) => format!(", erlaubt {allowed}"),
                (false, false) => format!(", erlaubt {allowed}: außerhalb"),
            };
            format!("{}: {}{against}.", value(&own.of), figure(locale, &own.of, own.value))
        }
        What::Reading(own) => {
            let title = title_of(begun, &own.aiming);
            let with = own.instrument.as_ref().map(|own| format!(", {}", instrument(locale, own)));
            let warm = own.temperature_c.map(|own| format!(", {} °C", locale.region.number(own, 1)));
            let read = locale.region.number(own.read_mm, 1);
            let (with, warm) = (with.unwrap_or_default(), warm.unwrap_or_default());
            let (from, to) = (&own.from, &own.to);
            if from == to {
                return format!(
                    "{title}: Marke {from}, zweimal gelegt, liegt {read} mm auseinander{with}{warm}."
                );
            }
            format!("{title}: von Marke {from} zu Marke {to} abgelesen {read} mm{with}{warm}.")
        }
        What::Decided(own) => {
            format!("{}, Ziel {}: {}", title_of(begun, &own.aiming), own.placement, decided(locale, own))
        }
        What::Alignment(own) => record_open::sheet(locale, own),
        What::Stood(own) => record_open::stood(locale, begun, own),
        What::Parked(own) => record_open::parked(locale, begun, own),
        What::RideHeights { heights_mm } => {
            let at = Wheel::ALL.into_iter().zip(heights_mm);
            let said = at
                .filter_map(|(wheel, own)| Some(format!("{} {}", wheel_name(wheel), locale.length((*own)?))));
            format!("Fahrzeughöhe: {}.", said.collect::<Vec<_>>().join(", "))
        }
        What::FloorConfirmed { surveyed, instrument: with } => {
            let with = with.as_ref().map(|own| format!(", {}", instrument(locale, own)));
            format!("Bodenvermessung vom {} bestätigt{}.", day(*surveyed), with.unwrap_or_default())
        }
        What::Routine { aiming, result, note } => {
            let note = if note.is_empty() { String::new() } else { format!(" {note}") };
            format!("{}: {}{note}", title_of(begun, aiming), routine(locale, result))
        }
        What::Document(own) => {
            let edition =
                if own.edition.is_empty() { String::new() } else { format!(", Ausgabe {}", own.edition) };
            let date = own.date.map(|own| format!(", {}", day(own))).unwrap_or_default();
            format!("{}: nach {}{edition}{date}.", title_of(begun, &own.aiming), own.document)
        }
        What::Attached(Attachment { file, kind, sha256, .. }) => {
            format!("Angehängt: {file} ({}), SHA-256 {sha256}.", attachment_kind(*kind))
        }
        What::Withdrawn { sha256, why } => format!("Zurückgezogen: Anlage {sha256} ({why})."),
        What::Accepted(own) => {
            format!("{}: weiter trotz „{}“, weil: {}", title_of(begun, &own.aiming), own.in_german, own.why)
        }
        What::Signed { role, lacking, why } => record_open::signed(role, *lacking, why),
        What::Labour { work, minutes } => {
            format!("Arbeitszeit: {work}, {} min.", locale.region.number(*minutes, 0))
        }
        What::Closed => "Abgeschlossen.".to_owned(),
        What::WentOn { entry: Some(nth) } => {
            format!("Geht weiter, obwohl Eintrag {} geändert wurde, seit er geschrieben wurde.", nth + 1)
        }
        What::WentOn { entry: None } => {
            "Geht weiter, obwohl der Anfang des Protokolls geändert wurde, seit er geschrieben wurde."
                .to_owned()
        }
        What::Reopened { why } => format!("Wieder geöffnet ({why})."),
    }
}

pub fn decided_figure(locale: Locale, own: &Decided, value: f64) -> String {
    let unit = if own.of.is_angle() { "°" } else { " mm" };
    format!("{}{unit}", decided_number(locale, own, value))
}

pub fn decided_off(locale: Locale, own: &Decided) -> String {
    let off = decided_figure(locale, own, own.off.abs());
    if off == decided_figure(locale, own, 0.0) {
        return off;
    }
    let way = match (own.of, own.off > 0.0) {
        (ProvenFigure::Direction | ProvenFigure::Aside | ProvenFigure::Turn, true) => "links",
        (ProvenFigure::Direction | ProvenFigure::Aside | ProvenFigure::Turn, false) => "rechts",
        (ProvenFigure::Distance, true) => "zu weit",
        (ProvenFigure::Distance, false) => "zu nah",
    };
    format!("{off} {way}")
}

pub fn decided(locale: Locale, own: &Decided) -> String {
    let figure = |value: f64| decided_figure(locale, own, value);
    let against = format!(
        "{}: {} ± {} (95 %), erlaubt ± {}",
        proven(own.of),
        decided_off(locale, own),
        figure(own.u95),
        figure(own.allowed)
    );
    match own.decision {
        Decision::Inside => format!("{against}: innerhalb, {} Reserve.", figure(own.to_spare())),
        Decision::Outside => format!("{against}: außerhalb."),
        Decision::CannotSay if own.to_spare() >= 0.0 => {
            format!("{against}: nicht zu sagen, eine verschobene Marke könnte unbemerkt bleiben.")
        }
        Decision::CannotSay => format!("{against}: nicht zu sagen."),
    }
}

pub const fn decision(decision: Decision) -> &'static str {
    match decision {
        Decision::Inside => "innerhalb",
        Decision::Outside => "außerhalb",
        Decision::CannotSay => "nicht zu sagen",
    }
}

pub const fn proven(of: ProvenFigure) -> &'static str {
    match of {
        ProvenFigure::Direction => "Richtung",
        ProvenFigure::Distance => "Abstand",
        ProvenFigure::Aside => "seitlicher Platz",
        ProvenFigure::Turn => "Drehung der Fläche nach ihren Marken",
    }
}

pub fn routine(locale: Locale, result: &RoutineResult) -> String {
    match result {
        RoutineResult::Passed => "Die Routine meldete: bestanden.".to_owned(),
        RoutineResult::Failed { out } if out.is_empty() => "Die Routine meldete: fehlgeschlagen.".to_owned(),
        RoutineResult::Failed { out } => {
            let ways: Vec<String> = out
                .iter()
                .map(|own| {
                    let way = match own.way {
                        Out::Left => "nach links",
                        Out::Right => "nach rechts",
                        Out::Up => "nach oben",
                        Out::Down => "nach unten",
                    };
                    own.by_rad
                        .map_or_else(|| way.to_owned(), |by| format!("{} {way}", locale.region.degrees(by)))
                })
                .collect();
            format!("Die Routine meldete: fehlgeschlagen, Abweichung {}.", listed(&ways))
        }
    }
}

pub fn instrument(locale: Locale, own: &Instrument) -> String {
    let serial = if own.serial.is_empty() { String::new() } else { format!(" {}", own.serial) };
    let due = own.due.map(|own| format!(" (zu prüfen bis {})", locale.region.day(own)));
    let unlisted = if own.is_unlisted { " (nicht auf der Liste der Werkstatt)" } else { "" };
    format!("{}{serial}{}{unlisted}", own.name, due.unwrap_or_default())
}

pub const fn attachment_kind(kind: AttachmentKind) -> &'static str {
    match kind {
        AttachmentKind::Photo => "Foto",
        AttachmentKind::Scan => "Ausdruck des Fehlerspeichers",
        AttachmentKind::AlignmentSheet => "Protokoll der Achsvermessung",
        AttachmentKind::Sheet => "Blatt",
    }
}

fn entries(count: usize) -> String {
    match count {
        0 => "noch kein Eintrag".to_owned(),
        1 => "ein Eintrag".to_owned(),
        n => format!("{n} Einträge"),
    }
}

pub fn chain(job: &str, count: usize, head: &str, broken: Option<ChainBreak>) -> String {
    match broken {
        None => format!(
            "Auftrag {job}: {}, jeder schließt an den vorigen an. Letzter Prüfwert: {head}",
            entries(count)
        ),
        Some(ChainBreak { nth, line }) => {
            let line = line.map(|own| format!(", Zeile {own}")).unwrap_or_default();
            match nth {
                None => {
                    format!("Auftrag {job}: Der Anfang{line} wurde geändert, seit er geschrieben wurde.")
                }
                Some(nth) => {
                    let entry = nth + 1;
                    format!(
                        "Auftrag {job}: Eintrag {entry} von {count}{line} schließt nicht an das an, was davor steht: Er wurde geändert, oder \
                         davor wurde einer entfernt, eingefügt oder verschoben."
                    )
                }
            }
        }
    }
}

pub fn head_said(said: HeadSaid, count: usize) -> String {
    match said {
        HeadSaid::Same => "Es hat den genannten Prüfwert: Seither wurde nichts eingetragen.".to_owned(),
        HeadSaid::Earlier { entries: then, since } => {
            let then = match then {
                0 => "noch ohne Eintrag".to_owned(),
                1 => "mit einem Eintrag".to_owned(),
                n => format!("mit {n} Einträgen"),
            };
            let since = if since == 1 { "kam einer".to_owned() } else { format!("kamen {since}") };
            format!("Der genannte Prüfwert ist der dieses Protokolls {then}; seither {since} dazu.")
        }
        HeadSaid::Unknown => {
            let count = entries(count);
            format!(
                "Der genannte Prüfwert kommt in diesem Protokoll ({count}) nicht vor: Es ist ein anderes, oder es wurde neu geschrieben."
            )
        }
    }
}

pub fn attachment_lost(file: &str, is_changed: bool) -> String {
    if is_changed {
        format!("Beigelegt: Was beim Protokoll als {file} liegt, ist nicht, was beigelegt wurde.")
    } else {
        format!("Beigelegt: {file} liegt nicht beim Protokoll.")
    }
}

pub fn clock(locale: Locale, at: DateTime) -> String {
    format!("{} {:02}:{:02}", locale.region.day(at.date()), at.hour(), at.minute())
}

pub fn visit_answer(answer: &VisitAnswer) -> String {
    let here = |place: &PlaceAnswer| place.way == Way::StandsThere;
    let count = |is_here: bool| {
        let places = answer.places.iter().filter(|own| here(own) == is_here);
        places.map(|own| own.parts.len()).sum::<usize>()
    };
    let (stay, elsewhere, none) = (count(true), count(false), answer.no_way.len());
    if elsewhere == 0 && none == 0 {
        return match stay {
            0 => "Keine Einstellung ist verlangt.".to_owned(),
            1 => "Die Einstellung gelingt, wo das Fahrzeug steht.".to_owned(),
            n => format!("Alle {n} Einstellungen gehen, wo das Fahrzeug steht."),
        };
    }
    let all = stay + elsewhere + none;
    let mut parts = vec![match stay {
        0 => format!("Keine von {all} geht, wo das Fahrzeug steht"),
        1 => format!("1 von {all} geht, wo das Fahrzeug steht"),
        n => format!("{n} von {all} gehen, wo das Fahrzeug steht"),
    }];
    if elsewhere > 0 {
        let needs = if elsewhere == 1 { "1 braucht".to_owned() } else { format!("{elsewhere} brauchen") };
        parts.push(match answer.places.iter().filter(|own| !here(own)).count() {
            1 => format!("{needs} einen anderen Standplatz"),
            n => format!("{needs} {n} andere Standplätze"),
        });
    }
    if none > 0 {
        parts.push(format!("für {none} ist auf diesem Messplatz kein Weg bekannt"));
    }
    format!("{}.", parts.join("; "))
}

pub const fn regrouped() -> &'static str {
    "Was an einem Standplatz geht, steht beisammen, darum ist die Reihenfolge eine andere als in der Liste: Eine Reihenfolge des Herstellers geht vor."
}

pub fn no_way(aimings: &[String]) -> String {
    format!("Auf diesem Messplatz ist kein Weg bekannt für {}.", listed(aimings))
}

impl About<'_> {
    /// Something to do at a step of a visit.
    pub fn visit_task(&self, own: &Task, found: &Assessment) -> String {
        match own {
            Task::Do(step) => format!("{}.", sentence_start(&self.step(step))),
            Task::LookAt(nth) => match found.findings.get(*nth) {
                Some(finding) => {
                    let title = sentence_start(&self.title(finding));
                    self.cure(finding).map_or_else(|| format!("{title}."), |cure| format!("{title}. {cure}"))
                }
                None => task(self.locale, own),
            },
            _ => task(self.locale, own),
        }
    }

    /// Where the car is parked, what is aimed there, and what is moved before each.
    pub fn visit_place(&self, begun: &Begun, nth: usize, place: &PlaceAnswer) -> Vec<String> {
        let way = match &place.way {
            Way::StandsThere => format!("Standplatz {nth}: wo das Fahrzeug steht."),
            Way::Moved(by) => {
                format!("Standplatz {nth}: {} versetzt parken und die Marken neu legen.", self.towards(*by))
            }
            Way::AsSetUp(id) => {
                format!("Standplatz {nth}: parken wie in der Aufstellung „{id}“, alles so gestellt wie dort.")
            }
        };
        let parts = place.parts.iter().map(|own| {
            let title = title_of(begun, &own.aiming);
            let verdict = self.verdict(own.verdict);
            if own.before.is_empty() {
                return format!("{title}: {verdict}.");
            }
            let steps: Vec<String> = own.before.iter().map(|step| self.step(step)).collect();
            format!("{title}: zuerst {}; dann: {verdict}.", listed(&steps))
        });
        std::iter::once(way).chain(parts).collect()
    }
}
