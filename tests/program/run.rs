//! The program as a person runs it: on one day, with nobody's own settings, in this folder.

use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

/// Runs it with these words.
pub fn baywright(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(words)
        .args(["--date", "2026-11-20"])
        .env("XDG_DATA_HOME", scratch("run", "no-settings"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::null())
        .output()
        .expect("the program runs")
}

/// A folder of some tests' own.
pub fn scratch(of: &str, name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("baywright-{of}-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    folder
}
