//! The command line.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use baywright_drawing::sheet::{Paper, Sheet, Size};
use baywright_files::DxfUnit;
use baywright_planner::Code;
use baywright_planner::words::{Language, Locale, Units};
use clap::ArgMatches;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap_complete::Shell;
use jiff::civil::Date;

use crate::command_line::grammar::grammar;
use crate::command_line::misread::Misread;
use crate::session::planning::FURTHER_MM;

/// What was asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Command {
    /// Is the space ready?
    Check(Check),
    /// A view, to scale.
    Draw(Draw),
    /// Sheets to print.
    Sheet(SheetAsked),
    /// Marks and distances as a table.
    Marks(Marks),
    /// Which aimings fit where.
    Plan(PlanAsked),
    /// A bay out of a drawing of another program.
    Import(Import),
    /// What the record of a visit says.
    Record(RecordAsked),
    /// Whether a proof that a set-up fits nowhere holds.
    Proof(NeverAsked),
    /// What codes of findings mean: these, or all if there are none.
    Explain(Vec<Code>),
    /// The schema of all that is written as data.
    Schema,
    /// What a shell completes.
    Completions(Shell),
    /// The manual page: of the program, or of one command.
    Manual(Option<String>),
    /// The licence texts of what is inside.
    Licences,
    /// Open the desk: with this layout, or with the demo bay.
    Desk {
        /// What to open.
        layout: Option<PathBuf>,
        /// The day to date the floor survey by.
        today: Option<Date>,
        /// Whether that is the clock's, which goes on, and was not named.
        goes_on: bool,
    },
}

/// `baywright check`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Check {
    /// One or more.
    pub(crate) layouts: Vec<PathBuf>,
    pub(crate) arrangement: Option<String>,
    pub(crate) json: bool,
    pub(crate) quiet: bool,
    pub(crate) strict: bool,
    pub(crate) marks: bool,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// `baywright draw`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Draw {
    pub(crate) layout: PathBuf,
    pub(crate) arrangement: Option<String>,
    pub(crate) side: bool,
    pub(crate) dark: bool,
    pub(crate) to_room: bool,
    /// What goes wrong is told as data.
    pub(crate) json: bool,
    pub(crate) quiet: bool,
    pub(crate) output: PathBuf,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// `baywright sheet`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SheetAsked {
    /// One or more, files or folders.
    pub(crate) layouts: Vec<PathBuf>,
    pub(crate) arrangement: Option<String>,
    pub(crate) before: Option<String>,
    /// In the order in which they are bound together, each once.
    pub(crate) kinds: Vec<Sheet>,
    pub(crate) paper: Paper,
    pub(crate) output: PathBuf,
    /// What a folder of layouts becomes: the ending of its files' names.
    pub(crate) format: String,
    pub(crate) dpi: u32,
    pub(crate) revision: String,
    pub(crate) json: bool,
    pub(crate) quiet: bool,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// `baywright marks`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Marks {
    pub(crate) layout: PathBuf,
    pub(crate) arrangement: Option<String>,
    /// What goes wrong is told as data.
    pub(crate) json: bool,
    pub(crate) quiet: bool,
    /// `None`: standard output.
    pub(crate) output: Option<PathBuf>,
    /// What goes to standard output: `csv` or `json`.
    pub(crate) format: String,
    pub(crate) language: Language,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// `baywright proof check`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct NeverAsked {
    pub(crate) file: PathBuf,
    /// The layout that it is to be of.
    pub(crate) of: Option<PathBuf>,
    /// Its set-up; `None`: the one that the proof names.
    pub(crate) arrangement: Option<String>,
    pub(crate) quiet: bool,
    pub(crate) language: Language,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// `baywright plan`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PlanAsked {
    pub(crate) layout: PathBuf,
    pub(crate) arrangement: Option<String>,
    /// Instead of the set-ups all aimings of these cars.
    pub(crate) cars: Vec<String>,
    /// Of all cars.
    pub(crate) all_cars: bool,
    /// What must move for what is stopped is answered too.
    pub(crate) moves: bool,
    /// Instead of a plan a proof that the set-up fits nowhere, into this file.
    pub(crate) proof: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) csv: bool,
    /// Also what changes of the building unlock, walls so far out, mm.
    pub(crate) changes: Option<f64>,
    /// Instead of the answer as text the owner's report.
    pub(crate) report: Option<ReportAsked>,
    pub(crate) quiet: bool,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// The owner's report.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ReportAsked {
    pub(crate) output: PathBuf,
    pub(crate) paper: Paper,
    pub(crate) dpi: u32,
    pub(crate) revision: String,
}

