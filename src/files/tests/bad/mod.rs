//! A sound profile and a sound layout to spoil, and what is asked of the sentences.

pub mod layouts;
pub mod profiles;

use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};

use baywright_files::{FileFault, load_profile, open};
use baywright_planner::words::Language;

/// A case: its name, what is replaced in the sound file, by what, and pieces that the only sentence must hold.
pub type Row = (&'static str, &'static str, &'static str, &'static [&'static str]);

pub const PROFILE: &str = r#"(
    version: 1,
    name: "Test car",
    class: Saloon,
    source: Example,
    body_points: [(name: "badge", at_mm: (800, 0, 700))],
    body: (
        length_mm: 4000,
        width_mm: 1750,
        height_mm: 1450,
        wheelbase_mm: 2500,
        overhang_front_mm: 800,
        overhang_rear_mm: 700,
        track_front_mm: 1500, track_rear_mm: 1500, tyre_diameter_mm: 600, tyre_width_mm: 200,
    ),
    sensors: [
        (
            name: "eye",
            kind: Lidar,
            at_mm: (760, 0, 520),
            view_azimuth_deg: 60,
            view_elevation_deg: 20,
            adjusted: Screw,
            source: Example,
        ),
    ],
    aimings: [
        (
            name: "look",
            sensor: "eye",
            source: Example,
            axis: ThrustLine,
            tolerance: (azimuth_deg: 0.2, elevation_deg: 0.2),
            mark_plan: [
                (name: "1", how: WheelPoint(wheel: FrontLeft)),
                (name: "2", how: BodyPoint(point: "badge")),
                (name: "3", how: Prolong(from: "1", through: "2", by_mm: 2000)),
            ],
            placements: [(
                name: "board",
                target: (kind: Board, width_mm: 1000, height_mm: 800, depth_mm: 20),
                stand_off: (from: FrontAxle, to: Face, distance_mm: 3000, along: Level),
                height: Absolute(height_mm: 900),
                vertical: WheelsPlane,
                mark: "3",
            )],
            zones: [(
                name: "free", frame: Target("board"),
                outline: Rectangle(from_mm: (-500, -500), to_mm: (500, 500)),
                bottom_mm: 0, top_mm: 1500, excludes: Anything,
            )],
        ),
    ],
)
"#;

pub const LAYOUT: &str = r#"(
    version: 1,
    name: "Test bay",
    source: Example,
    room: (
        corners_mm: [(0, 0), (6000, 0), (6000, 4000), (0, 4000)],
        walls: [
            (name: "a", material: Brick),
            (name: "b", material: Brick),
            (name: "c", material: Brick),
            (name: "d", material: Brick),
        ],
        ceiling_mm: 3000,
    ),
    openings: [
        (name: "door", kind: RollerDoor, wall: "a", from_mm: 1000, width_mm: 2000,
         top_mm: 2500, material: Wood, shut: true),
    ],
    things: [
        (name: "drum", kind: Drum, shape: Round(diameter_mm: 400), at_mm: (500, 500),
         top_mm: 900, material: Steel, effort: TwoPeople),
        (name: "bench", kind: Bench, shape: Rectangle(length_mm: 900, width_mm: 400), at_mm: (5000, 3500),
         top_mm: 800, material: Wood, effort: TwoPeople),
        (name: "bin", kind: Bin, shape: Rectangle(length_mm: 300, width_mm: 300), at_mm: (5500, 400),
         top_mm: 600, material: Plastic, effort: OnePerson),
    ],
    arrangements: [
        (name: "first",
         vehicle: "car",
         aiming: "look",
         parked: (at_mm: (3000, 2000), heading_deg: 0),
         stands: [(placement: "board", set: At(at_mm: (5000, 2000), heading_deg: 180, height_mm: 900))],
         moved: [(thing: "drum", at_mm: (600, 600))],
         away: ["bench"], doors: [(door: "door", shut: false)]),
    ],
)
// the end
"#;

/// A name of 5,000 letters.
pub const HUGE_NAME: &str = const_format();

