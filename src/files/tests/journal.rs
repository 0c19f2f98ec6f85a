//! The recovery journal on a real disk.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};

use baywright_files::{DiskMark, Journal, LARGEST_FILE, Record, Work, left_behind};
use baywright_planner::model::Layout;
use baywright_planner::words::Language;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("journal-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

fn record(number: u32, text: &str, at: u64) -> Record {
    let path = (number == 1).then(|| PathBuf::from("/bays/one.ron"));
    let name = format!("bay {number}");
    Record { number, kind: Work::Layout, path, mark: None, name, id: None, text: text.into(), at }
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .filter(|name| name != "lock")
        .collect();
    names.sort();
    names
}

#[test]
fn what_a_dead_session_left_is_found_until_it_is_forgotten() {
    let folder = folder("left");
    assert!(left_behind(&folder).works.is_empty(), "no folder, nothing left");
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "first", 10)).unwrap();
    journal.note(&record(2, "other", 30)).unwrap();
    journal.note(&record(3, "saved", 15)).unwrap();
    journal.note(&record(1, "second", 20)).unwrap();
    journal.settled(3).unwrap();
    assert!(left_behind(&folder).works.is_empty(), "the session lives");
    drop(journal);
    let mut left = left_behind(&folder).works;
    let found: Vec<Record> = left.iter().map(|l| l.record.clone()).collect();
    assert_eq!(found, [record(2, "other", 30), record(1, "second", 20)]);
    assert!(left_behind(&folder).works.is_empty(), "no second window is offered what is being dealt with");
    left.remove(0).forget().unwrap();
    drop(left);
    let mut left = left_behind(&folder).works;
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].record, record(1, "second", 20));
    left.remove(0).forget().unwrap();
    assert_eq!(names(&folder), [""; 0]);
    std::fs::remove_dir_all(folder).unwrap();
}

/// Killed after a save and before that was noted: what lies there is the work itself, whichever settings it was judged by.
#[test]
fn a_layout_saved_just_before_the_end_was_changed_by_nobody_else() {
    let folder = folder("saved-last");
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("bay.ron");
    let read = baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout;
    let judged_by = |mark: &str, layout: &Layout| {
        let layout = Layout { shop_fingerprint: Some(mark.to_owned()), ..layout.clone() };
        baywright_files::save_layout(&path, &layout).unwrap();
        DiskMark::of(&path)
    };
    let was = judged_by("0123456789abcdef", &read);
    let mut now = read.clone();
    now.bay.ceiling_mm += 10.0;
    let text = baywright_files::layout_text(&now).unwrap();
    let record = Record { path: Some(path.clone()), mark: Some(was), ..record(1, &text, 1) };
    assert_eq!(record.unchanged(), Some(was), "it was not saved");
    let saved = judged_by("fedcba9876543210", &now);
    assert_eq!(record.unchanged(), Some(saved));
    now.bay.ceiling_mm += 10.0;
    assert_ne!(record.unchanged(), Some(judged_by("fedcba9876543210", &now)), "someone else's");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_clean_end_leaves_nothing() {
    let folder = folder("clean");
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "x", 1)).unwrap();
    journal.close().unwrap();
    assert_eq!(names(&folder), [""; 0]);
    // An empty one and a settled one of dead sessions are swept away.
    drop(Journal::start(&folder).unwrap());
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "x", 1)).unwrap();
    journal.settled(1).unwrap();
    drop(journal);
    assert_eq!(names(&folder).len(), 2);
    assert!(left_behind(&folder).works.is_empty());
    assert_eq!(names(&folder), [""; 0]);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn rubbish_in_the_folder_does_no_harm() {
    let folder = folder("rubbish");
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "x", 1)).unwrap();
    drop(journal);
    let own = folder.join(&names(&folder)[0]);
    let whole = std::fs::read(&own).unwrap();
    std::fs::write(&own, [&whole[..], &whole[..whole.len() - 1]].concat()).unwrap();
    std::fs::write(folder.join("7-1.journal-new"), &whole[..9]).unwrap();
    std::fs::write(folder.join("8-1.journal"), [0_u8; 5_000]).unwrap();
    std::fs::write(folder.join("notes.txt"), "mine").unwrap();
    std::fs::create_dir(folder.join("9-1.journal")).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink("/dev/zero", folder.join("10-1.journal")).unwrap();
    let left = left_behind(&folder).works;
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].record, record(1, "x", 1));
    assert!(!folder.join("7-1.journal-new").exists() && !folder.join("8-1.journal").exists());
    assert!(folder.join("notes.txt").exists(), "what is not ours stays");
    // A session that starts now does not take the dead one's file.
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "y", 2)).unwrap();
    drop(left);
    drop(journal);
    let texts: Vec<String> = left_behind(&folder).works.into_iter().map(|l| l.record.text).collect();
    assert_eq!(texts, ["y", "x"]);
    std::fs::remove_dir_all(folder).unwrap();
}

