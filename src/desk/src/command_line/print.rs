//! What is printed of the program itself: what codes mean, the schema, what a shell completes, the manual page.

use std::io::{self, Write};

use baywright_planner::Code;
use baywright_planner::words::Language;
use clap_complete::Shell;
use clap_mangen::Man;

use crate::command_line::grammar::{NAME, grammar};
use crate::command_line::json;
use crate::command_line::page::Page;

/// What codes of findings mean, a code a line; all of them if none is named.
pub(crate) fn explain(codes: &[Code], language: Language, out: &mut Page<'_>) -> io::Result<()> {
    let all = if codes.is_empty() { &Code::ALL[..] } else { codes };
    let longest = all.iter().map(|code| code.as_str().len()).max().unwrap_or_default();
    for code in all {
        out.entry(&format!("{:longest$}  ", code.as_str()), language.code(*code))?;
    }
    Ok(())
}

/// The schema of all that is written as data.
pub(crate) fn schema(out: &mut dyn Write) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *out, &json::schema())?;
    writeln!(out)
}

/// What a shell completes, in the shell's own language.
pub(crate) fn completions(shell: Shell, language: Language, out: &mut dyn Write) -> io::Result<()> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut grammar(language), NAME, &mut script);
    out.write_all(&script)
}

/// The manual page of the program, or of one of its commands, as `man` reads it.
pub(crate) fn manual(command: Option<&str>, language: Language, out: &mut dyn Write) -> io::Result<()> {
    let mut whole = grammar(language);
    whole.build();
    let of = command.and_then(|name| whole.find_subcommand(name)).unwrap_or(&whole);
    let mut page = Vec::new();
    Man::new(of.clone().version(env!("CARGO_PKG_VERSION"))).render(&mut page)?;
    out.write_all(&page)
}
