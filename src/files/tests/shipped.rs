//! The shipped files open, from the disk and from the binary.

use std::path::Path;

#[test]
fn the_demo_opens_from_any_folder() {
    let loaded =
        baywright_files::open(Path::new("crowded-bay"), None).unwrap_or_else(|f| panic!("{}", all(&f)));
    assert!(loaded.path.is_none());
    assert!(loaded.arrangements.len() >= 2);
}

fn all(faults: &[baywright_files::FileFault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}