/// One flipped bit, or a record of a later program, and nothing is deleted: it is set aside as it was, for its owner only;
/// what is whole before and after it is offered.
#[test]
fn what_is_not_understood_is_set_aside() {
    let folder = folder("aside");
    for only_damaged in [false, true] {
        let mut journal = Journal::start(&folder).unwrap();
        if !only_damaged {
            journal.note(&record(1, "before", 1)).unwrap();
        }
        let start = std::fs::metadata(folder.join(&names(&folder)[0])).unwrap().len();
        journal.note(&record(2, "damaged", 2)).unwrap();
        if !only_damaged {
            journal.note(&record(3, "after", 3)).unwrap();
        }
        drop(journal);
        let path = folder.join(&names(&folder)[0]);
        let mut bytes = std::fs::read(&path).unwrap();
        bytes[usize::try_from(start).unwrap() + 30] ^= 1;
        std::fs::write(&path, &bytes).unwrap();
        let found = left_behind(&folder);
        let texts: Vec<&str> = found.works.iter().map(|left| left.record.text.as_str()).collect();
        assert_eq!(texts, if only_damaged { &[][..] } else { &["after", "before"] });
        let [aside] = &found.not_understood[..] else { panic!("{:?}", found.not_understood) };
        assert_eq!(std::fs::read(aside).unwrap(), bytes);
        assert_eq!(aside.parent(), Some(folder.as_path()));
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            assert_eq!(std::fs::metadata(aside).unwrap().permissions().mode() & 0o777, 0o600);
        }
        // It is said once; what is whole is offered until it is forgotten.
        drop(found.works);
        let found = left_behind(&folder);
        assert_eq!(found.works.len(), texts_left(only_damaged));
        assert!(found.not_understood.is_empty());
        for left in found.works {
            left.forget().unwrap();
        }
        let [kept] = &names(&folder)[..] else { panic!("{:?}", names(&folder)) };
        assert_eq!(folder.join(kept), *aside);
        std::fs::remove_file(aside).unwrap();
    }
    std::fs::remove_dir_all(folder).unwrap();
}

const fn texts_left(only_damaged: bool) -> usize {
    if only_damaged { 0 } else { 2 }
}

