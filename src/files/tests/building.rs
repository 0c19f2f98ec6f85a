//! An arrangement's own building: it reads back as it was, older files have none, and what is wrong in it is said with its
//! place.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use baywright_files::{
    EMBEDDED_LAYOUTS, LAYOUT_VERSION, layout_text, load_layout, open, parse_layout, save_layout,
};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Known, Layout, Material, OpeningKind, Shape};
use baywright_planner::words::Language;
use proptest::prelude::*;

const FOURTH_LAYOUT: &str = include_str!("old/v4/layout.ron");

fn shipped(name: &str) -> Layout {
    let file = EMBEDDED_LAYOUTS.iter().find(|own| own.name == name).unwrap();
    parse_layout(name, name, file.text).unwrap()
}

/// A shipped layout whose second arrangement has a building of its own, as the bay's is.
fn planned(name: &str) -> Layout {
    let layout = shipped(name);
    let second = layout.arrangements[1].id.clone();
    Edit::PlanBuilding.apply(&layout, &second).unwrap()
}

#[test]
fn a_file_of_the_fourth_version_has_one_building_for_all() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join(format!("building-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("short-bay.ron");
    std::fs::write(&path, FOURTH_LAYOUT).unwrap();
    let layout = load_layout(&path).unwrap();
    assert_eq!(layout.arrangements.len(), 4);
    assert!(layout.arrangements.iter().all(|own| own.building.is_none()));
    let saved = save_layout(&path, &layout).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("short-bay.ron.v4.bak")));
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains(&format!("version: {LAYOUT_VERSION},")) && !text.contains("building"), "{text}");
    assert_eq!(load_layout(&path).unwrap(), layout);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn every_shipped_building_reads_back_as_an_arrangements_own() {
    for file in EMBEDDED_LAYOUTS {
        let layout = planned(file.name);
        let again = parse_layout("again", file.name, &layout_text(&layout).unwrap()).unwrap();
        assert_eq!(again, layout, "{}", file.name);
        assert!(again.arrangements[1].building.is_some());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// load(save(x)) == x, to the last bit, whatever differs from the bay.
    #[test]
    fn what_differs_from_the_bay_comes_back_to_the_last_bit(
        by in -2_000_000_i32..0, from in 0_i32..500_000, wide in 300_000_i32..900_000, round in 100_000_i32..900_000,
    ) {
        // To a thousandth: as a file has it.
        let mm = |thousandths: i32| f64::from(thousandths) / 1e3;
        let mut layout = planned("crowded-bay");
        let home = layout.bay.clone();
        let mut bay = layout.bay_of(&layout.arrangements[1]).into_owned();
        bay.move_corner(1, DVec2::new(mm(12_000_000 - by), 0.0)).unwrap();
        bay.walls[0].material = Material::Mesh;
        bay.ceiling_mm = mm(3_000_000 + from);
        bay.openings[0].from_mm = mm(from);
        bay.openings[0].width_mm = mm(wide);
        bay.things[0].footprint =
            baywright_planner::model::Footprint::new(Shape::Round { diameter_mm: mm(round) }).unwrap();
        bay.things.truncate(2);
        layout.arrangements[1].moved.clear();
        layout.arrangements[1].away.clear();
        layout.set_bay_of(1, bay.clone());
        prop_assert_eq!(&layout.bay, &home);
        let text = layout_text(&layout).unwrap();
        let again = parse_layout("again", "crowded-bay", &text).unwrap();
        prop_assert_eq!(&again, &layout);
        prop_assert_eq!(again.bay_of(&again.arrangements[1]).into_owned(), bay);
        prop_assert_eq!(text, layout_text(&again).unwrap());
    }
}

/// A small layout whose arrangement has its own building, with a place for what is to be spoilt.
const SOUND: &str = r#"(
    version: 5,
    name: "b",
    source: Example,
    room: (
        corners_mm: [(0, 0), (8000, 0), (8000, 5000), (0, 5000)],
        walls: [
            (name: "south", material: Brick),
            (name: "east", material: Brick),
            (name: "north", material: Brick),
            (name: "west", material: Brick),
        ],
        ceiling_mm: 3000,
    ),
    things: [(name: "bin", kind: Bin, shape: Round(diameter_mm: 500), at_mm: (900, 900), top_mm: 900, material: Steel, effort: OnePerson)],
    arrangements: [(
        name: "as planned",
        vehicle: "example-saloon",
        aiming: "forward radar, reflector",
        parked: (at_mm: (4450, 1900), heading_deg: 0),
        building: (
            source: Example,
            room: (
                corners_mm: [(0, 0), (9000, 0), (9000, 5000), (2000, 6000), (0, 5000)],
                walls: [
                    (name: "south", material: Brick),
                    (name: "far", material: Concrete),
                    (name: "north", material: Brick),
                    (name: "slant", material: Glass),
                    (name: "west", material: Brick),
                ],
                ceiling_mm: 3400,
                walls_known: Taped,
            ),
            openings: [(name: "gate", kind: RollerDoor, wall: "far", from_mm: 500, width_mm: 3000, top_mm: 2600, material: Steel, shut: true)],
            things: [(name: "tank", kind: Other, shape: Round(diameter_mm: 700), at_mm: (900, 900), top_mm: 900, material: Steel, effort: Fixed)],
        ),
        moved: [(thing: "tank", at_mm: (1200, 900))],
        doors: [(door: "gate", shut: false)],
    )],
)"#;

