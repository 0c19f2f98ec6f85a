//! The command line.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use baywright_planner::words::command_line::CommandLine;
use baywright_planner::words::{Language, Locale, Units};
use clap::builder::PossibleValuesParser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, ArgAction, ArgMatches, value_parser};
use jiff::civil::Date;

/// What was asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Command {
    /// Is the space ready?
    Check(Check),
    /// A view, to scale.
    Draw(Draw),
    /// The licence texts of what is inside.
    Licences,
    /// Open the desk: with this layout, or with the demo bay.
    Desk {
        /// What to open.
        layout: Option<PathBuf>,
        /// The day to date the floor survey by.
        today: Option<Date>,
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
    pub(crate) quiet: bool,
    pub(crate) output: PathBuf,
    pub(crate) locale: Locale,
    pub(crate) today: Option<Date>,
    pub(crate) shop: Option<PathBuf>,
}

/// Why the command line gives no command.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Unread {
    /// Help or the version was asked for: this text.
    Help(String),
    /// It cannot be read: why.
    Wrong(String),
}

/// Reads the command line; the first argument is the program's own name. What is said of it is said in this language.
pub(crate) fn read(
    arguments: impl IntoIterator<Item = OsString>,
    language: Language,
) -> Result<Command, Unread> {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let parse = |arguments: &[OsString]| grammar(language.command_line()).try_get_matches_from(arguments);
    let matches = parse(&arguments)
        .or_else(|error| opening(&arguments, &error).map_or(Err(error), |arguments| parse(&arguments)))
        .map_err(|error| match error.kind() {
            ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Unread::Help(error.to_string()),
            _ => Unread::Wrong(error.to_string()),
        })?;
    let today = matches.get_one::<Date>("date").copied().or_else(clock);
    Ok(match matches.subcommand() {
        Some(("check", given)) => Command::Check(Check {
            layouts: given.get_many::<PathBuf>("layout").unwrap_or_default().cloned().collect(),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            json: given.get_flag("json"),
            quiet: given.get_flag("quiet"),
            strict: given.get_flag("strict"),
            marks: given.get_flag("marks"),
            locale: Locale { language, units: units(given), ..Locale::default() },
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("draw", given)) => Command::Draw(Draw {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            side: given.get_one::<String>("view").is_some_and(|view| view == "side"),
            dark: given.get_flag("dark"),
            to_room: given.get_one::<String>("paper").is_some_and(|turned| turned == "room"),
            quiet: given.get_flag("quiet"),
            output: path(given, "output"),
            locale: Locale { language, units: units(given), ..Locale::default() },
            today,
            shop: given.get_one::<PathBuf>("shop").cloned(),
        }),
        Some(("licences", _)) => Command::Licences,
        Some(("open", given)) => Command::Desk { layout: Some(path(given, "layout")), today },
        _ => Command::Desk { layout: None, today },
    })
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

/// The one place where the clock is read.
fn clock() -> Option<Date> {
    let zone = if baywright_files::zone_is_plain(std::env::var_os("TZ").as_deref()) {
        jiff::tz::TimeZone::system()
    } else {
        jiff::tz::TimeZone::UTC
    };
    Some(jiff::Timestamp::now().to_zoned_datetime(zone).date())
}

/// A day as it is written everywhere here, `2026-11-02`, and in no other of the many forms that the library reads.
fn day(text: &str) -> Option<Date> {
    let is_written_so = text.len() == 10
        && text
            .bytes()
            .enumerate()
            .all(|(i, b)| if matches!(i, 4 | 7) { b == b'-' } else { b.is_ascii_digit() });
    is_written_so.then(|| text.parse().ok()).flatten()
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

fn grammar(texts: &'static CommandLine) -> clap::Command {
    let layout = |help: &'static str| {
        Arg::new("layout")
            .value_name(texts.a_file)
            .required(true)
            .value_parser(value_parser!(PathBuf))
            .help(help)
    };
    let arrangement = |help: &'static str| {
        Arg::new("arrangement").long("arrangement").short('a').value_name(texts.a_name).help(help)
    };
    let units = || {
        Arg::new("units")
            .long("units")
            .value_parser(PossibleValuesParser::new(["mm", "m", "ft"]))
            .default_value("mm")
            .help(texts.units)
    };
    let shop = || {
        Arg::new("shop")
            .long("shop")
            .value_name(texts.a_file)
            .value_parser(value_parser!(PathBuf))
            .help(texts.shop)
    };
    let flag = |name: &'static str, help: &'static str| {
        Arg::new(name).long(name).action(ArgAction::SetTrue).help(help)
    };
    let quiet = || flag("quiet", texts.quiet).short('q');
    let date = Arg::new("date")
        .long("date")
        .global(true)
        .value_name(texts.a_day)
        .value_parser(move |text: &str| day(text).ok_or(texts.no_day))
        .help(texts.date);
    let check = clap::Command::new("check")
        .about(texts.check)
        .arg(layout(texts.layouts).num_args(1..))
        .arg(arrangement(texts.check_arrangement))
        .arg(flag("json", texts.json))
        .arg(flag("strict", texts.strict))
        .arg(flag("marks", texts.marks))
        .arg(quiet())
        .arg(units())
        .arg(shop())
        .after_help(texts.after);
    let draw = clap::Command::new("draw")
        .about(texts.draw)
        .arg(layout(texts.layout))
        .arg(arrangement(texts.draw_arrangement))
        .arg(
            Arg::new("view")
                .long("view")
                .required(true)
                .value_parser(PossibleValuesParser::new(["top", "side"]))
                .help(texts.view),
        )
        .arg(
            Arg::new("output")
                .long("output")
                .short('o')
                .required(true)
                .value_name(texts.a_picture)
                .value_parser(value_parser!(PathBuf))
                .help(texts.output),
        )
        .arg(
            Arg::new("paper")
                .long("paper")
                .value_parser(PossibleValuesParser::new(["car", "room"]))
                .default_value("car")
                .help(texts.paper),
        )
        .arg(flag("dark", texts.dark))
        .arg(quiet())
        .arg(units())
        .arg(shop())
        .after_help(texts.after);
    let open = clap::Command::new("open").about(texts.open).arg(layout(texts.layout_to_open));
    let licences = clap::Command::new("licences").about(texts.print_licences);
    clap::Command::new("baywright")
        .version(env!("CARGO_PKG_VERSION"))
        .about(texts.program)
        .arg(date)
        .subcommand(check)
        .subcommand(draw)
        .subcommand(open)
        .subcommand(licences)
        .after_help(texts.after)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: Vec<OsString>) -> Result<Command, Unread> {
        super::read(line, Language::English)
    }

    fn words(line: &str) -> Vec<OsString> {
        line.split_whitespace().map(OsString::from).collect()
    }

    #[test]
    fn the_grammar_is_sound() {
        grammar(Language::English.command_line()).debug_assert();
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
        assert!(matches!(read(words("baywright")), Ok(Command::Desk { layout: None, .. })));
        for line in
            ["open a.ron", "a.ron", "crowded-bay", "--date 2026-11-01 a.ron", "a.ron --date 2026-11-01"]
        {
            let read = read(words(&format!("baywright {line}")));
            assert!(matches!(read, Ok(Command::Desk { layout: Some(_), .. })), "{line}");
        }
        assert_eq!(read(words("baywright licences")), Ok(Command::Licences));
    }

    #[test]
    fn what_cannot_be_read_is_said() {
        for line in [
            "baywright chek a.ron",
            "baywright check",
            "baywright a.ron b.ron",
            "baywright draw a.ron",
            "baywright draw a.ron --view up -o b",
        ] {
            assert!(matches!(read(words(line)), Err(Unread::Wrong(_))), "{line}");
        }
        assert!(matches!(read(words("baywright --help")), Err(Unread::Help(_))));
        assert!(matches!(read(words("baywright check a --date 2026-13-01")), Err(Unread::Wrong(_))));
        // One form, and our words.
        for odd in
            ["20261102", "2026-11-02T08:00", "+002026-11-02", "2026-11-2", "tomorrow", "2026-11-02[UTC]"]
        {
            let read = read(words(&format!("baywright check a --date {odd}")));
            let Err(Unread::Wrong(said)) = read else { panic!("{odd} is read") };
            assert!(said.contains("write a day as 2026-11-02"), "{said}");
        }
    }
}