const fn const_format() -> &'static str {
    const LETTERS: [u8; 5008] = {
        let mut text = [b'x'; 5008];
        let head = b"name: \"";
        let mut i = 0;
        while i < head.len() {
            text[i] = head[i];
            i += 1;
        }
        text[5007] = b'"';
        text
    };
    match std::str::from_utf8(&LETTERS) {
        Ok(text) => text,
        Err(_) => "",
    }
}

/// A list in a list in a list ...
pub const DEEP: &str = const_deep();

const fn const_deep() -> &'static str {
    const TEXT: [u8; 4008] = {
        let mut text = [b'['; 4008];
        let head = b"things: ";
        let mut i = 0;
        while i < head.len() {
            text[i] = head[i];
            i += 1;
        }
        text
    };
    match std::str::from_utf8(&TEXT) {
        Ok(text) => text,
        Err(_) => "",
    }
}

/// A folder of its own below the build folder, emptied by the system's clean-up of it.
pub fn folder() -> PathBuf {
    static COUNT: AtomicUsize = AtomicUsize::new(0);
    let name = format!("bad-{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(folder.join("vehicle-profiles")).unwrap();
    std::fs::create_dir_all(folder.join("bay-layouts")).unwrap();
    folder
}

/// What is said of a file.
pub fn said(fault: &FileFault) -> String {
    Language::English.file_fault(fault)
}

fn sentences(faults: Vec<FileFault>) -> Vec<String> {
    faults.iter().map(said).collect()
}

/// What is said of a profile with this text.
pub fn check_profile(text: &str) -> Vec<String> {
    let folder = folder();
    let path = folder.join("vehicle-profiles/car.ron");
    std::fs::write(&path, text).unwrap();
    let answer = load_profile(&path).map_or_else(sentences, |_| Vec::new());
    std::fs::remove_dir_all(folder).unwrap();
    answer
}

/// What is said of a layout with these bytes, beside the sound profile.
pub fn check_layout(bytes: &[u8]) -> Vec<String> {
    let folder = folder();
    std::fs::write(folder.join("vehicle-profiles/car.ron"), PROFILE).unwrap();
    let path = folder.join("bay-layouts/bay.ron");
    std::fs::write(&path, bytes).unwrap();
    let answer = open(&path, None).map_or_else(sentences, |_| Vec::new());
    std::fs::remove_dir_all(folder).unwrap();
    answer
}

/// There is one sentence, it is one sentence, and it holds the pieces; else what is wrong with it.
pub fn fault_of(name: &str, sentences: &[String], parts: &[&str]) -> Option<String> {
    let [sentence] = sentences else {
        return Some(format!("{name}: {} sentences: {sentences:#?}", sentences.len()));
    };
    let missing: Vec<_> = parts
        .iter()
        .chain(&[".ron", ": found ", "; allowed is "])
        .filter(|part| !sentence.contains(**part))
        .collect();
    let is_one = sentence.ends_with('.') && !sentence.contains('\n') && sentence.len() < 700;
    (!missing.is_empty() || !is_one).then(|| format!("{name}: no {missing:?} in: {sentence}"))
}

/// There is one sentence about the file as a whole, in plain words, and it holds the pieces.
pub fn plain(name: &str, sentences: &[String], parts: &[&str]) {
    let [sentence] = sentences else { panic!("{name}: {} sentences: {sentences:#?}", sentences.len()) };
    for part in parts {
        assert!(sentence.contains(part), "{name}: no {part:?} in: {sentence}");
    }
    for part in ["found ", "allowed is", "os error", "\n"] {
        assert!(!sentence.contains(part), "{name}: {part:?} in: {sentence}");
    }
    assert!(sentence.ends_with('.') && sentence.len() < 700, "{name}: {sentence}");
}

/// As [`fault_of`], for a case by itself.
pub fn only(name: &str, sentences: &[String], parts: &[&str]) {
    assert_eq!(fault_of(name, sentences, parts), None);
}
