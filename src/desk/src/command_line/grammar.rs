//! The definitions of the command line: what is read, what help says, what a shell completes and the manual page are all
//! made from these.

use std::path::PathBuf;

use baywright_drawing::sheet::{Sheet, Size};
use baywright_planner::Code;
use baywright_planner::words::Language;
use baywright_planner::words::command_line::CommandLine;
use clap::builder::{EnumValueParser, PossibleValuesParser};
use clap::{Arg, ArgAction, ValueHint, value_parser};
use clap_complete::Shell;
use jiff::civil::Date;

use crate::session::planning::FURTHER;

/// The program's name, as it is typed.
pub(crate) const NAME: &str = "baywright";

/// A day as it is written everywhere here, `2026-11-02`, and in no other of the many forms that the library reads.
fn day(text: &str) -> Option<Date> {
    let is_written_so = text.len() == 10
        && text
            .bytes()
            .enumerate()
            .all(|(i, b)| if matches!(i, 4 | 7) { b == b'-' } else { b.is_ascii_digit() });
    is_written_so.then(|| text.parse().ok()).flatten()
}

/// Dots to the inch: what a screen shows to what no printer shows more of.
fn dpi(text: &str) -> Option<u32> {
    text.parse().ok().filter(|dots| (50..=600).contains(dots))
}

/// The names of all commands, for what asks for one.
const COMMANDS: [&str; 14] = [
    "check",
    "draw",
    "sheet",
    "marks",
    "plan",
    "import",
    "record",
    "proof",
    "open",
    "explain",
    "schema",
    "completions",
    "man",
    "licences",
];

