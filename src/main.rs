//! The program. Everything is in the crates below `src/`; this only passes on the command line and the exit status.

use std::io::Write;
use std::process::ExitCode;

/// See `Cargo.toml` for why.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let (mut out, mut errors) = (std::io::stdout().lock(), std::io::stderr().lock());
    let outcome = baywright_desk::run(std::env::args_os(), &mut out, &mut errors);
    // A last line that cannot be written is said by the exit status of a command that wrote before.
    let _ = out.flush();
    ExitCode::from(outcome.status())
}
