//! A process without a window is killed again and again while it edits, journals and saves: nothing acknowledged is lost,
//! no file is half, nothing is left lying about.
//!
//! 20 kills, or as many as `BAYWRIGHT_KILLS` says.

#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use baywright_files::{
    EMBEDDED_LAYOUTS, Hold, Journal, Record, Work, hold, layout_text, left_behind, load_layout, parse_layout,
    save_layout,
};
use baywright_planner::model::Layout;
use baywright_planner::words::Language;

const PLACE: &str = "BAYWRIGHT_KILLED_CHILD";
const DRAFTS: &str = "BAYWRIGHT_KILLED_CHILD_DRAFTS";

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("killed-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// This program again, as the child: only the named test runs, and it sees where it shall work.
fn child(test: &str, place: &Path, drafts: bool) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args([test, "--exact", "--nocapture", "--test-threads=1"])
        .env(PLACE, place)
        .envs(drafts.then_some((DRAFTS, "yes")))
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Numbers that look drawn by lot, the same for the same start.
fn draw(state: &mut u64) -> u64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    *state >> 33
}

/// Says a line to the parent at once.
fn say(line: &str) {
    let mut out = std::io::stdout();
    writeln!(out, "{line}").unwrap();
    out.flush().unwrap();
}

fn start_layout() -> Layout {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == "crowded-bay").unwrap();
    parse_layout(&file.label(), file.name, file.text).unwrap()
}

/// One more edit: the number of edits stands in the name, so that every state tells which one it is.
fn edit(layout: &mut Layout, number: u64, lot: &mut u64) {
    layout.bay.name = format!("Edit {number}");
    let count = layout.bay.things.len() as u64;
    let thing = &mut layout.bay.things[(draw(lot) % count) as usize];
    let mut origin = thing.place.at.origin();
    origin.x = 2_000.0 + (draw(lot) % 3_000) as f64;
    thing.place.at = baywright_planner::geometry::PlanPose::new(origin, thing.place.at.heading());
}

/// A draft that is not sound: five megabytes, none like another.
fn draft(number: u64) -> Record {
    let text = format!("({number}, ").repeat(5 * 1024 * 1024 / (number.to_string().len() + 3));
    Record {
        number: 2,
        kind: Work::Profile,
        path: None,
        mark: None,
        name: "Draft".into(),
        id: None,
        text,
        at: number,
    }
}

/// The child's work, for ever. Without a place to work, as in a plain run of the tests, it has nothing to do.
#[test]
fn child_edits() {
    let Some(place) = std::env::var_os(PLACE).map(PathBuf::from) else { return };
    let path = place.join("user").join("bay.ron");
    let mut lot = u64::from(std::process::id());
    let mut layout = start_layout();
    let mut journal = Journal::start(&place.join("journal")).unwrap();
    // Some children also keep large drafts, so that their journal is rewritten every few notes.
    let drafts = std::env::var_os(DRAFTS).is_some();
    for number in 1.. {
        if drafts {
            say(&format!("draft {number}"));
            journal.note(&draft(number)).unwrap();
            say(&format!("drafted {number}"));
        }
        edit(&mut layout, number, &mut lot);
        let text = layout_text(&layout).unwrap();
        let record = Record {
            number: 1,
            kind: Work::Layout,
            path: Some(path.clone()),
            mark: None,
            name: layout.bay.name.clone(),
            id: None,
            text,
            at: number,
        };
        say(&format!("try {number}"));
        journal.note(&record).unwrap();
        say(&format!("kept {number}"));
        if draw(&mut lot).is_multiple_of(3) {
            say(&format!("saving {number}"));
            save_layout(&path, &layout).unwrap();
            say(&format!("saved {number}"));
        }
    }
}