#[test]
fn it_is_read_as_it_stands() {
    let layout = parse_layout("b", "b", SOUND).unwrap();
    let own = layout.bay_of(&layout.arrangements[0]);
    assert_eq!((own.walls.len(), own.openings[0].wall, own.ceiling_mm), (5, 1, 3_400.0));
    assert_eq!((own.openings[0].kind, own.name.as_str()), (OpeningKind::RollerDoor, "b"));
    assert_eq!(own.room.outer()[3], DVec2::new(2_000.0, 6_000.0));
    assert!(layout.bay.openings.is_empty() && layout.bay.walls.len() == 4);
    // Where nothing is said, a thing that was moved stands by eye, however well its place at home is known.
    assert_eq!(layout.arrangements[0].moved[0].place.known, Known::ByEye);
}

/// The sound layout with the corners of the arrangement's room the other way round.
fn clockwise() -> String {
    let text = SOUND.replacen(
        "[(0, 0), (9000, 0), (9000, 5000), (2000, 6000), (0, 5000)]",
        "[(0, 0), (0, 5000), (2000, 6000), (9000, 5000), (9000, 0)]",
        1,
    );
    assert_ne!(text, SOUND);
    text
}

/// A room whose corners go round clockwise is turned, its walls and openings with it: the second wall of the file, "far", runs
/// from (0, 5000) to (2000, 6000), and the gate from its own start.
#[test]
fn a_clockwise_building_is_turned() {
    let text = clockwise().replacen("from_mm: 500, width_mm: 3000", "from_mm: 200, width_mm: 1500", 1);
    let layout = parse_layout("b", "b", &text).unwrap();
    let own = layout.bay_of(&layout.arrangements[0]);
    let gate = &own.openings[0];
    assert_eq!(own.walls[gate.wall].id.as_str(), "far");
    assert_eq!(own.wall_ends(gate.wall), Some((DVec2::new(2_000.0, 6_000.0), DVec2::new(0.0, 5_000.0))));
    let line = own.opening_line(gate).unwrap();
    let way = DVec2::new(2.0, 1.0).normalize();
    assert!(line.to.distance(DVec2::new(0.0, 5_000.0) + way * 200.0) < 1e-5, "{line:?}");
    assert!(line.from.distance(DVec2::new(0.0, 5_000.0) + way * 1_700.0) < 1e-5, "{line:?}");
}

#[test]
fn what_is_wrong_in_it_is_said_with_its_place() {
    let path = "arrangements[0].building.";
    let cases: &[(&str, &str, &str, &str)] = &[
        ("wall: \"far\"", "wall: \"east\"", "openings[0].wall", "found \"east\""),
        ("from_mm: 500,", "from_mm: 4500,", "openings[0].width_mm", "from 4500 to 7500 mm"),
        ("top_mm: 2600", "top_mm: 3600", "openings[0].top_mm", "the ceiling's 3400 mm"),
        ("(2000, 6000), (0, 5000)]", "(2000, 6000), (0, -5000)]", "room.corners_mm", "crosses"),
        (
            "                    (name: \"slant\", material: Glass),\n",
            "",
            "room.walls",
            "4 walls for 5 corners",
        ),
        ("ceiling_mm: 3400", "ceiling_mm: 34", "room.ceiling_mm", "found 34 mm"),
        ("name: \"tank\"", "name: \"gate\"", "things[0].name", "\"gate\" again"),
        ("diameter_mm: 700", "diameter_mm: 0", "things[0].shape.diameter_mm", "found 0 mm"),
        ("name: \"slant\"", "name: \"far\"", "room.walls[3].name", "\"far\" again"),
    ];
    for (was, now, field, part) in cases {
        let text = SOUND.replacen(was, now, 1);
        assert_ne!(text, SOUND, "{was}");
        let faults = parse_layout("b", "b", &text).unwrap_err();
        let said: Vec<String> = faults.iter().map(|fault| Language::English.file_fault(fault)).collect();
        let whole = format!(", {path}{field}");
        assert!(said.iter().any(|said| said.contains(&whole) && said.contains(part)), "{field}: {said:?}");
        assert!(said.iter().all(|said| said.contains("line ")), "{said:?}");
    }
}

