//! A real window, without a graphics card: opened under Xvfb, driven by xdotool as a person would: drag, see the verdict
//! change, save, close.
//!
//! It needs programs that plain `cargo test` must not need, so it stands behind a feature:
//!
//! ```text
//! apt-get install -y xvfb xdotool imagemagick libx11-6 libx11-xcb1 libxcursor1 libxi6 libxrender1 libxkbcommon0 \
//!     libxkbcommon-x11-0 libgl1 libgl1-mesa-dri
//! cargo test --features window-tests --test window
//! ```

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "../desk/renderer.rs"]
mod renderer;
#[path = "../desk/support.rs"]
#[allow(dead_code, reason = "shared with the tests without a window")]
mod support;

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use baywright_drawing::Theme;
use baywright_planner::{Severity, Verdict};
use egui::{Pos2, Vec2};

/// A display of its own; gone with the test.
struct Display {
    server: Child,
    name: String,
}

impl Display {
    fn new() -> Self {
        // Without `-noreset` the server starts anew whenever its last client leaves, as each xdotool does, and refuses
        // who comes meanwhile: the program itself, once in a while.
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb is installed");
        let mut line = String::new();
        BufReader::new(server.stdout.take().unwrap()).read_line(&mut line).expect("Xvfb names its display");
        assert!(!line.trim().is_empty(), "Xvfb ended without a display");
        Self { server, name: format!(":{}", line.trim()) }
    }

    fn run(&self, program: &str, arguments: &[&str]) -> String {
        let output = Command::new(program)
            .args(arguments)
            .env("DISPLAY", &self.name)
            .output()
            .unwrap_or_else(|error| panic!("{program} is installed: {error}"));
        String::from_utf8_lossy(&output.stdout).trim().to_owned()
    }

    fn xdotool(&self, arguments: &str) -> String {
        self.run("xdotool", &arguments.split(' ').collect::<Vec<_>>())
    }

    /// Presses at one place, moves to another in steps, lets go.
    fn drag(&self, from: Pos2, to: Pos2) {
        self.xdotool(&format!("mousemove {:.0} {:.0} mousedown 1", from.x, from.y));
        for step in 1..=12 {
            let at = from + (to - from) * (step as f32 / 12.0);
            self.xdotool(&format!("mousemove {:.0} {:.0}", at.x, at.y));
            sleep(Duration::from_millis(25));
        }
        self.xdotool("mouseup 1");
        sleep(Duration::from_millis(200));
    }

    /// How many px of the verdict's sign have a colour.
    fn px_of(&self, colour: [u8; 3], folder: &Path) -> usize {
        let picture = folder.join("screen.png");
        self.run("import", &["-window", "root", &picture.display().to_string()]);
        let picture = image::open(picture).expect("a picture of the screen").to_rgb8();
        let near = |p: &image::Rgb<u8>| p.0.iter().zip(colour).all(|(a, b)| a.abs_diff(b) < 12);
        let strip = (0..60).flat_map(|x| (52..112).map(move |y| (x, y)));
        strip.filter(|&(x, y)| near(picture.get_pixel(x, y))).count()
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

/// Waits for something, ten seconds at most.
fn wait(what: &str, mut found: impl FnMut() -> bool) {
    let start = Instant::now();
    while !found() {
        assert!(start.elapsed() < Duration::from_secs(10), "waited in vain for {what}");
        sleep(Duration::from_millis(50));
    }
}

fn check(path: &Path) -> Option<i32> {
    let answer = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(["check", "--date", "2026-11-20", "--arrangement", "As found"])
        .arg(path)
        .output()
        .unwrap();
    answer.status.code()
}

#[test]
fn a_person_drags_saves_and_closes() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("window-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(folder.join("bay-layouts")).unwrap();
    let path = folder.join("bay-layouts/bay.ron");
    std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts/crowded-bay.ron"), &path).unwrap();
    assert_eq!(check(&path), Some(1), "not ready at first");

    // Where things are on a screen of this size, and where they would be out of the way.
    let mut screen = support::usual(support::desk(&path, None));
    let cabinet = support::middle(&screen, "the tool cabinet, top view");
    let trolley = support::middle(&screen, "the trolley, top view");
    let moves = [(cabinet, cabinet - Vec2::new(0.0, 32.0)), (trolley, trolley + Vec2::new(0.0, 150.0))];
    for (from, to) in moves {
        support::drag(&mut screen, from, to);
    }
    assert_eq!(support::verdict(&screen), Verdict::ReadyWithCare);
    assert_eq!(support::count(&screen, Severity::Stops), 0);

    let display = Display::new();
    let started = Instant::now();
    let mut program = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(["open", "--date", "2026-11-20"])
        .arg(&path)
        .env("DISPLAY", &display.name)
        // What the program keeps for itself is kept here.
        .env("XDG_DATA_HOME", folder.join("data"))
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .spawn()
        .unwrap();
    let mut window = String::new();
    wait("a window", || {
        window = display.xdotool("search --onlyvisible --name Baywright");
        !window.is_empty()
    });
    let stops = Theme::Light.palette().stops.rgb;
    wait("the first picture", || display.px_of(stops, &folder) > 200);
    println!("window and first picture after {:?}", started.elapsed());
    let title = || display.xdotool(&format!("getwindowname {window}"));
    assert!(title().contains("Crowded bay") && !title().starts_with('*'), "{}", title());

    for (from, to) in moves {
        display.drag(from, to);
    }
    wait("the sign that stops to go", || display.px_of(stops, &folder) == 0);
    assert!(title().starts_with('*'), "changed: {}", title());

    display.xdotool(&format!("windowfocus --sync {window}"));
    display.xdotool("key ctrl+s");
    wait("the mark of what is not saved to go", || !title().starts_with('*'));
    assert_eq!(check(&path), Some(0), "what was saved is what was shown");

    display.xdotool("key ctrl+q");
    let mut ended = None;
    wait("the program to end", || {
        ended = program.try_wait().unwrap();
        ended.is_some()
    });
    assert_eq!(ended.unwrap().code(), Some(0));
    std::fs::remove_dir_all(folder).unwrap();
}