#[test]
fn nothing_acknowledged_is_lost() {
    let kills: u32 = std::env::var("BAYWRIGHT_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(20);
    let place = folder("edits");
    let (user, journals) = (place.join("user"), place.join("journal"));
    std::fs::create_dir_all(&user).unwrap();
    let path = user.join("bay.ron");
    let mut lot = 7_u64;
    let (mut edits, mut drafts, mut saves, mut litter) = (0, 0, 0, 0);
    // The text of the file when the child was started.
    let mut before: Option<String> = None;
    for kill in 1..=kills {
        let with_drafts = kill.is_multiple_of(4);
        let mut child = child("child_edits", &place, with_drafts);
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
        // The child is up; from now on it is killed at any moment.
        assert!(
            lines.by_ref().any(|line| line.ends_with("try 1") || line.ends_with("draft 1")),
            "the child starts"
        );
        std::thread::sleep(Duration::from_micros(
            draw(&mut lot) % if with_drafts { 600_000 } else { 60_000 },
        ));
        child.kill().unwrap();
        child.wait().unwrap();
        let (mut tried, mut kept, mut saving, mut saved) = (1, 0, Vec::new(), None);
        let (mut draft_tried, mut drafted) = (1, 0);
        for line in lines {
            // The last line may be cut off in its middle.
            let Some((word, number)) = line.split_once(' ') else { continue };
            let Ok(number) = number.parse::<u64>() else { continue };
            match word {
                "try" => tried = number,
                "kept" => kept = number,
                "draft" => draft_tried = number,
                "drafted" => drafted = number,
                "saving" => saving.push(number),
                "saved" => saved = Some(number),
                _ => {}
            }
        }
        edits += kept;

        let mut left = left_behind(&journals).works;
        if let Some(at) = left.iter().position(|found| found.record.number == 2) {
            let found = left.remove(at);
            let at = found.record.at;
            assert!(
                (drafted..=draft_tried).contains(&at),
                "kill {kill}: draft {drafted} was kept, {at} is found"
            );
            assert!(found.record == draft(at), "kill {kill}: draft {at} is another");
            found.forget().unwrap();
            drafts += 1;
        } else {
            assert_eq!(drafted, 0, "kill {kill}: draft {drafted} was kept, nothing is found");
        }
        assert!(left.len() <= 1, "kill {kill}: one work was in hand, {} are left", left.len());
        match left.pop() {
            Some(found) => {
                let at = found.record.at;
                assert!((kept..=tried).contains(&at), "kill {kill}: {kept} was kept, {at} is found");
                let layout = parse_layout("recovered", "bay", &found.record.text).unwrap();
                assert_eq!(layout.bay.name, format!("Edit {at}"));
                found.forget().unwrap();
            }
            None => assert_eq!(kept, 0, "kill {kill}: {kept} was kept, nothing is found"),
        }

        let now = std::fs::read_to_string(&path).ok();
        let changed = now != before;
        if changed || saved.is_some() {
            let name = load_layout(&path).unwrap().bay.name;
            let number: u64 = name.strip_prefix("Edit ").unwrap().parse().unwrap();
            assert!(saving.contains(&number), "kill {kill}: {number} was never saved");
            assert!(saved.is_none_or(|saved| number >= saved), "kill {kill}: {saved:?} was saved");
            saves += 1;
        }
        before = now;
        let others = names(&user).into_iter().filter(|name| name != "bay.ron").count();
        litter = litter.max(others);
    }
    let beside = names(&user);
    // The next save of the file clears what a kill in its last moment left.
    if beside.len() > 1 {
        std::thread::sleep(Duration::from_millis(2_100));
    }
    save_layout(&path, &start_layout()).unwrap();
    // One draw in two hundred reads like a word or a date: it stays, since it could be somebody's own copy.
    let mut left = names(&user);
    let reads_like_a_copy =
        |lot: &str| lot.bytes().all(|b| b.is_ascii_lowercase()) || lot.bytes().all(|b| b.is_ascii_digit());
    left.retain(|name| !name.strip_prefix(".bay.ron.").is_some_and(reads_like_a_copy));
    assert_eq!(left, ["bay.ron"], "before: {beside:?}");
    assert_eq!(names(&journals), ["lock"]);
    println!(
        "{kills} kills: {edits} acknowledged edits, {drafts} drafts found, {saves} saved files seen, at most {litter} \
         stray files"
    );
    assert!(edits > 0 && saves > 0);
    std::fs::remove_dir_all(place).unwrap();
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// The child holds a file until it is killed.
#[test]
fn child_holds() {
    let Some(place) = std::env::var_os(PLACE).map(PathBuf::from) else { return };
    let held = hold(&place.join("in-use"), &place.join("bay.ron")).unwrap();
    say(if matches!(held, Hold::Held(_)) { "held" } else { "refused" });
    std::thread::sleep(Duration::from_secs(60));
    drop(held);
}

#[test]
fn a_hold_ends_with_its_process() {
    let place = folder("holds");
    let mut child = child("child_holds", &place, false);
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
    assert!(lines.any(|line| line.ends_with("held")));
    let try_hold = || hold(&place.join("in-use"), &place.join("bay.ron")).unwrap();
    assert!(matches!(try_hold(), Hold::InUseElsewhere));
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(matches!(try_hold(), Hold::Held(_)));
    assert_eq!(names(&place.join("in-use")), ["lock"], "a dropped hold leaves nothing");
    std::fs::remove_dir_all(place).unwrap();
}

#[test]
fn of_many_who_want_a_file_one_has_it() {
    let place = folder("race");
    let (holds, path) = (place.join("in-use"), place.join("bay.ron"));
    let inside = std::sync::atomic::AtomicU32::new(0);
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| {
                for _ in 0..30 {
                    let held = hold(&holds, &path).unwrap();
                    if matches!(held, Hold::Held(_)) {
                        assert_eq!(inside.fetch_add(1, std::sync::atomic::Ordering::SeqCst), 0);
                        std::thread::yield_now();
                        inside.fetch_sub(1, std::sync::atomic::Ordering::SeqCst);
                    }
                }
            });
        }
    });
    assert_eq!(names(&holds), ["lock"]);
    std::fs::remove_dir_all(place).unwrap();
}

#[test]
fn a_file_is_held_once_by_whatever_way() {
    let place = folder("ways");
    let holds = place.join("in-use");
    let path = place.join("bay.ron");
    // Also before it exists.
    let first = hold(&holds, &path).unwrap();
    assert!(matches!(first, Hold::Held(_)));
    assert!(matches!(hold(&holds, &place.join("in-use/../bay.ron")).unwrap(), Hold::InUseElsewhere));
    std::fs::write(&path, "").unwrap();
    std::os::unix::fs::symlink("bay.ron", place.join("link.ron")).unwrap();
    assert!(matches!(hold(&holds, &place.join("link.ron")).unwrap(), Hold::InUseElsewhere));
    let other = hold(&holds, &place.join("other.ron")).unwrap();
    assert!(matches!(other, Hold::Held(_)));
    drop(first);
    assert!(matches!(hold(&holds, &path).unwrap(), Hold::Held(_)));
    std::fs::write(place.join("file"), "").unwrap();
    let fault = Language::English.file_fault(&hold(&place.join("file"), &path).unwrap_err());
    assert!(fault.contains("cannot be noted here that a file is open"), "{fault}");
    std::fs::remove_dir_all(place).unwrap();
}
