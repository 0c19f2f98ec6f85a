//! `baywright proof check`: a proof that a set-up fits nowhere holds or not, and is of a layout or not.

use baywright_planner::never::{MOST_CELLS, ROUND_UDEG};
use baywright_planner::place::never::{Document, Given, Never, Stays, never};

use crate::run::{baywright, scratch};

fn put(name: &str, text: &str) -> String {
    let path = scratch("never", "files").join(name);
    std::fs::write(&path, text).expect("a file");
    path.to_str().expect("a path").to_owned()
}

/// An empty room that is so long, mm, with a small car before its target.
fn layout(length_mm: u32) -> String {
    format!(
        r#"(
    version: {},
    name: "Small store",
    source: Example,
    room: (
        corners_mm: [(0, 0), ({length_mm}, 0), ({length_mm}, 3500), (0, 3500)],
        walls: [
            (name: "yard wall", material: Brick),
            (name: "office wall", material: Brick),
            (name: "neighbour's wall", material: Brick),
            (name: "street wall", material: Brick),
        ],
        ceiling_mm: 2900,
        walls_known: Taped,
    ),
    arrangements: [
        (
            name: "Hatchback",
            vehicle: "example-hatchback-small",
            aiming: "forward radar, plate",
            parked: (at_mm: (2000, 1700), heading_deg: 0),
        ),
    ],
)
"#,
        baywright_files::LAYOUT_VERSION
    )
}

/// The layout's file and the proof of its only set-up.
fn proven() -> (String, Document) {
    let file = put("small.ron", &layout(4_000));
    let loaded = baywright_files::open(file.as_ref(), None).expect("it opens");
    let arrangement = loaded.arrangements[0].1.clone();
    let given = Given::of(&arrangement, Stays::Fixed);
    let Never::Proven(proof) = never(&given, MOST_CELLS, &|| false, &mut |_| {}) else {
        panic!("a car with its target fits into no room of 4 m")
    };
    (file, Document::of(&arrangement, Stays::Fixed, *proof))
}

fn text(document: &Document) -> String {
    baywright_files::never_text(document, "p.ron").expect("it is written")
}

fn check(line: &[&str], status: i32, says: &str) {
    let said = baywright(&[&["proof", "check"], line].concat());
    let (out, errors) = (String::from_utf8_lossy(&said.stdout), String::from_utf8_lossy(&said.stderr));
    assert_eq!(said.status.code(), Some(status), "{out}{errors}");
    let flat = format!("{out}{errors}").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(says), "{line:?}: {out}{errors}");
}

#[test]
fn a_proof_is_held_against_itself_and_a_layout() {
    let (own, document) = proven();
    let file = put("whole.ron", &text(&document));
    check(&[&file], 0, "The proof holds");
    check(&[&file], 0, "checked by itself only");
    check(&[&file, "--of", &own], 0, "Its solids are those of the layout.");
    assert!(baywright(&["proof", "check", &file, "--quiet"]).stdout.is_empty());
    // A room that is longer by a little more than is let pass, and a set-up that is not there.
    let other = put("longer.ron", &layout(4_001));
    check(&[&file, "--of", &other], 1, "It is not of this layout");
    check(&[&file, "--of", &own, "--arrangement", "nowhere"], 2, "nowhere");
    check(&[&file, "--of", "/no/such/layout.ron"], 2, "layout.ron");
}

/// What `plan` writes is what `proof check` accepts; where there is room it writes nothing.
#[test]
fn a_proof_is_written_where_there_is_one() {
    let small = put("small-room.ron", &layout(4_000));
    let file = scratch("never", "files").join("written.ron");
    let name = file.to_str().expect("a path");
    let said = baywright(&["plan", &small, "--arrangement", "Hatchback", "--proof", name]);
    let text = String::from_utf8_lossy(&said.stdout).into_owned();
    assert_eq!(said.status.code(), Some(0), "{text}{}", String::from_utf8_lossy(&said.stderr));
    assert!(text.starts_with("It never fits here"), "{text}");
    check(&[name, "--of", &small], 0, "Its solids are those of the layout.");
    let none = scratch("never", "files").join("none-written.ron");
    let name = none.to_str().expect("a path");
    let said = baywright(&["plan", "clear-bay", "--arrangement", &first_of("clear-bay"), "--proof", name]);
    assert_eq!(said.status.code(), Some(1));
    assert!(!none.exists());
}

fn first_of(layout: &str) -> String {
    let loaded = baywright_files::open(layout.as_ref(), None).expect("a shipped layout");
    loaded.arrangements[0].0.to_string()
}

#[test]
fn a_proof_that_was_changed_by_hand_is_refused() {
    let (own, document) = proven();
    let changed = |name: &str, change: &dyn Fn(&mut Document)| {
        let mut after = document.clone();
        change(&mut after);
        put(name, &text(&after))
    };
    let fewer = changed("fewer.ron", &|own| {
        own.proof.cells.remove(0);
    });
    check(&[&fewer], 1, "no cell covers the place");
    let gone = changed("gone.ron", &|own| own.proof.cells[0].against = own.proof.stands.len());
    check(&[&gone], 1, "cell 1 is empty or names what is not there");
    // One cell for all: nothing bars all places.
    let all = changed("all.ron", &|own| {
        let places = own.proof.places;
        own.proof.cells.truncate(1);
        own.proof.cells[0].places = places;
        own.proof.cells[0].headings = [0, ROUND_UDEG];
    });
    check(&[&all], 1, "need not meet");
    // A longer car holds by itself, for it fits less: but of the layout it is not.
    let longer = changed("longer-car.ron", &|own| {
        own.proof.set_up.push(baywright_planner::never::Solid {
            of: "car".to_owned(),
            ring: vec![[-9_000_000, -1_000], [9_000_000, -1_000], [9_000_000, 1_000], [-9_000_000, 1_000]],
            heights: [300_000, 900_000],
        });
    });
    check(&[&longer], 0, "The proof holds");
    check(&[&longer, "--of", &own], 1, "\"car\" is not there as the proof has it");
    // What is no file of this kind is not read at all.
    let whole = text(&document);
    let none = put("none.ron", &whole.replacen("ProofThatItFitsNowhere", "Other", 1));
    check(&[&none], 2, "none.ron");
    check(&[&put("version.ron", &whole.replacen("version: 1", "version: 900", 1))], 2, "version.ron");
    check(&[&own], 2, "small.ron");
}
