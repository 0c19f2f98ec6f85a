//! What the program prints of itself: what codes mean, what shells complete, the manual page.

use std::io::Write;
use std::process::{Command, Stdio};

use baywright_planner::Code;

fn printed(line: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_baywright")).args(line).output().expect("the program runs");
    assert!(output.status.success() && output.stderr.is_empty(), "{line:?}");
    String::from_utf8(output.stdout).expect("text")
}

#[test]
fn codes_are_explained() {
    let all = printed(&["explain"]);
    assert_eq!(all.lines().count(), Code::ALL.len());
    for (line, code) in all.lines().zip(Code::ALL) {
        let (name, meaning) = line.split_once("  ").expect("two columns");
        assert_eq!(name, code.as_str());
        assert!(meaning.trim().len() > 20 && meaning.ends_with('.'), "{line}");
    }
    let two = printed(&["explain", "zone-near", "car-clash"]);
    let begins: Vec<&str> = two.lines().filter_map(|line| line.split(' ').next()).collect();
    assert_eq!(begins, ["zone-near", "car-clash"]);
}

/// Commands, options and choices are in what every shell completes.
#[test]
fn shells_complete_the_command_line() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = printed(&["completions", shell]);
        for word in ["check", "draw", "sheet", "completions", "explain", "arrangement", "json", "units"] {
            assert!(script.contains(word), "{shell} does not complete {word}");
        }
        // Those that complete what stands without an option in front of it.
        if ["bash", "zsh"].contains(&shell) {
            assert!(script.contains("zone-object"), "{shell} does not complete codes");
        }
    }
}

/// The shell itself reads its script and completes by it.
#[test]
fn bash_completes_by_its_script() {
    let script = printed(&["completions", "bash"]);
    let ask = "\nCOMP_WORDS=(baywright che); COMP_CWORD=1; _baywright baywright che baywright; echo \"${COMPREPLY[@]}\"\n\
               COMP_WORDS=(baywright draw --vi); COMP_CWORD=2; _baywright baywright --vi draw; echo \"${COMPREPLY[@]}\"\n";
    let mut bash = Command::new("bash")
        .args(["--norc", "--noprofile"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("a shell");
    bash.stdin.take().expect("an input").write_all((script + ask).as_bytes()).expect("it is read");
    let said = String::from_utf8(bash.wait_with_output().expect("it ends").stdout).expect("text");
    assert_eq!(said, "check\n--view\n");
}

#[test]
fn there_is_a_manual_page_of_each_command() {
    let whole = printed(&["man"]);
    assert!(whole.contains(".TH baywright 1"), "{whole}");
    for command in
        ["check", "draw", "sheet", "plan", "open", "explain", "schema", "completions", "man", "licences"]
    {
        assert!(whole.contains(&format!("baywright\\-{command}(1)")), "{command} is not in {whole}");
        let page = printed(&["man", command]);
        assert!(page.contains(&format!(".TH baywright-{command} 1")), "{page}");
        assert!(page.contains(".SH SYNOPSIS") && page.contains("\\-\\-date"), "{page}");
    }
    let check = printed(&["man", "check"]);
    assert!(check.contains("\\-\\-strict") && check.contains("Exit status: 0 space ready"), "{check}");
}
