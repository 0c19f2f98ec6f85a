//! What is wrong with a file, in one sentence.

use super::allowed::{allowed, did_you_mean};
use super::drawing::drawing;
use super::found::found;
use crate::model::fault::{Choice, FileFault, FileKind, FileTrouble, Instead, PictureKind, Why, Wrong};
use crate::words::Lengths;
use crate::words::german::screen;

/// What is wrong with a file: where, what was found, what is allowed.
pub fn file_fault(fault: &FileFault) -> String {
    let mut sentence = fault.file.clone();
    if let Some(line) = fault.line {
        sentence += &format!(", Zeile {line}");
    }
    if let Some(column) = fault.column {
        sentence += &format!(", Spalte {column}");
    }
    if let Some(field) = fault.field() {
        sentence += &format!(", {field}");
    }
    match &*fault.wrong {
        Wrong::Inside(fault) => {
            format!(
                "{sentence} – gefunden: {}; erlaubt: {}.",
                found(fault, Lengths::InFile),
                allowed(&fault.allowed, Lengths::InFile)
            )
        }
        Wrong::Whole(trouble) => format!("{sentence}: {}.", self::trouble(trouble)),
    }
}

fn trouble(trouble: &FileTrouble) -> String {
    match trouble {
        FileTrouble::NotRead { kind, why, built_in } => format!(
            "hier ist {} zu lesen: {}{}",
            no(*kind),
            self::why(*why, "eine Datei dieses Namens gibt es nicht"),
            built_in.as_deref().map(built_in_bays).unwrap_or_default()
        ),
        FileTrouble::IsFolder(FileKind::Picture) => {
            "das ist ein Ordner; eine Bilddatei darin angeben".to_owned()
        }
        FileTrouble::IsFolder(FileKind::Drawing) => {
            "das ist ein Ordner; eine Zeichnung darin angeben, die auf .dxf endet".to_owned()
        }
        FileTrouble::IsFolder(FileKind::Attachment) => {
            "das ist ein Ordner; die Datei darin nennen, die angehängt werden soll".to_owned()
        }
        FileTrouble::IsFolder(kind) => {
            format!("das ist ein Ordner; eine Datei darin angeben, die auf .ron endet ({})", a(*kind))
        }
        FileTrouble::NoPlainFile(kind) => {
            format!("das ist keine gewöhnliche Datei; eine solche angeben ({})", a(*kind))
        }
        FileTrouble::TooLarge { kind: FileKind::Picture, bytes, most } => format!(
            "diese Datei hat {bytes} Byte; ein Bild wird bis {most} Byte gelesen: verkleinern"
        ),
        FileTrouble::TooLarge { kind: _, bytes, most } => {
            format!("diese Datei hat {bytes} Byte; höchstens {most} Byte werden gelesen")
        }
        FileTrouble::NoText(kind, byte) => format!(
            "das Byte 0x{byte:02X} ist kein Text; {} ist als einfacher Text in UTF-8 zu speichern",
            a(*kind)
        ),
        FileTrouble::ControlCharacter(kind) => {
            format!("ein Steuerzeichen, wie in einer Datei, die kein Text ist; {} ist einfacher Text", a(*kind))
        }
        FileTrouble::Empty(FileKind::Attachment) => {
            "diese Datei ist leer: nichts anzuhängen".to_owned()
        }
        FileTrouble::Empty(kind) => {
            format!("das ist eine leere Datei; {} beginnt mit `(version: 1,`", a(*kind))
        }
        FileTrouble::OtherKind { wanted, found } => {
            format!("gefunden: {}; gesucht: {}", plainly(*found), plainly(*wanted))
        }
        FileTrouble::More(1) => "eine weitere Stelle ist ebenso falsch".to_owned(),
        FileTrouble::More(count) => format!("{count} weitere Stellen sind ebenso falsch"),
        FileTrouble::NameIsNoText => {
            "der Name dieser Datei ist kein Text; ihr einen Namen aus einfachen Buchstaben geben".to_owned()
        }

        FileTrouble::NoAttachment => {
            "Dateien dieser Art werden nicht angehängt; möglich sind Bilder, PDF, Text, CSV, XML und JSON".to_owned()
        }

        FileTrouble::PictureKind(kind) => format!(
            "das ist {}, was hier nicht gelesen wird; das Bild als PNG oder JPEG speichern",
            picture_kind(*kind)
        ),
        FileTrouble::TooManyPixels { width, height, most_a_side, most } => format!(
            "dieses Bild hat {width} mal {height} Bildpunkte; gelesen werden höchstens {most_a_side} je Seite und {} \
             Millionen insgesamt: verkleinern",
            most / 1_000_000
        ),
        FileTrouble::PictureManner => {
            "dieses Bild ist auf eine Weise gespeichert, die hier nicht gelesen wird; als einfaches PNG neu speichern"
                .to_owned()
        }
        FileTrouble::PictureMemory => {
            "für dieses Bild reicht der Arbeitsspeicher nicht; verkleinern".to_owned()
        }
        FileTrouble::PictureDamaged => {
            "dieses Bild ist beschädigt und nicht bis zum Ende zu lesen; noch einmal von dort kopieren, woher es kam"
                .to_owned()
        }

        FileTrouble::Drawing(trouble) => drawing(trouble),

        FileTrouble::NotWritten(why) => format!(
            "diese Datei ist nicht zu schreiben: {}; {}",
            self::why(*why, "diesen Ordner gibt es nicht"),
            what_to_do(why.instead())
        ),
        FileTrouble::FolderInItsPlace => {
            "das ist nicht zu schreiben: Es ist ein Ordner; eine Datei darin angeben, wie mein-messplatz.ron".to_owned()
        }
        FileTrouble::NoPlainFileInItsPlace => {
            "das ist nicht zu schreiben: Es ist keine gewöhnliche Datei; einen anderen Namen wählen".to_owned()
        }
        FileTrouble::Protected => "diese Datei ist nicht zu schreiben: Sie ist schreibgeschützt; unter anderem Namen \
                                   speichern, oder den Schutz aufheben"
            .to_owned(),
        FileTrouble::LinkToOtherKind(file) => format!(
            "diese Datei ist nicht zu schreiben: Sie ist ein Verweis auf {file}, eine andere Art von Datei, als der Name \
             des Verweises sagt; einen anderen Namen wählen"
        ),
        FileTrouble::IsInput => {
            "diese Datei ist nicht zu schreiben: Daraus wird dies gemacht; einen anderen Namen wählen".to_owned()
        }
        FileTrouble::NotInText => {
            "das ist nicht als Text zu schreiben; nach einem Wert suchen, der keine Zahl ist".to_owned()
        }
        FileTrouble::NoHome => {
            "es lässt sich keine Kopie schreiben: Es gibt keinen persönlichen Ordner dafür".to_owned()
        }
        FileTrouble::FullOfCopies => {
            "dieser Ordner ist voll von aufbewahrten Kopien; einige löschen".to_owned()
        }

        FileTrouble::NotHeld(why) => format!(
            "hier lässt sich nicht vermerken, dass eine Datei offen ist: {}; sie nicht in einem zweiten Fenster öffnen",
            self::why(*why, "den Ordner gibt es nicht")
        ),
        FileTrouble::NotKept(why) => format!(
            "nicht gespeicherte Arbeit lässt sich hier nicht gegen Absturz sichern: {}; die Arbeit bald speichern",
            self::why(*why, "den Ordner gibt es nicht mehr")
        ),

        FileTrouble::NoArrangement => {
            "dieser Messplatz hat keine Aufstellung zu zeigen; nötig ist eine unter `arrangements`".to_owned()
        }
        FileTrouble::CannotBeJudged => screen::TEXTS.cannot_be_judged.to_owned(),
    }
}