/// `baywright import`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Import {
    pub(crate) drawing: PathBuf,
    /// `None`: the layers are listed.
    pub(crate) room: Option<String>,
    pub(crate) outline: Option<usize>,
    pub(crate) walls: Vec<String>,
    pub(crate) things: Vec<String>,
    pub(crate) unit: Option<DxfUnit>,
    pub(crate) gap_mm: f64,
    pub(crate) wall_mm: f64,
    /// `None`: what is taken instead is said.
    pub(crate) ceiling_mm: Option<f64>,
    pub(crate) vehicle: Option<String>,
    pub(crate) aiming: Option<String>,
    pub(crate) output: PathBuf,
    /// What goes wrong is told as data.
    pub(crate) json: bool,
    pub(crate) quiet: bool,
    pub(crate) language: Language,
}

/// `baywright record`, and what of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RecordAsked {
    /// The record's file.
    pub(crate) file: PathBuf,
    /// As data, what goes wrong too.
    pub(crate) as_data: bool,
    pub(crate) quiet: bool,
    pub(crate) language: Language,
    pub(crate) today: Option<Date>,
    pub(crate) what: AskedOfRecord,
}

/// What is asked of a record.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum AskedOfRecord {
    /// Whether each entry follows from the one before, and whether the last has this hash.
    Check { head: Option<String> },
    /// All that stands in it; `None`: to standard output.
    Show { output: Option<PathBuf> },
    /// Its file of proof.
    Sheet(ProofAsked),
}

/// `baywright record sheet`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ProofAsked {
    pub(crate) output: PathBuf,
    pub(crate) paper: Paper,
    pub(crate) dpi: u32,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// Why the command line gives no command.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Unread {
    /// Help or the version was asked for: this text.
    Help(String),
    /// It cannot be read: why, and whether it asked for that as data.
    Wrong(Box<Misread>, bool),
}

/// The language that a command line asks for: found before it is read, for what is said of it is said in it. `None` where none is
/// asked for, or one that there is not, which is said when it is read.
pub(crate) fn language(arguments: &[OsString]) -> Option<Language> {
    let mut own = arguments.iter().take_while(|own| *own != "--").filter_map(|own| own.to_str());
    own.by_ref().find_map(|word| word.strip_prefix("--language").map(str::to_owned)).and_then(|rest| {
        match rest.strip_prefix('=') {
            Some(tag) => Language::of_tag(tag),
            None if rest.is_empty() => Language::of_tag(own.next()?),
            None => None,
        }
    })
}

