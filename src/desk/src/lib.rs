//! The desk: what a person works with. The headless commands show the same answer as the screen.
//!
//! No maths here: the planner answers, the drawing draws, this room reads the command line, the clock and the files,
//! and writes to the terminal.

mod commands;
mod demo;
mod draw;
pub mod edit;
pub mod history;
mod json;
mod outcome;
mod report;

use std::ffi::OsString;
use std::io::Write;

pub use outcome::Outcome;

/// Runs the program with its command line (the program's own name first) and says how it ended. What a person asked
/// for goes to `out`, what went wrong to `errors`.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    match commands::read(arguments) {
        Ok(commands::Command::Check(check)) => report::check(&check, out, errors),
        Ok(commands::Command::Draw(draw)) => draw::draw(&draw, out, errors),
        Ok(commands::Command::Demo { today }) => demo::show(today, out, errors),
        Err(commands::Unread::Help(text)) => outcome::said(writeln!(out, "{}", text.trim_end()), errors),
        Err(commands::Unread::Wrong(text)) => {
            // If not even that can be written, the exit status still says it.
            let _ = writeln!(errors, "{}", text.trim_end());
            Outcome::NotRead
        }
    }
}