/// What a file is to be.
const fn a(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Layout => "ein Messplatz",
        FileKind::Profile => "ein Fahrzeugprofil",
        FileKind::ProfileFolder => "ein Ordner mit Fahrzeugprofilen",
        FileKind::TriggerList => "eine Arbeitsliste",
        FileKind::Shop => "die Vorgaben einer Werkstatt",
        FileKind::Picture => "ein Bild",
        FileKind::Levels => "eine Tabelle von Bodenhöhen",
        FileKind::Drawing => "eine DXF-Zeichnung",
        FileKind::Record => "ein Protokoll eines Auftrags",
        FileKind::Attachment => "eine Anlage",
        FileKind::Any => "eine Datei",
    }
}

/// What is not there to be read.
const fn no(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Layout => "kein Messplatz",
        FileKind::Profile => "kein Fahrzeugprofil",
        FileKind::ProfileFolder => "kein Ordner mit Fahrzeugprofilen",
        FileKind::TriggerList => "keine Arbeitsliste",
        FileKind::Shop => "keine Vorgabe einer Werkstatt",
        FileKind::Picture => "kein Bild",
        FileKind::Levels => "keine Tabelle von Bodenhöhen",
        FileKind::Drawing => "keine DXF-Zeichnung",
        FileKind::Record => "kein Protokoll eines Auftrags",
        FileKind::Attachment => "keine Anlage",
        FileKind::Any => "keine Datei",
    }
}