/// Every command and its arguments.
pub(crate) fn grammar(language: Language) -> clap::Command {
    let texts = language.command_line();
    let layout = |help: &'static str| {
        Arg::new("layout")
            .value_name(texts.a_file)
            .required(true)
            .value_parser(value_parser!(PathBuf))
            .value_hint(ValueHint::FilePath)
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
            .value_hint(ValueHint::FilePath)
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
    let in_language = Arg::new("language")
        .long("language")
        .global(true)
        .value_parser(PossibleValuesParser::new(Language::OFFERED.map(Language::tag)))
        .help(texts.in_language);
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
                .value_parser(PossibleValuesParser::new(["top", "side"]))
                .default_value("top")
                .help(texts.view),
        )
        .arg(
            Arg::new("output")
                .long("output")
                .short('o')
                .required(true)
                .value_name(texts.a_picture)
                .value_parser(value_parser!(PathBuf))
                .value_hint(ValueHint::FilePath)
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
        .arg(flag("json", texts.json_of_draw))
        .arg(quiet())
        .arg(units())
        .arg(shop())
        .after_help(texts.after);
    let of_sheet = language.sheet_command();
    let sheet = clap::Command::new("sheet")
        .about(of_sheet.sheet)
        .arg(layout(of_sheet.layouts).num_args(1..))
        .arg(
            Arg::new("kind")
                .long("kind")
                .short('k')
                .num_args(1)
                .action(ArgAction::Append)
                .value_delimiter(',')
                .value_parser(PossibleValuesParser::new(Sheet::ALL.map(Sheet::as_str)))
                .default_value(Sheet::Marks.as_str())
                .help(of_sheet.kinds),
        )
        .arg(arrangement(of_sheet.arrangement))
        .arg(Arg::new("before").long("before").value_name(texts.a_name).help(of_sheet.before))
        .args(on_paper(language))
        .arg(
            Arg::new("output")
                .long("output")
                .visible_alias("out")
                .short('o')
                .required(true)
                .value_name(of_sheet.a_sheet)
                .value_parser(value_parser!(PathBuf))
                .value_hint(ValueHint::AnyPath)
                .help(of_sheet.output),
        )
        .arg(
            Arg::new("format")
                .long("format")
                .value_parser(PossibleValuesParser::new(["pdf", "svg", "png"]))
                .default_value("pdf")
                .help(of_sheet.format),
        )
        .arg(Arg::new("revision").long("revision").value_name(of_sheet.a_text).help(of_sheet.revision))
        .arg(flag("json", texts.json_of_draw))
        .arg(quiet())
        .arg(units())
        .arg(shop())
        .after_help(texts.after);
    let marks = clap::Command::new("marks")
        .about(texts.list_marks)
        .arg(layout(texts.layout))
        .arg(arrangement(texts.check_arrangement))
        .arg(
            Arg::new("output")
                .long("output")
                .short('o')
                .value_name(texts.a_table)
                .value_parser(value_parser!(PathBuf))
                .value_hint(ValueHint::FilePath)
                .help(texts.output_of_marks),
        )
        .arg(
            Arg::new("format")
                .long("format")
                .value_parser(PossibleValuesParser::new(["csv", "json"]))
                .default_value("csv")
                .help(texts.format_of_marks),
        )
        .arg(flag("json", texts.json_of_draw))
        .arg(quiet())
        .arg(shop())
        .after_help(texts.after);
    let of_plan = language.plan();
    let plan = clap::Command::new("plan")
        .about(of_plan.plan)
        .arg(layout(texts.layout))
        .arg(arrangement(of_plan.arrangement))
        .arg(
            Arg::new("car")
                .long("car")
                .num_args(1)
                .action(ArgAction::Append)
                .value_name(of_plan.a_car)
                .help(of_plan.cars),
        )
        .arg(flag("all-cars", of_plan.all_cars).conflicts_with("car"))
        .arg(flag("json", of_plan.json))
        .arg(flag("csv", of_plan.csv).conflicts_with("json"))
        .arg(flag("moves", of_plan.moves).conflicts_with_all(["csv", "output", "proof"]))
        .arg(flag("changes", of_plan.changes).conflicts_with("csv"))
        .arg(
            Arg::new("further")
                .long("further")
                .value_name(texts.a_length)
                .value_parser(length(*FURTHER.start(), *FURTHER.end(), texts.no_length))
                .requires("changes")
                .help(of_plan.further),
        )
        .arg(
            Arg::new("proof")
                .long("proof")
                .value_name(language.never().a_proof)
                .value_parser(value_parser!(PathBuf))
                .value_hint(ValueHint::FilePath)
                .requires("arrangement")
                .conflicts_with_all(["car", "all-cars", "json", "csv", "changes"])
                .help(language.never().prove),
        )
        .arg(
            Arg::new("output")
                .long("output")
                .visible_alias("out")
                .short('o')
                .value_name(of_plan.a_report)
                .value_parser(value_parser!(PathBuf))
                .value_hint(ValueHint::FilePath)
                .conflicts_with_all(["json", "csv", "proof"])
                .help(of_plan.report),
        )
        .args(on_paper(language).map(|own| own.requires("output")))
        .arg(
            Arg::new("revision")
                .long("revision")
                .value_name(of_sheet.a_text)
                .requires("output")
                .help(of_sheet.revision),
        )
        .arg(quiet())
        .arg(units())
        .arg(shop())
        .after_help(of_plan.after);
    let import = import(texts, flag("json", texts.json_of_draw), quiet());
    let record = record(language, [flag("json", texts.json_of_draw), quiet(), units(), shop()]);
    let proof = proof(language, [arrangement(texts.check_arrangement), quiet(), shop()]);
    let open = clap::Command::new("open").about(texts.open).arg(layout(texts.layout_to_open));
    let licences = clap::Command::new("licences").about(texts.print_licences);
    let explain = clap::Command::new("explain").about(texts.explain).arg(
        Arg::new("code")
            .value_name(texts.a_code)
            .num_args(0..)
            .value_parser(PossibleValuesParser::new(Code::ALL.map(Code::as_str)))
            .hide_possible_values(true)
            .help(texts.codes),
    );
    let schema = clap::Command::new("schema").about(texts.print_schema);
    let completions = clap::Command::new("completions").about(texts.print_completions).arg(
        Arg::new("shell")
            .value_name(texts.a_shell)
            .required(true)
            .value_parser(EnumValueParser::<Shell>::new())
            .help(texts.shell),
    );
    let manual = clap::Command::new("man").about(texts.print_manual).arg(
        Arg::new("command")
            .value_name(texts.a_command)
            .value_parser(PossibleValuesParser::new(COMMANDS))
            .hide_possible_values(true)
            .help(texts.command),
    );
    clap::Command::new(NAME)
        .version(env!("CARGO_PKG_VERSION"))
        .about(texts.program)
        .arg(date)
        .arg(in_language)
        .subcommand(check)
        .subcommand(draw)
        .subcommand(sheet)
        .subcommand(marks)
        .subcommand(plan)
        .subcommand(import)
        .subcommand(record)
        .subcommand(proof)
        .subcommand(open)
        .subcommand(explain)
        .subcommand(schema)
        .subcommand(completions)
        .subcommand(manual)
        .subcommand(licences)
        .after_help(texts.after)
}

