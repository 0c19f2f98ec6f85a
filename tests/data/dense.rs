//! Files that the door lets in and that are as dense as it allows: what comes of them stays small. What is counted is the
//! same on every machine; seconds are not asked for here.

use baywright_drawing::{Fit, Lettering, Projection, Theme, ViewState, picture, to_svg};
use baywright_files::{EMBEDDED_PROFILES, parse_layout, parse_profile};
use baywright_planner::model::{Arrangement, Layout};
use baywright_planner::words::Language;
use baywright_planner::{Assessment, Code, Verdict, assess_fully};

/// A room of 12 by 7 m with these lists, a saloon in it, and its forward radar to aim.
fn text(things: &str, features: &str, keep_free: &str, runways: &str) -> String {
    format!(
        r#"(
    version: 2,
    name: "Dense",
    source: Example,
    room: (
        corners_mm: [(0, 0), (12000, 0), (12000, 7000), (0, 7000)],
        walls: [
            (name: "wall 1", material: Concrete), (name: "wall 2", material: Concrete),
            (name: "wall 3", material: Concrete), (name: "wall 4", material: Concrete),
        ],
        ceiling_mm: 3600,
    ),
    things: [{things}],
    floor_features: [{features}],
    keep_free: [{keep_free}],
    runways: [{runways}],
    arrangements: [
        (
            name: "Saloon", vehicle: "example-saloon", aiming: "forward radar, reflector",
            parked: (at_mm: (4700, 3500), heading_deg: 0),
        ),
    ],
)"#
    )
}

fn many(count: usize, one: impl Fn(usize) -> String) -> String {
    (0..count).map(one).collect()
}

fn cabinet(name: &str, shape: &str, at: (usize, usize)) -> String {
    format!(
        "(name: \"{name}\", kind: Cabinet, shape: {shape}, at_mm: ({}, {}), top_mm: 1900, material: Steel, known: ByEye, \
         effort: OnePerson),",
        at.0, at.1
    )
}

const BOX: &str = "Rectangle(length_mm: 900, width_mm: 450)";

/// A band of so many corners, its long sides in teeth.
fn jagged(corners: usize) -> String {
    let half = corners / 2;
    let along = |i: usize| 3000.0 * i as f64 / (half - 1) as f64 - 1500.0;
    let low = (0..half).map(|i| (along(i), if i % 2 == 0 { -150.0 } else { -450.0 }));
    let high = (0..half).rev().map(|i| (along(i), if i % 2 == 0 { 150.0 } else { 450.0 }));
    let corners: Vec<String> = low.chain(high).map(|(x, y)| format!("({x:.3}, {y})")).collect();
    format!("Outline(corners_mm: [{}])", corners.join(", "))
}

fn area(name: &str, rest: &str) -> String {
    format!(
        "(name: \"{name}\", corners_mm: [(1000, 1000), (10000, 1000), (10000, 6000), (1000, 6000)], {rest}),"
    )
}

fn layout(text: &str) -> Layout {
    parse_layout("dense", "dense", text).expect("the door lets it in")
}

fn answer(layout: &Layout) -> (Arrangement, Assessment) {
    let own = EMBEDDED_PROFILES.iter().find(|own| own.name == "example-saloon").expect("it is shipped");
    let car = parse_profile(&own.label(), own.name, own.text).expect("it is sound");
    let arrangement =
        layout.resolve(&layout.arrangements[0], &car.vehicle, &car.fingerprint, None).expect("it resolves");
    // What `check` asks.
    let assessment = assess_fully(&arrangement);
    (arrangement, assessment)
}

/// How much is said and drawn: findings, and the bytes of a page with both views, its key with the sentences on it.
fn size(arrangement: &Arrangement, assessment: &Assessment) -> (usize, usize) {
    let both = &[Projection::Top, Projection::Side];
    let lettering = Lettering::default();
    let page =
        picture(arrangement, assessment, &ViewState::default(), both, Fit::picture(1_100.0), &lettering);
    (assessment.findings.len(), to_svg(&page, Theme::Light).len())
}