/// What the arrangement says is said of its own building, not of the bay's.
#[test]
fn names_are_those_of_its_own_building() {
    for (was, now, field) in [
        ("thing: \"tank\"", "thing: \"bin\"", "arrangements[0].moved[0].thing"),
        ("door: \"gate\"", "door: \"north\"", "arrangements[0].doors[0].door"),
        ("moved: [", "on_runways: [\"left\"], moved: [", "arrangements[0].on_runways[0]"),
        (
            "moved: [",
            "added: [(name: \"slant\", kind: Bin, shape: Round(diameter_mm: 500), at_mm: (900, 900), top_mm: 900, material: \
             Steel, effort: OnePerson)], moved: [",
            "arrangements[0].added[0].name",
        ),
        ("building: (", "building: (name: \"x\",", "name"),
        ("building: (", "building: (survey: (source: Example, points: []),", "survey"),
    ] {
        let faults = parse_layout("b", "b", &SOUND.replacen(was, now, 1)).unwrap_err();
        let said = Language::English.file_fault(&faults[0]);
        assert!(said.contains(field), "{field}: {said}");
    }
    // A name of the bay's that its own building does not have is free.
    let free = SOUND.replacen("name: \"tank\"", "name: \"east\"", 1).replacen(
        "thing: \"tank\"",
        "thing: \"east\"",
        1,
    );
    assert!(parse_layout("b", "b", &free).is_ok());
}

/// Faults of a clockwise room stand where they are in the file, here as in the bay.
#[test]
fn faults_of_a_clockwise_building_stand_where_they_are() {
    let text = clockwise()
        .replacen(
            "wall: \"far\", from_mm: 500, width_mm: 3000",
            "wall: \"north\", from_mm: 6500, width_mm: 900",
            1,
        )
        .replacen("name: \"slant\"", "name: \"far\"", 1);
    let faults = parse_layout("b", "b", &text).unwrap_err();
    let said: Vec<String> = faults.iter().map(|fault| Language::English.file_fault(fault)).collect();
    let has = |part: &str| said.iter().any(|said| said.contains(part));
    let along = "arrangements[0].building.openings[0].width_mm: found an opening from 6500 to 7400 mm";
    assert!(has(along), "{said:?}");
    let twice = "arrangements[0].building.room.walls[1].name: found \"far\" again";
    assert!(has(twice) && has("arrangements[0].building.room.walls[3].name has it already"), "{said:?}");
}

/// Each arrangement may bring a whole building along: all together are bounded.
#[test]
fn buildings_are_counted() {
    use baywright_planner::model::validate::{self, limits};
    let mut layout = planned("crowded-bay");
    let mut own = layout.arrangements[1].building.clone().unwrap();
    let pattern = own.floor_features[0].clone();
    own.floor_features = (0..limits::MOST_FIXTURES)
        .map(|i| baywright_planner::model::FloorFeature {
            id: format!("joint {i}").into(),
            ..pattern.clone()
        })
        .collect();
    let first = layout.arrangements[1].clone();
    for i in 0..limits::MOST_PLACED / limits::MOST_FIXTURES {
        let mut another = first.clone();
        another.id = format!("planned {i}").into();
        another.building = Some(own.clone());
        layout.arrangements.push(another);
    }
    let faults = validate::layout(&layout);
    assert!(faults.iter().any(|fault| fault.field == "arrangements"), "{faults:?}");
}

#[test]
fn it_is_opened_with_its_car() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join(format!("building-open-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("b.ron");
    std::fs::write(&path, SOUND).unwrap();
    let loaded = open(&path, None).unwrap();
    let (_, made) = &loaded.arrangements[0];
    assert!(made.loading.own_building);
    assert_eq!((made.bay.ceiling_mm, made.bay.openings[0].shut), (3_400.0, false));
    assert_eq!(made.bay.things[0].place.at.origin(), DVec2::new(1_200.0, 900.0));
    std::fs::remove_dir_all(folder).unwrap();
}