/// A length on the command line, mm, from one to another.
fn length(low: f64, high: f64, not: &'static str) -> impl Fn(&str) -> Result<f64, &'static str> + Clone {
    move |text| text.parse().ok().filter(|mm| (low..=high).contains(mm)).ok_or(not)
}

/// `baywright import`.
fn import(texts: &'static CommandLine, json: Arg, quiet: Arg) -> clap::Command {
    let named = |name: &'static str, stands_for: &'static str, help: &'static str| {
        Arg::new(name).long(name).value_name(stands_for).help(help)
    };
    let layers =
        |name: &'static str, help: &'static str| named(name, texts.a_layer, help).action(ArgAction::Append);
    let mm = |name: &'static str, (low, high): (f64, f64), help: &'static str| {
        named(name, texts.a_length, help).value_parser(length(low, high, texts.no_length))
    };
    let file = |arg: Arg| arg.value_parser(value_parser!(PathBuf)).value_hint(ValueHint::FilePath);
    clap::Command::new("import")
        .about(texts.import)
        .arg(file(Arg::new("drawing").value_name(texts.a_drawing).required(true).help(texts.drawing)))
        .arg(named("room", texts.a_layer, texts.room_layer).requires("output"))
        .arg(
            named("outline", texts.a_number, texts.outline_number)
                .value_parser(value_parser!(u16).range(1..))
                .requires("room"),
        )
        .arg(layers("walls", texts.wall_layers).requires("room"))
        .arg(layers("things", texts.thing_layers).requires("room"))
        .arg(
            Arg::new("units")
                .long("units")
                .value_parser(PossibleValuesParser::new(["mm", "cm", "m", "in", "ft"]))
                .help(texts.drawn_in_unit),
        )
        .arg(mm("gap", (0.0, 5_000.0), texts.gap).default_value("10"))
        .arg(mm("wall-thickness", (10.0, 1_000.0), texts.wall_thickness).default_value("100"))
        .arg(mm("ceiling", (1_000.0, 100_000.0), texts.ceiling))
        .arg(named("vehicle", texts.a_name, texts.vehicle))
        .arg(named("aiming", texts.a_name, texts.aiming))
        .arg(file(named("output", texts.a_layout, texts.output_of_import).short('o')).requires("room"))
        .arg(json)
        .arg(quiet)
}

/// A hash as it is typed from paper, where it stands in groups, in whichever letters.
fn head(text: &str) -> Option<String> {
    let head: String = text.chars().filter(|own| !own.is_whitespace()).collect::<String>().to_lowercase();
    (head.len() == 64 && head.bytes().all(|own| own.is_ascii_hexdigit())).then_some(head)
}