/// Reads the command line; the first argument is the program's own name. What is said of it is said in this language, help in
/// lines of at most so many letters.
pub(crate) fn read(
    arguments: impl IntoIterator<Item = OsString>,
    language: Language,
    width: Option<usize>,
) -> Result<Command, Unread> {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let parse = |arguments: &[OsString]| {
        // To the library a width of nothing is no end.
        grammar(language).term_width(width.unwrap_or(0)).try_get_matches_from(arguments)
    };
    let matches = parse(&arguments)
        .or_else(|error| opening(&arguments, &error).map_or(Err(error), |arguments| parse(&arguments)))
        .map_err(|error| match error.kind() {
            ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Unread::Help(error.to_string()),
            _ => Unread::Wrong(Box::new(Misread::from(&error)), asks_for_data(&arguments)),
        })?;
    let named = matches.get_one::<Date>("date").copied();
    let (goes_on, today) = (named.is_none(), named.or_else(clock));
    Ok(match matches.subcommand() {
        Some(("check", given)) => Command::Check(Check {
            layouts: given.get_many::<PathBuf>("layout").unwrap_or_default().cloned().collect(),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            json: given.get_flag("json"),
            quiet: given.get_flag("quiet"),
            strict: given.get_flag("strict"),
            marks: given.get_flag("marks"),
            locale: Locale::of(language, units(given)),
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("draw", given)) => Command::Draw(Draw {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            side: given.get_one::<String>("view").is_some_and(|view| view == "side"),
            dark: given.get_flag("dark"),
            json: given.get_flag("json"),
            to_room: given.get_one::<String>("paper").is_some_and(|turned| turned == "room"),
            quiet: given.get_flag("quiet"),
            output: path(given, "output"),
            locale: Locale::of(language, units(given)),
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("sheet", given)) => Command::Sheet(sheet(given, language, today)),
        Some(("marks", given)) => Command::Marks(Marks {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            json: given.get_flag("json"),
            quiet: given.get_flag("quiet"),
            output: given.get_one::<PathBuf>("output").cloned(),
            format: given.get_one::<String>("format").cloned().unwrap_or_default(),
            language,
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("plan", given)) => Command::Plan(PlanAsked {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            cars: given.get_many::<String>("car").unwrap_or_default().cloned().collect(),
            all_cars: given.get_flag("all-cars"),
            moves: given.get_flag("moves"),
            proof: given.get_one::<PathBuf>("proof").cloned(),
            json: given.get_flag("json"),
            csv: given.get_flag("csv"),
            changes: given
                .get_flag("changes")
                .then(|| given.get_one::<f64>("further").copied().unwrap_or(FURTHER_MM)),
            report: given.get_one::<PathBuf>("output").map(|output| ReportAsked {
                output: output.clone(),
                paper: paper(given),
                dpi: given.get_one::<u32>("dpi").copied().unwrap_or(150),
                revision: given.get_one::<String>("revision").cloned().unwrap_or_default(),
            }),
            quiet: given.get_flag("quiet"),
            locale: Locale::of(language, units(given)),
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("import", given)) => Command::Import(import(given, language)),
        Some(("record", given)) => Command::Record(record(given, language, today)),
        Some(("proof", given)) => Command::Proof(proof(given, language, today)),
        Some(("explain", given)) => Command::Explain(codes(given)),
        Some(("schema", _)) => Command::Schema,
        Some(("completions", given)) => match given.get_one::<Shell>("shell") {
            Some(shell) => Command::Completions(*shell),
            None => Command::Manual(None),
        },
        Some(("man", given)) => Command::Manual(given.get_one::<String>("command").cloned()),
        Some(("licences", _)) => Command::Licences,
        Some(("open", given)) => Command::Desk { layout: Some(path(given, "layout")), today, goes_on },
        _ => Command::Desk { layout: None, today, goes_on },
    })
}

fn sheet(given: &ArgMatches, language: Language, today: Option<Date>) -> SheetAsked {
    let text = |name: &str| given.get_one::<String>(name).cloned();
    let mut kinds: Vec<Sheet> = Vec::new();
    for name in given.get_many::<String>("kind").unwrap_or_default() {
        kinds.extend(
            Sheet::ALL.into_iter().find(|own| own.as_str() == name).filter(|own| !kinds.contains(own)),
        );
    }
    SheetAsked {
        layouts: given.get_many::<PathBuf>("layout").unwrap_or_default().cloned().collect(),
        arrangement: text("arrangement"),
        before: text("before"),
        kinds,
        paper: paper(given),
        output: path(given, "output"),
        format: text("format").unwrap_or_default(),
        dpi: given.get_one::<u32>("dpi").copied().unwrap_or(150),
        revision: text("revision").unwrap_or_default(),
        json: given.get_flag("json"),
        quiet: given.get_flag("quiet"),
        locale: Locale::of(language, units(given)),
        today,
        shop: given.get_one::<PathBuf>("shop").cloned(),
    }
}

/// The paper that was asked for, or the usual one where lengths are shown so.
fn paper(given: &ArgMatches) -> Paper {
    let usual = if units(given) == Units::FeetInches { Size::Letter } else { Size::A4 };
    let named = given.get_one::<String>("paper").and_then(|name| Size::of_name(name));
    Paper { size: named.unwrap_or(usual), is_landscape: given.get_flag("landscape") }
}

fn proof(given: &ArgMatches, language: Language, today: Option<Date>) -> NeverAsked {
    let given = given.subcommand().map_or(given, |own| own.1);
    NeverAsked {
        file: path(given, "proof"),
        of: given.get_one::<PathBuf>("of").cloned(),
        arrangement: given.get_one::<String>("arrangement").cloned(),
        quiet: given.get_flag("quiet"),
        language,
        today,
        shop: given.get_one::<PathBuf>("shop").cloned(),
    }
}

fn record(given: &ArgMatches, language: Language, today: Option<Date>) -> RecordAsked {
    let (name, given) = given.subcommand().unwrap_or(("show", given));
    let has = |flag: &str| given.try_get_one::<bool>(flag).ok().flatten().copied().unwrap_or_default();
    let text = |name: &str| given.try_get_one::<String>(name).ok().flatten().cloned();
    let what = match name {
        "check" => AskedOfRecord::Check { head: text("head") },
        "sheet" => AskedOfRecord::Sheet(ProofAsked {
            output: path(given, "output"),
            paper: paper(given),
            dpi: given.get_one::<u32>("dpi").copied().unwrap_or(150),
            locale: Locale::of(language, units(given)),
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        _ => AskedOfRecord::Show { output: given.get_one::<PathBuf>("output").cloned() },
    };
    RecordAsked {
        file: path(given, "record"),
        as_data: has("json") || text("format").is_some_and(|own| own == "json"),
        quiet: has("quiet"),
        language,
        today,
        what,
    }
}

fn import(given: &ArgMatches, language: Language) -> Import {
    let named = |name: &str| given.get_one::<String>(name).cloned();
    let layers = |name: &str| given.get_many::<String>(name).unwrap_or_default().cloned().collect();
    let mm = |name: &str| given.get_one::<f64>(name).copied();
    Import {
        drawing: path(given, "drawing"),
        room: named("room"),
        outline: given.get_one::<u16>("outline").map(|number| usize::from(*number)),
        walls: layers("walls"),
        things: layers("things"),
        unit: named("units").and_then(|unit| match unit.as_str() {
            "mm" => Some(DxfUnit::Millimetres),
            "cm" => Some(DxfUnit::Centimetres),
            "m" => Some(DxfUnit::Metres),
            "in" => Some(DxfUnit::Inches),
            "ft" => Some(DxfUnit::Feet),
            _ => None,
        }),
        gap_mm: mm("gap").unwrap_or_default(),
        wall_mm: mm("wall-thickness").unwrap_or_default(),
        ceiling_mm: mm("ceiling"),
        vehicle: named("vehicle"),
        aiming: named("aiming"),
        output: path(given, "output"),
        json: given.get_flag("json"),
        quiet: given.get_flag("quiet"),
        language,
    }
}

/// Whether `--json` stands among the options of a command line that cannot be read.
fn asks_for_data(arguments: &[OsString]) -> bool {
    arguments.iter().take_while(|own| *own != "--").any(|own| own == "--json")
}

fn codes(given: &ArgMatches) -> Vec<Code> {
    let named = given.get_many::<String>("code").unwrap_or_default();
    named.filter_map(|name| Code::ALL.into_iter().find(|code| code.as_str() == name)).collect()
}

/// The same command line with "open" before what is no command and may be a file.
fn opening(arguments: &[OsString], error: &clap::Error) -> Option<Vec<OsString>> {
    let Some(ContextValue::String(word)) = error.get(ContextKind::InvalidSubcommand) else { return None };
    let at = arguments.iter().skip(1).position(|own| own.to_str() == Some(word))? + 1;
    baywright_files::may_be_layout(Path::new(word)).then(|| {
        let (before, from) = arguments.split_at(at);
        [before, &["open".into()], from].concat()
    })
}

/// Today.
fn clock() -> Option<Date> {
    Some(crate::session::clock::now().date())
}

fn path(given: &ArgMatches, name: &str) -> PathBuf {
    given.get_one::<PathBuf>(name).cloned().unwrap_or_default()
}

fn units(given: &ArgMatches) -> Units {
    match given.get_one::<String>("units").map(String::as_str) {
        Some("m") => Units::Metres,
        Some("ft") => Units::FeetInches,
        _ => Units::Millimetres,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: Vec<OsString>) -> Result<Command, Unread> {
        super::read(line, Language::English, None)
    }

    fn words(line: &str) -> Vec<OsString> {
        line.split_whitespace().map(OsString::from).collect()
    }

    #[test]
    fn commands_are_read() {
        let Ok(Command::Check(check)) =
            read(words("baywright check a.ron - --json --strict -q --date 2026-11-01 --shop ours.ron"))
        else {
            panic!()
        };
        assert!(check.json && check.strict && check.quiet && check.arrangement.is_none());
        assert_eq!(check.layouts, ["a.ron", "-"].map(PathBuf::from));
        assert_eq!(check.shop, Some(PathBuf::from("ours.ron")));
        assert_eq!(check.today, Some(jiff::civil::date(2026, 11, 1)));
        let Ok(Command::Draw(draw)) = read(words("baywright draw a.ron --view side -o b.svg --units ft"))
        else {
            panic!()
        };
        assert!(draw.side && draw.locale.units == Units::FeetInches);
        let line = "baywright sheet a.ron b.ron --kind findings,marks --kind marks --paper a3 --landscape --out c.pdf --dpi 300";
        let Ok(Command::Sheet(sheet)) = read(words(line)) else { panic!() };
        assert_eq!(sheet.kinds, [Sheet::Findings, Sheet::Marks]);
        assert_eq!((sheet.paper, sheet.dpi), (Paper::landscape(Size::A3), 300));
        let Ok(Command::Sheet(sheet)) = read(words("baywright sheet a.ron -o c.png --units ft")) else {
            panic!()
        };
        assert_eq!((sheet.kinds, sheet.paper), (vec![Sheet::Marks], Paper::portrait(Size::Letter)));
        assert!(matches!(read(words("baywright")), Ok(Command::Desk { layout: None, .. })));
        for line in
            ["open a.ron", "a.ron", "crowded-bay", "--date 2026-11-01 a.ron", "a.ron --date 2026-11-01"]
        {
            let read = read(words(&format!("baywright {line}")));
            assert!(matches!(read, Ok(Command::Desk { layout: Some(_), .. })), "{line}");
        }
        assert_eq!(read(words("baywright licences")), Ok(Command::Licences));
        assert_eq!(read(words("baywright schema")), Ok(Command::Schema));
        assert_eq!(read(words("baywright explain")), Ok(Command::Explain(Vec::new())));
        let asked = Command::Explain(vec![Code::CarPlace, Code::WayIn]);
        assert_eq!(read(words("baywright explain car-place way-in")), Ok(asked));
        assert_eq!(read(words("baywright completions fish")), Ok(Command::Completions(Shell::Fish)));
        assert_eq!(read(words("baywright man draw")), Ok(Command::Manual(Some("draw".to_owned()))));
    }

    #[test]
    fn help_is_as_wide_as_it_may_be() {
        let read = |width| super::read(words("baywright check --help"), Language::English, width);
        let [Err(Unread::Help(narrow)), Err(Unread::Help(endless))] = [read(Some(60)), read(None)] else {
            panic!()
        };
        assert!(narrow.lines().all(|line| line.chars().count() <= 60), "{narrow}");
        assert!(endless.lines().any(|line| line.chars().count() > 100), "{endless}");
        let one = |text: &str| text.split_whitespace().map(ToOwned::to_owned).collect::<Vec<_>>();
        assert_eq!(one(&narrow), one(&endless));
    }

    #[test]
    fn what_cannot_be_read_is_said() {
        for line in [
            "baywright chek a.ron",
            "baywright check",
            "baywright a.ron b.ron",
            "baywright draw a.ron",
            "baywright draw a.ron --view up -o b",
            "baywright sheet a.ron",
            "baywright sheet a.ron -o b.pdf --dpi 49",
            "baywright sheet a.ron -o b.pdf --paper A5",
        ] {
            assert!(matches!(read(words(line)), Err(Unread::Wrong(..))), "{line}");
        }
        assert!(matches!(read(words("baywright --help")), Err(Unread::Help(_))));
        assert!(matches!(read(words("baywright check a --date 2026-13-01")), Err(Unread::Wrong(..))));
        // One form, and our words.
        for odd in
            ["20261102", "2026-11-02T08:00", "+002026-11-02", "2026-11-2", "tomorrow", "2026-11-02[UTC]"]
        {
            let read = read(words(&format!("baywright check a --date {odd}")));
            let Err(Unread::Wrong(said, false)) = read else { panic!("{odd} is read") };
            let said = said.text;
            assert!(said.contains("write a day as 2026-11-02"), "{said}");
        }
    }
}