fn refused(text: &str) -> Vec<String> {
    let faults = parse_layout("dense", "dense", text).expect_err("the door refuses it");
    faults.iter().map(|fault| Language::English.file_fault(fault)).collect()
}

#[test]
fn what_is_dense_is_answered_with_little() {
    let pit = |name: &str| area(name, "kind: Pit, material: Steel");
    let panel = |name: &str| area(name, "kind: Panel");
    let runway = |name: &str| area(name, "top_mm: 200");
    let heap = |count: usize| many(count, |i| cabinet(&format!("thing {i}"), BOX, (8_000, 3_500)));
    let round = many(2_000, |i| {
        cabinet(&format!("drum {i}"), &format!("Round(diameter_mm: {})", 500 + i), (8_000, 3_500))
    });
    let jagged_things = many(40, |i| cabinet(&format!("rack {i}"), &jagged(200), (7_000 + 20 * i, 3_500)));
    let named = |count: usize, one: &dyn Fn(&str) -> String| many(count, |i| one(&format!("area {i}")));
    for (what, text, entries) in [
        ("a heap", text(&heap(2_000), "", "", ""), 2_000),
        ("a heap of drums", text(&round, "", "", ""), 2_000),
        ("one jagged thing", text(&cabinet("rack", &jagged(200), (7_000, 3_500)), "", "", ""), 1),
        ("jagged things", text(&jagged_things, "", "", ""), 40),
        ("pits", text("", &named(2_000, &pit), "", ""), 2_000),
        ("panels", text(&heap(1), "", &named(2_000, &panel), ""), 2_001),
        ("runways", text(&heap(1), "", "", &named(2_000, &runway)), 2_001),
    ] {
        let layout = layout(&text);
        let (arrangement, assessment) = answer(&layout);
        let (findings, bytes) = size(&arrangement, &assessment);
        assert!(findings <= 12 * entries + 40, "{what}: {findings} findings");
        assert!(bytes <= 60_000_000, "{what}: {bytes} bytes");
        // Cures are looked for so many times and no more, and each says no more than so much of what it leads to.
        let cured = assessment.findings.iter().filter_map(|finding| finding.cure.as_ref());
        let causes: usize = cured.clone().map(|cure| cure.causes.len()).sum();
        assert!(causes <= 40 * 60, "{what}: {causes} consequences");
        // Bounded work never makes it ready.
        assert_ne!(assessment.verdict, Verdict::Ready, "{what}");
        let heaps = assessment.findings.iter().filter(|finding| finding.code() == Code::ThingPlace).count();
        assert!(heaps <= 2, "{what}: {heaps} heaps");
    }
}

#[test]
fn what_is_denser_is_refused_with_its_limit() {
    let jagged_things = |corners: usize, count: usize| {
        text(&many(count, |i| cabinet(&format!("rack {i}"), &jagged(corners), (7_000, 3_500))), "", "", "")
    };
    let said = refused(&jagged_things(202, 1));
    assert!(said[0].contains("things[0].shape") && said[0].contains("at most 200 corners"), "{said:?}");
    let said = refused(&jagged_things(200, 41));
    assert!(said[0].contains("8200 corners in all") && said[0].contains("at most 8000"), "{said:?}");
    let said =
        refused(&text(&many(2_001, |i| cabinet(&format!("thing {i}"), BOX, (8_000, 3_500))), "", "", ""));
    assert!(said.iter().any(|said| said.contains("at most 2000")), "{said:?}");
    // Each arrangement is assessed with all of the things.
    let one = text(&many(200, |i| cabinet(&format!("thing {i}"), BOX, (8_000, 3_500))), "", "", "");
    let (before, saved) = one.split_once("arrangements: [").expect("a list");
    let saved = saved.trim_end().trim_end_matches(')').trim_end().trim_end_matches("],");
    let all = many(101, |i| saved.replace("\"Saloon\"", &format!("\"Saloon {i}\"")));
    let said = refused(&format!("{before}arrangements: [{all}],\n)"));
    assert!(said[0].contains("20200 things") && said[0].contains("at most 20000"), "{said:?}");
}