/// On what paper pages are printed, and in how many dots.
fn on_paper(language: Language) -> [Arg; 3] {
    let texts = language.sheet_command();
    let paper = Arg::new("paper")
        .long("paper")
        .ignore_case(true)
        .value_parser(PossibleValuesParser::new(Size::ALL.map(Size::name)))
        .help(texts.paper);
    let landscape = Arg::new("landscape").long("landscape").action(ArgAction::SetTrue).help(texts.landscape);
    let dpi = Arg::new("dpi")
        .long("dpi")
        .value_name(texts.a_number)
        .value_parser(move |text: &str| dpi(text).ok_or(texts.no_dpi))
        .default_value("150")
        .help(texts.dpi);
    [paper, landscape, dpi]
}

/// `baywright record`.
fn record(language: Language, [json, quiet, units, shop]: [Arg; 4]) -> clap::Command {
    let (texts, of_sheet) = (language.record_command(), language.sheet_command());
    let file = |arg: Arg| arg.value_parser(value_parser!(PathBuf)).value_hint(ValueHint::FilePath);
    let of = || file(Arg::new("record").value_name(texts.a_record).required(true).help(texts.file));
    let format = || {
        Arg::new("format")
            .long("format")
            .value_parser(PossibleValuesParser::new(["text", "json"]))
            .default_value("text")
            .help(texts.format)
    };
    let check = clap::Command::new("check")
        .about(texts.check)
        .arg(of())
        .arg(
            Arg::new("head")
                .long("head")
                .value_name(texts.a_hash)
                .value_parser(move |text: &str| head(text).ok_or(texts.no_head))
                .help(texts.head),
        )
        .arg(format())
        .arg(json.clone())
        .arg(quiet.clone())
        .after_help(texts.after);
    let show = clap::Command::new("show")
        .about(texts.show)
        .arg(of())
        .arg(format())
        .arg(file(
            Arg::new("output")
                .long("output")
                .short('o')
                .value_name(texts.a_data_file)
                .help(texts.output_of_show),
        ))
        .arg(json.clone())
        .arg(quiet.clone())
        .after_help(texts.after);
    let sheet = clap::Command::new("sheet")
        .about(texts.sheet)
        .arg(of())
        .arg(file(
            Arg::new("output")
                .long("output")
                .visible_alias("out")
                .short('o')
                .required(true)
                .value_name(of_sheet.a_sheet)
                .help(of_sheet.output),
        ))
        .args(on_paper(language))
        .arg(json)
        .arg(quiet)
        .arg(units)
        .arg(shop)
        .after_help(texts.after);
    clap::Command::new("record")
        .about(texts.record)
        .subcommand_required(true)
        .arg_required_else_help(true)
        .subcommand(check)
        .subcommand(show)
        .subcommand(sheet)
        .after_help(texts.after)
}

/// `baywright proof`.
fn proof(language: Language, [arrangement, quiet, shop]: [Arg; 3]) -> clap::Command {
    let texts = language.never();
    let file = |arg: Arg| arg.value_parser(value_parser!(PathBuf)).value_hint(ValueHint::FilePath);
    let check = clap::Command::new("check")
        .about(texts.check)
        .arg(file(Arg::new("proof").value_name(texts.a_proof).required(true).help(texts.file)))
        .arg(file(Arg::new("of").long("of").value_name(language.command_line().a_file).help(texts.of)))
        .arg(arrangement.requires("of"))
        .arg(quiet)
        .arg(shop)
        .after_help(texts.after);
    clap::Command::new("proof")
        .about(texts.proof)
        .subcommand_required(true)
        .arg_required_else_help(true)
        .subcommand(check)
        .after_help(texts.after)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_grammar_is_sound_and_every_command_is_named() {
        let grammar = grammar(Language::English);
        grammar.clone().debug_assert();
        let named: Vec<&str> = grammar.get_subcommands().map(clap::Command::get_name).collect();
        assert_eq!(named, COMMANDS);
    }
}
