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
use command_line::plain::Plain;
use command_line::{commands, demo, draw, outcome, report};
use session::document;
use session::shop::ShopSettings;

pub use outcome::Outcome;

/// Runs the program with its command line (the program's own name first) and says how it ended. What a person asked
/// for goes to `out`, what went wrong to `errors`.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    run_in(Language::default(), baywright_files::shop_document().as_deref(), arguments, out, errors)
}

/// The same in another language; `own_shop` is where the shop's own document lies, if it does.
pub fn run_in(
    language: Language,
    own_shop: Option<&Path>,
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    let (out, errors) = (&mut Plain::new(out), &mut Plain::new(errors));
    match commands::read(arguments, language) {
        Ok(commands::Command::Check(check)) => report::check(&check, own_shop, out, errors),
        Ok(commands::Command::Draw(draw)) => draw::draw(&draw, own_shop, out, errors),
        Ok(commands::Command::Licences) => {
            outcome::said(writeln!(out, "{}", licences::text(language)), language, errors)
        }
        Ok(commands::Command::Desk { layout, today }) => desk(layout, today, own_shop, language, out, errors),
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
    own_shop: Option<&Path>,
    language: Language,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    let name = layout.as_deref().unwrap_or(Path::new(demo::DEMO));
    let shop = ShopSettings::open(own_shop);
    let by = shop.judged_by(today);
    let document = match document::Document::open(name, by) {
        Ok(document) => document,
        Err(faults) => return report::not_read(&faults, language, errors),
    };
    let texts = language.command_line();
    let Some(mut desk) = screen::Desk::new(document) else {
        let _ = writeln!(errors, "{}", texts.cannot_be_judged(&name.display().to_string()));
        return Outcome::NotRead;
    };
    desk.view_mut().locale.language = language;
    desk.set_shop(shop);
    match (window::open(desk), layout) {
        (Ok(()), _) => Outcome::Ready,
        (Err(why), None) => demo::show(&why.said(texts), by, language, out, errors),
        (Err(why), Some(_)) => {
            let _ = writeln!(errors, "{}", texts.no_window(&why.said(texts)));
            Outcome::NotRead
        }
    }
}
