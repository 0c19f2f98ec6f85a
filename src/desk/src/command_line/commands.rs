//! The command line.

use std::ffi::OsString;
use std::path::PathBuf;

use baywright_planner::words::Units;
use clap::builder::PossibleValuesParser;
use clap::error::ErrorKind;
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
    pub(crate) layout: PathBuf,
    pub(crate) arrangement: Option<String>,
    pub(crate) json: bool,
    pub(crate) strict: bool,
    pub(crate) marks: bool,
    pub(crate) units: Units,
    pub(crate) today: Option<Date>,
}

/// `baywright draw`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Draw {
    pub(crate) layout: PathBuf,
    pub(crate) arrangement: Option<String>,
    pub(crate) side: bool,
    pub(crate) dark: bool,
    pub(crate) to_room: bool,
    pub(crate) output: PathBuf,
    pub(crate) units: Units,
    pub(crate) today: Option<Date>,
}

/// Why the command line gives no command.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Unread {
    /// Help or the version was asked for: this text.
    Help(String),
    /// It cannot be read: why.
    Wrong(String),
}

const AFTER: &str = "Exit status: 0 space ready (with care too, unless --strict), 1 not ready, 2 something given could \
                     not be read or found, 3 something could not be written; the worst over all arrangements.\n\n\
                     The vehicle maker's procedure decides. Every shipped figure is an invented example.";

/// Reads the command line; the first argument is the program's own name.
pub(crate) fn read(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, Unread> {
    let matches = grammar().try_get_matches_from(arguments).map_err(|error| match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Unread::Help(error.to_string()),
        _ => Unread::Wrong(error.to_string()),
    })?;
    let today = matches.get_one::<Date>("date").copied().or_else(clock);
    Ok(match matches.subcommand() {
        Some(("check", given)) => Command::Check(Check {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            json: given.get_flag("json"),
            strict: given.get_flag("strict"),
            marks: given.get_flag("marks"),
            units: units(given),
            today,
        }),
        Some(("draw", given)) => Command::Draw(Draw {
            layout: path(given, "layout"),
            arrangement: given.get_one::<String>("arrangement").cloned(),
            side: given.get_one::<String>("view").is_some_and(|view| view == "side"),
            dark: given.get_flag("dark"),
            to_room: given.get_one::<String>("paper").is_some_and(|turned| turned == "room"),
            output: path(given, "output"),
            units: units(given),
            today,
        }),
        Some(("licences", _)) => Command::Licences,
        Some(("open", given)) => Command::Desk { layout: Some(path(given, "layout")), today },
        _ => Command::Desk { layout: None, today },
    })
}

/// The one place where the clock is read.
fn clock() -> Option<Date> {
    Some(jiff::ZonedDateTime::now().date())
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

fn grammar() -> clap::Command {
    let layout = || {
        Arg::new("layout")
            .value_name("FILE")
            .required(true)
            .value_parser(value_parser!(PathBuf))
            .help("A bay layout (.ron), or the name of a built-in one, such as crowded-bay")
    };
    let arrangement = |help: &'static str| {
        Arg::new("arrangement").long("arrangement").short('a').value_name("NAME").help(help)
    };
    let units = || {
        Arg::new("units")
            .long("units")
            .value_parser(PossibleValuesParser::new(["mm", "m", "ft"]))
            .default_value("mm")
            .help("Lengths in millimetres, metres, or feet and inches")
    };
    let flag = |name: &'static str, help: &'static str| {
        Arg::new(name).long(name).action(ArgAction::SetTrue).help(help)
    };
    let date = Arg::new("date")
        .long("date")
        .global(true)
        .value_name("YYYY-MM-DD")
        .value_parser(value_parser!(Date))
        .help("The day to judge by, instead of today: dates the floor survey");
    let check = clap::Command::new("check")
        .about("Is the space ready for the aiming? The verdict, what is in the way, and what to do")
        .arg(layout())
        .arg(arrangement("Only this arrangement; without it, every one in the file"))
        .arg(flag("json", "The answer as data"))
        .arg(flag("strict", "\"Ready with care\" counts as not ready"))
        .arg(flag("marks", "Also how each mark is laid, and what the tape must read between them"))
        .arg(units())
        .after_help(AFTER);
    let draw = clap::Command::new("draw")
        .about("Draw an arrangement to scale, as SVG")
        .arg(layout())
        .arg(arrangement("This arrangement; without it, the first one in the file"))
        .arg(
            Arg::new("view")
                .long("view")
                .required(true)
                .value_parser(PossibleValuesParser::new(["top", "side"]))
                .help("From above, or from the car's right"),
        )
        .arg(
            Arg::new("output")
                .long("output")
                .short('o')
                .required(true)
                .value_name("PICTURE.svg")
                .value_parser(value_parser!(PathBuf))
                .help("The file to write"),
        )
        .arg(
            Arg::new("paper")
                .long("paper")
                .value_parser(PossibleValuesParser::new(["car", "room"]))
                .default_value("car")
                .help("Turn the paper to the car, or to the room"),
        )
        .arg(flag("dark", "Light lines on dark paper"))
        .arg(units())
        .after_help(AFTER);
    let open = clap::Command::new("open").about("Open a bay layout in the window").arg(layout());
    let licences = clap::Command::new("licences").about("Print the licence texts of what is inside");
    clap::Command::new("baywright")
        .version(env!("CARGO_PKG_VERSION"))
        .about(
            "Plans, checks and proves the floor space in which a car's driver-assistance sensors are aimed.\n\
             Without a command it opens the demo bay.",
        )
        .arg(date)
        .subcommand(check)
        .subcommand(draw)
        .subcommand(open)
        .subcommand(licences)
        .after_help(AFTER)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(line: &str) -> Vec<OsString> {
        line.split_whitespace().map(OsString::from).collect()
    }

    #[test]
    fn the_grammar_is_sound() {
        grammar().debug_assert();
    }

    #[test]
    fn commands_are_read() {
        let Ok(Command::Check(check)) =
            read(words("baywright check a.ron --json --strict --date 2026-11-01"))
        else {
            panic!()
        };
        assert!(check.json && check.strict && check.arrangement.is_none());
        assert_eq!(check.today, Some(jiff::civil::date(2026, 11, 1)));
        let Ok(Command::Draw(draw)) = read(words("baywright draw a.ron --view side -o b.svg --units ft"))
        else {
            panic!()
        };
        assert!(draw.side && draw.units == Units::FeetInches);
        assert!(matches!(read(words("baywright")), Ok(Command::Desk { layout: None, .. })));
        assert!(matches!(read(words("baywright open a.ron")), Ok(Command::Desk { layout: Some(_), .. })));
        assert_eq!(read(words("baywright licences")), Ok(Command::Licences));
    }

    #[test]
    fn what_cannot_be_read_is_said() {
        for line in [
            "baywright chek a.ron",
            "baywright check",
            "baywright draw a.ron",
            "baywright draw a.ron --view up -o b",
        ] {
            assert!(matches!(read(words(line)), Err(Unread::Wrong(_))), "{line}");
        }
        assert!(matches!(read(words("baywright --help")), Err(Unread::Help(_))));
        assert!(matches!(read(words("baywright check a --date 2026-13-01")), Err(Unread::Wrong(_))));
    }
}
