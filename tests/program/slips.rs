//! What was mistyped is answered with what may have been meant.

use std::path::{Path, PathBuf};
use std::process::Command;

fn said(folder: &Path, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(arguments)
        .current_dir(folder)
        .env("XDG_DATA_HOME", folder.join("no-settings"))
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(2), "{arguments:?}");
    assert!(output.stdout.is_empty(), "{arguments:?}");
    String::from_utf8(output.stderr).expect("text")
}

#[test]
fn what_was_meant_is_offered() {
    let folder: PathBuf = std::env::temp_dir().join(format!("baywright-slips-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("bays")).expect("a scratch folder");
    for name in ["north-bay.ron", "bays/south-bay.ron"] {
        std::fs::write(folder.join(name), "").expect("a file");
    }
    for (line, meant) in [
        (&["chek", "crowded-bay"][..], "'check'"),
        (&["check", "crowded-bay", "--jsn"], "'--json'"),
        (&["draw", "crowded-bay", "--view", "topp", "-o", "a.svg"], "'top'"),
        (&["explain", "zone-objekt"], "'zone-object'"),
        (&["completions", "bsh"], "'bash'"),
        (&["man", "chekc"], "'check'"),
        (&["check", "crowded-bay", "-a", "as fuond"], "Did you mean \"As found\"?"),
        (&["plan", "crowded-bay", "--car", "example-salon"], "Did you mean \"example-saloon\"?"),
        (&["check", "crowdde-bay"], "(did you mean crowded-bay?)"),
        (&["draw", "crowdde-bay", "--view", "top", "-o", "a.svg"], "(did you mean crowded-bay?)"),
        // Files of the folder that was named go before the built-in ones.
        (&["check", "nroth-bay.ron"], "(did you mean north-bay.ron?)"),
        (&["check", "bays/suth-bay.ron"], "(did you mean bays/south-bay.ron?)"),
    ] {
        let said = said(&folder, line);
        assert!(said.contains(meant), "{line:?}: {said}");
    }
    // Nothing is offered for what is near to nothing.
    for line in [&["xyzzyx"][..], &["check", "quite-another.ron"]] {
        let said = said(&folder, line);
        assert!(!said.contains("similar") && !said.contains("did you mean"), "{line:?}: {said}");
    }
    let _ = std::fs::remove_dir_all(folder);
}
