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

use baywright_planner::words::Language;
use command_line::page::{Page, Paper};
use command_line::plain::Plain;
use command_line::{commands, demo, draw, outcome, report};
use session::first::First;
use session::shop::ShopSettings;

pub use outcome::Outcome;

/// Runs the program with its command line (the program's own name first) and says how it ended. What a person asked
/// for goes to `out`, which is standard output, what went wrong to `errors`.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    let home = baywright_files::Library::data_folder();
    let out = &mut Page::new(out, Paper::of_standard_output());
    run_on(Language::default(), home.as_deref(), arguments, out, errors)
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
    run_on(language, home, arguments, &mut Page::new(out, Paper::ENDLESS), errors)
}

fn run_on(
    language: Language,
    home: Option<&Path>,
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut Page<'_>,
    errors: &mut dyn Write,
) -> Outcome {
    let own_shop = home.map(|home| home.join(baywright_files::SHOP_FILE));
    let own_shop = own_shop.as_deref();
    let errors = &mut Plain::new(errors);
    match commands::read(arguments, language) {
        Ok(commands::Command::Check(check)) => report::check(&check, own_shop, out, errors),
        Ok(commands::Command::Draw(draw)) => draw::draw(&draw, own_shop, out, errors),
        Ok(commands::Command::Licences) => {
            outcome::said(writeln!(out, "{}", licences::text(language)), language, errors)
        }
        Ok(commands::Command::Desk { layout, today }) => desk(layout, today, home, language, out, errors),
        Err(commands::Unread::Help(text)) => {
            outcome::said(writeln!(out, "{}", text.trim_end()), language, errors)
        }
        Err(commands::Unread::Wrong(text)) => {
            // If not even that can be written, the exit status still says it.
            let _ = writeln!(errors, "{}", text.trim_end());
            Outcome::NotRead
        }
    }
}

/// Opens the window; where there is none, says so, and for the demo answers without it.
fn desk(
    layout: Option<PathBuf>,
    today: Option<jiff::civil::Date>,
    home: Option<&Path>,
    language: Language,
    out: &mut Page<'_>,
    errors: &mut dyn Write,
) -> Outcome {
    let shop = ShopSettings::open(home.map(|home| home.join(baywright_files::SHOP_FILE)).as_deref());
    let by = shop.judged_by(today);
    let first = match First::of(home, layout.as_deref(), Path::new(demo::DEMO), by) {
        Ok(first) => first,
        Err(faults) => return report::not_read(&faults, language, errors),
    };
    let First { document, remembered, is_new, why_not } = first;
    let texts = language.command_line();
    let Some(mut desk) = screen::Desk::new(document) else {
        let _ =
            writeln!(errors, "{}", texts.cannot_be_judged(&layout.unwrap_or_default().display().to_string()));
        return Outcome::NotRead;
    };
    desk.view_mut().locale.language = language;
    desk.set_shop(shop);
    desk.begin_with(remembered, is_new, &why_not);
    match (window::open(desk), layout) {
        (Ok(()), _) => Outcome::Ready,
        (Err(why), None) => demo::show(&why.said(texts), by, language, out, errors),
        (Err(why), Some(_)) => {
            let _ = writeln!(errors, "{}", texts.no_window(&why.said(texts)));
            Outcome::NotRead
        }
    }
}