#[test]
fn a_journal_does_not_grow_for_ever() {
    let folder = folder("growth");
    let mut journal = Journal::start(&folder).unwrap();
    let half = "x".repeat(4 * 1024 * 1024);
    let mut largest = 0;
    for at in 0..12 {
        journal.note(&record(1, &half, at)).unwrap();
        largest = largest.max(std::fs::metadata(folder.join(&names(&folder)[0])).unwrap().len());
    }
    assert!(largest < 24 * 1024 * 1024, "{largest}");
    let too_much = "x".repeat(usize::try_from(LARGEST_FILE).unwrap() + 1);
    let fault = Language::English.file_fault(&journal.note(&record(1, &too_much, 99)).unwrap_err());
    assert!(fault.contains("too large") && fault.ends_with("save your work soon."), "{fault}");
    drop(journal);
    assert_eq!(left_behind(&folder).works[0].record.at, 11);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_folder_that_is_tidied_away_comes_back() {
    let folder = folder("vanished");
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "before", 1)).unwrap();
    journal.note(&record(2, "other", 1)).unwrap();
    std::fs::remove_dir_all(&folder).unwrap();
    journal.note(&record(1, "after", 2)).unwrap();
    drop(journal);
    let texts: Vec<String> = left_behind(&folder).works.into_iter().map(|l| l.record.text).collect();
    assert_eq!(texts, ["after", "other"]);
    std::fs::remove_dir_all(&folder).unwrap();
    // A file in its place: one sentence.
    std::fs::write(&folder, "").unwrap();
    let fault = Language::English.file_fault(&Journal::start(&folder).unwrap_err());
    assert!(fault.contains("unsaved work cannot be kept here"), "{fault}");
    std::fs::remove_file(folder).unwrap();
}

/// Windows that start, work and end while others look for what was left: nobody is offered what is alive, and nobody's
/// journal is swept away.
#[test]
fn many_windows_at_once() {
    let folder = folder("many");
    let work = |number: u32| {
        for at in 0..15 {
            let mut journal = Journal::start(&folder).unwrap();
            journal.note(&record(number, "alive", at)).unwrap();
            assert!(left_behind(&folder).works.is_empty());
            journal.note(&record(number, "alive still", at)).unwrap();
            journal.close().unwrap();
        }
    };
    std::thread::scope(|scope| {
        for number in 1..=4 {
            let work = &work;
            scope.spawn(move || work(number));
        }
    });
    assert_eq!(names(&folder), [""; 0]);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_journal_may_go_to_another_thread() {
    const fn sent<T: Send>() {}
    sent::<Journal>();
    sent::<baywright_files::LeftBehind>();
}

/// What the program keeps for itself is its owner's only: what is typed may be a customer's.
#[cfg(unix)]
#[test]
fn nobody_else_reads_what_is_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder("private");
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    // A folder of an older program is made private too.
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o755)).unwrap();
    let mut journal = Journal::start(&folder).unwrap();
    journal.note(&record(1, "mine", 1)).unwrap();
    assert_eq!(mode(&folder), 0o700);
    for entry in std::fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        assert_eq!(mode(&path), 0o600, "{}", path.display());
    }
    let held = baywright_files::hold(&folder.join("in-use"), Path::new("/bays/one.ron")).unwrap();
    assert_eq!(mode(&folder.join("in-use")), 0o700);
    drop(held);
    drop(journal);
    std::fs::remove_dir_all(folder).unwrap();
}

/// The last record was torn: what is whole before it is offered, and forgetting one of two works leaves a journal that is
/// wholly understood.
#[test]
fn what_is_whole_before_a_torn_record_is_offered() {
    let folder = folder("torn");
    let mut journal = Journal::start(&folder).unwrap();
    for (number, text) in [(1, "first"), (2, "second"), (3, "torn")] {
        journal.note(&record(number, text, u64::from(number))).unwrap();
    }
    drop(journal);
    let file = folder.join(names(&folder).remove(0));
    let bytes = std::fs::read(&file).unwrap();
    std::fs::write(&file, &bytes[..bytes.len() - 2]).unwrap();
    let mut left = left_behind(&folder);
    assert!(left.not_understood.is_empty());
    let texts: Vec<&str> = left.works.iter().map(|own| own.record.text.as_str()).collect();
    assert_eq!(texts, ["second", "first"]);
    left.works.remove(0).forget().unwrap();
    drop(left);
    let left = left_behind(&folder);
    assert!(left.not_understood.is_empty(), "{:?}", left.not_understood);
    assert_eq!(left.works.len(), 1);
    drop(left);
    std::fs::remove_dir_all(folder).unwrap();
}