/// The same for who has the wrong file in hand.
const fn plainly(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Profile => "ein Fahrzeug",
        other => a(other),
    }
}

fn built_in_bays(choice: &Choice) -> String {
    let names: Vec<&str> = choice.names.iter().map(|id| id.as_str()).collect();
    let meant = did_you_mean(choice.meant.as_ref().map(|id| id.as_str()));
    format!("; mitgelieferte Messplätze: {}{meant}", names.join(", "))
}

const fn picture_kind(kind: PictureKind) -> &'static str {
    match kind {
        PictureKind::Empty => "eine leere Datei",
        PictureKind::Gif => "ein GIF-Bild",
        PictureKind::Bmp => "ein BMP-Bild",
        PictureKind::Tiff => "ein TIFF-Bild",
        PictureKind::WebP => "ein WebP-Bild",
        PictureKind::Heic => "ein HEIC-Bild",
        PictureKind::Avif => "ein AVIF-Bild",
        PictureKind::Pdf => "ein PDF-Dokument",
        PictureKind::Dwg => "eine DWG-Zeichnung",
        PictureKind::Xml => "eine SVG- oder andere XML-Datei",
        PictureKind::None => "kein Bild",
    }
}

/// What to do about a file that cannot be written.
const fn what_to_do(instead: Instead) -> &'static str {
    match instead {
        Instead::Room => "dort Platz schaffen, oder auf einem anderen Datenträger speichern",
        Instead::OtherName => "einen anderen Namen wählen",
        Instead::OtherPlace => "einen Ort wählen, an dem geschrieben werden darf",
    }
}

/// Why something is refused; `missing` is what is not there.
fn why(why: Why, missing: &str) -> String {
    let system = match why {
        Why::NotThere => return missing.to_owned(),
        Why::Permission => return "die Berechtigung fehlt".to_owned(),
        Why::IsFolder => return "es ist ein Ordner".to_owned(),
        Why::NoFolder => return "was ein Ordner sein sollte, ist eine Datei".to_owned(),
        Why::DiskFull => return "der Datenträger ist voll".to_owned(),
        Why::FileTooLarge => return "so große Dateien sind hier nicht erlaubt".to_owned(),
        Why::NameTooLong => {
            return "der Name oder der ganze Pfad ist zu lang, um eine Datei vollständig zu schreiben"
                .to_owned();
        }
        Why::NulInName => return "der Name enthält ein Zeichen, das kein Name haben darf (NUL)".to_owned(),
        Why::DiskFails => {
            return "der Datenträger antwortet nicht, wie er soll; er ist vielleicht defekt oder wurde entfernt"
                .to_owned();
        }
        Why::ReadOnly => return "der Datenträger ist schreibgeschützt".to_owned(),
        Why::Other(Some(number)) => return format!("das System meldet: Fehler {number}"),
        Why::Other(None) => return "das System sagt nicht, warum".to_owned(),
        Why::Invalid => "ungültiges Argument",
        Why::Exists => "die Datei gibt es schon",
        Why::Busy => "Gerät oder Datei belegt",
        Why::Running => "Programmdatei wird ausgeführt",
        Why::TooManyOpen => "zu viele offene Dateien",
        Why::LinksInCircle => "zu viele Verweise hintereinander",
        Why::OtherDisk => "Verweis auf einen anderen Datenträger",
        Why::Stale => "veralteter Dateizugriff",
        Why::TimedOut => "Zeit für die Verbindung überschritten",
        Why::Memory => "kein Arbeitsspeicher frei",
        Why::Unsupported => "Vorgang nicht unterstützt",
        Why::Interrupted => "Systemaufruf unterbrochen",
        Why::WroteNothing => "nichts wurde geschrieben",
        Why::EndedEarly => "unerwartetes Ende der Datei",
        Why::GateShut => "ein anderes Fenster des Programms gibt es nicht frei",
        Why::TooMuchWork => "es gibt zu viel nicht gespeicherte Arbeit auf einmal",
        Why::FullOfJournals => "der Ordner ist voll von Aufzeichnungen beendeter Sitzungen",
        Why::WorkTooLarge => "die Arbeit ist zu groß",
        Why::WorkNameTooLong => "Name oder Pfad der Arbeit ist zu lang",
    };
    format!("das System meldet: {system}")
}
