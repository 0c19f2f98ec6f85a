//! The library of profiles: beside the layout, then the user's, then those in the binary.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};

use baywright_files::{EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, Library, open};

fn root(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

#[test]
fn a_built_in_layout_opens_by_its_name() {
    for name in ["crowded-bay", "crowded-bay.ron"] {
        let loaded = open(Path::new(name), None).unwrap();
        assert!(loaded.path.is_none());
        assert_eq!(loaded.file, "crowded-bay.ron");
        assert_eq!(loaded.arrangements[0].0.as_str(), "As found");
        assert!(!loaded.arrangements[0].1.loading.profile_changed);
    }
}

#[test]
fn disk_and_binary_give_the_same() {
    for file in EMBEDDED_LAYOUTS {
        let built_in = open(Path::new(file.name), None).unwrap();
        let on_disk = open(&root(&format!("bay-layouts/{}.ron", file.name)), None).unwrap();
        assert_eq!(built_in.layout, on_disk.layout);
        assert_eq!(built_in.arrangements, on_disk.arrangements);
    }
}

#[test]
fn the_profile_beside_the_layout_goes_first_and_a_changed_one_is_noticed() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("library-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    for sub in ["bay-layouts", "vehicle-profiles"] {
        std::fs::create_dir_all(folder.join(sub)).unwrap();
    }
    let layout = folder.join("bay-layouts/bay.ron");
    std::fs::copy(root("bay-layouts/crowded-bay.ron"), &layout).unwrap();
    // Nothing beside it: the built-in profile serves.
    assert!(!open(&layout, None).unwrap().arrangements[0].1.loading.profile_changed);
    let name = "example-hatchback-small";
    let own = folder.join(format!("vehicle-profiles/{name}.ron"));
    let text = EMBEDDED_PROFILES.iter().find(|e| e.name == name).unwrap().text;
    // Comments, blanks and byte-order mark do not count as a change.
    std::fs::write(&own, format!("\u{feff}/* mine */\r\n{text}")).unwrap();
    let same = open(&layout, None).unwrap();
    assert!(!same.arrangements[0].1.loading.profile_changed);
    assert_eq!(
        Path::new(&same.profiles[0].file),
        folder.join("bay-layouts/../vehicle-profiles").join(format!("{name}.ron"))
    );
    // One figure does.
    std::fs::write(&own, text.replace("(770, 0, 520)", "(770, 0, 521)")).unwrap();
    let changed = open(&layout, None).unwrap();
    assert!(changed.arrangements.iter().all(|(_, a)| a.loading.profile_changed));
    assert_eq!(changed.arrangements[0].1.sensor.at.z, 521.0);
    // A broken one is an error of its own file, not a reason to take another.
    std::fs::write(&own, text.replace("wheelbase_mm: 2550", "wheelbase_mm: 9000")).unwrap();
    let faults = open(&layout, None).unwrap_err();
    assert_eq!(faults.len(), 1, "said once, not for every arrangement: {faults:#?}");
    assert!(faults[0].file.ends_with(&format!("{name}.ron")) && faults[0].line.is_some());
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn names_are_listed_and_lead_nowhere_else() {
    let names = Library::built_in().names();
    assert_eq!(names.len(), EMBEDDED_PROFILES.len());
    assert!(names.windows(2).all(|pair| pair[0] < pair[1]), "sorted");
    let disk = Library::folders(vec![root("vehicle-profiles"), root("no-such-folder")]);
    assert_eq!(disk.names(), names);
    assert!(disk.find(&"../vehicle-profiles/example-van".into()).unwrap().is_none());
    assert!(disk.find(&"".into()).unwrap().is_none());
    assert_eq!(disk.find(&"example-van".into()).unwrap().unwrap().vehicle.id.as_str(), "example-van");
}
