//! The desk: what a person works with. The headless commands show the same answer as the screen.
//!
//! No maths here: the planner answers, the drawing draws, this room reads the command line, the clock and the files,
//! and writes to the terminal.

pub mod command_line;
pub mod licences;
pub mod screen;
pub mod session;
mod window;

use std::ffi::OsString;
use std::io::Write;
use std::path::{Path, PathBuf};

use baywright_files::LogFile;
use baywright_planner::words::Language;
use command_line::page::{Page, Paper};
use command_line::trouble::{Errors, Trouble};
use command_line::{commands, demo, draw, import, marks, never, outcome, plan, print, record, report, sheet};
use session::first::First;
use session::shop::ShopSettings;

pub use outcome::Outcome;

/// Runs the program with its command line (the program's own name first) and says how it ended. What a person asked
/// for goes to `out`, which is standard output, what went wrong to `errors`, which is standard error.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    let home = baywright_files::Library::data_folder();
    let papers = [Paper::of_standard_output(), Paper::of_standard_error()];
    run_on(Language::default(), home.as_deref(), arguments, (out, errors), papers)
}

/// The same in another language, in lines as long as they are; `home` is the program's own folder, in which the shop's own
/// document lies, if it does.
pub fn run_in(
    language: Language,
    home: Option<&Path>,
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    run_on(language, home, arguments, (out, errors), [Paper::ENDLESS; 2])
}

fn run_on(
    language: Language,
    home: Option<&Path>,
    arguments: impl IntoIterator<Item = OsString>,
    (out, errors): (&mut dyn Write, &mut dyn Write),
    [of_out, of_errors]: [Paper; 2],
) -> Outcome {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let asked = commands::language(&arguments);
    let language = asked.unwrap_or(language);
    let mut errors = Errors::new(errors, of_errors, language);
    let spoken = Spoken { language, is_asked: asked.is_some() };
    let outcome = carry_out(spoken, home, arguments, &mut Page::new(out, of_out), &mut errors);
    errors.end();
    outcome
}

/// The language to speak.
#[derive(Clone, Copy)]
struct Spoken {
    language: Language,
    /// The command line asks for it: what was chosen in the window before gives way.
    is_asked: bool,
}

fn carry_out(
    spoken: Spoken,
    home: Option<&Path>,
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let language = spoken.language;
    let own_shop = home.map(|home| home.join(baywright_files::SHOP_FILE));
    let own_shop = own_shop.as_deref();
    let command = match commands::read(arguments, language, out.width()) {
        Ok(command) => command,
        Err(commands::Unread::Help(text)) => {
            return outcome::said(writeln!(out, "{}", text.trim_end()), errors);
        }
        Err(commands::Unread::Wrong(misread, as_data)) => {
            if as_data {
                errors.as_data();
            }
            errors.tell(Trouble::Misread(*misread));
            return Outcome::NotRead;
        }
    };
    use commands::Command;
    match command {
        Command::Check(check) => {
            if check.json {
                errors.as_data();
            }
            report::check(&check, own_shop, out, errors)
        }
        Command::Draw(draw) => {
            if draw.json {
                errors.as_data();
            }
            draw::draw(&draw, own_shop, out, errors)
        }
        Command::Sheet(asked) => {
            if asked.json {
                errors.as_data();
            }
            sheet::sheets(&asked, own_shop, out, errors)
        }
        Command::Marks(asked) => {
            if asked.json {
                errors.as_data();
            }
            marks::marks(&asked, own_shop, out, errors)
        }
        Command::Plan(asked) => {
            if asked.json {
                errors.as_data();
            }
            plan::plan(&asked, own_shop, out, errors)
        }
        Command::Import(asked) => {
            if asked.json {
                errors.as_data();
            }
            import::import(&asked, out, errors)
        }
        Command::Record(asked) => {
            if asked.as_data {
                errors.as_data();
            }
            record::record(&asked, own_shop, out, errors)
        }
        Command::Proof(asked) => never::proof_check(&asked, own_shop, out, errors),
        Command::Explain(codes) => outcome::said(print::explain(&codes, language, out), errors),
        Command::Schema => outcome::said(print::schema(out), errors),
        Command::Completions(shell) => outcome::said(print::completions(shell, language, out), errors),
        Command::Manual(command) => outcome::said(print::manual(command.as_deref(), language, out), errors),
        Command::Licences => outcome::said(writeln!(out, "{}", licences::text(language)), errors),
        Command::Desk { layout, today, goes_on } => desk(layout, (today, goes_on), home, spoken, out, errors),
    }
}

/// Opens the window; where there is none, says so, and for the demo answers without it. The day goes on with the clock unless it was
/// named.
fn desk(
    layout: Option<PathBuf>,
    (today, goes_on): (Option<jiff::civil::Date>, bool),
    home: Option<&Path>,
    spoken: Spoken,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let shop = ShopSettings::open(home.map(|home| home.join(baywright_files::SHOP_FILE)).as_deref());
    let by = shop.judged_by(today);
    let first = match First::of(home, layout.as_deref(), Path::new(demo::DEMO), by.clone()) {
        Ok(first) => first,
        Err(faults) => return report::not_read(faults, errors),
    };
    let First { document, remembered, is_new, why_not } = first;
    let language = spoken.language;
    let texts = language.command_line();
    let Some(mut desk) = screen::Desk::new(document) else {
        errors.tell(Trouble::CannotBeJudged(layout.unwrap_or_default().display().to_string()));
        return Outcome::NotRead;
    };
    desk.speak(language);
    desk.set_shop(shop);
    desk.let_days_go_on(goes_on);
    if let Some(file) = LogFile::own() {
        desk.keep_log_in(file);
    }
    desk.begin_with(remembered, is_new, &why_not);
    if spoken.is_asked {
        desk.speak(language);
    }
    match (window::open(desk), layout) {
        (Ok(()), _) => Outcome::Ready,
        (Err(why), None) => demo::show(&why.said(texts), by, language, out, errors),
        (Err(why), Some(_)) => {
            errors.tell(Trouble::NoWindow(why));
            Outcome::NotRead
        }
    }
}
